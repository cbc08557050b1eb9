"""Arrows and the ends of measured lines: where they point, and how large their heads are, reckoned on the ink."""

import math
import re

import pytest
from hookfold.charts.drawing.style import style
from hookfold.charts.layout.sheets.marks import (
    HEAD_MM,
    arrow,
    arrow_points,
    fill_head,
    head,
    level_dimension,
    upright_dimension,
)
from svg_ruler import sub_paths

STYLE = style(mono=False)
#: A tip, and the way it points: to the right, down, and aslant.
WAYS = [((3.0, 4.0), 0.0), ((-2.0, 1.0), math.pi / 2), ((5.0, 5.0), 2.5)]


def corners(ink):
    """The tip of a head and the two ends of its back."""
    (line,) = sub_paths(ink.d)
    return line[:3]


def points_along(tip, back, other):
    """The way a head points, how long and how broad it is."""
    middle = ((back[0] + other[0]) / 2, (back[1] + other[1]) / 2)
    return math.atan2(tip[1] - middle[1], tip[0] - middle[0]), math.dist(tip, middle), math.dist(back, other)


@pytest.mark.parametrize(("tip", "angle"), WAYS)
@pytest.mark.parametrize(("make", "size", "broad"), [(head, HEAD_MM, HEAD_MM / 3), (fill_head, 4.0, 4.0 / 1.3)])
def test_a_head_has_its_tip_where_it_points_to_and_its_back_behind(tip, angle, make, size, broad):
    found = corners(make(tip, angle, "#000000", size))
    assert found[0] == pytest.approx(tip, abs=2e-3)
    way, long, wide = points_along(*found)
    assert math.remainder(way - angle, math.tau) == pytest.approx(0.0, abs=2e-3)
    assert (long, wide) == pytest.approx((size, broad), abs=3e-3)


@pytest.mark.parametrize("bow", [0.0, 0.3, -0.3])
def test_an_arrow_runs_from_its_start_to_its_end_bowed_to_the_left_of_its_way(bow):
    start, end = (0.0, 0.0), (20.0, 0.0)
    line, tip = arrow(start, end, STYLE, bow=bow)
    (way,) = sub_paths(line.d)
    assert way[0] == pytest.approx(start) and math.dist(way[-1], end) < HEAD_MM * 1.3
    assert corners(tip)[0] == pytest.approx(end, abs=2e-3)
    middle = arrow_points(start, end, bow)[12]
    assert middle == pytest.approx((10.0, -0.75 * 20.0 * bow))  # y is downward: the left of a way to the right is up
    angle, _, _ = points_along(*corners(tip))
    assert math.sin(angle) == pytest.approx(math.sin(math.atan2(20.0 * bow, 4.0)), abs=2e-2)


@pytest.mark.parametrize("long", [40.0, 3.0])
@pytest.mark.parametrize("upright", [False, True])
def test_heads_of_a_measured_line_touch_its_ends_from_inside_or_from_outside_where_it_is_short(long, upright):
    make = upright_dimension if upright else level_dimension
    items = make(10.0, 10.0 + long, 50.0, 60.0, "40 mm", STYLE)
    heads = [corners(i) for i in items if getattr(i, "fill", "") and re.fullmatch(r"M[^M]*Z", i.d) and len(sub_paths(i.d)[0]) == 4]
    assert len(heads) == 2
    at = 1 if upright else 0
    tips = sorted(h[0][at] for h in heads)
    assert tips == pytest.approx([10.0, 10.0 + long], abs=2e-3)
    for tip, back, other in heads:
        inward = (back[at] + other[at]) / 2 - tip[at] > 0
        is_first = abs(tip[at] - 10.0) < 0.1
        assert inward == (is_first if long > 2.6 * HEAD_MM else not is_first)
