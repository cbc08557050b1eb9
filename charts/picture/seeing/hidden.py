"""What certainly lies behind what is on the canvas, told tile by tile by the deepest place of each."""

from __future__ import annotations

import math

import numpy as np
import numpy.typing as npt

from ..strokes import Floats
from .canvas import Canvas

#: A tile is so many pixels a side.
TILE = 8
#: The tiles are looked over anew when so large a share of the pixels that may have changed were drawn on.
LOOKED_OVER = 1.0
#: Round the canvas lie so many tiles that are never seen.
BEYOND = 2


class Hidden:
    """The deepest place of every tile of a canvas, as it was when it was last looked over; depths only grow nearer, so
    what lay behind it then does so for good."""

    def __init__(self, canvas: Canvas) -> None:
        self.canvas = canvas
        self.shape = math.ceil(canvas.high / TILE), math.ceil(canvas.wide / TILE)
        self.deepest = np.full(self.shape, -np.inf, dtype=np.float32)
        self.around: dict[int, Floats] = {}
        self.box: tuple[float, float, float, float] | None = None
        self.drawn = 0
        self._look_over((0.0, 0.0, float(canvas.wide), float(canvas.high)))

    def uncovered(self, places: Floats, reach: Floats) -> npt.NDArray[np.bool_]:
        """Whether of balls about places (..., 3), so large, anything may lie before what is on the canvas."""
        tiles = math.ceil(float(reach.max()) / TILE)
        around = self._around(tiles)
        edge = BEYOND + tiles
        column = np.clip(places[..., 0] * np.float32(1.0 / TILE) + np.float32(edge), 0, around.shape[1] - 1)
        row = np.clip(places[..., 1] * np.float32(1.0 / TILE) + np.float32(edge), 0, around.shape[0] - 1)
        deepest = around[row.astype(np.int32), column.astype(np.int32)]
        found: npt.NDArray[np.bool_] = places[..., 2] + reach >= deepest
        return found

    def changed(self, places: Floats, reach: float, samples: int) -> None:
        """So many samples were drawn about places (places, 3)."""
        if not len(places):
            return
        size = np.array((self.canvas.wide, self.canvas.high), dtype=np.float32)
        left, top = np.clip(places[:, :2].min(axis=0) - reach, 0.0, size).tolist()
        right, low = np.clip(places[:, :2].max(axis=0) + reach, 0.0, size).tolist()
        was = self.box or (left, top, right, low)
        self.box = min(left, was[0]), min(top, was[1]), max(right, was[2]), max(low, was[3])
        self.drawn += samples
        if self.drawn > LOOKED_OVER * (self.box[2] - self.box[0]) * (self.box[3] - self.box[1]):
            self._look_over(self.box)
            self.box, self.drawn = None, 0

    def _look_over(self, box: tuple[float, float, float, float]) -> None:
        """Find the deepest places of the tiles in a box of the canvas."""
        left, top = (max(0, int(side // TILE)) for side in box[:2])
        right, low = min(self.shape[1], int(box[2] // TILE) + 1), min(self.shape[0], int(box[3] // TILE) + 1)
        depth = self.canvas.depth[:-1].reshape(self.canvas.high, self.canvas.wide)
        part = depth[top * TILE : low * TILE, left * TILE : right * TILE]
        if part.size:
            rows = np.minimum.reduceat(part, np.arange(0, part.shape[0], TILE), axis=0)
            tiles = np.minimum.reduceat(rows, np.arange(0, part.shape[1], TILE), axis=1)
            self.deepest[top:low, left:right] = tiles
            self.around.clear()

    def _around(self, tiles: int) -> Floats:
        """The deepest place within so many tiles of each; nothing is seen beyond the canvas."""
        if tiles not in self.around:
            found = np.pad(self.deepest, BEYOND + 2 * tiles, constant_values=np.inf)
            for axis in (0, 1):
                found = _least(found, 2 * tiles + 1, axis)
            self.around[tiles] = found
        return self.around[tiles]


def _least(image: Floats, many: int, axis: int) -> Floats:
    """The least of so many neighbours along an axis, so many less one fewer of them."""
    done, rest = 1, image
    while done < many:
        step = min(done, many - done)
        ahead, behind = [slice(None)] * 2, [slice(None)] * 2
        ahead[axis], behind[axis] = slice(step, None), slice(None, -step)
        rest = np.minimum(rest[tuple(behind)], rest[tuple(ahead)])
        done += step
    return rest
