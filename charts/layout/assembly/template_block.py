"""The block on the first tile: print at 100 %, two test squares, and the map of the pages."""

from __future__ import annotations

from collections.abc import Sequence

from ...drawing.display import Group, Text
from ...drawing.letters import cap_height, wrapped
from ...drawing.style import Style
from ...folding.facets import Point
from ...measure import MM_PER_INCH
from ..sheets.marks import Item, label, stroke
from .template_tiles import Tiling

Bounds = tuple[float, float, float, float]
Rings = tuple[tuple[Point, ...], ...]
SQUARE_MM, SQUARE_IN = 50.0, 2 * MM_PER_INCH
_SQUARES = SQUARE_MM + SQUARE_IN + 6.0
_MAP, _MAP_BESIDE = (_SQUARES, 40.0), (62.0, SQUARE_IN)
#: Over the notes, from one line of them to the next as a share of its letters, and under them.
_OVER_NOTES, _LINE, _UNDER_NOTES = 7.4, 1.36, 1.0


def note_lines(notes: Sequence[str], style: Style) -> tuple[str, ...]:
    """The notes in lines no wider than the squares."""
    return tuple(line for note in notes for line in wrapped(note, _SQUARES, style.small_mm))


def block_shapes(lines: int, style: Style, *, alone: bool) -> dict[str, tuple[float, float]]:
    """The block's shapes under so many lines of notes, each with its width and height: the map under the squares or
    beside them, the narrower first; of a single page, `alone`, there is no map.

    >>> from ...drawing.style import style
    >>> list(block_shapes(4, style(), alone=True)), list(block_shapes(4, style(), alone=False))
    (['alone'], ['tall', 'wide'])
    """
    high = _head(lines, style) + SQUARE_IN
    if alone:
        return {"alone": (_SQUARES, high)}
    return {"tall": (_SQUARES, high + 6.0 + _MAP[1]), "wide": (_SQUARES + 6.0 + _MAP_BESIDE[0], high)}


def _head(lines: int, style: Style) -> float:
    """How high the heading and the notes are, over the squares."""
    return _OVER_NOTES + lines * style.small_mm * _LINE + _UNDER_NOTES


def block(
    x: float, y: float, shape: str, tiles: Tiling, bounds: Bounds, rings: Rings, style: Style,
    lines: Sequence[str],
) -> Group:  # fmt: skip
    """The block with its upper left corner at a place on the page, over its squares the lines of its notes."""
    items: list[Item] = [
        Text(x, y + 3.0, "Print at 100 %, never “fit to page”.", style.name_mm, weight="bold")
    ]
    for k, line in enumerate(lines):
        items.append(Text(x, y + _OVER_NOTES + k * style.small_mm * _LINE, line, style.small_mm))
    top = y + _head(len(lines), style)
    items += _square(x, top, SQUARE_MM, "50 mm", style)
    items += _square(x + SQUARE_MM + 6.0, top, SQUARE_IN, "2 in", style)
    if shape == "alone":
        return Group("test squares", tuple(items), "Print at 100 %: test squares of 50 mm and 2 in")
    if shape == "tall":
        items += page_map(x, top + SQUARE_IN + 6.0, _MAP, tiles, bounds, rings, style)
    else:
        items += page_map(x + _SQUARES + 6.0, top, _MAP_BESIDE, tiles, bounds, rings, style)
    title = "Print at 100 %: test squares of 50 mm and 2 in, and the order of the pages"
    return Group("test squares and map", tuple(items), title)


def _square(x: float, y: float, side: float, words: str, style: Style) -> list[Item]:
    """A square whose outer edges measure what it says: the stroke lies inside."""
    w = style.rule_mm
    a, b, c, d = x + w / 2, y + w / 2, x + side - w / 2, y + side - w / 2
    ring = [(a, b), (c, b), (c, d), (a, d), (a, b), (c, b)]
    middle = y + side / 2 + cap_height(style.body_mm) / 2
    return [
        stroke([ring], w, style.dark, name=f"test square {words}"),
        Text(x + side / 2, middle, words, style.body_mm, "middle", "bold"),
    ]


def page_map(
    x: float, y: float, room: tuple[float, float], tiles: Tiling, bounds: Bounds, rings: Rings, style: Style
) -> list[Item]:  # fmt: skip
    """The tiles in small with their numbers, the piece's outline over them."""
    right = max(t.window[2] for t in tiles.tiles)
    foot = max(t.window[3] for t in tiles.tiles)
    scale = min((room[0] - 25.0) / (right - bounds[0]), room[1] / (foot - bounds[1]))

    def at(p: Point) -> Point:
        return x + (p[0] - bounds[0]) * scale, y + (p[1] - bounds[1]) * scale

    items: list[Item] = []
    for tile in tiles.tiles:
        x0, y0, x1, y1 = tile.window
        ring = [at(p) for p in ((x0, y0), (x1, y0), (x1, y1), (x0, y1), (x0, y0))]
        items.append(stroke([ring], style.hair_mm, style.quiet))
    items.append(
        stroke([[at(p) for p in ring] for ring in rings], style.outline_mm, style.dark, name="the piece")
    )
    for tile in tiles.tiles:
        centre = at(((tile.window[0] + tile.window[2]) / 2, (tile.window[1] + tile.window[3]) / 2))
        items += label(*centre, str(tile.number), style.body_mm, style.paper, weight="bold")
    side = x + (right - bounds[0]) * scale + 3.0
    for k, line in enumerate(_how(len(tiles.tiles))):
        items.append(Text(side, y + 3.0 + k * style.small_mm * 1.36, line, style.small_mm))
    return items


def _how(pages: int) -> tuple[str, ...]:
    """How the pages go together, in short lines."""
    if pages == 1:
        return ("1 page",)
    return (f"{pages} pages,", "in this order.", "Lay them 10 mm", "over each other,", "letter on letter.")
