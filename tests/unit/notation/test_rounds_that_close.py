"""Rounds closed by a stitch in place of their last chains, what comes back to a round's beginning, and what is counted."""

from __future__ import annotations

import pytest
from hookfold.charts.model.cloth.stated import as_counted
from hookfold.charts.model.rows.work import Worked, work_text

_RING = "Rosette\nCh 5, join with sl st to form a ring.\nRnd 1: Ch 1, 24 sc in ring, join.\n"
_NET = "Rnd 2: Ch 1, sc in same place, *ch 5, skip 2 sc, sc in next sc; repeat from * around, ending with ch 2, dc in first sc."


def _kinds(worked: Worked) -> dict[str, int]:
    return dict(worked.fabric.rows[-1].row.kinds())


def _counted(worked: Worked) -> int:
    return as_counted(worked.fabric.rows[-1].row, ())


@pytest.mark.parametrize("count", ["", "(8 sc, 1 dc)", "(9 sts)", "(8 sts)", "(8 sc)", "(8 loops)"])
def test_the_closing_stitch_may_be_counted_or_not(count: str) -> None:
    worked = work_text(f"{_RING}{_NET} {count}\n")
    assert worked.problems == []
    assert worked.fabric.rows[-1].row.closing == "dc"
    assert _counted(worked) == 9


@pytest.mark.parametrize("count", ["(7 sc)", "(8 sc, 2 dc)", "(10 sts)", "(9 sc)"])
def test_a_wrong_count_of_a_round_so_closed_is_told(count: str) -> None:
    assert [p.where for p in work_text(f"{_RING}{_NET} {count}\n").problems] == ["Rnd 2"]


@pytest.mark.parametrize("place", ["dc", "dc of 2nd rnd", "dc of Rnd 2", "dc which ended previous rnd", "dc that closed last rnd"])
def test_a_round_ends_in_the_stitch_that_closed_the_one_below(place: str) -> None:
    worked = work_text(f"{_RING}{_NET}\nRnd 3: *Ch 6, sc in next loop; repeat from * around, ending with ch 3, dc in {place}.\n")
    assert worked.problems == []
    assert _kinds(worked) == {"sc": 7}
    assert worked.fabric.rows[-1].row.closing == "dc"


def test_loops_passed_over_on_the_way_to_the_closing_stitch() -> None:
    worked = work_text(f"{_RING}{_NET}\nRnd 3: *Ch 8, skip 1 loop, sc in next loop; repeat from * around, joining last ch-8 with sl st in dc of 2nd rnd.\n")
    assert worked.problems == []
    assert _kinds(worked) == {"sc": 3}  # the fourth would go into the loop that the hook stands over
    assert worked.fabric.rows[-1].row.chains == 4 * 8


@pytest.mark.parametrize("far", ["until 2 sc away from first sc", "to within 2 sc of the beginning", "until 2 sc before first sc"])
def test_so_many_before_the_round_began(far: str) -> None:
    worked = work_text(f"{_RING}Rnd 2: Ch 1, sc in same place, *ch 4, skip 2 sc, sc in next sc; repeat from * around {far}, ch 1, dc in first sc.\n")
    assert worked.problems == []
    assert (_kinds(worked), worked.fabric.rows[-1].row.closing) == ({"sc": 8}, "dc")


@pytest.mark.parametrize("repeat", ["*sc in next sc, ch 4; repeat from * around", "(sc in next sc, ch 4) around"])
def test_the_ending_takes_the_place_of_the_last_chain(repeat: str) -> None:
    worked = work_text(f"{_RING}Rnd 2: Ch 1, {repeat}, ending with ch 1, dc in first sc.\n")
    assert worked.problems == []
    assert worked.fabric.rows[-1].row.chains == 23 * 4 + 1


def test_ending_to_correspond_does_not_chain_twice() -> None:
    worked = work_text(f"{_RING}Rnd 2: Ch 3, dc in next dc, *ch 2, skip 2 sc, dc in next 2 sc; repeat from * around ending to correspond, ch 2, join.\n".replace("next dc", "next sc"))
    assert worked.problems == []
    assert (_kinds(worked), worked.fabric.rows[-1].row.chains) == ({"dc": 12}, 6 * 2)


