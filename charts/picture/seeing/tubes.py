"""Yarn on the canvas: round tubes about smooth lines, sampled closer than a pixel.

Strands are drawn a batch at a time, those nearest to the reader first, and what certainly lies behind what is there is
not sampled. What is seen does not depend on that order: of two samples in one depth the later strand is seen.
"""

from __future__ import annotations

import functools
import math
from collections.abc import Iterator, Sequence

import numpy as np
import numpy.typing as npt

from ...made_late import dataclass
from ..strokes import Floats, Ints
from .canvas import Canvas
from .fibre import (
    FIBRES_FROM,
    GROOVED,
    LAY,
    PLY_FROM,
    RAISED,
    SLUB,
    SPECKLE,
    fibres,
    relief,
    relief_over,
    slubs,
    strength,
)
from .hidden import Hidden

Places = npt.NDArray[np.int64]

#: Samples lie so far apart, in pixels; a batch has at most so many of them, of which so many are reckoned at a time (as
#: fit the processor's own memory).
STEP = 0.8
MOST_SAMPLES, AT_ONCE = 300_000, 24_000
#: On thin yarn, of which there is most, they lie a little farther apart.
THIN_STEP = 0.94
#: Round a strand they lie closer towards its edges; there are so many times as many.
AT_EDGE = 1.25
#: Where a strand turns while it points to the reader (its way on the screen is so short a share of it) its sides swing
#: round between two samples: a ball of so large a share of its radius fills it there. Yarn too thin to show its plies
#: is left as it is.
STEEP, BALL = 0.45, 1.0
#: No part of a strand lies farther from its middle line than this, in radii, nor a pixel more.
REACH, SLIP = 1.0 + SLUB + 0.01, 1.0


@dataclass(frozen=True, slots=True, eq=False)
class Strands:
    """Strands of one stroke on the screen: control points (strands, points, 3) in pixels, and of each the radius in
    pixels, its stitch, and the place of its colour."""

    points: Floats
    radius: Floats
    stitch: Ints
    colour: Ints


@dataclass(frozen=True, slots=True, eq=False)
class _Batch:
    """Strands that are sampled alike: how many samples each part of their lines has, the place of the first among all
    strands, the largest radius, and how near they are to the reader on the whole."""

    yarn: Strands
    counts: tuple[int, ...]
    first: int
    widest: float
    near: float


@dataclass(frozen=True, slots=True, eq=False)
class _Lines:
    """The middle lines of strands at their samples (strands, samples): where they are, the way they go, how much of it
    is across the screen, and how far along each is, in pixels."""

    middle: Floats
    way: Floats
    flat: Floats
    along: Floats


def draw_yarn(canvas: Canvas, yarn: Sequence[Strands]) -> None:
    """Draw strands, the later before the earlier where they lie in one depth."""
    order = np.full(len(canvas.depth), -1, dtype=np.int32)
    hidden = Hidden(canvas)
    for batch in sorted(_batches(canvas, yarn), key=lambda batch: -batch.near):
        _draw(canvas, batch, order, hidden)


def _batches(canvas: Canvas, yarn: Sequence[Strands]) -> Iterator[_Batch]:
    """All that has anything on the canvas, in batches that are not too large."""
    first = 0
    for every in yarn:
        seen = _inside(canvas, every.points, every.radius)
        part = every if seen.all() else _of(every, seen)
        done = 0
        while done < len(part.points):
            rest = part.points[done:]
            many = max(1, min(len(rest), _room(rest[:64], float(part.radius[done : done + 64].max()))))
            here = _of(part, slice(done, done + many))
            widest = float(here.radius.max())
            yield _Batch(here, _counts(here.points, widest), first, widest, float(here.points[:, :, 2].mean()))
            done += many
            first += many + 1  # one more for its balls


def _of(yarn: Strands, which: npt.NDArray[np.bool_] | Places | slice) -> Strands:
    """Some of the strands."""
    return Strands(yarn.points[which], yarn.radius[which], yarn.stitch[which], yarn.colour[which])


def _inside(canvas: Canvas, points: Floats, radius: Floats) -> npt.NDArray[np.bool_]:
    """Which strands have anything on the canvas."""
    low, high = points.min(axis=1), points.max(axis=1)
    found: npt.NDArray[np.bool_] = (
        (high[:, 0] + radius > 0) & (low[:, 0] - radius < canvas.wide)
        & (high[:, 1] + radius > 0) & (low[:, 1] - radius < canvas.high)
    )  # fmt: skip
    return found


