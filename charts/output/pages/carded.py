"""What a gallery shows of a piece, of a written pattern, and of one that cannot be worked."""

from __future__ import annotations

from ...errors import PatternError
from ...model.rows.work import work_text
from ...setting import Setting
from ..piece import Piece
from ..written import title_of, worked_text
from .gallery import Card, card_of_piece, card_of_written


def piece_card(piece: Piece) -> Card:
    """The card of a piece, in the terms of its pattern."""
    return card_of_piece(piece, Setting(terms="UK" if piece.pattern.terms == "UK" else "US"))


def text_card(text: str, name: str) -> Card | None:
    """The card of a written pattern; None where it gives no rows. PatternError where it cannot be worked."""
    if not any(piece.fabric.rows for piece in work_text(text).pieces):
        return None
    return card_of_written(worked_text(text, name), title_of(name))


def faults_card(found: PatternError, name: str) -> Card:
    """The card of a pattern that cannot be worked: how many problems it has, and the first."""
    count = len(found.problems)
    counted = "1 problem" if count == 1 else f"{count} problems, the first"
    return Card(title_of(name), wrong=f"{counted}: {found.problems[0].says}")
