"""Every stitch round a post drawn with its hook about the stem of the stitch that it is worked round.

Stitches stand where they were placed. Here the hook of each is led past the bar of the stitch below, on the side that
is its own, and what it passes over or under is broken: a hook round the front hides what it crosses, a hook round the
back is hidden by it.
"""

from __future__ import annotations

import itertools
import math
from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import field

from hookfold.symbols import BEND, LANE, SHARED_LANE, Clasp, Point, lane_of
from hookfold.symbols.clasp import LONG_OUT, LONG_UP

from ...made_late import dataclass, replace
from ...model.cloth.fabric import Row
from ..placing.clearing import LOOSE, InkMap, ink_points
from ..placing.feet import Bases
from ..placing.ink import hook_at, mark_of, unhooked
from ..placing.placed import Spot, Stem, held_by
from .stems import SECOND, UNDER_ARMS, clasp_of

#: How far beside a stem its hook may come down, the best first: on the side that the key shows, as one on the other
#: side is another stitch.
SIDES = (LANE, 0.46, 0.56, 0.64, 0.74)
#: The sides in narrow room, and how much higher a hook is tried there under the arms of a cross.
CLOSE_SIDES, CLOSE_UP = (0.46, 0.42, LANE), (0.0, 0.08, 0.16)
#: With so much from line to line ink is clear of ink; nearer than this it is crossed. Near its own stem a hook is not
#: looked at.
CLEAR, CROSSED, OWN = 0.165, 0.13, 0.15
#: A foot so far beside the head below, on the hooks' side, says itself how far beside it the hook comes down.
ASIDE = 0.3
#: Posts farther apart than this have no hook between them but their own.
POSTS_APART = 1.5
#: Two hooks share a lane where their stems stand so far apart across, and no farther than `POSTS_APART`.
FACING = 0.3
#: So much farther out the hook of the next round one post comes down, and so much higher it leaves its stem.
OUTSIDE, HIGHER = 0.2, 0.1
#: The least length of a stretch.
LEAST = 0.02
#: So far from its head a stem is led past other rows.
NEAR_HEAD = 0.75

#: A thing on the chart: how many rows down from the row it is seen from (0 for that row), and its item.
Place = tuple[int, int]


@dataclass(slots=True)
class Clasped:
    """A row with its hooks closed, for everything that these hide the stretches that hide it, and what is drawn narrow
    below, so that two hooks go down between two bars."""

    spots: tuple[Spot, ...]
    narrow: set[Place] = field(default_factory=set)
    hidden: dict[Place, list[Stem]] = field(default_factory=lambda: defaultdict(list))


def is_hooked(spot: Spot) -> bool:
    """Whether a stitch goes round a post."""
    return spot.is_posted and spot.role == "stitch" and spot.kind[:3] != "sl "


def clasped_row(spots: Sequence[Spot], row: Row, bases: Bases) -> Clasped:
    """The hooks of a row closed round the stems of `bases`, which are the rows below it by how far down they lie."""
    found = Clasped(tuple(spots))
    every = {0: spots, **bases}
    places = {(down, s.item): s for down, row_ in every.items() for s in row_ if s.role not in LOOSE}
    around = _Around(places)
    made = list(spots)
    hooked = [s.item for s in spots if is_hooked(s)]
    posts = [(f.back, f.at) for item in hooked for f in row.stitches[item].feet if (f.back, f.at) in places]
    roomy = around.has_room([(at, clasp) for at in posts if (clasp := clasp_of(places[at]))])
    taken: dict[Place, int] = defaultdict(int)
    facing = _face_each_other(spots, row, places)
    for k in _inner_first(spots, row):
        spot = spots[k]
        feet = row.stitches[spot.item].feet
        if not is_hooked(spot) or len(feet) != len(spot.feet) or not (spot.signed or spot.kind[:2] in ("FP", "BP")):
            continue
        below = [(f.back, f.at) for f in feet]
        clasps = [clasp_of(places[at]) if at in places else None for at in below]
        if any(c is None for c in clasps):
            continue
        lane = math.copysign(SHARED_LANE if facing else LANE, _side(spot))
        wanted = [(at, replace(c, roomy=roomy, side=lane)) for at, c in zip(below, clasps, strict=True) if c]
        found.narrow.update(below if facing else ())
        made[k] = around.closed((0, spot.item), spot, wanted, taken)
        for at, stem in around.hides:
            found.hidden[at].append(stem)
    found.spots = tuple(made)
    return found


