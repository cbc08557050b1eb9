"""Runs of rows told by numbers alone, rows without change, rows that come again with words beside, and other ways of writing
that pages have in common. Common practice, no source."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import Worked, work_text

_DISC = "Rnd 1: 6 sc in magic ring (6)\nRnd 2: 6 inc (12)\n"


def _rows(worked: Worked) -> list[tuple[int, int]]:
    return [(row.row.made, row.row.chains) for row in worked.fabric.rows]


def _made(worked: Worked) -> list[int]:
    return [row.row.made for row in worked.fabric.rows]


def _told(worked: Worked) -> list[str]:
    return [problem.says for problem in worked.problems]


# -- runs of rows, and rows without change -------------------------------------------------------------------------------


@pytest.mark.parametrize("head", ["3. - 5.", "3.-5.", "3. \u2013 5. (3 rows)", "3 - 5. (3 rnds)"])
def test_a_run_of_rows_told_by_its_numbers(head: str) -> None:
    worked = work_text(f"1. 6 sc in magic ring (6)\n2. 6 inc (12)\n{head} 12 sc (12)\n6. (sc, inc) x 6 (18)\n")
    assert (_told(worked), _made(worked)) == ([], [6, 12, 12, 12, 12, 18])


@pytest.mark.parametrize("head", ["3) - 5) (3 rnds)", "3)-5)"])
def test_a_run_of_rows_told_by_numbers_behind_brackets(head: str) -> None:
    worked = work_text(f"1) 6 sc in magic ring (6)\n2) 6 inc (12)\n{head} 12 sc (12)\n6) (sc, inc) x 6 (18)\n")
    assert (_told(worked), _made(worked)) == ([], [6, 12, 12, 12, 12, 18])


def test_another_number_of_rows_is_no_name_of_the_run() -> None:
    worked = work_text("1. 6 sc in magic ring (6)\n2. 6 inc (12)\n3. - 5. (4 rows) 12 sc (12)\n")
    assert _told(worked)


@pytest.mark.parametrize("said", ["no change", "No changes.", "no inc or dec", "sc, no change", "without increase or decrease", "no increases or decreases"])
def test_a_row_without_change_is_worked_even(said: str) -> None:
    worked = work_text(f"{_DISC}Rnds 3-4: {said} (12)\n")
    assert (_told(worked), _made(worked)) == ([], [6, 12, 12, 12])


def test_a_row_without_change_has_as_many_as_before() -> None:
    assert _told(work_text(f"{_DISC}Rnds 3-4: no change (13)\n"))


@pytest.mark.parametrize("head", ["R: 3- R: 5 -", "R: 3-R: 5 -", "R: 3 - R: 5 -"])
def test_a_run_with_the_letter_and_a_colon_before_both_numbers(head: str) -> None:
    worked = work_text(f"R: 1 - Ch 13, sc in 2nd ch from hook and in each ch, turn (12 sc)\nR: 2 - ch 1, sc in each sc, turn\n{head} Repeat R: 2\n")
    assert (_told(worked), _made(worked)) == ([], [12] * 5)


# -- rows that come again ----------------------------------------------------------------------------------------------


@pytest.mark.parametrize("beside", ["(the increase falls on even rounds)", "(or until it fits your hand)", ""])
def test_rows_come_again_with_words_beside(beside: str) -> None:
    worked = work_text(f"Ch 20, join.\nRd 1: Sc in each ch. (20)\nRd 2: 2 sc in first st, sc to end.\nRd 3: Sc around.\nRepeat last 2 rounds 3 more times (24 sts) {beside}.\nRd 10: Sc in each st. (24)\n")
    assert (_told(worked), _made(worked)) == ([], [20, 21, 21, 22, 22, 23, 23, 24, 24, 24])


@pytest.mark.parametrize("said", ["until 6 rows are worked in all", "until 6 rows have been worked", ""])
def test_rows_without_numbers_come_again_until_a_number_is_there(said: str) -> None:
    worked = work_text(f"Ch 16, 1 sc in 2nd ch from hook, 1 sc in each ch to end. (15 sc). Turn.\nNext row - ch 1, 1 sc in each sc to end. Turn.\nNext row - ch 1, 1 sc in each of next 15 sc. Turn. Rpt last row 3 more times {said}.\n")
    assert (_told(worked), _made(worked)) == ([], [15] * 6)
