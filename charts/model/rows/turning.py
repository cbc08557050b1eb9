"""What goes on from row to row: which way it is worked, which side faces, in which colour."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from ...errors import Note
from ...made_late import replace
from ...pattern.tree import Act, Chain, Into, Make, Op, RowText, Star, Times, walk
from ...pattern.when_used import when_used
from ..cloth.fabric import Direction
from .working import WorkedPiece, Working


def turned(w: Working, text: RowText, ops: tuple[Op, ...]) -> bool:
    first = next(
        (
            op
            for op in ops
            if isinstance(op, Chain | Make | Into | Star | Times)
            or (isinstance(op, Act) and op.name in ("turn", "do not turn"))
        ),
        None,
    )
    begins_turned = (isinstance(first, Act) and first.name == "turn") or any(
        isinstance(op, Act) and op.name == "turn" and at <= 1 for at, op in enumerate(ops)
    )
    if text.is_round:
        return begins_turned or (bool(w.rows) and w.said_turn) or (w.pattern.turn_rounds and bool(w.rows))
    return begins_turned or w.turn_next


def direction(w: Working, text: RowText, turned: bool) -> int:
    """1 and -1 are the two ways of working; the foundation is made in direction 1."""
    before = w.directions[-1] if w.directions else 1
    if text.is_round and not w.rows:
        return -1 if w.start and w.start.how == "chain" else 1
    return -before if turned else before


def afterwards(w: Working, text: RowText, ops: tuple[Op, ...]) -> None:
    begun = next((at for at, op in enumerate(ops) if isinstance(op, Make | Into | Star | Times)), 0)
    said = [op.name for op in ops[begun + 1 :] if isinstance(op, Act) and op.name in ("turn", "do not turn")]
    w.said_turn = bool(said) and said[-1] == "turn"
    ringed = w.start is not None and "ring" in w.start.how and bool(w.rows) and w.rows[-1].row.joined
    w.turn_next = said[-1] == "turn" if said else not (text.is_round or ringed)  # a "row" that is joined is a round
    for op in walk(ops):
        if isinstance(op, Chain) and op.counts is not None:
            w.explained.setdefault(op.count, set()).add(op.counts)
            if op.throughout:
                w.throughout[op.count] = op.counts


def sides(w: Working) -> None:
    """Right and wrong side of every row: from the row that says it, by turning from there; else row 1 is RS."""
    anchor = next((i for i, row in enumerate(w.rows) if row.side), None)
    base = (
        w.directions[anchor] * (1 if w.rows[anchor].side == "RS" else -1)
        if anchor is not None
        else (w.directions[0] if w.directions else 1)
    )
    for i, row in enumerate(w.rows):
        side = "RS" if w.directions[i] == base else "WS"
        way: Direction = "right-to-left" if side == "RS" else "left-to-right"
        w.rows[i] = replace(row, side=side, direction=way)


def take_colours(w: Working, ops: tuple[Op, ...], text: RowText, number: int) -> None:
    """The colour the row is worked in, and the one it changes to for the next. A row that repeats another with a
    colour of its own does not take that row's colours."""
    own = [op for op in text.ops if isinstance(op, Act) and op.name in ("colour", "yarn", "stripes") and op.text]
    stripes = next((op.text.split(",") for op in own if op.name == "stripes"), None)
    if stripes:
        w.colour = w.next_colour = stripes[max(number - text.first, 0) % len(stripes)]
        return
    if own and ops is not text.ops:
        ops = text.ops
    w.colour = w.next_colour
    begun = False
    for op in walk(ops):
        if isinstance(op, Act) and op.name in ("colour", "yarn") and op.text and op.text != "yarn" and not begun:
            w.colour = w.next_colour = op.text
        elif isinstance(op, Act) and op.name in ("change", "colour", "yarn") and op.text not in ("", "yarn"):
            w.next_colour = op.text
        begun = begun or (isinstance(op, Make) and op.stitch != "sl st")


