"""The corner in symbols: stitches stand where the spacing puts them, and the corner holds what it should."""

import re

import folding_plans as plans
import pytest
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
