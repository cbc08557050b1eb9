"""Chains and what is made of them: the oval, a stack of ovals, the picot, the rings that start a round."""

from __future__ import annotations

import math
from collections.abc import Sequence

from .ink import Mark, Point, SubPath
from .pen import PEN, circle, curve, ellipse, frame, line, solid, strokes

#: A chain of size 1: half its length and half its width (to the middle of the pen), and the white after it.
ALONG = 0.34
ACROSS = 0.165
#: How much longer than wide a chain is at least: a shorter one is read as a ring.
ROUNDEST = 1.4
#: The length of path that one chain of size 1 takes up.
PITCH = 2 * ALONG + PEN + 0.07


def chain(centre: Point, angle_deg: float, size: float = 1.0) -> Mark:
    """One open oval along the path of work. The pen keeps its weight whatever the size."""
    along, across = ALONG * size, max(ACROSS * min(size, 1.15), 0.1)
    return strokes(ellipse(centre, max(along, across * ROUNDEST), across, angle_deg))


def chain_stack(foot: Point, head: Point, chains: int, most: float = 1.0) -> Mark:
    """A beginning chain: ovals stacked from foot to head, of the size `most` where that leaves white between them."""
    way = frame(foot, head)
    step = way.length / chains
    size = min(stacked_size(step), most)
    angle = math.degrees(math.atan2(way.up[1], way.up[0]))
    ovals = (chain(way.at(0.0, (i + 0.5) * step), angle, size) for i in range(chains))
    return sum(ovals, Mark())


def stacked_size(step: float) -> float:
    """How large chains are at most that follow each other in one line, `step` apart.

    >>> round(stacked_size(PITCH), 2)
    1.0
    """
    return (step - PEN - 0.07) / (2 * ALONG)


def picot_radius(n_chains: int) -> float:
    """The radius of a picot's ring, to the middle of its chains."""
    return max(0.27, 0.1 * (n_chains + 0.6))


def picot(n_chains: int, at: Point, angle_deg: float = 0.0) -> Mark:
    """A small ring of chains standing on `at`, closed there by the dot of its slip stitch.

    `angle_deg` turns it: 0 stands upright on the row.
    """
    count = max(n_chains, 1)
    up = frame(at, (at[0] + math.sin(math.radians(angle_deg)), at[1] - math.cos(math.radians(angle_deg))))
    radius = picot_radius(count)
    dot = solid(circle(up.at(0.0, 0.12), 0.1))
    return dot + _chain_ring(up.at(0.0, 0.12 + radius), radius, count, angle_deg)


def _chain_ring(centre: Point, radius: float, count: int, angle_deg: float) -> Mark:
    """Chains bent round a circle, with room left at its bottom for the closing dot."""
    gap = math.degrees(0.2 / radius)
    share = (360.0 - 2.0 * gap) / count
    start = 90.0 + angle_deg + gap
    ovals = (_bent_oval(centre, radius, start + i * share, share) for i in range(count))
    return strokes(*ovals)


def _bent_oval(centre: Point, radius: float, start_deg: float, share_deg: float) -> SubPath:
    """An oval along the circle, `share_deg` of it less the white between ovals."""
    turn = math.radians(start_deg + share_deg / 2.0)
    here = (centre[0] + radius * math.cos(turn), centre[1] + radius * math.sin(turn))
    along = max(radius * math.radians(share_deg) / 2.0 - PEN / 2.0 - 0.03, 0.06)
    return ellipse(here, along, min(0.1, max(along * 0.6, 0.06)), math.degrees(turn) + 90.0)


def ring(centre: Point, radius: float) -> Mark:
    """The ring at the start of rounds: a plain circle."""
    return strokes(circle(centre, radius))


def magic_ring(centre: Point, radius: float) -> Mark:
    """A ring that draws shut: a circle of yarn whose end is led inside and curls round."""
    x, y = centre
    r = radius
    tail = curve(
        (x + 0.5 * r, y + 0.866 * r),
        ((x + 0.15 * r, y + 0.6 * r), (x - 0.45 * r, y + 0.35 * r), (x - 0.35 * r, y - 0.1 * r)),
        ((x - 0.27 * r, y - 0.42 * r), (x + 0.2 * r, y - 0.36 * r), (x + 0.2 * r, y - 0.05 * r)),
    )
    return strokes(circle(centre, r), tail)


def chain_run(points: Sequence[Point], size: float = 1.0) -> Mark:
    """One chain at each point, each along the way from the point before it to the one after."""
    last = len(points) - 1
    marks = []
    for i, here in enumerate(points):
        a, b = points[max(i - 1, 0)], points[min(i + 1, last)]
        marks.append(chain(here, math.degrees(math.atan2(b[1] - a[1], b[0] - a[0])), size))
    return sum(marks, Mark())


def dash(a: Point, b: Point) -> Mark:
    """A plain stroke from a to b with the pen."""
    return strokes(line(a, b))
