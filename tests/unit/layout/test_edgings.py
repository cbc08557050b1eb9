"""Edgings on a row that is there already: what is old and what is new, brackets and cuts in the white.

Measured on the finished sheet. Source: that an old row is told from the work, and that neither a bracket nor a cut runs
through a stitch, is common practice of printed charts, no source.
"""

import math
import xml.etree.ElementTree as ET

import pytest
import svg_ruler
from hookfold.charts.drawing.style import contrast
from hookfold.charts.drawing.svg import write
from hookfold.charts.layout.chart.either import chart_document
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.setting import Heading, Setting
from shapely import LineString
from svg_ruler import SVG

PICOTS = """Terms: US
Picot: Ch 3, sl st in 3rd ch from hook.
Over 22 sc.
Row 1 (RS): Ch 1, sc in first sc, *picot, sc in next 4 sc; rep from * to last sc, picot, sc in last sc. Fasten off.
"""
WAVES = """Terms: US
Picot: Ch 3, sl st in 3rd ch from hook.
Over 57 sc.
Row 1 (RS): Ch 1, sc in first sc, *ch 7, sk next 7 sc, sc in next sc; rep from * across, turn.
Row 2: Ch 1, sc in first sc, *(sc, hdc, 5 dc, hdc, sc) in next ch-7 sp, sc in next sc; rep from * across, turn.
Row 3: Ch 1, sc in first sc, *ch 4, sk next 4 sts, (sc, picot, sc) in next dc, ch 4, sk next 4 sts, sc in next sc; rep from * \
across. Fasten off.
"""


def written(text, **more):
    found = work_text(text)
    assert not found.problems
    return write(chart_document(found.fabric, Heading("Edge"), Setting(**more)).sheets[0])


def paths(svg, group):
    return [p for g in ET.fromstring(svg).iter(f"{SVG}g") if g.attrib.get("id") == group for p in g.iter(f"{SVG}path")]


@pytest.mark.parametrize("hand", ["right", "left"])
@pytest.mark.parametrize("text", [PICOTS, WAVES], ids=["picots", "waves"])
def test_the_ends_of_a_bracket_run_up_through_no_stitch(text, hand):
    svg = written(text, hand=hand)
    read = svg_ruler.read(svg)
    (line,) = [p.attrib["d"] for p in paths(svg, "stitch-repeat") if "stroke" in p.attrib and p.attrib["stroke"] != "none"]
    points = svg_ruler.sub_paths(line)[0]
    for x in (min(p[0] for p in points), max(p[0] for p in points)):
        up = LineString([(x, 0.0), (x, read.height)])
        assert not [g.kind for g in read.glyphs if g.ink.intersects(up)]


@pytest.mark.parametrize("hand", ["right", "left"])
def test_a_bracket_names_every_row_that_works_the_repeat(hand):
    (says,) = {words for words, _ in svg_ruler.read(written(WAVES, hand=hand)).texts if words.startswith("repeat of")}
    assert says.startswith("repeat of 8 sts: 7 times") and "row" not in says


@pytest.mark.parametrize("hand", ["right", "left"])
def test_a_cut_has_white_on_both_sides_all_the_way_up(hand):
    svg = written(WAVES, hand=hand)
    read = svg_ruler.read(svg)
    lines = [p.attrib["d"] for p in paths(svg, "break")]
    assert lines
    for d in lines:
        way = LineString(svg_ruler.sub_paths(d)[0])
        assert min(way.distance(g.ink) for g in read.glyphs) > 0.5


@pytest.mark.parametrize("hand", ["right", "left"])
def test_a_row_that_is_there_already_is_named_and_paler_than_the_work(hand):
    svg = written(PICOTS, hand=hand)
    (old,) = {p.attrib["stroke"] for p in paths(svg, "foundation")}
    (new,) = {p.attrib["stroke"] for p in paths(svg, "row-1") if p.attrib.get("stroke", "none") != "none"}
    assert contrast(old, "#ffffff") < contrast(new, "#ffffff") / 2 and contrast(old, "#ffffff") >= 3.0
    read = svg_ruler.read(svg)
    old_row = [g.ink for g in read.glyphs if g.row == "foundation"]
    letters = [at for words, at in read.texts if words == "edge"]
    assert letters
    for place in letters:
        assert min(g.bounds[1] for g in old_row) < place.centroid.y < max(g.bounds[3] for g in old_row)
    assert any(words == "the row that is there already" for words, _ in read.texts)


