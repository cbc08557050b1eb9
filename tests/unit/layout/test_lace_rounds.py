"""Lace in rounds: loops of one round alike, fans even where a pattern turns, pineapples round and open."""

import itertools
import math
from collections import defaultdict

import pytest
import shapely
import svg_ruler
from hookfold.charts.drawing.svg import write
from hookfold.charts.layout.chart.either import chart_document
from hookfold.charts.layout.rounds.lay import lay_rounds
from hookfold.charts.layout.shapes.chain_sizes import LARGEST, LEAST, common_size
from hookfold.charts.layout.shapes.corners import corners_of
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.setting import Heading, Setting

#: Two crosses in each loop make two loops; fans go into every second of these, so that the fans sit beside the middle of
#: what the crosses stand in, and nothing reads the same backwards as a whole.
TURNING = """Make a magic ring.
Rnd 1: Ch 3 (counts as dc), 23 dc in ring, join with sl st in top of beg ch-3.
Rnd 2: Ch 1, sc in same st as join, *ch 5, sk next dc, sc in next dc; rep from * to last dc, ch 5, sk last dc, join with sl st \
in first sc.
Rnd 3: Sl st in next ch-5 sp, ch 1, (sc, ch 3, sc) in same sp, ch 3, *(sc, ch 3, sc) in next ch-5 sp, ch 3; rep from * around, \
join with sl st in first sc.
Rnd 4: Sl st in next ch-3 sp, ch 1, sc in same sp, *ch 3, sc in next ch-3 sp; rep from * around, ch 3, join with sl st in \
first sc.
Rnd 5: Sl st in next ch-3 sp, ch 1, sc in same sp, *5 dc in next ch-3 sp, sc in next ch-3 sp; rep from * to last ch-3 sp, 5 dc \
in last ch-3 sp, join with sl st in first sc.
Rnd 6: Ch 1, sc in same st as join, *ch 3, sk next 2 dc, sc in next dc, ch 3, sk next 2 dc, sc in next sc; rep from * 10 more \
times, ch 3, sk next 2 dc, sc in next dc, ch 3, join with sl st in first sc.
"""
PINEAPPLE = """Ch 8, join with sl st in first ch to form a ring.
Rnd 1: Ch 4 (counts as dc and ch 1), *dc in ring, ch 1; rep from * 22 more times, join with sl st in 3rd ch of beg ch-4.
Rnd 2: Ch 4 (counts as dc and ch 1), *dc in next dc, ch 1; rep from * around, join with sl st in 3rd ch of beg ch-4.
Rnd 3: Sl st in next ch-1 sp, ch 3 (counts as dc), (dc, ch 2, 2 dc) in same sp, *ch 3, sk next ch-1 sp, sc in next ch-1 sp, ch 3, \
sk next ch-1 sp, (2 dc, ch 2, 2 dc) in next ch-1 sp; rep from * 4 more times, ch 3, sk next ch-1 sp, sc in next ch-1 sp, ch 3, sk \
last ch-1 sp, join with sl st in top of beg ch-3.
Rnd 4: Sl st in next dc and in next ch-2 sp, ch 3 (counts as dc), (dc, ch 2, 2 dc) in same sp, *ch 4, 8 tr in next sc, ch 4, (2 \
dc, ch 2, 2 dc) in next ch-2 sp; rep from * 4 more times, ch 4, 8 tr in next sc, ch 4, join with sl st in top of beg ch-3.
Rnd 5: Sl st in next dc and in next ch-2 sp, ch 3 (counts as dc), (dc, ch 2, 2 dc) in same sp, *ch 3, sc in next tr, [ch 3, sc in \
next tr] 7 times, ch 3, (2 dc, ch 2, 2 dc) in next ch-2 sp; rep from * 4 more times, ch 3, sc in next tr, [ch 3, sc in next tr] \
7 times, ch 3, join with sl st in top of beg ch-3.
"""
HEXAGON = """Make a magic ring.
Rnd 1: Ch 3 (counts as dc), dc in ring, ch 2, [2 dc in ring, ch 2] 5 times, join with sl st in top of beg ch-3.
Rnd 2: Ch 1, sc in same st as join, sc in next dc, (2 sc, ch 3, 2 sc) in next ch-2 sp, *sc in next 2 dc, (2 sc, ch 3, 2 sc) in \
next ch-2 sp; rep from * around, join with sl st in first sc.
"""


def fabric(text):
    found = work_text(text)
    assert not found.problems
    return found.fabric


@pytest.fixture(scope="module")
def turning():
    return lay_rounds(fabric(TURNING))


@pytest.fixture(scope="module")
def pineapple():
    return lay_rounds(fabric(PINEAPPLE))


def shells(ring):
    """The heads of the stitches that share a place with three others or more, place by place."""
    found = defaultdict(list)
    for spot, made in zip(ring.laid.spots, ring.worked.row.stitches, strict=True):
        if made.role == "stitch":
            found[made.feet].append(complex(*spot.head))
    return [heads for heads in found.values() if len(heads) >= 4]


