"""Chains, and what a beginning chain is said to count as."""

from __future__ import annotations

from typing import TYPE_CHECKING

from . import prose
from .amounts import MOST_TIMES
from .cursor import Unread
from .lex import Token
from .tree import Chain, Op

if TYPE_CHECKING:
    from .clauses import Clauses

#: The most chains that a part of a beginning chain may be said to count as.
MOST_COUNTED = 1000


def read_ch(r: Clauses) -> Op:
    """ "ch 3", "chain three", "ch" alone (one)."""
    c = r.c
    token = c.step()
    if c.now().kind == "n":
        return chain(r, token, c.step().size)
    if c.word() in ("st", "sp", "lp"):
        raise prose.stray(token)
    return chain(r, token, 1)


def chain(r: Clauses, token: Token, count: int) -> Op:
    if not 0 < count <= MOST_TIMES:
        raise Unread(
            token, "that is not a number of chains this tool works (1 to 100,000)", "use a smaller number", "limit"
        )
    at = r.span(token)
    counts, throughout = counts_as(r, count)
    return Chain(count, counts, throughout, at=at)


def counts_as(r: Clauses, count: int) -> tuple[tuple[str, ...] | None, str]:
    """What a beginning chain counts as, said in a bracket or after a comma."""
    c = r.c
    keep = c.place
    opened = c.take_any("(", "[", ",")
    c.skip_any("first", "this", "here", "beg", "ch", "it")
    if c.word() not in ("counts", "count", "does", "do", "counting", "counted", "not"):
        c.place = keep
        return None, ""
    said = c.until(")", "]") if opened in ("(", "[") else c.until(",", ";", ".", "*", "**")
    if opened in ("(", "["):
        c.take_any(")", "]")
    words = c.words(said)
    throughout = "throughout" if "throughout" in words or "always" in words else ""
    if "not" in [t.word for t in said]:
        return (), throughout
    return counted_as(said, count), throughout


def counted_as(said: list[Token], count: int) -> tuple[str, ...] | None:
    """ "counts as dc and ch 2" -> ("dc", "ch 2"); "counts as ch-2 sp" -> ("ch 2",); "counts as first lp" -> ("ch",)."""
    out: list[str] = []
    at = 0
    while at < len(said):
        token = said[at]
        following = said[at + 1] if at + 1 < len(said) else None
        if token.kind == "stitch" and " " not in token.value:
            out.append(token.value)
        elif token.kind in ("sp", "chref"):
            out.append(f"ch {min(token.size, MOST_COUNTED)}" if token.size else "ch")
        elif token.value == "sk":
            out.append(f"sk {min(said[at - 1].size, MOST_COUNTED)}" if at and said[at - 1].kind == "n" else "sk 1")
            at += 1
        elif token.value == "ch" and following is not None and following.kind == "n":
            out.append(f"ch {min(following.size, MOST_COUNTED)}")
            at += 1
        elif token.kind == "n" and following is not None and following.value == "ch":
            out.append(f"ch {min(token.size, MOST_COUNTED)}")
            at += 1
        elif token.value in ("lp", "sp"):
            out.append("ch")
        elif token.value == "st":
            out.append("st")
        at += 1
    return tuple(out) or None
