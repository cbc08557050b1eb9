"""The sheets of a piece in blocks, from corner to corner: a square to a block, rows numbered along their diagonals."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from itertools import groupby, pairwise

from ...drawing.display import Document, Group, Ink, Sheet, Text
from ...drawing.geometry import number
from ...drawing.letters import cap_height
from ...drawing.style import Style, style
from ...made_late import dataclass
from ...pattern.lexicon import show_stitch
from ...setting import Heading, Setting
from ..sheets.chart_setting import WHOLE_MM
from ..sheets.page import DARK, Frame, finish, line_ink, own_page
from .corner import Cell, CornerGrid, Diagonal
from .grid import UNNAMED
from .sheet import BEST_MM, CUT_MM, HEAVY, NAME, Part, box, even, grounds_of, key_and_sentences, paged

Item = Ink | Text | Group

#: Room for numbers about the grid, the size of a count, and from how large a square on counts have room.
ABOUT_MM, COUNT_MM, COUNTED_MM = 11.0, 2.1, 5.0
#: A square of a piece in one yarn at best: it shows no picture, and few squares would be lost on their page.
LARGE_MM = 14.0
#: An arrow along the diagonal: from the square, and how long.
GAP_MM, ARROW_MM = 0.8, 2.2


def _holds(part: Part, cell: Cell) -> bool:
    return part.left <= cell[0] < part.right and part.low <= cell[1] < part.high


@dataclass(frozen=True, slots=True)
class _Job:
    grid: CornerGrid
    heading: Heading
    setting: Setting
    grounds: Mapping[str, str]
    names: Mapping[str, str]
    look: Style
    counts: bool


@dataclass(frozen=True, slots=True)
class _Place:
    """Where a page's grid lies: its lower left corner, the size of a square, and what is shown."""

    left: float
    foot: float
    mm: float
    part: Part

    def corner(self, cell: Cell) -> tuple[float, float]:
        """The upper left corner of a square."""
        return self.left + (cell[0] - self.part.left) * self.mm, self.foot - (cell[1] - self.part.low + 1) * self.mm


def corner_document(
    grid: CornerGrid, heading: Heading, setting: Setting, colours: Mapping[str, tuple[str, str]], *, counts: bool = True
) -> Document:
    """The grid as a document of one sheet or several; `colours` gives the name and the #rrggbb of each letter."""
    look = style(mono=setting.tone == "mono")
    used = [letter for letter in colours if any(letter in row.yarns for row in grid.rows)]
    several = len({yarn for row in grid.rows for yarn in row.yarns}) > 1
    grounds = grounds_of(used, colours, setting) if several else {}
    job = _Job(grid, heading, setting, grounds, {letter: colours[letter][0] for letter in used}, look, counts)
    frame, mm, parts = paged(
        heading, setting, (grid.wide, grid.high),
        lambda frame, wide, high: _fitting(job, frame, wide, high), lambda frame: _cut(job, frame),
    )  # fmt: skip
    sheets = [_sheet(job, frame, mm, part, n, len(parts)) for n, part in enumerate(parts, 1)]
    whole = _whole(job, WHOLE_MM if len(parts) > 1 else mm)
    return Document(tuple(sheets), heading.title, heading.author, heading.licence, whole=whole)


def _whole(job: _Job, mm: float) -> Sheet:
    """The grid on one sheet of its own size, a square `mm` wide."""
    wide, high = (n * mm + 2 * ABOUT_MM for n in (job.grid.wide, job.grid.high))
    frame = own_page(job.heading, job.setting, name=NAME, width=wide, height=high)
    high += _notes(job, frame, 0.0, None)[1]
    frame = own_page(job.heading, job.setting, name=NAME, width=wide, height=high)
    return _sheet(job, frame, mm, Part(0, job.grid.wide, 0, job.grid.high), 1, 1)


def _fitting(job: _Job, frame: Frame, columns: int, rows: int) -> float:
    """The size of a square at which so many fit on a page with their notes, in mm."""
    wide = frame.content_width - 2 * ABOUT_MM
    high = frame.content_height - 2 * ABOUT_MM - _notes(job, frame, 0.0, None)[1]
    return min(BEST_MM if job.grounds else LARGE_MM, wide / columns, high / rows)


def _cut(job: _Job, frame: Frame) -> list[Part]:
    """The grid cut evenly into as few pages as hold it, the rows at its foot first."""
    wide = frame.content_width - 2 * ABOUT_MM
    high = frame.content_height - 2 * ABOUT_MM - _notes(job, frame, 0.0, Part(0, 1, 0, 1))[1]
    columns = even(job.grid.wide, math.ceil(job.grid.wide * CUT_MM / wide))
    rows = even(job.grid.high, math.ceil(job.grid.high * CUT_MM / high))
    return [Part(left, right, low, top) for low, top in rows for left, right in columns]


