"""Pages that go their own way: last loops closed otherwise, wherever the chain of the others stands."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import Worked, work_text

_LOOPS = "Ch 3.\nRnd 1: 6 sc in 2nd ch from hook.\nRnd 2: Sc in first sc, *ch 5, sc in next sc; rep from * around, ending with ch 2, dc in first sc.\n"


def _rows(worked: Worked) -> list[tuple[int, int]]:
    """Stitches and chains of each row."""
    return [(row.row.made, row.row.chains) for row in worked.fabric.rows]


# -- how a last loop is closed ----------------------------------------------------------------------------------------


@pytest.mark.parametrize("end", ["ending with ch 2, dc in first sc", "end with ch 2 and dc in first sc", "but end last loop with ch 2, dc in first sc", "join with ch 2, dc in first sc"])
@pytest.mark.parametrize(
    "again",
    [
        "Sc in loop just formed, ch 5, *sc in next loop, ch 5; rep from * around",
        "(Sc, ch 5) in loop just formed and in each loop around",
        "(Sc in next loop, ch 5) around",
    ],
)
def test_the_last_chain_gives_way_to_what_closes_the_loop(again: str, end: str) -> None:
    worked = work_text(_LOOPS + f"Rnd 3: {again}, {end}. (6 loops)\n")
    assert (worked.problems, _rows(worked)[2]) == ([], (6, 27))


@pytest.mark.parametrize(
    "again",
    [
        "(Sc, ch 5) twice in each loop around, ending with ch 2, dc in first sc",
        "(Sc, ch 5, sc, ch 5) in each loop around, ending with ch 2, dc in first sc",
        "In loop just formed make (sc, ch 5) twice, in each loop around make (sc, ch 5) twice, ending with ch 2, dc in first sc",
        "Sc in loop just formed, ch 5, sc in same loop, ch 5, *(sc, ch 5) twice in next loop; rep from * around, ending with ch 2, dc in first sc",
        "In each loop around work sc, ch 5, sc, ch 5, ending last loop with ch 2, dc in first sc",
    ],
)
@pytest.mark.parametrize("count", ["", " (12 loops)"])
def test_the_last_of_several_chains_in_a_loop_gives_way(again: str, count: str) -> None:
    worked = work_text(_LOOPS + f"Rnd 3: {again}.{count}\n")
    assert (worked.problems, _rows(worked)[2]) == ([], (12, 57))


def test_so_many_times_with_another_end_are_no_time_more() -> None:
    worked = work_text(_LOOPS + "Rnd 3: (Sc in next loop, ch 5) 6 times, ending last repeat with ch 2, dc in first sc.\n")
    assert (worked.problems, _rows(worked)[2]) == ([], (6, 27))


def test_a_count_of_loops_with_the_last_chain_too_is_told() -> None:
    worked = work_text(_LOOPS + "Rnd 3: (Sc, ch 5) twice in each loop around, ending with ch 2, dc in first sc. (13 loops)\n")
    assert [problem.where for problem in worked.problems] == ["Rnd 3"]


# -- how a round is joined, and what a repeat leaves out --------------------------------------------------------------

_VS = "Ch 6, join to form ring.\nRnd 1: Ch 3 (counts as dc), 11 dc in ring, join.\nRnd 2: Ch 4 (counts as dc and ch 1), dc in same place, *ch 2, sk 1 dc, (dc, ch 1, dc) in next dc; rep from * around, ending with ch 2, sl st in 3rd ch of ch-4.\n"


@pytest.mark.parametrize(
    "end",
    [
        "rep from * around, ending with ch 3, sl st in 3rd st of ch-3 first made",
        "rep from * around, ending with ch 3, sl st in 3rd ch of ch-3",
        "rep from * around, ch 3, join with sl st to 3rd of 3 ch",
        "rep from * around, ch 3, sl st to the 3rd ch of the ch-3 at beg of rnd",
    ],
)
def test_a_round_that_slips_to_its_place_is_joined_to_its_own_chain(end: str) -> None:
    worked = work_text(_VS + f"Rnd 3: Sl st in first ch-1 sp, ch 3, 3 dc in same sp, *ch 3, 4 dc in next ch-1 sp; {end}.\n")
    assert worked.problems == []
    assert dict(worked.fabric.rows[2].row.kinds()) == {"dc": 24}
    assert worked.fabric.rows[2].row.chains == 18


def test_a_picot_of_as_many_chains_before_the_join_stays_one() -> None:
    worked = work_text(_VS + "Rnd 3: Sl st in first ch-1 sp, ch 3, 3 dc in same sp, *4 dc in next ch-1 sp, ch 3, sl st in 3rd ch from hook; rep from * around, join.\n")
    assert dict(worked.fabric.rows[2].row.kinds()) == {"dc": 24, "picot": 5}


_SQUARE = "Ch 4, join to form ring.\nRnd 1: Ch 1, 32 sc in ring, join. (32 sc)\n"


@pytest.mark.parametrize(
    "again",
    [
        "[ch 4, sk 1 sc, sc in next sc, (ch 4, sk 2 sc, sc in next sc) twice] 4 times, omitting last sc and join with sl st to first sc",
        "*ch 4, sk 1 sc, sc in next sc, (ch 4, sk 2 sc, sc in next sc) twice; rep from * 3 more times, omitting last sc, join with sl st to first sc",
        "*ch 4, sk 1 sc, sc in next sc, (ch 4, sk 2 sc, sc in next sc) twice; rep from * around, ending last rep with sl st in first sc instead of last sc",
    ],
)
def test_what_is_left_out_stands_in_a_bracket_so_many_times(again: str) -> None:
    worked = work_text(_SQUARE + f"Rnd 2: Ch 1, sc in same st, {again}.\n")
    assert (worked.problems, _rows(worked)[1]) == ([], (12, 48))


def test_what_no_bracket_ends_with_cannot_be_left_out() -> None:
    worked = work_text(_SQUARE + "Rnd 2: Ch 1, sc in same st, *ch 4, sk 1 sc, sc in next sc, (ch 4, sk 2 sc, sc in next sc) twice; rep from * around, omitting last ch 4. Join.\n")
    assert [problem.where for problem in worked.problems] == ["Rnd 2"]


@pytest.mark.parametrize("group", ["d c-group", "dc-group", "d c group", "3-d c group", "group of d c"])
def test_a_stitch_written_in_letters_and_its_noun(group: str) -> None:
    worked = work_text(
        "Ch 6, join to form ring.\nRnd 1: Ch 3 (counts as d c), 11 d c in ring, join.\n"
        "Rnd 2: Ch 3, 2 d c in same place, ch 2, sk 1 d c, *3 d c in next d c, ch 2, sk 1 d c; rep from * around, join in top of ch-3.\n"
        f"Rnd 3: Ch 3, d c in next 2 d c, ch 4, *d c in 1st d c of next {group}, d c in next 2 d c, ch 4; rep from * around, join.\n"
    )
    assert (worked.problems, _rows(worked)[2]) == ([], (18, 24))


# -- where a repeat begins whose mark is missing ----------------------------------------------------------------------

_ROW = "Ch 16.\nRow 1: (dc, ch 2, dc) in 5th ch from hook (V-st made), *sk 2 ch, V-st in next ch; rep from * to last 2 ch, sk next ch, dc in last ch. Turn.\n"


@pytest.mark.parametrize(
    "begun",
    ["Ch 3 (counts as dc).", "Ch 3 (counts as dc here and throughout),", "Ch 3,", "3 ch,", "Ch-3,", "Turn, ch 3,", "Ch 3, turn,"],
)
def test_a_repeat_without_its_mark_begins_behind_the_chain_and_is_told(begun: str) -> None:
    worked = work_text(_ROW + f"Row 2: {begun} V-st in next ch-2 sp. Rep from * across, dc in top of ch 3. Turn.\n")
    assert [problem.where for problem in worked.problems] == ["Row 2"]
    assert _rows(worked)[1] == (10, 8)


@pytest.mark.parametrize("said", [" - V-st made", " - one V-st made", ": 1 V-st made", " (V-st made)", ", V-st complete"])
def test_a_group_that_is_said_to_be_made_has_a_name(said: str) -> None:
    worked = work_text(f"Ch 16.\nRow 1: (dc, ch 2, dc) in 5th ch from hook{said}. *Sk 2 ch, V-st in next ch; rep from * to last 2 ch, sk next ch, dc in last ch. Turn.\n")
    assert (worked.problems, _rows(worked)[0]) == ([], (10, 8))


def test_corners_that_a_count_alone_hands_on_are_stitches_like_others() -> None:
    worked = work_text(
        "Ch 9.\nRow 1: Sc in 2nd ch from hook and in each ch across. (8)\nRow 2: Ch 1, flurb in each st, turn.\n\n"
        "Edging\nRnd 1: Ch 1, 3 sc in first sc for corner, work 7 sc along each edge and 3 sc in each corner st, join with sl st to first sc. 40 sc.\n"
        "Rnd 2: Ch 1, sc in same st, [ch 4, sk next sc, sc in next corner sc, (ch 4, sk next 3 sc, sc in next sc) twice] 4 times, omitting last sc and join with sl st to first sc.\n"
    )
    assert (worked.pieces[-1].fabric.rows[-1].row.made, worked.pieces[-1].fabric.rows[-1].row.chains) == (12, 48)
    assert "Rnd 2" not in [problem.where for problem in worked.problems]


# -- rows told by the row below, and spaces beside what is skipped ----------------------------------------------------

_MESH = "Ch 16.\nRow 1: Sc in 2nd ch from hook, sc across. (15 sc)\n"


@pytest.mark.parametrize(
    "told",
    [
        "Rows 2-4: ch1, turn; sc in first sc *ch1, skip 1 sc, sc in next*\n",
        "Rows 2-4: Ch 1, turn, sc in first sc, *ch 1, skip 1 sc, sc in next sc; rep from * across.\n",
        "Row 2: Ch 1, turn, sc in first sc, *ch 1, skip next sc, sc in next st; rep from * across.\nRows 3-4: Rep Row 2.\n",
    ],
)
@pytest.mark.parametrize("last", ["Row 5: repeat row 1", "Row 5: Ch 1, turn, sc across. (15)", "Row 5: Sc across."])
def test_a_mesh_told_again_keeps_its_width(told: str, last: str) -> None:
    worked = work_text(_MESH + told + last + "\n")
    assert (worked.problems, _rows(worked)) == ([], [(15, 0), (8, 7), (8, 7), (8, 7), (15, 0)])


def test_a_mesh_row_in_its_own_words_is_worked_as_it_says() -> None:
    worked = work_text(_MESH + "Row 2: Ch 1, turn, sc in first sc, *ch 1, skip 1 sc, sc in next sc; rep from * across.\nRow 3: Ch 1, turn, sc in each sc across. (15)\n")
    assert [problem.where for problem in worked.problems] == ["Row 3"]


@pytest.mark.parametrize(
    "place",
    [
        "between last dc skipped and next dc",
        "between last skipped dc and next dc",
        "between last 2 dc skipped and next dc",
        "in space between dc just skipped and next dc",
        "between the last one skipped and the next",
        "between second dc skipped and next dc",
    ],
)
def test_the_space_behind_what_was_skipped(place: str) -> None:
    worked = work_text(f"Ch 14.\nRow 1: Dc in 4th ch from hook and in each ch across. (12)\nRow 2: Ch 3 (counts as dc), turn, *sk 2 dc, 2 dc {place}; rep from * 4 times more, dc in top of ch 3.\n")
    assert (worked.problems, _rows(worked)[1]) == ([], (12, 0))


@pytest.mark.parametrize("end", ["3rd st of end ch", "top of end ch", "3rd ch of end ch-3", "top of the end chain 3", "3rd of end ch"])
def test_the_chain_at_the_end_is_the_one_that_turned(end: str) -> None:
    worked = work_text(f"Ch 14.\nRow 1: Dc in 4th ch from hook and in each ch across, ch 3, turn. (12)\nRow 2: Sk first dc, dc in next 10 dc, dc in {end}.\n")
    assert (worked.problems, _rows(worked)[1]) == ([], (12, 0))


def test_a_first_row_wrapped_before_the_second_ones_head() -> None:
    worked = work_text(
        "CAPE\nWith wool and size G hook chain (ch) 30, double crochet (d c) in 4th\nstitch (st) from hook, 1 d c in each remaining st of ch, ch 3, turn.2nd Row. Skip 1st d c, d c in each d c, 1 d c in 3rd st of end ch, ch 3, turn.\n"
        "3rd Row. Skip 1st d c, d c in each d c, 1 d c in 3rd st of end ch.\n"
    )
    assert (worked.problems, _rows(worked)) == ([], [(28, 0), (28, 0), (28, 0)])


# -- foundations worked with the first row, stitches told in steps -----------------------------------------------------


@pytest.mark.parametrize(
    "head",
    [
        "Round 1 and Foundation Chain:",
        "Rnd 1 & foundation:",
        "Round 1 / foundation round:",
        "Foundation chain and Round 1:",
        "Foundation/Round 1:",
        "Row 1 (foundation row):",
        "Row 1, Foundation row:",
    ],
)
def test_a_head_names_the_foundation_beside_the_row(head: str) -> None:
    word = "Row" if "Row" in head else "Round"
    worked = work_text(f"{head} Work 26 fhdc. (26 sts)\n{word} 2: Ch 1, hdc in each st. (26)\n")
    assert (worked.problems, _rows(worked)) == ([], [(26, 0), (26, 0)])


@pytest.mark.parametrize(
    "said",
    [
        "Work the FHdc until you have 26 sts. Join.",
        "Leaving a tail, work FHdc until you have 26 sts. Join with a sl st to 1st FHdc.",
        "FHdc until you have 26 sts, join.",
        "Make FHdc until you have a total of 26, join.",
        "Work FHdc until there are 26 sts.",
    ],
)
def test_foundation_stitches_until_there_are_so_many(said: str) -> None:
    worked = work_text(f"Round 1: {said}\nRound 2: Ch 1, hdc in each st around, join. (26)\n")
    assert (worked.problems, _rows(worked)) == ([], [(26, 0), (26, 0)])


def test_foundation_stitches_until_there_are_too_few_are_told() -> None:
    worked = work_text("Round 1: Work FHdc until you have 25 sts, join.\nRound 2: Ch 1, hdc in each st around, join. (26)\n")
    assert [problem.where for problem in worked.problems] == ["Round 2"]


@pytest.mark.parametrize("name", ["Lhdc:", "Looped half double (Lhdc):", "- Lhdc:"])
def test_a_stitch_is_told_in_numbered_steps(name: str) -> None:
    worked = work_text(
        f"Special Stitches:\n{name}\n1. Yarn over, insert hook into next stitch and pull up a loop (3 loops on hook)\n"
        "2. Pull first loop straight through the second\n3. Yarn over, pull through two remaining loops on hook.\n\n"
        "Ch 15.\nRow 1: Hdc in 2nd ch from hook and in each ch across. (14)\nRow 2: Ch 1, turn, work 1 Lhdc in the 1st st and each st across. (14)\n"
    )
    assert worked.problems == []
    assert {kind.lower(): n for kind, n in worked.fabric.rows[1].row.kinds().items()} == {"lhdc": 14}


def test_numbered_steps_of_a_row_stay_its_work() -> None:
    worked = work_text("Ch 7.\nRow 1:\n1. Insert hook in 2nd ch from hook, sc.\n2. Sc in each ch across.\nRow 2: Ch 1, turn, sc in each st across. (6)\n")
    assert _rows(worked)[-1] == (6, 0)


# -- rounds that stop too soon, and counts right behind "around" --------------------------------------------------------

_TWELVE = "Ch 3.\nRnd 1: 6 sc in 2nd ch from hook.\nRnd 2: 2 sc in each sc around. (12)\n"


@pytest.mark.parametrize("said", ["Sc in next sc, 2 sc in next sc,", "Sc in next 2 sc, 2 sc in next sc, sc in next 2 sc, 2 sc in next sc."])
def test_a_round_without_its_repeat_is_told_and_goes_all_round(said: str) -> None:
    worked = work_text(_TWELVE + f"Rnd 3: {said}\nRnd 4: Sc in each sc around.\n")
    assert [problem.where for problem in worked.problems] == ["Rnd 3"]
    made = 18 if said.startswith("Sc in next sc") else 16
    assert _rows(worked)[2:] == [(made, 0), (made, 0)]


def test_a_round_that_comes_to_no_end_repeated_is_worked_as_far_as_it_goes() -> None:
    worked = work_text(_TWELVE + "Rnd 3: Sc in next 4 sc, 2 sc in next sc.\n")
    assert [problem.where for problem in worked.problems] == ["Rnd 3"]
    assert _rows(worked)[2] == (6, 0)


def test_a_repeat_that_does_not_come_out_is_told_and_broken_off() -> None:
    worked = work_text(
        "Magic ring.\nRnd 1: Ch 3 (counts as dc here and throughout), 9 dc in ring. Join.\nRnd 2: Ch 3, dc in same st, 2 dc in each st around. Join.\n"
        "Rnd 3: Ch 3, tr in next st. *1 dc in next 2 st, 2 dc in each of next 2; rep from * around. Join.\nRnd 4: Ch 3, dc in each st around. Join.\n"
    )
    assert [problem.where for problem in worked.problems] == ["Rnd 3"]
    assert _rows(worked) == [(10, 0), (20, 0), (28, 0), (28, 0)]


@pytest.mark.parametrize("said", ["*sc in 4 sc, sc2tog, rep from * around 10 sc", "(sc in 4 sc, sc2tog) around 10sc", "(sc in 4 sc, sc2tog) 2 times 10sc"])
@pytest.mark.parametrize(("count", "told"), [("10", []), ("11", ["Rnd 3"])])
def test_a_count_of_stitches_right_behind_the_repeat(said: str, count: str, told: list[str]) -> None:
    worked = work_text(_TWELVE + f"Rnd 3: {said.replace('10', count)}\n")
    assert ([problem.where for problem in worked.problems], _rows(worked)[2]) == (told, (10, 0))


# -- loops left free, and rows told by others with another number passed over ------------------------------------------

_PETALS = "Ch 2, 6 sc in 2nd ch from hook, do not join.\nRnd 2: *Ch 4, sl st in front lp of next sc; rep from * to end of rnd. (6 ch-4 lps)\n"


@pytest.mark.parametrize("said", ["2 sc in back lp of each sc.", "2 sc in back lp of each sc (12 sc).", "Working behind lps, 2 sc in back lp of each sc.", "2 sc in back lp of each sc of Rnd 1.", "2 sc in each sc (12 sc)."])
def test_a_round_goes_into_the_loops_left_free(said: str) -> None:
    worked = work_text(_PETALS + f"Rnd 3: {said}\nRnd 4: Sc in each sc. (12)\n")
    assert (worked.problems, _rows(worked)[1:]) == ([], [(6, 24), (12, 0), (12, 0)])
    assert {foot.hold for stitch in worked.fabric.rows[2].row.stitches for foot in stitch.feet if foot.back == 2} == {"back loop"}


@pytest.mark.parametrize("said", ["2 sc in front lp of each sc.", "2 sc in each sc."])
def test_stitches_that_are_not_there_are_told_where_no_loop_is_left(said: str) -> None:
    worked = work_text(_PETALS + f"Rnd 3: {said}\n")
    assert [problem.where for problem in worked.problems] == ["Rnd 3"]


_NET = (
    "Ch 14.\nRow 1: Sc in 2nd ch from hook and in each ch across. (13)\nRow 2: Ch 1, sc in first sc, *ch 3, sk 1 sc, sc in next sc; rep from * across.\n"
    "Row 3: Ch 1, sc in first sc, *sc in next ch-3 sp, sc in next sc; rep from * across. (13)\n"
)


@pytest.mark.parametrize(
    ("again", "made"),
    [
        ("Rep Row 2, but sk 2 sc.", (5, 12)),
        ("Same as Row 2 but skipping 2 sc instead of 1.", (5, 12)),
        ("As Row 2, skipping 2 sc.", (5, 12)),
        ("Rep Row 2 except skip 3 sc each time.", (4, 9)),
        ("Rep Row 2, skip 2 sc instead of 1 sc.", (5, 12)),
        ("Rep Row 2, but working ch 4.", (7, 24)),
    ],
)
def test_a_row_told_by_another_passes_over_more(again: str, made: tuple[int, int]) -> None:
    worked = work_text(_NET + f"Row 4: {again}\n")
    assert (worked.problems, _rows(worked)[3]) == ([], made)


def test_more_passed_over_than_comes_out_even_is_told() -> None:
    worked = work_text(_NET + "Row 4: Rep Row 2, but sk 4 sc.\n")
    assert [problem.where for problem in worked.problems] == ["Row 4"]


# -- brackets told again, rows that grow, a row as far as the turning chain ---------------------------------------------


@pytest.mark.parametrize(
    "again",
    ["rep bet () twice", "rep between parentheses twice", "rep instructions in parentheses twice", "repeat inside () 2 times", "rep between ( ) 2 more times", "rep () twice"],
)
def test_brackets_told_again_further_on(again: str) -> None:
    worked = work_text(_TWELVE + f"Rnd 3: (2 sc in next st, sc in next st) 3 times, sc in next 2 sts, {again}.\n")
    assert (worked.problems, _rows(worked)[2]) == ([], (17, 0))


def test_brackets_told_again_once_too_often_are_told() -> None:
    worked = work_text(_TWELVE + "Rnd 3: (2 sc in next st, sc in next st) 3 times, sc in next 2 sts, rep between brackets 3 times.\n")
    assert [problem.where for problem in worked.problems] == ["Rnd 3"]


@pytest.mark.parametrize(
    "said",
    ["cont in this way, working one extra dc between increases on this round (50 sts)", "continue in this manner with 1 more dc between increases, 50 sts", "Continue increasing, working 1 more dc between increases. (50 sts)"],
)
def test_a_run_beside_the_repeat_grows_with_it(said: str) -> None:
    worked = work_text(
        "Magic ring.\nRnd 1: Ch 3 (counts as dc), 9 dc in ring, join. (10)\nRnd 2: Ch 3, 2 dc in each of next 9 dc, dc in base of beg ch 3, join. (20)\n"
        "Rnd 3: Ch 3, (dc in next st, 2 dc in next st) 9 times, dc in next st, dc in base of beg ch 3, join. (30)\n"
        "Rnd 4: Ch 3, (dc in next 2 sts, 2 dc in next st) 9 times, dc in next 2 sts, dc in base of beg ch 3, join. (40)\n" + f"Rnd 5: {said}\n"
    )
    assert (worked.problems, _rows(worked)[-1]) == ([], (50, 0))


@pytest.mark.parametrize("far", ["across until the last ch 4, skip next ch,", "to the last ch-4, skip next ch,", "until the last chain 4, sk 1 ch,"])
def test_a_row_goes_as_far_as_the_turning_chain(far: str) -> None:
    worked = work_text(
        "Row 1: Ch 6, dc in last ch from hook. Turn.\nRow 2: Ch 4 (counts as dc + ch 1), skip next ch, [dc, ch 1, dc] in next ch. Turn.\n"
        "Row 3: Ch 4 (counts as dc + ch 1), dc in same st, repeat [ch 1, dc in next st] across. Turn.\n"
        f"Row 4: Ch 4 (counts as dc + ch 1), [dc in next st, ch 1] {far} [dc, ch 1, dc] in next ch.\n"
    )
    assert (worked.problems, _rows(worked)[3]) == ([], (5, 4))


@pytest.mark.parametrize(
    "said",
    [
        "turn piece so you are now working across the bottom of the foundation ch,",
        "turn so you are working along the other side of the foundation ch,",
        "rotate work so that you are working on the opposite side of the chain,",
        "turn piece so you're working into the other side of ch,",
        "turn work upside down, now you are working on the other side of ch,",
    ],
)
@pytest.mark.parametrize("last", ["hdc in next 5 ch", "hdc next 4 ch, hdc last ch with beg 2 hdc", "hdc next 4 ch, hdc in last ch with first 2 hdc"])
def test_the_other_side_of_a_chain_told_as_talk(said: str, last: str) -> None:
    worked = work_text(f"Rnd 1: ch 7, 2 hdc in 2nd ch from hook, hdc next 4 ch, 3 hdc in last ch, {said} {last}, sl st in top of beg hdc. (14)\n")
    assert (worked.problems, _rows(worked)) == ([], [(14, 0)])


# -- repeats without a mark ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize("end", ["catching into last stitch with 1 s.c.", "1 sc in last stitch.", "catching down into last st with 1 sc."])
def test_what_comes_again_past_some_stitches_is_repeated_from_there(end: str) -> None:
    worked = work_text(f"Chain 20\nRow 1: 3 d.c. in first chain, skip 3, 3 d.c. in next stitch, and repeat to end of row, {end}\n")
    assert worked.problems == []
    assert dict(worked.fabric.rows[0].row.kinds()) == {"dc": 15, "sc": 1}


@pytest.mark.parametrize(
    ("said", "made"),
    [
        ("Ch 9, 2 sc in 2nd st from hook, 2 sc in each chain, sc in next 2 stitches. Repeat around.", (108, 54)),
        ("Ch 6, sl st in 2nd ch from hook and in next 4 ch, sc in next 2 sc. Repeat around.", (12, 36)),
    ],
)
def test_a_chain_that_is_worked_along_comes_again(said: str, made: tuple[int, int]) -> None:
    worked = work_text(f"Ch 4, join.\nRnd 1: Ch 1, 12 sc in ring.\nRnd 2: {said}\n")
    assert (worked.problems, _rows(worked)[1]) == ([], made)


def test_a_foundation_is_no_part_of_what_comes_again() -> None:
    worked = work_text("Row 1: Ch 20, sc in 2nd ch from hook, ch 1, sk 1, sc in next ch, repeat across.\n")
    assert (worked.problems, _rows(worked)[0]) == ([], (10, 9))
