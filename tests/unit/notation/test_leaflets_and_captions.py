"""Ways in which leaflets of thread lace, magazines and captions tell their rows (common practice, no source)."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import work_text


def _counts(text: str) -> list[tuple[int, int]]:
    """Stitches and chains of each row of a text that no problem is found in."""
    worked = work_text(text)
    assert not worked.problems, worked.problems
    rows = [row.row for piece in worked.pieces for row in piece.fabric.rows]
    return [(row.made, sum(s.chains for s in row.stitches if s.role == "chain")) for row in rows]


_RING = "Rnd 1: 24 sc in ring, sl st in first sc.\n"


@pytest.mark.parametrize(
    "said",
    [
        "* Ch 5, skip 2 sc, sc in next sc; repeat from * around, ending with sc in sl st.",
        "* Ch 5, skip 2 sc, sc in next sc; repeat from * around, ending with sc in joining.",
        "* Ch 5, skip 2 sc, sc in next sc; repeat from * around, ending with sc in first sc.",
        "* Ch 5, skip 2 sc, sc in next sc; repeat from * around, ending with ch 5, sc in joining sl st.",
        "Ch 5, skip 2 sc, (sc in next sc, ch 5, skip 2 sc) 7 times, sc in sl st.",
        "Ch 5, skip 2 sc, * sc in next sc, ch 5, skip 2 sc; repeat from * around, ending with sc in first sc.",
    ],
)
def test_the_last_loop_is_fastened_where_the_round_began(said: str) -> None:
    assert _counts(f"{_RING}Rnd 2: {said}\n")[1] == (8, 40)


def test_a_round_ends_in_the_slip_stitch_that_it_began_with() -> None:
    loops = "Rnd 2: * Ch 5, skip 2 sc, sc in next sc; repeat from * around, ending with sc in sl st.\n"
    more = "Rnd 3: Sl st to center of next loop, * ch 6, sc in next loop; repeat from * around, ending with sc in last sl st.\n"
    assert _counts(_RING + loops + more)[1:] == [(8, 40), (8, 48)]
