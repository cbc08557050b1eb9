"""Corner to corner: blocks of chains and posts on the diagonal, those of every other row turned by a quarter.

Source: that such work is drawn as a square of blocks with its beginning in a corner is common practice, no source.
"""

import math

import pytest
import svg_ruler
from hookfold.charts.drawing.svg import write
from hookfold.charts.layout.chart.either import chart_document
from hookfold.charts.layout.shapes.blocks import blocks_of, lay_blocks
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.setting import Heading, Setting

BEGUN = "Ch 6, dc in 4th ch from hook and in next 2 ch, "
EACH = "*(sl st, ch 3, 3 dc) in next ch-3 sp; rep from * across, turn."
SQUARE = (
    "Ch 6.\nRow 1 (RS): Dc in 4th ch from hook (beg 3 sk ch count as dc) and in next 2 ch, turn.\n"
    f"Row 2: {BEGUN}(sl st, ch 3, 3 dc) in next ch-3 sp, turn.\nRow 3: {BEGUN}{EACH}\n"
    "Row 4: Sl st in next 3 dc, (sl st, ch 3, 3 dc) in next ch-3 sp, (sl st, ch 3, 3 dc) in next ch-3 sp, sl st in last "
    "ch-3 sp, turn.\n"
    "Row 5: Sl st in next sl st and in next 3 dc, (sl st, ch 3, 3 dc) in next ch-3 sp, sl st in last ch-3 sp.\n"
)
SMALL = (
    "Ch 4.\nRow 1 (RS): Hdc in 3rd ch from hook (beg 2 sk ch count as hdc) and in next ch, turn.\n"
    "Row 2: Ch 4, hdc in 3rd ch from hook and in next ch, (sl st, ch 2, 2 hdc) in next ch-2 sp, turn.\n"
    "Row 3: Ch 4, hdc in 3rd ch from hook and in next ch, *(sl st, ch 2, 2 hdc) in next ch-2 sp; rep from * across.\n"
)
OTHERS = {
    "rows": "Ch 8.\nRow 1: Dc in 4th ch from hook and in each ch across, turn.\nRow 2: Ch 3 (counts as dc), dc in next 5 sts.",
    "shells": "Ch 8.\nRow 1: Sc in 2nd ch from hook, *sk next 2 ch, 5 dc in next ch, sk next 2 ch, sc in next ch; rep from * "
    "across, turn.\nRow 2: Ch 3 (counts as dc), 2 dc in first sc, sc in 3rd dc of shell, 3 dc in last sc.",
    "mesh": "Ch 12.\nRow 1: Dc in 6th ch from hook, *ch 1, sk next ch, dc in next ch; rep from * across, turn.\n"
    "Row 2: Ch 4 (counts as dc and ch 1), sk first dc, dc in next dc, *ch 1, dc in next dc; rep from * across.",
}


def fabric(text):
    found = work_text(text)
    assert not found.problems, found.problems
    return found.fabric


def test_blocks_fill_a_square_from_one_corner_to_the_other():
    blocks = blocks_of(fabric(SQUARE))
    cells = [[block.cell for block in row] for row in blocks.rows]
    assert cells == [[(0, 0)], [(0, 1), (1, 0)], [(2, 0), (1, 1), (0, 2)], [(1, 2), (2, 1)], [(2, 2)]]


@pytest.mark.parametrize("text", [SQUARE, SMALL])
def test_posts_stand_upright_and_lie_by_turns_and_begin_at_the_chains_they_go_into(text):
    made = fabric(text)
    rings = lay_blocks(made, blocks_of(made)).rings
    for k, ring in enumerate(rings):
        for stitch, spot in zip(ring.worked.row.stitches, ring.laid.spots, strict=True):
            if stitch.role != "stitch" or stitch.kind == "sl st":
                continue
            (x, y), (a, b) = spot.feet[0], spot.head
            assert (abs(a - x) < 0.01 and b < y) if k % 2 == 0 else (abs(b - y) < 0.01 and a > x)
            if k and stitch.feet[0].back == 1:
                ovals = rings[k - 1].laid.spots[stitch.feet[0].at].ovals
                assert min(math.dist((x, y), oval[:2]) for oval in ovals) < 1.0


@pytest.mark.parametrize("hand", ["right", "left"])
@pytest.mark.parametrize("text", [SQUARE, SMALL])
def test_nothing_touches_and_every_row_has_its_number(text, hand):
    (sheet,) = chart_document(fabric(text), Heading("Try"), Setting(hand=hand)).sheets
    read = svg_ruler.read(write(sheet))
    assert svg_ruler.overlaps(read) == []
    assert svg_ruler.text_over_glyphs(read) == []
    assert {str(k + 1) for k in range(len(fabric(text).rows))} <= {words for words, _ in read.texts}
    assert any("corner" in words for words, _ in read.texts)


@pytest.mark.parametrize("name", OTHERS)
def test_other_work_is_no_blocks(name):
    assert blocks_of(fabric(OTHERS[name])) is None
