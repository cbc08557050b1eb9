"""Half motifs: work to and fro about a ring, drawn as the part of a circle or of a motif that it is.

A fabric that begins in a ring, or in one single chain, and is worked in rows opens like a fan about its middle. How
wide is taken from the work: the stitches of its rows against the height at which they stand. Where its rows turn
corners it has straight sides: with one corner it is half a square, with two half a hexagon, with three a square that
is open on one side, or another part of a motif if the stitches of its sides say so.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

from ...made_late import dataclass
from ...model.cloth.fabric import Fabric, Row, Stitch, WorkedRow
from ..placing.chain_room import room
from ..placing.tops import ARCH, Slot, bridge_size, gap_after, rise_of, tops_of
from ..placing.tracks import ArcWay, FacetWay
from .centre import is_one_chain, lay_centre
from .corners import places_of
from .ring import Edge

#: What the chains over a corner take beyond their own length: they begin off the leaning heads beside it.
CORNER_ROOM = 0.25
#: How far a wedge without corners may open, in degrees: the last is a whole circle that is left open.
OPENINGS = (90.0, 120.0, 180.0, 240.0, 270.0, 330.0)
#: Work that opens less than this is no fan, nor are so many rows or more that do not grow: both are drawn as rows.
LEAST_OPENING, GROWING_ROWS = 60.0, 3
#: The least share that any row has of the room it needs.
LEAST_EASE = 0.5
#: A round of a flat circle is so many stitches wide for each stitch that it lies from the middle: 6 more sc a round
#: (common practice, no source), 12 more dc, which are about two high.
WHOLE_CIRCLE = 6.0
#: What a chain counts for between stitches: lace is open, and gives way; about the ring it counts for nothing.
CHAINS_WEIGH = 0.5
#: A fan from one chain is so many stitches wide, or grows in its middle: what grows at its edges is a triangle.
FAN_OF_ONE_CHAIN = 5
#: How far the stitches of the sides may differ from the room that a shape gives them.
LEAST_FILLED, MOST_FILLED = 0.55, 1.7


@dataclass(frozen=True, slots=True)
class Wedge:
    """The shape of work to and fro about its ring: `angle` radians from edge to edge, upright about its middle.

    `sides` is how many straight sides its rows have, 0 for an arc; with `half_ends` the first and the last are half
    as long as the others: the edges run square to them and not out through a corner.
    """

    angle: float
    sides: int = 0
    half_ends: bool = False

    @property
    def each(self) -> float:
        """The angle from one side to the next."""
        return self.angle / (self.sides - 1 if self.half_ends else self.sides)

    def edge(self, sign: float) -> float:
        """The angle of the edge at which a row begins that runs counter-clockwise (1) or clockwise (-1)."""
        return math.pi / 2.0 - sign * self.angle / 2.0

    def arc(self, sign: float) -> ArcWay:
        """The way of a row without corners."""
        return ArcWay(sign, self.edge(sign), self.angle)

    def facets(self, sign: float) -> FacetWay:
        """The way of a row with corners."""
        middle = 0.0 if self.half_ends else self.each / 2.0
        return FacetWay(sign, self.edge(sign) + sign * middle, self.sides, self.each)

    def ends(self) -> tuple[float, float]:
        """Where a row on straight sides begins and ends along its way."""
        short = 1.0 if self.half_ends else 0.0
        return (short, 2.0 * self.sides - short)

    def lengths(self) -> tuple[float, ...]:
        """How long each side is at the distance 1 from the ring's middle."""
        whole = 2.0 * math.tan(self.each / 2.0)
        ends = whole / 2.0 if self.half_ends else whole
        return (ends, *[whole] * (self.sides - 2), ends)


def _degrees(angle: float, sides: int, *, half_ends: bool = False) -> Wedge:
    return Wedge(math.radians(angle), sides, half_ends)


#: What a piece with so many corners can be. One: half a square, or a quarter of one with its ring in a corner. Two:
#: half a hexagon, half a square cut along its sides, a square without one of its four parts. Three: a square without
#: a quarter at a corner, half a hexagon cut across its sides, a square that is slit open from a corner to its middle.
SHAPES: dict[int, tuple[Wedge, ...]] = {
    1: (_degrees(180.0, 2), _degrees(90.0, 2, half_ends=True)),
    2: (_degrees(180.0, 3), _degrees(180.0, 3, half_ends=True), _degrees(270.0, 3)),
    3: (_degrees(270.0, 4, half_ends=True), _degrees(180.0, 4, half_ends=True), _degrees(336.0, 4)),
}


