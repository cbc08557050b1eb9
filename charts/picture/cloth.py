"""The cloth: every stitch where it lies, in stitch widths, with the right side of the work facing the reader.

x runs to the right and y up; z, where it appears, towards the reader. Nothing here knows how it will be seen.
"""

from __future__ import annotations

import functools
import itertools
import math
import statistics
from collections.abc import Callable, Iterable, Mapping, Sequence

from ..layout.placing.placed import Spot
from ..made_late import dataclass, replace
from ..model.cloth.fabric import Stitch
from .yarn import LOOPS

Place = tuple[float, float]

#: What of a row carries a V on its top.
TOPPED = ("stitch", "turning", "edge")
#: A V is no longer than this, in stitch widths: beyond lie chains.
LONGEST_TOP = 1.25
#: A top that is held from one side leans to the other by so much of that, and a taut row evens out its tops so much.
LEANS_BACK, EVENED = 1.1, 0.5
#: Where no chains lie between two stitches the yarn goes over, drawn long; further apart they are not neighbours.
LONGEST_DRAWN = 4.0
#: The V of the first stitch of a row lies on its own post, where no chain leads to it.
EDGE_TOP = 0.5
#: The beginning chain of a row bows out at the edge: one that is no stitch, and one that stands for one.
START_OUT, TURNING_OUT = 0.28, 0.12
#: The V after a beginning chain has so large a share of the way beside one of its chains, which stand at the edge.
EDGE_SHARE = 0.55
#: A foot lies so far before the head below it, under that one's V, where it would lie no farther from that head.
LEAN, UNDER_HEAD = 0.17, 0.4
#: Stitches in one place stand there so far apart, and all of them in so much.
FAN_STEP, FAN_ROOM = 0.24, 0.95
#: The thinnest and the thickest yarn, beside the usual.
THINNEST, THICKEST = 0.82, 1.1
#: A post is held so far up, close under its top.
HELD_AT = 0.56
#: A top of which one strand is left free leans so far to the side of that strand.
FREED = 0.3
#: Of two that cross, one lies so far over and the other so far under the cloth.
CROSSED_OVER = 0.4
#: Those that cross stand no more than so many stitches apart in the row.
CROSS_REACH = 12
#: Slip stitches that lead on lie over the tops of the round below, so far up and before them.
TRAVEL_UP, TRAVEL_OVER = 0.14, 0.5


@dataclass(frozen=True, slots=True)
class Made:
    """A stitch in the cloth.

    `back` is where its V begins, at the head before it; `along` the way the work goes there and `up` the way the row
    grows, both unit vectors; `face` is 1 where the one who made it had the right side before her, else -1. `line` is
    the middle line of its chains in the order of work. `lift` is how far its post stands out of the cloth towards the
    reader, `over` how far it passes in front of (or behind, negative) a stitch that it crosses, and `deep` whether it
    reaches down past the row below. `held` is how far towards the reader a later stitch stands that is worked round
    its post, 0 where none is, and `low` how far what it stands in, or
    is itself worked round, lies out of the cloth. `tops` is how far
    towards the reader its V lies where it begins and where it ends. `level` is how high the layer lies that it is part
    of, above the lowest one. `fan` is how many stitches stand in the one place it stands in.
    """

    row: int
    spot: Spot
    made: Stitch
    head: Place
    feet: tuple[Place, ...]
    back: Place
    along: Place
    up: Place
    face: float
    colour: str
    line: tuple[Place, ...] = ()
    lift: float = 0.0
    over: float = 0.0
    deep: bool = False
    held: float = 0.0
    low: float = 0.0
    tops: tuple[float, float] = (0.0, 0.0)
    level: float = 0.0
    fan: int = 1

    @property
    def is_topped(self) -> bool:
        return self.spot.role in TOPPED


