"""Where the work begins, where yarn is joined and where it is cut: small marks that point at the place.

In rows each stands beside the end of its row. Among rounds each stands at the nearest white round its place, and where
there is none a sentence says it instead.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Iterable, Sequence

from hookfold.symbols import Mark, Point, begin, fasten_off, start

from ...drawing.display import Group, Ink
from ...drawing.geometry import Affine, ink_of, pen_mm
from ...made_late import dataclass
from ..placing.clearing import InkMap, ink_points
from ..placing.placed import Laid, Spot
from ..shapes.ring import LaidRounds, Ring
from ..sheets.page import DARK
from .label import Box

#: Each mark: its glyph, its name in the key, and what it says there.
MARKS: dict[str, tuple[Callable[[Point, float], Mark], str]] = {
    "begin": (begin, "the work begins here"),
    "join yarn": (start, "the yarn is joined here"),
    "fasten off": (fasten_off, "the yarn is cut here"),
}
#: How tall a mark is and half its width, as shares of its unit; its unit against a stitch, the least and the most.
TALL, HALF_WIDE = 0.95, 0.36
UNIT, LEAST_MM, MOST_MM = 0.45, 1.9, 2.6
#: White about a mark among stitches, in mm, near its place and wherever it is tried; how far that is, in stitch widths.
WHITES_MM, NEAR_PLACE = (0.8, 0.35), 0.7
FAR = (0.35, 0.5, 0.7, 0.95, 1.25)
#: How far a mark is turned from pointing inward, and what that costs in stitches: square to the round, along it, and
#: aslant only where nothing else is free.
TURNS = {0: 0.0, 90: 0.3, -90: 0.3, 180: 0.45, 45: 2.0, -45: 2.0, 135: 2.2, -135: 2.2}
ASLANT = 1.0
#: Roles of what lies level with its row, or stands upright on it.
LEVEL = ("stitch", "turning", "join")


@dataclass(frozen=True, slots=True)
class YarnMark:
    """A mark in mm: its point, where its body lies from there (a unit vector), and the mm of its unit."""

    name: str
    tip: Point
    body: Point
    unit_mm: float

    @property
    def box(self) -> Box:
        """Left, top, right and bottom."""
        (x, y), (a, b), tall = self.tip, self.body, TALL * self.unit_mm
        half = HALF_WIDE * self.unit_mm
        xs = (x, x + a * tall - b * half, x + a * tall + b * half)
        ys = (y, y + b * tall + a * half, y + b * tall - a * half)
        return min(xs), min(ys), max(xs), max(ys)

    @property
    def mark(self) -> Mark:
        """Its ink in units about (0, 0) as the point."""
        return MARKS[self.name][0]((0.0, 0.0), math.degrees(math.atan2(-self.body[0], self.body[1])))

    def inks(self, x: float, y: float) -> tuple[Ink, ...]:
        """Its ink where the middle of the work lies at (x, y) mm."""
        to = Affine.shift(x + self.tip[0], y + self.tip[1]) @ Affine.scale(self.unit_mm)
        return ink_of([(self.mark, to)], self.unit_mm, DARK, name=self.name)


def unit_of(mm: float) -> float:
    """The mm of a mark's unit where a stitch is `mm` wide."""
    return min(max(UNIT * mm, LEAST_MM), MOST_MM)


def mark_group(marks: Iterable[YarnMark], x: float, y: float) -> Group:
    """The marks as one group."""
    inks = tuple(ink for mark in marks for ink in mark.inks(x, y))
    return Group("yarn marks", inks, "Where the work begins, and yarn is joined and cut")


def marks_among(laid: LaidRounds, ink: InkMap, mm: float, bounds: Box) -> tuple[YarnMark, ...]:
    """The marks of rounds, or of rows about a ring, at `mm` a stitch, where there is white for them.

    `bounds` is what they may take up, in mm. They are laid down on the map.
    """
    found = [_stood("begin", at, body, ink, mm, bounds) for at, body in _beginning(laid.centre)]
    for ring in laid.rings:
        if ring.worked.joins:
            found.append(_stood("join yarn", *_joined(ring.laid.spots), ink, mm, bounds))
        if ring.worked.cut:
            found.append(_stood("fasten off", *_place(ring.laid.spots[::-1]), ink, mm, bounds))
    return tuple(mark for mark in found if mark is not None)


