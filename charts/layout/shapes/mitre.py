"""Mitres: rows over a foundation chain that lose stitches in one inner place, the same in every row or every second.

The loss bends the piece: a square worked so begins along two of its sides and ends in the opposite corner. Several
such places in one foundation make a part of a frame. What narrows at its ends, and what grows again in the same row as
a ripple does, is none.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

from hookfold.symbols import kind_of

from ...made_late import dataclass
from ...model.cloth.fabric import Fabric, Row, Stitch, WorkedRow
from ..placing.laid import risen_of
from ..placing.tops import drawn_kind, rise_of

#: So many rows must lose stitches, in at most so many places.
LEAST_LOSING, MOST_CORNERS = 3, 3
#: Losses no farther from each other than this belong together: one on either side of a stitch in the middle.
TOGETHER = 2.0
#: How far a loss may lie from the one below it, and how much sides between corners may differ, in stitches.
ASIDE = 0.5
#: The turn from side to side in degrees: a square corner where the rows lose nearly as much as makes one, else what
#: they lose, within limits.
SQUARE, NEARLY, SHARPEST, BLUNTEST = 90.0, 20.0, 130.0, 25.0
#: How far from a corner that lies between two stitches they stand along their sides: bars need more room than crosses,
#: whose arms lie lower, where the corner is farther away.
BESIDE_BARS, BESIDE_CROSSES = 0.75, 0.5


@dataclass(frozen=True, slots=True)
class Mitre:
    """A piece with mitred corners: `each` radians from side to side, right to left as the reader sees the right side.

    `corners` has for every row, in the order of its work, the places of its corners along it, in stitches from its
    first; `losses` what each row loses on one side of a corner; `sides` how long the sides of the foundation are drawn
    and `bends` the chains at its corners. `spacing` is the way from one chain to the next, `stretch` how much taller
    than by nature rows are drawn.
    """

    each: float
    corners: tuple[tuple[float, ...], ...]
    bends: tuple[float, ...]
    sides: tuple[float, ...]
    spacing: float
    stretch: float

    @property
    def half(self) -> float:
        """How much a side loses at a corner for every stitch width that the rows rise."""
        return math.tan(self.each / 2.0)

    @property
    def reach(self) -> float:
        """How far the foundation lies from the place where the corners meet."""
        if len(self.sides) > 2:
            return max(self.sides[1:-1]) / (2.0 * self.half)
        return max(self.sides) / self.half


@dataclass(frozen=True, slots=True)
class _Loss:
    """Stitches lost at a place along a row, which lies over `base` along what it is worked into."""

    at: float
    base: float
    amount: int


@dataclass(frozen=True, slots=True)
class _Line:
    """A row as places along it: how many it has, and of every top its own and those of its feet on the base."""

    wide: int
    places: tuple[int, ...]
    feet: tuple[tuple[int, ...], ...]
    base_wide: int


def mitre_of(fabric: Fabric) -> Mitre | None:
    """The mitre that a fabric is; None for every other."""
    if fabric.start != "chain" or any(worked.is_round for worked in fabric.rows):
        return None
    if _wide(fabric.rows[-1].row) >= len(fabric.foundation.stitches) - risen_of(fabric) + 1:
        return None  # rows of a mitre lose stitches and gain none, which this shows without looking into each
    lines = _lines(fabric)
    losses = [_losses(line) for line in lines] if lines else None
    if not lines or losses is None or any(found is None for found in losses):
        return None
    turned = [a.direction != b.direction for a, b in itertools.pairwise(fabric.rows)]
    found = [here or () for here in losses]
    corners = _corners(lines, found, turned)
    return _shaped(fabric, lines, found, corners) if corners else None


# -- what the rows lose, and where ----------------------------------------------------------------------------------


def _lines(fabric: Fabric) -> list[_Line] | None:
    """Every row as a line over the one below; None where one is not worked straight along its whole base."""
    found: list[_Line] = []
    for index, worked in enumerate(fabric.rows):
        below = fabric.rows[index - 1] if index else None
        line = _line(worked, below) if below else _first_line(fabric)
        if line is None or any(a > b for a, b in itertools.pairwise(p for feet in line.feet for p in feet)):
            return None
        found.append(line)
    return found


def _line(worked: WorkedRow, below: WorkedRow) -> _Line | None:
    places = _places(below.row)
    wide = _wide(below.row)
    if worked.direction != below.direction:
        places = {item: wide - 1 - at for item, at in places.items()}
    return _over(worked.row, places, wide)


def _first_line(fabric: Fabric) -> _Line | None:
    """The first row over the chain: its beginning chain stands beside the last chain that lies flat."""
    flat = len(fabric.foundation.stitches) - risen_of(fabric)
    row = fabric.rows[0].row
    tops = [s for s in row.stitches if s.role in ("stitch", "turning")]
    stands = bool(tops) and tops[0].role == "turning" and not tops[0].feet
    places = {item: flat - 1 - item + stands for item in range(flat)}
    return _over(row, places, flat + stands, stands=stands)


def _over(row: Row, places: dict[int, int], wide: int, *, stands: bool = False) -> _Line | None:
    """A row over a base that has `places`; None where it leaves an end free, or goes elsewhere than into its base."""
    own, feet = _places(row), []
    tops = [i for i, s in enumerate(row.stitches) if s.role in ("stitch", "turning")]
    for k, item in enumerate(tops):
        made = row.stitches[item]
        if any(f.back != 1 or f.at not in places for f in made.feet):
            return None
        feet.append(tuple(sorted({places[f.at] for f in made.feet})) or ((0,) if stands and not k else ()))
    others = any(s.role not in ("stitch", "turning", "start", "chain", "picot") for s in row.stitches)
    if others or not tops or not all(feet) or feet[0][0] != 0 or feet[-1][-1] != wide - 1:
        return None
    return _Line(_wide(row), tuple(own[i] for i in tops), tuple(feet), wide)


def _places(row: Row) -> dict[int, int]:
    """The place of every stitch and every run of chains along a row, counted in stitches and chains."""
    found, at = {}, 0
    for item, made in enumerate(row.stitches):
        if made.role in ("stitch", "turning", "chain"):
            found[item] = at
            at += made.chains if made.role == "chain" else 1
    return found


def _wide(row: Row) -> int:
    return sum(s.chains if s.role == "chain" else 1 for s in row.stitches if s.role in ("stitch", "turning", "chain"))


def _losses(line: _Line) -> tuple[_Loss, ...] | None:
    """Where a row loses stitches; None where it grows anywhere."""
    found = [_Loss(at, (f[0] + f[-1]) / 2.0, f[-1] - f[0]) for at, f in zip(line.places, line.feet, strict=True)]
    for k, (a, b) in enumerate(itertools.pairwise(line.places)):
        left, right = line.feet[k][-1], line.feet[k + 1][0]
        found.append(_Loss((a + b) / 2.0, (left + right) / 2.0, right - left - (b - a)))
    if any(loss.amount < 0 for loss in found):
        return None
    return _gathered(sorted((loss for loss in found if loss.amount), key=lambda loss: loss.at))


def _gathered(losses: Sequence[_Loss]) -> tuple[_Loss, ...]:
    """Losses that lie together as one, in their middle."""
    groups: list[list[_Loss]] = []
    for loss in losses:
        if groups and loss.at - groups[-1][-1].at <= TOGETHER:
            groups[-1].append(loss)
        else:
            groups.append([loss])
    return tuple(
        _Loss((g[0].at + g[-1].at) / 2.0, (g[0].base + g[-1].base) / 2.0, sum(loss.amount for loss in g))
        for g in groups
    )


# -- its corners ----------------------------------------------------------------------------------------------------


def _corners(
    lines: Sequence[_Line], losses: Sequence[tuple[_Loss, ...]], turned: Sequence[bool]
) -> list[tuple[float, ...]] | None:
    """The corners of the foundation and of every row, each in the order of the row's work; None where it has none."""
    losing = [k for k, found in enumerate(losses) if found]
    if len(losing) < LEAST_LOSING or losing[0] > 1 or any(b - a > 2 for a, b in itertools.pairwise(losing)):
        return None
    if len(losses) - losing[-1] > 2 or not all(_is_even(lines[k], losses[k]) for k in losing):
        return None
    below = tuple(loss.base for loss in losses[losing[0]])
    found = [below]
    if not 1 <= len(below) <= MOST_CORNERS:
        return None
    for k in range(len(lines)):
        here = _carried(lines[k], losses[k], found[-1] if not k or not turned[k - 1] else _back(lines[k], found[-1]))
        if here is None:
            return None
        found.append(here)
    return found


