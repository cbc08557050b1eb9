"""The written rows of a section, one by one: runs and repeats of rows written out, their numbers one after another,
and the row that the row repeat begins with where the words say it.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import field

from ...errors import Problem
from ...made_late import dataclass, replace
from ...pattern import lexicon
from ...pattern.file.kinds import OBJECT_KINDS
from ...pattern.file.records import Pattern, Section
from ...pattern.notation.plain import plain
from ...pattern.tree import Act, Again, Op, RowText
from ...pattern.written.document import Reading
from ..multiples.multiple import Multiple
from ..sizing.request import SectionText

#: Rows written out in one section, its repeats of rows included; the row repeat itself has no limit of its own.
MOST_WRITTEN = 400

#: "Rep Rows 2 and 3", "repeat last 2 rows": the rows that go on from here.
_GOES_ON = re.compile(
    r"\b(?:rep(?:eat)?|continue|rpt|work)\b[^.;]*?\b(?:rows?\s+(?P<first>\d+)"
    r"(?:\s*(?:-|to|through|thru|and|&)\s*(?:rows?\s*)?(?P<last>\d+))?"
    r"|(?:last|these|previous)\s+(?:(?P<count>\d+|[a-z]+)\s+)?rows?\b)"
)
#: Acts that name a colour.
_COLOURS = ("colour", "yarn", "change", "stripes")
_EVERY = re.compile(r"\b(?:all|every|each)\b")


@dataclass(frozen=True, slots=True)
class SectionRows:
    """A section's written rows, one a row as they repeat, and the multiple they need."""

    section: Section
    rows: tuple[RowText, ...]
    multiple: Multiple
    text: SectionText


def in_file(problem: Problem, section: Section, pattern: Pattern) -> Problem:
    """A problem found in a section's words, at its place in the file."""
    line, column = section.work.at(problem.line, problem.column)
    if not line:
        line, column = section.place.line, section.place.column
    return replace(
        problem,
        where=section.name if problem.where == "Pattern" else f"{section.name}, {problem.where}",
        line=line,
        column=column,
        text=pattern.line(line),
        file=pattern.file,
    )


@dataclass(slots=True)
class _Writing:
    """The rows written out so far: each under its own number, with the line that it stands on."""

    rows: list[RowText] = field(default_factory=list)
    by_number: dict[int, int] = field(default_factory=dict)
    lines: dict[int, int] = field(default_factory=dict)
    last: int = 0

    def add(self, source: RowText, text: RowText, number: int) -> None:
        """One row more, worked as `source` says."""
        at = len(self.rows) + 1
        called = "Rnd" if source.is_round else "Row"
        row = replace(source, label=f"{called} {at}", first=at, last=at, side=text.side, stated=text.stated)
        self.rows.append(replace(row, line=text.line, open_end=False))
        self.by_number[number] = at - 1
        self.last = number

    def of(self, number: int) -> RowText | None:
        at = self.by_number.get(number)
        return self.rows[at] if at is not None else None


def each_row(
    reading: Reading, section: Section, pattern: Pattern, problems: list[Problem], *, first: bool = True
) -> tuple[tuple[RowText, ...], Section]:
    """One text a row, and the section with the row that its row repeat begins with. The `first` section begins with
    Row 1; another may number its rows on from the one before."""
    out = _Writing()
    found: list[Problem] = []
    goes_on: tuple[int, int] | None = None
    for text in reading.pattern.rows:
        if text.is_round != OBJECT_KINDS[pattern.object.kind].rounds:
            ways = ("rounds", "rows") if not text.is_round else ("rows", "rounds")
            says = f"a {pattern.object.kind} is worked in {ways[0]}, not in {ways[1]}"
            found.append(_at(text, "impossible", says, f"write it in {ways[0]}"))
        if len(out.rows) + text.last - text.first >= MOST_WRITTEN:
            says = f"the section has more than {MOST_WRITTEN:,} written rows, which is the most"
            remedy = "write the rows that repeat once; they repeat by themselves to fill the section's length"
            found.append(_at(text, "limit", says, remedy))
            out = _Writing()
            break
        found += _numbering(text, out, first=first)
        goes_on = _add(text, out, found, section)
    problems += [in_file(problem, section, pattern) for problem in found]
    if found or not out.rows:
        return tuple(out.rows), section
    _every_other(reading, out, section)
    goes_on = goes_on or _said_to_go_on(reading, out, section)
    return _repeating(out, goes_on, section)


def _at(text: RowText, kind: str, says: str, remedy: str) -> Problem:
    return Problem(kind, text.label, says, remedy, text.line, 1, length=len(text.label))


