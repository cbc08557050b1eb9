"""The canvas: what is nearest at every pixel, and how it lies there.

What is drawn is sampled closer than a pixel, and every sample is kept where nothing is nearer. Screen places are in
pixels, x to the right, y down, depth towards the reader.
"""

from __future__ import annotations

import itertools
import math
from dataclasses import field

import numpy as np
import numpy.typing as npt

from ...made_late import dataclass
from ..strokes import Floats, Ints

Bytes = npt.NDArray[np.int8]
Tones = npt.NDArray[np.uint8]

#: Places of a sheet lie at most so many at a time (memory).
MOST_SAMPLES = 300_000
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
