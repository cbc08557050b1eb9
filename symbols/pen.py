"""The one pen: its weight, the strokes it can make, and the frame in which a glyph is drawn.

All glyphs are drawn with round ends and round joins, so the ink of a stroke is exactly its path swept by a
disc: the ink box of a stroke is the box of its path grown by half the pen on every side, with nothing left
out.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from .ink import Box, Mark, Point, Step, SubPath

#: The weight of the pen in stitch widths: at 3 mm a stitch 0.3 mm, which a copier at 150 dpi still holds.
PEN = 0.1

_DEGREE = math.pi / 180.0


@dataclass(frozen=True, slots=True)
class Frame:
    """Where a post stands: `foot`, the unit vector `up` it points along, and its `length`.

    Inside a glyph places are given as (side, up): `side` to the right of someone climbing the post.

    >>> Frame((0.0, 0.0), (0.0, -1.0), 2.0).at(0.5, 2.0)
    (0.5, -2.0)
    """

    foot: Point
    up: Point
    length: float

    def at(self, side: float, up: float) -> Point:
        """The point `side` to the right of the post and `up` along it from its foot."""
        ux, uy = self.up
        return (self.foot[0] - uy * side + ux * up, self.foot[1] + ux * side + uy * up)

    @property
    def angle_deg(self) -> float:
        """The direction of the glyph's own horizontal on the sheet (0 for an upright post)."""
        return math.atan2(self.up[0], -self.up[1]) / _DEGREE


def frame(foot: Point, head: Point) -> Frame:
    """The frame of a post from `foot` to `head`; two equal points make an upright frame of length 0."""
    dx, dy = head[0] - foot[0], head[1] - foot[1]
    length = math.hypot(dx, dy)
    up = (dx / length, dy / length) if length > 1e-9 else (0.0, -1.0)
    return Frame(foot, up, length)


def strokes(*paths: SubPath) -> Mark:
    """Paths inked with the pen."""
    return Mark(strokes=paths)


def solid(*paths: SubPath) -> Mark:
    """Closed paths filled without an outline."""
    return Mark(fills=paths)


def together(marks: Iterable[Mark]) -> Mark:
    """Several marks as one."""
    parts = tuple(marks)
    return Mark(tuple(s for m in parts for s in m.strokes), tuple(f for m in parts for f in m.fills))


def line(*points: Point) -> SubPath:
    """A straight or broken line through `points`."""
    return (("M", (points[0],)), *(("L", (p,)) for p in points[1:]))


def closed(*points: Point) -> SubPath:
    """A closed line round `points`."""
    return (*line(*points), ("Z", ()))


def curve(start: Point, *bends: tuple[Point, Point, Point]) -> SubPath:
    """A curve from `start` through cubic bends (two handles and an end each)."""
    return (("M", (start,)), *(("C", bend) for bend in bends))


def arc(centre: Point, radius: float, start_deg: float, end_deg: float) -> SubPath:
    """Part of a circle, from one direction to another (0 is to the right, 90 is down the sheet)."""
    first, bends = _arc_bends(start_deg, end_deg)
    cx, cy = centre

    def place(p: Point) -> Point:
        return (cx + radius * p[0], cy + radius * p[1])

    return curve(place(first), *((place(a), place(b), place(c)) for a, b, c in bends))


def ellipse(centre: Point, along: float, across: float, angle_deg: float = 0.0) -> SubPath:
    """A closed oval with half-axes `along` and `across`, its long way at `angle_deg`."""
    first, bends = _arc_bends(0.0, 360.0)
    cos, sin = math.cos(angle_deg * _DEGREE), math.sin(angle_deg * _DEGREE)

    def place(p: Point) -> Point:
        x, y = p[0] * along, p[1] * across
        return (centre[0] + x * cos - y * sin, centre[1] + x * sin + y * cos)

    bent = ((place(a), place(b), place(c)) for a, b, c in bends)
    return (*curve(place(first), *bent), ("Z", ()))


