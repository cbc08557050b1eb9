"""What a pattern file says, as frozen records; lengths keep the words they were written in."""

from __future__ import annotations

import re
from dataclasses import field

from ...errors import Note
from ...made_late import dataclass
from ...measure import Length, show_length
from .places import Place, Words


@dataclass(frozen=True, slots=True)
class Yarn:
    """The yarn as far as given: category 0-7, fibre, and what weighing the swatch and the ball label say; `label` as it
    is written."""

    category: int | None = None
    fibre: str = ""
    swatch_weight_g: float | None = None
    swatch_mm: tuple[float, float] | None = None
    ball_g: float | None = None
    ball_m: float | None = None
    label: str = ""


@dataclass(frozen=True, slots=True)
class Gauge:
    """Stitches and rows over a length of the blocked swatch, in the body's stitch.

    `rows` is None where none was measured (row heights are then estimated from the stitch); `estimated` says
    that the gauge itself is a guess.
    """

    stitches: float
    over: Length
    rows: float | None = None
    border_stitches: float | None = None
    border_rows: float | None = None
    estimated: bool = False

    @property
    def stitch_mm(self) -> float:
        return self.over.mm / self.stitches

    @property
    def row_mm(self) -> float | None:
        return self.over.mm / self.rows if self.rows else None

    def words(self) -> str:
        """The gauge as a pattern prints it.

        >>> Gauge(17, Length(100, "cm", "10 cm"), 14).words()
        '17 sts and 14 rows = 10 cm'
        """
        rows = f" and {self.rows:g} rows" if self.rows else ""
        return f"{self.stitches:g} sts{rows} = {self.over.text}" + (
            " (an estimate)" if self.estimated else ""
        )


@dataclass(frozen=True, slots=True)
class Measured:
    """The object: its kind, its measurements by name, and which of them the foundation chain runs along.

    `stretch` is the least and the most by which the piece may stretch to fit (fractions), None where not
    given. `computed` says in words what was worked out from a named size; `called` is what makers call such a piece, ""
    where that is not said.
    """

    kind: str
    lengths: dict[str, Length]
    chain_along: str
    unit: str
    stretch: tuple[float, float] | None = None
    size: str = ""
    computed: tuple[str, ...] = ()
    place: Place = field(default_factory=lambda: Place(0, 0, 1, ""))
    called: str = ""

    def mm(self, name: str) -> float:
        """A measurement in millimetres; 0 where it is not given."""
        return self.lengths[name].mm if name in self.lengths else 0.0

    def shown(self, name: str) -> str:
        """A measurement in the pattern's unit."""
        return show_length(self.mm(name), self.unit)


@dataclass(frozen=True, slots=True)
class Colour:
    """A colour of the pattern: its letter, its name, and "#rrggbb"."""

    letter: str
    name: str
    hex: str

    def named_in(self, words: str) -> bool:
        """Whether rows are worked in it by their words: "with B", "changing to birch", "join colour B"."""
        called = f"(?:{re.escape(self.letter)}|(?i:{re.escape(self.name)}))"
        return bool(re.search(rf"(?i:\b(?:with|to|in|join|using|colou?r|yarn)) {called}\b", words))


@dataclass(frozen=True, slots=True)
class Special:
    """A special stitch in words of known ones, under its own abbreviation."""

    name: str
    words: str
    abbreviation: str
    line: int = 0


@dataclass(frozen=True, slots=True)
class Section:
    """A stretch of rows worked alike.

    Its length is `length` (a measurement's name or a length), or a number of `rows`. `stripes` are the
    colours of its rows in turn (one letter: one colour; none: the pattern has no colours). `work` is the text
    of its rows. `texture` "raised" asks raised stitches to stand out on the right side, "any" lets them face
    either way. `repeat_from` is the written row the row repeat starts with. `ends` is "as it began" or "whole
    repeat". `gauge_rows` is the section's own number of rows over the gauge's length. `to` is the width, or the number
    of stitches, that it ends with where that is another than it begins with; `over` those in the middle of the row
    below that alone it is worked over.
    """

    name: str
    work: Words
    length: str | Length | None = None
    rows: int | None = None
    stripes: tuple[str, ...] = ()
    texture: str = "raised"
    repeat_from: int = 1
    ends: str = "as it began"
    gauge_rows: float | None = None
    to: int | Length | None = None
    over: int | Length | None = None
    place: Place = field(default_factory=lambda: Place(0, 0, 1, ""))

    def colour(self, row: int) -> str:
        """The colour letter of the section's row `row`, from 0; "" where the pattern has none."""
        return self.stripes[row % len(self.stripes)] if self.stripes else ""


@dataclass(frozen=True, slots=True)
class Border:
    """The border: its stitch, how many rounds, stitches in a corner, and whether it joins the layers."""

    stitch: str = "sc"
    joins: bool = False
    corner: int = 3
    rounds: int = 1
    edging: str = ""
    colour: str = ""
    line: int = 0


@dataclass(frozen=True, slots=True)
class Fold:
    """A fold of the pattern's own: between two sections, of which one moves over or under."""

    at: tuple[str, ...]
    moves: str
    direction: str = "over"
    says: str = ""
    place: Place = field(default_factory=lambda: Place(0, 0, 1, ""))


@dataclass(frozen=True, slots=True)
class Join:
    """A join of the pattern's own: the two edges that meet and how they are held together."""

    first: str
    second: str
    by: str = "border"
    name: str = ""
    place: Place = field(default_factory=lambda: Place(0, 0, 1, ""))


@dataclass(frozen=True, slots=True)
class Pattern:
    """A pattern file, read; `file` is its name, `notes` what is worth saying but not wrong."""

    title: str
    gauge: Gauge
    object: Measured
    sections: tuple[Section, ...]
    file: str = ""
    author: str = ""
    licence: str = ""
    terms: str = ""
    photo: str = ""
    difficulty: str = ""
    notions: str = ""
    notes_to_maker: str = ""
    testers: str = ""
    hook: str = ""
    hook_mm: float | None = None
    yarn: Yarn = Yarn()
    colours: tuple[Colour, ...] = ()
    specials: tuple[Special, ...] = ()
    border: Border | None = None
    folds: tuple[Fold, ...] = ()
    joins: tuple[Join, ...] = ()
    sizes: dict[str, Measured] = field(default_factory=dict)
    notes: tuple[Note, ...] = ()
    lines: tuple[str, ...] = ()

    def line(self, number: int) -> str:
        """A line of the file as written, for a problem's marker; "" outside."""
        return self.lines[number - 1] if 1 <= number <= len(self.lines) else ""

    @property
    def used_colours(self) -> tuple[Colour, ...]:
        """The colours that a section or the border is worked in, in the order of the key."""
        letters = {letter for section in self.sections for letter in section.stripes}
        letters |= {self.border.colour} if self.border else set()
        letters |= {c.letter for c in self.colours if any(c.named_in(s.work.text) for s in self.sections)}
        return tuple(c for c in self.colours if c.letter in letters)
