""" "V-st sp", "shell sp": the space in such a group and no other; and groups that only the rows above show."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import work_text

CHAINED = """Terms: US
V-st: (dc, ch 1, dc) in same st.
Ch 14.
Row 1: Sc in 2nd ch from hook and in each ch across. (13 sc)
Row 2: Ch 4, turn, sk next st, *V-st in next st, ch 1, sk next st; rep from * 4 more times, dc in last st.
"""
CLOSED = """Terms: US
{told}
Ch 14.
Row 1: Sc in 2nd ch from hook and in each ch across. (13 sc)
Row 2: Ch 3, turn, sk next st, *V-st in next st, sk next st; rep from * 4 more times, dc in last st. (12 dc)
"""


def said(text: str) -> tuple[list[str], list[int]]:
    worked = work_text(text)
    return [p.where for p in worked.problems], [row.row.made for row in worked.fabric.rows]


@pytest.mark.parametrize(
    "row",
    [
        "V-st in each V-st sp across, dc in last st.",
        "V-st in each V-stitch space, dc in last st.",
        "*V-st in next V-st sp, ch 1; rep from * across, dc in last st.",
        "V-st in ch-1 sp of each V-st, dc in last st.",
    ],
)
def test_the_spaces_between_are_passed_over(row: str) -> None:
    assert said(CHAINED + f"Row 3: Ch 3, turn, {row}") == ([], [13, 12, 12])


def test_any_space_is_any_space() -> None:
    made = said(CHAINED + "Row 3: Ch 1, turn, 2 sc in each ch-1 sp across.")[1][-1]
    assert made in (20, 22)  # whether the space of the turning chain is one of them is a matter of taste


@pytest.mark.parametrize("told", ["V-st: (dc, dc) in same st.", "V-Stitch: 2 dc in one stitch", "Special stitch: V-stitch (2 dc in same st)"])
@pytest.mark.parametrize("place", ["each V-st sp", "each of the V-stitch spaces", "sp of each V-st"])
def test_a_group_without_chains_has_its_space_in_the_middle(told: str, place: str) -> None:
    row = f"Row 3: Ch 3, turn, V-st in {place}, dc in last st. (12 dc)\n"
    assert said(CLOSED.format(told=told) + row + "Rows 4-9: Rep Row 3.") == ([], [13] + [12] * 8)


def test_the_space_of_a_group_of_the_pattern_s_own() -> None:
    text = """Terms: US
Fan: (2 dc, ch 2, 2 dc) in same st.
Ch 18.
Row 1: Sc in 2nd ch from hook, *ch 2, sk 3 ch, fan in next ch, ch 2, sk 3 ch, sc in next ch; rep from * across.
Row 2: Ch 5, turn, *sc in next fan sp, ch 7; rep from * to last fan, sc in last fan sp, ch 2, dc in last sc.
"""
    assert said(text) == ([], [11, 4])


def test_a_shell_that_only_the_row_above_shows() -> None:
    rows = [
        "Terms: US\nCh 20.\nRow 1: Sc in 2nd ch from hook, *sk 2 ch, 5 dc in next ch, sk 2 ch, sc in next ch; rep from * across.\n",
        "Row 2: Ch 3, turn, 2 dc in first sc, *sc in center of shell, shell in next sc; rep from * to last shell, sc in center of last shell, 3 dc in last sc.",
    ]
    worked = work_text("".join(rows))
    assert [row.row.made for row in worked.fabric.rows] == [19, 19] and not worked.problems
    assert any("nowhere explained; it was taken for" in note.says for note in worked.notes)


def test_a_shell_that_nothing_shows_is_told() -> None:
    rows = "Terms: US\nCh 20.\nRow 1: Sc in 2nd ch from hook and in each ch across.\nRow 2: Ch 1, turn, sc in first st, *sk 2, shell in next, sk 2, sc in next; rep from * across."
    assert said(rows)[0] == ["Row 2"]
