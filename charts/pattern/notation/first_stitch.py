"""The first stitch of a row: a chain said to stand for it, behind the work or by the join, and other ways to take a row's beginning."""

from __future__ import annotations

import re
from itertools import pairwise

from ...made_late import replace
from .. import lexicon
from ..lexicon import TURNING, height_of
from ..tree import FROM_THERE, PETAL_ST, WHOLE_SIDE, Act, Chain, Into, Make, Noun, Op, Place, Skip, Star, Times, walk
from ..when_used import when_used
from .items import Ops

_CH = r"(?:(?P<n{0}>\d{{1,2}}) ?(?:ch|chs|chains?)|(?:ch|chain) ?(?P<m{0}>\d{{1,2}}))\b"
_FIRST = r"(?:the )?(?:very )?(?:first|1st) (?P<stitch{0}>[a-z]+(?: [a-z]+)?? ?(?:crochet)?)"
_WHERE = r"(?: (?:on|of|in|at (?:the )?(?:start|beginning) of) (?:the |this |each |every )?(?:row|rnd|round|repeat))?"
#: "4 tr (replace first tr of row with 4 ch)", "dc in each st, working ch 3 in place of the first dc".
_REPLACED = when_used(
    rf"(?P<open>\()?(?:(?:replac(?:e|ing)|substitut(?:e|ing)|exchang(?:e|ing)) {_FIRST.format(1)}{_WHERE} (?:with|by|for) (?:a )?{_CH.format(1)}"
    rf"|(?:(?:working|making|using|work|make|use|with) )?(?:a )?{_CH.format(2)} (?:instead of|in place of|replac(?:es|ing)) {_FIRST.format(2)}{_WHERE})(?(open)\))"
)


def round_the_chain(ops: Ops) -> Ops:
    """ "Along the other side sc in each ch to end, 3 sc in first ch": that first one, where the round began, is the last
    on the way back and is left for them. The ops as they are where nothing is told so."""
    side = next((n for n, op in enumerate(ops) if isinstance(op, Act) and op.name == "opposite"), len(ops))
    for at in range(side + 1, len(ops) - 1):
        op, end = ops[at], ops[at + 1]
        if not isinstance(op, Make) or not isinstance(end, Make) or end.stitch == "sl st" or len(end.places) != 1:
            continue
        place, begun = op.places[-1] if op.places else None, end.places[0]
        began = begun.which in ("first", "beg") or (begun.which == "same" and begun.of is not None and begun.of.which == "beg")
        if place is not None and place.which == "each" and place.until is None and place.row is None and began and begun.count == 1:
            short = replace(op, places=(*op.places[:-1], replace(place, until=(1, place.noun))))
            last = replace(end, places=(Place("last", place.noun),))
            return (*ops[:at], short, last, *ops[at + 2 :])
    return ops


def lies_below_the_hook(place: Place) -> bool:
    """ "Ch 3, 2 dc in sp below": at the beginning of a row the space that it begins in."""
    return place.row is not None and place.row.below == -1 and place.which == "next" and place.count == 1 and place.noun.name in ("sp", "lp")


def just_below(op: Op, place: Place) -> bool:
    """ "Tr in each of the 4 tr below", "sk the ch below", "in first group below": several, or a group, which nobody works
    a spike into, lie in the row below; one stitch or space "below" may lie further down."""
    if place.row is None or place.row.below != -1:
        return False
    plain = place.noun.name in ("st", "sp", "lp") or lexicon.height_of(place.noun.name) is not None
    return isinstance(op, Skip) or place.count > 1 or place.which in ("each", "first", "last") or not plain


def in_row_below(ops: Ops) -> Ops:
    """The ops with what lies "below" in the row below where it can lie nowhere else."""
    return tuple(_in_row_below(op) for op in ops)


def _in_row_below(op: Op) -> Op:
    if isinstance(op, Make | Into | Skip) and any(just_below(op, place) for place in op.places):
        op = replace(op, places=tuple(replace(p, row=None) if just_below(op, p) else p for p in op.places))
    return replace(op, ops=in_row_below(op.ops)) if isinstance(op, Into | Star | Times) else op


def in_space_below(ops: Ops) -> Ops:
    """The ops with the space below the beginning of a row as the one that the row begins in."""
    at = next((n for n, op in enumerate(ops) if isinstance(op, Make | Into)), -1)
    first = ops[at] if at >= 0 else None
    if not isinstance(first, Make | Into) or len(first.places) != 1 or not lies_below_the_hook(first.places[0]):
        return ops
    there = Place("same", first.places[0].noun, of=Place("beg"))
    return (*ops[:at], replace(first, places=(there,)), *ops[at + 1 :])


