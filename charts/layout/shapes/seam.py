"""Where a round begins and ends: its join, its beginning chain, slip stitches that travel, places for its number."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterator, Sequence

from hookfold.symbols import Point

from ...made_late import replace
from ...model.cloth.fabric import Stitch
from ..placing.clearing import InkMap, cleared, map_of
from ..placing.feet import Footing
from ..placing.long_stems import past, reaches
from ..placing.placed import Laid, Spot, Stem, along, stack
from ..placing.tops import Slot
from ..placing.tracks import CircleWay, OvalWay, Way
from ..posts.clasping import clasped_row, is_hooked
from ..posts.rows import hiding, led_row
from .ring import Beside, LaidRounds, Ring, bases_of

#: Where the join, a beginning chain that does not count, and the number stand before the first top.
JOIN_BEFORE, JOIN_UP = 0.66, 0.0
#: The same beside the last chain of a beginning chain that counts: the join goes into that chain.
JOIN_BESIDE, JOIN_BELOW = 0.56, 0.2


#: How far before the first top a number stands best; where about it one is looked for, where farther along, the steps.
NUMBER_BEFORE, ABOUT_SEAM, FARTHER, NUMBER_BY = 0.9, (-2.3, 3.2), (-8.0, 9.0), (0.1, 0.3)
#: A place that is so much nearer to the last stitch or the second than to the first is beside that one.
NEARER = 0.12
#: How far above and below its round a number may lie, as shares of the round's height.
NUMBER_LOW, NUMBER_HIGH = 0.05, 2.3
#: What a step along costs that goes past the first stitch, what a step outward costs against one along, and what it
#: costs to lie beyond the heads of the round, and half a turn about the centre away from the first stitch.
PAST_FIRST, OUT_COSTS, BEYOND_COSTS, HALF_TURN_COSTS = 0.8, 0.7, 0.8, 4.0


#: A first stitch taller than this leans so far that its beginning chain stands beside its foot, not under its head.
LONG = 1.6


#: A slip stitch that travels lies along the bar it was worked into, so far out from the head; into a space it lies
#: under the middle of the chains, so far in. Half the way from the foot of its dot to its head.
TRAVEL_ON, TRAVEL_INSIDE, TRAVEL_HALF = 0.19, 0.52, 0.18


#: Any round about the centre, whatever its shape: along and outward as a stem that crosses it has them.
ABOUT = CircleWay(1.0, 0.0)
#: Half the share of a run of chains over which its direction is taken.
ACROSS = 0.12
START_BEFORE, START_FOOT, START_HIGH = 0.62, 0.2, 0.62
#: Heads no farther apart than this are neighbours; how far above the work a chain between them begins, and the way
#: from its middle to the ends of the arms beside it.
TIGHT, TIGHT_FOOT, ARMS_OFF = 1.6, 0.2, 0.3
#: The way from the middle of a seam to the ends of the bars on top of the stems beside it: half a join's dot and white.
DOT_OFF = 0.36
#: There each chain is so high at most, and the join's dot lies so far below the heads: chain and dot of a round are a
#: pair, with more white from one pair to the next than inside it, so that a seam is no string of signs.
TIGHT_HIGH, TIGHT_JOIN = 0.52, 0.1


def at_seam(
    item: int, made: Stitch, feet: tuple[Footing, ...], ends: tuple[Slot, Slot], level: float, way: Way,
    base: Spot | None = None,
) -> Spot:
    """A beginning chain that does not count, the join, and slip stitches that travel over the round below.

    `ends` are the last stitch of the round and the first, `base` is what a slip stitch goes into.
    """
    last, first = ends
    if made.role == "start":
        return _start(item, made, ends, level, way)
    if made.role == "travel" and feet:
        if base is not None and (found := _on_base(item, made, base, first, way)):
            return found
        u, v = way.u(feet[0].point), feet[0].perch
        return Spot(item, made.kind, made.role, way.at(u, v + 0.42), (way.at(u, v + 0.06),))
    counts = first.stitch.role == "turning"
    before, up = (JOIN_BESIDE, -JOIN_BELOW) if counts else (JOIN_BEFORE, JOIN_UP)
    u = first.u - before * way.unit(first.v)
    if not counts and is_tight(last, first, way):
        u, up = _halfway(last.u, first.u, way), (last.v - first.v) / 2.0 - TIGHT_JOIN
    out = way.out(u)
    angle = math.degrees(math.atan2(out[0], -out[1]))
    at = way.at(u, first.v + up)
    return Spot(item, made.kind, made.role, at, (at,), chains=made.chains, angle_deg=angle)


def _on_base(item: int, made: Stitch, base: Spot, first: Slot, way: Way) -> Spot | None:
    """A slip stitch on the head it was worked into, along its bar; one into a space inside it, along its chains, where
    the round's first stitch stands. None where neither has a direction of its own."""
    if made.feet[0].hold == "space" and len(base.curve) > 1:
        middle, up = _under_first(base, made, first)
        out = -TRAVEL_INSIDE
    elif base.role in ("stitch", "turning") and base.feet:
        (x, y), (a, b) = base.feet[0], base.head
        middle, up, out = base.head, (a - x, b - y), TRAVEL_ON
    else:
        return None
    long = math.hypot(*up)
    if long < 1e-6:
        return None
    away = way.out(way.u(middle))
    sign = 1.0 if up[0] * away[0] + up[1] * away[1] >= 0.0 else -1.0
    u, v = sign * up[0] / long, sign * up[1] / long
    low, high = out - TRAVEL_HALF, out + TRAVEL_HALF
    foot, head = ((middle[0] + u * far, middle[1] + v * far) for far in (low, high))
    return Spot(item, made.kind, made.role, head, (foot,), angle_deg=math.degrees(math.atan2(u, -v)))


