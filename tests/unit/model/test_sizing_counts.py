"""Sizing by example: the printed sums of a hand, the border's share, the flaps, the sides, the advice."""

from dataclasses import replace

import pytest
from hookfold.charts.errors import PatternError
from hookfold.charts.model.sizing.request import BorderRequest, SectionRequest, SectionText, SizingRequest
from hookfold.charts.model.sizing.size import size

HDC = SectionText(("hdc",), chain_plus=2)
BOBBLES = SectionText(
    ("hdc", "sc", "hdc", "sc"), (False, True, False, True), ("RS", "WS", "", ""), 4, 3, 7, 2
)
BOOK = {"height": 250.0, "wrap": 385.0, "flap": 65.0}


def book(body=BOBBLES, flap=HDC, stretch=(0.0, 0.06), border=True, **changes):
    """A book's cover at 17.5 sts and 14 rows over 10 cm."""
    part = SectionRequest("front flap", flap, wanted_mm=65, role="part", twin="flap")
    sections = (part, SectionRequest("body", body, wanted_mm=385, as_began=True), part)
    fields = {
        "kind": "book", "chain_along": "height", "object_mm": BOOK, "stitch_mm": 100 / 17.5, "row_mm": 100 / 14,
        "gauge_kinds": body.row_kinds, "sections": sections, "multiple_of": 4, "multiple_plus": 3, "chain_plus": 2,
        "border": BorderRequest(6.25, 5.6, joins=True) if border else None, "stretch": stretch,
    }  # fmt: skip
    return SizingRequest(**{**fields, **changes})


def test_a_book():
    plan = size(book())
    assert (plan.stitches, plan.foundation) == (43, 45)
    assert [(s.name, s.first_row, s.rows) for s in plan.sections] == [
        ("front flap", 1, 8), ("body", 9, 53), ("front flap", 62, 8),
    ]  # fmt: skip
    assert plan.between_mm["height"] == pytest.approx(43 * 100 / 17.5)
    assert plan.over_all_mm["height"] == pytest.approx(43 * 100 / 17.5 + 11.2)
    assert plan.stretch["height"] == pytest.approx(250 / (43 * 100 / 17.5) - 1)


def test_a_border_gives_a_book_no_room():
    """It stands outside the joins: the same stitches and rows with a border of any thickness, or with none."""
    bare = size(book(border=False))
    for rounds in (1, 3, 8):
        plan = size(replace(book(), border=BorderRequest(6.25, 5.6, rounds, joins=True)))
        assert (plan.stitches, plan.rows, plan.stretch) == (bare.stitches, bare.rows, bare.stretch)
        assert plan.over_all_mm["height"] == pytest.approx(plan.between_mm["height"] + 2 * rounds * 5.6)
        assert plan.over_all_mm["wrap"] == pytest.approx(plan.between_mm["wrap"] + 2 * rounds * 5.6)


def test_a_border_is_a_part_of_a_panel():
    """What holds nothing is as large as asked for with its border."""
    body = SectionRequest("mat", SectionText(("sc",)), wanted_mm=200 - 12, role="body")
    mat = SizingRequest("panel", "width", {"width": 220, "height": 200}, 5, 4, ("sc",), (body,),
                        border=BorderRequest(5, 6))  # fmt: skip
    plan = size(mat)
    assert (plan.stitches, plan.rows) == (42, 47)
    assert plan.over_all_mm == pytest.approx({"width": 42 * 5 + 12, "height": 47 * 4 + 12})
    assert plan.flat_mm == pytest.approx({"across": 42 * 5 + 12, "up": 47 * 4 + 12})


def test_rows_are_as_tall_as_their_stitch():
    """The body's mean is the gauge's row; hdc to sc is 1.3 to 0.9, an estimate."""
    plan = size(book())
    tall, low = plan.sections[1].row_heights_mm[:2]
    assert tall / low == pytest.approx(1.3 / 0.9)
    assert (tall + low) / 2 == pytest.approx(100 / 14)
    assert plan.sections[0].row_heights_mm[0] == tall


def test_raised_rows_fall_on_the_wrong_side():
    plan = size(book())
    body = plan.sections[1]
    raised = [body.first_row + i for i in range(body.rows) if i % 4 in (1, 3)]
    assert all(number % 2 == 0 for number in raised)


def test_both_flaps_alike():
    plan = size(book(flap=SectionText(("sc",)), stretch=None))
    assert plan.sections[0].rows == plan.sections[2].rows


