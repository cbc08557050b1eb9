"""A row laid over the rows below it: every top over the middle of its feet, chains arched between the tops.

The same steps lay a flat row and a round; only the `Way` differs. Feet are found first, then the tops are
placed along the row (`place`), then their heights are settled so that the row stands square to its posts:
where posts lean outward, as in a shell or at the peak of a ripple, the row falls away, and where a low stitch
stands beside a tall one the row follows a little and levels the rest.
"""

from __future__ import annotations

import functools
import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from hookfold.symbols import Point, extent, glyph, kind_of, natural_height, stitch
from hookfold.symbols import known as known_kind

from ..model.grid import Row, Stitch
from .bridge import PITCH, TIGHT, arch, length, room, size_of
from .feet import Bases, Footing, footings, own_footing
from .place import follow, settle
from .spot import CHAIN_HALF, Laid, Spot, along
from .way import CircleWay, Way

#: How firmly the height of a top follows its neighbour's, against standing its own height above its feet.
LEVELLING = 2.0
#: How much of the fall that leaning posts ask for is given.
SQUARE = 0.7
#: The height of one chain of a beginning chain that does not count as a stitch.
START_STEP = 0.9
#: How far outside the first stitch such a chain stands.
START_ASIDE = 0.85
#: White between a head's own half width and the first chain beside it.
HEAD_HALF = 0.42
#: How far outside its foot a beginning chain stands: its ovals are wider than a post.
STACK_ASIDE = 0.09
#: Half a bar, how far below its head it lies, and the kinds whose head is level however they lean.
BAR_HALF = 0.33
HEAD_GAP = 0.1
LEVEL_HEADS = ("sc", "sl st")
#: How far the middle of a run stands clear of what it passes over.
OVER_BASE = 0.3
#: The least share of its height that a stitch may be drawn at: a cross cannot be squeezed, a bobble can.
LEAST_CROSS, LEAST_GATHERED, LEAST_POST = 0.85, 0.6, 0.75
#: A run longer than this many times the way round is drawn as a loop of its own.
BENDING = 1.7
#: Feet farther apart than this stand on a base that is spread, and their tops keep its spread.
SPREAD = 1.12
#: The ink width of a plain head, and the white kept between the ink of neighbours.
BAR_WIDTH = 0.74
INK_GAP = 0.05
#: The closest that tops may stand, and how many stitches a row may grow before it is drawn closer.
CLOSEST = 0.8
GROWTH = 2


@dataclass(frozen=True, slots=True)
class Below:
    """What the row below is to the width of a row: its width, its tops, and how close they stand."""

    width: float
    tops: int
    pitch: float


@dataclass(slots=True)
class Slot:
    """One top of the row while it is being placed."""

    item: int
    stitch: Stitch
    feet: tuple[Footing, ...]
    want: float
    rise: float
    u: float = 0.0
    v: float = 0.0
    bridge: list[int] = field(default_factory=list)


def lay_row(
    row: Row,
    bases: Bases,
    way: Way,
    *,
    level: float = 0.0,
    edge: float | None = None,
    below: Below | None = None,
) -> Laid:
    """The row's spots and its rise over `level`, the height of the row below.

    `edge` is where along the work the row begins when its beginning chain has no foot of its own;
    `below` is what
    limits how wide it may become; None leaves it free.
    """
    found = footings(row, bases, way)
    slots, lead = _slots(row, found, way, level, edge)
    need = need_of(row, slots)
    pitch = pitch_of(need, len(slots), below) if below else 1.0
    if slots:
        place_along(row, slots, way, pitch)
        place_up(row, slots, way)
    ceiling = ceiling_of(bases.get(1, ()), way)
    spots = spots_of(row, slots, lead, found, way, level, edge, ceiling)
    tops = [s.v for s in slots if s.stitch.kind != "sl st"] or [s.v for s in slots]
    rise = sum(tops) / len(tops) - level if tops else 0.5
    return Laid(spots, rise, pitch, need)


