"""What a stitch shows on each face, as geometry: which strand lies where, and what stands on what (the anatomy of the
stitches is common practice, no source)."""


import itertools

import numpy as np
import pytest
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.picture.parts import make_up, skein_of
from hookfold.charts.picture.round_cloth import cloth_of
from hookfold.charts.picture.strokes import radius, stroke
from hookfold.charts.picture.tension import pressed, resampled
from hookfold.charts.picture.yarn import Frame, placed

PUFFS = """Terms: US
Puff = [Yo, insert hook in st, yo and pull up a loop] 3 times in same st, yo and draw through all 7 loops on hook.
Ch 11.
Row 1 (RS): Sc in 2nd ch from hook and in each ch across, turn. (10 sc)
Row 2: Ch 1, sc in each st across, turn. (10 sc)
Row 3: Ch 1, sc in first 2 sts, *puff in next st, sc in next 2 sts; rep from * to last 2 sts, puff in next st, sc in last st, turn. (10 sts)
Row 4: Ch 1, sc in each st across, turn. (10 sc)
"""


def in_place(name, rise=1.0):
    """A stroke over the foot (0, 0), its head so far up; seen by the worker."""
    frame = Frame((0, 0, 0), (0, rise, 0), (0, 1), (1, 0))
    return resampled(placed(stroke(name), np.array([frame.numbers()], np.float32)))[0]


def strands(text, *names):
    """A worked text's cloth and the places of all strands of the named strokes, with their stitches."""
    cloth = cloth_of(work_text(text).fabric)
    skein = skein_of(cloth, {"": 0})
    found = [b for key, b in zip(list(skein.frames), skein.bundles(), strict=True) if key[0] in names]
    return cloth, found


def shape_of(made):
    return make_up(made.spot.kind, made.spot.legs, made.spot.base)[1] if made.spot.role == "stitch" else ""


def test_the_back_of_a_single_crochet_shows_two_short_legs_under_its_bar():
    """One goes up to its own head; the other comes steeply from behind the bar, on the other side of the hole."""
    line = in_place("sc")
    bar = line[line[:, 2] < -0.44]
    up = line[(line[:, 2] < -0.26) & (line[:, 1] > 0.0) & (line[:, 1] < 0.4) & (np.arange(len(line)) > len(line) / 2)]
    # the way down comes from one stitch before
    frame = Frame((0, 0, 0), (-1, 1, 0), (0, 1), (1, 0))
    down = resampled(placed(stroke("down"), np.array([frame.numbers()], np.float32)))[0]
    down = down[(down[:, 2] < -0.26) & (down[:, 1] > 0.0) & (down[:, 1] < 0.4)]
    assert up[:, 0].mean() > 0.1 and down[:, 0].mean() < -0.1
    for leg in (up, down):
        assert np.ptp(leg[:, 1]) > np.ptp(leg[:, 0])
        assert leg[:, 1].max() < bar[:, 1].mean() and np.ptp(leg[:, 1]) < 0.6
    assert 0.3 < bar[:, 1].mean() - min(up[:, 1].min(), down[:, 1].min()) < 0.8


def test_the_back_of_a_double_crochet_shows_a_longer_post_than_that_of_a_single():
    post, short = in_place("low", 0.8), in_place("sc")

    def back(line):
        behind = line[(line[:, 2] < -0.25) & (abs(line[:, 0]) < 0.25)]
        return np.ptp(behind[behind[:, 1] > -0.1][:, 1])

    assert back(post) > 0.6 and back(short) < 0.75
    # the bar of its joint stays within the post, so that posts are apart
    joint = post[(post[:, 1] > 0.7) & (post[:, 2] > -0.3)]
    assert np.ptp(joint[:, 0]) / 2 + radius() < 0.45


def test_a_wrap_crosses_its_joint_on_both_faces():
    line = in_place("wrap", 0.5)
    front, back = line[line[:, 2] > 0.3], line[line[:, 2] < -0.4]
    for face in (front, back):
        assert np.ptp(face[:, 0]) > 0.15 and np.ptp(face[:, 1]) > 0.1


