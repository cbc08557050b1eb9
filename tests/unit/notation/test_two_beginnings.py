"""Two ways to begin are one round only where they make as many, and what is left out is told; chains in a count count."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import work_text


def test_the_second_way_is_left_out_and_told_where_it_makes_as_many():
    worked = work_text("Rnd 1: 7 sc in magic ring or ch 2, 7 sc in 2nd ch from hook. (7)\nRnd 2: 2 sc in each st around. (14)\n")
    assert not worked.problems
    assert any(note.where == "Rnd 1" and "or ch 2, 7 sc in 2nd ch from hook" in note.says for note in worked.notes)


def test_the_second_way_is_a_problem_where_it_makes_another_number():
    worked = work_text("Rnd 1: 7 sc in magic ring or ch 2, 8 sc in 2nd ch from hook. (7)\nRnd 2: 2 sc in each st around. (14)\n")
    assert [p.where for p in worked.problems] == ["Rnd 1"]


@pytest.mark.parametrize(("chains", "problems"), [(5, []), (6, ["Rnd 2"])])
def test_chains_beside_stitches_in_a_count_are_counted(chains: int, problems: list[str]):
    text = f"Ch 25, join to form a ring.\nRnd 1: Ch 1, sc in each ch around. (25)\nRnd 2: Sc in next 2 sts, ch 5, skip 5 sts, sc in next 18 sts. (20 sc, {chains} ch)\n"
    assert [p.where for p in work_text(text).problems] == problems