@dataclass(frozen=True, slots=True, eq=False)
class Cloth:
    """All stitches of a piece in the order of work; `box` is (left, bottom, right, top) of their places. Each is itself
    alone, so that its yarn can be kept for the next view of it.

    `ended` says whether its last stitch is fastened off (so that its end is to be seen). `repeat` is the width and
    the height of one repeat of its texture, as far as it has one; `middle` a place within a typical stretch. `yarn` is
    how thick the yarn is beside the usual: as thick as the stitches lie apart.
    """

    stitches: tuple[Made, ...]
    box: tuple[float, float, float, float]
    middle: Place
    repeat: Place
    ended: bool = True
    yarn: float = 1.0


def moved(made: Made, to: Callable[[Place], Place]) -> Made:
    """A stitch whose every place is moved."""
    return replace(made, head=to(made.head), feet=tuple(map(to, made.feet)), back=to(made.back),
                   line=tuple(map(to, made.line)))


def with_held(stitches: Sequence[Made]) -> list[Made]:
    """The stitches of a cloth, each told on which side another is worked round its post, and how far out its V and its
    foot lie: a V behind what is worked round its post and to the side of a strand that is left free, a foot in the V
    below."""
    held: dict[tuple[int, int], float] = {}
    freed: dict[tuple[int, int], float] = {}
    for s in stitches:
        for f in s.made.feet:
            if s.lift:
                held[s.row - f.back, f.at] = s.lift
            if f.hold in LOOPS:
                place = (s.row - f.back, f.at)
                freed[place] = freed.get(place, 0.0) + s.face * LOOPS[f.hold] * FREED
    found = []
    for s in stitches:
        here = (s.row, s.spot.item)
        found.append(replace(s, held=held[here]) if here in held else s)
    outs = {at: _leaning(s, freed.get((s.row, s.spot.item), 0.0)) for at, s in enumerate(found) if s.is_topped}
    return _standing_in(_topped(found, outs))


def _leaning(made: Made, freed: float) -> float:
    """How far towards the reader the head of a stitch would lie if it were alone."""
    far = max(-FREED, min(FREED, freed))
    return far - (LEANS_BACK * made.held if made.held else 0.25 * made.lift)


def _topped(stitches: Sequence[Made], outs: Mapping[int, float]) -> list[Made]:
    """The stitches told how far out their Vs lie, evened out along each row; `outs` is where they would be alone."""
    found = list(stitches)
    for _, row in itertools.groupby(outs, key=lambda at: found[at].row):
        places = list(row)
        even = _evened([outs[at] for at in places])
        for k, (at, out) in enumerate(zip(places, even, strict=True)):
            near = k > 0 and math.dist(found[places[k - 1]].head, found[at].back) < LEAN
            found[at] = replace(found[at], tops=(even[k - 1] if near else out, out))
    return found


def _standing_in(stitches: Sequence[Made]) -> list[Made]:
    """The stitches told how far out their feet are, where they stand in the tops of others."""
    out = {(s.row, s.spot.item): s.tops[1] for s in stitches if s.is_topped}
    found = []
    for s in stitches:
        low = [out.get((s.row - f.back, f.at), 0.0) for f in s.made.feet]
        share = HELD_AT if s.spot.is_posted else 1.0
        found.append(replace(s, low=share * sum(low) / len(low)) if low and not s.low else s)
    return found


def _evened(outs: Sequence[float]) -> list[float]:
    """How far heads of a row lie out of the cloth, each drawn towards those beside it."""
    ends = [outs[0], *outs, outs[-1]]
    return [b + EVENED * ((a + c) / 2.0 - b) for a, b, c in zip(ends, ends[1:], ends[2:], strict=False)]


def leaned(stitches: Sequence[Made]) -> list[Made]:
    """The stitches of a cloth, each with its feet where the hook goes in: under the V of the one below, which lies
    before its head, beside those that go in there too. So posts lean, to and fro in rows that are turned and all one
    way in rounds that are not."""
    places = {(s.row, s.spot.item): s for s in stitches if s.is_topped and s.back != s.head}
    feet: dict[int, tuple[Place, ...]] = {}
    fans: dict[tuple[int, int, int], list[int]] = {}
    for at, s in enumerate(stitches):
        if s.row < 0 or not s.is_topped or s.spot.is_posted:
            continue
        pairs = itertools.zip_longest(s.feet, s.made.feet[: len(s.feet)])
        found = tuple(_under(p, places.get((s.row - f.back, f.at))) if f else p for p, f in pairs)
        if found != s.feet:
            feet[at] = found
        if len(found) == len(s.made.feet) == 1 and s.spot.hold != "ring":
            fans.setdefault((s.row, s.made.feet[0].back, s.made.feet[0].at), []).append(at)
    many = {}
    for fan in fans.values():
        if len(fan) > 1 and (apart := _side_by_side(stitches, fan, feet)):
            feet.update(apart)
            many.update(dict.fromkeys(fan, len(fan)))
    return [replace(s, feet=feet[at], fan=many.get(at, 1)) if at in feet else s for at, s in enumerate(stitches)]


