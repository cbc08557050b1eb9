"""What a note says of every row: loops, and what beginning chains count as."""

from __future__ import annotations

import re

from .chains import counted_as
from .lex import tokens

COUNTING = re.compile(
    r"\b(?:ch[- ]?(?P<n>\d)|(?P<m>\d)[- ]?ch|(?:turning|beginning|beg)[- ](?:ch|chain)s?)\b(?!s? ?sp)[^.:]{0,60}?"
    r"(?P<not>\b(?:do|does) not count\b|\b(?:is|are) (?:not|never) counted\b)?"
    r"(?(not)|\bcounts? as (?P<as>[^.;]{1,60}))"
)
LOOPS = re.compile(
    r"(?:throughout|all (?:rows|rnds|rounds|sts)).{0,30}\b(?:blo|back loops? only)\b"
    r"|\b(?:blo|back loops? only)\b.{0,30}throughout"
)


def beginnings_said(low: str, terms: str) -> dict[int, tuple[str, ...]]:
    """What a note says that beginning chains count as: "ch 3 at start of round counts as dc throughout"."""
    out: dict[int, tuple[str, ...]] = {}
    for found in COUNTING.finditer(low):
        size = found["n"] or found["m"]
        said = tokens(found["as"] or "", terms)
        counts = () if found["not"] else counted_as(said, int(size or 0)) or ()
        for number in (int(size),) if size else range(1, 7) if found["not"] else ():
            out[number] = counts
    return out
