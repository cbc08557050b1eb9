"""Counts of rows with chains over a thumb, an armhole or a buttonhole. Common practice, no source."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import work_text

ROW = "Ch 31.\nRow 1: Sc in 2nd ch from hook and in each ch across. (30 sc)\nRow 2: Ch 1, turn, sc in first 2 sts, ch {n}, skip {n}, sc in each rem st {said}\nRow 3: Ch 1, turn, sc in each sc and ch across. (30)"


@pytest.mark.parametrize("said", ["(24 sc + 6 ch)", "(24 sc, 6 ch)", "(24 sc and 6 ch)", "(24 sc + ch-6 sp)", "(30 sts including chs)", "(24 sc plus 6 chains)"])
def test_chains_over_a_hole_are_counted_beside_stitches(said: str) -> None:
    worked = work_text(ROW.format(n=6, said=said))
    assert [row.row.made for row in worked.fabric.rows] == [30, 24, 30]
    assert worked.problems == []


def test_a_wrong_number_beside_them_is_told() -> None:
    worked = work_text(ROW.format(n=6, said="(25 sc + 6 ch)"))
    assert [p.says for p in worked.problems] == ["the row makes 24 sc; the count says 25"]


def test_a_beginning_chain_counted_beside_stitches_is_one_more() -> None:
    worked = work_text("Magic ring.\nRnd 1: Ch 3, 15 dc in ring, join in top of ch 3. (15 dc + 3 ch)")
    assert [row.row.made for row in worked.fabric.rows] == [16]
    assert worked.problems == []
