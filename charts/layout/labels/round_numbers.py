"""The numbers of rounds: each near where its round begins, an arrow the way it goes, how many stitches it makes.

A number stands in white: at the seam where there is room, else beside the stitches next to it, else farther along its
round. Its arrow goes with it where both find room together; so do counts, and a sentence says those that find none.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from hookfold.symbols import Point

from ...drawing.geometry import pen_mm
from ..placing.clearing import InkMap
from ..shapes.ring import Beside, LaidRounds, Ring
from .label import DENSE, Box, Label, half_of_words, laid_down, map_of_rounds, support
from .leaders import MOST_ENDS, along_line, around, ends, leader
from .leaders import WHITE_MM as LEADER_WHITE_MM

#: Anywhere in white near the seam, with a line that leads there.
LED = -1
#: What is looked for, the best first: at the seam (0), past the stitches beside it (1), led there or farther along (2),
#: with the arrow or without.
ORDER = ((0, True), (1, True), (LED, True), (2, True), (0, False), (1, False), (2, False))
#: White about a number in mm, the best first, and about a count.
WHITES_MM, COUNT_WHITE_MM = (0.9, 0.6, 0.4), 0.5
#: An arrow: its share of a stitch, its least and most length, its head's share of it, half the head's width.
ARROW, SHORTEST_MM, LONGEST_MM, HEAD, HALF_HEAD_MM = 0.5, 1.9, 3.2, 0.62, 0.45
#: The length of an arrow that is a head alone, where a longer one finds no room.
HEAD_ALONE_MM = 1.25
#: Such a head stands so far from its number at most, in white of so much, in mm.
NEAR_MM, HEAD_WHITE_MM = 9.0, 0.3
#: From a number to its arrow, in mm.
GAP_MM = 0.5
#: From a number to its count, in mm.
ASIDE_MM = 0.9
#: The mm of a stitch for which places are given in stitch widths.
USUAL_MM = 6.0
#: Places as far out as this share of a round's height are beyond it: they are its own where no round lies outside.
BEYOND = 1.4


@dataclass(frozen=True, slots=True)
class RoundLabels:
    """The numbers and counts of rounds; `counted` are the places of those (from 0) whose counts are among them."""

    labels: tuple[Label, ...]
    counted: frozenset[int]


@dataclass(slots=True)
class _Sheet:
    """Where labels are looked for: the ink so far, the mm of a stitch, what labels may take up in mm."""

    ink: InkMap
    mm: float
    bounds: Box

    def white(self, label: Label, most_mm: float) -> float:
        """The white about a label in mm, up to `most_mm`; less than nothing where it leaves the bounds."""
        x, y = label.at
        wide, high = label.half
        box = (x - wide, y - high, x + wide, y + high)
        left, top, right, bottom = label.box
        if left < self.bounds[0] or top < self.bounds[1] or right > self.bounds[2] or bottom > self.bounds[3]:
            return -1.0
        pen = pen_mm(self.mm) / 2.0
        most = (most_mm + pen) / self.mm
        found = self.ink.free_about((box[0] / self.mm, box[1] / self.mm, box[2] / self.mm, box[3] / self.mm), most)
        if label.arrow and found > 0.0:
            (x0, y0), (x1, y1) = label.arrow
            points = [((x0 + (x1 - x0) * t) / self.mm, (y0 + (y1 - y0) * t) / self.mm) for t in (0.0, 0.35, 0.7, 1.0)]
            wing = HALF_HEAD_MM / self.mm
            found = min(found, self.ink.free(points, most + wing) - wing)
        return found * self.mm - pen


    def passes(self, line: tuple[Point, ...]) -> bool:
        """Whether a line in mm, or a point, passes all ink."""
        need = (LEADER_WHITE_MM + pen_mm(self.mm) / 2.0) / self.mm
        step = DENSE * self.mm
        points = along_line((line[0], line[-1]), step) if len(line) > 1 else line
        return self.ink.free([(x / self.mm, y / self.mm) for x, y in points], need, need - 1e-9) >= need


def round_labels(
    laid: LaidRounds, ink: InkMap, mm: float, bounds: Box, *, counts: bool, lettered: bool
) -> RoundLabels:
    """The numbers of rounds drawn at `mm` a stitch, with the letters of their colours where they are `lettered`.

    `ink` is what is drawn of them; what is found is laid down on it.
    """
    sheet = _Sheet(ink, mm, bounds)
    rings = _with_own_places(laid)
    numbers = [_number(ring, sheet, lettered=lettered) for ring in rings]
    found = [_count(ring, label, sheet) for ring, label in zip(rings, numbers, strict=True)] if counts else []
    made = [label for label in found if label is not None]
    return RoundLabels((*numbers, *made), frozenset(label.row for label in made))


def _with_own_places(laid: LaidRounds) -> list[Ring]:
    """The rounds that have a seam, with the places beyond it only where no round lies outside."""
    widest = laid.again.index if laid.again else laid.rings[-1].index
    return [
        ring if ring.index == widest else replace(ring, tries=tuple(b for b in ring.tries if b.up < BEYOND))
        for ring in laid.rings
        if ring.tries
    ]


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
            x, y = _number(own[ring.index], sheet, lettered=several, arrowed=False).at
            at = (x / USUAL_MM, y / USUAL_MM)
        found.append(at)
    return tuple(found)


def name_of(ring: Ring, *, lettered: bool) -> str:
    """A round's number, with the letter of its colour where they change."""
    number = str(ring.worked.number or ring.index + 1)
    return f"{number} {ring.worked.colour}" if lettered and ring.worked.colour else number


