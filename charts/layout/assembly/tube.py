"""A piece worked in rounds, as it stands: its size round and upward, where it begins and ends."""

from __future__ import annotations

import math

from ...drawing.display import Text
from ...drawing.style import Style
from ...folding.folds import Folding
from ...measure import show_length
from ..sheets.marks import Item, disc, fill, label, stroke, upright_dimension
from ..sheets.panel import Picture, scale_for, scale_words
from .cloth import tone

_PAD, _FLAT = 24.0, 0.24
_ARC = [k * math.pi / 32 for k in range(65)]


def tube_picture(folding: Folding, style: Style, wide: float, tall: float) -> Picture:
    """The tube standing on its foundation, its rounds as lines, to scale."""
    piece = folding.piece
    across_mm, high_mm = piece.width_mm / math.pi, piece.height_mm
    divisor = scale_for(across_mm, high_mm + across_mm * _FLAT, wide - 2 * _PAD, tall - 2 * _PAD + 8.0)
    half, high = across_mm / 2 / divisor, high_mm / divisor
    deep = half * _FLAT
    size = (2 * half + 4 * _PAD, high + 2 * deep + 22.0)

    def draw(x: float, y: float) -> tuple[Item, ...]:
        middle, top, foot = x + size[0] / 2, y + 8.0 + deep, y + 8.0 + deep + high
        body = [*_arc(middle, foot, half, deep, _ARC[:33]), *reversed(_arc(middle, top, half, deep, _ARC[:33]))]
        rim = _arc(middle, top, half, deep, _ARC)
        items: list[Item] = [fill([body], tone("RS", style), "outside"), fill([rim], tone("WS", style), "inside")]
        every = max(1, math.ceil(1.2 / (high / piece.rows)))
        levels = [foot - mm / divisor for mm in piece.row_edges_mm[1:-1][every - 1 :: every]]
        items.append(stroke([_arc(middle, at, half, deep, _ARC[:33]) for at in levels], style.hair_mm, style.hair))
        items.append(stroke([[*body, body[0]], rim], style.outline_mm, style.dark))
        items.append(disc((middle + half * 0.5, foot + deep * 0.87), 0.9, fill_colour=style.dark))
        high_words = show_length(high_mm, piece.unit)
        items += upright_dimension(top, foot, middle - half, middle - half - 7.0, high_words, style)
        items += label(middle, foot + deep + 6.5, f"{show_length(piece.width_mm, piece.unit)} round", style.small_mm,
                       style.paper)  # fmt: skip
        items.append(Text(middle + half + 4.0, foot + 1.0, "foundation", style.small_mm))
        items.append(Text(middle + half + 4.0, top + 1.0, f"last round ({piece.rows})", style.small_mm))
        return tuple(items)

    return Picture(*size, draw, scale_words(divisor))


def _arc(x: float, y: float, half: float, deep: float, turn: list[float]) -> list[tuple[float, float]]:
    return [(x + half * math.cos(t), y + deep * math.sin(t)) for t in turn]
