"""Ways of saying met on pages: a stretch of a bracket worked once more, moves of the hook that a name leads, rows in prose."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import work_text

RING = "Terms: US\nCh 4, join with sl st to form ring.\nRnd 1: Ch 3, 15 dc in ring, join. (16 dc)\n"
FLAT = "Terms: US\nCh 13.\nRow 1: Sc in 2nd ch from hook and in each ch across. (12 sc)\n"


def said(text: str) -> tuple[list[str], list[int]]:
    worked = work_text(text)
    return [p.where for p in worked.problems], [row.row.made for row in worked.fabric.rows]


@pytest.mark.parametrize("marks", ["*|**|* to **", "*|*|* to *", "+|+|+ to +", "*|**|* and **"])
@pytest.mark.parametrize("once", ["once", "once more", "one more time"])
@pytest.mark.parametrize("again", ["rep from", "repeat from", "then repeat between", "work from"])
def test_what_two_marks_hold_in_a_bracket_is_worked_again(marks: str, once: str, again: str) -> None:
    opened, closed, sent = marks.split("|")
    row = f"Rnd 2: Ch 1, ({opened}sc in next st, hdc in next st, dc in next st{closed}, ch 2, sk next st) 3 times; {again} {sent} {once}, ch 2, join."
    assert said(RING + row) == ([], [16, 12])


def test_how_often_may_stand_before_where_from() -> None:
    row = "Rnd 2: Ch 1, *sc in next 3 sts, hdc in next st*, (dc in next 3 sts, hdc in next st) twice, repeat once from * to *, fasten off."
    assert said(RING + row) == ([], [16, 16])


def test_marks_without_a_word_between_them_are_sent_back_to() -> None:
    row = "Rnd 2: Ch 3, dc in same st. [+ch 1, bpdc around next st, ch 1+ 2 dc in next st] 7 times. Repeat +to+ once and join in top of beg ch-3. (24 dc)"
    assert said(RING + row) == ([], [16, 24])


def test_a_number_of_chains_is_not_added_to_the_stitches_behind_a_mark() -> None:
    row = "Rnd 2: Ch 1, [+sc in next 2 sts, ch 1+ dc in next 2 sts] 3 times. Repeat from + to + once, dc in next 2 sts, join. (16 sts)"
    assert said(RING + row) == ([], [16, 16])


@pytest.mark.parametrize(
    "row",
    [
        "Rnd 2: Ch 1, (*sc in next st, hdc in next st**, ch 2) 3 times; rep from # to ## once, join.",
        "Rnd 2: Ch 1, (sc in next st, hdc in next st, ch 2) 3 times; rep from * to ** once, join.",
    ],
)
def test_marks_that_are_not_there_are_told(row: str) -> None:
    assert set(said(RING + row)[0]) == {"Rnd 2"}


@pytest.mark.parametrize(
    "dec",
    [
        "decrease 1 st by drawing up a loop in next 2 sts, then yo and pull through all three loops on hook",
        "dec over next 2 sts like so: draw up a loop in each of next 2 sts: 3 loops on hook: YO & pull through all 3 loops on hook",
        "draw up a lp in next 2 sts, yo and draw through all 3 lps on hook - sc2tog made",
        "draw up a loop in next st, draw up a loop in next st, yo, draw through all 3 loops on hook",
        "dec by pulling up a loop in each of next 2 sts, yo, pull through all 3 loops",
    ],
)
def test_a_decrease_told_by_its_moves_and_by_its_name(dec: str) -> None:
    assert said(FLAT + f"Row 2: Ch 1, turn; sc in next 4 sts, {dec}; sc in each of last 6 sts. (11 sc)") == (
        [],
        [12, 11],
    )
    assert said(FLAT + f"Row 2: Ch 1, turn; sc in next 4 sts, {dec}; sc in each of last 6 sts. (12 sc)")[0] == ["Row 2"]


def test_a_decrease_that_skips_the_stitch_between() -> None:
    row = "Row 2: Ch 1, turn; draw up a loop in next st, skip next st, draw up a loop in next st, yo and draw through all 3 loops on hook; sc in last 9 sts. (10 sc)"
    assert said(FLAT + row) == ([], [12, 10])


def test_a_decrease_as_the_one_before() -> None:
    row = "Row 2: Ch 1, turn. Dec over next 2 sts, sc in next 8 sts, dec as before over next 2 sts. (10 sc)"
    assert said(FLAT + row) == ([], [12, 10])


@pytest.mark.parametrize(
    "there", ["in the st after", "in st after", "in the one after", "in the stitch right after that"]
)
def test_the_stitch_after(there: str) -> None:
    assert said(FLAT + f"Row 2: Ch 1, turn. *Sc in next st, 2 sc {there}* repeat til end. (18 sc)") == ([], [12, 18])


@pytest.mark.parametrize(
    "end",
    [
        "when you reach the last st, sc in last st",
        "until you get to the last st, sc in last st",
        "until we come to the end",
    ],
)
def test_how_far_a_repeat_goes_said_to_the_reader(end: str) -> None:
    assert said(FLAT + f"Row 2: Ch 1, turn, *sc in next st, repeat from * {end}. (12 sc)") == ([], [12, 12])


@pytest.mark.parametrize("mark", ["::", " ::", ": :", " : :"])
def test_a_head_with_two_colons(mark: str) -> None:
    assert said(
        RING.replace("Rnd 1:", f"Round 1{mark}\n\n")
        + f"\nRound 2{mark}\n\nCh 1, 2 sc in each st around, join. (32 sc)\n"
    ) == ([], [16, 32])


@pytest.mark.parametrize(
    "talk",
    ["Going on around,", "Making sure to keep the yarn loose,", "If using 2 colors change here,", "Work 0 dc,"],
)
def test_words_beside_the_work_are_passed_over(talk: str) -> None:
    assert said(FLAT + f"Row 2: Ch 1, turn. {talk} sc in each st across. (12 sc)") == ([], [12, 12])


@pytest.mark.parametrize(
    "talk",
    [
        "Making sure to gleam 3 dc in the corner,",
        "Following this color pattern dc in each blue st,",
    ],
)
def test_words_that_name_work_are_not_passed_over(talk: str) -> None:
    assert said(FLAT + f"Row 2: Ch 1, turn. {talk} sc in each st across.")[0] == ["Row 2"]


def test_chains_that_a_count_includes_are_not_worked_into() -> None:
    assert said(SHELLS + "Row 3: Ch 1, turn. Sc in each st and ch across. (19 sc including the chains)")[1][-1] == 19
    row = "Row 3: Ch 1, turn. Sc in next 3 sts, including the chains."
    assert set(said(SHELLS + row)[0]) == {"Row 3"}


@pytest.mark.parametrize("back", ["rep bet **", "repeat between **", "rep from **"])
def test_two_stars_for_the_one_that_opened(back: str) -> None:
    assert said(FLAT + f"Row 2: Ch 1, turn. *2 sc in next st, sc in next st, {back} across. (18 sc)") == ([], [12, 18])


SHAWL = "Terms: UK\nCh 30.\n1st Row: 1 tr in 4th ch from hook, 1 tr in each of next 12 ch, 3 tr in next ch, 1 tr in each ch to end. (30 tr)\n"


@pytest.mark.parametrize("group", ["3tr group", "the 3-tr group", "next 3tr group", "3-tr grp"])
def test_the_middle_of_a_group_whose_first_stitch_was_worked_into(group: str) -> None:
    row = f"2nd Row: 3 ch, 1 tr in each tr to {group}, 1 tr in next tr, 3 tr in centre tr of {group}, 1 tr in next tr, 1 tr in each tr to end. "
    assert said(SHAWL + row + "(32 tr)") == ([], [30, 32])
    assert said(SHAWL + row + "(34 tr)")[0] == ["Row 2"]


SHELLS = FLAT.replace("13", "20").replace("(12 sc)", "(19 sc)") + (
    "Row 2: Ch 1, turn. Sc in first st, *skip 2 sts, (dc, ch 1, dc, ch 1, dc) in next st, skip 2 sts; sc in next st. Repeat from * across.\n"
)


@pytest.mark.parametrize("also", [", including each ch st", " including the chains", ", including all ch-1 sps"])
def test_chains_that_are_worked_into_too(also: str) -> None:
    assert said(f"{SHELLS}Row 3: Ch 1, turn. Sc in each st across{also}. (19 sc)") == ([], [19, 13, 19])


TUBE = "Terms: US\nChain 42; join with slip st in first ch to form a ring.\nRound 1: Ch 1, sk first ch, sc in next ch, ch 1, *sk next ch, sc in next ch, ch 1; repeat from * around; join with slip st in first sc"


@pytest.mark.parametrize("dash", ["\u2014", "\u2013", " \u2014 ", " - ", " = "])
@pytest.mark.parametrize(
    "count", ["{n} sc and 21 ch-1 sps", "{n} sc, 21 ch-1 sps", "21 ch-1 sps and {n} sc", "{n} sc and 21 ch", "{n} sc"]
)
def test_a_count_behind_a_dash_at_a_rounds_end(dash: str, count: str) -> None:
    assert said(f"{TUBE}{dash}{count.format(n=21)}.") == ([], [21])
    assert said(f"{TUBE}{dash}{count.format(n=23)}.")[0] == ["Round 1"]


def test_two_sizes_with_strokes_in_their_names() -> None:
    text = (
        "Wrist warmers\nSIZES\n\nS/M (L/XL)\n\n"
        + TUBE.replace("Chain 42", "Chain 42 (50)")
        + "\u201421 (25) sc and 21 (25) ch-1 sps.\n"
    )
    assert said(text) == ([], [21])


@pytest.mark.parametrize(
    "end", ["ending with sl st in first ch", "ending with sl st in base of first ch-4", "end with sl st to first ch"]
)
@pytest.mark.parametrize("count", ["", " (6 ch-4 loops)", " (6 sc)"])
def test_an_ending_that_only_closes_the_round(end: str, count: str) -> None:
    ring = "Terms: US\nCh 5; join with sl st to form ring.\nRnd 1: Ch 1, 12 sc in ring, join. (12 sc)\n"
    worked = work_text(f"{ring}Rnd 2: *Ch 4, sk next st, sc in next st; rep from * around, {end}.{count}")
    assert not worked.problems
    assert worked.fabric.rows[-1].row.made == 6
    assert sum(s.chains for s in worked.fabric.rows[-1].row.stitches) == 24
