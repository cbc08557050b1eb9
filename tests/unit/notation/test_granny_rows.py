"""Granny rows to and fro: groups between groups, the gap beside the row's first stitch and the one beside its last. Common
practice, no source."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import work_text

_GROUPS = "Ch 29.\nRow 1: Sc in 2nd ch from hook and in each ch, turn. (28)\nRow 2: Ch 3, 2 dc in first st, *sk next 2 sts, 3 dc in next st; rep from * across. Turn. (30)\n"
_BETWEEN = _GROUPS + "Row 3: Ch 3, (3 dc in next sp between groups) 9 times, dc in last st. Turn. (29)\n"


def _last(text: str) -> tuple[list[str], int]:
    worked = work_text(text)
    return [problem.says for problem in worked.problems], worked.fabric.rows[-1].row.made


@pytest.mark.parametrize(
    "said",
    ["Ch 3, 3 dc in space between first 2 groups, 3 dc in each space to end, dc in last st.", "Ch 3, *3 dc between 3-dc groups; rep from * across, end dc in top of ch 3.",
     "Ch 3, 3 dc between first and 2nd groups, 3 dc between each group across, dc in last st.", "Ch 3; 3 dc in sp between each 3-dc group; dc in 3rd ch of turning ch.",
     "Ch 3, *3 dc in next space; rep from * to last group, dc in last dc."],
)  # fmt: skip
def test_groups_between_groups(said: str) -> None:
    assert _last(f"{_GROUPS}Row 3: {said}\n") == ([], 29)


@pytest.mark.parametrize(
    "said",
    ["Ch 3, 2 dc in first sp, 3 dc in each sp across.", "Ch 3, 2 dc in space between tch and first group, 3 dc in each sp across, ending 3 dc between last group and turning ch.",
     "Ch 3, 2 dc in sp between first 2 sts, *3 dc in next sp; rep from * to end, 3 dc in sp between last group and last dc.",
     "Ch 3, (2 dc in first sp), (3 dc in next sp) across, 3 dc in last sp (before tch).", "Ch 3, 2 dc between first dc and next group, *3 dc between next 2 groups; rep from * across, 3 dc between last group and ch-3."],
)  # fmt: skip
def test_the_gap_beside_the_first_stitch_and_beside_the_last_are_filled_once(said: str) -> None:
    assert _last(f"{_BETWEEN}Row 4: {said}\n") == ([], 30)


def test_a_last_gap_told_behind_the_repeat_is_none_of_its_gaps() -> None:
    assert _last(f"{_BETWEEN}Row 4: Ch 3, dc in first sp, *3 dc in next sp; rep from * across, 2 dc in last sp.\n") == ([], 28)


def test_more_groups_than_gaps_are_told() -> None:
    told, _ = _last(f"{_BETWEEN}Row 4: Ch 3, 2 dc in first sp, (3 dc in next sp) 11 times, dc in last dc.\n")
    assert told
