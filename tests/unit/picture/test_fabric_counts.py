"""The picture read back: which stitch every pixel shows is counted against the worked rows."""

import itertools
from collections import Counter
from pathlib import Path

import numpy as np
import pytest
from hookfold.charts import engrave
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.output.images.fabric import cloth_of_piece, cloth_of_written, colours_of_piece
from hookfold.charts.picture.views import Look, close_view, flat_view, seen

GALLERY = Path(__file__).resolve().parents[3] / "gallery"
STRIPED = """
title = "Counter mat"
terms = "US"
[gauge]
stitches = 10
rows = 8
over = "10 cm"
[object]
kind = "panel"
width = "12 cm"
height = "15 cm"
[colours]
A = { name = "plum", hex = "#603050" }
B = { name = "straw", hex = "#e0d090" }
[stitches.bobble]
is = "dc4tog in one st"
abbreviation = "bo"
[[section]]
name = "mat"
length = "height"
stripes = ["A", "A", "B", "B"]
work = '''
Row 1 (RS): Ch 1, turn. Sc in each st across.
Row 2 (WS): Ch 1, turn. Sc in first st, *bo in next st, sc in next st; rep from * across.
'''
"""


def fabric(name):
    return work_text((GALLERY / "fabrics" / f"{name}.txt").read_text("utf-8")).fabric


def worked(fabric):
    """How many stitches of each kind the hands made."""
    return sum((Counter(row.row.kinds()) for row in fabric.rows), Counter())


@pytest.fixture(scope="module")
def mat():
    piece = engrave.work_file(STRIPED, "mat.toml")
    cloth = cloth_of_piece(piece)
    return piece, cloth, flat_view(cloth, colours_of_piece(piece), Look(width_px=200))


def shown(drawn, cloth):
    return Counter(s.spot.kind for s in seen(drawn, cloth) if s.row >= 0 and s.spot.role in ("stitch", "turning", "picot"))


def test_every_bobble_and_stitch_is_seen_once(mat):
    piece, cloth, drawn = mat
    assert shown(drawn, cloth) == worked(piece.fabric)
    assert shown(drawn, cloth)["bo"] > 8


def test_stripes_change_where_the_rows_do(mat):
    piece, cloth, drawn = mat
    middle = drawn.stitches[:, drawn.stitches.shape[1] // 2]
    rows = [cloth.stitches[at].row for at in middle if at >= 0 and cloth.stitches[at].row >= 0]
    bands = [piece.fabric.rows[r].colour for r in rows]
    changes = [a for a, b in itertools.pairwise(bands) if a != b]
    planned = [row.colour for row in piece.fabric.rows]
    assert len(changes) >= sum(a != b for a, b in itertools.pairwise(planned))
    assert bands[0] == planned[-1]


def test_stripes_have_the_colours_of_the_pattern(mat):
    _piece, cloth, drawn = mat
    for key, wanted in (("A", (0x60, 0x30, 0x50)), ("B", (0xE0, 0xD0, 0x90))):
        own = np.isin(drawn.stitches, [k for k, s in enumerate(cloth.stitches) if s.colour == key])
        mean = drawn.image[own].mean(axis=0)
        assert np.corrcoef(mean, wanted)[0, 1] > 0.95 or abs(mean - wanted).max() < 60
        assert abs(mean / mean.sum() - np.array(wanted) / sum(wanted)).max() < 0.06


def test_bobbles_stand_out_on_the_side_away_from_the_worker(mat):
    piece, cloth, drawn = mat
    other = flat_view(cloth, colours_of_piece(piece), Look("wrong", 200))

    def share(view):
        bobbles = [k for k, s in enumerate(cloth.stitches) if s.spot.kind == "bo"]
        return np.isin(view.stitches, bobbles).mean()

    assert share(drawn) > 1.5 * share(other) > 0


def test_rows_are_as_high_as_planned(mat):
    piece, cloth, _ = mat
    plan = piece.plan
    heights = [h / plan.stitch_mm for section in plan.sections for h in section.row_heights_mm]
    tops = {}
    for s in cloth.stitches:
        if s.row >= 0 and s.spot.kind == "sc":
            tops.setdefault(s.row, s.head[1])
    for row, top in tops.items():
        assert top == pytest.approx(sum(heights[: row + 1]), abs=0.3)


@pytest.mark.parametrize("name", ["single-crochet", "post-rib", "spikes", "crossed", "picot-edging", "granny-square",
                                  "mitred-square", "half-circle", "oval-mat"])
def test_every_stitch_of_a_fabric_is_seen(name):
    made = fabric(name)
    cloth, colours = cloth_of_written(made)
    one, other = (flat_view(cloth, colours, Look(side, 180)) for side in ("right", "wrong"))
    both = Counter(s.spot.kind for s in {id(s): s for v in (one, other) for s in seen(v, cloth)}.values()
                   if s.row >= 0 and s.spot.role in ("stitch", "turning", "picot"))
    assert both == worked(made)


def test_a_left_hand_mirrors_places_and_not_the_twist():
    made = fabric("shells")
    right, _ = cloth_of_written(made)
    left, _ = cloth_of_written(made, "left")
    for a, b in zip(right.stitches, left.stitches, strict=True):
        assert a.head[0] == pytest.approx(-b.head[0]) and a.head[1] == pytest.approx(b.head[1])
        assert a.along[0] == pytest.approx(-b.along[0], abs=1e-6)


def test_same_bytes_twice():
    cloth, colours = cloth_of_written(fabric("puffs"))
    one, two = (close_view(cloth, colours, Look(width_px=200)) for _ in range(2))
    assert one.image.tobytes() == two.image.tobytes()


def test_a_close_up_shows_a_repeat_and_no_more_than_it_must():
    cloth, colours = cloth_of_written(fabric("shells"))
    drawn = close_view(cloth, colours, Look(width_px=200))
    assert 20 < len(seen(drawn, cloth)) < len(cloth.stitches) / 1.5
    assert (drawn.stitches >= 0).mean() > 0.8


@pytest.mark.parametrize(("name", "most"), [("single-crochet", 0.005), ("half-double", 0.005), ("double-crochet", 0.02), ("solid-circle", 0.02)])
def test_the_stitches_of_close_cloth_touch(name, most):
    """Hardly any ground is seen between plain stitches."""
    cloth, colours = cloth_of_written(fabric(name))
    shows = flat_view(cloth, colours, Look(width_px=300)).stitches
    rows, columns = np.nonzero(shows >= 0)
    middle, half = (rows.min() + rows.max()) // 2, int(0.33 * np.ptp(rows))
    across, wide = (columns.min() + columns.max()) // 2, int(0.33 * np.ptp(columns))
    assert (shows[middle - half : middle + half, across - wide : across + wide] < 0).mean() <= most
