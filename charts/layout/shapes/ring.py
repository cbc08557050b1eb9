"""Rounds where they lie: each about the centre, and all of them together."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Protocol

from hookfold.symbols import Point

from ...made_late import dataclass, replace
from ...model.cloth.fabric import Fabric, Row, WorkedRow
from ...setting import Hand
from ..placing.feet import Bases
from ..placing.placed import Laid, Spot


@dataclass(frozen=True, slots=True)
class Beside:
    """A place near the beginning of a round, for its number: the unit vector of the work there, at which share of the
    round's height it lies, whether it is by the seam (0) or farther along (1), and what it costs to stand there instead
    of midway between the last stitch and the first, in stitch widths."""

    at: Point
    along: Point
    up: float
    tier: int
    cost: float = 0.0

    def backward(self) -> Beside:
        """The place of a round that is worked the other way."""
        (a, b) = self.along
        return replace(self, along=(-a, -b))

    def mirrored(self) -> Beside:
        """The place seen in a mirror whose plane is x = 0."""
        (x, y), (a, b) = self.at, self.along
        return Beside((-x, y), (-a, b), self.up, self.tier, self.cost)


@dataclass(frozen=True, slots=True, eq=False)
class Ring:
    """A round where it lies about (0, 0): `inner` and `outer` radius, and the places that its number may take, the
    best first; of a row worked from corner to corner, how many blocks it has."""

    index: int
    worked: WorkedRow
    laid: Laid
    inner: float
    outer: float
    tries: tuple[Beside, ...] = ()
    blocks: int = 0

    @property
    def made(self) -> int:
        """What it makes as it is counted: blocks, or the stitches that the next one works into."""
        return self.blocks or self.worked.row.made


@dataclass(frozen=True, slots=True)
class Edge:
    """A straight edge of a piece: a point of it, and the unit vectors along it, out of the piece, and the way that rows
    go from it; straight in where that is not said."""

    at: Point
    along: Point
    out: Point
    begin: Point | None = None

    @property
    def way(self) -> Point:
        """The unit vector along which rows begin."""
        return self.begin or (-self.out[0], -self.out[1])

    def mirrored(self) -> Edge:
        """The edge seen in a mirror whose plane is x = 0."""
        (x, y), (a, b), (c, d) = self.at, self.along, self.out
        e, f = self.way
        return Edge((-x, y), (-a, b), (-c, d), (-e, f))


@dataclass(frozen=True, slots=True, eq=False)
class LaidRounds:
    """The centre and every round about it, in stitch widths, y downward; `sides` is 0 for a circle.

    Where the work closes again its last rounds are a second figure; `again` is the round drawn once more about them.
    """

    centre: Laid
    rings: tuple[Ring, ...]
    sides: int
    again: Ring | None = None

    @property
    def spots(self) -> list[Spot]:
        """Everything that is drawn."""
        rings = (*self.rings, *((self.again,) if self.again else ()))
        return [s for ring in rings for s in ring.laid.spots] + list(self.centre.spots)

    @property
    def radius(self) -> float:
        """The farthest that anything stands from the centre."""
        reach = [math.hypot(*p) for s in self.spots for p in (s.head, *((x, y) for x, y, _ in s.ovals), *s.feet)]
        return max(reach, default=1.0)


class Shape(Protocol):
    """A shape that a fabric is laid in.

    `ground` is what its first row goes into is called; `nested` whether each row lies round the one before, so that
    rows may be left out of a chart; `ringed` whether it begins with a ring, or with a chain in its middle.
    """

    @property
    def ground(self) -> str: ...

    @property
    def nested(self) -> bool: ...

    @property
    def ringed(self) -> bool: ...

    def __hash__(self) -> int: ...

    def lay(self, fabric: Fabric) -> LaidRounds:
        """The fabric in its shape, as a right-hander works it."""
        ...

    def edges(self, ring: Ring) -> tuple[Edge, Edge]:
        """Where a row begins and where it ends, a right-hander's."""
        ...

    def begun(self, chains: int) -> str:
        """What stands at the end of so many chains of a foundation, like a count; "" for nothing."""
        ...

    def opening(self, laid: LaidRounds, hand: Hand) -> tuple[str, ...]:
        """How to begin reading its chart, in sentences."""
        ...


def bases_of(row: Row, below: Sequence[Ring], centre: Laid) -> Bases:
    """What a round may go into by how many rounds down it lies, the centre under the first; `below` from within."""
    depth = max((f.back for s in row.stitches for f in s.feet), default=1)
    every = [*(ring.laid for ring in reversed(below)), centre]
    return {back: every[back - 1].spots for back in range(1, depth + 1) if back <= len(every)}


def mirrored(laid: LaidRounds) -> LaidRounds:
    """The rounds as a left-hander works them: clockwise, from the other side of the seam."""
    again = _turned(laid.again) if laid.again else None
    return LaidRounds(_mirrored(laid.centre), tuple(map(_turned, laid.rings)), laid.sides, again)


def _turned(ring: Ring) -> Ring:
    return replace(ring, laid=_mirrored(ring.laid), tries=tuple(place.mirrored() for place in ring.tries))


#: White between two figures, in stitch widths.
BETWEEN = 1.6


def beneath(upper: LaidRounds, lower: LaidRounds) -> LaidRounds:
    """Two figures as one drawing, the second below the first."""
    down = max(y for s in upper.spots for y in _heights(s)) - min(y for s in lower.spots for y in _heights(s)) + BETWEEN
    rings = tuple(_moved(ring, down) for ring in lower.rings)
    again = _moved(lower.again, down) if lower.again else None
    return replace(upper, rings=(*upper.rings, *rings), again=again)


def _heights(spot: Spot) -> list[float]:
    return [spot.head[1], *(y for _, y in spot.feet), *(y for _, y, _ in spot.ovals)]


def _moved(ring: Ring, down: float) -> Ring:
    laid = replace(ring.laid, spots=tuple(s.moved(0.0, down) for s in ring.laid.spots))
    tries = tuple(replace(place, at=(place.at[0], place.at[1] + down)) for place in ring.tries)
    return replace(ring, laid=laid, tries=tries)


def _mirrored(laid: Laid) -> Laid:
    return replace(laid, spots=tuple(s.mirrored() for s in laid.spots))
