"""The key of a chart: only the glyphs that are used, in the reader's terms, special ones with their words."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Mapping, Sequence

from hookfold.symbols import (
    PEN,
    Mark,
    beneath,
    crossing_way,
    draw,
    extent,
    glyph,
    kind_of,
    known,
    magic_ring,
    picot,
    ring,
    stitch,
)
from hookfold.symbols import chain as chain_mark
from hookfold.symbols import join as join_mark
from hookfold.symbols.dictionary import heights
from hookfold.symbols.ink import Box

from ...drawing.display import Group, Ink, Text
from ...drawing.geometry import Affine, ink_of
from ...drawing.letters import text_width, wrapped
from ...made_late import dataclass, replace
from ...model.cloth.fabric import Stitch, WorkedRow
from ...pattern.lexicon import height_of
from ...setting import ScForm, Seen, Terms
from ..labels.yarn_marks import MARKS, MOST_MM
from ..placing.behind import behind
from ..placing.ink import mark_of
from ..placing.placed import Spot
from ..placing.row import CHAIN_LEG_ASIDE
from ..placing.tops import drawn_kind
from ..sheets.page import DARK, QUIET, SMALL_MM
from ..sheets.seen import OTHER_FACE, OTHER_KIND

#: A glyph in the key: the size of a stitch, the most it may stand high, and the width of its place.
STITCH_MM = 4.0
TALLEST_MM = 13.0
GLYPH_WIDE_MM = 9.0
COLUMN_MM = 58.0
WORDS_ASIDE_MM = 2.5
NAME_ASIDE_MM = 1.8
#: What is said of the oval of a popcorn.
CAP = "the oval at its top closes it, it is no chain to count"
#: No ink.
NOTHING = Mark()
#: A run of text and its weight.
Run = tuple[str, str]
_ORDER = ("ch", "join", *heights())
_LOOPS = {
    "front loop": ("FLO", "front loop only"),
    "back loop": ("BLO", "back loop only"),
    "front post": ("FP", "round the post, from the front"),
    "back post": ("BP", "round the post, from the back"),
}


@dataclass(frozen=True, slots=True)
class Entry:
    """One line of the key: the glyph, its abbreviation and name, and the words of a special stitch; `size_mm` is the
    size of the glyph's unit, as far as there is room; `beneath` is the stitch that a hook closes round, in grey."""

    mark: Mark
    short: str
    name: str
    words: str = ""
    size_mm: float = STITCH_MM
    beneath: Mark = NOTHING

    @property
    def box(self) -> Box:
        """The box of all its ink."""
        return extent(self.mark + self.beneath)


def entries(
    spots: Iterable[Spot],
    terms: Terms,
    words: Mapping[str, str],
    sc_form: ScForm = "plus",
) -> tuple[Entry, ...]:
    """The key of these spots: every different glyph once, low stitches before tall ones, special ones
    last.
    """
    seen: dict[tuple[str, str, int, str], Spot] = {}
    crossed: dict[str, Spot] = {}
    for spot in spots:
        if spot.role != "risen":
            seen.setdefault((*_sort_of_glyph(spot), _looks(spot)), spot)
        if spot.crosses:
            crossed.setdefault(spot.kind, spot)
    ordered = sorted(seen.values(), key=_rank)
    pairs = [_crossed_entry(spot, terms) for spot in sorted(crossed.values(), key=_rank)]
    return (*(_entry(spot, terms, words, sc_form) for spot in ordered), *pairs)


def with_wrong_sides(key: Sequence[Entry], rows: Iterable[WorkedRow], seen: Seen, terms: Terms) -> tuple[Entry, ...]:
    """The key with what is worked on the wrong side for a glyph that shows how it looks from the right side.

    `rows` are as they are drawn.
    """
    if seen != "right-side":
        return tuple(key)
    wrong = [made for worked in rows if worked.side == "WS" for made in worked.row.stitches]
    worked_as = dict(pair for made in wrong for pair in _both_faces(made, terms))
    return tuple(
        replace(entry, name=f"{entry.name}; on wrong-side rows work it as {worked_as[entry.short]}")
        if entry.short in worked_as else entry
        for entry in key
    )  # fmt: skip


