"""Work by turns, increases in every so manieth stitch, places between stitches, and other plain ways of saying."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import work_text

ROUND = "US terms.\nRnd 1: 15 sc in magic ring. (15 sc)\n"
FLAT = "US terms.\nCh 19.\nRow 1: Sc in 2nd ch from hook and in each ch across. (18 sc)\n"


def counts(text: str) -> tuple[list[int], list[str]]:
    """The stitches of each row of the first piece, and what is complained of."""
    worked = work_text(text)
    return [row.row.made for row in worked.fabric.rows], [problem.says for problem in worked.problems]


def row(text: str, said: str) -> tuple[int, list[str]]:
    """What the last row makes, and what is complained of."""
    made, told = counts(f"{text}{said}\n")
    return made[-1], told


@pytest.mark.parametrize("said", ["2 sc in every {} sc", "2 hdc in every {} st around, join", "Ch 1, 2 dc in every {} stitch around"])
@pytest.mark.parametrize(("nth", "made"), [("third", 20), ("5th", 18)])
def test_two_in_every_so_manieth_stitch_are_increases(said, nth, made):
    assert row(ROUND, f"Rnd 2: {said.format(nth)}.") == (made, [])
    assert row(ROUND, f"Rnd 2: {said.format(nth)}. ({made + 1} sts)")[1]


def test_two_in_every_other_stitch_are_what_the_count_says():
    text = ROUND.replace("15", "14")
    assert row(text, "Rnd 2: 2 sc in every other stitch around.") == (21, [])
    assert row(text, "Rnd 2: 2 dc in every other stitch around. (21)") == (21, [])
    assert row(text, "Rnd 2: 2 dc in every other stitch around. (14)") == (14, [])
    assert row(text, "Rnd 2: 2 dc in every other stitch around. (18)")[1]


@pytest.mark.parametrize("said", ["Sc in every third st across, ch 2 at the end", "Ch 3, dc in every third st across"])
def test_one_in_every_third_stitch_leaves_the_others_out(said):
    made, _ = row(FLAT, f"Row 2: Turn. {said}.")
    assert made in (6, 7)


TURNS = ["Alternate between {} and an increase", "Alternately {} into one stitch and then increase all the way around", "Alternate {} with 2 sc in next st around",
         "{} in first stitch, 2 sc in next, alternating ({}, 2 sc)", "Alternating between {} and an increase stitch"]  # fmt: skip


@pytest.mark.parametrize("said", TURNS)
def test_stitches_by_turns_go_round(said):
    text = ROUND.replace("15", "16")
    told = said.replace("{}", "sc" if "into" in said else "1 sc")
    assert row(text, f"Rnd 2: {told}.") == (24, [])
    assert row(text, f"Rnd 2: {told}. (26)")[1]


@pytest.mark.parametrize("said", ["sk 2 sts and {} in third st", "skip 2, then {} in the 3rd st", "skipping 2 sts, {} in 3rd"])
def test_the_stitch_behind_skipped_ones_is_numbered_with_them(said):
    assert row(FLAT, f"Row 2: Turn. *Ch 4, {said.format('sc')}; rep from * continuing all the way across, forming 6 loops.") == (6, [])
    assert row(FLAT, f"Row 2: Turn. *{said.format('3 dc')}; rep from * across. (18 dc)") == (18, [])
    assert row(FLAT, f"Row 2: Turn. *{said.format('3 dc')}; rep from * across. (20 dc)")[1]


def test_a_chain_is_still_counted_from_the_hook():
    assert counts("US terms.\nCh 20.\nRow 1: Skip 3 ch, dc in 4th ch from hook and in each ch across.\n")[0] == [18]


@pytest.mark.parametrize("way", ["up next", "down the next", "back up the next"])
def test_stitches_up_or_down_the_next_ones(way):
    assert row(FLAT, f"Row 2: Ch 1, turn. Sc {way} 18 sc.") == (18, [])
    assert row(FLAT, f"Row 2: Ch 1, turn. Sc {way} 19 sc.")[1]


@pytest.mark.parametrize("said", ["*Dc 5, dc2tog* 6 times", "(Dc 5, dc2tog) around", "Dc 5, dc2tog, dc 35"])
def test_a_large_ring_is_worked_along_its_chains(said):
    made = 41 if "35" in said else 36
    assert row("US terms.\nCh 42, join with sl st to form ring.\n", f"Rnd 1: {said}.") == (made, [])
    assert row("US terms.\nCh 40, join with sl st to form ring.\n", f"Rnd 1: {said}.")[1]


def test_a_small_ring_is_worked_round():
    assert row("US terms.\nCh 6, join with sl st to form ring.\n", "Rnd 1: *2 dc, ch 1* 6 times.")[0] == 12


@pytest.mark.parametrize("said", ["2 hdc between each stitch around", "2 hdc between all stitches around", "2 hdc in each space between stitches around"])
def test_between_each_stitch_is_every_gap(said):
    text = "US terms.\nCh 5, join with sl st to form ring.\nRnd 1: Ch 3, 13 dc in ring; join.\n"
    assert row(text, f"Rnd 2: Ch 1, {said}; join. (28 hdc)") == (28, [])
    assert row(text, f"Rnd 2: Ch 1, {said}; join. (30 hdc)")[1]


def test_spaces_are_stitches_where_the_count_says_so():
    assert row(FLAT, "Row 2: Ch 1, turn. Hdc in each space across. (18)") == (18, [])
    assert row(FLAT, "Row 2: Ch 1, turn. Hdc in each space across. (21)")[1]
    meshed = FLAT + "Row 2: Ch 1, turn, *sc in next sc, ch 2, sk next sc; rep from * across. (9 sc)\n"
    assert row(meshed, "Row 3: Ch 1, turn, 3 sc in each space across. (27 sc)") == (27, [])
    assert row(meshed, "Row 3: Ch 1, turn, 3 sc in each space across. (30 sc)")[1]


PLAIN = ["Sc in each st of previous work", "Sc in 1'st sc, sc in 2'nd sc, sc in each sc across", "Sc in each stitch space across",
         "Sc in first 9 sts for right shoulder, sc in last 9 sts", "Sc until there are only 2 sts left in row, sc in last 2 sts",
         "Sc in each sc across, thus making sc over sc. 9 sts each side of center"]  # fmt: skip


@pytest.mark.parametrize("said", PLAIN[:-1])
def test_plain_ways_of_saying(said):
    assert row(FLAT, f"Row 2: Ch 1, turn. {said}.") == (18, [])
    assert row(FLAT, f"Row 2: Ch 1, turn. {said}. (19 sc)")[1]


def test_a_mesh_over_a_mesh_is_talk_and_a_count_beside_the_center_too():
    mesh = "US terms.\nCh 20.\nRow 1: Dc in 8th ch from hook, *ch 2, sk 2 ch, dc in next ch; rep from * across.\n"
    made, told = row(mesh, "Row 2: Ch 5, turn, skip first dc and ch-2, dc in next dc, *ch 2, dc in next dc; rep from * to last sp, ch 2, dc in last sp, thus making sp over sp of previous row.")
    assert (made, told) == (6, [])
    assert row(mesh, "Row 2: Ch 5, turn, sk ch-2, dc in next dc, *ch 2, dc in next dc; rep from * to last sp, ch 2, dc in last sp. (7 dc)")[1]
    sides = FLAT + "Row 2: Ch 1, turn. Sc in next 9 sc, ch 3, sc in next 9 sc. Turn. 9 sts before center ch-3 sp.\n"
    assert counts(sides) == ([18, 18], [])


def test_a_name_between_a_rows_number_and_its_work():
    assert row(ROUND, "Rnd 2 - Ribbon Round - ch 1, *sc in next sc, sk next sc; rep from * to last sc, sc in last sc.") == (8, [])
    assert row(ROUND, "Rnd 2 - Ribbon Round - ch 1, *sc in next sc, sk next sc; rep from * to last sc, sc in last 2 sc.")[1]


def test_slip_to_join_is_a_slip_stitch():
    assert row(ROUND, "Rnd 2: Ch 3, dc in next 14 sts, slip to join top of ch 3. (15 dc)") == (15, [])
    assert row(ROUND, "Rnd 2: Ch 3, dc in next 14 sts, slip to join. (16 dc)")[1]


def test_a_chain_may_count_as_a_stitch_and_ch():
    text = ROUND + "Rnd 2: Ch 4 (counts as first dc and ch), *dc in next st, ch 1; rep from * around, join in {} ch of ch 4.\n"
    assert counts(text.format("3rd")) == ([15, 15], [])
    assert counts(text.format("2nd"))[1]


def test_the_center_of_the_ring_just_formed():
    assert row("US terms.\nCh 6, join to form a circle.\n", "Rnd 1: 14 dc in center of circle just formed. (14)") == (14, [])
    assert row("US terms.\nCh 6, join to form a circle.\n", "Rnd 1: 14 dc in center of circle just formed. (15)")[1]


def test_a_bracket_called_a_pattern_comes_again():
    text = "US terms.\nCh {}.\nRow 1: Sc in 2nd ch from hook, hdc in next ch. Repeat (sc, hdc) pattern to end of ch.\n"
    assert counts(text.format(21)) == ([20], [])
    assert counts(text.format(22))[1]
