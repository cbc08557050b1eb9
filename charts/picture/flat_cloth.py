"""Work in rows as cloth: rows as high as planned, posts where they are held, edges as they are worked."""

from __future__ import annotations

import functools
import itertools
import math
import statistics
from bisect import bisect_right
from collections.abc import Callable, Mapping, Sequence

from hookfold.symbols import kind_of

from ..layout.placing.laid import Course, LaidFabric, mirrored
from ..layout.placing.placed import Spot
from ..layout.points.spurs import lay_flat
from ..made_late import replace
from ..model.cloth.fabric import Fabric, Row, Stitch
from ..model.cloth.typical import liveliest, typical_rows
from ..setting import Hand
from .cloth import HELD_AT, Cloth, Made, Place, box_of, crossed, in_order, with_held, yarn_of
from .zigzag import heights_in, set_in, zigzag_of

#: A row of post stitches stands lower: it begins halfway up the posts below (an estimate, by eye).
POSTED_LOW = 0.66
#: A row of slip stitches is so high: the chart gives it room for its signs, the cloth does not (an estimate, by eye).
SLIPPED = 0.45
#: How near the stitches of a rib move together, where front and back posts take turns (an estimate, by eye).
RIB_CLOSE = 0.66
#: How far a post held from the front stands out of the cloth, and one held from behind sinks in.
POST_LIFT = 0.5
#: A row that begins so near the end of the one below goes on from there, in stitch widths.
LEFT_NEAR = 1.3
#: A foot stands in a top that lies so near it aside, in stitch widths.
FOOT_NEAR = 0.5
#: A close look is at the middle of so many rows.
CLOSE_ROWS = 8


def flat_cloth(fabric: Fabric, hand: Hand = "right", heights: Sequence[float] | None = None) -> Cloth:
    """A fabric in rows as cloth. `heights` are those of its rows in stitch widths; by the usual ratios if not given."""
    laid = lay_flat(fabric)
    laid = mirrored(laid) if hand == "left" else laid
    zigzag = zigzag_of(laid, as_planned=heights is not None)
    rows = heights or (heights_in(laid, zigzag) if zigzag else tuple(_usual_height(course) for course in laid.courses))
    close = RIB_CLOSE if heights is None and _is_rib(fabric) else 1.0
    at = functools.partial(_at, _levels(laid, rows), close)
    below = in_order([_made(-1, s, m, at, 0.0, _facing_of_base(fabric), _sign_of_base(laid), _first_colour(fabric))
                      for s, m in zip(laid.foundation.spots, fabric.foundation.stitches, strict=True)
                      if s.role != "risen"])
    tops = [0.0, *itertools.accumulate(rows)]
    below = in_order([set_in(s, tops, zigzag) for s in below]) if zigzag else below
    made = {-1: {s.spot.item: s for s in below}}
    every = list(below)
    for course in laid.courses:
        here = [_stitch(course, s, m, at, made) for s, m in _items(course)]
        here = _levelled(here, made)
        here = [set_in(s, tops, zigzag) for s in here] if zigzag else here
        here = [_from_chain(s, below) for s in here] if course.index == 0 and fabric.start == "chain" else here
        here = crossed(in_order(here, begin=left_at(every, here) if course.index else None))
        made[course.index] = {s.spot.item: s for s in here}
        every += here
    middle, repeat = _typical(fabric, laid, rows)
    return Cloth(tuple(with_held(every)), box_of(every), middle, repeat, yarn=yarn_of(every))


def _items(course: Course) -> list[tuple[Spot, Stitch]]:
    return list(zip(course.laid.spots, course.worked.row.stitches, strict=True))


def left_at(before: Sequence[Made], row: Sequence[Made]) -> Place | None:
    """Where the yarn was left before a row: at the last stitch, if the row begins near it."""
    last = next((s for s in reversed(before) if s.is_topped), None)
    first = next((f for s in row for f in s.feet[:1]), None)
    return last.head if last and first and math.dist(last.head, first) < LEFT_NEAR else None


def _first_colour(fabric: Fabric) -> str:
    return fabric.rows[0].colour if fabric.rows else ""


def _facing_of_base(fabric: Fabric) -> float:
    """Which side the foundation was made from: a chain as row 1, for its back is seen; a row below from the other."""
    first = fabric.rows[0] if fabric.rows else None
    faces = 1.0 if first is None or first.side == "RS" else -1.0
    return -faces if fabric.start == "over" and first is not None and first.turned else faces


