"""Rows told again over a long one, and repeats that hold nothing: neither costs much, and neither stumbles."""

import sys

import pytest
from hookfold.charts.made_late import replace
from hookfold.charts.model.cloth.fabric import Row, Stitch
from hookfold.charts.model.rows import misnamed
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.pattern.tree import Make, Noun, Place


class Seen(tuple):
    """Stitches that count how often they are gone through."""

    times = 0

    def __iter__(self):
        self.times += 1
        return super().__iter__()


@pytest.mark.parametrize("asked", [lambda row: row.made, lambda row: row.kinds_made, lambda row: row.turns_in_stitch])
def test_what_a_row_makes_is_found_out_once(asked):
    stitches = Seen([Stitch("dc", role="turning"), Stitch("tr"), Stitch("ch", role="chain"), Stitch("sl st", role="join")])
    row = Row(stitches)
    assert asked(row) == asked(row) and stitches.times == 1
    assert (row.made, row.kinds_made, row.turns_in_stitch) == (2, {"dc", "tr"}, True)


def test_a_changed_row_is_looked_at_anew():
    row = Row((Stitch("dc"),) * 3)
    for _ in range(50):  # the first ones and those by a function that is written for it
        other = replace(row, stitches=(Stitch("tr", role="turning"),) * 4)
        assert (row.made, row.kinds_made, row.turns_in_stitch) == (3, {"dc"}, False)
        assert (other.made, other.kinds_made, other.turns_in_stitch) == (4, {"tr"}, True)


def test_no_groups_below_are_seen_without_looking_at_the_stitches():
    stitches = Seen([Stitch("dc")] * 3)
    ops = (Make("dc", places=(Place("each", Noun("dc")),)),)
    assert misnamed.between_groups(ops, Row(stitches)) is None and stitches.times == 0


def calls(rows: int) -> int:
    """How many functions are called to work so many rows that are told alike and name a stitch that is not there."""
    text = f"Ch 402.\nRow 1: Sc in 2nd ch from hook and in each ch across.\nRows 2-{rows}: Ch 1, turn, tr in each hdc across.\n"
    count = 0

    def called(frame, event, _):
        nonlocal count
        count += event == "call"

    sys.setprofile(called)
    try:
        work_text(text)
    finally:
        sys.setprofile(None)
    return count


def test_each_row_told_alike_costs_no_look_at_all_its_stitches():
    calls(5)  # what is loaded once
    few, many = calls(40), calls(240)
    assert many < 3 * few, (few, many)


def test_a_repeat_that_holds_nothing_is_told_in_its_row_and_work_goes_on():
    worked = work_text(
        "Ch 17.\nRow 1: 1 sc in 2nd ch from hook and in each ch across. (16 sc)\n"
        "Row 2: Ch 1, turn, 1 sc in each of next 3 sts * rep from * to * to end. (16 sc)\n"
        "Row 3: Ch 1, turn, sc in each st across. (16 sc)\n"
    )
    assert [(problem.where, problem.says) for problem in worked.problems] == [
        ("Row 2", "nothing is said between the repeat marks")
    ]
    assert [line.row.made for line in worked.fabric.rows] == [16, 16, 16]
