"""Where the tops of a half motif's row stand: along an arc or a straight side, and how far out."""

from __future__ import annotations

import itertools
from collections.abc import Sequence

from ...model.cloth.fabric import Row
from ..placing.isotonic import TIE, follow, place
from ..placing.spacing import LEVELLING, SQUARE
from ..placing.tops import CLOSEST, Slot, bridge_size, fans_of, gap_after, is_cross, least_rise, rise_of
from ..placing.tracks import ArcWay, FacetWay
from .wedge import Part, Wedge, parts_of, side_gaps

#: How far a row may be stretched outwards before its tops are drawn closer.
STRETCH = 1.15
#: How firmly the tops on the edges, and those at corners, are held there.
HELD = 1e7
#: From so far inside the edge a row does not reach it.
UNWORKED = 1.25
#: How much a row may rise or fall from one top to the next.
STEEPEST = 0.6
#: How far below their heads the arms of crosses lie: there the arc is shorter, and they must not touch.
ARMS_DOWN = 0.45


def stand_on_arc(row: Row, slots: Sequence[Slot], way: ArcWay) -> None:
    """Settle u and v of every top of a row on an arc: far enough out to have room, from edge to edge."""
    gaps = [gap_after(row, a, b, 1.0) for a, b in itertools.pairwise(slots)]
    mean = sum(s.rise for s in slots) / len(slots)
    need = sum(gaps) / way.angle
    pitch = _pitch(mean, need)
    arms = need * CLOSEST + ARMS_DOWN if any(map(is_cross, slots)) else 0.0
    lift = max(0.0, need * pitch - mean, arms - mean)
    _place_arc(row, slots, gaps, pitch, way.angle * (mean + lift), 1.0 / (mean + lift))
    _settle_up(row, slots, way, lift)


def stand_on_sides(row: Row, slots: Sequence[Slot], way: FacetWay, wedge: Wedge, corners: Sequence[float]) -> None:
    """Settle u and v of every top of a row on straight sides between its corners."""
    parts, lengths = parts_of(slots, corners), wedge.lengths()
    every = side_gaps(row, slots, parts, wedge.each)
    mean = sum(s.rise for s in slots) / len(slots)
    need = max(sum(gaps) / length for gaps, length in zip(every, lengths, strict=True))
    pitch = _pitch(mean, need)
    top = max(mean, need * pitch)
    ease = min(length * top / sum(gaps) for gaps, length in zip(every, lengths, strict=True))
    for side, (part, gaps) in enumerate(zip(parts, every, strict=True)):
        span = _span(wedge, side, top * way.half)
        _place_side(row, part, gaps, ease, span, way, side, top, pitch)
        _level_side(part, top, top - mean)


def _pitch(mean: float, need: float) -> float:
    """How close tops stand: one stitch, less where the row would have to be moved far out to have the room."""
    return max(CLOSEST, min(1.0, mean * STRETCH / max(need, 1e-6)))


def _place_arc(
    row: Row, slots: Sequence[Slot], gaps: Sequence[float], pitch: float, length: float, unit: float
) -> None:
    """Settle u of every top of a row on an arc that is `length` stitches long."""
    wants = [s.want / unit for s in slots] if any(s.feet for s in slots) else []
    loose = [bool(bridge_size(row, s.bridge)[0]) for s in slots[:-1]]
    for slot, x in zip(slots, _spread(wants, [g * pitch for g in gaps], loose, length), strict=True):
        slot.u = x * unit


def _settle_up(row: Row, slots: Sequence[Slot], way: ArcWay, lift: float) -> None:
    """Settle v of every top: level along the arc, falling away only where posts fan from one place."""
    fans = fans_of(slots)
    leans = [(s.u - s.want) / way.unit(s.rise) if s.feet and s.item in fans else 0.0 for s in slots]
    heights = [rise_of(s.stitch.kind, s.stitch.legs, s.stitch.base) for s in slots]
    steps, ties = [], []
    for k, slot in enumerate(slots[:-1]):
        chained = bool(bridge_size(row, slot.bridge)[0])
        slope = -SQUARE * (leans[k] + leans[k + 1]) / (heights[k] + heights[k + 1])
        steps.append(0.0 if chained else max(-STEEPEST, min(STEEPEST, slope)))
        ties.append(LEVELLING / (2.0 if chained else 1.0))
    targets = [s.rise + lift for s in slots]
    for slot, v in zip(slots, follow(targets, [1.0] * len(slots), steps, ties), strict=True):
        slot.v = max(v, least_rise(slot))


