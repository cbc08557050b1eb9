"""Cloth on the page: the folded piece as the eye sees it, each side in its own tone and texture.

The right side is light with its rows as fine lines, the wrong side darker with its rows dotted; what
geometry says is covered is dashed.
"""

from __future__ import annotations

from ...drawing.display import Group
from ...drawing.style import Style
from ...folding.facets import Seen, Stack, seen
from ...folding.piece import Piece
from ...folding.views import doubled, hatched, points, rings, roomiest, row_lines
from ..sheets.marks import Item, View, fill, stroke

#: Rows are drawn no nearer than this on the page; where they would be, only every so manyth.
ROW_GAP_MM = 1.1
DOTS = (0.25, 0.75)
WRONG_TONE = "#d6d4cc"
WRONG_TONE_MONO = "#cfcfcf"


def tone(side_up: str, style: Style) -> str:
    """The ground of a side of the cloth."""
    if side_up == "RS":
        return style.tint
    return WRONG_TONE if style.tint != "#efefef" else WRONG_TONE_MONO


def cloth(stack: Stack, piece: Piece, view: View, style: Style, *, hidden: bool = True) -> Group:
    """The piece as lying: areas from the bottom up, rows, edges in view, hidden edges last."""
    looks = seen(stack)
    every = rows_apart(piece, view.scale)
    items: list[Item] = []
    for look in looks:
        items += _area(look, piece, view, style, every)
    edges = [view.line(line) for look in looks for line in points(look.visible_edges)]
    items.append(stroke(edges, style.outline_mm, style.dark, name="edges in view"))
    covered = [view.line(line) for look in looks for line in points(look.hidden_edges)]
    if hidden and covered:
        items.append(stroke(covered, style.rule_mm, style.dark, style.hidden, "hidden edges"))
    return Group("cloth", tuple(items))


def rows_apart(piece: Piece, scale: float) -> int:
    """Every how many rows a line is drawn."""
    row = piece.height_mm / piece.rows * scale
    return next((k for k in (1, 2, 5, 10, 20, 50, 100) if k * row >= ROW_GAP_MM), 200)


def _area(look: Seen, piece: Piece, view: View, style: Style, every: int) -> list[Item]:
    if not look.area:
        return []
    up = look.facet.side_up
    rows = [view.line(line) for line in row_lines(look, piece, every)]
    items: list[Item] = [
        fill([view.line(r) for r in rings(look.area)], tone(up, style), f"{up} {look.facet.part}")
    ]
    if rows:
        dash = () if up == "RS" else DOTS
        width = style.hair_mm if up == "RS" else style.hair_mm * 1.6
        items.append(stroke(rows, width, style.hair, dash, "rows"))
    return items


def hatching(stack: Stack, view: View, style: Style, gap_mm: float = 2.2) -> tuple[Item, ...]:
    """The doubled area hatched with lines a gap apart on the page."""
    lines = [view.line(line) for line in hatched(doubled(stack), gap_mm / view.scale)]
    return (stroke(lines, style.hair_mm, style.accent, name="two layers"),) if lines else ()


def label_spot(look: Seen) -> tuple[float, float, float, float] | None:
    """A box for words on a facet, on the plane: the bounds of its largest area in view, or what is free in
    it.
    """
    best = max(look.area, key=lambda a: a.area, default=None)
    return None if best is None else roomiest(best)
