"""Where stitches lie in the cloth, and how yarn is seen: places and directions reckoned by hand."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.output.images.fabric import cloth_of_written
from hookfold.charts.picture import cloth, flat_cloth, views
from hookfold.charts.picture.scene import MOST_CELLS, Camera
from hookfold.charts.picture.seeing import light
from hookfold.charts.picture.seeing.canvas import Canvas
from hookfold.charts.picture.seeing.tubes import Strands, draw_yarn

PLAIN = "Terms: US\nCh 7.\nRow 1: Sc in 2nd ch from hook and in each ch across. (6 sc)\nRow 2: Ch 1, turn, sc in each st across. (6 sc)\n"


@pytest.fixture(scope="module")
def row():
    """Three stitches whose heads climb: each step 0.6 to the right and 0.8 up."""
    found, _ = cloth_of_written(work_text(PLAIN).fabric)
    three = [s for s in found.stitches if s.row == 0 and s.spot.role == "stitch"][:3]
    return [replace(s, head=(0.6 * k, 0.8 * k), up=(0.0, 1.0)) for k, s in enumerate(three)]


def test_a_v_begins_at_the_head_before_it_and_runs_the_way_of_the_work(row):
    first, middle, last = cloth.in_order(row)
    for made, before in ((middle, row[0]), (last, row[1])):
        assert made.along == pytest.approx((0.6, 0.8)) and made.back == pytest.approx(before.head)
        assert made.up == pytest.approx((-0.8, 0.6))
    assert first.along == pytest.approx((0.6, 0.8))
    assert first.back == pytest.approx((-0.6 * cloth.EDGE_TOP, -0.8 * cloth.EDGE_TOP))


def upright(made, head, foot, *, behind=False):
    spot = replace(made.spot, behind=(((0.0, 0.0), (0.0, 1.0)),) if behind else ())
    return replace(made, head=(head, 2.0), feet=((foot, 0.0),), spot=spot)


def test_of_those_that_cross_one_lies_over_the_other_and_each_stays_where_it_is(row):
    """Two behind two: the two worked first, then those that stand between their feet, then one that crosses none."""
    four = [upright(row[0], 0.0, 2.0, behind=True), upright(row[0], 1.0, 3.0, behind=True),
            upright(row[0], 2.0, 0.0), upright(row[0], 3.0, 1.0), upright(row[0], 4.0, 4.0)]
    found = cloth.crossed(four)
    over = cloth.CROSSED_OVER
    assert [s.over for s in found] == [-over, -over, over, over, 0.0]
    assert [s.head for s in found] == [s.head for s in four]
    assert [s.over for s in cloth.crossed(four[::-1])] == [0.0, over, over, -over, -over]


def test_what_is_worked_in_front_on_the_wrong_side_lies_behind_on_the_right_side(row):
    two = [upright(row[0], 0.0, 1.0, behind=True), upright(row[0], 1.0, 0.0)]
    found = cloth.crossed([replace(s, face=-1.0) for s in two])
    assert [s.over for s in found] == [cloth.CROSSED_OVER, -cloth.CROSSED_OVER]


@pytest.mark.parametrize(("y", "up"), [(0.0, 0.0), (-0.5, 1.0), (-1.0, 2.0), (-2.0, 2.5), (-3.0, 3.0)])
def test_a_place_lies_as_far_between_two_rows_of_the_cloth_as_of_the_chart(y, up):
    levels = ((0.0, 1.0, 3.0), (0.0, 2.0, 3.0))
    assert flat_cloth._at(levels, 0.9, 2.0, y) == pytest.approx((1.8, up))


@pytest.mark.parametrize(("wide", "high", "many"), [(100, 100, 3), (800, 100, 3), (801, 100, 2), (1200, 100, 2), (1201, 100, 1)])
def test_a_pixel_is_made_of_as_many_as_there_is_room_for(wide, high, many):
    assert Camera(0.0, 0.0, float(wide), float(high), wide).shrink() == many
    tall = MOST_CELLS // wide // many**2 + 1
    assert Camera(0.0, 0.0, float(wide), float(tall), wide).shrink() < many or many == 1


@pytest.mark.parametrize("rise", [0.0, 0.5, -0.5])
@pytest.mark.parametrize("turn", [0.0, math.pi / 2, 0.6])
def test_yarn_is_seen_square_to_the_way_it_runs(rise, turn):
    """The mean normal along the middle of a strand that climbs towards the reader leans back from its way."""
    canvas, long = Canvas(120, 120), 80.0
    steps = np.linspace(-0.5, 0.5, 8)
    way = np.array((math.cos(turn), math.sin(turn), rise)) * long
    line = (np.array((60.0, 60.0, 0.0)) + steps[:, None] * way).astype(np.float32)
    draw_yarn(canvas, [Strands(line[None], np.array([6.0], np.float32), np.array([1], np.int32), np.array([0], np.int32))])
    middle = (np.array((60.0, 60.0)) + np.linspace(-0.2, 0.2, 41)[:, None] * way[:2]).astype(int)
    cells = middle[:, 1] * canvas.wide + middle[:, 0]
    normal = np.array((canvas.across[cells].mean(), canvas.down[cells].mean())) / 127.0
    lean = -rise / math.hypot(1.0, rise)
    assert normal == pytest.approx([lean * math.cos(turn), lean * math.sin(turn)], abs=0.17)


@pytest.mark.parametrize(("share", "place"), [(0.0, (0.0, 0.0)), (0.25, (0.75, 0.0)), (0.5, (1.5, 0.0)), (5 / 6, (2.0, 0.5)), (1.0, (2.0, 1.0))])
def test_a_share_of_a_line_is_measured_along_it(share, place):
    assert cloth.along_line(((0.0, 0.0), (2.0, 0.0), (2.0, 1.0)), share) == pytest.approx(place)


def test_what_lies_beside_a_pixel_is_the_edge_where_there_is_nothing():
    image = np.arange(12.0, dtype=np.float32).reshape(3, 4)
    assert light._shifted(image, 1, 2).tolist() == [[6, 7, 7, 7], [10, 11, 11, 11], [10, 11, 11, 11]]
    assert light._shifted(image, -1, -1).tolist() == [[0, 0, 1, 2], [0, 0, 1, 2], [4, 4, 5, 6]]


def test_a_blur_is_the_mean_about_a_pixel():
    image = np.zeros((5, 5), dtype=np.float32)
    image[2, 2] = 9.0
    assert light._blurred(image, 1).round(4).tolist() == [[1.0 if 1 <= r <= 3 and 1 <= c <= 3 else 0.0 for c in range(5)] for r in range(5)]


@pytest.mark.parametrize("side", range(4))
def test_what_lies_far_outside_on_any_side_is_not_drawn(row, side):
    far = [(-20.0, 0.0), (0.0, -20.0), (20.0, 0.0), (0.0, 20.0)][side]
    whole = cloth.Cloth((row[0], replace(row[1], head=far)), (-21.0, -21.0, 21.0, 21.0), (0.0, 0.0), (1.0, 1.0))
    box = [-30.0, -30.0, 30.0, 30.0]
    box[side] = -5.0 if side < 2 else 5.0
    assert [s.spot.role for s in views._within(whole, tuple(box)).stitches] == ["stitch", "unseen"]
    assert views._within(whole, (-20.0, -20.0, 20.0, 20.0)) is whole


def test_an_image_is_blurred_some_lines_at_a_time_as_all_at_once(monkeypatch: pytest.MonkeyPatch) -> None:
    image = np.random.default_rng(5).random((70, 41), dtype=np.float32)
    whole = light._blurred(image, 3)
    monkeypatch.setattr(light, "STRIP", 9)
    assert (light._blurred(image, 3) == whole).all()