def whole_sides(ops: Ops) -> Ops:
    """The other side of a chain begun with the chain that the first side ended with."""
    return tuple(replace(op, text=WHOLE_SIDE) if isinstance(op, Act) and op.name == "opposite" and not op.text else op for op in ops)


def begins_with_first(ops: Ops) -> bool:
    """ "Along the other side 2 sc in first ch": whether the first chain of that side is named."""
    pairs = pairwise(ops)
    turned = [then for op, then in pairs if isinstance(op, Act) and op.name == "opposite"]
    return any(isinstance(op, Make) and bool(op.places) and op.places[0].which == "first" for op in turned)


def every_further(ops: Ops) -> Ops:
    """ "1 tr in every other ch" behind a stitch in one chain, said for each of the others; the ops as they are where
    no chains are told so."""
    return tuple(_every_further(op) if at else op for at, op in enumerate(ops))


def _every_further(op: Op) -> Op:
    if not isinstance(op, Make) or not any(p.which == "each" and p.step == 2 and p.noun.name == "ch" for p in op.places):
        return op
    return replace(op, places=tuple(replace(p, step=1) if p.which == "each" else p for p in op.places))


def begun_there(ops: Ops) -> Ops:
    """ "Starting in 3rd ch from hook: hdc, 2 dc": the first of what follows goes into the place that work is said to begin
    at. The place is kept apart where a repeat or a chain follows."""
    out: list[Op] = []
    for op in ops:
        if isinstance(op, Star | Times):
            op = replace(op, ops=begun_there(op.ops))
        before = out[-1] if out else None
        begun = isinstance(before, Act) and before.name == "along" and before.text == FROM_THERE
        first = _into_there(op, before.place) if begun and isinstance(before, Act) and before.place is not None else None
        if first is not None:
            out.pop()
        out.append(first or op)
    return tuple(out)


def _into_there(op: Op, place: Place) -> Op | None:
    """What is told without a place, or in what comes next, with a place put before it; None where it cannot be."""
    if place.which != "hook" and place.noun.name not in ("sp", "lp", "corner", "corner sp"):
        return None
    if isinstance(op, Into):
        bare = op.places == (Place("next"),)
        return replace(op, places=(place,)) if bare else None
    if not isinstance(op, Make) or op.beside or op.stitch == "picot":
        return None
    if not op.places and (op.count == 1 or place.which != "hook"):
        return replace(op, places=(place,))
    behind = op.places or (Place("next", count=op.count),)
    first = behind[0]
    if place.which != "hook" or first.row is not None or first.nth or first.which not in ("next", "each"):
        return None
    rest = (first,) if first.which == "each" else (replace(first, count=first.count - 1),) if first.count > 1 else ()
    return replace(op, count=op.count if op.places else 1, places=(place, *rest, *behind[1:]))


def taken_out(low: str, terms: str) -> tuple[str, tuple[str, int] | None]:
    """The words of a row without "replace first dc with 3 ch" behind its work, letter for letter; and the stitch that a
    chain of so many stands for."""
    found = _REPLACED.search(low)
    if not found or not re.search(r"[a-z]{2}", low[: found.start()]):
        return low, None
    said = (found["stitch1"] or found["stitch2"]).strip()
    stitch = lexicon.long_names(terms).get(said) or lexicon.stitch_name(said.replace(" ", ""), terms)
    chains = int(found["n1"] or found["m1"] or found["n2"] or found["m2"])
    if stitch is None or not chains:
        return low, None
    start, end = found.span()
    return low[:start] + " " * (end - start) + low[end:], (stitch, chains)


def replaced(ops: Ops, stitch: str, chains: int) -> Ops | None:
    """The ops with the first stitch of the row made of chains that count as it; None where another stitch is first."""
    for at, op in enumerate(ops):
        if isinstance(op, Act):
            continue
        new = _first_replaced(op, stitch, chains)
        return (*ops[:at], *new, *ops[at + 1 :]) if new is not None else None
    return None