def circle(centre: Point, radius: float) -> SubPath:
    """A closed circle."""
    return ellipse(centre, radius, radius)


def _arc_bends(start_deg: float, end_deg: float) -> tuple[Point, list[tuple[Point, Point, Point]]]:
    """The cubic bends of a unit circle's arc, a quarter turn each at most (error under 3e-4)."""
    count = max(1, math.ceil(abs(end_deg - start_deg) / 90.0 - 1e-9))
    step = (end_deg - start_deg) * _DEGREE / count
    handle = 4.0 / 3.0 * math.tan(step / 4.0)
    turns = [start_deg * _DEGREE + i * step for i in range(count + 1)]
    ends = [(math.cos(t), math.sin(t)) for t in turns]
    bends = [
        ((p[0] - handle * p[1], p[1] + handle * p[0]), (q[0] + handle * q[1], q[1] - handle * q[0]), q)
        for p, q in itertools.pairwise(ends)
    ]
    return ends[0], bends


def extent(mark: Mark) -> Box:
    """The exact box of a mark's ink, pen included: (left, top, right, bottom).

    ValueError for a mark without ink, which has no box.
    """
    half = PEN / 2.0
    boxes = [_grown(path_box(s), half) for s in mark.strokes] + [path_box(f) for f in mark.fills]
    if not boxes:
        raise ValueError("a mark without ink has no box")
    return join_boxes(boxes)


def join_boxes(boxes: Sequence[Box]) -> Box:
    """The smallest box round all of `boxes`."""
    low = [min(b[i] for b in boxes) for i in (0, 1)]
    high = [max(b[i] for b in boxes) for i in (2, 3)]
    return (low[0], low[1], high[0], high[1])


def path_box(path: SubPath) -> Box:
    """The exact box of a path without its pen (curves by the roots of their derivative)."""
    points: list[Point] = []
    here: Point = (0.0, 0.0)
    for command, given in path:
        points += given[-1:]
        if command == "C":
            points += _turning_points((here, *given))
        here = given[-1] if given else here
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    return (min(xs), min(ys), max(xs), max(ys))


def _turning_points(bend: tuple[Point, ...]) -> list[Point]:
    """The points of a cubic where it turns back in x or in y."""
    times = {t for axis in (0, 1) for t in _stationary([p[axis] for p in bend])}
    return [(_bezier([p[0] for p in bend], t), _bezier([p[1] for p in bend], t)) for t in times]


def _stationary(v: list[float]) -> list[float]:
    """Where in (0, 1) one coordinate of a cubic stands still."""
    a = -v[0] + 3 * v[1] - 3 * v[2] + v[3]
    b = 2 * (v[0] - 2 * v[1] + v[2])
    c = v[1] - v[0]
    if abs(a) < 1e-12:
        roots = [-c / b] if abs(b) > 1e-12 else []
    else:
        square = b * b - 4 * a * c
        root = math.sqrt(square) if square >= 0 else 0.0
        roots = [(-b - root) / (2 * a), (-b + root) / (2 * a)] if square >= 0 else []
    return [t for t in roots if 0.0 < t < 1.0]


def _bezier(v: list[float], t: float) -> float:
    s = 1.0 - t
    return s * s * s * v[0] + 3 * s * s * t * v[1] + 3 * s * t * t * v[2] + t * t * t * v[3]


def _grown(box: Box, by: float) -> Box:
    return (box[0] - by, box[1] - by, box[2] + by, box[3] + by)


def moved(mark: Mark, dx: float, dy: float) -> Mark:
    """The mark shifted by (dx, dy)."""

    def shift(path: SubPath) -> SubPath:
        return tuple(_shifted(step, dx, dy) for step in path)

    return Mark(tuple(shift(s) for s in mark.strokes), tuple(shift(f) for f in mark.fills))


def _shifted(step: Step, dx: float, dy: float) -> Step:
    return (step[0], tuple((x + dx, y + dy) for x, y in step[1]))
