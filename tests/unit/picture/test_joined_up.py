"""The yarn goes on: a top reaches to the stitch before it, a beginning chain grows out of what is below."""

import math

import pytest
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.picture.round_cloth import cloth_of

SQUARE = """Terms: US
Ch 5, join with sl st in first ch to form a ring.
Rnd 1 (RS): Ch 3 (counts as dc), 2 dc in ring, ch 2, [3 dc in ring, ch 2] 3 times, join with sl st in top of beg ch-3.
Rnd 2: Sl st in next 2 dc and in next ch-2 sp, ch 3 (counts as dc), (2 dc, ch 2, 3 dc) in same sp, *(3 dc, ch 2, 3 dc) in next \
ch-2 sp; rep from * 2 more times, join with sl st in top of beg ch-3.
"""
ROWS = "Terms: US\nCh 14.\nRow 1 (RS): Dc in {at} ch from hook and in each ch across.\nRow 2: Ch 3 (counts as dc), turn, dc in next dc and in each dc across.\n"


def test_no_top_of_a_round_ends_in_the_air():
    """Groups with no chain between them lie apart, and the yarn goes over; so it does where the round is joined."""
    row = [s for s in cloth_of(work_text(SQUARE).fabric).stitches if s.row == 1]
    tops = [at for at, s in enumerate(row) if s.is_topped]
    joined = 0
    for before, at in zip([tops[-1], *tops], tops, strict=False):
        between = row[before + 1 : at] if before < at else (*row[before + 1 :], *row[:at])
        if not any(s.spot.role == "chain" for s in between):
            joined += 1
            assert math.dist(row[at].back, row[before].head) < 0.05
    assert len(tops) == 24 and joined == 20


@pytest.mark.parametrize("at", ["4th", "3rd"])
def test_the_beginning_chain_grows_out_of_the_foundation(at):
    stitches = cloth_of(work_text(ROWS.format(at=at)).fabric).stitches
    below = [s for s in stitches if s.row == -1]
    begins = next(s for s in stitches if s.row == 0 and s.spot.role in ("start", "turning"))
    assert min(math.dist(begins.feet[0], s.head) for s in below) < 0.6
