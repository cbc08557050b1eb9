"""Borders, joins and folded sizes against printed ones; the sources are in border_counts.toml."""

import tomllib
from pathlib import Path

import pytest
from folding_plans import plan_of
from hookfold.charts.folding.border import border_plan
from hookfold.charts.folding.edge_rates import row_end_sum, spacing, spread
from hookfold.charts.folding.folds import folding_of
from hookfold.charts.measure import MM_PER_INCH

FACTS = tomllib.loads(Path(__file__).with_name("border_counts.toml").read_text("utf-8"))


def test_every_fact_has_a_source():
    assert all(fact["source"].strip() for facts in FACTS.values() for fact in facts)


def sc_panel(stitches, rows, corner=3, **more):
    """A panel of square sc, all measures one stitch wide."""
    return plan_of(
        "panel",
        [("mat", ["sc"] * rows, 5.0)],
        stitches,
        5.0,
        {"height": 1.0, "width": 1.0},
        "width",
        corner=corner,
        **more,
    )


@pytest.mark.parametrize("fact", FACTS["row_ends"], ids=lambda f: f["source"][:12])
def test_row_ends(fact):
    assert row_end_sum([fact["kind"]] * fact["rows"]) == fact["plain"]
    if fact["every"]:
        more = fact["printed"] - fact["plain"]
        words = spacing(spread(fact["printed"], fact["rows"]), range(1, fact["rows"] + 1), "row end")
        assert f"1 in each row end, but 2 in every {fact['every']}th row end, {more} times" in words


@pytest.mark.parametrize("fact", FACTS["sum"], ids=lambda f: f["source"][:24])
def test_printed_sums_add_up(fact):
    assert sum(fact["parts"]) == fact["total"]


def test_the_flap_border_comes_out_within_one_stitch_a_stretch():
    """PG 62190: 32 rows up each side and 20 stitches across the end of the flap, 3 in both corners.

    Our row-end rule gives 32 + 3 + 18 + 3 + 32; the book works one fewer along each stretch.
    """
    printed = FACTS["sum"][0]["parts"]
    border = border_plan(sc_panel(20, 32))
    top = next(s for s in border.stretches if s.facing.edge == "last row")
    sides = [s for s in border.stretches if s.facing.counts == "row ends"]
    ours = [sides[0].count, 3, top.count, 3, sides[1].count]
    assert [a - b for a, b in zip(ours, printed, strict=True)] == [1, 0, 1, 0, 1]


def test_the_jacket_has_the_same_shape_of_sum():
    """PG 62842: up one front, round the neck in three parts, down the other, no corners: our gauge rule."""
    for fact in FACTS["sum"][2:]:
        front, side, neck = fact["parts"][:3]
        plan = sc_panel(side * 2 + neck, front, border_stitch_mm=5.0, border_row_mm=5.0)
        border = border_plan(plan)
        top = next(s for s in border.stretches if s.facing.edge == "last row")
        sides = [s for s in border.stretches if s.facing.counts == "row ends"]
        taken = 3  # each of the three sides has given one place to a corner, which the jacket has none of
        assert sides[0].count + top.count + sides[1].count + taken == fact["total"]


@pytest.mark.parametrize("fact", FACTS["growth"], ids=lambda f: f["source"][:12])
@pytest.mark.parametrize("size", [5, 12, 33])
def test_rounds_grow(fact, size):
    border = border_plan(sc_panel(size, size, fact["corner"]), rounds=3)
    assert len(border.corners) == fact["corners"]
    assert [b - a for a, b in zip(border.totals, border.totals[1:], strict=False)] == [fact["grows"]] * 2
    assert border.totals[0] == 4 * size + fact["grows"], (
        "the first round grows as much over the places of the edge"
    )


@pytest.mark.parametrize("fact", FACTS["folded"], ids=lambda f: f["source"][:12])
@pytest.mark.parametrize("along", ["height", "wrap"])
def test_the_published_wrap(fact, along):
    """Flat width less both flaps is the folded width, whichever way the foundation runs."""
    flat, tall = (v * MM_PER_INCH for v in fact["flat_in"])
    flap = fact["flap_in"] * MM_PER_INCH
    thing = {"height": tall, "wrap": flat - 2 * flap, "flap": flap}
    if along == "height":
        row = flap / 12
        parts = [("front flap", 12), ("body", round((flat - 2 * flap) / row)), ("back flap", 12)]
        plan = plan_of("book", [(n, ["sc"] * k, row) for n, k in parts], 30, tall / 30, thing, along)
    else:
        stitch = flap / 12
        plan = plan_of(
            "book", [("cover", ["sc"] * 30, tall / 30)], round(flat / stitch), stitch, thing, along
        )
    left, top, right, bottom = folding_of(plan).end.silhouette.bounds
    assert [(right - left) / MM_PER_INCH, (bottom - top) / MM_PER_INCH] == pytest.approx(
        fact["folded_in"], abs=0.005
    )
