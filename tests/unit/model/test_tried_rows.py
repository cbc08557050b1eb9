"""What an earlier try of a row worked is no place for the try that stands."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows import not_given
from hookfold.charts.model.rows.work import work_text

ROW = "Over {width} sc.\nRow 1: {row}.\n"
REPEAT = "*Sc in next st, sk next st; rep from * across"


@pytest.mark.parametrize(
    ("width", "row"),
    [
        (6, f"{REPEAT}, ending with sc in next st, ch 4, sc in 2nd ch from hook, sc in last st"),
        (8, f"{REPEAT}, ending with sc in next st, ch 4, sc in 2nd ch from hook, sc in last st"),
        (8, f"{REPEAT}, ending with sc in next st, ch 5, sc in 2nd ch from hook, sc in last st"),
        (6, f"{REPEAT}, ending with ch 4, sc in 2nd ch from hook, sc in last st"),
        (6, f"{REPEAT}, sc in next st, ch 4, sc in 2nd ch from hook, sc in last st"),
        (6, f"{REPEAT}, ending with sc in next st, ch 6, sc in 2nd ch from hook, sc in last 2 sts"),
        (9, "*Dc in next st, sk next 2 sts; rep from * across, ending with dc in next st, ch 4, "
            "sc in 2nd ch from hook, dc in last st"),
        (6, "Sc in next 5 sts, ch 4, sc in 2nd ch from hook, sc in last ch, sc in last sc"),
    ],
)  # fmt: skip
def test_last_with_a_chain_half_worked_may_be_either(width, row):
    (problem,) = work_text(ROW.format(width=width, row=row)).problems
    assert problem.kind == "ambiguous" and problem.where == "Row 1"
    assert problem.says.startswith('"last ') and "the chain just made" in problem.says


@pytest.mark.parametrize(
    ("width", "row", "feet"),
    [
        (6, f"{REPEAT}, ending with sc in next st, ch 4, sc in 2nd ch from hook, sc in last sc",
         [(1, 5, 0), (1, 3, 0), (1, 1, 0), (0, 4, 2), (1, 0, 0)]),
        (6, f"{REPEAT}, ending with sc in next st, ch 4, sc in 2nd ch from hook, sc in next 2 ch, sc in last st",
         [(1, 5, 0), (1, 3, 0), (1, 1, 0), (0, 4, 2), (0, 4, 1), (0, 4, 0), (1, 0, 0)]),
        (4, "Sc in next st, ch 4, sl st in 2nd ch from hook, sc in next sc, sc in next st, sc in last st",
         [(1, 3, 0), (0, 2, 2), (1, 2, 0), (1, 1, 0), (1, 0, 0)]),
    ],
)  # fmt: skip
def test_a_chain_is_worked_only_by_the_words_that_follow_it(width, row, feet):
    worked = work_text(ROW.format(width=width, row=row))
    assert [p.report() for p in worked.problems] == []
    made = worked.fabric.rows[0].row.stitches
    assert [(f.back, f.at, f.part) for s in made for f in s.feet] == feet


@pytest.mark.parametrize(("first", "made"), [(2, 2), (3, 3), (6, 6)])
def test_a_row_of_the_first_stitches_and_a_turn_leaves_the_others(first, made):
    """Common practice of short rows, no source."""
    text = "Terms: US\nCh 13.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (12 sc)\n"
    worked = work_text(f"{text}Row 2: Ch 1, sc in each of first {first} sts, turn.\n")
    assert not worked.problems and [row.row.made for row in worked.fabric.rows] == [12, made]


@pytest.mark.parametrize(
    ("row", "asks"),
    [
        ("Row 1: Sc in 2nd ch from hook, sc in next 11 ch. (12 sts)", "13 chains"),
        ("Row 1: [Sc in next 2 sts, 2 sc in next st] 30 times. (120 sts)", "90 stitches"),
        ("Row 1: Sc in next 9 sts, hdc in next st. (12 sts)", ""),
    ],
)
def test_what_a_row_by_number_is_worked_on_is_found_at_once(row, asks, monkeypatch):
    tried = []
    over = not_given._over
    monkeypatch.setattr(not_given, "_over", lambda w, task, how, count: tried.append(count) or over(w, task, how, count))
    (says,) = work_text(f"Terms: US\n{row}\n").assumed
    assert says.endswith(f"asks for {asks}" if asks else "is not checked") and len(tried) <= 3
