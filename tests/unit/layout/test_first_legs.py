"""A beginning chain that is the first leg of a cluster is drawn as chains beside its other legs, and said in the key."""

from __future__ import annotations

import math

import pytest
from hookfold.charts.layout.chart.key import entries
from hookfold.charts.layout.placing.clearing import ink_points
from hookfold.charts.layout.placing.ink import mark_of
from hookfold.charts.layout.placing.placed import Spot
from hookfold.charts.layout.rounds.lay import lay_rounds
from hookfold.charts.model.rows.work import work_text
from hookfold.symbols.ink import Mark
from hookfold.symbols.pen import extent


def points(stroke):
    return ink_points(Mark((stroke,)))


def spot(feet):
    return Spot(0, "dc3tog", "stitch", (0.0, -2.0), feet, "top", 3, 3)


@pytest.mark.parametrize("feet", [((-1.0, 0.0), (0.0, 0.0), (1.0, 0.0)), ((-0.75, 0.0), (0.0, 0.0), (0.0, 0.0))])
def test_three_ovals_and_one_leg_less(feet):
    drawn, rest = mark_of(spot(feet)), mark_of(Spot(0, "dc2tog", "stitch", (0.0, -2.0), feet[1:], "top", 2))
    assert len(drawn.strokes) == len(rest.strokes) + 3
    assert drawn.strokes[3:] == rest.strokes


def test_the_lowest_oval_stands_over_the_first_foot():
    lowest = mark_of(spot(((-1.0, 0.0), (0.0, 0.0), (1.0, 0.0)))).strokes[0]
    left, top, right, bottom = extent(Mark((lowest,)))
    assert left < -0.8 < right and top < -0.1 < bottom + 0.2


RING = """Ch 6, join with sl st to form a ring.
Rnd 1: Ch 2, dc2tog in ring, *ch 3, dc3tog in ring; rep from * 4 more times, ch 3, join with sl st in first dc2tog.
Rnd 2: Sl st in next ch-3 sp, ch 1, 4 sc in same sp, *4 sc in next ch-3 sp; rep from * 4 more times, join with sl st in first sc.
"""


def test_the_chain_stands_beside_its_cluster_about_a_ring_too():
    """There the way along the round is short: ovals a share of it aside lay on the cluster's legs."""
    first = next(s for s in lay_rounds(work_text(RING).fabric).rings[0].laid.spots if s.role == "stitch")
    strokes = mark_of(first).strokes
    ovals, legs = strokes[: first.chains], strokes[first.chains :]
    assert first.chains == 2
    apart = min(math.dist(p, q) for oval in ovals for p in points(oval) for leg in legs for q in points(leg))
    assert apart > 0.15


def test_the_key_shows_a_cluster_in_a_ring_closed_at_its_foot():
    spots = lay_rounds(work_text(RING).fabric).rings[0].laid.spots
    (entry,) = (each for each in entries(spots, "US", {}) if each.short == "dc3tog")
    assert (entry.short, entry.name) == ("dc3tog", "double crochet 3 together, all in one place")
    assert any(abs(x) < 0.05 for x, y in (points(s)[0] for s in entry.mark.strokes) if abs(y) < 0.2)


def test_the_key_shows_a_cluster_begun_with_chains_as_it_is_drawn():
    """A leg less than the others, which a reader would look for in vain."""
    spots = lay_rounds(work_text(RING).fabric).rings[0].laid.spots
    (entry,) = (each for each in entries(spots, "UK", {}) if each.short == "tr3tog begun")
    (first,) = (s for s in spots if s.role == "stitch" and s.chains)
    assert entry.name == "ch 2 is its first leg"
    assert len(entry.mark.strokes) == len(mark_of(first).strokes)


LOOPED = """Ch 5, join with sl st to form a ring.
Rnd 1: Ch 3, dc2tog in ring (counts as dc3tog), ch 3, *dc3tog in ring, ch 3; rep from * 4 more times, join with sl st in top of first cluster.
Rnd 2: Sl st in next ch-3 sp, ch 3, dc2tog in same sp (counts as dc3tog), ch 3, dc3tog in same sp, ch 3, *(dc3tog, ch 3, dc3tog) in next \
ch-3 sp, ch 3; rep from * around, join with sl st in top of first cluster.
"""


@pytest.mark.parametrize("text", [RING, LOOPED])
def test_the_chain_lies_in_no_arch_and_in_no_other_stitch(text):
    """Neither in the last loop of its own round nor in the loop that it stands on: the sheet shows every chain apart."""
    laid = lay_rounds(work_text(text).fabric)
    spots = [(k, s) for k, ring in enumerate(laid.rings) for s in ring.laid.spots]
    for k, first in spots:
        if not first.is_beside_chain:
            continue
        others = [p for j, s in spots if (j, s.item) != (k, first.item) for p in points_of(s)]
        others += [p for s in laid.centre.spots for p in points_of(s)]
        ovals = [p for oval in mark_of(first).strokes[: first.chains] for p in points(oval)]
        assert min(math.dist(p, q) for p in ovals for q in others) > 0.11
        legs = [p for leg in mark_of(first).strokes[first.chains :] for p in points(leg)]
        assert min(math.dist(p, q) for p in ovals for q in legs) > 0.11


def points_of(other):
    return ink_points(mark_of(other))
