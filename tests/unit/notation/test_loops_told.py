"""Rounds and rows of loops, shells, clusters and corners, as many writers tell them."""

import pytest
from hookfold.charts.model.rows.work import work_text


def made(text):
    """Stitches and chains of each row, and what is told of them."""
    worked = work_text(text)
    rows = [row for piece in worked.pieces for row in piece.fabric.rows] if len(worked.pieces) > 1 else worked.fabric.rows
    return [(row.row.made, row.row.chains) for row in rows], [p.says for p in worked.problems]


def ring(n):
    return f"Ch 4, join to form ring.\nRnd 1: Ch 1, {n} sc in ring, join.\n"


# -- how a round of loops ends ----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "again",
    [
        "*ch 6, sk next 3 sc, sc in next sc; rep from * 5 more times, ending last rep with ch 3, dc in first sc",
        "*ch 6, sk next 3 sc, sc in next sc; rep from * 6 more times, ending last rep with ch 3, dc in first sc",
        "(ch 6, sk next 3 sc, sc in next sc) 6 times, ending last rep with ch 3, dc in first sc",
        "[ch 6, sk next 3 sc, sc in next sc] 7 times, ending last rep with ch 3, dc in first sc",
        "*ch 6, sk next 3 sc, sc in next sc; rep from * around, ending last rep with ch 3, dc in first sc",
        "*ch 6, sk next 3 sc, sc in next sc; rep 5 more times, ch 3, dc in first sc",
        "*ch 6, sk next 3 sc, sc in next sc. Repeat 5 times more, joining last loop with ch 3, dc in first sc",
        "(ch 6, sk next 3 sc, sc in next sc) 6 times, ch 3, dc in first sc to form last loop",
        "(ch 6, sk next 3 sc, sc in next sc) 6 times, ch 3, dc in first sc instead of last ch-6 loop",
    ],
)
def test_the_last_loop_is_closed_by_a_stitch(again):
    rows, told = made(ring(28) + f"Rnd 2: Ch 1, sc in same st, {again}. (7 loops)\n")
    assert (rows, told) == ([(28, 0), (7, 39)], [])


def test_a_last_loop_named_instead_is_left_out_of_the_last_repetition():
    rows, told = made(ring(12) + "Rnd 2: Ch 1, *sc in next sc, ch 5, sk 1 sc; rep from * around, ch 2, dc in first sc instead of last ch-5 loop.\n")
    assert (rows, told) == ([(12, 0), (6, 27)], [])


def test_a_count_that_no_reading_of_the_ending_gives_is_told():
    text = ring(28) + "Rnd 2: Ch 1, sc in same st, *ch 6, sk next 3 sc, sc in next sc; rep from * 4 more times, ending last rep with ch 3, dc in first sc. (7 loops)\n"
    assert made(text)[1]


@pytest.mark.parametrize("close", ["sl st in 3rd ch of ch-3", "join to 3rd ch of ch-3", "slip stitch into 3rd of ch-3", "join with sl st in 3rd ch of beg ch-3"])
def test_the_last_loop_of_a_round_is_no_picot(close):
    rows, told = made(ring(8) + f"Rnd 2: Ch 3 (counts as dc), *ch 3, dc in next sc; rep from * around, ch 3, {close}.\n")
    assert (rows, told) == ([(8, 0), (8, 24)], [])


def test_a_picot_in_the_midst_of_such_a_round_stays_one():
    worked = work_text(ring(8) + "Rnd 2: Ch 3 (counts as dc), (ch 3, sl st in 3rd ch from hook, dc in next sc) 7 times, join.\n")
    assert [s.kind for s in worked.fabric.rows[1].row.stitches].count("picot") == 7


# -- where the next round begins --------------------------------------------------------------------------------------

CLOSED = ring(14) + "Rnd 2: Ch 1, sc in same st, *ch 6, sk 1 sc, sc in next sc; rep from * 5 more times, ch 2, tr in first sc. (7 loops)\n"


