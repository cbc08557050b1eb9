"""The colours that a section's own words name, row by row: "With B, ...", "changing to B in last yo"."""

from __future__ import annotations

from collections.abc import Sequence

from ...errors import Note, Problem
from ...made_late import dataclass, replace
from ...pattern.file.records import Pattern, Section
from ...pattern.tree import Act, Make, RowText, walk
from .texts import in_file, names_colour


@dataclass(frozen=True, slots=True)
class _Named:
    """What a row's words say: the colour it is worked in ("" as before), the one it leaves for the next, and a colour
    that it takes on its way."""

    begins: str = ""
    leaves: str = ""
    within: Act | None = None


def stripes_of(
    rows: Sequence[RowText], section: Section, pattern: Pattern, problems: list[Problem], notes: list[Note]
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The colours of a section's rows where its words name any: of the rows up to where they come again in the same
    order, and of those that come again. () and () where the words name none."""
    if not any(names_colour(op) for row in rows for op in walk(row.ops)):
        return (), ()
    if not pattern.colours:
        says = "the words name colours, and the file has no [colours]; the rows are drawn without"
        notes.append(Note(section.name, says, section.place.line))
        return (), ()
    found = _colour_faults(rows, section, pattern)
    if len(set(section.stripes)) > 1:
        says = "stripes are given, and the words of the rows name colours, too"
        remedy = 'take out the stripes, or the colours in the words; colour = "A" says what the first row begins with'
        found.append(Problem("ambiguous", rows[0].label, says, remedy, rows[0].line, 1))
    if found:
        problems += [in_file(problem, section, pattern) for problem in found]
        return (), ()
    named = [_named(row, _nth_of_run(rows, at), pattern) for at, row in enumerate(rows)]
    for row, one in zip(rows, named, strict=True):
        if one.within is not None:
            says = f'the yarn of the row is reckoned in one colour; "{one.within.text}" is taken inside it'
            line, column = section.work.at(one.within.at[0] or row.line, one.within.at[1])
            notes.append(Note(f"{section.name}, {row.label}", says, line, column))
    first = section.stripes[0] if section.stripes else pattern.colours[0].letter
    return _in_turn(named, min(section.repeat_from, len(rows)) - 1, first)


def _in_turn(named: Sequence[_Named], lead: int, colour: str) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The colours as the rows follow each other: once all, then those that repeat until they begin as they did."""
    whole, colour = _worked_in(named, colour)
    again, after = _worked_in(named[lead:], colour)
    while after != colour:
        whole, colour = (*whole, *again), after
        again, after = _worked_in(named[lead:], colour)
    return ((), again) if whole == again else (whole, again)


def _worked_in(named: Sequence[_Named], colour: str) -> tuple[tuple[str, ...], str]:
    out = []
    for one in named:
        colour = one.begins or colour
        out.append(colour)
        colour = one.leaves or colour
    return tuple(out), colour


def _named(row: RowText, nth: int, pattern: Pattern) -> _Named:
    begins, leaves, taken, within, begun = "", "", None, None, False
    for op in walk(row.ops):
        if isinstance(op, Make) and op.stitch != "sl st":
            begun, within = True, taken or within
        if not isinstance(op, Act) or not names_colour(op):
            continue
        if op.name == "stripes":
            stripes = op.text.split(",")
            begins = _letter(stripes[nth % len(stripes)], pattern)
        elif op.name == "change" or begun:
            taken, leaves = op, _letter(op.text, pattern)
        else:
            begins = _letter(op.text, pattern)
    return _Named(begins, leaves, within)


def colours_within(row: RowText, pattern: Pattern) -> tuple[str, ...]:
    """The letters of the colours that a worked row takes on its way, in the order in which they come."""
    said = (op.text for op in walk(row.ops) if isinstance(op, Act) and names_colour(op) and op.name != "stripes")
    return tuple(dict.fromkeys(letter for letter in (_letter(text, pattern) for text in said) if letter))


def without_stripes(row: RowText) -> RowText:
    """A row without the colours that it begins with and leaves, which the row's own colour and the next one's say."""
    works = [at for at, op in enumerate(row.ops) if any(isinstance(part, Make) for part in walk((op,)))]
    first, last = (works[0], works[-1]) if works else (len(row.ops), -1)
    ops = tuple(op for at, op in enumerate(row.ops) if first < at < last or not names_colour(op))
    return replace(row, ops=ops)


def _nth_of_run(rows: Sequence[RowText], at: int) -> int:
    """How many rows worked alike stand right under a row."""
    nth = 0
    while at - nth > 0 and rows[at - nth - 1].ops == rows[at].ops:
        nth += 1
    return nth


def _letter(said: str, pattern: Pattern) -> str:
    """The letter of a colour that is called by its letter or its name; "" where there is none."""
    low = " ".join(said.lower().split())
    return next((c.letter for c in pattern.colours if low in (c.letter.lower(), c.name.lower())), "")


def _colour_faults(rows: Sequence[RowText], section: Section, pattern: Pattern) -> list[Problem]:
    """Colours that the words name and the file does not, each once."""
    known = ", ".join(c.letter for c in pattern.colours)
    found: dict[str, Problem] = {}
    for row in rows:
        for op in walk(row.ops):
            if not isinstance(op, Act) or not names_colour(op):
                continue
            for said in op.text.split(",") if op.name == "stripes" else (op.text,):
                if _letter(said, pattern) or said in found:
                    continue
                says = f'colour "{said}" is not in [colours], which has {known}'
                remedy = "call a colour by its letter or its name in [colours], or add it there"
                line, column, length = op.at if op.at[0] else (row.line, 1, 1)
                found[said] = Problem("value", row.label, says, remedy, line, column, length=length)
    return list(found.values())
