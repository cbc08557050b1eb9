"""Light on the canvas: a soft sky, one lamp from the upper left, shade in the hollows, shadows, colours."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

from ...made_late import dataclass
from ..strokes import Floats
from .canvas import EMPTY, Canvas

#: The lamp: towards it, x to the right, y up, z to the reader.
LAMP = (-0.42, 0.58, 0.70)
#: How bright sky and lamp are.
SKY, SUN = 0.5, 1.1
#: How far the lamp's light reaches round a strand, for yarn lets light through; and what its hollows throw back in its
#: own colour.
ROUND, BOUNCE = 0.16, 0.4
#: Hollows are looked for within so many stitch widths, each weighing so much.
HOLLOWS = ((0.1, 0.32), (0.26, 0.38), (0.6, 0.42), (1.6, 0.5))
#: A shadow is looked for in so many steps, up to so many stitch widths away, and takes so much of the lamp.
SHADOW_STEPS, SHADOW_FAR, SHADOW_DARK = 7, 1.5, 0.8
#: The light that loose fibres catch at the edge of a strand.
FUZZ = 0.22
#: Strands this large (pixels to a stitch) are smoothed a little; hollows and shadows are found at half size.
SOFT_FROM = 40.0
STRIP = 144
#: The least light in a hollow.
LEAST_OPEN = 0.14
#: Light brighter than this is held back softly.
HELD_BACK = 0.6
#: How much of the sky is shut off from the ground close to the piece.
GROUND_SHUT = 0.62


@dataclass(frozen=True, slots=True)
class Ground:
    """What the piece lies on: its colour in linear light and how deep it lies, in pixels; or, where it is not square to
    the look, how light it is at every pixel."""

    colour: tuple[float, float, float]
    depth: float
    shade: Floats | None = None


def linear(hex_colour: str) -> tuple[float, float, float]:
    """A colour "#rrggbb" in linear light (IEC 61966-2-1).

    >>> linear("#ffffff")
    (1.0, 1.0, 1.0)
    """
    parts = [int(hex_colour[i : i + 2], 16) / 255.0 for i in (1, 3, 5)]
    r, g, b = (p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts)
    return r, g, b


@dataclass(frozen=True, slots=True)
class Shade:
    """What is found at half size: how high the surroundings lie, near and far, and how dark the shadow is, on what is
    nearest and on the ground behind it."""

    around: tuple[Floats, ...]
    dark: Floats
    below: Floats


def lit(canvas: Canvas, stitch_px: float, palette: Floats, ground: Ground, shrink: int) -> npt.NDArray[np.uint8]:
    """The canvas in colour, (high, wide, 3) in sRGB bytes, `shrink` pixels of it to one."""
    shade = _shade(canvas, stitch_px, ground)
    strip = STRIP // (2 * shrink) * 2 * shrink
    parts = []
    for top in range(0, canvas.high, strip):
        colours = _strip(canvas, (top, min(top + strip, canvas.high)), stitch_px, palette, ground, shade)
        parts.append(_encoded(_shrunk(colours, shrink)))
    return np.concatenate(parts)


def _shade(canvas: Canvas, stitch_px: float, ground: Ground) -> Shade:
    small = canvas.halved() if canvas.solid is None else canvas.solid
    small = np.where(small <= EMPTY / 2, np.float32(_beneath(small, ground)), small)
    around = tuple(_blurred(small, _reach(far, stitch_px)) for far, _ in HOLLOWS)
    dark = _shadow(small, small, stitch_px)
    below = dark if ground.shade is not None else _shadow(small, np.full_like(small, ground.depth), stitch_px)
    return Shade(around, dark, below)


def _beneath(depth: Floats, ground: Ground) -> float:
    """How deep the ground is taken to lie: as given, or where it has a shade of its own below everything."""
    if ground.shade is None:
        return ground.depth
    there = depth[depth > EMPTY / 2]
    return float(there.min()) - 1.0 if there.size else 0.0


def _reach(far: float, stitch_px: float) -> int:
    """A reach in stitch widths as pixels at half size."""
    return max(1, round(far * stitch_px / 2.0))


def _strip(
    canvas: Canvas, rows: tuple[int, int], stitch_px: float, palette: Floats, ground: Ground, shade: Shade
) -> Floats:
    """Rows from the first to before the second (both even but for the last) in linear light."""
    wide = canvas.wide
    part = slice(rows[0] * wide, rows[1] * wide)
    shape = (rows[1] - rows[0], wide)
    depth = canvas.depth[part].reshape(shape)
    bare = depth <= EMPTY / 2
    depth = np.where(bare, np.float32(_beneath(depth, ground)), depth)
    nx = canvas.across[part].reshape(shape).astype(np.float32) / 127.0
    ny = canvas.down[part].reshape(shape).astype(np.float32) / -127.0
    nx[bare], ny[bare] = 0.0, 0.0
    if stitch_px > SOFT_FROM:
        nx, ny = _blurred(nx, 1), _blurred(ny, 1)
    nz = np.sqrt(np.maximum(1.0 - nx**2 - ny**2, 0.0))
    half = slice(rows[0] // 2, (rows[1] + 1) // 2)
    open_ = _openness(depth, stitch_px, [near[half] for near in shade.around])
    open_ = np.where(bare, _beside(depth, stitch_px, shade.around[-1][half]), open_)
    sun = np.maximum(nx * LAMP[0] + ny * LAMP[1] + nz * LAMP[2] + ROUND, 0.0) / (1.0 + ROUND)
    dark = np.where(bare, _doubled(shade.below[half], depth), _doubled(shade.dark[half], depth))
    sun *= (1.0 - SHADOW_DARK * dark) * (0.35 + 0.65 * open_)
    light = SKY * (0.72 + 0.28 * (0.5 + 0.5 * ny)) * open_ + SUN * sun
    light += np.where(bare, 0.0, FUZZ * (1.0 - nz) ** 2 * open_)
    light *= np.where(bare, 1.0, canvas.tone[part].reshape(shape) / 128.0)
    if ground.shade is not None:
        light = np.where(bare, ground.shade[rows[0] : rows[1]], light)
    colours = palette[canvas.colour[part].reshape(shape)]
    thrown = np.where(bare, 0.0, BOUNCE * (1.0 - open_) * (0.25 + sun))
    colours[bare] = ground.colour
    colours *= light[:, :, None].astype(np.float32) + colours * thrown[:, :, None].astype(np.float32)
    return colours


def _openness(depth: Floats, stitch_px: float, around: Sequence[Floats]) -> Floats:
    """How much of the sky each pixel sees: less where its surroundings lie higher."""
    shut = np.zeros_like(depth)
    for (far, weight), near in zip(HOLLOWS, around, strict=True):
        size = 2.0 * _reach(far, stitch_px)
        shut += weight * np.clip((_doubled(near, depth) - depth) / (size * 1.1 + 0.5), 0.0, 1.0)
    found: Floats = np.clip(1.0 - shut, LEAST_OPEN, 1.0)
    return found


def _beside(depth: Floats, stitch_px: float, near: Floats) -> Floats:
    """How much of the sky the ground sees beside the piece."""
    size = 2.0 * _reach(HOLLOWS[-1][0], stitch_px)
    shut: Floats = 1.0 - GROUND_SHUT * np.clip((_doubled(near, depth) - depth) / size, 0.0, 1.0)
    return shut


def _doubled(small: Floats, like: Floats) -> Floats:
    """An image of half the size at the size of another."""
    big = np.repeat(np.repeat(small, 2, axis=0), 2, axis=1)
    return big[: like.shape[0], : like.shape[1]]


def _blurred(image: Floats, size: int) -> Floats:
    """The mean over a square of 2 size + 1 pixels a side, what lies at the edge going on beyond it."""
    for axis in (0, 1):
        lines = np.array_split(image, max(1, image.shape[1 - axis] // STRIP), axis=1 - axis)
        image = np.concatenate([_mean_along(some, size, axis) for some in lines], axis=1 - axis)
    return image


def _mean_along(image: Floats, size: int, axis: int) -> Floats:
    """The mean of 2 size + 1 pixels along an axis; lines do not mind each other: some at a time take less room."""
    ends = [(0, 0), (0, 0)]
    ends[axis] = (size + 1, size)
    total = np.cumsum(np.pad(image, ends, mode="edge"), axis=axis, dtype=np.float64)
    many = 2 * size + 1
    sums = total[many:] - total[:-many] if axis == 0 else total[:, many:] - total[:, :-many]
    return (sums / many).astype(np.float32)


def _shadow(small: Floats, on: Floats, stitch_px: float) -> Floats:
    """How far each place at the depths `on`, at half size, lies in the shadow of what stands between it and the lamp:
    0 to 1."""
    flat = math.hypot(LAMP[0], LAMP[1])
    rise = LAMP[2] / flat
    dark = np.zeros_like(small)
    for k in range(1, SHADOW_STEPS + 1):
        far = SHADOW_FAR * stitch_px * (k / SHADOW_STEPS) ** 1.5
        right, up = round(LAMP[0] / flat * far / 2.0), round(LAMP[1] / flat * far / 2.0)
        if not right and not up:
            continue
        above = _shifted(small, -up, right) - on - np.float32(far * rise)
        dark = np.maximum(dark, np.clip(above / np.float32(0.16 * stitch_px), 0.0, 1.0))
    return _blurred(dark, max(1, round(0.05 * stitch_px)))


def _shifted(image: Floats, down: int, right: int) -> Floats:
    """What each pixel finds `down` and `right` of it; the edge where that is outside."""
    rows = np.clip(np.arange(image.shape[0]) + down, 0, image.shape[0] - 1)
    columns = np.clip(np.arange(image.shape[1]) + right, 0, image.shape[1] - 1)
    return image[rows][:, columns]


def _shrunk(colours: Floats, by: int) -> Floats:
    """Every `by` x `by` pixels made one, in linear light."""
    if by == 1:
        return colours
    high, wide = colours.shape[0] // by, colours.shape[1] // by
    cut = colours[: high * by, : wide * by].reshape(high, by, wide, by, 3)
    mean: Floats = cut.mean(axis=(1, 3), dtype=np.float32)
    return mean


def _encoded(colours: Floats) -> npt.NDArray[np.uint8]:
    """Linear light as sRGB bytes, very bright light held back softly."""
    over = np.maximum(colours - HELD_BACK, 0.0) / (1.0 - HELD_BACK)
    soft = np.where(over > 0.0, 1.0 - (1.0 - HELD_BACK) * np.exp(-over), colours)
    soft = np.clip(soft, 0.0, 1.0)
    encoded = np.where(soft <= 0.0031308, soft * 12.92, 1.055 * np.power(soft, 1.0 / 2.4) - 0.055)
    return np.rint(encoded * 255.0).astype(np.uint8)
