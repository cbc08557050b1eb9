"""Yarn on the canvas: nearest first and without what is hidden, and yet what every sample one by one would show."""

import numpy as np
import pytest
from hookfold.charts.picture.seeing import tubes
from hookfold.charts.picture.seeing.canvas import EMPTY, Canvas
from hookfold.charts.picture.seeing.hidden import TILE, Hidden
from hookfold.charts.picture.seeing.tubes import Strands, draw_yarn

LAYERS = ("depth", "across", "down", "tone", "colour", "owner")


def _yarn(seed: int, radius: float) -> list[Strands]:
    """Strands all over a canvas and beyond its edges, in two bundles, some of them twice in the same place."""
    chance = np.random.Generator(np.random.PCG64(seed))
    start = chance.uniform(-20, 160, (90, 1, 3))
    points = (start + np.cumsum(chance.normal(0, 9, (90, 6, 3)), axis=1)).astype(np.float32)
    points = np.concatenate((points, points[:20]))
    stitch = np.arange(110, dtype=np.int32)
    thick = np.full(110, radius, np.float32)
    half = slice(0, 60), slice(60, 110)
    return [Strands(points[h], thick[h], stitch[h], (stitch[h] % 3).astype(np.int32)) for h in half]


@pytest.mark.parametrize("radius", [1.5, 3.0, 9.0])
def test_nothing_is_left_out_that_is_seen(radius: float, monkeypatch: pytest.MonkeyPatch) -> None:
    canvas, plain = Canvas(150, 130), Canvas(150, 130)
    yarn = _yarn(7, radius)
    monkeypatch.setattr(tubes, "MOST_SAMPLES", 4_000)
    draw_yarn(canvas, yarn)
    monkeypatch.setattr(Hidden, "uncovered", lambda self, places, reach: np.ones(places.shape[:-1], dtype=np.bool_))
    draw_yarn(plain, yarn)
    for name in LAYERS:
        assert (getattr(canvas, name)[:-1] == getattr(plain, name)[:-1]).all(), name
    assert (canvas.owner[:-1] >= 0).sum() > 2_000


@pytest.mark.parametrize("radius", [1.5, 9.0])
def test_of_two_strands_in_one_place_the_later_is_seen_whichever_is_drawn_first(radius: float) -> None:
    line = np.stack((np.linspace(10, 90, 5), np.full(5, 30.0), np.linspace(-8, 8, 5)), axis=1).astype(np.float32)
    one, other = (Strands(line[None], np.array([radius], np.float32), np.array([5], np.int32), np.array([k], np.int32))
                  for k in (1, 2))  # of one stitch, so that they are as thick everywhere
    far = np.array((0.0, 0.0, -500.0), dtype=np.float32)
    deep = Strands(np.stack((line, line + far)), np.full(2, radius, np.float32), np.array([5, 5], np.int32),
                   np.array([3, 4], np.int32))  # its batch lies farther off as a whole, and is drawn last
    for yarn, last in (([one, other], 2), ([other, one], 1), ([deep, one], 1), ([one, deep], 3)):
        canvas = Canvas(100, 60)
        draw_yarn(canvas, yarn)
        assert set(canvas.colour[:-1].tolist()) == {0, last}


def test_what_lies_behind_a_closed_wall_is_hidden_and_what_stands_out_of_it_is_not() -> None:
    canvas = Canvas(10 * TILE, 6 * TILE + 3)
    canvas.depth[:-1] = 50.0
    hidden, reach = Hidden(canvas), np.array([4.0], np.float32)

    def may(x: float, y: float, z: float) -> bool:
        return bool(hidden.uncovered(np.array([[x, y, z]], np.float32), reach)[0])

    assert not may(30, 20, 45.0) and may(30, 20, 47.0) and may(1, 1, 60.0)
    assert not may(-200, 20, 90.0) and not may(30, 900, 90.0)  # beyond the canvas nothing is seen
    assert may(-3.0, 20, 90.0)
    canvas.depth[20 * canvas.wide + 30] = EMPTY  # a gap is found when it is looked over anew
    hidden = Hidden(canvas)
    assert may(30, 20, 0.0) and may(30 - TILE / 2, 20, 0.0) and not may(30 + 4 * TILE, 20, 0.0)
