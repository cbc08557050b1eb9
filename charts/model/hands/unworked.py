"""Skipped stitches worked after all: those this row has passed over, and those that rows before left open."""

from __future__ import annotations

from ...made_late import replace
from ...pattern.lexicon import height_of
from ...pattern.tree import NOWHERE, Noun, Place
from ..cloth.faults import Stuck
from ..cloth.ground import Hit
from ..cloth.site import Target
from ..cloth.wording import are, ordinal, stitches, them
from . import below, footing
from .hand import Hand


def skipped(p: Hand, place: Place) -> list[Target]:
    """ "In skipped st", "in 2nd skipped st": the last that this row has skipped, or the nth."""
    if not p.skipped and place.nth == 0:
        return unworked(p, place)
    if place.nth > len(p.passed):
        has = stitches(len(p.passed)) if p.passed else "nothing"
        raise Stuck(f"{has} has been skipped here; there is no {ordinal(place.nth)}", "say which stitch is meant")
    slot = p.passed[place.nth - 1] if place.nth else p.skipped[-1]
    p.skipped = tuple(s for s in p.skipped if s != slot)
    return _done(p, [_own(p, place, slot)])


def unworked(p: Hand, place: Place) -> list[Target]:
    """ "In next 2 skipped sc 3 rows below": in order, those straight below that no row since has worked into; where
    there are none, those that this row has skipped."""
    back = footing.back_of(p, place) if place.row is not None else 0
    if back and below.past_the_end(p) and not _straight_below(p, place, back):
        return _left_by_short_rows(p, replace(place, row=None))  # a row has left them, though they are not its own
    if not back and p.skipped:
        return _own_ones(p, place)
    if not back and below.past_the_end(p):
        return _left_by_short_rows(p, place)
    if not back and (free := _between_petals(p, place)):
        p.left_on_purpose = True
        return _take(p, place, p.offset + 1, free)
    back = back or _open_row(p, place)
    if back == p.offset:
        return p.targets(replace(place, which="next" if place.count else "each", count=place.count or 1), NOWHERE)
    free = _straight_below(p, place, back)
    if not free and p.skipped:
        return _own_ones(p, place)
    return _take(p, place, back, free)


def _between_petals(p: Hand, place: Place) -> list[Hit]:
    """ "(Petal in next sc, sk 1 sc) around" spans nothing: what is skipped there stands open between the petals, for a
    round behind them that names nothing but "next skipped sc". Those that no row has worked into, in order; none where
    chains span something or only one is left."""
    back = p.offset + 1
    if not p.site.is_round or back > p.site.rows_below + 1 or place.which != "unworked" or p.here:
        return []
    spanned = any(s.role == "chain" and s.place < 0 for s in p.ground.row.stitches)
    ground, done, own = p.ground_at(back), below.worked(p, back), below.taken(p)
    free = [hit for hit in ground.within(place.noun, 0, len(ground.slots)) if ground.slots[hit.start].item not in done]
    again = [hit for hit in free if (back, ground.slots[hit.start].item) not in own]
    return again if len(free) > 1 and not spanned else []


def _own_ones(p: Hand, place: Place) -> list[Target]:
    """Those that this row has skipped, in order."""
    count = place.count or len(p.skipped)
    if count > len(p.skipped):
        raise Stuck(
            f"the words need {count} skipped {p.many(place.noun, count)}; this row has skipped {len(p.skipped)}",
            f"skip {count}, or work into {len(p.skipped)}",
        )
    chosen, p.skipped = p.skipped[:count], p.skipped[count:]
    return _done(p, [_own(p, place, slot) for slot in chosen])


def _done(p: Hand, targets: list[Target]) -> list[Target]:
    """Worked into what was skipped further down, a stitch takes a place above; what was skipped above had one."""
    if p.skipped_back > p.offset:
        below.lie_over(p, len(targets))
    else:
        p.settle()
    return targets


def _own(p: Hand, place: Place, slot: int) -> Target:
    """One that this row has skipped: itself, or what lies straight below where the words name another kind or row."""
    ground = p.ground_at(p.skipped_back) if p.skipped_back > p.offset else p.ground
    backs = [p.skipped_back] if place.row is None else [footing.back_of(p, place)]
    if place.row is None and p.last is not None and p.last.back > p.skipped_back:
        backs.append(p.last.back)
    for back in backs:
        hit = Hit(slot, slot + 1) if back == p.skipped_back else below.column(p, back, slot)
        found = (p.ground_at(back) if back != p.skipped_back else ground).within(place.noun, hit.start, hit.end)
        if found:
            return footing.target(p, back, found[0], place)
    raise Stuck(
        f"what was skipped is no {p.one(place.noun)}: it is {p.one(Noun(ground.slots[slot].stitch.kind))}",
        "name the stitch that was skipped, or its row",
    )


def _open_row(p: Hand, place: Place) -> int:
    """The row of the skipped stitches that the chains at hand span; the row below itself where no chains are there."""
    at = max(p.here, p.pending)
    for back in range(p.offset + 1, p.site.rows_below + 2):
        if not below.is_chain(p, back - 1, below.column(p, back - 1, at)):
            break
        if not below.is_chain(p, back, below.column(p, back, at)):
            return back
    if place.which == "unworked" and p.ground.find(place.noun, p.here):
        return p.offset
    raise Stuck("nothing has been skipped here", f"say in which row the skipped {p.one(place.noun)} lies")


