"""Ways of saying that are met often: turns told in prose, increases at a place behind a run, two names beside each other,
words set on, names before and behind heads, pieces named in capitals, rows told in prose, lists behind "the following"."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import Worked, work_text

_DISC = "Rnd 1: 6 sc in a magic ring. (6)\nRnd 2: 2 sc in each st around. (12)\n"
_STRIP = "Ch 19.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (18)\n"


def _made(worked: Worked) -> list[int]:
    return [row.row.made for row in worked.fabric.rows]


def _labels(worked: Worked) -> list[str]:
    return [row.label for row in worked.pattern.rows]


# -- turns and increases told in prose --------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "said",
    [
        "Alternate between 1 sc and an increase.",
        "Alternately sc into one stitch and then increase all the way round.",
        "Alternating 2 sc in one st with 1 sc in the following st to the end of the round.",
        "Work alternately 1 sc and 1 increase around.",
        "Alternate 1 sc, and 2 sc in the next st. Repeat the pattern 6 times.",
        "Continue with 1 sc followed by 1 inc around.",
    ],
)
def test_turns_come_again_to_the_end(said: str) -> None:
    worked = work_text(_DISC + f"Rnd 3: {said} (18)\n")
    assert (worked.problems, _made(worked)) == ([], [6, 12, 18])


def test_turns_that_do_not_come_out_are_told() -> None:
    assert [p.where for p in work_text(_DISC + "Rnd 3: Alternate between 1 sc and an increase. (20)\n").problems] == ["Rnd 3"]
    assert [p.where for p in work_text(_STRIP.replace("19", "20").replace("18", "19") + "Row 2: Ch 1, alternate sc and dc across.\n").problems] == ["Row 2"]


def test_colours_by_turns_are_no_stitches_by_turns() -> None:
    assert work_text(_STRIP + "Row 2: Ch 1, alternate red and blue, sc in each st.\n").problems != []


@pytest.mark.parametrize(
    ("said", "count"),
    [
        ("*Sc in next 3 sts with an increase (2 sc) in the fourth; rep from * around.", 15),
        ("*Sc in each of next 4 sts, with an increase on the 4th st; rep from * around.", 15),
        ("*1 sc in next two sts and 3 sc in the third* repeat from * around.", 20),
    ],
)
def test_an_increase_in_the_stitch_behind_a_run_or_in_its_last(said: str, count: int) -> None:
    worked = work_text(_DISC + f"Rnd 3: {said} ({count})\n")
    assert (worked.problems, _made(worked)[2]) == ([], count)


def test_an_increase_further_off_is_told() -> None:
    assert [p.where for p in work_text(_DISC + "Rnd 3: *Sc in next 3 sts with an increase in the seventh; rep from * around.\n").problems] == ["Rnd 3"]


@pytest.mark.parametrize("said", ["Sc around, decreasing every 6th st by skipping it.", "Decrease in every 6th st by skipping that st.", "Sc around, skipping every sixth st."])
def test_a_decrease_by_what_is_passed_over(said: str) -> None:
    worked = work_text(_DISC + f"Rnd 3: {said} (10)\n")
    assert (worked.problems, _made(worked)[2]) == ([], 10)


def test_an_increase_evenly_apart() -> None:
    worked = work_text(_DISC + "Rnd 3: Sc around, increasing 4 sc evenly apart. (16)\n")
    assert (worked.problems, worked.notes, _made(worked)[2]) == ([], [], 16)


# -- two names, misprints, words set on -------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "ring",
    ["7 sc in circle/ring", "7 sc in the magic ring/loop", "7 (sc) single crochet in a ring", "7 sc into a magin ring", "7 sc into a majic circle", "Seven (7) sc in a ring", "7 SC\u0432 MAG\u0130C R\u0130NG"],
)
def test_one_thing_by_two_names_or_misprinted(ring: str) -> None:
    worked = work_text(f"Rnd 1: {ring}. (7)\nRnd 2: 2 sc in each stitch/st allaround. (14)\n")
    assert (worked.problems, _made(worked)) == ([], [7, 14])


def test_a_stitch_by_its_names_in_both_systems_throughout() -> None:
    worked = work_text("Ch 15.\nRow 1: 1 dc/sc in 2nd ch from hook, 1 dc/sc in each ch across, turn. (14)\nRow 2: Ch 1, 1 dc/sc in each dc/sc across. (14)\n")
    assert worked.problems == []
    assert [dict(row.row.kinds()) for row in worked.fabric.rows] == [{"sc": 14}, {"sc": 14}]
    assert any("two names" in said for said in worked.assumed)


def test_two_stitches_in_one_place_are_no_two_names() -> None:
    worked = work_text(_STRIP + "Row 2: Ch 1, *sk 1 st, sc/dc in next st; rep from * across.\n")
    assert [p.where for p in worked.problems] == ["Row 2"]


def test_words_set_on_each_other() -> None:
    worked = work_text(_STRIP + "Row 2: Ch 1, *skipnext st, 2 sc inthe next st; repeatfrom * across. (18)\n")
    assert (worked.problems, _made(worked)[1]) == ([], 18)
    assert work_text(_STRIP + "Row 2: Ch 1, *tuckover st, sc in next st; rep from * across.\n").problems != []


@pytest.mark.parametrize(
    ("said", "count"),
    [
        ("Ch.1, sc 5, ch.1, skip 1 sc, sc 5, ch.1, skip 1 sc, sc 6, turn. (16)\nRow 3: Ch.1, sc 6, sc in ch.1 space, sc 5, sc in ch.1 space, sc 5. (18)", 18),
        ("Ch 3, turn, skip first st, 1 de in each of next 16 sts, dc in last st. (18)\nRow 3: Cn 3, skip first dc, 1 de in each dc, dc in tch. (18)", 18),
        ("Ch 1, *sc in next st, dc in next st*. Repeat between *'s to end of row. (18)\nRow 3: Ch 1, *sc in 1st st, dc in 2nd st*, repeat 9 x's. (18)", 18),
        ("Ch 1, sc in next 3 sts, 2 sc in next st, sc in next 14 sts after that. (19)\nRow 3: Ch 1, sc in back lop of each st. (19)", 19),
    ],
)
def test_slips_of_print(said: str, count: int) -> None:
    worked = work_text(_STRIP + f"Row 2: {said}\n")
    assert (worked.problems, _made(worked)[2]) == ([], count)


# -- heads ------------------------------------------------------------------------------------------------------------


def test_what_a_row_is_called_stands_behind_its_number_or_before_it() -> None:
    text = "Ch 16.\nTrellis Set-Up Row: Dc in 4th ch from hook and in each ch across, turn. (14)\nRow 1 \u2013 Eyelet Row \u2013 ch 4, skip next dc, *dc in next dc, ch 1, skip next dc; rep from * to last 2 sts, skip 1, dc in tch.\n"
    worked = work_text(text.replace("to last 2 sts, skip 1, dc in tch", "across, turn").replace("Ch 16", "Ch 17").replace("(14)", "(15)"))
    assert worked.problems == []
    assert _made(worked)[0] == 15
    named = work_text(_DISC + "Rnd 3: Strap round. Ch 1, sc in each st around. (12)\n")
    assert (named.problems, _made(named)[2]) == ([], 12)


def test_what_a_row_is_called_may_be_its_work() -> None:
    worked = work_text(_DISC + "Rnd 3: Increase round: *sc in next st, inc; rep from * around. (18)\nRnd 4: Decrease round: *sc, dec; rep from * around. (12)\n")
    assert (worked.problems, _made(worked)[2:]) == ([], [18, 12])


def test_pieces_named_in_capitals_without_a_mark() -> None:
    worked = work_text("HEART With red, chain 2. 9 sc into the 1st chain. Sl st in first sc. 9 sts.\nSTEM-ch 11, sl st in 2nd ch from hook and in each ch.\n")
    assert worked.problems == []
    assert _made(worked) == [9]  # the first piece
    assert [row.part for row in worked.pattern.rows] == ["Heart", "Stem"]


def test_rounds_told_in_the_sentences_of_one_line() -> None:
    worked = work_text("Ball\n5 sc in magic ring. 2 sc in each st around. 1 sc in each st.\n")
    assert (worked.problems, _made(worked)) == ([], [5, 10, 10])
    worked = work_text("Eye: chain 2. 8 sc into the 1st chain. 2 sc into each st. Slip st into the first sc to join.\n")
    assert (worked.problems, _made(worked)) == ([], [8, 16])


def test_stitches_of_a_ring_that_the_round_itself_makes_are_told() -> None:
    assert [p.where for p in work_text("Rnd 1: 8 sc in magic ring, sc in each st around.\n").problems] == ["Rnd 1"]


def test_a_row_told_in_the_sentence_behind_its_chain_is_no_talk() -> None:
    worked = work_text("Ch 13. Dc in 4th ch from hook, dc in each ch across, turn. (11)\nRow 1: Ch 1, sc in each dc across. (11)\n")
    assert (worked.problems, _made(worked)) == ([], [11, 11])


def test_a_row_s_name_alone_above_the_row() -> None:
    worked = work_text(_STRIP + "Row 2 \u2014 the Ribbon Row\nRow 2 (and all even rows):\n1. Ch 1, sc in first 4 sts.\n2. Sc in next 14 sts. (18)\n")
    assert (worked.problems, _made(worked)) == ([], [18, 18])


def test_steps_by_the_kind_of_knot_are_no_stitch() -> None:
    worked = work_text("Row 1: Make a knot and chain 13, sc in 2nd ch from hook and in each ch. (12)\n")
    assert (worked.problems, _made(worked)) == ([], [12])


# -- rows told in prose -----------------------------------------------------------------------------------------------


def test_rows_told_in_prose() -> None:
    text = """Ch 18.
