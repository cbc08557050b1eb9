"""Rows worked as other rows: "Rep Rows 2 and 3", "As Row 3", "continue as established"."""

from __future__ import annotations

from typing import TYPE_CHECKING

from . import prose
from .amounts import amount
from .cursor import Unread
from .lex import Token
from .tree import Again, Op

if TYPE_CHECKING:
    from .clauses import Clauses


def rep_rows(r: Clauses) -> Op | None:
    """ "Rep Row 2", "Rep Rows 2 and 3 twice"; a bare "rep from *" here has lost its star."""
    c = r.c
    token = c.step()
    if c.word() in ("from", "*", "**", "between"):
        if c.take("from", "beg") or c.take("from", "beginning"):
            return None
        c.until(",", ";", ".")
        raise Unread(token, '"rep from *" but no * stands before it in this row', "put * where the repeat begins")
    if c.word() in ("row", "rnd"):
        return read_again(r, token)
    if c.now().kind == "n" and c.word(1) in ("row", "rnd"):
        c.step()
        return read_again(r, token)
    if c.word() in ("prev", "last", "these", "this", "same"):
        return again_prev(r, token)
    return prose.prose(r)


def again_prev(r: Clauses, token: Token) -> Op | None:
    c = r.c
    c.step()
    count = c.step().size if c.now().kind == "n" else 1
    if c.take_any("row", "rnd"):
        c.until(",", ";", ".", "(")
        return Again(-count, -1, at=r.span(token))
    return prose.prose(r)


def read_again(r: Clauses, token: Token) -> Op:
    c = r.c
    c.step()
    if c.now().kind != "n":
        raise Unread(c.now(), "it does not say which row to repeat", 'name the row, as "Rep Row 2"')
    first = last = amount(c.step())
    if c.word() in ("-", "and", "to", "&", ","):
        keep = c.place
        c.step()
        c.take_any("row", "rnd")
        if c.now().kind == "n" and c.word(1) not in ("times", "time", "more"):
            last = amount(c.step())
        else:
            c.place = keep
    times = again_times(r)
    return Again(first, last, times, at=r.span(token))


def again_times(r: Clauses) -> int:
    c = r.c
    c.skip_any("another", "a", "further")
    token = c.now()
    if token.kind == "n" and (token.word in ("once", "twice", "thrice") or c.word(1) in ("times", "time", "more")):
        c.step()
        c.skip_any("more", "times", "time")
        return amount(token)
    if c.word() in ("until", "for", "to", "ending"):
        c.until(";", ".", "(")
    return 0


def as_row(r: Clauses) -> Op | None:
    """ "As Row 3", "same as Row 3", "work as for Row 2"."""
    c = r.c
    keep = c.place
    token = c.step()
    c.skip_any("as", "for")
    if c.word() in ("row", "rnd") and c.now(1).kind == "n":
        return read_again(r, token)
    c.place = keep
    return prose.prose(r)


def go_on(r: Clauses) -> Op | None:
    """ "Continue as established, working 1 more sc before each increase": a round that grows."""
    c = r.c
    token = c.step()
    said = c.until(".", "(", ";")
    words = c.words(said)
    more = next((t.size for i, t in enumerate(said[:-1]) if t.kind == "n" and said[i + 1].word == "more"), 0)
    if more and (
        "before each" in words or "between inc" in words or "between each" in words or "between increases" in words
    ):
        return Again(-1, -1, grow=more, at=r.span(token))
    r.notes.append(words)
    return None
