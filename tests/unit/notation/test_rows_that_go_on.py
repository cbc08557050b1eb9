"""Rows told by how they go on: decreases that continue until so many are left, rows of a part that is named before them,
old names of stitches, and rows in which nothing is worked."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import Worked, work_text

_CROWN = """Ch 8, join.
Rnd 1: 32 hdc in ring. (32)
Rnd 2: *Hdc in next 6 sts, hdc2tog; rep from * around, join. (28)
Rnd 3: *Hdc in next 5 sts, hdc2tog; rep from * around, join. (24)
"""


def _counts(worked: Worked) -> list[int]:
    return [row.row.made for row in worked.fabric.rows]


@pytest.mark.parametrize(
    "words",
    [
        "Rnd 4: Continue decreasing in this manner until 12 sts remain.",
        "Rnd 4: Continue decreasing in this way, working one fewer hdc between decreases, until 12 sts remain.",
        "Rnds 4-6: Continue to decrease as established. (12)",
        "Continue decreasing in this manner until 12 sts are left.",
        "Rnds 4-6: Continue, working 1 less hdc between decreases. (12)",
    ],
)
def test_decreases_go_on_until_so_many_are_left(words: str) -> None:
    worked = work_text(_CROWN + words + "\n")
    assert worked.problems == []
    assert _counts(worked)[3:] == [20, 16, 12]


def test_increases_go_on_as_established() -> None:
    worked = work_text(
        "Ch 4, join.\nRnd 1: 12 dc in ring. (12)\nRnd 2: 2 dc in each st, join. (24)\n"
        "Rnd 3: *Dc in next st, 2 dc in next st; rep from * around, join. (36)\nRnds 4-5: Continue increasing as established. (60)\n"
    )
    assert worked.problems == []
    assert _counts(worked) == [12, 24, 36, 48, 60]


def test_rows_that_do_not_reach_the_end_count_are_a_mistake() -> None:
    worked = work_text(_CROWN + "Rnds 4-6: Continue decreasing in this manner. (11)\n")
    assert [problem.where for problem in worked.problems] == ["Rnd 6"]


@pytest.mark.parametrize("end", ["", " Fasten off."])
def test_a_row_that_works_nothing_is_told(end: str) -> None:
    worked = work_text(_CROWN + "Rnd 4: Continue in same way." + end + "\n")
    assert [problem.where for problem in worked.problems] == ["Rnd 4"] or _counts(worked)[3] > 0


def test_a_round_named_last_is_no_count() -> None:
    worked = work_text("Ch 16, join.\nRound 1: Sc in each ch around. (16)\nRound 2: Dc in each st around. (16)\nRound 3: Repeat Round 1\n")
    assert worked.problems == []
    assert [dict(row.row.kinds()) for row in worked.fabric.rows] == [{"sc": 16}, {"dc": 16}, {"sc": 16}]


_BAG = "Ch 5, join.\nRound 1: 14 sc in ring. (14)\nRound 2: 2 sc in each st around, join. (28)\n"


@pytest.mark.parametrize(
    ("words", "part", "counts"),
    [
        ("Strap: Ch 1, sc in next 5 sc, turn.\nRow 2: Ch 1, sc in each sc across, turn.\n", "Strap", [5, 5]),
        ("Front flap: Ch 1, hdc in next 9 sc, turn.\n", "Front Flap", [9]),
        ("Handle: Ch 1, sc in next 4 sc, turn. Ch 1, sc in each sc across, turn.\n", "Handle", [4, 4]),
    ],
)
def test_rows_of_a_part_named_before_them(words: str, part: str, counts: list[int]) -> None:
    worked = work_text(_BAG + words)
    assert worked.problems == []
    assert {text.part for text in worked.texts[2:]} == {part}
    assert _counts(worked)[2:] == counts


def test_steps_of_stitches_told_in_full() -> None:
    worked = work_text(
        "Chain 9, join.\n1. Chain 1, 20 singles in ring, join.\n2. Chain 5, * skip 1 single, 1 double in next single, chain 2. "
        "Repeat from * around, join to 3d st of 5 chain. (10 spaces)\n3. 3 singles in each space around.\n4. Single in each stitch.\n"
    )
    assert worked.problems == []
    assert _counts(worked) == [20, 10, 30, 30]


_PLAIN = "Ch 13.\nRow 1: Sc in 2nd ch from hook and across. (12)\n"
_WIDER = "Row 2: Ch 1, turn, 2 sc in first st, sc across to last st, 2 sc in last st. (14)\n"


@pytest.mark.parametrize(
    "words",
    ["there will be two more stitches in each row.", "having 2 sts more in every row.", "adding two stitches each row.", "(you will have 2 more sc each row)."],
)
def test_what_each_row_has_more_is_a_check(words: str) -> None:
    worked = work_text(_PLAIN + _WIDER + "Rows 3-5: Rep Row 2, " + words + "\n")
    assert worked.problems == []
    assert _counts(worked) == [12, 14, 16, 18, 20]
    plain = work_text(_PLAIN + "Row 2: Ch 1, turn, sc across. (12)\nRows 3-5: Rep Row 2, " + words + "\n")
    assert [problem.where for problem in plain.problems] == ["Row 3"]


_WHEEL = """Ch 8, join.
1st rnd: 12 sc in ring, join.
2nd rnd: Sc in same place as sl st, * ch 5, skip 1 sc, sc in next sc. Repeat from * around, ending with ch 5.
3rd rnd: * Sc in next sc, 3 sc in ch-5 sp, ch 4. Repeat from * around.
"""


@pytest.mark.parametrize(
    "words",
    [
        "* Skip first sc, sc in each remaining sc of sc group, 2 sc in ch-4 sp, ch 4. Repeat from * around.",
        "* Skip first sc of next group, sc in each of the remaining sc, 2 sc in ch-4 sp, ch 4. Repeat from * around.",
        "* Skip first sc, sc in each sc of group, 2 sc in ch-4 sp, ch 4. Repeat from * around.",
        "* Skip next sc, sc in each remaining sc to next sp, 2 sc in ch-4 sp, ch 4. Repeat from * around (5 sc in each group).",
    ],
)
def test_the_rest_of_a_group_whose_first_stitch_is_skipped(words: str) -> None:
    worked = work_text(_WHEEL + "4th rnd: " + words + "\n")
    assert worked.problems == []
    assert _counts(worked)[2:] == [24, 30]


def test_what_the_last_of_a_run_has_is_no_work() -> None:
    run = "4th to 6th rnds: * Skip 1st sc, sc in each remaining sc of group, 2 sc in ch-4 sp, ch 4. Repeat from * around (7 sc in each sc group on last rnd).\n"
    worked = work_text(_WHEEL + run)
    assert worked.problems == []
    assert _counts(worked)[3:] == [30, 36, 42]


def test_a_row_that_chains_its_own_foundation_stands_on_no_other() -> None:
    text = "ROW 1: Ch18. Dc in 4th ch from hook and in each ch across. (16 sts)\nROW 2: Ch3, turn, dc in each st across.\n"
    worked = work_text(text + "\nHANDLES: (make 2) Ch44. Fasten off.\n")
    assert worked.problems == []
    assert worked.fabric.rows[0].row.made == 16


def test_rows_told_by_their_order_come_again() -> None:
    text = "1st row: Ch 18, sc in 2nd ch from hook and in each ch across. (17)\n2nd row: Ch 1, turn, *sc in next st, dc in next st; rep from * to last st, sc in last st.\n"
    worked = work_text(text + "3rd row: Ch 1, turn, sc in each st across.\nRep 2nd and 3rd rows 4 times more.\n")
    assert worked.problems == []
    assert _counts(worked) == [17] * 11


def test_so_many_more_and_a_stitch_or_a_space() -> None:
    text = "Ch 13\nR1: sc in second ch from hook, sc 11 more across. (12)\nR2: ch 4, turn, dc in same st, skip 1 st, *V-st in next st, skip 1 st; rep from * to end.\n"
    worked = work_text(text + "V-st: (dc, ch 1, dc) in same stitch or space.\n")
    assert worked.problems == []
    assert _counts(worked) == [12, 12]
