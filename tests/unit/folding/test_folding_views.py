"""Lines for the drawings: cuts across the layers, room for words, rows in view, clipping."""

import folding_plans as plans
import pytest
from hookfold.charts.folding.facets import seen
from hookfold.charts.folding.folds import folding_of
from hookfold.charts.folding.views import clipped, cut_across, doubled, hinge_of, roomiest, row_lines, touches
from shapely.geometry import Polygon, box


def test_a_book_cut_across_shows_body_and_both_flaps():
    cuts = cut_across(folding_of(plans.book()).end, "x")
    assert [(c.part, c.layer, c.side_up) for c in cuts] == [
        ("body", 0, "WS"), ("front flap", 1, "RS"), ("back flap", 1, "RS")
    ]  # fmt: skip
    assert cuts[0].end - cuts[0].start == pytest.approx(54 * plans.ROW_MM)
    assert [j for j, _ in cuts[0].folds] == [1, 2]
    assert {round(at, 3) for _, at in cuts[0].folds} == {round(cuts[0].start, 3), round(cuts[0].end, 3)}


def test_a_pouch_is_cut_upright():
    cuts = cut_across(folding_of(plans.pouch()).end, "y")
    assert [c.layer for c in cuts] == [0, 1, 2]


def test_what_is_doubled_of_a_book_is_its_flaps():
    zone = doubled(folding_of(plans.book()).end)
    assert sum(z.area for z in zone) == pytest.approx(2 * 9 * plans.ROW_MM * 42 * plans.STITCH_MM)


def test_words_get_the_largest_rectangle():
    step = Polygon([(0, 0), (50, 0), (50, 10), (20, 10), (20, 40), (0, 40)])
    assert roomiest(step) == pytest.approx((0, 0, 20, 40))
    assert roomiest(box(1, 2, 3, 4)) == pytest.approx((1, 2, 3, 4))


def test_rows_in_view_lie_on_the_facet():
    folding = folding_of(plans.book())
    flap = seen(folding.end)[1]
    lines = row_lines(flap, folding.piece, 1)
    assert len(lines) == 8, "nine rows have eight lines between them"
    x0, _, x1, _ = flap.facet.shape.bounds
    assert all(x0 < x < x1 for line in lines for x, _ in line)


def test_clipping_keeps_what_is_inside():
    assert clipped([((0, 5), (20, 5))], (5, 0, 10, 10)) == (((5, 5), (10, 5)),)
    assert clipped([((0, 50), (20, 50))], (5, 0, 10, 10)) == ()
    assert touches(box(0, 0, 10, 10), (5, 5, 20, 20)) and not touches(box(0, 0, 10, 10), (10, 0, 20, 10))


def test_neighbours_share_a_hinge_and_strangers_none():
    body, front, back = folding_of(plans.book()).end.facets
    assert hinge_of(front, body) is not None
    assert hinge_of(front, back) is None
