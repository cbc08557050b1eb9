"""Skipping, and what moves no stitch: joining yarn, other rows, the other side of the foundation."""

from __future__ import annotations

from typing import cast

from ...made_late import replace
from ...pattern.lexicon import height_of, show_stitch
from ...pattern.tree import (
    FROM_THERE,
    NOWHERE,
    OTHER_SIDE,
    WHOLE_SIDE,
    Act,
    Corner,
    Held,
    Into,
    Make,
    Noun,
    Op,
    Place,
    Skip,
    Span,
)  # fmt: skip
from ..cloth.fabric import counts
from ..cloth.faults import OtherStart, Stuck, left_before
from ..cloth.ground import Ground, Hit
from ..cloth.site import SPACES
from ..cloth.wording import stitches
from . import beginnings, footing, row_end
from .hand import Hand
from .row_end import only_ring

#: What a round that begins in a corner or a space is turned to.
_TURNED_TO = frozenset(("sp", "lp", "corner", "corner sp", "corner st", "mesh", "gap"))


def skip(p: Hand, op: Skip) -> None:
    passed: list[int] = []
    p.covered, open_until = 0, p.pending
    back = footing.back_of(p, op.places[0])
    for place in op.places:
        named = place.noun.name in ("shell", "V-st", "group", "block") or p.repeating
        if place.which == "first" and not named and already(p, place):
            continue
        keep, here = p.last, p.here
        place = _rest_of_its_group(p, place)
        for target in p.targets(place, op.at):
            passed += range(target.start, target.end)
            p.gap_passed = target.start if target.start == target.end and back == 1 else -1
            if p.gap_passed >= 0 and not p.leapt:
                p.leapt = footing.over_space(p, here, target.start)
        p.last = keep
        passes_silently(p, place, here, passed, op.at)
        if place.noun.name in ("st", "ch") or height_of(place.noun.name):
            p.chained, p.wide, p.exact = False, False, True
            p.most_skipped = max(p.most_skipped, place.count)
        p.passed = tuple(passed)
    p.skipped = p.passed = tuple(passed)
    p.skipped_back = back
    p.pending = open_until if back > p.offset else 0
    p.landmark = False


def _rest_of_its_group(p: Hand, place: Place) -> Place:
    """ "Ch 3, turn, sk 3 dc, 3 dc in next sp": where the chain stands on the first stitch of a group of as many, that
    is the group, as skipping so many more would end within the next one (common practice, no source)."""
    begun = p.here == 1 and all(made.role == "turning" for made in p.out)
    begun = begun and p.towards is not None and p.towards.name in ("gap", *SPACES)
    begun = begun and place == Place("next", place.noun, place.count)
    if not begun or place.count < 2 or (place.noun.name != "st" and height_of(place.noun.name) is None):
        return place
    groups = p.ground.hits(Noun("group"))
    whole = any((hit.start, hit.end) == (0, place.count) for hit in groups)
    within = any(hit.start < p.here + place.count < hit.end for hit in groups)
    return replace(place, count=place.count - 1) if whole and within else place


def passes_silently(p: Hand, place: Place, here: int, passed: list[int], at: Span) -> None:
    """A space is named to be skipped, but stitches stand before it that were neither worked nor skipped."""
    spaced = p.last is not None and p.last.foot.hold in ("space", "between")
    plain = place.noun.name == "st" or height_of(place.noun.name) is not None
    if plain and place.which == "last" and passed and not place.row and p.used_ground:
        over = p.ground.stitches_between(here, passed[0])
        if over:
            raise left_before(over, p.site.below, f"the last {p.many(place.noun, place.count)}").at_place(at)
    if place.noun.name not in SPACES or not passed or not p.used_ground or p.wide or spaced or place.row:
        return
    over = p.ground.stitches_between(here, passed[0])
    leads = over == 1 and not here and p.chained  # the row's first loop hangs over the stitch that it begins on
    if over and not leads:
        raise left_before(over, p.site.below, f"the {p.one(place.noun)}").at_place(at)


def already(p: Hand, place: Place) -> bool:
    hits = p.ground.hits(place.noun)[: place.count]
    return bool(hits) and hits[-1].end <= p.here


def act(p: Hand, op: Act) -> None:
    if op.name == "join":
        row_end.join(p, op.place, op.at)
    elif op.name in ("yarn", "along"):
        take_up(p, op)
        tint(p, op)
    elif op.name == "leave":
        p.left_on_purpose, p.leaving = True, int(op.text or 0)
    elif op.name == "short":
        p.goes_on, p.turned_short = p.goes_on or op.text == "on", p.turned_short or op.text != "on"
    elif op.name == "loops":
        p.loops = cast(Held, op.text)
    elif op.name == "row" and op.place is not None:
        other_row(p, op)
    elif op.name == "opposite":
        if not (op.text == "chain" and p.site.on_foundation and not p.out):
            turn_to_opposite(p, whole=op.text == WHOLE_SIDE)
    elif op.name == "pattern":
        raise Stuck("this goes on as rows before, which do not tell how", "write the row out", op.at)
    elif op.name == "edge":
        if op.text == OTHER_SIDE and p.site.on_foundation and p.out and not p.opposite and not only_ring(p):
            turn_to_opposite(p)
        else:
            p.on_edge = True
    elif op.name == "behind":
        p.left_on_purpose = True
    elif op.name in ("colour", "change"):
        tint(p, op)
    elif op.name == "crossing":
        p.passing = op.text
    elif op.name in ("ends in", "begins in"):
        p.edges_told = (*p.edges_told, op)
    elif op.name == "chains passed":
        check_chains(p, op)
    elif op.name == "last":
        p.landmark = p.landmark or op.place is None or reached(p, op.place, op.at)


