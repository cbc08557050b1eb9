"""Making stitches: one a place, several in one place, several places under one top."""

from __future__ import annotations

import re

from hookfold.symbols.dictionary import gathered

from ...made_late import replace
from ...pattern.lexicon import RAISED, height_of, together
from ...pattern.tree import Chain, Hold, Into, Make, Noun, Place, walk
from ..cloth.fabric import Foot, Role, Stitch, counts
from ..cloth.faults import MOST_MADE, Stuck
from ..cloth.ground import Hit
from ..cloth.site import Target
from ..cloth.wording import are
from . import below, footing, row_end
from .hand import Hand


def make(p: Hand, op: Make) -> None:
    if op.stitch == "picot" or (op.stitch in p.site.specials and p.site.specials[op.stitch].form == "picot"):
        picot(p, op)
        return
    if op.stitch == "sl st" and row_end.closes(p, op):
        row_end.join(p, op.places[0], op.at)
        return
    if row_end.closes_with_stitch(p, op):
        row_end.join(p, op.places[0], op.at, op.stitch)
        return
    special = p.site.specials.get(op.stitch)
    over = special.legs if special and special.kind and not special.in_place else 1
    legs = max(together(op.stitch), over)
    if op.stitch[:1] == "f" and height_of(op.stitch) and not op.places:
        foundation_stitches(p, op)
        return
    places = op.places or (() if p.context is not None else (Place("next", count=legs if legs > 1 else op.count),))
    if not op.places and p.context is None and row_end.only_ring(p):
        put(p, op, [Target(Foot(0, 1, "ring"), 0, 0)], op.count)
        p.used_ground = True
        return
    if op.stitch == "sl st" and not op.places and p.context is None and p.out and p.here >= len(p.ground.slots):
        return
    if not op.places and p.context is None and legs == 1:
        put(p, op, p.targets(places[0], op.at), 1)
        return
    if not places:
        put(p, op, [p.context], op.count) if p.context else None
        return
    if legs > 1:
        gather(p, op, places, legs)
        return
    if op.beside:
        put_beside(p, op)
        return
    step_off_the_join(p, op)
    if op.stitch == "sl st" and not p.out and places[0].which == "first":
        p.slips_from_first = True
    for place in places:
        p.wide = p.wide or (is_shell(op.stitch, op.count) and not p.exact)
        here, ground = p.here, p.ground
        found = p.targets(place, op.at)
        if op.stitch == "sl st" and place.which == "nth" and ground is p.ground and p.travelling():
            slip_along(p, op, here, found[0])
        put(p, op, found, op.count)


def slip_along(p: Hand, op: Make, here: int, there: Target) -> None:
    """Slip stitches into what lies on the way to a stitch inside a group, where no chain does: a joined round begins
    behind the stitch that it was joined in."""
    joined = not p.out and not here and p.site.is_round and p.ground.row.joined
    way = range(here + joined, there.start)
    if there.back != 1 or any(not counts(p.ground.slots[at].stitch) for at in (*way, there.start)):
        return
    for at in way:
        on_the_way = footing.target(p, 1, Hit(at, at + 1), Place("next"))
        p.out.append(stitch(p, op.stitch, (on_the_way,), p.group, op))


def step_off_the_join(p: Hand, op: Make) -> None:
    """A round was closed in its first stitch and the hook stands there: "sl st in next dc" goes into the one after.

    Not where a repeat that goes all round begins with it: that works every stitch, the first one too.
    """
    first = op.places[0] if op.places else None
    begun = p.out or p.here or p.looping
    if op.stitch != "sl st" or begun or first is None or first.which != "next" or first.row is not None:
        return
    if p.site.is_round and p.ground.row.joined and (first.noun.name == "st" or height_of(first.noun.name)):
        p.here = 1


def put_beside(p: Hand, op: Make) -> None:
    """Several things, each into its own places, in the order in which the places come."""
    found: list[tuple[Target, Make]] = []
    here = p.here
    lead = op.places[0]
    for part in (op, *op.beside):
        for place in part.places:
            p.here = here
            place = _corner_in_its_space(p, place)
            bounded = replace(place, until=lead.until, upto=lead.upto, also=(*place.also, *others(op, part)))
            hits = p.targets(bounded, part.at)
            found += [(t, part) for t in hits if t.noun in (place.noun, *place.also)]
    closest: dict[int, int] = {}
    for t, _ in found:
        closest[t.start] = max(closest.get(t.start, 0), _how_close(p, t))
    found = [(t, part) for t, part in found if _how_close(p, t) == closest[t.start]]  # "each dc" beside "each FPdc"
    left_out = next((part for part in op.beside if part not in [each for _, each in found]), None)
    if left_out is not None and any(q.noun.name == "corner" for q in left_out.places):
        corner = p.one(left_out.places[0].noun)
        says = f"what goes into each {corner} goes into stitches that have one already"
        raise Stuck(says, f"say which stitch of the {corner}, or its space", left_out.at)
    for target, part in sorted(found, key=lambda pair: (pair[0].start, pair[0].end)):
        if part.stitch == "ch":
            chain_over(p, part, target)
        else:
            put(p, part, [target], part.count)
            p.here = max(p.here, target.end)
    p.wide = True


