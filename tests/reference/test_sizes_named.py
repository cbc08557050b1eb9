"""Named sizes against what is published of them."""

import tomllib
from pathlib import Path

import pytest
from hookfold.charts.pattern.file.book_sizes import named_size, named_sizes

FACTS = tomllib.loads((Path(__file__).parent / "sizes.toml").read_text("utf-8"))["fact"]


@pytest.mark.parametrize("fact", FACTS, ids=lambda fact: fact["name"])
def test_size(fact):
    size = named_size(fact["name"])
    assert fact["source"]
    assert (size.width_mm, size.height_mm) == pytest.approx(fact["mm"], abs=1e-9)


def test_every_size_has_a_source_and_a_fact():
    covered = {named_size(fact["name"]).name for fact in FACTS}
    assert covered == {size.name for size in named_sizes().values()}
    assert all(size.source for size in named_sizes().values())


def test_iso_halves():
    """ISO 216: the longer side of a size is twice the shorter side of the next, rounded down to a millimetre."""
    for larger, smaller in (("A4", "A5"), ("A5", "A6"), ("B5", "B6")):
        assert named_size(larger).height_mm // 2 == named_size(smaller).width_mm
        assert named_size(larger).width_mm == named_size(smaller).height_mm


def test_wrap_is_twice_the_width_and_the_spine():
    """Common practice, no source."""
    assert named_size("A5").wrap_mm(12) == 308
    assert named_size("Half-letter").wrap_mm(18) == pytest.approx(297.4)
