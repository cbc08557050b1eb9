"""Placing along a line and round a circle."""

import itertools
import math

import pytest
from hookfold.charts.layout.placing.isotonic import astray, follow, place, place_round, pool, settle, settle_round


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


def test_a_circle_keeps_its_gaps_over_the_seam():
    found = place_round([0.1, 0.1, 6.2], [1.0, 1.0, 1.0], math.tau)
    assert found[1] - found[0] >= 1.0 - 1e-9
    assert found[0] + math.tau - found[2] >= 1.0 - 1e-9


def test_a_full_circle_is_shared():
    found = place_round([0.0, 0.0, 0.0, 0.0], [2.0] * 4, math.tau)
    steps = [b - a for a, b in itertools.pairwise(found)]
    assert steps == pytest.approx([math.tau / 4] * 3)


def test_a_round_that_gives_nowhere_fills_its_circle_evenly():
    found = settle_round([0.0, 0.1, 3.0, 3.1], [1.0] * 4, [1.0] * 4, math.tau)
    assert [b - a for a, b in itertools.pairwise(found)] == pytest.approx([math.tau / 4] * 3)


def test_a_round_that_would_stray_from_its_places_keeps_over_them():
    """Twelve stitches in one space and four single ones elsewhere: evenly shared out they would not stand on them."""
    wants = [0.5] * 12 + [2.0, 3.0, 4.0, 5.0]
    gaps = [0.1] * 16
    even = settle_round(wants, gaps, gaps, math.tau)
    near = settle_round(wants, gaps, [0.1] * 11 + [0.95, 1.0, 1.0, 1.0, 1.2], math.tau, even=False)
    assert astray(even, wants) > 1.5
    assert astray(near, wants) < 0.6
    assert all(b - a >= 0.1 - 1e-9 for a, b in itertools.pairwise(near))
