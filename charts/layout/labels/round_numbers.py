"""The numbers of rounds: each near where its round begins, an arrow the way it goes, how many stitches it makes.

A number stands in white: at the seam where there is room, else beside the stitches next to it, else farther along its
round. Its arrow goes with it where both find room together; so do counts, and a sentence says those that find none.
"""

from __future__ import annotations

import functools
import itertools
import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import field
from types import MappingProxyType

import numpy as np
from hookfold.symbols import Point
from numpy.typing import NDArray

from ...drawing.geometry import pen_mm
from ...drawing.letters import cap_height
from ...made_late import dataclass, replace
from ..placing.clearing import STEP, InkMap
from ..shapes.ring import Beside, LaidRounds, Ring
from ..sheets.page import SMALL_MM
from .label import WING, Box, Label, apart, box_about, half_of_words, laid_down, map_of_rounds, support, taken_up
from .leaders import MOST_ENDS, along_line, around, ends, leader
from .leaders import WHITE_MM as LEADER_WHITE_MM

#: White about a number in mm, the best first, what having less costs in stitch widths, and white about a count in mm.
WHITES_MM, LESS_WHITE, COUNT_WHITE_MM = (0.9, 0.6, 0.4, 0.3), (0.0, 0.3, 0.7, 1.1), 1.25
#: An arrow alone stands so far from its number at most, in white of so much, in mm.
NEAR_MM, ALONE_WHITE_MM = 6.0, 0.3
#: An arrow is looked at in such steps.
ARROW_STEP_MM = 0.5
#: The least white about a number that finds no more near its seam, in mm, and how far it is looked for, as places cost.
SQUEEZED_MM, SQUEEZED_FAR = 0.1, 3.5
#: What it costs, in stitch widths, where an arrow stands apart from its number, where a thin line leads from the two to
#: the seam, and from beside another stitch, where they stand farther along their round; where a number is squeezed in,
#: or in any white about the seam, and where there is no arrow.
APART_COSTS, LED_COSTS, LED_ASIDE_COSTS, FAR_COSTS = 1.2, 2.6, 5.0, 4.0
SQUEEZED_COSTS, ANYWHERE_COSTS, NO_ARROW_COSTS = 3.2, 4.0, 4.0
#: No number counts more than this when looks are compared.
MOST_COSTS = 8.0
#: From a number to its arrow, in mm; how far along the arrow may be moved beside it.
GAP_MM, SLIDES_MM = 0.5, (0.0, 0.8, -0.8)
#: From a number to its count, in mm; so much farther than its own number any other must be from a count, and as a
#: share; less than so many mm from one number to another cost as much as a stitch.
ASIDE_MM, OTHERS_MM, OTHERS_TIMES, CROWDED_MM = 0.9, 2.0, 2.5, 2.0
#: A number is among other rounds where the nearest ink of its own is so much farther than that of another, in stitch
#: widths; how far that is looked for, and what it costs.
STRAY_BY, STRAY_FAR, STRAY_COSTS = 0.35, 1.4, 1.2
#: The mm of a stitch for which places are given in stitch widths.
USUAL_MM = 6.0
#: Places as far out as this share of a round's height are beyond it: they are its own where no round lies outside.
#: What it costs, in stitch widths, to be so far out that the number seems to be that of the round outside.
BEYOND, OUTSIDE, OUTSIDE_COSTS = 1.4, 1.15, 1.6
#: White is looked for no more exactly where it is less than so much of what is asked.
ROUGHLY = 1.0 - 1e-9


@dataclass(frozen=True, slots=True)
class Look:
    """How large the numbers of a chart are, its arrows and their heads, all in mm; what it costs a number, in stitch
    widths, to be no larger."""

    size_mm: float
    arrow_mm: float
    head_mm: float
    costs: float

    @property
    def half_head_mm(self) -> float:
        """Half the width of an arrow's head."""
        return WING * self.head_mm


