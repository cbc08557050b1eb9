"""Putting clauses one after the other: chains closed by a slip stitch into themselves are one picot."""

from __future__ import annotations

from .tree import Chain, Make, Op, Place


def add(out: list[Op], op: Op) -> None:
    """Put an op at the end; "ch 3, sl st in first ch of ch-3" becomes one picot."""
    last = out[-1] if out else None
    if (
        isinstance(op, Make)
        and op.stitch == "sl st"
        and isinstance(last, Chain)
        and op.places
        and own_chain(op.places[0], last)
    ):
        out[-1] = Make("picot", 1, (Place("made", nth=last.count),), at=last.at)
    else:
        out.append(op)


def own_chain(place: Place, chain: Chain) -> bool:
    """Whether a slip stitch goes back into the chain just made, or the stitch before it: a picot."""
    if place.which == "hook" and place.nth in (chain.count, chain.count - 1) and chain.count <= 12:
        return True
    if place.which == "nth" and place.of is not None and place.of.which == "beg" and place.of.noun.size == chain.count:
        return True
    if place.which == "first" and place.noun.name == "ch" and place.count == 1 and chain.count <= 12:
        return True
    return place.which in ("last", "top", "same", "made") and place.row is None and chain.count <= 12
