"""Which edges meet: read off the folded piece, row end for row end and stitch for stitch.

Edges that lie together come from the geometry (edges.py). A pattern's own joins name two edges; they must be
equal in length within `EASE_LIMIT` and lie together once folded.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from shapely.geometry import Point as Spot

from ..errors import Problem
from ..measure import show_length
from .edges import EdgeRun, Interval, intervals
from .facets import Point, Stack, carry
from .folds import Folding
from .piece import Part, Piece

#: How much longer one edge of a join may be than the other: what pinning and easing in can hide. A rule of
#: thumb (common practice, no source); above it a join puckers.
EASE_LIMIT = 0.08


@dataclass(frozen=True, slots=True)
class Join:
    """Edges that lie together over one stretch, the facing layer first; `places` is how many such stretches
    there are.

    `pairs` says which number of the second run each number of the first meets.
    """

    runs: tuple[EdgeRun, ...]
    places: int
    at: tuple[tuple[Point, Point], ...]

    @property
    def pairs(self) -> tuple[tuple[int, int], ...]:
        return paired(self.runs[0], self.runs[1])

    @property
    def length_mm(self) -> float:
        return self.runs[0].length_mm


def joins_of(folding: Folding) -> tuple[Join, ...]:
    """Every doubled stretch of the joined piece's outline; stretches alike on two edges are one join in two
    places.
    """
    found = intervals(folding.piece, folding.outside(folding.joined_stack), clockwise=False)
    groups: dict[tuple[tuple[str, str, int, int], ...], list[Interval]] = {}
    for interval in found:
        if interval.layers > 1:
            groups.setdefault(_signature(interval), []).append(interval)
    return tuple(
        Join(here[0].runs, len(here), tuple((i.start, i.end) for i in here)) for here in groups.values()
    )


def _signature(interval: Interval) -> tuple[tuple[str, str, int, int], ...]:
    """What makes two stretches alike: the same parts, kinds of edge and numbers (tops and chains count as
    one).
    """
    counts = {"chains": "stitches"}
    return tuple((r.part, counts.get(r.counts, r.counts), *r.numbers) for r in interval.runs)


def paired(a: EdgeRun, b: EdgeRun) -> tuple[tuple[int, int], ...]:
    """Number for number in the order in which both are met; where counts differ, the nearest of the other."""
    if not a.count or not b.count:
        return ()
    first, second = _run(a), _run(b)
    return tuple(
        (n, second[min(len(second) - 1, int((k + 0.5) * len(second) / len(first)))])
        for k, n in enumerate(first)
    )


def _run(run: EdgeRun) -> list[int]:
    step = 1 if run.last >= run.first else -1
    return list(range(run.first, run.last + step, step))


def eased(join: Join) -> int:
    """How many more the longest run counts than the shortest."""
    counts = [r.count for r in join.runs]
    return max(counts) - min(counts)


def check_own_joins(folding: Folding, joins: Sequence[Mapping[str, Any]]) -> tuple[Problem, ...]:
    """The problems of a pattern's own joins: tables with `edges`, two of "left", "right", "foundation" or
    "last row" "of" a part (right side up), and an optional `ease` (a fraction).
    """
    found: list[Problem] = []
    for number, table in enumerate(joins, 1):
        try:
            found += _one(folding, table, f"Join {number}")
        except ValueError as why:
            found.append(Problem("fold", f"Join {number}", str(why), _HOW))
    return tuple(found)


_HOW = (
    'write edges = ["left of front", "left of back"]: left, right, foundation or last row, "of", and a part'
)


def _one(folding: Folding, table: Mapping[str, Any], where: str) -> list[Problem]:
    names = table.get("edges")
    if not (isinstance(names, list | tuple) and len(names) == 2 and all(isinstance(n, str) for n in names)):
        raise ValueError(f'"edges" must name two edges, not {names!r}')
    a, b = (_edge(folding.piece, n) for n in names)
    unit, limit = folding.piece.unit, float(table.get("ease", EASE_LIMIT))
    long, short = max(math.dist(*a), math.dist(*b)), min(math.dist(*a), math.dist(*b))
    if long > short * (1 + limit):
        one, other = show_length(math.dist(*a), unit), show_length(math.dist(*b), unit)
        says = (
            f"{names[0]} is {one} and {names[1]} is {other}: "
            f"{(long / short - 1) * 100:.0f} % apart, more than the {limit * 100:.0f} % that easing can hide"
        )
        return [
            Problem("fold", where, says, "add or leave out rows so that both edges are as long as each other")
        ]
    apart = min(_apart(folding.end, a, b), _apart(folding.end, a, (b[1], b[0])))
    if apart > max(3.0, long * limit):
        gap = show_length(apart, unit)
        says = f"{names[0]} and {names[1]} lie {gap} apart when folded, so they cannot be joined"
        return [Problem("fold", where, says, "fold so that the two edges meet, or join edges that do")]
    return []


def _edge(piece: Piece, text: str) -> tuple[Point, Point]:
    """An edge of a part on the flat piece."""
    name, of, part_name = text.partition(" of ")
    part = next((p for p in piece.parts if part_name.strip() in (p.name, p.role)), None)
    if not of or part is None:
        raise ValueError(f'"{text}" names no edge: the parts are {", ".join(p.name for p in piece.parts)}')
    edges = _edges_of(piece, part)
    if name.strip() not in edges:
        raise ValueError(f'"{name.strip()}" is not an edge: write one of {", ".join(edges)}')
    return edges[name.strip()]


def _edges_of(piece: Piece, part: Part) -> dict[str, tuple[Point, Point]]:
    left, right, low, high = 0.0, piece.width_mm, piece.height_mm, 0.0
    if piece.axis == "rows":
        low, high = piece.height_mm - part.lo_mm, piece.height_mm - part.hi_mm
    else:
        left, right = part.lo_mm, part.hi_mm
    return {
        "left": ((left, low), (left, high)), "right": ((right, low), (right, high)),
        "foundation": ((left, low), (right, low)), "last row": ((left, high), (right, high)),
    }  # fmt: skip


def _apart(stack: Stack, a: tuple[Point, Point], b: tuple[Point, Point]) -> float:
    """How far two edges of the flat piece lie from each other when folded, at the worse end."""
    first, second = ([_placed(stack, p, e) for p in e] for e in (a, b))
    return max(math.dist(p, q) for p, q in zip(first, second, strict=True))


def _placed(stack: Stack, p: Point, edge: tuple[Point, Point]) -> Point:
    """Where a point of an edge lies: on the facet that the middle of its edge belongs to."""
    middle = Spot((edge[0][0] + edge[1][0]) / 2, (edge[0][1] + edge[1][1]) / 2)
    facet = min(stack.facets, key=lambda f: f.flat.distance(middle))
    return carry(facet.to_plane, p)
