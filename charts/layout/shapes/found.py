"""The shapes of work to and fro that is not laid row on row: about a ring, mitred, in blocks from a corner.

Who draws a piece asks its `Shape` and nothing else of what it is.
"""

from __future__ import annotations

import math

from ...made_late import dataclass
from ...model.cloth.fabric import Fabric
from ...setting import Hand
from .blocks import Blocks, blocks_of, lay_blocks
from .edged import edged_of, edging_of, is_small, without_edging
from .mitre import Mitre, mitre_of
from .mitre_rows import edges_of, lay_mitre
from .ring import Edge, LaidRounds, Ring, Shape, mirrored
from .wedge import Wedge, turn_of, wedge_edge, wedge_of
from .wedge_rows import lay_wedge

__all__ = ["AboutRing", "InBlocks", "Mitred", "Shape", "fabric_shape"]

#: A piece that opens wider than this looks closed, and is said not to be.
NEARLY_CLOSED = math.radians(300.0)


@dataclass(frozen=True, slots=True)
class AboutRing:
    """Half a motif, or another part of one."""

    wedge: Wedge
    ground: str = "centre"
    nested: bool = True
    ringed: bool = True

    def lay(self, fabric: Fabric) -> LaidRounds:
        return lay_wedge(fabric, self.wedge)

    def edges(self, ring: Ring) -> tuple[Edge, Edge]:
        turn = turn_of(ring.worked)
        return wedge_edge(self.wedge, turn), wedge_edge(self.wedge, -turn)

    def begun(self, chains: int) -> str:
        return ""

    def opening(self, laid: LaidRounds, hand: Hand) -> tuple[str, ...]:
        where = "the ring" if laid.centre.spots[0].role == "ring" else "the chain in the middle"
        seen = f"Seen from the right side, for {hand}-handed work; begin at {where}"
        open_ends = ("The two ends of the rows are not joined.",) if self.wedge.angle > NEARLY_CLOSED else ()
        if len(laid.rings) < 2:
            return (f"{seen} and work from the number.", *open_ends)
        return (f"{seen}. Rows go to and fro, each from its number to the other edge.", *open_ends)


@dataclass(frozen=True, slots=True)
class Mitred:
    """A piece that decreases bend at its corners."""

    mitre: Mitre
    ground: str = "foundation"
    nested: bool = True
    ringed: bool = False

    def lay(self, fabric: Fabric) -> LaidRounds:
        return lay_mitre(fabric, self.mitre)

    def edges(self, ring: Ring) -> tuple[Edge, Edge]:
        edges, turn = edges_of(self.mitre), turn_of(ring.worked)
        return edges[turn], edges[-turn]

    def begun(self, chains: int) -> str:
        return f"ch {chains}"

    def opening(self, laid: LaidRounds, hand: Hand) -> tuple[str, ...]:
        return (
            f"Seen from the right side, for {hand}-handed work; begin at the foundation, which is drawn bent as the "
            "decreases bend it. Rows go to and fro, each from its number to the other edge.",
        )


@dataclass(frozen=True, slots=True)
class InBlocks:
    """A piece that is worked from corner to corner in blocks."""

    blocks: Blocks
    ground: str = "centre"
    nested: bool = False
    ringed: bool = False

    def lay(self, fabric: Fabric) -> LaidRounds:
        laid = lay_blocks(fabric, self.blocks)
        return mirrored(laid) if self.blocks.flipped else laid

    def edges(self, ring: Ring) -> tuple[Edge, Edge]:
        return self.blocks.edges(ring.index)

    def begun(self, chains: int) -> str:
        return ""

    def opening(self, laid: LaidRounds, hand: Hand) -> tuple[str, ...]:
        corner = "left" if (hand == "right") != self.blocks.flipped else "right"
        return (
            f"Seen from the right side, for {hand}-handed work; begin at the chains in the lower {corner} corner. Rows "
            "of blocks go to and fro along the diagonal, each from its number. Where a block meets one of the row "
            "before, a slip stitch joins it to the chains at that block's side, and its stitches go round them too.",
        )


def fabric_shape(fabric: Fabric, *, large: bool = False) -> Shape | None:
    """The shape that a fabric is drawn in; None where it is rounds, or rows on rows. A `large` piece too has its edging
    about it, where there is room for all of it."""
    if wedge := wedge_of(fabric):
        return AboutRing(wedge)
    if mitre := mitre_of(fabric):
        return Mitred(mitre)
    if edging_of(fabric):
        return edged_of(fabric, fabric_shape(without_edging(fabric))) if large or is_small(fabric) else None
    blocks = blocks_of(fabric)
    return InBlocks(blocks) if blocks else None
