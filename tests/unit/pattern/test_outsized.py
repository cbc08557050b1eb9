"""Texts that are far too large in one way or another: answered at once, and in plain words."""

import time

import pytest
from hookfold.charts import engrave
from hookfold.charts.errors import PatternError
from hookfold.charts.pattern.file.read import read_pattern

PANEL = """title = "Mat"
terms = "US"
gauge = { stitches = 17, rows = 14, over = "10 cm" }
object = { kind = "panel", width = "20 cm", height = "30 cm" }
[[section]]
name = "mat"
length = "height"
work = "Row 1: Ch 1, turn. Sc in each st across."
"""


def problem_of(text):
    with pytest.raises(PatternError) as found:
        read_pattern(text)
    return found.value.problems[0]


def test_a_name_of_thousands_of_parts():
    problem = problem_of(PANEL + "a." * 20_000 + "b = 1\n")
    assert problem.line == 9 and "64 parts" in problem.says


@pytest.mark.parametrize("number", ["1" + "0" * 400, "-1" + "0" * 400])
def test_a_number_that_no_float_holds(number):
    problem = problem_of(PANEL.replace('length = "height"', f"rows = {number}"))
    assert "no number to count with" in problem.says


def test_more_rows_than_there_is_wool_in_the_world():
    text = "Ch 6.\nRow 1: Sc in 2nd ch from hook and in each ch across.\nRows 2-999999999: Ch 1, turn. Sc in each st across."
    (problem,) = engrave.check(text, "a.txt").problems
    assert problem.kind == "limit" and "999,999,998 rows" in problem.says


def test_blank_lines_take_time_by_their_number():
    def took(blank):
        text = "Ch 6." + "\n" * blank + "Row 1: Sc in 2nd ch from hook and in each ch across. (5 sts)\n"
        start = time.process_time()
        assert not engrave.check(text, "a.txt").problems
        return time.process_time() - start

    took(10)
    assert took(80_000) < 6 * max(took(20_000), 0.05)