def tint(p: Hand, op: Act) -> None:
    """What is made from here on is in another yarn, where a stitch of the row is made already."""
    if op.name != "along" and op.text not in ("", "yarn") and any(s.role == "stitch" for s in p.out):
        p.tinted = (*p.tinted, (len(p.out), op.text))


def check_chains(p: Hand, op: Act) -> None:
    """Raise Stuck unless chains lie where they are said to be passed over: before or after the place just worked into,
    or between those worked into."""
    if p.joined and p.begun_with:
        return  # the chain that the round itself begins with
    spots = [0, *(at for touched in p.touched for at in touched)]
    before = range(spots[-3] if len(spots) > 2 else 0, spots[-2] if len(spots) > 1 else 0)
    after = range(spots[-1], min(spots[-1] + 1, len(p.ground.slots)))
    between = [at for end, start in zip(spots[::2], spots[1::2], strict=False) for at in range(end, start)]
    beside = {"before": before, "after": after, "between": between}[op.text]
    if not any(p.ground.slots[at].stitch.role in ("chain", "foundation") for at in beside):
        raise Stuck(f"{p.site.below} has no chains there to pass over", "say what is skipped", op.at)


def check_edges(p: Hand) -> None:
    """Raise Stuck where a row is said to begin or end with a stitch that it does not."""
    made = [s for s in p.out if counts(s)]
    for op in p.edges_told if made else ():
        at = made[-1] if op.name == "ends in" else made[0]
        if at.kind != op.text:
            which, there = ("last", "ends") if op.name == "ends in" else ("first", "begins")
            wanted, got = (show_stitch(kind, p.site.terms) for kind in (op.text, at.kind))
            says = f"the {which} stitch is said to be {wanted}, but the row {there} with {got}"
            raise Stuck(says, f'write "{got}", or work {wanted} there', op.at)


def reached(p: Hand, place: Place, at: Span = NOWHERE) -> bool:
    """Whether the row has come as far as a place; a place that cannot be told is taken at its word. Raise OtherStart
    where it is in a beginning chain of another number."""
    here, mark, low = p.here, p.mark(), p.joined_low
    try:
        end = p.targets(place, at)[-1].end
        low = p.joined_low
    except OtherStart:
        raise
    except Stuck as stuck:
        return "already" in stuck.says or place.which not in ("top", "beg", "nth", "last")
    finally:
        p.go_back(mark)
        p.joined_low = low
    return here >= end


def take_up(p: Hand, op: Act) -> None:
    """A new yarn joined at a place: the hook is there, and has used nothing yet."""
    if op.place is None:
        return
    place = op.place
    begins = op.text == FROM_THERE or (op.name == "yarn" and place.which == "next" and place.count == 1)
    if begins and place.which in ("next", "first") and p.site.is_round and p.travelling():
        place = replace(place, which="any", nth=0) if place.nth < 2 and place.noun.name in _TURNED_TO else place
    found = p.targets(place, op.at)
    if not found:
        return
    target = found[0]
    if place.which == "hook":
        beginnings.before_hook(p, target)
        return
    if target.back == 1 and p.main == 1:
        p.here = target.start
    elif target.back != 1:
        p.others = {**p.others, target.back: (target.start, p.here)}
    p.last = target


def other_row(p: Hand, op: Act) -> None:
    """From here on the row is worked into an earlier row as if that were the row below."""
    assert op.place is not None
    back = footing.back_of(p, op.place)
    ground = p.ground_at(back)
    turned = Ground(ground.row, ground.slots, ground.loose, shapes=ground.shapes)
    p.ground, p.main, p.here, p.within, p.offset = turned, 1, 0, 0, back
    p.loops = cast(Held, op.text) or p.loops
    word = "Rnd" if p.site.is_round else "Row"
    p.site = replace(p.site, below=f"{word} {p.site.number - back}")


