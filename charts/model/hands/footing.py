"""Where feet stand: a place found on the ground, what may be passed over to reach it, what is remembered."""

from __future__ import annotations

from itertools import pairwise

from ...pattern.lexicon import height_of
from ...pattern.tree import Hold, Into, Make, Noun, Op, Place
from ..cloth.fabric import Foot, counts
from ..cloth.faults import Stuck, left_before
from ..cloth.ground import Ground, Hit
from ..cloth.site import SPACES, Target
from ..cloth.tiles import tiles_of
from ..cloth.wording import are, stitches, sts, them
from . import below
from .hand import Hand


def back_of(p: Hand, place: Place) -> int:
    """How many rows below a place lies."""
    if place.row is None and place.of is not None and place.of.row is not None:
        return back_of(p, place.of)
    if place.row is None:
        return p.main
    if place.row.below < 0:
        raise Stuck("it is not said how many rows below", 'write "2 rows below"', kind="ambiguous")
    if place.row.below:
        return place.row.below
    back = p.site.number - place.row.number
    if back < 1 and p.site.below.endswith(f" {place.row.number}"):
        return p.main  # a border's first round, which goes on from the piece's last row
    if back < 1 or p.site.number == 0:
        raise Stuck(f"Row {place.row.number} does not stand before this row", "name a row that has been worked")
    return back


def target(p: Hand, back: int, hit: Hit, place: Place) -> Target:
    ground = p.ground_at(back)
    if hit.start == hit.end:
        last = 0 if ground.row.joined else len(ground.slots) - 1  # round a ring the first one follows the last
        slot = ground.slots[hit.start if hit.start < len(ground.slots) else last]
        return Target(Foot(slot.item, back, "between"), hit.start, hit.end, back)
    if hit.start >= len(ground.slots):
        raise Stuck(f"{p.site.below} has nothing left there to work into", "name a place that comes before its end")
    inner = _within_group(ground, hit)
    if inner is not None:
        found = target(p, back, inner, Place(place.which, Noun("sp")))
        return Target(found.foot, hit.start, hit.end, back)
    slot = ground.slots[hit.start]
    hold = place.hold or (p.loops if counts(slot.stitch) or slot.stitch.role == "foundation" else "")
    if slot.stitch.role == "chain":
        whole = hit.end - hit.start == slot.stitch.chains and place.noun.name in (
            "sp",
            "lp",
            "mesh",
            "corner",
            "corner sp",
        )
        foot = Foot(slot.item, back, "space" if whole else "chain", 0 if whole else slot.part)
        return Target(foot, hit.start, hit.end, back)
    if slot.stitch.role == "picot":
        return Target(Foot(slot.item, back, "picot"), hit.start, hit.end, back)
    held: Hold = "under" if p.opposite else "top" if hold == "" or hold == "third loop" else hold
    return Target(Foot(slot.item, back, held), hit.start, hit.end, back)


def goes_through_group(p: Hand, slot: int) -> bool:
    """Whether the group that a space stands in is worked stitch by stitch: what stands before its space was worked
    into, so that what stands behind it is not done with."""
    nouns = (Noun("group"), *map(Noun, p.ground.shapes))
    hits = [hit for noun in nouns for hit in p.ground.hits(noun) if hit.start <= slot < hit.end]
    before = {p.ground.slots[at].item for hit in hits for at in range(hit.start, slot)} - {p.ground.slots[slot].item}
    return any(foot.at in before for made in p.out for foot in made.feet if foot.back == 1 and foot.hold != "space")


def _within_group(ground: Ground, hit: Hit) -> Hit | None:
    """Where work goes that is done in a group: its one chain space, in the middle."""
    slots = ground.slots[hit.start : hit.end]
    if not slots or slots[0].stitch.role == "chain" or slots[-1].stitch.role == "chain":
        return None
    spaces = [at for at, slot in enumerate(slots) if slot.stitch.role == "chain" and slot.first]
    if len(spaces) != 1:
        return None
    start = hit.start + spaces[0]
    return Hit(start, start + ground.slots[start].stitch.chains)


