"""The first of a round's gathered stitches: "ch 3, dc2tog (counts as dc3tog)". The chain is a part of it and no stitch."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ...lexicon import height_of, together
from ...tree import Act, Chain, Into, Make, Op

#: What is gathered at its top and may begin with a chain in place of its first leg.
_GATHERED = ("cl", "cluster", "popcorn", "pc", "puff", "bobble", "puff st", "bobble st")


def part_of_gathered(ops: Sequence[Op], at: int, parts: tuple[str, ...]) -> bool:
    """Whether a chain, and the one stitch made behind it, are said to be a gathered stitch together."""
    said = parts[0] if len(parts) == 1 else ""
    if not (together(said) > 1 or said.rsplit(" ", 1)[-1] in _GATHERED):
        return False
    op = ops[at]
    behind: Sequence[Op] = op.ops[1:] if isinstance(op, Into) and isinstance(op.ops[0], Chain) else ops[at + 1 :]
    if not isinstance(op, Chain | Into) or (isinstance(op, Into) and not isinstance(op.ops[0], Chain)):
        return False
    work = [o for o in behind if not isinstance(o, Act)]
    return len(work) == 1 and isinstance(work[0], Make) and work[0].count == 1 and (height_of(work[0].stitch) is not None or together(work[0].stitch) > 1)


def lifted(op: Op) -> Op:
    """The op with its chain counting as nothing."""
    if isinstance(op, Into):
        return replace(op, ops=(lifted(op.ops[0]), *op.ops[1:]))
    return replace(op, counts=()) if isinstance(op, Chain) else op
