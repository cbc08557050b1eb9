"""A row may tell how one below it was meant: what that one left open is then read so that this one comes out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ...errors import Note
from ...pattern.tree import Again, Op, RowText, walk
from ..cloth.fabric import WorkedRow
from ..cloth.wording import sts
from . import reporting, trying
from .working import Task, Tried, Working

#: So many rows further down are looked at.
REACH = 3

Others = tuple[tuple[Op, ...], ...]


def settle(w: Working, task: Task, tried: Tried, others: Others) -> Tried:
    """The row as it goes over another reading of a row below that is as good in itself, the nearest first; else as it
    was tried. Only where all rows between go as well, with the counts they state."""
    if not tried.faults or w.broken or w.spare is not None:
        return tried
    for back in range(1, min(REACH, len(w.rows)) + 1):
        found = _over_another(w, len(w.rows) - back, task, others)
        if found is not None:
            return found
    return tried


def _over_another(w: Working, at: int, task: Task, others: Others) -> Tried | None:
    kept, ways = w.rows[at:], w.directions[at:]
    below, below_others = w.tasks[at]
    del w.rows[at:], w.directions[at:]
    for other in list(trying.faultless(w, below, below_others)):
        if other.row.made == kept[0].row.made:
            continue
        w.rows.append(replace(kept[0], row=other.row))
        w.directions.append(ways[0])
        last = _worked_on(w, at, kept, ways, (task, others))
        if last is not None:
            says = f"read so that it makes {sts(other.row.made)}: only so does {task.label} come out"
            w.notes.append(Note(below.label, says, below.text.line))
            return last
        del w.rows[at:], w.directions[at:]
    w.rows += kept
    w.directions += ways
    return None


def _worked_on(
    w: Working, at: int, kept: list[WorkedRow], ways: list[int], last: tuple[Task, Others]
) -> Tried | None:
    """The rows above row `at` worked again as far as the last, which is not kept; None where one does not go."""
    for laid, way, (task, others) in zip(kept[1:], ways[1:], w.tasks[at + 1 :], strict=True):
        tried = trying.best(w, task, others)
        if tried.faults:
            return None
        w.rows.append(replace(laid, row=tried.row))
        w.directions.append(way)
    tried = trying.best(w, *last)
    return None if tried.faults else tried


def told_ahead(w: Working, task: Task, tried: Tried, above: Sequence[RowText]) -> Tried:
    """A round whose last repetition breaks off where the round ends, if the next row, which states its count, comes out
    over that; else the row as it was tried. `above` are the rows to come."""
    following = above[0] if above else None
    if not tried.faults or w.broken or following is None or not following.stated or following.last > following.first:
        return tried
    if following.begins is not None or any(isinstance(op, Again) for op in walk(following.ops)):
        return tried
    short = trying.cut_short(w, task)
    if short is None:
        return tried
    w.rows.append(WorkedRow(task.label, task.number, short.row, task.text.side, "", False, task.text.is_round))
    w.directions.append(task.direction)
    again = trying.best(w, Task(following, task.number + 1, following.label, following.ops, task.direction), ())
    del w.rows[-1], w.directions[-1]
    return replace(short, told_by=following.label) if not again.faults else tried


def blame(w: Working, task: Task, tried: Tried, others: Others) -> Tried:
    """The row over the one below as usual practice reads that, where only a count spoke for another reading and the row
    comes out over none but the usual one: then that count is wrong. Else the row as it was tried."""
    usual = w.against_usual
    if usual is None or not tried.faults or w.broken or not w.rows:
        return tried
    kept = w.rows[-1]
    w.rows[-1] = replace(kept, row=usual.row)
    again = trying.best(w, task, others)
    if again.faults:
        w.rows[-1] = kept
        return tried
    below = w.tasks[-1][0]
    w.notes[:] = [note for note in w.notes if (note.where, note.line) != (below.label, below.text.line)]
    reporting.counts_off(w, below, usual)
    w.proved[-1] = "no"
    return again
