"""A chart in rounds that is too large for a page, cut into parts that lie over each other."""

from __future__ import annotations

import math
from collections.abc import Sequence

from ...made_late import dataclass
from ..placing.placed import Spot

#: How far parts lie over each other, in stitch widths.
OVERLAP = 2.0


@dataclass(frozen=True, slots=True)
class Part:
    """The part of the rounds on one page, in stitch widths."""

    left: float
    top: float
    right: float
    bottom: float

    def holds(self, point: tuple[float, float]) -> bool:
        """Whether a head is shown on this page."""
        return self.left <= point[0] < self.right and self.top <= point[1] < self.bottom


def inside(spots: Sequence[Spot], window: Part | None) -> list[Spot]:
    """The spots whose heads are shown in a part; all of them where there are no parts."""
    return [s for s in spots if window is None or window.holds(s.head)]


def parts_of_sheet(
    box: tuple[float, float, float, float], wide: float, high: float
) -> list[tuple[Part, str]]:
    """The parts of a box (left, top, right, bottom), each at most `wide` by `high`, with their names, row by row.

    >>> [name for _, name in parts_of_sheet((0.0, 0.0, 18.0, 9.0), 10.0, 10.0)]
    ['part A1', 'part B1']
    """
    left, top, right, bottom = box
    across, down = _cuts(left, right, wide), _cuts(top, bottom, high)
    return [
        (Part(a, c, b, d), f"part {chr(65 + i % 26)}{k + 1}")
        for k, (c, d) in enumerate(down)
        for i, (a, b) in enumerate(across)
    ]


def _cuts(low: float, high: float, room: float) -> list[tuple[float, float]]:
    """Even windows over [low, high], each at most `room` and lying `OVERLAP` over the next."""
    count = max(1, math.ceil((high - low - OVERLAP) / (room - OVERLAP)))
    step = (high - low - OVERLAP) / count
    return [(low + k * step, low + (k + 1) * step + OVERLAP) for k in range(count)]
