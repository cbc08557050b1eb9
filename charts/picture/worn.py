"""The piece on its object, in perspective: a book stands with its pages, a pouch or a cushion is filled, a hat stands
as on a head, a tube stands open."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np

from .folded import Folded
from .scene import MOST_CELLS, Drawn, finished, ground_for
from .seeing.canvas import Canvas, draw_face, draw_sheet, draw_yarn, fill_pinholes
from .seeing.light import LAMP, Ground, linear
from .strokes import Floats, radius

#: A book without a measured spine is so thick, as a share of its wrap.
USUAL_SPINE = 0.05
#: Pages stand back from the edge of the cover, in stitch widths, and their colour.
PAGES_BACK, PAGES, FILLING = -0.1, "#efe6d2", "#6d655c"
#: How a standing book and what lies on a table are turned: about the upright, then towards the reader (degrees).
STANDING, LYING, HATTED, ROUND = (-33.0, 26.0), (-8.0, 52.0), (0.0, 17.0), (0.0, 24.0)
#: How far the eye is, in lengths of the piece: a gentle perspective.
EYE = 3.4
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
#: In so large a share of a side, from the picture's edge, the shadow fades away.
SHADOW_ENDS = 0.16
#: How high a filled piece swells, as a share of its shorter side, and whether the filling lies over the lowest layer
#: only or under all but the highest; a panel lies flat.
SWELLS = {"cushion": (0.2, False), "pouch": (0.09, True)}


@dataclass(frozen=True, slots=True)
class Seat:
    """The piece in space about (0, 0, 0), y up: its yarn, the corners of what casts its shadow, and the table's y.
    `pages` are the corner and the two edges of each face of a book's block; `filling` is what a pouch or a cushion
    holds, as a sheet of places under its front."""

    yarn: tuple[Floats, ...]
    corners: Floats
    table: float
    turned: tuple[float, float]
    pages: tuple[tuple[Floats, Floats, Floats], ...] = ()
    filling: Floats | None = None


def worn_view(
    piece: Folded, kind: str, object_mm: Mapping[str, float], unit_mm: float, colours: list[str], width_px: int
) -> Drawn:
    """The piece on its object, as an image four wide and four or more high; `kind` is that of the object."""
    books = kind.startswith("book")
    seat = _book(piece, object_mm, unit_mm) if books else _lying(piece, *SWELLS.get(kind, (0.0, True)))
    return _seen(piece, seat, colours, width_px, PAGES if books else FILLING)


def hat_view(
    crown: Folded, sides: Folded, size: tuple[float, float], colours: list[str], width_px: int
) -> Drawn:  # fmt: skip
    """A hat as on a head, from the side: the cloth of its `crown` flat about the middle, that of its `sides` laid open
    (`crown_and_sides`), and its `size` in stitch widths, around and from the crown's middle to the brim."""
    whole = replace(sides, bundles=(*crown.bundles, *sides.bundles))
    return _seen(whole, _hat(crown, sides, *size), colours, width_px, FILLING)


def tube_view(piece: Folded, size: tuple[float, float], colours: list[str], width_px: int) -> Drawn:
    """A tube worked in rounds, standing on its first round: its cloth laid open, its box from one end of a round to the
    other, and its `size` in stitch widths, around and high."""
    return _seen(piece, _tube(piece, *size), colours, width_px, FILLING)


def _seen(piece: Folded, seat: Seat, colours: list[str], width_px: int, within: str) -> Drawn:
    """A seated piece as an image; `within` is the colour of what it holds."""
    turn = _rotation(*seat.turned)
    far = EYE * float(np.ptp(seat.corners, axis=0).max())
    frame = _frame(np.concatenate([seat.corners, *(y.reshape(-1, 3)[::37] for y in seat.yarn)]), turn, far)
    share = min(max(frame[3] / frame[2], 0.6), 1.3)
    shrink = 2 if (width_px * 2) ** 2 * share <= MOST_CELLS else 1
    canvas = Canvas(width_px * shrink, round(width_px * share) * shrink)
    scale = min(canvas.wide / frame[2], canvas.high / frame[3])
    look = _Eye(turn, far, scale, (frame[0], frame[1]), (canvas.wide / 2.0, canvas.high / 2.0))
    for bundle, points in zip(piece.bundles, seat.yarn, strict=True):
        seen, near = look.at(points)
        thick = (radius() * piece.yarn * bundle.thick * scale * near.mean(axis=1)).astype(np.float32)
        draw_yarn(canvas, seen, thick, bundle.stitch, bundle.colour)
    for corner, one, other in seat.pages:
        places, _ = look.at(np.stack((corner, corner + one, corner + other))[None])
        draw_face(canvas, places[0], len(colours))
    if seat.filling is not None:
        draw_sheet(canvas, look.at(seat.filling)[0], len(colours))
    fill_pinholes(canvas, 0.05 * scale)
    under = Ground(linear(ground_for(colours)), 0.0, _table(canvas, seat, look))
    return finished(canvas, scale, [*colours, within], under, shrink)


@dataclass(frozen=True, slots=True)
class _Eye:
    """A look in perspective: the turn, how far the eye is, pixels to a stitch width at the middle, and the middle."""

    turn: Floats
    far: float
    scale: float
    middle: tuple[float, float]
    on: tuple[float, float]

    def at(self, points: Floats) -> tuple[Floats, Floats]:
        """Places on the canvas with their depth, and how much larger than in the middle things are there."""
        turned = points @ self.turn.T
        near = self.far / np.maximum(self.far - turned[..., 2], self.far * 0.1)
        out = np.empty(points.shape, dtype=np.float32)
        out[..., 0] = (turned[..., 0] * near - self.middle[0]) * self.scale + self.on[0]
        out[..., 1] = self.on[1] - (turned[..., 1] * near - self.middle[1]) * self.scale
        out[..., 2] = turned[..., 2] * self.scale
        return out, near


