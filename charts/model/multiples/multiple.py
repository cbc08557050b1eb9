"""The multiple a stitch needs, worked out by playing its rows over base after base.

Rows that come out even over every m-th number of stitches, from some number on, need "a multiple of m plus n".
Nothing is matched in the words: the rows are worked over 1, 2, 3, ... stitches and the counts that go are looked at.
"""

from __future__ import annotations

import functools
import re
from collections.abc import Callable, Mapping, Sequence
from itertools import pairwise, takewhile
from math import gcd

from ...errors import Problem
from ...made_late import dataclass, replace
from ...pattern.tree import (
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
from ...pattern.written.document import Reading
from ..rows.work import work_reading
from ..rows.working import Worked
from .evenly import LEAST_SEEN, Again, again, grown

#: How many counts are tried first, and at most; a repeat longer than a third of the most is not found.
FIRST_TRIED = 48
MOST_TRIED = 240
#: Fewer do where from this one on so many, one after the other, were evenly spaced: what small counts come out even
#: over by chance lies behind by then, and a row that needs more stitches than were tried comes out even over none.
FEWEST_TRIED, EVEN_SEEN = 24, 5
#: Counts of so many stitches in all are worked where none comes out even; a repeat of 60 stitches is found by then.
MOST_WORKED = 6_000
#: Where they have made so many, what has come again evenly is not worked among the first either.
DEAR = 10_000
#: Nor are more where these have made so many stitches in all: rows that make hundreds out of one are worked no further.
MOST_MADE = 150_000


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
    worked = worked_over(rows, count, terms, specials, lead)
    if _may_be_read_wider(worked, count):
        wide = tuple(replace(row, stated=(Stated(count, Noun("st")),)) for row in rows)
        kept = worked_over(wide, count, terms, specials, lead)
        return worked if kept.problems else kept
    return worked


def _may_be_read_wider(worked: Worked, count: int) -> bool:
    """Whether asking each row for `count` stitches can change how they are read.

    It cannot where the rows under the first that does not go have that width already: that one stays as it is.
    """
    if not worked.problems:
        return any(row.row.chains for row in worked.fabric.rows)
    under = worked.fabric.rows[: row_of(worked.problems[0]) - 1]
    return any(count not in (row.row.made, row.row.made + row.row.chains) for row in under)


def row_of(problem: Problem) -> int:
    """The number of the row that a problem is in."""
    found = re.search(r"\d+", problem.where)
    return int(found[0]) if found else 1


def worked_over(
    rows: Sequence[RowText], count: int, terms: str, specials: tuple[Special, ...], lead: int
) -> Worked:
    """The rows worked as far as the first that does not go."""
    called = "Rnd" if any(row.is_round for row in rows) else "Row"
    again = [replace(row, label=f"{called} {i}", first=i, last=i) for i, row in enumerate([*rows, *rows[lead:]], 1)]
    pattern = WrittenPattern(terms, Start("over", count, "st"), tuple(again), specials)
    return work_reading(Reading(pattern), to_first_fault=True)


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

    Rows that repeat as often as there is room come out even over more than one count, or over none but by chance;
    unless a row among them says every stitch by number, and so allows one count only. What was found is kept, as a
    piece is worked once for each of its sizes.
    """
    return _multiple_of(tuple(rows), terms, specials, lead)


@functools.lru_cache(maxsize=256)
def _multiple_of(
    rows: tuple[RowText, ...], terms: str, specials: tuple[Special, ...], lead: int
) -> Multiple | None:
    trials: dict[int, Trial] = {}
    rules: list[Callable[[int], bool]] = []
    by_number = any(map(is_rigid, rows))

    def goes(count: int) -> bool:
        if count > FIRST_TRIED:
            if not rules:
                own = [own_counts(row, terms, specials) for row in (*rows, *rows[lead:])]
                rules.extend((*_evenly_spaced(trials), *_widths_meet(trials), *_each_goes(trials, own)))
                rules.extend((*_never_goes(trials, own), lambda _: True))
            if not all(rule(count) for rule in rules) or (not by_number and _hopeless(trials)):
                return False
        elif sum(trial.cost for trial in trials.values()) > DEAR and not _comes_again(trials, count):
            return False
        trials[count] = _trial(rows, count, terms, specials, lead)
        return trials[count].off == 0

    found = period(goes)
    chance = found is not None and found.of == MOST_TRIED and any(map(stretches, rows)) and not by_number
    return None if chance else found


@dataclass(frozen=True, slots=True)
class Trial:
    """Rows worked over a number of stitches: how many went, and, where all did, by how many stitches the rows that
    repeat differ the second time (None where they did not all go). `made` are the stitches of those that went, as far
    as they made no chains, `widths` of all that went; `cost` is how many stitches and chains were worked in all."""

    went: int
    off: int | None = None
    made: tuple[int, ...] = ()
    cost: int = 0
    widths: tuple[int, ...] = ()


def _hopeless(trials: Mapping[int, Trial]) -> bool:
    """Whether rows have been worked over so many counts, none of which came out even, that none is looked for."""
    much = sum(trials) > MOST_WORKED or sum(trial.cost for trial in trials.values()) > MOST_MADE
    return much and not any(trial.off == 0 for trial in trials.values())


def _comes_again(trials: Mapping[int, Trial], count: int) -> bool:
    """Whether a count may go, by those below it: where these came out even again and again, only as they did."""
    told = again([n for n, trial in trials.items() if trial.off == 0], count - 1)
    return told is None or told.holds(count)


def _trial(rows: Sequence[RowText], count: int, terms: str, specials: tuple[Special, ...], lead: int) -> Trial:
    worked = repeated_over(rows, count, terms, specials, lead)
    made = tuple(row.row.made for row in worked.fabric.rows)
    plain = made[: sum(1 for _ in takewhile(lambda row: not row.row.chains, worked.fabric.rows))]
    cost = sum(len(row.row.stitches) for row in worked.fabric.rows)
    if worked.problems:
        went = row_of(worked.problems[0]) - 1
        return Trial(went, None, plain[:went], cost, made[:went])
    differ = [b - a for a, b in zip(made[lead : len(rows)], made[len(rows) :], strict=True)]
    return Trial(len(made), next((d for d in differ if d), 0), plain, cost, made)


def _evenly_spaced(trials: Mapping[int, Trial]) -> list[Callable[[int], bool]]:
    """What the first counts tell of those after them: a row that some counts get past, evenly spaced, is got past by
    no others."""
    rules: list[Callable[[int], bool]] = []
    for row in range(1, max((t.went for t in trials.values()), default=0) + 1):
        past = sorted(count for count, trial in trials.items() if trial.went >= row)[-LEAST_SEEN:]
        steps = {b - a for a, b in pairwise(past)}
        if len(past) == LEAST_SEEN and len(steps) == 1:
            rules.append(Multiple(past[-1] - past[-2], past[-1]).holds)
    return rules


def _widths_meet(trials: Mapping[int, Trial]) -> list[Callable[[int], bool]]:
    """Where the rows go but change their width: by as much over each count, or by so much more the wider they are,
    so that the count over which they would keep it can be told."""
    off = [(count, trial.off) for count, trial in sorted(trials.items()) if trial.off is not None][-LEAST_SEEN:]
    if len(off) < LEAST_SEEN or any(not d for _, d in off):
        return []
    (first, low), (last, high) = off[0], off[-1]
    if any((d - low) * (last - first) != (high - low) * (count - first) for count, d in off):
        return []
    return [lambda count: low * (last - first) + (high - low) * (count - first) == 0]


@functools.lru_cache(maxsize=512)
def own_counts(row: RowText, terms: str, specials: tuple[Special, ...]) -> Again | None:
    """The counts of plain stitches that one row alone goes over; None where it goes over too few of the first ones to
    tell, or over counts that do not come again evenly."""
    good = [n for n in range(1, FIRST_TRIED + 1) if not worked_over([row], n, terms, specials, 1).problems]
    steps = {b - a for a, b in pairwise(good)}
    if len(good) >= LEAST_SEEN and len(steps) == 1:
        return Again(steps.pop(), frozenset(good), FIRST_TRIED)
    return again(good, FIRST_TRIED)


def _each_goes(trials: Mapping[int, Trial], own: Sequence[Again | None]) -> list[Callable[[int], bool]]:
    """What rows that were worked alone tell of them one over the other: over a row without chains each must find a
    width that it goes over. Only where the widths below grow with the count from step to step, and every trial bears it
    out."""
    rules: list[Callable[[int], bool]] = []
    for row, alone in enumerate(own):
        if alone is None or alone.each:
            continue
        there = {n: (n, *t.made)[row] for n, t in trials.items() if t.went >= row and len(t.made) >= row}
        borne = all(alone.holds(width) == (trials[n].went > row) for n, width in there.items())
        width = _evenly_grown(there) or grown(there, max(trials))
        if borne and width is not None:
            rules.append(lambda count, width=width, alone=alone: alone.holds(width(count)))  # type: ignore[misc]
    return rules


def _never_goes(trials: Mapping[int, Trial], own: Sequence[Again | None]) -> list[Callable[[int], bool]]:
    """What a row tells that went over none of the widths it found, chains or not: where these grow by so much from
    count to count that beside its own steps they come round again, it goes over none of the further ones."""
    rules: list[Callable[[int], bool]] = []
    for row, alone in enumerate(own):
        there = {n: (n, *t.widths)[row] for n, t in sorted(trials.items()) if t.went >= row}
        if alone is None or len(there) < LEAST_SEEN or any(trials[n].went > row for n in there):
            continue
        counts, widths = list(there), list(there.values())
        step, rise = counts[-1] - counts[-2], widths[-1] - widths[-2]
        steps = list(zip(pairwise(counts), pairwise(widths), strict=True))
        alike = sum(1 for _ in takewhile(lambda of: _is_step(*of, step, rise), reversed(steps)))  # noqa: B023
        if alike + 1 >= max(LEAST_SEEN, alone.of // gcd(rise, alone.of)):
            rules.append(lambda count, last=counts[-1], step=step: (count - last) % step != 0)  # type: ignore[misc]
    return rules


def _is_step(counts: tuple[int, int], widths: tuple[int, int], step: int, rise: int) -> bool:
    return counts[1] - counts[0] == step and widths[1] - widths[0] == rise


def _evenly_grown(there: Mapping[int, int]) -> Callable[[int], int] | None:
    """The width for any count, where it grows evenly over those known; -1 where it would be no whole number."""
    known = sorted(there.items())[-LEAST_SEEN:]
    if len(known) < LEAST_SEEN:
        return None
    (first, low), (last, high) = known[0], known[-1]
    run, rise = last - first, high - low
    if any((width - low) * run != rise * (count - first) for count, width in known):
        return None
    return lambda count: -1 if rise * (count - first) % run else low + rise * (count - first) // run


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
_PLAIN = {"turn", "do not turn", "fasten off", "colour", "change", "opening", "facing", "loops", "crossing"}


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
        if (count >= FIRST_TRIED and len(good) >= 4) or (count >= FEWEST_TRIED and _are_even(good[-EVEN_SEEN:])):
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


def _are_even(good: Sequence[int]) -> bool:
    """Whether so many counts are evenly spaced that those after them are told."""
    return len(good) == EVEN_SEEN and len({b - a for a, b in pairwise(good)}) == 1
