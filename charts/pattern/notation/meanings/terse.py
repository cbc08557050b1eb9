"""What terse patterns leave out, or say behind: the sign between two clauses, the side that stitches are on."""

from __future__ import annotations

from ....made_late import replace
from ...lexicon import TURNING
from ...tree import Act, Again, Chain, Corner, Into, Make, Noun, Op, Place, Skip, Star, Times, walk
from ...when_used import when_used

ANY = Noun("st")
_SLIP = Make("sl st", 1)


def told_once(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """ "Work even, sc in each st", "sc in each st, no increases": the one says what the other means."""
    out: list[Op] = []
    for op in ops:
        before = out[-1] if out else None
        if isinstance(op, Make) and isinstance(before, Make) and _says_the_same(before, op):
            out[-1] = op if before.places[0].bare else before
        else:
            out.append(op)
    return tuple(out)


def _says_the_same(one: Make, other: Make) -> bool:
    """Whether two clauses work one stitch all along, of which one names no stitches to work into."""
    along = all(op.count == 1 and [p.which for p in op.places] == ["each"] for op in (one, other))
    return along and one.stitch == other.stitch and (one.places[0].bare or other.places[0].bare)


def shaped_along(ops: tuple[Op, ...], stitch: str) -> tuple[Op, ...]:
    """ "Ch 1, increase 8 sts evenly, join", "dec 1 st at each end": a row that tells nothing but how many stitches more or
    fewer it has, worked in `stitch` into each of the row below (common practice, no source)."""
    at = next((n for n, op in enumerate(ops) if _only_shapes(op)), None)
    if at is None or any(isinstance(op, Make | Into | Skip | Star | Times | Again) and op != _SLIP for op in ops):
        return ops
    return (*ops[:at], Make(stitch, 1, (Place("each", bare=True),)), *ops[at:])


def last_shaped(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """ "Sc in each sc to last 2 sts, dec 1 st at end of row": what is done at the end is done in those that were left for
    it, two together; "... to last st, inc at end" two in the last."""
    out = list(ops)
    for at, op in enumerate(ops):
        end = op.make if isinstance(op, Corner) else None
        before = next((o for o in reversed(ops[:at]) if not isinstance(o, Act)), None)
        if not isinstance(end, Make) or not isinstance(before, Make) or not before.places or len(end.places) != 1:
            continue
        left = before.places[-1].until
        if end.places[0].which != "last" or left is None or end.stitch not in ("inc", "dec"):
            continue
        if end.stitch == "dec" and left[0] == end.count:
            out[at] = Make(f"{before.stitch}{end.count}tog", at=op.at)
        elif end.stitch == "inc" and left[0] == 1:
            out[at] = Make(before.stitch, end.count, (Place("last"),), at=op.at)
    return tuple(out)


def _only_shapes(op: Op) -> bool:
    if isinstance(op, Corner):
        return isinstance(op.make, Make) and op.make.stitch in ("inc", "dec")
    return isinstance(op, Act) and op.name in ("spread", "spread to")


def alone_all_along(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """ "Dec (6)", "inc (12)": the one increase or decrease that a counted row tells, all along it."""
    made = [(at, op) for at, op in enumerate(ops) if not isinstance(op, Act | Chain)]
    at, op = made[0] if len(made) == 1 else (0, None)
    if not isinstance(op, Make) or len(op.places) > 1 or not (op.stitch.endswith("2tog") or op.count == 2):
        return ops
    there = op.places[0] if op.places else Place("next")
    if there.which != "next" or there.count > 2 or there.row is not None:
        return ops
    return (*ops[:at], Star((op,), word="around", said_more=True), *ops[at + 1 :])


def as_petal(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """ "Sc in next loop, ch 1, 3 tr, ch 1, sc", "1 sc, 3 dc, 1 sc in next loop": what rises from a space and falls as it
    rose is all worked there, though only the first or the last says where (common practice, no source)."""
    first, rest = (ops[0], ops[1:]) if ops else (None, ())
    if isinstance(first, Make | Chain) and not (isinstance(first, Make) and first.places):
        return _petal_told_last(ops)
    if not isinstance(first, Make) or len(first.places) != 1 or first.places[0].noun.name not in ("sp", "lp"):
        return ops
    bare = all(_bare_plain(op) for op in rest)
    shape = [(op.stitch, op.count) if isinstance(op, Make) else ("ch", op.count) for op in ops if isinstance(op, Make | Chain)]
    rises = any(isinstance(op, Make) and TURNING.get(op.stitch, 0) > TURNING.get(first.stitch, 0) for op in rest)
    if not bare or not rises or shape != shape[::-1]:
        return ops
    return (Into((replace(first, places=()), *rest), first.places, at=first.at),)


def _petal_told_last(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """A petal of which the last stitch says where it is worked, behind chains that lead up to it, as one group."""
    start = next((n for n, op in enumerate(ops) if not isinstance(op, Chain)), len(ops))
    end = next((n for n, op in enumerate(ops) if n >= start and not _bare_plain(op)), len(ops))
    last = ops[end] if end < len(ops) else None
    if end == start or not isinstance(last, Make) or len(last.places) != 1 or last.places[0].noun.name not in ("sp", "lp"):
        return ops
    place = last.places[0]
    made = (*ops[start:end], replace(last, places=()))
    shape = [(op.stitch, op.count) if isinstance(op, Make) else ("ch", op.count) for op in made if isinstance(op, Make | Chain)]
    rises = any(isinstance(op, Make) and TURNING.get(op.stitch, 0) > TURNING.get(last.stitch, 0) for op in made)
    if place.which not in ("next", "same") or (place.count, place.nth) != (1, 0) or not rises or shape != shape[::-1]:
        return ops
    return (*ops[:start], Into(made, last.places, at=last.at), *ops[end + 1 :])


def _bare_plain(op: Op) -> bool:
    return isinstance(op, Chain) or (isinstance(op, Make) and not op.places and op.stitch in TURNING)


def begun_further_on(ops: tuple[Op, ...]) -> tuple[tuple[Op, ...], ...]:
    """The ways in which a repeat that nothing opened may begin further on in its row, the nearest first."""
    at = next((n for n, op in enumerate(ops) if isinstance(op, Star)), None)
    star = ops[at] if at is not None else None
    if at is None or not isinstance(star, Star) or star.cut is not None:
        return ()
    return tuple((*ops[:at], *star.ops[:n], replace(star, ops=star.ops[n:]), *ops[at + 1 :]) for n in range(1, len(star.ops)))


def told_round(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """ "1 sc, inc around", "sc in next 2 sts, dec in next 2 sts to end": what grows or shrinks is told once and comes again to
    the end, though no repeat is marked. Where "each" or "first" is said the words hold as they stand."""
    first = next((n for n, op in enumerate(ops) if isinstance(op, Make) and op != _SLIP), len(ops))
    last = next((n for n in range(len(ops) - 1, first, -1) if isinstance(op := ops[n], Make) and op.stitch != "sl st"), 0)
    run = ops[first : last + 1]
    if len(run) < 2 or any(not _told_apart(op) for op in run[:-1]) or not _ends_bare(run[-1]):
        return ops
    told = next((op for op in run[:-1] if _shapes(op)), None)
    last_one = run[-1]
    assert isinstance(last_one, Make)
    if not _shapes(last_one) and (told is None or last_one.places[0].count == 1):
        return ops
    place = replace(last_one.places[0], which="next", bare=False)
    if told is not None and last_one.count > 1 and place.count == 1 and "tog" not in last_one.stitch and place.noun == ANY:
        last_one = replace(last_one, count=1, places=(replace(place, count=last_one.count),))
    elif "tog" in last_one.stitch and place.noun == ANY and place.count == 1:
        last_one = replace(last_one, places=())
    else:
        last_one = replace(last_one, places=(place,))
    rest = ops[last + 1 :]
    if any(isinstance(op, Make | Chain | Skip | Star | Times | Into) and op != _SLIP for op in rest):
        return ops
    return (*ops[:first], Times((*run[:-1], last_one), 0, at=run[0].at), *rest)


def from_its_first(ops: tuple[Op, ...]) -> tuple[Op, ...] | None:
    """The ops of a row with the place that it begins in taken for the next one, where what is told from there comes again:
    "ch 1, sc in same st, 2 sc in next st around"; None where nothing is told so."""
    at = next((n for n, op in enumerate(ops) if not isinstance(op, Act | Chain)), len(ops))
    op = ops[at] if at < len(ops) else None
    star = isinstance(op, Star) and bool(op.ops)
    begun = _in_next(op.ops[0] if isinstance(op, Star) and star else op) if op is not None else None
    if begun is None:
        return None
    if isinstance(op, Star):
        return (*ops[:at], replace(op, ops=(begun, *op.ops[1:])), *ops[at + 1 :])
    again = (*ops[:at], begun, *ops[at + 1 :])
    told = told_round(again)
    return told if told != again else None


def _in_next(op: Op) -> Op | None:
    place = op.places[0] if isinstance(op, Make) and len(op.places) == 1 and not op.beside and op.stitch != "sl st" else None
    if place is None or not isinstance(op, Make) or op.count != 1 or place.which not in ("same", "first") or place.count != 1:
        return None
    plain = place.row is None and not place.hold and place.noun.name not in ("sp", "lp", "corner", "ch")
    return replace(op, places=(Place("next"),)) if plain else None


def _told_apart(op: Op) -> bool:
    """Whether a clause goes into the stitches that come next, and says no more of its place."""
    if not isinstance(op, Make) or op.stitch == "sl st" or op.beside:
        return False
    return all(p.which == "next" and not p.nth and p.of is None and not p.until and not p.upto and not p.row for p in op.places)


def _ends_bare(op: Op) -> bool:
    place = op.places[0] if isinstance(op, Make) and len(op.places) == 1 else None
    return place is not None and place.bare and place.which in ("each", "next") and not place.until and not place.upto


def _shapes(op: Op) -> bool:
    """Whether a clause makes more or fewer stitches than it takes."""
    return isinstance(op, Make) and ("tog" in op.stitch or (op.count > 1 and bool(op.places)))


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


def one_to_each(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """ "(1 sc, 2 sc) in next 2 sc": where there are as many things as places, one for each."""
    out: list[Op] = []
    for op in ops:
        if isinstance(op, Star | Times):
            out.append(replace(op, ops=one_to_each(op.ops)))
            continue
        place = op.places[0] if isinstance(op, Into) and len(op.places) == 1 else None
        parts = op.ops if isinstance(op, Into) else ()
        plain = all(isinstance(part, Make) and not part.places for part in parts)
        if place is not None and place.which == "next" and place.count == len(parts) > 1 and plain:
            out += [replace(part, places=(replace(place, count=1),)) for part in parts if isinstance(part, Make)]
        else:
            out.append(op)
    return tuple(out)


def chained_to_each(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """ "Ch 3, 1 sc in each sc (8 loops)": chains before one stitch in each place, said of every one of them."""
    work = [op for op in ops if not isinstance(op, Act)]
    chain, each = work if len(work) == 2 else (None, None)
    if not isinstance(chain, Chain) or not isinstance(each, Make) or chain.counts is not None:
        return ops
    place = each.places[0] if len(each.places) == 1 else None
    if place is None or place.which != "each" or place.until or place.upto or each.count != 1 or chain.count < SHORTEST_LOOP:
        return ops
    star = Star((chain, replace(each, places=(replace(place, which="next"),))), None, at=chain.at)
    at = ops.index(chain)
    return (*ops[:at], star, *(op for op in ops[at + 1 :] if op is not each))


#: Fewer chains make no loop.
SHORTEST_LOOP = 2


def told_by_turns(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """ "Sc, dc, sc, dc, all the way across, ending on a sc": stitches told by turns twice over and then to the end go on by
    turns, and what stands behind is the end."""
    first = next((n for n, op in enumerate(ops) if isinstance(op, Make)), len(ops))
    last = next((n for n in range(first, len(ops)) if _ends_bare(ops[n])), 0)
    run = [op for op in ops[first : last + 1] if isinstance(op, Make)]
    if len(run) != last + 1 - first or len(run) < FEWEST_BY_TURNS or not all(_told_apart(op) for op in run[:-1]):
        return ops
    told = [(op.stitch, op.count, op.places[0].count if op.places else 1) for op in run]
    told[-1] = (*told[-1][:2], 1)
    size = next((k for k in range(2, len(run) // 2 + 1) if len(run) % k == 0 and told == told[:k] * (len(run) // k)), 0)
    if not size or len(set(told[:size])) < size:
        return ops
    end = tuple(op for op in ops[last + 1 :] if not isinstance(op, Act))
    if any(not isinstance(op, Make) for op in end) or len(end) > 1:
        return ops
    acts = tuple(op for op in ops[last + 1 :] if isinstance(op, Act))
    return (*ops[:first], Star(tuple(run[:size]), None, ending=end, at=run[0].at), *acts)


#: Two stitches by turns, each told twice.
FEWEST_BY_TURNS = 4


def joined_at_last(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """ "Rejoin A in top of last tr", where a row begins: the last one made is the first one met on the way back."""
    at = next((n for n, op in enumerate(ops) if not (isinstance(op, Act) and op.name in ("colour", "turn", "facing"))), len(ops))
    joined = ops[at] if at + 1 < len(ops) else None
    if not isinstance(joined, Act) or joined.name != "yarn" or joined.place is None or joined.place.which != "last":
        return ops
    place = joined.place
    if place.count != 1 or place.row is not None or place.of is not None:
        return ops
    return (*ops[:at], replace(joined, place=replace(place, which="first")), *ops[at + 1 :])


def past_its_base(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """ "Ch 3 (counts as dc), sk 1 st, dc in each st to end": what is skipped is the stitch that the chain stands on."""
    work = [op for op in ops if not isinstance(op, Act)]
    if len(work) not in (LONGEST_PLAIN, LONGEST_PLAIN + 1) or not isinstance(work[0], Chain) or not _lifts(work[0]):
        return ops
    skipped, made = work[1], work[2]
    if not isinstance(skipped, Skip) or not isinstance(made, Make) or len(skipped.places) != 1 or len(made.places) != 1:
        return ops
    place, along = skipped.places[0], made.places[0]
    alike = place.noun == ANY or (place.noun == along.noun and place.noun.name == made.stitch and len(work) > LONGEST_PLAIN)
    plain = place.which == "next" and place.count == 1 and not place.nth and alike and place.row is None
    if not plain or along.which != "each" or along.until or along.step > 1:
        return ops
    if len(work) > LONGEST_PLAIN and not _ends_on_chain(work[-1]):
        return ops
    first = replace(skipped, places=(replace(place, which="first", bare=False),))
    return tuple(first if op is skipped else op for op in ops)


def base_skipped(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """ "Ch 3 (counts as dc), skip 1 sc, dc in next 3 sc, *ch 3, ...": the row with the one that is skipped right behind a chain that
    counts taken for the stitch it stands on; as it stands where it skips none there."""
    at = [n for n, op in enumerate(ops) if not isinstance(op, Act)][:2]
    chain, skipped = (ops[n] for n in at) if len(at) > 1 else (None, None)
    if not isinstance(chain, Chain) or not _lifts(chain) or not isinstance(skipped, Skip) or len(skipped.places) != 1:
        return ops
    place = skipped.places[0]
    if place.which != "next" or place.nth or place.row is not None or place.of is not None or place.count != 1:
        return ops
    if any(p.which in ("skipped", "unworked") for op in walk(ops) if isinstance(op, Make | Into) for p in op.places):
        return ops  # "sk next sc, dc in next sc, dc in skipped sc": so many were passed over
    return (*ops[: at[1]], replace(skipped, places=(replace(place, which="first", bare=False),)), *ops[at[1] + 1 :])


#: A chain, what is skipped, and what is worked to the end.
LONGEST_PLAIN = 3
#: So many chains or more count as a stitch where nothing else is said (common practice, no source).
_LEAST_LIFT = 3


def _lifts(chain: Chain) -> bool:
    return (chain.counts is None and chain.count >= _LEAST_LIFT) or (bool(chain.counts) and len(chain.counts or ()) == 1)


def _ends_on_chain(op: Op) -> bool:
    """Whether a row ends with one stitch on the chain that the row below began with."""
    place = op.places[0] if isinstance(op, Make) and op.count == 1 and len(op.places) == 1 else None
    return place is not None and "beg" in (place.which, place.of.which if place.of is not None else "")


#: "inc 2 sc x6" at the end of a row, or before its count; not behind a bracket.
_TIMES_LAST = when_used(r"(?<=[a-z0-9])(?<!\d)\s*[x×]\s?(?P<n>\d{1,3})\s*(?:times\s*)?[.,;:]?\s*(?:$|[(\[=-])")
#: "Sc dec x12": a stitch and a decrease, or one that is called so.
_TWO_IN_ONE = when_used(r"(?<![a-z])(?P<stitch>sc|hdc|dc|htr|tr)[ ,]+dec\s*$")

#: "Inc 2 sc x6": the number is the second's.
_NUMBER_BETWEEN = when_used(r"(?<![a-z])(?:inc|dec)\.?,?\s(?P<n>\d{1,3})\s?(?:sc|hdc|dc|htr|tr|sts?)\s*$")


def grouped_by_times(ops: tuple[Op, ...], low: str) -> tuple[tuple[Op, ...], ...]:
    """Ways to take "inc, 2 sc x6": with the stitches before the last in what is done so often, from one of them to all."""
    found = _TIMES_LAST.search(low)
    end = len(ops)
    while end and isinstance(ops[end - 1], Act):
        end -= 1
    last = ops[end - 1] if end else None
    times = int(found["n"]) if found else 0
    if found is not None and isinstance(last, Times) and (apart := _two_apart(last, low[: found.start()])):
        return ((*ops[: end - 1], apart, *ops[end:]),)
    once = _once(last, times) if isinstance(last, Make) and times > 1 else None
    if found is None or once is None:
        return ()
    group: tuple[Op, ...] = (once,)
    out: list[tuple[Op, ...]] = []
    two = _TWO_IN_ONE.search(low[: found.start()])
    if two is not None and once.stitch == f"{two['stitch']}2tog":
        group = (Make(two["stitch"], 1, (Place("next"),), at=once.at), once)
        out.append((*ops[: end - 1], Times(group, times, at=once.at), *ops[end:]))
    between = _NUMBER_BETWEEN.search(low[: found.start()])
    before = ops[end - 2] if end > 1 else None
    if between is not None and isinstance(before, Make) and [p.count for p in before.places] == [int(between["n"])]:
        one = replace(before, places=(replace(before.places[0], count=1),))
        some = replace(once, places=(Place("next", count=int(between["n"])),))
        out.append((*ops[: end - 2], Times((one, some), times, at=once.at), *ops[end:]))
    for start in range(end - 2, -1, -1):
        if not isinstance(ops[start], Make):
            break
        group = (ops[start], *group)
        out.append((*ops[:start], Times(group, times, at=ops[start].at), *ops[end:]))
    return tuple(out)


def _two_apart(op: Times, low: str) -> Times | None:
    """ "3 sc dec x7": three stitches and a decrease each time."""
    two, only = _TWO_IN_ONE.search(low), op.ops[0] if len(op.ops) == 1 else None
    if two is None or not isinstance(only, Make) or only.stitch != f"{two['stitch']}2tog" or only.places:
        return None
    return replace(op, ops=(Make(two["stitch"], 1, (Place("next", count=only.count),), at=only.at), replace(only, count=1)))


def _once(op: Make, times: int) -> Make | None:
    """A stitch that is told so often, as it is told once."""
    place = op.places[0] if len(op.places) == 1 else None
    if place is not None and place.which == "next" and place.count == times and not place.nth:
        return replace(op, places=(replace(place, count=1),))
    return replace(op, count=op.count // times) if not op.places and op.count % times == 0 else None


def each_in_turn(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """ "*3 dc between each 2-dc group; rep from * 10 more times": told of all gaps and worked so many times, it goes to one after
    another; as it stands where nothing is told so."""
    return tuple(_in_turn(op) if _counted(op) else op for op in ops)


def each_as_it_comes(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """ "*FPdc around each FPdc, BPdc around each BPdc; rep from * across": each sort in its place as it comes, which is no
    repeat of all of the one and all of the other."""
    return tuple(_as_it_comes(op) if isinstance(op, Star) else op for op in ops)


def _as_it_comes(star: Star) -> Op:
    parts = [op for op in star.ops if isinstance(op, Make) and len(op.places) == 1 and not op.beside]
    if len(parts) < 2 or len(parts) != len(star.ops) or star.more is not None or star.cut is not None or star.ending or star.upto:
        return star
    places = [part.places[0] for part in parts]
    plain = all(q.which == "each" and q.step == 1 and q.of is None and q.row is None and not q.until and not q.upto for q in places)
    if not plain or len({q.noun for q in places}) < len(places):
        return star
    each = [replace(part, places=(replace(q, until=star.until),)) for part, q in zip(parts, places, strict=True)]
    return replace(each[0], beside=tuple(each[1:]), at=star.at)


def _counted(op: Op) -> bool:
    return (isinstance(op, Star) and bool(op.more)) or (isinstance(op, Times) and op.times > 1)


def _in_turn(op: Op) -> Op:
    assert isinstance(op, Star | Times)
    inner = tuple(replace(o, places=tuple(map(_next_gap, o.places))) if isinstance(o, Make | Into) else o for o in op.ops)
    return replace(op, ops=inner)


def _next_gap(place: Place) -> Place:
    """The next gap between groups of a size in the stead of each of them."""
    if place.which != "each" or place.noun.name != "gap" or not place.noun.size or place.until or place.also:
        return place
    return Place("between", Noun("gap"), of=Place("next", Noun("group", place.noun.size, place.noun.of), row=place.row))


def stitches_for_spaces(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """ "Hdc in each space across" where stitches are called so: the ops with stitches for spaces of no size."""
    return tuple(_for_spaces(op) for op in ops)


def _for_spaces(op: Op) -> Op:
    if isinstance(op, Star | Times):
        return replace(op, ops=stitches_for_spaces(op.ops))
    if not isinstance(op, Make | Skip):
        return op
    return replace(op, places=tuple(replace(p, noun=Noun("st")) if _plain_space(p) else p for p in op.places))


def _plain_space(place: Place) -> bool:
    return place.which in ("each", "next", "first", "last") and place.noun == Noun("sp") and place.row is None and place.of is None


#: "Skip next dc and ch-2": a chain that is passed over, named as a space is.
_AND_CHAIN = when_used(r"\b(?:sk|skip|skipping|miss|missing) [^,;.()]{1,20} (?:and|&) (?:the )?(?:next )?ch ?-\d")


def skipped_together(low: str) -> bool:
    """Whether a row skips a stitch "and ch-2"."""
    return bool(_AND_CHAIN.search(low))


def skipped_chains(ops: tuple[Op, ...], low: str) -> tuple[Op, ...]:
    """ "Sk ch-2, dc in next dc", "skip next dc and ch-2": the ops with chains that are passed over taken for spaces of the row."""
    together = skipped_together(low)
    out: list[Op] = []
    for op in ops:
        last = out[-1] if out else None
        if isinstance(op, Star | Times):
            out.append(replace(op, ops=skipped_chains(op.ops, low)))
        elif isinstance(op, Skip) and len(op.places) == 1 and op.places[0].which == "beg" and op.places[0].noun.size:
            out.append(replace(op, places=(Place("next", Noun("sp", op.places[0].noun.size)),)))
        elif together and isinstance(op, Chain) and isinstance(last, Skip) and op.counts is None:
            out[-1] = replace(last, places=(*last.places, Place("next", Noun("sp", op.count))))
        else:
            out.append(op)
    return tuple(out)


def through_last_but_one(ops: tuple[Op, ...], *, until: bool) -> tuple[Op, ...]:
    """ "*Ch 3, sk 1, dc in next; rep from * until the last but one st, ch 1, hdc in first dc": worked through that one where
    it is said so, or nothing behind the repeat goes into the two that are left; as they are elsewhere."""
    at = next((n for n, op in enumerate(ops) if isinstance(op, Star)), len(ops))
    star = ops[at] if at < len(ops) else None
    if not isinstance(star, Star) or star.until is None or star.until[0] != TWO or star.ending:
        return ops
    if not until and any(map(_goes_further, ops[at + 1 :])):
        return ops
    return (*ops[:at], replace(star, until=(1, star.until[1])), *ops[at + 1 :])


#: The last but one is one of so many.
TWO = 2


def _goes_further(op: Op) -> bool:
    """Whether a clause goes into what is left of the row below."""
    if isinstance(op, Make) and op.places:
        return any(place.which in ("next", "last", "each", "evenly", "nth") and place.of is None for place in op.places)
    return isinstance(op, Make | Into | Skip | Star | Times)
