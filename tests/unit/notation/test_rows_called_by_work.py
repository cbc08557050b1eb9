"""Rows whose heads say what they make, and no number. Common practice, no source."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import work_text

BAG = "Ch 40, join with sl st.\nRnd 1: Ch 1, sc in each ch around, join. (40)\nRnd 2: Ch 1, sc in each st around, join. (40)\n"
HANDLES = "Ch 1, sc in next 8 sts, ch 12, sk next 8 sts, sc in next 12 sts, ch 12, sk next 8 sts, sc in last 4 sts, join."


@pytest.mark.parametrize("head", ["Handle round:", "Handles Rnd -", "Handle Round (RS):", "Handle opening round.", "Thumb-hole rnd:"])
def test_a_round_is_called_by_what_it_makes(head: str) -> None:
    worked = work_text(f"{BAG}{head} {HANDLES}\nNext rnd: Ch 1, sc in each st and ch around, join. (48)")
    assert worked.problems == []
    assert [row.row.made for row in worked.fabric.rows] == [40, 40, 24, 48]


def test_a_row_that_shapes_the_neck() -> None:
    worked = work_text("Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20)\nNeck shaping row: Ch 1, turn, sc in first 6 sts, turn. (6)")
    assert [row.row.made for row in worked.fabric.rows] == [20, 6]


@pytest.mark.parametrize("line", ["Repeat round - the last one.", "Total rounds: 12.", "Number of rows: see chart."])
def test_other_lines_before_a_colon_are_no_rows(line: str) -> None:
    assert len(work_text(BAG + line).fabric.rows) == 2