def test_a_repeat_of_an_odd_number_of_raised_rows_cannot_keep_to_one_side():
    body = SectionText(("hdc", "sc", "hdc"), (False, True, False))
    with pytest.raises(PatternError) as caught:
        size(book(body=body, stretch=None))
    problem = caught.value.problems[0]
    assert (
        problem.where == 'section "body"' and "3 rows" in problem.says and 'texture = "any"' in problem.remedy
    )


def test_fixed_rows_that_turn_the_body_over_are_a_problem():
    part = SectionRequest("front flap", HDC, rows=9, role="part")
    sections = (part, SectionRequest("body", BOBBLES, wanted_mm=385), part)
    with pytest.raises(PatternError) as caught:
        size(book(sections=sections))
    assert "row 4 (raised stitches, for a WS row) is row 13 of the piece" in caught.value.problems[0].says
    assert "one row more or fewer" in caught.value.problems[0].remedy


def test_a_row_that_was_marked_is_never_refused_only_remarked_on():
    """Nine rows of flap, so the body begins on row 10, a wrong-side row; its first row is marked RS."""
    marked = SectionText(("sc", "sc"), (), ("RS", "WS"))
    part = SectionRequest("front flap", HDC, rows=9, role="part")
    plan = size(book(sections=(part, SectionRequest("body", marked, wanted_mm=385), part)))
    assert plan.remarks == ('row 1 of "body", marked RS, comes to be a wrong-side row of the piece.',)
    raised = SectionText(("sc", "sc"), (False, True), ("", "RS"))
    assert size(book(body=raised, stretch=None)).remarks == ()


def test_marks_that_disagree_are_remarked_on():
    body = SectionText(("sc", "sc", "sc", "sc"), (), ("RS", "", "WS", ""))
    (said,) = size(book(body=body, stretch=None)).remarks
    assert 'row 3 of "body", marked WS, comes to be a right-side row' in said or "row 1" in said


def test_popcorns_are_liked_on_the_right_side():
    """They stand out towards the worker (Crochet Spot, "How to Crochet: Popcorn Stitch")."""
    body = SectionText(("sc", "sc"), (), near=(True, False))
    plan = size(book(body=body, stretch=None))
    assert plan.sections[1].first_row % 2 == 1 and plan.remarks == ()
    fixed = SectionRequest("front flap", HDC, rows=9, role="part")
    kept = size(book(sections=(fixed, SectionRequest("body", body, wanted_mm=385), fixed)))
    assert kept.remarks == (
        'row 1 of "body", of stitches that stand out towards you, comes to be a wrong-side row of the piece.',
    )


def test_bobbles_in_the_first_row_of_the_piece():
    body = SectionRequest("body", SectionText(("sc", "sc"), (True, False)), wanted_mm=200)
    request = SizingRequest("panel", "width", {"width": 100, "height": 200}, 5, 5, ("sc",), (body,))
    with pytest.raises(PatternError) as caught:
        size(request)
    assert "begin with a plain row" in caught.value.problems[0].remedy
    marked = SectionText(("sc", "sc"), (True, False), ("WS", ""))
    plan = size(SizingRequest("panel", "width", {"width": 100, "height": 200}, 5, 5, ("sc",),
                              (SectionRequest("body", marked, wanted_mm=200),)))  # fmt: skip
    assert plan.rows == 40


def test_no_fit_says_both_neighbours_and_the_gauge_that_would_make_each_fit():
    with pytest.raises(PatternError) as caught:
        size(book(stretch=(0.02, 0.025)))
    first = caught.value.problems[0]
    assert (first.kind, first.where) == ("fit", "Fit along the height")
    assert "43 sts: it stretches 1.7 %" in first.says and "47 sts" in first.says
    gauges = first.remedy.split("43 sts fit at ")[1].split(" stitches")[0].split(" to ")
    assert all(float(gauge) > 17.5 for gauge in gauges)


@pytest.mark.parametrize("count", [43, 47])
def test_the_advised_gauge_does_fit(count):
    """Worked with the advised gauge, the count is the chosen one and fits."""
    with pytest.raises(PatternError) as caught:
        size(book(stretch=(0.02, 0.025)))
    advice = caught.value.problems[0].remedy.split(f"{count} sts fit at ")[1].split(" stitches")[0]
    for gauge in map(float, advice.split(" to ")):
        try:
            assert size(book(stretch=(0.02, 0.025), stitch_mm=100 / gauge)).stitches == count
        except PatternError as found:
            assert [p.where for p in found.problems] == ["Fit along the wrap"]


