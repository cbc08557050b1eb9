"""What every sheet is told: how the reader wants it, and what its header says of the piece."""

from __future__ import annotations

from typing import Literal, get_args

from .made_late import dataclass

Paper = Literal["A4", "Letter"]
Extent = Literal["repeat", "full"]
Hand = Literal["right", "left"]
Terms = Literal["US", "UK"]
Tone = Literal["colour", "mono"]
ScForm = Literal["plus", "x"]
Unit = Literal["mm", "cm", "in"]
#: The files that words are written as.
TextForm = Literal["md", "txt", "html", "docx"]
ChartStyle = Literal["stitches", "squares"]
#: Whether the stitches of a kind in a row are one path, or each is a group of its own.
Stitches = Literal["together", "separate"]
#: How wrong-side rows are drawn: as the right side shows them, or as the worker sees them.
Seen = Literal["right-side", "as-worked"]


@dataclass(frozen=True, slots=True)
class Heading:
    """What the header and the footer say of the piece, as printed; an empty value is left out."""

    title: str
    author: str = ""
    licence: str = ""
    finished: str = ""
    gauge: str = ""
    hook: str = ""
    terms: str = ""

    def facts(self, setting: Setting) -> tuple[tuple[str, str], ...]:
        """The header's facts as (label, value), those that are known."""
        every = (
            ("Finished size", self.finished),
            ("Gauge" if setting.terms == "US" else "Tension", self.gauge),
            ("Hook", self.hook),
            ("Terms", self.terms or setting.terms),
        )
        return tuple((label, value) for label, value in every if value)


@dataclass(frozen=True, slots=True)
class Setting:
    """How the reader wants the sheets: paper, extent of the chart, hand, terms, ink, form of the sc, unit, how
    wrong-side rows are drawn, and of which of the pattern's sizes ("": as the file measures its object)."""

    paper: Paper = "A4"
    extent: Extent = "repeat"
    hand: Hand = "right"
    terms: Terms = "US"
    tone: Tone = "colour"
    sc_form: ScForm = "plus"
    unit: Unit = "mm"
    seen: Seen = "right-side"
    size: str = ""

    def __post_init__(self) -> None:
        for name, kind in _CHOICES.items():
            if getattr(self, name) not in get_args(kind):
                raise ValueError(f"{name} is one of {', '.join(get_args(kind))}, not {getattr(self, name)!r}")


_CHOICES = {
    "paper": Paper, "extent": Extent, "hand": Hand, "terms": Terms, "tone": Tone, "sc_form": ScForm,
    "unit": Unit, "seen": Seen,
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class ChartSetting:
    """What a chart shows besides the page's own setting: counts at the row ends, a row lit up (1-based), whether it is
    drawn stitch by stitch or as a grid of squares, sentences that stand under it after its own, and whether the
    stitches of a kind in a row are one path, or each is a group with an id."""

    counts: bool = True
    lit_row: int = 0
    style: ChartStyle = "stitches"
    says: tuple[str, ...] = ()
    stitches: Stitches = "together"


@dataclass(frozen=True, slots=True)
class Wanted:
    """How drawings become files: `pages` for the printed pages in SVG and PNG too, a file each; the dots per inch of a
    PNG, as many as usual and can be where none are said."""

    pages: bool = False
    dpi: float | None = None