def _first_replaced(op: Op, stitch: str, chains: int) -> Ops | None:
    if isinstance(op, Make):
        return _one_less(op, stitch, chains)
    if isinstance(op, Into) and len(op.places) == 1 and op.places[0].count == 1:
        new = replaced(op.ops, stitch, chains)
        return (new[0], *((replace(op, ops=new[1:]),) if new[1:] else ())) if new else None
    if isinstance(op, Star | Times):
        new = replaced(op.ops, stitch, chains)
        if new is None:
            return None
        if isinstance(op, Star):
            rest: Op = replace(op, more=op.more - 1, said_more=op.said_more) if op.more else op
            return (*new, *((rest,) if op.more != 0 else ()))
        if op.times > 1:
            return (*new, replace(op, times=op.times - 1))
        return new if op.times == 1 else (*new, op)
    return None


def _one_less(op: Make, stitch: str, chains: int) -> Ops | None:
    if op.stitch != stitch or len(op.places) > 1:
        return None
    chain = Chain(chains, (stitch,), at=op.at)
    place = op.places[0] if op.places else None
    single = place is None or (place.which != "each" and place.count == 1)
    if op.count > 1 and not single and place is not None and place.which in ("each", "next"):
        rest = op if place.which == "each" else replace(op, places=(replace(place, count=place.count - 1),))
        return (chain, replace(op, count=op.count - 1, places=(Place("same"),)), rest)
    if op.count > 1:
        return (chain, replace(op, count=op.count - 1)) if single else None
    if place is None or (place.which in ("next", "first", "same") and place.count == 1):
        return (chain,)
    if place.which == "next":
        return (chain, replace(op, places=(replace(place, count=place.count - 1),)))
    return (chain, op) if place.which == "each" else None


def other_ways(ops: Ops) -> tuple[Ops, ...]:
    """Other ways to take how a row begins, for where the plain one does not come out even."""
    lead = next((at for at, op in enumerate(ops) if not isinstance(op, Act)), len(ops))
    rest = ops[lead:]
    if len(rest) < 2:
        return ()
    first, second = rest[0], rest[1]
    then = next((at for at, op in enumerate(rest) if at and not isinstance(op, Act)), 0)
    skip = rest[then]
    if isinstance(first, Chain) and isinstance(skip, Skip) and _skips_one(skip) and not _comes_back(rest):
        if first.counts and then == 1 and skip.places[0].noun.name == "st":
            return ((*ops[:lead], *rest[:then], *rest[then + 1 :]),)
        if first.counts is None and first.count > 1:
            under = replace(skip, places=(replace(skip.places[0], which="first"),))
            return ((*ops[:lead], *rest[:then], under, *rest[then + 1 :]),)
    if isinstance(first, Make | Into) and _on_a_named_stitch(first) and _passes_others(first, second):
        there = replace(first, places=(replace(first.places[0], which="first"),))
        return ((*ops[:lead], there, *rest[1:]),)
    return ()


def _comes_back(ops: Ops) -> bool:
    """Whether a row works into stitches that it has skipped before."""
    return any(p.which in ("skipped", "unworked") for op in walk(ops) if isinstance(op, Make | Into) for p in op.places)


def _skips_one(skip: Skip) -> bool:
    """ "Ch 3 (counts as dc), skip st": the stitch that the chain stands over."""
    place = skip.places[0] if len(skip.places) == 1 else None
    if place is None or place.which != "next" or place.count != 1 or place.nth:
        return False
    return place.noun.name == "st" or bool(lexicon.height_of(place.noun.name))


def _on_a_named_stitch(op: Make | Into) -> bool:
    place = op.places[0] if len(op.places) == 1 else None
    named = place is not None and bool(lexicon.height_of(place.noun.name))
    return named and place is not None and place.which == "next" and place.count == 1 and not place.nth


def _passes_others(op: Make | Into, star: Op) -> bool:
    """Whether the repeat behind a row's first stitch skips another kind of stitch before each that it works into: the
    same may stand before the first."""
    if not isinstance(star, Star) or len(star.ops) < 2:
        return False
    skip, then = star.ops[0], star.ops[1]
    if not isinstance(skip, Skip) or not isinstance(then, Make | Into) or then.places != op.places:
        return False
    passed = skip.places[0].noun.name if len(skip.places) == 1 else ""
    return bool(lexicon.height_of(passed)) and passed != op.places[0].noun.name


