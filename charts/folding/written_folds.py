"""A pattern's own folds and joins: read, checked against the piece, every fault at once.

A fold lies between two parts or through two points; a join names two edges, as "left of front" or "last row
of flap" (right side up). Joined edges must be equal in length within `EASE_LIMIT` and lie together once
folded.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from shapely.geometry import Point as Spot

from ..errors import PatternError, Problem
from ..made_late import dataclass, replace
from ..measure import parse_length, show_length
from ..pattern.file.places import Place
from ..pattern.file.records import Fold, Join
from .facets import Point, Stack, carry, side_of
from .piece import Part, Piece

#: How much longer one edge of a join may be than the other: what pinning and easing in can hide. A rule of
#: thumb (common practice, no source); above it a join puckers.
EASE_LIMIT = 0.08
EDGES = ("left", "right", "foundation", "last row")
_FOLD_HOW = (
    'write at = ["body", "flap"] (the two parts it lies between) or at = ["0 mm, 80 mm", "200 mm, 80 mm"] '
    "(two points from the lower left corner, right side up), moves = the part that moves, and "
    'direction = "over" or "under"'
)
_JOIN_HOW = f'write two edges, as "left of front": {", ".join(EDGES)}, then "of", then a part'


@dataclass(frozen=True, slots=True)
class FoldSpec:
    """A fold to make: the line on the flat piece, the side of it that moves ("left" or "right" of its way),
    how.
    """

    line: tuple[Point, Point]
    side: str
    direction: str
    moves: str
    says: str


def own_folds(piece: Piece, folds: Sequence[Fold]) -> tuple[FoldSpec, ...]:
    """A pattern's own folds; PatternError with every fault."""
    specs: list[FoldSpec] = []
    problems: list[Problem] = []
    for number, fold in enumerate(folds, 1):
        try:
            specs.append(_own_fold(piece, fold))
        except ValueError as why:
            problems.append(placed(Problem("fold", f"Fold {number}", str(why), _FOLD_HOW), fold.place))
    if problems:
        raise PatternError(problems)
    return tuple(specs)


def placed(problem: Problem, place: Place | None) -> Problem:
    """The problem at its place in the file, where it has one."""
    if place is None or not place.line:
        return problem
    return replace(problem, line=place.line, column=place.column, text=place.text, length=place.length)


def boundary(a: Part, b: Part) -> float:
    """Where two neighbouring parts meet."""
    return a.hi_mm if abs(a.hi_mm - b.lo_mm) < abs(a.lo_mm - b.hi_mm) else a.lo_mm


def side_moved(piece: Piece, line: tuple[Point, Point], part: Part) -> str:
    """The side of a line that a part lies on."""
    mid = (part.lo_mm + part.hi_mm) / 2
    centre = (
        (piece.width_mm / 2, piece.height_mm - mid) if piece.axis == "rows" else (mid, piece.height_mm / 2)
    )
    return "left" if side_of(line, centre) > 0 else "right"


def _own_fold(piece: Piece, fold: Fold) -> FoldSpec:
    if len(fold.at) != 2:
        raise ValueError(f'"at" must be two parts or two points, and it has {len(fold.at)}')
    if fold.direction not in ("over", "under"):
        raise ValueError(f'"{fold.direction}" is not a direction: a fold goes over (towards you) or under')
    line = _point_line(piece, fold.at) if any("," in a for a in fold.at) else _part_line(piece, fold.at)
    if fold.moves in ("left", "right"):
        side, name = fold.moves, f"cloth on the {fold.moves} of the line"
    else:
        side, name = side_moved(piece, line, _named(piece, fold.moves)), fold.moves
    way = "over, towards you" if fold.direction == "over" else "under, away from you"
    return FoldSpec(line, side, fold.direction, name, fold.says or f"Fold the {name} {way}.")


def _named(piece: Piece, name: str) -> Part:
    found = [p for p in piece.parts if name in (p.name, p.role)]
    if not found:
        raise ValueError(f'there is no part "{name}": the piece has {", ".join(p.name for p in piece.parts)}')
    return found[0]


def _part_line(piece: Piece, at: Sequence[str]) -> tuple[Point, Point]:
    a, b = _named(piece, at[0]), _named(piece, at[1])
    if a == b or min(abs(a.hi_mm - b.lo_mm), abs(a.lo_mm - b.hi_mm)) > 1e-6:
        raise ValueError(f"the {a.name} and the {b.name} do not meet, so no fold line lies between them")
    return piece.line_at(boundary(a, b))


