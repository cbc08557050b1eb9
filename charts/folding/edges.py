"""The outline of a folded piece, stretch by stretch: which edge of which part lies there, and on what.

Walks the silhouette side by side and finds, for every interval, the edges of the facets that lie along it.
An edge is "row ends", "foundation", "last row" or "tops" (stitches beside a narrower section) where it is an
edge of the cloth, and "fold" where the cloth turns round.
"""

from __future__ import annotations

import itertools
import math
from typing import Literal

from shapely.geometry import LineString, Polygon
from shapely.geometry import Point as Spot

from ..errors import PatternError, Problem
from ..made_late import dataclass
from .facets import Facet, Point, Stack, carry, inverse
from .piece import Piece

EdgeName = Literal["row ends", "foundation", "last row", "tops", "fold", "slant"]
#: What the numbers of a run number; nothing is numbered along a slant.
Counted = Literal["row ends", "stitches", "chains", "slant"]
#: Edges nearer than this (mm) lie together.
NEAR = 0.01


@dataclass(frozen=True, slots=True)
class EdgeRun:
    """A run of one edge: rows or stitches `first` to `last` in the order in which they are met (0, 0: less
    than one).

    `counts` is what the numbers number.
    """

    part: str
    edge: EdgeName
    counts: Counted
    first: int
    last: int
    length_mm: float
    on_flat: tuple[Point, Point]

    @property
    def count(self) -> int:
        return abs(self.last - self.first) + 1 if self.first else 0

    @property
    def each(self) -> tuple[int, ...]:
        """Every number of the run in the order in which they are met."""
        step = 1 if self.last >= self.first else -1
        return tuple(range(self.first, self.last + step, step)) if self.first else ()

    @property
    def numbers(self) -> tuple[int, int]:
        """The run's numbers, the smaller first."""
        return min(self.first, self.last), max(self.first, self.last)


@dataclass(frozen=True, slots=True)
class Interval:
    """A stretch of the outline: from start to end on the plane, and the runs that lie there from the top
    layer down. At a `mouth` they are edges that lie on each other and stay open.
    """

    side: int
    start: Point
    end: Point
    runs: tuple[EdgeRun, ...]
    mouth: bool = False

    @property
    def length_mm(self) -> float:
        return math.dist(self.start, self.end)

    @property
    def layers(self) -> int:
        """How many layers are worked through at once: at a mouth one, though two edges lie there."""
        return 1 if self.mouth else len(self.runs)


def outline_of(stack: Stack) -> Polygon:
    """The silhouette as one polygon, corners only; PatternError where the parts do not hold together."""
    whole = stack.silhouette.simplify(1e-4)
    if not isinstance(whole, Polygon):
        says = "folded so, the parts do not lie together in one outline"
        raise PatternError([Problem("fold", "Folding", says, "fold the other way")])
    return whole


def intervals(piece: Piece, stack: Stack, *, clockwise: bool) -> tuple[Interval, ...]:
    """The outline in the order in which a border goes, clockwise or not as seen, starting at the top right
    or left.
    """
    ring = _ring(outline_of(stack), clockwise)
    found: list[Interval] = []
    for side, (a, b) in enumerate(zip(ring, ring[1:] + ring[:1], strict=True)):
        found += _side(piece, stack, side, a, b)
    return tuple(found)


def _ring(outline: Polygon, clockwise: bool) -> list[Point]:
    """The corners in order, beginning at the top right (going round anticlockwise) or the top left."""
    corners = _corners([(x, y) for x, y in outline.exterior.coords[:-1]])
    area = sum(p[0] * q[1] - q[0] * p[1] for p, q in zip(corners, corners[1:] + corners[:1], strict=True))
    if (area > 0) != clockwise:
        corners.reverse()
    toward = -1 if clockwise else 1
    first = min(
        range(len(corners)), key=lambda i: (round(corners[i][1] - toward * corners[i][0] * 1e-3, 6), i)
    )
    return corners[first:] + corners[:first]


def _corners(points: list[Point]) -> list[Point]:
    """The points where the outline turns."""
    kept = []
    for i, p in enumerate(points):
        a, b = points[i - 1], points[(i + 1) % len(points)]
        cross = (p[0] - a[0]) * (b[1] - p[1]) - (p[1] - a[1]) * (b[0] - p[0])
        if abs(cross) > 1e-3 * math.dist(a, p) * math.dist(p, b) + 1e-9:
            kept.append(p)
    return kept


