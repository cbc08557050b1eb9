"""Chains and picots in a row: between tops, before the first, after the last."""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Mapping, Sequence

from hookfold.symbols import Point

from ...made_late import dataclass, replace
from ...model.cloth.fabric import Row, Stitch
from .chain_room import PITCH, TIGHT, arch, length, picot_tall, picot_wide, size_of
from .placed import CHAIN_HALF, Spot, along, along_each
from .tops import ARCH, Slot, bridge_size, crowned
from .tracks import CircleWay, FrameWay, Way

#: How far outside the first stitch such a chain stands.
START_ASIDE = 0.85


#: White between a head's own half width and the first chain beside it.
HEAD_HALF = 0.44


#: Half a bar, how far below its head it lies, and the kinds whose head is level however they lean.
BAR_HALF = 0.33


HEAD_GAP = 0.1


LEVEL_HEADS = ("sc", "sl st")


#: How much farther aside a chain keeps from the arms of a cross, for every stitch width that they lie aside.
ARMS_UNDER = 0.25


#: How far the middle of a run stands clear of what it passes over.
OVER_BASE = 0.3


#: A run longer than this many times the way round is drawn as a loop of its own.
BENDING = 1.7


#: Neighbours of a round stand no farther apart than so, in stitch widths, for a picot to stand between them.
PICOT_APART = 2.2


#: Of the way between two tops the most that chains keep off either. A loop of chains rises by so much of its chord at
#: least, three chains up to the last, longer runs less: laid straight a few read as single chains, and
#: loops of as many are of one shape.
MOST_ASIDE, BOW, MOST_BOW = 0.4, 0.16, 0.4


#: A way whose directions outward have this cosine at least does not bend.
STRAIGHT_ON = 0.98


#: How far outside the middle of a line of chains a picot stands on it.
ON_CHAINS = 0.12


@dataclass(frozen=True, slots=True)
class End:
    """The top at one end of a run of chains: where it stands, how far from it the run keeps, how far its bar
    dips; whether it stands out from a round fan.
    """

    u: float
    v: float
    aside: float = HEAD_HALF
    dip: float = 0.0
    radial: bool = False


def end_at(
    slot: Slot, spot: Spot, way: Way, side: float, *, u: float | None = None, aside: float = HEAD_HALF
) -> End:
    """The end that a slot's top makes for chains on one `side` of it (1: after it, -1: before it).

    The bar of a leaning post dips on the side it leans to; the arms of a cross stay level. `u` is given where
    the way comes round to the slot again.
    """
    at = slot.u if u is None else u
    if spot.role != "stitch":
        return End(at, slot.v, aside)
    if slot.radial:
        return End(at, slot.v, aside, radial=True)
    foot_u = sum(way.near(way.u(p), slot.u) for p in spot.feet) / len(spot.feet)
    foot_v = sum(way.v(p) for p in spot.feet) / len(spot.feet)
    across, up = (slot.u - foot_u) / way.unit(slot.v), max(slot.v - foot_v, 0.1)
    if slot.stitch.kind in LEVEL_HEADS:
        # The arms of a leaning cross lie under its head, on the side its foot is.
        return End(at, slot.v, aside + max(0.0, ARMS_UNDER * -side * across / math.hypot(across, up)))
    return End(at, slot.v, aside, side * BAR_HALF * across / math.hypot(across, up))


def bridge_spots(
    row: Row, bridge: Sequence[int], before: Spot, after: Spot, a: End, b: End, way: Way, ceiling: Ceiling = ()
) -> dict[int, Spot]:  # fmt: skip
    """The chains and picots between two tops, along one line; picots alone stand on `before`, between the two where
    these go into one place, and one that is made at once stands on it before chains too."""
    chains, picots = bridge_size(row, bridge)
    if not chains:
        if row.stitches[before.item].feet != row.stitches[after.item].feet:
            return {i: picot_on(i, row.stitches[i], before, way) for i in bridge}
        return {i: picot_between(i, row.stitches[i], before, after, way) for i in bridge}
    found = {i: picot_on(i, row.stitches[i], before, way) for i in crowned(row, bridge)}
    along_it = bridge[len(found) :]
    line = bridge_line(a, b, chains, picots, way, ceiling_over(ceiling, a.u, b.u, way))
    if len(along_it) > 1 or a.radial or b.radial:
        return found | along_line(row, along_it, line, chains, picots, way)
    line, led = _led_in(line, a, b, way)
    run = along_line(row, along_it, line, chains, picots, way)
    return found | {item: replace(s, led=led) for item, s in run.items()}


#: From so far beside a head on, chains are led to it from under the fan that stands on it; where on the arch they come
#: from, as a share of it; how far under that head they begin.
LED_FROM, LED_AT, LED_UNDER = 0.9, 0.16, 0.3


