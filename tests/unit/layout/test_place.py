"""Placing along a line."""

import itertools

import pytest
from hookfold.charts.layout.placing.isotonic import follow, place, pool, settle


def test_feet_in_one_place_fan_out_evenly():
    assert place([3.0] * 5, [1.0] * 4) == pytest.approx([1.0, 2.0, 3.0, 4.0, 5.0])


def test_wants_that_clear_each_other_are_met():
    assert place([0.0, 1.0, 3.0], [1.0, 1.0]) == pytest.approx([0.0, 1.0, 3.0])


def test_pool_is_the_mean_of_what_is_out_of_order():
    assert pool([1.0, 3.0, 2.0, 4.0], [1.0] * 4) == pytest.approx([1.0, 2.5, 2.5, 4.0])


def test_pool_by_hand_with_weights():
    assert pool([4.0, 1.0], [3.0, 1.0]) == pytest.approx([3.25, 3.25])


def test_a_decrease_closes_up_and_stays_in_the_middle():
    wants = [0.5, 2.0, 3.0, 4.0, 5.0, 6.5]
    found = settle(wants, [1.0] * 5, [1.0] * 5)
    assert [b - a for a, b in itertools.pairwise(found)] == pytest.approx([1.0] * 5, abs=0.06)
    assert sum(found) / 6 == pytest.approx(3.5)


def test_chains_let_go():
    assert settle([0.0, 4.0], [2.0], [None]) == pytest.approx([0.0, 4.0])


def test_follow_without_ties_is_its_targets():
    assert follow([1.0, 5.0], [1.0, 1.0], [0.0], [0.0]) == pytest.approx([1.0, 5.0])


def test_follow_meets_half_way():
    """Least (a - 0)^2 + (b - 3)^2 + (b - a)^2: a = 1, b = 2 (worked by hand)."""
    assert follow([0.0, 3.0], [1.0, 1.0], [0.0], [1.0]) == pytest.approx([1.0, 2.0])
