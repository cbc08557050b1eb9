"""How squares, texture cloths and toys are told: where a first row begins, yarns by their letters, long stitches, how
often a point is made. Common practice, no source."""

from __future__ import annotations

from itertools import groupby

import pytest
from hookfold.charts.model.cloth.yarns import yarns_of
from hookfold.charts.model.rows.work import Worked, work_text

_STRIP = "Ch 25.\nRow 1: Sc in 2nd ch from hook and in each ch across. (24 sc)\nRow 2: Ch 1, turn, sc in each st across.\n"
_BALL = "Rnd 1: 15 sc in magic ring. (15)\n"


def _made(worked: Worked) -> list[int]:
    return [row.row.made for row in worked.fabric.rows]


def _told(worked: Worked) -> list[str]:
    return [problem.where for problem in worked.problems]


def _comes_to(worked: Worked, made: list[int]) -> bool:
    return (_told(worked), _made(worked)) == ([], made)


# -- where a first row begins -----------------------------------------------------------------------------------------


@pytest.mark.parametrize("said", ["dc in 4th ch and in each ch across", "dc in 4th ch & in every ch", "1 dc in fourth ch and 1 dc in each remaining ch"])
def test_the_4th_chain_of_a_foundation_is_the_4th_from_the_hook(said: str) -> None:
    assert _comes_to(work_text(f"Ch 20.\nRow 1: {said}. (18)\nRow 2: Ch 1, turn, sc in each st across.\n"), [18, 18])


def test_the_4th_chain_of_a_loop_below_is_no_4th_from_the_hook() -> None:
    text = _BALL + "Rnd 2: *Ch 5, sk 2, sc in next; rep from * around.\nRnd 3: *5 sc in ch-5 sp; rep from * around. (25)\n"
    assert _comes_to(work_text(text), [15, 5, 25])


@pytest.mark.parametrize(
    ("chains", "said", "made"),
    [(20, "sc 19", 19), (20, "*sc, dc; rep from * 8 more times, sc", 19), (21, "*1 sc, 1 dc* to end", 20), (20, "hdc 18", 18), (20, "sc in next 19 chs", 19)],
)
def test_a_first_row_begins_behind_the_chains_it_is_turned_with(chains: int, said: str, made: int) -> None:
    assert _comes_to(work_text(f"Ch {chains}.\nRow 1: {said}.\n"), [made])


@pytest.mark.parametrize("said", ["sc 18", "sc in 2nd ch from hook and in next 17 chs"])
def test_a_first_row_that_leaves_more_is_told(said: str) -> None:
    assert _told(work_text(f"Ch 20.\nRow 1: {said}.\n")) == ["Row 1"]


@pytest.mark.parametrize(
    "said", ["sc in each dc, dc in each sc", "dc in each sc, sc in each dc", "sc in every dc; dc in every sc", "dc in each sc and sc in each dc"]
)
def test_each_of_one_kind_and_each_of_another_lie_in_turn(said: str) -> None:
    worked = work_text(f"Ch 21.\nRow 1: *Sc, dc; rep from * across. (20)\nRow 2: Ch 1, turn, {said}.\nRow 3: Rep Row 2.\n")
    assert _comes_to(worked, [20, 20, 20])


def test_a_kind_that_is_not_there_is_told() -> None:
    assert _told(work_text(_STRIP + "Row 3: Ch 1, turn, sc in each dc, dc in each sc.\n")) == ["Row 3"]


@pytest.mark.parametrize(
    "said",
    [
        "Ch 4, 11 dc in the 4th ch from hook; join with sl st to top of ch. (12 dc)",
        "Ch 4, 11 dc in 4th ch from hook (first 3 chs count as dc), sl st in top. (12)",
        "Ch 2, 12 sc in 2nd ch from hook, join. (12)",
    ],
)
def test_rows_numbered_alone_go_round_that_begin_in_one_chain(said: str) -> None:
    assert _comes_to(work_text(f"1. {said}\n2. Sc in each st, ch 2 between each.\n3. 3 sc in each ch 2 sp. (36)\n"), [12, 12, 36])


# -- groups and how often they are worked -----------------------------------------------------------------------------


