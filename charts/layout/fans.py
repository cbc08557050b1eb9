"""Wide fans and the lace on them: what stands on a fan with chains between pulls its tops apart.

A row is placed over the row below, so a fan would close up to one stitch a top and the arches on it would lean
out over its sides. Here the row above is looked at first: the tops of a fan that carry arches are set wider, and
the arches are held to the width of what they stand on.
"""

from __future__ import annotations

import itertools
from collections import Counter
from collections.abc import Sequence

from ..model.grid import Foot, Row, Stitch
from .bridge import tight_room

#: So many stitches in one place make a fan that the row above can pull wide.
WIDE_FAN = 5
#: How wide its tops are then set: the way of the chains over them at their tightest, up to this.
WIDEST_GAP = 1.4
#: Pulls of a row: the item before the wider gap, the item after it, and the way from top to top.
Pulls = tuple[tuple[int, int, float], ...]


def pulls_on(row: Row, above: Row | None) -> Pulls:
    """The pairs of tops of a fan that the row above stands on with chains between."""
    if above is None:
        return ()
    fanned = fan_items(row)
    if not fanned:
        return ()
    found = []
    for a, b, chains in _arches(above):
        pair = sorted((a, b))
        if set(pair) <= fanned and row.stitches[pair[0]].feet == row.stitches[pair[1]].feet:
            found.append((pair[0], pair[1], min(1.0 + tight_room(chains), WIDEST_GAP)))
    return tuple(sorted(found))


def fan_items(row: Row) -> set[int]:
    """The items of a row that stand in one place with four others or more."""
    feet = Counter(s.feet for s in row.stitches if s.feet and s.role in ("stitch", "turning"))
    wide = {f for f, count in feet.items() if count >= WIDE_FAN}
    return {i for i, s in enumerate(row.stitches) if s.feet in wide and s.role in ("stitch", "turning")}


def _arches(row: Row) -> list[tuple[int, int, int]]:
    """For every run of chains what the stitches on both sides of it go into in the row below, and its chains."""
    found: list[tuple[int, int, int]] = []
    last: Foot | None = None
    chains = 0
    for made in row.stitches:
        if made.role == "chain":
            chains += made.chains
        elif made.role in ("stitch", "turning"):
            foot = _only_foot(made)
            if last and foot and chains:
                found.append((last.at, foot.at, chains))
            last, chains = foot, 0
    return found


def _only_foot(made: Stitch) -> Foot | None:
    one = made.feet[0] if len(made.feet) == 1 else None
    return one if one and one.back == 1 and one.hold != "space" else None


def pulled(items: Sequence[int], gaps: Sequence[float], pulls: Pulls) -> list[float]:
    """The gaps of a row, those under an arch as wide as they are pulled; `items` are its tops in order."""
    wide = {(a, b): gap for a, b, gap in pulls}
    pairs = itertools.pairwise(items)
    return [max(gap, wide.get(pair, 0.0)) for gap, pair in zip(gaps, pairs, strict=True)]
