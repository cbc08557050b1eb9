"""Rounds worked about an opening: a thumb begun in the stitches skipped for it and along the chain over them."""

from __future__ import annotations

from dataclasses import replace

from ...lexicon import height_of
from ...tree import Act, Chain, Make, Op, Place

#: What moves no stitch and holds about an opening as elsewhere.
_KEPT = frozenset(("join", "do not join", "fasten off", "facing", "turn", "colour", "loops"))
#: An opening has so many stitches about it at least.
_LEAST = 4


def about_opening(ops: tuple[Op, ...]) -> tuple[int, tuple[Op, ...]] | None:
    """How many stitches lie about an opening, and the first round of a piece that is begun there, "join yarn in first
    skipped st, sc in 4 skipped sts, sc in opposite side of next 4 ch", in these as they come; None for a row that is not
    told so stitch by stitch. What is picked up at a side or a corner is one stitch each."""
    total, out, there = 0, list[Op](), False
    for op in ops:
        if isinstance(op, Act):
            there = there or op.name == "opposite"
            if op.name == "yarn":
                out.append(replace(op, place=None))
            elif op.name in _KEPT:
                out.append(op)
            elif op.name not in ("opposite", "edge"):
                return None
        elif isinstance(op, Chain) and not total:
            out.append(op)
        else:
            many = _stitches(op)
            if not many or not isinstance(op, Make):
                return None
            there = there or op.places[0].which in ("skipped", "unworked")
            total += many
            out.append(replace(op, count=1, places=(Place("next", count=many),)))
    return (total, tuple(out)) if there and total >= _LEAST else None


def _stitches(op: Op) -> int:
    """How many stitches a clause works, one in each; 0 where it is none of those about an opening."""
    if not isinstance(op, Make) or op.beside or len(op.places) != 1 or height_of(op.stitch) != op.stitch:
        return 0
    place = op.places[0]
    if place.which in ("skipped", "unworked"):
        return place.count if op.count == 1 else op.count if place.count <= 1 else 0
    if place.which in ("next", "first") and place.noun.name in ("st", "ch", op.stitch):
        return place.count if op.count == 1 and not place.nth else 0
    beside = place.noun.name in ("side", "corner", "row") or place.which == "same"
    return op.count if beside and place.count == 1 else 0