@pytest.mark.parametrize("said", ["*sc in blo, ch 1* in each stitch", "(sc in back loop, ch 1) in each st around", "*blo sc, ch 1* in every st"])
def test_the_loop_of_a_group_in_each_stitch_is_that_of_the_stitch(said: str) -> None:
    worked = work_text(_BALL + f"Rnd 2: {said}, join.\n")
    assert _comes_to(worked, [15, 15])
    assert {foot.hold for s in worked.fabric.rows[1].row.stitches if s.role == "stitch" for foot in s.feet} == {"back loop"}


@pytest.mark.parametrize(
    "said",
    [
        "*ch 4, sk next 2 sts, sl st in next; repeat for a total of 5 points",
        "*ch 4, sk next 2 sts, sl st in next; repeat for a total of five times",
        "*ch 4, sk next 2 sts, sl st in next* until you have 5 points",
        "*ch 4, sk next 2 sts, sl st in next; repeat this to make 5 loops",
        "*ch 4, sk next 2 sts, sl st in next; rep from * until there are 5 loops",
        "(ch 4, sk next 2 sts, sl st in next); make 5 in total",
    ],
)
def test_so_many_points_are_so_many_repetitions(said: str) -> None:
    worked = work_text(_BALL + f"Rnd 2: {said}.\n")
    assert _told(worked) == []
    assert sum(s.chains for s in worked.fabric.rows[1].row.stitches if s.role == "chain") == 20


def test_one_point_too_many_is_told() -> None:
    assert _told(work_text(_BALL + "Rnd 2: *ch 4, sk next 2 sts, sl st in next; repeat for a total of 6 points.\n")) == ["Rnd 2"]


# -- yarns by their letters -------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "said",
    [
        "(A) sc 8, (B) 3, (A) 13", "(A) 8, (B) 3, (A) 13", "A x 8, B x 3, A x 13", "8A, 3B, 13A", "with A 8, with B 3, with A 13",
        "8 MC, 3 CC, 13 MC", "8 white, 3 red, 13 white", "8 in white, 3 in red, 13 in white", "A: 8, B: 3, A: 13", "8 sc A, 3 sc B, 13 sc A",
        "sc 8 white, sc 3 red, sc 13 white", "8A 3B 13A",
    ],
)  # fmt: skip
def test_numbers_of_yarns_are_plain_stitches(said: str) -> None:
    worked = work_text(_STRIP + f"Row 3: Ch 1, turn, {said}.\n")
    assert _comes_to(worked, [24, 24, 24])
    row = worked.fabric.rows[2]
    made = [yarn for yarn, stitch in zip(yarns_of(row), row.row.stitches, strict=True) if stitch.role == "stitch"]
    assert [len(list(run)) for _, run in groupby(made)] == [8, 3, 13]


def test_too_many_of_a_yarn_are_told() -> None:
    assert _told(work_text(_STRIP + "Row 3: Ch 1, turn, 8A, 3B, 14A.\n")) == ["Row 3"]


# -- long stitches ----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "said",
    [
        "*3 sc, 1 spike stitch", "*sc in next 3 sts, spike st in row below next st", "*3 sc, spike sc two rows down", "*3 sc, spike",
        "*sc in next 3 sts, spike over next st inserting hook 2 rows below", "*3 sc, work a spike stitch into the row below",
        "*sc in next 3 sts, spike st into Row 1",
    ],
)  # fmt: skip
def test_a_long_stitch_goes_under_the_row_just_worked(said: str) -> None:
    worked = work_text(_STRIP + f"Row 3: Ch 1, turn, {said}; rep from * to end. (24)\n")
    assert _comes_to(worked, [24, 24, 24])
    assert sum(foot.back == 2 for s in worked.fabric.rows[2].row.stitches for foot in s.feet) == 6


def test_a_long_stitch_too_few_is_told() -> None:
    assert _told(work_text(_STRIP + "Row 3: Ch 1, turn, *4 sc, spike; rep from * to end.\n")) == ["Row 3"]


# -- squares ----------------------------------------------------------------------------------------------------------

_SQUARE = "Rnd 1: Magic ring, ch 3, 2 dc, ch 2, (3 dc, ch 2) 3 times, join.\n"
_SOLID = _SQUARE + "Rnd 2: Ch 3, dc in each dc, (2 dc, ch 2, 2 dc) in each corner, join. (28 dc)\n"


