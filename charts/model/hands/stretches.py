""" "Each" inside a repeat: "*dc in each dc, 3 dc in next ch-2 sp; rep from * around" works one side, not all that are left."""

from __future__ import annotations

from ...pattern.lexicon import height_of
from ...pattern.tree import Either, Into, Make, Noun, Op, Place, Skip, Star, Times
from ..cloth.ground import Hit
from .hand import Hand

_ST = Noun("st")


def what_follows(ops: tuple[Op, ...], at: int, *, top: bool) -> Noun | None:
    """What the clause behind the one at `at` goes into; behind the last of a repeat comes its first. At the top of a row
    only a repeat that follows is asked."""
    if top:
        behind = next((op for op in ops[at + 1 :] if _works(op)), None)
        return _goes_into(behind) if isinstance(behind, Star | Times) else None
    order = (*ops[at + 1 :], *ops[:at])
    return next((_goes_into(op) for op in order if _works(op)), None)


def _works(op: Op) -> bool:
    return isinstance(op, Make | Into | Skip | Star | Times | Either)


def _goes_into(op: Op | None) -> Noun | None:
    if isinstance(op, Star | Times):
        return next((_goes_into(inner) for inner in op.ops if _works(inner)), None)
    if isinstance(op, Make) and not op.places:
        return _ST
    place = op.places[0] if isinstance(op, Make | Into | Skip) and op.places else None
    if place is None or place.row is not None or place.which not in ("next", "each", "skipped"):
        return None
    return place.noun


def bound(p: Hand, place: Place, spot: int) -> int | None:
    """Where "each" of a stitch ends as what follows it in the repeat begins; None where it goes on to the end."""
    follows = p.follows
    if follows is None or follows == place.noun or not _of_stitches(place):
        return None
    if height_of(follows.name) is None and follows.name != "st":
        hit = p.ground.find(follows, spot)
        return hit.start if hit is not None and hit.start > spot else None
    return None


def _of_stitches(place: Place) -> bool:
    plain = not (place.also or place.until or place.upto or place.row or place.of)
    return plain and place.step == 1 and not place.after and (place.noun.name == "st" or height_of(place.noun.name) is not None)


def side_by_side(p: Hand, place: Place, kept: list[Hit]) -> list[Hit]:
    """Those of "each FPdc" that stand side by side, where the repeat works other stitches behind them."""
    if p.follows is None or p.follows == place.noun or not _of_stitches(place) or place.noun.name == "st" or not kept:
        return kept
    kind = p.ground.slots[kept[0].start].stitch.kind
    for at in range(1, len(kept)):
        apart = p.ground.stitches_between(kept[at - 1].end, kept[at].start)
        other = p.ground.slots[kept[at].start].stitch.kind != kind and height_of(p.follows.name) is not None
        if apart or other:
            return kept[:at]
    return kept
