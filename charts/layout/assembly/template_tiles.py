"""A full-size drawing cut into pages: as few tiles as will do, overlapping, with marks where they join."""

from __future__ import annotations

import math
from collections.abc import Callable

from ...made_late import dataclass
from ...setting import Paper
from ..sheets.page import MARGIN_MM, PAPERS_MM

OVERLAP_MM = 10.0
#: Kept free under each tile for its footer.
FOOTER_MM = 6.0
Box = tuple[float, float, float, float]


@dataclass(frozen=True, slots=True)
class Tile:
    """One page's window on the full-size drawing; `row` and `column` count from 1, `number` in reading
    order.
    """

    number: int
    row: int
    column: int
    window: Box


@dataclass(frozen=True, slots=True)
class Tiling:
    """The tiles on their paper. `page` is the page's size; a window's upper left corner lies at the
    margins.
    """

    page: tuple[float, float]
    rows: int
    columns: int
    tiles: tuple[Tile, ...]

    @property
    def area(self) -> tuple[float, float]:
        """What a page shows."""
        return area_of(self.page)


def area_of(page: tuple[float, float]) -> tuple[float, float]:
    return page[0] - 2 * MARGIN_MM, page[1] - 2 * MARGIN_MM - FOOTER_MM


def count_along(length_mm: float, area_mm: float) -> int:
    """How many windows of a breadth, each overlapping the next, cover a length.

    >>> count_along(186.0, 186.0), count_along(187.0, 186.0), count_along(362.0, 186.0)
    (1, 2, 2)
    """
    return max(1, math.ceil((length_mm - OVERLAP_MM - 1e-9) / (area_mm - OVERLAP_MM)))


def tiling(bounds: Box, paper: Paper, holds: Callable[[Box], bool]) -> Tiling:
    """The way up of the paper that needs the fewest pages; windows that hold nothing of the drawing are left
    out.

    `bounds` is what must be shown, `holds` says whether a window has anything in it.
    """
    short, long = PAPERS_MM[paper]
    return min(
        (_tiled(bounds, page, holds) for page in ((short, long), (long, short))), key=lambda t: len(t.tiles)
    )


def _tiled(bounds: Box, page: tuple[float, float], holds: Callable[[Box], bool]) -> Tiling:
    wide, tall = area_of(page)
    columns, rows = count_along(bounds[2] - bounds[0], wide), count_along(bounds[3] - bounds[1], tall)
    found: list[Tile] = []
    for row in range(rows):
        for column in range(columns):
            x, y = bounds[0] + column * (wide - OVERLAP_MM), bounds[1] + row * (tall - OVERLAP_MM)
            window = (x, y, x + wide, y + tall)
            if holds(window):
                found.append(Tile(len(found) + 1, row + 1, column + 1, window))
    return Tiling(page, rows, columns, tuple(found))


@dataclass(frozen=True, slots=True)
class Seam:
    """Where two tiles overlap: the strip, whether it stands upright, and the letter of its marks."""

    first: int
    second: int
    strip: Box
    upright: bool
    letter: str


def seams(of: Tiling) -> tuple[Seam, ...]:
    """Every overlap of neighbours, lettered in order."""
    found: list[Seam] = []
    place = {(t.row, t.column): t for t in of.tiles}
    for tile in of.tiles:
        for upright, key in ((True, (tile.row, tile.column + 1)), (False, (tile.row + 1, tile.column))):
            other = place.get(key)
            if other is not None:
                strip = _common(tile.window, other.window)
                found.append(Seam(tile.number, other.number, strip, upright, _letters(len(found))))
    return tuple(found)


def _common(a: Box, b: Box) -> Box:
    return max(a[0], b[0]), max(a[1], b[1]), min(a[2], b[2]), min(a[3], b[3])


def _letters(index: int) -> str:
    """A to Z, then AA, AB ..."""
    alphabet = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
    return alphabet[index] if index < 26 else alphabet[index // 26 - 1] + alphabet[index % 26]