def _under_first(run: Spot, made: Stitch, first: Slot) -> tuple[Point, Point]:
    """The place on the line of a run of chains that lies under the first stitch in its space, and the way across it
    there; the middle of the run where that goes in elsewhere."""
    share = 0.5
    if first.feet and first.stitch.feet and first.stitch.feet[0] == made.feet[0]:
        foot, last = first.feet[0].point, len(run.curve) - 1
        share = min(range(last + 1), key=lambda k: (round(math.dist(run.curve[k], foot), 6), k)) / last
    middle, (a, b) = along(run.curve, share)[0], (run.curve[0], run.curve[-1])
    (x, y), (u, v) = along(run.curve, max(share - ACROSS, 0.0))[0], along(run.curve, min(share + ACROSS, 1.0))[0]
    across = (y - v, u - x) if math.dist((x, y), (u, v)) > 1e-6 else (a[1] - b[1], b[0] - a[0])
    return middle, across


def is_tight(last: Slot, first: Slot, way: Way) -> bool:
    """Whether the last stitch and the first are neighbours: what lies at the seam lies midway between them."""
    return not last.bridge and last is not first and math.dist(_at(last, way), _at(first, way)) < TIGHT


def _at(slot: Slot, way: Way) -> Point:
    return way.at(slot.u, slot.v)


def _halfway(before: float, after: float, way: Way) -> float:
    return (way.near(before, after) + after) / 2.0


def _between(item: int, made: Stitch, ends: tuple[Slot, Slot], level: float, way: Way) -> Spot:
    """A beginning chain between two stems that are neighbours, upright on the work."""
    pairs = [pair for end in ends for pair in zip(end.feet, end.stitch.feet, strict=False)]
    spaced = [footing.perch for footing, foot in pairs if foot.hold == "space"]
    top, tall = min(s.v for s in ends) - TIGHT_FOOT - TIGHT_JOIN, TIGHT_HIGH * made.chains
    low = max(level + TIGHT_FOOT, min(max(spaced, default=level) + TIGHT_FOOT, top - tall))
    high = min(low + tall, top)
    at = [(_stem_u(ends[0], v, way), _stem_u(ends[1], v, way)) for v in (low, high)]
    foot, head = (way.at(_halfway(a, b, way), v) for (a, b), v in zip(at, (low, high), strict=True))
    return Spot(
        item, made.kind, made.role, head, (foot,), chains=made.chains, ovals=stack(foot, head, made.chains)
    )