def past_gap(p: Hand, spot: int) -> int:
    """The gap just used is not the next one, nor is one just skipped."""
    if p.gap_passed == spot:
        return spot + 1
    return spot + 1 if p.last is not None and p.last.foot.hold == "between" and p.last.start == spot else spot


def passable(p: Hand, back: int, spot: int, hit: Hit, place: Place) -> None:
    """Passing over stitches without a word is allowed only towards a landmark, under chains, or beside a shell."""
    if back != 1 or (place.noun.name not in ("st", "ch", "middle st") and height_of(place.noun.name) is None):
        return
    over = p.ground.stitches_between(spot if hit.start < p.within or p.exact else max(spot, p.within), hit.start)
    wide = p.wide and place.noun.name != "middle st"
    _out_of_run(p, spot, hit, place)
    if not over or p.chained or wide or (p.site.on_foundation and place.noun.name == "ch"):
        return
    if _rest_of_group(p, spot, hit, place) or fixed_before(p, spot, hit):
        return
    if p.site.is_round and spot == 0 and over == 1:
        return
    if place.noun.name == "middle st" and p.site.is_round and _from_space(p, spot):
        return  # "5 dc in next sp, sc in center dc": past the first ones of the group that comes next
    if p.looping and spot == 0 and over == 1 and height_of(place.noun.name) is not None:
        says = f"the first stitch is passed over on the way to the next {p.one(place.noun)}, which is not said"
        p.leapt = p.leapt or says  # as the repeat passes one each time
        return
    if _out_of_space(p, spot, hit, place):
        passed = f"{stitches(over)} of another kind {are(over)} passed over"
        p.leapt = p.leapt or f"{passed} between a space and the next {p.one(place.noun)}, which is not said"
        return
    raise Stuck(
        f"the next {p.one(place.noun)} of {p.site.below} lies {stitches(over)} further on",
        f'say what to do with {them(over)}, as "sk next {sts(over)}"',
    )


def _rest_of_group(p: Hand, spot: int, hit: Hit, place: Place) -> bool:
    """Whether all that is passed over is the rest of a group with chains that a stitch has just gone into, on the way
    to a stitch of another kind: "sc in first dc, shell in next sc" over (dc, ch 1, dc)."""
    last = p.last
    if last is None or last.back != 1 or last.end != spot or not spot or height_of(place.noun.name) is None:
        return False
    passed = [slot.stitch for slot in p.ground.slots[spot : hit.start]]
    if any(s.kind == place.noun.name for s in passed) or all(s.role != "chain" for s in passed):
        return False
    return any(h.start <= spot - 1 and hit.start <= h.end for h in p.ground.hits(Noun("group")))


def fixed_before(p: Hand, spot: int, hit: Hit) -> bool:
    """Whether all that is passed over is the slip stitch that fixed the end of a row of blocks to the last one: "turn,
    sl st in next 3 dc" goes on behind it (common practice, no source)."""
    passed = [slot.stitch for slot in p.ground.slots[spot : hit.start]]
    begun = any(s.role != "start" for s in p.out)
    return not p.site.is_round and not begun and all(s.kind == "sl st" for s in passed) and bool(tiles_of(p.ground.row))


def _from_space(p: Hand, spot: int) -> bool:
    """Whether the hook comes out of the space right before."""
    return p.last is not None and p.last.back == 1 and p.last.foot.hold == "space" and p.last.end == spot


def _out_of_space(p: Hand, spot: int, hit: Hit, place: Place) -> bool:
    """Whether the hook comes out of a space of a round and goes on to the nearest stitches of a kind that is named,
    past one or two that are not of it: "sc in next ch-2 sp, dc in next 2 dc" where a tr lies between (common practice,
    no source)."""
    spaced = p.site.is_round and not p.exact and _from_space(p, spot)
    if not spaced or height_of(place.noun.name) is None or place.nth > 1:
        return False
    past = [slot.stitch for slot in p.ground.slots[spot : hit.start]]
    return 0 < len(past) <= 2 and all(s.role == "stitch" and s.kind != place.noun.name for s in past)


