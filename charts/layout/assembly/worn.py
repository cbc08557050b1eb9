"""The object going in: the folded piece slightly opened in oblique projection, its layers apart.

Depth runs up to the right, shortened (a cabinet projection); the layers stand a little apart and their folds
are drawn as bends. Painted from the table up, so that what lies above covers what lies below.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from ...drawing.display import Group, Text
from ...drawing.letters import cap_height, text_width
from ...drawing.style import Style
from ...folding.facets import Facet, Point, Stack
from ...folding.folds import Folding
from ...folding.views import by_parts, hinge_of, rings
from ...made_late import dataclass
from ...model.sizing.plan import Plan
from ...pattern.file.kinds import OBJECT_KINDS
from ..sheets.marks import Item, arrow, disc, fill, stroke
from ..sheets.panel import Picture, scale_for
from .cloth import tone
from .flat import spread

_DEPTH, _TILT = 0.75, math.radians(40)
_LIFT_MM = 8.0
_SLAB_MM = 2.6
_SLAB_FRONT, _SLAB_SIDE = "#c8c8c8", "#b0b0b0"
_PAD = 9.0
_NAMES = 26.0


@dataclass(frozen=True, slots=True)
class Oblique:
    """Plane to page: x to the right, depth (up the plane) to the upper right, layers upward by `lift`
    each.
    """

    scale: float
    x: float
    y: float
    foot: float

    def at(self, p: Point, layer: float = 0.0) -> Point:
        deep = (self.foot - p[1]) * self.scale * _DEPTH
        return (
            self.x + p[0] * self.scale + deep * math.cos(_TILT),
            self.y - deep * math.sin(_TILT) - layer * _LIFT_MM,
        )


@dataclass(frozen=True, slots=True)
class Slab:
    """A part of the object on its way in: its rectangle on the plane, which way it goes, how it is called.

    `stop` is where the opening begins, for what goes in sideways.
    """

    box: tuple[float, float, float, float]
    push: Point
    name: str
    stop: float = 0.0


def object_picture(folding: Folding, plan: Plan, style: Style, wide: float, tall: float) -> Picture:
    """The joined piece opened a little with the object on its way in."""
    stack = folding.joined_stack
    slabs = slabs_of(folding, plan)
    bounds = stack.silhouette.bounds
    xs = [v for s in slabs for v in (s.box[0], s.box[2])] + [bounds[0], bounds[2]]
    ys = [v for s in slabs for v in (s.box[1], s.box[3])] + [bounds[1], bounds[3]]
    width, depth = max(xs) - min(xs), max(ys) - min(ys)
    lift = _LIFT_MM * max(stack.layers)
    span = (width + depth * _DEPTH * math.cos(_TILT), depth * _DEPTH * math.sin(_TILT))
    (ax, ay), (bx, by) = folding.stages[0].crease
    sideways = abs(ax - bx) < abs(ay - by)
    aside, below = (0.0, 9.0) if sideways else (_NAMES + 4.0, 0.0)
    divisor = scale_for(*span, wide - 2 * _PAD - aside, tall - lift - 2 * _PAD - below)
    size = (span[0] / divisor + 2 * _PAD + aside, span[1] / divisor + lift + 2 * _PAD + below)

    def draw(x: float, y: float) -> tuple[Item, ...]:
        view = Oblique(1 / divisor, x + _PAD - min(xs) / divisor, y + size[1] - _PAD - below, max(ys))
        places = _called(by_parts(stack, folding.piece), slabs, view, sideways)
        named = (
            _named_below(places, y + size[1] - 1.0, style)
            if sideways
            else _named_beside(places, x + size[0] - _NAMES, style)
        )
        return (Group("object going in", (*_drawn(stack, slabs, view, style), *named)),)

    return Picture(*size, draw, "Opened to show the layers, not to scale")


def _drawn(stack: Stack, slabs: Sequence[Slab], view: Oblique, style: Style) -> list[Item]:
    """Layer by layer from the table up, the object between the lowest and the next; arrows and names last."""
    items: list[Item] = []
    layers = stack.layers
    for k, (facet, layer) in sorted(enumerate(zip(stack.facets, layers, strict=True)), key=lambda e: e[1][1]):
        if layer == 1 and not any(i for i in items if getattr(i, "name", "") == "object"):
            items.append(Group("object", tuple(i for s in slabs for i in _slab(s, view, style))))
        ring = [view.at(p, layer) for p in rings([facet.shape])[0]]
        items += [
            *_bends(stack, k, layers, view, style),
            fill([ring], tone(facet.side_up, style), facet.part),
        ]
        items.append(stroke([ring], style.outline_mm, style.dark))
    return [*items, *(i for s in slabs for i in _push(s, max(layers), view, style))]


def _called(stack: Stack, slabs: Sequence[Slab], view: Oblique, sideways: bool) -> list[tuple[Point, str]]:
    """What is to be named, each with the place that its leader points at: near edges, or right edges."""
    places: list[tuple[Point, str]] = []
    boxes = [(f.shape.bounds, float(n), f.part) for f, n in zip(stack.facets, stack.layers, strict=True)]
    boxes += [(s.box, 0.3 + _SLAB_MM / _LIFT_MM, s.name) for s in slabs if s.name]
    for k, ((x0, y0, x1, y1), layer, name) in enumerate(boxes):
        part = 0.5 + 0.14 * (k - (len(boxes) - 1) / 2) if layer == 0 else 0.5
        if sideways:
            at = (x0 + (x1 - x0) * part, y1 - (y1 - y0) * (0.02 if layer == 0 else 0.1))
        else:
            deep = {0.0: 0.3}.get(layer, 0.8) if layer < 0.6 else 0.45
            at = (x1 - (x1 - x0) * 0.02, y0 + (y1 - y0) * (0.08 if 0 < layer < 1 else 1 - deep))
        places.append((view.at(at, layer), name))
    return places


def _named_below(places: Sequence[tuple[Point, str]], y: float, style: Style) -> list[Item]:
    """Names in a row under the picture, each with a leader and a dot where it points."""
    order = sorted(places, key=lambda p: p[0][0])
    gap = max(text_width(t, style.small_mm) for _, t in order) + 4.0
    items: list[Item] = []
    for ((px, py), text), x in zip(order, spread([p[0] for p, _ in order], gap), strict=True):
        items += [
            stroke([((px, py), (x, y - 3.2))], style.hair_mm, style.dark),
            disc((px, py), 0.5, fill_colour=style.dark),
        ]
        items.append(Text(x, y, text, style.small_mm, "middle"))
    return items


def _named_beside(places: Sequence[tuple[Point, str]], x: float, style: Style) -> list[Item]:
    """Names in a column at the right, each with a leader and a dot where it points."""
    order = sorted(places, key=lambda p: p[0][1])
    items: list[Item] = []
    for ((px, py), text), y in zip(order, spread([p[1] for p, _ in order], 5.2), strict=True):
        items += [
            stroke([((px, py), (x - 1.2, y))], style.hair_mm, style.dark),
            disc((px, py), 0.5, fill_colour=style.dark),
        ]
        items.append(Text(x, y + cap_height(style.small_mm) / 2, text, style.small_mm))
    return items


def _bends(stack: Stack, index: int, layers: Sequence[int], view: Oblique, style: Style) -> list[Item]:
    """The cloth turning round the folds between a facet and those below it."""
    items: list[Item] = []
    facet = stack.facets[index]
    for other, below in zip(stack.facets[:index], layers, strict=False):
        hinge = hinge_of(facet, other)
        if hinge is not None:
            items += _bend(hinge, facet, (below, layers[index]), view, style)
    return items


def _bend(
    hinge: tuple[Point, Point], facet: Facet, between: tuple[int, int], view: Oblique, style: Style
) -> list[Item]:
    """A half round from the lower to the upper layer, bulging away from the cloth."""
    (x0, y0), (x1, y1) = sorted(hinge, key=lambda p: (-p[1], p[0]))
    middle = facet.shape.centroid
    out = (0.5 * (x0 + x1) - middle.x, 0.5 * (y0 + y1) - middle.y)
    level = abs(x0 - x1) < abs(y0 - y1)
    way = (math.copysign(1, out[0]), 0.0) if level else (0.0, math.copysign(1, out[1]))
    radius = (between[1] - between[0]) / 2
    reach = radius * _LIFT_MM / view.scale * (1.0 if level else 1.0 / _DEPTH) * 0.8
    arcs = []
    for x, y in ((x0, y0), (x1, y1)):
        turn = [-math.pi / 2 + k * math.pi / 12 for k in range(13)]
        arcs.append([
            view.at((x + way[0] * reach * math.cos(t), y + way[1] * reach * math.cos(t)),
                    between[0] + radius + radius * math.sin(t)) for t in turn
        ])  # fmt: skip
    side = "RS" if facet.side_up == "RS" else "WS"
    return [
        fill([[*arcs[0], *reversed(arcs[1])]], tone(side, style), "bend"),
        stroke([arcs[0], arcs[1], *_rim(arcs[0], arcs[1])], style.outline_mm, style.dark),
    ]


def _rim(near: Sequence[Point], far: Sequence[Point]) -> list[tuple[Point, Point]]:
    """The outermost line of a bend: between the points of both arcs that stand farthest out sideways to its
    run.
    """
    run = (far[0][0] - near[0][0], far[0][1] - near[0][1])
    norm = math.hypot(*run) or 1.0

    def aside(p: Point) -> float:
        return ((p[0] - near[0][0]) * -run[1] + (p[1] - near[0][1]) * run[0]) / norm

    found = []
    for pick in (max, min):
        k = near.index(pick(near, key=aside))
        if 0 < k < len(near) - 1:
            found.append((near[k], far[k]))
    return found


def _slab(slab: Slab, view: Oblique, style: Style) -> list[Item]:
    """The object's part as a thin slab: front, side and top."""
    x0, y0, x1, y1 = slab.box
    low, high = 0.3, 0.3 + _SLAB_MM / _LIFT_MM
    top = [view.at(p, high) for p in ((x0, y1), (x1, y1), (x1, y0), (x0, y0))]
    foot = [view.at(p, low) for p in ((x0, y1), (x1, y1), (x1, y0))]
    items: list[Item] = []
    for ring, colour in (
        ([foot[0], foot[1], top[1], top[0]], _SLAB_FRONT), ([foot[1], foot[2], top[2], top[1]], _SLAB_SIDE),
        (top, style.paper),
    ):  # fmt: skip
        items += [fill([ring], colour), stroke([[*ring, ring[0]]], style.rule_mm, style.dark)]
    return items