#: All numbers of a chart look alike, as large as their places allow: the largest first. The usual one is the least that
#: print allows; in the last the arrows are short.
LOOKS = (
    Look(4.6, 3.4, 2.0, 0.0), Look(3.6, 2.8, 1.65, 0.25), Look(SMALL_MM, 2.2, 1.35, 0.6), Look(SMALL_MM, 1.7, 1.1, 1.0),
)  # fmt: skip
USUAL = LOOKS[2]
#: What it costs each number to stand without the letter of its colour, in stitch widths.
NO_LETTER_COSTS = 1.0
#: The cap height of a number is so much of a stitch at most, unless it is the least.
LARGEST = 0.5


#: That no round stands for others.
ALONE: Mapping[int, int] = MappingProxyType({})


@dataclass(frozen=True, slots=True)
class RoundLabels:
    """The numbers and counts of rounds; `counted` are the places of those (from 0) whose counts are among them."""

    labels: tuple[Label, ...]
    counted: frozenset[int]


@dataclass(slots=True)
class _Sheet:
    """Where labels are looked for: the ink so far, the mm of a stitch, what labels may take up in mm, how numbers look,
    the boxes of those so far, and which rounds stand for others."""

    ink: InkMap
    mm: float
    bounds: Box
    look: Look = USUAL
    numbers: list[Box] = field(default_factory=list)
    until: Mapping[int, int] = field(default_factory=dict)

    def white(self, label: Label, most_mm: float, least_mm: float = 0.0) -> float:
        """The white about a label in mm, up to `most_mm`; less than nothing where it leaves the bounds. What is below
        `least_mm` may be rough."""
        found = self.white_of_words(label.words_box, most_mm, least_mm)
        if label.arrow is None or found <= 0.0:
            return found
        return min(found, self.white_of_arrow(label.arrow, found, least_mm))

    def is_clear(self, label: Label, white_mm: float) -> bool:
        """Whether so much white is about a label."""
        return self.white(label, white_mm + 0.01, white_mm) >= white_mm

    def white_of_words(self, box: Box, most_mm: float, least_mm: float = 0.0) -> float:
        """The white about words in mm."""
        left, top, right, bottom = box
        if not self._holds(box):
            return -1.0
        pen, mm = pen_mm(self.mm) / 2.0, self.mm
        most, least = (most_mm + pen) / mm, (least_mm + pen) / mm * ROUGHLY if least_mm else 0.0
        return self.ink.free_about((left / mm, top / mm, right / mm, bottom / mm), most, least) * mm - pen

    def white_of_arrow(self, arrow: tuple[Point, Point], most_mm: float, least_mm: float = 0.0) -> float:
        """The white about an arrow in mm."""
        (x0, y0), (x1, y1) = arrow
        if not self._holds((min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1))):
            return -1.0
        pen, mm, wing = pen_mm(self.mm) / 2.0, self.mm, self.look.half_head_mm
        points = [(x / mm, y / mm) for x, y in along_line(arrow, ARROW_STEP_MM)]
        most, least = (most_mm + pen + wing) / mm, (least_mm + pen + wing) / mm * ROUGHLY if least_mm else 0.0
        return self.ink.free(points, most, least) * mm - pen - wing

    def _holds(self, box: Box) -> bool:
        left, top, right, bottom = self.bounds
        return box[0] >= left and box[1] >= top and box[2] <= right and box[3] <= bottom

    def crowded(self, box: Box) -> float:
        """What it costs a number to lie near another, in stitch widths."""
        return 1.0 if any(apart(box, other) < CROWDED_MM for other in self.numbers) else 0.0

    def strayed(self, at: Point, row: int) -> float:
        """What it costs a number at a place in mm to lie among what other rounds made, in stitch widths."""
        own, other = self.ink.free_of((at[0] / self.mm, at[1] / self.mm), STRAY_FAR, row)
        return STRAY_COSTS if own > other + STRAY_BY else 0.0

    def passes(self, line: tuple[Point, ...]) -> bool:
        """Whether a line in mm, or a point, passes all ink."""
        need = max((LEADER_WHITE_MM + pen_mm(self.mm) / 2.0) / self.mm, STEP * 0.7)  # or it slips between two points
        step = STEP * 0.5 * self.mm
        points = along_line((line[0], line[-1]), step) if len(line) > 1 else line
        return self.ink.free([(x / self.mm, y / self.mm) for x, y in points], need, need - 1e-9) >= need


