"""Every stitch as a group of its own, with an id in plain words; and sheets in black and greys only."""

import re
import xml.etree.ElementTree as ET
from collections import Counter
from pathlib import Path

import pytest
import svg_ruler
from hookfold.charts import engrave
from hookfold.charts.drawing.checker import violations
from hookfold.charts.drawing.mono import grey_of
from hookfold.charts.drawing.style import contrast
from hookfold.charts.drawing.svg import write
from hookfold.charts.layout.chart.either import chart_document
from hookfold.charts.layout.sheets.chart_setting import NotInSquares
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.setting import ChartSetting, Heading, Setting

GALLERY = Path(__file__).parents[3] / "gallery"
APART = ChartSetting(stitches="separate")
ROWS = """Ch 14.
Row 1 (RS): Sc in 2nd ch from hook and in each ch across, turn.
Row 2: Ch 4 (counts as dc and ch 1), sk next sc, *dc in next sc, ch 2, sk next 2 sc; rep from * 2 more times, dc in last sc, turn.
Row 3: Ch 1, sc in back loop only of first dc, sc in next 2 ch, picot, sc in next dc.
"""
ROUNDS = """Ch 6, join with sl st in first ch to form ring.
Rnd 1: Ch 3 (counts as dc), dc in ring, ch 2, *2 dc in ring, ch 2; rep from * 4 more times, join with sl st in top of beg ch-3.
Rnd 2: Sl st in next dc and in next ch-2 sp, ch 1, 3 sc in same sp, *3 sc in next ch-2 sp; rep from * around, join with sl st in first sc.
"""


def drawn(text, extra=None):
    worked = work_text(text)
    document = chart_document(worked.fabric, Heading("Apart"), Setting(extent="full"), extra=extra)
    return worked.fabric, write(document.sheets[0])


def groups(svg):
    """The groups of single stitches by the id of their row."""
    root = ET.fromstring(svg)
    rows = [g for g in root.iter(f"{svg_ruler.SVG}g") if re.fullmatch(r"(row|round)-\d+|foundation|centre", g.get("id", ""))]
    return {row.get("id"): [g for g in row if g.tag == f"{svg_ruler.SVG}g"] for row in rows}


@pytest.mark.parametrize("text", [ROWS, ROUNDS], ids=["rows", "rounds"])
def test_each_stitch_is_a_group_named_by_its_row_and_number(text):
    """As many as the row makes, in the order of work; chains, joins and picots are numbered for themselves."""
    fabric, svg = drawn(text, APART)
    assert violations(svg) == []
    found = groups(svg)
    for worked in fabric.rows:
        row = f"{'round' if worked.is_round else 'row'}-{worked.number}"
        names = [g.get("id").removeprefix(f"{row}-") for g in found[row]]
        counted = Counter(re.sub(r"-\d+$", "", name) for name in names)
        roles = Counter(s.role for s in worked.row.stitches)
        assert counted["stitch"] == worked.row.made
        assert counted["chain"] == worked.row.chains
        assert counted["beginning-chain"] == roles["start"]
        assert counted["join"] == roles["join"] and counted["picot"] == roles["picot"]
        assert counted["slip-stitch"] == roles["travel"]
        assert [n for n in names if n.startswith("stitch")] == [f"stitch-{k + 1}" for k in range(worked.row.made)]


@pytest.mark.parametrize("text", [ROWS, ROUNDS], ids=["rows", "rounds"])
def test_the_ink_is_the_same_as_together(text):
    """What a stitch looks like and where it stands does not hang on how the file is grouped."""
    together, apart = (svg_ruler.read_page(drawn(text, extra)[1]) for extra in (None, APART))

    def boxes(sheet):
        return sorted(tuple(round(v, 2) for v in shape.bounds) for shape in sheet.inks)

    assert boxes(together) == boxes(apart)


def test_a_grid_has_no_stitches_to_part():
    worked = work_text((GALLERY / "fabrics" / "filet-heart.txt").read_text("utf-8"))
    with pytest.raises(NotInSquares, match="--stitches separate"):
        chart_document(worked.fabric, Heading("Grid"), Setting(), extra=ChartSetting(style="squares", stitches="separate"))


COLOURED = (GALLERY / "field-book-cover" / "pattern.toml").read_text("utf-8")


@pytest.mark.parametrize("sheet", ["chart", "assembly"])
def test_mono_is_black_and_greys_only(sheet):
    """Every colour of the file has three equal parts; in colour some have not."""
    drawing = {"chart": engrave.chart, "assembly": engrave.assembly}[sheet]
    found = {}
    for tone in ("colour", "mono"):
        svg = drawing(COLOURED, "cover.toml", Setting(tone=tone), ("svg",))["svg"].decode()
        found[tone] = set(re.findall(r"""=["'](#[0-9a-fA-F]{3,8}|rgb[^"']*)["']""", svg))
        assert not re.search(r"style=|<style|fill=\"(?!#|none)|stroke=\"(?!#|none)", svg)
    assert found["mono"] and all(re.fullmatch(r"#(..)\1\1", colour) for colour in found["mono"])
    assert not all(re.fullmatch(r"#(..)\1\1", colour) for colour in found["colour"])


def test_squares_in_mono_are_grey():
    text = (GALLERY / "fabrics" / "filet-heart.txt").read_text("utf-8")
    extra = ChartSetting(style="squares")
    svg = engrave.chart(text, "filet-heart.txt", Setting(tone="mono"), ("svg",), extra)["svg"].decode()
    assert all(re.fullmatch(r"#(..)\1\1", colour) for colour in re.findall(r'"(#[0-9a-f]{6})"', svg))


@pytest.mark.parametrize("colour", ["#3a6ead", "#1d1d1b", "#a3402a", "#e4d3a0", "#00ff00", "#000001"])
def test_a_grey_is_as_light_as_its_colour(colour):
    assert contrast(grey_of(colour), colour) < 1.03
