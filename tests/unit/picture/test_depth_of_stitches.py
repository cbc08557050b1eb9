"""How deep stitches lie: posts that stand out or sink in, one over the other, heads and feet where they must be."""

import itertools
import math
from pathlib import Path

import numpy as np
import pytest
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.picture import cloth as cloths
from hookfold.charts.picture.parts import make_up, skein_of
from hookfold.charts.picture.round_cloth import cloth_of
from hookfold.charts.picture.seeing.canvas import Canvas
from hookfold.charts.picture.seeing.light import Ground, lit
from hookfold.charts.picture.strokes import radius, stroke, thickness

FABRICS = Path(__file__).resolve().parents[3] / "gallery" / "fabrics"
POSTS = """Terms: US
Ch 11.
Row 1 (RS): Dc in 4th ch from hook (beg 3 sk ch count as dc) and in each ch across, turn. (9 dc)
Row 2: Ch 3 (counts as dc), {wrong}dc around next 7 dc, dc in top of beg ch-3, turn. (9 sts)
Row 3: Ch 3 (counts as dc), {right}dc around next 7 sts, dc in top of beg ch-3, turn. (9 sts)
"""
ONE_LOOP = """Terms: US
Ch 10.
Row 1 (RS): Sc in 2nd ch from hook and in each ch across, turn. (9 sc)
Row 2: Ch 1, sc in {loop} loop only of each sc across, turn. (9 sc)
Row 3: Ch 1, sc in {loop} loop only of each sc across, turn. (9 sc)
"""


def fabric(name):
    return cloth_of(work_text((FABRICS / f"{name}.txt").read_text("utf-8")).fabric)


def strands(cloth):
    """Every stitch's yarn as places, by its place in the cloth."""
    found = {}
    for b in skein_of(cloth, {"": 0}).bundles():
        for at, points in zip(b.stitch.tolist(), b.points, strict=True):
            found.setdefault(at, []).append(points)
    return {at: np.concatenate(lines) for at, lines in found.items()}


def held_pairs(cloth, row):
    place = {(s.row, s.spot.item): at for at, s in enumerate(cloth.stitches)}
    return [(at, place[row - f.back, f.at]) for at, s in enumerate(cloth.stitches)
            if s.row == row and s.spot.is_posted for f in s.made.feet]


def near(points, y, by=0.22):
    return points[np.abs(points[:, 1] - y) < by]


@pytest.mark.parametrize(("wrong", "right", "side"), [("BP", "FP", 1.0), ("FP", "BP", -1.0)])
def test_in_a_rib_the_upper_post_stands_before_the_head_of_the_one_that_it_holds(wrong, right, side):
    """On the side to which both stand out, yarn of the upper one lies before all of the lower one at that one's head."""
    cloth = cloth_of(work_text(POSTS.format(wrong=wrong, right=right)).fabric)
    yarn = strands(cloth)
    for one, other in held_pairs(cloth, 2):
        y = cloth.stitches[other].head[1]
        upper, lower = near(yarn[one], y)[:, 2] * side, near(yarn[other], y)[:, 2] * side
        assert upper.max() > lower.max() + 2 * radius()


@pytest.mark.parametrize(("wrong", "right", "side"), [("BP", "FP", -1.0), ("FP", "BP", 1.0)])
def test_on_the_other_side_the_top_of_the_held_one_lies_across_before_the_post(wrong, right, side):
    cloth = cloth_of(work_text(POSTS.format(wrong=wrong, right=right)).fabric)
    yarn = strands(cloth)
    for one, other in held_pairs(cloth, 2):
        y = cloth.stitches[other].head[1]
        bar, post = near(yarn[other], y), near(yarn[one], y, 0.4)
        assert (bar[:, 2] * side).max() > (post[:, 2] * side).max() + 2 * radius()
        assert np.ptp(bar[bar[:, 2] * side > 0.3][:, 0]) + 2 * radius() > 0.95


