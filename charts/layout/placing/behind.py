"""Ink that lies behind a stem: left out where the stem runs, with white on both sides of it."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Sequence

from hookfold.symbols import Mark, Point
from hookfold.symbols.ink import SubPath

from .placed import Spot, Stem

#: From the middle of the stem in front to where ink behind it ends, and the shortest piece that is drawn.
WHITE = 0.16
LEAST = 0.05
#: The way between the points at which a line is looked at, and how many of them make one step of a piece of a curve.
STEP, COARSE = 0.01, 5
#: How near two stems must run to be one behind the other, and a stem to the middle of a chain to run across it.
ON_ONE, ACROSS = 0.15, 0.3


def behind(mark: Mark, stems: Iterable[Stem]) -> Mark:
    """The strokes of a mark as seen on both sides of stems; fills are left as they are."""
    strokes = mark.strokes
    for stem in stems:
        strokes = tuple(piece for path in strokes for piece in _pieces(path, stem))
    return Mark(strokes, mark.fills)


def _pieces(path: SubPath, stem: Stem) -> list[SubPath]:
    points = _points(path)
    if all(_clear(p, stem) for p in points):
        return [path]
    curved = any(command == "C" for command, _ in path)
    if path[-1][0] == "Z":
        points = _from_stem(points, stem)
    runs = [list(run) for clear, run in itertools.groupby(points, lambda p: _clear(p, stem)) if clear]
    return [_drawn(run, curved=curved) for run in runs if _long(run) > LEAST]


def _long(points: Sequence[Point]) -> float:
    return sum(math.dist(a, b) for a, b in itertools.pairwise(points))


def _drawn(points: Sequence[Point], *, curved: bool) -> SubPath:
    """A piece of a line by its ends, of a curve by short steps."""
    inside = points[COARSE:-COARSE:COARSE] if curved else ()
    return (("M", (points[0],)), *(("L", (p,)) for p in (*inside, points[-1])))


def _from_stem(points: list[Point], stem: Stem) -> list[Point]:
    """A closed line begun where the stem covers it, so that no piece of it is cut where the line begins."""
    start = next(k for k, p in enumerate(points) if not _clear(p, stem))
    return points[start:] + points[1 : start + 1]


def _points(path: SubPath) -> list[Point]:
    """Points along lines and curves, close together."""
    here = first = path[0][1][0]
    points = [here]
    for command, given in path[1:]:
        bend = (here, *given) if command == "C" else (here, first if command == "Z" else given[-1])
        count = max(1, math.ceil(_long(bend) / STEP))
        points += [_at(bend, k / count) for k in range(1, count + 1)]
        here = bend[-1]
    return points


def _at(bend: Sequence[Point], t: float) -> Point:
    while len(bend) > 1:
        bend = [(a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t) for a, b in itertools.pairwise(bend)]
    return bend[0]


def _clear(point: Point, stem: Stem) -> bool:
    along, aside, size = _beside(point, stem)
    return aside > WHITE or not -WHITE < along < size + WHITE


def _beside(point: Point, stem: Stem) -> tuple[float, float, float]:
    """How far along a stem a point lies, how far from it, and how long it is."""
    (x, y), (a, b) = stem
    size = max(math.dist(*stem), 1e-6)
    along = ((point[0] - x) * (a - x) + (point[1] - y) * (b - y)) / size
    return along, abs((point[0] - x) * (b - y) - (point[1] - y) * (a - x)) / size, size


def is_covered(spot: Spot, stem: Stem) -> bool:
    """Whether a stem worked in front of a stitch or of a run of chains hides what it crosses there."""
    return runs_along(spot, stem) or any(runs_across((x, y), stem) for x, y, _ in _ovals(spot))


def _ovals(spot: Spot) -> Sequence[tuple[float, float, float]]:
    return spot.ovals if spot.role == "chain" else ()


def runs_across(middle: Point, stem: Stem) -> bool:
    """Whether a stem crosses a chain near enough to its middle to leave an end of it on either side."""
    along, aside, size = _beside(middle, stem)
    return aside < ACROSS and 0.0 <= along <= size


def runs_along(spot: Spot, stem: Stem) -> bool:
    """Whether the stem of a stitch lies under another along its whole length."""
    if spot.role != "stitch" or len(spot.feet) != 1 or spot.kind == "sl st":
        return False
    return all(_off(p, stem) < ON_ONE for p in (spot.head, spot.feet[0]))


def _off(point: Point, stem: Stem) -> float:
    """How far a point lies from a stem; far, where it lies beyond its ends."""
    along, aside, size = _beside(point, stem)
    return aside if -ON_ONE <= along <= size + ON_ONE else math.inf
