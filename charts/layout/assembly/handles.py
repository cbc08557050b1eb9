"""The handles of a bag: how one sits on the folded bag, and the strip of paper that it is cut as."""

from __future__ import annotations

import math

from ...drawing.display import Text
from ...drawing.style import Style
from ...folding.facets import Point
from ...measure import show_length
from ...model.sizing.plan import Plan
from ...pattern.file.kinds import OBJECT_KINDS, Handles, directions
from ..sheets.marks import Item, disc, fill, label, level_dimension, stroke
from ..sheets.panel import Picture, scale_for, scale_words
from .cloth import tone

_PAD, _FOOT = 8.0, 13.0
_STEPS = 48


def handles_of(plan: Plan) -> tuple[Handles, float] | None:
    """The handles of a plan's kind and how long each is, in mm; None where it has none."""
    kind = OBJECT_KINDS.get(plan.kind)
    long_mm = plan.object_mm.get(kind.handles.measure, 0.0) if kind and kind.handles else 0.0
    return (kind.handles, long_mm) if kind and kind.handles and long_mm else None


def handle_way(apart: float, long: float) -> list[Point]:
    """The middle line of a handle whose ends lie `apart`, y upward: legs and half a circle, or the flat arc of a short
    one.

    >>> way = handle_way(100.0, 300.0)
    >>> round(sum(math.dist(a, b) for a, b in zip(way, way[1:])))
    300
    """
    leg = (long - math.pi * apart / 2) / 2
    if leg >= 0:
        turn = [math.pi * (1 - k / _STEPS) for k in range(_STEPS + 1)]
        arch = [(apart / 2 * (1 + math.cos(t)), leg + apart / 2 * math.sin(t)) for t in turn]
        return [(0.0, 0.0), *arch, (apart, 0.0)]
    low, high = 1e-6, math.pi
    for _ in range(60):
        half = (low + high) / 2
        low, high = (half, high) if math.sin(half) / half > apart / max(long, apart) else (low, half)
    radius = apart / (2 * math.sin(low))
    turn = [math.pi / 2 + low * (1 - 2 * k / _STEPS) for k in range(_STEPS + 1)]
    foot = radius * math.sin(math.pi / 2 + low)
    return [(apart / 2 + radius * math.cos(t), radius * math.sin(t) - foot) for t in turn]


def handles_picture(plan: Plan, style: Style, wide: float, tall: float) -> Picture:
    """The folded bag with a handle sewn to its front, to scale; how far in it sits is measured at the foot."""
    found = handles_of(plan)
    if found is None:
        return Picture(0.0, 0.0, lambda x, y: ())
    handles, long_mm = found
    plain, strip = directions(plan.kind, plan.object_mm)
    across, high = plan.over_all_mm[plain], plan.over_all_mm[strip]
    apart, deep = across * (1 - 2 * handles.from_side), handles.rows * _row_mm(plan)
    way = handle_way(apart, long_mm)
    rise = max(y for _, y in way) + handles.width_mm / 2
    divisor = scale_for(across, high + rise, wide - 2 * _PAD - 70.0, tall - _FOOT - _PAD)
    size = (across / divisor + 2 * _PAD + 70.0, (high + rise) / divisor + _FOOT + _PAD)

    def draw(x: float, y: float) -> tuple[Item, ...]:
        left, top = x + _PAD + 35.0, y + _PAD / 2 + rise / divisor
        right, foot = left + across / divisor, top + high / divisor
        ends = [left + across * handles.from_side / divisor, right - across * handles.from_side / divisor]
        middle = [(ends[0] + px / divisor, top - py / divisor) for px, py in way]
        middle = [(ends[0], top + deep / divisor), *middle, (ends[1], top + deep / divisor)]
        band = _band(middle, handles.width_mm / divisor)
        bag = [(left, top), (right, top), (right, foot), (left, foot), (left, top)]
        items: list[Item] = [fill([bag], tone("RS", style), "front"), stroke([bag], style.outline_mm, style.dark)]
        items += [fill([band], style.paper, "handle"), stroke([band], style.outline_mm, style.dark)]
        for a, b in ((ends[0], ends[1]), (ends[1], right)):
            items += level_dimension(a, b, foot, foot + 7.0, show_length((b - a) * divisor, plan.unit), style)
        items += label((left + right) / 2, (top + foot) / 2, "front", style.body_mm, tone("RS", style))
        beside, size = right + 4.0, show_length(handles.width_mm, plan.unit)
        deep_at = top + deep / divisor / 2
        items.append(stroke([[(ends[1], deep_at), (beside - 0.8, deep_at)]], style.hair_mm, style.dark, name="leader"))
        items.append(disc((ends[1], deep_at), 0.5, fill_colour=style.dark))
        items.append(Text(beside, deep_at + 0.9, f"{handles.rows} rows deep", style.small_mm))
        at = top - rise / divisor * 0.6
        items.append(Text(beside, at, f"each {show_length(long_mm, plan.unit)} long", style.small_mm))
        items.append(Text(beside, at + 3.6, f"and {size} wide", style.small_mm))
        return tuple(items)

    return Picture(*size, draw, scale_words(divisor))


def handle_paper(plan: Plan, at: Point) -> tuple[tuple[Point, ...], tuple[float, float, float, float]] | None:
    """The strip of one handle at full size, its upper left corner at a place: its outline and its box; None without."""
    found = handles_of(plan)
    if found is None:
        return None
    (x0, y0), (x1, y1) = at, (at[0] + found[0].width_mm, at[1] + found[1])
    return ((x0, y0), (x1, y0), (x1, y1), (x0, y1), (x0, y0)), (x0, y0, x1, y1)


def _row_mm(plan: Plan) -> float:
    heights = [mm for section in plan.sections for mm in section.row_heights_mm]
    return sum(heights) / len(heights)


def _band(middle: list[Point], wide: float) -> list[Point]:
    """A band along a line, closed."""
    sides: tuple[list[Point], list[Point]] = ([], [])
    for k, (x, y) in enumerate(middle):
        a, b = middle[max(k - 1, 0)], middle[min(k + 1, len(middle) - 1)]
        long = math.dist(a, b) or 1.0
        nx, ny = -(b[1] - a[1]) / long * wide / 2, (b[0] - a[0]) / long * wide / 2
        sides[0].append((x + nx, y + ny))
        sides[1].append((x - nx, y - ny))
    return [*sides[0], *reversed(sides[1]), sides[0][0]]
