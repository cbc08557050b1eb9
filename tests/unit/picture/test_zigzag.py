"""Ripples lie in a zigzag, their foundation with them; what is no ripple lies straight."""

import itertools
import math
from pathlib import Path

import pytest
from hookfold.charts.layout.placing.laid import lay_fabric
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.picture.flat_cloth import flat_cloth
from hookfold.charts.picture.zigzag import zigzag_of

FABRICS = Path(__file__).resolve().parents[3] / "gallery" / "fabrics"
WAVES = """Terms: US
Ch 29.
Row 1 (RS): Hdc in 3rd ch from hook and in next 3 ch, *3 hdc in next ch, hdc in next 3 ch, hdc3tog over next 3 ch, hdc in next 3 ch; rep from * once more, 3 hdc in next ch, hdc in last 2 ch, turn.
"""
RIPPLE = """Terms: US
Ch 24.
Row 1 (RS): Sc in 2nd ch from hook and in next 4 ch, *3 sc in next ch, sc in next 4 ch, sk next 2 ch, sc in next 4 ch; rep from * to last 7 ch, 3 sc in next ch, sc in last 6 ch, turn.
"""


def fabric(name):
    return work_text((FABRICS / f"{name}.txt").read_text("utf-8")).fabric


def row_of(cloth, row):
    return sorted((s.head for s in cloth.stitches if s.row == row and (s.is_topped or s.spot.role == "foundation")), key=lambda p: p[0])


def height_at(row, x):
    """How high a row lies at a place along it."""
    for (ax, ay), (bx, by) in itertools.pairwise(row):
        if ax <= x <= bx:
            return ay + (by - ay) * (x - ax) / max(bx - ax, 1e-9)
    raise AssertionError(x)


@pytest.mark.parametrize("name", ["ripple", "chevron"])
def test_the_foundation_follows_the_zigzag_of_its_rows(name):
    cloth = flat_cloth(fabric(name))
    foundation, first = row_of(cloth, -1), row_of(cloth, 0)
    spread = max(y for _, y in foundation) - min(y for _, y in foundation)
    assert spread > 1.0
    inner = [x for x, _ in foundation[2:-2] if first[0][0] < x < first[-1][0]]
    apart = [height_at(first, x) - height_at(foundation, x) for x in inner]
    assert max(apart) - min(apart) < 0.35 * spread


def test_every_row_of_a_ripple_has_the_same_crests():
    cloth = flat_cloth(fabric("ripple"))
    rows = [row_of(cloth, r) for r in range(5)]
    xs = [x for x, _ in rows[0][3:-3]]
    for one, other in itertools.pairwise(rows):
        apart = [height_at(other, x) - height_at(one, x) for x in xs]
        assert max(apart) - min(apart) < 0.25


def test_stitches_on_the_slopes_stand_upright_on_their_row():
    cloth = flat_cloth(fabric("ripple"))
    slopes = 0
    for s in cloth.stitches:
        if s.row < 1 or s.spot.kind != "sc" or len(s.feet) != 1 or abs(s.along[1]) < 0.4:
            continue
        (fx, fy), (hx, hy) = s.feet[0], s.head
        far = math.dist(s.feet[0], s.head)
        assert abs(((hx - fx) * s.along[0] + (hy - fy) * s.along[1]) / far) < 0.6
        slopes += 1
    assert slopes > 60


def test_what_is_passed_over_in_a_hollow_is_drawn_together():
    cloth = flat_cloth(fabric("ripple"))
    by_place = {s.made.feet[0].at: s for s in cloth.stitches if s.row == 2 and s.spot.kind == "sc" and len(s.feet) == 1}
    passed = [(a, b) for a, b in itertools.pairwise(sorted(by_place)) if b - a == 3]
    assert len(passed) == 2
    for a, b in passed:
        assert math.dist(by_place[a].feet[0], by_place[b].feet[0]) < 2.0


@pytest.mark.parametrize("name", ["single-crochet", "shells", "v-stitch", "trellis", "clusters", "granny-stripe", "centre-shawl", "spikes"])
def test_other_fabrics_lie_straight(name):
    assert zigzag_of(lay_fabric(fabric(name)), as_planned=False) is None


def test_one_row_alone_is_no_ripple():
    for text in (WAVES, RIPPLE):
        made = work_text(text).fabric
        assert len(made.rows) == 1
        assert zigzag_of(lay_fabric(made), as_planned=False) is None


def test_a_planned_ripple_keeps_its_width_and_its_row_heights():
    made = fabric("ripple")
    heights = [1.0] * len(made.rows)
    cloth, laid = flat_cloth(made, heights=heights), lay_fabric(made)
    straight = [s.head[0] for c in laid.courses for s in c.laid.spots if s.kind == "sc"]
    xs = [s.head[0] for s in cloth.stitches if s.is_topped]
    assert max(xs) - min(xs) == pytest.approx(max(straight) - min(straight), abs=0.3)
    middle = [height_at(row_of(cloth, r), 15.0) for r in range(5)]
    assert [b - a for a, b in itertools.pairwise(middle)] == pytest.approx([1.0] * 4, abs=0.12)
