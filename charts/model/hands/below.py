"""Straight below: which places of a row further down lie under a place of the row below.

A stitch stands over what its feet go into. What has no foot in the row below it (chains, a stitch worked further
down) lies over what is left between its neighbours. From row to row this leads straight down, through a run of
chains to the stitches that it spans (common practice, no source: "2 rows below" means straight below).
"""

from __future__ import annotations

from collections.abc import Container, Iterable, Sequence

from ...pattern.lexicon import height_of
from ...pattern.tree import Noun, Place
from ..cloth.fabric import Foot, Row
from ..cloth.faults import Stuck
from ..cloth.ground import Ground, Hit, Slot
from ..cloth.site import SPACES, Target
from ..cloth.wording import ordinal, stitches, sts
from .hand import Hand

#: So many stitches aside of straight below a long stitch reaches at most (from memory: spikes fan out over 5).
MOST_ASIDE = 6
#: Farther than this nothing is looked for.
MOST_SOUGHT = 60


def spot(p: Hand, back: int) -> int:
    """The slot `back` rows below from which the next place is looked for: straight below the stitch that would be
    worked next, or behind the place used last while the hook has not moved on in the row below."""
    used, since = p.others.get(back, (0, -1))
    if back <= p.offset or (since in (p.here, -1) and p.site.is_round and not _hand(p)):
        return used
    straight, around = column(p, back, _hand(p)).start, len(p.ground_at(back).slots)
    if not p.site.is_round or not around:
        return max(straight, used)
    ahead = (used - straight) % around
    return used if since >= 0 and 0 < ahead <= around // 2 else straight % around


def _hand(p: Hand) -> int:
    """The slot of the row below at which the hand is: that of the stitch just skipped where the stitch takes its
    place; the space that the hook was only moved into."""
    if p.beside.over is not None:
        return p.beside.over
    moved_in = p.last is not None and p.last.back == 1 and p.last.foot.hold == "space" and not p.pending
    if p.last is not None and moved_in and all(s.role in ("travel", "start") for s in p.out):
        return p.last.start
    return max(p.here, p.pending)


def column(p: Hand, back: int, slot: int) -> Hit:
    """The slots of the row `back` below that lie straight under slot `slot` of the ground; at its end what comes after
    all. Round a ring the slots are counted on over the seam."""
    ground = p.ground_at(p.offset) if p.offset > 1 else p.site.ground(1)
    assert ground is not None
    at = _index(p.ground, ground, slot)
    hit = Hit(at, at + 1 if at < len(ground.slots) else at)
    for level in range(p.offset, back):
        hit = _down(_stands(p, level), hit, len(p.ground_at(level + 1).slots))
    return hit


def past_the_end(p: Hand) -> bool:
    """Whether a row worked to and fro has come to the end of the row below: what lies further on was left by short
    rows."""
    return not p.site.is_round and max(p.here, p.pending) >= len(p.ground.slots)


def end_of_column(p: Hand, back: int) -> int:
    """The slot of the row `back` below with which what is worked above ends: short rows leave the rest."""
    end = len(p.ground.slots)
    for level in range(p.offset, back):
        stands = _stands(p, level)
        end = stands[min(end, len(stands)) - 1].end if stands and end else 0
    return end


def _index(turned: Ground, ground: Ground, slot: int) -> int:
    """Where a slot of the ground stands on the same row as it lies, however the ground was turned."""
    if slot >= len(turned.slots):
        return len(ground.slots)
    found = ground.of_item(turned.slots[slot].item, turned.slots[slot].part)
    return slot if found is None else found


def _down(stands: Sequence[Hit], hit: Hit, size: int) -> Hit:
    """What lies under a stretch, one row down."""
    if not stands:
        return Hit(0, size)
    turns, first = divmod(hit.start, len(stands))
    start = stands[first].start + turns * size
    if hit.start == hit.end:
        return Hit(start, start)
    turns, last = divmod(hit.end - 1, len(stands))
    return Hit(start, max(stands[last].end + turns * size, start))


def _stands(p: Hand, level: int) -> Sequence[Hit]:
    """What every slot of the row `level` below stands over."""
    upper, lower = p.ground_at(level), p.ground_at(level + 1)
    if upper.stands is None or upper.stands[0] is not lower:
        upper.stands = (lower, standing(upper, lower, ring=p.site.is_round))
    return upper.stands[1]


def standing(upper: Ground, lower: Ground, *, ring: bool) -> tuple[Hit, ...]:
    """What every slot of a row stands over in the row below it, in order."""
    known = [_feet(slot, lower) for slot in upper.slots]
    size = len(lower.slots)
    placed = _in_order([hit for hit in known if hit], size if ring else 0)
    if not placed:
        return tuple(_shares(0, size, len(known)))
    ends = (placed[-1].end - size, placed[0].start + size) if ring else (0, size)
    return tuple(_filled(known, placed, *ends))


