"""Points that pull on each other, relaxed: each pull says what a difference of points should be, all are met at best.

Points are complex numbers. A `Ref` is a sum of points, each times a fixed complex factor, and a constant. A pull looks
at the value of a reference and says the nearest value that would content it; all points are then set where the sum of
squares is least, by a matrix that never changes. This is done a fixed number of times, so the same input always gives
the same places (Anderson's extrapolation makes it fast enough).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import field

import numpy as np
import numpy.typing as npt

from ...made_late import dataclass
from . import levels, linear

Points = npt.NDArray[np.complex128]
Reals = npt.NDArray[np.float64]
Ids = npt.NDArray[np.intp]
#: How often the points are set anew, and how many of the last steps each new one is extrapolated from.
TURNS, MEMORY = 150, 6
#: Points that move less than this in a turn stand still.
STILL = 5e-4
#: References of more terms than this are kept apart: a table as wide as the longest would be mostly empty.
MOST_TERMS = 16
#: What keeps the matrix sound where nothing holds a point.
SLACK = 1e-6


@dataclass(frozen=True, slots=True)
class Ref:
    """A sum of points times factors, and a constant."""

    terms: tuple[tuple[int, complex], ...] = ()
    const: complex = 0.0

    def __add__(self, other: Ref) -> Ref:
        return Ref((*self.terms, *other.terms), self.const + other.const)

    def __sub__(self, other: Ref) -> Ref:
        return self + other.times(-1.0)

    def times(self, factor: complex) -> Ref:
        return Ref(tuple((k, c * factor) for k, c in self.terms), self.const * factor)


def mean(refs: Sequence[Ref]) -> Ref:
    """The middle of several references."""
    return sum(refs, Ref()).times(1.0 / len(refs))


@dataclass(slots=True)
class Table:
    """References that are all evaluated at once, by their numbers."""

    refs: list[Ref] = field(default_factory=list)

    def add(self, ref: Ref) -> int:
        self.refs.append(ref)
        return len(self.refs) - 1

    def packed(self) -> Packed:
        """All references as arrays."""
        short = [r.terms if len(r.terms) <= MOST_TERMS else () for r in self.refs]
        most = max(map(len, short), default=1) or 1
        ids = np.zeros((len(self.refs), most), dtype=np.intp)
        factors = np.zeros((len(self.refs), most), dtype=np.complex128)
        for row, terms in enumerate(short):
            for k, (point, factor) in enumerate(terms):
                ids[row, k], factors[row, k] = point, factor
        consts = np.array([r.const for r in self.refs], dtype=np.complex128)
        return Packed(
            ids, factors, consts, {k: _gathered(r) for k, r in enumerate(self.refs) if not short[k] and r.terms}
        )


@dataclass(frozen=True, slots=True)
class Packed:
    """References as arrays: the points of each (a row) with their factors and its constant. Of a `long` one, with more
    terms than `MOST_TERMS`, the row is empty: its points and factors stand under its number."""

    ids: Ids
    factors: Points
    consts: Points
    long: Mapping[int, tuple[Ids, Points]]

    def values(self, points: Points) -> Points:
        """What all are worth where the points are."""
        values: Points = linear.product(self.factors, points[self.ids]).sum(axis=1) + self.consts
        for number, (ids, factors) in self.long.items():
            values[number] += linear.product(factors, points[ids]).sum()
        return values

    def entries(self, firm: Reals) -> Iterator[tuple[Ids, Ids, Points]]:
        """What the least squares add up to a matrix: rows, columns and numbers; `firm` is how firmly each is held."""
        for a in range(self.ids.shape[1]):
            for b in range(self.ids.shape[1]):
                yield self.ids[:, a], self.ids[:, b], firm * self.factors[:, a].conj() * self.factors[:, b]
        for number, (ids, factors) in self.long.items():
            held = firm[number] * linear.product(factors.conj()[:, None], factors[None, :])
            yield np.repeat(ids, len(ids)), np.tile(ids, len(ids)), held.ravel()

    def back(self, used: Ids, pulled: Points, count: int) -> Points:
        """What is wanted of the used ones as what is wanted of the points."""
        right = _summed(self.ids[used].ravel(), (self.factors[used].conj() * pulled[used][:, None]).ravel(), count)
        for number, (ids, factors) in self.long.items():
            right[ids] += linear.product(factors.conj(), pulled[number : number + 1])
        return right


def _gathered(ref: Ref) -> tuple[Ids, Points]:
    """A reference's points, each once, and their factors."""
    ids, back = np.unique(np.array([point for point, _ in ref.terms], dtype=np.intp), return_inverse=True)
    return ids, _summed(back.ravel(), np.array([factor for _, factor in ref.terms], dtype=np.complex128), len(ids))


