"""How a piece is held while its border is worked, and which of its edges get none."""

from __future__ import annotations

from collections.abc import Sequence

from ...pattern.file.kinds import OBJECT_KINDS
from ..facets import Point, Stack, carry, seen
from ..folds import Folding
from ..stretch import Stretch
from ..views import by_parts

#: Nearer than this (mm) two middles lie on each other.
_SAME_MM = 1.0


def held_words(folding: Folding, stack: Stack) -> str:
    """What faces the hands, and what lies where, of a stack with the outside facing: "the outside of the back facing,
    the flap at the top"."""
    looks = [look for look in seen(by_parts(stack, folding.piece)) if look.area]
    if not folding.stages or len({look.facet.part for look in looks if look.facet.part}) == 0:
        return f"the right side facing, {_foundation_at(folding, stack)}"
    main = max(looks, key=lambda look: sum(area.area for area in look.area))
    middle = _middle(main.facet.shape)
    hidden = ""
    others = {look.facet.part: _middle(look.facet.shape) for look in looks if look.facet.part != main.facet.part}
    if not others:
        every = {f.part: _middle(f.shape) for f in by_parts(stack, folding.piece).facets if f.part}
        others = {name: at for name, at in every.items() if name == folding.piece.parts[0].name}
        hidden = " (folded in)"
    told = [f"the {name}{hidden} {where}" for name, at in others.items() if (where := _lies(middle, at))]
    told = told or _fold_at(folding, stack)
    says = f"the outside of the {main.facet.part} facing"
    if not OBJECT_KINDS[folding.kind.name].holds:  # what holds nothing has no outside
        says = f"the {'wrong' if main.facet.side_up == 'WS' else 'right'} side of the {main.facet.part} facing you"
    return f"{says}, {told[0]}" if told else says


def _middle(shape: object) -> Point:
    at = shape.centroid  # type: ignore[attr-defined]
    return at.x, at.y


def _lies(middle: Point, at: Point) -> str:
    """Where one place lies from another, as seen: "at the top"; "" where they lie on each other."""
    dx, dy = at[0] - middle[0], at[1] - middle[1]
    if max(abs(dx), abs(dy)) < _SAME_MM:
        return ""
    if abs(dx) > abs(dy):
        return "at the right" if dx > 0 else "at the left"
    return "at the foot" if dy > 0 else "at the top"


def _fold_at(folding: Folding, stack: Stack) -> list[str]:
    """Where the fold lies of a piece of two parts that lie whole on each other; [] of any other."""
    piece, facet = folding.piece, stack.facets[0]
    if piece.axis != "rows" or len(piece.parts) != 2:
        return []
    at = carry(facet.to_plane, (piece.width_mm / 2, piece.height_mm - piece.parts[0].length_mm))
    where = _lies(_middle(facet.shape), at)
    return [f"the fold {where}"] if where else []


def _foundation_at(folding: Folding, stack: Stack) -> str:
    piece, facet = folding.piece, stack.facets[0]
    where = _lies(_middle(facet.shape), carry(facet.to_plane, (piece.width_mm / 2, piece.height_mm)))
    return f"the foundation {where}"


def left_bare(folding: Folding, stretches: Sequence[Stretch]) -> tuple[str, ...]:
    """The edges of the opening that no stretch of the border runs along, in words."""
    names = {part.role: part.name for part in folding.piece.parts}
    ends = {"foundation": folding.piece.parts[0].role, "last row": folding.piece.parts[-1].role}
    bordered = {(run.edge, run.part) for stretch in stretches for run in stretch.runs}
    said = []
    for text in folding.kind.open:
        edge, _, role = text.partition(" of ")
        if ends.get(edge) == role and (edge, names[role]) not in bordered:
            said.append(f"the {edge} of the {names[role]}")
    return tuple(said)