def _out_of_run(p: Hand, spot: int, hit: Hit, place: Place) -> None:
    """Raise Stuck where chains of a run that was skipped or worked chain by chain are left before the next stitch."""
    slots = p.ground.slots
    if not 0 < spot < min(hit.start, len(slots)) or place.noun.name == "ch" or p.chained or spot < p.within:
        return
    run = slots[spot]
    by_chain = p.last is not None and p.last.back == 1 and p.last.foot.hold == "chain" and p.last.end == spot
    over = sum(1 for s in p.out[-2:] if p.last is not None and p.last.foot in s.feet) > 1
    counted = (by_chain and not over) or (p.exact and p.passed[-1:] == (spot - 1,) and p.skipped_back == 1)
    if run.stitch.role != "chain" or run.item != slots[spot - 1].item or not counted:
        return
    left = sum(1 for slot in slots[spot : hit.start] if slot.item == run.item)
    raise Stuck(
        f"{left} ch of that chain of {p.site.below} {are(left)} left before the next {p.one(place.noun)}",
        f'work {them(left)}, or say that {"it is" if left == 1 else "they are"} skipped',
    )


def skipped_up_to(p: Hand, start: int, what: Noun) -> None:
    """Raise Stuck where so many stitches are said to be skipped, and more lie before the place that comes next."""
    if not p.exact or p.passed[-1:] != (p.here - 1,) or p.skipped_back != 1:
        return
    over = p.ground.stitches_between(p.here, start)
    if over:
        raise left_before(over, p.site.below, f"the {p.one(what)}")


def note_leap(p: Hand, back: int, spot: int, hit: Hit, place: Place) -> None:
    """Keep what is passed over without a word or a chain on the way to the next space of a size: spaces of another
    size, which the row may have been meant to work."""
    size = place.noun.size
    if back == 1 and not p.leapt and not p.chained and not p.context:
        p.leapt = _leaps_gaps(p, spot, hit, place)
    if back == 1 and not p.leapt and place.which == "next" and place.noun.name == "corner sp":
        p.leapt = _leaps_side(p, spot, hit)
    if back != 1 or p.leapt or p.chained or not size or place.noun.name not in ("sp", "lp"):
        return
    passed = p.ground.within(Noun(place.noun.name), spot, hit.start)
    beside = [p.ground.slots[h.start].stitch for h in passed]
    if any(stitch.role == "chain" and stitch.chains > 1 for stitch in beside):
        of = p.one(place.noun)
        spaces = "a space" if len(passed) == 1 else f"{len(passed)} spaces"
        passed_over = f"{spaces} of another size {are(len(passed))} passed over"
        p.leapt = f"on the way to the next {of} {passed_over}, which is not said"


#: So few chains lie between two groups of a side, and over no space of it (common practice, no source).
_BETWEEN_GROUPS = 2


def _leaps_side(p: Hand, spot: int, hit: Hit) -> str:
    """What to say where a round that works in the spaces of its sides passes over others on the way to a corner."""
    last = p.out[-1] if p.out else None
    if last is None or p.last is None or p.last.back != 1 or p.last.foot.hold != "space":
        return ""
    if last.role == "chain" and last.chains > _BETWEEN_GROUPS:
        return ""
    passed = p.ground.within(Noun("sp"), spot, hit.start)
    many = "a space of the side is" if len(passed) == 1 else f"{len(passed)} spaces of the side are"
    return f"on the way to the next corner sp {many} passed over, which is not said" if passed else ""


def _leaps_gaps(p: Hand, spot: int, hit: Hit, place: Place) -> str:
    """What to say where a row that goes into the gaps between groups passes over one on the way to a space, or over a
    space on the way to a gap."""
    if p.last is None or place.of is not None or place.row is not None or place.nth or place.which != "next":
        return ""
    spaced = place.noun.name in ("sp", "lp", "corner sp") and p.last.foot.hold == "between"
    if spaced and p.ground.within(Noun("gap"), spot + 1, hit.start - 1):
        return f"on the way to the next {p.one(place.noun)} a space between groups is passed over, which is not said"
    return over_space(p, spot, hit.start) if place.noun == Noun("gap") and hit.start == hit.end else ""


def over_space(p: Hand, spot: int, gap: int) -> str:
    """What to say where chains lie between a slot and a gap that comes next; "" where none do."""
    over = any(slot.stitch.role == "chain" for slot in p.ground.slots[spot:gap])
    return "on the way to the next space between groups one of chains is passed over, which is not said" if over else ""


