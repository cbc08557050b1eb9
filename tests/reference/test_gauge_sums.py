"""Printed gauge sums, stitch ratios and multiples, each with its source."""

import itertools
import tomllib
from pathlib import Path

import pytest
from hookfold.charts.measure import Length, round_half_up
from hookfold.charts.model.sizing.request import SectionRequest, SectionText, SizingRequest
from hookfold.charts.model.sizing.row_heights import relative_height
from hookfold.charts.model.sizing.size import size
from hookfold.charts.model.sizing.yarn_weights import WEIGHTS
from hookfold.charts.pattern.file.records import Gauge

FACTS = tomllib.loads((Path(__file__).parent / "gauge.toml").read_text("utf-8"))


def test_every_fact_has_a_source():
    assert all(fact["source"] for facts in FACTS.values() for fact in facts)


@pytest.mark.parametrize("fact", FACTS["fact"], ids=lambda fact: fact["what"])
def test_gauge_sum(fact):
    gauge = Gauge(fact["count_per"], Length(fact["per_mm"], "mm", ""))
    assert fact["length_mm"] / gauge.stitch_mm == pytest.approx(fact["exact"])
    assert round_half_up(fact["length_mm"] / gauge.stitch_mm) == fact["nearest"]


@pytest.mark.parametrize("fact", FACTS["fact"], ids=lambda fact: fact["what"])
def test_the_same_sum_through_sizing(fact):
    """A panel of plain stitches as wide and as high as the printed length."""
    mm = fact["per_mm"] / fact["count_per"]
    text = SectionText(("sc",))
    section = SectionRequest("body", text, wanted_mm=fact["length_mm"])
    both = {"width": fact["length_mm"], "height": fact["length_mm"]}
    plan = size(SizingRequest("panel", "width", both, mm, mm, ("sc",), (section,)))
    assert (plan.stitches, plan.rows, plan.foundation) == (fact["nearest"], fact["nearest"], fact["nearest"] + 1)


@pytest.mark.parametrize("fact", FACTS["ratio"], ids=lambda fact: fact["kind"])
def test_estimated_heights_lie_inside_printed_gauges(fact):
    assert fact["low"] <= relative_height(fact["kind"]) <= fact["high"]


@pytest.mark.parametrize("fact", FACTS["swatch"], ids=lambda fact: fact["kind"])
def test_estimated_heights_are_near_a_measured_swatch(fact):
    """Within 8 % of 20 x 20 stitches."""
    measured = fact["height_in"] / fact["width_in"]
    assert relative_height(fact["kind"]) == pytest.approx(measured, rel=0.08)


@pytest.mark.parametrize("fact", FACTS["multiple"], ids=lambda fact: str(fact["chains"]))
def test_multiple(fact):
    for squares, chains in zip(fact["squares"], fact["chains"], strict=True):
        section = SectionRequest("body", SectionText(("sc",)), rows=1)
        request = SizingRequest(
            "panel", "width", {"width": chains * 5.0, "height": 5.0}, 5.0, 5.0, ("sc",), (section,),
            fact["of"], fact["plus"], 0,
        )  # fmt: skip
        plan = size(request)
        chosen = next(o for o in plan.across_options if o.chosen)
        assert (plan.stitches, chosen.repeats) == (chains, squares)


def test_yarn_weights_overlap_without_gaps():
    """Craft Yarn Council, Crochet World, October 2018, p. 64: hooks grow with the category."""
    assert [w.name for w in WEIGHTS] == [
        "Lace", "Super Fine", "Fine", "Light", "Medium", "Bulky", "Super Bulky", "Jumbo",
    ]  # fmt: skip
    assert [(w.fewest, w.most) for w in WEIGHTS[1:]] == [
        (21, 32), (16, 20), (12, 17), (11, 14), (8, 11), (6, 9), (0, 5),
    ]  # fmt: skip
    pairs = list(itertools.pairwise(WEIGHTS))
    assert all(a.hook_to_mm == b.hook_from_mm for a, b in pairs)