def _led_in(line: tuple[Point, ...], a: End, b: End, way: Way) -> tuple[tuple[Point, ...], tuple[float, float]]:
    """The line of a run with its ends led to the heads beside it, where it keeps far off them since a fan stands there,
    and the shares of it that do only that."""
    cut = round(LED_AT * (len(line) - 1))
    unit = way.unit((a.v + b.v) / 2.0)
    before: tuple[Point, ...] = ()
    after: tuple[Point, ...] = ()
    if abs(way.u(line[0]) - a.u) > LED_FROM * unit:
        before, line = (way.at(a.u + HEAD_HALF * unit, a.v - LED_UNDER),), line[cut:]
    if abs(b.u - way.u(line[-1])) > LED_FROM * unit:
        after, line = (way.at(b.u - HEAD_HALF * unit, b.v - LED_UNDER),), line[:-cut]
    whole = (*before, *line, *after)
    first = math.dist(before[0], line[0]) if before else 0.0
    last = math.dist(line[-1], after[0]) if after else 0.0
    long = max(length(whole), 1e-6)
    return whole, (round(first / long, 3), round(last / long, 3))


#: The tops of the row below as (u, v).
Ceiling = Sequence[tuple[float, float]]


def ceiling_of(base: Sequence[Spot], way: Way) -> Ceiling:
    """The tops of a row: its heads and its chains."""
    points = [
        p
        for s in base
        if s.role not in ("risen", "foundation")
        for p in (s.head, *((x, y) for x, y, _ in s.ovals))
    ]
    return [(way.u(p), way.v(p)) for p in points]


def ceiling_over(ceiling: Ceiling, start: float, end: float, way: Way) -> float:
    """The highest top well inside the span from `start` to `end`."""
    middle, inside = (start + end) / 2.0, (end - start) * 0.3
    return max((v for u, v in ceiling if abs(way.near(u, middle) - middle) < inside), default=-math.inf)


def bridge_line(
    a: End, b: End, chains: int, picots: float, way: Way, least_v: float = -math.inf
) -> tuple[Point, ...]:
    """The middle line of the chains from the top at a to the top at b.

    Its middle stands clear of `least_v`, the top of what it passes over.
    """
    if a.radial and b.radial:
        return _slanted(way.at(a.u, a.v), way.at(b.u, b.v), (a.aside, b.aside), chains * PITCH + picots)
    unit = way.unit((a.v + b.v) / 2.0)
    most = max((b.u - a.u) / unit * MOST_ASIDE, 0.2)
    start = way.at(a.u + min(a.aside, most) * unit, a.v - HEAD_GAP - a.dip)
    end = way.at(b.u - min(b.aside, most) * unit, b.v - HEAD_GAP - b.dip)
    need = chains * PITCH + picots
    over = least_v + OVER_BASE - (a.v + b.v) / 2.0 + HEAD_GAP
    around = _around(way, (way.u(start), way.v(start)), (way.u(end), way.v(end)), 0.0)
    if math.dist(start, end) < need:
        need = max(chains * TIGHT + picots, math.dist(start, end))
    if _turns(way, a.u, b.u) and need < length(around) * BENDING:
        return _bent(way, (way.u(start), way.v(start)), (way.u(end), way.v(end)), need, over)
    loops = chains >= ARCH and not isinstance(way, CircleWay)
    bow = min(BOW * math.dist(start, end), MOST_BOW / (chains - 2)) if loops else 0.0
    return arch(start, end, way.out((a.u + b.u) / 2.0), need, max(over, bow))


def _turns(way: Way, a: float, b: float) -> bool:
    """Whether a way bends between two places: a round does, what goes about a piece does at its corners."""
    if not isinstance(way, FrameWay):
        return isinstance(way, CircleWay)
    (x, y), (u, v) = way.out(a), way.out(b)
    return x * u + y * v < STRAIGHT_ON


def _slanted(a: Point, b: Point, asides: tuple[float, float], wanted: float) -> tuple[Point, ...]:
    """The line of chains between two tops that stand out from a fan: square to the way from one to the other."""
    over = max(math.dist(a, b), 1e-6)
    to = ((b[0] - a[0]) / over, (b[1] - a[1]) / over)
    out = (to[1], -to[0]) if to[0] > 0.0 else (-to[1], to[0])
    one, other = (min(aside, 0.34 * over) for aside in asides)
    start = (a[0] + to[0] * one - out[0] * HEAD_GAP, a[1] + to[1] * one - out[1] * HEAD_GAP)
    end = (b[0] - to[0] * other - out[0] * HEAD_GAP, b[1] - to[1] * other - out[1] * HEAD_GAP)
    return arch(start, end, out, max(wanted, math.dist(start, end)))


