"""Edges with their chains, and the tops of stitches that cross."""

import itertools
import math
from pathlib import Path

import numpy as np
import pytest
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.picture.parts import skein_of
from hookfold.charts.picture.round_cloth import cloth_of
from hookfold.charts.picture.strokes import radius

FABRICS = Path(__file__).resolve().parents[3] / "gallery" / "fabrics"
PLAIN = {
    "sc": "Ch 9.\nRow 1 (RS): Sc in 2nd ch from hook and in each ch across, turn. (8 sc)\nRows 2-4: Ch 1, sc in each sc across, turn. (8 sc)\n",
    "dc": "Ch 10.\nRow 1 (RS): Dc in 4th ch from hook and in each ch across, turn. (8 dc)\nRows 2-4: Ch 3, dc in next dc and in each dc across, turn. (8 dc)\n",
}


def cloth(name):
    text = "Terms: US\n" + PLAIN[name] if name in PLAIN else (FABRICS / f"{name}.txt").read_text("utf-8")
    return cloth_of(work_text(text).fabric)


def strands(made, name):
    skein = skein_of(made, {"": 0})
    found = [b for key, b in zip(list(skein.frames), skein.bundles(), strict=True) if key[0] == name]
    return np.concatenate([b.stitch for b in found]), np.concatenate([b.points for b in found])


@pytest.mark.parametrize(("name", "many", "long"), [("sc", 1, 0.45), ("dc", 3, 0.5)])
def test_every_turning_chain_stands_as_chains_at_the_edge(name, many, long):
    made = cloth(name)
    owners, points = strands(made, "chain")
    turns = [k for k, s in enumerate(made.stitches) if s.row > 0 and s.spot.role in ("start", "turning")]
    assert len(turns) == 3
    for k in turns:
        links = points[owners == k]
        assert len(links) == many
        side = max if made.stitches[k].head[0] > 3 else min
        edge = side(s.head[0] for s in made.stitches if s.is_topped)
        assert (abs(links[:, :, 0].mean(axis=1) - edge) < 0.6).all()
        assert np.ptp(links[:, :, 1], axis=1).min() > long
        # one link reaches to the next, and the lowest to the row below
        middles = np.sort(links[:, :, 1].mean(axis=1))
        assert len(middles) < 2 or np.diff(middles).max() < 0.9
        assert links[:, :, 1].min() < made.stitches[k].head[1] - 0.55 * many


def test_edge_stitches_lie_within_the_piece():
    made = cloth("sc")
    bundles = list(skein_of(made, {"": 0}).bundles())
    left, right = (f(s.head[0] for s in made.stitches if s.row == 1 and s.is_topped) for f in (min, max))
    rows = [k for k, s in enumerate(made.stitches) if s.row == 1]
    xs = np.concatenate([b.points[np.isin(b.stitch, rows), :, 0].ravel() for b in bundles])
    assert xs.min() > left - 0.7 and xs.max() < right + 0.7


@pytest.mark.parametrize("name", ["crossed", "leaning-cables"])
def test_the_tops_of_a_row_with_stitches_that_cross_lie_in_one_line(name):
    made = cloth(name)
    row = next(s.row for s in made.stitches if s.over and s.spot.role == "stitch")
    tops = [s.head[1] for s in made.stitches if s.row == row and s.is_topped]
    assert max(tops) - min(tops) < 0.05


def test_the_heads_of_stitches_that_cross_are_as_large_and_lie_as_deep_as_others():
    made = cloth("crossed")
    owners, points = strands(made, "top")
    row = [k for k in owners.tolist() if made.stitches[k].row == 2]
    over = [k for k in row if made.stitches[k].over]
    assert len(over) > 8
    deep = {k: points[owners == k][0, :, 2].max() for k in row}
    wide = {k: np.ptp(points[owners == k][0, :, 0]) for k in row}
    assert max(deep.values()) - min(deep.values()) < 0.2
    assert max(wide[k] for k in over) < 1.3


