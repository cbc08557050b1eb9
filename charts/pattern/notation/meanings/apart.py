"""Groups with chains between them: "3 dc in each sp, ch 2 between groups"."""

from __future__ import annotations

from dataclasses import replace

from ...tree import Into, Make, Op, Place, Star, Times

Ops = tuple[Op, ...]

#: What a repeat with the chains between its groups is marked by until it is known whether a round is worked.
BETWEEN = "between"


def groups_apart(group: Ops, places: tuple[Place, ...], chain: Ops) -> Ops | None:
    """The groups of some places, with the chain behind each of them; None where the places are no several ones."""
    if len(places) != 1 or not chain or not group:
        return None
    place, of = replace(places[0], which="next", count=1), places[0].of
    if places[0].which == "nth" and of is not None and of.which == "each":
        place, places = replace(places[0], of=replace(of, which="next")), (of,)
    only = group[0] if len(group) == 1 else None
    one: Op = replace(only, places=(place,)) if isinstance(only, Make) else Into(group, (place,))
    if places[0].which == "each" and places[0].count == 1 and not places[0].until:
        return (Star((one, *chain), word=BETWEEN),)
    if places[0].which == "next" and places[0].count > 1:
        return (Times((one, *chain), places[0].count - 1), one)
    return None


def between_in(ops: Ops, *, is_round: bool) -> Ops:
    """The ops of a row, in which no chain stands behind the last group, or of a round, in which one does."""
    return tuple(
        replace(op, word="around" if is_round else "across", cut=None if is_round else len(op.ops) - 1, replaces=not is_round)
        if isinstance(op, Star) and op.word == BETWEEN
        else op
        for op in ops
    )
