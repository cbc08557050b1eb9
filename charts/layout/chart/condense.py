"""The condensed chart: repeated rows are shown once, repeated columns once or twice.

Rows are folded in the fabric itself, before it is laid: where a block of rows follows itself, worked alike
(`is`), in the same direction and colours, only the first is kept, and the row after it lies on it as it lies
on the last. Columns are cut out of the laid fabric: where every row is the same again a whole number of
foundation stitches further on, a strip of whole repeats can be taken out and the rest moved up to it. The cut is made
where a straight line runs through all rows without meeting a stitch, and left open a little, so that it shows; lace
whose rows reach over each other everywhere is not cut.
"""

from __future__ import annotations

import bisect
import functools
import math
from collections.abc import Sequence

from hookfold.symbols import picot_radius

from ...made_late import dataclass, replace
from ...model.cloth.fabric import Fabric, Row, WorkedRow
from ...model.cloth.yarns import yarns_of
from ..placing.laid import Course, LaidFabric
from ..placing.placed import Laid, Spot
from ..placing.tops import width_of

#: How far a stitch may be from where the repeat says it should be, in stitch widths.
NEAR = 0.15
#: The same up and down, where a curve may still be dying out towards the middle and no seam can show.
NEAR_UP = 0.4
#: The least that is left of the repeated strip, in stitch widths, and the fewest repeats of it.
KEEP_WIDE = 10
KEEP_REPEATS = 2
#: How wide a cut is left open, in stitch widths, and the least way through all rows that it needs. It is more than
#: a repeat may differ from its width, so that no bracket is drawn over it.
OPEN = 0.6
LEAST_WAY = 0.04
#: Half the length of a chain's oval with its pen, and what a foot needs on both sides.
HALF_CHAIN, HALF_FOOT = 0.43, 0.15
#: From the middle of a picot's chains to their outer side, with the pen.
HALF_PICOT = 0.18
#: The longest block of rows that is looked for.
_LONGEST_BLOCK = 60


@dataclass(frozen=True, slots=True)
class Fold:
    """Rows shown once: shown rows `first` to `first + rows - 1` (0-based) stand for `times` repetitions."""

    first: int
    rows: int
    times: int


@dataclass(frozen=True, slots=True, eq=False)
class Folded:
    """The fabric with its repeated rows once, where each shown row came from, and what was folded; after which row the
    yarn is cut in the end where none of those shown is that one (0 else)."""

    fabric: Fabric
    origin: tuple[int, ...]
    folds: tuple[Fold, ...]
    cut_after: int = 0

    @property
    def until(self) -> tuple[tuple[int, int], ...]:
        """The rows shown that each stand for others alike, from 0, with the number of the last of those."""
        alone = [fold for fold in self.folds if fold.rows == 1 and self.fabric.rows[fold.first].number]
        return tuple((fold.first, self.fabric.rows[fold.first].number + fold.times - 1) for fold in alone)

    def numbers(self, place: int) -> tuple[int, ...]:
        """The numbers of all rows that a shown row, from 0, stands for; 0 where it has none."""
        number = self.fabric.rows[place].number
        fold = next((f for f in self.folds if f.first <= place < f.first + f.rows), None)
        return tuple(number + k * fold.rows for k in range(fold.times)) if fold and number else (number,)

    def every(self) -> list[tuple[Row, int]]:
        """Each row that is worked, in order, those left out too: the row and its number."""
        each = [(worked.row, n) for k, worked in enumerate(self.fabric.rows) for n in self.numbers(k)]
        return sorted(each, key=lambda pair: pair[1]) if all(n for _, n in each) else each


@functools.lru_cache(maxsize=4)
def fold_rows(fabric: Fabric) -> Folded:
    """Every block of rows that follows itself is kept once; where none does, the fabric itself."""
    tokens = [_token(row, last=row is fabric.rows[-1]) for row in fabric.rows]
    kept: list[int] = []
    folds: list[Fold] = []
    i = 0
    while i < len(tokens):
        rows, times = best_block(tokens, i)
        if times > 1:
            folds.append(Fold(len(kept), rows, times))
        kept.extend(range(i, i + rows))
        i += rows * times
    once = [fabric.rows[k] for k in kept]
    left_out = bool(once) and once[-1] is not fabric.rows[-1] and fabric.rows[-1].cut
    shown = replace(fabric, rows=tuple(once)) if folds else fabric
    return Folded(shown, tuple(kept), tuple(folds), fabric.rows[-1].number if left_out else 0)


def cut_words(cut_after: int, word: str) -> list[str]:
    """After which row the yarn is cut, where a mark inside a repeat would say it of each time."""
    return [f"Fasten off after {word} {cut_after}."] if cut_after else []


def row_repeats(fabric: Fabric) -> tuple[Fold, ...]:
    """The blocks of rows that follow themselves, with their first row where it lies in the whole fabric."""
    folded = fold_rows(fabric)
    return tuple(replace(fold, first=folded.origin[fold.first]) for fold in folded.folds)


