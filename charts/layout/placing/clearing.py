"""What lies at a seam or beside a row, moved clear of other ink.

Joins, slip stitches that travel and beginning chains that do not count have a place they want, but stitches stand
on their feet whatever lies there. So all else is laid first; then each of these is tried at its place, then ever
farther from it, and kept at the first place where white is left all round it.
"""

from __future__ import annotations

import functools
import itertools
import math
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import field

from hookfold.symbols import Mark, Point
from hookfold.symbols.ink import Box, SubPath

from ...made_late import dataclass, replace
from .ink import chain_leg, mark_of
from .placed import Spot, stack, turned

#: The way between the points that stand for a line of ink, and the side of the squares they are sorted into.
STEP, CELL = 0.11, 0.5
#: From the middle of one pen stroke to that of another with white left between them.
FREE = 0.2
#: The same from a dot, which has no pen of its own.
FREE_OF_DOT = 0.15
#: With so much what stands at its place stays there.
STAYS = 0.11
#: How large a join's dot is, as a share of its own size, where nothing better is free.
SMALL_DOT = 0.8
#: The same of a beginning chain.
SMALL_CHAIN = 0.8
#: Roles whose place may give way.
LOOSE = ("start", "join", "travel")
#: How far, and in what steps, a place is looked for along the work and outward.
ALONG, OUT, BY = 0.7, 0.6, 0.1
#: So far along a beginning chain, or the join at its top, is still between the stitches that it joins.
ASIDE = 0.4
#: Heads of the first and the last stitch no farther apart than this are neighbours.
NEIGHBOURS = 1.0
#: What a way outward costs against one along: things at a seam stay at their height.
STEEP = 1.4
#: Directions that it turns to where a place is too narrow for what lies across it, and what each costs: a dot that lies
#: along its round is best moved there.
TURNS = {0.0: 0.0, 90.0: 0.25, 45.0: 0.4, -45.0: 0.4}
#: A beginning chain that is the first leg of a cluster and the other legs beside it: how far apart they are tried, what
#: share of that the legs give way to the other side, how far the chain is lifted, and how far its top is led aside and
#: down.
LEG_ASIDE, LEG_GIVES, LEG_LIFTS = (0.75, 0.9), (0.0, 0.25, 0.5), (0.0, 0.2, 0.4)
LEG_TOPS = tuple(itertools.product((0.0, 0.14), (0.0, 0.2, 0.4)))


