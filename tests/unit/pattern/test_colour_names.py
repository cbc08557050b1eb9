"""Colours by their names: what a hue is, told by its hexadecimal digits; that no two unknown ones look alike."""

import colorsys

import pytest
from hookfold.charts.pattern.file.colour_names import COLOUR_NAMES, drawn_colours, known_colour

ORDINARY = [
    "mustard", "rust", "burgundy", "gold", "plum", "oatmeal", "terracotta", "off-white", "ecru", "turquoise",
    "cherry", "olive", "mint", "sage", "charcoal", "lilac", "coral", "lavender", "denim", "wine", "silver",
    "light blue", "forest green", "dark green",
]


def hls(name):
    drawn = known_colour(name)
    red, green, blue = (int(drawn[k : k + 2], 16) / 255 for k in (1, 3, 5))
    hue, light, strong = colorsys.rgb_to_hls(red, green, blue)
    return hue * 360, light, strong


@pytest.mark.parametrize("name", ORDINARY)
def test_ordinary_names_are_known(name):
    assert known_colour(name) == known_colour(name.upper()) == known_colour(f" {name} ") != ""


@pytest.mark.parametrize(("name", "low", "high"), [
    ("mustard", 35, 60), ("rust", 5, 30), ("turquoise", 165, 190), ("olive", 45, 70), ("forest green", 100, 150),
    ("light blue", 195, 225), ("lilac", 265, 295), ("terracotta", 5, 30), ("mint", 125, 165), ("denim", 200, 225),
])  # fmt: skip
def test_a_name_is_drawn_in_its_hue(name, low, high):
    """Hues in degrees round the colour circle, red at 0, green at 120, blue at 240 (CSS Color Module Level 4, hsl)."""
    assert low <= hls(name)[0] <= high


def test_pale_and_dark_are_lighter_and_darker():
    assert hls("pale teal")[1] > hls("teal")[1] > hls("dark teal")[1]
    assert hls("ivory")[1] > 0.85 and hls("charcoal")[1] < 0.4
    assert known_colour("dark flurble") == known_colour("flurble") == ""


def test_those_not_known_are_all_drawn_apart():
    names = [f"odd {n}z" for n in range(26)]
    assert len(set(drawn_colours(names))) == 26
    mixed = drawn_colours(["slate", "flurble"])
    assert mixed[0] == COLOUR_NAMES["slate"] != mixed[1]
