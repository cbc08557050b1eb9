""" "Each": all that are left, as far as the words and the rest of the row leave them."""

from __future__ import annotations

from collections.abc import Container

from ...made_late import replace
from ...pattern.lexicon import height_of
from ...pattern.tree import Act, Either, Into, Make, Noun, Op, Place, Skip, Star, Times
from ..cloth.faults import Stuck
from ..cloth.ground import Hit
from ..cloth.site import SPACES, Target
from ..cloth.wording import are
from . import footing, named_places
from .hand import Hand


def each(p: Hand, place: Place) -> list[Target]:
    """All that are left, as far as `until` and as what the row does afterwards leave it."""
    back = footing.back_of(p, place)
    ground = p.ground_at(back)
    nouns = (place.noun, *place.also)
    stops = end_of_each(p, place, back)
    end = stops.start
    spot = _from_where(p, place, back)
    if back == 1 and spot < p.here and place.noun.name not in SPACES:
        p.here = spot
    if place.of is not None:
        end = min(end, _end_of_that(p, place.of, back))
    stop = _bound(p, place, spot) if back == 1 else None
    end = end if stop is None else min(end, stop)
    found = {h: n for n in reversed(nouns) for h in ground.within(n, spot, end)}
    if back == 1:
        found.update({h: place.noun for h in p.corner_spaces if spot <= h.start and h.end <= end})
    kept = sorted((h for h in found if h != stops), key=lambda h: (h.start, h.end))
    kept = [h for h in kept if back != 1 or not footing.is_begun_in(p, found[h], h)]
    kept = _side_by_side(p, place, kept) if back == 1 else kept
    if not kept and not ((place.until or place.upto) and p.spot(back) == end):
        raise footing.none_left(p, place, 0, 1)
    last_end = kept[-1].end if kept else 0
    kept = kept[place.after :: max(place.step, 1)]
    if back == 1 and place.step == 1 and not place.after:
        each_passes(p, kept, nouns, stop)
        chains_next(p, kept, nouns)
    out = [replace(footing.target(p, back, h, Place("each", found[h], hold=place.hold)), noun=found[h]) for h in kept]
    if kept:
        p.go(back, last_end)
    if place.until or place.upto:
        p.stopped = p.spot(back)
    if any(n.name in SPACES for n in nouns):
        p.wide = True
    footing.remember(p, out)
    return out


def _end_of_that(p: Hand, group: Place, back: int) -> int:
    """Where the group ends that has just been worked into; raises Stuck where none has."""
    last = p.last.start if p.last is not None and p.last.back == back else -1
    hit = next((h for h in p.ground_at(back).hits(group.noun) if h.start <= last < h.end), None)
    if hit is None:
        raise Stuck(f"no {p.one(group.noun)} has just been worked into", "say which one is meant")
    return hit.end


def _from_where(p: Hand, place: Place, back: int) -> int:
    """Where "each" begins: the space that slip stitches have moved into is one of them, and the stitch where all that
    they passed over comes again."""
    moved, to_space = p.last is not None and p.last.back == back == 1, place.noun.name in SPACES
    if (
        moved
        and p.last is not None
        and (p.last.foot.hold == "space") == to_space
        and (to_space or p.choice.wrap)
        and p.out
        and p.out[0].role == "travel"
        and all(s.role in ("travel", "start") for s in p.out)
    ):
        assert p.last is not None
        return p.last.start
    worked = any(s.role not in ("travel", "start", "turning") for s in p.out)
    gaps = place.noun.name == "gap" or (place.noun.name in SPACES and not p.ground_at(back).has_spaces)
    return footing.past_gap(p, p.spot(back)) if worked and gaps else p.spot(back)


def end_of_each(p: Hand, place: Place, back: int) -> Hit:
    """What "each" stops at, which is not worked: a place, a gap (empty) or the end."""
    ground = p.ground_at(back)
    end = len(ground.slots)
    if place.upto is not None:
        end = _stop(p, place, back)
    elif place.until and back == 1 and (stop := _bound(p, replace(place, until=None), p.spot(back))) is not None:
        end = stop  # "*2 sc in next sp, sc in each sc to last sc; rep from * around": the last of its group
    if place.until:
        count, noun = place.until
        hits = ground.within(noun, p.spot(back), end)
        if not hits and _begun_in(p, noun, count, back):
            return Hit(end, end + 1)
        if len(hits) < count:
            left = f"only {len(hits)} {are(len(hits))} left" if hits else "none is left"
            if place.upto is not None:
                left += f" before the {p.one(place.upto)}"
            raise Stuck(
                f"the words leave the last {count} {p.many(noun, count)} of {p.site.below}; {left}",
                f"write another number than {count}, or work fewer before",
            )
        if count:
            first = hits[len(hits) - count]
            kept = p.reserve if back == 1 else None
            return kept if kept is not None and kept.end == first.start else first  # "to tch, 2 dc in turning ch sp"
    elif p.reserve is not None and back == 1 and p.reserve.start <= end:
        return p.reserve
    return Hit(end, end + 1)


