"""A chart too large for one page: tiles with one row and one stitch of overlap, named at their cuts."""

from __future__ import annotations

import math
from collections.abc import Sequence

from ...drawing.display import Group, Ink, Text
from ...drawing.geometry import number
from ...drawing.letters import cap_height, text_width
from ...made_late import dataclass, replace
from ..placing.laid import Course, LaidFabric
from ..placing.placed import Spot
from ..sheets.page import DARK, HAIR, QUIET, SMALL_MM
from .margins import goes_on, label_y
from .picture import Place, Window, inside, reach_of

Item = Ink | Text | Group


@dataclass(frozen=True, slots=True)
class Tile:
    """One page of a chart: what it shows, its y range in stitch widths, its place among the pages, its name.

    `column` and `line` count from 0 in the order of work: from the side where row 1 begins, from the bottom
    up. `at_left` and `at_right` are the foundation stitches at its edges, 1-based from the start of row 1; 0 beyond it.
    `left` and `right` are the ends of what is drawn, with the fans that reach out of the window.
    """

    window: Window
    top: float
    bottom: float
    column: int
    line: int
    name: str
    says: str
    at_left: int
    at_right: int
    left: float
    right: float


def tile_count(laid: LaidFabric, room: tuple[float, float]) -> int:
    """How many pages a fabric needs when `room` stitch widths across and up fit on each."""
    return len(_columns(laid, room[0], starts_right=True)) * len(_lines(laid, room[1]))


def tiles_of(laid: LaidFabric, room: tuple[float, float], *, starts_right: bool) -> list[Tile]:
    """The tiles in the order of work: along row 1 first, then upwards."""
    columns = _columns(laid, room[0], starts_right=starts_right)
    tiles = []
    for line, (first, last) in enumerate(_lines(laid, room[1])):
        for column, (left, right) in enumerate(columns):
            window = _with_stitches(laid, Window(first, last, left, right))
            if window.first < window.last:
                tiles.append(_tile(laid, window, column, line, starts_right))
    return tiles


def _with_stitches(laid: LaidFabric, window: Window) -> Window:
    """A window without the rows at its lower and upper edge that have no stitch in it."""
    shown = [
        k for k in range(window.first, window.last)
        if any(window.holds(s.head[0]) for s in laid.courses[k].laid.spots)
    ]  # fmt: skip
    return replace(window, first=shown[0], last=shown[-1] + 1) if shown else replace(window, last=window.first)


def _tile(laid: LaidFabric, window: Window, column: int, line: int, starts_right: bool) -> Tile:
    rows = laid.courses[window.first : window.last]
    bottom = rows[0].y + rows[0].laid.y_range()[1]
    if window.first == 0:
        bottom = max(bottom, laid.foundation.y_range()[1])
    top = min(c.y + c.laid.y_range()[0] for c in rows)
    start, end = _stitches(laid, window, starts_right)
    says = f"{rows[0].worked.label} to {rows[-1].worked.label}"
    low, high = laid.foundation.x_range()
    beyond = window.left < low - 1.5, window.right > high + 1.5
    if start:
        says += f", stitches {start} to {end}" + (" of the foundation" if any(beyond) else "")
    ends = (end, start) if starts_right else (start, end)
    left, right = (0 if past else at for past, at in zip(beyond, ends, strict=True))
    name, drawn = f"part {_letters(column)}{line + 1}", _drawn(rows, window)
    return Tile(window, top, bottom, column, line, name, says, left, right, *drawn)


def _drawn(rows: Sequence[Course], window: Window) -> tuple[float, float]:
    """From where to where rows are drawn in a window: fans whole that stand in it."""
    heads = [spot.head[0] for row in rows for spot in inside(row.laid, window)]
    return min(window.left, min(heads) - 0.5), max(window.right, max(heads) + 0.5)


def _letters(column: int) -> str:
    """A column's letters: A to Z, then AA, AB and so on.

    >>> _letters(0), _letters(27)
    ('A', 'AB')
    """
    before, last = divmod(column, 26)
    return (_letters(before - 1) if before else "") + chr(65 + last)


def _stitches(laid: LaidFabric, window: Window, starts_right: bool) -> tuple[int, int]:
    """The places of the foundation inside a window, counted from where row 1 begins; places left out count too."""
    along = _along(laid, starts_right)
    inside = [abs(s.item - along[0].item) + 1 for s in along if window.holds(s.head[0])]
    return (inside[0], inside[-1]) if inside else (0, 0)


def _along(laid: LaidFabric, starts_right: bool) -> list[Spot]:
    """The foundation from where row 1 begins."""
    spots = (s for s in laid.foundation.spots if s.role != "risen")
    return sorted(spots, key=lambda s: s.head[0], reverse=starts_right)


