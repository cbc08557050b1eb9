"""What is loose at a seam is moved clear of ink, and only then."""

import itertools
import math
from dataclasses import replace

from hookfold.charts.layout.placing.clearing import FREE, cleared, ink_points, map_of
from hookfold.charts.layout.placing.ink import mark_of
from hookfold.charts.layout.placing.placed import Spot


def dot(x, y):
    return Spot(0, "sl st", "join", (x, y), ((x, y),))


def post(x):
    return Spot(7, "dc", "stitch", (x, -4.1), ((x, -2.0),))


def apart(a, b):
    return min(math.dist(p, q) for p in ink_points(mark_of(a)) for q in ink_points(mark_of(b)))


def moved(spot, *others):
    ink = map_of([("here", [spot]), ("there", others)])
    return cleared([spot], ink, "here")[0]


def test_a_join_in_a_free_place_stays_where_it_wants_to_be():
    assert moved(dot(2.0, -3.0), post(0.0)) == dot(2.0, -3.0)


def test_a_join_on_a_post_steps_off_it_and_no_farther_than_it_must():
    found = moved(dot(0.05, -3.0), post(0.0))
    assert apart(found, post(0.0)) >= FREE - 1e-6
    assert math.dist(found.head, (0.05, -3.0)) < 0.6


def test_of_several_joins_in_one_place_only_the_first_is_moved():
    joins = [replace(dot(0.05, -3.0), item=item) for item in range(3)]
    first, *others = cleared(joins, map_of([("here", joins), ("there", [post(0.0)])]), "here")
    assert first.head != joins[0].head and others == joins[1:]


def test_a_stitch_is_never_moved():
    on_it = Spot(0, "dc", "stitch", (0.0, -4.1), ((0.0, -2.0),))
    assert moved(on_it, post(0.0)) == on_it


def test_the_white_about_a_box_is_measured_from_its_sides():
    ink = map_of([("there", [post(0.0)])])
    assert abs(ink.free_about((0.4, -3.2, 0.9, -3.0), 2.0) - 0.4) < 0.02
    assert ink.free_about((-0.2, -3.2, 0.2, -2.8), 2.0) == 0.0
    assert ink.free_about((5.0, -3.2, 5.5, -3.0), 1.0) == 1.0


def test_points_of_ink_lie_close_enough_to_keep_another_pen_out():
    points = ink_points(mark_of(post(0.0)))
    stem = sorted(p[1] for p in points if abs(p[0]) < 0.01)
    assert max(b - a for a, b in itertools.pairwise(stem)) < 0.12
