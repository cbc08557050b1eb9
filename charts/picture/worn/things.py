"""Things that go with a piece: the cup under a cosy with its handle, buttons and their loops, the handles of a bag.

All lie in space in stitch widths. A thing is a smooth sheet through a grid of places; what is worked is yarn.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Sequence

import numpy as np

from ...made_late import dataclass, replace
from ..seeing.canvas import NOBODY
from ..strokes import Floats, Reals
from ..yarn import Bundle, Frame, Skein

#: From the plane in which a piece lies open, and how far out of it, to space.
Bend = Callable[[Floats], Floats]
#: A cup's wall is so thick; its foot draws in to so much of its width over so much of its height; it is full to so far
#: under its rim (shares of its height).
WALL, FOOT, FOOT_HIGH, FULL = 0.9, 0.84, 0.1, 0.12
#: The colours of cups, of what is in them and of buttons.
CHINA, TEA, WOOD, HOLES = "#efebe3", "#5f3d25", "#9a7350", "#4e3522"
#: A cup's handle stands out so far and is so high, for the cup's height, and so thick, for the way it stands out.
HANDLE_OUT, HANDLE_HIGH, HANDLE_THICK = 0.36, 0.6, 0.2
#: How thick a button is, for its width, how far its rim stands up of that, and where its holes are, for its half width.
BUTTON_THICK, BUTTON_RIM, BUTTON_HOLES = 0.16, 0.35, 0.3
#: A chain of a loop is so long, and lies so high over the cloth; a button sits there.
LOOP_CHAIN, LOOP_OVER, BUTTON_OVER = 0.72, 0.75, 0.95
#: Handles lie a little apart: the front one leans so far aside for its length, and the back one.
LEANS = (-0.07, 0.09)


@dataclass(frozen=True, slots=True)
class Thing:
    """A smooth sheet: places in space (rows, columns, 3) and its colour "#rrggbb"."""

    places: Floats
    colour: str


def cup(radius: float, bottom: float, top: float) -> list[Thing]:
    """A cup about the upright axis: its wall with a rounded foot and rim, and what it is full of."""
    high, inner = top - bottom, radius - WALL
    profile = (
        (FOOT * radius, bottom), (0.95 * radius, bottom + 0.25 * FOOT_HIGH * high), (radius, bottom + FOOT_HIGH * high),
        (radius, (bottom + top) / 2.0), (radius, top - 0.3), (radius - 0.2 * WALL, top),
        (radius - 0.5 * WALL, top + 0.12), (radius - 0.8 * WALL, top), (inner, top - 0.3),
        (inner, top - 2.0 * FULL * high),
    )  # fmt: skip
    level = top - FULL * high
    return [Thing(_turned(profile), CHINA), Thing(_turned(((inner, level), (inner / 2, level), (0.01, level))), TEA)]


def cup_handle(radius: float, bottom: float, top: float, angle: float) -> Thing:
    """The handle of a cup, at an angle (radians) about its axis from the right towards the reader."""
    high = top - bottom
    far, half, middle = HANDLE_OUT * high, HANDLE_HIGH * high / 2.0, (bottom + top) / 2.0
    turns = np.linspace(-math.pi / 2.0, math.pi / 2.0, 48)
    bow = np.sign(np.cos(turns)) * np.abs(np.cos(turns)) ** 0.7
    line = np.stack((radius - WALL / 2.0 + far * bow, middle + half * np.sin(turns)), axis=1)
    way = np.gradient(line, axis=0)
    way /= np.hypot(*way.T)[:, None]
    round_ = np.linspace(0.0, math.tau, 33)
    thick = HANDLE_THICK * far
    out = np.stack((-way[:, 1], way[:, 0]), axis=1)
    flat = line[:, None, :] + thick * np.cos(round_)[None, :, None] * out[:, None, :]
    beside = np.broadcast_to(1.15 * thick * np.sin(round_), flat.shape[:2])
    cos, sin = math.cos(angle), math.sin(angle)
    x, z = flat[..., 0] * cos - beside * sin, flat[..., 0] * sin + beside * cos
    return Thing(np.stack((x, flat[..., 1], z), axis=-1).astype(np.float32), CHINA)


def button(at: tuple[float, float], half: float, bend: Bend) -> list[Thing]:
    """A round button with two holes on the piece at a place of its plane; it stays flat where the piece bends."""
    bend = _flat_at(at, bend)
    thick = BUTTON_THICK * 2.0 * half
    rings = ((0.0, 1.0 - BUTTON_RIM), (0.62, 1.0 - BUTTON_RIM), (0.76, 1.0), (0.92, 1.0), (1.0, 0.6), (1.0, 0.0))
    found = [Thing(_disc(at, [(half * r, BUTTON_OVER + thick * h) for r, h in rings], bend), WOOD)]
    for side in (-1.0, 1.0):
        hole = [(0.0, BUTTON_OVER + thick * 0.72), (0.11 * half, BUTTON_OVER + thick * 0.72)]
        found.append(Thing(_disc((at[0], at[1] + side * BUTTON_HOLES * half), hole, bend), HOLES))
    return found


def loop(edge: tuple[float, float], round_: tuple[float, float], half: float, colour: int, bend: Bend) -> list[Bundle]:
    """A loop of chains from the edge of a piece round a button at another place, of so much half its width."""
    (x, y), (far, middle) = edge, round_
    turns = np.linspace(-math.pi / 2.0, math.pi / 2.0, 13)
    side = math.copysign(1.0, far - x)
    wide = half + 0.25
    ways = [(x, y - 0.5), (x + (far - x) * 0.5, middle - 0.55 * wide)]
    ways += [(far + side * wide * math.cos(t), middle + wide * math.sin(t)) for t in turns.tolist()]
    ways += [(x + (far - x) * 0.5, middle + 0.55 * wide), (x, y + 0.5)]
    places = _evenly(np.array(ways), LOOP_CHAIN)
    skein = Skein()
    for (ax, ay), (bx, by) in itertools.pairwise(places.tolist()):
        step = math.hypot(bx - ax, by - ay)
        way = ((bx - ax) / step, (by - ay) / step)
        skein.add("chain", Frame((ax, ay, LOOP_OVER), (bx, by, LOOP_OVER), way, (-way[1], way[0])), 0, colour)
    return [_nobody(b, bend) for b in skein.bundles()]


def bag_handles(
    strip: Sequence[Bundle], size: tuple[float, float], at: tuple[float, float, float], sewn: float,
    layers: tuple[float, float], ground: float,
) -> list[Bundle]:  # fmt: skip
    """The two handles of a bag that lies flat: a worked strip (its `size` long and wide, from (0, 0) to the right and
    up) led from one place of the edge to the other in an even bow. `at` are the two places and the height of the edge
    in the plane, `sewn` how far below it an end begins, `layers` how high the upper and the lower layer lie and
    `ground` how deep what lies beyond the edge."""
    (long, wide), (left, right, edge) = size, at
    line = _bow((right - left) / 2.0, long - 2.0 * sewn)
    line = np.concatenate(([(-(right - left) / 2.0, -sewn)], line, [((right - left) / 2.0, -sewn)]))
    found = []
    for high, lean in zip(layers, LEANS, strict=True):
        course = _evenly(line, 0.25)
        course[:, 0] += lean * np.maximum(course[:, 1], 0.0)

        def led(points: Floats, course: Reals = course, high: float = high) -> Floats:
            return _along(points, course, long, wide, ((left + right) / 2.0, edge), (high, ground))

        found += [_nobody(b, led) for b in strip]
    return found


def _along(
    points: Floats, course: Reals, long: float, wide: float, origin: tuple[float, float], deep: tuple[float, float]
) -> Floats:
    """Places of a strip led along a line of the plane, so deep on the piece and beyond its edge."""
    way = np.gradient(course, axis=0)
    way /= np.hypot(*way.T)[:, None]
    at = np.clip(points[..., 0] / long, 0.0, 1.0) * (len(course) - 1)
    grid = np.arange(len(course))
    x, y, dx, dy = (np.interp(at, grid, part) for part in (*course.T, *way.T))
    aside = points[..., 1] - wide / 2.0
    x, y = x - dy * aside, y + dx * aside
    z = points[..., 2] + np.interp(y, (0.0, 3.0), deep)
    return np.stack((x + origin[0], y + origin[1], z), axis=-1).astype(np.float32)


def _bow(half: float, long: float) -> Reals:
    """Half an ellipse over a base so wide to each side, so long along its line; no shorter than the base."""
    turns = np.linspace(math.pi, 0.0, 90)

    def line(high: float) -> Reals:
        return np.stack((half * np.cos(turns), high * np.sin(turns)), axis=1)

    low, high = 0.0, long
    for _ in range(40):
        middle = (low + high) / 2.0
        longer = float(np.hypot(*np.diff(line(middle), axis=0).T).sum()) > long
        low, high = (low, middle) if longer else (middle, high)
    return line(low)


def _evenly(line: Reals, step: float) -> Reals:
    """A line through places about so far apart, all steps equal."""
    far = np.concatenate(([0.0], np.cumsum(np.hypot(*np.diff(line, axis=0).T))))
    many = max(2, round(float(far[-1]) / step) + 1)
    want = np.linspace(0.0, float(far[-1]), many)
    return np.stack([np.interp(want, far, line[:, k]) for k in (0, 1)], axis=1)


def _turned(profile: Sequence[tuple[float, float]]) -> Floats:
    """A profile (how far out, how high) turned about the upright axis."""
    turns = np.linspace(0.0, math.tau, 97)
    out, up = (np.array(part)[:, None] for part in zip(*profile, strict=True))
    shape = (len(profile), len(turns))
    return np.stack((out * np.cos(turns), np.broadcast_to(up, shape), out * np.sin(turns)), axis=-1).astype(np.float32)


def _disc(at: tuple[float, float], rings: Sequence[tuple[float, float]], bend: Bend) -> Floats:
    """Rings about a place of the plane, each so wide and so far out of it, in space."""
    turns = np.linspace(0.0, math.tau, 49)
    flat = [np.stack((at[0] + r * np.cos(turns), at[1] + r * np.sin(turns), np.full_like(turns, z)), axis=-1)
            for r, z in rings]
    return bend(np.array(flat, dtype=np.float32))


def _flat_at(at: tuple[float, float], bend: Bend) -> Bend:
    """From the plane to the plane that touches it in space at a place."""
    origin, steps = np.array((*at, 0.0)), np.eye(3) * 0.01
    middle, *ends = bend(np.stack((origin, *(origin + steps))).astype(np.float32)).astype(np.float64)
    ways = np.array([(end - middle) / np.linalg.norm(end - middle) for end in ends])

    def flat(points: Floats) -> Floats:
        off = points - np.array((*at, 0.0), dtype=np.float32)
        found: Floats = (middle + off @ ways).astype(np.float32)
        return found

    return flat


def _nobody(bundle: Bundle, bend: Bend) -> Bundle:
    """Yarn that is no stitch of the piece, in space."""
    return replace(bundle, points=bend(bundle.points), stitch=np.full_like(bundle.stitch, NOBODY))
