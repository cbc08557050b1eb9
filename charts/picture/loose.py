"""Loose fibres: hairs that stand off the yarn, some with a free end and some coming back to it."""

from __future__ import annotations

import numpy as np

from ..made_late import replace
from .strokes import Floats, Reals, radius
from .tension import resampled
from .yarn import Bundle

#: So many hairs to a stitch width of yarn, each so thick beside the yarn and so long (places of a strand).
MANY, FINE, LONG = 3.2, 0.018, (3.0, 8.0)
#: How far hairs stand off the yarn, in radii: those that come back, and those with a free end.
BOWED, FREE = (0.06, 0.3), (0.15, 0.7)
#: Through so many places a hair goes.
POINTS = 7


def loose_fibres(bundle: Bundle, yarn: float, salt: int) -> Bundle:
    """Hairs of the strands of a bundle, the same on every run; `yarn` is how thick it is beside the usual, `salt` a
    number of its own for each bundle of a picture."""
    line = resampled(bundle.points)
    strands, places = line.shape[:2]
    far = float(np.sqrt((np.diff(line, axis=1) ** 2).sum(axis=2)).sum())
    many = round(far * MANY)
    chance = np.random.Generator(np.random.PCG64([salt, strands]))
    which = chance.integers(0, strands, many)
    long = np.minimum(chance.uniform(*LONG, many), places - 1.01)
    start = chance.uniform(0.0, 1.0, many) * (places - 1.01 - long)
    share = np.linspace(0.0, 1.0, POINTS)[None]
    at = start[:, None] + long[:, None] * share
    low = at.astype(np.int64)
    part = (at - low)[:, :, None].astype(np.float32)
    middle = line[which[:, None], low] * (1 - part) + line[which[:, None], low + 1] * part
    free = chance.uniform(0.0, 1.0, many) < 0.45
    bow = chance.uniform(*BOWED, many)[:, None] * np.sin(np.pi * share)
    end = chance.uniform(*FREE, many)[:, None] * share**1.6
    off = 0.97 + np.where(free[:, None], end, bow)
    out = _outward(middle, chance.normal(size=(many, 1, 3)) + share[:, :, None] * chance.normal(0, 0.8, (many, 1, 3)))
    points = middle + out * (off * radius() * yarn * bundle.thick)[:, :, None]
    stitch, colour = bundle.stitch[which], bundle.colour[which]
    return replace(bundle, points=points.astype(np.float32), stitch=stitch, colour=colour, thick=bundle.thick * FINE)


def _outward(line: Reals, way: Reals) -> Floats:
    """Unit vectors square to lines (hairs, places, 3), on the side of a way for each."""
    along = np.gradient(line, axis=1)
    along = along / (np.linalg.norm(along, axis=2, keepdims=True) + 1e-9)
    out = way - (way * along).sum(axis=2, keepdims=True) * along
    found: Floats = out / (np.linalg.norm(out, axis=2, keepdims=True) + 1e-9)
    return found
