"""The sheets of a piece in squares: a grid with numbers on all sides, read to and fro, on as few pages as hold it."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from itertools import groupby, pairwise

from hookfold.symbols.dictionary import stitch as stitch_of

from ...drawing.display import Document, Group, Ink, Sheet, Text
from ...drawing.geometry import number
from ...drawing.letters import cap_height, text_width, wrapped
from ...drawing.style import Style, style
from ...made_late import dataclass
from ...pattern.lexicon import show_stitch
from ...setting import Heading, Setting
from ..sheets.chart_setting import WHOLE_MM
from ..sheets.page import DARK, Frame, finish, line_ink, own_page, page
from .grid import UNNAMED, Grid, SquareRow

Item = Ink | Text | Group

NAME = "Chart in squares"
#: A square on the page, in mm: no larger than the first; where it would be smaller than the second, the grid is cut
#: into pages of about the third.
BEST_MM, LEAST_MM, CUT_MM = 9.0, 3.0, 4.0
#: Room for the numbers beside the grid and under it.
SIDE_MM, FOOT_MM, ABOVE_MM = 11.0, 6.0, 3.0
LINE_MM = 3.9
KEY_MM = 5.0
#: Every so many squares a line is drawn darker and a column numbered (common practice, no source).
COUNTED, HEAVY = 5, 10
#: In grey, yarns are told apart by these, dark to light, in the order of the key.
GREYS = ("#3c3c3c", "#d9d9d9", "#8a8a8a", "#f2f2f2", "#636363", "#b4b4b4")


@dataclass(frozen=True, slots=True)
class Part:
    """What one page shows: columns and rows of squares from 0, the ends not among them."""

    left: int
    right: int
    low: int
    high: int


@dataclass(frozen=True, slots=True)
class _Job:
    grid: Grid
    heading: Heading
    setting: Setting
    grounds: Mapping[str, str]
    names: Mapping[str, str]
    look: Style


def squares_document(
    grid: Grid, heading: Heading, setting: Setting, colours: Mapping[str, tuple[str, str]]
) -> Document:
    """The grid as a document of one sheet or several; `colours` gives the name and the #rrggbb of each letter."""
    look = style(mono=setting.tone == "mono")
    grid = grid if setting.hand == "right" else _mirrored(grid)
    used = [letter for letter in colours if any(letter in row.cells for row in grid.rows)]
    grounds = grounds_of(used, colours, setting)
    job = _Job(grid, heading, setting, grounds, {letter: colours[letter][0] for letter in used}, look)
    frame, mm, parts = paged(
        heading, setting, (grid.columns, len(grid.rows)),
        lambda frame, wide, high: _fitting(job, frame, wide, high), lambda frame: _cut(job, frame),
    )  # fmt: skip
    sheets = [_sheet(job, frame, mm, part, n, len(parts)) for n, part in enumerate(parts, 1)]
    whole = _whole(job, WHOLE_MM if len(parts) > 1 else mm)
    return Document(tuple(sheets), heading.title, heading.author, heading.licence, whole=whole)


def _whole(job: _Job, mm: float) -> Sheet:
    """The grid on one sheet of its own size, a square `mm` wide."""
    columns, rows = job.grid.columns, len(job.grid.rows)
    wide, high = columns * mm + 2 * SIDE_MM, rows * mm + ABOVE_MM + FOOT_MM
    frame = own_page(job.heading, job.setting, name=NAME, width=wide, height=high)
    high += _notes(job, frame, 0.0, None)[1]
    frame = own_page(job.heading, job.setting, name=NAME, width=wide, height=high)
    return _sheet(job, frame, mm, Part(0, columns, 0, rows), 1, 1)


def _mirrored(grid: Grid) -> Grid:
    """As a left-hander sees it: right-side rows run from left to right."""
    rows = tuple(SquareRow(r.number, r.side, not r.from_right, r.cells[::-1]) for r in grid.rows)
    return Grid(grid.kind, rows, grid.wide, grid.stitch)


