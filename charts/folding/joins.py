"""Which edges meet: read off the folded piece, row end for row end and stitch for stitch.

Edges that lie together come from the geometry (edges.py), so they are equally long, however many rows each has: rows
of two heights meet by length, and nothing is eased in.
"""

from __future__ import annotations

from bisect import bisect_left
from itertools import pairwise

from ..made_late import dataclass
from ..model.sizing.yarn import Edges
from .border import BorderPlan
from .edges import EdgeRun, Interval
from .facets import Point
from .folds import Folding
from .mouth import outline_of
from .piece import Piece


@dataclass(frozen=True, slots=True)
class Join:
    """Edges that lie together over one stretch, the facing layer first; `places` is how many such stretches
    there are.

    `pairs` are the numbers of the first run and the second that meet: of the run that counts more, every number.
    """

    runs: tuple[EdgeRun, ...]
    places: int
    at: tuple[tuple[Point, Point], ...]
    pairs: tuple[tuple[int, int], ...] = ()

    @property
    def length_mm(self) -> float:
        return self.runs[0].length_mm


def joins_of(folding: Folding) -> tuple[Join, ...]:
    """Every doubled stretch of the joined piece's outline; stretches alike on two edges are one join in two
    places.
    """
    found = outline_of(folding, folding.outside(folding.joined_stack), clockwise=False)
    groups: dict[tuple[tuple[str, str, int, int], ...], list[Interval]] = {}
    for interval in found:
        if interval.layers > 1:
            groups.setdefault(_signature(interval), []).append(interval)
    return tuple(
        Join(
            here[0].runs, len(here), tuple((i.start, i.end) for i in here),
            _pairs(folding.piece, here[0].runs),
        )
        for here in groups.values()
    )  # fmt: skip


def _signature(interval: Interval) -> tuple[tuple[str, str, int, int], ...]:
    """What makes two stretches alike: the same parts, kinds of edge and numbers (tops and chains count as
    one).
    """
    return tuple((r.part, "stitches" if r.counts == "chains" else r.counts, *r.numbers) for r in interval.runs)


def _pairs(piece: Piece, runs: tuple[EdgeRun, ...]) -> tuple[tuple[int, int], ...]:
    """The numbers of the first two runs that meet, every number of the one with more."""
    one, other = runs[:2]
    if one.count >= other.count:
        return paired(piece, one, other)
    return tuple((a, b) for b, a in paired(piece, other, one))


def paired(piece: Piece, a: EdgeRun, b: EdgeRun) -> tuple[tuple[int, int], ...]:
    """Number for number as they are met, by length: which of `b` lies at the middle of each of `a`."""
    first, second = _middles(piece, a), _middles(piece, b)
    if not first or not second:
        return ()
    ends = [(low + high) / 2 for (_, low), (_, high) in pairwise(second)]
    return tuple((number, second[bisect_left(ends, at - _SAME)][0]) for number, at in first)


#: Two middles nearer than this (mm) are one.
_SAME = 1e-6


def _middles(piece: Piece, run: EdgeRun) -> list[tuple[int, float]]:
    """Each number of a run, as they are met, and how far its middle lies from the run's beginning."""
    if not run.count:
        return []
    step = 1 if run.last >= run.first else -1
    (x0, y0), _ = run.on_flat
    found = []
    for number in range(run.first, run.last + step, step):
        if run.counts == "row ends":
            above_mm = (piece.row_edges_mm[number - 1] + piece.row_edges_mm[number]) / 2
            found.append((number, abs(above_mm - (piece.height_mm - y0))))
        else:
            found.append((number, abs(number - 0.5 - piece.stitch_number(x0)) * piece.stitch_mm))
    return found


def groups_met(join: Join) -> tuple[tuple[int, tuple[int, ...]], ...]:
    """Each number of the run with fewer, and the numbers of the other that meet it, as they are met."""
    fewer_first = join.runs[0].count < join.runs[1].count
    met: dict[int, list[int]] = {}
    for one, other in join.pairs:
        key, value = (one, other) if fewer_first else (other, one)
        met.setdefault(key, []).append(value)
    return tuple((key, tuple(values)) for key, values in met.items())


def edges_of(folding: Folding, border: BorderPlan | None) -> Edges:
    """The border's way round, and the seams where no border joins the layers."""
    round_mm = sum(stretch.length_mm for stretch in border.stretches) if border else 0.0
    if not folding.stages or (border is not None and border.joins):
        return Edges(round_mm)
    joins = joins_of(folding)
    return Edges(round_mm, sum(join.length_mm * join.places for join in joins), sum(join.places for join in joins))
