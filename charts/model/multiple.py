"""The multiple a stitch needs, worked out by playing its rows over base after base.

Rows that come out even over every m-th number of stitches, from some number on, need "a multiple of m plus n".
Nothing is matched in the words: the rows are worked over 1, 2, 3, ... stitches and the counts that go are looked at.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from ..pattern.tree import (
    Act,
    Chain,
    Either,
    Into,
    Make,
    Noun,
    Place,
    RowText,
    Skip,
    Special,
    Star,
    Start,
    Stated,
    Times,
    WrittenPattern,
    walk,
)
from ..pattern.written.document import Reading
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


def repeated_over(
    rows: Sequence[RowText], count: int, terms: str, specials: tuple[Special, ...] = (), lead: int = 0
) -> Worked:
    """The rows worked over `count` plain stitches as they repeat in a piece: once, and those after `lead` once more.

    What the words leave open over chains ("each st": each chain too, or not) is read so that every row is as wide
    as `count`, if it can be.
    """
    worked = _worked(rows, count, terms, specials, lead)
    if worked.problems or any(row.row.chains for row in worked.fabric.rows):
        wide = tuple(replace(row, stated=(Stated(count, Noun("st")),)) for row in rows)
        kept = _worked(wide, count, terms, specials, lead)
        return worked if kept.problems else kept
    return worked


def _worked(rows: Sequence[RowText], count: int, terms: str, specials: tuple[Special, ...], lead: int) -> Worked:
    again = [replace(row, label=f"Row {i}", first=i, last=i) for i, row in enumerate([*rows, *rows[lead:]], 1)]
    pattern = WrittenPattern(terms, Start("over", count, "st"), tuple(again), specials)
    return work_reading(Reading(pattern))


def repeats_evenly(
    rows: Sequence[RowText], count: int, terms: str, specials: tuple[Special, ...] = (), lead: int = 0
) -> bool:
    """Whether the rows come out even over `count` stitches, again and again, and keep their width."""
    worked = repeated_over(rows, count, terms, specials, lead)
    return not worked.problems and keeps_width(worked, len(rows), lead)


def keeps_width(worked: Worked, rows: int, lead: int) -> bool:
    """Whether the rows that repeat make the same counts the second time."""
    made = [row.row.made for row in worked.fabric.rows]
    return made[lead:rows] == made[rows:]


def multiple_of(
    rows: Sequence[RowText], terms: str, specials: tuple[Special, ...] = (), lead: int = 0
) -> Multiple | None:
    """The multiple that a section's rows need; None where no number of stitches tried comes out even.

    Rows that repeat as often as there is room come out even over more than one count, or over none but by chance.
    """
    found = period(lambda count: repeats_evenly(rows, count, terms, specials, lead))
    return None if found is not None and found.of == MOST_TRIED and any(map(stretches, rows)) else found


def stretches(row: RowText) -> bool:
    """Whether a row says "as often as there is room": a repeat without a number, or every stitch left."""
    return any(
        (isinstance(op, Star) and op.more is None)
        or (isinstance(op, Times) and not op.times)
        or (isinstance(op, Make | Into | Skip) and any(map(_in_each, op.places)))
        for op in walk(row.ops)
    )


def _in_each(place: Place) -> bool:
    """ "each st", or a place "of each V-st"."""
    return place.which == "each" or (place.of is not None and _in_each(place.of))


#: What may stand in a row that works one number of stitches only.
_PLAIN = {"turn", "do not turn", "fasten off", "colour", "change", "opening", "facing", "loops"}


def is_rigid(row: RowText) -> bool:
    """Whether a row says every stitch by number, so that it comes out even over one number of them only."""
    ops = list(walk(row.ops))
    acts = [op.name for op in ops if isinstance(op, Act)]
    others = [op for op in ops if not isinstance(op, Act)]
    told = all(isinstance(op, Make | Into | Skip | Chain | Times | Star | Either) for op in others)
    return told and set(acts) <= _PLAIN and any(isinstance(op, Make | Into) for op in others) and not stretches(row)


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
