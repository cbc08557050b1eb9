"""Where the feet of a row go: through the spots of the rows below to points.

Feet that share a stitch meet; feet that share a space stand apart along its chains (common
practice in printed charts: touching = into one stitch, apart = round the chain).
"""

from __future__ import annotations

import itertools
import math
from collections import defaultdict
from collections.abc import Mapping, Sequence

from hookfold.symbols import Point

from ...made_late import dataclass, replace
from ...model.cloth.fabric import Foot, Row
from .chain_room import length
from .placed import CHAIN_HALF, Spot, along, along_each
from .tracks import Way

#: How far apart feet in one stitch are drawn, a few of them so that their stems meet, and the widest that several of
#: them become.
TOUCH = 0.13
TOUCH_FEW = 0.11
TOUCH_WIDEST = 0.95
#: The way between feet in one space, less than from chain to chain so that they are not taken to stand on single
#: chains, and what is left free at its ends.
APART = 0.55
SPACE_END = 0.35
#: An arch whose ends differ in height by so much of the way between them stands aslant.
STEEP = 0.5
#: Ends of a run nearer than this do not say which side of it is outside.
LEAST_CHORD = 0.2
#: A foot so near to a head stands on it; how high the ink of a slip stitch in one loop reaches over its foot.
ON_IT, SLIP_HIGH = 0.3, 0.62


@dataclass(frozen=True, slots=True)
class Footing:
    """One foot found: the point where it goes in, and how high the stitch stands from (v).

    `middle` says whether it is the middle one of those that share the place: only there is drawn how they
    hold. `shared` says whether there are others.
    """

    point: Point
    perch: float
    middle: bool = True
    shared: bool = False


Bases = Mapping[int, Sequence[Spot]]


def footings(row: Row, bases: Bases, way: Way, *, closed: bool = False) -> list[tuple[Footing, ...]]:
    """For every item of a row the footings of its feet; a foot into its own row, or below the chart, is left
    out. `closed` says that the row comes round to its beginning.
    """
    visitors = visits(row, closed=closed)
    return [
        tuple(
            _spread(foot, _target(foot, bases, way), visitors[_place(foot)], item, way)
            for foot in stitch.feet
            if foot.back in bases and foot.back > 0 and 0 <= foot.at < len(bases[foot.back])
        )
        for item, stitch in enumerate(row.stitches)
    ]


def own_footing(foot: Foot, spots: Mapping[int, Spot], way: Way) -> Footing | None:
    """The footing of a foot that goes into an earlier item of its own row."""
    spot = spots.get(foot.at)
    return _spread(foot, spot, [0], 0, way) if spot else None


def _target(foot: Foot, bases: Bases, way: Way) -> Spot:
    """The spot a foot goes into; between two stitches it is halfway to the one that this row passed before."""
    spots = bases[foot.back]
    spot = spots[foot.at]
    if foot.back > 1 and foot.hold in ("front loop", "back loop") and (over := _slip_on(spot, bases[foot.back - 1])):
        return replace(spot, head=_beyond(over.feet[0], over.head, SLIP_HIGH))
    passed = _passed(foot.at, spots, way) if foot.hold == "between" else None
    if passed is None:
        return spot
    a, b = passed.head, spot.head
    return replace(spot, head=((a[0] + b[0]) / 2.0, (a[1] + b[1]) / 2.0))


def _beyond(foot: Point, head: Point, high: float) -> Point:
    """The point `high` above a foot on the way to a head."""
    share = high / max(math.dist(foot, head), 1e-6)
    return (foot[0] + (head[0] - foot[0]) * share, foot[1] + (head[1] - foot[1]) * share)


def _slip_on(spot: Spot, above: Sequence[Spot]) -> Spot | None:
    """The slip stitch worked since into the other loop of a stitch: what goes into the loop left over stands on it."""
    near = [s for s in above if s.kind == "sl st" and s.role == "stitch" and s.feet]
    return next((s for s in near if math.dist(s.feet[0], spot.head) < ON_IT), None)