def _sheet(job: _Job, frame: Frame, mm: float, part: Part, nth: int, of: int) -> Sheet:
    x0, y0, x1, _ = frame.content
    rows = part.high - part.low
    left = x0 + (x1 - x0 - (part.right - part.left) * mm) / 2
    foot = y0 + ABOUT_MM + rows * mm
    place, told = _Place(left, foot, mm, part), _told(job, part)
    items: list[Item] = [
        Group("squares", tuple(_squares(job, place)), "Squares", told),
        Group("grid", tuple(_lines(job, place)), "Grid"),
        Group("numbers", tuple(_numbers(job, place)), "Numbers"),
    ]
    notes, _ = _notes(job, frame, foot + ABOUT_MM, part if of > 1 else None)
    scale = f"1 block = {number(round(mm, 1))} mm on paper"
    return finish(frame, job.heading, [*items, notes], number=nth, of=of, scale=scale, desc=told)


# -- the grid -------------------------------------------------------------------------------------------------------


def _squares(job: _Job, place: _Place) -> list[Item]:
    out: list[Item] = []
    for cell, (n, yarn) in sorted(job.grid.by_cell().items()):
        row = job.grid.rows[n]
        ground = job.grounds.get(yarn, "") if job.grounds else _side_ground(job, row)
        if _holds(place.part, cell) and ground:
            x, y = place.corner(cell)
            name = f"row-{row.number}-{yarn if job.grounds else row.side}"
            out.append(Ink(box(x, y, place.mm, place.mm), fill=ground, name=name))
    return out


def _side_ground(job: _Job, row: Diagonal) -> str:
    """The ground of a row's squares where yarns have none: it tells a diagonal from the next."""
    return job.look.tint if row.side == "WS" else ""


def _lines(job: _Job, place: _Place) -> list[Item]:
    """The sides of all squares that the piece has; every tenth line from the first block, and the outline, darker."""
    there = {cell for cell in job.grid.by_cell() if _holds(place.part, cell)}
    out: list[Item] = []
    for upright in (False, True):
        sides: dict[tuple[int, bool], set[int]] = {}
        for cell in there:
            along, line = (cell[1], cell[0]) if upright else (cell[0], cell[1])
            for at in (line, line + 1):
                beside = {(at - 1, along), (at, along)} if upright else {(along, at - 1), (along, at)}
                count = job.grid.wide - at if upright and job.grid.from_right else at
                strong = count % HEAVY == 0 or not beside <= there
                sides.setdefault((at, strong), set()).add(along)
        for (at, strong), alongs in sorted(sides.items()):
            out += [_side(job, place, at, run, upright=upright, strong=strong) for run in _runs(sorted(alongs))]
    return out


def _side(job: _Job, place: _Place, at: int, run: tuple[int, int], *, upright: bool, strong: bool) -> Ink:
    """A line of the grid along a run of squares."""
    (x0, y0), (x1, y1) = (
        place.corner((at, end - 1) if upright else (end, at - 1)) for end in run
    )
    look = job.look
    return line_ink(x0, y0, x1, y1, width=0.3 if strong else 0.15, colour=look.dark if strong else look.hair)


def _runs(sorted_places: Sequence[int]) -> list[tuple[int, int]]:
    """Where places stand side by side: the first, and the one behind the last.

    >>> _runs([0, 1, 2, 5])
    [(0, 3), (5, 6)]
    """
    ends = [0, *(n for n, (a, b) in enumerate(pairwise(sorted_places), 1) if b - a > 1), len(sorted_places)]
    return [(sorted_places[a], sorted_places[b - 1] + 1) for a, b in pairwise(ends)]


# -- the numbers ----------------------------------------------------------------------------------------------------


def _numbers(job: _Job, place: _Place) -> list[Item]:
    """Each row's number before its first square, with an arrow the way it goes, and at its other end its count."""
    taken = set(job.grid.by_cell())
    size = max(1.7, min(2.7, place.mm * 0.62))
    every = 1 if place.mm >= 3.8 else 2
    out: list[Item] = []
    for n, row in enumerate(job.grid.rows):
        shown = [cell for cell in row.cells if _holds(place.part, cell)]
        if not shown or (every > 1 and n % every and n < len(job.grid.rows) - 1):
            continue
        way = _way(job.grid, n)
        inside = {cell for cell in taken if _holds(place.part, cell)}
        out += _number(place, shown[0], _out(shown[0], (-way[0], -way[1]), inside), way, str(row.number), size)
        if job.counts and place.mm >= COUNTED_MM and shown[-1] == row.cells[-1]:
            side = _out(shown[-1], way, inside)
            out.append(_count(job, place, shown[-1], side, f"({len(row.cells)})"))
    return out


def _way(grid: CornerGrid, n: int) -> Cell:
    """The way a row goes along its diagonal, in columns to the right and rows up: by turns, the first one down."""
    aside = 1 if grid.from_right else -1
    return (-aside, -1) if n % 2 == 0 else (aside, 1)


def _out(cell: Cell, way: Cell, inside: set[Cell]) -> Cell:
    """The side of a square towards `way` that no other square lies at: beside it, else above or below."""
    sides = ((way[0], 0), (0, way[1]))
    free = [side for side in sides if (cell[0] + side[0], cell[1] + side[1]) not in inside]
    return free[0] if free else sides[0]


