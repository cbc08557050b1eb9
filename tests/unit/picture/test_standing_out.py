"""What stands out of the cloth: gathered stitches are round, layers lie in their order."""

import math
from pathlib import Path

import numpy as np
import pytest
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.output.images.fabric import cloth_of_written
from hookfold.charts.picture.parts import make_up, skein_of
from hookfold.charts.picture.round_cloth import cloth_of
from hookfold.charts.picture.strokes import thickness
from hookfold.charts.picture.views import Look, flat_view

FABRICS = Path(__file__).resolve().parents[3] / "gallery" / "fabrics"


STEMS = {"bobble": "bowed", "popcorn": "gathered", "puff": "puffed"}


def fabric(name):
    return work_text((FABRICS / f"{name}.txt").read_text("utf-8")).fabric


def shape_of(made):
    return make_up(made.spot.kind, made.spot.legs, made.spot.base)[1] if made.spot.role == "stitch" else ""


@pytest.mark.parametrize(("name", "shape", "stems", "widest"), [("bobbles", "bobble", 5, 2.0), ("popcorns", "popcorn", 5, 2.4), ("puffs", "puff", 10, 1.8)])
def test_the_stems_of_a_gathered_stitch_meet_at_both_ends_and_swell_between(name, shape, stems, widest):
    """A stem a leg and one more (a puff: five loops on both sides; a popcorn, whose posts are whole: one a leg), close together at
    foot and head, wide in the middle."""
    cloth = cloth_of(fabric(name))
    at = next(k for k, s in enumerate(cloth.stitches) if shape_of(s) == shape)
    found = [b.points[b.stitch == at] for b in skein_of(cloth, {"": 0}).bundles() if b.thick == thickness(STEMS[shape])]
    points = np.concatenate(found)
    across = points[:, :, 0] - cloth.stitches[at].head[0]
    spread = np.ptp(across, axis=0)
    assert len(points) == stems
    assert spread[0] < 0.45 and spread[-1] < 0.5 and 1.0 < spread.max() < widest


def test_a_bobble_stands_out_further_than_plain_stitches():
    cloth = cloth_of(fabric("bobbles"))
    bobbles = [k for k, s in enumerate(cloth.stitches) if shape_of(s) == "bobble"]
    bundles = list(skein_of(cloth, {"": 0}).bundles())
    out = max(b.points[np.isin(b.stitch, bobbles), :, 2].max() for b in bundles if np.isin(b.stitch, bobbles).any())
    plain = max(b.points[~np.isin(b.stitch, bobbles), :, 2].max() for b in bundles if (~np.isin(b.stitch, bobbles)).any())
    assert out > plain + 0.3


def test_the_layers_of_a_flower_lie_one_under_the_other():
    """Rounds 3 and 5 are worked behind the petals before: 1 and 2 lie highest, and over the ones after them."""
    cloth = cloth_of(fabric("layered-flower"))
    levels = {s.row: s.level for s in cloth.stitches if s.row >= 0}
    assert levels[0] == levels[1] > levels[2] == levels[3] > levels[4] == levels[5] == 0
    far = {row: max(math.hypot(*s.head) for s in cloth.stitches if s.row == row) for row in levels}
    near = {row: min(math.hypot(*f) for s in cloth.stitches if s.row == row for f in s.feet) for row in levels}
    assert far[1] > near[3] and far[3] > near[5] and far[1] < far[3] < far[5]


def test_a_later_layer_is_hidden_where_an_earlier_one_lies_over_it():
    cloth, colours = cloth_of_written(fabric("layered-flower"))
    shows = flat_view(cloth, colours, Look(width_px=300)).stitches
    counts = dict(zip(*np.unique(shows[shows >= 0], return_counts=True), strict=True))
    behind = [counts.get(k, 0) for k, s in enumerate(cloth.stitches) if s.row == 2 and s.spot.role == "chain"]
    petals = [counts.get(k, 0) for k, s in enumerate(cloth.stitches) if s.row == 1 and s.spot.kind == "dc"]
    assert sum(behind) / len(behind) < 0.5 * sum(petals) / len(petals)


@pytest.mark.parametrize("name", ["ridged-circle", "post-wheel", "lace-doily", "granny-square"])
def test_rounds_that_lie_in_one_plane_are_one_layer(name):
    assert {s.level for s in cloth_of(fabric(name)).stitches} == {0.0}
