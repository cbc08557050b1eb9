"""Ink that lies behind a stem: left out where the stem runs, with white on both sides of it."""

from __future__ import annotations

import itertools
import math

from hookfold.symbols import Mark, Point
from hookfold.symbols.ink import SubPath

from .spot import Spot

#: From the middle of the stem in front to where ink behind it ends, and the shortest piece that is drawn.
WHITE = 0.16
LEAST = 0.05
#: The way between the points at which a line is looked at.
STEP = 0.01

#: How near two stems must run to be one behind the other.
ON_ONE = 0.15

Stem = tuple[Point, Point]


def behind(mark: Mark, stem: Stem) -> Mark:
    """The strokes of a mark as seen on both sides of a stem; fills are left as they are."""
    return Mark(tuple(piece for path in mark.strokes for piece in _pieces(path, stem)), mark.fills)


def _pieces(path: SubPath, stem: Stem) -> list[SubPath]:
    pieces: list[list[Point]] = [[]]
    points = _points(path)
    if all(_clear(p, stem) for p in points):
        return [path]
    for point in points:
        if _clear(point, stem):
            pieces[-1].append(point)
        elif pieces[-1]:
            pieces.append([])
    return [(("M", (p[0],)), ("L", (p[-1],))) for p in pieces if len(p) > 1 and math.dist(p[0], p[-1]) > LEAST]


def _points(path: SubPath) -> list[Point]:
    """Points along straight lines; a curve counts by its ends."""
    corners = [given[-1] for _, given in path if given]
    points = [corners[0]]
    for (x, y), (a, b) in itertools.pairwise(corners):
        count = max(1, math.ceil(math.dist((x, y), (a, b)) / STEP))
        points += [(x + (a - x) * k / count, y + (b - y) * k / count) for k in range(1, count + 1)]
    return points


def _clear(point: Point, stem: Stem) -> bool:
    (x, y), (a, b) = stem
    size = max(math.dist(*stem), 1e-6)
    along = ((point[0] - x) * (a - x) + (point[1] - y) * (b - y)) / size
    aside = abs((point[0] - x) * (b - y) - (point[1] - y) * (a - x)) / size
    return aside > WHITE or not -WHITE < along < size + WHITE


def runs_along(spot: Spot, stem: Stem) -> bool:
    """Whether the stem of a stitch lies under another along its whole length."""
    if spot.role != "stitch" or len(spot.feet) != 1 or spot.kind == "sl st":
        return False
    return all(_off(p, stem) < ON_ONE for p in (spot.head, spot.feet[0]))


def _off(point: Point, stem: Stem) -> float:
    """How far a point lies from a stem; far, where it lies beyond its ends."""
    (x, y), (a, b) = stem
    size = math.dist(*stem)
    along = ((point[0] - x) * (a - x) + (point[1] - y) * (b - y)) / size
    aside = abs((point[0] - x) * (b - y) - (point[1] - y) * (a - x)) / size
    return aside if -ON_ONE <= along <= size + ON_ONE else math.inf
