"""Chains: those a row begins with, and chains counted from the hook, of the foundation or made in this row."""

from __future__ import annotations

from collections.abc import Sequence

from ...made_late import replace
from ...pattern.lexicon import TURNING, height_of, show_stitch
from ...pattern.tree import FIRST_LEG, NOWHERE, Act, Chain, Into, Make, Noun, Op, Place, Skip, Span, Star, Times, walk
from ..cloth.fabric import Foot, Stitch
from ..cloth.faults import MOST_MADE, Stuck
from ..cloth.ground import Hit
from ..cloth.site import SPACES, Target
from ..cloth.state import Grown
from ..cloth.tiles import tiles_of
from ..cloth.wording import are, ordinal
from . import footing
from .hand import Hand

#: Of a chain of so few the first may be the middle of a ball, "ch 2, 6 sc in 1st ch from hook" (common practice, no
#: source).
_MIDDLE = 4


def chain(p: Hand, op: Chain) -> None:
    p.chains += op.count
    if p.chains > MOST_MADE:
        raise Stuck(f"the row makes more than {MOST_MADE:,} chains", "use a smaller number", op.at, "limit")
    if slipped_in(p):
        p.out = Grown(replace(s, role="travel") if s.kind == "sl st" else s for s in p.out)
        side = op.count in p.tiles or at_a_side(p)
        begin(p, op, (op.counts or ()) if op.counts is not None else ("ch",) if side else counted(p, op))
        return
    if beginning_chain(p) and not (op.counts is None and at_a_side(p)):
        begin(p, op, counted(p, op))
        return
    if op.counts and not p.looping and p.last is not None and p.last.back == 1 and not op.counts[0].startswith("ch"):
        begin(p, op, op.counts)
        return
    p.out.append(Stitch("ch", (), "chain", op.count, p.group))
    p.chained = True


def tile_sides(ops: tuple[Op, ...]) -> tuple[int, ...]:
    """The chains, by their number, that are the side of a block: a repeat makes them behind a slip stitch and works on
    into the space that the slip stitch went into."""
    out: set[int] = set()
    for op in walk(ops):
        inside = op.ops if isinstance(op, Star | Times) else ()
        for slip, side, tile in zip(inside, inside[1:], inside[2:], strict=False):
            slips = isinstance(slip, Make) and slip.stitch == "sl st"
            there = isinstance(tile, Make | Into) and any(place.which == "same" for place in tile.places)
            if slips and there and isinstance(side, Chain):
                out.add(side.count)
    return tuple(sorted(out))


def at_a_side(p: Hand) -> bool:
    """Whether slip stitches have led to the side of a block of the row below: the chain that follows is a side too."""
    if not p.out or p.out[-1].kind != "sl st" or p.site.is_round or p.site.on_foundation:
        return False
    foot = p.out[-1].feet[0] if p.out[-1].feet else None
    return foot is not None and foot.back == 1 and any(tile.side == foot.at for tile in tiles_of(p.ground.row))


def beginning_chain(p: Hand) -> bool:
    """Whether no stitch has been made: this chain lifts the work to its height."""
    if not p.out and p.here > 1 and p.last is None and not p.rotated:
        return False  # "skip first 7 sts, ch 2": chains over what was passed over
    return all(s.role == "travel" for s in p.out) and not p.leads


def slipped_in(p: Hand) -> bool:
    """ "Ch 1, sl st in first 4 sts, ch 1": slip stitches between two beginning chains only move the hook."""
    if p.leads or len(p.out) < 2 or p.out[0].role != "start" or p.out[-1].kind != "sl st":
        return False
    return all(s.role == "start" or s.kind == "sl st" for s in p.out)


def counted(p: Hand, op: Chain) -> tuple[str, ...]:
    p.told = op.counts is not None or op.count in p.site.throughout
    chosen = p.choice.chain or ()
    if op.count == 1 and p.last is None and chosen and TURNING.get(chosen[0], 1) > 1:
        chosen = ()  # "ch 1, turn, sl st in next sp, ch 3": of the two chains the second is the stitch
    if op.counts is not None:
        return chosen if op.counts and chosen[:1] == (FIRST_LEG,) else op.counts
    if op.count in p.site.throughout:
        return p.site.throughout[op.count]
    return chosen


