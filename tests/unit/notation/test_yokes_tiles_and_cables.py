"""Yokes, blocks from corner to corner, cables, overlay rows and motifs as pages of today tell them: each text's rows end
with the stitches they make, worked out by hand. Rules of the trade: common practice, no source."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import work_text
from keyed_rows import made, worked_and_keys

_CABLE = """
Terms: US
Chains at the start of a row do not count.
Row 1: fhdc 16. => 16
Row 2: ch 1, turn, hdc in first 6 sts, FPdc around next 4 sts, hdc in last 6 sts. => 16
Row 3: ch 1, turn, hdc in each hdc, BPdc around each FPdc. => 16
Row 4: ch 1, turn, hdc in next 6 sts, sk next 2 sts, FPtr around each of next 2 sts, {}, hdc in last 6 sts. => 16
"""
_CROSSED = (
    "working in front of these FPtr around each of the 2 skipped sts",
    "working behind those FPtr around each of the 2 sts skipped",
    "passing in front of them FPtr around each skipped st",
    "working in front of these 2 FPtr, FPtr around each of the 2 skipped sts",
    "then working in front of these FPtr around first skipped st and FPtr around second skipped st",
    "working in front of the FPtr just made, FPtr around each of the 2 sts skipped",
)
_BLOCKS = """
Terms: US
{}
Row 1: Ch 6. Dc in 4th ch from hook, dc in next 2 ch. [1 {name}]
Row 2: Ch 6, turn. Dc in 4th ch from hook, dc in next 2 ch, (sl st, ch 3, 3 dc) in ch-3 sp of next {name}. [2 {name}s]
Row 3: Ch 6, turn. Dc in 4th ch from hook, dc in next 2 ch, (sl st, ch 3, 3 dc) in each ch-3 sp across. [3 {name}s]
Row 4: Turn. Sl st in each of the first 3 dc and in the ch-3 sp, (ch 3, 3 dc) in same sp, *(sl st, ch 3, 3 dc) in next ch-3 sp; \
rep from * to last {name}, sl st in ch-3 sp of last {name}. [2 {name}s]
"""
_MADE_OF = ("1 tile = ch 3 + 3 dc. The chains never count.", "One tile = ch 3, 3 dc in same sp", "Tile: 3 ch and 3 dc", "Square = ch 3 + 3 dc", "A block is ch 3 and 3 dc.", "Pixel = ch 3, 3 dc")


def _right(text: str) -> None:
    worked, keys = worked_and_keys(text)
    assert ([str(p.says) for p in worked.problems], made(worked, keys)) == ([], keys)


@pytest.mark.parametrize("words", _CROSSED)
def test_a_cable_s_second_half_is_worked_once(words: str) -> None:
    _right(_CABLE.format(words))


@pytest.mark.parametrize("said", _MADE_OF)
def test_a_block_that_the_page_explains_is_the_block_of_its_rows(said: str) -> None:
    name = next(word for word in ("tile", "square", "block", "pixel") if word in said.lower())
    worked = work_text(_BLOCKS.format(said, name=name))
    assert [str(p.says) for p in worked.problems] == []
    assert [sum(s.kind == "dc" and s.role == "stitch" for s in w.row.stitches) for w in worked.fabric.rows] == [3, 6, 9, 6]


def test_a_square_of_a_motif_is_no_block() -> None:
    worked = work_text("Terms: US\nSquare = ch 3 + 3 dc\nRow 1: Ch 12, dc in 4th ch from hook and in each ch across.\nRow 2: Ch 3, turn, dc in next square.\n")
    assert worked.problems != []
