"""Groups with chains between them: "3 dc in each sp, ch 2 between groups"."""

from __future__ import annotations

from ....made_late import replace
from ...lexicon import GATHERED, height_of
from ...tree import Chain, Held, Into, Make, Noun, Op, Place, Skip, Star, Times

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


def or_between_groups(ops: Ops) -> Ops:
    """The ops with "3 dc in each sp, ch 1 between each" read as groups with the chain between them, and not between the
    stitches of each; as they are where nothing is said so."""
    out: list[Op] = []
    for op in ops:
        groups = _as_groups(op)
        before = out[-1] if out else None
        begun = isinstance(before, Make | Into) and any(p.which == "same" and p.noun.name in ("sp", "lp") for p in before.places)
        if groups is not op and begun and isinstance(groups, Star):
            out.append(groups.ops[-1])  # the chain between the first group and the next
        out.append(groups)
    return tuple(out)


def _as_groups(op: Op) -> Op:
    place = op.places[0] if isinstance(op, Into) and len(op.places) == 1 else None
    if place is None or not isinstance(op, Into) or place.which != "each" or place.noun.name not in ("sp", "lp"):
        return op
    made, chains = op.ops[::2], op.ops[1::2]
    alike = len(made) > 1 and len(set(made)) == 1 and len(set(chains)) == 1 and len(made) == len(chains) + 1
    one = made[0] if alike else None
    if not isinstance(one, Make) or one.count != 1 or not isinstance(chains[0], Chain):
        return op
    apart = groups_apart((replace(one, count=len(made)),), op.places, (chains[0],))
    return apart[0] if apart else op


def between_in(ops: Ops, *, is_round: bool) -> Ops:
    """The ops of a row, in which no chain stands behind the last group, or of a round, in which one does."""
    return tuple(
        replace(op, word="around" if is_round else "across", cut=None if is_round else len(op.ops) - 1, replaces=not is_round)
        if isinstance(op, Star) and op.word == BETWEEN
        else op
        for op in ops
    )


def held_in_each(ops: Ops) -> Ops:
    """The ops with "(sc in blo, ch 1) in each st": the loop that the one stitch of a group goes into is that of its places."""
    return tuple(_held(op) for op in ops)


def _held(op: Op) -> Op:
    if isinstance(op, Star | Times):
        return replace(op, ops=held_in_each(op.ops))
    if not isinstance(op, Into) or op.name or len(op.places) != 1 or op.places[0].hold:
        return op
    place = op.places[0]
    made = [o for o in op.ops if isinstance(o, Make)]
    held: set[Held] = {o.places[0].hold for o in made if len(o.places) == 1 and o.places[0].hold}
    plain = all(o.places == (Place("next", Noun("st"), hold=next(iter(held), "")),) for o in made)
    if len(held) != 1 or not plain or (place.which != "each" and place.count == 1):
        return op
    return replace(op, ops=tuple(replace(o, places=()) if isinstance(o, Make) else o for o in op.ops), places=(replace(place, hold=held.pop()),))


def _beyond_this(place: Place, *, passed: bool) -> Place:
    """ "Between this group and the next": in the next gap between groups, or before the next stitch where the group was
    passed over."""
    of = place.of
    if place.which != "after" or place.noun.name != "gap" or of is None or of.which != "same" or of.noun.name not in _GROUPS:
        return place
    return Place("before", Noun("gap"), of=Place("next")) if passed else Place("next", Noun("gap", of="group"))


_GROUPS = ("group", "shell", "block", "petal", "V-st")


def in_such_gaps(ops: Ops) -> Ops:
    """The ops with "sc between two shells, *ch 5, sc in next gap": a gap behind one between groups is such a one."""
    return _in_gaps(ops, None)[0]


def _in_gaps(ops: Ops, named: Noun | None) -> tuple[Ops, Noun | None]:
    out: list[Op] = []
    for op in ops:
        if isinstance(op, Star | Times):
            inner, named = _in_gaps(op.ops, named)
            op = replace(op, ops=inner)
        elif isinstance(op, Make | Into) and op.places:
            passed = bool(out) and isinstance(out[-1], Skip)
            op = replace(op, places=tuple(_beyond_this(p, passed=passed) for p in op.places))
            if named is not None:
                op = replace(op, places=tuple(replace(p, noun=named) if p.noun.name == "hole" and p.which in ("next", "each") else p for p in op.places))
            op = replace(op, places=tuple(_such_a_last(p, out[-1] if out else None) for p in op.places))
            named = next((p.noun for p in op.places if p.noun.name == "gap" and p.noun.of), named)
        out.append(op)
    return tuple(out), named


def _such_a_last(place: Place, before: Op | None) -> Place:
    """ "3 dc in each gap, 2 dc in the last one": the last of those that the clause before names."""
    if place.which != "last" or not place.bare or not isinstance(before, Make | Into):
        return place
    each = next((p.until[1] if p.until else p.noun for p in before.places if p.which == "each" and p.row is None), None)
    return place if each is None or each.name not in _HOLES else replace(place, noun=each, bare=False)


