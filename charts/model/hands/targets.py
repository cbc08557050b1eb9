"""Places as the words name them, found on the ground."""

from __future__ import annotations

from ...made_late import replace
from ...pattern.lexicon import height_of
from ...pattern.tree import Into, Make, Noun, Op, Place, Skip, Span, walk
from ..cloth.fabric import Foot, counts
from ..cloth.faults import Stuck, left_before
from ..cloth.ground import Ground, Hit
from ..cloth.site import SPACES, Target
from ..cloth.state import Grown
from ..cloth.wording import are
from . import beginnings, below, edges, footing, moves, named_places, remaining, row_end, unworked
from .hand import Hand


def targets(p: Hand, place: Place, at: Span) -> list[Target]:
    place = _whole_run(p, _of_beginning(p, _under_stitches(p, place)))
    which = place.which
    own = beginnings.own_next(p, place)
    if own is not None:
        return own
    if which == "edge" or ((p.on_edge or edges.bare_edge(p)) and which in ("next", "each", "first", "any")):
        return edges.along(p, place, at)
    if (there := edges.corner(p, place)) is not None:
        return there
    if which == "evenly":
        return edges.evenly(p, place, at)
    if which == "ring" or _only_the_ring(p, place):
        if which == "each" and place.noun.name == "st" and any(made.role == "stitch" for made in p.out):
            says = "the ring holds no stitches but those that this round makes"
            raise Stuck(says, "give the round that goes into them a name of its own")
        all_there = place.count if place.which == "next" and place.noun.name == "st" else 1  # "dc 3": all go there
        return [Target(Foot(0, 1, "ring"), 0, 0)] * all_there
    if which == "made":
        return [_last_loop_below(p) or Target(Foot(max(len(p.out) - 1, 0), 0), 0, 0, 0)]
    if which == "same":
        return [same(p, place)]
    if which == "hook":
        return beginnings.hook(p, place)
    if which in ("top", "beg"):
        return [named_places.beginning(p, place)]
    if which == "nth":
        return named_places.nth(p, place)
    if which == "skipped":
        return unworked.skipped(p, place)
    if which == "unworked":
        return unworked.unworked(p, place)
    if which == "opening":
        return [Target(Foot(len(p.ground.row.stitches) - 1, 1, "under"), 0, 1)]
    if which in ("before", "after", "between"):
        return [named_places.beside(p, place)]
    if which == "each":
        return remaining.each(p, place)
    if which == "any":
        return anywhere(p, place)
    if which == "ends":
        return [*first_ones(p, Place("first")), *last_ones(p, Place("last"))]
    if which == "along post":
        raise Stuck("stitches along a post have no place in the row", "work this row from its words")
    if which == "marked":
        return marked(p, place)
    if which == "row":
        raise remaining.not_told()
    if which == "half":
        return half(p, place)
    if which == "first":
        return first_ones(p, place)
    if which in ("last", "again"):
        return last_ones(p, place)
    return next_ones(p, place)


def _of_beginning(p: Hand, place: Place) -> Place:
    """ "In last ch-7 sp", "in 4th ch of last ch-7", where only the beginning chain of the row below has so many: the
    space that it leaves, and that chain."""
    named = place if place.of is None or place.which != "nth" else place.of
    noun = named.noun
    if noun.name not in ("sp", "lp") or not noun.size or named.row or named.count > 1:
        return place
    if named.which not in ("last", "next", "first"):
        return place
    if p.site.is_round or p.site.on_foundation or p.ground.hits(noun) or named_places.start_chains(p, 1) != noun.size:
        return place
    chain = Place("beg", Noun("ch", noun.size))
    return replace(place, of=chain) if named is not place else Place("nth", Noun("sp"), nth=1, of=chain)


