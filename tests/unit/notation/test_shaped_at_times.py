"""Runs of rows of which some are shaped, as garments tell them: every row's stitches worked out by hand. Rules of the trade:
common practice, no source."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import work_text

_SC = "Ch 35.\nRow 1 (RS): Sc in 2nd ch from hook and in each ch across. 34 sts.\nRow 2: Ch 1, turn, sc in each st across.\n"
_SC_DC = "Ch 35.\nRow 1 (RS): Sc in 2nd ch from hook and in each ch across. 34 sts.\nRow 2: Ch 3 (counts as dc), turn, dc in next st and in each st across.\n"
_TWO_BY_TWO = [34, 34, 36, 36, 38, 38, 40, 40, 42, 42]
_TOLD = (
    (_SC_DC, "Rows 3-10: Cont in patt as set, inc 1 st at each end of Row 3 and every other row after, 4 times in all. 42 sts.", _TWO_BY_TWO),
    (_SC_DC, "Rows 3-10: Rep Rows 1 and 2, increasing 1 st at each end of every RS row. 42 sts.", _TWO_BY_TWO),
    (
        _SC_DC,
        "Rows 3-10: Continue in pattern as established, that is sc on RS rows and dc on WS rows, and at the same time inc 1 st at each end (2 sts in first st and 2 in last st) of Row 3 and every other row after.",
        _TWO_BY_TWO,
    ),
    (_SC, "Rows 3-10: Work in sc, inc 1 st at each end of every other row. (42)", _TWO_BY_TWO),
    (_SC, "Rows 3-10: Ch 1, turn, sc in each st, dec 1 st at each end of next and every foll alt row. (26)", [34, 34, 32, 32, 30, 30, 28, 28, 26, 26]),
    (_SC, "Rows 3-10: Work in sc and at the same time inc 1 st at each end of Row 3 and every 4th row after. (38)", [34, 34, 36, 36, 36, 36, 38, 38, 38, 38]),
    (_SC, "Rows 3-10: Ch 1, turn, sc in each st across, inc 1 st at each end every 4th row.", [34, 34, 34, 34, 34, 36, 36, 36, 36, 38]),
    (_SC, "Rows 3-8: Ch 1, turn, sc in each st across, decreasing 1 st at each end of every WS row.", [34, 34, 34, 32, 32, 30, 30, 28]),
)


@pytest.mark.parametrize(("above", "words", "made"), _TOLD, ids=[words[:70] for _, words, _ in _TOLD])
def test_rows_are_shaped_where_it_is_said(above: str, words: str, made: list[int]) -> None:
    worked = work_text(above + words + "\n")
    assert ([p.says for p in worked.problems], [row.row.made for row in worked.fabric.rows]) == ([], made)


def test_a_count_is_that_of_the_last_row() -> None:
    worked = work_text(_SC + "Rows 3-10: Work in sc, inc 1 st at each end of every other row. (44)\n")
    assert [(p.where, p.says) for p in worked.problems] == [("Row 10", "the row makes 42 sts; the count says 44")]


def test_what_cannot_be_read_is_told_once() -> None:
    worked = work_text(_SC + "Rows 3-10: Sc in each frobble, inc 1 st at each end of every other row.\n")
    assert len(worked.problems) == 1
    assert "frobble" in worked.problems[0].says


@pytest.mark.parametrize(
    ("words", "made"),
    (
        ("Bind off 4 sts, sc to end.", 30),
        ("Cast off 4 sts, sc to end. (30)", 30),
        ("Work 12 sts for right shoulder, turn and work on these sts only.", 12),
        ("Ch 1, turn, sc across, increasing in first and last st. (36)", 36),
        ("Ch 1, turn, work in sc increasing 1 st in the first and last sts.", 36),
        ("Ch 1, turn, sc across increasing in the first st and in the last.", 36),
    ),
)
def test_edges_of_garments(words: str, made: int) -> None:
    worked = work_text(_SC + f"Row 3: {words}\n")
    assert ([p.says for p in worked.problems], worked.fabric.rows[-1].row.made) == ([], made)
