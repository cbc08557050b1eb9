"""What stays open: the edges that the object goes in by lie on each other and are never joined."""

from __future__ import annotations

from collections.abc import Sequence

from ..errors import PatternError, Problem
from ..made_late import replace
from .edges import Interval, intervals
from .facets import Stack
from .folds import Folding

#: Less cloth edge than this (mm) is no opening.
NARROW = 5.0


def outline_of(folding: Folding, stack: Stack, *, clockwise: bool) -> tuple[Interval, ...]:
    """The outline's stretches in order, each told whether it is the mouth."""
    found = intervals(folding.piece, stack, clockwise=clockwise)
    return tuple(replace(i, mouth=_open(folding, i)) for i in found)


def _open(folding: Folding, interval: Interval) -> bool:
    """Whether two edges that the kind leaves open lie together there."""
    piece = folding.piece
    named = {(role, edge) for edge, _, role in (text.partition(" of ") for text in folding.kind.open)}
    roles = {p.name: p.role for p in piece.parts}
    here = {(roles.get(run.part, ""), run.edge) for run in interval.runs}
    return len(here & named) > 1


def refuse_closed(folding: Folding, found: Sequence[Interval]) -> None:
    """A border that would close every edge leaves no way in; PatternError says so."""
    outline = folding.piece.outline.length
    closed_mm = sum(i.length_mm * _cloth(i) for i in found if i.layers > 1)
    if folding.stages and outline - closed_mm < NARROW:
        says = "folded so, the border joins every edge, and nothing could go in"
        remedy = "fold so that one edge lies open, or write joins = false and sew the edges that are to be closed"
        raise PatternError([Problem("fold", "Border", says, remedy)])


def _cloth(interval: Interval) -> int:
    """How many edges of the cloth lie there: a fold is none."""
    return sum(run.edge != "fold" for run in interval.runs)

