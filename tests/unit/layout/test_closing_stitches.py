"""A stitch that closes a round in place of its last chains is drawn as that stitch, and its arch is like the others.

That a dc or tr which stands for nearly as many chains as a loop lacks makes it a loop like the others is common practice of
printed charts, no source.
"""

import cmath
import itertools
import math

import pytest
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
        assert max(steps) - min(steps) < 0.05
    heads = [s.head for s in laid().rings[3].laid.spots if s.kind == "sc"]
    far = sorted(math.hypot(*head) for head in heads)
    assert far[-1] - far[0] < 1.0


RING = "Terms: US\nCh 6, join with sl st to form a ring.\nRnd 1: Ch 1, 12 sc in ring, join with sl st in first sc. (12 sc)\n"
#: The chains of a loop, those before the stitch that ends the last one, and that stitch.
LOOPS = [(4, 2, "dc"), (5, 2, "dc"), (6, 3, "dc"), (6, 3, "tr"), (7, 3, "tr"), (5, 3, "tr"), (5, 2, "tr")]


def loops(size, chains, kind):
    text = RING + (
        f"Rnd 2: Ch 1, sc in first sc, *ch {size}, skip next sc, sc in next sc; rep from * 4 more times, ch {chains}, {kind} in first sc.\n"
        f"Rnd 3: Ch 1, sc in same loop, *ch {size}, sc in next loop; rep from * 4 more times, ch {chains}, {kind} in first sc.\n"
        "Rnd 4: Ch 3, 4 dc in same loop, ch 2, *5 dc in next loop, ch 2; rep from * around, join with sl st in top of beg ch-3.\n"
    )
    found = work_text(text)
    assert not found.problems, found.problems
    return lay_rounds(found.fabric)


@pytest.mark.parametrize(("size", "chains", "kind"), LOOPS)
def test_rounds_of_such_loops_come_again_all_round(size, chains, kind):
    turn = cmath.rect(1.0, math.tau / 6)
    for ring in loops(size, chains, kind).rings[1:]:
        kinds = ("sc",) if ring.index < 3 else ("dc",)
        heads = [complex(s.head[0], -s.head[1]) for s in ring.laid.spots if s.kind in kinds and s.role in ("stitch", "turning")]
        step = len(heads) // 6
        assert len(heads) == (6 if ring.index < 3 else 30)
        assert all(abs(heads[(t + step) % len(heads)] - z * turn) < 0.15 for t, z in enumerate(heads))


@pytest.mark.parametrize(("size", "chains", "kind"), LOOPS)
def test_the_closing_stitch_is_tall_enough_to_be_read(size, chains, kind):
    for ring in loops(size, chains, kind).rings[1:3]:
        spots, made = ring.laid.spots, ring.worked.row.stitches
        closing = next(s for s, m in zip(spots, made, strict=True) if m.role == "join")
        assert closing.kind == kind
        assert math.dist(closing.head, closing.feet[0]) > 1.2
        assert math.dist(closing.feet[0], next(s for s in spots if s.kind == "sc").head) < 0.3
