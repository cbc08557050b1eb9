"""Chains between stitches: how wide a run wants its place to be, and the line it follows."""

from __future__ import annotations

import math

from hookfold.symbols import Point, picot_radius
from hookfold.symbols.chains import ALONG

#: The way one chain takes up along its path, and the least it may be drawn together to before the run must
#: arch.
PITCH = 0.92
TIGHT = 0.8
_STEPS = 32


#: How much narrower than its ring is the way that a picot takes: the chains beside it lie below it.
PICOT_OVER = 0.22


def picot_wide(chains: int) -> float:
    """The way that a picot takes along a run of chains.

    >>> round(picot_wide(3), 2), round(picot_wide(5), 2)
    (0.5, 0.9)
    """
    return 2.0 * picot_radius(chains) - PICOT_OVER


#: From what a picot stands on to its ring, and the white over that: a stitch that goes into it stands there.
PICOT_FOOT, PICOT_WHITE = 0.12, 0.15


def picot_tall(chains: int) -> float:
    """How far over what it stands on a picot reaches, with the white over it.

    >>> round(picot_tall(3), 2)
    0.99
    """
    return PICOT_FOOT + 2.0 * picot_radius(chains) + PICOT_WHITE


#: The least way that no chain, one and two may be crowded into.
FEW_TIGHT = (0.0, 0.5, 0.7)


def tight_room(chains: int, picots: float = 0.0) -> float:
    """The least way that a run may be crowded into: one or two rise over it, from three on it can stand up as a loop.

    `picots` is the way that the picots on it take.

    >>> tight_room(1), round(tight_room(3), 2), round(tight_room(7), 2)
    (0.5, 0.5, 0.9)
    """
    return (FEW_TIGHT[chains] if chains < 3 else 0.2 + 0.1 * chains) + picots


def room(chains: int, picots: float = 0.0) -> float:
    """The way a run of chains takes between two tops, beyond the tops' own one stitch, with its picots' own.

    >>> room(1), round(room(5), 2)
    (1.0, 1.8)
    """
    return max(1.0 if chains else 0.0, 0.3 * chains + 0.3) + picots


#: The least size of a chain, the way it takes up without touching the next; below so much an arch has no side of its
#: own; how often a bow is halved until it is long enough.
LEAST_SIZE, LEAST_PITCH, FLAT, BOW_STEPS = 0.42, 0.48, 0.05, 12


def size_of(length: float, chains: int) -> float:
    """The size at which `chains` ovals fill a way of `length`."""
    return max(LEAST_SIZE, min(1.0, (length / max(chains, 1) - 0.16) / (2.0 * ALONG)))


def arch(a: Point, b: Point, out: Point, wanted: float, least: float = 0.0) -> tuple[Point, ...]:
    """The line from a to b that is about `wanted` long and rises at least `least` over the straight way.

    It bulges along the unit vector `out`, and is straight when it must be. A cubic whose handles stand over
    its ends; a long run over a short way becomes a loop. The height is found by halving, to a hundredth.
    """
    low, high = max(least, 0.0), max(wanted, least, 0.01)
    lowest = _cubic(a, b, out, low)
    if wanted <= length(lowest) * 1.005:
        return lowest
    for _ in range(24):
        middle = (low + high) / 2.0
        if length(_cubic(a, b, out, middle)) < wanted:
            low = middle
        else:
            high = middle
    return _cubic(a, b, out, high)


def arch_to(a: Point, b: Point, top: Point) -> tuple[Point, ...]:
    """The line from a to b through `top`, its middle; one that rises far opens to a drop."""
    x, y = top[0] - (a[0] + b[0]) / 2.0, top[1] - (a[1] + b[1]) / 2.0
    height = math.hypot(x, y)
    return _cubic(a, b, (x / height, y / height) if height > 1e-6 else (0.0, 0.0), height)


def arch_for(a: Point, b: Point, top: Point, least: float, out: Point) -> tuple[Point, ...]:
    """The line from a to b through `top`, or, where it would be shorter than `least`, one that rises farther: chains
    that are crowded together bow out. `out` is the way outward where the ends and `top` lie on one line."""
    line = arch_to(a, b, top)
    if length(line) >= least:
        return line
    middle = ((a[0] + b[0]) / 2.0, (a[1] + b[1]) / 2.0)
    x, y = top[0] - middle[0], top[1] - middle[1]
    height = math.hypot(x, y)
    way = (x / height, y / height) if height > FLAT else out
    low, high = height, height + least
    for _ in range(BOW_STEPS):
        tried = (low + high) / 2.0
        line = arch_to(a, b, (middle[0] + way[0] * tried, middle[1] + way[1] * tried))
        low, high = (tried, high) if length(line) < least else (low, tried)
    return line


def length(line: tuple[Point, ...]) -> float:
    """The length of a broken line."""
    return sum(map(math.dist, line, line[1:]))


def _cubic(a: Point, b: Point, out: Point, height: float) -> tuple[Point, ...]:
    """A cubic from a to b that rises `height` over its chord; handles lean in when low, out when tall."""
    chord = math.dist(a, b)
    lean = 0.25 - 0.3 * min(1.0, height / max(chord, 0.5) / 1.5)
    dx, dy = (b[0] - a[0]) * lean, (b[1] - a[1]) * lean
    up = 4.0 / 3.0 * height
    (ax, ay), (bx, by) = a, b
    px, py = ax + dx + out[0] * up, ay + dy + out[1] * up
    qx, qy = bx - dx + out[0] * up, by - dy + out[1] * up
    return tuple([
        (w * ax + x * px + y * qx + z * bx, w * ay + x * py + y * qy + z * by) for w, x, y, z in _WEIGHTS
    ])  # fmt: skip


def _weights(t: float) -> tuple[float, float, float, float]:
    """What the ends and the handles of a cubic weigh at `t`, from 0 to 1."""
    s = 1.0 - t
    return s * s * s, 3 * s * s * t, 3 * s * t * t, t * t * t


#: At every step of a line: an arch is tried at two dozen heights.
_WEIGHTS = tuple(_weights(i / _STEPS) for i in range(_STEPS + 1))
