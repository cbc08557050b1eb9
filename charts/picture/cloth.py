"""The cloth: every stitch where it lies, in stitch widths, with the right side of the work facing the reader.

x runs to the right and y up; z, where it appears, towards the reader. Nothing here knows how it will be seen.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from ..layout.placing.placed import Spot
from ..model.cloth.fabric import Stitch

Place = tuple[float, float]

#: What of a row carries a V on its top.
TOPPED = ("stitch", "turning", "edge")
#: A V is no longer than this, in stitch widths: beyond lie chains.
LONGEST_TOP = 1.25
#: Where no chains lie between two stitches the yarn goes over, drawn long; further apart they are not neighbours.
LONGEST_DRAWN = 4.0
#: The V of the first stitch of a row lies on its own post.
EDGE_TOP = 0.5


@dataclass(frozen=True, slots=True)
class Made:
    """A stitch in the cloth.

    `back` is where its V begins, at the head before it; `along` the way the work goes there and `up` the way the row
    grows, both unit vectors; `face` is 1 where the one who made it had the right side before her, else -1. `line` is
    the middle line of its chains in the order of work. `lift` is how far its post stands out of the cloth towards the
    reader, `over` how far it passes in front of (or behind, negative) a stitch that it crosses, and `deep` whether it
    reaches down past the row below.
    """

    row: int
    spot: Spot
    made: Stitch
    head: Place
    feet: tuple[Place, ...]
    back: Place
    along: Place
    up: Place
    face: float
    colour: str
    line: tuple[Place, ...] = ()
    lift: float = 0.0
    over: float = 0.0
    deep: bool = False

    @property
    def is_topped(self) -> bool:
        return self.spot.role in TOPPED


@dataclass(frozen=True, slots=True)
class Cloth:
    """All stitches of a piece in the order of work; `box` is (left, bottom, right, top) of their places.

    `ended` says whether its last stitch is fastened off (so that its end is to be seen). `repeat` is the width and
    the height of one repeat of its texture, as far as it has one; `middle` a place within a typical stretch.
    """

    stitches: tuple[Made, ...]
    box: tuple[float, float, float, float]
    middle: Place
    repeat: Place
    ended: bool = True


def box_of(stitches: Iterable[Made]) -> tuple[float, float, float, float]:
    """The box of everything: left, bottom, right, top."""
    points = [p for s in stitches for p in (s.head, *s.feet, *s.line)]  # a picot's head is the far end of its loop
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    return min(xs) - 0.5, min(ys) - 0.3, max(xs) + 0.5, max(ys) + 0.2


def unit(dx: float, dy: float) -> Place:
    """A vector made one long; to the right where it has no length."""
    far = math.hypot(dx, dy)
    return (dx / far, dy / far) if far > 1e-6 else (1.0, 0.0)


def in_order(row: Sequence[Made], *, closed: bool = False) -> list[Made]:
    """The stitches of a row told where their V begins and which way the work goes: by the heads beside them."""
    tops = [at for at, s in enumerate(row) if s.is_topped]
    found = list(row)
    for place, at in enumerate(tops):
        here = row[at]
        before = row[tops[place - 1]] if place or closed else None
        after = row[tops[(place + 1) % len(tops)]] if place + 1 < len(tops) or closed else None
        gap = row[tops[place - 1] + 1 : at] if place else (*row[tops[-1] + 1 :], *row[:at])
        found[at] = _between(here, before, after, chained=any(s.spot.role == "chain" for s in gap))
    return found


def _between(here: Made, before: Made | None, after: Made | None, *, chained: bool) -> Made:
    """A stitch between its neighbours: a V is as long as the way to the one before, where no chains lie between."""
    (x, y), along = here.head, here.along
    reach = LONGEST_TOP * 2 if chained else LONGEST_DRAWN
    if before is not None and math.dist(before.head, here.head) < reach:
        along = unit(x - before.head[0], y - before.head[1])
    elif after is not None and math.dist(after.head, here.head) < LONGEST_TOP * 2:
        along = unit(after.head[0] - x, after.head[1] - y)
    if before is None:
        long = EDGE_TOP
    else:
        far = math.dist(before.head, here.head)
        long = min(0.9, LONGEST_TOP) if chained else far if far < LONGEST_DRAWN else LONGEST_TOP
    up = _upward(along, here.up)
    return replace(here, along=along, up=up, back=(x - along[0] * long, y - along[1] * long))


def _upward(along: Place, up: Place) -> Place:
    """The unit vector square to the work on the side of `up`."""
    square = (-along[1], along[0])
    return square if square[0] * up[0] + square[1] * up[1] >= 0 else (along[1], -along[0])


def crossed(row: Sequence[Made]) -> list[Made]:
    """The stitches of a row, those that cross brought before and behind each other."""
    found = list(row)
    for at, here in enumerate(row):
        if here.spot.behind:
            found[at] = replace(here, over=-0.24)
            if at + 1 < len(row):
                found[at + 1] = replace(row[at + 1], over=0.24)
    return found
