"""The yarn of each stitch where it changes within a row: a pale ground in its colour behind the signs."""

from __future__ import annotations

import functools
import math
from collections.abc import Mapping, Sequence
from itertools import groupby, pairwise

from hookfold.symbols import Point

from ...drawing.display import Group, Ink
from ...drawing.geometry import number
from ...drawing.style import luminance
from ...made_late import replace
from ...model.cloth.fabric import WorkedRow
from ...model.cloth.yarns import yarns_in, yarns_of
from ..placing.placed import Laid, Spot
from .margins import Colour

#: Grounds are at least so light, that both tones of signs stand out 3 : 1 on them (WCAG 2.2, 1.4.11).
LEAST_LIGHT = 0.56
#: The contrast of neighbouring tones of grounds, where so many have room; else what they share.
APART = 1.35
#: Heads farther from each other than this, in stitch widths, have no ground in common.
NEIGHBOURS = 1.7
HALF = 0.5
#: Half a chain with its ground, along it and across.
CHAIN_LONG, CHAIN_WIDE = 0.48, 0.27
SAID = "Behind each sign lies the colour of its yarn, made pale."

_STANDING = ("stitch", "turning")


def pale(colours: Mapping[str, Colour]) -> dict[str, Colour]:
    """The colours as grounds behind signs: light enough for both tones of signs, and each a step lighter than the one
    before, so that they are told apart in grey, too."""
    order = sorted(colours, key=lambda key: (luminance(colours[key].hex), key))
    room = 1.05 / (LEAST_LIGHT + 0.05)
    step = min(APART, room ** (1.0 / max(len(order) - 1, 1)))
    light: dict[str, float] = {}
    least = LEAST_LIGHT
    for at, key in enumerate(order):
        most = 1.05 / step ** (len(order) - 1 - at) - 0.05
        light[key] = min(max(luminance(colours[key].hex), least), most)
        least = min((light[key] + 0.05) * step - 0.05, 1.0)
    return {key: replace(colour, hex=_as_light(colour.hex, light[key])) for key, colour in colours.items()}


def _as_light(colour: str, light: float) -> str:
    """A colour with as much white or black in it as makes it so light."""
    to = 255 if luminance(colour) < light else 0
    parts = [int(colour[at : at + 2], 16) for at in (1, 3, 5)]

    def mixed(share: float) -> str:
        return "#" + "".join(f"{round(part + (to - part) * share):02x}" for part in parts)

    low, high = 0.0, 1.0
    for _ in range(12):
        middle = (low + high) / 2.0
        passed = luminance(mixed(middle)) >= light if to else luminance(mixed(middle)) <= light
        low, high = (low, middle) if passed else (middle, high)
    return mixed(high)


def told(rows: Sequence[WorkedRow], colours: Mapping[str, Colour]) -> str:
    """The yarns of the stitches of each row in words: "Row 2: 4 A, 2 B, 4 A."."""
    return " ".join(_told(row) for row in rows if colours.keys() & set(yarns_in([row])))


def _told(worked: WorkedRow) -> str:
    made = [key for key, s in zip(yarns_of(worked), worked.row.stitches, strict=True) if s.role in _STANDING]
    runs = (f"{len(list(run))} {key or 'without a name'}" for key, run in groupby(made))
    return f"{worked.label}: {', '.join(runs)}."


def grounds(
    laid: Sequence[tuple[str, WorkedRow, Laid, Point]], shown: Mapping[str, Colour], mm: float, *, desc: str = ""
) -> Group:
    """The grounds of rows as one group. `laid` are the id of each row, the row, how it lies and the mm of its origin;
    what of it is not to be seen is not among its spots."""
    inks: list[Ink] = []
    for name, worked, row, (x, y) in laid:
        paths: dict[str, list[str]] = {}
        for key, patch in _patches(row.spots, tuple(yarns_of(worked))):
            if key in shown:
                at = [f"{number(x + px * mm)} {number(y + py * mm)}" for px, py in patch]
                paths.setdefault(key, []).append("M" + "L".join(at) + "Z")
        inks += [Ink("".join(d), fill=shown[key].hex, name=f"{name} in {key}") for key, d in paths.items()]
    return Group("yarn grounds", tuple(inks), "The yarn of each stitch", desc)


