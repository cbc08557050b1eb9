"""A pouch's front is never longer than the back that it lies on, whatever rows each has."""

from hookfold.charts.model.sizing.request import SectionRequest, SectionText, SizingRequest
from hookfold.charts.model.sizing.size import size


def test_the_front_is_no_longer_than_the_back():
    plain, pairs = SectionText(("sc",)), SectionText(("sc", "sc"))
    sections = (
        SectionRequest("front", plain, wanted_mm=100.0, role="part", twin="front"),
        SectionRequest("back", pairs, wanted_mm=100.0, twin="back"),
        SectionRequest("flap", plain, wanted_mm=50.0, role="part", twin="flap"),
    )
    object_mm = {"width": 200.0, "height": 100.0, "flap": 50.0}
    plan = size(SizingRequest("pouch", "width", object_mm, 10.0, 100 / 13, ("sc",), sections))
    assert [s.rows for s in plan.sections][:2] == [13, 14]
    assert plan.sections[0].length_mm <= plan.sections[1].length_mm + 1
