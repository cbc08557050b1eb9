"""Yarn for each colour: from a weighed swatch, else an estimate that says so."""

from dataclasses import replace
from pathlib import Path

import pytest
from hookfold.charts.model.sizing.fit import fit_lines
from hookfold.charts.model.sizing.from_pattern import request_of
from hookfold.charts.model.sizing.request import SectionText
from hookfold.charts.model.sizing.size import size
from hookfold.charts.model.sizing.yarn import (
    END_MM,
    SPARE,
    border_area_mm2,
    colour_areas_mm2,
    colour_ends,
    raised_factor,
    yarn_report,
)
from hookfold.charts.pattern.file.read import read_pattern

SOUND = (Path(__file__).parents[2] / "invalid" / "sound.toml.txt").read_text("utf-8")
TEXTS = (
    SectionText(("hdc",), chain_plus=2),
    SectionText(("hdc", "sc"), (False, True), ("RS", "WS"), 4, 3, 7, 2),
    SectionText(("hdc",), chain_plus=2),
)


def planned(text=SOUND):
    pattern = read_pattern(text)
    return size(request_of(pattern, TEXTS)), pattern


def test_areas_add_up_to_the_piece_and_its_border():
    plan, pattern = planned()
    areas = colour_areas_mm2(plan, pattern)
    piece = plan.finished_mm["across"] * plan.finished_mm["up"]
    assert sum(areas.values()) == pytest.approx(piece + border_area_mm2(plan))
    assert list(areas) == ["A", "B"]


def test_from_a_weighed_swatch():
    """9.6 g for 10 x 10 cm, 15 % to spare, and the ends by the ball's metres to a gram."""
    plan, pattern = planned()
    report = yarn_report(plan, pattern)
    area = colour_areas_mm2(plan, pattern)["B"]
    ends_g = colour_ends(plan, pattern)["B"] * END_MM / 1000 * 50 / 115
    assert not report.estimated
    assert report.needs[1].grams == pytest.approx(area / 10_000 * 9.6 * (1 + SPARE) + ends_g)
    assert report.needs[1].balls == -(-report.needs[1].grams // 50)
    assert "swatch" in report.assumptions[0]


def test_a_larger_swatch_of_the_same_weight_means_less_yarn():
    plan, pattern = planned()
    wide = replace(pattern, yarn=replace(pattern.yarn, swatch_mm=(120.0, 120.0)))
    assert yarn_report(plan, wide).needs[0].grams < yarn_report(plan, pattern).needs[0].grams


def test_without_a_swatch_it_is_an_estimate():
    plan, pattern = planned(SOUND.replace('swatch_weight = "9.6 g", ', ""))
    report = yarn_report(plan, pattern)
    assert report.estimated and report.assumptions[0].startswith("An estimate")
    assert report.needs[0].metres > 0 and report.needs[0].grams == pytest.approx(report.needs[0].metres * 50 / 115)


def test_without_anything_there_are_metres_only():
    line = next(line for line in SOUND.splitlines() if line.startswith("yarn"))
    plan, pattern = planned(SOUND.replace(line, ""))
    need = yarn_report(plan, pattern).needs[0]
    assert need.metres > 0 and need.grams is None and need.balls is None


def test_bobbles_take_more():
    assert raised_factor([{"sc": 12}]) == 1.0
    assert raised_factor([{"sc": 9, "bo": 3}]) == pytest.approx((9 + 3 * 4 * 1.92) / 12)


def test_a_colour_that_comes_back_soon_is_carried():
    plan, pattern = planned()
    ends = colour_ends(plan, pattern)
    assert ends == {"A": 4, "B": 2}  # A begins the piece and works the border


def test_the_fit_is_there_to_print():
    assert fit_lines(planned()[0])
