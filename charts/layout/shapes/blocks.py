"""Corner to corner: blocks of a few chains and a few posts, each worked off the side of one in the row before.

A row of blocks lies along the diagonal. Its blocks stand on those of the row before, or beside them: posts go into the
chains along a block's side, so those of every other row are turned by a quarter. The work begins in the corner at the
left and the bottom; what is worked from right to left stands upright.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence, Set

from hookfold.symbols import Point

from ...made_late import dataclass
from ...model.cloth.fabric import Fabric, Row, Stitch
from ...model.cloth.tiles import tiles_of
from ..placing.placed import Laid, Spot, stack
from ..placing.tops import own_rise
from .ring import Edge, LaidRounds, Ring

#: White at the foot of a block's posts, its chains included, and at their heads.
AT_FOOT, AT_HEAD = 0.5, 0.25
#: How far within its side the chains of a block stand, from them to the first post, and from post to post.
CHAINS_IN, FIRST_POST, POST = 0.3, 0.8, 0.76
#: How large a post's bar is drawn there, and how far outside the side that they begin on the chains under posts lie.
BAR_SIZE, BASE_IN = 0.85, 0.24
#: The slip stitch before a block, or at a row's end: how far beside the foot of its chains.
DOT_ASIDE = 0.12
#: How far outside the side of its chains one lies that ends a row.
DOT_OUT = 0.22
#: From one slip stitch to another that goes into it.
DOT_APART = 0.55
#: From the first of the slip stitches that a row begins with to the chain before it.
LIFTED = 0.75

Cell = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Block:
    """A block of a row: its chains' item, its posts' items, where it stands (columns from the left, rows from the
    bottom), and whether its chains first make the base that its posts go into."""

    chain: int
    posts: tuple[int, ...]
    cell: Cell
    based: bool


@dataclass(frozen=True, slots=True)
class Blocks:
    """The blocks of every row, and how long the side of one is in stitch widths; `flipped` where the first row is a
    wrong-side one, so that the right side shows all of it the other way round, with the beginning at the right."""

    rows: tuple[tuple[Block, ...], ...]
    upright: tuple[bool, ...]
    side: float
    flipped: bool = False

    def edges(self, index: int) -> tuple[Edge, Edge]:
        """Where a row begins and where it ends: the free side of its first block and of its last."""
        begin, end = self._edges(index)
        return (begin.mirrored(), end.mirrored()) if self.flipped else (begin, end)

    def _edges(self, index: int) -> tuple[Edge, Edge]:
        taken = {block.cell for row in self.rows for block in row}
        first, last = self.rows[index][0].cell, self.rows[index][-1].cell
        low, high = ((0, -1), (1, 0)), ((-1, 0), (0, 1))
        if self.upright[index]:
            return self._edge(first, low, taken, (-1, 1)), self._edge(last, high, taken, (-1, 1))
        return self._edge(first, high, taken, (1, -1)), self._edge(last, low, taken, (1, -1))

    def _edge(self, cell: Cell, sides: Sequence[Cell], taken: set[Cell], way: Cell) -> Edge:
        free = [(a, b) for a, b in sides if (cell[0] + a, cell[1] + b) not in taken]
        a, b = free[0] if free else sides[-1]
        x, y = (cell[0] + 0.5 + a / 2.0) * self.side, (cell[1] + 0.5 + b / 2.0) * self.side
        begin = (way[0] / math.sqrt(2.0), -way[1] / math.sqrt(2.0))
        return Edge((x, -y), (abs(b), -abs(a)), (a, -b), begin)


def blocks_of(fabric: Fabric) -> Blocks | None:
    """The blocks of a fabric that is worked from corner to corner; None of every other."""
    if fabric.start != "chain" or len(fabric.rows) < 2 or any(worked.is_round for worked in fabric.rows):
        return None
    upright = tuple(worked.direction == fabric.rows[0].direction for worked in fabric.rows)
    if not fabric.rows[0].direction or any(a == b for a, b in itertools.pairwise(upright)):
        return None
    rows: list[tuple[Block, ...]] = []
    for worked, stands in zip(fabric.rows, upright, strict=True):
        found = _row(worked.row, rows[-1] if rows else None, stands)
        if not found:
            return None
        rows.append(found)
    made = [worked.row.stitches[i] for worked, row in zip(fabric.rows, rows, strict=True) for b in row for i in b.posts]
    if len({(s.kind, s.legs, s.base) for s in made}) > 1 or len({len(b.posts) for row in rows for b in row}) > 1:
        return None
    posts = len(rows[0][0].posts)
    high, wide = AT_FOOT + own_rise(made[0]) + AT_HEAD, CHAINS_IN + FIRST_POST + POST * (posts - 1) + 0.5
    return Blocks(tuple(rows), upright, max(high, wide), fabric.rows[0].direction == "left-to-right")


def _row(row: Row, below: Sequence[Block] | None, upright: bool) -> tuple[Block, ...]:
    """The blocks of a row where each stands; none where anything else is made in it but slip stitches."""
    found: list[Block] = []
    for tile in tiles_of(row):
        feet = [row.stitches[i].feet[0] for i in tile.posts]
        into = {(foot.back, foot.at) for foot in feet}
        begun = None if found else _begun(into, tile.side, below, upright=upright)
        cell = begun or _upon(into, below, upright=upright)
        if cell is None or any(cell == other.cell for other in found):
            return ()
        found.append(Block(tile.side, tile.posts, cell, begun is not None))
    return tuple(found)


def _begun(into: Set[tuple[int, int]], item: int, below: Sequence[Block] | None, *, upright: bool) -> Cell | None:
    """Where a block stands that is begun with chains of its own: in the corner, or beyond the row before."""
    if below is None:
        return (0, 0) if {back for back, _ in into} == {1} else None
    x, y = below[-1].cell
    beyond = (x + 1, y) if upright else (x, y + 1)
    return beyond if into == {(0, item)} else None


def _upon(into: Set[tuple[int, int]], below: Sequence[Block] | None, *, upright: bool) -> Cell | None:
    """Where a block stands whose posts go into the chains along a block of the row before."""
    found = next((block.cell for block in below or () if into == {(1, block.chain)}), None)
    if found is None:
        return None
    return (found[0], found[1] + 1) if upright else (found[0] + 1, found[1])



def lay_blocks(fabric: Fabric, blocks: Blocks) -> LaidRounds:
    """Every block where it stands, the chains of the foundation under the first."""
    rings: list[Ring] = []
    for index, worked in enumerate(fabric.rows):
        spots = _Course(blocks, index, worked.row, rings[-1].laid.spots if rings else ()).spots()
        laid, made = Laid(tuple(s.rounded() for s in spots), blocks.side), len(blocks.rows[index])
        rings.append(Ring(index, worked, laid, 0.0, blocks.side, blocks=made))
    return LaidRounds(_foundation(fabric, blocks), tuple(rings), 0)


def _foundation(fabric: Fabric, blocks: Blocks) -> Laid:
    """The chains that the first block's posts go into; those that make its first post lie there."""
    first = fabric.rows[0].row
    place = {first.stitches[i].feet[0].at: _across(k) for k, i in enumerate(blocks.rows[0][0].posts)}
    spots = []
    for item, made in enumerate(fabric.foundation.stitches):
        x, y = blocks.side - place.get(item, CHAINS_IN), -BASE_IN
        ovals = ((x, y, 0.0),) if item in place else ()
        spots.append(Spot(item, made.kind, "chain" if ovals else "risen", (x, y), chains=1, ovals=ovals).rounded())
    return Laid(tuple(spots), 0.0)


