"""Rows that leave stitches free, and rows told by the row before with so many between (common practice, no source)."""

import pytest
from hookfold.charts.model.rows.work import work_text


def made(text: str) -> list[int]:
    worked = work_text(text)
    assert not worked.problems, [problem.says for problem in worked.problems]
    return [line.row.made for line in worked.fabric.rows]


@pytest.mark.parametrize(
    "said",
    [
        "dc in next 13 sts; the other 6 are left for the neck.",
        "dc in next 13 sts; leave the other 6 free for the neck.",
        "dc in next 13 sts, remaining 6 sts are for back of neck.",
        "dc in next 13 sts, the last 6 stay unworked.",
        "dc in next 13 sts, stop there, leave the other 6 alone.",
        "dc in next 13 sts, leave last 6 sts free.",
    ],
)
def test_stitches_may_be_left_free_in_many_words(said):
    ring = "Ch 4, join.\nRow 1: Ch 3, 19 dc in ring. Join. (20 dc)\n"
    assert made(ring + f"Row 2: Ch 3, turn, {said}\nRow 3: Ch 1, turn, sc in each dc.\n") == [20, 14, 14]
    wrong = work_text(ring + f"Row 2: Ch 3, turn, {said.replace('6', '5')}\n")
    assert wrong.problems


GUSSET = """Ch 20, join.
Rnd 1: Ch 3, dc in each ch around. Join.
Rnd 2: Ch 3, dc in next 8 dc, 2 dc in next dc, dc in next dc, 2 dc in next dc, dc in last 8 dc. Join.
"""


@pytest.mark.parametrize(
    "said",
    [
        "Inc in same manner, having 3 dc between the incs. Join.",
        "Increase as before, with 3 dc between increases. Join.",
        "As last rnd, but with 3 dc between increases.",
    ],
)
def test_the_run_between_increases_is_told_by_its_length(said):
    text = GUSSET + f"Rnd 3: {said}\n"
    assert made(text) == [20, 22, 24]
    assert made(text + f"Rnd 4: {said.replace('3 dc', '5 dc')}\n") == [20, 22, 24, 26]


def test_in_another_stitch_instead_changes_all_of_that_stitch():
    text = """Ch 13.
Row 1: Sc in 2nd ch from hook and in each ch.
Row 2: Ch 1, turn, sk first sc, sc in next 5 sc, 3 sc in next sc, sc in next 4 sc, leave last sc free.
Row 3: Ch 2, turn, work same as Row 2, but in hdc instead of sc.
"""
    assert made(text) == [12, 12, 12]
    assert work_text(text).fabric.rows[2].row.kinds() == {"hdc": 12}


SQUARE = """Ch 4; join to form ring.
Rnd 1: Ch 3, 2 dc in ring, (ch 2, 3 dc in ring) 3 times, ch 2; join.
Rnd 2: Attach C to any ch-2 sp; ch 3, 2 dc, ch 2, 3 dc in same sp for corner, *ch 1, in next ch-2 sp work 3 dc, ch 2, 3 dc for corner; rep from * twice more, ch 1; join.
"""
CORNERED = (
    "work a corner as before in same sp, *ch 1, 3 dc in next ch-1 sp, ch 1, corner in next corner sp; rep from * around, omitting last corner; join.",
    "ch 3, corner in same sp, *ch 1, 3 dc in next ch-1 sp, ch 1, corner in next corner sp; rep from * around, leaving off last corner; join.",
    "ch 3, (2 dc, ch 2, 3 dc) in same sp, *ch 1, 3 dc in next ch-1 sp, ch 1, (3 dc, ch 2, 3 dc) in next corner sp; rep from * around, omitting last group; join.",
)


@pytest.mark.parametrize("said", CORNERED)
def test_sides_have_so_many_groups_between_corners(said):
    text = SQUARE + f"Rnd 3: Attach D to any corner sp; {said}\n"
    assert made(text) == [12, 24, 36]
    text += "Rnd 4: With E, work as for Rnd 3, having two 3-dc groups between corners on each side.\n"
    text += "Rnd 5: Work as for last rnd but with three 3-dc groups between corners.\n"
    assert made(text) == [12, 24, 36, 48, 60]


@pytest.mark.parametrize(
    "said",
    [
        "As Rnd 3, having 2 groups between corners.",
        "Work as before, having 2 groups between the corners.",
        "Work in same manner, having 2 3-dc groups between corners.",
        "Work as before, with 2 groups on each side.",
        "As before, having one more group on each side.",
    ],
)
def test_what_a_row_told_as_before_has_between_corners_is_not_lost(said):
    text = SQUARE + f"Rnd 3: Attach D to any corner sp; {CORNERED[2]}\nRnd 4: {said}\n"
    assert made(text) == [12, 24, 36, 48]


@pytest.mark.parametrize(
    "said",
    [
        "but work only 3 dc in the last sc.",
        "but in the last sc work only 3 dc.",
        "except in last sc make just 3 dc.",
        "working 3 dc instead of 5 in the last sc.",
    ],
)
def test_the_last_repetition_has_fewer_in_its_last_place(said):
    text = "Ch 26.\nRow 1: Sc in 2nd ch from hook, [skip 2 ch, 5 dc in next ch, skip 2 ch, sc in next ch] 4 times.\n"
    text += "Row 2: Ch 3, turn, 2 dc in first sc, *skip 2 dc, sc in center dc of shell, skip 2 dc, 5 dc in next sc; repeat from * across, "
    assert made(text + said + "\n") == [25, 25]
