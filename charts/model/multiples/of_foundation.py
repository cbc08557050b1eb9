"""The multiple of a written pattern's foundation chain: the pattern is worked on chain after chain."""

from __future__ import annotations

import functools

from ...made_late import dataclass, replace
from ...pattern.tree import FIRST_LEG, Act, Chain, Into, Make, Op, RowText, Star, Times, WrittenPattern, walk
from ...pattern.written.document import Reading
from ..cloth.fabric import Row, Stitch
from ..rows.work import work_reading
from ..rows.working import Worked
from .arithmetic import growing, may_grow
from .multiple import is_rigid

#: Rows played to find it, and the longest repeat looked for.
MOST_ROWS, MOST_OF = 24, 120
#: Of a longer chain none is looked for: it would be worked over and over, and its count is not in doubt.
MOST_CHAINS = 1_000


@dataclass(frozen=True, slots=True)
class ChainMultiple:
    """ "Multiple of `of` plus `plus`" in stitches of a row; `chain_plus` is the plus of the foundation chain."""

    of: int
    plus: int
    chain_plus: int


def chain_multiple(worked: Worked) -> ChainMultiple | None:
    """What the foundation must be a multiple of; None where the pattern has no chain or a very long one, a
    problem, or no repeat."""
    pattern = worked.pattern
    if (
        pattern.start is None
        or pattern.start.how != "chain"
        or pattern.start.count > MOST_CHAINS
        or worked.problems
        or any(r.is_round for r in pattern.rows)
    ):
        return None
    rows = tuple(_first_of_run(row) for row in settled(worked)[:MOST_ROWS])
    for shape in (rows, tuple(loosened(row) for row in rows)):
        if any(is_rigid(row) or _pulls_apart(row) for row in shape):
            continue  # such rows go over one number of stitches only, or over any in more ways than one
        of = _repeat_from(pattern, shape, pattern.start.count, tuple(growing(worked, shape)))
        if of:
            plus = pattern.start.count
            return ChainMultiple(of, (plus - _share(worked)) % of, plus % of)
    return None


@functools.lru_cache(maxsize=64)
def _repeat_from(
    pattern: WrittenPattern, rows: tuple[RowText, ...], count: int, steps: tuple[tuple[int, int], ...]
) -> int:
    """The fewest chains more than those printed over which the rows go too, and over twice and three times as many
    more; 0 where there are none. `steps` is what each row's repetitions take and make, as far as known. Kept,
    as a report and a chart of one pattern both ask."""

    def goes(more: int) -> bool:
        return _goes(pattern, rows, count + more)

    more = [n for n in range(1, MOST_OF + 1) if may_grow(steps, n)]
    if not more or not goes(0):
        return 0
    return next((n for n in more if goes(n) and goes(2 * n) and goes(3 * n)), 0)


def _goes(pattern: WrittenPattern, rows: tuple[RowText, ...], count: int) -> bool:
    assert pattern.start is not None
    trial = replace(pattern, start=replace(pattern.start, count=count), rows=rows)
    return not work_reading(Reading(trial), to_first_fault=True).problems


def settled(worked: Worked) -> tuple[RowText, ...]:
    """The rows with what their words left open said as it was read, so that other widths are read alike."""
    made = {id(text): row for text, row in zip(reversed(worked.texts), reversed(worked.fabric.rows), strict=True)}
    return tuple(
        _said(text, made[id(text)].row, first=at == 0) if id(text) in made else text
        for at, text in enumerate(worked.pattern.rows)
    )


def _said(text: RowText, row: Row, *, first: bool) -> RowText:
    """A row whose beginning chain, or whose skipped foundation chains, say what they count as."""
    begun = [s for s in row.stitches if s.role != "travel"][:2]
    if not begun:
        return text
    places = [p for op in walk(text.ops) if isinstance(op, Make | Into) for p in op.places]
    hook = next((p for p in places if p.which == "hook"), None)
    said = any(isinstance(op, Act) and op.name == "opening" for op in walk(text.ops))
    if first and hook is not None and hook.nth and not said:
        return replace(text, ops=(*text.ops, Act("opening", _opening(begun, hook.nth - 1))))
    at = next((i for i, op in enumerate(text.ops) if isinstance(op, Chain | Make | Star | Times)), -1)
    chain = text.ops[at] if at >= 0 else None
    if not isinstance(chain, Chain) or chain.counts is not None:
        return text
    counted = replace(chain, counts=_counted(begun, chain.count))
    return replace(text, ops=(*text.ops[:at], counted, *text.ops[at + 1 :]))


def _counted(begun: list[Stitch], chains: int) -> tuple[str, ...]:
    """What a beginning chain was read as: nothing, a stitch, a stitch and chains, or a loop."""
    first = begun[0]
    if first.role == "turning":
        rest = chains - first.chains
        return (first.kind, f"ch {rest}") if rest > 0 else (first.kind,)
    if first.role == "stitch" and first.chains:
        return (FIRST_LEG,)
    return ("ch",) if first.role == "chain" else ()


def _opening(begun: list[Stitch], skipped: int) -> str:
    """What the foundation's skipped chains were read as."""
    lead = [s for s in begun if not s.feet and s.role in ("turning", "chain")]
    parts = [s.kind if s.role == "turning" else f"ch {s.chains}" for s in lead]
    rest = skipped - sum(s.chains for s in lead)
    return ", ".join([*parts, *([f"sk {rest}"] if parts and rest > 0 else [])])


def _first_of_run(row: RowText) -> RowText:
    """One or two rows stand for a run; counts stated for this size are left out."""
    return replace(row, last=min(row.last, row.first + 1), stated=())


def loosened(row: RowText) -> RowText:
    """ "k more times" as "as often as the row allows", which is how another width is worked."""
    return replace(row, ops=tuple(_loose(op) for op in row.ops))


def _loose(op: Op) -> Op:
    if isinstance(op, Star) and op.more is not None:
        return replace(op, more=None)
    if isinstance(op, Times) and op.times > 2 and not op.name:
        return Star(op.ops, at=op.at)
    return op


def _pulls_apart(row: RowText) -> bool:
    """Whether several repeats of a row would each be worked as often as there is room, which no number settles."""
    return sum(isinstance(op, Star) and op.more is None and op.until is None for op in row.ops) > 1


def _share(worked: Worked) -> int:
    """The chains of the foundation that are no stitches of the first row: its turning chain, less one if it counts."""
    first = worked.fabric.rows[0].row.stitches
    counted = any(s.role == "turning" for s in first)
    return worked.fabric.risen - (1 if counted else 0)
