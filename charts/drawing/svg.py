"""The display list written as SVG: the only module that touches svgwrite.

True size: width and height in mm and a viewBox in mm. A full-page background comes first (without it cairo's
PDF surface grows quadratically with the strokes). Text is written as outlines, each letter once in a size and then
laid down wherever it stands; the words go along as a label, so that a screen reader and the searchable layer of a
PDF have them. Ends and joins are round, dashes are cut square.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable
from typing import Any

import svgwrite
from svgwrite.base import Desc, Title
from svgwrite.container import Defs, Use
from svgwrite.container import Group as SvgGroup
from svgwrite.path import Path
from svgwrite.shapes import Rect

from .display import Group, Ink, Sheet, Text
from .geometry import number
from .letters import outline_of, placed_line, set_letters
from .plain import clean_line, clean_text

#: The language of all sheets (BCP 47).
LANGUAGE = "en"
#: The most letters of an id, its number among them.
LONGEST_ID = 60
_COLOUR = re.compile("#[0-9a-f]{6}")


class _Names:
    """Ids in plain words, each used once in a document; `letters` are those of the letters that stand in it."""

    def __init__(self) -> None:
        self._used: dict[str, int] = {}
        self.letters: dict[tuple[str, float, str], str] = {}

    def letter(self, char: str, size: float, weight: str) -> str:
        """The id of a letter's outline in a size and a weight."""
        key = (char, size, weight)
        if key not in self.letters:
            self.letters[key] = self.take("letter")
        return self.letters[key]

    def take(self, words: str) -> str:
        """The id for these words: small letters and hyphens, with a number where it was used before."""
        plain = unicodedata.normalize("NFKD", words).encode("ascii", "ignore").decode().lower()
        stem = re.sub(r"[^a-z0-9]+", "-", plain).strip("-")[:LONGEST_ID]
        stem = stem if stem[:1].isalpha() else f"part-{stem}".strip("-")
        count = self._used.get(stem, 0) + 1
        self._used[stem] = count
        end = f"-{count}"
        return self.take(f"{stem[: LONGEST_ID - len(end)]}{end}") if count > 1 else stem


def write(sheet: Sheet) -> bytes:
    """The sheet as an SVG file. The same sheet gives the same bytes.

    ValueError says which part cannot be drawn: a colour that is not #rrggbb, a number that is not finite.
    """
    width, height = number(sheet.width), number(sheet.height)
    drawing = svgwrite.Drawing(
        size=(f"{width}mm", f"{height}mm"), viewBox=f"0 0 {width} {height}", debug=False, profile="full"
    )
    drawing.attribs["role"] = "img"
    drawing.attribs["xml:lang"] = LANGUAGE
    drawing.elements.remove(drawing.defs)
    _describe(drawing, sheet.title, sheet.desc)
    names = _Names()
    drawn = [_element(item, names) for item in sheet.items]
    if names.letters:
        drawing.add(_letters(names))
    drawing.add(Rect(size=(width, height), fill=_colour(sheet.background)))
    for element in drawn:
        drawing.add(element)
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
    """Letters from the baseline's start, moved to their place; the words as label, the em as font size."""
    words, back = placed_line(text)
    place = f"translate({number(text.x)} {number(text.y)})"
    place += f" rotate({number(text.angle)})" if text.angle else ""
    place += f" translate({number(-back)} 0)" if back and text.angle else ""
    if back and not text.angle:
        place = f"translate({number(text.x - back)} {number(text.y)})"
    line = SvgGroup(
        debug=False, fill=_colour(text.colour), transform=place, font_size=number(text.size), **_id(text.name, names)
    )
    line.attribs["aria-label"] = words
    if text.weight != "regular":
        line.attribs["font-weight"] = text.weight
    for char, x in set_letters(words, text.size, text.weight):
        line.add(Use(f"#{names.letter(char, text.size, text.weight)}", debug=False, **({"x": number(x)} if x else {})))
    return line


def _letters(names: _Names) -> Any:
    """The outline of every letter that stands on the sheet, to be laid down by its id."""
    defs = Defs()
    for (char, size, weight), name in names.letters.items():
        defs.add(Path(d=outline_of(char, size, weight), debug=False, id=name))
    return defs


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
