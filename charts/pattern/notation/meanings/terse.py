"""What terse patterns leave out, or say behind: the sign between two clauses, the side that stitches are on."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

from ...tree import Act, Chain, Into, Make, Noun, Op, Skip, Star, Times


def told_once(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """ "Work even, sc in each st": the second says what the first means."""
    twice = (a == b and isinstance(b, Make) and [p.which for p in b.places] == ["each"] for a, b in pairwise(ops))
    return tuple(op for op, again in zip(ops, (False, *twice), strict=False) if not again)


def side_first(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """ "Sc in next 10 ch (on opposite side)": said behind the last stitches, it holds for them."""
    at = next((n for n, op in enumerate(ops) if isinstance(op, Act) and op.name == "opposite"), 0)
    if not at or any(not isinstance(op, Act) for op in ops[at + 1 :]) or not isinstance(ops[at - 1], Make):
        return ops
    return (*ops[: at - 1], ops[at], ops[at - 1], *ops[at + 1 :])


def parted(ops: tuple[Op, ...], *, inside: bool = False) -> tuple[Op, ...]:
    """ "*Ch 1 sk 1 sc*": a repeat makes a stitch, so "sk 1" and "sc" are two clauses."""
    out: list[Op] = []
    for op in ops:
        if isinstance(op, Star | Times | Into):
            op = replace(op, ops=parted(op.ops, inside=isinstance(op, Star | Times)))
        if isinstance(op, Skip) and any(p.bare for p in op.places):
            alone = inside and op is ops[-1] and all(isinstance(o, Chain | Skip) for o in ops) and len(ops) > 1
            place = replace(op.places[0], bare=False)
            out.append(replace(op, places=(replace(place, noun=Noun("st")) if alone else place,)))
            if alone:
                out.append(Make(place.noun.name, 1, at=op.at))
            continue
        out.append(op)
    return tuple(out)


def one_to_each(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """ "(1 sc, 2 sc) in next 2 sc": where there are as many things as places, one for each."""
    out: list[Op] = []
    for op in ops:
        if isinstance(op, Star | Times):
            out.append(replace(op, ops=one_to_each(op.ops)))
            continue
        place = op.places[0] if isinstance(op, Into) and len(op.places) == 1 else None
        parts = op.ops if isinstance(op, Into) else ()
        plain = all(isinstance(part, Make) and not part.places for part in parts)
        if place is not None and place.which == "next" and place.count == len(parts) > 1 and plain:
            out += [replace(part, places=(replace(place, count=1),)) for part in parts if isinstance(part, Make)]
        else:
            out.append(op)
    return tuple(out)
