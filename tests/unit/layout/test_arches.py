"""Arches of rounds keep off each other, shapes are found, and the points of a doily are not taken for corners.

Source: that no two signs of a chart touch, and that a doily of eight patterns is drawn round, is common practice of printed
charts, no source.
"""

import itertools
import math

import pytest
import svg_ruler
from hookfold.charts.drawing.svg import write
from hookfold.charts.layout.chart.either import chart_document
from hookfold.charts.layout.placing.laid import lay_fabric
from hookfold.charts.layout.rounds.lay import lay_rounds
from hookfold.charts.layout.shapes.corners import corners_of
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.setting import Heading, Setting

PETALS = """Make a magic ring.
Rnd 1: Ch 1, [sl st in ring, ch 3, 2 dc in ring, ch 3] 5 times, join with sl st in first sl st.
"""
LACE = """Ch 8, join with sl st in first ch to form ring.
Rnd 1: Ch 3 (counts as dc), 31 dc in ring, join with sl st in top of beg ch-3.
Rnd 2: Ch 5 (counts as dc and ch 2), sk next dc, *dc in next dc, ch 2, sk next dc; rep from * around, join with sl st in 3rd \
ch of beg ch-5.
Rnd 3: Sl st in next ch-2 sp, ch 3 (counts as dc), (dc, ch 2, 2 dc) in same sp, ch 3, sk next ch-2 sp, *(2 dc, ch 2, 2 dc) \
in next ch-2 sp, ch 3, sk next ch-2 sp; rep from * around, join with sl st in top of beg ch-3.
Rnd 4: Sl st in next dc and in next ch-2 sp, ch 3 (counts as dc), (dc, ch 2, 2 dc) in same sp, ch 1, 6 tr in next ch-3 sp, \
ch 1, *(2 dc, ch 2, 2 dc) in next ch-2 sp, ch 1, 6 tr in next ch-3 sp, ch 1; rep from * around, join with sl st in top of \
beg ch-3.
"""


def fabric(text):
    found = work_text(text)
    assert not found.problems
    return found.fabric


def test_chains_down_to_the_ring_and_up_again_lie_beside_each_other():
    (ring,) = lay_rounds(fabric(PETALS)).rings
    runs = [s.ovals for s in ring.laid.spots if s.role == "chain"]
    assert len(runs) == 10
    for one, other in itertools.combinations(runs, 2):
        assert min(math.dist(p[:2], q[:2]) for p in one for q in other) > 0.35
    (sheet,) = chart_document(fabric(PETALS), Heading("Try"), Setting()).sheets
    assert svg_ruler.overlaps(svg_ruler.read(write(sheet))) == []


@pytest.mark.parametrize(("chains", "is_shape"), [(3, False), (1, True)])
def test_eight_points_with_arches_between_them_are_a_doily_and_with_solid_sides_a_shape(chains, is_shape):
    text = LACE.replace("ch 3, sk next ch-2 sp", f"ch {chains}, sk next ch-2 sp").replace("ch-3 sp", f"ch-{chains} sp")
    rows = fabric(text).rows
    assert (corners_of(rows) is not None) == is_shape


def test_shells_of_a_doily_keep_their_stems_in_order():
    made = fabric(LACE)
    for ring in lay_rounds(made).rings[2:]:
        heads = [complex(*s.head) for s in ring.laid.spots if s.role in ("stitch", "turning")]
        turns = [((a.conjugate() * b).imag) for a, b in itertools.pairwise(heads)]
        assert all(turn < 0.0 for turn in turns)


OCTAGON = """Ch 6, join with sl st in first ch to form ring.
Rnd 1: Ch 3 (counts as dc), 15 dc in ring, join with sl st in top of beg ch-3.
Rnd 2: Ch 4 (counts as dc and ch 1), dc in same st as join, dc in next dc, *(dc, ch 1, dc) in next dc, dc in next dc; rep \
from * around, join with sl st in 3rd ch of beg ch-4.
Rnd 3: Sl st in next ch-1 sp, ch 4 (counts as dc and ch 1), dc in same sp, dc in next 3 dc, *(dc, ch 1, dc) in next ch-1 sp, \
dc in next 3 dc; rep from * around, join with sl st in 3rd ch of beg ch-4.
Rnd 4: Sl st in next ch-1 sp, ch 1, 2 sc in same sp, sc in next 5 dc, *2 sc in next ch-1 sp, sc in next 5 dc; rep from * \
around, join with sl st in first sc.
"""


def test_what_lies_at_the_seam_of_a_plain_round_is_no_part_of_its_side():
    """Slip stitch, chain and join made one side seem longer than the others, and the shape was drawn round."""
    rows = fabric(OCTAGON).rows
    found = corners_of(rows)
    assert found is not None and [len(corners) for corners in found] == [0, 8, 8, 8]


PICOTS = """Picot: Ch 3, sl st in 3rd ch from hook.
Make a magic ring.
Rnd 1: Ch 1, 16 sc in ring, join with sl st in first sc.
Rnd 2: Ch 1, sc in same st as join, ch 3, sk next sc, *sc in next sc, ch 3, sk next sc; rep from * around, join with sl st \
in first sc.
Rnd 3: Ch 1, (3 sc, picot, 3 sc) in each ch-3 sp around, join with sl st in first sc.
Rnd 4: Ch 1, sc in each sc around, join with sl st in first sc.
"""


