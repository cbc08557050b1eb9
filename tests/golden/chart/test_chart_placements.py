"""Where stitches stand, pinned case by case; a change is reported as what moved, and how far."""

from __future__ import annotations

import math
import sys
from pathlib import Path

import pytest

HERE = Path(__file__).parent
sys.path.insert(0, str(HERE))

import placements  # noqa: E402

#: Nothing may move further than this, in stitch widths, without being looked at.
STILL = 0.03


def read(text: str) -> list[tuple[str, float, float]]:
    rows = [line.split("; ") for line in text.splitlines() if line and not line.startswith("#")]
    return [(f"{kind}, {row} stitch {item}", float(x), float(y)) for row, item, kind, x, y in rows]


@pytest.mark.parametrize("name", placements.CASES)
def test_nothing_moved(name):
    pinned = read((HERE / f"{name}.txt").read_text("utf-8"))
    found = read(placements.placements(name))
    assert [what for what, _, _ in found] == [what for what, _, _ in pinned]
    moved = [
        f"{what} moved {math.dist((x, y), (u, v)):.2f} from ({u:g}, {v:g}) to ({x:g}, {y:g})"
        for (what, x, y), (_, u, v) in zip(found, pinned, strict=True)
        if math.dist((x, y), (u, v)) > STILL
    ]
    assert moved == []


def test_every_case_is_pinned_and_no_other():
    assert {p.stem for p in HERE.glob("*.txt")} == set(placements.CASES)
