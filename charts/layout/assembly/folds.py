"""One fold a picture: the piece before it, the crease, the arrow, and the layers after it seen from the
side.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from itertools import pairwise

from ...drawing.display import Group, Ink, Text
from ...drawing.letters import text_width
from ...drawing.style import Style
from ...folding.facets import Facet, Point, Stack, carry, compose, reflection, seen
from ...folding.folds import Folding, Stage, crease_on
from ...folding.views import Cut, by_parts, cut_across, points
from ...made_late import replace
from ..sheets.marks import Item, Line, View, arrow, arrow_points, label, stroke, upright_label
from ..sheets.panel import Picture, scale_for, scale_words
from .cloth import cloth, label_spot, tone

Placing = Callable[[float, float], Point]
LAYER_MM = 3.4
_SIDE_MM = 5.0
_CAPTIONS = ("the layers after this fold, from the side", "after this fold, from the side", "from the side")


def fold_picture(folding: Folding, stage: Stage, style: Style, wide: float, tall: float) -> Picture:
    """Before the fold in plan, with the arrow; beneath (or beside), the layers after it."""
    bounds = _bounds(folding)
    upright = abs(stage.crease[0][0] - stage.crease[1][0]) < abs(stage.crease[0][1] - stage.crease[1][1])
    layers = LAYER_MM * (max(stage.after.layers) + 1) + 12.5
    plan_room = (
        (wide - 2 * _SIDE_MM, tall - 6.0 - layers)
        if upright
        else (wide - 2 * _SIDE_MM - layers - 8.0, tall - 6.0)
    )
    divisor = scale_for(bounds[2] - bounds[0], bounds[3] - bounds[1], *plan_room)
    size = ((bounds[2] - bounds[0]) / divisor, (bounds[3] - bounds[1]) / divisor)
    full = (size[0] + 2 * _SIDE_MM, size[1] + 6.0 + layers) if upright else (
        size[0] + 2 * _SIDE_MM + layers + 8.0, size[1] + 6.0)  # fmt: skip

    def draw(x: float, y: float) -> tuple[Item, ...]:
        view = View(1 / divisor, x + _SIDE_MM - bounds[0] / divisor, y + 3.0 - bounds[1] / divisor)
        items: list[Item] = [cloth(stage.before, folding.piece, view, style), _crease(stage, view, style)]
        way = _fold_arrow(stage, view)
        items += [_to_come(folding, later, stage.before, view, style) for later in folding.stages[stage.number :]]
        named = by_parts(_named_before(stage), folding.piece)
        items += part_labels(named, view, style, arrow_points(*way) if way else ())
        dash = () if stage.spec.direction == "over" else style.hidden
        items += arrow(way[0], way[1], style, bow=way[2], width=0.55, dash=dash) if way else ()
        cuts = cut_across(stage.after, "x" if upright else "y", _through(stage, upright))
        if upright:
            floor = y + 3.0 + size[1] + layers - 6.0
            items += layers_level(cuts, view, floor, style)
            items.append(caption(x + full[0] / 2, floor + 4.6, _CAPTIONS[0], style))
        else:
            wall = x + _SIDE_MM + size[0] + 9.0
            items += layers_upright(cuts, view, wall, style)
            edge = wall + LAYER_MM * max(stage.after.layers) + 5.6
            items += _turned_caption(edge, y + 3.0 + size[1] / 2, size[1], style)
        return tuple(items)

    return Picture(*full, draw, scale_words(divisor))


def _turned_caption(x: float, y: float, room: float, style: Style) -> tuple[Text, ...]:
    """What the layers on edge are, in as many words as there is room for."""
    words = next((w for w in _CAPTIONS if text_width(w, style.small_mm) <= room), "")
    written = Text(x, y, words, style.small_mm, "middle", colour=style.quiet, angle=-90.0)
    return (written,) if words else ()


def _through(stage: Stage, upright: bool) -> float:
    """Where a cut must lie to cross what was folded, as a fraction of the piece's extent; the middle where it can."""
    mover = _mover(stage)
    left, top, right, bottom = stage.after.silhouette.bounds
    if mover is None:
        return 0.5
    x, y = carry(reflection(*stage.crease), mover)
    at = (y - top) / (bottom - top) if upright else (x - left) / (right - left)
    return 0.5 if abs(at - 0.5) < 0.1 else at


def _bounds(folding: Folding) -> tuple[float, float, float, float]:
    """What the piece takes at any of its folds: one scale for all of them."""
    boxes = [s.silhouette.bounds for s in (folding.start, *(stage.after for stage in folding.stages))]
    return (
        min(b[0] for b in boxes),
        min(b[1] for b in boxes),
        max(b[2] for b in boxes),
        max(b[3] for b in boxes),
    )