#: What lies between stitches.
_SPACES = frozenset(("sp", "lp", "corner", "corner sp"))
_HOLES = _SPACES | {"hole", "gap", "mesh"}


def each_beside_each(ops: Ops) -> Ops:
    """The ops with "(2 dc, ch 2, 2 dc) in each ch-2 sp, dc in each dc around" read as one stretch, each sort of place as it
    comes, which is no round of spaces and then one of stitches; as they are where no two clauses are told so."""
    out: list[Op] = []
    for op in ops:
        before = out[-1] if out else None
        op = _on_both(op) if isinstance(op, Make) else op
        both = _side_by_side(before, op, out[:-1]) if isinstance(before, Make | Into) and isinstance(op, Make | Into) else None
        if both is not None:
            out[-1] = both
        else:
            out.append(op)
    return tuple(out)


def _side_by_side(one: Make | Into, other: Make | Into, led: list[Op]) -> Op | None:
    """Two clauses as one stretch, where they go into places that lie by turns; `led` stands before them."""
    if _two_sorts(one, other):
        return _as_they_come(one, other)
    round_ = _corners_and_sides(one, other, led)
    if round_ is None and isinstance(one, Make) and isinstance(other, Make):
        return _one_stretch(one, other)
    return round_


def _corners_and_sides(one: Make | Into, other: Make | Into, led: list[Op]) -> Star | None:
    """ "(2 dc, ch 2, 2 dc) in each of the 6 corners and 2 dc in each gap between groups": side by side, also told the other way
    about; `led` is what stands before, where a round may begin in a corner. None where one clause does not go into all
    corners, or the other not into gaps."""
    if len(one.places) != 1 or len(other.places) != 1:
        return None
    if one.places[0].noun.name in _GAPS:
        one, other = other, one
    corner, gap = one.places[0], other.places[0]
    every = corner.which == "each" or (corner.which == "next" and corner.count >= _CORNERS)
    plain = all(p.of is None and p.row is None and not p.until and not p.upto and not p.also for p in (corner, gap))
    if not every or not plain or corner.noun.name not in ("corner", "corner sp") or gap.noun.name not in _GAPS or gap.which != "each":
        return None
    in_corner = replace(one, places=(replace(corner, which="next", count=1),))
    on_side = replace(other, places=(replace(gap, upto=Noun("corner")),))
    begun = any(isinstance(op, Make | Into) and any(p.which == "same" and p.noun.name != "st" for p in op.places) for op in led)
    return Star((on_side, in_corner), word="around", cut=1) if begun else Star((in_corner, on_side))


#: What lies between the groups of a side.
_GAPS = ("gap", "hole", "sp")
#: A piece has three corners or more.
_CORNERS = 3


def _one_stretch(one: Make, other: Make) -> Make | None:
    """Two clauses of one stitch as one stretch, where one goes into what is gathered; None where they are none."""
    if (one.stitch, one.count) != (other.stitch, other.count) or not len(one.places) == len(other.places) == 1:
        return None
    both = _on_both(replace(one, places=(*one.places, *other.places)))
    return both if len(both.places) == 1 else None


def _on_both(op: Make) -> Make:
    """ "Sc in each sc and in top of each bobble", "sc in each sc, sc in each puff": one stretch, each as it comes."""
    plain = all(p == Place("each", p.noun, hold=p.hold, until=p.until) for p in op.places)
    if len(op.places) != len(("stitch", "gathered")) or not plain or op.places[0].until or op.beside:
        return op
    first, second = op.places
    gathered = second.noun.name in GATHERED or first.noun.name in GATHERED
    if not gathered or first.noun == second.noun or "space" in (_sort(first.noun), _sort(second.noun)):
        return op
    return replace(op, places=(replace(first, until=second.until, also=(second.noun,)),))


def _two_sorts(one: Make | Into, other: Make | Into) -> bool:
    """Whether one clause goes into each space and the other into each stitch, with no word of where the first ends."""
    places = [op.places[0] for op in (one, other) if len(op.places) == 1]
    along = all(p.which == "each" and p.step == 1 and p.of is None and p.row is None and not p.after for p in places)
    if len(places) != len((one, other)) or not along or places[0].until or any(p.upto or p.also for p in places):
        return False
    kinds = [_sort(p.noun) for p in places]
    chained = any(isinstance(op, Make) and (op.stitch == "ch" or op.beside) for op in (one, other))
    return set(kinds) == {"space", "stitch"} and not chained


def _sort(noun: Noun) -> str:
    if noun.name in _SPACES:
        return "space"
    return "stitch" if noun.name == "st" or height_of(noun.name) is not None else ""


def _as_they_come(one: Make | Into, other: Make | Into) -> Op:
    first, second = one.places[0], other.places[0]
    if isinstance(one, Make) and isinstance(other, Make):
        return replace(one, places=(replace(first, until=second.until),), beside=(other,))
    turns = tuple(replace(op, places=(replace(op.places[0], which="next"),)) if _sort(op.places[0].noun) == "space" else op for op in (one, other))
    return Star(turns, until=second.until)
