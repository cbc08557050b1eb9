"""What a row's own words begin: a chain, a ring, a foundation of stitches; and chains that belong to the next row."""

from __future__ import annotations

from collections.abc import Callable

from ...made_late import replace
from .. import lexicon
from ..notation.plain import plain
from ..tree import Act, Again, Chain, Into, Make, Noun, Op, Place, RowText, Skip, Star, Start, Times, walk
from ..when_used import when_used
from .drafts import Draft
from .starts import turning_in

#: No stitch in use is higher than so many chains.
MOST_LIFT = 4


def begun_by(
    draft: Draft, ops: tuple[Op, ...], first: int, before: list[RowText], start: Start | None
) -> tuple[Start | None, tuple[Op, ...], bool]:
    """The start that a row itself makes, and the row without it."""
    begun = draft.start
    if any(isinstance(op, Act) and op.name == "magic ring" for op in ops):
        ops_left = tuple(op for op in ops if not (isinstance(op, Act) and op.name == "magic ring"))
        bare = draft.head.named and all(isinstance(op, Act) for op in ops_left)
        return Start("magic ring", line=draft.line, text=""), ops_left, bare
    only_chains = bool(ops) and all(isinstance(op, Act | Chain) for op in ops)
    may = (begun is None or only_chains) and (not before or first <= 1 or draft.head.named)
    if not may:
        return begun, ops, False
    lead = [op for op in ops if not (isinstance(op, Act) and op.name in ("colour", "facing", "change"))]
    if not lead:
        return begun, ops, False
    if isinstance(lead[0], Chain):
        found = _chain_start(draft, lead, ops)
        if found is not None:
            return found
    picot = lead[0]
    if isinstance(picot, Make) and picot.stitch == "picot" and picot.places and picot.places[0].which == "made":
        ring = Start("ring", picot.places[0].nth, "ch", None, draft.line, "", draft.colour)
        return ring, tuple(op for op in ops if op is not picot), len(lead) == 1
    if _rings(ops) and (before or start is None) and not (before and before[-1].chain_only):
        return Start("magic ring", line=draft.line, text=""), ops, False
    if not before and start is None and _foundation_stitches(ops):
        return Start("none", line=draft.line, text=""), ops, False
    return begun, ops, False


def _goes_along(slip: Make, chains: int) -> bool:
    """ "Ch 12, sl st in 2nd ch from hook and in each ch across": slip stitches along a chain close no ring."""
    first = slip.places[0]
    return len(slip.places) > 1 or (first.which == "hook" and 0 < first.nth < chains - 1)


def _chain_start(draft: Draft, lead: list[Op], ops: tuple[Op, ...]) -> tuple[Start | None, tuple[Op, ...], bool] | None:
    chain = lead[0]
    assert isinstance(chain, Chain)
    rest = [op for op in lead[1:] if not (isinstance(op, Act) and op.name == "turn")]
    at = ops.index(chain)
    lift = rest[0] if rest else None
    if isinstance(lift, Chain) and lift.count <= MOST_LIFT < chain.count:
        ops = _lift_skipped(ops, lift)
    if isinstance(lift, Chain) and lift.count <= MOST_LIFT < chain.count and _hooks(ops[ops.index(lift) + 1 :]):
        chain, at, rest = replace(chain, count=chain.count + lift.count), ops.index(lift), rest[1:]  # "Ch 20. Ch 1, ..."
    following = rest[0] if rest else None
    joined = isinstance(following, Act) and following.name == "join"
    picot = (
        isinstance(following, Make)
        and following.stitch == "sl st"
        and bool(following.places)
        and following.places[0].noun.name == "ch"
        and not _goes_along(following, chain.count)
    )
    colour = next((op.text for op in ops[:at] if isinstance(op, Act) and op.name == "colour"), draft.colour)
    if joined or picot:
        assert following is not None
        if len(rest) == 1 or chain.count >= 2:
            gone = ops.index(following)
            start = Start("ring", chain.count, "ch", None, draft.line, "", colour)
            left = ops[gone + 1 :]
            lifts = all(isinstance(o, Act) or (isinstance(o, Chain) and o.count <= MOST_LIFT) for o in left)
            return start, left, lifts
    if not rest and chain.count > 1:
        return Start("chain", chain.count, "ch", None, draft.line, "", colour), (), True
    hooked = _hooks(ops[at + 1 :]) or _uses_up(ops[at + 1 :], chain.count)
    if hooked and chain.count >= 2:
        left = tuple(op for op in ops[at + 1 :])
        while left and isinstance(left[0], Act) and left[0].name == "turn":
            left = left[1:]
        return Start("chain", chain.count, "ch", None, draft.line, "", colour), _from_hook(left, chain.count), False
    if _first_chain(ops[at + 1 :]) and chain.count >= 2:
        if (hooked_in := _in_last_from_hook(ops[at + 1 :], chain.count)) is not None:
            return Start("chain", chain.count, "ch", None, draft.line, "", colour), hooked_in, False
        return Start("ring", chain.count, "ch", None, draft.line, "", colour), in_ring(ops[at + 1 :]), False
    return None


