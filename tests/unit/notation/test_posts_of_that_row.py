"""Posts of an earlier round told one by one keep to that round (common practice, no source)."""

import pytest
from hookfold.charts.model.rows.work import work_text

ROUNDS = """Terms: US
Ch 7, join with sl st to form ring.
Rnd 1: Ch 6, *dc in ring, ch 3; rep from * 7 more times, join to 3rd ch of ch-6.
Rnd 2: In each ch-3 sp around make sc, hdc, 2 dc, hdc and sc; join.
Rnd 3: {third}
Rnd 4: In each loop work sc, 3 dc, sc; join.
"""


def made(third):
    found = work_text(ROUNDS.format(third=third), "flower")
    assert not found.problems
    return [sum(s.kind != "sl st" and s.role == "stitch" for s in made.row.stitches) for made in found.fabric.rows], found


@pytest.mark.parametrize(
    "third",
    [
        "Sc around bar of first dc on 1st rnd, *ch 5, sc around bar of next dc; rep from * around, ending with ch 5, sl st in first sc.",
        "BPsc around first dc of Rnd 1, ch 5, *BPsc around next dc, ch 5; rep from * around, join in first sc.",
        "Sc around the post of the first dc of round 1, (ch 5, sc around the post of the next dc) 8 times, ch 5, join in first sc.",
        "Ch 1, back post sc around first dc of rnd 1, ch 4, *back post sc around following dc, ch 4; repeat from * around, join.",
    ],
)
def test_the_next_post_is_of_the_same_round(third):
    counts, found = made(third)
    assert counts[2:] == [9, 45]
    feet = [f.back for s in found.fabric.rows[2].row.stitches if s.role == "stitch" and s.kind != "sl st" for f in s.feet]
    assert set(feet) == {2}


def test_a_post_behind_a_stitch_of_the_round_below_is_not():
    """What goes into the round below brings the hook back to it."""
    third = (
        "Ch 1, FPdc around first dc of Rnd 1, *sc in next 3 sts, FPdc around next dc, sc in next 2 sts; rep from * around, join."
    )
    found = work_text(ROUNDS.format(third=third), "flower")
    posts = [s for s in found.fabric.rows[2].row.stitches if s.kind == "FPdc"]
    assert [f.back for s in posts for f in s.feet][1:] and {f.back for s in posts[1:] for f in s.feet} == {1}


@pytest.mark.parametrize(
    "fifth",
    [
        "Same as 3rd rnd, working around the sc's of 3rd rnd and making loops of ch 7.",
        "As Rnd 3, but round the sc of Rnd 3, having ch 7 in each loop.",
        "Rep Rnd 3 with ch 7 in each loop.",
    ],
)
def test_a_round_repeated_goes_round_the_stitches_that_stand_there(fifth):
    third = "With petals held forward, sc around bar of first dc of first round, inserting hook from behind, *ch 5, sc around bar of next dc; rep from * around, ch 5, sl st in first sc."
    found = work_text(ROUNDS.format(third=third) + f"Rnd 5: {fifth}\nRnd 6: In each loop work sc, 5 dc, sc; join.\n", "flower")
    assert not found.problems
    last = [s for s in found.fabric.rows[4].row.stitches if s.kind == "sc"]
    assert len(last) == 9 and {f.back for s in last for f in s.feet} == {2}
    assert {f.hold for s in last for f in s.feet} == {"back post"}
    assert sorted({s.chains for s in found.fabric.rows[4].row.stitches if s.role == "chain"}) == [7]
