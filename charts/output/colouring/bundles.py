"""Small balls wound beforehand: for each colour how many stretches it is worked in, and the yarn of each."""

from __future__ import annotations

import itertools

from ...folding.joins import edges_of
from ...made_late import dataclass
from ...model.sizing.yarn import END_MM, YarnReport, colour_areas_mm2
from ..piece import Piece


@dataclass(frozen=True, slots=True)
class Bundle:
    """A colour's stretches of rows of one height: how many there are, their rows, and the metres of each, its two ends
    to weave in with it; None where the yarn is not known."""

    letter: str
    stretches: int
    rows: int
    metres: float | None


def bundles_of(piece: Piece, yarn: YarnReport) -> tuple[Bundle, ...]:
    """The stretches of each colour, by their number of rows, in the order in which they are met.

    A stretch takes its share of the colour's yarn by the area of its rows; the border's share is left out, as it is
    worked from a ball of its own.
    """
    plan = piece.plan
    stretches: dict[tuple[str, int], list[float]] = {}
    areas = colour_areas_mm2(plan, piece.pattern, edges_of(piece.folding, piece.border))
    rows = [
        (letter, mm * (section.stitches or plan.stitches) * plan.stitch_mm)
        for section in plan.sections
        for letter, mm in zip(section.colours, section.row_heights_mm, strict=True)
    ]
    for letter, run in itertools.groupby(rows, key=lambda row: row[0]):
        of_run = [area for _, area in run]
        stretches.setdefault((letter, len(of_run)), []).append(sum(of_run))
    metres = {need.letter: need.metres for need in yarn.needs}
    return tuple(
        Bundle(letter, len(found), count, _metres(max(found), areas.get(letter, 0.0), metres.get(letter)))
        for (letter, count), found in stretches.items()
    )


def _metres(area: float, of: float, metres: float | None) -> float | None:
    """A stretch's yarn; the colour's whole amount has its ends and a share to spare in it already."""
    return None if metres is None or not of else metres * area / of + 2 * END_MM / 1000.0
