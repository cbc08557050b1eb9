"""Phrases looked for in the words of a clause that is not notation."""

from __future__ import annotations


def says(words: str, *phrases: str) -> bool:
    """Whether one of the phrases stands in the words, whole.

    >>> says("in back loops only", "back loop", "back loops")
    True
    """
    padded = f" {words} "
    return any(f" {p} " in padded for p in phrases)


def is_opposite(words: str) -> bool:
    """Whether words turn the work to the other side of the foundation chain."""
    sides = (
        "opposite",
        "other side",
        "underside",
        "unused loops of",
        "free loops of foundation",
        "bottom of foundation",
    )
    return any(side in words for side in sides) and not words.startswith(("fasten", "sew"))