def _room(points: Floats, radius: float) -> int:
    """How many such strands are drawn at a time."""
    counts = _counts(points, radius)
    return max(1, MOST_SAMPLES // max(1, sum(counts) * _around(radius)))


def _around(radius: float) -> int:
    return max(3, math.ceil(2.0 * _closer(radius) * radius / _step(radius)) + 1)


def _step(radius: float) -> float:
    """How far apart samples lie on strands of a radius."""
    return STEP if radius > FIBRES_FROM else THIN_STEP


def _closer(radius: float) -> float:
    """How much closer samples lie at the edges of strands of a radius than they need to for a plain tube."""
    return AT_EDGE if radius > FIBRES_FROM else 1.0


def _counts(points: Floats, radius: float) -> tuple[int, ...]:
    """How many samples each part of the line needs: by its length, and by the way its outside takes round a turn."""
    steps = np.diff(points, axis=1)
    long = np.sqrt((steps**2).sum(axis=2))
    ways = steps / np.maximum(long, 1e-6)[:, :, None]
    turn = np.zeros_like(long)
    bend = np.arccos(np.clip((ways[:, 1:] * ways[:, :-1]).sum(axis=2), -1.0, 1.0))
    turn[:, 1:] += bend / 2.0
    turn[:, :-1] += bend / 2.0
    need = (long * 1.12 + turn * radius * 1.15).max(axis=0) / _step(radius)
    if need.max() < 1.8 * need.mean():  # alike: one count for all, of which there are few
        need = np.full_like(need, need.max())
    return tuple(_even(float(n)) for n in np.maximum(need, 2.0))


def _even(need: float) -> int:
    """A count of samples, rounded up so that many strands have the same counts."""
    step = 2 if need < 24 else 4 if need < 80 else 16
    return math.ceil(need / step) * step


@functools.lru_cache(maxsize=256)
def _weights(counts: tuple[int, ...]) -> tuple[Floats, Floats, Floats]:
    """How samples and their tangents come from control points (Catmull-Rom), and how long a step each stands for."""
    n = len(counts) + 1
    rows, slopes, steps = [], [], []
    for k, count in enumerate(counts):
        u = np.linspace(0.0, 1.0, count, endpoint=k == n - 2)[:, None]
        b = np.hstack((-u + 2 * u**2 - u**3, 2 - 5 * u**2 + 3 * u**3, u + 4 * u**2 - 3 * u**3, u**3 - u**2))
        d = np.hstack((-1 + 4 * u - 3 * u**2, -10 * u + 9 * u**2, 1 + 8 * u - 9 * u**2, 3 * u**2 - 2 * u))
        row, slope = np.zeros((count, n)), np.zeros((count, n))
        for j in range(4):
            at = min(max(k + j - 1, 0), n - 1)
            row[:, at] += b[:, j] / 2.0
            slope[:, at] += d[:, j] / 2.0
        rows.append(row)
        slopes.append(slope)
        steps.append(np.full(count, 1.0 / count))
    every, ways, each = (np.concatenate(part).astype(np.float32) for part in (rows, slopes, steps))
    return every, ways, each


def _draw(canvas: Canvas, batch: _Batch, order: Ints, hidden: Hidden) -> None:
    """Draw what is to be seen of some strands."""
    seen = _uncovered(batch, hidden)
    if not len(seen):
        return
    yarn = batch.yarn if len(seen) == len(batch.yarn.points) else _of(batch.yarn, seen)
    lines = _lines(yarn.points, batch.counts)
    reach = np.float32(REACH) * yarn.radius[:, None] + np.float32(SLIP)
    rings = hidden.uncovered(lines.middle, reach)
    _draw_rings(canvas, batch, yarn, lines, (seen + batch.first).astype(np.int32), rings.nonzero(), order)
    hidden.changed(lines.middle[rings], float(reach.max()), int(rings.sum()) * _around(batch.widest))
    if batch.widest > PLY_FROM:
        which, at = _turns(lines.flat)
        may = rings[which, at]
        _draw_balls(canvas, batch, yarn, lines, (which[may], at[may]), order)


def _uncovered(batch: _Batch, hidden: Hidden) -> Places:
    """The places of the strands of a batch that do not lie all behind what is there. No part of a line is farther from
    its nearest control point than the longest way from one of them to the next."""
    points = batch.yarn.points
    long = np.sqrt((np.diff(points, axis=1) ** 2).sum(axis=2)).max(axis=1) if points.shape[1] > 1 else 0.0
    reach = np.float32(REACH) * batch.yarn.radius + np.float32(SLIP) + long
    return np.flatnonzero(hidden.uncovered(points, reach[:, None]).any(axis=1))


def _lines(points: Floats, counts: tuple[int, ...]) -> _Lines:
    """The middle lines of strands through control points (strands, points, 3)."""
    rows, slopes, steps = _weights(counts)
    middle = np.matmul(rows, points)
    way = np.matmul(slopes, points)
    speed = np.sqrt((way**2).sum(axis=2)) + np.float32(1e-6)
    along = np.cumsum(speed * steps, axis=1)
    way /= speed[:, :, None]
    return _Lines(middle, way, np.hypot(way[:, :, 0], way[:, :, 1]), along)


def _draw_rings(
    canvas: Canvas, batch: _Batch, yarn: Strands, lines: _Lines, number: Ints, rings: Sequence[Places], order: Ints
) -> None:  # fmt: skip
    """Draw the near halves of rings about lines, each told by its strand and its sample; `number` is the place of each
    strand among all."""
    widest = batch.widest
    share = np.linspace(-1.0, 1.0, _around(widest), dtype=np.float32)
    share *= _closer(widest) - (_closer(widest) - 1.0) * share**2
    front = np.sqrt(np.maximum(1.0 - share**2, 0.0), dtype=np.float32)
    angle = np.arcsin(share)
    lay = np.divide(lines.along, yarn.radius[:, None], dtype=np.float32)
    chance = yarn.stitch * np.int32(31) + np.int32(yarn.points.shape[1])
    wide = yarn.radius[:, None] * _rounded(lines.along, yarn.radius[:, None]) * slubs(lay, chance[:, None])
    found = []
    at_once = max(1, AT_ONCE // len(share))
    for first in range(0, len(rings[0]), at_once):
        strand, sample = (places[first : first + at_once] for places in rings)
        side, face = _square(lines.way[strand, sample], lines.flat[strand, sample])
        thick = wide[strand, sample][:, None]
        if widest > PLY_FROM:
            thick = thick * relief_over(angle, lay[strand, sample], yarn.radius[strand])
        middle = lines.middle[strand, sample]
        x, y, z = (_spread(middle, side, face, c, thick, share, front) for c in range(3))
        there, won = _nearest(canvas, order, (x, y, z), number[strand])
        found.append((there, first + won // len(share), won % len(share)))
    if not found:
        return
    there, ring, round_at = (np.concatenate(part) for part in zip(*found, strict=True))
    strand, sample = rings[0][ring], rings[1][ring]
    way = lines.way[strand, sample]
    side, face = _square(way, lines.flat[strand, sample])
    _keep(canvas, there, angle[round_at], way, side, face, lay[strand, sample], yarn.radius[strand], chance[strand],
          fibrous=widest > FIBRES_FROM)
    canvas.colour[there] = yarn.colour[strand]
    canvas.owner[there] = yarn.stitch[strand]


def _nearest(canvas: Canvas, order: Ints, places: tuple[Floats, Floats, Floats], number: Ints) -> tuple[Places, Places]:
    """Keep what is nearest of places (x, y, depth), of which equally many go to each `number` in turn: those of a
    higher number are drawn later. The cells that are now theirs, and which of the places are in them."""
    x, y, z = places
    cells = canvas.cells(x, y)
    before = canvas.depth[cells]
    near = np.flatnonzero(z >= before)
    there, deep = cells[near], z[near]
    np.maximum.at(canvas.depth, there, deep)
    whose = number[near // (len(z) // len(number))]
    won = (canvas.depth[there] == deep) & (there < canvas.wide * canvas.high)
    won &= (before[near] < deep) | (order[there] <= whose)
    order[there[won]] = whose[won]
    return there[won], near[won]


def _square(way: Floats, flat: Floats) -> tuple[Floats, Floats]:
    """Two unit vectors square to ways (places, 3): level, and towards the reader."""
    steep = flat < 1e-3
    flat = np.where(steep, np.float32(1e-3), flat)
    side = np.stack((-way[:, 1] / flat, way[:, 0] / flat, np.zeros_like(flat)), axis=1)
    side[steep] = (1.0, 0.0, 0.0)
    return side, np.stack((-way[:, 2] * side[:, 1], way[:, 2] * side[:, 0], flat), axis=1)


def _turns(flat: Floats) -> tuple[Places, Places]:
    """The strands and their samples that point to the reader more than those beside them do."""
    here = np.maximum(flat, np.float32(1e-3))
    found = np.nonzero((here[:, 1:-1] < STEEP) & (here[:, 1:-1] < here[:, :-2]) & (here[:, 1:-1] <= here[:, 2:]))
    return found[0], found[1] + 1


def _ball_radius(yarn: Strands, lines: _Lines, turns: tuple[Places, Places]) -> Floats:
    radius: Floats = yarn.radius[turns[0]] * _rounded(lines.along, yarn.radius[:, None])[turns] * np.float32(BALL)
    return radius


def _draw_balls(
    canvas: Canvas, batch: _Batch, yarn: Strands, lines: _Lines, turns: tuple[Places, Places], order: Ints
) -> None:  # fmt: skip
    """Balls where strands turn to the reader."""
    which = turns[0]
    if not len(which):
        return
    radius, middle = _ball_radius(yarn, lines, turns), lines.middle[turns]
    steps = np.linspace(-1.0, 1.0, math.ceil(2.0 * _largest_ball(batch) / STEP) + 1, dtype=np.float32)
    u, v = (part.ravel() for part in np.meshgrid(steps, steps))
    front = 1.0 - u**2 - v**2
    ball = np.stack((u, v, np.sqrt(np.maximum(front, 0.0))))[:, front >= 0.0]
    number = np.array([batch.first + len(batch.yarn.points)], dtype=np.int32)
    at_once = max(1, AT_ONCE // ball.shape[1])
    for first in range(0, len(which), at_once):
        part = slice(first, first + at_once)
        x, y, z = ((middle[part, c, None] + radius[part, None] * ball[c]).ravel() for c in range(3))
        there, won = _nearest(canvas, order, (x, y, z), number)
        one, at = which[part][won // ball.shape[1]], won % ball.shape[1]
        canvas.across[there], canvas.down[there] = np.rint(ball[:2, at] * 127.0).astype(np.int8)
        canvas.tone[there], canvas.colour[there], canvas.owner[there] = 128, yarn.colour[one], yarn.stitch[one]


def _largest_ball(batch: _Batch) -> float:
    """The largest radius of a ball on any strand of a batch, hidden or not."""
    lines = _lines(batch.yarn.points, batch.counts)
    return float(_ball_radius(batch.yarn, lines, _turns(lines.flat)).max())


def _spread(
    middle: Floats, side: Floats, face: Floats, axis: int, wide: Floats, share: Floats, front: Floats
) -> Floats:
    """One coordinate of the near half of the tube about its line, whose sides lie level: they have no depth."""
    out: Floats = (face[:, axis, None] * wide) * front
    if axis < 2:
        out += (side[:, axis, None] * wide) * share
    out += middle[:, axis, None]
    return out.ravel()


def _rounded(along: Floats, radius: Floats) -> Floats:
    """The share of its radius that a strand has at each sample: its ends are round."""
    off = np.minimum(along, along[:, -1:] - along) / radius
    share: Floats = np.sqrt(np.clip(1.0 - (1.0 - np.minimum(off, 1.0)) ** 2, 0.0, 1.0))
    return share


def _keep(
    canvas: Canvas, cells: Places, angle: Floats, way: Floats, side: Floats, face: Floats,
    along: Floats, radius: Floats, number: Ints, *, fibrous: bool,
) -> None:  # fmt: skip
    """The normal and the tone of what is seen: a strand of three plies, with its fibres where it is `fibrous`."""
    share, front = np.sin(angle), np.cos(angle)
    out, slope = relief(angle, along, radius)
    tilt = -slope / out
    tone = np.zeros_like(out)
    if fibrous:
        much = strength(radius)
        light, lean = fibres(angle, along, number)
        tilt -= np.float32(RAISED) * lean * much
        tone = np.float32(SPECKLE) * light * much
    twist = slope * np.float32(-math.tau / LAY)
    # the way round the strand is (front, -share) in (side, face)
    beside, ahead = share + tilt * front, front - tilt * share
    nx = beside * side[:, 0] + ahead * face[:, 0] + twist * way[:, 0]
    ny = beside * side[:, 1] + ahead * face[:, 1] + twist * way[:, 1]
    nz = ahead * face[:, 2] + twist * way[:, 2]
    size = np.sqrt(nx**2 + ny**2 + nz**2) + np.float32(1e-6)
    canvas.across[cells] = np.rint(nx / size * 127.0).astype(np.int8)
    canvas.down[cells] = np.rint(ny / size * 127.0).astype(np.int8)
    shade = 1.0 - np.float32(GROOVED) * (1.0 - out) + tone
    canvas.tone[cells] = np.clip(np.rint(128.0 * shade), 0, 255).astype(np.uint8)
