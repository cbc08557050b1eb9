"""Stitches pointed at: "sc in each st to last 2 sts, hdc in those", where the work before stops short of them."""

from __future__ import annotations

from ....made_late import replace
from ...tree import Act, Into, Make, Noun, Op, Place, Skip, Star, Times
from .parts import THOSE, Limit


def pointed_at(ops: tuple[Op, ...], before: Limit | None = None) -> tuple[Op, ...]:
    """The ops with "those" made the stitches that are left where the clause before stops. What stands where nothing stops
    short keeps its name, which no row has."""
    out: list[Op] = []
    for op in ops:
        if isinstance(op, Star):
            short = _left_by(op)
            op = replace(op, ops=pointed_at(op.ops), ending=pointed_at(op.ending, short))
        elif isinstance(op, Times):
            op = replace(op, ops=pointed_at(op.ops))
        elif isinstance(op, Make | Into | Skip) and before is not None:
            op = replace(op, places=tuple(_meant(place, before) for place in op.places))
        if not isinstance(op, Act):
            before = _left_by(op)
        out.append(op)
    return tuple(out)


def _left_by(op: Op) -> Limit | None:
    """How many of what a clause leaves at the row's end, where it says so."""
    if isinstance(op, Star):
        return op.until
    last = op.places[-1] if isinstance(op, Make | Into | Skip) and op.places else None
    return last.until if last is not None else None


def _meant(place: Place, left: Limit) -> Place:
    if place == Place("ring", Noun("ring")) and left[0] == 1:
        return Place("next", left[1])  # "to last st, 2 dc in it"
    if place.noun.name != THOSE:
        return place
    noun = left[1] if place.noun.of == "st" else Noun(place.noun.of)
    return replace(place, noun=noun, count=place.count or left[0])
