"""Pages that go their own way: spaces that are not called the next ones, groups and gaps, work told in a sentence."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import Worked, work_text


def _counts(worked: Worked) -> list[int]:
    return [row.row.made for row in worked.fabric.rows]


_MESH = "Magic ring.\nRnd 1: Ch 3, 15 dc in ring, join with sl st in top of ch 3. (16 dc)\nRnd 2: Ch 5, *skip 1 st, dc in next st, ch 2, rep from * around, join with sl st in 3rd ch of ch-5.\n"


@pytest.mark.parametrize(
    ("said", "made"),
    [
        ("ch 3, 2 dc in ch 2 space, *3 dc in next ch 2 space", 24),
        ("ch 3, 1 dc, ch 2, 2 dc in ch 2 space, *2 dc, ch 2, 2 dc in next ch 2 space", 32),
        ("ch 3, 2 dc in space, *3 dc in next space", 24),
        ("ch 1, 3 sc in ch 2 space, *3 sc in next ch 2 space", 24),
    ],
)
def test_the_space_slipped_into_is_the_one_meant(said: str, made: int) -> None:
    worked = work_text(f"{_MESH}Rnd 3: Sl st into ch 2 space, {said}, rep from * around. Join.\n")
    assert worked.problems == []
    assert _counts(worked) == [16, 8, made]


def test_one_called_the_next_is_another() -> None:
    worked = work_text(f"{_MESH}Rnd 3: Sl st into ch 2 space, ch 3, 2 dc in ch 2 space, *3 dc in next ch 2 space, rep from * around. Join. (27 dc)\n")
    assert [problem.where for problem in worked.problems] == ["Rnd 3"]
