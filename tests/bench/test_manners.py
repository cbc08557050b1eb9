"""Pages that tell the same work in many manners are read, and none wrongly without a word."""

from __future__ import annotations

import pytest
from manners import KINDS, measured
from outcomes import Outcome

SEED = 11
COUNT = 50


@pytest.fixture(scope="module")
def outcomes() -> list[Outcome]:
    return measured(SEED, COUNT)


def test_pages_of_every_kind_are_told_in_different_words(outcomes: list[Outcome]) -> None:
    assert {o.kind for o in outcomes} == {kind.__name__ for kind in KINDS}
    assert len({o.text for o in outcomes}) == COUNT
    assert all(o.wanted for o in outcomes)


def test_nearly_every_page_is_read_without_a_complaint(outcomes: list[Outcome]) -> None:
    unclean = [o for o in outcomes if not o.clean]
    assert len(unclean) <= 0.06 * COUNT, "\n\n".join(o.told or o.text for o in unclean)


def test_no_page_is_read_wrongly_without_a_word(outcomes: list[Outcome]) -> None:
    assert [o.text for o in outcomes if o.silent] == []
