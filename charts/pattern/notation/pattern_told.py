"""A list of stitches called a pattern: "Repeat the pattern of sc in next st, 2 sc in next st around". It comes again like
a list behind a colon."""

from __future__ import annotations

from .words import Word

_AGAIN = frozenset(("repeat", "rep", "repeating", "work", "working", "follow", "following", "continue", "continuing", "cont", "keep", "using", "in"))
_BETWEEN = frozenset(("the", "this", "a", "same", "with", "following", "on", "in", "stitch", "st", "simple", "basic", "to", "work", "working", "repeat", "repeating", "of"))
_NAMES = frozenset(("pattern", "patt", "sequence", "order", "rhythm", "series"))
_OPENS = frozenset(("of", ":", "-"))


def told_pattern(words: list[Word]) -> None:
    """Give "repeat the pattern of" the form of "repeat:", where work follows it."""
    for at, word in enumerate(words):
        if word.text not in _AGAIN or word.inside is not None:
            continue
        end = at + 1
        while end < len(words) and words[end].text in _BETWEEN:
            end += 1
        if end + 1 >= len(words) or words[end].text not in _NAMES or words[end + 1].text not in _OPENS:
            continue
        if not any("STN" in w.kinds or "CHREF" in w.kinds or w.text in ("ch", "inc", "dec") for w in words[end + 2 : end + 6]):
            continue
        word.text, words[end + 1].text = "repeat", ":"
        del words[at + 1 : end + 1]
        return
