"""Ink that lies behind a stem: left out where the stem runs, with white on both sides of it.

Stitches of one row that cross are led over to their feet below upright tops. Of two that cross the one worked later
lies in front, as it does where the words say nothing (common practice, no source), unless it was worked behind the
other; what lies behind is broken at every crossing.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Iterator, Sequence

from hookfold.symbols import Mark, Point, crossing_way, kind_of, lane_of, long_stem
from hookfold.symbols.ink import SubPath

from ...made_late import replace
from ...model.cloth.fabric import Row
from .placed import Spot, Stem, held_by
from .tops import drawn_kind
from .tracks import Way

#: From the middle of the stem in front to where ink behind it ends, and the shortest piece that is drawn.
WHITE = 0.14
LEAST = 0.05
#: The way between the points at which a line is looked at, and how many of them make one step of a piece of a curve.
STEP, COARSE = 0.01, 5
#: What a reckoned place may be off.
SURE = 1e-6
#: How near two stems must run to be one behind the other, and a stem to the middle of a chain to run across it.
ON_ONE, ACROSS = 0.15, 0.3

#: Stitches so many places from each other in the order of work may cross.
WINDOW = 8
#: A crossing lies well inside both stems: this share of each is left at their ends.
INSIDE = 0.1
#: How far up from its foot the stem of a post stitch is upright, so that its hook is: front and back.
LOW = {"front post": 0.46, "back post": 0.46}
#: The same beside that post.
LOW_BESIDE = 0.1
#: The stretch of a stem about a crossing that hides what lies behind it.
NEAR = 0.7

def behind(mark: Mark, stems: Iterable[Stem]) -> Mark:
    """The strokes of a mark as seen on both sides of stems; fills are left as they are."""
    strokes: Sequence[SubPath] = mark.strokes
    looked_at: dict[int, tuple[SubPath, list[Point]]] = {}
    for stem in stems:
        strokes = [piece for path in strokes for piece in _pieces(path, stem, looked_at)]
    return Mark(tuple(strokes), mark.fills)


def _pieces(path: SubPath, stem: Stem, looked_at: dict[int, tuple[SubPath, list[Point]]]) -> list[SubPath]:
    """A path as seen on both sides of a stem; what points lie along a path is kept for the next stem."""
    if _staysoff_stem(path, stem):
        return [path]
    if id(path) not in looked_at:
        looked_at[id(path)] = path, _points(path)
    points = looked_at[id(path)][1]
    clear = _clear(points, stem)
    if all(clear):
        return [path]
    curved = len(path) > 2 or any(command == "C" for command, _ in path)
    seen = list(zip(points, clear, strict=True))
    if path[-1][0] == "Z":
        seen = _from_stem(seen)
    runs = [[p for p, _ in run] for shown, run in itertools.groupby(seen, lambda each: each[1]) if shown]
    return [_drawn(run, curved=curved) for run in runs if _long(run) > LEAST]


def _staysoff_stem(path: SubPath, stem: Stem) -> bool:
    """Whether all handles of a path lie beyond one side of a stem's white; the path lies between them, and so does too.
    Most paths are told by this, without a look at their points."""
    (x, y), (a, b) = stem
    size, dx, dy = max(math.dist(*stem), 1e-6), a - x, b - y
    handles = [(px - x, py - y) for _, points in path for px, py in points]
    aside, off = [px * dy - py * dx for px, py in handles], (WHITE + SURE) * size
    if min(aside) > off or max(aside) < -off:
        return True
    along = [px * dx + py * dy for px, py in handles]
    return max(along) < -off or min(along) > size * size + off


def _long(points: Sequence[Point]) -> float:
    return sum(math.dist(a, b) for a, b in itertools.pairwise(points))


def _drawn(points: Sequence[Point], *, curved: bool) -> SubPath:
    """A piece of a line by its ends, of a curve by short steps."""
    inside = points[COARSE:-COARSE:COARSE] if curved else ()
    return (("M", (points[0],)), *(("L", (p,)) for p in (*inside, points[-1])))


def _from_stem(seen: list[tuple[Point, bool]]) -> list[tuple[Point, bool]]:
    """A closed line begun where the stem covers it, so that no piece of it is cut where the line begins."""
    start = next(k for k, (_, clear) in enumerate(seen) if not clear)
    return seen[start:] + seen[1 : start + 1]


def _points(path: SubPath) -> list[Point]:
    """Points along lines and curves, close together."""
    here = first = path[0][1][0]
    points = [here]
    for command, given in path[1:]:
        bend = (here, *given) if command == "C" else (here, first if command == "Z" else given[-1])
        count = max(1, math.ceil(_long(bend) / STEP))
        if len(bend) == 2:
            (x, y), (a, b) = bend
            points += [(x + (a - x) * t, y + (b - y) * t) for t in (k / count for k in range(1, count + 1))]
        else:
            points += [_at(bend, k / count) for k in range(1, count + 1)]
        here = bend[-1]
    return points


def _at(bend: Sequence[Point], t: float) -> Point:
    while len(bend) > 1:
        bend = [(a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t) for a, b in itertools.pairwise(bend)]
    return bend[0]


def _clear(points: Sequence[Point], stem: Stem) -> list[bool]:
    """Which points lie beside a stem's white; reckoned as `_seen_from` does, for many at once."""
    (x, y), (a, b) = stem
    size, dx, dy = max(math.dist(*stem), 1e-6), a - x, b - y
    return [
        abs((px - x) * dy - (py - y) * dx) / size > WHITE
        or not -WHITE < ((px - x) * dx + (py - y) * dy) / size < size + WHITE
        for px, py in points
    ]


