"""The way a row runs: u counts along the work, v outward from the level of the row below."""

from __future__ import annotations

import math
from typing import Protocol

from hookfold.symbols import Point

from ...made_late import dataclass


class Way(Protocol):
    """What the placing needs to know of the shape of a row. All lengths in stitch widths."""

    def at(self, u: float, v: float) -> Point:
        """The point at (u, v)."""

    def u(self, point: Point) -> float:
        """How far along the work a point lies."""

    def v(self, point: Point) -> float:
        """How far out a point lies."""

    def out(self, u: float) -> Point:
        """The unit vector that points outward there."""

    def unit(self, v: float) -> float:
        """How much u one stitch width is at height v."""

    def near(self, u: float, other: float) -> float:
        """The u of the same place that is nearest to `other` (a way round comes back to itself)."""


@dataclass(frozen=True, slots=True)
class FlatWay:
    """A flat row: `sign` is 1 for left to right, -1 for right to left."""

    sign: float

    def at(self, u: float, v: float) -> Point:
        return (self.sign * u, -v)

    def u(self, point: Point) -> float:
        return self.sign * point[0]

    def v(self, point: Point) -> float:
        return -point[1]

    def out(self, u: float) -> Point:
        return (0.0, -1.0)

    def unit(self, v: float) -> float:
        return 1.0

    def near(self, u: float, other: float) -> float:
        return u


@dataclass(frozen=True, slots=True)
class CircleWay:
    """A round about (0, 0): u is the angle in radians from `start`, counter-clockwise where `sign` is 1."""

    sign: float
    start: float

    def at(self, u: float, v: float) -> Point:
        turn = self.start + self.sign * u
        return (v * math.cos(turn), -v * math.sin(turn))

    def u(self, point: Point) -> float:
        return (self.sign * (math.atan2(-point[1], point[0]) - self.start)) % math.tau

    def v(self, point: Point) -> float:
        return math.hypot(*point)

    def out(self, u: float) -> Point:
        return self.at(u, 1.0)

    def unit(self, v: float) -> float:
        return 1.0 / max(v, 0.5)

    def near(self, u: float, other: float) -> float:
        return u + math.tau * round((other - u) / math.tau)


@dataclass(frozen=True, slots=True)
class InwardWay(CircleWay):
    """A round about (0, 0) that is worked inward: v counts from the circle `far` out towards the middle."""

    far: float

    def at(self, u: float, v: float) -> Point:
        turn = self.start + self.sign * u
        return ((self.far - v) * math.cos(turn), -(self.far - v) * math.sin(turn))

    def v(self, point: Point) -> float:
        return self.far - math.hypot(*point)

    def out(self, u: float) -> Point:
        turn = self.start + self.sign * u
        return (-math.cos(turn), math.sin(turn))

    def unit(self, v: float) -> float:
        return 1.0 / max(self.far - v, 0.5)


@dataclass(frozen=True, slots=True)
class ArcWay(CircleWay):
    """A row on an arc about (0, 0), `angle` radians wide: u is the angle from the edge where the row begins.

    An arc does not come round to itself: what lies beyond an edge is counted on from that edge.
    """

    angle: float

    def u(self, point: Point) -> float:
        middle = self.angle / 2.0
        turn = self.sign * (math.atan2(-point[1], point[0]) - self.start)
        return math.remainder(turn - middle, math.tau) + middle

    def near(self, u: float, other: float) -> float:
        return u


