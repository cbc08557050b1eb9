"""Rounds that slip stitches lead to a corner: what they led over is worked at the round's end; endings, halves, rings."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import work_text

SQUARE = """Terms: US
Ch 6, join to form ring.
Rnd 1: Ch 3, 2 dc in ring, ch 2, [3 dc in ring, ch 2] 3 times, join.
"""
START = "Sl st in next 2 dc and in ch-2 sp, (ch 3, dc, ch 2, 2 dc) in same sp, "
ROUND = "Terms: US\nCh 6, join to form ring.\nRnd 1: Ch 3, 15 dc in ring, join.\n"


def said(text: str) -> tuple[list[str], list[int]]:
    worked = work_text(text)
    return [p.where for p in worked.problems], [row.row.made for row in worked.fabric.rows]


@pytest.mark.parametrize(
    "row",
    [
        "*dc in next 3 dc, (2 dc, ch 2, 2 dc) in next ch-2 sp; rep from * around, ending with dc in last 3 dc, join.",
        "*dc in next 3 dc, (2 dc, ch 2, 2 dc) in next ch-2 sp; rep from * around, ending with dc in next 3 dc, join.",
        "*dc in next 3 dc, (2 dc, ch 2, 2 dc) in next ch-2 sp; rep from * around, dc in last 3 dc, join.",
        "*dc in next 3 dc, (2 dc, ch 2, 2 dc) in next ch-2 sp; rep from * around to last 3 dc, dc in last 3 dc, join.",
        "*dc in next 3 dc, (2 dc, ch 2, 2 dc) in next ch-2 sp; rep from * 2 more times, dc in each dc to end, join.",
        "*dc in each dc to next corner, (2 dc, ch 2, 2 dc) in corner sp; rep from * around, dc in each remaining dc, join.",
        "dc in each dc around, working (2 dc, ch 2, 2 dc) in each corner sp, join.",
    ],
)
def test_the_side_that_slip_stitches_led_over_is_worked_last(row: str) -> None:
    assert said(SQUARE + f"Rnd 2: {START}{row}") == ([], [12, 28])


@pytest.mark.parametrize(
    "row",
    [
        "Sl st to corner sp, ch 1, *3 sc in corner sp, sc in next 3 dc; rep from * around, join.",
        "Sl st to ch-2 sp, ch 1, *3 sc in ch-2 sp, sc in next 3 dc; rep from * around, join.",
        "Sl st in next 2 dc and ch-2 sp, ch 1, 3 sc in same sp, *sc in each dc across, 3 sc in next ch-2 sp; rep from * 2 more times, sc in each dc across, join.",
    ],
)
def test_an_edging_begun_in_a_corner(row: str) -> None:
    assert said(SQUARE + f"Rnd 2: {row}") == ([], [12, 24])


def test_a_granny_round_goes_over_the_first_group_without_working_it() -> None:
    row = "Rnd 2: Sl st in next 2 dc and in ch-2 sp, (ch 3, 2 dc, ch 2, 3 dc) in same sp, ch 1, *(3 dc, ch 2, 3 dc) in next ch-2 sp, ch 1; rep from * around, join."
    assert said(SQUARE + row) == ([], [12, 24])


def test_an_ending_that_the_repeat_has_twice_is_its_last() -> None:
    row = "Rnd 2: Ch 3, dc in same st, *ch 6, sc in next 2 dc, ch 6, sk 1 dc, 2 dc in next dc; rep from * around, ending with ch 6, sl st in top of ch-3."
    assert said(ROUND + row) == ([], [16, 16])


def test_the_name_of_what_moves_made_is_not_worked_again() -> None:
    row = "Rnd 2: Ch 3, 2 dc in same place as sl st, holding back the last loop of each dc on hook; thread over and draw through all loops on hook (a 3-dc cluster); *ch 6, sk 3 dc, 3-dc cluster in next dc; rep from * around, ending with ch 6, sl st in first cluster."
    assert said(ROUND + row) == ([], [16, 4])


@pytest.mark.parametrize("place", ["tip of cluster", "top of cluster", "cluster", "top of cluster just made"])
def test_a_slip_stitch_into_what_was_just_made_is_a_picot(place: str) -> None:
    row = f"Rnd 2: Ch 1, sc in same st, *ch 4, sk 1 dc, 3-dc cluster in next dc, ch 3, sl st in {place}, ch 4, sk 1 dc, sc in next dc; rep from * around, join."
    worked = work_text(ROUND + row)
    kinds = [stitch.role for stitch in worked.fabric.rows[-1].row.stitches]
    assert not worked.problems and kinds.count("picot") == 4


def test_the_rest_of_a_half_shell_is_passed_over() -> None:
    text = """Terms: US