def _inner_first(spots: Sequence[Spot], row: Row) -> list[int]:
    """The order in which hooks are closed: as the row is worked, but of those round one post the one farthest from its
    hook's side first, so that the others come down outside it and cross deeper."""
    first: dict[tuple[Place, ...], int] = {}
    order: list[tuple[int, float, int]] = []
    for k, spot in enumerate(spots):
        hooked = is_hooked(spot)
        posts = tuple((f.back, f.at) for f in row.stitches[spot.item].feet) if hooked else ()
        along = math.radians(spot.angle_deg)
        aside = spot.head[0] * math.cos(along) + spot.head[1] * math.sin(along) if hooked else 0.0
        order.append((first.setdefault(posts, k) if hooked else k, aside * _side(spot), k))
    return [k for *_, k in sorted(order)]


def _side(spot: Spot) -> float:
    """1 for a stitch whose hook comes down on the right of its post, -1 for one on the left."""
    return math.copysign(1.0, lane_of(behind=held_by(spot) == "back post"))


def _face_each_other(spots: Sequence[Spot], row: Row, places: Mapping[Place, Spot]) -> bool:
    """Whether a hook round the front comes down between the same two posts as one round the back anywhere in a row."""
    held: dict[float, list[Clasp]] = {-1.0: [], 1.0: []}
    for spot in spots:
        posts = [(f.back, f.at) for f in row.stitches[spot.item].feet] if is_hooked(spot) else []
        held[_side(spot)] += [clasp for at in posts if at in places and (clasp := clasp_of(places[at]))]
    lefts = InkMap()
    for k, clasp in enumerate(held[-1.0]):
        lefts.add(k, [clasp.frame.at(-LANE, 0.0)])
    return any(lefts.free([clasp.frame.at(LANE, 0.0)], LANE - FACING) < LANE - FACING for clasp in held[1.0])


class _Around:
    """The ink about hooks: of everything, and of all that is no run of chains."""

    def __init__(self, places: Mapping[Place, Spot]) -> None:
        self._places = places
        self._ink, self._solid = InkMap(), InkMap()
        self._points: dict[Place, list[Point]] = {}
        for at, spot in places.items():
            self._points[at] = ink_points(unhooked(spot) if is_hooked(spot) else mark_of(spot))
            self._lay(at, self._points[at])
        self.hides: list[tuple[Place, Stem]] = []

    def _lay(self, at: Place, points: Sequence[Point]) -> None:
        self._ink.add(at, points)
        if self._places[at].role != "chain":
            self._solid.add(at, points)

    def _lift(self, at: Place) -> None:
        self._ink.lift(at, self._points[at])
        self._solid.lift(at, self._points[at])

    def has_room(self, posts: Sequence[tuple[Place, Clasp]]) -> bool:
        """Whether hooks round all these posts have room for long tails: no two share a post or stand side by side, and
        no ink lies where a tail would on either side."""
        if any(math.dist(a.at, b.at) < POSTS_APART for (_, a), (_, b) in itertools.combinations(posts, 2)):
            return False
        ends = [(side * LONG_OUT, up) for side in (-1.0, 1.0) for up in (0.0, LONG_UP)]
        for at, clasp in posts:
            self._lift(at)
            free = self._ink.free([clasp.frame.at(*end) for end in ends], CLEAR)
            self._lay(at, self._points[at])
            if free < CLEAR:
                return False
        return bool(posts)

    def closed(
        self, own: Place, spot: Spot, wanted: Sequence[tuple[Place, Clasp]], taken: dict[Place, int]
    ) -> Spot:
        """A stitch with its hooks closed; `hides` is then what they hide, and `taken` how many hooks each stem has."""
        self.hides = []
        front = held_by(spot) == "front post"
        for k, (below, clasp) in enumerate(wanted):
            for at in (own, below):
                self._lift(at)
            spot = _beside(spot, k, clasp, taken[below])
            best = self._freest(spot, k, _deeper(clasp, taken[below]), taken[below])
            spot = replace(spot, clasps=(*spot.clasps, best))
            past = _stem(spot) if front and below[0] > 1 else []
            runs = [*self._crossed(_path(spot, k, best)), *self._crossed(past)]
            if front:
                self.hides.append((below, best.across))
                self.hides += [(at, run) for run in runs for at in self._met(run, (own, below))]
            else:
                spot = replace(spot, unseen=(*spot.unseen, *runs))
            taken[below] += 1
            for at in (own, below):
                self._lay(at, self._points[at])
        points = [p for k, c in enumerate(spot.clasps) for p in ink_points(hook_at(spot, k, c))]
        self._points[own] = [*self._points[own], *points]
        self._ink.add(own, points)
        self._solid.add(own, points)
        return spot

    def _freest(self, spot: Spot, k: int, clasp: Clasp, others: int) -> Clasp:
        """The clasp with its hook on the side where it is clear of all ink, or else of all but chains."""
        tries = [replace(clasp, side=side) for side in _sides(spot, k, clasp, others)]
        if not others and not spot.own_height and held_by(spot) == "back post":
            tries += _close(clasp, _side(spot))
        best, most = tries[0], (-1.0, -1.0)
        for tried in tries:
            path = _path(spot, k, tried)
            clear = self._ink.free(path, CLEAR)
            if clear >= CLEAR:
                return tried
            found = (round(self._solid.free(path, CLEAR), 2), round(clear, 2))
            if found > most:
                best, most = tried, found
        return best

    def _crossed(self, path: Sequence[Point]) -> list[Stem]:
        """The stretches of a line that meet other ink."""
        met = [self._ink.free([p], CROSSED) < CROSSED for p in path]
        stretches = itertools.groupby(zip(path, met, strict=True), lambda each: each[1])
        runs = [[p for p, _ in stretch] for hit, stretch in stretches if hit]
        return [(_rounded(run[0]), _rounded(_beyond(run))) for run in runs]

    def _met(self, run: Stem, but: Sequence[Place]) -> Iterator[Place]:
        """What has ink on a stretch of a hook."""
        for at, points in self._points.items():
            role = self._places[at].role
            if at in but or role not in ("chain", "stitch") or is_hooked(self._places[at]):
                continue
            if math.dist(self._places[at].head, run[0]) < 6.0 and any(_off(p, run) < CROSSED for p in points):
                yield at