def _slots(
    row: Row, found: Sequence[tuple[Footing, ...]], way: Way, level: float, edge: float | None
) -> tuple[list[Slot], list[int]]:
    """The tops of the row with what they want; chains and picots between them; the chains before the
    first.
    """
    slots: list[Slot] = []
    lead: list[int] = []
    for item, made in enumerate(row.stitches):
        if made.role in ("chain", "picot"):
            (slots[-1].bridge if slots else lead).append(item)
        elif made.role in ("stitch", "turning", "travel", "foundation"):
            slots.append(_slot(item, made, found[item], slots[-1].want if slots else edge, way, level))
    return slots, lead


def _slot(
    item: int, made: Stitch, feet: tuple[Footing, ...], before: float | None, way: Way, level: float
) -> Slot:
    want = sum(way.u(f.point) for f in feet) / len(feet) if feet else (before or 0.0)
    perches = [
        max(f.perch, level) if foot.back > 1 else f.perch for f, foot in zip(feet, made.feet, strict=False)
    ]
    perch = sum(perches) / len(perches) if perches else level
    return Slot(item, made, feet, want, perch + rise_of(made.kind, made.legs, made.base))


@functools.cache
def rise_of(kind: str, legs: int, base: str = "") -> float:
    """The height of a stitch between two level rows (a beginning chain's is that of the stitch it counts
    as).
    """
    if kind in ("sl st", "ch"):
        return natural_height(kind)
    return natural_height(drawn_kind(kind, legs, base), legs, base)


def drawn_kind(kind: str, legs: int, base: str) -> str:
    """The kind a stitch is drawn as: a special stitch of a single post is drawn as the stitch it is made
    of.
    """
    return base if base and legs <= 1 and not known_kind(kind) else kind


@functools.cache
def width_of(kind: str, legs: int, base: str = "") -> float:
    """How wide the ink of a stitch is at its natural size: a bar's width, or what its gathered legs need."""
    kind = drawn_kind(kind, legs, base)
    if kind in ("sl st", "ch") or (known_kind(kind) and stitch(kind).form != "gathered"):
        return BAR_WIDTH
    box = extent(glyph(kind_of(kind, legs, base).name).mark)
    return box[2] - box[0]


def need_of(row: Row, slots: Sequence[Slot]) -> float:
    """How wide a row is with its tops one stitch apart."""
    return 1.0 + sum(gap_after(row, a, b, 1.0) for a, b in itertools.pairwise(slots))


def pitch_of(need: float, tops: int, below: Below) -> float:
    """How close tops may stand: one stitch, less where the row makes far more than the row below is wide.

    A row may grow by as many stitches as it makes more, up to `GROWTH`, as shaped work does; what grows
    faster, as lace and ruffles do, is drawn closer instead, and the rows on it keep its spacing.
    """
    growth = min(max(tops - below.tops, 0), GROWTH)
    pitch = min(1.0, max(below.pitch, below.width / need))
    if need * pitch > below.width + growth:
        pitch = (below.width + growth) / need
    return max(pitch, CLOSEST)


def gaps_of(row: Row, slots: Sequence[Slot], pitch: float) -> list[float]:
    """The least way from each top to the next."""
    return [gap_after(row, a, b, pitch) for a, b in itertools.pairwise(slots)]


def gap_after(row: Row, a: Slot, b: Slot, pitch: float) -> float:
    """The least way from one top to the next, over the chains between them."""
    chains, picots = bridge_size(row, a.bridge)
    ink = (_width(a) + _width(b)) / 2.0
    return max(pitch, ink + INK_GAP) + (room(chains, picots) if chains else 0.0)


def _width(slot: Slot) -> float:
    return width_of(slot.stitch.kind, slot.stitch.legs, slot.stitch.base)


def bridge_size(row: Row, bridge: Sequence[int]) -> tuple[int, int]:
    """The chains lying in a bridge, and the picots on it."""
    chains = sum(row.stitches[i].chains for i in bridge if row.stitches[i].role == "chain")
    return chains, sum(1 for i in bridge if row.stitches[i].role == "picot")


