"""Rows with words or marks that cannot be read are complained of, and worked without them where they then come out."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import work_text

_BEGUN = "Ch 22.\nRow 1: Dc in 4th ch from hook and in each ch across. (20 dc)\n"
_NEXT = "Row 3: Ch 3, turn, dc in each st across.\n"


@pytest.mark.parametrize(
    ("row", "made"),
    [
        ("Ch 3, turn, dc in next st, *2 dc in next st, skip next st; rep from * till the glorp row.", 20),
        ("Ch 3, turn, dc in next st, *sk next st, 2 dc in next st; repeat from * till glorp row.", 20),
        ("Ch 3, turn, sc in next st, 2 dc in next st, skip next st, rep from * around. (1 sc, 19 dc)", 20),
        ("Ch 3, turn, dc in flurbly next st and in each st across, 3 sc in blorp. (20 dc)", 20),
    ],
)
def test_what_is_left_is_worked_where_it_comes_out(row: str, made: int):
    worked = work_text(f"{_BEGUN}Row 2: {row}\n{_NEXT}")
    assert {p.where for p in worked.problems} == {"Row 2"}
    assert [r.row.made for r in worked.fabric.rows] == [20, made, made]


def test_what_does_not_come_out_hands_on_its_count():
    row = "Ch 3, turn, dc in next st, *2 dc in next st, glorp twice; rep from * across. (20 dc)"
    worked = work_text(f"{_BEGUN}Row 2: {row}\n{_NEXT}")
    assert [p.where for p in worked.problems] == ["Row 2"]
    assert worked.fabric.rows[2].row.made == 20


def test_a_row_worked_without_its_words_is_no_proof_for_the_next():
    worked = work_text(f"{_BEGUN}Row 2: Ch 3, turn, dc in next st, *2 dc in next st, skip next st; rep from * till the glorp row.\n{_NEXT}")
    assert worked.proved == ("yes", "no", "no")