def _rotation(about_deg: float, towards_deg: float) -> Floats:
    """First about the upright, then the top towards the reader."""
    a, b = math.radians(about_deg), math.radians(towards_deg)
    upright = np.array(((math.cos(a), 0, math.sin(a)), (0, 1, 0), (-math.sin(a), 0, math.cos(a))))
    nod = np.array(((1, 0, 0), (0, math.cos(b), -math.sin(b)), (0, math.sin(b), math.cos(b))))
    turn: Floats = (nod @ upright).astype(np.float32)
    return turn


def _frame(points: Floats, turn: Floats, far: float) -> tuple[float, float, float, float]:
    """The middle and the size of the window in which places are seen, with air about them."""
    turned = points @ turn.T
    near = far / (far - turned[:, 2])
    x, y = turned[:, 0] * near, turned[:, 1] * near
    air = 0.1 * max(np.ptp(x), np.ptp(y))
    return (
        float(x.min() + x.max()) / 2.0 + air * 0.1, float(y.min() + y.max()) / 2.0,
        float(np.ptp(x)) + 2 * air, float(np.ptp(y)) + 2 * air,
    )  # fmt: skip


def _book(piece: Folded, object_mm: Mapping[str, float], unit_mm: float) -> Seat:
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


def _lying(piece: Folded, swells: float, lowest: bool) -> Seat:
    """A filled (or a flat) piece lying on a table: its y goes away from the reader, its thickness up."""
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
    return Seat(tuple(yarn), corners, -2.2, LYING, filling=filled(sheet) if swells else None)


def _hat(crown: Folded, sides: Folded, around: float, high: float) -> Seat:
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


def _tube(piece: Folded, around: float, high: float) -> Seat:
    """A tube that stands open, its seam turned from the reader: one end of the cloth meets the other."""
    left, bottom, right, top = piece.box
    half, away = around / (2.0 * math.pi), math.radians(TUBE_AWAY)

    def stood(points: Floats) -> Floats:
        x, y, z = (points[..., k] for k in range(3))
        turn = (x - left) / (right - left) * 2.0 * math.pi + away
        up = (y - (bottom + top) / 2.0) * high / (top - bottom)
        out = half + z
        return np.stack((-out * np.cos(turn), up, out * np.sin(turn)), axis=-1).astype(np.float32)

    angles = np.linspace(0.0, 2.0 * math.pi, 24)
    corners = np.array([(half * math.cos(a), y, half * math.sin(a)) for y in (-high / 2, high / 2) for a in angles])
    return Seat(tuple(stood(b.points) for b in piece.bundles), corners, -high / 2.0 - 0.4, ROUND)


def _table(canvas: Canvas, seat: Seat, look: _Eye) -> Floats:
    """How light the table is at every pixel: the soft shadow of the piece upon it."""
    from PIL import Image, ImageDraw, ImageFilter

    lamp = np.array(LAMP) @ look.turn if seat.turned == LYING else np.array((-0.55, 1.0, 0.45))
    lamp[1] = max(lamp[1], 0.4)
    small = (max(canvas.wide // 4, 1), max(canvas.high // 4, 1))
    light = np.ones((small[1], small[0]), dtype=np.float32)
    for reach, blur, dark in ((0.0, 0.7, 0.42), (0.5, 1.2, 0.26), (1.1, 2.6, 0.24)):
        foot = seat.corners.copy()
        fall = (foot[:, 1] - seat.table)[:, None] / lamp[1] * reach
        foot = foot - fall * lamp
        foot[:, 1] = seat.table
        places, _ = look.at(foot[None])
        mask = Image.new("L", small, 0)
        ImageDraw.Draw(mask).polygon([(float(x) / 4, float(y) / 4) for x, y in _hull(places[0, :, :2])], fill=255)
        mask = mask.filter(ImageFilter.GaussianBlur(float(blur * look.scale / 4.0)))
        light *= 1.0 - dark * np.asarray(mask, dtype=np.float32) / 255.0
    light = 1.0 - (1.0 - light) * np.minimum(_risen(small[0])[None, :], _risen(small[1])[:, None])
    big = np.repeat(np.repeat(light, 4, axis=0), 4, axis=1)
    rows = np.minimum(np.arange(canvas.high), big.shape[0] - 1)
    columns = np.minimum(np.arange(canvas.wide), big.shape[1] - 1)
    found: Floats = big[rows][:, columns]
    return found


def _risen(size: int) -> Floats:
    """From 0 at both ends of a side to 1 further in, softly: no shadow is cut off by the edge of the picture."""
    at = np.arange(size, dtype=np.float32) + 0.5
    share = np.clip(np.minimum(at, size - at) / (SHADOW_ENDS * size), 0.0, 1.0)
    risen: Floats = share * share * (3.0 - 2.0 * share)
    return risen


def _hull(points: Floats) -> list[tuple[float, float]]:
    """The corners of the smallest convex outline about places."""
    ordered = sorted({(round(float(x), 3), round(float(y), 3)) for x, y in points})

    def half(way: list[tuple[float, float]]) -> list[tuple[float, float]]:
        out: list[tuple[float, float]] = []
        for p in way:
            while len(out) > 1 and _turn(out[-2], out[-1], p) <= 0:
                out.pop()
            out.append(p)
        return out[:-1]

    return half(ordered) + half(ordered[::-1])


def _turn(a: tuple[float, float], b: tuple[float, float], c: tuple[float, float]) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
