"""Writes the placements that the golden cases pin: run it after a change that was looked at and is wanted."""

from __future__ import annotations

import sys
from pathlib import Path

HERE = Path(__file__).parent
sys.path.insert(0, str(HERE.parents[1] / "unit" / "layout"))

import cloth  # noqa: E402
import test_rounds  # noqa: E402
from hookfold.charts.layout.placing.laid import lay_fabric  # noqa: E402
from hookfold.charts.layout.rounds.lay import lay_rounds  # noqa: E402

#: Each case pins one property, said in its first line.
CASES = {
    "shells": (
        "A shell fans from one foot and the next row's shells stand in its valleys.",
        lambda: cloth.shells(2, 3),
    ),
    "ripple": ("A ripple keeps its stitches one apart while its rows wave.", lambda: cloth.ripple(1, 3)),
    "trellis": ("An arch is held in its middle and its ends stay at the edge.", lambda: cloth.trellis(3, 3)),
    "narrowing": (
        "A decrease at each end closes the row up by one stitch.",
        lambda: cloth.triangle(9, 4, -1),
    ),
    "granny": ("Groups in corners turn the round into a square.", lambda: test_rounds.granny(2)),
    "oval": ("Round a chain the sides stay straight and the ends fan.", lambda: test_rounds.oval(6)),
}


def placements(name: str) -> str:
    """The places of every stitch as text: row, stitch, kind, x, y of its head in stitch widths."""
    says, make = CASES[name]
    fabric = make()
    round_ = fabric.rows[0].is_round
    laid = lay_rounds(fabric).rings if round_ else lay_fabric(fabric).courses
    lines = [f"# {says}"]
    for row in laid:
        down = 0.0 if round_ else row.y
        for spot in row.laid.spots:
            x, y = spot.head
            lines.append(f"{row.worked.label}; {spot.item + 1}; {spot.kind}; {x:.2f}; {y + down:.2f}")
    return "\n".join(lines) + "\n"


if __name__ == "__main__":
    for case in CASES:
        (HERE / f"{case}.txt").write_text(placements(case), "utf-8")
