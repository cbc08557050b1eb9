"""The end of a row: what closes a round, what it must not leave over, what it has taken."""

from __future__ import annotations

from itertools import pairwise, takewhile

from ...pattern.lexicon import show_stitch
from ...pattern.tree import Make, Noun, Place, Span
from ..cloth.fabric import Foot, Stitch, counts
from ..cloth.faults import Stuck
from ..cloth.wording import are, ordinal, stitches, sts, them
from . import below, unworked
from .footing import goes_through_group
from .hand import Hand


class LeftOver(Stuck):
    """Stitches of the row below are left at the row's end without a word."""


#: A row that is turned short leaves at least one in so many of the stitches below (common practice, no source).
_SHORT = 4


def left_over(p: Hand) -> int:
    """Stitches of the row below that were neither worked nor passed over."""
    return p.ground.stitches_between(p.here, len(p.ground.slots))


def check_end(p: Hand) -> None:
    """Raise Stuck if the row leaves stitches of the row below unworked without a word."""
    p.settle()
    check_slips(p)
    check_spaces(p)
    unworked.check_closed(p)
    left = left_over(p)
    check_leaving(p, left)
    if not left or p.left_on_purpose or p.landmark or p.stopped == p.here or not p.used_ground or only_ring(p):
        return
    if p.exact and p.passed and left > _under_first_loop(p):
        raise _left(p, left)
    spaced = p.last is not None and p.last.foot.hold in ("space", "picot", "chain")
    if spaced and ((p.site.is_round and not _all_so_far(p, left)) or (left == 1 and not p.counted_start)):
        return
    if (p.site.is_round or p.joined) and (_last_gap(p) or ((p.chained or _last_loop(p)) and not _too_many(p, left))):
        return
    if left == 1 and _last_gap(p) and p.ground.row.groups:
        return  # behind the gap beside the row's last stitch
    in_middle = spaced and p.last is not None and p.ground.ends_with_group(p.last.start)
    if in_middle and p.last is not None and not (p.last.back == 1 and goes_through_group(p, p.last.start)):
        return
    if p.here < p.within and not p.ground.stitches_between(p.within, len(p.ground.slots)):
        return  # a shell worked in its middle is done with
    if p.site.is_round and p.rotated and p.ground.rest_of_first_group(p.here):
        return
    if p.others and p.last is not None and p.last.back != 1 and p.here == 0:
        _check_layer(p, p.last.back)
        return
    if p.site.on_foundation and _in_one_chain(p):
        return
    if spaced and not p.site.is_round and _in_only_space(p, left):
        says = f"it is worked in the middle of {p.site.below} alone; {stitches(left)} on each side {are(left)} left"
        p.leapt = p.leapt or says
        return
    if p.turned_short and left * _SHORT >= sum(1 for slot in p.ground.slots if counts(slot.stitch)):
        says = f"{stitches(left)} of {p.site.below} {are(left)} left unworked behind its turn, which is not said"
        p.leapt = p.leapt or says
        return
    raise _left(p, left)


def _in_only_space(p: Hand, left: int) -> bool:
    """Whether a flat row is one group in the only space of the row below, in its middle, as in a strip of shells."""
    spaces = p.ground.hits(Noun("sp"))
    if len(spaces) != 1 or not p.ground.has_spaces or p.ground.stitches_between(0, spaces[0].start) != left:
        return False
    worked = [s for s in p.out if s.role not in ("start", "turning", "travel") and s.feet]
    return bool(worked) and all(f.hold == "space" and f.back == 1 for s in worked for f in s.feet)


def _all_so_far(p: Hand, left: int) -> bool:
    """Whether a round that ends in a space has worked every stitch up to there, and leaves more than one behind it."""
    plain = [at for at in range(p.here) if counts(p.ground.slots[at].stitch)]
    worked = {at for start, end in p.touched for at in range(start, end)}
    return left > 1 and bool(plain) and worked.issuperset(plain)


def _under_first_loop(p: Hand) -> int:
    """The stitch that a round stands on which begins with a loop: it lies behind what the last loop passes over."""
    return int(p.site.is_round and bool(p.out) and p.out[0].role == "chain")


def _left(p: Hand, left: int) -> LeftOver:
    made = sum(1 for s in p.out if counts(s))
    plain = show_stitch("sc", p.site.terms)
    return LeftOver(
        f"{stitches(left)} of {p.site.below} {are(left)} left unworked at the end (the row makes {made})",
        f'work {them(left)} ("{plain} in last {sts(left)}"), or write "leave last {sts(left)} unworked"',
    )