def _feet(slot: Slot, lower: Ground) -> Hit | None:
    """What a stitch's own feet cover in the row below."""
    hits = [hit for foot in slot.stitch.feet if foot.back == 1 and (hit := _foot(foot, lower))]
    return Hit(min(h.start for h in hits), max(h.end for h in hits)) if hits else None


def _foot(foot: Foot, lower: Ground) -> Hit | None:
    if foot.hold == "edge":
        return None
    if foot.hold == "chain":
        at = lower.of_item(foot.at, foot.part)
        return None if at is None else Hit(at, at + 1)
    hit = lower.span_of(foot.at)
    return Hit(hit.start, hit.start) if hit and foot.hold == "between" else hit


def _in_order(hits: Sequence[Hit], ring: int) -> list[Hit]:
    """Stretches in the order of the row above: counted on over the seam of a ring of `ring` slots, and those that
    cross told apart again, since what stands third stands over what is third."""
    turned: list[Hit] = []
    for hit in hits:
        turns = round((turned[-1].start - hit.start) / ring) if ring and turned else 0
        turned.append(Hit(hit.start + turns * ring, hit.end + turns * ring))
    return [Hit(a, b) for a, b in zip(sorted(h.start for h in turned), sorted(h.end for h in turned), strict=True)]


def _filled(known: Sequence[Hit | None], placed: Sequence[Hit], first: int, last: int) -> Iterable[Hit]:
    """Every slot's stretch; those without feet share what is left between their neighbours."""
    before, done, waiting = first, 0, 0
    for hit in known:
        if hit is None:
            waiting += 1
            continue
        yield from _shares(before, placed[done].start, waiting)
        yield placed[done]
        before, done, waiting = placed[done].end, done + 1, 0
    yield from _shares(before, last, waiting)