def _both_faces(made: Stitch, terms: Terms) -> list[tuple[str, str]]:
    """The abbreviations of a stitch as it is drawn and as it is worked from the other side; none where they are one."""
    if made.kind[:2] in OTHER_KIND and known(made.kind):
        other = OTHER_KIND[made.kind[:2]] + made.kind[2:]
        return [(_names(made.kind, terms)[0], _names(other, terms)[0])] if known(other) else []
    if made.role != "stitch" or not known(made.kind):
        return []
    short = _names(made.kind, terms)[0]
    faces = [(foot.hold, OTHER_FACE[foot.hold]) for foot in made.feet if foot.hold in OTHER_FACE]
    return [(f"{_LOOPS[face][0]} {short}", f"{_LOOPS[other][0]} {short}") for face, other in faces]


def mark_entries(names: Iterable[str]) -> tuple[Entry, ...]:
    """The key of the marks of these names, each once."""
    there = set(names)
    return tuple(
        Entry(glyph_of((0.0, 0.0), 0.0), name, says, size_mm=MOST_MM)
        for name, (glyph_of, says) in MARKS.items()
        if name in there
    )


#: The holds that a slip stitch is drawn differently for.
ONE_LOOP = ("front loop", "back loop", "front post", "back post")
#: Feet of one stitch that lie so far apart in height go into different rows: no sign of the table shows that.
ROWS_APART = 0.7


def _sort_of_glyph(spot: Spot) -> tuple[str, str, int]:
    """What makes two spots the same glyph of the key."""
    if spot.role in ("chain", "foundation", "turning", "start") and (spot.chains or spot.kind == "ch"):
        return ("ch", "", 0)
    if spot.role in ("join", "travel") or spot.kind == "sl st":
        return ("sl st", spot.hold if spot.role == "stitch" and spot.hold in ONE_LOOP else "", 0)
    if spot.role == "ring" and spot.ovals:
        return ("ch", "", 0)
    if spot.role == "ring":
        return (spot.kind, "", 0)
    if spot.role == "picot":
        return (spot.kind, "", spot.chains)
    hold = spot.hold if spot.hold in _LOOPS and not spot.kind.startswith(("FP", "BP")) else ""
    return (spot.kind, hold, spot.legs)


def _looks(spot: Spot) -> str:
    """How a spot differs from others of its sort."""
    if _is_begun(spot):
        return f"begun by {spot.chains}"
    return "long" if _reaches(spot) else "in one place" if _is_closed(spot) else ""


def _is_begun(spot: Spot) -> bool:
    """Whether the first leg of what is gathered is a beginning chain: it has a leg less than others of its kind."""
    return spot.role == "stitch" and spot.chains > 0 and spot.legs > 1 and len(spot.feet) > 1


def _is_closed(spot: Spot) -> bool:
    """Whether stitches worked together all go into one place: they are drawn gathered at the foot too."""
    if not known(spot.kind) or stitch(spot.kind).form != "together":
        return False
    feet = spot.feet[1:] if spot.chains else spot.feet  # of a beginning chain the first foot is its own
    return max(len(spot.feet), spot.legs) > 1 and len(set(feet)) == 1


def _reaches(spot: Spot) -> bool:
    """Whether a spot is one post into a row further down than the one below; those round a post look like no other."""
    single = spot.role == "stitch" and len(spot.feet) == 1 and spot.legs <= 1
    return single and spot.own_height > 0.0 and spot.hold not in _LOOPS and known(_long_kind(spot))


def _in_rows(spot: Spot) -> bool:
    """Whether a special stitch gathers legs from several rows."""
    heights = [y for _, y in spot.feet]
    return len(heights) > 1 and max(heights) - min(heights) > ROWS_APART and not known(spot.kind)


def _long_kind(spot: Spot) -> str:
    """The dictionary's stitch with a long stem that a spot is drawn as."""
    return f"spike {drawn_kind(spot.kind, spot.legs, spot.base)}"


def _rank(spot: Spot) -> tuple[int, float, str]:
    kind, hold, _ = _sort_of_glyph(spot)
    if kind in _ORDER:
        return (_ORDER.index(kind), float(_reaches(spot) or _is_begun(spot)), hold)
    special = 1 if not known(kind) else 0
    return (
        len(_ORDER) + special,
        kind_of(drawn_kind(kind, spot.legs, spot.base), spot.legs, spot.base).height,
        f"{kind} begun" if _is_begun(spot) else kind,
    )


