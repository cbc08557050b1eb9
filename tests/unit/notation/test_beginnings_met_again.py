"""What a row begins with, met again: by the round's last stitch, by the next row's blocks; and clusters told in words."""

from __future__ import annotations

import itertools

import pytest
from hookfold.charts.model.rows.work import work_text

_MET = """Rnd 1: Ch 3 (counts as dc), 23 dc in magic ring, join. (24 dc)
Rnd 2: Ch 3, dc in next 3 dc, ch 4, *dc in next 4 dc, ch 4; rep from * around. Join.
Rnd 3: Sl st in next dc, ch 3, *dc in next dc, ch 5, sc in ch-4 sp, ch 5, skip 1 dc, dc in next dc. Rep from * around. Join.
"""
_BLOCKS = """Ch 6.
Row 1: Dc in 4th ch from hook and in next 2 ch, turn. (1 block)
Row 2: Ch 6, dc in 4th ch from hook and in next 2 ch, (sl st, ch 3, 3 dc) in next ch-3 sp, turn. (2 blocks)
Row 3: Ch 6, dc in 4th ch from hook and in next 2 ch, *(sl st, ch 3, 3 dc) in next ch-3 sp; rep from * across, turn. (3 blocks)
Row 4: Sl st in next 3 dc, *(sl st, ch 3, 3 dc) in next ch-3 sp; rep from * once more, sl st in last ch-3 sp, turn. (2 blocks)
"""


def test_a_round_that_comes_back_to_its_beginning_chain_does_not_work_there_again() -> None:
    worked = work_text(_MET)
    assert worked.problems == []
    assert worked.fabric.rows[2].row.kinds() == {"dc": 12, "sc": 6}


def test_the_skipped_chains_of_a_first_block_are_the_space_beside_it() -> None:
    worked = work_text(_BLOCKS)
    assert worked.problems == []
    assert [row.row.kinds().get("dc") for row in worked.fabric.rows[1:]] == [6, 9, 6]


def test_a_row_of_plain_stitches_has_no_such_space() -> None:
    plain = """Ch 14.
Row 1: Dc in 4th ch from hook and in each ch across. (12 dc)
Row 2: Ch 3 (counts as dc), turn, dc in next st and in each st across. (12 dc)
Row 3: Ch 1, turn, sc in first 3 sts, sc in next ch-3 sp, sc in each st across.
"""
    assert [problem.where for problem in work_text(plain).problems] == ["Row 3"]


_HELD = (
    "leaving the last loop of each tr on hook", "holding back on hook the last loop of each tr",
    "keeping the last loop of each on the hook", "hold back the last loop of each tr on the hook",
)  # fmt: skip
_OFF = (
    "thread over and draw through all loops on hook", "wrap yarn over hook and pull through all loops at once",
    "work all loops off together", "yo, draw thru all lps on hook",
)  # fmt: skip
_CLOSED = ("", " (a 3-tr cluster made)", ", ch 1 to fasten (cluster)", ", ch 1 to secure")
_ORDER = ("{held}, {many} tr in {place}; {off}{closed}", "make {many} tr in {place}, {held}, then {off}{closed}")


@pytest.mark.parametrize(("held", "off", "order"), list(itertools.product(_HELD, _OFF, _ORDER)))
def test_a_cluster_told_in_words_is_one_stitch(held: str, off: str, order: str) -> None:
    for closed in _CLOSED:
        first, other = (
            order.format(held=held, off=off, closed=closed, many=many, place=place)
            for many, place in ((2, "same sc"), (3, "next sc"))
        )
        worked = work_text(
            f"Rnd 1: Ch 1, 12 sc in magic ring, join. (12 sc)\nRnd 2: Ch 4, {first}, *ch 5, skip next sc, {other}; "
            "repeat from * 4 more times, ch 5, join in top of first cluster.\nRnd 3: Ch 1, 6 sc in each ch-5 sp around, join.\n"
        )
        assert worked.problems == []
        assert [row.row.made for row in worked.fabric.rows] == [12, 6, 36]


def test_rows_told_by_one_that_was_not_read_stay_in_doubt() -> None:
    text = """Ch 16.
Row 1: Sc in 2nd ch from hook, *ch 1, sk next ch, sc in next ch; rep from * across, turn. (8 sc)
Row 2: Ch 1, sc in first sc, *sc in next ch-1 sp, ch 1, sk next sc; rep from * to last sp, sc in last ch-1 sp, sc in last sc, turn. (9 sc)
Row 3: Ch 1, knot 2 sts below the next space, sc in first sc, ch 1, sk next sc, *sc in next ch-1 sp, ch 1, sk next sc; rep from * to last sc, sc in last sc, turn. (8 sc)
Rows 4-7: Rep Rows 2 and 3.
"""
    assert {problem.where for problem in work_text(text).problems} == {"Row 3"}
