"""Second sides of a neck, and a first one that goes on over its own stitches. Common practice, no source."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import work_text

WIDE = "Ch 31.\nRow 1: Sc in 2nd ch from hook and in each ch across. (30 sc)\n"
FIRST = "Right shoulder:\nRow 2: Ch 1, turn, sc in first 12 sts, turn.\nRow 3: Ch 1, sc2tog, sc in each st across. (11 sc) Fasten off.\n"


@pytest.mark.parametrize(
    "second",
    [
        "Left shoulder: Row 2: Skip center 6 sts for neck, join yarn in next st, ch 1, sc in same st and in each st to end. (12 sc)",
        "Left shoulder:\nRow 2: With RS facing, sk next 6 sc, join with sl st in next sc, ch 1, sc in same st and in each st to end. (12 sc)",
        "Left shoulder:\nSkip 6 sts of Row 1, rejoin yarn in next st.\nRow 2: Ch 1, sc in same st and in each st to end. (12 sc)",
        "Miss next 6 sts at center, rejoin yarn to next st and work on rem 12 sts as follows:\nRow 2: Ch 1, sc in same st and in each st to end. (12 sc)",
    ],
)
def test_a_second_side_goes_on_over_what_the_first_has_left(second: str) -> None:
    worked = work_text(WIDE + FIRST + second + "\nRow 3: Ch 1, turn, sc to last 2 sts, sc2tog. (11 sc)")
    assert worked.problems == []
    assert [[row.row.made for row in piece.fabric.rows] for piece in worked.pieces] == [[30, 12, 11], [12, 11]]


def test_sides_that_number_their_own_rows() -> None:
    sides = (
        "Right shoulder:\nRow 1: Ch 1, turn, sc in first 12 sts, turn.\nRow 2: Ch 1, sc in each st across. Fasten off.\n"
        "Left shoulder:\nRow 1: Skip 6 sts, join yarn in next st, ch 1, sc in same st and in each st to end. (12 sc)"
    )
    worked = work_text(WIDE + sides)
    assert worked.problems == []
    assert [[row.row.made for row in piece.fabric.rows] for piece in worked.pieces] == [[30, 12, 12], [12]]


def test_too_many_skipped_are_told() -> None:
    second = "Left shoulder: Row 2: Skip center 8 sts for neck, join yarn in next st, ch 1, sc in same st and in each st to end. (12 sc)"
    worked = work_text(WIDE + FIRST + second)
    assert [p.says for p in worked.problems] == ["the row makes 10 sc; the count says 12"]


def test_a_row_that_joins_further_on_in_its_turn_is_no_second_side() -> None:
    worked = work_text(WIDE + "Fasten off.\nRow 2: Skip first 5 sts, join yarn in next st, ch 1, sc in same st and in next 19 sts, leave rem 5 sts unworked. (20 sc)")
    assert [row.row.made for row in worked.fabric.rows] == [30, 20]


@pytest.mark.parametrize("said", ["Cont on these 12 sts for first side.", "Work on these 12 sts only.", "Continue over those 12 sc to shape neck.", "Now work on these 12 sts as follows:"])
def test_the_stitches_gone_on_with_are_a_count(said: str) -> None:
    text = WIDE + "Row 2: Ch 1, turn, sc in each of next {n} sts, leave rem sts unworked, turn. {said}\nRow 3: Ch 1, sc in each sc across. ({n} sc)"
    worked = work_text(text.format(n=12, said=said))
    assert worked.problems == []
    assert [row.row.made for row in worked.fabric.rows] == [30, 12, 12]
    assert work_text(text.format(n=13, said=said)).problems


@pytest.mark.parametrize("again", ["Repeat this row 4 times. (6 rows total)", "Rep last row 4 more times, for a total of 6 rows.", "Repeat Row 2 four more times."])
def test_a_ribbing_told_in_lines_of_its_own_before_rounds(again: str) -> None:
    text = f"Ribbing: Ch 9, sc in 2nd ch from hook and in each ch across. (8 sc)\nRow 2: Ch 1, turn, sc in back loops only across. {again}\n"
    worked = work_text(text + "Sl st ends together.\nRnd 1: Ch 1, sc in end of each row, sl st to first sc. (6 sc)")
    assert worked.problems == []
    assert [row.row.made for row in worked.fabric.rows] == [8] * 6 + [6]
