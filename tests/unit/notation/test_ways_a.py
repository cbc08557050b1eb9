"""Runs of rows told by numbers alone, rows without change, rows that come again with words beside, and other ways of writing
that pages have in common. Common practice, no source."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import Worked, work_text

_DISC = "Rnd 1: 6 sc in magic ring (6)\nRnd 2: 6 inc (12)\n"


def _rows(worked: Worked) -> list[tuple[int, int]]:
    return [(row.row.made, row.row.chains) for row in worked.fabric.rows]


def _made(worked: Worked) -> list[int]:
    return [row.row.made for row in worked.fabric.rows]


def _told(worked: Worked) -> list[str]:
    return [problem.says for problem in worked.problems]


# -- runs of rows, and rows without change -------------------------------------------------------------------------------


@pytest.mark.parametrize("head", ["3. - 5.", "3.-5.", "3. \u2013 5. (3 rows)", "3 - 5. (3 rnds)"])
def test_a_run_of_rows_told_by_its_numbers(head: str) -> None:
    worked = work_text(f"1. 6 sc in magic ring (6)\n2. 6 inc (12)\n{head} 12 sc (12)\n6. (sc, inc) x 6 (18)\n")
    assert (_told(worked), _made(worked)) == ([], [6, 12, 12, 12, 12, 18])


@pytest.mark.parametrize("head", ["3) - 5) (3 rnds)", "3)-5)"])
def test_a_run_of_rows_told_by_numbers_behind_brackets(head: str) -> None:
    worked = work_text(f"1) 6 sc in magic ring (6)\n2) 6 inc (12)\n{head} 12 sc (12)\n6) (sc, inc) x 6 (18)\n")
    assert (_told(worked), _made(worked)) == ([], [6, 12, 12, 12, 12, 18])


def test_another_number_of_rows_is_no_name_of_the_run() -> None:
    worked = work_text("1. 6 sc in magic ring (6)\n2. 6 inc (12)\n3. - 5. (4 rows) 12 sc (12)\n")
    assert _told(worked)


@pytest.mark.parametrize("said", ["no change", "No changes.", "no inc or dec", "sc, no change", "without increase or decrease", "no increases or decreases"])
def test_a_row_without_change_is_worked_even(said: str) -> None:
    worked = work_text(f"{_DISC}Rnds 3-4: {said} (12)\n")
    assert (_told(worked), _made(worked)) == ([], [6, 12, 12, 12])


def test_a_row_without_change_has_as_many_as_before() -> None:
    assert _told(work_text(f"{_DISC}Rnds 3-4: no change (13)\n"))


@pytest.mark.parametrize("head", ["R: 3- R: 5 -", "R: 3-R: 5 -", "R: 3 - R: 5 -"])
def test_a_run_with_the_letter_and_a_colon_before_both_numbers(head: str) -> None:
    worked = work_text(f"R: 1 - Ch 13, sc in 2nd ch from hook and in each ch, turn (12 sc)\nR: 2 - ch 1, sc in each sc, turn\n{head} Repeat R: 2\n")
    assert (_told(worked), _made(worked)) == ([], [12] * 5)


# -- rows that come again ----------------------------------------------------------------------------------------------


@pytest.mark.parametrize("beside", ["(the increase falls on even rounds)", "(or until it fits your hand)", ""])
def test_rows_come_again_with_words_beside(beside: str) -> None:
    worked = work_text(f"Ch 20, join.\nRd 1: Sc in each ch. (20)\nRd 2: 2 sc in first st, sc to end.\nRd 3: Sc around.\nRepeat last 2 rounds 3 more times (24 sts) {beside}.\nRd 10: Sc in each st. (24)\n")
    assert (_told(worked), _made(worked)) == ([], [20, 21, 21, 22, 22, 23, 23, 24, 24, 24])


@pytest.mark.parametrize("said", ["until 6 rows are worked in all", "until 6 rows have been worked", ""])
def test_rows_without_numbers_come_again_until_a_number_is_there(said: str) -> None:
    worked = work_text(f"Ch 16, 1 sc in 2nd ch from hook, 1 sc in each ch to end. (15 sc). Turn.\nNext row - ch 1, 1 sc in each sc to end. Turn.\nNext row - ch 1, 1 sc in each of next 15 sc. Turn. Rpt last row 3 more times {said}.\n")
    assert (_told(worked), _made(worked)) == ([], [15] * 6)


# -- into a ring, joined to a chain ------------------------------------------------------------------------------------


@pytest.mark.parametrize("said", ["ch 3, dc 2, *ch 2, dc 3, rep from * twice more, ch 2, sl st in 3rd ch", "ch 3, dc in next 2 sts, *ch 2, dc in next 3 sts; rep from * 2 more times, ch 2, join"])
def test_stitches_told_behind_their_name_all_go_into_the_ring(said: str) -> None:
    worked = work_text(f"Make a magic ring.\nRound 1: {said}.\n")
    assert (_told(worked), _rows(worked)) == ([], [(12, 8)])


def test_plain_stitches_told_behind_their_name_go_into_the_ring() -> None:
    worked = work_text("Magic ring.\nRnd 1: ch 1, sc 8, sl st in first sc.\nRnd 2: ch 1, 2 sc in each st around. (16)\n")
    assert (_told(worked), _made(worked)) == ([], [8, 16])


@pytest.mark.parametrize("said", ["join to chain 3", "join to ch 3", "close in ch 3", "join into ch 3 with a sl st"])
def test_a_round_joined_to_its_chain_makes_no_chains(said: str) -> None:
    worked = work_text(f"Ch 4 and join to form ring.\nRd 1: ch 3, 9 dc into ring, {said}.\nRd 2: ch 3, dc in same st, 2 dc in each st, {said}.\n")
    assert (_told(worked), _rows(worked)) == ([], [(10, 0), (20, 0)])


def test_a_chain_behind_the_join_is_still_made() -> None:
    assert _rows(work_text("Ch 4, join.\nRd 1: ch 3, 9 dc into ring, join to ch 3, ch 3.\n")) == [(10, 3)]


# -- a chain and a stitch that are a decrease --------------------------------------------------------------------------


@pytest.mark.parametrize(
    "said",
    ["Ch 2, turn, dc in next dc (both are one dc2tog)", "Ch 2, turn, dc in next dc (together they make a dc2tog)", "Ch 2, turn, dc in next st (these two are 1 dc2tog)",
     "Ch 2 (counts as first leg of dc2tog), turn, dc in next dc", "Ch 2, turn, dc in next dc (both together count as dc2tog)"],
)  # fmt: skip
def test_a_chain_and_a_stitch_are_one_decrease(said: str) -> None:
    worked = work_text(f"Row 1: Ch 12, dc in 4th ch from hook and in each ch across. (10 dc)\nRow 2: {said}, dc in each st to end.\nRow 3: Ch 3, turn, dc in next dc and in each dc across. (9 dc)\n")
    assert (_told(worked), _made(worked)) == ([], [10, 9, 9])


def test_a_chain_that_counts_beside_a_decrease_is_a_stitch() -> None:
    worked = work_text("Row 1: Ch 13, dc in 4th ch from hook and in each ch across. (11 dc)\nRow 2: Ch 3 (counts as dc), turn, dc2tog over next 2 dc, dc in each st to end.\n")
    assert (_told(worked), _made(worked)) == ([], [11, 10])


# -- counts told as sums, and counts of one side -----------------------------------------------------------------------

_OVAL = "Ch 10.\nRnd 1: sc in 2nd ch from hook, sc in next 7 ch, 3 sc in last ch"


@pytest.mark.parametrize("count", ["(10 + 10 = 20 sc)", "(10+8+2=20)", "(11 + 9 = 20 sts)"])
def test_a_count_told_as_a_sum(count: str) -> None:
    worked = work_text(f"{_OVAL}, working on other side of ch, sc in next 7 ch, 2 sc in last ch. {count}\n")
    assert (_told(worked), _made(worked)) == ([], [20])


@pytest.mark.parametrize("count", ["(10 + 11 = 21 sc)", "(10 + 9 = 20 sc)"])
def test_a_sum_that_does_not_fit_is_told(count: str) -> None:
    assert _told(work_text(f"{_OVAL}, working on other side of ch, sc in next 7 ch, 2 sc in last ch. {count}\n"))


@pytest.mark.parametrize("said", ["(11 sc). Turn to the other side of the ch", "(11 sc). Now rotate and work back along the other side", "(11 sc); working on the opposite side"])
def test_a_count_before_the_other_side_is_of_the_first(said: str) -> None:
    assert _told(work_text(f"{_OVAL} {said}, sc in next 7 ch, 2 sc in last ch.\n")) == []
    assert _told(work_text(f"{_OVAL} {said}, sc in next 7 ch, 2 sc in last ch. (20 sc)\n")) == []
    assert _told(work_text(f"{_OVAL} {said}, sc in next 7 ch, 2 sc in last ch. (21 sc)\n"))


# -- stitches of the pattern's own that are a plain one in a loop ------------------------------------------------------

_HDC = "Row 1: ch 16, hdc in 3rd ch from hook, hdc in each ch. Turn. (14 hdc)\n"


@pytest.mark.parametrize(
    ("told", "name"),
    [("hdc-blo = half double crochet back loop only", "hdc-blo"), ("BLhdc: half double crochet in the back loop", "BLhdc"),
     ("hdcbl - half double crochet, back loop only", "hdcbl"), ("Ridge st = hdc in back loop of next st", "ridge st")],
)  # fmt: skip
def test_a_plain_stitch_in_a_loop_goes_where_is_said(told: str, name: str) -> None:
    worked = work_text(f"{told}\n{_HDC}Row 2: ch 1, hdc in first hdc, {name} in next 3 hdc, hdc in next hdc, {name} in next 8 hdc, hdc in last hdc.\nRow 3: ch 1, {name} across. (14 hdc)\n")
    holds = [foot.hold for stitch in worked.fabric.rows[1].row.stitches if stitch.kind == "hdc" for foot in stitch.feet]
    assert (_told(worked), _made(worked), holds.count("back loop")) == ([], [14, 14, 14], 11)


@pytest.mark.parametrize("said", ["fpdc in 2 st skipped before", "fpdc in the 2 sts just skipped", "fpdc in each of the 2 sts you skipped"])
def test_stitches_told_to_be_skipped_before(said: str) -> None:
    worked = work_text(f"{_HDC}Row 2: ch 2 (does not count), hdc in first 2 hdc, *skip next 2 st, fpdc in next 2 st, {said}; rep from * to last 4 sts, hdc in last 4.\n")
    assert (_told(worked), _made(worked)) == ([], [14, 14])


# -- repeats in brackets before what goes into the turning chain -------------------------------------------------------

_SHAWL = (
    "Ch 7.\nRow 1: 2 dc in 4th ch from hook, ch 2, sk 2 ch, 3 dc in last ch, ch 3, turn.\n"
    "Row 2: 2 dc in first dc, ch 1, (3 dc, ch 2, 3 dc) in next ch-2 sp, ch 1, 3 dc in top of turning ch, ch 3, turn.\n"
)


@pytest.mark.parametrize("end", ["to end", "across"])
@pytest.mark.parametrize("middle", ["middle sp", "ch-2 sp"])
def test_a_bracket_to_the_middle_and_to_the_end(middle: str, end: str) -> None:
    row = f"2 dc in first dc, ch 1, (3 dc in next sp, ch 1) to {middle}, (3 dc, ch 2, 3 dc) in {middle}, ch 1, (3 dc in next sp, ch 1) {end}, 3 dc in turning ch, ch 3, turn.\n"
    worked = work_text(f"{_SHAWL}Row 3: {row}Row 4: {row}")
    assert (_told(worked), _rows(worked)) == ([], [(6, 2), (12, 4), (18, 6), (24, 8)])


# -- where a round begins, and the chain that is its first stitch ------------------------------------------------------

_GRANNY = "Ch 4, join to ring.\nRnd 1: ch 3, dc in ring, ch 2, *2 dc in ring, ch 2; rep from * 2 more times, sl st to top of ch-3."


@pytest.mark.parametrize("line", ["Join next colour in any corner-sp.", "Next colour into any corner sp.", "MC to any corner-sp with a sl st.", "Fasten off. Join B in any ch-2 sp."])
def test_a_yarn_joined_between_rounds_begins_the_next(line: str) -> None:
    two = "Rnd 2: (ch 3, dc, ch 2, 2 dc) in same sp, ch 1, *(2 dc, ch 2, 2 dc) in next corner sp, ch 1; rep from * 2 more times, sl st to top of ch-3.\n"
    assert _rows(work_text(f"{_GRANNY}\n{line}\n{two}")) == [(8, 8), (16, 12)]
    for text in (f"{_GRANNY}\n{line}\n{two}", f"{_GRANNY} {line}\n{two}"):
        assert _told(work_text(text)) == []


@pytest.mark.parametrize("said", ["(2 dc, ch 2, 2 dc) ch 1, in the next corner space", "(2 dc, ch 2, 2 dc), ch 1, in next corner sp", "(2 dc, ch 2, 2 dc) ch 1 in next corner sp"])
def test_a_group_told_with_its_chains_before_its_place(said: str) -> None:
    worked = work_text(f"{_GRANNY}\nRnd 2: (ch 3, dc, ch 2, 2 dc) in corner sp, ch 1, *{said}; rep from * 2 more times, join.\n")
    assert (_told(worked), _rows(worked)) == ([], [(8, 8), (16, 12)])


@pytest.mark.parametrize("said", ["2 dc in each dc around", "*2 dc in each dc of R1* all round", "2 dc in each dc all round"])
def test_a_chain_that_counts_is_the_first_of_two_where_the_count_says_so(said: str) -> None:
    text = f"Magic ring.\nR1: 10 dc, join (10)\nR2: ch 3 (counts as 1st dc), {said}, sl st into top of ch 3 "
    assert (_told(work_text(f"{text}(20)\n")), _made(work_text(f"{text}(20)\n"))) == ([], [10, 20])
    assert _told(work_text(f"{text}(22)\n"))
    assert _made(work_text(f"{text}\n")) == [10, 19]


# -- what is said beside the work --------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "said", ["- no sc in sl st", "(no sc into the sl st)", ", never in the sl st", "- do not work into the sl st", "Now in rows", ". From here on in rows", ", in rounds again"]
)
def test_what_is_said_beside_a_round_is_no_work(said: str) -> None:
    worked = work_text(f"Ch 12, join to form ring.\nRnd 1: Ch 1, sc in each ch around, join with sl st to first sc {said}.\nRnd 2: Ch 1, sc in each sc, join. (12)\n")
    assert (_told(worked), _made(worked)) == ([], [12, 12])


@pytest.mark.parametrize("hook", ["With main yarn and 4.50mm hook", "With A and a 5 mm hook", "Using 4.50mm hook"])
def test_a_hook_beside_the_yarn_is_no_work(hook: str) -> None:
    worked = work_text(f"{hook} ch16 (RS), change to 3.75mm hook, 1 sc in 2nd ch from hook, 1 sc in each ch to end. (15 sc). Turn.\nNext row - ch 1, 1 sc in each sc.\n")
    assert (_told(worked), _made(worked)) == ([], [15, 15])


@pytest.mark.parametrize("said", ["Skip 10 sc, rejoin yarn to 11th sc with a sl st", "Rejoin yarn in 11th sc"])
def test_work_behind_a_cut_yarn_is_a_row_of_its_own(said: str) -> None:
    worked = work_text(f"With A ch 31, 1 sc in 2nd ch from hook, 1 sc in each ch to end. (30 sc). Turn.\nNext Row - ch 1, 1 sc in each sc to end. Fasten off. Turn.\n{said}, ch 1, 1 sc in same st, 1 sc in each of next 9 sc. Turn. (10 sc)\nNext row - ch 1, 1 sc in each of next 10 sc.\n")
    assert (_told(worked), _made(worked)) == ([], [30, 30, 10, 10])


# -- several pieces inside one line, and how runs are told -------------------------------------------------------------


def test_pieces_and_rows_named_inside_a_line() -> None:
    worked = work_text(
        "SLIPPER (make 2) Sole Ch 6. Foundation Row: Sc in 2nd ch from hook and in each ch along \u2013 5 sc. Next 3 Rows: Ch 1, turn, sc in each sc. "
        "Next Row: Ch 1, turn, 2 sc in first sc, sc in each sc to last sc, 2 sc in last sc \u2013 7 sc. Sides Rnd 1: Do not turn, work 5 sc evenly down side; "
        "work 5 sc along free side of foundation ch; work 5 sc evenly along other side; work 7 sc to marker \u2013 22 sc. Next 2 Rnds: In front loops only, sc in each sc around."
    )
    assert (_told(worked), _made(worked)) == ([], [5, 5, 5, 5, 7, 22, 22, 22])


@pytest.mark.parametrize("head", ["Rnd. 3. \u2013 Rnd. 5. \u2013", "Rd 3 till 5 -", "Rnd 3 t/m 5:", "R3-R5: (3 rounds)"])
def test_a_run_of_rounds_told_in_further_ways(head: str) -> None:
    worked = work_text(f"Rnd 1: 6 sc in magic ring (6)\nRnd 2: 6 inc (12)\n{head} 12 sc (12)\nRnd 6: (sc, inc) x 6 (18)\n")
    assert (_told(worked), _made(worked)) == ([], [6, 12, 12, 12, 12, 18])


@pytest.mark.parametrize(("said", "right"), [("that makes 12 sc", True), ("this makes 13 sc", False), ("which gives you 12 sc", True), ("which gives you 13 sc", False)])
def test_what_a_row_is_said_to_give_is_its_count(said: str, right: bool) -> None:
    assert (_told(work_text(f"Ch 13.\nRow 1: sc in 2nd ch and in each ch, {said}.\n")) == []) is right


def test_what_stitches_so_far_are_said_to_give_is_no_work() -> None:
    worked = work_text("Ch 6, join to ring.\nRnd 1: Ch 3 as 1 dc, then 2 more dc into the ring, that gives 3 double crochet stitches. Ch 3. *3 dc in ring, ch 3; rep from * 2 more times, join.\n")
    assert (_told(worked), _rows(worked)) == ([], [(12, 12)])


@pytest.mark.parametrize("said", ["(skip 4 st total)", "(4 sts skipped in all)", "(skipping 4 sts in total)"])
def test_how_many_are_skipped_in_all_is_no_work(said: str) -> None:
    worked = work_text(f"Ch 21.\nRow 1: sc in 2nd ch from hook and in each ch across. (20 sc)\nRow 2: ch 1, turn, sc in 6 sts, ch 3, skip 4 sts {said}, sc to end.\n")
    assert (_told(worked), _rows(worked)) == ([], [(20, 0), (16, 3)])


@pytest.mark.parametrize(("sides", "noted"), [("3 dc in next sp, ch 1, ", True), ("3 dc in next sp, ch 1, 3 dc in next sp, ch 1, ", False)])
def test_a_side_space_passed_over_on_the_way_to_a_corner_is_noted(sides: str, noted: bool) -> None:
    corner, begun = "(3 dc, ch 2, 3 dc) in next corner sp, ch 1", "sl st to corner sp, (ch 3, 2 dc, ch 2, 3 dc) in same sp, ch 1"
    one = "3 dc in next sp, ch 1, "
    worked = work_text(
        "Ch 4, join to ring.\nRnd 1: ch 3, 2 dc in ring, ch 2, *3 dc in ring, ch 2; rep from * 2 more times, sl st to top of ch-3.\n"
        f"Rnd 2: {begun}, *{corner}; rep from * 2 more times, join.\nRnd 3: {begun}, *{one}{corner}; rep from * 2 more times, {one}join.\n"
        f"Rnd 4: {begun}, *{sides}{corner}; rep from * 2 more times, {sides}join.\n"
    )
    assert _told(worked) == []
    assert any("passed over" in note.says for note in worked.notes) is noted


@pytest.mark.parametrize("between", ["Fasten off. Attach red in any ch-3 sp.", "Fasten off.\nWith red, join in any corner.", "With red, join in any corner.", "End off and weave in ends.\nJoin new yarn in any corner."])
def test_where_a_yarn_is_joined_is_not_lost_behind_a_cut_one(between: str) -> None:
    worked = work_text(
        "Ch 6, join to form a ring.\nRnd 1: ch 3, 2 dc in ring, ch 3, *3 dc in ring, ch 3; rep from * twice, join to 3rd ch. (12 dc, 4 ch-3 sps)\n"
        f"{between}\nRnd 2: Ch 3, 2 dc in same sp, ch 3, 3 dc in same sp, *ch 1, (3 dc, ch 3, 3 dc) in next sp; rep from * around, ch 1, join.\n"
    )
    assert (_told(worked), _rows(worked)) == ([], [(12, 12), (24, 16)])
