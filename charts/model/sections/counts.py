"""The counts stated in a section's rows: what they belong to, beside the width that the piece is sized to."""

from __future__ import annotations

from collections.abc import Sequence

from ...errors import Note, PatternError, Problem
from ...made_late import dataclass, replace
from ...pattern.file.records import Pattern
from ...pattern.tree import RowText, Special, Stated
from ..cloth import foundation_row
from ..cloth.fabric import Row
from ..cloth.stated import numbers
from ..multiples.multiple import repeated_over, worked_over
from ..sizing.from_pattern import request_of
from ..sizing.size import size
from .texts import SectionRows, in_file

#: Wider than this no stated count is looked for.
MOST_WIDE = 2_000


@dataclass(frozen=True, slots=True)
class _Count:
    """A stated count: the row (from 0) it stands in, what that makes of it over two widths, and the widths that give
    it; `widths` is None where any does, or where it names nothing that can be counted."""

    row: int
    stated: Stated
    low: tuple[int, ...]
    high: tuple[int, ...]
    widths: frozenset[int] | None


@dataclass(frozen=True, slots=True)
class _Over:
    """A section's rows, to be worked over one width and another."""

    section: SectionRows
    written: tuple[RowText, ...]
    terms: str
    specials: tuple[Special, ...]

    @property
    def lead(self) -> int:
        return min(self.section.section.repeat_from, len(self.written)) - 1

    def made(self, width: int) -> list[Row]:
        """What the rows make over a width."""
        rows = tuple(replace(row, stated=()) for row in self.written)
        return [row.row for row in repeated_over(rows, width, self.terms, self.specials, self.lead).fabric.rows]

    def agree(self, width: int) -> bool:
        """Whether every stated count is right over a width."""
        multiple = self.section.multiple
        fits = multiple.holds(width) and width <= MOST_WIDE
        return fits and not worked_over(self.written, width, self.terms, self.specials, self.lead).problems


def planned_width(pattern: Pattern, sections: Sequence[SectionRows]) -> int:
    """The stitches that the piece is sized to; 0 where nothing fits, which is said elsewhere."""
    try:
        return size(request_of(pattern, [section.text for section in sections])).stitches
    except PatternError:
        return 0


def check_counts(
    made: SectionRows, written: tuple[RowText, ...], planned: int, settled: tuple[str, tuple[Special, ...]],
    pattern: Pattern, problems: list[Problem], notes: list[Note],
) -> None:  # fmt: skip
    """A note where the stated counts belong to another width than the piece's; a problem where they belong to none."""
    if not any(row.stated for row in written):
        return
    over = _Over(made, written, *settled)
    if planned and over.agree(planned):
        return
    counts = _counts(over)
    tried = sorted({width for count in counts for width in count.widths or ()})
    right = next((width for width in tried if over.agree(width)), 0)
    first = next((c for c in counts if c.widths is not None), counts[0])
    if right or any(not count.low for count in counts) or all(count.widths is None for count in counts):
        line, column = made.section.work.at(first.stated.at[0], first.stated.at[1])
        where = f"{made.section.name}, Row {first.row + 1}"
        notes.append(Note(where, _belongs(over, first, right, planned), line, column))
        return
    problems.append(in_file(_belongs_nowhere(over, counts), made.section, pattern))


def _counts(over: _Over) -> list[_Count]:
    """Every stated count with the widths that give it, by what two widths make of it: it grows evenly with them."""
    multiple = over.section.multiple
    low = multiple.least + multiple.of * max(0, -(-(6 - multiple.least) // multiple.of))
    aliases = foundation_row.aliases(over.specials)
    below, above = over.made(low), over.made(low + multiple.of)
    out = []
    for at, row in enumerate(over.written):
        for stated in row.stated:
            small, large = (tuple(numbers(stated, rows[at], [], aliases)) for rows in (below, above))
            out.append(_Count(at, stated, small, large, _widths(stated.count, small, large, low, multiple.of)))
    return out


def _widths(count: int, small: Sequence[int], large: Sequence[int], low: int, step: int) -> frozenset[int] | None:
    widths = set()
    for a, b in zip(small, large, strict=False):
        if a == b == count:
            return None
        if b != a and (count - a) % (b - a) == 0:
            widths.add(low + step * ((count - a) // (b - a)))
    return frozenset(widths) if small else None


def _belongs(over: _Over, count: _Count, right: int, planned: int) -> str:
    """What is noted of counts that belong to another width, or that cannot be compared."""
    said = f'the count "{count.stated.words}"'
    if not right:
        return f"{said} was not compared with what the row makes"
    if not planned:
        return f"{said} belongs to {right} stitches"
    made = numbers(count.stated, over.made(planned)[count.row], [], foundation_row.aliases(over.specials))
    of_it = f"; over the {planned} of this piece it is {made[0]}" if made else f"; this piece has {planned}"
    return f"{said} belongs to {right} stitches{of_it}"


def _belongs_nowhere(over: _Over, counts: Sequence[_Count]) -> Problem:
    """The first count that no width gives together with those before it."""
    widths: frozenset[int] | None = None
    before = wrong = counts[0]
    for count in counts:
        fits = None if count.widths is None else frozenset(w for w in count.widths if over.section.multiple.holds(w))
        if fits is None:
            continue
        wrong = count
        if not fits or (widths is not None and not fits & widths):
            break
        before, widths = count, fits if widths is None else fits & widths
    said = f'the count "{wrong.stated.words}"'
    own = sorted(w for w in wrong.widths or () if over.section.multiple.holds(w))
    if own and before is not wrong:
        says = f'{said} belongs to {own[0]} stitches, and "{before.stated.words}" of Row {before.row + 1} to'
        says += f" {min(widths or before.widths or {0})}"
    else:
        says = f"{said} belongs to no number of stitches that these rows go over"
        says += f"; {_near(over, wrong)}" if wrong.low and wrong.high else ""
    label = f"Row {wrong.row + 1}"
    line, column, length = wrong.stated.at
    remedy = "mend the count, or take it out: every row's count is worked out for the piece"
    return Problem("impossible", label, says, remedy, line, column, length=length)


def _near(over: _Over, count: _Count) -> str:
    """What the rows make over the widths on both sides of the stated count."""
    step = max(count.high[0] - count.low[0], 1)
    nearest = count.low[0] + step * max(0, (count.stated.count - count.low[0]) // step)
    return f"the row makes {nearest} or {nearest + step}"
