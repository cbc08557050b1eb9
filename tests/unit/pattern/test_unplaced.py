"""Lines of talk that are no talk: work that stands in no row is said."""

import pytest
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.pattern.written.unplaced import names_work, unplaced


@pytest.mark.parametrize(
    "text",
    [
        "Welt patt row: 1 ch (counts as first dc), miss st at base of ch, 1 dc into next st, 1 dc into each st to end.",
        "into next 4 sts) twice, 2 tr into next st, 1 tr into each of next 3 sts, rep from * 5 times more",
        "Join yarn in any st with sc, 2 sc in each st around, turn.",
    ],
)
def test_work_is_named(text):
    assert names_work(text)


@pytest.mark.parametrize(
    "text",
    [
        "Arch (A): Ch 2, sk next 3 dc, dc in next dc.",
        "Leaf—Ch 6, sc in 2nd ch from hook, hdc in next ch, dc in last ch.",
        "ch, chain; tr, treble; block (1 tr in each of next 3 tr or 2 tr in next sp, 1 tr in next tr).",
        "V = 1 tr in next st, 2 ch, 1 tr in same st.",
        "The last dc in each row sits in the turning chain, which is easy to miss.",
        "Soft and warm: 200 g of it are plenty.",
    ],
)
def test_explanations_and_talk_are_none(text):
    assert not names_work(text)


def test_lines_that_follow_each_other_are_said_once():
    work = "1 dc into next st, 2 dc into each st to end, turn."
    assert unplaced([(7, work), (8, work), (12, work), (13, "Well done!")]) == [(7, work), (12, work)]


def test_a_page_with_work_outside_its_rows_is_not_without_problems():
    text = (
        "Row 1: Over 20 sts. Sc in each st across, turn. (20 sc)\nFasten off.\n\nFINISHING\nWash and dry it flat.\n"
        "Along the top: join yarn in first st, ch 1, sc in first st, 2 sc in next st, skip next st, sc in last st, turn.\n"
    )
    worked = work_text(text)
    assert worked.problems or len(worked.texts) > 1


def test_a_stitch_told_right_below_the_last_row_is_no_more_work_of_that_row():
    """Its moves were worked behind the row: two picots more than the words make."""
    rows = (
        "Ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn.\n"
        "Row 2: Ch 1, sc in first 2 sc, *picot, sc in next 2 sc; rep from * 3 more times, turn.\n"
    )
    for told in ("Picot: ch 3, sl st in first ch.", "Picot: Chain 3, slip stitch in last sc."):
        found = work_text(rows + told)
        assert not found.problems
        assert found.fabric.rows[-1].row.kinds()["picot"] == 4
