"""How a piece sits on its object, in space: a book stands with its pages, a pouch or a cushion is filled, a hat stands
as on a head, a tube stands round a cup or open, a band goes round a cup to both sides of its handle."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

import numpy as np

from ...made_late import dataclass, replace
from ..folded import Folded
from ..strokes import Floats
from ..yarn import Bundle
from .things import Thing, button, cup, cup_handle, loop

#: A book without a measured spine is so thick, as a share of its wrap.
USUAL_SPINE = 0.05
#: Pages stand back from the edge of the cover, in stitch widths, and their colour.
PAGES_BACK, PAGES, FILLING = -0.1, "#efe6d2", "#6d655c"
#: How a standing book and what lies on a table are turned: about the upright, then towards the reader (degrees).
STANDING, LYING, HATTED, ROUND = (-33.0, 26.0), (-8.0, 52.0), (0.0, 17.0), (0.0, 24.0)
#: A flap and the board it holds add so much to the thickness, a side, in stitch widths.
FLAP = 0.9
#: A part that reaches further past the edge of its cover than this, in stitch widths, goes round the book; it begins to
#: turn so far past the edge, in so tight a bend, and lies so far off the other cover.
REACHES, STRAP_PAST, STRAP_TURN, STRAP_OFF = 2.5, 0.3, 0.8, 1.0
#: A hat's dome is so high for its half width, and its brim stands out so much beyond its sides; the round seam is
#: turned so far (degrees) from the reader.
DOME, FLARES, SEAM_AWAY = 0.8, 0.03, 100.0
#: The seam of a tube is at its left side, turned so far (degrees) behind it: neither in front nor seen within.
TUBE_AWAY = -15.0
#: A cup reaches so far below and above its cosy, for the cosy's height, and stands so far within its cloth's middle.
CUP_BELOW, CUP_ABOVE, UNDER_COSY = 0.1, 0.2, 0.62
#: Where a cup's handle is (degrees from the right towards the reader), how far in from its edge a button sits.
HANDLE_AT, BUTTON_IN = 38.0, 0.6
#: How high a filled piece swells, as a share of its shorter side, and whether the filling lies over the lowest layer
#: only or under all but the highest; a panel lies flat.
SWELLS = {"cushion": (0.2, False), "pouch": (0.09, True)}


@dataclass(frozen=True, slots=True)
class Seat:
    """The piece in space about (0, 0, 0), y up: its yarn, the corners of what casts its shadow, and the table's y.
    `pages` are the corner and the two edges of each face of a book's block; `filling` is what a pouch or a cushion
    holds, as a sheet of places under its front; `things` go with it, and `more` is yarn that is no part of it."""

    yarn: tuple[Floats, ...]
    corners: Floats
    table: float
    turned: tuple[float, float]
    pages: tuple[tuple[Floats, Floats, Floats], ...] = ()
    filling: Floats | None = None
    things: tuple[Thing, ...] = ()
    more: tuple[Bundle, ...] = ()


def book(piece: Folded, object_mm: Mapping[str, float], unit_mm: float) -> Seat:
    """A closed book that stands on its foot, seen from the side of the spine; what reaches out past the fore-edge of
    one cover (a strap) goes round it onto the other."""
    left, bottom, right, top = piece.core
    x0, y0 = (left + right) / 2.0, (bottom + top) / 2.0
    thick = (object_mm.get("spine") or USUAL_SPINE * object_mm.get("wrap", 0.0)) / unit_mm or 2.0
    half = thick / 2.0 + FLAP
    arc = half * math.pi / 2.0
    yarn = []
    for bundle in piece.bundles:
        x, y, z = (bundle.points[:, :, k] for k in range(3))
        x, out = x - x0, half + 0.5 + z - piece.top
        angle = np.clip(x / half, -math.pi / 2, math.pi / 2)
        beyond = np.maximum(np.abs(x) - arc, 0.0)
        across, deep_ = beyond - out * np.cos(angle), out * np.sin(angle)
        for side in (s for s, reach in ((-1, left - piece.box[0]), (1, piece.box[2] - right)) if reach > REACHES):
            past = x * side - (right - left) / 2.0
            round_ = _round_the_edge(past, z - piece.low, half, (right - left) / 2.0 - arc)
            across, deep_ = (np.where(past > 0, new, old) for new, old in
                             ((round_[0], across), (round_[1] * side, deep_)))  # fmt: skip
        yarn.append(np.stack((across, y - y0, deep_), axis=2).astype(np.float32))
    long, high = (right - left) / 2.0 - arc, (top - bottom) / 2.0
    cover = half + 1.0
    corners = np.array([(x, y, z) for x in (-cover, long) for y in (-high - 1, high + 1) for z in (-cover, cover)])
    up, deep = high + 0.5, half - FLAP + 0.1
    block = (
        (np.array((0.0, up, -deep)), np.array((long - PAGES_BACK, 0, 0)), np.array((0, 0, 2 * deep))),
        (np.array((long - PAGES_BACK, -up, -deep)), np.array((0, 2 * up, 0)), np.array((0, 0, 2 * deep))),
    )
    middle = np.array((long / 2.0, 0, 0))
    yarn = [(y - middle).astype(np.float32) for y in yarn]
    return Seat(tuple(yarn), corners - middle, -high - 1.0, STANDING,
                tuple((a - middle, b, c) for a, b, c in block))


def _round_the_edge(past: Floats, out: Floats, half: float, long: float) -> tuple[Floats, Floats]:
    """Where what reaches past the fore-edge of a cover lies: how far from the spine, and how deep, counted from that
    cover to the other one's outside. `past` is how far past the edge, `out` how far off the middle of its cloth."""
    inner, outer, turn = half - FLAP, -(half + 0.5 + STRAP_OFF), STRAP_TURN
    quarter, level = turn * math.pi / 2.0, inner - outer - 2.0 * turn
    at = long + STRAP_PAST
    first, second = past - STRAP_PAST, past - STRAP_PAST - quarter - level
    angle = np.clip(first / turn, 0.0, math.pi / 2.0) + np.clip(second / turn, 0.0, math.pi / 2.0)
    straight = np.clip(first - quarter, 0.0, level)
    back = np.maximum(second - quarter, 0.0)
    across = np.where(first < 0, long + past, at + turn * np.sin(angle) - back)
    deep = inner - straight - np.where(second < 0, turn * (1 - np.cos(np.minimum(angle, math.pi / 2.0))),
                                       turn - turn * np.cos(angle))  # fmt: skip
    return across + out * np.sin(angle), deep + out * np.cos(angle)


