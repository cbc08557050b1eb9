"""How high the tops of a row stand: level on a level row, falling away where posts lean out of a fan or a peak."""

from __future__ import annotations

from collections.abc import Sequence

from ...model.cloth.fabric import Row
from .isotonic import follow
from .tops import Slot, bridge_size, fans_of, is_gathered, least_rise, rise_of
from .tracks import Way

#: How firmly the height of a top follows its neighbour's, against standing its own height above its feet.
LEVELLING = 2.0
#: How much of its height a post that goes in further down shows in its own row.
LEAST_REACH = 0.55
#: What a row may not exceed to be kept on one line: the unevenness of its feet, the difference of its plain
#: heights, the lean of a top.
FLAT_BASE, FLAT_HEIGHTS, FLAT_LEAN = 0.6, 0.9, 0.8
#: How much of the fall that leaning posts ask for is given.
SQUARE = 0.7


def place_up(row: Row, slots: Sequence[Slot], way: Way) -> None:
    """Settle v of every top."""
    leans = [_lean(s, way) for s in slots]
    heights = [rise_of(s.stitch.kind, s.stitch.legs, s.stitch.base) for s in slots]
    if _is_flat(row, slots, heights, leans):
        level_up(slots)
        return
    steps, ties = [], []
    for k in range(len(slots) - 1):
        slope = -SQUARE * (leans[k] + leans[k + 1]) / (heights[k] + heights[k + 1])
        chained = bool(bridge_size(row, slots[k].bridge)[0])
        small = "sl st" in (slots[k].stitch.kind, slots[k + 1].stitch.kind)
        reach = (slots[k + 1].u - slots[k].u) / way.unit(slots[k].rise)
        steps.append(0.0 if chained else slope * min(reach, 1.5))
        ties.append(0.0 if small else LEVELLING / (2.0 if chained else 1.0))
    targets = [
        s.rise - min(0.25 * h, 0.04 * lean * lean) for s, h, lean in zip(slots, heights, leans, strict=True)
    ]
    for slot, v in zip(slots, follow(targets, [1.0] * len(slots), steps, ties), strict=True):
        slot.v = max(v, least_rise(slot))


def level_up(slots: Sequence[Slot]) -> None:
    """Every top on one line, as high as they are tall in the mean."""
    own = [s for s in slots if not _reaches(s)] or slots
    least = [least_rise(s) if s in own else s.rise - (1.0 - LEAST_REACH) * _height(s) for s in slots]
    v = max(sum(s.rise for s in own) / len(own), *least)
    for slot in slots:
        slot.v = v


def _reaches(slot: Slot) -> bool:
    """Whether a stitch goes in further down than the row below: its height is no measure of its row's."""
    return any(foot.back > 1 for foot in slot.stitch.feet)


def _height(slot: Slot) -> float:
    return rise_of(slot.stitch.kind, slot.stitch.legs, slot.stitch.base)


def _is_flat(row: Row, slots: Sequence[Slot], heights: Sequence[float], leans: Sequence[float]) -> bool:
    """Whether a row without chains, fans or tall and low stitches by turns stands on a level one."""
    if len(slots) < 3 or any(bridge_size(row, s.bridge)[0] for s in slots[:-1]):
        return False
    if any(s.stitch.kind == "sl st" for s in slots) or fans_of(slots) or not all(s.feet for s in slots[1:]):
        return False
    plain = [h for s, h in zip(slots, heights, strict=True) if not (is_gathered(s.stitch) or _reaches(s))]
    feet = [s.rise - h for s, h in zip(slots, heights, strict=True)]
    return (
        max(feet) - min(feet) < FLAT_BASE
        and max(plain, default=0.0) - min(plain, default=0.0) < FLAT_HEIGHTS
        and max(map(abs, leans)) < FLAT_LEAN
    )


def _lean(slot: Slot, way: Way) -> float:
    """How far the top stands along from the middle of its feet, in stitch widths."""
    if not slot.feet:
        return 0.0
    return (slot.u - slot.want) / way.unit(slot.rise)
