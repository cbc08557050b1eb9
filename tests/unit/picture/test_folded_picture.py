"""The folded piece in space: layers, round turns, the border where it is planned, the pages of a book."""

import math
from pathlib import Path

import numpy as np
import pytest
from hookfold.charts import engrave
from hookfold.charts.output.images import fabric
from hookfold.charts.output.images.fabric import cloth_of_piece, colours_of_piece, piece_view
from hookfold.charts.picture.bend import PITCH, bent
from hookfold.charts.picture.folded import folded
from hookfold.charts.picture.views import Look
from hookfold.charts.picture.worn.seats import book
from test_fabric_counts import STRIPED

GALLERY = Path(__file__).resolve().parents[3] / "gallery"


@pytest.fixture(scope="module")
def cover():
    return engrave.work_file((GALLERY / "strapped-journal" / "pattern.toml").read_text("utf-8"), "pattern.toml")


def test_a_fold_turns_round_between_its_layers(cover):
    ways = bent(cover.folding.end, cover.plan.stitch_mm)
    crease = ways.creases[0]
    one, other = ways.panels[crease.first], ways.panels[crease.second]
    along = np.array((-crease.into[1], crease.into[0]))
    middle = crease.at + along * float((one.corners.mean(axis=0) - crease.at) @ along)
    steps = np.linspace(-2.0, 2.0, 41)
    flat = np.array([[*(middle + q * crease.into), 0.0] for q in steps], dtype=np.float32)
    path = ways.places(flat)
    assert path[0, 2] == pytest.approx(other.height, abs=0.01) and path[-1, 2] == pytest.approx(one.height, abs=0.01)
    lengths = np.linalg.norm(np.diff(path, axis=0), axis=1)
    assert lengths.max() < 0.12 and lengths.sum() == pytest.approx(4.0, rel=0.03)
    assert abs(one.height - other.height) == pytest.approx(PITCH)


def test_the_border_has_the_stitches_that_are_planned(cover):
    keys = {key: at for at, key in enumerate(colours_of_piece(cover))}
    cloth = cloth_of_piece(cover)
    made = folded(cloth, cover.folding, cover.border, keys, cover.plan.stitch_mm, cover.plan.border_row_mm)
    own = {int(k) for bundle in made.bundles for k in bundle.stitch if k >= len(cloth.stitches)}
    assert len(own) == made.border == sum(cover.border.totals)


def test_the_border_stands_outside_the_cloth_by_its_own_height(cover):
    keys = {key: at for at, key in enumerate(colours_of_piece(cover))}
    cloth = cloth_of_piece(cover)
    made = folded(cloth, cover.folding, cover.border, keys, cover.plan.stitch_mm, cover.plan.border_row_mm)
    points = np.concatenate([b.points[b.stitch >= len(cloth.stitches)].reshape(-1, 3) for b in made.bundles])
    left, bottom, right, top = made.box
    rise = cover.plan.border_row_mm / cover.plan.stitch_mm
    for out in (left - points[:, 0].min(), points[:, 0].max() - right, bottom - points[:, 1].min(), points[:, 1].max() - top):
        assert rise * 0.8 < out < rise * 1.3 + 0.3


def test_a_strap_goes_round_the_fore_edge_onto_the_front_of_the_book(cover):
    keys = {key: at for at, key in enumerate(colours_of_piece(cover))}
    made = folded(cloth_of_piece(cover), cover.folding, cover.border, keys, cover.plan.stitch_mm, cover.plan.border_row_mm)
    assert made.core[0] - made.box[0] == pytest.approx(
        (cover.plan.sections[3].length_mm - cover.plan.sections[2].length_mm) / cover.plan.stitch_mm
    )
    seat = book(made, cover.plan.object_mm, cover.plan.stitch_mm)
    fore_edge = seat.pages[1][0][0]
    strap = [new[old[..., 0] < made.core[0] - 1.0] for new, old in
             zip(seat.yarn, (b.points for b in made.bundles), strict=True)]  # fmt: skip
    places = np.concatenate(strap)
    assert places[:, 0].max() < fore_edge + 3.0, "nothing stands out past the book"
    front = places[places[:, 2] > np.concatenate([y.reshape(-1, 3) for y in seat.yarn])[:, 2].max() - 2.0]
    assert front[:, 0].min() < fore_edge - 3.0, "its end lies on the front"


@pytest.mark.parametrize("view", ["folded", "on-object"])
def test_a_folded_piece_shows_its_outside_and_its_border(cover, view):
    drawn = piece_view(cover, "right", view, Look(width_px=160))
    cloth = cloth_of_piece(cover)
    seen = np.unique(drawn.stitches[drawn.stitches >= 0])
    assert (seen >= len(cloth.stitches)).sum() > 0.3 * sum(cover.border.totals)
    assert (seen < len(cloth.stitches)).sum() > 0.2 * len(cloth.stitches)
    assert math.isclose(drawn.image.shape[1], 160)


