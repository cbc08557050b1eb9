"""A row that names a stitch where the row below has only others: "2 hdc in each sc" over a round of hdc."""

from __future__ import annotations

from dataclasses import replace

from ...pattern.lexicon import height_of
from ...pattern.tree import Into, Make, Noun, Op, Place, Skip, Star, Times, walk
from ..cloth.fabric import Row, counts

#: The ways of naming a place in which the kind of stitch only says that the next stitches are meant.
_PLAIN = ("next", "each", "first", "last", "same")


def meant(ops: tuple[Op, ...], below: Row) -> tuple[tuple[Op, ...], str, str] | None:
    """The ops with the stitch that is not there taken for those that are, its name, and theirs; None where all stitches
    named are there, several are not, or the row below has several kinds."""
    kinds = {s.kind for s in below.stitches if counts(s)}
    named = {
        p.noun.name
        for op in walk(ops)
        if isinstance(op, Make | Into | Skip)
        for p in op.places
        if height_of(p.noun.name) == p.noun.name and p.which in _PLAIN and p.row is None
    }
    wrong = named - kinds
    there = next(iter(kinds), "")
    if len(kinds) != 1 or len(wrong) != 1 or named != wrong or height_of(there) != there:
        return None
    name = wrong.pop()
    return tuple(_renamed(op, name) for op in ops), name, there


def _renamed(op: Op, name: str) -> Op:
    if isinstance(op, Star | Times):
        return replace(op, ops=tuple(_renamed(o, name) for o in op.ops))
    if isinstance(op, Make | Into | Skip):
        return replace(op, places=tuple(_any(p, name) for p in op.places))
    return op


def _any(place: Place, name: str) -> Place:
    until = place.until
    if until is not None and until[1].name == name:
        until = (until[0], Noun("st"))
    noun = Noun("st") if place.noun.name == name else place.noun
    return replace(place, noun=noun, until=until)
