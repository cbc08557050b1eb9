"""The two halves of a corner are drawn alike and fan evenly, though slip stitches lead into it before the first round's corner."""

import math

import pytest
from hookfold.charts.layout.rounds.lay import lay_rounds
from hookfold.charts.model.rows.work import work_text

GRANNY = """Terms: US
Ch 4, join with sl st to form a ring.
Rnd 1: Ch 3 (counts as dc), 2 dc in ring, ch 2, *3 dc in ring, ch 2; rep from * twice more, join with sl st in top of ch-3. (12 dc)
Rnd 2: Sl st in next 2 dc, sl st in next ch-2 sp, ch 3 (counts as dc), (2 dc, ch 2, 3 dc) in same sp, *ch 1, (3 dc, ch 2, 3 dc) in next ch-2 sp; rep from * twice more, ch 1, join with sl st in top of ch-3. (24 dc)
"""


@pytest.mark.parametrize("corner", range(4))
def test_the_halves_of_a_corner_are_mirror_images(corner):
    worked = work_text(GRANNY)
    assert worked.problems == []
    spots = {s.item: s for s in lay_rounds(worked.fabric).rings[1].laid.spots}
    made = worked.fabric.rows[1].row.stitches
    posts = [spots[n] for n, s in enumerate(made) if s.role in ("stitch", "turning")]
    run = [spots[n] for n, s in enumerate(made) if s.role == "chain" and s.chains == 2][corner]
    xs, ys = zip(*(oval[:2] for oval in run.ovals), strict=True)
    middle = (sum(xs) / len(xs), sum(ys) / len(ys))
    half = posts[6 * corner : 6 * corner + 6]
    far = [((p.head[0] - middle[0]) ** 2 + (p.head[1] - middle[1]) ** 2) ** 0.5 for p in half]
    for one, other in zip(far[:3], reversed(far[3:]), strict=True):
        assert one == pytest.approx(other, abs=0.06)


LARGER = GRANNY + """Rnd 3: Sl st in next 2 dc, sl st in next ch-2 sp, ch 3 (counts as dc), (2 dc, ch 2, 3 dc) in same sp, \
*ch 1, 3 dc in next ch-1 sp, ch 1, (3 dc, ch 2, 3 dc) in next ch-2 sp; rep from * twice more, ch 1, 3 dc in next ch-1 sp, \
ch 1, join with sl st in top of ch-3. (36 dc)
"""


@pytest.mark.parametrize("index", [1, 2])
def test_stitches_in_one_place_fan_evenly(index):
    """From the first to the second as far as from the second to the third, at corners and along the sides."""
    worked = work_text(LARGER)
    assert worked.problems == []
    spots = {s.item: s for s in lay_rounds(worked.fabric).rings[index].laid.spots}
    made = worked.fabric.rows[index].row.stitches
    heads = [spots[n].head for n, s in enumerate(made) if s.role in ("stitch", "turning")]
    for fan in zip(heads[::3], heads[1::3], heads[2::3], strict=True):
        one, other = math.dist(*fan[:2]), math.dist(*fan[1:])
        assert one == pytest.approx(other, abs=0.06)


def test_what_is_done_at_corners_along_the_way_goes_into_their_spaces():
    """ "Working 3 sc in each corner ch-2 sp" is no sc in one of the two chains; its middle one stands on the diagonal."""
    text = LARGER + "Rnd 4: Ch 1, sc in each dc and ch-1 sp around, working 3 sc in each corner ch-2 sp, join with sl st in first sc."
    worked = work_text(text)
    assert worked.problems == []
    row, spots = worked.fabric.rows[3].row, lay_rounds(worked.fabric).rings[3].laid.spots
    corners = [n for n, s in enumerate(row.stitches) if s.feet and s.feet[0].hold == "space" and s.place >= 0]
    assert len(corners) == 12
    for n in corners[1::3]:
        x, y = spots[n].head
        assert abs(abs(x) - abs(y)) < 0.15
