"""Where a motif turns: the corners of its rounds, found from the work and not from any name.

A corner is a chain space made by one group of stitches, or three stitches (or more, an odd number) in one
stitch among rounds that otherwise take one for one. A motif is a shape of three to six sides, or of eight, where its
rounds have so many of them, each worked into the corner of the round below. Half a motif, worked to and fro,
has one, two or three; what grows at the ends of its rows is no corner. A plain round on a shape has its corners where
that has them.
"""

from __future__ import annotations

import itertools
import math
from collections import Counter
from collections.abc import Sequence

from ...model.cloth.fabric import Row, Stitch, WorkedRow

#: How many corners make a shape that is drawn with straight sides.
SHAPES = (3, 4, 5, 6, 8)
#: From so many sides on a shape is nearly round: it is one only where its sides are solid. An arch has so many chains.
NEARLY_ROUND, ARCH = 7, 3
#: From so many points on, with larger fans between them, what has points is lace.
POINTED = 6
#: How many corners make a shape of a piece worked to and fro about its ring.
PART_SHAPES = (1, 2, 3)
#: What a plain round may have of stitches and chains for each of those below it, and how far its sides may differ.
LEAST_PLAIN, MOST_PLAIN, UNEVEN = 0.6, 1.5, 2.5
#: Rounds without corners lie on a shape of so many times as many with them.
BARE_SHARE = 2
#: What lies at a seam and is no part of a side.
LOOSE = ("start", "join", "travel")
_Place = tuple[int, int, str]


def corners_of(
    rounds: Sequence[WorkedRow], *, alone: bool = True, closed: bool = True
) -> list[tuple[int, ...]] | None:
    """For every round the items at its corners; None where the work is round.

    Plain rounds at the centre have none. `alone` says whether a single round with chain corners makes a
    shape; `closed` whether they are rounds, not rows that turn at their ends. Where a corner lies between two items
    it is the second.
    """
    found = places_of(rounds, alone=alone, closed=closed)
    return None if found is None else [tuple(math.ceil(at) for at in places) for places in found]


def places_of(
    rounds: Sequence[WorkedRow], *, alone: bool = True, closed: bool = True
) -> list[tuple[float, ...]] | None:
    """`corners_of` with a corner that lies between two items halfway between them.

    The last rounds need no corners of their own: plain ones follow the shape that they are worked on, and a few others
    lie about it without any.
    """
    found: list[tuple[float, ...]] = []
    for k, worked in enumerate(rounds):
        below = found[-1] if found else ()
        here = _corners(worked.row, below, closed=closed)
        if below and len(here) != len(below):
            if not _is_shape(rounds, found, alone=alone):
                return None
            here = _followed(worked.row, rounds[k - 1].row, below, closed=closed)
            if not here:
                bare = len(rounds) - k
                return [*found, *[()] * bare] if closed and _may_be_bare(found, bare) else None
        found.append(here)
    return found if _is_shape(rounds, found, alone=alone) else None


def _may_be_bare(found: Sequence[tuple[float, ...]], bare: int) -> bool:
    """Whether so many last rounds may have no corners on a shape: one of few sides that has more rounds than these."""
    shaped = [c for c in found if c]
    return bool(shaped) and len(shaped[-1]) < POINTED and bare * BARE_SHARE <= len(shaped)


def _is_shape(rounds: Sequence[WorkedRow], found: Sequence[tuple[float, ...]], *, alone: bool) -> bool:
    """Whether enough rounds have corners to make a shape."""
    shaped = [c for c in found if c]
    pairs = zip(rounds, found, strict=False)
    plain_chain = any(worked.row.stitches[int(c[0])].role == "chain" for worked, c in pairs if c)
    return len(shaped) >= (1 if plain_chain and alone else 2) and not _is_lace(rounds, shaped, found)


