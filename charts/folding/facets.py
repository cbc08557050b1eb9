"""Folding flat cloth by reflection: facets, the stack they make, and the two ways to fold it.

A facet is a piece of the flat cloth (its polygon there), the affine map that carries it to the folded plane,
and its place in the stack. A fold splits the facets that its crease crosses, reflects the moving ones,
reverses their order and lays them over (or under) the rest. All lengths in mm, y downward; on the flat cloth
the right side faces up, so a map with a positive determinant shows the right side and a negative one the
wrong side.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from functools import cached_property

import shapely
from shapely.affinity import affine_transform
from shapely.geometry import LineString, MultiLineString, Polygon
from shapely.geometry.base import BaseGeometry

from ..made_late import dataclass, replace

Point = tuple[float, float]
#: x' = a x + b y + e, y' = c x + d y + f, as (a, b, c, d, e, f): the order shapely's affine_transform takes.
Affine = tuple[float, float, float, float, float, float]

IDENTITY: Affine = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)
#: Overlays snap to this grid (mm) and areas below `SLIVER` mm2 are nothing: far under the width of any yarn.
GRID = 1e-6
SLIVER = 1e-3


class FoldBlocked(ValueError):
    """A fold that the cloth does not allow; the text says why."""


@dataclass(frozen=True)
class Facet:
    """A part of the cloth between folds: its polygon on the flat cloth and the map to the folded plane."""

    flat: Polygon
    to_plane: Affine = IDENTITY
    part: str = ""

    @cached_property
    def shape(self) -> Polygon:
        """The facet where it lies folded."""
        return affine_transform(self.flat, self.to_plane)

    @property
    def side_up(self) -> str:
        """Which side of the fabric faces the reader: "RS" or "WS"."""
        return "RS" if determinant(self.to_plane) > 0 else "WS"


@dataclass(frozen=True)
class Stack:
    """Facets from the bottom to the top."""

    facets: tuple[Facet, ...]

    @cached_property
    def silhouette(self) -> BaseGeometry:
        """The outline of everything, as lying folded."""
        return shapely.union_all([f.shape for f in self.facets], grid_size=GRID)

    @cached_property
    def layers(self) -> tuple[int, ...]:
        """Each facet's layer: 0 on the table, otherwise one more than the highest it lies on."""
        shapes = [f.shape for f in self.facets]
        found: list[int] = []
        for i, shape in enumerate(shapes):
            under = [found[j] for j in range(i) if _overlap(shape, shapes[j])]
            found.append(1 + max(under, default=-1))
        return tuple(found)


@dataclass(frozen=True, slots=True)
class Seen:
    """A facet as the reader sees it: the area in view, and its edges in view and hidden."""

    facet: Facet
    area: tuple[Polygon, ...]
    visible_edges: tuple[LineString, ...]
    hidden_edges: tuple[LineString, ...]


def determinant(m: Affine) -> float:
    return m[0] * m[3] - m[1] * m[2]


def compose(outer: Affine, inner: Affine) -> Affine:
    """The map that does `inner` first, then `outer`."""
    a, b, c, d, e, f = outer
    p, q, r, s, t, u = inner
    return (a * p + b * r, a * q + b * s, c * p + d * r, c * q + d * s, a * t + b * u + e, c * t + d * u + f)


def inverse(m: Affine) -> Affine:
    a, b, c, d, e, f = m
    k = determinant(m)
    return (d / k, -b / k, -c / k, a / k, (b * f - d * e) / k, (c * e - a * f) / k)


def carry(m: Affine, p: Point) -> Point:
    """Where a point goes."""
    return (m[0] * p[0] + m[1] * p[1] + m[4], m[2] * p[0] + m[3] * p[1] + m[5])


def reflection(p: Point, q: Point) -> Affine:
    """The mirror map over the line through p and q.

    >>> carry(reflection((10.0, 0.0), (10.0, 5.0)), (12.0, 3.0))
    (8.0, 3.0)
    """
    dx, dy = q[0] - p[0], q[1] - p[1]
    n = dx * dx + dy * dy
    if n < 1e-12:
        raise FoldBlocked("the fold line has no length")
    a, b = (dx * dx - dy * dy) / n, 2 * dx * dy / n
    return (a, b, b, -a, p[0] - a * p[0] - b * p[1], p[1] - b * p[0] + a * p[1])


