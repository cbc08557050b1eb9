"""Text as outlines: widths, coverage, breaking, and the licence that must lie beside the table."""

import re
from importlib import resources

import pytest
from hookfold.charts.drawing import letters
from hypothesis import given
from hypothesis import strategies as st

LATIN = [chr(c) for c in (*range(0x20, 0x7F), *range(0xA0, 0x180))]
SIGNS = "‐‑‒–—‘’‚“”„†‡•…‰′″‹›⁄€№™−×÷≈≠≤≥→←↑↓✓½¼¾⅓⅔⅛⅜⅝⅞°"
texts = st.text(st.sampled_from(LATIN), max_size=40)


@pytest.mark.parametrize("weight", ["regular", "bold"])
def test_the_type_has_every_character_it_promises(weight: str) -> None:
    missing = [c for c in (*LATIN, *SIGNS) if not letters.has(c, weight)]
    assert missing == []


@pytest.mark.parametrize("weight", ["regular", "bold"])
def test_figures_are_all_of_one_width(weight: str) -> None:
    assert len({letters.text_width(figure, 1.0, weight) for figure in "0123456789"}) == 1


@given(texts)
def test_widths_grow_with_the_size(text: str) -> None:
    assert letters.text_width(text, 6.0) == pytest.approx(2 * letters.text_width(text, 3.0))


@given(texts.filter(str.strip), st.sampled_from(["regular", "bold"]))
def test_no_ink_stands_far_outside_the_width(text: str, weight: str) -> None:
    xs = [x for x, _ in points(letters.outline(text, 10.0, weight))]
    if xs:
        assert min(xs) > -4.0
        assert max(xs) < letters.text_width(text, 10.0, weight) + 4.0


def points(d: str) -> list[tuple[float, float]]:
    """The end points of path data, by our own reading."""
    here = start = (0.0, 0.0)
    found = []
    for command, given_ in re.findall(r"([MmLlQqCcZz])([^MmLlQqCcZz]*)", d):
        values = [float(v) for v in given_.split()]
        if command in "zZ":
            here = start
            continue
        x, y = values[-2:]
        here = (here[0] + x, here[1] + y) if command.islower() else (x, y)
        start = here if command in "mM" else start
        found.append(here)
    return found


def test_a_capital_stands_on_the_line_and_is_as_tall_as_stated() -> None:
    ys = [y for _, y in points(letters.outline("H", 10.0))[1:]]
    assert max(ys) == 0.0
    assert min(ys) == pytest.approx(-letters.cap_height(10.0), abs=0.05)


def test_kerning_draws_a_pair_together() -> None:
    apart = letters.text_width("T", 10.0) + letters.text_width("o", 10.0)
    assert letters.text_width("To", 10.0) < apart - 0.3


def test_what_the_type_has_not_is_an_open_box() -> None:
    assert not letters.has("☃")
    assert letters.text_width("☃", 10.0) == pytest.approx(6.0)
    assert letters.outline("☃", 10.0).count("m") == 2


def test_spaces_have_width_and_no_ink() -> None:
    assert letters.text_width("  ", 10.0) > 0.0
    assert letters.outline("  ", 10.0) == ""


def test_an_unknown_weight_is_refused() -> None:
    with pytest.raises(ValueError, match="regular or bold"):
        letters.text_width("a", 1.0, "thin")


@given(texts, st.floats(5.0, 80.0))
def test_broken_lines_fit_and_keep_every_word(text: str, width: float) -> None:
    lines = letters.wrapped(text, width, 3.0)
    assert "".join("".join(lines).split()) == "".join(text.split())
    assert all(letters.text_width(line, 3.0) <= width or len(line) == 1 for line in lines)


@given(texts, st.floats(3.0, 80.0))
def test_a_cut_line_fits_and_says_that_it_was_cut(text: str, width: float) -> None:
    kept = letters.fitted(text, width, 3.0)
    assert kept == text or (kept.endswith("…") and letters.text_width(kept, 3.0) <= width)


def test_the_licence_lies_beside_the_table_which_does_not_use_the_reserved_name() -> None:
    beside = resources.files("hookfold.charts.drawing")
    licence = (beside / "outlines-licence.txt").read_text("utf-8")
    assert "SIL OPEN FONT LICENSE" in licence
    reserved = re.findall(r"Reserved Font Name '(\w+)'", licence)
    assert reserved
    assert not any(name.lower() in letters.type_table().name.lower() for name in reserved)


def test_a_word_too_long_is_broken_into_pieces_as_wide_as_there_is_room():
    room = letters.text_width("mmm", 4.0)
    assert letters.wrapped("m" * 7, room, 4.0) == ["mmm", "mmm", "m"]
    assert letters.wrapped("m" * 7, room - 0.01, 4.0) == ["mm", "mm", "mm", "m"]
    assert letters.wrapped("mm", 0.1, 4.0) == ["m", "m"]


def test_a_number_and_its_unit_stay_on_one_line():
    room = letters.text_width("(16 rows, 80", 3.0)
    assert letters.wrapped("(16 rows, 80 mm)", room, 3.0) == ["(16 rows,", "80 mm)"]
    assert letters.wrapped("worked 3 inside 4", letters.text_width("worked 3", 3.0), 3.0) == ["worked 3", "inside 4"]
    assert letters.wrapped("", room, 3.0) == []