Ch 14.
Row 1: 1 sc in 2nd ch from hook, *skip next 2 ch, (dc, ch 1, dc, ch 1, dc) in next ch, skip next 2 ch, 1 sc in next ch, rep from * to end; turn.
Row 2: Ch 4 (counts as 1 dc, ch 1), 1 dc in first sc, 1 sc in center dc of next group, *(dc, ch 1, dc, ch 1, dc) in next sc, 1 sc in center dc of next group, rep from * until last sc, (1 dc, ch 1, 1 dc) in last sc; turn.
Row 3: Ch 1, 1 sc in first dc, (dc, ch 1, dc, ch 1, dc) in next sc, *1 sc in center dc of next group, (dc, ch 1, dc, ch 1, dc) in next sc, rep from * until beg ch 4, 1 sc in 3rd ch of beg ch 4.
"""
    assert said(text) == ([], [9, 9, 9])


def test_same_space_is_the_ring_where_the_last_stitch_went_into_it() -> None:
    text = "Terms: US\nCh 6, join to form ring.\nRnd 1: Ch 3, dc in ring, *ch 3, 2 dc in same space; rep from * 4 times, ch 3, join in 3rd ch.\nRnd 2: Ch 1, 3 sc in each ch-3 loop, join."
    assert said(text) == ([], [12, 18])


@pytest.mark.parametrize("first", ["Work 8 dc into ring.", "Work 8dc into centre ring.", "8 dc in ring."])
def test_work_into_the_ring_without_a_name_is_a_round(first: str) -> None:
    text = f"Terms: US\nCh 4. Join using ss to form a ring. {first}\n1st round: 2 dc into each st. (16 dc)\n"
    assert said(text) == ([], [8, 16])


@pytest.mark.parametrize(
    ("first", "rest"),
    [
        ("Dc in 4th ch from hook and in each ch across. At the end of each row, ch 3, turn.", "Dc in next dc and in each dc across, dc in top of turning ch."),
        ("Dc in 4th ch from hook and in each ch across. Ch 3, turn each row.", "Sk first dc, dc in each dc across, dc in top of ch 3."),
    ],
)
def test_a_turning_chain_told_of_each_row(first: str, rest: str) -> None:
    assert said(f"Terms: US\nCh 12.\nRow 1: {first}\nRow 2: {rest}\nRow 3: {rest}\n") == ([], [10, 10, 10])


def test_popcorn_moves_in_a_sentence_of_their_own() -> None:
    row = "Rnd 2: Ch 3, 4 dc in same st. Drop loop from hook, insert hook in top of ch-3, pick up loop and pull through, ch 1. *5 dc in next st, drop loop, insert hook in top of 1st dc, pick up loop and pull through, ch 1. Repeat from * around, join. (16 popcorns)"
    assert said(ROUND + row) == ([], [16, 16])


def test_a_total_told_before_the_join() -> None:
    text = "Terms: US\nCh 4.\nRnd 1: Sc in 2nd ch from hook and in each ch across. Working on opposite side of chain, sc in next 3 ch for a total of {} sc, join.\nRnd 2: 2 FPdc around each sc, join.\nRnd 3: Work even, join."
    assert said(text.format(6)) == ([], [6, 12, 12])
    assert said(text.format(7))[0] == ["Rnd 1"]


@pytest.mark.parametrize(
    "moves",
    [
        "ch 3,4 dc in same st,remove hook,insert in top of ch 3,draw loop through",
        "ch 3, 4 dc in same st, remove hook from last dc and insert it in the 3rd ch of ch-3, pick up dropped loop and draw through",
    ],
)
def test_the_first_popcorn_told_by_its_moves(moves: str) -> None:
    row = f"Rnd 2: Sl st in next st, {moves}, *ch 2, sk 1 dc, popcorn in next dc; rep from * around, ch 2, join. (8 popcorns)"
    told = "Popcorn: 5 dc in same st, drop loop, insert hook in first dc, draw loop through.\n"
    assert said(told + ROUND + row) == ([], [16, 8])


@pytest.mark.parametrize(
    "row",
    [
        "*FPdc around each FPdc, BPdc around each BPdc; rep from * across, dc in top of tch.",
        "*FPdc around each FPdc, BPdc around each BPdc; rep from * to last st, dc in last st.",
    ],
)
def test_each_sort_as_it_comes(row: str) -> None:
    text = "Terms: US\nCh 20.\nRow 1: Dc in 4th ch from hook and in each ch across.\nRow 2: Ch 3, turn, *FPdc around next 2 sts, BPdc around next 2 sts; rep from * to last st, dc in last st.\n"
    assert said(text + f"Row 3: Ch 3, turn, {row}") == ([], [18, 18, 18])


def test_stitches_and_a_decrease_without_a_comma() -> None:
    text = "Terms: US\nMagic ring.\nRnd 1: SCx8 in the ring. [8]\nRnd 2: incx8 [16]\nRnd 3: *2 sc dec* x4 [{}]\n"
    assert said(text.format(12)) == ([], [8, 16, 12])
    assert said(text.format(13))[0] == ["Rnd 3"]


@pytest.mark.parametrize("place", ["in spaces between hdc from previous round", "in the sps between hdc around"])
def test_spaces_between_stitches_are_all_of_them(place: str) -> None:
    text = f"Terms: US\nCh 20, join with sl st to form a ring.\nRnd 1: Ch 2, hdc in each ch, join. (20)\nRnd 2: Ch 1, sc {place}, join. (20)\n"
    assert said(text) == ([], [20, 20])


def test_a_repeat_is_not_broken_off_between_a_chain_and_what_it_spans() -> None:
    text = "Terms: US\nCh 20.\nRow 1: Sc in 2nd ch from hook, *ch 1, skip 1 ch, sc in next ch; rep from * across.\nRow 2: Ch 1, sc in first sc, *sc in ch-sp, ch 1, skip 1 sc* repeat to end, finishing with sc in last sc.\n"
    worked = work_text(text)
    assert not worked.problems and sum(s.chains for s in worked.fabric.rows[-1].row.stitches if s.role == "chain") == 8


def test_the_name_of_what_was_made_between_dashes() -> None:
    ring = "Terms: US\nCh 8, join.\nRnd 1: Ch 3, 29 dc in ring. Sl st in top of ch-3.\n"
    row = "Rnd 2: Ch 3, * (5 dc in next dc, drop loop from hook, insert hook in 1st dc and draw dropped loop through\u2014pc st made\u2014dc in next dc) twice; ch 2, dc in next dc. Repeat from * around. Sl st in top of ch-3."
    worked = work_text(ring + row)
    kinds = [s.kind for s in worked.fabric.rows[-1].row.stitches]
    assert not worked.problems and (kinds.count("popcorn"), kinds.count("dc")) == (12, 18)


def test_a_part_s_name_before_a_dash_and_rows_in_one_line() -> None:
    text = "Terms: US\nHexagon\u2014Ch 10, join into a ring, ch 3, 23 dc in ring, join in top of ch 3. (24 dc) ROW 2\u2014In back lps, 1 dc in each dc. ROW 3\u2014Sc in each dc."
    assert said(text)[1] == [24, 24, 24]


def test_work_beside_the_foundation_chain_is_told() -> None:
    assert said("Terms: US\nCh 12, work 5 more bobbles along the edge.\nRow 1: Sc in 2nd ch from hook and in each ch across.\n") == (["Foundation"], [11])
    assert said("Terms: US\nCh 12, sl st in first ch to form a ring.\nRnd 1: Ch 1, sc in each ch around, join.\n")[0] == []
