"""The object going in: the folded piece slightly opened in oblique projection, its layers apart.

Depth runs up to the right at half length (a cabinet projection); a layer's height is drawn true upward.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from ..drawing.display import Group, Text
from ..drawing.style import Style
from ..folding.facets import Point, Stack
from ..folding.folds import Folding
from ..folding.views import rings
from ..model.plan import Plan
from .assembly_cloth import tone
from .assembly_ink import Item, arrow, fill, label, stroke
from .assembly_panel import Picture, scale_for

_DEPTH, _TILT = 0.62, math.radians(38)
_LIFT_MM = 7.5
_SLAB_MM = 2.4


@dataclass(frozen=True, slots=True)
class Oblique:
    """Plane to page: x to the right, depth (up the plane) to the upper right, layers upward by `lift`
    each.
    """

    scale: float
    x: float
    y: float
    foot: float
    lift: float = _LIFT_MM

    def at(self, p: Point, layer: float = 0.0) -> Point:
        deep = (self.foot - p[1]) * self.scale * _DEPTH
        return (
            self.x + p[0] * self.scale + deep * math.cos(_TILT),
            self.y - deep * math.sin(_TILT) - layer * self.lift,
        )


@dataclass(frozen=True, slots=True)
class Slab:
    """A part of the object: its rectangle on the plane, where it comes from, and how it is called."""

    box: tuple[float, float, float, float]
    push: Point
    name: str


def object_picture(folding: Folding, plan: Plan, style: Style, wide: float, tall: float) -> Picture:
    """The joined piece opened a little with the object on its way in."""
    stack = folding.joined_stack
    slabs = slabs_of(folding, plan)
    xs = [v for s in slabs for v in (s.box[0], s.box[2])] + [
        stack.silhouette.bounds[0],
        stack.silhouette.bounds[2],
    ]
    ys = [v for s in slabs for v in (s.box[1], s.box[3])] + [
        stack.silhouette.bounds[1],
        stack.silhouette.bounds[3],
    ]
    width, depth = max(xs) - min(xs), max(ys) - min(ys)
    top_layer = max(stack.layers)
    lift = _LIFT_MM * (top_layer + 1)
    span = (width + depth * _DEPTH * math.cos(_TILT), depth * _DEPTH * math.sin(_TILT))
    divisor = scale_for(*span, wide - 14.0, tall - lift - 8.0)
    size = (span[0] / divisor + 14.0, span[1] / divisor + lift + 8.0)

    def draw(x: float, y: float) -> tuple[Item, ...]:
        view = Oblique(1 / divisor, x + 7.0 - min(xs) / divisor, y + size[1] - 4.0, max(ys))
        return (Group("object going in", tuple(_drawn(stack, slabs, view, style))),)

    return Picture(*size, draw, "Not to scale: opened to show the layers")


def _drawn(stack: Stack, slabs: Sequence[Slab], view: Oblique, style: Style) -> list[Item]:
    """Layer by layer from the table up, the object between the lowest and the next."""
    items: list[Item] = []
    for facet, layer in sorted(zip(stack.facets, stack.layers, strict=True), key=lambda fl: fl[1]):
        if layer == 1 and slabs:
            items += [i for s in slabs for i in _slab(s, view, style)]
            slabs, later = (), slabs
            items += [i for s in later for i in _push(s, view, style)] if False else []
        ring = [view.at(p, layer) for p in rings([facet.shape])[0]]
        items.append(fill([ring], tone(facet.side_up, style), facet.part))
        items.append(stroke([ring], style.outline_mm, style.dark))
        items += _hinges(stack, facet.part, layer, ring, view, style)
    return items


def _hinges(
    stack: Stack, part: str, layer: int, ring: Sequence[Point], view: Oblique, style: Style
) -> list[Item]:
    del stack, part, layer, ring, view, style
    return []


def _slab(slab: Slab, view: Oblique, style: Style) -> list[Item]:
    """The object's part as a thin slab: top, front and side."""
    x0, y0, x1, y1 = slab.box
    low, high = 0.32, 0.32 + _SLAB_MM / view.lift
    top = [view.at(p, high) for p in ((x0, y1), (x1, y1), (x1, y0), (x0, y0))]
    foot = [view.at(p, low) for p in ((x0, y1), (x1, y1), (x1, y0))]
    front = [foot[0], foot[1], top[1], top[0]]
    side = [foot[1], foot[2], top[2], top[1]]
    shapes = ((front, "#b9b7b0"), (side, "#a3a19a"), (top, style.paper))
    items: list[Item] = []
    for ring, colour in shapes:
        items += [fill([ring], colour), stroke([[*ring, ring[0]]], style.rule_mm, style.dark)]
    return items


def _push(slab: Slab, view: Oblique, style: Style) -> list[Item]:
    x0, y0, x1, y1 = slab.box
    middle = ((x0 + x1) / 2, (y0 + y1) / 2)
    end = (middle[0] + slab.push[0], middle[1] + slab.push[1])
    high = 0.32 + _SLAB_MM / view.lift
    return [*arrow(view.at(middle, high), view.at(end, high), style, width=0.7)]


def slabs_of(folding: Folding, plan: Plan) -> tuple[Slab, ...]:
    """The object as slabs on their way in, by the kind's rule; none for a piece that holds nothing."""
    name = folding.kind.name
    left, top, right, bottom = folding.joined_stack.silhouette.bounds
    if name.startswith("book"):
        return _boards(folding, plan)
    if name == "pouch":
        front, back = folding.piece.part("front"), folding.piece.part("back")
        inset, tall = (right - left) * 0.07, min(front.length_mm, back.length_mm) * 0.92
        foot = bottom - front.length_mm * 0.45
        return (
            Slab(
                (left + inset, foot - tall, right - inset, foot), (0.0, front.length_mm * 0.5), "what goes in"
            ),
        )
    if name == "cushion":
        inset = (right - left) * 0.06
        deep = (bottom - top) * 0.9
        return (Slab((left + inset, top + inset, right - inset, top + inset + deep), (0.0, 0.0), "pad"),)
    return ()


def _boards(folding: Folding, plan: Plan) -> tuple[Slab, ...]:
    """Two boards, each half into its flap."""
    left, top, right, bottom = folding.joined_stack.silhouette.bounds
    body = folding.piece.part("body").length_mm
    ends = sorted(p[0] for stage in folding.stages[:2] for p in (stage.crease[0],))
    spine = plan.object_mm.get("spine", body * 0.06)
    board = (body - spine) / 2
    inset = (bottom - top) * 0.03
    out = folding.piece.part("front flap").length_mm * 0.55
    del left, right
    return (
        Slab(
            (ends[0] + out, top + inset, ends[0] + out + board * 0.8, bottom - inset),
            (-out * 0.9, 0.0),
            "front board",
        ),
        Slab(
            (ends[1] - out - board * 0.8, top + inset, ends[1] - out, bottom - inset),
            (out * 0.9, 0.0),
            "back board",
        ),
    )


def named(x: float, y: float, text: str, style: Style) -> tuple[Item, ...]:
    """A name on paper ground."""
    return label(x, y, text, style.small_mm, style.paper)


def caption(x: float, y: float, text: str, style: Style) -> Text:
    return Text(x, y, text, style.small_mm, "middle", colour=style.quiet)
