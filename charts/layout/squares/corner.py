"""A piece worked from corner to corner as squares: one to a block, its rows along the diagonals.

Squares lie as such pieces are charted (common practice, no source): seen from the right side, the first block in the
corner at the right and the foot, right-side rows down to the left and wrong-side rows up to the right. A left-hander
sees it mirrored. The stitch chart has the same piece turned by a quarter.
"""

from __future__ import annotations

from collections.abc import Mapping

from ...made_late import dataclass
from ...model.cloth.fabric import Fabric, WorkedRow
from ...setting import Hand
from ..shapes.blocks import Block, blocks_of
from ..shapes.edged import without_edging
from .grid import UNNAMED

#: A square's column from the left and row from the foot.
Cell = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Diagonal:
    """A row of blocks: its number and side, its squares in the order of work, and the yarn of each by its letter."""

    number: int
    side: str
    cells: tuple[Cell, ...]
    yarns: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class CornerGrid:
    """A piece in blocks: its rows in the order of work, how many squares it is wide and high, what a block is made of,
    and whether the first one lies at the right."""

    rows: tuple[Diagonal, ...]
    wide: int
    high: int
    stitch: str
    posts: int
    chains: int
    from_right: bool

    def by_cell(self) -> Mapping[Cell, tuple[int, str]]:
        """The row, from 0, and the yarn of every square that the piece has."""
        return {
            cell: (n, yarn)
            for n, row in enumerate(self.rows)
            for cell, yarn in zip(row.cells, row.yarns, strict=True)
        }


def corner_grid(fabric: Fabric, hand: Hand) -> CornerGrid | None:
    """A piece that is worked from corner to corner as squares; None of any other."""
    fabric = without_edging(fabric)
    blocks = blocks_of(fabric)
    if blocks is None:
        return None
    across = [block.cell[1] for row in blocks.rows for block in row]
    up = [block.cell[0] for row in blocks.rows for block in row]
    wide, high, right = max(across) + 1, max(up) + 1, (hand == "right") != blocks.flipped
    rows = []
    for worked, row in zip(fabric.rows, blocks.rows, strict=True):
        cells = tuple((wide - 1 - b.cell[1] if right else b.cell[1], b.cell[0]) for b in row)
        rows.append(Diagonal(worked.number, worked.side, cells, tuple(_yarn(worked, block) for block in row)))
    last, block = fabric.rows[-1].row, blocks.rows[-1][-1]
    made, side = last.stitches[block.posts[0]], last.stitches[block.chain].chains
    return CornerGrid(tuple(rows), wide, high, made.kind, len(block.posts), side, right)


def _yarn(worked: WorkedRow, block: Block) -> str:
    return worked.row.stitches[block.posts[0]].colour or worked.colour or UNNAMED
