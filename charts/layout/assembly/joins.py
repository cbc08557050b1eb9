"""The joins: which edges meet, the doubled cloth hatched, marker places, and the edges row end for row
end.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from ...drawing.display import Group, Text
from ...drawing.letters import cap_height, text_width
from ...drawing.style import Style
from ...folding.edges import EdgeRun
from ...folding.facets import Point
from ...folding.finishing import join_letter
from ...folding.folds import Folding
from ...folding.joins import Join, groups_met, joins_of
from ...folding.views import by_parts, cut_across
from ..sheets.marks import Item, View, box_ink, disc, stroke
from ..sheets.panel import Picture, scale_for, scale_words
from .cloth import cloth, hatching
from .folds import coming_folds, layers_level, layers_upright, part_labels

_MARGIN = 9.0
_CELL_W, _CELL_H = 6.6, 4.6
_SHOWN, _WHOLE = 5, 14


def joins_picture(folding: Folding, style: Style, wide: float, tall: float) -> Picture:
    """The folded piece from the inside with its joins lettered; under it each join number for number."""
    joins = joins_of(folding)
    stack = folding.joined_stack
    left, top, right, bottom = stack.silhouette.bounds
    level = _cut_along(folding) == "x"
    layers = 3.4 * (max(stack.layers) + 1) + 8.0
    ladders = _ladder_rows(joins, wide)
    below = sum(max(map(_ladder_height, row)) for row in ladders) + 4.0
    room = (
        wide - 2 * _MARGIN - (0 if level else layers + 6),
        max(min(58.0, 0.58 * tall), tall - 2 * _MARGIN - below - (layers if level else 0)),
    )
    divisor = scale_for(right - left, bottom - top, *room)
    size = ((right - left) / divisor, (bottom - top) / divisor)
    width = size[0] + 2 * _MARGIN + (0 if level else layers + 6)
    plan_h = size[1] + 2 * _MARGIN + (layers if level else 0)
    full = max(width, max((_row_width(r) for r in ladders), default=0.0))

    def draw(x: float, y: float) -> tuple[Item, ...]:
        px = x + (full - width) / 2
        view = View(1 / divisor, px + _MARGIN - left / divisor, y + _MARGIN - top / divisor)
        items: list[Item] = [*_plan(folding, joins, view, style)]
        cuts = cut_across(stack, "x" if level else "y")
        if level:
            items += layers_level(cuts, view, y + plan_h - 3.0, style)
        else:
            items += layers_upright(cuts, view, px + _MARGIN + size[0] + 12.0, style)
        at = y + plan_h + 4.0
        for row in ladders:
            lx = x + (full - _row_width(row)) / 2
            for join in row:
                items.append(_ladder(join, join_letter(joins.index(join)), lx, at, style))
                lx += _ladder_width(join) + 10.0
            at += max(_ladder_height(j) for j in row)
        return tuple(items)

    return Picture(full, plan_h + below, draw, scale_words(divisor))


def _cut_along(folding: Folding) -> str:
    """Which way a cut crosses the first crease."""
    (x0, y0), (x1, y1) = folding.stages[0].crease
    return "x" if abs(x0 - x1) < abs(y0 - y1) else "y"


def _plan(folding: Folding, joins: Sequence[Join], view: View, style: Style) -> list[Item]:
    stack = folding.joined_stack
    items: list[Item] = [cloth(stack, folding.piece, view, style), *hatching(stack, view, style)]
    items += coming_folds(folding, view, style)
    items += part_labels(by_parts(stack, folding.piece), view, style)
    for k, join in enumerate(joins):
        for start, end in join.at:
            items += _lettered(folding, start, end, join_letter(k), view, style)
    return [*items, *(marker(p, style) for p in _marked(folding, joins, view))]


def _marked(folding: Folding, joins: Sequence[Join], view: View) -> list[Point]:
    """Where markers go: both ends of every stretch, those that lie together once."""
    places: list[Point] = []
    for p in (view.at(_inside(folding, p)) for j in joins for ends in j.at for p in ends):
        if all(math.dist(p, q) > 2.4 for q in places):
            places.append(p)
    return places


def _lettered(
    folding: Folding, start: Point, end: Point, letter: str, view: View, style: Style
) -> list[Item]:
    """A doubled stretch of the edge: a bracket beside it, its letter, and a marker at both ends."""
    a, b = (view.at(_inside(folding, p)) for p in (start, end))
    out = _outward(folding, a, b, view)
    line = [(p[0] + out[0] * 2.6, p[1] + out[1] * 2.6) for p in (a, b)]
    feet = [(p[0] + out[0] * 1.4, p[1] + out[1] * 1.4) for p in (a, b)]
    middle = ((line[0][0] + line[1][0]) / 2 + out[0] * 3.0, (line[0][1] + line[1][1]) / 2 + out[1] * 3.0)
    items: list[Item] = [stroke([[feet[0], line[0], line[1], feet[1]]], style.rule_mm, style.accent)]
    items += [disc(middle, 2.3, fill_colour=style.paper, colour=style.accent, width=0.3)]
    items.append(
        Text(middle[0], middle[1] + cap_height(style.body_mm) / 2, letter, style.body_mm, "middle", "bold")
    )
    return items


def _inside(folding: Folding, p: Point) -> Point:
    """A place of the outline seen from outside, as it lies seen from the inside."""
    if folding.lies_outside_up:
        return p
    left, _, right, _ = folding.joined_stack.silhouette.bounds
    return (left + right - p[0], p[1])


def _outward(folding: Folding, a: Point, b: Point, view: View) -> Point:
    """Which way is out from an edge."""
    left, top, right, bottom = folding.joined_stack.silhouette.bounds
    cx, cy = view.at(((left + right) / 2, (top + bottom) / 2))
    if abs(a[0] - b[0]) < abs(a[1] - b[1]):
        return (1.0, 0.0) if a[0] > cx else (-1.0, 0.0)
    return (0.0, 1.0) if a[1] > cy else (0.0, -1.0)


def marker(at: Point, style: Style) -> Group:
    """A stitch marker: a small ring, open to the ground."""
    return Group("stitch marker", (disc(at, 0.95, fill_colour=style.paper, colour=style.dark, width=0.35),))


def _ladder_rows(joins: Sequence[Join], wide: float) -> list[list[Join]]:
    """The ladders side by side as long as they fit."""
    rows: list[list[Join]] = []
    for join in joins:
        if rows and _row_width([*rows[-1], join]) <= wide:
            rows[-1].append(join)
        else:
            rows.append([join])
    return rows


def _row_width(row: Sequence[Join]) -> float:
    return sum(_ladder_width(j) for j in row) + 10.0 * (len(row) - 1)


def _whole(join: Join) -> bool:
    """Whether every number is shown, or only the first and the last few."""
    return max(r.count for r in join.runs) <= _WHOLE


def _numbers(join: Join, run: EdgeRun) -> list[int | None]:
    """The run's numbers as they are met; where they are many, the first and the last few with a gap (None)."""
    step = 1 if run.last >= run.first else -1
    every: list[int | None] = list(range(run.first, run.last + step, step))
    return every if _whole(join) or len(every) <= 2 * _SHOWN else [*every[:_SHOWN], None, *every[-_SHOWN:]]


