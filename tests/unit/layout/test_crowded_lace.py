"""Crowded lace: crosses clear of the chains beside what they stand on, feet outside of steep arches, pairs of puffs apart."""

import itertools
import math

import pytest
from hookfold.charts.layout.placing.clearing import ink_points
from hookfold.charts.layout.placing.ink import mark_of
from hookfold.charts.layout.rounds.lay import lay_rounds
from hookfold.charts.layout.shapes.corners import corners_of
from hookfold.charts.model.rows.work import work_text

#: Chains lead from a fan of tall stitches down to a cross, and another cross stands on that one.
DOWN_TO_CROSSES = """Ch 8, join with sl st to form a ring.
Rnd 1: Ch 1, 16 sc in ring, join with sl st in first sc.
Rnd 2: Ch 2, dc2tog in same st, *ch 4, sk next sc, dc3tog in next sc; rep from * 6 more times, ch 4, join with sl st in first \
dc2tog.
Rnd 3: Sl st in next ch-4 sp, ch 1, 5 sc in same sp, *5 sc in next ch-4 sp; rep from * 6 more times, join with sl st in first sc.
Rnd 4: Sl st in next 2 sc, ch 4 (counts as tr), (tr, ch 3, 2 tr) in same sc, *ch 3, sk next 4 sc, (2 tr, ch 3, 2 tr) in next sc; \
rep from * 6 more times, ch 3, join with sl st in top of beg ch-4.
Rnd 5: Sl st in next tr, sl st in next ch-3 sp, ch 4 (counts as tr), (2 tr, ch 3, 3 tr) in same sp, *ch 3, sc in next ch-3 sp, \
ch 3, (3 tr, ch 3, 3 tr) in next ch-3 sp; rep from * 6 more times, ch 3, sc in next ch-3 sp, ch 3, join with sl st in top of beg \
ch-4.
Rnd 6: Sl st in next 2 tr, sl st in next ch-3 sp, ch 3 (counts as dc), 8 dc in same sp, *ch 4, sk next ch-3 sp, sc in next sc, \
ch 4, sk next ch-3 sp, 9 dc in next ch-3 sp; rep from * 6 more times, ch 4, sk next ch-3 sp, sc in next sc, ch 4, join with sl st \
in top of beg ch-3.
Rnd 7: Ch 4 (counts as dc, ch 1), (dc in next dc, ch 1) 7 times, dc in next dc, *ch 2, sk next sc, dc in next dc, (ch 1, dc in \
next dc) 8 times; rep from * 6 more times, ch 2, join with sl st in 3rd ch of beg ch-4.
Rnd 8: Sl st in next ch-1 sp, ch 1, sc in same sp, (ch 3, sc in next ch-1 sp) 7 times, *ch 3, sc in next ch-2 sp, ch 3, sc in \
next ch-1 sp, (ch 3, sc in next ch-1 sp) 7 times; rep from * 6 more times, ch 3, sc in next ch-2 sp, ch 3, join with sl st in \
first sc.
"""
#: Two groups go into the short chains of a fan that opens wide, so that these stand steep.
ON_STEEP_ARCHES = """Ch 6, join with sl st to form a ring.
Rnd 1: Ch 3 (counts as dc), dc in ring, *ch 2, 2 dc in ring; rep from * 4 more times, ch 2, join with sl st in top of beg ch-3.
Rnd 2: Sl st in next dc, sl st in next ch-2 sp, ch 3 (counts as dc), (dc, ch 2, 2 dc, ch 2, 2 dc) in same sp, *ch 2, (2 dc, ch 2, \
2 dc, ch 2, 2 dc) in next ch-2 sp; rep from * 4 more times, ch 2, join with sl st in top of beg ch-3.
Rnd 3: Sl st in next dc, sl st in next ch-2 sp, ch 3 (counts as dc), (dc, ch 2, 2 dc) in same sp, *ch 3, (2 dc, ch 2, 2 dc) in \
next ch-2 sp, ch 2, sk next ch-2 sp, (2 dc, ch 2, 2 dc) in next ch-2 sp; rep from * 4 more times, ch 3, (2 dc, ch 2, 2 dc) in \
next ch-2 sp, ch 2, join with sl st in top of beg ch-3.
"""
PAIRS_OF_PUFFS = """Special stitches: Puff: (yo, insert hook, pull up a loop) 3 times in same st, yo, pull through all loops.
Make a magic ring.
Rnd 1: Ch 1, 8 sc in ring, join with sl st in first sc.
Rnd 2: Ch 2, puff in same st as join, *ch 2, puff in next sc; rep from * 6 more times, ch 2, join with sl st in first puff.
Rnd 3: Sl st in next ch-2 sp, ch 2, (puff, ch 2, puff) in same sp, *ch 2, (puff, ch 2, puff) in next ch-2 sp; rep from * 6 more \
times, ch 2, join with sl st in first puff.
"""
#: Nearer than this two lines touch in print: the pen and a little white.
TOUCHING = 0.1


def rings(text):
    found = work_text(text)
    assert not found.problems
    return lay_rounds(found.fabric).rings


