"""A chain further on than a round's beginning that the round is closed in: "sc in loop, ch 6, dc in same loop, ...; sl st in
3rd ch of ch-6" says that it stands for a stitch and a space."""

from __future__ import annotations

from dataclasses import replace

from ..lexicon import TURNING
from ..tree import Act, Chain, Make, Place
from .items import Ops


def counted_by_join(ops: Ops) -> Ops:
    """The ops with the chain counted that stands behind one stitch and is closed in one of its chains."""
    joins = [op.place for op in ops if isinstance(op, Act) and op.name == "join"]
    joins += [op.places[0] for op in ops[-2:] if isinstance(op, Make) and op.stitch == "sl st" and len(op.places) == 1]
    closed = next((found for place in joins if (found := _closed_in(place))), None)
    at = next((n for n, op in enumerate(ops) if isinstance(op, Chain)), 0)
    chain = ops[at] if ops else None
    if closed is None or not isinstance(chain, Chain) or chain.counts is not None or chain.count != closed[1]:
        return ops
    led = [op for op in ops[:at] if not isinstance(op, Act) and not (isinstance(op, Make) and op.stitch == "sl st")]
    if len(led) != 1 or not isinstance(led[0], Make) or led[0].count != 1:
        return ops
    stitch = next((kind for kind, chains in TURNING.items() if chains == closed[0]), "")
    rest = chain.count - closed[0]
    parts = (stitch, *([f"ch {rest}"] if rest else [])) if stitch else ()
    return (*ops[:at], replace(chain, counts=parts), *ops[at + 1 :]) if parts else ops


def _closed_in(place: Place | None) -> tuple[int, int] | None:
    """Which chain of how many a round is closed in."""
    of = place.of if place is not None and place.which == "nth" else None
    if place is None or of is None or of.which != "beg" or not 1 < place.nth <= of.noun.size:
        return None
    return place.nth, of.noun.size
