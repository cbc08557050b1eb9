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


# -- into a ring, joined to a chain ------------------------------------------------------------------------------------


@pytest.mark.parametrize("said", ["ch 3, dc 2, *ch 2, dc 3, rep from * twice more, ch 2, sl st in 3rd ch", "ch 3, dc in next 2 sts, *ch 2, dc in next 3 sts; rep from * 2 more times, ch 2, join"])
def test_stitches_told_behind_their_name_all_go_into_the_ring(said: str) -> None:
    worked = work_text(f"Make a magic ring.\nRound 1: {said}.\n")
    assert (_told(worked), _rows(worked)) == ([], [(12, 8)])


def test_plain_stitches_told_behind_their_name_go_into_the_ring() -> None:
    worked = work_text("Magic ring.\nRnd 1: ch 1, sc 8, sl st in first sc.\nRnd 2: ch 1, 2 sc in each st around. (16)\n")
    assert (_told(worked), _made(worked)) == ([], [8, 16])


@pytest.mark.parametrize("said", ["join to chain 3", "join to ch 3", "close in ch 3", "join into ch 3 with a sl st"])
def test_a_round_joined_to_its_chain_makes_no_chains(said: str) -> None:
    worked = work_text(f"Ch 4 and join to form ring.\nRd 1: ch 3, 9 dc into ring, {said}.\nRd 2: ch 3, dc in same st, 2 dc in each st, {said}.\n")
    assert (_told(worked), _rows(worked)) == ([], [(10, 0), (20, 0)])


def test_a_chain_behind_the_join_is_still_made() -> None:
    assert _rows(work_text("Ch 4, join.\nRd 1: ch 3, 9 dc into ring, join to ch 3, ch 3.\n")) == [(10, 3)]


# -- a chain and a stitch that are a decrease --------------------------------------------------------------------------


@pytest.mark.parametrize(
    "said",
    ["Ch 2, turn, dc in next dc (both are one dc2tog)", "Ch 2, turn, dc in next dc (together they make a dc2tog)", "Ch 2, turn, dc in next st (these two are 1 dc2tog)",
     "Ch 2 (counts as first leg of dc2tog), turn, dc in next dc", "Ch 2, turn, dc in next dc (both together count as dc2tog)"],
)  # fmt: skip
def test_a_chain_and_a_stitch_are_one_decrease(said: str) -> None:
    worked = work_text(f"Row 1: Ch 12, dc in 4th ch from hook and in each ch across. (10 dc)\nRow 2: {said}, dc in each st to end.\nRow 3: Ch 3, turn, dc in next dc and in each dc across. (9 dc)\n")
    assert (_told(worked), _made(worked)) == ([], [10, 9, 9])


def test_a_chain_that_counts_beside_a_decrease_is_a_stitch() -> None:
    worked = work_text("Row 1: Ch 13, dc in 4th ch from hook and in each ch across. (11 dc)\nRow 2: Ch 3 (counts as dc), turn, dc2tog over next 2 dc, dc in each st to end.\n")
    assert (_told(worked), _made(worked)) == ([], [11, 10])


# -- counts told as sums, and counts of one side -----------------------------------------------------------------------

_OVAL = "Ch 10.\nRnd 1: sc in 2nd ch from hook, sc in next 7 ch, 3 sc in last ch"


@pytest.mark.parametrize("count", ["(10 + 10 = 20 sc)", "(10+8+2=20)", "(11 + 9 = 20 sts)"])
def test_a_count_told_as_a_sum(count: str) -> None:
    worked = work_text(f"{_OVAL}, working on other side of ch, sc in next 7 ch, 2 sc in last ch. {count}\n")
    assert (_told(worked), _made(worked)) == ([], [20])


@pytest.mark.parametrize("count", ["(10 + 11 = 21 sc)", "(10 + 9 = 20 sc)"])
def test_a_sum_that_does_not_fit_is_told(count: str) -> None:
    assert _told(work_text(f"{_OVAL}, working on other side of ch, sc in next 7 ch, 2 sc in last ch. {count}\n"))


@pytest.mark.parametrize("said", ["(11 sc). Turn to the other side of the ch", "(11 sc). Now rotate and work back along the other side", "(11 sc); working on the opposite side"])
def test_a_count_before_the_other_side_is_of_the_first(said: str) -> None:
    assert _told(work_text(f"{_OVAL} {said}, sc in next 7 ch, 2 sc in last ch.\n")) == []
    assert _told(work_text(f"{_OVAL} {said}, sc in next 7 ch, 2 sc in last ch. (20 sc)\n")) == []
    assert _told(work_text(f"{_OVAL} {said}, sc in next 7 ch, 2 sc in last ch. (21 sc)\n"))
