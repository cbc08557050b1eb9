"""Drawings cut into pages, labels and leaders, and things placed in a line: each against what anyone can reckon."""

import itertools
import math
import random

import cloth
import pytest
from hookfold.charts.drawing.style import style
from hookfold.charts.layout.assembly.template_block import block, block_shapes
from hookfold.charts.layout.assembly.template_tiles import OVERLAP_MM, area_of, count_along, seams, tiling
from hookfold.charts.layout.chart.tiles import tile_count, tiles_of
from hookfold.charts.layout.labels.label import Label, apart, beyond, box_about
from hookfold.charts.layout.labels.label import points_of as label_points
from hookfold.charts.layout.labels.leaders import STEP, along_line, around, ends, leader
from hookfold.charts.layout.placing.isotonic import astray, follow, place, pool, settle
from hookfold.charts.layout.placing.laid import lay_fabric
from sheet_boxes import flat, points_of

# -- paper in true size ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize("length", [1.0, 185.9, 186.0, 186.1, 362.0, 362.1, 538.0, 1000.0])
def test_so_many_windows_cover_a_length_and_one_fewer_does_not(length):
    count, area = count_along(length, 186.0), 186.0
    assert count * area - (count - 1) * OVERLAP_MM >= length - 1e-6
    assert count == 1 or (count - 1) * area - (count - 2) * OVERLAP_MM < length - 1e-6


@pytest.mark.parametrize("size", [(100.0, 100.0), (400.0, 250.0), (250.0, 400.0), (186.0, 267.0), (900.0, 700.0)])
@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_windows_cover_the_drawing_and_neighbours_share_a_strip_with_one_letter(size, paper):
    bounds = (-20.0, 15.0, -20.0 + size[0], 15.0 + size[1])
    made = tiling(bounds, paper, lambda window: True)
    assert [t.number for t in made.tiles] == list(range(1, made.rows * made.columns + 1))
    assert [(t.row, t.column) for t in made.tiles] == [(r, c) for r in range(1, made.rows + 1) for c in range(1, made.columns + 1)]
    assert made.tiles[0].window[:2] == bounds[:2] and all(a >= b for a, b in zip(made.tiles[-1].window[2:], bounds[2:], strict=True))
    for tile in made.tiles:
        assert (tile.window[2] - tile.window[0], tile.window[3] - tile.window[1]) == pytest.approx(made.area)
    found = seams(made)
    assert len(found) == made.rows * (made.columns - 1) + made.columns * (made.rows - 1)
    assert len({s.letter for s in found}) == len(found) and [s.letter for s in found][:2] == ["A", "B"][: len(found)]
    windows = {t.number: t for t in made.tiles}
    for seam in found:
        one, other = windows[seam.first], windows[seam.second]
        assert (other.row - one.row, other.column - one.column) == ((0, 1) if seam.upright else (1, 0))
        wide, tall = seam.strip[2] - seam.strip[0], seam.strip[3] - seam.strip[1]
        assert (wide, tall) == pytest.approx((OVERLAP_MM, made.area[1]) if seam.upright else (made.area[0], OVERLAP_MM))
    for turned in ((made.page[0], made.page[1]), (made.page[1], made.page[0])):
        area = area_of(turned)
        assert len(made.tiles) <= count_along(size[0], area[0]) * count_along(size[1], area[1]), "no way up needs fewer"


def test_windows_that_hold_nothing_are_no_pages_and_have_no_seams():
    corner = tiling((0.0, 0.0, 500.0, 500.0), "A4", lambda w: w[0] < 1.0 or w[1] < 1.0)
    whole = corner.rows * corner.columns
    assert len(corner.tiles) == corner.rows + corner.columns - 1 < whole
    assert len(seams(corner)) == len(corner.tiles) - 1


