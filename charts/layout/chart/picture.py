"""The stitches of a flat chart on the page: one group for every row, one path in it for every kind of
stitch.
"""

from __future__ import annotations

import functools
import math
from collections.abc import Iterable, Mapping
from dataclasses import field

from hookfold.symbols import Point

from ...drawing.display import Group, Ink
from ...drawing.geometry import PEN_LIMIT_MM, number
from ...made_late import dataclass
from ...model.cloth.fabric import Row, WorkedRow
from ...setting import ScForm
from ..placing.ink import KindInk, inked, row_inks
from ..placing.laid import Course, LaidFabric
from ..placing.placed import Laid, Spot
from ..sheets.apart import stitch_groups
from ..sheets.chart_setting import PALE

SIDES = {"RS": "right side", "WS": "wrong side"}


@dataclass(frozen=True, slots=True)
class Place:
    """Where the picture lies: the mm of the fabric's (0, 0), the mm of one stitch, and of the heaviest pen."""

    x: float
    y: float
    stitch_mm: float
    pen_limit_mm: float = PEN_LIMIT_MM

    def at_x(self, x: float) -> float:
        """The mm of a stitch x."""
        return self.x + x * self.stitch_mm

    def stitches_at(self, mm: float) -> float:
        """The stitch x of a place in mm."""
        return (mm - self.x) / self.stitch_mm

    def at_y(self, y: float) -> float:
        """The mm of a stitch y."""
        return self.y + y * self.stitch_mm


@dataclass(frozen=True, slots=True)
class Window:
    """The part of a fabric on one page: rows `first` up to but without `last`, heads from `left` to
    `right`.
    """

    first: int
    last: int
    left: float = float("-inf")
    right: float = float("inf")

    def holds(self, x: float) -> bool:
        """Whether a head at x is shown."""
        return self.left <= x < self.right


#: A fan no wider than this on either side of its foot, in stitch widths, is drawn whole or not at all.
WHOLE_FAN = 3.5
#: Feet of stitches that follow each other stand in one place where they are nearer than this.
ONE_FOOT = 0.3


@functools.lru_cache(maxsize=4096)
def fans_of(laid: Laid) -> Mapping[int, float]:
    """The items of a row that are worked into one place, or lie between such, each with the x of that place."""
    runs: list[list[Spot]] = []
    for spot in laid.spots:
        if spot.role not in ("stitch", "turning") or len(spot.feet) != 1:
            continue
        if runs and math.dist(runs[-1][-1].feet[0], spot.feet[0]) < ONE_FOOT:
            runs[-1].append(spot)
        else:
            runs.append([spot])
    out: dict[int, float] = {}
    for fan in runs:
        x = sum(spot.feet[0][0] for spot in fan) / len(fan)
        if len(fan) > 1 and max(abs(spot.head[0] - x) for spot in fan) <= WHOLE_FAN:
            out.update(dict.fromkeys(range(fan[0].item, fan[-1].item + 1), x))
    return out


def reach_of(laid: Laid) -> float:
    """How far a row's fans reach beyond their feet, in stitch widths."""
    fans = fans_of(laid)
    return max((abs(spot.head[0] - fans[spot.item]) for spot in laid.spots if spot.item in fans), default=0.0)


def inside(laid: Laid, window: Window) -> tuple[Spot, ...]:
    """What a window shows of a row: a fan whole where its foot lies in it, all else where its head does."""
    fans = fans_of(laid)
    return tuple(spot for spot in laid.spots if window.holds(fans.get(spot.item, spot.head[0])))