def turn_of(worked: WorkedRow) -> float:
    """How a row goes about the ring as a right-hander sees it: 1 counter-clockwise, -1 clockwise."""
    return 1.0 if worked.direction == "right-to-left" else -1.0


def wedge_of(fabric: Fabric) -> Wedge | None:
    """The shape of a fabric that is worked to and fro about its ring; None for every other."""
    if not fabric.rows or any(worked.is_round for worked in fabric.rows) or not _begins_in_one_place(fabric):
        return None
    corners = row_corners(fabric)
    levels = _levels(fabric)
    shape = _cornered(fabric, corners, levels) if corners else None
    return shape or _arc(fabric, levels)


def row_corners(fabric: Fabric) -> list[tuple[float, ...]] | None:
    """For every row the items at its corners, or halfway between two of them; None where its rows are round."""
    return places_of(fabric.rows, alone=fabric.start in ("ring", "magic ring"), closed=False)


def _begins_in_one_place(fabric: Fabric) -> bool:
    if fabric.start in ("ring", "magic ring"):
        return True
    if not is_one_chain(fabric):
        return False
    first = fabric.rows[0].row
    return first.made >= FAN_OF_ONE_CHAIN or (len(fabric.rows) > 1 and _grows_inside(fabric.rows[1].row))


def _grows_inside(row: Row) -> bool:
    """Whether stitches share a place elsewhere than at the row's ends."""
    feet = [s.feet for s in row.stitches if s.role in ("stitch", "turning") and s.feet]
    ends = {feet[0], feet[-1]} if feet else set()
    return any(a == b and a not in ends for a, b in itertools.pairwise(feet))


def plain_tops(row: Row) -> tuple[list[Slot], list[int]]:
    """The tops of a row as tall as they are by nature, with the chains after each; the chains before the first."""

    def top(item: int, made: Stitch, _: Slot | None) -> Slot:
        return Slot(item, made, (), 0.0, rise_of(made.kind, made.legs, made.base))

    return tops_of(row, top, ("stitch", "turning", "travel"))


def _levels(fabric: Fabric) -> list[float]:
    """How far from the ring's middle the tops of every row stand by nature."""
    level = lay_centre(fabric, math.pi / 2.0)[1]
    found = []
    for worked in fabric.rows:
        slots, _ = plain_tops(worked.row)
        level += sum(s.rise for s in slots) / max(len(slots), 1)
        found.append(level)
    return found


def _arc(fabric: Fabric, levels: Sequence[float]) -> Wedge | None:
    """The wedge without corners that is the share of a circle its rows are, as nearly as all of them agree.

    The ring is taken to be drawn up close, as it is at work: a chart draws it wide, to have room for the feet.
    """
    rim = lay_centre(fabric, math.pi / 2.0)[1]
    heights = [level - rim for level in levels]
    if len(fabric.rows) >= GROWING_ROWS and not _grows(fabric):
        return None
    every = [(_need(w.row, CHAINS_WEIGH if k else 0.0), heights[k]) for k, w in enumerate(fabric.rows)]
    rows = [every[k] for k, w in enumerate(fabric.rows) if not _is_arched(w.row)] or every
    fitted = sum(n * v for n, v in rows) / sum(v * v for _, v in rows)
    crowded = max(n / v for n, v in rows)
    opening = 360.0 * max(fitted, crowded * LEAST_EASE) / WHOLE_CIRCLE
    if opening < LEAST_OPENING:
        return None
    return Wedge(math.radians(min(OPENINGS, key=lambda angle: abs(angle - opening))))


def _is_arched(row: Row) -> bool:
    """Whether long runs of chains lie in a row: they hang as wide as what they stand on, and say nothing of it."""
    return any(s.role == "chain" and s.chains >= ARCH for s in row.stitches)


def _grows(fabric: Fabric) -> bool:
    """Whether any row is wider than the first."""
    first, *rest = (_need(worked.row, 1.0) for worked in fabric.rows)
    return max(rest) > first


def _need(row: Row, chains_weigh: float) -> float:
    """How many stitches wide a row is, its chains drawn together to a share of the way they take."""
    slots, _ = plain_tops(row)
    tops = itertools.pairwise(slots)
    return 1.0 + sum(gap_after(row, a, b, 1.0) - (1.0 - chains_weigh) * _room_after(row, a) for a, b in tops)


