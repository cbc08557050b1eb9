"""Pages that go their own way: last loops closed otherwise, wherever the chain of the others stands."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import Worked, work_text

_LOOPS = "Ch 3.\nRnd 1: 6 sc in 2nd ch from hook.\nRnd 2: Sc in first sc, *ch 5, sc in next sc; rep from * around, ending with ch 2, dc in first sc.\n"


def _rows(worked: Worked) -> list[tuple[int, int]]:
    """Stitches and chains of each row."""
    return [(row.row.made, row.row.chains) for row in worked.fabric.rows]


# -- how a last loop is closed ----------------------------------------------------------------------------------------


@pytest.mark.parametrize("end", ["ending with ch 2, dc in first sc", "end with ch 2 and dc in first sc", "but end last loop with ch 2, dc in first sc", "join with ch 2, dc in first sc"])
@pytest.mark.parametrize(
    "again",
    [
        "Sc in loop just formed, ch 5, *sc in next loop, ch 5; rep from * around",
        "(Sc, ch 5) in loop just formed and in each loop around",
        "(Sc in next loop, ch 5) around",
    ],
)
def test_the_last_chain_gives_way_to_what_closes_the_loop(again: str, end: str) -> None:
    worked = work_text(_LOOPS + f"Rnd 3: {again}, {end}. (6 loops)\n")
    assert (worked.problems, _rows(worked)[2]) == ([], (6, 27))


@pytest.mark.parametrize(
    "again",
    [
        "(Sc, ch 5) twice in each loop around, ending with ch 2, dc in first sc",
        "(Sc, ch 5, sc, ch 5) in each loop around, ending with ch 2, dc in first sc",
        "In loop just formed make (sc, ch 5) twice, in each loop around make (sc, ch 5) twice, ending with ch 2, dc in first sc",
        "Sc in loop just formed, ch 5, sc in same loop, ch 5, *(sc, ch 5) twice in next loop; rep from * around, ending with ch 2, dc in first sc",
        "In each loop around work sc, ch 5, sc, ch 5, ending last loop with ch 2, dc in first sc",
    ],
)
@pytest.mark.parametrize("count", ["", " (12 loops)"])
def test_the_last_of_several_chains_in_a_loop_gives_way(again: str, count: str) -> None:
    worked = work_text(_LOOPS + f"Rnd 3: {again}.{count}\n")
    assert (worked.problems, _rows(worked)[2]) == ([], (12, 57))


def test_so_many_times_with_another_end_are_no_time_more() -> None:
    worked = work_text(_LOOPS + "Rnd 3: (Sc in next loop, ch 5) 6 times, ending last repeat with ch 2, dc in first sc.\n")
    assert (worked.problems, _rows(worked)[2]) == ([], (6, 27))


def test_a_count_of_loops_with_the_last_chain_too_is_told() -> None:
    worked = work_text(_LOOPS + "Rnd 3: (Sc, ch 5) twice in each loop around, ending with ch 2, dc in first sc. (13 loops)\n")
    assert [problem.where for problem in worked.problems] == ["Rnd 3"]
