"""What the words of a row leave open, and the readings of it in the order of usual practice."""

from __future__ import annotations

from collections.abc import Iterator, Sequence, Set
from itertools import pairwise, product, takewhile

from ...pattern.lexicon import GATHERED, TURNING, US_HEIGHTS, height_of, together
from ...pattern.tree import (
    FIRST_LEG,
    FROM_THERE,
    Act,
    Again,
    Chain,
    Corner,
    Into,
    Make,
    Noun,
    Op,
    Place,
    RowText,
    Skip,
    Star,
    Times,
    walk,
)
from ..cloth.fabric import Stitch
from ..cloth.site import SPACES, Choice
from ..hands import deep
from ..hands.beginnings import last_loop
from .working import Opening, Working


def readings(w: Working, text: RowText, ops: tuple[Op, ...]) -> Iterator[tuple[Choice, tuple[str, ...] | None]]:
    possible = openings(w, text, ops)
    chains = chain_choices(w, ops)
    loose = (False, True) if w.rows and base_has_chains(w) and _names_any(ops) and not _fills_spaces(ops) else (False,)
    meant = len(loose) > 1 and not text.stated
    if meant and (_bridged(w) or _goes_on_over_mesh(w, ops) or _second_of_all(ops) or _counts_chains_too(w, text)):
        loose = loose[::-1]
    wraps = (False, True) if text.is_round and w.rows and travels(ops) else (False,)
    comes_back = any(isinstance(op, Make) and op.beside for op in ops) or _into_the_middle(ops) or _solid(ops)
    comes_back = comes_back or last_loop(ops) is not None or _one_in_each(ops) or _all_in_turn(w, ops)
    wraps = wraps[::-1] if comes_back else wraps
    stays = (False, True) if w.rows and travels(ops) and any(_bare_space(op) for op in walk(ops)) else (False,)
    stays = stays[::-1] if len(stays) > 1 and _enters_and_stays(ops) else stays
    if w.rows and text.is_round and _repeats_from_its_space(ops):
        stays = (True, False)
    overs = ("plain", "", "all") if w.rows and any(deep.is_deep(op) for op in walk(ops)) else ("",)
    gaps = (False, True) if any(_between_groups(op) for op in walk(ops)) else (False,)
    for is_loose in loose:
        for wide, opening, chain, wrap, stay, over in product(gaps, possible, chains, wraps, stays, overs):
            yield Choice(chain, is_loose, wrap, stay=stay, over=over, wide_gaps=wide), opening


def _names_any(ops: Sequence[Op]) -> bool:
    """Whether a row goes into "sts" without saying which, so that chains may be meant too."""
    inner = (op.ops for op in ops if isinstance(op, Star | Times))
    placed = [op for op in ops if isinstance(op, Make | Into | Skip)]
    plain = any(not op.places or any(p.noun.name == "st" for p in op.places) for op in placed)
    return plain or any(map(_names_any, inner))


def _fills_spaces(ops: tuple[Op, ...]) -> bool:
    """Whether one stretch goes into stitches and into spaces, "sc in each st and 10 sc in each ch-8 sp": chains are
    none of the stitches then."""
    stretches = [op for op in walk(ops) if isinstance(op, Make) and op.beside]
    return any(p.noun.name in SPACES for op in stretches for part in (op, *op.beside) for p in part.places)


def _between_groups(op: Op) -> bool:
    return isinstance(op, Make | Into) and any(p.noun.name == "gap" and p.noun.of for p in op.places)


def _bare_space(op: Op) -> bool:
    """Whether a clause goes into a space that is named without "next"."""
    return isinstance(op, Make | Into) and any(q.bare and q.noun.name in _CORNERS for q in op.places)


def _enters_and_stays(ops: tuple[Op, ...]) -> bool:
    """ "Sl st in loop, ch 1, *(sc, ch 4, sc) in loop": a round slips into a space and works first into one that it does
    not call the next: that one."""
    work = [op for op in ops if not isinstance(op, Act | Chain)]
    slips = list(takewhile(lambda op: isinstance(op, Make) and op.stitch == "sl st", work))
    first: Op | None = work[len(slips)] if len(work) > len(slips) else None
    while isinstance(first, Star | Times) and first.ops:
        first = first.ops[0]
    last = slips[-1].places[-1] if slips and isinstance(slips[-1], Make) and slips[-1].places else None
    return last is not None and last.noun.name in _CORNERS and first is not None and _bare_space(first)


def _one_in_each(ops: tuple[Op, ...]) -> bool:
    """ "Sl st in next sc, ch 1, hdc in each sc around": whether a round slips on and works nothing but one clause into
    each of a sort, so also into those it slipped over."""
    slips = [op for op in ops if isinstance(op, Make) and op.stitch == "sl st"]
    work = [op for op in ops if not isinstance(op, Act | Chain) and op not in slips]
    if len(work) > 1 and isinstance(work[0], Make) and [place.which for place in work[0].places] == ["same"]:
        work = work[1:]  # what is made where the chain stands
    only = work[0] if len(work) == 1 else None
    if not isinstance(only, Make | Into):
        return False
    return all(p.which == "each" and not p.until and not p.upto and p.step == 1 for p in only.places)


