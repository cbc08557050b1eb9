"""The rows of a half motif where they lie: each about the ring, on the row below, from one edge to the other.

As in a flat row every top wants to stand over its feet and no closer than one stitch to its neighbour, but its first
top and its last stand on the edges, and a row without chains is even from edge to edge: so the edges are straight, and
the piece opens as wide as it is.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from hookfold.symbols import Point

from ...made_late import dataclass, replace
from ...model.cloth.fabric import Fabric, Row, WorkedRow
from ..placing.behind import crossed
from ..placing.chain_runs import HEAD_HALF, ceiling_of, chains_of
from ..placing.feet import Bases, Footing, footings
from ..placing.placed import Laid, Spot, stack
from ..placing.row import START_STEP, stitch_spot
from ..placing.tops import Slot
from ..placing.tracks import ArcWay, FacetWay
from .centre import lay_centre
from .ring import Beside, LaidRounds, Ring
from .rows import lay_rows
from .wedge import Wedge, plain_tops, row_corners, turn_of
from .wedge_places import stand_on_arc, stand_on_sides

#: White between a beginning chain and what it stands on: two of them in one line must not be read as one.
RISE_FREE = 0.16
#: How far from a leaning head the chains over a corner begin.
CORNER_ASIDE = 0.56
#: How near an edge a stitch is on it.
ON_EDGE = 0.1
#: How far outside the edge a beginning chain that does not count lies.
START_OUT = 0.66


def lay_wedge(fabric: Fabric, wedge: Wedge) -> LaidRounds:
    """Lay every row about the ring, over the one inside it."""
    centre, level = lay_centre(fabric, math.pi / 2.0)
    corners = row_corners(fabric) if wedge.sides else None

    def lay(worked: WorkedRow, index: int, bases: Bases, below: float) -> Ring:
        row = _WedgeRow(worked, index, bases, below, level)
        at_corners = corners[index] if corners else ()
        return row.on_sides(wedge, at_corners) if at_corners else row.on_arc(wedge)

    return LaidRounds(centre, lay_rows(fabric, centre, level, lay), wedge.sides)


@dataclass(frozen=True, slots=True)
class _WedgeRow:
    """One row being laid: `level` is where the row below ends, `rim` where the ring does."""

    worked: WorkedRow
    index: int
    bases: Bases
    level: float
    rim: float

    @property
    def row(self) -> Row:
        return self.worked.row

    def on_arc(self, wedge: Wedge) -> Ring:
        """The row on an arc, evenly from edge to edge."""
        way = wedge.arc(turn_of(self.worked))
        found = self._footings(way, (0.0, wedge.angle))
        slots, lead = self._tops(found, way)
        if not slots:
            return self._bare(way)
        stand_on_arc(self.row, slots, way)
        return self._ring(slots, lead, found, way)

    def on_sides(self, wedge: Wedge, corners: tuple[float, ...]) -> Ring:
        """The row on straight sides between its corners."""
        way = wedge.facets(turn_of(self.worked))
        found = self._footings(way, wedge.ends())
        slots, lead = self._tops(found, way)
        stand_on_sides(self.row, slots, way, wedge, corners)
        return self._ring(slots, lead, found, way)

    def _footings(self, way: ArcWay | FacetWay, ends: tuple[float, float]) -> list[tuple[Footing, ...]]:
        """The feet of the row; those that share a stitch on an edge stand inward from it, square to the edge.

        So the row's own first stitch and its last stand straight over those below, and the edge is straight.
        """
        found = footings(self.row, self.bases, way)
        tops = [i for i, s in enumerate(self.row.stitches) if s.role in ("stitch", "turning") and found[i]]
        for item, edge in zip((tops[0], tops[-1]) if tops else (), ends, strict=False):
            (foot, *more), feet = self.row.stitches[item].feet, found[item]
            base = self.bases[foot.back][foot.at]
            central = foot.back == self.index + 1
            if more or central or foot.hold == "space" or not _is_at(base.head, edge, way):
                continue
            held = way.u(feet[0].point)
            for i in tops:
                if self.row.stitches[i].feet == (foot,):
                    aside = (way.u(found[i][0].point) - held) / way.unit(found[i][0].perch)
                    found[i] = (replace(found[i][0], point=_beside(base.head, aside * way.sign)),)
        return found

    def _tops(self, found: Sequence[tuple[Footing, ...]], way: ArcWay | FacetWay) -> tuple[list[Slot], list[int]]:
        """The tops of the row over their feet; those in the ring stand on its rim, wherever they come to stand."""
        slots, lead = plain_tops(self.row)
        before = 0.0
        for slot in slots:
            height = slot.rise
            feet = () if self._is_central(slot) else found[slot.item]
            perches = [
                max(f.perch, self.level) if foot.back > 1 else f.perch
                for f, foot in zip(feet, slot.stitch.feet, strict=False)
            ]
            slot.feet = feet
            slot.want = before = sum(way.u(f.point) for f in feet) / len(feet) if feet else before
            slot.rise = height + (sum(perches) / len(perches) if perches else self.level)
        return slots, lead

    def _is_central(self, slot: Slot) -> bool:
        """Whether a stitch goes into the ring."""
        return bool(slot.stitch.feet) and all(f.back == self.index + 1 for f in slot.stitch.feet)

    def _ring(
        self, slots: list[Slot], lead: list[int], found: Sequence[tuple[Footing, ...]], way: ArcWay | FacetWay
    ) -> Ring:
        """The spots of the placed tops, the chains between them, and what stands beside them."""
        spots: dict[int, Spot] = {}
        for slot in slots:
            if self._is_central(slot):
                slot.feet = (self._on_rim(slot, way),)
            out = way.out(slot.u)
            top = self._top(slot, spots, way)
            spots[slot.item] = replace(top, angle_deg=math.degrees(math.atan2(out[0], -out[1])))
        self._bridges(slots, lead, spots, way)
        for item, made in enumerate(self.row.stitches):
            if item in spots:
                continue
            at = way.at(slots[0].u, self.level)
            beside = Spot(item, made.kind, made.role, at, (at,), chains=made.chains)
            spots[item] = _start(item, spots[slots[0].item], made.chains, way) if made.role == "start" else beside
        outer = sum(s.v for s in slots) / len(slots)
        return self._laid(spots, outer, way)

    def _laid(self, spots: dict[int, Spot], outer: float, way: ArcWay | FacetWay) -> Ring:
        whole = crossed([spots[i].rounded() for i in range(len(self.row.stitches))], self.row, way)
        laid = Laid(whole, outer - self.level)
        beginning = Beside(way.at(0.0, (self.level + outer) / 2.0), (1.0, 0.0), 0.5, 0)
        return Ring(self.index, self.worked, laid, self.level, outer, (beginning,))

    def _bare(self, way: ArcWay) -> Ring:
        """A row without a single stitch (the work broke off): its items lie at its edge."""
        at = way.at(0.0, self.level)
        spots = {i: Spot(i, s.kind, "risen", at, (at,)) for i, s in enumerate(self.row.stitches)}
        return self._laid(spots, self.level, way)

    def _on_rim(self, slot: Slot, way: ArcWay | FacetWay) -> Footing:
        """The foot of a stitch in the ring: on the ring, straight below its head."""
        x, y = way.at(slot.u, slot.v)
        share = self.rim / math.hypot(x, y)
        point = (x * share, y * share)
        return Footing(point, way.v(point))

    def _top(self, slot: Slot, spots: dict[int, Spot], way: ArcWay | FacetWay) -> Spot:
        """A placed top; a beginning chain leaves a little white over what it stands on."""
        spot = stitch_spot(slot, spots, way, self.level)
        if slot.stitch.role != "turning":
            return spot
        foot = _towards(slot.feet[0].point if slot.feet else spot.feet[0], spot.head, RISE_FREE)
        return replace(spot, feet=(foot, *spot.feet[1:]), ovals=stack(foot, spot.head, slot.stitch.chains))

    def _bridges(self, slots: list[Slot], lead: list[int], spots: dict[int, Spot], way: ArcWay | FacetWay) -> None:
        """The chains between tops, those that lead to the first, and those that hang from the last."""
        ceiling = ceiling_of(self.bases.get(1, ()), way) if self.index else ()
        aside = HEAD_HALF if isinstance(way, ArcWay) else CORNER_ASIDE
        found = chains_of(self.row, slots, lead, spots, way, self.level, 0.0, ceiling, lambda a, b: (aside, aside))
        spots.update(found)


def _start(item: int, first: Spot, chains: int, way: ArcWay | FacetWay) -> Spot:
    """A beginning chain that does not count: outside the edge, beside the first stitch and in line with the edge."""
    (x, y), long = first.head, math.dist(first.feet[0], first.head)
    reach = math.hypot(x, y)
    along = (x / reach, y / reach)
    side = (way.sign * -along[1] * START_OUT, way.sign * along[0] * START_OUT)
    low = (x - along[0] * long + side[0], y - along[1] * long + side[1])
    high = min(max(long, START_STEP), chains * START_STEP + 0.1)
    top = (low[0] + along[0] * high, low[1] + along[1] * high)
    return Spot(item, "ch", "start", top, (low,), chains=chains, ovals=stack(low, top, chains))


def _is_at(point: Point, edge: float, way: ArcWay | FacetWay) -> bool:
    """Whether a point lies on an edge."""
    return abs(way.u(point) - edge) < ON_EDGE * way.unit(way.v(point))


def _beside(point: Point, aside: float) -> Point:
    """The point that lies counter-clockwise beside another one, square to the way from the ring's middle."""
    reach = math.hypot(*point)
    return (point[0] + point[1] / reach * aside, point[1] - point[0] / reach * aside)


def _towards(a: Point, b: Point, way: float) -> Point:
    """The point that lies `way` from a on the way to b."""
    share = way / max(math.dist(a, b), 1.0)
    return (a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share)
