"""The canvas: what is nearest at every pixel, and how it lies there.

Yarn is a round tube about a smooth line; its near half is sampled closer than a pixel and every sample is kept where
nothing is nearer. Screen places are in pixels, x to the right, y down, depth towards the reader.
"""

from __future__ import annotations

import functools
import itertools
import math
from dataclasses import field

import numpy as np
import numpy.typing as npt

from ...made_late import dataclass
from ..strokes import Floats, Ints
from .fibre import (
    FIBRES_FROM,
    GROOVED,
    LAY,
    PLY_FROM,
    RAISED,
    SPECKLE,
    fibres,
    relief,
    relief_over,
    slubs,
    strength,
)

Bytes = npt.NDArray[np.int8]
Tones = npt.NDArray[np.uint8]

#: Samples lie so far apart, in pixels, at most so many at a time (memory), and an end so far off counts as outside.
STEP = 0.8
MOST_SAMPLES = 300_000
#: On thin yarn, of which there is most, they lie a little farther apart.
THIN_STEP = 0.94
#: Round a strand they lie closer towards its edges; there are so many times as many.
AT_EDGE = 1.25
#: Where a strand turns while it points to the reader (its way on the screen is so short a share of it) its sides swing
#: round between two samples: a ball of so large a share of its radius fills it there. Yarn too thin to show its plies
#: is left as it is.
STEEP, BALL = 0.45, 1.0
#: Nothing is here: deeper than anything.
EMPTY = -1.0e9
#: What belongs to no stitch: the ground, and the things that the piece lies on or holds.
NOBODY = -1


@dataclass(slots=True)
class Canvas:
    """What is nearest at each pixel: depth, the normal (x and y, 127 is one), a tone (128 is plain), the place of its
    colour, and its stitch. `solid` is the depth at half size as it was before loose fibres, which shade nothing."""

    wide: int
    high: int
    depth: Floats = field(init=False)
    across: Bytes = field(init=False)
    down: Bytes = field(init=False)
    tone: Tones = field(init=False)
    colour: Tones = field(init=False)
    owner: Ints = field(init=False)
    solid: Floats | None = None

    def __post_init__(self) -> None:
        cells = self.wide * self.high + 1
        self.depth = np.full(cells, EMPTY, dtype=np.float32)
        self.across = np.zeros(cells, dtype=np.int8)
        self.down = np.zeros(cells, dtype=np.int8)
        self.tone = np.full(cells, 128, dtype=np.uint8)
        self.colour = np.zeros(cells, dtype=np.uint8)
        self.owner = np.full(cells, NOBODY, dtype=np.int32)

    def nearest(self, cells: npt.NDArray[np.int64], depth: Floats) -> npt.NDArray[np.int64]:
        """Keep what is nearest; the places, among those given, of what now is."""
        np.maximum.at(self.depth, cells, depth)
        return np.flatnonzero(self.depth[cells] == depth)

    def halved(self) -> Floats:
        """The depth of every other pixel of every other row."""
        return self.depth[:-1].reshape(self.high, self.wide)[::2, ::2].copy()

    def cells(self, x: Floats, y: Floats) -> npt.NDArray[np.int64]:
        """The cells of places; what lies outside goes to one cell that is not seen."""
        inside = min(x.min(), y.min()) >= 0 and x.max() < self.wide and y.max() < self.high
        if inside:
            return y.astype(np.int64) * self.wide + x.astype(np.int64)
        column, row = np.floor(x).astype(np.int64), np.floor(y).astype(np.int64)
        out = (column < 0) | (column >= self.wide) | (row < 0) | (row >= self.high)
        found = row * self.wide + column
        found[out] = self.wide * self.high
        return found


def draw_yarn(canvas: Canvas, points: Floats, radius: Floats, stitch: Ints, colour: Ints) -> None:
    """Strands through control points (strands, points, 3) on the screen, each of a radius in pixels."""
    seen = _inside(canvas, points, radius)
    if not seen.all():
        points, radius, stitch, colour = points[seen], radius[seen], stitch[seen], colour[seen]
    done = 0
    while done < len(points):
        rest = points[done:]
        many = max(1, min(len(rest), _room(rest[: min(len(rest), 64)], float(radius[done : done + 64].max()))))
        part = slice(done, done + many)
        _draw(canvas, points[part], radius[part], stitch[part], colour[part])
        done += many


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