@pytest.mark.parametrize(
    "said",
    [
        "Ch 3, dc in each dc, (2 dc, ch 2, 2 dc) in each corner, join", "Repeat Rnd 2", "Repeat round 2 — there'll be 11 dc per side",
        "Rep Rnd 2 - 11 dc each side", "Ch 3, dc in each dc around, working (2 dc, ch 2, 2 dc) in each corner sp, join. You should have 11 dc on each side",
    ],
)  # fmt: skip
def test_a_corner_lies_in_the_chains_of_its_group(said: str) -> None:
    assert _comes_to(work_text(_SOLID + f"Rnd 3: {said}.\n"), [12, 28, 44])


def test_too_few_in_a_corner_are_told() -> None:
    assert _told(work_text(_SOLID + "Rnd 3: Ch 3, dc in each dc, (2 dc, ch 2, dc) in each corner, join. (44 dc)\n")) == ["Rnd 3"]


@pytest.mark.parametrize(
    "said",
    [
        "sl st to corner, (ch 3, dc, ch 2, 2 dc) in corner, dc in next 3, *(2 dc, ch 2, 2 dc) in corner, dc in next 3* around, join",
        "sl st to corner sp, (ch 3, dc, ch 2, 2 dc) in sp, dc in next 3 dc, *(2 dc, ch 2, 2 dc) in next ch-2 sp, dc in next 3 dc; rep from * around, join",
        "sl st to corner, (ch 3, dc, ch 2, 2 dc) in corner, dc in next 3, *corner (2 dc, ch 2, 2 dc), dc in next 3* around, join",
        "ch 3, dc in next 2 sts, corner [2 dc, ch 2, 2 dc in corner sp], *3 dc along side, corner* around, join",
        "sl st to corner, (ch 3, dc, ch 2, 2 dc) in corner, dc in next 3, *corner: (2 dc, ch 2, 2 dc), dc in next 3; rep from * twice more, join",
    ],
)
def test_a_round_that_slips_to_its_corner_goes_all_the_way_round(said: str) -> None:
    worked = work_text(_SQUARE + f"Rnd 2: {said}.\n")
    assert _comes_to(worked, [12, 28])
    assert worked.notes == []


@pytest.mark.parametrize(
    "said",
    [
        "*ch 1, 3 dc in ch-1 sp, ch 1, corner in next sp; rep from * 2 more times, ch 1, 3 dc in ch-1 sp, ch 1, join",
        "*ch 1, 3 dc in ch-1 sp, ch 1, work a corner; rep from * 2 more times, ch 1, 3 dc in ch-1 sp, ch 1, join",
    ],
)
def test_a_corner_by_its_name_is_the_one_told_last(said: str) -> None:
    text = _SQUARE + "Rnd 2: Sl st to corner, ch 3, (2 dc, ch 3, 3 dc) in same corner, *ch 1, (3 dc, ch 3, 3 dc) in next sp for corner; rep from * twice more, ch 1, join.\n"
    assert _comes_to(work_text(text + f"Rnd 3: Sl st to corner sp, ch 3, 2 dc, ch 3, 3 dc in corner, {said}.\n"), [12, 24, 36])


def test_a_corner_that_nothing_told_is_no_work() -> None:
    assert _told(work_text(_SQUARE + "Rnd 2: Ch 3, dc in next 2 dc, *corner, 3 dc; rep from * around, join.\n")) == ["Rnd 2"]


# -- gaps between groups ----------------------------------------------------------------------------------------------

_SHELLS = "Rnd 1: Ch 3, 11 dc in magic ring, join. (12)\nRnd 2: *Sc in next st, ch 3; rep from * around.\nRnd 3: 5 dc in each lp.\n"


