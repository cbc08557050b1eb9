"""Mistakes put into the project's own patterns are reported at their row, and only there."""

from __future__ import annotations

from pathlib import Path

import pytest
from mutations import Outcome, Source, figures, measured, texts_of
from notation_cases import table

GALLERY = Path(__file__).resolve().parents[2] / "gallery"
SEED = 1
COUNT = 40


@pytest.fixture(scope="module")
def outcomes() -> dict[str, list[Outcome]]:
    """All three measures over the gallery and the tables of patterns, each of which is held to be read without any
    problem by a test of its own; one that is drawn and is not is left."""
    written = [Source(entry["name"], entry["text"].lstrip("\n")) for entry in table("pattern")]
    found, left, _ = measured([texts_of(GALLERY), written], SEED, COUNT, sound=True)
    assert left == []
    return found


def shares(outcomes: list[Outcome], name: str) -> float:
    """The share of the outcomes of which this is so."""
    number, total = figures(outcomes)[name]
    assert len(outcomes) == COUNT
    return number / total


def failing(outcomes: list[Outcome]) -> str:
    """What to look at, where a measure is missed."""
    return "\n".join(
        f"{out.change.source.name}, {out.change.spot.label}: {out.change.what}: {out.failure or (out.here, out.elsewhere)}"
        for out in outcomes
        if not out.passed
    )


@pytest.mark.slow
def test_no_clause_vanishes(outcomes: dict[str, list[Outcome]]) -> None:
    found = outcomes["vanishing"]
    assert shares(found, "reported at the row") >= 0.98, failing(found)


@pytest.mark.slow
def test_wrong_number_is_reported_at_its_row_alone(outcomes: dict[str, list[Outcome]]) -> None:
    found = outcomes["numbers"]
    assert shares(found, "reported at the row") >= 0.95, failing(found)
    assert shares(found, "reported or noted at the row") >= 0.98, failing(found)
    assert shares(found, "reported at another place") == 0, failing(found)


@pytest.mark.slow
def test_broken_row_leaves_the_others_alone(outcomes: dict[str, list[Outcome]]) -> None:
    found = outcomes["rubble"]
    assert shares(found, "reported at another place") == 0, failing(found)
    assert shares(found, "not worked at all") == 0, failing(found)