def _is_lace(
    rounds: Sequence[WorkedRow], shaped: Sequence[tuple[float, ...]], found: Sequence[tuple[float, ...]]
) -> bool:
    """Whether what has many corners has arches along its sides, as a doily has between the points of its pattern, or
    chains as long there as at them; with fewer corners, where a fan stands there too that is larger than what is worked
    into them, as in a pineapple."""
    many, pairs = len(shaped[-1]), list(zip(rounds, found, strict=False))
    if many < POINTED:
        return False
    runs = [
        (item in corners, made.chains)
        for worked, corners in pairs
        for item, made in enumerate(worked.row.stitches)
        if corners and made.role == "chain"
    ]
    longest = max((chains for corner, chains in runs if not corner), default=0)
    if many >= NEARLY_ROUND:
        return longest >= min([ARCH, *(chains for corner, chains in runs if corner)])
    return longest >= ARCH and any(_fans_between(worked.row, corners) for worked, corners in pairs if corners)


def _fans_between(row: Row, corners: Sequence[float]) -> bool:
    """Whether more stitches go into one place along a side than into any corner."""
    groups = Counter(
        place for s in row.stitches if s.role in ("stitch", "turning") for place in _places(s) if place[2] != "ring"
    )
    at_corners = {
        place
        for c in corners
        for s in (row.stitches[int(c)], _neighbour(row, int(c), -1), _neighbour(row, int(c), 1))
        if s is not None
        for place in _places(s)
    }
    most = max((count for place, count in groups.items() if place in at_corners), default=0)
    return any(count > most for count in groups.values())


def _corners(row: Row, below: tuple[float, ...], *, closed: bool) -> tuple[float, ...]:
    """The corner items of one round over the corners of the last."""
    tries = [_chain_corners(row), _one_stitch_corners(row)]
    if not closed:
        tries = [_inside(row, items) for items in tries]
    if below:
        tries = [[i for i in items if _feet_near(row, i) & set(below)] for items in tries]
        tries.append(_carried(row, below))
    for items in tries:
        if len(items) in (SHAPES if closed else PART_SHAPES) and (not below or len(items) == len(below)):
            return tuple(items)
    return ()


def _inside(row: Row, items: Sequence[int]) -> list[int]:
    """Those that are not part of what is worked into the place of the row's first stitch or its last."""
    tops = [i for i, s in enumerate(row.stitches) if s.role in ("stitch", "turning")]
    ends = {p for i in (tops[:1] + tops[-1:]) for p in _places(row.stitches[i]) if p[2] != "ring"}
    return [i for i in items if tops[0] < i < tops[-1] and not ends & set(_places(row.stitches[i]))]


def _chain_corners(row: Row) -> list[int]:
    """Chain runs between two stitches that go into one place: the space in the middle of a corner group."""
    items = [i for i, s in enumerate(row.stitches) if s.role == "chain"]
    inside = [i for i in items if _same_place(row, i)]
    most = max((row.stitches[i].chains for i in inside), default=0)
    corners = [i for i in inside if row.stitches[i].chains == most]
    return corners if _sides_between(row, corners) else []


def _sides_between(row: Row, corners: Sequence[int]) -> bool:
    """Whether at least two stitches lie between neighbouring corners: single ones between arches make no
    side.
    """
    order = [*corners, corners[0] + len(row.stitches)] if corners else []
    return all(
        sum(row.stitches[i % len(row.stitches)].role in ("stitch", "turning") for i in range(a + 1, b)) >= 2
        for a, b in itertools.pairwise(order)
    )


def _same_place(row: Row, item: int) -> bool:
    before, after = _neighbour(row, item, -1), _neighbour(row, item, 1)
    if before is None or after is None:
        return False
    return bool(set(_places(before)) & set(_places(after)))


def _neighbour(row: Row, item: int, step: int) -> Stitch | None:
    """The nearest stitch before or after an item, on round the seam."""
    count = len(row.stitches)
    for k in range(1, count):
        near = row.stitches[(item + step * k) % count]
        if near.role in ("stitch", "turning"):
            return near
    return None


