"""Places with a name of their own: inside and beside groups, and in the beginning chain of a row below."""

from __future__ import annotations

from ...made_late import replace
from ...pattern.lexicon import TURNING, height_of
from ...pattern.tree import NOWHERE, Noun, Place
from ..cloth.fabric import Foot, Stitch, counts
from ..cloth.faults import OtherStart, Stuck, left_before
from ..cloth.ground import Ground, Hit
from ..cloth.site import SPACES, Target
from ..cloth.tiles import tiles_of
from ..cloth.wording import ordinal
from . import footing
from .hand import Hand


def nth(p: Hand, place: Place) -> list[Target]:
    """The nth noun of a group, a loop, or the beginning chain."""
    of = place.of
    assert of is not None
    if of.which == "beg":
        return [nth_of_beginning(p, place, of)]
    back = footing.back_of(p, place)
    if back == 1 and _side_of_next_block(p, place, of):
        return p.targets(Place("next", place.noun, hold=place.hold), NOWHERE)
    if of.noun in (Noun("lp"), Noun("sp")) and not p.site.on_foundation and _filled(p.ground_at(back)):
        of = replace(of, noun=Noun("group"))  # "9 sc in each loop; sl st to 5th sc of next loop"
        place = replace(place, of=of)
    if not place.count and of.noun == Noun("sp") and p.site.on_foundation and back == 1:
        return p.targets(Place("each", place.noun, hold=place.hold), NOWHERE)  # "each st of ch": of the foundation
    if of.noun.name == "ch" and of.count > 1 and p.ground_at(back).hits(Noun("sp", of.count)):
        place = replace(place, of=(of := replace(of, noun=Noun("sp", of.count), count=1)))  # "2nd of next 3 ch"
    if _of_a_stretch(place, of):
        return _nth_of_stretch(p, place, of, back)
    if of.which == "each" or of.count > 1:
        return nth_of_each(p, place, of, back)
    hit = _group_under_way(p, place, of, back) or _rest_of_group(p, place, of, back) or group_hit(p, of, back)
    if not place.count and back == 1 and p.skipped and hit.start < p.here < hit.end:
        hit = Hit(p.here, hit.end)  # "skip first sc, sc in each sc of group": those behind it
    ground = p.ground_at(back)
    inside = ground.within(place.noun, hit.start, hit.end)
    run = ground.slots[hit.start].stitch.role == "chain" if hit.start < hit.end else False
    if run and (place.noun.name == "ch" or (place.noun.name == "st" and not inside)):
        inside = [Hit(i, i + 1) for i in range(hit.start, hit.end)]
    if not inside and place.noun.name in SPACES:
        inside = _beside_stretch(ground, place, hit)
    if place.noun.name == "tip":
        inside = tip(ground, inside)
    if not inside:
        raise Stuck(f"there is no {p.one(place.noun)} in that {p.one(of.noun)}", "name what it is made of")
    first = len(inside) // 2 if place.nth == 0 else len(inside) - place.count if place.nth < 0 else place.nth - 1
    chosen = inside[first : first + place.count] if place.count else inside
    if len(chosen) < place.count or first < 0:
        has = f"{len(inside)} {p.many(place.noun, len(inside))}"
        raise Stuck(
            f"that {p.one(of.noun)} has {has}; there is no {ordinal(place.nth + place.count - 1)}",
            f"name one of the {len(inside)} that are there",
        )
    if back == 1 and p.ground is ground and of.which in ("next", "first"):
        footing.skipped_up_to(p, chosen[0].start if hit.start < p.here else hit.start, of.noun)
    if of.which == "last" and back == 1 and place.nth and place.noun.name not in SPACES and _just_worked(p, chosen[0]):
        raise footing.none_left(p, of, 0, 1)  # another one is meant
    if of.which == "any" and back == 1:
        chosen = [footing.begin_round_at(p, chosen[0])]
    out = [footing.target(p, back, h, place) for h in chosen]
    p.go(back, max(p.spot(back), chosen[-1].end))
    if back == 1 and place.noun.name in SPACES:
        p.covered = hit.end
    if back == 1 and p.ground is ground:
        p.within = hit.end
    p.wide = True
    footing.remember(p, out)
    return out


def _just_worked(p: Hand, hit: Hit) -> bool:
    """Whether the last stitch of the row below that was worked into is this one."""
    return p.last is not None and p.last.back == 1 and p.last.start == hit.start and p.last.foot.hold != "space"


