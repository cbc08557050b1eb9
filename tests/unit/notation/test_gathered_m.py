"""Ways of saying that many writers have: whole rows of shaping, stitches without a name, rows again up to a number."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import Worked, work_text

_FLAT = "Ch 13.\nRow 1: Sc in 2nd ch from hook and in each ch across. (12 sc)\n"
_DISC = "Ch 4, sl st in first ch to form a ring.\nRnd 1: Ch 1, 7 sc in ring, join. (7 sc)\n"
_LOOPS = _DISC + "Rnd 2: Ch 1, sc in same st, *ch 3, sc in next sc; rep from * around, ch 3, join. (7 sc, 7 ch-3 sps)\n"


def _made(worked: Worked) -> list[int]:
    return [row.row.made for row in worked.fabric.rows]


def _kinds(worked: Worked) -> set[str]:
    return {stitch.kind for stitch in worked.fabric.rows[-1].row.stitches} - {"ch", "sl st"}


# -- shaping that is all a row tells ----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("said", "made"),
    [
        ("increase 4 sts evenly", 16), ("inc 4 evenly spaced", 16), ("increase 4 times evenly across", 16), ("decrease 3 times evenly across", 9),
        ("dec 1 st at each end", 10), ("dec 1 st each end", 10), ("inc at both ends", 14), ("increase one st at beg and end of row", 14),
    ],
)  # fmt: skip
def test_a_row_that_tells_its_shaping_alone_is_worked_into_every_stitch(said: str, made: int) -> None:
    worked = work_text(_FLAT + f"Row 2: Ch 1, turn, {said}.\n")
    assert (worked.problems, _made(worked)) == ([], [12, made])


def test_more_than_there_is_room_for_is_told() -> None:
    assert [p.where for p in work_text(_FLAT + "Row 2: Ch 1, turn, dec 7 sts evenly.\n").problems] == ["Row 2"]


@pytest.mark.parametrize("said", ["inc in each st around", "2 sts in each st around", "make an increase in each st around", "increase by working 2 sts in each st"])
@pytest.mark.parametrize("stitch", ["sc", "hdc", "dc"])
def test_stitches_without_a_name_are_those_of_the_rows_above(said: str, stitch: str) -> None:
    worked = work_text(_DISC.replace("7 sc", f"7 {stitch}") + f"Rnd 2: Ch 1, {said}, join.\n")
    assert (_made(worked)[-1], _kinds(worked)) == (14, {stitch})


def test_a_row_that_names_its_stitch_is_not_worked_in_another() -> None:
    worked = work_text(_DISC.replace("7 sc", "7 dc") + "Rnd 2: Ch 1, hdc in each st around, join.\nRnd 3: Ch 1, inc in each st around, join.\n")
    assert _kinds(worked) == {"hdc"}


# -- where ------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "said",
    ["in each st of the previous work", "in each stitch space across", "in each st for the length of the row", "back across", "all the way back", "the whole row", "in every sc from one end to the other"],
)
def test_along_a_whole_row(said: str) -> None:
    worked = work_text(_FLAT + f"Row 2: Ch 1, turn, sc {said}.\n")
    assert (worked.problems, _made(worked)) == ([], [12, 12])


@pytest.mark.parametrize("said", ["in each gap", "in each space made by the ch 3", "in each loop formed by ch-3", "in next sp, rep from * for each sp"])
def test_into_every_space(said: str) -> None:
    star = "*" if "rep" in said else ""
    worked = work_text(_LOOPS + f"Rnd 3: {star}2 dc {said}, join.\n")
    assert (worked.problems, _made(worked)[-1]) == ([], 14)


def test_spaces_of_another_size_are_still_told() -> None:
    assert [p.where for p in work_text(_LOOPS + "Rnd 3: 2 dc in each space made by the ch 5, join.\n").problems] == ["Rnd 3"]


@pytest.mark.parametrize("said", ["skip 1 dc, 1 dc in each dc to end, 1 dc in 3rd of 3 ch", "sk 1 st, dc in each st, dc in top of turning ch"])
def test_what_is_skipped_behind_a_chain_is_the_stitch_it_stands_on(said: str) -> None:
    text = f"Ch 16.\nRow 1: Dc in 4th ch from hook (3 skipped ch count as dc) and in each ch across. (14 dc)\nRow 2: Ch 3, turn, {said}.\n"
    worked = work_text(text)
    assert (worked.problems, _made(worked)) == ([], [14, 14])


# -- rows again up to a number ----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "said",
    [
        "until there are 7 rows total", "until there are 7 rows in all", "for a total of 7 rows", "until 7 rows have been worked", "until you've done 7 rows",
        "until piece has 7 rows", "to make 7 rows", "through Row 7", "up to row 7", "for rows 3-7", "5 more times for a total of 7 rows", "over the next 5 rows",
    ],
)  # fmt: skip
def test_rows_come_again_until_there_are_so_many(said: str) -> None:
    worked = work_text(_FLAT + f"Row 2: Ch 1, turn, sc in each sc.\nRepeat Row 2 {said}.\n")
    assert (worked.problems, _made(worked)) == ([], [12] * 7)


@pytest.mark.parametrize("said", ["until it measures 7 in", "as often as you like", "to the length you want"])
def test_without_a_number_of_rows_they_go_on_at_will(said: str) -> None:
    worked = work_text(_FLAT + f"Row 2: Ch 1, turn, sc in each sc.\nRepeat Row 2 {said}.\n")
    assert len(_made(worked)) == 2
    assert any("at will" in note.says for note in worked.notes)


# -- pages with an empty line behind each -----------------------------------------------------------------------------

_SPACED = """Ch 9.
Row 1: Sc in 2nd ch from hook, sc in next
ch and in each ch across, ending the row
with a sc in the last ch. (8 sc)
Row 2: Ch 1, turn, sc in each of next 4
sc, 2 sc in next sc and sc in each sc of
last row that is left. (9 sc)
Row 3: Ch 1, turn, sc in each sc of
last row, no more and
no less. (9 sc)"""


def test_an_empty_line_behind_every_line_parts_nothing() -> None:
    worked = work_text(_SPACED.replace("\n", "\n\n"))
    assert _made(worked) == [8, 9, 9]


def test_a_row_that_a_cut_line_speaks_of_is_no_head() -> None:
    worked = work_text(_SPACED)
    assert [row.label for row in worked.fabric.rows] == ["Row 1", "Row 2", "Row 3"]


# -- a round that begins with the group that its repetition ends with ------------------------------------------------

_FANS = """Fan (fn): {fan}.
Ch 4, join.
Rnd 1: Ch 1, 18 sc in ring, join. (18 sc)
Rnd 2: Ch 3 (counts as dc), {first} in same st, *sk 2 sts, sc in next st, sk 2 sts, fn in next st; rep from * around, join. {count}
"""


@pytest.mark.parametrize(
    ("fan", "first", "made"), [("5 dc in one st", "4 dc", 18), ("(2 dc, ch 1, 2 dc) in one st", "(dc, ch 1, 2 dc)", 15), ("(dc, ch 2, dc) in one st", "(ch 2, dc)", 9)]
)
@pytest.mark.parametrize("count", ["", "(3 fn, 3 sc)", "(3 fans)"])
def test_the_last_repetition_stops_before_the_group_the_round_began_with(fan: str, first: str, made: int, count: str) -> None:
    worked = work_text(_FANS.format(fan=fan, first=first, count=count))
    assert (worked.problems, _made(worked)) == ([], [18, made])
    assert any("last repeat" in note.says for note in worked.notes)


@pytest.mark.parametrize(("first", "count"), [("4 dc", "(4 fn, 3 sc)"), ("3 dc", "(3 fn, 3 sc)"), ("4 dc", "(3 fn, 2 sc)")])
def test_another_group_or_another_count_is_still_told(first: str, count: str) -> None:
    assert [p.where for p in work_text(_FANS.format(fan="5 dc in one st", first=first, count=count)).problems] == ["Rnd 2"]


def test_a_repeat_below_an_empty_line_belongs_to_the_row_that_it_goes_on_with() -> None:
    text = "Ch 4, join.\nRnd 1: Ch 1, 18 sc in ring, join. (18 sc)\n\nRnd 2: Ch 3 (counts as dc), 4 dc in same st (first fan made)\n\n*Sk 2 sts, sc in next st, sk 2 sts, 5 dc in next st; rep from * around, join.\n\nRnd 3: Ch 1, sc in each st around, join. (18 sc)\n"
    worked = work_text(text)
    assert (worked.problems, _made(worked)) == ([], [18, 18, 18])


def test_work_behind_a_count_in_the_middle_of_a_row_is_worked() -> None:
    worked = work_text("Ch 5.\nRnd 1: Sc in 2nd ch from hook and in each ch across (4 sc). Working on opposite side of chain, sc in next 4 ch, join. (8 sc)\n")
    assert (worked.problems, _made(worked)) == ([], [8])


# -- notes before the rows --------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "said",
    ["Tch does not count as first stitch.", "The tch is not counted.", "Tch not counted as st", "Do not count the turning ch as a stitch.", "Never treat the beginning chain as a stitch."],
)
def test_a_turning_chain_that_is_no_stitch(said: str) -> None:
    worked = work_text(f"{said}\n{_FLAT}Row 2: Ch 3, turn, dc in first sc and in each sc across.\nRow 3: Ch 3, turn, 2 dc in first dc, dc in each dc across.\n")
    assert (worked.problems, _made(worked)) == ([], [12, 12, 13])


@pytest.mark.parametrize("said", ["in st/sp indicated", "in stitch/space indicated", "in indicated stitch or space"])
def test_a_stitch_or_a_space_as_the_rows_say(said: str) -> None:
    text = f"Shell: 5 dc {said}.\nCh 14.\nRow 1: Sc in 2nd ch from hook, *ch 3, sk 2 ch, sc in next ch; rep from * across. (5 sc, 4 ch-3 sps)\n"
    for place, made in (("next ch-3 sp, sc in next sc", 25),):
        worked = work_text(text + f"Row 2: Ch 1, turn, sc in first sc, *shell in {place}; rep from * across. (5 sc, 20 dc)\n")
        assert (worked.problems, _made(worked)) == ([], [5, made])


def test_the_main_colour_is_no_magic_circle_and_a_picot_no_foundation() -> None:
    text = "Fine wool for MC, 2 balls; CC, 1 ball.\nPicot: ch 3, ss in base stitch\nWith MC, ch 5.\nRow 1: Sc in 2nd ch from hook and in each ch across. (4 sc)\n"
    worked = work_text(text)
    assert (worked.problems, worked.fabric.start, _made(worked)) == ([], "chain", [4])


# -- rows that do not come out, and what the next ones lie on --------------------------------------------------------


def test_a_round_that_tells_more_than_there_is_hands_on_what_its_words_make() -> None:
    text = "Ch 4, join.\nRnd 1: Ch 1, 5 sc in ring, join.\nRnd 2: Ch 1, *(sc, ch 3, sc) in next sc; rep from * 5 more times, join.\nRnd 3: Ch 1, *(sc, 3 dc, sc) in next ch-3 sp, sk 2 sc; rep from * 5 more times, join.\n"
    worked = work_text(text)
    assert [p.where for p in worked.problems] == ["Rnd 2"]
    assert _made(worked) == [5, 12, 30]


@pytest.mark.parametrize("count", ["(6 3 ch loops)", "(6-3 ch loops.)", "(6 ch-3 loops)"])
def test_loops_that_are_counted_alone_are_handed_on(count: str) -> None:
    text = f"Ch 4, join.\nRnd 1: Ch 1, 12 sc in ring, join. (12 sc)\nRnd 2: Sl st in first sc, *ch 3, glorb the next 2 sc; rep from * around. {count}\nRnd 3: *5 dc in next loop; rep from * around. (30 dc)\n"
    worked = work_text(text)
    assert {p.where for p in worked.problems} == {"Rnd 2"}
    assert _made(worked)[-1] == 30


def test_what_rises_from_a_loop_and_falls_again_is_all_worked_there() -> None:
    text = "Ch 4, join.\nRnd 1: Ch 1, 12 sc in ring, join. (12 sc)\nRnd 2: Ch 1, sc in first sc, *ch 4, sk 1 sc, sc in next sc; rep from * 4 more times, ch 4, join. (6 ch-4 loops)\nRnd 3: *Sc in next loop, ch 1, 3 dc, ch 1, sc; rep from * around, join.\n"
    worked = work_text(text)
    assert (worked.problems, _made(worked)[-1]) == ([], 30)


def test_a_flap_begun_on_a_round_leaves_the_other_stitches() -> None:
    worked = work_text("Ch 4, join.\nRnd 1: Ch 1, 20 sc in ring, join. (20 sc)\nRow 2: Ch 1, sc in next 8 sts, turn.\nRows 3-4: Ch 1, sc in each st, turn.\n")
    assert (worked.problems, _made(worked)) == ([], [20, 8, 8, 8])


def test_on_a_row_stitches_that_are_left_without_a_word_are_told() -> None:
    assert [p.where for p in work_text(_FLAT + "Row 2: Ch 1, sc in next 8 sts, turn.\n").problems] == ["Row 2"]


@pytest.mark.parametrize("said", ["work around", "work across all 14 sts", "work across"])
def test_what_is_begun_is_worked_on_to_the_end(said: str) -> None:
    flat = "Ch 15.\nRow 1: Sc in 2nd ch from hook and in each ch across. (14 sc)\n"
    worked = work_text(flat + f"Row 2: Ch 1, turn, sc in next 2 sc, ch 4, sc in next 2 sc, ch 4, {said}, ending with sc in last 2 sc.\n")
    assert (worked.problems, _made(worked)) == ([], [14, 14])


@pytest.mark.parametrize("said", ["dec 1 over next 2 sts, sc in next st", "sc in next st, dec 1 over next 2 sts"])
def test_one_decrease_over_two_stitches(said: str) -> None:
    worked = work_text(_FLAT + f"Row 2: Ch 1, turn, *{said}; rep from * across.\n")
    assert (worked.problems, _made(worked)) == ([], [12, 8])


@pytest.mark.parametrize(("said", "made"), [("dec", 6), ("inc", 24), ("sc2tog", 6)])
def test_one_increase_or_decrease_with_a_count_is_worked_all_round(said: str, made: int) -> None:
    start = "Magic ring.\nRnd 1: 6 sc in ring. (6)\nRnd 2: 2 sc in each st. (12)\n"
    worked = work_text(start + f"Rnd 3: {said} ({made})\n")
    assert (worked.problems, _made(worked)[-1]) == ([], made)
    assert [p.where for p in work_text(start + f"Rnd 3: {said} ({made + 1})\n").problems] == ["Rnd 3"]


_GRANNY = "Ch 4, join.\nRnd 1: Ch 3, 2 dc in ring, ch 2, *3 dc in ring, ch 2; rep from * 2 more times, join. (12 dc)\n"


@pytest.mark.parametrize(
    "said",
    [
        "Sl st over to the corner, ch 3, 2 dc, ch 2, 3 dc all in corner, ch 1, (3 dc, ch 2, 3 dc, ch 1) in each corner around, join",
        "Attach yarn in corner, ch 3 (counts as dc), 2 dc, ch 2, 3 dc in the corner, ch 1, *(3 dc, ch 2, 3 dc) in next corner, ch 1; rep from * 2 more times, join",
        "Join in any corner, ch 3, (2 dc, ch 2, 3 dc) in that corner, ch 1, *(3 dc, ch 2, 3 dc) in next corner, ch 1; rep from * around, join",
    ],
)
def test_the_corner_a_round_begins_in_is_not_passed_over(said: str) -> None:
    worked = work_text(_GRANNY + f"Rnd 2: {said}.\n")
    assert (worked.problems, _made(worked)) == ([], [12, 24])


@pytest.mark.parametrize("corner", ["corner", "next corner", "next ch-2 sp"])
def test_the_chain_behind_a_corners_group_is_a_space_of_its_own(corner: str) -> None:
    text = _GRANNY + (
        "Rnd 2: Join in any ch-2 sp, ch 3, 2 dc, ch 2, 3 dc in same sp, ch 1, (3 dc, ch 2, 3 dc, ch 1) in each ch-2 sp around, join.\n"
        f"Rnd 3: Join in any ch-2 sp, ch 3, 2 dc, ch 2, 3 dc in same sp, ch 1, 3 dc in next ch-1 sp, ch 1, *(3 dc, ch 2, 3 dc) in {corner}, ch 1, 3 dc in ch-1 sp, ch 1; rep from * around, join.\n"
    )
    worked = work_text(text)
    assert (worked.problems, _made(worked)) == ([], [12, 24, 36])


@pytest.mark.parametrize("said", ["Continue in sc for 4 more rows.", "Keep going in sc for 4 rows.", "Carry on with sc for 4 rows."])
def test_rows_that_go_on_in_a_stitch_for_a_number(said: str) -> None:
    worked = work_text(_FLAT + f"Row 2: Ch 1, turn, sc in each sc.\n{said}\n")
    assert (worked.problems, _made(worked)) == ([], [12] * 6)


def test_what_a_row_leaves_over_is_no_part_of_the_next_one() -> None:
    worked = work_text(_FLAT + "Row 2: Ch 1, turn, sc in next 9 sc.\nRow 3: Ch 1, turn, sc in each sc across.\nRow 4: Ch 1, turn, sc2tog, sc in each sc across.\n")
    assert [p.where for p in worked.problems] == ["Row 2"]
    assert _made(worked) == [12, 9, 9, 8]


# -- roses, runs, loops ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "said",
    ["in back loop of sc between this and next petal", "in sc between this and next petal", "in next sc between petals", "in back loop of next sc between petals", "in sc between last petal and next petal"],
)
def test_between_one_petal_and_the_next(said: str) -> None:
    text = (
        "Ch 6, join.\nRnd 1: Ch 1, sc in ring, *ch 3, sc in ring; rep from * 4 more times, ch 3, join. (6 loops)\n"
        "Rnd 2: In each loop around make sc, hdc, 3 dc, hdc and sc. Join.\n"
        f"Rnd 3: *Ch 4, sc {said}; rep from * around. Join.\nRnd 4: In each loop around make sc, hdc, 5 dc, hdc and sc. Join.\n"
    )
    worked = work_text(text)
    assert (worked.problems, _made(worked)) == ([], [6, 42, 6, 54])


def test_a_run_of_numbers_alone_with_a_word_between() -> None:
    worked = work_text("Magic ring\n1 - Ch 1, 6 hdc in ring, join.\n2 - Ch 1, 2 hdc in each st, join. (12 hdc)\n3 through 5 - Ch 1, hdc around, join. (12 hdc)\n")
    assert (worked.problems, _made(worked)) == ([], [6, 12, 12, 12, 12])


@pytest.mark.parametrize(
    "said",
    ["Working through both loops of stitch from now on, ", "From now on working in both loops, ", "Working under both loops of each stitch, ", "From this row on work in both loops, "],
)
def test_both_loops_from_now_on(said: str) -> None:
    text = _DISC + f"Rnd 2: In back loops only, ch 1, sc in each sc, join. (7 sc)\nRnd 3: {said}ch 1, sc in same st, sc in each sc to end, join.\n"
    worked = work_text(text)
    assert (worked.problems, _made(worked)) == ([], [7, 7, 7])


@pytest.mark.parametrize("said", ["one of the ch-3 sps", "any one of the ch-3 sps", "any ch-3 sp"])
def test_a_round_begun_in_whichever_space(said: str) -> None:
    worked = work_text(_LOOPS + f"Rnd 3: Join in {said}, ch 3, dc in same sp, 2 dc in each of next 6 sps, join. (14 dc)\n")
    assert worked.problems == []


def test_groups_that_are_counted_are_handed_on_with_their_stitches() -> None:
    text = "Ch 4, join.\nRnd 1: Ch 1, 12 sc in ring, join. (12 sc)\nRnd 2: Glorb round the ring. (6 3-dc groups, 6 ch-1 sps)\nRnd 3: 4 dc in each ch-1 sp around, join. (24 dc)\n"
    worked = work_text(text)
    assert {p.where for p in worked.problems} == {"Rnd 2"}
    assert _made(worked) == [12, 18, 24]


def test_what_each_side_holds_is_told_to_be_counted_and_is_no_work() -> None:
    worked = work_text(_DISC + "Each side now reads 2 sc, 3 sc, 2 sc. Count them before you go on.\nRnd 2: Ch 1, 2 sc in each sc around, join. (14 sc)\n")
    assert (worked.problems, _made(worked)) == ([], [7, 14])


def test_gaps_of_a_row_that_has_nothing_are_none() -> None:
    text = "Terms: UK\nCh 4, join in a ring.\nRnd 1: Ch 3, 1 tr in ring, ch 2, join.\nRnd 1: Ch 1, 9 sc in ring, join.\nRnd 2: Sl st to ch-2 sp, ch 3, (2 tr, ch 2, 3 tr) in same sp, 3 tr in next sp between groups, join.\n"
    assert work_text(text).problems != []


def test_a_foundation_told_behind_that_is_too_long_is_not_worked() -> None:
    worked = work_text("Row 1: Sc in 2nd ch from hook and in each ch across.\nCh 1000000.\n")
    assert len(worked.fabric.foundation.stitches) < 1000


def test_rows_of_tr_that_three_chains_lift_are_in_uk_terms() -> None:
    text = "Make 14 ch.\n1st row: Skip 3 ch, 1 tr in each ch to end, turn.\n2nd row: 3 ch, 1 tr in each of next 10 tr, turn.\n3rd row: 3 ch, 2 tr in first tr, 1 tr in each tr, turn.\n"
    worked = work_text(text)
    assert (worked.pattern.terms, _kinds(worked)) == ("UK", {"dc"})


@pytest.mark.parametrize("row", ["4 ch, 1 tr in each tr, turn", "3 ch, 1 dc in next tr, 1 tr in each tr, turn"])
def test_rows_of_tr_that_four_chains_lift_are_not(row: str) -> None:
    text = f"Make 14 ch.\n1st row: Skip 4 ch, 1 tr in each ch to end, turn.\n2nd row: {row}.\n3rd row: {row}.\n"
    assert work_text(text).pattern.terms == "US"


def test_a_row_of_the_pattern_is_a_row_and_a_space_may_be_left_by_its_chain() -> None:
    text = _FLAT + "1st pattern row: Ch 1, turn, sc in first sc, *ch 2, sk 1 sc, sc in next sc; rep from * to last sc, sc in last sc.\n2nd pattern row: Ch 1, turn, 2 sc in each space left by the ch 2.\n"
    worked = work_text(text.replace("Row 1:", "Foundation row:"))
    assert [row.label for row in worked.fabric.rows][1:] == ["Row 1", "Row 2"]
    assert _made(worked)[-1] == 10


def test_a_clause_told_twice_is_told_and_not_taken_for_one() -> None:
    worked = work_text(_FLAT + "Row 2: Ch 1, sc in each sc, sc in each sc without turning.\n")
    assert [p.where for p in worked.problems] == ["Row 2"]


@pytest.mark.parametrize("said", ["From now on work in back loops only, ch 1, sc in each sc around, join", "From this round on, ch 1, sc in each sc around, join"])
def test_what_is_said_from_now_on_is_not_passed_over(said: str) -> None:
    worked = work_text(_DISC + f"Rnd 2: {said}.\nRnd 3: Ch 1, sc in each sc around, join.\n")
    assert [p.where for p in worked.problems] == ["Rnd 2"]


def test_a_flap_that_leaves_one_stitch_is_a_mistake() -> None:
    assert [p.where for p in work_text(_DISC + "Row 2: Ch 1, sc in next 6 sc, turn.\n").problems] == ["Row 2"]


def test_rows_again_so_often_for_another_number_in_all_are_not_taken_for_either() -> None:
    worked = work_text(_FLAT + "Row 2: Ch 1, turn, sc in each sc.\nRepeat Row 2 5 more times for a total of 9 rows.\n")
    assert len(_made(worked)) == 2
    assert any("at will" in note.says for note in worked.notes)
