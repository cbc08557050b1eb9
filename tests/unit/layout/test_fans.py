"""Wide fans under arches: the row above pulls them wide, and stands over them."""

import itertools
import math

import cloth
import pytest
from hookfold.charts.layout.placing.fans import WIDEST_GAP, Pull, crowding, fan_items, kept_aside, pulled, pulls_on
from hookfold.charts.layout.placing.laid import lay_fabric
from hookfold.charts.model.cloth.fabric import Row
from hookfold.charts.model.rows.work import work_text


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


def stem(spot) -> tuple[float, float]:
    """The way from the foot of a spot to its head: right and up."""
    return spot.head[0] - spot.feet[0][0], spot.feet[0][1] - spot.head[1]


@pytest.mark.parametrize("tops", [5, 7, 9])
def test_what_stands_on_a_fan_stands_out_from_it(tops):
    """Heads on the fan's curve are a stitch apart and its stems of one length; each sc leans as what it goes into."""
    base = fan(tops)
    laid = lay_fabric(cloth.fabric(22, [base, arches(base, 3)], risen=1))
    below, above = (course.laid.spots for course in laid.courses)
    fanned = [s for s in below if s.kind == "tr"]
    assert all(math.dist(a.head, b.head) >= 1.0 for a, b in itertools.pairwise(fanned))
    tall = [math.hypot(*stem(s)) for s in fanned]
    assert max(tall) < 1.15 * min(tall)
    ends = [s for s in above if s.kind == "sc"]
    for spot, under in zip(ends, reversed(fanned), strict=True):
        turned = math.atan2(*stem(spot)) - math.atan2(*stem(under))
        assert abs(math.degrees(turned)) < 20.0
        assert math.hypot(*stem(spot)) < 1.6 * 0.9