def place_along(row: Row, slots: Sequence[Slot], way: Way, pitch: float) -> None:
    """Settle u of every top."""
    wants, steps = [s.want for s in slots], steps_of(row, slots, way, pitch)
    for slot, u in zip(slots, settle(wants, gaps_of(row, slots, pitch), steps), strict=True):
        slot.u = u


def steps_of(row: Row, slots: Sequence[Slot], way: Way, pitch: float) -> list[float | None]:
    """The way each top would keep from the last: that between their feet, less what was skipped between them.

    Where nothing but stitches stands over spaces that are wider than they are, the way from space to space is
    stretched to reach from end to end.
    """
    pairs = list(itertools.pairwise(slots))
    steps = [None if bridge_size(row, a.bridge)[0] else _step(a, b, way, pitch) for a, b in pairs]
    known = [step for step in steps if step is not None]
    over = [k for k, (a, b) in enumerate(pairs) if _into_spaces(a, b)]
    short = (slots[-1].want - slots[0].want) - sum(known) if slots else 0.0
    if len(known) < len(steps) or not over or short <= 0.0:
        return steps
    return [step + short / len(over) if step and k in over else step for k, step in enumerate(steps)]


def _into_spaces(a: Slot, b: Slot) -> bool:
    """Whether two tops that follow each other stand in two different spaces, or one of them in one."""
    one, other = a.stitch.feet[-1:], b.stitch.feet[:1]
    return one != other and any(f.hold == "space" for f in (*one, *other))


def _step(a: Slot, b: Slot, way: Way, pitch: float) -> float:
    if not (a.feet and b.feet and a.stitch.feet and b.stitch.feet):
        return pitch
    one, other = a.stitch.feet[-1], b.stitch.feet[0]
    apart = abs(way.near(way.u(b.feet[0].point), way.u(a.feet[-1].point)) - way.u(a.feet[-1].point))
    passed = abs(other.at - one.at) if other.back == one.back else 1
    natural = apart / max(passed, 1)
    return natural if natural > SPREAD else pitch


def place_up(row: Row, slots: Sequence[Slot], way: Way) -> None:
    """Settle v of every top."""
    leans = [_lean(s, way) for s in slots]
    heights = [rise_of(s.stitch.kind, s.stitch.legs, s.stitch.base) for s in slots]
    steps, ties = [], []
    for k in range(len(slots) - 1):
        slope = -SQUARE * (leans[k] + leans[k + 1]) / (heights[k] + heights[k + 1])
        chained = bool(bridge_size(row, slots[k].bridge)[0])
        small = "sl st" in (slots[k].stitch.kind, slots[k + 1].stitch.kind)
        reach = (slots[k + 1].u - slots[k].u) / way.unit(slots[k].rise)
        steps.append(0.0 if chained else slope * min(reach, 1.5))
        ties.append(0.0 if small else LEVELLING / (2.0 if chained else 1.0))
    targets = [
        s.rise - min(0.25 * h, 0.04 * lean * lean) for s, h, lean in zip(slots, heights, leans, strict=True)
    ]
    for slot, v in zip(slots, follow(targets, [1.0] * len(slots), steps, ties), strict=True):
        slot.v = max(v, least_rise(slot))


def least_rise(slot: Slot) -> float:
    """The lowest that a top may stand."""
    made = slot.stitch
    height = rise_of(made.kind, made.legs, made.base)
    kind = kind_of(drawn_kind(made.kind, made.legs, made.base), made.legs, made.base)
    share = LEAST_CROSS if kind.base == "sc" else LEAST_GATHERED if kind.form == "gathered" else LEAST_POST
    return slot.rise - height * (1.0 - share)


def _lean(slot: Slot, way: Way) -> float:
    """How far the top stands along from the middle of its feet, in stitch widths."""
    if not slot.feet:
        return 0.0
    return (slot.u - slot.want) / way.unit(slot.rise)


