"""Rows of groups worked into the gaps between the groups below, as stripes of a blanket are (common practice, no source)."""

import pytest
from hookfold.charts.model.rows.work import work_text

GROUND = """Ch 20.
Row 1: Sc in 2nd ch from hook and in each ch across. (19)
Row 2: Ch 3, turn; dc in first st; *sk 2 sts, 3 dc in next st; rep from * to last 3 sts; sk 2 sts, 2 dc in last st.
Row 3: Ch 3, turn; 3 dc in each space between clusters, ending 1 dc in top of turning ch.
"""
#: One way into the first gap, three stitches into each of the five that follow, one way into the last: 2 + 15 + 2.
SAID = (
    "1 dc in first gap; 3 dc in each gap between clusters, 2 dc in last gap.",
    "1 dc in first space; 3 dc in each space between clusters, 2 dc in last space.",
    "1 dc in first sp; 3 dc in each sp, 2 dc in last sp.",
    "1 dc in first sp; 3 dc in each sp to last sp, 2 dc in last sp.",
    "1 dc in first gap; 3 dc in each gap to last gap, 2 dc in last gap.",
    "1 dc in first gap; 3 dc in each gap across, 2 dc in last one.",
    "dc in space before first cluster; 3 dc in each gap between clusters, 2 dc in gap after last cluster.",
    "dc in first space; 3 dc between clusters across, 2 dc in last space.",
    "dc in first sp; 3 dc between all groups, 2 dc in last sp.",
    "dc in sp between tch and 1st group, 3 dc in each sp between groups, 2 dc in last sp.",
    "dc in first gap, 3 dc in each following gap, 2 dc in the last.",
)


@pytest.mark.parametrize("said", SAID)
def test_the_gap_that_a_later_clause_names_is_kept_from_each(said):
    worked = work_text(GROUND + f"Row 4: Ch 3, turn; {said}\n")
    assert not worked.problems
    third, fourth = (line.row for line in worked.fabric.rows[2:])
    assert (third.made, fourth.made) == (20, 19)
    last = [stitch.feet for stitch in fourth.stitches[-2:]]
    assert last[0] == last[1] != fourth.stitches[-3].feet


def test_the_gap_before_a_last_stitch_is_not_kept_from_each():
    worked = work_text(GROUND + "Row 4: Ch 3, turn; 3 dc in each sp across, dc in last dc.\n")
    assert worked.fabric.rows[3].row.made == 23


@pytest.mark.parametrize(
    ("first", "second"),
    [
        ("8 groups", "7 groups and 2 dc"),
        ("8 clusters", "7 clusters and 2 dc"),
        ("8 clusters", "7 clusters"),
        ("24 dc", "23 dc"),
    ],
)
def test_clusters_and_what_stands_beside_them_are_counted(first, second):
    text = (
        f"Ch 25.\nRow 1: 2 dc in 4th ch from hook, *sk 2 ch, 3 dc in next ch; rep from * across. ({first})\n"
        f"Row 2: Ch 3, turn; *3 dc in next sp; rep from * to last group, dc in last st of last group. ({second})\n"
    )
    worked = work_text(text)
    assert not worked.problems
    assert [line.row.made for line in worked.fabric.rows] == [24, 23]
    assert work_text(text.replace(f"({first})", "(9 clusters)")).problems


@pytest.mark.parametrize(
    "said",
    [
        "*sk 3 dc, 3 dc in next sp; rep from * to last group, dc in last st.",
        "sk 3 dc, 3 dc in next sp, *sk 3 dc, 3 dc in next sp; rep from * across, ending dc in top of ch 3.",
        "3 dc in sp between 1st and 2nd clusters, *3 dc between next 2 clusters, rep from * ending dc in last st.",
        "*3 dc between next 2 clusters, rep from * ending dc in last st.",
        "3 dc in space between first two groups, (3 dc in next space) 6 times, dc in last st.",
    ],
)
def test_each_gap_of_a_row_of_groups_is_filled_once(said):
    text = "Ch 25.\nRow 1: 2 dc in 4th ch from hook, *sk 2 ch, 3 dc in next ch; rep from * across.\n"
    worked = work_text(text + f"Row 2: Ch 3, turn; {said}\n")
    assert not worked.problems
    assert [line.row.made for line in worked.fabric.rows] == [24, 23]


def test_spaces_between_clusters_with_chains_are_worked_once_each():
    text = """Ch 6, join.
Rnd 1: Ch 4, *dc in ring, ch 1; rep from * 8 times, join in 3rd ch.
Rnd 2: Sl st in ch-1 sp, ch 3, dc2tog in same sp, ch 3, *dc3tog in next ch-1 sp, ch 3; rep from * around, join.
Rnd 3: Sl st in ch-3 sp, ch 1, 4 sc in same sp, *4 sc in sp between next 2 clusters; rep from * around, join.
"""
    assert [line.row.made for line in work_text(text).fabric.rows] == [10, 10, 40]


def test_the_space_of_the_turning_chain_is_kept_from_each():
    text = "Ch 20.\nRow 1: Dc in 6th ch from hook, *ch 1, sk 1 ch, dc in next ch; rep from * across. (9 dc)\n"
    for each in ("each ch-1 sp across to tch", "each sp"):
        worked = work_text(text + f"Row 2: Ch 3, turn, 2 dc in {each}, 2 dc in turning ch sp, dc in 3rd ch of tch.\n")
        assert not worked.problems
        assert [line.row.made for line in worked.fabric.rows] == [9, 18]
