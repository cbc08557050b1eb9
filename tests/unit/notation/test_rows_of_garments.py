"""Strips worked in their middle, buttonholes filled, stitches left for a neck, stitches explained below the rows that use
them, and a repeat whose end loses its skip. Common practice, no source."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import Worked, work_text

_SLIT = "Ch 13.\nRow 1: Sc in 2nd ch from hook and in each ch. (12)\nRow 2: Ch 1, turn, sc in first 5 sc, ch 2, sk 2 sc, sc in last 5 sc. (10)\n"
_TWENTY = "Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch. (20)\n"


def _told(worked: Worked) -> list[str]:
    return [problem.says for problem in worked.problems]


def _made(worked: Worked) -> list[tuple[int, int]]:
    return [(row.row.made, row.row.chains) for row in worked.fabric.rows]


def test_a_strip_of_shells_is_worked_in_its_middle() -> None:
    worked = work_text("Ch 4; join.\nRow 1: Ch 3, 2 dc in ring, ch 2, 3 dc in ring; turn.\nRow 2: Ch 3, (2 dc, ch 2, 3 dc) in ch-2 sp; turn.\nRow 3: Rep Row 2.\n")
    assert (_told(worked), _made(worked)) == ([], [(6, 2)] * 3)
    assert any("middle" in note.says for note in worked.notes)


def test_a_row_that_ends_short_of_its_middle_is_told() -> None:
    worked = work_text("Ch 4; join.\nRow 1: Ch 3, 2 dc in ring, ch 2, 5 dc in ring; turn.\nRow 2: Ch 3, (2 dc, ch 2, 3 dc) in ch-2 sp; turn.\n")
    assert _told(worked)


@pytest.mark.parametrize(
    "said",
    ["sc in ea sc and 2 sc in ch-2 sp.", "sc in each sc, 2 sc in ch-2 sp.", "1 sc in each sc and 2 sc in loop.", "sc in each sc, working 2 sc in each ch-2 sp."],
)
def test_a_slit_is_filled_on_the_way(said: str) -> None:
    worked = work_text(f"{_SLIT}Row 3: Ch 1, turn, {said}\n")
    assert (_told(worked), _made(worked)[-1]) == ([], (12, 0))
    assert [s.feet[0].hold for s in worked.fabric.rows[-1].row.stitches if s.kind == "sc"].index("space") == 5


@pytest.mark.parametrize(
    "said",
    ["leave last 6 sts free for back neck.", "leaving 6 sc unworked for back of neck.", "leave remaining sts unworked for neck shaping.", "leave last 6 sts free.", "leave rem 6 sc unworked for other side."],
)
def test_stitches_left_for_a_neck(said: str) -> None:
    worked = work_text(f"{_TWENTY}Row 2: Ch 1, turn, sc in next 14 sc, {said}\nRow 3: Ch 1, turn, sc in each sc.\n")
    assert (_told(worked), _made(worked)[1:]) == ([], [(14, 0)] * 2)


@pytest.mark.parametrize(
    ("used", "told"),
    [("pst in next sc, sc in next sc", "Pst (popcorn st): 5 dc in next st, drop lp from hook, insert hook in first dc, draw dropped lp through."),
     ("cl in next sc, sc in next sc", "Cl (cluster): [yo, insert hook in st, yo and pull up a loop, yo and draw through 2 loops] 3 times in same st, yo, draw through all loops on hook."),
     ("puff in next sc, sc in next sc", "(Puff = (yo, insert hook, draw up a loop) 3 times in same st, yo and through all 7 loops.)"),
     ("bead sc in next sc, sc in next sc", "Bead sc: Slide bead up to hook, sc in next st."),
     ("lp st in next sc, sc in next sc", "Loop St: Insert hook in st, wrap yarn around index finger, draw both strands through st, yo and draw through all 3 loops on hook.")],
)  # fmt: skip
def test_a_stitch_explained_below_is_no_work_of_the_row_above(used: str, told: str) -> None:
    worked = work_text(f"{_TWENTY}Row 2: Ch 1, turn. *{used}; rep from * across.\nRow 3: Ch 1, turn, sc in each st across.\n{told}\n")
    assert (_told(worked), _made(worked)[1:]) == ([], [(20, 0)] * 2)


@pytest.mark.parametrize(("chains", "noted"), [(40, False), (38, True)])
def test_an_ending_that_loses_its_skip_is_noted(chains: int, noted: bool) -> None:
    row = "2 dc in 4th ch from hook, *sk next 2 ch, sc in next ch, sk next 2 ch, 5 dc in next ch; rep from * ending last rep with 3 dc in last ch."
    worked = work_text(f"Ch {chains}.\nRow 1: {row}\n")
    assert any("passed over there" in note.says for note in worked.notes) == noted