def _passed(at: int, spots: Sequence[Spot], way: Way) -> Spot | None:
    """The neighbour of an item that lies before it along the work: after it in the order of a row turned on."""
    here = way.u(spots[at].head)
    beside = [spots[i] for i in (at - 1, at + 1) if 0 <= i < len(spots) and spots[i].role in _GONE_PAST]
    before = [s for s in beside if way.near(way.u(s.head), here) < here]
    return before[0] if before else None


#: How much too far a step about a bend may lead, and how often it is halved where it leads farther.
OVERSHOT, HALVINGS = 1.2, 16
#: What a place between two stitches can have on its sides.
_GONE_PAST = ("stitch", "turning", "chain", "foundation")


def _place(foot: Foot) -> tuple[int, int, str, int]:
    """What feet must share to stand in one place."""
    hold = foot.hold if foot.hold in ("space", "between", "picot", "ring", "under") else "loops"
    return (foot.back, foot.at, hold, foot.part if foot.hold == "chain" else 0)


def visits(row: Row, *, closed: bool) -> dict[tuple[int, int, str, int], list[int]]:
    """The items that go into each place, in the order of work, each once."""
    found: dict[tuple[int, int, str, int], list[int]] = defaultdict(list)
    for item, stitch in enumerate(row.stitches):
        for foot in stitch.feet:
            there = found[_place(foot)]
            if not there or there[-1] != item:
                there.append(item)
    return {place: _from_seam(items, len(row.stitches)) for place, items in found.items()} if closed else found


def _from_seam(items: list[int], whole: int) -> list[int]:
    """The visitors of one place in the order they lie round the work: what the end of a round adds to the place it
    began in lies before what it began with.

    >>> _from_seam([0, 1, 22, 23], 24), _from_seam([3, 4, 9], 24)
    ([22, 23, 0, 1], [3, 4, 9])
    """
    steps = [b - a for a, b in itertools.pairwise(items)]
    widest = max(steps, default=0)
    if widest <= items[0] + whole - items[-1]:
        return items
    cut = steps.index(widest) + 1
    return items[cut:] + items[:cut]


def _spread(foot: Foot, spot: Spot, visitors: Sequence[int], item: int, way: Way) -> Footing:
    rank = visitors.index(item) - (len(visitors) - 1) / 2.0 if item in visitors else 0.0
    if foot.hold == "space" and len(spot.curve) > 1:
        return replace(_in_space(spot, rank, len(visitors), way), shared=len(visitors) > 1)
    point = _entry(foot, spot, way)
    touch = TOUCH_FEW if len(visitors) <= 3 else TOUCH
    step = min(touch, TOUCH_WIDEST / max(len(visitors) - 1, 1)) * rank
    u, v = way.u(point), way.v(point)
    at = _aside(point, u, v, step, way) if step else point
    return Footing(at, v, -0.5 < rank <= 0.5, len(visitors) > 1)


def _aside(point: Point, u: float, v: float, step: float, way: Way) -> Point:
    """The place `step` along from a point; where the way bends, as far as it is on the sheet."""
    near = way.at(u + step * way.unit(v), v)
    low, high = 0.0, abs(step) / max(math.dist(point, near), 1e-6)
    far = way.at(u + step * way.unit(v) * high, v)
    if math.dist(point, far) <= OVERSHOT * abs(step):
        return far
    for _ in range(HALVINGS):  # past the bend of a way it goes straight on: there a step is as long as it is
        middle = (low + high) / 2.0
        far = way.at(u + step * way.unit(v) * middle, v)
        low, high = (low, middle) if math.dist(point, far) > abs(step) else (middle, high)
    return far


