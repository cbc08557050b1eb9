"""Lace worked to and fro: ends of rows, shells that nothing names, points of shawls (common practice, no source)."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import Worked, work_text

_MESH = "Ch 17.\nRow 1: Dc in 8th ch from hook, (ch 2, skip 2 ch, dc in next ch) 3 times. Ch 5, turn.\n"


def _made(worked: Worked) -> list[tuple[int, int]]:
    """Stitches and chains of each row."""
    return [(row.row.made, row.row.chains) for row in worked.fabric.rows]


def _told(worked: Worked) -> list[str]:
    return [problem.where for problem in worked.problems]


# -- ends of rows ------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "said",
    [
        "Skip first dc, (dc in next dc, ch 2) 3 times, skip 2 ch of turning chain, dc in next ch.",
        "Skip first dc, (dc in next dc, ch 2) 3 times, skip next two chs of beg ch, dc in next ch.",
        "Skip first dc, (dc in next dc, ch 2) 3 times, sk 2 of turning ch, dc in 3rd.",
        "Skip first dc, (dc in next dc, ch 2) 3 times, last dc in 3rd ch of turning ch.",
        "Dc in next dc, (ch 2, dc in next dc) twice, ch 2, last dc in 3rd ch of turning ch.",
        "Dc in next dc, (ch 2, dc in next dc) 3 times, having last dc over turning ch.",
        "Dc in next dc, (ch 2, dc in next dc) 3 times, the last dc being in turning ch.",
        "Dc in next dc, (ch 2, dc in next dc) twice, ch 2, dc in loop at end.",
        "Dc in next dc, (ch 2, dc in next dc) twice, ch 2, 1 dc in sp at end of row.",
        "Dc in next dc, (ch 2, dc in next dc) twice, ch 2, dc in 3rd ch of end loop.",
    ],
)
def test_a_row_ends_in_the_turning_chain(said: str) -> None:
    worked = work_text(_MESH + f"Row 2: {said}\n")
    assert (worked.problems, _made(worked)[-1]) == ([], (5, 8))


def test_a_last_stitch_that_is_told_of_behind_stitches_is_no_further_one() -> None:
    worked = work_text(_MESH + "Row 2: Dc in next dc, (ch 2, dc in next dc) 3 times, last dc in 3rd ch of turning ch.\n")
    assert (worked.problems, _made(worked)[-1]) == ([], (5, 8))


def test_more_is_skipped_in_the_turning_chain_than_it_has_is_told() -> None:
    row = "Row 2: Skip first dc, (dc in next dc, ch 2) 3 times, skip 4 ch of turning chain, dc in next ch. (6 dc)\n"
    assert _told(work_text(_MESH + row)) == ["Row 2"]


# -- groups that nothing names -----------------------------------------------------------------------------------------

_SHELLS = (
    "Ch 20.\nRow 1: (2 dc, ch 2, 2 dc) in 5th ch from hook, ch 3, sk 6 ch, (dc, ch 5, dc) in next ch, ch 3, sk 6 ch, "
    "(2 dc, ch 2, 2 dc) in next ch, dc in last ch. Turn.\n"
)


@pytest.mark.parametrize("name", ["shell", "fan", "scallop"])
def test_a_group_that_nothing_explains_is_that_of_the_rows_above_which_is_said(name: str) -> None:
    worked = work_text(_SHELLS + f"Row 2: Ch 3, {name} in next ch-2 sp, ch 3, 12 tr in ch-5 sp, ch 3, {name} in last ch-2 sp, dc in top of turning ch.\n")
    assert (worked.problems, _made(worked)[-1]) == ([], (22, 10))
    assert [note.where for note in worked.notes] == ["Row 2"]


def test_a_v_stitch_is_that_of_the_rows_above() -> None:
    rows = "Ch 14.\nRow 1: (Dc, ch 3, dc) in 5th ch from hook, *sk 2 ch, (dc, ch 3, dc) in next ch; rep from * to last 3 ch, sk 2 ch, dc in last ch.\n"
    worked = work_text(rows + "Row 2: Ch 3, turn, V-st in each ch-3 sp across, dc in turning ch.\n")
    assert (worked.problems, _made(worked)[-1]) == ([], (8, 9))


def test_a_shell_where_the_rows_above_work_groups_of_two_kinds_stays_unexplained() -> None:
    row = "Row 2: Ch 3, (3 dc, ch 1, 3 dc) in next ch-2 sp, ch 3, 12 tr in ch-5 sp, ch 3, 4 dc in last ch-2 sp, dc in turning ch.\n"
    assert "Row 3" in _told(work_text(_SHELLS + row + "Row 3: Ch 3, shell in ch-1 sp, ch 3, sk 12 tr, shell in 2nd dc of last group, dc in turning ch.\n"))


def test_a_chain_at_one_edge_is_the_fellow_of_the_stitch_at_the_other() -> None:
    row = "Row 2: Ch 3, shell in ch-2 sp, ch 3, sc in ch-5 sp, ch 3, shell in last ch-2 sp, dc in turning ch, turn.\n"
    worked = work_text(_SHELLS + row + "Row 3: Ch 3, shell in shell, ch 3, sc in sc, ch 3, shell in shell, dc in top of turning ch.\n")
    assert (worked.problems, _made(worked)[1:]) == ([], [(11, 10), (11, 10)])


# -- shawls from the middle of their top -------------------------------------------------------------------------------

_SHAWL = (
    "Row 1: Ch 4, 2 dc in 4th ch from hook, ch 2, 3 dc in same ch, turn.\n"
    "Row 2: Ch 3, 2 dc in first st, ch 1, (3 dc, ch 2, 3 dc) in ch-2 sp, ch 1, 3 dc in last st, turn.\n"
    "Row 3: Ch 3, 2 dc in first st, ch 1, 3 dc in ch-1 sp, ch 1, (3 dc, ch 2, 3 dc) in point, ch 1, 3 dc in next sp, ch 1, 3 dc in top of ch-3, turn.\n"
)
#: Every space is named by its size, so that it is seen where the point of the row below lies.
_SIZED = (
    "Row 5: Ch 3, 2 dc in first st, (ch 1, 3 dc in next ch-1 sp) 3 times, ch 1, (3 dc, ch 2, 3 dc) in next ch-2 sp, "
    "(ch 1, 3 dc in next ch-1 sp) 3 times, ch 1, 3 dc in last st.\n"
)


@pytest.mark.parametrize(
    "said",
    [
        "*ch 1, 3 dc in next sp* to centre point, ch 1, (3 dc, ch 2, 3 dc) in point, *ch 1, 3 dc in next sp* to end, ch 1, 3 dc in last st",
        "*ch 1, 3 dc in next sp; rep from * to centre, ch 1, (3 dc, ch 2, 3 dc) in centre sp, *ch 1, 3 dc in next sp; rep from * to end, ch 1, 3 dc in last st",
        "(ch 1, 3 dc in next sp) across to center sp, ch 1, (3 dc, ch 2, 3 dc) in center sp, (ch 1, 3 dc in next sp) across, ch 1, 3 dc in last st",
        "*ch 1, 3 dc in next sp; rep from * to sp at point, ch 1, (3 dc, ch 2, 3 dc) in sp at point, **ch 1, 3 dc in next sp; rep from ** to end, ch 1, 3 dc in last st",
        "ch 1, [3 dc in next sp, ch 1] twice, (3 dc, ch 2, 3 dc) in ch-2 sp at point, ch 1, [3 dc in next sp, ch 1] twice, 3 dc in turning ch",
        "ch 1, 3 dc in next sp, ch 1, 3 dc in next sp, ch 1, (3 dc, ch 2, 3 dc) in tip, (ch 1, 3 dc in next sp) twice, ch 1, 3 dc in last st",
        "(ch 1, 3 dc in next ch-1 sp) to ch-2 sp, ch 1, (3 dc, ch 2, 3 dc) in ch-2 sp, (ch 1, 3 dc in next ch-1 sp) across to last st, ch 1, 3 dc in last st",
    ],
)
def test_the_second_half_of_a_shawl_begins_at_its_point(said: str) -> None:
    worked = work_text(_SHAWL + f"Row 4: Ch 3, 2 dc in first st, {said}, turn.\n" + _SIZED)
    assert (worked.problems, _made(worked)[3:]) == ([], [(24, 8), (30, 10)])


def test_a_half_that_is_longer_than_the_other_is_told() -> None:
    row = "Row 4: Ch 3, 2 dc in first st, (ch 1, 3 dc in next sp) 3 times, ch 1, (3 dc, ch 2, 3 dc) in center ch-2 sp, (ch 1, 3 dc in next sp) across, ch 1, 3 dc in last st.\n"
    assert _told(work_text(_SHAWL + row)) == ["Row 4"]
