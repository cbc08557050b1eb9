"""Which row of a worked pattern does not add up, and what of its base it left: what the picture of a mistake shows."""

from __future__ import annotations

import re

from ...made_late import replace
from ...model.cloth.fabric import Fabric, Row, Stitch, counts
from ...model.rows.working import Worked
from ...model.sections.read import stuck_work
from ...pattern.file.records import Pattern
from .mistake import Mistake

_MISSING = re.compile(r"need (\d+) more")
#: More open frames than this say no more than the number does.
MOST_FRAMES = 12
#: So many items of the base are shown before the first that is left over.
SHOWN_BEFORE = 14


def mistake_of(worked: Worked) -> Mistake | None:
    """The first row that the work before it does not allow, over the row below; None where there is none.

    Of words that cannot be read there is nothing to show: what they leave undone is no stitch too many.
    """
    fabric = worked.fabric
    places = {row.label: i for i, row in enumerate(fabric.rows)}
    problem = next((p for p in worked.problems if p.where in places and p.kind == "impossible"), None)
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
    made, shown = end_of(row, base, left, backwards=backwards)
    leftward = fabric.rows[index].direction == "right-to-left"
    return Mistake(base, made, left, missing, says, leftward, backwards, shown)


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


def stuck_in(pattern: Pattern) -> Mistake | None:
    """The first section of a pattern file whose rows come out even over no number of stitches, as far as they go; None
    where every section's do. PatternError where they cannot be read."""
    found = stuck_work(pattern)
    mistake = mistake_of(found[0]) if found else None
    return replace(mistake, says=f"{found[1].where}: {found[1].says}") if found and mistake else None


def end_of(
    row: Row, base: Row, left: tuple[int, ...], *, backwards: bool
) -> tuple[tuple[Stitch, ...], tuple[int, ...]]:
    """The end of a long row, where it leaves stitches over: what is made there, and the items of the base shown.

    A whole row, and all of its base, where it is short or nothing is left over.
    """
    items = tuple(range(len(base.stitches)))
    order = items[::-1] if backwards else items
    first = min((order.index(item) for item in left), default=0) - SHOWN_BEFORE
    if first <= SHOWN_BEFORE // 2:
        return row.stitches, items
    shown = set(order[first:])
    at = next((i for i, s in enumerate(row.stitches) if s.feet and {f.at for f in s.feet if f.back == 1} & shown), 0)
    return row.stitches[at:], tuple(sorted(shown))
