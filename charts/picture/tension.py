"""Yarn that gives way to yarn: where two strands would lie in each other they push each other aside.

Every strand is taken as a chain of places. Places of different strands that lie nearer than yarn can be pressed move
apart, each carrying its neighbours along; what is moved is drawn back towards where the stitch would have it. So
strands lie over and under each other as their strokes lead them, and posts bend a little where they are pressed.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence

import numpy as np
import numpy.typing as npt

from ..made_late import replace
from .strokes import Floats, radius
from .yarn import Bundle

#: Places of a strand lie so far apart, in stitch widths.
APART = 0.17
#: Yarn is pressed to this share of its thickness, no further.
PRESSED = 0.86
#: How often strands are moved, how much of what is too near is mended each time, how stiff a strand is, how
#: taut it is drawn, and how strongly a place is drawn back to where its stroke has it: in the cloth, and out of it.
TIMES, MENDED, STIFF, TAUT, BACK, BACK_OUT = 14, 0.7, 0.5, 0.05, 0.035, 0.012
#: How near places must be to be looked at, beyond where they touch.
LOOK_ROUND = 0.12
#: The ends of two strands so near their ends may lie in each other, for there the yarn goes on; and so far apart along
#: one strand two places can touch (stitch widths).
ENDS, BEND = 0.34, 0.62
#: More places than this lie too small to be seen in each other, and are left as they are; their yarn is drawn fuller,
#: for it fills less room than yarn that was pushed aside.
MOST_PLACES, FULLER = 160_000, 1.15
#: Where more places than this lie within what two strands reach (in usual cloth at most some 40 do), hundreds of
#: stitches are worked into one: there is nowhere to give way to, and they are left as they are.
CROWDED = 80

Places = npt.NDArray[np.int64]
Pairs = tuple[Places, Places]


def pressed(bundles: Sequence[Bundle], yarn: float = 1.0) -> list[Bundle]:
    """The strands where they lie after giving way to each other; `yarn` is how thick it is beside the usual."""
    if not bundles or sum(_long(b.points) for b in bundles) > MOST_PLACES * APART:
        return [replace(b, thick=b.thick * FULLER) for b in bundles]
    finer = [replace(b, points=resampled(b.points)) for b in bundles]
    rest = np.concatenate([b.points.reshape(-1, 3) for b in finer])
    wide = np.concatenate([np.full(b.points.shape[:2], radius() * yarn * b.thick, np.float32).ravel() for b in finer])
    one, other = _near(rest, wide, finer)
    touch = (wide[one] + wide[other]) * np.float32(PRESSED)
    shift = np.zeros_like(rest)
    back = np.array((1.0 - BACK, 1.0 - BACK, 1.0 - BACK_OUT), dtype=np.float32)
    for _ in range(TIMES):
        shift = _apart(rest + shift, shift, one, other, touch)
        for part, b in _parts(shift, finer):
            line = part + b.points
            part[:, 1:-1] += np.float32(TAUT) * ((line[:, :-2] + line[:, 2:]) / 2.0 - line[:, 1:-1])
            part[:, 1:-1] += np.float32(STIFF) * ((part[:, :-2] + part[:, 2:]) / 2.0 - part[:, 1:-1])
        shift *= back
    return [replace(b, points=b.points + part) for part, b in _parts(shift, finer)]


def _long(points: Floats) -> float:
    """How long all strands of a bundle are together, in stitch widths."""
    return float(np.sqrt((np.diff(points, axis=1) ** 2).sum(axis=2)).sum())


def _parts(flat: Floats, bundles: Sequence[Bundle]) -> Iterator[tuple[Floats, Bundle]]:
    """What belongs to each bundle of a list of places, as (strands, places, 3)."""
    at = 0
    for b in bundles:
        many = b.points.shape[0] * b.points.shape[1]
        yield flat[at : at + many].reshape(b.points.shape), b
        at += many


def resampled(points: Floats) -> Floats:
    """Strands (strands, points, 3) through as many places as they are long, evenly along a smooth line."""
    ends = np.concatenate((points[:, :1], points, points[:, -1:]), axis=1)
    steps = 6
    u = (np.arange(steps, dtype=np.float32) / steps)[:, None, None, None]
    p = [ends[:, k : k + points.shape[1] - 1][None] for k in range(4)]
    curve = 0.5 * (2 * p[1] + (p[2] - p[0]) * u + (2 * p[0] - 5 * p[1] + 4 * p[2] - p[3]) * u**2
                   + (3 * p[1] - p[0] - 3 * p[2] + p[3]) * u**3)
    line = np.concatenate((curve.transpose(1, 2, 0, 3).reshape(len(points), -1, 3), points[:, -1:]), axis=1)
    far = np.sqrt((np.diff(line, axis=1) ** 2).sum(axis=2)).cumsum(axis=1)
    far = np.concatenate((np.zeros((len(points), 1), np.float32), far), axis=1)
    many = max(4, math.ceil(float(far[:, -1].mean()) / APART) + 1)
    want = np.linspace(0.0, 1.0, many, dtype=np.float32)[None] * far[:, -1:]
    # one search for all strands: each has its own stretch of the number line
    base = np.arange(len(points), dtype=np.float64)[:, None] * (float(far.max()) + 1.0)
    at = np.searchsorted((far + base).ravel(), (want + base).ravel(), side="right") - 1
    first = np.repeat(np.arange(len(points)) * line.shape[1], many)
    at = np.clip(at, first, first + line.shape[1] - 2)
    flat, long = line.reshape(-1, 3), far.ravel()
    share = (want.ravel() - long[at]) / np.maximum(long[at + 1] - long[at], 1e-6)
    found = flat[at] + (flat[at + 1] - flat[at]) * np.clip(share, 0.0, 1.0)[:, None]
    return np.ascontiguousarray(found.reshape(len(points), many, 3), dtype=np.float32)


def _near(places: Floats, wide: Floats, bundles: Sequence[Bundle]) -> Pairs:
    """Pairs of places that touch or nearly do, but for neighbours on one strand and ends where the yarn goes on."""
    strand, along, left = [], [], []
    first = 0
    for b in bundles:
        many, long = b.points.shape[:2]
        strand.append(np.repeat(np.arange(first, first + many, dtype=np.int32), long))
        step = np.sqrt((np.diff(b.points, axis=1) ** 2).sum(axis=2)).mean(axis=1, keepdims=True)
        far = np.arange(long, dtype=np.float32)[None] * step
        along.append(far.ravel())
        left.append(np.minimum(far, far[:, -1:] - far).ravel())
        first += many
    number, far, end = np.concatenate(strand), np.concatenate(along), np.concatenate(left)
    reach = float(wide.max()) * 2.0 * PRESSED + LOOK_ROUND
    found = []
    for one, other in _in_cells(places, reach):
        gap = ((places[one] - places[other]) ** 2).sum(axis=1)
        keep = gap < ((wide[one] + wide[other]) * PRESSED + LOOK_ROUND) ** 2
        same = number[one] == number[other]
        keep &= ~same | (np.abs(far[one] - far[other]) > BEND)
        keep &= same | (end[one] > ENDS) | (end[other] > ENDS)
        found.append((one[keep], other[keep]))
    return np.concatenate([a for a, _ in found]), np.concatenate([b for _, b in found])


def _in_cells(places: Floats, size: float) -> Iterator[Pairs]:
    """All pairs of places in one cell of a grid or in cells side by side, each once; none where a cell is crowded."""
    cell = np.floor((places - places.min(axis=0)) / size).astype(np.int64) + 1
    high, deep = int(cell[:, 1].max()) + 2, int(cell[:, 2].max()) + 2
    key = (cell[:, 0] * high + cell[:, 1]) * deep + cell[:, 2]
    _, at, together = np.unique(key, return_inverse=True, return_counts=True)
    order = np.argsort(key, kind="stable")
    order = order[together[at.ravel()][order] <= CROWDED]
    sorted_ = key[order]
    for dx, dy, dz in itertools.product((0, 1), (-1, 0, 1), (-1, 0, 1)):
        off = (dx * high + dy) * deep + dz
        if off < 0:
            continue
        low = np.searchsorted(sorted_, sorted_ + off, side="left")
        low = np.maximum(low, np.arange(len(low)) + 1) if off == 0 else low
        many = np.maximum(np.searchsorted(sorted_, sorted_ + off, side="right") - low, 0)
        one = np.repeat(np.arange(len(low)), many)
        other = np.arange(int(many.sum())) - np.repeat(np.cumsum(many) - many, many) + np.repeat(low, many)
        yield order[one], order[other]


def _apart(now: Floats, shift: Floats, one: Places, other: Places, touch: Floats) -> Floats:
    """What is too near moved apart, each place by the mean of what pushes it."""
    way = now[one] - now[other]
    far = np.sqrt((way**2).sum(axis=1)) + np.float32(1e-5)
    near = np.flatnonzero(far < touch)
    push = way[near] * (np.float32(MENDED / 2.0) * (touch[near] - far[near]) / far[near])[:, None]
    a, b = one[near], other[near]
    many = len(now)
    count = np.bincount(a, minlength=many) + np.bincount(b, minlength=many)
    share = 1.0 / np.sqrt(np.maximum(count, 1))
    moved = [np.bincount(a, push[:, c], many) - np.bincount(b, push[:, c], many) for c in range(3)]
    found: Floats = shift + (np.stack(moved, axis=1) * share[:, None]).astype(np.float32)
    return found
