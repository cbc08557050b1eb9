"""Pages that go their own way: each stitch told in both systems of terms, the place of the stitch before in other words."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import Worked, work_text


def _counts(worked: Worked) -> list[int]:
    return [row.row.made for row in worked.fabric.rows]


@pytest.mark.parametrize(
    "said", ["sc - single crochet [dc in British English]", "sc = single crochet (dc in UK terms)", "sc: single crochet (UK dc)", "sc - single crochet [dc in British]"],
)  # fmt: skip
@pytest.mark.parametrize("twice", ["sc [DC]", "sc (dc)", "SC [dc]"])
def test_the_other_name_of_a_stitch_in_brackets(said: str, twice: str) -> None:
    worked = work_text(f"Mug rug\n{said}\n\nMagic ring.\nRnd 1: 7 {twice} in ring. (7)\nRnd 2: 2 {twice} in each st around. (14)\n")
    assert worked.problems == []
    assert _counts(worked) == [7, 14]
    assert [dict(row.row.kinds()) for row in worked.fabric.rows] == [{"sc": 7}, {"sc": 14}]


def test_a_bracket_with_another_stitch_is_no_other_name() -> None:
    worked = work_text("Mug rug\nsc - single crochet [dc in British English]\n\nMagic ring.\nRnd 1: 7 sc in ring. (7)\nRnd 2: 2 sc [tr] in each st around. (14)\n")
    assert [problem.where for problem in worked.problems] == ["Rnd 2"]


@pytest.mark.parametrize("place", ["base point", "spot", "place", "location"])
def test_the_place_of_the_stitch_before(place: str) -> None:
    worked = work_text(f"Magic ring.\nRnd 1: 6 sc in ring. (6)\nRnd 2: (sc in next st, 2 sc in same {place}) around. (18)\n")
    assert worked.problems == []
    assert _counts(worked) == [6, 18]