@pytest.mark.parametrize(
    "said",
    [
        "sc between shells, ch 5; around", "sc between each 5-dc group with ch 5 between, join", "sl st between groups, ch 5, repeat around",
        "sc in the gap between two groups, ch 5, *sc in next gap, ch 5* around, join", "*ch 5, sc between next two groups; rep from * around",
        "join with sc between any two groups, ch 5, *skip 5 dc, sc between this group and next, ch 5* around, join",
        "join B in sp between any two 5-dc groups, ch 1, sc in same sp, *ch 5, sc in next sp between groups; rep from * around, ch 5, join",
    ],
)  # fmt: skip
def test_each_gap_between_groups_is_worked_once(said: str) -> None:
    worked = work_text(_SHELLS + f"Rnd 4: {said}.\n")
    assert _told(worked) == []
    assert sum(s.chains for s in worked.fabric.rows[3].row.stitches if s.chains == 5) == 60


def test_gaps_between_stitches_are_no_gaps_between_groups() -> None:
    worked = work_text(_SHELLS + "Rnd 4: *Sc in next gap between sts; rep from * around.\n")
    assert worked.fabric.rows[3].row.made == 60


# -- terse words, skirts on left loops --------------------------------------------------------------------------------


@pytest.mark.parametrize("said", ["(sc 1, dec) 3 (6)", "(sc 1, dec)3", "[1 sc, dec] 3 [6]", "(1 sc, dec)3.", "(sc, dec)3 = 6"])
def test_a_number_behind_a_bracket_is_how_often(said: str) -> None:
    assert _comes_to(work_text(f"R1: 9 sc in magic ring (9)\nR2: {said}\n"), [9, 6])


@pytest.mark.parametrize("said", ["dec at each end (6)", "dec at each end. 6", "decrease at both ends (6)", "ch 1, turn, dec 1 at each end (6)"])
def test_a_row_told_by_its_ends_alone(said: str) -> None:
    assert _comes_to(work_text(f"Row 1: Ch 9, sc 8. (8)\nRow 2: {said}\n"), [8, 6])


@pytest.mark.parametrize("said", ["12 dc, 12 ch sp", "12 dc and 12 ch sp", "(12 dc, 12 ch sp)", "12 dc, 12 ch sps"])
def test_so_many_ch_sp_are_spaces_of_whatever_size(said: str) -> None:
    assert _comes_to(work_text(f"R1: 12 sc in magic ring\nR2: *dc, ch 1* around. {said}\n"), [12, 12])


_DRESS = "R1: 8 sc in magic ring (8)\nR2: inc x8 (16)\nR3: sc blo (16)\nR4: sc (16)\n"


@pytest.mark.parametrize(
    "said",
    [
        "Skirt: join yarn in first unused front loop of R2, ch 3, dc in same, 2 dc in each front loop around (32)",
        "Skirt: join yarn with sl st in any front loop of R2, ch 3, dc in same loop, 2 dc in each front loop around, join (32)",
        "R5: join yarn in any free front loop of R2, ch 1, 2 sc in each front loop around (32)",
        "R5: working in the leftover front loops of R2: 2 sc in each (32)",
    ],
)
def test_a_skirt_goes_into_the_loops_that_were_left(said: str) -> None:
    worked = work_text(_DRESS + said + "\n")
    assert _comes_to(worked, [8, 16, 16, 16, 32])
    feet = {(foot.back, foot.hold) for s in worked.fabric.rows[4].row.stitches if s.role == "stitch" for foot in s.feet}
    assert feet == {(3, "front loop")}


def test_a_count_behind_a_named_round_is_that_rounds() -> None:
    assert _told(work_text(_DRESS + "Skirt: join yarn in any front loop of R2, ch 3, dc in same, 2 dc in each front loop around (30)\n")) == ["Skirt Rnd"]


@pytest.mark.parametrize(
    ("said", "made"),
    [
        ("*sc in next st, ch 1, sk 1; rep ending with sc in last 2 sts", 9),
        ("*sc in next, dc in next; rep finishing with a dc", 16),
        ("*sc in next, dc in next; repeat ending with dc", 16),
        ("*sc in next, ch 1, sk 1; rep, ending with sc in each of last 2 sts", 9),
    ],
)
def test_rep_ending_goes_back_to_the_star(said: str, made: int) -> None:
    worked = work_text(f"Ch 17.\nRow 1: Sc in 2nd ch from hook and in each ch across. (16)\nRow 2: Ch 1, turn; {said}.\n")
    assert _comes_to(worked, [16, made])
    assert worked.notes == []


