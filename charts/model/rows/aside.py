"""Words of a row that are not understood and name no work: set aside where the row proves itself without them.

A reader of print goes on past "in each st for scallop" when the row comes out. So does this tool, where the row states
how many stitches it makes, makes exactly these, and uses up the row below; and it says so. Words that only tell a place
again ("in same sp of first 2 dc") are set aside where the row states no count, too, if it uses up the row below. Else
they stay problems.
"""

from __future__ import annotations

from ...errors import Note, Problem
from ...pattern.lexicon import height_of
from .working import Task, Tried, Working


def proved(w: Working, task: Task, tried: Tried, problems: tuple[Problem, ...]) -> bool:
    """Whether a row comes out as counted without its words that were not understood; says so once, or what is wrong."""
    comes_out = not (tried.faults or tried.left or tried.replaced)
    proves = comes_out and (_counts_all(task, tried) if task.stated else True)
    for found in problems:
        if proves:
            says = f'not understood and set aside: "{_words(found)}"; the row comes out {_how(task)} without it'
            note = Note(task.text.label, says, found.line, found.column)
            w.notes += [note] if note not in w.notes else []
        elif found not in w.problems:
            w.problems.append(found)
    return proves


def _how(task: Task) -> str:
    return "as counted" if task.stated else "even"


def _counts_all(task: Task, tried: Tried) -> bool:
    """Whether the stated count holds all stitches of the row."""
    plain = [part.count for part in task.stated if part.noun.name == "st" or height_of(part.noun.name)]
    return bool(plain) and tried.row.made in (plain[0], sum(plain))


def _words(found: Problem) -> str:
    return " ".join(found.text[found.column - 1 : found.column - 1 + found.length].split())
