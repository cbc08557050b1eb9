"""Lines that words keep clear of."""

import pytest
from hookfold.charts.folding.views import Barrier, clipped

LINES = (((0.0, 0.0), (100.0, 0.0), (100.0, 60.0)), ((20.0, 20.0), (40.0, 40.0)))


@pytest.mark.parametrize(
    ("box", "crossed"),
    [
        ((10.0, -5.0, 20.0, 5.0), True),
        ((10.0, 5.0, 20.0, 15.0), False),
        ((25.0, 10.0, 35.0, 50.0), True),
        ((10.0, 0.0, 20.0, 5.0), True),
        ((40.0, 40.0, 50.0, 50.0), False),
        ((95.0, 20.0, 105.0, 30.0), True),
        ((200.0, 0.0, 210.0, 9.0), False),
    ],
    ids=["across it", "beside it", "aslant", "along its side", "at its corner", "upright", "far off"],
)
def test_a_line_runs_through_a_rectangle_if_more_of_it_than_a_point_lies_there(box, crossed):
    assert Barrier(LINES).crosses(box) == crossed == bool(clipped(LINES, box))


def test_without_lines_nothing_is_crossed():
    assert not Barrier(()).crosses((0.0, 0.0, 1.0, 1.0))
