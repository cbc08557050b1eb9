"""A round with corners: each side placed like a short row between them."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass

from ...model.cloth.fabric import Row
from ..placing.chain_room import room
from ..placing.isotonic import follow, place
from ..placing.spacing import LEVELLING
from ..placing.tops import CLOSEST, Slot, bridge_size, gap_after
from ..placing.tracks import PolygonWay

#: How far a round may be stretched outwards before its tops are drawn closer.
STRETCH = 1.15


CORNER_ROOM = 0.25


@dataclass(slots=True)
class Run:
    """One side: the stitch on its first corner (None where that is a chain space), and the tops inside it."""

    corner: Slot | None
    inside: list[Slot]


def runs_of(row: Row, slots: Sequence[Slot], corners: tuple[int, ...]) -> list[Run]:
    """The sides of a round, the first after its first corner."""
    by_item = {s.item: s for s in slots}
    order = [*corners, corners[0] + len(row.stitches)]
    runs = []
    for a, b in itertools.pairwise(order):
        items = [i % len(row.stitches) for i in range(a + 1, b)]
        runs.append(Run(by_item.get(a), [by_item[i] for i in items if i in by_item]))
    return runs


def _measure(row: Row, run: Run, interior: float, closing: dict[int, float]) -> list[float]:
    """The gaps along a side: from its first corner, between its tops, to its last corner."""
    inside = run.inside
    if not inside:
        return [1.0]
    gaps = [gap_after(row, a, b, 1.0) + closing.get(id(a), 0.0) for a, b in itertools.pairwise(inside)]
    last = inside[-1]
    chains, picots = bridge_size(row, last.bridge)
    # A corner's chains lie across it: two ways along the sides make one way across.
    across = (1.0 + CORNER_ROOM + room(chains, picots)) / (2.0 * math.sin(interior / 2.0))
    first = 1.0 if run.corner is not None else across
    end = (across if chains else 1.0) + closing.get(id(last), 0.0)
    return [first, *gaps, end]


def _even(gaps: Sequence[float], half: float) -> list[float]:
    """Places along a side from -half to half, shared out by the gaps."""
    need, at = sum(gaps), 0.0
    places = []
    for gap in gaps[:-1]:
        at += gap
        places.append(-half + 2.0 * half * at / need)
    return places


def place_sides(row: Row, slots: list[Slot], runs: Sequence[Run], way: PolygonWay, seam: float) -> None:
    """Settle u and v of every top of a round with corners; `seam` is what the seam needs beyond one
    stitch.
    """
    interior = math.pi - math.tau / way.sides
    closing = {id(slots[-1]): seam}
    measures = [_measure(row, run, interior, closing) for run in runs]
    mean = sum(s.rise for s in slots) / len(slots)
    need = max(sum(m) for m in measures) / (2.0 * way.half)
    pitch = max(CLOSEST, min(1.0, mean * STRETCH / max(need, 1e-6)))
    top = max(mean, need * pitch)
    for side, (run, measure) in enumerate(zip(runs, measures, strict=True)):
        _place_side(row, side, run, [m * pitch for m in measure], top, way)
    for slot in slots:
        slot.v = top
    inner = [s for run in runs for s in run.inside]
    for run in runs:
        _side_heights(run.inside, top - mean)
    for slot in slots:
        if slot not in inner:
            slot.v = top


def _side_heights(slots: Sequence[Slot], lift: float) -> None:
    if not slots:
        return
    ties = [LEVELLING] * (len(slots) - 1)
    settled = follow([s.rise + lift for s in slots], [1.0] * len(slots), [0.0] * (len(slots) - 1), ties)
    for slot, v in zip(slots, settled, strict=True):
        slot.v = v


def _place_side(row: Row, side: int, run: Run, gaps: Sequence[float], top: float, way: PolygonWay) -> None:
    """The tops of one side between its corners, which are held fast."""
    half = top * way.half
    firm = 1e7
    inside = run.inside
    if not any(bridge_size(row, s.bridge)[0] for s in inside):
        gaps = [gap * 2.0 * half / sum(gaps) for gap in gaps]
    wants = [
        sum(way.along_side(f.point, side)[0] for f in s.feet) / len(s.feet) if s.feet else None
        for s in inside
    ]
    even = _even(gaps, half)
    filled = [want if want is not None else even[k] for k, want in enumerate(wants)]
    weights = [firm, *([1.0] * len(inside)), firm]
    placed = place([-half, *filled, half], gaps, weights)
    for slot, s in zip(inside, placed[1:-1], strict=True):
        slot.u = 2.0 * side + 1.0 + s / half
    if run.corner is not None:
        run.corner.u = 2.0 * side
