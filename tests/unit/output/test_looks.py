"""Steps of a page's rows: each once, and of those that lead to a glyph the latest are tried first."""

from hookfold.charts.output.pages.looks import _TRIED, Looks


def test_a_step_has_one_place_and_the_latest_is_tried_first():
    looks = Looks()
    steps = [(7, 0, far, 0) for far in range(3)] + [(8, 0, 0, 0)]
    assert [looks.step(step) for step in steps] == [0, 1, 2, 3] and looks.steps == steps
    assert looks.tried(7) == [2, 1, 0] and looks.tried(8) == [3] and looks.tried(9) == []
    assert looks.step(steps[0]) == 0 and looks.steps == steps
    assert looks.tried(7) == [0, 2, 1]


def test_only_so_many_steps_are_tried():
    looks = Looks()
    for far in range(_TRIED + 5):
        looks.step((7, 0, far, 0))
    assert looks.tried(7) == list(range(_TRIED + 4, 4, -1))