def _is_even(line: _Line, losses: Sequence[_Loss]) -> bool:
    """Whether a row loses alike on both sides of its corners; the last stitches may be drawn together at once."""
    return all(loss.amount % 2 == 0 for loss in losses) or line.wide == 1


def _back(line: _Line, corners: Sequence[float]) -> tuple[float, ...]:
    """The corners of a row's base, seen the other way."""
    return tuple(line.base_wide - 1 - at for at in reversed(corners))


def _carried(line: _Line, losses: Sequence[_Loss], below: Sequence[float]) -> tuple[float, ...] | None:
    """The corners of a row over those of its base: where it loses stitches, or where it stands on them."""
    if not losses:
        return tuple(below) if line.wide == line.base_wide else None
    if len(losses) != len(below) or any(abs(a.base - b) > ASIDE for a, b in zip(losses, below, strict=True)):
        return None
    return tuple(loss.at for loss in losses)


# -- its shape ------------------------------------------------------------------------------------------------------


def _shaped(
    fabric: Fabric, lines: Sequence[_Line], losses: Sequence[tuple[_Loss, ...]], corners: Sequence[tuple[float, ...]]
) -> Mitre | None:
    """The mitre whose sides have room for every row; None where its corners do not meet in one place."""
    first = fabric.rows[0].direction
    wides = [lines[0].base_wide, *(line.wide for line in lines)]
    turned = [False, *(worked.direction != first for worked in fabric.rows)]
    lengths = [_lengths(*each) for each in zip(corners, wides, turned, strict=True)]
    rises = [natural_rise(worked.row) for worked in fabric.rows]
    lost = sum(max(loss.amount for loss in found) / 2.0 for found in losses if found)
    each = math.radians(_turn(math.degrees(2.0 * math.atan(lost / sum(rises)))))
    half = math.tan(each / 2.0)
    spacing = max(1.0, half * sum(rises) / lost)
    stretch = spacing * lost / (half * sum(rises))
    levels = [stretch * high for high in itertools.accumulate([0.0, *rises])]
    beside = BESIDE_CROSSES if all(is_crossed(worked.row) for worked in fabric.rows) else BESIDE_BARS
    between = spacing * (beside - 0.5) if any(at % 1.0 for at in corners[0]) else 0.0
    sides = _sides(lengths, levels, half, spacing, between)
    middle = sides[1:-1]
    if middle and max(middle) - min(middle) > ASIDE * spacing:
        return None
    if len(sides) > 2:
        sides = (sides[0], *[max(middle)] * len(middle), sides[-1])
    if first != "right-to-left":
        sides = sides[::-1]
    return Mitre(each, tuple(corners[1:]), corners[0], sides, spacing, stretch)


