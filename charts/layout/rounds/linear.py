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


def product(one: Complex, other: Complex) -> Complex:
    """The products of complex numbers, element by element, every part rounded by itself."""
    return one.real * other.real - one.imag * other.imag + 1j * (one.real * other.imag + one.imag * other.real)


def inverse(matrix: Complex) -> Complex:
    """The inverse of a Hermitian positive definite matrix (n x n), by Gauss and Jordan's sweeps; such a matrix needs no
    exchange of rows.

    >>> bool(abs(inverse(np.array([[2.0 + 0j, 1j], [-1j, 1.0 + 0j]])) - np.array([[1, -1j], [1j, 2]])).max() < 1e-12)
    True
    """
    swept = matrix.copy()
    for k in range(len(swept)):
        pivot = swept[k, k].real
        row, column = swept[k] / pivot, swept[:, k].copy()
        swept -= product(column[:, None], row[None, :])
        swept[k] = row
        swept[:, k] = -column / pivot
        swept[k, k] = 1.0 / pivot
    return swept


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