# -- how large, on how many pages -----------------------------------------------------------------------------------


def _fitting(job: _Job, frame: Frame, columns: int, rows: int) -> float:
    """The size of a square at which so many fit on a page with their notes, in mm."""
    wide = frame.content_width - 2 * SIDE_MM
    high = frame.content_height - FOOT_MM - ABOVE_MM - _notes(job, frame, 0.0, None)[1]
    return min(BEST_MM, wide / columns, high / rows)


def _cut(job: _Job, frame: Frame) -> list[Part]:
    """The grid cut evenly into as few pages as hold it, the first rows first, from the left."""
    wide = frame.content_width - 2 * SIDE_MM
    high = frame.content_height - FOOT_MM - ABOVE_MM - _notes(job, frame, 0.0, Part(0, 1, 0, 1))[1]
    columns = even(job.grid.columns, math.ceil(job.grid.columns * CUT_MM / wide))
    rows = even(len(job.grid.rows), math.ceil(len(job.grid.rows) * CUT_MM / high))
    return [Part(left, right, low, top) for low, top in rows for left, right in columns]


def grounds_of(used: Sequence[str], colours: Mapping[str, tuple[str, str]], setting: Setting) -> dict[str, str]:
    """The #rrggbb that squares of each letter are filled with: its own, or a grey in the order of the key."""
    if setting.tone == "mono":
        return {letter: GREYS[n % len(GREYS)] for n, letter in enumerate(used)}
    return {letter: colours[letter][1] for letter in used}


def paged(
    heading: Heading, setting: Setting, size: tuple[int, int],
    fitting: Callable[[Frame, int, int], float], cut: Callable[[Frame], list[Part]],
) -> tuple[Frame, float, list[Part]]:
    """The page that a grid of so many columns and rows lies on, how large its squares are, in mm, and what pages show.

    `fitting` gives the size at which so many fit on a page, `cut` what pages show where that is too small.
    """
    columns, rows = size
    frames = [page(heading, setting, name=NAME, orientation=way) for way in ("portrait", "landscape")]
    upright, lying = ((frame, fitting(frame, columns, rows)) for frame in frames)
    frame, mm = lying if lying[1] > upright[1] * 1.05 else upright
    parts = [Part(0, columns, 0, rows)]
    if mm < LEAST_MM:
        frame, parts = min(((f, cut(f)) for f in frames), key=lambda pair: len(pair[1]))
        mm = min(fitting(frame, p.right - p.left, p.high - p.low) for p in parts)
    return frame, mm, parts


