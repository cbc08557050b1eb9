"""Repeats: from * and again, brackets k times, either of two."""

from __future__ import annotations

from itertools import pairwise, takewhile
from typing import TypeGuard

from ...made_late import replace
from ...pattern.lexicon import height_of
from ...pattern.tree import Act, Chain, Corner, Either, Into, Make, Noun, Op, Place, Skip, Star, Times, walk
from ..cloth.fabric import counts
from ..cloth.faults import MOST_TRIES, TRY_STEPS, Stuck
from ..cloth.ground import Hit
from ..cloth.site import SPACES
from ..cloth.state import Grown, Mark
from ..cloth.tiles import tiles_of
from ..cloth.wording import are, stitches
from . import edges, footing, making, remaining, row_end, targets
from .hand import Hand

#: Where a stitch goes whose place is not said.
NEXT = Place("next")


def star(p: Hand, op: Star) -> None:
    """A * repeat; chains at its beginning lie in the row, they are no beginning chain."""
    p.leads = True
    p.repeating += 1
    try:
        _star(p, op)
    finally:
        p.repeating -= 1


def _star(p: Hand, op: Star) -> None:
    if op.until is not None:
        until(p, op, *op.until)
    elif op.upto is not None:
        up_to(p, op, op.upto)
    elif op.more is not None:
        fixed(p, op)
    else:
        across(p, op, (), top=False)


def fixed(p: Hand, op: Star) -> None:
    """As often as is said: k more times is k + 1 in all; "k times" is read so too unless the choice says otherwise."""
    footing.begin_at_space(p, op.ops)
    total = (op.more or 0) + (0 if p.choice.in_all and not op.said_more else 1)
    bounds = [len(p.out)]
    for turn in range(total):
        again = turn < total - 1 or _has_room_for_one(p, op)
        goes_on = again or _goes_into_first(op.ops[:-1])
        p.looping += goes_on
        try:
            p.sequence(op.ops if again else last_time(op), 0)
        except Stuck as stuck:
            raise stuck.in_repetition(turn + 1, total, op.at) from None
        finally:
            p.looping -= goes_on
        bounds.append(len(p.out))
    note_repeat(p, bounds)
    if op.ending:
        p.sequence(op.ending, 0)


def _goes_into_first(ops: tuple[Op, ...]) -> bool:
    """Whether a repetition goes on behind a stitch in "first dc": the first of those ahead, the last time too."""
    return any(isinstance(op, Make) and bool(op.places) and op.places[0].which == "first" for op in ops)


def _has_room_for_one(p: Hand, op: Star) -> bool:
    """Whether a round that says how the last repetition ends has room for just one more whole one: "rep from * 3 more
    times, ending last rep with ch 2, dc in first sc" counts, with some writers, only those before the last loop."""
    if not (p.site.is_round and op.replaces and op.ending and op.cut is None):
        return False
    mark, kept = p.mark(), p.kept(p.mark())
    begun = next((s.feet[0].at for s in p.out if s.feet and s.feet[0].back == 1), None)
    whole, wanted = 0, 1 + any(isinstance(part, Make | Into) for part in walk(last_time(op)))
    try:
        while whole <= wanted:
            p.sequence(op.ops, 0)
            if p.last is not None and p.last.back == 1 and p.last.foot.at == begun:
                break  # come round to where the round began
            whole += 1
    except Stuck as stuck:
        if stuck.kind == "limit":
            raise
    finally:
        p.come_back(mark, kept)
    return whole == wanted


def last_time(op: Star) -> tuple[Op, ...]:
    """What the last repetition works: up to ** where it ends there, without what the ending replaces: that is from its
    last chain on where the ending begins with one."""
    if op.cut is not None:
        return op.ops[: op.cut]
    chains = [n for n, other in enumerate(op.ops) if isinstance(other, Chain)]
    if op.replaces and op.ending and isinstance(op.ending[0], Chain) and chains:
        return op.ops[: chains[-1]]
    return op.ops[: max(len(op.ops) - len(op.ending), 0)] if op.replaces else op.ops


def until(p: Hand, op: Star, count: int, noun: Noun) -> None:
    """Repeat until `count` of a noun are left."""
    made = 0
    bounds = [len(p.out)]
    beyond = _beyond(p, op, noun)
    left = left_of(p, noun) - beyond
    while left > count:
        before, mark = p.here, p.mark()
        try:
            p.sequence(op.ops, 0)
        except Stuck as stuck:
            if stuck.kind == "limit":
                raise
            if _ends_at_cut(p, op, mark, count, noun) or _past_last_space(p, op, mark, count, noun):
                left = count
                break
            p.go_back(mark)
            if count == 1 and _half_group_left(p):
                left = count
                break
            raise not_as_many(p, op, made, left, f"; {stuck.says}") from None
        made += 1
        bounds.append(len(p.out))
        if p.here == before:
            raise Stuck(
                "the repeat moves nowhere, so it never ends",
                'say how often, as "rep from * 3 more times"',
                op.at,
                "ambiguous",
            )
        left = left_of(p, noun) - beyond
        if left < count and _ends_at_cut(p, op, mark, count, noun):
            bounds.pop()
            left = count
    if left != count:
        raise not_as_many(p, op, made, left)
    note_repeat(p, bounds)
    p.stopped = p.spot(p.main)
    if op.ending:
        p.sequence(op.ending, 0)


