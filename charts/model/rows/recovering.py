"""Going on after a row that could not be read or worked: over what the next row can lie on.

A row that states its count hands on that many stitches. Where it states none, or what it hands on lacks the spaces that
the next row goes into, a reader of print goes on as the rows before it were: over as many stitches as they had, or over
what this row's own count asks for. What is found so is a guess; the row is not called right unless it states its count.

A row with words that cannot be read is worked without them where it then comes out, and the next rows lie on that; the
words stay complained of.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from ...made_late import replace
from ...pattern.tree import Act, Again, Chain, Into, Make, Noun, Op, RowText, Skip, Star, Stated, Times, walk
from ..cloth import carried
from ..cloth.fabric import Row, WorkedRow
from ..hands.row_end import LeftOver
from . import trying
from .working import Task, Tried, Working

#: How far from a guess widths are tried, and how often a guess is bettered.
_NEAR, _BETTERED = 12, 4
#: The most stitches over which widths are tried.
_MOST = 600


def settle(w: Working, task: Task, tried: Tried) -> Tried:
    """The row over another row than the broken one below, where it does not come out over what that hands on, or that
    is only what could be worked of it. The row below is then taken to be that."""
    below = len(w.rows) - 1
    if below not in w.not_worked or not (tried.faults or below in w.torn):
        return tried
    if tried.stuck is not None and tried.stuck.kind == "limit":
        return tried
    if below in w.whole and (again := gone_round(w, task, tried)).whole:
        return again
    kept = w.rows[-1]
    for base in _bases(w):
        found = _over(w, task, base)
        if not found.faults and not (task.stated and not found.row.made):
            return found
    found_over = _over_plain(w, task) if task.stated else _over_near(w, task, kept.row.made or _told(w.read_as[-1]))
    if found_over is not None:
        return found_over
    w.rows[-1] = kept
    return tried


def gone_round(w: Working, task: Task, tried: Tried) -> Tried:
    """A round that stops too soon, or a row whose repeat does not come out even, as what a reader of print goes on
    over: with its words repeated all round, or its last repetition broken off. It stays complained of."""
    if tried.stuck is None or tried.stuck.kind == "limit" or task.stated or not w.rows:
        return tried
    if not task.text.is_round:
        again = trying.cut_short(w, task) if _goes_on(task.ops) and not isinstance(tried.stuck, LeftOver) else tried
        return as_told(w, task, tried) if again.faults else replace(tried, row=again.row, whole=True)
    if isinstance(tried.stuck, LeftOver):
        ops = _all_round(task.ops)
        again = trying.best(w, replace(task, ops=w.canonical.setdefault(ops, ops))) if ops else tried
    elif _goes_on(task.ops):
        again = trying.cut_short(w, task)
    else:
        return as_told(w, task, tried)
    return tried if again.faults or again.left else replace(tried, row=again.row, whole=True)


def _goes_on(ops: tuple[Op, ...]) -> bool:
    """Whether a row has a repeat that goes on as long as there is room."""
    return any(isinstance(op, Star) and op.more is None for op in ops)


def as_told(w: Working, task: Task, tried: Tried) -> Tried:
    """A row that asks for more stitches than there are and tells itself how many it makes, as its words make it: what
    a reader of print goes on over. The row stays complained of; one that leaves some over is made to its end."""
    if len(w.rows) - 1 in w.not_worked or not all(_is_finite(op) for op in walk(task.ops)):
        return tried
    if isinstance(tried.stuck, LeftOver):
        return replace(tried, whole=True)
    kept = w.rows[-1]
    found = _over_near(w, task, kept.row.made)
    w.rows[-1] = kept
    return tried if found is None else replace(tried, row=trying.shared(w, _without_feet(found.row)), whole=True)


def _is_finite(op: Op) -> bool:
    """Whether what an op works does not hang on how many stitches there are."""
    if isinstance(op, Star):
        return op.more is not None
    if isinstance(op, Times):
        return op.times > 0
    places = op.places if isinstance(op, Make | Into | Skip) else ()
    return all(place.which not in ("each", "edge") and place.until is None for place in places)


def _all_round(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """The words of a round with all between its beginning chain and its join repeated; none where it repeats a part."""
    work = [n for n, op in enumerate(ops) if not isinstance(op, Act | Chain)]
    if not work or any(isinstance(op, Star | Times) or _to_the_end(op) for op in walk(ops)):
        return ()
    first, last = work[0], work[-1] + 1
    while last < len(ops) and isinstance(ops[last], Chain):
        last += 1
    return (*ops[:first], Star(ops[first:last], word="around"), *ops[last:])


def _over(w: Working, task: Task, base: Row | None) -> Tried:
    assert base is not None
    w.rows[-1] = replace(w.rows[-1], row=trying.shared(w, base))
    return trying.best(w, task, ())


def _bases(w: Working) -> Iterator[Row]:
    """What may lie under the row: the last rows that came out, the nearest first."""
    sound = [at for at in range(len(w.rows) - 1) if w.proved[at] != "no"]
    below = [w.rows[at].row for at in reversed(sound[-2:])]
    if not below or len(sound) == len(w.rows) - 1 == 1:
        below.append(w.foundation)
    yield from (_without_feet(row) for row in below if row.stitches)


def _without_feet(row: Row) -> Row:
    """A row with the stitches of another, which stand on nothing that is known."""
    return replace(row, stitches=tuple(replace(stitch, feet=()) for stitch in row.stitches), repeat=None)


def _over_plain(w: Working, task: Task) -> Tried | None:
    """The row over so many plain stitches that it makes what it states; None where there is no such number."""
    want, kind = total(task), _kind_below(w)
    if not 0 < want <= _MOST:
        return None
    width = so_wide(lambda n: _over(w, task, _plain(w, n, kind)), want, range(1, _MOST))
    return _over(w, task, _plain(w, width, kind)) if width else None


def _over_near(w: Working, task: Task, about: int) -> Tried | None:
    """The row over so many plain stitches that it comes out, the number nearest to what the broken row made; None where
    there is none near it, or where that is more than widths are tried over."""
    if about > _MOST:
        return None
    kind = _kind_below(w)
    for width in sorted(range(max(about - _NEAR, 1), about + _NEAR + 1), key=lambda n: (abs(n - about), n)):
        tried = _over(w, task, _plain(w, width, kind))
        if not tried.faults and tried.row.made:
            return tried
    return None


def _told(ops: tuple[Op, ...]) -> int:
    """How many stitches a row's words tell by their numbers, that could not be worked."""
    makes = [op for op in ops if isinstance(op, Make) and op.stitch != "sl st" and _is_finite(op)]
    return sum(op.count * max(sum(place.count for place in op.places), 1) for op in makes)


