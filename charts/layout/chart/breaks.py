"""The break in a condensed chart: where columns were taken out, so that nobody takes the foundation for whole.

Two slanted strokes across the foundation, the drawing office's way with a shortened part, and a dashed line up through
the rows.
"""

from __future__ import annotations

import itertools

from ...drawing.display import Group, Ink
from ...drawing.geometry import number
from ...made_late import dataclass
from ..placing.ink import FOUNDATION_DROP
from ..placing.laid import LaidFabric
from ..sheets.page import DARK, HAIR
from .condense import white_ways
from .picture import Place, Window

#: Half the height of a stroke, half its slant, and half the way between the two, in stitch widths.
_RISE, _SLANT, _APART = 0.25, 0.08, 0.12
#: From the strokes to the dashed line above them, in stitch widths.
_CLEAR = 0.2
STROKE_MM = 0.3
#: Stitches whose heads are so far from the break may reach it.
ABOUT = 4.0


@dataclass(frozen=True, slots=True)
class Break:
    """Where stitches of the foundation are left out: the x between those that are drawn, how many, and whether they are
    chains."""

    x: float
    missing: int
    chains: bool


def find_break(laid: LaidFabric) -> Break | None:
    """The break of a laid fabric, told by neighbours of its foundation that were not made one after the other."""
    spots = [s for s in laid.foundation.spots if s.role != "risen"]
    for a, b in itertools.pairwise(sorted(spots, key=lambda s: s.head[0])):
        missing = abs(a.item - b.item) - 1
        if missing > 0:
            return Break(_whitest(laid, a.head[0], b.head[0]), missing, a.kind == "ch")
    return None


def _whitest(laid: LaidFabric, left: float, right: float) -> float:
    """The middle of the broadest way up through all rows between two stitches of the foundation, else theirs."""
    ways = [(max(a, left), min(b, right)) for a, b in white_ways(laid, left - ABOUT, right + ABOUT)]
    broad = [(round(b - a, 3), (a + b) / 2.0) for a, b in ways if b > a]
    return max(broad)[1] if broad else (left + right) / 2.0


def break_words(found: Break) -> str:
    """What the mark says in the notes."""
    what = ("chain" if found.chains else "stitch") if found.missing == 1 else "chains" if found.chains else "stitches"
    stand = "stands on it" if found.missing == 1 else "stands on them"
    return f"Where two slanted strokes cut the foundation, {found.missing} {what} and all that {stand} are left out."


def break_mark(found: Break, laid: LaidFabric, window: Window, place: Place) -> Group:
    """The mark in a window: at the foundation where row 1 is shown, and the line up through the rows."""
    inks: list[Ink] = []
    middle = _middle(found, laid)
    if window.first == 0:
        inks += _strokes(found.x, middle, place)
    rows = laid.courses[window.first : window.last]
    bottom = middle - _RISE - _CLEAR if window.first == 0 else rows[0].y
    top = min(c.y + c.laid.y_range()[0] for c in rows)
    inks.append(_line(found.x, bottom, top, place))
    return Group("break", tuple(inks), "Break", f"{found.missing} of the foundation are left out here")


def _middle(found: Break, laid: LaidFabric) -> float:
    """The height of the strokes' middle: that of the foundation."""
    return FOUNDATION_DROP if found.chains else laid.foundation.y_range()[1] / 2.0


def _strokes(x: float, middle: float, place: Place) -> list[Ink]:
    bottom, top = place.at_y(middle + _RISE), place.at_y(middle - _RISE)
    return [
        Ink(
            _d(place.at_x(x + aside - _SLANT), bottom, place.at_x(x + aside + _SLANT), top),
            stroke=DARK,
            width=STROKE_MM,
            name="break stroke",
        )
        for aside in (-_APART, _APART)
    ]


def _line(x: float, bottom: float, top: float, place: Place) -> Ink:
    at = place.at_x(x)
    d = _d(at, place.at_y(bottom), at, place.at_y(top))
    return Ink(d, stroke=HAIR, width=0.2, dash=(1.2, 1.0), name="break line")


def _d(x0: float, y0: float, x1: float, y1: float) -> str:
    return f"M{number(x0)} {number(y0)}L{number(x1)} {number(y1)}"
