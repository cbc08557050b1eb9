"""The yarn that a beginning names is the yarn of the first row, and is written again."""

import pytest
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.pattern.writer import write_start
from hookfold.charts.pattern.written.document import read_written

ROWS = "\nRnd 1: Ch 1, 6 sc in ring, join with sl st in first sc.\nRnd 2: Ch 1, sc in each sc around."
STARTS = {
    "With A, make a magic ring.": "A",
    "Using b, make an adjustable ring.": "B",
    "In colour C, make a magic ring.": "C",
    "Make a magic ring with A.": "A",
    "With A, ch 4, join with sl st in first ch to form ring.": "A",
    "With moss, make a magic ring.": "moss",
    "Make a magic ring.": "",
}


@pytest.mark.parametrize("said", STARTS)
def test_the_first_round_is_worked_in_it(said):
    worked = work_text("Terms: US\n" + said + ROWS)
    assert not worked.problems
    assert {row.colour for row in worked.fabric.rows} == {STARTS[said]}


@pytest.mark.parametrize("said", STARTS)
def test_it_is_written_and_read_back(said):
    start = read_written("Terms: US\n" + said + ROWS).pattern.start
    again = read_written("Terms: US\n" + write_start(start, "US") + ROWS).pattern.start
    assert again == start
