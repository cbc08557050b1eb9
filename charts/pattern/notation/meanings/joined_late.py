"""A round that begins with the slip stitch which closes the one below: "Sl st in first sc. Ch 1, 2 sc in each sc"."""

from __future__ import annotations

from ...tree import Act, Chain, Make, Op


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
