"""How far apart the tops of a row stand, and how high: level on a level row, falling away where posts lean out."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from typing import NamedTuple

from ...made_late import replace
from ...model.cloth.fabric import Row
from .fans import WIDE_FAN, Pulls, pulled
from .isotonic import FIRM, TIE, astray, follow, settle
from .tops import (
    Slot,
    bridge_size,
    fans_of,
    gap_after,
    gaps_of,
    is_cross,
    is_gathered,
    least_rise,
    ring_room,
    rise_of,
    rooms_of,
)
from .tracks import Way

#: Feet farther apart than this stand on a base that is spread, and their tops keep its spread.
SPREAD = 1.12
#: How far a top of an unbroken row may stand from its feet before the row is kept over them.
ASTRAY = 2.5
#: How firmly the ends of a row that has room for it are held over their feet, and how far they may else have to give:
#: by how many stitch widths a row may be too wide at its closest, and how wide it must be of its own.
HELD, OVER_WIDE, WIDE_ENOUGH = 1e9, 0.05, 0.7
#: How far from a beginning chain at the edge the next foot in its place stands, and the last one from either end.
BESIDE_CHAIN, WIDEST_ASIDE = 0.26, 0.4
#: How much narrower or wider than what it stands on a row may be to be kept even throughout.
FITS = 1.6


#: How far the outermost stem of any other fan leans at most, and the least share of their gaps that its tops keep; but
#: none come nearer than so much for it.
MOST_OPEN, LEAST_CLOSED, LEAST_APART = math.radians(50.0), 0.78, 0.8


def place_along(
    row: Row, slots: Sequence[Slot], way: Way, pitch: float, pulls: Pulls = (), *, edged: bool = False
) -> None:
    """Settle u of every top. Where the row is `edged`, its ends stand over their feet if it has room between them."""
    steps = steps_of(row, slots, way, pitch)
    gaps = _wide_gaps(row, slots, pitch, pulls)
    if edged:
        gaps = closed_fans(slots, gaps, pulls)
        gaps = _on_slope(slots, _along_circles(slots, gaps, pulls))
    if pulls:
        steps = [s if s is None else g for s, g in zip(steps, gaps, strict=True)]
    masses = [1.0] * len(slots)
    held = edged and _has_room(row, slots, gaps, pitch)
    if held:
        masses[0], masses[-1] = (HELD if slots[k].feet else 1.0 for k in (0, -1))
        _inward(slots, way, 1.0)
        _inward(slots[::-1], way, -1.0)
        steps = _over_places(slots, gaps, steps)
    wants = _uncrossed(slots)
    tie = FIRM if _fits(wants, steps) else TIE
    rooms = rooms_of(row, slots, pitch)
    placed = settle(wants, gaps, steps, tie, rooms, masses)
    if all(step is not None for step in steps) and astray(placed, wants) > ASTRAY * way.unit(0.0):
        over = _over_places(slots, gaps, gaps) if held else _over_feet(slots, gaps, way)
        placed = settle(wants, gaps, over, TIE, rooms, masses)
    for slot, u in zip(slots, placed, strict=True):
        slot.u = u


#: How far the outermost stem of a round fan leans at most, and how much higher than it is tall a stitch there stands.
FAN_OPEN, FAN_TALL = math.radians(68.0), 1.5
#: How much of the way between two tops is left at least along the row where one stands higher than the other.
LEAST_ALONG = 0.5


def round_fans(row: Row, slots: Sequence[Slot], pitch: float, pulls: Pulls) -> frozenset[int]:
    """Draw every fan that arches stand on round: its tops on a circle about its place, as far apart as those arches
    pull them, and no stem lower than `FAN_OPEN`. Call it when heights are settled. Gives their items, and those of what
    stands out from round fans, with the chains between."""
    out = [(a, b) for a, b in itertools.pairwise(slots) if a.radial and b.radial]
    found = {item for a, b in out for item in (a.item, *a.bridge, b.item)}
    for circle in _circles(slots, _wide_gaps(row, slots, pitch, pulls), pulls):
        fan = slots[circle.first : circle.first + circle.tops]
        for k, slot in enumerate(fan):
            tall = circle.radius * _height(slot) / max(map(_height, fan))
            slot.v = slot.rise - _height(slot) + tall * math.cos(circle.angle(k))
        found.update(s.item for s in fan)
    return frozenset(found)


#: So far over the heads of the row below the outer stems of a fan pass, and how much longer they become for it at most.
OVER_HEADS, LIFTED_LONG = 0.22, 1.5
#: Nearer its foot than this share of its way a stem is among those of its own place; less than so much lifts none.
LEAST_SHARE, LEAST_LIFT = 0.2, 0.1


def lift_fans(slots: Sequence[Slot], heads: Sequence[tuple[float, float]], way: Way) -> None:
    """Raise the wide fans of a row, all alike, until their outer stems cross no heads of the row below, given as
    (u, v), or as far as they may lengthen. Call it when heights are settled."""
    groups = [list(same) for _, same in itertools.groupby(slots, key=lambda s: s.stitch.feet or s.item)]
    fans = [fan for fan in groups if len(fan) >= WIDE_FAN and all(len(s.feet) == 1 and not s.radial for s in fan)]
    lift = max((_lift_over(slot, heads, way) for fan in fans for slot in (fan[0], fan[-1])), default=0.0)
    for slot in itertools.chain.from_iterable(fans) if lift > LEAST_LIFT else ():
        slot.v += lift


def _lift_over(slot: Slot, heads: Sequence[tuple[float, float]], way: Way) -> float:
    """How much a top must rise for its stem to pass over the heads that lie between it and its foot."""
    foot = (way.u(slot.feet[0].point), way.v(slot.feet[0].point))
    aside = slot.u - foot[0]
    if abs(aside) < 1e-6:
        return 0.0
    shares = [((u - foot[0]) / aside, v) for u, v in heads]
    over = [(v + OVER_HEADS - foot[1]) / share for share, v in shares if LEAST_SHARE < share < 1.0 and v > foot[1]]
    longest = math.sqrt(max((LIFTED_LONG * _height(slot)) ** 2 - aside**2, 0.0))
    return max(min(max(over, default=0.0), longest) - (slot.v - foot[1]), 0.0)


class _Circle(NamedTuple):
    """A round fan: its first top, how many it has, how long its stems are, and the angle from one to the next."""

    first: int
    tops: int
    radius: float
    turn: float

    def angle(self, k: int) -> float:
        """The lean of a stem, in radians."""
        return (k - (self.tops - 1) / 2.0) * self.turn


def _circles(slots: Sequence[Slot], gaps: Sequence[float], pulls: Pulls) -> list[_Circle]:
    """The fans of a row that arches stand on; `gaps` is how far apart tops stand."""
    pulled_tops = {item for pull in pulls if not pull.whole for item in pull[:2]}
    found = []
    for _, same in itertools.groupby(range(len(slots)), key=lambda k: slots[k].stitch.feet or slots[k].item):
        fan = list(same)
        if len(fan) < WIDE_FAN or not pulled_tops.issuperset(slots[k].item for k in fan[1:-1]):
            continue
        steps, height = len(fan) - 1, max(_height(slots[k]) for k in fan)
        gap = sum(gaps[k] for k in fan[:-1]) / steps
        radius = min(max(height, gap * steps / (2.0 * FAN_OPEN)), FAN_TALL * height)
        turn = min(2.0 * FAN_OPEN / steps, 2.0 * math.asin(min(gap / (2.0 * radius), 1.0)))
        found.append(_Circle(fan[0], len(fan), radius, turn))
    return found


def _wide_gaps(row: Row, slots: Sequence[Slot], pitch: float, pulls: Pulls) -> list[float]:
    """The least way from each top to the next, as wide as the row above pulls it."""
    return pulled([s.item for s in slots], gaps_of(row, slots, pitch), pulls)


def _along_circles(slots: Sequence[Slot], gaps: Sequence[float], pulls: Pulls) -> list[float]:
    """The gaps of a row along it, less where tops stand on the circle of a round fan."""
    found = list(gaps)
    for circle in _circles(slots, gaps, pulls):
        along = [circle.radius * math.sin(circle.angle(k)) for k in range(circle.tops)]
        found[circle.first : circle.first + circle.tops - 1] = [b - a for a, b in itertools.pairwise(along)]
    return found


def _over_places(
    slots: Sequence[Slot], gaps: Sequence[float], steps: Sequence[float | None]
) -> list[float | None]:
    """The way from each top to the next that keeps those which share a place over its middle."""
    places: list[tuple[float, float]] = []
    for _, same in itertools.groupby(range(len(slots)), key=lambda k: slots[k].stitch.feet or slots[k].item):
        group = list(same)
        wide = sum(gaps[k] for k in group[:-1])
        if group[0] == 0 or group[-1] == len(slots) - 1:
            places += [(slots[0 if group[0] == 0 else -1].want, wide)] * len(group)
        else:
            places += [(sum(slots[k].want for k in group) / len(group), wide / 2.0)] * len(group)
    ways = [b[0] - a[0] - a[1] - b[1] if a[1] or b[1] else 0.0 for a, b in itertools.pairwise(places)]
    return [None if step is None else max(step, way) for step, way in zip(steps, ways, strict=True)]


def closed_fans(slots: Sequence[Slot], gaps: Sequence[float], pulls: Pulls = ()) -> list[float]:
    """The gaps of a row, less in fans without arches on them whose outer stems would lean farther than `MOST_OPEN`."""
    found = list(gaps)
    round_ones = {k for circle in _circles(slots, gaps, pulls) for k in range(circle.first, circle.first + circle.tops)}
    for _, same in itertools.groupby(range(len(slots)), key=lambda k: slots[k].stitch.feet or slots[k].item):
        fan = list(same)
        if len(fan) < WIDE_FAN or round_ones & set(fan):
            continue
        wide, tall = sum(gaps[k] for k in fan[:-1]), max(_height(slots[k]) for k in fan)
        edges = [k for k in (fan[0], fan[-1]) if k in (0, len(slots) - 1) and _on_edge(slots[k])]
        open_to = 1.0 if edges else 2.0  # at an edge it opens to one side alone
        share = max(min(open_to * tall * math.tan(MOST_OPEN) / wide, 1.0), LEAST_CLOSED)
        for k in fan[:-1]:
            found[k] = max(found[k] * share, min(found[k], LEAST_APART))
    return found


def _on_slope(slots: Sequence[Slot], gaps: Sequence[float]) -> list[float]:
    """The gaps of a row along it, less where two tops that stand out from a round fan have different heights."""
    return [
        math.sqrt(max(gap**2 - (b.rise - a.rise) ** 2, (LEAST_ALONG * gap) ** 2)) if a.radial and b.radial else gap
        for gap, (a, b) in zip(gaps, itertools.pairwise(slots), strict=True)
    ]


def _has_room(row: Row, slots: Sequence[Slot], gaps: Sequence[float], pitch: float) -> bool:
    """Whether a row fits between its ends, each standing on a stitch of the row below, and fills the way: so a half fan
    at the edge opens inward, and the edge is straight."""
    if not all(_on_edge(s) for s in (slots[0], slots[-1])):
        return False
    wide = slots[-1].want - slots[0].want
    own = [gap_after(row, a, b, pitch) for a, b in itertools.pairwise(slots)]
    whole = sum(max(two) for two in zip(own, gaps, strict=True))
    return sum(gaps) < wide + OVER_WIDE and whole > WIDE_ENOUGH * wide


def _on_edge(slot: Slot) -> bool:
    """Whether a top stands on one stitch of the row below, or is a beginning chain that goes up beside the first."""
    feet = slot.stitch.feet
    if slot.stitch.role == "turning" and not feet:
        return True
    return len(feet) == 1 and feet[0].back == 1 and feet[0].hold != "space" and bool(slot.feet)


def _inward(slots: Sequence[Slot], way: Way, side: float) -> None:
    """Move the feet of what shares the place of the first of these tops, so that its own stands in the middle of the
    place and the others beside it: half of what opens there to both sides. `side` is where they lie along the work."""
    fan = list(itertools.takewhile(lambda s: s.stitch.feet == slots[0].stitch.feet and len(s.feet) == 1, slots))
    if len(fan) < 2:
        return
    middle, unit = sum(s.want for s in fan) / len(fan), way.unit(0.0)
    step = abs(fan[1].want - fan[0].want)
    first = max(step, BESIDE_CHAIN * unit if fan[0].stitch.role == "turning" else 0.0)
    step = min(step, max(WIDEST_ASIDE * unit - first, 0.0) / max(len(fan) - 2, 1))
    for k, slot in enumerate(fan):
        foot, slot.want = slot.feet[0], middle + side * (first + (k - 1) * step if k else 0.0)
        slot.feet = (replace(foot, point=way.at(slot.want, way.v(foot.point))),)


def _uncrossed(slots: Sequence[Slot]) -> list[float]:
    """What every top wants, those that cross on their way down in the order of the tops: together they stand over their
    feet, though none stands over its own."""
    wants, start = [s.want for s in slots], 0
    for end in range(1, len(wants) + 1):
        if end == len(wants) or max(wants[start:end]) <= min(wants[end:]):
            if all(s.feet and len(s.stitch.feet) == 1 and s.stitch.feet[0].hold != "space" for s in slots[start:end]):
                wants[start:end] = sorted(wants[start:end])
            start = end
    return wants


def _over_feet(slots: Sequence[Slot], gaps: Sequence[float], way: Way) -> list[float | None]:
    """The way from each top to the next that keeps them over their feet, where a row would draw together too much."""
    crowds = _crowds(slots, [*gaps, 1.0], way)[:-1]
    return [
        gap if crowd is None else max(gap, crowd[1] - crowd[0] * gap) for gap, crowd in zip(gaps, crowds, strict=True)
    ]


def _fits(wants: Sequence[float], steps: Sequence[float | None]) -> bool:
    """Whether an unbroken row is about as wide as what it stands on, whatever it gathers and fans in
    between.
    """
    if not wants or any(step is None for step in steps):
        return False
    return abs(wants[-1] - wants[0] - sum(step or 0.0 for step in steps)) < FITS


def steps_of(row: Row, slots: Sequence[Slot], way: Way, pitch: float) -> list[float | None]:
    """The way each top would keep from the last: that between their feet, less what was skipped between them.

    Where nothing but stitches stands over spaces that are wider than they are, the way from space to space is
    that between their middles, less the stitches that stand on them; between rings with chains beside them too.
    """
    pairs = list(itertools.pairwise(slots))
    groups = _groups(slots)
    steps = [
        None if bridge_size(row, a.bridge)[0] else _step(a, b, way, pitch, groups[k][1] + groups[k + 1][1] - 2)
        for k, (a, b) in enumerate(pairs)
    ]
    whole = all(step is not None for step in steps)
    return [
        max(step, _between(groups[k], groups[k + 1], pitch))
        if step is not None and _into_spaces(a, b) and (whole or ring_room(row, a, b))
        else step
        for (k, (a, b)), step in zip(enumerate(pairs), steps, strict=True)
    ]


def _groups(slots: Sequence[Slot]) -> list[tuple[float, int]]:
    """For every top the middle of those that share its place with it, and how many they are."""
    found: list[tuple[float, int]] = []
    for _, same in itertools.groupby(slots, key=lambda s: s.stitch.feet or s.item):
        tops = list(same)
        found += [(sum(s.want for s in tops) / len(tops), len(tops))] * len(tops)
    return found


def _between(a: tuple[float, int], b: tuple[float, int], pitch: float) -> float:
    """The way left between the last top of one place and the first of the next."""
    return b[0] - a[0] - (a[1] - 1 + b[1] - 1) / 2.0 * pitch


def _into_spaces(a: Slot, b: Slot) -> bool:
    """Whether two tops that follow each other stand in two different spaces, or one of them in one."""
    one, other = a.stitch.feet[-1:], b.stitch.feet[:1]
    return one != other and any(f.hold == "space" for f in (*one, *other))


def _step(a: Slot, b: Slot, way: Way, pitch: float, beside: int) -> float:
    """The way from one top to the next on a spread base; `beside` are the tops that share a place with either."""
    if not (a.feet and b.feet and a.stitch.feet and b.stitch.feet):
        return pitch
    one, other = a.stitch.feet[-1], b.stitch.feet[0]
    if one.back != other.back or "space" in (one.hold, other.hold):
        return pitch
    apart = abs(way.near(way.u(b.feet[0].point), way.u(a.feet[-1].point)) - way.u(a.feet[-1].point))
    passed = abs(other.at - one.at)
    natural = apart / max(passed, 1)
    return max(pitch, natural - beside / 2.0 * pitch) if natural > SPREAD else pitch


def _crowds(slots: Sequence[Slot], gaps: Sequence[float], way: Way) -> list[tuple[float, float] | None]:
    """From each top of a round to the next, where that is in another place: the gaps that lie between the middles of
    the two places but for the one from top to top, and the way from middle to middle.
    """
    groups = _groups(slots)
    found: list[tuple[float, float] | None] = []
    for k, (a, b) in enumerate(zip(slots, [*slots[1:], slots[0]], strict=True)):
        one, other = groups[k], groups[(k + 1) % len(groups)]
        apart = way.near(other[0], one[0] + gaps[k] * way.unit(a.rise)) - one[0]
        between = (one[1] - 1 + other[1] - 1) / 2.0
        found.append(None if a.stitch.feet == b.stitch.feet or apart <= 0.0 else (between, apart))
    return found


#: How firmly the height of a top follows its neighbour's, against standing its own height above its feet.
LEVELLING = 2.0
#: How much of its height a post that goes in further down shows in its own row.
LEAST_REACH = 0.55
#: The same of one that crosses others on its way down.
CROSSING_REACH = 1.05
#: The same of one that goes round a post of the row below and crosses others there.
CROSSING_POST = 0.97
#: What a row may not exceed to be kept on one line: the unevenness of its feet, the difference of its plain
#: heights, the lean of a top.
FLAT_BASE, FLAT_HEIGHTS, FLAT_LEAN = 0.6, 0.9, 0.8
#: How much higher than it is tall a plain stitch may be drawn for posts beside it, or their row is not kept level.
LIFTED = 1.6
#: How much higher than it is tall a stitch beside taller ones may stand, as a share of its height.
MOST_OVER = 0.35
#: The same of a cross whose row stands on a level one: it keeps its foot down there, however tall its neighbours are.
CROSS_OVER, LEVEL_BASE = 0.12, 0.2
#: How much of the difference of their heights neighbours in one fan keep, where others are levelled.
FAN_HEIGHTS = 0.9
#: How much of the fall that leaning posts ask for is given, and over how wide a gap it is reckoned at most: between
#: neighbours, and over chains in a fan.
SQUARE = 0.7
MOST_FALL, MOST_FALL_CHAINED = 1.5, 2.0


def place_up(row: Row, slots: Sequence[Slot], way: Way) -> None:
    """Settle v of every top."""
    leans = [_lean(s, way) for s in slots]
    heights = [rise_of(s.stitch.kind, s.stitch.legs, s.stitch.base) for s in slots]
    if _is_flat(row, slots, heights, leans):
        level_up(slots, [abs(lean) >= FLAT_LEAN for lean in leans])
        return
    steps, ties, fans = [], [], fans_of(slots)
    for k in range(len(slots) - 1):
        slope = -SQUARE * (leans[k] + leans[k + 1]) / (heights[k] + heights[k + 1])
        chained = bool(bridge_size(row, slots[k].bridge)[0])
        small = "sl st" in (slots[k].stitch.kind, slots[k + 1].stitch.kind)
        reach = (slots[k + 1].u - slots[k].u) / way.unit(slots[k].rise)
        in_fan = slots[k].item in fans and slots[k].stitch.feet == slots[k + 1].stitch.feet
        lower = FAN_HEIGHTS * (heights[k + 1] - heights[k]) if in_fan else 0.0
        most = MOST_FALL_CHAINED if chained else MOST_FALL
        if slots[k].radial and slots[k + 1].radial:
            slope, reach, lower = slots[k + 1].rise - slots[k].rise, 1.0, 0.0
            in_fan = True
        steps.append(0.0 if chained and not in_fan else slope * min(reach, most) + lower)
        ties.append(0.0 if small else LEVELLING / (2.0 if chained else 1.0))
    targets = [
        s.rise - min(0.25 * h, 0.04 * lean * lean) for s, h, lean in zip(slots, heights, leans, strict=True)
    ]
    feet = [s.rise - h for s, h in zip(slots, heights, strict=True) if s.feet and not _reaches(s)]
    is_level = max(feet, default=0.0) - min(feet, default=0.0) < LEVEL_BASE
    for slot, v in zip(slots, follow(targets, [1.0] * len(slots), steps, ties), strict=True):
        slot.v = max(min(v, _most_rise(slot, on_level=is_level)), least_rise(slot))
    for k in (0, -1):
        if slots[k].feet and abs(leans[k]) < NO_LEAN:
            slots[k].v = max(slots[k].v, targets[k])


#: An end that leans by no more than this stands upright, and is drawn no lower than it is tall.
NO_LEAN = 0.1


def _most_rise(slot: Slot, *, on_level: bool) -> float:
    """The highest that a top may stand where the row follows taller neighbours: a stitch keeps its height, and a cross
    that hangs beside them would be read as one that is worked further down."""
    over = CROSS_OVER if on_level and is_cross(slot) else MOST_OVER
    return slot.rise + over * _height(slot) if slot.feet and not _reaches(slot) else math.inf


def level_up(slots: Sequence[Slot], crossing: Sequence[bool] = ()) -> None:
    """Every top on one line, as high as they are tall in the mean; higher where some go further down and are `crossing`
    over to there, which takes room. For posts beside them others are drawn taller, but no more than a stitch may be."""
    own = _level_with(slots)
    least = [_least(s, crosses=over) for s, over in zip(slots, crossing or [False] * len(slots), strict=True)]
    plain = [v for s, v in zip(slots, least, strict=True) if s in own or not _is_posted(s)]
    v = max(sum(s.rise for s in own) / len(own), *plain)
    high = max(v, *least)
    lower = max((least[k] for k, s in enumerate(slots) if s not in own), default=-math.inf)
    for slot in slots:
        beside_posts = min(lower, slot.rise + (LIFTED - 1.0) * _height(slot))
        slot.v = max(_standing(slot, v), beside_posts) if slot in own else high


def _standing(slot: Slot, v: float) -> float:
    """How high a top stands in a row that is level at `v`: a cross beside gathered stitches keeps its foot down."""
    return min(v, slot.rise + CROSS_OVER * _height(slot)) if slot.feet and is_cross(slot) else v


def _least(slot: Slot, *, crosses: bool) -> float:
    """The lowest that a level row may lie for one of its tops."""
    if _reaches(slot):
        return slot.rise - (1.0 - (CROSSING_REACH if crosses else LEAST_REACH)) * _height(slot)
    return slot.rise - (1.0 - CROSSING_POST) * _height(slot) if crosses and _is_posted(slot) else least_rise(slot)


def _level_with(slots: Sequence[Slot]) -> Sequence[Slot]:
    """The tops by whose heights a level row is as high as it is: not those whose stems reach past the row below, nor
    those that go round a post where others do not, as their hooks begin lower down."""
    plain = [s for s in slots if not _goes_lower(s)]
    return plain or [s for s in slots if not _reaches(s)] or slots


def _goes_lower(slot: Slot) -> bool:
    """Whether the stem of a stitch begins lower than on the heads of the row below."""
    return _reaches(slot) or _is_posted(slot)


def _is_posted(slot: Slot) -> bool:
    """Whether a stitch goes round a post of the row below."""
    return any(foot.back == 1 and foot.hold.endswith("post") for foot in slot.stitch.feet)


def _reaches(slot: Slot) -> bool:
    """Whether a stitch goes in further down than the row below: its height is no measure of its row's."""
    return any(foot.back > 1 for foot in slot.stitch.feet)


