"""Rounds worked into picots, and shapes whose corners are picots."""

import math

from hookfold.charts.layout.rounds.lay import lay_rounds
from hookfold.charts.model.rows.work import work_text

#: Every other stitch of the third round goes into a picot that stands between two stitches.
INTO_PICOTS = """Make a magic ring.
Rnd 1: Ch 3 (counts as dc), 13 dc in ring, join with sl st in top of beg ch-3.
Rnd 2: Ch 1, sc in same st as join, *picot, sc in next 2 dc; rep from * 5 more times, picot, sc in next dc, join with sl st in \
first sc.
Rnd 3: Sl st in next picot, ch 1, sc in same picot, *ch 5, sc in next picot; rep from * 5 more times, ch 5, join with sl st in \
first sc.
Special stitches: Picot: ch 3, sl st in first ch.
"""
#: A picot in the chains between two stitches.
ON_CHAINS = """Make a magic ring.
Rnd 1: Ch 1, 8 sc in ring, join with sl st in first sc.
Rnd 2: Ch 1, sc in same st as join, *ch 2, picot, ch 2, sc in next sc; rep from * 6 more times, ch 2, picot, ch 2, join with sl \
st in first sc.
Rnd 3: Sl st in next 2 ch, sl st in next picot, ch 1, sc in same picot, *ch 6, sc in next picot; rep from * 6 more times, ch 6, \
join with sl st in first sc.
Special stitches: Picot: ch 3, sl st in first ch.
"""
SQUARE = """Make a magic ring.
Rnd 1: Ch 3 (counts as dc), 2 dc in ring, *ch 2, 3 dc in ring; rep from * 2 more times, ch 2, join with sl st in top of beg ch-3.
Rnd 2: Ch 1, sc in same st as join, sc in next 2 dc, *(2 sc, picot, 2 sc) in next ch-2 sp, sc in next 3 dc; rep from * 2 more \
times, (2 sc, picot, 2 sc) in next ch-2 sp, join with sl st in first sc.
Special stitches: Picot: ch 3, sl st in first ch.
"""


def laid(text):
    found = work_text(text)
    assert not found.problems
    return lay_rounds(found.fabric)


def tops(ring):
    return [s for s in ring.laid.spots if s.role == "stitch" and s.kind != "sl st"]


def test_a_stitch_into_a_picot_stands_over_it():
    """Without a place for its foot it would be drawn towards the centre, and its round through the ones inside."""
    for text, many in ((INTO_PICOTS, 7), (ON_CHAINS, 8)):
        inner, outer = laid(text).rings[1:]
        picots = [s.head for s in inner.laid.spots if s.role == "picot"]
        assert len(picots) == len(tops(outer)) == many
        for spot in tops(outer):
            over = min(math.dist(spot.feet[0], p) for p in picots)
            assert over < 0.3
            assert 0.7 < math.dist(spot.feet[0], spot.head) < 1.6
            assert math.hypot(*spot.head) > max(math.hypot(*s.head) for s in tops(inner))


def test_a_corner_may_be_a_picot():
    """A square whose corners have a picot in their middle is drawn as one, the picots on its diagonals."""
    ring = laid(SQUARE).rings[1]
    picots = [s for s in ring.laid.spots if s.role == "picot"]
    assert len(picots) == 4
    for spot in picots:
        (x, y), far = spot.head, max(math.hypot(*s.head) for s in tops(ring))
        assert math.hypot(x, y) > far
        assert abs(abs(x) - abs(y)) < 0.35
