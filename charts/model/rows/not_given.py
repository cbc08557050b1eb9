"""What a piece is worked on where the pattern does not say it: an edge that is not given, or the chains or stitches
that the first row's own numbers ask for.
"""

from __future__ import annotations

from ...pattern.lexicon import height_of
from ...pattern.tree import Chain, How, Into, Make, Place, RowText, Skip, Start, Times, walk
from ..cloth import foundation_row
from ..cloth.faults import MOST_TRIED_STARTS
from ..cloth.wording import many
from ..hands import row_end
from . import readings, reporting, trying
from .recovering import so_wide, total
from .working import Task, Tried, Working


def begin(w: Working) -> None:
    """Begin the piece on what it is worked on; where nothing tells that, its rows are not checked until one comes out
    with its stated count."""
    first = w.pattern.rows[0]
    if any(p.where == "Foundation" for p in w.problems):
        w.broken = True
        return
    if first.along:
        _stand_on(w, Start("edge"))
        _say(w, "what it is worked round is not given")
        return
    count = _asked_for(w, first) if first.first <= 1 else 0
    if count:
        what = "chains" if _on_chains(first) else "stitches"
        _say(w, f"the pattern does not say what it begins with; {first.label} asks for {count} {what}")
        return
    _check_alone(w, first)
    w.start = None
    w.broken = True
    w.unchecked = f"the pattern does not say what {'it' if not first.part else first.part} begins with"
    _say(w, f"{w.unchecked}; {first.label} is not checked")


def _check_alone(w: Working, first: RowText) -> None:
    """Say where a first row's own numbers do not make what it states, on whatever it stands: "7 sc (8)"."""
    work = [op for op in walk(first.ops) if isinstance(op, Make | Into | Times)]
    plain = all(isinstance(op, Make) and height_of(op.stitch) == op.stitch for op in work)
    task = Task(first, first.first, first.label, first.ops, 1)
    made = sum(op.count * sum(p.count for p in op.places or (_HERE,)) for op in work if isinstance(op, Make))
    if not first.stated or first.first > 1 or not work or not plain or any(map(_goes_on, walk(first.ops))):
        return
    if len(work) == 1 and total(task) != made and not any(isinstance(op, Chain) for op in walk(first.ops)):
        part = first.stated[0]
        says = f"the row makes {made} {many(part.noun, made, w.pattern.terms)}; the count says {part.count}"
        line, column, length = part.at
        remedy = f"change the count to {made}, or the row to make {part.count}"
        reporting.problem(w, "impossible", first.label, says, remedy, line, column, length)


#: Where a stitch goes whose place is not said.
_HERE = Place("next")


def round_tube(w: Working, rows: int) -> None:
    """Begin the piece round the open edge of so many rows: a stitch to a row, or two to a tall one, where the first
    round comes out so; else on an edge of which nothing is known (common practice, no source)."""
    first = w.pattern.rows[0]
    for count in (rows, 2 * rows) if rows else ():
        if count == rows or first.stated:
            task = Task(first, first.first, first.label, first.ops, 1)
            if not _over(w, task, "over", count).faults:
                _say(w, f"{first.label} goes round the ends of the {rows} rows before it, over {count} stitches")
                return
    _stand_on(w, Start("edge"))
    _say(w, f"how many stitches {first.label} takes up round the ends of the rows is not said")


def _say(w: Working, says: str) -> None:
    w.out.assumed = (*w.out.assumed, says)


def _stand_on(w: Working, start: Start) -> None:
    w.start = start
    w.foundation, w.chains = foundation_row.foundation(start, w.pattern.rows[0].ops)
    w.cache.clear()


def _asked_for(w: Working, first: RowText) -> int:
    """The fewest chains or stitches over which the first row comes out even and gives its stated count; 0 for none."""
    if not first.stated and any(_goes_on(op) for op in walk(first.ops)):
        return 0
    how: How = "chain" if _on_chains(first) else "over"
    task = Task(first, first.first, first.label, first.ops, 1)
    most = min(4 * max((part.count for part in first.stated), default=10) + 20, MOST_TRIED_STARTS)
    least = 2 if how == "chain" else 1
    if any(map(_goes_on, walk(first.ops))):
        return so_wide(lambda count: _over(w, task, how, count), total(task), range(least, most))
    tried = _by_number(w, task, how, least, most)
    return next((count for count in tried if not _over(w, task, how, count).faults), 0)


def _by_number(w: Working, task: Task, how: How, least: int, most: int) -> range:
    """The counts that a row which says every stitch by number may go over: the one that it uses of the widest, where it
    comes to its end there and on that one."""
    wide = _over(w, task, how, most - 1)
    used = most - 1 - wide.left
    ends = wide.stuck is None or isinstance(wide.stuck, row_end.LeftOver)
    if ends and used >= least and _over(w, task, how, used).stuck is None:
        return range(used, used + 1)
    return range(least, most)


def _over(w: Working, task: Task, how: How, count: int) -> Tried:
    _stand_on(w, Start(how, count))
    return trying.best(w, task)


def _on_chains(first: RowText) -> bool:
    places = [p for op in walk(first.ops) if isinstance(op, Make | Into | Skip) for p in op.places]
    return readings.hook(first.ops) is not None or any(p.noun.name == "ch" for p in places)


def _goes_on(op: object) -> bool:
    """Whether a clause goes as far as there is something to work into."""
    each = isinstance(op, Make | Into | Skip) and any(p.which in ("each", "last") for p in op.places)
    return each or getattr(op, "more", 0) is None or (isinstance(op, Times) and not op.times)
