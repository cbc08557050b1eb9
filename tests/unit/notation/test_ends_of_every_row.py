"""What a row's words say of the end of every row, chains told to be for turning, and "each" that passes over others."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import Worked, work_text


def _counts(worked: Worked) -> list[int]:
    return [row.row.made for row in worked.fabric.rows]


@pytest.mark.parametrize("said", [
    "At the end of each row, ch 1 and turn.", "At end of every row, chain 1, turn.", "(Ch 1 and turn at the end of each row.)",
    "Ch 1, turn at the end of every row.", "After each row, ch 1 and turn your work.", "Chain 1 to turn at each end.",
    "Always ch 1 and turn at the end of every row.",
])  # fmt: skip
def test_the_end_of_every_row_is_no_work_of_this_one(said: str) -> None:
    worked = work_text(f"US terms. Ch 18.\nRow 1: Sc in 2nd ch from hook and in each ch across. {said}\nRows 2-6: Sc in each st across. (17)\n")
    assert [p.says for p in worked.problems] == []
    assert _counts(worked) == [17] * 6


def test_a_chain_that_counts_is_learnt_from_it() -> None:
    worked = work_text("US terms. Ch 17.\nRow 1: Dc in 4th ch from hook and in each ch across. Ch 3 (counts as first dc) and turn after each row.\nRow 2: Dc in each st across. (15)\n")
    assert worked.problems == []
    assert _counts(worked) == [15, 15]


def test_rounds_are_joined_at_their_ends() -> None:
    worked = work_text("US terms.\nRnd 1: 7 sc in magic ring. Join with a sl st at the end of each round.\nRnd 2: Ch 1, 2 sc in each st around. (14)\n")
    assert worked.problems == []
    assert _counts(worked) == [7, 14]


def test_work_at_the_end_of_each_row_stays_work() -> None:
    worked = work_text("US terms. Ch 18.\nRow 1: Sc in 2nd ch from hook and in each ch across. (17)\nRow 2: Sc in each st across, 2 sc at the end of each row.\n")
    assert worked.problems


@pytest.mark.parametrize("chain", [
    "Chain 14 plus 1 to turn.", "Ch 14 + 1 for turning.", "Make 14 chains and 1 extra for turning.", "Ch 15 (14 + 1 to turn).",
    "Ch 14, plus 1 turning ch.", "Ch 15 (includes 1 turning chain).",
])  # fmt: skip
def test_chains_for_turning_are_passed_over(chain: str) -> None:
    worked = work_text(f"US terms. {chain}\nRow 1: Sc in each ch across.\nRow 2: Sc in each sc across.\n")
    assert worked.problems == []
    assert _counts(worked) == [14, 14]


def test_a_count_with_the_turning_chain_in_it_is_told() -> None:
    worked = work_text("US terms. Ch 14 plus 1 to turn.\nRow 1: Sc in each ch across. (15)\n")
    assert any("15" in p.says for p in worked.problems)


def test_the_first_row_of_a_run_alone_is_worked_into_the_chain() -> None:
    worked = work_text("US terms. Ch 14 plus 1 to turn.\nRows 1 to 5: 1 sc in every stitch.\n")
    assert worked.problems == [] and worked.notes == []
    assert _counts(worked) == [14] * 5


def test_a_colour_told_behind_another_sentence_keeps_its_name() -> None:
    worked = work_text("US terms. Using Lilac, chain 12.\nRow 1: Sc in 2nd ch from hook and in each ch across.\n")
    assert worked.pattern.start is not None and worked.pattern.start.colour == "Lilac"


@pytest.mark.parametrize("where", ["each hdc and in each ch", "each hdc and in each ch-1 sp", "each hdc and each ch"])
def test_each_of_two_kinds_does_not_pass_over_a_third(where: str) -> None:
    text = f"""US terms. Ch 26.
Row 1: Hdc in 2nd ch from hook and in each ch across. (25)
Row 2: Ch 1, *hdc in next 3 sts, ch 1, sc in next st, ch 1, sk next st; rep from * across. (20)
Row 3: Ch 1, hdc in {where} across.
"""
    told = work_text(text).problems
    assert [p.where for p in told] == ["Row 3"]
    assert "5 other stitches" in told[0].says
    assert work_text(text.replace("sc in next st", "hdc in next st")).problems == []


@pytest.mark.parametrize("clause", ["do not work over last inc but sc in next 3 sts", "do not flurb in last sc"])
def test_not_said_of_anything_but_a_chain_is_no_count_of_it(clause: str) -> None:
    worked = work_text(f"US terms. Ch 18.\nRow 1: Sc in 2nd ch from hook and in each ch across. (17)\nRow 2: Ch 1, 2 sc in first st, {clause}, sc in each st across.\n")
    assert [p.where for p in worked.problems] == ["Row 2"]


@pytest.mark.parametrize("said", ["is not a stitch", "does not stand for a stitch", "not a st", "does not count", "is not considered a stitch"])
def test_a_chain_that_is_no_stitch(said: str) -> None:
    worked = work_text(f"US terms. Ch 18.\nRow 1: Hdc in 3rd ch from hook and in each ch across. (16)\nRow 2: Ch 2 ({said}), hdc in each st across. (16)\n")
    assert worked.problems == []
