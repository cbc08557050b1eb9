"""Motifs and borders as they are told round by round: a place before its bracket, what lies between petals named as it was
made, a star behind a bracket, a loop closed by a stitch, a round that comes back to its beginning chain."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import work_text

_CROSS = "Ch 5, join with sl st to form a ring.\nRnd 1: Ch 1, (5 sc in ring, ch 1) 4 times, join. (20 sc)\n"
_BEFORE = (
    "in ch-1 sp (3 dc, ch 3, 3 dc)", "in ch1 space (3dc, ch3, 3dc)", "in the corner ch-1 sp (3 dc, ch 3, 3 dc)",
    "in next sp (3 dc, ch 3, 3 dc)", "into ch-sp work (3 dc, ch 3, 3 dc)", "in ch-1 sp: (3 dc, ch 3, 3 dc)",
    "in the space [3 dc, ch 3, 3 dc]",
)  # fmt: skip


def _kinds(text: str) -> dict[str, int]:
    worked = work_text(text)
    assert worked.problems == []
    return worked.fabric.rows[-1].row.kinds()


@pytest.mark.parametrize("told", _BEFORE)
def test_a_place_alone_before_a_bracket_is_where_it_goes(told: str) -> None:
    rnd = f"Rnd 2: Ch 1, *sc in next 2 sts, hdc in next 3 sts, {told}, sc in same sp; rep from * 3 more times, join.\n"
    assert _kinds(_CROSS + rnd) == {"sc": 12, "hdc": 12, "dc": 24}


@pytest.mark.parametrize("told", [" and in ch-1 sp (3 dc, ch 3, 3 dc)", ", in ch-1 sp (3 dc, ch 3, 3 dc)"])
def test_a_list_that_names_a_stitch_twice_is_no_count(told: str) -> None:
    rnd = f"Rnd 2: Ch 1, *sc in next 2 sts, hdc in next 3 sts{told}; rep from * around, join.\n"
    assert _kinds(_CROSS + rnd) == {"sc": 8, "hdc": 12, "dc": 24}


def test_a_bracket_that_counts_stays_a_count() -> None:
    rnd = "Rnd 2: Ch 1, *sc in next 5 sts (5 sc), 2 sc in next ch-1 sp; rep from * around, join. (28 sc)\n"
    assert _kinds(_CROSS + rnd) == {"sc": 28}


def test_one_stitch_alone_in_a_place_before_it() -> None:
    rnd = "Rnd 2: Ch 1, *sc in next 5 sts, in ch-1 sp (4 dc), sc in same sp; rep from * around, join.\n"
    assert _kinds(_CROSS + rnd) == {"sc": 24, "dc": 16}


_PETALS = "Ch 6, join with sl st to form a ring.\nRnd 1: Ch 1, (2 sc in ring, ch 4, {knots}, ch 4) 6 times, join.\n"
_LYING = (
    "skip (ch 4, sl st, sl st, ch 4)", "sk [ch-4, 2 sl st, ch-4]", "miss (4ch, 1 sl st, 1 sl st, 4ch)",
    "skip next (ch 4, sl st, sl st, ch 4) group", "skipping (ch 4, 2 sl st, ch 4)",
)  # fmt: skip


@pytest.mark.parametrize("skipped", _LYING)
def test_what_is_skipped_may_be_named_as_it_was_made(skipped: str) -> None:
    made = _PETALS.format(knots="sl st in ring, sl st in ring")
    assert _kinds(f"{made}Rnd 2: Ch 1, *sc in next 2 sc, ch 2, {skipped}; rep from * around, join.\n") == {"sc": 12}


def test_what_does_not_lie_there_cannot_be_skipped() -> None:
    made = _PETALS.format(knots="sl st in ring, sl st in ring")
    for wrong in ("skip (ch 5, sl st, sl st, ch 4)", "skip (ch 4, sl st, dc, ch 4)"):
        worked = work_text(f"{made}Rnd 2: Ch 1, *sc in next 2 sc, ch 2, {wrong}; rep from * around, join.\n")
        assert [problem.where for problem in worked.problems] == ["Rnd 2"]


_LEAVES = """Magic ring.
Rnd 1: Ch 1, 12 sc in ring, join. Fasten off.
Rnd 2: Join with sl st in any sc, ch 3, 2 dc in same st, in next st (2 dc, ch 3, sl st), *in next st (sl st, ch 3, 2 dc), in next st (2 dc, ch 3, sl st); rep from * 4 more times, join. Fasten off.
"""
_ANY = ("any dc made after ch-3 sp", "any dc after a ch-3 sp", "any dc directly after any ch-3 sp")


@pytest.mark.parametrize("start", _ANY)
def test_a_round_begins_at_any_stitch_beside_a_space(start: str) -> None:
    rnd = f"Rnd 3: Join with a standing fpsc around {start}, fpsc around next 3 sts, *ch 2, skip (ch 3, sl st, sl st, ch 3), fpsc around next 4 sts; rep from * 4 more times, ch 2, join.\n"
    assert _kinds(_LEAVES + rnd) == {"FPsc": 24}


_OMIT = (
    "omit last 2 sc", "omitting the last 2 sc at the end", "leaving off last 2 sc of last repeat",
    "do not work last 2 sc", "leave out last 2 sc on last repeat",
)  # fmt: skip


@pytest.mark.parametrize("omitted", _OMIT)
def test_what_the_last_repetition_omits(omitted: str) -> None:
    rnd = "Rnd 2: Ch 1, sc in first 2 sc, *sc in next 3 sc, 3 sc in next ch-1 sp, sc in next 2 sc; rep from * 3 more times, {}, join.\n"
    assert _kinds(_CROSS + rnd.format(omitted)) == {"sc": 32}
    worked = work_text(_CROSS + rnd.format(omitted.replace("2", "3")))
    assert [problem.where for problem in worked.problems] == ["Rnd 2"]


def test_so_many_times_between_two_stars_may_be_in_all() -> None:
    rnd = "Rnd 2: Ch 1, *sc in next 5 sc, 3 sc in next ch-1 sp*, repeat ** {} times, join.\n"
    worked = work_text(_CROSS + rnd.format(4))
    assert worked.problems == [] and worked.fabric.rows[-1].row.made == 32
    assert any("4 in all" in note.says for note in worked.notes)
    assert work_text(_CROSS + rnd.format(6)).problems != []


_RING = "Ch 4, join with sl st to form a ring.\nRnd 1: Ch 1, 18 sc in ring, join. (18 sc)\n"
_STARRED = (
    "(ch 4, skip 1 st, 1 sc in next st)* repeat 8 times around", "(ch 4, skip 1 st, sc in next st)*, rep from * 7 more times",
    "[ch 4, skip 1 st, sc in next st]* 8 times", "(ch 4, skip 1 st, sc in next st)* x 8",
    "(ch 4, skip 1 st, sc in next st)* repeat this 8 times", "(ch 4, skip 1 st, sc in next st)** repeat 8 times",
    "(ch 4, skip 1 st, sc in next st)* and repeat 8 times around", "(ch 4, skip 1 st, sc in next st)*. Repeat 8 times",
)  # fmt: skip
_CLOSED = (
    "Join with ch 1 + 1 dc in first sc", "join with ch 1, dc in first sc", "Close with ch 1 and dc into first sc",
    "join with (ch 1, dc in first sc)",
)  # fmt: skip
_THERE = ("that (ch 1 + 1 dc) space of the previous round", "the (ch 1, dc) loop", "same sp", "space formed by ch 1 and dc")


@pytest.mark.parametrize("starred", _STARRED)
def test_a_star_behind_a_bracket_says_that_it_comes_again(starred: str) -> None:
    assert _kinds(f"{_RING}Rnd 2: Ch 1, sc in first sc, {starred}. {_CLOSED[0]}.\n") == {"sc": 9}
    more = starred.replace("8", "9").replace("7 more", "8 more")
    assert work_text(f"{_RING}Rnd 2: Ch 1, sc in first sc, {more}. {_CLOSED[0]}.\n").problems != []


@pytest.mark.parametrize("closed", _CLOSED)
@pytest.mark.parametrize("there", _THERE)
def test_a_loop_closed_by_a_stitch_and_worked_into(closed: str, there: str) -> None:
    rounds = f"Rnd 2: Ch 1, sc in first sc, (ch 4, skip 1 st, sc in next st)* repeat 8 times. {closed}.\n"
    rounds += f"Rnd 3: Ch 1, sc in {there}, (ch 6, sc in next sp)* repeat 8 times, ch 6, join.\n"
    worked = work_text(_RING + rounds)
    assert worked.problems == []
    assert [row.row.kinds() for row in worked.fabric.rows[1:]] == [{"sc": 9}, {"sc": 9}]


_OPEN = "Ch 5, join with sl st to form a ring.\nRnd 1: Ch 3 (counts as dc), 13 dc in ring, join. (14 dc)\nRnd 2: Ch 5 (counts as dc and ch 2), *dc in next dc, ch 2; rep from * around, join in 3rd ch. (14 dc)\n"


@pytest.mark.parametrize("count", ["", " (56 dc)"])
def test_a_round_begun_by_its_chain_fills_its_last_space(count: str) -> None:
    rnd = f"Rnd 3: Ch 3 (counts as dc), *3 dc in next ch-2 sp, dc in next dc; rep from * around, join in top of ch-3.{count}\n"
    assert _kinds(_OPEN + rnd) == {"dc": 56}


def test_a_count_that_no_last_repetition_gives_is_told() -> None:
    for count in (54, 55, 57):
        rnd = f"Rnd 3: Ch 3 (counts as dc), *3 dc in next ch-2 sp, dc in next dc; rep from * around, join. ({count} dc)\n"
        assert [problem.where for problem in work_text(_OPEN + rnd).problems] == ["Rnd 3"]


_CORNERS = ("make 1st corner, ch 5", "make corner: ch 5", "work a corner - ch 5", "make next corner ch 5")


@pytest.mark.parametrize("corner", _CORNERS)
def test_what_a_corner_is_may_follow_its_name(corner: str) -> None:
    rnd = f"Rnd 2: Ch 1, sc in first st, *{corner}, skip 2 sts, sc in next st, ch 2, skip 2 sts, sc in next st; rep from * once, {corner}, skip 2 sts, sc in next st, ch 2, skip 2 sts, join.\n"
    worked = work_text(_RING + rnd)
    assert worked.problems == [] and (worked.fabric.rows[-1].row.made, worked.fabric.rows[-1].row.chains) == (6, 21)


def test_a_corner_of_which_nothing_is_said_is_told() -> None:
    worked = work_text(_RING + "Rnd 2: Ch 1, *sc in next 3 sts, make corner; rep from * around, join.\n")
    assert any("make corner" in problem.says for problem in worked.problems)


_PAIRS = "Ch 4, join.\nRnd 1: Ch 3 (counts as dc), 9 dc in ring, join. (10 dc)\nRnd 2: Ch 3, dc in same sp, *2 dc between next sts; rep from * 8 more times, join. (20 dc)\n"
_BETWEEN = (
    "between each (2 dc) cluster from prev rnd", "between each [2 dc] group of previous round",
    "between each 2-dc group from the last round", "between the (2 dc) clusters", "between each (2 dc) group",
)  # fmt: skip


@pytest.mark.parametrize("gaps", _BETWEEN)
def test_gaps_between_groups_told_by_their_size_come_in_turn(gaps: str) -> None:
    rnd = f"Rnd 3: Ch 3, 2 dc in same sp, *3 dc {gaps}; rep from * {{}} more times, join.\n"
    assert _kinds(_PAIRS + rnd.format(8)) == {"dc": 30}
    assert all(work_text(_PAIRS + rnd.format(more)).problems for more in (7, 9))


_OVER = ("(worked over two stitches)", "(over 2 sts)", "(uses 2 sts)", "[worked across 2 stitches]", "(2 sts)")


@pytest.mark.parametrize("over", _OVER)
@pytest.mark.parametrize("name", ["Cluster", "Cluster stitch", "Bobble"])
def test_over_how_many_a_stitch_goes_is_not_its_short_name(over: str, name: str) -> None:
    text = f"""Special stitch:
{name} {over}: yarn over, insert hook in first stitch, pull up a loop, yarn over, insert hook in next stitch, pull up a loop, yarn over and draw through all 5 loops on hook
Ch 17.
Row 1: Sc in 2nd ch from hook and in each ch across. (16 sc)
Row 2: Ch 2, turn, dc in next st, *{name.lower()} over next 2 sts, ch 1; rep from * to last 2 sts, dc in last 2 sts.
Row 3: Ch 1, turn, sc in each dc, in top of each {name.lower()} and in each ch across. ({{}} sc)
"""
    assert _kinds(text.format(16)) == {"sc": 16}
    assert [problem.where for problem in work_text(text.format(15)).problems] == ["Row 3"]


def test_chains_counted_with_x_and_a_decrease_made_for_the_last() -> None:
    text = """Ch x9, turn.
Row 1: Sc in 2nd ch from hook and in each ch, then ch x1 and turn. (8)
Row 2: Sc x6, then make a dec for the last 2 stitches. Then ch x1 and turn ({}).
"""
    worked = work_text(text.format(7))
    assert worked.problems == [] and [row.row.made for row in worked.fabric.rows] == [8, 7]
    assert [problem.where for problem in work_text(text.format(6)).problems] == ["Row 2"]


@pytest.mark.parametrize("tail", ["with a long end for attaching", "with a long tail for sewing to the flower", "with an extra long tail to join it"])
def test_the_tail_left_for_later_joins_nothing(tail: str) -> None:
    worked = work_text(f"{_RING}Rnd 2: Ch 1, sc in each sc around, join, fasten off {tail}.\n")
    assert worked.problems == []
    assert [stitch.role for stitch in worked.fabric.rows[-1].row.stitches].count("join") == 1
