"""Pages that go their own way: rounds told before the first head, rows said again in other words, counts of rows that numbers
prove."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import Worked, work_text


def _counts(worked: Worked) -> list[int]:
    return [row.row.made for row in worked.fabric.rows]


def _kinds(worked: Worked) -> list[dict[str, int]]:
    return [dict(row.row.kinds()) for row in worked.fabric.rows]


_STRIP = "Row 1: Ch 9, sc in 2nd ch from hook and in each ch. Turn. [8]\nRow 2: Ch 1, sc in each. Turn. [8]"


@pytest.mark.parametrize(
    "again",
    [
        "\n... repeat row (2) a further 4 times.", "\nRepeat row 2 an additional 4 times.", "\nRepeat row 2 x 4.", " Rep last row four further times. Turn.",
        "\nRep this row 4 times again.", "\nDo this 4 more times.", "\nRepeat that 4 times.", "\n4 more rows like Row 2.", "\nRepeat row 2 for a further 4 rows.",
    ],
)  # fmt: skip
def test_rows_said_again_in_other_words(again: str) -> None:
    worked = work_text(f"{_STRIP}{again}\nRow 7: Ch 1, 2 sc in each. Turn. [16]\n")
    assert worked.problems == []
    assert _counts(worked) == [8, 8, 8, 8, 8, 8, 16]


def test_this_again_is_no_row_where_the_numbers_do_not_fit() -> None:
    worked = work_text(f"{_STRIP}\nDo this 4 more times.\nRow 5: Ch 1, 2 sc in each. Turn. [16]\n")
    assert len(worked.fabric.rows) == 3


@pytest.mark.parametrize(
    "first",
    [
        "What I did: 7 single crochet in a magic ring.", "I made 7 sc in a magic ring.", "First: magic ring, 7 sc in it.", "Magic ring. 7 sc.",
        "Step one: 7 single crochets in a magic ring.", "Here we go: Ch 2, 7 sc in the 2nd ch from hook.", "Work 7 sc into a loop.",
        "Set-up: With grey yarn make a magic ring and work 7 sc into it.", "Ch 2. Work 7 sc in 2nd ch.", "Begin with 7 sc in a ring. (7)",
        "Chain 2 and work 7 single crochets into the second chain from your hook.", "How it goes: work 7 sc in a magic ring, do not join.",
    ],
)  # fmt: skip
@pytest.mark.parametrize("number", [1, 2])
def test_a_first_round_told_before_the_first_head(first: str, number: int) -> None:
    worked = work_text(f"Owl body\n\n{first}\nRnd {number}: 2 sc in each st around. (14 sc)\nRnd {number + 1}: (sc in next st, 2 sc in next st) around. (21 sc)\n")
    assert worked.problems == []
    assert _counts(worked) == [7, 14, 21]


def test_a_stitch_worked_in_a_ring_is_no_first_round() -> None:
    worked = work_text("Puff: 3 dc in a ring\nCh 6, join to form a ring.\nRnd 1: Ch 3, 11 dc in ring, join.\nRnd 2: Ch 1, puff in each st around. (12 sc)\n")
    assert [problem.where for problem in worked.problems] == ["Rnd 2"]


@pytest.mark.parametrize("said", ["2sc ss", "2 sc same st", "2 sc in ss", "2sc s/s"])
def test_two_in_the_same_stitch_on_a_page_that_says_it_of_each(said: str) -> None:
    worked = work_text(f"Rnd 1: 7 sc in a magic ring. (7)\nRnd 2: {said} in each st around. (14 sc)\nRnd 3: {said}, sc in the next st, repeat to end. (21 sc)\nRnd 4: {said}, sc 2x, repeat to end. (28 sc)\n")
    assert worked.problems == []
    assert _kinds(worked) == [{"sc": 7}, {"sc": 14}, {"sc": 21}, {"sc": 28}]


def test_a_slip_stitch_behind_two_stitches_stays_one() -> None:
    worked = work_text("Rnd 1: 7 sc in a magic ring. (7)\nRnd 2: 2 sc in each st around. (14 sc)\nRnd 3: Sc in next 12 sts, 2 sc, ss in first st. (14 sc)\n")
    assert worked.problems == []


@pytest.mark.parametrize(
    "text",
    [
        "UK Terminology\nMake a foundation chain of 22 chain stitches\nTurn, 1htc in 2nd chain from hook, 1htc in each\nchain to end, turn (21sts)\nTurn, 10htc, 3htc in next st,\n10htc (23sts)\nTurn, 1htc in each st (23sts)\n",
        "Face cloth\n\nCh 22, sc in 2nd ch from hook and across. Turn.\nCh 1, 10 sc, 3 sc in next st, 10 sc. Turn.\nCh 1, sc across. Turn. (23)\n",
        "Face cloth\n\nCh 22. Sc in 2nd ch from hook and across. Turn. Ch 1, 10 sc, 3 sc in next st, 10 sc. Turn. Ch 1, sc across. Turn. (23)\n",
        "Face cloth\n\n22 ch\nturn, miss 1 ch, 21 sc (21 sts)\nturn, ch 1, 10 sc, 3 sc in next st,\n10 sc (23 sts)\nturn, ch 1, 23 sc (23 sts)\n",
        "Face cloth\n\nCh 22 loosely.\nSc in 2nd ch from hook and in each ch to the end - 21 sc\nCh 1, turn, sc in the next\n10 sts, 3 sc in next st, sc in the last 10 sts - 23 sc\nCh 1, turn, sc in each st - 23 sc\n",
    ],
)
def test_rows_without_heads_in_broken_lines(text: str) -> None:
    worked = work_text(text)
    assert worked.problems == []
    assert _counts(worked) == [21, 23, 23]


def test_a_wrong_count_of_a_row_without_a_head_is_told() -> None:
    worked = work_text("Cloth\n\n22 ch\nturn, miss 1 ch, 21 sc (21 sts)\nturn, ch 1, 10 sc, 3 sc in next st,\n10 sc (24 sts)\n")
    assert [problem.where for problem in worked.problems] == ["Row 2"]


_RING_WORDS = ["Join 6 chains to a ring, work 24 dc into this ring", "Form a ring with 6 chains, then 24 dc in the ring", "Make a ring of 6 ch. 24 dc in ring", "Crochet a ring of 6 chains and work 24 dc into it"]


@pytest.mark.parametrize("said", _RING_WORDS)
def test_a_ring_told_by_its_chains(said: str) -> None:
    worked = work_text(f"1. Rd: {said}\n2. Rd: 2 dc in every dc\n")
    assert worked.problems == []
    assert _counts(worked) == [24, 48]


def test_stars_round_stitches_that_go_into_one_place_named_behind_them() -> None:
    worked = work_text("""Ch 6, join to form a ring.
1. Rd: 18 dc into ring
2. Rd: *1 dc, 2 ch, 1 dc, 1 ch* in every third stitch
3. Rd: *2 dc, 2 ch, 2 dc* into the two chains of previous row, 1 chain between
4. Rd: *4 dc into the two ch of previous row, 1 ch*
5. Rd: *1 sc in ch of previous row, 4 ch*
6. Rd: *7 dc into the 4 ch of previous row*
7. Rd: *1 dc, 1 ch, 1 dc* into every sixth stitch; 7 times
8. Rd: *3 dc* into the ch of the previous row
9. Rd: *2 dc, 1 ch, 2 dc* between the 3 dc of the previous row
10. Rd: as round 8
""")
    assert worked.problems == []
    assert _counts(worked) == [18, 12, 24, 24, 6, 42, 14, 21, 28, 21]


def test_times_that_do_not_come_out_even_are_told() -> None:
    worked = work_text("Ch 6, join to form a ring.\nRnd 1: 24 dc in ring\nRnd 2: (dc, ch 1, dc) in every fourth stitch, 5 times\n")
    assert [problem.where for problem in worked.problems] == ["Rnd 2"]
