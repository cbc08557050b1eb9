"""A pattern file worked through, and what every sheet says of it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace

from ..errors import PatternError, Problem
from ..folding.border import BorderPlan
from ..folding.folds import Folding
from ..measure import show_length
from ..model.cloth.fabric import Fabric
from ..model.sections.read import Read
from ..model.sizing.plan import Plan
from ..pattern.file.records import Pattern
from ..pattern.tree import WrittenPattern
from ..setting import Heading, Setting


@dataclass(frozen=True, slots=True)
class Piece:
    """A pattern file worked through: what it says, its plan, its rows in words and worked, its folding and border."""

    pattern: Pattern
    read: Read
    plan: Plan
    rows: WrittenPattern
    fabric: Fabric
    folding: Folding
    border: BorderPlan | None


@contextmanager
def placed_in(pattern: Pattern) -> Iterator[None]:
    """What cannot be folded or bordered is told at the section it names, else where the object is said."""
    try:
        yield
    except PatternError as found:
        raise PatternError([p if p.line else _placed(p, pattern) for p in found.problems]) from None


def _placed(problem: Problem, pattern: Pattern) -> Problem:
    named = [s for s in pattern.sections if re.search(rf"\b{re.escape(s.name)}\b", problem.says)]
    first = min(named, key=lambda s: problem.says.index(s.name), default=None)
    place = first.place if first else pattern.object.place
    return replace(
        problem, line=place.line, column=place.column, text=place.text, length=place.length, file=pattern.file
    )


def heading_of(piece: Piece, setting: Setting) -> Heading:
    """What every sheet says of the piece."""
    pattern, plan = piece.pattern, piece.plan
    flat = plan.with_border_mm
    size_words = f"{show_length(flat['across'], plan.unit)} x {show_length(flat['up'], plan.unit)} flat"
    if piece.folding.stages:
        folded = " x ".join(show_length(mm, plan.unit) for mm in _folded_mm(piece))
        size_words = f"{folded} folded; {size_words}"
    return Heading(
        pattern.title,
        pattern.author,
        pattern.licence,
        size_words,
        pattern.gauge.words(),
        pattern.hook,
        setting.terms,
    )


def _folded_mm(piece: Piece) -> tuple[float, ...]:
    """The size folded: as planned; of a pattern's own folds, what they leave, with the border where there is one."""
    if not piece.pattern.folds:
        return tuple(piece.plan.folded_mm.values())
    bounds = [facet.shape.bounds for facet in piece.folding.end.facets]
    left, top = min(b[0] for b in bounds), min(b[1] for b in bounds)
    right, bottom = max(b[2] for b in bounds), max(b[3] for b in bounds)
    flat, bordered = piece.plan.finished_mm["across"], piece.plan.with_border_mm["across"]
    return right - left + bordered - flat, bottom - top + bordered - flat
