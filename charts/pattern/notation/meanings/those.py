"""Stitches pointed at: "sc in each st to last 2 sts, hdc in those", where the work before stops short of them."""

from __future__ import annotations

from dataclasses import replace

from ...tree import Act, Chain, Into, Make, Noun, Op, Place, Skip, Star, Times
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


def round_the_last(ops: tuple[Op, ...], *, again: bool = False) -> tuple[Op, ...]:
    """The ops with "*2 dc in next st, FPdc around last st*" gone round the stitch just worked into: the row's last stitch
    is not meant by it, as more work follows. `again`: what is told here comes again."""
    work = [n for n, op in enumerate(ops) if isinstance(op, Make | Into | Skip | Star | Times)]
    out = list(ops)
    for n, op in enumerate(ops):
        goes_on = again or (bool(work) and n < work[-1])
        before = ops[n - 1] if n else None
        there = before.places[-1].which if isinstance(before, Make) and before.places else ""
        if isinstance(op, Star | Times):
            out[n] = replace(op, ops=round_the_last(op.ops, again=True))
        elif isinstance(op, Make) and goes_on and there in ("next", "same", "first") and _post_of_last(op):
            out[n] = replace(op, places=(replace(op.places[0], which="same"),))
    return tuple(out)


def fastened_to_others(ops: tuple[Op, ...], *, again: bool = False) -> tuple[Op, ...]:
    """The ops with "ch 2, sl st in loop of first motif, ch 2" kept where chains lead to it; elsewhere it is a stitch into
    this piece: "sl st in first ch-3 sp of first motif, ch 1, ...". `again`: what is told here comes again."""
    out = list(ops)
    for n, op in enumerate(ops):
        before = ops[n - 1] if n else ops[-1] if again else None
        if isinstance(op, Star | Times):
            out[n] = replace(op, ops=fastened_to_others(op.ops, again=True))
        elif isinstance(op, Act) and op.name == "other piece" and op.place is not None and not isinstance(before, Chain):
            out[n] = Make(op.text, 1, (op.place,), at=op.at)
    return tuple(out)


def _post_of_last(op: Make) -> bool:
    """Whether a stitch goes round the post of what is called the last stitch."""
    place = op.places[0] if len(op.places) == 1 else None
    return place is not None and (place.which, place.count, place.row) == ("last", 1, None) and op.stitch.startswith(("FP", "BP"))


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
