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


_RIPPLE = (
    "Cl (cluster): *Yarn over, insert hook in indicated st or sp and draw up a loop, yarn over and draw through 2 loops on hook; rep from * twice more, yarn over and draw through all loops on hook.\n"
    "With A, ch 66.\nRow 1: Sc in 2nd ch from hook and in each ch across. (65 sts)\n"
    "Row 2: Ch 3 (counts as first dc), turn, sk first 3 sc, (3 dc in next sc, sk next 2 sc) twice, (3 dc, ch 2, 3 dc) in next sc, *(sk next 2 sc, 3 dc in next sc) twice, sk next 2 sc, Cl in next sc, sk next 4 sc, "
    "Cl in next sc, (sk next 2 sc, 3 dc in next sc) twice, sk next 2 sc, (3 dc, ch 2, 3 dc) in next sc; rep from * to last 9 sc, (sk next 2 sc, 3 dc in next sc) twice, sk 2 sc, dc in last sc.\n"
)


@pytest.mark.parametrize("rest", ["following stripe sequence", "keeping to the colour order", "in the same stripe pattern", "continuing the color sequence"])
def test_spaces_between_the_groups_of_a_ripple(rest: str) -> None:
    worked = work_text(
        f"{_RIPPLE}Row 3: Ch 3, turn, sk first sp, (3 dc in next sp between 3-dc groups) twice, (3 dc, ch 2, 3 dc) in next ch-2 sp, *(3 dc in next sp) twice, Cl in next sp, sk sp between Cls, Cl in next sp, "
        "(3 dc in next sp) twice, (3 dc, ch 2, 3 dc) in next ch-2 sp; rep from * to last two 3-dc groups, (3 dc in next sp) twice, sk last sp, dc in top of turning ch.\n"
        f"Rows 4-6: Rep Row 3 {rest}.\n"
    )
    assert worked.problems == []
    assert len(set(_counts(worked)[1:])) == 1


def test_one_space_of_a_ripple_too_many() -> None:
    worked = work_text(
        f"{_RIPPLE}Row 3: Ch 3, turn, sk first sp, (3 dc in next sp between 3-dc groups) twice, (3 dc, ch 2, 3 dc) in next ch-2 sp, *(3 dc in next sp) 4 times, Cl in next sp, sk sp between Cls, Cl in next sp, "
        "(3 dc in next sp) twice, (3 dc, ch 2, 3 dc) in next ch-2 sp; rep from * to last two 3-dc groups, (3 dc in next sp) twice, sk last sp, dc in top of turning ch.\n"
    )
    assert [problem.where for problem in worked.problems] == ["Row 3"]