#: A layer worked into so many stitches side by side of a round further down goes into all of them (common practice).
_LAYER = 3


def _check_layer(p: Hand, back: int) -> None:
    """Raise Stuck if a round behind another, that states no count, goes into stitches side by side of a round further
    down and stops before the last of them."""
    if p.site.counted or not p.site.is_round:
        return
    row = p.ground_at(back).row.stitches
    feet = [f.at for s in p.out if s.role == "stitch" for f in s.feet if f.back == back and f.hold != "between"]
    kinds = {row[at].kind for at in feet if counts(row[at])}
    there = [at for at, s in enumerate(row) if counts(s) and s.role == "stitch" and s.kind in kinds]
    used = [there.index(at) for at in dict.fromkeys(feet) if at in there]
    side_by_side = len(used) >= _LAYER and all(b == a + 1 for a, b in pairwise(used))
    left = len(there) - len(used)
    if side_by_side and left:
        raise LeftOver(
            f"{left} of the {len(there)} {p.many(Noun(row[there[0]].kind), len(there))} of {below.row_name(p, back)} "
            f"that this round goes into {are(left)} left",
            "work as many repetitions as there are of them, or state what the round makes",
        )


#: A chain of so few into one of which a round is worked is its middle (common practice, no source).
_MIDDLE, _ROUND = 4, 3


def _in_one_chain(p: Hand) -> bool:
    """Whether all stitches go into one chain of a very short foundation: "ch 2, 6 sc into 1st ch" begins a ball."""
    feet = {(foot.at, foot.part) for stitch in p.out for foot in stitch.feet if foot.back == 1}
    return len(p.ground.slots) <= _MIDDLE and len(feet) == 1 and sum(map(counts, p.out)) >= _ROUND


#: The last chains of a round lie over so many stitches for each of them, and so many more, at most (common practice,
#: no source).
_SPAN, _MORE = 2, 2


def _too_many(p: Hand, left: int) -> bool:
    """Whether more stitches of plain ground are left at a round's end than its last chains can lie over."""
    last = next((s for s in reversed(p.out) if s.role != "join"), None)
    run = last.chains if last is not None and last.role == "chain" else 0
    plain = all(slot.stitch.role not in ("chain", "picot") for slot in p.ground.slots)
    return plain and left > _SPAN * run + _MORE


def _last_gap(p: Hand) -> bool:
    """Whether a round has been worked between groups and into the last of these gaps: half a group may stand behind."""
    there = p.last is not None and p.last.back == 1 and p.last.foot.hold == "between"
    return there and p.ground.left(Noun("gap"), p.here + 1) == 0


def _last_loop(p: Hand) -> bool:
    """Whether a round ends with a loop that a stitch into its own beginning closes: "ch 2, dc in top of ch-3"."""
    last = p.out[-2:]
    return len(last) == 2 and last[0].role == "chain" and bool(last[1].feet) and all(not f.back for f in last[1].feet)


def check_leaving(p: Hand, left: int) -> None:
    """Raise Stuck if another number is left than is said to be."""
    whole = p.last is not None and p.last.back == 1 and p.last.foot.hold not in ("space", "picot", "chain", "between")
    if not p.leaving or p.leaving == left or not whole or p.site.is_round or p.main != 1 or only_ring(p):
        return
    raise Stuck(
        f"{stitches(p.leaving)} {are(p.leaving)} said to be left unworked, but {left or 'none'} {are(left)} left",
        f'write "leave {sts(left)} unworked"' if left else "work fewer stitches before",
    )


def check_spaces(p: Hand) -> None:
    """Raise Stuck if a row worked in chain spaces leaves spaces of the same size behind; one may lie under its last
    chains."""
    if p.left_on_purpose or p.landmark or p.last is None or p.last.back != 1 or p.last.foot.hold != "space":
        return
    size = p.last.end - p.last.start
    own = below.taken(p)
    ahead = [h for h in p.ground.hits(Noun("sp", size)) if h.start >= p.here]
    if p.into_closing and ahead and ahead[-1].end == len(p.ground.slots):
        ahead.pop()  # the hook stood over it, and comes back to the stitch that closed it
    begun = sum(1 for h in ahead if (1, p.ground.slots[h.start].item) in own)
    left = len(ahead) - begun
    if left > (1 if p.chained else 0):
        noun = p.many(Noun("sp", size), left)
        raise Stuck(
            f"{left} {noun} of {p.site.below} {are(left)} left unworked at the end",
            f"work {them(left)} too, or say that {'it is' if left == 1 else 'they are'} left unworked",
        )