def _with_the_last(op: Star, tail: tuple[Op, ...]) -> bool:
    """ "*Ch 8, sc in center dc of next petal; rep from * to last petal, ch 8, join": whether nothing is worked into the
    last one behind a round's repeat, which so goes into that too. What closes the round may be a stitch in place of
    the last loop's chains: "*ch 3, sc in next sp; rep from * to last sp, ch 1, hdc in first sc"."""
    count, noun = op.until or (0, Noun("st"))
    apart = noun.name not in ("st", "ch") and height_of(noun.name) is None
    if not apart and any(isinstance(o, Skip) for o in walk(op.ops)):
        return False
    rest = [o for o in tail if not isinstance(o, Act) and not _joins(o)]
    closed = bool(rest) and isinstance(rest[-1], Make) and rest[-1].count == 1 and _goes_to_first(rest[-1])
    chained = all(isinstance(o, Chain) for o in (rest[:-1] if closed else rest))
    joined = any(_joins(o) or (isinstance(o, Act) and o.name == "join") for o in tail)
    closed = closed or (apart and (joined or bool(rest)))
    return count == 1 and closed and not op.ending and op.cut is None and chained


def _goes_to_first(op: Make) -> bool:
    return [place.which in ("first", "top", "beg") and place.count == 1 for place in op.places] == [True]


def _joins(op: Op) -> bool:
    """Whether a slip stitch goes where the round began."""
    return isinstance(op, Make) and op.stitch == "sl st" and _goes_to_first(op)


def stopped_where_it_goes_on(op: Star, tail: tuple[Op, ...], *, is_round: bool) -> Star:
    """ "*Sk 2 ch, sc in next ch, sk 2 ch, 5 dc in next ch; rep to last 3 ch, sk 2 ch, 3 dc in last ch": where no whole
    number of repetitions leaves as many as are said, the last of them may stop where the words behind it go on in its
    stead."""
    if is_round and _with_the_last(op, tail):
        return replace(op, until=None)
    if op.until is None or op.cut is not None or op.ending or not tail or not isinstance(tail[0], Skip):
        return op
    cuts = [n for n in range(1, len(op.ops)) if same_again(op.ops[n], tail[0])]
    return replace(op, cut=cuts[-1]) if cuts else op


def _beyond(p: Hand, op: Star, noun: Noun) -> int:
    """How many of a noun lie from the place on that the repeat stops before; none where it stops at the end."""
    if op.upto is None:
        return 0
    hit = p.ground.find(op.upto, p.here)
    if hit is None:
        raise Stuck(f"{p.site.below} has no {p.one(op.upto)} further on", "say how far the repeat goes", op.at)
    return p.ground.left(noun, hit.start)


def _past_last_space(p: Hand, op: Star, mark: Mark, count: int, noun: Noun) -> bool:
    """ "(ch 1, 3 dc in next ch-1 sp) to last st": a repeat that goes into spaces alone ends with the last of them,
    though the group behind it has more stitches than its last one; work stands where it ended then."""
    places = [place for o in walk(op.ops) if isinstance(o, Make | Into) for place in o.places]
    if count != 1 or noun.name != "st" or any(place.noun.name != "sp" for place in places):
        return False
    p.go_back(mark)
    ahead, end = p.ground.slots[p.here :], len(p.ground.slots)
    whole = Hit(p.here, end) in p.ground.within(Noun("group"), p.here, end)
    return whole and all(counts(slot.stitch) for slot in ahead)


def _ends_at_cut(p: Hand, op: Star, mark: Mark, count: int, noun: Noun) -> bool:
    """Whether the last repetition, worked from a mark to where ** stands, leaves as many as are to be left."""
    if op.cut is None or op.replaces:
        return False
    p.go_back(mark)
    try:
        p.sequence(op.ops[: op.cut], 0)
    except Stuck:
        return False
    left = left_of(p, noun)
    in_space = p.last is not None and p.last.foot.hold == "space" and p.last.back == 1
    spaces = p.ground.left(Noun("sp"), p.here) if p.ground.has_spaces else 0
    return left == count or (in_space and not spaces and left == count + 1)


def _half_group_left(p: Hand) -> bool:
    """Whether all that is left is the half of a group that the row below begins with, its chain being the last: "rep
    from * until beg ch-4, sc in 3rd ch of beg ch-4" passes over the dc beside it."""
    left = [slot.stitch for slot in p.ground.slots[p.here :] if counts(slot.stitch)]
    if len(left) < 2 or left[-1].role != "turning" or p.main != 1:
        return False
    feet = [{(f.at, f.part) for f in stitch.feet} for stitch in left]
    return bool(set.intersection(*feet))


