"""A corner of the border in symbols: the joined stretch before it, the corner, and the edge after it.

Every foot stands in the row end or stitch that the spacing gives it; under each place stand the numbers of
what meets there, the facing layer first.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from hookfold.symbols import Mark, draw, known, stitch

from ...drawing.display import Text
from ...drawing.geometry import Affine, ink_of
from ...drawing.letters import cap_height
from ...drawing.style import Style
from ...folding.border import BorderPlan
from ...folding.edges import EdgeRun
from ...folding.facets import Point
from ...folding.said.border_words import corner_name
from ...folding.stretch import Stretch
from ..sheets.marks import Item, fill, stroke
from ..sheets.panel import Picture
from .cloth import tone

_PLACE = 5.8
_BEFORE, _AFTER = 7, 7
_DEPTH = 2.6
#: How far in stitches go and how far out they stand, in places: an sc no farther than it is tall, so that all reach the
#: edge alike.
_IN, _OUT, _SC_OUT = 0.12, 1.05, 0.85
#: The arms of those that share a place, as a share of their room: they lean apart from one foot.
_SHARED_ARMS = 0.62


def corner_picture(border: BorderPlan, style: Style) -> Picture:
    """The first outer corner after a joined stretch (after any stretch where nothing is joined)."""
    before, after, count = chosen(border)
    along, out = _ways(border, before)
    on, aside = _ways(border, after)
    half = (_BEFORE + 0.8) * _PLACE, (_AFTER + 0.8) * _PLACE
    reach = [(-along[0] * half[0], -along[1] * half[0]), (on[0] * half[1], on[1] * half[1]), (0.0, 0.0)]
    reach += [
        (p[0] + w[0] * 2.1 * _PLACE, p[1] + w[1] * 2.1 * _PLACE) for p in tuple(reach) for w in (out, aside)
    ]
    reach += [(-(out[0] + aside[0]) * _DEPTH * _PLACE, -(out[1] + aside[1]) * _DEPTH * _PLACE)]
    x0, y0 = min(p[0] for p in reach) - 2.0, min(p[1] for p in reach) - 2.0
    size = max(p[0] for p in reach) - x0 + 2.0, max(p[1] for p in reach) - y0 + 2.0

    def draw_at(x: float, y: float) -> tuple[Item, ...]:
        corner = (x - x0, y - y0)
        items = _cloth(corner, (along, out), (on, aside), half, style)
        marks: list[Mark] = []
        items += _side(before, corner, (-along[0], -along[1]), out, (_BEFORE, 0.0), border, marks, style)
        items += _side(after, corner, on, aside, (_AFTER, _band(before, out)), border, marks, style)
        marks += _fan(corner, out, aside, count, border)
        placed = [(m, Affine.scale(_PLACE)) for m in marks]
        return (*items, *ink_of(placed, _PLACE, style.dark, "border stitches"))

    return Picture(*size, draw_at)


def chosen(border: BorderPlan) -> tuple[Stretch, Stretch, int]:
    """The stretches on both sides of the corner that is drawn, and the corner's count."""
    sides = max(s.side for s in border.stretches) + 1
    found = [
        (border.of_side(c.after)[-1], border.of_side((c.after + 1) % sides)[0], c.count)
        for c in border.corners
        if not c.inner
    ]
    return max(found, key=lambda f: (f[0].layers, -border.stretches.index(f[0])))


def _ways(border: BorderPlan, s: Stretch) -> tuple[Point, Point]:
    """Along a stretch, and out from it."""
    length = s.length_mm or 1.0
    ux, uy = (s.end[0] - s.start[0]) / length, (s.end[1] - s.start[1]) / length
    return (ux, uy), ((uy, -ux) if border.clockwise else (-uy, ux))


def _cloth(
    corner: Point, first: tuple[Point, Point], second: tuple[Point, Point], half: tuple[float, float], style: Style
) -> list[Item]:  # fmt: skip
    """The cloth's corner as two bands along its edges, right side up, torn off at the ends."""
    (along, out), (on, aside) = first, second
    deep = _DEPTH * _PLACE
    a = _add(corner, along, -half[0])
    b = _add(corner, on, half[1])
    inner = _add(_add(corner, out, -deep), aside, -deep)
    ring = [a, corner, b, _add(b, aside, -deep), inner, _add(a, out, -deep)]
    return [
        fill([ring], tone("RS", style), "cloth"),
        stroke([[a, corner, b]], style.outline_mm, style.dark, name="edge"),
    ]


