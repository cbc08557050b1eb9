"""Rounds are laid alike on every processor: no sum depends on which kernels a library picks."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest
from hookfold.charts.layout.rounds import linear

FLOWER = """Ch 5, join with sl st to form a ring.
Rnd 1: Ch 1, 12 sc in ring, join. (12 sc)
Rnd 2: Ch 1, sc in same st, *ch 5, skip next st, sc in next st; rep from * around, ending ch 5, join. (6 ch-5 lps)
Rnd 3: Ch 1, (sc, hdc, 3 dc, hdc, sc) in each ch-5 lp around, join.
"""
#: Kernels of the library behind numpy, and numpy's own of the last years, as other processors have them.
OLDER = {"OPENBLAS_CORETYPE": "Nehalem", "NPY_DISABLE_CPU_FEATURES": "AVX512F AVX512CD AVX512_SKX"}


def test_a_chart_in_rounds_is_the_same_by_other_kernels(tmp_path: Path):
    source = tmp_path / "flower.txt"
    source.write_text(FLOWER, "utf-8")
    drawn = []
    for name, kernels in (("here", {}), ("older", OLDER)):
        out = tmp_path / f"{name}.svg"
        command = [sys.executable, "-c", "from hookfold.cli import main; main()", "chart", str(source), "-o", str(out)]
        subprocess.run(command, check=True, env={**os.environ, **kernels}, capture_output=True)
        drawn.append(out.read_bytes())
    assert drawn[0] == drawn[1]


def test_the_inverse_agrees_with_numpys():
    numbers = np.random.default_rng(3)
    half = numbers.normal(size=(40, 30)) + 1j * numbers.normal(size=(40, 30))
    matrix = half.conj().T @ half + 1e-6 * np.eye(30)
    assert np.abs(linear.inverse(matrix) - np.linalg.inv(matrix)).max() < 1e-9
    vector = numbers.normal(size=30) + 0j
    assert np.abs(linear.times(matrix, vector) - matrix @ vector).max() < 1e-9


@pytest.mark.parametrize("near", [3, 80])
def test_a_large_matrix_is_swept_to_the_same_numbers_whether_whole_or_in_parts(near: int):
    """Points that pull on those near by alone (the rest of the matrix is 0), and all on all."""
    numbers = np.random.default_rng(5)
    half = numbers.normal(size=(80, 80)) + 1j * numbers.normal(size=(80, 80))
    away = np.abs(np.subtract.outer(np.arange(80), np.arange(80)))
    half[away > near] = 0.0
    matrix = half.conj().T @ half + np.eye(80)
    assert (linear.swept_in_parts(matrix) == linear.swept(matrix)).all()


def test_a_large_matrix_is_swept_a_few_rows_at_a_time(monkeypatch: pytest.MonkeyPatch):
    numbers = np.random.default_rng(7)
    half = numbers.normal(size=(50, 50)) + 1j * numbers.normal(size=(50, 50))
    matrix = half.conj().T @ half + np.eye(50)
    monkeypatch.setattr(linear, "AT_ONCE", 7 * 50 + 1)
    assert (linear.swept_in_parts(matrix) == linear.swept(matrix)).all()
