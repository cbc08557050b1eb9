"""The folding of a piece, stage by stage: the kind's own folds or those a pattern gives as data.

A fold is a line on the flat piece, the side that moves, and whether it goes over (valley) or under
(mountain).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

import shapely
from shapely.geometry import LineString

from ..errors import PatternError, Problem
from ..measure import parse_length
from ..model.plan import Plan
from .facets import FoldBlocked, Point, Stack, carry, fold_part, side_of, turned_over
from .kinds import Kind, kind_of
from .limits import limit_problems, refuse
from .piece import Part, Piece, flat_piece


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


@dataclass(frozen=True, slots=True)
class Stage:
    """One fold made: before, after, and where its crease lies on the plane."""

    number: int
    spec: FoldSpec
    before: Stack
    after: Stack
    crease: tuple[Point, Point]


@dataclass(frozen=True, slots=True)
class Folding:
    """A piece laid out and folded. `joined` is after how many folds its layers are joined."""

    piece: Piece
    kind: Kind
    start: Stack
    stages: tuple[Stage, ...]
    joined: int

    def after(self, folds: int) -> Stack:
        """The stack after so many folds."""
        return self.stages[folds - 1].after if folds else self.start

    @property
    def end(self) -> Stack:
        return self.after(len(self.stages))

    @property
    def joined_stack(self) -> Stack:
        return self.after(self.joined)

    @property
    def lies_outside_up(self) -> bool:
        """Whether the right side of the base (the largest part that stays) faces the reader."""
        return base(self.joined_stack) == "RS"

    def outside(self, stack: Stack) -> Stack:
        """The stack as seen with the outside facing: turned over where it was folded from the inside."""
        return stack if self.lies_outside_up else turned_over(stack)

    def line_inside(self, line: tuple[Point, Point]) -> LineString:
        """The part of a line of the flat piece that lies on the piece."""
        return _inside(self.piece, line)


def base(stack: Stack) -> str:
    """The side up of the largest facet: the one that the others are folded onto."""
    return max(stack.facets, key=lambda f: f.flat.area).side_up


def folding_of(
    plan: Plan, *, hand: str = "right", folds: Sequence[Mapping[str, Any]] = (), kind: Kind | None = None
) -> Folding:
    """The plan's piece folded by its kind, or by the pattern's own folds; PatternError (kind "fold") if it
    can't be.

    `folds` holds tables as a pattern gives them: `at` (two parts, or two points "x, y" from the lower left
    corner), `moves` (a part, or "left" or "right" of the line), `direction` ("over" or "under") and an
    optional `says`.
    """
    kind = kind or kind_of(plan.kind)
    piece = flat_piece(plan, kind, hand)
    refuse(() if folds else limit_problems(piece, kind))
    specs = _own(piece, folds) if folds else tuple(_by_rule(piece, kind, i) for i in range(len(kind.folds)))
    stack = start = piece.laid(kind.lies, "upright" if piece.axis == "stitches" else kind.turned)
    stages = []
    for number, spec in enumerate(specs, 1):
        after = _made(piece, stack, spec, number)
        stages.append(Stage(number, spec, stack, after, _crease(piece, stack, spec)))
        stack = after
    return Folding(piece, kind, start, tuple(stages), len(specs) if folds else kind.joined)


def _by_rule(piece: Piece, kind: Kind, index: int) -> FoldSpec:
    rule = kind.folds[index]
    line = piece.line_at(_boundary(piece.part(rule.at[0]), piece.part(rule.at[1])))
    says = _renamed(rule.says, piece)
    return FoldSpec(
        line, _side(piece, line, piece.part(rule.moves)), rule.direction, piece.part(rule.moves).name, says
    )


def _renamed(says: str, piece: Piece) -> str:
    """The rule's sentence with the pattern's own section names."""
    for part in sorted(piece.parts, key=lambda p: -len(p.role)):
        says = says.replace(f"the {part.role}", f"the {part.name}")
    return says


def _boundary(a: Part, b: Part) -> float:
    """Where two neighbouring parts meet."""
    return a.hi_mm if abs(a.hi_mm - b.lo_mm) < abs(a.lo_mm - b.hi_mm) else a.lo_mm


def _side(piece: Piece, line: tuple[Point, Point], part: Part) -> str:
    mid = (part.lo_mm + part.hi_mm) / 2
    centre = (
        (piece.width_mm / 2, piece.height_mm - mid) if piece.axis == "rows" else (mid, piece.height_mm / 2)
    )
    return "left" if side_of(line, centre) > 0 else "right"


def _made(piece: Piece, stack: Stack, spec: FoldSpec, number: int) -> Stack:
    """The stack folded, its facets named by the part they lie in."""
    try:
        after = fold_part(stack, spec.line, spec.side, spec.direction)
    except FoldBlocked as why:
        raise PatternError([
            Problem("fold", f"Fold {number}", f"the {spec.moves} cannot be folded {spec.direction}: {why}",
                    "make the folds in another order, or fold the other way")
        ]) from why  # fmt: skip
    return Stack(tuple(replace(f, part=_part_name(piece, f.flat)) for f in after.facets))


def _part_name(piece: Piece, flat: shapely.Polygon) -> str:
    at = flat.representative_point()
    return piece.part_at(at.x, at.y).name


def _crease(piece: Piece, stack: Stack, spec: FoldSpec) -> tuple[Point, Point]:
    """The crease on the plane, from edge to edge of the cloth."""
    line = _inside(piece, spec.line)
    ends = (line.coords[0], line.coords[-1])
    near = min(stack.facets, key=lambda f: f.flat.distance(line.interpolate(0.5, normalized=True)))
    return carry(near.to_plane, (ends[0][0], ends[0][1])), carry(near.to_plane, (ends[1][0], ends[1][1]))


def _inside(piece: Piece, line: tuple[Point, Point]) -> LineString:
    """The longest stretch of a line with cloth on both sides."""
    (x0, y0), (x1, y1) = line
    reach = 4 * (piece.width_mm + piece.height_mm) / max(1e-9, abs(x1 - x0) + abs(y1 - y0))
    long = LineString(
        [(x0 - (x1 - x0) * reach, y0 - (y1 - y0) * reach), (x1 + (x1 - x0) * reach, y1 + (y1 - y0) * reach)]
    )
    crossed = piece.outline.buffer(-0.01).intersection(long)
    parts = [g for g in getattr(crossed, "geoms", [crossed]) if isinstance(g, LineString) and g.length > 0]
    return max(parts, key=lambda g: g.length, default=LineString(line))


def _own(piece: Piece, tables: Sequence[Mapping[str, Any]]) -> tuple[FoldSpec, ...]:
    """A pattern's own folds; every fault at once."""
    specs: list[FoldSpec] = []
    problems: list[Problem] = []
    for number, table in enumerate(tables, 1):
        try:
            specs.append(_own_fold(piece, table))
        except ValueError as why:
            problems.append(Problem("fold", f"Fold {number}", str(why), _HOW))
    if problems:
        raise PatternError(problems)
    return tuple(specs)