def _all_in_turn(w: Working, ops: tuple[Op, ...]) -> bool:
    """Whether a round repeats what goes into one stitch after the other of a round without spaces, and passes over
    none: "*ch 1, dc in next 2 dc; rep from * around"."""
    stars = [op for op in ops if isinstance(op, Star)]
    if not w.rows or len(stars) != 1 or base_has_chains(w):
        return False
    if stars[0].more is not None or stars[0].until or stars[0].ending:
        return False
    kinds = {s.kind for s in w.rows[-1].row.stitches if s.role in ("stitch", "turning")}
    places = [place for op in stars[0].ops if isinstance(op, Make | Into) for place in op.places]
    plain = all(isinstance(op, Chain) or (isinstance(op, Make | Into) and op.places) for op in stars[0].ops)
    named = all(place.noun.name == "st" or {place.noun.name} == kinds for place in places)
    return plain and named and all(place.which == "next" and not place.nth and place.of is None for place in places)


def _repeats_from_its_space(ops: tuple[Op, ...]) -> bool:
    """ "Sl st in next ch-3 sp, ch 1, *3 sc in next ch-3 sp, ch 2; rep from * around": whether a round slips on and
    repeats from there what begins with a space: the one that it slipped into, or one would not be worked at all."""
    work = [op for op in ops if not isinstance(op, Act | Chain)]
    slips = list(takewhile(lambda op: isinstance(op, Make) and op.stitch == "sl st", work))
    star = work[len(slips)] if slips and len(work) > len(slips) else None
    first = star.ops[0] if isinstance(star, Star) and star.more is None and star.ops else None
    if not isinstance(first, Make | Into) or len(first.places) != 1:
        return False
    place = first.places[0]
    return place.which == "next" and place.count == 1 and not place.nth and place.noun.name in SPACES


def _solid(ops: tuple[Op, ...]) -> bool:
    """Whether what a round repeats goes into stitches and leads over nothing by chains, "*dc in next 7 dc, (2 dc, ch 2,
    2 dc) in next ch-2 sp", or all stitches are worked but for what is done at corners: the stitches that slip stitches
    led over are then worked at its end like all others."""
    if any(isinstance(op, Corner) for op in ops):
        return True
    stars = [op for op in ops if isinstance(op, Star | Times) and not (isinstance(op, Times) and op.name)]
    inside = [op for star in stars for op in star.ops]
    if not inside or any(isinstance(op, Chain | Skip | Star | Times) for op in inside):
        return False
    into = [place.noun for op in inside if isinstance(op, Make) for place in op.places]
    plain = any(noun.name == "st" or height_of(noun.name) for noun in into)
    return plain and (any(isinstance(op, Into) for op in inside) or any(noun.name in _CORNERS for noun in into))


_CORNERS = frozenset((*SPACES, "corner", "corner sp"))


def _counts_chains_too(w: Working, text: RowText) -> bool:
    """Whether a row is told by another one that states its count, "rep Row 1", which is that of the stitches below and
    their chains together: "sc across" of it goes into both."""
    again = next((op for op in text.ops if isinstance(op, Again) and op.first == op.last > 0), None)
    if again is None or not w.rows:
        return False
    source = next((r for r in w.pattern.rows if r.first <= again.first <= r.last and r.part == text.part), None)
    said = [stated.count for stated in source.stated if stated.noun.name not in SPACES] if source is not None else []
    below = w.rows[-1].row
    return len(said) == 1 and said[0] == below.made + sum(s.chains for s in below.stitches if s.role == "chain")


#: Chains over a hole: so many at least, over so many stitches passed over (common practice, no source).
_BRIDGE, _PASSED = 3, 2


def _bridged(w: Working) -> bool:
    """Whether all chains of the row below bridge holes, as of handles or buttonholes: the next row works into each."""
    row = w.rows[-1].row
    made = row.stitches
    runs = [n for n, s in enumerate(made) if s.role == "chain"]
    round_ = len(w.rows[-2].row.stitches) if len(w.rows) > 1 and w.rows[-1].is_round else 0
    return bool(runs) and all(_bridges(made[n].chains, _passed_under(made, n, round_)) for n in runs)


def _bridges(chains: int, passed: int) -> bool:
    """Whether a run of chains stands over a hole: a long one over several, or one for half of them."""
    return passed >= _PASSED and (chains >= _BRIDGE or chains >= max(passed / 2, _PASSED))


def _passed_under(made: tuple[Stitch, ...], n: int, round_: int) -> int:
    """How many stitches of the row below lie free under a run of chains between two stitches, or between the last one
    and the first of a round over `round_` stitches."""
    beside = made[n - 1 : n] + made[n + 1 : n + 2]
    feet = [s.feet[0].at for s in beside if s.feet and s.feet[0].back == 1]
    if len(feet) == 1 and round_ and n and all(s.role == "join" or not s.feet for s in made[n + 1 :]):
        return round_ - feet[0] - 1
    return abs(feet[1] - feet[0]) - 1 if len(feet) == 2 else 0


