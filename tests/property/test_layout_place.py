"""Placing: gaps are kept, the order is kept, and no other placing is nearer."""

import itertools
import math

from hookfold.charts.layout.placing.isotonic import place, settle
from hypothesis import given
from hypothesis import strategies as st

WANTS = st.lists(st.floats(-20, 20), min_size=1, max_size=30)
GAP = st.floats(0.1, 3.0)


@given(WANTS, st.data())
def test_gaps_are_kept(wants, data):
    gaps = data.draw(st.lists(GAP, min_size=len(wants) - 1, max_size=len(wants) - 1))
    found = place(wants, gaps)
    assert all(b - a >= gap - 1e-9 for a, b, gap in zip(found, found[1:], gaps, strict=False))


@given(WANTS)
def test_the_middle_of_all_is_kept(wants):
    found = place(wants, [1.0] * (len(wants) - 1))
    assert math.isclose(sum(found), sum(wants), abs_tol=1e-6)


@given(WANTS, st.data())
def test_no_shifted_block_is_nearer(wants, data):
    """Optimality (Karush, Kuhn, Tucker): moving any suffix right, or any prefix left, never helps."""
    gaps = [1.0] * (len(wants) - 1)
    found = place(wants, gaps)
    cut = data.draw(st.integers(0, len(wants) - 1))
    step = 1e-4
    cost = sum((a - b) ** 2 for a, b in zip(found, wants, strict=True))
    right = found[:cut] + [x + step for x in found[cut:]]
    left = [x - step for x in found[: cut + 1]] + found[cut + 1 :]
    for moved in (right, left):
        assert sum((a - b) ** 2 for a, b in zip(moved, wants, strict=True)) >= cost - 1e-7


@given(WANTS)
def test_mirroring_mirrors(wants):
    gaps = [1.0] * (len(wants) - 1)
    there = place(wants, gaps)
    back = place([-w for w in reversed(wants)], gaps)
    assert all(math.isclose(a, -b, abs_tol=1e-6) for a, b in zip(there, reversed(back), strict=True))


@given(WANTS, st.data())
def test_settling_keeps_gaps_whatever_is_tied(wants, data):
    steps = data.draw(
        st.lists(st.sampled_from([None, 1.0, 1.4]), min_size=len(wants) - 1, max_size=len(wants) - 1)
    )
    found = settle(wants, [1.0] * (len(wants) - 1), steps)
    assert all(b - a >= 1.0 - 1e-6 for a, b in itertools.pairwise(found))
