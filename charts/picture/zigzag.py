"""A ripple: rows that gather and spread at the same places in every row lie in a zigzag, from the foundation up.

Where every stitch of a stretch stands one place farther from a crest than what it stands in, and still upright on its
row, the row slopes there: by as much as it drifts for its height. Crests and hollows are where the drift turns.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

import numpy as np
from hookfold.symbols import kind_of

from ..layout.placing.laid import LaidFabric
from ..layout.placing.placed import Spot
from ..made_late import dataclass, replace
from ..model.cloth.fabric import Stitch
from .cloth import Made, Place, moved
from .strokes import Reals

#: A stitch drifts where its head lies farther from its foot than this, in stitch widths; rows agree where so large a
#: share of the drift is left in their mean.
DRIFTS, AGREE = 0.4, 0.7
#: So large a share of all stitches drifts in a ripple, and so large a one to each side.
MOST, EACH = 0.4, 0.15
#: Rows of a ripple have no more than so many stitches more or less than each other.
AS_MANY = 2
#: Places are looked at so close together, in stitch widths, and a corner is rounded over so many of them.
STEP, ROUNDED = 0.5, 1
#: So near a hollow, in places, and so much narrower, what is passed over there is drawn together.
HOLLOW, TOGETHER = 3, 0.68


@dataclass(frozen=True, slots=True)
class Zigzag:
    """Where the places of straight rows lie: at each of `places` along a row, how far `across` and how far `down`;
    a row of stitches so high takes `taller` times its height."""

    places: Reals
    across: Reals
    down: Reals
    taller: float

    def bent(self, p: Place) -> Place:
        """Where a place of straight rows lies."""
        x = p[0]
        before, after = min(0.0, x - float(self.places[0])), max(0.0, x - float(self.places[-1]))
        return (float(np.interp(x, self.places, self.across)) + before + after,
                p[1] - float(np.interp(x, self.places, self.down)))


def zigzag_of(laid: LaidFabric, *, as_planned: bool) -> Zigzag | None:
    """The zigzag in which the rows of a fabric lie, None where they lie straight; `as_planned` keeps its width and
    the heights of its rows."""
    rows = [list(zip(c.laid.spots, c.worked.row.stitches, strict=True)) for c in laid.courses]
    counts = [sum(_is_post(s) for s, _ in row) for row in rows]
    if len(rows) < 2 or max(counts) - min(counts) > AS_MANY:
        return None
    drifts = [_drifts(row) for row in rows]
    if not _are_ripple([d for row in drifts for _, d in row], sum(counts)):
        return None
    left, right = laid.x_range()
    places = np.arange(left, right + STEP, STEP)
    by_row = np.array([_along(row, places) for row in drifts])
    mean = np.nanmean(by_row, axis=0)
    if np.abs(mean).mean() < AGREE * np.nanmean(np.abs(by_row)):
        return None
    slope = _smoothed(mean) / _height([s for row in rows for s, _ in row])
    cosine = 1.0 / np.hypot(1.0, slope)
    wide = _drawn_together(slope) * cosine
    wide = wide / wide.mean() if as_planned else wide
    across = left + _summed(wide)
    return Zigzag(places, across, _summed(slope * wide), 1.0 if as_planned else float(1.0 / cosine.mean()))


def _drawn_together(slope: Reals) -> Reals:
    """How wide a stitch is at each place beside the usual: less in the hollows, where rows fall and then rise."""
    found = np.ones_like(slope)
    turns = np.flatnonzero((slope[:-1] > 0) & (slope[1:] <= 0))
    for at in turns:
        found[max(at - HOLLOW + 1, 0) : at + HOLLOW + 1] = TOGETHER
    return found


def _summed(values: Reals) -> Reals:
    """What values at places come to from the first place to each."""
    return np.concatenate(([0.0], np.cumsum((values[1:] + values[:-1]) / 2.0 * STEP)))


def heights_in(laid: LaidFabric, zigzag: Zigzag) -> tuple[float, ...]:
    """The heights of the rows of a ripple by the usual ratios of their stitches, measured straight up."""
    return tuple(_height(course.laid.spots) * zigzag.taller for course in laid.courses)


def set_in(made: Made, tops: Sequence[float], zigzag: Zigzag) -> Made:
    """A stitch of a straight row, whose tops lie so high, in the zigzag: its head on its row, its feet on theirs."""
    low, high = (tops[max(made.row, -1) + 1 - k] if made.row - k >= -1 else 0.0 for k in (1, 0))
    feet = tuple((x, tops[max(made.row + 1 - back, 0)]) for (x, _), back in
                 zip(made.feet, _backs(made), strict=True))  # fmt: skip
    line = tuple((x, min(max(y, low), high)) for x, y in made.line)
    return moved(replace(made, head=(made.head[0], high), back=(made.back[0], high), feet=feet, line=line), zigzag.bent)


def _backs(made: Made) -> list[int]:
    """How many rows below each foot of a stitch is."""
    backs = [foot.back for foot in made.made.feet][: len(made.feet)]
    return backs + [1] * (len(made.feet) - len(backs))


def _is_post(spot: Spot) -> bool:
    return spot.role in ("stitch", "turning") and spot.kind != "ch"


def _drifts(row: Sequence[tuple[Spot, Stitch]]) -> list[tuple[float, float]]:
    """Where each stitch that stands alone in its place lies in a row, and how far its head lies from its foot."""
    shared = Counter((f.back, f.at) for _, made in row for f in made.feet)
    return [((s.head[0] + s.feet[0][0]) / 2.0, s.head[0] - s.feet[0][0]) for s, made in row
            if _is_post(s) and len(s.feet) == len(made.feet) == 1 and shared[made.feet[0].back, made.feet[0].at] == 1]


def _are_ripple(drifts: Sequence[float], total: int) -> bool:
    """Whether most stitches drift, many to each side."""
    right, left = sum(d > DRIFTS for d in drifts), sum(d < -DRIFTS for d in drifts)
    return left + right > MOST * total and min(left, right) > EACH * total


def _along(row: Sequence[tuple[float, float]], places: Reals) -> Reals:
    """The drift of a row at places along it."""
    if not row:
        return np.full(len(places), np.nan)
    at, far = (np.array(part) for part in zip(*sorted(row), strict=True))
    found: Reals = np.interp(places, at, far)
    return found


def _smoothed(values: Reals) -> Reals:
    ends = np.pad(values, ROUNDED, mode="edge")
    return np.convolve(ends, np.full(2 * ROUNDED + 1, 1.0 / (2 * ROUNDED + 1)), mode="valid")


def _height(spots: Sequence[Spot]) -> float:
    """The mean height of a row of such stitches by the usual ratios, in stitch widths."""
    tall = [kind_of(s.kind, s.legs, s.base).row_height for s in spots if _is_post(s)]
    return sum(tall) / len(tall) if tall else 1.0
