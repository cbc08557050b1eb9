"""What the page that fits a pattern is told of its rows: worked over a few widths and lengths, told for all.

Along a row whole repeats are added, so every number in it grows evenly with them: three widths tell all, and where they
do not the page is not written. Up the piece rows depend on their section, on their place in it, and, in the first
repeat, on how the section before ends; every such ending is worked once.
"""

from __future__ import annotations

import itertools
import re
from collections.abc import Callable, Sequence
from dataclasses import field

from ...errors import PatternError
from ...layout.sheets.chart_setting import NotShown
from ...made_late import dataclass, replace
from ...model.cloth.fabric import Fabric, WorkedRow
from ...model.sections.colour_turns import colours_within
from ...model.sizing.plan import Plan
from ...model.sizing.raised import height_kind, raised_name, raised_row
from ...model.sizing.request import SectionRequest, SizingRequest
from ...model.sizing.yarn import RAISED_LEGS, yarn_of
from ...pattern.file.records import Pattern
from ...pattern.tree import Op, RowText, WrittenPattern
from ...pattern.writer import write_stated
from ...setting import Terms
from ..words import foundation_words, row_words, stated_of

BOTH: tuple[Terms, Terms] = ("US", "UK")
#: A piece as it is worked with so many repeats of stitches (from the least on) and such rows.
WorkedAt = Callable[[int, tuple[int, ...]], tuple[Plan, WrittenPattern, Fabric]]
#: The widths that a row is told from, and the most times that a piece is worked for it.
WIDTHS, MOST_WORKED = 3, 150
_NUMBER = re.compile(r"(\d+)")

#: A text in which numbers grow with the repeats: parts, and numbers as (at the first width, more for each repeat).
Grown = str | list[str | tuple[int, int]]


class NotTold(NotShown):
    """A pattern that a page cannot fit; its words say why."""


@dataclass(slots=True)
class RowTable:
    """Which of `entries` a row is, by its section, how the one before that ends, and its place; texts are places in
    `said`."""

    said: list[Grown] = field(default_factory=list)
    entries: list[dict[str, object]] = field(default_factory=list)
    rows: dict[str, int] = field(default_factory=dict)
    begins: list[int] = field(default_factory=list)
    ops: list[tuple[Op, ...]] = field(default_factory=list)

    def say(self, texts: Sequence[str]) -> int:
        """The place of a text, given for each of the widths."""
        told = grown(texts)
        if told not in self.said:
            self.said.append(told)
        return self.said.index(told)

    def op(self, ops: tuple[Op, ...]) -> int:
        """The place of a row's words as they were read."""
        if ops not in self.ops:
            self.ops.append(ops)
        return self.ops.index(ops)


def grown(texts: Sequence[str]) -> Grown:
    """A text for every width, from the texts at widths that are one repeat apart; NotTold where it does not grow
    evenly.

    >>> grown(["sc in 4 sts (9 sc)", "sc in 4 sts (12 sc)", "sc in 4 sts (15 sc)"])
    ['sc in 4 sts (', (9, 3), ' sc)']
    """
    if len(set(texts)) == 1:
        return texts[0]
    parts = [_NUMBER.split(text) for text in texts]
    if len({tuple(each[::2]) for each in parts}) > 1:
        raise NotTold(_uneven(texts[0]))
    out: list[str | tuple[int, int]] = []
    for at, words in enumerate(parts[0]):
        if at % 2 == 0 or len({each[at] for each in parts}) == 1:
            if out and isinstance(out[-1], str):
                out[-1] += words
            else:
                out.append(words)
            continue
        first, more = even([int(each[at]) for each in parts], texts[0])
        out.append((first, more))
    return out


def even(numbers: Sequence[int], where: str) -> tuple[int, int]:
    """The first of numbers and by how much each is more than the one before; NotTold where that is not the same."""
    more = numbers[1] - numbers[0]
    if any(b - a != more for a, b in itertools.pairwise(numbers)):
        raise NotTold(_uneven(where))
    return numbers[0], more


def _uneven(where: str) -> str:
    return f'a page cannot tell this row for other widths, as its counts do not grow evenly: "{where[:60]}"'


def lengths_to_work(request: SizingRequest) -> list[tuple[int, ...]]:
    """The rows of each section to be worked, so that every ending of each comes once, and each row twice."""
    endings = max(1 if s.rows is not None else s.repeat_rows for s in request.sections)
    if endings * WIDTHS > MOST_WORKED:
        raise NotTold(f"a row repeat of {endings} rows is more than a page can fit; {MOST_WORKED // WIDTHS} go")
    return [tuple(_rows(section, k) for section in request.sections) for k in range(endings)]


def _rows(section: SectionRequest, ending: int) -> int:
    if section.rows is not None:
        return section.rows
    return section.lead + 2 * section.repeat_rows + ending % section.repeat_rows


def row_table(request: SizingRequest, pattern: Pattern, worked_at: WorkedAt) -> RowTable:
    """The rows of a pattern for all widths and lengths."""
    table = RowTable()
    for rows in lengths_to_work(request):
        try:
            made = [worked_at(k, rows) for k in range(WIDTHS)]
        except PatternError:
            continue
        _add(table, request, pattern, rows, made)
    if not table.rows:
        raise NotTold("no length of its sections can be worked over other widths")
    return table


def _add(
    table: RowTable, request: SizingRequest, pattern: Pattern, rows: tuple[int, ...],
    made: Sequence[tuple[Plan, WrittenPattern, Fabric]],
) -> None:  # fmt: skip
    if not table.begins:
        table.begins = [table.say([foundation_words(p, f, terms)[0] for _, p, f in made]) for terms in BOTH]
    at, before = 0, ""
    for index, section in enumerate(request.sections):
        whole = section.lead + section.repeat_rows
        for n in range(rows[index]):
            key = f"{index}.{before if n < whole else ''}.{n}"
            if n < whole + section.repeat_rows and key not in table.rows:
                each = [(piece.rows[at], fabric.rows[at]) for _, piece, fabric in made]
                table.rows[key] = _entry(table, each, pattern)
            at += 1
        before = str(section.written(rows[index] - 1))


def _entry(table: RowTable, each: Sequence[tuple[RowText, WorkedRow]], pattern: Pattern) -> int:
    """The place of a row's entry: its words by the colour that follows, its count, and what it holds of each kind."""
    letters = ["", *(colour.letter for colour in pattern.colours)]
    row = each[0][1]
    words = {
        letter: [table.say([row_words(t.ops, replace(w, colour=""), letter, terms) for t, w in each]) for terms in BOTH]
        for letter in letters
    }
    count = [table.say([write_stated(stated_of(worked.row), terms) for _, worked in each]) for terms in BOTH]
    kinds = [worked.row.kinds() for _, worked in each]
    if len({tuple(kind) for kind in kinds}) > 1:
        raise NotTold(_uneven(row.label))
    ground = yarn_of(height_kind(kinds[0]))
    told = []
    for kind in kinds[0]:
        first, more = even([of[kind] for of in kinds], row.label)
        raised = raised_name(kind)
        own = RAISED_LEGS * yarn_of("dc") if raised else yarn_of(kind)
        told.append((kind, first, more, own, ground if raised else own))
    entry: dict[str, object] = {
        "ops": table.op(each[0][0].ops), "words": words, "count": count, "kinds": sorted(told),
        "raised": raised_row(each[0][1].row),
        "within": list(colours_within(each[0][0], pattern)),
    }  # fmt: skip
    if entry not in table.entries:
        table.entries.append(entry)
    return table.entries.index(entry)
