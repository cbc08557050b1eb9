"""Ways of saying met in afghans, squares, motifs and cables: gaps, corners, rows further down, groups and what is told of them."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import Worked, work_text

_DOZEN = "Magic ring.\nRnd 1: Ch 1, 12 sc in ring, join. (12 sc)\n"
_DISC = "Magic ring.\nRnd 1: Ch 3 (counts as dc), 11 dc in ring, join. (12 dc)\n"
_SQUARE = (
    "Magic ring.\nRnd 1: Ch 3 (counts as dc), 2 dc in ring, ch 2, *3 dc in ring, ch 2; rep from * 2 more times, join.\n"
    "Rnd 2: Sl st to ch-2 sp, ch 3, (dc, ch 2, 2 dc) in same sp, *dc in each st to next ch-2 sp, (2 dc, ch 2, 2 dc) in next ch-2 sp; "
    "rep from * 2 more times, dc in each st to beg, join. 28 dc\n"
)
_FLAT = "Ch 25.\nRow 1: Sc in 2nd ch from hook and in each ch. 24 sc\nRow 2: Ch 1, turn, sc in each sc. 24 sc\n"


def _made(worked: Worked) -> int:
    return worked.fabric.rows[-1].row.made


def _kinds(worked: Worked) -> list[str]:
    return [s.kind for s in worked.fabric.rows[-1].row.stitches if s.role == "stitch"]


# -- foundations that may be longer -----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "said",
    [
        "Ch 49, add multiples of 12 for a wider runner.", "Ch 49 (add multiples of 12 for a wider runner).", "Ch 49, adding or taking away multiples of 12.",
        "Start with 49 ch, add 12 for each further wave.", "Chain 49 - you can add multiples of 12 for a larger one.", "Ch 49; increase by multiples of 12 for more.",
    ],
)  # fmt: skip
def test_chains_that_may_be_added_leave_the_number_as_it_is(said: str) -> None:
    assert _made(work_text(f"{said}\nRow 1: Sc in 2nd ch from hook and in each ch across.\n")) == 48


def test_a_multiple_alone_is_still_a_multiple() -> None:
    worked = work_text("Ch a multiple of 12 plus 1.\nRow 1: Sc in 2nd ch from hook and in each ch across.\n")
    assert _made(worked) == 36


# -- gaps between stitches --------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("first", "rest"),
    [
        ("in the gap between 2 dc", "in the gap between the next 2 dc"), ("in next sp between dc", "in next sp between dc"),
        ("in first sp between dc", "in next sp between dc"), ("in sp between ch 3 and next dc", "in next sp between dc"),
    ],
)  # fmt: skip
def test_round_a_ring_there_are_as_many_gaps_as_stitches(first: str, rest: str) -> None:
    worked = work_text(_DISC + f"Rnd 2: Ch 3, dc {first}, [2 dc {rest}] 11 times, join. (24 dc)\n")
    assert (worked.problems, _made(worked)) == ([], 24)


def test_one_gap_more_than_there_is_is_told() -> None:
    worked = work_text(_DISC + "Rnd 2: Ch 3, dc in the gap between 2 dc, [2 dc in the gap between the next 2 dc] 12 times, join.\n")
    assert [p.where for p in worked.problems] == ["Rnd 2"]


def test_a_row_round_a_ring_that_says_no_join_is_a_round_like_the_others() -> None:
    page = _DISC.replace("Rnd", "Row").replace("join", "sl st in top of ch 3")
    worked = work_text(page + "Row 2: Ch 4, *dc in next dc, ch 1; rep from * around.\nRow 3: Ch 3, dc in next sp, *2 dc in next sp; rep from * around, sl st in top of ch 3.\n")
    assert (worked.problems, _made(worked)) == ([], 24)


# -- how the hook gets to a place, and out of it ----------------------------------------------------------------------

_LAYERS = (
    "Magic ring.\nRnd 1: Ch 3 (counts as dc), 11 dc in ring, join. 12 dc\nRnd 2: Ch 3, dc in same st, (ch 2, skip next st, 2 dc in next st) 5 times, ch 2, join. 12 dc\n"
    "Rnd 3: Ch 1, sc in first 2 dc, *(tr, ch 2, tr) in next skipped st on rnd 1, sc in next 2 dc; rep from * 4 more times, (tr, ch 2, tr) in next skipped st on rnd 1, join.\n"
)


@pytest.mark.parametrize("way", ["working between the tr of rnd 3", "inserting the hook between the 2 tr of rnd 3", "going between tr sts", "working in between the tr"])
def test_between_stitches_on_the_way_to_a_place(way: str) -> None:
    worked = work_text(_LAYERS + f"Rnd 4: Ch 1, sc in first 2 sc, *{way}, 3 dc in ch-2 sp of rnd 2, sc in next 2 sc; rep from * 4 more times, {way}, 3 dc in ch-2 sp of rnd 2, join.\n")
    assert (worked.problems, _made(worked)) == ([], 30)


def test_from_a_space_on_to_the_next_of_a_kind() -> None:
    worked = work_text(
        _DOZEN + "Rnd 2: Ch 1, *sc in next sc, dc in next sc, ch 2, dc in next sc, sc in next sc; rep from * around, join.\n"
        "Rnd 3: Ch 1, *sc in ch-2 sp, sc in next 2 sc, ch 1; rep from * around, join.\n"
    )
    assert (worked.problems, _made(worked)) == ([], 9)
    assert any("of another kind" in note.says for note in worked.notes)


# -- corners along a repeat that skips --------------------------------------------------------------------------------


@pytest.mark.parametrize("where", ["in each ch-2 sp", "in each corner"])
@pytest.mark.parametrize(("step", "made"), [("ch 3, skip next 2 sts, sc in next st", 16), ("ch 1, skip next st, sc in next st", 20)])
def test_every_corner_is_worked_between_sides_that_skip(where: str, step: str, made: int) -> None:
    worked = work_text(_SQUARE + f"Rnd 3: Join with sc in any ch-2 sp, ch 3, sc in same sp, ({step}) around with (sc, ch 3, sc) {where}, join.\n")
    assert (worked.problems, _made(worked)) == ([], made)


# -- groups without brackets, and so many times -----------------------------------------------------------------------


@pytest.mark.parametrize(
    ("said", "made"),
    [
        ("*1 dc, 1 ch, into next st; rep from * around", 12), ("dc, ch 1 in each st around", 12), ("*1 sc, 1 ch, 1 sc, all into next st; rep from * around", 24),
        ("*(2 x hdc, ch 1) in next st; rep from * around", 24), ("*(2x hdc2tog, ch 1) in next st; rep from * around", 24),
        ("*hdc, 2 dc, hdc, in next st, sk next st; rep from * around", 24),
    ],
)  # fmt: skip
def test_what_goes_into_one_stitch(said: str, made: int) -> None:
    worked = work_text(_DOZEN + f"Rnd 2: Ch 1, {said}, join.\n")
    assert (worked.problems, _made(worked)) == ([], made)


@pytest.mark.parametrize("said", ["3 x sc2tog", "3 x dec", "3 times sc2tog"])
def test_so_many_decreases_come_one_after_the_other(said: str) -> None:
    worked = work_text(_DOZEN + f"Rnd 2: Ch 1, {said}, sc in next 6 sts, join. (9)\n")
    assert (worked.problems, _made(worked)) == ([], 9)
    assert [p.where for p in work_text(_DOZEN + f"Rnd 2: Ch 1, {said}, sc in next 5 sts, join. (9)\n").problems] == ["Rnd 2"]


def test_a_chain_and_a_stitch_that_count_as_a_cluster_told_with_its_legs() -> None:
    worked = work_text(_DOZEN + "Rnd 2: Ch 3, dc in same st (counts as 2dc-cl), ch 1, *2dc-cl in next st, ch 1; rep from * around, join. (12 2dc-cl, 12 ch)\n")
    assert (worked.problems, _made(worked)) == ([], 12)


@pytest.mark.parametrize("said", ["sc join to first sc", "sc join in first sc"])
def test_a_stitch_that_joins(said: str) -> None:
    worked = work_text(_DOZEN + f"Rnd 2: Ch 1, *sc in next st, ch 2; rep from * to last st, sc in last st, ch 1, {said}. (12 sc)\n")
    assert (worked.problems, worked.fabric.rows[-1].row.closing) == ([], "sc")


# -- what is told of groups, and brackets again -----------------------------------------------------------------------


@pytest.mark.parametrize("told", ["(= 5 dc in each dc-group)", "(5 dc in each dc-group)", "(= 5 dc per group)"])
def test_what_every_group_holds_is_no_work(told: str) -> None:
    page = _SQUARE.splitlines()[0] + "\nRnd 1: Ch 3 (counts as dc), 2 dc in ring, ch 2, *3 dc in ring, ch 2; rep from * 4 more times, join. 18 dc\n"
    worked = work_text(page + f"Rnd 2: *2 dc in first dc, 1 dc in next dc, 2 dc in next dc, ch 2, skip 2 ch*, repeat from *-* {told}\n")
    assert (worked.problems, _made(worked), worked.fabric.rows[-1].row.chains) == ([], 30, 12)


@pytest.mark.parametrize("again", ["repeat from [-] a total of 3 times", "repeat from [-] 3 times in total", "rep [ ] 3 times in all", "rep from [ to ] 2 more times"])
def test_brackets_again_so_often_in_all(again: str) -> None:
    worked = work_text(_FLAT + f"Row 3: Ch 1, turn, sc in next 4 sc, [ch 2, sk 2, sc in next 2 sc], {again}, sc in last 8 sc. 18 sc\n")
    assert (worked.problems, _made(worked)) == ([], 18)
    wrong = again.replace("3", "4").replace("2 more", "3 more")
    assert work_text(_FLAT + f"Row 3: Ch 1, turn, sc in next 4 sc, [ch 2, sk 2, sc in next 2 sc], {wrong}, sc in last 8 sc. 18 sc\n").problems


def test_the_last_skip_of_a_round_is_the_stitch_that_it_began_with() -> None:
    page = "Magic ring.\nRnd 1: Ch 3 (counts as dc), 4 dc in ring, ch 2, *5 dc in ring, ch 2; rep from * 2 more times, join. 20 dc\n"
    worked = work_text(page + "Rnd 2: Sl st in first dc, *dc in each of next 3 dc, ch 4, sc in ch-sp, ch 4, skip first dc; rep from * around, join.\n")
    assert (worked.problems, _made(worked)) == ([], 16)


# -- rows further down ------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "said",
    [
        "on 2nd row below, fpdc around next 2 sc; on working row, sc", "(fpdc around next sc, fpdc around next sc) 2 rows below, sc", "in row 1 work fpdc around next 2 sc, in current row sc",
        "fpdc in next 2 stitches from row below previous row, sc", "fpdc around 2 sc below previous row, sc", "fpdc around next 2 sc from two rows before, sc",
    ],
)  # fmt: skip
def test_a_row_further_down_said_before_or_behind(said: str) -> None:
    worked = work_text(_FLAT + f"Row 3: Ch 1, turn, sc in first 4 sc, {said} in next 18 sc. 24 sts\n")
    assert (worked.problems, _kinds(worked)) == ([], ["sc"] * 4 + ["FPdc"] * 2 + ["sc"] * 18)
    assert [p.where for p in work_text(_FLAT + f"Row 3: Ch 1, turn, sc in first 4 sc, {said} in next 17 sc. 24 sts\n").problems] == ["Row 3"]


def test_the_working_row_is_not_the_end_of_a_row() -> None:
    worked = work_text(_FLAT + "Row 3: Ch 1, turn, sc in first 4 sc, fpdc around next sc on 2nd row below; on working row, sc in next 3 sc; on 2nd row below, fpdc around next sc; on working row, sc in next 15 sc.\n")
    assert (worked.problems, _kinds(worked)) == ([], ["sc"] * 4 + ["FPdc"] + ["sc"] * 3 + ["FPdc"] + ["sc"] * 15)


# -- rows with an empty line inside -----------------------------------------------------------------------------------


@pytest.mark.parametrize(("above", "below"), [("sc in", "2nd ch from hook and in each rem ch"), ("sc in 2nd ch", "from hook and in each ch across"), ("sc in 2nd ch from hook and in each", "ch across")])
def test_a_row_that_stops_behind_a_word_that_cannot_be_the_last_goes_on(above: str, below: str) -> None:
    worked = work_text(f"Row 1: Ch 25, {above}\n\n{below}, turn.\n\nRow 2: Ch 1, sc in each sc across. (24 sc)\n")
    assert (worked.problems, _made(worked)) == ([], 24)


def test_a_row_that_breaks_off_is_still_told() -> None:
    worked = work_text(_FLAT + "Row 3: Ch 1, turn, sc in next 4 sc, sc in\n\nRow 4: Ch 1, turn, sc in each sc across.\n")
    assert [p.where for p in worked.problems] == ["Row 3"]


# -- each, in a repeat --------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("said", ["sc in each sc, ch 3", "fpsc around each sc, ch 3", "sc around each post, ch 3"])
def test_chains_behind_each_come_again_with_it(said: str) -> None:
    worked = work_text(_DOZEN + f"Rnd 2: Ch 1, *{said}; rep from * around, join. 12 sts\n")
    assert (worked.problems, _made(worked), worked.fabric.rows[-1].row.chains) == ([], 12, 36)


def test_each_said_to_the_end_is_worked_once() -> None:
    worked = work_text(_DOZEN + "Rnd 2: Ch 1, *sc in each sc around, ch 3*, join.\n")
    assert worked.fabric.rows[-1].row.chains == 3


# -- the row that is the pattern --------------------------------------------------------------------------------------


@pytest.mark.parametrize("head", ["Row 3) Pattern:", "Row 3: Pattern -", "Row 3: Pattern:", "Row 3 (pattern row):"])
@pytest.mark.parametrize(("said", "wrong"), [("Ch 1, turn, sc in first 9 sc, 2 sc in next sc, sc in next 14 sc. 25 sc", False), ("Ch 1, turn, sc in next 24 sc. 23 sc", True)])
def test_a_row_called_the_pattern_is_worked_as_it_stands(head: str, said: str, wrong: bool) -> None:
    worked = work_text(_FLAT + f"{head} {said}\n")
    assert ([p.where for p in worked.problems], _made(worked)) == (["Row 3"] if wrong else [], 24 if wrong else 25)