def test_a_last_repeat_ends_before_the_last_stitch() -> None:
    text = "Rnd 1: 12 dc in magic ring, join. (12)\nRnd 2: 2 sc in each st, join. (24)\n"
    assert _comes_to(work_text(text + "Rnd 3: Ch 1, sc in joining, *sc in next 2 sts, 3 sc in next, sc in next 3; rep from *, ending last rep before the last sc, join.\n"), [12, 24, 32])


@pytest.mark.parametrize(
    "said",
    [
        "dc in each dc along all four sides, (2 dc, ch 2, 2 dc) in every corner", "dc in every dc along each side and (2 dc, ch 2, 2 dc) in each corner",
        "dc in each dc on each side, (2 dc, ch 2, 2 dc) in each corner", "ch 3, dc along each side, (2 dc, ch 2, 2 dc) in each corner, join",
        "ch 3, dc across each side with (2 dc, ch 2, 2 dc) in the corners, join",
    ],
)  # fmt: skip
def test_the_sides_of_a_square_are_all_its_stitches(said: str) -> None:
    assert _comes_to(work_text(_SQUARE + f"Rnd 2: {said}.\n"), [12, 28])


def test_the_sides_of_a_flat_piece_are_its_edge() -> None:
    worked = work_text(_STRIP + "Edging: Sc evenly along each side, 3 sc in each corner, join.\n")
    assert any("edge" in note.says for note in worked.notes)


# -- small words ------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("said", "made"), [("*sc, dc* to last 2 sts, sc in next, 2 sc in last", 25), ("sc to last st, 2 sc in it", 25), ("*sc in next st; rep from * to last st, 3 sc in it", 26)])
def test_it_is_the_last_stitch_that_work_stops_before(said: str, made: int) -> None:
    assert _comes_to(work_text(_STRIP + f"Row 3: Ch 1, turn, {said}.\n"), [24, 24, made])


@pytest.mark.parametrize(
    "said",
    [
        "2 dc in each st. Invisible join to first true dc. – 30", "2 dc in each st, invisible join to first dc (30)", "2 dc in each st. Join to first dc, not the ch. 30",
        "2 dc in each st, needle join to the first dc. 30", "2 dc in each of the 15 plain sts, join with an invisible join. (30)",
    ],
)  # fmt: skip
def test_a_join_that_is_not_seen_is_a_join(said: str) -> None:
    assert _comes_to(work_text(_BALL + f"Rnd 2: {said}\n"), [15, 30])


def test_slip_stitches_in_both_of_two_places() -> None:
    text = "Rnd 1: 12 sc in magic ring, join.\nRnd 2: Ch 3, dc in same st, ch 1, (2 dc in next st, ch 1) around, join.\n"
    assert _comes_to(work_text(text + "Rnd 3: Sl st to next dc and ch-1 sp, ch 1, *sc in ch-1 sp, sc in next 2 dc; repeat to end, join. 36 sc\n"), [12, 24, 36])


_LEG = "R1: 6 sc in magic ring (6)\nR2: [inc] 6 times. 12\n"


@pytest.mark.parametrize(
    "said",
    [
        "R3: ch 2, attach to leg 1 with sc in any st, sc 11, sc in 2 ch, sc 12 in leg 2, sc in other side of 2 ch. (28)",
        "R3: ch 2, join to the first leg with a sc, sc in next 11 sts, sc in each of the 2 ch, sc in next 12 sts of second leg, sc in 2 ch on the other side. (28)",
        "Joining legs: Ch 2, sc into leg 1, sc 11, sc 2 in chain, sc 12 on leg 2, sc 2 in chain (28)",
    ],
)
def test_the_chains_between_legs_are_those_just_made(said: str) -> None:
    assert _comes_to(work_text(_LEG + said + "\nR4: sc around (28)\n"), [6, 12, 28, 28])


def test_more_between_legs_than_chains_is_told() -> None:
    assert _told(work_text(_LEG + "R3: ch 2, join to leg 1 with a sc, sc 11, sc in 4 ch, sc 12 in leg 2, sc in other side of 2 ch. (28)\n")) == ["Rnd 3"]