def lying(piece: Folded, swells: float, lowest: bool, more: Sequence[Bundle] = ()) -> Seat:
    """A filled (or a flat) piece lying on a table: its y goes away from the reader, its thickness up; `more` is yarn
    that lies with it in its plane."""
    left, bottom, right, top = piece.box
    wide, high = right - left, top - bottom
    swell = swells * min(wide, high)
    level = piece.low - piece.top + 0.5 if lowest else -0.5

    def filled(points: Floats) -> Floats:
        x, y = points[..., 0] - (left + right) / 2.0, points[..., 1] - (bottom + top) / 2.0
        z = points[..., 2] - piece.top
        round_ = np.clip(1.0 - np.abs(2 * x / wide) ** 3, 0, 1) * np.clip(1.0 - np.abs(2 * y / high) ** 3, 0, 1)
        rise = np.where(z > level - 0.02, swell * np.sqrt(round_), 0.0)
        inward = 1.0 - 0.5 * swells * np.clip(1.0 - np.abs(y / high) * 2, 0, 1)
        return np.stack((x * inward, z + rise, -y), axis=-1).astype(np.float32)

    yarn = [filled(bundle.points) for bundle in piece.bundles]
    u, v = np.linspace(left + 1.2, right - 1.2, 90), np.linspace(bottom + 1.2, top - 1.2, 90)
    sheet = np.stack((*np.meshgrid(u, v), np.full((90, 90), piece.top + level)), axis=-1)
    half = (wide / 2.0, high / 2.0)
    heights = (-2.0, 0.8 + swell * 0.6)
    corners = np.array([(x, y, z) for x in (-half[0], half[0]) for y in heights for z in (-half[1], half[1])])
    return Seat(tuple(yarn), corners, -2.2, LYING, filling=filled(sheet) if swells else None,
                more=tuple(replace(b, points=filled(b.points)) for b in more))