@pytest.mark.parametrize("joined", ["joining last cluster with sl st in top of first cluster", "join"])
def test_each_loop_is_worked_alike_without_a_count(joined: str) -> None:
    worked = work_text(
        f"{_RING}Rnd 2: Ch 1, sc in same place, *ch 6, skip 3 sc, sc in next sc; repeat from * 4 more times, ch 6, join.\n"
        "Rnd 3: Sl st in 3 ch, ch 4 (to count as tr), 2-tr cluster in same loop, *(ch 4, 3-tr cluster in same loop) twice, "
        f"3-tr cluster in next loop; repeat from * around, {joined}.\n"
    )
    assert worked.problems == []
    assert _kinds(worked) == {"cl": 18}  # three in each of six loops, the beginning chain a leg of the first


def test_a_chain_said_to_count_is_a_stitch_where_the_count_holds_it() -> None:
    worked = work_text(f"{_RING}Rnd 2: Ch 4 (counts as tr), 2-tr cluster in same place, *ch 3, skip 3 sc, 3-tr cluster in next sc; repeat from * 4 more times, ch 3, join. (7 sts)\n")
    assert worked.problems == []
    assert _kinds(worked) == {"tr": 1, "cl": 6}


def test_a_round_between_petals_ends_where_it_began() -> None:
    worked = work_text(
        f"{_RING}Rnd 2: Ch 4, tr in same place, *ch 4, skip 3 sc, 2 tr in next sc; repeat from * around, ch 4, join.\n"
        "Rnd 3: Sc between starting chain and next tr, *in next sp make hdc, 4 dc and hdc; sc between next 2 tr; repeat from * around, join.\n"
    )
    assert worked.problems == []
    assert _kinds(worked) == {"sc": 6, "hdc": 12, "dc": 24}


_HALF = "Rnd 3: Ch 3 (counts as dc), 2 dc in same sp, *sc in next sp, 6 dc in next sp* {} times, sc in next sp, 3 dc in next sp, sl st to first dc.\n"


def test_the_loop_begun_in_is_filled_at_the_end() -> None:
    worked = work_text(f"{_RING}{_NET}\n{_HALF.format(3)}")
    assert worked.problems == []
    assert _kinds(worked) == {"dc": 24, "sc": 4}


def test_one_repetition_too_many_is_told() -> None:
    assert [p.where for p in work_text(f"{_RING}{_NET}\n{_HALF.format(4)}").problems] == ["Rnd 3"]


@pytest.mark.parametrize("row", [
    "*Ch 2, 3 dc, ch 2, sl st in ring; repeat from * 4 more times.",
    "*Ch 2, 3 dc in ring, ch 2, sl st in ring; repeat from * 4 more times. (15 dc)",
])  # fmt: skip
def test_slip_stitches_that_only_fasten_chains_are_not_counted(row: str) -> None:
    worked = work_text(f"Bloom\nCh 4, join to form a ring.\nRnd 1: {row}\n")
    assert worked.problems == []
    assert (_kinds(worked), _counted(worked)) == ({"dc": 15, "sl st": 5}, 15)


def test_slip_stitches_side_by_side_are_stitches() -> None:
    worked = work_text("Strap\nCh 11.\nRow 1: Sl st in 2nd ch from hook and in next 3 ch, sc in next 6 ch, turn. (10 sts)\n")
    assert worked.problems == []
    assert _counted(worked) == 10


def test_a_row_that_ends_with_its_own_chain_fastened_begins_with_a_loop() -> None:
    worked = work_text("Fan\nCh 9.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (8 sc)\nRow 2: Ch 4, skip 3 sc, dc in next sc, ch 1, dc in next sc, ch 4, sl st in last sc, turn.\n".replace("ch 4, sl st", "ch 4, skip 2 sc, sl st"))
    assert worked.problems == []
    assert (_kinds(worked)["dc"], _counted(worked)) == (2, 2)