def begin(p: Hand, op: Chain, parts: tuple[str, ...]) -> None:
    p.begun_with = op.count
    if parts and parts[0].startswith(FIRST_LEG):
        p.first_leg = (stand(p, op), op.count, parts[0].removeprefix(FIRST_LEG).strip())
        return
    runs = [int(part.split()[1]) for part in parts if part.startswith("ch ")]
    rises = [part for part in parts if not part.startswith(("ch", "sk"))]
    if not rises:
        if runs or "ch" in parts:
            p.out.append(Stitch("ch", (), "chain", runs[0] if runs else op.count, p.group))
            p.chained = True
        else:
            wrap(p)
            p.out.append(Stitch("ch", (), "start", op.count, p.group))
        return
    kind = rise(op.count) if rises[0] == "st" else rises[0]
    if several(parts):
        p.amiss = p.amiss or one_stitch_only(rises[0], op.at)
    _lifts(p, op.count - sum(runs), kind, told=bool(runs) and op.counts is not None)
    target = stand(p, op)
    p.out.append(Stitch(kind, (target.foot,) if target else (), "turning", max(op.count - sum(runs), 1), p.group))
    p.counted_start = True
    for run in runs:
        p.out.append(Stitch("ch", (), "chain", run, -1 if p.group < 0 else p.group))
        p.chained = True


def _lifts(p: Hand, chains: int, kind: str, *, told: bool) -> None:
    """Keep that the chain which counts as a stitch has more chains than that is high, or has too few where chains are
    told to lie beside it (common practice, no source)."""
    high = TURNING.get(kind, 0)
    if high and kind != "sc" and (chains > high or (told and chains != high)):
        name = show_stitch(kind, p.site.terms)
        p.joined_low = p.joined_low or (
            f"its beginning chain has {chains} ch for the {name} that it counts as; {name} usually has {high}"
        )


def several(parts: Sequence[str]) -> bool:
    """Whether a chain is said to count as "2 dc", which is told as ("dc", "dc")."""
    first, second = [part.split()[0] for part in parts[:2]] if len(parts) > 1 else ("", "")
    return first == second != "ch" and bool(first)


def one_stitch_only(kind: str, at: Span = NOWHERE) -> Stuck:
    """A chain said to count as two stitches: it stands in one place, as one (common practice, no source)."""
    says = f"a chain is said to count as 2 {kind}; it stands for one stitch"
    return Stuck(says, "say what it counts as, one stitch and the chains besides", at)


def wrap(p: Hand) -> None:
    """What the slip stitches at a round's beginning passed over comes again at its end: the ground is turned to begin
    where they have led; a space entered in its middle is not cut."""
    if not p.choice.wrap or p.wrapped or p.rotated or not p.site.is_round or p.last is None or not p.out:
        return
    p.wrapped = True
    last = p.last
    start = p.ground.of_item(p.ground.slots[last.start].item) if last.start < len(p.ground.slots) else None
    if p.stopped == p.here < len(p.ground.slots) and p.ground.slots[p.here].stitch.role == "chain":
        start = p.here  # "sl st to ch-2 sp" leads up to a space, and the round begins there
    if last.back != 1 or not start:
        return
    size = len(p.ground.slots)
    footing.turn_ground(p, start)
    p.here, p.landed, p.within = (max(at - start, 0) for at in (p.here, p.landed, p.within))
    p.last = replace(last, start=(last.start - start) % size, end=(last.end - start - 1) % size + 1)
    p.touched = Grown((at - start, end - start) for at, end in p.touched if at >= start)


def stand(p: Hand, op: Chain) -> Target | None:
    """Where a beginning chain that counts stands: the group's place, the last slip stitch, or the first stitch."""
    wrap(p)
    if p.context is not None:
        return p.context
    if p.out and p.last is not None:
        return p.last
    if p.last is not None and p.last.end:
        p.here = max(p.here, p.last.end)
        return p.last
    if p.ground.slots and p.ground.slots[0].stitch.role == "ring":
        return Target(Foot(0, 1, "ring"), 0, 0)
    hit = p.ground.find(Noun("st"), p.here)
    if hit is None:
        return None
    p.here = hit.end
    _shaping_moved(p, hit)
    target = footing.target(p, 1, hit, Place("first"))
    footing.remember(p, [target])
    return target