def up_to(p: Hand, op: Star, noun: Noun) -> None:
    """Repeat until the next of a noun comes, within what is worked more than once: there nothing behind it tells how
    often."""
    hit = p.ground.find(noun, p.here)
    mark, kept = p.mark(), p.kept(p.mark())
    stops = (hit.start, p.ground.stops_at(hit)) if hit is not None else ()
    bounds = [len(p.out)]
    try:
        while stops and p.here not in stops and p.here < max(stops):
            before = p.here
            p.sequence(op.ops, 0)
            p.settle()
            bounds.append(len(p.out))
            if p.here == before:
                break
    except Stuck as stuck:
        if stuck.kind == "limit":
            raise
    if p.here in stops:
        note_repeat(p, bounds)
        return
    p.come_back(mark, kept)
    across(p, op, (), top=False)
    left = p.ground.stitches_between(p.here, hit.start) if hit is not None and _goes_stitch_by_stitch(op) else 0
    if hit is not None and (left or p.here > max(stops)):
        raise Stuck(f"the repeat does not end at the {p.one(noun)}", "change what stands before it", op.at)


def _goes_stitch_by_stitch(op: Star) -> bool:
    """Whether a repeat works into the next stitch each time and skips none, so that it leaves none before where it
    stops."""
    made = list(walk(op.ops))
    places = [place for o in made if isinstance(o, Make | Into) for place in o.places]
    plain = all(place.noun.name == "st" or height_of(place.noun.name) is not None for place in places)
    return bool(places) and plain and not any(isinstance(o, Skip | Chain) for o in made)


def not_as_many(p: Hand, op: Star, made: int, left: int, why: str = "") -> Stuck:
    """The repeat does not leave the number of stitches that the words say."""
    assert op.until is not None
    count, noun = op.until
    remain = f"{left} {p.many(noun, left)} {are(left)} left" if left else f"no {p.one(noun)} is left"
    after = {0: "before the first of them", 1: "after 1 of them"}.get(made, f"after {made} of them")
    says = f"the repeat does not come out even: {after} {remain} of {p.site.below}, not {count}{why}"
    return Stuck(says, f'change the count after "to last", or how many stitches {p.site.below} has', op.at)


def left_of(p: Hand, noun: Noun) -> int:
    p.settle()
    ground, spot = p.ground_at(p.main), p.spot(p.main)
    in_space = p.last is not None and p.last.foot.hold == "space" and p.last.back == 1
    if p.last is not None and in_space and (noun.name == "st" or height_of(noun.name)):
        spot = max(spot, 0 if footing.goes_through_group(p, p.last.start) else ground.past_group(p.last.start))
    if noun.name == "block" and (tiles := tiles_of(ground.row)):  # one is left until the hand has passed its side
        sides = {tile.side for tile in tiles}
        return sum(1 for slot in ground.slots[spot:] if slot.first and slot.item in sides)
    return ground.left(noun, spot)


def across(p: Hand, op: Star, tail: tuple[Op, ...], *, top: bool) -> None:
    """As often as the ground allows; at the top of the row, as often as lets the tail come out even."""
    p.repeating += 1
    try:
        _across(p, op, tail, top=top)
    finally:
        p.repeating -= 1


def _across(p: Hand, op: Star, tail: tuple[Op, ...], *, top: bool) -> None:
    footing.begin_at_space(p, op.ops)
    marks, stuck = as_often_as_goes(p, op)
    kept = p.kept(marks[-1])
    best: Stuck | None = None
    # A repeat that could not be worked once is not passed over for its ending where there is ground for it.
    ahead = p.ground_at(p.main).stitches_between(p.spot(p.main), len(p.ground_at(p.main).slots))
    stretch_left = len(marks) == 1 and ahead > _UNDER_SEAM
    for tries, turns in enumerate(_turns(p, op, marks)):
        if tries >= MOST_TRIES or _passes_its_end(p, op, marks[0], marks[turns]):
            break
        half = not tries and turns < len(marks) - 1  # the half loop in place of the last whole one
        for part in (*endings(p, op), *_last_told(op, tail)):
            if half and len(part) == len(op.ops) + len(op.ending):
                continue
            if part and tail and p.choice.cut_short and _two_chains(part, tail[0]):
                continue
            fault = try_tail(p, op, marks[turns], part, tail, top=top)
            if fault is not None and fault.kind == "limit":
                raise fault
            if fault is None and (turns or stuck is None or (part and (part != op.ending or not stretch_left))):
                note_repeat(p, [m.made for m in marks[: turns + 1]])
                if not p.site.is_round and _without_its_skip(op, part):
                    every = f"though {p.site.below} is passed over there in every repetition"
                    p.leapt = p.leapt or f"what its repeat ends with stands right behind the stitch before, {every}"
                return
            best = _plainer(best, fault) if turns else best
    p.come_back(marks[-1], kept)
    if op.upto is not None and best is None and _passes_its_end(p, op, marks[0], marks[_turns(p, op, marks)[0]]):
        raise Stuck(f"the repeat does not end at the {p.one(op.upto)}", "change what stands before it", op.at)
    uneven(p, op, marks, stuck, best)


def _passes_its_end(p: Hand, op: Star, begun: Mark, mark: Mark) -> bool:
    """Whether a repeat that goes stitch by stitch to a place has not come to it, or is past it."""
    stop = p.ground.find(op.upto, begun.here) if op.upto is not None and _goes_stitch_by_stitch(op) else None
    return stop is not None and mark.here not in (stop.start, p.ground.stops_at(stop))


