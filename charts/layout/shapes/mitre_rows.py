"""The rows of a mitred piece where they lie: the foundation bent at its corners, every row inside the one before.

Stitches stand straight over those they go into; the corners lie on straight lines that meet where the piece ends.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

from hookfold.symbols import Point

from ...made_late import replace
from ...model.cloth.fabric import Fabric, Row, Stitch, WorkedRow
from ..placing.chain_runs import ceiling_of
from ..placing.feet import Bases, Footing, footings
from ..placing.isotonic import follow, place
from ..placing.laid import risen_of
from ..placing.placed import Laid, Spot, SpotRole
from ..placing.row import spots_of
from ..placing.spacing import LEVELLING
from ..placing.tops import Slot, bridge_size, gap_after, least_rise, rise_of, tops_of
from .mitre import BESIDE_BARS, BESIDE_CROSSES, Mitre, is_cross, is_crossed, natural_rise
from .mitre_track import MitreWay, bounds_of
from .ring import Edge, LaidRounds, Ring
from .rows import lay_rows

#: How far outside the foundation's level the middles of its chains lie.
DROP = 0.27
#: How firmly tops on the edges and corners are held there.
HELD = 1e7
#: How far below its head the legs of a decrease of crosses meet: so much higher it stands on a corner, so that those on
#: its sides are square to them.
JOINT = 0.08
#: The direction that a foundation's side faces that lies at the bottom of the sheet.
DOWN = -math.pi / 2.0


def way_of(mitre: Mitre, direction: str) -> MitreWay:
    """The way of the rows that go in a direction.

    With square corners the second of several sides, else the first lies along the bottom.
    """
    first = DOWN + (mitre.each if len(mitre.sides) > 2 else 0.0)
    if len(mitre.sides) == 2 and not _is_square(mitre):
        first = DOWN + mitre.each / 2.0
    if direction == "right-to-left":
        return MitreWay(-1.0, first, mitre.each, mitre.reach, bounds_of(mitre.sides))
    last = first - (len(mitre.sides) - 1) * mitre.each
    return MitreWay(1.0, last, mitre.each, mitre.reach, bounds_of(mitre.sides[::-1]))


def edges_of(mitre: Mitre) -> dict[float, Edge]:
    """The edges where rows begin that go right to left (1) or left to right (-1)."""
    ways = {1.0: way_of(mitre, "right-to-left"), -1.0: way_of(mitre, "left-to-right")}
    return {sign: Edge(*way.edge()) for sign, way in ways.items()}


def _is_square(mitre: Mitre) -> bool:
    return abs(mitre.each - math.pi / 2.0) < 1e-6


def lay_mitre(fabric: Fabric, mitre: Mitre) -> LaidRounds:
    """Lay the foundation and every row inside it."""
    foundation = _foundation(fabric, mitre)

    def lay(worked: WorkedRow, index: int, bases: Bases, level: float) -> Ring:
        top = level + mitre.stretch * natural_rise(worked.row)
        return _MitreRow(worked, index, bases, level, top, way_of(mitre, worked.direction)).laid(mitre)

    return LaidRounds(foundation, lay_rows(fabric, foundation, 0.0, lay), 0)


def _foundation(fabric: Fabric, mitre: Mitre) -> Laid:
    """The chain along the sides, in the places that the first row finds it in."""
    flat = len(fabric.foundation.stitches) - risen_of(fabric)
    first = fabric.rows[0].row
    stands = any(s.role == "turning" and not s.feet for s in first.stitches[:1])
    way = way_of(mitre, fabric.rows[0].direction)
    spots = []
    for item, made in enumerate(fabric.foundation.stitches):
        u = _along_chain(flat - 1 - item + stands, flat + stands, mitre, way)
        (x, y), (a, b) = way.at(u, -DROP), way.out(u)
        oval = (x, y, math.degrees(math.atan2(a, -b)))
        role: SpotRole = "chain" if item < flat else "risen"
        spots.append(Spot(item, made.kind, role, way.at(u, 0.0), chains=1, ovals=(oval,) if item < flat else ()))
    return Laid(tuple(s.rounded() for s in spots), 0.0)


def _along_chain(at: int, wide: int, mitre: Mitre, way: MitreWay) -> float:
    """The u of a chain of the foundation that has the place `at` in the order of the first row."""
    corners = [0.0, *mitre.bends, wide - 1.0]
    side = min(sum(at > corner for corner in mitre.bends), way.count - 1)
    if at in mitre.bends:
        return way.bounds[mitre.bends.index(at) + 1]
    a, b = corners[side], corners[side + 1]
    if side == 0:
        return way.bounds[0] + (at - a) * mitre.spacing
    if side == way.count - 1:
        return way.bounds[-1] - (b - at) * mitre.spacing
    return (way.bounds[side] + way.bounds[side + 1]) / 2.0 + (at - (a + b) / 2.0) * mitre.spacing


class _MitreRow:
    """One row being laid from its base's `level` to `top`."""

    def __init__(self, worked: WorkedRow, index: int, bases: Bases, level: float, top: float, way: MitreWay) -> None:
        self.worked, self.index, self.bases = worked, index, bases
        self.level, self.top, self.way = level, top, way

    @property
    def row(self) -> Row:
        return self.worked.row

    def laid(self, mitre: Mitre) -> Ring:
        """The row with its tops placed between its corners, and what hangs on them."""
        found = footings(self.row, self.bases, self.way)
        slots, lead = self._slots(found)
        self._stand(slots, mitre)
        ceiling = ceiling_of(self.bases[1], self.way)
        spots = spots_of(self.row, slots, lead, found, self.way, self.level, 0.0, ceiling)
        outs = {s.item: self.way.out(s.u) for s in slots}
        spots = tuple(self._squared(s, outs[s.item]) if s.item in outs else s for s in spots)
        laid = Laid(tuple(s.rounded() for s in spots), self.top - self.level)
        return Ring(self.index, self.worked, laid, self.level, self.top)

    def _squared(self, spot: Spot, out: Point) -> Spot:
        """A top that faces inward from its side, or from its corner."""
        spot = replace(spot, angle_deg=math.degrees(math.atan2(out[0], -out[1])))
        if len(spot.feet) < 3 or not is_cross(self.row.stitches[spot.item]):
            return spot
        return replace(spot, head=(spot.head[0] + out[0] * JOINT, spot.head[1] + out[1] * JOINT))

    def _slots(self, found: Sequence[tuple[Footing, ...]]) -> tuple[list[Slot], list[int]]:
        """The tops over their feet, the chains after each of them, and those before the first."""

        def top(item: int, made: Stitch, _: Slot | None) -> Slot:
            feet = found[item]
            want = sum(self.way.u(f.point) for f in feet) / len(feet) if feet else 0.0
            return Slot(item, made, feet, want, self.level + rise_of(made.kind, made.legs, made.base))

        return tops_of(self.row, top, ("stitch", "turning"))

    def _stand(self, slots: Sequence[Slot], mitre: Mitre) -> None:
        """Settle u and v of every top: those on corners there, the others between them over their feet."""
        corners = mitre.corners[self.index]
        gaps = [0.0, *map(self._corner_gap, corners), 0.0]
        for side, inside in enumerate(_by_side(self.row, slots, corners)):
            if inside:
                self._place(inside, side, (gaps[side], gaps[side + 1]))
                self._level(inside)
        for slot, corner in _on_corners(self.row, slots, corners):
            slot.u, slot.v = self.way.bounds[corner + 1], self.top

    def _place(self, inside: Sequence[Slot], side: int, around: tuple[float, float]) -> None:
        """The tops of one side in their order over their feet; `around` is the way they keep from its ends.

        On an edge the outermost stands, whatever it goes into: so the edges are straight.
        """
        ends = self.way.span(side, self.top)
        ways = [around[0], *(gap_after(self.row, a, b, 1.0) for a, b in itertools.pairwise(inside)), around[1]]
        ease = min(1.0, (ends[1] - ends[0]) / max(sum(ways), 1e-6))
        wants = [min(max(s.want, ends[0]), ends[1]) for s in inside]
        weights = [1.0] * len(inside)
        for k, is_edge in ((0, side == 0), (-1, side == self.way.count - 1)):
            if is_edge:
                wants[k], weights[k] = ends[k], HELD
        placed = place([ends[0], *wants, ends[1]], [way * ease for way in ways], [HELD, *weights, HELD])
        for slot, u in zip(inside, placed[1:-1], strict=True):
            slot.u = u

    def _corner_gap(self, corner: float) -> float:
        """How far along its side a top keeps from a corner, on which a stitch stands or none."""
        beside = BESIDE_CROSSES if is_crossed(self.row) else BESIDE_BARS
        return beside if corner % 1.0 else 1.0

    def _level(self, inside: Sequence[Slot]) -> None:
        """The heights of one side: as its stitches are tall, levelled along it."""
        mean = sum(s.rise for s in inside) / len(inside)
        ties = [LEVELLING / (2.0 if bridge_size(self.row, s.bridge)[0] else 1.0) for s in inside[:-1]]
        wants = [s.rise + self.top - mean for s in inside]
        for slot, v in zip(inside, follow(wants, [1.0] * len(wants), [0.0] * len(ties), ties), strict=True):
            slot.v = max(v, least_rise(slot))


def _by_side(row: Row, slots: Sequence[Slot], corners: Sequence[float]) -> list[list[Slot]]:
    """The tops between the corners; a corner at a row's only stitch has none beside it."""
    places = _places(row, slots)
    bounds = [-math.inf, *corners, math.inf]
    return [[s for s, at in zip(slots, places, strict=True) if a < at < b] for a, b in itertools.pairwise(bounds)]


def _on_corners(row: Row, slots: Sequence[Slot], corners: Sequence[float]) -> list[tuple[Slot, int]]:
    places = _places(row, slots)
    return [(s, corners.index(at)) for s, at in zip(slots, places, strict=True) if at in corners]


def _places(row: Row, slots: Sequence[Slot]) -> list[float]:
    """The places of the tops along the row, counted in stitches and chains."""
    found, at = [], 0.0
    for slot in slots:
        found.append(at)
        at += 1.0 + bridge_size(row, slot.bridge)[0]
    return found