def _crease(stage: Stage, view: View, style: Style) -> Item:
    a, b = (view.at(p) for p in stage.crease)
    length = math.dist(a, b) or 1.0
    ux, uy = (b[0] - a[0]) / length * 2.4, (b[1] - a[1]) / length * 2.4
    dash = style.valley if stage.spec.direction == "over" else style.mountain
    line = [(a[0] - ux, a[1] - uy), (b[0] + ux, b[1] + uy)]
    return stroke([line], style.fold_mm * 1.6, style.accent, dash, "fold line")


def coming_folds(folding: Folding, view: View, style: Style, *, outside: bool = False) -> list[Item]:
    """The folds that are still to be made when the layers are joined, as thin lines on the piece as it then lies; seen
    from the `outside` where that faces the reader."""
    left, _, right, _ = folding.joined_stack.silhouette.bounds
    mirrored = outside and not folding.lies_outside_up
    later = folding.stages[folding.joined :]
    lines = [_to_come(folding, stage, folding.joined_stack, view, style, (left + right) * mirrored) for stage in later]
    return [line for line in lines if line.d]


def _to_come(
    folding: Folding, stage: Stage, lies: Stack, view: View, style: Style, mirrored_mm: float = 0.0
) -> Ink:  # fmt: skip
    """A fold that is not yet made as a thin line on the piece as it lies; `mirrored_mm` is its two sides' sum where it
    is seen from behind."""
    ends = crease_on(folding.piece, lies, stage.spec)
    over = (stage.spec.direction == "over") != bool(mirrored_mm)
    dash = style.valley if over else style.mountain
    line = [view.at((mirrored_mm - x, y) if mirrored_mm else (x, y)) for x, y in ends]
    return stroke([line], style.fold_mm, style.accent, dash, "fold to come")


def _fold_arrow(stage: Stage, view: View) -> tuple[Point, Point, float] | None:
    """From the middle of what moves to where it will lie, and how the arrow bows."""
    mover = _mover(stage)
    if mover is None:
        return None
    mover = _aside(stage, mover, view.scale)
    start, end = view.at(mover), view.at(carry(reflection(*stage.crease), mover))
    level = abs(end[0] - start[0]) > abs(end[1] - start[1])
    return start, end, 0.28 if (end[0] > start[0] if level else end[1] < start[1]) else -0.28


def _mover(stage: Stage) -> Point | None:
    """The middle of the cloth that the fold carries, before it."""
    moved = [f for f in stage.after.facets if all(f.to_plane != g.to_plane for g in stage.before.facets)]
    if not moved:
        return None
    at = max(moved, key=lambda f: f.flat.area).shape.centroid
    return carry(reflection(*stage.crease), (at.x, at.y))


def _named_before(stage: Stage) -> Stack:
    """The piece before the fold, already cut along the crease, so that what moves has its own name."""
    back = reflection(*stage.crease)
    still = [f for f in stage.after.facets if any(_same(f, g) for g in stage.before.facets)]
    moved = [replace(f, to_plane=compose(back, f.to_plane)) for f in stage.after.facets if f not in still]
    return Stack((*still, *moved) if stage.spec.direction == "over" else (*moved, *still))


def _same(f: Facet, g: Facet) -> bool:
    """Whether a facet lies as another did: carried by the same map."""
    return all(abs(a - b) < 1e-6 for a, b in zip(f.to_plane, g.to_plane, strict=True))


def _aside(stage: Stage, p: Point, scale: float) -> Point:
    """The place moved along the crease, clear of the names in the middle: a quarter of it, at least 13 mm."""
    length = math.dist(*stage.crease)
    off = min(max(13.0 / scale, length * 0.25), max(0.0, length / 2 - 3.0 / scale))
    first, last = sorted(stage.crease, key=lambda c: (c[1], c[0]))
    t = 0.5 - off / length
    away = _away(stage, p)
    return (first[0] + (last[0] - first[0]) * t + away[0], first[1] + (last[1] - first[1]) * t + away[1])


def _away(stage: Stage, p: Point) -> Point:
    """From the crease straight to a place."""
    (x0, y0), (x1, y1) = stage.crease
    n = (x1 - x0) ** 2 + (y1 - y0) ** 2
    t = ((p[0] - x0) * (x1 - x0) + (p[1] - y0) * (y1 - y0)) / n
    return (p[0] - x0 - t * (x1 - x0), p[1] - y0 - t * (y1 - y0))


def part_labels(stack: Stack, view: View, style: Style, clear_of: Sequence[Point] = ()) -> list[Item]:
    """Each part's name on what is in view of it, level or upright as there is room, clear of hidden edges and arrows.

    A piece of one part only needs none.
    """
    looks = seen(stack)
    if len({f.part for f in stack.facets}) == 1 < len(stack.facets):
        return []
    hidden = [view.line(line) for look in looks for line in points(look.hidden_edges)]
    avoid = [*clear_of, *(p for line in hidden for p in sampled(line))]
    items: list[Item] = []
    for look in looks:
        spot = label_spot(look)
        if spot is None or not look.facet.part:
            continue
        box = (*view.at((spot[0], spot[1])), *view.at((spot[2], spot[3])))
        items += fitted_label(look.facet.part, box, tone(look.facet.side_up, style), style, avoid)
    return items