def turn_to_opposite(p: Hand, *, whole: bool = False) -> None:
    """Along the other side of the foundation chain, back towards its beginning; `whole` from the chain that the first
    side ended with, where that holds no more than one stitch yet."""
    if not p.site.on_foundation and p.last is not None and p.last.foot.hold == "edge":
        p.on_edge = True
        return
    if not p.site.on_foundation or p.opposite or only_ring(p):
        raise Stuck("there is no foundation chain here with another side", "say which stitches are worked into")
    p.taken_before += sum(1 for slot in p.ground.slots[: p.here] if slot.stitch.role != "picot")
    first = max((s.feet[0].at for s in p.out if s.feet and s.feet[0].back == 1), default=0)
    row = p.ground.row
    end = p.ground.slots[-1].item
    once = sum(1 for s in p.out if s.role == "stitch" and any(f.back == 1 and f.at == end for f in s.feet)) == 1
    slots = tuple(s for s in reversed(p.ground.slots if whole and once else p.ground.slots[:-1]) if s.item <= first)
    p.ground = Ground(row, slots, shapes=p.ground.shapes)
    p.here, p.within, p.corners = 0, 0, {}
    p.opposite = True
    p.landmark = True
    p.left_on_purpose = True


def mark_corners(p: Hand, op: Corner) -> None:
    found, corners = False, dict(p.corners)
    for place in op.make.places:
        of = place.of
        noun = of.noun if of is not None else place.noun
        for whole in _excepted(p, op, place, noun):
            found = True
            there = place.noun if of is not None else Noun("sp") if place.noun.name == "corner" else None
            within = there is not None and there.name in ("sp", "lp")
            spaces = p.ground.within(there, whole.start, whole.end) if there is not None and within else []
            hit = spaces[min(max(place.nth, 1), len(spaces)) - 1] if spaces else whole
            if hit.end > hit.start and all(not counts(p.ground.slots[i].stitch) for i in range(hit.start, hit.end)):
                corners[hit.start] = op.make
                p.corner_spaces = (*p.corner_spaces, hit)
                continue
            several = isinstance(op.make, Into) or (op.make.count > 1 and op.make.stitch not in ("inc", "dec"))
            space = _space_within(p, hit) if of is None and noun.name == "corner" and several else None
            if space is not None:
                corners[space.start] = op.make
                p.corner_spaces = (*p.corner_spaces, space)
                continue
            inside = [i for i in range(hit.start, hit.end) if counts(p.ground.slots[i].stitch)]
            if not inside:
                continue
            at = len(inside) // 2 if place.nth <= 0 or of is None else min(place.nth, len(inside)) - 1
            corners[inside[at]] = op.make
    p.corners = corners
    if not found:
        noun = op.make.places[0].noun
        raise Stuck(f"{p.site.below} has no {p.one(noun)} to do this at", "say where it is done", op.at)


def _space_within(p: Hand, hit: Hit) -> Hit | None:
    """The one chain space of a group, with stitches on both sides, in which its corner lies."""
    chained = [i for i in range(hit.start, hit.end) if p.ground.slots[i].stitch.role == "chain"]
    if not chained or chained[-1] - chained[0] + 1 != len(chained):
        return None
    between = hit.start < chained[0] and chained[-1] + 1 < hit.end
    return Hit(chained[0], chained[-1] + 1) if between else None


#: Of every other stitch it may be the first or the second that is meant.
_OTHER = 2


def _excepted(p: Hand, op: Corner, place: Place, noun: Noun) -> list[Hit]:
    """Where something else is done than along the rest of the row."""
    hits = p.ground.hits(noun)
    if place.which == "each" and place.step > 1:
        plain = noun.name == "st" or height_of(noun.name) is not None
        return hits[place.step - 1 if plain and place.step > _OTHER else 0 :: place.step]
    if place.which == "last":
        if not hits:
            return []
        legs = op.make.count if isinstance(op.make, Make) and op.make.stitch == "dec" else place.count
        return hits[-legs:][: 1 if legs != place.count else None]
    if place.which == "first" or (place.which == "next" and place.of is None and noun.name in ("st", "ch")):
        return hits[: place.count]
    return hits


def mark_spread(p: Hand, op: Act, ops: tuple[Op, ...]) -> None:
    """Increases told as evenly spaced: two stitches at so many places, as evenly apart as whole stitches allow."""
    made = next((o for o in ops if isinstance(o, Make) and any(q.which == "each" for q in o.places)), None)
    slots = [i for i, slot in enumerate(p.ground.slots) if counts(slot.stitch) or slot.stitch.role == "foundation"]
    wanted = int(op.text) - (len(slots) if op.name == "spread to" else 0)
    if made is None:
        made = Make("sc")
    if wanted < 0:
        _spread_decreases(p, -wanted, slots, op)
        return
    if wanted > len(slots):
        raise Stuck(
            f"{wanted} increases do not fit into {stitches(len(slots))} of {p.site.below}", "say where they go", op.at
        )
    more = replace(made, count=made.count + 1)
    p.corners = {**p.corners, **{slots[(2 * k + 1) * len(slots) // (2 * wanted)]: more for k in range(wanted)}}


def _spread_decreases(p: Hand, wanted: int, slots: list[int], op: Act) -> None:
    """Decreases told as evenly spaced: two together at so many places."""
    if 2 * wanted > len(slots):
        raise Stuck(
            f"{wanted} decreases do not fit into {stitches(len(slots))} of {p.site.below}", "say where they go", op.at
        )
    p.corners = {**p.corners, **{slots[k * len(slots) // wanted]: Make("dec", 2) for k in range(wanted)}}
