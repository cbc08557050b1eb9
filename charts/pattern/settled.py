"""US or UK from the words alone."""

from __future__ import annotations

import re

from . import lexicon


def settled_terms(text: str) -> str | None:
    """US or UK from the words alone: "sc" and "hdc" are US only, "htr" UK only; miss, tension and yrh lean to UK."""
    words = set(re.findall(r"[a-z]+", text))
    us = bool(words & {"sc", "hdc", "fpsc", "bpsc", "fphdc", "bphdc", "fsc", "esc"}) or bool(
        re.search(r"\bsc\d+tog\b|single crochet|\bsc\b|\dsc\b", text)
    )
    uk = bool(words & {"htr", "yrh", "yoh", "ttr", "qtr"}) or "half treble" in text
    if us != uk:
        return "US" if us else "UK"
    if us and uk:
        return "US"
    if words & {"miss", "tension", "ss"} and not words & {"sk", "skip"}:
        return "UK"
    stitches = {lexicon.height_of(w) or "" for w in words} - {""}
    return "US" if not stitches else None
