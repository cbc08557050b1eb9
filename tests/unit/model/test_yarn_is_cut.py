"""Where the yarn is cut: behind the last row of a finished piece, once, and nowhere that work goes on.

Source: common practice, no source.
"""

import pytest
from hookfold.charts.model.rows.work import work_text

BASE = "Terms: US\nCh 8.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (7 sc)\nRow 2: Ch 1, sc in each sc across."
SPIRAL = "Terms: US\nMake a magic ring.\nRnd 1: 6 sc in ring. (6 sc)\nRnd 2: 2 sc in each sc around. (12 sc)\n"


def cut(text):
    found = work_text(text)
    assert not found.problems
    return [[row.cut for row in piece.fabric.rows] for piece in found.pieces]


@pytest.mark.parametrize(
    "tail",
    ["", " Fasten off.", "\nCut yarn, leaving a 20 cm tail.", "\n\nFinishing\nFasten off and weave in all ends.", "\n\nWeave in ends."],
)
def test_behind_the_last_row(tail):
    assert cut(BASE + tail) == [[False, True]]


def test_not_where_the_words_keep_it():
    assert cut(BASE + " Do not fasten off.") == [[False, False]]
    assert cut(BASE + "\nDon't cut the yarn, go on with the other part.") == [[False, False]]


def test_once_behind_rows_told_together():
    assert cut(BASE + "\nRows 3-5: Rep Row 2. Fasten off.") == [[False] * 4 + [True]]


def test_each_time_where_it_is_joined_anew():
    text = BASE + " Fasten off.\nRows 3-4: Join yarn in first sc, ch 1, sc in each sc across. Fasten off."
    assert cut(text) == [[False, True, True, True]]


def test_a_slip_stitch_before_the_cut_is_worked_once_too():
    for end in (" (12 sc)\nSl st in next sc. Fasten off.", ", sl st in next sc. Fasten off."):
        rows = work_text(SPIRAL + "Rnds 3-5: Sc in each sc around" + end).fabric.rows
        assert [sum(s.kind == "sl st" for s in row.row.stitches) for row in rows] == [0, 0, 0, 0, 1]
        assert [row.cut for row in rows] == [False] * 4 + [True]


def test_behind_each_of_several_pieces():
    text = BASE + "\n\nBack\nCh 8.\nRow 1: Sc in 2nd ch from hook and in each ch across. (7 sc)"
    assert cut(text) == [[False, True], [True]]


@pytest.mark.parametrize("end", ["Fasten off A.", "Fasten off A. (7 sc)", "Cut A.", "Break off green."])
def test_a_named_yarn_where_another_is_joined(end):
    row = f"Row 1: Sc in 2nd ch from hook and in each ch across, turn. {end}\nRow 2: Join B in first sc, ch 1, sc in each sc"
    assert cut(f"Terms: US\nWith A, ch 8.\n{row} across.") == [[True, True]]
    assert cut(f"Terms: US\nWith A, ch 8.\n{row} across.".replace(end, f"Do not {end.lower()}")) == [[False, True]]
