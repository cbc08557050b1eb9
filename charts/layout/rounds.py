"""Rounds laid from the ring outwards: the angle of every top as a row's x is placed, its radius by the
heights.

Counter-clockwise for right-handers (common practice). A motif with corners is laid on straight sides instead,
each placed like a short row between its corners.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from hookfold.symbols import Point

from ..model.grid import Fabric, Row, Stitch, WorkedRow
from .bridge import room
from .corners import corners_of
from .fabric import risen_of
from .feet import Bases, Footing, footings
from .place import follow, place, place_round, settle_round
from .rows import (
    CLOSEST,
    HEAD_HALF,
    LEVELLING,
    SQUARE,
    Slot,
    bridge_size,
    bridge_spots,
    ceiling_of,
    end_at,
    gap_after,
    least_rise,
    rise_of,
    stack,
    stitch_spot,
)
from .spot import Laid, Spot
from .way import CircleWay, OvalWay, PolygonWay, Way

#: The radius of a magic ring, and the way one chain takes of a ring of chains.
MAGIC_RADIUS = 0.45
RING_PITCH = 0.9
#: The radius at which stitches go into a chain in the middle.
CHAIN_LEVEL = 0.3
#: From the middle of the chain at either end to its outer end.
CHAIN_END = 0.45
#: How far a round may be stretched outwards before its tops are drawn closer.
STRETCH = 1.15
#: Free way kept at the seam for the number, the beginning chain and the join, beyond one stitch.
SEAM = 0.75
SEAM_START = 1.0
SEAM_CHAINS = 0.6
#: Where the join, a beginning chain that does not count, and the number stand before the first top.
JOIN_BEFORE, JOIN_UP = 0.58, 0.0
#: How far from a leaning head the chains over a corner begin, and what a corner takes for it.
CORNER_ASIDE = 0.56
CORNER_ROOM = 0.25
#: So many stitches in one place make a fan.
FAN = 3
#: The distance from ink at which a number stands free.
LABEL_ROOM = 0.5
#: A slip stitch that travels into a space lies inside it, so far in from the chain's outer side.
TRAVEL_INSIDE = 0.85
START_BEFORE, START_FOOT, START_HIGH = 0.62, 0.2, 0.62


@dataclass(frozen=True, slots=True, eq=False)
class Ring:
    """A round where it lies about (0, 0): `inner` and `outer` radius, and the middle of its number."""

    index: int
    worked: WorkedRow
    laid: Laid
    inner: float
    outer: float
    label: Point
    label_angle_deg: float


@dataclass(frozen=True, slots=True, eq=False)
class LaidRounds:
    """The centre and every round about it, in stitch widths, y downward; `sides` is 0 for a circle."""

    centre: Laid
    rings: tuple[Ring, ...]
    sides: int

    @property
    def radius(self) -> float:
        """The farthest that anything stands from the centre."""
        spots = [s for ring in self.rings for s in ring.laid.spots] + list(self.centre.spots)
        reach = [math.hypot(*p) for s in spots for p in (s.head, *((x, y) for x, y, _ in s.ovals), *s.feet)]
        return max(reach, default=1.0)


def lay_rounds(fabric: Fabric) -> LaidRounds:
    """Lay every round about the one inside it."""
    corners = corners_of(fabric.rows, alone=fabric.start in ("ring", "magic ring"))
    sides = len(next(c for c in corners if c)) if corners else 0
    laid = _lay_all(fabric, corners, sides, math.pi / 2.0)
    if not sides or corners is None:
        return laid
    first = next(k for k, c in enumerate(corners) if c)
    turn = _upright(sides) - _corner_angle(laid.rings[first], corners[first][0])
    return _lay_all(fabric, corners, sides, math.pi / 2.0 + turn)


def _upright(sides: int) -> float:
    """The angle of a corner that sets a shape on a flat side: a triangle's apex, a square's and a hexagon's
    corner.
    """
    return {3: math.pi / 2.0, 4: math.pi / 4.0, 6: 0.0}[sides]


def _corner_angle(ring: Ring, item: int) -> float:
    x, y = ring.laid.spots[item].head
    return math.atan2(-y, x)


def _lay_all(
    fabric: Fabric, corners: Sequence[tuple[int, ...]] | None, sides: int, start: float
) -> LaidRounds:
    centre, level = lay_centre(fabric, start)
    rings: list[Ring] = []
    for index, worked in enumerate(fabric.rows):
        bases = _bases(worked.row, [r.laid for r in reversed(rings)], centre)
        sign = 1.0 if worked.direction == "right-to-left" else -1.0
        at_corners = corners[index] if corners else ()
        round_ = _Round(worked, bases, sign, level)
        if half := _half_of(centre):
            ring = round_.on_oval(index, half)
        elif at_corners:
            ring = round_.on_sides(index, at_corners, sides, start)
        else:
            ring = round_.on_circle(index, start)
        rings.append(ring)
        level = ring.outer
    return LaidRounds(centre, tuple(rings), sides)


def _bases(row: Row, below: Sequence[Laid], centre: Laid) -> Bases:
    depth = max((f.back for s in row.stitches for f in s.feet), default=1)
    every = [*below, centre]
    return {back: every[back - 1].spots for back in range(1, depth + 1) if back <= len(every)}


def lay_centre(fabric: Fabric, start: float) -> tuple[Laid, float]:
    """What the first round goes into, and its radius: a ring, or stitches of a piece that is not given."""
    items = fabric.foundation.stitches
    if items and items[0].role == "ring":
        chains = max(items[0].chains, fabric.chains if fabric.start == "ring" else 0)
        return _ring(chains, fabric.start == "magic ring" or not chains)
    if fabric.start == "chain":
        return _chain_centre(fabric)
    radius = max(len(items) / math.tau, 1.0)
    way = CircleWay(1.0, start)
    spots = []
    for i, made in enumerate(items):
        u = (i + 0.5) * math.tau / len(items)
        spots.append(
            Spot(i, made.kind, made.role, way.at(u, radius), (way.at(u, radius - 1.0),), legs=made.legs)
        )
    return Laid(tuple(spots), 0.0), radius


def _chain_centre(fabric: Fabric) -> tuple[Laid, float]:
    """A chain worked round: lying level in the middle; a single chain of it when all goes into that one."""
    count = len(fabric.foundation.stitches) - risen_of(fabric)
    used = {f.at for s in fabric.rows[0].row.stitches for f in s.feet if f.back == 1}
    if len(used) == 1:
        spots = [
            Spot(i, "ch", "chain" if i in used else "risen", (0.0, 0.0), chains=1, ovals=((0.0, 0.0, 0.0),))
            for i in range(len(fabric.foundation.stitches))
        ]
        return Laid(tuple(spots), 0.0), CHAIN_LEVEL
    half = (count - 1) / 2.0
    sign = 1.0 if fabric.rows[0].direction == "right-to-left" else -1.0
    return Laid(
        tuple(_chain_spot(i, count, half, sign) for i in range(len(fabric.foundation.stitches))), 0.0
    ), CHAIN_LEVEL


def _chain_spot(item: int, count: int, half: float, sign: float) -> Spot:
    """One chain of the middle: the outer ones are gone into at their outer end, so that a fan turns round
    it.
    """
    x = sign * (min(item, count - 1) - half)
    end = item in (0, count - 1)
    head = (x + math.copysign(CHAIN_END, x), 0.0) if end else (x, -CHAIN_LEVEL)
    role = "chain" if item < count else "risen"
    return Spot(item, "ch", role, head, chains=1, ovals=((x, 0.0, 0.0),))


def _half_of(centre: Laid) -> float:
    """Half the length of a chain in the middle; 0 where the centre is a ring or a single chain."""
    xs = [s.ovals[0][0] for s in centre.spots if s.role == "chain" and s.ovals]
    return (max(xs) - min(xs)) / 2.0 if xs else 0.0


def _ring(chains: int, magic: bool) -> tuple[Laid, float]:
    if magic:
        return Laid((Spot(0, "magic ring", "ring", (0.0, 0.0), size=MAGIC_RADIUS),), 0.0), MAGIC_RADIUS
    radius = max(chains * RING_PITCH / math.tau, 0.45)
    ovals = []
    for k in range(chains):
        turn = math.tau * (k + 0.5) / chains
        ovals.append((radius * math.cos(turn), radius * math.sin(turn), math.degrees(turn) + 90.0))
    spot = Spot(0, "ring", "ring", (0.0, 0.0), chains=chains, ovals=tuple(ovals), size=0.9)
    return Laid((spot,), 0.0), radius + 0.2


class _Round:
    """One round being laid."""

    def __init__(self, worked: WorkedRow, bases: Bases, sign: float, level: float) -> None:
        self.worked, self.row, self.bases = worked, worked.row, bases
        self.sign, self.level = sign, level

    def on_circle(self, index: int, start: float) -> Ring:
        """The round on a circle."""
        way = CircleWay(self.sign, start)
        found = footings(self.row, self.bases, way)
        slots = self._slots(found, way)
        if not slots:
            return self._bare(index, way)
        gaps = self._gaps(slots, 1.0)
        pitch, lift = self._size(slots, gaps)
        self._place_circle(slots, self._gaps(slots, pitch), way, pitch, lift)
        return self._ring(index, slots, found, way)

    def on_oval(self, index: int, half: float) -> Ring:
        """The round about a straight chain. Its line is first taken a plain stitch out, then where it is
        needed.
        """
        middle = self.level + max(
            (rise_of(s.kind, s.legs, s.base) for s in self.row.stitches if s.feet), default=1.0
        )
        for _ in range(2):
            way = OvalWay(self.sign, half, middle)
            found = footings(self.row, self.bases, way)
            slots = self._slots(found, way)
            if not slots:
                return self._bare(index, way)
            need = sum(self._gaps(slots, 1.0))
            mean = sum(s.rise for s in slots) / len(slots)
            pitch = max(CLOSEST, min(1.0, (4.0 * half + math.tau * mean * STRETCH) / need))
            middle = max(mean, (need * pitch - 4.0 * half) / math.tau)
        gaps = self._gaps(slots, pitch)
        for slot, u in zip(slots, place_round([s.want for s in slots], gaps, way.whole), strict=True):
            slot.u = u
        self._heights(slots, way, middle - mean, closed=True)
        return self._ring(index, slots, found, way)

    def _slots(self, found: Sequence[tuple[Footing, ...]], way: Way) -> list[Slot]:
        """The tops of the round with what they want; slip stitches that only travel lie under it."""
        slots: list[Slot] = []
        lead: list[int] = []
        for item, made in enumerate(self.row.stitches):
            if made.role in ("chain", "picot"):
                (slots[-1].bridge if slots else lead).append(item)
            elif made.role in ("stitch", "turning"):
                slots.append(self._slot(item, made, found[item], slots[-1].want if slots else None, way))
        if slots:
            slots[-1].bridge.extend(lead)
        return slots

    def _slot(
        self, item: int, made: Stitch, feet: tuple[Footing, ...], before: float | None, way: Way
    ) -> Slot:
        want = before or 0.0
        if feet:
            first = way.u(feet[0].point) if before is None else way.near(way.u(feet[0].point), before)
            want = sum(way.near(way.u(f.point), first) for f in feet) / len(feet)
            if before is not None and want < before - way.unit(self.level) * 8.0:
                want = way.near(want, before)
        perches = [
            max(f.perch, self.level) if foot.back > 1 else f.perch
            for f, foot in zip(feet, made.feet, strict=False)
        ]
        ring = any(f.hold == "ring" for f in made.feet) or (
            bool(feet)
            and all(math.hypot(*f.point) < CHAIN_LEVEL * 1.5 for f in feet)
            and isinstance(way, CircleWay)
        )
        perch = self.level if ring or not perches else sum(perches) / len(perches)
        return Slot(item, made, () if ring else feet, want, perch + rise_of(made.kind, made.legs, made.base))

    def _gaps(self, slots: Sequence[Slot], pitch: float) -> list[float]:
        """The way from every top to the next in stitch widths, the last one on to the first over the seam."""
        gaps = [gap_after(self.row, a, b, pitch) for a, b in itertools.pairwise(slots)]
        if slots:
            gaps.append(gap_after(self.row, slots[-1], slots[0], pitch) + self._seam(slots))
        return gaps

    def _seam(self, slots: Sequence[Slot]) -> float:
        """What the seam needs beyond one stitch."""
        if bridge_size(self.row, slots[-1].bridge)[0]:
            return SEAM_CHAINS
        return SEAM_START if any(s.role == "start" for s in self.row.stitches) else SEAM

    def _size(self, slots: Sequence[Slot], gaps: Sequence[float]) -> tuple[float, float]:
        """How close the tops stand, and how far the round is moved outwards to make room for them."""
        mean = sum(s.rise for s in slots) / max(len(slots), 1)
        need = sum(gaps) / math.tau
        pitch = max(CLOSEST, min(1.0, mean * STRETCH / max(need, 1e-6)))
        return pitch, max(0.0, need * pitch - mean)

    def _place_circle(
        self, slots: Sequence[Slot], gaps: Sequence[float], way: CircleWay, pitch: float, lift: float
    ) -> None:
        mean = sum(s.rise for s in slots) / len(slots) + lift
        unit = way.unit(mean)
        self._want_on_ring(slots, gaps, math.tau)
        wants = [s.want for s in slots]
        scaled = [g * unit for g in gaps]
        for slot, u in zip(
            slots, settle_round(wants, scaled, self._steps(slots, scaled), math.tau), strict=True
        ):
            slot.u = u
        self._heights(slots, way, lift, closed=True)

    def _steps(self, slots: Sequence[Slot], gaps: Sequence[float]) -> list[float | None]:
        """The gap where one top follows another, None where chains lie between them."""
        return [
            None if bridge_size(self.row, slot.bridge)[0] else gap
            for slot, gap in zip(slots, gaps, strict=True)
        ]

    def _want_on_ring(self, slots: Sequence[Slot], gaps: Sequence[float], whole: float) -> None:
        """Stitches in a ring share it out by the room they need."""
        if not slots or any(s.feet for s in slots):
            return
        need, at = sum(gaps), 0.0
        for slot, gap in zip(slots, gaps, strict=True):
            slot.want = whole * at / need
            at += gap

    def _heights(self, slots: Sequence[Slot], way: Way, lift: float, *, closed: bool) -> None:
        """Settle v of every top; round a circle three turns are settled and the middle one kept."""
        turns = 3 if closed else 1
        fans = _fans(slots)
        leans = [(s.u - s.want) / way.unit(s.rise) if s.feet and s.item in fans else 0.0 for s in slots]
        heights = [rise_of(s.stitch.kind, s.stitch.legs, s.stitch.base) for s in slots]
        targets = [s.rise + lift for s in slots] * turns
        steps, ties = self._slopes(slots, leans, heights)
        count = len(slots)
        steps, ties = (steps * turns)[: count * turns - 1], (ties * turns)[: count * turns - 1]
        settled = follow(targets, [1.0] * len(targets), steps, ties)
        for slot, v in zip(slots, settled[count : 2 * count] if closed else settled, strict=True):
            slot.v = max(v, least_rise(slot))

    def _slopes(
        self, slots: Sequence[Slot], leans: Sequence[float], heights: Sequence[float]
    ) -> tuple[list[float], list[float]]:
        """From every top to the next how the round falls or rises, and how firmly that is kept."""
        steps, ties = [], []
        for k, slot in enumerate(slots):
            after = (k + 1) % len(slots)
            chained = bool(bridge_size(self.row, slot.bridge)[0])
            slope = -SQUARE * (leans[k] + leans[after]) / (heights[k] + heights[after])
            steps.append(0.0 if chained else max(-0.6, min(0.6, slope)))
            ties.append(LEVELLING / (2.0 if chained else 1.0))
        return steps, ties

    def on_sides(self, index: int, corners: tuple[int, ...], sides: int, start: float) -> Ring:
        """The round on straight sides between its corners."""
        probe = CircleWay(self.sign, start)
        middle = self._first_corner(corners[0], probe)
        way = PolygonWay(self.sign, middle + self.sign * math.pi / sides, sides)
        found = footings(self.row, self.bases, way)
        slots = self._slots(found, way)
        runs = _runs(self.row, slots, corners)
        self._place_sides(slots, runs, way)
        return self._ring(index, slots, found, way)

    def _first_corner(self, item: int, probe: CircleWay) -> float:
        """The angle of the first corner: over what it goes into, or at the start of a round in a ring."""
        made = self.row.stitches[item]
        near = [made] if made.feet else [s for s in self.row.stitches[max(item - 1, 0) : item] if s.feet]
        feet = [f for s in near for f in s.feet if f.hold != "ring" and f.back in self.bases]
        points = [self.bases[f.back][f.at].head for f in feet if f.at < len(self.bases[f.back])]
        if not points:
            return probe.start
        return math.atan2(-sum(p[1] for p in points), sum(p[0] for p in points))

    def _place_sides(self, slots: list[Slot], runs: Sequence[_Run], way: PolygonWay) -> None:
        interior = math.pi - math.tau / way.sides
        closing = {id(slots[-1]): self._seam(slots)}
        measures = [_measure(self.row, run, interior, closing) for run in runs]
        mean = sum(s.rise for s in slots) / len(slots)
        need = max(sum(m) for m in measures) / (2.0 * way.half)
        pitch = max(CLOSEST, min(1.0, mean * STRETCH / max(need, 1e-6)))
        top = max(mean, need * pitch)
        for side, (run, measure) in enumerate(zip(runs, measures, strict=True)):
            self._place_side(side, run, [m * pitch for m in measure], top, way)
        for slot in slots:
            slot.v = top
        inner = [s for run in runs for s in run.inside]
        for run in runs:
            self._side_heights(run.inside, top - mean)
        for slot in slots:
            if slot not in inner:
                slot.v = top

    def _side_heights(self, slots: Sequence[Slot], lift: float) -> None:
        if not slots:
            return
        ties = [LEVELLING] * (len(slots) - 1)
        settled = follow([s.rise + lift for s in slots], [1.0] * len(slots), [0.0] * (len(slots) - 1), ties)
        for slot, v in zip(slots, settled, strict=True):
            slot.v = v

    def _place_side(self, side: int, run: _Run, gaps: Sequence[float], top: float, way: PolygonWay) -> None:
        """The tops of one side between its corners, which are held fast."""
        half = top * way.half
        firm = 1e7
        inside = run.inside
        if not any(bridge_size(self.row, s.bridge)[0] for s in inside):
            gaps = [gap * 2.0 * half / sum(gaps) for gap in gaps]
        wants = [
            sum(way.along_side(f.point, side)[0] for f in s.feet) / len(s.feet) if s.feet else None
            for s in inside
        ]
        even = _even(gaps, half)
        filled = [want if want is not None else even[k] for k, want in enumerate(wants)]
        weights = [firm, *([1.0] * len(inside)), firm]
        placed = place([-half, *filled, half], gaps, weights)
        for slot, s in zip(inside, placed[1:-1], strict=True):
            slot.u = 2.0 * side + 1.0 + s / half
        if run.corner is not None:
            run.corner.u = 2.0 * side

    def _ring(self, index: int, slots: list[Slot], found: Sequence[tuple[Footing, ...]], way: Way) -> Ring:
        """The spots of the placed tops, the chains between them, and what stands at the seam."""
        slots = sorted(slots, key=lambda s: s.item)
        spots: dict[int, Spot] = {}
        for slot in slots:
            out = way.out(slot.u)
            top = self._top(slot, spots, way)
            spots[slot.item] = replace(top, angle_deg=math.degrees(math.atan2(out[0], -out[1])))
        ceiling = ceiling_of(self.bases.get(1, ()), way)
        for a, b in itertools.pairwise(slots):
            ub = way.near(b.u, a.u + way.unit(a.v))
            aside = HEAD_HALF if isinstance(way, CircleWay) else CORNER_ASIDE
            ends = (
                end_at(a, spots[a.item], way, 1.0, aside=aside),
                end_at(b, spots[b.item], way, -1.0, u=ub, aside=aside),
            )
            spots.update(bridge_spots(self.row, a.bridge, spots[a.item], *ends, way, ceiling))
        self._close(slots, spots, way)
        first = slots[0]
        for item, made in enumerate(self.row.stitches):
            if item not in spots:
                spots[item] = self._at_seam(item, made, found[item], first, way)
        tops = [s.v for s in slots]
        outer = sum(tops) / len(tops)
        laid = Laid(tuple(spots[i].rounded() for i in range(len(self.row.stitches))), outer - self.level)
        around = [*laid.spots, *(s for b in self.bases.values() for s in b)]
        label, angle = self._label(first, around, way)
        return Ring(index, self.worked, laid, self.level, outer, label, angle)

    def _bare(self, index: int, way: Way) -> Ring:
        """A round without a single stitch (the work broke off): its items lie at the seam."""
        at = way.at(0.0, self.level)
        spots = tuple(Spot(i, s.kind, "risen", at, (at,)) for i, s in enumerate(self.row.stitches))
        return Ring(
            index, self.worked, Laid(spots, 0.0), self.level, self.level, way.at(0.0, self.level + 0.6), 0.0
        )

    def _top(self, slot: Slot, spots: dict[int, Spot], way: Way) -> Spot:
        """A placed top; one that goes into the ring stands on it straight below its head."""
        spot = stitch_spot(slot, spots, way, self.level)
        if slot.stitch.role == "turning" and not slot.feet:
            foot = way.at(slot.u, self.level)
            return replace(spot, feet=(foot,), ovals=stack(foot, spot.head, slot.stitch.chains))
        return spot

    def _close(self, slots: Sequence[Slot], spots: dict[int, Spot], way: Way) -> None:
        """The chains from the last top on to the first."""
        last, first = slots[-1], slots[0]
        if not last.bridge:
            return
        ub = way.near(first.u, last.u + way.unit(last.v))
        aside = HEAD_HALF + (0.58 if self.row.joined else 0.0)
        a = end_at(last, spots[last.item], way, 1.0)
        b = end_at(first, spots[first.item], way, -1.0, u=ub, aside=aside)
        ceiling = ceiling_of(self.bases.get(1, ()), way)
        spots.update(bridge_spots(self.row, last.bridge, spots[last.item], a, b, way, ceiling))

    def _at_seam(self, item: int, made: Stitch, feet: tuple[Footing, ...], first: Slot, way: Way) -> Spot:
        """A beginning chain that does not count, the join, and slip stitches that travel over the round
        below.
        """
        if made.role == "start":
            u = first.u - START_BEFORE * way.unit(first.v)
            high = min(START_HIGH * made.chains, max(first.v - self.level - 0.35, START_HIGH))
            low = self.level + START_FOOT
            foot, head = way.at(u, low), way.at(u, low + high)
            return Spot(
                item,
                made.kind,
                made.role,
                head,
                (foot,),
                chains=made.chains,
                ovals=stack(foot, head, made.chains),
            )
        if made.role == "travel" and feet:
            u, v = way.u(feet[0].point), feet[0].perch
            v -= TRAVEL_INSIDE if made.feet[0].hold == "space" else 0.0
            return Spot(item, made.kind, made.role, way.at(u, v + 0.42), (way.at(u, v + 0.06),))
        u = first.u - JOIN_BEFORE * way.unit(first.v)
        out = way.out(u)
        angle = math.degrees(math.atan2(out[0], -out[1]))
        at = way.at(u, first.v + JOIN_UP)
        return Spot(item, made.kind, made.role, at, (at,), chains=made.chains, angle_deg=angle)

    def _label(self, first: Slot, spots: Sequence[Spot], way: Way) -> tuple[Point, float]:
        """The middle of the round's number: before its first top, where it is freest of ink."""
        middle = (self.level + first.v) / 2.0
        unit = way.unit(middle)
        ink = _points(spots)
        tries = [
            way.at(first.u - back * unit, self.level + (first.v - self.level) * up)
            for back in (0.7, 0.8, 0.9, 1.0, 1.2, 1.45, 1.7)
            for up in (0.5, 0.35, 0.65, 0.8, 0.9, 1.0, 1.1)
        ]
        at = max(tries, key=lambda p: (min(LABEL_ROOM, _clear(p, ink)), -tries.index(p)))
        out = way.out(way.u(at))
        return at, math.degrees(math.atan2(out[0], -out[1]))