#: From the values of all references to the values wanted of some of them.
Wish = Callable[[Points], Points]


@dataclass(frozen=True, slots=True)
class Pull:
    """What some references should be: their numbers, how firmly, and the wish."""

    refs: Ids
    weights: Reals
    wish: Wish


def relaxed(
    table: Table, pulls: Sequence[Pull], start: Points, *, free: bool = False, turns: int = TURNS,
    even: Callable[[Points], Points] | None = None,
) -> Points:  # fmt: skip
    """The points where the pulls are met at best, from a start; `free` where all may turn about 0 together.

    There all are kept as a whole where they began. `even` makes the points as even as they are to be, each time.
    """
    packed = table.packed()
    used = np.unique(np.concatenate([p.refs for p in pulls]))
    every_ref, every_weight = np.concatenate([p.refs for p in pulls]), np.concatenate([p.weights for p in pulls])
    firm: Reals = np.asarray(np.bincount(every_ref, every_weight, len(table.refs)), dtype=np.float64)
    count = len(start)
    solve = _solver(packed.entries(firm), count)

    def step(points: Points) -> Points:
        values = packed.values(points)
        wished = np.concatenate([pull.wish(values) for pull in pulls])
        pulled = _summed(every_ref, every_weight * (wished - packed.consts[every_ref]), len(values))
        there = solve(packed.back(used, pulled, count) + SLACK * points)
        if even:
            there = even(there)
        if not free:
            return there
        turn = linear.inner(there, start)
        kept: Points = there * (turn / abs(turn))
        return kept

    return _extrapolated(step, even(start) if even else start, turns)


def _solver(entries: Iterator[tuple[Ids, Ids, Points]], count: int) -> Callable[[Points], Points]:
    """What gives the points that a right side asks for."""
    if count > levels.LARGE:
        return levels.solver(levels.Sparse.of(entries, count, SLACK))
    matrix = np.zeros((count, count), dtype=np.complex128)
    for rows, columns, numbers in entries:
        np.add.at(matrix, (rows, columns), numbers)
    inverse = linear.inverse(matrix + SLACK * np.eye(count))
    return lambda right: linear.times(inverse, right)


def _summed(ids: Ids, values: Points, count: int) -> Points:
    """The sums of values that have one id."""
    sums: Points = np.bincount(ids, values.real, count) + 1j * np.bincount(ids, values.imag, count)
    return sums


def _extrapolated(step: Callable[[Points], Points], start: Points, turns: int) -> Points:
    """The place that `step` leaves alone, by Anderson's extrapolation; begun anew where a step goes astray."""
    here = start
    before: list[tuple[Points, Points]] = []
    best, least = start, np.inf
    for _ in range(turns):
        there = step(here)
        off = there - here
        size = float(np.abs(off).max())
        if size < least:
            best, least = there, size
        if size < STILL:
            break
        if size > 4.0 * least:
            before, here, least = [], there, size
            continue
        before = [*before[-MEMORY:], (there, off)]
        here = _mixed(before)
    return best


def _mixed(before: Sequence[tuple[Points, Points]]) -> Points:
    there, off = before[-1]
    if len(before) < 2:
        return there
    steps = np.array([off - o for _, o in before[:-1]])
    moves = np.array([there - t for t, _ in before[:-1]])
    gram = linear.gram(steps, steps)
    gram += np.eye(len(gram)) * (1e-8 * np.trace(gram) + 1e-14)
    shares = linear.solved(gram, linear.gram(steps, off[None, :])[:, 0])
    mixed: Points = there - (shares[:, None] * moves).sum(axis=0)
    return mixed
