"""Shapes of five and eight sides, ovals, picots, wide rows and sheets of their own size, measured on the finished file.

That a stitch keeps over what it goes into and that nothing touches is common practice of printed charts, no source.
"""

import itertools
import math
import re
import statistics
import xml.etree.ElementTree as ET

import pytest
from hookfold.charts.drawing import svg
from hookfold.charts.output.drawn import written_chart
from hookfold.charts.output.written import worked_text
from hookfold.charts.setting import Setting
from svg_ruler import SVG, overlaps, read, text_over_glyphs

#: A solid motif of n sides, its first round 2 dc a side.
FIRST = "Rnd 1 (RS): Ch 3 (counts as dc), dc in ring, ch {c}, [2 dc in ring, ch {c}] {more} times, join with sl st in top of beg ch-3."
NEXT = (
    "Rnd 2: Ch 3 (counts as dc), dc in next dc, (dc, ch {c}, dc) in next ch-{c} sp, *dc in next 2 dc, (dc, ch {c}, dc) in next "
    "ch-{c} sp; rep from * around, join with sl st in top of beg ch-3."
)
PICOTS = """Terms: US
Picot: Ch 3, sl st in 3rd ch from hook.
Over 19 sc.
Row 1 (RS): Ch 1, sc in first sc, *sk next 2 sc, 7 dc in next sc, sk next 2 sc, sc in next sc; rep from * across, turn.
Row 2: Ch 1, sc in first sc, *[dc in next dc, picot] 6 times, dc in next dc, sc in next sc; rep from * across.
"""
OVAL = """Terms: US
Ch 13.
Rnd 1 (RS): 3 dc in 4th ch from hook (beg 3 sk ch count as dc), dc in next 8 ch, 6 dc in last ch; working along opposite side \
of foundation chain, dc in next 8 ch, 2 dc in last ch, join with sl st in top of beg ch-3. (28 dc)
"""


def document(text):
    return written_chart(worked_text(text, "piece.txt"), "piece.txt", Setting())


def motif(sides, chains):
    more = sides - 1
    return "Terms: US\nMake a magic ring.\n" + "\n".join(t.format(c=chains, more=more) for t in (FIRST, NEXT)) + "\n"


@pytest.mark.parametrize(("sides", "chains"), [(5, 2), (8, 1)])
def test_motifs_of_five_and_eight_sides_have_straight_sides(sides, chains):
    found = read(svg.write(document(motif(sides, chains)).sheets[0]))
    stitches = [g for g in found.glyphs if g.row == "round-2" and g.kind in ("dc", "beginning-ch", "ch")]
    middle = [statistics.fmean(v) for v in zip(*[(g.ink.centroid.x, g.ink.centroid.y) for g in stitches], strict=True)]
    heads = [g.lines[0][-1] for g in stitches if g.kind == "dc"]
    corners = [g.ink.centroid.coords[0] for g in stitches if g.kind == "ch"]
    far = statistics.fmean(math.dist(p, middle) for p in heads)
    assert statistics.fmean(math.dist(p, middle) for p in corners) > far * 1.06
    turns = sorted(math.atan2(y - middle[1], x - middle[0]) for x, y in corners)
    firsts = turns[:: len(turns) // sides]
    steps = [b - a for a, b in itertools.pairwise(firsts)]
    assert len(firsts) == sides and all(abs(s - math.tau / sides) < 0.08 for s in steps)
    assert overlaps(found) == []


def test_the_stitches_along_an_oval_stand_upright_and_its_ends_are_even():
    found = read(svg.write(document(OVAL).sheets[0]))
    stems = [(g.lines[0][0], g.lines[0][-1]) for g in found.glyphs if g.kind == "dc"]
    chain = [g.ink.centroid.x for g in found.glyphs if g.row == "centre"]
    low, high = min(chain) + 1.0, max(chain) - 1.0
    along = [abs(math.degrees(math.atan2(b[0] - a[0], abs(b[1] - a[1])))) for a, b in stems if low < a[0] < high]
    assert len(along) >= 12 and statistics.fmean(along) < 12.0 and max(along) < 32.0, along
    assert overlaps(found) == []


def test_picots_on_neighbouring_stitches_clear_each_other_and_shells_keep_over_their_feet():
    found = read(svg.write(document(PICOTS).sheets[0]))
    assert overlaps(found) == [] and text_over_glyphs(found) == []
    shells = [g.lines[0] for g in found.glyphs if g.row == "row-1" and g.kind == "dc"]
    for k in range(0, len(shells), 7):
        feet, tops = ([line[end][0] for line in shells[k : k + 7]] for end in (0, -1))
        assert abs(statistics.fmean(feet) - statistics.fmean(tops)) < 2.5  # mm: a third of a stitch


@pytest.mark.parametrize("text", [PICOTS, motif(5, 2)])
def test_a_sheet_of_its_own_size_is_cropped_to_what_is_drawn(text):
    made = document(text)
    whole, page = (ET.fromstring(svg.write(sheet)) for sheet in (made.whole, made.sheets[0]))
    tall = [float(root.attrib["height"].removesuffix("mm")) for root in (whole, page)]
    assert page.attrib["height"] in ("297mm", "210mm") and tall[0] < tall[1]
    drawn = read(svg.write(made.whole))
    footer = min(s.bounds[1] for words, s in drawn.texts if "mm to a stitch" in words)
    lowest = max(s.bounds[3] for words, s in drawn.texts if s.bounds[3] < footer - 1.0)
    assert footer - lowest < 16.0  # mm: nothing but a rule and the last line's room between


def test_the_root_tells_what_every_row_is_made_of():
    root = ET.fromstring(svg.write(document(PICOTS).sheets[0]))
    said = root.find(f"{SVG}desc").text
    assert re.search(r"Row 1: [^;]*21 dc", said) and re.search(r"Row 2: [^;]*18 picot", said)