def _begun_in(p: Hand, noun: Noun, count: int, back: int) -> bool:
    """Whether the last of them is the one that the round began in: "dc in each dc to last corner"."""
    if count != 1 or back != 1 or not (p.rotated and p.site.is_round) or noun.name not in ("corner", *SPACES):
        return False
    return p.ground.slots[0].stitch.role == "chain" or any(h.start == 0 for h in p.ground.hits(noun))


def _stop(p: Hand, place: Place, back: int) -> int:
    """Where the place stands that "each" goes up to; the end where there is none. A marker that nothing tells of hangs
    at the beginning of a round."""
    assert place.upto is not None
    ground = p.ground_at(back)
    hit = ground.find(place.upto, p.spot(back))
    marked = place.upto.name in ("marker", "middle")
    if hit is None and (place.until or (marked and not p.site.is_round)):
        if marked:
            raise not_told()
        raise footing.none_left(p, replace(place, noun=place.upto), 0, 1)
    return ground.stops_at(hit) if hit else len(ground.slots)


def not_told() -> Stuck:
    """A marker is named, but nothing says where it hangs."""
    return Stuck("where a marker hangs cannot be told from the words", "name the stitch instead", kind="ambiguous")


def each_passes(p: Hand, kept: list[Hit], nouns: tuple[Noun, ...], stop: int | None = None) -> None:
    """ "each sc", "each sc and each ch" that passes over other stitches leaves them unworked without a word, also on
    the way to the space where it stops."""
    stitches = [n for n in nouns if n.name not in ("sp", "ch")]
    if not kept or not stitches or any(height_of(n.name) is None and n.name != "st" for n in stitches):
        return
    worked = sum(p.ground.stitches_between(h.start, h.end) for h in kept)
    end = kept[-1].end if stop is None else max(kept[-1].end, stop)
    over = p.ground.stitches_between(p.here, end) - worked
    over -= p.ground.stitches_between(p.here, kept[0].start) if footing.fixed_before(p, p.here, kept[0]) else 0
    if over and not p.corners:
        other = "1 other stitch" if over == 1 else f"{over} other stitches"
        raise Stuck(
            f'"each {p.one(stitches[0])}" passes over {other} of {p.site.below}',
            'write "each st", or say that the others are skipped',
        )


def chains_next(p: Hand, kept: list[Hit], nouns: tuple[Noun, ...]) -> None:
    """ "Hdc in next 5 sts, hdc in each ch": the chains must come next, where the row goes stitch by stitch."""
    if not kept or any(n.name != "ch" for n in nouns) or not p.used_ground or p.site.on_foundation:
        return
    if p.wide or p.chained or p.corners:
        return
    over = p.ground.stitches_between(p.here, kept[0].start)
    if over and p.last is not None and p.last.foot.hold in ("top", "front loop", "back loop") and p.last.end == p.here:
        other = "1 stitch" if over == 1 else f"{over} stitches"
        them = "it" if over == 1 else "them"
        raise Stuck(f'"each ch" passes over {other} of {p.site.below}', f"say what is done with {them}")


def reserved(p: Hand, ops: tuple[Op, ...], at: int) -> Hit | None:
    """The first of the places that a later clause works into, or this one behind its "each", which stops there."""
    this = ops[at]
    own = this.places if isinstance(this, Make) else ()
    behind = own[next((n + 1 for n, place in enumerate(own) if place.which == "each"), len(own)) :]
    kept = next((found for place in behind if (found := reserved_by(p, place)) is not None), None)
    if kept is not None:
        return kept
    for later, op in enumerate(ops[at + 1 :], at + 1):
        if (isinstance(op, Star) and op.more is None) or (isinstance(op, Act) and op.name == "opposite"):
            return None
        if later == at + 1 and (bridge := _before_chains(p, ops, at)) is not None:
            return bridge
        places = op.places if isinstance(op, Make | Into) else ()
        for place in places:
            found = reserved_by(p, place)
            if found is not None:
                return found
    return None


def _before_chains(p: Hand, ops: tuple[Op, ...], at: int) -> Hit | None:
    """ "Sc in each sc, 12 sc over the chain, sc in each sc": the chain that "each" goes up to."""
    if len(ops) < at + 3 or not all(isinstance(op, Make) and len(op.places) == 1 for op in ops[at : at + 3]):
        return None
    first, over, rest = (op.places[0] for op in ops[at : at + 3] if isinstance(op, Make))
    if first.until or first.upto or first.noun.name in SPACES or not first.which == rest.which == "each":
        return None
    if over.which != "next" or over.noun.name not in SPACES:
        return None
    return p.ground.find(over.noun, p.here)


