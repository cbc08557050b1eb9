"""Ink behind many stems: broken as by each of them in turn, its points looked at once."""

import math

import pytest
from hookfold.charts.layout.placing import behind
from hookfold.symbols import Mark

FAN = [((0.0, 0.0), (3.0 * math.sin(k / 20), 3.0 * math.cos(k / 20))) for k in range(-12, 13)]
BAR = (("M", ((-2.0, 2.0),)), ("L", ((2.0, 2.2),)))
BOW = (("M", ((-2.0, 1.0),)), ("C", ((-1.0, 2.0), (1.0, 2.0), (2.0, 1.0))))
LOOP = (("M", ((-0.5, 1.5),)), ("L", ((0.5, 1.5),)), ("L", ((0.2, 2.5),)), ("Z", ()))


@pytest.mark.parametrize("path", [BAR, BOW, LOOP])
def test_many_stems_break_a_line_as_one_after_the_other(path):
    once, mark = behind.behind(Mark((path,)), FAN[::6]), Mark((path,))
    for stem in FAN[::6]:
        mark = behind.behind(mark, [stem])
    assert once == mark and len(once.strokes) > 2


def test_a_line_is_looked_at_once_for_all_stems_beside_it(monkeypatch):
    """It runs along all of these stems, near enough to be looked at, and is covered by none."""
    seen, points = [], behind._points
    monkeypatch.setattr(behind, "_points", lambda path: seen.append(path) or points(path))
    corner = (("M", ((0.3, 0.0),)), ("L", ((0.3, 0.3),)), ("L", ((0.0, 0.3),)))
    stems = [((0.0, 0.0), (0.06 + k / 1000, 0.06)) for k in range(20)]
    assert behind.behind(Mark((corner,)), stems) == Mark((corner,)) and len(seen) == 1


@pytest.mark.parametrize("stem", FAN[::3])
def test_what_stays_off_a_stem_is_not_changed_by_it(stem):
    (x, y), (a, b) = stem
    for aside in (0.2, -0.2, 1.0):
        dx, dy = -(b - y) / 3 * aside, (a - x) / 3 * aside
        path = (("M", ((x + dx, y + dy),)), ("L", ((a + dx, b + dy),)))
        assert behind._staysoff_stem(path, stem) and behind.behind(Mark((path,)), [stem]) == Mark((path,))
    along = (("M", ((x, y),)), ("L", ((a, b),)))
    beyond = (("M", ((a * 1.1, b * 1.1),)), ("L", ((a * 1.3, b * 1.3),)))
    assert not behind._staysoff_stem(along, stem) and behind._staysoff_stem(beyond, stem)
