"""Brackets: a group and what is done with it, a stated count, or a remark."""

from __future__ import annotations

from typing import TYPE_CHECKING

from . import chains, prose, spots
from .amounts import MOST_DEPTH, read_times
from .cursor import Cursor, Unread
from .lex import Token
from .places import read_places
from .standing import STANDARD
from .tree import Act, Into, Op, Times

if TYPE_CHECKING:
    from .clauses import Clauses


def bracket(r: Clauses) -> Op | None:
    c = r.c
    opening = c.step()
    close = ")" if opening.kind == "(" else "]"
    if r.c.depth >= MOST_DEPTH:
        r.c.place = len(r.c.tokens)
        raise Unread(
            opening, f"brackets stand more than {MOST_DEPTH} deep", "write the row with fewer brackets", "limit"
        )
    inside = inside_of(r, close)
    if inside is None:
        raise Unread(opening, f'the "{opening.word}" is never closed', f'put a "{close}" where the group ends')
    counted = opening_counts(r, inside, opening)
    if counted is not None:
        return counted
    after = after_bracket(r, inside)
    if after == "count":
        c.place = inside[1]
        r.counts.append(tuple(c.tokens[inside[0] : inside[1] - 1]))
        return None
    if after == "note":
        c.place = inside[1]
        r.notes.append(c.words(c.tokens[inside[0] : inside[1] - 1]))
        return None
    c.depth += 1
    ops = r.ops(())
    c.depth -= 1
    if c.word() != close:
        raise Unread(
            opening, f'the "{opening.word}" is closed by "{c.word() or "nothing"}"', f'close it with "{close}"'
        )
    c.step()
    return closed(r, ops, opening)


def opening_counts(r: Clauses, inside: tuple[int, int], opening: Token) -> Op | None:
    """ "(beg 3 sk ch count as dc)" after a stitch in the nth chain from the hook."""
    body = list(r.c.tokens[inside[0] : inside[1] - 1])
    at = next((i for i, t in enumerate(body) if t.word in ("count", "counts", "counting")), -1)
    if at < 0 or (not any(t.value == "ch" or t.kind == "chref" for t in body[:at]) and at > 0):
        return None
    r.c.place = inside[1]
    parts = () if any(t.word == "not" for t in body) else chains.counted_as(body[at:], 0)
    return Act("opening", ", ".join(parts or ()), at=r.span(opening))


def inside_of(r: Clauses, close: str) -> tuple[int, int] | None:
    """Where the bracket's inside begins and where its closing sign ends, as token places."""
    c, depth, at = r.c, 0, r.c.place
    while at < len(c.tokens):
        kind = c.tokens[at].kind
        if kind in ("(", "["):
            depth += 1
        elif kind in (")", "]"):
            if depth == 0:
                return (c.place, at + 1)
            depth -= 1
        at += 1
    return None


def after_bracket(r: Clauses, inside: tuple[int, int]) -> str:
    """Whether a bracket is a note: nothing to do stands in it, or it ends in "made"."""
    c = r.c
    body = c.tokens[inside[0] : inside[1] - 1]
    if not body or (len(body) == 1 and body[0].kind == "word" and not names_next(c, inside[1])):
        return "note"
    if body[-1].word in ("made", "completed", "formed", "counts", "complete") or body[0].value in (
        "counts",
        "count",
        "does",
        "see",
        "to",
        "note",
        "multiple",
    ):
        return "note"
    acts = any(
        t.kind == "stitch" or t.value in ("ch", "sk", "inc", "dec") or t.value in r.specials or t.value in STANDARD
        for t in body
    )
    placed = names_next(c, inside[1])
    if not placed and not r.defining and prose.is_count(body):
        return "count"
    if not acts:
        return "note"
    if not placed and any(t.value in ("counts", "goes", "center", "worked") for t in body):
        return "note"
    return "ops"


PLACED = ("in", "into", "around", "each", "rep", "twice", "across", "x", "over", "next", "to", "between")


def names_next(c: Cursor, at: int) -> bool:
    """Whether what follows a bracket says how often or where its group is worked."""
    return at < len(c.tokens) and (c.tokens[at].value in PLACED or c.tokens[at].kind in ("n", "ord"))


def closed(r: Clauses, ops: tuple[Op, ...], opening: Token) -> Op | None:
    """What is done with a group: k times, around, or into a place."""
    c = r.c
    if not ops:
        return None
    times = read_times(r)
    if times is not None:
        times_op = Times(ops, times, at=r.span(opening))
        if c.word() in ("in", "over") and times and spots.starts_place_at(c, 1):
            c.step()
            return Into((times_op,), read_places(c), at=r.span(opening))
        return times_op
    if c.word() in ("in", "over", "each", "next", "between") or (c.word() == "around" and spots.starts_place_at(c, 1)):
        c.take_any("in", "over", "around")
        return Into(ops, read_places(c), at=r.span(opening))
    if c.take_any("around", "across") or c.take("to", "end"):
        return Times(ops, 0, at=r.span(opening))
    if c.word() in ("rep", "repeat") and c.now(1).kind != "word":
        c.step()
        return Times(ops, read_times(r) or 1, at=r.span(opening))
    return Times(ops, 1, at=r.span(opening)) if len(ops) > 1 else ops[0]