def _draw(canvas: Canvas, points: Floats, radius: Floats, stitch: Ints, colour: Ints) -> None:
    """Draw some strands at once."""
    widest = float(radius.max())
    rows, slopes, steps = _weights(_counts(points, widest))
    middle = np.matmul(rows, points)
    way = np.matmul(slopes, points)
    speed = np.sqrt((way**2).sum(axis=2)) + np.float32(1e-6)
    along = np.cumsum(speed * steps, axis=1)
    way /= speed[:, :, None]
    flat = np.hypot(way[:, :, 0], way[:, :, 1])
    steep = flat < 1e-3
    flat = np.where(steep, np.float32(1e-3), flat)
    side = np.stack((-way[:, :, 1] / flat, way[:, :, 0] / flat, np.zeros_like(flat)), axis=2)
    side[steep] = (1.0, 0.0, 0.0)
    face = np.stack((-way[:, :, 2] * side[:, :, 1], way[:, :, 2] * side[:, :, 0], flat), axis=2)
    share = np.linspace(-1.0, 1.0, _around(widest), dtype=np.float32)
    share *= _closer(widest) - (_closer(widest) - 1.0) * share**2
    front = np.sqrt(np.maximum(1.0 - share**2, 0.0), dtype=np.float32)
    lay = np.divide(along, radius[:, None], dtype=np.float32)
    number = stitch * np.int32(31) + np.int32(points.shape[1])
    wide = (radius[:, None] * _rounded(along, radius[:, None]) * slubs(lay, number[:, None]))[:, :, None]
    angle = np.arcsin(share)
    if widest > PLY_FROM:
        wide = wide * relief_over(angle, lay, radius)
    x, y, z = (_spread(middle, side, face, c, wide, share, front) for c in range(3))
    cells = canvas.cells(x, y)
    won = canvas.nearest(cells, z)
    won = won[cells[won] < canvas.wide * canvas.high]
    many = len(share)
    strand, sample, round_at = won // (many * middle.shape[1]), won // many % middle.shape[1], won % many
    _keep(
        canvas, cells[won], angle[round_at], way[strand, sample], side[strand, sample], face[strand, sample],
        lay[strand, sample], radius[strand], number[strand],
    )  # fmt: skip
    canvas.colour[cells[won]] = colour[strand]
    canvas.owner[cells[won]] = stitch[strand]
    if widest > PLY_FROM:
        which, at = _turns(flat)
        thick = radius[which] * _rounded(along, radius[:, None])[which, at] * np.float32(BALL)
        _draw_balls(canvas, middle[which, at], thick, stitch[which], colour[which])


def _turns(flat: Floats) -> tuple[Ints, Ints]:
    """The strands and their samples that point to the reader more than those beside them do."""
    here = flat[:, 1:-1]
    found = np.nonzero((here < STEEP) & (here < flat[:, :-2]) & (here <= flat[:, 2:]))
    return found[0].astype(np.int32), found[1].astype(np.int32) + np.int32(1)


def _draw_balls(canvas: Canvas, middle: Floats, radius: Floats, stitch: Ints, colour: Ints) -> None:
    """Balls about places (balls, 3) on the screen."""
    if not len(middle):
        return
    steps = np.linspace(-1.0, 1.0, math.ceil(2.0 * float(radius.max()) / STEP) + 1, dtype=np.float32)
    u, v = (part.ravel() for part in np.meshgrid(steps, steps))
    front = 1.0 - u**2 - v**2
    ball = np.stack((u, v, np.sqrt(np.maximum(front, 0.0))))[:, front >= 0.0]
    x, y, z = ((middle[:, c, None] + radius[:, None] * ball[c]).ravel() for c in range(3))
    cells = canvas.cells(x, y)
    won = canvas.nearest(cells, z)
    won = won[cells[won] < canvas.wide * canvas.high]
    there, which, at = cells[won], won // ball.shape[1], won % ball.shape[1]
    canvas.across[there], canvas.down[there] = np.rint(ball[:2, at] * 127.0).astype(np.int8)
    canvas.tone[there], canvas.colour[there], canvas.owner[there] = 128, colour[which], stitch[which]


def _spread(
    middle: Floats, side: Floats, face: Floats, axis: int, wide: Floats, share: Floats, front: Floats
) -> Floats:
    """One coordinate of the near half of the tube about its line, whose sides lie level: they have no depth."""
    out: Floats = (face[:, :, axis, None] * wide) * front
    if axis < 2:
        out += (side[:, :, axis, None] * wide) * share
    out += middle[:, :, axis, None]
    return out.ravel()


def _rounded(along: Floats, radius: Floats) -> Floats:
    """The share of its radius that a strand has at each sample: its ends are round."""
    off = np.minimum(along, along[:, -1:] - along) / radius
    share: Floats = np.sqrt(np.clip(1.0 - (1.0 - np.minimum(off, 1.0)) ** 2, 0.0, 1.0))
    return share


def _keep(
    canvas: Canvas, cells: npt.NDArray[np.int64], angle: Floats, way: Floats, side: Floats, face: Floats,
    along: Floats, radius: Floats, number: Ints,
) -> None:  # fmt: skip
    """The normal and the tone of what is seen: a strand of three plies with its fibres."""
    share, front = np.sin(angle), np.cos(angle)
    out, slope = relief(angle, along, radius)
    tilt = -slope / out
    tone = np.zeros_like(out)
    if radius.size and float(radius[0]) > FIBRES_FROM:
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