def taken(p: Hand, *, finished: bool) -> int:
    """Stitches and chains of the row below accounted for: worked into, skipped, or spanned. Chains of the foundation
    that stand up as the row's beginning are none of them."""
    if only_ring(p) or not p.used_ground:
        return 0
    whole = finished and not p.left_on_purpose and not p.opposite
    reached = p.ground.slots if whole else p.ground.slots[: p.here]
    return p.taken_before + sum(1 for slot in reached if slot.stitch.role != "picot") - _risen(p)


def _risen(p: Hand) -> int:
    """Foundation chains that stand up at the beginning of the row."""
    if not p.site.on_foundation or p.site.opening is None:
        return 0
    return sum(s.chains for s in takewhile(lambda s: not s.feet, p.out))


def only_ring(p: Hand) -> bool:
    return bool(p.ground.slots) and p.ground.slots[0].stitch.role == "ring"


def closes(p: Hand, op: Make) -> bool:
    """A slip stitch back into the row's own beginning closes a round; one that a repeat goes on with does not."""
    if not (p.site.is_round or p.site.spiral) or p.travelling() or not op.places:
        return False
    place = op.places[0]
    if p.site.spiral and place.which != "next":
        return False
    if place.which in ("first", "top", "beg") or (
        place.which in ("nth", "same") and place.of is not None and place.of.which == "beg"
    ):
        return True
    moves_on = p.joined and only_ring(p)  # "join, sl st in next dc and in ch-2 sp": along the round just closed
    return place.which == "next" and place.row is None and not p.looping and (moves_on or p.here >= len(p.ground.slots))


def closes_with_stitch(p: Hand, op: Make) -> bool:
    """ "ch 2, dc in first sc to join": chains and a stitch into the round's own first stitch end the round."""
    led = p.chained or _into_its_first(p, op)
    if not (p.site.is_round and led and op.places and op.count == 1) or not (p.here or only_ring(p)):
        return False
    place = op.places[0]
    if place.count > 1 or (p.looping and place.which == "first"):
        return False  # "*ch 2, sc in first 2 dc, ...": those ahead, as a repetition says it
    if _in_last_join(p, place):
        p.into_closing = counted_in(p)
        return p.into_closing
    of = place.of if place.which == "nth" else None
    begun = of is not None and of.which == "beg" and of.noun.size == p.begun_with
    return (begun or place.which in ("first", "top", "beg")) and (p.used_ground or only_ring(p)) and counted_in(p)


def _into_its_first(p: Hand, op: Make) -> bool:
    """Whether a stitch behind a round of loops goes into the round's own first one, of a kind that the row below has
    not: "*ch 3, sk 1, sc in next; rep from * to last st, hdc in first sc", in place of the last chains."""
    place = op.places[0] if len(op.places) == 1 else None
    first = next((s for s in p.out if counts(s)), None)
    if place is None or first is None or place.which != "first" or place.row is not None or p.looping:
        return False
    own = first.kind == place.noun.name and p.ground.find(place.noun, 0) is None
    return own and sum(s.role == "chain" for s in p.out) > 1 and left_over(p) <= 1


def _in_last_join(p: Hand, place: Place) -> bool:
    """Whether a place is the stitch that closed the round below, where all others of its kind are worked: "ending with
    ch 2, dc in dc"."""
    last = p.ground.row.stitches[-1] if p.ground.row.stitches else None
    if last is None or last.role != "join" or last.kind == "sl st" or last.kind != place.noun.name:
        return False
    if place.which not in ("next", "last") or not _below(p, place) or p.ground.find(place.noun, p.here) is not None:
        return False
    loops = p.ground.hits(Noun("sp"))
    if loops and not p.rotated and loops[-1].end == len(p.ground.slots) < p.here + 1:
        raise Stuck(
            f"the last loop of {p.site.below} is worked already, so its closing stitch is no place for the last one",
            "work one loop fewer",
        )
    return True


def _below(p: Hand, place: Place) -> bool:
    """Whether a place is in the row below: no row is named, or that one."""
    row = place.row
    return row is None or (row.below == 1 and not row.number) or row.number == p.site.number - 1 > 0


def counted_in(p: Hand) -> bool:
    """Whether stitches have been made in this round that a join could go into."""
    return sum(map(counts, p.out)) > 1


