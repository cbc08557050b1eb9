"""A measure in the booklet is said as it was typed."""

from __future__ import annotations

import pytest
from hookfold.charts.measure import parse_length, show_given


@pytest.mark.parametrize("typed", ["0.3 in", "7.1 in", "5/16 in", "9 7/8 in", "2 1/2 in", "6 in", "12.4 in"])
def test_inches_come_out_as_they_were_typed(typed: str) -> None:
    assert show_given(parse_length(typed).mm, "in") == typed
