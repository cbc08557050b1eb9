"""Laws of folding: area kept, unfolding, silhouettes, edges accounted for, joins equal, sums that agree."""

import math

import pytest
import shapely
from conftest import ALL_CHECKS
from folding_plans import plan_of
from hookfold.charts.errors import PatternError
from hookfold.charts.folding.border import border_plan
from hookfold.charts.folding.edges import intervals
from hookfold.charts.folding.facets import Facet, Stack, fold_all, polygons, seen, unfolded
from hookfold.charts.folding.folds import folding_of
from hookfold.charts.folding.joins import joins_of
from hookfold.charts.folding.views import doubled, hatched
from hookfold.charts.folding.written_folds import EASE_LIMIT
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely import MultiPoint, union_all
from shapely.geometry import MultiPolygon

#: Random pieces and fold sequences that every law is tried on: the full number where everything is asked for.
MANY = 1000 if ALL_CHECKS else 100

CORNERS = st.lists(st.tuples(st.integers(0, 120), st.integers(0, 90)), min_size=4, max_size=9)
CREASE = st.tuples(
    st.floats(0, math.pi),
    st.floats(-0.8, 0.8),
    st.sampled_from(["left", "right"]),
    st.sampled_from(["over", "under"]),
)


@st.composite
def folded(draw):
    """A random convex piece folded one to four times through all layers; with the flat piece."""
    shape = MultiPoint(draw(CORNERS)).convex_hull
    assume(shape.geom_type == "Polygon" and shape.area > 400)
    stack = Stack((Facet(shape),))
    for angle, off, side, direction in draw(st.lists(CREASE, min_size=1, max_size=4)):
        left, top, right, bottom = stack.silhouette.bounds
        cx, cy = (left + right) / 2, (top + bottom) / 2
        reach = math.hypot(right - left, bottom - top) / 2
        nx, ny = -math.sin(angle), math.cos(angle)
        p = (cx + nx * off * reach, cy + ny * off * reach)
        q = (p[0] + math.cos(angle) * 10, p[1] + math.sin(angle) * 10)
        stack = fold_all(stack, (p, q), side, direction)
    return shape, stack


def area_is_kept(shape, stack, looks):
    assert sum(f.flat.area for f in stack.facets) == pytest.approx(shape.area, rel=1e-4)
    assert sum(f.shape.area for f in stack.facets) == pytest.approx(shape.area, rel=1e-4)


def unfolding_gives_the_flat_piece_back(shape, stack, looks):
    assert unfolded(stack).symmetric_difference(shape).area < 0.02


def what_is_in_view_tiles_the_silhouette(shape, stack, looks):
    areas = [a for look in looks for a in look.area]
    assert sum(a.area for a in areas) == pytest.approx(stack.silhouette.area, abs=0.05)
    assert union_all(areas).symmetric_difference(stack.silhouette).area < 0.05


def every_edge_is_in_view_or_hidden(shape, stack, looks):
    for look in looks:
        lengths = sum(e.length for e in (*look.visible_edges, *look.hidden_edges))
        assert lengths == pytest.approx(look.facet.shape.exterior.length, rel=1e-4)


def layers_of_overlapping_facets_differ_and_rise_with_the_stack(shape, stack, looks):
    for j, (over, high) in enumerate(zip(stack.facets, stack.layers, strict=True)):
        for under, low in list(zip(stack.facets, stack.layers, strict=True))[:j]:
            if over.shape.intersection(under.shape).area > 0.01:
                assert high > low


LAWS = (
    area_is_kept,
    unfolding_gives_the_flat_piece_back,
    what_is_in_view_tiles_the_silhouette,
    every_edge_is_in_view_or_hidden,
    layers_of_overlapping_facets_differ_and_rise_with_the_stack,
)


@settings(max_examples=MANY)
@given(folded(), st.floats(1.5, 9), st.floats(0, 90))
def test_every_law_holds_of_a_folded_piece(case, gap, angle):
    """One piece folded and looked at for all laws, as that is most of the work; the law that fails is named by its
    function."""
    shape, stack = case
    looks = seen(stack)
    for law in LAWS:
        law(shape, stack, looks)
    hatching_stays_inside_what_is_doubled(stack, gap, angle)


def hatching_stays_inside_what_is_doubled(stack, gap, angle):
    zone = doubled(stack)
    inside = MultiPolygon(list(zone)).buffer(1e-3)
    for line in hatched(zone, gap, angle):
        assert shapely.covers(inside, shapely.points(line)).all()


KINDS = st.sampled_from(["sc", "hdc", "dc"])


@st.composite
def covers(draw):
    """A random book cover: rows of any kind and height, flaps that fit or not."""
    per = draw(st.floats(3, 8))
    counts = [draw(st.integers(2, 14)), draw(st.integers(20, 60)), draw(st.integers(2, 14))]
    sections = []
    for name, count in zip(("front flap", "body", "back flap"), counts, strict=True):
        rows = [draw(KINDS)] * count
        sections.append((name, rows, draw(st.floats(4, 14))))
    gauge = draw(st.one_of(st.none(), st.floats(4, 9)))
    edge = {"border_stitch_mm": gauge, "border_row_mm": gauge, "joins": draw(st.booleans())}
    thing = {"height": 200.0, "wrap": 300.0}
    return plan_of("book", sections, draw(st.integers(10, 60)), per, thing, "height", **edge)


@settings(max_examples=MANY)
@given(covers(), st.sampled_from(["right", "left"]))
def test_joined_edges_are_as_long_as_each_other_and_the_border_adds_up(plan, hand):
    try:
        folding = folding_of(plan, hand=hand)
    except PatternError as found:
        assert {p.kind for p in found.problems} == {"fold"}
        return
    flap = folding.piece.part("front flap").length_mm + folding.piece.part("back flap").length_mm
    left, _, right, _ = folding.end.silhouette.bounds
    assert right - left == pytest.approx(folding.piece.height_mm - flap), "flat width less both flaps"
    for join in joins_of(folding):
        lengths = [r.length_mm for r in join.runs]
        assert max(lengths) <= min(lengths) * (1 + EASE_LIMIT)
    border = border_plan(plan, hand=hand, folding=folding)
    assert border.total == sum(s.count for s in border.stretches) + sum(c.count for c in border.corners)
    for side in range(4):
        here = border.of_side(side)
        exact = sum(s.exact for s in here)
        assert abs(sum(s.count for s in here) - exact) <= 0.5 + 2 + 1e-6, (
            "the corners take at most two a side"
        )
    walked = intervals(folding.piece, folding.joined_stack, clockwise=True)
    assert sum(i.length_mm for i in walked) == pytest.approx(folding.joined_stack.silhouette.length, abs=0.05)


def test_nothing_is_a_polygon_of_no_area():
    assert polygons(MultiPolygon()) == ()