def test_a_panel_is_bordered_flat():
    piece = engrave.work_file(STRIPED + '[border]\nstitch = "sc"\ncorner = 3\ncolour = "B"\n', "mat.toml")
    drawn = piece_view(piece, "right", "flat", Look(width_px=200))
    count = len(cloth_of_piece(piece).stitches)
    assert (np.unique(drawn.stitches) >= count).sum() >= 0.9 * sum(piece.border.totals)


def test_the_shadow_of_a_piece_is_not_cut_off_by_the_edge_of_its_picture(cover):
    """The ground along the edges of the picture is of one colour: what pads it further goes on unseen."""
    image = piece_view(cover, "right", "on-object", Look(width_px=160)).image.astype(int)
    edge = np.concatenate([image[0], image[-1], image[:, 0], image[:, -1]])
    assert np.ptp(edge, axis=0).max() <= 3


def test_a_hat_is_seen_from_its_side_as_wide_as_it_is_round_and_as_high_as_it_is_worked():
    """A thread laid from the crown's middle over the dome to the brim is as long as the hat is high."""
    from hookfold.charts.output.images.fabric import crown_and_sides
    from hookfold.charts.picture.folded import Folded
    from hookfold.charts.picture.parts import skein_of
    from hookfold.charts.picture.round_cloth import cloth_of
    from hookfold.charts.picture.worn.seats import FLARES, hat

    text = (GALLERY / "more" / "ferry-hat" / "pattern.toml").read_text("utf-8")
    piece = engrave.work_file(text, "hat.toml")
    around, high = (mm / piece.plan.stitch_mm for mm in piece.plan.finished_mm.values())
    crown_rounds = piece.plan.sections[0].rows
    parts = crown_and_sides(cloth_of(piece.fabric), crown_rounds, around)
    assert all({s.row >= crown_rounds for s in part.stitches if s.spot.role != "unseen"} == {side}
               for part, side in zip(parts, (False, True), strict=True))  # fmt: skip
    crown, sides = (
        Folded(tuple(skein_of(part, {"A": 0, "B": 1}).bundles()), part.box, 0.0, 0.0) for part in parts
    )
    seat = hat(crown, sides, around, high)
    places = np.concatenate([points.reshape(-1, 3) for points in seat.yarn])
    half = around / (2 * math.pi)
    assert np.hypot(places[:, 0], places[:, 2]).max() == pytest.approx(half * (1 + FLARES), abs=1.5)
    top, foot = places[:, 1].max(), places[:, 1].min()
    assert half < top - foot < high, "the way over the dome is longer than the hat is tall"
    assert abs(foot - seat.table) < 1.5


def test_a_tube_stands_round_and_its_ends_meet(monkeypatch):
    """Its yarn lies about a circle of its own way round, at every turn of it, from its first round to its last."""
    from hookfold.charts.output.images.fabric import cloth_of_piece, whole_view
    from hookfold.charts.output.start import Start, starter
    from hookfold.charts.picture.folded import Folded
    from hookfold.charts.picture.parts import skein_of
    from hookfold.charts.picture.worn.seats import tube

    text = starter(Start("mug cosy", "Mug", {"around": "20 cm", "height": "6 cm"}, 16, 18, stitch="close"))
    piece = engrave.work_file(text, "mug.toml")
    cloth = cloth_of_piece(piece)
    heads = [s.head[0] for s in cloth.stitches if s.is_topped]
    box = (min(heads) - 0.5, cloth.box[1], max(heads) + 0.5, cloth.box[3])
    around, high = (mm / piece.plan.stitch_mm for mm in piece.plan.finished_mm.values())
    laid = Folded(tuple(skein_of(cloth, {"": 0}).bundles()), box, 0.0, 0.0)
    places = np.concatenate([points.reshape(-1, 3) for points in tube(laid, around, high).yarn])
    far, turns = np.hypot(places[:, 0], places[:, 2]), np.arctan2(places[:, 2], places[:, 0])
    assert np.median(far) == pytest.approx(around / (2 * math.pi), abs=0.5)
    assert np.diff(np.sort(turns)).max() < 2 * math.pi / around, "no gap as wide as a stitch"
    assert np.ptp(places[:, 1]) == pytest.approx(high, abs=1.6)
    monkeypatch.setattr(fabric, "WHOLE_PX", 160)
    image = whole_view(piece, "right")
    assert image.shape[0] > 0.6 * image.shape[1], "not the flat band, three times as wide as high"