def unmarked(rings: Sequence[Ring], marks: Sequence[YarnMark], word: str) -> list[str]:
    """What is said of yarn joined and cut for which there was no room."""
    said = []
    for name, verb, end in (("join yarn", "joined", "begins"), ("fasten off", "cut", "ends")):
        due = [r for r in rings if (r.worked.joins if name == "join yarn" else r.worked.cut)]
        if sum(mark.name == name for mark in marks) < len(due):
            which = ", ".join(str(r.worked.number or r.index + 1) for r in due)
            said.append(f"The yarn is {verb} where {word} {which} {end}.")
    return said


def _beginning(centre: Laid) -> list[tuple[Point, Point]]:
    """The first chain of what the work is begun with, and the way to where its mark stands: inside a ring of chains,
    beyond the end of a chain."""
    spot = centre.spots[0] if centre.spots else None
    if spot is None or not spot.ovals or spot.role not in ("ring", "chain"):
        return []
    x, y, _ = spot.ovals[0]
    reach = math.hypot(x, y)
    if reach < 1e-6:
        return []
    way = -1.0 if spot.role == "ring" else 1.0
    return [((x, y), (way * x / reach, way * y / reach))]


def _place(spots: Sequence[Spot]) -> tuple[Point, Point]:
    """Where a row begins, or, from its last stitch on, ends; and the way outward there, square to the row."""
    spot = next((s for s in spots if s.role != "risen"), spots[0])
    turn = math.radians(next((s.angle_deg for s in spots if s.role in LEVEL), spot.angle_deg))
    return spot.head, (math.sin(turn), -math.cos(turn))


def _joined(spots: Sequence[Spot]) -> tuple[Point, Point]:
    """Where the first stitch of a row stands, since the yarn is joined there, and the way outward."""
    spot = next((s for s in spots if s.role not in ("risen", "travel")), spots[0])
    return (spot.feet[0] if spot.feet else spot.head), _place(spots)[1]


def _stood(name: str, at: Point, body: Point, ink: InkMap, mm: float, bounds: Box) -> YarnMark | None:
    """The mark at the nearest white round its place; None where there is none."""
    unit = unit_of(mm)
    tries = sorted(itertools.product(FAR, TURNS), key=lambda t: (t[0] + TURNS[t[1]], t))
    near = [(white, *t) for white in WHITES_MM[:1] for t in tries if t[0] <= NEAR_PLACE and TURNS[t[1]] < ASLANT]
    for white, far, turn in [*near, *((WHITES_MM[-1], *t) for t in tries)]:
        room = (white + pen_mm(mm) / 2.0 + pen_mm(unit) / 2.0) / mm
        cos, sin = math.cos(math.radians(turn)), math.sin(math.radians(turn))
        way = (body[0] * cos - body[1] * sin, body[0] * sin + body[1] * cos)
        mark = YarnMark(name, ((at[0] + way[0] * far) * mm, (at[1] + way[1] * far) * mm), way, unit)
        if not _inside(mark.box, bounds):
            continue
        points = _points(mark, mm)
        if ink.free(points, room) >= room:
            ink.add(("mark", mark), points)
            return mark
    return None


def _points(mark: YarnMark, mm: float) -> list[Point]:
    """Points along its outline and its middle line, in stitch widths."""
    share = mark.unit_mm / mm
    x, y = mark.tip[0] / mm, mark.tip[1] / mm
    middle = [(mark.body[0] * t, mark.body[1] * t) for t in (0.3, 0.6, 0.85)]
    return [(x + px * share, y + py * share) for px, py in (*ink_points(mark.mark), *middle)]


def _inside(box: Box, bounds: Box) -> bool:
    return box[0] >= bounds[0] and box[1] >= bounds[1] and box[2] <= bounds[2] and box[3] <= bounds[3]