def _stem_u(slot: Slot, v: float, way: Way) -> float:
    """Where along the work a stem is at a height."""
    if not slot.feet:
        return slot.u
    us, vs = [way.near(way.u(f.point), slot.u) for f in slot.feet], [way.v(f.point) for f in slot.feet]
    u, low = sum(us) / len(us), sum(vs) / len(vs)
    share = min(max((v - low) / max(slot.v - low, 1e-6), 0.0), 1.0)
    return u + (slot.u - u) * share


def _start(item: int, made: Stitch, ends: tuple[Slot, Slot], level: float, way: Way) -> Spot:
    """A beginning chain that does not count: before the foot of the first stitch, at the height where that stands."""
    last, first = ends
    if is_tight(last, first, way) and all(f.back == 1 for end in ends for f in end.stitch.feet):
        return _between(item, made, ends, level, way)
    low, u = level + START_FOOT, first.u
    if first.feet and first.stitch.feet[0].hold == "space":  # over its space, not in the loop beside it
        low = max(low, first.feet[0].perch + START_FOOT)
    near = first.feet and all(f.back == 1 for f in first.stitch.feet)
    if near and first.v - first.feet[0].perch > LONG:
        low, u = first.feet[0].perch + START_FOOT, way.near(way.u(first.feet[0].point), first.u)
    if first.stitch.feet and not near:  # beside the stem of what goes in further down, not out beyond its head
        low = min(low, max(first.v - START_HIGH, 0.0))
    u -= START_BEFORE * way.unit(min(first.v, low + START_HIGH))
    if isinstance(way, OvalWay):
        u = first.u - START_BEFORE * max(way.middle / (low + START_HIGH / 2.0), 1.0)
    high = min(START_HIGH * made.chains, max(first.v - level - 0.35, START_HIGH))
    foot, head = way.at(u, low), way.at(u, low + high)
    ovals = stack(foot, head, made.chains)
    return Spot(item, made.kind, made.role, head, (foot,), chains=made.chains, ovals=ovals)


def label_tries(slots: Sequence[Slot], level: float, way: Way) -> tuple[Beside, ...]:
    """Places for the middle of the round's number, the likeliest first: between the last stitch and the first one.

    The work goes on from the number, so places past the first stitch cost more; and a number says which stitch is the
    first, so one that is nearer to the last or to the second is taken only where no other can be had.
    """
    first, high = slots[0], max(slots[0].v - level, 1.0)
    far = [back for back in _span(*FARTHER, 1) if not ABOUT_SEAM[0] <= back <= ABOUT_SEAM[1]]
    stems = [_stem_of(slot, level, way) for slot in (first, *slots[1:2], *slots[1:][-1:])]
    places = [
        place
        for tier, backs in enumerate((_span(*ABOUT_SEAM, 0), far))
        for place in _columns(first, high, (tier, backs), way, stems)
    ]
    places.sort(key=lambda b: (b.tier, b.cost))
    return tuple(places)


def _stem_of(slot: Slot, level: float, way: Way) -> tuple[Point, Point]:
    """The line on which a stitch stands, as two points."""
    return way.at(_stem_u(slot, level, way), min(level, slot.v)), _at(slot, way)


def _is_by_first(at: Point, stems: Sequence[tuple[Point, Point]]) -> bool:
    """Whether a place is beside the first of some stitches, and not rather beside another."""
    own = _off_line(at, *stems[0])
    return all(own <= _off_line(at, *stem) + NEARER for stem in stems[1:])


def _off_line(at: Point, a: Point, b: Point) -> float:
    """How far a point lies from a line between two points."""
    (ax, ay), (px, py) = a, at
    dx, dy = b[0] - ax, b[1] - ay
    long = dx * dx + dy * dy
    share = ((px - ax) * dx + (py - ay) * dy) / (long if long > 1e-9 else 1e-9)
    if share <= 0.0:
        return math.dist(at, a)
    share = share if share < 1.0 else 1.0
    return math.dist(at, (ax + dx * share, ay + dy * share))


def _heights(first: Slot, high: float, tier: int) -> list[float]:
    """The heights at which a number is tried."""
    return _span(first.v - high * (1.0 - NUMBER_LOW), first.v + high * (NUMBER_HIGH - 1.0), tier)


