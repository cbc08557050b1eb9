"""Ways of saying that many writers have: chains told with a stitch, runs of a kind, how often in all, the row that comes next."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import Worked, work_text

_FLAT = "Ch 13.\nRow 1: Sc in 2nd ch from hook and in each ch across. (12 sc)\n"
_DISC = "Ch 4, sl st in first ch to form a ring.\nRnd 1: Ch 1, 8 sc in ring, join. (8 sc)\n"


def _made(worked: Worked) -> list[int]:
    return [row.row.made for row in worked.fabric.rows]


def _kinds(worked: Worked) -> dict[str, int]:
    out: dict[str, int] = {}
    for stitch in worked.fabric.rows[-1].row.stitches:
        if stitch.role == "stitch":
            out[stitch.kind] = out.get(stitch.kind, 0) + 1
    return out


# -- a stitch and chains in each place --------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("said", "made"),
    [
        ("Ch 1, sc, ch 3 in each sc around, join", 8), ("Ch 1, work sc plus ch 1 in each st, join", 8), ("Ch 1, 1 sc and 3 ch in every st, join", 8),
        ("Ch 4 (counts as dc and ch 1), dc, ch 1 in each remaining st around, join in 3rd ch of ch-4", 8),
        ("Ch 1, sc, ch 2, sc, ch 2 into each sc around, join", 16), ("Ch 1, *sc, ch 1, sc, ch 1 in next st; rep from * around, join", 16),
    ],
)  # fmt: skip
def test_chains_behind_a_stitch_go_there_with_it(said: str, made: int) -> None:
    worked = work_text(_DISC + f"Rnd 2: {said}.\n")
    assert (worked.problems, _made(worked)[-1]) == ([], made)


def test_spaces_made_so_are_there_for_the_next_round() -> None:
    worked = work_text(_DISC + "Rnd 2: Ch 4 (counts as dc, ch 1). Make 1 dc, 1 ch into each st around, join in 3rd ch of ch-4.\nRnd 3: Ch 1, 2 sc in each ch-1 sp around, join.\n")
    assert (worked.problems, _made(worked)) == ([], [8, 8, 16])


def test_chains_alone_go_into_nothing() -> None:
    assert [p.where for p in work_text(_DISC + "Rnd 2: Ch 3 in each sc around, join.\n").problems] == ["Rnd 2"]


# -- stitches of a kind that lie side by side -------------------------------------------------------------------------

_FAN = "Ch 4, join into a ring.\nRow 1: Ch 1, in ring: 2 sc, 3 dc, ch 2, 3 dc, 2 sc. Turn.\n"


@pytest.mark.parametrize(
    "said",
    [
        "sc in each sc, dc in each dc, (2 dc, ch 2, 2 dc) in ch-2 sp, dc in each dc, sc in each sc",
        "1 sc in every sc, 1 dc in every dc, (2 dc, ch 2, 2 dc) in sp, 1 dc in every dc, 1 sc in every sc",
        "sc in each sc and dc in each dc to ch-2 sp, (2 dc, ch 2, 2 dc) in sp, dc in each dc and sc in each sc to end",
    ],
)
def test_each_of_a_kind_is_the_run_that_comes_next(said: str) -> None:
    worked = work_text(_FAN + f"Row 2: Ch 1, {said}.\n")
    assert (worked.problems, _kinds(worked)) == ([], {"sc": 4, "dc": 10})


@pytest.mark.parametrize(
    "said",
    [
        "sc in each sc, (2 dc, ch 2, 2 dc) in ch-2 sp, dc in each dc, sc in each sc",
        "sc in each sc, dc in each dc, (2 dc, ch 2, 2 dc) in ch-2 sp, sc in each sc",
    ],
)
def test_a_run_that_is_left_out_is_told(said: str) -> None:
    assert [p.where for p in work_text(_FAN + f"Row 2: Ch 1, {said}.\n").problems] == ["Row 2"]


# -- what a beginning chain is, said behind the work ------------------------------------------------------------------


@pytest.mark.parametrize("said", ["(ch 3 does not count)", "(beginning ch 3 is not counted)", "The ch-3 does not count as a dc.", "(ch 3 never counts)"])
def test_a_chain_told_behind_its_round_counts_for_nothing(said: str) -> None:
    worked = work_text(f"Ch 4, join.\nRnd 1: Ch 3, 9 dc in ring, join. {said}\nRnd 2: Ch 1, sc in each dc around, join.\n")
    assert (worked.problems, _made(worked)) == ([], [9, 9])


def test_a_closing_stitch_told_as_a_space_leaves_the_beginning_chain_alone() -> None:
    worked = work_text(_DISC + "Rnd 2: Ch 1, [sc in next st, ch 5] 7 times, sc in next st, ch 2, dc in first sc to join (counts as ch-5 sp). (8 sc, 8 ch-5 sps)\n")
    assert worked.problems == []


def test_a_turning_chain_told_twice_is_one() -> None:
    worked = work_text("Ch 8.\nRow 1: Sc in 2nd ch from hook and in each ch, ch 1, turn.\nRow 2: Ch 1, sc in each st across, turn.\nRows 3-4: Ch 1, sc across, turn.\n")
    assert (worked.problems, _made(worked)) == ([], [7, 7, 7, 7])


# -- how often in all, free stitches, words in quotes -----------------------------------------------------------------


@pytest.mark.parametrize(
    "said",
    [
        "*sc in next st, 2 sc in next st* for a total of 4 sets", "(sc in next st, 2 sc in next st), repeat for a total of four sets", "*sc, inc* for a total of 4 repeats",
        "*sc in next st, 2 sc in next st*, 4 sets total", "*sc in next st, 2 sc in next st* making 4 sets altogether",
    ],
)  # fmt: skip
def test_so_many_sets_in_all(said: str) -> None:
    worked = work_text(_DISC + f"Rnd 2: Ch 1, {said}, join.\n")
    assert (worked.problems, _made(worked)) == ([], [8, 12])


def test_a_set_too_few_is_told() -> None:
    assert [p.where for p in work_text(_DISC + "Rnd 2: Ch 1, *sc in next st, 2 sc in next st* for a total of 3 sets, join.\n").problems] == ["Rnd 2"]


@pytest.mark.parametrize("said", ["sc in first available st and in next 11", "sc in the next available st, sc in each available st across", "sc in first vacant st, sc in next 10 sts, sc in last available st"])
def test_available_stitches_are_those_that_are_left(said: str) -> None:
    worked = work_text(_FLAT + f"Row 2: Ch 1, turn, {said}.\n")
    assert (worked.problems, _made(worked)) == ([], [12, 12])


@pytest.mark.parametrize(
    "said", ['Start with a "magic loop" and crochet 6 sc into circle.', "Start by making a 'magic ring' and working 6 sc in it.", 'To start, form a "magic ring" and then put 6 sc into it.', "Make a so-called magic ring and work 6 sc inside it."]
)
def test_words_in_quotes_are_those_words(said: str) -> None:
    worked = work_text(f"{said}\nRnd 1: 2 sc in each st. (12)\n")
    assert (worked.problems, _made(worked)) == ([], [6, 12])


# -- one stitch and one round its post --------------------------------------------------------------------------------


@pytest.mark.parametrize("said", ["*sc in and fpdc around next st; rep from * around", "*sc and FPdc in and around next st; rep from * around", "*work a sc in and a fpdc around each st; rep from * around"])
def test_one_in_a_stitch_and_one_around_it(said: str) -> None:
    worked = work_text(_DISC.replace("sc", "dc") + f"Rnd 2: Ch 1, {said}, join.\n")
    assert (worked.problems, _kinds(worked)) == ([], {"sc": 8, "FPdc": 8})


@pytest.mark.parametrize("said", ["previous rnds fpdc", "last rounds fpdc", "previous round's fpdc"])
def test_a_post_stitch_of_the_round_below(said: str) -> None:
    worked = work_text(_DISC.replace("sc", "dc") + f"Rnd 2: Ch 1, *fpdc around next dc; rep from * around, join.\nRnd 3: Ch 1, *fpdc around {said}, dc in same st; rep from * around, join.\n")
    assert (worked.problems, _kinds(worked)) == ([], {"FPdc": 8, "dc": 8})


# -- which row comes next, which is the last --------------------------------------------------------------------------


@pytest.mark.parametrize("said", ["Cont to R2", "Continue to Round 2", "go on to the next round", "proceed to R2", "Do not join, move on to round 2", "go directly to rnd 2"])
def test_that_the_next_row_comes_next_is_no_work(said: str) -> None:
    worked = work_text(f"Round 1: 6 sc in a magic ring. {said}.\nRound 2: 2 sc in each st. (12)\n")
    assert (worked.problems, _made(worked)) == ([], [6, 12])


_BY_TURNS = _DISC + "Rnd 2: Ch 1, hdc in each st, join.\nRnd 3: Ch 1, sc in each st, join.\nRnds 4-6: Repeat Rnds 2 & 3, "


@pytest.mark.parametrize("said", ["with last rnd being rnd 2", "the last one being a rnd 2", "ending on Rnd 2", "your final rnd will be Rnd 2"])
def test_the_last_row_is_named(said: str) -> None:
    worked = work_text(_BY_TURNS + f"{said}.\n")
    assert (worked.problems, len(worked.fabric.rows), set(_kinds(worked))) == ([], 6, {"hdc"})


def test_another_last_row_than_comes_out_is_told() -> None:
    assert [p.where for p in work_text(_BY_TURNS + "with the last rnd being Rnd 3.\n").problems] == ["Rnds 4-6"]


# -- terms ------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("said", "kind"),
    [
        ("Make a magic ring, work 6 dc into ring.\nRnd 1: 2 dc in each st. (12)\n", "sc"),
        ("Rnd 1: Dc 5 in a magic circle.\nRnd 2: Dc 2 in each st. (10)\n", "sc"),
        ("Make 11ch.\nRow 1: 10dc, turn.\nRow 2: 1ch, 10dc, turn.\nRow 3: 1ch, 10dc, turn.\n", "sc"),
        ("Make a magic ring.\nRnd 1: Ch 3, 11 dc in ring, join.\nRnd 2: Ch 3, dc in same st, 2 dc in each st around, join.\n", "dc"),
        ("Make a magic ring.\nRow 1: Ch 3, 5 dc in ring, turn.\nRow 2: Ch 3, dc in each dc.\n", "dc"),
    ],
)
def test_a_stitch_is_as_low_as_the_ring_and_the_chain_say(said: str, kind: str) -> None:
    assert set(_kinds(work_text(said))) == {kind}


# -- the foundation told as the first row -----------------------------------------------------------------------------


@pytest.mark.parametrize(
    "said",
    [
        "With main color start at center of the heel with chain of 12 stitches", "Using blue, begin in the middle of the base with a chain 12 sts long", "Start at toe with 12 chain",
        "Make a foundation chain of 12 chains", "Work a starting chain of twelve", "Begin at tip with a row of 12 chain stitches", "First crochet a chain that is 12 stitches long",
    ],
)  # fmt: skip
def test_a_first_row_that_is_the_chain_alone(said: str) -> None:
    worked = work_text(f"Row 1: {said}.\nRow 2: Sc in 2nd ch from hook and in each ch across, turn.\nRow 3: Ch 1, sc in each sc.\n")
    assert (worked.problems, _made(worked)[-2:]) == ([], [11, 11])


def test_the_other_side_of_a_chain_goes_on_into_its_first_stitch() -> None:
    worked = work_text("Ch 6.\nRnd 1: Sc in 2nd ch from hook and each of next 3 ch, 3 sc in next ch, working in other side of ch, sc in each of next 3 ch, 2 sc in next ch and 2 sc in next sc.\n")
    assert (worked.problems, _made(worked)) == ([], [14])


# -- explanations that say that it is done, counts from end to end ----------------------------------------------------


@pytest.mark.parametrize(
    "told",
    ["X st = (skip 1 st, dc in the next st, dc in the skipped st = X made)", "X st: skip next st, dc in next st, dc in skipped st. 1 X st made.", "X st - skip next st, dc in next st, dc in skipped st; X st completed."],
)
@pytest.mark.parametrize("said", ["work the X st 3 times", "3 X sts", "[X st] 3 times"])
def test_an_explanation_that_ends_with_made(told: str, said: str) -> None:
    worked = work_text(f"{told}\nCh 15.\nRow 1: Skip the 1st chain, hdc in each of the next 4 ch, {said}, hdc in each of the next 4 ch. (4 hdc, 3 groups of X st and 4 hdc)\n")
    assert (worked.problems, _kinds(worked)) == ([], {"hdc": 8, "dc": 6})


@pytest.mark.parametrize(("count", "told"), [("4 sc, 4 hdc, 4 sc", []), ("8 sc, 4 hdc", []), ("4 sc, 4 hdc, 3 sc", ["Row 1"]), ("4 sc, 5 hdc, 4 sc", ["Row 1"])])
def test_a_count_told_from_end_to_end(count: str, told: list[str]) -> None:
    assert [p.where for p in work_text(f"Ch 13.\nRow 1: Sc in 2nd ch from hook and next 3 ch, hdc in next 4 ch, sc in last 4 ch. ({count})\n").problems] == told


# -- stars ------------------------------------------------------------------------------------------------------------

_ARCHES = "Ch 5, join to form ring.\nRnd 1: Ch 1, 12 sc in ring, join.\nRnd 2: Ch 1, sc in first st, *ch 3, skip 2 sts, sc in next st; repeat from * 2 more times, ch 3, skip last 2 sts, join.\n"


def test_a_star_before_what_goes_into_each_space_repeats_nothing() -> None:
    worked = work_text(_ARCHES + "Rnd 3: *Sl st, sc, 4 hdc, sc, sl st in each ch-3 space around. Sl st to first st to join.\n")
    assert (worked.problems, {k: n for k, n in _kinds(worked).items() if k != "sl st"}) == ([], {"sc": 8, "hdc": 16})


def test_a_star_before_several_clauses_is_told() -> None:
    assert [p.where for p in work_text(_DISC + "Rnd 2: Ch 1, *sc in next 3 sts, hdc in next 2 sts, join.\n").problems] == ["Rnd 2"]


@pytest.mark.parametrize("said", ["'Sc 1, dec 1*. Rep 4 times", "f Sc 1, dec 1*. Rep 4 times", "\u2022 Sc 1. dec 1 *, rep 4 times", '"Sc 1, dec 1"; rep 4 times', "'Sc 1, dec 1\\. rep 4 times"])
def test_a_star_that_was_scanned_as_another_sign(said: str) -> None:
    worked = work_text(_FLAT + f"Row 2: {said}. (8 sts)\n")
    assert (worked.problems, _made(worked)) == ([], [12, 8])


# -- second legs ------------------------------------------------------------------------------------------------------

_LEGS = "Rnd 1 - 6sc in MR. [6sc]\nRnd 2 - 2sc in each st [12sc]\nRnd 3 - sc in each st [12sc]\n"


@pytest.mark.parametrize("said", ["Make the second leg in the same way, rounds 1-3, but keep the yarn after round 3.", "Make the other leg just like the first one, rounds 1-3, but do not fasten off."])
def test_a_piece_made_again_has_no_rows_of_its_own(said: str) -> None:
    worked = work_text(_LEGS + said + "\nRnd 4 - sc in the next 12 sts around leg 1, sc in the next 12 sts around leg 2. [24sc]\n")
    assert (worked.problems, _made(worked)) == ([], [6, 12, 12, 24])


@pytest.mark.parametrize("said", ["After making rnd 3 of the 2nd leg, sc into the next 12 sts of the 1st leg piece, then 1sc into the next 12 sts of the 2nd leg piece", "sc in 12 sts around leg piece 1, then sc in 12 sts around leg piece 2", "Sc in the marked st on the first leg, sc in next 11 sts around the first leg, sc in next 12 sts around the second leg"])
def test_a_round_over_both_legs(said: str) -> None:
    worked = work_text(_LEGS + f"Make a second leg in the same way but do not fasten off.\nRnd 4 - {said}. [24sc]\n")
    assert (worked.problems, _made(worked)) == ([], [6, 12, 12, 24])


def test_a_leg_told_with_too_many_is_told() -> None:
    assert [p.where for p in work_text(_LEGS + "Make a second leg in the same way.\nRnd 4 - sc in 12 sts around leg piece 1, sc in 13 sts around leg piece 2. [24sc]\n").problems] == ["Rnd 4"]


# -- how a round is closed and what is repeated, told the long way ----------------------------------------------------


@pytest.mark.parametrize(
    "said",
    ["join with a sl st in the 3rd ch of the beginning of this round", "join in the 3rd ch from the start of this round", "close the round with a ss in 3rd ch (of 3) of the start"],
)
def test_a_round_closed_in_the_chain_of_its_beginning(said: str) -> None:
    worked = work_text(f"Ch 6, join.\nRnd 1: Ch 3, 15 dc in ring, {said}.\nRnd 2: Ch 3, dc in each st around, {said}.\n")
    assert (worked.problems, _made(worked)) == ([], [16, 16])


@pytest.mark.parametrize("said", ["Repeat 4x from *to*", "Repeat 4 times from * to *", "Repeat from *to* 4x"])
def test_how_often_before_from_where(said: str) -> None:
    worked = work_text(_DISC + f"Rnd 2: Ch 1, *sc in next st, 2 sc in next st*. {said}. Join. (12)\n")
    assert (worked.problems, _made(worked)) == ([], [8, 12])


@pytest.mark.parametrize("said", ["3 sc under every 2 ch of the previous round", "3 sc around each 2 ch", "3 sc under each ch-2"])
def test_under_every_run_of_chains(said: str) -> None:
    worked = work_text(_DISC + f"Rnd 2: Ch 1, *sc in next st, ch 2; rep from * around, join.\nRnd 3: Ch 1, {said}, join.\n")
    assert (worked.problems, _made(worked)) == ([], [8, 8, 24])


def test_a_count_of_another_foundation_is_not_this_rows() -> None:
    rows = "Ch 18.\nRow 1: Sc in 2nd ch from hook, *skip next ch, (dc, ch 1, dc) in next ch, skip next ch, sc in next ch; repeat from * across. "
    assert work_text(rows + "(5 sc and 4 ch-1 sps; 6 sc and 5 ch-1 sps if you chained 22)\n").problems == []
    assert [p.where for p in work_text(rows + "(6 sc and 4 ch-1 sps)\n").problems] == ["Row 1"]


def test_the_joining_stitch_is_where_the_round_stands() -> None:
    worked = work_text(_DISC + "Rnd 2: Ch 4, dc in the closing ss of the previous round, *ch 1, dc in next st; rep from * around, ch 1, join in 3rd ch of ch-4.\n")
    assert (worked.problems, _made(worked)) == ([], [8, 9])


def test_a_uk_title_and_a_uk_abbreviation() -> None:
    worked = work_text("My UK Crochet Mat Pattern\nMake 8 ch, close as a ring with a ss.\nRnd 1: 3 ch, 15 trb in ring, join in 3rd ch.\n")
    assert _kinds(worked) == {"dc": 15}


@pytest.mark.parametrize("said", ["Chain 30- 34- I like it narrow so I chained 30", "Chain 30 / 34", "Ch 30-34-38", "Ch 30 or 34, depending on the size"])
def test_a_chain_told_for_another_width_too(said: str) -> None:
    worked = work_text(f"{said}.\nRow 1: Sc in 2nd ch from hook and in each ch across.\n")
    assert (worked.problems, _made(worked)) == ([], [29])


def test_two_counts_side_by_side_are_not_added_up() -> None:
    found = work_text("Ch 13.\nRow 1: Sc in 2nd ch from hook and next 3 ch, ch 1, skip next ch, sc in last 7 ch. (12 sc, 13 sc, 1 ch-1 sp)\n").problems
    assert found and all("25" not in p.says for p in found)
