"""Rows of printed books, worked from our own words, against the books' figures; the sources are in printed_rows.toml."""

import tomllib
from pathlib import Path

import pytest
from hookfold.charts.model.rows.work import work_text
from notation_cases import differences

FACTS = tomllib.loads(Path(__file__).with_name("printed_rows.toml").read_text("utf-8"))["fact"]


def test_every_fact_has_a_source():
    assert all(fact["source"].strip() for fact in FACTS)


@pytest.mark.parametrize("fact", FACTS, ids=lambda fact: fact["what"])
def test_printed_figures(fact):
    worked = work_text(fact["text"].lstrip("\n"))
    assert [p.report() for p in worked.problems] == []
    assert differences(worked, fact["rows"]) == []
    rows = {row.label: row.row for row in worked.fabric.rows}
    assert {label: rows[label].takes for label in fact.get("takes", {})} == fact.get("takes", {})
