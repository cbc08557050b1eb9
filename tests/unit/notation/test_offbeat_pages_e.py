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


@pytest.mark.parametrize(
    "said",
    [
        "ch 3 counts as first dc, 11 dc in ring",
        "ch 3 counts as dc. 11 dc in ring",
        "chain 3 which counts as dc, then work 11 dc into the ring",
        "make 3 ch counts as first dc and then do a further 11 dc into the circle",
        "ch 3 counts as dc throughout. Ch 3, 11 dc in ring",
        "ch 3, 11 dc in ring, ch 3 counts as dc",
    ],
)
def test_a_chain_said_to_count_where_it_is_made(said: str) -> None:
    worked = work_text(f"Ch 4, join with sl st.\nRnd 1: {said}. Join.\nRnd 2: Ch 3 counts as dc, dc in same st, 2 dc in each st around, join.\n")
    assert worked.problems == []
    assert _counts(worked) == [12, 24]


def test_the_chain_said_to_count_makes_one_too_many() -> None:
    worked = work_text("Ch 4, join with sl st.\nRnd 1: ch 3 counts as first dc, 12 dc in ring. Join. (12 dc)\n")
    assert [problem.where for problem in worked.problems] == ["Rnd 1"]


def test_skipped_chains_said_to_count_are_not_made_again() -> None:
    worked = work_text("Ch 16.\nRow 1: Ch 3 counts as dc. Dc in 4th ch from hook and in each ch across. (14)\nRow 2: Ch 3, turn, ch 3 counts as dc. Dc in next dc and in each across. (14)\n")
    assert worked.problems == []
    assert _counts(worked) == [14, 14]


@pytest.mark.parametrize("ring", ["5ch and join with slip stitch or magic circle and", "5ch and join with slip stitch and", "Ch 5, join with sl st or make a magic ring,"])
def test_a_first_round_told_with_its_ring(ring: str) -> None:
    worked = work_text(f"Hat for an egg\n{ring} make 3 ch counts as first treble and then do a further 9 treble into the circle = total 10 trebles\n2nd round ..3ch and 1tr into same stitch then 2 tr into each treble to end and slip st into top of 3ch\n")
    assert worked.problems == []
    assert _counts(worked) == [10, 20]


_TEN = "Magic ring.\nRnd 1: Ch 3, 9 dc in ring, join. (10)\nRnd 2: Ch 3, dc in same st, 2 dc in each st around, join. (20)\n"


@pytest.mark.parametrize(
    ("said", "made"),
    [("Ch 3, dc in same st, *dc in next st, 2 dc in next st", 30), ("Ch 3, dc in same st, *dc in next 3 sts, 2 dc in next st", 25), ("Ch 1, 2 sc in first st, *sc in next 4 sts, 2 sc in next st", 24)],
)
def test_a_round_begun_with_the_end_of_its_repeat(said: str, made: int) -> None:
    worked = work_text(f"{_TEN}Rnd 3: {said}; rep from * around, join.\n")
    assert worked.problems == []
    assert _counts(worked)[-1] == made


@pytest.mark.parametrize("said", ["Ch 3, dc in same st, *dc in next 2 sts, 2 dc in next st", "Ch 3, dc in next st, *dc in next 3 sts, 2 dc in next st", "Ch 3, 2 dc in same st, *dc in next st, 2 dc in next st"])
def test_a_round_that_does_not_come_out_even(said: str) -> None:
    worked = work_text(f"{_TEN}Rnd 3: {said}; rep from * around, join.\n")
    assert [problem.where for problem in worked.problems] == ["Rnd 3"]


@pytest.mark.parametrize("talk", ["where you worked into both loops the brim rolls up nicely :)", "tada, the hat is finished :-)\nwhere you worked into both loops it may roll a little :)"])
def test_talk_below_a_row_told_by_another(talk: str) -> None:
    worked = work_text(f"{_TEN}Rnd 3: Ch 1, sc in each st around, join. (20)\n4th and 5th round ...same as round 3\n{talk}\n")
    assert worked.problems == []
    assert _counts(worked) == [10, 20, 20, 20, 20]
