"""The whole piece: the sections' rows numbered through, the first worked into the foundation, all worked.

Where two sections meet, the width is kept: over chains a row is read so, and a section that leaves another width is a
problem of the row that stands on it.
"""

from __future__ import annotations

import re

from ...errors import PatternError, Problem
from ...made_late import replace
from ...pattern.file.records import Pattern
from ...pattern.tree import Noun, RowText, Start, Stated, WrittenPattern
from ...pattern.written.document import Reading
from ..cloth.fabric import Fabric
from ..cloth.foundation import into_foundation, on_ring
from ..multiples.multiple import repeated_over
from ..rows.work import work_reading
from ..rows.working import Worked
from ..sizing.plan import Plan, SectionPlan
from .read import Read
from .shaped import shaped_rows
from .texts import SectionRows, in_file


def piece_of(read: Read, plan: Plan, pattern: Pattern) -> WrittenPattern:
    """The piece as one written pattern, its rows numbered through; PatternError where a section cannot be shaped."""
    rows: list[RowText] = []
    crowned = any(section.section.length == "crown" for section in read.sections[:1])
    below = 0 if crowned else plan.stitches
    for part, section in zip(plan.sections, read.sections, strict=True):
        for n, written in enumerate(_rows_of(section, part, below, read, pattern, first=not rows)):
            number = part.first_row + n
            label = f"{'Rnd' if written.is_round else 'Row'} {number}"
            side = "RS" if number % 2 or written.is_round else "WS"
            rows.append(replace(written, label=label, first=number, last=number, side=side))
        below = part.counts(plan.stitches)[-1]
    if crowned:
        return WrittenPattern(read.terms, Start("magic ring"), tuple(rows), read.specials)
    if rows and rows[0].is_round:
        rows[0] = on_ring(rows[0])
        start = Start("ring", plan.foundation, "ch", (plan.multiple_of, plan.multiple_plus))
        return WrittenPattern(read.terms, start, tuple(rows), read.specials)
    if rows:
        first = read.sections[0]
        repeats = plan.stitches >= first.multiple.least + first.multiple.of
        rows[0] = into_foundation(rows[0], first.text.row_kinds[0], repeats=repeats)
    start = Start(
        "chain",
        plan.foundation,
        "ch",
        (plan.multiple_of, (plan.multiple_plus + plan.chain_plus) % max(plan.multiple_of, 1)),
    )
    return WrittenPattern(read.terms, start, tuple(rows), read.specials)


def _rows_of(
    section: SectionRows, part: SectionPlan, below: int, read: Read, pattern: Pattern, *, first: bool
) -> tuple[RowText, ...]:
    """A section's rows, each with the count that settles how it is read, over the `below` stitches before it."""
    if part.widths:
        return shaped_rows(section, part.widths, below, (read.terms, read.specials), pattern)
    widths = _widths_of(section, below, read, first=first)
    places = [_written(section, n) for n in range(part.rows)]
    return tuple(replace(section.rows[at], stated=widths[at]) for at in places)


def _widths_of(section: SectionRows, stitches: int, read: Read, *, first: bool) -> tuple[tuple[Stated, ...], ...]:
    """The count that each written row is to make, where that settles how it is read; () where nothing is open.

    A section after the `first` begins on what that made: its first row makes what it makes over plain stitches.
    """
    lead = min(section.section.repeat_from, len(section.rows)) - 1
    worked = repeated_over(section.rows, stitches, read.terms, read.specials, lead)
    widths = [row.stated for row in worked.pattern.rows[: len(section.rows)]]
    if not first and not worked.problems:
        widths[0] = (Stated(worked.fabric.rows[0].row.made, Noun("st")),)
    return tuple(widths)


def work_piece(read: Read, plan: Plan, pattern: Pattern) -> tuple[WrittenPattern, Fabric]:
    """The piece worked row by row, each row named with its section and colour, the yarn cut after the last (finishing
    begins so); PatternError if one does not go."""
    piece = piece_of(read, plan, pattern)
    worked = work_reading(Reading(piece))
    if worked.problems:
        raise PatternError([_in_piece(worked, read, plan, pattern)])
    names = [(part.name, colour) for part in plan.sections for colour in part.colours]
    rows = tuple(
        replace(row, section=name, colour=colour) for row, (name, colour) in zip(worked.fabric.rows, names, strict=True)
    )
    return piece, replace(worked.fabric, rows=(*rows[:-1], replace(rows[-1], cut=True)))


def _in_piece(worked: Worked, read: Read, plan: Plan, pattern: Pattern) -> Problem:
    """The first problem of the whole piece, at the words of its section.

    Rows after it stand on what it makes, so theirs are not told.
    """
    problem = worked.problems[0]
    number = int(next(iter(re.findall(r"\d+", problem.where)), "1"))
    at = max(i for i, part in enumerate(plan.sections) if part.first_row <= number or i == 0)
    part, section = plan.sections[at], read.sections[at]
    nth = number - part.first_row
    row = _written(section, nth)
    if nth == 0 and at:
        problem = _over_the_section_before(problem, worked, number, plan.sections[at - 1].name)
    if not problem.line:
        text = section.rows[row]
        problem = replace(problem, line=text.line, column=1, length=max(len(text.text), 1))
    placed = in_file(problem, section.section, pattern)
    return replace(placed, where=f"{part.name}, Row {row + 1} (row {number} of the piece)")


def _written(section: SectionRows, nth: int) -> int:
    """Which written row (from 0) a section's row `nth` (from 0) is."""
    lead = min(section.section.repeat_from, len(section.rows)) - 1
    return nth if nth < lead else lead + (nth - lead) % (len(section.rows) - lead)


def _over_the_section_before(problem: Problem, worked: Worked, number: int, before: str) -> Problem:
    """What is wrong where two sections meet, said so: the section before leaves another width, or spaces."""
    row, below = worked.fabric.rows[number - 1], worked.fabric.rows[number - 2]
    width = f'section "{before}" leaves {below.row.made} stitches'
    width += f" and {below.row.chains} chains" if below.row.chains else ""
    stated = worked.pattern.rows[number - 1].stated
    says = problem.says
    told = re.match(r"the row makes (\d+) ", says)
    made = int(told[1]) if told else row.row.made
    if stated and made not in (stated[0].count, stated[0].count - row.row.chains):
        says = f"it makes {made} stitches, and {stated[0].count} keep the width"
    remedy = (
        f'end section "{before}" with a row that leaves {stated[0].count if stated else "the whole width"} '
        'stitches (ends = "whole repeat", or one row more), or work this row into every stitch and chain'
    )
    return replace(problem, says=f"{says}; {width}", remedy=remedy)