def draw_face(canvas: Canvas, corners: Floats, colour: int, *, leaves: int = 46) -> None:
    """A flat face of a block of pages: a corner and the ends of its two edges on the screen. The leaves lie along the
    first edge, so many one beside the other along the second."""
    at, one, other = corners[0], corners[1] - corners[0], corners[2] - corners[0]
    counts = [max(2, math.ceil(float(np.hypot(v[0], v[1])) / 0.6)) for v in (one, other)]
    u, v = (np.linspace(0.0, 1.0, n, dtype=np.float32) for n in counts)
    points = (at + u[:, None, None] * one + v[None, :, None] * other).reshape(-1, 3).astype(np.float32)
    normal = np.cross(one, other)
    normal = normal / (np.linalg.norm(normal) + 1e-9) * (1.0 if normal[2] > 0 else -1.0)
    leaf = v * leaves
    tone = 118.0 + 13.0 * np.sin(leaf * math.tau) + 9.0 * np.sin(np.floor(leaf) * 2.4)
    cells = canvas.cells(points[:, 0].copy(), points[:, 1].copy())
    won = canvas.nearest(cells, np.ascontiguousarray(points[:, 2]))
    won = won[cells[won] < canvas.wide * canvas.high]
    there = cells[won]
    canvas.across[there], canvas.down[there] = round(normal[0] * 127), round(normal[1] * 127)
    canvas.tone[there] = np.tile(np.clip(np.rint(tone), 0, 255).astype(np.uint8), counts[0])[won]
    canvas.colour[there], canvas.owner[there] = colour, NOBODY


def draw_sheet(canvas: Canvas, grid: Floats, colour: int) -> None:
    """A smooth sheet through a grid of places (rows, columns, 3) on the screen, lit as if it faced the reader."""
    _sheet(canvas, grid, np.zeros((*grid.shape[:2], 2), dtype=np.float32), colour)


def draw_surface(canvas: Canvas, grid: Floats, colour: int) -> None:
    """A smooth sheet through a grid of places, lit as it lies."""
    down, along = np.gradient(grid, axis=0), np.gradient(grid, axis=1)
    normal = np.cross(along, down)
    normal /= np.linalg.norm(normal, axis=2, keepdims=True) + 1e-9
    normal *= np.where(normal[:, :, 2:] < 0, -1.0, 1.0)
    _sheet(canvas, grid, normal[:, :, :2].astype(np.float32), colour)


def _sheet(canvas: Canvas, grid: Floats, normals: Floats, colour: int) -> None:
    """A sheet with its normals (x and y) at the places of its grid."""
    both = np.concatenate((grid, normals), axis=2)
    for upper, lower in itertools.pairwise(both):
        tall = max(2, math.ceil(float(np.hypot(*(upper - lower)[:, :2].T).max()) / 0.6))
        ends = np.diff(np.stack((upper, lower))[:, :, :2], axis=1)
        long = max(2, math.ceil(float(np.hypot(ends[..., 0], ends[..., 1]).max()) / 0.6))
        at = np.arange(0, len(upper) - 1 + 1e-6, 1.0 / long)
        rows = [np.stack([np.interp(at, np.arange(len(upper)), line[:, c]) for c in range(5)], axis=1)
                for line in (upper, lower)]
        shares = np.linspace(0.0, 1.0, tall)[:, None, None]
        many = max(1, MOST_SAMPLES // len(at))
        for share in (shares[first : first + many] for first in range(0, tall, many)):
            _lay(canvas, (rows[0] * (1.0 - share) + rows[1] * share).reshape(-1, 5).astype(np.float32), colour)


def _lay(canvas: Canvas, points: Floats, colour: int) -> None:
    """Points of a sheet, each with its place and its normal (x and y)."""
    cells = canvas.cells(points[:, 0].copy(), points[:, 1].copy())
    won = canvas.nearest(cells, np.ascontiguousarray(points[:, 2]))
    won = won[cells[won] < canvas.wide * canvas.high]
    there = cells[won]
    canvas.across[there], canvas.down[there] = np.rint(points[won, 3:5] * 127.0).astype(np.int8).T
    canvas.tone[there], canvas.colour[there], canvas.owner[there] = 128, colour, NOBODY


def fill_pinholes(canvas: Canvas, deep: float) -> None:
    """A pixel that lies below those on two sides of it, a slip between samples, becomes as its nearest neighbour is."""
    found = []
    for top in range(0, canvas.high - 2, 256):
        part = canvas.depth[:-1].reshape(canvas.high, canvas.wide)[top : top + 258]
        core = part[1:-1, 1:-1] + np.float32(deep)
        beside = (part[1:-1, :-2] > core) & (part[1:-1, 2:] > core)
        rows, columns = np.nonzero(beside | ((part[:-2, 1:-1] > core) & (part[2:, 1:-1] > core)))
        found.append((rows + top + 1) * canvas.wide + columns + 1)
    here = np.concatenate(found)
    around = np.stack((here - 1, here + 1, here - canvas.wide, here + canvas.wide))
    best = around[np.argmax(canvas.depth[around], axis=0), np.arange(len(here))]
    for layer in (canvas.depth, canvas.across, canvas.down, canvas.tone, canvas.colour, canvas.owner):
        layer[here] = layer[best]