def _number(ring: Ring, sheet: _Sheet, *, lettered: bool, arrowed: bool = True) -> Label:
    """A round's number, with its arrow where there is room and it is to be `arrowed`."""
    name = name_of(ring, lettered=lettered)
    for tier, with_arrow in ORDER:
        if with_arrow and not arrowed:
            continue
        if tier == LED:
            led = _led(ring, name, sheet)
            if led is not None:
                return laid_down(sheet.ink, led, sheet.mm)
            continue
        places = [beside for beside in ring.tries if beside.tier == tier]
        tries = [label for beside in places for label in _labels(ring, name, beside, sheet.mm)]
        best = _whitest([label for label in tries if bool(label.arrow) is with_arrow], sheet)
        if best is not None:
            return laid_down(sheet.ink, _with_head_near(ring, best, sheet) if arrowed else best, sheet.mm)
    bare = [label for beside in ring.tries for label in _labels(ring, name, beside, sheet.mm) if not label.arrow]
    best = max(bare, key=lambda label: (round(sheet.white(label, WHITES_MM[0]), 2), -bare.index(label)))
    if sheet.white(best, WHITES_MM[-1]) < HEAD_WHITE_MM:
        best = _anywhere(ring, name, sheet) or best
    return laid_down(sheet.ink, _with_head_near(ring, best, sheet) if arrowed else best, sheet.mm)


def _anywhere(ring: Ring, name: str, sheet: _Sheet) -> Label | None:
    """A number in the nearest white about the seam, where the round itself has none."""
    (x, y), mm = ring.tries[0].at, sheet.mm
    tries = (Label(name, ((x + dx) * mm, (y + dy) * mm), True, None, ring.index) for dx, dy in around())
    return next((label for label in tries if sheet.white(label, WHITES_MM[-1]) >= HEAD_WHITE_MM), None)


def _with_head_near(ring: Ring, label: Label, sheet: _Sheet) -> Label:
    """A number that found no room for its arrow beside it, with the head of one in the nearest white of its round."""
    mm, half = sheet.mm, HEAD_ALONE_MM / 2.0
    if label.arrow:
        return label
    near = sorted(ring.tries, key=lambda b: (round(math.dist((b.at[0] * mm, b.at[1] * mm), label.at), 6), b.at))
    for beside in near:
        at = (beside.at[0] * mm, beside.at[1] * mm)
        if math.dist(at, label.at) > NEAR_MM:
            break
        ends = _by(at, beside.along, -half), _by(at, beside.along, half)
        headed = replace(label, arrow=ends, head_mm=HEAD_ALONE_MM)
        apart = min(math.dist(label.at, end) for end in ends) > math.hypot(*label.half) + GAP_MM
        if apart and sheet.white(headed, HEAD_WHITE_MM + 0.01) >= HEAD_WHITE_MM:
            return headed
    return label