def _around(way: Way, a: tuple[float, float], b: tuple[float, float], bulge: float) -> tuple[Point, ...]:
    """The line from a to b, each (u, v), along the way, `bulge` further out in its middle."""
    span = way.near(b[0], a[0]) - a[0]
    shares = [k / 32.0 for k in range(33)]
    return tuple(
        way.at(a[0] + span * t, a[1] + (b[1] - a[1]) * t + bulge * 4.0 * t * (1.0 - t)) for t in shares
    )


def _bent(
    way: Way, a: tuple[float, float], b: tuple[float, float], wanted: float, least: float
) -> tuple[Point, ...]:
    """The line along the way that bulges, `least` or more, until it is `wanted` long (found by halving)."""
    low, high = max(least, 0.0), max(wanted, least)
    if length(_around(way, a, b, low)) >= wanted:
        return _around(way, a, b, low)
    for _ in range(20):
        middle = (low + high) / 2.0
        low, high = (middle, high) if length(_around(way, a, b, middle)) < wanted else (low, middle)
    return _around(way, a, b, high)


#: How much farther from a cross they do, whose arms lie below its head.
CROSS_MORE = 0.1


#: How much farther they keep from a stitch that a hook comes down beside.
HOOK_ASIDE = 0.34
#: The same beside a beginning chain that stands as the first leg under a head.
CHAIN_ASIDE = 0.5


def run_ends(a: Spot, b: Spot, middle: Point, hooked: tuple[bool, bool] = (False, False)) -> tuple[Point, Point]:
    """Where the chains between two stitches begin and end: beside their heads, on the way to the chains' middle.
    From those that are `hooked` farther, with room for a hook between."""
    return _beside_head(a, b.head, middle, hooked[0]), _beside_head(b, a.head, middle, hooked[1])


def _beside_head(spot: Spot, other: Point, middle: Point, hooked: bool) -> Point:
    """A place beside a head, towards the other one and as much towards the middle of the run."""
    head = spot.head
    over, up = math.dist(head, other), math.dist(head, middle)
    to = tuple((b - a) / max(over, 1e-6) + (m - a) / max(up, 1e-6) for a, b, m in zip(head, other, middle, strict=True))
    size = max(math.hypot(*to), 1e-6)
    more = (CROSS_MORE if spot.kind in LEVEL_HEADS else 0.0) + (HOOK_ASIDE if hooked else 0.0)
    more += CHAIN_ASIDE if _has_chain_towards(spot, other) else 0.0
    far = min(HEAD_HALF + more, over * 0.3)
    return (head[0] + to[0] / size * far, head[1] + to[1] / size * far)


def _has_chain_towards(spot: Spot, other: Point) -> bool:
    """Whether the beginning chain that is a stitch's first leg stands on the side of another head."""
    if not spot.is_beside_chain:
        return False
    (x, y), (p, q), (u, v) = spot.feet[0], spot.feet[1], spot.head
    return (x - p) * (other[0] - u) + (y - q) * (other[1] - v) > 0.0


def along_line(
    row: Row, items: Sequence[int], line: tuple[Point, ...], chains: int, picots: float, way: Way
) -> dict[int, Spot]:
    """Chains and picots in their order along a line."""
    whole = length(line)
    unit = (whole - picots) / chains
    size = size_of(whole - picots, chains)
    spots: dict[int, Spot] = {}
    done = 0.0
    for item in items:
        made = row.stitches[item]
        wide = made.chains * unit if made.role == "chain" else picot_wide(made.chains)
        spots[item] = (
            _run_spot(item, made, line, done / whole, (done + wide) / whole, size, way)
            if made.role == "chain"
            else _picot_at(item, made, line, (done + wide / 2.0) / whole, way)
        )
        done += wide
    return spots


def _run_spot(
    item: int, made: Stitch, line: tuple[Point, ...], start: float, end: float, size: float, way: Way
) -> Spot:
    shares = [start + (end - start) * (i + 0.5) / made.chains for i in range(made.chains)]
    curved = [start + (end - start) * i / 16.0 for i in range(17)]
    *found, (middle, _) = along_each(line, [*shares, *curved, (start + end) / 2.0])
    ovals = tuple((*at, angle) for at, angle in found[: made.chains])
    curve = tuple(at for at, _ in found[made.chains :])
    out = way.out(way.u(middle))
    head = (middle[0] + out[0] * CHAIN_HALF, middle[1] + out[1] * CHAIN_HALF)
    return Spot(item, "ch", "chain", head, chains=made.chains, ovals=ovals, size=size, curve=curve)


def _picot_at(item: int, made: Stitch, line: tuple[Point, ...], share: float, way: Way) -> Spot:
    """A picot standing on the outer side of a line of chains."""
    (x, y), _ = along(line, share)
    out = way.out(way.u((x, y)))
    return _picot(item, made, (x + out[0] * ON_CHAINS, y + out[1] * ON_CHAINS), way)


