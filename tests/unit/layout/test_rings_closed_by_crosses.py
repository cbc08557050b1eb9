"""Picots that a single crochet closes: the chains of each in a ring, its cross at the ring's foot, the rest of the row as
if a slip stitch closed them.

That a picot closed by a single crochet is drawn as its chains in a ring over the cross is common practice, no source.
"""

import math

import pytest
from hookfold.charts.drawing import svg
from hookfold.charts.layout.chart.either import chart_document
from hookfold.charts.layout.points.sc_rings import sc_rings_of
from hookfold.charts.layout.points.spurs import lay_flat
from hookfold.charts.layout.rounds.lay import lay_rounds
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.setting import Heading, Setting
from svg_ruler import outside, overlaps, read

ROW = "Terms: US\nCh 26.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (25 sc)\n"
RING = "ch {n}, {closing} in {n}{th} ch from hook"
TEXTS = {
    "row": ROW + "Row 2: Ch 1, sc in first sc, *{ring}, sc in next 3 sc; rep from * across.\n",
    "shells": ROW + "Row 2: Ch 1, sc in first sc, *skip next 2 sc, (3 dc, {ring}, 3 dc) in next sc, skip next 2 sc, sc in next sc; "
    "rep from * across.\n",
    "two": ROW + "Row 2: Ch 1, sc in first sc, *skip next 2 sc, (2 dc, {ring}, 2 dc, {ring}, 2 dc) in next sc, skip next 2 sc, sc in "
    "next sc; rep from * across.\n",
    "round": "Terms: US\nCh 6, join with sl st to form a ring.\nRnd 1: Ch 1, 12 sc in ring, join with sl st in first sc. (12 sc)\n"
    "Rnd 2: Ch 1, *sc in next sc, ch 2, {ring}, ch 2; rep from * around, join with sl st in first sc.\n",
}  # fmt: skip


def told(name, chains, closing="sc"):
    text = TEXTS[name].format(ring=RING.format(n=chains, th={3: "rd"}.get(chains, "th"), closing=closing))
    found = work_text(text)
    assert not found.problems, found.problems
    return found.fabric


def last_spots(fabric):
    return (lay_rounds(fabric).rings if fabric.rows[-1].is_round else lay_flat(fabric).courses)[-1].laid.spots


def closing_crosses(row):
    """The items of the crosses that go into chains of their own row."""
    return [i for i, s in enumerate(row.stitches) if s.kind == "sc" and s.feet and s.feet[0].back == 0]


@pytest.mark.parametrize("chains", [3, 4, 5])
@pytest.mark.parametrize("name", TEXTS)
def test_chains_lie_in_a_ring_that_ends_at_its_cross(name, chains):
    fabric = told(name, chains)
    row, spots = fabric.rows[-1].row, last_spots(fabric)
    crosses = closing_crosses(row)
    assert len(crosses) >= 4
    for item in crosses:
        run = spots[row.stitches[item].feet[0].at]
        ring = [(x, y) for x, y, _ in run.ovals[-chains:]]
        assert len(run.ovals) == row.stitches[item - 1].chains
        middle = (sum(x for x, _ in ring) / chains, sum(y for _, y in ring) / chains)
        far = [math.dist(p, middle) for p in ring]
        assert max(far) < 0.75 and math.dist(ring[0], ring[-1]) < 1.0  # it comes back to where it began
        head, foot = spots[item].head, spots[item].feet[0]
        assert 0.7 <= math.dist(head, foot) <= 1.0
        assert math.dist(head, middle) < math.dist(foot, middle)
        assert max(math.dist(head, ring[0]), math.dist(head, ring[-1])) < 0.8  # both ends lie at the cross


@pytest.mark.parametrize("hand", ["right", "left"])
@pytest.mark.parametrize("chains", [3, 4])
@pytest.mark.parametrize("name", TEXTS)
def test_such_rings_touch_nothing_on_the_sheet(name, chains, hand):
    document = chart_document(told(name, chains), Heading("Rings", terms="us"), Setting(hand=hand, extent="full"))
    found = read(svg.write(document.sheets[0]))
    assert overlaps(found) == [] and outside(found) == []


@pytest.mark.parametrize("name", ["shells", "two"])
def test_a_shell_is_as_upright_as_with_a_slip_stitch(name):
    shells = [last_spots(told(name, 3, closing)) for closing in ("sc", "sl st")]
    stems = [[(s.head, s.feet) for s in spots if s.kind == "dc"] for spots in shells]
    assert len(stems[0]) == len(stems[1]) > 20
    for (a, _), (b, _) in zip(*stems, strict=True):
        assert math.dist(a, b) < 0.05


@pytest.mark.parametrize("hand", ["right", "left"])
def test_a_later_row_stands_over_such_rings(hand):
    text = TEXTS["shells"].format(ring=RING.format(n=3, th="rd", closing="sc"))
    found = work_text(text + "Row 3: Turn, ch 5, *sc in next ch-3 sp, ch 5; rep from * across, sc in last sc.\n")
    assert not found.problems
    document = chart_document(found.fabric, Heading("Rings", terms="us"), Setting(hand=hand, extent="full"))
    assert overlaps(read(svg.write(document.sheets[0]))) == []
    below, last = (course.laid.spots for course in lay_flat(found.fabric).courses[1:])
    over = [(s, m) for s, m in zip(last, found.fabric.rows[-1].row.stitches, strict=True) if m.feet and m.feet[0].hold == "space"]
    assert len(over) == 4
    for spot, made in over:
        ring = below[made.feet[0].at]
        assert abs(spot.feet[0][0] - sum(x for x, _, _ in ring.ovals) / len(ring.ovals)) < 0.3


def test_chains_that_a_row_begins_with_are_no_ring():
    found = work_text(ROW + "Row 2: Ch 3, sc in 3rd ch from hook, sc in next 25 sc. (26 sc)\n")
    assert not found.problems and closing_crosses(found.fabric.rows[-1].row) == [1]
    assert sc_rings_of(found.fabric.rows[-1].row) == ()
    assert len(sc_rings_of(told("shells", 3).rows[-1].row)) == 4
