"""What contradicts what a row says of itself is told at that row, and a reading that only a count asks for is said."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.model.rows.working import Worked

RING = "Ch 6, join with sl st to form a ring.\n"
MOTIF = RING + "Rnd 1: Ch 3 (counts as dc), 3 dc in ring, ch 2, (4 dc in ring, ch 2) 4 times, join in top of ch-3. (20 dc)\n"
CORNERS = (
    "Rnd 2: Sl st in next N dc and in ch-2 sp, ch 3 (counts as dc), 4 dc in same sp, *ch 1, 5 dc in next ch-2 sp; rep from * "
    "around, ch 1, join in top of ch-3. (25 dc)\n"
)


def _told(worked: Worked) -> list[tuple[str, str]]:
    return [(problem.where, problem.says) for problem in worked.problems]


@pytest.mark.parametrize(
    ("right", "wrong", "says"),
    [
        (RING + "Rnd 1: Ch 3 (counts as dc), 14 dc in ring, join in 3rd ch of ch-3. (15 dc)\n", ("3rd", "2nd"), "joined in"),
        (RING + "Rnd 1: Ch 3 (counts as 1 dc), 14 dc in ring, join. (15 dc)\n", ("1 dc", "2 dc"), "count as 2 dc"),
        ("Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20 sc)\n", ("2nd", "1st"), ""),
        (MOTIF + CORNERS.replace("N", "3"), ("next 3 dc", "next 2 dc"), "1 stitch of Rnd 1 is left"),
        (MOTIF + CORNERS.replace("N", "3"), ("next 3 dc", "next 4 dc"), "3 stitches of Rnd 1 are left"),
        ("Ch 19.\nRow 1: Sc in 2nd ch from hook and in each ch across, ch 1, turn. (18)\n", ("(18)", "(19)"), "count says"),
        (
            "Ch 27.\nRow 1: Dc in 4th ch from hook and in each ch across. (25 dc)\n"
            "Row 2: Ch 3, turn, dc in next dc and in each dc across. (25 dc)\n",
            ("(25 dc)", "(24 dc)"),
            "the row makes 25 dc; the count says 24",
        ),
        (
            "Over 9 sc.\nRow 1: Ch 1, turn, *sc in each of next 2 sts, 2 sc in next st; rep from * 2 more times. (12 sc)\n",
            ("sc in each", "2 sc in each"),
            "the row makes 18 sc; the count says 12",
        ),
        ("Rnd 1: 9 sc. (9)\nRnd 2: 2 sc in each st around. (18)\n", ("(9)", "(8)"), "count says 8"),
    ],
)
def test_it_is_told_at_its_row_alone(right: str, wrong: tuple[str, str], says: str) -> None:
    assert _told(work_text(right)) == []
    told = _told(work_text(right.replace(*wrong, 1)))
    row = next(line.split(":")[0] for line in right.split("\n") if wrong[0] in line)
    assert [where for where, _ in told] == [row], told
    assert says in told[0][1]


def test_only_a_count_that_asks_for_an_unusual_beginning_is_remarked_on() -> None:
    text = RING + "Rnd 1: Ch 3, N dc in ring, join with sl st. (15 dc)\n"
    assert work_text(text.replace("N", "14")).notes == []
    worked = work_text(text.replace("N", "15"))
    assert worked.problems == []
    assert [note.where for note in worked.notes if "as its count asks; usually it is dc" in note.says] == ["Rnd 1"]


def test_an_end_that_is_told_for_the_last_repeat_is_not_passed_over() -> None:
    row = "Row 1: Ch 1, *sc in next 2 sts**, 3 sc in next st; rep from * across, ending last rep at **, sc in last st. (S sc)\n"
    assert _told(work_text("Over 12 sc.\n" + row.replace("S", "18"))) == []
    assert [where for where, _ in _told(work_text("Over 13 sc.\n" + row.replace("S", "21")))] == ["Row 1"]


def test_a_count_of_corner_spaces_heeds_their_size() -> None:
    row = MOTIF.replace("(20 dc)", "(20 dc, 5 corner ch-2 sps)")
    assert _told(work_text(row)) == []
    assert [where for where, _ in _told(work_text(row.replace("corner ch-2", "corner ch-3")))] == ["Rnd 1"]


FANS = (
    "Ch 26.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (25 sc)\n"
    "Row 2: Ch 1, sc in first sc, *sk next 2 sc, 5 dc in next sc, sk next 2 sc, sc in next sc; rep from * across, turn. (4 fans)\n"
    "Row 3: Ch 3 (counts as dc), 2 dc in first sc, *sk next 2 dc, sc in center dc of next fan, sk next 2 dc, 5 dc in next sc; rep "
    "from * 2 more times, sk next 2 dc, sc in center dc of next fan, sk next 2 dc, 3 dc in last sc, turn.\n"
)
PAIRS = RING + (
    "Rnd 1: Ch 3 (counts as dc), 19 dc in ring, join with sl st in top of ch-3. (20 dc)\n"
    "Rnd 2: Ch 5 (counts as dc and ch 2), sk next dc, *dc in next dc, ch 2, sk next dc; rep from * around, join with sl st in 3rd "
    "ch of beg ch-5. (10 dc, 10 ch-2 sps)\n"
    "Rnd 3: Ch 1, sc in same st, *ch 4, sk next ch-2 sp, sc in next dc; rep from * to last ch-2 sp, ch 4, sk last ch-2 sp, join with "
    "sl st in first sc. (10 sc)\n"
)
SLOPE = (
    "Ch 17.\nRow 1: Dc in 4th ch from hook and in each ch across, turn. (15 dc)\n"
    "Row 2: Ch 3 (counts as dc), dc in next dc and in each dc across, working last dc in top of beg ch-3, turn. (15 dc)\n"
    "Row 3: Ch 3 (counts as dc), dc in next dc and in each dc across, working last dc in top of beg ch-3. (15 dc)\n"
)


@pytest.mark.parametrize(
    ("right", "wrong", "says"),
    [
        (FANS, ("sk next 2 dc, 3 dc in last sc", "sk next dc, 3 dc in last sc"), "left before the last sc"),
        (FANS, ("(4 fans)", "(5 fans)"), "count says 5"),
        (PAIRS, ("sk last ch-2 sp, join", "sk last dc, ch 1, join"), ""),
        (SLOPE, ("top of beg ch-3. (15 dc)", "top of beg ch-2. (15 dc)"), "begins with ch 3, not ch 2"),
    ],
)
def test_what_is_skipped_counted_or_named_at_an_end_is_held_to(right: str, wrong: tuple[str, str], says: str) -> None:
    assert _told(work_text(right)) == []
    told = _told(work_text(right.replace(*wrong, 1)))
    row = next(line.split(":")[0] for line in right.split("\n") if wrong[0] in line)
    assert [where for where, _ in told] == [row], told
    assert says in told[0][1]


def test_a_beginning_chain_of_another_number_is_told_where_it_is_made() -> None:
    text = SLOPE.replace("Row 2: Ch 3", "Row 2: Ch 4")
    worked = work_text(text)
    assert [(where, "counted as dc" in says) for where, says in _told(worked)] == [("Row 2", True)]
    assert any("has 4 ch for the dc" in note.says for note in worked.notes)


def test_slip_stitches_said_to_begin_in_the_first_stitch_reach_their_space() -> None:
    text = (
        "Ch 8.\nRow 1: Dc in 4th ch from hook, (dc, ch 2, dc) in next ch, dc in last 3 ch, turn. (7 dc)\n"
        "Row 2: Sl st in first 4 dc and in next ch-2 sp, ch 3, 4 dc in same sp, turn. (5 dc)\n"
    )
    assert _told(work_text(text)) == []
    told = _told(work_text(text.replace("first 4 dc", "first 3 dc")))
    assert [where for where, _ in told] == ["Row 2"]


def test_after_a_wrong_count_the_next_row_is_not_told_of_its_slip_stitches() -> None:
    text = MOTIF + CORNERS.replace("N", "3")
    told = _told(work_text(text.replace("3 dc in ring, ch 2, (4", "4 dc in ring, ch 2, (4", 1)))
    assert [where for where, _ in told] == ["Rnd 1"], told


WAVES = (
    "Ch 26.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (25 sc)\n"
    "Row 2: Ch 1, sc in first sc, *sk next 2 sc, N dc in next sc, sk next 2 sc, sc in next sc; rep from * across, turn. (4 shells, 5 "
    "sc)\n"
    "Row 3: Ch 3 (counts as dc), 2 dc in first sc, *sk next 2 dc, sc in next dc, sk next 2 dc, 5 dc in next sc; rep from * to last "
    "shell, sk next 2 dc, sc in next dc, sk next 2 dc, 3 dc in last sc. (4 sc)\n"
)


def test_a_number_that_the_next_row_contradicts_twice_is_told_where_it_stands() -> None:
    assert _told(work_text(WAVES.replace("N", "5"))) == []
    told = _told(work_text(WAVES.replace("N", "6")))
    assert [where for where, _ in told] == ["Row 2"], told
    assert "with 5 for 6" in told[0][1]


def test_a_number_of_the_row_itself_is_told_there() -> None:
    told = _told(work_text(WAVES.replace("N", "5").replace("sk next 2 dc, sc in next dc", "sk next dc, sc in next dc", 1)))
    assert [where for where, _ in told] == ["Row 3"], told


@pytest.mark.parametrize("skipped", ["2", "4"])
def test_chains_of_a_run_that_are_left_are_told(skipped: str) -> None:
    text = (
        "Ch 6, join with sl st to form a ring.\n"
        "Rnd 1: Ch 3 (counts as dc), dc in ring, ch 5, (2 dc in ring, ch 5) 3 times, join with sl st in top of ch-3. (8 dc, 4 ch-5 "
        "sps)\n"
        "Rnd 2: Ch 3 (counts as dc), dc in next dc, dc in next ch, ch 3, sk next N ch, *dc in next ch, dc in next 2 dc, dc in next "
        "ch, ch 3, sk next 3 ch; rep from * 2 more times, dc in last ch, join with sl st in top of ch-3. (16 dc, 4 ch-3 sps)\n"
    )
    assert _told(work_text(text.replace("N", "3"))) == []
    assert [where for where, _ in _told(work_text(text.replace("N", skipped)))] == ["Rnd 2"]


def test_gaps_lie_between_groups_that_are_there() -> None:
    text = RING + (
        "Rnd 1: Ch 3 (counts as dc), 3 dc in ring, ch 2, (4 dc in ring, ch 2) 3 times, join with sl st in top of ch-3. (16 dc)\n"
        "Rnd 2: Join yarn in any ch-2 sp, ch 3 (counts as dc), (3 dc, ch 2, 4 dc) in same sp, (4 dc, ch 2, 4 dc) in each of next 3 "
        "ch-2 sps, join with sl st in top of ch-3. (32 dc)\n"
        "Rnd 3: Join yarn in any ch-2 sp, ch 3 (counts as dc), (3 dc, ch 2, 4 dc) in same sp, 4 dc in next sp between 4-dc groups, "
        "[(4 dc, ch 2, 4 dc) in next ch-2 sp, 4 dc in next sp between 4-dc groups] 3 times, join with sl st in top of ch-3. (48 dc)\n"
    )
    assert _told(work_text(text)) == []
    told = _told(work_text(text.replace("between 4-dc groups, [", "between 5-dc groups, [")))
    assert [where for where, _ in told] == ["Rnd 3"]


def test_a_chain_unlike_its_like_is_told_where_the_next_row_misses_it() -> None:
    text = RING + (
        "Rnd 1: Ch 3 (counts as dc), 4 dc in ring, ch 3, (5 dc in ring, ch 3) 3 times, join with sl st in top of ch-3. (20 dc)\n"
        "Rnd 2: Sl st in next 4 dc and in next ch-3 sp, ch 1, (sc, ch 2, sc) in same sp, ch 7, *(sc, ch 2, sc) in next ch-3 sp, ch 7; "
        "rep from * 2 more times, join with sl st in first sc. (8 sc)\n"
    )
    assert _told(work_text(text)) == []
    told = _told(work_text(text.replace("(5 dc in ring, ch 3)", "5 dc in ring, ch 4, (5 dc in ring, ch 3)").replace("3 times", "twice")))
    assert [where for where, _ in told] == ["Rnd 1"], told
    told = _told(work_text(text.replace("next ch-3 sp, ch 7", "next ch-4 sp, ch 7")))
    assert [where for where, _ in told] == ["Rnd 2"], told


def test_stitches_over_a_chain_leave_none_of_it() -> None:
    text = (
        "Over 20 sc.\nRnd 1: Sc 6, ch 5, skip 4 stitches, sc 10. (16 sc)\n"
        "Rnd 2: Sc 6, 5 sc over the chain, sc 10. (21)\n"
    )
    assert _told(work_text(text)) == []
