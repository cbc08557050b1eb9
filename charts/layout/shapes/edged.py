"""A piece worked to and fro whose last rounds go about its whole edge: the piece as it is, the rounds about it.

The words say how many stitches go along the edge, not where each goes: they are spread evenly, from the corner where
the last row ends, and corners are drawn round.
"""

from __future__ import annotations

import math

from ...made_late import dataclass, replace
from ...model.cloth.fabric import Fabric, Row, Stitch, WorkedRow
from ...setting import Hand
from ..placing.placed import Laid, Spot, stack
from ..placing.row import lay_row
from ..placing.tops import own_rise
from ..placing.tracks import FrameWay
from ..points.spurs import lay_flat
from .ring import Edge, LaidRounds, Ring, Shape

#: White between what the piece has at its edge and the feet of the first round, and from a foot's middle to it.
CLEAR, FOOT = 0.5, 0.05
#: The least way from stitch to stitch of such a round: for more of them the round lies farther out.
CLOSEST = 0.78
#: What is left free for them at that corner beyond the white between stitches.
CORNER_FREE = 0.5
#: How high each chain is that a round begins with, and how far over the heads beside it the join lies.
CHAIN_HIGH, JOIN_OVER = 0.62, 0.12
#: Pieces of more rows, or of longer ones, are drawn without: their chart is shortened or cut into pages.
MOST_ROWS, MOST_STITCHES = 40, 60
#: From a round's number to its count, along the edge.
TO_COUNT = 2.0


def edging_of(fabric: Fabric) -> int:
    """How many of the last rounds go about the whole edge of a piece that is worked to and fro; 0 for none."""
    first = next((k for k, worked in enumerate(fabric.rows) if worked.is_round), 0)
    if not first or not all(worked.is_round for worked in fabric.rows[first:]) or not _is_about(fabric.rows[first].row):
        return 0
    later = [made for worked in fabric.rows[first + 1 :] for made in worked.row.stitches]
    return len(fabric.rows) - first if all(foot.back <= 1 for made in later for foot in made.feet) else 0


def _is_about(row: Row) -> bool:
    """Whether stitches go along an edge, and nothing else is made."""
    made = [s for s in row.stitches if s.role not in ("start", "join")]
    return bool(made) and all(s.role == "stitch" and [f.hold for f in s.feet] == ["edge"] for s in made)


def without_edging(fabric: Fabric) -> Fabric:
    """A piece without the rounds about its edge."""
    return replace(fabric, rows=fabric.rows[: len(fabric.rows) - edging_of(fabric)])


def about_words(fabric: Fabric) -> str:
    """What is said of the rounds about an edge that are not drawn."""
    labels = [worked.label for worked in fabric.rows[len(fabric.rows) - edging_of(fabric) :]]
    if len(labels) == 1:
        return f"{labels[0]} goes about the whole edge and is not drawn."
    return f"{labels[0]} to {labels[-1]} go about the whole edge and are not drawn."


def is_small(fabric: Fabric) -> bool:
    """Whether a piece is drawn whole, with what goes about it."""
    most = max(len(worked.row.stitches) for worked in without_edging(fabric).rows)
    return len(fabric.rows) <= MOST_ROWS and most <= MOST_STITCHES


@dataclass(frozen=True, slots=True, eq=False)
class Edged:
    """A piece with `rounds` about its edge, as it lies; `inner` is its own shape, None where it is rows on rows."""

    laid: LaidRounds
    way: FrameWay
    rounds: int
    inner: Shape | None = None
    ground: str = "foundation"
    nested: bool = False
    ringed: bool = False

    def lay(self, fabric: Fabric) -> LaidRounds:
        return self.laid

    def edges(self, ring: Ring) -> tuple[Edge, Edge]:
        whole, body = self.laid.rings[-1].outer, len(self.laid.rings) - self.rounds
        if ring.index >= body:
            return self._round_ends(ring.index - body, self.laid.rings[ring.index], whole)
        if self.inner is None:
            return self._row_ends(ring, whole)
        begin, end = self.inner.edges(ring)
        return _moved(begin, whole), _moved(end, whole)

    def _row_ends(self, ring: Ring, whole: float) -> tuple[Edge, Edge]:
        """The sides of the piece that a row begins and ends at, moved out past what goes about it."""
        x, y = self.way.middle
        left, right = (Edge((x + side * (self.way.wide + whole), y), (0.0, 1.0), (side, 0.0)) for side in (-1.0, 1.0))
        return (right, left) if ring.worked.direction == "right-to-left" else (left, right)

    def _round_ends(self, nth: int, ring: Ring, whole: float) -> tuple[Edge, Edge]:
        """Behind the corner where a round begins, in line with its first side, and beside that the count."""
        first, on = self.way.first
        (a, b), (u, v) = on, (first[0], first[1])
        (x, y), middle = self.way.corner, (ring.inner + ring.outer) / 2.0
        begin = Edge((x + u * middle - a * whole, y + v * middle - b * whole), (0.0, 0.0), (-a, -b), on)
        aside = TO_COUNT * (nth + 1)
        if v:  # along a side that lies level: over it, where no row ends
            return begin, Edge((x + a * aside, y + v * whole), (0.0, 0.0), (u, v))
        return begin, Edge((x - u * aside, y - b * whole), (0.0, 0.0), (-a, -b))

    def begun(self, chains: int) -> str:
        return ""

    def opening(self, laid: LaidRounds, hand: Hand) -> tuple[str, ...]:
        chains = len(laid.centre.spots)
        rows = (
            f"Seen from the right side, for {hand}-handed work; begin at the foundation of ch {chains}. Rows go to and "
            "fro, each from its number to the other edge.",
        )
        goes = "The last round goes" if self.rounds == 1 else f"The last {self.rounds} rounds go"
        about = f"{goes} about the whole edge, from the number at the corner; the first has its stitches spread evenly."
        return (*(self.inner.opening(laid, hand) if self.inner else rows), about)


