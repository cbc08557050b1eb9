"""Places told before what they are given, repeats that keep on, and what is said beside the work: common practice, no source."""

import pytest
from hookfold.charts.model.rows.work import work_text

_FLAT = "Terms: US\nCh 17.\nRow 1: Sc in 2nd ch from hook and in each ch across. (16 sc)\n"
_FAN = "Fan = 7 dc in st indicated.\nHalf fan = 4 dc in st indicated ({aside}).\n"


def counts(text):
    found = work_text(text, "sample")
    made = [sum(s.role == "stitch" and s.kind not in ("sl st", "picot") for s in row.row.stitches) for row in found.fabric.rows]
    return made, found


def rows(*said):
    return counts(_FLAT + "".join(f"Row {n}: {row}\n" for n, row in enumerate(said, 2)))


@pytest.mark.parametrize(
    ("row", "made"),
    [
        ("Ch 1, turn, the first st gets 3 sc, sc in next 14, last st gets 3 sc.", 20),
        ("Ch 1, turn, sc in first st and in the 9 after that, sc in the remaining 6.", 16),
        ("Ch 1, turn, sc in each st to the last, in the last st there come 4 sc.", 19),
        ("Ch 1, turn, 2 sc to every st.", 32),
        ("Ch 1, turn, sc in first st, *ch 3, sk 2, sc in next st; keep repeating until you run out of sts.", 6),
        ("Ch 1, turn, sc in first st, *sk 1, 2 sc in next st; carry on until 1 st remains, sc in it.", 16),
        ("Ch 1, turn, sc in first 3 sts, *hdc in next st, sc in next 2; rep from * till you still have 4 sts, sc in those.", 16),
        ("Ch 1, turn, sc in each st, this is the plain row: no increasing yet.", 16),
        ("Ch 1, turn, for this one round only the back loops: sc in each st, because it makes a nice ridge.", 16),
        ("Ch 1, turn, put everything in the front loops: sc in each st.", 16),
        ("Ch 1, turn, close 2 sc together, sc in next 12 sts, close 2 sc together.", 14),
        ("Ch 1, turn, 5 sc, 6 ch in the air, leave 6 sts without working, 5 sc.", 10),
        ("Ch 1, turn, sc in each st to other side.", 16),
        ("Ch 1, turn, sc in next 15 sts, one last sc in the last st.", 16),
    ],
)
def test_a_row_is_read_with_what_is_said_by_the_way(row, made):
    found, work = rows(row)
    assert found[1:] == [made], [p.says for p in work.problems]
    assert not work.problems


@pytest.mark.parametrize(
    "row",
    [
        "Ch 1, turn, the first st gets a marker and 3 somethings, sc in next 14.",
        "Ch 1, turn, sc in next 8 sts to other work.",
        "Ch 1, turn, *sc in next 2 sts, ch 1, sk 1; keep going.",
    ],
)
def test_work_that_is_not_understood_is_still_told(row):
    assert rows(row)[1].problems


@pytest.mark.parametrize(
    "again",
    [
        "as Row 2 but with hdc and hdc2tog in place of the sc and sc2tog.",
        "same as Row 2, working hdc and hdc2tog instead of sc and sc2tog.",
    ],
)
def test_two_stitches_are_worked_in_place_of_two(again):
    made, found = rows("Ch 1, turn, 2 sc in first st, sc in next 5, sc2tog twice, sc in next 5, 2 sc in last st.", f"Ch 2, turn, {again}")
    assert not found.problems and made[1:] == [16, 16]
    kinds = [s.kind for s in found.fabric.rows[2].row.stitches if s.role == "stitch"]
    assert (kinds.count("hdc"), kinds.count("hdc2tog")) == (14, 2)


def test_a_row_repeated_in_other_loops_is_worked_in_those_alone():
    made, found = rows("Ch 1, turn, working in back loops only, sc in each st.", "Work Row 2, only with everything in the front loops.")
    assert not found.problems and made[1:] == [16, 16]
    assert {f.hold for s in found.fabric.rows[2].row.stitches for f in s.feet} == {"front loop"}


