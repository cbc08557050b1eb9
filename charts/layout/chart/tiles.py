"""A chart too large for one page: tiles with one row and one stitch of overlap, named at their cuts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ...drawing.display import Group, Ink, Text
from ...drawing.geometry import number
from ..placing.laid import LaidFabric
from ..sheets.page import DARK, HAIR, QUIET, SMALL_MM
from .picture import Place, Window

Item = Ink | Text | Group


@dataclass(frozen=True, slots=True)
class Tile:
    """One page of a chart: what it shows, its y range in stitch widths, its place among the pages, its name.

    `column` and `line` count from 0 in the order of work: from the side where row 1 begins, from the bottom
    up. `at_left` and `at_right` are the foundation stitches at its edges, 1-based from the start of row 1.
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


def tile_count(laid: LaidFabric, room: tuple[float, float]) -> int:
    """How many pages a fabric needs when `room` stitch widths across and up fit on each."""
    return len(_columns(laid, room[0], starts_right=True)) * len(_lines(laid, room[1]))


def tiles_of(laid: LaidFabric, room: tuple[float, float], *, starts_right: bool) -> list[Tile]:
    """The tiles in the order of work: along row 1 first, then upwards."""
    columns = _columns(laid, room[0], starts_right=starts_right)
    tiles = []
    for line, (first, last) in enumerate(_lines(laid, room[1])):
        for column, (left, right) in enumerate(columns):
            tiles.append(_tile(laid, Window(first, last, left, right), column, line, starts_right))
    return tiles


def _tile(laid: LaidFabric, window: Window, column: int, line: int, starts_right: bool) -> Tile:
    rows = laid.courses[window.first : window.last]
    bottom = rows[0].y + rows[0].laid.y_range()[1]
    if window.first == 0:
        bottom = max(bottom, laid.foundation.y_range()[1])
    top = min(c.y + c.laid.y_range()[0] for c in rows)
    start, end = _stitches(laid, window, starts_right)
    says = f"{rows[0].worked.label} to {rows[-1].worked.label}, stitches {start} to {end}"
    left, right = (end, start) if starts_right else (start, end)
    return Tile(window, top, bottom, column, line, f"part {_letters(column)}{line + 1}", says, left, right)


def _letters(column: int) -> str:
    """A column's letters: A to Z, then AA, AB and so on.

    >>> _letters(0), _letters(27)
    ('A', 'AB')
    """
    before, last = divmod(column, 26)
    return (_letters(before - 1) if before else "") + chr(65 + last)


def _stitches(laid: LaidFabric, window: Window, starts_right: bool) -> tuple[int, int]:
    """The places of the foundation inside a window, counted from where row 1 begins; places left out count too."""
    spots = [s for s in laid.foundation.spots if s.role != "risen"]
    along = sorted(spots, key=lambda s: s.head[0], reverse=starts_right)
    inside = [abs(s.item - along[0].item) + 1 for s in along if window.holds(s.head[0])]
    return (inside[0], inside[-1]) if inside else (0, 0)


def _columns(laid: LaidFabric, wide: float, *, starts_right: bool) -> list[tuple[float, float]]:
    """The windows across, each a whole number of stitches and one stitch over its neighbour."""
    low, high = laid.x_range()
    low, high = low - 0.5, high + 0.5
    step = max(float(int(wide) - 1), 1.0)
    spans: list[tuple[float, float]] = []
    at = 0.0
    while not spans or at < high - low - 1.0 - 1e-9:
        span = (at, min(at + step + 1.0, high - low))
        spans.append((high - span[1], high - span[0]) if starts_right else (low + span[0], low + span[1]))
        at += step
    return spans


def _lines(laid: LaidFabric, high: float) -> list[tuple[int, int]]:
    """The windows of rows from the bottom up, each as many as fit, the last row of one the first of the
    next.
    """
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


def cut_marks(tile: Tile, laid: LaidFabric, place: Place, edges: tuple[float, float]) -> Group:
    """Dashed lines at the cuts with the stitch and the row that the next page begins with."""
    top, bottom = place.at_y(tile.top - 0.5), place.at_y(tile.bottom + 0.5)
    low, high = laid.x_range()
    items: list[Item] = []
    if tile.window.left > low:
        items += [_dashed(edges[0], top, edges[0], bottom), _named(edges[0], top, tile.at_left)]
    if tile.window.right < high:
        items += [_dashed(edges[1], top, edges[1], bottom), _named(edges[1], top, tile.at_right)]
    if tile.window.first > 0:
        items.append(_dashed(edges[0], bottom, edges[1], bottom))
    if tile.window.last < len(laid.courses):
        items.append(_dashed(edges[0], top, edges[1], top))
    title = f"{tile.name}: {tile.says}"
    items.append(Text(edges[0], top - 5.4, title, SMALL_MM, weight="bold", colour=DARK, name="tile name"))
    return Group("cuts", tuple(items), "Where the page ends")


def _dashed(x0: float, y0: float, x1: float, y1: float) -> Ink:
    return Ink(
        f"M{number(x0)} {number(y0)}L{number(x1)} {number(y1)}",
        stroke=HAIR,
        width=0.2,
        dash=(1.2, 1.0),
        name="cut",
    )


def _named(x: float, top: float, stitch: int) -> Text:
    return Text(x, top - 1.6, f"stitch {stitch}", SMALL_MM, "middle", colour=QUIET, name="cut name")


def page_plan(tiles: Sequence[Tile], corner: tuple[float, float], width: float) -> Group:
    """How the pages lie together: a small map with the name of each part, the first row at the bottom."""
    columns = max(t.column for t in tiles) + 1
    lines = max(t.line for t in tiles) + 1
    wide, high = min(24.0, width / columns), 12.0
    right_first = tiles[0].window.left > tiles[columns - 1].window.left
    x0, y0 = corner
    items: list[Item] = [
        Text(x0, y0, "How the parts lie", SMALL_MM, weight="bold", colour=DARK, name="plan title")
    ]
    for tile in tiles:
        column = columns - 1 - tile.column if right_first else tile.column
        x, y = x0 + column * wide, y0 + 3.0 + (lines - 1 - tile.line) * high
        items.append(_cell(x, y, wide, high))
        items.append(
            Text(x + wide / 2.0, y + high / 2.0 + 1.0, tile.name.removeprefix("part "), SMALL_MM, "middle")
        )
    return Group("page plan", tuple(items), "How the parts lie together")


def _cell(x: float, y: float, wide: float, high: float) -> Ink:
    a, b, c, d = number(x), number(y), number(x + wide), number(y + high)
    return Ink(f"M{a} {b}L{c} {b}L{c} {d}L{a} {d}Z", stroke=HAIR, width=0.25)
