"""The sections of a pattern file: their words read, their multiple found, and the whole piece worked.

The first section's first row is worked into the foundation: its turning chain becomes the foundation's extra chains,
and its first stitch goes into the chain after them.
"""

from __future__ import annotations

from ...errors import Note, PatternError, Problem
from ...made_late import dataclass, replace
from ...measure import round_half_up
from ...pattern.file.records import Pattern, Section
from ...pattern.file.records import Special as SpecialWords
from ...pattern.notation.words import Words
from ...pattern.tree import RowText, Special
from ...pattern.written.agreed.definitions import define, spellings
from ...pattern.written.document import Reading, read_written
from ..cloth.foundation import chain_plus
from ..multiples.multiple import Multiple, multiple_of, repeated_over
from ..multiples.uneven import stuck_over, uneven_problem
from ..rows.working import Worked
from ..sizing.raised import near_row, raised_row, row_kind
from ..sizing.request import SectionText
from .colour_turns import stripes_of, without_stripes
from .counts import check_counts, planned_width
from .texts import SectionRows, each_row, in_file


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
    unclear = [s for s in pattern.specials if s.name not in {known.name for known in specials}]
    notes: list[Note] = []
    made = []
    for section in pattern.sections:
        reading = read_written(section.work.text, terms, specials)
        problems += [in_file(p, section, pattern) for p in reading.problems if not _of_a_special(p, unclear)]
        notes += [
            replace(n, where=f"{section.name}, {n.where}", line=section.work.at(n.line)[0]) for n in reading.notes
        ]
        if not reading.problems:
            first = section is pattern.sections[0]
            notes += _chains_said(reading.pattern.rows, section)
            rows, repeating = each_row(_without_chains(reading), section, pattern, problems, first=first)
            made.append((repeating, rows))
    if problems:
        raise PatternError(problems)
    known: dict[tuple[tuple[RowText, ...], int], Multiple] = {}
    sections = tuple(_section_rows(section, rows, terms, specials, pattern, problems, known) for section, rows in made)
    sections = tuple(_coloured(s, pattern, problems, notes) if s is not None else None for s in sections)
    if problems:
        raise PatternError(problems)
    whole = tuple(s for s in sections if s is not None)
    planned = planned_width(pattern, whole) if any(row.stated for _, rows in made for row in rows) else 0
    for of_section, (_, written) in zip(whole, made, strict=True):
        check_counts(of_section, written, planned, (terms, specials), pattern, problems, notes)
    if problems:
        raise PatternError(problems)
    return Read(terms, specials, whole, tuple(notes))


def _chains_said(rows: tuple[RowText, ...], section: Section) -> list[Note]:
    """The chains that a section's words begin with, which the measurements and not the words settle."""
    said = [row.begins for row in rows if row.begins is not None and row.begins.how == "chain"]
    says = "is not counted: the chain is reckoned from the measurements"
    return [
        Note(f"section {section.name}", f'"{start.text.strip(" .")}" {says}', section.work.at(start.line)[0])
        for start in said
    ]


def _without_chains(reading: Reading) -> Reading:
    """A section's words without the chains that they begin with: its rows stand on those of the piece."""
    rows = tuple(replace(row, begins=None) for row in reading.pattern.rows)
    return replace(reading, pattern=replace(reading.pattern, rows=rows))


def _of_a_special(problem: Problem, unclear: list[SpecialWords]) -> bool:
    """Whether a word is not known only because its own explanation could not be read, which is told already."""
    names = [name.lower() for special in unclear for name in (special.name, special.abbreviation) if name]
    return problem.kind == "not notation" and any(f'"{name}"' in problem.says.lower() for name in names)


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
        words = Words(terms, spellings(known, terms))
        found = define(special.name, special.abbreviation or special.name, special.words, words, known, special.line)
        if found is None:
            problems.append(_unclear(special, pattern))
            continue
        known[found.abbreviation] = found
    return tuple(known.values())