def _shaping_moved(p: Hand, hit: Hit) -> None:
    """ "Ch 3, dc in each st, dec 1 st at each end": what is done at a row's first stitch is done beside the beginning
    chain that stands there as a stitch (common practice, no source)."""
    shaping = p.corners.get(hit.start)
    if isinstance(shaping, Make) and shaping.stitch in ("inc", "dec") and hit.end not in p.corners:
        p.corners = {**{at: made for at, made in p.corners.items() if at != hit.start}, hit.end: shaping}


def rise(chains: int) -> str:
    """The stitch a beginning chain of so many chains is as tall as (PG 26113, 1918, for sc to dtr)."""
    return next((kind for kind, rises in TURNING.items() if rises == chains), "dc")


def hook(p: Hand, place: Place) -> list[Target]:
    """The nth chain from the hook, or several from there on."""
    slot = place.nth - 1 if place.nth else len(p.ground.slots) - 1
    if not p.site.on_foundation:
        if p.out and p.out[-1].kind == "ch":
            return [own_hook(p, place)]
        raise Stuck("there is no foundation chain below to count from the hook", "name the stitch of the row below")
    if slot + place.count > len(p.ground.slots):
        raise Stuck(
            f"the foundation has {len(p.ground.slots)} ch; there is no {ordinal(place.nth)} ch from the hook",
            f"make at least {place.nth + place.count - 1} ch",
        )
    led = any(s.kind == "ch" and s.chains for s in p.out)  # behind a chain of the row that loop is another
    if place.nth == 1 and len(p.ground.slots) > _MIDDLE and not led:
        says = "the 1st ch from the hook is the one that its loop comes out of; no stitch goes into it"
        p.amiss = p.amiss or Stuck(says, 'write "in 2nd ch from hook", or say which chain is meant')
    p.here = slot + place.count
    targets = [footing.target(p, 1, Hit(at, at + 1), place) for at in range(slot, p.here)]
    footing.remember(p, targets)
    return targets


def before_hook(p: Hand, target: Target) -> None:
    """ "Beginning in 4th ch from hook": that chain, of the foundation or made in this row, comes next."""
    if target.back:
        p.here, p.last, p.landed = target.start, target, target.start
    elif p.own is not None:
        p.own = (p.own[0], p.own[1] + 1, p.own[2])


def own_hook(p: Hand, place: Place) -> Target:
    """ "in 4th ch from hook" of a chain made in this row: the row goes on along it, back towards its first chain."""
    at, chain = len(p.out) - 1, p.out[-1]
    if not place.nth:
        place = replace(place, nth=chain.chains)
    if place.nth > chain.chains:
        raise Stuck(
            f"the chain just made has {chain.chains} ch; there is no {ordinal(place.nth)} ch from the hook",
            f"make at least {place.nth} ch",
        )
    if chain.role == "start":
        p.out = Grown((*p.out[:at], replace(chain, role="chain")))
    part = chain.chains - place.nth
    p.own = (at, part, False)
    return Target(Foot(at, 0, "chain", part), 0, 0, 0)


def own_next(p: Hand, place: Place) -> list[Target] | None:
    """The next chains of a chain made in this row that is being worked along; once they are called chains, "st" is a
    stitch of the row below."""
    if p.own is None or place.noun.name not in ("ch", "st") or place.which not in ("next", "each", "last", "rem"):
        return None
    at, part, by_chain = p.own
    if by_chain and place.noun.name == "st":
        return None
    count = part if place.which == "each" and place.count == 1 else place.count
    if count > part or not count:
        return None
    if place.which == "last" and count < part:
        raise which_last(p, place, part)
    p.own = (at, part - count, place.noun.name == "ch")
    return [Target(Foot(at, 0, "chain", part - 1 - i), 0, 0, 0) for i in range(count)]


def which_last(p: Hand, place: Place, left: int) -> Stuck:
    """The last are named while more of the chain just made are left than these."""
    last = p.one(place.noun) if place.count == 1 else f"{place.count} {p.many(place.noun, place.count)}"
    return Stuck(
        f'"last {last}" may be of the chain just made, of which {left} ch {are(left)} left, or of {p.site.below}',
        f'write "in next {left} ch" to work along the chain to its end, or name the kind of the stitch below',
        kind="ambiguous",
    )