def _goes_on_over_mesh(w: Working, ops: tuple[Op, ...]) -> bool:
    """Whether a row is one stitch all along, in no place that is told, over a mesh of single chains: it goes into each
    of them, and keeps the number of stitches."""
    work = [op for op in ops if not isinstance(op, Act | Chain)]
    only = work[-1] if work and all(_one_like_it(op, work[-1]) for op in work[:-1]) else None
    if not isinstance(only, Make) or only.count != 1 or len(only.places) != 1:
        return False
    place = only.places[0]
    made = [s for s in w.rows[-1].row.stitches if s.role != "join"]
    while made and made[-1].role == "chain" and not w.rows[-1].is_round:
        made.pop()  # one behind the last stitch turns
    chains = [s.chains for s in made if s.role == "chain"]
    return place.which == "each" and place.bare and place.noun.name == "st" and max(chains, default=0) == 1


def _one_like_it(op: Op, last: Op) -> bool:
    """Whether a clause is the same stitch once, in the first place or the next: the first row told again begins so."""
    if not isinstance(op, Make) or not isinstance(last, Make) or len(op.places) != 1:
        return False
    if (op.stitch, op.count) != (last.stitch, 1):
        return False
    place = op.places[0]
    one = (place.count, place.nth, place.noun.name, place.row) == (1, 0, "st", None)
    return one and place.which in ("next", "first")


def _second_of_all(ops: tuple[Op, ...]) -> bool:
    """ "Dc in 2nd st, dc in each sc and each ch-1 sp": a row that goes into all spaces as into stitches counts them so
    from its first place on, or the space before the second stitch would be left out."""
    made = [op for op in walk(ops) if isinstance(op, Make)]
    if len(made) < 2 or len(made[0].places) != 1 or len(made[1].places) != 1:
        return False
    first, rest = made[0].places[0], made[1].places[0]
    second = first.which == "next" and first.nth == 2 and first.count == 1 and first.noun.name == "st"
    return second and rest.which == "each" and any(noun.name in SPACES for noun in (rest.noun, *rest.also))


def base_has_chains(w: Working) -> bool:
    return any(s.role == "chain" for s in w.rows[-1].row.stitches)


def openings(w: Working, text: RowText, ops: tuple[Op, ...]) -> list[tuple[str, ...] | None]:
    """What the foundation's skipped chains may count as, the usual reading first."""
    hooked = hook(ops)
    said = opened(ops)
    passed = 0 if hooked or w.rows or not said else led_by_skip(ops)
    if passed:
        return [opening_parts(said or "", passed)]
    if hooked is None or w.rows:
        return [None]
    stitch, nth = hooked
    said = _without_itself(said, stitch, (nth or w.chains) - 1)
    skipped = (nth or w.chains) - 1
    if said is not None:
        return [opening_parts(said, skipped)]
    if not nth:
        return [(f"ch {skipped}",), *usual_openings(stitch, skipped, ops)]
    nouns = {part.noun.name for part in text.stated}
    if "block" in nouns or ("mesh" in nouns and skipped == 3) or _side_told(w, skipped):
        return [(f"ch {skipped}",), *usual_openings(stitch, skipped, ops)]
    usual = usual_openings(stitch, skipped, ops)
    told = _as_throughout(w, skipped)
    return [told, *(way for way in usual if way != told)] if told else usual


def _side_told(w: Working, skipped: int) -> bool:
    """Whether the row that comes next slips into a space of so many chains and makes as many there: the skipped chains
    are the side of a first block, worked from corner to corner."""
    ops = list(walk(w.pattern.rows[1].ops)) if len(w.pattern.rows) > 1 else []
    for slip, side in pairwise(ops):
        if isinstance(slip, Make) and slip.stitch == "sl st" and isinstance(side, Chain) and side.count == skipped:
            return any(place.noun == Noun("sp", skipped) for place in slip.places)
    return False


def _as_throughout(w: Working, skipped: int) -> tuple[str, ...] | None:
    """What skipped chains count as where it is told of a beginning chain of as many that holds throughout."""
    said = w.throughout.get(skipped)
    if said is None or any(height_of(kind) is None for kind in said):
        return None
    return opening_parts(", ".join(said), skipped)


def _as_opened(w: Working, chains: int) -> tuple[str, ...] | None:
    """What a chain of so many counts as that the first row told of as many skipped ones; None where it told nothing."""
    first = w.tasks[0][0].ops if w.tasks and w.rows else ()
    said, hooked = opened(first), hook(first)
    if said is None and w.rows:
        return w.skipped_as.get(chains)
    if said is None or hooked is None or hooked[1] != chains + 1:
        return None
    return (said,) if height_of(said) else () if not said else None