def test_the_mark_of_a_cut_yarn_is_no_arrow_head():
    """Hollow, in lines that cross and two rings; nothing solid that narrows to a point."""
    svg = written(PICOTS)
    marks = [p for p in paths(svg, "yarn-marks") if p.attrib["id"].startswith("fasten-off")]
    assert marks and all(p.attrib.get("fill", "none") == "none" for p in marks)
    strokes = [s for p in marks for s in svg_ruler.sub_paths(p.attrib["d"])]
    blades = [LineString(s) for s in strokes if len(s) == 2]
    assert len(strokes) == 4 and len(blades) == 2 and blades[0].crosses(blades[1])


def test_the_mark_of_the_beginning_is_a_loop_that_crosses_itself():
    svg = written("Ch 9.\nRow 1: Sc in 2nd ch from hook and in each ch across.")
    (mark,) = [p for p in paths(svg, "yarn-marks") if p.attrib["id"].startswith("begin")]
    (loop,) = svg_ruler.sub_paths(mark.attrib["d"])
    assert not LineString(loop).is_simple


@pytest.mark.parametrize("hand", ["right", "left"])
def test_stitches_under_picots_stand_upright_on_what_they_go_into(hand):
    """Each stem square to the row, and straight over the stem of the row that is there already."""
    read = svg_ruler.read(written(PICOTS, hand=hand))
    stems = {row: [g.lines[0] for g in read.glyphs if g.row == row and g.kind == "sc"] for row in ("foundation", "row-1")}
    assert len(stems["row-1"]) == len(stems["foundation"]) == 22
    old = sorted(foot[0] for foot, _ in stems["foundation"])
    for (foot, head), x in zip(sorted(stems["row-1"]), old, strict=True):
        assert abs(foot[0] - head[0]) < 0.1 and abs(foot[0] - x) < 0.1


HUMPS = """Terms: US
Over 31 sc.
Row 1 (RS): Ch 1, sc in first sc, *ch 4, sk next 4 sc, sc in next sc; rep from * across, turn.
Row 2: Ch 1, sc in first sc, *(hdc, 2 dc, hdc) in next ch-4 sp, sc in next sc; rep from * across. Fasten off.
"""


@pytest.mark.parametrize("hand", ["right", "left"])
def test_lower_stitches_at_the_ends_of_a_shell_are_lower(hand):
    """A half double has 1.5 and a double 2.1 stitch widths, or .71 of it."""
    read = svg_ruler.read(written(HUMPS, hand=hand))
    longest = {
        kind: [max(LineString(line).length for line in g.lines) for g in read.glyphs if g.row == "row-2" and g.kind == kind]
        for kind in ("hdc", "dc")
    }
    assert max(longest["hdc"]) < 0.8 * min(longest["dc"])


FANS = """Terms: US
Picot: Ch 3, sl st in 3rd ch from hook.
Over 17 sc.
Row 1 (RS): Ch 1, sc in first sc, *sk next 3 sc, [dc in next sc, picot] 1 time, (dc, picot, dc, picot, dc, picot, dc) in same sc, \
sk next 3 sc, sc in next sc; rep from * across. Fasten off.
"""


def test_a_picot_in_a_fan_stands_midway_between_its_neighbours():
    """Square to the line between the heads on either side, about as near to one as to the other."""
    read = svg_ruler.read(written(FANS))
    picots = [g for g in read.glyphs if g.kind.endswith("picot")]
    assert picots
    for picot in picots:
        middle = picot.ink.centroid.coords[0]
        heads = [g.lines[0][-1] for g in read.glyphs if g.kind == "dc" and g.row == picot.row]
        one, other = sorted(math.dist(middle, head) for head in heads)[:2]
        assert other < 1.08 * one