def _led(ring: Ring, name: str, sheet: _Sheet) -> Label | None:
    """A number with its arrow in the nearest white about the seam from which a line leads there past all ink."""
    beside, mm = ring.tries[0], sheet.mm
    seam, half = (beside.at[0] * mm, beside.at[1] * mm), half_of_words(name, is_number=True)
    free = [end for end in ends(seam, beside.along, mm) if sheet.passes((end,))][:MOST_ENDS]
    for dx, dy in around() if free else ():
        place = replace(beside, at=(beside.at[0] + dx, beside.at[1] + dy))
        bare = Label(name, (place.at[0] * mm, place.at[1] * mm), True)
        if sheet.white(bare, WHITES_MM[-1] + 0.01) < WHITES_MM[-1]:
            continue
        lines = [line for end in free if (line := leader(bare.at, half, end)) and sheet.passes(line)]
        for label in _labels(ring, name, place, mm) if lines else ():
            if label.arrow and sheet.white(label, WHITES_MM[-1] + 0.01) >= WHITES_MM[-1]:
                clear = next((line for line in lines if _apart(line, label.arrow)), None)
                if clear:
                    return replace(label, leader=clear)
    return None


def _apart(line: tuple[Point, Point], arrow: tuple[Point, Point]) -> bool:
    """Whether a leader keeps off the arrow beside it."""
    off = min(math.dist(p, q) for p in along_line(line, 0.3) for q in along_line(arrow, 0.3))
    return off > HALF_HEAD_MM + LEADER_WHITE_MM


def _whitest(tries: Sequence[Label], sheet: _Sheet) -> Label | None:
    """The first label with the most white that is asked for, else with the next; None where there is too little."""
    whites = [sheet.white(label, WHITES_MM[0] + 0.01) for label in tries]
    for asked in WHITES_MM:
        for label, white in zip(tries, whites, strict=True):
            if white >= asked:
                return label
    return None


def _labels(ring: Ring, name: str, beside: Beside, mm: float) -> Iterator[Label]:
    """A number at a place: its arrow ahead of it, outside it or inside it; and without one."""
    at = (beside.at[0] * mm, beside.at[1] * mm)
    half, (a, b) = half_of_words(name, is_number=True), beside.along
    usual = min(max(ARROW * mm, SHORTEST_MM), LONGEST_MM)
    ahead = support(half, (a, b)) + GAP_MM
    for long, head in ((usual, HEAD * usual), (HEAD_ALONE_MM, HEAD_ALONE_MM)):
        yield Label(name, at, True, (_by(at, (a, b), ahead), _by(at, (a, b), ahead + long)), ring.index, head)
        for side in (1.0, -1.0):
            square = (b * side, -a * side)
            middle = _by(at, square, support(half, square) + GAP_MM + HALF_HEAD_MM)
            both = _by(middle, (a, b), -long / 2.0), _by(middle, (a, b), long / 2.0)
            yield Label(name, at, True, both, ring.index, head)
    yield Label(name, at, True, None, ring.index)


def _by(at: Point, way: Point, far: float) -> Point:
    return at[0] + way[0] * far, at[1] + way[1] * far


def _count(ring: Ring, number: Label, sheet: _Sheet) -> Label | None:
    """How many stitches a round makes, beside its number or its arrow; None where there is no room."""
    words = f"({ring.worked.row.made})"
    wide, high = half_of_words(words, is_number=False)
    left, top, right, bottom = number.box
    across, down = (left - ASIDE_MM - wide, right + ASIDE_MM + wide), (top - ASIDE_MM - high, bottom + ASIDE_MM + high)
    x, y = number.at
    places = [(a, y) for a in across] + [(x, b) for b in down] + [(a, b) for b in (top, bottom) for a in across]
    places += [(a, b) for b in down for a in (left, right)]
    tries = [Label(words, place, False, None, ring.index) for place in places]
    found = next((t for t in tries if sheet.white(t, COUNT_WHITE_MM + 0.01) >= COUNT_WHITE_MM), None)
    return laid_down(sheet.ink, found, sheet.mm) if found else None
