"""Rows that are partly worked further down: which of their words go there, and what such stitches take the place of."""

from __future__ import annotations

from ...pattern.lexicon import height_of
from ...pattern.tree import Act, Chain, Into, Make, Op, Place, Skip, Star, Times, walk
from ..cloth.site import Beside
from .hand import Hand


def is_deep(op: Op) -> bool:
    """Whether a clause works into a row further down than the one below, or into what was skipped there."""
    if isinstance(op, Times | Star):
        return bool(op.ops) and is_deep(op.ops[-1])
    return isinstance(op, Make | Into) and bool(op.places) and all(_lies_deep(place) for place in op.places)


def _lies_deep(place: Place) -> bool:
    row = place.row or (place.of.row if place.of is not None else None)
    return (row is not None and row.below != 1) or place.which in ("unworked", "skipped")


def works_near(ops: tuple[Op, ...]) -> bool:
    """Whether a row works into the row below at all; a layer behind it does not, and takes nothing's place there."""
    ending = (op.ending for op in ops if isinstance(op, Star))
    inner = (*(op.ops for op in ops if isinstance(op, Star | Times)), *ending)
    return any(map(_is_near, ops)) or any(map(works_near, inner))


def _is_near(op: Op) -> bool:
    if not isinstance(op, Make | Into) or is_deep(op):
        return False
    bare = isinstance(op, Make) and not op.places and height_of(op.stitch) is not None
    return bare or any(place.which in ("next", "each", "nth", "last") for place in op.places)


def beside(p: Hand, ops: tuple[Op, ...], at: int) -> Beside:
    """What stands before and after a clause that is worked further down."""
    op = ops[at]
    if not isinstance(op, Make | Into) or not is_deep(op):
        return Beside()
    before, after = _moving(ops[:at][::-1]), _moving(ops[at + 1 :])
    chain = isinstance(before, Chain) or isinstance(after, Chain)
    in_stead = isinstance(before, Skip) and p.skipped_back == 1 and bool(p.skipped) and _in_stead(before, op)
    returned = any(_returns(later) for later in walk(ops[at:]))
    return Beside(p.skipped[0] if in_stead and not returned and not isinstance(after, Skip) else None, chain)


def _moving(ops: tuple[Op, ...]) -> Op | None:
    """The first clause that is more than a remark."""
    return next((op for op in ops if not isinstance(op, Act)), None)


def _in_stead(skip: Skip, op: Make | Into) -> bool:
    """Whether as many plain stitches are skipped as are worked further down: they are skipped for these."""
    plain = all(q.row is None and (q.noun.name == "st" or height_of(q.noun.name)) for q in skip.places)
    return plain and sum(q.count for q in skip.places) == sum(q.count for q in op.places)


def _returns(op: Op) -> bool:
    """Whether a clause works into what was skipped before."""
    return isinstance(op, Make | Into) and any(q.which in ("skipped", "unworked") for q in op.places)


def settle_before(p: Hand, ops: tuple[Op, ...], at: int) -> None:
    """What stitches worked further down lie over is passed before the hook works on in the row below. "Sk" right after
    them says itself what they lie over."""
    op = ops[at]
    says_it = isinstance(op, Skip) and at > 0
    if p.pending and not says_it and not isinstance(op, Act) and not is_deep(op):
        p.settle()