def _under(foot: Place, below: Made | None) -> Place:
    """A foot on a head, moved under that one's V; any other as it is."""
    if below is None or math.dist(foot, below.head) >= UNDER_HEAD:
        return foot
    (x, y), (bx, by) = below.head, below.back
    share = LEAN * min(1.0, 1.0 / math.hypot(bx - x, by - y))
    return (foot[0] + (bx - x) * share, foot[1] + (by - y) * share)


def _side_by_side(
    stitches: Sequence[Made], fan: Sequence[int], feet: dict[int, tuple[Place, ...]]
) -> dict[int, tuple[Place, ...]]:
    """The feet of stitches that stand in one place, a little apart there, as they have room; nothing where they have
    more of it."""
    many = len(fan)
    now = [feet.get(at, stitches[at].feet)[0] for at in fan]
    middle = (sum(p[0] for p in now) / many, sum(p[1] for p in now) / many)
    along = unit(sum(stitches[at].along[0] for at in fan), sum(stitches[at].along[1] for at in fan))
    step = min(FAN_STEP, FAN_ROOM / many)
    if max(math.dist(p, middle) for p in now) > max(step * (many - 1) / 2.0, 0.05):
        return {}
    return {at: (_off(middle, along, (k - (many - 1) / 2.0) * step),) for k, at in enumerate(fan)}


def yarn_of(stitches: Iterable[Made]) -> float:
    """How thick the yarn is beside the usual: where tops lie closer than a stitch width it is thinner."""
    long = [math.dist(s.head, s.back) for s in stitches if s.row >= 0 and s.is_topped and s.head != s.back]
    return min(max(statistics.median(long), THINNEST), THICKEST) if long else 1.0


def box_of(stitches: Iterable[Made]) -> tuple[float, float, float, float]:
    """The box of everything: left, bottom, right, top."""
    points = [p for s in stitches for p in (s.head, *s.feet, *s.line)]  # a picot's head is the far end of its loop
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    return min(xs) - 0.5, min(ys) - 0.3, max(xs) + 0.5, max(ys) + 0.2


def unit(dx: float, dy: float) -> Place:
    """A vector made one long; to the right where it has no length."""
    far = math.hypot(dx, dy)
    return (dx / far, dy / far) if far > 1e-6 else (1.0, 0.0)


def in_order(row: Sequence[Made], *, closed: bool = False, begin: Place | None = None) -> list[Made]:
    """The stitches of a row told which way the work goes, and where the yarn comes from: from the loop before, on
    through every chain between, or from `begin`, where the row below ended."""
    tops = [at for at, s in enumerate(row) if s.is_topped]
    found = list(row)
    for place, at in enumerate(tops):
        here = row[at]
        before = row[tops[place - 1]] if place or closed else None
        after = row[tops[(place + 1) % len(tops)]] if place + 1 < len(tops) or closed else None
        gap = row[tops[place - 1] + 1 : at] if place else (*row[tops[-1] + 1 :], *row[:at])
        found[at] = _facing_on(here, before, after, chained=any(s.spot.role == "chain" for s in gap))
    return _threaded(_between_tops(_end_to_end(found)), begin, closed=closed)