def _unclear(special: SpecialWords, pattern: Pattern) -> Problem:
    """A special stitch whose words say nothing: at those words, which stand on its line or below it."""
    lines = enumerate(pattern.lines[special.line - 1 :], special.line)
    own = (special.line, pattern.line(special.line))
    line, text = next(((n, text) for n, text in lines if special.words in text), own)
    column = max(text.find(special.words), 0) + 1
    says = f'"{special.words}" says nothing that can be worked'
    remedy = 'say it in known stitches, as "dc4tog in one st"'
    where = f'special stitch "{special.name}"'
    length = len(special.words) if special.words in text else 1
    return Problem("not notation", where, says, remedy, line, column, text, length, pattern.file)


def _section_rows(
    section: Section,
    rows: tuple[RowText, ...],
    terms: str,
    specials: tuple[Special, ...],
    pattern: Pattern,
    problems: list[Problem],
    known: dict[tuple[tuple[RowText, ...], int], Multiple],
) -> SectionRows | None:
    bare = tuple(replace(row, stated=()) for row in rows)
    lead = min(section.repeat_from, len(bare)) - 1
    found = known.get((bare, lead)) or multiple_of(bare, terms, specials, lead)
    if found is None:
        uneven = uneven_problem(bare, _wanted(pattern), terms, specials, lead)
        problems.append(in_file(uneven, section, pattern))
        return None
    known[bare, lead] = found
    sample = repeated_over(bare, _sample(found), terms, specials, lead)
    return SectionRows(section, bare, found, _text_of(bare, sample, found, lead))


def _coloured(made: SectionRows, pattern: Pattern, problems: list[Problem], notes: list[Note]) -> SectionRows:
    """A section with the colours that its words name."""
    opening, stripes = stripes_of(made.rows, made.section, pattern, problems, notes)
    if not stripes:
        return made
    text = replace(made.text, opening_stripes=opening, stripes=stripes)
    return replace(made, rows=tuple(map(without_stripes, made.rows)), text=text)


def _wanted(pattern: Pattern) -> int:
    """The stitches that the object asks for, whatever the repeat allows."""
    return round_half_up(_across_mm(pattern) / pattern.gauge.stitch_mm)


def stuck_work(pattern: Pattern) -> tuple[Worked, Problem] | None:
    """The rows of the first section that come out even over no number of stitches, worked as far as they go, and what
    is said of them.

    None where every section's rows do; PatternError where they cannot be read.
    """
    terms = settle_terms(pattern)
    problems: list[Problem] = []
    specials = _specials(pattern, terms, problems)
    for section in pattern.sections:
        reading = read_written(section.work.text, terms, specials)
        if reading.problems:
            return None
        written, repeating = each_row(reading, section, pattern, problems, first=section is pattern.sections[0])
        rows = tuple(replace(row, stated=()) for row in written)
        lead = min(repeating.repeat_from, len(rows)) - 1
        if rows and multiple_of(rows, terms, specials, lead) is None:
            problem = uneven_problem(rows, _wanted(pattern), terms, specials, lead)
            return stuck_over(rows, _wanted(pattern), terms, specials, lead), in_file(problem, section, pattern)
    return None


def _across_mm(pattern: Pattern) -> float:
    """The length that the foundation runs along, by the object."""
    return pattern.object.mm(pattern.object.chain_along)


def _sample(multiple: Multiple) -> int:
    return multiple.least + multiple.of if multiple.of > 1 else max(multiple.least, 6)


def _text_of(rows: tuple[RowText, ...], sample: Worked, multiple: Multiple, lead: int) -> SectionText:
    """What sizing must know of the rows."""
    made = sample.fabric.rows[: len(rows)]
    kinds = tuple(row_kind(row.row) for row in made)
    return SectionText(
        row_kinds=kinds, raised=tuple(raised_row(row.row) for row in made),
        near=tuple(near_row(row.row) for row in made),
        sides=tuple(row.side for row in rows),
        multiple_of=multiple.of, multiple_plus=multiple.plus, least=multiple.least,
        chain_plus=0 if rows[0].is_round else chain_plus(rows[0], kinds[0]), begins=_alike(rows[lead:]), lead=lead,
    )  # fmt: skip


def _alike(repeat: tuple[RowText, ...]) -> int:
    """How many rows at the beginning of the row repeat are worked alike; 1 where all of them are."""
    count = next((n for n, row in enumerate(repeat) if row.ops != repeat[0].ops), 1)
    return max(count, 1)