def test_of_two_that_cross_one_post_passes_in_front_of_the_other():
    made = cloth("crossed")
    owners, points = strands(made, "low")
    pairs = [(k, k + 1) for k, s in enumerate(made.stitches[:-1])
             if s.row == 2 and s.over and made.stitches[k + 1].over and s.over * made.stitches[k + 1].over < 0
             and (s.feet[0][0] - made.stitches[k + 1].feet[0][0]) * (s.head[0] - made.stitches[k + 1].head[0]) < 0]
    assert len(pairs) >= 6
    for a, b in pairs:
        front, back = (a, b) if made.stitches[a].over > 0 else (b, a)
        far = points[owners == front][0, :, 2].mean() - points[owners == back][0, :, 2].mean()
        assert far > 2 * radius()
        assert math.dist(made.stitches[a].head, made.stitches[b].head) < 1.6


@pytest.mark.parametrize("name", ["picot-edging", "lace-doily", "picot-shells"])
def test_the_loop_of_a_picot_is_as_long_as_its_chains(name):
    """Chains that lie free are three quarters of a stitch long (our measure); the loop is closed with a little more."""
    made = cloth(name)
    owners, points = strands(made, "chain")
    picots = [k for k, s in enumerate(made.stitches) if s.spot.role == "picot"]
    assert picots
    for k in picots[:12]:
        links = points[owners == k]
        count = max(made.stitches[k].spot.chains, 3)
        assert len(links) == count + 1
        middles = links.mean(axis=1)[:, :2]
        around = np.linalg.norm(middles - np.roll(middles, 1, axis=0), axis=1).sum()
        assert 0.55 * count < around < 0.75 * count + 1.0  # through the middles of its links
        # closed, and round: not more than twice as high as wide
        off = middles - middles.mean(axis=0)
        spread = np.sqrt(np.linalg.eigvalsh(off.T @ off / len(off)))
        assert spread[1] < 2.4 * spread[0]


SLIPPED = """Terms: US
Ch 9.
Row 1 (RS): Sc in 2nd ch from hook and in each ch across, turn. (8 sc)
Row 2: Ch 1, sl st in back loop only of each st across, turn. (8 sl st)
Row 3: Ch 1, sl st in back loop only of each st across, turn. (8 sl st)
Row 4: Ch 1, sl st in back loop only of each st across, turn. (8 sl st)
"""


def test_rows_of_slip_stitches_lie_close_on_each_other_without_holes():
    made = cloth_of(work_text(SLIPPED).fabric)
    tops = {s.row: s.head[1] for s in made.stitches if s.is_topped}
    assert all(0.3 < tops[r] - tops[r - 1] < 0.6 for r in (1, 2, 3))
    owners, points = strands(made, "slip")
    legs = points[np.isin(owners, [k for k, s in enumerate(made.stitches) if s.row == 2])]
    across = legs[:, :, 0] - legs[:, :, 0].mean(axis=1, keepdims=True)
    assert (across.max(axis=1) > 0.08).all() and (across.min(axis=1) < -0.08).all()


SHELLS = """Terms: US
Picot: Ch 3, sl st in 3rd ch from hook.

Ch 20.
Row 1 (RS): Sc in 2nd ch from hook, *sk 2 ch, (2 dc, picot, 2 dc) in next ch, sk 2 ch, sc in next ch; rep from * across, turn. (4 sc, 12 dc, 3 picots)
"""


def test_a_picot_between_two_stitches_stands_midway_as_a_ring_with_an_eye():
    made = cloth_of(work_text(SHELLS).fabric)
    owners, points = strands(made, "chain")
    picots = [k for k, s in enumerate(made.stitches) if s.spot.role == "picot"]
    assert len(picots) == 3
    for k in picots:
        before, after = made.stitches[k - 1].head, made.stitches[k + 1].head
        middle = (before[0] + after[0]) / 2
        links = points[owners == k][:, :, :2].reshape(-1, 2)
        assert links[:, 0].mean() == pytest.approx(middle, abs=0.1)
        # no yarn reaches into the middle of the ring
        eye = (links.min(axis=0) + links.max(axis=0)) / 2
        assert np.linalg.norm(links - eye, axis=1).min() > radius() * made.yarn


def test_the_chains_of_a_foundation_lie_end_to_end_however_far_apart_its_stitches_are():
    made = cloth_of(work_text(SHELLS).fabric)
    owners, points = strands(made, "chain")
    base = [k for k, s in enumerate(made.stitches) if s.spot.role == "foundation"]
    ends = [(points[owners == k][0, :, 0].min(), points[owners == k][0, :, 0].max()) for k in base]
    assert len(ends) == 19 and max(high - low for low, high in ends) < 1.6
    assert all(b[0] < a[1] for a, b in itertools.pairwise(ends))
