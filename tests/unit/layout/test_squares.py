"""Pieces in squares: what is found on the worked stitches, and the sheets drawn of it."""

import random
import re

import pytest
from hookfold.charts import engrave
from hookfold.charts.layout.sheets.chart_setting import NotInSquares
from hookfold.charts.layout.squares.grid import grid_of, is_filet
from hookfold.charts.layout.squares.sheet import LEAST_MM, even, squares_document
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.setting import ChartSetting, Heading, Setting

SQUARES = ChartSetting(style="squares")


def filet(picture):
    """The words of a filet picture ("#" filled, "." open), first row first, each from where it is worked, with the
    squares told one by one."""
    wide = len(picture[0])
    lines = ["Terms: US", f"Ch {3 * wide + 3}.", f"Row 1: Dc in 4th ch from hook and in each ch across, turn. ({3 * wide + 1} dc)"]
    before = "#" * wide
    for n, row in enumerate(picture[1:], 2):
        below = before[::-1]
        said = ["ch 5 (counts as dc and ch 2), sk first dc" if row[0] == "." else "ch 3 (counts as dc)"]
        for k, (what, under) in enumerate(zip(row, below, strict=True)):
            if what == "." and k:
                said.append("ch 2")
            if what == ".":
                said.append("sk next 2 dc" if under == "#" else "sk next ch-2 sp")
            else:
                said.append("dc in next 2 dc" if under == "#" else "2 dc in next ch-2 sp")
            said.append("dc in next dc" if k < wide - 1 else "dc in top of beg ch")
        lines.append(f"Row {n}: {', '.join(said)}, turn.")
        before = row
    return "\n".join(lines) + "\n"


def drawn_pictures(rows, wide, seed):
    pen = random.Random(seed)
    return ["#" * wide, *("".join(pen.choice("#.") for _ in range(wide)) for _ in range(rows - 1))]


def seen(grid):
    """The rows as they are worked, "#" filled and "." open."""
    marks = {"filled": "#", "open": "."}
    rows = []
    for row in grid.rows:
        cells = row.cells[::-1] if row.from_right else row.cells
        rows.append("".join(marks[what] for what in cells))
    return rows


@pytest.mark.parametrize("seed", range(4))
def test_a_filet_picture_is_found_again_on_its_stitches(seed):
    picture = drawn_pictures(5, 6, seed)
    worked = work_text(filet(picture))
    assert worked.problems == []
    grid = grid_of(worked.fabric)
    assert (grid.kind, grid.wide, grid.stitch, grid.columns) == ("meshes", 3, "dc", 6)
    assert seen(grid) == picture and is_filet(worked.fabric)
    assert [row.from_right for row in grid.rows] == [True, False, True, False, True]


def test_thirty_by_forty_meshes_stand_on_one_page():
    picture = drawn_pictures(40, 30, 1)
    document = engraved(filet(picture))
    assert len(document.sheets) == 1
    filled = sum(row.count("#") for row in picture)
    assert re.search(r"1 square = (\d)", drawn_text(document))[1] >= "4"
    desc = document.sheets[0].desc
    assert sum(int(n) for n in re.findall(r"(\d+) filled", desc)) == filled


def engraved(text, setting=None):
    worked = work_text(text)
    assert worked.problems == []
    return squares_document(grid_of(worked.fabric), Heading("Band"), setting or Setting(), {})


def texts(items):
    for item in items:
        if hasattr(item, "items"):
            yield from texts(item.items)
        elif hasattr(item, "text"):
            yield item.text


def drawn_text(document):
    return " ".join(text for sheet in document.sheets for text in texts(sheet.items))


def test_a_large_grid_is_cut_evenly_and_nothing_is_lost():
    picture = drawn_pictures(12, 90, 2)
    document = engraved(filet(picture))
    assert len(document.sheets) == 2
    told = " ".join(sheet.desc for sheet in document.sheets)
    assert sum(int(n) for n in re.findall(r"(\d+) filled", told)) == sum(row.count("#") for row in picture)
    said = drawn_text(document)
    assert "columns 46 to 90 of 90" in said and "columns 1 to 45 of 90" in said
    assert even(90, 2) == [(0, 45), (45, 90)]
    scale = float(re.search(r"1 square = ([\d.]+) mm", said)[1])
    assert scale >= LEAST_MM


def test_the_left_hand_sees_it_in_a_mirror():
    picture = drawn_pictures(4, 7, 3)
    right, left = (engraved(filet(picture), Setting(hand=hand)).sheets[0] for hand in ("right", "left"))
    assert right.desc == left.desc
    assert "at the right" in " ".join(texts(right.items)) and "at the left" in " ".join(texts(left.items))


STEPS = """Terms: US
With A, ch 12.
Row 1: With A, sc in 2nd ch from hook and in each ch across, turn. (11 sc)
Row 2: With A, ch 1, sc in each sc across, turn. (11 sc)
Row 3: With B, ch 1, sc in first 3 sc, *ch 2, sk next 2 sc, sc in next 2 sc; rep from * across, turn.
Row 4: With B, ch 1, sc in first 2 sc, *ch 2, sk next ch-2 sp, sc in next 2 sc; rep from * to last sc, sc in last sc, turn.
Row 5: With A, ch 1, sc in first 3 sc, *working in front of chs, dc in next 2 skipped sc 3 rows below, sc in next 2 sc; rep from * across.
"""


def test_a_long_stitch_covers_what_lies_behind_it_down_to_where_it_goes_in():
    worked = work_text(STEPS)
    assert worked.problems == []
    grid = grid_of(worked.fabric)
    assert grid.kind == "colours" and not is_filet(worked.fabric)
    rows = ["".join(row.cells[::-1]) for row in grid.rows]
    assert rows == ["A" * 11, "A" * 11, "BBBAABBAABB", "BBBAABBAABB", "A" * 11]


@pytest.mark.parametrize(
    "text",
    [
        "Terms: US\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (10 sc)\nRow 2: Ch 1, sc in each sc across. (10 sc)",
        "Terms: US\nMake a magic ring.\nRnd 1: 6 sc in ring. (6 sc)\nRnd 2: 2 sc in each sc around. (12 sc)",
        "Terms: US\nWith A, ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (10 sc)\nRow 2: With B, ch 1, 2 sc in each sc across. (20 sc)",
    ],
)
def test_what_has_no_squares_is_refused_in_words(text):
    with pytest.raises(NotInSquares, match="--style stitches"):
        engrave.chart(text, "piece.txt", Setting(), ("svg",), SQUARES)


def test_black_and_greys_only():
    worked = work_text(STEPS)
    table = {"A": ("rust", "#a3402a"), "B": ("sea", "#2a6fa3")}
    document = squares_document(grid_of(worked.fabric), Heading("Mat"), Setting(tone="mono"), table)
    inks = {item.fill for group in document.sheets[0].items for item in getattr(group, "items", ()) if getattr(item, "fill", "")}
    spread = [max(parts) - min(parts) for ink in inks if (parts := [int(ink[n : n + 2], 16) for n in (1, 3, 5)])]
    assert spread and max(spread) <= 4


def test_check_says_that_a_piece_is_filet():
    report = engrave.check(filet(drawn_pictures(4, 6, 0)), "band.txt")
    assert any("--style squares" in line for line in report.says)
