"""How garments are told: what is shaped at an edge, short rows, rows so far as their last stitches, rows for some sizes."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import Worked, work_text
from hookfold.charts.pattern.written.agreed.sizes import only_for, picked
from hookfold.charts.pattern.written.heads import shaping_head

_PANEL = "Ch 3 at the beginning of a row counts as a dc.\nCh 26.\nRow 1: Dc in 4th ch from hook and in each ch across. (24 dc)\n"
_STRIP = "Ch 17.\nRow 1: Sc in 2nd ch from hook and in each ch across. (16 sc)\n"


def _made(worked: Worked) -> list[int]:
    return [row.row.made for row in worked.fabric.rows]


def _told(worked: Worked) -> list[str]:
    return [problem.where for problem in worked.problems]


# -- foundations with chains to spare ---------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "said",
    [
        "Row 1: Ch 16, ch 1 more, sk ch just made, sc in each ch across, turn.",
        "Row 1: Ch 16, ch 1, skip the ch just made, sc in each ch across, turn.",
        "Row 1: Ch 16, ch one extra, skip the extra ch, sc in back bar of each ch across, turn.",
        "Ch 16, ch 1 more.\nRow 1: Skip the ch nearest the hook, sc in each ch across, turn.",
    ],
)
def test_a_chain_more_than_the_row_has_is_passed_over(said: str) -> None:
    worked = work_text(said + "\nRow 2: Ch 1, sc in each st across.\n")
    assert (worked.problems, _made(worked)) == ([], [16, 16])


def test_a_count_that_takes_the_chain_more_for_a_stitch_is_told() -> None:
    assert _told(work_text("Row 1: Ch 16, ch 1 more, sk ch just made, sc in each ch across. (17 sc)\n")) == ["Row 1"]


def test_the_back_bar_of_a_chain_is_no_post() -> None:
    worked = work_text("Ch 17.\nRow 1: Hdc in back bar of 2nd ch from hook and in back bar of each ch across.\n")
    assert {stitch.kind for stitch in worked.fabric.rows[0].row.stitches if stitch.role == "stitch"} == {"hdc"}


# -- what short rows left ---------------------------------------------------------------------------------------------

_SHORT = _STRIP + "Row 2: Ch 1, turn, sc in each of first 11 sts, leaving rem sts unworked.\nRow 3: Ch 1, turn, sc in each st across.\n"


@pytest.mark.parametrize(
    "said",
    [
        "sc in next 11 sts, drop down 2 rows to unworked sts, sc in each of next 5 unworked sts. (16 sc)",
        "sc in next 11 sts, drop down 2 rows, sc in each of next unworked 5 sts. (16 sc)",
        "sc in each of first 11 sts, moving down to Row 1, sc in next 5 unworked sts.",
        "sc in next 11 sts, continue across the unworked sts of Row 1: sc in next 5 sts.",
        "sc in next 11 sts, work in skipped sts of Row 1, sc in next 5 sts.",
        "sc in next 11 sts, sc in the 5 sts left unworked in Row 2.",
        "sc in each st across, then sc in each unworked st of Row 1.",
    ],
)
def test_a_row_goes_down_to_what_short_rows_left(said: str) -> None:
    worked = work_text(_SHORT + f"Row 4: Ch 1, turn, {said}\n")
    assert (worked.problems, _made(worked)) == ([], [16, 11, 11, 16])


def test_more_than_short_rows_left_is_told() -> None:
    assert _told(work_text(_SHORT + "Row 4: Ch 1, turn, sc in next 11 sts, drop down 2 rows to unworked sts, sc in next 7 unworked sts.\n")) == ["Row 4"]


# -- shaping ----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("said", "made"),
    [
        ("Dec 1 st at neck edge.", 23), ("Decrease 1 dc at armhole edge.", 23), ("Inc 1 st at front edge only.", 25),
        ("Ch 3, dc in each st across, dec 1 st at neck edge.", 23), ("Ch 3, dc in each st, increasing 1 dc at each end.", 26),
        ("Ch 3, dc in each dc, dec 2 sts at each end.", 20), ("Ch 3, dc across, inc 1 at beginning and 1 at end.", 26),
        ("Work in dc, dec 1 st at armhole edge and 1 st at neck edge.", 22), ("Ch 3, dc in each st across, dec 3 sts evenly spaced.", 21),
        ("Ch 3, dec 1 st at beg and end of row.", 22), ("Ch 3, dc across, dec 1 st at both sides.", 22),
    ],
)  # fmt: skip
def test_an_edge_is_shaped_beside_a_beginning_chain_too(said: str, made: int) -> None:
    worked = work_text(_PANEL + f"Row 2: {said}\n")
    assert (worked.problems, _made(worked)) == ([], [24, made])


def test_a_count_that_leaves_shaping_out_is_told() -> None:
    assert _told(work_text(_PANEL + "Row 2: Ch 3, dc in each st, dec 1 st at each side. (24 dc)\n")) == ["Row 2"]


def test_a_run_of_rows_is_shaped_in_every_one() -> None:
    assert _made(work_text(_PANEL + "Rows 2-4: Dec 1 st at neck edge every row.\n")) == [24, 23, 22, 21]


@pytest.mark.parametrize("said", ["work to last 5 sts", "pattern to last 5 dc", "work across to last 5 dc", "work in pattern to last 5 sts"])
def test_so_far_as_the_last_stitches_over_plain_rows(said: str) -> None:
    worked = work_text(_PANEL + f"Row 2: Ch 3, {said}, turn.\n")
    assert (worked.problems, _made(worked)) == ([], [24, 19])


def test_so_far_as_the_last_stitches_over_lace_is_told() -> None:
    lace = _PANEL + "Row 2: Ch 4, sk 1 dc, *dc in next dc, ch 1, sk 1 dc; rep from * to last 2 dc, dc in last 2 dc.\n"
    assert "Row 3" in _told(work_text(lace + "Row 3: Ch 3, work in pattern to last 5 sts, turn.\n"))


@pytest.mark.parametrize(
    "said",
    [
        "SHAPE ARMHOLES: Sl st to 5th dc, ch 3, dc in each dc to within last 4 sts, turn.",
        "Armhole shaping: Sl st over first 4 dc and into 5th dc, ch 3, dc in each dc to last 4 dc, turn.",
        "Shape armholes - Sl st in next 4 sts, sl st in next st, ch 3, dc to last 4 sts.",
    ],
)
def test_a_row_begins_at_what_it_shapes(said: str) -> None:
    worked = work_text(_PANEL + f"Row 2: Ch 3, dc in each dc across.\n{said}\n")
    assert (worked.problems, _made(worked)) == ([], [24, 24, 16])


def test_shaping_without_work_is_no_head() -> None:
    assert shaping_head("shape armholes: rows 12 to 15 are alike", 0) is None


def test_so_many_across_as_the_plain_rows_before() -> None:
    worked = work_text(_PANEL + "Next row: Work across 9 sts, turn.\n")
    assert (worked.problems, _made(worked)) == ([], [24, 9])


# -- the turning chain ------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("end", ["top of turning ch", "top of ch-3", "top of end ch", "3rd ch of turning ch"])
@pytest.mark.parametrize("count", ["", ", 24 dc", ". (24 dc)"])
def test_one_clause_works_into_each_stitch_and_the_turning_chain(end: str, count: str) -> None:
    worked = work_text("Ch 26.\nRow 1: Dc in 4th ch from hook and in each ch across.\n" + f"Row 2: Ch 3 (counts as first dc), dc in each dc and in {end}{count}, turn.\n")
    assert (worked.problems, _made(worked)) == ([], [24, 24])


def test_a_count_behind_a_rows_end_is_held_against_it() -> None:
    assert _told(work_text(_PANEL + "Row 2: Ch 3, dc in each dc and in top of turning ch, 25 dc, turn.\n")) == ["Row 2"]


# -- rows again -------------------------------------------------------------------------------------------------------

_TWO = _STRIP + "Row 2: Ch 1, 2 sc in first st, sc in each st across.\nRow 3: Ch 1, sc in each st across.\n"


@pytest.mark.parametrize(
    "said",
    [
        "Rows 4-7: [Rep Rows 2-3 consecutively] 2 times.", "Rows 4-7: (Repeat Rows 2 and 3) twice.", "[Rep Rows 2 and 3] twice.", "Rep these 2 rows twice.",
        "Rows 4-7: *Rep Rows 2 and 3*, twice.", "Repeat these two rows 2 more times.", "Repeat the above 2 rows twice.",
    ],
)  # fmt: skip
def test_rows_again_in_brackets_or_called_these(said: str) -> None:
    worked = work_text(_TWO + said + "\n")
    assert (worked.problems, _made(worked)) == ([], [16, 17, 17, 18, 18, 19, 19])


def test_rows_again_that_are_not_there_are_told() -> None:
    assert _told(work_text(_TWO + "Rows 4-7: [Rep Rows 8-9] 2 times.\n"))


@pytest.mark.parametrize("said", ["Repeat Row 2 until 12 sts remain.", "Repeat this row until there are 12 sts left.", "Continue in this manner until 12 sts remain."])
def test_rows_until_so_many_remain_are_counted_by_the_next_number(said: str) -> None:
    row = "Row 2: Ch 1, sk first st, sc in each st to last 2 sts, sc2tog.\n"
    worked = work_text(_STRIP + row + said + "\nRow 4: Ch 1, sc in each st across.\n")
    assert (worked.problems, _made(worked)) == ([], [16, 14, 12, 12])


def test_rows_that_do_not_come_to_what_remains_are_told() -> None:
    row = "Row 2: Ch 1, sk first st, sc in each st to last 2 sts, sc2tog.\n"
    assert _told(work_text(_STRIP + row + "Repeat Row 2 until 11 sts remain.\nRow 4: Ch 1, sc in each st across.\n"))


def test_this_row_again_behind_its_own_words() -> None:
    worked = work_text(_STRIP + "Row 2: Ch 1, sc2tog, sc in each st to last 2 sts, sc2tog. Rep this row 3 times.\n")
    assert (worked.problems, _made(worked)) == ([], [16, 14, 12, 10, 8])


# -- what comes again in a row ----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "said",
    [
        "*sc in next 3 sts, 2 sc in next st #; rep * to # till the end of the row.", "*sc in next 3 sts, 2 sc in next st. #\nRepeat * to # until the end of this row.",
        "*sc in next 3 sts, 2 sc in next st ~, repeat from * to ~ across.", "sc in next 3 sts, 2 sc in next st. Repeat this sequence till the end.",
        "sc in next 3 sts, 2 sc in next st, continue this sequence to the end.", "sc in next 3 sts, 2 sc in next st. Keep going in this sequence till end.",
    ],
)  # fmt: skip
def test_a_stretch_between_two_kinds_of_marks_or_called_a_sequence(said: str) -> None:
    worked = work_text(_STRIP + f"Row 2: Ch 1, turn, {said}\n")
    assert (worked.problems, _made(worked)) == ([], [16, 20])


def test_a_stretch_of_two_marks_that_does_not_come_out_is_told() -> None:
    assert _told(work_text(_STRIP + "Row 2: Ch 1, turn, *sc in next 2 sts, 2 sc in next st #; rep * to # till the end of the row.\n")) == ["Row 2"]


@pytest.mark.parametrize("again", ["rep * 4 more times", "rep from * to * 4 times", "rep * 4 times"])
def test_what_marks_hold_is_worked_once_more_further_on(again: str) -> None:
    row = f"Row 2: Ch 3, *ch 1, sk 1, dc in next st* rep from * 5 times, 2 dc in next st, {again}, dc in last 2 sts.\n"
    worked = work_text(_PANEL + row)
    assert (worked.problems, _made(worked)[-1]) == ([], 1 + 6 + 2 + 4 + 2)


# -- what holds for all rows ------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "said",
    [
        "Always ch 1 to start each row.", "Start every row with ch 1 and sc in the first st.", "Each row begins with ch 1, sc in the same st.",
        "Always ch 1 and hdc / sc in the same to start each row.", "Remember to always ch 1 at the beginning of each row.",
    ],
)  # fmt: skip
def test_how_all_rows_begin_is_no_work_of_the_row_above(said: str) -> None:
    worked = work_text(_STRIP + f"Row 2: ch 1, sc in same st, sc 15. (16) Turn\n{said}\nRows 3-4: ch 1, sc in same st, sc 15. (16) Turn\n")
    assert (worked.problems, _made(worked)) == ([], [16, 16, 16, 16])


def test_how_the_next_row_begins_is_work() -> None:
    assert _told(work_text(_STRIP + "Row 2: ch 1, sc in same st, sc 15. (16) Turn\nStart the next 3 sts with bobbles in the gap.\n"))


# -- pieces of a garment ----------------------------------------------------------------------------------------------


def test_a_part_that_later_words_name_is_a_piece() -> None:
    page = "BACK: With Green ch 26, dc in 4th ch from hook and in each ch across, turn.\n2nd ROW: Ch 3, dc in each dc across, turn. Repeat 2nd row until back measures 7 inches.\n"
    worked = work_text(page)
    assert (worked.problems, _made(worked)) == ([], [24, 24])


@pytest.mark.parametrize(
    ("names", "said", "sizes"),
    [
        (("1-2", "3-4", "5-6"), "sizes 3-4 and 5-6 years:", (1, 2)), (("s", "m", "l", "xl"), "sizes l and xl:", (2, 3)), (("s", "m", "l"), "largest size only:", (2,)),
        (("s", "m", "l"), "2nd and 3rd sizes only:", (1, 2)), (("1-2", "3-4", "5-6"), "size 5-6 years:", (2,)), (("s", "m", "l"), "sizes are in brackets:", None),
    ],
)  # fmt: skip
def test_which_sizes_rows_are_for(names: tuple[str, ...], said: str, sizes: tuple[int, ...] | None) -> None:
    assert only_for(said, names) == sizes


def test_a_dash_stands_for_a_size_that_has_none() -> None:
    line = "ch 1, - (4, 6) sc, turn - - (-, 30, 34) sts."
    assert [picked(line, line, size, 3)[6:15].split() for size in range(3)] == [["0"], ["4"], ["6"]]


# -- dashes, names in passing, and the stitch that a beginning chain stands on ---------------------------------------------

_RING = "Ch 5, join to form a ring.\n"


@pytest.mark.parametrize("said", ["dc-ch 1-dc", "dc - ch 1 - dc", "(dc, ch 1, dc) -V-st made-", "(dc, ch 1, dc)(V-stitch made)"])
def test_dashes_join_what_goes_into_one_place(said: str) -> None:
    worked = work_text(_RING + f"Rnd 1: Ch 3, 4 dc in ring, {said} in ring, 5 dc in ring, join.\n")
    assert (worked.problems, _made(worked)) == ([], [12])


@pytest.mark.parametrize("named", ["(2 dc, ch 2, 2 dc)-shell made- in ring", "(2 dc, ch 2, 2 dc) (shell made) in ring", "(2 dc, ch 2, 2 dc) in ring (shell made)", "(2 dc, ch 2, 2 dc) (shell made)"])
def test_a_group_is_named_before_its_place_or_behind(named: str) -> None:
    worked = work_text(_RING + f"Row 1: Ch 3, {named}, dc in ring, turn.\nRow 2: Ch 3, shell in shell, dc in last st.\n")
    assert (worked.problems, _made(worked)) == ([], [6, 6])


def test_a_group_that_nothing_names_stays_unexplained() -> None:
    rows = "Row 1: Ch 3, (2 dc, ch 2, 2 dc) in ring, (3 dc, ch 1, 3 dc) in ring, dc in ring, turn.\nRow 2: Ch 3, shell in ch-2 sp, dc in last st.\n"
    assert _told(work_text(_RING + rows)) == ["Row 2"]


def test_what_is_skipped_behind_a_chain_that_counts_is_what_it_stands_on() -> None:
    row = "Row 2: Ch 3 (counts as dc), skip 1 dc, dc in next 2 dc, *ch 2, skip 2 dc, dc in next 5 dc; rep from * to end.\n"
    assert (worked := work_text(_PANEL + row)).problems == [] and _made(worked) == [24, 18]


def test_what_is_skipped_there_and_does_not_come_out_either_way_is_told() -> None:
    row = "Row 2: Ch 3 (counts as dc), skip 1 dc, dc in next 4 dc, *ch 2, skip 2 dc, dc in next 5 dc; rep from * to end.\n"
    assert _told(work_text(_PANEL + row)) == ["Row 2"]


# -- lists, and rows whose star was forgotten --------------------------------------------------------------------------


def test_a_lists_number_stands_before_a_rows_name() -> None:
    page = (
        "1. Make the chain: ch 10.\n2. Row 1: Sc in 2nd ch from hook and in each ch across. (9 sc)\n"
        "3. Row 2 (Right Side): Ch 1, 2 sc in first st, sc in each st. (10 sc)\n4. Rows 3-4: Ch 1, sc in each st. (10 sc)\n"
    )
    worked = work_text(page)
    assert (worked.problems, _made(worked)) == ([], [9, 10, 10, 10])


def test_a_repeat_without_its_star_begins_behind_the_turn_and_is_told() -> None:
    worked = work_text(_STRIP + "Row 2: Ch 1, turn. Sc 3, 2 sc in next st, sc 4. Repeat from * once more. (18 sc)\n")
    assert (_told(worked), _made(worked)) == (["Row 2"], [16, 18])
