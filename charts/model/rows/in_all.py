"""A number before "in each" that is the number of all of them: "30 hdc in each st around" over 30 stitches."""

from __future__ import annotations

from dataclasses import replace

from ...pattern.lexicon import height_of
from ...pattern.tree import Make, Op
from ..cloth.fabric import Row, counts

#: So many stitches are never worked into every stitch of a row (common practice, no source).
_FEWEST = 10


def one_in_each(ops: tuple[Op, ...]) -> tuple[tuple[Op, ...], Make] | None:
    """The ops with a number before "in each" taken for that of all of them, and the clause; None where none has one."""
    for at, op in enumerate(ops):
        if isinstance(op, Make) and op.count >= _FEWEST and _each(op):
            return (*ops[:at], replace(op, count=1), *ops[at + 1 :]), op
    return None


def comes_out(row: Row, op: Make) -> bool:
    """Whether a row made so has as many stitches of the kind as the clause says."""
    return sum(counts(s) and s.kind == op.stitch for s in row.stitches) == op.count


def _each(op: Make) -> bool:
    *before, last = op.places or (None,)
    if last is None or last.which != "each" or last.count != 1 or last.until is not None:
        return False
    if last.noun.name not in ("st", "ch") and not height_of(last.noun.name):
        return False
    return all(p is not None and p.which == "hook" for p in before)
