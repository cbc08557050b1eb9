"""Rounds where they lie: each about the centre, and all of them together."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from hookfold.symbols import Point

from ...model.cloth.fabric import Row, WorkedRow
from ..placing.feet import Bases
from ..placing.placed import Laid


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


@dataclass(frozen=True, slots=True)
class Edge:
    """A straight edge of a piece: a point of it, and the unit vectors along it and out of the piece."""

    at: Point
    along: Point
    out: Point

    def mirrored(self) -> Edge:
        """The edge seen in a mirror whose plane is x = 0."""
        (x, y), (a, b), (c, d) = self.at, self.along, self.out
        return Edge((-x, y), (-a, b), (-c, d))


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


def bases_of(row: Row, below: Sequence[Ring], centre: Laid) -> Bases:
    """What a round may go into by how many rounds down it lies, the centre under the first; `below` from within."""
    depth = max((f.back for s in row.stitches for f in s.feet), default=1)
    every = [*(ring.laid for ring in reversed(below)), centre]
    return {back: every[back - 1].spots for back in range(1, depth + 1) if back <= len(every)}


def mirrored(laid: LaidRounds) -> LaidRounds:
    """The rounds as a left-hander works them: clockwise, from the other side of the seam."""
    rings = tuple(
        replace(
            ring,
            laid=_mirrored(ring.laid),
            label=(-ring.label[0], ring.label[1]),
            label_angle_deg=-ring.label_angle_deg,
            tries=tuple((-x, y) for x, y in ring.tries),
        )
        for ring in laid.rings
    )
    return LaidRounds(_mirrored(laid.centre), rings, laid.sides)


def _mirrored(laid: Laid) -> Laid:
    return replace(laid, spots=tuple(s.mirrored() for s in laid.spots))
