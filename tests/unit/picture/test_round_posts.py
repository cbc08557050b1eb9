"""A post stitch goes round the post below: behind it and up on both sides, or before it and up behind."""

from functools import cache

import numpy as np
import pytest
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.output.images.fabric import cloth_of_written
from hookfold.charts.picture.parts import skein_of
from hookfold.charts.picture.scene import Camera, draw_flat
from hookfold.charts.picture.strokes import radius
from hookfold.charts.picture.views import turned

ROWS = """Terms: US
Ch 10.
Row 1 (RS): Dc in 4th ch from hook (beg 3 sk ch count as dc) and in each ch across. (8 dc)
Row 2: Ch 3 (counts as dc), turn, dc in next 6 dc, dc in top of beg ch-3. (8 dc)
Row 3: Ch 3 (counts as dc), turn, {hold}dc around next 6 dc, dc in top of beg ch-3. (8 sts)
"""


@cache
def cloth_of(text):
    """The stitches of a written pattern where they lie in the cloth, laid once for all that look at them."""
    return cloth_of_written(work_text(text).fabric)[0]


def drawn(hold, *, back=False):
    """The cloth with the picture that says of each dot whose yarn it is, 40 dots to a stitch."""
    cloth = cloth_of(ROWS.format(hold=hold))
    bundles = list(skein_of(cloth, {"": 0}).bundles())
    if back:
        bundles = [turned(b, cloth.box) for b in bundles]
    left, bottom, right, top = cloth.box
    return cloth, draw_flat(bundles, ["#c08060"], Camera(left, bottom, right, top, 330), cloth.yarn).stitches


def pairs(cloth):
    """A stitch of the third row with the one of the second that it is worked round, by their places."""
    place = {(s.row, s.spot.item): at for at, s in enumerate(cloth.stitches)}
    return [(at, place[s.row - f.back, f.at]) for at, s in enumerate(cloth.stitches) if s.row == 2
            for f in s.made.feet if s.spot.is_posted]


def seen_across(cloth, stitches, one, other, *, back=False):
    """Whose yarn is seen along a level line through the middle of the held post, only these two."""
    left, _, right, top = cloth.box
    x, y = cloth.stitches[one].feet[0]
    x = left + right - x if back else x
    px = stitches.shape[1] / (right - left)
    row = stitches[round((top - y + 0.1) * px), round((x - 0.6) * px - left * px) : round((x + 0.6) * px - left * px)]
    return [at for at in row.tolist() if at in (one, other)]


@pytest.mark.parametrize(("hold", "back"), [("FP", False), ("BP", True)])
def test_held_from_this_side_the_held_post_is_seen_between_two_legs(hold, back):
    cloth, stitches = drawn(hold, back=back)
    found = pairs(cloth)
    between = 0
    for one, other in found:
        across = seen_across(cloth, stitches, one, other, back=back)
        held = [k for k, at in enumerate(across) if at == other]
        legs = [k for k, at in enumerate(across) if at == one]
        between += bool(held and legs and min(legs) < np.median(held) < max(legs))
    assert len(found) == 6 and between >= 5


@pytest.mark.parametrize(("hold", "back"), [("BP", False), ("FP", True)])
def test_held_from_the_other_side_the_loop_lies_over_the_held_post(hold, back):
    cloth, stitches = drawn(hold, back=back)
    for one, other in pairs(cloth):
        across = seen_across(cloth, stitches, one, other, back=back)
        assert across.count(one) > 0.7 * len(across) > 0


def test_the_loop_of_a_post_stitch_is_wider_than_the_post_it_holds():
    cloth = cloth_of(ROWS.format(hold="FP"))
    bundles = list(skein_of(cloth, {"": 0}).bundles())
    for one, other in pairs(cloth):
        x, y = cloth.stitches[one].feet[0]
        loop = np.concatenate([b.points[b.stitch == one].reshape(-1, 3) for b in bundles])
        post = np.concatenate([b.points[b.stitch == other].reshape(-1, 3) for b in bundles])
        near = [part[np.abs(part[:, 1] - y) < 0.1] for part in (loop, post)]
        assert np.abs(near[0][:, 0] - x).max() > np.abs(near[1][:, 0] - x).max() + radius() / 2


RIB = """Terms: US
Ch 10.
Row 1 (RS): Dc in 4th ch from hook (beg 3 sk ch count as dc) and in each ch across, turn. (8 dc)
Row 2: Ch 2 (counts as hdc), *FPdc around next dc, BPdc around next dc; rep from * to last dc, hdc in last dc, turn. (8 sts)
Rows 3 and 4: Ch 2 (counts as hdc), *FPdc around next st, BPdc around next st; rep from * to last st, hdc in top of beg ch-2, turn. (8 sts)
"""


def held_strands(cloth, name):
    """Where the strands of one stroke of all post stitches lie, with the stitch each is part of."""
    skein = skein_of(cloth, {"": 0})
    keys, bundles = list(skein.frames), list(skein.bundles())
    found = [b for key, b in zip(keys, bundles, strict=True) if key[0] == name]
    return [(cloth.stitches[s], line) for b in found for s, line in zip(b.stitch.tolist(), b.points, strict=True)]


def test_the_two_legs_of_a_post_stand_close_together_as_one_column():
    cloth = cloth_of(RIB)
    for name in ("round-post", "last-held"):
        for made, line in held_strands(cloth, name):
            out = line[:, 2] * np.sign(made.lift)
            front = line[out > out.max() - radius()]
            # what stands out in front is no wider than two strands side by side
            assert np.ptp(front[:, 0]) < 2.2 * radius()


def test_the_foot_of_a_post_goes_behind_the_one_below_before_it_ends():
    cloth = cloth_of(RIB)
    for made, line in held_strands(cloth, "round-post"):
        out = (line[:, 2] - made.low) * np.sign(made.lift)
        foot = line[:, 1] < made.feet[0][1] + 0.12
        assert out[foot].max() < 0.0


def test_taller_posts_that_cross_do_not_lift_the_ground_beside_them():
    text = """Terms: US
Ch 10.
Row 1 (RS): Dc in 4th ch from hook (beg 3 sk ch count as dc) and in each ch across, turn. (8 dc)
Row 2: Ch 2 (counts as hdc), BPdc around next dc, FPdc around next 4 dc, BPdc around next dc, hdc in last st, turn. (8 sts)
Row 3: Ch 2 (counts as hdc), FPdc around next st, {cable}, FPdc around next st, hdc in last st, turn. (8 sts)
"""
    cable = "sk next 2 sts, FPtr around next 2 sts, working in front of sts just made, FPtr around 2 skipped sts"
    tops = []
    for middle in (cable, "FPdc around next 4 sts"):
        cloth, _ = cloth_of_written(work_text(text.format(cable=middle)).fabric)
        tops.append(max(s.head[1] for s in cloth.stitches if s.row == 2 and s.is_topped))
    assert tops[0] == pytest.approx(tops[1], abs=0.35)