def _fans(slots: Sequence[Slot]) -> set[int]:
    """The items that fan from one place with two others or more: only there does a round fall away."""
    places: dict[tuple[object, ...], list[int]] = {}
    for slot in slots:
        places.setdefault(slot.stitch.feet, []).append(slot.item)
    return {item for feet, items in places.items() if feet and len(items) >= FAN for item in items}


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


@dataclass(slots=True)
class _Run:
    """One side: the stitch on its first corner (None where that is a chain space), and the tops inside it."""

    corner: Slot | None
    inside: list[Slot]


def _runs(row: Row, slots: Sequence[Slot], corners: tuple[int, ...]) -> list[_Run]:
    """The sides of a round, the first after its first corner."""
    by_item = {s.item: s for s in slots}
    order = [*corners, corners[0] + len(row.stitches)]
    runs = []
    for a, b in itertools.pairwise(order):
        items = [i % len(row.stitches) for i in range(a + 1, b)]
        runs.append(_Run(by_item.get(a), [by_item[i] for i in items if i in by_item]))
    return runs


def _measure(row: Row, run: _Run, interior: float, closing: dict[int, float]) -> list[float]:
    """The gaps along a side: from its first corner, between its tops, to its last corner."""
    inside = run.inside
    if not inside:
        return [1.0]
    gaps = [gap_after(row, a, b, 1.0) + closing.get(id(a), 0.0) for a, b in itertools.pairwise(inside)]
    last = inside[-1]
    chains, picots = bridge_size(row, last.bridge)
    # A corner's chains lie across it: two ways along the sides make one way across.
    across = (1.0 + CORNER_ROOM + room(chains, picots)) / (2.0 * math.sin(interior / 2.0))
    first = 1.0 if run.corner is not None else across
    end = (across if chains else 1.0) + closing.get(id(last), 0.0)
    return [first, *gaps, end]


def _even(gaps: Sequence[float], half: float) -> list[float]:
    """Places along a side from -half to half, shared out by the gaps."""
    need, at = sum(gaps), 0.0
    places = []
    for gap in gaps[:-1]:
        at += gap
        places.append(-half + 2.0 * half * at / need)
    return places
