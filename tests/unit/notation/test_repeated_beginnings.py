"""A turning chain at the end of a row, before one that repeats a row that begins with it, is worked once."""

import pytest
from hookfold.charts.model.rows.work import work_text

ROWS = """
Ch 16. Row 1: Sc in 2nd ch from hook and in each ch. (15 sc) Ch 1, turn.
Row 2: Sc in each sc across. Ch 1, turn.
Row 3: 2 sc in first st, sc in each st to end. (16 sc) Ch 1, turn.
Row 4: Sc in each st across. Ch 1, turn.
"""


@pytest.mark.parametrize("row", ["Row 5: Repeat Row 3. (17 sc)", "Row 5: Repeat Row 2. (16 sc)"])
def test_the_rows_make_what_they_say(row):
    worked = work_text(ROWS + row + "\n")
    assert [p.says for p in worked.problems] == []
    assert [(r.row.made, r.row.chains) for r in worked.fabric.rows[:4]] == [(15, 0), (15, 0), (16, 0), (16, 0)]


def test_a_count_that_is_off_by_the_chain_is_reported():
    worked = work_text(ROWS + "Row 5: Repeat Row 2. (17 sc)\nRow 6: Sc in each st across. (17 sc)\n")
    assert [(p.where, p.kind) for p in worked.problems] == [("Row 5", "impossible")]