def test_the_chains_of_a_round_are_of_one_size_whatever_stands_in_them(turning):
    """Loops with fans in them lie flat, those with a cross rise: their chains were half as large as the others'."""
    for ring in turning.rings:
        runs = [s for s in ring.laid.spots if s.role == "chain"]
        if runs:
            sizes = {s.size for s in runs}
            assert max(sizes) <= max(min(sizes), LEAST) and max(sizes) <= LARGEST
            turned = [s.size for s in ring.laid.spots if s.role in ("turning", "start")]
            assert all(size <= common_size(runs) for size in turned)


def test_chains_that_are_made_smaller_never_touch(turning):
    for spot in turning.spots:
        for a, b in itertools.pairwise(spot.ovals if spot.role == "chain" else ()):
            assert math.dist(a[:2], b[:2]) > 0.4


def rises(ring):
    """How far the chains between two stitches rise over their ends, each."""
    found = []
    for spot in (s for s in ring.laid.spots if s.role == "chain"):
        a, b, middle = (complex(*spot.curve[k]) for k in (0, -1, 8))
        found.append(abs((middle - (a + b) / 2.0) * (b - a).conjugate()) / abs(b - a))
    return found


def test_loops_that_read_the_same_backwards_rise_alike_whatever_the_next_round_puts_in_them(turning):
    """As a whole these rounds do not read the same backwards; those up to the loops do, and are drawn so."""
    loops = rises(turning.rings[3])
    assert len(loops) == 24 and max(loops) - min(loops) < 0.05


def test_fans_in_every_second_loop_are_even_about_what_they_stand_in(turning):
    fans = shells(turning.rings[4])
    assert len(fans) == 12
    for heads in fans:
        axis = heads[2] / abs(heads[2])
        for a, b in zip(heads, reversed(heads), strict=True):
            assert abs(a / axis - (b / axis).conjugate()) < 0.05


def test_points_with_larger_fans_between_them_are_lace():
    assert corners_of(fabric(PINEAPPLE).rows) is None
    assert corners_of(fabric(HEXAGON).rows) is not None


def test_rounds_of_a_pineapple_are_round(pineapple):
    """Drawn with straight sides, its fans of treble crochet stood on one line and the rounds lay over each other."""
    fan = max(shells(pineapple.rings[3]), key=len)
    assert len(fan) == 8
    middle = fan[3] + fan[4]
    along = [(z * middle.conjugate() / abs(middle)).real for z in fan]
    assert min(along[3:5]) > max(along[0], along[-1]) + 0.3


def test_pairs_of_stitches_beside_chains_in_one_place_stay_open(pineapple):
    for ring in pineapple.rings[2:]:
        for heads in (h for h in shells(ring) if len(h) == 4):
            assert abs(heads[1] - heads[0]) > 0.72 and abs(heads[3] - heads[2]) > 0.72


def test_no_two_glyphs_of_the_turning_lace_lie_over_each_other():
    (sheet,) = chart_document(fabric(TURNING), Heading("Try"), Setting()).sheets
    assert svg_ruler.overlaps(svg_ruler.read(write(sheet))) == []


#: Fans on the doubles between two arches, with picots between their stitches, as a point of a doily has them.
POINTS = """Make a magic ring.
Rnd 1: Ch 3 (counts as dc), 23 dc in ring, join with sl st in top of beg ch-3.
Rnd 2: Ch 4 (counts as dc and ch 1), *dc in next dc, ch 1; rep from * around, join with sl st in 3rd ch of beg ch-4.
Rnd 3: Sl st in next ch-1 sp, ch 1, sc in same sp, *ch 2, sk next ch-1 sp, 7 dc in next ch-1 sp, ch 2, sk next ch-1 sp, sc in \
next ch-1 sp; rep from * 4 more times, ch 2, sk next ch-1 sp, 7 dc in next ch-1 sp, ch 2, sk last ch-1 sp, join with sl st in first sc.
Rnd 4: Ch 7 (counts as dc and ch 4), *sk next ch-2 sp, sc in next dc, [ch 3, sk next dc, sc in next dc] 3 times, ch 4, sk next ch-2 \
sp, dc in next sc, ch 4; rep from * 4 more times, sk next ch-2 sp, sc in next dc, [ch 3, sk next dc, sc in next dc] 3 times, ch 4, \
join with sl st in 3rd ch of beg ch-7.
Rnd 5: Ch 3 (counts as dc), [picot, dc in same st] 4 times, *ch 4, sk next ch-4 sp, sc in next ch-3 sp, [ch 3, sc in next ch-3 sp] \
twice, ch 4, sk next ch-4 sp, ([dc, picot] 4 times, dc) in next dc; rep from * 4 more times, ch 4, sk next ch-4 sp, sc in next ch-3 \
sp, [ch 3, sc in next ch-3 sp] twice, ch 4, join with sl st in top of beg ch-3.
"""


def test_the_outer_stems_of_a_fan_keep_off_the_arches_beside_what_it_stands_on():
    arched, fanned = lay_rounds(work_text(POINTS, "points").fabric).rings[3:5]
    ovals = [shapely.Point(x, y) for s in arched.laid.spots if s.role == "chain" and s.chains == 4 for x, y, _ in s.ovals]
    stems = [shapely.LineString([s.feet[0], s.head]) for s in fanned.laid.spots if s.kind == "dc" and s.feet]
    assert (len(ovals), len(stems)) == (48, 30)
    assert min(stem.distance(oval) for stem in stems for oval in ovals) > 0.2
