"""The multiple of a foundation chain: what the first row's repetitions take of it leaves out counts before they are worked
(common practice, no source: a repeat that is worked across comes out even)."""

import pytest
from hookfold.charts.model.multiples import of_foundation
from hookfold.charts.model.rows.work import work_text

SHELLS = """Ch 20.
Row 1: Sc in 2nd ch from hook, *sk next 2 ch, 5 dc in next ch, sk next 2 ch, sc in next ch; rep from * across. (19 sts)
Row 2: Ch 1, turn, sc in each st across. (19 sc)
"""
PAIRS = """Ch 15.
Row 1: Hdc and sc in 3rd ch from hook, skip 1 ch, *hdc and sc in next ch, skip 1 ch; rep from * across, sc in last ch.
Row 2: Ch 1, turn, *skip next st, hdc and sc in next st; rep from * to last st, sc in last st.
"""
MESH = """Ch 26.
Row 1: Dc in 6th ch from hook, *ch 1, sk 1 ch, dc in next ch; rep from * across.
Row 2: Ch 4, turn, sk first dc, *dc in next dc, ch 1; rep from * to turning chain, dc in turning chain.
"""


@pytest.mark.parametrize(("text", "of", "plus"), [(SHELLS, 6, 2), (PAIRS, 2, 1), (MESH, 2, 0)])
def test_a_repeat_is_worked_whole_over_the_foundation(text, of, plus):
    found = of_foundation.chain_multiple(work_text(text))
    assert found is not None and (found.of, found.chain_plus) == (of, plus)


def test_only_counts_of_whole_repetitions_are_worked(monkeypatch):
    worked, counts, goes = work_text(SHELLS), [], of_foundation._goes
    monkeypatch.setattr(of_foundation, "_goes", lambda *given: counts.append(given[-1]) or goes(*given))
    of_foundation._repeat_from.cache_clear()
    assert of_foundation.chain_multiple(worked) is not None and counts == [20, 26, 32, 38]