def _without_its_skip(op: Star, part: tuple[Op, ...]) -> bool:
    """ "*Skip 2, sc, skip 2, 5 dc in next ch; rep from * ending last rep with 3 dc in last ch": whether the last
    repetition lost the skip before what the ending stands for."""
    at = len(part) - len(op.ending)
    if not op.ending or not op.replaces or part[at:] != op.ending or not 0 <= at < len(op.ops) - 1:
        return False
    new, skipped, old = op.ending[0], op.ops[at], op.ops[at + 1]
    return isinstance(skipped, Skip) and isinstance(old, Make) and isinstance(new, Make) and old.stitch == new.stitch


def _turns(p: Hand, op: Star, marks: list[Mark]) -> list[int]:
    """How many whole repetitions are tried, the likeliest first: as many as go. A round whose loops leave nothing
    unworked has no room for the half loop that ends it, which so stands for the last of them: "*ch 5, sk 2 sts, sc in
    next st* around, ending with ch 2, dc in base of first ch-5"."""
    found = list(range(len(marks) - 1, -1, -1))
    chained = bool(op.ops and op.ending) and isinstance(op.ops[0], Chain) and isinstance(op.ending[0], Chain)
    skips = any(isinstance(o, Skip) for o in op.ops)
    if p.site.is_round and chained and skips and op.cut is None and len(found) > 2 and len(op.ending) > 1:
        full, half = op.ops[0], op.ending[0]
        shorter = isinstance(full, Chain) and isinstance(half, Chain) and half.count < full.count
        if shorter and not p.ground.stitches_between(marks[-1].here, len(p.ground.slots)):
            found[:2] = found[1::-1]
    stop = p.ground.find(op.upto, marks[0].here) if op.upto is not None else None
    if stop is not None:  # what ends at the place first, then, where more are than will be tried, what ends before
        many, ends = len(found) > MOST_TRIES, (stop.start, p.ground.stops_at(stop))
        found.sort(key=lambda n: (marks[n].here not in ends, many and marks[n].here > stop.start))
    return found


def _last_told(op: Star, tail: tuple[Op, ...]) -> list[tuple[Op, ...]]:
    """ "*Shell in next sc, sc in center dc of next shell; rep across, the last sc going into the turning chain": where
    no shell is left for it, the last repetition as far as that stitch, which goes where is said."""
    said = next((o for o in tail if not isinstance(o, Act) or o.name == "last"), None)
    at = next((n for n in range(len(op.ops) - 1, -1, -1) if isinstance(op.ops[n], Make)), None)
    last = op.ops[at] if at else None
    if op.ending or op.cut is not None or not isinstance(said, Act) or said.place is None or not isinstance(last, Make):
        return []
    if last.count != 1 or len(last.places) != 1 or last.places[0].count != 1:
        return []
    return [(*op.ops[:at], replace(last, places=(said.place,)))]


def corner_in_spaces(p: Hand, op: Op, ops: tuple[Op, ...]) -> Corner | None:
    """What a row does instead in each space of a sort, where its repeat skips along the sides between them and would
    never come to one: "(ch 3, skip next 2 sts, sc in next st) around with (sc, ch 3, sc) in each ch-2 sp"."""
    corner = next((o for o in ops if isinstance(o, Corner)), None)
    if corner is None or not _goes_on(op) or not any(isinstance(o, Skip) for o in op.ops):
        return None
    place = corner.make.places[0]
    places = [q for o in walk(op.ops) if isinstance(o, Make | Skip) for q in o.places]
    if place.which != "each" or place.of is not None or place.step != 1:
        return None
    plain = all(q.noun.name == "st" or height_of(q.noun.name) for q in places)
    return corner if plain and _spaces(p, place.noun) else None


def _goes_on(op: Op) -> TypeGuard[Star | Times]:
    """Whether a repeat is worked as often as it goes, to no end of its own."""
    if isinstance(op, Times):
        return not op.times and not op.name
    ends = isinstance(op, Star) and (op.more, op.until, op.upto, op.cut) != (None, None, None, None)
    return isinstance(op, Star) and not ends and not op.ending


def _spaces(p: Hand, noun: Noun) -> list[Hit]:
    """The spaces of a sort that hold no stitch; of corners those in their middle."""
    hits = p.ground.hits(noun)
    if noun.name == "corner":
        within = [p.ground.within(Noun("sp"), hit.start, hit.end) for hit in hits]
        return [inside[0] for inside in within] if all(len(inside) == 1 for inside in within) else []
    empty = all(p.ground.slots[i].stitch.role == "chain" for hit in hits for i in range(hit.start, hit.end))
    return [hit for hit in hits if hit.start < hit.end] if empty else []


def side_by_side(p: Hand, op: Star | Times, corner: Corner) -> None:
    """A repeat worked along each side as often as it goes; the corner stands in the stead of what the next one would
    work, behind its chains, and the sides' last stitches are passed over."""
    noun, bounds = corner.make.places[0].noun, [len(p.out)]
    begun, p.corners = p.here, {}
    ahead = [hit for hit in _spaces(p, noun) if hit.start >= begun]
    ahead = [hit for hit in ahead if not any(a < hit.end and hit.start < b for a, b in p.touched)]
    for hit in (*ahead, None):
        _along_side(p, op, hit.start if hit is not None else len(p.ground.slots), bounds)
        lead = tuple(takewhile(lambda o: not isinstance(o, Skip | Make | Into), op.ops))
        if hit is None:
            p.sequence(lead, 0)
            p.go(1, len(p.ground.slots))
            break
        p.sequence(lead, 0)
        there = footing.target(p, 1, hit, Place("each", noun))
        if isinstance(corner.make, Into):
            making.into_one(p, corner.make, there)
        else:
            making.put(p, replace(corner.make, places=()), [there], corner.make.count)
        p.go(1, hit.end)
        footing.remember(p, [there])
        bounds.append(len(p.out))
    p.wide, p.landmark, p.left_on_purpose = True, True, True


