"""A chart as a small picture inside a page: its rows and, of a wide piece, the beginning of them."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator

from ...layout.chart.condense import fold_rows
from ...made_late import replace
from ...model.cloth.fabric import Fabric
from .chart import PageChart, page_chart
from .looks import unpacked
from .page import tag

#: The most that is shown of rows in level, in units: wide and high.
WIDEST, HIGHEST = 2600, 2200
#: The rows that are laid of a long piece.
MOST_ROWS = 40
_PARTS = re.compile(r"[a-z]|-?\d+")


def thumbnail(fabric: Fabric, says: str) -> str:
    """The chart as an SVG element; `says` is what a reader is told who does not see it. "" where there are no rows."""
    if not fabric.rows:
        return ""
    folded = fold_rows(fabric).fabric
    chart = page_chart(replace(folded, rows=folded.rows[:MOST_ROWS]))
    groups = list(_rows(chart, folded))
    left, top, right, bottom = _box(chart)
    drawn = "".join(
        tag("path", "", d=path, class_=name)
        for strokes, fills, side in groups
        for path, name in ((strokes, side), (fills, f"{side} solid"))
        if path
    )
    view = f"{left:.0f} {top:.0f} {right - left:.0f} {bottom - top:.0f}"
    return tag("svg", drawn, viewBox=view, role="img", aria_label=says)


def _tops(chart: PageChart) -> list[int]:
    """The level that each row stands on, upward negative."""
    tops = [0]
    for rise in chart.rises:
        tops.append(tops[-1] - rise)
    return tops


def _box(chart: PageChart) -> tuple[float, float, float, float]:
    tops = _tops(chart)
    looks = [(chart.ground[0], 0), *([(chart.again[0], 0)] if chart.again else [])]
    looks += [(look[0], top) for look, top in zip(chart.row_looks, tops, strict=False)]
    spots = [(x, y + top) for look, top in looks for x, y, _, _ in places(chart, look)]
    left, right = min(x for x, _ in spots) - 70, max(x for x, _ in spots) + 70
    top, bottom = min(y for _, y in spots) - 70, max(y for _, y in spots) + 80
    if chart.shape != "rows":
        return left, top, right, bottom
    return max(left, right - WIDEST), max(top, bottom - HIGHEST), right, bottom


def _rows(chart: PageChart, fabric: Fabric) -> Iterator[tuple[str, str, str]]:
    """The foundation and every row as strokes, fills and the class of its side."""
    left, top, _, _ = _box(chart)
    yield (*_paths(chart, chart.ground[0], 0, left), "rs")
    if chart.again:
        yield (*_paths(chart, chart.again[0], 0, left), "again")
    for look, level, row in zip(chart.row_looks, _tops(chart), fabric.rows, strict=False):
        if chart.shape == "rows" and level < top:
            return
        yield (*_paths(chart, look[0], level, left), "ws" if row.side == "WS" else "rs")


def places(chart: PageChart, look: int) -> Iterator[tuple[float, float, int, float]]:
    """The glyphs of a row as the steps lead to them: x, y, glyph, angle in tenths of a degree."""
    x = y = turn = 0.0
    for at in unpacked(chart.looks.rows[look]):
        glyph, forward, aside, by = chart.looks.steps[at]
        cos, sin = math.cos(math.radians(turn / 10)), math.sin(math.radians(turn / 10))
        x, y, turn = x + forward * cos - aside * sin, y + forward * sin + aside * cos, turn + by
        yield x, y, glyph, turn


def _paths(chart: PageChart, look: int, level: float, left: float) -> tuple[str, str]:
    out = ["", ""]
    for x, y, glyph, turn in places(chart, look):
        if x < left:
            continue
        for which, path in enumerate(chart.looks.glyphs[glyph][:2]):
            if path:
                out[which] += f"M{x:.0f} {y + level:.0f}{turned(path, turn)}"
    return out[0], out[1]


def turned(path: str, tenths: float) -> str:
    """Relative path data turned by an angle in tenths of a degree.

    >>> turned("m0-10l20 0", 900)
    'm10 0l0 20'
    """
    if not tenths:
        return path
    cos, sin = math.cos(math.radians(tenths / 10)), math.sin(math.radians(tenths / 10))
    out: list[str] = []
    numbers: list[float] = []
    for part in _PARTS.findall(path):
        if part.isalpha():
            out.append(part)
            continue
        numbers.append(float(part))
        if len(numbers) == 2:
            x, y = numbers
            space = " " if out and not out[-1].isalpha() else ""
            out.append(f"{space}{round(x * cos - y * sin)} {round(x * sin + y * cos)}")
            numbers.clear()
    return "".join(out)
