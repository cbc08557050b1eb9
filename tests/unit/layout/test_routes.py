"""A stem that reaches past other rows keeps off them, or goes behind them in one place."""

import math
from dataclasses import replace

import pytest
from hookfold.charts.layout.placing.clearing import ink_points, map_of
from hookfold.charts.layout.placing.ink import mark_of
from hookfold.charts.layout.placing.long_stems import past, routed
from hookfold.charts.layout.placing.placed import Spot
from hookfold.charts.layout.placing.tracks import FlatWay
from hookfold.charts.model.cloth.fabric import Foot, Stitch

WAY = FlatWay(1.0)


def row_of_sc(*xs):
    return [Spot(i, "sc", "stitch", (x, -2.0), ((x, -1.0),), angle_deg=0.0) for i, x in enumerate(xs)]


def long_dc(kind="dc", hold="top"):
    return Spot(99, kind, "stitch", (0.0, -4.0), ((0.0, -1.0),), hold, base="dc")


def laid(spot, others):
    return routed(spot, map_of([("between", others)]), [1.7], WAY)


def closest(spot, others):
    low = [p for p in ink_points(mark_of(spot)) if math.dist(p, spot.head) > 0.7]
    return min(math.dist(p, q) for o in others for q in ink_points(mark_of(o)) for p in low)


def test_a_free_stem_runs_straight():
    found = laid(long_dc(), row_of_sc(-2.0, 2.0))
    assert found.route == () and found.hidden is None


def test_a_stem_over_a_stitch_bows_out_past_it():
    others = row_of_sc(-0.2, 1.6, -2.0)
    found = laid(long_dc(), others)
    assert found.route and found.hidden is None
    assert closest(found, others) > 0.12


def test_a_stem_without_a_way_goes_behind_in_one_place():
    others = row_of_sc(*(k * 0.8 for k in range(-4, 5)))
    found = laid(long_dc(), others)
    low, high = found.hidden
    assert 0.1 < low < high < 0.9
    assert len(mark_of(found).strokes) == len(mark_of(long_dc()).strokes) + 1


@pytest.mark.parametrize("kind", ["FPdc", "BPdc"])
def test_a_hook_steps_aside_from_what_stands_on_its_post(kind):
    others = row_of_sc(0.0)
    found = laid(Spot(99, kind, "stitch", (0.0, -4.0), ((0.0, -1.0),)), others)
    assert abs(found.feet[0][0]) <= 0.5
    assert closest(found, others) > 0.12


@pytest.mark.parametrize("role", ["join", "start", "travel"])
def test_what_is_loose_does_not_stand_in_the_way_of_a_stem(role):
    """It gives way later; what stays where it is does stand in the way."""
    made = Stitch("dc", (Foot(0, 2),), base="dc")

    def found(lying):
        return past(long_dc(), made, {1: [*row_of_sc(2.0), lying], 2: row_of_sc(0.0)}, WAY)

    loose = Spot(7, "sl st", role, (0.0, -1.7), ((0.0, -1.3),))
    assert found(loose).route == () and found(replace(loose, role="stitch")).route


def test_a_route_moves_and_mirrors_with_its_stitch():
    found = laid(long_dc(), row_of_sc(-0.2, 1.6))
    assert found.moved(1.0, 2.0).route[0] == pytest.approx((1.0, -2.0))
    assert found.mirrored().route == tuple((-x, y) for x, y in found.route)