def test_chain_along_the_wrap_has_the_flaps_in_every_row():
    main = SectionRequest("cover", SectionText(("sc",)), wanted_mm=250, as_began=False)
    plan = size(book(chain_along="wrap", sections=(main,), multiple_of=1, multiple_plus=0, chain_plus=1))
    flap_mm = plan.flap_stitches * plan.stitch_mm
    assert flap_mm == pytest.approx(65, abs=2.5 * plan.stitch_mm)
    assert plan.between_mm["wrap"] == pytest.approx(plan.finished_mm["across"] - 2 * flap_mm)
    assert 0 <= plan.stretch["wrap"] <= 0.06


def test_rest_takes_what_the_edges_leave():
    edge = SectionRequest("edge", SectionText(("sc",)), rows=2)
    rest = SectionRequest("body", SectionText(("sc", "sc")), role="rest")
    panel = {"width": 428.0, "height": 210.0}
    request = SizingRequest("panel", "width", panel, 100 / 18, 100 / 21, ("sc",), (edge, rest, edge), 4, 1, 1)
    plan = size(request)
    assert (plan.stitches, plan.rows, plan.sections[1].rows) == (77, 44, 40)
    assert {(o.count, o.repeats) for o in plan.across_options} >= {(77, 19), (81, 20)}
    assert {(o.count, o.repeats) for o in plan.up_options} >= {(40, 20), (42, 21)}


def test_stripes_end_with_the_colour_they_began_with():
    section = SectionRequest(
        "body", SectionText(("sc",)), wanted_mm=300, stripes=("A", "A", "B", "B"), as_began=True
    )
    panel = {"width": 200.0, "height": 300.0}
    plan = size(SizingRequest("panel", "width", panel, 5, 5, ("sc",), (section,), stretch=(-0.04, 0.04)))
    colours = plan.sections[0].colours
    assert len(colours) % 4 == 2 and colours[:2] == colours[-2:] == ("A", "A")
    assert abs(len(colours) - 60) <= 2


def test_a_lead_is_worked_once():
    text = SectionText(("sc", "dc", "sc"))
    section = SectionRequest("body", text, wanted_mm=200, lead=1)
    plan = size(
        SizingRequest("panel", "width", {"width": 100, "height": 200}, 5, 10, ("dc", "sc"), (section,))
    )
    kinds = plan.sections[0].row_kinds
    assert kinds[0] == "sc" and kinds[1:3] == ("dc", "sc") and len(kinds) % 2 == 1


def test_a_section_may_have_a_row_gauge_of_its_own():
    section = SectionRequest("body", SectionText(("dc",)), wanted_mm=200, row_mm=20)
    plan = size(SizingRequest("panel", "width", {"width": 100, "height": 200}, 5, 8, ("sc",), (section,)))
    assert plan.rows == 10 and plan.sections[0].length_mm == pytest.approx(200)


def test_the_smallest_count_is_at_least_one_repeat():
    section = SectionRequest("body", SectionText(("sc",) * 4), wanted_mm=16)
    plan = size(
        SizingRequest(
            "panel", "width", {"width": 30, "height": 16}, 5, 5, ("sc",), (section,), 6, 1, 1, least=7
        )
    )
    assert (plan.stitches, plan.rows) == (7, 4)


def test_an_absurd_size_is_a_problem():
    """One repeat of 35 mm for a mat of 1 mm: no answer, though no range of stretch is given."""
    section = SectionRequest("body", SectionText(("sc",) * 4), wanted_mm=1)
    with pytest.raises(PatternError) as caught:
        size(SizingRequest("panel", "width", {"width": 1, "height": 1}, 5, 5, ("sc",), (section,), 6, 1, 1, least=7))
    assert [p.where for p in caught.value.problems] == ["Fit along the width", "Fit along the height"]
    assert "larger than asked for" in caught.value.problems[0].says


def test_what_the_designer_marked_is_never_refused():
    """Bobbles on a row marked RS are worked there; unmarked ones keep to wrong-side rows (common practice)."""
    for sides, rows in ((("", "RS"), 8), (("RS", "WS"), 8)):
        text = SectionText(("hdc", "sc"), (False, True), sides)
        edge = SectionRequest("edge", SectionText(("sc",)), rows=1)
        body = SectionRequest("body", text, wanted_mm=40)
        lead = (edge,) if sides[1] == "RS" else ()
        plan = size(SizingRequest("panel", "width", {"width": 100, "height": 40 + 5 * len(lead)}, 5, 5, ("hdc", "sc"),
                                  (*lead, body)))  # fmt: skip
        assert plan.sections[-1].rows == rows
