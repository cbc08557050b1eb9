"""Decreases told of the first of their stitches: "sc2tog in next st", "dec in first st" work over as many as they gather."""

from __future__ import annotations

from dataclasses import replace

from ...lexicon import height_of, together
from ...tree import Make, Op, Place, Star, Times

_ORDERS = ("next", "first", "last")


def decreased(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """The ops with each "sc2tog in next st" over as many stitches as it gathers: two of the low stitch never go into
    one."""
    return tuple(_one(op) for op in ops)


def _one(op: Op) -> Op:
    if isinstance(op, Star | Times):
        return replace(op, ops=decreased(op.ops))
    low = isinstance(op, Make) and op.stitch.startswith("sc") and together(op.stitch) > 1 and op.count == 1
    return replace(op, places=over_all(op.places, together(op.stitch))) if low and isinstance(op, Make) else op


def over_all(places: tuple[Place, ...], legs: int) -> tuple[Place, ...]:
    """The one stitch a decrease is said to go into with those behind it.

    >>> over_all((Place("next"),), 2)[0].count, over_all((Place("same"),), 2)[0].count
    (2, 1)
    """
    if len(places) != 1:
        return places
    place = places[0]
    stitch = place.noun.name == "st" or height_of(place.noun.name) == place.noun.name
    alone = place.count == 1 and not place.nth and place.of is None and place.row is None and not place.bare
    return (replace(place, count=legs),) if stitch and alone and place.which in _ORDERS else places
