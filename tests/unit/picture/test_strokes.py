"""The table of strokes: what stands in it is used, and a strand goes where its stroke says."""

import re
from pathlib import Path

import numpy as np
from hookfold.charts.picture import parts, strokes
from hookfold.charts.picture.seeing.canvas import Canvas
from hookfold.charts.picture.seeing.tubes import Strands, draw_yarn
from hookfold.charts.picture.yarn import Frame, Skein, placed


def test_every_stroke_of_the_table_is_drawn_with():
    code = Path(parts.__file__).read_text("utf-8")
    used = set(re.findall(r'"([a-z-]+)"', code))
    assert set(strokes.names()) <= used


def test_strokes_are_lines_through_places_near_the_stitch():
    for name in strokes.names():
        points = strokes.stroke(name)
        assert points.shape[1] == 4 and len(points) >= 6
        steps = np.diff(points[:, 1:], axis=0)
        assert np.abs(steps).max() < 1.0, name


def test_a_stroke_stands_in_its_frame():
    points = np.array([[0, 0, 0, 0], [1, 0, 0, 0], [0.5, 0.1, 0.2, 0.3]], dtype=np.float32)
    frame = Frame((1.0, 2.0, 0.0), (1.0, 4.0, 0.0), (0.0, 1.0), (-1.0, 0.0), -1.0)
    found = placed(points, np.array([frame.numbers()], dtype=np.float32))[0]
    assert np.allclose(found, [[1, 2, 0], [1, 4, 0], [0.8, 3.1, -0.3]], atol=1e-6)


def test_no_two_stitches_are_alike_and_none_strays_far():
    skein = Skein()
    for at in range(20):
        skein.add("sc", Frame((0, 0, 0), (0, 1, 0), (0, 1), (1, 0)), at, 0)
    bundle = next(iter(skein.bundles()))
    off = bundle.points - bundle.points.mean(axis=0)
    assert np.abs(off).max() < 2 * strokes.stray()
    assert len({p.tobytes() for p in bundle.points}) == 20


def test_a_tube_is_as_wide_as_its_yarn_and_the_nearer_hides_the_farther():
    canvas = Canvas(100, 60)
    line = np.stack((np.linspace(10, 90, 8), np.full(8, 30.0), np.zeros(8)), axis=1).astype(np.float32)
    near = line.copy()
    near[:, 2] = 20.0
    draw_yarn(canvas, [Strands(near[None], np.array([5.0], np.float32), np.array([1], np.int32), np.array([0], np.int32))])
    draw_yarn(canvas, [Strands(line[None], np.array([9.0], np.float32), np.array([2], np.int32), np.array([0], np.int32))])
    owner = canvas.owner[:-1].reshape(60, 100)
    column = owner[:, 50]
    assert (column == 1).sum() in (10, 11) and (column > 0).sum() in (18, 19)
    assert (owner[30, 20:80] == 1).all()


def test_yarn_is_about_as_thick_everywhere_also_where_it_winds_round_gathered_legs():
    assert all(0.8 <= strokes.thickness(name) <= 1.35 for name in strokes.names())
