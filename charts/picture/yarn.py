"""Stitches as yarn: which strokes each is made of, set in their places, many of one stroke at a time."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import field

import numpy as np

from ..made_late import dataclass
from .strokes import Floats, Ints, stray, stroke, thickness

Space = tuple[float, float, float]

#: The hold that leaves one strand of the V below free, and where the legs of such a stitch come up.
LOOPS = {"back loop": 1.0, "front loop": -1.0}
#: What of a stroke is lower than this (the share of the way from foot to head) lies between the strands then.
LOW = 0.4


@dataclass(frozen=True, slots=True)
class Bundle:
    """Many strands of one stroke: `points` (strands, points, 3) in stitch widths; of which `stitch` each is part (the
    place in the cloth's list) and which `colour` it has (a place in the list of colours); how `thick` the yarn is there
    beside the usual."""

    points: Floats
    stitch: Ints
    colour: Ints
    thick: float = 1.0


@dataclass(frozen=True, slots=True)
class Frame:
    """Where one strand stands: `foot` and `head` in space, `up` for v and `along` for s (in the plane of the cloth,
    scaled), `out` for w: 1 towards the reader, -1 away, more or less for what bulges; `taper` how narrow it is at
    the foot beside the head."""

    foot: Space
    head: Space
    up: tuple[float, float]
    along: tuple[float, float]
    out: float = 1.0
    taper: float = 1.0

    def numbers(self) -> tuple[float, ...]:
        return (*self.foot, *self.head, *self.up, *self.along, self.out, self.taper)


@dataclass(slots=True)
class Skein:
    """Strands gathered stroke by stroke, by (stroke, hold); `levels` is how high each stitch lies, from the `first`."""

    frames: dict[tuple[str, str], list[tuple[float, ...]]] = field(default_factory=lambda: defaultdict(list))
    owners: dict[tuple[str, str], list[tuple[int, int]]] = field(default_factory=lambda: defaultdict(list))
    levels: Floats | None = None
    first: int = 0

    def add(self, name: str, frame: Frame, stitch: int, colour: int, hold: str = "") -> None:
        """One strand more."""
        self.frames[name, hold].append(frame.numbers())
        self.owners[name, hold].append((stitch, colour))

    def bundles(self) -> Iterator[Bundle]:
        """All strands, set in their places."""
        for (name, hold), frames in self.frames.items():
            owners = np.array(self.owners[name, hold], dtype=np.int32)
            points = placed(_held(stroke(name), hold), np.array(frames, dtype=np.float32))
            if self.levels is not None:
                points[:, :, 2] += self.levels[owners[:, 0] - self.first][:, None]
            points += _strayed(points.shape, owners[:, 0], name)
            yield Bundle(points, owners[:, 0], owners[:, 1], thickness(name))


def placed(points: Floats, frames: Floats) -> Floats:
    """A stroke in every frame: (frames, points, 3)."""
    foot, head = frames[:, None, 0:3], frames[:, None, 3:6]
    t, v, s, w = (points[None, :, k, None] for k in range(4))
    out = foot + t * (head - foot)
    wide = 1.0 - (1.0 - frames[:, None, 11:12]) * (1.0 - np.clip(t, 0.0, 1.0))
    flat = v * frames[:, None, 6:8] + s * wide * frames[:, None, 8:10]
    out[:, :, :2] += flat
    out[:, :, 2:] += w * frames[:, None, 10:11]
    return np.ascontiguousarray(out, dtype=np.float32)


def _held(points: Floats, hold: str) -> Floats:
    """A stroke that goes into one strand of the V below only: its legs come up between the two strands."""
    if hold not in LOOPS:
        return points
    side = LOOPS[hold]
    out = points.copy()
    foot = points[:, 0] < LOW
    through = foot & (points[:, 3] * side > -0.05)
    out[through, 3] = -0.1 * side + 0.1 * np.abs(points[through, 3])
    out[through, 1] = np.maximum(points[through, 1], -0.2) + 0.05
    return out


def _strayed(shape: tuple[int, ...], stitches: Ints, name: str) -> Floats:
    """Small steps aside for every control point, the same on every run and every machine."""
    strands, points = shape[0], shape[1]
    seed = np.uint32(sum(ord(c) * 131**k for k, c in enumerate(name)) & 0xFFFFFFFF)
    at = np.arange(points * 3, dtype=np.uint32)[None, :] * np.uint32(2654435761)
    mixed = (stitches.astype(np.uint32)[:, None] * np.uint32(40503) + seed) ^ at
    for shift, times in ((16, 0x45D9F3B), (13, 0x119DE1F3)):
        mixed = (mixed ^ (mixed >> np.uint32(shift))) * np.uint32(times)
    steps = ((mixed >> np.uint32(8)).astype(np.float32) / np.float32(1 << 23) - 1.0) * np.float32(stray())
    return steps.reshape(strands, points, 3)


def unit_to(a: Sequence[float], b: Sequence[float]) -> tuple[float, float]:
    """The unit vector in the plane from a to b; upward where they are one."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    far = math.hypot(dx, dy)
    return (dx / far, dy / far) if far > 1e-6 else (0.0, 1.0)
