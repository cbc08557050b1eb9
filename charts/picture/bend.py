"""Cloth bent as the folding bends it: facets in their layers, round turns at the folds.

The plane is that of the folding, in stitch widths, y up; z counts from the table. A place of the flat cloth comes
with its distance from the middle of the cloth, towards the reader on the right side.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

import numpy as np

from ..folding.facets import Stack, determinant
from ..made_late import dataclass
from .strokes import Floats, Reals

#: The way from one layer to the next, in stitch widths: as thick as the cloth is.
PITCH = 1.25
#: Edges nearer than this are one.
SAME = 1e-3


@dataclass(frozen=True, slots=True)
class Panel:
    """A facet: its corners on the flat cloth, the map to the plane (2 x 2 and a shift), its height, and its side up."""

    corners: Reals
    turn: Reals
    shift: Reals
    height: float
    up: float
    part: str

    def beyond(self, flat: Reals) -> Reals:
        """How far places lie outside of the panel (negative inside)."""
        middle = self.corners.mean(axis=0)
        far: Reals = np.full(flat.shape[:-1], -1e9, dtype=np.float32)
        for a, b in itertools.pairwise((*self.corners, self.corners[0])):
            along = (b - a) / np.hypot(*(b - a))
            out = np.array((along[1], -along[0]))
            out = -out if (middle - a) @ out > 0 else out
            far = np.maximum(far, ((flat - a) @ out).astype(np.float32)).astype(np.float32)
        return far

    def on_plane(self, flat: Reals) -> Reals:
        found: Reals = flat @ self.turn.T + self.shift
        return found


@dataclass(frozen=True, slots=True)
class Crease:
    """Where two panels meet on the flat cloth: a point of the line and the unit vector from it into the first."""

    first: int
    second: int
    at: Reals
    into: Reals


@dataclass(frozen=True, slots=True)
class Bent:
    """A folded piece as a way to bend cloth."""

    panels: tuple[Panel, ...]
    creases: tuple[Crease, ...]

    def places(self, flat: Floats) -> Floats:
        """Where places (..., 3) of the flat cloth lie in space."""
        plane, out = flat[..., :2], flat[..., 2]
        beyond = np.stack([panel.beyond(plane) for panel in self.panels])
        which = np.argmin(beyond, axis=0)
        found = np.empty(flat.shape, dtype=np.float32)
        for k, panel in enumerate(self.panels):
            here = which == k
            found[here, :2] = panel.on_plane(plane[here])
            found[here, 2] = panel.height + panel.up * out[here]
        for crease in self.creases:
            self._round(crease, flat, which, found)
        return found

    def _round(self, crease: Crease, flat: Floats, which: Floats, found: Floats) -> None:
        """Bend what lies near a crease round it."""
        one, other = self.panels[crease.first], self.panels[crease.second]
        thick = abs(one.height - other.height) / 2.0
        if thick < SAME:
            return
        off = (flat[..., :2] - crease.at) @ crease.into
        near = (np.abs(off) < thick * math.pi / 2.0) & ((which == crease.first) | (which == crease.second))
        q, angle = off[near], off[near] / thick
        base = one.on_plane(flat[near][:, :2] - q[:, None] * crease.into)
        into = one.turn @ crease.into
        above = 1.0 if one.height > other.height else -1.0
        found[near, :2] = base + (thick * (math.pi / 2.0 - np.cos(angle)))[:, None] * into
        found[near, 2] = (one.height + other.height) / 2.0 + above * thick * np.sin(angle)
        side = one.up * above * flat[near][:, 2]
        found[near, :2] -= (side * np.cos(angle))[:, None] * into
        found[near, 2] += side * above * np.sin(angle)


def bent(stack: Stack, unit_mm: float) -> Bent:
    """The way a folded stack bends cloth, a stitch width being so many mm."""
    panels = tuple(
        Panel(
            np.array(facet.flat.exterior.coords[:-1], dtype=np.float64) / unit_mm,
            np.array(((m[0], m[1]), (-m[2], -m[3]))), np.array((m[4], -m[5])) / unit_mm,
            layer * PITCH, 1.0 if determinant(m) > 0 else -1.0, facet.part,
        )
        for facet, layer in zip(stack.facets, stack.layers, strict=True)
        for m in (facet.to_plane,)
    )  # fmt: skip
    return Bent(panels, tuple(_creases(panels)))


def _creases(panels: Sequence[Panel]) -> list[Crease]:
    """The edges that two panels share on the flat cloth."""
    found = []
    for (i, one), (j, other) in itertools.combinations(enumerate(panels), 2):
        for a, b in itertools.pairwise((*one.corners, one.corners[0])):
            along = (b - a) / np.hypot(*(b - a))
            into = np.array((-along[1], along[0]))
            into = into if (one.corners.mean(axis=0) - a) @ into > 0 else -into
            touches = [c for c in other.corners if abs((c - a) @ into) < SAME]
            if len(touches) >= 2 and (other.corners.mean(axis=0) - a) @ into < 0:
                found.append(Crease(i, j, a, into))
    return found
