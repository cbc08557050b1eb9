"""Stems that reach down past other rows: they wind between the stitches they pass, or go behind them.

A stitch worked two rows or more further down stands over what was worked since. Its stem is tried straight, then
bowed ever farther to either side; where no way is free, the freest is taken and broken where it meets other ink, as
a line behind another is drawn.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Sequence

from hookfold.symbols import Point, lane_of

from ...made_late import replace
from ...model.cloth.fabric import Stitch
from .clearing import LOOSE, InkMap, map_of
from .feet import Bases
from .placed import Spot, along, held_by
from .tracks import Way

#: How far a stem may bow out of the straight way, and in what steps.
MOST_BOW, BOW_BY = 0.8, 0.05
#: How far up from its foot a bowed stem is upright, so that its hook is.
UPRIGHT = 0.5
#: How far beside the middle of its post a post stitch may come down, the best first: straight over it, or where its
#: hook passes the head of the post, on the side of such hooks.
SIDES = (0.0, 0.5, 0.46, 0.56, 0.64, 0.74)
#: From the middle of a stem to the middle of other ink, at least; one worked in front may squeeze through nearer.
CLEAR, CLEAR_FRONT = 0.17, 0.135
#: So near to other ink a stem is taken to pass behind it; farther off it only passes by.
TOUCHING = 0.12
#: The stretches near head and foot that are not looked at: there a stem meets its own bar, and its base.
NEAR_HEAD, NEAR_FOOT = 0.35, 0.3
#: From how far above its foot a stem runs straight down; where its hook leaves it, and how far a hook beside the head
#: of its post runs on.
HOOK_FROM, HOOK_ABOVE, HOOK_BELOW = 0.9, 0.45, 0.55
#: Steps in a bowed line, and how much white a stem that goes behind keeps on either side of what hides it.
POINTS, WHITE = 14, 0.05
#: A step along a row that is short enough to tell its direction.
STEP = 0.1
#: How far under its heads a row is narrowest to pass.
UNDER_HEADS = 0.3
#: What must be left to see at the two ends of a stem that goes behind.
LEFT_HEAD, LEFT_FOOT = 0.75, {"front post": 0.6, "back post": 0.6}
PLAIN_LEFT = 0.35


def routed(spot: Spot, between: InkMap, bands: Sequence[float], way: Way) -> Spot:
    """The spot with the way its stem takes past the rows between; `bands` are their heights, the highest first."""
    posted = spot.is_posted
    held = held_by(spot)
    front = held == "front post"
    side = math.copysign(1.0, lane_of(behind=not front))
    wanted = CLEAR_FRONT if front else CLEAR
    bare = replace(spot, own_height=0.0)
    over = bare.feet[0]

    def low_ink(tried: Spot) -> list[Point]:
        return _hook_ink(tried, below=math.dist(tried.feet[0], over) > 0.1)

    footings = [_footed(bare, side * aside, way) for aside in SIDES]
    hooked = _freest(footings, low_ink, between, wanted) if posted else bare
    footed = replace(bare, feet=hooked.feet)
    tries = [replace(footed, route=_line(footed, bow, bands, way)) for bow in _bows()]
    low = low_ink(footed) if posted else []

    def ink(tried: Spot) -> list[Point]:
        return [*_stem_ink(tried), *low]

    best = _freest(tries, ink, between, wanted)
    if between.free(ink(best), wanted) >= wanted:
        return best
    if between.free(_stem_ink(best), TOUCHING) >= TOUCHING:
        return best
    if posted and front:
        return best  # what it passes in front of is broken
    line = _dense(best.route or (best.head, best.feet[0]))
    return replace(best, route=line, hidden=_hidden(line, between, LEFT_FOOT.get(held, PLAIN_LEFT)))


def _freest(
    tries: Sequence[Spot], ink: Callable[[Spot], list[Point]], between: InkMap, wanted: float
) -> Spot:
    """The first of the spots that keeps as clear as is wanted, or else the one that keeps clearest."""
    best, most = tries[0], -1.0
    for tried in tries:
        clear = between.free(ink(tried), wanted, most)
        if clear > most + 1e-6:
            best, most = tried, clear
        if most >= wanted:
            break
    return best


def _hook_ink(spot: Spot, *, below: bool) -> list[Point]:
    """The points of a stem that runs straight down to its hook, and `below` on past the head of its post."""
    foot, head = spot.feet[0], spot.head
    long = max(math.dist(foot, head), 1e-6)
    u, v = (head[0] - foot[0]) / long, (head[1] - foot[1]) / long
    low = -HOOK_BELOW if below else HOOK_ABOVE
    ways = (HOOK_FROM - k * 0.1 for k in range(round((HOOK_FROM - low) / 0.1) + 1))
    return [(foot[0] + u * way, foot[1] + v * way) for way in ways]


def _stem_ink(spot: Spot) -> list[Point]:
    """The points of a stem that may not meet ink."""
    return [p for _, p in _between_ends(spot.route or (spot.head, spot.feet[0]))]


def _footed(spot: Spot, aside: float, way: Way) -> Spot:
    """The stitch with its foot so far beside its post, to the right of who looks up it; upright, as far as a hook needs
    to be seen."""
    foot = spot.feet[0]
    u, v = way.u(foot), way.v(foot)
    side = u + aside * way.unit(v) * _to_right(way, u, v)
    return replace(spot, feet=(way.at(side, v),), head=way.at(side, v + 2.0))


def _to_right(way: Way, u: float, v: float) -> float:
    """1 where a row's places grow to the right of who looks up from one of its rows to the next, -1 to the left."""
    (x, y), (a, b), (c, d) = way.at(u, v), way.at(u, v + 1.0), way.at(u + STEP * way.unit(v), v)
    return math.copysign(1.0, (a - x) * (d - y) - (b - y) * (c - x))