def round_labels(
    laid: LaidRounds, ink: InkMap, mm: float, bounds: Box, *, counts: bool, lettered: bool,
    until: Mapping[int, int] = ALONE,
) -> RoundLabels:
    """The numbers of rounds drawn at `mm` a stitch, with the letters of their colours where they are `lettered`; of one
    that stands for others like it the first and the last, which is `until` that for its place.

    `ink` is what is drawn of them; what is found is laid down on it.
    """
    rings = _with_own_places(laid)
    sheet, numbers = _numbers(rings, _Sheet(ink, mm, bounds, until=until), lettered=lettered)
    found = [_count(ring, label, sheet) for ring, label in zip(rings, numbers, strict=True)] if counts else []
    made = [label for label in found if label is not None]
    return RoundLabels((*numbers, *made), frozenset(label.row for label in made))


def _numbers(rings: Sequence[Ring], blank: _Sheet, *, lettered: bool) -> tuple[_Sheet, list[Label]]:
    """The numbers of all rounds in the look that suits them best, laid down on the sheet."""
    best, least, numbers = blank, math.inf, list[Label]()
    for look, letters in _looks(blank.mm, lettered=lettered):
        sheet, found = replace(blank, look=look, numbers=[]), list[Label]()
        cost = (look.costs + (NO_LETTER_COSTS if lettered and not letters else 0.0)) * len(rings)
        for ring in rings:
            if cost >= least:
                break
            label, more = _number(ring, sheet, lettered=letters)
            found, cost = [*found, label], cost + min(more, MOST_COSTS)
        taken_up(sheet.ink, found, sheet.mm)
        if cost < least:
            best, least, numbers = sheet, cost, found
    for label in numbers:
        laid_down(best.ink, label, best.mm)
    return best, numbers


def _looks(mm: float, *, lettered: bool) -> tuple[tuple[Look, bool], ...]:
    """The looks that suit stitches of a size, each with the letters of colours, if they are wanted, and without: the
    key names the rounds of each colour too."""
    looks = (k for k in LOOKS if k.size_mm == SMALL_MM or cap_height(k.size_mm) <= LARGEST * mm)
    return tuple((look, letters) for look in looks for letters in ((True, False) if lettered else (False,)))


def _with_own_places(laid: LaidRounds) -> list[Ring]:
    """The rounds that have a seam, with the places beyond it only where no round lies outside."""
    widest = laid.again.index if laid.again else laid.rings[-1].index
    return [ring if ring.index == widest else _inside(ring) for ring in laid.rings if ring.tries]


def _inside(ring: Ring) -> Ring:
    """A round that has others outside it, without the places beyond it; those near there cost more."""
    own = (b for b in ring.tries if b.up < BEYOND)
    dear = (replace(b, cost=b.cost + OUTSIDE_COSTS) if b.up > OUTSIDE else b for b in own)
    return replace(ring, tries=tuple(sorted(dear, key=lambda b: (b.tier, b.cost))))


def number_places(laid: LaidRounds) -> tuple[Point, ...]:
    """Where the numbers of rounds stand, in stitch widths, where they are drawn in a usual size; of rows that have none
    at their seam, at their beginning."""
    sheet = _Sheet(map_of_rounds(laid), USUAL_MM, (-math.inf, -math.inf, math.inf, math.inf))
    several = len({ring.worked.colour for ring in laid.rings} - {""}) > 1
    found = []
    own = {ring.index: ring for ring in _with_own_places(laid)}
    for ring in laid.rings:
        at = ring.laid.spots[0].head
        if ring.index in own:
            x, y = _number(own[ring.index], sheet, lettered=several, arrowed=False)[0].at
            at = (x / USUAL_MM, y / USUAL_MM)
        found.append(at)
    return tuple(found)


def name_of(ring: Ring, *, lettered: bool, until: int = 0) -> str:
    """A round's number, with the letter of its colour where they change; of one that stands for those up to `until`,
    both numbers."""
    number = str(ring.worked.number or ring.index + 1)
    number += f"–{until}" if until else ""
    return f"{number} {ring.worked.colour}" if lettered and ring.worked.colour else number