def fold_all(stack: Stack, crease: tuple[Point, Point], side: str, direction: str) -> Stack:
    """Fold every layer along a crease on the plane.

    `side` ("left" or "right" of the way from the crease's first to its second point, as seen) moves;
    `direction` is "over" (valley: onto what lies still) or "under" (mountain).
    """
    keep: list[Facet] = []
    moving: list[Facet] = []
    for facet in stack.facets:
        for piece, is_left in _cut(facet, crease):
            (moving if is_left == (side == "left") else keep).append(piece)
    return _laid(keep, moving, crease, direction)


def fold_part(stack: Stack, line: tuple[Point, Point], side: str, direction: str) -> Stack:
    """Fold only the cloth on one side of a line drawn on the flat piece; the other layers stay as they lie.

    `side` is as the right side shows it on the flat piece. Raises FoldBlocked where an earlier fold bends
    the line or another layer lies in the way.
    """
    crease = _crease_of(stack, line)
    keep: list[Facet] = []
    moving: list[Facet] = []
    order: list[tuple[Facet, bool]] = []
    for facet in stack.facets:
        for flat, is_left in _halves(facet.flat, line):
            piece = replace(facet, flat=flat)
            moves = is_left == (side == "left")
            (moving if moves else keep).append(piece)
            order.append((piece, moves))
    _refuse_blocked(order, crease, direction)
    return _laid(keep, moving, crease, direction)


def turned_over(stack: Stack) -> Stack:
    """The whole folded piece turned over sideways, as one turns a page: mirrored, the bottom now on top."""
    left, _, right, _ = stack.silhouette.bounds
    flip: Affine = (-1.0, 0.0, 0.0, 1.0, left + right, 0.0)
    return Stack(tuple(replace(f, to_plane=compose(flip, f.to_plane)) for f in reversed(stack.facets)))


def moved(stack: Stack, by: Affine) -> Stack:
    """The stack carried by a map (a shift, a turn, a mirror)."""
    return Stack(tuple(replace(f, to_plane=compose(by, f.to_plane)) for f in stack.facets))


def unfolded(stack: Stack) -> BaseGeometry:
    """The flat piece got back from the folded shapes by undoing every map."""
    back = [affine_transform(f.shape, inverse(f.to_plane)) for f in stack.facets]
    return shapely.union_all(back, grid_size=GRID)


def seen(stack: Stack) -> tuple[Seen, ...]:
    """What is in view from above, facet by facet from the bottom, each against the union of what covers
    it.
    """
    found = []
    above: BaseGeometry = Polygon()
    for facet in reversed(stack.facets):
        shape = facet.shape
        area = shapely.difference(shape, above, grid_size=GRID) if not above.is_empty else shape
        edge = LineString(shape.exterior.coords)
        cover = above.buffer(-GRID * 10) if not above.is_empty else above
        found.append(
            Seen(facet, polygons(area), lines(edge.difference(cover)), lines(edge.intersection(cover)))
        )
        above = shapely.union_all([above, shape], grid_size=GRID)
    return tuple(reversed(found))


def polygons(shape: BaseGeometry) -> tuple[Polygon, ...]:
    """The polygons of a result, slivers and stray lines left out."""
    return tuple(p for p in _parts(shape) if isinstance(p, Polygon) and p.area > SLIVER)


def lines(shape: BaseGeometry) -> tuple[LineString, ...]:
    """The lines of a result, joined where they meet end to end, stray points left out."""
    found = [p for p in _parts(shape) if isinstance(p, LineString) and p.length > GRID]
    merged = shapely.line_merge(MultiLineString(found)) if found else MultiLineString()
    return tuple(p for p in _parts(merged) if isinstance(p, LineString))


def side_of(line: tuple[Point, Point], p: Point) -> float:
    """Distance of a point from a line, positive on the left of its way as seen (y downward)."""
    (x0, y0), (x1, y1) = line
    return ((y1 - y0) * (p[0] - x0) - (x1 - x0) * (p[1] - y0)) / math.hypot(x1 - x0, y1 - y0)


def _parts(shape: BaseGeometry) -> Iterable[BaseGeometry]:
    if hasattr(shape, "geoms"):
        for g in shape.geoms:
            yield from _parts(g)
    elif not shape.is_empty:
        yield shape


def _overlap(a: Polygon, b: Polygon) -> bool:
    return bool(a.intersects(b) and a.intersection(b).area > SLIVER)


