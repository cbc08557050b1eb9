"""Which row of a worked pattern does not add up, and what of its base it left: what the picture of a mistake shows."""

from __future__ import annotations

import re

from ..model.grid import Fabric, Row, counts
from ..model.work import Worked
from .mistake import Mistake

_MISSING = re.compile(r"need (\d+) more")
#: More open frames than this say no more than the number does.
MOST_FRAMES = 12


def mistake_of(worked: Worked) -> Mistake | None:
    """The first row with a problem, over the row below; None where no worked row has one."""
    fabric = worked.fabric
    places = {row.label: i for i, row in enumerate(fabric.rows)}
    problem = next((p for p in worked.problems if p.where in places), None)
    if problem is None:
        return None
    index = places[problem.where]
    row, base = fabric.rows[index].row, fabric.base_of(index)
    if base is None:
        return None
    backwards = _backwards(fabric, index)
    asked = _MISSING.search(problem.says)
    missing = ("st",) * min(int(asked[1]), MOST_FRAMES) if asked else ()
    left = () if missing else left_of(row, base, backwards=backwards)
    says = f"{problem.where}: {problem.says}"
    return Mistake(base, row.stitches, left, missing, says, fabric.rows[index].direction == "right-to-left")


def _backwards(fabric: Fabric, index: int) -> bool:
    """Whether a row runs against the order in which its base was worked."""
    if index == 0:
        return True
    return fabric.rows[index].direction != fabric.rows[index - 1].direction


def left_of(row: Row, base: Row, *, backwards: bool) -> tuple[int, ...]:
    """The stitches of the base that lie past the last one worked into, in the order of work."""
    touched = {foot.at for stitch in row.stitches for foot in stitch.feet if foot.back == 1}
    items = [i for i, s in enumerate(base.stitches) if counts(s) or s.role == "foundation"]
    order = items[::-1] if backwards else items
    last = max((at for at, item in enumerate(order) if item in touched), default=-1)
    return tuple(order[last + 1 :])