@dataclass(frozen=True, slots=True)
class PolygonWay:
    """A round with straight sides about (0, 0).

    Side j runs from u = 2j to 2j + 2 and its middle stands at the angle `start` + j of a turn by `sides`; v
    is the way from (0, 0) square to the side.
    """

    sign: float
    start: float
    sides: int

    @property
    def turn(self) -> float:
        """The angle from one side to the next."""
        return math.tau / self.sides

    @property
    def half(self) -> float:
        """Half a side's length for v = 1."""
        return math.tan(self.turn / 2.0)

    def side_at(self, u: float) -> int:
        """The side that a place along the work lies on."""
        return math.floor(u / 2.0)

    def _axes(self, side: int) -> tuple[Point, Point]:
        """The unit vectors outward and along a side."""
        turn = self.start + self.sign * side * self.turn
        out = (math.cos(turn), -math.sin(turn))
        return out, (-self.sign * math.sin(turn), -self.sign * math.cos(turn))

    def at(self, u: float, v: float) -> Point:
        side = self.side_at(u)
        out, along = self._axes(side)
        s = (u - 2 * side - 1.0) * v * self.half
        return (out[0] * v + along[0] * s, out[1] * v + along[1] * s)

    def side_of(self, point: Point) -> int:
        """The side whose sector a point lies in."""
        turn = self.sign * (math.atan2(-point[1], point[0]) - self.start)
        return round(turn / self.turn) % self.sides

    def along_side(self, point: Point, side: int) -> tuple[float, float]:
        """A point as (s, v): along a side from its middle, and square to it."""
        out, along = self._axes(side)
        s = point[0] * along[0] + point[1] * along[1]
        return s, point[0] * out[0] + point[1] * out[1]

    def u(self, point: Point) -> float:
        side = self.side_of(point)
        s, v = self.along_side(point, side)
        return 2.0 * side + 1.0 + s / max(v * self.half, 1e-6)

    def v(self, point: Point) -> float:
        return self.along_side(point, self.side_of(point))[1]

    def out(self, u: float) -> Point:
        side = self.side_at(u)
        t = u - 2 * side - 1.0
        corner = min(1.0, max(0.0, (abs(t) - 0.85) / 0.15))
        square, radial = self._axes(side)[0], self.at(u, 1.0)
        size = math.hypot(*radial)
        x = square[0] * (1 - corner) + radial[0] / size * corner
        y = square[1] * (1 - corner) + radial[1] / size * corner
        size = math.hypot(x, y)
        return (x / size, y / size)

    def unit(self, v: float) -> float:
        return 1.0 / max(v * self.half, 0.3)

    def near(self, u: float, other: float) -> float:
        whole = 2.0 * self.sides
        return u + whole * round((other - u) / whole)


@dataclass(frozen=True, slots=True)
class FacetWay(PolygonWay):
    """A row on `sides` straight sides about (0, 0), each `each` radians on from the last, that do not close.

    What lies beyond an edge is counted on along the first side or the last.
    """

    each: float

    @property
    def turn(self) -> float:
        return self.each

    def side_at(self, u: float) -> int:
        return min(max(math.floor(u / 2.0), 0), self.sides - 1)

    def side_of(self, point: Point) -> int:
        middle = (self.sides - 1) * self.each / 2.0
        turn = self.sign * (math.atan2(-point[1], point[0]) - self.start) - middle
        side = round((math.remainder(turn, math.tau) + middle) / self.each)
        return min(max(side, 0), self.sides - 1)

    def near(self, u: float, other: float) -> float:
        return u


@dataclass(frozen=True, slots=True)
class OvalWay:
    """A round about a straight foundation that reaches from x = -`half` to `half`.

    u is the way along the line that lies `middle` from the foundation: along its upper side from right to
    left where `sign` is 1, round the end, back along its lower side, round the other end.
    """

    sign: float
    half: float
    middle: float

    @property
    def whole(self) -> float:
        """The length of the whole way."""
        return 4.0 * self.half + math.tau * self.middle

    def at(self, u: float, v: float) -> Point:
        straight, bend = 2.0 * self.half, math.pi * self.middle
        s = u % self.whole
        if s < straight:
            return (self.sign * (self.half - s), -v)
        if s < straight + bend:
            turn = (s - straight) / self.middle
            return (-self.sign * (self.half + v * math.sin(turn)), -v * math.cos(turn))
        if s < 2.0 * straight + bend:
            return (self.sign * (s - straight - bend - self.half), v)
        turn = (s - 2.0 * straight - bend) / self.middle
        return (self.sign * (self.half + v * math.sin(turn)), v * math.cos(turn))

    def u(self, point: Point) -> float:
        straight, bend = 2.0 * self.half, math.pi * self.middle
        x, y = self.sign * point[0], point[1]
        if abs(x) <= self.half:
            return self.half - x if y <= 0.0 else straight + bend + self.half + x
        if x < 0.0:
            return straight + math.atan2(-x - self.half, -y) * self.middle
        return 2.0 * straight + bend + math.atan2(x - self.half, y) * self.middle

    def v(self, point: Point) -> float:
        return math.hypot(max(abs(point[0]) - self.half, 0.0), point[1])

    def out(self, u: float) -> Point:
        a, b = self.at(u, 1.0), self.at(u, 0.0)
        return (a[0] - b[0], a[1] - b[1])

    def unit(self, v: float) -> float:
        return 1.0

    def near(self, u: float, other: float) -> float:
        return u + self.whole * round((other - u) / self.whole)


