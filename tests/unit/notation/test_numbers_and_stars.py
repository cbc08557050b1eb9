"""Numbers joined to their stitches by a hyphen, and repeats whose marks are bullets' neighbours."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import work_text


def counts(text: str) -> tuple[list[int], list[str]]:
    """The stitches of each row of the first piece, and what is complained of."""
    worked = work_text(text)
    return [row.row.made for row in worked.fabric.rows], [problem.says for problem in worked.problems]


HYPHENS = """US terms.
Rnd 1: Ch-3 (this counts as your 1st dc), then DC-11 into a magic ring; join. (12 sts)
Rnd 2: Ch-1, sc-2 in each st around; join. (24 sts)
Rnd 3: Ch-1, *sc-1, inc-1; rep from * around; join. (36 sts)
Rnd 4: Ch-1, dec-18; join. (18 sts)
Rnd 5: Ch-3 (counts as dc), dc in each of next 17 sts; join in top of begch3. (18 dc)
"""


def test_a_hyphen_joins_a_stitch_to_its_number():
    assert counts(HYPHENS) == ([12, 24, 36, 18, 18], [])


@pytest.mark.parametrize(("said", "meant"), [("DC-11", "DC-10"), ("sc-2", "sc-1"), ("dec-18", "dec-17")])
def test_a_wrong_number_behind_a_hyphen_is_told(said, meant):
    _, told = counts(HYPHENS.replace(said, meant))
    assert told


STEPS = """US terms.
Magic ring.
• Ch 3 (counts as your first dc), then 8 dc into the ring. (9 stitches)
• Sl st to join.

• * Ch 6, then sl st into the next dc of the previous row.

• Repeat from * all the way round, you should have 9 loops.

• Sl st into any loop. Ch 3, then 3 dc into that same loop.
• ** Into the next loop 4 dc.

• Repeat from ** using all the loops, then sl st into the first stitch. (36 stitches)
"""


def test_steps_that_open_a_repeat_are_of_one_row_with_those_that_close_it():
    assert counts(STEPS) == ([9, 9, 36], [])


def test_a_wrong_count_of_such_a_row_is_told():
    made, told = counts(STEPS.replace("(36 stitches)", "(38 stitches)"))
    assert made == [9, 9, 36]
    assert len(told) == 1 and "38" in told[0]


@pytest.mark.parametrize("row", [
    "**3 dc in next loop; rep from ** around. (27 dc)",
    "**3 dc in next loop, rep from the ** around. (27 dc)",
    "*3 dc in next loop, **3 dc in next loop; rep from ** once more; rep from * around. (27 dc)",
])  # fmt: skip
def test_two_stars_may_open_a_repeat(row):
    text = f"US terms.\nRnd 1: 9 sc in magic ring.\nRnd 2: *Ch 6, sl st in next sc; rep from * around.\nRnd 3: Sl st in first loop, {row}\n"
    assert counts(text) == ([9, 9, 27], [])


def test_a_wrapped_line_that_ends_a_clause_begins_no_piece():
    text = """UK terms.
4ch, join with ss.
Rnd 1: 3ch, 11tr into ring, ss into top of beg 3ch. (12sts)
Rnd 2: 3ch, 1tr into base of 3ch, 2tr into each st to end, ss into top
of beg 3ch. (24sts)
Sides
Rnd 1-3: 3ch, 1tr in each st to end, ss into top of beg 3ch.
"""
    worked = work_text(text)
    assert worked.problems == []
    assert [[row.row.made for row in piece.fabric.rows] for piece in worked.pieces] in ([[12, 24, 24, 24, 24]], [[12, 24], [24, 24, 24]])
    assert all(sum(s.role == "chain" for s in row.row.stitches) == 0 for row in worked.fabric.rows[2:])


def test_a_misread_st_is_one_and_told():
    text = "US terms. Ch 13.\nRow 1: Sc in 2nd ch from hook and in each ch across. (12)\nRow 2: Ch 1, 2 sc in next it, sc in each st across. (13)\n"
    worked = work_text(text)
    assert worked.problems == []
    assert [row.row.made for row in worked.fabric.rows] == [12, 13]
    assert [note.says for note in worked.notes] == ['"it" was read as "st"']
    assert work_text("US terms. Make a magic ring.\nRnd 1: Ch 1, 8 sc in it. (8)\n").problems == []
