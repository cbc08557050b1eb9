"""A written pattern worked for drawing and writing out: only what is proved."""

from __future__ import annotations

from ..errors import PatternError, Problem
from ..made_late import replace
from ..model.rows.work import work_text
from ..model.rows.working import Worked, WorkedPiece
from ..pattern.text_kind import misnamed


def worked_text(text: str, name: str) -> Worked:
    """A written pattern worked, as far as it is proved; PatternError with every problem, or where nothing is."""
    worked = all_of_text(text, name)
    _drop_unproved(worked, name)
    return worked


def all_of_text(text: str, name: str) -> Worked:
    """A written pattern worked, its unproved rows too; PatternError with every problem found."""
    wrong = misnamed(text, name)
    if wrong is not None:
        raise PatternError([wrong])
    worked = work_text(text)
    if worked.problems:
        raise PatternError([p.in_file(name) for p in worked.problems])
    return worked


def _drop_unproved(worked: Worked, name: str) -> None:
    """Draw the rows as far as they are proved: of a row whose stitches are not told there is nothing to draw."""
    proved = [_proved_rows(piece) for piece in worked.pieces]
    if worked.fabric.start == "edge" or not proved or not proved[0]:
        says = "what the first row is worked on is not given, so there is nothing to draw"
        remedy = 'say what it begins with, as "Ch 26." or "Over 20 sts."'
        raise PatternError([Problem("missing", "Foundation", says, remedy, 1, file=name)])
    several = len(worked.pieces) > 1
    worked.left_out = tuple(
        f"{_called(piece, number) if several else ''}{piece.texts[rows].label} and what follows it could not be proved "
        f"and is left out{_why(piece)}."
        for number, (piece, rows) in enumerate(zip(worked.pieces, proved, strict=True), 1)
        if rows < len(piece.texts)
    )
    worked.pieces = tuple(_first_rows(piece, rows) for piece, rows in zip(worked.pieces, proved, strict=True) if rows)
    worked.fabric, worked.texts = worked.pieces[0].fabric, list(worked.pieces[0].texts)


def _called(piece: WorkedPiece, number: int) -> str:
    return f"{name_of(piece, number)}: "


def _why(piece: WorkedPiece) -> str:
    return f", as {piece.unchecked}" if piece.unchecked else ""


def name_of(piece: WorkedPiece, number: int) -> str:
    """What a piece of a written pattern is called: by its head, or by its number, from 1."""
    return piece.name or f"Piece {number}"


def not_drawn(worked: Worked) -> tuple[str, ...]:
    """What a chart of the first piece says of what it does not show: rows that nothing proved, and the other pieces."""
    first, *others = [name_of(piece, number) for number, piece in enumerate(worked.pieces, 1)]
    if not others:
        return worked.left_out
    return (*worked.left_out, f"{first} is drawn here; not drawn are the other pieces: {', '.join(others)}.")


def _proved_rows(piece: WorkedPiece) -> int:
    """How many rows of a piece are proved, from the first on; 0 of one that is worked on what is not given."""
    if piece.fabric.start == "edge":
        return 0
    proved = (n for n, how in enumerate(piece.proved) if how != "yes")
    return min(next(proved, len(piece.proved)), len(piece.fabric.rows))


def _first_rows(piece: WorkedPiece, rows: int) -> WorkedPiece:
    fabric = replace(piece.fabric, rows=piece.fabric.rows[:rows])
    return replace(piece, fabric=fabric, texts=piece.texts[:rows], proved=piece.proved[:rows])


def title_of(name: str) -> str:
    """What a written pattern is called: its file's name in words.

    >>> title_of("patterns/fan_edge-2.txt")
    'Fan edge 2'
    """
    title = name.rsplit("/", 1)[-1].rsplit(".", 1)[0].replace("-", " ").replace("_", " ").strip() or "Stitch chart"
    return title[:1].upper() + title[1:]
