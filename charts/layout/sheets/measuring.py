"""How to measure the object: what each measurement of the pattern file is, drawn, with blanks to fill in."""

from __future__ import annotations

import math
from collections.abc import Callable

from ...drawing.display import Document, Group, Text
from ...drawing.letters import text_width
from ...drawing.style import Style, style
from ...made_late import dataclass
from ...pattern.file.kinds import OBJECT_KINDS
from ...setting import Heading, Setting
from .marks import Item, box_ink, fill, fill_head, label, level_dimension, stroke, upright_dimension
from .page import finish, page
from .panel import Panel, Picture, draw, flow

_PAPER, _COVER = "#e4e2dc", "#f0efeb"
Picturing = Callable[[float, float, Style], tuple[Item, ...]]


@dataclass(frozen=True, slots=True)
class Measure:
    """One measurement: its key in the pattern file, how to take it, its picture with its size."""

    key: str
    how: str
    size: tuple[float, float]
    picture: Picturing


def measuring_document(kind: str, heading: Heading, setting: Setting) -> Document:
    """The sheet for a kind of object; the blanks carry the keys of [object] in the pattern file."""
    look = style(mono=setting.tone == "mono")
    frame = page(heading, setting, name="Measuring")
    panels = [_panel(m, k, look, setting.unit) for k, m in enumerate(measures(kind), 1)]
    panels.append(
        Panel("", "Write the numbers into [object] of the pattern file.", _blanks(kind, setting.unit, look))
    )
    pages = flow(panels, frame.content_width, frame.content_height, look)
    sheets = []
    for number, placed in enumerate(pages, 1):
        x0, y0 = frame.content[0], frame.content[1]
        items: list[Group] = [draw(p, x0 + x, y0 + y, w, look) for p, x, y, w in placed]
        title = f"{heading.title}: how to measure, sheet {number}"
        desc = "; ".join(p.sentence for p, *_ in placed)
        sheets.append(
            finish(
                frame,
                heading,
                items,
                number=number,
                of=len(pages),
                scale="Drawings not to scale",
                title=title,
                desc=desc,
            )
        )
    return Document(tuple(sheets), f"{heading.title}: how to measure", heading.author, heading.licence)


def measures(kind: str) -> tuple[Measure, ...]:
    """What must be measured for a kind; a kind that is not known is measured as a panel.

    >>> [m.key for m in measures("book")]
    ['height', 'wrap', 'flap', 'spine']
    """
    known = OBJECT_KINDS.get(kind, OBJECT_KINDS["panel"])
    return tuple(Measure(m.name, m.how, *PICTURES[m.picture]) for m in known.measures)


def _panel(measure: Measure, number: int, look: Style, unit: str) -> Panel:
    picture = Picture(*measure.size, lambda x, y: measure.picture(x, y, look))
    del unit
    return Panel(str(number), f"{measure.key}: {measure.how}", picture, half=True)


