"""The display list written as SVG: the only module that touches svgwrite.

True size: width and height in mm and a viewBox in mm. A full-page background comes first (without it cairo's
PDF surface grows quadratically with the strokes). Text is written as outlines; its words go along as a label,
so that a screen reader and the searchable layer of a PDF have them. Ends and joins are round, dashes are cut
square.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable
from typing import Any

import svgwrite
from svgwrite.base import Desc, Title
from svgwrite.container import Group as SvgGroup
from svgwrite.path import Path
from svgwrite.shapes import Rect

from .display import Group, Ink, Sheet, Text
from .geometry import number
from .letters import outline, text_width
from .plain import clean_line, clean_text

_ANCHORS = {"start": 0.0, "middle": 0.5, "end": 1.0}
_COLOUR = re.compile("#[0-9a-f]{6}")


class _Names:
    """Ids in plain words, each used once in a document."""

    def __init__(self) -> None:
        self._used: dict[str, int] = {}

    def take(self, words: str) -> str:
        """The id for these words: small letters and hyphens, with a number where it was used before."""
        plain = unicodedata.normalize("NFKD", words).encode("ascii", "ignore").decode().lower()
        stem = re.sub(r"[^a-z0-9]+", "-", plain).strip("-")[:60]
        stem = stem if stem[:1].isalpha() else f"part-{stem}".strip("-")
        count = self._used.get(stem, 0) + 1
        self._used[stem] = count
        return self.take(f"{stem}-{count}") if count > 1 else stem


def write(sheet: Sheet) -> bytes:
    """The sheet as an SVG file. The same sheet gives the same bytes.

    ValueError says which part cannot be drawn: a colour that is not #rrggbb, a number that is not finite.
    """
    width, height = number(sheet.width), number(sheet.height)
    drawing = svgwrite.Drawing(
        size=(f"{width}mm", f"{height}mm"), viewBox=f"0 0 {width} {height}", debug=False, profile="full"
    )
    drawing.attribs["role"] = "img"
    drawing.elements.remove(drawing.defs)
    _describe(drawing, sheet.title, sheet.desc)
    drawing.add(Rect(size=(width, height), fill=_colour(sheet.background)))
    names = _Names()
    for item in sheet.items:
        drawing.add(_element(item, names))
    return ('<?xml version="1.0" encoding="UTF-8"?>\n' + str(drawing.tostring()) + "\n").encode("utf-8")


def _describe(element: Any, title: str, desc: str) -> None:
    """What a screen reader says of an element, before anything else in it."""
    if title:
        element.elements.insert(0, Title(clean_line(title)))
    if desc:
        element.elements.insert(1 if title else 0, Desc(clean_text(desc, 4000)))


def _element(item: Ink | Text | Group, names: _Names) -> Any:
    if isinstance(item, Group):
        return _group(item, names)
    return _text(item, names) if isinstance(item, Text) else _ink(item, names)


def _group(group: Group, names: _Names) -> Any:
    drawn = SvgGroup(id=names.take(group.name)) if group.name else SvgGroup()
    _describe(drawn, group.title, group.desc)
    for item in group.items:
        drawn.add(_element(item, names))
    return drawn


def _ink(ink: Ink, names: _Names) -> Any:
    given: dict[str, str] = {"fill": _colour(ink.fill) if ink.fill else "none"}
    if ink.stroke:
        given |= {"stroke": _colour(ink.stroke), "stroke_width": number(ink.width)}
        given |= _ends(ink.dash)
    return Path(d=_checked(ink.d), debug=False, **given, **_id(ink.name, names))


def _ends(dash: Iterable[float]) -> dict[str, str]:
    """Round ends and joins; a dash is cut square, or its gaps would close."""
    lengths = " ".join(number(v) for v in dash)
    ends = {"stroke_linecap": "butt" if lengths else "round", "stroke_linejoin": "round"}
    return ends | ({"stroke_dasharray": lengths} if lengths else {})


def _text(text: Text, names: _Names) -> Any:
    """Outlines from the baseline's start, moved to their place; the words as label, the em as font size."""
    words = clean_line(text.text)
    back = _ANCHORS[text.anchor] * text_width(words, text.size, text.weight)
    place = f"translate({number(text.x)} {number(text.y)})"
    place += f" rotate({number(text.angle)})" if text.angle else ""
    place += f" translate({number(-back)} 0)" if back and text.angle else ""
    if back and not text.angle:
        place = f"translate({number(text.x - back)} {number(text.y)})"
    path = Path(
        d=outline(words, text.size, text.weight) or "M0 0", debug=False, fill=_colour(text.colour),
        transform=place, font_size=number(text.size), **_id(text.name, names),
    )  # fmt: skip
    path.attribs["aria-label"] = words
    if text.weight != "regular":
        path.attribs["font-weight"] = text.weight
    return path


def _id(name: str, names: _Names) -> dict[str, str]:
    return {"id": names.take(name)} if name else {}


def _colour(colour: str) -> str:
    plain = colour.lower()
    if not _COLOUR.fullmatch(plain):
        raise ValueError(f'"{colour}" is not a colour of the form #rrggbb')
    return plain


def _checked(d: str) -> str:
    """Path data that holds numbers and commands only."""
    if not _PATH.fullmatch(d):
        raise ValueError("path data may hold M, L, C, Q, Z and finite numbers only")
    return d


_PATH = re.compile(r"M[-0-9. ,MLCQZmlcqz]*")
