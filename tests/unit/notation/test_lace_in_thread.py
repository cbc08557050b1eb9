"""Rounds of thread lace as they are told in print: groups by what they are made of, repeats by what comes out, their middles
and ends. All of it is common practice, no source."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import Worked, work_text
from hookfold.charts.pattern.written.agreed.terms import settle

_RING = "Ch 8, join with sl st to form ring.\n"
_SPACES = "Ch 6, join.\nRnd 1: Ch 1, 12 sc in ring, join.\nRnd 2: Ch 7, *skip 1 sc, dc in next sc, ch 4; rep from * around, join.\n"
_PETALS = _SPACES + "Rnd 3: *(1 sc, 5 dc, 1 sc) in next sp; rep from * around, join.\n"
_GROUPS = "Ch 6, join.\nRnd 1: Ch 1, 8 sc in ring, join.\nRnd 2: Ch 3, 2 dc in same st, *ch 1, 3 dc in next sc; rep from * around, ch 1, join.\n"


def _last(worked: Worked) -> tuple[dict[str, int], int]:
    row = worked.fabric.rows[-1].row
    return {kind: number for kind, number in row.kinds().items() if kind != "sl st"}, row.chains


def _read(text: str) -> tuple[list[str], dict[str, int], int]:
    worked = work_text(text)
    return ([p.says for p in worked.problems], *_last(worked))


# -- as often as makes so many ----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "said",
    [
        "*dtr in ring, ch 3. Repeat from * until there are 12 dtr in all, counting ch-5 of ch-8 as 1 dtr; join to 5th st of ch-8",
        "*dtr in ring, ch 3; rep from * until there are 12 dtr; join to 5th st of ch-8",
        "(dtr in ring, ch 3) until you have 12 dtr counting first ch; join in 5th ch of ch-8",
        "*dtr in ring, ch 3, rep from * until there are 12 sps in all, join to 5th ch of ch-8",
        "(dtr in ring, ch 3) to make 12 sps, join in 5th ch of ch-8",
        "*d tr in ring, ch 3. Repeat from * until 11 d tr are made in ring, join to 5th ch of ch-8. (12 sps)",
    ],
)
def test_repeats_told_by_what_they_make(said: str) -> None:
    assert _read(_RING + f"Rnd 1: Ch 8, {said}.\n") == ([], {"dtr": 12}, 36)


@pytest.mark.parametrize("said", ["*ch 2, 2 dc in ring, rep from * till you have 5 groups", "(ch 2, 2 dc in ring) until there are 5 groups of dc", "*ch 2, 2 dc in ring; rep from * for 5 groups in all"])
def test_the_beginning_is_one_of_the_groups(said: str) -> None:
    assert _read(_RING + f"Rnd 1: Ch 3, dc in ring, {said}, ch 2, join.\n") == ([], {"dc": 10}, 10)


def test_so_many_times_is_no_total() -> None:
    assert _read(_RING + "Rnd 1: Ch 3, dc in ring, (ch 2, 2 dc in ring) 5 times, ch 2, join.\n") == ([], {"dc": 12}, 12)


# -- what a group is made of ------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "said",
    [
        "ch 3, dc, ch 2, 2 dc in same place (shell made), *skip 3 dc, shell in next dc; rep from * around, join",
        "ch 3, dc in same place, ch 2, 2 dc in same place (shell), *skip 3 dc, shell in next dc; rep from * around, join",
        "ch 3, dc, ch 2, 2 dc in same st, *skip 3 dc, shell of 2 dc, ch 2 and 2 dc in next dc; rep from * around, join",
        "ch 3, dc, ch 2, 2 dc in same st, *skip 3 dc, in next dc make a shell of 2 dc, ch 2 and 2 dc; rep from * around, join",
    ],
)
@pytest.mark.parametrize("begun", ["sl st to ch-2 sp, shell in shell", "sl st in next dc and in sp, starting shell", "sl st to sp, ch 3, dc, ch 2, 2 dc in same sp"])
def test_shells_told_by_what_they_are_made_of(said: str, begun: str) -> None:
    text = f"Ch 4, join.\nRnd 1: Ch 3, 11 dc in ring, join.\nRnd 2: {said}.\nRnd 3: {begun}, *ch 2, shell over next shell; rep from * around, ch 2, join.\n"
    assert _read(text) == ([], {"dc": 12}, 12)


@pytest.mark.parametrize(
    ("said", "made"),
    [
        ("*1 sc, 1 hdc, 3 dc, 1 hdc, 1 sc in next sp; rep from * around", {"sc": 12, "hdc": 12, "dc": 18}),
        ("*sc, 5 dc, sc over ch-4 loop, repeat from * around", {"sc": 12, "dc": 30}),
        ("(1 sc, 3 dc, 1 sc in next loop) 6 times", {"sc": 12, "dc": 18}),
        ("sl st in sp, *(sc, 3 dc, sc) all in same sp; rep from * in each sp", {"sc": 12, "dc": 18}),
        ("*sc in dc, 5 dc in sp; rep from * around", {"sc": 6, "dc": 30}),
    ],
)
def test_petals_told_in_one_breath(said: str, made: dict[str, int]) -> None:
    assert _read(_SPACES + f"Rnd 3: {said}, join.\n") == ([], made, 0)


@pytest.mark.parametrize("legs", ["tr next 3 sc tog", "tr3tog over next 3 sc", "tr over next 3 sc together"])
def test_stitches_told_together(legs: str) -> None:
    kinds = _read(f"Ch 4, join.\nRnd 1: Ch 1, 12 sc in ring, join.\nRnd 2: Ch 4, tr2tog over next 2 sc, ch 5, ({legs}, ch 5) 3 times, join.\n")
    assert (kinds[0], kinds[2]) == ([], 20)


@pytest.mark.parametrize("made", ["(pc st)", "(popcorn made)", "(1st pc st)"])
def test_a_popcorn_is_named_and_not_made_again(made: str) -> None:
    first = f"Ch 3, 4 dc in ring, drop loop from hook, insert hook in top of ch-3 and draw loop through, ch 1 to fasten {made}"
    assert _read(_RING + f"Rnd 1: {first}, (ch 3, popcorn of 5 dc in ring) 3 times, ch 3, join.\n") == ([], {"popcorn": 4}, 12)


# -- the last repetition ----------------------------------------------------------------------------------------------

_LEAVES = "Ch 6, join.\nRnd 1: Ch 3, 2 dc in ring, (ch 4, 3 dc in ring) 3 times, ch 4, join.\nRnd 2: Ch 1, sc in same dc, skip 1 dc, sc in next dc, *6 tr in next sp, sc in next dc, skip 1 dc, sc in next dc; rep from * around, 6 tr in last sp, join.\n"


@pytest.mark.parametrize("end", ["ending last repeat with ch 3, join", "ending with ch 3, join", "ending ch 3, sl st in first sc"])
def test_an_ending_leaves_nothing_out(end: str) -> None:
    text = _LEAVES + f"Rnd 3: Ch 1, sc in first sc, ch 3, sc in next sc, *ch 3, sc in 1st tr, (ch 3, sc in next tr) 5 times, ch 3, sc in next sc, ch 3, sc in next sc; rep from * around, {end}.\n"
    worked = work_text(text)
    feet = {f.at for s in worked.fabric.rows[-1].row.stitches for f in s.feet if f.back == 1 and s.role == "stitch"}
    below = worked.fabric.rows[-2].row.stitches
    assert worked.problems == []
    assert {at for at, s in enumerate(below) if s.kind == "tr"} <= feet


@pytest.mark.parametrize("end", ["rep from * around, ending with ch 9, join", "rep from * around, join", "repeat from * to last petal, ch 9, join", "rep from * 4 more times, ch 9, join"])
@pytest.mark.parametrize("begun", ["Sl st to center dc of first petal", "Sl st to center dc of petal", "Sl st to center of petal", "Sl st in next 3 sts"])
def test_rounds_from_middle_to_middle(begun: str, end: str) -> None:
    assert _read(_PETALS + f"Rnd 4: {begun}, ch 1, sc in same dc, *ch 9, sc in center dc of next petal; {end}.\n") == ([], {"sc": 6}, 54)


def test_a_slip_stitch_in_the_last_loop_is_work() -> None:
    text = _SPACES + "Rnd 3: Sl st in sp, ch 1, sc in same sp, *ch 5, sc in next sp; rep from * to last sp, ch 5, sc in last sp, ch 5, join.\n"
    assert _read(text) == ([], {"sc": 6}, 30)


def test_a_repeat_that_is_not_sent_back_to_by_name() -> None:
    text = _GROUPS + "Rnd 3: Sl st in next dc, ch 1, sc in same dc, *(ch 4, sc in next sp) once, ch 4, sc in center dc of next group; repeat around, ending with ch 4, sc in last sp, ch 4, join.\n"
    assert _read(text) == ([], {"sc": 16}, 64)


@pytest.mark.parametrize("end", ["ch 3, 2 dc in first sp", "ending ch 3, 2 dc in first sp", "ch 3, 2 dc in same sp as first dc"])
def test_the_first_space_is_that_which_the_round_began_in(end: str) -> None:
    text = "Ch 6, join.\nRnd 1: Ch 3, dc in ring, *ch 3, 2 dc in ring; rep from * 6 times, ch 1, hdc in top of ch-3.\nRnd 2: Ch 3, dc in sp under hdc, *ch 3, in next sp work 2 dc, ch 3, 2 dc; rep from * around, "
    assert _read(f"{text}{end}, ch 1, hdc in top of ch-3.\n") == ([], {"dc": 32}, 46)


@pytest.mark.parametrize("shell", ["2 dc, ch 2 and 2 dc", "2 dc, ch 2, 2 dc"])
@pytest.mark.parametrize("closed", ["ch 3, dc in first sc", "ch 3, dc in top of first sc"])
def test_the_first_group_is_the_last_of_the_repeats(shell: str, closed: str) -> None:
    text = (
        "Ch 6, join.\nRnd 1: Ch 1, 12 sc in ring, join.\n"
        f"Rnd 2: Ch 1, sc in first sc, *ch 1, sc in next sc, ch 1, sc in next sc, ch 6, sc in next sc; rep from * 2 more times, ch 1, sc in next sc, ch 1, sc in next sc, {closed}.\n"
        f"Rnd 3: Ch 3, in loop just formed make dc, ch 2 and 2 dc; *(ch 3, sc in next ch-1 sp) twice; ch 3, in next loop make {shell}. Repeat from * around. Join.\n"
    )
    assert _read(text) == ([], {"dc": 16, "sc": 8}, 44)


# -- the group under way ----------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "said",
    [
        "Ch 3, dc in next dc, 2 dc in next dc, *ch 1, dc in each of first 2 dc, 2 dc in last dc of group; rep from * around, ch 1, join",
        "Ch 3, dc in next dc, 2 dc in next dc, *ch 1, dc in first dc of next group, dc in next dc, 2 dc in last dc; rep from * around, ch 1, join",
        "Ch 3, dc in same place, *dc in next dc, dc in last dc of this group, ch 1, 2 dc in first dc of next group; rep from * around, ch 1, join",
        "Ch 3, dc in same place, dc in next 2 dc, *ch 1, 2 dc in first dc of next group, dc in each remaining dc of group; rep from * around, ch 1, join",
    ],
)
def test_stitches_of_the_group_that_work_has_gone_into(said: str) -> None:
    assert _read(_GROUPS + f"Rnd 3: {said}.\n") == ([], {"dc": 32}, 8)


def test_past_the_first_of_a_group_to_its_middle() -> None:
    assert _read(_GROUPS + "Rnd 3: Sl st in next dc, ch 1, sc in same dc, *5 dc in ch-1 sp, sc in center dc; rep from * around, ending with 5 dc in last sp, join.\n") == ([], {"sc": 8, "dc": 40}, 0)


def test_stitches_before_a_middle_are_not_left_in_silence() -> None:
    worked = work_text(_GROUPS + "Rnd 3: Ch 1, sc in first dc, 3 sc in center dc, *sc in next dc; rep from * around, join. (40 sc)\n")
    assert [p.where for p in worked.problems] == ["Rnd 3"]


def test_loops_that_are_filled_are_known_by_what_is_in_them() -> None:
    text = _SPACES + "Rnd 3: 9 sc in each loop, join.\nRnd 4: Sl st to 5th sc of first loop, ch 1, sc in same st, *ch 9, sc in 5th sc of next loop; rep from * around, ch 9, join.\n"
    assert _read(text) == ([], {"sc": 6}, 54)


def test_a_shell_begun_in_the_space_slipped_into() -> None:
    text = _SPACES + "Rnd 3: Sl st in sp, ch 3, (3 dc, ch 3, 4 dc) in same sp, (4 dc, ch 3, 4 dc) in each sp around, join.\nRnd 4: Sl st in next 3 dc and in ch-3 sp, (ch 3, 2 dc, ch 3, 3 dc) in sp, ch 4, *(3 dc, ch 3, 3 dc) in ch-3 sp of next shell, ch 4; rep from * around, join.\n"
    assert _read(text) == ([], {"dc": 36}, 42)


@pytest.mark.parametrize("to", ["Sl st to next p", "Sl st in next 2 sc and in p"])
def test_loops_that_stand_as_picots(to: str) -> None:
    text = _SPACES + f"Rnd 3: (3 sc, ch 3, 3 sc) in each sp around, join.\nRnd 4: {to}, ch 8, (tr in next p, ch 4) around, join in 4th ch.\n"
    assert _read(text)[1:] == ({"tr": 6}, 24)


def test_where_no_loop_is_there_is_no_picot() -> None:
    assert [p.where for p in work_text(_SPACES + "Rnd 3: 6 sc in each sp around, join.\nRnd 4: Ch 1, *sc in next picot, ch 5; rep from * around, join.\n").problems] == ["Rnd 4"]


# -- how a round begins -----------------------------------------------------------------------------------------------


@pytest.mark.parametrize("ring", ["Make ring by wrapping thread around finger; ch 3", "Wind thread 8 times around finger, slip off; ch 3", "Form a loop by winding thread round finger, ch 3"])
def test_rings_wound_about_a_finger(ring: str) -> None:
    assert _read(f"Rnd 1: {ring}, 15 dc in ring, join.\n") == ([], {"dc": 16}, 0)


@pytest.mark.parametrize("said", ["over bar of hdc just made", "under bar of hdc just made", "over hdc just made"])
def test_a_round_begins_over_the_stitch_that_closed_the_last(said: str) -> None:
    text = f"Ch 5, join.\nRnd 1: Ch 3, 17 dc in ring, join.\nRnd 2: Ch 1, sc in same st, (ch 3, skip 2 dc, sc in next dc) 5 times, ch 1, hdc in first sc.\nRnd 3: Ch 3, 2 dc {said}, *3 dc in next loop; rep from * around, join.\n"
    assert _read(text) == ([], {"dc": 18}, 0)


@pytest.mark.parametrize("said", ["Ch 3 for a dc", "Ch 3 for first dc", "Ch 3 for 1 dc"])
def test_what_a_chain_is_for(said: str) -> None:
    assert _read(_RING + f"Rnd 1: {said}, 11 dc in ring, join.\n") == ([], {"dc": 12}, 0)


def test_the_stop_of_an_abbreviation_is_no_end() -> None:
    text = "Ch 4, join.\n1st rnd. 8 s.c. in ring, sl. st. in 1st s.c.\n2nd rnd. Ch. 5, * d.c. in next s.c., ch. 2. Repeat from * 6 times more, sl. st. in 3rd st. of ch. 5.\n"
    assert _read(text) == ([], {"dc": 8}, 16)


def test_rounds_headed_rd_in_one_line() -> None:
    assert _read("Small mat. Ch 4, join. RD 1: ch 3, 11 dc in ring. RD 2: 2 dc in each st.") == ([], {"dc": 24}, 0)


@pytest.mark.parametrize("text", ["8 ch, ss into 1st ch. 1st rnd: 3 ch, 15 tr in ring, ss to top of 3 ch.", "5 ch, ss. 1st rnd: 3 ch, 1 tr, (3 ch, 2 tr) 5 times in ring, 3 ch, ss to 3rd of first 3 ch.", "8 ch, ss to form ring. 1st rnd: 5 ch, (1 tr, 2 ch) 7 times into ring, ss to 3rd of 5 ch."])
def test_trebles_as_high_as_three_chains_are_british(text: str) -> None:
    assert settle(text).terms == "UK"


@pytest.mark.parametrize("text", ["ch 8, join. rnd 1: ch 4, 15 tr in ring, join to top of ch-4.", "ch 8, join. rnd 1: ch 6, (tr, ch 2) 7 times in ring, join in 4th ch of ch-6."])
def test_trebles_on_four_chains_are_not(text: str) -> None:
    assert settle(text).terms == "US"
