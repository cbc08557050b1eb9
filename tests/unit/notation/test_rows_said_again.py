"""Rows that come again, told in a line's own words: pattern rows, rows by their yarns, so many in all. Common practice, no
source."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import Worked, work_text
from hookfold.charts.pattern.tree import Act, walk

_STRIP = "Colors: A, B, C.\nWith A, ch 21.\nRow 1: Hdc in 2nd ch from hook and in each ch. (20)\nRow 2: Ch 1, turn, hdc in each st. (20)\n"
_TWO = "Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch. (20)\nRow 2: Ch 2 (counts as hdc), turn, hdc in next st and in each st. (20)\nRow 3: Ch 1, turn, sc in each st. (20)\n"


def _rows(text: str) -> int:
    worked: Worked = work_text(text)
    assert [problem.says for problem in worked.problems] == []
    assert {row.row.made for row in worked.fabric.rows} == {20}
    return len(worked.fabric.rows)


@pytest.mark.parametrize(
    ("said", "rows"),
    [("Repeat pattern row 3 times.", 3), ("Work pat row 3 more times.", 3), ("Row 2 forms pattern. Rep 3 times.", 3), ("Rep Row 2 for pat, 5 times.", 5),
     ("Repeat Row 2, 4 times or to desired length.", 4), ("Rep Row 2 until 6 rows from beginning.", 4), ("Work a total of 9 rows.", 7),
     ("Work even until 9 rows have been completed. Fasten off.", 7), ("Rep Row 2 for a total of 6 rows, ending on a WS row.", 4),
     ("Continue in hdc until there are 8 rows.", 6), ("Hdc for 4 more rows.", 4), ("4 rows hdc.", 4), ("Work the next 4 rows the same.", 4),
     ("The next 4 rows are the same as Row 2.", 4), ("Work in pattern for 4 more rows.", 4), ("Cont in patt, work 4 more rows.", 4),
     ("Rep last row 4 times more, then fasten off.", 4), ("With C, rep Row 2 until 6 rows are completed.", 4)],
)  # fmt: skip
def test_the_last_row_comes_again(said: str, rows: int) -> None:
    assert _rows(f"{_STRIP}{said}\n") == 2 + rows


@pytest.mark.parametrize(
    ("said", "rows"),
    [("Rep pattern rows twice more.", 4), ("Repeat the 2 pattern rows once more.", 2), ("Rep last 2 rows till 8 rows are done from beg.", 5),
     ("Rep Rows 2 and 3 alternately until 8 rows have been worked, ending with Row 2.", 5), ("[Rows 2 and 3] twice.", 4),
     ("Rep these last 2 rows for patt, twice more.", 4), ("Rep Rows 2 and 3, then rep Row 2.", 3), ("Rep Rows 2-3, 3 times. (9 rows)", 6)],
)  # fmt: skip
def test_several_rows_come_again_in_turn(said: str, rows: int) -> None:
    assert _rows(f"{_TWO}{said}\n") == 3 + rows


@pytest.mark.parametrize(
    ("said", "yarns"),
    [("Repeat Row 2 in this sequence: 2 rows B, 1 row C.", "BBC"), ("Work 2 rows B, 1 row of A in pattern.", "BBA"), ("Rep last row twice with B, then once with C.", "BBC"),
     ("Rep Row 2, working 2 rows each of B and C.", "BBCC"), ("Rows 3-6: 1 row B, 2 rows C, 1 row A.", "BCCA"), ("Rep Row 2 four more times, alternating 1 row B and 1 row C.", "BCBC"),
     ("*Work 2 rows B, 1 row C; rep from * once.", "BBCBBC"), ("B: 1 row. C: 2 rows.", "BCC"), ("Color sequence: 2 rows B, 1 row A.", "BBA"),
     ("Change to B and work 2 rows.", "BB")],
)  # fmt: skip
def test_rows_told_by_their_yarns(said: str, yarns: str) -> None:
    worked = work_text(f"{_STRIP}{said}\n")
    told = [[op.text for op in walk(row.ops) if isinstance(op, Act) and op.name == "colour"] for row in worked.pattern.rows[2:] for _ in range(row.last - row.first + 1)]
    assert (_rows(f"{_STRIP}{said}\n"), "".join(x[0] for x in told)) == (2 + len(yarns), yarns)


@pytest.mark.parametrize(
    "said",
    ["Repeat Row 2 until piece measures 20 in.", "Rep Row 2 for pattern.", "Continue in pattern.", "Each stripe is 2 rows of B and 2 rows of C.",
     "Work in pattern until piece measures 12 ins from beginning."],
)  # fmt: skip
def test_rows_without_a_number_are_left_at_will(said: str) -> None:
    assert _rows(f"{_STRIP}{said}\n") == 2
