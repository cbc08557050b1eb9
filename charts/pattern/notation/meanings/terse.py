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