@pytest.mark.parametrize("shape", ["tall", "wide"])
def test_test_squares_measure_what_they_say_from_edge_to_edge_of_their_ink_and_the_map_has_every_page(shape):
    look = style()
    made = tiling((0.0, 0.0, 400.0, 300.0), "A4", lambda window: True)
    ring = ((0.0, 0.0), (400.0, 0.0), (400.0, 300.0), (0.0, 300.0), (0.0, 0.0))
    drawn = block(10.0, 20.0, shape, made, (0.0, 0.0, 400.0, 300.0), (ring,), look, ("one line",))
    items = list(flat(drawn.items))
    ends_at = 10.0
    for side, words in ((50.0, "50 mm"), (50.8, "2 in")):
        (square,) = [i for i in items if getattr(i, "name", "") == f"test square {words}"]
        xs, ys = zip(*points_of(square), strict=True)
        assert max(xs) - min(xs) + square.width == pytest.approx(side, abs=0.002) == max(ys) - min(ys) + square.width
        (said,) = [t for t in items if getattr(t, "text", "") == words]
        assert said.x == pytest.approx((min(xs) + max(xs)) / 2, abs=0.01)
        assert min(xs) - square.width / 2 >= ends_at - 0.01
        ends_at = max(xs) + square.width / 2
    numbers = [int(t.text) for t in items if getattr(t, "text", "").isdigit()]
    assert numbers == [t.number for t in made.tiles]
    wide, high = block_shapes(1, look, alone=False)[shape]
    for item in items:
        for x, y in points_of(item) if hasattr(item, "d") else [(item.x, item.y)]:
            assert 9.9 <= x <= 10.1 + wide and 19.9 <= y <= 20.1 + high, "inside the shape it says"


# -- charts over pages ----------------------------------------------------------------------------------------------

LAID = lay_fabric(cloth.each("dc", 41, 24, 3, True))


@pytest.mark.parametrize("room", [(100.0, 100.0), (41.9, 60.0), (21.0, 60.0), (20.0, 20.0), (15.5, 11.0)])
@pytest.mark.parametrize("right", [True, False])
def test_pages_of_a_chart_show_every_stitch_and_share_one_row_and_one_stitch(room, right):
    tiles = tiles_of(LAID, room, starts_right=right)
    assert len(tiles) == tile_count(LAID, room) and tiles[0].name == "part A1"
    assert [(t.line, t.column) for t in tiles] == sorted((t.line, t.column) for t in tiles)
    assert all(t.window.right - t.window.left <= room[0] + 1e-6 and t.bottom - t.top <= room[1] + 1e-6 for t in tiles)
    for index, course in enumerate(LAID.courses):
        for spot in course.laid.spots:
            assert any(t.window.first <= index < t.window.last and t.window.holds(spot.head[0]) for t in tiles)
    for one, other in itertools.combinations(tiles, 2):
        if one.line == other.line and other.column == one.column + 1:
            both = sum(one.window.holds(s.head[0]) and other.window.holds(s.head[0]) for s in LAID.courses[0].laid.spots if s.role == "stitch")
            assert both == 1
            ahead = (other.window.right < one.window.right) == right
            assert ahead, "the first page is where row 1 begins"
        if one.column == other.column and other.line == one.line + 1:
            assert other.window.first == one.window.last - 1
    assert tiles[0].window.first == 0 and max(t.window.last for t in tiles) == len(LAID.courses)
    first = [t for t in tiles if t.line == 0]
    spans = [sorted((t.at_left, t.at_right)) for t in first]
    assert spans[0][0] == 1 and all(b[0] == a[1] for a, b in itertools.pairwise(spans))
    widths = [b - a for a, b in spans]
    assert max(widths[:-1], default=0) - min(widths[:-1], default=0) <= 1


# -- labels ---------------------------------------------------------------------------------------------------------


