"""Spellings are taken up when their first word is looked up: none may wait under another."""

from __future__ import annotations

import pytest
from hookfold.charts.pattern import lexicon
from hookfold.charts.pattern.notation import words
from hookfold.charts.pattern.notation.words import split, vocabulary


@pytest.mark.parametrize("terms", ["US", "UK"])
def test_a_spelling_waits_under_the_word_that_a_text_would_look_it_up_by(terms: str) -> None:
    forms = (
        form for base, us in lexicon.spelled_bases(terms).items() for form, _ in lexicon.spelled_forms(base, us, terms)
    )
    waiting = [
        (spelled, found[1]) for spelled in (*vocabulary(), *forms) if (found := words._PLAINLY_BEGUN.match(spelled))
    ]
    assert len(waiting) > 7000
    assert [spelled for spelled, first in waiting if split(spelled)[0] != first] == []