def join(p: Hand, place: Place | None, at: Span, kind: str = "sl st") -> None:
    """Close the round."""
    check_join(p, place, at)
    first = next((i for i, s in enumerate(p.out) if s.role != "travel" and s.role != "start"), 0)
    p.out.append(Stitch(kind, (Foot(first, 0),), "join"))
    p.joined = True


def check_slips(p: Hand) -> None:
    """Tell slip stitches at a round's beginning that are said to go along stitches into a space, and do not come to
    one: stitches lie between, which is not said."""
    led = list(takewhile(lambda s: s.role == "travel", p.out))
    feet = [s.feet[0] for s in led if s.feet]
    if len(feet) < 2 or len(feet) != len(led) or any(foot.back != 1 for foot in feet) or feet[-1].hold != "space":
        return
    spots = [p.ground.span_of(foot.at) for foot in feet[-2:]]
    if None in spots or feet[-2].hold == "space":
        return
    last, space = (span for span in spots if span is not None)
    end = space.start if last.start < space.start else len(p.ground.slots)  # the ground begins where they led to
    over = p.ground.stitches_between(last.start + 1, end)
    begun = p.ground.span_of(feet[0].at)
    # behind a turn the hook is on the first stitch: not the next
    stands = begun is not None and begun.start == 0 and not p.slips_from_first
    if over > stands and p.ground.slots[last.start].stitch.role != "chain":
        left = f"{stitches(over)} of {p.site.below} {are(over)} left"
        says = f"{left} between the slip stitches and the space they go into"
        p.amiss = p.amiss or Stuck(says, "slip stitch into each stitch before the space")


def check_join(p: Hand, place: Place | None, at: Span) -> None:
    """The place joined to must be there: "3rd ch of beg ch-6" needs a beginning chain of 6 with a third chain."""
    of = place.of if place is not None and place.which in ("nth", "top") else place
    if of is not None and of.row is not None:
        p.into_closing = _in_last_join(p, of)
    if place is None or of is None or of.which != "beg" or of.noun.name not in ("st", "ch"):
        return
    total = own_start(p)
    if not total:
        return
    if of.noun.size and of.noun.size not in (total, _whole_chain(p, total)):
        raise Stuck(f"this round begins with ch {total}, not ch {of.noun.size}", f'write "beg ch-{total}"', at)
    if place.which == "nth" and place.nth > max(total, _whole_chain(p, total)):
        raise Stuck(
            f"the beginning chain has {total} ch; there is no {ordinal(place.nth)}", f"name one of its {total} ch", at
        )

    lifts = next((s.chains for s in p.out if s.role != "travel"), 0)
    under = max(_whole_chain(p, total) - total, 0)  # the chain that all stitches go into comes first
    top = lifts + under
    alone = lifts >= total and not p.told
    if place.which != "nth" or not p.counted_start or alone or place.nth == top:
        return
    if p.told and place.nth > top:
        raise Stuck(
            f"the beginning chain counts as a stitch of {lifts} ch and a space; its {ordinal(place.nth)} is no top",
            f'write "{ordinal(top)} ch of beg ch-{total + under}"',
            at,
        )
    if place.nth < top:
        says = (
            f"the round is joined in the {ordinal(place.nth)} ch of its beginning chain; the top of the stitch that it "
            f"counts as is the {ordinal(top)}"
        )
        if p.told:
            p.amiss = p.amiss or Stuck(says, f'write "{ordinal(top)} ch of beg ch-{total + under}"', at)
        else:
            p.joined_low = says


def _whole_chain(p: Hand, skipped: int) -> int:
    """ "Ch 4, 11 dc in 4th ch from hook, join in top of ch 4": the chain that a first round begins with, if all its
    stitches go into one of it; else 0."""
    if not p.site.on_foundation or p.site.opening is None or len(p.ground.row.stitches) != skipped + 1:
        return 0
    return skipped + 1 if len({s.feet[0].at for s in p.out if s.feet}) == 1 else 0


def own_start(p: Hand) -> int:
    """How many chains this row's own beginning chain has; 0 if it has none."""
    at = next((i for i, s in enumerate(p.out) if s.role != "travel"), None)
    if at is not None and p.out[at].role == "stitch" and p.out[at].chains and p.begun_with:
        return p.begun_with  # the first leg of a cluster
    if at is None or p.out[at].role not in ("turning", "start", "chain"):
        return 0
    total = p.out[at].chains
    beside = p.begun_with > total or any(part.startswith("ch") for part in p.site.opening or ())
    if p.out[at].role == "turning" and at + 1 < len(p.out) and p.out[at + 1].role == "chain" and beside:
        total += p.out[at + 1].chains
    return p.begun_with or total
