"""Single stitches: the slip stitch, the single crochet, and the posts with a bar and slashes.

Posts stretch from foot to head; bars, slashes, crosses and dots keep their size. Shapes follow the trade's
convention (common practice: T for half double, one slash for each yarn-over of a taller one); the drawing is
our own.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from .clasp import BAR_HALF, HEAD_WHITE
from .ink import Mark, Point, SubPath
from .pen import PEN, Frame, curve, ellipse, frame, line, solid, strokes

#: White kept between a foot and what it stands on, and between a head and what stands on it.
FOOT_GAP = 0.12
HEAD_GAP = HEAD_WHITE


@dataclass(frozen=True, slots=True)
class Foot:
    """Where a stem begins: how far above the foot, and how far to its side (round a post)."""

    up: float = FOOT_GAP
    side: float = 0.0


PLAIN_FOOT = Foot()
#: Half the width and half the height of a slip stitch's dot: clearly less than a chain.
SLIP = (0.21, 0.13)
#: Half the width of the bar on a post, and of the arms of a single crochet.
BAR = BAR_HALF
ARM = 0.31
#: A slash: half its width, half its rise, and the way from one to the next.
SLASH_SIDE = 0.19
SLASH_RISE = 0.115
SLASH_STEP = 0.33
#: How far below the head the topmost slash and the middle of a single crochet lie.
SLASH_TOP = 0.52
CROSS_TOP, SHARED_TOP = 0.5, 0.4
#: The most of its width that a cross has that reaches a foot which it may share.
SHARED_WIDE = 0.86
#: The same on a stem that crosses others: tighter, so that it has more way to cross on.
CROSSING_SLASH_TOP, CROSSING_SLASH_STEP = 0.42, 0.25
#: The height of a cross of its own size; how far over its foot one still points there, and how far from square to its
#: row one leans that stands twice as far over it.
CROSS_HIGH, POINTS, MOST_OFF_DEG = 1.0, 0.2, 15.0
#: A stem that crosses others is upright so far below its lowest slash, over no more than this share of its height; how
#: far the handles of its bend reach, as a share of the way down.
UNDER_SLASH, UPRIGHT_SHARE, CROSSING_BEND = 0.2, 0.5, 0.2
#: How far the arms of a leaning cross turn with its stem, and how far from square to it they may then be.
MOST_TURN_DEG, MOST_SLANT_DEG = 30.0, 38.0


def slip(at: Frame) -> Mark:
    """A slip stitch: a small solid oval lying across the way of the work, midway between foot and head."""
    return solid(ellipse(at.at(0.0, at.length / 2.0), *SLIP, at.angle_deg))


def cross(
    at: Frame,
    form: str,
    behind: Sequence[Point] = (),
    foot: Foot = PLAIN_FOOT,
    along_deg: float | None = None,
    wide: float = 1.0,
    *,
    reaches: bool = False,
) -> Mark:
    """A single crochet: an upright cross whose stem reaches down to the foot, or an x (`form`).

    Its arms lie square to the stem, and turn with it no farther from the row (`along_deg` on the sheet) than
    `MOST_TURN_DEG`: one that leans far must not be taken for the other form. Those of crosses that reach a foot
    together lie higher, where these stand apart.
    """
    middle = max(at.length - (SHARED_TOP if reaches else CROSS_TOP), min(foot.up + 0.25, at.length - 0.3), 0.3)
    wide = min(wide, SHARED_WIDE) if reaches else wide
    if form == "x":
        return _saltire(at, middle, behind, foot, along_deg, wide)
    arms = _arms(at, middle, ARM * wide, along_deg)
    return strokes(*stem(at, foot, max(at.length - HEAD_GAP, middle + 0.2), behind), arms)


def _arms(at: Frame, up: float, arm: float, along_deg: float | None) -> SubPath:
    """The arms of an upright cross, `up` its frame."""
    turn = math.radians(_arms_deg(at, along_deg))
    (x, y), dx, dy = at.at(0.0, up), arm * math.cos(turn), arm * math.sin(turn)
    return line((x - dx, y - dy), (x + dx, y + dy))


def lifted(at: Frame, along_deg: float | None) -> Frame:
    """Where a cross stands that has its place in the row below alone: it keeps its size and stands the higher over its
    foot, near enough square to the row (`along_deg` on the sheet) to be told from the other form. A longer one is the
    sign of a stitch into a row further down."""
    spare = at.length - CROSS_HIGH
    if spare <= 0.0:
        return at
    slant = (at.angle_deg - (at.angle_deg if along_deg is None else along_deg) + 90.0) % 180.0 - 90.0
    back = slant - min(max(slant, -MOST_OFF_DEG), MOST_OFF_DEG)
    turn = math.radians(at.angle_deg - back * min(max(spare - POINTS, 0.0) / POINTS, 1.0))
    up = (math.sin(turn), -math.cos(turn))
    (x, y) = at.at(0.0, at.length)
    return Frame((x - up[0] * CROSS_HIGH, y - up[1] * CROSS_HIGH), up, CROSS_HIGH)


def _arms_deg(at: Frame, along_deg: float | None) -> float:
    """The direction of the arms: square to the stem, so that a leaning cross is the sign of the key turned; no farther
    from the row than that it is still told from the other form, nor so slanted that the cross closes up."""
    if along_deg is None:
        return at.angle_deg
    slant = (along_deg - at.angle_deg + 90.0) % 180.0 - 90.0
    left = max(abs(slant) - MOST_TURN_DEG, 0.0)
    return at.angle_deg + math.copysign(min(left, MOST_SLANT_DEG), slant)


def _saltire(
    at: Frame, middle: float, behind: Sequence[Point], foot: Foot, along_deg: float | None, wide: float = 1.0
) -> Mark:
    """The x form; where the foot is far below, a stem from foot to crossing says what it stands on."""
    reach = 0.27 * wide
    turn = math.radians(_arms_deg(at, along_deg))
    here = Frame(at.at(0.0, middle), (math.sin(turn), -math.cos(turn)), 0.0)
    arms = (
        line(here.at(-reach, -reach), here.at(reach, reach)),
        line(here.at(-reach, reach), here.at(reach, -reach)),
    )
    far = middle - reach > foot.up + 0.25 or foot.side
    return strokes(*arms, *(stem(at, foot, middle, behind) if far else ()))


def post(
    at: Frame, yarn_overs: int, behind: Sequence[Point] = (), foot: Foot = PLAIN_FOOT, wide: float = 1.0
) -> Mark:
    """A bar on a post with one slash for each yarn-over beyond the half double's."""
    top = at.length - HEAD_GAP
    ink = (*stem(at, foot, top, behind), bar(at, BAR * wide), *slashes(at, yarn_overs, SLASH_SIDE * wide))
    return strokes(*ink)


