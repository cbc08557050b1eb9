"""Lines that a drawing of a folded piece needs: rows in view, hatching, doubled areas, a cut across the
layers.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from itertools import combinations

import shapely
import shapely.prepared
from shapely.affinity import affine_transform
from shapely.geometry import LineString, MultiLineString, MultiPolygon, Polygon

from ..made_late import dataclass, replace
from .facets import GRID, Facet, Point, Seen, Stack, lines, polygons
from .piece import Part, Piece

Line = tuple[Point, ...]


def rings(shapes: Iterable[Polygon]) -> tuple[Line, ...]:
    """Every ring of some polygons as points, closed."""
    found: list[Line] = []
    for shape in shapes:
        found += [tuple((x, y) for x, y in r.coords) for r in (shape.exterior, *shape.interiors)]
    return tuple(found)


def points(shapes: Iterable[LineString]) -> tuple[Line, ...]:
    """Lines as points."""
    return tuple(tuple((x, y) for x, y in s.coords) for s in shapes)


def row_lines(view: Seen, piece: Piece, every: int) -> tuple[Line, ...]:
    """The boundaries between rows that are in view on a facet, every so many rows."""
    edges = piece.row_edges_mm[1:-1][every - 1 :: every]
    flat = MultiLineString([piece.row_line(t) for t in edges])
    carried = affine_transform(flat, view.facet.to_plane)
    return tuple(p for area in view.area for p in points(lines(carried.intersection(area.buffer(-0.01)))))


def hatched(shapes: Sequence[Polygon], gap_mm: float, angle_deg: float = 45.0) -> tuple[Line, ...]:
    """Parallel lines at a gap, clipped to the shapes; they lie on one grid, so that neighbours run on."""
    if not shapes:
        return ()
    whole = shapely.union_all(list(shapes), grid_size=GRID)
    left, top, right, bottom = whole.bounds
    turn = math.radians(angle_deg)
    along, across = (math.cos(turn), math.sin(turn)), (-math.sin(turn), math.cos(turn))
    corners = [(x, y) for x in (left, right) for y in (top, bottom)]
    away = [x * across[0] + y * across[1] for x, y in corners]
    reach = math.hypot(right - left, bottom - top) + 1
    middle = ((left + right) / 2 * along[0]) + (top + bottom) / 2 * along[1]
    rays = []
    for k in range(math.ceil(min(away) / gap_mm), math.floor(max(away) / gap_mm) + 1):
        x, y = across[0] * k * gap_mm + along[0] * middle, across[1] * k * gap_mm + along[1] * middle
        rays.append(
            ((x - along[0] * reach, y - along[1] * reach), (x + along[0] * reach, y + along[1] * reach))
        )
    return points(lines(MultiLineString(rays).intersection(whole))) if rays else ()


def doubled(stack: Stack) -> tuple[Polygon, ...]:
    """Where two or more layers lie on each other."""
    once: shapely.Geometry = Polygon()
    twice: list[shapely.Geometry] = []
    for facet in stack.facets:
        shape = facet.shape
        if not once.is_empty:
            twice.append(shapely.intersection(once, shape, grid_size=GRID))
        once = shapely.union_all([once, shape], grid_size=GRID)
    return polygons(shapely.union_all(twice, grid_size=GRID)) if twice else ()


def by_parts(stack: Stack, piece: Piece) -> Stack:
    """The stack with every facet cut where one part ends and the next begins, each under its own part's name."""
    found: list[Facet] = []
    for facet in stack.facets:
        cuts = [(part.name, facet.flat.intersection(_band(piece, part))) for part in piece.parts]
        whole = [(name, flat) for name, shape in cuts for flat in polygons(shape)]
        found += [replace(facet, flat=flat, part=name) for name, flat in whole] if len(whole) > 1 else [facet]
    return Stack(tuple(found))


def _band(piece: Piece, part: Part) -> Polygon:
    """The rectangle of the flat piece that a part lies in."""
    corners = [p for at in (part.lo_mm, part.hi_mm) for p in piece.line_at(at)]
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    return shapely.box(min(xs), min(ys), max(xs), max(ys))