def _shares(start: int, end: int, count: int) -> Iterable[Hit]:
    """A stretch shared out evenly among `count`; a slot shared by two belongs to both."""
    size = max(end - start, 0)
    for number in range(count):
        yield Hit(start + size * number // count, start - (-size * (number + 1) // count))


def spike(p: Hand, target: Target, aside: int, back: int) -> Foot:
    """A foot of a stitch that stands in a place of the row below, but goes in `back` rows below and so many places
    aside: towards the row's beginning negative."""
    if back == 1 and not aside:
        return target.foot
    ground = p.ground_at(back) if back > 1 else p.ground
    at = (column(p, back, target.start).start if back > 1 else target.start) + aside
    size = len(ground.slots)
    if not p.site.is_round and not 0 <= at < size:
        raise Stuck(
            f"a foot of this stitch goes {abs(aside)} aside of its place, beyond the edge of {row_name(p, back)}",
            "work it further in",
        )
    slot = ground.slots[at % max(size, 1)]
    return Foot(slot.item, back, "space" if slot.stitch.role == "chain" else "top")


def find(p: Hand, place: Place, back: int, number: int) -> Hit | None:
    """The next of the places `back` rows below: straight below the stitch that comes next, or, where the words name a
    kind, the nearest of that kind that is still free. `number` of them have been found before by the same words."""
    ground, noun, start = p.ground_at(back), place.noun, spot(p, back)
    if p.near and place.nth:
        raise Stuck(
            f'"{ordinal(place.nth)} {p.one(noun)} {back} rows below" does not say from where it is counted',
            f'write "sk next {sts(max(place.nth - 1, 1))} {back} rows below" first, then "next"',
            kind="ambiguous",
        )
    if p.near and not number and noun.name not in ("st", "ch", *SPACES) and not _is_group(noun):
        return _nearest(p, place, back)
    found = next((h for h in ground.from_about(noun, start) if h.start >= start or h.end > start), None)
    if found is None and p.site.is_round and _hand(p):
        found = next(iter(ground.hits(noun)), None)
    if found is not None and p.near and noun.name == "st":
        _no_chain_before(p, Hit(start, found.start), back)
    return found


def _is_group(noun: Noun) -> bool:
    return height_of(noun.name) is None and noun.name not in ("bobble", "puff", "popcorn", "cluster")


def _no_chain_before(p: Hand, over: Hit, back: int) -> None:
    """Raise Stuck where straight below there is a chain, not a stitch."""
    slots = p.ground_at(back).slots[over.start : over.end]
    run = next((s.stitch.chains for s in slots if s.stitch.role == "chain"), 0)
    if run:
        raise Stuck(
            f"straight below the stitch that comes next there is no stitch {back} rows below, but ch {run}",
            f'write "in ch-{run} sp {back} rows below", or "in next skipped st" with its row',
        )


def _nearest(p: Hand, place: Place, back: int) -> Hit | None:
    """The free ones of a kind that lie nearest to straight below, as many as the words need; of two as near the one
    further on. A post that leans goes round one beside it; several together stand between theirs."""
    ground, start = p.ground_at(back), spot(p, back)
    around = len(ground.slots) if p.site.is_round else 0
    there = _about(ground, place.noun, start, place.count + MOST_SOUGHT, around)
    own = taken(p)
    hits = [h for h in there if (back, ground.slots[h.start].item) not in own]
    best: tuple[int, int] | None = None
    for at in range(len(hits)):
        needed = [hits[i % len(hits)] for i in range(at, at + place.count)] if around else hits[at : at + place.count]
        if len(needed) < place.count or place.count > len(hits):
            continue
        aside = [_aside(h.start, start + i * (not p.gathering), around) for i, h in enumerate(needed)]
        cost = sum(map(abs, aside)), -aside[0]
        if best is None or cost < best:
            best, found, furthest = cost, needed[0], max(aside, key=abs)
    if best is None:
        return None
    if abs(furthest) > MOST_ASIDE:
        raise Stuck(
            f"the nearest {p.one(place.noun)} {back} rows below lies {stitches(abs(furthest))} aside of straight "
            f"below; a stitch reaches {MOST_ASIDE} aside at most",
            "name one that lies below the stitch that comes next, or say how many rows below it is",
        )
    return found


def _about(ground: Ground, noun: Noun, start: int, far: int, around: int) -> list[Hit]:
    """The places of a kind about a slot, the shorter way round a ring; all where none is so near."""
    low, high = start - far, start + far
    if around and (low < 0 or high > around):
        return ground.hits(noun)
    return ground.within(noun, max(low, 0), high) or ground.hits(noun)


def _aside(slot: int, straight: int, around: int) -> int:
    """How far a slot lies from straight below, the shorter way round a ring."""
    far = slot - straight
    return (far + around // 2) % around - around // 2 if around else far


def worked(p: Hand, back: int) -> set[int]:
    """The items of the row `back` below that a stitch of the rows since goes into."""
    known, between = p.site.worked, (p.offset, back)
    if between not in known:
        rows = ((level, p.ground_at(level).row) for level in range(p.offset, back))
        known[between] = {at for level, row in rows for at in _into(row, back - level)}
    return known[between]


def taken(p: Hand) -> Container[tuple[int, int]]:
    """What this row goes into already: how many rows below, and which item. Kept, so that long rows cost no more."""
    for made in p.out[p.taken_of :]:
        for foot in made.feet:
            p.taken.setdefault((foot.back, foot.at))
    p.taken_of = len(p.out)
    return p.taken


def _into(row: Row, back: int) -> Iterable[int]:
    return (f.at for s in row.stitches for f in s.feet if f.back == back and f.hold != "between")


def row_name(p: Hand, back: int) -> str:
    """What a message calls the row so many below."""
    if back == 1 or not p.site.number:
        return p.site.below if back == 1 else f"the row {back} below"
    number = p.site.number - back
    return f"{'Rnd' if p.site.is_round else 'Row'} {number}" if number > 0 else "the foundation"


def is_chain(p: Hand, back: int, hit: Hit) -> bool:
    """Whether a stretch of a row is of chains that a later row made, not of the foundation."""
    slots = p.ground.slots if back == p.offset else p.ground_at(back).slots
    return hit.start < min(hit.end, len(slots)) and all(
        s.stitch.role == "chain" for s in slots[hit.start : min(hit.end, len(slots))]
    )


def passes(slot: Slot) -> bool:
    """Whether the hand passes over a thing without a word on its way to the next stitch."""
    return slot.stitch.role in ("picot", "chain")


def lie_over(p: Hand, count: int) -> None:
    """Stitches worked further down have been made: the chains they lie over are passed, and where they take the place
    of stitches (`Choice.over`), as many of those. It stays open until the next words, which may say it."""
    if not p.near or p.beside.over is not None:
        return
    over = p.choice.over == "all" or (p.choice.over == "plain" and not p.beside.chain)
    at, slots = _hand(p), p.ground.slots
    for _ in range(count):
        at = _past_picots(slots, at)
        if at < len(slots) and (slots[at].stitch.role == "chain" or over):
            at += 1
    p.pending = at


def settled(p: Hand) -> int:
    """Where the hook is when what stitches worked further down lie over is passed: a run of chains to its end."""
    at, slots = p.pending, p.ground.slots
    if at <= p.here:
        return p.here
    while at < len(slots) and slots[at].stitch.role == "chain" and not slots[at].first:
        at += 1
    return at


def _past_picots(slots: Sequence[Slot], at: int) -> int:
    while at < len(slots) and slots[at].stitch.role == "picot":
        at += 1
    return at