def _room_after(row: Row, slot: Slot) -> float:
    """The way that the chains after a top take; 0 where there are none."""
    chains, picots = bridge_size(row, slot.bridge)
    return room(chains, picots) if chains else 0.0


def _cornered(fabric: Fabric, corners: Sequence[tuple[float, ...]], levels: Sequence[float]) -> Wedge | None:
    """The shape that gives every side the room its stitches need; None where none of them does."""
    count = len(next(c for c in corners if c))
    rows = [(worked.row, here, level) for worked, here, level in zip(fabric.rows, corners, levels, strict=True) if here]

    def misfit(shape: Wedge) -> float:
        return sum(
            (sum(side) - length * level) ** 2
            for row, here, level in rows
            for side, length in zip(_sides(row, here, shape), shape.lengths(), strict=True)
        )

    best = min(SHAPES[count], key=misfit)
    row, here, level = rows[-1]
    filled = sum(map(sum, _sides(row, here, best))) / (sum(best.lengths()) * level)
    return best if LEAST_FILLED < filled < MOST_FILLED else None


def _sides(row: Row, corners: Sequence[float], shape: Wedge) -> list[list[float]]:
    """What every side of a row needs in a shape; its outermost stitches are half a stitch wider than their tops."""
    slots, _ = plain_tops(row)
    gaps = side_gaps(row, slots, parts_of(slots, corners), shape.each)
    over = 0.5 if shape.half_ends else 0.5 / math.cos(shape.each / 2.0)
    return [[over, *gaps[0]], *gaps[1:-1], [*gaps[-1], over]]


@dataclass(frozen=True, slots=True)
class Part:
    """The tops of one side: those inside it, and the stitches on the corners before and after it.

    A corner of chains is None, and so is one between two stitches, and an edge: its stitch is inside.
    """

    before: Slot | None
    inside: tuple[Slot, ...]
    after: Slot | None
    at_start: bool
    at_end: bool


def parts_of(slots: Sequence[Slot], corners: Sequence[float]) -> list[Part]:
    """The sides of a row, in the order of work."""
    on = {float(s.item): s for s in slots if s.item in corners}
    bounds = [-1.0, *corners, math.inf]
    return [
        Part(
            on.get(a),
            tuple(s for s in slots if a < s.item < b),
            on.get(b),
            at_start=k == 0,
            at_end=k == len(corners),
        )
        for k, (a, b) in enumerate(itertools.pairwise(bounds))
    ]


def side_gaps(row: Row, slots: Sequence[Slot], parts: Sequence[Part], each: float) -> list[list[float]]:
    """For every side of a row the way from its beginning to its first top, from top to top, and on to its end.

    A side begins and ends at a corner; the first begins at the row's first top, the last ends at its last. `each` is
    the angle from side to side.
    """
    return [_side_gaps(row, slots, part, each) for part in parts]


def _side_gaps(row: Row, slots: Sequence[Slot], part: Part, each: float) -> list[float]:
    inside = part.inside
    if not inside:
        return [1.0]
    gaps = [gap_after(row, a, b, 1.0) for a, b in itertools.pairwise(inside)]
    last = slots[slots.index(inside[0]) - 1] if not part.at_start else inside[0]
    first = 0.0 if part.at_start else _corner_gap(row, last, part.before, inside[0], each)
    end = 0.0 if part.at_end else _corner_gap(row, inside[-1], inside[-1], part.after, each)
    return [first, *gaps, end]


def _corner_gap(row: Row, chained: Slot, a: Slot | None, b: Slot | None, each: float) -> float:
    """The way along a side from a corner to the top beside it, or from that top to the corner.

    A corner's chains, which follow `chained`, lie across it: two ways along the sides make one way across.
    """
    if a is not None and b is not None:
        return gap_after(row, a, b, 1.0)
    across = 1.0 + CORNER_ROOM + _room_after(row, chained)
    return across / (2.0 * math.cos(each / 2.0))


def wedge_edge(wedge: Wedge, sign: float) -> Edge:
    """The edge where rows begin that go about as `sign` says: along the first side of a shape, which need not be square
    to the edge, else straight in."""
    edge = wedge.edge(sign)
    out = edge - sign * math.pi / 2.0
    middle = 0.0 if wedge.half_ends or not wedge.sides else wedge.each / 2.0
    along, outward, way = ((math.cos(a), -math.sin(a)) for a in (edge, out, out + math.pi + sign * middle))
    return Edge((0.0, 0.0), along, outward, way)
