"""A row may tell how one below it was meant: what that one left open is then read so that this one comes out."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import fields, is_dataclass
from typing import Any

from ...errors import Note
from ...made_late import replace
from ...pattern.lexicon import height_of
from ...pattern.tree import Act, Again, Op, RowText, Span, Star, walk
from ..cloth.fabric import Row, WorkedRow
from ..cloth.wording import sts
from . import readings, reporting, trying
from .working import Task, Tried, Working

#: So many rows further down are looked at.
REACH = 3

#: So many rows further down one number is looked for, and so many numbers of a row are tried.
NEAR, MOST_NUMBERS = 2, 60

Others = tuple[tuple[Op, ...], ...]


def settle(w: Working, task: Task, tried: Tried, others: Others) -> Tried:
    """The row as it goes over another reading of a row below that is as good in itself, the nearest first; else as it
    was tried. Only where all rows between go as well, with the counts they state. A round whose last repetition may
    break off, and then leaves no space, says nothing of the rows below."""
    if not tried.faults or w.broken or w.spare is not None:
        return tried
    stood = list(w.rows), list(w.directions), len(w.notes)
    for back in range(1, min(REACH, len(w.rows)) + 1):
        found = _over_another(w, len(w.rows) - back, task, others)
        if found is None:
            continue
        stands = list(w.rows), list(w.directions), list(w.notes)
        w.rows[:], w.directions[:] = stood[:2]
        del w.notes[stood[2] :]
        short = trying.ending_short(w, task)
        if short is not None and trying.works_all_spaces(short.row, w.base()):
            return short
        w.rows[:], w.directions[:], w.notes[:] = stands
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
        begun = readings.opening_of(below.ops)
        known, skipped = dict(w.settled), dict(w.skipped_as)
        if at == 0 and (hooked := readings.hook(below.ops)) is not None:
            w.skipped_as[hooked[1] - 1] = tuple(kind for kind in other.opening or () if height_of(kind))
        if begun is not None and other.choice.chain is not None:
            w.settled.setdefault(begun, other.choice.chain)  # rows that begin alike are read alike
        last = _worked_on(w, at, kept, ways, (task, others))
        if last is not None:
            says = f"read so that it makes {sts(other.row.made)}: only so does {task.label} come out"
            w.notes.append(Note(below.label, says, below.text.line))
            return last
        w.settled, w.skipped_as = known, skipped
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
    short = trying.ending_short(w, task)
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
    if usual is None or not tried.faults or w.broken or not w.rows or not readings.rises(w.tasks[-1][0].ops):
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


def one_number(w: Working, task: Task, tried: Tried, others: Others) -> Tried:
    """The row as it goes over a row below with one of its numbers one more or one less, where that still makes what it
    states and is no less regular, as with the sizes of chains and shells that no count holds: it is told there. Where
    one number of the row itself may be what is wrong, only if that one alone breaks the rule of its row. Else the row
    as it was tried."""
    if not tried.faults or w.broken or w.spare is not None:
        return tried
    if tried.stuck is not None and tried.stuck.kind != "impossible":
        return tried
    own = tried.stuck is None and len(tried.off) == 1
    own = own or any(not trying.best(w, way, ()).faults for way, *_ in _ways(w, task))
    for back in range(1, min(NEAR, len(w.rows)) + 1):
        found = _over_changed(w, len(w.rows) - back, task, others, breaks_rule=own)
        if found is not None:
            return found
    return tried


def _over_changed(w: Working, at: int, task: Task, others: Others, *, breaks_rule: bool) -> Tried | None:
    """The row over row `at` with one of its numbers changed; `breaks_rule`: to one that makes it more regular."""
    kept, ways = w.rows[at:], w.directions[at:]
    below = w.tasks[at][0]
    if w.proved[at] == "no" or at in w.not_worked or not below.stated:
        return None
    del w.rows[at:], w.directions[at:]
    begun = trying.best(w, below, w.tasks[at][1]).choice.chain
    for way, span, old, new in _ways(w, below):
        other = trying.best(w, way, ())
        if other.choice.chain != begun:  # another count of the beginning chain would make up for the number
            continue
        if other.faults or other.usual is not None or _variety(other.row) + breaks_rule > _variety(kept[0].row):
            continue
        w.rows.append(replace(kept[0], row=other.row))
        w.directions.append(ways[0])
        last = _worked_on(w, at, kept, ways, (task, others))
        if last is not None:
            _tell(w, below, task, (span, old, new))
            if below.number in w.by_number:  # rows told by it are told by what was meant
                told = (way.ops, w.by_number[below.number][1])
                w.by_number[below.number] = w.by_part.setdefault(below.text.part, {})[below.number] = told
            return last
        del w.rows[at:], w.directions[at:]
    w.rows += kept
    w.directions += ways
    return None


def _variety(row: Row) -> int:
    """How many sorts of groups and of chains a row has."""
    groups = {tuple((s.kind, s.chains) for s in row.stitches[a : a + n]) for a, n, _ in row.groups}
    return len(groups) + len({s.chains for s in row.stitches if s.role == "chain"})


def _tell(w: Working, below: Task, task: Task, change: tuple[Span, int, int]) -> None:
    span, old, new = change
    key = (span[0], f"{span[1]} {old} {new}")
    if key not in w.reported:
        w.reported.add(key)
        says = f"{task.label} does not come out over this row; with {new} for {old} here both do"
        reporting.problem(w, "impossible", below.label, says, f"write {new}", *span)


def _ways(w: Working, task: Task) -> Iterator[tuple[Task, Span, int, int]]:
    """The row with one number of its words one more or one less, where that stands, and both numbers."""
    numbers = 0
    for at, op in enumerate(task.ops):
        for other, span, old, new in _changed(op, getattr(op, "at", (0, 0, 0))):
            if numbers < MOST_NUMBERS and _said(w, span, old):
                numbers += 1
                ops = (*task.ops[:at], other, *task.ops[at + 1 :])
                yield replace(task, ops=w.canonical.setdefault(ops, ops)), span, old, new


def _said(w: Working, span: Span, number: int) -> bool:
    """Whether a number stands, in figures, in the words at a place."""
    line, column, length = span
    words = "\n".join(w.lines[line - 1 :])[column - 1 : column - 1 + length] if line else ""
    return re.search(rf"(?<!\d){number}(?!\d)", words) is not None


#: The numbers of what a row tells that its words say.
_NUMBERS = frozenset(("count", "nth", "size", "more", "times"))


def _changed(part: Any, span: Span) -> Iterator[tuple[Any, Span, int, int]]:
    """A part of a row's tree with one of its numbers one more or one less."""
    span = part.at if getattr(part, "at", (0, 0, 0))[0] else span
    if isinstance(part, Act) and part.place is None:
        return
    for held in fields(part):
        value = getattr(part, held.name)
        if held.name in _NUMBERS and isinstance(value, int) and value > 0:
            more = 1 if isinstance(part, Star) else 0  # "7 more times"
            for new in (value + 1, value - 1):
                if new > 0 or more:
                    yield replace(part, **{held.name: new}), span, value, new
        elif is_dataclass(value):
            for other, *rest in _changed(value, span):
                yield replace(part, **{held.name: other}), *rest
        elif isinstance(value, tuple) and value and all(map(is_dataclass, value)):
            for at, inner in enumerate(value):
                for other, *rest in _changed(inner, span):
                    yield replace(part, **{held.name: (*value[:at], other, *value[at + 1 :])}), *rest
