"""Where a hook can close round a stitch: under its bar and its slashes, above its foot."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

from hookfold.symbols import BEND, TAIL_UP, Clasp, Point, kind_of
from hookfold.symbols.posts import SLASH_STEP, SLASH_TOP, crossing_slash

from ..placing.placed import Spot
from ..placing.tops import drawn_kind

#: How far under its head a hook crosses a stem: under the arms of a cross, under a bar without slashes, under the
#: lowest slash of a post, where legs are joined at the top.
UNDER_ARMS, UNDER_BAR, UNDER_SLASH, UNDER_JOINED = 0.68, 0.5, 0.32, 0.45
#: The same under the lowest slash of a stem that leans over to cross others under there.
UNDER_CROSSING = 0.26
#: The same under the arms of a cross with a stem longer than this.
UNDER_LONG_ARMS, LONG_CROSS = 0.95, 1.5
#: How far its tail goes up beside the arms of a cross.
TAIL_BY_ARMS = 0.06
#: How far above the foot of what is gathered its legs are together again, and the least that is left of any stem below.
NECK, LEFT = 0.3, 0.3
#: How much farther down the second of two hooks round one stem crosses it.
SECOND = 0.3


def clasp_of(base: Spot, sc_form: str = "plus") -> Clasp | None:
    """Where a hook closes round the stem of a stitch or round a beginning chain; None where there is no stem."""
    if base.role not in ("stitch", "turning") or not base.feet or base.kind == "sl st":
        return None
    line = base.route or (base.head, _foot(base))
    whole = sum(math.dist(a, b) for a, b in itertools.pairwise(line))
    down, tail = _depth(base, whole)
    least = BEND + 0.1 if base.is_posted else LEFT
    down = min(down, max(whole - least, 0.3 * whole))
    at = _along(line, down)
    top = math.dist(base.head, at)
    if top < 1e-6:
        return None
    up = ((base.head[0] - at[0]) / top, (base.head[1] - at[1]) / top)
    return Clasp(_rounded(at), (round(up[0], 4), round(up[1], 4)), round(top, 3), tail=tail)


def _foot(spot: Spot) -> Point:
    return tuple(sum(p[axis] for p in spot.feet) / len(spot.feet) for axis in (0, 1))  # type: ignore[return-value]


def _depth(base: Spot, whole: float) -> tuple[float, float]:
    """How far under its head a hook crosses a stitch, and how far its tail goes up there."""
    if base.role == "turning" or (base.chains and base.legs < 2):
        return whole * max(1, round(0.4 * base.chains)) / max(base.chains, 2), TAIL_UP
    what = kind_of(drawn_kind(base.kind, base.legs, base.base), base.legs, base.base)
    if what.form == "gathered":
        return whole - NECK, TAIL_UP
    if len(base.feet) > 1:
        return UNDER_JOINED, TAIL_UP
    if what.base == "sc":
        return (UNDER_LONG_ARMS, TAIL_UP) if whole > LONG_CROSS else (UNDER_ARMS, TAIL_BY_ARMS)
    slashes = 0 if what.base == "hdc" else what.yarn_overs
    if base.crosses and slashes:
        return crossing_slash(slashes) + UNDER_CROSSING, TAIL_UP
    return (SLASH_TOP + SLASH_STEP * (slashes - 1) + UNDER_SLASH if slashes else UNDER_BAR), TAIL_UP


def _along(line: Sequence[Point], way: float) -> Point:
    for a, b in itertools.pairwise(line):
        size = math.dist(a, b)
        if way <= size and size > 0.0:
            return (a[0] + (b[0] - a[0]) * way / size, a[1] + (b[1] - a[1]) * way / size)
        way -= size
    return line[-1]


def _rounded(point: Point) -> Point:
    return (round(point[0], 3), round(point[1], 3))
