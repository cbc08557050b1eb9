"""Finished flat charts, measured on the SVG by a reader that knows nothing of the layout."""

from __future__ import annotations

import collections
import dataclasses
import itertools
import re
import xml.etree.ElementTree as ET

import cloth
import pytest
import svg_ruler
from hookfold.charts.drawing.style import contrast
from hookfold.charts.drawing.svg import write
from hookfold.charts.layout.chart.condense import OPEN
from hookfold.charts.layout.chart.either import ChartSetting, Colour, chart_document
from hookfold.charts.layout.sheets.chart_setting import PALE, RowNotShown
from hookfold.charts.model.cloth.fabric import Fabric
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.setting import Heading, Setting

HEADING = Heading(
    "Field-book cover", "Ada Loopwell", "CC BY 4.0", "250 × 385 mm", "17 sts and 14 rows = 10 cm", "4 mm"
)
COLOURS = {"A": Colour("moss", "#55713f"), "B": Colour("oat", "#dccba7")}

FABRICS = {
    "sc": cloth.each("sc", 40, 12, 1, False),
    "hdc": cloth.each("hdc", 40, 6, 2, True),
    "dc": cloth.each("dc", 40, 6, 3, True),
    "shells": cloth.shells(9, 6),
    "v-stitches": cloth.v_stitches(9, 5),
    "mesh": cloth.mesh(9, 5),
    "trellis": cloth.trellis(9, 6),
    "ripple": cloth.ripple(3, 6),
    "bobbles": cloth.bobbles(9, 6),
    "widening": cloth.triangle(5, 8, 1),
    "narrowing": cloth.triangle(20, 8, -1),
}


def dressed(fabric: Fabric) -> Fabric:
    """The fabric in stripes of two rows and two sections."""
    rows = tuple(
        dataclasses.replace(r, colour="AABB"[i % 4], section="front flap" if i < 3 else "body")
        for i, r in enumerate(fabric.rows)
    )
    return dataclasses.replace(fabric, rows=rows)


def sheets(fabric: Fabric, setting: Setting, **more) -> list[svg_ruler.ReadSheet]:
    words = {"bobble": "5 dc worked together in one stitch"}
    document = chart_document(fabric, HEADING, setting, COLOURS, words, **more)
    return [svg_ruler.read(write(sheet)) for sheet in document.sheets]


@pytest.mark.parametrize("name", FABRICS)
@pytest.mark.parametrize(
    "setting",
    [Setting(), Setting(hand="left", terms="UK", paper="Letter", tone="mono")],
    ids=["right-us-a4", "left-uk-letter"],
)
def test_nothing_touches_and_nothing_leaves_the_page(name, setting):
    for sheet in sheets(dressed(FABRICS[name]), setting):
        assert svg_ruler.overlaps(sheet) == []
        assert svg_ruler.outside(sheet) == []
        assert svg_ruler.text_over_glyphs(sheet) == []


@pytest.mark.parametrize("name", FABRICS)
def test_every_glyph_of_a_whole_chart_is_there(name):
    """Extent full: the glyphs counted in the file are the stitches and chains of the fabric, row by row."""
    fabric = FABRICS[name]
    (sheet,) = sheets(fabric, Setting(extent="full"))
    for i, worked in enumerate(fabric.rows):
        found = collections.Counter(g.kind for g in sheet.glyphs if g.row == f"row-{i + 1}")
        wanted: collections.Counter[str] = collections.Counter()
        for made in worked.row.stitches:
            kind = {"turning": "beginning-ch", "start": "beginning-ch"}.get(made.role, made.kind)
            wanted[kind] += made.chains or 1
        assert found == wanted


def test_crosses_of_the_other_form_do_not_touch_either():
    (sheet,) = sheets(FABRICS["sc"], Setting(sc_form="x"))
    assert svg_ruler.overlaps(sheet) == []


def test_a_condensed_chart_keeps_the_counts_of_the_whole_row():
    (sheet,) = sheets(cloth.each("sc", 80, 12, 1, False), Setting())
    title, desc = sheet.groups["row-1"]
    assert title == "Row 1, right side, 80 stitches"
    assert desc == "80 sc"
    assert any(words == "rows 2–3," for words, _ in sheet.texts)
    assert any(words == "5 times in all" for words, _ in sheet.texts)
    assert sum(1 for g in sheet.glyphs if g.row == "row-1") < 20


def test_tops_are_even_as_drawn():
    """Bars of dc: their middles are within 15 % of even on the page, but for one place where columns are cut out."""
    (sheet,) = sheets(cloth.each("dc", 80, 6, 3, True), Setting())
    for row in ("row-1", "row-2"):
        middles = sorted(g.ink.centroid.x for g in sheet.glyphs if g.row == row and g.kind == "dc")
        *gaps, widest = sorted(b - a for a, b in itertools.pairwise(middles))
        mean = sum(gaps) / len(gaps)
        assert all(abs(gap - mean) < 0.15 * mean for gap in gaps)
        assert widest == pytest.approx((1.0 + OPEN) * mean, rel=0.05)


def test_left_hand_is_the_mirror_image_with_letters_upright():
    (right,), (left,) = (sheets(FABRICS["shells"], Setting(hand=hand)) for hand in ("right", "left"))
    there = sorted(round(g.ink.centroid.x - right.width / 2, 1) for g in right.glyphs)
    back = sorted(round(right.width / 2 - g.ink.centroid.x, 1) for g in left.glyphs)
    width = max(there) - min(there)
    assert max(back) - min(back) == pytest.approx(width, abs=0.3)
    ones = [shape.centroid.x for words, shape in left.texts if words == "1"]
    assert max(ones) < min(g.ink.bounds[0] for g in left.glyphs)
    said = [{word for words, _ in sheet.texts for word in words.split()} for sheet in (right, left)]
    assert said[0] ^ said[1] == {"right-handed", "left-handed"}