def counted_by_join(ops: Ops) -> Ops:
    """The ops with the chain counted that stands behind one stitch and is closed in one of its chains."""
    joins = [op.place for op in ops if isinstance(op, Act) and op.name == "join"]
    joins += [op.places[0] for op in ops[-2:] if isinstance(op, Make) and op.stitch == "sl st" and len(op.places) == 1]
    closed = next((found for place in joins if (found := _chain_closed_in(place))), None)
    at = next((n for n, op in enumerate(ops) if isinstance(op, Chain)), 0)
    chain = ops[at] if ops else None
    if closed is None or not isinstance(chain, Chain) or chain.counts is not None or chain.count != closed[1]:
        return ops
    led = [op for op in ops[:at] if not isinstance(op, Act) and not (isinstance(op, Make) and op.stitch == "sl st")]
    if len(led) != 1 or not isinstance(led[0], Make) or led[0].count != 1:
        return ops
    stitch = next((kind for kind, chains in TURNING.items() if chains == closed[0]), "")
    rest = chain.count - closed[0]
    parts = (stitch, *([f"ch {rest}"] if rest else [])) if stitch else ()
    return (*ops[:at], replace(chain, counts=parts), *ops[at + 1 :]) if parts else ops


def _chain_closed_in(place: Place | None) -> tuple[int, int] | None:
    """Which chain of how many a round is closed in."""
    of = place.of if place is not None and place.which == "nth" else None
    if place is None or of is None or of.which != "beg" or not 1 < place.nth <= of.noun.size:
        return None
    return place.nth, of.noun.size


# -- round posts behind petals ----------------------------------------------------------------------------------------

#: "Working behind petals, sc around post of next sc"; not where the side is said.
_BEHIND_PETALS = when_used(
    r"\b(?:behind|(?:at|on|in|from) (?:the )?back(?: side)? of) (?:(?:the|each|all|these|those|your|first|last) )*(?:(?:[a-z]+ )?petals?|flower|rose|blossom|bloom)\b"
)
_SIDE_SAID = when_used(r"\bfront post|\bfp ?[a-z]|\bfrom (?:the )?front|\bin front of")


def posts_from_behind(ops: Ops, low: str) -> Ops:
    """The ops of a row worked behind petals: what goes round a post there goes round it from the back, where the words
    do not say the side (common practice, no source)."""
    if not _BEHIND_PETALS.search(low) or _SIDE_SAID.search(low):
        return ops
    return tuple(map(_from_behind, _in_one_row(ops, None)[0]))


_POST = when_used(r"\baround (?:the )?(?:post|stem|bar)\b")


def post_unsaid(ops: Ops, low: str) -> tuple[int, int] | None:
    """Where a plain stitch is said to go round "the post", which may be that of any stitch: from where to where in the
    row's words in lower case. None for stitches that are raised by their name, and for those behind petals."""
    found = _POST.search(low)
    made = [op for op in walk(ops) if isinstance(op, Make) and not op.stitch.startswith(("FP", "BP"))] if found is not None else []
    bare = any(p.bare and p.which == "next" and p.noun.name == "st" and p.hold in ("front post", "back post") for op in made for p in op.places)
    return found.span() if found is not None and bare else None


def _in_one_row(ops: Ops, named: Place | None) -> tuple[Ops, Place | None]:
    """The ops of a row behind petals, in which "next dc" behind "first dc of Rnd 2" is of that round too; and what it names."""
    out: list[Op] = []
    for op in ops:
        if isinstance(op, Star | Times):
            inner, named = _in_one_row(op.ops, named)
            op = replace(op, ops=inner)
        elif isinstance(op, Into | Make) and op.places:
            if named is not None:
                op = replace(op, places=tuple(replace(p, row=named.row) if _is_like(p, named) else p for p in op.places))
            named = next((p for p in op.places if p.row is not None and p.hold in ("front post", "back post")), named)
        out.append(op)
    return tuple(out), named


def _is_like(place: Place, named: Place) -> bool:
    """Whether a place is the next of what was named in another row, round its post too."""
    return place.row is None and place.which in ("next", "each", "last") and (place.noun, place.hold) == (named.noun, named.hold)


def _between(place: Place) -> Noun:
    """What "the post" is that nothing more is said of: behind petals, one that stands between them."""
    return Noun(PETAL_ST, of="st") if place.bare and place.which == "next" and place.noun.name == "st" else place.noun