def spots_of(
    row: Row,
    slots: Sequence[Slot],
    lead: Sequence[int],
    found: Sequence[tuple[Footing, ...]],
    way: Way,
    level: float,
    edge: float | None,
    ceiling: Ceiling,
) -> tuple[Spot, ...]:
    """Every item of the row as a spot, in the order of work."""
    spots: dict[int, Spot] = {}
    for slot in slots:
        spots[slot.item] = stitch_spot(slot, spots, way, level)
    for before, slot, after in zip([None, *slots], slots, [*slots[1:], None], strict=False):
        spots[slot.item] = replace(spots[slot.item], angle_deg=slope_at(row, before, slot, after, way))
    for a, b in itertools.pairwise(slots):
        ends = end_at(a, spots[a.item], way, 1.0), end_at(b, spots[b.item], way, -1.0)
        spots.update(bridge_spots(row, a.bridge, spots[a.item], *ends, way, ceiling))
    if slots and slots[-1].bridge:
        spots.update(_hanging(row, slots[-1].bridge, spots[slots[-1].item], way))
    first = slots[0] if slots else None
    if lead:
        spots.update(_leading(row, lead, spots[first.item] if first else None, way, level, edge))
    for item, made in enumerate(row.stitches):
        if item not in spots:
            spots[item] = _aside(item, made, found[item], first, spots, way, level)
    return tuple(spots[i] for i in range(len(row.stitches)))


def slope_at(row: Row, before: Slot | None, slot: Slot, after: Slot | None, way: Way) -> float:
    """The direction of the row at a top, as degrees on the sheet from level.

    It is that from neighbour to neighbour; at an end, and beside chains, the row is taken to run level.
    """
    if (
        before is None
        or after is None
        or bridge_size(row, before.bridge)[0]
        or bridge_size(row, slot.bridge)[0]
    ):
        out = way.out(slot.u)
        return math.degrees(math.atan2(out[0], -out[1]))
    p, q = way.at(before.u, before.v), way.at(after.u, after.v)
    angle = math.degrees(math.atan2(q[1] - p[1], q[0] - p[0]))
    return (angle + 90.0) % 180.0 - 90.0


def stitch_spot(slot: Slot, spots: dict[int, Spot], way: Way, level: float) -> Spot:
    made = slot.stitch
    feet = tuple(f.point for f in slot.feet)
    own = [own_footing(f, spots, way) for f in made.feet if f.back == 0]
    feet = feet or tuple(f.point for f in own if f) or (way.at(slot.u, level),)
    drawn = made.feet and (not slot.feet or any(f.middle for f in slot.feet))
    hold = made.feet[0].hold if drawn else "top"
    head = way.at(slot.u, slot.v)
    ovals: tuple[tuple[float, float, float], ...] = ()
    if made.role == "turning":
        feet = (way.at(way.u(feet[0]) - STACK_ASIDE * way.unit(slot.v), way.v(feet[0])), *feet[1:])
        ovals = stack(feet[0], head, made.chains)
    return Spot(
        slot.item, made.kind, made.role, head, feet, hold, made.legs, made.chains, ovals, base=made.base
    )


def stack(foot: Point, head: Point, chains: int) -> tuple[tuple[float, float, float], ...]:
    """The middles of the chains of a beginning chain from foot to head, with the direction they run."""
    angle = math.degrees(math.atan2(head[1] - foot[1], head[0] - foot[0]))
    share = [(i + 0.5) / chains for i in range(chains)]
    return tuple((foot[0] + (head[0] - foot[0]) * t, foot[1] + (head[1] - foot[1]) * t, angle) for t in share)


@dataclass(frozen=True, slots=True)
class End:
    """The top at one end of a run of chains: where it stands, how far from it the run keeps, how far its bar
    dips.
    """

    u: float
    v: float
    aside: float = HEAD_HALF
    dip: float = 0.0