def _columns(laid: LaidFabric, wide: float, *, starts_right: bool) -> list[tuple[float, float]]:
    """The windows across: as few as will do, as even as whole stitches allow, each one stitch over its neighbour."""
    low, high = laid.x_range()
    low, high = low - 0.5, high + 0.5
    fans = max(reach_of(course.laid) for course in laid.courses) if wide < high - low else 0.0
    most = max(float(int(wide - 2.0 * fans) - 1), 1.0)
    count = max(math.ceil((high - low - 1.0 - 1e-9) / most), 1)
    step = float(math.ceil((high - low - 1.0 - 1e-9) / count))
    spans: list[tuple[float, float]] = []
    for at in (k * step for k in range(count)):
        span = (at, min(at + step + 1.0, high - low))
        spans.append((high - span[1], high - span[0]) if starts_right else (low + span[0], low + span[1]))
    return spans


def _lines(laid: LaidFabric, high: float) -> list[tuple[int, int]]:
    """The windows of rows from the bottom up: as few as will do and as evenly high, the last row of one the first of
    the next.
    """
    spans = _lines_within(laid, high)
    low, most = high / 2.0, high
    for _ in range(12 if len(spans) > 1 else 0):
        middle = (low + most) / 2.0
        tried = _lines_within(laid, middle)
        if len(tried) > len(spans):
            low = middle
        else:
            spans, most = tried, middle
    return spans


def _lines_within(laid: LaidFabric, high: float) -> list[tuple[int, int]]:
    """The windows of rows, each with as many as are at most so high together."""
    spans: list[tuple[int, int]] = []
    first = 0
    count = len(laid.courses)
    while not spans or spans[-1][1] < count:
        last = first + 1
        while last < count and _height(laid, first, last + 1) <= high:
            last += 1
        spans.append((first, last))
        first = max(last - 1, first + 1)
    return spans


def _height(laid: LaidFabric, first: int, last: int) -> float:
    """The height of rows `first` up to but without `last`; heads of the last row may stand above its
    level.
    """
    rows = laid.courses
    bottom = rows[first].y + max(rows[first].laid.y_range()[1], 0.0)
    if first == 0:
        bottom = max(bottom, laid.foundation.y_range()[1])
    return bottom - (rows[last - 1].y + rows[last - 1].laid.y_range()[0])


#: Matching marks at cuts: half the width of a diamond; the room of a ruler's number; every so many is numbered.
DIAMOND_MM, RULER_MM, EVERY = 1.1, 4.2, 10


def cut_marks(
    tile: Tile, tiles: Sequence[Tile], laid: LaidFabric, place: Place, edges: tuple[float, float],
    outside: tuple[float, float],
) -> Group:  # fmt: skip
    """Dashed lines at the cuts, with the part that goes on there and the stitch or row it shares, and a diamond at each
    cut that lies on the same stitch or row in both parts.
    """
    top, bottom = place.at_y(tile.top - 0.5), place.at_y(tile.bottom + 0.5)
    beside = {(t.column, t.line): t for t in tiles}
    middle = place.at_y((tile.top + tile.bottom) / 2.0)
    right_first = _right_first(tile, tiles)
    items: list[Item] = []
    for x, toward, at in ((edges[0], -1, tile.at_left), (edges[1], 1, tile.at_right)):
        other = beside.get((tile.column + (-toward if right_first else toward), tile.line))
        if other is not None:
            items += [_dashed(x, top, x, bottom), _diamond(x, _shared_y(tile, other, laid, place))]
            named = f", {'from' if other.column > tile.column else 'to'} stitch {at}" if at else ""
            items.append(_named(outside[toward > 0] + toward * 3.4 + 0.9, middle, other.name + named, -90.0))
    for y, toward, row in ((top, 1, tile.window.last - 1), (bottom, -1, tile.window.first)):
        other = beside.get((tile.column, tile.line + toward))
        if other is not None:
            items += [_dashed(edges[0], y, edges[1], y), _diamond((edges[0] + edges[1]) / 2.0, y)]
            said = f"{other.name}, {'from' if toward > 0 else 'to'} {laid.courses[row].worked.label.lower()}"
            items.append(_named((edges[0] + edges[1]) / 2.0, y - 5.2 if toward > 0 else y + 7.4, said, 0.0))
    title = f"{tile.name}: {tile.says}"
    items.append(Text(edges[0], top - 9.6, title, SMALL_MM, weight="bold", colour=DARK, name="tile name"))
    return Group("cuts", tuple(items), "Where the page ends")


def _right_first(tile: Tile, tiles: Sequence[Tile]) -> bool:
    """Whether the parts are counted from the right."""
    other = next((t for t in tiles if t.column != tile.column), None)
    return other is None or (other.window.left > tile.window.left) == (other.column < tile.column)


