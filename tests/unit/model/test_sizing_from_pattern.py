"""From a pattern file to what is asked of sizing."""

from pathlib import Path

import pytest
from hookfold.charts.errors import PatternError
from hookfold.charts.model.sizing.from_pattern import request_of, requests_of, roles
from hookfold.charts.model.sizing.request import SectionText
from hookfold.charts.model.sizing.size import size
from hookfold.charts.pattern.file.read import read_pattern

SOUND = (Path(__file__).parents[2] / "invalid" / "sound.toml.txt").read_text("utf-8")
FLAP = SectionText(("hdc",), chain_plus=2)
BODY = SectionText(("hdc", "sc"), (False, True), ("RS", "WS"), 4, 3, 7, 2)
TEXTS = (FLAP, BODY, FLAP)


def test_a_request():
    request = request_of(read_pattern(SOUND), TEXTS)
    assert (request.multiple_of, request.multiple_plus, request.chain_plus, request.least) == (4, 3, 2, 7)
    assert [s.role for s in request.sections] == ["part", "body", "part"]
    assert request.sections[0].twin == request.sections[2].twin != ""
    assert request.border.row_mm == pytest.approx(0.9 * 100 / 17.5)
    assert any("border round" in says and "an estimate" in says for says in request.estimates)
    assert any("front flap" in says and "taller or shorter" in says for says in request.estimates)


def test_measured_rows_are_no_estimates():
    text = SOUND.replace("rows = 15", "rows = 15\nborder_rows = 18")
    text = text.replace('length = "flap"', 'length = "flap"\ngauge_rows = 12')
    request = request_of(read_pattern(text), TEXTS)
    assert request.estimates == ()
    assert request.sections[0].row_mm == pytest.approx(100 / 12)


def test_without_a_row_gauge_heights_are_estimates():
    request = request_of(read_pattern(SOUND.replace("rows = 15\n", "")), TEXTS)
    assert request.row_mm == pytest.approx(100 / 17.5 * (1.3 + 0.9) / 2)
    assert "estimate" in request.estimates[0]


def test_multiples_that_cannot_meet_are_a_problem_at_the_section():
    with pytest.raises(PatternError) as caught:
        request_of(read_pattern(SOUND, "x.toml"), (SectionText(("hdc",), multiple_of=2), BODY, FLAP))
    problem = caught.value.problems[0]
    assert problem.where == 'section "body"' and "multiple of 4 plus 3" in problem.says and problem.line == 34


def test_a_size_of_several():
    pattern = read_pattern(SOUND)
    found = requests_of(pattern, TEXTS)
    assert [s.name for s in found] == ["A6"]
    with pytest.raises(PatternError) as caught:
        size(found[0].request)
    assert pattern.line(caught.value.problems[0].line).startswith("A6 =")
    loose = read_pattern(SOUND.replace('stretch = ["0 %", "6 %"]', ""))
    plan = size(requests_of(loose, TEXTS)[0].request)
    assert plan.object_mm["wrap"] == 218 and plan.stitches < size(request_of(pattern, TEXTS)).stitches


def test_a_fit_problem_points_at_the_stretch():
    text = SOUND.replace('["0 %", "6 %"]', '["2 %", "2.2 %"]')
    pattern = read_pattern(text)
    with pytest.raises(PatternError) as caught:
        size(request_of(pattern, TEXTS))
    assert pattern.line(caught.value.problems[0].line).startswith("stretch")


def test_roles_of_a_panel_and_of_a_book_worked_round():
    panel = SOUND.replace('kind   = "book"', 'kind = "panel"')
    assert roles(read_pattern(panel)) == ("part", "body", "part")
    plain = panel.replace('length = "flap"', "rows = 4")
    assert roles(read_pattern(plain)) == ("body", "body", "body")
    round_book = SOUND.replace('chain_along = "height"', 'chain_along = "wrap"').replace(
        'length = "flap"', "rows = 2"
    )
    assert roles(read_pattern(round_book.replace('length  = "wrap"', 'length = "rest"'))) == (
        "body",
        "rest",
        "body",
    )


def test_a_pouch_has_a_front_as_long_as_its_back():
    text = (
        SOUND.replace('kind   = "book"', 'kind = "pouch"')
        .replace('wrap   = "308 mm"', 'width = "120 mm"')
        .replace('chain_along = "height"', 'chain_along = "width"')
        .replace('A6 = { size = "A6", spine = "8 mm", flap = "50 mm" }', "")
        .replace('name   = "front flap"\nlength = "flap"', 'name   = "front"\nlength = "height"')
        .replace('length  = "wrap"', 'length = "height"')
    )
    body = "Row 1 (RS): Ch 2, turn. Hdc in each st across."
    pattern = read_pattern(text.replace("Row 1: Ch 2, turn. Hdc in each st across.", body))
    plan = size(request_of(pattern, (FLAP, FLAP, FLAP)))
    assert plan.sections[0].length_mm == pytest.approx(
        plan.sections[1].length_mm, abs=plan.sections[0].row_heights_mm[0]
    )