def note_reach(p: Hand, targets: list[Target], legs: int) -> None:
    """Keep where so many "sts" worked together have chains of the row below between them."""
    for first in range(0, len(targets), legs):
        for one, other in pairwise(targets[first : first + legs]):
            between = p.ground.slots[one.end : other.start] if one.back == other.back == 1 else ()
            if any(slot.stitch.role == "chain" for slot in between):
                p.leapt = p.leapt or f"{legs} sts are worked together over chains that lie between them"


def none_left(p: Hand, place: Place, found: int, wanted: int) -> Stuck:
    noun = p.many(place.noun, 2 if wanted > 1 else 1)
    left = "none is left" if not found else f"only {found} {'is' if found == 1 else 'are'} left"
    back = back_of(p, place)
    row = below.row_name(p, back)
    if not p.ground_at(back).hits(place.noun):
        return Stuck(f"{row} has no {p.one(place.noun)}", f"name what {row} is made of")
    return Stuck(
        f"the words need {wanted} more {noun} of {row}; {left}",
        f"work fewer stitches here, or make more in {row}",
    )


def remember(p: Hand, targets: list[Target]) -> None:
    if targets:
        if all(t.back > p.offset for t in targets):
            below.lie_over(p, 1 if p.gathering else len(targets))
        p.last = targets[-1]
        p.landed = targets[0].start
        p.own = None
        p.used_ground = True
        p.touched += [(t.start, t.end) for t in targets if t.back == 1]


def turn_ground(p: Hand, start: int) -> None:
    """Let the round's ground begin at slot `start`, with what is done at some of its places."""
    size = len(p.ground.slots)
    p.ground = p.ground.turned_to(start)
    p.rotated = True
    p.corners = {(at - start) % size: made for at, made in p.corners.items()}
    spaces = (((h.start - start) % size, h.end - h.start) for h in p.corner_spaces)
    p.corner_spaces = tuple(Hit(at, at + long) for at, long in spaces)


def begin_round_at(p: Hand, hit: Hit) -> Hit:
    """A round begun at "any" place is worked from there: the ground is turned to it, once."""
    if not p.site.is_round or not p.travelling():
        return hit
    if not p.rotated:
        turn_ground(p, hit.start)
        p.within = 0
    return Hit(0, hit.end - hit.start)


def is_begun_in(p: Hand, noun: Noun, hit: Hit) -> bool:
    """Whether a gap between groups is the one at a round's seam, and the round has begun right there."""
    if noun.name != "gap" or not noun.of or hit.start != hit.end or hit.end != len(p.ground.slots) or p.rotated:
        return False
    first = next((s for s in p.out if s.role != "travel"), None)
    return first is not None and any(foot.back == 1 and foot.at == p.ground.slots[0].item for foot in first.feet)


def begin_at_space(p: Hand, ops: tuple[Op, ...]) -> None:
    """A round that repeats from its beginning what goes into a space and then into each stitch up to the next one,
    "*3 sc in ch-2 sp, sc in each dc; rep from * around", is worked from its first space on: what lies before that comes
    last."""
    first = ops[0] if ops else None
    begun = p.here or p.rotated or p.opposite
    begun = begun or any(s.role not in ("start", "turning") for s in p.out)
    if begun or not p.site.is_round or not isinstance(first, Make | Into) or len(first.places) != 1:
        return
    place = first.places[0]
    to_space = place.which == "next" and place.count == 1 and not place.nth and place.row is None
    to_space = to_space and place.noun.name in SPACES
    if not to_space or not any(_into_each(op) for op in ops[1:]):
        return
    hit = p.ground.find(place.noun, 0)
    if hit is not None and hit.start:
        turn_ground(p, hit.start)


def _into_each(op: Op) -> bool:
    """Whether a clause goes into each stitch with no word of how far."""
    place = op.places[0] if isinstance(op, Make) and len(op.places) == 1 else None
    plain = place is not None and place.which == "each" and place.row is None and not place.until and not place.upto
    return place is not None and plain and (place.noun.name == "st" or height_of(place.noun.name) is not None)