def hat(crown: Folded, sides: Folded, around: float, high: float) -> Seat:
    """A hat: a dome, half an ellipse across, with straight sides under it that stand a little out at the brim."""
    half = around / (2.0 * math.pi)
    rise = DOME * half
    angles = np.linspace(0.0, math.pi / 2.0, 200)
    ellipse = np.stack((half * np.sin(angles), rise * np.cos(angles)), axis=1)
    along = np.concatenate(([0.0], np.cumsum(np.hypot(*np.diff(ellipse, axis=0).T))))
    longer = high / -min(float(b.points[..., 1].min()) for b in sides.bundles)
    below = max(high - float(along[-1]), 0.0)
    foot = -below - rise / 2.0

    def worn(way: Floats, turn: Floats, out: Floats) -> Floats:
        wide, up = np.interp(way, along, ellipse[:, 0]), np.interp(way, along, ellipse[:, 1])
        past = np.maximum(way - along[-1], 0.0)
        wide, up = wide + FLARES * past, up - past
        slope = np.arctan2(up / rise, wide / half * (rise / half) + 1e-6).clip(0.0, math.pi / 2.0)
        wide, up = wide + out * np.cos(slope), up + out * np.sin(slope) - rise / 2.0
        return np.stack((wide * np.cos(turn), up, wide * np.sin(turn)), axis=-1).astype(np.float32)

    away = math.radians(SEAM_AWAY)
    yarn = [worn(np.hypot(x, y) * longer, np.arctan2(y, x) + away, z)
            for x, y, z in (np.moveaxis(b.points, -1, 0) for b in crown.bundles)]
    yarn += [worn(-y * longer, x / half + away, z) for x, y, z in (np.moveaxis(b.points, -1, 0) for b in sides.bundles)]
    down, round_ = (np.linspace(0.0, to, many, dtype=np.float32) for to, many in ((high - 0.6, 70), (math.pi, 90)))
    ways, turns = np.meshgrid(down, round_, indexing="ij")
    head = worn(ways, turns, np.full_like(ways, -0.8))
    rings = ((half * (1 + FLARES), foot), (half, 0.0), (half * 0.7, rise * 0.2), (0.0, rise / 2.0))
    corners = np.array([
        (r * math.cos(a), y, r * math.sin(a)) for r, y in rings for a in np.linspace(0.0, 2 * math.pi, 24)
    ])  # fmt: skip
    return Seat(tuple(yarn), corners, foot - 0.4, HATTED, filling=head)


def tube(piece: Folded, around: float, high: float, *, holds_cup: bool = False) -> Seat:
    """A tube that stands open or round a cup, its seam turned from the reader: one end of the cloth meets the other."""
    left, bottom, right, top = piece.box
    half, away = around / (2.0 * math.pi), math.radians(TUBE_AWAY)

    def stood(points: Floats) -> Floats:
        x, y, z = (points[..., k] for k in range(3))
        turn = (x - left) / (right - left) * 2.0 * math.pi + away
        up = (y - (bottom + top) / 2.0) * high / (top - bottom)
        out = half + z
        return np.stack((-out * np.cos(turn), up, out * np.sin(turn)), axis=-1).astype(np.float32)

    foot, rim = (-high * (0.5 + CUP_BELOW), high * (0.5 + CUP_ABOVE)) if holds_cup else (-high / 2.0, high / 2.0)
    things = cup(half - UNDER_COSY, foot, rim) if holds_cup else []
    table = foot if holds_cup else foot - 0.4
    yarn = tuple(stood(b.points) for b in piece.bundles)
    return Seat(yarn, _ring(half, foot, rim), table, ROUND, things=tuple(things))


def wrapped(piece: Folded, button_half: float, gap: float, colour: int) -> Seat:
    """A band that goes round a cup from one side of its handle to the other, so far apart, and is closed there: a
    button of half such a width on one edge, a loop of chains in a colour from the other through the handle."""
    _, bottom, _, top = piece.box
    left, right = (float(f([f(b.points[..., 0]) for b in piece.bundles])) for f in (np.min, np.max))
    wide, high, middle = right - left, top - bottom, (bottom + top) / 2.0
    half = (wide + gap) / (2.0 * math.pi)
    level = piece.top

    def stood(points: Floats) -> Floats:
        # the middle of the gap is at the cup's handle; x grows towards the right as the reader sees the front
        turn = math.radians(HANDLE_AT) - (points[..., 0] - right - gap / 2.0) / half
        out = half + points[..., 2] - level
        return np.stack((out * np.cos(turn), points[..., 1] - middle, out * np.sin(turn)), axis=-1).astype(np.float32)

    def over(points: Floats) -> Floats:
        return stood(points + np.array((0.0, 0.0, level), dtype=np.float32))

    foot, rim = -high * (0.5 + CUP_BELOW), high * (0.5 + CUP_ABOVE)
    inside = half - UNDER_COSY
    at = left - gap - button_half - BUTTON_IN  # beyond the other edge, which is round the cup
    things = [*cup(inside, foot, rim), cup_handle(inside, foot, rim, math.radians(HANDLE_AT)),
              *button((at, middle), button_half, over)]
    more = loop((left + 0.3, middle), (at, middle), button_half, colour, over)
    return Seat(tuple(stood(b.points) for b in piece.bundles), _ring(half, foot, rim), foot, ROUND,
                things=tuple(things), more=tuple(more))


def _ring(half: float, foot: float, rim: float) -> Floats:
    """The corners of what stands round the upright axis."""
    angles = np.linspace(0.0, 2.0 * math.pi, 24)
    return np.array([(half * math.cos(a), y, half * math.sin(a)) for y in (foot, rim) for a in angles])
