"""Signs that are not stitches: yarn started and ended, turning, joining, markers, arrows, brackets."""

from __future__ import annotations

import math

from .ink import Mark, Point
from .pen import Frame, arc, closed, curve, ellipse, frame, line, solid, strokes
from .posts import SLIP


def _frame(at: Point, angle_deg: float) -> Frame:
    """A frame at `at` whose up is turned clockwise by `angle_deg` from upright."""
    turn = math.radians(angle_deg)
    return frame(at, (at[0] + math.sin(turn), at[1] - math.cos(turn)))


def begin(at: Point, angle_deg: float = 0.0) -> Mark:
    """The work begins here: a slip knot, a loop of yarn that crosses itself, whose point is at `at`, its ends below."""
    f = _frame(at, angle_deg)
    loop = curve(
        f.at(-0.3, -0.95),
        (f.at(-0.1, -0.72), f.at(0.3, -0.5), f.at(0.27, -0.28)),
        (f.at(0.23, 0.02), f.at(-0.23, 0.02), f.at(-0.27, -0.28)),
        (f.at(-0.3, -0.5), f.at(0.1, -0.72), f.at(0.3, -0.95)),
    )
    return strokes(loop)


def start(at: Point, angle_deg: float = 0.0) -> Mark:
    """Join the yarn here: an open triangle whose point is at `at`, its body below."""
    f = _frame(at, angle_deg)
    return strokes(closed(f.at(0.0, -0.08), f.at(0.33, -0.92), f.at(-0.33, -0.92)))


def fasten_off(at: Point, angle_deg: float = 0.0) -> Mark:
    """Cut the yarn here: open scissors whose blades are at `at`, their rings below; it points nowhere."""
    f = _frame(at, angle_deg)
    blades = (line(f.at(side * 0.2, -0.04), f.at(-side * 0.14, -0.63)) for side in (-1.0, 1.0))
    rings = (ellipse(f.at(side * 0.2, -0.77), 0.14, 0.14) for side in (-1.0, 1.0))
    return strokes(*blades, *rings)


def join(at: Point, angle_deg: float = 0.0, size: float = 1.0) -> Mark:
    """Close a round: the slip stitch's solid oval, or a smaller one."""
    return solid(ellipse(at, SLIP[0] * size, SLIP[1] * size, angle_deg))


def turn(at: Point, to_right: bool = True) -> Mark:
    """Turn the work: an arrow that comes back on itself, about `at`."""
    side = 1.0 if to_right else -1.0
    x, y = at
    bend = arc(at, 0.28, -90.0, 90.0) if to_right else arc(at, 0.28, -90.0, -270.0)
    tails = line((x - side * 0.22, y - 0.28), (x, y - 0.28)), line((x, y + 0.28), (x - side * 0.12, y + 0.28))
    return strokes(bend, *tails) + arrow_head((x - side * 0.42, y + 0.28), 180.0 if to_right else 0.0, 0.32)


def arrow_head(tip: Point, angle_deg: float, size: float = 0.4) -> Mark:
    """A solid head with its tip at `tip`, pointing along `angle_deg` (0 right, 90 down)."""
    f = _frame(tip, angle_deg + 90.0)
    wing = size * 0.36
    return solid(closed(f.at(0.0, 0.0), f.at(wing, -size), f.at(0.0, -size * 0.8), f.at(-wing, -size)))


def arrow(tail: Point, tip: Point, size: float = 0.4) -> Mark:
    """A straight arrow from `tail` to `tip`."""
    way = frame(tail, tip)
    angle = math.degrees(math.atan2(way.up[1], way.up[0]))
    return strokes(line(tail, way.at(0.0, way.length - size * 0.8))) + arrow_head(tip, angle, size)


def bracket(a: Point, b: Point, depth: float = 0.35) -> Mark:
    """A bracket from a to b; its ends turn `depth` to the right of the way from a to b."""
    f = frame(a, b)
    return strokes(line(f.at(depth, 0.0), a, b, f.at(depth, f.length)))


def marker(at: Point) -> Mark:
    """A stitch marker hung on `at`: a long locking pin with its head."""
    x, y = at
    loop = curve(
        (x - 0.04, y + 0.06),
        ((x - 0.3, y + 0.3), (x - 0.28, y + 1.0), (x, y + 1.0)),
        ((x + 0.26, y + 1.0), (x + 0.28, y + 0.5), (x + 0.14, y + 0.34)),
    )
    return strokes(loop) + solid(ellipse((x + 0.11, y + 0.28), 0.12, 0.12))


def no_stitch(at: Point) -> Mark:
    """No stitch here: a small open square struck through."""
    x, y = at
    r = 0.27
    box = closed((x - r, y - r), (x + r, y - r), (x + r, y + r), (x - r, y + r))
    return strokes(box, line((x - r, y + r), (x + r, y - r)))
