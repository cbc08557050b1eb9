"""Pages that go their own way: stretches of rows between marks, shapes that say how often a round repeats, chains over meshes."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import Worked, work_text


def _counts(worked: Worked) -> list[int]:
    return [row.row.made for row in worked.fabric.rows]


_BOBBLE = "Bobble\n\nCh 2.\nRnd 1: 7 sc in 2nd ch from hook. Join with sl st in first sc.\n"


@pytest.mark.parametrize("end", ["14 sc.**", "14 sc. **", "(14 sc) **", "(14 sc)**", "14 sc **", "14 sc.***"])
@pytest.mark.parametrize("begin", ["", "**", "** ", "*"])
def test_marks_of_a_stretch_of_rows_stand_behind_a_whole_repeat(begin: str, end: str) -> None:
    worked = work_text(f"{_BOBBLE}{begin}Rnd 2: Ch 1. *2 sc in next sc. Rep from * around. Join with sl st in first sc. {end}\nRnd 3: 1 sc in each sc around.\n")
    assert worked.problems == []
    assert _counts(worked) == [7, 14, 14]


@pytest.mark.parametrize("row", ["Ch 1. *2 sc in next sc, ch 1** around, join", "Ch 1. 2 sc in next sc, ch 1** around", "2 sc in each sc around **, ch 1"])
def test_a_mark_inside_a_row_without_its_other_end_stays_told(row: str) -> None:
    worked = work_text(f"{_BOBBLE}Rnd 2: {row}.\nRnd 3: 1 sc in each sc around. (19 sc)\n")
    assert worked.problems != []


@pytest.mark.parametrize(
    "closed",
    [
        "ending last rnd with sl st in first st", "ending the last round with a sl st in first st", "closing last rnd with sl st in first sc",
        "joining last rnd with sl st in first sc", "finishing last round with a sl st in next st", "and end last round with a sl st in next st",
        "join last rnd with sl st in first sc",
    ],
)  # fmt: skip
def test_the_last_of_several_rounds_is_closed(closed: str) -> None:
    worked = work_text(f"Ball\n\nCh 2.\nRnd 1: 7 sc in 2nd ch from hook.\nRnd 2: 2 sc in each sc.\nRnds 3 and 4: 1 sc in each sc around, {closed}.\nRnd 5: 2 sc in each sc.\n")
    assert worked.problems == []
    assert _counts(worked) == [7, 14, 14, 14, 28]


_SPOKES = "Rnd 1: Magic ring, *sc into ring, ch 2, tr into ring, ch 2{again}, join to first sc with sl st.{stated}\n"


@pytest.mark.parametrize(
    ("page", "again", "made"),
    [
        ("Pentagon rug", ", rep from * 5 times", 10), ("Pentagon rug", "*, repeat ** 5 times", 10), ("Five-pointed star", "* repeat between ** 5 times", 10),
        ("8-petal flower", "* rep from * to * 8 times", 16), ("Octagonal rug", ", rep from * 8 times", 16), ("Octagon rug", ", rep from * 7 times", 16),
        ("Octagon rug", ", rep from * 8 more times", 18), ("Octagon or hexagon", ", rep from * 8 times", 18), ("Rug", ", rep from * 8 times", 18),
    ],
)  # fmt: skip
def test_a_round_repeats_as_often_as_its_shape_has_sides(page: str, again: str, made: int) -> None:
    worked = work_text(f"{page}\n\n{_SPOKES.format(again=again, stated='')}")
    assert worked.problems == []
    assert _counts(worked) == [made]


def test_a_stated_count_goes_before_the_sides_of_the_shape() -> None:
    assert _counts(work_text(f"Octagon rug\n\n{_SPOKES.format(again=', rep from * 8 times', stated=' (18 sts)')}")) == [18]
    assert work_text(f"Octagon rug\n\n{_SPOKES.format(again=', rep from * 8 times', stated=' (20 sts)')}").problems != []


_STRIP = "\n\nCh 15.\nRow 1: Dc in 4th ch from hook and in each ch across, turn.\nRow 2: Ch 3, dc in first dc, dc in each dc across, dc in top of turning ch, turn.\n"


@pytest.mark.parametrize(
    "note",
    [
        "So you have (ch 3, dc) which equals 2 dc.", "Ch 3 and dc counts as 2 dc.", "The ch 3 plus the next dc counts as 2 dc.",
        "Always count the ch 3 turning chain as your first dc.", "Treat the beginning ch 3 as a dc.", "Ch 3 with a dc beside it counts as 2 dc.",
    ],
)  # fmt: skip
def test_what_a_chain_and_the_stitch_beside_it_make(note: str) -> None:
    worked = work_text(f"Notes:\n\n{note}{_STRIP}")
    assert worked.problems == []
    assert _counts(worked) == [13, 14]


def test_a_chain_alone_counts_as_no_two() -> None:
    assert "count as 2 dc" in work_text(f"Notes:\n\nCh 3 counts as 2 dc.{_STRIP}").problems[0].says


_MESHES = "Ch 32.\nRow 1: Dc in 8th ch from hook, *ch 2, skip 2 ch, dc in next ch, repeat from * across. (10 dc)\n"


@pytest.mark.parametrize("ch", ["Ch 5, turn, ", "Ch 5 (counts as dc, ch 2), turn, "])
@pytest.mark.parametrize("end", ["ending with dc in 3rd ch of turning ch", "ending dc in top of turning ch", "ending with dc in 3rd st of ch"])
def test_the_last_chain_lies_over_a_mesh_as_those_of_the_repeat_do(ch: str, end: str) -> None:
    worked = work_text(f"{_MESHES}Row 2: {ch}dc in next dc, *2 dc in next mesh, dc in next dc, ch 2, dc in next dc, repeat from * across, {end}.\n")
    assert worked.problems == []
    assert _counts(worked) == [10, 18]


@pytest.mark.parametrize("space", ["ch 2 mesh", "ch-2 mesh", "2-ch mesh", "2 ch mesh", "ch2 mesh", "mesh"])
def test_meshes_by_their_chains(space: str) -> None:
    worked = work_text(f"{_MESHES}Row 2: Ch 1, turn. Sc in first dc, *ch 5, sc in next {space}, repeat from * across.\n")
    assert worked.problems == []
    assert _counts(worked) == [10, 10]


def test_a_mesh_of_other_chains_is_told() -> None:
    assert work_text(f"{_MESHES}Row 2: Ch 1, turn. Sc in first dc, *ch 5, sc in next ch 4 mesh, repeat from * across.\n").problems != []


@pytest.mark.parametrize("aside", ["(picot loop)", "(picot lp)", "(a picot)", "(picot loop made)", "(picot)"])
def test_a_picot_loop_named_in_a_bracket_is_not_worked_again(aside: str) -> None:
    worked = work_text(f"Ch 14.\nRow 1: Sc in 2nd ch from hook, *ch 6, skip 3 ch, sc in next ch, rep from * across. Turn.\nRow 2: Ch 1, *2 sc, ch 4 {aside}, 2 sc over next loop, repeat from * across row.\n")
    assert worked.problems == []
    assert [dict(row.row.kinds()) for row in worked.fabric.rows] == [{"sc": 4}, {"sc": 12}]


@pytest.mark.parametrize(
    "talk",
    [
        "you should be back to the 3 chains you started this row with, ", "You should be back at the 3 ch you began with, ", "You will now be back at the beginning, ",
        "this brings you back to the 3 ch you started with, ", "you should now have come back to the first 3 chains, ", "You are back where you started; ",
        "when you get back to the 3 chains you started with, ", "once back at the start, ", "You should end up at the 3 chains that began this round. ",
    ],
)  # fmt: skip
@pytest.mark.parametrize("top", ["3rd chain", "3rd chain (the top part of the 3 chains)", "3rd chain (top of the ch 3)", "top part of the 3 chains"])
def test_where_the_hook_is_by_now_and_which_chain_is_the_top(talk: str, top: str) -> None:
    worked = work_text(f"UK terms\nMake 5 chains, slip stitch into 1st chain made to form a ring\nRound 1.\n3 ch (to count as first tr), 2 tr into ring, 2 ch, *3 tr into ring, 2 ch, repeat from * 3 more times\n{talk}ss into the {top} to close the round\n")
    assert worked.problems == []
    assert _counts(worked) == [15]


def test_going_back_to_work_more_is_no_talk() -> None:
    worked = work_text("Ch 5, join with sl st to form a ring.\nRnd 1: Ch 3, 14 dc in ring, go back to the 3 chains and work 2 flurbs there, join.\n")
    assert worked.problems != []


@pytest.mark.parametrize("aim", ["", " for center inc", " for centre inc", " for center increase", ", for inc", " (center inc)"])
def test_what_a_shell_in_the_middle_is_for(aim: str) -> None:
    row = f"Row 2: Dc in first dc, ch 1, shell of (3 dc, ch 2, 3 dc) in center sp{aim}, ch 1, 2 dc in top of turning ch, ch 3, turn.\n"
    worked = work_text(f"Shell: (3 dc, ch 2, 3 dc) all in same space.\nCh 6.\nRow 1: Dc in 4th ch from hook, ch 2, sk 1 ch, 2 dc in last ch, ch 3, turn.\n{row}")
    assert worked.problems == []
    assert _counts(worked) == [4, 10]


@pytest.mark.parametrize("closed", ["to close the row", "to close the circle", "to close the round", "to close"])
def test_a_round_that_is_called_a_row_is_closed(closed: str) -> None:
    worked = work_text(f"Ch 5, join with sl st to form a ring.\nRnd 1: Ch 3 (counts as dc), 11 dc in ring, sl st into the 3rd ch {closed}.\nRnd 2: Ch 1, 2 sc in each st, join with sl st in first sc.\n")
    assert worked.problems == []
    assert _counts(worked) == [12, 24]


@pytest.mark.parametrize("led", ["ss into top of next tr, ss into the space", "ss into next tr\nss into space", "ss in next tr and in next sp", "ss into the next tr (you are at a corner now) ss into the space"])
@pytest.mark.parametrize("closed", ["ss into the 3rd chain to close the row", "ss into 3rd of 3 ch", "join with ss to 3rd of 3 ch", "ss into the 3rd chain loop to close"])
def test_slip_stitches_behind_the_first_rounds_join_go_along_it(led: str, closed: str) -> None:
    first = f"Round 1.\n3 ch (to count as first tr), 1 tr into ring, 2 ch, * 2 tr into ring, 2 ch, repeat from * 3 more times\n{closed}\n{led}\n"
    worked = work_text(f"UK terms\nMake 5 chains, slip stitch into 1st chain made to form a ring\n{first}Round 2. 3 ch, 1 tr in same space, *2 ch, 2 tr into the next space, repeat from * 3 more times, 2 ch, ss in top of 3 ch\n")
    assert worked.problems == []
    assert _counts(worked) == [10, 10]


def test_slip_stitches_along_a_round_that_is_not_closed_are_told() -> None:
    worked = work_text("Ch 5, join with sl st to form a ring.\nRnd 1: Ch 3 (counts as dc), dc in ring, *ch 2, 2 dc in ring, repeat from * 3 more times, ch 2, ss into next dc.\n")
    assert worked.problems != []
