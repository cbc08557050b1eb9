"""Rows in the words of letters, blogs and lists of abbreviations (common practice, no source)."""

import pytest
from hookfold.charts.model.rows.work import work_text


def made(text: str) -> list[int]:
    worked = work_text(text)
    assert not worked.problems, [problem.says for problem in worked.problems]
    return [line.row.made for line in worked.fabric.rows]


BOBBLES = """Ch 18.
Row 1: Sc in 2nd ch from hook and in each ch.
Row 2: Ch 1, turn. Sc in first 2 sts, *bobble in next st, sc in next 3 sts; rep from * to last 3 sts, bobble in next st, sc in last 2.
"""


@pytest.mark.parametrize(
    "said",
    [
        "Sc in each sc and in the top of each bobble across.",
        "1 sc in every sc, 1 sc in top of every bobble.",
        "Sc in each sc and on top of each bobble.",
        "Sc across, working into the top of each bobble.",
    ],
)
def test_stitches_and_what_is_gathered_are_one_stretch(said):
    assert made(BOBBLES + f"Row 3: Ch 1, turn. {said}\n") == [17, 17, 17]


@pytest.mark.parametrize(
    "said",
    [
        "fpdc around next st, hdc in next st, rep last 2 sts across to last st, hdc in last st.",
        "fpdc around next st, hdc in next st, repeat last two stitches to last st, hdc in last st.",
        "fpdc around next st, hdc in next st, repeat fpdc and hdc across to last st, hdc in last st.",
    ],
)
def test_the_last_stitches_told_come_again(said):
    text = f"Ch 17.\nRow 1: Hdc in 2nd ch from hook and in each ch.\nRow 2: Ch 1, turn, hdc in first st, {said}\n"
    assert made(text) == [16, 16]
    assert work_text(text).fabric.rows[1].row.kinds() == {"hdc": 9, "FPdc": 7}


def test_stitches_said_to_come_again_that_are_not_those_told_last_come_by_themselves():
    text = "Ch 17.\nRow 1: Hdc in 2nd ch from hook and in each ch.\n"
    text += "Row 2: Ch 1, turn, hdc in first st, fpdc around next st, hdc in next st, repeat sc and dc across to last st, hdc in last st.\n"
    assert work_text(text).fabric.rows[1].row.kinds() == {"hdc": 3, "FPdc": 1, "sc": 6, "dc": 6}


@pytest.mark.parametrize("begun", ["starting with the first st", "starting around the first dc", "beginning in first st"])
def test_a_chain_counts_for_nothing_where_work_is_said_to_begin_below_it(begun):
    text = f"Ch 6, join.\nRnd 1: Ch 3, 13 dc in ring, join. (14)\nRnd 2: Ch 2, {begun}, [FPdc, BPdc] around; sl st in first FPdc.\n"
    assert made(text) == [14, 14]
    assert work_text(text).fabric.rows[1].row.kinds() == {"FPdc": 7, "BPdc": 7}


@pytest.mark.parametrize(
    "told",
    [
        "MB make bobble: leaving the last loop of each on the hook work 4 dc into the same st, yarn round hook and draw through all 5 loops",
        "MB make bobble - 4 dc in next st leaving last loop of each on hook, yo, draw through all 5 loops",
        "MB make bobble: 4 dc tog in same st",
    ],
)
def test_a_list_names_a_stitch_behind_its_initials(told):
    text = f"Abbreviations\nch chain; sc single crochet; st(s) stitch(es)\n{told}\nMake 14 ch.\n"
    text += "Row 1: 1 sc in 2nd ch from hook, 1 sc in each ch to end, turn.\n"
    text += "Row 2: Ch 1, 1 sc in each of first 2 sts, *MB in next st, 1 sc in each of next 3 sts; rep from * to last 3 sts, MB in next st, 1 sc in each of last 2 sts, turn. [3 bobbles]\n"
    text += "Row 3: As Row 1, working 1 sc on top of each bobble.\n"
    assert made(text.replace("As Row 1, working", "Ch 1, 1 sc in each sc and")) == [13, 13, 13]


GROUPS = """Ch 6, join.
Rnd 1: Ch 1, 12 sc in ring, join.
Rnd 2: Ch 3, dc in next sc, ch 2, *dc in next 2 sc, ch 2; rep from * around, join.
"""


@pytest.mark.parametrize(
    "said",
    [
        "3 dc in each space, ch 2 after each group. Join.",
        "3 dc in each space, after every group ch 2. Close.",
        "3 dc in each ch-2 space with ch 2 after every 3 dc (the first dc of the round is a ch 3). Join.",
    ],
)
def test_chains_behind_each_group_lie_between_them(said):
    text = GROUPS + f"Rnd 3: {said}\n"
    assert made(text) == [12, 12, 18]
    assert sum(s.chains for s in work_text(text).fabric.rows[2].row.stitches if s.role == "chain") == 12


