"""Lines that are a piece of their own."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import work_text

BODY = "Body\nMagic ring\n1: 6 sc in ring [6]\n2: inc in each [12]\n"


@pytest.mark.parametrize(
    ("line", "name", "made"),
    [
        ("Feelers (make 2): Ch 13, 2 sc in second ch from hook and in each of next 11 ch.", "Feelers", 24),
        ("Strap: ch 40, sc in 2nd ch from hook and in each ch across. Fasten off.", "Strap", 39),
        ("\nSTEM\nCh 9, hdc in 3rd ch from hook and in each ch across. Fasten off.", "Stem", 7),
    ],
)
def test_a_piece_told_in_one_line_is_worked(line: str, name: str, made: int):
    worked = work_text(BODY + line + "\n")
    assert [p.report() for p in worked.problems] == []
    piece = worked.pieces[-1]
    assert piece.name == name
    assert piece.fabric.rows[-1].row.made == made



def test_a_piece_in_a_ring_is_told_in_the_sentences_of_one_line():
    worked = work_text(BODY + "Horns (make 2): With red, 5 sc in magic ring. 2 sc in each st (10). Sc around for 3 more rounds. Fasten off leaving a tail.\nTail: Ch 9, sl st in 2nd ch from hook and in each ch across.\n")
    assert [p.report() for p in worked.problems] == []
    horns, tail = worked.pieces[1:]
    assert (horns.name, horns.make, [row.row.made for row in horns.fabric.rows]) == ("Horns", 2, [5, 10, 10, 10, 10])
    assert (tail.name, tail.fabric.rows[0].row.kinds()) == ("Tail", {"sl st": 8})