def so_wide(over: Callable[[int], Tried], want: int, widths: range) -> int:
    """The width over which a row comes out and makes what it states, found from how much it makes over others; 0 where
    none of those tried does."""
    near, known = want, set[int]()
    for _ in range(_BETTERED):
        close = [n for n in range(near - _NEAR, near + _NEAR + 1) if n in widths and n not in known]
        made = 0
        for width in sorted(close, key=lambda n: (abs(n - near), n)):
            known.add(width)
            tried = over(width)
            if not tried.faults:
                return width
            made = tried.row.made if tried.stuck is None else 0
            if made:
                near = round(width * want / made)
                break
        if not made:
            return 0
    return 0


def _plain(w: Working, width: int, kind: str) -> Row | None:
    of_kind = carried.row_of((Stated(width, Noun(kind)),), w.specials)
    return of_kind or carried.row_of((Stated(width, Noun("st")),), w.specials)


def total(task: Task) -> int:
    """How many stitches a row states that it makes; 0 where it states none."""
    plain = [part.count for part in task.stated if part.noun.name == "st"]
    return plain[0] if plain else sum(part.count for part in task.stated if part.noun.name not in ("sp", "lp"))


def _kind_below(w: Working) -> str:
    """The stitch that the row below is most of, as far as its words were understood."""
    kinds = [op.stitch for op in walk(w.read_as[-1]) if isinstance(op, Make) and op.stitch not in ("sl st", "ch")]
    return max(kinds, key=kinds.count) if kinds else "st"


def unread_row(
    w: Working, task: Task, tried: Tried, guesses: tuple[tuple[Op, ...], ...], above: Sequence[RowText]
) -> tuple[Task, Tried] | None:
    """The way to work a row with unread words that proves itself, without them or with what they may stand for: it
    makes what the row states, or, where it states nothing, goes to the end of the row below. Where several do, the
    first over which the next row (of `above`) comes out. None where there is none."""
    found: list[tuple[Task, Tried]] = []
    for way in _ways_to_work(w, task, tried, guesses):
        if not any(same_row(way[1].row, other.row) for _, other in found):
            found.append(way)
        if task.stated:
            break
    if len(found) < 2 or not above:
        return found[0] if found else None
    return next((way for way in found if _carries(w, way, above[0])), found[0])


def same_row(row: Row, other: Row) -> bool:
    """Whether the next row meets the same stitches over two rows."""
    return [(s.kind, s.role, s.chains) for s in row.stitches] == [(s.kind, s.role, s.chains) for s in other.stitches]


def _ways_to_work(
    w: Working, task: Task, tried: Tried, guesses: tuple[tuple[Op, ...], ...]
) -> Iterator[tuple[Task, Tried]]:
    for ops in guesses:
        way = replace(task, ops=w.canonical.setdefault(ops, ops))
        again = trying.best(w, way)
        if _proves_itself(w, way, again):
            yield way, again
    if _proves_itself(w, task, tried):
        yield task, tried


def _carries(w: Working, way: tuple[Task, Tried], following: RowText) -> bool:
    """Whether the next row comes out over a row so worked."""
    task, tried = way
    if following.begins is not None or any(isinstance(op, Again) for op in walk(following.ops)):
        return False
    w.rows.append(WorkedRow(task.label, task.number, tried.row, task.text.side, "", False, task.text.is_round))
    w.directions.append(task.direction)
    turned = -1 if not following.is_round else 1
    upper = Task(following, task.number + 1, following.label, following.ops, task.direction * turned)
    again = trying.best(w, upper, ())
    del w.rows[-1], w.directions[-1]
    return not again.faults and not again.left


def _proves_itself(w: Working, task: Task, tried: Tried) -> bool:
    if tried.faults or tried.replaced or not tried.row.made:
        return False
    return (not tried.left or _bridged(tried)) and bool(task.stated or w.rows)


def _bridged(tried: Tried) -> bool:
    """Whether what a row leaves may lie under the chain that it ends with."""
    last = next((stitch for stitch in reversed(tried.row.stitches) if stitch.kind != "sl st"), None)
    return last is not None and last.chains > 0 and tried.left <= last.chains


def _to_the_end(op: Op) -> bool:
    """Whether work goes on as long as there is room, or so many times as may fill it."""
    if isinstance(op, Star):
        return op.more is None
    if isinstance(op, Times):
        return op.times > 1
    return isinstance(op, Make | Into) and any(place.which == "each" for place in op.places)
