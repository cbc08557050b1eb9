"""The border on the outside of the joined piece: start, direction, the count along every stretch and
corner.
"""

from __future__ import annotations

import math

from ...drawing.display import Group, Text
from ...drawing.letters import cap_height, text_width
from ...drawing.style import Style
from ...folding.border import BorderPlan
from ...folding.facets import Point, Stack
from ...folding.folds import Folding
from ...folding.stretch import Stretch
from ...folding.views import by_parts
from ..sheets.marks import Item, View, disc, fill_head, stroke
from ..sheets.panel import Picture, scale_for, scale_words
from .cloth import cloth, hatching
from .flat import spread
from .folds import coming_folds, part_labels

_MARGIN = 17.0
_FOOT = 11.5
_BAND = 1.8


def border_stack(folding: Folding, border: BorderPlan) -> Stack:
    """What the border goes round: the joined piece, or the flat one where it joins nothing."""
    return folding.outside(folding.joined_stack if border.joins else folding.start)


def border_picture(folding: Folding, border: BorderPlan, style: Style, wide: float, tall: float) -> Picture:
    """The piece with the outside facing, the border as a band, brackets with counts outside it."""
    stack = border_stack(folding, border)
    left, top, right, bottom = stack.silhouette.bounds
    divisor = scale_for(right - left, bottom - top, wide - 2 * _MARGIN, tall - _MARGIN - _FOOT)
    size = ((right - left) / divisor, (bottom - top) / divisor)

    def draw(x: float, y: float) -> tuple[Item, ...]:
        view = View(1 / divisor, x + _MARGIN - left / divisor, y + _MARGIN - top / divisor)
        items: list[Item] = [cloth(stack, folding.piece, view, style)]
        items += hatching(stack, view, style) if border.joins else ()
        items += coming_folds(folding, view, style, outside=True) if border.joins else ()
        items += part_labels(by_parts(stack, folding.piece), view, style)
        items.append(_band(border, view, style))
        for stretch in border.stretches:
            items += _stretch(border, stretch, view, style)
        for side in range(max(s.side for s in border.stretches) + 1):
            items += _counts(border, side, view, style)
        items += _corners(border, view, style)
        items += _begin(border, view, style)
        return tuple(items)

    return Picture(size[0] + 2 * _MARGIN, size[1] + _MARGIN + _FOOT, draw, scale_words(divisor))


def _out(border: BorderPlan, a: Point, b: Point) -> Point:
    """The unit way out from an edge, going round."""
    length = math.dist(a, b) or 1.0
    ux, uy = (b[0] - a[0]) / length, (b[1] - a[1]) / length
    return (uy, -ux) if border.clockwise else (-uy, ux)


def _off(p: Point, way: Point, by: float) -> Point:
    return (p[0] + way[0] * by, p[1] + way[1] * by)


def _band(border: BorderPlan, view: View, style: Style) -> Item:
    """The border's outer edge, a band's breadth outside the piece, corners mitred."""
    sides = max(s.side for s in border.stretches) + 1
    ends = [(view.at(border.of_side(k)[0].start), view.at(border.of_side(k)[-1].end)) for k in range(sides)]
    outer: list[Point] = []
    for (a0, a1), (b0, b1) in zip(ends, ends[1:] + ends[:1], strict=True):
        wa, wb = _out(border, a0, a1), _out(border, b0, b1)
        by = _BAND / max(0.3, 1 + wa[0] * wb[0] + wa[1] * wb[1])
        outer.append((a1[0] + (wa[0] + wb[0]) * by, a1[1] + (wa[1] + wb[1]) * by))
    return stroke([[*outer, outer[0]]], style.outline_mm, style.dark, name="border")


def _stretch(border: BorderPlan, stretch: Stretch, view: View, style: Style) -> list[Item]:
    """A bracket outside the band with the stretch's count, and an arrowhead for the way."""
    a, b = view.at(stretch.start), view.at(stretch.end)
    way = _out(border, a, b)
    length = math.dist(a, b)
    ux, uy = (b[0] - a[0]) / length, (b[1] - a[1]) / length
    near, far = _insets(border, stretch, length)
    first, last = (a[0] + ux * near, a[1] + uy * near), (b[0] - ux * far, b[1] - uy * far)
    line = [_off(first, way, 3.0), _off(first, way, 4.0), _off(last, way, 4.0), _off(last, way, 3.0)]
    middle = ((first[0] + last[0]) / 2, (first[1] + last[1]) / 2)
    items: list[Item] = [stroke([line], style.rule_mm, style.dark)]
    tip = _off((middle[0] + ux * 1.0, middle[1] + uy * 1.0), way, _BAND / 2)
    items.append(fill_head(tip, math.atan2(uy, ux), style.dark, 1.7))
    return items


