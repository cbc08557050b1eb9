"""Spaces told by what stands on both sides of them: which space is worked, and that the words keep it."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.pattern.writer import write_row

_SQUARE = """Ch 6, join to form a ring.
Rnd 1: Ch 3 (counts as dc), 11 dc in ring, join. (12 dc)
Rnd 2: Ch 1, sc in same st, *ch 3, sk 1 dc, sc in next dc; rep from * to last dc, ch 3, join. (6 sc)
Rnd 3: Sl st in next ch-3 sp, ch 3, (dc, ch 2, 2 dc) in same sp, ch 2, sc in next sc, ch 2, *(2 dc, ch 2, 2 dc) in next ch-3 sp, ch 2, sc in next sc, ch 2; rep from * around, join.
Rnd 4: Sl st in next dc and in next ch-2 sp, ch 1, sc in same sp, ch 4, dc in next sc, ch 4, *sc in next ch-2 sp BETWEEN, ch 4, dc in next sc, ch 4; rep from * around, join. (6 sc, 6 dc, 12 ch-4 sps)
"""


@pytest.mark.parametrize("said", ["between dc groups", "between dc", "between 2-dc groups", "between sets of 2 dc", "between next 2 dc"])
def test_the_space_between_stitches_of_one_kind_is_the_one_with_them_on_both_sides(said: str) -> None:
    worked = work_text(_SQUARE.replace("BETWEEN", said))
    assert worked.problems == []
    below, row = (worked.fabric.rows[n].row.stitches for n in (2, 3))
    places = [stitch.feet[0].at for stitch in row if stitch.kind == "sc"]
    assert len(places) == 6
    for at in places:
        assert below[at].kind == "ch"
        assert below[at - 1].kind == below[(at + 1) % len(below)].kind == "dc"
    shown = write_row(worked.texts[3], "UK")
    assert "ch-2 sp between tr" in shown
