"""The pen: exact boxes, frames, curves."""

import math

import pytest
from hookfold.symbols import PEN, Mark, extent
from hookfold.symbols.pen import arc, circle, curve, ellipse, frame, line, moved, path_box, solid, strokes
from hypothesis import given
from hypothesis import strategies as st

places = st.tuples(st.floats(-9, 9), st.floats(-9, 9))


def test_a_stroke_s_box_is_its_path_and_half_the_pen_on_every_side() -> None:
    assert extent(strokes(line((0.0, 0.0), (2.0, -1.0)))) == pytest.approx(
        (-PEN / 2, -1.0 - PEN / 2, 2.0 + PEN / 2, PEN / 2)
    )


def test_a_fill_s_box_has_no_pen() -> None:
    assert extent(solid(circle((1.0, 1.0), 0.5))) == pytest.approx((0.5, 0.5, 1.5, 1.5), abs=1e-9)


def test_no_ink_has_no_box() -> None:
    with pytest.raises(ValueError, match="without ink"):
        extent(Mark())


@given(places, places, places, places)
def test_a_curve_s_box_holds_every_point_of_it_and_touches_it_on_all_sides(a, b, c, d) -> None:
    left, top, right, bottom = path_box(curve(a, (b, c, d)))
    steps = [i / 400 for i in range(401)]
    xs, ys = ([_bezier([p[i] for p in (a, b, c, d)], t) for t in steps] for i in (0, 1))
    for value, low, high in ((xs, left, right), (ys, top, bottom)):
        assert low - 1e-9 <= min(value) <= low + 0.01
        assert high - 0.01 <= max(value) <= high + 1e-9


def _bezier(v: list[float], t: float) -> float:
    s = 1 - t
    return s**3 * v[0] + 3 * s * s * t * v[1] + 3 * s * t * t * v[2] + t**3 * v[3]


def test_an_arc_keeps_its_radius() -> None:
    start, *steps = arc((1.0, 2.0), 3.0, 10.0, 250.0)
    ends = [start[1][0], *(points[-1] for _, points in steps)]
    assert [math.dist((1.0, 2.0), p) for p in ends] == pytest.approx([3.0] * len(ends))


def test_an_oval_turned_a_quarter_has_its_box_turned() -> None:
    assert path_box(ellipse((0.0, 0.0), 2.0, 1.0, 90.0)) == pytest.approx((-1.0, -2.0, 1.0, 2.0))


def test_two_equal_points_make_an_upright_frame() -> None:
    assert frame((1.0, 1.0), (1.0, 1.0)).up == (0.0, -1.0)


@given(places, places)
def test_a_frame_leads_from_foot_to_head(foot, head) -> None:
    way = frame(foot, head)
    if way.length > 1e-6:
        assert way.at(0.0, way.length) == pytest.approx(head, abs=1e-6)


def test_moving_a_mark_moves_its_box() -> None:
    mark = strokes(circle((0.0, 0.0), 1.0))
    box = extent(mark)
    assert extent(moved(mark, 2.0, 3.0)) == pytest.approx((box[0] + 2, box[1] + 3, box[2] + 2, box[3] + 3))