def _number(place: _Place, cell: Cell, side: Cell, way: Cell, words: str, size: float) -> list[Item]:
    """A row's number outside a side of its first square, and an arrow between them the way it goes."""
    x, y = _middle(place, cell, side)
    tip = (x + side[0] * GAP_MM, y - side[1] * GAP_MM)
    far = ARROW_MM / math.sqrt(2.0)
    if side[0]:
        tip = (tip[0], tip[1] - way[1] * far / 2.0)
        at = (tip[0] + side[0] * (far + 0.7), tip[1] + way[1] * far / 2.0 + cap_height(size) / 2.0)
        anchor = "start" if side[0] > 0 else "end"
    else:
        tip = (tip[0] + way[0] * far / 2.0, tip[1])
        lift = far + 0.9
        at = (x, tip[1] - side[1] * lift + (cap_height(size) if side[1] < 0 else 0.0))
        anchor = "middle"
    return [_arrow(tip, (way[0] * far, -way[1] * far)), Text(*at, words, size, anchor, "bold", name="row number")]


def _middle(place: _Place, cell: Cell, side: Cell) -> tuple[float, float]:
    """The middle of a side of a square."""
    x, y = place.corner(cell)
    half = place.mm / 2.0
    return x + half + side[0] * half, y + half - side[1] * half


def _count(job: _Job, place: _Place, cell: Cell, side: Cell, words: str) -> Text:
    """What a row makes, outside a side of its last square."""
    x, y = _middle(place, cell, side)
    up = cap_height(COUNT_MM)
    if side[0]:
        anchor = "start" if side[0] > 0 else "end"
        return Text(x + side[0] * 1.0, y + up / 2, words, COUNT_MM, anchor, colour=job.look.quiet, name="count")
    below = 1.2 + up if side[1] < 0 else -1.2
    return Text(x, y + below, words, COUNT_MM, "middle", colour=job.look.quiet, name="count")


def _arrow(tip: tuple[float, float], along: tuple[float, float]) -> Ink:
    """A short arrow whose tip is there, along a diagonal."""
    (x, y), (a, b) = tip, along
    shaft = f"M{number(x - a)} {number(y - b)}L{number(x)} {number(y)}"
    barb = 0.45
    head = f"M{number(x - a * barb)} {number(y)}L{number(x)} {number(y)}L{number(x)} {number(y - b * barb)}"
    return Ink(shaft + head, stroke=DARK, width=0.25, name="direction")


# -- words ----------------------------------------------------------------------------------------------------------


def _notes(job: _Job, frame: Frame, top: float, part: Part | None) -> tuple[Group, float]:
    blank = bool(job.grounds) and any(UNNAMED in row.yarns for row in job.grid.rows)
    key = [(ground, job.names[letter]) for letter, ground in job.grounds.items()]
    key += [("", "the yarn that the words do not name")] * blank
    if not job.grounds and len({row.side for row in job.grid.rows}) > 1:
        key = [("", "right-side rows"), (job.look.tint, "wrong-side rows")]
    return key_and_sentences(key, _sentences(job, part), frame, top, job.look)


def _sentences(job: _Job, part: Part | None) -> list[str]:
    """How to read the grid."""
    grid = job.grid
    side = "right" if grid.from_right else "left"
    made = show_stitch(grid.stitch, job.setting.terms)
    out = []
    if part is not None:
        shown = [row.number for row in grid.rows if any(_holds(part, cell) for cell in row.cells)]
        out.append(f"This sheet: part of rows {shown[0]} to {shown[-1]} of {grid.rows[-1].number}.")
    out += [
        f"Seen from the right side, for {job.setting.hand}-handed work. Each square is a block of ch {grid.chains} and "
        f"{grid.posts} {made}; the piece is {grid.wide} blocks wide and {grid.high} high.",
        f"Begin with row 1 in the corner at the foot, at the {side}; rows go to and fro along the diagonal, each from "
        "its number the way its arrow points.",
    ]
    if job.counts:
        out.append("A number in brackets is the blocks that the row makes.")
    out.append("The stitch chart shows the same piece turned by a quarter.")
    return out


def _told(job: _Job, part: Part) -> str:
    """Every row in words, in the order in which it is worked."""
    return " ".join(said for row in job.grid.rows if (said := _row_told(job, row, part)))


def _row_told(job: _Job, row: Diagonal, part: Part) -> str:
    yarns = [yarn for cell, yarn in zip(row.cells, row.yarns, strict=True) if _holds(part, cell)]
    if not yarns:
        return ""
    if not job.grounds:
        return f"Row {row.number}: {len(yarns)} block{'' if len(yarns) == 1 else 's'}."
    runs = [(yarn, len(list(run))) for yarn, run in groupby(yarns)]
    told = ", ".join(f"{count} {job.names.get(yarn, 'in the yarn without a name')}" for yarn, count in runs)
    return f"Row {row.number}: {told}."
