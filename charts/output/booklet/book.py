"""What stands in a booklet, in the order of its pages, as plain records that the press sets."""

from __future__ import annotations

from dataclasses import field

from ...made_late import dataclass


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture of the book: its bytes, what they are, what a reader who cannot see it is told, and what stands under
    it ("" for nothing)."""

    data: bytes
    suffix: str
    says: str
    under: str = ""


@dataclass(frozen=True, slots=True)
class Paragraphs:
    """Running text; `small` where it is only a note to what stands above it; one that `leads` to what stands below is
    not parted from that."""

    lines: tuple[str, ...]
    small: bool = False
    leads: bool = False


@dataclass(frozen=True, slots=True)
class Points:
    """A list with marks."""

    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Step:
    """A step of the finishing: what is done, the lines under it, and a table of what differs by size (or None)."""

    says: str
    lines: tuple[str, ...] = ()
    table: Table | None = None
    after: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Steps:
    """The steps of the finishing, numbered as their drawings are."""

    entries: tuple[Step, ...]


@dataclass(frozen=True, slots=True)
class Table:
    """A table with a head; `swatches` are the colours ("#rrggbb", or "" for none) shown before the rows."""

    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    swatches: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Pairs:
    """Short words and what they mean; each on a line of its own where what they mean is `long`."""

    entries: tuple[tuple[str, str], ...]
    long: bool = False


@dataclass(frozen=True, slots=True)
class RowLine:
    """One line of the rows: what it is called, its words with the count, how many rows it is, and by how many they
    are ticked off together. `stops` are the rows after which some sizes are done, with their names; `note` is what a
    maker may ask at that row."""

    label: str
    words: str
    rows: int = 1
    group: int = 5
    stops: tuple[tuple[int, str], ...] = ()
    note: str = ""


@dataclass(frozen=True, slots=True)
class Rows:
    """Rows to work, each with a place to tick."""

    lines: tuple[RowLine, ...]


@dataclass(frozen=True, slots=True)
class Sign:
    """A stitch of the key: its abbreviation, its name, its words, and its sign as it stands in the chart, so many mm
    wide and high."""

    short: str
    name: str
    words: str
    svg: bytes
    mm: tuple[float, float]


@dataclass(frozen=True, slots=True)
class Signs:
    """The stitches that the charts and words use."""

    entries: tuple[Sign, ...]


@dataclass(frozen=True, slots=True)
class Sides:
    """The finished piece drawn small with its measurements: the outer size and, where a border stands outside, what
    lies inside it; mm for the drawing, words for the figures. A `hat` is drawn as it lies flat: its width, the height
    of its crown and of its sides, and how much of these is its brim. `beyond` is what stands out past the edge (a
    strap), which the outer size leaves out: how far, in words, and how wide its end is. `lines` say what the lines
    within stand for."""

    outer_mm: tuple[float, float]
    inner_mm: tuple[float, float]
    outer: tuple[str, str]
    inner: tuple[str, str]
    names: tuple[str, str]
    within: tuple[str, str] = ("", "")
    hat: tuple[float, ...] = ()
    beyond: tuple[float, str, float] = (0.0, "", 0.0)
    lines: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Drawn:
    """On which pages of the booklet its drawn pages stand."""


Block = Paragraphs | Points | Steps | Table | Pairs | Rows | Signs | Sides | Drawn


@dataclass(frozen=True, slots=True)
class Chapter:
    """A heading and what stands under it. `depth` 1 begins a running head, 2 stands under one."""

    title: str
    blocks: tuple[Block, ...] = ()
    depth: int = 1

    @property
    def wide(self) -> bool:
        """Whether it holds a table or a drawing that a column of the page has no room for."""
        held = [b.table for block in self.blocks if isinstance(block, Steps) for b in block.entries]
        return any(isinstance(block, Table | Sides) for block in self.blocks) or any(held)


@dataclass(frozen=True, slots=True)
class Plate:
    """A whole page that is drawn: its SVG and its size in mm, the heading that it stands under (the first page of
    several only), its description."""

    title: str
    svg: bytes
    says: str
    mm: tuple[float, float]


@dataclass(frozen=True, slots=True)
class Band:
    """A stripe of the piece as it lies: how tall in mm, and its colour."""

    mm: float
    hex: str


@dataclass(frozen=True, slots=True)
class Book:
    """A booklet: what its cover says, its pages in order, and the sides of the paper."""

    title: str
    author: str = ""
    licence: str = ""
    facts: tuple[tuple[str, str], ...] = ()
    cover: Picture | None = None
    bands: tuple[Band, ...] = ()
    chapters: tuple[Chapter, ...] = ()
    plates: tuple[Plate, ...] = ()
    paper: str = "A4"
    columns: int = 1
    keywords: tuple[str, ...] = field(default=("crochet",))
