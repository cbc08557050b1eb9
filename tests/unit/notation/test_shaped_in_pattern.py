"""Rows of a garment that go on in pattern beside their shaping, and slip stitches that bind off. Common practice, no source."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import Worked, work_text

DC = "Ch 22.\nRow 1: Dc in 4th ch from hook and in each ch across. (20 dc)\n"
SC = "Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20 sc)\n"


def made(worked: Worked) -> list[int]:
    return [row.row.made for row in worked.fabric.rows]


@pytest.mark.parametrize(
    ("said", "count"),
    [
        ("Ch 1, turn, sl st in each of first 4 dc, ch 3, work in pattern to within last 3 dc, turn.", 14),
        ("Turn, sl st across first 4 dc, ch 3, patt to last 3 sts.", 14), ("Ch 3, turn, dc2tog, work in pattern to last 3 sts, dc2tog, dc in last st.", 18),
        ("Ch 3, turn, dec over next 2 sts, cont in patt to end.", 19), ("Ch 3, turn, work in pat as est to last 2 sts, dc2tog.", 19),
        ("Ch 3, turn, work across in dc, dec 1 dc at end of row.", 19), ("Work across, dec 1 st at beg of row.", 19), ("Ch 3, turn, work to last 2 sts, dc2tog.", 19),
    ],
)  # fmt: skip
def test_shaping_beside_the_pattern(said: str, count: int) -> None:
    worked = work_text(DC + f"Row 2: {said} ({count} dc)")
    assert (worked.problems, made(worked)) == ([], [20, count])


def test_what_a_row_repeats_in_this_way_is_its_own_work() -> None:
    worked = work_text(SC + "Row 2: Ch 1, turn, sc2tog, sc in next 2 sts, repeat in this way across. (15 sc)")
    assert (worked.problems, made(worked)) == ([], [20, 15])


def test_a_pattern_of_lace_is_not_guessed() -> None:
    lace = "Row 2: Ch 4, turn, sk next dc, *dc in next dc, ch 1, sk next dc; rep from * to last 2 sts, dc in next dc, dc in tch.\n"
    worked = work_text(DC + lace + "Row 3: Ch 3, turn, dc2tog, work in pattern to last 3 sts, dc2tog, dc in last st.")
    assert [p.where for p in worked.problems] == ["Row 3"]


@pytest.mark.parametrize(
    "said",
    [
        "Sl st across first 4 dc, ch 3, dc in each dc to last 3 sts, turn. (14 dc)",
        "Sl st in each of next 4 sts, ch 3 (counts as dc), dc in each st across to last 3 sts. Turn. (14 dc)",
    ],
)
def test_slip_stitches_behind_a_chain_that_ends_the_row_below(said: str) -> None:
    worked = work_text(DC[:-1] + f" Ch 3, turn.\nRow 2: {said}\nRow 3: Ch 3, dc2tog, dc to last 3 sts, dc2tog, dc in last st. (12 dc)")
    assert (worked.problems, made(worked)) == ([], [20, 14, 12])


def test_slip_stitches_over_the_first_stitches_are_none_of_the_row() -> None:
    worked = work_text(SC + "Row 2: Ch 1, turn, sl st across 3 sc, sc in each sc to last 3 sc.\nRow 3: Ch 1, turn, sc in each sc across.")
    assert (worked.problems, made(worked)) == ([], [20, 14, 14])
    worked = work_text(SC + "Row 2: Ch 1, turn, sl st in first 5 sc, sc in each sc across. (15 sc)\nRow 3: Ch 1, turn, sc in each sc across. (15)")
    assert (worked.problems, made(worked)) == ([], [20, 15, 15])


def test_slip_stitches_of_a_slanting_row_are_its_own() -> None:
    worked = work_text(SC + "Row 2: Ch 1, turn, sl st in first 3 sts, hdc in next 3 sts, dc in next 14 sts. (20 sts)\nRow 3: Ch 1, turn, sc in each st across. (20)")
    assert (worked.problems, made(worked)) == ([], [20, 20, 20])
