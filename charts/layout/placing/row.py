"""A row laid over the rows below it: every top over the middle of its feet, chains arched between the tops.

The same steps lay a flat row and a round; only the `Way` differs. Feet are found first, then the tops are
placed along the row (`place`), then their heights are settled so that the row stands square to its posts:
where posts lean outward, as in a shell or at the peak of a ripple, the row falls away, and where a low stitch
stands beside a tall one the row follows a little and levels the rest.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Container, Sequence

from hookfold.symbols import Point

from ...made_late import replace
from ...model.cloth.fabric import Row, Stitch
from .behind import crossed, is_covered, off_stem
from .chain_runs import HEAD_HALF, Ceiling, ceiling_of, chains_of
from .clearing import ink_points
from .fans import Pulls, crowding, kept_aside, pushing
from .feet import Bases, Footing, footings, on_space, own_footing
from .ink import mark_of
from .long_stems import past, reaches, runs_free
from .placed import Laid, Spot, stack
from .spacing import lift_fans, place_along, place_up, round_fans
from .tops import Below, Slot, bridge_size, need_of, own_rise, pitch_of, tops_of
from .tracks import Way

#: The height of one chain of a beginning chain that does not count as a stitch.
START_STEP = 0.66


#: How far beside the first stitch such a chain stands: at the edge of the row, clear of a bar.
START_BESIDE = 0.7


#: How far outside its foot a beginning chain stands that leans: its ovals are wider than a post. One whose head is no
#: farther from over its foot stands upright.
STACK_ASIDE, UPRIGHT = 0.09, 0.15
#: How far beside the foot of what is gathered in one place the chain stands that is its first leg, a stitch width.
CHAIN_LEG_ASIDE = 0.75


#: One that leans by more than this begins so far above what it stands on, whose bar leans too.
LEANING, RISE_FREE = 0.4, 0.14
#: Where others stand in one place with it, it is moved up in such steps, at most so far, and then outside, until its
#: ovals lie so far from their stems, to the middle of the pen.
FAN_STEP, FAN_TRIES, FAN_LIFT, FAN_WHITE = 0.05, 14, 0.2, 0.24
#: A beginning chain without a foot stands at least so far inside the edge it is given, beside the last chain.
BESIDE = 0.7
#: Slopes flatter than this are drawn level, in degrees: a cross that is only just aslant looks like a slip.
LEVEL_DEG = 14.0


def lay_row(
    row: Row,
    bases: Bases,
    way: Way,
    *,
    level: float = 0.0,
    edge: float | None = None,
    below: Below | None = None,
    pulls: Pulls = (),
) -> Laid:
    """The row's spots and its rise over `level`, the height of the row below.

    `edge` is where along the work the row begins when its beginning chain has no foot of its own;
    `below` is what
    limits how wide it may become; None leaves it free. `pulls` are the tops that the row above sets wider.
    """
    found = footings(row, bases, way)
    slots, lead = _slots(row, found, way, level, edge)
    stood = below.fans if below else frozenset[int]()
    for slot in slots if stood else ():
        _stand_out(row, slot, stood, bases, way)
    need = need_of(row, slots)
    fans: frozenset[int] = frozenset()
    pitch = pitch_of(need, len(slots), below) if below else 1.0
    if slots:
        place_along(row, slots, way, pitch, pulls, edged=below is not None)
        if below:
            _upright_in_spaces(slots, bases.get(1, ()), way)
        place_up(row, slots, way)
        fans = round_fans(row, slots, pitch, pulls) if below else frozenset()
        heads = [(way.u(s.head), way.v(s.head)) for s in bases.get(1, ()) if s.role in ("stitch", "turning")]
        lift_fans(slots, heads if below else (), way)
    ceiling = ceiling_of(bases.get(1, ()), way)
    spots = spots_of(row, slots, lead, found, way, level, edge, ceiling, pulls)
    spots = tuple(_past(spot, made, bases, way) for spot, made in zip(spots, row.stitches, strict=True))
    spots = crossed(spots, row, way)
    tops = [s.v for s in slots if s.stitch.kind != "sl st"] or [s.v for s in slots]
    rise = sum(tops) / len(tops) - level if tops else 0.5
    crowd = crowding(pulls, {s.item: s.u for s in slots})
    if below:
        told = [s.stitch.feet or s.item for s in slots]
        crowd = min(crowd, pushing(told, [s.want for s in slots], [s.u for s in slots]))
    return Laid(spots, rise, pitch, need, crowd, fans)


#: How much narrower than what fills it a space may be, in stitch widths, and how far its stitches may stand off its
#: middle.
NARROWER, OFF_MIDDLE = 0.12, 0.3


def _upright_in_spaces(slots: Sequence[Slot], below: Sequence[Spot], way: Way) -> None:
    """Set the feet of what fills a space, as the blocks of filet do, right under its tops: where no chains stand beside
    any of them, and they have room between what stands beside the space."""
    groups = [list(same) for _, same in itertools.groupby(slots, key=lambda s: s.stitch.feet or s.item)]
    for before, group in itertools.pairwise(groups[:-1]):
        foot = group[0].stitch.feet[0] if group[0].stitch.feet else None
        if foot is None or foot.hold != "space" or foot.back != 1 or not 0 <= foot.at < len(below):
            continue
        if any(slot.bridge for slot in (before[-1], *group)) or any(len(s.feet) != 1 for s in group):
            continue
        run, unit = below[foot.at], way.unit(0.0)
        if len(run.curve) < 2:
            continue
        us = [way.near(way.u(p), group[0].u) for p in (run.curve[0], run.curve[-1])]
        wide, tops = abs(us[1] - us[0]) / unit, [s.u for s in group]
        off = abs((tops[0] + tops[-1]) / 2.0 - sum(us) / 2.0) / unit
        if wide + 2.0 * NARROWER < len(group) - 1 or off > OFF_MIDDLE or abs(tops[-1] - tops[0]) > abs(us[1] - us[0]):
            continue
        for slot in group:
            slot.feet = (replace(slot.feet[0], point=on_space(run, slot.u, way)),)
            slot.want = slot.u


def _past(spot: Spot, made: Stitch, bases: Bases, way: Way) -> Spot:
    """A stitch that goes in further down keeps off what it passes, unless it stands right in front of it.

    A post stitch has a way of its own, on the left of what it passes.
    """
    if not reaches(made, bases) or spot.is_posted:
        return spot
    stem = (spot.head, spot.feet[0])
    between = [s for k in range(1, made.feet[0].back) for s in bases[k]]
    hidden = [is_covered(s, stem) for s in between]
    others = [s for s, covered in zip(between, hidden, strict=True) if not covered]
    return spot if any(hidden) and runs_free(spot, others) else past(spot, made, bases, way)


def _slots(
    row: Row, found: Sequence[tuple[Footing, ...]], way: Way, level: float, edge: float | None
) -> tuple[list[Slot], list[int]]:
    """The tops of the row with what they want; chains and picots between them; the chains before the
    first.
    """

    def top(item: int, made: Stitch, before: Slot | None) -> Slot:
        return _slot(item, made, found[item], before.want if before else edge, way, level)

    return tops_of(row, top, ("stitch", "turning", "travel", "foundation"))


def _slot(
    item: int, made: Stitch, feet: tuple[Footing, ...], before: float | None, way: Way, level: float
) -> Slot:
    want = sum(way.u(f.point) for f in feet) / len(feet) if feet else (before or 0.0)
    perches = [
        max(f.perch, level) if foot.back > 1 else f.perch for f, foot in zip(feet, made.feet, strict=False)
    ]
    perch = sum(perches) / len(perches) if perches else level
    return Slot(item, made, feet, want, perch + own_rise(made))


def _stand_out(row: Row, slot: Slot, fan: Container[int], bases: Bases, way: Way) -> None:
    """What stands between chains on a stitch of a `fan`, or on the arches that do, stands out from it: a fan that
    carries arches is drawn round, and they stay round about it."""
    made, item = slot.stitch, slot.item
    beside = {s.role for s in row.stitches[max(item - 1, 0) : item + 2]}
    if made.role != "stitch" or len(made.feet) != 1 or made.feet[0].back != 1 or "chain" not in beside:
        return
    under = bases[1][made.feet[0].at]
    if under.item in fan:
        side, slot.radial = _lean_of(under, way), True
        slot.want += own_rise(made) * side
        slot.rise += own_rise(made) * (math.sqrt(max(1.0 - side**2, 0.0)) - 1.0)


def _lean_of(under: Spot, way: Way) -> float:
    """How far along the work the way out from a stitch, or from a run of chains, leads, as a share of its length."""
    if under.role == "chain":
        a, b = under.curve[0], under.curve[-1]
        return (way.v(a) - way.v(b)) / max(math.dist(a, b), 1e-6) * math.copysign(1.0, way.u(b) - way.u(a))
    if len(under.feet) != 1:
        return 0.0
    return (way.u(under.head) - way.u(under.feet[0])) / max(math.dist(under.head, under.feet[0]), 1e-6)


def spots_of(
    row: Row,
    slots: Sequence[Slot],
    lead: Sequence[int],
    found: Sequence[tuple[Footing, ...]],
    way: Way,
    level: float,
    edge: float | None,
    ceiling: Ceiling,
    pulls: Pulls = (),
) -> tuple[Spot, ...]:
    """Every item of the row as a spot, in the order of work."""
    spots: dict[int, Spot] = {}
    for slot in slots:
        spots[slot.item] = stitch_spot(slot, spots, way, level)
    for slot in slots:
        if slot.stitch.role == "turning" and slot.feet:
            beside = [spots[s.item] for s in slots if s is not slot and s.stitch.feet == slot.stitch.feet]
            spots[slot.item] = _off_its_fan(spots[slot.item], beside, way)
    for before, slot, after in zip([None, *slots], slots, [*slots[1:], None], strict=False):
        spots[slot.item] = replace(spots[slot.item], angle_deg=slope_at(row, before, slot, after, way))

    def asides(a: Slot, b: Slot) -> tuple[float, float]:
        one, other = kept_aside(pulls, a.item, b.item)
        return HEAD_HALF + one, HEAD_HALF + other

    spots.update(chains_of(row, slots, lead, spots, way, level, edge, ceiling, asides))
    for item, made in enumerate(row.stitches):
        if item not in spots:
            spots[item] = _aside(item, made, found[item], slots, spots, way, level)
    return tuple(spots[i] for i in range(len(row.stitches)))


def slope_at(row: Row, before: Slot | None, slot: Slot, after: Slot | None, way: Way) -> float:
    """The direction of the row at a top, as degrees on the sheet from level.

    It is that from neighbour to neighbour; at an end, beside chains, and where slip stitches that only moved the hook
    give way to stitches, the row is taken to run level.
    """
    if (
        before is None
        or after is None
        or _only_moves(before) != _only_moves(slot)
        or _only_moves(after) != _only_moves(slot)
        or bridge_size(row, before.bridge)[0]
        or bridge_size(row, slot.bridge)[0]
    ):
        out = way.out(slot.u)
        return math.degrees(math.atan2(out[0], -out[1]))
    p, q = way.at(before.u, before.v), way.at(after.u, after.v)
    angle = math.degrees(math.atan2(q[1] - p[1], q[0] - p[0]))
    slope = (angle + 90.0) % 180.0 - 90.0
    return slope if abs(slope) > LEVEL_DEG else 0.0


def _only_moves(slot: Slot) -> bool:
    return slot.stitch.role == "travel"


def stitch_spot(slot: Slot, spots: dict[int, Spot], way: Way, level: float) -> Spot:
    """A placed top as a spot: how it holds is drawn only at the middle one of those that share a place."""
    made = slot.stitch
    feet = tuple(f.point for f in slot.feet)
    own = [own_footing(f, spots, way) for f in made.feet if f.back == 0]
    beside = min(slot.u, slot.want + BESIDE * way.unit(slot.v)) if made.role == "turning" else slot.u
    feet = feet or tuple(f.point for f in own if f) or (way.at(beside, level),)
    signed = not slot.feet or any(f.middle for f in slot.feet)
    hold = made.feet[0].hold if made.feet else "top"
    head = way.at(slot.u, slot.v)
    ovals: tuple[tuple[float, float, float], ...] = ()
    if made.role == "turning":
        unit, u = way.unit(slot.v), way.u(feet[0])
        lift = RISE_FREE if abs(u - slot.u) > LEANING * unit else 0.0
        u = slot.u if abs(u - slot.u) < UPRIGHT * unit else u - STACK_ASIDE * unit
        feet = (way.at(u, way.v(feet[0]) + lift), *feet[1:])
        ovals = stack(feet[0], head, made.chains)
    if rises_on_chain(made):
        own_foot = _beside_foot(feet[0], head, way) if len(set(feet)) == 1 else feet[0]
        feet = (own_foot, *(feet[1:] or feet))
    return Spot(
        slot.item, made.kind, made.role, head, feet, hold, made.legs, made.chains, ovals, base=made.base,
        own_height=round(way.v(head) - level, 3) if any(f.back > 1 for f in made.feet) else 0.0,
        signed=signed, shared=any(f.shared for f in slot.feet) or any(f.hold == "ring" for f in made.feet),
    )  # fmt: skip


def _off_its_fan(spot: Spot, beside: Sequence[Spot], way: Way) -> Spot:
    """A beginning chain that stands in one place with other stitches: so far outside it that its ovals keep off their
    stems, and lifted off the bar under them."""
    if not beside:
        return spot
    unit = way.unit(way.v(spot.head))
    u, v = way.u(spot.feet[0]), way.v(spot.feet[0])
    best, most = spot, -1.0
    lifts = [k * FAN_STEP for k in range(round(FAN_LIFT / FAN_STEP))]
    for aside, lift in [(0.0, up) for up in lifts] + [(k * FAN_STEP, FAN_LIFT) for k in range(FAN_TRIES)]:
        foot = way.at(u - aside * unit, v + lift)
        tried = replace(spot, feet=(foot, *spot.feet[1:]), ovals=stack(foot, spot.head, spot.chains))
        white = min(off_stem(p, (s.head, s.feet[0])) for p in ink_points(mark_of(tried)) for s in beside)
        if white >= FAN_WHITE:
            return tried
        if white > most:
            best, most = tried, white
    return best


def _beside_foot(foot: Point, head: Point, way: Way) -> Point:
    """Where the chain stands that is the first leg of what is gathered over a foot: square to it, behind on the way."""
    tall = max(math.dist(foot, head), 1e-6)
    x, y = (foot[1] - head[1]) / tall, (head[0] - foot[0]) / tall
    u, v = way.u(foot), way.v(foot)
    back, on = (way.at(u + step * way.unit(v), v) for step in (-0.1, 0.1))
    side = -CHAIN_LEG_ASIDE if x * (on[0] - back[0]) + y * (on[1] - back[1]) > 0.0 else CHAIN_LEG_ASIDE
    return (foot[0] + x * side, foot[1] + y * side)


def rises_on_chain(made: Stitch) -> bool:
    """Whether a stitch is gathered of the beginning chain, its first leg, and others."""
    return made.role == "stitch" and made.chains > 0 and made.legs > 1 and made.kind != "picot"


def _aside(
    item: int, made: Stitch, feet: tuple[Footing, ...], slots: Sequence[Slot], spots: dict[int, Spot], way: Way,
    level: float,
) -> Spot:  # fmt: skip
    """What stands beside the row: a beginning chain that does not count, before the stitch that it lifts the work to; a
    joining slip stitch."""
    first = slots[0] if slots else None
    lifted = next((slot for slot in slots if slot.item > item), first)
    if made.role == "start" and lifted is not None:
        before = next((slot for slot in reversed(slots) if slot.item < item), None)
        return start_spot(item, made, lifted, way, over_v=before.v if before else -math.inf)
    if made.role == "join" and spots:
        return _join_spot(item, made, feet, first, spots, way)
    u = first.u if first else 0.0
    head = way.at(u, level)
    return Spot(item, made.kind, made.role, head, (head,), chains=made.chains)


def start_spot(item: int, made: Stitch, first: Slot, way: Way, *, over_v: float = -math.inf) -> Spot:
    """A beginning chain that does not count: stacked outside the first stitch, over the slip stitch before it."""
    unit = way.unit(first.rise)
    bottom = sum(f.perch for f in first.feet) / len(first.feet) if first.feet else first.v - 1.0
    bottom = max(bottom, over_v)
    u = min([first.u, *(way.u(f.point) for f in first.feet)]) - START_BESIDE * unit
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
