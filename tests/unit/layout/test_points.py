"""Points: stitches worked back along chains of their own stand on these chains, square to them.

That a point is drawn as its chains straight out of the row with its stitches on them is common practice, no source.
"""

import itertools
import math

import pytest
from hookfold.charts.drawing import svg
from hookfold.charts.layout.chart.either import chart_document
from hookfold.charts.layout.placing.tops import own_rise
from hookfold.charts.layout.points.spurs import lay_flat, spurs_of, with_room
from hookfold.charts.layout.rounds.lay import lay_rounds
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.setting import Heading, Setting
from svg_ruler import outside, overlaps, read

POINT = "ch 6, sl st in 2nd ch from hook, sc in next ch, hdc in next ch, dc in next ch, tr in next ch"
STAR = f"""Terms: US
Ch 4, join with sl st in first ch to form a ring.
Rnd 1: Ch 3 (counts as dc), 14 dc in ring, join with sl st in top of beg ch-3. (15 dc)
Rnd 2: *{POINT}, sk next 2 dc, sl st in next dc; rep from * 4 times more. Fasten off.
"""
EDGE = f"""Terms: US
Ch 16.
Row 1 (RS): Sc in 2nd ch from hook and in each ch across, turn. (15 sc)
Row 2: *{POINT}, sk next 2 sc, sl st in next sc; rep from * across.
"""


def worked(text):
    found = work_text(text)
    assert not found.problems, found.problems
    return found.fabric


def last_row(fabric):
    if fabric.rows[-1].is_round:
        return lay_rounds(fabric).rings[-1].laid.spots
    return lay_flat(fabric).courses[-1].laid.spots


@pytest.mark.parametrize("text", [STAR, EDGE], ids=["star", "edge"])
def test_each_stitch_of_a_point_stands_square_on_its_own_chain(text):
    fabric = worked(text)
    row, spots = fabric.rows[-1].row, last_row(worked(text))
    spurs = spurs_of(row)
    assert [spur.chain for spur in spurs] == [0, 7, 14, 21, 28]
    for spur in spurs:
        ovals = spots[spur.chain].ovals
        assert len(ovals) == 6
        (x, y), (a, b) = ovals[0][:2], ovals[-1][:2]
        long = math.dist((x, y), (a, b))
        assert all(math.dist(p[:2], q[:2]) == pytest.approx(long / 5, abs=0.01) for p, q in itertools.pairwise(ovals))
        for item in spur.items:
            (u, v), (c, d) = spots[item].head, spots[item].feet[0]
            chain = ovals[row.stitches[item].feet[0].part][:2]
            assert abs((u - chain[0]) * (a - x) + (v - chain[1]) * (b - y)) < 0.03 * long  # square to the chains
            if row.stitches[item].kind != "sl st":
                assert math.dist((u, v), (c, d)) == pytest.approx(own_rise(row.stitches[item]), abs=0.02)


@pytest.mark.parametrize("text", [STAR, EDGE], ids=["star", "edge"])
@pytest.mark.parametrize("hand", ["right", "left"])
def test_points_touch_nothing_on_the_sheet(text, hand):
    document = chart_document(worked(text), Heading("Points", terms="us"), Setting(hand=hand, extent="full"))
    found = read(svg.write(document.sheets[0]))
    assert overlaps(found) == [] and outside(found) == []


def test_the_points_of_a_star_are_alike_turned():
    spots, fabric = last_row(worked(STAR)), worked(STAR)
    tips = [spots[spur.chain].ovals[-1][:2] for spur in spurs_of(fabric.rows[-1].row)]
    far = [math.hypot(*tip) for tip in tips]
    apart = [math.dist(a, b) for a, b in itertools.pairwise([*tips, tips[0]])]
    assert max(far) - min(far) < 0.02 and max(apart) - min(apart) < 0.02


def test_a_fabric_without_points_is_laid_as_it_is():
    loops = worked("Terms: US\nRnd 1: 6 sc in magic ring. (6 sc)\nRnd 2: *Ch 3, sc in next sc; rep from * around.\n")
    assert with_room(loops) is loops


@pytest.mark.parametrize(("chains", "between"), [(4, 2), (5, 3), (6, 4)])
def test_points_on_an_edge_leave_the_stitches_under_them_where_they_are(chains, between):
    """Points stand above the heads beside them: they need room for themselves alone."""
    point = ", ".join(["sc in 2nd ch from hook", "hdc in next ch", "dc in next ch", "tr in next ch", "tr in next ch"][: chains - 1])
    edge = worked(
        "Terms: US\nCh 62.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (61 sc)\nRow 2: Ch 1, sc in first sc, "
        f"*ch {chains}, {point}, skip next {between} sc, sc in next sc; rep from * across.\n"
    )
    below = sorted(s.head[0] for s in lay_flat(edge).courses[0].laid.spots if s.role == "stitch")
    assert [b - a for a, b in itertools.pairwise(below)] == pytest.approx([1.0] * 60, abs=0.01)
    found = read(svg.write(chart_document(edge, Heading("Points"), Setting(extent="full")).sheets[0]))
    assert overlaps(found) == []
