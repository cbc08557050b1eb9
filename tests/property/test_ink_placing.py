"""Placing ink: a stencil laid down is the marks drawn there; any display list gives the same bytes twice."""

import re

import pytest
from hookfold.charts.drawing.checker import violations
from hookfold.charts.drawing.display import Group, Ink, Sheet, Text
from hookfold.charts.drawing.geometry import Affine, path_data, stencil
from hookfold.charts.drawing.svg import write
from hookfold.symbols import glyph, heights
from hypothesis import given
from hypothesis import strategies as st

KINDS = [*heights(), "dc2tog", "dc-bobble-5", "picot", "FPdc", "ch"]
places = st.tuples(st.floats(-200, 400), st.floats(-200, 400))
colours = st.from_regex(r"#[0-9a-f]{6}", fullmatch=True)
texts = st.builds(
    Text, st.floats(0, 200), st.floats(0, 200), st.text(max_size=30), st.floats(1.0, 9.0),
    st.sampled_from(["start", "middle", "end"]), st.sampled_from(["regular", "bold"]), colours,
    st.floats(-180, 180), st.text(max_size=12),
)  # fmt: skip
inks = st.builds(
    lambda kind, at, colour, name: Ink(
        path_data(glyph(kind).mark.strokes, Affine.shift(*at) @ Affine.scale(3.0)) or "M0 0", stroke=colour,
        width=0.3, name=name,
    ),
    st.sampled_from(KINDS), places, colours, st.text(max_size=12),
)  # fmt: skip
groups = st.builds(
    Group, st.text(max_size=12), st.lists(st.one_of(texts, inks), max_size=4).map(tuple), st.text(max_size=12)
)


@given(st.lists(st.tuples(st.sampled_from(KINDS), places), min_size=1, max_size=6), places)
def test_a_stencil_laid_down_is_the_marks_drawn_there(row, at) -> None:
    placed = [(glyph(kind).mark, Affine.shift(*where) @ Affine.scale(3.0)) for kind, where in row]
    drawn = [path_data(m.strokes, Affine.shift(*at) @ to) for m, to in placed]
    laid = stencil(placed).at(*at)[0]
    wanted = [p for d in drawn for p in ends(d)]
    got = ends(laid)[1:] if laid else []
    assert len(got) == len(wanted)
    for one, other in zip(got, wanted, strict=True):
        assert one == pytest.approx(other, abs=0.002)


def ends(d: str) -> list[tuple[float, float]]:
    """Where each step of path data ends, by our own reading."""
    here = start = (0.0, 0.0)
    found = []
    for command, numbers in re.findall(r"([MmLlCcQqZz])([^MmLlCcQqZz]*)", d):
        values = [float(v) for v in numbers.split()]
        if command in "Zz":
            here = start
        else:
            x, y = values[-2:]
            here = (here[0] + x, here[1] + y) if command.islower() else (x, y)
            start = here if command in "Mm" else start
        found.append(here)
    return found


@given(st.lists(st.one_of(texts, inks, groups), max_size=5), st.text(max_size=20))
def test_any_sheet_keeps_to_the_subset_and_gives_the_same_bytes_twice(items, title) -> None:
    sheet = Sheet(210.0, 297.0, title or "Sheet", tuple(items))
    written = write(sheet)
    assert write(sheet) == written
    assert violations(written) == []
