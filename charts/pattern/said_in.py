"""A page's own words in the other system of terms: its definitions, its gauge and its notes, which are no rows."""

from __future__ import annotations

import functools
import re
from collections.abc import Callable

from hookfold.symbols.dictionary import abbreviations, full_names, heights

#: That a line speaks of both systems, or says itself which it is in.
_BOTH = re.compile(r"\b(?:US|UK|U\.S\.|U\.K\.|American|British)(?![\w-])")
#: Other words that differ, from US to UK; and those that only one way is sure of, from UK to US.
_TO_UK = (
    ("yarn overs", "yarn round hooks"), ("yarn over", "yarn round hook"), ("yo", "yrh"), ("skipped", "missed"),
    ("skipping", "missing"), ("skips", "misses"), ("skip", "miss"), ("sk", "miss"), ("gauge", "tension"),
    ("center", "centre"), ("sl st", "ss"), ("sl sts", "ss"),
)  # fmt: skip
_TO_US = (
    ("yarn round hook", "yarn over"), ("yrh", "yo"), ("missed", "skipped"), ("misses", "skips"), ("miss", "skip"),
    ("tension square", "gauge swatch"), ("tension swatch", "gauge swatch"), ("centre", "center"), ("ss", "sl st"),
)  # fmt: skip


def said_in(text: str, own: str, shown: str) -> str:
    """A page's words, which are in its `own` terms, in those that are `shown`; a line that names a system of terms is
    left as it is and marked where the other would have other words.

    >>> said_in("Fan: 5 dc in same st, skip 2 sc; fpdc2tog, 1 double crochet", "US", "UK")
    'Fan: 5 tr in same st, miss 2 dc; fptr2tog, 1 treble'
    >>> said_in("20 dc (UK tr) = 10 cm", "US", "UK")
    '20 dc (UK tr) = 10 cm (US terms)'
    """
    if own == shown:
        return text
    pattern, table = _words(own, shown)
    changed = pattern.sub(_changer(table), text)
    return f"{text} ({own} terms)" if changed != text and _BOTH.search(text) else changed


def _changer(table: dict[str, str]) -> Callable[[re.Match[str]], str]:
    def change(found: re.Match[str]) -> str:
        word, plural = found["word"], found["plural"] or ""
        new = table.get(f"{word}{plural}".lower())
        new, plural = (new, "") if new is not None else (table[word.lower()], plural)
        capital = new[0].upper() + new[1:] if word[0].isupper() else new
        return f"{found['post'] or ''}{new.upper() if word.isupper() and len(word) > 1 else capital}{plural}"

    return change


@functools.cache
def _words(own: str, shown: str) -> tuple[re.Pattern[str], dict[str, str]]:
    """What finds a word that differs, alone, behind a number, of a post or of several together; and what it becomes."""
    short = {name: us if shown == "US" else heights()[us].uk for name, us in abbreviations(own).items()}
    full = {
        name: heights()[us].us_name if shown == "US" else heights()[us].uk_name
        for name, us in full_names(own).items()
        if us != "sl st" and re.search(r"crochet$|treble$", name)
    }
    table = {**full, **short, **dict(_TO_UK if own == "US" else _TO_US)}
    any_word = "|".join(re.escape(word) for word in sorted(table, key=len, reverse=True))
    found = rf"(?<![A-Za-z])(?P<post>[FfBb][Pp])?(?P<word>{any_word})(?P<plural>s?)(?=\d{{0,2}}tog|[^A-Za-z\d]|$)"
    return re.compile(found, re.IGNORECASE), table
