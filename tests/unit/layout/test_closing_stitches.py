"""A stitch that closes a round in place of its last chains is drawn as that stitch, and its arch is like the others.

Source: common practice of printed charts, no source.
"""

import itertools
import math

from hookfold.charts.layout.rounds.lay import lay_rounds
from hookfold.charts.model.rows.work import work_text

TEXT = """Terms: US
Ch 6, join with sl st to form a ring.
Rnd 1: Ch 1, 12 sc in ring, join with sl st in first sc. (12 sc)
Rnd 2: Ch 1, sc in same st, *ch 5, sk next sc, sc in next sc; rep from * 4 more times, ch 2, dc in first sc.
Rnd 3: Ch 1, sc in same sp, *ch 5, sc in next ch-5 sp; rep from * 4 more times, ch 3, tr in first sc.
Rnd 4: Ch 1, 3 sc in same sp, *5 sc in next ch-5 sp; rep from * around, 2 sc in first sp, join with sl st in first sc.
"""


def laid():
    found = work_text(TEXT)
    assert not found.problems
    return lay_rounds(found.fabric)


def test_it_stands_on_the_first_stitch_where_its_chains_end():
    for ring, kind in zip(laid().rings[1:3], ("dc", "tr"), strict=True):
        spots = ring.laid.spots
        closing, chains = spots[-1], spots[-2]
        first = next(s for s in spots if s.role == "stitch")
        assert (closing.kind, closing.role) == (kind, "stitch")
        assert math.dist(closing.feet[0], first.head) < 0.7
        assert math.dist(closing.head, chains.ovals[-1][:2]) < 0.9
        assert len(chains.ovals) == {"dc": 2, "tr": 3}[kind]


def test_all_arches_of_the_round_are_alike():
    """From fastening to fastening as far as between any others, and what stands in the last arch as in the others."""
    for ring in laid().rings[1:3]:
        heads = [s.head for s in ring.laid.spots if s.kind == "sc"]
        steps = [math.dist(a, b) for a, b in itertools.pairwise([*heads, heads[0]])]
        assert max(steps) - min(steps) < (0.05 if ring.index == 1 else 0.65)
    heads = [s.head for s in laid().rings[3].laid.spots if s.kind == "sc"]
    far = sorted(math.hypot(*head) for head in heads)
    assert far[-1] - far[0] < 1.0