def _whole_run(p: Hand, place: Place) -> Place:
    """ "5 dc in the 4 ch", "2 dc over ch-4", "in center ch of ch-4": the loop of so many chains, where the next one is
    of just so many and no beginning chain can be meant."""
    if place.bare and place.which == "next" and place.noun.name == "ch" and place.row is None:
        loop = Noun("sp", place.count if place.count > 1 else 0)
        return Place("next", loop, hold=place.hold) if _comes_next(p, loop) else replace(place, bare=False)
    run = place.of if place.which == "nth" and not place.nth and place.of is not None else place
    loop = Noun("sp", run.noun.size)
    if run.which != "beg" or not run.noun.size or run.row is not None or p.site.on_foundation:
        return place
    begun = run.noun.size in (named_places.start_chains(p, 1), p.begun_with)
    if p.ground.find(loop, p.spot(1)) is None or not (p.looping or (not begun and _comes_next(p, loop))):
        return place
    return Place("next", loop, hold=place.hold) if run is place else replace(place, of=Place("next", loop))


def _comes_next(p: Hand, loop: Noun) -> bool:
    """Whether the chains that come next are the loop of just so many."""
    hit, chain = p.ground.find(loop, p.spot(1)), p.ground.find(Noun("ch"), p.spot(1))
    return not p.site.on_foundation and hit is not None and chain is not None and hit.start == chain.start


def _under_stitches(p: Hand, place: Place) -> Place:
    """ "Sc in next 3 sc" along the other side of the foundation chain: the chains that these stitches stand on."""
    named = p.opposite and place.row is None and place.which in ("next", "each", "last", "first")
    if named and height_of(place.noun.name) is not None and not p.ground.hits(place.noun):
        chain = replace(place, noun=Noun("ch"))
        one = p.site.is_round and place.which == "next" and place.count == 1
        if one and p.ground.find(chain.noun, p.here) is None:
            return replace(chain, which="first")  # "2 sc in next sc": the first that the round has made
        return chain
    return place


def _last_loop_below(p: Hand) -> Target | None:
    """ "Ch 1, sc in loop just made" at the beginning of a round: the loop that the round below ended with, where the
    hook stands; the round goes on from there. None where anything has been made since."""
    if not p.site.is_round or p.rotated or any(s.role not in ("start", "turning") for s in p.out):
        return None
    loops = p.ground.hits(Noun("sp"))
    if not loops or loops[-1].end != len(p.ground.slots) or len(loops) < 2:
        return None
    return _begun_in_loop(p, loops[-1])


def _closing_loop(p: Hand) -> Target | None:
    """ "Ch 3, 2 dc in same sp" at the beginning of a round: where a stitch closed the round below ("ch 1, sc in top of
    ch-3"), the space under that stitch, which the hook stands over."""
    if not p.site.is_round or p.rotated or p.opposite or any(s.role not in ("start", "turning") for s in p.out):
        return None
    below = p.ground.row.stitches
    if len(below) < 2 or below[-1].role != "join" or below[-1].kind == "sl st" or below[-2].role != "chain":
        return None
    loops = p.ground.hits(Noun("sp"))
    over = next((h for h in loops if p.ground.slots[h.start].item == len(below) - 2), None)
    return _begun_in_loop(p, over) if over is not None and len(loops) > 1 else None


def _loop_ahead(p: Hand) -> Target | None:
    """ "Ch 3, 2 dc in same sp" at the beginning of a round that stands on a stitch: the space right behind it, where
    each stitch of the row below stands before one (common practice, no source)."""
    slots = p.ground.slots
    if not p.in_spaces or not p.site.is_round or p.rotated or p.opposite:
        return None
    if any(s.role not in ("start", "turning") for s in p.out):
        return None
    loops = p.ground.hits(Noun("sp"))
    mesh = len(loops) > 2 and len(loops) == sum(1 for slot in slots if counts(slot.stitch))
    return _begun_in_loop(p, loops[0]) if mesh and loops[0].start == 1 and slots[-1].stitch.role == "chain" else None


def in_spaces_only(ops: tuple[Op, ...]) -> bool:
    """Whether all that a row works goes into spaces, but for slip stitches and what it says goes where it has begun."""
    work = [op for op in walk(ops) if isinstance(op, Make | Into | Skip) and op.places]
    places = [p for op in work if not (isinstance(op, Make) and op.stitch == "sl st") for p in op.places]
    ahead = [p for p in places if p.which not in ("same", "made", "beg", "top")]
    return bool(ahead) and all(p.noun.name in SPACES for p in ahead) and not any(isinstance(op, Skip) for op in work)


