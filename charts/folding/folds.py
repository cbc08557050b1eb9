"""The folding of a piece, stage by stage: the kind's own folds or those a pattern gives as data.

A fold is a line on the flat piece, the side that moves, and whether it goes over (valley) or under
(mountain).
"""

from __future__ import annotations

from collections.abc import Sequence

import shapely
from shapely.geometry import LineString

from ..errors import PatternError, Problem
from ..made_late import dataclass, replace
from ..model.sizing.plan import Plan
from ..pattern.file.places import Place
from ..pattern.file.records import Fold, Join
from .facets import FoldBlocked, Point, Stack, carry, fold_part, turned_over
from .kinds import Kind, kind_for
from .limits import closing_problems, limit_problems, refuse
from .piece import Piece, by_sections, flat_piece
from .written_folds import FoldSpec, boundary, join_problems, own_folds, placed, side_moved


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
    def turned(self) -> str:
        """How the piece lies at the start: upright or sideways."""
        return "sideways" if abs(self.start.facets[0].to_plane[0]) < 0.5 else "upright"

    @property
    def foundation_lies(self) -> str:
        """Where the foundation lies at the start: "left", "right", "near" or "far"."""
        facet = self.start.facets[0]
        x, y = carry(facet.to_plane, (self.piece.width_mm / 2, self.piece.height_mm))
        left, top, right, bottom = facet.shape.bounds
        if self.turned == "sideways":
            return "left" if x < (left + right) / 2 else "right"
        return "near" if y > (top + bottom) / 2 else "far"

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
    plan: Plan, *, hand: str = "right", folds: Sequence[Fold] = (), joins: Sequence[Join] = ()
) -> Folding:  # fmt: skip
    """The plan's piece folded by its kind, or by the pattern's own folds; PatternError (kind "fold") if it
    can't be.

    A pattern's own fold lies `at` two parts, or at two points "x, y" measured from the lower left corner
    with the right side up; what `moves` is a part, or "left" or "right" of the line. Its own `joins` are
    checked against how the edges come to lie.
    """
    kind = kind_for(plan)
    piece = flat_piece(plan, kind, hand)
    if folds:
        piece = by_sections(piece, plan)
    refuse((*(() if folds else limit_problems(piece, kind)), *closing_problems(piece, kind, joins)))
    specs = (
        own_folds(piece, folds) if folds else tuple(_by_rule(piece, kind, i) for i in range(len(kind.folds)))
    )
    stack = start = piece.laid(kind.lies, laid_turned(kind, piece))
    stages = []
    for number, spec in enumerate(specs, 1):
        after = _made(piece, stack, spec, number, folds[number - 1].place if folds else None)
        stages.append(Stage(number, spec, stack, after, crease_on(piece, stack, spec)))
        stack = after
    joined = len(specs) if folds else kind.joined
    refuse(join_problems(piece, (stages[joined - 1].after if joined else start, stack), joins))
    return Folding(piece, kind, start, tuple(stages), joined)


#: A flat piece this many times longer than wide is laid on its side, so that its drawing has a useful scale.
LONG = 2.2


def laid_turned(kind: Kind, piece: Piece) -> str:
    """How the piece lies: as its kind says where the rows stack along the strip, else a quarter turn from it.

    A long piece that lies right side up (a scarf) is turned on its side.
    """
    other = "upright" if kind.turned == "sideways" else "sideways"
    turned = kind.turned if piece.axis == "rows" else other
    tall = (piece.height_mm, piece.width_mm) if turned == "upright" else (piece.width_mm, piece.height_mm)
    return other if kind.lies == "RS" and tall[0] > LONG * tall[1] and turned != other else turned


def _by_rule(piece: Piece, kind: Kind, index: int) -> FoldSpec:
    rule = kind.folds[index]
    line = piece.line_at(boundary(piece.part(rule.at[0]), piece.part(rule.at[1])))
    says = _renamed(rule.says, piece)
    return FoldSpec(
        line,
        side_moved(piece, line, piece.part(rule.moves)),
        rule.direction,
        piece.part(rule.moves).name,
        says,
    )


def _renamed(says: str, piece: Piece) -> str:
    """The rule's sentence with the pattern's own section names."""
    for part in sorted(piece.parts, key=lambda p: -len(p.role)):
        says = says.replace(f"the {part.role}", f"the {part.name}")
    return says


def _made(piece: Piece, stack: Stack, spec: FoldSpec, number: int, place: Place | None) -> Stack:
    """The stack folded, its facets named by the part they lie in."""
    try:
        after = fold_part(stack, spec.line, spec.side, spec.direction)
    except FoldBlocked as why:
        says = f"the {spec.moves} cannot be folded {spec.direction}: {why}"
        remedy = "make the folds in another order, or fold the other way"
        raise PatternError([placed(Problem("fold", f"Fold {number}", says, remedy), place)]) from why
    return Stack(tuple(replace(f, part=_part_name(piece, f.flat)) for f in after.facets))


def _part_name(piece: Piece, flat: shapely.Polygon) -> str:
    at = flat.representative_point()
    return piece.part_at(at.x, at.y).name


def crease_on(piece: Piece, stack: Stack, spec: FoldSpec) -> tuple[Point, Point]:
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