def test_the_key_has_only_what_is_used_in_the_readers_terms():
    for terms, expected in (
        ("US", {"single crochet", "double crochet"}),
        ("UK", {"double crochet", "treble"}),
    ):
        (sheet,) = sheets(FABRICS["shells"], Setting(terms=terms))
        words = {text for text, _ in sheet.texts}
        assert expected <= words
        assert "half double crochet" not in words and "half treble" not in words


def test_colours_are_named_by_letter():
    (sheet,) = sheets(dressed(FABRICS["sc"]), Setting())
    words = [text for text, _ in sheet.texts]
    assert "moss" in words and "oat" in words and words.count("A") >= 2


def test_a_large_chart_is_tiled_with_its_cuts_named():
    read = sheets(cloth.each("sc", 90, 100, 1, False), Setting(extent="full"))
    assert len(read) > 3
    words = [text for sheet in read[1:] for text, _ in sheet.texts]
    assert any(text.startswith("part B1, from stitch ") for text in words)
    assert any(text.startswith("part A2, from row ") for text in words)
    assert {"10", "20", "90", "100"} <= set(words)
    assert any(text.startswith("part A1: Row 1 to Row ") for text in words)
    for sheet in read:
        assert svg_ruler.outside(sheet) == []
        assert svg_ruler.overlaps(sheet) == []


def test_tiles_hold_every_stitch_and_share_one_row():
    fabric = cloth.each("sc", 60, 60, 1, False)
    read = sheets(fabric, Setting(extent="full"))
    rows = [{g.row for g in sheet.glyphs if g.row.startswith("row")} for sheet in read[1:]]
    assert set().union(*rows) == {f"row-{i}" for i in range(1, 61)}
    lines = sorted({tuple(sorted(r, key=lambda n: int(n[4:]))) for r in rows}, key=lambda t: int(t[0][4:]))
    for low, high in itertools.pairwise(lines):
        assert len(set(low) & set(high)) == 1


def test_cells_are_never_below_three_millimetres():
    for name in FABRICS:
        document = chart_document(FABRICS[name], HEADING, Setting(), COLOURS)
        scales = [
            item for sheet in document.sheets for item in _texts(sheet.items) if "mm to a stitch" in item
        ]
        assert all(float(text.split("drawn")[1].split("mm")[0]) >= 3.0 for text in scales) and scales


def _texts(items):
    for item in items:
        if hasattr(item, "items"):
            yield from _texts(item.items)
        elif hasattr(item, "text"):
            yield item.text


def test_all_but_a_lit_row_are_pale():
    document = chart_document(FABRICS["sc"], HEADING, Setting(), extra=ChartSetting(lit_row=2))
    root = ET.fromstring(write(document.sheets[0]))
    inks = {
        group.get("id"): {path.get("stroke") for path in group.iter(f"{svg_ruler.SVG}path") if path.get("stroke")}
        for group in root.iter(f"{svg_ruler.SVG}g")
        if re.fullmatch(r"row-\d+|foundation", group.get("id") or "")
    }
    assert PALE not in inks["row-2"]
    assert all(strokes == {PALE} for name, strokes in inks.items() if name != "row-2" and strokes)
    assert contrast(PALE, "#ffffff") >= 3.0


def test_a_row_that_is_not_drawn_cannot_be_lit():
    with pytest.raises(RowNotShown, match=r"row 99 is not drawn: this chart shows rows 1"):
        chart_document(FABRICS["sc"], HEADING, Setting(), extra=ChartSetting(lit_row=99))



def test_the_same_fabric_gives_the_same_bytes():
    one, two = (chart_document(cloth.shells(9, 6), HEADING, Setting(), COLOURS) for _ in range(2))
    assert [write(s) for s in one.sheets] == [write(s) for s in two.sheets]


def test_a_fabric_without_rows_is_refused():
    with pytest.raises(ValueError, match="no rows"):
        chart_document(Fabric("chain", cloth.foundation(5), (), 5), HEADING, Setting())


def test_colours_that_a_pattern_only_letters_get_a_ground_each_and_are_named_so():
    document = chart_document(dressed(FABRICS["sc"]), HEADING, Setting())
    read = svg_ruler.read(write(document.sheets[0]))
    words = [text for text, _ in read.texts]
    assert "yarn A" in words and "yarn B" in words and words.count("B") >= 2


def test_colours_named_by_words_get_letters():
    rows = tuple(
        dataclasses.replace(r, colour=("moss", "B", "")[i % 3]) for i, r in enumerate(FABRICS["sc"].rows)
    )
    fabric = dataclasses.replace(FABRICS["sc"], rows=rows)
    read = svg_ruler.read(write(chart_document(fabric, HEADING, Setting(extent="full")).sheets[0]))
    words = [text for text, _ in read.texts]
    assert "moss" in words and "yarn B" in words and words.count("A") >= 2
    assert svg_ruler.text_over_glyphs(read) == []


@pytest.mark.parametrize(
    ("below", "begins"),
    [("Over 9 sc.\n", "begin at the lowest row, which is there already,"), ("Ch 10.\n", "begin at the foundation and")],
)
def test_the_sheet_says_where_to_begin(below, begins):
    row = "Row 1: Sc in each st across." if "Over" in below else "Row 1: Sc in 2nd ch from hook and in each ch across."
    drawn = chart_document(work_text(f"Terms: US\n{below}{row}\n").fabric, Heading("Edge"), Setting(), {}, {}, None)
    labels = " ".join(re.findall(r'aria-label="([^"]*)"', write(drawn.sheets[0]).decode()))
    assert begins in labels and "not the gauge" in labels
