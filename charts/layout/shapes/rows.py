"""Rows laid one after the other, each on what lies already: the loop of all shapes whose rows lie round each other."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from ...made_late import replace
from ...model.cloth.fabric import Fabric, Row, WorkedRow
from ..placing.clearing import cleared, map_of
from ..placing.feet import Bases
from ..placing.placed import Laid
from .ring import Ring

#: Lays one row: the row, its place from 0, the spots of what it can go into, and where the row below ends.
LayRow = Callable[[WorkedRow, int, Bases, float], Ring]


def lay_rows(fabric: Fabric, ground: Laid, level: float, lay: LayRow) -> tuple[Ring, ...]:
    """Every row laid on those before it and on the `ground`, which ends at `level`; beginning chains that do not count
    are moved clear of other ink."""
    rings: list[Ring] = []
    for index, worked in enumerate(fabric.rows):
        rings.append(lay(worked, index, _bases(worked.row, [*(r.laid for r in reversed(rings)), ground]), level))
        level = rings[-1].outer
    return _cleared(rings, ground)


def _bases(row: Row, below: Sequence[Laid]) -> Bases:
    """What a row goes into, by how many rows back it lies."""
    depth = max((f.back for s in row.stitches for f in s.feet), default=1)
    return {back: laid.spots for back, laid in enumerate(below, start=1) if back <= depth}


def _cleared(rings: Sequence[Ring], ground: Laid) -> tuple[Ring, ...]:
    ink = map_of([("centre", ground.spots), *((ring.index, ring.laid.spots) for ring in rings)])
    return tuple(
        replace(r, laid=replace(r.laid, spots=tuple(s.rounded() for s in cleared(r.laid.spots, ink, r.index))))
        for r in rings
    )
