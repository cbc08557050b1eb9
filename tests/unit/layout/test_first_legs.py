"""A beginning chain that is the first leg of a cluster is drawn as chains beside its other legs, and said in the key."""

from __future__ import annotations

import pytest
from hookfold.charts.layout.placing.ink import mark_of
from hookfold.charts.layout.placing.placed import Spot
from hookfold.symbols.ink import Mark
from hookfold.symbols.pen import extent


def spot(feet):
    return Spot(0, "dc3tog", "stitch", (0.0, -2.0), feet, "top", 3, 3)


@pytest.mark.parametrize("feet", [((-1.0, 0.0), (0.0, 0.0), (1.0, 0.0)), ((-0.75, 0.0), (0.0, 0.0), (0.0, 0.0))])
def test_three_ovals_and_one_leg_less(feet):
    drawn, rest = mark_of(spot(feet)), mark_of(Spot(0, "dc2tog", "stitch", (0.0, -2.0), feet[1:], "top", 2))
    assert len(drawn.strokes) == len(rest.strokes) + 3
    assert drawn.strokes[3:] == rest.strokes


def test_the_lowest_oval_stands_over_the_first_foot():
    lowest = mark_of(spot(((-1.0, 0.0), (0.0, 0.0), (1.0, 0.0)))).strokes[0]
    left, top, right, bottom = extent(Mark((lowest,)))
    assert left < -0.8 < right and top < -0.1 < bottom + 0.2
