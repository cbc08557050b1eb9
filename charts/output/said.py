"""The words of a piece: its rows to work from, its yarn, its sizes."""

from __future__ import annotations

from ..errors import PatternError
from ..folding.finishing import finishing_texts
from ..folding.joins import edges_of
from ..model.sections.colour_turns import colours_within
from ..model.sizing.fit import fit_says, made_says
from ..model.sizing.yarn import YarnReport, yarn_report
from ..setting import Setting
from . import words
from .booklet.sized import sized_words
from .piece import Piece, heading_of
from .size_words import pieces_of_sizes, size_words, sized_plans
from .yarn_words import yarn_words


def piece_words(piece: Piece, setting: Setting) -> str:
    """The written pattern of a piece, from its materials to its finishing."""
    heading = heading_of(piece, setting)
    finishing = finishing_texts(piece.plan, piece.border, terms=setting.terms, folding=piece.folding)
    return words.instructions(
        piece.pattern, piece.rows, piece.fabric, setting.terms, setting.hand, heading.facts(setting),
        (*fit_says(piece.plan, piece.pattern), *made_says(piece.plan, piece.pattern)), finishing, piece.plan.estimates,
    )  # fmt: skip


def piece_yarn(piece: Piece) -> str:
    """The yarn of each colour in words, with what was assumed."""
    return yarn_words(piece.pattern, yarn_of_piece(piece))


def yarn_of_piece(piece: Piece) -> YarnReport:
    """What a worked piece takes of each colour, its joins and its border with it."""
    rows = [row.row.kinds() for row in piece.fabric.rows]
    within = [colours_within(row, piece.pattern) for row in piece.rows.rows]
    edges = edges_of(piece.folding, piece.border)
    return yarn_report(piece.plan, piece.pattern, rows, edges=edges, within=within)


def all_sizes(piece: Piece, setting: Setting) -> str:
    """The table of all sizes and, of several, the words for all in one; PatternError where one cannot be made."""
    plans, problems = sized_plans(piece.pattern, piece.read)
    if problems:
        raise PatternError(problems)
    table = size_words(piece.pattern, plans)
    pieces = pieces_of_sizes(piece, setting.hand)
    return "\n".join([table, *sized_words(pieces, setting)]) if len(pieces) > 1 else table
