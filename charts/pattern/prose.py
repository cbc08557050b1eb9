"""Words that are no notation, bare counts, and what is said of words that cannot be read."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import TYPE_CHECKING

from . import lexicon, phrases
from .cursor import Unread
from .lex import Token
from .standing import JOINERS, PASSED
from .tree import Act, Op

if TYPE_CHECKING:
    from .clauses import Clauses


def prose(r: Clauses) -> Op | None:
    """Words that are no notation: passed over with a note if they name no stitch, else a problem."""
    c = r.c
    token = c.now()
    c.step()
    rest = c.until(",", ";", ".", "(", "[", "*", "**")
    passed = [token, *rest]
    if phrases.is_opposite(c.words(passed)):
        return Act("opposite", at=r.span(token))
    other = next((t for t in passed if t.kind == "word" and lexicon.foreign(t.word, c.terms)), None)
    if other:
        raise foreign(other, c.terms)
    if goes_down(c.words(passed)) and token.word not in PASSED - {"drop", "insert"}:
        raise Unread(
            token,
            f'"{c.words(passed)[:60]}" is worked further down, but cannot be read as a stitch and its place',
            'write it as "dc in next st 2 rows below", or explain the stitch above the rows and name it here',
        )
    if token.kind == "word" and like_a_stitch(token, rest) and token.word not in PASSED:
        raise Unread(
            token,
            f'"{token.word}" is neither a stitch this tool knows nor one the pattern explains',
            f'explain it above the rows ("{token.word.upper()}: ..."), or use a usual abbreviation',
        )
    if any(t.kind == "stitch" for t in passed) and token.word not in PASSED and token.kind != "n":
        raise Unread(
            token, f'"{c.words(passed)[:60]}" cannot be read as something to work', 'write it as "2 dc in next st"'
        )
    if token.kind == "n" or (token.kind not in ("word",) and token.kind not in JOINERS):
        raise stray(token)
    r.notes.append(c.words(passed))
    return None


def goes_down(words: str) -> bool:
    """Whether words that are no notation tell of something worked further down."""
    rows = phrases.says(words, "row", "rows", "rnd", "rnds", "round", "rounds")
    return phrases.says(words, "insert hook", "inserting hook") or (rows and phrases.says(words, "below", "down"))


def dashed_count(r: Clauses) -> None:
    """A count after a dash at the row's end: " - 12 dc, 4 ch-2 sps." """
    c = r.c
    c.step()
    said = []
    while not c.done and c.word() not in (".", ";", "(", "[", "*", "turn"):
        said.append(c.step())
    r.counts.append(tuple(said))


def like_a_stitch(token: Token, rest: list[Token]) -> bool:
    """Whether an unknown word stands where a stitch would: before "in", "over", "around" or at a clause of its own."""
    if token.kind != "word":
        return False
    ahead = [t.word for t in rest[:2]]
    return any(w in ("in", "into", "over", "around", "across") for w in ahead[:2]) or (
        not rest and len(token.word) <= 5
    )


def is_bare_count(said: list[Token]) -> bool:
    """Whether words are nothing but numbers of things: "18 sts", "12 dc and 4 ch-2 sps"."""
    if not said or said[0].kind != "n" or len(said) < 2:
        return False
    known = (
        "st",
        "ch",
        "sp",
        "lp",
        "picot",
        "shell",
        "group",
        "V-st",
        "block",
        "bobble",
        "puff",
        "popcorn",
        "cluster",
        "and",
        "total",
        "rem",
        "mesh",
    )
    return all(t.kind in ("n", "stitch", "sp", "chref", ",") or t.value in known for t in said)


def is_count(body: Sequence[Token]) -> bool:
    if not body or body[0].kind != "n" or any(t.kind in ("(", "[") or t.value in ("in", "sk", "next") for t in body):
        return False
    return not any(a.value == "ch" and a.kind == "word" and b.kind == "n" for a, b in pairwise(body))


def stray(token: Token) -> Unread:
    if token.kind in (")", "]"):
        return Unread(
            token,
            f'"{token.word}" closes a bracket that was never opened',
            f'put "{"(" if token.kind == ")" else "["}" where the group begins',
        )
    return Unread(token, f'"{token.word}" cannot be read here', 'say what to work and where, as "sc in next st"')


def foreign(token: Token, terms: str) -> Unread:
    other = lexicon.foreign(token.word, terms) or ("US" if terms == "UK" else "UK")
    us = lexicon.stitch_name(token.word, other) or token.word
    shown = lexicon.show_stitch(us, terms)
    return Unread(
        token,
        f'"{token.word}" is a {other} term in a pattern in {terms} terms',
        f'write "{shown}" if that is the stitch meant, or put the whole pattern in {other} terms',
    )
