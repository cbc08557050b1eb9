"""A space worked into as the middle of a group, and as one of the places in a row that goes through the group."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import work_text

BASE = """Terms: US
Ch 12.
Row 1: Dc in 4th ch from hook and in each ch across. (10 dc)
Row 2: Ch 4 (counts as dc and ch 1), turn. Dc in same st, sk next 2 sts, dc in next 4 sts, sk 2 sts, (dc, ch 1, dc) in last st. (8 dc)
"""


@pytest.mark.parametrize(
    ("row", "made"),
    [
        ("Row 3: Ch 3, turn. Dc in next ch-1 sp, *dc in each of next 6 dc, dc in next ch-1 sp; rep from * to last st, dc in last st.", 10),
        ("Row 3: Ch 1, turn. Sc in each of first 6 sts, *sc in next dc, sc in next ch-1 sp; rep from * to last st, 2 sc in last st.", 10),
        ("Row 3: Ch 3, turn. (Dc, ch 1, dc) in first ch-1 sp, sk 1 dc, dc in next 4 dc, sk 1 dc, (dc, ch 1, dc) in last ch-1 sp, dc in last st.", 10),
    ],
)  # fmt: skip
def test_a_row_through_a_group_goes_to_its_last_stitch(row: str, made: int) -> None:
    worked = work_text(BASE + row)
    assert not worked.problems
    assert worked.fabric.rows[-1].row.made == made


def test_a_group_worked_in_its_middle_is_done_with() -> None:
    worked = work_text(
        "Terms: US\nCh 4, sl st in first ch to form ring.\n"
        "Rnd 1: Ch 1, [(2 dc, ch 2, 2 dc) in ring, ch 1] 4 times, join. (16 dc)\n"
        "Rnd 2: Ch 1, *(2 dc, ch 2, 2 dc) in next ch-2 sp; rep from * around, join. (16 dc)\n"
    )
    assert not worked.problems


def test_stitches_of_a_group_left_over_behind_its_space_are_told() -> None:
    group = BASE.replace(
        "Ch 4 (counts as dc and ch 1), turn. Dc in same st", "Ch 3 (counts as dc), turn. (Dc, ch 1, 2 dc) in same st"
    )
    text = group.replace("(dc, ch 1, dc) in last st. (8 dc)", "dc in last st. (9 dc)")
    worked = work_text(text + "Row 3: Ch 3 (counts as dc), turn. Dc in each of next 6 dc, dc in next ch-1 sp.")
    assert [p.where for p in worked.problems] == ["Row 3"]
    assert "2 stitches" in worked.problems[0].says
