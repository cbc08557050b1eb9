"""Fans in the corners of a round about an edge: their tops stand on a circle about their place, wide enough that the
outermost stems do not turn back over the sides.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

from ...made_late import dataclass
from ..placing.fans import WIDE_FAN
from ..placing.spacing import FAN_OPEN, FAN_TALL
from ..placing.tops import Slot, own_rise
from ..placing.tracks import FrameWay
from .places import CORNERS, corner_u

#: How far off a corner, along the way about it, a place still lies in that corner; over how much of that way its
#: direction is taken.
IN_CORNER, NEAR = 0.6, 0.2


@dataclass(frozen=True, slots=True)
class CornerFan:
    """A fan in a corner: its first top, and of each top how far along the way from the middle of the fan it stands,
    and how high."""

    first: int
    aside: tuple[float, ...]
    v: tuple[float, ...]


def corner_fans(slots: Sequence[Slot], gaps: Sequence[float], way: FrameWay) -> list[CornerFan]:
    """The wide fans in corners, as far apart as `gaps` tells."""
    found = []
    for _, same in itertools.groupby(range(len(slots)), key=lambda k: slots[k].stitch.feet or slots[k].item):
        fan = list(same)
        if len(fan) < WIDE_FAN or any(len(slots[k].feet) != 1 for k in fan):
            continue
        points = [slots[k].feet[0].point for k in fan]
        foot = (sum(x for x, _ in points) / len(fan), sum(y for _, y in points) / len(fan))
        at = way.u(foot)
        if min(abs(way.near(corner_u(way, nth), at) - at) for nth in range(CORNERS)) > IN_CORNER:
            continue
        gap = sum(gaps[k] for k in fan[:-1]) / (len(fan) - 1)
        tall = max(own_rise(slots[k].stitch) for k in fan)
        radius = min(max(tall, gap * (len(fan) - 1) / (2.0 * FAN_OPEN)), FAN_TALL * tall)
        turn = min(2.0 * FAN_OPEN / (len(fan) - 1), 2.0 * math.asin(min(gap / (2.0 * radius), 1.0)))
        (a, b), (p, q) = way.at(at - NEAR, 1.0), way.at(at + NEAR, 1.0)
        long, out = math.dist((a, b), (p, q)), way.out(at)
        on = ((p - a) / long, (q - b) / long)
        heads = []
        for k, item in enumerate(fan):
            angle, far = (k - (len(fan) - 1) / 2.0) * turn, radius * own_rise(slots[item].stitch) / tall
            cos, sin = far * math.cos(angle), far * math.sin(angle)
            heads.append((foot[0] + out[0] * cos + on[0] * sin, foot[1] + out[1] * cos + on[1] * sin))
        found.append(CornerFan(fan[0], tuple(way.near(way.u(h), at) - at for h in heads), tuple(map(way.v, heads))))
    return found