def _end_to_end(row: Sequence[Made]) -> list[Made]:
    """The chains of a foundation, each as long as it lies from the one before it, or the first from the next."""
    found, base = list(row), [k for k, s in enumerate(row) if s.spot.role == "foundation" and s.spot.kind == "ch"]
    for a, b in itertools.pairwise(base):
        p, q = row[a].head, row[b].head
        if math.dist(p, q) < LONGEST_TOP * 2:
            found[b] = replace(found[b], back=p)
            if a == base[0]:
                found[a] = replace(found[a], back=(2 * p[0] - q[0], 2 * p[1] - q[1]))
    return found


def _between_tops(row: Sequence[Made]) -> list[Made]:
    """Picots that are worked after one stitch and before another stand between the two, where their loop begins."""
    found = list(row)
    for k, (a, s, b) in enumerate(zip(row, row[1:], row[2:], strict=False), 1):
        beside = a.is_topped and b.is_topped and math.dist(a.head, b.head) < LONGEST_TOP
        if s.spot.role == "picot" and s.feet and beside:
            (x, y), (fx, fy) = _between(a.head, b.head), s.feet[0]
            found[k] = moved(s, functools.partial(_off, way=(x - fx, y - fy), far=1.0))
    return found


def _facing_on(here: Made, before: Made | None, after: Made | None, *, chained: bool) -> Made:
    """A stitch told which way the work goes by its neighbours: by the one before, but where chains lie between."""
    (x, y), along = here.head, here.along
    reach = LONGEST_TOP * 2 if chained else LONGEST_DRAWN
    next_by = after is not None and math.dist(after.head, here.head) < LONGEST_TOP * 2
    if after is not None and next_by and (chained or before is None):
        along = unit(after.head[0] - x, after.head[1] - y)
    elif before is not None and math.dist(before.head, here.head) < reach:
        along = unit(x - before.head[0], y - before.head[1])
    elif after is not None and next_by:
        along = unit(after.head[0] - x, after.head[1] - y)
    return replace(here, along=along, up=_upward(along, here.up), back=_off(here.head, along, -EDGE_TOP))


def _threaded(row: Sequence[Made], begin: Place | None, *, closed: bool) -> list[Made]:
    """The stitches of a row, each V and chain begun where the loop before it ends."""
    found, at, run, first = list(row), begin, [], None
    for k, here in enumerate(row):
        role = here.spot.role
        if role == "chain" or (role == "start" and not here.is_topped and not closed):
            run.append(k)
        elif role == "turning" and here.spot.chains:
            low = here.feet if len(here.feet) > 1 or at is None else (at,)
            middle = _off(_between(low[-1], here.head), here.along, -TURNING_OUT)
            back = here.head if not closed else here.back
            found[k] = replace(here, line=(*low, middle, here.head), back=back)
            at, run, first = here.head, [], k if first is None else first
        elif role == "travel" and here.feet:
            head = _off(here.feet[0], here.up, TRAVEL_UP)
            found[k] = replace(here, head=head, back=head if at is None else at, over=TRAVEL_OVER * here.face)
            at = head
        elif here.is_topped:
            if first is None and closed:
                first = k
            else:
                _led_to(found, run, at, k)
            at, run = here.head, []
    if closed and first is not None and at is not None:
        _led_to(found, run, at, first)
    elif run:
        _shared_out(found, run, _way(found, run, at), 0)
    return found


def _led_to(found: list[Made], run: Sequence[int], at: Place | None, top: int) -> None:
    """Lead the yarn from a place through a run of chains to a top: chains and V have equal shares of the way."""
    here = found[top]
    if at is None and not run:
        return
    if not run and math.dist(at or here.head, here.head) >= LONGEST_DRAWN:
        return
    found[top] = replace(here, back=_shared_out(found, run, (*_way(found, run, at, here.head), here.head), 1))


def _way(
    found: Sequence[Made], run: Sequence[int], at: Place | None, to: Place | None = None
) -> tuple[Place, ...]:
    """The way along a run of chains from a place on, to a top."""
    way: list[Place] = [] if at is None else [at]
    for k in run:
        here = found[k]
        if here.spot.role == "start":
            low = here.feet if len(here.feet) > 1 else () if way else (_below(to or here.head, here),)
            middle = _between((*way, *low)[-1], to or here.head)
            way += [*low, _off(middle, here.along, -START_OUT)]
        else:
            way += here.line or (here.head,)
    return tuple(way)


