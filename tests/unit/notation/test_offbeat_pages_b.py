"""Groups that nobody explains, rows told by rows one by one, edges of a tube, foundations told in odd places."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import Worked, work_text

_GROWING = """Ch 11.
Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)
Row 2: Ch 1, turn, 2 sc in first st, sc in each st across.
Row 3: Ch 3 (counts as dc), turn, dc in next st and in each st across.
"""


def _counts(worked: Worked) -> list[int]:
    return [row.row.made for row in worked.fabric.rows]


def _kinds(worked: Worked) -> list[dict[str, int]]:
    return [dict(row.row.kinds()) for row in worked.fabric.rows]


def _told(worked: Worked) -> list[tuple[str, str]]:
    return [(problem.where, problem.says) for problem in worked.problems]


# -- groups that are nowhere explained --------------------------------------------------------------------------------


def test_a_v_stitch_that_nobody_explains_is_told_and_worked_as_is_usual() -> None:
    text = "Ch 10.\nRow 1: Dc in 4th ch from hook and in each ch. (8 dc)\n"
    text += "Row 2: Ch 3, turn, sk next dc, *v-st in next dc, sk next dc; rep from * to last 2 sts, sk next dc, dc in last st.\n"
    text += "Row 3: Ch 3, turn, v-st in each ch-1 sp across, dc in last st.\n"
    worked = work_text(text)
    assert [where for where, _ in _told(worked)] == ["Row 2"]
    assert '"V-st" is nowhere explained; it was worked as (dc, ch 1, dc)' in _told(worked)[0][1]
    assert _kinds(worked)[1:] == [{"dc": 6}, {"dc": 6}]


# -- rows told by rows ------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "said",
    [
        "Rep Rows 2 + 3.", "Rep rows 2+3", "Repeat Rows 2/3, fasten off.", "Rep R2 + R3.", "Rep R: 2 & 3.",
        "Alternate repeats of row 2 and row 3.", "Alternate repeating row 2 and row 3.", "Alternately repeat Rows 2 and 3.",
        "Alternate between Row 2 and Row 3, end with a Row 3 repeat.", "Repeat Rows 2 and 3 alternately.",
        "Alternate repeats of row 3 and row 2. End with a row 3 repeat.",
    ],
)  # fmt: skip
def test_two_rows_come_again_by_turns(said: str) -> None:
    worked = work_text(f"{_GROWING}Rows 4-7: {said}\n")
    assert worked.problems == []
    assert _kinds(worked)[3:] == [{"sc": 12}, {"dc": 12}, {"sc": 13}, {"dc": 13}]


def test_rows_named_the_later_first_are_worked_in_that_order() -> None:
    worked = work_text(f"{_GROWING}Rows 4-7: Repeat Rows 3 and 2.\n")
    assert _kinds(worked)[3:] == [{"dc": 11}, {"sc": 12}, {"dc": 12}, {"sc": 13}]


@pytest.mark.parametrize("said", ["Repeat Rows 2 and 4.", "Rep 2nd and 4th rows.", "Repeat Rows 2 & 4 alternately."])
def test_rows_between_two_that_are_named_are_left_out(said: str) -> None:
    worked = work_text(f"{_GROWING}Row 4: Ch 1, turn, 3 sc in first st, sc in each st across.\nRows 5-8: {said}\n")
    assert worked.problems == []
    assert _counts(worked)[4:] == [14, 16, 17, 19]


def test_rows_that_end_with_another_row_than_is_said_are_told() -> None:
    worked = work_text(f"{_GROWING}Rows 4-7: Alternate Rows 2 and 3, end with a Row 2 repeat.\n")
    assert [where for where, _ in _told(worked)] == ["Rows 4-7"]


# -- counts of two things ---------------------------------------------------------------------------------------------

_RING = "{told}\nCh 20, join to form a ring.\nRound 1: Ch 1, sc in each ch around, join. (20 sc)\n"


@pytest.mark.parametrize(
    ("kind", "count"),
    [
        ("Cluster: dc3tog in same st.", "{n} clusters + {n} chain 1 spaces"),
        ("Cluster: dc3tog in same st.", "{n} clusters + {n} ch-1 sps"),
        ("Cluster: dc3tog in same st.", "{n} clusters + {n} ch"),
        ("Cluster: dc3tog in same st.", "{n} sts + {n} ch-1 spaces"),
    ],
)
def test_a_count_with_a_plus_is_compared(kind: str, count: str) -> None:
    row = "Round 2: Ch 2, *cluster, ch 1, skip next st; repeat from * around, join. ({count})\n"
    right = work_text(_RING.format(told=kind) + row.format(count=count.format(n=10)))
    assert right.problems == []
    wrong = work_text(_RING.format(told=kind) + row.format(count=count.format(n=12)))
    assert {problem.where for problem in wrong.problems} == {"Round 2"}


# -- round the open edge of a tube ------------------------------------------------------------------------------------

_STRIP = "Ch 9.\nRow 1: Sc in 2nd ch from hook and in each ch across. (8 sc)\nRows 2-24: Ch 1, turn, sc in BLO of each st. (8)\n"


@pytest.mark.parametrize(
    "joined",
    [
        "Join Row 24 to Row 1 by folding the strip and slip stitching along.", "Sew the short ends together to form a tube.",
        "Connect last row to first row by folding the strip in half and joining with a few slip stitches.",
        "Whip stitch the last row to the foundation chain.", "Seam the ends together, forming a ring.",
        "Fold in half and sew Row 1 and Row 24 together.",
    ],
)  # fmt: skip
def test_a_round_behind_a_joined_strip_goes_round_the_ends_of_its_rows(joined: str) -> None:
    worked = work_text(f"{_STRIP}{joined}\nRound 1: Chain 1. *Sc. Ch 1. Skip the next stitch* around. (12 sc)\nRound 2: Ch 1, sc in each ch-1 sp around.\n")
    assert worked.problems == []
    assert [row.row.made for row in worked.pieces[1].fabric.rows] == [12, 12]
    assert any("round the ends of the 24 rows" in said for said in worked.assumed)


def test_a_round_that_comes_out_over_no_stitch_to_a_row_is_not_checked() -> None:
    worked = work_text(f"{_STRIP}Sew the short ends together.\nRound 1: Ch 1, sc around. (30 sc)\nRound 2: Ch 1, sc in each st around. (30)\n")
    assert worked.problems == []
    assert any("is not said" in said for said in worked.assumed)


def test_sewn_sides_make_no_tube() -> None:
    worked = work_text(f"{_STRIP}Sew the side seams.\nRound 1: Chain 1. *Sc. Ch 1. Skip the next stitch* around. (12 sc)\n")
    assert [problem.where for problem in worked.problems] == ["Round 1"]


# -- foundations told in odd places -----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "begun",
    [
        "We will be starting with red yarn, ch 29, loosely. Turn,", "We start with red, ch 29 loosely, turn,",
        "You will need to ch 29, then", "Let's start with a ch of 29,", "First ch 29 (loosely!),", "I always begin with ch 29.",
    ],
)  # fmt: skip
def test_a_foundation_that_the_writer_leads_up_to(begun: str) -> None:
    worked = work_text(f"R : 1 - {begun} 1 hdc in the 2nd ch from the hook, 1 hdc in each ch across, ch1 turn.\nR : 2 - 1 hdc in each hdc, ch 1, turn\n")
    assert worked.problems == []
    assert _kinds(worked) == [{"hdc": 28}, {"hdc": 28}]


_LADDER = """Ch 29.
R 1: Hdc in 2nd ch from hook and in each ch across, ch 1, turn. (28 hdc)
R 2: *Hdc in next 4 hdc, ch 4, sk next 4 hdc; rep from * 2 more times, hdc in last 4 hdc, ch 1, turn.
"""


@pytest.mark.parametrize("rows", ["R: 2&3", "Rows 2 and 3", "R 2 & R 3"])
def test_a_row_told_by_another_skips_the_chains_that_stand_there_now(rows: str) -> None:
    last = f"R 4: *Hdc in next 4 hdc, ch 2, sc around the 4 chs from {rows}, ch 1; rep from * 2 more times, hdc in last 4 hdc."
    worked = work_text(f"{_LADDER}R 3: Repeat R 2.\n{last}\n")
    assert worked.problems == []
    assert _kinds(worked)[1:] == [{"hdc": 16}, {"hdc": 16}, {"hdc": 16, "sc": 3}]
    feet = [foot.back for s in worked.fabric.rows[3].row.stitches if s.kind == "sc" for foot in s.feet]
    assert feet == [2, 2, 2]


def test_stitches_skipped_where_there_are_none_are_told() -> None:
    worked = work_text(f"{_LADDER}R 3: *Hdc in next 4 hdc, ch 4, sk next 4 hdc; rep from * 2 more times, hdc in last 4 hdc.\n")
    assert [problem.where for problem in worked.problems] == ["Row 3"]


_MESH = """Stitch pattern
Set-up row: Dc in 4th ch from hook (3 skipped ch count as dc) and in each ch across, turn.
Row 1: Ch 3 (counts as dc), dc in next dc, *ch 2, sk next 2 dc, dc in next 2 dc; rep from * across, turn.
Rep Row 1 for pattern.
"""


@pytest.mark.parametrize(
    "piece",
    [
        "Stole\nChain 32. Work in the stitch pattern until it measures 60 inches.", "Vest\nBack\nCh 32.\nWork Set-up row, then rep Row 1 for 14 inches.",
        "Vest\nFront: Ch 32. Work even in pattern to the neck. Fasten off.", "VEST\nBack\nCh 32 (36, 40).\nWork even until piece measures 14 inches.",
    ],
)  # fmt: skip
def test_a_stitch_pattern_told_first_stands_on_the_chain_of_the_piece(piece: str) -> None:
    worked = work_text(f"{_MESH}{piece}\n")
    assert worked.problems == []
    assert _counts(worked)[:2] == [30, 16]
    assert any("told behind it" in said for said in worked.assumed)


def test_a_chain_that_has_rows_of_its_own_is_no_other_rows_foundation() -> None:
    worked = work_text(f"{_MESH}Strap\nCh 12.\nRow 1: Sc in 2nd ch from hook and in each ch across. (11 sc)\n")
    assert not any("told behind it" in said for said in worked.assumed)
    assert [row.row.made for row in worked.pieces[-1].fabric.rows] == [11]


@pytest.mark.parametrize("said", [" - 9 (sc, 2 dc) pattern repeats.", ". You will have 9 (sc, 2 dc) repeats.", " - 9 (sc, 2 dc) groups."])
def test_how_often_a_group_came_is_no_work(said: str) -> None:
    text = "Chain 30.\nRow 1: Skip 2 chains (counts as sc), 2 dc in next ch, *skip 2 ch, (sc, 2 dc) in next ch; repeat from * to last 3 ch, skip 2 ch, sc in last ch"
    worked = work_text(f"{text}{said}\n")
    assert worked.problems == []
    assert _kinds(worked) == [{"sc": 10, "dc": 18}]


# -- beginning chains and foundation stitches said in other ways ------------------------------------------------------

_LACE = "Ch 6. Join with sl st to first ch to form ring.\nRow 1: Ch 4 (counts as tr throughout), (3 tr, ch 1, 4 tr) in ring, turn.\n"
_POSTS = "Row 2: Ch 7 (counts as tr and ch 3), sk first tr, tr in each of next 3 tr, ch 5, tr in each of next 3 tr, {end}ch 3, tr in top of ch-4, turn.\n"


def test_a_beginning_chain_skipped_as_the_last_stitch_is_worked_into_where_it_is_named() -> None:
    worked = work_text(_LACE + _POSTS.format(end="sk last tr, "))
    assert worked.problems == []
    assert _counts(worked) == [8, 8]
    assert any("is the beginning chain itself" in note.says for note in worked.notes)


def test_a_beginning_chain_that_was_worked_into_is_still_told() -> None:
    worked = work_text(_LACE + _POSTS.format(end="tr in last tr, "))
    assert [problem.where for problem in worked.problems] == ["Row 2"]


@pytest.mark.parametrize("space", ["last ch-7 sp", "next ch-7 sp", "last ch- 7 sp"])
def test_a_space_called_by_all_the_chains_of_a_beginning(space: str) -> None:
    row = f"Row 3: Ch 4, 2 tr in first ch-3 sp, sk 3 tr, (2 tr, ch 1, 2 tr) in next ch-5 sp, sk 3 tr, 2 tr in {space}, tr in 4th ch of last ch-7.\n"
    worked = work_text(_LACE + _POSTS.format(end="") + row)
    assert worked.problems == []
    assert _counts(worked)[2] == 10
    wrong = work_text(_LACE + _POSTS.format(end="") + row.replace(space, "last ch-8 sp"))
    assert [problem.where for problem in wrong.problems] == ["Row 3"]


@pytest.mark.parametrize("said", ["24 foundationless sc", "24 foundationless sc (or a multiple of 2)", "24 foundationless single crochet", "24 sc foundation stitches"])
def test_foundation_stitches_by_other_names(said: str) -> None:
    worked = work_text(f"{said}\nRow 1: Ch 1, turn, *sc in next st, ch 1, sk 1; rep from * across.\n")
    assert worked.problems == []
    assert _kinds(worked) == [{"sc": 12}]


@pytest.mark.parametrize("said", ["takes place of first dc", "taking place of first dc", "takes the place of the first dc"])
def test_chains_that_take_the_place_of_a_stitch(said: str) -> None:
    worked = work_text(f"Ch 10, sl st into first ch.\nRow 1: Sc into loop just created, ch 2 ({said}), 3 dc, ch 2, 4 dc. Turn work.\n")
    assert worked.problems == []
    ring = work_text(f"Ch 10, sl st into first ch to form ring.\nRow 1: Ch 2 ({said}), 3 dc in ring, ch 2, 4 dc in ring.\n")
    assert _kinds(ring) == [{"dc": 8}]


def test_a_turning_row_is_the_turning_chain() -> None:
    worked = work_text("Ch 12.\nRow 1: Dc in 4th ch from hook and in each ch. (10 dc)\nRow 2: Ch 3, turn, dc in next 8 dc, dc into 3rd ch of turning row. (10 dc)\n")
    assert worked.problems == []


_RIBBED = "Chain 21.\nRow 1: In 2nd ch from hook sc, sc in next 4 ch. Hdc in next 15. {count} Chain 2, turn.\nRow 2: {loops}, hdc in each st.\n"


@pytest.mark.parametrize(("count", "loops"), [("20 st in each row.", "Grabbing back loop"), ("You will have 20 stitches in every row.", "Grabbing only the front loop")])
def test_a_count_said_of_every_row_and_loops_that_are_grabbed(count: str, loops: str) -> None:
    worked = work_text(_RIBBED.format(count=count, loops=loops))
    assert worked.problems == []
    assert _kinds(worked) == [{"sc": 5, "hdc": 15}, {"hdc": 20}]
    wrong = work_text(_RIBBED.format(count=count.replace("20", "22"), loops=loops))
    assert "Row 1" in {problem.where for problem in wrong.problems}
