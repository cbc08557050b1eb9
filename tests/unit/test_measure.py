"""Lengths, percentages and the one rounding rule."""

import pytest
from hookfold.charts.measure import parse_length, round_half_up, show_length, show_percent
from hypothesis import given
from hypothesis import strategies as st


@pytest.mark.parametrize(
    ("text", "mm"),
    [("250 mm", 250), ("25cm", 250), ("1 in", 25.4), ("9 7/8 in", 250.825), ("9⅞ in", 250.825), ('½"', 12.7),
     ("1,5 cm", 15), (" 3 inches ", 76.2), ("7/8 in", 22.225)],
)  # fmt: skip
def test_lengths(text, mm):
    """1 in = 25.4 mm exactly (international inch, 1959)."""
    assert parse_length(text).mm == pytest.approx(mm)


@pytest.mark.parametrize(
    "text", ["", "mm", "12", "-3 mm", "1 / 0 in", "1/0 in", "3 px", "1 2 in", "nan mm", "x" * 500]
)
def test_what_is_no_length(text):
    with pytest.raises(ValueError, match=r"length|fraction"):
        parse_length(text)


@pytest.mark.parametrize(
    ("mm", "unit", "text"),
    [(250.4, "mm", "250 mm"), (250.4, "cm", "25 cm"), (254.6, "cm", "25.5 cm"), (250.825, "in", "9 7/8 in"),
     (3.175, "in", "1/8 in"), (0, "in", "0 in"), (254, "in", "10 in"), (253.9, "in", "10 in")],
)  # fmt: skip
def test_shown(mm, unit, text):
    assert show_length(mm, unit) == text


@given(st.floats(1, 9000), st.sampled_from(["mm", "cm", "in"]))
def test_what_is_shown_reads_back_near(mm, unit):
    half = {"mm": 0.5, "cm": 0.5, "in": 25.4 / 16}[unit]
    shown = show_length(mm, unit)
    if shown.startswith("0 "):
        assert mm <= half
    else:
        assert parse_length(shown).mm == pytest.approx(mm, abs=half + 1e-6)


@given(st.integers(-500, 500), st.floats(0, 0.49))
def test_rounding_is_to_the_nearest_and_halves_go_up(whole, part):
    assert round_half_up(whole + part) == whole
    assert round_half_up(whole - part) == whole
    assert round_half_up(whole + 0.5) == whole + 1


@given(st.floats(-0.5, 1))
def test_percentages_have_no_minus_nought(fraction):
    assert not show_percent(fraction).startswith("-0 ")
    assert float(show_percent(fraction)[:-2]) == pytest.approx(fraction * 100, abs=0.0501)
