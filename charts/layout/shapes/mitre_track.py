"""The way of a row in a mitred piece: along the sides of its foundation, rows lying inward from them."""

from __future__ import annotations

import itertools
import math

from hookfold.symbols import Point

from ...made_late import dataclass

#: So near a corner along the foundation a place is on the corner.
AT_CORNER = 1e-6


@dataclass(frozen=True, slots=True)
class MitreWay:
    """A row on straight sides whose corners lie on lines that meet in (0, 0).

    u counts along the foundation from where the row begins and is the same straight inward from there; v counts
    inward from the foundation, which lies `reach` from (0, 0). `bounds` are the u of the row's beginning, of the
    corners and of its end. The first side faces `start` radians (counter-clockwise from the right), each next one
    `sign` times `each` on.
    """

    sign: float
    start: float
    each: float
    reach: float
    bounds: tuple[float, ...]

    @property
    def half(self) -> float:
        """How much a side loses at a corner for v = 1."""
        return math.tan(self.each / 2.0)

    @property
    def count(self) -> int:
        """How many sides there are."""
        return len(self.bounds) - 1

    def span(self, side: int, v: float) -> tuple[float, float]:
        """From where to where a side reaches at a height; its outer ends are straight."""
        first = self.bounds[side] + (v * self.half if side else 0.0)
        last = self.bounds[side + 1] - (v * self.half if side < self.count - 1 else 0.0)
        return first, last

    def axes(self, side: int) -> tuple[Point, Point]:
        """The unit vectors from the middle to a side, and along it."""
        turn = self.start + self.sign * side * self.each
        out = (math.cos(turn), -math.sin(turn))
        return out, (-self.sign * math.sin(turn), -self.sign * math.cos(turn))

    def at(self, u: float, v: float) -> Point:
        side = self.side_at(u)
        first, last = self.span(side, v)
        low, high = first if side else -math.inf, last if side < self.count - 1 else math.inf
        out, along = self.axes(side)
        s = (last if self._corner(u) == side else max(min(u, high), low)) - self._middle(side)
        return (out[0] * (self.reach - v) + along[0] * s, out[1] * (self.reach - v) + along[1] * s)

    def side_at(self, u: float) -> int:
        """The side on which a place lies; what is cut away at a corner counts to the side it is nearer to."""
        return sum(u > bound + AT_CORNER for bound in self.bounds[1:-1])

    def _corner(self, u: float) -> int | None:
        """The corner that a place is on, which ends the side of this number."""
        return next((k for k, b in enumerate(self.bounds[1:-1]) if abs(u - b) <= AT_CORNER), None)

    def side_of(self, point: Point) -> int:
        """The side in whose part of the piece a point lies."""
        middle = (self.count - 1) * self.each / 2.0
        turn = self.sign * (math.atan2(-point[1], point[0]) - self.start) - middle
        side = round((math.remainder(turn, math.tau) + middle) / self.each)
        return min(max(side, 0), self.count - 1)

    def along(self, point: Point, side: int) -> float:
        """The u of a point, taken to lie on a side."""
        _, along = self.axes(side)
        return self._middle(side) + point[0] * along[0] + point[1] * along[1]

    def u(self, point: Point) -> float:
        return self.along(point, self.side_of(point))

    def v(self, point: Point) -> float:
        out, _ = self.axes(self.side_of(point))
        return self.reach - point[0] * out[0] - point[1] * out[1]

    def out(self, u: float) -> Point:
        """The unit vector inward: rows lie on each other that way; on a corner, along the line of the corners."""
        x, y = self.axes(self.side_at(u))[0]
        corner = self._corner(u)
        if corner is not None:
            a, b = self.axes(corner)[0], self.axes(corner + 1)[0]
            long = math.hypot(a[0] + b[0], a[1] + b[1])
            x, y = (a[0] + b[0]) / long, (a[1] + b[1]) / long
        return (-x, -y)

    def unit(self, v: float) -> float:
        return 1.0

    def near(self, u: float, other: float) -> float:
        return u

    def _middle(self, side: int) -> float:
        """The u on a side that lies straight out from (0, 0)."""
        reach = self.reach * self.half
        return self.bounds[1] - reach if side == 0 else self.bounds[side] + reach

    def edge(self) -> tuple[Point, Point, Point]:
        """The edge where the row begins: its place on the foundation, and the unit vectors inward and away."""
        out, along = self.axes(0)
        return self.at(0.0, 0.0), (-out[0], -out[1]), (-along[0], -along[1])


def bounds_of(sides: tuple[float, ...]) -> tuple[float, ...]:
    """Where sides begin and end along the foundation."""
    return tuple(itertools.accumulate(sides, initial=0.0))
