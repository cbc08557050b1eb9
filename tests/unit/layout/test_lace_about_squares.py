"""Squares with lace about them stand on a side; fans in their corners open evenly; fans along a row have room.

That a square is drawn upright, and a stitch over what it goes into, is common practice, no source.
"""

import itertools
import math
from collections import Counter

import pytest
from hookfold.charts.layout.placing.laid import lay_fabric
from hookfold.charts.layout.rounds.lay import lay_rounds
from hookfold.charts.layout.shapes.corners import corners_of
from hookfold.charts.model.rows.work import work_text

SQUARE = (
    "Terms: US\n"
    "Rnd 1: Make a magic ring, ch 3 (counts as dc), 2 dc in ring, (ch 2, 3 dc in ring) 3 times, ch 2, join with sl st in "
    "top of ch-3.\n"
    "Rnd 2: Ch 3, dc in next 2 dc, *(2 dc, ch 2, 2 dc) in corner sp, dc in next 3 dc; rep from * around, ending with (2 "
    "dc, ch 2, 2 dc) in last corner sp, join.\n"
    "Rnd 3: Ch 3, dc in next 4 dc, *(2 dc, ch 2, 2 dc) in corner sp, dc in next 7 dc; rep from * around, ending with (2 "
    "dc, ch 2, 2 dc) in last corner sp, dc in last 2 dc, join.\n"
)
FANS = (
    "Rnd 4: Ch 1, sc in same st, sc in next 6 dc, *9 dc in corner sp, sc in next 11 dc; rep from * around, ending with 9 "
    "dc in last corner sp, sc in last 4 dc, join with sl st in first sc.\n"
)
LOOPS = "Rnd 5: Ch 1, sc in same st, *ch 3, sk next st, sc in next st; rep from * around, ch 3, join with sl st in first sc.\n"
LONG_LOOPS = LOOPS.replace("Rnd 5", "Rnd 4").replace("ch 3", "ch 5")
SHELLS = (
    "Rnd 4: Ch 1, sc in same dc, *sk next dc, 5 dc in next dc, sk next dc, sc in next dc; rep from * around, ending with "
    "sk next dc, 5 dc in next dc, sk next dc, join with sl st in first sc.\n"
)
EDGING = (
    "Terms: US\nCh 50.\nRow 1 (RS): Sc in 2nd ch from hook and in each ch across. (49 sc)\n"
    "Row 2: Ch 1, turn. Sc in first st, *ch 5, sk next 3 sts, sc in next st; rep from * across.\n"
    "Row 3: Ch 1, turn. Sc in first st, *9 dc in next ch-5 loop, sc in next sc, ch 5, sc in next sc; rep from * across.\n"
)


def rings(text):
    worked = work_text(text)
    assert not worked.problems, worked.problems
    return lay_rounds(worked.fabric).rings


def corner_runs(ring):
    return [s for s, made in zip(ring.laid.spots, ring.worked.row.stitches, strict=True) if made.role == "chain"]


@pytest.mark.parametrize("text", [SQUARE, SQUARE + FANS, SQUARE + FANS + LOOPS, SQUARE + LONG_LOOPS])
def test_a_square_stands_on_a_side_whatever_lace_is_about_it(text):
    third = corner_runs(rings(text)[2])
    assert len(third) == 4
    for spot in third:
        turn = math.degrees(math.atan2(-spot.head[1], spot.head[0]))
        assert abs((turn - 45.0) % 90.0) < 4.0 or abs((turn - 45.0) % 90.0 - 90.0) < 4.0


def test_few_rounds_of_lace_lie_about_a_square_and_many_make_it_round():
    *shaped, shells = work_text(SQUARE + SHELLS).fabric.rows
    assert [len(c) for c in corners_of([*shaped, shells]) or ()] == [4, 4, 4, 0]
    assert corners_of([*shaped, shells, shells]) is None


def test_a_fan_in_the_corner_of_a_square_opens_evenly_about_it():
    ring = rings(SQUARE + FANS + LOOPS)[3]
    made = list(zip(ring.laid.spots, ring.worked.row.stitches, strict=True))
    many = Counter(m.feet for _, m in made if m.role == "stitch")
    for feet in (f for f, count in many.items() if count == 9):
        heads = [s.head for s, m in made if m.feet == feet]
        steps = [math.dist(a, b) for a, b in itertools.pairwise(heads)]
        assert max(steps) < 1.5 * min(steps)
        far = [math.hypot(*head) for head in heads]
        assert max(far) - min(far) < 0.6


def test_stitches_beside_wide_fans_of_a_row_stand_over_what_they_go_into():
    laid = lay_fabric(work_text(EDGING).fabric)
    row = laid.courses[2]
    singles = [
        s for s, made in zip(row.laid.spots, row.worked.row.stitches, strict=True) if made.kind == "sc" and s.feet
    ]
    assert len(singles) == 13
    assert max(abs(s.head[0] - s.feet[0][0]) for s in singles) < 0.5


FILET = (
    "Terms: US\nCh 33.\n"
    "Row 1: Dc in 4th ch from hook, dc in next 2 ch, (ch 2, sk 2 ch, dc in next ch) 8 times, dc in last 3 ch.\n"
    "Row 2: Ch 3 (counts as dc), turn. Dc in next 3 dc, (ch 2, dc in next dc) 3 times, (2 dc in next ch-2 sp, dc in next "
    "dc) 2 times, (ch 2, dc in next dc) 3 times, dc in next 2 dc, dc in top of turning ch.\n"
)
PAIRS = (
    "Terms: US\nCh 33.\n"
    "Row 1: Dc in 4th ch from hook, dc in next 2 ch, (ch 2, sk 2 ch, dc in next ch) 8 times, dc in last 3 ch.\n"
    "Row 2: Ch 3 (counts as dc), turn. Dc in next 3 dc, (ch 1, 2 dc in next ch-2 sp) 8 times, ch 1, sk next dc, dc in "
    "next 2 dc, dc in top of turning ch.\n"
)


def into_spaces(text):
    course = lay_fabric(work_text(text).fabric).courses[1]
    made = zip(course.laid.spots, course.worked.row.stitches, strict=True)
    return [s for s, m in made if m.feet and m.feet[0].hold == "space"]


def test_stitches_that_fill_a_space_stand_upright_and_others_fan_from_it():
    filled, fanned = into_spaces(FILET), into_spaces(PAIRS)
    assert len(filled) == 4 and len(fanned) == 16
    assert max(abs(s.head[0] - s.feet[0][0]) for s in filled) < 0.05
    assert min(abs(s.head[0] - s.feet[0][0]) for s in fanned) > 0.05


def test_a_row_of_crossed_stitches_is_level():
    text = (
        "Terms: US\nCh 20.\nRow 1: Dc in 4th ch from hook, *sk next ch, dc in next ch, dc in skipped ch; rep from * across "
        "to last 2 ch, dc in last 2 ch.\n"
        "Row 2: Ch 3 (counts as dc), turn. Dc in next st, *sk next st, dc in next st, dc in skipped st; rep from * across "
        "to last 2 sts, dc in last 2 sts.\n"
    )
    for course in lay_fabric(work_text(text).fabric).courses:
        tops = [s.head[1] for s in course.laid.spots if s.role in ("stitch", "turning")]
        assert max(tops) - min(tops) < 0.02
