"""What the surface of yarn is like: plies laid about each other, and in them fibres that lie along the strand.

A place on a strand is told by the angle about its middle line (radians, 0 towards the reader) and by how far along it
lies, in radii. Everything is reckoned from these and from the strand's number, so the same yarn comes out the same.
"""

from __future__ import annotations

import math

import numpy as np
import numpy.typing as npt

from ..strokes import Floats, Ints

#: Three plies; a turn of the twist takes so many radii, and the furrow between two plies is so deep (of the radius).
LAY, PLIES, FURROW = 8.0, 3.0, 0.26
#: How much darker it is down in a furrow, for its depth.
GROOVED = 1.1
#: Where the yarn is this thin (pixels) its plies begin to be seen, and from here on are seen whole.
PLY_FROM, PLY_FULL = 2.5, 5.5
#: Fibres: how many lie round a strand, how long they are (radii), how much lighter or darker, and how raised.
AROUND, LONG, SPECKLE, RAISED = 38.0, 3.0, 0.2, 0.3
#: Thinner yarn than this, in pixels, shows no fibres.
FIBRES_FROM = 4.0
#: The yarn is thicker and thinner by so much, over so many radii.
SLUB, SLUB_LONG = 0.045, 11.0


def strength(radius: Floats) -> Floats:
    """How much of its plies is seen of yarn so thick (pixels): 0 to 1."""
    share: Floats = np.clip((radius - PLY_FROM) / (PLY_FULL - PLY_FROM), 0.0, 1.0)
    return share


def relief(angle: Floats, along: Floats, radius: Floats) -> tuple[Floats, Floats]:
    """How far out the surface lies, as a share of the radius, and how that grows with the angle."""
    turned = (angle + along * np.float32(math.tau / LAY)) * np.float32(PLIES / 2.0)
    bump = np.cos(turned)
    deep = np.float32(FURROW) * strength(radius)
    out: Floats = np.subtract(1.0, deep * (1.0 - np.abs(bump)), dtype=np.float32)
    slope: Floats = -deep * np.float32(PLIES / 2.0) * np.sin(turned) * np.sign(bump)
    return out, slope


def relief_over(angle: Floats, along: Floats, radius: Floats) -> Floats:
    """How far out the surface lies at every angle (angles) of places along strands (places) with the radius at each
    (places), as (places, angles)."""
    turned, round_ = along * np.float32(math.tau / LAY * PLIES / 2.0), angle * np.float32(PLIES / 2.0)
    out = np.cos(turned)[:, None] * np.cos(round_) - np.sin(turned)[:, None] * np.sin(round_)
    np.abs(out, out=out)
    deep = (np.float32(FURROW) * strength(radius))[:, None]
    out -= np.float32(1.0)
    out *= deep
    out += np.float32(1.0)
    found: Floats = out
    return found


def slubs(along: Floats, number: Ints) -> Floats:
    """How thick a strand is along itself beside the usual, by its number."""
    phase = (number.astype(np.uint32) * np.uint32(2654435761) >> np.uint32(8)).astype(np.float32) * np.float32(1e-3)
    share: Floats = 1.0 + np.float32(SLUB) * np.sin(along * np.float32(math.tau / SLUB_LONG) + phase)
    return share


def fibres(angle: Floats, along: Floats, number: Ints) -> tuple[Floats, Floats]:
    """How light fibres are at a place of a strand, about 0, and which way they lean (about the strand)."""
    round_ = angle * np.float32(AROUND / math.tau) + along * np.float32(0.22)
    tone = np.zeros_like(angle)
    lean = np.zeros_like(angle)
    for fine, weight in ((1.0, 0.62), (2.3, 0.38)):
        low, high = _hashed(round_ * np.float32(fine), along * np.float32(fine / LONG), number)
        tone += np.float32(weight) * low
        lean += np.float32(weight) * high
    return tone, lean


def _hashed(across: Floats, along: Floats, number: Ints) -> tuple[Floats, Floats]:
    """Smooth noise, -1 to 1, drawn out along the strand, and how it grows across it."""
    row, column = np.floor(across), np.floor(along)
    u, v = along - column, across - row
    u, soft = u * u * (3.0 - 2.0 * u), v * v * (3.0 - 2.0 * v)
    base = number.astype(np.uint32) * np.uint32(0x9E3779B1)
    rows, columns = row.astype(np.int32).astype(np.uint32), column.astype(np.int32).astype(np.uint32)
    corner = [[_noise(rows + np.uint32(r), columns + np.uint32(c), base) for c in (0, 1)] for r in (0, 1)]
    low = corner[0][0] + (corner[0][1] - corner[0][0]) * u
    high = corner[1][0] + (corner[1][1] - corner[1][0]) * u
    return low + (high - low) * soft, high - low


def _noise(row: npt.NDArray[np.uint32], column: npt.NDArray[np.uint32], base: npt.NDArray[np.uint32]) -> Floats:
    mixed = base ^ (row * np.uint32(0x85EBCA6B)) ^ (column * np.uint32(0xC2B2AE35))
    mixed = (mixed ^ (mixed >> np.uint32(15))) * np.uint32(0x2C1B3C6D)
    mixed = mixed ^ (mixed >> np.uint32(12))
    found: Floats = (mixed >> np.uint32(8)).astype(np.float32) / np.float32(1 << 23) - np.float32(1.0)
    return found