def _in_space(spot: Spot, rank: float, count: int, way: Way) -> Footing:
    """A place on the chains of a space, `rank` steps from its middle in the direction of the work.

    On an arch the steps go along the work, so that an arch with uneven ends is still held in its middle; on a
    loop that is longer than twice its width, and on an arch that stands aslant, they go along the chains.
    """
    if any(spot.led):
        spot = _without_ends(spot, way)
    whole = length(spot.curve)
    middle = way.u(spot.head)
    first, last = way.near(way.u(spot.curve[0]), middle), way.near(way.u(spot.curve[-1]), middle)
    unit = way.unit(way.v(spot.head))
    wide = abs(last - first) / unit
    forward = 1.0 if last >= first else -1.0
    steep = abs(way.v(spot.curve[-1]) - way.v(spot.curve[0])) > STEEP * wide
    if wide * 2.0 < whole or steep:
        step = min(APART, max(whole - 2 * SPACE_END, 0.2) / max(count - 1, 1))
        share = 0.5 + forward * rank * step / max(whole, 1e-6)
    else:
        step = min(APART, max(wide - SPACE_END, 0.2) / max(count - 1, 1))
        share = _share_at(spot, (first + last) / 2.0 + rank * step * unit, way)
    point = on_chains(spot, share, way)
    return Footing(point, way.v(point))


def _without_ends(spot: Spot, way: Way) -> Spot:
    """A run of chains without what only leads it out from under a fan."""
    low, high = spot.led[0], 1.0 - spot.led[1]
    found = along_each(spot.curve, [low + (high - low) * k / 16.0 for k in range(17)])
    curve = tuple(at for at, _ in found)
    return replace(spot, curve=curve, head=_outside(*found[8], spot, way), led=(0.0, 0.0))


def _share_at(spot: Spot, u: float, way: Way) -> float:
    """The share of a chain run's length at which it is `u` along the work."""
    us = [way.near(way.u(p), u) for p in spot.curve]
    whole = length(spot.curve)
    done = 0.0
    for (a, b), (p, q) in zip(itertools.pairwise(us), itertools.pairwise(spot.curve), strict=True):
        part = math.dist(p, q)
        if min(a, b) <= u <= max(a, b) and a != b:
            return (done + part * (u - a) / (b - a)) / whole
        done += part
    return 0.0 if abs(us[0] - u) < abs(us[-1] - u) else 1.0


def on_space(spot: Spot, u: float, way: Way) -> Point:
    """The point on the outer side of a chain run that lies `u` along the work."""
    return on_chains(spot, _share_at(spot, u, way), way)


def on_chains(spot: Spot, share: float, way: Way) -> Point:
    """The point on the outer side of a chain run at a share of its length."""
    middle, angle = along(spot.curve, share)
    return _outside(middle, angle, spot, way)


def _outside(middle: Point, angle_deg: float, run: Spot, way: Way) -> Point:
    """A point beside a run at a place where it points so: on the side that is outside of the run as a whole, which on a
    steep end of it may lie a little inward."""
    (x, y), (a, b) = run.curve[0], run.curve[-1]
    over = math.dist((x, y), (a, b))
    across = math.atan2(b - y, a - x) if over > LEAST_CHORD else math.radians(angle_deg)
    turn, out = math.radians(angle_deg), way.out(way.u(middle))
    normal = (-math.sin(turn), math.cos(turn))
    side = 1.0 if -math.sin(across) * out[0] + math.cos(across) * out[1] >= 0 else -1.0
    return (middle[0] + side * normal[0] * CHAIN_HALF, middle[1] + side * normal[1] * CHAIN_HALF)


def _entry(foot: Foot, spot: Spot, way: Way) -> Point:
    """Where one foot goes into a spot."""
    if foot.hold == "between":
        return way.at(way.u(spot.head), way.v(spot.head) - 0.04)
    if foot.hold == "under":
        x, y = spot.head
        return (x, -y) if y else (x, y)
    if spot.curve and spot.ovals:
        x, y, angle = spot.ovals[min(max(foot.part, 0), len(spot.ovals) - 1)]
        return _outside((x, y), angle, spot, way)
    if foot.hold == "chain" and 0 <= foot.part < len(spot.ovals) - 1:
        x, y, _ = spot.ovals[foot.part]
        return (x, y)
    return spot.head