@dataclass(slots=True)
class InkMap:
    """Points of ink sorted into squares, each with the name of what it belongs to."""

    cells: dict[tuple[int, int], list[tuple[float, float, object]]] = field(
        default_factory=lambda: defaultdict(list)
    )

    def add(self, owner: object, points: Iterable[Point]) -> None:
        """Lay points down for an owner."""
        for x, y in points:
            self.cells[math.floor(x / CELL), math.floor(y / CELL)].append((x, y, owner))

    def lift(self, owner: object, points: Iterable[Point]) -> None:
        """Take an owner's points up again."""
        for cell in {(math.floor(x / CELL), math.floor(y / CELL)) for x, y in points}:
            self.cells[cell] = [p for p in self.cells[cell] if p[2] != owner]

    def free(self, points: Sequence[Point], most: float, least: float = 0.0) -> float:
        """The way from any of the points to the nearest ink, up to `most`; what is below `least` may be rough."""
        found = most
        for x, y in points:
            found = min(found, self._free_at(x, y, found))
            if found <= least:
                break
        return found

    def _free_at(self, x: float, y: float, most: float) -> float:
        best, inked = most * most, self.cells
        across = range(math.floor((x - most) / CELL), math.floor((x + most) / CELL) + 1)
        down = range(math.floor((y - most) / CELL), math.floor((y + most) / CELL) + 1)
        for i in across:
            for j in down:
                if (i, j) not in inked:
                    continue
                for px, py, _ in inked[i, j]:
                    far = (px - x) * (px - x) + (py - y) * (py - y)
                    if far < best:
                        best = far
        return math.sqrt(best)

    def free_of(self, at: Point, most: float, row: object) -> tuple[float, float]:
        """The way from a point to the nearest ink of a row, by its name on the map, and to that of any other, each up
        to `most`."""
        own = other = most
        inked, (ax, ay) = self.cells, at
        across = range(math.floor((ax - most) / CELL), math.floor((ax + most) / CELL) + 1)
        down = range(math.floor((ay - most) / CELL), math.floor((ay + most) / CELL) + 1)
        for i in across:
            for j in down:
                if (i, j) not in inked:
                    continue
                for x, y, owner in inked[i, j]:
                    reach = own if own > other else other
                    if abs(x - ax) > reach or abs(y - ay) > reach:
                        continue
                    far = math.dist((x, y), at)
                    if isinstance(owner, tuple) and owner[0] == row:
                        own = min(own, far)
                    else:
                        other = min(other, far)
        return own, other

    def free_about(self, box: Box, most: float, least: float = 0.0) -> float:
        """The way from a box (left, top, right, bottom) to the nearest ink outside it, up to `most`; 0 where ink lies
        in it, and what is below `least` may be rough."""
        left, top, right, bottom = box
        inside = self._free_about(box, math.inf, least, (left, top, right, bottom))  # most ink that is met lies in it
        if inside <= least:
            return min(inside, most)
        return self._free_about(box, most, least, (left - most, top - most, right + most, bottom + most))

    def _free_about(self, box: Box, most: float, least: float, within: Box) -> float:
        """The same, of the ink in the squares that another box touches."""
        left, top, right, bottom = box
        best, enough, inked = most * most, least * least, self.cells
        down = range(math.floor(within[1] / CELL), math.floor(within[3] / CELL) + 1)
        for i in range(math.floor(within[0] / CELL), math.floor(within[2] / CELL) + 1):
            for j in down:
                if (i, j) not in inked:
                    continue
                for x, y, _ in inked[i, j]:
                    dx = left - x if x < left else x - right if x > right else 0.0
                    dy = top - y if y < top else y - bottom if y > bottom else 0.0
                    if dx * dx + dy * dy < best:
                        best = dx * dx + dy * dy
                        if best <= enough:
                            return math.sqrt(best)
        return math.sqrt(best)


def ink_points(mark: Mark) -> list[Point]:
    """Points along all lines and outlines of a mark, no farther apart than `STEP`, and inside what is filled."""
    filled = [_along(path) for path in mark.fills]
    lines = [_along(path) for path in mark.strokes]
    return [p for path in (*lines, *filled, *map(_inside, filled)) for p in path]


def _inside(outline: Sequence[Point]) -> list[Point]:
    """The middle of an outline, and points halfway there."""
    x, y = (sum(p[axis] for p in outline) / len(outline) for axis in (0, 1))
    return [(x, y), *((((a + x) / 2.0), (b + y) / 2.0) for a, b in outline[::2])]


def _along(path: SubPath) -> list[Point]:
    here = start = path[0][1][0]
    points = [here]
    for command, given in path[1:]:
        end = start if command == "Z" else given[-1]
        handles = given if command == "C" else (end,)
        count = max(1, math.ceil(sum(math.dist(a, b) for a, b in itertools.pairwise((here, *handles))) / STEP))
        points += [_bent((here, *handles), k / count) for k in range(1, count + 1)]
        here = end
    return points


def _bent(points: tuple[Point, ...], t: float) -> Point:
    """The point at share `t` of a line, or of a cubic with these handles; written out, as all ink goes through it."""
    if len(points) == 2:
        (x, y), (a, b) = points
        return x + (a - x) * t, y + (b - y) * t
    s = 1.0 - t
    p, q, r, u = s * s * s, 3.0 * s * s * t, 3.0 * s * t * t, t * t * t
    (a, b), (c, d), (e, f), (g, h) = points
    return p * a + q * c + r * e + u * g, p * b + q * d + r * f + u * h


