"""Blocks from corner to corner as squares: where each lies, which way its row goes, what stands beside it.

Source: that the first block lies in the corner at the right and the foot for a right-hander, right-side rows going down
and wrong-side rows up, is common practice, no source.
"""

import re

import pytest
import svg_ruler
from hookfold.charts.drawing.letters import cap_height, text_width
from hookfold.charts.drawing.svg import write
from hookfold.charts.layout.chart.either import chart_document
from hookfold.charts.layout.shapes.found import fabric_shape
from hookfold.charts.layout.squares.corner import corner_grid
from hookfold.charts.layout.squares.corner_sheet import corner_document
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.setting import ChartSetting, Heading, Setting

ONE = "Row 1 (RS): Ch 6, dc in 4th ch from hook, dc in next 2 ch.\n"
TWO = "Row 2: Ch 6, turn, dc in 4th ch from hook, dc in next 2 ch, sl st in next ch-3 sp, ch 3, 3 dc in same sp.\n"
FEWER = (
    "Turn, sl st in next 3 dc, *sl st in ch-3 sp of next block, ch 3, 3 dc in same sp; rep from * to last block, sl st in "
    "ch-3 sp of last block.\n"
)


def square(side):
    more = f"Rows 3-{side}: Rep Row 2, one more block each row.\n" if side > 2 else ""
    text = f"Terms: US\n{ONE}{TWO}{more}" + "".join(f"Row {n}: {FEWER}" for n in range(side + 1, 2 * side))
    found = work_text(text)
    assert not found.problems, found.problems
    return found.fabric


def texts(sheet):
    def walk(item):
        for each in getattr(item, "items", ()):
            yield from walk(each)
        if hasattr(item, "anchor"):
            yield item

    return [t for item in sheet.items for t in walk(item)]


def box_of(text):
    wide = text_width(text.text, text.size, text.weight)
    left = text.x - {"start": 0.0, "middle": wide / 2, "end": wide}[text.anchor]
    return left, text.y - cap_height(text.size), left + wide, text.y


def test_rows_lie_along_the_diagonals_from_the_lower_right():
    grid = corner_grid(square(3), "right")
    assert [row.cells for row in grid.rows] == [
        ((2, 0),),
        ((1, 0), (2, 1)),
        ((2, 2), (1, 1), (0, 0)),
        ((0, 1), (1, 2)),
        ((0, 2),),
    ]
    assert (grid.wide, grid.high, grid.stitch, grid.posts, grid.chains) == (3, 3, "dc", 3, 3)


def test_a_left_hander_sees_it_mirrored():
    right, left = (corner_grid(square(3), hand) for hand in ("right", "left"))
    mirrored = [tuple((right.wide - 1 - x, y) for x, y in row.cells) for row in right.rows]
    assert [row.cells for row in left.rows] == mirrored


@pytest.mark.parametrize("hand", ["right", "left"])
def test_numbers_stand_outside_the_grid_and_touch_nothing(hand):
    grid = corner_grid(square(8), hand)
    sheet = corner_document(grid, Heading("Square", terms="us"), Setting(hand=hand), {}).sheets[0]
    said = texts(sheet)
    numbers = [t.text for t in said if t.name == "row number"]
    counts = [t.text for t in said if t.name == "count"]
    assert numbers == [str(n) for n in range(1, 16)]
    assert counts == [f"({8 - abs(8 - n)})" for n in range(1, 16)]
    boxes = [box_of(t) for t in said if t.name in ("row number", "count")]
    for k, a in enumerate(boxes):
        assert all(a[2] < b[0] or b[2] < a[0] or a[3] < b[1] or b[3] < a[1] for b in boxes[k + 1 :])
    sheet_svg = svg_ruler.read_page(write(sheet))
    assert svg_ruler.text_over_glyphs(sheet_svg) == []


def test_each_square_is_in_the_yarn_of_its_block():
    other = "With B, ch 6, turn, dc in 4th ch from hook, dc in next 2 ch, with A, sl st in next ch-3 sp, ch 3, 3 dc in same sp."
    found = work_text(f"Terms: US\nRow 1: With A, ch 6, dc in 4th ch from hook, dc in next 2 ch.\nRow 2: {other}\n")
    assert not found.problems, found.problems
    assert [row.yarns for row in corner_grid(found.fabric, "right").rows] == [("A",), ("B", "A")]


def test_large_pieces_are_cut_into_pages_with_every_square_once():
    fabric = square(70)
    document = corner_document(corner_grid(fabric, "right"), Heading("Large", terms="us"), Setting(), {})
    told = [int(n) for sheet in document.sheets for n in re.findall(r"(\d+) blocks?\.", sheet.desc)]
    assert len(document.sheets) > 1 and document.whole is not None
    assert sum(told) == 70 * 70


def test_it_is_offered_as_squares_and_as_stitches():
    fabric = square(3)
    heading, setting = Heading("Square", terms="us"), Setting()
    squares = write(chart_document(fabric, heading, setting, extra=ChartSetting(style="squares")).sheets[0]).decode()
    stitches = write(chart_document(fabric, heading, setting).sheets[0]).decode()
    assert "Row 3: 3 blocks." in squares
    assert "Row 3, right side, 3 blocks" in stitches


def test_a_piece_whose_first_row_is_a_wrong_side_one_is_seen_the_other_way_round():
    found = work_text(f"Terms: US\n{ONE}{TWO}".replace("(RS)", "(WS)"))
    assert not found.problems and [row.side for row in found.fabric.rows] == ["WS", "RS"]
    assert [row.cells for row in corner_grid(found.fabric, "right").rows] == [((0, 0),), ((1, 0), (0, 1))]
    shape = fabric_shape(found.fabric)
    assert "lower right corner" in shape.opening(shape.lay(found.fabric), "right")[0]
    assert max(spot.head[0] for spot in shape.lay(found.fabric).spots) <= 0.5


def test_one_yarn_shows_its_diagonals_and_fills_its_sheet():
    grid = corner_grid(square(3), "right")
    document = corner_document(grid, Heading("Square", terms="us"), Setting(), {})
    named = corner_document(grid, Heading("Square", terms="us"), Setting(), {"A": ("Blue", "#2040a0")})
    whole = document.whole() if callable(document.whole) else document.whole
    words = [text.text for text in texts(whole)]
    filled = [ink.name for group in whole.items if getattr(group, "name", "") == "squares" for ink in group.items]
    assert sorted(filled) == ["row-2-WS"] * 2 + ["row-4-WS"] * 2
    assert {"right-side rows", "wrong-side rows"} <= set(words)
    assert whole.height < 0.7 * document.sheets[0].height  # no page that is mostly white
    assert "#2040a0" not in write(named.sheets[0]).decode()  # a flat colour would hide the diagonals
