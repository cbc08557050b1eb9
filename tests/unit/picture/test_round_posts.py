"""A post stitch goes round the post below: behind it and up on both sides, or before it and up behind."""

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


def drawn(hold, *, back=False):
    cloth, _ = cloth_of_written(work_text(ROWS.format(hold=hold)).fabric)
    bundles = list(skein_of(cloth, {"": 0}).bundles())
    if back:
        bundles = [turned(b, cloth.box) for b in bundles]
    left, bottom, right, top = cloth.box
    return cloth, draw_flat(bundles, ["#c08060"], Camera(left, bottom, right, top, 600), cloth.yarn).stitches


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
    cloth, _ = drawn("FP")
    bundles = list(skein_of(cloth, {"": 0}).bundles())
    for one, other in pairs(cloth):
        x, y = cloth.stitches[one].feet[0]
        loop = np.concatenate([b.points[b.stitch == one].reshape(-1, 3) for b in bundles])
        post = np.concatenate([b.points[b.stitch == other].reshape(-1, 3) for b in bundles])
        near = [part[np.abs(part[:, 1] - y) < 0.1] for part in (loop, post)]
        assert np.abs(near[0][:, 0] - x).max() > np.abs(near[1][:, 0] - x).max() + radius() / 2
