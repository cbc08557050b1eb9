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


# -- beside V-stitches, last repeats, chains counted from the hook -------------------------------------------------------

_VS = "Ch 26.\nRow 1: (Dc, ch 3, dc) in 5th ch from hook, *sk 2 ch, (dc, ch 3, dc) in next ch; rep from * to last 3 ch, sk 2 ch, dc in last ch.\n"


@pytest.mark.parametrize(
    "said",
    [
        "*5 dc in ch-3 sp, sc between this V-st and next; rep from * across, ending with sc in top of turning ch",
        "*5 dc in ch-3 sp, sc between same V-st and next V-st; rep from * across, working last sc in turning ch",
        "*5 dc in next V-st, sc in sp before next V-st; repeat from *, working last sc in turning ch",
        "*5 dc in sp of next V-st, sc between V-sts; repeat from *, the last sc going into turning ch",
        "*5 dc in ch-3 sp, sc in sp before next V-st; repeat from *, ending 5 dc in last ch-3 sp, sc in turning ch",
    ],
)
def test_a_stitch_before_the_next_group_leaves_that_group_to_be_worked(said: str) -> None:
    worked = work_text(_VS + f"Row 2: Ch 1, turn, sc in first dc, {said}.\n")
    assert (worked.problems, _made(worked)[-1]) == ([], (43, 0))


def test_a_group_before_each_of_the_others_goes_on_from_one_to_the_next() -> None:
    worked = work_text(_VS + "Row 2: Ch 1, turn, sc in first dc, *3 dc in sp before next V-st; rep from * across, sc in turning ch.\n")
    assert (worked.problems, _made(worked)[-1]) == ([], (23, 0))


_FIVES = "Ch 32.\nRow 1: Sc in 2nd ch from hook, *sk 2 ch, 5 dc in next ch, sk 2 ch, sc in next ch; rep from * across.\n"
_BETWEEN = _FIVES + "Row 2: Ch 3, turn, 2 dc in first sc, *sc in center dc of next shell, 5 dc in next sc; rep from *, {}, 3 dc in last sc.\n"


@pytest.mark.parametrize("said", ["ending with sc in center of last shell", "finishing with sc in centre dc of last shell"])
def test_what_ends_a_row_in_the_last_group_is_not_worked_twice(said: str) -> None:
    worked = work_text(_BETWEEN.format(said))
    assert (worked.problems, _made(worked)[-1]) == ([], (31, 0))


@pytest.mark.parametrize(
    "said",
    [
        "the last sc going into top of turning chain",
        "working last sc in top of turning ch",
        "having last sc made in turning ch",
        "the last sc to come under turning ch",
    ],
)
def test_the_last_stitch_goes_where_is_said_and_needs_no_group(said: str) -> None:
    row = f"Row 3: Ch 1, turn, sc in first dc, *5 dc in next sc, sc in center dc of next shell; rep from *, {said}.\n"
    worked = work_text(_BETWEEN.format("ending with sc in center of last shell") + row)
    assert (worked.problems, _made(worked)[-1]) == ([], (31, 0))


_RIPPLE = "Ch 36.\nRow 1: Sc in 2nd ch from hook and in each ch across. (35 sc)\nRow 2: Ch 1, turn, 2 sc in first sc, *sc in next 7 sc, sk 2 sc, sc in next 7 sc, 3 sc in next sc; "


@pytest.mark.parametrize(
    "said",
    [
        "rep from *, working 2 sc instead of 3 sc at end of last rep.",
        "rep from * across, working 2 sc instead of 3 in last sc.",
        "rep from * across but work 2 sc in place of 3 sc in last st.",
        "rep from *, working only 2 sc in last sc.",
        "rep from * to end, having 2 sc only in last sc.",
    ],
)
def test_fewer_in_the_last_stitch_of_a_ripple(said: str) -> None:
    worked = work_text(_RIPPLE + said + "\n")
    assert (worked.problems, _made(worked)[-1]) == ([], (35, 0))


@pytest.mark.parametrize(
    "said",
    [
        "1 sc in 2nd ch, * ch 5, skip 4 sts, 1 sc in next st, repeat from * 5 times more.",
        "1 sc in 2nd st of ch, * ch 5, skip 4 sts, 1 sc in next st, repeat from * 5 times more.",
        "Sc in the second stitch of the foundation chain, * ch 5, skip 4 ch, sc in next ch, repeat from * to end.",
    ],
)
def test_a_chain_told_by_its_number_is_counted_from_the_hook(said: str) -> None:
    worked = work_text(f"Ch 32.\nRow 1: {said}\n")
    assert (worked.problems, _made(worked)) == ([], [(7, 30)])


def test_spaces_of_a_first_row_count_the_chain_it_begins_with() -> None:
    worked = work_text("Ch 23.\nRow 1: 1 dc in 8th ch, * ch 2, skip 2, 1 dc in next, repeat from * to end of chain. (6 sps)\n")
    assert (worked.problems, _made(worked)) == ([], [(7, 12)])


def test_a_stitch_in_a_numbered_chain_behind_another_is_none_from_the_hook() -> None:
    assert _told(work_text("Ch 20.\nRow 1: Sc in 2nd ch from hook, sc in 5th ch, sc in each ch across. (19 sc)\n")) == ["Row 1"]


def test_every_following_stitch_is_each_of_the_rest() -> None:
    worked = work_text("Ch 20.\nRow 1: 1 sc in the 2nd ch, 1 sc in every following ch. 19 sc.\n")
    assert (worked.problems, _made(worked)) == ([], [(19, 0)])