def _turn(lost: float) -> float:
    """The turn at a corner where what the rows lose makes one of so many degrees."""
    return SQUARE if abs(lost - SQUARE) <= NEARLY else max(BLUNTEST, min(SHARPEST, lost))


def is_crossed(row: Row) -> bool:
    """Whether all stitches of a row are drawn as crosses."""
    return all(is_cross(s) for s in row.stitches if s.role in ("stitch", "turning"))


def is_cross(made: Stitch) -> bool:
    """Whether a stitch is drawn as a cross, or as several gathered."""
    return kind_of(drawn_kind(made.kind, made.legs, made.base), made.legs, made.base).base == "sc"


def natural_rise(row: Row) -> float:
    """How tall the stitches of a row are in the mean."""
    rises = [rise_of(s.kind, s.legs, s.base) for s in row.stitches if s.role in ("stitch", "turning")]
    return sum(rises) / len(rises)


def _lengths(corners: Sequence[float], wide: int, turned: bool) -> list[float]:
    """The sides of a row in stitches, in the order of the first row."""
    found = [b - a for a, b in itertools.pairwise([0.0, *corners, wide - 1.0])]
    return found[::-1] if turned else found


def _sides(
    lengths: Sequence[Sequence[float]], levels: Sequence[float], half: float, spacing: float, between: float
) -> tuple[float, ...]:
    """How long the sides of the foundation are, so that every row has its room between the corners."""
    count = len(lengths[0])
    ends = [1.0 if side in (0, count - 1) else 2.0 for side in range(count)]
    return tuple(
        max(n * (half * v + between) + spacing * row[side] for row, v in zip(lengths, levels, strict=True))
        for side, n in enumerate(ends)
    )
