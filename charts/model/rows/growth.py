"""Rows that go on as established: the same words with more stitches before each increase, in each block, or with more
or fewer turns of what is worked so many times."""

from __future__ import annotations

from ...made_late import replace
from ...pattern.tree import Again, Chain, Into, Make, Op, Place, Star, Times, walk


def grown(ops: tuple[Op, ...], again: Again) -> tuple[Op, ...]:
    """A row's words as the next row has them."""
    if again.of == "times":
        return _more_times(ops, again.grow)
    if again.of in ("side", "side of", "run", "run of"):
        return ops if goes_along_sides(ops, again) else _longer_sides(ops, again)
    increased = _before_increases(ops, again.grow)
    return _longer_blocks(ops, again.grow) if again.of == "block" and increased == ops else increased


def goes_along_sides(ops: tuple[Op, ...], again: Again) -> bool:
    """Whether a round's words, worked again, take in by themselves what its sides have more: "3 dc in each sp between
    groups to next corner"."""
    if again.of not in ("side", "side of"):
        return False
    places = [place for op in walk(ops) if isinstance(op, Make | Into) for place in op.places]
    along = [p for p in places if p.which == "each" and p.upto is not None]
    return any(p.noun.name in ("gap", "sp", "lp") for p in along)


def more_blocks(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """A row of blocks that tells how many stand on sides of the row below, as rows with more blocks have it: one on
    every side. The same ops where a repeat goes across already, or none is told so."""
    for at in reversed(range(len(ops))):
        op = ops[at]
        if isinstance(op, Times) and op.times > 0 and _is_block(op.ops):
            return (*ops[:at], _on_every_side(op.ops, op), *ops[at + 1 :])
        if isinstance(op, Star) and _is_block(op.ops):
            return ops if op.more is None else (*ops[:at], _on_every_side(op.ops, op), *ops[at + 1 :])
        if _is_block(ops[at : at + _PARTS]):
            return (*ops[:at], _on_every_side(ops[at : at + _PARTS], op), *ops[at + _PARTS :])
    return ops


#: A block is told as a slip stitch, the chains of its side, and its posts.
_PARTS = 3


def _is_block(ops: tuple[Op, ...]) -> bool:
    """Whether clauses tell a block on the side of one below: "sl st in next ch-3 sp, ch 3, 3 dc in same sp"."""
    if len(ops) != _PARTS:
        return False
    slip, side, posts = ops
    slips = isinstance(slip, Make) and slip.stitch == "sl st" and any(_is_side(p) for p in slip.places)
    there = isinstance(posts, Make) and any(p.which == "same" for p in posts.places)
    return slips and there and isinstance(side, Chain)


def _is_side(place: Place) -> bool:
    return place.noun.name == "sp"


def _on_every_side(ops: tuple[Op, ...], where: Op) -> Star:
    slip, side, posts = ops
    assert isinstance(slip, Make)
    again = replace(slip, places=tuple(replace(p, which="next", nth=0, of=None) for p in slip.places))
    return Star((again, side, posts), at=where.at)


def _before_increases(ops: tuple[Op, ...], more: int) -> tuple[Op, ...]:
    """A round of increases with `more` stitches before each increase; the same ops where it has none. A run as long as
    those that are repeated, beside the repeat, belongs to an increase in the round's beginning and grows too."""
    out: list[Op] = []
    runs = {_run(op) for again in ops if isinstance(again, Star | Times) for op in again.ops if _is_plain(op)}
    alike = runs.pop() if len(runs) == 1 and sum(isinstance(op, Star | Times) for op in ops) == 1 else 0
    for op in ops:
        if isinstance(op, Star | Times):
            op = replace(op, ops=_before_one(op.ops, more))
        elif isinstance(op, Make) and _is_plain(op) and op.places and _run(op) == alike and alike + more > 0:
            op = _longer(op, more)
        elif more > 0 and isinstance(op, Make) and _in_each(op):
            one = replace(op.places[0], which="next")
            plain = Make(op.stitch, 1, (replace(one, count=more),))
            op = Star((plain, replace(op, places=(one,))), at=op.at)
        out.append(op)
    return tuple(out)


def _before_one(ops: tuple[Op, ...], more: int) -> tuple[Op, ...]:
    """The plain stitches before an increase made more, or where none stand before one those behind it."""
    plain = [at for at, op in enumerate(ops) if _is_plain(op)]
    before = [at for at in plain if at + 1 < len(ops) and _shapes(ops[at + 1])]
    behind = [at for at in plain if at and _shapes(ops[at - 1])]
    at = next(iter(before or behind), None)
    if at is None:
        return ops
    op = ops[at]
    assert isinstance(op, Make)
    left = (op.places[0].count if op.places else op.count) + more
    if left < 1:
        return (*ops[:at], *ops[at + 1 :]) if not left else ops
    if op.places:
        longer = replace(op, places=(replace(op.places[0], count=left), *op.places[1:]))
    else:
        longer = replace(op, count=left)
    return (*ops[:at], longer, *ops[at + 1 :])


def _shapes(op: Op) -> bool:
    """Whether a clause increases or decreases."""
    return isinstance(op, Make) and (op.stitch.endswith("tog") or (bool(op.places) and op.count > 1))


def _in_each(op: Make) -> bool:
    """Whether a clause increases in every stitch."""
    return _shapes(op) and bool(op.places) and op.places[0].which == "each" and not op.places[0].until


def _is_plain(op: Op) -> bool:
    """Whether a clause works one stitch into each of so many."""
    if not isinstance(op, Make) or op.stitch.endswith("tog"):
        return False
    return not op.places or (op.count == 1 and op.places[0].which == "next")


def _run(op: Op) -> int:
    """How many stitches a plain clause makes."""
    assert isinstance(op, Make)
    return op.places[0].count if op.places else op.count


def _longer(op: Make, more: int) -> Make:
    return replace(op, places=(replace(op.places[0], count=op.places[0].count + more), *op.places[1:]))


def _longer_blocks(ops: tuple[Op, ...], more: int) -> tuple[Op, ...]:
    """`more` stitches in each stretch of them between chains, where it goes along the stretch below."""
    out: list[Op] = []
    done = False
    for op in ops:
        if isinstance(op, Star | Times):
            out.append(replace(op, ops=_longer_blocks(op.ops, more)))
            done = False
            continue
        if isinstance(op, Chain):
            done = False
        along = isinstance(op, Make) and op.count == 1 and bool(op.places) and op.places[0].which == "next"
        if isinstance(op, Make) and along and op.places[0].noun.name not in ("ch", "sp", "lp") and not done:
            op, done = _longer(op, more), True
        out.append(op)
    return tuple(out)


def _more_times(ops: tuple[Op, ...], more: int) -> tuple[Op, ...]:
    """`more` turns of the one thing that the row says so many times; none is left of what is done no more."""
    counted = [op for op in ops if _is_counted(op)]
    most = max(
        (op.times if isinstance(op, Times) else op.more or 0 for op in counted if isinstance(op, Times | Star)),
        default=0,
    )
    out: list[Op] = []
    for op in ops:
        if isinstance(op, Times) and _is_counted(op) and op.times == most:
            if op.times + more > 0:
                out.append(replace(op, times=op.times + more))
        elif isinstance(op, Star) and _is_counted(op) and op.more == most:
            out.append(replace(op, more=max(most + more, 0)))
        else:
            out.append(op)
    return tuple(out)


def _is_counted(op: Op) -> bool:
    """Whether a clause is worked a number of times that is said and may change: a bracket of one turn is left of one
    that has shrunk."""
    makes_room = isinstance(op, Times | Star) and any(isinstance(o, Chain | Make | Into) for o in op.ops)
    return makes_room and (
        (isinstance(op, Times) and op.times > 0 and not op.name) or (isinstance(op, Star) and op.more is not None)
    )


def _longer_sides(ops: tuple[Op, ...], again: Again) -> tuple[Op, ...]:
    """What goes along the sides between corners made longer: more of what stands in spaces, or longer runs of stitches
    ("side of", "run of": so many in all). Where the row begins within a side, half of what is added stands before its
    first corner and half behind its last."""
    star = next((i for i, op in enumerate(ops) if isinstance(op, Star | Times) and any(map(_turns, op.ops))), -1)
    if star < 0:
        return ops
    round_corner = ops[star]
    assert isinstance(round_corner, Star | Times)
    runs = [op.places[0].count for op in round_corner.ops if isinstance(op, Make) and _is_run(op)]
    if again.of == "run of":
        if len(runs) != 1:
            return ops
        again = replace(again, of="run", grow=again.grow - runs[0])
    if again.of == "side of":
        there = sum(_groups_in(op) for op in round_corner.ops)
        again = replace(again, of="side", grow=again.grow - there if there else 0)
    grow = _more_in_spaces if again.of == "side" else _longer_run
    longer = grow(round_corner.ops, again.grow)
    if longer == round_corner.ops:
        return ops
    if isinstance(round_corner, Star) and round_corner.cut is not None:
        both = zip(longer, round_corner.ops, strict=False)
        same = next((i for i, (a, b) in enumerate(both) if a != b), len(round_corner.ops))
        moved = len(longer) - len(round_corner.ops) if round_corner.cut >= same else 0
        round_corner = replace(round_corner, cut=round_corner.cut + moved)
    before, behind = ops[:star], ops[star + 1 :]
    halves = any(_goes_along(op, again.of) for op in behind) and any(_goes_along(op, again.of) for op in before)
    more = again.grow // 2 if halves and again.of == "run" else again.grow
    rest = again.grow - more if halves else 0
    return (*grow(before, more), replace(round_corner, ops=longer), *(grow(behind, rest) if rest else behind))


def _turns(op: Op) -> bool:
    """Whether a clause works round a corner: stitches, chains and stitches in one place."""
    return isinstance(op, Into) and any(isinstance(o, Chain) for o in op.ops)


def _is_run(op: Op) -> bool:
    return isinstance(op, Make) and op.count == 1 and bool(op.places) and op.places[0].which in ("next", "last")


def _in_space(op: Op) -> bool:
    if not isinstance(op, Make | Into) or _turns(op) or not op.places:
        return False
    return op.places[0].noun.name in ("sp", "lp", "hole", "gap")


def _goes_along(op: Op, of: str) -> bool:
    return bool(_groups_in(op)) if of == "side" else _is_run(op)


def _groups_in(op: Op) -> int:
    """How many groups a clause works into the spaces of a side: "[3 dc in next ch-1 sp, ch 1] twice" two."""
    if isinstance(op, Times) and not op.name and op.times > 0:
        return op.times * sum(_in_space(part) and not _same_space(part) for part in op.ops)
    return int(_in_space(op) and not _same_space(op))


def _longer_run(ops: tuple[Op, ...], more: int) -> tuple[Op, ...]:
    """The first run of stitches longer by so many."""
    at = next((i for i, op in enumerate(ops) if _is_run(op)), None)
    if at is None:
        return ops
    run = ops[at]
    assert isinstance(run, Make)
    if run.places[0].count + more < 1:
        return ops
    return (*ops[:at], _longer(run, more), *ops[at + 1 :])


def _more_in_spaces(ops: tuple[Op, ...], more: int) -> tuple[Op, ...]:
    """The last thing worked in a space between corners so many times more, with the chains behind it."""
    at = next((i for i in reversed(range(len(ops))) if _groups_in(ops[i])), None)
    if at is None:
        return ops
    several = ops[at]
    if isinstance(several, Times):
        one_each = _groups_in(several) == several.times and several.times + more > 0
        return (*ops[:at], replace(several, times=several.times + more), *ops[at + 1 :]) if one_each else ops
    end = at + 2 if at + 1 < len(ops) and isinstance(ops[at + 1], Chain) else at + 1
    if more < 0:
        return ops
    return (*ops[:end], *(ops[at:end] * more), *ops[end:])


def _same_space(op: Op) -> bool:
    return isinstance(op, Make | Into) and op.places[0].which == "same"