def test_a_low_turning_chain_is_not_what_the_first_row_began_with() -> None:
    worked = work_text("Yoke\nCh 22.\nRow 1: Dc in 4th ch from hook and in each ch across, ch 1, turn. Turning chain counted as 1 dc. (20 dc)\nRow 2: Skip first dc, sc in next dc, *ch 1, skip 1 dc, sc in next dc; repeat from * across, turn.\n")
    assert worked.problems == []
    assert _kinds(worked) == {"sc": 10}


def test_rows_told_by_a_row_pass_over_the_same_stitch() -> None:
    text = "Pillow\nCh 16.\nRow 1: Sc in 2nd ch from hook, *dc in next ch, sc in next ch; repeat from * across, turn. (15 sts)\nRow 2: Ch 3 (counts as dc), skip next st, *sc, dc* across, turn. (15 sts)\n"
    worked = work_text(f"{text}Row 3: Ch 1, *sc, dc* across, sc, turn.\nRow 4: Same as row 2.\n")
    assert worked.problems == []
    assert _kinds(worked) == {"dc": 8, "sc": 7}


def test_stitches_skipped_on_the_next_petal() -> None:
    worked = work_text(
        f"{_RING}Rnd 2: Ch 1, sc in same place, *ch 3, skip 3 sc, sc in next sc; repeat from * 4 more times, ch 3, join.\n"
        "Rnd 3: Ch 1, *in next sp make hdc, 5 dc and hdc (petal), sc in next sc; repeat from * around, join.\n"
        "Rnd 4: Ch 1, *skip 2 sts on next petal, sc in next 3 sts, ch 5; repeat from * around, join.\n"
    )
    assert worked.problems == []
    assert _kinds(worked) == {"sc": 18}


@pytest.mark.parametrize("said", ["1 dc (US =sc)", "1 dc (= US sc)", "1 dc (US sc)"])
def test_the_other_system_behind_a_sign(said: str) -> None:
    worked = work_text(f"Brooch\nUK terms are used.\nMake 7 ch, ss to join into a ring.\nRound 1: 1 ch, [{said} into ring, 2 ch] 9 times, ss into first dc.\n")
    assert worked.problems == []
    assert _kinds(worked) == {"sc": 9}


def test_first_within_a_repetition_is_the_first_ahead() -> None:
    worked = work_text(
        "Bloom\nCh 4, join to form a ring.\nRnd 1: *Ch 2, 3 dc, ch 2, sl st in ring; repeat from * 4 more times.\n"
        "Rnd 2: *Ch 2, sc in first dc, ch 1, sc in each of the next 2 dc, ch 2, sl st in the sl st* repeat from * to * for the next 4 petals.\n"
    )
    assert worked.problems == []
    assert (_kinds(worked), worked.fabric.rows[-1].row.closing) == ({"sc": 15, "sl st": 5}, "")


def test_one_in_each_of_three_kinds_of_places() -> None:
    text = (
        "Tile\nCh 6, join to form a ring.\nRnd 1: Ch 3 (counts as dc), 11 dc in ring, join. (12 dc)\n"
        "Rnd 2: Ch 4 (counts as dc, ch 1), *fpdc around next dc, ch 1, dc in next dc, ch 1; repeat from * 4 more times, fpdc around last dc, ch 1, join.\n"
    )
    worked = work_text(f"{text}Rnd 3: Ch 1, work 1 sc into each dc, 1 sc into each fpdc and 1 sc into each 1 ch space around, join. (24 sc)\n")
    assert worked.problems == []
    wrong = work_text(f"{text}Rnd 3: Ch 1, work 1 sc into each dc, 1 sc into each fpdc and 2 sc into each 1 ch space around, join. (24 sc)\n")
    assert [p.where for p in wrong.problems] == ["Rnd 3"]


def test_a_place_straight_below_in_a_row_told_by_its_number() -> None:
    text = "Tile\nCh 6, join to form a ring.\nRnd 1: Ch 5 (counts as tr and ch 1), (tr in ring, ch 1) 7 times, join.\nRnd 2: Ch 1, 2 sc in each ch-1 sp around, join. (16 sc)\n"
    worked = work_text(f"{text}Rnd 3: Ch 1, *fptr around next tr below on Rnd 1, skip next sc, sc in next sc; repeat from * around, join.\n")
    assert worked.problems == []
    assert _kinds(worked) == {"FPtr": 8, "sc": 8}