def _entry(spot: Spot, terms: Terms, words: Mapping[str, str], sc_form: ScForm) -> Entry:
    kind, hold, legs = _sort_of_glyph(spot)
    if kind == "ch":
        return Entry(chain_mark((0.0, 0.0), 0.0), "ch", "chain")
    if kind == "sl st" and not hold:
        short, name = _names("sl st", terms)
        return Entry(join_mark((0.0, 0.0)), short, name)
    if spot.role == "ring":
        return _ring_entry(kind)
    if spot.role == "picot":
        return Entry(picot(legs, (0.0, 0.0)), kind, f"picot of {legs} ch", words.get(kind, ""))
    if _in_rows(spot):
        return Entry(mark_of(spot.moved(-spot.head[0], -spot.head[1]), sc_form), kind, "", words.get(kind, ""))
    if _is_begun(spot):
        return _begun_entry(spot, terms, sc_form)
    drawn = _long_kind(spot) if _reaches(spot) else drawn_kind(kind, legs, spot.base)
    mark = glyph(drawn, hold=hold or "top", legs=legs, sc_form=sc_form, base=spot.base).mark
    if _is_closed(spot):
        high = kind_of(drawn, legs, spot.base).height
        mark = draw(drawn, [(0.0, 0.0)] * max(len(spot.feet), spot.legs), (0.0, -high), hold=spot.hold)
    short, name = _names(kind, terms) if known(kind) else (kind, "")
    if _is_closed(spot):
        name = f"{name}, all in one place"
    if hold:
        loop, said = _LOOPS[hold]
        short, name = f"{loop} {short}", f"{name}, {said}"
    if name and _reaches(spot):
        name = f"{name}, into a row further down"
    return Entry(mark, short, name, _told(spot, words.get(kind, "")), beneath=beneath(drawn, hold))


def _begun_entry(spot: Spot, terms: Terms, sc_form: ScForm) -> Entry:
    """What is gathered of a beginning chain and of the other legs, as it is drawn."""
    short = _names(spot.kind, terms)[0] if known(spot.kind) else spot.kind
    high = kind_of(drawn_kind(spot.kind, spot.legs, spot.base), spot.legs, spot.base).height
    apart = [(float(k), 0.0) for k in range(len(spot.feet))]
    feet = [(-CHAIN_LEG_ASIDE, 0.0), *[(0.0, 0.0)] * (len(spot.feet) - 1)] if spot.is_beside_chain else apart
    middle = sum(x for x, _ in apart) / len(apart)
    head = (0.0 if spot.is_beside_chain else middle, -high)
    mark = mark_of(replace(spot, feet=tuple(feet), head=head, ovals=(), behind=(), under=(), clasped=()), sc_form)
    return Entry(mark, f"{short} begun", f"ch {spot.chains} is its first leg")


def _told(spot: Spot, words: str) -> str:
    """A special stitch's words; what of its sign might be taken for a chain is said."""
    kind = drawn_kind(spot.kind, spot.legs, spot.base)
    if kind_of(kind, spot.legs, spot.base).shape != "popcorn" or spot.role != "stitch":
        return words
    return f"{words}{'; ' if words else ''}{CAP}"


def _crossed_entry(spot: Spot, terms: Terms) -> Entry:
    """Two stitches of a kind as they are drawn where they cross."""
    short, name = _names(spot.kind, terms) if known(spot.kind) else (spot.kind, spot.kind)
    high, up = kind_of(drawn_kind(spot.kind, spot.legs, spot.base), spot.legs, spot.base).height, (0.0, -1.0)
    marks = []
    for side in (-0.5, 0.5):
        foot, head = (side, 0.0), (-side, -high)
        slashes = 0 if height_of(spot.kind) == "hdc" else kind_of(spot.kind).yarn_overs
        route = crossing_way(foot, head, (up, up), slashes, 0.0)
        marks.append((route, draw(spot.kind, [foot], head, route=route, crosses=True, signed=False)))
    front = [piece for piece in itertools.pairwise(marks[0][0]) if max(abs(x) for x, _ in piece) < 0.3]
    mark = marks[0][1] + behind(marks[1][1], front)
    return Entry(mark, f"{short} crossed", f"{name}; the broken stem lies behind")


def _ring_entry(kind: str) -> Entry:
    if kind == "magic ring":
        return Entry(magic_ring((0.0, 0.0), 0.45), "ring", "magic ring")
    return Entry(ring((0.0, 0.0), 0.45), "ring", "ring of chains")