@pytest.mark.parametrize("said", ["8 sc + 2 x ch 5", "8 sc & 2 lots of ch-5", "8 sc + 2x5 ch", "8 sc, 2 ch-5 sps"])
def test_runs_of_chains_in_a_count(said: str) -> None:
    text = f"Rnd 1: 16 sc in magic ring.\nRnd 2: Sc in next 4, ch 5, sk 4, sc in next 4, ch 5, sk 4 ({said})\n"
    assert _comes_to(work_text(text), [16, 8])


def test_a_run_of_chains_too_many_in_a_count_is_told() -> None:
    assert _told(work_text("Rnd 1: 16 sc in magic ring.\nRnd 2: Sc in next 4, ch 5, sk 4, sc in next 4, ch 5, sk 4 (8 sc + 3 x ch 5)\n")) == ["Rnd 2"]


@pytest.mark.parametrize(
    "said",
    [
        "Ch 1, working behind petals, sc around post of first cl of rnd 2, *ch 4, sc around post of next cl; rep from * around, ending ch 4, sl st in first sc. 8 lps",
        "Ch 1, working behind the petals, sc around post of first cl of rnd 2, *ch 4, sc around post of next cl; rep from * 6 more times, ch 4, join. 8 lps",
    ],
)
def test_behind_petals_the_next_post_is_of_the_round_named_first(said: str) -> None:
    text = (
        "Rnd 1: Ch 4, join; ch 1, 8 sc in ring, join.\nRnd 2: Ch 3, 2-dc cl in same st, (ch 3, 3-dc cl in next sc) 7 times, ch 3, join.\n"
        "Rnd 3: Sl st in first ch-3 sp, ch 1, (sc, hdc, dc, hdc, sc) in same sp and in each sp around, sl st in first sc.\n"
    )
    worked = work_text(text + f"Rnd 4: {said}\n")
    assert _comes_to(worked, [8, 8, 40, 8])
    assert {foot.back for s in worked.fabric.rows[3].row.stitches if s.role == "stitch" for foot in s.feet} == {2}


@pytest.mark.parametrize(
    "said",
    [
        "sl st in 2nd ch from hook, sc in next ch, hdc in next 2, sc in next 4, (sc, ch 2, sc) in last ch; rotate; sc in next 4, hdc in next 2, sc in next, sl st in last.",
        "sl st in 2nd ch, sc in next ch, hdc in next 2, sc in next 4, (sc, ch 2, sc) in last ch. Rotate. Sc in next 4, hdc in next 2, sc in next, sl st in last.",
        "Working in back bumps: sl st in 2nd ch, sc in next, hdc in next 2, sc in next 4, (sc, ch 2, sc) in last ch. Rotate the work. Working up opposite side of chain: sc 4, hdc 2, sc, sl st.",
    ],
)
def test_a_turn_of_the_hand_at_the_end_of_the_chain_leads_to_its_other_side(said: str) -> None:
    assert _comes_to(work_text(f"Ch 10.\nRow 1: {said}\n"), [18])


def test_a_row_told_again_has_no_turning_chain_to_end_in() -> None:
    text = "Ch 30.\nRow 1: 2 dc in 3rd ch from hook, *sk 2 ch, (sc, 2 dc) in next ch; rep to last 3 ch, sk 2, sc in last.\n"
    again = "Row 2: ch 1, turn, (sc, 2 dc) in first st, *sk 2 dc, (sc, 2 dc) in next sc; rep from *, ending with sk 2 dc, sc in top of ch.\nRow 3: Rep Row 2.\n"
    assert _comes_to(work_text(text + again), [28, 28, 28])


@pytest.mark.parametrize(
    "key",
    [
        "bs = border stitch, sc through both loops", "BS: border stitch (single crochet through both loops)", "Border st (BS): single crochet through both loops.",
        "bs = border stitch", "Border stitch (BS): work a sc in both loops of the first and last stitch.", "bs = edge st: 1 sc in both loops",
    ],
)  # fmt: skip
def test_a_border_stitch_is_a_stitch_of_the_pattern(key: str) -> None:
    name = "BS" if "BS" in key else "bs"
    worked = work_text(f"{key}\nCh 25.\nRow 1: Sc in 2nd ch from hook and in each ch across. (24)\nRow 2: {name}, sc blo 22, {name}.\n")
    assert _comes_to(worked, [24, 24])


