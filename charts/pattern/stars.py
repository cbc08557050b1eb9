"""The * repeat and what is said of its end."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from .amounts import MOST_DEPTH, amount
from .cursor import Unread
from .lex import Token
from .nouns import read_noun
from .picots import add
from .tree import Noun, Op, Star

if TYPE_CHECKING:
    from .clauses import Clauses


def star(r: Clauses) -> Op:
    c = r.c
    token = c.step()
    if c.depth >= MOST_DEPTH:
        raise Unread(token, f"repeats stand more than {MOST_DEPTH} deep", "write the row with fewer repeats", "limit")
    c.depth += 1
    ops = list(r.ops(("rep", "**", "*")))
    cut = None
    if c.take_any("**"):
        cut = len(ops)
        ops += r.ops(("rep", "**", "*"))
    c.depth -= 1
    if c.word() == "*" and c.now(1).kind in (";", ",", "."):
        c.step()
        ops += r.ops(("rep",))
    if not c.take_any("rep"):
        raise Unread(
            token, 'the "*" opens a repeat that never says "rep from *"', 'write "rep from *" where the repeat ends'
        )
    return rep(r, token, tuple(ops), cut)


def rep(r: Clauses, token: Token, ops: tuple[Op, ...], cut: int | None) -> Op:
    """What follows "rep": from * across / around / to ... / k more times, ending ..."""
    c = r.c
    c.skip_any("from", "between", "the")
    if not c.take_any("*", "**"):
        raise Unread(c.now() if not c.done else token, '"rep" does not say from where', 'write "rep from *"')
    c.skip_any("to", "*") if c.word() == "to" and c.word(1) in ("*", "**") else None
    c.take_any("*", "**")
    begun = c.place
    more, until, word = extent(r)
    said_more = more is None or any(t.word in ("more", "once") for t in c.tokens[begun : c.place])
    star = Star(ops, more, until, cut, word=word, said_more=said_more, at=r.span(token))
    return ending(r, star)


def extent(r: Clauses) -> tuple[int | None, tuple[int, Noun] | None, str]:
    c = r.c
    more: int | None = None
    until: tuple[int, Noun] | None = None
    word = "across"
    while True:
        token = c.now()
        if (
            token.kind == "n"
            and until is None
            and more is None
            and (c.word(1) in ("more", "times", "time") or token.word in ("once", "twice", "thrice"))
        ):
            more = amount(c.step())
            c.skip_any("more", "times", "time")
        elif c.word() in ("across", "around", "evenly"):
            word = "around" if c.step().value == "around" else word
        elif c.word() in ("to", "until") and c.word(1) in ("last", "end", "the", "within", "*", "**", "next"):
            until = read_until(r) or until
        else:
            return more, until, word


def read_until(r: Clauses) -> tuple[int, Noun] | None:
    c = r.c
    c.step()
    c.skip_any("the", "within")
    if c.take_any("end", "*", "**", "next"):
        c.until(",", ";", ".", "(", ")", "[", "]", "*", "**", "ending")
        return None
    c.take_any("last")
    count = amount(c.step()) if c.now().kind == "n" else 1
    noun = read_noun(c)
    c.skip_any("rem")
    return count, noun


def ending(r: Clauses, star: Star) -> Op:
    """ "ending last rep at **", "ending with sc in last st", "end sc in last st"."""
    c = r.c
    keep = c.place
    c.take_any(",", ";")
    if not c.take_any("ending", "end"):
        c.place = keep
        return star
    replaces = any(c.word(ahead) == "rep" for ahead in range(4))
    c.skip_any("last", "rep", "final", "on", "with")
    if c.take_any("at"):
        c.skip_any("*", "**")
        return replace(star, cut=star.cut if star.cut is not None else len(star.ops))
    c.skip_any("with", "in") if c.word() == "with" else None
    ending: list[Op] = []
    while not c.done and c.word() not in (";", ".", ")", "]"):
        if c.word() in (",", "and"):
            if c.word(1) in ("turn", "join", "fasten") or c.now(1).value in ("turn", "join"):
                break
            c.step()
            continue
        op = r.clause()
        if op is None:
            break
        add(ending, op)
    return replace(star, ending=tuple(ending), replaces=replaces)
