"""A sized piece folded and bordered: all its yarn in space, in stitch widths, the outside facing the reader."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from ..folding.border import BorderPlan
from ..folding.folds import Folding
from ..made_late import dataclass, replace
from .bend import PITCH, Bent, Panel, bent
from .cloth import Cloth
from .edge import Edged, border_stitches
from .parts import draw_stitch, yarn_in
from .strokes import Floats
from .yarn import Bundle, Skein

#: The height of a round of border where none is planned, in stitch widths.
USUAL_ROUND = 0.9


@dataclass(frozen=True, slots=True)
class Folded:
    """The yarn of a folded piece; `box` is left, bottom, right, top of the cloth without its border, `core` of the part
    that the others are folded onto."""

    bundles: tuple[Bundle, ...]
    box: tuple[float, float, float, float]
    top: float
    low: float
    border: int = 0
    yarn: float = 1.0
    core: tuple[float, float, float, float] = (0.0, 0.0, 0.0, 0.0)


def folded(
    cloth: Cloth, folding: Folding, border: BorderPlan | None, colours: Mapping[str, int], unit_mm: float,
    row_mm: float | None, *, flat: bool = False, other_side: bool = False,
) -> Folded:  # fmt: skip
    """The piece after all folds (with `flat`, before any), with its border where that can be worked then."""
    stack = folding.start if flat else folding.end
    ends = bent(stack, unit_mm)
    bundles = [replace(b, points=ends.places(_on_piece(b.points, cloth, folding, unit_mm)))
               for b in yarn_in(cloth, tuple(colours))]
    edged: list[Edged] = []
    if border is not None and (not flat or not border.joins):
        edged = _border(folding, border, unit_mm, row_mm)
        bundles += _edge_yarn(edged, folding, ends, colours, unit_mm, len(cloth.stitches))
    shows_front = folding.lies_outside_up or len(folding.stages) > folding.joined > 0
    if shows_front == other_side:
        bundles = [replace(b, points=b.points * np.array((-1, 1, -1), dtype=np.float32)) for b in bundles]
    heights = [p.height * (1.0 if shows_front != other_side else -1.0) for p in ends.panels]
    mirrored = shows_front == other_side
    box, core = _box(ends.panels, mirrored=mirrored), _box((_largest(ends),), mirrored=mirrored)
    return Folded(tuple(bundles), box, max(heights), min(heights), len(edged), cloth.yarn, core)


def _on_piece(points: Floats, cloth: Cloth, folding: Folding, unit_mm: float) -> Floats:
    """Places of the cloth on the flat piece: y down from its last row."""
    piece = folding.piece
    heads = [s.head[0] for s in cloth.stitches if s.is_topped or s.spot.role == "foundation"]
    low, high = min(heads) - 0.5, max(heads) + 0.5
    wide = piece.width_mm / unit_mm
    out = points.copy()
    out[:, :, 0] = (points[:, :, 0] - low) * np.float32(wide / (high - low))
    out[:, :, 1] = piece.height_mm / unit_mm - points[:, :, 1]
    return out


def _border(folding: Folding, border: BorderPlan, unit_mm: float, row_mm: float | None) -> list[Edged]:
    stack = folding.joined_stack if border.joins else folding.start
    left, _, right, _ = stack.silhouette.bounds
    mirror = None if folding.lies_outside_up else left + right
    return border_stitches(border, bent(stack, unit_mm), unit_mm, row_mm or USUAL_ROUND * unit_mm, mirror=mirror)


def _edge_yarn(
    edged: Sequence[Edged], folding: Folding, ends: Bent, colours: Mapping[str, int], unit_mm: float, first: int
) -> list[Bundle]:
    """The border's yarn, carried along where its part is folded after the joining."""
    out = []
    joined = bent(folding.joined_stack, unit_mm)
    for part in dict.fromkeys((e.part, e.layers, e.height) for e in edged):
        skein = Skein()
        here = [(k, e) for k, e in enumerate(edged) if (e.part, e.layers, e.height) == part]
        thick = 1.0 + 1.2 * (part[1] - 1) * PITCH
        for k, e in here:
            draw_stitch(skein, e.made, first + k, colours.get(e.made.colour, 0), thick=thick)
        for bundle in skein.bundles():
            points = bundle.points + np.array((0, 0, part[2]), dtype=np.float32)
            out.append(replace(bundle, points=_carried(points, part[0], joined, ends)))
    return out


def _carried(points: Floats, part: str, joined: Bent, ends: Bent) -> Floats:
    """Border along a part, where that part lies in the end; a part that is cut out of another by a later fold lay
    where that one did."""
    now = next((p for p in ends.panels if p.part == part), None)
    if now is None:
        return points
    middle = now.corners.mean(axis=0)
    was = min(joined.panels, key=lambda p: float(p.beyond(middle[None])[0]))
    found = points.copy()
    flat = (points[:, :, :2] - was.shift) @ np.linalg.inv(was.turn).T
    found[:, :, :2] = flat @ now.turn.T + now.shift
    found[:, :, 2] = now.height + (points[:, :, 2] - was.height) * was.up * now.up
    return found


def _largest(ends: Bent) -> Panel:
    def area(panel: Panel) -> float:
        (left, low), (right, high) = panel.corners.min(axis=0), panel.corners.max(axis=0)
        return float((right - left) * (high - low))

    return max(ends.panels, key=area)


def _box(panels: Sequence[Panel], *, mirrored: bool) -> tuple[float, float, float, float]:
    corners = np.concatenate([p.on_plane(p.corners) for p in panels])
    left, right = float(corners[:, 0].min()), float(corners[:, 0].max())
    left, right = (-right, -left) if mirrored else (left, right)
    return left, float(corners[:, 1].min()), right, float(corners[:, 1].max())
