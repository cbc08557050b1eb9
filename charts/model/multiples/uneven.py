"""Rows that come out even over no number of stitches: which row does not, and over what it comes nearest."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ...errors import Problem
from ...made_late import dataclass, replace
from ...pattern.tree import RowText, Special
from ..rows.working import Worked
from .multiple import keeps_width, repeated_over, row_of

#: How many stitches on each side of the wanted number are looked at.
REACH = 16


@dataclass(frozen=True, slots=True)
class _Tried:
    """The rows worked over a number of stitches: how many went before the first that does not."""

    count: int
    worked: Worked
    went: int


def uneven_problem(
    rows: Sequence[RowText], wanted: int, terms: str, specials: tuple[Special, ...] = (), lead: int = 0
) -> Problem:
    """What happens over the number nearest to the wanted one that takes the rows furthest.

    Of a section whose rows go but change their width, both widths are told.
    """
    best = _furthest(rows, wanted, terms, specials, lead)
    said = f"no number of stitches makes these rows come out even; over {best.count}"
    if best.count != wanted:
        said += f" (the nearest to the {wanted} wanted that goes furthest)"
    if best.worked.problems:
        return _stuck(best, rows, lead, said)
    if keeps_width(best.worked, len(rows), lead):
        return _once(best, rows)
    return _widths(best, rows, lead, said)


def stuck_over(
    rows: Sequence[RowText], wanted: int, terms: str, specials: tuple[Special, ...] = (), lead: int = 0
) -> Worked:
    """Rows that come out even over no number of stitches, worked over the one that takes them furthest."""
    return _furthest(rows, wanted, terms, specials, lead).worked


def _furthest(
    rows: Sequence[RowText], wanted: int, terms: str, specials: tuple[Special, ...], lead: int
) -> _Tried:
    low = max(wanted - REACH, 2)
    tries = [_tried(rows, count, terms, specials, lead) for count in range(low, low + 2 * REACH + 1)]
    return max(tries, key=lambda t: (t.went, -abs(t.count - wanted)))


def _tried(
    rows: Sequence[RowText], count: int, terms: str, specials: tuple[Special, ...], lead: int
) -> _Tried:
    worked = repeated_over(rows, count, terms, specials, lead)
    if not worked.problems:
        return _Tried(count, worked, 2 * len(rows) + (1 if keeps_width(worked, len(rows), lead) else 0))
    return _Tried(count, worked, row_of(worked.problems[0]) - 1)


def _stuck(best: _Tried, rows: Sequence[RowText], lead: int, said: str) -> Problem:
    problem = best.worked.problems[0]
    number = row_of(problem)
    written = number - 1 if number <= len(rows) else lead + number - 1 - len(rows)
    again = " worked again," if number > len(rows) else ""
    row = rows[written]
    says = _renamed(f"{said},{again} {problem.says}", rows, lead)
    placed = problem if problem.line else replace(problem, line=row.line, column=1, length=len(row.text) or 1)
    return replace(placed, where=f"Row {written + 1}", says=says, remedy=_renamed(problem.remedy, rows, lead))


def _renamed(text: str, rows: Sequence[RowText], lead: int) -> str:
    """The rows of the second time called by the names they are written under."""

    def name(found: re.Match[str]) -> str:
        number = int(found[1])
        return found[0] if number <= len(rows) else f"Row {lead + number - len(rows)}"

    return re.sub(r"\b[Rr]ow (\d+)\b", name, text)


def _once(best: _Tried, rows: Sequence[RowText]) -> Problem:
    """Rows that say "as often as there is room" and still come out even over one number of stitches only."""
    last = rows[-1]
    says = f"the rows come out even over {best.count} stitches and over no other number near it, so they do not repeat"
    remedy = "let every row repeat over the same number of stitches, or write every stitch by number"
    return Problem("impossible", f"Row {len(rows)}", says, remedy, last.line, 1, length=len(last.text) or 1)


def _widths(best: _Tried, rows: Sequence[RowText], lead: int, said: str) -> Problem:
    made = [row.row.made for row in best.worked.fabric.rows]
    once, twice = made[lead : len(rows)], made[len(rows) :]
    at = next(i for i, (a, b) in enumerate(zip(once, twice, strict=True)) if a != b)
    last = rows[-1]
    says = (
        f"{said} Row {lead + at + 1} makes {once[at]} stitches the first time and {twice[at]} the second: "
        "the section does not keep its width when its rows repeat"
    )
    remedy = (
        "let the last row end on as many stitches as the first began with, or name the row that the repeat "
        "begins with (repeat_from = 2)"
    )
    return Problem("impossible", f"Row {len(rows)}", says, remedy, last.line, 1, length=len(last.text) or 1)
