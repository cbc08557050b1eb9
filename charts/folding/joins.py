"""Which edges meet: read off the folded piece, row end for row end and stitch for stitch.

Edges that lie together come from the geometry (edges.py). A pattern's own joins name two edges; they must be
equal in length within `EASE_LIMIT` and lie together once folded.
"""

from __future__ import annotations

from dataclasses import dataclass

from .edges import EdgeRun, Interval, intervals
from .facets import Point
from .folds import Folding


@dataclass(frozen=True, slots=True)
class Join:
    """Edges that lie together over one stretch, the facing layer first; `places` is how many such stretches
    there are.

    `pairs` says which number of the second run each number of the first meets.
    """

    runs: tuple[EdgeRun, ...]
    places: int
    at: tuple[tuple[Point, Point], ...]

    @property
    def pairs(self) -> tuple[tuple[int, int], ...]:
        return paired(self.runs[0], self.runs[1])

    @property
    def length_mm(self) -> float:
        return self.runs[0].length_mm


def joins_of(folding: Folding) -> tuple[Join, ...]:
    """Every doubled stretch of the joined piece's outline; stretches alike on two edges are one join in two
    places.
    """
    found = intervals(folding.piece, folding.outside(folding.joined_stack), clockwise=False)
    groups: dict[tuple[tuple[str, str, int, int], ...], list[Interval]] = {}
    for interval in found:
        if interval.layers > 1:
            groups.setdefault(_signature(interval), []).append(interval)
    return tuple(
        Join(here[0].runs, len(here), tuple((i.start, i.end) for i in here)) for here in groups.values()
    )


def _signature(interval: Interval) -> tuple[tuple[str, str, int, int], ...]:
    """What makes two stretches alike: the same parts, kinds of edge and numbers (tops and chains count as
    one).
    """
    counts = {"chains": "stitches"}
    return tuple((r.part, counts.get(r.counts, r.counts), *r.numbers) for r in interval.runs)


def paired(a: EdgeRun, b: EdgeRun) -> tuple[tuple[int, int], ...]:
    """Number for number in the order in which both are met; where counts differ, the nearest of the other."""
    if not a.count or not b.count:
        return ()
    first, second = _run(a), _run(b)
    return tuple(
        (n, second[min(len(second) - 1, int((k + 0.5) * len(second) / len(first)))])
        for k, n in enumerate(first)
    )


def _run(run: EdgeRun) -> list[int]:
    step = 1 if run.last >= run.first else -1
    return list(range(run.first, run.last + step, step))


def eased(join: Join) -> int:
    """How many more the longest run counts than the shortest."""
    counts = [r.count for r in join.runs]
    return max(counts) - min(counts)
