"""Filet whose rows count its squares off: "3 sps, 1 bl, 2 sps". Counts worked out by hand (common practice, no source)."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import Worked, work_text

_SEVEN = "Ch 26.\nRow 1: Dc in 8th ch from hook, *ch 2, sk 2 ch, dc in next ch; rep from * across. Ch 5, turn. (7 sps)\n"
_BLOCKED = _SEVEN + "Row 2: Sk first sp, dc in next dc, 2 sps, 1 bl, 3 sps. Ch 5, turn.\n"


def _made(worked: Worked) -> list[tuple[int, int]]:
    """Double crochets and chains of each row."""
    return [(sum(s.kind == "dc" for s in row.row.stitches), row.row.chains) for row in worked.fabric.rows]


def _told(worked: Worked) -> list[str]:
    return [problem.where for problem in worked.problems]


@pytest.mark.parametrize(
    "said",
    [
        "Row 2: Sk first sp, dc in next dc, 2 sps, 1 bl, 3 sps.",
        "Row 2: Dc in next dc, two spaces, one block, three spaces.",
        "Row 2: Work 3 sps, 1 bl, 3 sps.",
        "Row 2: 3 open sps, 1 solid sp, 3 open spaces.",
        "Row 2: Sp over sp, make 2 more sps, 1 blk over next sp, 3 sps across.",
        "Row 2: Dc in next dc (1 sp made), 2 sps, 2 dc in next sp, dc in next dc (a block), 3 sps.",
        "Row 2: 3 sps, bl over sp, sp over each of next 3 sps.",
        "Row 2: Sk 1st sp, d.c. in next d.c., 2 sps., 1 bl., 3 sps.",
        "Row 2: 3 holes, 1 block, 2 holes, 1 hole over turning ch.",
        "Row 2: 3 sps, 1 bl, 2 sps, sp over last sp, working last dc in 3rd ch of turning ch.",
        "Row 2: 3 sps, 1 bl, 3 sps. (6 sps, 1 bl)",
    ],
)
def test_squares_are_worked_as_they_are_counted_off(said: str) -> None:
    worked = work_text(_SEVEN + said + "\n")
    assert worked.problems == []
    assert _made(worked)[-1] == (10, 12)


@pytest.mark.parametrize(
    "said",
    [
        "Row 3: 2 sps, 3 bls, 2 sps.",
        "Row 3: Sk first sp, dc in next dc, 1 sp, bl over sp, bl over bl, bl over sp, 2 sps.",
        "Row 3: Dc in next dc, 1 sp, 2 dc in next sp, dc in next dc (block over space), bl over bl, 1 bl, 2 sps.",
        "Row 3: Sp over sp, 1 sp, 3 bls over next 3 squares, 2 sps.".replace(" squares", " sps"),
    ],
)
def test_blocks_go_over_spaces_and_over_blocks(said: str) -> None:
    worked = work_text(_BLOCKED + said + "\n")
    assert (worked.problems, _made(worked)[-1]) == ([], (14, 8))


def test_squares_stand_on_the_foundation_chain_and_rows_begin_with_either() -> None:
    worked = work_text(
        "Ch 24.\nRow 1: Dc in 4th ch from hook and in next 2 ch (a block), 5 spaces, 1 block. Ch 3, turn.\n"
        "Row 2: 1 block, 1 space, 3 blocks, 1 space, 1 block. Ch 3, turn.\nRow 3: (1 bl, 1 sp) 3 times, 1 bl.\n"
    )
    assert (worked.problems, _made(worked)) == ([], [(12, 10), (18, 4), (16, 6)])


def test_sentences_that_explain_squares_are_no_rows() -> None:
    worked = work_text(
        "Filet band. Space (sp): ch 2, skip 2 sts, dc in next st. Block (bl): dc in next 3 sts.\nCh 26.\n"
        "Row 1: Dc in 8th ch from hook (first sp made), 6 more sps. Ch 5, turn.\nRow 2: 3 sps, 1 bl, 3 sps.\n"
    )
    assert (worked.problems, _made(worked)) == ([], [(8, 14), (10, 12)])


def test_squares_of_one_chain_are_so_wide() -> None:
    worked = work_text(
        "Terms: UK\nCh 16.\nRow 1: 1 tr in 6th ch from hook, *1 ch, miss 1 ch, 1 tr in next ch; rep from * to end. Turn with 4 ch.\n"
        "Row 2: Miss first sp, 1 tr on next tr, 1 sp, 2 bls, 2 sps.\n"
    )
    assert (worked.problems, _made(worked)) == ([], [(7, 6), (9, 4)])


@pytest.mark.parametrize("said", ["Row 2: 3 sps, 1 bl, 2 sps.", "Row 2: 3 sps, 2 bls, 3 sps."])
def test_a_square_too_few_or_too_many_is_told(said: str) -> None:
    assert _told(work_text(_SEVEN + said + "\n")) == ["Row 2"]


@pytest.mark.parametrize("said", ["(7 sps)", "7 sps."])
def test_what_closes_a_row_is_its_count(said: str) -> None:
    row = "Row 2: Sk first dc, dc in next dc, (ch 2, dc in next dc) 5 times, ch 2, dc in 3rd ch of turning ch. "
    worked = work_text(_SEVEN + row + said + "\n")
    assert (worked.problems, _made(worked)[-1]) == ([], (8, 14))
    wrong = work_text(_SEVEN + row + said.replace("7", "8") + "\n")
    assert _told(wrong) == ["Row 2"]


def test_a_count_of_spaces_on_any_other_page_stays_one() -> None:
    worked = work_text("Ch 31.\nRow 1: Dc in 7th ch from hook, *ch 2, sk 2 ch, dc in next ch; rep from * to end. (10 dc, 9 sps)\n")
    assert (worked.problems, _made(worked)[0][0]) == ([], 10)
