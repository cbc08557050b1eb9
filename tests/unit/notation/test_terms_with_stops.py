"""Terms of pages whose abbreviations have stops behind them. Common practice, no source."""

from __future__ import annotations

from hookfold.charts.model.rows.work import work_text

TAM = (
    "Commence with 5 ch., join in a ring with s.s.\n1st rnd.: 3 ch., 13 tr. in ring, s.s. in 3rd of 3 ch. (14 tr.).\n"
    "2nd rnd.: 3 ch., 1 tr. in same place as s.s., * 2 tr. in next tr.; rep. from * all round, s.s. in 3rd of 3 ch. (28 tr.)\n"
    "3rd rnd.: 3 ch., 1 tr. in each tr., s.s. to 3rd ch.\n"
)


def test_rounds_of_tr_that_three_chains_lift_are_uk_behind_stops_too() -> None:
    worked = work_text(TAM)
    assert worked.problems == []
    assert [row.row.made for row in worked.fabric.rows] == [14, 28, 28]
    assert worked.pattern.terms == "UK"


def test_rounds_of_tr_that_four_chains_lift_are_us() -> None:
    worked = work_text("Ch 5, join.\nRnd 1: Ch 4 (counts as tr), 19 tr in ring, join. (20 tr)\nRnd 2: Ch 4, tr in each tr around, join. (20 tr)")
    assert worked.pattern.terms == "US"
    assert worked.problems == []