def _beside(point: Point, stem: Stem) -> tuple[float, float, float]:
    """How far along a stem a point lies, how far from it, and how long it is."""
    along, aside = _seen_from(point, stem)
    return along, abs(aside), max(math.dist(*stem), 1e-6)


def _seen_from(point: Point, stem: Stem) -> tuple[float, float]:
    """How far along a stem a point lies, and how far to its one side, or less than 0 to the other."""
    (x, y), (a, b) = stem
    size = max(math.dist(*stem), 1e-6)
    along = ((point[0] - x) * (a - x) + (point[1] - y) * (b - y)) / size
    return along, ((point[0] - x) * (b - y) - (point[1] - y) * (a - x)) / size


def is_covered(spot: Spot, stem: Stem) -> bool:
    """Whether a stem worked in front of a stitch or of a run of chains hides what it crosses there."""
    return runs_along(spot, stem) or any(runs_across((x, y), stem) for x, y, _ in _ovals(spot))


def _ovals(spot: Spot) -> Sequence[tuple[float, float, float]]:
    return spot.ovals if spot.role == "chain" else ()


def runs_across(middle: Point, stem: Stem) -> bool:
    """Whether a stem crosses a chain near enough to its middle to leave an end of it on either side."""
    along, aside, size = _beside(middle, stem)
    return aside < ACROSS and 0.0 <= along <= size


def runs_along(spot: Spot, stem: Stem) -> bool:
    """Whether the stem of a stitch lies under another along its whole length."""
    if spot.role != "stitch" or len(spot.feet) != 1 or spot.kind == "sl st":
        return False
    return all(off_stem(p, stem) < ON_ONE for p in (spot.head, spot.feet[0]))


def off_stem(point: Point, stem: Stem) -> float:
    """How far a point lies from a stem; far, where it lies beyond its ends."""
    along, aside, size = _beside(point, stem)
    return aside if -ON_ONE <= along <= size + ON_ONE else math.inf


# -- stitches of one row that cross -----------------------------------------------------------------------------------


def crossed(spots: Sequence[Spot], row: Row, way: Way) -> tuple[Spot, ...]:
    """The spots of a row, by item, with those that cross led past each other."""
    pairs = list(_pairs(spots))
    if not pairs:
        return tuple(spots)
    found = list(spots)
    for item in sorted({item for pair in pairs for item in pair}):
        found[item] = _led(spots[item], way)
    return _parted(found, row, pairs)


def led_to_hooks(spots: Sequence[Spot], row: Row) -> tuple[Spot, ...]:
    """The spots of a row, by item, with every stem that crosses others and goes round a post led to where its hook
    passes the head of that post: so it is steeper, and its pieces between those in front of it longer."""
    if not any(_is_led_round_a_post(spot) for spot in spots):
        return tuple(spots)
    pairs = list(_pairs(spots))
    return _parted([_led_to_hook(s) if _is_led_round_a_post(s) else s for s in spots], row, pairs)


def _parted(found: list[Spot], row: Row, pairs: Iterable[tuple[int, int]]) -> tuple[Spot, ...]:
    """The spots with each that lies behind another broken where they cross."""
    pairs = list(pairs)
    stems = {item: _stem(found[item]) for pair in pairs for item in pair}
    over: dict[int, list[Stem]] = {item: [] for item in stems}
    for first, second in pairs:
        front, back = (first, second) if row.stitches[second].passes == "behind" else (second, first)
        over[back] += _where(stems[back], stems[front])
    for item, hidden in over.items():
        found[item] = replace(found[item], behind=tuple(dict.fromkeys(hidden)))
    return tuple(found)


def _pairs(spots: Sequence[Spot]) -> Iterator[tuple[int, int]]:
    """The items that cross, each pair in the order of work."""
    single = [s for s in spots if s.role == "stitch" and len(s.feet) == 1 and s.kind != "sl st"]
    for k, a in enumerate(single):
        for b in single[k + 1 : k + 1 + WINDOW]:
            if crossing(a.feet[0], a.head, b.feet[0], b.head):
                yield a.item, b.item