def edged_of(fabric: Fabric, inner: Shape | None) -> Edged:
    """A piece whose last rounds go about its edge, laid; `inner` is the shape of the piece without them."""
    rounds = edging_of(fabric)
    laid = inner.lay(without_edging(fabric)) if inner else _in_rows(without_edging(fabric))
    about = fabric.rows[len(fabric.rows) - rounds :]
    way = _way(laid, about[0])
    rings = list(laid.rings)
    for worked in about:
        below = rings[-1].laid if rings[-1].worked.is_round else None
        made = _first(worked, way) if below is None else _later(worked, below, rings[-1].outer, way)
        inner_v = 0.0 if below is None else rings[-1].outer
        rings.append(Ring(len(rings), worked, made, inner_v, inner_v + made.rise))
    return Edged(replace(laid, rings=tuple(rings)), way, rounds, inner)


def _moved(edge: Edge, far: float) -> Edge:
    (x, y), (a, b) = edge.at, edge.out
    return replace(edge, at=(x + a * far, y + b * far))


def _in_rows(fabric: Fabric) -> LaidRounds:
    """Rows on rows, each where it lies."""
    laid = lay_flat(fabric)
    rings = [
        Ring(c.index, c.worked, Laid(tuple(s.moved(0.0, c.y).rounded() for s in c.laid.spots), c.laid.rise), 0.0, 0.0)
        for c in laid.courses
    ]
    return LaidRounds(laid.foundation, tuple(rings), 0)


def _way(laid: LaidRounds, worked: WorkedRow) -> FrameWay:
    """The way about a piece, from the corner that is nearest to where its last row ends."""
    points = [p for s in laid.spots for p in (s.head, *((x, y) for x, y, _ in s.ovals), *s.feet)]
    xs, ys = [x for x, _ in points], [y for _, y in points]
    middle = ((min(xs) + max(xs)) / 2.0, (min(ys) + max(ys)) / 2.0)
    wide, high = (max(xs) - min(xs)) / 2.0, (max(ys) - min(ys)) / 2.0
    tops = [s.head for s in laid.rings[-1].laid.spots if s.role in ("stitch", "turning")]
    x, y = tops[-1]
    sign = 1.0 if worked.direction == "right-to-left" else -1.0
    left, upper = sign * (x - middle[0]) < 0.0, y < middle[1]
    corner = (0 if upper else 1) if left else (3 if upper else 2)
    made = sum(s.role == "stitch" for s in worked.row.stitches)
    bare = FrameWay(sign, corner, middle, wide + CLEAR, high + CLEAR)
    more = max(made * CLOSEST + CORNER_FREE - bare.whole, 0.0) / 8.0
    return replace(bare, wide=bare.wide + more, high=bare.high + more)


def _first(worked: WorkedRow, way: FrameWay) -> Laid:
    """The first round about a piece, spread evenly: what joins it lies on the corner, over what it begins with."""
    row = worked.row
    tops = [i for i, s in enumerate(row.stitches) if s.role == "stitch"]
    step, high = (way.whole - CORNER_FREE) / len(tops), max(own_rise(row.stitches[i]) for i in tops)
    spots = []
    for item, made in enumerate(row.stitches):
        if item in tops:
            u = CORNER_FREE / 2.0 + (tops.index(item) + 0.5) * step
            foot, head = way.at(u, FOOT), way.at(u, FOOT + own_rise(made))
            out = way.out(u)
            turn = math.degrees(math.atan2(out[0], -out[1]))
            size = min(max((step - 0.17) / 0.66, 0.45), 1.0)
            spots.append(Spot(item, made.kind, made.role, head, (foot,), size=size, angle_deg=turn, base=made.base,
                              legs=made.legs))  # fmt: skip
        else:
            spots.append(_at_corner(item, made, high, way))
    return Laid(tuple(s.rounded() for s in spots), FOOT + high)


def _at_corner(item: int, made: Stitch, high: float, way: FrameWay) -> Spot:
    """A beginning chain, or the slip stitch that joins a round, on the corner where the round begins."""
    out = way.out(0.0)
    turn = math.degrees(math.atan2(out[0], -out[1]))
    if made.role == "start":
        foot, head = way.at(0.0, FOOT), way.at(0.0, FOOT + CHAIN_HIGH * made.chains)
        return Spot(item, made.kind, made.role, head, (foot,), chains=made.chains, ovals=stack(foot, head, made.chains))
    at = way.at(0.0, FOOT + high + JOIN_OVER)
    return Spot(item, made.kind, made.role, at, (at,), chains=made.chains, angle_deg=turn)


def _later(worked: WorkedRow, below: Laid, level: float, way: FrameWay) -> Laid:
    """A round on a round about a piece."""
    return lay_row(worked.row, {1: below.spots}, way, level=level)
