"""Rounds laid from the ring outwards: angles are placed as a row's x is, radii follow the heights.

Counter-clockwise for right-handers (common practice). A motif with corners is laid on straight sides instead,
each placed like a short row between its corners; a chain worked round is laid on an oval.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import replace

from ...model.cloth.fabric import Fabric, Stitch, WorkedRow
from ...setting import Hand
from ..placing.chain_runs import HEAD_HALF, bridge_spots, ceiling_of, end_at
from ..placing.feet import Bases, Footing, footings
from ..placing.isotonic import settle_round
from ..placing.placed import Laid, Spot
from ..placing.row import passed_by, stack, stitch_spot
from ..placing.tops import CLOSEST, Slot, own_rise, rise_of
from ..placing.tracks import CircleWay, OvalWay, PolygonWay, Way
from .around import gaps_between, place_circle, round_gaps, round_size, seam_room, settle_heights
from .centre import CHAIN_LEVEL, half_of, lay_centre
from .corners import corners_of
from .ring import LaidRounds, Ring, bases_of, mirrored
from .seam import at_seam, label_tries, settled
from .sides import STRETCH, place_sides, runs_of

#: What the seam of an oval needs beyond that: its bend is tight there.
OVAL_SEAM = 0.6
#: How firmly neighbours on an oval keep one gap: what its ends increase is shared by the stitches beside them.
OVAL_TIE = 15.0
#: How much farther than else the last chain of a joined round keeps from its first stitch: the join, the next round's
#: beginning and the number stand there; less at a corner, whose chains are few.
JOINED_ASIDE, CORNER_JOINED = 0.95, 0.58
#: White between a beginning chain and what it stands on: two of them in one line must not be read as one.
RISE_FREE = 0.16
#: How far from a leaning head the chains over a corner begin, and what a corner takes for it.
CORNER_ASIDE = 0.56


def lay_rounds(fabric: Fabric, hand: Hand = "right") -> LaidRounds:
    """Lay every round about the one inside it, then what is loose at their seams and what reaches past a round."""
    laid = _laid(fabric)
    return settled(mirrored(laid) if hand == "left" else laid)


def _laid(fabric: Fabric) -> LaidRounds:
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
        bases = bases_of(worked.row, rings, centre)
        sign = 1.0 if worked.direction == "right-to-left" else -1.0
        at_corners = corners[index] if corners else ()
        round_ = _Round(worked, bases, sign, level)
        if half := half_of(centre):
            ring = round_.on_oval(index, half)
        elif at_corners:
            ring = round_.on_sides(index, at_corners, sides, start)
        else:
            ring = round_.on_circle(index, start)
        rings.append(ring)
        level = ring.outer
    return LaidRounds(centre, tuple(rings), sides)


class _Round:
    """One round being laid."""

    def __init__(self, worked: WorkedRow, bases: Bases, sign: float, level: float) -> None:
        self.worked, self.row, self.bases = worked, worked.row, bases
        self.sign, self.level = sign, level

    def on_circle(self, index: int, start: float) -> Ring:
        """The round on a circle."""
        way = CircleWay(self.sign, start)
        found = footings(self.row, self.bases, way, closed=True)
        slots = self._slots(found, way)
        if not slots:
            return self._bare(index, way)
        gaps = round_gaps(self.row, slots, 1.0)
        pitch, lift = round_size(slots, gaps)
        place_circle(self.row, slots, round_gaps(self.row, slots, pitch), way, lift)
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
            found = footings(self.row, self.bases, way, closed=True)
            slots = self._slots(found, way)
            if not slots:
                return self._bare(index, way)
            need = sum(round_gaps(self.row, slots, 1.0)) + OVAL_SEAM
            mean = sum(s.rise for s in slots) / len(slots)
            pitch = max(CLOSEST, min(1.0, (4.0 * half + math.tau * mean * STRETCH) / need))
            middle = max(mean, (need * pitch - 4.0 * half) / math.tau)
        gaps = round_gaps(self.row, slots, pitch)
        gaps[-1] += OVAL_SEAM
        wants, steps = [s.want for s in slots], gaps_between(self.row, slots, gaps)
        for slot, u in zip(
            slots, settle_round(wants, gaps, steps, way.whole, tie=OVAL_TIE, even=False), strict=True
        ):
            slot.u = u
        settle_heights(self.row, slots, way, middle - mean, closed=True)
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
        return Slot(item, made, () if ring else feet, want, perch + own_rise(made))

    def on_sides(self, index: int, corners: tuple[int, ...], sides: int, start: float) -> Ring:
        """The round on straight sides between its corners."""
        probe = CircleWay(self.sign, start)
        middle = self._first_corner(corners[0], probe)
        way = PolygonWay(self.sign, middle + self.sign * math.pi / sides, sides)
        found = footings(self.row, self.bases, way, closed=True)
        slots = self._slots(found, way)
        runs = runs_of(self.row, slots, corners)
        place_sides(self.row, slots, runs, way, seam_room(self.row, slots, cornered=True))
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
            spots[a.item] = passed_by(spots[a.item], spots[b.item])
        self._close(slots, spots, way)
        first = slots[0]
        for item, made in enumerate(self.row.stitches):
            if item not in spots:
                spots[item] = at_seam(item, made, found[item], first, self.level, way)
        tops = [s.v for s in slots]
        outer = sum(tops) / len(tops)
        laid = Laid(tuple(spots[i].rounded() for i in range(len(self.row.stitches))), outer - self.level)
        tries = label_tries(first, self.level, way)
        out = way.out(way.u(tries[0]))
        angle = math.degrees(math.atan2(out[0], -out[1]))
        return Ring(index, self.worked, laid, self.level, outer, tries[0], angle, tries)

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
            foot = way.at(slot.u, self.level + RISE_FREE)
            return replace(spot, feet=(foot,), ovals=stack(foot, spot.head, slot.stitch.chains))
        if slot.stitch.role == "turning":
            (x, y), (a, b) = spot.feet[0], spot.head
            share = RISE_FREE / max(math.dist(spot.feet[0], spot.head), 1.0)
            foot = (x + (a - x) * share, y + (b - y) * share)
            return replace(spot, feet=(foot, *spot.feet[1:]), ovals=stack(foot, spot.head, slot.stitch.chains))
        return spot

    def _close(self, slots: Sequence[Slot], spots: dict[int, Spot], way: Way) -> None:
        """The chains from the last top on to the first."""
        last, first = slots[-1], slots[0]
        if not last.bridge:
            return
        ub = way.near(first.u, last.u + way.unit(last.v))
        joined = JOINED_ASIDE if isinstance(way, CircleWay) else CORNER_JOINED
        aside = HEAD_HALF + (joined if self.row.joined else 0.0)
        a = end_at(last, spots[last.item], way, 1.0)
        b = end_at(first, spots[first.item], way, -1.0, u=ub, aside=aside)
        ceiling = ceiling_of(self.bases.get(1, ()), way)
        spots.update(bridge_spots(self.row, last.bridge, spots[last.item], a, b, way, ceiling))