def cleared(spots: Sequence[Spot], others: InkMap, name: object, *, flat: bool = False) -> tuple[Spot, ...]:
    """The spots of one row, its loose ones moved clear of the ink on the map; their ink is moved on the map too.

    `name` is what its spots are called on the map: (`name`, item). `flat` says that outward is up the sheet. Of several
    joins in one place only the first moves: there is no room for more.
    """
    moved: list[Spot] = []
    joined: set[Point] = set()
    tight = _is_tight(spots)
    spots = _with_first_legs(spots, others, name)
    for s in spots:
        again = s.role == "join" and s.head in joined
        moved.append(_cleared(s, others, (name, s.item), (flat, tight)) if s.role in LOOSE and not again else s)
        if s.role == "join":
            joined.add(s.head)
    return tuple(moved)


def _is_tight(spots: Sequence[Spot]) -> bool:
    """Whether the first and the last of a round's stitches are neighbours, so that its join has its place between them
    and, moved any farther, would lie beyond one."""
    stitches = [s for s in spots if s.role not in LOOSE]
    return len(stitches) > 1 and math.dist(stitches[0].head, stitches[-1].head) < NEIGHBOURS


def _with_first_legs(spots: Sequence[Spot], others: InkMap, name: object) -> Sequence[Spot]:
    """The spots with the beginning chain of a cluster clear of the cluster's other legs and of its neighbours; what is
    loose gives way to it."""
    if not any(s.is_beside_chain for s in spots):
        return spots
    loose = [s for s in spots if s.role in LOOSE]
    for s in loose:
        others.lift((name, s.item), ink_points(mark_of(s)))
    found = tuple(_beside_legs(s, others, (name, s.item)) if s.is_beside_chain else s for s in spots)
    for s in loose:
        others.add((name, s.item), ink_points(mark_of(s)))
    return found


def _beside_legs(spot: Spot, others: InkMap, owner: object) -> Spot:
    """A cluster whose first leg is a chain, both feet where there is most white between them and about them."""
    others.lift(owner, ink_points(mark_of(spot)))
    best, most = spot, _white_of_first_leg(spot, others)
    for tried in _leg_places(spot) if most < FREE else ():
        white = _white_of_first_leg(tried, others)
        if white > most + 0.01:
            best, most = tried, white
        if most >= FREE:
            break
    others.add(owner, ink_points(mark_of(best)))
    return best


def _leg_places(spot: Spot) -> Iterable[Spot]:
    """Where the chain and the legs of such a cluster may stand, the least moved first."""
    (x, y), (p, q), (u, v) = spot.feet[0], spot.feet[1], spot.head
    far = math.dist((x, y), (p, q))
    side, tall = ((x - p) / far, (y - q) / far), max(math.dist((p, q), (u, v)), 1.0)
    up = ((u - p) / tall, (v - q) / tall)

    def moved(at: Point, out: float, high: float) -> Point:
        return (at[0] + side[0] * out + up[0] * high, at[1] + side[1] * out + up[1] * high)

    def cost(tried: tuple[float, float, float, Point]) -> float:
        aside, gives, lift, (out, drop) = tried
        return round(aside + aside * gives + lift + out + drop, 3)

    for tried in sorted(itertools.product(LEG_ASIDE, LEG_GIVES, LEG_LIFTS, LEG_TOPS), key=lambda t: (cost(t), t)):
        aside, gives, lift, (out, drop) = tried
        legs = moved((p, q), -aside * gives, 0.0)
        led = replace(spot, feet=(moved(legs, aside, lift), *(legs for _ in spot.feet[1:])), ovals=())
        foot, top = chain_leg(led)
        yield replace(led, ovals=stack(foot, moved(top, out, -drop), spot.chains))


