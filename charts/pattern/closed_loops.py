"""A last loop that other chains and a stitch close, in the stead of the chain that all others end with."""

from __future__ import annotations

from ..made_late import replace
from .tree import Chain, Into, Op, Star, Times


def closed_by(before: Op, said: tuple[Op, ...]) -> tuple[Op, ...] | None:
    """The ops of a repeat that ends with a chain, and of what is said to end it: "(sc, ch 6) twice in each loop around,
    ending with ch 3, dc in first sc" makes no last ch 6. None where what comes again ends otherwise."""
    if not said or not isinstance(said[0], Chain):
        return None
    if isinstance(before, Star):
        return _last_of_star(before, said)
    if isinstance(before, Times) and not before.name:
        bare = without_chain(before.ops)
        if bare is None or before.times == 1:
            return None
        if before.times == 0:
            return _last_of_star(Star(before.ops, word="around", at=before.at), said)
        again = replace(before, times=before.times - 1) if before.times > 2 else None
        return (*((again,) if again else before.ops), *bare, *said)
    return _last_of_each(before, said) if isinstance(before, Into) else None


def _last_of_star(star: Star, said: tuple[Op, ...]) -> tuple[Op, ...] | None:
    free = not star.ending and star.cut is None and star.until is None and star.upto is None
    bare = without_chain(star.ops[-1:]) if free and star.ops else None
    if bare is None:
        return None
    return (replace(star, cut=len(star.ops) - 1, ending=(*bare, *said), replaces=True),)


def _last_of_each(group: Into, said: tuple[Op, ...]) -> tuple[Op, ...] | None:
    each = group.places[-1] if group.places else None
    bare = without_chain(group.ops)
    if each is None or bare is None or each.which != "each" or group.name:
        return None
    if each.until is not None or each.upto is not None or each.step > 1 or each.after or each.also or each.of:
        return None
    there = (replace(each, which="next"),)
    led = (replace(group, places=group.places[:-1]),) if len(group.places) > 1 else ()
    last = Into(bare, there, at=group.at)
    all_ = replace(group, places=there)
    return (*led, Star((all_,), cut=0, ending=(last, *said), replaces=True, word="around", at=group.at))


def without_chain(ops: tuple[Op, ...]) -> tuple[Op, ...] | None:
    """Clauses without the chain that they end with, also inside a bracket; None where they end with none."""
    last = ops[-1] if ops else None
    if isinstance(last, Chain):
        return ops[:-1]
    if isinstance(last, Times) and last.times and not last.name:
        bare = without_chain(last.ops)
        whole = (replace(last, times=last.times - 1),) if last.times > 2 else last.ops * (last.times - 1)
        return (*ops[:-1], *whole, *bare) if bare is not None else None
    if isinstance(last, Into) and not last.name and all(place.which in ("next", "same") for place in last.places):
        bare = without_chain(last.ops)
        return (*ops[:-1], replace(last, ops=bare)) if bare else None
    return None
