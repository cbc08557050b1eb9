"""Pages that go their own way: spaces that are not called the next ones, groups and gaps, work told in a sentence."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import Worked, work_text


def _counts(worked: Worked) -> list[int]:
    return [row.row.made for row in worked.fabric.rows]


_MESH = "Magic ring.\nRnd 1: Ch 3, 15 dc in ring, join with sl st in top of ch 3. (16 dc)\nRnd 2: Ch 5, *skip 1 st, dc in next st, ch 2, rep from * around, join with sl st in 3rd ch of ch-5.\n"


@pytest.mark.parametrize(
    ("said", "made"),
    [
        ("ch 3, 2 dc in ch 2 space, *3 dc in next ch 2 space", 24),
        ("ch 3, 1 dc, ch 2, 2 dc in ch 2 space, *2 dc, ch 2, 2 dc in next ch 2 space", 32),
        ("ch 3, 2 dc in space, *3 dc in next space", 24),
        ("ch 1, 3 sc in ch 2 space, *3 sc in next ch 2 space", 24),
    ],
)
def test_the_space_slipped_into_is_the_one_meant(said: str, made: int) -> None:
    worked = work_text(f"{_MESH}Rnd 3: Sl st into ch 2 space, {said}, rep from * around. Join.\n")
    assert worked.problems == []
    assert _counts(worked) == [16, 8, made]


def test_one_called_the_next_is_another() -> None:
    worked = work_text(f"{_MESH}Rnd 3: Sl st into ch 2 space, ch 3, 2 dc in ch 2 space, *3 dc in next ch 2 space, rep from * around. Join. (27 dc)\n")
    assert [problem.where for problem in worked.problems] == ["Rnd 3"]


_RIPPLE = (
    "Cl (cluster): *Yarn over, insert hook in indicated st or sp and draw up a loop, yarn over and draw through 2 loops on hook; rep from * twice more, yarn over and draw through all loops on hook.\n"
    "With A, ch 66.\nRow 1: Sc in 2nd ch from hook and in each ch across. (65 sts)\n"
    "Row 2: Ch 3 (counts as first dc), turn, sk first 3 sc, (3 dc in next sc, sk next 2 sc) twice, (3 dc, ch 2, 3 dc) in next sc, *(sk next 2 sc, 3 dc in next sc) twice, sk next 2 sc, Cl in next sc, sk next 4 sc, "
    "Cl in next sc, (sk next 2 sc, 3 dc in next sc) twice, sk next 2 sc, (3 dc, ch 2, 3 dc) in next sc; rep from * to last 9 sc, (sk next 2 sc, 3 dc in next sc) twice, sk 2 sc, dc in last sc.\n"
)


@pytest.mark.parametrize("rest", ["following stripe sequence", "keeping to the colour order", "in the same stripe pattern", "continuing the color sequence"])
def test_spaces_between_the_groups_of_a_ripple(rest: str) -> None:
    worked = work_text(
        f"{_RIPPLE}Row 3: Ch 3, turn, sk first sp, (3 dc in next sp between 3-dc groups) twice, (3 dc, ch 2, 3 dc) in next ch-2 sp, *(3 dc in next sp) twice, Cl in next sp, sk sp between Cls, Cl in next sp, "
        "(3 dc in next sp) twice, (3 dc, ch 2, 3 dc) in next ch-2 sp; rep from * to last two 3-dc groups, (3 dc in next sp) twice, sk last sp, dc in top of turning ch.\n"
        f"Rows 4-6: Rep Row 3 {rest}.\n"
    )
    assert worked.problems == []
    assert len(set(_counts(worked)[1:])) == 1


def test_one_space_of_a_ripple_too_many() -> None:
    worked = work_text(
        f"{_RIPPLE}Row 3: Ch 3, turn, sk first sp, (3 dc in next sp between 3-dc groups) twice, (3 dc, ch 2, 3 dc) in next ch-2 sp, *(3 dc in next sp) 4 times, Cl in next sp, sk sp between Cls, Cl in next sp, "
        "(3 dc in next sp) twice, (3 dc, ch 2, 3 dc) in next ch-2 sp; rep from * to last two 3-dc groups, (3 dc in next sp) twice, sk last sp, dc in top of turning ch.\n"
    )
    assert [problem.where for problem in worked.problems] == ["Row 3"]


@pytest.mark.parametrize(
    "said",
    [
        "ch 3 counts as first dc, 11 dc in ring",
        "ch 3 counts as dc. 11 dc in ring",
        "chain 3 which counts as dc, then work 11 dc into the ring",
        "make 3 ch counts as first dc and then do a further 11 dc into the circle",
        "ch 3 counts as dc throughout. Ch 3, 11 dc in ring",
        "ch 3, 11 dc in ring, ch 3 counts as dc",
    ],
)
def test_a_chain_said_to_count_where_it_is_made(said: str) -> None:
    worked = work_text(f"Ch 4, join with sl st.\nRnd 1: {said}. Join.\nRnd 2: Ch 3 counts as dc, dc in same st, 2 dc in each st around, join.\n")
    assert worked.problems == []
    assert _counts(worked) == [12, 24]


def test_the_chain_said_to_count_makes_one_too_many() -> None:
    worked = work_text("Ch 4, join with sl st.\nRnd 1: ch 3 counts as first dc, 12 dc in ring. Join. (12 dc)\n")
    assert [problem.where for problem in worked.problems] == ["Rnd 1"]


def test_skipped_chains_said_to_count_are_not_made_again() -> None:
    worked = work_text("Ch 16.\nRow 1: Ch 3 counts as dc. Dc in 4th ch from hook and in each ch across. (14)\nRow 2: Ch 3, turn, ch 3 counts as dc. Dc in next dc and in each across. (14)\n")
    assert worked.problems == []
    assert _counts(worked) == [14, 14]


@pytest.mark.parametrize("ring", ["5ch and join with slip stitch or magic circle and", "5ch and join with slip stitch and", "Ch 5, join with sl st or make a magic ring,"])
def test_a_first_round_told_with_its_ring(ring: str) -> None:
    worked = work_text(f"Hat for an egg\n{ring} make 3 ch counts as first treble and then do a further 9 treble into the circle = total 10 trebles\n2nd round ..3ch and 1tr into same stitch then 2 tr into each treble to end and slip st into top of 3ch\n")
    assert worked.problems == []
    assert _counts(worked) == [10, 20]


_TEN = "Magic ring.\nRnd 1: Ch 3, 9 dc in ring, join. (10)\nRnd 2: Ch 3, dc in same st, 2 dc in each st around, join. (20)\n"


@pytest.mark.parametrize(
    ("said", "made"),
    [("Ch 3, dc in same st, *dc in next st, 2 dc in next st", 30), ("Ch 3, dc in same st, *dc in next 3 sts, 2 dc in next st", 25), ("Ch 1, 2 sc in first st, *sc in next 4 sts, 2 sc in next st", 24)],
)
def test_a_round_begun_with_the_end_of_its_repeat(said: str, made: int) -> None:
    worked = work_text(f"{_TEN}Rnd 3: {said}; rep from * around, join.\n")
    assert worked.problems == []
    assert _counts(worked)[-1] == made


@pytest.mark.parametrize("said", ["Ch 3, dc in same st, *dc in next 2 sts, 2 dc in next st", "Ch 3, dc in next st, *dc in next 3 sts, 2 dc in next st", "Ch 3, 2 dc in same st, *dc in next st, 2 dc in next st"])
def test_a_round_that_does_not_come_out_even(said: str) -> None:
    worked = work_text(f"{_TEN}Rnd 3: {said}; rep from * around, join.\n")
    assert [problem.where for problem in worked.problems] == ["Rnd 3"]


@pytest.mark.parametrize("talk", ["where you worked into both loops the brim rolls up nicely :)", "tada, the hat is finished :-)\nwhere you worked into both loops it may roll a little :)"])
def test_talk_below_a_row_told_by_another(talk: str) -> None:
    worked = work_text(f"{_TEN}Rnd 3: Ch 1, sc in each st around, join. (20)\n4th and 5th round ...same as round 3\n{talk}\n")
    assert worked.problems == []
    assert _counts(worked) == [10, 20, 20, 20, 20]


def test_a_round_closed_in_its_first_stitch_by_a_slip_stitch() -> None:
    worked = work_text("Ch 6. Join with sl st to form ring.\n1st rnd: Ch 3, 20 dc in ring. Sl st in 1st dc. Ch 1, turn.\n2nd rnd: Sc in back loop of each dc around. Sl st in 1st sc.\n")
    assert worked.problems == []
    assert _counts(worked) == [20, 20]


@pytest.mark.parametrize(
    "said",
    [
        "working all sts for this round in 3rd loop of hdc, sc in each st around",
        "working all stitches in the back loop of each hdc, sc in each st around",
        "(work into BLs of each st for this rnd only) sc in each st around",
        "working in back loops only for this round only, sc in each st around",
    ],
)
def test_the_loops_of_one_round(said: str) -> None:
    worked = work_text(f"Magic ring.\nRnd 1: Ch 1, 9 hdc in ring, join. (9)\nRnd 2: Ch 1, {said}, join. (9)\nRnd 3: Ch 1, 2 sc in each st around, join. (18)\n")
    assert worked.problems == []
    holds = [{foot.hold for s in row.row.stitches if s.role == "stitch" for foot in s.feet} for row in worked.fabric.rows]
    assert holds[1] != {"top"} or "3rd" in said
    assert holds[2] == {"top"}


@pytest.mark.parametrize("count", ["= 18dc including the ch3", "= 18 dc including ch 3", "(18 dc counting ch 3 as a st)", "- 18 dc including the beginning ch"])
def test_a_count_that_holds_the_chain(count: str) -> None:
    worked = work_text(f"Magic ring.\nRnd 1: Ch3, 17dc in the ring {count}. Join.\nRnd 2: Ch 1, sc in each st around, join. (18)\n")
    assert worked.problems == []
    assert _counts(worked) == [18, 18]


def test_a_count_that_holds_the_chain_and_is_off() -> None:
    worked = work_text("Magic ring.\nRnd 1: Ch3, 16dc in the ring = 18dc including the ch3. Join.\n")
    assert [problem.where for problem in worked.problems] == ["Rnd 1"]


def test_a_row_said_again_over_a_mesh() -> None:
    worked = work_text("Chain 22\nRow 1: sc in 2nd chain from hook, sc across (21 sc)\nRow 2: ch1, turn; sc in first sc, *ch1, skip 1 sc, sc in next sc; rep from * across\nRow 3: repeat row 1\n")
    assert worked.problems == []
    assert _counts(worked) == [21, 11, 21]


_SQUARE = (
    "Square\n\nWith any Colour\u2014Ch 6, join to form a ring, ch 3 (counts as 1 dc) and work 2 dc in ring, *ch 2, 3 dc in ring, repeat from * twice, ch 2, join in 3rd st of ch.\n"
    "2nd Row\u2014Attach next Colour in ch 2 loop, ch 3, 2 dc in same loop, ch 2, 3 dc in same loop, *3 dc, ch 2, 3 dc in next loop, repeat from * twice, join in 3rd st of ch.\n"
)
_THIRD = "3rd Row\u2014Attach next Colour in corner loop, ch 3, 2 dc in same loop, ch 2, 3 dc in same loop, *3 dc in next space between corners, 3 dc, ch 2, 3 dc in next loop, repeat from * {n}, 3 dc in next space, join in 3rd st of ch.\n"


def test_the_spaces_of_a_square_between_its_corners() -> None:
    worked = work_text(_SQUARE + _THIRD.format(n="twice") + "4th Row\u2014Work a row of sc around entire square working 3 sc in each corner.\n")
    assert worked.problems == []
    assert _counts(worked)[:3] == [12, 24, 36]


def test_a_side_of_the_square_too_many() -> None:
    worked = work_text(_SQUARE + _THIRD.format(n="4 times"))
    assert [problem.where for problem in worked.problems] == ["Row 3"]


@pytest.mark.parametrize(
    ("rows", "made"),
    [
        ("Chain 61\nRow 1: 3 dc in first chain, skip 3, 3 dc in next stitch, and repeat to end of row, 1 sc in last st.", [46]),
        ("Chain 42\nRow 1: Sc in 2nd ch from hook, ch 3, skip 3 ch, sc in next ch, and repeat to end of row.\nRow 2: Turn, 3 sc in first loop, ch 1, 3 sc in next loop, repeat across.", [11, 30]),
        ("Chain 21\nRow 1: Sc in 2nd ch from hook and in each ch across. (20)\nRow 2: Ch 1, turn, sc in first st, 2 sc in next st, repeat across.", [20, 30]),
    ],
)
def test_what_leads_in_to_a_repeat_without_a_mark(rows: str, made: list[int]) -> None:
    worked = work_text(rows + "\n")
    assert worked.problems == []
    assert _counts(worked) == made


def test_a_repeat_without_a_mark_that_does_not_come_out() -> None:
    worked = work_text("Chain 42\nRow 1: Sc in 2nd ch from hook, ch 3, skip 4 ch, sc in next ch, and repeat to end of row, sc in last ch. (17 sc)\n")
    assert [problem.where for problem in worked.problems] == ["Row 1"]


def test_a_stitch_named_on_the_chain_is_told_and_worked() -> None:
    worked = work_text("Ch 32\nRow 1: sc in 2nd ch from hook, *ch 4, sk next 4 sc, sc in next ch; rep from * across\nRow 2: Ch 1, turn, sc in first sc, *4 sc in next ch-4 sp, sc in next sc; rep from * across. (31)\n")
    assert [problem.where for problem in worked.problems] == ["Row 1"]
    assert _counts(worked) == [7, 31]


@pytest.mark.parametrize("place", ["between last dc skipped and next dc", "between the skipped dc and next dc", "in space between last skipped dc and next dc"])
def test_between_what_is_skipped_and_the_next(place: str) -> None:
    worked = work_text(f"Chain 16.\nRow 1: Dc in 4th ch from hook and in each ch across, ch 3, turn. (14)\nRow 2: Skip 1st dc, *skip 2 dc, 2 dc {place}, repeat from * 5 times in all, skip 2 dc, dc in last st. (12)\n")
    assert worked.problems == []
    between = [foot.at for s in worked.fabric.rows[1].row.stitches for foot in s.feet if foot.hold == "between"]
    assert len(set(between)) == 5


@pytest.mark.parametrize("gap", ["turn.2nd Row.", "turn. 2nd Row.", "turn.\n2nd Row."])
def test_a_first_row_told_over_two_lines_before_the_second(gap: str) -> None:
    worked = work_text(
        f"SHAWL\nWith yarn and size F hook chain (ch) 40, double crochet (d c) in 4th\nstitch (st) from hook, 1 d c in each remaining st of ch, ch 3, {gap} Skip 1st d c, 1 d c in each d c, 1 d c in 3rd st of end ch, ch 3, turn (38 d c).\n"
        "3rd Row. Skip 1st d c, 1 d c in each d c, 1 d c in 3rd st of end ch, ch 3, turn (38 d c).\n"
    )
    assert worked.problems == []
    assert _counts(worked) == [38, 38, 38]


@pytest.mark.parametrize(
    "told",
    [
        "Tall hdc (thdc):\nYarn over, insert hook in stitch and pull up a loop,\nyarn over and pull through 1 loop,\nyarn over and pull through all 3 loops on hook.",
        "Thdc:\n1. Yarn over, insert hook in stitch and pull up a loop\n2. Yarn over and pull through 1 loop\n3. Yarn over and pull through all 3 loops on hook.",
        "Thdc -\nStep 1: Yo, insert hook in stitch and pull up a loop\nStep 2: Pull first loop through the second\nStep 3: Yo, pull through the two loops.",
    ],
)
def test_a_stitch_told_move_by_move_below_its_name(told: str) -> None:
    worked = work_text(f"Special stitch\n{told}\n\nCh 16.\nRow 1: Sc in 2nd ch from hook and in each ch across. (15)\nRow 2: Ch 1, turn. 1 thdc in the first st and in each st across. (15)\n")
    assert worked.problems == []
    assert _counts(worked) == [15, 15]


def test_a_row_below_a_name_is_no_stitch() -> None:
    worked = work_text("Thdc:\nYarn over, insert hook in stitch and pull up a loop.\nCh 16.\nRow 1: Sc in 2nd ch from hook and in each ch across. (15)\nRow 2: Ch 1, turn. Thdx in each st across. (15)\n")
    assert [problem.where for problem in worked.problems] == ["Row 2"]
