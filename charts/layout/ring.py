"""Rounds where they lie: each about the centre, and all of them together."""

from __future__ import annotations

import math
from dataclasses import dataclass

from hookfold.symbols import Point

from ..model.grid import WorkedRow
from .spot import Laid


@dataclass(frozen=True, slots=True, eq=False)
class Ring:
    """A round where it lies about (0, 0): `inner` and `outer` radius, and the middle of its number.

    `tries` are the places the number may take, the best first.
    """

    index: int
    worked: WorkedRow
    laid: Laid
    inner: float
    outer: float
    label: Point
    label_angle_deg: float
    tries: tuple[Point, ...] = ()


@dataclass(frozen=True, slots=True, eq=False)
class LaidRounds:
    """The centre and every round about it, in stitch widths, y downward; `sides` is 0 for a circle."""

    centre: Laid
    rings: tuple[Ring, ...]
    sides: int

    @property
    def radius(self) -> float:
        """The farthest that anything stands from the centre."""
        spots = [s for ring in self.rings for s in ring.laid.spots] + list(self.centre.spots)
        reach = [math.hypot(*p) for s in spots for p in (s.head, *((x, y) for x, y, _ in s.ovals), *s.feet)]
        return max(reach, default=1.0)
