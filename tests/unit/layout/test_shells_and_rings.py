"""Rows of wide shells over each other, and picots on the stitches of a fan.

That no stem runs through another stitch, that a single crochet stands upright over its foot, and that a picot stands on the
stitch it was made on, is common practice of printed charts, no source.
"""

import itertools
import math

import pytest
import svg_ruler
from hookfold.charts.drawing.svg import write
from hookfold.charts.layout.chart.either import chart_document
from hookfold.charts.layout.labels.yarn_marks import marks_among
from hookfold.charts.layout.placing.clearing import map_of
from hookfold.charts.layout.placing.laid import lay_fabric
from hookfold.charts.layout.rounds.lay import lay_rounds
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.setting import Heading, Setting

SHELLS = """Terms: US
Ch 30.
Row 1: Sc in 2nd ch from hook, *sk 3 ch, 9 tr in next ch, sk 3 ch, sc in next ch; rep from * to last 4 ch, sk 3 ch, 5 tr in last \
ch, turn.
Row 2: Ch 1, sc in first tr, *9 tr in next sc, sc in 5th tr of shell; rep from * to last sc, 5 tr in last sc, turn.
Row 3: Ch 1, sc in first tr, *9 tr in next sc, sc in 5th tr of shell; rep from * to last sc, 5 tr in last sc, turn.
"""
PICOTS = """Terms: US
Picot: ch 3, sl st in 3rd ch from hook.
Ch 26.
Row 1: Sc in 2nd ch from hook, *ch 2, sk 3 ch, (dc, ch 1) 4 times in next ch, dc in same ch, ch 2, sk 3 ch, sc in next ch; rep \
from * across, turn.
Row 2: Ch 1, sc in first sc, *ch 1, (dc, picot) in next 4 ch-1 sps, ch 1, sc in next sc; rep from * across.
"""
JOINED = """Terms: US
Rnd 1: Make a magic ring, ch 3 (counts as dc), 15 dc in ring, join with sl st in top of ch-3. Fasten off. (16 dc)
Rnd 2: Join new yarn with sl st in any dc, ch 3 (counts as dc), dc in same st, 2 dc in each dc around, join with sl st in top of \
ch-3. Fasten off.
"""


def fabric(text):
    found = work_text(text)
    assert not found.problems, found.problems
    return found.fabric


def test_shells_over_shells_cross_no_stitch():
    (sheet,) = chart_document(fabric(SHELLS), Heading("Try"), Setting(extent="full")).sheets
    assert svg_ruler.overlaps(svg_ruler.read(write(sheet))) == []


def test_shells_over_shells_stand_straight_over_what_they_go_into():
    """Nor is a stem longer than half as much again as a treble is tall."""
    for course in lay_fabric(fabric(SHELLS)).courses:
        stood = [s for s in course.laid.spots if s.role == "stitch"]
        for spot in (s for s in stood if s.kind == "sc"):
            assert abs(spot.head[0] - spot.feet[0][0]) < 0.3
        upright = min(math.dist(s.head, s.feet[0]) for s in stood if s.kind == "tr")
        assert max(math.dist(s.head, s.feet[0]) for s in stood if s.kind == "tr") < 1.7 * upright


def test_every_picot_of_a_fan_stands_on_its_stitch_and_off_its_neighbours():
    """The last one too, which chains follow; all alike, as far apart as what they stand on."""
    row = lay_fabric(fabric(PICOTS)).courses[-1].laid.spots
    pairs = [(a, b) for a, b in itertools.pairwise(row) if a.kind == "dc"]
    assert len(pairs) == 12 and all(b.role == "picot" for _, b in pairs)
    for stitch, ring in pairs:
        assert math.dist(ring.feet[0], stitch.head) < 0.05
        assert abs(stitch.head[0] - stitch.feet[0][0]) < 0.25
    (sheet,) = chart_document(fabric(PICOTS), Heading("Try"), Setting(extent="full")).sheets
    assert svg_ruler.overlaps(svg_ruler.read(write(sheet))) == []


@pytest.mark.parametrize("mm", [5.0, 9.0])
def test_yarn_is_marked_as_joined_at_the_foot_of_its_first_stitch(mm):
    """Not at its head, where the round before it, or it itself, is joined and cut."""
    laid = lay_rounds(fabric(JOINED))
    ink = map_of([("centre", laid.centre.spots), *((r.index, r.laid.spots) for r in laid.rings)])
    (mark,) = (m for m in marks_among(laid, ink, mm, (-99.0, -99.0, 99.0, 99.0)) if m.name == "join yarn")
    first = next(s for s in laid.rings[1].laid.spots if s.role == "turning")
    tip = (mark.tip[0] / mm, mark.tip[1] / mm)
    assert math.dist(tip, first.feet[0]) < math.dist(tip, first.head)
