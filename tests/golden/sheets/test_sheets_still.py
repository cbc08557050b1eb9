"""What stands where on sheets, pinned case by case; a change is reported as what moved, and how far."""

from __future__ import annotations

import re
import sys
from pathlib import Path

import pytest

HERE = Path(__file__).parent
sys.path.insert(0, str(HERE))

import listing  # noqa: E402

#: Nothing may move further than this, in mm, without being looked at.
STILL = 0.15


def read(line: str) -> tuple[str, list[float]]:
    """What a line names, and its numbers at the end."""
    places = re.search(r"(?:; -?\d+\.\d)+$", line)
    if places is None:
        return line, []
    return line[: places.start()], [float(v) for v in places[0].split("; ")[1:]]


@pytest.mark.parametrize("name", listing.CASES)
def test_nothing_moved(name):
    pinned = [read(line) for line in (HERE / f"{name}.txt").read_text("utf-8").splitlines()]
    found = [read(line) for line in listing.listing(name).splitlines()]
    assert [what for what, _ in found] == [what for what, _ in pinned]
    moved = [
        f"{what} moved from {was} to {now}"
        for (what, now), (_, was) in zip(found, pinned, strict=True)
        if any(abs(a - b) > STILL for a, b in zip(now, was, strict=True))
    ]
    assert moved == []


def test_every_case_is_pinned_and_no_other():
    assert {p.stem for p in HERE.glob("*.txt")} == set(listing.CASES)