def test_white_between_boxes_is_the_shortest_way_and_none_where_they_meet():
    one = (0.0, 0.0, 2.0, 1.0)
    assert apart(one, (5.0, 0.0, 6.0, 1.0)) == apart((5.0, 0.0, 6.0, 1.0), one) == 3.0
    assert apart(one, (0.0, 3.0, 2.0, 4.0)) == 2.0 and apart(one, (5.0, 5.0, 6.0, 6.0)) == 5.0
    assert apart(one, (2.0, 1.0, 3.0, 3.0)) == apart(one, (1.0, 0.5, 9.0, 9.0)) == 0.0
    assert box_about((3.0, 4.0), (2.0, 1.0)) == (1.0, 3.0, 5.0, 5.0)


def test_labels_reach_beyond_the_stitches_by_what_sticks_out_on_each_side():
    assert beyond([(-12.0, -3.0, 4.0, 21.0), (0.0, -30.0, 33.0, 2.0)], (-2.0, -4.0, 6.0, 3.0), 5.0) == (2.0, 10.0, 3.0, 6.0)
    assert beyond([], (-2.0, -4.0, 6.0, 3.0), 5.0) == beyond([(-1.0, -1.0, 1.0, 1.0)], (-2.0, -4.0, 6.0, 3.0), 5.0) == (0.0, 0.0, 0.0, 0.0)


@pytest.mark.parametrize("words", ["7", "(120)"])
def test_the_points_of_a_label_fill_its_box_and_its_arrow(words):
    one = Label(words, (4.0, -6.0), words == "7", ((9.0, -6.0), (14.0, -6.0)))
    points = [(x * 5.0, y * 5.0) for x, y in label_points(one, 5.0)]
    left, top, right, bottom = one.words_box
    assert right - left == pytest.approx(2 * one.half[0]) and (left + right) / 2 == pytest.approx(4.0) and (top + bottom) / 2 == pytest.approx(-6.0)
    words_points = [p for p in points if p[0] <= right + 1e-6]
    assert min(x for x, _ in words_points) == pytest.approx(left) and max(x for x, _ in words_points) == pytest.approx(right)
    assert {round(y, 6) for y in (min(y for _, y in words_points), max(y for _, y in words_points))} == {round(top, 6), round(bottom, 6)}
    xs = sorted({round(x, 6) for x, _ in words_points})
    assert all(b - a <= 1.0 + 1e-6 for a, b in itertools.pairwise(xs)), "no farther apart than a fifth of a stitch"
    arrow = [p for p in points if p[0] > right + 1e-6]
    assert min(x for x, _ in arrow) == pytest.approx(9.0) and max(x for x, _ in arrow) == pytest.approx(14.0)
    assert sum(y for _, y in arrow) / len(arrow) == pytest.approx(-6.0), "both sides of its head"
    assert one.box == (left, min(top, -6.0), 14.0, max(bottom, -6.0))


@pytest.mark.parametrize("at", [(0.0, 0.0), (30.0, -4.0), (-8.0, 25.0)])
def test_a_leader_runs_from_beside_its_number_to_its_end(at):
    end = (at[0] + 12.0, at[1] - 5.0)
    begun, ended = leader(at, (2.0, 1.0), end)
    assert ended == end and math.dist(begun, end) < math.dist(at, end)
    assert abs((begun[0] - at[0]) * (end[1] - at[1]) - (begun[1] - at[1]) * (end[0] - at[0])) < 1e-6, "straight from the number"
    assert abs(begun[0] - at[0]) > 2.0 or abs(begun[1] - at[1]) > 1.0, "outside its box"
    assert leader(at, (2.0, 1.0), at) is None and leader(at, (2.0, 1.0), (at[0] + 3.2, at[1])) is None
    assert leader(at, (2.0, 1.0), (at[0] + 3.6, at[1])) is not None, "two and a half to its side, one and more of line"
    line = along_line(((0.0, 0.0), (3.0, 4.0)), 0.7)
    assert line[0] == (0.0, 0.0) and line[-1] == (3.0, 4.0) and len(line) == 9
    assert all(math.dist(a, b) == pytest.approx(0.625) for a, b in itertools.pairwise(line))