def _white_of_first_leg(spot: Spot, others: InkMap) -> float:
    """The way from such a cluster to other ink, and from its chain to its legs, up to `FREE`."""
    mark = mark_of(spot)
    ovals, legs = (ink_points(Mark(strokes)) for strokes in (mark.strokes[: spot.chains], mark.strokes[spot.chains :]))
    white = others.free([*ovals, *legs], FREE)
    own = InkMap()
    own.add("legs", legs)
    return min(white, own.free(ovals, FREE))


def _cleared(spot: Spot, others: InkMap, owner: object, row: tuple[bool, bool]) -> Spot:
    """One loose spot moved clear; `row` is whether it lies flat and whether its ends are neighbours."""
    flat, tight = row
    others.lift(owner, ink_points(mark_of(spot)))
    found = spot
    for tried, aside in _ways(spot, tight):
        found = _freest(tried, others, flat, aside)
        if others.free(ink_points(mark_of(found)), STAYS) >= STAYS:
            break
    others.add(owner, ink_points(mark_of(found)))
    return found


def _ways(spot: Spot, tight: bool) -> list[tuple[Spot, float]]:
    """What to try of a spot in turn, and how far along: a join first between its stitches, there smaller too, and
    nowhere else where these are neighbours. A beginning chain stays between them, as past the first stitch it would be
    worked after that."""
    if spot.role == "start":
        return [(spot, ASIDE), (replace(spot, size=SMALL_CHAIN * spot.size), ASIDE)]
    if spot.role != "join":
        return [(spot, ALONG)]
    small = replace(spot, size=SMALL_DOT)
    between = [(spot, ASIDE), (small, ASIDE)]
    return between if tight else [*between, (spot, ALONG), (small, ALONG)]


def _freest(spot: Spot, others: InkMap, flat: bool, aside: float) -> Spot:
    """The spot where it has most white, no farther along than `aside`."""
    own = ink_points(mark_of(spot))
    best, most = spot, others.free(own, FREE)
    if most >= STAYS:
        return spot
    out, enough = (0.0, -1.0) if flat else _outward(spot), FREE if spot.role == "start" else FREE_OF_DOT
    turns = [turned(spot, turn) if turn else spot for turn in (TURNS if spot.role != "start" else (0.0,))]
    inks = [own, *(ink_points(mark_of(tried)) for tried in turns[1:])]
    for k, along, up in _steps():
        if k >= len(turns) or abs(along) > aside:
            continue
        dx, dy = -out[1] * along + out[0] * up, out[0] * along + out[1] * up
        free = others.free([(x + dx, y + dy) for x, y in inks[k]], FREE, most)
        if free > most + 0.01:
            best, most = turns[k].moved(dx, dy), free
        if most >= enough:
            return best
    return best


def _outward(spot: Spot) -> Point:
    reach = math.hypot(*spot.head)
    return (spot.head[0] / reach, spot.head[1] / reach) if reach > 1e-6 else (0.0, -1.0)


@functools.cache
def _steps() -> tuple[tuple[int, float, float], ...]:
    """What to try, the cheapest first: which of the turns, and the way along and outward, on either side in turn."""
    along = [k * BY for k in range(-round(ALONG / BY), round(ALONG / BY) + 1)]
    up = [k * BY for k in range(-round(OUT / BY), round(OUT / BY) + 1)]
    tries = itertools.product(range(len(TURNS)), along, up)
    costs = list(TURNS.values())
    return tuple(sorted(tries, key=lambda s: (round(math.hypot(s[1], s[2] * STEEP) + costs[s[0]], 3), s)))


def map_of(rows: Iterable[tuple[object, Sequence[Spot]]]) -> InkMap:
    """The ink of rows, each with its name."""
    found = InkMap()
    for name, spots in rows:
        for spot in spots:
            found.add((name, spot.item), ink_points(mark_of(spot)))
    return found
