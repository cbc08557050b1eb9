"""Yarn gives way to yarn, lies as the hook lays it, and looks like yarn: plies, fibres, hairs."""

import itertools
import math
from dataclasses import replace

import numpy as np
import pytest
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.picture import tension
from hookfold.charts.picture.cloth import FAN_STEP, leaned
from hookfold.charts.picture.loose import loose_fibres
from hookfold.charts.picture.parts import skein_of
from hookfold.charts.picture.round_cloth import cloth_of
from hookfold.charts.picture.seeing import fibre
from hookfold.charts.picture.seeing.canvas import Canvas
from hookfold.charts.picture.seeing.tubes import Strands, draw_yarn
from hookfold.charts.picture.strokes import radius, stroke
from hookfold.charts.picture.yarn import Bundle, Frame, placed

ROWS = "Terms: US\nCh 9.\nRow 1 (RS): Sc in 2nd ch from hook and in each ch across. (8 sc)\nRow 2: Ch 1, turn, sc in each sc across. (8 sc)\nRow 3: Ch 1, turn, sc in each sc across. (8 sc)\n"
SPIRAL = "Terms: US\nMagic ring.\nRnd 1: 6 sc in ring. (6)\nRnd 2: 2 sc in each sc around. (12)\nRnd 3: Sc in each sc around. (12)\nRnd 4: Sc in each sc around. (12)\n"
SHELL = "Terms: US\nCh 8.\nRow 1 (RS): Sc in 2nd ch from hook, sk next 2 ch, 5 dc in next ch, sk next 2 ch, sc in next ch. (1 shell, 2 sc)\n"


def crossing(gap):
    """Two straight strands, one over the other by a gap, that cross in their middles."""
    along = np.stack((np.linspace(-2, 2, 9), np.zeros(9), np.full(9, gap)), axis=1)
    across = np.stack((np.zeros(9), np.linspace(-2, 2, 9), np.zeros(9)), axis=1)
    points = np.stack((along, across)).astype(np.float32)
    return Bundle(points, np.array([0, 1], np.int32), np.array([0, 0], np.int32))


def nearest(points):
    return float(np.linalg.norm(points[0][:, None] - points[1][None], axis=2).min())


def test_strands_that_would_lie_in_each_other_are_pushed_apart_the_upper_stays_above():
    found = tension.pressed([crossing(0.08)])[0].points
    assert nearest(crossing(0.08).points) < 0.1 < 0.75 * 2 * radius() * tension.PRESSED < nearest(found)
    middle = found.shape[1] // 2
    assert found[0, middle, 2] > found[1, middle, 2] + 0.2
    assert np.abs(found[:, [0, -1]] - crossing(0.08).points[:, [0, -1]]).max() < 0.02


def test_strands_that_do_not_touch_stay_where_they_are():
    apart = crossing(0.6)
    assert np.abs(tension.pressed([apart])[0].points - tension.resampled(apart.points)).max() < 1e-5


def test_what_is_too_small_to_be_seen_is_left_where_it_is_and_drawn_fuller(monkeypatch):
    monkeypatch.setattr(tension, "MOST_PLACES", 10)
    one = crossing(0.08)
    found = tension.pressed([one])[0]
    assert found.points is one.points and found.thick == pytest.approx(one.thick * tension.FULLER)


def in_one_place(strands):
    """So many strands that hardly lie apart."""
    every = [np.stack((np.linspace(9, 10, 6), np.full(6, 0.001 * k), np.zeros(6)), axis=1) for k in range(strands)]
    return Bundle(np.array(every, np.float32), np.arange(strands, dtype=np.int32), np.zeros(strands, np.int32))


def test_where_hundreds_of_strands_lie_in_one_place_only_those_are_left_as_they_are():
    crowd, others = tension.pressed([in_one_place(300), crossing(0.08)])
    assert np.abs(crowd.points - tension.resampled(in_one_place(300).points)).max() < 1e-5
    assert np.abs(others.points - tension.pressed([crossing(0.08)])[0].points).max() < 1e-5
    few = tension.pressed([in_one_place(6)])[0].points
    assert np.abs(few - tension.resampled(in_one_place(6).points)).max() > 0.05


def test_yarn_of_a_swatch_lies_less_in_itself_than_its_strokes_would():
    """Of all places of a swatch that touch others, as strokes lead them and after they gave way."""
    cloth = cloth_of(work_text(ROWS).fabric)
    raw = [replace(b, points=tension.resampled(b.points)) for b in skein_of(cloth, {"": 0}).bundles()]
    after = tension.pressed(list(skein_of(cloth, {"": 0}).bundles()))
    deep = []
    for bundles in (raw, after):
        places = np.concatenate([b.points.reshape(-1, 3) for b in bundles])
        wide = np.full(len(places), radius(), np.float32)
        one, other = tension._near(places, wide, bundles)
        gap = np.linalg.norm(places[one] - places[other], axis=1)
        deep.append(np.maximum(2 * radius() * tension.PRESSED - gap, 0.0).sum())
    assert deep[1] < 0.4 * deep[0]


