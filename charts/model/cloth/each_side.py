"""Counts told by the side: "12 dc on each side", "20 sts between corners", held against the sides of the worked round.

The sides of a round lie between its corners: the longest runs of chains, three to eight of them, or else places that
hold three stitches or more. Writers count a side with its corners' stitches, without them or with one of each (common
practice, no source); any of these is right. Where no corners can be told, or the sides differ, nothing is said against
a count.
"""

from __future__ import annotations

from collections import Counter
from itertools import pairwise

from ...made_late import dataclass
from ...pattern.lexicon import number, stitch_name
from ...pattern.when_used import when_used
from .fabric import Row, Stitch, counts

_NUMBER = r"(?:\d{1,3}|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve)"
_SHAPE = r"(?: of (?:the |your )?(?:square|hexagon|motif|piece|octagon|triangle))?"
_OF_ALL = r"(?: of the)?(?: (?:four|six|three|\d))?"
_EACH = rf"(?:(?:on|along|in|to|for|down|at) (?:each|every|all(?: four)?)|per|a|each){_OF_ALL}"
_CORNERS = r"(?:in )?between (?:the |each (?:of the )?|all )?corners?"
_TOLD = when_used(
    rf"(?<![\w-])(?P<n>{_NUMBER}) (?P<noun>[a-z][a-z-]*)(?: (?P<more>sps?|spaces?|groups?|clusters?|loops?))?"
    rf"(?: now| altogether| in total| each)? (?P<how>{_EACH} (?:sides?|edges?){_SHAPE}|{_CORNERS})\b"
    r"(?P<rest>[^.;()\n]{0,40})"
)
#: Work that is told by the side, and no count: "work 12 dc on each side", "2 dc in each ch-sp on each side".
_WORKS = when_used(
    r"(?:\b(?:work(?:ing)?|mak(?:e|ing)|crochet|evenly|place|add(?:ing)?|inc(?:reas(?:e|ing))?|dec(?:reas(?:e|ing))?"
    r"|skip(?:ping)?|with|leav(?:e|ing)|ch|sc|dc|hdc|tr|\*|\(|and|from|then|,|in|into|over|next) ?)$"
)
#: Fewest and most corners of a shape.
_FEWEST, _MOST = 3, 8


@dataclass(frozen=True, slots=True)
class BySide:
    """A count told by the side: how many, of what ("" where it is no plain stitch), its words, and where they begin."""

    count: int
    stitch: str
    words: str
    start: int


def told_by_side(low: str, terms: str) -> list[BySide]:
    """The counts that a row's words, in lower case, tell by the side, where they stand as a count does.

    >>> [(one.count, one.stitch) for one in told_by_side("3 sc in each corner, join. (12 sc per side)", "US")]
    [(12, 'sc')]
    >>> told_by_side("work 12 sc along each side, 3 sc in corners", "US")
    []
    """
    out = []
    for found in _TOLD.finditer(low):
        before = low[: found.start()]
        if before.rstrip().endswith(("(", "[")):
            before = "."
        if _WORKS.search(before) or before.rstrip().endswith(("*", ",")):
            continue
        noun = found["noun"]
        stitch = "st" if noun in ("st", "sts", "stitch", "stitches") else stitch_name(noun, terms) or ""
        other = found["more"] or found["rest"].startswith(" of ")  # "3 dc each side of the spine"
        words = " ".join(found[0].split()).strip(" ,]")
        out.append(BySide(number(found["n"]) or 0, "" if other else stitch, words, found.start()))
    return [one for one in out if one.count]


#: A way along the row ends of a flat piece; what says that it is gone more than once, or all round.
_ALONG_ENDS = when_used(
    r"\b(?:row[- ]ends?|ends? of (?:each |every |the )*rows?"
    r"|(?:down|up|along|across) (?:the )?(?:left |right |first |second |next |long |short )?(?:side|edge))\b"
)
_MORE_SIDES = when_used(
    r"\b(?:rep(?:eat)?|around|all|both|each side|every side|other|remaining|same|as (?:before|for)|opposite|entire"
    r"|whole|sides|edges)\b|\*"
)
_CLOSED = when_used(r"\b(?:join|sl st|ss|slip stitch)\b[^.;]{0,40}\b(?:first|beg(?:inning)?|top)\b")


