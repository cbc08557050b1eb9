"""Where the lines and words of a folding stand, pinned case by case; a change is reported as what moved, and how far."""

from __future__ import annotations

import importlib.util
from pathlib import Path

import pytest

HERE = Path(__file__).parent
#: Nothing may move further than this, in mm, without being looked at.
STILL_MM = 0.15


def _placements():
    spec = importlib.util.spec_from_file_location("folding_placements", HERE / "placements.py")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


pins = _placements()
Thing = tuple[str, tuple[float, ...]]


def read(text: str) -> list[Thing]:
    rows = [line.rsplit("; ", 1) for line in text.splitlines() if line and not line.startswith("#")]
    return [(what, tuple(map(float, place.split()))) for what, place in rows]


def moved(found: list[Thing], pinned: list[Thing]) -> list[str]:
    """What stands elsewhere, is new or is gone, in words."""
    said = []
    for (what, here), (_, there) in zip(found, pinned, strict=True):
        far = max(map(abs, (a - b for a, b in zip(here, there, strict=True))))
        if far > STILL_MM:
            said.append(f"{what} moved {far:.1f} mm, from {there} to {here}")
    return said


@pytest.mark.parametrize("name", pins.CASES)
def test_nothing_moved(name):
    pinned, found = (read(text) for text in ((HERE / f"{name}.txt").read_text("utf-8"), pins.placements(name)))
    assert [what for what, _ in found] == [what for what, _ in pinned]
    assert moved(found, pinned) == []


def test_every_case_is_pinned_and_no_other():
    assert {p.stem for p in HERE.glob("*.txt")} == set(pins.CASES)


def test_a_line_that_moves_is_named():
    pinned = read((HERE / "pouch.txt").read_text("utf-8"))
    at = next(i for i, (what, _) in enumerate(pinned) if what.endswith("; fold 1"))
    other = [(what, tuple(v + 2 for v in place)) if i == at else (what, place) for i, (what, place) in enumerate(pinned)]
    (said,) = moved(other, pinned)
    assert said.startswith("sheet 1, step 1; fold 1 moved 2.0 mm")


def test_a_pouch_folds_where_its_rows_end():
    """By hand: 120 mm front and 125 mm back of 315 mm at 1 : 4, so the folds lie 30 and 61.25 mm above the foundation."""
    pinned = dict(read((HERE / "pouch.txt").read_text("utf-8")))
    foundation = pinned["sheet 1, step 1; edges in view"][3]
    assert foundation - pinned["sheet 1, step 1; fold 1"][1] == pytest.approx(30.0, abs=0.1)
    assert foundation - pinned["sheet 1, step 1; fold 2"][1] == pytest.approx(61.25, abs=0.1)
