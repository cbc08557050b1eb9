"""The yarn of each stitch where the words of a row take another on the way."""

from itertools import groupby

import pytest
from hookfold.charts.model.cloth.yarns import changes_within, yarns_in, yarns_of
from hookfold.charts.model.rows.work import work_text

BEGUN = "With A, ch 9.\nRow 1: Sc in 2nd ch from hook and in each ch across. (8 sc)\n"


def runs(words: str, head: str = BEGUN) -> list[tuple[str, int]]:
    worked = work_text(f"{head}Row 2: Ch 1, turn, {words}")
    assert not worked.problems
    row = worked.fabric.rows[1]
    made = [yarn for yarn, stitch in zip(yarns_of(row), row.row.stitches, strict=True) if stitch.role == "stitch"]
    return [(yarn, len(list(run))) for yarn, run in groupby(made)]


@pytest.mark.parametrize(
    "words",
    [
        "with A sc in first 3 sts, with B sc in next 4 sts, with A sc in last st.",
        "sc in first 3 sts, change to B, sc in next 4 sts, change to A, sc in last st.",
        "sc in first 3 sts, drop A and pick up B, sc in next 4 sts, drop B, pick up A, sc in last st.",
        "sc in first 3 sts in A, sc in next 4 sts in B, sc in last st in A.",
        "sc in first 3 sts with A, sc in next 4 sts with B, sc in last st with A.",
        "3 sc A, 4 sc B, 1 sc A.",
        "3 sc (A), 4 sc (B), 1 sc (A).",
        "(A) 3 sc (B) 4 sc (A) 1 sc.",
        "sc in first 3 sts, join B, sc in next 4 sts, cut B, with A sc in last st.",
        "sc in first 3 sts changing to B in last st, sc in next 4 sts changing to A in last st, sc in last st.",
    ],
)
def test_another_yarn_is_that_of_the_stitches_worked_in_it(words):
    assert runs(words) == [("A", 3), ("B", 4), ("A", 1)]


def test_a_repeat_takes_its_yarns_again():
    assert runs("*with A sc in next st, with B sc in next 3 sts; rep from * across.") == [("A", 1), ("B", 3)] * 2


def test_a_yarn_told_behind_a_whole_row_is_that_of_the_row():
    worked = work_text(f"{BEGUN}Row 2: Ch 1, turn, sc in each st across with B.\nRow 3: Ch 1, turn, sc in each st across.")
    assert [row.colour for row in worked.fabric.rows] == ["A", "B", "B"]
    assert not changes_within(worked.fabric.rows)


def test_a_slip_stitch_that_closes_takes_the_next_yarn_only():
    rounds = "With A, ch 4, join with sl st to form a ring.\nRnd 1: Ch 1, 8 sc in ring, join with sl st in first sc with B. (8 sc)\n"
    worked = work_text(rounds + "Rnd 2: Ch 1, 2 sc in each sc around, join with sl st in first sc. (16 sc)")
    assert [row.colour for row in worked.fabric.rows] == ["A", "B"]


def test_a_change_that_names_no_yarn_is_told_at_its_row():
    worked = work_text(f"{BEGUN}Row 2: Ch 1, turn, sc in first 5 sts, change colour, sc in next 3 sts.")
    assert [note.where for note in worked.notes if "do not name it" in note.says] == ["Row 2"]
    plain = work_text(f"{BEGUN}Row 2: Ch 1, turn, sc in each st across, change colour.")
    assert not [note for note in plain.notes if "do not name it" in note.says]


def test_the_page_tells_what_its_yarns_are_called():
    head = "Yarn: MC = Harbour Fog, CC: rust (one ball each)\nColours: A (navy), B (old moss)\n"
    worked = work_text(head + BEGUN)
    assert dict(worked.fabric.yarns) == {"MC": "Harbour Fog", "CC": "rust", "A": "navy", "B": "old moss"}
    assert yarns_in(worked.fabric.rows) == ("A",)
