"""Groups that nobody explains, rows told by rows one by one, edges of a tube, foundations told in odd places."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import Worked, work_text

_GROWING = """Ch 11.
Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)
Row 2: Ch 1, turn, 2 sc in first st, sc in each st across.
Row 3: Ch 3 (counts as dc), turn, dc in next st and in each st across.
"""


def _counts(worked: Worked) -> list[int]:
    return [row.row.made for row in worked.fabric.rows]


def _kinds(worked: Worked) -> list[dict[str, int]]:
    return [dict(row.row.kinds()) for row in worked.fabric.rows]


def _told(worked: Worked) -> list[tuple[str, str]]:
    return [(problem.where, problem.says) for problem in worked.problems]


# -- groups that are nowhere explained --------------------------------------------------------------------------------


def test_a_v_stitch_that_nobody_explains_is_told_and_worked_as_is_usual() -> None:
    text = "Ch 10.\nRow 1: Dc in 4th ch from hook and in each ch. (8 dc)\n"
    text += "Row 2: Ch 3, turn, sk next dc, *v-st in next dc, sk next dc; rep from * to last 2 sts, sk next dc, dc in last st.\n"
    text += "Row 3: Ch 3, turn, v-st in each ch-1 sp across, dc in last st.\n"
    worked = work_text(text)
    assert [where for where, _ in _told(worked)] == ["Row 2"]
    assert '"V-st" is nowhere explained; it was worked as (dc, ch 1, dc)' in _told(worked)[0][1]
    assert _kinds(worked)[1:] == [{"dc": 6}, {"dc": 6}]


# -- rows told by rows ------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "said",
    [
        "Rep Rows 2 + 3.", "Rep rows 2+3", "Repeat Rows 2/3, fasten off.", "Rep R2 + R3.", "Rep R: 2 & 3.",
        "Alternate repeats of row 2 and row 3.", "Alternate repeating row 2 and row 3.", "Alternately repeat Rows 2 and 3.",
        "Alternate between Row 2 and Row 3, end with a Row 3 repeat.", "Repeat Rows 2 and 3 alternately.",
        "Alternate repeats of row 3 and row 2. End with a row 3 repeat.",
    ],
)  # fmt: skip
def test_two_rows_come_again_by_turns(said: str) -> None:
    worked = work_text(f"{_GROWING}Rows 4-7: {said}\n")
    assert worked.problems == []
    assert _kinds(worked)[3:] == [{"sc": 12}, {"dc": 12}, {"sc": 13}, {"dc": 13}]


def test_rows_named_the_later_first_are_worked_in_that_order() -> None:
    worked = work_text(f"{_GROWING}Rows 4-7: Repeat Rows 3 and 2.\n")
    assert _kinds(worked)[3:] == [{"dc": 11}, {"sc": 12}, {"dc": 12}, {"sc": 13}]


@pytest.mark.parametrize("said", ["Repeat Rows 2 and 4.", "Rep 2nd and 4th rows.", "Repeat Rows 2 & 4 alternately."])
def test_rows_between_two_that_are_named_are_left_out(said: str) -> None:
    worked = work_text(f"{_GROWING}Row 4: Ch 1, turn, 3 sc in first st, sc in each st across.\nRows 5-8: {said}\n")
    assert worked.problems == []
    assert _counts(worked)[4:] == [14, 16, 17, 19]


def test_rows_that_end_with_another_row_than_is_said_are_told() -> None:
    worked = work_text(f"{_GROWING}Rows 4-7: Alternate Rows 2 and 3, end with a Row 2 repeat.\n")
    assert [where for where, _ in _told(worked)] == ["Rows 4-7"]
