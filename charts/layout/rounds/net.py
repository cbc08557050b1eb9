"""Where everything of the rounds is, as sums of the points of one sector: heads, tops of arches, feet.

One sector's heads and arches are the unknown points; those of the others are the same, turned. Coordinates are complex
numbers, x to the right and y upward, in stitch widths.
"""

from __future__ import annotations

import cmath
import math
from collections.abc import Sequence
from dataclasses import field

from ...made_late import dataclass
from ...model.cloth.fabric import Foot
from ..placing.tops import own_rise
from .plan import Middle, Planned, loop_size, place_of
from .springs import Ref, mean

#: How far apart feet in one space stand, by the mean height of their stitches, and at least and at most.
APART, LOWER_APART, LEAST_APART, MOST_APART = 0.95, 0.26, 0.26, 0.66
#: How far to either side of its middle they may reach, as shares of an arch, by how many they are.
REACH = {1: 0.0, 2: 0.1, 3: 0.2, 4: 0.3}
MOST_REACH = 0.42
#: The same for two and three stitches no taller than a cross, which would lean over on one foot.
LOW, LOW_APART, LOW_REACH = 1.05, 1.05, {2: 0.19, 3: 0.28}
#: The length of an arch: that of its chains, and what its ends take.
CHAIN_LONG, ENDS_LONG = 0.8, 0.5


@dataclass(slots=True)
class Net:
    """The rounds about their centre in n sectors; `middle` says where a foot goes into the centre."""

    rounds: Sequence[Planned]
    n: int
    middle: Middle
    count: int = 0
    _heads: list[int] = field(default_factory=list)
    _arches: list[dict[int, int]] = field(default_factory=list)

    def __post_init__(self) -> None:
        for round_ in self.rounds:
            self._heads.append(self.count)
            self.count += self.each(round_)
            here = [t for t in range(self.each(round_)) if round_.tops[t].chains]
            self._arches.append({t: self.count + i for i, t in enumerate(here)})
            self.count += len(here)

    def each(self, round_: Planned) -> int:
        """How many tops of a round one sector has."""
        return len(round_.tops) // self.n

    def _turn(self, k: int, t: int) -> tuple[int, complex]:
        """The top of the first sector that a top is like, and the turn from there."""
        sector, local = divmod(t, self.each(self.rounds[k]))
        return local, cmath.rect(1.0, self.rounds[k].sign * math.tau * sector / self.n)

    def head(self, k: int, t: int) -> Ref:
        """The head of top t of round k; t may go on round the work."""
        local, turn = self._turn(k, t)
        return Ref(((self._heads[k] + local, turn),))

    def arch(self, k: int, t: int) -> Ref:
        """The middle of the chains after top t of round k."""
        local, turn = self._turn(k, t)
        return Ref(((self._arches[k][local], turn),))

    def on_arch(self, k: int, t: int, share: float) -> Ref:
        """The place at a share of the chains after a top: on the cubic through their middle."""
        a, b, top = self.head(k, t), self.head(k, t + 1), self.arch(k, t)
        rest = 1.0 - share
        inner, outer = 3.0 * rest * rest * share, 3.0 * rest * share * share
        ends = a.times(rest**3 - outer / 3.0) + b.times(share**3 - inner / 3.0)
        return ends + top.times((inner + outer) * 4.0 / 3.0)

    def feet(self, k: int, t: int) -> list[Ref]:
        """Where a top goes in; nothing where it goes into a ring, or where that is not on the chart."""
        found = self._feet(k, t)
        if found or any(f.hold == "ring" for f in self.rounds[k].tops[t].made.feet):
            return found
        near = (self._feet(k, t + step) for step in (1, -1))  # a beginning chain without a foot of its own
        return next((feet for feet in near if feet), [])

    def _feet(self, k: int, t: int) -> list[Ref]:
        tops = self.rounds[k].tops
        made = tops[t % len(tops)].made
        found = (self._foot(k, t % len(tops), foot) for foot in made.feet)
        return [ref for ref in found if ref is not None]

    def _foot(self, k: int, t: int, foot: Foot) -> Ref | None:
        down = k - foot.back
        if foot.back < 1 or down < -1 or foot.hold == "ring":
            return None
        if down == -1:
            at = self.middle(foot)
            return None if at is None else Ref((), at)
        below = self.rounds[down]
        place = place_of(below, foot)
        if place is None:
            return None
        top, arched, share = place
        if arched:
            return self.on_arch(down, top, share + self.aside(k, t, foot))
        here = self.head(down, top)
        return mean([here, self.head(down, top - 1)]) if share else here

    def aside(self, k: int, t: int, foot: Foot) -> float:
        """How far from the middle of its space a foot stands, as a share of the chains; 0 for others."""
        round_, below = self.rounds[k], self.rounds[k - foot.back]
        if foot.hold != "space" or foot.at not in below.runs:
            return 0.0
        here = round_.spaces[(foot.back, foot.at)]
        if len(here) < 2:
            return 0.0
        run = below.runs[foot.at]
        high = sum(own_rise(round_.row.stitches[i]) for i in here) / len(here)
        low = high <= LOW and len(here) in LOW_REACH
        apart = LOW_APART if low else min(max(APART - LOWER_APART * high, LEAST_APART), MOST_APART)
        reach = LOW_REACH[len(here)] if low else REACH.get(len(here), MOST_REACH)
        whole = CHAIN_LONG * loop_size(below.row, foot.at) + ENDS_LONG
        step = min(apart / whole, 2.0 * reach / (len(here) - 1)) * (run.last - run.first)
        rank = here.index(round_.tops[t].item) - (len(here) - 1) / 2.0
        return rank * step * round_.sign * below.sign
