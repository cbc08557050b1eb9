"""What rows of garments say besides: shaping rows by name, older decreases, sizes in pairs. Common practice, no source."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import Worked, work_text

DC = "Ch 25.\nRow 1: Dc in 4th ch from hook and in each ch across. (23 dc)\n"
INC_ROW = "Row 2 (inc row): Ch 3, turn; dc in first st, dc in each st across to last st, 2 dc in last st. (25 dc)\n"
DISC = "Ch 4, join.\nRnd 1: Ch 1, 16 sc in ring, join.\n"


def made(worked: Worked) -> list[int]:
    return [row.row.made for row in worked.fabric.rows]


@pytest.mark.parametrize("said", ["Repeat inc row: 27 sts.", "Work inc row - 27 sts", "Rep inc row. (27 dc)", "Work inc row.", "Inc row again, 27 dc."])
def test_a_row_called_by_its_name_states_its_count(said: str) -> None:
    worked = work_text(f"{DC}{INC_ROW}Row 3: {said}")
    assert (worked.problems, made(worked)) == ([], [23, 25, 27])


def test_a_wrong_count_behind_the_name_is_told() -> None:
    worked = work_text(f"{DC}{INC_ROW}Row 3: Repeat inc row: 28 sts.")
    assert [p.says for p in worked.problems] == ["the row makes 27 sts; the count says 28"]


@pytest.mark.parametrize("dec", ["sc next 2 sc tog", "sc next 2 sts together", "work next 2 sc tog", "sc 2 tog"])
def test_older_decreases(dec: str) -> None:
    worked = work_text(f"{DISC}Rnd 2: *Sc in next 2 sc, {dec}; rep from * around, join. 12 sc")
    assert (worked.problems, made(worked)) == ([], [16, 12])


@pytest.mark.parametrize("row", ["Inc at beg and end of row. 25 dc", "Inc 1 st at each end of row. 25 dc", "Work across, inc 1 st at each end. 25 dc"])
def test_a_count_behind_shaping_alone(row: str) -> None:
    worked = work_text(f"{DC}Row 2: {row}")
    assert (worked.problems, made(worked)) == ([], [23, 25])


@pytest.mark.parametrize(
    "named",
    [
        "Armhole edging: With RS facing, join yarn at underarm, ch 1, work 24 sc evenly around armhole, join. 24 sc",
        "Neck edging: Join yarn with sl st at shoulder seam, ch 1, sc evenly around in 24 sts, join. 24 sc",
    ],
)
def test_an_edging_told_behind_a_run_of_rows_is_none_of_them(named: str) -> None:
    worked = work_text(f"{DC}Rows 2-4: Ch 3, turn, dc in next dc and in each dc across. (23)\n{named}")
    assert made(worked)[:4] == [23] * 4
    assert len(worked.fabric.rows) == 5


def test_a_flap_behind_rows_that_come_again() -> None:
    worked = work_text("Ch 12.\nRow 1: Sc in 2nd ch from hook and in each ch across. (11)\nRow 2: Ch 1, turn, sc in each sc.\nRep Row 2 three times.\nFlap: Sk first sc, sc in each sc to last 2 sc, sk next sc, sc in last sc. (9)")
    assert (worked.problems, made(worked)) == ([], [11] * 5 + [9])


def test_stitches_left_open_before_rows_worked_to_and_fro() -> None:
    worked = work_text(f"{DISC}Now work back and forth on 12 sts, leaving 4 sts open for top of foot.\nRow 2: Ch 1, sc in next 12 sc, turn.\nRow 3: Ch 1, sc in each sc. (12)")
    assert (worked.problems, made(worked)) == ([], [16, 12, 12])


def test_two_sizes_that_only_the_numbers_tell() -> None:
    text = "Ch 72 (78), join.\nRnd 1: Ch 1, sc in each ch around, join. 72 (78) sc\nRnd 2: Ch 1, sc in first st, *sk 2 sts, 5 dc in next st, sk 2 sts, sc in next st; rep from * around, omitting last sc, join to first sc. 12 (13) shells"
    assert [(made(work_text(text, size=n)), work_text(text, size=n).sizes) for n in (0, 1)] == [([72, 72], 2), ([78, 78], 2)]
    assert work_text(text).problems == []


def test_a_count_behind_a_chain_is_no_second_size() -> None:
    worked = work_text("Ch 21 (20 sts and 1 to turn).\nRow 1: Sc in 2nd ch from hook and in each ch across. 20 (sc)\nRow 2: Ch 1, turn, sc in each sc. (20)")
    assert worked.sizes == 1
    assert made(worked) == [20, 20]


def test_a_group_in_each_corner_goes_into_its_space() -> None:
    rounds = "Ch 4, join.\nRnd 1: Ch 3, 2 dc in ring, (ch 2, 3 dc in ring) 3 times, ch 2, join.\nRnd 2: Ch 3, dc in each dc around, working (dc, ch 2, dc) in each ch-2 sp, join. (20 dc)\n"
    worked = work_text(rounds + "Rnd 3: Ch 3, dc in each dc around, (2 dc, ch 2, 2 dc) in each corner, join. (36 dc)")
    assert (worked.problems, made(worked)) == ([], [12, 20, 36])
