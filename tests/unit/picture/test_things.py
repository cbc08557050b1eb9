"""The things that go with a piece: where cups, handles, buttons and loops are, against the measures of the pattern."""

import math
import tracemalloc
from pathlib import Path

import numpy as np
import pytest
from hookfold.charts import engrave
from hookfold.charts.output.images import fabric as images
from hookfold.charts.output.images.fabric import cloth_of_piece, colours_of_piece, piece_view
from hookfold.charts.picture.folded import folded
from hookfold.charts.picture.seeing.canvas import Canvas, draw_surface
from hookfold.charts.picture.views import Look
from hookfold.charts.picture.worn import things
from hookfold.charts.picture.worn.seats import UNDER_COSY, Seat, tube, wrapped

BAG = """
title = "Market bag"
terms = "US"
[gauge]
stitches = 10
rows = 9
over = "10 cm"
[object]
kind = "open bag"
width = "200 mm"
height = "180 mm"
handle = "400 mm"
[colours]
A = { name = "slate", hex = "#405060" }
B = { name = "cream", hex = "#eee4d0" }
[[section]]
name = "front"
length = "height"
colour = "A"
work = "Row 1: Ch 1, turn. Sc in each st across."
[[section]]
name = "back"
length = "height"
colour = "A"
work = "Row 1: Ch 1, turn. Sc in each st across."
[border]
stitch = "sc"
joins = true
colour = "B"
"""
BAND = """
title = "Tea band"
terms = "US"
[gauge]
stitches = 12
rows = 13
over = "10 cm"
[object]
kind = "mug wrap"
around = "210 mm"
height = "70 mm"
[colours]
A = { name = "rose", hex = "#b05060" }
[[section]]
name = "band"
length = "height"
colour = "A"
work = "Row 1: Ch 1, turn. Sc in each st across."
[border]
stitch = "sc"
colour = "A"
"""
COSY = Path(__file__).resolve().parents[3] / "gallery" / "more" / "mug-cosy" / "pattern.toml"


def laid(piece, *, flat):
    keys = {key: at for at, key in enumerate(colours_of_piece(piece))}
    made = folded(cloth_of_piece(piece), piece.folding, piece.border, keys, piece.plan.stitch_mm, piece.plan.border_row_mm, flat=flat)
    return made, keys


def along(points):
    return float(np.hypot(*np.diff(points, axis=0).T[:2]).sum())


def test_a_bag_has_two_handles_as_long_and_as_wide_as_measured_sewn_a_quarter_in():
    piece = engrave.work_file(BAG, "bag.toml")
    made, keys = laid(piece, flat=False)
    found = images._handles(piece, made, keys)
    unit = piece.plan.stitch_mm
    left, _, right, top = made.box
    places = np.concatenate([b.points.reshape(-1, 3) for b in found])
    low = places[places[:, 1] < top - 0.5]
    quarter = (right - left) / 4
    middles = (left + quarter, right - quarter)
    assert min(abs(low[:, 0] - m).max() for m in middles) < right - left
    for m in middles:
        near = low[abs(low[:, 0] - m) < quarter]
        assert near[:, 0].mean() == pytest.approx(m, abs=1.0)
        assert np.ptp(near[:, 0]) * unit == pytest.approx(30, abs=16)
    assert set(np.unique(low[:, 2] > (made.top + made.low) / 2)) == {True, False}
    assert {int(c) for b in found for c in b.colour} == {keys["B"]} and all((b.stitch == -1).all() for b in found)
    # the bow of one handle: from edge to edge as long as asked for
    line = things._bow(quarter, 400 / unit)
    assert along(line) * unit == pytest.approx(400, rel=0.02)
    assert places[:, 1].max() - top == pytest.approx(line[:, 1].max(), abs=2.5)


def test_a_bag_without_handles_is_drawn_without():
    piece = engrave.work_file(BAG.replace('handle = "400 mm"\n', ""), "bag.toml")
    made, keys = laid(piece, flat=False)
    assert images._handles(piece, made, keys) == []