def test_places_about_a_seam_are_tried_from_near_to_far_on_all_sides():
    places = around(5.0)
    far = [math.hypot(*p) for p in places]
    assert places[0] == (0.0, 0.0) and all(b >= a - 1e-6 for a, b in itertools.pairwise(far)) and max(far) <= 2.6 < max(far) + STEP
    assert {(-x, y) for x, y in places} == {(x, -y) for x, y in places} == {(y, x) for x, y in places} == set(places)
    assert max(math.hypot(*p) for p in around(2.0)) * 2.0 > 12.0, "thirteen mm where stitches are small"
    tried = ends((10.0, 20.0), (1.0, 0.0), 5.0)
    assert tried[0] == (10.0, 20.0) and len(set(tried)) == len(tried) == 63
    off = [math.dist(p, (10.0, 20.0)) for p in tried]
    assert off == sorted(off) and max(abs(x - 10.0) for x, _ in tried) == pytest.approx(3.0) and {round(abs(y - 20.0), 2) for _, y in tried} == {0.0, 0.75, 1.5, 2.25, 3.0}


# -- in a line ------------------------------------------------------------------------------------------------------


def far_off(found, wants, weights):
    return sum(w * (a - b) ** 2 for a, b, w in zip(found, wants, weights, strict=True))


@pytest.mark.parametrize("seed", range(12))
def test_nothing_in_order_lies_nearer_than_what_pooling_finds(seed):
    pen = random.Random(seed)
    wants = [pen.uniform(-3, 3) for _ in range(7)]
    weights = [pen.uniform(0.2, 3) for _ in wants]
    found = pool(wants, weights)
    assert all(b >= a for a, b in itertools.pairwise(found))
    best = far_off(found, wants, weights)
    for _ in range(60):
        other = sorted(a + pen.gauss(0, 0.3) for a in found)
        assert far_off(other, wants, weights) >= best - 1e-9
    gaps = [pen.uniform(0, 1) for _ in wants[1:]]
    placed = place(wants, gaps, weights)
    assert all(b - a >= gap - 1e-9 for a, b, gap in zip(placed, placed[1:], gaps, strict=False))
    assert place([w + 5 for w in wants], gaps, weights) == pytest.approx([p + 5 for p in placed])
    mirror = place([-w for w in reversed(wants)], gaps[::-1], weights[::-1])
    assert [-m for m in reversed(mirror)] == pytest.approx(placed)


@pytest.mark.parametrize("seed", range(12))
def test_what_follows_each_other_is_at_rest(seed):
    """At the least sum no item gains by moving: its pulls cancel."""
    pen = random.Random(seed)
    targets = [pen.uniform(-3, 3) for _ in range(6)]
    weights, steps, ties = ([pen.uniform(0.2, 2) for _ in range(n)] for n in (6, 5, 5))
    found = follow(targets, weights, steps, ties)
    for i, at in enumerate(found):
        pull = weights[i] * (targets[i] - at)
        if i:
            pull += ties[i - 1] * (found[i - 1] + steps[i - 1] - at)
        if i < 5:
            pull += ties[i] * (found[i + 1] - steps[i] - at)
        assert pull == pytest.approx(0.0, abs=1e-9)


def test_neighbours_settle_a_step_apart_and_chains_ask_for_their_room_only_where_it_is_short():
    assert settle([0.0, 3.0, 6.0], [0.5, 0.5], [1.0, 1.0], tie=1e6) == pytest.approx([2.0, 3.0, 4.0], abs=1e-3)
    assert settle([0.0, 3.0], [0.5], [None], rooms=[2.0]) == [0.0, 3.0]
    near = settle([0.0, 1.0], [0.5], [None], rooms=[2.0])
    assert near[1] - near[0] == pytest.approx(1.0 + 6.0 / 7.0) and near[0] + near[1] == pytest.approx(1.0), "pulled three times as hard on both"
    assert astray([0.0, 1.5, -4.0], [0.0, 1.0, -2.0]) == 2.0 and astray([], []) == 0.0
