"""A pattern as a technical editor reads it, and as its testers get it."""

from __future__ import annotations

from ...model.rows.work import work_text
from ...setting import Setting
from ..checking.report import Report
from ..piece import Piece
from ..said import yarn_of_piece
from ..size_words import pieces_of_sizes
from .point import Point
from .points import points_of
from .tester import tester_sheet
from .written import points_of_written


def reviewed_text(text: str, checked: Report) -> tuple[Point, ...]:
    """The points of a written pattern, of which the check has said what is wrong."""
    return points_of_written(work_text(text), checked, text)


def reviewed_piece(piece: Piece, checked: Report, setting: Setting) -> tuple[Point, ...]:
    """The points of a pattern file's piece in all its sizes."""
    return points_of(piece, checked, pieces_of_sizes(piece, setting.hand), yarn_of_piece(piece), setting)


def tested_piece(piece: Piece, hand: str) -> str:
    """The sheet for those who try a piece, in all its sizes, before it is published."""
    sizes = pieces_of_sizes(piece, hand)
    every = sizes if len(sizes) > 1 else {"": piece}
    return tester_sheet({name: (one, yarn_of_piece(one)) for name, one in every.items()})