def _height(slot: Slot) -> float:
    return rise_of(slot.stitch.kind, slot.stitch.legs, slot.stitch.base)


def _is_flat(row: Row, slots: Sequence[Slot], heights: Sequence[float], leans: Sequence[float]) -> bool:
    """Whether a row without chains, fans or tall and low stitches by turns stands on a level one."""
    if len(slots) < 3 or any(bridge_size(row, s.bridge)[0] for s in slots[:-1]):
        return False
    if any(s.stitch.kind == "sl st" for s in slots) or fans_of(slots) or not all(s.feet for s in slots[1:]):
        return False
    feet = [s.rise - h for s, h in zip(slots, heights, strict=True)]
    own = {s.item for s in _level_with(slots)}
    plain = [h for s, h in zip(slots, heights, strict=True) if not is_gathered(s.stitch) and s.item in own]
    posts = [least_rise(s) - foot for s, foot in zip(slots, feet, strict=True) if _is_posted(s) and s.item not in own]
    if plain and max(posts, default=0.0) > LIFTED * min(plain):
        return False
    # What goes further down, or round a post, may cross over to there: under its bar it stands upright as others do.
    crossing = _crossing(slots)
    upright = [
        abs(lean)
        for s, lean in zip(slots, leans, strict=True)
        if s.item not in crossing and (s.item in own or not _goes_lower(s))
    ]
    return (
        max(feet) - min(feet) < FLAT_BASE
        and max(plain, default=0.0) - min(plain, default=0.0) < FLAT_HEIGHTS
        and max(upright, default=0.0) < FLAT_LEAN
    )


def _crossing(slots: Sequence[Slot]) -> set[int]:
    """The items that cross a neighbour on their way down to the row below: they stand upright under their bars."""
    return {
        slot.item
        for a, b in itertools.pairwise(slots)
        if a.feet and b.feet and len(a.feet) == len(b.feet) == 1 and a.want > b.want + 1e-6
        for slot in (a, b)
    }


def _lean(slot: Slot, way: Way) -> float:
    """How far the top stands along from the middle of its feet, in stitch widths."""
    if not slot.feet:
        return 0.0
    return (slot.u - slot.want) / way.unit(slot.rise)
