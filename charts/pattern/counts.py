"""Stated counts: "(25 sts)", "12 dc, 4 ch-2 sps", "6 petals; 12 sc, 60 dc". What cannot be named is passed over."""

from __future__ import annotations

from collections.abc import Sequence

from .cursor import Cursor, Source
from .lex import Token
from .tree import Noun, Stated

_COUNTED = (
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
    "corner",
)


def read_counts(
    said: Sequence[Token], source: Source, terms: str, specials: frozenset[str]
) -> tuple[tuple[Stated, ...], bool]:
    """The parts of a stated count, and whether it is said to hold only at the end of a run of rows."""
    c = Cursor(said, terms, specials)
    out: list[Stated] = []
    at_end = False
    while not c.done:
        token = c.now()
        if token.kind == "n" and not (c.place and c.now(-1).word in ("of", "rnd", "row", "rnds", "rows", "round")):
            part = _part(c, source)
            if part:
                out.append(part)
        else:
            at_end = at_end or (token.word == "end" or token.word == "at")
            c.step()
    return tuple(out), at_end


def _part(c: Cursor, source: Source) -> Stated | None:
    number = c.step()
    c.skip_any("total")
    bare = c.done and len(c.tokens) <= 2
    noun = Noun("st") if bare else _noun(c)
    if noun is None:
        return None
    last = c.now(-1)
    words = f"{number.word} {last.word}" if last is not number else number.word
    part = Stated(number.size, noun, words, at=source.span(number.start, last.end))
    if c.word() in ("of",) or c.now().kind == "stitch" or (c.now().kind == "word" and c.now().value in _COUNTED):
        while not c.done and c.word() not in (",", ";", "and"):
            c.step()
        return part if part.noun.name in ("block", "group") else None
    return part


def _noun(c: Cursor) -> Noun | None:
    token = c.now()
    if token.kind == "sp":
        c.step()
        return Noun(token.value, token.size)
    if token.kind == "stitch":
        c.step()
        return Noun(token.value)
    if token.kind == "chref" and c.now(1).value in ("sp", "lp"):
        c.place += 2
        return Noun("sp", token.size)
    if token.kind == "word" and (token.value in _COUNTED or token.value in c.specials):
        c.step()
        if token.value == "ch" and c.word() in ("sp", "lp"):
            c.step()
            return Noun("sp")
        return Noun(token.value)
    return None