def _begun_in_loop(p: Hand, loop: Hit) -> Target:
    """The round begun in a loop, which the ground is turned to."""
    hit = Hit(0, loop.end - loop.start)
    footing.turn_ground(p, loop.start)
    p.here, p.within = hit.end, 0
    found = footing.target(p, 1, hit, Place("next", Noun("sp")))
    if p.out and p.out[-1].role == "turning":
        p.out = Grown((*p.out[:-1], replace(p.out[-1], feet=(found.foot,))))
    footing.remember(p, [found])
    return found


def _only_the_ring(p: Hand, place: Place) -> bool:
    """ "6 dc in loop" where nothing is below but the ring: whatever it is called, the ring is meant."""
    if place.which == "nth" and not place.nth and place.of is not None and place.of.noun.name in ("lp", "sp"):
        place = place.of  # the middle of it
    if (
        place.which not in ("next", "each", "same", "first")
        or place.row is not None
        or (place.which == "same" and p.out)
    ):
        return False
    return row_end.only_ring(p) and p.context is None and place.noun.name in ("lp", "sp", "ch", "st", "hole", "ring")


def next_ones(p: Hand, place: Place) -> list[Target]:
    back = footing.back_of(p, place)
    if place.noun.name == "middle st" and p.ground_at(back).find(place.noun, p.spot(back)) is None:
        place = replace(place, noun=Noun(place.noun.of))  # nothing tells where the middle lies: the next one
    if place.row is not None and back <= p.offset:
        p.settle()
    if place.nth > 1 and back == 1 and _after_counted_chain(p):
        assert p.last is not None
        p.here = p.last.start
    ground = p.ground_at(back)
    if p.choice.runs and back == 1 and place.count > 1 and not place.nth:
        p.go(back, _run_of(p, place))
    out = unworked.next_of_short_rows(p, place, back) if back > p.offset and place.row is not None else []
    if out:
        return out
    for number in range(place.count + max(place.nth - 1, 0)):
        spot = p.spot(back)
        if place.noun.name in SPACES and (place.noun.name == "gap" or not ground.has_spaces):
            spot = spot + 1 if out and out[-1].start == out[-1].end == spot else footing.past_gap(p, spot)
        if p.choice.stay and not number and _stays_in(p, place):
            assert p.last is not None
            spot = p.last.start
        hit = _found(p, place, back, number, spot)
        if place.bare and not number and (there_now := _slipped_into(p, place, back)):
            spot, hit = there_now.start, there_now
        if back == 1 and spot < p.covered and (place.noun.name == "st" or height_of(place.noun.name)):
            beyond = ground.find(place.noun, p.covered)
            spot, hit = (p.covered, beyond) if beyond else (spot, hit)
        if hit is None and back == 1 and _round_the_end(p):
            moves.turn_to_opposite(p)
            ground = p.ground
            spot, hit = 0, ground.find(place.noun, 0)
        if hit is None:
            come_round = _round_to_the_start(p, place, back)
            again = come_round is not None and any(t.start == come_round.start for t in out)
            hit = _behind_the_last(p, place, back) if come_round is None or again else come_round
            hit = hit or _half_begun(p, place, back)
        if hit is None:
            there = edges.goes_on(p, place, number)
            if there is not None:
                return there
            behind = unworked.beyond(p, place, number) if back == 1 else []
            if behind:
                footing.remember(p, [*out, *behind])
                return [*out, *behind]
            raise footing.none_left(p, place, number, place.count)
        footing.passable(p, back, spot, hit, place)
        footing.note_leap(p, back, spot, hit, place)
        if back == 1:
            _note_misnamed(p, ground, place.noun)
        if back == 1 and place.noun.name in SPACES and hit.end > hit.start and not number:
            footing.skipped_up_to(p, hit.start, place.noun)
        if hit.start == hit.end and back == 1 and _stepping_into_gap(p):
            hit, spot = footing.begin_round_at(p, hit), 0
            ground = p.ground
        p.go(back, max(hit.end, spot))
        if number >= place.nth - 1:
            out.append(footing.target(p, back, hit, place))
    footing.remember(p, out)
    return out


