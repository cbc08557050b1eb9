"""Rows that come again until so many stitches are there. Common practice, no source."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import work_text

BEGUN = "Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across.\n"
NARROWS = "Row 2: Ch 1, turn, sc2tog, sc in each st to last 2 sts, sc2tog.\n"
ONE_LESS = "Row 2 (dec row): Ch 1, turn, sc2tog, sc in each st across. (19 sc)\n"
GROWS = "Row 2: Ch 1, turn, 2 sc in first st, sc in each st across.\n"


def made(text: str) -> list[int]:
    worked = work_text(text)
    assert worked.problems == []
    return [row.row.made for row in worked.fabric.rows]


@pytest.mark.parametrize(
    ("rows", "counts"),
    [
        (NARROWS + "Repeat Row 2 until 8 sc rem.", [20, 18, 16, 14, 12, 10, 8]),
        (NARROWS + "Rep last row until there are 14 sts left. Fasten off.", [20, 18, 16, 14]),
        (NARROWS[:-1] + " Repeat this row until 14 sc remain.", [20, 18, 16, 14]),
        (NARROWS + "Continue to repeat Row 2 down to 14 sts.", [20, 18, 16, 14]),
        (NARROWS + "Row 3: Ch 1, turn, sc in each st across.\nRep the last two rows till 14 sts remain.", [20, 18, 18, 16, 16, 14]),
        (ONE_LESS + "Rep dec row until 17 sts.", [20, 19, 18, 17]),
        (GROWS + "Work 2nd row until there are 23 sc on row.", [20, 21, 22, 23]),
        (GROWS + "Repeat row 2 until you have 23 sts.\nRow 3: Ch 1, turn, sc in each sc across. (23 sc)", [20, 21, 22, 23, 23]),
    ],
)
def test_rows_come_again_until_so_many_stitches_are_there(rows: str, counts: list[int]) -> None:
    assert made(BEGUN + rows) == counts


@pytest.mark.parametrize(
    "said",
    [
        "Continue to dec 1 st at neck edge every other row until 14 sts remain.",
        "Keep decreasing in this manner at armhole edge until 14 sc rem.",
        "Work in pattern as established, dec 1 st each end every 4th row, until there are 14 sts on row.",
    ],
)
def test_rows_that_are_not_told_one_by_one_hand_on_the_count_they_come_to(said: str) -> None:
    worked = work_text(f"{BEGUN}{ONE_LESS}{said}\nNext row: Ch 1, turn, sc in each st across. (14 sc)")
    assert worked.problems == []
    assert [row.row.made for row in worked.fabric.rows] == [20, 19, 14, 14]
    assert any("come to 14 sts is not said" in note.says for note in worked.notes)


def test_a_count_that_is_never_reached_is_told() -> None:
    worked = work_text(BEGUN + NARROWS + "Repeat Row 2 until 7 sts remain.")
    assert [p.says for p in worked.problems] == ["these rows do not come to 7 sts: they make 8, then 6"]


def test_rows_until_a_number_of_rows_are_counted_in_rows() -> None:
    assert made(BEGUN + "Row 2: Ch 1, turn, sc in each st across.\nRepeat Row 2 until there are 5 rows.") == [20] * 5