def leaves_a_side(low: str) -> bool:
    """Whether a round about a flat piece, in lower case, goes along its row ends once and is joined to its beginning.

    >>> leaves_a_side("sc in each st, 3 sc in corner, sc in each row end, 3 sc in corner, join with sl st in first sc")
    True
    >>> leaves_a_side("sc in each row end, 3 sc in corner, sc in each ch, sc in each row end, join in first sc")
    False
    """
    ways = len(_ALONG_ENDS.findall(low))
    return ways == 1 and _CLOSED.search(low) is not None and _MORE_SIDES.search(low) is None


def sides_of(row: Row) -> list[list[Stitch]]:
    """The stitches and chains of a round side by side, each from one corner's chain to the next; [] where no corners
    can be told."""
    items = [s for s in row.stitches if s.role in ("stitch", "turning", "chain")]
    runs = Counter(s.chains for s in items if s.role == "chain" and s.chains > 1)
    longest = max(runs, default=0)
    if longest and _FEWEST <= runs[longest] <= _MOST:
        cuts = [n for n, s in enumerate(items) if s.role == "chain" and s.chains == longest]
        parts = [items[a + 1 : b] for a, b in pairwise(cuts)]
        return [*parts, items[cuts[-1] + 1 :] + items[: cuts[0]]]
    return []


def possible(row: Row, stitch: str) -> tuple[set[int], int]:
    """What may rightly be told of each side of a round, counting one stitch or ("st") all, and how many sides there
    are; nothing where its corners cannot be told or its sides differ."""
    held = Counter((s.place, s.feet[:1]) for s in row.stitches if counts(s) and s.feet)
    groups = Counter(number for number in held.values() if number > 2)
    sides = sides_of(row)
    if sides:
        made = {sum(1 for s in side if counts(s) and stitch in ("st", s.kind)) for side in sides}
        chains = {sum(s.chains for s in side if s.role == "chain") for side in sides}
        if len(made) != 1 or len(chains) != 1:
            return set(), len(sides)
        corner = _in_corners(row)
        whole, between = made.pop(), chains.pop()
        right = {whole, whole - corner, whole - 2 * corner}
        if stitch == "st":
            size = max(s.chains for s in row.stitches if s.role == "chain")
            chained = (between, size, 2 * size, between + size, between + 2 * size)
            right |= {one + more for one in right for more in chained}
        return right, len(sides)
    corners = [(size, times) for size, times in groups.items() if _FEWEST <= times <= _MOST]
    total = sum(1 for s in row.stitches if counts(s) and stitch in ("st", s.kind))
    if len(corners) != 1 or total % corners[0][1]:
        return set(), 0
    size, times = corners[0]
    between = total // times - size
    right = {between + n for n in (0, 2, size, size + 1, 2 * size)}
    return right if _alike_between(row, size, times) else set(), times


def may_be_groups(row: Row, count: int) -> bool:
    """Whether so many stitches stand in one place somewhere: "3 dc between corners" may then be a group of three."""
    held = Counter((s.place, s.feet[:1]) for s in row.stitches if counts(s) and s.feet)
    return count > 2 and Counter(held.values())[count] > 1


def _in_corners(row: Row) -> int:
    """How many stitches stand on each side of a corner's chain in the corner's own place."""
    items = [s for s in row.stitches if s.role in ("stitch", "turning", "chain")]
    longest = max(s.chains for s in items if s.role == "chain")
    found = set()
    for n, one in enumerate(items):
        if one.role == "chain" and one.chains == longest and one.place != -1:
            found.add(sum(1 for s in items[n + 1 :] + items[:n] if s.place == one.place and counts(s)) // 2)
    return max(found, default=0)


def _alike_between(row: Row, size: int, times: int) -> bool:
    """Whether as many stitches lie between each two places of so many."""
    items = [s for s in row.stitches if counts(s)]
    held = Counter((s.place, s.feet[:1]) for s in items if s.feet)
    keys = [(s.place, s.feet[:1]) if s.feet else None for s in items]
    begun = [n for n, key in enumerate(keys) if key and held[key] == size and (n == 0 or keys[n - 1] != key)]
    gaps = {b - a for a, b in pairwise(begun)} | ({len(items) - begun[-1] + begun[0]} if begun else set())
    return len(begun) in (times, times + 1) and len(gaps) == 1
