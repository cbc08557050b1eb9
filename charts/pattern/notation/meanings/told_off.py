"""Stitches told off one by one from where a row or a repeat begins: "*sc in first st, sc in second st, 2 sc in third
st; rep from *". The second is then the one behind the first, not the second from there."""

from __future__ import annotations

from ....made_late import replace
from ...lexicon import height_of
from ...tree import Act, Chain, Corner, Into, Make, Noun, Op, Place, Skip, Star, Times


def stepped(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """ "2 dc in every fourth stitch; 6 times": the number says how often that happens, so each time it is the fourth stitch
    from where the hook stands."""
    return tuple(replace(op, ops=_by_steps(op.ops[0])) if isinstance(op, Star | Times) and len(op.ops) == 1 and _often(op) else op for op in ops)


def _often(op: Star | Times) -> bool:
    return isinstance(op, Times) or (op.more is not None and op.more > 0)


def _by_steps(op: Op) -> tuple[Op, ...]:
    if not isinstance(op, Make | Into) or len(op.places) != 1:
        return (op,)
    place = op.places[0]
    if place.which != "each" or place.step < 2 or place.until or place.upto:
        return (op,)
    nxt = replace(place, which="next", step=1, bare=False)
    return (Skip((replace(nxt, count=place.step - 1),), at=op.at), replace(op, places=(nxt,)))


def in_the_others(ops: tuple[Op, ...]) -> tuple[tuple[Op, ...], bool]:
    """ "2 sc in every third st" where a row tells nothing else of what it works: increases, with one in each of the others;
    and whether that is sure, as it is where more than one would be left out, or the stitch is too low for fans."""
    work = [n for n, op in enumerate(ops) if not isinstance(op, Act) and not (isinstance(op, Make) and op.stitch == "sl st")]
    chained = [n for n in work if isinstance(ops[n], Chain)]
    made = [n for n in work if n not in chained]
    op = ops[made[0]] if len(made) == 1 and all(n < made[0] for n in chained) else None
    if not isinstance(op, Make) or op.count != TWO or len(op.places) != 1 or op.beside or height_of(op.stitch) != op.stitch:
        return ops, False
    place = op.places[0]
    plain = place.row is None and not place.hold and not place.also and place.of is None and not (place.noun.size or place.noun.of)
    if place.which != "each" or place.step < TWO or not plain or (place.noun.name != "st" and height_of(place.noun.name) is None):
        return ops, False
    along = Make(op.stitch, 1, (replace(place, step=1, after=0),), at=op.at)
    out = (*ops[: made[0]], along, Corner(op, at=op.at), *ops[made[0] + 1 :])
    return out, place.step > TWO or op.stitch in ("sc", "hdc")


def with_the_others(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """ "2 sc in first and last st, sc in all other sts", "3 sc in every 3rd st, 1 sc in each of the others": what goes into
    some stitches is told before, or behind, what goes into all that are left: one clause, as neither can go on from where
    the other ended."""
    ops = _joined_ends(_rest_behind(ops))
    at = next((n for n in range(len(ops) - 1) if _some_and_all(ops[n], ops[n + 1])), None)
    some, all_ = (ops[at], ops[at + 1]) if at is not None else (None, None)
    if at is not None and isinstance(some, Make) and isinstance(all_, Make) and some.stitch == f"{all_.stitch}2tog":
        two = replace(some, places=())
        rest = replace(all_, places=(replace(all_.places[0], which="each", step=1, bare=False, until=(TWO, Noun("st"))),))
        return (*ops[:at], two, rest, two, *ops[at + TWO :])
    if at is None:
        at = next((n for n in range(len(ops) - 1) if _every_nth(ops[n + 1]) and _in_all(ops[n])), None)
        if at is None:
            return ops
        all_, some = ops[at], ops[at + 1]
    assert isinstance(some, Make) and isinstance(all_, Make)
    place = all_.places[0]
    along = replace(all_, places=(replace(place, which="each", step=1, after=0, bare=False),))
    return (*ops[:at], along, Corner(some, at=some.at), *ops[at + TWO :])


def _rest_behind(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """ "Inc in every 6th st, 1 sc in each other st": the others, as the increases have come to the end."""
    at = next((n for n in range(len(ops) - 1) if isinstance(ops[n], Star) and _in_all(ops[n + 1])), None)
    if at is None:
        return ops
    star, rest = ops[at : at + TWO]
    if not isinstance(star, Star) or not isinstance(rest, Make) or star.more is not None or star.until or star.ending:
        return ops
    return (*ops[: at + 1], replace(rest, places=(replace(rest.places[0], step=1, after=0),)), *ops[at + TWO :])


def _joined_ends(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """ "2 sc in the first and 2 sc in the last st": one clause for both ends."""
    out: list[Op] = []
    for op in ops:
        before = out[-1] if out else None
        if isinstance(before, Make) and isinstance(op, Make) and before.places and replace(before, places=op.places) == op:
            both = replace(before, places=(*before.places, *op.places))
            if _at_both_ends(both):
                out[-1] = both
                continue
        out.append(op)
    at = next((n for n in range(1, len(out)) if _in_all(out[n])), None)
    return tuple(out) if at is not None and _at_both_ends(out[at - 1]) else ops


def _some_and_all(op: Op, other: Op) -> bool:
    return _in_all(other) and (_every_nth(op) or _at_both_ends(op))


def _at_both_ends(op: Op) -> bool:
    """Whether a clause goes into the first stitch and the last."""
    if not isinstance(op, Make) or op.beside or op.stitch == "sl st":
        return False
    places = [(p.which, p.count, p.nth, p.row) for p in op.places]
    return places == [("first", 1, 0, None), ("last", 1, 0, None)] or [place[0] for place in places] == ["ends"]


def _every_nth(op: Op) -> bool:
    """Whether a clause goes into every third stitch, or every second."""
    if not isinstance(op, Make) or op.beside or len(op.places) != 1:
        return False
    place = op.places[0]
    plain = not place.until and not place.upto and place.row is None and not place.also
    return place.which == "each" and place.step >= TWO and plain and place.noun.name not in ("sp", "lp", "ch")


def _in_all(op: Op) -> bool:
    """Whether a clause is one stitch in each that is left."""
    if not isinstance(op, Make) or op.beside or op.count != 1 or len(op.places) != 1 or height_of(op.stitch) != op.stitch:
        return False
    place = op.places[0]
    plain = not place.until and not place.upto and place.row is None and not place.also and place.of is None
    return place.which == "each" and place.step <= TWO and plain and (place.noun.name == "st" or height_of(place.noun.name) is not None)


#: So many of a stitch in one place are an increase.
TWO = 2


def told_off(ops: tuple[Op, ...], *, first: bool = True) -> tuple[Op, ...]:
    """The ops with numbers of stitches that go up by one from the beginning made "next". `first`: only where the first
    of them is called so; else also behind "next"."""
    out: list[Op] = []
    passed: int | None = 0 if not first else None
    for op in ops:
        if isinstance(op, Star | Times):
            out.append(replace(op, ops=told_off(op.ops, first=first)))
            passed = None
            continue
        if isinstance(op, Make | Into | Skip) and len(op.places) == 1:
            place = op.places[0]
            if place.which == "first" and place.row is None and not place.nth and passed in (0, None) and not _worked(out):
                passed = place.count
            elif place.which == "hook" and not _worked(out):
                passed = place.nth
            elif passed is not None and _behind(place, passed):
                out.append(replace(op, places=(replace(place, nth=0),)))
                passed += place.count
                continue
            else:
                passed = _further(place, passed)
        elif isinstance(op, Make) and not op.places:
            passed = passed + op.count if passed is not None and height_of(op.stitch) == op.stitch else None
        elif not isinstance(op, Act | Chain):
            passed = None
        out.append(op)
    return tuple(out)


def _worked(ops: list[Op]) -> bool:
    return any(isinstance(op, Make | Into | Skip | Star | Times) for op in ops)


def _behind(place: Place, passed: int) -> bool:
    """Whether a place is the stitch whose number comes next."""
    return _plain(place) and place.nth == passed + 1 > 1


def _plain(place: Place) -> bool:
    noun = place.noun.name in ("st", "ch") or height_of(place.noun.name) is not None
    return place.which == "next" and noun and place.row is None


def _further(place: Place, passed: int | None) -> int | None:
    """How many stitches have been worked into or passed behind one more place; None where that is not known."""
    if passed is None or place.row is not None or place.nth:
        return None
    if place.which == "same":
        return passed
    return passed + place.count if place.which == "next" and _plain(place) else None


def spaces_along(ops: tuple[Op, ...]) -> tuple[Op, ...] | None:
    """ "Sc in each sc and 2 sc in ch-2 sp": what goes into the spaces on the way, where it is told behind the stitches; None
    for any other words."""
    work = [n for n, op in enumerate(ops) if not isinstance(op, Act | Chain)]
    if len(work) != TWO or work[1] != work[0] + 1:
        return None
    along, filled = ops[work[0]], ops[work[1]]
    if not isinstance(along, Make) or not isinstance(filled, Make) or len(along.places) != 1 or len(filled.places) != 1:
        return None
    each, space = along.places[0], filled.places[0]
    plain = each.which == "each" and each.step == 1 and not each.until and not each.upto and each.row is None
    in_space = space.which == "next" and space.count == 1 and not space.nth and space.noun.name in ("sp", "lp") and space.row is None
    if not plain or not in_space or filled.stitch != along.stitch or height_of(each.noun.name) is None:
        return None
    corner = Corner(replace(filled, places=(replace(space, which="each", bare=False),)), at=filled.at)
    return (*ops[: work[1]], corner, *ops[work[1] + 1 :])


#: More stitches than so many are no increase in one place.
_MOST_IN_ONE = 4


def filled_last(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """ "Sc to last st, 2 sc": where one stitch is left, both go into it."""
    at = next((n for n in range(len(ops) - 1, 0, -1) if isinstance(ops[n], Make | Into | Star | Times | Skip)), 0)
    if not at:
        return ops
    last, before = ops[at], ops[at - 1]
    if not isinstance(last, Make) or last.places or not 1 < last.count <= _MOST_IN_ONE or height_of(last.stitch) != last.stitch:
        return ops
    until = before.places[0].until if isinstance(before, Make) and len(before.places) == 1 else before.until if isinstance(before, Star) else None
    if not until or until[0] != 1:
        return ops
    return (*ops[:at], replace(last, places=(Place("last", until[1]),)), *ops[at + 1 :])
