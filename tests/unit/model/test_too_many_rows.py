"""What is larger than can be worked, or all border."""

import pytest
from hookfold.charts.errors import PatternError
from hookfold.charts.model.sizing.request import BorderRequest, SectionRequest, SectionText, SizingRequest
from hookfold.charts.model.sizing.size import size


def panel(height_mm=300.0, row_mm=10.0, border=None, stretch=None):
    object_mm = {"width": 200.0, "height": height_mm}
    body = SectionRequest("mat", SectionText(("sc",)), wanted_mm=height_mm)
    return SizingRequest("panel", "width", object_mm, 10.0, row_mm, ("sc",), (body,), border=border, stretch=stretch)


def test_more_rows_than_are_worked_are_a_limit():
    with pytest.raises(PatternError) as found:
        size(panel(9900.0, 1.0))
    (problem,) = found.value.problems
    assert problem.kind == "limit" and "5,000 rows" in problem.says and '"mat"' in problem.where


def test_a_border_wider_than_the_object_is_told_as_such():
    with pytest.raises(PatternError) as found:
        size(panel(border=BorderRequest(5.0, 160.0), stretch=(0.0, 0.05)))
    assert [p.says for p in found.value.problems] == [
        "the border alone takes 320.0 mm of 200.0 mm.", "the border alone takes 320.0 mm of 300.0 mm.",
    ]  # fmt: skip
