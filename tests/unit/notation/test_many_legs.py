"""A gathered stitch has as many legs as the dictionary knows names for."""

import pytest
from hookfold.charts.model.rows.work import work_text
from hookfold.symbols import known


def worked(legs):
    return work_text(
        "Terms: US\nMake a magic ring.\nRnd 1: Ch 1, 8 sc in ring, join with sl st in first st.\n"
        f"Rnd 2: Ch 1, [sc in next st, {legs}-tr cluster in next st] 4 times, join with sl st in first st. (8 sts)\n"
    )


def test_the_most_legs_are_read_as_one_stitch():
    found = worked(99)
    assert not found.problems and known("tr-cluster-99") and not known("tr-cluster-100")
    assert [stitch.legs for stitch in found.fabric.rows[-1].row.stitches if stitch.legs] == [99] * 4


@pytest.mark.parametrize("legs", [100, 399])
def test_more_are_a_problem_and_no_stitch_without_a_sign(legs):
    assert [problem.where for problem in worked(legs).problems] == ["Rnd 2"]


@pytest.mark.parametrize("legs", [0, 1])
def test_fewer_than_two_are_not_worked_together(legs):
    found = work_text(
        "Terms: US\nCh 12.\nRow 1: Sc in 2nd ch from hook and in each ch across. (11 sts)\n"
        f"Row 2: Ch 1, turn, sc in first st, *dc{legs}tog in next st, sc in next st; rep from * across.\n"
    )
    assert [problem.where for problem in found.problems] == ["Row 2"]
