"""Which row a place lies in, where it is not the row below: "of Rnd 1", "3 rows below", "in rnd before last"."""

from __future__ import annotations

from .cursor import Cursor, Unread
from .nouns import read_noun
from .tree import RowRef

_OF = ("of", "on", "in", "from")
_BELOW = ("below", "down", "beneath", "under", "underneath", "lower")
_STRAIGHT = ("directly", "straight", "immediately", "exactly", "right")
_ROWS = ("row", "rnd")
_WHAT_IS_ABOVE = ("next", "the", "this", "that", "current", "same")


def read_row(c: Cursor) -> RowRef | None:
    """The row named here; None, and nothing passed, where none is."""
    keep = c.place
    c.take_any("made", "worked")
    named = _number(c) or _rows_below(c) or _before_last(c)
    if named is None:
        c.place = keep
        _no_number(c)
    return named


def names_row(c: Cursor) -> bool:
    """Whether a row is named here."""
    keep = c.place
    try:
        return read_row(c) is not None
    except Unread:
        return True
    finally:
        c.place = keep


def _number(c: Cursor) -> RowRef | None:
    """ "of Row 1", "in the rnd 2"."""
    keep = c.place
    if c.take_any(*_OF):
        c.skip_any("the")
        if c.word() in _ROWS and c.now(1).kind == "n" and c.word(2) not in _ROWS:
            c.step()
            return RowRef(number=c.step().size)
    c.place = keep
    return None


def _rows_below(c: Cursor) -> RowRef | None:
    """ "3 rows below", "of 3 rows down", "2 rows straight below next st"."""
    keep = c.place
    c.take_any(*_OF)
    c.skip_any("the", "row", *_STRAIGHT)
    token = c.now()
    if token.kind in ("n", "ord") and c.word(1) in _ROWS:
        c.place += 2
        c.skip_any(*_STRAIGHT)
        if c.take_any(*_BELOW):
            if token.size < 2:
                raise Unread(
                    token, f'"{token.word} row below" may be the row just worked, or the one under it',
                    'leave it out for the row just worked, or write "2 rows below" for the one under it', "ambiguous",
                )  # fmt: skip
            _above(c)
            return RowRef(below=token.size)
    c.place = keep
    return None


def _above(c: Cursor) -> None:
    """ "... below next st", "... below the ch-2 sp", "... below current row": what comes next lies there anyway."""
    keep = c.place
    said = c.take_any(*_WHAT_IS_ABOVE)
    if said == "next" and c.now().kind == "n":
        raise Unread(
            c.now(), f'"{c.now().word}" stands behind the row', 'put the number first, as "next 2 sts 3 rows below"'
        )
    c.skip_any("current", "next")
    if c.take_any(*_ROWS):
        return
    if c.now().kind in ("stitch", "sp", "chref") or c.word() in ("st", "ch", "sp", "lp"):
        read_noun(c)
    elif said:
        c.place = keep


def step_over_below(c: Cursor) -> None:
    """ "Skipped st directly below", "skipped sc below ch-1 sp": what was skipped under chains lies there anyway."""
    ahead = 1 if c.word() in _STRAIGHT else 0
    if c.word(ahead) in _BELOW:
        c.place += ahead + 1
        _above(c)


def _before_last(c: Cursor) -> RowRef | None:
    """ "of last rnd", "in row below": the row below, told as None; "in rnd before last"."""
    keep = c.place
    if c.take_any(*_OF):
        c.skip_any("the")
        if c.word() in _ROWS and c.word(1) == "below":
            c.place += 2
            return RowRef(below=1)
        if c.word() in _ROWS and c.word(1) == "before" and c.word(2) in ("last", "prev"):
            c.place += 3
            return RowRef(below=2)
    c.place = keep
    return None


def _no_number(c: Cursor) -> None:
    """ "Of last rnd" is the row below. "Below" alone does not say how far down."""
    if c.word() in _OF and c.word(1) in ("prev", "last") and c.word(2) in _ROWS:
        c.place += 3
        return
    ahead = 1 if c.word() in _STRAIGHT else 0
    if c.word(ahead) in _BELOW and (ahead or c.word() in ("below", "beneath", "underneath")):
        raise Unread(
            c.now(), f'"{c.now(ahead).word}" does not say how many rows further down',
            'write "2 rows below", or name the row, as "of Row 1"', "ambiguous",
        )  # fmt: skip