def sampled(line: Sequence[Point]) -> list[Point]:
    """Places along a line, half a millimetre apart."""
    found: list[Point] = []
    for (x0, y0), (x1, y1) in pairwise(line):
        steps = max(1, int(math.dist((x0, y0), (x1, y1)) / 0.5))
        found += [(x0 + (x1 - x0) * k / steps, y0 + (y1 - y0) * k / steps) for k in range(steps + 1)]
    return found


def fitted_label(
    text: str, box: tuple[float, float, float, float], ground: str, style: Style, clear_of: Sequence[Point] = ()
) -> tuple[Item, ...]:  # fmt: skip
    """A name in a box, level or upright, in the middle or a quarter off it where that is clear; else none."""
    x0, y0, x1, y1 = box
    wide, tall = text_width(text, style.small_mm) + 2.4, 5.0
    for half_w, half_h, put in ((wide / 2, tall / 2, label), (tall / 2, wide / 2, upright_label)):
        if 2 * half_w > x1 - x0 or 2 * half_h > y1 - y0:
            continue
        for tx, ty in ((0.5, 0.5), (0.5, 0.25), (0.5, 0.75), (0.25, 0.5), (0.75, 0.5)):
            mx = min(max(x0 + (x1 - x0) * tx, x0 + half_w), x1 - half_w)
            my = min(max(y0 + (y1 - y0) * ty, y0 + half_h), y1 - half_h)
            if not any(abs(x - mx) < half_w and abs(y - my) < half_h for x, y in clear_of):
                return put(mx, my, text, style.small_mm, ground)
        return ()
    return ()


def layers_level(
    cuts: Sequence[Cut], view: View, floor: float, style: Style, gap: float = LAYER_MM
) -> list[Item]:
    """The layers cut across, seen from the side with the table at `floor`; ticks stand on the right side."""
    return _layers(cuts, lambda u, v: (view.x + u * view.scale, floor - v * gap), style)


def layers_upright(
    cuts: Sequence[Cut], view: View, wall: float, style: Style, gap: float = LAYER_MM
) -> list[Item]:
    """The same standing on edge: the table at the left."""
    return _layers(cuts, lambda u, v: (wall + v * gap, view.y + u * view.scale), style)


def _layers(cuts: Sequence[Cut], to_page: Placing, style: Style) -> list[Item]:
    lines: list[Line] = []
    ticks: list[Line] = []
    for cut in cuts:
        a, b = to_page(cut.start, cut.layer), to_page(cut.end, cut.layer)
        lines.append((a, b))
        ticks += _ticks(a, b, to_page(cut.start, cut.layer + (0.3 if cut.side_up == "RS" else -0.3)))
        for other, at in cut.folds:
            lines.append(_bend(to_page, at, cut, cuts[other]))
    thick = stroke(lines, 0.6, style.dark, name="layers")
    return [
        Group("layers from the side", (thick, stroke(ticks, style.hair_mm, style.dark, name="right side")))
    ]


def _bend(to_page: Placing, at: float, cut: Cut, other: Cut) -> Line:
    """The cloth turning round a fold: half a round between two layers, bulging away from both."""
    out = 1.0 if abs(at - cut.end) < 0.01 else -1.0
    a, b = to_page(at, cut.layer), to_page(at, other.layer)
    unit = to_page(at + 1.0, cut.layer)
    across = ((unit[0] - a[0]), (unit[1] - a[1]))
    norm = math.hypot(*across) or 1.0
    r = math.dist(a, b) / 2
    way = (across[0] / norm * out, across[1] / norm * out)
    middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
    half = ((a[0] - middle[0]), (a[1] - middle[1]))
    turn = [k * math.pi / 12 for k in range(13)]
    return [
        (
            middle[0] + half[0] * math.cos(t) + way[0] * r * math.sin(t),
            middle[1] + half[1] * math.cos(t) + way[1] * r * math.sin(t),
        )
        for t in turn
    ]


def _ticks(a: Point, b: Point, toward: Point) -> list[Line]:
    """Short strokes on one side of a line."""
    length = math.dist(a, b)
    dx, dy = toward[0] - a[0], toward[1] - a[1]
    count = max(1, int(length / 1.6))
    found: list[Line] = []
    for k in range(count):
        t = (k + 0.5) / count
        p = (a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t)
        found.append((p, (p[0] + dx, p[1] + dy)))
    return found


def caption(x: float, y: float, text: str, style: Style, anchor: str = "middle") -> Text:
    """Small words under a picture."""
    return Text(x, y, text, style.small_mm, anchor, colour=style.quiet)
