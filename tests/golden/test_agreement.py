"""Chart, words, folding and border of one piece say the same as the worked fabric, each read back on its own."""

import re

import pytest
from hookfold.charts import engrave
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.setting import Setting
from svg_counts import rows as svg_rows

#: Sub-paths of one glyph, counted by hand from the printed specimen: posts, bars and slashes.
SUBPATHS = {"sc": 2, "hdc": 2, "dc": 3, "ch": 1, "beginning-ch": 1, "bo": 6}

PATTERN = """
title = "Pocket sketchbook cover"
terms = "US"
hook = "6 mm"
[gauge]
stitches = 11
rows = 9
over = "10 cm"
border_stitches = 11
[object]
kind = "book"
height = "{height}"
wrap = "{wrap}"
flap = "55 mm"
chain_along = "{along}"
[colours]
A = {{ name = "slate", hex = "#4a5a6a" }}
B = {{ name = "straw", hex = "#e4d3a0" }}
[stitches.bobble]
is = "dc4tog in one st"
abbreviation = "bo"
{sections}
[border]
stitch = "sc"
joins = true
corner = 3
"""

FLAP = (
    '[[section]]\nname = "{name}"\nlength = "flap"\ncolour = "A"\nwork = "Row 1: Ch 2, turn. Hdc in each st across."\n'
)
BODY = '''[[section]]
name = "body"
length = "{length}"
stripes = ["A", "A", "B", "B"]
work = """
Row 1: Ch 2, turn. Hdc in each st across.
Row 2: Ch 1, turn. Sc in first {edge} sts, *bobble in next st, sc in next {gap} sts; rep from * across.
"""
'''


def pattern(along="height", edge=3, gap=3, height="150 mm", wrap="230 mm"):
    if along == "height":
        sections = (
            FLAP.format(name="front flap")
            + BODY.format(length="wrap", edge=edge, gap=gap)
            + FLAP.format(name="back flap")
        )
    else:
        sections = BODY.format(length="height", edge=edge, gap=gap)
    return PATTERN.format(height=height, wrap=wrap, along=along, sections=sections)


CASES = [
    {}, {"edge": 1, "gap": 5}, {"height": "210 mm", "wrap": "300 mm"}, {"along": "wrap"},
    {"along": "wrap", "edge": 1, "gap": 5},
]  # fmt: skip


@pytest.fixture(
    params=CASES, ids=["as written", "6 plus 1", "another size", "along the wrap", "along the wrap, 6 plus 1"]
)
def text(request):
    return pattern(**request.param)


def fabric_counts(row):
    out = {}
    for stitch in row.row.stitches:
        if stitch.role in ("turning", "start"):
            out["beginning-ch"] = out.get("beginning-ch", 0) + stitch.chains
        elif stitch.role == "chain":
            out["ch"] = out.get("ch", 0) + stitch.chains
        else:
            out[stitch.kind] = out.get(stitch.kind, 0) + 1
    return out


def test_every_glyph_of_the_full_chart_is_a_stitch_of_the_fabric(text):
    piece = engrave.work_file(text, "cover.toml")
    made = engrave.chart(text, "cover.toml", Setting(extent="full"), ("svg",))
    drawn = svg_rows(made["svg"])
    if len(drawn) < len(piece.fabric.rows):
        pytest.skip("the full chart is on several pages; the condensed one is read elsewhere")
    for row in piece.fabric.rows:
        wanted = {kind: n * SUBPATHS[kind] for kind, n in fabric_counts(row).items()}
        if row.number == 1:
            wanted.pop("beginning-ch", None)
            drawn[1].pop("beginning-ch", None)
        assert drawn[row.number] == wanted, row.label


@pytest.mark.parametrize("terms", ["US", "UK"])
def test_the_words_read_back_are_the_fabric(text, terms):
    piece = engrave.work_file(text, "cover.toml")
    words = engrave.instructions(text, "cover.toml", Setting(terms=terms))
    back = work_text(words, terms)
    assert not back.problems, [p.report() for p in back.problems]
    assert back.fabric.chains == piece.plan.foundation
    assert [r.row.kinds() for r in back.fabric.rows] == [r.row.kinds() for r in piece.fabric.rows]
    assert [r.row.made for r in back.fabric.rows] == [r.row.made for r in piece.fabric.rows]
    assert [r.side for r in back.fabric.rows] == [r.side for r in piece.fabric.rows]


def test_the_border_in_words_adds_up_to_the_border(text):
    piece = engrave.work_file(text, "cover.toml")
    words = engrave.instructions(text, "cover.toml", Setting())
    sums = re.findall(r"^ +([\d +]+) = (\d+) sc", words, re.MULTILINE)
    assert len(sums) == 1
    parts, total = sums[0]
    assert sum(int(n) for n in parts.split("+")) == int(total) == piece.border.total
    assert int(total) == sum(s.count for s in piece.border.stretches) + sum(c.count for c in piece.border.corners)


def test_rows_of_plan_fabric_and_words_are_the_same(text):
    piece = engrave.work_file(text, "cover.toml")
    assert len(piece.fabric.rows) == piece.plan.rows
    assert {r.row.made for r in piece.fabric.rows} == {piece.plan.stitches}
    raised = [r for r in piece.fabric.rows if "bo" in r.row.kinds()]
    assert raised and {r.side for r in raised} == {"WS"}


@pytest.mark.parametrize("gauge", ["stitches = 11.55", "stitches = 10.45"])
def test_a_gauge_five_per_cent_off_still_fits(gauge):
    text = pattern().replace("stitches = 11\n", gauge + "\n", 1)
    report = engrave.check(text, "cover.toml")
    assert not report.problems
    assert any("height" in line for line in report.lines())