def crossing(a: Point, b: Point, c: Point, d: Point) -> Point | None:
    """Where the lines a-b and c-d cross well inside both, or None.

    >>> crossing((0.0, 0.0), (2.0, 2.0), (0.0, 2.0), (2.0, 0.0))
    (1.0, 1.0)
    """
    area = (b[0] - a[0]) * (d[1] - c[1]) - (b[1] - a[1]) * (d[0] - c[0])
    if abs(area) < 1e-9:
        return None
    t = ((c[0] - a[0]) * (d[1] - c[1]) - (c[1] - a[1]) * (d[0] - c[0])) / area
    s = ((c[0] - a[0]) * (b[1] - a[1]) - (c[1] - a[1]) * (b[0] - a[0])) / area
    if not (INSIDE < t < 1.0 - INSIDE and INSIDE < s < 1.0 - INSIDE):
        return None
    return (a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t)


def _led(spot: Spot, way: Way) -> Spot:
    """A stitch whose stem is led over to its foot; crosses, whose arms are wide, and long stems keep their way."""
    what = kind_of(drawn_kind(spot.kind, spot.legs, spot.base), spot.legs, spot.base)
    if what.base == "sc" or what.form == "gathered" or spot.own_height or spot.route:
        return spot
    ups = (way.out(way.u(spot.head)), way.out(way.u(spot.feet[0])))
    low = LOW.get(held_by(spot), 0.0)
    route = crossing_way(spot.feet[0], spot.head, ups, _slashes(spot), low)
    return replace(spot, route=tuple((round(x, 4), round(y, 4)) for x, y in route), crosses=True)


def _is_led_round_a_post(spot: Spot) -> bool:
    return spot.crosses and spot.is_posted and len(spot.route) > 2 and len(spot.feet) == 1


def _led_to_hook(spot: Spot) -> Spot:
    """A stem that crosses others led to beside its post, upright no longer than it takes to pass between two bars."""
    (x, y), up = spot.feet[0], _unit(spot.route[-1], spot.route[-2])
    lane = _lane(spot)
    foot = (round(x - lane * up[1], 4), round(y + lane * up[0], 4))
    ups = (_unit(spot.route[1], spot.route[0]), up)
    route = crossing_way(foot, spot.head, ups, _slashes(spot), LOW_BESIDE)
    return replace(spot, feet=(foot,), route=tuple((round(x, 4), round(y, 4)) for x, y in route))


def _lane(spot: Spot) -> float:
    return lane_of(behind=held_by(spot) == "back post")


def _unit(start: Point, end: Point) -> Point:
    size = max(math.dist(start, end), 1e-9)
    return ((end[0] - start[0]) / size, (end[1] - start[1]) / size)


def _slashes(spot: Spot) -> int:
    what = kind_of(drawn_kind(spot.kind, spot.legs, spot.base), spot.legs, spot.base)
    return 0 if what.base == "hdc" else what.yarn_overs


def _stem(spot: Spot) -> tuple[Point, ...]:
    """The way of a stem from its head to its foot."""
    if spot.route:
        return spot.route
    if spot.own_height and spot.is_posted:
        return long_stem(spot.feet[0], spot.head, spot.own_height, _slashes(spot), _lane(spot))
    return (spot.head, spot.feet[0])


def _where(back: Sequence[Point], front: Sequence[Point]) -> Iterator[Stem]:
    """The stretches of a stem that hide another, about every place where the two cross."""
    for a, b in itertools.pairwise(back):
        for c, d in itertools.pairwise(front):
            at = _meets(a, b, c, d)
            if at:
                yield from _about(front, at)


def _meets(a: Point, b: Point, c: Point, d: Point) -> Point | None:
    area = (b[0] - a[0]) * (d[1] - c[1]) - (b[1] - a[1]) * (d[0] - c[0])
    if abs(area) < 1e-12:
        return None
    t = ((c[0] - a[0]) * (d[1] - c[1]) - (c[1] - a[1]) * (d[0] - c[0])) / area
    s = ((c[0] - a[0]) * (b[1] - a[1]) - (c[1] - a[1]) * (b[0] - a[0])) / area
    return (a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t) if 0.0 <= t <= 1.0 and 0.0 <= s <= 1.0 else None


def _about(line: Sequence[Point], at: Point) -> Iterator[Stem]:
    """The pieces of a line near a point."""
    for a, b in itertools.pairwise(line):
        if min(math.dist(a, at), math.dist(b, at)) < NEAR or math.dist(a, b) > NEAR:
            yield (round(a[0], 3), round(a[1], 3)), (round(b[0], 3), round(b[1], 3))