def routed(
    route: Sequence[Point],
    ends: tuple[float, float],
    hidden: tuple[float, float] | None,
    top: Callable[[Frame], tuple[SubPath, ...]],
    upright: float = 1.0,
) -> Mark:
    """A stitch whose stem runs along `route`, from its head to its foot, between what it passes.

    The stem keeps `ends` of white at its head and its foot, and has one gap over the shares `hidden` of its length,
    where it goes behind other stitches. `top` draws what crosses it below the head, in the direction it has there over
    `upright`.
    """
    whole = sum(math.dist(a, b) for a, b in itertools.pairwise(route))
    low, high = hidden or (1.0, 1.0)
    first, last = ends[0], whole - ends[1]
    spans = [(first, min(low * whole, last)), (max(high * whole, first), last)]
    stems = [_stretch(route, a, b) for a, b in spans if b - a > 0.02]
    own = frame(_point_on(route, min(upright, whole / 2.0)), route[0])
    return strokes(*stems, *top(own))


def _stretch(route: Sequence[Point], start: float, end: float) -> SubPath:
    """The part of a broken line between two ways along it."""
    done, inside = 0.0, []
    for a, b in itertools.pairwise(route):
        done += math.dist(a, b)
        if start < done < end:
            inside.append(b)
    return line(_point_on(route, start), *inside, _point_on(route, end))


def _point_on(route: Sequence[Point], way: float) -> Point:
    for a, b in itertools.pairwise(route):
        size = math.dist(a, b)
        if way <= size and size > 0.0:
            t = way / size
            return (a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t)
        way -= size
    return route[-1]


def post_top(at: Frame, yarn_overs: int, *, crosses: bool = False) -> tuple[SubPath, ...]:
    """The bar of a post and its slashes, below the head of a frame that may be shorter than the post."""
    top, step = (CROSSING_SLASH_TOP, CROSSING_SLASH_STEP) if crosses else (SLASH_TOP, SLASH_STEP)
    return (bar(at), *(slash(at.at(0.0, at.length - top - i * step), at) for i in range(yarn_overs)))


def crossing_slash(count: int) -> float:
    """How far below the head of a stem that crosses others the lowest of its slashes lies."""
    return CROSSING_SLASH_TOP + CROSSING_SLASH_STEP * max(count - 1, 0)


def cross_top(at: Frame, form: str, along_deg: float | None) -> tuple[SubPath, ...]:
    """The arms of a single crochet below the head of a frame."""
    if form == "x":
        return _saltire(at, at.length - CROSS_TOP, (), Foot(at.length - CROSS_TOP), along_deg).strokes
    return (_arms(at, at.length - CROSS_TOP, ARM, along_deg),)


