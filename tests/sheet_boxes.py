"""Where the words of a sheet stand, by arithmetic of the tests' own: boxes of texts, and which of them
collide.
"""

import itertools
import math
import re
from dataclasses import dataclass

from hookfold.charts.drawing.display import Group, Ink, Text
from hookfold.charts.drawing.letters import cap_height, text_width


@dataclass(frozen=True)
class Words:
    """A text and the box of its capitals' height."""

    text: str
    box: tuple[float, float, float, float]


def flat(items):
    """Every ink and text of nested groups."""
    for item in items:
        if isinstance(item, Group):
            yield from flat(item.items)
        else:
            yield item


def words_on(sheet):
    return [Words(t.text, box_of(t)) for t in flat(sheet.items) if isinstance(t, Text) and t.text.strip()]


def box_of(t):
    """The box of a text that stands level or is read from the right."""
    wide, tall = text_width(t.text, t.size, t.weight), cap_height(t.size)
    lead = -wide * {"start": 0.0, "middle": 0.5, "end": 1.0}[t.anchor]
    turn = math.radians(t.angle)
    corners = [(x * math.cos(turn) - y * math.sin(turn) + t.x, x * math.sin(turn) + y * math.cos(turn) + t.y)
               for x in (lead, lead + wide) for y in (0.0, -tall)]  # fmt: skip
    xs, ys = [c[0] for c in corners], [c[1] for c in corners]
    return (min(xs), min(ys), max(xs), max(ys))


def meet(a, b, gap=0.0):
    return a[0] < b[2] + gap and b[0] < a[2] + gap and a[1] < b[3] + gap and b[1] < a[3] + gap


def colliding(sheet, gap=0.3):
    """Pairs of texts that stand on or against each other."""
    found = words_on(sheet)
    return [(a.text, b.text) for i, a in enumerate(found) for b in found[i + 1 :] if meet(a.box, b.box, gap)]


def points_of(ink: Ink):
    """Every point of a path."""
    numbers = [float(v) for v in re.findall(r"-?\d+(?:\.\d+)?", ink.d)]
    return list(zip(numbers[::2], numbers[1::2], strict=True))


def outside(sheet, margin=11.9):
    """What leaves the page's margins: texts and inks."""
    found = []
    for item in flat(sheet.items):
        box = box_of(item) if isinstance(item, Text) else _ink_box(item)
        if (
            box[0] < margin
            or box[1] < margin
            or box[2] > sheet.width - margin
            or box[3] > sheet.height - margin
        ):
            found.append((item.name or getattr(item, "text", ""), tuple(round(v, 1) for v in box)))
    return found


def _ink_box(ink):
    points = points_of(ink)
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    return (min(xs), min(ys), max(xs), max(ys))


def crossed(sheet, names, gap=0.0):
    """Texts that a straight line of certain inks runs through: (text, ink)."""
    found = []
    texts = words_on(sheet)
    for ink in (i for i in flat(sheet.items) if isinstance(i, Ink) and i.name in names and i.stroke):
        for a, b in segments(ink):
            found += [(w.text, ink.name) for w in texts if _cuts(a, b, w.box, gap)]
    return found


def segments(ink):
    for part in re.findall(r"M[^M]+", ink.d):
        numbers = [float(v) for v in re.findall(r"-?\d+(?:\.\d+)?", part)]
        points = list(zip(numbers[::2], numbers[1::2], strict=True))
        yield from itertools.pairwise(points)


def _cuts(a, b, box, gap):
    """Whether a segment passes through a box, by sampling it finely."""
    steps = max(2, int(math.dist(a, b) / 0.2))
    x0, y0, x1, y1 = box[0] - gap, box[1] - gap, box[2] + gap, box[3] + gap
    for k in range(steps + 1):
        x, y = a[0] + (b[0] - a[0]) * k / steps, a[1] + (b[1] - a[1]) * k / steps
        if x0 < x < x1 and y0 < y < y1:
            return True
    return False