_HOW = (
    'write at = ["body", "flap"] (the two parts it lies between) or at = ["0 mm, 80 mm", "200 mm, 80 mm"] '
    "(two points from the lower left corner, right side up), moves = the part that moves, "
    'direction = "over" or "under"'
)


def _own_fold(piece: Piece, table: Mapping[str, Any]) -> FoldSpec:
    unknown = sorted(set(table) - {"at", "moves", "direction", "says"})
    if unknown:
        raise ValueError(f'a fold has no key "{unknown[0]}"')
    at, moves, direction = table.get("at"), table.get("moves", ""), table.get("direction", "over")
    if not (isinstance(at, list | tuple) and len(at) == 2 and all(isinstance(a, str) for a in at)):
        raise ValueError(f'"at" must be two parts or two points, not {at!r}')
    if direction not in ("over", "under"):
        raise ValueError(f'"{direction}" is not a direction: a fold goes over (towards you) or under')
    line = _point_line(piece, at) if any("," in a for a in at) else _part_line(piece, at)
    if moves in ("left", "right"):
        side, name = moves, f"cloth on the {moves} of the line"
    else:
        side, name = _side(piece, line, _named(piece, moves)), moves
    says = (
        table.get("says")
        or f"Fold the {name} {'over, towards you' if direction == 'over' else 'under, away from you'}."
    )
    return FoldSpec(line, side, direction, name, str(says))


def _named(piece: Piece, name: Any) -> Part:
    found = [p for p in piece.parts if name in (p.name, p.role)]
    if not found:
        raise ValueError(f'there is no part "{name}": the piece has {", ".join(p.name for p in piece.parts)}')
    return found[0]


def _part_line(piece: Piece, at: Sequence[str]) -> tuple[Point, Point]:
    a, b = _named(piece, at[0]), _named(piece, at[1])
    if min(abs(a.hi_mm - b.lo_mm), abs(a.lo_mm - b.hi_mm)) > 1e-6 or a == b:
        raise ValueError(f"the {a.name} and the {b.name} do not meet, so no fold line lies between them")
    return piece.line_at(_boundary(a, b))


def _point_line(piece: Piece, at: Sequence[str]) -> tuple[Point, Point]:
    points = []
    for text in at:
        halves = text.split(",")
        if len(halves) != 2:
            raise ValueError(f'"{text}" is not a point')
        x, y = (_coordinate(h) for h in halves)
        points.append((x, piece.height_mm - y))
    if points[0] == points[1]:
        raise ValueError("the fold line begins and ends at one point")
    return points[0], points[1]


def _coordinate(text: str) -> float:
    return parse_length(text).mm
