"""The specimen: every glyph with its US and UK names on one printed page."""

from __future__ import annotations

from collections.abc import Sequence

from hookfold.symbols import (
    Mark,
    arrow,
    begin,
    beneath,
    bracket,
    draw,
    extent,
    fasten_off,
    glyph,
    magic_ring,
    marker,
    no_stitch,
    picot,
    ring,
    start,
    stitch,
    turn,
)
from hookfold.symbols.dictionary import heights
from hookfold.symbols.ink import Box

from ...drawing.display import Group, Ink, Sheet, Text
from ...drawing.geometry import Affine, ink_of
from ...drawing.letters import fitted, text_width
from ...made_late import dataclass
from ...setting import Heading, Paper, Setting, Terms
from .page import DARK, QUIET, Frame, finish, line_ink, page

#: The scale of the specimen: one stitch width in mm (charts are never printed below 3).
STITCH_MM = 3.4
COLUMNS = 4
GLYPH_MM = 11.5
TEXT_MM = 2.5
LINE_MM = 3.25
MOST_ROW_GAP_MM = 4.6
UNDER_HEAD_MM = 1.6
UNDER_SECTION_MM = 1.6
HEAD_MM = 3.2


#: No ink.
NOTHING = Mark()
#: A line beside a glyph: runs of (words, weight, colour).
Line = list[tuple[str, str, str]]


@dataclass(frozen=True, slots=True)
class Entry:
    """One glyph of the specimen, with its abbreviation and name in both terms ("" where there is none); `beneath` is
    the stitch that its hook closes round."""

    mark: Mark
    us: str
    uk: str
    us_name: str
    uk_name: str
    beneath: Mark = NOTHING

    @property
    def box(self) -> Box:
        """The box of all its ink."""
        return extent(self.mark + self.beneath)


def specimen(terms: Terms = "US", paper: Paper = "A4") -> Sheet:
    """The page, names in `terms` first.

    >>> specimen("UK").title
    'Stitch symbols'
    """
    setting = Setting(paper=paper, terms=terms)
    heading = Heading("Stitch symbols", terms="US and UK")
    frame = page(heading, setting, name="Specimen")
    items: list[Group] = []
    y, gap = frame.content[1], _row_gap(frame, terms)
    for title, entries in sections():
        group, y = _section(frame, y, title, entries, terms, gap)
        items.append(group)
    return finish(
        frame, heading, items, number=1, of=1, scale=f"One stitch width is {STITCH_MM} mm",
        title="Stitch symbols", desc="Every glyph of the stitch charts with its names in US and UK terms.",
    )  # fmt: skip


def sections() -> tuple[tuple[str, tuple[Entry, ...]], ...]:
    """All entries under their headings."""
    together = ("sc2tog", "sc3tog", "hdc2tog", "dc2tog", "dc3tog", "tr2tog")
    gathered = (
        "dc-cluster-2", "dc-cluster-3", "tr-cluster-3", "dc-bobble-5", "hdc-puff-3", "dc-popcorn-5",
    )  # fmt: skip
    plain = tuple(heights())
    posts = ("FPsc", "BPsc", "FPhdc", "BPhdc", "FPdc", "BPdc", "FPtr", "BPtr")
    reaching = ("spike sc", "ldc", "rsc")
    chained = ("esc", "ehdc", "edc", "etr", "fsc", "fhdc", "fdc")
    return (
        ("Chains", (_stitch("ch"), _picot(3), *_rings())),
        ("Plain stitches", (*map(_stitch, plain), _x("sc"))),
        ("Several ended as one", (*map(_stitch, together), _x("sc2tog"), _x("sc3tog"))),
        ("Several from one foot", (*_fans(), *map(_stitch, gathered))),
        ("Round a post", tuple(map(_stitch, posts))),
        ("In one loop, crossed, and further down", (*_loops(), _crossed(), *map(_stitch, reaching))),
        ("With a chain of their own", tuple(map(_stitch, chained))),
        ("Signs", _signs()),
    )  # fmt: skip


def _stitch(kind: str) -> Entry:
    known = stitch(kind)
    drawn = glyph(kind).mark
    us, uk = (known.us_name, known.uk_name) if known.form == "gathered" else (known.name, known.uk)
    shape = known.form == "gathered"
    return Entry(
        drawn, "" if shape else us, "" if shape else uk, known.us_name, known.uk_name, beneath(kind)
    )  # fmt: skip


def _x(kind: str) -> Entry:
    known = stitch(kind)
    drawn = glyph(kind, sc_form="x").mark
    return Entry(drawn, known.name, known.uk, f"{known.us_name}, as x", f"{known.uk_name}, as x")


def _picot(chains: int) -> Entry:
    return _sign(picot(chains, (0.0, 0.0)), f"picot of {chains} chains")


def _rings() -> tuple[Entry, ...]:
    round_ = ((0.0, 0.0), 0.7)
    return (_sign(ring(*round_), "ring of chains"), _sign(magic_ring(*round_), "magic ring"))


def _fans() -> tuple[Entry, ...]:
    """Two and three stitches in one place, as charts draw them."""
    pair = sum((draw("sc", [(0.0, 0.0)], (x, -1.0)) for x in (-0.5, 0.5)), Mark())
    heads = [(float(x), -2.1) for x in (-1, 0, 1)]
    shell = sum((draw("dc", [(0.0, 0.0)], head) for head in heads), Mark())
    return (
        Entry(pair, "", "", "2 sc in one stitch", "2 dc in one stitch"),
        Entry(shell, "", "", "3 dc in one stitch", "3 tr in one stitch"),
    )


