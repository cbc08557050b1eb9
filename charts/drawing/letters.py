"""Text as outlines, with exact widths: the same ink in every renderer, whatever fonts the reader has.

The outlines come from outlines.json (made once from an open font; its licence lies beside it). Widths include
kerning. Figures are all of one width.
"""

from __future__ import annotations

import functools
import json
import re
from collections.abc import Iterator
from importlib import resources

from ..made_late import dataclass
from .display import Text
from .geometry import number, relative_data
from .plain import LINE_LIMIT, clean_line

_PART = re.compile(r"([MLQZ])([^MLQZ]*)")
#: A space at which a line may be broken: not one between a number and its unit.
_SPACE = re.compile(r"(?<!\d) | (?!(?:mm|cm|m|in|g|%)(?![A-Za-z]))")
#: Which share of a line lies before its place.
_BEFORE = {"start": 0.0, "middle": 0.5, "end": 1.0}
#: What stands for a character without an outline: an open box.
_BOX = (600, "M60 0L60 -660L540 -660L540 0ZM120 -60L480 -60L480 -600L120 -600Z")


@dataclass(frozen=True, slots=True)
class Weight:
    """One weight of the type: kerning of pairs, each character's advance and outline, in units of the em."""

    kern: dict[str, int]
    letters: dict[str, tuple[int, str]]


@dataclass(frozen=True, slots=True)
class Type:
    """The whole table: its em, x-height and cap height in its own units, and its weights."""

    name: str
    em: int
    x_height: int
    cap_height: int
    weights: dict[str, Weight]


@functools.cache
def type_table() -> Type:
    """The outline table, read once."""
    table = json.loads((resources.files("hookfold.charts.drawing") / "outlines.json").read_text("utf-8"))
    weights = {
        name: Weight(entry["kern"], {c: (adv, d) for c, (adv, d) in entry["letters"].items()})
        for name, entry in table["weights"].items()
    }
    return Type(table["name"], table["em"], table["x_height"], table["cap_height"], weights)


def placed_line(line: Text) -> tuple[str, float]:
    """The words of a line as they are set, and how far before its place they begin, in mm along it.

    Every writer of sheets places words by this.
    """
    words = clean_line(line.text)
    return words, _BEFORE[line.anchor] * text_width(words, line.size, line.weight)


def text_width(text: str, size: float, weight: str = "regular") -> float:
    """The exact advance of a line of text, in mm for `size` (the em) in mm.

    >>> round(text_width("00", 10.0), 3)
    9.94
    """
    return _advance(text, weight) * size / type_table().em


@functools.lru_cache(maxsize=8192)
def _advance(text: str, weight: str) -> int:
    """The advance of a line of text in units of the em. Kept, as the same words stand on sheet after sheet."""
    face = _face(weight)
    letters, kern = face.letters, face.kern
    total, before = 0, ""
    for c in text:
        total += letters.get(c, _BOX)[0] + kern.get(before + c, 0)
        before = c
    return total


def outline(text: str, size: float, weight: str = "regular") -> str:
    """The path data of a line of text, its baseline starting at (0, 0): to be filled."""
    placed = set_letters(text, size, weight)
    return "".join(f"M{number(x)} 0{_drawn(c, size, weight)}" for c, x in placed)


def outline_of(char: str, size: float, weight: str = "regular") -> str:
    """The path data of one letter, its baseline starting at (0, 0): to be filled."""
    return f"M0 0{_drawn(char, size, weight)}"


def set_letters(text: str, size: float, weight: str = "regular") -> list[tuple[str, float]]:
    """The letters of a line that have ink, each with where it begins from the line's start, in mm."""
    face, scale = _face(weight), size / type_table().em
    found, pen, before = [], 0.0, ""
    for c in text:
        pen += face.kern.get(before + c, 0) * scale
        if _drawn(c, size, weight):
            found.append((c, pen))
        pen += _letter(face, c)[0] * scale
        before = c
    return found


def x_height(size: float) -> float:
    """The height of a small letter in mm."""
    return type_table().x_height * size / type_table().em


def cap_height(size: float) -> float:
    """The height of a capital and of a figure in mm."""
    return type_table().cap_height * size / type_table().em


def has(char: str, weight: str = "regular") -> bool:
    """Whether the type has this character; what it has not is drawn as an open box."""
    return char in _face(weight).letters


def wrapped(text: str, width: float, size: float, weight: str = "regular") -> list[str]:
    """The lines of `text` that fit in `width` mm, broken at spaces but not between a number and its unit; a longer
    word where it must be. None has more letters than a line of a sheet may have."""
    lines: list[str] = []
    for word in filter(None, _SPACE.split(" ".join(text.split()))):
        joined = f"{lines[-1]} {word}" if lines else word
        if lines and len(joined) <= LINE_LIMIT and text_width(joined, size, weight) <= width:
            lines[-1] = joined
        else:
            lines += _broken(word, width, size, weight)
    return lines


def fitted(text: str, width: float, size: float, weight: str = "regular") -> str:
    """The text, cut with an ellipsis if it is wider than `width` mm."""
    if text_width(text, size, weight) <= width:
        return text
    kept = text
    while kept and text_width(kept + "…", size, weight) > width:
        kept = kept[:-1].rstrip()
    return kept + "…"


def _broken(word: str, width: float, size: float, weight: str) -> list[str]:
    """A word in pieces no wider than `width`, each at least one character."""
    pieces = [""]
    for c in word:
        if pieces[-1] and text_width(pieces[-1] + c, size, weight) > width:
            pieces.append("")
        pieces[-1] += c
    return pieces


def _face(weight: str) -> Weight:
    weights = type_table().weights
    if weight not in weights:
        raise ValueError(f'the type has no weight "{weight}": use {" or ".join(weights)}')
    return weights[weight]


def _letter(face: Weight, char: str) -> tuple[int, str]:
    return face.letters.get(char, _BOX)


@functools.lru_cache(maxsize=4096)
def _drawn(char: str, size: float, weight: str) -> str:
    """A character's outline at `size`, relative to the pen's place."""
    scale = size / type_table().em
    steps = _steps(_letter(_face(weight), char)[1])
    sized = tuple((command, tuple((x * scale, y * scale) for x, y in points)) for command, points in steps)
    return relative_data([sized])


def _steps(outline_: str) -> Iterator[tuple[str, list[tuple[int, int]]]]:
    """The commands of an outline with their points."""
    for command, numbers in _PART.findall(outline_):
        values = [int(v) for v in numbers.split()]
        yield command, list(zip(values[::2], values[1::2], strict=True))
