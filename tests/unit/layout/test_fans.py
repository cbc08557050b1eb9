"""Wide fans under arches: the row above pulls them wide, and stands over them."""

import itertools
import math

import cloth
import pytest
from hookfold.charts.layout.placing.fans import WIDEST_GAP, Pull, crowding, fan_items, kept_aside, pulled, pulls_on
from hookfold.charts.layout.placing.laid import lay_fabric
from hookfold.charts.model.cloth.fabric import Row


def fan(tops: int) -> Row:
    """One stitch at each end, and a fan of tr in the middle of 21 chains."""
    h = cloth.Hook(cloth.foundation(21)).start(1).do("sc").sk(9).one(*["tr"] * tops).sk(9).do("sc")
    return h.row()


def arches(base: Row, chains: int) -> Row:
    """A sc in every top of the fan, with chains between."""
    h = cloth.Hook(base).start(1).sk(1)
    for k in range(len(fan_items(base))):
        h.do("sc")
        if k < len(fan_items(base)) - 1:
            h.ch(chains)
    return h.row()


def test_a_fan_of_five_is_wide_and_one_of_four_is_not():
    assert len(fan_items(fan(5))) == 5
    assert fan_items(fan(4)) == set()


def test_only_pairs_with_chains_over_them_are_pulled():
    base = fan(7)
    assert len(pulls_on(base, arches(base, 3))) == 6
    assert pulls_on(base, arches(base, 3))[0][2] == pytest.approx(WIDEST_GAP)
    plain = cloth.Hook(base).start(1).do("sc", 9).row()
    assert pulls_on(base, plain) == () == pulls_on(base, None)


def test_pulled_gaps_are_never_narrower():
    assert pulled([3, 4, 6], [1.0, 2.0], (Pull(3, 4, 1.4), Pull(4, 6, 1.4))) == [1.4, 2.0]


@pytest.mark.parametrize("tops", [5, 7, 9])
def test_no_stitch_on_a_fan_leans_a_long_way(tops):
    """Heads along the fan stand at least a stitch apart, and each sc within 0.8 stitch of the head it goes into."""
    base = fan(tops)
    laid = lay_fabric(cloth.fabric(22, [base, arches(base, 3)], risen=1))
    heads = sorted(s.head[0] for s in laid.courses[0].laid.spots if s.kind == "tr")
    assert all(b - a >= 1.0 for a, b in itertools.pairwise(heads))
    leans = [abs(s.head[0] - s.feet[0][0]) for s in laid.courses[1].laid.spots if s.kind == "sc"]
    assert max(leans) < 0.8


def pairs(repeats: int) -> Row:
    """Pairs of dc with arches of 4 chains between, over a foundation of chains."""
    h = cloth.Hook(cloth.foundation(4 * repeats + 2)).start(1)
    for _ in range(repeats):
        h.do("dc", 2).ch(4).sk(2)
    return h.do("dc", 2).row()


def crowd(base: Row, repeats: int) -> Row:
    """Three sc on every pair, five chains over every arch."""
    h = cloth.Hook(base).start(1)
    for _ in range(repeats):
        h.one("sc", "sc").do("sc").ch(5).sk(1)
    return h.one("sc", "sc").do("sc").row()


def test_an_arch_keeps_aside_from_a_crowd_that_leans_out_over_it():
    base = pairs(3)
    pulls = pulls_on(base, crowd(base, 3))
    assert len(pulls) == 3 and all(p.after_first > 0.0 and p.whole > p.gap for p in pulls)
    assert kept_aside(pulls, pulls[0].before, pulls[0].after) == (pulls[0].after_first, pulls[0].before_last)
    assert kept_aside(pulls, 98, 99) == (0.0, 0.0)


def test_a_fabric_with_crowds_is_laid_wide_enough_for_its_arches():
    base = pairs(3)
    laid = lay_fabric(cloth.fabric(15, [base, crowd(base, 3)], risen=1))
    assert laid.spacing > 1.0
    assert crowding(pulls_on(base, crowd(base, 3)), {k: 0.1 * k for k in range(99)}) < 0.5


def test_a_fan_with_chains_between_falls_away_to_its_sides():
    """Its heads lie on a bow about what it stands in, so that no chain comes to lie on the bar beside it."""
    hook = cloth.Hook(cloth.foundation(21)).start(1).do("sc").sk(9)
    base = hook.do("dc").sk(9).do("sc").row()
    laid = lay_fabric(cloth.fabric(22, [base, open_fan(base)], risen=1))
    spots = laid.courses[1].laid.spots
    heights = [-s.head[1] for s in spots if s.kind == "tr"]
    assert len(heights) == 5 and heights[2] > max(heights[0], heights[4]) + 0.5
    bars = [s.head for s in spots if s.kind == "tr"]
    ovals = [oval[:2] for s in spots if s.role == "chain" for oval in s.ovals]
    assert min(math.dist(bar, oval) for bar in bars for oval in ovals) > 0.5


def open_fan(base: Row) -> Row:
    """A fan of five tr with a chain between each two, in the dc, and sc at the ends."""
    tr = [cloth.into("tr", 2)] * 5
    fan = [made for each in tr for made in (each, cloth.ch(1))][:-1]
    return Row((cloth.start(1), cloth.into("sc", 3), *fan, cloth.into("sc", 1)), takes=3)
