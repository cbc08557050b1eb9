"""Clusters told by the loops held back: the loops that are drawn through are one more than the stitches."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import work_text

ROW = "Ch 8, join to form a ring.\nRnd 1: Ch 1, [{told}, ch 5] 4 times, join.\n"
TOLD = (
    "leaving last loop of each tr on hook, work 3 tr in ring, yo and draw through all {n} loops on hook",
    "3 tr in ring, holding back last loop of each tr on hook, thread over and pull through all {n} loops",
)


@pytest.mark.parametrize("told", TOLD)
def test_one_loop_more_is_on_the_hook(told):
    worked = work_text(ROW.format(told=told.format(n=4)))
    assert worked.problems == []
    assert sum(s.kind in ("cl", "tr3tog") for s in worked.fabric.rows[0].row.stitches) == 4


@pytest.mark.parametrize("told", TOLD)
@pytest.mark.parametrize("n", [3, 5])
def test_another_number_of_loops_is_a_problem(told, n):
    assert {p.where for p in work_text(ROW.format(told=told.format(n=n))).problems} == {"Rnd 1"}