@pytest.mark.parametrize(
    "begun",
    ["Sc in same st", "Ch 1, sc in same place", "Ch 1, sc around tr", "Sc in top of tr", "Sc around post of tr just made", "Ch 1, sc in same loop", "Sc over tr"],
)
def test_a_round_begins_over_the_stitch_that_closed_the_last_loop(begun):
    rows, told = made(CLOSED + f"Rnd 3: {begun}, *ch 7, sc in next loop; rep from * around, ch 7, join.\n")
    assert (rows[2:], told) == ([(7, 49)], [])


def test_a_stitch_that_closed_no_loop_is_missed():
    assert made(CLOSED + "Rnd 3: Ch 1, sc around dc, *ch 7, sc in next loop; rep from * around, ch 7, join.\n")[1]


# -- corners along a round --------------------------------------------------------------------------------------------

SQUARE = "Ch 5, join to form ring.\nRnd 1: Ch 3 (counts as dc), 3 dc in ring, ch 2, *4 dc in ring, ch 2; rep from * 2 more times, join.\n"


@pytest.mark.parametrize(
    "edge",
    ["sc in each dc around, 5 sc in each corner sp", "sc in each st around, 5 sc in each ch-2 sp", "sc in each st, 5 sc in each corner", "sc in each dc around with 5 sc in each corner"],
)
@pytest.mark.parametrize("middle", ["center st of each corner", "3rd sc of each corner", "middle sc of each 5-sc corner"])
def test_corners_come_along_the_stretch(edge, middle):
    rows, told = made(SQUARE + f"Rnd 2: Ch 1, {edge}, join. (36 sc)\nRnd 3: Ch 1, sc in each sc around, 3 sc in {middle}, join. (44 sc)\n")
    assert (rows[1:], told) == ([(36, 0), (44, 0)], [])


def test_a_group_in_each_corner_comes_along_the_stretch():
    rows, told = made(SQUARE + "Rnd 2: Ch 1, sc in each dc around, (sc, ch 2, sc) in each corner sp, join.\n")
    assert (rows[1:], told) == ([(24, 8)], [])


def test_a_wrong_count_of_such_a_round_is_told():
    assert made(SQUARE + "Rnd 2: Ch 1, sc in each dc around, 5 sc in each corner sp, join. (32 sc)\n")[1]


# -- groups and what lies between them --------------------------------------------------------------------------------


@pytest.mark.parametrize("name", ["shell", "fan", "V-st"])
@pytest.mark.parametrize("between", ["between {}s", "between next 2 {}s", "in sp between next 2 {}s"])
def test_between_groups_is_no_place_beside_the_first(name, between):
    legs = 1 if name == "V-st" else 2
    text = (
        "Ch 24.\nRow 1: Dc in 4th ch from hook and in each ch across. (22 dc)\n"
        f"Row 2: Ch 3, turn, *sk 2 dc, ({legs} dc, ch 1, {legs} dc) in next dc ({name} made), sk 2 dc; rep from * across, dc in last st.\n"
        f"Row 3: Ch 3, turn, *4 dc {between.format(name)}; rep from * across, dc in top of turning ch.\n"
    )
    rows, told = made(text)
    assert (rows[1:], told) == ([(8 * legs + 2, 4), (14, 0)], [])


@pytest.mark.parametrize("said", [" (called V-st)", " (hereafter called V-st)", " (this is called a V-st)", " (V st)", " for V st"])
def test_a_group_is_given_its_name(said):
    text = (
        "Ch 16.\nRow 1: Dc in 4th ch from hook and in each ch across. (14 dc)\n"
        f"Row 2: Ch 3, turn, *sk 1 dc, (dc, ch 1, dc) in next dc{said}, sk 1 dc; rep from * across, dc in last st.\n"
        "Row 3: Ch 3, turn, V-st in each V-st across, dc in last st.\n"
    )
    rows, told = made(text)
    assert (rows[1:], told) == ([(10, 4), (10, 4)], [])