def _found(p: Hand, place: Place, back: int, number: int, spot: int) -> Hit | None:
    """The next of a noun from a slot on, but for the gap that the round has begun in."""
    if back > p.offset:
        return below.find(p, place, back, number)
    hit = p.ground_at(back).find(place.noun, spot)
    return hit if hit is None or back != 1 or not footing.is_begun_in(p, place.noun, hit) else None


def _note_misnamed(p: Hand, ground: Ground, noun: Noun) -> None:
    """Note where a space is named by groups or by chains that it does not lie between."""
    if noun.name == "gap" and (of_size := ground.misses_groups(noun)):
        p.amiss = p.amiss or Stuck(f"{p.site.below} has no {of_size}", f"name the groups of {p.site.below}")
    if other := ground.misses_between(noun):
        p.amiss = p.amiss or Stuck(f"{p.site.below} has no {other}", "say of how many chains the space is")


def _run_of(p: Hand, place: Place) -> int:
    """Where the next so many of a stitch begin that stand side by side, with no chain between them: past fewer of them
    that end at one; the place itself where no such ones follow."""
    spot = p.spot(1)
    ahead = [h for h in p.ground.hits(place.noun) if h.start >= spot]
    runs: list[list[Hit]] = []
    for hit in ahead:
        if runs and runs[-1][-1].end == hit.start:
            runs[-1].append(hit)
        else:
            runs.append([hit])
    if not runs or len(runs[0]) >= place.count:
        return spot
    return next((run[0].start for run in runs if len(run) == place.count), spot)


def _stepping_into_gap(p: Hand) -> bool:
    """Whether a round is about to begin in a gap, that nothing but slip stitches have led up to."""
    return p.site.is_round and not p.rotated and all(s.role == "travel" for s in p.out)


def _slipped_into(p: Hand, place: Place, back: int) -> Hit | None:
    """The group that slip stitches have moved into, or work has gone up to: "sl st to corner sp, 3 dc in corner"; the
    space whose first chains they went along: "sl st in next 3 ch, sc in loop"."""
    moved = p.last is not None and all(s.role in ("travel", "start", "turning") for s in p.out)
    if back == 1 and moved and place.noun.name in ("sp", "lp") and p.ground.has_spaces:
        return next((h for h in p.ground.hits(place.noun) if h.start < p.here < h.end), None)
    if back != 1 or not p.out or not (p.travelling() or p.stopped == p.here):
        return None
    if height_of(place.noun.name) or place.noun.name in ("st", "ch", *SPACES):
        return None
    inside = next((h for h in p.ground.hits(place.noun) if h.start < p.here < h.end), None)
    return next((h for h in p.ground.hits(Noun("sp")) if inside and h.start == p.here), inside)


def _round_to_the_start(p: Hand, place: Place, back: int) -> Hit | None:
    """What a round passed over before its first place and has come round to: "(2 sc in next sp, sc in next dc) 8 times"
    that begins in a space ends in the first dc."""
    if back != 1 or not p.site.is_round or not p.touched or place.row is not None or place.nth or p.landmark:
        return None
    first = min(start for start, _ in p.touched)
    hit = p.ground.find(place.noun, 0)
    if hit is None or not hit.start < hit.end <= first or not p.used_ground:
        return None
    item = p.ground.slots[hit.start].item
    return None if any(f.back == 1 and f.at == item for s in p.out for f in s.feet) else hit


def _half_begun(p: Hand, place: Place, back: int) -> Hit | None:
    """The loop that a round began in under the stitch which closed the round below, come to again when its repeats are
    done: "ch 3, 3 dc in same sp, (sc in next sp, 8 dc in next sp) 3 times, sc in next sp, 4 dc in next sp" fills it."""
    below, first = p.ground.row.stitches, next((s for s in p.out if s.feet), None)
    closed = len(below) > 1 and below[-1].role == "join" and below[-1].kind != "sl st"
    inside = not p.rotated or p.looping or p.repeating or p.in_part
    if back != 1 or not closed or inside or place.noun.name not in SPACES or first is None:
        return None
    hit = p.ground.find(place.noun, 0)
    begun = first.feet[0].hold == "space" and hit is not None and first.feet[0].at == p.ground.slots[hit.start].item
    again = p.last is not None and hit is not None and p.last.start == hit.start
    return hit if begun and not again else None