def _across(post: int) -> float:
    """How far from its block's side of chains a post stands."""
    return CHAINS_IN + FIRST_POST + POST * post


class _Course:
    """One row of blocks being laid."""

    def __init__(self, blocks: Blocks, index: int, row: Row, below: Sequence[Spot]) -> None:
        self.blocks, self.index, self.row, self.below = blocks, index, row, below

    def spots(self) -> list[Spot]:
        """Every item of the row, in the order of work."""
        found: dict[int, Spot] = {}
        for block in self.blocks.rows[self.index]:
            found[block.chain] = self._chain(block)
            for k, item in enumerate(block.posts):
                found[item] = self._post(block, k, item, self.row.stitches[item])
        for item, made in enumerate(self.row.stitches):
            if item not in found:
                at = self._lifted() if made.role == "start" else self._slip(item, made)
                found[item] = Spot(item, made.kind, made.role, at, (at,), chains=made.chains)
        return [found[item] for item in range(len(self.row.stitches))]

    def _at(self, block: Block, across: float, up: float, *, index: int | None = None) -> Point:
        """A place in a block: so far from the side of its chains, and so far up its posts."""
        side, (x, y) = self.blocks.side, block.cell
        if self.blocks.upright[self.index if index is None else index]:
            return ((x + 1) * side - across, -(y * side + up))
        return (x * side + up, -((y + 1) * side - across))

    def _heights(self, block: Block) -> tuple[float, float]:
        """Where posts begin and end."""
        return AT_FOOT, self.blocks.side - AT_HEAD

    def _chain(self, block: Block) -> Spot:
        """The chains along a block's side; before them those of its base."""
        made = self.row.stitches[block.chain]
        low, high = self._heights(block)
        foot, head = self._at(block, CHAINS_IN, low), self._at(block, CHAINS_IN, high)
        base = [self._at(block, _across(k), BASE_IN) for k in reversed(range(len(block.posts)))]
        base = base if block.based and made.role == "chain" and made.chains > len(block.posts) else []
        angle = 0.0 if self.blocks.upright[self.index] else 90.0
        ovals = (*((x, y, angle) for x, y in base), *stack(foot, head, made.chains - len(base)))
        return Spot(
            block.chain, made.kind, made.role, head, (base[0] if base else foot,), legs=made.legs, chains=made.chains,
            ovals=ovals, base=made.base,
        )  # fmt: skip

    def _post(self, block: Block, k: int, item: int, made: Stitch) -> Spot:
        low, high = self._heights(block)
        foot, head = self._at(block, _across(k), low), self._at(block, _across(k), high)
        angle = 0.0 if self.blocks.upright[self.index] else 90.0
        return Spot(
            item, made.kind, made.role, head, (foot,), legs=made.legs, size=BAR_SIZE, base=made.base, angle_deg=angle
        )

    def _slip(self, item: int, made: Stitch) -> Point:
        """A slip stitch: before a block at the foot of its chains, on the way there over the posts it goes into."""
        after = next((b for b in self.blocks.rows[self.index] if b.chain == item + 1), None)
        if after is not None:
            return self._at(after, CHAINS_IN - DOT_ASIDE, AT_FOOT / 2.0)
        below, feet = self.blocks.rows[self.index - 1] if self.index else (), {foot.at for foot in made.feet}
        for block in below:
            post = next((k for k, item in enumerate(block.posts) if item in feet), None)
            if post is not None:
                return self._at(block, _across(post), self.blocks.side, index=self.index - 1)
            if block.chain in feet:
                return self._at(block, -DOT_OUT, self.blocks.side / 2.0, index=self.index - 1)
        return self._on_slip(min(feet, default=-1), below[-1]) if below else (0.0, 0.0)

    def _lifted(self) -> Point:
        """The chain before the slip stitches that a row begins with: before the first of them, in their line."""
        (x, y), (u, v) = (self._slip(item, self.row.stitches[item]) for item in (1, 2))
        length = math.dist((x, y), (u, v)) or 1.0
        return (x + (x - u) / length * LIFTED, y + (y - v) / length * LIFTED)

    def _on_slip(self, item: int, block: Block) -> Point:
        """A slip stitch on the one that ended the row before: beside it, on the way to the last block."""
        (x, y), side = self.below[item].head, self.blocks.side
        a, b = (block.cell[0] + 0.5) * side - x, -(block.cell[1] + 0.5) * side - y
        if abs(a) > abs(b):
            return (x + math.copysign(DOT_APART, a), y)
        return (x, y + math.copysign(DOT_APART, b))