def _side(
    s: Stretch, corner: Point, away: Point, out: Point, shown: tuple[int, float], border: BorderPlan,
    marks: list[Mark], style: Style,
) -> list[Item]:  # fmt: skip
    """Places with their numbers from the corner outwards, and the stitches that stand in them. The second side begins
    with its numbers where those of the first are past; the lines between places end on the mitre of the corner."""
    most, band = shown
    at_end = not band
    start = max(math.ceil(band - 0.5 + _half(out)), 0)
    places = min(most, s.facing.count)
    skip = int(bool(s.each) and not (s.each[-1] if at_end else s.each[0]))
    items: list[Item] = []
    lines = []
    for k in range(math.ceil(band), places + 1):
        p = _add(corner, away, k * _PLACE)
        lines.append((p, _add(p, out, -min(_DEPTH, k or _DEPTH) * _PLACE)))
    items.append(stroke(lines[1:] if at_end else lines, style.hair_mm, style.hair, name="places"))
    for k in range(start, places):
        for layer, run in enumerate(_numbered(s)):
            number = _number(run.first, run.last, k, at_end)
            at = _add(_add(corner, away, (k + 0.5) * _PLACE), out, -_deep(layer, out) * _PLACE)
            weight = "bold" if layer == 0 else "regular"
            y = at[1] + cap_height(style.small_mm) / 2
            items.append(Text(at[0], y, str(number), style.small_mm, "middle", weight))
    feet = feet_of(s, places, at_end=at_end)
    room = (places - skip) / len(feet) if feet else 1.0
    high = _OUT if known(border.stitch) and stitch(border.stitch).base != "sc" else _SC_OUT
    for k, place in enumerate(feet):
        foot = _add(_add(corner, away, (place + 0.5) * _PLACE), out, -_IN * _PLACE)
        head = _add(_add(corner, away, (skip + (k + 0.5) * room) * _PLACE), out, high * _PLACE)
        wide = min(room, 1.0) * (_SHARED_ARMS if feet.count(place) > 1 else 1.0)
        marks.append(_stitch(border, foot, head, away, wide))
    if s.layers > 1:
        a, b = _add(corner, out, -0.3 * _PLACE), _add(_add(corner, away, places * _PLACE), out, -0.3 * _PLACE)
        items.append(stroke([(a, b)], style.rule_mm, style.dark, style.hidden, "second layer"))
    return items


def _deep(layer: int, out: Point) -> float:
    """How far in the numbers of a layer stand, in places."""
    return 0.62 + layer * 0.95 if abs(out[1]) > 0.5 else 0.85 + layer * 1.05


def _half(out: Point) -> float:
    """What half a number takes along an edge that faces that way, with its white, in places."""
    return 0.36 if abs(out[1]) > 0.5 else 0.26


def _band(s: Stretch, out: Point) -> float:
    """How deep the numbers of a stretch reach, in places."""
    return _deep(len(_numbered(s)) - 1, out) + (0.26 if abs(out[1]) > 0.5 else 0.36)


def _numbered(s: Stretch) -> Sequence[EdgeRun]:
    """The layers whose places have numbers: a lower one of another length has none, as not each of its places lies
    under one of the facing layer."""
    return s.runs[:2] if len({abs(run.last - run.first) for run in s.runs[:2]}) == 1 else s.runs[:1]


def feet_of(s: Stretch, places: int, *, at_end: bool) -> list[int]:
    """Which place, counted from the corner, each drawn stitch goes into, as the words spread them; `at_end` where the
    corner is the stretch's end."""
    each = s.each or (1,) * s.facing.count  # round a mouth, over both its sides: one in each
    each = each[::-1] if at_end else each
    return [place for place, many in enumerate(each[:places]) for _ in range(many)]


def _number(first: int, last: int, k: int, at_end: bool) -> int:
    """The number of the place k steps from the corner."""
    step = 1 if last >= first else -1
    return last - step * k if at_end else first + step * k


def _fan(corner: Point, out: Point, aside: Point, count: int, border: BorderPlan) -> list[Mark]:
    """The corner's stitches from one foot, spread over the turn."""
    foot = _add(_add(corner, out, -_IN * _PLACE), aside, -_IN * _PLACE)
    start, end = math.atan2(out[1], out[0]), math.atan2(aside[1], aside[0])
    turn = (end - start + math.pi) % (2 * math.pi) - math.pi
    made = []
    for k in range(count):
        t = 0.5 if count == 1 else k / (count - 1)
        angle = start + turn * (0.08 + 0.84 * t)
        head = (foot[0] + math.cos(angle) * 1.9 * _PLACE, foot[1] + math.sin(angle) * 1.9 * _PLACE)
        made.append(_stitch(border, foot, head))
    return made


def _stitch(border: BorderPlan, foot: Point, head: Point, along: Point | None = None, wide: float = 1.0) -> Mark:
    """One stitch; `along` is the way of the edge it stands on, `wide` the share of its width that its arms have."""
    kind = border.stitch if known(border.stitch) else "sc"
    unit, at = _PLACE, None if along is None else math.degrees(math.atan2(along[1], along[0]))
    feet = ((foot[0] / unit, foot[1] / unit),)
    return draw(kind, feet, (head[0] / unit, head[1] / unit), along_deg=at, wide=wide, reaches=True)


def _add(p: Point, way: Point, by: float) -> Point:
    return (p[0] + way[0] * by, p[1] + way[1] * by)


def corner_sentence(border: BorderPlan) -> str:
    """What the panel says."""
    before, _, count = chosen(border)
    layers = {1: "the edge", 2: "both layers"}.get(before.layers, f"all {before.layers} layers")
    which = f"The {corner_name(border, before.end)} corner in symbols"
    return f"{which}: {border.stitch} through {layers}, {count} in one place at the corner, then on."