#: A yarn taken up inside a row whose name the words do not give, with work behind it.
_NO_NAME = when_used(
    r"\b(?:chang|switch)\w*\s+(?:the\s+)?(?:yarns?|colou?rs?)\b(?!\s*(?:to\b|[a-z]\b))|\b(?:yarn|colou?r)\s+change\b"
)
_FURTHER = when_used(r"\b\d+\s?[a-z]|\b(?:in|into)\s+(?:the\s+)?(?:next|last|each|same|rem)")


def changes_unnamed(w: Working, text: RowText, label: str) -> None:
    """A note where the words take another yarn inside a row and do not say which."""
    low = text.text.lower()
    found = _NO_NAME.search(low)
    if found and _FURTHER.search(low[found.end() :]):
        says = "the words change the yarn inside the row and do not name it, so the row is drawn on in the yarn it had"
        w.notes.append(Note(label, says, text.line))


def joins_yarn(w: Working, ops: tuple[Op, ...]) -> bool:
    """Whether a yarn is joined where a row begins. One that has no name can only be where none hangs from the work:
    without that, words that join are those that close the round below."""
    for op in ops:
        if isinstance(op, Act) and op.name == "yarn":
            free = w.rows[-1].cut if w.rows else w.start is not None and w.start.how in ("over", "edge", "rest")
            return free or op.text not in ("", "yarn")
        if isinstance(op, Make | Chain | Into | Star | Times):
            return False
    return False


def cuts_yarn(ops: tuple[Op, ...]) -> bool:
    """Whether the yarn is cut where a row ends, as it says: not where another goes on for it."""
    said = {op.name for op in walk(ops) if isinstance(op, Act)}
    return "fasten off" in said and "change" not in said


#: Words by which the yarn is kept at the end of the work.
_KEPT = when_used(r"\b(?:do not|don'?t|without|never) (?:yet )?(?:fasten|finish|cut|break|end)(?:ing)?\b")


def cut_where_done(pieces: Sequence[WorkedPiece], prose: Sequence[tuple[int, str]]) -> tuple[WorkedPiece, ...]:
    """Pieces of which each finished one is cut off behind its last row, also where the words leave that unsaid (common
    practice, no source). Of rows told together only the last is cut off, but where yarn is joined for each.

    Work goes on where the words say so, where the next piece is begun on this one with the yarn that hangs from it, and
    where rows are told to be repeated as often as one likes.
    """
    following = [*pieces[1:], None]
    return tuple(_cut(piece, after, prose) for piece, after in zip(pieces, following, strict=True))


def _cut(piece: WorkedPiece, after: WorkedPiece | None, prose: Sequence[tuple[int, str]]) -> WorkedPiece:
    rows = list(piece.fabric.rows)
    if not rows:
        return piece
    for at, ((row, text), (above, other)) in enumerate(pairwise(zip(rows, piece.texts, strict=False))):
        if row.cut and text is other and not above.joins:
            rows[at] = replace(row, cut=False)
    if not rows[-1].cut and not _goes_on(piece, after, prose):
        rows[-1] = replace(rows[-1], cut=True)
    return replace(piece, fabric=replace(piece.fabric, rows=tuple(rows))) if rows != list(piece.fabric.rows) else piece


def _goes_on(piece: WorkedPiece, after: WorkedPiece | None, prose: Sequence[tuple[int, str]]) -> bool:
    """Whether more is worked with the yarn that hangs from a piece's last row."""
    last = piece.texts[-1]
    end = after.texts[0].line if after is not None and after.texts else math.inf
    behind = [said for line, said in prose if last.line <= line < end]
    if any(_KEPT.search(said.lower()) for said in (last.text, *behind)) or any(text.at_will for text in piece.texts):
        return True
    begun = after.texts[0].begins if after is not None and after.texts else None
    onto = begun is not None and (begun.how in ("rest", "edge", "tube") or begun.row > 0)
    return onto and after is not None and bool(after.fabric.rows) and not after.fabric.rows[0].joins
