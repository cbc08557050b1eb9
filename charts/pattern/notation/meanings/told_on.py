"""What is told once and goes on round though no repeat is marked: "ch 1, sk 1 st, dc in next st around"."""

from __future__ import annotations

from ....made_late import replace
from ... import lexicon
from ...tree import Act, Chain, Into, Make, Noun, Op, Place, Skip, Star, Times
from ...when_used import when_used

#: "In next st around": "next" is one stitch, "around" many, so what was told before it comes again.
_NEXT_AND_ON = when_used(
    r"\b(?:next|nxt|following|foll)\b (?:\d+ )?[a-z0-9 -]{0,20}?\b(?:around|across|all (?:the way )?round|along|to (?:the )?end)\b"
)

#: "Ch 1, sk next st around", "..., skip 2 sts across": one step of what goes on.
_SKIP_AND_ON = when_used(
    r"\b(?:sk|skip|miss|skipping|missing) (?:the )?(?:next |following )?(?:\d+ |one |two )?(?:sts?|stitch(?:es)?|sc|h?dc|htr|tr|dtr|chs?)"
    r" (?:around|across|all (?:the way )?round|along|to (?:the )?end)\b"
)


def told_on(ops: tuple[Op, ...], low: str) -> tuple[Op, ...]:
    """The ops with what leads to "in next st around" repeated; as they are where nothing leads to it."""
    skips = bool(_SKIP_AND_ON.search(low))
    if not skips and not _NEXT_AND_ON.search(low):
        return ops
    last = next((n for n, op in enumerate(ops) if _goes_on(op, skips=skips)), 0)
    place = _place_of(ops[last]) if last else None
    if place is None or any(isinstance(op, Star | Times) for op in ops):
        return ops
    first = last
    while first and _leads(ops[first - 1]):
        first -= 1
    first += _begins_row(ops, first, last)
    if first == last:
        return ops
    unit = (*ops[first:last], _next_only(ops[last], place))
    lead, again = _parted(unit)
    star = Star(again, None, word="around", at=again[0].at)
    return (*ops[:first], *lead, star, *ops[last + 1 :])


