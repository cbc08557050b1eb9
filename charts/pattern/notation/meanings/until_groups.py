"""Repeats worked until a row has so many groups: "rep from * until there are 9 groups of 3 dc"."""

from __future__ import annotations

from collections.abc import Mapping

from ....made_late import replace
from ...lexicon import TURNING, height_of
from ...tree import Act, Chain, Into, Make, Noun, Op, Place, Special, Star, Times, walk

Ops = tuple[Op, ...]


def until_groups(star: Star, count: int, noun: Noun, before: Ops, specials: Mapping[str, Special]) -> tuple[Ops, ...]:
    """The repeat as often as makes `count` groups in the row: ending with the last of them, or, the other reading, with
    all that the repeat holds. Nothing where it does not make them, or more at once than are wanted."""
    each = _each(star.ops, noun, specials)
    wanted = count - _groups(before, noun, specials)
    begun = _begun(before, star.ops, noun)
    made = _repeated(star, wanted - begun, each)
    apart = begun and height_of(noun.name) is not None  # "until 7 dc are made": the chain may stand beside them
    return (*made, *_repeated(star, wanted, each)) if apart else made


def _repeated(star: Star, wanted: int, each: list[int]) -> tuple[Ops, ...]:
    """The repeat as often as makes so many, `each` of its ops making as many as there stand."""
    if not sum(each) or wanted < sum(each):
        return ()
    times, over = divmod(wanted, sum(each))
    whole = replace(star, more=times - 1, said_more=True)
    if over:
        cut = _up_to(each, over)
        return ((whole, *star.ops[:cut]),) if cut else ()
    cut = _up_to(each, sum(each))
    if cut == len(star.ops) or times < 2:
        return ((whole,),)
    return ((replace(whole, more=times - 2), *star.ops[:cut]), (whole,))


def _begun(before: Ops, again: Ops, noun: Noun) -> int:
    """1 where a row begins with a chain that stands for a stitch of the kind that is counted, or for the first one of a
    group: "ch 3, 2 dc in ring, *ch 1, 3 dc in ring; rep from * until there are 8 groups"."""
    work = [op for op in before if not isinstance(op, Act)]
    chain = work[0] if work else None
    if not isinstance(chain, Chain) or chain.counts == ():
        return 0
    if height_of(noun.name) is not None:
        return int(TURNING.get(noun.name, MOST_CHAINS) <= chain.count)
    first = work[1] if len(work) > 1 else None
    if noun.name not in _SHAPES or not isinstance(first, Make) or not all(_one(p) for p in first.places):
        return 0
    whole = (op for op in again if isinstance(op, Make) and op.stitch == first.stitch and op.places)
    size = first.count + 1
    return int(noun.size in (0, size) and TURNING.get(first.stitch) == chain.count and any(op.count == size for op in whole))


def _up_to(each: list[int], wanted: int) -> int:
    """Behind how many ops so many groups are made; 0 where there is no such place."""
    made = 0
    for at, one in enumerate(each):
        made += one
        if made >= wanted:
            return at + 1 if made == wanted else 0
    return 0


def _groups(ops: Ops, noun: Noun, specials: Mapping[str, Special]) -> int:
    """How many of these groups are made: by their name, by their size, or whatever stands together in one place."""
    return sum(_each(ops, noun, specials))


def _each(ops: Ops, noun: Noun, specials: Mapping[str, Special]) -> list[int]:
    """How many groups each op makes; one whose stitches are told apart ("dc in next sp, dc in next 3 dc") is made by the last
    of these."""
    found = [_of_op(op, noun, specials) for op in ops]
    if noun.name in ("lp", "sp") or (noun.name == "petal" and not any(found)):
        return _loops(found, ops, noun)
    start = 0
    for at in range(len(ops) + 1):
        if at < len(ops) and isinstance(ops[at], Make | Act):
            continue
        run = [_stitches(op, noun) for op in ops[start:at] if not isinstance(op, Act)]
        if noun.size and len(run) > 1 and not any(found[start:at]) and all(run) and sum(run) == noun.size:
            found[at - 1] = 1
        start = at + 1
    return found


def _loops(found: list[int], ops: Ops, noun: Noun) -> list[int]:
    """How many loops each op completes: a chain's, where it is fastened by the next stitch or at the repeat's end."""
    for at, op in enumerate(ops):
        if isinstance(op, Make) and op.stitch == "picot" and op.places and op.places[0].which == "made":
            found[at] += 1  # a chain that a slip stitch closes where it began
        elif _is_loop(op, noun):
            found[next((n for n in range(at + 1, len(ops)) if isinstance(ops[n], Make | Into)), len(ops) - 1)] += 1
    return found


def _is_loop(op: Op, noun: Noun) -> bool:
    """Whether an op is the chain of a loop, of as many chains as the noun says where it does."""
    return isinstance(op, Chain) and op.counts is None and (op.count == noun.size if noun.size else op.count >= LEAST_OF_LOOP)


#: No beginning chain that stands for a stitch has so many.
MOST_CHAINS = 30
#: A chain of fewer is no loop (common practice, no source).
LEAST_OF_LOOP = 2


def _stitches(op: Op, noun: Noun) -> int:
    """How many stitches of a group's kind an op makes; 0 where that is not known or it makes others."""
    if not isinstance(op, Make) or (noun.of and op.stitch != noun.of) or not all(_one(p) for p in op.places):
        return 0
    return op.count * max(sum(p.count for p in op.places), 1)


def _of_op(op: Op, noun: Noun, specials: Mapping[str, Special]) -> int:
    """How many of these groups one op makes."""
    if isinstance(op, Star | Times):
        times = op.times if isinstance(op, Times) else (op.more or 0) + 1
        named = isinstance(op, Times) and bool(op.name) and _called(op.name, noun, specials)
        return times * (1 if named else _groups(op.ops, noun, specials))
    if isinstance(op, Into):
        places = max(sum(p.count for p in op.places), 1)
        shaped = (noun.size or noun.name in _SHAPES) and _is_group(_size(op.ops, noun), noun)
        whole = _called(op.name, noun, specials) or shaped
        return places * (1 if whole else _groups(op.ops, noun, specials))
    return _of_make(op, noun, specials) if isinstance(op, Make) else 0


def _of_make(op: Make, noun: Noun, specials: Mapping[str, Special]) -> int:
    places = max(sum(p.count for p in op.places), 1)
    if _called(op.stitch, noun, specials):
        return op.count * places
    if (noun.of and op.stitch != noun.of) or (not noun.size and noun.name not in _SHAPES):
        return 0
    if op.places and _is_group(op.count, noun) and all(_one(p) for p in op.places):
        return places
    return 1 if noun.size and op.count == 1 and places == noun.size else 0


#: Groups that are known by their shape: several stitches in one place.
_SHAPES = frozenset(("group", "shell", "block", "petal", "V-st"))


def _one(place: Place) -> bool:
    return place.which != "each"


def _is_group(size: int, noun: Noun) -> bool:
    return size == noun.size if noun.size else size > 1


def _size(ops: Ops, noun: Noun) -> int:
    """The stitches of a group, of the kind that is named where one is."""
    return sum(op.count for op in walk(ops) if isinstance(op, Make) and noun.of in ("", op.stitch))


def _called(name: str, noun: Noun, specials: Mapping[str, Special]) -> bool:
    special = specials.get(name)
    names = {name, *((special.abbreviation, special.name, special.kind) if special else ())} - {""}
    return noun.name in names or {"cluster": "cl"}.get(noun.name, noun.name) in names