def _along_side(p: Hand, op: Star | Times, end: int, bounds: list[int]) -> None:
    """One side of a piece, up to a slot."""
    while True:
        mark = p.mark()
        try:
            p.sequence(op.ops, 0)
            past = p.here > end or p.here == mark.here
        except Stuck as stuck:
            if stuck.kind == "limit":
                raise
            past = True
        if past:
            p.go_back(mark)
            return
        bounds.append(len(p.out))


def _plainer(best: Stuck | None, fault: Stuck | None) -> Stuck | None:
    """Of the faults of two tries the one to report: the first, unless the other says that the words are ambiguous."""
    if best is None or (fault is not None and fault.kind == "ambiguous" != best.kind):
        return fault
    return best


def as_often_as_goes(p: Hand, op: Star) -> tuple[list[Mark], Stuck | None]:
    marks = [p.mark()]
    while True:
        before, foot = (p.here, p.others), p.last
        stayed = p.choice.stay and targets.moved_into(p)  # the first goes into the space slipped into
        p.looping += 1
        try:
            p.sequence(op.ops, 0)
        except Stuck as stuck:
            if stuck.kind == edges.UNSAID:
                raise
            return marks, stuck
        finally:
            p.looping -= 1
        marks.append(p.mark())
        stayed = stayed or (len(marks) == 2 and foot is not None and p.last is not None and p.last.start > foot.start)
        in_gap = p.last is not foot and p.last is not None and p.last.foot.hold == "between"
        stayed = stayed or (len(marks) == 2 and in_gap)  # the gap before the first stitch
        if (p.here, p.others) == before and not stayed:
            if p.on_edge or edges.bare_edge(p):
                raise edges.unsaid(op.at)
            raise Stuck(
                "the repeat moves nowhere, so it never ends",
                'say how often, as "rep from * 3 more times"',
                op.at,
                "ambiguous",
            )


#: Of so many times in a bracket, each is looked at by itself.
FEW_TIMES = 6


def endings(p: Hand, op: Star) -> list[tuple[Op, ...]]:
    """What may follow the last whole repetition: a part of one more, and the ending said."""
    if op.ending and op.cut is not None and op.replaces:
        return [op.ops[: op.cut] + op.ending]
    if op.ending:
        whole = len(op.ops) - 1 if op.replaces else len(op.ops)
        begins = [n for n in range(whole) if same_again(op.ops[n], op.ending[0])]
        begins.sort(key=lambda n: (-_told_alike(op.ops[n:], op.ending), -n))
        goes = [n for n in range(whole, -1, -1) if not _two_chains(op.ops[:n] or op.ops[-1:], op.ending[0])]
        if not p.site.counted:
            goes = [n for n in goes if not 0 < n < len(op.ops) or not _doubled(op.ops[n - 1], op.ending[0])]
        goes.sort(key=lambda n: _parts_chain(op.ops, n))
        if _only_joins(op.ending) and 0 in goes and p.site.is_round:
            goes = [0, *(n for n in goes if n)]
        return [*_within_times(op), *(op.ops[:n] + op.ending for n in (*begins, *goes))]
    if op.cut is not None:
        return [op.ops[: op.cut]]
    if p.choice.cut_short:
        parts = [op.ops[:n] for n in range(len(op.ops) - 1, 0, -1)]
        # without a part a round that its chain begins was worked before, and did not come out
        by_chain = len(p.out) > 0 and p.out[0].role in ("start", "turning")
        return [(), *parts] if p.site.counted and not by_chain else [*parts, ()]
    return [(), op.ops[:-1]] if _skips_to_the_beginning(p, op) or _skips_last(p, op) else [()]


def _skips_last(p: Hand, op: Star) -> bool:
    """ "*(Sc, dc) in next sc, sk next dc; rep from * across": behind the last a row may have nothing to skip; not
    where chains bridge what is skipped."""
    if p.site.is_round or len(op.ops) < 2:
        return False
    return isinstance(op.ops[-1], Skip) and not isinstance(op.ops[-2], Chain)


def _skips_to_the_beginning(p: Hand, op: Star) -> bool:
    """Whether a round's repetition ends with the first stitch of the next group skipped, which for the last of them is
    where the round began with a slip stitch: "sl st in first tr, *tr in next 15 tr, ch 4, ..., skip first tr"."""
    last = op.ops[-1] if len(op.ops) > 1 else None
    first = isinstance(last, Skip) and [(q.which, q.count) for q in last.places] == [("first", 1)]
    return first and p.site.is_round and len(p.out) > 1 and p.out[0].kind == "sl st"


