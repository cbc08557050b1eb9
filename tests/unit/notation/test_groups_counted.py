"""Counts of groups, clusters of plain stitches among them; a head that stands at the end of a line."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import work_text

SEAM = "US terms.\nCh 5, join.\nRnd 1: Ch 5, *3 dc in ring, ch 2; rep from * 3 more times, 2 dc in ring, sl st in 3rd ch of ch-5. ({count})\n"
WHOLE = "US terms.\nCh 5, join.\nRnd 1: Ch 3, 2 dc in ring, *ch 2, 3 dc in ring; rep from * 3 more times, ch 2, join. ({count})\n"


@pytest.mark.parametrize("count", ["5 groups of 3 dc", "5 3-dc groups", "5 clusters", "5 3-dc clusters", "5 groups"])
@pytest.mark.parametrize("text", [SEAM, WHOLE])
def test_groups_between_chains_are_counted_over_the_seam_too(text: str, count: str) -> None:
    assert work_text(text.format(count=count)).problems == []


@pytest.mark.parametrize("count", ["6 groups of 3 dc", "7 3-dc clusters", "6 clusters"])
@pytest.mark.parametrize("text", [SEAM, WHOLE])
def test_a_wrong_number_of_groups_is_told(text: str, count: str) -> None:
    assert [p.where for p in work_text(text.format(count=count)).problems] == ["Rnd 1"]


def test_two_groups_in_one_corner_are_two() -> None:
    text = WHOLE.format(count="15 dc") + "Rnd 2: Sl st to sp, ch 3, 2 dc in sp, ch 2, 3 dc in same sp, *ch 1, (3 dc, ch 2, 3 dc) in next sp; rep from * 3 more times, ch 1, join. (10 groups of 3 dc)\n"
    assert work_text(text).problems == []


@pytest.mark.parametrize("head", ["Rnd 1:", "Round 1:", "ROUND 1 -"])
def test_a_head_at_a_lines_end_begins_its_row_on_the_next(head: str) -> None:
    text = f"US terms.\nTile: start, ch 5 and close\ninto a ring by sl st in first ch. {head}\nCh 1, 10 sc in ring, join. (10)\nRnd 2: Ch 1, 2 sc in each st around. (20)\n"
    worked = work_text(text)
    assert worked.problems == []
    assert [row.row.made for row in worked.fabric.rows] == [10, 20]


def test_the_chain_that_a_place_is_in_may_stand_in_brackets() -> None:
    text = "US terms.\nCh 5, join.\nRnd 1: Ch 5 (counts as dc and ch 2), *dc in ring, ch 2; rep from * 4 more times, sl st in 3rd ch (of 5 chains). (6 dc)\n"
    assert work_text(text).problems == []


@pytest.mark.parametrize("row", ["(sc 1, sc 2) around", "[sc 1, sc 2] x 7", "sc in same st, sc 2 in next st; repeat [sc 1, sc 2] around"])
def test_numbers_behind_their_stitches_in_a_repeat_may_be_of_one_place(row: str) -> None:
    rounds = "US terms.\nRnd 1: 7 sc in magic ring. (7)\nRnd 2: 2 sc in each st around. (14)\nRnd 3: "
    worked = work_text(f"{rounds}{row}. (21)\n")
    assert worked.problems == []
    assert worked.fabric.rows[2].row.made == 21
    assert [p.where for p in work_text(f"{rounds}{row}. (20)\n").problems] == ["Rnd 3"]
    assert work_text(f"{rounds}(sc in next st, sc in next 2 sts) around. (21)\n").problems


def test_solid_meshes_are_meshes_too() -> None:
    text = """US terms. Ch 32.
Row 1: Dc in 8th ch from hook (beg 7 sk ch count as dc, ch 2 and 2 sk ch), *ch 2, sk next 2 ch, dc in next ch; rep from * across, turn. (9 meshes)
Row 2: Ch 3 (counts as dc), 2 dc in next sp, dc in next dc, *ch 2, dc in next dc; rep from * 6 more times, ch 2, dc in top of turning ch. (9 meshes)
"""
    assert [p.says for p in work_text(text).problems] == []