def test_a_post_is_held_close_under_its_top():
    cloth = cloth_of(work_text(POSTS.format(wrong="FP", right="BP")).fabric)
    for one, other in held_pairs(cloth, 1):
        held = cloth.stitches[other]
        foot, head = held.feet[0][1], held.head[1]
        assert 0.55 < (cloth.stitches[one].feet[0][1] - foot) / (head - foot) < 0.75


def test_the_columns_of_a_rib_lie_deep_and_high_by_turns_and_its_tops_between():
    cloth = fabric("post-rib")
    yarn = strands(cloth)
    tops = {True: [], False: []}
    for at, s in enumerate(cloth.stitches):
        if s.row == 2 and s.spot.is_posted:
            y = s.feet[0][1] + 0.5 * (s.head[1] - s.feet[0][1])
            tops[s.lift > 0].append(near(yarn[at], y)[:, 2].max())
            assert abs(s.tops[1]) < abs(s.lift) / 2
    assert min(tops[True]) > max(tops[False]) + 0.7


def test_a_taut_row_evens_out_how_far_its_heads_lie_out():
    assert cloths._evened([0.6, -0.6, 0.6, -0.6])[1:3] == pytest.approx([0.0, 0.0])
    assert cloths._evened([0.6, 0.6, 0.6]) == pytest.approx([0.6, 0.6, 0.6])


def test_the_v_between_two_heads_goes_from_the_depth_of_one_to_that_of_the_other():
    row = [s for s in fabric("basketweave").stitches if s.row == 1 and s.spot.is_posted]
    for before, here in itertools.pairwise(row):
        assert here.tops[0] == pytest.approx(before.tops[1])
    assert max(s.tops[1] for s in row) > 0.4 and min(s.tops[1] for s in row) < -0.4


@pytest.mark.parametrize(("loop", "sign"), [("back", 1.0), ("front", -1.0)])
def test_cloth_with_one_strand_left_free_lies_in_folds(loop, sign):
    """The free strand of row 1 is before the one who works row 2 on the wrong side; rows take turns."""
    cloth = cloth_of(work_text(ONE_LOOP.format(loop=loop)).fabric)
    heads = {row: [s.tops[1] for s in cloth.stitches if s.row == row and s.is_topped] for row in range(3)}
    assert all(-sign * z > radius() for z in heads[0]) and all(sign * z > radius() for z in heads[1])
    assert all(z == 0 for z in heads[2])
    assert all(s.low == pytest.approx(heads[1][0]) for s in cloth.stitches if s.row == 2 and s.spot.role == "stitch")


def test_slip_stitches_in_the_front_strands_lie_over_the_round_that_they_are_worked_in():
    cloth = fabric("ridged-circle")
    yarn = strands(cloth)
    slips = [yarn[at][:, 2].max() for at, s in enumerate(cloth.stitches) if s.row == 2 and s.spot.kind == "sl st" and s.spot.role == "stitch"]
    below = [yarn[at][:, 2].max() for at, s in enumerate(cloth.stitches) if s.row == 1 and s.spot.kind == "sc"]
    assert len(slips) == 16 and np.median(slips) > np.median(below) + radius()


def heights(name):
    """How far out each stitch of several legs stands."""
    cloth = fabric(name)
    yarn = strands(cloth)
    return [yarn[at][:, 2].max() for at, s in enumerate(cloth.stitches) if s.row >= 0 and s.spot.role == "stitch"
            and make_up(s.spot.kind, s.spot.legs, s.spot.base)[2] > 1]


def test_a_popcorn_stands_out_more_than_a_bobble_a_bobble_than_a_puff_a_puff_than_a_cluster():
    popcorn, bobble, puff, cluster = (heights(name) for name in ("popcorns", "bobbles", "puffs", "clusters"))
    assert min(popcorn) > max(bobble) + 0.1 and min(bobble) > max(puff) + 0.1 and min(puff) > max(cluster) + 0.1


