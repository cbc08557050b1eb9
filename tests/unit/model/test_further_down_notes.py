"""What is settled without a word about stitches worked further down is said in a note."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import work_text

PLAIN = "Terms: US\n{special}Ch 8.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (7 sc)\n"
PLAIN += "Rows 2-3: Ch 1, sc in each sc across, turn. (7 sc)\nRow 4: Ch 1, sc in first 3 sc, {row}, sc in last 3 sc.{count}\n"


def notes(row, *, count="", special=""):
    worked = work_text(PLAIN.format(row=row, count=count, special=special))
    assert not worked.problems
    return [note.says for note in worked.notes]


@pytest.mark.parametrize(
    ("row", "count", "said"),
    [
        ("dc in next sc 2 rows below", "", True),
        ("dc in next sc 2 rows below", " (7 sts)", False),
        ("dc in next sc 2 rows below, sk next sc", "", False),
        ("sk next sc, dc in next sc 2 rows below", "", False),
    ],
)
def test_taking_the_place_of_the_stitch_above_is_said_where_no_count_settles_it(row, count, said):
    assert any("taking the place of those above" in says for says in notes(row, count=count)) is said


@pytest.mark.parametrize(
    ("moves", "said"),
    [
        ("insert hook in next st 1 row below, pull up a loop", "the row under the one just worked"),
        ("insert hook in st 1 and 2 rows below, pulling up a loop in each", "and 2 rows below as the one under it"),
        ("insert hook in st 2 rows below, pull up a loop", ""),
    ],
)
def test_how_one_row_below_was_read_is_said(moves, said):
    special = f"Spike (spk): {moves}, yo and draw through all loops.\n"
    found = notes("spk in next sc", count=" (7 sts)", special=special)
    about = [says for says in found if "1 row below" in says]
    assert len(about) == bool(said)
    assert all(said in says for says in about)
