"""Any work at all: tops keep their order and their distance, pictures stay on the page, hands are mirror images."""

from __future__ import annotations

import itertools
import math
import sys
from pathlib import Path

from conftest import some
from hookfold.charts.drawing.svg import write
from hookfold.charts.layout.chart.either import chart_document
from hookfold.charts.layout.placing.laid import lay_fabric, mirrored
from hookfold.charts.model.cloth.fabric import Fabric, Foot, Row, Stitch, WorkedRow
from hookfold.charts.setting import Heading, Setting
from hypothesis import given, settings
from hypothesis import strategies as st

sys.path.insert(0, str(Path(__file__).parents[1] / "unit" / "layout"))

import svg_ruler

KINDS = st.sampled_from(["sl st", "sc", "hdc", "dc", "tr"])


@st.composite
def row_over(draw, base: Row) -> Row:
    """A row worked over `base` from its end: singles, groups, decreases, skips, chains."""
    left = [i for i in reversed(range(len(base.stitches))) if base.stitches[i].role != "start"]
    made: list[Stitch] = []
    while left:
        what = draw(st.sampled_from(["single", "single", "single", "group", "together", "skip", "chain"]))
        at = left[0]
        hold = "space" if base.stitches[at].role == "chain" else "top"
        if what == "chain":
            made.append(Stitch("ch", role="chain", chains=draw(st.integers(1, 7))))
        elif what == "group":
            kind, count = draw(KINDS), draw(st.integers(2, 5))
            made += [Stitch(kind, (Foot(at, hold=hold),), place=at)] * count
            left = left[1:]
        elif what == "together" and len(left) > 1:
            made.append(Stitch("dc2tog", tuple(Foot(i) for i in left[:2])))
            left = left[2:]
        elif what == "skip":
            left = left[draw(st.integers(1, 3)) :]
        else:
            made.append(Stitch(draw(KINDS), (Foot(at, hold=hold),)))
            left = left[1:]
    return Row(tuple(made) or (Stitch("sc", (Foot(0),)),))


@st.composite
def fabrics(draw) -> Fabric:
    start = Row((Stitch("ch", role="foundation", chains=1),) * draw(st.integers(2, 14)))
    rows: list[Row] = []
    for _ in range(draw(st.integers(1, 4))):
        rows.append(draw(row_over(rows[-1] if rows else start)))
    worked = tuple(
        WorkedRow(
            f"Row {i + 1}", i + 1, row, "WS" if i % 2 else "RS", "left-to-right" if i % 2 else "right-to-left"
        )
        for i, row in enumerate(rows)
    )
    return Fabric("chain", start, worked, len(start.stitches))


@settings(max_examples=some(60))
@given(fabrics())
def test_tops_keep_their_order_and_their_distance(fabric):
    for course in lay_fabric(fabric).courses:
        tops = [s.head[0] * course.sign for s in course.laid.spots if s.role == "stitch"]
        assert all(b - a >= 0.78 for a, b in itertools.pairwise(tops))


@settings(max_examples=some(60))
@given(fabrics())
def test_every_place_is_a_number_and_above_its_feet(fabric):
    for course in lay_fabric(fabric).courses:
        for spot in course.laid.spots:
            assert all(math.isfinite(v) for v in spot.head)
            if spot.role == "stitch":
                assert spot.head[1] < min(y for _, y in spot.feet) + 0.2


@settings(max_examples=some(30))
@given(fabrics())
def test_the_hands_are_mirror_images(fabric):
    laid = lay_fabric(fabric)
    turned = mirrored(laid)
    for a, b in zip(laid.courses, turned.courses, strict=True):
        assert [(-s.head[0], s.head[1]) for s in a.laid.spots] == [s.head for s in b.laid.spots]


@settings(max_examples=some(25))
@given(fabrics(), st.sampled_from(["A4", "Letter"]), st.sampled_from(["repeat", "full"]))
def test_charts_are_drawn_twice_alike(fabric, paper, extent):
    setting = Setting(paper=paper, extent=extent)
    one, two = (chart_document(fabric, Heading("Any"), setting) for _ in range(2))
    assert [write(s) for s in one.sheets] == [write(s) for s in two.sheets]


@settings(max_examples=some(40))
@given(fabrics(), st.sampled_from(["repeat", "full"]), st.sampled_from(["right", "left"]))
def test_nothing_leaves_the_page(fabric, extent, hand):
    document = chart_document(fabric, Heading("Any"), Setting(extent=extent, hand=hand))
    for sheet in document.sheets:
        assert svg_ruler.outside(svg_ruler.read_page(write(sheet))) == []