# -- clusters ---------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("explained", "work"),
    [
        ("Beg cl: ch 2, dc in same st (counts as first cl).", "Beg cl in same st, *ch 2, 2-dc cluster in next sc; rep from * around, ch 2, join"),
        ("Beg cl: ch 2, dc2tog in the same st. It counts as a cl.", "Beg cl in same st, *ch 2, dc3tog in next sc; rep from * around, ch 2, join"),
        ("Beg cl: ch 3, dc2tog in same st.", "Beg cl in same st, *ch 2, dc3tog in next sc; rep from * around, ch 2, join"),
        ("Cl = 2 dc worked together in same st.\nBeg cl: ch2, dc in same st.", "Beg cl in same st, [ch2, cl in next sc] 8 times, ch2, sl st in top of beg cl"),
        ("Beg cl: ch2, dc in same st.\nCluster (cl): dc2tog in same st.", "Beg cl in same st, [ch2, cl in next sc] 8 times, ch2, sl st in top of beg cl"),
        ("", "Ch 3, dc2tog in same st, *ch 2, 3-dc cluster in next sc; rep from * around, ch 2, join"),
        ("", "Ch 2, dc in same st (counts as first cluster), *ch 2, dc2tog in next sc; rep from * around, ch 2, join"),
        ("Cluster (cl): work 3 double crochet in same st, holding back last loop of each on hook, yo and draw through all loops.",
         "Ch 3, dc2tog in same st, *ch 2, cluster in next sc; rep from * around, ch 2, join"),
    ],
)  # fmt: skip
def test_clusters_are_counted_with_the_one_that_begins_the_round(explained, work):
    text = f"{explained}\nRnd 1: Ch 5, join to form a ring. Ch 1, 9 sc in ring, join.\nRnd 2: {work}. (9 clusters)\n".lstrip()
    assert made(text) == ([(9, 0), (9, 18)], [])
    assert made(text.replace("9 clusters", "7 clusters"))[1]


def test_a_chain_that_stood_for_a_cluster_is_a_stitch_where_nothing_is_gathered():
    text = (
        ring(7) + "Rnd 2: Ch 3, dc in same st (counts as first cluster), *ch 2, 2-dc cluster in next sc; rep from * around, ch 2, join.\n"
        "Rnd 3: Sl st in first ch-2 sp, ch 3, 3 dc in same sp, *ch 2, 4 dc in next ch-2 sp; rep from * around, ch 2, join to top of ch-3.\n"
    )
    assert made(text) == ([(7, 0), (7, 14), (28, 14)], [])


# -- rows of loops ----------------------------------------------------------------------------------------------------

LOOPS = "Ch 30.\nRow 1: Sc in 2nd ch from hook, *ch 5, sk next 3 ch, sc in next ch; rep from * across. (7 loops)\n"


@pytest.mark.parametrize(
    "row",
    [
        "Ch 6, turn, (sc in next loop, ch 6) across, sc in last loop",
        "Ch 6, turn, (sc in next loop, ch 6) across, ending with sc in last loop",
        "Ch 6, turn, *sc in next loop, ch 6; rep from * across, ending sc in last loop",
        "Ch 6, turn, [sc in next loop, ch 6] 6 times, sc in last loop",
    ],
)
def test_a_row_of_loops_begins_with_one(row):
    rows, told = made(LOOPS + f"Row 2: {row}.\n")
    assert (rows[1:], told) == ([(7, 42)], [])


# -- how a page says it -----------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "page",
    [
        "Ch-15.\nRow 1: Dc in 4th ch from hook, dc in each ch to end. 13 dc. Turn with 3 ch.\nRow 2: Dc in each st.\n",
        "Foundation: ch-15\nRow 1.: Dc in 4th ch from hook and in each ch. 13 dc. Ch 3, turn.\nRow 2.: Dc in each st.\n",
    ],
)
def test_a_foundation_with_a_hyphen_and_a_count_before_turning(page):
    assert made(page) == ([(13, 0), (13, 0)], [])


def test_a_space_of_so_many_chains_is_no_foundation():
    assert work_text("An arch is a ch-5.\nCh 12.\nRow 1: Sc in 2nd ch from hook and in each ch.\n").fabric.rows[0].row.made == 11


@pytest.mark.parametrize("begun", ["Ch. 6; sl. st. in first ch to form a ring.", "Ch 6, s. st. in first ch to form ring."])
def test_a_ring_closed_by_a_dotted_slip_stitch(begun):
    text = f"{begun}\n1st Rnd.: Ch 3 (counts as dc), 15 dc in ring, s. st. to top of ch-3. (16 dc)\n"
    assert made(text) == ([(16, 0)], [])
