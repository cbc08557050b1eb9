"""A stitch with a longer one in front of it shows only its ends."""

from dataclasses import replace

import cloth
from hookfold.charts.layout.chart.reading import hidden_words
from hookfold.charts.layout.chart.view import covered
from hookfold.charts.layout.placing.behind import behind
from hookfold.charts.layout.placing.ink import mark_of, name_of, row_inks
from hookfold.charts.layout.placing.laid import lay_fabric
from hookfold.charts.layout.placing.placed import Spot
from hookfold.charts.model.cloth.fabric import Foot, Row, Stitch
from hookfold.symbols import draw


def spiked(count=7, at=3):
    """Two rows of sc and a third whose middle stitch goes in two rows down."""
    first = cloth.Hook(cloth.foundation(count)).start(1).do("sc", count).row()
    second = cloth.Hook(first).start(1).do("sc", count).row()
    third = cloth.Hook(second).start(1).do("sc", count).row()
    items = list(third.stitches)
    spot = next(i for i, s in enumerate(items) if s.feet and s.feet[0].at == at)
    below = next(i for i, s in enumerate(second.stitches) if s.feet and second.stitches[at].feet == s.feet)
    foot = Foot(second.stitches[below].feet[0].at, 2)
    items[spot] = Stitch("sc", (foot,))
    return cloth.fabric(count + 1, [first, second, Row(tuple(items))], risen=1)


def test_a_spike_covers_one_stitch_of_the_row_between():
    courses = covered(lay_fabric(spiked()).courses)
    under = [s for c in courses for s in c.laid.spots if s.under]
    assert len(under) == 1 and under[0].kind == "sc"
    assert name_of(under[0]) == "sc covered"
    assert len(mark_of(under[0]).strokes) == 2
    assert hidden_words(under)


def test_a_row_without_a_spike_over_it_stays_the_same_object():
    laid = lay_fabric(spiked())
    courses = covered(laid.courses)
    assert courses[0].laid is laid.courses[0].laid
    assert courses[1].laid is not laid.courses[1].laid
    assert courses[2].laid is laid.courses[2].laid


def test_what_crosses_a_stem_is_broken_with_white_on_both_sides():
    stem = ((0.0, -4.0), (0.0, 1.0))
    pieces = behind(draw("dc", [(0.0, 0.0)], (0.0, -2.1)), [stem]).strokes
    xs = sorted(p[0] for piece in pieces for _, points in piece for p in points)
    assert len(pieces) == 2
    assert all(abs(x) > 0.15 for x in xs)


def test_ink_beside_a_stem_is_left_as_it_is():
    mark = draw("dc", [(2.0, 0.0)], (2.0, -2.1))
    assert behind(mark, [((0.0, -4.0), (0.0, 1.0))]) == mark


def test_a_chain_with_a_stem_in_front_of_it_is_two_ends_and_the_others_are_whole():
    run = Spot(0, "ch", "chain", (0.5, -0.2), chains=2, ovals=((0.0, 0.0, 0.0), (1.0, 0.0, 0.0)))
    kinds = {k.name: (k.count, len(k.strokes)) for k in row_inks([replace(run, under=(((0.0, -2.0), (0.0, 2.0)),))], 7.0)}
    assert kinds == {"ch": (1, 1), "ch covered": (1, 2)}
    beside = replace(run, under=(((3.0, -2.0), (3.0, 2.0)),))
    assert {k.name: k.count for k in row_inks([beside], 7.0)} == {"ch": 2}