def _blanks(kind: str, unit: str, look: Style) -> Picture:
    """A line to write on for every measurement."""
    keys = [m.key for m in measures(kind)]
    row = 9.0

    def draw_at(x: float, y: float) -> tuple[Item, ...]:
        items: list[Item] = []
        for k, key in enumerate(keys):
            base = y + (k // 2) * row + 6.0
            left = x + (k % 2) * 92.0
            start = left + text_width(key, look.name_mm, "bold") + 3.0
            items.append(Text(left, base, key, look.name_mm, weight="bold"))
            items.append(stroke([((start, base + 0.8), (left + 68.0, base + 0.8))], look.rule_mm, look.dark))
            items.append(Text(left + 70.0, base, unit, look.name_mm))
        return tuple(items)

    return Picture(170.0, -(-len(keys) // 2) * row + 2.0, draw_at)


def _rectangle(x0: float, y0: float, x1: float, y1: float, ground: str, look: Style) -> list[Item]:
    ring = [(x0, y0), (x1, y0), (x1, y1), (x0, y1), (x0, y0)]
    return [box_ink(x0, y0, x1, y1, ground), stroke([ring], look.outline_mm, look.dark)]


def _front(
    x: float, y: float, look: Style, key: str, upright: bool, ground: str = _COVER
) -> tuple[Item, ...]:
    """A flat thing seen from the front, with one of its sides measured."""
    a, b, c, d = x + 14.0, y + 11.0, x + 56.0, y + 55.0
    items = _rectangle(a, b, c, d, ground, look)
    items += (
        upright_dimension(b, d, a, a - 6.0, key, look)
        if upright
        else level_dimension(a, c, b, b - 5.0, key, look)
    )
    return tuple(items)


def _book_height(x: float, y: float, look: Style) -> tuple[Item, ...]:
    spine = stroke([((x + 18.0, y + 11.0), (x + 18.0, y + 55.0))], look.rule_mm, look.dark)
    return (*_front(x, y, look, "height", True), spine)


def _book_end(x: float, y: float, look: Style) -> tuple[list[Item], tuple[float, float, float, float]]:
    """A closed book seen from its head: the pages between two boards and the spine at the left."""
    a, b, c, d = x + 8.0, y + 14.0, x + 64.0, y + 30.0
    items: list[Item] = [box_ink(a + 1.6, b + 1.6, c - 3.0, d - 1.6, _PAPER)]
    leaves = [((a + 1.6, b + 3.2 + k * 1.9), (c - 3.0, b + 3.2 + k * 1.9)) for k in range(6)]
    items.append(stroke(leaves, look.hair_mm, look.hair))
    cover = [
        (c, b),
        (a, b),
        (a, d),
        (c, d),
        (c, d - 1.6),
        (a + 1.6, d - 1.6),
        (a + 1.6, b + 1.6),
        (c, b + 1.6),
        (c, b),
    ]
    items.append(stroke([cover], look.outline_mm, look.dark))
    return items, (a, b, c, d)


def _book_wrap(x: float, y: float, look: Style) -> tuple[Item, ...]:
    items, (a, b, c, d) = _book_end(x, y, look)
    path = [(c, b - 3.0), (a - 3.0, b - 3.0), (a - 3.0, d + 3.0), (c - 2.0, d + 3.0)]
    items.append(stroke([path], 0.6, look.accent, look.valley))
    items.append(fill_head((c + 0.6, d + 3.0), 0.0, look.accent, 2.6))
    items.append(
        stroke(
            [((c, b - 4.4), (c, b - 0.6)), ((c + 0.6, d + 1.2), (c + 0.6, d + 4.8))],
            look.rule_mm,
            look.accent,
        )
    )
    items += label((a + c) / 2, b - 6.6, "wrap", look.small_mm, look.paper)
    items.append(Text(a - 1.0, d + 8.6, "spine", look.small_mm))
    items.append(Text(c, d + 8.6, "fore-edge", look.small_mm, "end"))
    return tuple(items)


def _book_spine(x: float, y: float, look: Style) -> tuple[Item, ...]:
    items, (a, b, _, d) = _book_end(x + 8.0, y, look)
    return (*items, *upright_dimension(b, d, a, a - 6.0, "spine", look))


def _book_flap(x: float, y: float, look: Style) -> tuple[Item, ...]:
    """The front board from the inside with the flap over it."""
    a, b, c, d = x + 8.0, y + 12.0, x + 62.0, y + 55.0
    items = _rectangle(a, b, c, d, _PAPER, look)
    items += _rectangle(a, b, a + 20.0, d, _COVER, look)
    items += level_dimension(a, a + 20.0, b, b - 5.0, "flap", look)
    items.append(Text(a + 38.0, (b + d) / 2, "inside of", look.small_mm, "middle"))
    items.append(Text(a + 38.0, (b + d) / 2 + 3.8, "the board", look.small_mm, "middle"))
    return tuple(items)


def _strap(x: float, y: float, look: Style) -> tuple[Item, ...]:
    """The back board from the inside: the strap comes from the flap's inner edge and reaches past the fore-edge."""
    a, b, c, d = x + 4.0, y + 12.0, x + 48.0, y + 55.0
    inner, end, mid = c - 18.0, c + 20.0, (b + d) / 2
    items = _rectangle(a, b, c, d, _PAPER, look)
    items += _rectangle(inner, b, c, d, _COVER, look)
    items += _rectangle(inner, mid - 4.0, end, mid + 4.0, _COVER, look)
    return (*items, *level_dimension(inner, end, b, b - 5.0, "strap", look))


def _pouch_flap(x: float, y: float, look: Style) -> tuple[Item, ...]:
    a, b, c, d = x + 14.0, y + 11.0, x + 56.0, y + 55.0
    items = _rectangle(a, b, c, d, _COVER, look)
    items += _rectangle(a, b, c, b + 20.0, _PAPER, look)
    return (*items, *upright_dimension(b, b + 20.0, a, a - 6.0, "flap", look))


def _overlap(x: float, y: float, look: Style) -> tuple[Item, ...]:
    """The back of a cushion: the upper part over the lower, the hidden edge dashed."""
    a, b, c, d = x + 14.0, y + 11.0, x + 56.0, y + 55.0
    items = _rectangle(a, b, c, d, _PAPER, look)
    items += _rectangle(a, b, c, b + 26.0, _COVER, look)
    items.append(stroke([((a, b + 14.0), (c, b + 14.0))], look.rule_mm, look.dark, look.hidden))
    return (*items, *upright_dimension(b + 14.0, b + 26.0, a, a - 6.0, "overlap", look))


def _front_across(x: float, y: float, look: Style) -> tuple[Item, ...]:
    return _front(x, y, look, "width", False)


def _front_up(x: float, y: float, look: Style) -> tuple[Item, ...]:
    return _front(x, y, look, "height", True)


def _handle(x: float, y: float, look: Style) -> tuple[Item, ...]:
    """A bag with its handle standing up; the handle is measured along its curve."""
    a, b, c, d = x + 14.0, y + 30.0, x + 56.0, y + 55.0
    items = _rectangle(a, b, c, d, _COVER, look)
    turn = [math.pi - k * math.pi / 24 for k in range(25)]
    middle, wide, high = (a + c) / 2, 11.0, 18.0
    outer = [(middle + wide * math.cos(t), b - high * math.sin(t)) for t in turn]
    inner = [(middle + (wide - 2.4) * math.cos(t), b - (high - 2.4) * math.sin(t)) for t in turn]
    items.append(stroke([outer, inner], look.outline_mm, look.dark))
    along = [(middle + (wide + 2.2) * math.cos(t), b - (high + 2.2) * math.sin(t)) for t in turn]
    items.append(stroke([along], 0.6, look.accent, look.valley))
    items += label(middle + wide + 10.0, b - high * 0.7, "handle", look.small_mm, look.paper)
    return tuple(items)


def _thickness(x: float, y: float, look: Style) -> tuple[Item, ...]:
    """A flat thing seen from its edge."""
    a, b, c, d = x + 16.0, y + 16.0, x + 66.0, y + 24.0
    return (*_rectangle(a, b, c, d, _COVER, look), *upright_dimension(b, d, a, a - 6.0, "thickness", look))


def _strap_length(x: float, y: float, look: Style) -> tuple[Item, ...]:
    a, b, c, d = x + 6.0, y + 18.0, x + 66.0, y + 25.0
    return (*_rectangle(a, b, c, d, _COVER, look), *level_dimension(a, c, b, b - 6.0, "length", look))


def _strap_width(key: str) -> Picturing:
    def drawn(x: float, y: float, look: Style) -> tuple[Item, ...]:
        a, b, c, d = x + 18.0, y + 14.0, x + 68.0, y + 26.0
        return (*_rectangle(a, b, c, d, _COVER, look), *upright_dimension(b, d, a, a - 6.0, key, look))

    return drawn


def _button_loop(x: float, y: float, look: Style) -> tuple[Item, ...]:
    """A button with a thread laid close round it."""
    middle, foot, radius = x + 35.0, y + 22.0, 9.0
    turn = [k * math.pi / 24 for k in range(49)]
    button = [(middle + radius * math.cos(t), foot + radius * math.sin(t)) for t in turn]
    holes = [[(middle + s * 2.0 + 0.7 * math.cos(t), foot + 0.7 * math.sin(t)) for t in turn] for s in (-1, 1)]
    thread = [(middle + (radius + 2.0) * math.cos(t), foot + (radius + 2.0) * math.sin(t)) for t in turn]
    return (
        stroke([button, *holes], look.outline_mm, look.dark), stroke([thread], 0.6, look.accent, look.valley),
        *label(middle + radius + 14.0, foot, "length", look.small_mm, look.paper),
    )  # fmt: skip


def _tube(key: str) -> Picturing:
    """A tube standing up, measured round or upward."""

    def drawn(x: float, y: float, look: Style) -> tuple[Item, ...]:
        middle, top, foot, wide, deep = x + 38.0, y + 18.0, y + 50.0, 20.0, 5.0
        turn = [k * math.pi / 24 for k in range(49)]
        rim = [(middle + wide * math.cos(t), top + deep * math.sin(t)) for t in turn]
        bowl = [(middle + wide * math.cos(t), foot + deep * math.sin(t)) for t in turn[:25]]
        sides = [[rim[0], bowl[0]], [rim[24], bowl[24]]]
        items: list[Item] = [stroke([rim, bowl, *sides], look.outline_mm, look.dark)]
        if key == "height":
            return (*items, *upright_dimension(top, foot, middle - wide, middle - wide - 6.0, key, look))
        tape = [(middle + (wide + 1.4) * math.cos(t), (top + foot) / 2 + (deep + 1) * math.sin(t)) for t in turn[:25]]
        items.append(stroke([tape], 0.6, look.accent, look.valley))
        return (*items, *label(middle, (top + foot) / 2 + deep + 5.0, key, look.small_mm, look.paper))

    return drawn


def _head(key: str) -> Picturing:
    """A head in a hat, seen from the side, measured round or from the crown down."""

    def drawn(x: float, y: float, look: Style) -> tuple[Item, ...]:
        middle, brim, foot, wide, high = x + 38.0, y + 34.0, y + 58.0, 19.0, 22.0
        turn = [math.pi + k * math.pi / 32 for k in range(33)]
        dome = [(middle + wide * math.cos(t), brim + high * math.sin(t)) for t in turn]
        face = [(middle + wide * math.cos(t) * 0.96, brim + (foot - brim) * math.sin(t)) for t in _under]
        ear = [(middle + 2.6 * math.cos(t), brim + 6.0 + 4.0 * math.sin(t)) for t in (*_under, *turn)]
        items: list[Item] = [stroke([face, ear], look.rule_mm, look.dark)]
        ring = [*dome, dome[0]]
        items += [fill([ring], _COVER, "hat"), stroke([ring], look.outline_mm, look.dark)]
        if key == "height":
            return (*items, *upright_dimension(brim - high, brim, middle - wide, middle - wide - 6.0, key, look))
        tape = [(middle - wide - 1.4, brim - 3.0), (middle + wide + 1.4, brim - 3.0)]
        items.append(stroke([tape], 0.6, look.accent, look.valley))
        return (*items, *label(middle, brim - 7.0, key, look.small_mm, look.paper))

    return drawn


_under = [k * math.pi / 32 for k in range(33)]

#: The drawings that a kind may name, each with its size.
PICTURES: dict[str, tuple[tuple[float, float], Picturing]] = {
    "book height": ((70.0, 57.0), _book_height),
    "book wrap": ((70.0, 40.0), _book_wrap),
    "book flap": ((70.0, 57.0), _book_flap),
    "book spine": ((74.0, 40.0), _book_spine),
    "strap": ((74.0, 57.0), _strap),
    "front across": ((70.0, 57.0), _front_across),
    "front up": ((70.0, 57.0), _front_up),
    "flap down": ((70.0, 57.0), _pouch_flap),
    "overlap": ((70.0, 57.0), _overlap),
    "tube around": ((76.0, 60.0), _tube("around")),
    "hand around": ((76.0, 60.0), _tube("hand")),
    "foot around": ((76.0, 60.0), _tube("foot")),
    "tube height": ((76.0, 60.0), _tube("height")),
    "head around": ((76.0, 60.0), _head("around")),
    "head height": ((76.0, 60.0), _head("height")),
    "handle": ((74.0, 57.0), _handle),
    "thickness": ((74.0, 40.0), _thickness),
    "strap length": ((74.0, 40.0), _strap_length),
    "strap width": ((74.0, 40.0), _strap_width("width")),
    "loop height": ((74.0, 40.0), _strap_width("height")),
    "button loop": ((74.0, 40.0), _button_loop),
}