@pytest.mark.parametrize("taller", ["sc", "hdc"])
def test_stitches_over_picots_stand_beside_them(taller):
    """Picots stand up in front of the round that is worked over them: its stitches keep off their rings."""
    last = "{0} in each sc around, join with sl st in first {0}"
    text = PICOTS.replace(last.format("sc"), last.format(taller))
    made = fabric(text)
    (sheet,) = chart_document(made, Heading("Try"), Setting()).sheets
    assert svg_ruler.overlaps(svg_ruler.read(write(sheet))) == []


OVAL = """Ch 10.
Rnd 1: 3 sc in 2nd ch from hook, sc in next 7 ch, 3 sc in last ch; working along opposite side of foundation chain, sc in \
next 7 ch, join with sl st in first sc.
Rnd 2: Ch 3 (counts as dc), dc in same st as join, 2 dc in each of next 2 sc, dc in next 7 sc, 2 dc in each of next 3 sc, \
dc in next 7 sc, join with sl st in top of beg ch-3.
Rnd 3: Ch 1, sc in same st as join, *ch 3, sk next dc, sc in next dc; rep from * to last dc, ch 3, sk last dc, join with sl \
st in first sc.
"""


def test_arches_of_a_round_that_is_alike_rise_alike():
    """About an oval as well, where the ends and the sides leave them other ways: within a seventh of a stitch."""
    ring = lay_rounds(fabric(OVAL)).rings[-1]
    tops = [s.head for s in ring.laid.spots if s.role == "stitch"]
    runs = [s.ovals for s in ring.laid.spots if s.role == "chain"]
    assert len(tops) == len(runs) == 13
    rises = []
    for (x, y), (a, b), run in zip(tops, [*tops[1:], tops[0]], runs, strict=True):
        (p, q), long = run[1][:2], math.dist((x, y), (a, b))
        rises.append(((a - x) * (q - y) - (b - y) * (p - x)) / long)
    assert min(map(abs, rises)) > 0.3
    assert max(rises) - min(rises) < 0.15


def test_low_stitches_on_either_side_of_a_loop_in_one_place_stand_up():
    """They would lie down at either end of a loop that is drawn as wide as one between two places."""
    text = (
        "Make a magic ring.\nRnd 1: Ch 3 (counts as dc), 17 dc in ring, join with sl st in top of beg ch-3.\n"
        "Rnd 2: Ch 1, sc in same st as join, sc in next dc, *(sc, ch 3, sc) in next dc, sc in next 2 dc; rep from * to last "
        "dc, (sc, ch 3, sc) in last dc, join with sl st in first sc."
    )
    for spot in lay_rounds(fabric(text)).rings[-1].laid.spots:
        if spot.kind == "sc":
            (x, y), (a, b) = spot.feet[0], spot.head
            outward = ((a - x) * x + (b - y) * y) / math.hypot(x, y)
            assert outward > 0.92 * math.dist(spot.feet[0], spot.head)


def test_a_shell_is_even_about_what_it_stands_in():
    made = fabric(LACE + "Rnd 5: Ch 1, sc in same st as join, *ch 5, sk next 3 sts, sc in next st; rep from * around, ch 5.\n")
    for ring in lay_rounds(made).rings[2:4]:
        fans: dict[object, list[complex]] = {}
        for spot, stitch in zip(ring.laid.spots, ring.worked.row.stitches, strict=True):
            if stitch.role == "stitch":
                fans.setdefault(stitch.feet, []).append(complex(*spot.head))
        for heads in (h for h in fans.values() if len(h) >= 4):
            axis = sum(heads) / abs(sum(heads))
            for a, b in zip(heads, reversed(heads), strict=True):
                assert abs((a / axis) - (b / axis).conjugate()) < 0.1


def test_loops_of_as_many_chains_rise_alike_beside_a_tall_stitch_and_are_nowhere_laid_straight():
    text = """Terms: US
Over 43 sc.
Row 1 (RS): Ch 1, sc in first sc, *skip next 6 sc, 7 dc in next sc, skip next 6 sc, sc in next sc; rep from * to end, turn.
Row 2: Ch 6 (counts as dc and ch 3), *skip next 2 dc, sc in next dc, ch 3, skip next dc, sc in next dc, ch 3, skip next 2 dc, \
dc in next sc, ch 3; rep from * once more, skip next 2 dc, sc in next dc, ch 3, skip next dc, sc in next dc, ch 3, skip next \
2 dc, dc in last sc, turn.
Row 3: Ch 3 (counts as dc), 2 dc in first dc, *skip next ch-3 sp, sc in next ch-3 sp, skip next ch-3 sp, 5 dc in next dc; rep \
from * once more, skip next ch-3 sp, sc in next ch-3 sp, skip next ch-3 sp, 3 dc in last dc.
"""
    laid = lay_fabric(work_text(text, "lace").fabric).courses[1].laid
    runs = [s for s in laid.spots if s.role == "chain" and s.chains == 3]

    def bow(spot):
        (x, y), (a, b), (p, q) = spot.curve[0], spot.curve[-1], spot.curve[8]
        return math.hypot(p - (x + a) / 2.0, q - (y + b) / 2.0) / math.dist((x, y), (a, b))

    bows = [round(bow(run), 2) for run in runs]
    assert len(bows) == 9 and min(bows) > 0.06
    assert abs(bows[2] - bows[3]) <= 0.02 and abs(bows[5] - bows[6]) <= 0.02  # before and after a double
