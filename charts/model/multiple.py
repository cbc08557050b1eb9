"""The multiple a stitch needs, worked out by playing its rows over base after base.

Rows that come out even over every m-th number of stitches, from some number on, need "a multiple of m plus n".
Nothing is matched in the words: the rows are worked over 1, 2, 3, ... stitches and the counts that go are looked at.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from ..pattern.document import Reading
from ..pattern.tree import RowText, Special, Start, WrittenPattern
from .work import Worked, work_reading

#: How many counts are tried first, and at most; a repeat longer than a third of the most is not found.
FIRST_TRIED = 48
MOST_TRIED = 240


@dataclass(frozen=True, slots=True)
class Multiple:
    """ "Multiple of `of` plus `plus`", from `least` stitches upwards. `of` 1: any number."""

    of: int
    plus: int
    least: int = 1

    def holds(self, count: int) -> bool:
        return count >= self.least and count % self.of == self.plus % self.of


def repeated_over(rows: Sequence[RowText], count: int, terms: str, specials: tuple[Special, ...] = ()) -> Worked:
    """The rows worked twice through over `count` plain stitches, as they repeat in a piece."""
    twice = [replace(row, label=f"Row {i}", first=i, last=i) for i, row in enumerate([*rows, *rows], 1)]
    pattern = WrittenPattern(terms, Start("over", count, "st"), tuple(twice), specials)
    return work_reading(Reading(pattern))


def repeats_evenly(rows: Sequence[RowText], count: int, terms: str, specials: tuple[Special, ...] = ()) -> bool:
    """Whether the rows come out even over `count` stitches, again and again, and keep their width."""
    worked = repeated_over(rows, count, terms, specials)
    if worked.problems:
        return False
    made = [row.row.made for row in worked.fabric.rows]
    half = len(made) // 2
    return made[:half] == made[half:]


def multiple_of(rows: Sequence[RowText], terms: str, specials: tuple[Special, ...] = ()) -> Multiple | None:
    """The multiple that a section's rows need; None where no number of stitches tried comes out even."""
    return period(lambda count: repeats_evenly(rows, count, terms, specials))


def period(goes: Callable[[int], bool]) -> Multiple | None:
    """The multiple behind a yes or no for each count.

    >>> period(lambda n: n > 4 and n % 6 == 1)
    Multiple(of=6, plus=1, least=7)
    """
    good: list[int] = []
    for count in range(1, MOST_TRIED + 1):
        if goes(count):
            good.append(count)
        if count >= FIRST_TRIED and len(good) >= 4:
            break
    if len(good) < 2:
        return Multiple(MOST_TRIED, good[0], good[0]) if good else None
    step = good[-1] - good[-2]
    least = good[-1]
    for before in reversed(good[:-1]):
        if least - before != step:
            break
        least = before
    return Multiple(step, least % step, least)