def _number(ring: Ring, sheet: _Sheet, *, lettered: bool, arrowed: bool = True) -> tuple[Label, float]:
    """A round's number, with its arrow where there is room and it is to be `arrowed`, and what it costs to have it
    there, in stitch widths."""
    name = name_of(ring, lettered=lettered, until=sheet.until.get(ring.index, 0))
    found, cost = _arrowed_number(ring, name, sheet) if arrowed else _bare_number(ring, name, sheet)
    sheet.numbers.append(found.words_box)
    return laid_down(sheet.ink, found, sheet.mm), cost


def _arrowed_number(ring: Ring, name: str, sheet: _Sheet) -> tuple[Label, float]:
    """The cheapest of the ways to show a number with its arrow: both beside the first stitch, led there from white
    farther off, the arrow apart from it, or both farther along the round."""
    near, far = ([b for b in ring.tries if b.tier == tier] for tier in (0, 1))
    found, cost = _best(ring, name, near, sheet, arrowed=True)
    if found is None or cost > APART_COSTS:
        bare, bare_cost = _bare_number(ring, name, sheet)
        bare = _with_arrow_near(ring, bare, sheet)
        bare_cost += APART_COSTS if bare.arrow else NO_ARROW_COSTS
        if found is None or bare_cost < cost:
            found, cost = bare, bare_cost
    for by_first, led_cost in ((True, LED_COSTS), (False, LED_ASIDE_COSTS)):
        if cost > led_cost and (led := _led(ring, name, sheet, by_first=by_first)):
            found, cost = led, led_cost
    if cost > FAR_COSTS:
        away, away_cost = _best(ring, name, far, sheet, arrowed=True)
        if away and away_cost + FAR_COSTS < cost:
            found, cost = away, away_cost + FAR_COSTS
    return found, cost


def _bare_number(ring: Ring, name: str, sheet: _Sheet) -> tuple[Label, float]:
    """A number without its arrow: by the first stitch, squeezed in there, farther along, or in the nearest white."""
    near, far = ([b for b in ring.tries if b.tier == tier] for tier in (0, 1))
    found, cost = _best(ring, name, near, sheet, arrowed=False)
    if found is None:
        found, cost = _squeezed(ring, name, sheet), SQUEEZED_COSTS
    if found is None:
        found, cost = _best(ring, name, far, sheet, arrowed=False)
        cost += FAR_COSTS
    return (found, cost) if found else (_anywhere(ring, name, sheet), ANYWHERE_COSTS)


def _best(
    ring: Ring, name: str, places: Sequence[Beside], sheet: _Sheet, *, arrowed: bool
) -> tuple[Label | None, float]:
    """The number at the cheapest of the places that lie in white, and what it costs; None where none does. Places come
    the cheapest first."""
    best, least, mm = None, math.inf, sheet.mm
    half = half_of_words(name, is_number=True, size_mm=sheet.look.size_mm)
    for beside in places:
        if beside.cost >= least:
            break
        at = (beside.at[0] * mm, beside.at[1] * mm)
        cost = beside.cost + _lacks(sheet.white_of_words(box_about(at, half), WHITES_MM[0] + 0.01, WHITES_MM[-1]))
        if cost >= least:
            continue
        bare = _named(name, at, ring, sheet)
        cost += sheet.crowded(bare.words_box) + sheet.strayed(at, ring.index)
        for label in _arrowed(bare, beside.along, sheet.look) if arrowed and cost < least else (bare,):
            with_arrow = cost
            if label.arrow:
                with_arrow += _lacks(sheet.white_of_arrow(label.arrow, WHITES_MM[0] + 0.01, WHITES_MM[-1]))
            if with_arrow < least:
                best, least = label, with_arrow
            if least <= cost:
                break  # no arrow costs less than nothing
    return best, least


def _named(name: str, at: Point, ring: Ring, sheet: _Sheet) -> Label:
    """A round's number at a place in mm."""
    return Label(name, at, True, None, ring.index, size_mm=sheet.look.size_mm)


