"""What a flat piece is as squares: found on the worked stitches, never on the words.

Every stitch and every chain of a run is as wide as one stitch; feet say over which stitch of the row below each
stands. In filet some columns hold a stitch in every row, and what lies between two of them is all chains (an open
square) or all stitches (a filled one). In colour work every stitch is a square in its own colour; a long stitch
covers what lies in front of it down to where it goes in.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from typing import Literal

from ...made_late import dataclass
from ...model.cloth.fabric import Fabric, Row, Stitch, WorkedRow, counts
from ...model.cloth.yarns import yarns_in

#: A square of filet is so many stitches wide, with the stitch it shares with the next (common practice, no source).
LEAST_WIDE, MOST_WIDE = 2, 5
#: A grid of fewer rows or columns tells nothing that the words do not.
LEAST_ROWS = 2
#: What a square of colour work holds whose yarn the words do not name.
UNNAMED = "unnamed"


@dataclass(frozen=True, slots=True)
class SquareRow:
    """One row of squares: its number and side, whether it is worked from the right as the right side is seen, and what
    each column holds from left to right: "filled", "open", a colour's letter, UNNAMED, or "" where the piece has no
    square."""

    number: int
    side: str
    from_right: bool
    cells: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Grid:
    """A piece as squares, from the first row up. `wide` is the stitches a square takes (1 in colour work), `stitch`
    what filled squares and the lines between squares are worked in, `chains` what an open square bridges."""

    kind: Literal["meshes", "colours"]
    rows: tuple[SquareRow, ...]
    wide: int
    stitch: str = ""

    @property
    def columns(self) -> int:
        return len(self.rows[0].cells)

    @property
    def chains(self) -> int:
        return self.wide - 1


@dataclass(frozen=True, slots=True)
class _Placed:
    """A row with its places: the column of its first unit, which way it goes, and its units in order ("" a chain)."""

    worked: WorkedRow
    first: int
    step: int
    units: tuple[Stitch, ...]

    def at(self) -> dict[int, Stitch]:
        return {self.first + self.step * n: stitch for n, stitch in enumerate(self.units)}


def grid_of(fabric: Fabric) -> Grid | None:
    """The piece as squares, or None where it is none: rounds, rows that fan out, a piece of one colour and no meshes.

    A fabric of filet is found as filet, whatever its colours.
    """
    placed = _placed(fabric)
    if placed is None or len(placed) < LEAST_ROWS:
        return None
    return _meshes(placed) or _colours(placed)


def is_filet(fabric: Fabric) -> bool:
    """Whether a piece is filet: squares open and filled. A piece without chains in any row is not looked at further."""
    rows = {id(row.row): row.row for row in fabric.rows}
    if not any(stitch.role == "chain" for row in rows.values() for stitch in row.stitches):
        return False
    placed = _placed(fabric)
    found = _meshes(placed) if placed is not None and len(placed) >= LEAST_ROWS else None
    return found is not None and {"open", "filled"} <= {what for row in found.rows for what in row.cells}


# -- where everything stands ----------------------------------------------------------------------------------------


def _placed(fabric: Fabric) -> list[_Placed] | None:
    """Every row with its columns, or None where a row does not lie stitch over stitch on the one below."""
    if any(row.is_round for row in fabric.rows):
        return None
    below: list[Mapping[int, int]] = [{n: n for n in range(len(fabric.foundation.stitches))}]
    out: list[_Placed] = []
    for worked in fabric.rows:
        units = _units(worked.row)
        found = _anchored(worked.row, below)
        if not units or found is None:
            return None
        first, step = found
        out.append(_Placed(worked, first, step, tuple(stitch for _, stitch in units)))
        below.append(_item_columns(units, first, step))
    return _seen(out)


def _units(row: Row) -> list[tuple[int, Stitch]]:
    """What is a stitch wide, in the order of work, with the item it belongs to; every chain of a run for itself."""
    out: list[tuple[int, Stitch]] = []
    for item, stitch in enumerate(row.stitches):
        if counts(stitch):
            out.append((item, stitch))
        elif stitch.role == "chain":
            out += [(item, stitch)] * stitch.chains
    return out


def _item_columns(units: Sequence[tuple[int, Stitch]], first: int, step: int) -> dict[int, int]:
    """The column where each item of a row begins."""
    out: dict[int, int] = {}
    for n, (item, _) in enumerate(units):
        out.setdefault(item, first + step * n)
    return out


def _anchored(row: Row, below: Sequence[Mapping[int, int]]) -> tuple[int, int] | None:
    """The column of a row's first unit and which way it goes, by the stitches that stand on a stitch below; all must
    say the same."""
    points: list[tuple[int, int]] = []
    seen: set[int] = set()
    for n, (item, stitch) in enumerate(_units(row)):
        if item in seen or len(stitch.feet) > 1:
            if len(stitch.feet) > 1:
                return None
            continue
        seen.add(item)
        foot = stitch.feet[0] if stitch.feet else None
        if foot is None or foot.hold not in ("top", "front loop", "back loop", "under") or foot.back < 1:
            continue
        columns = below[-foot.back] if foot.back <= len(below) else {}
        if foot.at in columns and stitch.role == "stitch":
            points.append((n, columns[foot.at]))
    if len(points) < 2:
        return None
    step = 1 if points[-1][1] > points[0][1] else -1
    firsts = {column - step * n for n, column in points}
    return (firsts.pop(), step) if len(firsts) == 1 else None


def _seen(placed: list[_Placed]) -> list[_Placed] | None:
    """The rows with columns that grow from left to right as the right side is seen; None where they disagree."""
    signs = {row.step * (-1 if row.worked.direction == "right-to-left" else 1) for row in placed}
    if len(signs) != 1:
        return None
    sign = signs.pop()
    return [_Placed(row.worked, sign * row.first, sign * row.step, row.units) for row in placed]


def _row_of(row: _Placed, cells: Sequence[str]) -> SquareRow:
    return SquareRow(row.worked.number, row.worked.side, row.step < 0, tuple(cells))


# -- filet ----------------------------------------------------------------------------------------------------------


def _meshes(placed: list[_Placed]) -> Grid | None:
    kinds = Counter(s.kind for row in placed for s in row.units if s.role != "chain")
    if len(kinds) != 1:
        return None
    rows = [row.at() for row in placed]
    for wide in range(MOST_WIDE, LEAST_WIDE - 1, -1):
        first = min(rows[0])
        lines = [x for row in rows for x, stitch in row.items() if (x - first) % wide == 0]
        whole = all(
            stitch.role != "chain" for row in rows for x, stitch in row.items() if (x - first) % wide == 0
        ) and all((min(row) - first) % wide == 0 and (max(row) - first) % wide == 0 for row in rows)
        if not whole or not lines:
            continue
        cells = [_cells(row, first, wide) for row in rows]
        if any(found is None for found in cells):
            continue
        known = [found for found in cells if found is not None]
        if not any(what == "open" for found in known for what in found.values()):
            return None
        low, high = min(min(c) for c in known), max(max(c) for c in known)
        shown = [[found.get(n, "") for n in range(low, high + 1)] for found in known]
        return Grid("meshes", tuple(map(_row_of, placed, shown)), wide, next(iter(kinds)))
    return None


def _cells(row: Mapping[int, Stitch], first: int, wide: int) -> dict[int, str] | None:
    """What each square of a row holds by its number, or None where one is neither open nor filled."""
    out: dict[int, str] = {}
    for x in range(min(row), max(row), wide):
        inside = [row[x + n].role == "chain" for n in range(1, wide)]
        if any(inside) and not all(inside):
            return None
        out[(x - first) // wide] = "open" if all(inside) else "filled"
    return out


# -- colour work ----------------------------------------------------------------------------------------------------


def _colours(placed: list[_Placed]) -> Grid | None:
    if len(yarns_in(row.worked for row in placed)) < 2:
        return None
    cells: list[dict[int, str]] = []
    for row in placed:
        cells.append({x: stitch.colour or row.worked.colour or UNNAMED for x, stitch in row.at().items()})
        for x, stitch in row.at().items():
            depth = max((foot.back for foot in stitch.feet), default=1)
            for further in range(1, min(depth, len(cells))):
                if x in cells[-1 - further]:
                    cells[-1 - further][x] = cells[-1][x]
    low, high = min(min(c) for c in cells), max(max(c) for c in cells)
    shown = [[found.get(n, "") for n in range(low, high + 1)] for found in cells]
    return Grid("colours", tuple(map(_row_of, placed, shown)), 1)
