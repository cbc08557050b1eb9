"""Ovals: stitches along the foundation stand upright, those in its end chains fan about them, on either side alike.

Source: that an oval is drawn with straight sides and round ends is common practice of printed charts, no source.
"""

import itertools
import math

import pytest
from hookfold.charts.layout.rounds.lay import lay_rounds
from hookfold.charts.model.rows.work import work_text

TALL = """Ch 13.
Rnd 1: 3 dc in 4th ch from hook (beg 3 sk ch count as dc), dc in next 8 ch, 6 dc in last ch; working along opposite side of foundation chain, dc in next 8 ch, 2 dc in last ch, join with sl st in top of beg ch-3.
Rnd 2: Ch 3 (counts as dc), dc in same st as join, 2 dc in each of next 3 dc, dc in next 8 dc, 2 dc in each of next 6 dc, dc in next 8 dc, 2 dc in each of last 2 dc, join with sl st in top of beg ch-3.
"""
LOW = """Ch 10.
Rnd 1: 3 sc in 2nd ch from hook, sc in next 7 ch, 3 sc in last ch; working along opposite side of foundation chain, sc in next 7 ch, join with sl st in first sc.
Rnd 2: Ch 1, 2 sc in each of next 3 sc, sc in next 7 sc, 2 sc in each of next 3 sc, sc in next 7 sc, join with sl st in first sc.
"""


@pytest.fixture(params=[TALL, LOW], ids=["tall", "low"])
def laid(request):
    found = work_text(request.param)
    assert not found.problems
    return lay_rounds(found.fabric)


def along(laid):
    """The stitches of each round that stand along the foundation: over it, and of a place of their own."""
    half = max(x for s in laid.centre.spots for x, _, _ in s.ovals)
    for ring in laid.rings:
        spots = [s for s in ring.laid.spots if s.role == "stitch" and abs(s.feet[0][0]) < half - 0.4]
        yield ring, [s for s in spots if abs(s.head[0]) < half - 0.4]


def test_the_sides_stand_upright(laid):
    """Their stems lean no more than 12 degrees; those of fans do."""
    for _, spots in along(laid):
        assert len(spots) >= 12
        for spot in spots:
            (x, y), (a, b) = spot.head, spot.feet[0]
            assert math.degrees(math.atan2(abs(x - a), abs(y - b))) < 12.0


def test_the_sides_are_as_wide_as_their_stitches(laid):
    """From head to head between 0.9 and 1.15 stitches, above and below alike."""
    for _, spots in along(laid):
        for upper in (True, False):
            xs = sorted(s.head[0] for s in spots if (s.head[1] < 0.0) is upper)
            assert all(0.9 <= b - a <= 1.15 for a, b in itertools.pairwise(xs))


def test_fans_stand_round_the_chains_at_the_ends(laid):
    """Each foot on the side of the chain that its head lies on, none inside the chain or on another one."""
    ends = [max(laid.centre.spots, key=lambda s: sign * s.ovals[0][0]).ovals[0][:2] for sign in (1.0, -1.0)]
    fans = [s for s in laid.rings[0].laid.spots if s.role == "stitch" and abs(s.head[0]) > ends[0][0] - 0.3]
    assert len(fans) >= 6
    for spot in fans:
        x, y = min(ends, key=lambda at: math.dist(at, spot.head))
        (a, b), (c, d) = spot.feet[0], spot.head
        assert 0.3 <= math.dist((a, b), (x, y)) <= 0.55
        assert (a - x) * (c - x) + (b - y) * (d - y) > 0.0


def test_tops_turn_evenly_about_the_ends(laid):
    """From top to top about either end, from the last stitch along the chain to the first on its other side: all within
    15 % of their mean, and as wide on the left as on the right."""
    xs = sorted(x for s in laid.centre.spots for x, _, _ in s.ovals)
    low, high = xs[1] - 0.3, xs[-2] + 0.3
    for ring in laid.rings:
        tops = [s.head for s in ring.laid.spots if s.role in ("stitch", "turning")]
        steps = list(itertools.pairwise([*tops, tops[0]]))
        for side in (-1.0, 1.0):
            about = [math.dist(a, b) for a, b in steps if not all(low < x < high for x, _ in (a, b)) and a[0] * side > 0]
            mean = sum(about) / len(about)
            assert len(about) >= 4
            assert all(abs(step - mean) < 0.15 * mean for step in about)


UNEVEN = """Ch 21.
Rnd 1: Sc in 2nd ch from hook, sc in next 18 ch, 3 sc in last ch; working along opposite side of foundation chain, sc in next 18 ch, 2 sc in last ch.
Rnd 2: 2 sc in next sc, sc in next 18 sc, 2 sc in each of next 3 sc, sc in next 18 sc, 2 sc in each of last 2 sc.
Rnd 3: Sc in next sc, 2 sc in next sc, sc in next 18 sc, *sc in next sc, 2 sc in next sc; rep from * 2 more times, sc in next 18 sc, *sc in next sc, 2 sc in next sc; rep from * once more.
Rnd 4: Sc in each sc around.
"""


@pytest.mark.parametrize("text", [LOW, UNEVEN, TALL], ids=["low", "uneven", "tall"])
def test_rounds_lie_at_one_distance_from_the_chain(text):
    """Their sides over its chains, to 0.04 of a stitch, and their ends as half circles, however they increase there."""
    laid = lay_rounds(work_text(text).fabric)
    xs = sorted({x for s in laid.centre.spots for x, _, _ in s.ovals})
    for ring in laid.rings:
        heads = [s.head for s in ring.laid.spots if s.role in ("stitch", "turning")]
        far = [math.hypot(max(abs(x) - xs[-1], 0.0), y) for x, y in heads]
        assert max(far) - min(far) < 0.12
        for x in xs[1:-1]:  # those over the chains at the ends turn about them
            over = [abs(a - x) for a, _ in heads if abs(a - x) < 0.3]
            assert len(over) == 2 and max(over) < 0.04


def test_stitches_added_along_a_side_share_the_way_to_its_end():
    """Where a side has more stitches than chains none is nearer to the next than 0.7 of a stitch."""
    text = UNEVEN.replace("2 sc in next sc, sc in next 18 sc, 2", "2 sc in next sc, sc in next 16 sc, 2 sc in next sc, sc in next sc, 2", 1)
    laid = lay_rounds(work_text(text.split("Rnd 3")[0]).fabric)
    heads = [s.head for s in laid.rings[1].laid.spots if s.role == "stitch"]
    assert min(math.dist(a, b) for a, b in itertools.pairwise([*heads, heads[0]])) > 0.7
