"""Shaping that says in a bracket how it is worked, groups that are named in passing. Common practice, no source."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import Worked, work_text

TEN = "Ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\n"


def made(worked: Worked) -> list[int]:
    return [row.row.made for row in worked.fabric.rows]


@pytest.mark.parametrize(
    ("said", "count"),
    [
        ("inc in next st (2 sc in same st)", 11), ("inc (2 sc in next st)", 11), ("increase in next st by working 2 sc in same st", 11),
        ("inc in next st (work 3 sc in one st)", 12), ("inc (sc, ch 1, sc in same st)", 11), ("dec (sc2tog)", 9),
        ("dec over next 2 sts (sc2tog)", 9), ("dec 1 st (sc2tog over next 2 sts)", 9), ("decrease (sc 2 tog)", 9),
        ("2 sc in next st (inc)", 11), ("sc2tog (dec)", 9), ("inc in next st", 11),
    ],
)  # fmt: skip
def test_shaping_is_worked_once(said: str, count: int) -> None:
    worked = work_text(TEN + f"Row 2: Ch 1, turn, sc in next 4 sts, {said}, sc in each st to end.")
    assert (worked.problems, made(worked)) == ([], [10, count])


def test_two_stitches_behind_an_increase_are_two_more() -> None:
    worked = work_text(TEN + "Row 2: Ch 1, turn, inc in next st, (2 sc in next st) twice, sc in each st to end.")
    assert (worked.problems, made(worked)) == ([], [10, 13])


@pytest.mark.parametrize("named", ["3 dc in next ch (corner made)", "3 dc in next ch - corner made", "3 dc in next ch (corner)", "(3 dc in next ch: corner made)"])
def test_corners_are_put_into_places(named: str) -> None:
    worked = work_text(f"Ch 25.\nRow 1: Dc in 4th ch from hook, dc in next 6 ch, {named}, dc in next 5 ch, corner in next ch, dc in last 8 ch. (27 dc)")
    assert (worked.problems, made(worked)) == ([], [27])


def test_a_corner_that_is_a_place_is_no_stitch() -> None:
    rounds = "Rnd 1: Ch 3, 2 dc in ring, (ch 2, 3 dc in ring) 3 times, ch 2, join. (corner made)\n"
    worked = work_text("Ch 4, join.\n" + rounds + "Rnd 2: Sl st to corner, ch 3, 2 dc in same corner, *3 dc in next corner; rep from * around, join. (12 dc)")
    assert (worked.problems, made(worked)) == ([], [12, 12])


YOKE = "Ch 25.\nRow 1: Dc in 4th ch from hook, dc in next 6 ch, {g} in next ch, dc in next 5 ch, {g} in next ch, dc in last 8 ch. {count} dc, turn.\n"


@pytest.mark.parametrize("of", ["3-dc corner group", "corner group", "3-dc group", "group"])
def test_the_middle_of_each_group(of: str) -> None:
    worked = work_text(YOKE.format(g="3 dc", count=27) + f"Row 2: Ch 3, dc in each dc across, working 3 dc in center dc of each {of}. (31 dc)")
    assert (worked.problems, made(worked)) == ([], [27, 31])


def test_a_shell_in_the_space_of_each_shell_takes_the_place_of_none_of_its_stitches() -> None:
    yoke = YOKE.replace("{g} in next ch, dc in next 5 ch, {g}", "(2 dc, ch 1, 2 dc) in next ch (shell made), dc in next 5 ch, shell")
    worked = work_text(yoke.format(count=29) + "Row 2: Ch 3, dc in each dc, working shell in ch-1 sp of each shell. (37 dc)")
    assert (worked.problems, made(worked)) == ([], [29, 37])


def test_a_count_before_the_turn_that_is_wrong_is_told() -> None:
    worked = work_text(YOKE.format(g="3 dc", count=28))
    assert [p.says for p in worked.problems] == ["the row makes 27 dc; the count says 28"]