def _squeezed(ring: Ring, name: str, sheet: _Sheet) -> Label | None:
    """A number in less white than is wanted, beside the first stitches of its round or the last: better there than
    clear on the other side of the work."""
    mm = sheet.mm
    near = sorted((b for b in ring.tries if b.cost <= SQUEEZED_FAR), key=lambda b: (b.tier, b.cost))
    tries = (_named(name, (b.at[0] * mm, b.at[1] * mm), ring, sheet) for b in near)
    return next((t for t in tries if sheet.is_clear(t, SQUEEZED_MM)), None)


def _lacks(white: float) -> float:
    """What it costs to have only so much white, in stitch widths; no end of it where that is too little."""
    return next((cost for asked, cost in zip(WHITES_MM, LESS_WHITE, strict=True) if white >= asked), math.inf)


def _anywhere(ring: Ring, name: str, sheet: _Sheet) -> Label:
    """A number in the nearest white about the seam, where the round itself has none; where there is none at all, at the
    whitest of the round's places."""
    (x, y), mm = ring.tries[0].at, sheet.mm
    tries = (_named(name, ((x + dx) * mm, (y + dy) * mm), ring, sheet) for dx, dy in around(mm))
    found = next((label for label in tries if sheet.white(label, WHITES_MM[-1]) >= ALONE_WHITE_MM), None)
    own = (_named(name, (b.at[0] * mm, b.at[1] * mm), ring, sheet) for b in ring.tries)
    return found or max(own, key=lambda label: round(sheet.white(label, WHITES_MM[0]), 2))


def _with_arrow_near(ring: Ring, label: Label, sheet: _Sheet) -> Label:
    """A number that found no room for its arrow beside it, with one in the nearest white of its round."""
    mm, half = sheet.mm, sheet.look.arrow_mm / 2.0
    own = [beside for beside in ring.tries if 0.0 < beside.up < 1.1]
    far = [math.dist((beside.at[0] * mm, beside.at[1] * mm), label.at) for beside in own]
    near = [(round(off, 6), beside.at, beside) for off, beside in zip(far, own, strict=True) if off <= NEAR_MM]
    for _, _, beside in sorted(near, key=lambda one: one[:2]):
        at = (beside.at[0] * mm, beside.at[1] * mm)
        ends = _by(at, beside.along, -half), _by(at, beside.along, half)
        white = (ALONE_WHITE_MM + 0.01, ALONE_WHITE_MM)
        clear = _off(label.words_box, ends) > GAP_MM + sheet.look.half_head_mm
        if clear and sheet.white_of_arrow(ends, *white) >= ALONE_WHITE_MM:
            return replace(label, arrow=ends, head_mm=sheet.look.head_mm)
    return label


def _off(box: Box, arrow: tuple[Point, Point]) -> float:
    """How far an arrow keeps off a box."""
    (left, top, right, bottom), points = box, along_line(arrow, 0.3)
    return min(math.hypot(max(left - x, x - right, 0.0), max(top - y, y - bottom, 0.0)) for x, y in points)


def _led(ring: Ring, name: str, sheet: _Sheet, *, by_first: bool) -> Label | None:
    """A number with its arrow in the nearest white about the seam from which a line leads there past all ink; only
    where no other stitch of the round is nearer than the first, if it is to be `by_first`."""
    beside, mm = ring.tries[0], sheet.mm
    seam, half = (beside.at[0] * mm, beside.at[1] * mm), half_of_words(name, is_number=True, size_mm=sheet.look.size_mm)
    free = [end for end in ends(seam, beside.along, mm) if sheet.passes((end,))][:MOST_ENDS]
    for dx, dy in around(mm) if free else ():
        place = replace(beside, at=(beside.at[0] + dx, beside.at[1] + dy))
        bare = _named(name, (place.at[0] * mm, place.at[1] * mm), ring, sheet)
        if not sheet.is_clear(bare, WHITES_MM[-1]) or sheet.crowded(bare.words_box):
            continue
        if by_first and _nearest(ring, place.at).tier:
            continue  # beside another stitch of its round
        lines = [line for end in free if (line := leader(bare.at, half, end)) and sheet.passes(line)]
        for label in _arrowed(bare, place.along, sheet.look) if lines else ():
            if label.arrow and sheet.is_clear(label, WHITES_MM[-1]):
                clear = next((line for line in lines if _apart(line, label.arrow, sheet.look)), None)
                if clear:
                    return replace(label, leader=clear)
    return None


