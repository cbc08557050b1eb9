"""Sentences that begin with a condition or a caution and go on with a row's work."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import work_text

FLAT = "Terms: US\nCh 13.\nRow 1: Sc in 2nd ch from hook and in each ch across. (12 sc)\n"


def said(row: str) -> tuple[list[str], list[int]]:
    worked = work_text(FLAT + row)
    return [p.where for p in worked.problems], [row.row.made for row in worked.fabric.rows]


@pytest.mark.parametrize(
    "row",
    [
        "Row 2: If desired, change to color B, ch 1, turn, hdc in each st across.",
        "Row 2: When turning be careful: ch 1, turn, hdc in each st across.",
        "Row 2: Ch 1, turn. When you work this row, hdc in each st across.",
        "Row 2: As you turn hold the yarn loosely, ch 1, hdc in each st across.",
        "Row 2: Note: ch 2, turn, hdc in each st across.",
    ],
)
def test_a_row_is_read_behind_its_condition(row: str) -> None:
    assert said(row) == ([], [12, 12])


def test_a_tip_beside_work_stays_a_tip() -> None:
    assert said("Row 2: Ch 1, turn. Hdc in each st across. If your edge is loose, work hdc2tog over the last 2 sts.") == ([], [12, 12])


def test_a_condition_alone_is_no_work() -> None:
    assert said("Row 2: As you work, keep it loose.")[0] == ["Row 2"]


def test_a_caution_does_not_hide_stitches() -> None:
    assert said("Row 2: Ch 1, turn. Sc in each st across, being careful to work 2 sc in last st.")[0] == ["Row 2"]


@pytest.mark.parametrize(
    "lead", ["When you work this row in back loops only", "As you turn skip the end stitch", "Before working around the posts"]
)
def test_a_condition_that_says_how_the_row_is_worked_is_not_passed_over(lead: str) -> None:
    assert said(f"Row 2: {lead}, hdc in each st across.")[0] == ["Row 2"]
