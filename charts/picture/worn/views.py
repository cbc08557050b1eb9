"""The piece on its object, in perspective: a seat drawn with the things that go with it, its shadow on the table."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

import numpy as np

from ...made_late import dataclass, replace
from ..folded import Folded
from ..scene import MOST_CELLS, Drawn, finished, ground_for
from ..seeing.canvas import Canvas, draw_face, draw_sheet, draw_surface, fill_pinholes
from ..seeing.light import LAMP, Ground, linear
from ..seeing.tubes import Strands, draw_yarn
from ..strokes import Floats, radius
from ..yarn import Bundle
from .seats import FILLING, LYING, PAGES, SWELLS, Seat, book, hat, lying, tube, wrapped

#: How far the eye is, in lengths of the piece: a gentle perspective.
EYE = 3.4
#: In so large a share of a side, from the picture's edge, the shadow fades away.
SHADOW_ENDS = 0.16


def worn_view(
    piece: Folded, kind: str, object_mm: Mapping[str, float], unit_mm: float, colours: list[str], width_px: int,
    more: Sequence[Bundle] = (),
) -> Drawn:  # fmt: skip
    """The piece on its object, as an image four wide and four or more high; `kind` is that of the object, `more` yarn
    that lies with it in its plane (handles)."""
    books = kind.startswith("book")
    seat = book(piece, object_mm, unit_mm) if books else lying(piece, *SWELLS.get(kind, (0.0, True)), more)
    return _seen(piece, seat, colours, width_px, PAGES if books else FILLING)


def hat_view(
    crown: Folded, sides: Folded, size: tuple[float, float], colours: list[str], width_px: int
) -> Drawn:  # fmt: skip
    """A hat as on a head, from the side: the cloth of its `crown` flat about the middle, that of its `sides` laid open
    (`crown_and_sides`), and its `size` in stitch widths, around and from the crown's middle to the brim."""
    whole = replace(sides, bundles=(*crown.bundles, *sides.bundles))
    return _seen(whole, hat(crown, sides, *size), colours, width_px, FILLING)


def tube_view(
    piece: Folded, size: tuple[float, float], colours: list[str], width_px: int, *, holds_cup: bool = False
) -> Drawn:
    """A tube worked in rounds, standing on its first round or round a cup: its cloth laid open, its box from one end of
    a round to the other, and its `size` in stitch widths, around and high."""
    return _seen(piece, tube(piece, *size, holds_cup=holds_cup), colours, width_px, FILLING)


def cup_view(piece: Folded, button: float, gap: float, colours: list[str], width_px: int, yarn: int) -> Drawn:
    """A band round a cup with a handle, buttoned through it: how wide its button is and how far its edges are apart
    there, in stitch widths; its loop is of the `yarn` that is in that place among the colours."""
    return _seen(piece, wrapped(piece, button / 2.0, gap, yarn), colours, width_px, FILLING)


def _seen(piece: Folded, seat: Seat, colours: list[str], width_px: int, within: str) -> Drawn:
    """A seated piece as an image; `within` is the colour of what it holds."""
    turn = _rotation(*seat.turned)
    yarn = [*zip(piece.bundles, seat.yarn, strict=True), *((b, b.points) for b in seat.more)]
    far = EYE * float(np.ptp(seat.corners, axis=0).max())
    solid = [t.places.reshape(-1, 3)[::7] for t in seat.things]
    frame = _frame(np.concatenate([seat.corners, *solid, *(y.reshape(-1, 3)[::37] for _, y in yarn)]), turn, far)
    share = min(max(frame[3] / frame[2], 0.6), 1.3)
    shrink = 2 if (width_px * 2) ** 2 * share <= MOST_CELLS else 1
    canvas = Canvas(width_px * shrink, round(width_px * share) * shrink)
    scale = min(canvas.wide / frame[2], canvas.high / frame[3])
    look = _Eye(turn, far, scale, (frame[0], frame[1]), (canvas.wide / 2.0, canvas.high / 2.0))
    strands = []
    for bundle, points in yarn:
        seen, near = look.at(points)
        thick = (radius() * piece.yarn * bundle.thick * scale * near.mean(axis=1)).astype(np.float32)
        strands.append(Strands(seen, thick, bundle.stitch, bundle.colour))
    draw_yarn(canvas, strands)
    palette = [*colours, within, *dict.fromkeys(t.colour for t in seat.things)]
    _draw_things(canvas, seat, look, palette, len(colours))
    fill_pinholes(canvas, 0.05 * scale)
    under = Ground(linear(ground_for(colours)), 0.0, _table(canvas, seat, look))
    return finished(canvas, scale, palette, under, shrink)


def _draw_things(canvas: Canvas, seat: Seat, look: _Eye, palette: list[str], within: int) -> None:
    """What a piece holds and what goes with it."""
    for corner, one, other in seat.pages:
        places, _ = look.at(np.stack((corner, corner + one, corner + other))[None])
        draw_face(canvas, places[0], within)
    if seat.filling is not None:
        draw_sheet(canvas, look.at(seat.filling)[0], within)
    for thing in seat.things:
        draw_surface(canvas, look.at(thing.places)[0], palette.index(thing.colour, within + 1))


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
