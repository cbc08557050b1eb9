"""Gaps and holes of a stripe of groups lie between the groups. Common practice, no source."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import work_text

LOOP = (
    "Ch 63 and join with a sl st to make a loop.\n"
    "Rnd 1: Ch 3, 2 dc in same place, *skip 2 ch, 3 dc in next ch; repeat from * to last 2 ch, skip 2 ch, join to top of ch-3.\n"
)


@pytest.mark.parametrize("gap", ["gap", "hole", "gap between groups"])
def test_groups_go_into_the_gaps_of_a_stripe(gap: str) -> None:
    worked = work_text(LOOP + f"Rnd 2: Sl st across to next {gap}, ch 3, 2 dc in same gap, *3 dc in next {gap}; repeat from * all the way round, join.")
    assert [row.row.made for row in worked.fabric.rows] == [63, 63]
    assert worked.problems == []


def test_corners_and_gaps_of_a_stripe() -> None:
    round_two = "Rnd 2: Sl st to next gap, (ch 3, 2 dc, ch 2, 3 dc) in same gap, 3 dc in each of next 9 gaps, (3 dc, ch 2, 3 dc) in next gap, 3 dc in each gap to end, join."
    worked = work_text(LOOP + round_two)
    assert [row.row.made for row in worked.fabric.rows] == [63, 69]


def test_holes_of_plain_stitches_are_the_stitches() -> None:
    worked = work_text("Ch 4, join.\nRnd 1: Ch 1, 8 sc in ring, join.\nRnd 2: Ch 1, 2 sc in each hole around, join. (16)")
    assert [row.row.made for row in worked.fabric.rows] == [8, 16]
    assert worked.problems == []


def test_holes_beside_chains_are_their_spaces() -> None:
    worked = work_text("Ch 4, join.\nRnd 1: Ch 3, 2 dc in ring, (ch 2, 3 dc in ring) 3 times, ch 2, join.\nRnd 2: Sl st to hole, ch 3, 3 dc in same hole, 4 dc in each of next 3 holes, join. (16 dc)")
    assert [row.row.made for row in worked.fabric.rows] == [12, 16]
    assert worked.problems == []