def _beyond(run: Sequence[Point]) -> Point:
    """The end of a stretch, which has some length even where it is one point."""
    (x, y), (a, b) = run[0], run[-1]
    return (a, b) if math.dist((x, y), (a, b)) > LEAST else (x + LEAST, y)


def _off(point: Point, stem: Stem) -> float:
    (x, y), (a, b) = stem
    long = (a - x) ** 2 + (b - y) ** 2
    share = min(max(((point[0] - x) * (a - x) + (point[1] - y) * (b - y)) / max(long, 1e-9), 0.0), 1.0)
    return math.dist(point, (x + (a - x) * share, y + (b - y) * share))


def _beside(spot: Spot, k: int, clasp: Clasp, others: int) -> Spot:
    """A stitch whose hook leaves its stem beside those of others round the same post, and above them."""
    if not others or spot.route or spot.own_height:
        return spot
    (x, y), (up_x, up_y) = spot.feet[k], clasp.up
    out, up = OUTSIDE * others * _side(spot), HIGHER * others
    foot = _rounded((x + up_x * up - up_y * out, y + up_y * up + up_x * out))
    return replace(spot, feet=(*spot.feet[:k], foot, *spot.feet[k + 1 :]))


def _deeper(clasp: Clasp, others: int) -> Clasp:
    """The clasp under those of others round the same stem."""
    return _deeper_by(clasp, SECOND * others) if others else clasp


def _deeper_by(clasp: Clasp, down: float) -> Clasp:
    """The clasp so much farther down its stem."""
    at = (clasp.at[0] - clasp.up[0] * down, clasp.at[1] - clasp.up[1] * down)
    return replace(clasp, at=_rounded(at), top=clasp.top + down)


def _close(clasp: Clasp, side: float) -> list[Clasp]:
    """The clasp drawn in close about its stem, where ink stands on both sides; round a cross also higher."""
    ups = CLOSE_UP if clasp.top == UNDER_ARMS else CLOSE_UP[:1]
    return [replace(_deeper_by(clasp, -up), side=side * by, close=True) for up in ups for by in CLOSE_SIDES]


def _sides(spot: Spot, k: int, clasp: Clasp, others: int) -> Sequence[float]:
    """How far beside its post a hook may come down: where its stem already stands beside the head below on that side,
    there, and outside the hooks of others round the same post."""
    side, to = _side(spot), clasp.frame
    if spot.own_height and not spot.route:
        return (side * LANE,)
    x, y = spot.feet[k]
    aside = -(x - to.foot[0]) * to.up[1] + (y - to.foot[1]) * to.up[0]
    if aside * side > ASIDE:
        return (round(aside, 3),)
    first = (abs(clasp.side),) if abs(clasp.side) < LANE else ()
    return tuple(side * (by + OUTSIDE * others) for by in (*first, *SIDES))


def _stem(spot: Spot) -> list[Point]:
    """Points along a stem that is led past other rows, but for what lies at its head and at its hook."""
    if spot.own_height and not spot.route:
        return []  # its stem has a lane of its own
    head, foot = spot.head, spot.feet[0]
    points = ink_points(unhooked(replace(spot, behind=())))
    near = [p for p in points if math.dist(p, head) > NEAR_HEAD and math.dist(p, foot) > BEND]
    return sorted(near, key=lambda p: math.dist(p, head))


def _path(spot: Spot, k: int, clasp: Clasp) -> list[Point]:
    """Points along a hook, but for what lies at its own stem."""
    points = ink_points(hook_at(spot, k, clasp))
    return [p for p in points[1:] if math.dist(p, points[0]) > OWN]


def _rounded(point: Point) -> Point:
    return (round(point[0], 3), round(point[1], 3))