@pytest.mark.parametrize("said", ["dc in front loop of the stitch 2 rows down", "dc in the front loop 2 rows below", "double crochet in flo of the sc two rows down"])
def test_a_mosaic_stitch_told_by_its_loop_is_one_stitch(said: str) -> None:
    worked = work_text(f"mdc = {said}\n" + _STRIP + "Row 3: *sc blo, mdc* 11 times, sc 2.\n")
    assert _comes_to(worked, [24, 24, 24])
    assert sum(foot.back == 2 for s in worked.fabric.rows[2].row.stitches for foot in s.feet) == 11


@pytest.mark.parametrize(
    "said",
    [
        "sl st to corner, (ch 3, dc, ch 2, 2 dc) in corner, dc in next 7, *(2 dc, ch 2, 2 dc) in corner, dc in next 7; rep from * around, join",
        "ch 3, dc in next 4, *(2 dc, ch 2, 2 dc) in corner, dc in next 7; rep from * 2 more times, (2 dc, ch 2, 2 dc) in corner, dc in last 2, join",
        "ch 3, dc in next 4, *(2 dc, ch 2, 2 dc) in next corner, dc in next 7 dc; rep from * around, ending dc in last 2, join",
        "sl st to corner sp, (ch 3, dc, ch 2, 2 dc) in corner sp, *dc in next 7 dc, (2 dc, ch 2, 2 dc) in next corner; rep from * 2 more times, dc in next 7, join",
    ],
)
def test_work_goes_on_behind_the_space_of_a_corner(said: str) -> None:
    worked = work_text(_SOLID + f"Rnd 3: {said}.\n")
    assert _comes_to(worked, [12, 28, 44])


def test_too_few_along_a_side_are_told() -> None:
    said = "ch 3, dc in next 4, *(2 dc, ch 2, 2 dc) in corner, dc in next 6; rep from * 2 more times, (2 dc, ch 2, 2 dc) in corner, dc in last 2, join. (44 dc)"
    assert _told(work_text(_SOLID + f"Rnd 3: {said}.\n")) == ["Rnd 3"]


@pytest.mark.parametrize(
    ("said", "made"), [("2 in each (16)", 16), ("two in each (16)", 16), ("(1 in next, 2 in next) around (12)", 12), ("one in first, two in next, and so on (12)", 12)]
)
def test_a_number_in_each_is_of_what_the_rows_are_made_of(said: str, made: int) -> None:
    assert _comes_to(work_text(f"Round 1: 8 sc in magic ring\nRound 2: {said}\n"), [8, made])


@pytest.mark.parametrize("dot", ["•", "»", "▪", ":"])
def test_a_dot_behind_the_number_of_a_round(dot: str) -> None:
    assert _comes_to(work_text(f"Rnd 1 {dot} 6 sc in magic ring\nRnd 2 {dot} 2 sc in each (12)\n"), [6, 12])


@pytest.mark.parametrize("said", ["*sc, dc* to end, last st is a sc", "*sc, dc; rep from * across, last st is a sc"])
def test_a_repeat_breaks_off_where_the_row_is_said_to_end(said: str) -> None:
    assert _comes_to(work_text(f"Ch 24.\nRow 1: sc in 2nd ch from hook, dc in next ch, {said}.\n"), [23])


@pytest.mark.parametrize("said", ["Start with 24 stitches of foundation double crochet.", "Start with 24 foundation double crochets."])
def test_so_many_stitches_of_foundation_double_crochet(said: str) -> None:
    assert _made(work_text(f"{said}\nRow 2. Ch 2 to turn. *1 fpdc, 2 dc. Repeat from * to end.\n"))[-1] == 24


@pytest.mark.parametrize("said", ["rep 3+4", "repeat rows 3 + 4", "rep 3-4"])
def test_rows_told_with_a_plus(said: str) -> None:
    assert _comes_to(work_text(_STRIP + f"Row 3: ch 1, turn, hdc across.\nRow 4: ch 1, turn, sc across.\nRows 5-6: {said}\n"), [24] * 6)


# -- told as one talks ------------------------------------------------------------------------------------------------