def long_post(at: Frame, height: float, yarn_overs: int, lane: float) -> Mark:
    """A post stitch round a post further down than the row below, without its hook.

    Upright for its own `height`; there its stem has come over to beside the stitches that it passes,
    `lane` to the right of its foot.
    """
    (x, y), foot = at.at(0.0, at.length), at.foot
    beside = foot[0] + lane
    upright = min(SLASH_TOP + SLASH_STEP * max(yarn_overs - 1, 0) + UNDER_SLASH, height * 0.6)
    leave, enter = (x, y + upright), (beside, y + height)
    bend = ((x, y + upright + (height - upright) * 0.45), (beside, y + upright + (height - upright) * 0.55), enter)
    top: SubPath = (("M", ((x, y + HEAD_GAP),)), ("L", (leave,)), ("C", bend))
    own = Frame((x, y + height), (0.0, -1.0), height)
    return strokes(top, bar(own), *slashes(own, yarn_overs))


def long_stem(foot: Point, head: Point, height: float, yarn_overs: int, lane: float) -> tuple[Point, ...]:
    """The way of such a stem from its head to beside its foot, as a broken line."""
    top = long_post(frame(foot, head), height, yarn_overs, lane).strokes[0]
    bend = (top[1][1][0], *top[2][1])
    return (top[0][1][0], *(_bent(bend, k / 16.0) for k in range(17)), (foot[0] + lane, foot[1]))


def _bent(points: Sequence[Point], t: float) -> Point:
    """The point at share `t` of a curve with these handles."""
    while len(points) > 1:
        points = [(a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t) for a, b in itertools.pairwise(points)]
    return points[0]


def crossing_way(foot: Point, head: Point, ups: tuple[Point, Point], slashes_: int, low: float) -> tuple[Point, ...]:
    """The way of a stem that crosses others, from head to foot as a broken line: upright below its bar as far as its
    slashes reach, then over to its foot, where it is upright for `low`. `ups` are the unit vectors up at head and foot.
    """
    size = math.dist(foot, head)
    high = min(crossing_slash(slashes_) + UNDER_SLASH, UPRIGHT_SHARE * size)
    (a, b), (c, d) = ups
    top, end = (head[0] - a * high, head[1] - b * high), (foot[0] + c * low, foot[1] + d * low)
    reach = CROSSING_BEND * max((top[0] - end[0]) * a + (top[1] - end[1]) * b, 0.0)
    bend = (top, (top[0] - a * reach, top[1] - b * reach), (end[0] + c * reach, end[1] + d * reach), end)
    return (head, *(_bent(bend, k / 24.0) for k in range(25)), *((foot,) if low else ()))


def bar(at: Frame, half: float = BAR) -> SubPath:
    """The bar across a head."""
    return line(at.at(-half, at.length - HEAD_GAP), at.at(half, at.length - HEAD_GAP))


def slashes(at: Frame, count: int, half: float = SLASH_SIDE) -> tuple[SubPath, ...]:
    """The slashes of one post, the first a fixed way below the bar; closer only where the post is short."""
    return tuple(slash(at.at(0.0, up), at, half) for up in slash_heights(at.length, count))


def slash_heights(length: float, count: int, top: float = SLASH_TOP) -> list[float]:
    """How far above the foot each slash lies."""
    room = max(length - top - 0.42, 0.0)
    step = min(SLASH_STEP, room / (count - 1)) if count > 1 else 0.0
    first = max(length - top, length / 2.0)
    return [first - i * step for i in range(count)]


def slash(centre: Point, at: Frame, half: float = SLASH_SIDE) -> SubPath:
    """One slash through `centre`, rising to the right of the frame."""
    here = Frame(centre, at.up, 0.0)
    rise = SLASH_RISE * half / SLASH_SIDE
    return line(here.at(-half, -rise), here.at(half, rise))


def stem(at: Frame, foot: Foot, top: float, behind: Sequence[Point] = ()) -> tuple[SubPath, ...]:
    """The upright stroke, with a gap wherever another post passes in front of it (`behind`).

    One that goes round a post begins beside it and leans over to the middle on its way up.
    """
    way = frame(at.at(foot.side, foot.up), at.at(0.0, max(top, foot.up + 0.05)))
    spans = [(0.0, way.length)]
    for point in behind:
        spans = _cut(spans, _height_on(way, point), 1.6 * PEN)
    return tuple(line(way.at(0.0, low), way.at(0.0, high)) for low, high in spans)


def _height_on(at: Frame, point: Point) -> float:
    return (point[0] - at.foot[0]) * at.up[0] + (point[1] - at.foot[1]) * at.up[1]


def _cut(spans: list[tuple[float, float]], where: float, half: float) -> list[tuple[float, float]]:
    """The spans without what lies within `half` of `where`."""
    pieces = [(low, min(high, where - half)) for low, high in spans]
    pieces += [(max(low, where + half), high) for low, high in spans]
    return [(low, high) for low, high in pieces if high - low > 0.02]


def wave(at: Frame, up: float) -> SubPath:
    """The curve over a stitch worked backwards."""
    ends = (at.at(-0.32, up - 0.05), at.at(0.32, up + 0.05))
    return curve(ends[0], (at.at(-0.12, up + 0.3), at.at(0.12, up - 0.3), ends[1]))
