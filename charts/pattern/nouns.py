"""Reading what is worked into: a stitch, a chain, a space, a group."""

from __future__ import annotations

from .cursor import Cursor
from .tree import Noun

_FILLER = (
    "the",
    "a",
    "an",
    "of",
    "one",
    "single",
    "whole",
    "free",
    "both",
    "loops",
    "only",
    "made",
    "unworked",
    "available",
)
GROUP_WORDS = ("shell", "group", "corner", "V-st", "block", "mesh", "cluster")


def read_noun(c: Cursor) -> Noun:
    """What is worked into. Nothing said is "st"."""
    c.skip_any(*_FILLER)
    token, word = c.now(), c.word()
    if token.kind == "stitch":
        c.step()
        return Noun(token.value)
    if token.kind == "sp":
        c.step()
        return Noun(token.value, token.size)
    if token.kind == "grp":
        c.step()
        group = c.take_any(*GROUP_WORDS) or "group"
        return Noun(group, token.size, token.value)
    if token.kind == "chref":
        c.step()
        return Noun("sp", token.size)
    if word == "corner":
        c.step()
        if c.now().kind == "sp":
            return Noun("corner sp", c.step().size)
        if c.now().kind in ("stitch",) or c.word() == "st":
            return Noun("corner st", 0, c.step().value)
        return Noun("corner sp") if c.take_any("sp") or c.take_any("lp") or c.take("ch", "sp") else Noun("corner")
    if word == "ch" and c.word(1) in ("sp", "lp"):
        c.step()
        return Noun(c.step().value)
    if word in (
        "st",
        "ch",
        "sp",
        "lp",
        "picot",
        "shell",
        "group",
        "mesh",
        "block",
        "V-st",
        "bobble",
        "puff",
        "popcorn",
        "cluster",
        "ring",
    ):
        c.step()
        c.take_any("st") if word in ("puff", "bobble", "popcorn", "shell") else ""
        return Noun(word)
    if token.kind == "word" and token.value in c.specials:
        c.step()
        return Noun(token.value)
    return Noun("st")