def _within_times(op: Star) -> list[tuple[Op, ...]]:
    """ "*dc, ch 9, (dc in next dc, 3 dc in next sp) twice; rep around, ending with 3 dc in last sp": parts that break
    off within what a repetition works twice, where the ending is what stands there, said of the last of its places."""
    flat: list[Op] = []
    for part in op.ops:
        flat += part.ops * part.times if isinstance(part, Times) and 1 < part.times <= FEW_TIMES else (part,)
    if len(flat) == len(op.ops):
        return []
    last = _in_last(op.ending[0])
    stops = [n for n, part in enumerate(flat[:-1]) if isinstance(part, Make | Into) and _in_last(part) == last]
    return [(*flat[:n], *op.ending) for n in stops]


def _in_last(op: Op) -> Op:
    """An op in the next of its places as in the last of them."""
    if not isinstance(op, Make | Into) or [p.which for p in op.places] not in (["next"], ["last"]):
        return op
    place = replace(op.places[0], which="last", bare=False)
    return replace(op, places=(place,))


def _only_joins(ending: tuple[Op, ...]) -> bool:
    """ "*Ch 4, sk 1, sc in next st; rep from * around, ending with sl st in first ch": the ending closes the round and
    stands for nothing of a repetition, where whole ones come out."""
    slips = [op for op in ending if isinstance(op, Make) and op.stitch == "sl st"]
    return len(slips) == 1 and all(op in slips or isinstance(op, Act) for op in ending)


def _doubled(op: Op, other: Op) -> bool:
    """Whether an ending works the same once more that a broken repetition has just worked: "*3 hdc, 2 dc in next st;
    rep from * across, ending with 3 hdc" ends with 3 of them and not with 6, unless a count says so."""
    if not isinstance(op, Make) or not isinstance(other, Make) or op.stitch != other.stitch:
        return False
    if len(op.places) > 1 or len(other.places) > 1:
        return False
    made, again = (each.count * sum(place.count for place in each.places or (NEXT,)) for each in (op, other))
    return made == again > 1


def _parts_chain(ops: tuple[Op, ...], n: int) -> bool:
    """Whether a repetition broken off at a place would make a chain and not pass over what it spans: "*sc in next sp,
    ch 1, sk 1 sc; rep from * across, ending with sc in last sc" ends with two sc side by side."""
    return 0 < n < len(ops) and isinstance(ops[n - 1], Chain) and isinstance(ops[n], Skip)


def _two_chains(ops: tuple[Op, ...], other: Op) -> bool:
    """Whether one chain would come behind another: what an ending begins with stands in the repeat's chain's stead."""
    last = next((op for op in reversed(ops) if not isinstance(op, Skip)), None)
    return isinstance(last, Chain) and isinstance(other, Chain)


def same_again(op: Op, other: Op) -> bool:
    """Whether an ending begins with what the repeat has at a place: it then stands in its stead."""
    if isinstance(op, Chain) and isinstance(other, Chain):
        return op.count == other.count
    return op == other or (_of_last(op) is not None and _of_last(op) == _of_last(other))


def _told_alike(ops: tuple[Op, ...], ending: tuple[Op, ...]) -> int:
    """How many clauses an ending has from its beginning on as a repetition has them from a place on. Of "*ch 3, sc in
    next lp, ch 3, shell in next shell" what "ending with ch 3" stands for is the last such chain: no work before it is
    left."""
    same = zip(ops, ending, strict=False)
    return sum(1 for _ in takewhile(lambda pair: same_again(*pair) or _in_last(pair[0]) == _in_last(pair[1]), same))


def _of_last(op: Op) -> Op | None:
    """What is worked between groups or in the middle of one, told of the last of them: "3 dc between next 2 groups"
    ends a round as "3 dc between last 2 groups", "sc in center dc of next shell" a row as "sc in center of last
    shell"."""
    if not isinstance(op, Make) or len(op.places) != 1 or op.places[0].which not in ("between", "nth"):
        return None
    place, of = op.places[0], op.places[0].of
    if place.which == "nth":
        if place.nth or place.count != 1 or of is None or of.which not in ("next", "last"):
            return None
        if of.noun.name in ("sp", "lp", "ch"):
            return None
        place = replace(place, noun=Noun("st"), bare=False)
    return replace(op, places=(replace(place, of=replace(of, which="last")),)) if of is not None else None


def try_tail(p: Hand, op: Star, mark: Mark, part: tuple[Op, ...], tail: tuple[Op, ...], *, top: bool) -> Stuck | None:
    """The words after the repeat, from where a number of repetitions ended; what is wrong with them, if anything."""
    p.go_back(mark)
    before = p.touched if top else Grown()
    p.touched, p.landmark = Grown(), False
    p.exact = p.exact and not part and all(isinstance(o, Act) for o in tail)
    try:
        p.site.steps.spend(op, TRY_STEPS)
        if _last_gap_again(p, (*part, *tail)):
            raise Stuck("the repeat fills the last gap, which is told behind it", "say how often it is worked", op.at)
        _play_part(p, op, part)
        _play_tail(p, tail, top=top)
        if top:
            row_end.check_end(p)
            check_left_behind(p, op, mark.here)
            p.touched = Grown([*before, *p.touched])
    except Stuck as stuck:
        return stuck
    return None