def chain_choices(w: Working, ops: tuple[Op, ...]) -> list[tuple[str, ...]]:
    ops = _without_turning_chain(ops)
    plain = [
        op
        for op in walk(ops)
        if isinstance(op, Chain | Make | Star) and not (isinstance(op, Make) and op.stitch == "sl st")
    ]
    chain = plain[0] if plain else None
    if w.rows and len(plain) > 1 and isinstance(plain[1], Make) and any(p.which == "hook" for p in plain[1].places):
        return [("ch",)]
    if any(isinstance(op, Act) and op.name == "from base" for op in ops):
        return [()]
    if isinstance(chain, Chain) and chain.counts and _leg_said_of_it(w, chain, plain):
        return [(FIRST_LEG,), chain.counts]
    if not isinstance(chain, Chain) or chain.counts is not None or chain.count in w.throughout:
        return [()]
    if _over_a_hole(chain, ops, exactly=True):
        return [("ch",)]
    said = {parts for parts in w.explained.get(chain.count, set()) if not _as_leg(parts) or _gathers(w, ops)}
    said = set() if _of_taller_rows(said, chain, ops) else said
    if _is_first_leg(w, chain, plain):
        return [(FIRST_LEG,), *(said if len(said) == 1 else usual_counts(chain.count, ops))]
    if len(said) == 1 and chain.count == 1 and () not in said:
        return [*said, ()] if _beside_first(plain) else [(), *said]
    if len(said) == 1:
        return list(said)
    usual = usual_counts(chain.count, ops)
    if usual[0] == ("ch",) and _begins_gathered(w, chain, plain):
        usual = [(), *(c for c in usual if c)]
    loop = _begins_a_group(chain, ops) or _begins_a_loop(chain, ops) or _ends_alike(chain, ops)
    if _over_a_hole(chain, ops) or (("ch",) in usual and loop):
        usual = [("ch",), *(c for c in usual if c != ("ch",))]
    if not said and joined_in_first(ops):
        usual = [(), *(c for c in usual if c)]
    if _begins_whole_group(chain, ops):
        return [(), *(c for c in usual if c)]
    if _up_and_down(chain, ops):
        return [("ch",), *(c for c in usual if c != ("ch",))]
    before = _settled_before(w, ops)
    before = _as_opened(w, chain.count) if before is None else before
    return [before, *(c for c in usual if c != before)] if before in usual and before is not None else usual


