"""Rounds whose last repetition comes back to their beginning: "sc in same loop, *ch 5, sc in next loop; rep from *
around" ends with the chain, as its last sc would be the first one."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence

from ...made_late import replace
from ...pattern.lexicon import TURNING, together
from ...pattern.tree import Act, Chain, Into, Make, Noun, Op, Place, Skip, Special, Star, Times, walk
from ..cloth.fabric import Row, counts
from ..cloth.site import SPACES


def without_the_last(ops: tuple[Op, ...], specials: Mapping[str, Special]) -> tuple[Op, ...] | None:
    """The words of a round in which the last repetition leaves out its last stitch, one like the round's first; None
    where a round does not begin so, or repeats no such thing to its end."""
    at = next((i for i, op in enumerate(ops) if isinstance(op, Star | Times)), 0)
    again = ops[at] if at else None
    if not isinstance(again, Star | Times) or any(not isinstance(op, Act) for op in ops[at + 1 :] if not _joins(op)):
        return None
    body = _unfolded(again.ops)
    last = body[-1] if body else None
    if len(body) < 2 or not isinstance(last, Make | Into):
        return None
    between = isinstance(last, Make) and len(last.places) == 1 and last.places[0].which == "between"
    if not between and not any(isinstance(op, Chain) for op in walk(body)):
        return None
    if not _one_like(last, ops[:at], specials):
        return None
    if isinstance(again, Star):
        if again.more is not None or again.until is not None or again.cut is not None or again.ending:
            return None
        return (*ops[:at], replace(again, ops=body, cut=len(body) - 1, replaces=True), *ops[at + 1 :])
    if again.times == 0 and not again.name:  # "(ch 5, sk 3 dc, sc in next dc) around"
        return (*ops[:at], Star(body, cut=len(body) - 1, replaces=True, word="around", at=again.at), *ops[at + 1 :])
    if again.times < 2 or again.name:
        return None
    return (*ops[:at], replace(again, times=again.times - 1), *body[:-1], *ops[at + 1 :])


def over_its_closing(ops: tuple[Op, ...], base: Row) -> tuple[Op, ...] | None:
    """The words of a round that begins on the stitch which closed the last loop of the round below, "sc around tr just
    made, *ch 6, sc in next loop; ...": it begins in that loop. "Sc in same st" says so too where all that is repeated
    goes into loops. None for other rounds."""
    below = base.stitches
    if len(below) < 2 or below[-1].role != "join" or below[-1].kind == "sl st" or below[-2].role != "chain":
        return None
    kind = below[-1].kind
    at = next((i for i, op in enumerate(ops) if not isinstance(op, Act | Chain)), None)
    first = ops[at] if at is not None else None
    if at is None or not isinstance(first, Make | Into) or len(first.places) != 1:
        return None
    place = first.places[0]
    told = place.of if place.which in ("top", "nth") and place.of is not None else place
    alone = not any(s.kind == kind and s.role in ("stitch", "turning") for s in below)
    named = told.noun.name == kind and told.which in ("next", "same", "first", "made")
    same = place.which == "same" and place.noun.name in ("st", kind) and place.row is None
    if not (named and (alone or "post" in place.hold)) and not (same and _only_loops(ops[at + 1 :])):
        return None
    return (*ops[:at], replace(first, places=(Place("same", Noun("lp")),)), *ops[at + 1 :])


def _only_loops(ops: tuple[Op, ...]) -> bool:
    """Whether a round repeats something, and all of it goes into loops."""
    again = next((op for op in ops if isinstance(op, Star | Times)), None)
    made = [op for op in walk(again.ops) if isinstance(op, Make | Into | Skip)] if again is not None else []
    return bool(made) and all(op.places and all((p.of or p).noun.name in SPACES for p in op.places) for op in made)


def broken_off(ops: tuple[Op, ...]) -> tuple[Op, ...] | None:
    """The words of a round with "rep from * around, ending with ch 2" broken off behind the last such chain within the
    repetition; None where it is no such round, or the repetition itself ends so."""
    at = next((i for i, op in enumerate(ops) if isinstance(op, Star)), -1)
    star = ops[at] if at >= 0 else None
    if not isinstance(star, Star) or star.more is not None or star.until is not None or star.cut is not None:
        return None
    said = star.ending[0] if len(star.ending) == 1 else None
    chains = said.count if isinstance(said, Chain) else 0
    found = [n for n, op in enumerate(star.ops) if isinstance(op, Chain) and op.count == chains]
    if not found or not 1 < found[-1] + 1 < len(star.ops):
        return None
    return (*ops[:at], replace(star, ending=(), cut=found[-1] + 1, replaces=True), *ops[at + 1 :])


def by_the_part(ops: tuple[Op, ...]) -> tuple[Op, ...] | None:
    """The words of a row whose repetition says the same several times over, "*ch 1, dc in next 3 sts, ch 1, dc in next
    3 sts; rep from * around", with that said once: the last may stop behind each of them. None where none does."""
    at = next((i for i, op in enumerate(ops) if isinstance(op, Star)), -1)
    star = ops[at] if at >= 0 else None
    if not isinstance(star, Star) or star.more is not None or star.cut is not None or star.ending:
        return None
    said = star.ops
    parts = (n for n in range(1, len(said) // 2 + 1) if len(said) % n == 0 and said == said[:n] * (len(said) // n))
    part = next(parts, 0)
    return (*ops[:at], replace(star, ops=said[:part]), *ops[at + 1 :]) if part else None


def full_after_each(ops: tuple[Op, ...]) -> tuple[Op, ...] | None:
    """The words of a row with "*dc in each dc, (2 dc, ch 2, 2 dc) in next sp; rep from * across", whose last repetition
    stops behind its first clause where no further space follows; None for other rows."""
    at = next((i for i, op in enumerate(ops) if isinstance(op, Star)), -1)
    star = ops[at] if at >= 0 else None
    if not isinstance(star, Star) or star.more is not None or star.cut is not None or star.ending or star.until:
        return None
    first = star.ops[0] if len(star.ops) > 1 else None
    along = isinstance(first, Make) and len(first.places) == 1 and first.places[0].which == "each"
    along = along and isinstance(first, Make) and first.places[0].noun.name != "ch"
    return (*ops[:at], replace(star, cut=1), *ops[at + 1 :]) if along else None


def begun_by_its_end(ops: tuple[Op, ...]) -> tuple[Op, ...] | None:
    """The words of a round that begins with what its repetition ends with, "ch 3, dc in same st, *dc in next 2 sts, 2
    dc in next st; rep from * around", or with a group that is its last: the last of them stops before that. None for
    other rows."""
    at = next((i for i, op in enumerate(ops) if isinstance(op, Star)), -1)
    star = ops[at] if at > 0 else None
    if not isinstance(star, Star) or star.more is not None or star.cut is not None or star.ending or star.until:
        return None
    before = [op for op in ops[:at] if not isinstance(op, Act)]
    chain = _lift(before)
    alone = len(before) == 1 + bool(chain) and all(isinstance(op, Act) or _joins(op) for op in ops[at + 1 :])
    if not alone or len(star.ops) < 2 or not _begins_as(before[-1], star.ops[-1], chain):
        return None
    return (*ops[:at], replace(star, cut=len(star.ops) - 1), *ops[at + 1 :])


def _begins_as(made: Op, last: Op, chain: int) -> bool:
    """Whether what a round makes first, with the chain before it where that stands for one, is what its repetition
    makes last: several stitches, or a group, in one place."""
    if not isinstance(made, Make | Into) or not isinstance(last, Make | Into):
        return False
    if len(made.places) != 1 or len(last.places) != 1 or last.places[0].which != "next":
        return False
    first, again = _parts(made), _parts(last)
    if not first or not again or len(again) < 2:
        return False
    stands = chain > 1 and TURNING.get(again[0][0]) == chain
    there = ("same", "first") if stands else ("same", "first", "next")
    single = made.places[0].count == last.places[0].count == 1
    return single and made.places[0].which in there and [*([again[0]] if stands else []), *first] == again


def _parts(op: Make | Into) -> list[tuple[str, int]]:
    """What is made in a place, stitch by stitch, and its chains by their number; empty where it is not plainly told."""
    out: list[tuple[str, int]] = []
    for part in (op,) if isinstance(op, Make) else op.ops:
        if isinstance(part, Make) and (part is op or not part.places) and 0 < part.count <= _MOST_ALIKE:
            out += [(part.stitch, 1)] * part.count
        elif isinstance(part, Chain):
            out.append(("ch", part.count))
        else:
            return []
    return out


#: More stitches than these in one place are no group.
_MOST_ALIKE = 60


def _lift(before: Sequence[Op]) -> int:
    """How many chains a round begins with; 0 where it begins with none."""
    first = before[0] if before else None
    return first.count if isinstance(first, Chain) else 0


def skipped_under_chain(ops: tuple[Op, ...]) -> tuple[Op, ...] | None:
    """The words of a row with "ch 3 (counts as dc), skip 1 st, dc in next 3 sts", of which the stitch skipped is the
    one that the chain stands on: without the skip. None for other rows."""
    moves = [at for at, op in enumerate(ops) if not isinstance(op, Act)][:2]
    chain, skip = (ops[at] for at in moves) if len(moves) == 2 else (None, None)
    place = skip.places[0] if isinstance(skip, Skip) and len(skip.places) == 1 else None
    if not isinstance(chain, Chain) or not chain.counts or place is None or (place.which, place.count) != ("next", 1):
        return None
    if any(p.which in ("skipped", "unworked") for op in walk(ops) if isinstance(op, Make | Into) for p in op.places):
        return None
    at = moves[1]
    return (*ops[:at], *ops[at + 1 :]) if place.row is None and place.noun.name not in _NO_STITCHES else None


#: What a chain at a row's beginning does not stand on.
_NO_STITCHES = ("ch", "sp", "lp", "gap")


def by_chains(ops: tuple[Op, ...]) -> bool:
    """Whether a repetition is chains and a stitch behind them: without the last ones a round would not be closed."""
    again = next((op for op in ops if isinstance(op, Star)), None)
    return again is not None and len(again.ops) > 1 and all(isinstance(op, Chain) for op in again.ops[:-1])


def ends_on_its_chain(row: Row) -> bool:
    """Whether a round's last stitch stands where the beginning chain does that counts as one, or before that where the
    round has moved past it: it is that stitch, come round to."""
    made = [s for s in row.stitches if s.role in ("stitch", "turning", "chain")]
    first, last = (made[0], made[-1]) if len(made) > 1 else (None, None)
    if first is None or last is None or first.role != "turning" or not first.feet or len(last.feet) != 1:
        return False
    one, other = last.feet[0], first.feet[0]
    moved = any(s.role == "travel" for s in row.stitches)
    there = one == other or (moved and one.at < other.at and one.hold == other.hold)
    return there and one.back == other.back and one.hold == "top" and last.kind == first.kind


def ends_in_its_gap(row: Row) -> bool:
    """Whether a round's last stitch goes between the same two stitches as its first."""
    made = [s for s in row.stitches if counts(s) and s.feet]
    if len(made) < 2 or made[0].kind != made[-1].kind:
        return False
    return made[0].feet == made[-1].feet and made[0].feet[0].hold == "between"


def comes_round_to_its_first(row: Row) -> bool:
    """Whether a round's last stitch is its first once more: where its chain stands, or between the same stitches."""
    return ends_on_its_chain(row) or ends_in_its_gap(row)


def alike_in_spaces(row: Row) -> bool:
    """Whether a row works as many stitches into each space that it goes into: a round that does not, though each of its
    repetitions says the same, may have stopped before it came round."""
    there = Counter(s.feet[0].at for s in row.stitches if counts(s) and s.feet and s.feet[0].hold == "space")
    return len(set(there.values())) <= 1


def _joins(op: Op) -> bool:
    return isinstance(op, Make) and op.stitch == "sl st"


def _unfolded(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """The clauses of a repetition, a bracket at its end written out the last time."""
    last = ops[-1] if ops else None
    if isinstance(last, Times) and last.times > 1 and not last.name:
        return (*ops[:-1], replace(last, times=last.times - 1), *last.ops)
    return ops


def _one_like(last: Make | Into, begun: tuple[Op, ...], specials: Mapping[str, Special]) -> bool:
    """Whether a round begins with what its repetitions end with: the stitch itself, a cluster, the chain as high as the
    stitch, or the same stitches and chains in one place."""
    work = [op for op in begun if not isinstance(op, Act | Skip) and not _joins(op)]
    ends = _shape((last,), specials)
    return any(shape == ends for shape in (_shape(tuple(work), specials), *_chained(work, ends, specials)))


def _chained(work: Sequence[Op], ends: list[str], specials: Mapping[str, Special]) -> list[list[str]]:
    """What a beginning chain and the work behind it may stand for: a stitch as high as it, with chains for the rest; or
    nothing, where it lifts the work to a cluster."""
    if not work or not isinstance(work[0], Chain):
        return []
    behind, count = _shape(tuple(work[1:]), specials), work[0].count
    first = next((kind for kind in ends if not kind.isdigit()), "")
    high = TURNING.get(first, 0)
    rest = [str(count - high)] if count > high else []
    stands = [[first, *rest, *behind]] if 1 < high <= count else []
    return [*stands, behind] if count == 1 or behind[:1] == ["cl"] else stands


def gathers(stitch: str, specials: Mapping[str, Special]) -> bool:
    """Whether a stitch is a cluster: so called, or tall stitches drawn together."""
    drawn = together(stitch) > 1 and not stitch.startswith("sc")
    return stitch == "cl" or drawn or (stitch in specials and specials[stitch].kind == "cl")


def _shape(ops: tuple[Op, ...], specials: Mapping[str, Special]) -> list[str]:
    """The stitches and chains that clauses make, in a row: "dc", "3", "dc"; a gathered stitch is "cl"."""
    out: list[str] = []
    for op in ops:
        if isinstance(op, Make):
            out += ["cl" if gathers(op.stitch, specials) else op.stitch] * op.count
        elif isinstance(op, Chain):
            out.append(str(op.count))
        elif isinstance(op, Into | Times):
            out += _shape(op.ops, specials) * (op.times if isinstance(op, Times) else 1)
    return out


def with_last_skip(ops: tuple[Op, ...]) -> tuple[Op, ...] | None:
    """The ops of a round whose last group begins by passing stitches over, with these passed over once more before the
    round is closed: "..., [skip next sc, shell in next sc, skip next sc, sc in next sc] 5 times" leaves the skip before
    the first stitch unsaid. None where it has no such group."""
    at = next((n for n in reversed(range(len(ops))) if not isinstance(ops[n], Act) and not _joins(ops[n])), None)
    group = ops[at] if at is not None else None
    first = group.ops[0] if isinstance(group, Star | Times) and group.ops else None
    if at is None or not isinstance(first, Skip):
        return None
    return (*ops[: at + 1], first, *ops[at + 1 :])


def with_the_rest_passed(ops: tuple[Op, ...], rest: int) -> tuple[Op, ...] | None:
    """The ops of a round that is not joined and is one repeat from space to space, each repetition passing over the
    last `rest` stitches of a group: "*ch 3, 2 sc in next sp, sc in next sc; rep from * around". None where it is no
    such round."""
    star = ops[0] if len(ops) == 1 else None
    if not isinstance(star, Star) or star.more is not None or star.until is not None or star.cut is not None:
        return None
    if star.ending or len(star.ops) < 3 or not isinstance(star.ops[0], Chain):
        return None
    enters, last = _one_next(star.ops[1]), _one_next(star.ops[-1])
    if enters is None or enters.name not in SPACES or last is None or last.name in SPACES:
        return None
    return (replace(star, ops=(*star.ops, Skip((Place("next", count=rest),), at=star.at))),)


def _one_next(op: Op) -> Noun | None:
    """What a clause of stitches goes into, where that is the next of them."""
    places = op.places if isinstance(op, Make | Into) else ()
    return places[0].noun if len(places) == 1 and places[0].which == "next" else None