def _places(made: Stitch) -> list[_Place]:
    return [(f.at, f.back, f.hold) for f in made.feet]


def _one_stitch_corners(row: Row) -> list[int]:
    """The middle of three (or five ...) stitches in one stitch, where most stitches stand alone."""
    groups: dict[_Place, list[int]] = {}
    for i, made in enumerate(row.stitches):
        if (
            made.role in ("stitch", "turning")
            and len(made.feet) == 1
            and made.feet[0].hold not in ("ring", "space")
        ):
            groups.setdefault((made.feet[0].at, made.feet[0].back, made.feet[0].hold), []).append(i)
    sizes = Counter(len(items) for items in groups.values())
    big = [items for items in groups.values() if len(items) >= 3 and len(items) % 2 == 1]
    if not big or sizes[1] < len(big):
        return []
    return sorted(items[len(items) // 2] for items in big)


def _feet_near(row: Row, item: int) -> set[int]:
    """The items below that a corner stands in: its own feet, or those of its neighbours."""
    own = row.stitches[item]
    made = [own] if own.feet else [s for s in (_neighbour(row, item, -1), _neighbour(row, item, 1)) if s]
    return {f.at for s in made for f in s.feet if f.back == 1}


def _carried(row: Row, below: tuple[float, ...]) -> list[int]:
    """One item for each corner below: the middle of those that go into it."""
    found = []
    for corner in below:
        items = [
            i
            for i, s in enumerate(row.stitches)
            if s.role in ("stitch", "turning") and any(f.at == corner and f.back == 1 for f in s.feet)
        ]
        if items and len(items) % 2 == 1:
            found.append(items[len(items) // 2])
    return sorted(found)


# -- rounds without corners of their own ----------------------------------------------------------------------------


def _followed(row: Row, base: Row, below: tuple[float, ...], *, closed: bool) -> tuple[float, ...]:
    """The places of a plain round that lie over the corners below; none where it is not plain."""
    places = [_over(row, corner) for corner in below]
    found = tuple(sorted(at for at in places if at is not None))
    tight = not all(a < b for a, b in itertools.pairwise(found))
    sizes = (_size(row), row.made + min(row.chains, 2 * _arches(row)))
    plain = any(LEAST_PLAIN < size / _size(base) < MOST_PLAIN for size in sizes)
    if len(found) < len(below) or tight or not plain:
        return ()
    lying = [i for i, s in enumerate(row.stitches) if s.role not in LOOSE]
    ranks = [sum(i < at for i in lying) + (0.5 if at % 1.0 else 0.0) for at in found]
    sides = [b - a for a, b in itertools.pairwise((*ranks, ranks[0] + len(lying)))]
    return found if not closed or max(sides) - min(sides) <= UNEVEN else ()


def _size(row: Row) -> int:
    """How many stitches and chains lie along a round."""
    return max(row.made + row.chains, 1)


def _arches(row: Row) -> int:
    """How many runs of chains a round has."""
    return sum(made.role == "chain" for made in row.stitches)


def _over(row: Row, corner: float) -> float | None:
    """Where along a round a corner below lies: in the middle of what goes into it, else between two neighbours."""
    tops = [i for i, s in enumerate(row.stitches) if s.role in ("stitch", "turning") and _feet(s)]
    on = [i for i in tops if corner in _feet(row.stitches[i])]
    if on:
        return (on[(len(on) - 1) // 2] + on[len(on) // 2]) / 2.0
    for a, b in itertools.pairwise(tops):
        left, right = _feet(row.stitches[a]), _feet(row.stitches[b])
        if max(left) < corner < min(right) or max(right) < corner < min(left):
            return (a + b) / 2.0
    return None


def _feet(made: Stitch) -> list[int]:
    """What a stitch goes into of the round below."""
    return [f.at for f in made.feet if f.back == 1]
