"""Colours told apart: contrast, other eyes, and the notes."""

import pytest
from hookfold.charts.model.sections.colours import (
    DICHROMATS,
    colour_notes,
    contrast,
    difference,
    lab,
    linear,
    luminance,
    seen_by,
)
from hookfold.charts.pattern.file.records import Colour
from hypothesis import given
from hypothesis import strategies as st

HEX = st.integers(0, 0xFFFFFF).map(lambda n: f"#{n:06x}")


@pytest.mark.parametrize(
    ("first", "second", "ratio"),
    [("#000000", "#ffffff", 21.0), ("#777777", "#ffffff", 4.48), ("#767676", "#ffffff", 4.54)],
)
def test_contrast(first, second, ratio):
    """WCAG 2.2: #767676 is the lightest grey that reaches 4.5 : 1 on white, #777777 just fails."""
    assert contrast(first, second) == pytest.approx(ratio, abs=0.01)


@given(HEX, HEX)
def test_contrast_is_even_handed(first, second):
    assert contrast(first, second) == contrast(second, first) >= 1
    assert difference(first, second) == pytest.approx(difference(second, first))


@given(st.integers(0, 255), st.sampled_from(sorted(DICHROMATS)))
def test_greys_stay_grey_to_every_eye(level, reader):
    grey = linear(f"#{level:02x}{level:02x}{level:02x}")
    assert seen_by(reader, grey) == pytest.approx(grey, abs=2e-5)


def test_white_and_black_in_lab():
    assert lab(linear("#ffffff")) == pytest.approx((100, 0, 0), abs=0.02)
    assert lab(linear("#000000")) == pytest.approx((0, 0, 0), abs=1e-6)
    assert luminance("#ffffff") == pytest.approx(1.0)


def test_red_and_green_of_one_lightness_are_alike_to_the_green_blind():
    assert difference("#c05a4a", "#7d8a3c") > 50
    assert difference("#c05a4a", "#7d8a3c", "green-blind") < difference("#c05a4a", "#7d8a3c") / 2


def test_notes():
    moss, oat = Colour("A", "moss", "#55713f"), Colour("B", "oat", "#dccba7")
    rust, fern = Colour("C", "rust", "#8e5b3a"), Colour("D", "fern", "#6d7135")
    assert colour_notes((moss, oat)) == ()
    close = colour_notes((rust, fern))[0].says
    assert "C (rust) and D (fern)" in close and "3 : 1" in close and "green-blind" in close
    assert "nearly alike" in colour_notes((moss, Colour("E", "leaf", "#577340")))[0].says