def closed_where_begun(ops: tuple[Op, ...]) -> tuple[Op, ...] | None:
    """The ops of a round whose first loop leaves from the stitch that the hook stands on and whose last is fastened
    down there, "*ch 5, sk 2 sc, sc in next sc; rep from * around, ending with sc in sl st", said of a round that begins
    behind that stitch: it is the last one. None for any other row."""
    work = [n for n, op in enumerate(ops) if not isinstance(op, Act)]
    first = ops[work[0]] if work else None
    led = first.ops[0] if isinstance(first, Star | Times) and first.ops else first
    if not isinstance(led, Chain) or led.counts is not None or not any(isinstance(op, Skip) for op in walk(ops)):
        return None
    return _closed_in(ops, work[-1], Place("last"), slips=False)


def closed_in_slips(ops: tuple[Op, ...], *, wrap: bool) -> tuple[Op, ...]:
    """The ops of a round that slips to where it begins and ends there: "sl st to center of next loop, *ch 6, sc in next
    loop; rep from * around, ending with sc in last sl st"; `wrap`: also where its end is not said."""
    work = [n for n, op in enumerate(ops) if not isinstance(op, Act)]
    first = ops[work[0]] if work else None
    if not isinstance(first, Make) or first.stitch != "sl st":
        return ops
    if wrap and (loop := last_loop(ops)) is not None:
        star = ops[work[-1]]
        if isinstance(star, Times):
            return (*ops[: work[-1]], replace(star, times=star.times - 1), *star.ops[:-1], loop, *ops[work[-1] + 1 :])
        assert isinstance(star, Star)
        return (*ops[: work[-1]], replace(star, ending=(loop,)), *ops[work[-1] + 1 :])
    return _closed_in(ops, work[-1], Place("same"), slips=True) or ops


def last_loop(ops: tuple[Op, ...]) -> Make | None:
    """The stitch that fastens the last loop of a round where it began, "sl st in 3 ch, *ch 8, sc in next loop; rep
    from * around", in the first loop; None where the round is another."""
    work = [op for op in ops if not isinstance(op, Act)]
    star = work[-1] if work else None
    slips = [isinstance(op, Make) and op.stitch == "sl st" for op in work[:-1]]
    if not isinstance(star, Star | Times):
        return None
    if isinstance(star, Times):
        bounded = star.times < 2 or bool(star.name)
    else:
        bounded = bool(star.ending or star.until or star.upto) or star.more is not None or star.cut is not None
    if bounded:
        return None
    if not slips or not all(slips) or len(star.ops) < 2 or not isinstance(star.ops[0], Chain):
        return None
    made = star.ops[-1]
    if not isinstance(made, Make):
        return None
    place = made.places[0] if len(made.places) == 1 and (made.stitch, made.count) == ("sc", 1) else None
    in_loop = place is not None and place.which == "next" and place.noun.name in SPACES and place.of is None
    return replace(made, places=(Place("same"),)) if in_loop else None


def _closed_in(ops: tuple[Op, ...], at: int, place: Place, *, slips: bool) -> tuple[Op, ...] | None:
    """The ops with the last stitch, at `at` or in the ending of the repeat there, in another place; None where it is
    not told in the slip stitch, or the stitch, that the round began on."""
    last = ops[at]
    star = next((op for op in reversed(ops[: at + 1]) if isinstance(op, Star | Times)), None)
    end = last.ending[-1] if isinstance(last, Star) and last.ending else last
    if star is None or not _in_the_join(end, star.ops, slips=slips):
        return None
    assert isinstance(end, Make)
    end = replace(end, places=(place,))
    closed: Op = replace(last, ending=(*last.ending[:-1], end)) if isinstance(last, Star) else end
    return (*ops[:at], closed, *ops[at + 1 :])


def _in_the_join(op: Op, again: tuple[Op, ...], *, slips: bool) -> bool:
    """Whether a stitch that a round's loops are fastened with is told in the slip stitch that it began on, or, unless
    `slips`, in its first stitch."""
    if not isinstance(op, Make) or op.count != 1 or len(op.places) != 1 or op.beside:
        return False
    place = op.places[0]
    if place.row is not None or place.of is not None or place.nth:
        return False
    slipped = place.noun.name == "sl st" and place.which in ("next", "last", "first", "same")
    stitch = place.noun.name == "st" or height_of(place.noun.name) is not None
    plain = not slips and place.which in ("first", "same") and stitch
    alike = any(isinstance(part, Make) and part.stitch == op.stitch != "sl st" for part in again)
    return (slipped or plain) and alike
