"""What of the laid rows is seen: the stretch that is drawn, and what a stem worked in front of others hides of them."""

from __future__ import annotations

import itertools
from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from hookfold.symbols import Point

from ...model.cloth.fabric import Fabric
from ...setting import Setting
from ..placing.behind import is_covered
from ..placing.laid import Course, LaidFabric, lay_fabric, mirrored
from ..placing.placed import Laid, Spot, Stem
from .condense import Cut, Fold, Period, cut_columns, find_period, fold_rows, row_repeats


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
    out; `chains` is how many the foundation is begun with.
    """

    laid: LaidFabric
    row_brackets: tuple[RowBracket, ...]
    stitch_bracket: StitchBracket | None
    condensed: bool
    chains: int = 0


def view_of(fabric: Fabric, setting: Setting, stitch_repeat: int | None = None) -> View:
    """The chart's view: folded and cut for extent "repeat", whole for "full"; mirrored for the left hand."""
    short = setting.extent == "repeat"
    folded = fold_rows(fabric)
    shown = folded.fabric if short else fabric
    folds = folded.folds if short else row_repeats(fabric)
    laid = lay_fabric(shown)
    cut = cut_columns(laid, stitch_repeat) if short else Cut(laid, 0.0, 0.0, find_period(laid, stitch_repeat))
    laid = replace(cut.laid, courses=covered(cut.laid.courses))
    brackets = tuple(_row_bracket(fold, shown, short) for fold in folds)
    stitches = _stitch_bracket(cut, stitch_repeat)
    chains = fabric.chains if fabric.start == "chain" else 0
    view = View(laid, brackets, stitches, bool(cut.removed) or (short and bool(folds)), chains)
    return _for_left_hand(view) if setting.hand == "left" else view


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
    return f"row {a}" if a == b else f"rows {a}–{b}"


def _stitch_bracket(cut: Cut, stitch_repeat: int | None) -> StitchBracket | None:
    """One repeat as the pattern's own rows begin it, where the picture shows it whole."""
    if cut.period is None or (cut.period.stitches == 1 and not stitch_repeat):
        return None
    says = _says_repeat(cut.period, cut.removed)
    for course in cut.laid.courses:
        span = _pattern_span(course, cut.period)
        if span:
            return StitchBracket(*span, says)
    middle = cut.period.start + (cut.period.times // 2) * cut.period.width
    return StitchBracket(middle, middle + cut.period.width, says)


def _says_repeat(period: Period, removed: float) -> str:
    """The repeat's stitches and, where some of it is left out, how often it is worked in all."""
    says = f"repeat of {period.stitches} st{'' if period.stitches == 1 else 's'}"
    times = round(period.times + removed / period.width)
    return f"{says}, {times} times in all" if removed else says


def _pattern_span(course: Course, period: Period) -> tuple[float, float] | None:
    """A repetition of the row's main repeat that is as wide as the period, nearest the middle of the
    strip.
    """
    if course.worked.row.repeat is None:
        return None
    first, items, times = course.worked.row.repeat
    spots = {spot.item: spot for spot in course.laid.spots}
    edges = [_edge(spots, first + k * items, course.sign) for k in range(times + 1)]
    spans = [
        (min(a, b), max(a, b))
        for a, b in itertools.pairwise(edges)
        if a is not None and b is not None and abs(abs(b - a) - period.width) < 0.4
    ]
    middle = period.start + period.times * period.width / 2.0
    return min(spans, key=lambda s: (round(abs((s[0] + s[1]) / 2.0 - middle), 3), s)) if spans else None


def _edge(spots: Mapping[int, Spot], item: int, sign: float) -> float | None:
    """The x between an item and the one before it, in a row that runs along `sign`."""
    here, before = spots.get(item), spots.get(item - 1)
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
