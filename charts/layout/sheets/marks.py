"""Marks that folding drawings are made of: views to scale, paths, arrows, dimensions, labels on a ground.

Line types after ISO 128 (visible wide, hidden dashed narrow, dimension continuous narrow); arrowheads are
filled, three times as long as wide (ISO 129-1 habits; both from memory).
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from ...drawing.display import Group, Ink, Text
from ...drawing.geometry import number
from ...drawing.letters import cap_height, text_width
from ...drawing.style import Style
from ...folding.facets import Point
from ...made_late import dataclass

Item = Ink | Text | Group
Line = Sequence[Point]
HEAD_MM = 2.1


@dataclass(frozen=True, slots=True)
class View:
    """Where the folded plane lies on the page: millimetres of the plane times `scale`, from (`x`, `y`)."""

    scale: float
    x: float
    y: float

    def at(self, p: Point) -> Point:
        return (self.x + p[0] * self.scale, self.y + p[1] * self.scale)

    def line(self, line: Line) -> list[Point]:
        return [self.at(p) for p in line]


def path(lines: Iterable[Line], *, closed: bool = False) -> str:
    """Path data of polylines on the page."""
    out = []
    for line in lines:
        steps = " ".join(f"{number(x)} {number(y)}" for x, y in line[1:])
        first = f"M{number(line[0][0])} {number(line[0][1])}"
        out.append(first + "L" + steps.replace(" ", " ") + ("Z" if closed else ""))
    return "".join(out)


def stroke(
    lines: Iterable[Line], width: float, colour: str, dash: tuple[float, ...] = (), name: str = ""
) -> Ink:
    return Ink(path(lines), stroke=colour, width=width, dash=dash, name=name)


def fill(rings: Iterable[Line], colour: str, name: str = "") -> Ink:
    return Ink(path(rings, closed=True), fill=colour, name=name)


def disc(at: Point, radius: float, *, fill_colour: str = "", colour: str = "", width: float = 0.25) -> Ink:
    """A circle of four arcs."""
    x, y = at
    r, k = radius, radius * 0.5523
    n = number
    d = (
        f"M{n(x + r)} {n(y)}C{n(x + r)} {n(y + k)} {n(x + k)} {n(y + r)} {n(x)} {n(y + r)}"
        f"C{n(x - k)} {n(y + r)} {n(x - r)} {n(y + k)} {n(x - r)} {n(y)}"
        f"C{n(x - r)} {n(y - k)} {n(x - k)} {n(y - r)} {n(x)} {n(y - r)}"
        f"C{n(x + k)} {n(y - r)} {n(x + r)} {n(y - k)} {n(x + r)} {n(y)}Z"
    )
    return Ink(d, stroke=colour, width=width if colour else 0.0, fill=fill_colour)


def box_ink(x0: float, y0: float, x1: float, y1: float, colour: str) -> Ink:
    return fill([((x0, y0), (x1, y0), (x1, y1), (x0, y1))], colour)


def head(tip: Point, angle: float, colour: str, size: float = HEAD_MM) -> Ink:
    """A filled arrowhead whose tip points along `angle` (radians, y downward)."""
    back, half = (tip[0] - size * math.cos(angle), tip[1] - size * math.sin(angle)), size / 6
    side = (-math.sin(angle) * half, math.cos(angle) * half)
    return fill(
        [(tip, (back[0] + side[0], back[1] + side[1]), (back[0] - side[0], back[1] - side[1]))], colour
    )


def _bowed(start: Point, end: Point, bow: float) -> tuple[Point, Point]:
    """The two control points of an arrow's curve."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    nx, ny = dy * bow, -dx * bow
    return (start[0] + dx * 0.2 + nx, start[1] + dy * 0.2 + ny), (start[0] + dx * 0.8 + nx, start[1] + dy * 0.8 + ny)


def arrow_points(start: Point, end: Point, bow: float) -> list[Point]:
    """Places along an arrow, for what must keep clear of it."""
    c1, c2 = _bowed(start, end, bow)
    found = []
    for k in range(25):
        t = k / 24
        w = ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3)
        found.append(tuple(sum(a * p[i] for a, p in zip(w, (start, c1, c2, end), strict=True)) for i in (0, 1)))
    return [(x, y) for x, y in found]


def arrow(
    start: Point, end: Point, style: Style, *, bow: float = 0.0, width: float = 0.45, dash: tuple[float, ...] = ()
) -> tuple[Ink, ...]:
    """An arrow from start to end, bowed sideways by a fraction of its length (to the left of its way as seen)."""
    c1, c2 = _bowed(start, end, bow)
    angle = math.atan2(end[1] - c2[1], end[0] - c2[0])
    big = min(HEAD_MM * 1.3, math.dist(start, end) * 0.5)
    stop = (end[0] - big * 0.8 * math.cos(angle), end[1] - big * 0.8 * math.sin(angle))
    n = number
    d = f"M{n(start[0])} {n(start[1])}C{n(c1[0])} {n(c1[1])} {n(c2[0])} {n(c2[1])} {n(stop[0])} {n(stop[1])}"
    return Ink(d, stroke=style.accent, width=width, dash=dash, name="arrow"), fill_head(end, angle, style.accent, big)


