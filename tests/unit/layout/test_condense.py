"""Folding rows and cutting columns."""

import itertools
from dataclasses import replace

import cloth
import pytest
from hookfold.charts.layout.chart.condense import OPEN, Fold, cut_columns, find_period, fold_rows, whole_width
from hookfold.charts.layout.placing.laid import lay_fabric
from hookfold.charts.model.cloth.fabric import Fabric, Row, Stitch, WorkedRow


def named(pattern: str) -> Fabric:
    """A fabric whose rows are letters: equal letters are the same row."""
    rows = {letter: Row((Stitch("sc"),)) for letter in set(pattern)}
    worked = tuple(WorkedRow(f"Row {i + 1}", i + 1, rows[c]) for i, c in enumerate(pattern))
    return Fabric("chain", cloth.foundation(1), worked, 1)


@pytest.mark.parametrize(
    ("pattern", "folds"),
    [
        ("abcd", ()),
        ("abb", ()),
        ("abbb", (Fold(1, 1, 3),)),
        ("ababab", (Fold(0, 2, 3),)),
        ("xababy", (Fold(1, 2, 2),)),
        ("abcabcabcdd", (Fold(0, 3, 3),)),
        ("aabaab", (Fold(0, 3, 2),)),
    ],
)
def test_blocks_that_follow_themselves_are_folded(pattern, folds):
    folded = fold_rows(named(pattern))
    assert folded.folds == folds
    shown = [pattern[k] for k in folded.origin]
    back = []
    k = 0
    while k < len(shown):
        fold = next((f for f in folded.folds if f.first == k), None)
        size = fold.rows if fold else 1
        back += shown[k : k + size] * (fold.times if fold else 1)
        k += size
    assert "".join(back) == pattern


@pytest.mark.parametrize(
    ("fabric", "stitches"),
    [
        (cloth.each("sc", 30, 3, 1, False), 1),
        (cloth.shells(8, 4), 6),
        (cloth.v_stitches(9, 4), 3),
        (cloth.mesh(9, 4), 3),
        (cloth.trellis(9, 4), 4),
        (cloth.bobbles(9, 4), 4),
    ],
)
def test_the_least_period_is_found(fabric, stitches):
    period = find_period(lay_fabric(fabric))
    assert period is not None and period.stitches == stitches


def test_shaped_work_has_no_period():
    assert find_period(lay_fabric(cloth.triangle(5, 8, 1))) is None


def test_a_stated_repeat_is_kept_whole():
    period = find_period(lay_fabric(cloth.each("sc", 40, 3, 1, False)), stated=4)
    assert period is not None and period.stitches == 4
    assert whole_width(4, 6, 10.0) == 4


@pytest.mark.parametrize("fabric", [cloth.each("dc", 31, 3, 3, True), cloth.bobbles(9, 4), cloth.mesh(11, 4)])
def test_what_is_left_is_a_shorter_fabric(fabric):
    """After the cut the heads of every row keep the gaps that they had, but where the cut stands open."""
    laid = lay_fabric(fabric)
    cut = cut_columns(laid)
    assert cut.removed > 0
    for before, after in zip(laid.courses, cut.laid.courses, strict=True):
        old = sorted(s.head[0] for s in before.laid.spots)
        new = sorted(s.head[0] for s in after.laid.spots)
        widest = max(b - a for a, b in itertools.pairwise(old))
        assert max(b - a for a, b in itertools.pairwise(new)) <= widest + cut.opened + 0.2
        assert new[-1] - new[0] == pytest.approx(old[-1] - old[0] - cut.removed + cut.opened, abs=0.01)


@pytest.mark.parametrize("fabric", [cloth.each("hdc", 30, 3, 2, False), cloth.bobbles(9, 4), cloth.mesh(11, 4)])
def test_a_cut_stands_open_where_a_line_passes_between_the_stitches(fabric):
    """Everything on the left ends before everything on the right begins, in every row."""
    cut = cut_columns(lay_fabric(fabric))
    assert cut.opened == OPEN
    for row in (cut.laid.foundation, *(c.laid for c in cut.laid.courses)):
        left = [x for s in row.spots if s.head[0] < cut.at for x, _ in (s.head, *s.feet)]
        right = [x for s in row.spots if s.head[0] >= cut.at for x, _ in (s.head, *s.feet)]
        assert max(left) < cut.at and min(right) > cut.at + OPEN


@pytest.mark.parametrize("fabric", [cloth.shells(9, 5), cloth.trellis(11, 4)])
def test_no_cut_is_made_where_rows_reach_over_each_other(fabric):
    cut = cut_columns(lay_fabric(fabric))
    assert (cut.removed, cut.opened) == (0.0, 0.0) and cut.period is not None


@pytest.mark.parametrize("fabric", [cloth.each("dc", 31, 3, 3, True), cloth.bobbles(9, 4), cloth.mesh(11, 4)])
def test_the_kept_repeats_are_counted_from_beside_an_open_cut(fabric):
    """A repeat at the middle of what is kept is not cut through."""
    cut = cut_columns(lay_fabric(fabric))
    left = cut.period.start + cut.period.times // 2 * cut.period.width
    right = left + cut.period.width
    assert right <= cut.at + 1e-6 or left >= cut.at + cut.opened - 1e-6


def test_a_cut_is_not_made_through_a_stem_that_winds_aside():
    """A stem that leans over the way between two stitches closes it: the cut is made at another."""
    laid = lay_fabric(cloth.each("hdc", 40, 3, 2, False))
    at, wide = cut_columns(laid, 4).at, 4.0

    def wound(spot):
        aside = abs((spot.head[0] - at + wide / 2) % wide - wide / 2) < 0.6 and spot.role == "stitch"
        return replace(spot, route=(spot.head, (spot.head[0] - 0.6, 0.0), (spot.head[0] + 0.6, 0.5))) if aside else spot

    rows = {id(c.laid): replace(c.laid, spots=tuple(map(wound, c.laid.spots))) for c in laid.courses}
    cut = cut_columns(replace(laid, courses=tuple(replace(c, laid=rows[id(c.laid)]) for c in laid.courses)), 4)
    assert cut.opened == OPEN and abs(cut.at - at) > 0.9
