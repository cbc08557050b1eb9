"""The fold engine: maps, which side is up, stacking, what is seen, what is refused."""

import math

import pytest
from hookfold.charts.folding.facets import (
    IDENTITY,
    Facet,
    FoldBlocked,
    Stack,
    carry,
    compose,
    determinant,
    fold_all,
    fold_part,
    inverse,
    polygons,
    reflection,
    seen,
    side_of,
    turned_over,
    unfolded,
)  # fmt: skip
from shapely.geometry import Polygon, box


def flat(width=100.0, height=40.0):
    return Stack((Facet(box(0, 0, width, height)),))


UP = ((70.0, 40.0), (70.0, 0.0))


def test_a_reflection_is_its_own_inverse_and_turns_the_cloth_over():
    mirror = reflection((3.0, 1.0), (8.0, 5.0))
    assert determinant(mirror) == pytest.approx(-1)
    assert compose(mirror, mirror) == pytest.approx(IDENTITY)
    assert inverse(mirror) == pytest.approx(mirror)
    assert carry(mirror, (3.0, 1.0)) == pytest.approx((3.0, 1.0))


def test_left_of_a_line_that_goes_up_the_page_is_the_smaller_x():
    assert side_of(UP, (10.0, 20.0)) > 0 > side_of(UP, (90.0, 20.0))


def test_a_valley_lays_the_part_on_top_with_its_wrong_side_up():
    stack = fold_part(flat(), UP, "right", "over")
    assert [f.side_up for f in stack.facets] == ["RS", "WS"]
    assert stack.layers == (0, 1)
    assert stack.silhouette.bounds == pytest.approx((0, 0, 70, 40))
    assert stack.facets[1].shape.bounds == pytest.approx((40, 0, 70, 40))


def test_a_mountain_lays_the_part_underneath():
    stack = fold_part(flat(), UP, "right", "under")
    assert [f.side_up for f in stack.facets] == ["WS", "RS"]
    assert stack.facets[1].shape.bounds == pytest.approx((0, 0, 70, 40))


def test_folding_all_layers_twice_makes_four():
    once = fold_all(flat(), ((50.0, 40.0), (50.0, 0.0)), "right", "over")
    twice = fold_all(once, ((25.0, 40.0), (25.0, 0.0)), "right", "over")
    assert twice.layers == (0, 1, 2, 3)
    assert [f.side_up for f in twice.facets] == ["RS", "WS", "RS", "WS"]
    assert twice.silhouette.bounds == pytest.approx((0, 0, 25, 40))


def test_a_slanting_fold_of_a_general_polygon_keeps_its_area():
    kite = Stack((Facet(Polygon([(0, 0), (60, 10), (90, 50), (20, 70)])),))
    stack = fold_all(kite, ((10.0, 60.0), (70.0, 5.0)), "left", "over")
    assert sum(f.flat.area for f in stack.facets) == pytest.approx(kite.silhouette.area, rel=1e-6)
    assert unfolded(stack).symmetric_difference(kite.silhouette).area == pytest.approx(0, abs=1e-2)


def test_what_a_flap_covers_is_hidden_and_its_own_edge_in_view():
    stack = fold_part(flat(), UP, "right", "over")
    under, over = seen(stack)
    assert sum(a.area for a in under.area) == pytest.approx(40 * 40)
    assert sum(a.area for a in over.area) == pytest.approx(30 * 40)
    assert not over.hidden_edges
    back = seen(turned_over(stack))
    hidden = sum(line.length for line in back[0].hidden_edges)
    assert hidden == pytest.approx(40), "only the flap's inner edge lies hidden; the others meet the outline"


def test_turning_over_shows_the_other_side_and_turns_back():
    stack = fold_part(flat(), UP, "right", "over")
    over = turned_over(stack)
    assert [f.side_up for f in over.facets] == ["RS", "WS"]
    for back, before in zip(turned_over(over).facets, stack.facets, strict=True):
        assert back.to_plane == pytest.approx(before.to_plane)


@pytest.mark.parametrize(
    ("line", "why"),
    [
        (((5.0, 5.0), (5.0, 5.0)), "no length"),
        (((200.0, 0.0), (200.0, 40.0)), "does not cross"),
        (((100.0, 0.0), (100.0, 40.0)), "does not divide"),
    ],
)
def test_lines_that_make_no_fold_are_refused(line, why):
    with pytest.raises(FoldBlocked, match=why):
        fold_part(flat(), line, "right", "over")


def test_a_part_held_down_by_another_layer_cannot_be_folded():
    once = fold_part(flat(), ((30.0, 40.0), (30.0, 0.0)), "left", "over")
    with pytest.raises(FoldBlocked, match="holds it down"):
        fold_part(once, ((45.0, 40.0), (45.0, 0.0)), "right", "over")
    assert fold_part(once, ((45.0, 40.0), (45.0, 0.0)), "right", "under").layers == (0, 1, 2)


def test_a_line_bent_by_an_earlier_fold_is_refused():
    once = fold_part(flat(), UP, "right", "over")
    with pytest.raises(FoldBlocked, match="bends"):
        fold_part(once, ((50.0, 40.0), (95.0, 0.0)), "right", "over")


def test_slivers_are_nothing():
    assert polygons(box(0, 0, 1e-6, 1)) == ()
    assert math.isclose(polygons(box(0, 0, 1, 1))[0].area, 1)