@functools.lru_cache(maxsize=512)
def _patches(spots: tuple[Spot, ...], yarns: tuple[str, ...]) -> tuple[tuple[str, tuple[Point, ...]], ...]:
    """The ground of each run of stitches in one yarn, with its key."""
    out: list[tuple[str, tuple[Point, ...]]] = []
    drawn = [s for s in spots if s.item < len(yarns) and (s.role == "chain" or (s.role in _STANDING and s.feet))]
    for chains in (s for s in drawn if s.role == "chain"):
        out += [(yarns[chains.item], _round_chain(*oval)) for oval in chains.ovals]
    for run in _touching([s for s in drawn if s.role != "chain"]):
        sides = _sides(run)
        at = 0
        for key, stitches in groupby(run, key=lambda s: yarns[s.item]):
            end = at + len(list(stitches))
            tops, bottoms = zip(*sides[at : end + 1], strict=True)
            out.append((key, (*tops, *bottoms[::-1])))
            at = end
    return tuple(out)


def _touching(spots: Sequence[Spot]) -> list[list[Spot]]:
    """Stitches that follow each other side by side; a slip stitch beside a tall one has a ground of its own."""
    runs: list[list[Spot]] = []
    for spot in spots:
        alike = bool(runs) and (runs[-1][-1].kind == "sl st") == (spot.kind == "sl st")
        if alike and math.dist(runs[-1][-1].head, spot.head) <= NEIGHBOURS:
            runs[-1].append(spot)
        else:
            runs.append([spot])
    return runs


def _sides(run: Sequence[Spot]) -> list[tuple[Point, Point]]:
    """The lines between stitches that follow each other, and the first's and the last's outer sides: top and bottom."""
    lines = [(_middle(a.head, b.head), _middle(_foot(a, -1), _foot(b, 0))) for a, b in pairwise(run)]
    first, last = run[0], run[-1]
    ahead = _way(first.head, run[1].head) if len(run) > 1 else _level(first)
    behind = _way(run[-2].head, last.head) if len(run) > 1 else _level(last)
    begin = (_beside(first.head, ahead, -HALF), _beside(_foot(first, 0), ahead, -HALF))
    end = (_beside(last.head, behind, HALF), _beside(_foot(last, -1), behind, HALF))
    return [begin, *lines, end]


def _foot(spot: Spot, which: int) -> Point:
    """Where a stitch stands in its own row; one of those it gathers."""
    (x, y), (u, v) = spot.feet[which], spot.head
    length = math.dist((x, y), (u, v))
    share = min(spot.own_height / length, 1.0) if spot.own_height and length else 1.0
    return u + (x - u) * share, v + (y - v) * share


def _middle(a: Point, b: Point) -> Point:
    return (a[0] + b[0]) / 2.0, (a[1] + b[1]) / 2.0


def _way(a: Point, b: Point) -> Point:
    length = max(math.dist(a, b), 1e-6)
    return (b[0] - a[0]) / length, (b[1] - a[1]) / length


def _level(spot: Spot) -> Point:
    return math.cos(math.radians(spot.angle_deg)), math.sin(math.radians(spot.angle_deg))


def _beside(point: Point, way: Point, by: float) -> Point:
    return point[0] + way[0] * by, point[1] + way[1] * by


def _round_chain(x: float, y: float, angle: float) -> tuple[Point, ...]:
    cos, sin = math.cos(math.radians(angle)), math.sin(math.radians(angle))
    corners = [(u * CHAIN_LONG, v * CHAIN_WIDE) for u, v in ((-1, -1), (1, -1), (1, 1), (-1, 1))]
    return tuple((x + u * cos - v * sin, y + u * sin + v * cos) for u, v in corners)
