"""The border: its stitches round the piece as they are planned, through all layers that lie there."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator

from ..folding.border import BorderPlan, Corner
from ..folding.stretch import Stretch
from ..layout.placing.placed import Spot
from ..made_late import dataclass, replace
from ..model.cloth.fabric import Stitch
from .bend import PITCH, Bent
from .cloth import Made, Place, unit

#: From the plane of the plan to that of the picture.
At = Callable[[Place], Place]

#: How far inside the edge a border stitch goes in, in stitch widths.
INSIDE = 0.55
#: A border stitch without a swatch is so wide, and its round so high.
USUAL = (1.0, 0.9)


@dataclass(frozen=True, slots=True)
class Edged:
    """A border stitch: as a stitch of the cloth on the plane of the folding, the height of the middle of the layers
    it goes through, how many they are, and the part it lies on."""

    made: Made
    height: float
    layers: int
    part: str


def border_stitches(
    border: BorderPlan, joined: Bent, unit_mm: float, row_mm: float, *, mirror: float | None
) -> list[Edged]:
    """Every stitch of the border, on the plane of the joined piece; `mirror` is twice the middle of the piece (mm)
    where the border is planned on the other side of it."""
    rise = row_mm / unit_mm

    def place(p: Place) -> Place:
        x = mirror - p[0] if mirror is not None else p[0]
        return (x / unit_mm, -p[1] / unit_mm)

    face = -1.0 if mirror is not None else 1.0
    found: list[Edged] = []
    for round_ in range(len(border.totals)):
        row: list[Edged] = []
        for stretch in border.stretches:
            row += _stretch(stretch, border, joined, place, round_ * rise, rise, face)
            if stretch is border.of_side(stretch.side)[-1] and (corner := border.corner_after(stretch.side)):
                row += _corner(corner, stretch, border, joined, place, round_ * rise, rise, face)
        found += _joined_up(row)
    return found


def _outward(border: BorderPlan, stretch: Stretch, face: float) -> tuple[Place, Place]:
    """The unit vectors along a stretch and out of the piece, on the plane with y up."""
    (x0, y0), (x1, y1) = stretch.start, stretch.end
    dx, dy = unit(x1 - x0, -(y1 - y0))
    dx *= face
    turn = 1.0 if border.clockwise == (face > 0) else -1.0
    return (dx, dy), (-dy * turn, dx * turn)


def _stretch(
    stretch: Stretch, border: BorderPlan, joined: Bent, place: At, low: float, rise: float, face: float
) -> Iterator[Edged]:
    a, b = place(stretch.start), place(stretch.end)
    along, out = _outward(border, stretch, face)
    middle, layers = _depth(stretch, joined)
    for k in range(stretch.count):
        share = (k + 0.5) / stretch.count
        at = (a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share)
        foot = _off(at, out, low - (INSIDE if low == 0 else 0.0))
        made = _made(border, foot, _off(at, out, low + rise), along, out, face)
        yield Edged(made, middle, layers, stretch.facing.part)


def _corner(
    corner: Corner, stretch: Stretch, border: BorderPlan, joined: Bent, place: At, low: float, rise: float,
    face: float,
) -> Iterator[Edged]:  # fmt: skip
    """The stitches of a corner, fanned."""
    at = place(corner.at)
    along, out = _outward(border, stretch, face)
    middle, layers = _depth(stretch, joined)
    sign = -1.0 if corner.inner else 1.0
    for k in range(corner.count):
        turn = (k + 1) / (corner.count + 1) * math.pi / 2.0
        way = unit(out[0] * math.cos(turn) + sign * along[0] * math.sin(turn),
                   out[1] * math.cos(turn) + sign * along[1] * math.sin(turn))
        far = 1.0 + 0.3 * math.sin(2.0 * turn)
        run = unit(along[0] * math.cos(turn) - out[0] * math.sin(turn),
                   along[1] * math.cos(turn) - out[1] * math.sin(turn))
        inner = (along[0] - out[0], along[1] - out[1])
        foot = _off(at, inner, -INSIDE * 0.4) if low == 0 else _off(at, way, low * far)
        yield Edged(_made(border, foot, _off(at, way, (low + rise) * far), run, way, face), middle, layers,
                    stretch.facing.part)


def _off(p: Place, way: Place, far: float) -> Place:
    return (p[0] + way[0] * far, p[1] + way[1] * far)


def _depth(stretch: Stretch, joined: Bent) -> tuple[float, int]:
    """The height of the middle of the layers that lie along a stretch, and how many there are."""
    parts = {run.part for run in stretch.runs}
    heights = [p.height for p in joined.panels if p.part in parts] or [joined.panels[0].height]
    if stretch.facing.edge == "fold":
        near = sorted(p.height for p in joined.panels)[-2:]
        return sum(near) / len(near), 1
    return (min(heights) + max(heights)) / 2.0, max(1, round((max(heights) - min(heights)) / PITCH) + 1)


def _made(border: BorderPlan, foot: Place, head: Place, along: Place, out: Place, face: float) -> Made:
    spot = Spot(0, border.stitch if border.stitch != "rsc" else "sc", "stitch", head, (foot,))
    stitch = Stitch(spot.kind)
    return Made(-2, spot, stitch, head, (foot,), _off(head, along, -0.9), along, out, face, border.colour)


def _joined_up(row: list[Edged]) -> list[Edged]:
    """The V of each stitch as long as the way from the one before."""
    found = []
    for k, one in enumerate(row):
        before = row[k - 1].made.head
        if math.dist(before, one.made.head) < 1.9:
            one = replace(one, made=replace(one.made, back=before))
        found.append(one)
    return found
