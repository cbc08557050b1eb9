"""What stands at the ends of rows: their numbers and counts, and the chains that they begin with.

Measured on the finished sheet. Source: that a number stands beside the row it names, and that no two glyphs touch, is
common practice of printed charts, no source.
"""

import functools

import pytest
import svg_ruler
from hookfold.charts.drawing.svg import write
from hookfold.charts.layout.chart.either import chart_document
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.setting import Heading, Setting
from shapely import union_all

FAN = """Terms: US
Ch 11.
Row 1 (RS): Dc in 4th ch from hook (beg 3 sk ch count as dc) and in each ch across, turn. (9 dc)
Row 2: Ch 3 (counts as dc), 2 dc in first dc, dc in next 7 dc, 3 dc in last dc, turn. (13 dc)
Row 3: Ch 3 (counts as dc), 2 dc in first dc, dc in next 11 dc, 3 dc in last dc, turn. (17 dc)
Row 4: Ch 3 (counts as dc), 2 dc in first dc, dc in next 15 dc, 3 dc in last dc, turn. (21 dc)
"""
LACE = """Terms: US
Ch 9.
Row 1 (RS): (Dc, ch 2, dc) in 6th ch from hook (beg 5 sk ch count as dc and 2 sk ch), sk next 2 ch, dc in last ch, turn.
""" + "\n".join(
    f"Row {n}: Ch 3 (counts as dc), (dc, ch 2, dc) in first dc, (dc, ch 2, dc) in each ch-2 sp across, "
    "(dc, ch 2, 2 dc) in top of beg ch, turn." for n in range(2, 17)
)


@functools.cache
def sheet(text, **more):
    """A text's whole chart read back, drawn once for all that ask."""
    found = work_text(text)
    assert not found.problems
    document = chart_document(found.fabric, Heading("Try"), Setting(extent="full", **more))
    return svg_ruler.read(write(document.whole or document.sheets[0]))


def drawn(read, row):
    return [g for g in read.glyphs if g.row == f"row-{row}"]


@pytest.mark.parametrize("hand", ["right", "left"])
@pytest.mark.parametrize("text", [FAN, LACE], ids=["fan", "lace"])
def test_a_number_stands_beside_the_chains_its_row_begins_with(text, hand):
    """Halfway up them, and nearer to them than to those of any other row on that side."""
    read = sheet(text, hand=hand)
    begun = {}
    for row in range(1, 30):
        chains = [g.ink for g in drawn(read, row) if g.kind == "beginning-ch"]
        if chains:
            begun[row] = union_all(chains)
    numbers = {int(words): place for words, place in read.texts if words.isdigit()}
    assert len(begun) >= 4
    for row, chains in begun.items():
        low, high = chains.bounds[1], chains.bounds[3]
        assert low < numbers[row].centroid.y < high, row
        others = [abs(c.centroid.y - numbers[row].centroid.y) for r, c in begun.items() if r % 2 == row % 2 and r != row]
        assert abs(chains.centroid.y - numbers[row].centroid.y) < min(others) / 3.0


def test_the_number_of_a_row_that_ends_inside_the_picture_is_near_it():
    read = sheet(LACE)
    numbers = {int(words): place for words, place in read.texts if words.isdigit()}
    for row in range(2, 10):
        chains = union_all([g.ink for g in drawn(read, row) if g.kind == "beginning-ch"])
        assert chains.distance(numbers[row]) < 14.0, row


@pytest.mark.parametrize("hand", ["right", "left"])
@pytest.mark.parametrize("text", [FAN, LACE], ids=["fan", "lace"])
def test_chains_that_begin_a_row_keep_off_the_stitches_in_the_same_place(text, hand):
    """From the ink of one to the ink of another there is white."""
    read = sheet(text, hand=hand)
    for row in range(2, 30):
        chains = [g.ink for g in drawn(read, row) if g.kind == "beginning-ch"]
        posts = [g.ink for g in read.glyphs if g.row in (f"row-{row}", f"row-{row - 1}") and g.kind == "dc"]
        for chain in chains:
            assert min(chain.distance(post) for post in posts) > 0.15, row


#: A mesh whose first chains are told in the order they were made, and the same told in the usual order.
MESH = """Terms: US
Ch {ch}.
Row 1 (RS): Dc in {nth} ch from hook (skipped {n} ch count as {says}), *ch {mesh}, sk next {mesh} ch, dc in next ch; rep from * across, turn.
Row 2: Ch {high} (counts as dc and ch {mesh}), sk first dc, *dc in next dc, ch {mesh}; rep from * to last st, dc in last st.
"""
MESHES = (
    {"ch": 20, "nth": "8th", "n": 7, "mesh": 2, "high": 5},
    {"ch": 16, "nth": "6th", "n": 5, "mesh": 1, "high": 4},
)


@pytest.mark.parametrize("mesh", MESHES, ids=["2", "1"])
def test_chains_passed_over_under_the_first_mesh_lie_in_the_foundation(mesh):
    """The same drawing whichever way they are told, with every stem upright and as many chains under each mesh."""
    wide = mesh["mesh"]
    told = (f"{wide} ch, dc, ch {wide}", f"dc, ch {wide} and {wide} sk ch")
    one, other = (sheet(MESH.format(says=says, **mesh)) for says in told)
    assert [(g.row, g.kind, g.ink.bounds) for g in one.glyphs] == [(g.row, g.kind, g.ink.bounds) for g in other.glyphs]
    chains = [g for g in one.glyphs if g.kind == "ch" and g.row == "foundation"]
    assert len(chains) == mesh["ch"] - 3 - wide
    for glyph in one.glyphs:
        if glyph.kind == "dc":
            (x, low), (end, high) = glyph.lines[0][0], glyph.lines[0][-1]
            assert abs(x - end) < 0.03 * abs(low - high)
