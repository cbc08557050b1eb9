"""What comes again as counts grow: over which counts a row goes, and how wide rows become."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from ...made_late import dataclass

#: What has come so many times is told of what comes after them; and what each of the counts worked bears out besides.
LEAST_SEEN, BORNE_OUT = 4, 3


@dataclass(frozen=True, slots=True)
class Again:
    """Counts up to `last`, those that go told one by one, and above it those that lie whole steps of `of` above one of
    the last that go."""

    of: int
    known: frozenset[int]
    last: int

    def holds(self, count: int) -> bool:
        return _brought_down(count, self.of, self.last) in self.known

    @property
    def each(self) -> bool:
        """Whether every count above the last goes."""
        return all(self.last - back in self.known for back in range(self.of))


def _brought_down(count: int, of: int, last: int) -> int:
    """The count, or where it lies above the last one, whole steps below it."""
    return count if count <= last else last - (last - count) % of


def again(good: Sequence[int], last: int, times: int = LEAST_SEEN) -> Again | None:
    """What counts up to the last one, of which the good ones go, tell of those above it; None where the good ones have
    not come again often enough.

    >>> again([7, 9, 13, 15, 19, 21, 25, 27, 31, 33, 37, 39, 43, 45], 48).holds(51)
    True
    >>> again([20, 40], 48) is None
    True
    """
    known = frozenset(good)
    for of in range(1, last // times + 1):
        seen = range(last - (times - 1) * of + 1, last + 1)
        there = any(count in known for count in seen[-of:])
        if there and all((count in known) == (count - of in known) for count in seen):
            return Again(of, known, last)
    return None


def grown(widths: Mapping[int, int], last: int) -> Callable[[int], int] | None:
    """The width for a count above the last one, from those of the counts that have one; -1 for a count that would have
    none. None where they have not grown alike from step to step often enough.

    >>> width = grown({count: count // 2 * 2 for count in range(1, 49)}, 48)
    >>> width(51), width(52)
    (50, 52)
    """
    counts = again(list(widths), last, BORNE_OUT)
    if counts is None:
        return None
    for of in range(counts.of, last // BORNE_OUT + 1, counts.of):
        seen = range(last - (BORNE_OUT - 1) * of + 1, last + 1)
        rises = {widths[count] - widths[count - of] for count in seen if count in widths and count - of in widths}
        if len(rises) == 1:
            return _from_step_to_step(widths, last, of, rises.pop())
    return None


def _from_step_to_step(widths: Mapping[int, int], last: int, of: int, rise: int) -> Callable[[int], int]:
    def width(count: int) -> int:
        below = _brought_down(count, of, last)
        return widths[below] + rise * ((count - below) // of) if below in widths else -1

    return width
