"""A hat as it stands, its crown on top, and the disc and the band that its paper is cut as."""

from __future__ import annotations

import math

from ...drawing.display import Text
from ...drawing.style import Style
from ...folding.folds import Folding
from ...measure import show_length
from ...model.sizing.plan import SectionPlan
from ..sheets.marks import Item, disc, fill, label, stroke, upright_dimension
from ..sheets.panel import Picture, scale_for, scale_words
from .cloth import tone

_PAD, _FLAT = 24.0, 0.30
_TURN = [k * math.pi / 36 for k in range(73)]


def crown_rounds(folding: Folding) -> int:
    """How many rounds the crown has; 0 of a piece without one."""
    return folding.piece.parts[0].count if folding.piece.parts[0].role == "crown" else 0


def hat_picture(folding: Folding, style: Style, wide: float, tall: float, brim: SectionPlan | None = None) -> Picture:
    """The hat seen a little from above, to scale: the rounds of its crown as rings, those of its sides as lines; its
    last section is named by the rounds it has, where it is a `brim`."""
    piece = folding.piece
    crown, sides_mm = piece.parts[0], piece.height_mm - piece.parts[0].length_mm
    across_mm = piece.width_mm / math.pi
    divisor = scale_for(across_mm, sides_mm + across_mm * _FLAT, wide - 2 * _PAD - 40.0, tall - 2 * _PAD + 8.0)
    half, high = across_mm / 2 / divisor, sides_mm / divisor
    deep = half * _FLAT
    size = (2 * half + 4 * _PAD + 30.0, high + 2 * deep + 22.0)

    def draw(x: float, y: float) -> tuple[Item, ...]:
        middle, top, foot = x + size[0] / 2, y + 8.0 + deep, y + 8.0 + deep + high

        def ring(at: float, share: float = 1.0, turn: list[float] = _TURN) -> list[tuple[float, float]]:
            return [(middle + half * share * math.cos(t), at + deep * share * math.sin(t)) for t in turn]

        front = _TURN[:37]
        body = [*ring(foot, 1.0, front), *reversed(ring(top, 1.0, front))]
        levels = [foot - (piece.height_mm - mm) / divisor for mm in piece.row_edges_mm[crown.count + 1 : -1]]
        rounds = [mm / crown.length_mm for mm in piece.row_edges_mm[1 : crown.count]]
        items: list[Item] = [fill([body], tone("RS", style), "sides"), fill([ring(top)], tone("RS", style), "crown")]
        items.append(stroke([ring(2 * foot - at - high, 1.0, front) for at in levels], style.hair_mm, style.hair))
        items.append(stroke([ring(top, share) for share in rounds], style.hair_mm, style.hair))
        items.append(stroke([[*body, body[0]], ring(top)], style.outline_mm, style.dark))
        items.append(disc((middle, top), 0.9, fill_colour=style.dark))
        left, high_words = middle - half, show_length(sides_mm, piece.unit)
        items += upright_dimension(top, foot, left, left - 7.0, high_words, style)
        round_words = f"{show_length(piece.width_mm, piece.unit)} round"
        items += label(middle, foot + deep + 6.5, round_words, style.small_mm, style.paper)
        aside = middle + half + 4.0
        items.append(Text(aside, top - deep * 0.4, f"crown: rounds 1–{crown.count},", style.small_mm))
        across = show_length(2 * crown.length_mm, piece.unit)
        items.append(Text(aside, top - deep * 0.4 + 3.6, f"{across} across, laid flat", style.small_mm))
        items.append(Text(aside, foot + 1.0, _last_rounds(piece.rows, brim), style.small_mm))
        return tuple(items)

    return Picture(*size, draw, scale_words(divisor))


def _last_rounds(rows: int, brim: SectionPlan | None) -> str:
    """The rounds at the foot in words: "brim: rounds 22–23"."""
    first = brim.first_row if brim is not None else rows
    called = brim.name if brim is not None else "brim"
    return f"{called}: round {rows}" if first >= rows else f"{called}: rounds {first}–{rows}"


def disc_ring(middle: tuple[float, float], radius: float) -> tuple[tuple[float, float], ...]:
    """A circle as a closed line, fine enough for paper."""
    turn = [k * math.pi / 120 for k in range(241)]
    return tuple((middle[0] + radius * math.cos(t), middle[1] + radius * math.sin(t)) for t in turn)