def test_a_half_double_has_its_third_loop_behind_and_a_slant_in_front():
    line = in_place("third-loop", 1.3)
    back, front = line[line[:, 2] < -0.45], line[line[:, 2] > 0.34]
    legs = in_place("half", 1.3)
    assert np.ptp(back[:, 0]) > 0.4 and np.ptp(back[:, 1]) < 0.15
    assert back[:, 2].max() < legs[:, 2].min()
    assert np.ptp(front[:, 0]) > 0.3 and front[0, 1] - front[-1, 1] > 0.2
    # below the V, and above the middle of the stitch
    assert (back[:, 1] < 1.3 - radius()).all() and (back[:, 1] > 0.65).all()


def test_a_puff_is_a_cushion_of_upright_loops_closed_below_the_row_that_stands_on_it():
    cloth, found = strands(PUFFS, "puffed")
    puff = next(k for k, s in enumerate(cloth.stitches) if shape_of(s) == "puff")
    made = cloth.stitches[puff]
    loops = np.concatenate([b.points[b.stitch == puff] for b in found])
    near = loops[loops[:, :, 2].mean(axis=1) * made.face > 0]
    assert 3 <= len(near) <= 5
    middle = near[:, 2:6]
    assert (np.ptp(middle[:, :, 1], axis=1) > 2 * np.ptp(middle[:, :, 0], axis=1)).all()
    across = np.sort(middle[:, :, 0].mean(axis=1))
    assert np.diff(across).max() < 2.4 * radius() and np.ptp(across) > 1.1
    assert abs(near[:, :, 2]).max() > 0.8
    ends = near[:, -1]
    assert np.ptp(ends[:, 0]) < 0.45 * np.ptp(across) and ends[:, 1].max() < made.head[1] - 0.05


@pytest.mark.parametrize("face", [1, -1])
def test_a_puff_is_as_full_on_either_face(face):
    cloth, found = strands(PUFFS, "puffed")
    puff = next(k for k, s in enumerate(cloth.stitches) if shape_of(s) == "puff")
    points = np.concatenate([b.points[b.stitch == puff] for b in found])
    assert (points[:, :, 2] * face).max() > 0.8


def test_stitches_beside_puffs_stand_on_the_row_below_and_reach_the_row_s_height():
    cloth, found = strands(PUFFS, "sc")
    below = {s.spot.item: s for s in cloth.stitches if s.row == 1}
    plain = [k for k, s in enumerate(cloth.stitches) if s.row == 2 and s.spot.kind == "sc" and s.spot.role == "stitch"]
    tops = {round(cloth.stitches[k].head[1], 3) for k in plain} | {
        round(s.head[1], 3) for s in cloth.stitches if s.row == 2 and shape_of(s) == "puff"}
    assert len(plain) == 7 and max(tops) - min(tops) < 0.05  # of a loop's height
    for k in plain:
        made = cloth.stitches[k]
        foot = below[made.made.feet[0].at].head
        legs = np.concatenate([b.points[b.stitch == k] for b in found])[0]
        front = legs[legs[:, 2] * made.face > 0.2]
        assert front[:, 1].min() < foot[1] + radius()
        assert front[:, 1].max() > made.head[1] - 0.7
        assert abs(front[:, 0].mean() - foot[0]) < 0.4


def test_a_puff_keeps_its_fullness_among_its_neighbours():
    """Yarn that gives way to yarn leaves the puff standing out of the stitches beside it."""
    cloth = cloth_of(work_text(PUFFS).fabric)
    puffs = [k for k, s in enumerate(cloth.stitches) if shape_of(s) == "puff"]
    plain = [k for k, s in enumerate(cloth.stitches) if s.row == 2 and s.spot.kind == "sc"]
    bundles = pressed(list(skein_of(cloth, {"": 0}).bundles()), cloth.yarn)

    def out(stitches):
        return max(b.points[np.isin(b.stitch, stitches), :, 2].max() for b in bundles if np.isin(b.stitch, stitches).any())

    assert out(puffs) > out(plain) + 0.3


