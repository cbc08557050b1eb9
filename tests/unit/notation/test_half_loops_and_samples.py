"""Rounds of loops that end with a half one, and foundations told by a multiple with the sample's number beside it."""

import pytest
from hookfold.charts.model.rows.work import work_text

SC = "Ch 4, join.\nRnd 1: Ch 1, 15 sc in ring, join.\n"


# A round of loops that ends with a few chains and a tall stitch has them as its last loop (common practice, no source).
@pytest.mark.parametrize(
    "words",
    [
        "*Ch 5, sk 2 sts, sc in next st* around, ending last repeat with ch 2, dc in base of first ch 5.",
        "*Ch 5, sk 2 sts, sc in next st; rep from * around, ending with ch 2, dc in base of first ch-5.",
        "*Ch 5, sk 2 sts, sc in next st* around, ending last repeat with ch 2, dc in joining st.",
        "*Ch 5, sk 2 sts, sc in next st* around, ending with ch 2, dc in same st as joining.",
        "*Ch 5, sk 2 sts, sc in next st* 4 times, ch 2, dc in base of first ch-5.",
        "*Ch 5, sk 2 sts, sc in next st; rep from * 3 more times, ch 2, dc in sl st.",
        "Ch 1, sc in first st, *ch 5, sk 2 sts, sc in next st; rep from * around, ending with ch 2, dc in first sc.",
    ],
)
def test_a_half_loop_is_the_last_of_a_round(words):
    found = work_text(f"{SC}Rnd 2: {words}")
    assert not found.problems
    loops = [s.chains for s in found.fabric.rows[1].row.stitches if s.role == "chain"]
    assert loops == [5, 5, 5, 5, 2]


def test_a_whole_loop_at_the_end_of_a_round_is_one_more():
    found = work_text(f"{SC}Rnd 2: *Ch 5, sk 2 sts, sc in next st* around.")
    assert [s.chains for s in found.fabric.rows[1].row.stitches if s.role == "chain"] == [5, 5, 5, 5, 5]


@pytest.mark.parametrize(
    "words",
    [
        "Ch a multiple of 3 plus 2. (I made 32.)",
        "Ch a multiple of 3 + 2 (mine was 32).",
        "Start with a chain in a multiple of 3 + 2. For my scarf I did 32.",
        "Ch any multiple of 3 plus 2 - the sample uses 32.",
        "Foundation: multiple of 3 + 2 ch. (32 for the one shown)",
    ],
)
def test_the_number_of_the_sample_is_the_foundation(words):
    found = work_text(f"{words}\nRow 1: Sc in 2nd ch from hook and in each ch across.")
    assert found.fabric.rows[0].row.made == 31


@pytest.mark.parametrize(
    ("words", "made"),
    [
        ("dec at beg and end of row, sc in all other sts", 28),
        ("dec 1 at each end, sc in all the others", 28),
    ],
)
def test_all_others_are_as_many_as_are_left(words, made):
    found = work_text(f"Ch 31.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn.\nRow 2: Ch 1, {words}.")
    assert not found.problems and found.fabric.rows[1].row.made == made


@pytest.mark.parametrize("words", ["(I made 32 of them.)", "I made 33.", "(I used 32 mm buttons.)"])
def test_a_number_that_is_of_something_else_is_no_foundation(words):
    found = work_text(f"Ch a multiple of 3 plus 2. {words}\nRow 1: Sc in 2nd ch from hook and in each ch across.")
    assert found.fabric.rows[0].row.made == 10
