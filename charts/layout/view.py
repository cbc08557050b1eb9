"""What a flat chart shows: the fabric, condensed or whole, for the reader's hand, with its brackets."""

from __future__ import annotations

import itertools
from collections.abc import Mapping
from dataclasses import dataclass, replace

from ..model.grid import Fabric
from .condense import Cut, Fold, Period, cut_columns, find_period, fold_rows, row_repeats
from .fabric import Course, LaidFabric, lay_fabric, mirrored
from .sheet import Setting
from .spot import Spot


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
    out.
    """

    laid: LaidFabric
    row_brackets: tuple[RowBracket, ...]
    stitch_bracket: StitchBracket | None
    condensed: bool


def view_of(fabric: Fabric, setting: Setting, stitch_repeat: int | None = None) -> View:
    """The chart's view: folded and cut for extent "repeat", whole for "full"; mirrored for the left hand."""
    short = setting.extent == "repeat"
    folded = fold_rows(fabric)
    shown = folded.fabric if short else fabric
    folds = folded.folds if short else row_repeats(fabric)
    laid = lay_fabric(shown)
    cut = cut_columns(laid, stitch_repeat) if short else Cut(laid, 0.0, 0.0, find_period(laid, stitch_repeat))
    brackets = tuple(_row_bracket(fold, shown) for fold in folds)
    stitches = _stitch_bracket(cut, stitch_repeat)
    view = View(cut.laid, brackets, stitches, bool(cut.removed) or (short and bool(folds)))
    return _for_left_hand(view) if setting.hand == "left" else view


def _for_left_hand(view: View) -> View:
    bracket = view.stitch_bracket
    turned = replace(bracket, left=-bracket.right, right=-bracket.left) if bracket else None
    return replace(view, laid=mirrored(view.laid), stitch_bracket=turned)


def _row_bracket(fold: Fold, shown: Fabric) -> RowBracket:
    first, last = shown.rows[fold.first], shown.rows[fold.first + fold.rows - 1]
    if fold.rows == 1:
        return RowBracket(fold.first, fold.first, (f"row {first.number},", f"{fold.times} times"))
    says = (f"rows {first.number}–{last.number},", f"{fold.times} times")
    return RowBracket(fold.first, fold.first + fold.rows - 1, says)


def _stitch_bracket(cut: Cut, stitch_repeat: int | None) -> StitchBracket | None:
    """One repeat as the pattern's own rows begin it, where the picture shows it whole."""
    if cut.period is None or (cut.period.stitches == 1 and not stitch_repeat):
        return None
    says = f"repeat of {cut.period.stitches} st{'' if cut.period.stitches == 1 else 's'}"
    for course in cut.laid.courses:
        span = _pattern_span(course, cut.period)
        if span:
            return StitchBracket(*span, says)
    middle = cut.period.start + (cut.period.times // 2) * cut.period.width
    return StitchBracket(middle, middle + cut.period.width, says)


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
        return here.head[0] - sign * 0.5
    if here.role == "chain":
        return before.head[0] + sign * 0.5
    return (here.head[0] + before.head[0]) / 2.0
