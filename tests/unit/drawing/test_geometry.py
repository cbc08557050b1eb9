"""Affine maps, the one number formatter, and merged path data."""

import math

import pytest
from hookfold.charts.drawing.geometry import PEN_LIMIT_MM, Affine, ink_of, number, path_data, pen_mm
from hookfold.symbols import PEN, extent, glyph
from hypothesis import given
from hypothesis import strategies as st

numbers = st.floats(-50, 50)
maps = st.builds(
    lambda x, y, turn, by: Affine.shift(x, y) @ Affine.rotate(turn) @ Affine.scale(by),
    numbers, numbers, st.floats(-360, 360), st.floats(0.1, 9),
)  # fmt: skip


@pytest.mark.parametrize(
    ("value", "text"),
    [(0.0, "0"), (-0.0, "0"), (-0.0004, "0"), (1.0, "1"), (1.25, "1.25"), (2 / 3, "0.667"), (-100.0, "-100")],
)
def test_numbers_leave_with_three_decimals_and_no_minus_nought(value: float, text: str) -> None:
    assert number(value) == text


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_what_is_not_finite_is_refused(value: float) -> None:
    with pytest.raises(ValueError, match="finite"):
        number(value)


@given(st.floats(-1e6, 1e6))
def test_a_number_is_within_half_a_thousandth(value: float) -> None:
    assert abs(float(number(value)) - value) <= 0.0005 + 1e-9


@given(maps, maps, st.tuples(numbers, numbers))
def test_maps_compose(outer: Affine, inner: Affine, point: tuple[float, float]) -> None:
    assert (outer @ inner).point(point) == pytest.approx(outer.point(inner.point(point)), abs=1e-6)


def test_a_mirror_undoes_itself() -> None:
    mirror = Affine.mirror(7.0)
    assert (mirror @ mirror).point((3.0, 4.0)) == (3.0, 4.0)
    assert mirror.point((7.0, 1.0)) == (7.0, 1.0)


@given(maps)
def test_a_mapped_mark_stays_in_its_mapped_box(to: Affine) -> None:
    shown = glyph("dc2tog")
    moved, box = extent(to.mark(shown.mark)), to.box(shown.box)
    slack = PEN
    assert box[0] - slack <= moved[0] and moved[2] <= box[2] + slack
    assert box[1] - slack <= moved[1] and moved[3] <= box[3] + slack


def test_strokes_and_fills_become_one_ink_each_with_the_scaled_pen() -> None:
    picot, dc = glyph("picot").mark, glyph("dc").mark
    inks = ink_of([(picot, Affine()), (dc, Affine.shift(2.0, 0.0))], 3.0, "#112233", name="row 1")
    assert [(i.stroke, i.fill, round(i.width, 6)) for i in inks] == [
        ("#112233", "", round(3.0 * PEN, 6)), ("", "#112233", 0.0),
    ]  # fmt: skip
    assert inks[0].d.count("M") == len(picot.strokes) + len(dc.strokes)


def test_the_pen_follows_the_stitch_up_to_a_limit() -> None:
    """Charts are never printed below 3 mm a stitch: the pen is then 0.3 mm."""
    weights = [pen_mm(stitch) for stitch in (3.0, 4.0, 5.0, 7.0, 12.0)]
    assert weights == pytest.approx([0.3, 0.4, PEN_LIMIT_MM, PEN_LIMIT_MM, PEN_LIMIT_MM])


def test_a_row_without_fills_has_no_empty_ink() -> None:
    assert len(ink_of([(glyph("dc").mark, Affine())], 3.0, "#000000")) == 1


def test_path_data_is_absolute_and_short() -> None:
    assert path_data(glyph("hdc").mark.strokes) == "M0 -0.12L0 -1.4M-0.33 -1.4L0.33 -1.4"