def _nearest(ring: Ring, at: Point) -> Beside:
    """The place of a round's number that is nearest to a point."""
    off = _places(ring) - at
    return ring.tries[int(np.argmin(off[:, 0] * off[:, 0] + off[:, 1] * off[:, 1]))]


@functools.lru_cache(maxsize=64)
def _places(ring: Ring) -> NDArray[np.float64]:
    """The places of a round's number as an array (places, 2): a line is looked for from many points to the same."""
    return np.array([beside.at for beside in ring.tries])


def _apart(line: tuple[Point, Point], arrow: tuple[Point, Point], look: Look) -> bool:
    """Whether a leader keeps off the arrow beside it."""
    off = min(math.dist(p, q) for p in along_line(line, 0.3) for q in along_line(arrow, 0.3))
    return off > look.half_head_mm + LEADER_WHITE_MM


def _arrowed(bare: Label, along: Point, look: Look) -> Iterator[Label]:
    """A number with its arrow: ahead of it, outside it or inside it, there in its middle or moved along."""
    (a, b), at, half = along, bare.at, bare.half
    ahead = support(half, (a, b)) + GAP_MM
    ways = [(_by(at, (a, b), ahead), _by(at, (a, b), ahead + look.arrow_mm))]
    for slide, side in itertools.product(SLIDES_MM, (1.0, -1.0)):
        square = (b * side, -a * side)
        middle = _by(_by(at, square, support(half, square) + GAP_MM + look.half_head_mm), (a, b), slide)
        ways.append((_by(middle, (a, b), -look.arrow_mm / 2.0), _by(middle, (a, b), look.arrow_mm / 2.0)))
    for way in ways:
        yield replace(bare, arrow=way, head_mm=look.head_mm)


def _by(at: Point, way: Point, far: float) -> Point:
    return at[0] + way[0] * far, at[1] + way[1] * far


def _count(ring: Ring, number: Label, sheet: _Sheet) -> Label | None:
    """How many stitches a round makes, beside its number or its arrow, best after it; None where there is no room, or
    where it might be taken for another round's."""
    words = f"({ring.worked.row.made})"
    wide, high = half_of_words(words, is_number=False)
    for place in _beside_box(number.box, number.at, wide, high):
        label = Label(words, place, False, None, ring.index)
        if sheet.is_clear(label, COUNT_WHITE_MM) and _is_of(label, number, sheet):
            return laid_down(sheet.ink, label, sheet.mm)
    return None


def _beside_box(box: Box, at: Point, wide: float, high: float) -> list[Point]:
    """Places for words, half as wide and high as given, about a box: beside its middle, above and below it, moved along
    its sides, and the same once more a little farther off."""
    (left, top, right, bottom), (x, y), places = box, at, []
    for off in (ASIDE_MM, 2.0 * ASIDE_MM):
        across, down = (right + off + wide, left - off - wide), (top - off - high, bottom + off + high)
        places += [(a, y) for a in across] + [(x, b) for b in down] + [(a, b) for b in (top, bottom) for a in across]
        places += [(a, b) for b in down for a in (left, right)]
        places += [(a, y + k * high) for k in (-1.0, 1.0, -2.0, 2.0) for a in across]
        places += [(x + k * wide, b) for k in (-0.5, 0.5, -1.0, 1.0) for b in down]
    return places


def _is_of(count: Label, number: Label, sheet: _Sheet) -> bool:
    """Whether a count can be taken only for that of its own number: all others are clearly farther off."""
    own = apart(count.box, number.words_box)
    others = [apart(count.box, box) for box in sheet.numbers if box != number.words_box]
    return all(far >= max(own + OTHERS_MM, own * OTHERS_TIMES) for far in others)
