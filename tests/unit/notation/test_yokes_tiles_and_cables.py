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


_OVERLAY = """
Terms: US
{}
Ch 14.
Row 1: sc in 2nd ch from hook and each ch across. (13) => 13
Row 2: {edge}, 11 blo, {edge}. => 13
Row 3: {edge}, 3 blo, [1 mdc, 3 blo] x2, {edge}. => 13
Rows 4-5: Repeat Rows 2-3, keeping the colors in turn (A, B).
"""
_TOLD = (
    ('The first and last st of each row is a sc through both loops ("edge").\nblo = sc in the back loop only\nmdc = mosaic double: dc in the free front loop of the st two rows below. Always skip the st behind it.', "edge"),
    ("Every row begins and ends with an edge st: sc in both loops.\nblo = sc in back loop only\nmdc = dc in the front loop 2 rows below", "edge st"),
    ("The first and last stitch of every row, called the border st, is a sc through both loops.\nblo = back loop sc\nmdc = overlay dc: a dc in the front loop of the stitch 2 rows down", "border st"),
    ("Each row starts and ends with a sc in both loops (rim).\nblo: sc blo\nmdc: mosaic dc, worked in the front loop two rows down", "rim"),
    ("e: edge stitch, a single crochet in both loops\nblo: single crochet in the back loop only\nmdc: dc in the front loop of the stitch two rows below; skip the stitch behind it", "e"),
    ('"edge" = sc through both loops in the first and last st of a row\n"blo" = sc blo\n"mdc" = drop-down dc (dc in the unworked front loop 2 rows below)', "edge"),
)


@pytest.mark.parametrize(("told", "edge"), _TOLD)
def test_words_of_overlay_rows_are_what_the_page_says(told: str, edge: str) -> None:
    text = _OVERLAY.format(told, edge=edge)
    worked, keys = worked_and_keys(text)
    assert ([str(p.says) for p in worked.problems], made(worked, [*keys, (13, None), (13, None)])) == ([], [(13, None)] * 5)
    assert [sum(s.kind in ("dc", "mdc") for s in w.row.stitches) for w in worked.fabric.rows] == [0, 0, 2, 0, 2]


def test_an_edge_that_nothing_names_is_told() -> None:
    text = "Terms: US\nThe first and last st of each row is worked through both loops.\nCh 8.\nRow 1: sc in 2nd ch from hook and each ch across. (7)\nRow 2: hem, 5 sc, hem.\n"
    assert any("hem" in str(p.says) for p in work_text(text).problems)