def _behind_the_last(p: Hand, place: Place, back: int) -> Hit | None:
    """The gap between the last petal and the first where the round below was not joined: it lies where that ended."""
    gaps, end = p.ground.hits(place.noun), len(p.ground.slots)
    if back != 1 or place.noun.name != "gap" or not p.site.is_round or p.rotated or not gaps or p.ground.row.joined:
        return None
    groups = p.ground.hits(Noun("group"))
    whole = len(groups) > 1 and groups[0].start == 0 and groups[-1].end == end and gaps[-1].end < end
    used = p.last is not None and p.last.back == 1 and p.last.start == end
    return Hit(end, end) if whole and not used else None


def _round_the_end(p: Hand) -> bool:
    """Whether a round along a foundation chain has just worked several stitches into its last chain, which bring it
    round to the other side (common practice, no source)."""
    if not (p.site.is_round and p.site.two_sided) or p.opposite or len(p.ground.slots) < 2:
        return False
    last = p.ground.slots[-1].item
    return sum(1 for s in p.out if s.feet and s.feet[0].back == 1 and s.feet[0].at == last) > 1


def marked(p: Hand, place: Place) -> list[Target]:
    """ "In marked st": where the words before have told a marker by shaping."""
    hit = p.ground.find(Noun("marker"), p.here)
    if hit is None or place.row is not None:
        raise remaining.not_told()
    footing.passable(p, 1, p.here, hit, place)
    p.here = hit.end
    out = [footing.target(p, 1, hit, place)]
    footing.remember(p, out)
    return out


def _stays_in(p: Hand, place: Place) -> bool:
    """Whether a place that is not called the next one is the space slipped into, "sl st in sp, ch 3, 2 dc in sp", also
    by a chain that counts as a stitch; or one that a repeat names all alike."""
    if place.bare:
        return moved_into(p, counted=True)
    return p.looping > 0 and place.noun.name in SPACES and moved_into(p)


def moved_into(p: Hand, *, counted: bool = False) -> bool:
    """Whether the row has done nothing yet but move into a space by slip stitches; `counted`: and rise there by a chain
    that counts."""
    if p.last is None or p.last.back != 1:
        return False
    below = p.ground.slots[p.last.start].stitch if p.last.start < len(p.ground.slots) else None
    there = p.last.foot.hold == "space" or (below is not None and below.role == "chain")
    return there and all(s.role in ("travel", "start", *(("turning",) if counted else ())) for s in p.out)


def _after_counted_chain(p: Hand) -> bool:
    """Whether nothing is made but a beginning chain that counts: "in 2nd sc" counts from the stitch it stands over."""
    alone = p.counted_start and not p.repeating and p.context is None
    alone = alone and all(s.role in ("turning", "chain") for s in p.out)
    return alone and p.last is not None and p.last.back == 1 and p.last.end == p.here


def same(p: Hand, place: Place) -> Target:
    if place.row is not None and (back := footing.back_of(p, place)) > p.offset:
        return same_below(p, place, back)
    if p.context is not None and p.last is None:
        return p.context
    if place.noun.name in SPACES and place.row is None and (over := _closing_loop(p) or _loop_ahead(p)) is not None:
        return over
    if place.of is not None and p.out and (begun := _begun_in(p)) is not None:
        return begun
    if p.last is not None:
        if (gone_to := _slipped_up_to(p, place)) is not None:
            return gone_to
        if p.repeating and _skipped_on(p, place):
            return next_ones(p, replace(place, which="next"))[0]
        if p.last.back == 1:
            p.here = max(p.here, p.last.end)
        return p.last
    hit = p.ground.find(place.noun, 0)
    if place.noun.name in ("sp", "lp") and hit is not None and (hit.start or hit.start == hit.end):
        hit = None  # no space begins the row below: the stitch that the hook stands on is meant
    hit = hit or p.ground.find(Noun("st"), 0)
    if hit is None and _in_the_ring(p):
        return Target(Foot(0, 1, "ring"), 0, 0)
    if hit is None:
        raise Stuck('nothing has been worked yet that "same" could mean', "name the place")
    target = footing.target(p, 1, hit, place)
    p.here = max(p.here, hit.end)
    p.last = target
    return target


