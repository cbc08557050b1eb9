"""The tops of a round set about its centre: their angles as a row's x is, then their heights.

How close they stand and how far the round is moved out follows from how many they are; what it needs at its seam,
for the number, the beginning chain and the join, is kept free.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

from ...model.cloth.fabric import Row
from ..placing.isotonic import astray, follow, settle_round
from ..placing.spacing import LEVELLING, SQUARE, least_radius, round_steps
from ..placing.tops import CLOSEST, Slot, bridge_size, fans_of, gap_after, is_cross, least_rise, rise_of
from ..placing.tracks import CircleWay, Way
from .sides import STRETCH

#: Free way kept at the seam for the number, the beginning chain and the join, beyond one stitch.
SEAM, SEAM_START, SEAM_CHAINS, SEAM_CORNER = 0.75, 1.0, 0.75, 0.35
#: The way round that the arms of crosses need, and how far below their heads they lie: there the round is shorter.
ARMS_ROOM, ARMS_DOWN = 0.78, 0.5
#: How far the stitches of an even round may stand from their feet before they are kept over them instead.
ASTRAY = 1.5


def round_gaps(row: Row, slots: Sequence[Slot], pitch: float) -> list[float]:
    """The way from every top to the next in stitch widths, the last one on to the first over the seam."""
    gaps = [gap_after(row, a, b, pitch) for a, b in itertools.pairwise(slots)]
    if slots:
        gaps.append(gap_after(row, slots[-1], slots[0], pitch) + seam_room(row, slots))
    return gaps


def seam_room(row: Row, slots: Sequence[Slot], *, cornered: bool = False) -> float:
    """What the seam needs beyond one stitch; less where the last chains make a corner."""
    if bridge_size(row, slots[-1].bridge)[0]:
        return SEAM_CORNER if cornered else SEAM_CHAINS
    return SEAM_START if any(s.role == "start" for s in row.stitches) else SEAM


def round_size(slots: Sequence[Slot], gaps: Sequence[float]) -> tuple[float, float]:
    """How close the tops stand, and how far the round is moved outwards to make room for them."""
    mean = sum(s.rise for s in slots) / max(len(slots), 1)
    need = sum(gaps) / math.tau
    pitch = max(CLOSEST, min(1.0, mean * STRETCH / max(need, 1e-6)))
    arms = need * ARMS_ROOM + ARMS_DOWN if all(map(is_cross, slots)) else 0.0
    return pitch, max(0.0, need * pitch - mean, arms - mean)


def place_circle(row: Row, slots: Sequence[Slot], gaps: Sequence[float], way: CircleWay, lift: float) -> None:
    """Settle u and v of every top of a round on a circle, moved out by `lift` from where its stitches reach."""
    mean = sum(s.rise for s in slots) / len(slots) + lift
    unit = way.unit(mean)
    _want_on_ring(slots, gaps, math.tau)
    wants = [s.want for s in slots]
    scaled = [g * unit for g in gaps]
    steps = gaps_between(row, slots, scaled)
    placed = settle_round(wants, scaled, steps, math.tau)
    if all(s is not None for s in steps) and astray(placed, wants) > ASTRAY * unit:
        _place_uneven(row, slots, way, lift)
        return
    for slot, u in zip(slots, placed, strict=True):
        slot.u = u
    settle_heights(row, slots, way, lift, closed=True)


def _place_uneven(row: Row, slots: Sequence[Slot], way: CircleWay, lift: float) -> None:
    """The tops kept over their places, which the round is moved out far enough to hold, drawn close."""
    gaps = round_gaps(row, slots, CLOSEST)
    mean = sum(s.rise for s in slots) / len(slots)
    radius = max(mean + lift, least_radius(slots, gaps, way))
    scaled = [g * way.unit(radius) for g in gaps]
    steps = round_steps(slots, scaled, way)
    for slot, u in zip(
        slots, settle_round([s.want for s in slots], scaled, steps, math.tau, even=False), strict=True
    ):
        slot.u = u
    settle_heights(row, slots, way, radius - mean, closed=True)


def gaps_between(row: Row, slots: Sequence[Slot], gaps: Sequence[float]) -> list[float | None]:
    """The gap where one top follows another, None where chains lie between them."""
    return [
        None if bridge_size(row, slot.bridge)[0] else gap
        for slot, gap in zip(slots, gaps, strict=True)
    ]


def _want_on_ring(slots: Sequence[Slot], gaps: Sequence[float], whole: float) -> None:
    """Stitches in a ring share it out by the room they need."""
    if not slots or any(s.feet for s in slots):
        return
    need, at = sum(gaps), 0.0
    for slot, gap in zip(slots, gaps, strict=True):
        slot.want = whole * at / need
        at += gap


def settle_heights(row: Row, slots: Sequence[Slot], way: Way, lift: float, *, closed: bool) -> None:
    """Settle v of every top; round a circle three turns are settled and the middle one kept."""
    turns = 3 if closed else 1
    fans = fans_of(slots)
    leans = [(s.u - s.want) / way.unit(s.rise) if s.feet and s.item in fans else 0.0 for s in slots]
    heights = [rise_of(s.stitch.kind, s.stitch.legs, s.stitch.base) for s in slots]
    targets = [s.rise + lift for s in slots] * turns
    steps, ties = _slopes(row, slots, leans, heights)
    count = len(slots)
    steps, ties = (steps * turns)[: count * turns - 1], (ties * turns)[: count * turns - 1]
    settled = follow(targets, [1.0] * len(targets), steps, ties)
    for slot, v in zip(slots, settled[count : 2 * count] if closed else settled, strict=True):
        slot.v = max(v, least_rise(slot))


def _slopes(row: Row, slots: Sequence[Slot], leans: Sequence[float], heights: Sequence[float]
) -> tuple[list[float], list[float]]:
    """From every top to the next how the round falls or rises, and how firmly that is kept."""
    steps, ties = [], []
    for k, slot in enumerate(slots):
        after = (k + 1) % len(slots)
        chained = bool(bridge_size(row, slot.bridge)[0])
        slope = -SQUARE * (leans[k] + leans[after]) / (heights[k] + heights[after])
        steps.append(0.0 if chained else max(-0.6, min(0.6, slope)))
        ties.append(LEVELLING / (2.0 if chained else 1.0))
    return steps, ties
