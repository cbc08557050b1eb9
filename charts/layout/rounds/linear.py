"""The little linear algebra that laying rounds needs, in one order of sums and products.

A library picks its kernels by the processor and so sums in another order on another one; where stitches settle by
turns, the last bit of a sum can end as a different place. Elementwise products and numpy's pairwise sums are the same
everywhere.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Complex = NDArray[np.complex128]
Reals = NDArray[np.float64]
#: The real and the imaginary parts of complex numbers.
Parts = tuple[Reals, Reals]
#: How many numbers of a matrix are worked on at once.
AT_ONCE = 1 << 15
#: A matrix of so many rows is small: there a sweep costs less than what could be left out of it.
SMALL = 96


def product(one: Complex, other: Complex) -> Complex:
    """The products of complex numbers, element by element, every part rounded by itself."""
    return one.real * other.real - one.imag * other.imag + 1j * (one.real * other.imag + one.imag * other.real)


def inverse(matrix: Complex) -> Complex:
    """The inverse of a Hermitian positive definite matrix (n x n), by Gauss and Jordan's sweeps; such a matrix needs no
    exchange of rows.

    >>> bool(abs(inverse(np.array([[2.0 + 0j, 1j], [-1j, 1.0 + 0j]])) - np.array([[1, -1j], [1j, 2]])).max() < 1e-12)
    True
    """
    return swept(matrix) if len(matrix) <= SMALL else swept_in_parts(matrix)


def swept(matrix: Complex) -> Complex:
    """The sweeps over the whole matrix each time."""
    left = matrix.copy()
    for k in range(len(left)):
        pivot = left[k, k].real
        row, column = left[k] / pivot, left[:, k].copy()
        left -= product(column[:, None], row[None, :])
        left[k] = row
        left[:, k] = -column / pivot
        left[k, k] = 1.0 / pivot
    return left


def swept_in_parts(matrix: Complex) -> Complex:
    """The same sums in the same order, quicker for a large matrix: a sweep leaves what lies past the last number of its
    row and column alone, for nothing is taken off there. Stitches pull on those near by, so most of the matrix is 0.
    """
    left = (matrix.real.copy(), matrix.imag.copy())
    for k in range(len(matrix)):
        share = 1.0 / left[0][k, k]
        wide, high = _reach(*(part[k] for part in left)), _reach(*(part[:, k] for part in left))
        row = (left[0][k, :wide] * share, left[1][k, :wide] * share)
        column = (left[0][:high, k].copy(), left[1][:high, k].copy())
        _take_off(left, column, row)
        for part, along, down in zip(left, row, column, strict=True):
            part[k, :wide], part[:high, k] = along, -down * share
        left[0][k, k], left[1][k, k] = share, 0.0
    whole: Complex = left[0] + 1j * left[1]
    return whole


def _reach(real: Reals, imaginary: Reals) -> int:
    """How many of a row's numbers there are up to the last that is not 0."""
    return int(np.flatnonzero((real != 0.0) | (imaginary != 0.0))[-1]) + 1


def _take_off(left: Parts, column: Parts, row: Parts) -> None:
    """Take the products of a column with a row off a matrix's first rows and columns, in place; as `product` has them,
    a few rows at a time, so that what is worked on stays near the processor."""
    wide, high = len(row[0]), len(column[0])
    lines = max(AT_ONCE // wide, 1)
    one, other = np.empty((lines, wide)), np.empty((lines, wide))
    for first in range(0, high, lines):
        some = slice(first, min(first + lines, high))
        real, imaginary = column[0][some, None], column[1][some, None]
        made, less = one[: len(real)], other[: len(real)]
        np.multiply(real, row[0], out=made)
        np.multiply(imaginary, row[1], out=less)
        made -= less
        left[0][some, :wide] -= made
        np.multiply(real, row[1], out=made)
        np.multiply(imaginary, row[0], out=less)
        made += less
        left[1][some, :wide] -= made


def times(matrix: Complex, vector: Complex) -> Complex:
    """A matrix (m x n) by a vector (n)."""
    summed: Complex = product(matrix, vector[None, :]).sum(axis=1)
    return summed


def inner(one: Complex, other: Complex) -> complex:
    """The inner product of two vectors, the first conjugated."""
    return complex(product(one.conj(), other).sum())


def gram(rows: Complex, others: Complex) -> Reals:
    """The real parts of the inner products of rows (m x n) with others (k x n): m x k."""
    summed: Reals = product(rows.conj()[:, None, :], others[None, :, :]).sum(axis=2).real
    return summed


def solved(matrix: Reals, right: Reals) -> Reals:
    """The solution of a small symmetric positive definite system.

    >>> solved(np.array([[4.0, 2.0], [2.0, 3.0]]), np.array([2.0, 3.0])).round(6).tolist()
    [0.0, 1.0]
    """
    return times(inverse(matrix.astype(np.complex128)), right.astype(np.complex128)).real.copy()