def _point_line(piece: Piece, at: Sequence[str]) -> tuple[Point, Point]:
    points = []
    for text in at:
        halves = text.split(",")
        if len(halves) != 2:
            raise ValueError(f'"{text}" is not a point')
        x, y = (parse_length(h).mm for h in halves)
        points.append((x, piece.height_mm - y))
    if math.dist(points[0], points[1]) < 1.0:
        raise ValueError("the fold line begins and ends at one point")
    return points[0], points[1]


def join_problems(piece: Piece, folded: tuple[Stack, Stack], joins: Sequence[Join]) -> tuple[Problem, ...]:
    """What is wrong with a pattern's own joins; `folded` is the piece as its layers are joined, and when every fold is
    made."""
    found: list[Problem] = []
    for number, join in enumerate(joins, 1):
        where = f"Join {number}" + (f" ({join.name})" if join.name else "")
        try:
            found += [placed(p, join.place) for p in _join(piece, folded, join, where)]
        except ValueError as why:
            found.append(placed(Problem("fold", where, str(why), _JOIN_HOW), join.place))
    return tuple(found)


def _join(piece: Piece, folded: tuple[Stack, Stack], join: Join, where: str) -> list[Problem]:
    a, b = edge_of(piece, join.first), edge_of(piece, join.second)
    one, other = math.dist(*a), math.dist(*b)
    if max(one, other) > min(one, other) * (1 + EASE_LIMIT):
        says = (
            f"{join.first} is {show_length(one, piece.unit)} and "
            f"{join.second} is {show_length(other, piece.unit)}: "
            f"{(max(one, other) / min(one, other) - 1) * 100:.0f} % apart, and easing can hide "
            f"{EASE_LIMIT * 100:.0f} %"
        )
        return [
            Problem("fold", where, says, "add or leave out rows until both edges are as long as each other")
        ]
    near = max(3.0, max(one, other) * EASE_LIMIT)
    apart, later = (min(_apart(stack, a, b), _apart(stack, a, (b[1], b[0]))) for stack in folded)
    if apart > near >= later:
        says = f"{join.first} and {join.second} meet only when the last fold is made, which closes over what is joined"
        return [Problem("fold", where, says, "take this join out; a button or a tie holds what closes")]
    if apart > near:
        gap = show_length(apart, piece.unit)
        says = f"{join.first} and {join.second} lie {gap} apart when folded, so they cannot be joined"
        return [Problem("fold", where, says, "fold so that the two edges meet, or join edges that do")]
    return []


def edge_of(piece: Piece, text: str) -> tuple[Point, Point]:
    """An edge of a part on the flat piece, from words like "left of front"."""
    name, of, part_name = text.partition(" of ")
    if not of:
        raise ValueError(f'"{text}" names no edge')
    edges = _edges_of(piece, _named(piece, part_name.strip()))
    if name.strip() not in edges:
        raise ValueError(f'"{name.strip()}" is not an edge')
    return edges[name.strip()]


def _edges_of(piece: Piece, part: Part) -> dict[str, tuple[Point, Point]]:
    left, right, low, high = 0.0, piece.width_mm, piece.height_mm, 0.0
    if piece.axis == "rows":
        low, high = piece.height_mm - part.lo_mm, piece.height_mm - part.hi_mm
    else:
        left, right = part.lo_mm, part.hi_mm
    ends = (
        ((left, low), (left, high)), ((right, low), (right, high)),
        ((left, low), (right, low)), ((left, high), (right, high)),
    )  # fmt: skip
    return dict(zip(EDGES, ends, strict=True))


def _apart(stack: Stack, a: tuple[Point, Point], b: tuple[Point, Point]) -> float:
    """How far two edges of the flat piece lie from each other when folded, at the worse end."""
    first, second = ([_carried(stack, p, e) for p in e] for e in (a, b))
    return max(math.dist(p, q) for p, q in zip(first, second, strict=True))


def _carried(stack: Stack, p: Point, edge: tuple[Point, Point]) -> Point:
    """Where a point of an edge lies: on the facet that the middle of its edge belongs to."""
    middle = Spot((edge[0][0] + edge[1][0]) / 2, (edge[0][1] + edge[1][1]) / 2)
    facet = min(stack.facets, key=lambda f: f.flat.distance(middle))
    return carry(facet.to_plane, p)