def _side(piece: Piece, stack: Stack, side: int, a: Point, b: Point) -> list[Interval]:
    """One straight side, cut wherever an edge lying on it begins or ends."""
    along: list[tuple[float, float, Facet]] = []
    for facet in reversed(stack.facets):
        for edge in _edges(facet):
            reach = _overlap(a, b, carry(facet.to_plane, edge[0]), carry(facet.to_plane, edge[1]))
            if reach:
                along.append((*reach, facet))
    length = math.dist(a, b)
    cuts = _merged([0.0, length, *(v for s in along for v in s[:2])])
    found = []
    for lo, hi in itertools.pairwise(cuts):
        start, end = _between(a, b, lo / length), _between(a, b, hi / length)
        here = [f for u, v, f in along if u < hi - NEAR and v > lo + NEAR]
        found.append(Interval(side, start, end, _runs(piece, here, start, end)))
    return found


def _runs(piece: Piece, here: list[Facet], start: Point, end: Point) -> tuple[EdgeRun, ...]:
    """The runs at an interval from the top layer down; a fold is one run, though two facets meet in it."""
    runs: list[EdgeRun] = []
    for facet in here:
        back = inverse(facet.to_plane)
        run = _run(piece, facet, carry(back, start), carry(back, end))
        same = any(r.edge == "fold" == run.edge and _close(r.on_flat, run.on_flat) for r in runs)
        if not same:
            runs.append(run)
    return tuple(runs)


def _run(piece: Piece, facet: Facet, a: Point, b: Point) -> EdgeRun:
    mid = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
    inner = facet.flat.representative_point()
    part = piece.part_at(mid[0] + (inner.x - mid[0]) * 1e-3, mid[1] + (inner.y - mid[1]) * 1e-3).name
    edge, counts = _edge_kind(piece, a, b, mid)
    numbers = (0, 0)
    if counts == "row ends":
        numbers = piece.row_range(a[1], b[1])
    elif counts in ("stitches", "chains"):
        # The row on the cloth's side of the edge: the foundation's first, the last one of what ends here.
        numbers = piece.stitch_range(a[0], b[0], a[1] + (1.0 if inner.y > a[1] else -1.0))
    return EdgeRun(part, edge, counts, *numbers, math.dist(a, b), (a, b))


def _edge_kind(piece: Piece, a: Point, b: Point, mid: Point) -> tuple[EdgeName, Counted]:
    """What an edge of the flat piece is, and what is counted along it."""
    level, upright = abs(a[1] - b[1]) < NEAR, abs(a[0] - b[0]) < NEAR
    if piece.outline.exterior.distance(Spot(mid)) > NEAR:
        return "fold", "stitches" if level else "row ends" if upright else "slant"
    if upright:
        return "row ends", "row ends"
    if not level:
        return "slant", "slant"
    if abs(mid[1] - piece.height_mm) < NEAR:
        return "foundation", "chains"
    return ("last row" if abs(mid[1]) < NEAR else "tops"), "stitches"


def _edges(facet: Facet) -> list[tuple[Point, Point]]:
    ring = [(x, y) for x, y in facet.flat.exterior.coords]
    return [(p, q) for p, q in itertools.pairwise(ring) if math.dist(p, q) > NEAR]


def _overlap(a: Point, b: Point, p: Point, q: Point) -> tuple[float, float] | None:
    """Where an edge p-q lies along the side a-b, in mm from a; None where it does not."""
    length = math.dist(a, b)
    ux, uy = (b[0] - a[0]) / length, (b[1] - a[1]) / length
    if any(abs((r[0] - a[0]) * uy - (r[1] - a[1]) * ux) > NEAR for r in (p, q)):
        return None
    lo, hi = sorted((r[0] - a[0]) * ux + (r[1] - a[1]) * uy for r in (p, q))
    lo, hi = max(lo, 0.0), min(hi, length)
    return (lo, hi) if hi - lo > NEAR else None


def _merged(values: list[float]) -> list[float]:
    """Sorted, those that lie together as one."""
    out: list[float] = []
    for v in sorted(values):
        if not out or v - out[-1] > NEAR:
            out.append(v)
    return out


def _between(a: Point, b: Point, t: float) -> Point:
    return (a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t)


def _close(a: tuple[Point, Point], b: tuple[Point, Point]) -> bool:
    return bool(LineString(a).distance(LineString(b)) < NEAR)
