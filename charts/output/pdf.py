"""What a PDF is told beside its drawings: metadata, bookmarks, and the words that lie over their outlines."""

from __future__ import annotations

from ..made_late import dataclass


@dataclass(frozen=True, slots=True)
class Words:
    """A line of text on a sheet: where it is placed (an SVG transform), its em in mm, its weight."""

    text: str
    transform: str
    size: float
    weight: str = "regular"


@dataclass(frozen=True, slots=True)
class Metadata:
    """What the file says of itself; `labels` are the page numbers a reader shows (one a page, or none)."""

    title: str
    author: str = ""
    subject: str = ""
    keywords: tuple[str, ...] = ()
    labels: tuple[str, ...] = ()
    language: str = "en"


@dataclass(frozen=True, slots=True)
class OutlineEntry:
    """A bookmark: its words, the page it opens (from 1), and its depth (0 is the outermost)."""

    title: str
    page: int
    level: int = 0
