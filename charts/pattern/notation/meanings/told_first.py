"""Work told of a first stitch: "sc2tog in next st" goes over as many as it gathers, "sl st in first sc" before a round's
chain closes the one below."""

from __future__ import annotations

from ....made_late import replace
from ...lexicon import height_of, together
from ...tree import Act, Chain, Make, Op, Place, Star, Times

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


def joined_late(ops: tuple[Op, ...]) -> tuple[Op, ...] | None:
    """The ops with a slip stitch into the first stitch, before the beginning chain, as the join of the round below; None
    where they begin otherwise."""
    first = ops[0] if len(ops) > 2 and isinstance(ops[1], Chain) else None
    if isinstance(first, Make) and first.stitch == "sl st" and first.count == 1 and len(first.places) == 1:
        place = first.places[0]
    elif isinstance(first, Act) and first.name == "yarn" and first.text == "yarn" and first.place is not None:
        place = first.place
    else:
        return None
    at_first = place.which == "first" and place.count == 1 and place.row is None
    return (Act("join", ""), *ops[1:]) if at_first else None