def _half_plane(line: tuple[Point, Point], left: bool, reach: float) -> Polygon:
    """A rectangle on one side of a line, far beyond `reach`."""
    (x0, y0), (x1, y1) = line
    n = math.hypot(x1 - x0, y1 - y0)
    if n < 1e-9:
        raise FoldBlocked("the fold line has no length")
    ux, uy = (x1 - x0) / n * reach, (y1 - y0) / n * reach
    nx, ny = (uy, -ux) if left else (-uy, ux)
    return Polygon(
        [(x0 - ux, y0 - uy), (x1 + ux, y1 + uy), (x1 + ux + nx, y1 + uy + ny), (x0 - ux + nx, y0 - uy + ny)]
    )


def _halves(shape: Polygon, line: tuple[Point, Point]) -> list[tuple[Polygon, bool]]:
    """The parts of a polygon left (True) and right (False) of a line; whole where the line misses it."""
    away = [side_of(line, p) for p in shape.exterior.coords]
    if min(away) > -GRID:
        return [(shape, True)]
    if max(away) < GRID:
        return [(shape, False)]
    reach = 4 * max(math.hypot(x - line[0][0], y - line[0][1]) for x, y in shape.exterior.coords) + 4
    return [
        (p, left)
        for left in (True, False)
        for p in polygons(shapely.intersection(shape, _half_plane(line, left, reach), grid_size=GRID))
    ]


def _cut(facet: Facet, crease: tuple[Point, Point]) -> list[tuple[Facet, bool]]:
    """A facet's parts left and right of a crease on the plane (a mirrored facet sees the crease mirrored)."""
    back = inverse(facet.to_plane)
    line = (carry(back, crease[0]), carry(back, crease[1]))
    shows = determinant(facet.to_plane) > 0
    return [(replace(facet, flat=p), left == shows) for p, left in _halves(facet.flat, line)]


def _laid(keep: list[Facet], moving: list[Facet], crease: tuple[Point, Point], direction: str) -> Stack:
    mirror = reflection(*crease)
    turned = [replace(f, to_plane=compose(mirror, f.to_plane)) for f in reversed(moving)]
    return Stack(tuple(keep + turned if direction == "over" else turned + keep))


def _crease_of(stack: Stack, line: tuple[Point, Point]) -> tuple[Point, Point]:
    """Where a line of the flat piece lies on the plane: one straight line, or the fold cannot be made."""
    ways = [
        (carry(f.to_plane, line[0]), carry(f.to_plane, line[1]))
        for f in stack.facets
        if f.flat.buffer(GRID).intersects(_long(line, f.flat))
    ]
    if not ways:
        raise FoldBlocked("the fold line does not cross the piece")
    first = ways[0]
    if any(abs(side_of(first, p)) > 1e-3 for way in ways[1:] for p in way):
        raise FoldBlocked("an earlier fold bends the fold line, so it is no longer one straight line")
    return first


def _long(line: tuple[Point, Point], shape: Polygon) -> LineString:
    (x0, y0), (x1, y1) = line
    n = math.hypot(x1 - x0, y1 - y0)
    if n < 1e-9:
        raise FoldBlocked("the fold line has no length")
    reach = (2 * (shape.length + math.hypot(x0, y0)) + 10) / n
    return LineString(
        [(x0 - (x1 - x0) * reach, y0 - (y1 - y0) * reach), (x1 + (x1 - x0) * reach, y1 + (y1 - y0) * reach)]
    )


def _refuse_blocked(order: list[tuple[Facet, bool]], crease: tuple[Point, Point], direction: str) -> None:
    """Refuse a fold when a layer that stays lies on top of what should move (or under it, folding under)."""
    if not any(moves for _, moves in order) or all(moves for _, moves in order):
        raise FoldBlocked("the fold line does not divide the piece")
    run = order if direction == "over" else order[::-1]
    for i, (facet, moves) in enumerate(run):
        for other, stays in ((g, not m) for g, m in run[i + 1 :]):
            if moves and stays and _overlap(facet.shape, other.shape):
                where = "on top of" if direction == "over" else "under"
                raise FoldBlocked(f"{_named(other)} lies {where} {_named(facet)} and holds it down")


def _named(facet: Facet) -> str:
    return f"the {facet.part}" if facet.part else "another layer"
