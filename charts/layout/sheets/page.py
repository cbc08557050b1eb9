"""The page that every sheet is printed on: paper, margins, header, footer, and the free box between them."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from ...drawing.display import Group, Ink, Sheet, Text
from ...drawing.geometry import number
from ...drawing.letters import fitted, text_width, wrapped
from ...drawing.style import style
from ...made_late import dataclass
from ...setting import Heading, Paper, Setting

Orientation = Literal["portrait", "landscape"]
Box = tuple[float, float, float, float]

#: Width and height upright, in mm. A4: ISO 216. Letter: 8.5 x 11 in.
PAPERS_MM: dict[Paper, tuple[float, float]] = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}
MARGIN_MM = 12.0
_STYLE = style()
RULE_MM, TITLE_MM, NAME_MM, SMALL_MM = _STYLE.rule_mm, _STYLE.title_mm, _STYLE.name_mm, _STYLE.small_mm
DARK, QUIET, HAIR = _STYLE.dark, _STYLE.quiet, _STYLE.hair
_FACT_GAP_MM = 6.0
_LABEL_GAP_MM = 1.4


@dataclass(frozen=True, slots=True)
class Frame:
    """A page before its content: its size, whether it lies on its side, its free box (x0, y0, x1, y1) in
    mm.
    """

    width: float
    height: float
    landscape: bool
    content: Box
    header: Group

    @property
    def content_width(self) -> float:
        return self.content[2] - self.content[0]

    @property
    def content_height(self) -> float:
        return self.content[3] - self.content[1]


def page(heading: Heading, setting: Setting, *, name: str, orientation: Orientation = "portrait") -> Frame:
    """The frame of a page: header drawn, content box known. `name` is what the sheet is ("Stitch chart").

    >>> page(Heading("Mat"), Setting(), name="Stitch chart").content[0]
    12.0
    """
    short, long = PAPERS_MM[setting.paper]
    landscape = orientation == "landscape"
    width, height = (long, short) if landscape else (short, long)
    header, bottom = _header(heading, setting, name, width)
    content = (MARGIN_MM, bottom + 4.0, width - MARGIN_MM, height - MARGIN_MM - SMALL_MM - 3.6)
    return Frame(width, height, landscape, content, header)


def own_page(heading: Heading, setting: Setting, *, name: str, width: float, height: float) -> Frame:
    """The frame of a sheet of its own size: as large as a free box of `width` by `height` mm needs, and no narrower
    than the paper.
    """
    wide = max(width + 2 * MARGIN_MM, PAPERS_MM[setting.paper][0])
    header, bottom = _header(heading, setting, name, wide)
    content = (MARGIN_MM, bottom + 4.0, wide - MARGIN_MM, bottom + 4.0 + height)
    return Frame(wide, content[3] + MARGIN_MM + SMALL_MM + 3.6, wide > content[3], content, header)


def finish(
    frame: Frame, heading: Heading, items: Sequence[Ink | Text | Group], *, number: int, of: int, scale: str,
    title: str = "", desc: str = "",
) -> Sheet:  # fmt: skip
    """The printed page: header, content, footer ("Sheet 1 of 2", the scale, the licence)."""
    footer = _footer(frame, heading, f"Sheet {number} of {of}", scale)
    return Sheet(frame.width, frame.height, title or heading.title, (frame.header, *items, footer), desc=desc)


def line_ink(
    x0: float, y0: float, x1: float, y1: float, *, width: float = RULE_MM, colour: str = HAIR
) -> Ink:
    """A straight line."""
    d = f"M{number(x0)} {number(y0)}L{number(x1)} {number(y1)}"
    return Ink(d, stroke=colour, width=width)


def _header(heading: Heading, setting: Setting, name: str, width: float) -> tuple[Group, float]:
    """The header and the y of its rule."""
    left, right = MARGIN_MM, width - MARGIN_MM
    name_width = text_width(name, NAME_MM, "regular")
    lines = _title_lines(heading.title or "Untitled", right - left - name_width - 8.0)
    y = MARGIN_MM + TITLE_MM * 0.78
    items: list[Ink | Text | Group] = [Text(right, y, name, NAME_MM, "end", colour=QUIET, name="sheet name")]
    for line in lines:
        items.append(Text(left, y, line, TITLE_MM, weight="bold", colour=DARK, name="title"))
        y += TITLE_MM * 1.18
    y -= TITLE_MM * 1.18
    if heading.author:
        y += NAME_MM * 1.5
        items.append(Text(left, y, fitted(heading.author, right - left, NAME_MM), NAME_MM, name="author"))
    facts, y = _fact_items(heading.facts(setting), left, right, y + SMALL_MM * 1.9)
    rule = y + 2.2
    items += [*facts, line_ink(left, rule, right, rule)]
    return Group("header", tuple(items), "Header"), rule


def _title_lines(title: str, width_mm: float) -> tuple[str, ...]:
    lines = wrapped(title, width_mm, TITLE_MM, "bold")
    if len(lines) <= 2:
        return tuple(lines)
    return lines[0], fitted(" ".join(lines[1:]), width_mm, TITLE_MM, "bold")


def _fact_items(
    facts: Sequence[tuple[str, str]], left: float, right: float, y: float
) -> tuple[list[Ink | Text | Group], float]:
    """Label and value side by side, flowing into as many lines as they need."""
    items: list[Ink | Text | Group] = []
    x = left
    for label, value in facts:
        label_width = text_width(label, SMALL_MM, "regular") + _LABEL_GAP_MM
        value = fitted(value, right - left - label_width, SMALL_MM, "bold")
        wide = label_width + text_width(value, SMALL_MM, "bold")
        if x > left and x + wide > right:
            x, y = left, y + SMALL_MM * 1.5
        items.append(Text(x, y, label, SMALL_MM, colour=QUIET, name="fact label"))
        items.append(Text(x + label_width, y, value, SMALL_MM, weight="bold", name="fact"))
        x += wide + _FACT_GAP_MM
    return items, y


def _footer(frame: Frame, heading: Heading, sheet: str, scale: str) -> Group:
    left, right = MARGIN_MM, frame.width - MARGIN_MM
    y = frame.height - MARGIN_MM - SMALL_MM * 0.25
    rule = y - SMALL_MM - 1.2
    third = (right - left) / 3 - 4.0
    items: list[Ink | Text | Group] = [line_ink(left, rule, right, rule)]
    if heading.licence:
        licence = fitted(heading.licence, third, SMALL_MM)
        items.append(Text(left, y, licence, SMALL_MM, colour=QUIET, name="licence"))
    if scale:
        items.append(Text((left + right) / 2, y, scale, SMALL_MM, "middle", colour=QUIET, name="scale"))
    items.append(Text(right, y, sheet, SMALL_MM, "end", colour=QUIET, name="sheet number"))
    return Group("footer", tuple(items), "Footer")