def _how_close(p: Hand, target: Target) -> int:
    """How closely a noun names a place: any stitch, the plain one it is built on, a post stitch, its own kind."""
    kind, name = p.ground.slots[target.start].stitch.kind, target.noun.name
    if name == "st":
        return 0
    if kind == name:
        return 3
    return 2 if name in RAISED else 1


def _corner_in_its_space(p: Hand, place: Place) -> Place:
    """ "Sc in each dc and 5 sc in each corner": beside stitches that are named, a corner that has a space is that."""
    if place.noun.name != "corner" or place.noun.size or place.which != "each":
        return place
    spaces = p.ground.hits(Noun("corner sp"))
    corners = p.ground.hits(place.noun)
    open_ = all(any(hit.start <= s.start and s.end <= hit.end for s in spaces) for hit in corners)
    return replace(place, noun=Noun("corner sp")) if corners and open_ else place


def chain_over(p: Hand, op: Make, target: Target) -> None:
    """Chains that pass over a place."""
    room_for(p, op.count, op)
    p.out.append(Stitch("ch", (), "chain", op.count, p.group))
    p.here, p.chained = max(p.here, target.end), True


def others(op: Make, part: Make) -> tuple[Noun, ...]:
    """The places that the other parts of a mixed stretch work into: passing over them is no fault."""
    return tuple(n for other in (op, *op.beside) if other is not part for q in other.places for n in (q.noun, *q.also))


def _told_for_itself(p: Hand, op: Make) -> bool:
    """Whether a stitch in a corner is no part of the side that what is done at corners interrupts: slip stitches lead
    to the corner that a round begins in, and the group there is told for itself, "sc in any ch-2 sp, ch 3, sc in same
    sp"."""
    here = bool(op.places) and op.places[0].which in ("any", "same")
    return p.group >= 0 or here or (op.stitch == "sl st" and p.travelling())


def put(p: Hand, op: Make, targets: list[Target], count: int) -> None:
    """`count` stitches in each target."""
    passed = 0
    for at, target in enumerate(targets):
        if passed:
            passed -= 1
            continue
        corner = p.corners.get(target.start) if target.back == 1 and target.end > target.start else None
        if isinstance(corner, Into) and _told_for_itself(p, op):
            corner = None
        target = _in_space(p, target) if corner is not None else target
        if isinstance(corner, Into):
            kept, p.corners = p.corners, {}
            try:
                into_one(p, corner, target)
            finally:
                p.corners = kept
            continue
        if corner is not None and corner.stitch == "dec":
            passed = decrease_there(p, op, targets[at : at + corner.count], corner.count)
            continue
        number = corner.count + (count - 1 if corner.stitch == "inc" else 0) if corner else count
        kind = corner.stitch if corner is not None and corner.stitch != "inc" else op.stitch
        group = p.new_place() if number > 1 and p.group < 0 else p.group
        begun = len(p.out)
        room_for(p, number, op)
        if p.first_leg is not None:
            p.out.append(on_its_chain(p, op, (target,) * number))
            continue
        p.out += [stitch(p, kind, (target,), group, op)] * number
        if number > 1 and p.group < 0:
            p.groups.append((begun, number, ""))
    p.chained = p.exact = False
    spaced = bool(targets) and targets[-1].foot.hold in ("space", "between")
    p.wide = is_shell(op.stitch, count) or (spaced and (p.wide or count > 1))


def _in_space(p: Hand, target: Target) -> Target:
    """What is done in a corner that is a run of chains goes into its space, not into one of its chains."""
    slot = p.ground.slots[target.start]
    whole = slot.stitch.role == "chain" and target.end - target.start == slot.stitch.chains > 1
    return replace(target, foot=Foot(slot.item, target.back, "space")) if whole else target


def decrease_there(p: Hand, op: Make, targets: list[Target], legs: int) -> int:
    """A decrease along a stretch; how many further places it takes."""
    if len(targets) < legs:
        raise Stuck(f"a decrease takes {legs} stitches, but {len(targets)} {are(len(targets))} left", "move it", op.at)
    room_for(p, 1, op)
    p.out.append(stitch(p, f"{op.stitch}{legs}tog", tuple(targets), p.group, op))
    return legs - 1


def room_for(p: Hand, number: int, op: Make | Chain) -> None:
    if len(p.out) + number > MOST_MADE:
        raise Stuck(f"the row makes more than {MOST_MADE:,} stitches", "use a smaller number", op.at, "limit")