@dataclass(slots=True)
class Inker:
    """Makes the ink of rows, each distinct row once for each window width; `apart`: every stitch as a group."""

    stitch_mm: float
    sc_form: ScForm
    apart: bool = False
    _made: dict[tuple[int, float, float], tuple[KindInk, ...]] = field(default_factory=dict)

    def kinds(self, laid: Laid, window: Window) -> tuple[KindInk, ...]:
        """The kinds of a row inside a window."""
        key = (id(laid), window.left, window.right)
        if key not in self._made:
            self._made[key] = row_inks(inside(laid, window), self.stitch_mm, self.sc_form)
        return self._made[key]

    def inks(
        self, laid: Laid, window: Window, at: Point, colour: str, name: str, limit_mm: float = PEN_LIMIT_MM
    ) -> tuple[Ink | Group, ...]:
        """The ink of a row inside a window, its origin at a place in mm."""
        if not self.apart:
            return inked(self.kinds(laid, window), *at, self.stitch_mm, colour, name, limit_mm)

        heads = {spot.head for spot in inside(laid, window)}
        chains = {(x, y) for spot in inside(laid, window) for x, y, _ in spot.ovals}

        def shown(head: Point) -> bool:
            return head in heads or head in chains

        return stitch_groups(laid.spots, shown, at, self.stitch_mm, colour, name, self.sc_form, limit_mm)


def picture(
    laid: LaidFabric,
    window: Window,
    place: Place,
    inker: Inker,
    tones: Mapping[str, str],
    lit_row: int = 0,
) -> tuple[Group, ...]:
    """The foundation, where row 1 is shown, and the rows of a window, from the bottom up; all but a lit one pale."""
    ground = PALE if lit_row or is_there(laid) else tones["RS"]
    groups = [_foundation(laid, window, place, inker, ground)] if window.first == 0 else []
    for course in laid.courses[window.first : window.last]:
        pale = {"RS": PALE, "WS": PALE} if lit_row and course.worked.number != lit_row else tones
        groups.append(row_group(course, window, place, inker, pale))
    return tuple(groups)


def is_there(laid: LaidFabric) -> bool:
    """Whether what is worked into is a row that is there already, which is drawn pale."""
    return any(spot.role == "stitch" for spot in laid.foundation.spots)


def _foundation(laid: LaidFabric, window: Window, place: Place, inker: Inker, colour: str) -> Group:
    inks = inker.inks(laid.foundation, window, (place.x, place.y), colour, "foundation")
    return Group("foundation", inks, "Foundation", f"{len(laid.foundation.spots)} items")


def row_group(course: Course, window: Window, place: Place, inker: Inker, tones: Mapping[str, str]) -> Group:
    """One row: "Row 3, right side, 25 stitches", its counts in the description."""
    name = row_name(course)
    at, colour = (place.x, place.at_y(course.y)), tones[course.worked.side]
    inks = inker.inks(course.laid, window, at, colour, name, place.pen_limit_mm)
    return Group(name, inks, row_title(course), counts_in_words(course.worked.row))


def row_name(course: Course) -> str:
    """The id of a row: "row-3", or the place of a row without a number."""
    worked = course.worked
    word = "round" if worked.is_round else "row"
    return f"{word}-{worked.number}" if worked.number else f"{word}-unnumbered-{course.index + 1}"


def row_title(course: Course) -> str:
    """What a screen reader says of a row."""
    made = course.worked.row.made
    stitches = f"{made} stitch{'' if made == 1 else 'es'}"
    return f"{course.worked.label}, {SIDES.get(course.worked.side, course.worked.side)}, {stitches}"


def counts_in_words(row: Row) -> str:
    """How many of each kind a row holds, as made."""
    parts = [f"{count} {kind}" for kind, count in row.kinds().items()]
    if row.chains:
        parts.append(f"{row.chains} ch")
    return ", ".join(parts)


def made_in_words(rows: Iterable[WorkedRow]) -> str:
    """What every row is made of, for who does not see the chart."""
    return "; ".join(f"{worked.label}: {counts_in_words(worked.row)}" for worked in rows) + "."


def band(left: float, top: float, right: float, bottom: float, colour: str, name: str = "") -> Ink:
    """A filled rectangle."""
    a, b, c, d = number(left), number(top), number(right), number(bottom)
    return Ink(f"M{a} {b}L{c} {b}L{c} {d}L{a} {d}Z", fill=colour, name=name)