def _left_by_short_rows(p: Hand, place: Place) -> list[Target]:
    """What the short rows before have left, row after row, from the nearest to the furthest."""
    out: list[Target] = []
    for back in range(p.offset + 1, p.site.rows_below + 2):
        slots = p.ground_at(back).slots
        free = [h for h in _straight_below(p, place, back) if slots[h.start].stitch.role != "foundation"]
        count = min(len(free), place.count - len(out)) if place.count else len(free)
        if count:
            p.closing = None
            out += _take(p, replace(place, count=count), back, free)
        if place.count and len(out) == place.count:
            return out
    if not out or place.count:
        some = f"only {len(out)} {are(len(out))}" if out else "none is"
        raise Stuck(
            f"the words need {place.count or 1} more {p.many(place.noun, place.count or 1)}; {some} left by the rows "
            "before",
            "work fewer, or leave more in the rows before",
        )
    return out


def beyond(p: Hand, place: Place, done: int) -> list[Target]:
    """ "Sc in next 22 sts" over a row of 4 that was turned short: behind its end those of the rows before that it left;
    `done` of them have been found before. Nothing where they left none, or fewer."""
    named = place.noun.name == "st" or height_of(place.noun.name) is not None
    if not p.goes_on or place.row is not None or place.nth or not named or not below.past_the_end(p):
        return []
    wanted = place.count - done
    for back in range(p.offset + 1, p.site.rows_below + 2):
        slots = p.ground_at(back).slots
        free = [h for h in _straight_below(p, place, back) if slots[h.start].stitch.role != "foundation"]
        if len(free) >= wanted:
            out = _take(p, replace(place, which="unworked", count=wanted), back, free)
            p.closing = None
            p.leapt = p.leapt or f"it goes on over {stitches(wanted)} left by a row before, beyond the short row"
            return out
        if free:
            break
    return []


def next_of_short_rows(p: Hand, place: Place, back: int) -> list[Target]:
    """ "Next 6 sts of Row 3" at the end of a row: what short rows left there; nothing where they left none."""
    if place.nth or not below.past_the_end(p):
        return []
    free = _straight_below(p, place, back)
    return _take(p, place, back, free) if len(free) >= place.count else []


def _straight_below(p: Hand, place: Place, back: int) -> list[Hit]:
    """The open stitches `back` rows below from straight below on, up to the first that is worked; at the end of a
    short row those that it left further on."""
    ground, start = p.ground_at(back), p.spot(back)
    done, own, out = below.worked(p, back), below.taken(p), list[Hit]()
    short = below.past_the_end(p)
    first, size = below.end_of_column(p, back) if short else start, len(ground.slots)
    wrapped = range(first) if short and ground.row.joined else ()  # of a ring the first follows the last
    for at in (*range(first, size), *wrapped):
        stitch_at = ground.within(place.noun, at, at + 1)
        if stitch_at and ground.slots[at].item not in done and (back, ground.slots[at].item) not in own:
            out += stitch_at
        elif short and not out:
            continue
        elif stitch_at or not below.passes(ground.slots[at]):
            break
    return out


def check_closed(p: Hand) -> None:
    """Raise Stuck if a row that closes gaps leaves one open at its end without a word."""
    at_end = p.here >= len(p.ground.slots)
    if p.closing is None or p.chained or p.left_on_purpose or (at_end and not below.past_the_end(p)):
        return
    place, back = p.closing
    left = len(_straight_below(p, place, back))
    if left:
        noun = p.many(place.noun, left)
        raise Stuck(
            f"{left} skipped {noun} {back} rows below {are(left)} left open at the end",
            f"work {them(left)} too, or span {them(left)} with chains",
        )


def _over_carried(p: Hand, back: int) -> bool:
    """Whether a row between stands for its stated count only, so that nobody knows what it left."""
    rows = (p.ground_at(level).row.stitches for level in range(p.offset, back))
    return any(not any(s.feet for s in row) and all(s.role == "stitch" for s in row if s.kind != "ch") for row in rows)


def _take(p: Hand, place: Place, back: int, free: list[Hit]) -> list[Target]:
    count = place.count or len(free)
    if (not free or count > len(free)) and _over_carried(p, back):
        raise Stuck("what the rows before left is not known", "mend the row before", kind="doubtful")
    if not free or count > len(free):
        some = f"{len(free)} of them" if free else "none"
        verb = "lies" if len(free) < 2 else "lie"
        raise Stuck(
            f"the words need {count or 1} skipped {p.many(place.noun, count or 1)} {back} rows below; {some} {verb} "
            "straight below the stitch that comes next",
            "work up to where they lie first, or name the row in which they were skipped",
        )
    if p.closing is not None and p.closing[1] != back and below.past_the_end(p):
        check_closed(p)
    out = [footing.target(p, back, hit, place) for hit in free[:count]]
    p.go(back, free[count - 1].end)
    p.closing = (place, back)
    footing.remember(p, out)
    return out