def _in_the_ring(p: Hand) -> bool:
    """Whether the last stitch went into the ring: "dc in ring, *ch 3, 2 dc in same space" goes there too."""
    made = next((s for s in reversed(p.out) if s.role == "stitch"), None)
    return made is not None and any(foot.hold == "ring" for foot in made.feet)


def _skipped_on(p: Hand, place: Place) -> bool:
    """ "*Sc in same st, ch 3, skip next 2 sts; rep from * around": "same" is where the first pass begins; behind the
    skip it is the stitch that the hook has come to."""
    if place.of is not None or place.row is not None:
        return False
    if place.noun.name != "st" and height_of(place.noun.name) is None:
        return False
    return p.last is not None and p.last.back == 1 and bool(p.passed) and p.here == p.passed[-1] + 1 > p.last.end


def _begun_in(p: Hand) -> Target | None:
    """The place that the first stitch of the row went into; None before any was made."""
    foot = next((s.feet[0] for s in p.out if s.feet and s.role in ("stitch", "turning")), None)
    span = p.ground.span_of(foot.at) if foot is not None and foot.back == 1 else None
    if foot is None or span is None:
        return None
    found = Target(foot, span.start, span.end, 1)
    p.last = found
    return found


def _slipped_up_to(p: Hand, place: Place) -> Target | None:
    """ "Sl st to ch-1 sp, 3 dc in same sp": the space that slip stitches have led up to."""
    if place.noun.name not in (*SPACES, "corner") or p.stopped != p.here or any(s.role == "stitch" for s in p.out):
        return None
    hit = next((h for h in p.ground.hits(Noun("sp")) if h.start == p.here), None)
    if hit is None or p.last is None or p.last.foot.hold == "space":
        return None
    found = footing.target(p, 1, hit, Place("next", Noun("sp")))
    p.here = hit.end
    footing.remember(p, [found])
    return found


def same_below(p: Hand, place: Place, back: int) -> Target:
    """ "Same dc 2 rows below": the place just used there, else what lies straight below the place just used."""
    if p.last is None:
        raise Stuck('nothing has been worked yet that "same" could mean', "name the place")
    if p.last.back == back:
        return p.last
    under = below.column(p, back, p.last.start)
    found = p.ground_at(back).within(place.noun, under.start, under.end) if p.last.back == 1 else []
    if not found:
        raise Stuck(
            f"no {p.one(place.noun)} of {below.row_name(p, back)} lies straight below the place just used",
            'write "next", or name the place',
        )
    p.last = footing.target(p, back, found[0], place)
    return p.last


def anywhere(p: Hand, place: Place) -> list[Target]:
    """A new yarn joined anywhere: the round begins there."""
    if place.row is not None and (back := footing.back_of(p, place)) > p.offset:
        found = p.ground_at(back).find(place.noun, 0)
        if found is None:
            raise footing.none_left(p, place, 0, 1)
        return [footing.target(p, back, found, place)]
    hit = p.ground.find(place.noun, 0) if place.of is None else _right_beside(p, place, place.of)
    if hit is None:
        raise footing.none_left(p, place, 0, 1)
    hit = footing.begin_round_at(p, hit)
    target = footing.target(p, 1, hit, place)
    p.here = max(p.here, hit.end)
    footing.remember(p, [target])
    return [target]


def _right_beside(p: Hand, place: Place, side: Place) -> Hit | None:
    """The first of a noun that stands right behind, or before, one of another: "any tr after a ch-3 sp"."""
    assert side.of is not None
    size = len(p.ground.slots)
    others = p.ground.hits(side.of.noun)
    if side.which == "after":
        ends = {hit.end % size for hit in others}
        return next((hit for hit in p.ground.hits(place.noun) if hit.start in ends), None)
    begins = {hit.start for hit in others}
    return next((hit for hit in p.ground.hits(place.noun) if hit.end % size in begins), None)


