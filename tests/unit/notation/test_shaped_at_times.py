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


_SHAPED = "Ch 20.\nRow 1: Dc in 4th ch from hook and in next 16 ch, turn.\nRow 2: Ch 2 (does not count), dc2tog, dc to last 2 sts, dc2tog. 16 sts.\nRow 3: Dc in each st.\n"


@pytest.mark.parametrize("words", ("Decrease as before.", "Dec each end as in the last dec row. (14)", "Decrease at both ends as before."))
def test_shaped_as_the_last_row_that_was(words: str) -> None:
    worked = work_text(_SHAPED + f"Row 4: {words}\nRow 5: Without shaping.\n")
    assert ([p.says for p in worked.problems], [row.row.made for row in worked.fabric.rows]) == ([], [18, 16, 16, 14, 14])


def test_a_row_of_loops_alone_is_the_one_above_in_them() -> None:
    worked = work_text("Ch 12.\nRow 1: Hdc in 3rd ch from hook and each ch across.\nRow 2: Ch 2, turn. Hdc in front loop of every st.\nRow 3: Ch 2, turn. This row is worked through the back loops.\n")
    holds = {foot.hold for s in worked.fabric.rows[-1].row.stitches if s.role == "stitch" for foot in s.feet}
    assert (worked.problems, worked.fabric.rows[-1].row.made, holds) == ([], 10, {"back loop"})


def test_in_pattern_goes_on_by_turns_behind_such_a_run() -> None:
    run = "Rows 3-6: Cont in patt as set, inc 1 st at each end of Row 3 and every other row after.\nRows 7-8: Work even in patt.\nRow 9: Work even in pattern.\n"
    worked = work_text(_SC_DC + run)
    kinds = [next(s.kind for s in row.row.stitches if s.role == "stitch") for row in worked.fabric.rows]
    assert (worked.problems, kinds) == ([], ["sc", "dc"] * 4 + ["sc"])