def roomiest(shape: Polygon) -> tuple[float, float, float, float]:
    """The largest level rectangle between the corners of a polygon that lies in it: where words have room."""
    xs = sorted({round(x, 6) for x, _ in shape.exterior.coords})
    ys = sorted({round(y, 6) for _, y in shape.exterior.coords})
    inside = shapely.prepared.prep(shape.buffer(0.01))
    boxes = (
        (x0, y0, x1, y1)
        for x0, x1 in combinations(xs, 2)
        for y0, y1 in combinations(ys, 2)
        if inside.contains(shapely.box(x0, y0, x1, y1))
    )
    return max(boxes, key=lambda b: (b[2] - b[0]) * (b[3] - b[1]), default=shape.bounds)


@dataclass(frozen=True, slots=True)
class Cut:
    """A layer where a straight cut crosses it: from `start` to `end` along the cut, in mm from the cut's
    beginning.

    `folds` are the indices of the cuts that this one runs on into, each with where the fold lies.
    """

    layer: int
    start: float
    end: float
    part: str
    side_up: str
    folds: tuple[tuple[int, float], ...] = ()


def cut_across(stack: Stack, along: str, at: float = 0.5) -> tuple[Cut, ...]:
    """The layers on a straight cut through the folded piece, "x" for a level cut or "y" for an upright one.

    `at` is where the cut lies, as a fraction of the piece's extent the other way.
    """
    left, top, right, bottom = stack.silhouette.bounds
    if along == "x":
        y = top + (bottom - top) * at
        knife, k = LineString([(left - 1, y), (right + 1, y)]), 0
    else:
        x = left + (right - left) * at
        knife, k = LineString([(x, top - 1), (x, bottom + 1)]), 1
    found: list[tuple[Facet, int, float, float]] = []
    for facet, layer in zip(stack.facets, stack.layers, strict=True):
        for piece in lines(knife.intersection(facet.shape)):
            lo, hi = sorted((piece.coords[0][k], piece.coords[-1][k]))
            found.append((facet, layer, lo, hi))
    return tuple(
        Cut(layer, lo, hi, f.part, f.side_up, _runs_on(i, found))
        for i, (f, layer, lo, hi) in enumerate(found)
    )


def _runs_on(index: int, found: Sequence[tuple[Facet, int, float, float]]) -> tuple[tuple[int, float], ...]:
    """Which later cuts share a crease with this one, and where."""
    facet, _, lo, hi = found[index]
    shared = []
    for j in range(index + 1, len(found)):
        other, _, lo2, hi2 = found[j]
        if facet.flat.intersection(other.flat).length < GRID:
            continue
        for here in (lo, hi):
            if min(abs(here - lo2), abs(here - hi2)) < 0.01:
                shared.append((j, here))
    return tuple(shared)


def hinge_of(facet: Facet, other: Facet) -> tuple[Point, Point] | None:
    """The crease that two facets share, on the plane; None where they are not neighbours on the flat
    piece.
    """
    shared = lines(facet.flat.intersection(other.flat))
    if not shared:
        return None
    crease = affine_transform(max(shared, key=lambda s: s.length), facet.to_plane)
    (x0, y0), (x1, y1) = crease.coords[0], crease.coords[-1]
    return (x0, y0), (x1, y1)


def clipped(of: Iterable[Line], box: tuple[float, float, float, float]) -> tuple[Line, ...]:
    """What of some lines lies in a level rectangle."""
    window = shapely.box(*box)
    return tuple(p for line in of for p in points(lines(LineString(line).intersection(window))))


class Barrier:
    """Lines that words keep clear of, made ready to be asked about many places."""

    def __init__(self, of: Iterable[Line]) -> None:
        self._lines = tuple(of)
        self._shape = MultiLineString([line for line in self._lines if len(line) > 1])
        shapely.prepare(self._shape)

    def crosses(self, box: tuple[float, float, float, float]) -> bool:
        """Whether any of the lines runs through a level rectangle."""
        if not self._shape.intersects(shapely.box(*box)):
            return False
        left, top, right, bottom = box
        if self._shape.intersects(shapely.box(left + GRID, top + GRID, right - GRID, bottom - GRID)):
            return True
        return bool(clipped(self._lines, box))  # along a side, or only at a corner


def filled(outline: Sequence[Sequence[Point]]) -> MultiPolygon:
    """The cloth inside closed lines that lie apart."""
    return MultiPolygon([Polygon(ring) for ring in outline])


def touches(shape: Polygon | MultiPolygon, box: tuple[float, float, float, float]) -> bool:
    """Whether a polygon has any area in a level rectangle."""
    return bool(shape.intersection(shapely.box(*box)).area > 1.0)
