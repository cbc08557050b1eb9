"""How long the edges are that take yarn beside the rows: what the border goes round, and what is sewn."""

from __future__ import annotations

from ..model.sizing.yarn import Edges
from .border import BorderPlan
from .folds import Folding
from .joins import joins_of


def edges_of(folding: Folding, border: BorderPlan | None) -> Edges:
    """The border's way round, and the seams where no border joins the layers."""
    round_mm = sum(stretch.length_mm for stretch in border.stretches) if border else 0.0
    if not folding.stages or (border is not None and border.joins):
        return Edges(round_mm)
    joins = joins_of(folding)
    return Edges(round_mm, sum(join.length_mm * join.places for join in joins), sum(join.places for join in joins))
