"""What a number is meant of: one before "in each" that is the number of all of them, "30 hdc in each st around" over 30
stitches; the count behind a run of rows that grow or narrow, "Rows 2-5: dec at each end. 12 sc", the last one's; and
on the foundation chain "dc in 4th ch", the 4th from the hook, and "sc 19" over 20 chains, of which one turns."""

from __future__ import annotations

from collections.abc import Iterator

from ...made_late import replace
from ...pattern.lexicon import height_of
from ...pattern.tree import Act, Chain, Into, Make, Noun, Op, Place, Skip, Star, Times
from ...pattern.when_used import when_used
from ..cloth.fabric import Row, counts
from .working import Task, Tried, Working

#: So many stitches are never worked into every stitch of a row (common practice, no source).
_FEWEST = 10


def one_in_each(ops: tuple[Op, ...]) -> tuple[tuple[Op, ...], Make] | None:
    """The ops with a number before "in each" taken for that of all of them, and the clause; None where none has one."""
    for at, op in enumerate(ops):
        if isinstance(op, Make) and op.count >= _FEWEST and _each(op):
            return (*ops[:at], replace(op, count=1), *ops[at + 1 :]), op
    return None


#: What a row says of a stitch that it adds: "(1 st increased)", "inc made".
_ADDS = when_used(
    r"\b(?:1|one|a|an) ?(?:st|stitch|sc|hdc|dc|htr|tr)?s? ?(?:increased|inc\b|added|increase|extra|more)"
    r"|\b(?:increase|inc) made\b"
)


def said_to_add(low: str) -> bool:
    """Whether a row's words say that a stitch is added."""
    return bool(_ADDS.search(low))


def first_again(ops: tuple[Op, ...]) -> tuple[Op, ...] | None:
    """The ops of a row that begins with one stitch in its first place and one "in each st around", with that place
    counted among these; None where it does not begin so."""
    work = [at for at, op in enumerate(ops) if not isinstance(op, Act | Chain)][:2]
    if len(work) < 2:
        return None
    first, each = ops[work[0]], ops[work[1]]
    if not isinstance(first, Make) or not isinstance(each, Make) or first.stitch != each.stitch or first.count != 1:
        return None
    there = len(first.places) == 1 and first.places[0].which in ("same", "first") and first.places[0].count == 1
    if not there or not _each(each) or each.count != 1:
        return None
    return (*ops[: work[0]], replace(first, count=2), *ops[work[0] + 1 :])


def comes_out(row: Row, op: Make) -> bool:
    """Whether a row made so has as many stitches of the kind as the clause says."""
    return sum(counts(s) and s.kind == op.stitch for s in row.stitches) == op.count


def _each(op: Make) -> bool:
    *before, last = op.places or (None,)
    if last is None or last.which != "each" or last.count != 1 or last.until is not None:
        return False
    if last.noun.name not in ("st", "ch") and not height_of(last.noun.name):
        return False
    return all(p is not None and p.which == "hook" for p in before)


def at_its_end(w: Working, task: Task, tried: Tried) -> Task:
    """The task of a row whose run changes by as many stitches a row as lead to its count in the last one, with the
    count left to that; else the task as it is."""
    text = task.text
    run = text.first <= task.number < text.last and not (text.stated_each or text.stated_at_end)
    if not run or not w.rows or tried.stuck is not None or not tried.off or len(task.stated) != 1:
        return task
    step = tried.row.made - w.base().made
    last = tried.row.made + step * (text.last - task.number)
    return replace(task, text=replace(text, stated_at_end=True)) if step and last == task.stated[0].count else task


def from_hook(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """The ops of a first row that begins in "4th ch", with that counted from the hook."""
    at = next((n for n, op in enumerate(ops) if not isinstance(op, Act)), len(ops))
    slip = next((n for n, op in enumerate(ops[:at]) if isinstance(op, Act) and _slips_in_2nd(op)), None)
    if slip is not None and isinstance(joined := ops[slip], Act) and joined.place is not None:
        hooked = Place("hook", Noun("ch"), nth=joined.place.nth)
        return (*ops[:slip], Make("sl st", 1, (hooked,), at=joined.at), *ops[slip + 1 :])
    first = ops[at] if at < len(ops) else None
    if not isinstance(first, Make | Into) or not first.places:
        return ops
    place = first.places[0]
    if place != Place("next", Noun("ch"), nth=place.nth, hold=place.hold) or place.nth < 2 or place.bare:
        return ops
    hooked = Place("hook", Noun("ch"), nth=place.nth, hold=place.hold)
    return (*ops[:at], replace(first, places=(hooked, *first.places[1:])), *ops[at + 1 :])


def _slips_in_2nd(op: Act) -> bool:
    """ "Sl st in 2nd ch", which joins no yarn there where a row begins so on its foundation chain."""
    place = op.place if (op.name, op.text) == ("yarn", "yarn") else None
    if place is None or place.which != "nth" or place.of is None:
        return False
    return place.of.which == "beg" and place.nth > 1


#: Chains that turn and count for nothing (common practice, no source).
_TURN = {"sc": (1,), "hdc": (1, 2), "dc": (2,)}


def past_turning(ops: tuple[Op, ...], left: int | None) -> Iterator[tuple[Op, ...]]:
    """The ops of a first row with the chains passed over that its first stitch is turned with, where it does not say
    itself where it begins; only as many as it leaves, where that is known."""
    first: Op | None = next((op for op in ops if not isinstance(op, Act)), None)
    while isinstance(first, Star | Times) and first.ops:
        first = first.ops[0]
    if not isinstance(first, Make) or any(p.which != "next" or p.nth or p.of or p.row for p in first.places):
        return
    for turning in _TURN.get(height_of(first.stitch) or first.stitch, ()):
        if left in (None, turning):
            yield (Skip((Place("first", Noun("ch"), count=turning),)), *ops)
