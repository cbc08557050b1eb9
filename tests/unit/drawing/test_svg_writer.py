"""The display list as SVG: true size, same bytes, plain names, words kept, bad input refused."""

import math
from dataclasses import replace
from xml.etree import ElementTree

import pytest
from hookfold.charts.drawing.checker import violations
from hookfold.charts.drawing.display import Group, Ink, Sheet, Text
from hookfold.charts.drawing.geometry import Affine, ink_of
from hookfold.charts.drawing.letters import text_width
from hookfold.charts.drawing.svg import write
from hookfold.symbols import glyph

SVG = "{http://www.w3.org/2000/svg}"
HREF = "{http://www.w3.org/1999/xlink}href"


def sheet(*items: Ink | Text | Group, title: str = "Test sheet") -> Sheet:
    return Sheet(210.0, 297.0, title, items, desc="For the tests.")


def root_of(*items: Ink | Text | Group) -> ElementTree.Element:
    return ElementTree.fromstring(write(sheet(*items)))


def test_a_sheet_keeps_to_the_subset() -> None:
    row = ink_of([(glyph(kind).mark, Affine.scale(3.0)) for kind in ("dc", "sl st")], 3.0, "#1d1d1b")
    dashed = Ink("M10 20L200 20", stroke="#1D1D1B", width=0.3, dash=(1.6, 1.0), name="fold")
    words = Text(10.0, 20.0, "Row 1 (RS) → <&>\"'", 3.0, "middle", "bold", angle=-90.0)
    assert violations(write(sheet(Group("Row 1", (*row, dashed, words), "Row 1, right side")))) == []


def test_the_size_is_true() -> None:
    root = root_of()
    assert (root.get("width"), root.get("height"), root.get("viewBox")) == ("210mm", "297mm", "0 0 210 297")


def test_the_page_is_painted_first() -> None:
    tags = [e.tag.removeprefix(SVG) for e in root_of(Ink("M0 0L1 1", stroke="#000000", width=1.0))]
    assert tags == ["title", "desc", "rect", "path"]


def test_a_letter_is_drawn_once_and_laid_down_wherever_it_stands() -> None:
    """Each in its size and weight; the sheet says in which language its words are."""
    root = root_of(Text(1.0, 2.0, "hook, hoop", 3.0), Text(1.0, 9.0, "oh", 3.0), Text(1.0, 9.0, "oh", 3.0, weight="bold"))
    defined = [path.get("id") for path in root.find(SVG + "defs")]
    assert len(defined) == len(set(defined)) == len(set("hook,hoop")) + len(set("oh"))
    lines = [[use.get(HREF) for use in line.iter(SVG + "use")] for line in root.iter(SVG + "g")]
    assert [len(line) for line in lines] == [9, 2, 2]
    assert lines[0][1] == lines[0][2] == lines[1][0] != lines[2][0]
    assert {name.removeprefix("#") for line in lines for name in line} == set(defined)
    assert root.get("{http://www.w3.org/XML/1998/namespace}lang") == "en"


def test_the_same_sheet_gives_the_same_bytes() -> None:
    item = Text(1.0, 2.0, "ch 3", 3.0)
    assert write(sheet(item)) == write(sheet(item))


def test_names_become_ids_in_plain_words_each_used_once() -> None:
    names = ("Row 1 (RS)", "Row 1 (RS)", "Fällung", "50 mm square")
    root = root_of(*(Group(name, ()) for name in names))
    ids = [g.get("id") for g in root.iter(SVG + "g")]
    assert ids == ["row-1-rs", "row-1-rs-2", "fallung", "part-50-mm-square"]


def test_a_name_that_looks_like_a_numbered_one_stays_unique() -> None:
    ids = [g.get("id") for g in root_of(Group("a-2", ()), Group("a", ()), Group("a", ())).iter(SVG + "g")]
    assert len(set(ids)) == 3


@pytest.mark.parametrize("length", [57, 58, 59, 60, 61, 200])
def test_long_names_are_cut_and_stay_unique(length: int) -> None:
    names = ["long" * length, "x" * length, "x" * 58 + "-2"] * 12
    ids = [str(g.get("id")) for g in root_of(*(Group(name[:length], ()) for name in names)).iter(SVG + "g")]
    assert len(set(ids)) == len(names) and max(map(len, ids)) <= 60


def test_titles_and_descriptions_come_first_in_their_group() -> None:
    group = next(root_of(Group("g", (Ink("M0 0L1 1", fill="#000000"),), "Title", "Longer")).iter(SVG + "g"))
    assert [e.tag.removeprefix(SVG) for e in group] == ["title", "desc", "path"]


def test_words_go_along_with_their_outlines() -> None:
    path = next(root_of(Text(10.0, 20.0, "hdc & sc", 3.0)).iter(SVG + "g"))
    assert (path.get("aria-label"), path.get("font-size"), path.get("transform")) == (
        "hdc & sc", "3", "translate(10 20)",
    )  # fmt: skip


@pytest.mark.parametrize(("anchor", "share"), [("start", 0.0), ("middle", 0.5), ("end", 1.0)])
def test_anchors_move_by_the_exact_width(anchor: str, share: float) -> None:
    path = next(root_of(Text(100.0, 20.0, "count", 4.0, anchor)).iter(SVG + "g"))
    x = float(path.get("transform", "").removeprefix("translate(").split()[0])
    assert x == pytest.approx(100.0 - share * text_width("count", 4.0), abs=0.0006)


def test_dashes_are_cut_square_and_lines_are_round() -> None:
    line = Ink("M0 0L1 1", stroke="#000000", width=0.2)
    solid, dashed = root_of(line, replace(line, dash=(1.0, 0.5))).iter(SVG + "path")
    assert (solid.get("stroke-linecap"), dashed.get("stroke-linecap")) == ("round", "butt")
    assert dashed.get("stroke-dasharray") == "1 0.5"


@pytest.mark.parametrize("colour", ["red", "#fff", "#12345678", "url(#a)", "rgb(1 2 3)", "#12345g"])
def test_other_colours_are_refused(colour: str) -> None:
    with pytest.raises(ValueError, match="not a colour"):
        write(sheet(Ink("M0 0L1 1", fill=colour)))


@pytest.mark.parametrize("d", ["", "L1 1", "M0 0A1 1 0 0 0 2 2", "Mnan 0", 'M0 0"/><script/>', "M0 0Linf 1"])
def test_other_path_data_is_refused(d: str) -> None:
    with pytest.raises(ValueError, match="path data"):
        write(sheet(Ink(d, fill="#000000")))


@pytest.mark.parametrize("bad", [math.nan, math.inf])
def test_places_that_are_not_finite_are_refused(bad: float) -> None:
    with pytest.raises(ValueError, match="finite"):
        write(sheet(Text(bad, 0.0, "x", 3.0)))


@pytest.mark.parametrize(
    "words", ["<script>alert(1)</script>", "]]>", "&#x0;", "a\0b", "\ud800", "\u202ex", "x" * 5000]
)
def test_hostile_words_stay_words(words: str) -> None:
    group = Group(words, (Text(1.0, 1.0, words, 3.0),), words, words)
    written = write(Sheet(10.0, 10.0, words, (group,), desc=words))
    assert violations(written) == []
    assert b"<script" not in written