def _below(top: Place, made: Made) -> Place:
    """The place under a top, as far down as a stitch begins."""
    foot = made.feet[0] if made.feet else top
    return _off(top, made.up, (foot[0] - top[0]) * made.up[0] + (foot[1] - top[1]) * made.up[1])


def _shared_out(found: list[Made], run: Sequence[int], way: Sequence[Place], more: float) -> Place:
    """Give each run of chains its part of a way, so many equal loops more left at its end; where that rest begins."""
    counts = [max(found[k].spot.chains, 1) for k in run]
    more *= EDGE_SHARE if any(found[k].spot.role == "start" for k in run) else 1.0
    total, done = sum(counts) + more, 0
    for k, count in zip(run, counts, strict=True):
        found[k] = replace(found[k], line=part_of(way, done / total, (done + count) / total))
        done += count
    return along_line(way, done / total) if total else way[-1]


def along_line(line: Sequence[Place], share: float) -> Place:
    """The place at a share of a line's length."""
    steps = [math.dist(a, b) for a, b in itertools.pairwise(line)]
    rest = share * sum(steps)
    for (a, b), step in zip(itertools.pairwise(line), steps, strict=True):
        if rest <= step and step > 0:
            return (a[0] + (b[0] - a[0]) * rest / step, a[1] + (b[1] - a[1]) * rest / step)
        rest -= step
    return line[-1]


def part_of(line: Sequence[Place], low: float, high: float) -> tuple[Place, ...]:
    """The part of a line between two shares of its length.

    >>> part_of(((0.0, 0.0), (2.0, 0.0), (4.0, 0.0)), 0.25, 0.75)
    ((1.0, 0.0), (2.0, 0.0), (3.0, 0.0))
    """
    steps = [math.dist(a, b) for a, b in itertools.pairwise(line)]
    far, whole, inner = 0.0, sum(steps), []
    for p, step in zip(line[1:], steps, strict=False):
        far += step
        if low * whole < far < high * whole:
            inner.append(p)
    return (along_line(line, low), *inner, along_line(line, high))


def _off(p: Place, way: Place, far: float) -> Place:
    return (p[0] + way[0] * far, p[1] + way[1] * far)


def _between(a: Place, b: Place) -> Place:
    return ((a[0] + b[0]) / 2.0, (a[1] + b[1]) / 2.0)


def _upward(along: Place, up: Place) -> Place:
    """The unit vector square to the work on the side of `up`."""
    square = (-along[1], along[0])
    return square if square[0] * up[0] + square[1] * up[1] >= 0 else (along[1], -along[0])


def square_to(a: Place, b: Place, up: Place) -> Place:
    """The unit vector square to the way from a to b on the side of `up`; `up` itself where they are one."""
    return _upward(unit(b[0] - a[0], b[1] - a[1]), up) if a != b else up


def crossed(row: Sequence[Made]) -> list[Made]:
    """The stitches of a row, those that cross brought before and behind each other as seen by who works them: each
    that is worked behind others, and every one whose post it crosses."""
    found = list(row)
    behind = [at for at, s in enumerate(row) if s.spot.behind]
    before = {k for at in behind for k in range(max(at - CROSS_REACH, 0), min(at + CROSS_REACH + 1, len(row)))
              if not row[k].spot.behind and _cross(row[at], row[k])}
    for at in (*behind, *before):
        far = CROSSED_OVER if at in before else -CROSSED_OVER
        found[at] = replace(row[at], over=far * row[at].face)
    return found


def _cross(one: Made, other: Made) -> bool:
    """Whether the posts of two stitches cross: each has the ends of the other on both its sides."""
    if one is other or len(one.feet) != 1 or len(other.feet) != 1:
        return False

    def side(of: Made, p: Place) -> float:
        (x, y), (hx, hy) = of.feet[0], of.head
        return (hx - x) * (p[1] - y) - (hy - y) * (p[0] - x)

    return all(side(a, b.feet[0]) * side(a, b.head) < 0 for a, b in ((one, other), (other, one)))
