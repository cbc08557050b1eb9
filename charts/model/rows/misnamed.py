"""A row that names a stitch where the row below has only others: "2 hdc in each sc" over a round of hdc."""

from __future__ import annotations

from dataclasses import replace

from ...pattern.lexicon import height_of
from ...pattern.tree import Into, Make, Noun, Op, Place, Skip, Star, Times, walk
from ..cloth.fabric import Row, counts

#: The ways of naming a place in which the kind of stitch only says that the next stitches are meant.
_PLAIN = ("next", "each", "first", "last", "same")


def meant(ops: tuple[Op, ...], below: Row, *, chains_only: bool = False) -> tuple[tuple[Op, ...], str, str] | None:
    """The ops with the stitch that is not there taken for those that are, its name, and theirs; None where all stitches
    named are there, several are not, or the row below has several kinds. A chain over a row without one is such a
    stitch; `chains_only`: only that."""
    kinds = {s.kind for s in below.stitches if counts(s)}
    named = {
        p.noun.name
        for op in walk(ops)
        if isinstance(op, Make | Into | Skip)
        for p in op.places
        if p.row is None and _is_plain(p, chains_only=chains_only)
    }
    wrong = named - kinds
    there = next(iter(kinds), "")
    if "ch" in named and any(s.role == "chain" for s in below.stitches):
        return None
    if not wrong and not chains_only:
        return _among_others(ops, named, kinds)
    if len(kinds) != 1 or len(wrong) != 1 or named != wrong or height_of(there) != there:
        return None
    name = wrong.pop()
    return tuple(_renamed(op, name) for op in ops), name, there


def _among_others(ops: tuple[Op, ...], named: set[str], kinds: set[str]) -> tuple[tuple[Op, ...], str, str] | None:
    """ "Sc in each sc" over a row of sc and tr, all of which it means."""
    places = [p for op in walk(ops) if isinstance(op, Make | Into) for p in op.places]
    each = {p.noun.name for p in places if p.which == "each" and p.row is None}
    plain = all(height_of(kind) == kind for kind in kinds)
    if len(kinds) < 2 or len(each) != 1 or named != each or not plain:
        return None
    name = each.pop()
    return tuple(_renamed(op, name) for op in ops), name, " and ".join(sorted(kinds))


def _is_plain(place: Place, *, chains_only: bool) -> bool:
    """Whether a place is named by the kind of its stitches, and only by that."""
    if place.noun.name == "ch":
        return place.which in _PLAIN or place.which == "hook"
    return not chains_only and height_of(place.noun.name) == place.noun.name and place.which in _PLAIN


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
    if place.which == "hook":
        return replace(place, which="next", noun=Noun("st"), nth=0)
    return replace(place, noun=noun, until=until)
