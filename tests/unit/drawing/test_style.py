"""Tones that can be read in colour and in grey."""

import pytest
from hookfold.charts.drawing.style import Style, contrast, luminance, style


def test_contrast_of_black_and_white_is_21() -> None:
    """WCAG 2.2, definition of contrast ratio."""
    assert contrast("#ffffff", "#000000") == pytest.approx(21.0)


@pytest.mark.parametrize("mono", [False, True])
@pytest.mark.parametrize("tone", ["right_side", "wrong_side", "dark", "quiet", "accent"])
def test_every_ink_that_carries_words_or_stitches_has_enough_contrast(mono: bool, tone: str) -> None:
    """WCAG 2.2, 1.4.3: text 4.5 : 1."""
    house = style(mono=mono)
    assert contrast(getattr(house, tone), house.paper) >= 4.5


@pytest.mark.parametrize("mono", [False, True])
def test_rules_have_enough_contrast(mono: bool) -> None:
    """WCAG 2.2, 1.4.11: graphics 3 : 1."""
    house = style(mono=mono)
    assert contrast(house.hair, house.paper) >= 3.0


@pytest.mark.parametrize("mono", [False, True])
def test_the_two_sides_differ_in_grey(mono: bool) -> None:
    house = style(mono=mono)
    right, wrong = (luminance(c) ** (1 / 2.2) for c in (house.right_side, house.wrong_side))
    assert wrong - right > 0.25


def test_mono_has_no_colour() -> None:
    house = style(mono=True)
    for name in ("right_side", "wrong_side", "accent", "dark", "quiet", "hair", "tint"):
        red, green, blue = (int(getattr(house, name)[i : i + 2], 16) for i in (1, 3, 5))
        assert max(red, green, blue) - min(red, green, blue) <= 8, name


def test_the_house_style_is_the_default() -> None:
    assert style() == Style()