def chained_each(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """The ops of a row whose repeat nothing opened, "ch 6, sk 2, sc in next; around", with the chain that spans what is passed
    over in the repeat, and the slip stitch that leads into the first loop outside it; as they are for any other."""
    at = next((n for n, op in enumerate(ops) if isinstance(op, Star)), None)
    star = ops[at] if at is not None else None
    if at is None or not isinstance(star, Star) or star.cut is not None or star.ending or not 0 < len(star.ops) <= _SPAN:
        return ops
    begun = next((n for n, op in enumerate(star.ops) if not _is_slip(op)), 0)
    if begun and at == 0 and isinstance(star.ops[begun], Chain) and begun + 1 < len(star.ops):
        return (*star.ops[:begun], replace(star, ops=star.ops[begun:]), *ops[1:])
    chain, made = (ops[at - 1] if at else None), star.ops[-1]
    if not isinstance(chain, Chain) or chain.counts is not None or any(isinstance(op, Chain) for op in star.ops):
        return ops
    led = all(isinstance(op, Act) or _is_slip(op) for op in ops[: at - 1])
    if not led or not isinstance(made, Make) or made.count != 1 or _place_of(made) is None or not all(_leads(op) for op in star.ops):
        return ops
    spans = isinstance(star.ops[0], Skip) if len(star.ops) > 1 else made.places[0].noun.name in ("sp", "lp")
    if not spans or chain.count <= lexicon.TURNING.get(made.stitch, 0) + 1:
        return ops
    return (*ops[: at - 1], replace(star, ops=(chain, *star.ops)), *ops[at + 1 :])


def begun_as_repeated(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """The ops of a round that slips into a space and tells there, without its place, what each space is then given, "sl st in
    sp, ch 3, 5 dc, ch 2, (6 dc, ch 2) in each sp": worked in that space; as they are for any other."""
    start = next((n for n, op in enumerate(ops) if not isinstance(op, Act) and not _is_slip(op)), 0)
    at = next((n for n, op in enumerate(ops) if isinstance(op, Star | Times | Into)), 0)
    slip = _place_of(ops[start - 1]) if start and _is_slip(ops[start - 1]) else None
    told = ops[start + 1 : at]
    noun = None if slip is None else slip.upto or slip.noun
    if noun is None or noun.name not in ("sp", "lp") or not isinstance(ops[start], Chain) or not told:
        return ops
    first = told[0]
    if not isinstance(first, Make) or any(not isinstance(op, Make | Chain) or (isinstance(op, Make) and (op.places or op.beside)) for op in told):
        return ops
    repeat = ops[at]
    again = [part for op in (repeat.ops if isinstance(repeat, Star | Times) else (repeat,)) for part in _in_space(op)]
    group = [(op.stitch, op.count) if isinstance(op, Make) else ("ch", op.count) for op in told if isinstance(op, Make | Chain)]
    group[0] = (first.stitch, first.count + 1)
    if group != again:
        return ops
    there = (Place("same", Noun("sp")),)
    return (*ops[: start + 1], *(replace(op, places=there) if isinstance(op, Make) else op for op in told), *ops[at:])


def _in_space(op: Op) -> list[tuple[str, int]]:
    """What a clause works into one space, stitch by stitch and run of chains by run; nothing of any other clause."""
    if isinstance(op, Chain):
        return [("ch", op.count)]
    place = _place_of(op)
    if place is None or place.noun.name not in ("sp", "lp") or place.which not in ("next", "each"):
        return [("", 0)]
    parts = op.ops if isinstance(op, Into) else (op,)
    return [(part.stitch, part.count) if isinstance(part, Make) else ("ch", part.count) if isinstance(part, Chain) else ("", 0) for part in parts]


def over_loops(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """The ops with chains that are told by their number alone as the loops that they make, where they are."""
    ops = tuple(_each_loop(op) for op in ops)
    star = next((n + 1 for n, op in enumerate(ops) if isinstance(op, Star | Times)), len(ops))
    last = max((n for n, op in enumerate(ops) if not isinstance(op, Act)), default=0)
    ops = (*ops[:star], *_on_own_chain(ops[star:last]), *ops[max(star, last) :])
    return _over_loops(_one_between_chains(ops))


def _one_between_chains(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """ "Ch 5, dc in second to last dc, ch 2, *dc in each dc, ch 2* to the end": one in each, with chains between; the second
    to last dc that was made is the second that the hook meets."""
    star = ops[-1] if ops else None
    before = ops[-2] if len(ops) > 1 else None
    if not isinstance(star, Star) or star.more is not None or len(star.ops) != _UNIT or before != star.ops[1] or not isinstance(before, Chain):
        return ops
    place = _place_of(star.ops[0])
    one = star.ops[0]
    if place is None or not isinstance(one, Make) or one.count != 1 or place.which not in ("each", "next") or place.until or place.upto or place.row:
        return ops
    again = replace(place, which="next", bare=False) if place.which == "each" else place
    out = [*ops[:-1], replace(star, ops=(replace(one, places=(again,)), star.ops[1]))]
    first = next((n for n, op in enumerate(out) if isinstance(op, Make | Into | Skip | Star | Times)), 0)
    begun = out[first]
    there = _place_of(begun)
    if isinstance(begun, Make) and there is not None and (there.which, there.nth) == ("last", _UNIT):
        out[first] = replace(begun, places=(Place("next", there.noun),))
    return tuple(out)


#: A stitch and its chain; and the second to last.
_UNIT = 2
#: A chain, what it passes over, and the stitch that fastens it down, behind a slip stitch.
_SPAN = 4


def _each_loop(op: Op) -> Op:
    """ "11 dc in each 9 ch" goes into each loop of nine, "dc in each 9 ch" into nine chains."""
    if isinstance(op, Star | Times):
        return replace(op, ops=_on_own_chain(tuple(_each_loop(o) for o in op.ops)))
    if not isinstance(op, Make | Into | Skip) or not any(_each_by_number(p) for p in op.places):
        return op
    several = isinstance(op, Into) or (isinstance(op, Make) and op.count > 1)
    places = (_as_loops(p) if several else replace(p, which="next", bare=False) if _each_by_number(p) else p for p in op.places)
    return replace(op, places=tuple(places))


def _on_own_chain(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """ "*..., ch 4, dc in first st of ch, ...": in a repeat that is the first of the four chains just made."""
    out: list[Op] = []
    for op in ops:
        chain = out[-1] if out else None
        place = op.places[0] if isinstance(op, Make) and op.stitch != "sl st" and op.count == 1 and len(op.places) == 1 else None
        own = place is not None and (place.which, place.noun.name, place.count, place.row) == ("first", "ch", 1, None)
        if isinstance(op, Make) and own and isinstance(chain, Chain) and chain.count > 1:
            op = replace(op, places=(Place("hook", Noun("ch"), nth=chain.count),))
        out.append(op)
    return tuple(out)


def _each_by_number(place: Place) -> bool:
    return place.bare and place.which == "each" and place.noun.name == "ch" and place.count > 1


def _as_loops(place: Place) -> Place:
    return Place("each", Noun("sp", place.count), hold=place.hold) if _each_by_number(place) else place


def _over_loops(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """ "5 dc in the 4 ch", "ch 5, sc over 4 ch, ch 5": chains told by their number alone are the loop that they make where
    several stitches go into them, or one between chains; "sc in 4 ch, sc in next 3 sc" goes into each."""
    out: list[Op] = []
    for at, op in enumerate(ops):
        if isinstance(op, Star | Times):
            op = replace(op, ops=_over_loops(op.ops))
        elif isinstance(op, Skip):
            op = replace(op, places=tuple(replace(p, bare=False) if _by_number(p) and p.count > 1 else p for p in op.places))
        elif isinstance(op, Make | Into) and any(_by_number(p) for p in op.places):
            beside = (*ops[max(at - 1, 0) : at], *(ops[at + 1 : at + 2] or ops[:1]))
            several = isinstance(op, Into) or (isinstance(op, Make) and op.count > 1)
            if not several and not any(isinstance(o, Chain) for o in beside):
                op = replace(op, places=tuple(replace(p, bare=False) if _by_number(p) else p for p in op.places))
        out.append(op)
    return tuple(out)


def _by_number(place: Place) -> bool:
    return place.bare and place.which == "next" and place.noun.name == "ch"


def _is_slip(op: Op) -> bool:
    return isinstance(op, Make) and op.stitch == "sl st"


def _place_of(op: Op) -> Place | None:
    return op.places[0] if isinstance(op, Make | Into | Skip) and len(op.places) == 1 else None


def _goes_on(op: Op, *, skips: bool) -> bool:
    """Whether a clause is said of the next place, and to the end."""
    place = _place_of(op)
    if place is None or _is_slip(op) or place.nth or place.of is not None or place.until or place.upto or place.row:
        return False
    if isinstance(op, Skip):
        return skips and place.which in ("each", "next")
    return place.bare and place.which in ("each", "next") and place.noun.name != "ch"


def _next_only(op: Op, place: Place) -> Op:
    assert isinstance(op, Make | Into | Skip)
    return replace(op, places=(replace(place, which="next", bare=False),))


def _leads(op: Op) -> bool:
    """Whether a clause goes into what comes next, so that it can come again."""
    if isinstance(op, Chain):
        return op.counts is None and not op.throughout
    places = op.places if isinstance(op, Make | Into | Skip) else ()
    if isinstance(op, Make) and (op.beside or op.stitch == "sl st"):
        return False
    return bool(places) and all(p.which == "next" and p.row is None and p.of is None and not p.until and not p.upto for p in places)


def _begins_row(ops: tuple[Op, ...], first: int, last: int) -> int:
    """1 where the first of the clauses is the row's beginning chain: nothing is worked before it, and another chain leads
    to what comes again, or it is as high as the stitch, or spans nothing; else 0."""
    chain = ops[first] if first < last else None
    if not isinstance(chain, Chain) or not all(isinstance(op, Act) for op in ops[:first]):
        return 0
    more = any(isinstance(op, Chain) for op in ops[first + 1 : last])
    skips = any(isinstance(op, Skip) for op in ops[first + 1 : last])
    made = next((op for op in reversed(ops[first : last + 1]) if isinstance(op, Make)), ops[last])
    height = lexicon.TURNING.get(made.stitch, 0) if isinstance(made, Make) else 0
    over = skips or (isinstance(made, Make) and any(p.noun.name in ("sp", "lp") for p in made.places))
    return 1 if more or not over or chain.count <= (height if skips else height + 1) > 1 else 0


def _parted(unit: tuple[Op, ...]) -> tuple[tuple[Op, ...], tuple[Op, ...]]:
    """A stretch told twice, the first time without its beginning, as what is worked once and what comes again: "sk 1, dc,
    ch 1, sk 1, dc around"."""
    for size in range(1, len(unit)):
        again = unit[-size:]
        lead = unit[:-size]
        if len(lead) <= size and again[len(again) - len(lead) :] == lead:
            return lead, again
        if len(lead) > size and all(unit[-1 - n] == again[-1 - n % size] for n in range(len(unit))):
            return lead, again
    return (), unit
