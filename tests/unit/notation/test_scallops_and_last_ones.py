"""Lace as leaflets tell it: groups completed behind a chain, loops filled with picots, rounds closed by their last loop,
and where the last stitch of a row goes (common practice, no source)."""

import pytest
from hookfold.charts.model.rows.work import work_text


def made(text: str) -> list[int]:
    worked = work_text(text)
    assert not worked.problems, [problem.says for problem in worked.problems]
    return [line.row.made for line in worked.fabric.rows]


SHELLS = """Shell: 3 tr, ch 2, 3 tr in same place.
Ch 6, join.
Rnd 1: Ch 4, 17 tr in ring. Join.
Rnd 2: Ch 4, 2 tr in same place, ch 2, 3 tr in same place, *ch 4, skip 5 tr, shell in next tr; rep from * once, ch 4. Join.
"""
COMPLETED = (
    "Sl st to sp, ch 4 and complete shell as before,",
    "Sl st to sp, ch 4 and complete shell in same sp,",
    "Sl st to sp, ch 4, complete shell,",
    "Sl st in next 2 tr and in sp, ch 4 for first tr, complete the shell in same sp,",
    "Sl st in next 2 tr and in sp of shell, ch 4, finish shell in same place,",
)


@pytest.mark.parametrize("begun", COMPLETED)
def test_a_chain_stands_for_the_first_stitch_of_the_shell_completed(begun):
    text = SHELLS + f"Rnd 3: {begun} *ch 6, shell in sp of next shell; rep from * around, ch 6. Join.\n"
    assert made(text) == [18, 18, 18]
    row = work_text(text).fabric.rows[2].row
    first = next(stitch for stitch in row.stitches if stitch.role == "turning")
    assert (first.kind, first.chains) == ("tr", 4)


LOOPS = """Ch 6, join.
Rnd 1: Ch 1, 20 sc in ring. Join.
Rnd 2: Ch 1, sc in first sc, *ch 6, sk 1 sc, sc in next sc; rep from * around, omitting last sc, join.
"""


@pytest.mark.parametrize(
    "said",
    [
        "Over each loop of 6 ch work 3 sc, a picot (ch 5, sl st in first ch), and 3 sc. Join.",
        "In each loop: 3 sc, 1 picot of 5 ch, 3 sc. Join.",
        "In each ch-6 loop work 3 sc, ch 5, sl st in 5th ch from hook (picot), 3 sc. Join.",
        "Work 3 sc, a picot (= ch 5, sl st in last sc), 3 sc in each loop. Join.",
        "Each loop gets 3 sc, picot (ch 5, sl st in first ch), 3 sc. Join.",
    ],
)
def test_a_list_with_a_picot_told_in_it_goes_into_each_loop(said):
    text = LOOPS + f"Rnd 3: {said}\n"
    assert made(text) == [20, 10, 60]
    picots = [s for s in work_text(text).fabric.rows[2].row.stitches if s.role == "picot" or s.kind == "picot"]
    assert len(picots) == 10


@pytest.mark.parametrize(
    "said",
    [
        "*ch 4, skip 3 sc, 1 sc in next sc, repeat from * around, catching the last 4 ch into the first sc.",
        "*ch 4, skip 3 sc, 1 sc in next sc; rep from * around, joining last ch-4 with sl st to first sc.",
        "*ch 4, skip 3 sc, 1 sc in next sc; rep from * around, the last ch 4 being joined to the first sc.",
        "*ch 4, skip 3 sc, 1 sc in next sc; rep from * around, last loop joins to first sc.",
        "(ch 4, skip 3 sc, 1 sc in next sc) around, fastening the last loop in first sc.",
        "(ch 4, skip 3 sc, 1 sc in next sc) around, join.",
        "[ch 4, skip 3 sc, sc in next sc] repeat around, join to first sc.",
    ],
)
def test_the_last_loop_is_closed_in_the_first_stitch(said):
    text = f"Ch 6, join.\nRnd 1: Ch 1, 20 sc in ring. Join.\nRnd 2: Ch 1, sc in first sc, {said}\n"
    assert made(text) == [20, 5]
    assert sum(s.role == "chain" for s in work_text(text).fabric.rows[1].row.stitches) == 5


MESH = """Ch 15.
Row 1: 1 dc in 4th ch, 1 dc in each remaining ch.
Row 2: Ch 4, turn, skip 1, 1 dc in next, *ch 1, skip 1, 1 dc in next; repeat to end, the last in the top of ch 3.
"""


@pytest.mark.parametrize(
    "said",
    [
        "Ch 3, turn, *1 dc in space, 1 dc in dc; repeat to end, the last in the third st of the ch 4.",
        "Ch 3, turn, dc in each sp and each dc, the last one in 3rd ch of ch 4.",
    ],
)
def test_where_the_last_one_goes_is_no_further_stitch(said):
    assert made(MESH + f"Row 3: {said}\n") == [13, 7, 13]


@pytest.mark.parametrize("last", ["working the last in", "the last going into", "the last of these in", "the last one in"])
def test_the_last_stitch_may_go_into_the_chain_skipped(last):
    text = "Ch 15.\nRow 1: 1 hdc in 3rd ch from hook (the missed 2 ch count as 1 hdc), 1 hdc in each ch to end.\n"
    text += f"Row 2: Ch 1, turn, 1 sc in each hdc to end, {last} the top of the missed ch.\n"
    assert made(text) == [14, 14]


@pytest.mark.parametrize(
    "said",
    [
        "The 3 ch skipped at beginning stand for 1 dc.",
        "3 ch skipped count as first dc",
        "the 3 ch you skipped count as a dc",
        "3 chs that were skipped count as dc",
    ],
)
def test_chains_skipped_are_said_to_count_behind_their_name(said):
    text = f"Ch 17.\nRow 1: Dc in 4th ch from hook, dc in each ch across. ({said})\nRow 2: Ch 1, turn, sc in each dc.\n"
    assert made(text) == [15, 15]


@pytest.mark.parametrize(
    "said",
    [
        "Sc in each sc around, increasing 5 sc evenly spaced on each rnd (25 sc on 5th rnd).",
        "Sc in each sc around, increasing in 5 sc evenly spaced in each round.",
        "Sc in each sc around, 5 increases evenly spaced on every rnd.",
    ],
)
def test_increases_spread_over_each_round(said):
    text = f"Ch 2.\n1st rnd: 5 sc in 2nd ch from hook.\n2nd rnd: 2 sc in each sc around.\n3rd to 5th rnds: {said}\n"
    assert made(text) == [5, 10, 15, 20, 25]