def _spread(wants: Sequence[float], gaps: Sequence[float], loose: Sequence[bool], length: float) -> list[float]:
    """Places from 0 to `length`: shared out by the gaps where nothing is wanted or nothing is `loose` between tops.

    Else each near what it wants, those that follow each other without chains held together. A row that begins or ends
    well inside the edge, beside stitches that are left unworked, does so here.
    """
    if not gaps:
        return [length / 2.0]
    begin, end = _ends(wants, length)
    begin, end = (begin, end) if end - begin > sum(gaps) else (0.0, length)
    shared = [begin + at * (end - begin) / sum(gaps) for at in itertools.accumulate([0.0, *gaps])]
    if not wants or not any(loose):
        return shared
    held = [begin, *wants[1:-1], end]
    weights = [HELD, *[1.0] * (len(wants) - 2), HELD]
    ties = [0.0 if free else TIE for free in loose]
    fitted = [gap * min(1.0, (end - begin) / sum(gaps)) for gap in gaps]
    return place(follow(held, weights, fitted, ties), fitted, weights)


def _ends(wants: Sequence[float], length: float) -> tuple[float, float]:
    """Where a row begins and ends that wants these places: on the edges, where it comes near them."""
    begin = wants[0] if wants and wants[0] > UNWORKED else 0.0
    end = wants[-1] if wants and length - wants[-1] > UNWORKED else length
    return begin, end


def _span(wedge: Wedge, side: int, half: float) -> tuple[float, float]:
    """Where a side begins and ends along itself, from its middle; `half` is half a whole side's length."""
    first, last = wedge.half_ends and side == 0, wedge.half_ends and side == wedge.sides - 1
    return (0.0 if first else -half, 0.0 if last else half)


def _place_side(
    row: Row,
    part: Part,
    gaps: Sequence[float],
    ease: float,
    span: tuple[float, float],
    way: FacetWay,
    side: int,
    top: float,
    pitch: float,
) -> None:
    """Settle u of the tops of one side, and of the stitch on the corner after it."""
    middle, half = 2.0 * side + 1.0, top * way.half
    if part.after is not None:
        part.after.u = middle + 1.0
    if not part.inside:
        return
    inside = part.inside
    places = _even(part, gaps, ease, span)
    if any(bridge_size(row, s.bridge)[0] for s in inside[:-1]) and any(s.feet for s in inside):
        wants = [_along(s, way, side, places[k]) for k, s in enumerate(inside)]
        weights = [HELD, *[1.0] * len(inside), HELD]
        placed = place([span[0], *wants, span[1]], [g * min(pitch, ease) for g in gaps], weights)[1:-1]
        places = [span[0] if part.at_start else placed[0], *placed[1:]]
        places = [*places[:-1], span[1] if part.at_end else places[-1]]
    for slot, at in zip(inside, places, strict=True):
        slot.u = middle + at / half


def _even(part: Part, gaps: Sequence[float], ease: float, span: tuple[float, float]) -> list[float]:
    """The tops of a side evenly from corner to corner; `ease` is how wide the way at the corners of the row is drawn.

    That is the same at all of them: so the chains over a corner lie squarely across it.
    """
    first, last = span[0] + gaps[0] * ease, span[1] - gaps[-1] * ease
    inner = gaps[1:-1]
    if not inner:
        return [first if part.at_start else last if part.at_end else (first + last) / 2.0]
    return [first + at * (last - first) / sum(inner) for at in itertools.accumulate([0.0, *inner])]


def _along(slot: Slot, way: FacetWay, side: int, otherwise: float) -> float:
    """How far along a side a top wants to stand, from its middle: square over its feet."""
    if not slot.feet:
        return otherwise
    return sum(way.along_side(f.point, side)[0] for f in slot.feet) / len(slot.feet)


def _level_side(part: Part, top: float, lift: float) -> None:
    """The heights of a side: as its stitches are tall, levelled along it; its corners on the line."""
    for slot in (part.after, *part.inside):
        if slot is not None:
            slot.v = top
    if not part.inside:
        return
    slots = part.inside
    ties = [LEVELLING] * (len(slots) - 1)
    settled = follow([s.rise + lift for s in slots], [1.0] * len(slots), [0.0] * (len(slots) - 1), ties)
    for slot, v in zip(slots, settled, strict=True):
        slot.v = max(v, least_rise(slot))
