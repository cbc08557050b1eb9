"""Rows whose heads are torn, beside others that are whole: a number without its word, a word without its number."""

from __future__ import annotations

import itertools
import re
from collections.abc import Sequence

from ..when_used import when_used
from .heads import Head
from .telling import workish

_WHOLE = when_used(r"\W*(?P<word>rows?|rnds?|rounds?|rds?|r)\s?\#?(?P<a>\d{1,3})(?:\s?(?:-|to|and|&)\s?(?:r\s?)?(?P<b>\d{1,3}))?(?=\W|$)(?P<mark>\s*[:.)-])?")
_NUMBER = when_used(r"[\s,;]*(?P<a>\d{1,3})(?:\s?-\s?(?P<b>\d{1,3}))?(?:\s?[.:)-](?!\d)\s*|\s+)(?=[\d(\[a-z*])")
#: Before the first head and behind the last one a number needs its mark.
_MARKED = when_used(r"[\s,;]*(?P<a>\d{1,3})(?:\s?(?:-|to)\s?(?P<b>\d{1,3}))?\s?[.:)](?!\d{1,3}\s?(?:mm|cm)\b)\s*(?=[\d(\[a-z*])")
_WORD = when_used(r"\s*(?:(?P<word>row|rnd|round|rd)\s*[:.)-]|:)\s*(?=[\d(\[a-z*])")
#: A number of stitches behind a row's number, or letters that stand for stitches.
_COUNTED = when_used(r"\d+ ?(?:sts?|[a-z]\b)|[a-z]\s*,|=\s*\d|[(\[]\d+[)\]]\s*$")


def torn_heads(lines: Sequence[str]) -> dict[str, Head]:
    """Of lines in lower case those that are rows by what stands about them, each with its head: the numbers between
    two heads in their order, or the one row that is missing; before the first head all from 1, behind the last one those
    that count on.

    >>> found = torn_heads(["row 2: sc in each st", "3 2 sc in each st", "4: sc around", "row 5: sc around"])
    >>> [head.label for head in found.values()]
    ['Row 3', 'Row 4']
    """
    whole = [(at, m) for at, line in enumerate(lines) if (m := _WHOLE.match(line))]
    out: dict[str, Head] = {}
    for (at, above), (below, following) in itertools.pairwise(whole):
        last = int(above["b"] or above["a"])
        missing = int(following["a"]) - last - 1
        if missing > 0 and below - at > missing:
            out.update(_torn(lines[at + 1 : below], last, missing, above["word"]))
    if whole and not any(int(m["a"]) == 1 for _, m in whole):
        (first, head), (last_at, lowest) = whole[0], whole[-1]
        before = _counted_on(lines[:first], 0, head["word"])
        if before and max(h.last for h in before.values()) == int(head["a"]) - 1:
            out.update(before)
            out.update(_counted_on(lines[last_at + 1 :], int(lowest["b"] or lowest["a"]), lowest["word"]))
    return out


def _counted_on(lines: Sequence[str], number: int, word: str) -> dict[str, Head]:
    """The heads of lines that count on from a number, each with its mark and work behind it."""
    out: dict[str, Head] = {}
    for line in lines:
        found = _MARKED.match(line)
        if found and int(found["a"]) == number + 1 and _is_work(line[found.end() :]):
            first, number = number + 1, max(int(found["b"] or 0), number + 1)
            out[line] = _head(line, word, first, number, found.end())
    return out


def _torn(lines: Sequence[str], last: int, missing: int, word: str) -> dict[str, Head]:
    """The heads that lines between two rows bear, where together they are all that are missing."""
    out: dict[str, Head] = {}
    number = last
    for line in lines:
        found = _NUMBER.match(line)
        if found and int(found["a"]) == number + 1 and _is_work(line[found.end() :]):
            first, number = number + 1, max(int(found["b"] or 0), number + 1)
        elif missing == 1 and (found := _WORD.match(line)) and number == last and _is_work(line[found.end() :]):
            first = number = last + 1
        else:
            continue
        out[line] = _head(line, word, first, number, found.end())
    return out if number == last + missing else {}


def _head(line: str, word: str, first: int, last: int, end: int) -> Head:
    """The head that a line bears, by the word of the heads beside it."""
    kind = "Rnd" if word.startswith(("rn", "rd")) else "Round" if word.startswith("rou") else "Row"
    label = f"{kind}s {first}-{last}" if last > first else f"{kind} {first}"
    is_round = None if word == "r" else kind != "Row"
    return Head(label, first, last, is_round, "", len(line) - len(line.lstrip()), end, marked=True)


def _is_work(low: str) -> bool:
    return workish(low) or bool(_COUNTED.search(low)) or bool(re.match(r"\s*(?:rep|repeat|as|same|work)\b", low))
