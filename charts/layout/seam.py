"""Where a round begins and ends: its join, its beginning chain, slip stitches that travel, its number."""

from __future__ import annotations

import math
from collections.abc import Sequence

from hookfold.symbols import Point

from ..model.grid import Row, Stitch
from .feet import Footing
from .rows import stack
from .slots import Slot
from .spot import Spot
from .way import OvalWay, Way

#: Where the join, a beginning chain that does not count, and the number stand before the first top.
JOIN_BEFORE, JOIN_UP = 0.66, 0.0
#: The same beside the last chain of a beginning chain that counts: the join goes into that chain.
JOIN_BESIDE, JOIN_BELOW = 0.56, 0.2


#: The distance from ink at which a number stands free.
LABEL_ROOM = 0.5


#: A slip stitch that travels into a space lies inside it, so far in from the chain's outer side.
TRAVEL_INSIDE = 0.95


START_BEFORE, START_FOOT, START_HIGH = 0.62, 0.2, 0.62


def _points(spots: Sequence[Spot]) -> list[Point]:
    """Points along the ink of spots, close enough together to keep a number clear of it."""
    points: list[Point] = []
    for spot in spots:
        points += [(x, y) for x, y, _ in spot.ovals]
        for foot in () if spot.ovals else spot.feet:
            for k in range(9):
                t = k / 8.0
                points.append(
                    (foot[0] + (spot.head[0] - foot[0]) * t, foot[1] + (spot.head[1] - foot[1]) * t)
                )
        turn = math.radians(spot.angle_deg)
        dx, dy = 0.33 * math.cos(turn), 0.33 * math.sin(turn)
        for down in (0.1, 0.45):
            x, y = spot.head[0] - math.sin(turn) * down, spot.head[1] + math.cos(turn) * down
            points += [(x - dx, y - dy), (x + dx, y + dy)]
    return points


def _clear(at: Point, ink: Sequence[Point]) -> float:
    return min((math.dist(at, p) for p in ink), default=9.0)


def at_seam(item: int, made: Stitch, feet: tuple[Footing, ...], first: Slot, level: float, way: Way) -> Spot:
    """A beginning chain that does not count, the join, and slip stitches that travel over the round
    below.
    """
    if made.role == "start":
        return _start(item, made, first, level, way)
    if made.role == "travel" and feet:
        u, v = way.u(feet[0].point), feet[0].perch
        v -= TRAVEL_INSIDE if made.feet[0].hold == "space" else 0.0
        return Spot(item, made.kind, made.role, way.at(u, v + 0.42), (way.at(u, v + 0.06),))
    counts = first.stitch.role == "turning"
    before, up = (JOIN_BESIDE, -JOIN_BELOW) if counts else (JOIN_BEFORE, JOIN_UP)
    u = first.u - before * way.unit(first.v)
    out = way.out(u)
    angle = math.degrees(math.atan2(out[0], -out[1]))
    at = way.at(u, first.v + up)
    return Spot(item, made.kind, made.role, at, (at,), chains=made.chains, angle_deg=angle)


def _start(item: int, made: Stitch, first: Slot, level: float, way: Way) -> Spot:
    """A beginning chain that does not count: before the first stitch, at the height where it stands."""
    low = level + START_FOOT
    u = first.u - START_BEFORE * way.unit(min(first.v, level + START_HIGH))
    if isinstance(way, OvalWay):
        u = first.u - START_BEFORE * max(way.middle / (low + START_HIGH / 2.0), 1.0)
    high = min(START_HIGH * made.chains, max(first.v - level - 0.35, START_HIGH))
    foot, head = way.at(u, low), way.at(u, low + high)
    ovals = stack(foot, head, made.chains)
    return Spot(item, made.kind, made.role, head, (foot,), chains=made.chains, ovals=ovals)


def label_at(
    row: Row, first: Slot, level: float, spots: Sequence[Spot], way: Way, taken: Sequence[Point] = ()
) -> tuple[Point, float]:
    """The middle of the round's number: before its first top, where it is freest of ink and of the numbers
    `taken` before it.
    """
    middle = (level + first.v) / 2.0
    unit = way.unit(middle)
    ink = [*_points(spots), *((x + dx, y) for x, y in taken for dx in (-0.35, 0.0, 0.35))]
    tries = [
        way.at(first.u - back * unit, level + (first.v - level) * up)
        for back in (0.7, 0.8, 0.9, 1.0, 1.2, 1.45, 1.7, 2.0)
        for up in (0.5, 0.35, 0.65, 0.8, 0.9, 1.0, 1.1)
    ]
    at = max(tries, key=lambda p: (min(LABEL_ROOM, _clear(p, ink)), -tries.index(p)))
    out = way.out(way.u(at))
    return at, math.degrees(math.atan2(out[0], -out[1]))