_RING = "Rnd 1: Ch 4, join to form a ring. Ch 3, 2 dc in ring, ch 2, "


@pytest.mark.parametrize(
    "said",
    [
        "*3 dc in ring, ch 2.* Do that two more times and you'll have four little clusters. Join.", "*3 dc in ring, ch 2* 3 times, so you will have 4 clusters. Join.",
        "(3 dc in ring, ch 2) 3 times and you should have four groups of dc. Join.", "(3 dc in ring, ch 2) 3 times; you should have 4 groups. Join.",
    ],
)  # fmt: skip
def test_what_there_is_now_is_a_count(said: str) -> None:
    assert _comes_to(work_text(_RING + said + "\n"), [12])


@pytest.mark.parametrize(
    "said",
    [
        "ch 1, *(3 dc, ch 2, 3 dc) in next corner, ch 1; repeat for the remaining 2 corners. Join.",
        "ch 1, *(3 dc, ch 2, 3 dc) in next corner, ch 1. Do the same in the last two corners. Join.",
        "ch 1, then in the next corner: 3 dc, ch 2, 3 dc. Ch 1. Repeat that for the remaining two corners and join.",
        "ch 1, then move on to the next corner: 3 dc, ch 2, 3 dc. Ch 1. Repeat that for the remaining two corners and join.",
        "ch 1, go to the next corner and work (3 dc, ch 2, 3 dc), ch 1. Repeat that for the remaining two corners and join.",
    ],
)
def test_the_same_goes_into_the_remaining_corners(said: str) -> None:
    worked = work_text(_RING + f"(3 dc in ring, ch 2) 3 times, join.\nRnd 2: Sl st to corner sp, ch 3, (2 dc, ch 2, 3 dc) in same corner, {said}\n")
    assert _comes_to(worked, [12, 24])
    assert worked.notes == []


_RIPPLE = (
    "Ch 30.\nRow 1: 2 dc in 3rd ch from hook, dc in next 4, (dc2tog) twice, dc in next 4, *2 dc in each of next 2 chs, dc in next 4, dc2tog twice, dc in next 4; "
    "rep to last ch, 2 dc in last ch.\nRow 2: ch 2, turn, 2 dc in first st, dc in next 4 sts, (dec) x 2, dc 4, *2 dc in next 2, dc 4, dec 2x, dc 4* across to last st, 2 dc in it.\n"
)


@pytest.mark.parametrize("said", ["Row 3: Repeat Row 2.", "Row 3: ch 1, turn, sc across.", "Row 3: Repeat Row 2.\nRow 4: Repeat Row 2."])
def test_chains_that_proved_to_count_for_nothing_do_so_in_the_rows_above(said: str) -> None:
    assert set(_made(work_text(_RIPPLE + said + "\n"))) == {28}


def test_chains_between_groups_stand_behind_the_last_one_of_a_round_told_by_r() -> None:
    text = "R1: Magic ring, ch 3 (counts as sc + ch 2), *sc in ring, ch 2* x3, join to 1st ch. (4 sc)\n"
    worked = work_text(text + "R2: Sl st to sp, ch 1, (sc, ch 2, sc) in each ch-2 sp with ch 1 between, join. 8 sc\nR3: Sl st to corner, ch 1, *(sc, ch 2, sc) in corner, ch 1, sc in ch-1 sp, ch 1; rep from * around, join. 12 sc\n")
    assert _comes_to(worked, [4, 8, 12])


@pytest.mark.parametrize("said", ["dc in 3rd ch", "dc in 3rd ch of ch-4", "dc in third ch of beg ch-4"])
def test_a_row_that_ends_in_the_3rd_chain_ends_in_that_of_the_row_below(said: str) -> None:
    text = "Row 1: Magic ring; ch 4 (counts as dc and ch 1), 3 dc, ch 2, 3 dc, ch 1, dc in ring. Turn.\n"
    worked = work_text(text + f"Row 2: Ch 4, 3 dc in ch-1 sp, ch 1, (3 dc, ch 2, 3 dc) in ch-2 sp, ch 1, 3 dc in last sp, ch 1, {said}. Turn.\n")
    assert _comes_to(worked, [8, 14])
