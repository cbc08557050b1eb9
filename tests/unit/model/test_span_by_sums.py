"""A direction of a piece against its object, by sums of a fraction: what is just inside a range, and what is just out."""

import pytest
from hookfold.charts.model.sizing.advice import absurd, absurd_problem
from hookfold.charts.model.sizing.from_pattern import request_of
from hookfold.charts.model.sizing.request import SectionText
from hookfold.charts.model.sizing.span import CLOSE, FIRM_STRETCH, Span, moved
from hookfold.charts.pattern.file.read import read_pattern
from section_patterns import HEAD

#: A hundred mm with a border of 6 in it and flaps of 20 beside: 134 mm fit without stretch.
SPAN = Span("wrap", 100.0, 6.0, 20.0, (-0.05, 0.25))


def test_what_is_worked_and_what_it_stretches_are_each_others_inverse():
    assert SPAN.wanted_mm == 134.0 and SPAN.stretch_of(134.0) == 0.0
    assert SPAN.stretch_of(114.0) == pytest.approx(0.25) and SPAN.stretch_of(159.0) == pytest.approx(-0.2)
    assert SPAN.stretch_of(114.0, 10.0) == pytest.approx(0.0) and SPAN.stretch_of(34.0) == float("inf") == SPAN.stretch_of(20.0)
    for stretch in (-0.2, -0.01, 0.0, 0.07, 0.4):
        assert SPAN.stretch_of(100.0 / (1 + stretch) + 34.0) == pytest.approx(stretch)


@pytest.mark.parametrize("slack", [0.0, 0.02])
def test_the_bounds_are_the_lengths_at_which_a_stretch_is_just_inside(slack):
    span = Span("wrap", 100.0, 6.0, 20.0, (-0.05, 0.25), slack=slack)
    short, long = span.bounds_mm
    assert short < span.wanted_mm < long
    assert span.stretch_of(short) == pytest.approx(0.25 + CLOSE) and span.stretch_of(long) == pytest.approx(-0.05 - slack - CLOSE)
    for inside, outside in ((short + 0.01, short - 0.01), (long - 0.01, long + 0.01)):
        assert span.holds(span.stretch_of(inside)) and not span.holds(span.stretch_of(outside))
        assert span.off(span.stretch_of(inside)) == 0.0 < span.off(span.stretch_of(outside)) < 0.002
    assert span.off(0.45) == pytest.approx(0.2) and span.off(-0.35) == pytest.approx(0.3 - slack)
    assert span.tight_mm == SPAN.bounds_mm[1] <= long
    assert span.stretch_of(span.firm_mm) == pytest.approx(FIRM_STRETCH)


def test_without_a_range_everything_holds():
    free = Span("height", 100.0)
    assert free.bounds_mm == (0.0, float("inf")) and free.firm_mm == 0.0
    assert free.holds(3.0) and free.holds(-0.9) and free.off(3.0) == 0.0


def test_what_stretches_is_told_as_what_it_does():
    assert moved(0.051).startswith("stretches 5.1") and moved(-0.051).startswith("is 5.1") and moved(0.0) == "fits without stretch"


def test_a_third_is_the_most_that_a_piece_may_be_off_either_way():
    """A piece of 150 for 100 is shrunk by a third, one of 66.7 stretched by a half: both are the last that count."""
    for worked, no_answer in ((151.0, True), (149.0, False), (66.0, True), (67.0, False), (100.0, False)):
        assert absurd(100.0 / worked - 1) == no_answer, worked


TEXT = HEAD + '[[section]]\nname = "mat"\nlength = "height"\nwork = "Row 1: Ch 1, turn. Sc in each st across."\n'


@pytest.mark.parametrize(("worked", "says"), [(250.0, "150 % larger"), (40.0, "60 % smaller"), (200.0, "100 % larger")])
def test_how_far_off_is_told_by_the_piece_and_not_by_its_stretch(worked, says):
    request = request_of(read_pattern(TEXT), [SectionText(("sc",), chain_plus=1)])
    problem = absurd_problem(request, Span("width", 100.0), 100.0 / worked - 1)
    assert f"makes it {says} than asked for" in problem.says and problem.remedy
    assert "0 % smaller" in absurd_problem(request, Span("width", 100.0), -1.0).says
