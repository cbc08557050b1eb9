"""The shape of work to and fro that is not laid row on row: about a ring, mitred, or in blocks from a corner."""

from __future__ import annotations

from ...model.cloth.fabric import Fabric
from .blocks import Blocks, blocks_of, lay_blocks
from .mitre import Mitre, mitre_of
from .mitre_rows import lay_mitre
from .ring import LaidRounds
from .wedge import Wedge, wedge_of
from .wedge_rows import lay_wedge

Shape = Wedge | Mitre | Blocks


def fabric_shape(fabric: Fabric) -> Shape | None:
    """The shape that a fabric is drawn in; None where it is rounds, or rows on rows."""
    return wedge_of(fabric) or mitre_of(fabric) or blocks_of(fabric)


def lay_shape(fabric: Fabric, shape: Shape) -> LaidRounds:
    """The fabric laid in its shape, as a right-hander works it."""
    if isinstance(shape, Blocks):
        return lay_blocks(fabric, shape)
    return lay_mitre(fabric, shape) if isinstance(shape, Mitre) else lay_wedge(fabric, shape)
