"""Wide fans and the lace on them: what stands on a fan with chains between pulls its tops apart.

A row is placed over the row below, so a fan would close up to one stitch a top and the arches on it would lean
out over its sides. Here the row above is looked at first: the tops of a fan that carry arches are set wider, and
the arches are held to the width of what they stand on.
"""

from __future__ import annotations

import itertools
from collections import Counter
from collections.abc import Mapping, Sequence
from typing import NamedTuple

from ...model.cloth.fabric import Foot, Row, Stitch
from .chain_room import room, tight_room

#: So many stitches in one place make a fan that the row above can pull wide.
WIDE_FAN = 5
#: How wide its tops are then set: the way of the chains over them at their tightest, up to this.
WIDEST_GAP = 1.4
#: From so many chains on a run beside a crowd is an arch, and how far each stitch too many leans out over it.
ARCHED, LEANING_OUT = 3, 0.8


class Pull(NamedTuple):
    """Two tops that the row above wants wider apart: the item before the gap, the item after it, the way from top to
    top, and how much farther than else the chains between keep from the one and from the other.

    `whole` is the way they would take if the whole fabric were laid wide enough for it; 0 where that does not matter.
    """

    before: int
    after: int
    gap: float
    after_first: float = 0.0
    before_last: float = 0.0
    whole: float = 0.0


Pulls = tuple[Pull, ...]


def pulls_on(row: Row, above: Row | None) -> Pulls:
    """The pairs of tops that the row above wants wider apart than they would stand."""
    if above is None:
        return ()
    return tuple(sorted([*_under_arches(row, above), *_beside_crowds(row, above)]))


def _beside_crowds(row: Row, above: Row) -> list[Pull]:
    """The runs of chains beside a few tops that carry more than they are: those lean out over the arch."""
    runs = _runs(row)
    over = [max(0.0, _carried(above, run) - len(run)) / 2.0 * LEANING_OUT for run, _ in runs]
    found = []
    for k, ((run, chains), (after, _)) in enumerate(itertools.pairwise(runs)):
        if chains >= ARCHED and over[k] + over[k + 1] > 0.0:
            whole = 1.0 + room(chains) + over[k] + over[k + 1]
            found.append(Pull(run[-1], after[0], 1.0 + tight_room(chains), over[k], over[k + 1], whole))
    return found


def _runs(row: Row) -> list[tuple[list[int], int]]:
    """The tops of a row that follow each other, and the chains after each such run."""
    runs: list[tuple[list[int], int]] = []
    tops: list[int] = []
    for item, made in enumerate(row.stitches):
        if made.role == "chain" and tops:
            runs.append((tops, made.chains))
            tops = []
        elif made.role in ("stitch", "turning"):
            tops.append(item)
    return [*runs, (tops, 0)] if tops else runs


def _carried(above: Row, run: Sequence[int]) -> int:
    """How many tops of the row above stand on a run of tops and on nothing else."""
    items = set(run)
    return sum(
        1
        for made in above.stitches
        if made.role in ("stitch", "turning")
        and made.feet
        and all(f.back == 1 and f.at in items and f.hold != "space" for f in made.feet)
    )


def _under_arches(row: Row, above: Row) -> list[Pull]:
    """The pairs of tops of a fan that the row above stands on with chains between."""
    fanned = fan_items(row)
    if not fanned:
        return []
    found = []
    for a, b, chains in _arches(above):
        pair = sorted((a, b))
        if set(pair) <= fanned and row.stitches[pair[0]].feet == row.stitches[pair[1]].feet:
            found.append(Pull(pair[0], pair[1], min(1.0 + tight_room(chains), WIDEST_GAP)))
    return found


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
    wide = {(pull[0], pull[1]): pull[2] for pull in pulls}
    pairs = itertools.pairwise(items)
    return [max(gap, wide.get(pair, 0.0)) for gap, pair in zip(gaps, pairs, strict=True)]


def kept_aside(pulls: Pulls, before: int, after: int) -> tuple[float, float]:
    """How much farther the chains between two tops keep from each of them."""
    found = next((p for p in pulls if (p[0], p[1]) == (before, after)), None)
    return (found.after_first, found.before_last) if found else (0.0, 0.0)


def crowding(pulls: Pulls, places: Mapping[int, float]) -> float:
    """The least share of the way they would take that tops beside a crowd have; 1 where all have it."""
    shares = [abs(places[p.after] - places[p.before]) / p.whole for p in pulls if p.whole]
    return min([1.0, *shares])


#: How far a stitch beside a fan may be pushed off what it goes into, in stitch widths.
PUSHED = 0.35


def pushing(feet: Sequence[object], wants: Sequence[float], places: Sequence[float]) -> float:
    """The least share of the way it takes that a wide fan has between what its neighbours go into, these pushed aside
    by no more than `PUSHED`; 1 where all have it. Of every top what it goes into, where that lies along the row, and
    where it stands."""
    groups = [list(same) for _, same in itertools.groupby(range(len(feet)), key=lambda k: feet[k])]
    found = [1.0]
    for before, fan, after in zip(groups, groups[1:], groups[2:], strict=False):
        if len(fan) < WIDE_FAN or len(before) > 1 or len(after) > 1:
            continue
        a, b = before[0], after[0]
        off = (wants[a] - places[a], places[b] - wants[b])
        if max(off) > PUSHED:
            found.append((wants[b] - wants[a] + 2.0 * PUSHED) / max(places[b] - places[a], 1e-6))
    return min(found)