def first_ones(p: Hand, place: Place) -> list[Target]:
    back = footing.back_of(p, place)
    ground = p.ground_at(back)
    hits = ground.hits(place.noun)[: place.count]
    if hits and back == 1 and place.noun == Noun("ch") and _comes_to_the_first_made(p, hits):
        return last_ones(p, replace(place, which="last"))
    if p.repeating and hits and back == 1 and hits[0].start < p.here:
        return next_ones(p, replace(place, which="next"))
    if not place.count:
        return []  # "in first 0 sts" of a size that works none there
    if len(hits) < place.count:
        raise footing.none_left(p, place, len(hits), place.count)
    out = [footing.target(p, back, h, place) for h in hits]
    p.go(back, max(p.spot(back), hits[-1].end))
    footing.remember(p, out)
    return out


def _comes_to_the_first_made(p: Hand, hits: list[Hit]) -> bool:
    """ "Dc in the first ch made" at the end of a row along the foundation: its first chain is the last one reached."""
    return p.site.on_foundation and not (p.site.is_round or p.opposite or p.looping) and hits[0].start < p.here


def half(p: Hand, place: Place) -> list[Target]:
    """ "First half of sts": as many as half the base holds; an odd number has no half."""
    there = len(p.ground_at(footing.back_of(p, place)).hits(place.noun))
    if there % 2 or not there:
        raise Stuck(f"{p.site.below} has {there} {p.many(place.noun, there)}, which have no half", "say how many")
    if place.nth == 1:
        return first_ones(p, replace(place, which="first", count=there // 2, nth=0))
    return last_ones(p, replace(place, which="last", count=there // 2, nth=0))


def last_ones(p: Hand, place: Place) -> list[Target]:
    back = footing.back_of(p, place)
    ground = p.ground_at(back)
    hits = ground.hits(place.noun)
    behind = max(place.nth - 1, 0)
    if len(hits) < place.count + behind:
        raise footing.none_left(p, place, max(len(hits) - behind, 0), place.count)
    hits = hits[len(hits) - behind - place.count : len(hits) - behind]
    if place.which == "again" and p.last is not None and (p.last.back, p.last.start) == (back, hits[0].start):
        return [p.last]
    if back == 1 and p.opposite and p.last is not None and hits[0].end == p.last.end == p.here and place.count == 1:
        return [p.last]  # round the end of the other side, which the stitch before has reached
    if back == 1 and hits[0].start < p.here:
        raise not_left(p, place, ground.left(place.noun, p.here))
    last_passes(p, hits, place)
    out = [footing.target(p, back, h, place) for h in hits]
    p.go(back, hits[-1].end)
    p.landmark = True
    footing.remember(p, out)
    return out


def not_left(p: Hand, place: Place, left: int) -> Stuck:
    """The last ones are wanted, but have been worked already."""
    wanted = f"{place.count} {p.many(place.noun, place.count)}" if place.count > 1 else p.one(place.noun)
    worked = "it is worked already" if place.count == 1 else "they are worked already"
    rest = f"only {left} {are(left)} left" if left else worked
    return Stuck(f"the words need the last {wanted} of {p.site.below}, but {rest}", "work fewer stitches before")


def last_passes(p: Hand, hits: list[Hit], place: Place) -> None:
    if place.noun.name not in ("st", "ch") and height_of(place.noun.name) is None:
        return
    over = p.ground.stitches_between(p.here if p.exact else max(p.here, p.within), hits[0].start)
    spanned = p.chained and not _too_far(p, over) and (not p.most_skipped or over <= p.most_skipped)
    beside = p.last is not None and p.last.foot.hold in ("between", "space", "picot")  # a group may lie before the edge
    wide = p.wide and (over <= _UNDER_GROUP or beside)
    if over and not (spanned or wide):
        raise left_before(over, p.site.below, f"the last {p.one(place.noun)}")


#: Beside a group in one place so many stitches may be passed over without a word (common practice, no source).
_UNDER_GROUP = 4
#: Chains lie over so many stitches for each of them, and some more, at most (common practice, no source).
_SPAN, _MORE = 3, 4


def _too_far(p: Hand, over: int) -> bool:
    """Whether more stitches of plain ground are passed over than the chains just made can lie over: "3 sc in first st,
    ch 3, 3 sc in last st" of 20."""
    before = p.out[-1] if p.out else None
    run = before.chains if before is not None and before.role == "chain" else 0
    plain = all(slot.stitch.role != "chain" for slot in p.ground.slots[p.here :])
    return plain and over > _SPAN * run + _MORE