POPCORNS = """Terms: US
Popcorn (pc): 5 dc in next st, drop loop from hook, insert hook in first of these dc, pull dropped loop through.
Ch 12.
Row 1 (RS): Sc in 2nd ch from hook and in each ch across, turn. (11 sc)
Row 2: Ch 1, sc in each sc across, turn. (11 sc)
Row 3: Ch 3 (counts as dc), dc in next 2 sc, pc in next sc, dc in next 3 sc, pc in next sc, dc in last 3 sc, turn. (9 dc, 2 pc)
"""


def test_a_popcorn_is_a_ball_closed_at_its_top_by_the_loop_drawn_through_its_stitches():
    """Its tops lie side by side from one side round the front to the other; the loop goes from them to the head."""
    cloth, rims = strands(POPCORNS, "rim")
    popcorn = next(k for k, s in enumerate(cloth.stitches) if shape_of(s) == "popcorn")
    made = cloth.stitches[popcorn]
    rim = np.concatenate([b.points[b.stitch == popcorn] for b in rims])
    posts = np.concatenate([b.points[b.stitch == popcorn] for b in strands(POPCORNS, "gathered")[1]])
    assert len(rim) == len(posts) == 5
    order = np.argsort(rim[:, 2, 0])
    ends = [(rim[a, -2], rim[b, 1]) for a, b in itertools.pairwise(order)]
    if rim[0, 1, 0] > rim[0, -2, 0]:
        ends = [(rim[a, 1], rim[b, -2]) for a, b in itertools.pairwise(order)]
    assert max(np.linalg.norm(one - other) for one, other in ends) < 2 * radius()
    # narrower than the ball below it, and near its top
    assert np.ptp(rim[:, :, 0]) < 0.95 * np.ptp(posts[:, :, 0])
    assert (rim[:, 1:-1, 1] > made.feet[0][1] + 0.75 * (made.head[1] - made.feet[0][1])).all()
    (drawn,) = [b.points[b.stitch == popcorn] for b in strands(POPCORNS, "drawn-through")[1]]
    assert drawn[0, :, 2].max() > rim[:, :, 2].max() - 0.1
    assert np.linalg.norm(drawn[0, 4:6].mean(axis=0)[:2] - np.array(made.head)) < 0.3


def test_the_posts_of_a_popcorn_leave_no_gap_between_them():
    cloth, posts = strands(POPCORNS, "gathered")
    popcorn = next(k for k, s in enumerate(cloth.stitches) if shape_of(s) == "popcorn")
    (found,) = [b for b in posts if (b.stitch == popcorn).any()]
    middle = found.points[found.stitch == popcorn][:, 4]
    middle = middle[np.argsort(middle[:, 0])]
    assert np.linalg.norm(np.diff(middle, axis=0), axis=1).max() < 2.8 * radius() * found.thick


RIBS = """Terms: US
Ch 9.
Row 1 (RS): Sc in 2nd ch from hook and in each ch across, turn. (8 sc)
Row 2: Ch 1, sc in {} loop only of each st across, turn. (8 sc)
Row 3: Ch 1, sc in {} loop only of each st across, turn. (8 sc)
"""


@pytest.mark.parametrize(("loop", "side"), [("back", 1), ("front", -1)])
def test_a_strand_left_free_lies_over_the_legs_of_the_row_worked_in_the_other(loop, side):
    """As the worker sees row 3: in the back loop the near strand of row 2 is a ridge before the legs, in the front loop
    the far one behind them."""
    text = RIBS.format(loop, loop)
    cloth, tops = strands(text, "top")
    legs = strands(text, "sc")[1]
    below = np.concatenate([b.points[np.isin(b.stitch, [k for k, s in enumerate(cloth.stitches) if s.row == 1])] for b in tops])
    ridge = below[:, :, 2].max() if side > 0 else below[:, :, 2].min()
    level = below[:, :, 1].mean()
    for k, made in enumerate(cloth.stitches):
        if made.row != 2 or not made.is_topped:
            continue
        own = np.concatenate([b.points[b.stitch == k] for b in legs])[0]
        near = own[abs(own[:, 1] - level) < 0.15]
        assert (near[:, 2] * side < ridge * side).all()
