"""Rounds of which a later one has one repeat that is otherwise, as beside a seam: those inside it lie as evenly as they
do without it, and the shape stands upright.

Measured on drawn places, from the middle of the work. No source: equal things are drawn equal.
"""

import cmath
import math

import pytest
from hookfold.charts.layout.rounds.lay import lay_rounds
from hookfold.charts.model.rows.work import work_text

HEXAGON = """Terms: US
Ch 5, join with sl st to form a ring.
Rnd 1: Ch 3, dc in ring, ch 1, *2 dc in ring, ch 1; rep from * 4 more times, join with sl st in top of beg ch-3.
Rnd 2: Ch 3, dc in next dc, (dc, ch 2, dc) in next ch-1 sp, *dc in next 2 dc, (dc, ch 2, dc) in next ch-1 sp; rep from * around, \
join with sl st in top of beg ch-3.
Rnd 3: Ch 3, dc in next 2 dc, (dc, ch 2, dc) in next ch-2 sp, *dc in next 4 dc, (dc, ch 2, dc) in next ch-2 sp; rep from * 4 more \
times, dc in next dc, join with sl st in top of beg ch-3.
"""
HEXAGON_LAST = """Rnd 4: Ch 4, skip next dc, dc in next dc, ch 1, skip next dc, (dc, ch 3, dc) in next ch-2 sp, *[ch 1, skip next \
dc, dc in next dc] 3 times, ch 1, (dc, ch 3, dc) in next ch-2 sp; rep from * 4 more times, ch 1, skip next dc, dc in next dc, ch 1, \
join with sl st in 3rd ch of beg ch-4.
"""
SQUARE = """Terms: US
Ch 6, join with sl st to form a ring.
Rnd 1: Ch 3, 3 dc in ring, ch 3, [4 dc in ring, ch 3] 3 times, join with sl st in top of beg ch-3.
Rnd 2: Ch 3, dc in next 3 dc, (2 dc, ch 3, 2 dc) in next ch-3 sp, *dc in next 4 dc, (2 dc, ch 3, 2 dc) in next ch-3 sp; rep from * \
2 more times, join with sl st in top of beg ch-3.
"""
SQUARE_LAST = """Rnd 3: Ch 4, skip next dc, dc in next dc, ch 1, skip next dc, dc in next dc, ch 1, skip next dc, (2 dc, ch 3, 2 dc) \
in next ch-3 sp, *ch 1, skip next dc, [dc in next dc, ch 1, skip next dc] 3 times, dc in next dc, ch 1, (2 dc, ch 3, 2 dc) in next \
ch-3 sp; rep from * 2 more times, ch 1, skip next dc, dc in next dc, ch 1, join with sl st in 3rd ch of beg ch-4.
"""
LACE = """Terms: US
Ch 6, join with sl st to form a ring.
Rnd 1: Ch 1, 16 sc in ring, join with sl st in first sc. (16 sc)
Rnd 2: Ch 6, skip next sc, *dc in next sc, ch 3, skip next sc; rep from * around, join with sl st in 3rd ch of beg ch-6. (8 dc)
"""
LACE_LAST = "Rnd 3: Ch 1, *4 sc in next ch-3 sp; rep from * 6 more times, 5 sc in last ch-3 sp, join with sl st in first sc. (33 sc)\n"
TEXTS = {"hexagon": (HEXAGON, HEXAGON_LAST, 6), "square": (SQUARE, SQUARE_LAST, 4), "lace": (LACE, LACE_LAST, 8)}


def laid(text):
    found = work_text(text)
    assert not found.problems, found.problems
    return lay_rounds(found.fabric)


def heads(ring):
    return [complex(s.head[0], -s.head[1]) for s in ring.laid.spots if s.role in ("stitch", "turning")]


@pytest.mark.parametrize("name", TEXTS)
def test_what_lies_inside_comes_again_round_the_middle(name):
    inner, last, n = TEXTS[name]
    rings = laid(inner + last).rings
    for ring in rings[:-1]:
        points = heads(ring)
        step, turn = len(points) // n, cmath.rect(1.0, math.tau / n)
        assert len(points) % n == 0
        assert all(abs(points[(t + step) % len(points)] - p * turn) < 0.15 for t, p in enumerate(points))
    outer = heads(rings[-1])
    assert len(outer) % n or any(
        abs(outer[(t + len(outer) // n) % len(outer)] - p * cmath.rect(1.0, math.tau / n)) > 0.15 for t, p in enumerate(outer)
    )


@pytest.mark.parametrize("name", ["hexagon", "square"])
def test_a_shape_with_one_side_otherwise_stands_upright(name):
    inner, last, n = TEXTS[name]
    alone, whole = (heads(laid(text).rings[1]) for text in (inner, inner + last))
    aslant = [math.remainder(cmath.phase(b) - cmath.phase(a), math.tau / n) for a, b in zip(alone, whole, strict=True)]
    assert max(map(abs, aslant)) < math.radians(2.0)


@pytest.mark.parametrize("name", TEXTS)
def test_stems_keep_their_height_on_such_rounds(name):
    inner, last, _ = TEXTS[name]
    for ring in laid(inner + last).rings[1:]:
        for spot in ring.laid.spots:
            if spot.role == "stitch":
                assert 0.7 <= math.dist(spot.head, spot.feet[0]) / {"sc": 1.0, "dc": 2.0}[spot.kind] <= 1.6
