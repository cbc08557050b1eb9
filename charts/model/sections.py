"""The sections of a pattern file: their words read, their multiple found, and the whole piece worked.

The first section's first row is worked into the foundation: its turning chain becomes the foundation's extra chains,
and its first stitch goes into the chain after them.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from ..errors import Note, PatternError, Problem
from ..measure import round_half_up
from ..pattern.document import Reading, read_written
from ..pattern.records import Pattern, Section
from ..pattern.specials import define
from ..pattern.tree import (
    Again,
    Noun,
    RowText,
    Special,
    Start,
    Stated,
    WrittenPattern,
)
from .foundation import chain_plus, into_foundation
from .grid import Fabric
from .multiple import Multiple, multiple_of, repeated_over
from .plan import Plan
from .raised import raised_row, row_kind
from .sizing_request import SectionText
from .uneven import uneven_problem
from .work import Worked, work_reading


@dataclass(frozen=True, slots=True)
class SectionRows:
    """A section's written rows, one a row as they repeat, and the multiple they need."""

    section: Section
    rows: tuple[RowText, ...]
    multiple: Multiple
    text: SectionText


@dataclass(frozen=True, slots=True)
class Read:
    """All that was read of a pattern file's rows."""

    terms: str
    specials: tuple[Special, ...]
    sections: tuple[SectionRows, ...]
    notes: tuple[Note, ...] = ()


def read_sections(pattern: Pattern) -> Read:
    """Read every section's rows; PatternError with all that is wrong in them, at their places in the file."""
    terms = settle_terms(pattern)
    problems: list[Problem] = []
    specials = _specials(pattern, terms, problems)
    notes: list[Note] = []
    made = []
    for section in pattern.sections:
        reading = read_written(section.work.text, terms, specials)
        problems += [_in_file(p, section, pattern) for p in reading.problems]
        notes += [
            replace(n, where=f"{section.name}, {n.where}", line=section.work.at(n.line)[0]) for n in reading.notes
        ]
        if not reading.problems:
            rows = _each_row(reading, section, pattern, problems)
            made.append((section, rows))
    if problems:
        raise PatternError(problems)
    sections = tuple(_section_rows(section, rows, terms, specials, pattern, problems) for section, rows in made)
    if problems:
        raise PatternError(problems)
    return Read(terms, specials, tuple(s for s in sections if s is not None), tuple(notes))


def settle_terms(pattern: Pattern) -> str:
    """The file's terms, else what its rows settle; PatternError where they settle nothing."""
    if pattern.terms:
        return pattern.terms
    reading = read_written("\n".join(s.work.text for s in pattern.sections))
    unclear = [p for p in reading.problems if p.where == "Terms"]
    if unclear:
        raise PatternError(
            [
                replace(
                    unclear[0],
                    remedy='write terms = "US" or terms = "UK" in the file',
                    line=1,
                    text=pattern.line(1),
                    file=pattern.file,
                )
            ]
        )
    return reading.pattern.terms


def _specials(pattern: Pattern, terms: str, problems: list[Problem]) -> tuple[Special, ...]:
    known: dict[str, Special] = {}
    for special in pattern.specials:
        found = define(special.name, special.abbreviation or special.name, special.words, terms, known, special.line)
        if found is None:
            problems.append(
                Problem(
                    "not notation",
                    f'special stitch "{special.name}"',
                    f'"{special.words}" says nothing that can be worked',
                    'say it in known stitches, as "dc4tog in one st"',
                    special.line,
                    1,
                    pattern.line(special.line),
                    file=pattern.file,
                )
            )
            continue
        known[found.abbreviation] = found
    return tuple(known.values())


def _in_file(problem: Problem, section: Section, pattern: Pattern) -> Problem:
    """A problem found in a section's words, at its place in the file."""
    line, column = section.work.at(problem.line, problem.column)
    if not line:
        line, column = section.place.line, section.place.column
    return replace(
        problem,
        where=f"{section.name}, {problem.where}",
        line=line,
        column=column,
        text=pattern.line(line),
        file=pattern.file,
    )


