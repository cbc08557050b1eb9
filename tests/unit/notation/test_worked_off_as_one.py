"""Stitches worked off as one: as many legs as are named, of the stitch that comes of it."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import work_text

ROW = "US terms. Ch 17.\nRow 1: Dc in 4th ch from hook and in each ch across. (15)\nRow 2: Ch 3, {first}, dc in each dc to last 3 dc, {last}, dc in last dc.{count}\n"
FIRST = (
    "work off next 2 dc as 1 dc", "work next 2 dc off as one", "work next 2 dc as one dc", "work 2 dc off as 1", "working off 2 dc as one dc",
    "dc next 2 dc together as one", "work next 2 dc tog as one dc", "work 2 dc together as 1 dc",
)  # fmt: skip


@pytest.mark.parametrize("first", FIRST)
@pytest.mark.parametrize("count", [" (13)", ""])
def test_two_are_worked_off_as_one(first: str, count: str) -> None:
    worked = work_text(ROW.format(first=first, last="work off next 2 dc as 1 dc", count=count))
    assert [p.says for p in worked.problems] == []
    assert dict(worked.fabric.rows[1].row.kinds()) == {"dc": 11, "dc2tog": 2}


def test_a_wrong_count_of_them_is_told() -> None:
    worked = work_text(ROW.format(first="work off next 2 dc as 1 dc", last="work off next 2 dc as 1 dc", count=" (14)"))
    assert [p.where for p in worked.problems] == ["Row 2"]


def test_they_are_of_the_stitch_that_comes_of_them() -> None:
    text = "US terms.\nRnd 1: 16 sc in magic ring, join. (16)\nRnd 2: Ch 3, dc in next sc, *work off next 2 sc as 1 dc, dc in next 5 sc; rep from * once more. (14)\n"
    worked = work_text(text)
    assert [p.says for p in worked.problems] == []
    assert dict(worked.fabric.rows[1].row.kinds()) == {"dc": 12, "dc2tog": 2}


def test_first_and_last_of_a_row() -> None:
    text = "US terms. Ch 14.\nRow 1: Sc in 2nd ch from hook and in each ch across. (13)\nRow 2: Ch 1, work first 2 sc as 1 sc, sc in next 9, work last 2 sc as 1 sc. (11)\n"
    worked = work_text(text)
    assert [p.says for p in worked.problems] == []
    assert dict(worked.fabric.rows[1].row.kinds()) == {"sc": 9, "sc2tog": 2}