def _token(row: WorkedRow, *, last: bool) -> tuple[object, ...]:
    """What makes rows alike; that the yarn is cut after the last one of all does not keep it from being one of many."""
    return (id(row.row), row.direction, row.side, row.colour, row.section, row.joins, row.cut and not last)


def best_block(tokens: Sequence[tuple[object, ...]], start: int) -> tuple[int, int]:
    """The block from `start` whose repetitions save the most rows, as (rows, times); (1, 1) where nothing
    repeats.

    Of two that save alike the shorter is taken. A single row is not folded for one repetition.
    """
    best = (1, 1)
    saved = 1
    for rows in range(1, min((len(tokens) - start) // 2, _LONGEST_BLOCK) + 1):
        times = _times(tokens, start, rows)
        if (times - 1) * rows > saved:
            best, saved = (rows, times), (times - 1) * rows
    return best


def _times(tokens: Sequence[tuple[object, ...]], start: int, rows: int) -> int:
    times = 1
    while tokens[start : start + rows] == tokens[start + times * rows : start + (times + 1) * rows]:
        times += 1
    return times


@dataclass(frozen=True, slots=True)
class Period:
    """Where a laid fabric repeats across: every `width` stitch widths from x = `start` on, `times` whole
    times.
    """

    stitches: int
    width: float
    start: float
    times: int


def find_period(laid: LaidFabric, stated: int | None = None) -> Period | None:
    """The least whole number of foundation stitches after which every row is the same again, or None.

    Where the pattern states its repeat, the least common multiple of both, if two of it fit.
    """
    rows = [_Profile(course) for course in {(id(c.laid), id(c.worked.row)): c for c in laid.courses}.values()]
    low, high = laid.foundation.x_range()
    left, right = laid.x_range()
    least = (right - left) / 2.0
    for stitches in range(1, int((high - low) / laid.spacing / 2.5) + 1):
        span = _common_span(rows, stitches * laid.spacing, low - 3.0, high + 3.0)
        if span is None or span[1] - span[0] < least:
            continue
        room = span[1] - span[0]
        whole = whole_width(stitches, stated, room / laid.spacing)
        wide = whole * laid.spacing
        if room + 1e-6 >= 2 * wide:
            return Period(whole, wide, span[0], int(room / wide + 1e-6))
    return None


def whole_width(period: int, stated: int | None, room: float) -> int:
    """The least width that is a whole number of both the fabric's period and the pattern's stated repeat.

    >>> whole_width(2, 4, 40.0), whole_width(1, None, 40.0), whole_width(4, 6, 10.0)
    (4, 1, 4)
    """
    both = math.lcm(period, stated) if stated else period
    return both if both * 2 <= room else period


def _distinct(laid: LaidFabric) -> list[Laid]:
    return list({id(course.laid): course.laid for course in laid.courses}.values())


class _Profile:
    """The things of a row by where they stand: what they are, in which yarn, and where their heads and feet are from
    there.
    """

    def __init__(self, course: Course) -> None:
        drawn = sorted((s for s in course.laid.spots if s.role not in ("start",)), key=lambda s: s.head[0])
        yarns = yarns_of(course.worked)
        self.xs = [s.head[0] for s in drawn]
        self.yarns = [yarns[s.item] for s in drawn]
        self.spots = drawn

    def matches(self, i: int, width: float) -> bool:
        """Whether the thing at `i` has its like `width` further right."""
        here = self.spots[i]
        k = bisect.bisect_left(self.xs, self.xs[i] + width - NEAR)
        while k < len(self.xs) and self.xs[k] <= self.xs[i] + width + NEAR:
            if self.yarns[k] == self.yarns[i] and _alike(here, self.spots[k], width):
                return True
            k += 1
        return False


def _alike(a: Spot, b: Spot, dx: float) -> bool:
    same = (a.kind, a.role, a.hold, a.legs, a.chains) == (b.kind, b.role, b.hold, b.legs, b.chains)
    if not same or len(a.feet) != len(b.feet) or abs(a.head[1] - b.head[1]) > NEAR_UP:
        return False
    return all(
        abs(p[0] + dx - q[0]) < NEAR and abs(p[1] - q[1]) < NEAR_UP
        for p, q in zip(sorted(a.feet), sorted(b.feet), strict=True)
    )


def _common_span(
    rows: Sequence[_Profile], width: float, low: float, high: float
) -> tuple[float, float] | None:
    """The widest strip in which every row repeats after `width`, if it holds two repeats."""
    for profile in rows:
        span = _span(profile, width)
        if span is None:
            return None
        low, high = max(low, span[0]), min(high, span[1])
    return (low, high) if high - low >= 2 * width else None


def _span(profile: _Profile, width: float) -> tuple[float, float] | None:
    """The longest run of things that all have their like `width` further on, as the x where it may be cut.

    The run reaches from just left of its first thing to just left of the last thing's like.
    """
    best: tuple[float, float] | None = None
    run: int | None = None
    for i in range(len(profile.xs) + 1):
        if i < len(profile.xs) and profile.matches(i, width):
            run = i if run is None else run
        elif run is not None:
            span = (profile.xs[run] - 0.5, profile.xs[i - 1] + width + 0.5)
            best = span if best is None or span[1] - span[0] > best[1] - best[0] else best
            run = None
    return best


@dataclass(frozen=True, slots=True, eq=False)
class Cut:
    """A laid fabric with a strip taken out: where it was cut, how wide the strip, the repeats left, and how wide the
    cut is left open.
    """

    laid: LaidFabric
    at: float
    removed: float
    period: Period | None
    opened: float = 0.0


def cut_columns(laid: LaidFabric, stated: int | None = None) -> Cut:
    """Leave the edges and a few repeats; the whole fabric where it does not repeat across, or cannot be cut straight
    up through all rows."""
    period = find_period(laid, stated)
    if period is None:
        return Cut(laid, 0.0, 0.0, None)
    keep = max(KEEP_REPEATS, math.ceil(KEEP_WIDE / period.width))
    removed = float(max(period.times - keep, 0) * period.width)
    if not removed:
        return Cut(laid, period.start + keep * period.width / 2.0, 0.0, period)
    kept = replace(period, times=min(period.times, keep))
    way = _free_way(laid, kept)
    if way is None:
        return Cut(laid, 0.0, 0.0, period)
    return Cut(without_strip(laid, way, removed, OPEN), way, removed, _beside(kept, way), OPEN)


def _free_way(laid: LaidFabric, kept: Period) -> float | None:
    """The x nearest the middle of what is kept at which a straight line up through all rows meets no stitch."""
    low, high = kept.start, kept.start + kept.times * kept.width
    ways = [(a + b) / 2.0 for a, b in white_ways(laid, low - 1.0, high + 1.0) if a > low]
    middle = (low + high) / 2.0
    inside = [x for x in ways if low < x < high]
    return min(inside, key=lambda x: (round(abs(x - middle), 3), x)) if inside else None


def white_ways(laid: LaidFabric, low: float, high: float) -> list[tuple[float, float]]:
    """Where straight lines up through all rows meet no stitch whose head lies from `low` to `high`: from x to x."""
    rows = [laid.foundation, *_distinct(laid)]
    spans = sorted({inked(s) for row in rows for s in row.spots if low <= s.head[0] <= high})
    ways: list[tuple[float, float]] = []
    reached = spans[0][0] if spans else low
    for left, right in spans:
        if left - reached >= LEAST_WAY:
            ways.append((reached, left))
        reached = max(reached, right)
    return ways


def inked(spot: Spot) -> tuple[float, float]:
    """From where to where a thing is inked across: its chains, feet and stem, its head where one is drawn, and the ring
    of a picot."""
    if spot.role == "picot":
        middle, half = (spot.feet[0][0] + spot.head[0]) / 2.0, picot_radius(spot.chains) + HALF_PICOT
        return round(middle - half, 3), round(middle + half, 3)
    reach = [(x, HALF_CHAIN) for x, _, _ in spot.ovals]
    reach += [(x, HALF_FOOT) for x, _ in (*spot.feet, *spot.route)]
    if not spot.ovals:
        drawn = spot.role in ("stitch", "turning", "travel", "foundation")
        reach.append((spot.head[0], _half_width(spot) if drawn else HALF_CHAIN))
    return round(min(x - half for x, half in reach), 3), round(max(x + half for x, half in reach), 3)


def _half_width(spot: Spot) -> float:
    return HALF_CHAIN if spot.kind == "ch" else width_of(spot.kind, spot.legs, spot.base) / 2.0


def _beside(kept: Period, at: float) -> Period:
    """What is kept, begun anew so that a repeat in its middle lies beside the open cut, where there is most room."""
    right = kept.start + kept.times * kept.width - at >= at - kept.start
    first = at + OPEN if right else at - kept.width
    return replace(kept, start=first - (kept.times // 2) * kept.width)


def without_strip(laid: LaidFabric, at: float, removed: float, opened: float = 0.0) -> LaidFabric:
    """The fabric without what stands in [at, at + removed); what lies right of it moves left, as far as the cut is
    not left open.
    """
    cut: dict[int, Laid] = {}
    for course in laid.courses:
        if id(course.laid) not in cut:
            cut[id(course.laid)] = Laid(_cut_spots(course.laid.spots, at, removed, opened), course.laid.rise)
    courses = tuple(replace(c, laid=cut[id(c.laid)]) for c in laid.courses)
    foundation = Laid(_cut_spots(laid.foundation.spots, at, removed, opened), 0.0)
    return LaidFabric(foundation, courses, laid.spacing)


def _cut_spots(spots: Sequence[Spot], at: float, removed: float, opened: float) -> tuple[Spot, ...]:
    kept = []
    for spot in spots:
        x = spot.head[0]
        if x < at:
            kept.append(spot)
        elif x >= at + removed:
            kept.append(spot.moved(opened - removed, 0.0))
    return tuple(kept)
