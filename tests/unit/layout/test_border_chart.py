"""The corner in symbols: stitches stand where the spacing puts them, and the corner holds what it should."""

import itertools
import re
from dataclasses import replace

import folding_plans as plans
import pytest
import shapely
from hookfold.charts.drawing.display import Ink
from hookfold.charts.drawing.style import style
from hookfold.charts.folding.border import border_plan
from hookfold.charts.layout.assembly.border_corner import chosen, corner_picture, corner_sentence, feet_of
from sheet_boxes import box_of, flat, meet, points_of


@pytest.mark.parametrize("name", sorted(plans.ALL))
def test_the_corner_after_the_most_layers_is_drawn(name):
    border = border_plan(plans.ALL[name]())
    before, after, count = chosen(border)
    ends = [s for s in border.stretches if s is border.of_side(s.side)[-1]]
    assert before.layers == max(s.layers for s in ends)
    assert before.end == pytest.approx(after.start)
    assert count == 3
    assert re.match(r"The (?:top|bottom) (?:left|right) corner in symbols: sc through", corner_sentence(border))


@pytest.mark.parametrize("name", sorted(plans.ALL))
def test_feet_over_a_whole_stretch_are_its_stitches(name):
    for s in border_plan(plans.ALL[name]()).stretches:
        feet = feet_of(s, s.facing.count + 1, at_end=False)
        assert len(feet) == (s.count if s.each else s.facing.count), "a mouth is gone round over both its sides"
        assert feet == sorted(feet) and feet[-1] < s.facing.count


@pytest.mark.parametrize("name", sorted(plans.ALL))
@pytest.mark.parametrize("hand", ["right", "left"])
def test_the_picture_keeps_inside_its_box_and_its_numbers_apart(name, hand):
    picture = corner_picture(border_plan(plans.ALL[name](), hand=hand), style())
    items = list(flat(picture.draw(0.0, 0.0)))
    inks = [p for i in items if isinstance(i, Ink) for p in points_of(i)]
    assert min(x for x, _ in inks) > -0.5 and max(x for x, _ in inks) < picture.width + 0.5
    assert min(y for _, y in inks) > -0.5 and max(y for _, y in inks) < picture.height + 0.5
    texts = [box_of(t) for t in items if not isinstance(t, Ink)]
    assert texts
    assert not any(meet(a, b, 0.2) for i, a in enumerate(texts) for b in texts[i + 1 :])


def test_the_numbers_are_those_that_meet():
    picture = corner_picture(border_plan(plans.book()), style())
    drawn = [t.text for t in flat(picture.draw(0.0, 0.0)) if not isinstance(t, Ink)]
    assert drawn[:4] == ["63", "64", "62", "65"], "row 63 of the body meets row 64 of the flap, 62 meets 65"


@pytest.mark.parametrize("name", sorted(plans.ALL))
def test_stitches_along_the_edges_keep_clear_of_each_other_and_reach_the_edge(name):
    items = [i for i in flat(corner_picture(border_plan(plans.ALL[name]()), style()).draw(0.0, 0.0)) if isinstance(i, Ink)]
    (edge,) = (shapely.LineString(points_of(i)) for i in items if i.name == "edge")
    (ink,) = (i for i in items if i.name == "border stitches")
    lines = [shapely.LineString(points_of(replace(ink, d=f"M{d}"))) for d in ink.d.split("M")[1:]]
    crosses = list(zip(lines[::2], lines[1::2], strict=True))  # a stem and its arms
    assert len(crosses) > 7 and all(stem.distance(edge) < 1.0 for stem, _ in crosses)
    for (_, arms), (stem, others) in itertools.combinations(crosses, 2):
        assert arms.distance(others) > ink.width and arms.distance(stem) > ink.width


@pytest.mark.parametrize("name", sorted(plans.ALL))
@pytest.mark.parametrize("hand", ["right", "left"])
def test_no_line_between_places_runs_through_a_number_and_places_past_the_corner_have_one(name, hand):
    border = border_plan(plans.ALL[name](), hand=hand)
    items = list(flat(corner_picture(border, style()).draw(0.0, 0.0)))
    texts = [t for t in items if not isinstance(t, Ink)]
    lines = [
        shapely.LineString(points_of(replace(ink, d=f"M{d}")))
        for ink in items if isinstance(ink, Ink) and ink.name == "places" for d in ink.d.split("M")[1:]
    ]  # fmt: skip
    assert not [t.text for t in texts for line in lines if line.intersects(shapely.box(*box_of(t)))]
    before, after, _ = chosen(border)
    hidden = 3 if len(before.runs) > 1 else 1  # at most: where the first side's own numbers stand
    bold = [int(t.text) for t in texts if t.weight == "bold"]
    step = 1 if after.facing.last >= after.facing.first else -1
    shown = [after.facing.first + step * k for k in range(hidden, min(7, after.facing.count))]
    assert bold[-len(shown) :] == shown
