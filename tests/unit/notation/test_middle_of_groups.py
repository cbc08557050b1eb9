"""Where the hook goes that begins a round in the middle of a group, or works behind petals."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import work_text

SHELLS = """Ch 4, join.
Rnd 1: Ch 3 (counts as dc), 15 dc in ring, join in top of ch-3.
Rnd 2: Ch 1, sc in same st, sk next dc, 5 dc in next dc, sk next dc, *sc in next dc, sk next dc, 5 dc in next dc, sk next dc; rep from * around, join. (4 sc, 20 dc)
Rnd 3: {}
"""
PETALS = """Ch 4, join.
Rnd 1: *Ch 3, sc in ring; rep from * 4 more times. (5 ch-3 lps)
Rnd 2: (Sc, hdc, dc, hdc, sc) in each ch-3 lp around. (5 petals)
Rnd 3: {}
"""


def feet(worked):
    """What each stitch of the last round goes into: its role, the kind of stitch there, which of the round's, how."""
    rows = worked.fabric.rows
    return [
        (s.role, rows[-1 - f.back].row.stitches[f.at].kind, f.at, f.hold)
        for s in rows[-1].row.stitches
        for f in s.feet
        if f.back
    ]


@pytest.mark.parametrize(
    "words",
    [
        "Sl st to center dc of next shell, ch 1, sc in same st, ch 7, *sc in center dc of next shell, ch 7; rep from * around, join.",
        "Sl st in next 3 dc, ch 1, sc in same st, ch 7, *sc in center dc of next shell, ch 7; rep from * around, join.",
        "Beginning in the middle dc of the shell, ch 1, sc in same st, ch 7, *sc in center dc of next shell, ch 7; rep from * around, join.",
    ],
)
def test_slip_stitches_lead_into_the_middle(words):
    """Rnd 2 is a lifting chain (0), a sc (1), and a shell (2 to 6): three slip stitches lead to its third dc."""
    worked = work_text(SHELLS.format(words))
    assert worked.problems == []
    found = feet(worked)
    assert [(role, at) for role, _, at, _ in found] == [
        ("travel", 2), ("travel", 3), ("travel", 4), ("stitch", 4), ("stitch", 10), ("stitch", 16), ("stitch", 22),
    ]  # fmt: skip


def test_the_last_stitch_is_the_one_that_was_passed_over():
    worked = work_text(
        SHELLS.format(
            "Sl st to center dc of next shell, ch 1, sc in same st, 7 dc in next sc, "
            "*sc in center dc of next shell, 7 dc in next sc; rep from * around, join. (4 sc, 28 dc)"
        )
    )
    assert worked.problems == []
    assert feet(worked)[-1][2] == 1
    assert sum(kind == "sc" for role, kind, _, _ in feet(worked) if role == "stitch") == 28


@pytest.mark.parametrize(
    ("words", "hold"),
    [
        ("*Ch 5, sc in next sc between petals; rep from * around.", "top"),
        ("*Ch 5, sc around post of next sc between petals; rep from * around.", "front post"),
        ("(Sc, ch 5) behind petals in next sc of rnd before last, 5 times.", "top"),
        ("Sc in each sc of Rnd 1 with ch 5 between, join.", "top"),
    ],
)
def test_loops_behind_petals_hang_on_the_round_that_the_petals_fill(words, hold):
    worked = work_text(PETALS.format(words))
    assert worked.problems == []
    stitches = [s for s in worked.fabric.rows[-1].row.stitches if s.role == "stitch"]
    assert [(f.back, f.at, f.hold) for s in stitches for f in s.feet] == [(2, at, hold) for at in (1, 3, 5, 7, 9)]
    assert worked.fabric.rows[-1].row.chains == 25


def test_between_petals_is_in_the_row_below_where_stitches_part_them():
    worked = work_text(
        "Ch 4, join.\nRnd 1: Ch 1, 10 sc in ring, join.\n"
        "Rnd 2: Ch 1, *sc in next sc, (hdc, 3 dc, hdc) in next sc; rep from * around, join. (5 petals)\n"
        "Rnd 3: Ch 1, *sc in next sc between petals, ch 6; rep from * around, join. (5 ch-6 lps)\n"
    )
    assert worked.problems == []
    stitches = [s for s in worked.fabric.rows[-1].row.stitches if s.role == "stitch"]
    assert [f.back for s in stitches for f in s.feet] == [1] * 5
    below = worked.fabric.rows[-2].row.stitches
    assert {below[f.at].kind for s in stitches for f in s.feet} == {"sc"}