def last_gap(p: Hand, place: Place) -> int | None:
    """The slot of the gap beside the last of a noun ("sp after last group"); None for any other place."""
    of = place.of
    if place.noun.name != "gap" or place.which not in ("before", "after") or of is None or of.which != "last":
        return None
    hits = p.ground.hits(of.noun)
    return (hits[-1].end if place.which == "after" else hits[-1].start) if hits else None


def reserved_by(p: Hand, place: Place) -> Hit | None:
    if footing.back_of(p, place) != 1:
        return None
    if place.which == "last":
        hits = p.ground.hits(place.noun)
        return hits[-place.count] if len(hits) >= place.count else None
    if (beside := last_gap(p, place)) is not None:
        return Hit(beside, beside)
    beginning = place.which in ("top", "beg") or (
        place.which == "nth" and place.of is not None and place.of.which == "beg"
    )
    if beginning and not p.site.is_round:
        item = named_places.start_item(p, 1)
        slot = p.ground.of_item(item)
        in_it = p.ground.hits(place.noun)[-1:] if place.noun.name in SPACES and p.ground.has_spaces else []
        if in_it and in_it[0].end == slot:
            return in_it[0]  # "2 dc in turning ch sp": the chains beside the stitch that it counts as
        return Hit(slot, slot + 1) if slot is not None else None
    return None


def takes_each(op: Op) -> bool:
    """Whether a clause works into all that is left, so that what later clauses need must be kept from it."""
    return (isinstance(op, Make | Into | Skip) and any(p.which == "each" for p in op.places)) or isinstance(
        op, Times | Star | Either
    )


# -- "each" inside a repeat: "*dc in each dc, 3 dc in next ch-2 sp; rep from * around" works one side, not all

_ST = Noun("st")


def what_follows(ops: tuple[Op, ...], at: int, *, top: bool, specials: Container[str] = ()) -> Noun | None:
    """What the clause behind the one at `at` goes into; behind the last of a repeat comes its first. At the top of a
    row only a repeat that follows is asked, and what parts a stitch's run from the next of its kind."""
    if top:
        behind = next((op for op in ops[at + 1 :] if _works(op)), None)
        asked = isinstance(behind, Star | Times) or _is_of_a_run(ops[at], behind, specials)
        return _goes_into(behind) if asked else None
    order = (*ops[at + 1 :], *ops[:at])
    return next((_goes_into(op) for op in order if _works(op)), None)


def _is_of_a_run(op: Op, behind: Op | None, specials: Container[str]) -> bool:
    """ "Sc in each sc, dc in each dc, 3 dc in next ch-2 sp, dc in each dc, sc in each sc": stitches of a kind are those
    that lie side by side, where the row goes into others or into a space behind them."""
    place = op.places[0] if isinstance(op, Make) and len(op.places) == 1 else None
    into = _goes_into(behind)
    if place is None or into is None or place.which != "each" or not _of_stitches(place) or place.noun.name == "st":
        return False
    return into != place.noun and (height_of(into.name) is not None or into.name in SPACES or into.name in specials)


def _works(op: Op) -> bool:
    return isinstance(op, Make | Into | Skip | Star | Times | Either)


def _goes_into(op: Op | None) -> Noun | None:
    if isinstance(op, Star | Times):
        return next((_goes_into(inner) for inner in op.ops if _works(inner)), None)
    if isinstance(op, Make) and not op.places:
        return _ST
    place = op.places[0] if isinstance(op, Make | Into | Skip) and op.places else None
    if place is None or place.row is not None or place.which not in ("next", "each", "skipped"):
        return None
    return place.noun


def _bound(p: Hand, place: Place, spot: int) -> int | None:
    """Where "each" of a stitch ends as what follows it in the repeat begins; None where it goes on to the end."""
    follows = p.follows
    if follows is None or follows == place.noun or not _of_stitches(place):
        return None
    if height_of(follows.name) is None and follows.name != "st":
        hit = p.ground.find(follows, spot)
        return hit.start if hit is not None and hit.start > spot else None
    return None


def _of_stitches(place: Place) -> bool:
    if place.also or place.until or place.upto or place.row or place.of or place.step != 1 or place.after:
        return False
    return place.noun.name == "st" or height_of(place.noun.name) is not None


def _side_by_side(p: Hand, place: Place, kept: list[Hit]) -> list[Hit]:
    """Those of "each FPdc" that stand side by side, where the repeat works other stitches behind them."""
    if p.follows is None or p.follows == place.noun or not _of_stitches(place) or place.noun.name == "st" or not kept:
        return kept
    kind = p.ground.slots[kept[0].start].stitch.kind
    for at in range(1, len(kept)):
        apart = p.ground.stitches_between(kept[at - 1].end, kept[at].start)
        other = p.ground.slots[kept[at].start].stitch.kind != kind and height_of(p.follows.name) is not None
        if apart or other:
            return kept[:at]
    return kept