def _lift_skipped(ops: tuple[Op, ...], lift: Chain) -> tuple[Op, ...]:
    """ "Ch 30, ch 1 more, skip ch just made, sc in each ch across": what is passed over at the hook are the chains made last."""
    at = ops.index(lift) + 1
    skip = ops[at] if at < len(ops) else None
    if not isinstance(skip, Skip) or len(skip.places) != 1:
        return ops
    place = skip.places[0]
    if place.which not in ("made", "same") or place.noun.name not in ("ch", "st") or place.of is not None or place.row is not None:
        return ops
    return (*ops[:at], replace(skip, places=(Place("next", Noun("ch"), count=lift.count),)), *ops[at + 1 :])


def _uses_up(ops: tuple[Op, ...], count: int) -> bool:
    """ "Ch 7, skip 1, sc, hdc, dc, dc, hdc, sc": whether a skip and the stitches behind it take all of a chain."""
    work = [op for op in ops if not isinstance(op, Act)]
    skip = work[0] if work else None
    if not isinstance(skip, Skip) or len(skip.places) != 1 or skip.places[0].noun.name not in ("ch", "st"):
        return False
    made = [op for op in work[1:] if isinstance(op, Make) and not op.beside and all(p.which == "next" for p in op.places[:1])]
    taken = skip.places[0].count + sum(op.count * (op.places[0].count if op.places else 1) for op in made)
    return len(made) == len(work) - 1 > 1 and taken == count


def _in_last_from_hook(ops: tuple[Op, ...], count: int) -> tuple[Op, ...] | None:
    """ "Ch 4, 11 dc in first ch": the first chain is the 4th from the hook, and the others stand for a stitch where they
    are high enough; None where they are not."""
    at, first = next((i, op) for i, op in enumerate(ops) if isinstance(op, Make | Into))
    stitch = next((op.stitch for op in walk((first,)) if isinstance(op, Make)), "sc")
    rises = lexicon.TURNING.get(lexicon.height_of(stitch) or "sc", 1)
    if rises < 2 or count - 1 < rises:
        return None
    return (*ops[:at], replace(first, places=(Place("hook", Noun("ch"), nth=count),)), *ops[at + 1 :])


def _from_hook(ops: tuple[Op, ...], count: int) -> tuple[Op, ...]:
    """ "Ch 6, dc in the last ch": the last one is counted from the hook."""
    at = next((i for i, op in enumerate(ops) if isinstance(op, Make | Into)), None)
    first = ops[at] if at is not None else None
    if at is None or not isinstance(first, Make | Into) or len(first.places) != 1 or first.places[0].which != "last":
        return ops
    if first.places[0].noun.name != "ch" or first.places[0].count != 1:
        return ops
    return (*ops[:at], replace(first, places=(Place("hook", Noun("ch"), nth=count),)), *ops[at + 1 :])


