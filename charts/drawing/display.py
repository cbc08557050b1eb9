"""The display list: what stands on a sheet, in mm, y downward. Layout makes it, the writer inks it."""

from __future__ import annotations

import functools
from collections.abc import Callable, Sequence

from ..made_late import dataclass


@dataclass(frozen=True, slots=True)
class Ink:
    """A path: SVG path data in mm (M first, then M L C Q Z or their relative forms), stroked, filled or both.

    Colours are "#rrggbb" or "" for none; `width` is the stroke in mm; `dash` alternates ink and gap in mm.
    """

    d: str
    stroke: str = ""
    width: float = 0.0
    fill: str = ""
    dash: tuple[float, ...] = ()
    name: str = ""


@dataclass(frozen=True, slots=True)
class Text:
    """A line of text: baseline at (x, y), `size` the em in mm, `anchor` start, middle or end."""

    x: float
    y: float
    text: str
    size: float
    anchor: str = "start"
    weight: str = "regular"
    colour: str = "#1d1d1b"
    angle: float = 0.0
    name: str = ""


@dataclass(frozen=True, slots=True)
class Group:
    """Things that belong together: an id in plain words, a title for screen readers, a longer description."""

    name: str
    items: tuple[Ink | Text | Group, ...]
    title: str = ""
    desc: str = ""


@dataclass(frozen=True, slots=True)
class Sheet:
    """One page: its size in mm, what a reader is told it is, and its items from the back to the front."""

    width: float
    height: float
    title: str
    items: tuple[Ink | Text | Group, ...]
    desc: str = ""
    background: str = "#ffffff"


class Document:
    """The pages of one file in order, with the metadata that a PDF carries; `whole` is all that they show on one sheet
    of its own size: SVG and PNG hold that. Pages and whole may be given as functions, called when first asked for."""

    def __init__(
        self, sheets: Sequence[Sheet] | Callable[[], Sequence[Sheet]], title: str, author: str = "", licence: str = "",
        keywords: tuple[str, ...] = (), whole: Sheet | Callable[[], Sheet | None] | None = None,
    ) -> None:  # fmt: skip
        self._sheets, self._whole = sheets, whole
        self.title, self.author, self.licence, self.keywords = title, author, licence, keywords

    @functools.cached_property
    def sheets(self) -> tuple[Sheet, ...]:
        """The printed pages."""
        return tuple(self._sheets() if callable(self._sheets) else self._sheets)

    @functools.cached_property
    def whole(self) -> Sheet | None:
        """All of it on one sheet of its own size; None where the first page is that."""
        return self._whole() if callable(self._whole) else self._whole