def _sign_of_base(laid: LaidFabric) -> float:
    return -laid.courses[0].sign if laid.courses else 1.0


def _levels(laid: LaidFabric, heights: Sequence[float]) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Heights on the chart, from the foundation up, and where they lie in the cloth."""
    chart, cloth = [0.0], [0.0]
    for course, height in zip(laid.courses, heights, strict=True):
        chart.append(chart[-1] + max(course.laid.rise, 0.05))
        cloth.append(cloth[-1] + height)
    return tuple(chart), tuple(cloth)


def _at(levels: tuple[tuple[float, ...], tuple[float, ...]], close: float, x: float, y: float) -> Place:
    """Where a place of the chart (y downward) lies in the cloth."""
    chart, cloth = levels
    up = -y
    k = _row_at(chart, up)
    share = (up - chart[k]) / (chart[k + 1] - chart[k]) if len(chart) > 1 else 0.0
    return x * close, (cloth[k] + share * (cloth[k + 1] - cloth[k])) if len(chart) > 1 else up


def _row_at(chart: Sequence[float], up: float) -> int:
    return min(max(bisect_right(chart, up) - 1, 0), max(len(chart) - 2, 0))


def _levelled(row: Sequence[Made], below: Mapping[int, Mapping[int, Made]]) -> list[Made]:
    """A row with stitches that cross or are held round posts, its tops in one line: taller ones lean or stand out, they
    do not lift it. Feet in tops that were brought into line go with them."""
    found = [_on_tops(s, below) for s in row]
    tops = [s.head[1] for s in found if s.is_topped]
    if not tops or not any(s.spot.is_posted or s.spot.behind for s in found):
        return found
    level = statistics.median(tops)
    return [replace(s, head=(s.head[0], level), back=(s.back[0], level)) if s.is_topped else s for s in found]


def _on_tops(made: Made, below: Mapping[int, Mapping[int, Made]]) -> Made:
    """A stitch whose feet are on the tops it stands in, where those were brought into line."""
    if made.spot.is_posted or not made.is_topped:
        return made
    feet = list(made.feet)
    for k, foot in enumerate(made.made.feet[: len(feet)]):
        under = below.get(made.row - foot.back, {}).get(foot.at)
        if under is not None and under.is_topped and abs(under.head[0] - feet[k][0]) < FOOT_NEAR:
            feet[k] = (feet[k][0], under.head[1])
    return replace(made, feet=tuple(feet))


At = Callable[[float, float], Place]


def _made(
    row: int, spot: Spot, made: Stitch, at: At, level: float, face: float, sign: float, colour: str
) -> Made:  # fmt: skip
    """A spot of a row at a level of the chart, as a stitch of the cloth."""
    def there(p: Place) -> Place:
        return at(p[0], p[1] + level)

    line = spot.curve or tuple((x, y) for x, y, _ in spot.ovals)
    deep = any(foot.back > 1 for foot in made.feet)
    return Made(
        row, spot, made, there(spot.head), tuple(there(p) for p in spot.feet), there(spot.head), (sign, 0.0),
        (0.0, 1.0), face, made.colour or colour, tuple(there(p) for p in line), deep=deep,
    )  # fmt: skip


def _stitch(course: Course, spot: Spot, made: Stitch, at: At, below: Mapping[int, Mapping[int, Made]]) -> Made:
    face = 1.0 if course.worked.side != "WS" else -1.0
    found = _made(course.index, spot, made, at, course.y, face, course.sign, course.worked.colour)
    return round_post(found, below) if spot.is_posted else found


def _from_chain(found: Made, below: Sequence[Made]) -> Made:
    """The first row's beginning chain grows out of the foundation's last one: its foot begins there."""
    if found.spot.role not in ("start", "turning") or not found.feet or not below:
        return found
    foot = found.feet[0]
    last = min(below, key=lambda s: math.dist(s.head, foot))
    far = foot[0] - last.head[0]
    if abs(far) < 0.5:
        return found
    begins = (last.head[0] + math.copysign(0.4, far), last.head[1] - 0.12)
    if found.spot.role == "start":
        return replace(found, feet=(begins, begins))
    return replace(found, feet=(begins, (foot[0], last.head[1] - 0.06), *found.feet[1:]))


def round_post(found: Made, below: Mapping[int, Mapping[int, Made]]) -> Made:
    """A post stitch on the post that it holds, and out of the cloth on the side it is held from; any
    other stitch as it is."""
    if not found.spot.is_posted or found.spot.role == "start":
        return found
    held = [below[found.row - f.back][f.at] for f in found.made.feet
            if f.at in below.get(found.row - f.back, {})]
    front = found.spot.hold == "front post" or found.spot.kind.startswith("FP")
    lift = POST_LIFT * found.face * (1.0 if front else -1.0)
    feet = tuple(held_at(h) for h in held) or found.feet
    return replace(found, feet=feet, lift=lift, low=held[0].lift if held else 0.0)


def held_at(held: Made) -> Place:
    """Where on a stitch's post another one is worked round it."""
    foot = held.feet[0] if held.feet else (held.head[0], held.head[1] - 1.0)
    return foot[0] + (held.head[0] - foot[0]) * HELD_AT, foot[1] + (held.head[1] - foot[1]) * HELD_AT


