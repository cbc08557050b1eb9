"""Rounds with corners: which side a stitch stands on, and what keeps the sides straight."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import field

import numpy as np

from ...made_late import dataclass
from .form import Form
from .net import Net
from .plan import Planned, in_corner_fans
from .springs import Ids, Points, Pull, Ref, Table

#: How firmly what stands on a side is drawn to its line, and a corner to the line of the corners inside.
LINE, DIAGONAL = 5.0, 3.0
#: How far the halves of a corner lean towards its diagonal, and how far a corner's chains rise over their ends.
CORNER_LEAN = math.radians(17.0)
CORNER_BOW = 0.3


@dataclass(slots=True)
class Sides:
    """The sides of all rounds; where there are none everything is about the centre.

    `level` is the height of the ring that the first round stands in. Sides are numbered over all rounds.
    """

    net: Net
    form: Form
    level: float
    ends: list[tuple[int, int]] = field(default_factory=list)
    _side: dict[tuple[int, int], int] = field(default_factory=dict)
    _orbit: list[int] = field(default_factory=list)

    @classmethod
    def found(cls, net: Net, form: Form, level: float, table: Table) -> Sides:
        """The sides of rounds that have corners, their ends in the table."""
        made = cls(net, form, level)
        for k, round_ in enumerate(net.rounds):
            if round_.corners:
                made._add(k, round_, table)
        return made

    def _add(self, k: int, round_: Planned, table: Table) -> None:
        """Every side that has a top in the first sector."""
        tops, count = len(round_.tops), len(round_.corners)
        marks = sorted(t + (0.5 if run else 0.0) for t, run in round_.corners)
        is_run = round_.corners[0][1]
        around = [m + tops * turn for turn in (-1, 0, 1) for m in marks]
        each, fanned = self.net.each(round_), in_corner_fans(round_)
        for j, (a, b) in enumerate(itertools.pairwise(around)):
            here = [t for t in range(each) if a < t < b and t not in fanned]
            if not here and not any(a < t + 0.5 < b for t in range(each)):
                continue
            number = len(self.ends)
            refs = [self.net.arch(k, math.floor(m)) if is_run else self.net.head(k, math.floor(m)) for m in (a, b)]
            self.ends.append((table.add(refs[0]), table.add(refs[1])))
            self._orbit.append(k * 100 + j % max(count // self.net.n, 1))
            for t in range(each):
                if a < t < b and t not in fanned:
                    self._side[(k, 2 * t)] = number
                if a < t + 0.5 < b and t not in fanned and (a < t or not is_run):
                    self._side[(k, 2 * t + 1)] = number

    def of(self, k: int, t: int) -> int:
        """The side a top of the first sector stands on; -1 for none."""
        return self._side.get((k, 2 * t), -1)

    def between(self, k: int, t: int) -> int:
        """The side that a top and the next lie on; -1 for none."""
        return self._side.get((k, 2 * t + 1), -1)

    def out(self, every: Points, points: Points, which: Ids) -> Points:
        """The unit vectors outward at points: square to their side, else away from the centre."""
        away = self.form.out(points)
        if not self.ends:
            return away
        return np.where(which < 0, away, self._normals(every)[which])

    def _normals(self, every: Points) -> Points:
        ends = every[np.array(self.ends, dtype=np.intp)]
        unit = ends / np.maximum(np.abs(ends), 1e-9)
        both = unit.sum(axis=1)
        normals: Points = both / np.maximum(np.abs(both), 1e-9)
        return normals

    def tilt(self, k: int, group: Sequence[int]) -> float:
        """How far a sheaf leans off its side's normal: beside a corner's chains, towards them."""
        round_ = self.net.rounds[k]
        tops = len(round_.tops)
        cuts = {t for t, run in round_.corners if run}
        places = {top.made.feet for top in round_.tops}
        if len(places) < 2:
            return 0.0
        sign = round_.sign
        after, before = group[-1] % tops in cuts, (group[0] - 1) % tops in cuts
        feet = round_.tops[group[0] % tops].made.feet
        if after and round_.tops[(group[-1] + 1) % tops].made.feet == feet:
            return CORNER_LEAN * sign
        if before and round_.tops[(group[0] - 1) % tops].made.feet == feet:
            return -CORNER_LEAN * sign
        return 0.0

    def taller(self, k: int, t: int) -> float:
        """How much taller a single stitch on a corner is drawn than on a side."""
        round_ = self.net.rounds[k]
        alone = (t, False) in round_.corners and t not in in_corner_fans(round_)
        return 1.0 / math.cos(math.pi / len(round_.corners)) if alone else 1.0

    def bow(self, k: int, t: int) -> float:
        """How far the chains after a top rise over their ends at least."""
        return CORNER_BOW if (t, True) in self.net.rounds[k].corners else 0.0

    def is_corner(self, k: int, t: int) -> bool:
        """Whether the chains after a top are a corner."""
        return (t, True) in self.net.rounds[k].corners

    def lines(self, table: Table) -> list[Pull]:
        """What draws the tops of each side to one line."""
        found = []
        for k, round_ in enumerate(self.net.rounds):
            here = [t for t in range(self.net.each(round_)) if self.of(k, t) >= 0]
            if here:
                found.append(self._line(table, [self.net.head(k, t) for t in here], [self.of(k, t) for t in here]))
        shaped = [k for k, round_ in enumerate(self.net.rounds) if round_.corners]
        return found + [self._diagonal(table, below, k) for below, k in itertools.pairwise(shaped)]

    def _diagonal(self, table: Table, below: int, k: int) -> Pull:
        """Corners on one line with those inside them: without this a crowded shape would twist."""
        inner, outer = (np.array([table.add(ref) for ref in self._corners(j)]) for j in (below, k))

        def wish(every: Points) -> Points:
            units = every[inner] / np.maximum(np.abs(every[inner]), 1e-9)
            near = (every[outer][:, None] * units.conj()[None, :]).real.argmax(axis=1)
            along: Points = units[near] * np.abs(every[outer])
            return along

        return Pull(outer, np.full(len(outer), DIAGONAL), wish)

    def _corners(self, k: int) -> list[Ref]:
        return [self.net.arch(k, t) if run else self.net.head(k, t) for t, run in self.net.rounds[k].corners]

    def _line(self, table: Table, refs: Sequence[Ref], side: Sequence[int]) -> Pull:
        ids, which = np.array([table.add(r) for r in refs]), np.array(side)
        _, orbit = np.unique([self._orbit[s] for s in side], return_inverse=True)
        sizes = np.bincount(orbit)

        def wish(every: Points) -> Points:
            values, normal = every[ids], self._normals(every)[which]
            far = (values * normal.conj()).real
            mean = np.bincount(orbit, far) / sizes
            straight: Points = values + (mean[orbit] - far) * normal
            return straight

        return Pull(ids, np.full(len(ids), LINE), wish)
