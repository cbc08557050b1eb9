"""What of the laid rows is seen: the stretch that is drawn, and what a stem worked in front of others hides of them."""

from __future__ import annotations

import itertools
import math
from collections import defaultdict
from collections.abc import Mapping, Sequence

from hookfold.symbols import Point

from ...made_late import dataclass, replace
from ...model.cloth.fabric import Fabric, Row
from ...setting import Setting
from ..placing.behind import is_covered
from ..placing.laid import Course, LaidFabric, mirrored
from ..placing.placed import Laid, Spot, Stem
from ..points.spurs import lay_flat
from ..posts.rows import clasped_fabric
from ..sheets.chart_setting import listed
from .condense import Cut, Fold, Period, cut_columns, find_period, fold_rows, row_repeats, white_ways

#: A bracket's ends are moved aside by such steps, so many at most; stitches so far from an end may reach it.
ASIDE_BY, MOST_ASIDE, ABOUT = 0.05, 12, 4.0
#: How much a repeat may differ in its width from the picture's; less than a cut is left open.
ALIKE = 0.4
#: A bracket says row by row how often a repeat is worked in so many parts and letters, else the least and the most.
MOST_PARTS, MOST_WORDS = 3, 110


@dataclass(frozen=True, slots=True)
class RowBracket:
    """Rows that repeat: the first and last shown row (0-based), and what is said of them."""

    first: int
    last: int
    says: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class StitchBracket:
    """The stitches that repeat: from x to x, and what is said of them."""

    left: float
    right: float
    says: str


@dataclass(frozen=True, slots=True, eq=False)
class View:
    """A laid fabric as it will be drawn, with what is bracketed; `condensed` says whether anything was left
    out; `chains` is how many the foundation is begun with; `cut_after` as in what is folded; `every` are all rows, also
    those left out, with their numbers.
    """

    laid: LaidFabric
    row_brackets: tuple[RowBracket, ...]
    stitch_bracket: StitchBracket | None
    condensed: bool
    chains: int = 0
    cut_after: int = 0
    every: tuple[tuple[Row, int], ...] = ()


def view_of(fabric: Fabric, setting: Setting, stitch_repeat: int | None = None) -> View:
    """The chart's view: folded and cut for extent "repeat", whole for "full"; mirrored for the left hand."""
    short = setting.extent == "repeat"
    return _view_of(fabric, setting, stitch_repeat, short=short, narrow=short)


def folded_view_of(fabric: Fabric, setting: Setting, stitch_repeat: int | None = None) -> View:
    """The chart's view with repeated rows once, each over its whole width."""
    return _view_of(fabric, setting, stitch_repeat, short=True, narrow=False)


def whole_view_of(fabric: Fabric, setting: Setting, stitch_repeat: int | None = None) -> View:
    """The chart's view with nothing left out."""
    return _view_of(fabric, setting, stitch_repeat, short=False, narrow=False)


def _view_of(fabric: Fabric, setting: Setting, stitch_repeat: int | None, *, short: bool, narrow: bool) -> View:
    folded = fold_rows(fabric)
    shown = folded.fabric if short else fabric
    folds = folded.folds if short else row_repeats(fabric)
    laid = lay_flat(shown)
    cut = cut_columns(laid, stitch_repeat) if narrow else Cut(laid, 0.0, 0.0, find_period(laid, stitch_repeat))
    laid = replace(cut.laid, courses=covered(cut.laid.courses))
    brackets = tuple(_row_bracket(fold, shown, short) for fold in folds)
    stitches = _stitch_bracket(cut, stitch_repeat)
    chains = fabric.chains if fabric.start == "chain" else 0
    cut_after = folded.cut_after if short else 0
    every = tuple(folded.every())
    view = View(laid, brackets, stitches, bool(cut.removed) or (short and bool(folds)), chains, cut_after, every)
    view = _for_left_hand(view) if setting.hand == "left" else view
    return replace(view, laid=clasped_fabric(view.laid))


def _for_left_hand(view: View) -> View:
    bracket = view.stitch_bracket
    turned = replace(bracket, left=-bracket.right, right=-bracket.left) if bracket else None
    return replace(view, laid=mirrored(view.laid), stitch_bracket=turned)


