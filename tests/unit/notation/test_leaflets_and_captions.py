"""Ways in which leaflets of thread lace, magazines and captions tell their rows (common practice, no source)."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import work_text


def _counts(text: str) -> list[tuple[int, int]]:
    """Stitches and chains of each row of a text that no problem is found in."""
    worked = work_text(text)
    assert not worked.problems, worked.problems
    rows = [row.row for piece in worked.pieces for row in piece.fabric.rows]
    return [(row.made, sum(s.chains for s in row.stitches if s.role == "chain")) for row in rows]


_RING = "Rnd 1: 24 sc in ring, sl st in first sc.\n"


@pytest.mark.parametrize(
    "said",
    [
        "* Ch 5, skip 2 sc, sc in next sc; repeat from * around, ending with sc in sl st.",
        "* Ch 5, skip 2 sc, sc in next sc; repeat from * around, ending with sc in joining.",
        "* Ch 5, skip 2 sc, sc in next sc; repeat from * around, ending with sc in first sc.",
        "* Ch 5, skip 2 sc, sc in next sc; repeat from * around, ending with ch 5, sc in joining sl st.",
        "Ch 5, skip 2 sc, (sc in next sc, ch 5, skip 2 sc) 7 times, sc in sl st.",
        "Ch 5, skip 2 sc, * sc in next sc, ch 5, skip 2 sc; repeat from * around, ending with sc in first sc.",
    ],
)
def test_the_last_loop_is_fastened_where_the_round_began(said: str) -> None:
    assert _counts(f"{_RING}Rnd 2: {said}\n")[1] == (8, 40)


def test_a_round_ends_in_the_slip_stitch_that_it_began_with() -> None:
    loops = "Rnd 2: * Ch 5, skip 2 sc, sc in next sc; repeat from * around, ending with sc in sl st.\n"
    more = "Rnd 3: Sl st to center of next loop, * ch 6, sc in next loop; repeat from * around, ending with sc in last sl st.\n"
    assert _counts(_RING + loops + more)[1:] == [(8, 40), (8, 48)]


@pytest.mark.parametrize(
    "said",
    [
        "Ch 6, sk 2, sc in next; around (8 loops).",
        "Ch 6, skip 2 sc, sc in next sc; repeat around.",
        "ch 6, sk 2, sc in next - all around; you have 8 loops.",
        "ch 6, sk next 2 sts, sc in next st; repeat around - 8 loops",
    ],
)
def test_a_loop_told_once_with_its_chain_first(said: str) -> None:
    assert _counts(f"{_RING}Rnd 2: {said}\n")[1] == (8, 48)


@pytest.mark.parametrize("said", ["sl st to top of loop, ch 8, sc in next loop; repeat around - 8 loops", "Sl st in 3 ch, ch 8, sc in next loop; repeat around"])
def test_a_loop_told_once_behind_the_way_to_it(said: str) -> None:
    loops = "Rnd 2: (Ch 6, skip 2 sc, sc in next sc) 8 times.\n"
    assert _counts(f"{_RING}{loops}Rnd 3: {said}\n")[2] == (8, 64)


def test_a_beginning_chain_told_once_stays_at_the_beginning() -> None:
    assert _counts(f"{_RING}Rnd 2: Ch 1, skip 1 sc, 2 sc in next sc; repeat around.\n")[1] == (24, 0)


@pytest.mark.parametrize(
    "said",
    [
        "With Red, work 12 sc over the ring. Join.",
        "Using Red, crochet 12 sc around the curtain ring, sl st to close.",
        "Coaster: 12 sc round a brass ring, join.",
        "Mat. With Red, work 12 sc over one half of ring, turn.",
    ],
)
def test_a_first_round_over_a_ring_that_bears_no_head(said: str) -> None:
    second = "Rnd 2: Ch 3, dc in same st, 2 dc in each st around, join. (24 dc)" if "half" not in said else "Row 2: Ch 3, dc in next 11 sc. (12 dc)"
    assert _counts(f"Covered rings\nMaterials: oddments of Red cotton, one ring\n{said}\n{second}\n") == [(12, 0), (12 if "half" in said else 24, 0)]


def test_a_key_ring_is_no_list_of_signs() -> None:
    assert _counts("Key ring flower\nWork 15 sc over the ring, join.\nRnd 2: (Ch 3, sk 2 sc, sl st in next sc) 5 times.\nRnd 3: 5 dc in each ch-3 loop. (25 dc)\n")[-1] == (25, 0)


def test_what_may_have_been_the_first_row_is_told() -> None:
    worked = work_text("Lace for a cuff. Along the rolled hem put 33 sc, if you like more.\nRow 2: Ch 1, sc in each sc across.\n")
    assert ["line 1 names work" in p.says for p in worked.problems] == [True]


@pytest.mark.parametrize(
    "said",
    [
        "Repeat 2nd and 3rd rows alternately until 9 rows are done.",
        "Repeat rows 2 and 3 alternately until there are 9 rows.",
        "Alternate rows 2 and 3 until there are 9 rows in all.",
        "Alternate the 2nd and 3rd rows until 9 rows have been worked.",
        "Rep last 2 rows alternately 3 times more.",
    ],
)
def test_rows_that_come_again_by_turns(said: str) -> None:
    text = f"Ch 22.\nRow 1: Sc in 2nd ch from hook and in each ch.\nRow 2: Ch 1, turn, dc in each sc.\nRow 3: Ch 1, turn, sc in each dc.\n{said}\n"
    worked = work_text(text)
    assert not worked.problems
    assert [next(s.kind for s in row.row.stitches if s.kind != "ch") for row in worked.pieces[0].fabric.rows] == ["sc", *["dc", "sc"] * 4]


def test_an_edge_behind_the_last_round_is_no_talk() -> None:
    worked = work_text("Rnd 1: 8 sc in ring. Rnd 2: 2 sc in every sc. Edge: * ch 3, sl st in next 2 sc; repeat from * all around.\n")
    rows = [row.row for piece in worked.pieces for row in piece.fabric.rows]
    assert worked.problems or len(rows) == 3
    alone = work_text("Rnd 1: 8 sc in ring.\nRnd 2: 2 sc in every sc.\nEdge: * ch 3, sl st in next 2 sc; repeat from * all around.\n")
    assert not alone.problems
    assert len([row for piece in alone.pieces for row in piece.fabric.rows]) == 3


@pytest.mark.parametrize(
    "said",
    [
        "Sl st in ch sp. Ch 3, 5 dc, ch 2, ((6 dc, ch 2) in next sp) around. Join.",
        "Sl st in next sp, ch 3, 5 dc, ch 2, * 6 dc in next sp, ch 2; rep from * around, join.",
        "Sl st into space; ch 3, 5 dc, ch 2; (6 dc, ch 2) in each sp around; join.",
        "Sl st to sp, ch 3, 5 dc, ch 2, [6 dc in next sp, ch 2] 7 times, join.",
    ],
)
def test_a_first_group_without_its_place_goes_where_the_others_go(said: str) -> None:
    ring = "Rnd 1: Ch 5, (dc in ring, ch 2) 7 times, join in 3rd ch.\n"
    assert _counts(f"{ring}Rnd 2: {said}\nRnd 3: Ch 1, sc in each dc and 2 sc in each ch sp.\n") == [(8, 16), (48, 16), (64, 0)]


_HTR = (
    "9 ch. 1st row: 1 htr in 3rd ch from hook, 1 htr in each ch to end, turn. (8 htr)\n"
    "2nd row: 2 ch, 1 htr in same place, 1 htr in each htr to end, 1 htr in top of turning ch, turn. (9 htr)\n"
)


@pytest.mark.parametrize("said", ["miss first htr, 1 htr in each st to end.", "miss first htr, 1 htr in each htr to end, 1 htr in top of ch."])
def test_a_chain_that_counts_stands_over_the_stitch_that_is_missed(said: str) -> None:
    assert [made for made, _ in _counts(f"{_HTR}3rd row: 2 ch, {said}\n")] == [8, 9, 9]


@pytest.mark.parametrize(
    "said",
    [
        "Work in this way with one more htr in each row until row 14.",
        "Continue thus, having 1 htr more in every row, to row 14.",
        "Carry on like this, increasing one st each row up to and including the 14th row.",
        "Continue in the same manner with one extra stitch every row until row 14 is done.",
    ],
)
def test_rows_that_grow_up_to_a_row(said: str) -> None:
    assert [made for made, _ in _counts(f"{_HTR}{said}\n15th row: 2 ch, miss first htr, 1 htr in each st to end.\n")] == [*range(8, 22), 21]


def test_rows_that_grow_by_another_number_are_no_rows_again() -> None:
    worked = work_text(f"{_HTR}Work in this way with three more htr in each row until row 14.\n15th row: 2 ch, miss first htr, 1 htr in each st to end.\n")
    assert worked.problems


@pytest.mark.parametrize(
    "said",
    [
        "(ch 3, 4 dc in sp) - first popcorn, ch 3, * (5 dc in next sp) - popcorn made, ch 3; repeat from * around; join to top of first popcorn.",
        "(ch 3, 4 dc in same sp) = beg popcorn, ch 3, * popcorn in next sp, ch 3; repeat from * around; join to top of first popcorn.",
        "(ch 3, 4 dc in same sp): starting popcorn; (ch 3, (5 dc in next sp) - popcorn) 11 times, ch 3, join.",
    ],
)
def test_what_a_bracket_is_made_into_is_said_behind_it(said: str) -> None:
    popcorn = "Popcorn: 5 dc in one place, take hook out, put it in first dc, draw dropped loop through.\n"
    ring = "Rnd 1: Ch 4, (dc in ring, ch 1) 11 times, join to 3rd ch.\n"
    assert _counts(f"{popcorn}Ch 6, join to form ring.\n{ring}Rnd 2: Sl st in sp, {said}\nRnd 3: Ch 1, 4 sc in each sp around.\n")[1:] == [(12, 36), (48, 0)]


@pytest.mark.parametrize("said", ["12 sc, no change", "12 sc (unchanged)", "12 sc without change."])
def test_a_round_of_which_nothing_changes(said: str) -> None:
    assert _counts(f"Rnd 1: MR, ch 1, 6 sc = 6\nRnd 2: inc x 6 = 12\nRnd 3-4: {said}\nRnd 5: (1 sc, inc) x 6 = 18\n") == [(6, 0), (12, 0), (12, 0), (12, 0), (18, 0)]
