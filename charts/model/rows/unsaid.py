"""Rows that are worked round or along what nothing tells the size of: not checked, and no fault."""

from __future__ import annotations

from ...made_late import replace
from ...pattern.tree import Corner, Into, Make, Op, Skip, Star, walk
from ..hands.edges import NOT_GIVEN, UNSAID, unsaid
from .working import Task, Tried, Working


def settle(w: Working, task: Task, tried: Tried) -> Tried:
    """A row that does not come out over the row below, where that is not all that it is worked over: not checked."""
    if task.text.until and not task.ops:
        return replace(tried, stuck=unsaid(), off=())
    if (not tried.faults and task.stated) or not _not_all_below(w, task, tried):
        return tried
    return replace(tried, stuck=unsaid(), off=())


def _not_all_below(w: Working, task: Task, tried: Tried) -> bool:
    if tried.faults and w.on_carried and tried.stuck is not None and tried.stuck.kind != "limit":
        return True
    if tried.faults and any(says_side(op) for op in walk(task.ops)):
        return True
    if not is_along(w, task):
        return False
    return any(_goes_round(op) for op in walk(task.ops)) if task.text.is_round else False


def _goes_round(op: Op) -> bool:
    """Whether a clause goes all along, without a number."""
    if isinstance(op, Make | Into | Skip):
        return any(p.which == "each" and not p.until for p in op.places)
    return isinstance(op, Corner) or (isinstance(op, Star) and op.more is None)


def is_along(w: Working, task: Task) -> bool:
    """Whether a row is worked round or along an edge: nothing else is given, or it says so and lies on a flat piece."""
    how = w.start.how if w.start else ""
    if how in NOT_GIVEN and not w.rows:
        return True
    return task.text.along and bool(w.rows) and w.flat


def is_unsaid(tried: Tried) -> bool:
    """Whether a row is not checked because its number of stitches is not said."""
    return tried.stuck is not None and tried.stuck.kind == UNSAID


def says_side(op: Op) -> bool:
    """Whether a clause goes along a whole edge, however many stitches it takes."""
    return isinstance(op, Make) and any(p.which == "edge" and p.noun.name == "side" for p in op.places)