def stitch(p: Hand, kind: str, targets: tuple[Target, ...], group: int, op: Make) -> Stitch:
    special = p.site.specials.get(kind)
    feet = tuple(t.foot for t in targets)
    if kind[:2] in ("FP", "BP"):
        hold: Hold = "front post" if kind[:2] == "FP" else "back post"
        feet = tuple(Foot(f.at, f.back, hold, f.part) for f in feet)
    if special and special.kind:
        if special.spikes and feet and feet[0].back == p.main and p.offset == 1:
            feet = tuple(below.spike(p, t, *at) for t in targets[:1] for at in special.spikes)
        return Stitch(special.kind, feet, "stitch", special.chains, group, special.legs, special.base, p.passing)
    back = kind == "sl st" and bool(feet) and not feet[0].back
    role: Role = "join" if back else "travel" if kind == "sl st" and p.travelling() and not p.looping else "stitch"
    usual = gathered().get(kind)
    legs = usual.legs if usual else together(kind) if together(kind) > 1 else 0
    return Stitch(kind, feet, role, 0, group, legs, passes=p.passing)


def gather(p: Hand, op: Make, places: tuple[Place, ...], legs: int) -> None:
    """Several feet under one top: over as many places as it has legs, or all in one."""
    p.gathering = True
    targets = [t for place in places for t in p.targets(place, op.at)]
    p.gathering = False
    one_place = len(targets) == 1
    if one_place:
        targets *= legs
    elif len(targets) == legs + 1 and legs == 2:
        targets = [targets[0], targets[2]]
    if len(targets) % legs:
        raise Stuck(
            f"{op.stitch} works {legs} stitches together, but the words give it {len(targets)}",
            f'write "over next {legs} sts"',
            op.at,
        )
    elif len(places) == 1 and places[0].noun.name == "st":
        footing.note_reach(p, targets, legs)
    room_for(p, op.count * len(targets) // legs, op)
    for _ in range(op.count):
        for first in range(0, len(targets), legs):
            feet = tuple(targets[first : first + legs])
            led = p.first_leg is not None
            p.out.append(on_its_chain(p, op, feet) if led else stitch(p, op.stitch, feet, p.group, op))
    p.chained = p.wide = False


def on_its_chain(p: Hand, op: Make, targets: tuple[Target, ...]) -> Stitch:
    """What is gathered of the row's beginning chain, its first leg, and of stitches in these places."""
    assert p.first_leg is not None
    at, chains, whole = p.first_leg
    p.first_leg = None
    own = p.site.specials.get(op.stitch)
    cluster = not whole and own is not None and own.kind == "cl"
    legs = (own.legs if own is not None and cluster else len(targets)) + 1
    plainly = op.stitch if cluster else f"{re.sub(r'[0-9]+tog$', '', op.stitch)}{legs}tog"
    made = stitch(p, whole or plainly, targets, p.group, op)
    stands = (at or targets[0]).foot
    legs = legs if cluster else made.legs or legs
    return replace(made, feet=(stands, *(t.foot for t in targets)), chains=chains, legs=legs)


def picot(p: Hand, op: Make) -> None:
    special = p.site.specials.get(op.stitch)
    chains = special.chains if special else next((at.nth for at in op.places if at.which == "made" and at.nth), 3)
    kind = special.kind if special else "picot"
    room_for(p, op.count * max(chains, 1), op)
    at = next(
        (i for i in range(len(p.out) - 1, -1, -1) if p.out[i].role not in ("chain", "picot")), max(len(p.out) - 1, 0)
    )
    p.out += [Stitch(kind, (Foot(at, 0),), "picot", chains, p.group)] * op.count


def foundation_stitches(p: Hand, op: Make) -> None:
    room_for(p, op.count, op)
    p.out += [Stitch(op.stitch, (), "stitch")] * op.count


def into(p: Hand, op: Into) -> None:
    """A group into each target of a place."""
    places = op.places or (Place("next"),)
    p.wide = p.wide or sum(o.count for o in walk(op.ops) if isinstance(o, Make)) >= 3
    for place in places:
        targets = [p.context] if not op.places and p.context is not None else p.targets(place, op.at)
        alike = len(targets) > 1  # what begins each of them is worked in the first as in the others
        p.looping += alike
        p.leads = p.leads or (alike and _is_petal(op))
        try:
            for target in targets:
                into_one(p, op, target)
        finally:
            p.looping -= alike


def _is_petal(op: Into) -> bool:
    """ "(Ch 3, 3 dc, ch 3, sl st) in each st": whether what is worked in each place goes up by chains and down by a
    slip stitch, so that the first of these is no beginning chain."""
    last = op.ops[-1]
    return len(op.ops) > 1 and isinstance(op.ops[0], Chain) and isinstance(last, Make) and last.stitch == "sl st"


def into_one(p: Hand, op: Into, target: Target) -> None:
    keep = (p.context, p.group)
    p.context, p.group = target, p.new_place() if keep[1] < 0 else keep[1]
    begun = len(p.out)
    try:
        p.sequence(op.ops, 0)
    finally:
        p.context, p.group = keep
    if op.name:
        p.named.append(op.name)
    close_group(p, begun, op.name)
    p.chained, p.wide = False, True


def close_group(p: Hand, begun: int, name: str) -> None:
    if len(p.out) > begun and (p.group < 0 or name):
        p.groups.append((begun, len(p.out) - begun, name))


def is_shell(stitch: str, count: int) -> bool:
    """Whether so many tall stitches go into one place that they spread over the stitches beside it."""
    return count >= 3 and height_of(stitch) not in ("sc", None)
