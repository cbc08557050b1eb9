"""A piece worked to and fro whose last rounds go about its whole edge: the piece as it is, the rounds about it.

What the words tell of where they go is followed, and the rest is spread evenly, from the corner where the last row
ends; corners are drawn round.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence

from ...made_late import dataclass, replace
from ...model.cloth.fabric import Fabric, Row, WorkedRow
from ...setting import Hand
from ..edging.closed import lay_closed, shortest
from ..edging.places import CORNERS, corner_u, on_edge, sides_of
from ..placing.placed import Laid
from ..placing.tops import own_rise
from ..placing.tracks import FRAME, FrameWay
from ..points.spurs import lay_flat
from .ring import Edge, LaidRounds, Ring, Shape

#: White between what the piece has at its edge and the feet of the first round.
CLEAR = 0.5
#: The least way from stitch to stitch of such a round: for more of them the round lies farther out.
CLOSEST = 0.86
#: So many stitches more have room along a side: those in its corners reach into it.
BESIDE_CORNERS = 2.5
#: How far out along a round the way about is measured: by its bars, and by the arms of one of crosses alone, as a share
#: of its height.
BY_BARS, BY_ARMS = 1.0, 0.6
#: How far beside what they go into the stitches of a side may come to stand from one of its ends to the other, by how
#: much the way about a piece is lengthened for that at most, and at least, and how often that is tried.
BESIDE_FEET, MOST_LONGER, LEAST_LONGER, TRIES = 0.6, 1.25, 0.05, 4
#: What a round about an edge goes into of the last row.
_INTO = ("top", "front loop", "back loop", "space", "chain")
#: Pieces of more rows, or of longer ones, are drawn without: their chart is shortened or cut into pages.
MOST_ROWS, MOST_STITCHES = 40, 60
#: No cross is taller.
CROSS_TALL = 1.2
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
    """Whether a round goes along an edge, somewhere at least beside its stitches, and nowhere past it."""
    made = [s for s in row.stitches if s.role not in ("start", "join", "chain", "picot")]
    feet = [foot for s in made for foot in s.feet]
    alone = all(s.role in ("stitch", "turning") and len(s.feet) == 1 for s in made)
    into = all(foot.hold == "edge" or (foot.back == 1 and foot.hold in _INTO) for foot in feet)
    return alone and into and any(foot.hold == "edge" for foot in feet)


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
    way, rings = _with_room(laid, about, _way(laid, about))
    return Edged(replace(laid, rings=(*laid.rings, *rings)), way, rounds, inner)


def _with_room(laid: LaidRounds, about: Sequence[WorkedRow], way: FrameWay) -> tuple[FrameWay, list[Ring]]:
    """The way about a piece and the rounds on it: longer along those sides where stitches would stand beside what they
    go into, as far as it may be."""
    most = replace(way, wide=way.wide * MOST_LONGER, high=way.high * MOST_LONGER)
    rings = _about(laid, about, way)
    for _ in range(TRIES):
        lacks = _lacks(rings, way)
        wide, high = min(way.wide + lacks[0] / 2.0, most.wide), min(way.high + lacks[1] / 2.0, most.high)
        if wide + high < way.wide + way.high + LEAST_LONGER:
            break
        way = replace(way, wide=wide, high=high)
        rings = _about(laid, about, way)
    return way, rings


def _lacks(rings: Sequence[Ring], way: FrameWay) -> tuple[float, float]:
    """How much longer than the level and the upright sides what stands along them is."""
    found = [0.0, 0.0]
    for inner, ring in itertools.pairwise(rings):
        own = _measured(way, ring.worked.row, inner.outer)
        ends = [corner_u(own, nth) for nth in range(CORNERS + 1)]
        off: list[list[float]] = [[] for _ in range(CORNERS)]
        pairs = zip(ring.laid.spots, ring.worked.row.stitches, strict=True)
        made = [(s, m.feet) for s, m in pairs if m.role in ("stitch", "turning") and s.feet]
        for _, same in itertools.groupby(made, key=lambda each: each[1]):
            spots = [spot for spot, _ in same]
            foot = sum(own.near(own.u(s.feet[0]), own.u(spots[0].feet[0])) for s in spots) / len(spots)
            head = sum(own.near(own.u(s.head), foot) for s in spots) / len(spots)
            side = max(nth for nth in range(CORNERS) if ends[nth] <= foot % own.whole)
            off[side].append(head - foot)
        for nth, each in enumerate(off):
            if each:
                wider = max(later - least for later, least in zip(each, itertools.accumulate(each, min), strict=True))
                upright = (way.start + nth) % 2 == 0
                found[upright] = max(found[upright], wider - BESIDE_FEET)
    return found[0], found[1]


def _about(laid: LaidRounds, about: Sequence[WorkedRow], way: FrameWay) -> list[Ring]:
    """The rounds about a piece."""
    rings, level, below = list[Ring](), 0.0, laid.rings[-1].laid.spots
    for nth, worked in enumerate(about):
        own = _measured(way, worked.row, level)
        row, bases = (worked.row, below) if nth else on_edge(worked.row, below, own)
        made = lay_closed(row, {1: bases}, own, level=level, upright=not nth)
        rings.append(Ring(len(laid.rings) + nth, worked, made, level, level + made.rise))
        level, below = level + made.rise, made.spots
    return rings


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


def _way(laid: LaidRounds, about: Sequence[WorkedRow]) -> FrameWay:
    """The way about a piece, from the corner that is nearest to where its last row ends, long enough for the rounds."""
    worked = about[0]
    points = [p for s in laid.spots for p in (s.head, *((x, y) for x, y, _ in s.ovals), *s.feet)]
    xs, ys = [x for x, _ in points], [y for _, y in points]
    middle = ((min(xs) + max(xs)) / 2.0, (min(ys) + max(ys)) / 2.0)
    wide, high = (max(xs) - min(xs)) / 2.0, (max(ys) - min(ys)) / 2.0
    tops = [s.head for s in laid.rings[-1].laid.spots if s.role in ("stitch", "turning")]
    x, y = tops[-1]
    sign = 1.0 if worked.direction == "right-to-left" else -1.0
    left, upper = sign * (x - middle[0]) < 0.0, y < middle[1]
    corner = (0 if upper else 1) if left else (3 if upper else 2)
    bare = FrameWay(sign, corner, middle, wide + CLEAR, high + CLEAR)
    counts = sides_of(worked.row)
    for nth, count in enumerate(counts):  # no side has less room than its stitches need
        more = max((count + BESIDE_CORNERS) * CLOSEST - bare.long_of(corner + nth), 0.0) / 2.0
        bare = replace(bare, high=bare.high + more) if (corner + nth) % 2 == 0 else replace(bare, wide=bare.wide + more)
    lacks, level = 0.0, 0.0
    for each in about:
        lacks = max(lacks, shortest(each.row) - _measured(bare, each.row, level).whole)
        level += _tall(each.row)
    return replace(bare, wide=bare.wide + lacks / 8.0, high=bare.high + lacks / 8.0)


def _measured(way: FrameWay, row: Row, level: float) -> FrameWay:
    """The way as it is measured for a round that begins so far out."""
    tall = _tall(row)
    return replace(way, line=max(level + tall * (BY_BARS if tall > CROSS_TALL else BY_ARMS), FRAME))


def _tall(row: Row) -> float:
    """How high the tallest stitch of a round is."""
    return max((own_rise(s) for s in row.stitches if s.role in ("stitch", "turning")), default=1.0)