The first row is easy: dc in 4th ch from hook and in each ch across, turn. (16)
The second row is ch 1, sc in each dc across, turn. (16)
For the third row, ch 1, 2 sc in first sc, sc in each sc across, turn. (17)
On the next row, ch 1, sc in each sc. (17)
The fifth row is the same.
The final row is (sc, ch 3) in each sc across.
"""
    worked = work_text(text)
    assert (worked.problems, _made(worked)) == ([], [16, 16, 17, 17, 17, 17])


def test_prose_beside_rows_with_heads_is_no_row() -> None:
    worked = work_text(_STRIP + "The first row is 18 sc.\nRow 2: Ch 1, sc in each sc. The second row is the right side.\n")
    assert _made(worked) == [18, 18]


def test_a_row_in_prose_that_does_not_say_where_is_told() -> None:
    worked = work_text("Ch 18.\nThe first row is dc in 4th ch from hook and in each ch across. The second row is (sc, ch 3).\n")
    assert worked.problems != []


# -- lists, loops, posts ----------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "said",
    [
        "Work the following into the ring: 3 dc, 2 tr, 3 dc.",
        "Make all of the next stitches in the ring. 3 dc, 2 tr, 3 dc.",
        "Work all of the following stitches into the ring: 3 dc, 2 tr, 3 dc.",
    ],
)
def test_a_list_that_goes_into_one_place(said: str) -> None:
    worked = work_text(f"Ch 5, join to form a ring.\nRnd 1: {said} (8)\n")
    assert (worked.problems, _made(worked)) == ([], [8])


@pytest.mark.parametrize("begin", ["Starting at the second ch, work the following stitches:", "Begin in the 2nd ch from hook and work:", "Beginning in second ch from hook, work"])
def test_a_row_begun_at_a_chain(begin: str) -> None:
    worked = work_text(f"Ch 9.\nRow 1: {begin} sc, hdc, hdc, dc, dc, hdc, hdc, sc. (8)\n")
    assert (worked.problems, _made(worked)) == ([], [8])
    worked = work_text("Ch 9.\nRow 1: Begin in the 2nd ch from hook and work: *sc, hdc; rep from * across. (8)\n")
    assert (worked.problems, _made(worked)) == ([], [8])


@pytest.mark.parametrize("until", ["until 6 loops worked", "until there are 6 loops", "until you have 6 petal loops", "until 6 petal loops are made"])
def test_a_repeat_until_so_many_loops(until: str) -> None:
    worked = work_text(_DISC + f"Rnd 3: *Ch 6, skip 1 st, sc in next st; rep from * {until}. (6)\n")
    assert (worked.problems, _made(worked)[2]) == ([], 6)


def test_a_repeat_until_more_loops_than_there_is_room_for_is_told() -> None:
    assert [p.where for p in work_text(_DISC + "Rnd 3: *Ch 6, skip 1 st, sc in next st; rep from * until 8 loops worked.\n").problems] == ["Rnd 3"]


def test_posts_are_those_of_the_stitches() -> None:
    text = "Ch 20.\nRow 1: Dc in 4th ch from hook and in each ch across, turn. (18)\nRow 2: Ch 2, skip first dc, *fpdc around each of the next 2 posts, bpdc around next 2 posts; rep from * across to last st, dc in tch. (18)\n"
    worked = work_text(text)
    assert (worked.problems, _made(worked)) == ([], [18, 18])


def test_which_post_has_to_be_said() -> None:
    text = "Ch 20.\nRow 1: Dc in 4th ch from hook and in each ch across, turn. (18)\nRow 2: *Sc around the post, ch 3; rep from * across.\n"
    assert [p.where for p in work_text(text).problems] == ["Row 2"]


def test_back_along_a_chain() -> None:
    worked = work_text("Ch 9.\nRnd 1: Sc in 2nd ch from hook and in next 6 ch, 3 sc in last ch. Turn and work back along the chain, sc in next 6 ch, 2 sc in last ch. Join. (18)\n")
    assert (worked.problems, _made(worked)) == ([], [18])


def test_a_loop_at_a_row_s_beginning_comes_again() -> None:
    worked = work_text(_DISC + "Rnd 3: Ch 5, sc in next 2 sts. Do it 5 more.\nRnd 4: *3 sc in next ch-5 sp, sk 2 sc; rep from * around. (18)\n")
    assert (worked.problems, _made(worked)[2:]) == ([], [12, 18])


def test_a_count_behind_repeat_at_the_end_of_a_round() -> None:
    worked = work_text(_DISC + "Rnd 3: Inc, sc repeat (18)\nRnd 4: inc, sc2, rep (24)\nRnd 5: dec, 2 sc. Repeat (18)\n")
    assert (worked.problems, _made(worked)) == ([], [6, 12, 18, 24, 18])
    assert [p.where for p in work_text(_DISC + "Rnd 3: Inc, sc repeat (17)\n").problems] == ["Rnd 3"]


def test_how_many_rows_a_run_has_may_be_said_again() -> None:
    worked = work_text(_DISC + "Rnds 3-6 - sc around (12) - repeat 4 rows\nRnd 7: inc around. (24)\n")
    assert (worked.problems, _made(worked)) == ([], [6, 12, 12, 12, 12, 12, 24])
    assert work_text(_DISC + "Rnds 3-6 - sc around (12) - repeat 5 rows\n").problems != []


def test_signs_in_the_place_of_a_star() -> None:
    worked = work_text("Ch 5, sl st to form ring.\nRnd 1: Ch 1, @2 sc in ring, ch 2. Repeat from @ 3 times. (8)\nRnd 2: @3 dc in next ch-2 sp. Repeat from @ around. (12)\n")
    assert (worked.problems, _made(worked)) == ([], [8, 12])
    worked = work_text(_STRIP + "Row 2: Ch 1, *sc in next st, dc in next st; rep from \u201d across. (18)\n")
    assert (worked.problems, _made(worked)[1]) == ([], 18)
    assert work_text(_STRIP + "Row 2: Ch 1, sc in next st; rep from @ across.\n").problems != []


def test_a_number_in_a_place_is_of_the_row_s_stitch() -> None:
    worked = work_text("Ch 14.\nRow 1: Dc in 4th ch from hook, dc in next 9 ch, into the last ch work 4. (15)\n")
    assert (worked.problems, dict(worked.fabric.rows[0].row.kinds())) == ([], {"dc": 15})
    assert work_text("Ch 14.\nRow 1: Dc in 4th ch from hook, dc in next 9 ch, into the last ch work. (15)\n").problems != []


def test_rounds_that_are_never_joined_nor_turned_and_end() -> None:
    worked = work_text("Rnd 1: 8 sc in 2nd ch from hook, do not join or turn this or following rounds.\nRnd 2: 2 sc in each. End rnd 2 fasten off. (16)\n")
    assert (worked.problems, _made(worked)) == ([], [8, 16])


@pytest.mark.parametrize("join", ["Join petal colour to any st", "Join second colour to back of flower with a sl st", "Join new colour with sl st to back of flower"])
def test_a_colour_called_by_its_part_and_joined_behind_it(join: str) -> None:
    worked = work_text(_DISC + f"Rnd 3: {join}, ch 1, sc in each st around. (12)\n")
    assert (worked.problems, _made(worked)[2]) == ([], 12)
    assert work_text(_DISC + "Rnd 3: Join petal glimmer to some st, ch 1, sc in each st around. (12)\n").problems != []


def test_ends_joined_are_no_row_and_loops_at_the_base_are_the_other_side() -> None:
    worked = work_text(_STRIP + "Row 2: Ch 1, sc in each st. Connect the two ends using sl st until you have a tube.\n")
    assert (worked.problems, _made(worked)) == ([], [18, 18])
    worked = work_text("Ch 9.\nRnd 1: Dc in third ch from hook, dc in next 5 ch, 6 dc in last ch, 6 dc into the loops at the base of the foundation chain. (18)\n")
    assert (worked.problems, _made(worked)) == ([], [18])


def test_between_the_bases_of_two_petals() -> None:
    flower = "Rnd 1: 5 sc in a magic ring. (5)\nRnd 2: *Ch 4, sl st in next sc; rep from * around. (5 loops)\nRnd 3: *(Sc, dc, 2 tr, dc, sc) in next ch-4 loop; rep from * around. (5 petals)\n"
    worked = work_text(flower + "Rnd 4: *Ch 5, sc between base of next two petals* repeat around. (5 loops)\n")
    assert (worked.problems, _made(worked)[3]) == ([], 5)
    assert work_text(flower + "Rnd 4: *Ch 5, sc between base of next two petals* repeat around. (6 loops)\n").problems != []


def test_several_stitches_where_one_is_left_go_into_it() -> None:
    text = "Ch 23.\nRow 1: 2 sc in 2nd ch from hook, sc to last 2 ch, sc2tog, turn. (22)\nRow 2: Ch 1, sc2tog, sc across to last st, 2 sc, turn. (22)\nRow 3: Ch 1, *sc in next st, dc in next st; rep from * to last 2 sts, 2 sc. (22)\n"
    worked = work_text(text)
    assert (worked.problems, _made(worked)) == ([], [22, 22, 22])
    worked = work_text(text + "Row 4: Ch 1, turn, sc in first st, *sc in next st, dc in next st; rep from * to last st, 3 dc. (24)\n")
    assert (worked.problems, _made(worked)[3]) == ([], 24)
    assert [p.where for p in work_text(text + "Row 4: Ch 1, turn, sc to last st, 2 sc. (22)\n").problems] == ["Row 4"]