def _names(kind: str, terms: Terms) -> tuple[str, str]:
    """Abbreviation and full name in the reader's terms.

    >>> _names("dc", "UK")
    ('tr', 'treble')
    """
    what = stitch(kind)
    return (what.name, what.us_name) if terms == "US" else (what.uk, what.uk_name)


@dataclass(frozen=True, slots=True)
class KeyBlock:
    """The key drawn from (0, 0) down: its items and its height in mm."""

    items: tuple[Ink | Text | Group, ...]
    height: float


def key_block(every: Sequence[Entry], x: float, y: float, width: float) -> KeyBlock:
    """The key in as many columns as fit `width` mm, filled one after the other; its top left at (x, y)."""
    columns = max(1, min(int(width / COLUMN_MM), len(every)))
    wide = width / columns
    cells = [_cell_height(entry, wide) for entry in every]
    placed, height = _columns(cells, columns)
    items: list[Ink | Text | Group] = []
    for entry, (column, top), tall in zip(every, placed, cells, strict=True):
        items.append(_cell(entry, x + column * wide, y + top, wide, tall))
    return KeyBlock(tuple(items), height)


def _columns(cells: Sequence[float], columns: int) -> tuple[list[tuple[int, float]], float]:
    """Row by row across the columns: each cell's column and top, and the height of all."""
    placed: list[tuple[int, float]] = []
    top = 0.0
    for first in range(0, len(cells), columns):
        line = cells[first : first + columns]
        placed += [(k, top) for k in range(len(line))]
        top += max(line)
    return placed, top


def _scale(entry: Entry) -> float:
    box = entry.box
    return min(entry.size_mm, TALLEST_MM / (box[3] - box[1]), GLYPH_WIDE_MM / (box[2] - box[0]))


def _lines(entry: Entry, width: float) -> list[tuple[Run, ...]]:
    """The lines beside a glyph: the abbreviation with its name, if both fit, then a special stitch's
    words.
    """
    room = width - GLYPH_WIDE_MM - WORDS_ASIDE_MM - 3.0
    short, name = (entry.short, "bold"), (entry.name, "regular")
    both = text_width(entry.short, SMALL_MM, "bold") + NAME_ASIDE_MM + text_width(entry.name, SMALL_MM)
    lines: list[tuple[Run, ...]] = [(short, name)] if entry.name and both <= room else [(short,)]
    if entry.name and both > room:
        lines += [((line, "regular"),) for line in wrapped(entry.name, room, SMALL_MM)]
    return lines + [((line, "regular"),) for line in wrapped(entry.words, room, SMALL_MM)]


def _cell_height(entry: Entry, width: float) -> float:
    box = entry.box
    tall = (box[3] - box[1]) * _scale(entry)
    return max(tall, len(_lines(entry, width)) * SMALL_MM * 1.3) + 2.2


def _cell(entry: Entry, x: float, y: float, width: float, height: float) -> Group:
    """One glyph with its words, both centred on the cell's middle."""
    box, scale = entry.box, _scale(entry)
    middle = y + height / 2.0
    to = Affine.shift(
        x + GLYPH_WIDE_MM / 2.0 - (box[0] + box[2]) / 2.0 * scale, middle - (box[1] + box[3]) / 2.0 * scale
    ) @ Affine.scale(scale)
    items: list[Ink | Text | Group] = [
        *(ink_of([(entry.beneath, to)], scale, QUIET, pen=PEN) if entry.beneath.strokes else ()),
        *ink_of([(entry.mark, to)], scale, DARK, pen=PEN),
    ]
    items += _words(entry, x + GLYPH_WIDE_MM + WORDS_ASIDE_MM, middle, width)
    return Group(f"key {entry.short}", tuple(items), f"{entry.short}: {entry.name or entry.words}")


def _words(entry: Entry, x: float, middle: float, width: float) -> list[Ink | Text | Group]:
    lines = _lines(entry, width)
    top = middle - (len(lines) - 1) * SMALL_MM * 1.3 / 2.0 + SMALL_MM * 0.35
    items: list[Ink | Text | Group] = []
    for k, line in enumerate(lines):
        at = x
        for text, weight in line:
            items.append(Text(at, top + k * SMALL_MM * 1.3, text, SMALL_MM, weight=weight, colour=DARK))
            at += text_width(text, SMALL_MM, weight) + NAME_ASIDE_MM
    return items
