"""Ways in which older, hurried and scanned pages say what others say in the usual words (common practice, no source)."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import work_text


def _made(text: str) -> list[int]:
    worked = work_text(text)
    assert not worked.problems, worked.problems
    return [row.row.made for piece in worked.pieces for row in piece.fabric.rows]


_TWENTY = "Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across.\n"


@pytest.mark.parametrize(
    "said",
    [
        "Ch 1, make s c in each s c of previous row, picking up only the back loop of each s c.",
        "Ch 1, working only in the BACK loops (loops farthest from you) of the tops of the sc's, work sc in each sc.",
        "Ch 1, working only in the BACK loops of the sts, sc in each sc.",
    ],
)
def test_loops_told_in_a_sentence(said: str) -> None:
    worked = work_text(f"{_TWENTY}Row 2: {said}\n")
    assert not worked.problems
    made = worked.pieces[0].fabric.rows[1].row
    assert made.made == 20
    assert {foot.hold for stitch in made.stitches for foot in stitch.feet} == {"back loop"}


def test_moves_of_the_hook_in_a_row_are_the_stitch_they_make() -> None:
    legs = "yo, insert hook in next ch and pull up a loop, yo and draw through 2 loops"
    text = f"Ch 20.\nRow 1: Dc in 4th ch from hook, *{legs}, {legs}, yo and draw through all 3 loops on hook, ch 1; rep from * to last 2 ch, dc in last 2 ch.\n"
    worked = work_text(text)
    assert not worked.problems
    assert [s.kind for s in worked.pieces[0].fabric.rows[0].row.stitches].count("dc2tog") == 7


@pytest.mark.parametrize(
    ("moves", "kind"),
    [
        ("yo, insert hook from front around post of next dc, yo and draw up a loop, (yo and draw through 2 loops) twice", "FPdc"),
        ("yo, insert hook from back to front around the post of next dc, pull up a loop, (yo, pull through 2 loops) twice", "BPdc"),
    ],
)
def test_moves_round_a_post(moves: str, kind: str) -> None:
    text = f"Ch 20.\nRow 1: Dc in 4th ch from hook and in each ch across.\nRow 2: Ch 3, turn, skip first dc, *{moves}, dc in next dc; rep from * to last dc, dc in top of turning ch.\n"
    worked = work_text(text)
    assert not worked.problems
    assert sum(s.kind == kind for s in worked.pieces[0].fabric.rows[1].row.stitches) == 8


def test_moves_that_make_no_stitch_are_told() -> None:
    text = f"{_TWENTY}Row 2: Ch 1, *draw up a loop in same sc, yo, draw up a loop in next sc, yo and through 4 loops, sc in next sc; rep from * across.\n"
    assert any("Row 2" in problem.where for problem in work_text(text).problems)


def test_a_mark_that_is_left_out() -> None:
    assert _made("Ch 16.\nRow 1: Dc in 4th ch from hook, dc in each of next 3 ch, * 2 dc in next ch, dc in each of next 2 ch, repeat from 2 times more.\n") == [17]
    ring = "Ch 2.\nRnd 1: 8 sc in 2nd ch from hook, join.\nRnd 2: Ch 3, dc in same st, *ch 2, skip 1 sc, 2 dc in next sc; rep from * 2 more times, ch 2, join.\n"
    worked = work_text(f"{ring}Rnd 3: Between 2 dc make 1 dc, ch 1, 1 dc in same place, 3 dc over ch-2, repeat from * around.\n")
    assert worked.pieces[0].fabric.rows[2].row.made == 20
    assert [problem.where for problem in worked.problems] == ["Rnd 3"]


def test_in_the_loop_where_the_slip_stitches_were_made() -> None:
    ring = "Ch 5, join.\nRnd 1: Ch 1, 14 sc in ring, join.\nRnd 2: Ch 5, skip 1 sc, * sc in next sc, ch 5, skip 1 sc, repeat from * 5 times more, sc in next sc.\n"
    more = "Rnd 3: Sl st in 1st and 2nd ch sts of 1st loop, * ch 5, 1 sc in next loop, repeat from * around, ending with 1 sc in loop where the 2 sl sts were made.\n"
    shells = "Rnd 4: Ch 3, 2 dc in 1st loop, ch 2, 3 dc in same loop (1 shell formed); * 3 dc in next loop, ch 2, 3 dc in same loop (another shell), and repeat from * until there are 7 shells in rnd.\n"
    assert _made(ring + more + shells)[2:] == [7, 42]


def test_a_page_that_sets_stops_behind_its_numbers() -> None:
    page = (
        "THE CENTRE: Ch. 40 sts. 1st row: 1. s.c. in 8th Ch. from hook. *Ch. 3. Miss 3 sts. 1. s.c. in next st. Repeat from * to end of row. 9 loops in row. Ch. 3. Turn. "
        "2nd row: 4. d.c. in 1st. loop. (1 block). *Ch. 2. 1. s.c. in next loop. Ch. 2. 4. d.c. in next loop. Repeat from * to end of row. Ch. 4. Turn.\n"
    )
    assert _made(page) == [9, 25]


@pytest.mark.parametrize("said", ["even (13)", "even", "Work even around (13)", "straight (13)"])
def test_even_after_a_shaped_round_is_not_shaped(said: str) -> None:
    assert _made(f"Rnd 1: Magic ring, 6 sc (6)\nRnd 2: inc around (12)\nRnd 3: sc 5, inc, sc 6 (13)\nRnd 4: {said}\nRnd 5: sc 6, dec, sc 5 (12)\n")[3] == 13


@pytest.mark.parametrize("said", ["leaving 20 hdc", "leaving you with 20 hdc", "leaving 20 sts"])
def test_what_a_row_leaves_one_with_is_its_count(said: str) -> None:
    assert _made(f"Rnd 1: 10 hdc in the centre of a magic ring.\nRnd 2: 2 hdc in each st {said}.\n") == [10, 20]
    assert work_text(f"Rnd 1: 11 hdc in a magic ring.\nRnd 2: 2 hdc in each st {said}.\n").problems


def test_what_was_done_is_what_is_worked() -> None:
    assert _made("Rnd 1: I did 9 hdc in the centre of the magic ring. 9 seemed to work out well.\nRnd 2: 2 hdc in each st.\n") == [9, 18]


def test_work_to_end() -> None:
    text = "Ch 20.\nRow 1: Dc in 4th ch from hook and in each ch across.\nRow 2: Ch 3, turn, * dc in each of next 4 dc, 2 dc in next dc, repeat from * once more, work to end - 20 dc.\n"
    assert _made(text)[-1] == 20


def test_in_so_many_only() -> None:
    assert _made(f"{_TWENTY}Row 2: Ch 1, sc in next 12 stitches only, turn.\nRow 3: Ch 1, sc in each sc.\n") == [20, 12, 12]


def test_chains_skipped_by_their_number_before_them() -> None:
    assert _made("Ch 22, dc in 6th ch from hook, *skip ch2, 5 dc in next ch, skip ch2, dc in next ch, ch 1, skip ch1, dc in next ch; rep from * once, turn.\n") == [16]


def test_a_bracket_that_is_never_closed_and_tells_of_a_stitch() -> None:
    text = f"{_TWENTY}Row 2: Ch 1, sc in next 10 sc, 3 sc in next sc (which will be the middle one. Sc in next 9 sc. Turn.\n"
    assert _made(text)[-1] == 22


def test_a_one_misread_before_letters_set_apart() -> None:
    assert _made("Ch 5, join.\nRnd 1: Ch 3, 20 d c in ring, join.\nRnd 2: Ch 5, l s c in 1st d c, * ch 5, l s c in next d c, repeat from * around.\n")[0] == 21


def test_a_group_that_stays_in_the_first_stitch() -> None:
    text = "Ch 12.\nRow 1: Dc in 4th ch from hook and in each ch across.\nRow 2: Ch 3 (counts as dc), turn. [Ch 3, dc in first st] twice, dc in next 9 sts.\n"
    worked = work_text(text)
    assert not worked.problems
    feet = [foot.at for stitch in worked.pieces[0].fabric.rows[1].row.stitches if stitch.role == "stitch" for foot in stitch.feet]
    assert feet[:2] == [feet[0]] * 2 and len(set(feet)) == 10


@pytest.mark.parametrize(("said", "cut"), [("Fasten off.", [False, False, True]), ("Do not fasten off.", [False, False, False])])
def test_the_yarn_is_cut_behind_the_last_of_a_run(said: str, cut: list[bool]) -> None:
    worked = work_text(f"Ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch.\nRows 2-3: Ch 1, turn, sc in each sc.\n{said}\n")
    assert [row.cut for row in worked.pieces[0].fabric.rows] == cut


def test_a_named_yarn_is_cut() -> None:
    text = "With A, ch 4; join with sl st to form ring.\nRnd 1: Ch 1, 8 sc in ring; join. Fasten off A.\nRnd 2: Join B in any sc, 2 sc in each sc; join. Do not fasten off.\n"
    assert [row.cut for row in work_text(text).pieces[0].fabric.rows] == [True, False]


def test_three_chains_for_a_dc_outweigh_the_british_wrap() -> None:
    text = "Ch 4, sl st to form ring.\nRnd 1: 3 ch (counts as 1 dc), 11 dc into ring; sl st into top of 3 ch.\nPuff: yoh, insert hook, yoh and pull up a loop.\n"
    assert {s.kind for s in work_text(text).pieces[0].fabric.rows[0].row.stitches if s.role in ("stitch", "start", "turning") and s.kind != "ch"} == {"dc"}


def test_until_the_second_to_last_goes_into_that_one() -> None:
    text = "Ch 4, join.\nRnd 1: Ch 3, 23 dc in ring, join. (24)\nRnd 2: Ch 1, sc in same st, *ch 3, skip 1 st, sc in next st; rep from * around until the second to last st. At this point make an hdc in first sc. (12 ch-3 sps)\n"
    worked = work_text(text)
    assert not worked.problems
    closing = worked.pieces[0].fabric.rows[1].row.stitches[-1]
    assert (closing.kind, closing.role) == ("hdc", "join")
    dec = "Ch 14.\nRow 1: Sc in 2nd ch from hook and in each ch.\nRow 2: Ch 1, sc in each st to second to last st, sc2tog.\n"
    assert _made(dec) == [13, 12]


def test_a_slip_knot_before_the_chain() -> None:
    assert _made("Slip knot, ch 2, 6 sc in first ch.\nRound 2: 2 sc in ea st around.\n") == [6, 12]


def test_a_repeat_before_another_one_is_worked_once_more() -> None:
    text = (
        "Ch 32.\nRow 1: Sc in 2nd ch from hook and in each ch across.\n"
        "Row 2: Ch 1, sc in next 9 sts, * 2 sc in next st, 1 sc in next st, repeat from *, * 1 sc in next st, 2 sc in next st, repeat from *, sc in next 10 sts, 2 sc in each remaining st.\n"
    )
    assert _made(text) == [31, 39]


@pytest.mark.parametrize("name", ["Wing", "Left Wing (as seen from the front)", "Upper petal"])
def test_a_row_on_its_own_yarn_under_a_name_is_no_talk(name: str) -> None:
    text = f"{_TWENTY}{name}: With right side facing, join yarn in first sc; (sc, hdc, 3 dc, hdc, sc) in next sc, sl st in next sc. Fasten off.\n"
    assert _made(text) == [20, 8]
    lost = f"{_TWENTY}{name}: With right side facing, join yarn in first sc; (sc, hdc, 3 trollops, hdc, sc) in next sc. Fasten off.\n"
    assert work_text(lost).problems


def test_a_foundation_double_crochet_says_nothing_of_the_terms() -> None:
    text = "Tension 23 sts.\nFdc - foundation double crochet\nRow 1: Ch21, 1dc in 2nd ch from hook, 1dc in each ch to end, turn - 20 sts\n"
    worked = work_text(text)
    assert not worked.problems
    assert {s.kind for s in worked.pieces[0].fabric.rows[0].row.stitches if s.role == "stitch"} == {"sc"}


def test_short_double_crochet_by_its_letters() -> None:
    text = f"{_TWENTY}Row 2: Ch 2, turn, 1 sdc in each sc (sdc - yo hk, hook in st, pull lp thru, yo & pull thru all lps at once).\n"
    kinds = {s.kind for s in work_text(text).pieces[0].fabric.rows[1].row.stitches if s.role == "stitch"}
    assert kinds == {"hdc"}


def test_a_popcorn_told_by_a_hook_that_is_put_in() -> None:
    text = (
        "Ch 4, join.\nRnd 1: Ch 3, 15 dc in ring and join (16 dc).\nRnd 2: Ch 4, *1 dc in next dc, ch 1; repeat from * 14 times. Join with sl st to 3rd ch of ch-4. Fasten off.\n"
        "Rnd 3: Join red in any ch-1 sp, ch 3, 4 dc in same sp. Take loop off hook, put hook in top of ch-3, pick up loop and pull through, ch 2 (popcorn made). "
        "*5 dc in next sp, drop loop, put hook in top of 1st dc, pick up loop and pull through, ch 2. Repeat from * 14 times (16 popcorns) and join with sl st to top of ch-3 of first popcorn.\n"
    )
    assert _made(text)[-1] == 16


def test_still_in_the_same_place() -> None:
    ring = "Ch 4, join.\nRnd 1: Ch 3, 2 dc in ring, (ch 2, 3 dc in ring) 3 times, ch 2, join.\n"
    assert _made(f"{ring}Rnd 2: Ch 3, dc in next 2 dc, *2 dc in 2ch space, ch 2, 2 dc in 2ch space still, dc in next 3 dc; rep from * 2 more times, (2 dc, ch 2, 2 dc) in last sp, join.\n")[-1] == 28


def test_moves_in_a_bracket_are_one_stitch_as_often_as_is_said() -> None:
    moves = "yo, insert hook from front around post of next dc, pull up a loop, (yo, pull through 2 loops) twice"
    text = f"Ch 20.\nRow 1: Dc in 4th ch from hook and in each ch across.\nRow 2: Ch 3, turn, skip first dc, *({moves}) 3 times, dc in next dc; rep from * 3 more times, dc in top of turning ch.\n"
    worked = work_text(text)
    assert not worked.problems
    assert sum(s.kind == "FPdc" for s in worked.pieces[0].fabric.rows[1].row.stitches) == 12


@pytest.mark.parametrize(
    "said", ["6 seemed to work out well", "the increasing is begun in this round", "over the rope", "in rounds again"]
)
def test_what_is_set_apart_is_told(said: str) -> None:
    row = {"over the rope": "2 sc over the rope in every sc", "in rounds again": "2 sc in each sc, join, in rounds again"}.get(said, f"2 sc in each sc. {said.capitalize()}")
    worked = work_text(f"Rnd 1: 6 sc in a magic ring.\nRnd 2: {row}.\n")
    assert not worked.problems and worked.pieces[0].fabric.rows[1].row.made == 12
    told = " ".join([*(text for _, text in worked.prose), *(note.says for note in worked.notes)]).lower()
    assert said in told


def test_letters_that_a_page_gives_to_another_stitch() -> None:
    text = "SDc - standing double crochet\nCh 22.\nRow 1: Dc in 4th ch from hook and in each ch across. (20)\nRow 2: Turn, SDc in first dc, dc in each dc across. (20)\n"
    row = work_text(text).pieces[0].fabric.rows[1].row
    assert row.made == 20 and not any(s.kind == "hdc" for s in row.stitches)