def end_at(
    slot: Slot, spot: Spot, way: Way, side: float, *, u: float | None = None, aside: float = HEAD_HALF
) -> End:
    """The end that a slot's top makes for chains on one `side` of it (1: after it, -1: before it).

    The bar of a leaning post dips on the side it leans to; the arms of a cross stay level. `u` is given where
    the way comes round to the slot again.
    """
    at = slot.u if u is None else u
    if spot.role != "stitch" or slot.stitch.kind in LEVEL_HEADS:
        return End(at, slot.v, aside)
    foot_u = sum(way.near(way.u(p), slot.u) for p in spot.feet) / len(spot.feet)
    foot_v = sum(way.v(p) for p in spot.feet) / len(spot.feet)
    across, up = (slot.u - foot_u) / way.unit(slot.v), max(slot.v - foot_v, 0.1)
    return End(at, slot.v, aside, side * BAR_HALF * across / math.hypot(across, up))


def bridge_spots(
    row: Row, bridge: Sequence[int], before: Spot, a: End, b: End, way: Way, ceiling: Ceiling = ()
) -> dict[int, Spot]:
    """The chains and picots between two tops, along one line; picots alone stand on `before`."""
    chains, picots = bridge_size(row, bridge)
    if not chains:
        return {i: picot_on(i, row.stitches[i], before, way) for i in bridge}
    line = bridge_line(a, b, chains, picots, way, ceiling_over(ceiling, a.u, b.u, way))
    return _along_line(row, bridge, line, chains, picots, way)


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
    a: End, b: End, chains: int, picots: int, way: Way, least_v: float = -math.inf
) -> tuple[Point, ...]:
    """The middle line of the chains from the top at a to the top at b.

    Its middle stands clear of `least_v`, the top of what it passes over.
    """
    unit = way.unit((a.v + b.v) / 2.0)
    most = max((b.u - a.u) / unit * 0.3, 0.2)
    start = way.at(a.u + min(a.aside, most) * unit, a.v - HEAD_GAP - a.dip)
    end = way.at(b.u - min(b.aside, most * 1.6) * unit, b.v - HEAD_GAP - b.dip)
    need = chains * PITCH + picots * 0.4
    over = least_v + OVER_BASE - (a.v + b.v) / 2.0 + HEAD_GAP
    around = _around(way, (way.u(start), way.v(start)), (way.u(end), way.v(end)), 0.0)
    if math.dist(start, end) < need:
        need = max(chains * TIGHT + picots * 0.4, math.dist(start, end))
    if isinstance(way, CircleWay) and need < length(around) * BENDING:
        return _bent(way, (way.u(start), way.v(start)), (way.u(end), way.v(end)), need, over)
    return arch(start, end, way.out((a.u + b.u) / 2.0), need, over)


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


def _along_line(
    row: Row, items: Sequence[int], line: tuple[Point, ...], chains: int, picots: int, way: Way
) -> dict[int, Spot]:
    """Chains and picots in their order along a line."""
    whole = length(line)
    unit = (whole - 0.4 * picots) / chains
    size = size_of(whole - 0.4 * picots, chains)
    spots: dict[int, Spot] = {}
    done = 0.0
    for item in items:
        made = row.stitches[item]
        wide = made.chains * unit if made.role == "chain" else 0.4
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
    ovals = tuple((*at, angle) for at, angle in (along(line, t) for t in shares))
    curve = tuple(along(line, start + (end - start) * i / 16.0)[0] for i in range(17))
    middle, _ = along(line, (start + end) / 2.0)
    out = way.out(way.u(middle))
    head = (middle[0] + out[0] * CHAIN_HALF, middle[1] + out[1] * CHAIN_HALF)
    return Spot(item, "ch", "chain", head, chains=made.chains, ovals=ovals, size=size, curve=curve)


def _picot_at(item: int, made: Stitch, line: tuple[Point, ...], share: float, way: Way) -> Spot:
    at, _ = along(line, share)
    return _picot(item, made, (at[0], at[1]), way)


