"""Ink behind a stem is left out where the stem runs, and nowhere else; reckoned here by the ruler."""

import itertools
import math
import random

import pytest
from hookfold.charts.layout.placing.behind import LEAST, STEP, WHITE, behind
from hookfold.symbols import Mark
from shapely import LineString, Point

UPRIGHT = ((0.0, -1.0), (0.0, 1.0))


def line(*points):
    return (("M", points[:1]), *(("L", (p,)) for p in points[1:]))


def curve(a, b, c, d):
    return (("M", (a,)), ("C", (b, c, d)))


def pieces(path, *stems):
    return behind(Mark((path,), ()), stems).strokes


def test_a_line_is_parted_with_white_on_both_sides_and_its_pieces_are_lines():
    left, right = pieces(line((-1.0, 0.0), (1.0, 0.0)), UPRIGHT)
    for piece, (outer, inner) in ((left, (-1.0, -WHITE)), (right, (WHITE, 1.0))):
        assert [command for command, _ in piece] == ["M", "L"]
        xs = [points[0][0] for _, points in piece]
        assert xs == pytest.approx([outer, inner], abs=2 * STEP) and all(p[0][1] == 0.0 for _, p in piece)


def test_a_bent_line_keeps_its_bend_where_a_stem_crosses_it():
    there = [p for path in pieces(line((-1.0, 0.0), (-0.5, 0.6), (1.0, 0.6)), UPRIGHT) for _, points in path for p in points]
    assert min(math.dist(p, (-0.5, 0.6)) for p in there) < 6 * STEP


@pytest.mark.parametrize("path", [
    line((WHITE + 0.01, -1.0), (WHITE + 0.01, 1.0)), line((-WHITE - 0.01, -1.0), (-WHITE - 0.01, 1.0)),
    line((-1.0, 1.0 + WHITE + 0.01), (1.0, 1.0 + WHITE + 0.01)), line((-1.0, -1.0 - WHITE - 0.01), (1.0, -1.0 - WHITE - 0.01)),
    curve((-1.0, -1.0), (0.1, 0.0), (0.1, 0.0), (-1.0, 1.0)),
])  # fmt: skip
def test_ink_beside_a_stem_or_past_its_ends_is_whole(path):
    """The curve's handles lie across the stem, the curve itself does not reach it."""
    assert pieces(path, UPRIGHT) == (path,)


def test_a_ring_is_one_piece_begun_where_the_stem_covers_it():
    ring = (*line((0.0, 0.5), (0.5, 0.0), (1.0, 0.5), (0.5, 1.0)), ("Z", ()))
    (piece,) = pieces(ring, ((0.0, 0.0), (0.0, 1.0)))
    first, last = piece[0][1][0], piece[-1][1][-1]
    assert math.dist(first, last) < 3 * WHITE and first[0] > WHITE - STEP and last[0] > WHITE - STEP


def test_pieces_shorter_than_the_least_are_not_drawn():
    assert pieces(line((0.0, 0.0), (WHITE + LEAST * 0.6, 0.0)), UPRIGHT) == ()
    assert len(pieces(line((0.0, 0.0), (WHITE + LEAST * 2, 0.0)), UPRIGHT)) == 1


def test_random_ink_keeps_all_that_no_stem_is_near_and_nothing_else():
    rng = random.Random(4)
    for _ in range(200):
        a, b, c, d = ((rng.uniform(-1, 1), rng.uniform(-1, 1)) for _ in range(4))
        stems = [(c, d)] if rng.random() < 0.7 else [(c, d), (d, a)]
        kept = [LineString([p[0] for _, p in piece]) for piece in pieces(line(a, b), *stems)]
        fields = [field(*stem) for stem in stems]
        assert all(x.intersection(f.buffer(-2 * STEP)).length < 1e-9 for x in kept for f in fields)
        wanted = LineString([a, b])
        for f in fields:
            wanted = wanted.difference(f)
        shown = sum(part.length for part in getattr(wanted, "geoms", [wanted]) if part.length > LEAST + 3 * STEP)
        assert sum(x.length for x in kept) >= shown - 4 * STEP * (len(stems) + 1)


def field(a, b):
    """A stem with its white: to both sides of it and past its ends, with square corners."""
    return LineString([a, b]).buffer(WHITE, cap_style="square") if a != b else Point(a).buffer(WHITE)


def test_many_stems_part_a_line_as_often():
    stems = [((x, -1.0), (x, 1.0)) for x in (-2.0, 0.0, 2.0)]
    found = pieces(line((-4.0, 0.0), (4.0, 0.0)), *stems)
    ends = sorted(points[0][0] for piece in found for _, points in piece)
    assert len(found) == 4 and [b - a for a, b in itertools.pairwise(ends)][1::2] == pytest.approx([2 * WHITE] * 3, abs=2 * STEP)
