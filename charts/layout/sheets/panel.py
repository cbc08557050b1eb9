"""Panels: a numbered sentence with a picture under it, flowing down the page, whole or two side by side."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from ...drawing.display import Group, Ink, Text
from ...drawing.letters import cap_height, text_width, wrapped
from ...drawing.style import Style
from ...made_late import dataclass, replace
from .marks import Item, disc
from .page import line_ink

GUTTER_MM = 7.0
LEADING = 1.36
_NUMBER_MM = 2.6


@dataclass(frozen=True, slots=True)
class Picture:
    """Something drawn: its size, how to draw it with its upper left corner at a place, and its scale in
    words.
    """

    width: float
    height: float
    draw: Callable[[float, float], tuple[Item, ...]]
    scale: str = ""


@dataclass(frozen=True, slots=True)
class Panel:
    """A picture with its number ("" for none) and sentence; `half` if it may share a line with another.

    `notes` are lines of small text under the picture.
    """

    number: str
    sentence: str
    picture: Picture
    half: bool = False
    notes: tuple[str, ...] = ()


def captioned(picture: Picture, words: str, style: Style) -> Picture:
    """A picture with small words under it, no wider than it is."""
    lines = wrapped(words, picture.width, style.small_mm)

    def draw_at(x: float, y: float) -> tuple[Item, ...]:
        base = y + picture.height + style.small_mm * 1.2
        texts = (
            Text(x, base + k * style.small_mm * LEADING, line, style.small_mm) for k, line in enumerate(lines)
        )
        return (*picture.draw(x, y), *texts)

    height = picture.height + (len(lines) + 0.6) * style.small_mm * LEADING
    return Picture(picture.width, height, draw_at, picture.scale)


def side_by_side(left: Picture, right: Picture) -> Picture:
    """Two pictures on one line, their middles level; the scale is the left one's, in its own words."""
    height = max(left.height, right.height)
    gap = GUTTER_MM

    def draw_at(x: float, y: float) -> tuple[Item, ...]:
        one = left.draw(x, y + (height - left.height) / 2)
        return (*one, *right.draw(x + left.width + gap, y + (height - right.height) / 2))

    return Picture(left.width + gap + right.width, height, draw_at, left.scale.replace("Scale", "Plan"))


def head_lines(panel: Panel, width: float, style: Style) -> list[str]:
    return wrapped(panel.sentence, width - 2 * _NUMBER_MM - 2.5, style.body_mm)


def note_lines(panel: Panel, width: float, style: Style) -> list[str]:
    return [line for note in panel.notes for line in wrapped(note, width, style.small_mm)]


def height_of(panel: Panel, width: float, style: Style) -> float:
    """What a panel takes at a width."""
    head = max(1, len(head_lines(panel, width, style))) * style.body_mm * LEADING
    scale = _scale_room(panel, width, style)
    notes = len(note_lines(panel, width, style)) * style.small_mm * LEADING
    return 5.5 + head + 2.5 + panel.picture.height + scale + (notes + 2.0 if notes else 0.0) + 4.0


def _scale_room(panel: Panel, width: float, style: Style) -> float:
    """The line that the scale needs under the picture; none where it stands beside it."""
    if (
        not panel.picture.scale
        or width - panel.picture.width > 2 * text_width(panel.picture.scale, style.small_mm) + 4
    ):
        return 0.0
    return style.small_mm * 1.5


def draw(panel: Panel, x: float, y: float, width: float, style: Style) -> Group:
    """The panel with its upper left corner at a place: rule, number, sentence, picture, scale, notes."""
    items: list[Item] = [line_ink(x, y, x + width, y, width=style.hair_mm)]
    base = y + 5.0 + cap_height(style.body_mm) / 2
    text_x = x
    if panel.number:
        centre = (x + _NUMBER_MM, base - cap_height(style.body_mm) / 2)
        items.append(disc(centre, _NUMBER_MM, fill_colour=style.dark))
        items.append(_in_disc(panel.number, centre, style))
        text_x = x + 2 * _NUMBER_MM + 1.8
    lines = head_lines(panel, width, style)
    for k, line in enumerate(lines):
        items.append(Text(text_x, base + k * style.body_mm * LEADING, line, style.body_mm))
    top = y + 5.5 + max(1, len(lines)) * style.body_mm * LEADING + 2.5
    items += panel.picture.draw(x + (width - panel.picture.width) / 2, top)
    below = top + panel.picture.height
    if panel.picture.scale:
        below += _scale_room(panel, width, style)
        items.append(Text(x + width, below, panel.picture.scale, style.small_mm, "end", colour=style.quiet))
    for k, line in enumerate(note_lines(panel, width, style)):
        items.append(Text(x, below + 2.0 + (k + 0.8) * style.small_mm * LEADING, line, style.small_mm))
    title = f"Step {panel.number}: {panel.sentence}" if panel.number else panel.sentence
    return Group(f"step {panel.number}" if panel.number else "key", inked(items), title)