def _side_of_next_block(p: Hand, place: Place, of: Place) -> bool:
    """ "Sl st in next 3 dc, sl st in ch-3 sp of next block": every block has one side, so the next one is meant, also
    that of the block whose posts were just slipped over."""
    named = of.noun.name in ("block", "group", "shell") and of.which == "next" and of.count == 1
    return named and place.noun.name == "sp" and place.count == 1 and bool(tiles_of(p.ground.row))


def _filled(ground: Ground) -> bool:
    """Whether a row has no space but what was worked into those of the row under it, as groups of several stitches."""
    sizes = [length for _, length, _ in ground.row.groups]
    return not ground.has_spaces and len(sizes) > 1 and min(sizes) > 2


def _of_a_stretch(place: Place, of: Place) -> bool:
    """ "In center sc of next 3 sc", "in 2nd of next 4 sts": so many stitches side by side, of which one is meant."""
    plain = of.noun.name in ("st", "ch") or height_of(of.noun.name) is not None
    one = place.count == 1 and place.noun.name in (of.noun.name, "st")
    return of.which in ("next", "first", "last") and of.count > 1 and plain and one


def _nth_of_stretch(p: Hand, place: Place, of: Place, back: int) -> list[Target]:
    """One of so many stitches side by side; work goes on behind them all."""
    ground = p.ground_at(back)
    spot = max(p.spot(back), p.covered if back == 1 else 0)
    ahead = ground.within(of.noun, spot if of.which != "first" else 0, len(ground.slots))
    hits = ahead[-of.count :] if of.which == "last" else ahead[: of.count]
    if len(hits) < of.count:
        raise footing.none_left(p, of, len(hits), of.count)
    if place.nth > of.count or (not place.nth and of.count % 2 == 0):
        said = f"{ordinal(place.nth)} one" if place.nth else "middle one"
        raise Stuck(f"{of.count} {p.many(of.noun, of.count)} have no {said}", "say which of them is meant")
    chosen = hits[of.count // 2 if not place.nth else place.nth - 1 if place.nth > 0 else of.count - 1]
    if of.which == "next":
        footing.passable(p, back, spot, hits[0], of)
    out = [footing.target(p, back, chosen, place)]
    p.go(back, max(p.spot(back), chosen.end))
    if back == 1:
        p.covered = hits[-1].end
    p.wide = True
    footing.remember(p, out)
    return out


def _beside_stretch(ground: Ground, place: Place, hit: Hit) -> list[Hit]:
    """The space of a block told by its stitches: that of the chain made right before them."""
    first = min(slot.item for slot in ground.slots[hit.start : hit.end])
    return [h for h in ground.hits(place.noun) if ground.slots[h.start].item == first - 1]


def tip(ground: Ground, inside: list[Hit]) -> list[Hit]:
    """The highest of a group's stitches, or the picots on it."""
    picots = [h for h in inside if ground.slots[h.start].stitch.role == "picot"]
    if picots:
        return picots
    tall = {h: _height(ground.slots[h.start].stitch) for h in inside}
    return [h for h in inside if tall[h] == max(tall.values())]


def _height(stitch: Stitch) -> int:
    """How many chains high a stitch stands."""
    height = height_of(stitch.kind) or height_of(stitch.base) or "sl st"
    return TURNING.get(height, 0)


def nth_of_each(p: Hand, place: Place, of: Place, back: int) -> list[Target]:
    """ "in ch-1 sp of each V-st", "in center dc of next 3 shells"."""
    ground, spot = p.ground_at(back), p.spot(back)
    groups = ground.within(of.noun, spot, len(ground.slots))[: of.count if of.which != "each" else None]
    if not groups or (of.which != "each" and len(groups) < of.count):
        raise footing.none_left(p, of, len(groups), of.count)
    out: list[Target] = []
    for hit in groups:
        p.go(back, hit.start)
        out += nth(p, replace(place, of=replace(of, which="next", count=1)))
    footing.remember(p, out)
    return out


def _group_under_way(p: Hand, place: Place, of: Place, back: int) -> Hit | None:
    """The group of which a stitch has just been worked into, where the one that is meant still lies ahead: "dc in each
    dc to 3-dc group, dc in next dc, 3 dc in center dc of 3-dc group"."""
    one = back == 1 and place.count == 1 and (place.nth >= 0 or of.bare) and of.which == "next"
    if not one or p.last is None or p.last.foot.hold == "space":
        return None
    ground, spot = p.ground_at(back), p.spot(back)
    for hit in ground.hits(of.noun):
        if hit.start < spot < hit.end and been_in(p, hit) and not (p.rotated and ground.begins_within(hit)):
            inside = ground.within(place.noun, hit.start, hit.end)
            meant = place.nth - 1 if place.nth > 0 else len(inside) + place.nth if place.nth else len(inside) // 2
            return hit if meant < len(inside) and inside[meant].start >= spot else None
    return None


def _rest_of_group(p: Hand, place: Place, of: Place, back: int) -> Hit | None:
    """ "2 dc in first dc of next group, dc in each remaining dc of group": what is left of the one under way."""
    if place.count or back != 1 or of.which != "next" or not of.bare or p.last is None or p.last.foot.hold == "space":
        return None
    spot = p.spot(back)
    inside = (h for h in p.ground_at(back).hits(of.noun) if h.start < spot < h.end and been_in(p, h))
    return next((Hit(spot, h.end) for h in inside), None)


def group_hit(p: Hand, of: Place, back: int) -> Hit:
    ground, spot = p.ground_at(back), p.spot(back)
    hits = ground.hits(of.noun)
    if of.which in ("any", "first") and hits:
        if of.which == "any" and not p.out:
            return hits[0]
        return hits[0] if of.which == "first" else next((h for h in hits if h.start >= spot), hits[0])
    if of.which == "last" and hits:
        return hits[-1]
    if of.which == "same" and p.last is not None:
        last = p.last  # "in last dc of this group": of the one under way
        under_way = (h for h in hits if h.start <= last.start < last.end <= h.end and last.back == back)
        return next(under_way, Hit(last.start, last.end))
    found = next(
        (h for h in ground.from_about(of.noun, spot) if h.end > spot and (h.start >= spot or not been_in(p, h))), None
    )
    if found is None:
        raise footing.none_left(p, of, 0, 1)
    return found


def been_in(p: Hand, hit: Hit) -> bool:
    return p.last is not None and hit.start <= p.last.start < hit.end


def _only_lifted(p: Hand, back: int, spot: int) -> bool:
    """Whether a round has made its beginning chain alone, on the first stitch: the next gap is the one behind that."""
    lifted = bool(p.out) and all(s.role in ("start", "turning") for s in p.out)
    return back == 1 and spot == 1 and p.site.is_round and not p.rotated and lifted


def _just_lifted(p: Hand) -> bool:
    """Whether a flat row has made nothing but the chain it begins with."""
    return not p.site.is_round and bool(p.out) and all(s.role in ("start", "turning") for s in p.out)


def beside(p: Hand, place: Place) -> Target:
    """The gap beside a stitch or a group."""
    assert place.of is not None
    back = footing.back_of(p, place.of)
    ground = p.ground_at(back)
    hits = ground.hits(place.of.noun)
    spot = p.spot(back)
    if place.of.which == "first":
        hit = hits[0] if hits else None
    elif place.of.which == "last":
        hit = hits[-1] if hits else None
    elif place.of.which == "beg" and place.which == "after" and back == 1 and _just_lifted(p):
        hit = Hit(0, 1)  # beside the chain that this row begins with
    elif place.of.which == "beg" and (slot := ground.of_item(start_item(p, back))) is not None:
        hit = Hit(slot, slot + 1)
    elif place.of.which == "same" and any(h.start < spot for h in hits):
        hit = next(h for h in reversed(hits) if h.start < spot)  # the one just worked into
    else:
        if place.which == "before" and _stands_in_gap(p, spot):
            spot += 1  # before the one that follows
        hit = ground.find(place.of.noun, 0 if place.which != "before" and _only_lifted(p, back, spot) else spot)
    if hit is None:
        raise footing.none_left(p, place.of, 0, 1)
    gap = hit.start if place.which == "before" else hit.end
    if place.which == "after" and back == 1 and p.travelling():
        gap = footing.begin_round_at(p, Hit(gap, gap)).start  # "sl st into sp between first pair and next": begun there
        ground = p.ground
    end = len(ground.slots)
    behind = gap if gap < end else 0 if p.site.is_round else end - 1  # round a ring the gap at the end is the first one
    target = Target(Foot(ground.slots[behind].item, back, "between"), gap, gap, back)
    beyond = place.which == "before" and place.of.which == "beg"
    past = hit.end if beyond else gap
    p.go(back, max(spot, past))
    p.landmark = p.landmark or place.of.which == "last"
    footing.remember(p, [target])
    p.wide = True
    return target


def _stands_in_gap(p: Hand, spot: int) -> bool:
    """Whether the last stitch went into the gap where the work stands."""
    last = p.last
    return last is not None and last.back == 1 and last.foot.hold == "between" and last.start == last.end == spot


Group = tuple[int, int, str]


def with_begun(made: list[Stitch], groups: list[Group]) -> tuple[Group, ...]:
    """The groups of a row, in order, with the one that it begins with by its beginning chain where that is like one of
    those made afterwards: "ch 4 (counts as dc, ch 1), dc in same st" before V-stitches."""
    whole = _begun(made, groups)
    if whole is None:
        return tuple(sorted(groups))
    inside = range(whole[0], whole[0] + whole[1])
    return tuple(sorted([whole, *(g for g in groups if g[0] not in inside)]))


def _begun(made: list[Stitch], groups: list[Group]) -> Group | None:
    first = next((i for i, s in enumerate(made) if s.role != "travel"), len(made))
    if first == len(made) or made[first].role != "turning":
        return None
    if any(at <= first < at + length for at, length, _ in groups):
        return None
    foot, size = made[first].feet, 1
    if not foot or foot[0].hold == "ring":  # chains skipped ("2 dc in 4th ch"), or all are in one place
        behind = next((length for at, length, _ in groups if at == first + 1), 0)
        return _alike(made, groups, first, 1 + behind)
    while first + size < len(made) and (made[first + size].role == "chain" or made[first + size].feet == foot):
        size += 1
    while not counts(made[first + size - 1]):
        size -= 1
    return _alike(made, groups, first, size)


def _alike(made: list[Stitch], groups: list[Group], first: int, size: int) -> Group | None:
    """What a row begins with, as a group like one of those made afterwards; None where it is like none."""
    own = _shape(made[first : first + size])
    likes = (name for at, length, name in groups if length == size and _shape(made[at : at + length]) == own)
    alike = next(likes, None)
    return (first, size, alike) if alike is not None and size > 1 else None


def _shape(items: list[Stitch]) -> list[tuple[str, int]]:
    return [(s.kind, s.chains if s.role == "chain" else 0) for s in items]


def beginning(p: Hand, place: Place) -> Target:
    """The beginning chain of the row below: its top, or the stitch it counts as."""
    back = footing.back_of(p, place)
    chain = place.of if place.which == "top" and place.of is not None else place
    back = footing.back_of(p, chain) if chain.row else back
    if chain.which not in ("beg",):
        return p.targets(chain, NOWHERE)[-1]
    item = start_item(p, back)
    ground = p.ground_at(back)
    stitch = ground.row.stitches[item]
    wanted = chain.noun.size
    own = p.begun_with == wanted and p.site.rows_below == back  # the first row rose from skipped chains
    own = own or _counted_along(p, back, start_chains(p, back), chain)
    if wanted and stitch.chains and start_chains(p, back) != wanted and not (p.site.on_foundation or own):
        raise OtherStart(p.site.below, start_chains(p, back), wanted)
    return start_target(p, back, item, place)


def start_target(p: Hand, back: int, item: int, place: Place, part: int | None = None) -> Target:
    ground = p.ground_at(back)
    slot = ground.of_item(item, part)
    if slot is None:
        target = Target(Foot(item, back, "top"), len(ground.slots), len(ground.slots), back)
    else:
        first = item if ground.row.stitches[item].role != "chain" else None
        target = footing.target(
            p, back, Hit(slot, slot + 1), place if first is not None else Place("next", Noun("ch"), hold=place.hold)
        )
    return landmark(p, back, target)


def landmark(p: Hand, back: int, target: Target) -> Target:
    spot = p.spot(back)
    if _skipped_alone(p, back, target):
        p.leapt = p.leapt or "the stitch skipped before is the beginning chain itself, and is worked into all the same"
    elif back == 1 and target.start < spot and not at_round_start(p, target) and not _in_last_space(p, target):
        raise Stuck(
            f"the beginning chain of {p.site.below} has been worked into already", "work one stitch fewer before it"
        )
    if back == 1 and not p.site.is_round:
        over = p.ground.stitches_between(spot, target.start)
        if over and not (p.chained or p.wide):
            raise left_before(over, p.site.below, "its beginning chain")
    p.go(back, max(spot, target.end))
    p.landmark = True
    footing.remember(p, [target])
    return target


def _skipped_alone(p: Hand, back: int, target: Target) -> bool:
    """ "Sk last tr, ch 3, tr in top of ch-4" where the last tr is that chain: skipped alone, and named behind."""
    own = tuple(range(target.start, target.end))
    return back == p.skipped_back == 1 and len(own) == 1 and p.skipped == own and p.here == target.end


def _in_last_space(p: Hand, target: Target) -> bool:
    """ "Sc in last lp, ch 3, sc in 2nd ch of ch-4": a chain of the loop that just worked into, the last there."""
    last = p.last
    if last is None or last.back != 1 or last.foot.hold != "space" or not p.chained:
        return False
    return last.start <= target.start < last.end and p.here >= len(p.ground.slots)


def at_round_start(p: Hand, target: Target) -> bool:
    return p.site.is_round


def start_item(p: Hand, back: int) -> int:
    row = p.ground_at(back).row
    for item, stitch in enumerate(row.stitches):
        if stitch.role == "travel":
            continue
        return item
    raise Stuck(f"{p.site.below} has no beginning chain", "name the stitch")


def start_chains(p: Hand, back: int) -> int:
    """How many chains the row below began with."""
    row, item = p.ground_at(back).row, start_item(p, back)
    total = row.stitches[item].chains if row.stitches[item].role in ("turning", "start", "chain") else 0
    after = row.stitches[item + 1] if item + 1 < len(row.stitches) else None
    if row.stitches[item].role == "turning" and after is not None and after.role == "chain" and after.place == -1:
        total += after.chains
    return total


def _counted_along(p: Hand, back: int, chains: int, named: Place) -> bool:
    """Whether a first row's skipped chains are named with the one worked into behind them: "ch-5" for 4 of them."""
    one_more = p.site.rows_below == back and named.noun.size == chains + 1
    return one_more and p.ground_at(back).row.stitches[0].role == "chain"


def nth_of_beginning(p: Hand, place: Place, of: Place) -> Target:
    back = footing.back_of(p, of)
    item = start_item(p, back)
    row = p.ground_at(back).row
    stitch = row.stitches[item]
    total = start_chains(p, back)
    if of.noun.size and place.noun.name == "ch" and back == 1 and place.nth <= of.noun.size:
        loop = Place("next", Noun("sp", of.noun.size))
        ahead = p.ground.has_spaces and p.ground.find(loop.noun, p.here) is not None
        if ahead and (total != of.noun.size or p.repeating):
            return nth(p, replace(place, of=loop))[0]  # "sl st to 3rd ch of ch-5": of the next loop
    other = of.noun.size and total and total != of.noun.size
    if other and not p.site.on_foundation and not _counted_along(p, back, total, of):
        raise OtherStart(p.site.below, total, of.noun.size)
    if place.noun.name in ("sp", "lp"):
        run = next((i for i in range(item, min(item + 2, len(row.stitches))) if row.stitches[i].role == "chain"), None)
        if run is None and not place.noun.size and not of.noun.size:
            return start_target(p, back, item, place)
        if run is None:
            raise Stuck(f"the beginning chain of {p.site.below} leaves no space", "name the stitch")
        slot = p.ground_at(back).of_item(run)
        assert slot is not None
        start = p.ground_at(back).of_item(run, None) or 0
        return landmark(p, back, footing.target(p, back, Hit(start, start + row.stitches[run].chains), place))
    if place.nth > total and total:
        raise Stuck(
            f"the beginning chain of {p.site.below} has {total} ch; there is no {ordinal(place.nth)}",
            f"name one of its {total} ch",
        )
    if stitch.role == "turning" and 0 < place.nth < stitch.chains and place.noun.name == "ch":
        p.joined_low = (
            f"it goes into the {ordinal(place.nth)} ch of the beginning chain of {p.site.below}; the top of the stitch "
            f"that this counts as is the {ordinal(stitch.chains)}"
        )
    if stitch.role == "turning" and place.nth > stitch.chains:
        return start_target(p, back, item + 1, place, place.nth - stitch.chains - 1)
    if stitch.role == "chain":
        return start_target(p, back, item, place, place.nth - 1)
    return start_target(p, back, item, place)
