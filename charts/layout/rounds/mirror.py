"""Rounds that look the same in a mirror: where they do by their words, they are kept so while they are placed.

A petal of five stitches, a picot and five more is the same read backwards. Left to themselves such rounds may settle
aslant, all petals to one side, since that gives a little more room; nobody draws them so. Where not all rounds have
one mirror, as where fans stand over every second of many equal loops, rounds that follow each other have their own,
over the one inside them as it lies.

Rounds that come again in many sectors are kept so, too, where a later round does not: one repeat that is otherwise, as
beside a seam, must not set all that lies inside it askew.
"""

from __future__ import annotations

import cmath
import math
from collections.abc import Mapping

import numpy as np

from ...made_late import dataclass
from ...model.cloth.fabric import Foot
from .net import Net
from .plan import Planned, Top, bridge_of, place_of, sectors
from .springs import Ids, Points, Reals

#: How near two places of the centre must lie to be one, and two ways of lying to be one.
ONE_PLACE = 0.01


@dataclass(frozen=True, slots=True)
class Mirror:
    """For every point of a sector the point it is the image of, and the turn to there, 0 for points of rounds that have
    no part in it; `axis` is the square of the unit vector along the mirror, where the centre says which way it lies.
    `moved` is 1 for the points that are made even, else 0: not those of a round that others stand on."""

    points: Ids
    turns: Points
    axis: complex | None
    moved: Reals

    def axis_of(self, points: Points) -> complex:
        """The square of the unit vector along the mirror in which the points lie at best."""
        if self.axis is not None:
            return self.axis
        whole = complex((points * points[self.points] * self.turns).sum())
        return whole / abs(whole) if abs(whole) > 1e-9 else 1.0

    def even(self, points: Points) -> Points:
        """The points halfway to their images: each the image of its fellow."""
        images = self.axis_of(points) * (points[self.points] * self.turns).conj()
        halfway: Points = points + self.moved * (images - points) / 2.0
        return halfway


def mirror_of(net: Net) -> Mirror | None:
    """The mirror of rounds that read the same backwards; None of others."""
    if not net.rounds:
        return None
    sums, axis = _longest(net, 0)
    return _mirror(net, sums, axis) if len(sums) == len(net.rounds) else None


def mirrors_of(net: Net, *, apart: bool) -> list[Mirror]:
    """The mirror of all rounds, or those of as many that follow each other as have one: so only where rounds may be
    looked at `apart`, which lie about a point and have no corners. One round over another is not yet a figure of its
    own, nor are solid rounds, which turn a little with their increases."""
    whole = mirror_of(net)
    if whole or not apart:
        return [whole] if whole else []
    found, first = list[Mirror](), 0
    while first < len(net.rounds) - 1:
        sums, axis = _longest(net, first)
        end = first + len(sums) - 1
        if end > first + (first > 0) and any(top.bridge for k in sums for top in net.rounds[k].tops):
            found.append(_mirror(net, sums, axis))
        first = max(end, first + 1)
    return found


def _longest(net: Net, first: int) -> tuple[dict[int, int], complex | None]:
    """The most rounds from `first` on that have one mirror: where each is turned over, so that top t is the image of
    top `sum - t`, by round; and how the mirror lies."""
    tries = (_turned(net, first, whole) for whole in range(net.each(net.rounds[first])))
    return max(tries, key=lambda tried: len(tried[0]))


def _turned(net: Net, first: int, whole: int) -> tuple[dict[int, int], complex | None]:
    """The rounds from `first` on that have the mirror that turns its tops over at `whole`."""
    sums: dict[int, int] = {}
    axis: complex | None = None
    for k in range(first, len(net.rounds)):
        tries = range(len(net.rounds[k].tops)) if k > first else (whole,)
        found = next((s for s in tries if _alike(net, sums, k, s)), None)
        if found is None:
            break
        lies = _lies(net, k, found)
        if len(lies) > 1 or (lies and axis is not None and abs(lies[0] - axis) > ONE_PLACE):
            break
        sums[k] = found
        axis = lies[0] if lies else axis
    return sums, axis


def _alike(net: Net, sums: Mapping[int, int], k: int, whole: int) -> bool:
    """Whether round k is the same read backwards; of the innermost that is looked at, what it goes into is not."""
    tops = net.rounds[k].tops
    pairs = ((top, tops[(whole - t) % len(tops)], tops[(whole - t - 1) % len(tops)]) for t, top in enumerate(tops))
    return all(_same(net, sums, k, *pair) for pair in pairs)


