"""Ways of writing that pages made in haste have: places counted off one by one, a sign of their own for a chain space, work in
each of two sorts of place, a post that is not named, foundations told twice, rows that go on flat from rounds."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import Worked, work_text

_DISC = "Rnd 1: 6 sc in a magic ring. (6)\nRnd 2: 2 sc in each st around. (12)\n"
_STRIP = "Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (20)\n"
#: Eight dc with 2 ch behind each.
_WHEEL = "Ch 5, join to form a ring.\nRnd 1: Ch 5 (counts as dc and ch 2), (dc in ring, ch 2) 7 times, join in 3rd ch. (8 dc)\n"
#: Four corners of ch 2 with 4 dc on each side; the round begins behind none of them.
_SQUARE = "Rnd 1: 12 dc in magic ring, join. (12)\nRnd 2: *(Dc, ch 2, dc) in next st, dc in next 2 sts; rep from * around. (16 dc)\n"


def _made(worked: Worked) -> list[int]:
    return [row.row.made for row in worked.fabric.rows]


def _right(text: str) -> list[int]:
    worked = work_text(text)
    assert worked.problems == []
    return _made(worked)


# -- places and signs --------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("said", "made"),
    [
        ("[1 sc in first, 2 sc in second] around", 18),
        ("[sc in the 1st, sc in the 2nd, 2 sc in the 3rd] around", 16),
        ("*sc in first st, 2 sc in second st; rep from * around", 18),
        ("(2 sc in first, sc in second, sc in third, sc in fourth) 3 times", 15),
        ("(sc in first, sc in second, sc2tog over third and fourth) 3 times", 9),
    ],
)
def test_places_counted_off_one_by_one(said: str, made: int) -> None:
    assert _right(_DISC + f"Rnd 3: {said}.\n")[-1] == made


def test_a_place_that_is_no_next_one_is_not_taken_for_one() -> None:
    assert work_text(_DISC + "Rnd 3: [sc in first, 2 sc in third] around.\n").problems


@pytest.mark.parametrize("space", ["chain,2 space", "chain -2 space", "ch - 2 sp", "ch,2 sp", "chain 2-space"])
def test_a_chain_space_with_another_sign(space: str) -> None:
    assert _right(_WHEEL + f"Rnd 2: Ch 1, 3 sc in each {space} around, join.\n")[-1] == 24


def test_a_number_of_spaces_behind_a_chain_is_a_count() -> None:
    text = "Ch 21.\nRow 1: Dc in 6th ch from hook, (ch 2, sk 2 ch, dc in next ch) 5 times, turn.\n"
    row = "Row 2: Ch 5, sk first dc, dc in next dc, (ch 2, dc in next dc) 4 times, ch 2, dc in 3rd ch of turning ch. 6 sps.\n"
    assert work_text(text + row).problems == []


@pytest.mark.parametrize("join", ["join in of first sc", "join with sl st in top of in first sc", "do nott turn, join"])
def test_a_word_too_many(join: str) -> None:
    assert _right(f"Rnd 1: 6 sc in magic ring, {join}.\nRnd 2: 2 sc in each sc around.\n") == [6, 12]


def test_a_turn_a_letter_short() -> None:
    assert _right("Ch 10.\nRow 1: Sc in 2nd ch from hook and across. Ch 1, tur.\nRow 2: Sc in each st across. Ch 1, tur.\n") == [9, 9]


# -- repeats -----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "said",
    [
        "2 sc in the first sc, 1 sc in the next (18). Repeat for the whole round.",
        "sc in next st, 2 sc in next. Repeat this the entire round. (18)",
        "sc in next st, 2 sc in next (18). Keep repeating for the rest of the round.",
        "sc in next st, 2 sc in next st (18). Repeat around.",
    ],
)
def test_a_repeat_for_the_whole_round(said: str) -> None:
    assert _right(_DISC + f"Rnd 3: {said}\n")[-1] == 18


@pytest.mark.parametrize("said", ["repeat all around from * to last 2 sc", "rep across from * to last 2 sc", "rep all the way across from * to last 2 sc"])
def test_a_repeat_from_the_star_along_the_row(said: str) -> None:
    worked = work_text(_STRIP + f"Row 2: Ch 1, sc in first 2 sc, *ch 2, sk 2 sc, sc in next 2 sc; {said}, sc in last 2 sc.\n")
    assert (worked.problems, worked.fabric.rows[-1].row.made, worked.fabric.rows[-1].row.chains) == ([], 12, 8)


@pytest.mark.parametrize("said", ["SC in same st, 2 SC in next st around", "sc in first st, 2 sc in next st around", "sc in same st, 2 sc in next st, repeat around"])
def test_what_is_told_from_the_first_stitch_comes_again(said: str) -> None:
    text = "Rnd 1: 9 sc in magic ring, join. (9)\nRnd 2: Ch 1, 2 sc in each st, join. (18)\n"
    assert _right(text + f"Rnd 3: Ch 1, {said}. Join. (27)\n")[-1] == 27


@pytest.mark.parametrize("label", ["(2sc)", "(2 sc each)"])
def test_a_bracket_that_says_again_what_goes_into_one_stitch(label: str) -> None:
    assert _right(f"Rnd 1: Ch 1, 9 sc in magic ring, join. (9 sc)\nRnd 2: Ch 1, 2 sc in each st {label}. Join. (18 sc)\n") == [9, 18]


def test_a_count_in_a_bracket_is_no_label() -> None:
    assert work_text("Rnd 1: 9 sc in magic ring. (9)\nRnd 2: 2 sc in each st around (17 sc), join.\n").problems


def test_worked_through_the_last_but_one() -> None:
    text = "Ch 20, join.\nRnd 1: Ch 3 (counts as dc), dc in each ch around, join. (20)\n"
    worked = work_text(text + "Rnd 2: Ch 1, sc in same st, *ch 3, sk 1 st, sc in next st; rep from * until the last but one st, hdc in first sc.\n")
    assert (worked.problems, _made(worked)[-1], worked.fabric.rows[-1].row.chains) == ([], 10, 27)  # the stitch that closes it apart
    told = "Rnd 2: Ch 1, *sc in next st, ch 1, sk 1 st; rep from * to last but one st, sc in last 2 sts, join.\n"
    assert _right(text + told)[-1] == 11


# -- two sorts of place ------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("said", "made"),
    [
        ("(2 dc, ch 2, 2 dc) in each ch-2 sp, dc in each dc around", 32),
        ("*(2 dc, ch 2, 2 dc) in ch-2 sp, dc in each dc; rep from * around", 32),
        ("3 sc in each ch-2 sp, sc in each dc around", 28),
        ("*3 sc in next ch-2 sp, sc in each dc; rep from * around", 28),
        ("(3 sc in ch-2 sp, sc in each dc) 4 times", 28),
        ("*sc in each dc, 3 sc in next ch-2 sp; rep from * around", 28),
        ("sc in each dc, 3 sc in each ch-2 sp around", 28),
        ("ch 3 (counts as dc), dc in each dc, (2 dc, ch 2, 2 dc) in each ch-2 sp around, join", 32),
    ],
)
def test_each_space_and_each_stitch_as_they_come(said: str, made: int) -> None:
    assert _right(_SQUARE + f"Rnd 3: {said}.\n")[-1] == made


def test_a_stitch_in_each_between_loops_is_one() -> None:
    text = "Rnd 1: 8 sc in magic ring, join. (8)\nRnd 2: *Sc in next sc, ch 4; rep from * around, join. (8 loops)\n"
    assert _right(text + "Rnd 3: Ch 1, *6 dc in 4-ch-sp, sc in each sc; rep from * around, join.\n")[-1] == 56


@pytest.mark.parametrize("said", ["(3 dc, ch 1) in each ch sp around", "*3 dc, ch 1 in next ch sp; rep from * around"])
@pytest.mark.parametrize("first", ["same ch sp", "same sp"])
def test_same_space_where_a_mesh_round_begins_on_a_stitch(first: str, said: str) -> None:
    text = "Ch 4, join to form a ring.\nRnd 1: Ch 4 (counts as dc and ch 1), (dc in ring, ch 1) 7 times, join in 3rd ch. (8 dc)\n"
    worked = work_text(text + f"Rnd 2: Ch 3 (counts as dc), 2 dc, ch 1 in {first}, {said}, join.\n")
    assert (worked.problems, worked.fabric.rows[-1].row.made, worked.fabric.rows[-1].row.chains) == ([], 24, 8)


def test_the_first_space_and_each_other_one() -> None:
    text = "Ch 4, join to form a ring.\nRnd 1: Ch 4 (counts as dc and ch 1), (dc in ring, ch 1) 7 times, join in 3rd ch. (8 dc)\n"
    assert _right(text + "Rnd 2: Ch 3 (is first dc), 2 dc, ch 1 in first ch sp, (3 dc, ch 1) in each other ch sp, join.\n")[-1] == 24


def test_the_same_space_in_a_solid_row_leaves_none_over() -> None:
    text = "Ch 22.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (21)\n"
    assert _right(text + "Row 2: Ch 1, *sc in next st, ch 3, 3 dc in same space, sk 3 sts; repeat from * to end, sc in last st.\n")[-1] == 21


# -- posts -------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("where", ["Behind petals", "At the back of the flower", "Working behind the petals"])
def test_the_post_behind_petals_stands_between_them(where: str) -> None:
    petals = "Rnd 2: (Sc, hdc, dc, hdc, sc) in each ch-2 sp around, join. (40)\n"
    worked = work_text(_WHEEL + petals + f"Rnd 3: {where}, *sc around the post, ch 4; rep from * around, join.\n")
    assert (worked.problems, worked.fabric.rows[-1].row.made, worked.fabric.rows[-1].row.chains) == ([], 8, 32)


def test_a_raised_stitch_goes_round_the_next_post() -> None:
    assert _right("Rnd 1: 12 dc in magic ring, join. (12)\nRnd 2: Ch 1, *sc in next st, fpdc around the post; rep from * around, join.\n")[-1] == 12


def test_which_post_a_plain_stitch_goes_round_has_to_be_said() -> None:
    worked = work_text("Rnd 1: 12 dc in magic ring, join. (12)\nRnd 2: Ch 1, *sc around the post, ch 2; rep from * around, join.\n")
    assert ["post is meant" in problem.says for problem in worked.problems] == [True]


@pytest.mark.parametrize("raised", ["fpst", "fp st", "front post st", "post st"])
def test_a_raised_stitch_of_whatever_height(raised: str) -> None:
    text = "Rnd 1: 12 dc in magic ring. (12)\nRnd 2: (2 sc in next st, fpsc around next st) 6 times. (18)\n"
    assert _right(text + f"Rnd 3: (sc in next 2 sts, fpsc around next {raised}) around.\nRnd 4: (sc in next 2 sts, 2 sc in next {raised}) around.\n")[-2:] == [18, 24]


def test_a_raised_stitch_that_is_not_there() -> None:
    assert work_text("Rnd 1: 12 dc in magic ring. (12)\nRnd 2: (sc in next 2 sts, fpdc around next fpst) around.\n").problems


def test_counted_raised_stitches() -> None:
    text = "Rnd 1: 12 dc in magic ring. (12)\nRnd 2: Ch 2, (fpdc around next st, dc in next st) around, join. (6 dc, {} fpst)\n"
    assert [bool(work_text(text.format(n)).problems) for n in (6, 7)] == [False, True]


# -- rope, foundations, talk -------------------------------------------------------------------------------------------


@pytest.mark.parametrize("said", ["2 sc over the rope in every sc", "make 2 sc around the cord in each st", "2 sc in each sc over the clothesline", "working over the twine in each st make 2 sc"])
def test_work_over_a_rope(said: str) -> None:
    assert _right(f"Rnd 1: 8 sc in magic ring. (8)\nRnd 2: {said} (16).\n")[-1] == 16


@pytest.mark.parametrize("begun", ["Make a magic ring or a ch5 closed with a slip stitch.", "Begin with a magic loop or ch 4 and join with sl st into a ring."])
def test_a_ring_or_a_chain_closed(begun: str) -> None:
    assert _right(f"Rnd 1: {begun} Ch 1, 7 sc in the ring.\nRnd 2: 2 sc in each st. (14)\n") == [7, 14]


def test_talk_of_markers_and_of_what_comes_next() -> None:
    text = "Rnd 3: sc in each st around. (A marker in the last stitch of each row helps a lot!) (12)\nNext comes the first row of the side.\n"
    assert _right(_DISC + text + "Rnd 4: sc in back loop of each st around. (12)\n") == [6, 12, 12, 12]


# -- heads and rows ----------------------------------------------------------------------------------------------------


def test_rows_numbered_on_from_rounds_that_turn_short() -> None:
    text = "Magic ring.\n1 - Ch 1, 8 hdc in ring. Join (8)\n2 - Ch 1. 2 hdc in each stitch around. Join (16 hdc)\n3 through 5 - Ch 1. hdc around. Join (16 hdc)\n"
    worked = work_text(text + "6 - Ch 1. hdc in next 11 st. Turn. (11 hdc)\n7 through 9 - Ch 1. hdc in each st. Turn. (11 hdc)\n")
    assert (worked.problems, _made(worked)) == ([], [8, 16, 16, 16, 16, 11, 11, 11, 11])


@pytest.mark.parametrize("where", ["Top", "Outer", "Bottom"])
def test_a_border_by_its_place(where: str) -> None:
    text = "Ch 30, join.\nRnd 1: Ch 1, sc in each ch around, join. (30)\n"
    worked = work_text(text + f"{where} border: Ch 1 and hdc in each stitch around. Join to beginning ch 1.\n")
    assert (worked.problems, _made(worked)) == ([], [30, 30])


def test_numbers_of_a_list_with_no_stop() -> None:
    text = "1.   Round 1: 6 sc in magic ring. (6 sts)\n2    Round 2: 2 sc in each st around. (12 sts)\n3    Round 3: [sc in next, 2 sc in next] around. (18 sts)\n"
    assert _right(text) == [6, 12, 18]