def _cells(join: Join) -> float:
    """The breadth of a ladder's strips."""
    return max(len(_numbers(join, r)) for r in join.runs) * _CELL_W


def _ladder_width(join: Join) -> float:
    cells = _cells(join)
    names = [text_width(_strip_name(r), 2.7) for r in join.runs]
    between = [cells + 1.4 + w for w in names[1:-1]]
    return max(cells, names[0], names[-1], *between, 0.0) + 9.0


def _ladder_height(join: Join) -> float:
    return len(join.runs) * _CELL_H + (len(join.runs) - 1) * 4.0 + 10.5


def _strip_name(run: EdgeRun) -> str:
    what = {"row ends": "row ends", "chains": "foundation", "stitches": "stitches"}.get(
        run.counts, run.counts
    )
    return f"{run.part}, {what}"


def _ladder(join: Join, letter: str, x: float, y: float, style: Style) -> Group:
    """The runs of a join one above the other, number over number, lines between what meets."""
    left, wide = x + 9.0, _cells(join)
    centre = (x + 3.0, y + _ladder_height(join) / 2 - 1.0)
    items: list[Item] = [
        disc(centre, 2.3, fill_colour=style.paper, colour=style.accent, width=0.3),
        Text(centre[0], centre[1] + cap_height(style.body_mm) / 2, letter, style.body_mm, "middle", "bold"),
    ]
    runs = tuple(reversed(join.runs))
    tops = [y + k * (_CELL_H + 4.0) + style.small_mm + 0.6 for k in range(len(runs))]
    for k, run in enumerate(runs):
        items += _strip(_numbers(join, run), left, wide, tops[k], style)
        items.append(_strip_label(run, k, len(runs), left, wide, tops[k], style))
    lines = [
        ((left + at, above + _CELL_H), (left + to, below))
        for (above, one), (below, other) in pairwise(zip(tops, runs, strict=True))
        for at, to in _meetings(join, one, other)
    ]
    items.append(stroke(lines, style.rule_mm, style.accent, name="what meets"))
    return Group(f"join {letter}", tuple(items))