def reaches(made: Stitch, bases: Bases) -> bool:
    """Whether a stitch on one foot goes in further down than the row below, and that is on the chart."""
    backs = [f.back for f in made.feet]
    return len(backs) == 1 and backs[0] > 1 and backs[0] in bases and made.role == "stitch"


def past(spot: Spot, made: Stitch, bases: Bases, way: Way) -> Spot:
    """A stitch that goes in further down than the row below, with the way of its stem past the rows between.

    What is loose there is not minded: it gives way later.
    """
    back, at = made.feet[0].back, made.feet[0].at
    between = [bases[k] for k in range(1, back)]
    rows = [*between, [s for s in bases[back] if s.item != at]]
    around = map_of(enumerate([s for s in row if s.role not in LOOSE] for row in rows))
    found = routed(spot, around, [_middle(spots, way) for spots in between], way)
    return found if spot.is_posted else replace(found, own_height=spot.own_height)


def runs_free(spot: Spot, others: Sequence[Spot]) -> bool:
    """Whether the straight stem of a stitch keeps off other stitches."""
    return map_of([("others", others)]).free(_stem_ink(replace(spot, route=())), CLEAR) >= CLEAR


def _middle(spots: Sequence[Spot], way: Way) -> float:
    """The height at which the heads of a row stand closest."""
    heads = [way.v(s.head) for s in spots if s.role in ("stitch", "turning", "chain")]
    return sum(heads) / max(len(heads), 1) - UNDER_HEADS


def _bows() -> list[float]:
    steps = range(-round(MOST_BOW / BOW_BY), round(MOST_BOW / BOW_BY) + 1)
    return sorted((k * BOW_BY for k in steps), key=lambda bow: (abs(bow), bow))


def _line(spot: Spot, bow: float, bands: Sequence[float], way: Way) -> tuple[Point, ...]:
    """The line from head to foot that passes `bow` beside the straight way at every band; () where it is straight."""
    head, foot = spot.head, spot.feet[0]
    if abs(bow) < 1e-9:
        return ()
    u, low = way.u(head), way.v(foot)
    rise, across = way.v(head) - low, way.near(way.u(foot), u) - u
    shares = [(way.v(head) - v) / rise for v in bands]
    turns = [way.at(u + across * t + bow * way.unit(v), v) for t, v in zip(shares, bands, strict=True)]
    above = way.at(way.u(foot), low + UPRIGHT)
    return _smooth((head, *turns, *([above] if spot.is_posted and rise > 2.0 * UPRIGHT else []), foot))


def _smooth(points: Sequence[Point]) -> tuple[Point, ...]:
    """A smooth line through points (Catmull and Rom's spline), straight on at its ends."""
    ends = [_beyond(points[1], points[0]), *points, _beyond(points[-2], points[-1])]
    line = [points[0]]
    for k in range(len(points) - 1):
        line += [_spline(ends[k : k + 4], i / POINTS) for i in range(1, POINTS + 1)]
    return tuple(line)


def _beyond(a: Point, b: Point) -> Point:
    return (2.0 * b[0] - a[0], 2.0 * b[1] - a[1])


def _spline(points: Sequence[Point], t: float) -> Point:
    weights = (
        -0.5 * t + t * t - 0.5 * t**3,
        1.0 - 2.5 * t * t + 1.5 * t**3,
        0.5 * t + 2.0 * t * t - 1.5 * t**3,
        -0.5 * t * t + 0.5 * t**3,
    )
    x, y = (sum(w * p[axis] for w, p in zip(weights, points, strict=True)) for axis in (0, 1))
    return (x, y)


def _dense(line: tuple[Point, ...]) -> tuple[Point, ...]:
    """A line with points close enough together to find where it meets ink."""
    whole = sum(math.dist(a, b) for a, b in itertools.pairwise(line))
    count = max(2, math.ceil(whole / 0.05))
    return tuple(along(line, k / count)[0] for k in range(count + 1))


def _between_ends(line: tuple[Point, ...]) -> list[tuple[float, Point]]:
    """The points of a line that may not meet ink, each with its share of the length."""
    dense = _dense(line)
    whole = sum(math.dist(a, b) for a, b in itertools.pairwise(dense))
    step = whole / (len(dense) - 1)
    return [
        (k * step / whole, p) for k, p in enumerate(dense) if NEAR_HEAD <= k * step <= whole - NEAR_FOOT
    ]


def _hidden(line: tuple[Point, ...], between: InkMap, left: float) -> tuple[float, float] | None:
    """The one stretch of a stem that other ink hides, as shares of its length; `left` stays to be seen at its foot."""
    whole = sum(math.dist(a, b) for a, b in itertools.pairwise(line))
    met = [share for share, p in _between_ends(line) if between.free([p], TOUCHING) < TOUCHING - 1e-9]
    if not met:
        return None
    low = max(min(met) - WHITE / whole, LEFT_HEAD / whole)
    high = min(max(met) + WHITE / whole, 1.0 - left / whole)
    if max(met) > high and left > PLAIN_LEFT:
        high = 1.0  # what would be left above the hook is hidden too
    return (round(low, 4), round(high, 4)) if high > low else None