@pytest.mark.parametrize(
    "aside",
    ["at the beg of a row the ch-3 is one of the four", "where it starts a row, ch 3 counts as the first of these", "beg ch-3 stands for one dc"],
)
@pytest.mark.parametrize(
    "end", [", only your last sc goes into the top of the turning ch", ", but the last sc is worked into the top of the turning ch"]
)
def test_a_half_group_knows_its_chain(aside, end):
    made, found = counts(
        f"Terms: US\n{_FAN.format(aside=aside)}Ch 26.\n"
        "Row 1: Sc in 2nd ch from hook, *sk 3 ch, fan in next ch, sk 3 ch, sc in next ch; rep from * across. (3 fans, 4 sc)\n"
        "Row 2: Ch 3, turn, 3 dc in first sc, sc in center dc of first fan, *fan in next sc, sc in center dc of next fan; rep from * to last sc, half fan in last sc.\n"
        f"Row 3: Ch 1, turn, sc in first dc, *fan in next sc, sc in center dc of next fan; rep from * across{end}.\n"
    )
    assert not found.problems and made == [25, 24, 25]  # the beginning chain stands for one


@pytest.mark.parametrize(
    ("name", "count"), [("MB = make bobble: 4 dc in the same st, leaving the last loop of each on hook, yo and through all 5 loops", "3 bobbles"),
                        ("BB: bobble - 4 dc tog in the same st", "3 bobbles, 13 sc")],
)  # fmt: skip
def test_a_name_in_full_before_its_words(name, count):
    short = name[:2]
    made, found = counts(f"Terms: US\n{name}\n{_FLAT.removeprefix('Terms: US')}Row 2: Ch 1, turn, sc in first 4 sts, *{short} in next st, sc in next 3; rep from * across. ({count})\n")
    assert not found.problems and made == [16, 16]


def test_points_are_stitches_where_a_page_calls_them_so():
    page = "Terms: US\nPoints employed: chain point (ch), low point (sc).\nCh 12.\nRow 1: 1 sc in the 2nd ch counting from the hook and in each ch. 11 points\nRow 2: 1 ch, 1 sc over each point.\n"
    made, found = counts(page)
    assert not found.problems and made == [11, 11]
    star = "Terms: US\nCh 6, join.\nRnd 1: Ch 1, 10 sc in ring, join. (10 sc)\nRnd 2: Ch 1, sc in each point, join.\n"
    assert counts(star)[1].problems or counts(star)[0][1] != 10


def test_posts_of_a_kind_that_only_the_row_two_below_has():
    made, found = rows(
        "Ch 3 (counts as dc), turn, dc in next 15 sts.",
        "Ch 1, turn, sc in each st across.",
        "Ch 1, turn, sc in first 4 sts, FPtr around each of next 3 dc 2 rows below, sc in last 9 sts.",
        "Ch 1, turn, sc in each st across.",
        "Ch 1, turn, sc in first 4 sts, FPdc around each of next 3 FPtr, sc in last 9 sts.",
    )
    assert not found.problems and made[5] == 16
    assert {f.back for s in found.fabric.rows[5].row.stitches if s.kind == "FPdc" for f in s.feet} == {2}
    none = rows("Ch 1, turn, sc in first 4 sts, FPdc around each of next 3 FPtr, sc in last 9 sts.")[1]
    assert none.problems


@pytest.mark.parametrize(
    ("row", "made"),
    [
        ("Ch 2, turn, *sk next sc, dc in next, then go back & dc in the one you skipped; rep from * across.", 16),
        ("Ch 1, turn, [inc, sc 6, inc] on each half.", 20),
        ("Ch 1, turn, sc in next 10 sc, turn. The 6 sc left are for the back of the neck.", 10),
        ("Ch 1, turn, sc in each st across, 16. Don't cut.", 16),
        ("Ch 1, turn, sc in each st across. 16 sc. Straps are on the next page.", 16),
    ],
)
def test_what_stands_behind_the_work(row, made):
    found, work = rows(row)
    assert found[1:] == [made], [p.says for p in work.problems]
    assert not work.problems


def test_a_wrong_count_before_a_remark_is_told():
    assert rows("Ch 1, turn, sc in each st across, 15. Don't cut.")[1].problems
    assert rows("Ch 1, turn, sc in each st across. 15 sc. Straps are on the next page.")[1].problems


@pytest.mark.parametrize("end", ["last time stopping at **", "ending last rep at **"])
def test_a_round_begins_with_its_chain_and_stops_at_its_mark(end):
    text = (
        "Terms: US\nCh 6, join with sl st to form ring.\nRnd 1: Ch 3, 15 dc in ring, join in top of ch 3. (16 dc)\n"
        "Rnd 2: *2 dc in next dc, 1 dc in next; repeat from * around, the first dc being ch 3, join. (24 dc)\n"
        f"Rnd 3: Ch 1, sc in same st, *ch 3, sk 2 dc,** sc in next dc; rep from * around, {end}, join to first sc. (8 sc)\n"
    )
    made, found = counts(text)
    assert not found.problems and made[2] == 8