@pytest.mark.parametrize(
    ("said", "count"),
    [
        ("Sc in each sc but 3 sc in center sc of the 3 at each corner, join.", 28),
        ("*let 1 sc out, sc in next sc; rep from * around, join.", 10),
    ],
)
def test_corners_and_what_is_let_out(said, count):
    text = "Ch 6, join.\nRnd 1: Ch 1, 12 sc in ring, join.\nRnd 2: Ch 1, *sc in next 2 sc, 3 sc in next; rep from * around, join.\n"
    assert made(text + f"Rnd 3: Ch 1, {said}\n") == [12, 20, count]


def test_what_points_at_a_row_or_names_a_part_is_no_work():
    text = "Ch 12.\nRow 1: Sc in 2nd ch from hook and in each ch. <-- not too hard!\n"
    text += "Row 2: Ch 1 turn, sc in first 8, leave the other 3 alone thats the top of your foot\n"
    assert made(text) == [11, 8]


def test_a_half_at_each_edge_stands_beside_the_count():
    text = "Ch 20.\nRow 1: Sc in 2nd ch from hook, [skip 2 ch, 5 dc in next ch, skip 2 ch, sc in next ch] 3 times. Turn. -- 3 shells\n"
    text += "Row 2: Ch 3, 2 dc in first sc, *skip 2 dc, sc in center dc of shell, skip 2 dc, 5 dc in next sc; rep from * across, but work only 3 dc in the last sc. -- 2 shells + a half shell at each edge\n"
    assert made(text) == [19, 19]


def test_a_row_of_v_stitches_comes_again_over_single_crochet():
    text = """V-st = dc, ch 1, dc in one stitch or space.
Ch 22
1st row: Dc in 4th ch from hook and in each ch across - 20 dc. Ch 3, turn.
2nd row: * Skip next dc, V-st in next dc, skip next dc. Rep from * across to turning chain, dc in top of turning chain - 6 V-sts. Ch 3, turn.
3rd row: 3 dc in ch-1 sp of each V-st, dc in top of ch-3. Ch 1, turn.
4th row: Sc in each dc across, sc in top of ch-3. Ch 3, turn.
5th row: Rep 2nd row.
"""
    assert made(text) == [20, 14, 20, 20, 14]


def test_a_first_cluster_is_told_by_its_chain_where_the_others_go_by_their_name():
    text = "Ch 6, join.\nRnd 1: Ch 4, *dc in ring, ch 1; rep from * 8 times, join in 3rd ch.\n"
    text += "Rnd 2: Sl st in ch-1 sp, ch 3, dc2tog in same sp, ch 4, *cluster in next ch-1 sp, ch 4; rep from * around, join.\n"
    assert made(text) == [10, 10]


def test_remarks_within_rows_are_no_work():
    text = """Ch 6, join.
Rnd 1: Ch 3, 15 dc in ring, join. (16 dc)
Rnd 2: Ch 2, *FPdc around next dc, BPdc around next dc; rep from * around, join.
Rnd 3: Same as Rnd 2 - front posts on front posts, back posts on back posts.
Rnd 4: Ch 1, sc in next 8 sts--this completes the first half; sc in next 8, join.
Rnd 5: Ch 1, sc in each st, going easy over the seam. Join.
Rnd 6: Work as for Rnd 5, but having hdc in place of sc throughout.
"""
    assert made(text) == [16, 16, 16, 16, 16, 16]
    assert work_text(text).fabric.rows[5].row.kinds() == {"hdc": 16}


@pytest.mark.parametrize(
    ("said", "count"),
    [
        ("*sk 1 st, dc in next st, ch 1* repeat * to * until you have worked into the last st.", 10),
        ("sc in each st until you've worked in the last stitch.", 19),
        ("*sc in next st, dc in next st; rep from * until you reach the last st, sc in last st.", 19),
    ],
)
def test_until_the_last_stitch_is_worked_is_to_the_end(said, count):
    begun = "Ch 4, turn" if count == 10 else "Ch 1, turn"
    text = f"Ch 20.\nRow 1: Sc in 2nd ch and each ch.\nRow 2: {begun}, {said}\n"
    assert made(text) == [19, count]


def test_no_more_increases_before_a_row_s_work_is_no_row_of_its_own():
    ring = "Ch 4, join.\nRnd 1: Ch 3, 14 dc in ring, join. (15)\nRnd 2: Ch 2, *dc in next 4 sts, fpdc around next st; rep from * around, join.\n"
    for said in ("No more increases, yay! ", "No more increasing. ", "No further increases: "):
        text = f"{ring}Rnd 3: {said}Ch 2, *dc in next 4 sts, fpdc around the post st; rep from * around, join.\n"
        assert made(text) == [15, 15, 15]
        assert work_text(text).fabric.rows[2].row.kinds() == {"dc": 12, "FPdc": 3}


def test_into_a_stitch_is_where_and_in_a_stitch_is_what():
    rows = "Ch 15.\nRow 1: Sc in 2nd ch from hook and in each ch. (14)\nRow 2: Ch 1, turn, hdc in each sc. (14)\n"
    assert made(rows + "Row 3: As Row 2 but work into hdc. (14)\n") == [14, 14, 14]
    for said in ("but work in dc", "but working in dc"):
        assert [problem.where for problem in work_text(f"{rows}Row 3: As Row 2 {said}. (14)\n").problems] == ["Row 3"]
