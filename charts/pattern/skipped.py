"""Places that were skipped, in this row or an earlier one: "next 2 skipped sc 3 rows below", "2nd skipped st"."""

from __future__ import annotations

from .cursor import Cursor, Unread
from .lex import Token
from .nouns import read_noun
from .reach import amount_of
from .rowrefs import names_row, read_row, step_over_below
from .tree import Noun, Place, RowRef

_WORDS = ("skipped", "missed")
_ENDS = (",", ";", ".", "and", "(", ")", "[", "]", "*", "**")


def skipped_ahead(c: Cursor, ahead: int = 0) -> bool:
    """Whether what follows is called skipped: "skipped sc", "sk sc"; "sk next sc" and "sk 2 sc" are words of their own.
    "Unworked" is the same where an earlier row is named."""
    word, following = c.word(ahead), c.now(ahead + 1)
    if word in _WORDS:
        return True
    if word == "sk":
        return following.kind in ("stitch", "sp") or following.value in ("st", "ch")
    return word == "unworked" and _unworked_before(c, ahead)


def _unworked_before(c: Cursor, ahead: int) -> bool:
    keep = c.place
    c.place += ahead
    read_noun(c)
    found = names_row(c)
    c.place = keep
    return found


def numbered_ahead(c: Cursor) -> bool:
    """Whether a bare number begins a place: "2 skipped sc", "2 FPdc 2 rows below"."""
    if c.now().kind != "n":
        return False
    there = c.now(1).kind == "stitch" or c.word(1) == "st"
    return skipped_ahead(c, 1) or (there and c.now(2).kind == "n" and c.word(3) in ("row", "rnd"))


def read_bare(c: Cursor) -> Place | None:
    """ "Skipped st", "both skipped sc", "corresponding sts" with nothing before; None where none stands here."""
    if c.word() == "corresponding":
        return read_corresponding(c)
    if c.word() == "both" and skipped_ahead(c, 1):
        c.step()
        return read_skipped(c, "next", 2)
    return read_skipped(c) if skipped_ahead(c) or c.word() == "sk" else None


def refuse_behind(c: Cursor) -> None:
    """ "Sts skipped in Row 2" are not stitches of Row 2: the words do not say in which row they lie."""
    if c.word() in _WORDS or (c.now().word == "left" and c.word(1) == "unworked"):
        says = f'"{c.now().word}" behind the stitches does not say in which row they lie'
        raise Unread(c.now(), says, 'write "in next 2 skipped sts 3 rows below"', "ambiguous")


def read_skipped(c: Cursor, which: str = "", count: int = 1, nth: int = 0) -> Place:
    """A skipped place, from the word "skipped" on; `which`, `count` and `nth` are what stands before it.

    With nothing before it one "st" is one; a stitch by its kind, which is written alike for one and several, is all
    that are there.
    """
    c.step()
    if c.now().kind == "n" and not which:
        which, count = "next", amount_of(c, c.step())
    noun_token = c.now()
    noun = read_noun(c)
    if c.take_any("at"):
        c.until(*_ENDS)
        return Place("opening", noun)
    row = None if nth else _row(c)
    if nth or (which == "first" and count == 1 and row is None):
        return Place("skipped", noun, nth=nth or 1, row=row)
    if which == "each" or (not which and _all_of(noun_token, noun)):
        return Place("unworked", noun, 0, row=row)
    if row is not None or which in ("next", "first"):
        return Place("unworked", noun, count, row=row)
    return Place("skipped", noun)


def _row(c: Cursor) -> RowRef | None:
    """The row it lies in; what was skipped under chains needs none."""
    try:
        row = read_row(c)
    except Unread as complaint:
        if complaint.token.word in ("below", "beneath", "underneath") or complaint.token.kind == "word":
            step_over_below(c)
            return None
        raise
    if row is not None:
        step_over_below(c)
    return row


def _all_of(token: Token, noun: Noun) -> bool:
    """Whether a noun without a number may mean several."""
    return token.word.endswith("s") or noun.name not in ("st", "ch")


def read_corresponding(c: Cursor, count: int = 0) -> Place:
    """ "Corresponding sts 3 rows below": straight below, as many as the chains at hand span unless a number is said."""
    c.step()
    if c.now().kind == "n":
        count = amount_of(c, c.step())
    several = c.now().word.endswith("s")
    noun = read_noun(c)
    row = read_row(c)
    if not count and several:
        return Place("unworked", noun, 0, row=row)
    return Place("next", noun, count or 1, row=row)
