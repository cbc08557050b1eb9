"""The yarn goes on: a top reaches to the loop before it, a chain grows out of the last top and into the next."""

import math
from pathlib import Path

import pytest
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.picture.round_cloth import cloth_of

FABRICS = Path(__file__).resolve().parents[3] / "gallery" / "fabrics"
#: What is worked in rounds that are joined, or in rows, with chains between its stitches.
CHAINED = ("granny-square", "hexagon", "lace-doily", "post-wheel", "mesh", "trellis", "v-stitch", "half-granny")
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


@pytest.mark.parametrize("name", CHAINED)
def test_chains_grow_out_of_the_last_top_and_into_the_next(name):
    """Every chain begins where the loop before it ends, and the V after them where they end."""
    stitches = cloth_of(work_text((FABRICS / f"{name}.txt").read_text("utf-8")).fabric).stitches
    chains = 0
    for at, s in enumerate(stitches):
        if s.row < 0 or s.spot.role != "chain":
            continue
        before, after = stitches[at - 1], stitches[at + 1] if at + 1 < len(stitches) else s
        if before.row == s.row and before.spot.role in ("stitch", "turning"):
            assert math.dist(before.head, s.line[0]) < 0.05, s
            chains += 1
        if after.row == s.row and after.spot.role == "stitch":
            assert math.dist(s.line[-1], after.back) < 0.05, s
    assert chains > 8


@pytest.mark.parametrize("name", ["granny-square", "mesh", "trellis"])
def test_the_loops_between_two_tops_are_alike(name):
    """n chains and the V after them share the way between two tops in n + 1 equal parts."""
    stitches = cloth_of(work_text((FABRICS / f"{name}.txt").read_text("utf-8")).fabric).stitches
    for at, s in enumerate(stitches[:-1]):
        after = stitches[at + 1]
        if s.row >= 0 and s.spot.role == "chain" and after.row == s.row and after.spot.role == "stitch":
            each = sum(math.dist(a, b) for a, b in zip(s.line, s.line[1:], strict=False)) / s.spot.chains
            assert math.dist(after.back, after.head) == pytest.approx(each, rel=0.25)


def test_nothing_stands_off_at_the_edges_of_plain_rows():
    """The beginning chain of a row goes from the last stitch below to the first one, close to the edge."""
    stitches = cloth_of(work_text((FABRICS / "single-crochet.txt").read_text("utf-8")).fabric).stitches
    heads = [s.head[0] for s in stitches if s.is_topped]
    begins = [s for s in stitches if s.spot.role == "start" and s.row > 0]
    for s in begins:
        last = next(t for t in reversed(stitches[: stitches.index(s)]) if t.is_topped)
        first = stitches[stitches.index(s) + 1]
        assert s.line[0] == last.head and s.line[-1] == first.back
        assert all(min(heads) - 0.3 < x < max(heads) + 0.3 for x, _ in s.line)
    assert len(begins) == 5


def test_a_turning_chain_that_is_a_stitch_has_no_loop_beside_the_cloth():
    row = [s for s in cloth_of(work_text(ROWS.format(at="4th")).fabric).stitches if s.row == 1]
    assert row[0].spot.role == "turning" and row[0].back == row[0].head and row[1].back == row[0].head


@pytest.mark.parametrize("name", ["picot-edging", "scalloped-edging", "mitred-square"])
def test_a_beginning_chain_on_cloth_that_is_there_stands_at_its_edge(name):
    stitches = cloth_of(work_text((FABRICS / f"{name}.txt").read_text("utf-8")).fabric).stitches
    at = next(k for k, s in enumerate(stitches) if s.row == 0 and s.spot.role == "start")
    assert all(math.dist(p, stitches[at + 1].head) < 1.2 for p in stitches[at].line[1:])
    assert abs(stitches[at].line[0][0] - stitches[at + 1].head[0]) < 0.8