def test_a_cosy_stands_round_a_cup_that_is_seen_over_it():
    piece = engrave.work_file(COSY.read_text("utf-8"), "cosy.toml")
    cloth, plan = cloth_of_piece(piece), piece.plan
    around, high = (mm / plan.stitch_mm for mm in plan.finished_mm.values())
    made, _ = laid(piece, flat=True)
    seat = tube(made, around, high, holds_cup=True)
    wall = seat.things[0].places
    assert np.hypot(wall[..., 0], wall[..., 2]).max() == pytest.approx(around / math.tau - UNDER_COSY, abs=0.01)
    assert wall[..., 1].max() > high / 2 > -high / 2 > wall[..., 1].min() == pytest.approx(seat.table)
    assert tube(made, around, high).things == ()
    drawn = piece_view(piece, "right", "on-object", Look(width_px=160))
    light = np.median(drawn.image[drawn.stitches < 0].reshape(-1, 3)[drawn.image[drawn.stitches < 0].min(axis=1) > 225], axis=0)
    assert light.min() > 225 and len(cloth.stitches) > 100


def band_seat() -> tuple[Seat, float]:
    piece = engrave.work_file(BAND, "band.toml")
    made, _ = laid(piece, flat=True)
    return wrapped(made, 10 / piece.plan.stitch_mm, 24 / piece.plan.stitch_mm, 0), piece.plan.stitch_mm


def test_a_band_goes_round_its_cup_to_both_sides_of_the_handle():
    seat, unit = band_seat()
    handle = next(t for t in seat.things if np.hypot(t.places[..., 0], t.places[..., 2]).max() > 1.2 * np.hypot(
        seat.things[0].places[..., 0], seat.things[0].places[..., 2]).max())
    at = math.atan2(handle.places[..., 2].mean(), handle.places[..., 0].mean())
    yarn = np.concatenate([y.reshape(-1, 3) for y in seat.yarn])
    off = np.array([math.remainder(math.atan2(z, x) - at, math.tau) for x, _, z in yarn[::5]])
    half = np.hypot(yarn[:, 0], yarn[:, 2]).mean()
    assert off.min() < -3.0 and off.max() > 3.0
    open_ = (off[off > 0].min() - off[off < 0].max()) * half * unit
    assert 4 < open_ < 30
    # within the cup's wall below and above its middle
    assert handle.places[..., 1].max() < seat.things[0].places[..., 1].max()


def test_the_button_is_on_the_band_with_the_loop_round_it_through_the_handle():
    seat, unit = band_seat()
    disc = next(t for t in seat.things if t.colour == things.WOOD)
    middle = disc.places.reshape(-1, 3).mean(axis=0)
    out = np.hypot(disc.places[..., 0], disc.places[..., 2])
    cloth = np.concatenate([y.reshape(-1, 3) for y in seat.yarn])
    assert out.min() > np.hypot(cloth[:, 0], cloth[:, 2]).mean()
    across = np.linalg.norm(disc.places[-1, 0] - disc.places[-1, len(disc.places[0]) // 2]) * unit
    assert across == pytest.approx(20, rel=0.1)
    loop = np.concatenate([b.points.reshape(-1, 3) for b in seat.more])
    far = np.linalg.norm(loop - middle, axis=1)
    assert far.min() * unit > 8 and far.max() * unit > 24
    # on all sides of the button but the one the loop comes from
    assert loop[:, 1].max() > middle[1] + 9 / unit and loop[:, 1].min() < middle[1] - 9 / unit
    assert all((b.stitch == -1).all() for b in seat.more)
    # towards the reader, so that it is seen
    assert middle[2] > 0


def test_both_are_drawn():
    for text in (BAG, BAND):
        piece = engrave.work_file(text, "piece.toml")
        one, two = (piece_view(piece, "right", "on-object", Look(width_px=140)) for _ in range(2))
        assert one.image.tobytes() == two.image.tobytes()
        assert (one.stitches >= 0).mean() > 0.15


def test_a_large_sheet_is_laid_a_few_rows_at_a_time() -> None:
    """A cup's side took as much as all of the picture's yarn: more than a gigabyte in a booklet."""
    canvas = Canvas(1200, 1200)
    grid = np.array([[[x, y, 0.0] for x in np.linspace(0, 1199, 40)] for y in (0.0, 1199.0)], dtype=np.float32)
    tracemalloc.start()
    try:
        draw_surface(canvas, grid, 3)
        most = tracemalloc.get_traced_memory()[1]
    finally:
        tracemalloc.stop()
    assert (canvas.colour[:-1] == 3).all() and most < 60_000_000