def _without_turning_chain(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """ "Ch 1, turn, sl st in next sp, ch 3, dc in same sp": without the chain that turns; the one behind the slip
    stitch lifts the work."""
    work = [op for op in ops if not isinstance(op, Act)]
    first = work[0] if work else None
    slips = list(takewhile(lambda op: isinstance(op, Make) and op.stitch == "sl st", work[1:]))
    lift = work[len(slips) + 1] if slips and len(work) > len(slips) + 1 else None
    turning = isinstance(first, Chain) and first.count == 1 and not first.counts
    lifts = isinstance(lift, Chain) and lift.count >= TURNING["hdc"]
    return tuple(op for op in ops if op is not first) if turning and lifts else ops


def _of_taller_rows(said: Set[tuple[str, ...]], chain: Chain, ops: tuple[Op, ...]) -> bool:
    """Whether a chain counts only in rows of a stitch that it is too short for: a ch 1 told to be an hdc in rows of hdc
    is none in a row of sc."""
    kinds = {kind for parts in said for kind in parts[:1]}
    made = {op.stitch for op in walk(ops) if isinstance(op, Make) and op.stitch != "sl st"}
    return bool(kinds) and bool(made) and not kinds & made and all(TURNING.get(kind, 0) > chain.count for kind in kinds)


def joined_in_first(ops: Sequence[Op]) -> bool:
    """ "Ch 3, 2 dc in each st, join in top of first dc": a round closed in the first stitch of its own kind, not in its
    chain."""
    place = next((op.place for op in reversed(ops) if isinstance(op, Act) and op.name == "join"), _slips_to(ops))
    made = next((op for op in ops if isinstance(op, Make | Into)), None)
    named = place is not None and place.which == "first" and height_of(place.noun.name) is not None
    return named and place is not None and isinstance(made, Make) and made.stitch == place.noun.name


def _slips_to(ops: Sequence[Op]) -> Place | None:
    """Where the slip stitch goes that a row ends with; None where it ends with none."""
    last = next((op for op in reversed(ops) if not isinstance(op, Act | Chain)), None)
    slips = isinstance(last, Make) and last.stitch == "sl st" and len(last.places) == 1
    return last.places[0] if isinstance(last, Make) and slips else None


def _beside_first(work: Sequence[Op]) -> bool:
    """Whether a beginning chain stands beside the row's first stitch, and so may count: "ch 1, sc in same st"."""
    behind = work[1] if len(work) > 1 else None
    places = behind.places[:1] if isinstance(behind, Make) else ()
    return isinstance(behind, Star) or not places or places[0].which in ("same", "each")


def _as_leg(parts: tuple[str, ...]) -> bool:
    return bool(parts) and parts[0].startswith(FIRST_LEG)


def _gathers(w: Working, ops: Sequence[Op]) -> bool:
    """Whether a row works anything together, so that a chain may be the first leg of that in it too."""
    return any(isinstance(op, Make) and _legs(w, op.stitch)[1] > 1 for op in walk(tuple(ops)))


#: A hole for a thumb, a handle or a button is over so many stitches at least (common practice, no source).
_HOLE = 4


def _over_a_hole(chain: Chain, ops: Sequence[Op], *, exactly: bool = False) -> bool:
    """Whether a row begins with a chain over about as many stitches passed over: "ch 6, skip 6 sts, sc in next 20";
    `exactly`: over just as many, so that it is sure to be a chain and no stitch."""
    moves = [op for op in ops if not isinstance(op, Act)]
    passed: Op | None = moves[1] if len(moves) > 1 and moves[0] is chain else None
    passed = passed.ops[0] if isinstance(passed, Star | Times) and passed.ops else passed
    skipped = sum(p.count for p in passed.places) if isinstance(passed, Skip) else 0
    return skipped >= _HOLE and abs(skipped - chain.count) <= (0 if exactly else 1)


def _is_first_leg(w: Working, chain: Chain, work: Sequence[Op]) -> bool:
    """Whether a beginning chain stands before stitches worked together of which the row works one more together
    elsewhere: "ch 3, dc2tog in ring, *ch 3, dc3tog in ring ...", "ch 3, a cluster over the next 4 dc, *ch 5, a cluster
    over the next 5 dc ..."."""
    first = work[1] if len(work) > 1 and work[0] is chain else None
    base, legs = _legs(w, first.stitch) if isinstance(first, Make) else ("", 1)
    if legs < 2:
        return False
    others = {n for op in work[2:] if isinstance(op, Make) for kind, n in [_legs(w, op.stitch)] if kind == base}
    high = abs(TURNING.get(base, 100) - chain.count) <= 1
    if not any(n > 1 for n in others):  # "ch 3, dc2tog in same sp, *ch 3, cluster in next sp": its legs are not told
        untold = [op.stitch for op in work[2:] if isinstance(op, Make) and op.stitch in _UNTOLD]
        return high and any(stitch not in w.specials for stitch in untold)
    return {n for n in others if n > 1} == {legs + 1} and high


#: What is gathered of a number of legs that its name does not say.
_UNTOLD = ("cl", "cluster")


def _leg_said_of_it(w: Working, chain: Chain, work: Sequence[Op]) -> bool:
    """Whether a chain said to count as one stitch, "ch 4 (counts as tr), 2-tr cluster in same place", is a first leg of
    such stitches: it is that stitch within the cluster."""
    first = work[1] if len(work) > 1 else None
    base = _legs(w, first.stitch)[0] if isinstance(first, Make) else ""
    return chain.counts == (base,) and _is_first_leg(w, chain, work)


def _legs(w: Working, stitch: str) -> tuple[str, int]:
    """The stitch that a gathered one is made of and how many of it stand in as many places; one of itself else."""
    special = w.specials.get(stitch)
    if special is not None and special.kind == "cl" and special.legs > 1:
        return special.base, special.legs
    return height_of(stitch) or "", together(stitch)


def _begins_gathered(w: Working, chain: Chain, work: Sequence[Op]) -> bool:
    """Whether a beginning chain stands before a cluster that is as high: it is a part of it."""
    first = work[1] if len(work) > 1 and work[0] is chain else None
    special = w.specials.get(first.stitch) if isinstance(first, Make) else None
    return special is not None and special.kind == "cl" and TURNING.get(special.base, 100) == chain.count


def _begins_whole_group(chain: Chain, ops: tuple[Op, ...]) -> bool:
    """Whether a beginning chain lifts a group by its name that the row works further on as well, "ch 3, shell in same
    sp, *shell in next shell": every shell is as large, so the chain is a part of the first. Where the row ends with a
    stitch of that height beside its last shell, the chain is its fellow at the other edge."""
    at = next((n for n, op in enumerate(ops) if op is chain), len(ops))
    first = next((op for op in ops[at + 1 :] if not isinstance(op, Act)), None)
    there = [p.which for p in first.places] if isinstance(first, Into) else []
    if not isinstance(first, Into) or not first.name or not first.ops or there not in (["same"], ["next"]):
        return False
    opens = first.ops[0]
    edge = next((op for op in reversed(ops) if not isinstance(op, Act)), None)
    if isinstance(edge, Make) and isinstance(opens, Make) and (edge.stitch, edge.count) == (opens.stitch, 1):
        return False
    again = any(isinstance(op, Into) and op.name and op.ops == first.ops and op is not first for op in walk(ops))
    return again and isinstance(opens, Make) and opens.count > 1 and TURNING.get(opens.stitch) == chain.count


def _begins_a_group(chain: Chain, ops: tuple[Op, ...]) -> bool:
    """Whether a row begins with the end of the group that it works further on: "ch 3, 3 dc in first st, (sc, ch 3,
    3 dc) in each sp"; or with a petal without the slip stitch before it. The chain is that of the group."""
    work = [op for op in ops if not isinstance(op, Act)]
    made: Op | None = work[1] if len(work) > 1 and work[0] is chain else None
    made = made.ops[0] if isinstance(made, Into) and made.ops else made
    if not isinstance(made, Make) or made.count < 2:
        return False
    groups = [op.ops for op in walk(ops) if isinstance(op, Into | Star | Times)]
    return any(_is_petal(group, chain, made) for group in groups) or any(
        len(group) > 2 and isinstance(before, Make) and isinstance(run, Chain) and run.count == chain.count
        and isinstance(made_there, Make) and (made_there.stitch, made_there.count) == (made.stitch, made.count)
        for group in groups
        for before, run, made_there in [group[-3:]][: len(group) > 2]
    )  # fmt: skip


def _up_and_down(chain: Chain, ops: tuple[Op, ...]) -> bool:
    """Whether a row begins with a petal that rises by a chain and comes down again in one place: "(ch 3, 3 dc, ch 3,
    sl st) in same sc". The chain is its edge."""
    first = next((op for op in ops if not isinstance(op, Act)), None)
    if not isinstance(first, Into) or len(first.ops) < 4 or first.ops[0] is not chain:
        return False
    down, last = first.ops[-2:]
    return isinstance(down, Chain) and down.count == chain.count and isinstance(last, Make) and last.stitch == "sl st"


def _begins_a_loop(chain: Chain, ops: tuple[Op, ...]) -> bool:
    """Whether a flat row of loops begins with one: "ch 6, turn, (sc in next loop, ch 6) across, sc in last loop"."""
    work = [op for op in ops if not isinstance(op, Act)]
    again = work[1] if len(work) > 1 and work[0] is chain else None
    if not isinstance(again, Star | Times) or len(again.ops) != 2:
        return False
    first, run = again.ops
    if not isinstance(first, Make) or first.stitch != "sc" or not isinstance(run, Chain) or run.count != chain.count:
        return False
    return any((place.of or place).noun.name in SPACES for place in first.places)


def _ends_alike(chain: Chain, ops: tuple[Op, ...]) -> bool:
    """Whether a row ends as it begins, with such a chain fastened down: "ch 4, dc in next tr, ..., ch 4, sl st in last
    st" is a loop at either end."""
    work = [op for op in ops if not isinstance(op, Act)]
    if len(work) < 4 or work[0] is not chain or not isinstance(work[-1], Make) or work[-1].stitch != "sl st":
        return False
    return isinstance(run := work[-2], Chain) and run.count == chain.count


def _is_petal(group: tuple[Op, ...], chain: Chain, made: Make) -> bool:
    """Whether a group ends in the slip stitch that it begins with, and rises by such a chain to such stitches."""
    slips = [isinstance(op, Make) and op.stitch == "sl st" for op in group]
    if len(group) < 4 or not (slips[0] and slips[-1]):
        return False
    rise, first = group[1], group[2]
    alike = isinstance(first, Make) and (first.stitch, first.count) == (made.stitch, made.count)
    return isinstance(rise, Chain) and rise.count == chain.count and alike


def _settled_before(w: Working, ops: tuple[Op, ...]) -> tuple[str, ...] | None:
    """What a row that began like this one proved its chain to count as, whatever it called the place of its stitch;
    where this one misses the first stitch, which such a chain stands over, what any row with both proved."""
    beginning = opening_of(ops)
    if beginning is None:
        return None
    alike = {said for known, said in w.settled.items() if known[:3] == beginning[:3]}
    if not alike and _misses_first(ops):
        alike = {said for known, said in w.settled.items() if known[:2] == beginning[:2]}
    return w.settled.get(beginning, alike.pop() if len(alike) == 1 else None)


def _misses_first(ops: tuple[Op, ...]) -> bool:
    """Whether a row passes over one stitch right behind its beginning chain: "2 ch, miss first htr"."""
    work = [op for op in ops if not isinstance(op, Act)]
    missed = work[1] if len(work) > 1 else None
    place = missed.places[0] if isinstance(missed, Skip) and len(missed.places) == 1 else None
    if place is None or place.noun.name in SPACES:
        return False
    return (place.count, place.nth) == (1, 0) and place.which in ("first", "next")


def opening_of(ops: tuple[Op, ...]) -> Opening | None:
    """How a row begins that begins with a chain and a stitch in a place. Rows that begin alike are read alike: what a
    stated count proved of one is tried first on the next."""
    work = [op for op in walk(ops) if isinstance(op, Chain | Make)]
    if len(work) < 2 or not isinstance(work[0], Chain) or not isinstance(work[1], Make) or not work[1].places:
        return None
    place = work[1].places[0]
    return work[0].count, work[1].stitch, place.which, place.noun.name


def travels(ops: tuple[Op, ...]) -> bool:
    """Whether a row begins with slip stitches."""
    first = next((op for op in ops if isinstance(op, Make | Chain | Into | Star | Times)), None)
    return isinstance(first, Make) and first.stitch == "sl st"


def _into_the_middle(ops: tuple[Op, ...]) -> bool:
    """Whether a row goes to the middle of a space by slip stitches: what lies before it comes again at its end."""
    work = (op for op in ops if not isinstance(op, Act))
    slips = takewhile(lambda op: isinstance(op, Make) and op.stitch == "sl st", work)
    return any(isinstance(op, Make) and any(p.which == "nth" for p in op.places) for op in slips)


def hook(ops: tuple[Op, ...]) -> tuple[str, int] | None:
    """The first stitch of the row and the chain from the hook it goes into."""
    for op in walk(ops):
        if isinstance(op, Make | Into):
            for place in op.places:
                if place.which == "hook":
                    stitch = (
                        op.stitch
                        if isinstance(op, Make)
                        else next((o.stitch for o in walk(op.ops) if isinstance(o, Make)), "sc")
                    )
                    return stitch, place.nth
    return None


def led_by_skip(ops: tuple[Op, ...]) -> int:
    """How many chains of the foundation a row passes over before all else."""
    first = next((op for op in ops if not isinstance(op, Act)), None)
    place = first.places[0] if isinstance(first, Skip) else None
    plain = place is not None and place.which in ("next", "first") and place.noun.name == "ch"
    return place.count if place is not None and plain else 0


def opened(ops: tuple[Op, ...]) -> str | None:
    """What the words say that the foundation's skipped chains count as; None if they do not say."""
    return next((op.text for op in walk(ops) if isinstance(op, Act) and op.name == "opening"), None)


def _without_itself(said: str | None, stitch: str, skipped: int) -> str | None:
    """What skipped chains count as, without the stitch worked behind them that some writers count along: 4 chains and
    the dc after them are "dc, ch 1, dc"."""
    parts = [part.strip() for part in said.split(",")] if said else []
    rises = sum(int(part.split()[1]) if " " in part else TURNING.get(part, 0) for part in parts)
    if len(parts) < 2 or parts[-1] != stitch or rises <= skipped:
        return said
    return ", ".join(parts[:-1])


def opening_parts(said: str, skipped: int) -> tuple[str, ...]:
    """ "dc, ch 1, sk 1" with 5 chains skipped -> ("dc 3", "ch 1", "sk 1")."""
    if not said:
        return (f"start {skipped}",)
    parts = [p.strip() for p in said.split(",")]
    rest = skipped - sum(int(p.split()[1]) for p in parts if " " in p)
    out = []
    for part in parts:
        if part == "ch":
            out.append(f"ch {rest}")
        elif " " in part:
            out.append(part)
        else:
            out.append(f"{kind_by_chains(part, rest)} {rest}")
    return tuple(out)


def kind_by_chains(part: str, chains: int) -> str:
    return part if part != "st" else next((k for k, n in TURNING.items() if n == chains), "dc")


def usual_openings(stitch: str, skipped: int, ops: tuple[Op, ...]) -> list[tuple[str, ...] | None]:
    """Common practice, no source: skipped chains count as a stitch for dc and taller, not for sc; hdc either way."""
    height = height_of(stitch) or "dc"
    usual = TURNING[height]
    plain: tuple[str, ...] = (f"start {skipped}",)
    if skipped == 1:
        return [plain]
    if height == "sc" or skipped < min(usual, 2):
        if skipped <= 2:
            return [plain, (f"ch {skipped}",)]
        mesh = mesh_chains(ops)
        whole, over = (f"ch {skipped}",), (f"ch {skipped - mesh}", f"sk {mesh}")
        if skipped <= mesh:
            return [whole, plain]
        return [over, whole, plain] if skipped - mesh >= mesh - 1 else [whole, over, plain]
    if height == "hdc" and skipped == 2:
        return [plain, ("hdc 2",)]
    if skipped == usual:
        return [(f"{height} {skipped}",), plain]
    if skipped < usual:
        return [(f"{height} {skipped}",), plain]
    extra = skipped - usual
    mesh = mesh_chains(ops)
    choices: list[tuple[str, ...] | None] = []
    if mesh and extra == 2 * mesh:
        choices.append((f"{height} {usual}", f"ch {mesh}", f"sk {mesh}"))
    choices += [(f"{height} {usual}", f"sk {extra}"), (f"{height} {usual}", f"ch {extra}"), plain]
    return choices


def mesh_chains(ops: tuple[Op, ...]) -> int:
    """The chains of the row's first repeated space; of its first, where none is repeated."""
    star = next((op for op in ops if isinstance(op, Star | Times)), None)
    chain = next((op for op in walk(star.ops if star else ops) if isinstance(op, Chain)), None)
    return chain.count if chain else 0


def _closed_in(chains: int, ops: tuple[Op, ...]) -> int:
    """Which chain of the beginning chain the round is closed in: as high as the stitch that it stands for."""
    joins = [op.place for op in ops if isinstance(op, Act) and op.name == "join"]
    made = [op.places[0] for op in walk(ops) if isinstance(op, Make) and len(op.places) == 1]
    for place in (*joins, *made):
        of = place.of if place is not None and place.which == "nth" else None
        if place is not None and of is not None and of.which == "beg" and of.noun.size == chains:
            return place.nth
    return 0


def _lifts_to_gathered(chains: int, ops: tuple[Op, ...]) -> bool:
    """ "Ch 3, 2-dc cluster in ring": the chain only lifts the work to the height of what is gathered beside it."""
    work = [op for op in ops if not isinstance(op, Act)][:2]
    made = work[1] if len(work) == 2 and isinstance(work[0], Chain) else None
    if not isinstance(made, Make) or made.stitch.split()[-1] not in GATHERED or chains > TURNING["tr"]:
        return False
    return all(p.which in ("ring", "same", "first") for p in made.places)


def _into_its_foot(ops: tuple[Op, ...]) -> bool:
    """Whether the first stitch behind a beginning chain goes where the chain stands: "ch 2, turn, dc in first st"."""
    made = next((op for op in walk(ops) if isinstance(op, Make)), None)
    there = made is not None and made.count == 1 and bool(made.places) and made.places[0].which in ("first", "same")
    return there or _said_to_begin_there(ops)


def _said_to_begin_there(ops: tuple[Op, ...]) -> bool:
    """ "Ch 2, starting in first st, [FPdc, BPdc] around": work is said to begin where the chain stands."""
    first = next((op for op in ops if not isinstance(op, Chain)), None)
    if not isinstance(first, Act) or first.name != "along" or first.text != FROM_THERE or first.place is None:
        return False
    return first.place.which in ("first", "same") and first.place.count == 1 and first.place.noun.name not in SPACES


def _next_to_top(ops: tuple[Op, ...]) -> bool:
    """Whether a row goes into the next stitch behind its chain and ends in the top of such a chain, which so counts in
    every row: "ch 2, turn, hdc in next hdc and each hdc, hdc in top of ch-2"; or a round goes on into a space beside it
    and is closed there."""
    made = [op for op in ops if isinstance(op, Make | Into | Star | Times)]
    join = next((op.place for op in ops if isinstance(op, Act) and op.name == "join"), None)
    if join is not None and made and isinstance(made[0], Make) and made[0].places:
        there, place = join.of if join.which == "top" else join, made[0].places[0]
        beside = place.which == "next" and place.noun.name in SPACES
        return there is not None and there.which == "beg" and beside
    first, last = (made[0], made[-1]) if len(made) > 1 or (made and isinstance(made[0], Make)) else (None, None)
    if not isinstance(first, Make) or not isinstance(last, Make) or not first.places or not last.places:
        return False
    end = last.places[-1]
    top = end.of if end.which == "top" else end
    begun = first.places[0].which == "next" and not first.places[0].bare
    return begun and last.stitch != "sl st" and top is not None and top.which == "beg"


def _all_gathered(ops: tuple[Op, ...]) -> bool:
    """Whether a round makes nothing but stitches gathered from several, each in one place: its chain only lifts it."""
    made = [op for op in walk(ops) if isinstance(op, Make) and op.stitch != "sl st"]
    single = (bool(op.places) and all(p.count == 1 for p in op.places) for op in made)
    return bool(made) and all(together(op.stitch) > 1 for op in made) and all(single)


def _into_all(ops: tuple[Op, ...]) -> bool:
    """Whether a row goes into its first stitch and each other: "ch 3, turn, dc in first st and in each st across"."""
    made = [op for op in walk(ops) if isinstance(op, Make)]
    joined = any(isinstance(op, Act) and op.name == "join" for op in ops)
    only = made[0] if len(made) == 1 and made[0].count == 1 and not joined else None
    return only is not None and [p.which for p in only.places] == ["first", "each"] and not only.places[1].until


def usual_counts(chains: int, ops: tuple[Op, ...]) -> list[tuple[str, ...]]:
    """What an unexplained beginning chain may count as, the usual reading first (common practice, no source)."""
    kinds = {height_of(op.stitch) for op in walk(ops) if isinstance(op, Make)} - {None}
    tall = [k for k in (*US_HEIGHTS[2:], "hdc") if k in kinds and TURNING[k] <= chains]
    named = next((k for k, n in TURNING.items() if n == chains and k in kinds), None)
    if chains == 1:
        return [()]
    if chains == 2:
        lead: list[tuple[str, ...]] = [()] if "dc" not in kinds or "hdc" in kinds else [("dc",), ()]
        lead = lead[::-1] if _all_gathered(ops) and len(lead) > 1 else lead
        lead = lead[::-1] if _into_its_foot(ops) and _closed_in(chains, ops) != chains else lead
        stands: list[tuple[str, ...]] = [("hdc",)] if "hdc" in kinds else [("sc",)] if kinds == {"sc"} else []
        if stands == [("hdc",)] and _next_to_top(ops):
            return [*stands, *lead, ("ch",)]
        return [*lead, *stands, *([("hdc",)] if not stands and "dc" not in kinds else []), ("ch",)]
    closed = _closed_in(chains, ops)
    tall = [k for k in tall if TURNING[k] == closed] or tall
    if not tall and _lifts_to_gathered(chains, ops):
        return [(), ("ch",)]
    if not tall:
        return [("ch",), ()] + [("hdc", f"ch {chains - 2}")] * (chains > 2)
    base = named or tall[0]
    rest = chains - TURNING[base]
    counted: tuple[str, ...] = (base,) if not rest else (base, f"ch {rest}")
    lifts = _lifts_to_gathered(chains, ops) or _all_gathered(ops) or _into_all(ops) or _said_to_begin_there(ops)
    return [(), counted, ("ch",)] if lifts else [counted, (), ("ch",)]


def rises(ops: tuple[Op, ...]) -> bool:
    """Whether a row begins with a chain that usually stands for a stitch: one lower than what stands behind it as often
    does not (common practice, no source)."""
    first = next((op for op in ops if not isinstance(op, Act)), None)
    if not isinstance(first, Chain):
        return True
    made = next((op.stitch for op in walk(ops) if isinstance(op, Make)), "")
    return first.count >= TURNING.get(height_of(made) or "", 3)


def names_row(op: Op) -> bool:
    """Whether a clause works into a row that it names."""
    places: tuple[Place, ...] = op.places if isinstance(op, Make | Into | Skip) else ()
    if isinstance(op, Act) and op.place is not None:
        places = (op.place,)
    return any(p.row is not None or (p.of is not None and p.of.row is not None) for p in places)
