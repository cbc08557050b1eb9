"""A pattern file worked through, and what every sheet says of it."""

from __future__ import annotations

from dataclasses import dataclass

from ..folding.border import BorderPlan
from ..folding.folds import Folding
from ..layout.sheet import Heading, Setting
from ..measure import show_length
from ..model.grid import Fabric
from ..model.plan import Plan
from ..model.sections import Read
from ..pattern.records import Pattern
from ..pattern.tree import WrittenPattern


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


def heading_of(piece: Piece, setting: Setting) -> Heading:
    """What every sheet says of the piece."""
    pattern, plan = piece.pattern, piece.plan
    flat = plan.with_border_mm
    size_words = f"{show_length(flat['across'], plan.unit)} x {show_length(flat['up'], plan.unit)} flat"
    if piece.folding.stages:
        folded = " x ".join(show_length(mm, plan.unit) for mm in plan.folded_mm.values())
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