def in_ring(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """What is worked into one chain stands round it as round a ring."""
    at, first = next((i, op) for i, op in enumerate(ops) if isinstance(op, Make | Into))
    return (*ops[:at], replace(first, places=(Place("ring", Noun("ring")),)), *ops[at + 1 :])


#: A ring of so many chains is worked round; into one of more chains, so many stitches go chain by chain (common
#: practice, no source).
_FEW_CHAINS = 8


def first_in_ring(ops: tuple[Op, ...], chains: int = 0) -> tuple[Op, ...]:
    """ "Magic ring. Rnd 1: sc x 6": the stitches of a first round that are told by their number alone go into the ring."""
    ops = tuple(_in_its_middle(op, chains) for op in ops)
    work = [i for i, op in enumerate(ops) if not isinstance(op, Act | Chain)]
    only = ops[work[0]] if len(work) == 1 else None
    if not isinstance(only, Make) or only.count != 1 or len(only.places) != 1:
        return ops
    place = only.places[0]
    if place.which != "next" or place.count < 2 or place.noun.name != "st" or place.nth or place.row:
        return ops
    if _FEW_CHAINS < chains >= place.count:
        return (*ops[: work[0]], replace(only, places=(replace(place, noun=Noun("ch")),)), *ops[work[0] + 1 :])
    return (*ops[: work[0]], replace(only, count=place.count, places=(Place("ring", Noun("ring")),)), *ops[work[0] + 1 :])


def _in_its_middle(op: Op, chains: int) -> Op:
    """ "9 dc in center of the 4 ch", "in the middle of the chain ring": the ring that these chains are joined to."""
    if isinstance(op, Star | Times):
        return replace(op, ops=tuple(_in_its_middle(one, chains) for one in op.ops))
    place = op.places[0] if isinstance(op, Make | Into) and len(op.places) == 1 else None
    of = place.of if place is not None and place.which == "nth" and place.noun.name == "st" else None
    if not isinstance(op, Make | Into) or of is None:
        return op
    its_chains = of.which == "next" and of.noun.name == "ch" and of.count == chains
    return replace(op, places=(Place("ring", Noun("ring")),)) if of.which == "ring" or its_chains else op


def closed(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """ "24 sc, 1 ss, 1 ch" of a round: the slip stitch that stands without a place behind all else joins it."""
    work = [i for i, op in enumerate(ops) if not isinstance(op, Act)]
    chain = bool(work) and isinstance(ops[work[-1]], Chain)
    last = work[-2 if chain else -1] if len(work) > 1 + chain else -1
    slip = ops[last] if last >= 0 else None
    if not isinstance(slip, Make) or slip.stitch != "sl st" or slip.count != 1 or not _nowhere(slip):
        return ops
    return (*ops[:last], Act("join", at=slip.at), *ops[last + 1 :])


def group_in_space(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """ "(Ch 3, 2 dc, ch 1, 3 dc) in same sp, *ch 1, (3 dc, ch 1, 3 dc) in next sp; rep from *": a round that begins with a
    group in a space it calls the same, though it has not come to one, and works its other groups in spaces."""
    work = [i for i, op in enumerate(ops) if not isinstance(op, Act)]
    first = ops[work[0]] if work else None
    if not isinstance(first, Into) or len(first.places) != 1 or not any(isinstance(op, Chain) for op in first.ops[1:]):
        return ops
    place = first.places[0]
    spaces = ("sp", "lp", "corner", "corner sp")
    if place.which != "same" or place.noun.name not in spaces or place.of is not None or place.row is not None:
        return ops
    others = [p for op in walk(ops[work[0] + 1 :]) if isinstance(op, Make | Into) for p in op.places]
    if not any(p.which == "next" and p.noun.name in spaces for p in others):
        return ops
    return (*ops[: work[0]], replace(first, places=(replace(place, which="any"),)), *ops[work[0] + 1 :])


def joined_row(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """A "row" that stands round a ring and ends with a slip stitch in its first stitch: that joins it."""
    work = [i for i, op in enumerate(ops) if not isinstance(op, Act)]
    last = ops[work[-1]] if work else None
    if isinstance(last, Star) and isinstance(slip := last.ending[-1] if len(last.ending) > 1 else None, Make) and slip.stitch == "sl st":
        ops = (*ops[: work[-1]], replace(last, ending=last.ending[:-1]), slip, *ops[work[-1] + 1 :])
        again = joined_row(ops)
        return again if again != ops else (*ops[: work[-1]], last, *ops[work[-1] + 2 :])
    slip = ops[work[-1]] if len(work) > 1 else None
    if not isinstance(slip, Make) or slip.stitch != "sl st" or slip.count != 1 or len(slip.places) != 1:
        return ops
    place = slip.places[0]
    made = {op.stitch for op in walk(ops[: work[-1]]) if isinstance(op, Make)}
    if place.which != "first" or place.count != 1 or place.row is not None or place.noun.name not in made:
        return ops
    return (*ops[: work[-1]], Act("join", "", place, at=slip.at), *ops[work[-1] + 1 :])


def _nowhere(slip: Make) -> bool:
    return not slip.places or (len(slip.places) == 1 and slip.places[0] == Place("next", Noun("st"), count=1))


def chains_moved(rows: list[RowText]) -> list[RowText]:
    """ "..., ch 3, turn." at the end of a row begins the next one, where that begins with no chain of its own."""
    out = list(rows)
    for at in range(len(out) - 1):
        row, following = out[at], out[at + 1]
        chain = last_chain(row.ops)
        if chain is None or following.begins is not None or not following.ops:
            continue
        if isinstance(following.ops[0], Again):
            if _begins_so(out[: at + 1], following.ops[0], chain):
                out[at] = replace(row, ops=tuple(op for op in row.ops if op is not chain))
            continue
        if _own_chain_first(following.ops):
            continue
        if _raised_by_its_first(following.ops, chain):
            out[at] = replace(row, ops=tuple(op for op in row.ops if op is not chain))
            continue
        kept = tuple(op for op in row.ops if op is not chain)
        out[at] = replace(row, ops=kept)
        turned = any(isinstance(op, Act) and op.name == "turn" for op in kept[-2:])
        lead: tuple[Op, ...] = (chain, Act("turn", at=chain.at)) if turned else (chain,)
        if turned:
            out[at] = replace(row, ops=_without_last_turn(kept))
        out[at + 1] = replace(following, ops=(*lead, *following.ops))
    for at, row in enumerate(out):
        if at + 1 == len(out) or out[at + 1].begins is not None:
            out[at] = replace(row, ops=_without_lift(row.ops))
    return out


def _raised_by_its_first(ops: tuple[Op, ...], chain: Chain) -> bool:
    """Whether a row begins with a stitch of the pattern's own that begins with just that chain, or slips on to where it
    makes that chain: "sl st in first 4 sts, ch 3"."""
    work = [op for op in ops if not isinstance(op, Act)]
    first = work[0] if work else None
    if isinstance(first, Make) and first.stitch == "sl st" and first.places:
        after = next((op for op in work if not (isinstance(op, Make) and op.stitch == "sl st")), None)
        return isinstance(after, Chain) and 1 < chain.count <= MOST_LIFT and after.count == chain.count
    raised = first.ops[0] if isinstance(first, Times) and first.name and first.ops else None
    return isinstance(raised, Chain) and raised.count == chain.count


def _begins_so(before: list[RowText], again: Again, chain: Chain) -> bool:
    """Whether the row that is repeated begins with that chain, which then is not worked twice."""
    told = next((row for row in reversed(before) if row.first <= again.first <= row.last), None)
    first = told.ops[0] if told is not None and told.ops else None
    return not again.part and isinstance(first, Chain) and first.count == chain.count


def _without_lift(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """A piece's last row without the "ch 1, turn" behind it, which belongs to a row that is not given."""
    chain = last_chain(ops)
    turned = any(isinstance(op, Act) and op.name == "turn" for op in ops[-2:])
    if chain is None or chain.count > MOST_LIFT or not turned:
        return ops
    return tuple(op for op in ops if op is not chain)


def travel_moved(rows: list[RowText]) -> list[RowText]:
    """ "Join. Sl st along to next corner." at the end of a round begins the next one there."""
    out = list(rows)
    for at, row in enumerate(out[:-1]):
        last = row.ops[-1] if row.ops else None
        if isinstance(last, Act) and last.name == "along" and out[at + 1].begins is None:
            out[at] = replace(row, ops=row.ops[:-1])
            out[at + 1] = replace(out[at + 1], ops=(last, *out[at + 1].ops))
    return out


def yarn_moved(rows: list[RowText], others: dict[int, tuple[tuple[Op, ...], ...]]) -> list[RowText]:
    """ "Join B in any corner space." behind a round's work begins the next one there; behind the last of a piece it names no place
    of that round. `others` are the further ways to read rows, by their place, and are changed with them."""
    out = list(rows)
    for at, row in enumerate(out):
        last = row.ops[-1] if row.ops else None
        if not isinstance(last, Act) or last.name != "yarn" or last.place is None or last.place.which != "any" or last.place.row is not None:
            continue
        if not any(isinstance(op, Make | Into | Star | Times | Again) for op in row.ops[:-1]):
            continue
        following = out[at + 1] if at + 1 < len(out) else None
        begun = following.ops[0] if following is not None and following.begins is None and following.ops else None
        if following is None or begun is None or isinstance(begun, Again) or (isinstance(begun, Act) and begun.name in ("yarn", "along")):
            out[at] = replace(row, ops=(*row.ops[:-1], replace(last, place=None)))
            continue
        out[at] = replace(row, ops=row.ops[:-1])
        out[at + 1] = replace(following, ops=(last, *following.ops))
        for n, ways in ((at, others.get(at, ())), (at + 1, others.get(at + 1, ()))):
            others.update({n: tuple((last, *ops) if n > at else ops[:-1] if ops[-1:] == (last,) else ops for ops in ways)} if ways else {})
    return out


def _without_last_turn(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    at = max(i for i, op in enumerate(ops) if isinstance(op, Act) and op.name == "turn")
    return (*ops[:at], *ops[at + 1 :])


def last_chain(ops: tuple[Op, ...]) -> Chain | None:
    """The chain that a row ends with, behind all its stitches, before or after it is turned."""
    for at in range(len(ops) - 1, max(len(ops) - 4, 0), -1):
        op = ops[at]
        if isinstance(op, Chain):
            worked = any(isinstance(o, Make | Into | Star | Times | Again) for o in ops[:at])
            turned = any(isinstance(o, Act) and o.name in ("turn", "join") for o in ops[at - 1 :])
            return op if worked and turned else None
        if not (isinstance(op, Act) and op.name in ("turn", "change", "colour", "fasten off")):
            return None
    return None


def _own_chain_first(ops: tuple[Op, ...]) -> bool:
    for op in ops:
        if isinstance(op, Chain):
            return True
        if not isinstance(op, Act):
            return False
    return False


def from_skipped(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """ "Skip 3 ch (counts as dc), dc in next ch" on a foundation: the first stitch goes into the 4th chain."""
    work = [i for i, op in enumerate(ops) if not isinstance(op, Act)]
    if len(work) < 2:
        return ops
    skip, first = ops[work[0]], ops[work[1]]
    if not isinstance(skip, Skip) or len(skip.places) != 1 or not isinstance(first, Make | Into) or not first.places:
        return ops
    place, into = skip.places[0], first.places[0]
    if place.which not in ("next", "first") or place.noun.name not in ("ch", "st") or place.nth:
        return ops
    if into.which not in ("next", "each") or into.noun.name not in ("ch", "st") or into.nth or into.until:
        return ops
    hook = Place("hook", Noun("ch"), nth=place.count + 1)
    if into.which == "each":
        rest: tuple[Place, ...] = (replace(into, noun=Noun("ch")),)
    else:
        rest = (replace(into, noun=Noun("ch"), count=into.count - 1),) if into.count > 1 else ()
    opening = tuple(op for op in ops[: work[1]] if isinstance(op, Act) and op.name == "opening")
    lead = tuple(op for op in ops[: work[1]] if op is not skip and op not in opening)
    return (*lead, replace(first, places=(hook, *rest, *first.places[1:])), *opening, *ops[work[1] + 1 :])


_SLIPS = when_used(r"\s*(?:[a-z]+ )?(?:\d )?(?:sl|ss|slip|slst)\b")


def travelled(ops: tuple[Op, ...], low: str) -> tuple[Op, ...]:
    """ "Sl st to first ch-2 sp, ch 3, ...": slip stitches before all else lead somewhere, they close nothing."""
    at = next((i for i, op in enumerate(ops) if not (isinstance(op, Make) and op.stitch == "sl st")), len(ops))
    move = ops[at] if at < len(ops) - 1 and _SLIPS.match(low) else None
    place = move.place if isinstance(move, Act) and move.name in ("join", "yarn") else None
    if place is None or (at and not isinstance(ops[at + 1], Chain)):
        return ops
    middle = place.which == "nth" and place.of is not None and place.of.which in ("next", "first")
    if not middle and (place.which not in ("first", "next")[at > 0 :] or place.of is not None):
        return ops
    there = replace(place, of=replace(place.of, which="next")) if middle and place.of else replace(place, which="next")
    slip = Make("sl st", 1, (there,))
    return (*ops[:at], slip, *ops[at + 1 :])


def upon_turning_chain(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """The reading of a first row that raises itself by chains of its own and works right behind them: "Ch 1, sc in 2nd ch
    from hook" counts its own chain from the hook, so that no chain of the foundation is passed over; empty
    for any other row."""
    work = [i for i, op in enumerate(ops) if not isinstance(op, Act)]
    if len(work) < 2:
        return ()
    chain, first = ops[work[0]], ops[work[1]]
    if not isinstance(chain, Chain) or chain.count > MOST_LIFT or not isinstance(first, Make) or not first.places:
        return ()
    into = first.places[0]
    if into.which != "hook" or into.nth != chain.count + 1 or into.count != 1:
        return ()
    lowered = replace(first, places=(replace(into, which="same", nth=0), *first.places[1:]))
    return (*ops[: work[1]], lowered, *ops[work[1] + 1 :])


def from_usual_chain(ops: tuple[Op, ...]) -> tuple[tuple[Op, ...], ...]:
    """Readings of a first row that does not say where on the chain it begins ("Sc in each ch across"): as many chains
    as the stitch is high are passed over at the hook, or one fewer (common practice, no source)."""
    return _from_chain(ops, lambda high: (high, max(high - 1, 1)))


def counted_from_hook(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """A first row that begins in a chain by its number alone, "dc in 8th ch", "sc in 2nd st of chain", counts it from the
    hook, as chains are counted (common practice, no source)."""
    at = next((i for i, op in enumerate(ops) if not isinstance(op, Act)), None)
    first = ops[at] if at is not None else None
    if at is None or not isinstance(first, Make | Into) or not first.places:
        return ops
    place = first.places[0]
    by_number = place.which == "next" and place.of is None
    alone = by_number or (place.which == "nth" and place.of is not None and place.of.which == "beg")
    if not alone or place.nth < 2 or place.count != 1 or place.row is not None or place.noun.name not in ("ch", "st"):
        return ops
    hook = Place("hook", Noun("ch"), nth=place.nth, hold=place.hold)
    return (*ops[:at], replace(first, places=(hook, *first.places[1:])), *ops[at + 1 :])


def past_turning(ops: tuple[Op, ...], on: Start) -> tuple[Op, ...]:
    """A first row that does not say where on the chain it begins, behind the chains that are told to be for turning:
    "Ch 30 plus 1 to turn. Row 1: Sc in each ch across" makes 30."""
    turning = turning_in(plain(on.text))
    return next(iter(_from_chain(ops, lambda _: (turning,))), ops) if turning else ops


def _from_chain(ops: tuple[Op, ...], passed: Callable[[int], tuple[int, ...]]) -> tuple[tuple[Op, ...], ...]:
    """A first row with so many chains passed over at the hook, for a stitch of its height."""
    work = [i for i, op in enumerate(ops) if not isinstance(op, Act)]
    first = ops[work[0]] if work else None
    if not isinstance(first, Make) or not first.places or first.beside:
        return ()
    into, high = first.places[0], lexicon.TURNING.get(first.stitch, 0)
    if not high or into.which not in ("each", "next", "first") or into.noun.name not in ("ch", "st") or into.nth or into.row:
        return ()
    count = into.count - 1 if into.which != "each" else 0
    rest = (replace(into, noun=Noun("ch")),) if into.which == "each" else ()
    rest = rest or ((Place("next", Noun("ch"), count=count, hold=into.hold),) if count else ())
    out = []
    for skipped in dict.fromkeys(passed(high)):
        hook = Place("hook", Noun("ch"), nth=skipped + 1, hold=into.hold)
        out.append((*ops[: work[0]], replace(first, places=(hook, *rest, *first.places[1:])), *ops[work[0] + 1 :]))
    return tuple(out)


def _rings(ops: tuple[Op, ...]) -> bool:
    return any(isinstance(op, Make | Into) and any(p.which == "ring" for p in op.places) for op in walk(ops))


def _hooks(ops: tuple[Op, ...]) -> bool:
    """Whether the first thing worked goes into a chain from the hook, or skips chains at the beginning."""
    for op in ops:
        if isinstance(op, Act):
            if op.name == "along" and op.place is not None and op.place.which == "hook":
                return True
            continue
        if isinstance(op, Make | Into):
            return any(p.which == "hook" or (p.which == "last" and p.noun.name == "ch") for p in op.places)
        if isinstance(op, Skip):
            return any(p.which == "hook" or p.noun.name == "ch" for p in op.places)
        return any(isinstance(o, Make) and any(p.which == "hook" for p in o.places) for o in list(walk((op,)))[:4])
    return False


def _first_chain(ops: tuple[Op, ...]) -> bool:
    """ "ch 2 and 8 sc in the first ch": all into one chain."""
    first = next((op for op in ops if isinstance(op, Make | Into)), None)
    return (
        first is not None
        and len(first.places) == 1
        and first.places[0].which == "first"
        and (first.places[0].noun.name == "ch" or (first.places[0].noun.name == "st" and _made(first) > 2))
        and first.places[0].count == 1
    )


def all_in_first_chain(ops: tuple[Op, ...]) -> bool:
    """Whether a row works all that it makes into the first chain of its foundation: round it, as round a ring."""
    work = [op for op in ops if not isinstance(op, Act | Chain) and not (isinstance(op, Make) and op.stitch == "sl st")]
    return len(work) == 1 and isinstance(work[0], Make | Into) and _made(work[0]) > 1 and _first_chain(ops)


def on_first_chain(
    begins: Start | None, on: Start, ops: tuple[Op, ...], *, counted: bool
) -> tuple[Start | None, tuple[Op, ...]]:
    """A row all of whose work goes into the first chain of its foundation `on`: round it as round a ring, or, where its
    count is stated, into the last chain from the hook, as the others may stand for a stitch."""
    if not all_in_first_chain(ops):
        return begins, ops
    hooked = _in_last_from_hook(ops, on.count) if counted else None
    return (begins, hooked) if hooked is not None else (replace(on, how="ring"), in_ring(ops))


def _made(op: Make | Into) -> int:
    return op.count if isinstance(op, Make) else 2


def _foundation_stitches(ops: tuple[Op, ...]) -> bool:
    return any(isinstance(op, Make) and op.stitch.startswith("f") and lexicon.height_of(op.stitch) for op in walk(ops))
