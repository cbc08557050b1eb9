"""Many points that each pull on few others: what they ask for is solved level by level.

From a point at the border, those it pulls on are the next level, those that they pull on the one after, and so on: no
level pulls on any but the one before and the one behind, so that only small matrices are inverted, one for each level
(a block tridiagonal matrix, by elimination; sums in one order, as in `linear`).
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

import numpy as np
import numpy.typing as npt

from ...made_late import dataclass
from . import linear

Ids = npt.NDArray[np.intp]
Complex = npt.NDArray[np.complex128]
#: Fewer points than this are solved by one inverse of all, which is as quick.
LARGE = 900


@dataclass(frozen=True, slots=True)
class Sparse:
    """A Hermitian positive definite matrix (n x n) of few numbers that are not 0: of each row the columns and the
    numbers from `begins[row]` up to `begins[row + 1]`."""

    begins: Ids
    columns: Ids
    numbers: Complex

    @classmethod
    def of(cls, entries: Iterable[tuple[Ids, Ids, Complex]], count: int, slack: float) -> Sparse:
        """The sum of entries (rows, columns, numbers), with `slack` added along the diagonal."""
        every = np.arange(count, dtype=np.intp)
        parts = [*((r, c, n) for r, c, n in entries), (every, every, np.full(count, slack, dtype=np.complex128))]
        rows, columns, numbers = (np.concatenate(part) for part in zip(*parts, strict=True))
        some = (numbers != 0.0) | (rows == columns)
        places, at = np.unique(rows[some] * count + columns[some], return_inverse=True)
        summed = np.bincount(at.ravel(), numbers[some].real) + 1j * np.bincount(at.ravel(), numbers[some].imag)
        return cls(np.searchsorted(places, np.arange(count + 1) * count), places % count, summed)

    def beside(self, points: Ids) -> Ids:
        """The points that some points pull on, each once, in order."""
        return np.unique(np.concatenate([self.columns[self.begins[p] : self.begins[p + 1]] for p in points]))

    def block(self, rows: Ids, columns: Ids) -> Complex:
        """The numbers of some rows in some columns (in order)."""
        found = np.zeros((len(rows), len(columns)), dtype=np.complex128)
        for k, row in enumerate(rows):
            here = slice(self.begins[row], self.begins[row + 1])
            at = np.searchsorted(columns, self.columns[here])
            inside = at < len(columns)
            inside[inside] = columns[at[inside]] == self.columns[here][inside]
            found[k, at[inside]] = self.numbers[here][inside]
        return found


def levels(matrix: Sparse) -> list[Ids]:
    """The levels of points, from one at the border; points that nothing ties to those before begin anew."""
    count = len(matrix.begins) - 1
    seen, found = np.zeros(count, dtype=bool), list[Ids]()
    while not seen.all():
        first = int(np.flatnonzero(~seen)[0])
        far = _levels_from(matrix, first)[-1]
        some = _levels_from(matrix, int(far[0]))
        found += some
        for level in some:
            seen[level] = True
    return found


def _levels_from(matrix: Sparse, first: int) -> list[Ids]:
    seen = np.zeros(len(matrix.begins) - 1, dtype=bool)
    level, found = np.array([first], dtype=np.intp), list[Ids]()
    while len(level):
        seen[level] = True
        found.append(level)
        near = matrix.beside(level)
        level = near[~seen[near]]
    return found


def solver(matrix: Sparse) -> Callable[[Complex], Complex]:
    """What gives the x for which the matrix by x is a right side.

    >>> ends = np.array([0, 2, 4]), np.array([0, 1, 0, 1]), np.array([4.0, 2.0, 2.0, 3.0], dtype=complex)
    >>> solver(Sparse(*ends))(np.array([8.0, 8.0 + 0j])).round(6).real.tolist()
    [1.0, 2.0]
    """
    every = levels(matrix)
    inverses, carried = list[Complex](), list[Complex]()
    for k, level in enumerate(every):
        own = matrix.block(level, level)
        if k:
            tie = matrix.block(level, every[k - 1])
            carried.append(_by(tie, inverses[-1]))
            own = own - _by(carried[-1], tie.conj().T)
        inverses.append(linear.inverse(own))
    return lambda right: _solved(every, inverses, carried, right)


def _solved(every: Sequence[Ids], inverses: Sequence[Complex], carried: Sequence[Complex], right: Complex) -> Complex:
    """Down the levels with what each leaves for the next, and up again."""
    left = [right[every[0]]]
    for level, carry in zip(every[1:], carried, strict=True):
        left.append(right[level] - linear.times(carry, left[-1]))
    found = np.zeros(len(right), dtype=np.complex128)
    for k in range(len(every) - 1, -1, -1):
        found[every[k]] = linear.times(inverses[k], left[k])
        if k < len(every) - 1:
            found[every[k]] -= linear.times(carried[k].conj().T, found[every[k + 1]])
    return found


def _by(one: Complex, other: Complex) -> Complex:
    """The product of two matrices (m x k, k x n), row by row."""
    return np.array([linear.product(row[:, None], other).sum(axis=0) for row in one])