def even(count: int, parts: int) -> list[tuple[int, int]]:
    """So many things in so many runs that differ by one at most.

    >>> even(10, 3)
    [(0, 4), (4, 7), (7, 10)]
    """
    ends = [-(-count * n // parts) for n in range(parts + 1)]
    return list(pairwise(ends))


# -- one page -------------------------------------------------------------------------------------------------------


def _sheet(job: _Job, frame: Frame, mm: float, part: Part, nth: int, of: int) -> Sheet:
    x0, y0, x1, _ = frame.content
    columns, rows = part.right - part.left, part.high - part.low
    left = x0 + (x1 - x0 - columns * mm) / 2
    top = y0 + ABOVE_MM
    foot = top + rows * mm
    items: list[Item] = [
        Group("squares", tuple(_squares(job, part, left, foot, mm)), "Squares", _told(job, part)),
        Group("grid", tuple(_lines(job, part, left, foot, mm)), "Grid"),
        Group("numbers", tuple(_numbers(job, part, left, foot, mm)), "Numbers"),
    ]
    notes, _ = _notes(job, frame, foot + FOOT_MM, part if of > 1 else None)
    scale = f"1 square = {number(round(mm, 1))} mm on paper"
    return finish(frame, job.heading, [*items, notes], number=nth, of=of, scale=scale, desc=_told(job, part))


def _squares(job: _Job, part: Part, left: float, foot: float, mm: float) -> list[Item]:
    """The filled squares, equal ones side by side as one path a row."""
    out: list[Item] = []
    for n, row in enumerate(job.grid.rows[part.low : part.high]):
        y = foot - (n + 1) * mm
        x = left
        for what, run in groupby(row.cells[part.left : part.right]):
            wide = len(list(run)) * mm
            ground = job.look.dark if what == "filled" else job.grounds.get(what, "")
            if ground:
                out.append(Ink(box(x, y, wide, mm), fill=ground, name=f"row-{row.number}-{what}"))
            x += wide
    return out


def box(x: float, y: float, wide: float, high: float) -> str:
    """An upright rectangle from its upper left corner, as a path."""
    a, b, c, d = (number(v) for v in (x, y, x + wide, y + high))
    return f"M{a} {b}L{c} {b}L{c} {d}L{a} {d}Z"


def _lines(job: _Job, part: Part, left: float, foot: float, mm: float) -> list[Item]:
    """The lines of the grid where there are squares; every tenth, and the outline, darker."""
    rows = job.grid.rows[part.low : part.high]
    light, heavy = job.look.hair, job.look.dark
    right, top = left + (part.right - part.left) * mm, foot - len(rows) * mm
    out: list[Item] = []
    for n in range(len(rows) + 1):
        strong = (n + part.low) % HEAVY == 0 or n in (0, len(rows))
        y = foot - n * mm
        out.append(line_ink(left, y, right, y, width=0.3 if strong else 0.15, colour=heavy if strong else light))
    for at in range(part.left, part.right + 1):
        strong = _counted(job, at) % HEAVY == 0 or at in (part.left, part.right)
        x = left + (at - part.left) * mm
        out.append(line_ink(x, top, x, foot, width=0.3 if strong else 0.15, colour=heavy if strong else light))
    gaps = [(n, at) for n, row in enumerate(rows) for at in range(part.left, part.right) if not row.cells[at]]
    for n, at in gaps:  # no square there: the piece is narrower
        x, y = left + (at - part.left) * mm, foot - (n + 1) * mm
        out.append(Ink(box(x, y, mm, mm), fill=job.look.tint, name="no square"))
    return out


def _counted(job: _Job, at: int) -> int:
    """How many columns lie between a line and the side where the first row begins."""
    return job.grid.columns - at if job.grid.rows[0].from_right else at


def _numbers(job: _Job, part: Part, left: float, foot: float, mm: float) -> list[Item]:
    """Each row's number where the row begins, with an arrow the way it goes; column numbers from where row 1 begins."""
    size = max(1.7, min(2.7, mm * 0.72))
    every = 1 if mm >= size * 1.15 else 2
    right = left + (part.right - part.left) * mm
    out: list[Item] = []
    for n, row in enumerate(job.grid.rows[part.low : part.high]):
        if every > 1 and row.number % every and n:
            continue
        y = foot - (n + 0.5) * mm
        x, way, anchor = (right, 1.0, "start") if row.from_right else (left, -1.0, "end")
        base = y + cap_height(size) / 2
        out += [
            _arrow(x + way, y, -way),
            Text(x + 4.4 * way, base, str(row.number), size, anchor, "bold", name="row number"),
        ]
    for at in range(part.left, part.right):
        count = _counted(job, at) if job.grid.rows[0].from_right else at + 1
        if count % COUNTED == 0 or count == 1:
            x = left + (at - part.left + 0.5) * mm
            out.append(Text(x, foot + 3.6, str(count), size, "middle", colour=job.look.quiet, name="column number"))
    return out


def _arrow(x: float, y: float, way: float) -> Ink:
    """A short arrow that ends at x."""
    tail, barb, tip, level = (number(v) for v in (x - way * 2.6, x - way * 0.9, x, y))
    head = f"M{barb} {number(y - 0.6)}L{tip} {level}L{barb} {number(y + 0.6)}"
    return Ink(f"M{tail} {level}L{tip} {level}{head}", stroke=DARK, width=0.25, name="direction")


# -- words ----------------------------------------------------------------------------------------------------------


def _notes(job: _Job, frame: Frame, top: float, part: Part | None) -> tuple[Group, float]:
    return key_and_sentences(_key(job), _sentences(job, part), frame, top, job.look)


def key_and_sentences(
    key: Sequence[tuple[str, str]], said: Sequence[str], frame: Frame, top: float, look: Style
) -> tuple[Group, float]:
    """What stands under a grid of squares, and its height: `key` gives a square's ground, "" for none, and its
    words."""
    left, size, wide = frame.content[0], 2.7, frame.content_width
    items: list[Item] = [line_ink(left, top, left + wide, top, width=0.15, colour=look.hair)]
    x, y = left, top + 3.0
    for ground, words in key:
        needs = KEY_MM + 2.0 + text_width(words, size, "regular") + 6.0
        if x > left and x + needs > left + wide:
            x, y = left, y + KEY_MM + 1.5
        items.append(Ink(box(x, y, KEY_MM, KEY_MM), stroke=look.dark, width=0.2, fill=ground, name="key square"))
        items.append(Text(x + KEY_MM + 2.0, y + (KEY_MM + cap_height(size)) / 2, words, size, name="key words"))
        x += needs
    y += KEY_MM + LINE_MM if key else 0.0
    for line in wrapped(" ".join(said), wide, size):
        items.append(Text(left, y, line, size, colour=look.quiet, name="note"))
        y += LINE_MM
    return Group("notes", tuple(items), "How to read the chart"), y - top


def _key(job: _Job) -> list[tuple[str, str]]:
    grid, terms = job.grid, job.setting.terms
    if grid.kind == "colours":
        blank = any(UNNAMED in row.cells for row in grid.rows)
        named = [(ground, job.names[letter]) for letter, ground in job.grounds.items()]
        return named + [("", "the yarn that the words do not name")] * blank
    made, n = show_stitch(grid.stitch, terms), grid.chains
    bridge = f"ch {n}" if n > 1 else "ch 1"
    return [
        (job.look.dark, f"filled square: {n} {made} over the square, {made} on the line between squares"),
        ("", f"open square: {bridge} over the square, {made} on the line between squares"),
    ]


def _sentences(job: _Job, part: Part | None) -> list[str]:
    """How to read the grid."""
    grid, first = job.grid, job.grid.rows[0]
    side = "right" if first.from_right else "left"
    out = []
    if part is not None:
        shown = grid.rows[part.low : part.high]
        ends = sorted((_counted(job, part.left), _counted(job, part.right)))
        out.append(
            f"This sheet: columns {ends[0] + 1} to {ends[1]} of {grid.columns}, "
            f"rows {shown[0].number} to {shown[-1].number} of {grid.rows[-1].number}."
        )
    out.append(f"Seen from the right side. Begin at the foot, at the {side}; follow the arrows to and fro.")
    if grid.kind == "meshes":
        made = show_stitch(grid.stitch, job.setting.terms)
        total = grid.columns * grid.wide + 1
        tall = stitch_of(grid.stitch).turning
        out.append(
            f"Each square is {grid.wide} stitches wide with the {made} it shares with its neighbour, so {grid.columns} "
            f"squares take {total} stitches; the first {made} of a row is usually ch {tall}."
        )
    else:
        out.append("Each square is a stitch, in the colour seen there: a long stitch covers what lies behind it.")
    return out


def _told(job: _Job, part: Part) -> str:
    """Every row in words, in the order in which it is worked."""
    says = {"filled": "filled", "open": "open", UNNAMED: "in the yarn without a name", **job.names}
    lines = []
    for row in job.grid.rows[part.low : part.high]:
        cells: Sequence[str] = row.cells[part.left : part.right]
        runs = [(what, len(list(run))) for what, run in groupby(cells[::-1] if row.from_right else cells)]
        told = ", ".join(f"{count} {says.get(what, what)}" for what, count in runs if what)
        lines.append(f"Row {row.number}: {told}.")
    return " ".join(lines)
