"""What goes on the pages for a browser: a written pattern as worked, a piece in either hand, a piece to be fitted."""

from __future__ import annotations

from ...errors import PatternError, Problem
from ...folding.border import BorderPlan
from ...folding.folds import Folding, folding_of
from ...layout.sheets.chart_setting import all_drawable_or_raise
from ...model.sizing.plan import Plan
from ...setting import Hand, Setting
from ..booklet.own_words import titled
from ..piece import Piece, bordered, placed_in
from ..written import all_of_text
from .fit_page import fit_page
from .follow import follow_piece, follow_written


def followed_text(text: str, name: str, setting: Setting) -> bytes:
    """The page of a written pattern; PatternError where it cannot be worked or has no rows."""
    worked = all_of_text(text, name)
    if not any(piece.fabric.rows for piece in worked.pieces):
        remedy = 'give its rows, each on a line of its own, as "Row 1: Sc in each st across."'
        raise PatternError([Problem("missing", "Row 1", "there are no rows to follow", remedy, 1, file=name)])
    for piece in worked.pieces:
        all_drawable_or_raise(piece.fabric)
    return follow_written(worked, titled(text, worked, name), setting)


def fitted_piece(piece: Piece, setting: Setting) -> bytes:
    """The page on which a reader fits a piece to her own object and gauge; NotTold where none can be."""

    def edged(plan: Plan) -> tuple[Folding, BorderPlan | None]:
        folding = folding_of(plan, hand=setting.hand)
        return folding, bordered(piece.pattern, plan, folding, setting.hand)

    return fit_page(piece, setting, edged)


def followed_piece(piece: Piece, setting: Setting) -> bytes:
    """The page of a piece, its finishing told for both hands."""
    other: Hand = "right" if setting.hand == "left" else "left"
    with placed_in(piece.pattern):
        turned = folding_of(piece.plan, hand=other, folds=piece.pattern.folds, joins=piece.pattern.joins)
        border = bordered(piece.pattern, piece.plan, turned, other)
    return follow_piece(piece, setting, {setting.hand: (piece.folding, piece.border), other: (turned, border)})