def test_the_bar_under_the_back_of_a_v_lies_across_and_nearest_to_who_sees_the_wrong_side():
    """A single crochet has a bar behind (common practice, no source): it lies under the V, nearly as wide as a stitch."""
    frame = Frame((0, 0, 0), (0, 1, 0), (0, 1), (1, 0))
    line = placed(stroke("sc"), np.array([frame.numbers()], np.float32))[0]
    bar = line[line[:, 2] < -0.4]
    others = np.concatenate([stroke("sc")[stroke("sc")[:, 3] >= -0.4], stroke("down"), stroke("top")])
    assert len(bar) == 2 and np.ptp(bar[:, 1]) < 0.02 and (bar[:, 1] < 1 - radius()).all()
    assert others[:, 3].min() > bar[:, 2].max() + 0.1
    ends = line[np.flatnonzero(line[:, 2] < -0.4)[[0, -1]] + np.array([-1, 1])]
    assert np.ptp(ends[:, 0]) + 2 * radius() > 0.9


def leans(text, row):
    cloth = leaned(cloth_of(work_text(text).fabric).stitches)
    found = [s for s in cloth if s.row == row and s.spot.role == "stitch"]
    return [(s.head[0] - s.feet[0][0]) * s.along[0] + (s.head[1] - s.feet[0][1]) * s.along[1] for s in found]


@pytest.mark.parametrize(("text", "row", "sign"), [(ROWS, 1, -1), (ROWS, 2, -1), (SPIRAL, 3, 1)])
def test_posts_lean_back_in_rows_that_are_turned_and_on_in_rounds_that_are_not(text, row, sign):
    """A hook goes in under the V, before the head: turned, that is farther on."""
    middle = sorted(leans(text, row))[len(leans(text, row)) // 2]
    assert 0.1 < sign * middle < 0.5


def test_stitches_in_one_place_stand_side_by_side_in_it_and_are_narrow_there():
    cloth = leaned(cloth_of(work_text(SHELL).fabric).stitches)
    shell = [s for s in cloth if s.spot.kind == "dc"]
    steps = [math.dist(a.feet[0], b.feet[0]) for a, b in itertools.pairwise(shell)]
    assert len(shell) == 5 and {s.fan for s in shell} == {5} and all(0.1 < step <= FAN_STEP for step in steps)
    frame = Frame((0, 0, 0), (0, 1, 0), (0, 1), (1, 0), 1.0, 0.5)
    line = placed(np.array([[0, 0, 0.2, 0], [1, 0, 0.2, 0]], np.float32), np.array([frame.numbers()], np.float32))[0]
    assert line[:, 0] == pytest.approx([0.1, 0.2])


def test_plies_are_round_with_a_furrow_between_them_and_their_slope_is_theirs():
    angle, along = np.linspace(-3, 3, 4001, dtype=np.float32), np.full(4001, 1.7, np.float32)
    out, slope = fibre.relief(angle, along, np.full(4001, 20.0, np.float32))
    assert out.max() == pytest.approx(1.0, abs=1e-4) and out.min() == pytest.approx(1 - fibre.FURROW, abs=1e-3)
    assert np.median(np.abs(np.gradient(out, angle) - slope)) < 2e-3
    over = fibre.relief_over(angle[:7], along[:3], np.full(3, 20.0, np.float32))
    assert over[0] == pytest.approx(out[:7], abs=1e-4)


def test_fibres_are_drawn_out_along_the_strand_and_those_of_two_strands_differ():
    line = np.linspace(0, 4, 400, dtype=np.float32)
    still, one = np.zeros(400, np.float32), np.ones(400, np.int32)
    along, _ = fibre.fibres(still, line, one)
    round_, _ = fibre.fibres(line, still, one)
    assert np.abs(np.diff(round_)).mean() > 3 * np.abs(np.diff(along)).mean()
    assert not np.allclose(fibre.fibres(line, still, one * 2)[0], round_)


def test_hairs_belong_to_their_strand_and_stand_off_it_the_same_on_every_run():
    strands = crossing(2.0)
    hairs = loose_fibres(strands, 1.0, 3)
    assert np.array_equal(hairs.points, loose_fibres(strands, 1.0, 3).points) and len(hairs.points) > 12
    assert set(hairs.stitch.tolist()) == {0, 1}
    off = np.hypot(hairs.points[hairs.stitch == 1][:, :, 0], hairs.points[hairs.stitch == 1][:, :, 2]) / radius()
    assert off.min() > 0.9 and 1.05 < off.max() < 2.0


def test_yarn_that_turns_while_it_points_to_the_reader_has_no_holes():
    """Strands that come to the reader and bend back there cover their round section where they are steepest."""
    radius, middle = 12.0, 40.0
    down, across = np.mgrid[0:80, 0:80]
    off = np.hypot(across + 0.5 - middle, down + 0.5 - middle)
    holes = 0
    for turn in np.linspace(0.0, math.pi, 13):
        there = np.array([math.cos(turn), math.sin(turn), 0.0])
        along = [[-18.0, 0.0, -16.0], [-3.0, 0.0, -13.0], [0.0, 0.0, 0.0], there * 3 + [0, 0, 13], there * 18 + [0, 0, 16]]
        points = np.add(along, (middle, middle, 0.0)).astype(np.float32)[None]
        canvas = Canvas(80, 80)
        draw_yarn(canvas, [Strands(points, np.array([radius], np.float32), np.array([5], np.int32), np.array([0], np.int32))])
        depth = canvas.depth[:-1].reshape(80, 80)
        ball = np.sqrt(np.maximum(radius**2 - off**2, 0.0))
        holes += int((depth < ball - 4.0)[off < 0.85 * radius].sum())
    assert holes == 0