def _shared_y(tile: Tile, other: Tile, laid: LaidFabric, place: Place) -> float:
    """The height of the row in the middle of those that two neighbours both show."""
    first, last = max(tile.window.first, other.window.first), min(tile.window.last, other.window.last)
    return place.at_y(laid.courses[min((first + last) // 2, len(laid.courses) - 1)].middle)


def rulers(
    tile: Tile, laid: LaidFabric, place: Place, edges: tuple[float, float], outside: tuple[float, float], *,
    starts_right: bool,
) -> Group:  # fmt: skip
    """Every tenth stitch of the foundation below and above, every tenth row at both sides, numbered where its label is
    no number; `outside` are the mm of those numbers, beyond the labels."""
    top, bottom = place.at_y(tile.top - 0.5), place.at_y(tile.bottom + 0.5)
    along = _along(laid, starts_right)
    items: list[Item] = []
    for spot in along:
        number_ = abs(spot.item - along[0].item) + 1
        if number_ % EVERY == 0 and tile.window.holds(spot.head[0]):
            x = place.at_x(spot.head[0])
            items += [_tick(x, bottom, x, bottom + 1.2), _tick(x, top, x, top - 1.2)]
            items += [_ruled(x, bottom + RULER_MM - 0.6, number_), _ruled(x, top - 1.9, number_)]
    for course in laid.courses[tile.window.first : tile.window.last]:
        if course.worked.number and course.worked.number % EVERY == 0:
            for x, toward, far in ((edges[0], -1.0, outside[0]), (edges[1], 1.0, outside[1])):
                y = place.at_y(label_y(course, tile.window, left=toward < 0))
                items.append(_tick(x, y, x + toward * 1.2, y))
                if goes_on(course, tile.window, left=toward < 0) or (course.sign > 0) == (toward < 0):
                    continue  # its number stands there
                items.append(_ruled(far, y + cap_height(SMALL_MM) / 2.0, course.worked.number))
    return Group("rulers", tuple(items), "Every tenth stitch and row")


def _tick(x0: float, y0: float, x1: float, y1: float) -> Ink:
    return Ink(f"M{number(x0)} {number(y0)}L{number(x1)} {number(y1)}", stroke=QUIET, width=0.3, name="ruler")


def _ruled(x: float, y: float, which: int) -> Text:
    return Text(x, y, str(which), SMALL_MM, "middle", "bold", QUIET, name="ruler number")


def _diamond(x: float, y: float) -> Ink:
    a = DIAMOND_MM
    corners = [(x, y - a), (x + a, y), (x, y + a), (x - a, y)]
    d = "".join(f"{'L' if k else 'M'}{number(p)} {number(q)}" for k, (p, q) in enumerate(corners))
    return Ink(d + "Z", stroke=DARK, width=0.2, fill="#ffffff", name="matching mark")


def _dashed(x0: float, y0: float, x1: float, y1: float) -> Ink:
    return Ink(
        f"M{number(x0)} {number(y0)}L{number(x1)} {number(y1)}",
        stroke=HAIR,
        width=0.2,
        dash=(1.2, 1.0),
        name="cut",
    )


def _named(x: float, y: float, says: str, angle: float) -> Text:
    return Text(x, y, says, SMALL_MM, "middle", colour=QUIET, angle=angle, name="cut name")


def overview(tiles: Sequence[Tile], place: Place) -> Group:
    """The cut lines over a small picture of the whole, with the name of each part."""
    items: list[Item] = []
    for tile in tiles:
        window = tile.window
        left, right = place.at_x(window.left), place.at_x(window.right)
        top, bottom = place.at_y(tile.top - 0.5), place.at_y(tile.bottom + 0.5)
        outline = _cell(left, top, right - left, bottom - top)
        items.append(replace(outline, stroke=DARK, width=0.3, dash=(1.6, 1.0), name="cut"))
        name = tile.name.removeprefix("part ")
        half = text_width(name, SMALL_MM, "bold") / 2.0 + 1.2
        x, y = (left + right) / 2.0, (top + bottom) / 2.0
        items.append(replace(_cell(x - half, y - 2.2, 2.0 * half, 4.4), stroke="", width=0.0, fill="#ffffff"))
        items.append(Text(x, y + cap_height(SMALL_MM) / 2.0, name, SMALL_MM, "middle", "bold", DARK, name="part name"))
    return Group("page plan", tuple(items), "How the parts lie together")


def _cell(x: float, y: float, wide: float, high: float) -> Ink:
    a, b, c, d = number(x), number(y), number(x + wide), number(y + high)
    return Ink(f"M{a} {b}L{c} {b}L{c} {d}L{a} {d}Z", stroke=HAIR, width=0.25)