def test_arches_about_a_fan_stand_square_to_it():
    """The chains over a fan bow square to the way from stitch to stitch: neither end is nearer to their middle."""
    base = fan(9)
    laid = lay_fabric(cloth.fabric(22, [base, arches(base, 3)], risen=1))
    runs = [s for s in laid.courses[1].laid.spots if s.role == "chain"]
    assert len(runs) == 8
    for run in runs:
        (ax, ay), (bx, by) = run.curve[0], run.curve[-1]
        top = run.curve[len(run.curve) // 2]
        one, other = math.dist(top, (ax, ay)), math.dist(top, (bx, by))
        assert one == pytest.approx(other, rel=0.05)


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


SHELLS = """Ch 20.
Row 1 (RS): Sc in 2nd ch from hook, *sk next 2 ch, 5 dc in next ch, sk next 2 ch, sc in next ch; rep from * across, turn.
Row 2: Ch 3 (counts as dc), 2 dc in first sc, *sk next 2 dc, sc in next dc, sk next 2 dc, 5 dc in next sc; rep from *
to last 5 dc, sk next 2 dc, sc in next dc, sk next 2 dc, 3 dc in last sc, turn.
Row 3: Ch 1, sc in first dc, *sk next 2 dc, 5 dc in next sc, sk next 2 dc, sc in next dc; rep from * across, turn.
Row 4: Ch 3 (counts as dc), 2 dc in first sc, *sk next 2 dc, sc in next dc, sk next 2 dc, 5 dc in next sc; rep from *
to last 5 dc, sk next 2 dc, sc in next dc, sk next 2 dc, 3 dc in last sc.
"""

MESH = """Ch 14.
Row 1 (RS): Dc in 6th ch from hook, *ch 1, sk next ch, dc in next ch; rep from * across, turn.
Row 2: Ch 4 (counts as dc and ch 1), sk next ch-1 sp, dc in next dc, *ch 1, sk next ch-1 sp, dc in next dc; rep from *
across, turn.
Row 3: Ch 4 (counts as dc and ch 1), sk next ch-1 sp, dc in next dc, *ch 1, sk next ch-1 sp, dc in next dc; rep from *
across.
"""


@pytest.mark.parametrize("text", [SHELLS, MESH])
def test_both_edges_of_a_piece_are_straight_and_what_stands_there_is_upright(text):
    """The end stitches of all rows stand one over the other to a hundredth, each over its foot."""
    laid = lay_fabric(work_text(text, "edge").fabric)
    ends = [[s for s in course.laid.spots if s.role in ("stitch", "turning")] for course in laid.courses]
    for pick in (min, max):
        outer = [pick(row, key=lambda s: s.head[0]) for row in ends]
        assert max(s.head[0] for s in outer) - min(s.head[0] for s in outer) < 0.02
        assert all(abs(s.head[0] - s.feet[0][0]) < 0.02 for s in outer)


def test_a_row_that_grows_at_its_edges_leans_out():
    """Two stitches in each end of a row have no room to open inward."""
    base = cloth.plain("dc", 10, chains=3, counts=True, base=10)
    h = cloth.Hook(base)
    row = Row((cloth.turning("dc", 3, h.items[0]), *h.one("dc").do("dc", 8).one("dc", "dc").row().stitches))
    laid = lay_fabric(cloth.fabric(12, [base, row], risen=3))
    first = laid.courses[1].laid.spots[0]
    assert abs(first.head[0] - laid.courses[0].laid.spots[-1].head[0]) > 0.3


ROUND_FANS = """Ch 22.
Row 1 (RS): Sc in 2nd ch from hook, *sk next 4 ch, 7 tr in next ch, sk next 4 ch, sc in next ch; rep from * across, turn.
Row 2: Ch 5 (counts as dc and ch 2), sk first sc, *sc in next tr, [ch 3, sc in next tr] 6 times, ch 2, dc in next sc,
ch 2; rep from * to last 7 tr, sc in next tr, [ch 3, sc in next tr] 6 times, ch 2, dc in last sc, turn.
"""


def test_round_fans_leave_room_for_what_stands_beside_them():
    """A round fan takes no more of its row than its circle does: no sc at an edge is pushed out longer than it may be."""
    laid = lay_fabric(work_text(ROUND_FANS, "fans").fabric)
    for course in laid.courses:
        lengths = [math.hypot(*stem(s)) for s in course.laid.spots if s.kind == "sc"]
        assert min(lengths) > 0.7 * 0.9 and max(lengths) < 1.3


#: Fans on single crosses between two loops each, then loops over them again.
BETWEEN_LOOPS = """Terms: US
Ch 18.
Row 1 (RS): Sc in 2nd ch from hook, *ch 5, sk next 3 ch, sc in next ch; rep from * across, turn. (5 sc)
Row 2: Ch 5 (counts as dc and ch 2), sc in first ch-5 sp, 7 dc in next sc, sc in next ch-5 sp, ch 5, sc in next ch-5 sp, \
7 dc in next sc, sc in next ch-5 sp, ch 2, dc in last sc.
"""


def test_loops_beside_a_fan_run_to_the_cross_that_it_stands_on():
    """No farther off than a chain and its white; and the fan leaves room for them."""
    courses = lay_fabric(work_text(BETWEEN_LOOPS, "loops").fabric).courses
    spots = courses[0].laid.spots
    for k, spot in enumerate(spots):
        if spot.role == "chain" and spot.chains == 5:
            ends = [*spot.ovals] if spots[k - 1].head[0] > spots[k + 1].head[0] else [*spot.ovals][::-1]
            right, left = sorted((spots[k - 1], spots[k + 1]), key=lambda s: -s.head[0])
            assert math.dist(ends[0][:2], right.head) < 1.25 and math.dist(ends[-1][:2], left.head) < 1.25
    for spot in courses[1].laid.spots:
        if spot.kind == "dc" and spot.role == "stitch" and spot.feet:
            assert abs(math.degrees(math.atan2(*stem(spot)))) < 58.0
