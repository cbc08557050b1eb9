"""The usual ways of writing that a page uses, each said once in plain words (common practice, no source)."""

from __future__ import annotations

import re

#: What finds a way of writing in a page's words, how it is written, and what it means.
_WAYS = (
    (r"\*.*rep from \*", "* … rep from *",
     "work what stands after the star up to “rep” once, then again: around or across, to where “to last” says, or as "
     "often as is said"),
    (r"\*\*", "**", "the last time, stop here"),
    (r"\[[^]]*\] (?:\d+ times|twice|once|around|across)", "[ ] … times",
     "work all that stands in square brackets so many times"),
    (r"\([^()]*\d? ?[a-z]+, [^()]*\) (?:in|around) ", "( ) in one place",
     "work all that stands in these brackets into the one place named"),
    (r"ch-\d+ sps?\b", "ch-2 sp",
     "the space under 2 chains: insert the hook under them, not into a chain"),
    (r"\bbeg ch", "beg ch", "the chains at the beginning of the row or round"),
    (r"\bturning ch", "turning ch", "the chains at the beginning of the row below: they stand at the end of this one"),
    (r"\(counts as", "counts as", "these chains stand for the stitch named and are counted as it"),
    (r"same st as join", "same st as join", "the stitch that the round before was joined in"),
    (r"[Mm]agic ring", "magic ring",
     "a loop of yarn round the finger: work the stitches into it, then pull its end until it is closed"),
    (r"\b[FB]P\w", "FP, BP", "work round the post of the stitch below: from the front (FP), from the back (BP)"),
)  # fmt: skip
#: A count at the end of a row for several sizes.
_COUNTS = re.compile(r"(?<=[.)] )\d+ \(\d+(?:, \d+)*\) (?:sts|\w+)(?=\.)")
#: A count at the end of a row.
_COUNT = re.compile(r"\((\d+ \w+(?:, \d+ [\w-]+(?: sps?)?)*)\)")


def ways_of_writing(said: str) -> tuple[tuple[str, str], ...]:
    """The ways of writing that stand in the words of the rows, with what they mean.

    >>> [short for short, _ in ways_of_writing("Ch 1, *sc in next ch-3 sp, ch 3; rep from * around. (8 sc)")]
    ['* … rep from *', 'ch-3 sp', '(8 sc)']
    """
    found = []
    for pattern, written, means in _WAYS:
        hit = re.search(pattern, said)
        if hit and written == "ch-2 sp":
            size = re.findall(r"\d+", hit[0])[0]
            chains = "1 chain: insert the hook under it, not into it" if size == "1" else None
            written, means = f"ch-{size} sp", f"the space under {chains}" if chains else means.replace("2", size)
        if hit:
            found.append((written, means))
    ends = _COUNT.findall(said)
    if ends:
        found.append((f"({min(ends, key=len)})", "at the end of a row or round: what it has when it is done"))
    sized = _COUNTS.findall(said)
    if sized:
        found.append((f"{min(sized, key=len)}.", "at the end of a row or round: what it has when it is done, by size"))
    return tuple(found)