def _same(net: Net, sums: Mapping[int, int], k: int, top: Top, image: Top, bridged: Top) -> bool:
    """Whether a top is its image, and the chains after it those after `bridged`, backwards."""
    one, other = top.made, image.made
    if (one.kind, one.legs, one.base) != (other.kind, other.legs, other.base):
        return False
    row = net.rounds[k].row
    if bridge_of(row, top) != bridge_of(row, bridged)[::-1]:
        return False
    if "turning" in (one.role, other.role) and not (one.feet and other.feet):
        return True
    if k and not sums:
        return True
    if len(one.feet) != len(other.feet):
        return False
    return all(_opposite(net, sums, k, f, g) for f, g in zip(one.feet, reversed(other.feet), strict=True))


def _opposite(net: Net, sums: Mapping[int, int], k: int, f: Foot, g: Foot) -> bool:
    """Whether two feet are images of each other; those in the centre are looked at by `_lies`."""
    if f.back != g.back or (f.hold == "space") != (g.hold == "space") or f.back < 1:
        return False
    down = k - f.back
    if down < 0 or f.hold == "ring":
        return True
    if down not in sums:
        return False
    below = net.rounds[down]
    one, other = place_of(below, f), place_of(below, g)
    if one is None or other is None or one[1] != other[1]:
        return False
    after, arched, share = one
    image = sums[down] - after - arched + (0 if arched or not share else 1)
    far = 1.0 - share if arched else share
    return (image - other[0]) % len(below.tops) == 0 and abs(far - other[2]) < ONE_PLACE


def _lies(net: Net, k: int, whole: int) -> list[complex]:
    """The ways that a mirror must lie by the places of the centre that a round goes into."""
    tops, found = net.rounds[k].tops, list[complex]()
    for t, top in enumerate(tops):
        other = tops[(whole - t) % len(tops)].made
        for f, g in zip(top.made.feet, reversed(other.feet), strict=False):
            a, b = (net.middle(foot) if k - foot.back == -1 else None for foot in (f, g))
            if a is None or b is None or abs(a) < ONE_PLACE or abs(b) < ONE_PLACE:
                continue
            lie = a * b / (abs(a) * abs(b))
            if abs(abs(a) - abs(b)) > ONE_PLACE:
                return [1.0, -1.0]
            if not any(abs(lie - known) < ONE_PLACE for known in found):
                found.append(lie)
    return found


def _mirror(net: Net, sums: Mapping[int, int], axis: complex | None) -> Mirror:
    points, turns = np.arange(net.count, dtype=np.intp), np.zeros(net.count, dtype=np.complex128)
    moved = np.zeros(net.count)
    for k, whole in sums.items():
        for here, (point, turn) in _pairs(net, k, net.rounds[k], whole):
            points[here], turns[here] = point, turn
            moved[here] = 1.0 if k > min(sums) or k == 0 else 0.0
    return Mirror(points, turns, axis, moved)


def _pairs(net: Net, k: int, round_: Planned, whole: int) -> list[tuple[int, tuple[int, complex]]]:
    """Every point of a round's first sector with the point it is the image of, and the turn to that."""
    found = []
    for t in range(net.each(round_)):
        found.append((net.head(k, t).terms[0][0], net.head(k, (whole - t) % len(round_.tops)).terms[0]))
        if round_.tops[t].chains:
            found.append((net.arch(k, t).terms[0][0], net.arch(k, (whole - t - 1) % len(round_.tops)).terms[0]))
    return found


#: Rounds that come again so often at least are kept so where all together come again less often.
LEAST_SECTORS = 3


@dataclass(frozen=True, slots=True)
class Turning:
    """Points that are the same turned about the centre, a row for each: their numbers, and the factors that turn them
    to the place of the first."""

    points: tuple[Ids, ...]
    turns: tuple[Points, ...]

    def even(self, points: Points) -> Points:
        """The points each at the mean of all that are the same as it."""
        made = points.copy()
        for ids, turns in zip(self.points, self.turns, strict=True):
            made[ids] = (points[ids] * turns).mean(axis=1)[:, None] / turns
        return made


def turning_of(net: Net) -> Turning | None:
    """How the inner rounds come again in more sectors than all together do, each in as many as it does with those
    inside it; None where the whole comes again often enough."""
    if net.n >= LEAST_SECTORS:
        return None
    ids, turns = list[Ids](), list[Points]()
    for k, round_ in enumerate(net.rounds):
        n = sectors(net.rounds[: k + 1], net.middle)
        if n < LEAST_SECTORS:
            break
        step = len(round_.tops) // n
        refs = [[net.head(k, t + s * step) for s in range(n)] for t in range(step)]
        refs += [[net.arch(k, t + s * step) for s in range(n)] for t in range(step) if round_.tops[t].chains]
        back = [cmath.rect(1.0, -round_.sign * math.tau * s / n) for s in range(n)]
        ids.append(np.array([[ref.terms[0][0] for ref in row] for row in refs]))
        turns.append(np.array([[ref.terms[0][1] * b for ref, b in zip(row, back, strict=True)] for row in refs]))
    return Turning(tuple(ids), tuple(turns)) if ids else None