def _push(slab: Slab, top: int, view: Oblique, style: Style) -> list[Item]:
    """The way in, on what is in view of the slab. `top` is the highest layer over it."""
    x0, y0, x1, y1 = slab.box
    high = 0.3 + _SLAB_MM / _LIFT_MM
    if slab.push == (0.0, 0.0):
        return []
    if abs(slab.push[0]) > abs(slab.push[1]):
        way = math.copysign(1.0, slab.push[0])
        inner = x0 if way > 0 else x1
        hidden = (top - high) * _LIFT_MM / math.tan(_TILT) if way > 0 else 0.0
        stop = slab.stop - way * (3.0 + hidden) / view.scale
        y = y0 + (y1 - y0) * 0.3
        start, end = (stop - (stop - inner) * 0.7, y), (stop, y)
    else:
        start = ((x0 + x1) / 2, y0 + (y1 - y0) * 0.04)
        end = (start[0], start[1] + slab.push[1])
    return [*arrow(view.at(start, high), view.at(end, high), style, width=0.8)]


def slabs_of(folding: Folding, plan: Plan) -> tuple[Slab, ...]:
    """The object as slabs on their way in, by the kind's rule; none for a piece that holds nothing."""
    goes_in = OBJECT_KINDS[folding.kind.name].goes_in
    left, top, right, bottom = folding.joined_stack.silhouette.bounds
    if goes_in == "boards":
        return _boards(folding, plan)
    if goes_in == "slide":
        front = folding.piece.parts[0].length_mm
        inset = (right - left) * 0.08
        foot = bottom - front * 0.62
        return (
            Slab(
                (left + inset, foot - front * 0.9, right - inset, foot), (0.0, front * 0.42), "what goes in"
            ),
        )
    if goes_in == "pad":
        inset, deep = (right - left) * 0.07, (bottom - top) * 0.07
        return (Slab((left + inset, top + deep, right - inset, bottom - deep), (0.0, 0.0), "pad"),)
    return ()


def _boards(folding: Folding, plan: Plan) -> tuple[Slab, ...]:
    """Two boards, each half into its flap."""
    _, top, _, bottom = folding.joined_stack.silhouette.bounds
    body, flap = folding.piece.part("body").length_mm, folding.piece.part("front flap").length_mm
    ends = sorted(stage.crease[0][0] for stage in folding.stages[:2])
    spine = plan.object_mm.get("spine", body * 0.06)
    inset, out = (bottom - top) * 0.05, flap * 0.6
    board = min((body - spine) / 2 * 0.86, body / 2 - out - body * 0.02)
    y0, y1 = top + inset, bottom - inset
    return (
        Slab((ends[0] + out, y0, ends[0] + out + board, y1), (-flap, 0.0), "front board", ends[0] + flap),
        Slab((ends[1] - out - board, y0, ends[1] - out, y1), (flap, 0.0), "back board", ends[1] - flap),
    )
