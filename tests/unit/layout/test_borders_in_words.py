"""Borders about a piece whose words say where their stitches go: into the last row, the corners, along the sides.

Measured on the finished sheet and on drawn places. That a border is drawn about the outline, three stitches or a chain
space at each corner, is common practice, no source.
"""

import itertools
import math

import pytest
import svg_ruler
from hookfold.charts.drawing.svg import write
from hookfold.charts.layout.chart.either import chart_document
from hookfold.charts.layout.shapes.found import fabric_shape
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.setting import Heading, Setting

PIECE = "Terms: US\nCh 22.\nRow 1: Dc in 4th ch from hook and in each ch across, turn. (20 dc)\n" + "".join(
    f"Row {n}: Ch 3, dc in next dc and in each dc across, turn. (20 dc)\n" for n in range(2, 11)
)
TOLD = (
    PIECE
    + "Border\nRnd 1: Ch 1, 3 sc in first dc, sc in next 18 dc, 3 sc in last dc, work 18 sc evenly along side, 3 sc in "
    "corner, sc in next 18 ch, 3 sc in corner, work 18 sc evenly along side, join with sl st in first sc. (84 sc)\n"
)
FANS = "Rnd 2: Ch 1, sc in same st, *skip next 2 sc, 5 dc in next sc, skip next 2 sc, sc in next sc; rep from * around, omitting \
last sc, join with sl st in first sc.\n"
EVENLY = (
    PIECE
    + "Border\nRnd 1: Ch 1, 3 sc in corner, work 18 sc evenly across top, 3 sc in corner, work 21 sc evenly down side, 3 sc in "
    "corner, work 18 sc evenly across bottom, 3 sc in corner, work 21 sc evenly up side, join with sl st in first sc. (90 sc)\n"
)
CHAINED = (
    PIECE
    + "Border\nRnd 1: Ch 1, work 24 sc evenly along top, ch 2, work 20 sc evenly along side, ch 2, work 24 sc evenly along "
    "bottom, ch 2, work 20 sc evenly along side, ch 2, join with sl st in first sc. (88 sc)\n"
)
LOOPS = "Rnd 2: Ch 1, sc in first sc, *ch 5, skip next 3 sc, sc in next sc; rep from * around, omitting last sc, join with sl st \
in first sc.\n"
TEXTS = {
    "told": TOLD, "told, fans": TOLD + FANS, "evenly": EVENLY, "evenly, fans": EVENLY + FANS,
    "chained": CHAINED, "chained, loops": CHAINED + LOOPS,
}  # fmt: skip


def worked(text):
    found = work_text(text)
    assert not found.problems, found.problems
    return found.fabric


def laid_of(text):
    fabric = worked(text)
    return fabric, fabric_shape(fabric).lay(fabric)


def corners_of(spots):
    """The corners of what some spots take up, as (x, y)."""
    xs, ys = [s.head[0] for s in spots], [s.head[1] for s in spots]
    return list(itertools.product((min(xs), max(xs)), (min(ys), max(ys))))


@pytest.mark.parametrize("hand", ["right", "left"])
@pytest.mark.parametrize("name", TEXTS)
def test_no_stitch_of_a_border_lies_on_another(name, hand):
    read = svg_ruler.read(write(chart_document(worked(TEXTS[name]), Heading("Edge"), Setting(hand=hand)).sheets[0]))
    rounds = [g for g in read.glyphs if g.row.startswith("round-")]
    assert len(rounds) > 80 and {g.row for g in rounds} == {f"round-{n}" for n in range(1, 2 + ("," in name))}
    assert svg_ruler.overlaps(read) == [] and svg_ruler.text_over_glyphs(read) == [] and svg_ruler.outside(read) == []


@pytest.mark.parametrize("name", TEXTS)
def test_stems_keep_their_height_about_a_border(name):
    fabric, laid = laid_of(TEXTS[name])
    nominal = {"sc": 1.0, "dc": 2.0}
    for ring in laid.rings[10:]:
        for spot in ring.laid.spots:
            if spot.role == "stitch":
                assert 0.7 <= math.dist(spot.head, spot.feet[0]) / nominal[spot.kind] <= 1.6
    assert len(laid.rings) == len(fabric.rows)


@pytest.mark.parametrize("name", ["told", "evenly"])
def test_the_middle_one_of_three_in_a_corner_stands_at_that_corner(name):
    fabric, laid = laid_of(TEXTS[name])
    body = [s for ring in laid.rings[:10] for s in ring.laid.spots if s.role in ("stitch", "turning")]
    row = fabric.rows[-1].row
    spots = laid.rings[-1].laid.spots
    groups = [list(g) for place, g in itertools.groupby(range(len(spots)), key=lambda i: row.stitches[i].place) if place >= 0]
    middles = [spots[g[1]] for g in groups if len(g) == 3]
    assert len(middles) == 4
    left, top, right, bottom = (edge(s.head[axis] for s in body) for edge, axis in ((min, 0), (min, 1), (max, 0), (max, 1)))
    for spot in middles:
        x, y = spot.head
        assert (x < left or x > right) and (y < top or y > bottom)
    assert len({(s.head[0] > 0.5 * (left + right), s.head[1] > 0.5 * (top + bottom)) for s in middles}) == 4


def test_what_goes_into_the_last_row_stands_over_it():
    fabric, laid = laid_of(TOLD)
    last, about = laid.rings[9].laid.spots, laid.rings[10].laid.spots
    for made, spot in zip(fabric.rows[-1].row.stitches, about, strict=True):
        if made.place < 0 and made.feet and made.feet[0].hold == "top" and made.role == "stitch":
            assert abs(spot.head[0] - last[made.feet[0].at].head[0]) < 0.3


def test_fans_on_a_border_open_evenly_to_both_sides():
    _, laid = laid_of(TOLD + FANS)
    spots = [s for s in laid.rings[-1].laid.spots if s.kind == "dc"]
    left, top, right, bottom = (edge(s.head[axis] for s in spots) for edge, axis in ((min, 0), (min, 1), (max, 0), (max, 1)))
    assert len(spots) == 70
    checked = 0
    for nth in range(0, 70, 5):
        fan = spots[nth : nth + 5]
        (x, y), ends = fan[2].head, (fan[0].head, fan[4].head)
        if min(abs(x - left), abs(x - right)) < 4.0 and min(abs(y - top), abs(y - bottom)) < 4.0:
            continue  # about a corner
        one, other = (math.dist(end, fan[2].head) for end in ends)
        assert abs(one - other) < 0.15
        checked += 1
    assert checked >= 8


def test_chains_lie_round_the_corners_that_they_lead_about():
    _, laid = laid_of(CHAINED)
    runs = [s for s in laid.rings[-1].laid.spots if s.role == "chain"]
    corners = corners_of([s for s in laid.rings[-1].laid.spots if s.role == "stitch"])
    assert len(runs) == 4
    for run in runs:
        x, y, _ = run.ovals[len(run.ovals) // 2]
        assert min(math.dist((x, y), corner) for corner in corners) < 1.8  # at the seam the join stands beside it


def test_the_numbers_of_rounds_are_told_from_those_of_rows():
    read = svg_ruler.read(write(chart_document(worked(TOLD + FANS), Heading("Edge"), Setting()).sheets[0]))
    words = {text for text, _ in read.texts}
    assert {"rnd 1", "rnd 2", "1", "2", "10"} <= words