def _row_bracket(fold: Fold, shown: Fabric, folded: bool) -> RowBracket:
    """What is said of repeated rows: how often they are worked where they are left out, and where all are drawn
    which rows are like them.
    """
    last = fold.first + fold.rows - 1
    which = _rows_named(shown, fold.first, last)
    if folded:
        return RowBracket(fold.first, last, (f"{which},", f"{fold.times} times in all"))
    after = _rows_named(shown, last + 1, last + fold.rows * (fold.times - 1))
    return RowBracket(fold.first, last, (which, f"again as {after}"))


def _rows_named(shown: Fabric, first: int, last: int) -> str:
    """Rows by their numbers, given as places (0-based).

    "rows 4–7"
    """
    a, b = shown.rows[first].number, shown.rows[last].number
    word = shown.rows[first].called
    return f"{word} {a}" if a == b else f"{word}s {a}–{b}"


def _stitch_bracket(cut: Cut, stitch_repeat: int | None) -> StitchBracket | None:
    """One repeat as the pattern's own rows begin it, where the picture shows it whole, with how often each row works
    it; one of the picture where no row does."""
    if cut.period is None or (cut.period.stitches == 1 and not stitch_repeat):
        return None
    period, out = cut.period, round(cut.removed / cut.period.width)
    spans = {course.index: _pattern_spans(course, period) for course in cut.laid.courses}
    says = _says_repeat(period, {c: s for c in cut.laid.courses if (s := _times(c, period, spans[c.index]))}, out)
    for of_row in spans.values():
        if of_row:
            middle = period.start + period.times * period.width / 2.0
            span = min(of_row, key=lambda s: (round(abs((s[0] + s[1]) / 2.0 - middle), 3), s))
            return StitchBracket(*_in_white(cut.laid, span), says)
    start = period.start + (period.times // 2) * period.width
    return StitchBracket(*_in_white(cut.laid, (start, start + period.width)), says)


def _in_white(laid: LaidFabric, span: tuple[float, float]) -> tuple[float, float]:
    """A repeat moved aside, no farther than half a stitch, so that no line up from its ends meets a stitch: of such
    places the nearest to the middle of the white. Where there is none, it stays."""
    left, right = span
    ways = [white_ways(laid, x - ABOUT, x + ABOUT) for x in span]
    best, least = 0.0, math.inf
    for k in range(-MOST_ASIDE, MOST_ASIDE + 1):
        aside = k * ASIDE_BY
        white = [_white_at(x + aside, each) for x, each in zip(span, ways, strict=True)]
        if min(white) > 0.0 and (cost := abs(aside) - 2.0 * min(white)) < least - 1e-9:
            best, least = aside, cost
    return left + best, right + best


def _white_at(x: float, ways: Sequence[tuple[float, float]]) -> float:
    """How far a line is from the ink on both sides of it; 0 where it meets some."""
    return max((min(x - a, b - x) for a, b in ways if a < x < b), default=0.0)


def _says_repeat(period: Period, times: Mapping[Course, int], out: int) -> str:
    """The repeat's stitches, how often the rows work it, row by row where they differ, and how many of these are
    drawn where `out` of them are left out; else that all are."""
    says = f"repeat of {period.stitches} st{'' if period.stitches == 1 else 's'}"
    says = f"{says}:" if out else f"one {says}, drawn"
    if not times:
        return f"{says[:-1]}, {out} more of them left out" if out else f"{says} {period.times} times"
    word = next(iter(times)).worked.called
    told = {count: [c.worked.number for c in times if times[c] == count] for count in sorted({*times.values()})}
    parts = []
    for count, numbers in sorted(told.items(), key=lambda found: found[1]):
        often = f"{count} times ({count - out} drawn)" if out else f"{count} times"
        rows = f" in {word}{'s' if len(numbers) > 1 else ''} {listed(numbers)}" if any(numbers) else ""
        parts.append(often + (rows if len(told) > 1 else ""))
    if len(parts) > MOST_PARTS or sum(map(len, parts)) > MOST_WORDS:
        low, high = min(told), max(told)
        left = f", {out} of them left out" if out else ""
        return f"{says} {low} to {high} times, {word} by {word}{left}"
    return f"{says} {'; '.join(parts)}"


def _times(course: Course, period: Period, spans: Sequence[tuple[float, float]]) -> int:
    """How often a row works a repeat that is as wide as the picture's; 0 where its own is another."""
    repeat = course.worked.row.repeat
    return repeat[2] if repeat and (spans or _comes_again(course, period)) else 0


def _comes_again(course: Course, period: Period) -> bool:
    """Whether a stitch of a row's main repeat stands again as far on as the period is wide: beside a cut no repetition
    need be drawn to its end."""
    first, items, times = course.worked.row.repeat or (0, 0, 0)
    heads = {spot.item: spot.head[0] for spot in course.laid.spots}
    here = [item for item in range(first, first + items * (times - 1)) if item in heads and item + items in heads]
    return any(abs(abs(heads[item + items] - heads[item]) - period.width) < ALIKE for item in here)


def _pattern_spans(course: Course, period: Period) -> list[tuple[float, float]]:
    """The repetitions of the row's main repeat that are as wide as the period."""
    if course.worked.row.repeat is None:
        return []
    first, items, times = course.worked.row.repeat
    spots = {spot.item: spot for spot in course.laid.spots}
    edges = [_edge(spots, first + k * items, course.sign) for k in range(times + 1)]
    return [
        (min(a, b), max(a, b))
        for a, b in itertools.pairwise(edges)
        if a is not None and b is not None and abs(abs(b - a) - period.width) < ALIKE
    ]


def _edge(spots: Mapping[int, Spot], item: int, sign: float) -> float | None:
    """The x between an item and the one before it, in a row that runs along `sign`: behind what that one goes into, as
    what is skipped for the next is the next one's."""
    here, before = spots.get(item), spots.get(item - 1)
    if before is not None and before.role == "stitch" and before.feet:
        return sign * max(sign * x for x, _ in before.feet) + sign * 0.5
    if here is None:
        return before.head[0] + sign * 0.5 if before else None
    if before is None or before.role == "start" or before.role == "chain":
        return _front(here, sign) - sign * 0.5
    if here.role == "chain":
        return before.head[0] + sign * 0.5
    return (here.head[0] + before.head[0]) / 2.0


def _front(spot: Spot, sign: float) -> float:
    """The x at which a stitch begins in the direction of its row: of its head and feet the first."""
    return sign * min(sign * x for x, _ in (spot.head, *spot.feet))


def covered(courses: Sequence[Course]) -> tuple[Course, ...]:
    """The rows with what later rows hide; rows in which the same is hidden stay one shared object."""
    hidden: dict[int, dict[int, list[Stem]]] = defaultdict(lambda: defaultdict(list))
    for course in courses:
        for spot in course.laid.spots:
            if is_spike(spot):
                _hide(course, spot, courses, hidden)
    made: dict[_Hidden, Laid] = {}
    return tuple(_with(c, hidden[c.index], made) if c.index in hidden else c for c in courses)


#: A row and the stems in front of each of its items.
_Hidden = tuple[int, tuple[tuple[int, tuple[Stem, ...]], ...]]


def _round(point: Point) -> Point:
    return (round(point[0], 3), round(point[1], 3))


def is_spike(spot: Spot) -> bool:
    """Whether a stitch reaches down past the row below on a straight stem in front of it."""
    return spot.own_height > 0.0 and len(spot.feet) == 1 and not spot.is_posted and not spot.route


def _hide(
    course: Course, spot: Spot, courses: Sequence[Course], hidden: dict[int, dict[int, list[Stem]]]
) -> None:
    """Note what the stem of a spike hides in the rows between it and what it goes into."""
    for under in reversed(courses[: course.index]):
        down = course.y - under.y
        stem = (_round(spot.moved(0.0, down).head), _round(spot.moved(0.0, down).feet[0]))
        if stem[1][1] < -under.laid.rise + 0.2:
            return
        for item in [s.item for s in under.laid.spots if is_covered(s, stem)]:
            hidden[under.index][item].append(stem)


def _with(course: Course, stems: dict[int, list[Stem]], made: dict[_Hidden, Laid]) -> Course:
    key = (id(course.laid), tuple(sorted((item, tuple(each)) for item, each in stems.items())))
    if key not in made:
        spots = tuple(replace(s, under=tuple(stems.get(s.item, ()))) for s in course.laid.spots)
        made[key] = replace(course.laid, spots=spots)
    return replace(course, laid=made[key])
