"""A round laid about an edge: it comes round to its beginning, and its end keeps off that."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

from ...made_late import replace
from ...model.cloth.fabric import Row, Stitch
from ..placing.behind import crossed
from ..placing.chain_runs import ceiling_of
from ..placing.feet import Bases, footings
from ..placing.isotonic import EASE, follow, place
from ..placing.placed import Laid, Spot, along, stack
from ..placing.row import spots_of
from ..placing.spacing import closed_fans, lift_fans, place_up
from ..placing.tops import Slot, gap_after, gaps_of, need_of, own_rise, rooms_of, tops_of
from ..placing.tracks import FrameWay
from .corner_fans import CornerFan, corner_fans

#: Tops of a round may come so near, in stitch widths, where what they stand on is closer than they, and no nearer.
OPEN, CLOSEST = 0.9, 0.72
#: How far a place's stitches may stand beside its middle before they are drawn closer, and by how much at a time.
OFF_FEET, CLOSER = 0.3, 0.03
#: How often it is looked for chains that are crowded where others were eased apart.
EASINGS = 8
#: The white that is left before the first stitch, beyond that between stitches: for the join and a beginning chain.
SEAM_FREE = 0.5
#: Where a round ends farther than twice this before its first stitch, join and chain stand by that.
FAR = 1.2
#: Where a round has chains up to its seam, join and beginning chain stand so far before its first stitch; how high over
#: what it stands on such a chain begins, how high each of it is, and how far below the join it ends.
BESIDE, CHAIN_FOOT, CHAIN_HIGH, JOIN_FREE = 0.68, 0.12, 0.5, 0.3
#: So many turns of a round are placed, of which the middle one is taken.
TURNS = 3
#: How far over the heads it goes into a slip stitch begins and ends that only moves the hook.
TRAVEL_FROM, TRAVEL_TO = 0.06, 0.42
#: How much lower it lies where it goes into a space: under its chains.
UNDER_CHAINS = 0.75


def lay_closed(row: Row, bases: Bases, way: FrameWay, *, level: float, upright: bool) -> Laid:
    """A round over what `bases` has below it, which is `level` high; its rise over that.

    Where it stands `upright`, what has its place to itself goes in right under its head.
    """
    found = footings(row, bases, way, closed=True)
    before: list[float] = []

    def top(item: int, made: Stitch, last: Slot | None) -> Slot:
        feet = found[item]
        us = [way.near(way.u(f.point), before[-1] if before else 0.0) for f in feet]
        want = sum(us) / len(us) if us else last.want if last else 0.0
        before.append(want)
        perch = sum(f.perch for f in feet) / len(feet) if feet else level
        return Slot(item, made, feet, want, perch + own_rise(made))

    slots, lead = tops_of(row, top, ("stitch", "turning"))
    slots[-1].bridge.extend(lead)
    around = [replace(s, want=s.want + k * way.whole) for k in range(-1, TURNS - 1) for s in slots]
    pitch, placed, fans = _placed(row, around, len(slots), way)
    for slot, u in zip(around, placed, strict=True):
        slot.u = u
        if upright and _is_alone(slot, around):
            foot, slot.want = slot.feet[0], u
            slot.feet = (replace(foot, point=way.at(u, way.v(foot.point))),)
    place_up(row, around, way)
    heads = [(way.u(s.head), way.v(s.head)) for s in bases.get(1, ()) if s.role in ("stitch", "turning")]
    lift_fans(around, [(u + k * way.whole, v) for k in range(-1, TURNS - 1) for u, v in heads], way)
    for fan in fans:
        for slot, v in zip(around[fan.first :], fan.v, strict=False):
            slot.v = v
    made, again = around[len(slots) : 2 * len(slots)], around[2 * len(slots)]
    spots = crossed(_spots(row, made, again, bases, way, level), row, way)
    rise = sum(s.v for s in made) / len(made) - level
    return Laid(tuple(s.rounded() for s in spots), rise, pitch)


def _is_alone(slot: Slot, slots: Sequence[Slot]) -> bool:
    """Whether a top has its place to itself."""
    return len(slot.feet) == 1 and sum(s.stitch.feet == slot.stitch.feet for s in slots) == TURNS


def shortest(row: Row) -> float:
    """How long a way must be for a round to come about, its tops as near as they may be."""
    slots, lead = tops_of(row, lambda item, made, _: Slot(item, made, (), 0.0, own_rise(made)), ("stitch", "turning"))
    slots[-1].bridge.extend(lead)
    return sum(_gaps(row, [*slots, slots[0]], len(slots), CLOSEST))


def _gaps(row: Row, slots: Sequence[Slot], many: int, pitch: float) -> list[float]:
    """The least way from each top to the next, in turns of so `many`."""
    gaps = closed_fans(slots, gaps_of(row, slots, pitch))
    return [gap + SEAM_FREE if (k + 1) % many == 0 else gap for k, gap in enumerate(gaps)]


def _placed(
    row: Row, around: Sequence[Slot], many: int, way: FrameWay
) -> tuple[float, list[float], list[CornerFan]]:
    """How close the tops of a round stand at least, where each does, and its fans in corners: as wide as the way has
    room for, closer where else some would stand off what they go into."""
    pitch = _pitch(row, around[:many], way)
    found: list[tuple[float, float, list[float], list[CornerFan]]] = []
    while not found or (found[-1][0] > OFF_FEET and pitch > CLOSEST):
        pitch = max(pitch - CLOSER, CLOSEST) if found else pitch
        gaps, rooms = _gaps(row, around, many, pitch), rooms_of(row, around, pitch)
        fans = corner_fans(around, gaps, way)
        for fan in fans:
            gaps[fan.first : fan.first + len(fan.v) - 1] = [b - a for a, b in itertools.pairwise(fan.aside)]
        placed = _settled(around, gaps, rooms)
        found.append((max(map(abs, _off(around, placed)), default=0.0), pitch, placed, fans))
    return min(found, key=lambda each: max(each[0], OFF_FEET))[1:]


def _settled(slots: Sequence[Slot], gaps: Sequence[float], rooms: Sequence[float | None]) -> list[float]:
    """Where tops stand: what shares a place spread over it, and chains that are crowded eased apart, with those beside
    them, until none is that has not been."""
    wants = [s.want for s in slots]
    for _, same in itertools.groupby(range(len(slots)), key=lambda k: slots[k].stitch.feet or slots[k].item):
        group = list(same)
        middle, within = sum(wants[k] for k in group) / len(group), [gaps[k] for k in group[:-1]]
        for k, aside in zip(group, itertools.accumulate(within, initial=-sum(within) / 2.0), strict=True):
            wants[k] = middle + aside
    eased: set[int] = set()
    for _ in range(EASINGS):
        ties = [EASE if k in eased else 0.0 for k in range(len(gaps))]
        placed = place(follow(wants, [1.0] * len(wants), [room or 0.0 for room in rooms], ties), gaps)
        tight = {k for k, room in enumerate(rooms) if room and placed[k + 1] - placed[k] < room - CLOSER}
        if tight <= eased:
            break
        eased |= tight
    return placed


def _off(slots: Sequence[Slot], placed: Sequence[float]) -> list[float]:
    """How far along the way those that share a place stand from its middle, place by place."""
    found = []
    for _, same in itertools.groupby(range(len(slots)), key=lambda k: slots[k].stitch.feet or slots[k].item):
        group = list(same)
        found.append(sum(placed[k] - slots[k].want for k in group) / len(group))
    return found


def _pitch(row: Row, slots: Sequence[Slot], way: FrameWay) -> float:
    """How close the tops of a round stand where they fill the way."""
    wide = need_of(row, slots) - 1.0 + gap_after(row, slots[-1], slots[0], 1.0) + SEAM_FREE
    return min(OPEN, max(CLOSEST, way.whole / wide))


def _spots(row: Row, made: list[Slot], again: Slot, bases: Bases, way: FrameWay, level: float) -> tuple[Spot, ...]:
    """All of a round, drawn as a row that ends with its first stitch come again."""
    longer = replace(row, stitches=(*row.stitches, again.stitch))
    free = SEAM_FREE if made[-1].bridge else 0.0  # chains that close a round end before its seam
    again = replace(again, item=len(row.stitches), bridge=[], u=again.u - free)
    found = [*footings(row, bases, way, closed=True), again.feet]
    spots = spots_of(longer, [*made, again], (), found, way, level, None, ceiling_of(bases.get(1, ()), way))
    first, last = made[0], made[-1]
    before = (first.u - last.u + way.whole) / 2.0
    at = first.u - (BESIDE if last.bridge or before > FAR else before)
    below = bases.get(1, ())
    moved = [
        _moving(spot, made, below[made.feet[0].at], way, level) if made.role == "travel" and made.feet else spot
        for spot, made in zip(spots[:-1], row.stitches, strict=True)
    ]
    beside = {"start": _start, "join": _join}
    return tuple(
        beside[stitch.role](spot, way, at, (level, first.v)) if stitch.role in beside else spot
        for spot, stitch in zip(moved, row.stitches, strict=True)
    )


def _start(spot: Spot, way: FrameWay, at: float, between: tuple[float, float]) -> Spot:
    """A beginning chain that does not count, under the join of its round."""
    level, top = between
    low = level + CHAIN_FOOT
    high = min(low + CHAIN_HIGH * spot.chains, max(top - JOIN_FREE, low + CHAIN_HIGH))
    foot, head = way.at(at, low), way.at(at, high)
    return replace(spot, head=head, feet=(foot,), ovals=stack(foot, head, spot.chains))


def _join(spot: Spot, way: FrameWay, at: float, between: tuple[float, float]) -> Spot:
    """The slip stitch that joins a round, at the height of its first head."""
    head, out = way.at(at, between[1]), way.out(at)
    return replace(spot, head=head, feet=(head,), angle_deg=math.degrees(math.atan2(out[0], -out[1])))


def _moving(spot: Spot, made: Stitch, base: Spot, way: FrameWay, level: float) -> Spot:
    """A slip stitch that only moves the hook: over the head it goes into, or under the chains of a space."""
    is_space = made.feet[0].hold == "space" and len(base.curve) > 1
    point = along(base.curve, 0.5)[0] if is_space else base.head
    u, v = way.u(point), way.v(point) - UNDER_CHAINS if is_space else max(way.v(point), level)
    out = way.out(u)
    turn = math.degrees(math.atan2(out[0], -out[1]))
    return replace(spot, head=way.at(u, v + TRAVEL_TO), feet=(way.at(u, v + TRAVEL_FROM),), angle_deg=turn)