def fill_head(tip: Point, angle: float, colour: str, size: float) -> Ink:
    """A broader head, for arrows that say where something goes."""
    back, half = (tip[0] - size * math.cos(angle), tip[1] - size * math.sin(angle)), size / 2.6
    side = (-math.sin(angle) * half, math.cos(angle) * half)
    return fill(
        [(tip, (back[0] + side[0], back[1] + side[1]), (back[0] - side[0], back[1] - side[1]))], colour
    )


def label(
    x: float, y: float, text: str, size: float, ground: str, *, anchor: str = "middle",
    weight: str = "regular", colour: str = "#1d1d1b",
) -> tuple[Item, ...]:  # fmt: skip
    """A line of text whose middle height is at y, on a patch of the ground that it stands on."""
    wide, tall = text_width(text, size, weight), cap_height(size)
    left = x - wide * {"start": 0.0, "middle": 0.5, "end": 1.0}[anchor]
    patch = box_ink(left - 0.6, y - tall / 2 - 0.8, left + wide + 0.6, y + tall / 2 + 0.9, ground)
    return (patch, Text(x, y + tall / 2, text, size, anchor, weight, colour))


def upright_label(
    x: float, y: float, text: str, size: float, ground: str, weight: str = "regular"
) -> tuple[Item, ...]:
    """A line of text read from the right, its middle at (x, y), on a patch of its ground ("" for none)."""
    wide, tall = text_width(text, size, weight), cap_height(size)
    written = Text(x + tall / 2, y, text, size, "middle", weight, angle=-90.0)
    if not ground:
        return (written,)
    return (
        box_ink(x - tall / 2 - 0.8, y - wide / 2 - 0.6, x + tall / 2 + 0.9, y + wide / 2 + 0.6, ground),
        written,
    )


def level_dimension(
    x0: float, x1: float, edge_y: float, y: float, text: str, style: Style, *, raised: int = 0
) -> tuple[Item, ...]:
    """A level dimension between two upright extension lines from `edge_y`; the text stands above the line.

    `raised` lifts the text by so many lines where a neighbour needs the room.
    """
    gap = math.copysign(2.1, y - edge_y)
    over = math.copysign(1.4, y - edge_y)
    lines = [((x, edge_y + gap), (x, y + over)) for x in (x0, x1)] + [((x0, y), (x1, y))]
    middle, base = (x0 + x1) / 2, y - 0.9 - raised * style.small_mm * 1.25
    beside = Text(x1 + HEAD_MM + 1.2, y + cap_height(style.small_mm) / 2, text, style.small_mm)
    above = Text(middle, base, text, style.small_mm, "middle")
    return (
        stroke(lines, style.hair_mm, style.dark, name="dimension"),
        *_heads((x0, y), (x1, y), style),
        above if raised or x1 - x0 > text_width(text, style.small_mm) + 0.6 else beside,
    )


def upright_dimension(y0: float, y1: float, edge_x: float, x: float, text: str, style: Style) -> tuple[Item, ...]:
    """An upright dimension; the text stands left of the line, read from the right, or level where it is too long.

    An empty text leaves the numbers to other words.
    """
    gap = math.copysign(2.1, x - edge_x)
    over = math.copysign(1.4, x - edge_x)
    lines = [((edge_x + gap, y), (x + over, y)) for y in (y0, y1)] + [((x, y0), (x, y1))]
    middle, size = (y0 + y1) / 2, style.small_mm
    turned = Text(x - 0.9, middle, text, size, "middle", angle=-90.0)
    level = Text(x - 2.2, middle + cap_height(size) / 2, text, size, "end")
    words = turned if y1 - y0 > text_width(text, size) + 1.0 else level
    return (
        stroke(lines, style.hair_mm, style.dark, name="dimension"),
        *_heads((x, y0), (x, y1), style),
        *((words,) if text else ()),
    )


def _heads(a: Point, b: Point, style: Style) -> tuple[Ink, ...]:
    """Arrowheads at both ends, inside where there is room, else outside pointing in."""
    angle = math.atan2(b[1] - a[1], b[0] - a[0])
    inside = math.dist(a, b) > 2.6 * HEAD_MM
    turn = 0.0 if inside else math.pi
    return head(a, angle + math.pi + turn, style.dark), head(b, angle + turn, style.dark)


def tiers(spans: Sequence[tuple[float, float]], gap: float = 1.0, least: Sequence[int] = ()) -> list[int]:
    """For texts along one line, the lowest tier (from `least`) on which each is clear of those before it.

    >>> tiers([(0, 10), (8, 12), (11.5, 20)])
    [0, 1, 0]
    """
    ends: list[float] = []
    out = []
    for at, (lo, hi) in enumerate(spans):
        lowest = least[at] if least else 0
        ends += [-math.inf] * (lowest + 1 - len(ends))
        tier = next((k for k, end in enumerate(ends) if k >= lowest and lo >= end + gap), len(ends))
        ends[tier:] = [hi, *ends[tier + 1 :]]
        out.append(tier)
    return out


def centred(middle: float, text: str, size: float) -> tuple[float, float]:
    """The span of a text about its middle."""
    half = text_width(text, size) / 2
    return middle - half, middle + half
