"""Lace as old booklets tell it: loops told by their chains alone, shells named in passing and larger shells over them, chains
that are a part of a shell, rounds called rows, repeats that end in the midst, picots on their own chain, and old names."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import Worked, work_text

#: Sixteen dc, then eight spaces between groups of two.
_PAIRS = (
    "Ch 6, join.\n1st rnd: Ch 3, 15 dc in ring, join.\n"
    "2nd rnd: Ch 3, dc in same place, *ch 2, skip 1 dc, 2 dc in next dc; repeat from * 6 times, ch 2, join.\n"
)
#: Six groups of two dc with two chains between, called a row.
_GROUPS = "Ch 5, join.\n1st row. Ch 3, 1 dc in ring, ch 2, * 2 dc in ring, ch 2, repeat from * 4 times, join with sl st.\n"
#: A row of nineteen sc.
_ROW = "Ch 20.\n1st row: Sc in 2nd ch from hook and in each ch across, turn.\n"


def _made(worked: Worked) -> list[int]:
    return [row.row.made for row in worked.fabric.rows]


def _says(worked: Worked) -> tuple[list[str], list[int]]:
    return [p.says for p in worked.problems], _made(worked)


# -- a chain that is a part of a group --------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "said",
    ["counts as part of shell", "always counts as part of 1st shell", "forms part of the fan", "this is part of the shell", "part of first shell", "included as part of shell"],
)
def test_a_chain_that_is_part_of_a_group_is_a_stitch(said: str) -> None:
    text = _PAIRS + f"3rd rnd: Sl st to next sp, ch 3 ({said}), dc in same sp, ch 2, 2 dc in same sp, *2 dc, ch 2, 2 dc in next sp; repeat from * around, join.\n"
    assert _says(work_text(text)) == ([], [16, 16, 32])


def test_a_chain_that_is_part_of_a_cluster_is_none() -> None:
    text = "Cluster (cl): 3 dc held back and drawn together.\nCh 6, join.\nRnd 1: Ch 3 (counts as part of cluster), cl in ring, (ch 2, cl in ring) 7 times, ch 2, join.\n"
    assert _made(work_text(text)) == [8]


@pytest.mark.parametrize("name", ["(a starting shell)", "(beginning shell)", "(first shell made)", "(a beg shell)"])
def test_a_first_group_is_named_with_the_chain_that_lifts_it(name: str) -> None:
    called = name.strip("()").removeprefix("a ").removesuffix(" made")
    text = _PAIRS + (
        f"3rd rnd: Sl st to next sp, ch 3, in same sp make dc, ch 2 and 2 dc {name}. In each sp around make 2 dc, ch 2 and 2 dc (shell). Join.\n"
        f"4th rnd: Sl st in next dc and in next sp, ch 3 and make a {called} in same sp, (ch 1, shell over next shell) 7 times; ch 1. Join.\n"
    )
    assert _says(work_text(text)) == ([], [16, 16, 32, 32])


def test_the_chain_behind_a_turning_chain_and_slip_stitches_is_the_stitch() -> None:
    text = (
        "Ch 22.\n1st row: Sc in 10th ch from hook, * ch 5, skip 3 ch, sc in next ch; repeat from * across, ch 1, turn.\n"
        "2nd row: Sl st into loop, ch 3, dc in same sp, ch 2, 2 dc in same sp, * ch 3, 2 dc, ch 2, 2 dc in next loop; repeat from * across, ch 1, turn.\n"
    )
    assert _says(work_text(text)) == ([], [4, 16])


@pytest.mark.parametrize("said", ["always start 1st shell with ch 3", "always start first shell with ch 3 for 1st dc"])
def test_what_the_first_of_a_group_starts_with(said: str) -> None:
    text = "Shell: 2 dc, ch 2, 2 dc in same place.\n" + _PAIRS + f"3rd rnd: Sl st in next dc and in sp, {said}, shell in same sp, * shell in next sp, repeat from * 6 times, join.\n"
    assert _says(work_text(text)) == ([], [16, 16, 32])


# -- groups named in passing ------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", ["(shell)", "(shell made)", "(a shell)"])
def test_a_shell_whose_halves_have_a_stitch_each(name: str) -> None:
    text = _ROW + (
        f"2nd row: Ch 3, dc in next sc, *skip 2 sc, 2 dc in next sc, ch 1, 2 dc in next sc {name}; repeat from * 3 times, dc in last sc, turn.\n"
        "3rd row: Ch 3, *shell in shell; repeat from * 3 times, dc in next dc, dc in top of ch 3.\n"
    )
    assert _says(work_text(text)) == ([], [19, 19, 19])


_SHELLS = "Ch 8. Join.\n1st rnd: Ch 4, tr in ring, ch 2, 2 tr in ring, * ch 5, in ring make 2 tr, ch 2 and 2 tr (shell). Repeat from * 4 times, ch 5. Join.\n"
_LARGER = (
    "2nd rnd: Sl st in next tr and in sp, ch 4, in same sp make 2 tr, ch 3 and 3 tr (shell over shell), * ch 3, 5 tr in center ch of ch-5, ch 3, "
    "in sp of next shell make 3 tr, ch 3 and 3 tr (shell made over shell). Repeat from * around. Join.\n"
)


def test_a_larger_shell_over_a_shell_is_the_shell_from_there_on() -> None:
    text = _SHELLS + _LARGER + "3rd rnd: * Shell over shell, ch 3, (tr in next tr, ch 1) 4 times; tr in next tr, ch 3. Repeat from * around. Join.\n"
    assert _says(work_text(text)) == ([], [24, 66, 66])


def test_half_a_fan_and_half_a_shell_are_no_shell() -> None:
    text = _SHELLS + _LARGER + "3rd rnd: * Shell over next shell, ch 3. Repeat from * around. Join.\n"
    assert _made(work_text(text)) == [24, 66, 36]


# -- loops ------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("there", ["over ch 2", "over ch-2", "over the ch", "over the 2 ch", "over 2 ch", "in ch-2", "under the 2 ch", "under ch", "into ch 2"])
def test_a_loop_told_by_its_chains(there: str) -> None:
    text = _GROUPS + f"2nd row. Ch 3, 1 dc in dc, * ch 2, 2 dc {there}, ch 2, 1 dc in each of next 2 dc, repeat from * 4 times, ch 2, 2 dc {there}, ch 2, join.\n"
    assert _says(work_text(text)) == ([], [12, 24])


_UNITED = "Make a chain of 6 stitches, and unite it.\nRound 1: * 1 dc into the ring, 4 ch, repeat from * 5 times more.\n"


@pytest.mark.parametrize("again", ["repeat.", "and repeat.", "repeat all round.", "repeat the same all round.", "repeat to the end of the round."])
def test_a_row_that_is_told_once_and_repeated(again: str) -> None:
    assert _says(work_text(_UNITED + f"Round 2: 5 dc into the 4 ch, {again}\nRound 3: 1 dc, 5 ch, miss 2 dc, {again}\n")) == ([], [6, 30, 10])
    assert _says(work_text(_UNITED + f"Round 2: 1 dc into the 4 ch, 5 ch, {again}\n")) == ([], [6, 6])


def test_each_so_many_chains_are_loops_for_several_stitches() -> None:
    assert _says(work_text(_UNITED + "Round 2: 7 dc into each 4 ch.\n")) == ([], [6, 42])


@pytest.mark.parametrize("said", ["sc in each of 3 ch", "sc in next 3 ch", "sc in 3 ch"])
def test_a_stitch_in_each_of_so_many_chains(said: str) -> None:
    text = f"Ch 5, join.\n1st rnd. Ch 1, *sc in ring, ch 3, repeat from * 5 times, join.\n2nd rnd: Ch 1, *sc in sc, {said}; repeat from * around, join.\n"
    assert _says(work_text(text)) == ([], [6, 24])


def test_a_chain_named_by_another_number_is_told() -> None:
    assert [p.where for p in work_text(_GROUPS + "2nd row. Ch 3, 1 dc in dc, * ch 2, 2 dc over ch-7, ch 2, 1 dc in each of next 2 dc, repeat from *.\n").problems] == ["Row 2"]


def test_a_space_between_stitches_of_another_size_is_told_and_worked() -> None:
    text = _PAIRS + "3rd rnd: Sl st in next dc and in sp, ch 3, 2 dc in same sp, * ch 2, 3 dc in next ch-5 sp between dc-groups. Repeat from * around, ch 2. Join.\n"
    worked = work_text(text)
    assert ([p.where for p in worked.problems], _made(worked)) == (["Rnd 3"], [16, 16, 24])


@pytest.mark.parametrize("climb", ["3 sl st up the first loop", "3 sl st up the 3 first of the chain in last round", "3 sl st up the side of the loop", "sl st up the first 3 ch"])
def test_slip_stitches_up_a_loop(climb: str) -> None:
    text = f"Ch 8, join.\nRound 1: * 1 sc in ring, ch 7, repeat from * 7 times more, join.\nRound 2: {climb}, * 3 dc in loop of 7 ch, ch 1, repeat from *, join.\n"
    assert _says(work_text(text)) == ([], [8, 24])


@pytest.mark.parametrize("said", ["dc in first st of ch", "dc in 1st ch made", "dc in 4th ch from hook", "dc in the first of these ch"])
def test_a_picot_on_its_own_chain(said: str) -> None:
    text = _GROUPS + (
        f"2nd row. Ch 3, 1 dc in dc, * ch 5, sc in next sp, ch 4, {said}, sc in same sp, ch 5, 1 dc in each of next 2 dc, repeat from * 4 times, "
        f"ch 5, sc in next sp, ch 4, {said}, sc in same sp, ch 5, join.\n"
    )
    assert _says(work_text(text)) == ([], [12, 30])


@pytest.mark.parametrize("said", ["next single dc", "the single d c", "next lone dc", "next odd dc"])
def test_a_stitch_that_stands_alone(said: str) -> None:
    text = _ROW + (
        "2nd row: Ch 3, dc in next sc, *ch 2, skip 2 sc, dc in next sc, ch 2, skip 2 sc, 2 dc in next sc; repeat from * once, ch 2, skip 2 sc, dc in each of last 3 sc, turn.\n"
        f"3rd row: Ch 3, dc in next dc, *ch 2, dc in {said}, ch 2, dc in each of next 2 dc; repeat from * once, ch 2, dc in each of last 3 dc.\n"
    )
    assert _says(work_text(text)) == ([], [19, 11, 11])


# -- rounds and repeats -----------------------------------------------------------------------------------------------


def test_rows_of_a_joined_ring_are_rounds_whose_last_repeat_breaks_off() -> None:
    text = _GROUPS + (
        "2nd row. Ch 3, 1 dc in dc, ch 3, * 2 dc over ch 2, ch 3, 1 dc in each of next 2 dc, ch 3, repeat from *.\n"
        "3rd row. Ch 3, 1 dc in dc, * ch 3, 1 dc over ch 3, 1 dc in each of next 2 dc, 1 dc over ch 3, ch 3, 1 dc in each of 2 dc, repeat from *.\n"
    )
    assert _says(work_text(text)) == ([], [12, 24, 36])


def test_rows_that_turn_in_a_ring_are_rows() -> None:
    worked = work_text(_GROUPS + "2nd row. Ch 1, turn, 1 sc in each dc. \n")
    assert not worked.fabric.rows[1].is_round


def test_an_ending_within_what_a_repeat_works_twice() -> None:
    text = (
        "Ch 10, join.\n1st rnd: Ch 6, (dc in ring, ch 3) 11 times, join to 3rd ch.\n2nd rnd: Ch 3, 3 dc in next sp, * dc in next dc, ch 9, (dc in next dc, 3 dc in next sp) twice. "
        "Repeat from * around, ending with 3 dc in last sp. Join.\n"
    )
    assert _says(work_text(text)) == ([], [12, 36])


def test_an_ending_keeps_the_number_of_its_stitches() -> None:
    text = _GROUPS + "2nd row. Ch 3, 1 dc in dc, * ch 3, 2 dc in sp, ch 3, 1 dc in each of next 2 dc. Repeat from * around, ending with ch 3, 2 dc in sp, ch 3. Join.\n"
    assert _says(work_text(text)) == ([], [12, 24])


@pytest.mark.parametrize("again", ["Repeat \u00a3rom * around.", "Repeat from'\" around.", "Repeat from * around - end to corr.", "Repear from * around."])
def test_a_repeat_that_was_misprinted(again: str) -> None:
    assert _says(work_text(_GROUPS + f"2nd row. Ch 3, 1 dc in dc, ch 4, * 1 dc in each of next 2 dc, ch 4. {again} Join.\n")) == ([], [12, 12])


def test_a_speck_behind_a_comma_and_a_number_in_a_bracket() -> None:
    text = "Fan: 2 dc, ch 2, 2 dc in same place.\n" + _PAIRS + "3rd rnd: Sl st in next dc and in sp,b ch 3, dc, ch 2, 2 dc in same sp, * work (1) fan in next sp, rep. from * 6 times, join.\n"
    assert _says(work_text(text)) == ([], [16, 16, 32])


# -- old names --------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("said", ["5 long into the loop", "5 long stitches into the loop", "5 longs into the loop", "5 long into the loop of 5 chain"])
def test_long_is_a_treble(said: str) -> None:
    text = f"Make a chain of 8 stitches, unite it.\nRound 1: * 1 double crochet, 5 chain, repeat from * 7 times more.\nRound 2: * {said}, 1 chain, repeat from *.\n"
    worked = work_text(text)
    assert (worked.pattern.terms, _says(worked)) == ("UK", ([], [8, 40]))
    assert {s.kind for s in worked.fabric.rows[1].row.stitches if s.role == "stitch"} == {"dc"}


@pytest.mark.parametrize("said", ["over the one in 1st round", "over the 1 in 1st round", "over the double crochet of 1st round"])
def test_over_the_one_in_a_round_further_down(said: str) -> None:
    text = _UNITED + f"Round 2: Into the 4 ch 1 dc, 4 tr and 1 dc, repeat.\nRound 3: 1 dc {said}, 6 ch, repeat.\n"
    assert _made(work_text(text.replace("dc", "double crochet"))) == [6, 36, 6]


@pytest.mark.parametrize("said", ["unite it to the 1st stitch", "unite with a slip stitch", "unite to the 1st d.c.", "unite"])
def test_unite_is_join(said: str) -> None:
    text = f"Make a chain of 8 stitches, unite it.\nRound 1: * 1 double crochet in ring, 9 chain, repeat from * 7 times more, {said}.\nRound 2: 11 double crochet into each 9 chain.\n"
    assert _says(work_text(text)) == ([], [8, 88])


def test_an_old_word_that_is_unknown_is_told() -> None:
    assert [p.where for p in work_text(_UNITED + "Round 2: 5 quill into the 4 ch, 1 ch, repeat.\n").problems] == ["Round 2"]


# -- stitches told from the stitch before them ------------------------------------------------------------------------


@pytest.mark.parametrize("end", ["hook", "the end", "end", "the end of the chain"])
@pytest.mark.parametrize("said", ["dc in 3rd ch from last dc", "dc into 3rd ch after the last dc", "skip 2 ch, dc in next ch"])
def test_chains_counted_from_the_end_and_from_the_stitch_before(end: str, said: str) -> None:
    assert _says(work_text(f"Ch 26.\nRow 1: Dc in 8th ch from {end}, *ch 2, {said}; rep from * across.\n")) == ([], [8])


def test_each_stitch_with_chains_between() -> None:
    text = "Ch 26.\nRow 1: Dc in 8th ch from hook, *ch 2, skip 2 ch, dc in next ch; rep from * across.\nRow 2: Chain 5. 1 dc into top of second to last dc from previous row. Chain 2. *1 dc into each dc. Chain 2.* Repeat ** to the end.\n"
    assert _says(work_text(text)) == ([], [8, 8])


@pytest.mark.parametrize("said", ["2 sc in the same place, and in each st across", "2 sc in first st and in each st to end", "2 sc in first sc and in each sc across"])
def test_a_number_said_of_the_first_stitch_alone(said: str) -> None:
    row = "Row 1: Ch 2, 3 sc in 2nd ch from hook, ch 1, turn. (3 sts)\nRow 2: Sc in each st across, ch 1, turn. (3 sts)\nRow 3: "
    assert _says(work_text(f"{row}{said}, ch 1, turn. (4 sts)\n")) == ([], [3, 3, 4])
    assert _says(work_text(f"{row}{said}, ch 1, turn. (6 sts)\n")) == ([], [3, 3, 6])
    assert [p.where for p in work_text(f"{row}{said}, ch 1, turn. (5 sts)\n").problems] == ["Row 3"]
