"""Points that pull on few others, solved level by level; checked against numpy's own solver (LAPACK)."""

from __future__ import annotations

import numpy as np
import pytest
from hookfold.charts.layout.rounds import levels, springs
from hookfold.charts.layout.rounds.springs import Pull, Ref, Table, relaxed


def ladder(count: int, across: int, seed: int) -> tuple[levels.Sparse, np.ndarray]:
    """A matrix of rungs, each point tied to those a step and `across` steps on, and the same matrix whole."""
    rng = np.random.default_rng(seed)
    entries = []
    for step in (1, across):
        one = np.arange(count - step, dtype=np.intp)
        tie = rng.normal(size=len(one)) + 1j * rng.normal(size=len(one))
        firm = abs(tie).astype(np.complex128)
        entries += [
            (one, one + step, tie),
            (one + step, one, tie.conj()),
            (one, one, firm),
            (one + step, one + step, firm),
        ]
    whole = np.zeros((count, count), dtype=np.complex128)
    for rows, columns, numbers in entries:
        np.add.at(whole, (rows, columns), numbers)
    return levels.Sparse.of(entries, count, 0.01), whole + 0.01 * np.eye(count)


@pytest.mark.parametrize(("count", "across"), [(1, 1), (7, 3), (240, 12), (241, 5)])
def test_solving_by_levels_is_solving(count: int, across: int) -> None:
    matrix, whole = ladder(count, across, count)
    right = np.exp(1j * np.arange(count))
    assert np.abs(levels.solver(matrix)(right) - np.linalg.solve(whole, right)).max() < 1e-9


def test_no_level_pulls_on_any_but_its_neighbours() -> None:
    matrix, whole = ladder(120, 8, 4)
    found = levels.levels(matrix)
    assert sorted(np.concatenate(found).tolist()) == list(range(120)) and len(found) > 10
    for k, level in enumerate(found):
        for further in found[k + 2 :]:
            assert not whole[np.ix_(level, further)].any()


def test_points_that_nothing_ties_together_are_all_solved() -> None:
    one = np.array([0, 1, 0, 1, 2, 2, 3], dtype=np.intp), np.array([0, 1, 1, 0, 2, 2, 3], dtype=np.intp)
    matrix = levels.Sparse.of([(*one, np.array([2, 2, 1, 1, 1, 1, 4], dtype=np.complex128))], 4, 0.0)
    assert np.allclose(levels.solver(matrix)(np.array([3, 3, 4, 8], dtype=np.complex128)), [1, 1, 2, 2])


@pytest.mark.parametrize("terms", [springs.MOST_TERMS, springs.MOST_TERMS + 1, 60])
def test_a_sum_of_many_points_is_met_as_one_of_few(terms: int) -> None:
    """The middle of many points is pulled to a place, each of them to its own: least squares, solved by numpy."""
    table = Table()
    middle = table.add(Ref(tuple((k, 1.0 / terms) for k in range(terms))))
    each = [table.add(Ref(((k, 1.0),))) for k in range(terms)]
    places = np.exp(1j * np.arange(terms)) * 3.0
    pulls = [
        Pull(np.array([middle]), np.array([5.0]), lambda values: np.array([2.0 + 1.0j])),
        Pull(np.array(each), np.full(terms, 1.0), lambda values: places),
    ]
    found = relaxed(table, pulls, np.zeros(terms, dtype=np.complex128))
    rows = np.vstack([np.full(terms, np.sqrt(5.0) / terms), np.eye(terms)]).astype(np.complex128)
    wanted = np.linalg.lstsq(rows, np.concatenate([[np.sqrt(5.0) * (2.0 + 1.0j)], places]), rcond=None)[0]
    assert np.abs(found - wanted).max() < 1e-3


def test_a_large_piece_settles_where_a_small_one_would(monkeypatch: pytest.MonkeyPatch) -> None:
    """The same points by levels and by one inverse of all."""

    def settled() -> np.ndarray:
        table = Table()
        points = [Ref(((k, 1.0),)) for k in range(40)]
        ties = [table.add(points[k] - points[k - 1]) for k in range(40)]
        away = [table.add(ref) for ref in points]
        pulls = [
            Pull(np.array(ties), np.full(40, 1.0), lambda values: values[ties] / np.abs(values[ties])),
            Pull(np.array(away), np.full(40, 0.1), lambda values: values[away] * 1.5 / np.abs(values[away])),
        ]
        return relaxed(table, pulls, 7.0 * np.exp(1j * np.arange(40) * np.pi / 20))

    whole = settled()
    monkeypatch.setattr(levels, "LARGE", 10)
    assert np.abs(settled() - whole).max() < 0.01