def _counts(border: BorderPlan, side: int, view: View, style: Style) -> list[Item]:
    """The counts along one side, each outside its bracket, moved apart where they would touch."""
    here = border.of_side(side)
    a, b = view.at(here[0].start), view.at(here[-1].end)
    length = math.dist(a, b) or 1.0
    u = ((b[0] - a[0]) / length, (b[1] - a[1]) / length)
    way = _out(border, a, b)
    wanted = []
    for s in here:
        near, far = _insets(border, s, math.dist(view.at(s.start), view.at(s.end)))
        wanted.append(math.dist(a, view.at(s.start)) / 2 + math.dist(a, view.at(s.end)) / 2 + (near - far) / 2)
    widest = max(text_width(str(s.count), style.body_mm, "bold") for s in here)
    gap = abs(u[0]) * (widest + 1.4) + abs(u[1]) * (cap_height(style.body_mm) + 1.4)
    return [
        _count(str(s.count), _off(a, u, at), way, style) for s, at in zip(here, spread(wanted, gap), strict=True)
    ]


def _insets(border: BorderPlan, stretch: Stretch, length: float) -> tuple[float, float]:
    """How far a bracket stays off the stretch's ends: more at an inner corner, where two brackets would
    cross.
    """
    inner = [c.at for c in border.corners if c.inner]
    clear = [
        7.6 if any(math.dist(p, c) < 0.01 for c in inner) else min(1.0, length / 6)
        for p in (stretch.start, stretch.end)
    ]
    if sum(clear) > length * 0.8:
        return length * 0.1, length * 0.1
    return clear[0], clear[1]


def _count(text: str, middle: Point, way: Point, style: Style) -> Text:
    """A count outside its bracket."""
    tall, half = cap_height(style.body_mm), text_width(text, style.body_mm, "bold") / 2
    out = 5.2 + (half if abs(way[0]) > 0.5 else tall / 2)
    x, y = _off(middle, way, out)
    return Text(x, y + tall / 2, text, style.body_mm, "middle", "bold")


def _corners(border: BorderPlan, view: View, style: Style) -> list[Item]:
    """Each corner's count in a ring, set off on the slant."""
    items: list[Item] = []
    sides = max(s.side for s in border.stretches) + 1
    for corner in border.corners:
        before, after = border.of_side(corner.after)[-1], border.of_side((corner.after + 1) % sides)[0]
        wa = _out(border, view.at(before.start), view.at(before.end))
        wb = _out(border, view.at(after.start), view.at(after.end))
        slant = (wa[0] + wb[0], wa[1] + wb[1])
        norm = math.hypot(*slant) or 1.0
        at = _off(view.at(corner.at), (slant[0] / norm, slant[1] / norm), 6.2 if corner.inner else 7.4)
        ring = disc(at, 2.2, fill_colour=style.paper, colour=style.dark, width=style.rule_mm)
        y = at[1] + cap_height(style.small_mm) / 2
        items.append(
            Group("corner", (ring, Text(at[0], y, str(corner.count), style.small_mm, "middle", "bold")))
        )
    return items


def _begin(border: BorderPlan, view: View, style: Style) -> list[Item]:
    """A solid dot where the border starts, and "start" with an arrow the way it goes."""
    first = border.stretches[0]
    a, b = view.at(first.start), view.at(first.end)
    length = math.dist(a, b) or 1.0
    ux, uy = (b[0] - a[0]) / length, (b[1] - a[1]) / length
    way = _out(border, a, b)
    dot = _off((a[0] + ux * 1.0, a[1] + uy * 1.0), way, _BAND / 2)
    reach = min(11.0, max(7.0, length * 0.6))
    tail, tip = _off(a, way, 10.5), _off((a[0] + ux * reach, a[1] + uy * reach), way, 10.5)
    line = stroke([[tail, (tip[0] - ux * 1.6, tip[1] - uy * 1.6)]], 0.55, style.accent)
    items: list[Item] = [
        disc(dot, 1.1, fill_colour=style.accent),
        line,
        fill_head(tip, math.atan2(uy, ux), style.accent, 2.6),
    ]
    if abs(ux) > 0.5:
        x = a[0] - ux * 1.4
        return [*items, Text(x, tail[1] + 0.9, "start", style.small_mm, "start" if ux < 0 else "end")]
    y = a[1] - uy * 1.4
    return [
        *items,
        Text(tail[0] + 0.9, y, "start", style.small_mm, "end" if uy < 0 else "start", angle=-90.0),
    ]