def _numbering(text: RowText, out: _Writing, *, first: bool) -> list[Problem]:
    """What is wrong with a row's number: it was there before, or rows before it are missing."""
    if not text.first:
        return []
    numbers = range(text.first, text.last + 1)
    again = next((n for n in numbers if n in out.lines), 0)
    told = bool(out.lines)
    before = max(out.lines, default=0)
    out.lines.update(dict.fromkeys(numbers, text.line))
    if again:
        says = f"Row {again} is written twice"
        return [_at(text, "ambiguous", says, "number the rows one after another, each once")]
    if text.first > before + 1 and (told or first):
        missing = f"Row {before + 1}" + (f" to Row {text.first - 1}" if text.first > before + 2 else "")
        verb = "are" if text.first > before + 2 else "is"
        says = f"{missing} {verb} missing: " + (f"Row {before} stands before it" if told else "the section begins here")
        return [_at(text, "missing", says, "write the rows that are missing, or number the rows one after another")]
    return []


def _add(text: RowText, out: _Writing, found: list[Problem], section: Section) -> tuple[int, int] | None:
    """Write out a row or a run of rows. What an open end says of the rows after it is handed back: those that repeat
    from there on."""
    again = next((op for op in text.ops if isinstance(op, Again) and op.first > 0), None)
    onwards = text.open_end and not _of_every_other(text, section)
    if onwards and again is not None and max(again.first, again.last) <= out.last:
        return again.first, max(again.first, again.last)
    for n in range(max(text.last - text.first + 1, 1)):
        number = text.first + n if text.first else out.last + 1
        rows = again.listed or range(again.first, again.last + 1) if again else ()
        source = out.of(rows[n % len(rows)]) if rows else text
        if source is None:
            found.append(_at(text, "impossible", "the row to repeat is not there", "name a row of this section"))
            continue
        out.add(recoloured(source, text.ops) if again else source, text, number)
    return (out.last, out.last) if onwards else None


def _of_every_other(text: RowText, section: Section) -> bool:
    """Whether an open end is that of "Row 2 and all even rows", not of "Row 2 onwards"."""
    lines = section.work.text.split("\n")
    head = lines[text.line - 1].partition(":")[0] if 0 < text.line <= len(lines) else ""
    return bool(_EVERY.search(plain(head)))


def _every_other(reading: Reading, out: _Writing, section: Section) -> None:
    """ "Row 2 and all even rows": the row after the last written one where that is one of them."""
    for text in reversed(reading.pattern.rows):
        if text.open_end and _of_every_other(text, section):
            source = out.of(text.first)
            if source is not None and out.last > text.first and (out.last + 1 - text.first) % 2 == 0:
                out.add(source, replace(text, stated=source.stated), out.last + 1)
            return


def _said_to_go_on(reading: Reading, out: _Writing, section: Section) -> tuple[int, int] | None:
    """The rows that "Rep Rows 2 and 3" below the last row, or behind its words, says to go on with."""
    last = reading.pattern.rows[-1]
    lines = section.work.text.split("\n")
    below = [line for n, line in enumerate(lines, 1) if n > last.line]
    behind = [] if any(isinstance(op, Again) for op in last.ops) else [last.text.partition(":")[2]]
    for said in (*reversed(below), *behind):
        found = _GOES_ON.search(plain(said))
        if found is None:
            continue
        if found["first"]:
            return int(found["first"]), int(found["last"] or found["first"])
        count = lexicon.number(found["count"] or "1") or 1
        return max(out.last - count + 1, 1), out.last
    return None


def _repeating(
    out: _Writing, goes_on: tuple[int, int] | None, section: Section
) -> tuple[tuple[RowText, ...], Section]:
    """The rows with those that go on at their end, and the section that repeats from the first of these.

    A row named in the section itself (repeat_from) holds before the words.
    """
    if goes_on is None or section.repeat_from > 1:
        return tuple(out.rows), section
    rows = [out.of(n) for n in range(goes_on[0], goes_on[1] + 1)]
    whole = [row for row in rows if row is not None]
    if not whole or len(whole) < len(rows):
        return tuple(out.rows), section
    if goes_on[1] == out.last:
        return tuple(out.rows), replace(section, repeat_from=out.by_number[goes_on[0]] + 1)
    begins = len(out.rows) + 1
    for row in whole:
        out.add(row, row, out.last + 1)
    return tuple(out.rows), replace(section, repeat_from=begins)


def names_colour(op: Op) -> bool:
    """Whether a clause names a colour."""
    return isinstance(op, Act) and op.name in _COLOURS and op.text not in ("", "yarn")


def recoloured(row: RowText, own: Sequence[Op]) -> RowText:
    """A row worked as another in colours of its `own`: the other's colours do not hold."""
    before = tuple(op for op in own if names_colour(op) and isinstance(op, Act) and op.name != "change")
    after = tuple(op for op in own if isinstance(op, Act) and op.name == "change" and op.text)
    if not before and not after:
        return row
    kept = tuple(op for op in row.ops if not names_colour(op))
    return replace(row, ops=(*before, *kept, *after))
