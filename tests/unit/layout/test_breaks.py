"""The break of a condensed chart: where it is found, what it says, and that it meets nothing on the finished sheet."""

import xml.etree.ElementTree as ET

import cloth
import pytest
import svg_ruler as ruler
from hookfold.charts.drawing import svg
from hookfold.charts.layout.chart.breaks import Break, break_words, find_break
from hookfold.charts.layout.chart.condense import cut_columns, without_strip
from hookfold.charts.layout.chart.flat import flat_document
from hookfold.charts.layout.chart.tiles import tiles_of
from hookfold.charts.layout.placing.laid import lay_fabric, mirrored
from hookfold.charts.setting import ChartSetting, Heading, Setting
from shapely import unary_union

OPEN = {
    "hdc": cloth.each("hdc", 70, 3, 2, False),
    "dc": cloth.each("dc", 71, 3, 3, True),
    "bobbles": cloth.bobbles(19, 4),
    "mesh": cloth.mesh(31, 4),
}
CLOSED = {"shells": cloth.shells(9, 5), "trellis": cloth.trellis(11, 4)}
EVERY = OPEN | CLOSED


def sheet_of(fabric, **setting):
    document = flat_document(fabric, Heading("Cut"), Setting(**setting), {}, {}, None, ChartSetting())
    return svg.write(document.sheets[0])


def mark(written):
    """The inks of the break as (id, shape)."""
    groups = [g for g in ET.fromstring(written).iter(f"{ruler.SVG}g") if g.attrib.get("id") == "break"]
    return [
        (path.attrib["id"], shape)
        for group in groups
        for path in group.iter(f"{ruler.SVG}path")
        for shape in ruler.shapes_of(path.attrib["d"], float(path.attrib["stroke-width"]), False)
    ]


@pytest.mark.parametrize("name", CLOSED)
def test_lace_whose_rows_reach_over_each_other_is_not_cut(name):
    whole = lay_fabric(CLOSED[name])
    assert cut_columns(whole).laid is whole and find_break(whole) is None


@pytest.mark.parametrize("name", OPEN)
def test_the_break_is_found_where_the_strip_was_taken_out(name):
    whole = lay_fabric(EVERY[name])
    cut = cut_columns(whole)
    found = find_break(cut.laid)
    assert found.missing == round(cut.removed / whole.spacing)
    assert abs(found.x - cut.at - cut.opened / 2) < 0.6 * whole.spacing
    assert find_break(mirrored(cut.laid)).x == pytest.approx(-found.x)
    assert find_break(whole) is None


def test_a_narrow_strip_is_found():
    laid = lay_fabric(cloth.each("sc", 20, 2, 1, False))
    assert find_break(without_strip(laid, 4.5, 1.0)) == Break(4.5, 1, True)
    assert find_break(without_strip(laid, 4.5, 2.0, 0.6)) == Break(4.8, 2, True)


@pytest.mark.parametrize(
    ("found", "says"),
    [
        (
            Break(1.0, 24, True),
            "Where two slanted strokes cut the foundation, 24 chains and all that stands on them are left out.",
        ),
        (
            Break(1.0, 1, True),
            "Where two slanted strokes cut the foundation, 1 chain and all that stands on it are left out.",
        ),
        (
            Break(1.0, 6, False),
            "Where two slanted strokes cut the foundation, 6 stitches and all that stands on them are left out.",
        ),
    ],
)
def test_the_notes_say_what_is_left_out(found, says):
    assert break_words(found) == says


@pytest.mark.parametrize("hand", ["right", "left"])
@pytest.mark.parametrize("name", OPEN)
def test_the_mark_meets_nothing(name, hand):
    """At least half a millimetre of white between the mark and every glyph, letter and bracket."""
    written = sheet_of(EVERY[name], hand=hand)
    marks = mark(written)
    strokes = [shape for called, shape in marks if called.startswith("break-stroke")]
    lines = [shape for called, shape in marks if called.startswith("break-line")]
    assert len(strokes) == 2 and len(lines) == (1 if name in OPEN else 0)
    sheet = ruler.read(written, {"bobble": (5, "dc")})
    drawn = unary_union([shape for _, shape in marks])
    near = [g for g in sheet.glyphs if g.ink.distance(drawn) < 0.5]
    assert not near, near[0]
    assert all(shape.distance(drawn) > 0.5 for _, shape in sheet.texts)
    own = {shape.wkt for _, shape in marks}
    others = [shape for shape in sheet.inks if shape.wkt not in own]
    assert len(others) == len(sheet.inks) - len(marks)
    assert all(shape.distance(drawn) > 0.5 for shape in others)
    assert not ruler.outside(sheet) and not ruler.overlaps(sheet) and not ruler.text_over_glyphs(sheet)


@pytest.mark.parametrize("name", EVERY)
def test_nothing_is_marked_where_nothing_is_left_out(name):
    assert mark(sheet_of(EVERY[name], extent="full")) == []


@pytest.mark.parametrize("right", [True, False])
def test_stitches_at_the_cuts_of_pages_count_what_is_left_out(right):
    laid = without_strip(lay_fabric(cloth.each("sc", 60, 2, 1, False)), 9.5, 20.0, 0.6)
    first, last = (tile for tile in tiles_of(laid, (30.0, 9.0), starts_right=right) if tile.line == 0)
    ends = [(tile.at_right, tile.at_left) if right else (tile.at_left, tile.at_right) for tile in (first, last)]
    assert ends[0][0] == 1 and ends[1][1] == 60
    assert ends[1][0] == ends[0][1]
    assert ends[0][1] - ends[0][0] + 1 == (21 if right else 21 + 20)