def ink(spot):
    return ink_points(mark_of(spot))


def nearest(one, other):
    return min(math.dist(p, q) for p, q in itertools.product(ink(one), ink(other)))


def near(spot, spots):
    return [s for s in spots if s.ovals and min(math.dist(spot.head, o[:2]) for o in s.ovals) < 3.0]


def test_a_cross_on_a_cross_is_clear_of_the_chains_that_lead_down_to_it():
    fifth, sixth = rings(DOWN_TO_CROSSES)[4:6]
    crosses = [s for s in sixth.laid.spots if s.kind == "sc" and s.role == "stitch"]
    assert len(crosses) == 8
    for cross in crosses:
        chains = near(cross, [s for s in fifth.laid.spots if s.role == "chain"])
        assert len(chains) >= 2
        assert min(nearest(cross, run) for run in chains) > TOUCHING


def test_stitches_stand_outside_of_steep_arches():
    """On the inner side of one their stems lay across its chains."""
    second, third = rings(ON_STEEP_ARCHES)[1:]
    runs = {item: s for item, s in enumerate(second.laid.spots) if s.role == "chain"}
    checked = 0
    for spot, made in zip(third.laid.spots, third.worked.row.stitches, strict=True):
        if spot.role == "stitch" and made.feet and made.feet[0].hold == "space":
            checked += 1
            assert nearest(spot, runs[made.feet[0].at]) > TOUCHING
    assert checked == 47


@pytest.mark.parametrize("side, shaped", [(2, False), (1, True)])
def test_eight_corners_make_an_octagon_only_where_their_chains_are_longer(side, shaped):
    """Common practice, no source: the chains of a corner are the longest of their round."""
    before, third = PAIRS_OF_PUFFS.split("Rnd 3")
    third = third.replace("*ch 2, (puff", f"*ch {side}, (puff").replace("times, ch 2, join", f"times, ch {side}, join")
    fabric = work_text(f"{before}Rnd 3{third}").fabric
    assert (corners_of(fabric.rows) is not None) is shaped


def test_the_chains_between_two_puffs_of_one_place_lie_clear_of_both():
    third = rings(PAIRS_OF_PUFFS)[2]
    puffs = [s for s in third.laid.spots if s.kind == "puff"]
    runs = [s for s in third.laid.spots if s.role == "chain"]
    assert len(puffs) == 16
    for puff in puffs:
        assert min(nearest(puff, run) for run in near(puff, runs)) > TOUCHING


SHELLS = """Terms: US
Ch 6, join with sl st in first ch to form a ring.
Rnd 1: Ch 1, 12 sc in ring, join with sl st in first sc. (12 sc)
Rnd 2: Ch 1, sc in same st, *ch 3, sk next sc, sc in next sc; rep from * 4 times more, ch 3, join with sl st in first sc. (6 sc, 6 ch-3 sps)
Rnd 3: Sl st in next ch-3 sp, ch 1, sc in same sp, *ch 5, sc in next ch-3 sp; rep from * 4 times more, ch 5, join with sl st in first sc. (6 sc, 6 ch-5 sps)
Rnd 4: Sl st in next ch-5 sp, ch 1, (sc, ch 5, sc) in same sp, ch 5, *(sc, ch 5, sc) in next ch-5 sp, ch 5; rep from * around, join with sl st in first sc.
"""


def test_chains_do_not_sag_under_the_heads_beside_them_whatever_hangs_on_them():
    found = work_text(SHELLS)
    assert not found.problems
    for ring in lay_rounds(found.fabric).rings[1:3]:
        heads = [s.head for s in ring.laid.spots if s.kind == "sc"]
        for arch in (s for s in ring.laid.spots if s.role == "chain"):
            x, y, _ = arch.ovals[len(arch.ovals) // 2]
            (a, b), (c, d) = sorted(heads, key=lambda head: math.dist(head, (x, y)))[:2]
            assert math.hypot(x, y) > math.hypot((a + c) / 2, (b + d) / 2) - 0.15


def test_a_shell_in_a_loop_fans_from_its_middle():
    text = (
        "Terms: US\nCh 8, join with sl st in first ch to form a ring.\nRnd 1: Ch 1, 16 sc in ring, join with sl st in first sc. (16 sc)\n"
        "Rnd 2: Ch 1, *sc in next sc, ch 5, sk next sc; rep from * around, join with sl st in first sc. (8 sc, 8 ch-5 sps)\n"
        "Rnd 3: Ch 1, *(sc, 5 dc, sc) in next ch-5 sp; rep from * around, join with sl st in first sc.\n"
    )
    found = work_text(text)
    assert not found.problems
    dc = [s for s in lay_rounds(found.fabric).rings[2].laid.spots if s.kind == "dc"]
    for k in range(0, len(dc), 5):
        feet, heads = [s.feet[0] for s in dc[k : k + 5]], [s.head for s in dc[k : k + 5]]
        assert math.dist(feet[0], feet[-1]) < 0.62 * math.dist(heads[0], heads[-1])
        gaps = [math.dist(a, b) for a, b in itertools.pairwise(feet)]
        assert max(gaps) < 1.6 * min(gaps)