def _each_row(reading: Reading, section: Section, pattern: Pattern, problems: list[Problem]) -> tuple[RowText, ...]:
    """One text a row: runs and repeats of rows written out."""
    by_number: dict[int, RowText] = {}
    out: list[RowText] = []
    for text in reading.pattern.rows:
        if text.is_round:
            problems.append(
                _in_file(
                    Problem(
                        "impossible",
                        text.label,
                        "a section of a sized piece is worked in rows, not in rounds",
                        "write it in rows",
                        text.line,
                        1,
                    ),
                    section,
                    pattern,
                )
            )
        for n in range(max(text.last - text.first + 1, 1)):
            number = text.first + n if text.first else len(out) + 1
            again = next((op for op in text.ops if isinstance(op, Again) and op.first > 0), None)
            source = by_number.get(again.first + n % (again.last - again.first + 1)) if again else text
            if source is None:
                problems.append(
                    _in_file(
                        Problem(
                            "impossible",
                            text.label,
                            "the row to repeat is not there",
                            "name a row of this section",
                            text.line,
                            1,
                        ),
                        section,
                        pattern,
                    )
                )
                continue
            row = replace(
                source,
                label=f"Row {len(out) + 1}",
                first=len(out) + 1,
                last=len(out) + 1,
                side=text.side,
                stated=text.stated,
                line=text.line,
            )
            by_number[number] = row
            out.append(row)
    return tuple(out)


def _section_rows(
    section: Section,
    rows: tuple[RowText, ...],
    terms: str,
    specials: tuple[Special, ...],
    pattern: Pattern,
    problems: list[Problem],
) -> SectionRows | None:
    bare = tuple(replace(row, stated=()) for row in rows)
    lead = min(section.repeat_from, len(bare)) - 1
    found = multiple_of(bare, terms, specials, lead)
    if found is None:
        wanted = round_half_up(_across_mm(pattern) / pattern.gauge.stitch_mm)
        uneven = uneven_problem(bare, wanted, terms, specials, lead)
        problems.append(_in_file(uneven, section, pattern))
        return None
    sample = repeated_over(bare, _sample(found), terms, specials, lead)
    return SectionRows(section, bare, found, _text_of(bare, sample, found))


def _across_mm(pattern: Pattern) -> float:
    """The length that the foundation runs along, by the object."""
    return pattern.object.mm(pattern.object.chain_along)


def _sample(multiple: Multiple) -> int:
    return multiple.least + multiple.of if multiple.of > 1 else max(multiple.least, 6)


def _text_of(rows: tuple[RowText, ...], sample: Worked, multiple: Multiple) -> SectionText:
    """What sizing must know of the rows."""
    made = sample.fabric.rows[: len(rows)]
    kinds = tuple(row_kind(row.row) for row in made)
    return SectionText(
        row_kinds=kinds, raised=tuple(raised_row(row.row) for row in made), sides=tuple(row.side for row in rows),
        multiple_of=multiple.of, multiple_plus=multiple.plus, least=multiple.least,
        chain_plus=chain_plus(rows[0], kinds[0]),
    )  # fmt: skip


# -- the whole piece ------------------------------------------------------------------------------------------------


def piece_of(read: Read, plan: Plan) -> WrittenPattern:
    """The piece as one written pattern, its rows numbered through."""
    rows: list[RowText] = []
    for part, section in zip(plan.sections, read.sections, strict=True):
        widths = _widths_of(section, plan.stitches, read, first=not rows)
        for n in range(part.rows):
            at = _written(section, n)
            written = section.rows[at]
            number = part.first_row + n
            rows.append(
                replace(
                    written,
                    label=f"Row {number}",
                    first=number,
                    last=number,
                    side="RS" if number % 2 else "WS",
                    stated=widths[at],
                )
            )
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
    """The piece worked row by row, each row named with its section and colour; PatternError if one does not go."""
    piece = piece_of(read, plan)
    worked = work_reading(Reading(piece))
    if worked.problems:
        raise PatternError([_in_piece(worked, read, plan, pattern)])
    names = [(part.name, colour) for part in plan.sections for colour in part.colours]
    rows = tuple(
        replace(row, section=name, colour=colour) for row, (name, colour) in zip(worked.fabric.rows, names, strict=True)
    )
    return piece, replace(worked.fabric, rows=rows)


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
    placed = _in_file(problem, section.section, pattern)
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
    if stated and row.row.made not in (stated[0].count, stated[0].count - row.row.chains):
        says = f"it makes {row.row.made} stitches, and {stated[0].count} keep the width"
    remedy = (
        f'end section "{before}" with a row that leaves {stated[0].count if stated else "the whole width"} '
        'stitches (ends = "whole repeat", or one row more), or work this row into every stitch and chain'
    )
    return replace(problem, says=f"{says}; {width}", remedy=remedy)