def _last_gap_again(p: Hand, ops: tuple[Op, ...]) -> bool:
    """ "*3 dc in next sp; rep from * across, 2 dc in last sp": whether the repeat fills the gap told behind it."""
    first = next((o for o in ops if not isinstance(o, Act | Chain)), None)
    filled = p.last is not None and p.last.back == 1 and p.last.foot.hold == "between"
    if not filled or p.last is None or not isinstance(first, Make | Into) or len(first.places) != 1:
        return False
    place = first.places[0]
    if place.which == "last" and place.noun.name in SPACES and not p.ground.has_spaces:
        hits = p.ground.hits(place.noun)
        return bool(hits) and hits[-1].start == p.last.start
    return remaining.last_gap(p, place) == p.last.start


def _play_tail(p: Hand, tail: tuple[Op, ...], *, top: bool) -> None:
    """What stands behind a repeat: at a round's end "2 dc in first sp" comes back to where the round began."""
    repeating = p.repeating
    first = next((o for o in tail if not isinstance(o, Act | Chain)), None)
    back = isinstance(first, Make) and [(q.which, q.noun.name in SPACES) for q in first.places] == [("first", True)]
    if top and p.site.is_round and back:
        p.repeating = 0
    at_end = p.spot(p.main) >= len(p.ground_at(p.main).slots)
    if at_end and tail and isinstance(tail[0], Make) and _takes_the_rest(tail[0]):
        tail = tail[1:]
    try:
        p.sequence(tail, 0, top=top)
    finally:
        p.repeating = repeating


def _takes_the_rest(op: Make) -> bool:
    """ "(2 sc, inc) around, sc in the rest": what is left behind a repeat that goes as often as it can, if any is."""
    place = op.places[0] if len(op.places) == 1 and not op.beside else None
    if place is None or place.which != "each" or place.until or place.upto or place.row or place.step > 1:
        return False
    return place.noun.name == "st" or height_of(place.noun.name) is not None


def _play_part(p: Hand, op: Star, part: tuple[Op, ...]) -> None:
    """The part of one more repetition. What ends a round is said of the round: "ending last rep with dc in first dc"
    comes back to its first stitch, not to the first of those ahead."""
    repeating, part_of = p.repeating, p.in_part
    p.in_part = True
    own = len(part) - len(op.ending) if op.ending and part[-len(op.ending) :] == op.ending else 0
    try:
        if own:
            p.looping += 1
            try:
                p.sequence(part[:own], 0)
            finally:
                p.looping -= 1
            part = part[own:]
        if op.ending and p.site.is_round:
            p.repeating = 0
        p.sequence(part, 0)
    finally:
        p.repeating, p.in_part = repeating, part_of


def check_left_behind(p: Hand, op: Star, since: int) -> None:
    """Raise Stuck if the words after a repeat passed over, without a word, a whole space or group of the sort that the
    repeat works: there was room for a part of one more repetition."""
    if p.left_on_purpose:
        return
    if p.site.is_round:
        check_round_closed(p, op, since)
        return
    for noun in worked_nouns(op):
        for hit in p.ground.hits(noun):
            passed = since <= hit.start and hit.end <= p.here
            worked = any(start < hit.end and hit.start < end for start, end in p.touched) or _worked_gap(p, hit)
            if passed and not worked and not _chain_lies_over(p, op, hit):
                says = f"the repeat does not come out even: it leaves a {p.one(noun)} of {p.site.below} over"
                raise Stuck(says, f"say what to do with the last {p.one(noun)}, or change the width", op.at)


def _worked_gap(p: Hand, hit: Hit) -> bool:
    """Whether stitches stand in a gap between two stitches, which is no wider than nothing."""
    at = p.ground.slots[hit.start].item if hit.start == hit.end < len(p.ground.slots) else None
    return at is not None and any(f.hold == "between" and (f.at, f.back) == (at, 1) for s in p.out for f in s.feet)


def _chain_lies_over(p: Hand, op: Star, hit: Hit) -> bool:
    """ "*2 dc in next sp, dc in next dc, ch 2, dc in next dc": whether a chain of the row spans a space from the stitch
    before it to the one behind, as one of the repeat's own does."""
    if not any(isinstance(o, Chain) for o in op.ops) or not 0 < hit.start < hit.end < len(p.ground.slots):
        return False
    ends = p.ground.slots[hit.start - 1].item, p.ground.slots[hit.end].item
    runs = zip(p.out, p.out[1:], p.out[2:], strict=False)
    over = [(a.feet[0].at, b.feet[0].at) for a, c, b in runs if c.role == "chain" and a.feet and b.feet]
    return ends in over


#: So many loops may lie under what closes a round.
_UNDER_SEAM = 2


def check_round_closed(p: Hand, op: Star, since: int) -> None:
    """Raise Stuck if the words after a repeat that goes round in loops leave more of them than lie under a seam."""
    for noun in worked_nouns(op):
        if noun.name not in SPACES or not p.ground.has_spaces:
            continue
        ahead = [hit for hit in p.ground.hits(noun) if since <= hit.start and hit.end > hit.start]
        left = [h for h in ahead if not any(start < h.end and h.start < end for start, end in p.touched)]
        if len(left) > _UNDER_SEAM and len(left) > len(ahead) // 2:
            loops = f"{len(left)} {p.many(noun, len(left))} of {p.site.below}"
            says = f"the repeat does not come out even: it leaves {loops} over"
            raise Stuck(says, "say what is worked into them, or how often the repeat is worked", op.at)


