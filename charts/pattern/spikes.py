"""The feet of a spike: how many rows below each leg goes in, and how far aside, from the words that tell its moves."""

from __future__ import annotations

import re

from . import lexicon

#: One foot: places aside (before the stitch negative, after it positive), and rows below.
Spike = tuple[int, int]

_N = r"(?:\d{1,2}|one|two|three|four|five|six)"
_MANY = rf"{_N}(?:\s*(?:,\s*and|,|and|&)\s*{_N})*"
_ROWS = rf"(?P<rows>{_MANY})\s+(?:rows?|rnds?|rounds?)\s+(?:(?:directly|straight)\s+)?(?:below|down|lower|beneath)\b"
_ASIDE = rf"(?P<aside>{_N})\s+(?:sts?|stitch(?:es)?)\s+to\s+(?:the\s+|your\s+)?(?P<side>right|left)\b"
_INSERT = re.compile(r"\binsert(?:ing)?\b")
IN_PLACE: Spike = (0, 1)
MOST_DEEP = 20


def read_spikes(low: str, legs: int) -> tuple[Spike, ...] | None:
    """The feet of a stitch of `legs` legs from its words in lower case: () where all stand in its own place, None
    where the words tell of some but not of each. "1 row below" alone is the row under the one just worked, or it
    would say nothing; with others the rows are counted from the row being worked.

    >>> read_spikes("insert hook in st 2 rows below next st, pull up a loop", 1)
    ((0, 2),)
    >>> read_spikes("insert hook 1 st to the right 2 rows down, insert hook 3 rows down, pull up loops", 2)
    ((-1, 2), (0, 3))
    """
    before, *told = _INSERT.split(low)
    feet = [_of_insert(words) for words in told] or [_of_insert(before)]
    if told and re.search(_ROWS, before) and all(foot == [IN_PLACE] for foot in feet):
        feet = [_of_insert(before)]
    if any(foot is None for foot in feet):
        return None
    each = [spike for foot in feet for spike in foot or ()]
    if all(spike == IN_PLACE for spike in each):
        return tuple([(0, 2)] * legs) if re.search(_ROWS, low) else ()
    if len(set(each)) == 1:
        return tuple(each[:1] * legs)
    return tuple(each) if len(each) >= legs else None


def counted_from(words: str) -> str:
    """How the rows were counted where the words tell of "1 row below", which has two readings; else nothing."""
    low = words.lower()
    depths = [lexicon.number(n) for rows in re.finditer(_ROWS, low) for n in re.findall(_N, rows["rows"])]
    if 1 not in depths:
        return ""
    alone = set(depths) == {1}
    return "the row under the one just worked" if alone else "the row just worked, and 2 rows below as the one under it"


def _of_insert(words: str) -> list[Spike] | None:
    """Where the hook goes in one time it is inserted: its own place unless the words say otherwise; None where they
    say aside of what but not how deep."""
    rows, aside = re.search(_ROWS, words), re.search(_ASIDE, words)
    if aside and not rows:
        return None
    depths = [lexicon.number(n) or 1 for n in re.findall(_N, rows["rows"])] if rows else [1]
    places = 0
    if aside:
        places = (lexicon.number(aside["aside"]) or 1) * (-1 if aside["side"] == "right" else 1)
    return [(places, min(depth, MOST_DEEP)) for depth in depths]
