"""A stretch of the border: its stitches, and into which place of the edge each of them goes."""

from __future__ import annotations

import math
from collections.abc import Sequence
from fractions import Fraction
from itertools import accumulate, pairwise

from ..made_late import dataclass, replace
from ..measure import round_half_up
from ..model.sizing.plan import Plan
from .edge_rates import row_end_rate, row_end_sum, spacing, spacing_by_kind, spread
from .edges import EdgeRun, Interval
from .facets import Point
from .folds import Folding


@dataclass(frozen=True, slots=True)
class Stretch:
    """A run of border stitches between two places of the outline, `start` to `end` on the plane, outside
    facing.

    `runs` are the edges that it goes through, the facing one first (at a `mouth` those that it goes along, one after
    the other); `side` counts the outline's straight
    sides from 0; `exact` is what length or rule asked for, `count` what is worked; `spacing` says how it is
    spread: of the facing run's places in the order in which they are met, `each` holds the stitches of every one (those
    that are a corner's own hold none; () where none are counted). Along a fold, `beside` is the row next to it, 0 where
    the fold runs up the rows.
    """

    side: int
    start: Point
    end: Point
    runs: tuple[EdgeRun, ...]
    exact: float
    count: int
    spacing: str
    mouth: bool = False
    each: tuple[int, ...] = ()
    beside: int = 0

    @property
    def layers(self) -> int:
        return 1 if self.mouth else len(self.runs)

    @property
    def facing(self) -> EdgeRun:
        return self.runs[0]

    @property
    def worked(self) -> tuple[int, ...]:
        """The numbers of the places that take a stitch, as they are met."""
        return tuple(number for number, n in zip(self.facing.each, self.each, strict=False) if n)

    @property
    def length_mm(self) -> float:
        return math.dist(self.start, self.end)


_PLACES = {
    ("row ends", False): "row end",
    ("row ends", True): "row of the fold",
    ("stitches", False): "stitch",
    ("stitches", True): "stitch",
    ("chains", False): "stitch",
    ("chains", True): "stitch",
}


def stretch_of(
    plan: Plan, folding: Folding, worked: tuple[Interval, float, int], own: tuple[bool, bool]
) -> Stretch:  # fmt: skip
    """An interval with what it asks for and what is worked, spread over its places but those that are corners' own:
    kind by kind where the row-end rule alone gives the count, else alike."""
    interval, exact, count = worked
    run = interval.runs[0]
    made = Stretch(interval.side, interval.start, interval.end, interval.runs, exact, count, "", interval.mouth)
    if interval.mouth:
        met = sum(r.count for r in interval.runs)
        return replace(made, spacing=spacing(spread(count, met), range(1, met + 1), "stitch"))
    if run.counts == "slant":
        return replace(made, spacing=f"{count} spread evenly along the slanting edge")
    numbers = run.each[own[0] : run.count - own[1]]
    lo, hi = run.numbers
    kinds = folding.piece.row_kinds[lo - 1 : hi] if run.counts == "row ends" and lo else ()
    by_kind = len(set(kinds)) > 1 and not plan.border_stitch_mm and count == round_half_up(float(row_end_sum(kinds)))
    each = _by_kind(kinds if run.last >= run.first else kinds[::-1]) if by_kind else spread(count, len(numbers))
    each = each if by_kind or run.last >= run.first else each[::-1]
    says = spacing_by_kind(kinds) if by_kind else spacing(each, numbers, _PLACES[run.counts, run.edge == "fold"])
    every = (*(0,) * own[0], *each, *(0,) * own[1])
    return replace(made, spacing=says, each=every, beside=_beside(folding, run))


def _by_kind(kinds: Sequence[str]) -> tuple[int, ...]:
    """The stitches of every row end by the rule, what is left over of one counted with the next."""
    sums = [round_half_up(float(so_far)) for so_far in accumulate(map(row_end_rate, kinds), initial=Fraction(0))]
    return tuple(b - a for a, b in pairwise(sums))


def _beside(folding: Folding, run: EdgeRun) -> int:
    """The row of the facing part that lies next to a fold along the rows."""
    if run.edge != "fold" or run.counts != "stitches":
        return 0
    piece, above_mm = folding.piece, folding.piece.height_mm - run.on_flat[0][1]
    below = min(range(len(piece.row_edges_mm)), key=lambda k: abs(piece.row_edges_mm[k] - above_mm))
    part = next((p for p in piece.parts if p.name == run.part and piece.axis == "rows"), None)
    return below + 1 if part is None or part.first <= below + 1 <= part.last else below