#: How far from its rectangle the way about one is usually measured.
FRAME = 0.55
#: Its corners and the ways out of its sides, counter-clockwise from the upper left and the left.
_CORNERS = ((-1.0, -1.0), (-1.0, 1.0), (1.0, 1.0), (1.0, -1.0))
_SIDES = ((-1.0, 0.0), (0.0, 1.0), (1.0, 0.0), (0.0, -1.0))


@dataclass(frozen=True, slots=True)
class FrameWay:
    """A round about an upright rectangle with round corners: `wide` and `high` are half its sides, `middle` its middle,
    v the way from it.

    u is counted along the line that lies `line` from the rectangle, from the middle of a corner: where `sign` is 1
    counter-clockwise and `start` 0 to 3 for the upper left corner, the lower left, the lower right, the upper right;
    where it is -1 all is mirrored.
    """

    sign: float
    start: int
    middle: Point
    wide: float
    high: float
    line: float = FRAME

    @property
    def whole(self) -> float:
        """The length of the whole way."""
        return 4.0 * (self.wide + self.high) + math.tau * self.line

    @property
    def corner(self) -> Point:
        """The corner of the rectangle where the way begins."""
        a, b = _CORNERS[self.start]
        return (self.middle[0] + self.sign * a * self.wide, self.middle[1] + b * self.high)

    @property
    def first(self) -> tuple[Point, Point]:
        """Along the first side: the unit vector outward, and that along the work."""
        (a, b), (c, d) = _SIDES[self.start], _SIDES[(self.start + 1) % 4]
        return (self.sign * a, b), (self.sign * c, d)

    def long_of(self, side: int) -> float:
        """The length of the straight of a side, each counted from the upper left corner on."""
        return 2.0 * (self.wide if _SIDES[side % 4][1] else self.high)

    def at(self, u: float, v: float) -> Point:
        rest, arc = u % self.whole + math.pi / 4.0 * self.line, math.pi / 2.0 * self.line
        for side in range(self.start, self.start + 5):
            (a, b), (c, d) = _SIDES[side % 4], _SIDES[(side + 1) % 4]
            x, y = _CORNERS[side % 4][0] * self.wide, _CORNERS[side % 4][1] * self.high
            if rest < arc:
                turn = rest / self.line - math.pi / 2.0
                cos, sin = math.cos(turn), math.sin(turn)
                p = (x + v * (a * cos + c * sin), y + v * (b * cos + d * sin))
                break
            rest -= arc
            if rest < self.long_of(side):
                p = (x + a * v + c * rest, y + b * v + d * rest)
                break
            rest -= self.long_of(side)
        return (self.middle[0] + self.sign * p[0], self.middle[1] + p[1])

    def u(self, point: Point) -> float:
        x, y = self.sign * (point[0] - self.middle[0]), point[1] - self.middle[1]
        done = -math.pi / 4.0 * self.line
        arc, best = math.pi / 2.0 * self.line, (math.inf, 0.0)
        for side in range(self.start, self.start + 4):
            (a, b), (c, d) = _SIDES[side % 4], _SIDES[(side + 1) % 4]
            p, q = x - _CORNERS[side % 4][0] * self.wide, y - _CORNERS[side % 4][1] * self.high
            out, on = p * a + q * b, p * c + q * d
            if on < 0.0:  # about the corner
                turn = min(max(math.atan2(on, out), -math.pi / 2.0), 0.0)
                off, u = abs(math.hypot(p, q) - self.line), done + (turn + math.pi / 2.0) * self.line
                off += 0.0 if out >= 0.0 else -2.0 * out
            else:
                long = self.long_of(side)
                off, u = abs(out - self.line) + max(on - long, 0.0), done + arc + min(on, long)
            best = min(best, (off, u))
            done += arc + self.long_of(side)
        return best[1] % self.whole

    def v(self, point: Point) -> float:
        x, y = abs(point[0] - self.middle[0]) - self.wide, abs(point[1] - self.middle[1]) - self.high
        return math.hypot(max(x, 0.0), max(y, 0.0)) + min(max(x, y), 0.0)

    def out(self, u: float) -> Point:
        a, b = self.at(u, 1.0), self.at(u, 0.0)
        return (a[0] - b[0], a[1] - b[1])

    def unit(self, v: float) -> float:
        return 1.0

    def near(self, u: float, other: float) -> float:
        return u + self.whole * round((other - u) / self.whole)