def _from_behind(op: Op) -> Op:
    if isinstance(op, Star | Times):
        op = replace(op, ops=tuple(map(_from_behind, op.ops)))
    if isinstance(op, Into | Make) and any(p.hold == "front post" for p in op.places):
        back = tuple(replace(p, hold="back post", noun=_between(p)) if p.hold == "front post" else p for p in op.places)
        return replace(op, places=back)
    return op


def past_its_own_chain(ops: Ops) -> Ops:
    """ "Ch 20. Row 1: Ch 1, sc in 2nd ch from hook": the chain of the row is the 1st from the hook, so that the foundation
    is worked to its end; the ops as they are where the row does not begin so."""
    at = next((n for n, op in enumerate(ops) if not isinstance(op, Act)), -1)
    led, then = (ops[at], ops[at + 1]) if 0 <= at < len(ops) - 1 else (None, None)
    if not isinstance(led, Chain) or not isinstance(then, Make) or not then.places:
        return ops
    first = then.places[0]
    if first.which != "hook" or first.nth != led.count + 1 or led.count > max(TURNING.values()):
        return ops
    return (*ops[: at + 1], replace(then, places=(replace(first, nth=1), *then.places[1:])), *ops[at + 2 :])


_OTHER_SIDE = {"FP": "BP", "BP": "FP"}


def ribs_as_seen(ops: Ops) -> Ops:
    """ "FPdc over FPdc, BPdc over BPdc" in a row that is turned: what was worked round the front looks, from behind, as if
    it had been worked round the back; the ops with those below named as they look, where a row names both."""
    named = {place.noun.name[:2] for op in walk(ops) if isinstance(op, Make | Skip) for place in op.places}
    return tuple(_as_seen(op) for op in ops) if named >= _OTHER_SIDE.keys() else ops


def _as_seen(op: Op) -> Op:
    if isinstance(op, Star | Times | Into):
        op = replace(op, ops=tuple(map(_as_seen, op.ops)))
    if isinstance(op, Make | Skip) and any(place.noun.name[:2] in _OTHER_SIDE for place in op.places):
        op = replace(op, places=tuple(replace(p, noun=_noun_as_seen(p.noun)) for p in op.places))
    return op


def _noun_as_seen(noun: Noun) -> Noun:
    side = _OTHER_SIDE.get(noun.name[:2])
    return replace(noun, name=side + noun.name[2:]) if side else noun


def between_legs(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """ "Ch 2, join to first leg with a sc, sc in next 11, sc in 2 ch, ...": the chains between legs are those that the round
    itself begins with."""
    work = [op for op in ops if not isinstance(op, Act)]
    limb = any(isinstance(op, Make) and any(p.which == "edge" and p.noun.name == "limb" for p in op.places) for op in work)
    begun = work[0] if work else None
    if not limb or not isinstance(begun, Chain):
        return ops
    return tuple(_on_own_chains(op, begun.count) if isinstance(op, Make) else op for op in ops)


def _on_own_chains(op: Make, chains: int) -> Make:
    """Work into as many chains as a round begins with, or into each of them."""
    place = op.places[0] if len(op.places) == 1 else None
    if place is None or place.noun.name != "ch" or place.row is not None or place.which not in ("next", "each", "first"):
        return op
    several = place.count == chains or (place.which == "each" and place.count == 1)
    return replace(op, places=(Place("edge", Noun("bridge"), count=chains),)) if several else op


def begins_the_first(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """ "Ch 3 (counts as dc), 2 dc in each st around": the ops with the chain taken for the first of the two in the first stitch,
    beside which only the rest of them is worked; as they stand where no such chain is told to count."""
    at = next((n for n, op in enumerate(ops) if not isinstance(op, Act)), len(ops))
    chain, behind = (ops[at], ops[at + 1 :]) if at + 1 < len(ops) else (None, ())
    following = next((op for op in behind if not isinstance(op, Act)), None)
    if not isinstance(chain, Chain) or not chain.counts or len(chain.counts) != 1 or following is None:
        return ops
    made = following.ops[0] if isinstance(following, Star | Times) and len(following.ops) == 1 else following
    several = isinstance(made, Make) and made.stitch == chain.counts[0] and made.count > 1 and len(made.places) == 1
    if not isinstance(made, Make) or not several or made.beside:
        return ops
    place = made.places[0]
    if place.which != "each" or place.step != 1 or place.nth or (height_of(place.noun.name) is None and place.noun.name != "st"):
        return ops
    return (*ops[: at + 1], Make(made.stitch, made.count - 1, (Place("same"),), at=made.at), *behind)
