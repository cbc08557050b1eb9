"""What terse patterns leave out: the stitch of bare numbers, the sign between two clauses."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..tree import Chain, Into, Make, Noun, Op, Skip, Star, Times
from .words import Word

#: The signs that part the clauses of a row of bare numbers.
_PARTS = frozenset((",", ";", "."))
_SHAPING = frozenset(("inc", "dec", "increase", "decrease", "invdec"))


def bare_numbers(words: Sequence[Word]) -> list[Word]:
    """The numbers of "3, inc, 5, inc, 2", which count plain stitches: of a row whose every clause is a number or an
    increase or a decrease."""
    clauses: list[list[Word]] = [[]]
    for word in words:
        if word.text in _PARTS:
            clauses.append([])
        elif word.inside is None:
            clauses[-1].append(word)
    numbers = [c[0] for c in clauses if len(c) == 1 and c[0].text.isdigit()]
    shaped = [c for c in clauses if c and c[0].text in _SHAPING and (len(c) == 1 or (len(c) == 2 and c[1].text.isdigit()))]
    plain = [c for c in clauses if len(c) == 2 and c[0].text.isdigit() and "STN" in c[1].kinds]
    whole = len(numbers) + len(shaped) + len(plain) == sum(1 for c in clauses if c)
    return numbers if numbers and shaped and whole else []


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