def _span(low: float, high: float, tier: int) -> list[float]:
    return [low + k * NUMBER_BY[tier] for k in range(round((high - low) / NUMBER_BY[tier]) + 1)]


def _columns(
    first: Slot, high: float, kind: tuple[int, list[float]], way: Way, stems: Sequence[tuple[Point, Point]]
) -> Iterator[Beside]:
    """The places so many stitch widths before the first top, column by column, each from the lowest up; `kind` is their
    tier and these widths, `high` how high the round is. Those that are not by the first of the stems are farther on."""
    tier, backs = kind
    heights = [(v, 1.0 - (first.v - v) / high, 0.01 * way.unit(v)) for v in _heights(first, high, tier)]
    unit, outward = way.unit((2.0 * first.v - high) / 2.0), way.out(first.u)
    for back in backs:
        u = first.u - back * unit
        turned = HALF_TURN_COSTS * (1.0 - sum(a * b for a, b in zip(way.out(u), outward, strict=True))) / 2.0
        for v, up, on in heights:
            cost = abs(back - NUMBER_BEFORE) + OUT_COSTS * abs(up - 0.5) * high
            cost += (PAST_FIRST if back < 0.0 else 0.0) + (BEYOND_COSTS if up > 1.0 else 0.0)
            cost += turned
            x, y = at = way.at(u, v)
            a, b = way.at(u + on, v)
            long = math.dist(at, (a, b))
            by_first = tier == 0 and _is_by_first(at, stems)
            yield Beside(at, ((a - x) / long, (b - y) / long), up, 0 if by_first else 1, round(cost, 3))


def settled(laid: LaidRounds) -> LaidRounds:
    """The rounds with the stems that reach past others wound between them, and what lies at their seams moved clear
    of ink."""
    rings = _clasped([_routed(ring, laid.rings[:k], laid.centre) for k, ring in enumerate(laid.rings)], laid.centre)
    again = [("again", laid.again.laid.spots)] if laid.again else []
    ink = map_of([("centre", laid.centre.spots), *again, *((ring.index, ring.laid.spots) for ring in rings)])
    return replace(laid, rings=tuple(_cleared(ring, ink) for ring in rings))


def _clasped(rings: Sequence[Ring], centre: Laid) -> list[Ring]:
    """The rounds with their hooks closed round the posts they go round, and what these hide of other rounds."""
    hidden: dict[int, dict[int, list[Stem]]] = defaultdict(lambda: defaultdict(list))
    narrow: dict[int, set[int]] = defaultdict(set)
    rings = [replace(ring, laid=led_row(ring.laid, ring.worked.row)) for ring in rings]
    made = list(rings)
    for k, ring in enumerate(rings):
        if not any(is_hooked(s) for s in ring.laid.spots):
            continue
        found = clasped_row(ring.laid.spots, ring.worked.row, bases_of(ring.worked.row, rings[:k], centre))
        made[k] = replace(ring, laid=replace(ring.laid, spots=found.spots))
        for (back, item), stems in found.hidden.items():
            if back <= k:
                hidden[k - back][item] += stems
        for back, item in found.narrow:
            narrow[k - back].add(item)
    return [
        replace(r, laid=replace(r.laid, spots=hiding(r.laid.spots, hidden[k], narrow[k])))
        if k in hidden or k in narrow else r
        for k, r in enumerate(made)
    ]


def _routed(ring: Ring, below: Sequence[Ring], centre: Laid) -> Ring:
    """The stems that go in further down than the round below, as they are seen from the centre of the work."""
    row = ring.worked.row
    bases = bases_of(row, below, centre)
    pairs = zip(ring.laid.spots, row.stitches, strict=True)
    if not any(reaches(made, bases) for made in row.stitches):
        return ring
    spots = tuple(past(s, made, bases, ABOUT) if reaches(made, bases) else s for s, made in pairs)
    return replace(ring, laid=replace(ring.laid, spots=tuple(s.rounded() for s in spots)))


def _cleared(ring: Ring, ink: InkMap) -> Ring:
    spots = tuple(s.rounded() for s in cleared(ring.laid.spots, ink, ring.index))
    return replace(ring, laid=replace(ring.laid, spots=spots))
