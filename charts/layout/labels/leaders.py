"""Where a round has no white at its seam: its number and arrow in the nearest white, a thin line from there to it."""

from __future__ import annotations

import functools
import math

from hookfold.symbols import Point

#: Places are tried so far apart, in stitch widths, and so far from the seam at most, in stitch widths and in mm,
#: whichever is more.
STEP, FARTHEST, FARTHEST_MM = 0.4, 2.6, 13.0
#: White beside a leader, in mm; from a number to its leader, in mm; the least length of a leader, in mm.
WHITE_MM, OFF_MM, SHORTEST_MM = 0.3, 0.5, 1.0
#: So many places at a seam are tried for each number.
MOST_ENDS = 6
#: Where a leader may end, from the best place beside the first stitch: so far inward or outward of it and along, in
#: stitch widths; not so far along that it points at another stitch.
ENDS = tuple(
    sorted(((a * 0.15, b * 0.15) for a in range(-4, 5) for b in range(-2, 5)), key=lambda p: (math.hypot(*p), p))
)


@functools.cache
def around(mm: float) -> tuple[Point, ...]:
    """The ways from a seam to the places about it, the nearest first, in stitch widths of `mm`."""
    far = max(FARTHEST, FARTHEST_MM / mm)
    count = round(far / STEP)
    grid = [(i * STEP, j * STEP) for i in range(-count, count + 1) for j in range(-count, count + 1)]
    return tuple(sorted((p for p in grid if math.hypot(*p) <= far), key=lambda p: (round(math.hypot(*p), 6), p)))


def ends(seam: Point, along: Point, mm: float) -> list[Point]:
    """Places at a seam where a leader may end, the nearest to its middle first; all in mm."""
    (a, b), (x, y) = along, seam
    return [(x + (b * out + a * on) * mm, y + (-a * out + b * on) * mm) for out, on in ENDS]


def leader(at: Point, half: Point, end: Point) -> tuple[Point, Point] | None:
    """The line from a number, `half` as wide and high, to a place in mm; None where there is no way between."""
    far = math.dist(at, end)
    if far < 1e-6:
        return None
    way = ((end[0] - at[0]) / far, (end[1] - at[1]) / far)
    off = min(h / abs(o) for h, o in zip(half, way, strict=True) if abs(o) > 1e-9) + OFF_MM
    return ((at[0] + way[0] * off, at[1] + way[1] * off), end) if far - off >= SHORTEST_MM else None


def along_line(line: tuple[Point, Point], step: float) -> list[Point]:
    """Points along a line, no farther apart than a step."""
    (x0, y0), (x1, y1) = line
    count = max(1, math.ceil(math.dist(*line) / step))
    return [(x0 + (x1 - x0) * k / count, y0 + (y1 - y0) * k / count) for k in range(count + 1)]
