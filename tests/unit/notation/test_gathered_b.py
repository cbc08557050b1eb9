"""Where work is said to begin, how a yarn is joined, verbs that say no more than "make", stitches by the moves of the hook."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import Worked, work_text
from hookfold.charts.pattern.told_moves import named_moves

_DISC = "Rnd 1: 9 sc in a magic ring. (9)\n"
_STRIP = "Ch 15.\nRow 1: Sc in 2nd ch from hook and in each ch across. (14)\n"
_FOUR = "Ch 6, join with sl st to form a ring.\nRnd 1: Ch 3 (counts as dc), 3 dc in ring, ch 2, (4 dc in ring, ch 2) 3 times, join.\n"


def _made(worked: Worked) -> list[tuple[int, int]]:
    """Stitches and chains of each row."""
    return [(row.row.made, row.row.chains) for row in worked.fabric.rows]


def _last(text: str) -> tuple[list[str], tuple[int, int]]:
    """The problems of a text, and what its last row makes."""
    worked = work_text(text)
    return [problem.report() for problem in worked.problems], _made(worked)[-1]


# -- where work begins ------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "begun",
    [
        "Starting at the 2nd ch, work the following stitches: sc, hdc, 2 dc, hdc, sc",
        "Begin in the 2nd ch from the hook and work: sc, hdc, 2 dc, hdc, sc",
        "From the 2nd ch from hook: sc, hdc, 2 dc, hdc, sc",
        "Beginning with the second ch from hook, make the following: sc, hdc, 2 dc, hdc, sc",
    ],
)
def test_stitches_one_by_one_from_a_chain_on(begun: str) -> None:
    assert _last(f"Ch 7.\nRow 1: {begun}. (6 sts)\n") == ([], (6, 0))


def test_a_leaf_along_a_chain_of_the_row() -> None:
    text = _DISC + "Rnd 2: *Ch 6, starting in 2nd ch from hook: sc, hdc, dc, hdc, sc, sl st in next sc; rep from * around.\n"
    assert _last(text) == ([], (54, 54))


def test_a_repeat_from_a_chain_on_behind_what_is_chained_to_turn() -> None:
    text = "Row 1: Ch 16, turn, ch 3. Begin in the 4th ch from the hook and work: *dc in first ch, sc in next 2 ch; rep from * across, ending with dc in last ch. (16)\n"
    assert _last(text) == ([], (16, 0))


@pytest.mark.parametrize("begun", ["Starting in any sc", "Beginning in any st", "Start in the first st", "Starting with the next sc"])
def test_a_round_from_any_stitch_on(begun: str) -> None:
    assert _last(_DISC + f"Rnd 2: {begun}, work 2 sc in each st around. (18)\n") == ([], (18, 0))


@pytest.mark.parametrize("begun", ["Starting in any corner sp", "Move to next corner sp", "Move along to the next ch-2 sp", "With a sl st move to next ch-2 sp"])
def test_a_round_from_a_corner_on(begun: str) -> None:
    text = _FOUR + f"Rnd 2: {begun}, ch 1, 3 sc in same sp, *sc in next 4 dc, 3 sc in next ch-2 sp; rep from * 2 more times, sc in next 4 dc, join. (28 sc)\n"
    assert _last(text) == ([], (28, 0))


@pytest.mark.parametrize("said", ["Move on to the next round", "Then move up to next rnd", "Moving on to round 3"])
def test_moving_on_to_the_next_round_is_no_work(said: str) -> None:
    assert _last(_DISC + f"Rnd 2: 2 sc in each st around. {said}. (18)\n") == ([], (18, 0))


def test_a_chain_farther_than_the_foundation_reaches_is_told() -> None:
    assert work_text("Ch 7.\nRow 1: Starting in 9th ch from hook, work the following: sc, hdc, sc.\n").problems


def test_begin_before_a_stitch_is_no_place() -> None:
    assert work_text(_STRIP + "Row 2: Ch 1, begin next sc2tog, sc in each st across.\n").problems


def test_a_space_that_the_round_below_has_not_is_told() -> None:
    assert [p.where for p in work_text(_DISC + "Rnd 2: Move to next ch-3 sp, ch 1, sc in each sc around.\n").problems] == ["Rnd 2"]


# -- verbs that say no more than "make" -------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "work",
    [
        "Work entire row in sc", "Work this row in sc", "Work in sc in each st across", "Work in sc across the sc of the previous row",
        "Work (sc in next st) across", "Continuing across, *sc in next st; rep from * across",
    ],
)  # fmt: skip
def test_a_row_in_one_stitch(work: str) -> None:
    assert _last(_STRIP + f"Row 2: Ch 1, turn. {work}. (14)\n") == ([], (14, 0))


@pytest.mark.parametrize("work", ["Evenly work 18 sc around", "Evenly distribute 18 sc around", "Make 18 evenly spaced sc around"])
def test_so_many_spread_over_what_is_there(work: str) -> None:
    assert _last(_DISC + f"Rnd 2: {work}. (18)\n") == ([], (18, 0))


@pytest.mark.parametrize("last", ["into last ch work 3", "work 3 in last ch"])
def test_a_number_alone_is_of_the_stitch_before(last: str) -> None:
    text = f"Ch 9.\nRnd 1: Sc in 2nd ch from hook and in next 6 ch, {last}, working up the other side, sc in next 6 ch, 2 sc in last ch. (18)\n"
    assert _last(text) == ([], (18, 0))


def test_stitches_listed_behind_their_place() -> None:
    text = "Rnd 1: Ch 4. Make all of the following stitches in the first ch: 3 tr, ch 1, 4 dc, ch 1, 3 tr, ch 2, sl st.\n"
    problems, (_, chains) = _last(text)
    assert (problems, chains) == ([], 4)


def test_a_count_that_is_not_made_in_one_stitch_is_told() -> None:
    assert [p.where for p in work_text(_STRIP + "Row 2: Ch 1, turn. Work entire row in sc. (12)\n").problems] == ["Row 2"]


def test_more_than_there_is_room_for_is_told() -> None:
    assert [p.where for p in work_text(_DISC + "Rnd 2: Evenly work 18 sc around. (20)\n").problems] == ["Rnd 2"]


# -- how a yarn is joined, and the hook -------------------------------------------------------------------------------


@pytest.mark.parametrize("join", ["join into round with sl st", "join in the round with a sl st", "join to a ring with sl st in first sc", "join as described", "join the round as explained in step 1"])
def test_a_round_joined_in_other_words(join: str) -> None:
    assert _last(f"Ch 4, join with sl st to form a ring.\nRnd 1: 9 sc in ring, {join}. (9)\nRnd 2: Ch 1, 2 sc in each sc around, {join}. (18)\n") == ([], (18, 0))


@pytest.mark.parametrize(
    "join", ["join yarn in any st with sc", "join blue in any sc with a standing sc", "using #7 hook attach red to any sc with sc", "with smaller hook, join petal colour in any st with sc"]
)
def test_a_yarn_joined_by_a_stitch_told_behind_its_place(join: str) -> None:
    assert _last(_DISC + f"Rnd 2: {join[0].upper()}{join[1:]}, sc in next 8 sc, join. (9)\n") == ([], (9, 0))


@pytest.mark.parametrize("hook", ["With 5.50 mm hook", "Using a size H hook", "With #7 hook", "Change to 4 mm hook and", "Using US G (4.25 mm) hook"])
def test_a_hook_before_work_with_no_sign_between(hook: str) -> None:
    assert _last(_STRIP + f"Row 2: Turn. {hook} work 1 sc in each st across. (14)\n") == ([], (14, 0))


def test_a_verb_between_the_hook_and_the_work() -> None:
    assert _last(_DISC + "Rnd 2: Using #9 hook make, 2 sc in each sc around. (18)\n") == ([], (18, 0))


def test_a_stitch_left_beside_the_joined_one_is_told() -> None:
    assert [p.where for p in work_text(_DISC + "Rnd 2: Join yarn in any st with sc, sc in next 7 sc, join. (9)\n").problems] == ["Rnd 2"]


# -- stitches by the moves of the hook --------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("moves", "stitch"),
    [
        ("insert hook in next st, yo, draw up a loop, yo and draw through both loops on hook", "sc in next st"),
        ("yo, insert hook in next st, pull up a loop (3 loops on hook), yo, pull through all 3 loops", "hdc in next st"),
        ("yo, insert hook in next st, yo, draw up a loop, yo, pull through 2 loops, yo, pull through 2 loops", "dc in next st"),
        ("yarn over, insert hook in next sp, draw up a loop, (yo, draw through 2 loops) twice", "dc in next sp"),
        ("yo twice, insert hook in next st, draw up a loop - 4 loops on hook, (yo, draw through 2 loops) 3 times", "tr in next st"),
        ("insert hook in next st 2 rows below, complete a long sc", "long sc in next st 2 rows below"),
        ("[yo, insert hook in 3rd ch from hook, yo, pull through 2 loops] repeat once, yo, pull through all 3 loops", "2-dc cluster in 3rd ch from hook"),
        ("(yo, insert hook in next sp, draw up a loop, yo, draw through 2 loops) twice more, yo, draw through all loops", "3-dc cluster in next sp"),
    ],
)
def test_moves_are_named_as_their_stitch(moves: str, stitch: str) -> None:
    assert " ".join(named_moves(moves, "US").split()) == stitch


@pytest.mark.parametrize(
    "moves",
    [
        "yo twice, insert hook in next st, draw up a loop, (yo, draw through 2 loops) twice",
        "(yo, insert hook in same st, pull loop through) twice; yo, insert hook in next st, pull loop through, yo, pull through all loops",
        "insert hook in next st, pull loop through, dc in next st",
        "draw up a loop in next st, sc in next st",
    ],
)
def test_moves_that_make_no_stitch_are_told(moves: str) -> None:
    assert work_text(_STRIP + f"Row 2: Ch 2, turn, *{moves}; rep from * across.\n").problems


@pytest.mark.parametrize(
    "cluster",
    [
        "2 dc in next sc and hold last lp of each dc on hook, thread over and work off all lps on hook to form a 2 dc cluster",
        "keeping last loop of each on hook work 2 dc in next sc, thread over and work off all loops on hook at one time",
    ],
)
def test_last_loops_kept_on_the_hook(cluster: str) -> None:
    assert _last(_STRIP + f"Row 2: Ch 3, turn, *{cluster}, ch 1, sk 1 sc; rep from * across to last 2 sc, dc in last 2 sc.\n") == ([], (8, 6))


def test_two_legs_in_each_of_two_places_are_four() -> None:
    text = _FOUR + "Rnd 2: Sl st to next ch-2 sp, *ch 4, keeping last loop of each on hook work 2 tr in each of next 2 ch-2 sps, thread over and work off all loops; rep from * once, ch 4, join.\n"
    stitches = work_text(text).fabric.rows[-1].row.stitches
    assert [stitch.legs for stitch in stitches if stitch.kind == "cl"] == [4, 4]


# -- places and ends in other words -----------------------------------------------------------------------------------


@pytest.mark.parametrize("end", ["to beginning", "along the row until the end", "back across"])
def test_how_far_a_row_goes(end: str) -> None:
    assert _last(_STRIP + f"Row 2: Ch 1, turn, sc in each sc {end}. (14)\n") == ([], (14, 0))


def test_the_end_space_and_a_chain_spot() -> None:
    text = _STRIP + "Row 2: Ch 4 (counts as dc, ch 1), turn, *sk 1 sc, dc in next 2 sc, ch 1; rep from * across to last sc, dc in last sc. (10 dc, 5 ch-1 sps)\n"
    assert _last(text + "Row 3: Ch 3, turn, 2 dc in first ch 1 spot, 3 dc in next 3 ch 1 spots, 2 dc into the end space, dc in 3rd ch of ch-4.\n")[0] == []


def test_a_comma_in_a_count_of_spaces() -> None:
    text = "Ch 15.\nRow 1: Dc in 4th ch from hook, *ch 1, sk 1 ch, dc in next 2 ch; rep from * to last 2 ch, dc in last 2 ch.{}\n"
    assert not work_text(text.format(" (3, 1ch spaces)")).problems
    assert work_text(text.format(" (4, 1ch spaces)")).problems