def picot_on(item: int, made: Stitch, under: Spot, way: Way) -> Spot:
    """A picot on a stitch: square to its bar, so as its stem leans; upright on arms, which lie level."""
    (x, y), (a, b) = under.head, under.feet[0] if under.feet else under.head
    tall = math.dist((x, y), (a, b))
    if tall < 1e-6 or under.kind in LEVEL_HEADS or len(under.feet) != 1 or under.role != "stitch" or under.route:
        return _picot(item, made, under.head, way)
    return _picot(item, made, under.head, way, ((x - a) / tall, (y - b) / tall))


def picot_between(item: int, made: Stitch, before: Spot, after: Spot, way: Way) -> Spot:
    """A picot between two neighbours, square to the line of their heads; where they stand apart, on the first."""
    (x, y), (a, b) = before.head, after.head
    over = math.dist(before.head, after.head)
    if not 1e-6 < over < PICOT_APART:
        return picot_on(item, made, before, way)
    at = ((x + a) / 2.0, (y + b) / 2.0)
    out, square = way.out(way.u(at)), ((b - y) / over, (x - a) / over)
    side = 1.0 if square[0] * out[0] + square[1] * out[1] > 0.0 else -1.0
    return _picot(item, made, at, way, (square[0] * side, square[1] * side))


def _picot(item: int, made: Stitch, at: Point, way: Way, out: Point | None = None) -> Spot:
    """A picot standing outward on a point; its head is the top of its ring."""
    out = out or way.out(way.u(at))
    reach = picot_tall(made.chains)
    head = (at[0] + out[0] * reach, at[1] + out[1] * reach)
    angle = math.degrees(math.atan2(out[0], -out[1]))
    return Spot(item, made.kind, made.role, head, (at,), chains=made.chains, angle_deg=angle)


def chains_of(
    row: Row, slots: Sequence[Slot], lead: Sequence[int], spots: Mapping[int, Spot], way: Way, level: float,
    edge: float | None, ceiling: Ceiling, asides: Callable[[Slot, Slot], tuple[float, float]],
) -> dict[int, Spot]:  # fmt: skip
    """All chains and picots of a row whose tops stand: between its tops, behind the last, and before the first.

    `asides` is how far beside two tops that follow each other the chains between them begin and end.
    """
    found: dict[int, Spot] = {}
    for a, b in itertools.pairwise(slots):
        one, other = asides(a, b)
        ends = end_at(a, spots[a.item], way, 1.0, aside=one), end_at(b, spots[b.item], way, -1.0, aside=other)
        found.update(bridge_spots(row, a.bridge, spots[a.item], spots[b.item], *ends, way, ceiling))
    if slots and slots[-1].bridge:
        found.update(hanging(row, slots[-1].bridge, spots[slots[-1].item], way))
    if lead:
        found.update(leading(row, lead, spots[slots[0].item] if slots else None, way, level, edge, ceiling))
    return found


def hanging(row: Row, bridge: Sequence[int], last: Spot, way: Way) -> dict[int, Spot]:
    """Chains after the last stitch run straight on."""
    chains, picots = bridge_size(row, bridge)
    if not chains:
        return {i: picot_on(i, row.stitches[i], last, way) for i in bridge}
    u, v = way.u(last.head), way.v(last.head)
    unit = way.unit(v)
    line = (
        way.at(u + HEAD_HALF * unit, v - 0.1),
        way.at(u + (HEAD_HALF + chains + picots) * unit, v - 0.1),
    )
    found = {i: picot_on(i, row.stitches[i], last, way) for i in crowned(row, bridge)}
    return found | along_line(row, bridge[len(found) :], line, chains, picots, way)


def leading(
    row: Row,
    lead: Sequence[int],
    first: Spot | None,
    way: Way,
    level: float,
    edge: float | None,
    ceiling: Ceiling = (),
) -> dict[int, Spot]:
    """Chains before the first stitch: they rise from the edge of the row below and bend over to its head.

    They keep clear of what the row below has there.
    """
    chains, picots = bridge_size(row, lead)
    u, v = (way.u(first.head), way.v(first.head)) if first else (0.0, level + 0.5)
    unit = way.unit(v)
    rise = min(edge if edge is not None else u, u - max(START_ASIDE, chains * 0.5) * unit)
    foot = max(level + 0.3, ceiling_over(ceiling, rise - 2.0 * unit, rise + 2.0 * unit, way) + OVER_BASE)
    start, end = way.at(rise, foot), way.at(u - HEAD_HALF * unit, v - HEAD_GAP)
    need = max(chains, 1) * TIGHT + picots
    over = ceiling_over(ceiling, rise, u, way) + OVER_BASE - (foot + v - HEAD_GAP) / 2.0
    line = arch(start, end, way.out(rise), need, over)
    return along_line(row, lead, line, max(chains, 1), picots, way)
