"""A hat as it stands, its crown on top, and the disc and the band that its paper is cut as."""

from __future__ import annotations

import math
from bisect import bisect_left
from itertools import accumulate, pairwise

from ...drawing.display import Text
from ...drawing.style import Style
from ...folding.folds import Folding
from ...measure import show_length
from ...model.sizing.plan import SectionPlan
from ..sheets.marks import Item, disc, fill, label, stroke, upright_dimension
from ..sheets.panel import Picture, scale_for, scale_words
from .cloth import tone

#: The dome of a hat on a head is so high for its half width; the picture of the fabric has the same.
DOME = 0.8
_PAD, _FLAT, _STEPS = 24.0, 0.22, 48
_FRONT = [k * math.pi / 36 for k in range(37)]


def crown_rounds(folding: Folding) -> int:
    """How many rounds the crown has; 0 of a piece without one."""
    return folding.piece.parts[0].count if folding.piece.parts[0].role == "crown" else 0


def _profile(half: float, high: float) -> tuple[tuple[float, ...], tuple[tuple[float, float], ...]]:
    """A hat's outline from the crown's middle to the brim, `half` across and `high` over the curve: how far along it
    places lie, and how far out and down they are. The dome is half an ellipse, the rest hangs straight."""
    rise = DOME * half
    turns = [k * math.pi / 2 / _STEPS for k in range(_STEPS + 1)]
    places = [(half * math.sin(t), rise * (1 - math.cos(t))) for t in turns]
    along = [0.0, *accumulate(math.dist(p, q) for p, q in pairwise(places))]
    straight = max(high - along[-1], 0.0)
    return (*along, along[-1] + straight), (*places, (half, rise + straight))


def _on(profile: tuple[tuple[float, ...], tuple[tuple[float, float], ...]], way: float) -> tuple[float, float]:
    """How far out and down a place lies that is so far along the outline."""
    along, places = profile
    at = min(max(bisect_left(along, way), 1), len(along) - 1)
    share = min(max((way - along[at - 1]) / max(along[at] - along[at - 1], 1e-9), 0.0), 1.0)
    (x0, y0), (x1, y1) = places[at - 1], places[at]
    return x0 + (x1 - x0) * share, y0 + (y1 - y0) * share


def hat_picture(folding: Folding, style: Style, wide: float, tall: float, brim: SectionPlan | None = None) -> Picture:
    """The hat as it stands on a head, seen a little from above, to scale: its rounds as lines, the last of its crown
    stronger; its last section is named by the rounds it has, where it is a `brim`."""
    piece = folding.piece
    crown, high_mm = piece.parts[0], piece.height_mm
    half_mm = piece.width_mm / math.pi / 2
    profile = _profile(half_mm, high_mm)
    down_mm = profile[1][-1][1]
    divisor = scale_for(2 * half_mm, down_mm + half_mm * _FLAT, wide - 2 * _PAD - 40.0, tall - 2 * _PAD + 8.0)
    size = (2 * half_mm / divisor + 4 * _PAD + 30.0, (down_mm + half_mm * _FLAT) / divisor + 20.0)

    def draw(x: float, y: float) -> tuple[Item, ...]:
        middle, top = x + size[0] / 2, y + 8.0

        def across(way_mm: float) -> list[tuple[float, float]]:
            out, down = _on(profile, way_mm)
            return [(middle + out * math.cos(t) / divisor, top + (down + out * _FLAT * math.sin(t)) / divisor)
                    for t in _FRONT]  # fmt: skip

        left = [(middle - out / divisor, top + down / divisor) for out, down in profile[1]]
        right = [(middle + out / divisor, top + down / divisor) for out, down in reversed(profile[1])]
        body = [*left, *reversed(across(high_mm)), *right]
        rounds = [across(mm) for mm in piece.row_edges_mm[1:-1]]
        items: list[Item] = [fill([body], tone("RS", style), "sides"), stroke(rounds, style.hair_mm, style.hair)]
        items.append(stroke([across(crown.length_mm)], style.outline_mm / 2, style.dark))
        items.append(stroke([[*body, body[0]]], style.outline_mm, style.dark))
        items.append(disc((middle, top), 0.9, fill_colour=style.dark))
        (edge, _), foot = left[-1], left[-1][1]
        items += upright_dimension(top, foot, edge, edge - 7.0, f"{show_length(down_mm, piece.unit)} as worn", style)
        words = (f"{show_length(piece.width_mm, piece.unit)} round, "
                 f"{show_length(high_mm, piece.unit)} from the crown's middle over the curve")  # fmt: skip
        items += label(middle, foot + half_mm * _FLAT / divisor + 6.5, words, style.small_mm, style.paper)
        ends, at = across(crown.length_mm)[0]
        aside = middle + half_mm / divisor + 4.0
        items.append(stroke([[(ends, at), (aside - 1.0, at)]], style.hair_mm, style.hair))
        items.append(Text(aside, at, f"crown: rounds 1–{crown.count},", style.small_mm))
        flat = f"{show_length(2 * crown.length_mm, piece.unit)} across, laid flat"
        items.append(Text(aside, at + 3.6, flat, style.small_mm))
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