def _loops() -> tuple[Entry, ...]:
    return tuple(
        Entry(
            glyph("sc", hold=f"{side} loop").mark, f"{letter}LO sc", f"{letter}LO dc",
            f"single crochet, {side} loop", f"double crochet, {side} loop",
        )
        for side, letter in (("front", "F"), ("back", "B"))
    )  # fmt: skip


def _crossed() -> Entry:
    front = draw("dc", [(-0.5, 0.0)], (0.5, -2.1))
    behind = draw("dc", [(0.5, 0.0)], (-0.5, -2.1), behind=[(0.0, -1.05)])
    return Entry(front + behind, "", "", "crossed double crochet", "crossed treble")


def _signs() -> tuple[Entry, ...]:
    origin = (0.0, 0.0)
    return (
        _sign(begin(origin), "begin"),
        _sign(start(origin), "join the yarn"),
        _sign(fasten_off(origin), "fasten off"),
        _sign(turn(origin), "turn the work"),
        _sign(arrow((-0.8, 0.0), (0.8, 0.0)), "direction of work"),
        _sign(bracket((-1.2, 0.0), (1.2, 0.0)), "repeat"),
        _sign(marker(origin), "stitch marker"),
        _sign(no_stitch(origin), "no stitch"),
    )


def _sign(mark: Mark, name: str) -> Entry:
    return Entry(mark, "", "", name, name)


def _row_gap(frame: Frame, terms: Terms) -> float:
    """The white between rows: as much as the page allows, up to `MOST_ROW_GAP_MM`."""
    rows = [row for _, entries in sections() for row in _rows(entries)]
    heads = len(sections()) * (HEAD_MM + UNDER_HEAD_MM + UNDER_SECTION_MM)
    left_over = frame.content_height - heads - sum(_tall(row, terms) for row in rows)
    return min(MOST_ROW_GAP_MM, left_over / len(rows))


def _rows(entries: Sequence[Entry]) -> list[Sequence[Entry]]:
    return [entries[i : i + COLUMNS] for i in range(0, len(entries), COLUMNS)]


def _tall(entries: Sequence[Entry], terms: Terms) -> float:
    """The height of a row: its tallest glyph, or its most lines."""
    boxes = [e.box for e in entries]
    lines = max(len(_words(e, terms)) for e in entries)
    return max(max(b[3] - b[1] for b in boxes) * STITCH_MM, lines * LINE_MM)


def _section(
    frame: Frame, y: float, title: str, entries: Sequence[Entry], terms: Terms, gap: float
) -> tuple[Group, float]:
    """A heading, a rule, and the entries in rows of `COLUMNS`; and the y below them."""
    left, right = frame.content[0], frame.content[2]
    y += HEAD_MM
    items: list[Ink | Text | Group] = [
        Text(left, y, title, HEAD_MM, weight="bold", colour=DARK),
        line_ink(left + text_width(title, HEAD_MM, "bold") + 2.0, y - 1.0, right, y - 1.0),
    ]
    y += UNDER_HEAD_MM
    for row in _rows(entries):
        foot = y + _tall(row, terms)
        items += _row(frame, foot, row, terms)
        y = foot + gap
    return Group(title, tuple(items), title), y + UNDER_SECTION_MM


def _row(frame: Frame, foot: float, entries: Sequence[Entry], terms: Terms) -> list[Group]:
    """Entries side by side on one foot line."""
    step = frame.content_width / COLUMNS
    return [_cell(frame.content[0] + i * step, foot, step, entry, terms) for i, entry in enumerate(entries)]


def _cell(x: float, foot: float, width: float, entry: Entry, terms: Terms) -> Group:
    """One entry: the glyph centred in its column, standing on `foot`, and its words to the right."""
    left, _, right, bottom = entry.box
    middle = x + GLYPH_MM / 2.0 - STITCH_MM * (left + right) / 2.0
    to = Affine.shift(middle, foot - STITCH_MM * bottom) @ Affine.scale(STITCH_MM)
    lines = _words(entry, terms)
    words = [
        _line(line, x + GLYPH_MM, foot - (len(lines) - 1 - i) * LINE_MM, width - GLYPH_MM - 1.0)
        for i, line in enumerate(lines)
    ]
    below = ink_of([(entry.beneath, to)], STITCH_MM, QUIET) if entry.beneath.strokes else ()
    inks = (*below, *ink_of([(entry.mark, to)], STITCH_MM, DARK))
    said = tuple(text for line in words for text in line)
    return Group(entry.us or entry.us_name, (*inks, *said), entry.us_name)


def _line(line: Line, x: float, y: float, room: float) -> list[Text]:
    """The runs of one line, one after the other."""
    drawn = []
    for words, weight, colour in line:
        kept = fitted(words, room, TEXT_MM, weight)
        drawn.append(Text(x, y, kept, TEXT_MM, weight=weight, colour=colour))
        used = text_width(kept + "  ", TEXT_MM, weight)
        x, room = x + used, room - used
    return drawn


def _words(entry: Entry, terms: Terms) -> list[Line]:
    """The lines beside a glyph: both terms, the chosen ones first and darker."""
    named = [("US", entry.us, entry.us_name), ("UK", entry.uk, entry.uk_name)]
    first, second = named if terms == "US" else named[::-1]
    short = [(first[1], "bold", DARK)] if first[1] else []
    if first[1:] == second[1:]:
        return [line for line in (short, [(first[2], "regular", DARK)]) if line]
    other = f"{second[0]} {second[1]}" if second[1] else ""
    short += [(other, "regular", QUIET)] if other else []
    label = "" if other else f"{second[0]} "
    names = [[(first[2], "regular", DARK)], [(label + second[2], "regular", QUIET)]]
    return [line for line in (short, *names) if line]
