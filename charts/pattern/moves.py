"""Skipping, turning, fastening off, leaving stitches unworked."""

from __future__ import annotations

from typing import TYPE_CHECKING

from .amounts import amount
from .nouns import read_noun
from .places import read_place
from .tree import Act, Either, Noun, Op, Place, Skip, Times

if TYPE_CHECKING:
    from .clauses import Clauses


def goes_on(r: Clauses) -> bool:
    """Whether more places to skip follow: "sk next 2 dc, next ch-1 sp and next 2 dc"."""
    c = r.c
    if c.word() == ",":
        return c.word(1) == "next" and r.skips_ahead(1)
    return c.word() == "and" and (
        c.now(1).kind in ("sp", "chref", "n") or c.word(1) in ("next", "ch", "picot", "first", "last", "sp", "lp")
    )


def skip(r: Clauses) -> Op | None:
    c = r.c
    token = c.step()
    places = [skipped_place(r)]
    if token.word in ("skipping", "missing"):
        return None
    while goes_on(r):
        c.skip_any(",", "and")
        places.append(skipped_place(r))
    op: Op = Skip(tuple(places), at=r.span(token))
    if c.word() == "or" and c.word(1) in ("next",):
        c.step()
        other = Skip((skipped_place(r),), at=op.at)
        lead = tuple(places[:-1])
        either = Either((Skip((places[-1],), at=op.at), other), at=op.at)
        return Times((Skip(lead, at=op.at), either), 1, at=op.at) if lead else either
    return op


def skipped_place(r: Clauses) -> Place:
    c = r.c
    c.skip_any("the")
    token = c.now()
    if token.kind == "chref":
        c.step()
        return Place("next", Noun("sp", token.size))
    if token.kind == "n":
        c.step()
        place = Place("next", read_noun(c), count=amount(token))
        c.until(",", ";", ".", ")", "]", "*", "**", "and", "or") if c.word() in (
            "behind",
            "between",
            "on",
            "of",
        ) else None
        return place
    return read_place(c)


def turn(r: Clauses) -> Op:
    return Act("turn", at=r.span(r.c.step()))


def do_not(r: Clauses) -> Op | None:
    c = r.c
    token = c.step()
    c.take_any("not")
    if c.take_any("turn"):
        return Act("do not turn", at=r.span(token))
    if c.take_any("join"):
        c.until(",", ";", ".", ")", "]")
        return Act("do not join", at=r.span(token))
    c.until(",", ";", ".", ")", "]", "*")
    return None


def leave(r: Clauses) -> Op:
    token = r.c.step()
    r.c.until(",", ";", ".", ")", "]")
    return Act("leave", at=r.span(token))


def fasten(r: Clauses) -> Op:
    c = r.c
    token = c.step()
    c.until(",", ";", ".", "(", ")", "]")
    return Act("fasten off", at=r.span(token))