def inked(items: Sequence[Item]) -> tuple[Item, ...]:
    """The items without paths that draw nothing."""
    kept: list[Item] = []
    for item in items:
        if isinstance(item, Group):
            kept.append(replace(item, items=inked(item.items)))
        elif not isinstance(item, Ink) or item.d:
            kept.append(item)
    return tuple(kept)


def _in_disc(number: str, centre: tuple[float, float], style: Style) -> Text:
    return Text(
        centre[0],
        centre[1] + cap_height(style.body_mm) / 2,
        number,
        style.body_mm,
        "middle",
        "bold",
        style.paper,
    )


Placed = tuple[Panel, float, float, float]


def flow(panels: Sequence[Panel], width: float, height: float, style: Style) -> list[list[Placed]]:
    """The panels on pages as (panel, x, y, width): halves side by side, none broken, each line as high as it
    must.
    """
    pages: list[list[Placed]] = [[]]
    y = 0.0
    for line in _lines(panels):
        wide = (width - GUTTER_MM) / 2 if line[0].half else width
        tall = max(height_of(p, wide, style) for p in line)
        if pages[-1] and y + tall > height:
            pages.append([])
            y = 0.0
        pages[-1] += [(p, k * (wide + GUTTER_MM), y, wide) for k, p in enumerate(line)]
        y += tall
    return pages


def lone_widened(panels: Sequence[Panel]) -> list[Panel]:
    """The panels with the halves that share their line with none as whole ones."""
    return [
        replace(panel, half=panel.half and len(line) > 1) for line in _lines(panels) for panel in line
    ]


def widened(page: Sequence[Placed], width: float) -> list[Placed]:
    """A page on which a half with nothing beside it has the whole line."""
    levels = [y for _, _, y, _ in page]
    return [(p, x, y, width if levels.count(y) == 1 else wide) for p, x, y, wide in page]


def with_key(
    pages: list[list[Placed]], narrow: Panel, broad: Panel, width: float, height: float, style: Style
) -> list[list[Placed]]:
    """The pages with the key in the first place that is free: beside a lone half, under the last line, a new
    page.
    """
    half = (width - GUTTER_MM) / 2
    for page in pages:
        for panel, _, y, wide in page:
            alone = panel.half and sum(1 for p in page if p[2] == y) == 1
            end = min((q[2] for q in page if q[2] > y), default=height)
            if alone and y + height_of(narrow, half, style) <= end:
                return [[*p, (narrow, half + GUTTER_MM, y, half)] if p is page else p for p in pages]
            del wide
        foot = max(y + height_of(panel, wide, style) for panel, _, y, wide in page)
        if foot + height_of(broad, width, style) <= height:
            return [[*p, (broad, 0.0, foot, width)] if p is page else p for p in pages]
    return [*pages, [(broad, 0.0, 0.0, width)]]


def _lines(panels: Sequence[Panel]) -> list[tuple[Panel, ...]]:
    lines: list[tuple[Panel, ...]] = []
    waiting: Panel | None = None
    for panel in panels:
        if not panel.half:
            lines += [(waiting,)] if waiting else []
            lines.append((panel,))
            waiting = None
        elif waiting is None:
            waiting = panel
        else:
            lines.append((waiting, panel))
            waiting = None
    return lines + ([(waiting,)] if waiting else [])


#: Scales a drawing may have, as parts of full size.
SCALES = (1, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 75, 100, 150, 200)


def scale_for(width_mm: float, height_mm: float, wide: float, tall: float) -> float:
    """The largest of `SCALES` at which the piece fits: the number it is divided by.

    >>> scale_for(500.0, 250.0, 150.0, 90.0)
    4
    """
    return next(
        (s for s in SCALES if width_mm / s <= wide and height_mm / s <= tall),
        max(width_mm / wide, height_mm / tall),
    )


def scale_words(divisor: float) -> str:
    return f"Scale 1 : {divisor:g}" if divisor in SCALES else f"Scale 1 : {divisor:.0f}"