def worked_nouns(op: Star) -> set[Noun]:
    """The spaces and groups that a repeat goes into or passes over."""
    work = [o for o in walk(op.ops) if isinstance(o, Make | Into | Skip)]
    places = [place for o in work for place in o.places if place.which != "same"]
    nouns = {place.of.noun if place.which == "nth" and place.of else place.noun for place in places}
    return {noun for noun in nouns if noun.name not in ("st", "ch", "gap", "ring") and height_of(noun.name) is None}


def uneven(p: Hand, op: Star, marks: list[Mark], stuck: Stuck | None, fault: Stuck | None) -> None:
    """No number of repetitions comes out even: say what is left over. The most that could be worked stands."""
    turns = len(marks) - 1
    if stuck is not None and stuck.kind in ("limit", "ambiguous"):
        raise stuck
    left = p.ground_at(p.main).stitches_between(p.spot(p.main), len(p.ground_at(p.main).slots))
    each = (marks[turns].here - marks[0].here) // turns if turns else 0
    if turns == 0 and stuck is not None:
        raise stuck
    if fault is not None and (left == 0 or fault.kind == "ambiguous"):
        raise fault
    raise Stuck(
        f"the repeat does not come out even: {turns} of them use {turns * each} of {p.site.below} and "
        f"{stitches(left)} {are(left)} left over",
        f"have {left} fewer or {max(each - left, 1)} more in {p.site.below}, or say what to do with the rest",
        op.at,
    )


def note_repeat(p: Hand, bounds: list[int]) -> None:
    """Remember the largest stretch of repetitions that made the same. `bounds` are where each began, and where the last
    ended; a first or last one that made something else is no whole repetition."""
    if p.context is not None or len(bounds) < 3:
        return
    for first in (0, 1):
        each = bounds[first + 1] - bounds[first]
        alike = same_turns(p, bounds[first:], each) if each else 0
        if alike > 1 and alike >= len(bounds) - 3:
            if p.repeat is None or each * alike > p.repeat[1] * p.repeat[2]:
                p.repeat = (bounds[first], each, alike)
            return


def same_turns(p: Hand, bounds: list[int], each: int) -> int:
    """How many repetitions from the first on made the same things."""
    wanted = kinds_of(p, bounds[0], bounds[1])
    turns = 0
    for start, end in pairwise(bounds):
        if end - start != each or kinds_of(p, start, end) != wanted:
            break
        turns += 1
    return turns


def kinds_of(p: Hand, start: int, end: int) -> list[tuple[str, str, int]]:
    return [(s.kind, s.role, s.chains) for s in p.out[start:end]]


def _stays_in_first(ops: tuple[Op, ...]) -> bool:
    """Whether all that is repeated goes into the first stitch, "[ch 3, dc in first st] twice": that stays the first."""
    worked = [op for op in ops if not isinstance(op, Chain | Act)]
    first = [op for op in worked if isinstance(op, Make) and {place.which for place in op.places} == {"first"}]
    return bool(worked) and len(first) == len(worked)


def times(p: Hand, op: Times) -> None:
    if op.times == 0:
        across(p, Star(op.ops, at=op.at), (), top=False)
        return
    if op.times > 1:
        footing.begin_at_space(p, op.ops)
    begun = len(p.out)
    bounds = [begun]
    p.leads = p.leads or op.times > 1
    moves_on = op.times > 1 and not _stays_in_first(op.ops)
    for turn in range(op.times):
        p.repeating += moves_on
        try:
            p.sequence(op.ops, 0)
        except Stuck as stuck:
            if op.times == 1:
                raise
            raise stuck.in_repetition(turn + 1, op.times, op.at) from None
        finally:
            p.repeating -= moves_on
        bounds.append(len(p.out))
    if op.name:
        p.named.append(op.name)
        making.close_group(p, begun, op.name)
    elif op.times > 1:
        note_repeat(p, bounds)


def goes_on_behind(tail: tuple[Op, ...]) -> bool:
    """Whether what comes behind a repetition goes into something of which it leaves the last, or into all that is
    left."""
    return last_told(tail) or bool(tail and isinstance(tail[0], Make) and _takes_the_rest(tail[0]))


def last_told(tail: tuple[Op, ...]) -> bool:
    """Whether what comes behind a repetition goes into the last of something, or into the chain that the row below
    begins with: that is left for it."""
    first = next((op for op in tail if isinstance(op, Make | Into)), None)
    slips = isinstance(first, Make) and first.stitch == "sl st"
    places = first.places if first is not None else ()
    return any((place.of or place).which == "last" or (place.which in ("beg", "top") and not slips) for place in places)


def either(p: Hand, op: Either) -> None:
    """The reading that the place right here allows."""
    mark = p.mark()
    for choice in op.choices:
        try:
            before = p.here
            p.play(choice)
            if adjacent(p, before):
                return
        except Stuck as stuck:
            if stuck.kind == "limit":
                raise
        p.go_back(mark)
    raise Stuck("neither of the two ways to work this place fits the row below", "say which is meant", op.at)


def adjacent(p: Hand, before: int) -> bool:
    return p.landed <= before