def _meetings(join: Join, one: EdgeRun, other: EdgeRun) -> list[tuple[float, float]]:
    """Where lines between two strips begin and end: at every number of the longer run, and in the cell of the number
    that it meets; only at the ends where some numbers are left out and the counts differ.
    """
    every = _levels(join, one, other)
    if len(join.runs) > 2 or one.count == other.count or not _whole(join):
        return [(at, at) for at in every]
    cell = _cells(join) / min(one.count, other.count)
    met = [key for key, numbers in groups_met(join) for _ in numbers]
    cells = {number: k for k, number in enumerate(dict.fromkeys(met))}
    found = []
    for at, number in zip(every, met, strict=True):
        low = cells[number] * cell + 0.8
        to = min(max(at, low), low + cell - 1.6)
        found.append((at, to) if one.count > other.count else (to, at))
    return found


def _levels(join: Join, one: EdgeRun, other: EdgeRun) -> list[float]:
    """The middles of the cells of the longer run that a line stands at."""
    longer = _numbers(join, one if one.count >= other.count else other)
    cell = _cells(join) / len(longer)
    if one.count != other.count and not _whole(join):
        return [cell / 2, _cells(join) - cell / 2]
    return [(k + 0.5) * cell for k, n in enumerate(longer) if n is not None]


def _strip_label(run: EdgeRun, k: int, of: int, left: float, wide: float, top: float, style: Style) -> Text:
    """The run's name: over the first strip, under the last, beside one between."""
    if k == 0:
        return Text(left, top - 1.0, _strip_name(run), style.small_mm)
    if k == of - 1:
        return Text(left, top + _CELL_H + style.small_mm + 0.4, _strip_name(run), style.small_mm)
    y = top + _CELL_H / 2 + cap_height(style.small_mm) / 2
    return Text(left + wide + 1.4, y, _strip_name(run), style.small_mm)


def _strip(numbers: Sequence[int | None], left: float, wide: float, top: float, style: Style) -> list[Item]:
    """One run as cells with its numbers, as they are met along the edge, over the whole breadth."""
    items: list[Item] = []
    cell = wide / len(numbers)
    for k, number in enumerate(numbers):
        x = left + k * cell
        if number is None:
            items.append(Text(x + cell / 2, top + _CELL_H / 2 + 0.6, "…", style.body_mm, "middle"))
            continue
        a, b, c, d = x + 0.2, top, x + cell - 0.2, top + _CELL_H
        items.append(box_ink(a, b, c, d, style.tint))
        items.append(stroke([[(a, b), (c, b), (c, d), (a, d), (a, b)]], style.hair_mm, style.dark))
        y = top + _CELL_H / 2 + cap_height(style.small_mm) / 2
        items.append(Text(x + cell / 2, y, str(number), style.small_mm, "middle"))
    return items