def picot_on(item: int, made: Stitch, under: Spot, way: Way) -> Spot:
    return _picot(item, made, under.head, way)


def _picot(item: int, made: Stitch, at: Point, way: Way) -> Spot:
    """A picot standing outward on a point; its head is the top of its ring."""
    out = way.out(way.u(at))
    reach = 0.12 + 2.0 * max(0.27, 0.115 * (made.chains + 0.6)) + 0.15
    head = (at[0] + out[0] * reach, at[1] + out[1] * reach)
    angle = math.degrees(math.atan2(out[0], -out[1]))
    return Spot(item, made.kind, made.role, head, (at,), chains=made.chains, angle_deg=angle)


def _hanging(row: Row, bridge: Sequence[int], last: Spot, way: Way) -> dict[int, Spot]:
    """Chains after the last stitch run straight on."""
    chains, picots = bridge_size(row, bridge)
    if not chains:
        return {i: picot_on(i, row.stitches[i], last, way) for i in bridge}
    u, v = way.u(last.head), way.v(last.head)
    unit = way.unit(v)
    line = (
        way.at(u + HEAD_HALF * unit, v - 0.1),
        way.at(u + (HEAD_HALF + chains + 0.4 * picots) * unit, v - 0.1),
    )
    return _along_line(row, bridge, line, chains, picots, way)


def _leading(
    row: Row, lead: Sequence[int], first: Spot | None, way: Way, level: float, edge: float | None
) -> dict[int, Spot]:
    """Chains before the first stitch: they rise from the edge of the row below and bend over to its head."""
    chains, picots = bridge_size(row, lead)
    u, v = (way.u(first.head), way.v(first.head)) if first else (0.0, level + 0.5)
    unit = way.unit(v)
    rise = min(edge if edge is not None else u, u - max(START_ASIDE, chains * 0.5) * unit)
    start, end = way.at(rise, level + 0.3), way.at(u - HEAD_HALF * unit, v - 0.1)
    need = max(chains, 1) * TIGHT + picots * 0.4
    line = arch(start, end, way.out(rise), need)
    return _along_line(row, lead, line, max(chains, 1), picots, way)


def _aside(
    item: int, made: Stitch, feet: tuple[Footing, ...], first: Slot | None, spots: dict[int, Spot], way: Way,
    level: float,
) -> Spot:  # fmt: skip
    """What stands beside the row: a beginning chain that does not count, a joining slip stitch."""
    if made.role == "start" and first is not None:
        return start_spot(item, made, first, way)
    if made.role == "join" and spots:
        return _join_spot(item, made, feet, first, spots, way)
    u = first.u if first else 0.0
    head = way.at(u, level)
    return Spot(item, made.kind, made.role, head, (head,), chains=made.chains)


def start_spot(item: int, made: Stitch, first: Slot, way: Way) -> Spot:
    """A beginning chain that does not count: stacked outside the first stitch."""
    unit = way.unit(first.rise)
    bottom = sum(f.perch for f in first.feet) / len(first.feet) if first.feet else first.v - 1.0
    u = min([first.u, *(way.u(f.point) for f in first.feet)]) - START_ASIDE * unit
    height = min(max(first.v - bottom, 0.9), made.chains * START_STEP + 0.1)
    foot, head = way.at(u, bottom), way.at(u, bottom + height)
    return Spot(
        item, made.kind, made.role, head, (foot,), chains=made.chains, ovals=stack(foot, head, made.chains)
    )  # fmt: skip


def _join_spot(
    item: int, made: Stitch, feet: tuple[Footing, ...], first: Slot | None, spots: dict[int, Spot], way: Way
) -> Spot:
    """A joining slip stitch lies between the last stitch of the round and the first."""
    last = max(i for i in spots if i < item) if any(i < item for i in spots) else item
    u = first.u if first else way.u(spots[last].head)
    v = first.v if first else way.v(spots[last].head)
    head = way.at(u - 0.5 * way.unit(v), v)
    return Spot(item, made.kind, made.role, head, (head,), chains=made.chains)
