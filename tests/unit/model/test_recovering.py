"""Rows after one that cannot be read go on over what they can lie on, and one that is misprinted is still found."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import work_text

BASKET = """Terms: US
Ch 24.
Row 1: Dc in 4th ch from hook (3 skipped ch count as dc) and in each ch across. (22 dc)
Row 2: {odd}
Row 3: {third}
Row 4: {fourth}
"""
UNREAD = "Ch 2, turn, plonk 1 dc against each of next 2 sts, wobble to end."


def made(third, fourth, odd=UNREAD):
    worked = work_text(BASKET.format(odd=odd, third=third, fourth=fourth))
    rows = worked.fabric.rows
    return [p.where for p in worked.problems], [row.row.kinds() for row in rows[2:]]


def test_a_row_without_a_count_goes_over_as_many_as_there_were():
    where, kinds = made("Ch 1, turn, sc in each st across.", "Ch 1, turn, hdc in each st across.")
    assert set(where) == {"Row 2"} and kinds == [{"sc": 22}, {"hdc": 22}]


@pytest.mark.parametrize("count,words", [(33, "*sc in next st, 2 sc in next st; rep from * across"),
                                         (15, "*sc2tog, sc in next st; rep from * across, sc in last st")])  # fmt: skip
def test_a_row_that_states_its_count_asks_for_what_lies_below(count, words):
    where, kinds = made(f"Ch 1, turn, {words}. ({count} sts)", f"Ch 1, turn, sc in each st across. ({count} sc)")
    assert set(where) == {"Row 2"}
    assert [sum(row.values()) for row in kinds] == [count, count]


def test_what_is_wrong_after_it_is_still_found():
    where, _ = made("Ch 1, turn, sc in each st across. (22 sc)", "Ch 1, turn, sc in each st across. (23 sc)")
    assert where[-1] == "Row 4" and set(where) == {"Row 2", "Row 4"}


def test_a_row_that_is_told_by_the_spaces_of_the_last_one_read_goes_over_them():
    text = """Terms: US
Ch 26.
Row 1: Dc in 4th ch from hook (3 skipped ch count as dc) and in each ch across. (24 dc)
Row 2: Ch 1, turn, sc in first st, *ch 2, sk 1 st, sc in next st; rep from * to last st, sc in last st.
Row 3: Ch 1, turn, plonk 1 dc against each of next 2 sts, wobble to end.
Row 4: Ch 1, turn, 2 sc in each ch-2 sp across.
"""
    worked = work_text(text)
    assert {p.where for p in worked.problems} == {"Row 3"}
    assert worked.fabric.rows[3].row.kinds() == {"sc": 2 * worked.fabric.rows[1].row.chains // 2}


NONE = """Ch 13{chains}.
Row 1: Sc in 2nd ch from hook and in each ch across. (12{made} sc)
Row 2: Ch 1, turn, sc in first 0{first} sts, sc in each st across. (12{made} sc)
"""


def test_a_stretch_of_none_is_that_of_a_size_and_else_reported():
    of_sizes = work_text("Sizes: small (medium, large)\n" + NONE.format(chains=" (15, 17)", made=" (14, 16)", first=" (1, 2)"))
    assert of_sizes.problems == [] and of_sizes.fabric.rows[1].row.kinds() == {"sc": 12}
    assert [p.where for p in work_text(NONE.format(chains="", made="", first="")).problems] == ["Row 2"]