@pytest.mark.parametrize(("name", "shape", "wraps", "rims"), [("popcorns", "popcorn", 5, 5), ("bobbles", "bobble", 4, 0), ("puffs", "puff", 0, 0)])
def test_the_posts_of_a_popcorn_and_a_bobble_have_their_yarn_overs_and_a_puff_has_none(name, shape, wraps, rims):
    """A popcorn's posts have tops of their own besides the V: a ring."""
    cloth = fabric(name)
    at = next(k for k, s in enumerate(cloth.stitches) if s.spot.role == "stitch" and make_up(s.spot.kind, s.spot.legs, s.spot.base)[1] == shape)
    skein = skein_of(cloth, {"": 0})
    count = {stroke_: sum(owner == at for (n, _), own in skein.owners.items() if n == stroke_ for owner, _ in own)
             for stroke_ in ("leg-wrap", "rim", "top")}
    assert count == {"leg-wrap": wraps, "rim": rims, "top": 1}


@pytest.mark.parametrize("name", ["wrap", "held-wrap", "leg-wrap"])
def test_a_yarn_over_slants_steeply_across_its_own_post_only(name):
    points = stroke(name)
    front = points[points[:, 3] > 0.25]
    rise = np.ptp(front[:, 1]) / np.ptp(front[:, 2])
    assert rise > 0.75 and np.abs(points[:, 2]).max() + radius() * thickness(name) <= 0.5


@pytest.mark.parametrize(("name", "many"), [("crossed", 14), ("leaning-cables", 8)])
def test_of_those_that_cross_all_posts_lie_clear_of_each_other(name, many):
    over = [s.over for s in fabric(name).stitches if s.row == 2 and s.over]
    assert sorted(over) == [-cloths.CROSSED_OVER] * (many // 2) + [cloths.CROSSED_OVER] * (many // 2)
    assert 3 * radius() < 2 * cloths.CROSSED_OVER


@pytest.mark.parametrize(("name", "kind"), [("mosaic", "dc"), ("spikes", "spike")])
def test_what_reaches_past_the_row_below_lies_over_the_row(name, kind):
    cloth = fabric(name)
    yarn = strands(cloth)
    row = next(s.row for s in cloth.stitches if s.deep)
    deep = [(yarn[at][:, 2] * s.face).max() for at, s in enumerate(cloth.stitches) if s.row == row and s.deep]
    plain = [(yarn[at][:, 2] * s.face).max() for at, s in enumerate(cloth.stitches) if s.row == row and s.spot.kind == "sc"]
    assert len(deep) > 2 and min(deep) > max(plain) + radius()


def test_layers_of_a_flower_lie_clear_of_each_other():
    cloth = fabric("layered-flower")
    yarn = strands(cloth)
    thick = [np.ptp(yarn[at][:, 2]) for at, s in enumerate(cloth.stitches) if s.row == 3 and s.spot.kind == "dc"]
    steps = sorted({s.level for s in cloth.stitches})
    assert np.diff(steps).min() > np.median(thick) + radius()


def test_a_lower_layer_is_in_the_shade_of_a_higher_one_beside_it():
    """A step up to the right, away from the lamp: the lower side is darker close to it than farther off."""
    px, wide, high = 20.0, 240, 120
    canvas = Canvas(wide, high)
    level = np.zeros((high, wide), dtype=np.float32)
    level[:, 160:] = 1.5 * px
    canvas.depth[:-1] = level.ravel()
    image = lit(canvas, px, np.array([(0.5, 0.5, 0.5)], dtype=np.float32), Ground((1.0, 1.0, 1.0), -px), 1)
    row = image[60, :, 0].astype(int)
    close, far = row[round(160 - 0.9 * px)], row[round(160 - 5 * px)]
    assert close < far - 4 and row[170] >= far


def test_a_beginning_chain_stands_off_from_the_stitch_beside_it():
    cloth = fabric("double-crochet")
    turning = [s for s in cloth.stitches if s.spot.role == "turning" and s.row > 0]
    assert turning
    for s in turning:
        low, high = s.line[0], s.line[-1]
        middle = cloths.along_line(s.line, 0.5)
        straight = ((low[0] + high[0]) / 2, (low[1] + high[1]) / 2)
        out = (middle[0] - straight[0]) * -s.along[0] + (middle[1] - straight[1]) * -s.along[1]
        assert out > 0.08 and math.dist(low, high) > 1.0
