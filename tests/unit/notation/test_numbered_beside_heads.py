"""Rows that are told by numbers alone beside others that are named, and pairs of numbers for two sizes."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import work_text

_CAP = """Ch 5, join in a ring.
1. Ch 1, 8 sc in ring, join. (8)
2. Ch 1, 2 sc in each sc, join. (16)
{third} 3-5, rep round 2 again, but 1 sc in each sc. (16)
6. Ch 1, 2 sc in next st, sc to end. (17)
,7 to 9. Sc in each st around. (17)
Weave in the ends.
1. Fold the cap.
2. Sc the edges together.
"""


@pytest.mark.parametrize("word", ["Round", "Rnd", "Row"])
def test_numbers_that_count_up_to_a_named_row_and_on_from_it_are_rows_of_its_kind(word: str) -> None:
    text = _CAP.replace("{third} 3-5, rep round 2 again, but 1 sc in each sc.", f"{word} 3-5: Ch 1, sc in each sc, join.")
    worked = work_text(text)
    assert [row.row.made for row in worked.fabric.rows] == [8, 16, 16, 16, 16, 17, 17, 17, 17]
    assert {row.label.split()[0] for row in worked.fabric.rows} == {word}
    assert not [p for p in worked.problems if p.line < 8]


def test_a_count_that_is_off_in_such_a_row_is_told_there() -> None:
    text = "Ch 6.\n1. Sc in 2nd ch and in each ch. (5)\n2. Ch 1, turn, sc in each sc. (6)\nRow 3: Ch 1, turn, sc in each sc. (5)\n"
    assert [p.where for p in work_text(text).problems] == ["Row 2"]


def test_numbers_that_do_not_reach_the_first_named_row_are_no_rows() -> None:
    text = "To begin:\n1. Sc a few stitches to try the hook.\nCh 6.\nRow 3: Sc in 2nd ch and in each ch. (5)\n"
    assert [row.label for row in work_text(text).fabric.rows] == ["Row 3"]


@pytest.mark.parametrize(
    "said", ["Larger size is in brackets.", "For the small size; all larger sizes in ( ).", "Figures in parentheses are for the adult size."]
)
def test_pairs_of_numbers_are_two_sizes_where_a_note_says_so(said: str) -> None:
    text = f"{said}\nCh 11 (16).\nRow 1: Sc in 2nd ch and in each ch across. 10 (15 sts)\nRows 2-4 (2-5): Ch 1, turn, sc in each sc. 10 (15 sc)\n"
    small, large = work_text(text), work_text(text, size=1)
    assert (small.sizes, small.problems, large.problems) == (2, [], [])
    assert [row.row.made for row in small.fabric.rows] == [10] * 4
    assert [row.row.made for row in large.fabric.rows] == [15] * 5


def test_without_such_a_note_a_number_in_brackets_is_what_the_row_makes() -> None:
    worked = work_text("Ch 11.\nRow 1: Sc in 2nd ch and in next 9 (10)\n")
    assert (worked.sizes, worked.problems) == (1, [])


@pytest.mark.parametrize("sides", [("RS", "WS"), ("Right side", "Wrong side")])
def test_a_side_before_a_row_is_the_rows_and_no_piece(sides: tuple[str, str]) -> None:
    right, wrong = sides
    text = f"Ch 9.\n{right} Row 1: Sc in 2nd ch and in each ch across. (8)\n{wrong} Row 2: Ch 1, turn, sc in each sc. (8)\n{right} Row 3: As Row 1, but ch 1, turn, sc in each sc. (8)\nRow 4: Repeat Row 2. (8)\n"
    worked = work_text(text)
    assert [(row.label, row.side) for row in worked.fabric.rows][:2] == [("Row 1", "RS"), ("Row 2", "WS")]
    assert len(worked.pieces) == 1


def test_a_pair_of_sizes_may_be_told_in_words_and_a_hook_is_no_size() -> None:
    text = "Size H (5.00 mm) hook. For the larger size follow the numbers in parentheses.\nCh 11 (13).\nRow 1: Sc in 2nd ch and in each ch across. (10 (12) sc)\nRow 2: Ch 1, turn, sc in each sc.\nRows 3-5 (3-6): Repeat row 2 three (four) more times.\n"
    small, large = work_text(text), work_text(text, size=1)
    assert (small.problems, len(small.fabric.rows), len(large.fabric.rows)) == ([], 5, 6)
    assert not any("5.00" in name for name in small.size_names)