def _usual_height(course: Course) -> float:
    """The height of a row by the usual ratios of its stitches, as it is laid."""
    tall = [kind_of(s.kind, s.legs, s.base) for s in course.laid.spots
            if s.role in ("stitch", "turning") and s.kind != "ch"]
    if tall and all(k.base == "sl st" for k in tall):
        return SLIPPED
    posted = sum(s.is_posted for s in course.laid.spots) * 2 > len(tall)
    ratios = [k.row_height / k.height for k in tall if k.height > 0] or [1.0]
    low = POSTED_LOW * _lowest_post(course) if posted else 1.0
    return max(course.laid.rise, 0.3) * sum(ratios) / len(ratios) * low


def _lowest_post(course: Course) -> float:
    """How high the lowest of a row's post stitches is beside the highest: taller ones lean or stand out, they do not
    lift the row, so that the ground between them stays closed."""
    tall = [kind_of(s.kind, s.legs, s.base).height for s in course.laid.spots if s.is_posted]
    return min(tall) / max(tall) if tall and max(tall) > 0 else 1.0


def _is_rib(fabric: Fabric) -> bool:
    """Whether most stitches stand beside one that is held from the other side."""
    turns = total = 0
    for worked in fabric.rows:
        holds = [s.feet[0].hold if s.feet else "" for s in worked.row.stitches if s.role == "stitch"]
        total += len(holds)
        turns += sum({a, b} == {"front post", "back post"} for a, b in itertools.pairwise(holds))
    return turns * 2 > total > 0


def _typical(fabric: Fabric, laid: LaidFabric, heights: Sequence[float]) -> tuple[Place, Place]:
    """The middle of the rows that show most of what it is made of, and the size of one repeat there."""
    best = liveliest(fabric)
    first, last = typical_rows(fabric, CLOSE_ROWS)
    low, high = sum(heights[:first]), sum(heights[:last])
    left, right = laid.x_range()
    period = _rows_of_repeat([(fabric.rows[i].row, fabric.rows[i].colour) for i in best])
    tall = sum(heights[best[0] : best[0] + period])
    return ((left + right) / 2.0, (low + high) / 2.0), (_stitches_of_repeat(laid, best), tall)


def _rows_of_repeat(rows: Sequence[tuple[Row, str]]) -> int:
    """After how many rows the same ones come again, a first row or two passed over; all of them where none do."""
    keys = [(id(row), colour) for row, colour in rows]
    for start in (0, 1, 2):
        for n in range(1, max(len(keys) - start, 1)):
            rest = keys[start:]
            if len(rest) > n and all(a == b for a, b in zip(rest, rest[n:], strict=False)):
                return n
    return len(keys)


def _stitches_of_repeat(laid: LaidFabric, rows: Sequence[int]) -> float:
    """The width of the widest repeat that the rows have, in stitch widths; 1 where they have none."""
    widest = 1.0
    for i in rows:
        row = laid.courses[i].worked.row
        if row.repeat:
            first, items, times = row.repeat
            spots = laid.courses[i].laid.spots
            last = first + items
            if times > 1 and last < len(spots):
                widest = max(widest, abs(spots[last].head[0] - spots[first].head[0]))
    return widest
