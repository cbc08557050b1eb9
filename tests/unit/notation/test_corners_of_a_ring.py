"""Corners of a square whose first round is worked into the ring: its spaces, not the whole round, which is one group."""

import pytest
from hookfold.charts.model.rows.work import work_text

RINGS = (
    "In magic ring, ch 3, 2 dc, [ch 2, 3 dc] 3x, ch 2, sl st to top of beg ch-3.",
    "Ch 4, sl st in first ch. Ch 3, 2 dc in ring, (ch 2, 3 dc in ring) 3 times, ch 2, join.",
)
BEGUN = (
    "Sl st to corner sp. (Ch 3, dc, ch 2, 2 dc) in corner. Dc in 3 dc,",
    "Sl st to corner sp, ch 3, (dc, ch 2, 2 dc) in same corner, dc in next 3 dc,",
    "Sl st to next ch-2 sp, (ch 3, dc, ch 2, 2 dc) in corner sp, dc in each of 3 dc,",
    "Slip stitch over to corner. Ch 3, 1 dc, ch 2, 2 dc in corner. 1 dc in next 3 dc,",
    "Sl st in next 2 dc and corner sp, ch 3, (dc, ch 2, 2 dc) in corner, dc in next 3 dc,",
)
GONE_ON = (
    "[(2 dc, ch 2, 2 dc) in corner, dc in 3 dc] 3x. Sl st to close.",
    "*(2 dc, ch 2, 2 dc) in next corner sp, dc in next 3 dc; rep from * 2 more times, join.",
)


@pytest.mark.parametrize("ring", RINGS)
def test_a_square_goes_on_from_the_spaces_of_its_ring(ring):
    for begun in BEGUN:
        for on in GONE_ON:
            worked = work_text(f"Rnd 1: {ring}\nRnd 2: {begun} {on} (28 dc)\n")
            assert not worked.problems, (begun, on)
            second = worked.fabric.rows[1].row
            assert second.made == 28, (begun, on)
            assert [s.chains for s in second.stitches if s.role == "chain"] == [2, 2, 2, 2], (begun, on)


@pytest.mark.parametrize("words", ["sc in each dc and 3 sc in each corner", "sc in each dc around, 3 sc in each corner"])
def test_a_corner_beside_stitches_that_are_named_is_its_space(words):
    worked = work_text(
        "Rnd 1: MR, [2 dc, ch 2] 5 times, join.\nRnd 2: Ch 3, dc in next dc, [(2 dc, ch 2, 2 dc) in corner, dc in next 2 dc] "
        f"4 times, (2 dc, ch 2, 2 dc) in last corner, join. (30 dc)\nRnd 3: Ch 1, {words}, join.\n"
    )
    assert not worked.problems and worked.fabric.rows[2].row.made == 45


def test_corners_of_a_hexagon_are_spaces_of_one_chain():
    worked = work_text(
        "Rnd 1: 6 sc in a magic ring, join.\nRnd 2: Ch 3, dc in same sc, ch 1, (2 dc in next sc, ch 1) 5 times, join.\n"
        "Rnd 3: Ch 3, dc in next dc, *(dc, ch 1, dc) in corner sp, dc in next 2 dc; rep from * 4 more times, "
        "(dc, ch 1, dc) in last corner, join. (24 dc)\n"
    )
    assert not worked.problems


def test_the_one_space_of_a_first_row_is_its_point():
    worked = work_text(
        "Ch 4, join to form a ring.\nRow 1: Ch 3, 2 dc in ring, ch 2, 3 dc in ring.\n"
        "Row 2: Ch 3, turn, dc in next 2 dc, (2 dc, ch 2, 2 dc) in corner, dc in each dc to end. (10 dc)\n"
    )
    assert not worked.problems and worked.fabric.rows[1].row.made == 10


@pytest.mark.parametrize("petal", ["(ch 3, 3 dc, ch 3, sl st)", "(Ch 2, 3 hdc, ch 2, sl st)"])
def test_the_first_petal_is_as_the_others(petal):
    worked = work_text(f"Rnd 1: MR, 8 sc, sl st to first.\nRnd 2: {petal} in each st around. 8 petals.\n")
    made = [s.kind for s in worked.fabric.rows[1].row.stitches if s.role == "stitch" and s.kind != "sl st"]
    assert not worked.problems and len(made) == 24
    assert [s.role for s in worked.fabric.rows[1].row.stitches if s.kind == "ch"] == ["chain"] * 16


@pytest.mark.parametrize("where", ["next 3 corners", "each of next 3 corners", "remaining 3 corners", "other 3 corners", "next 3 corner sps"])
def test_a_group_goes_into_so_many_corners(where):
    worked = work_text(
        f"Rnd 1: {RINGS[0]}\nRnd 2: Sl st in next 2 dc and corner sp, ch 3, (2 dc, ch 2, 3 dc) in same sp, "
        f"(3 dc, ch 2, 3 dc) in {where}, join. (24 dc)\n"
    )
    assert not worked.problems and worked.fabric.rows[1].row.made == 24


@pytest.mark.parametrize("lead", ["up 3 ch of first loop", "along 3 chs of first loop", "over first 3 ch"])
def test_slip_stitches_lead_up_the_chains_of_a_loop(lead):
    worked = work_text(
        "Ch 4, join.\nRnd 1: Ch 1, (sc in ring, ch 6) 8 times, sl st in first sc.\n"
        f"Rnd 2: Sl st {lead}, ch 1, sc in same loop, (ch 4, sc in next loop) 7 times, ch 4, sl st in first sc. (8 sc)\n"
    )
    assert not worked.problems
