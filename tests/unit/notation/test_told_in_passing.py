"""What pages tell in passing: rows turned short, rows that come again without a number of times, steps worked for several
rounds, parts named inside a paragraph, places at a chain's base, words that a sign joins."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import Worked, work_text

_TUBE = """Ch 24, join.
Rnd 1: Ch 1, sc in each ch around, join. (24 sc)
Rnd 2: Ch 1, sc in each st around, join. (24 sc)
"""


def _counts(worked: Worked) -> list[int]:
    return [row.row.made for row in worked.fabric.rows]


def _kinds(worked: Worked) -> list[dict[str, int]]:
    return [dict(row.row.kinds()) for row in worked.fabric.rows]


def test_a_row_turned_short_leaves_the_rest_and_the_next_goes_on_over_it() -> None:
    worked = work_text(_TUBE + "Row 3: Sc in next 5 sts, turn.\nRow 4: Ch 1, sc in next 17 sts, turn.\nRow 5: Ch 1, sc in each st. (17)\n")
    assert worked.problems == []
    assert [k["sc"] for k in _kinds(worked)] == [24, 24, 5, 17, 17]
    feet = [foot.back for stitch in worked.fabric.rows[3].row.stitches for foot in stitch.feet]
    assert feet.count(1) == 5
    assert feet.count(2) == 12
    assert any("19 stitches of Rnd 2 are left unworked" in note.says for note in worked.notes)


def test_each_short_row_takes_one_more_behind_the_last() -> None:
    text = "Ch 25.\nRow 1: Sc in 2nd ch from hook and in each ch. (24)\nRow 2: Ch 1, turn, sc in next 14 sts, turn.\n"
    text += "".join(f"Row {n}: Ch 1, sc in next {n + 1} sts, turn.\n" for n in range(3, 8))
    worked = work_text(text)
    assert worked.problems == []
    assert [k["sc"] for k in _kinds(worked)] == [24, 14, 4, 5, 6, 7, 8]


@pytest.mark.parametrize(
    ("third", "fourth", "where"),
    [
        ("Ch 1, sc in next 17 sts, turn.", "Ch 1, sc in next 17 sts, turn.", "Row 3"),  # one short: no short row
        ("Ch 1, sc in next 9 sts, turn. (18)", "Ch 1, sc in next 18 sts, turn.", "Row 3"),  # another count stated
        ("Ch 1, sc in each st, turn.", "Ch 1, sc in next 20 sts, turn.", "Row 4"),  # nothing left to go on over
        ("Ch 1, sc in next 12 sts, turn.", "Ch 1, sc in next 18 sts, turn.", "Row 4"),  # what is left lies at the other end
    ],
)
def test_a_row_that_stops_too_soon_is_still_a_mistake(third: str, fourth: str, where: str) -> None:
    text = "Ch 19.\nRow 1: Sc in 2nd ch from hook and in each ch. (18)\nRow 2: Ch 1, turn, sc in next 18 sts, turn.\n"
    worked = work_text(f"{text}Row 3: {third}\nRow 4: {fourth}\n")
    assert [problem.where for problem in worked.problems] == [where]


def test_rows_that_come_again_between_two_numbers() -> None:
    text = """Ch 17.
Row 1: Dc in 4th ch from hook and in each ch. (15 dc)
Row 2: Ch 1, turn, sc in each st. (15 sc)
Row 3: Ch 3 (counts as dc), turn, dc in next st and in each st. (15 dc)
Rep Rows 2 and 3. Fasten off.
Row 6: With B, ch 1, sc in each st. (15 sc)
Rpt rows 3-4.
Row 11: Ch 1, turn, sc in each st. (15)
"""
    worked = work_text(text)
    assert _kinds(worked)[3:6] == [{"sc": 15}, {"dc": 15}, {"sc": 15}]
    assert len(worked.fabric.rows) == 11
    open_ended = work_text(text.replace("Row 11", "Row 10"))  # two rows do not fill three numbers: nothing is made up
    assert len(open_ended.fabric.rows) == 7


def test_a_step_worked_for_several_rounds() -> None:
    worked = work_text("1. 6 sc in magic ring.\n2. 2 sc in each st (12)\n3. Sc in each st around (12) for 4 rounds.\n4. (Sc, dec) around. (8)\n")
    assert worked.problems == []
    assert _counts(worked) == [6, 12, 12, 12, 12, 12, 8]


def test_a_part_named_behind_a_row_is_a_row_of_its_own() -> None:
    worked = work_text(_TUBE.rstrip() + " Do not fasten off. Brim: 2 sc in each st around, join. (48)\n")
    assert worked.problems == []
    assert _counts(worked) == [24, 24, 48]


@pytest.mark.parametrize("place", ["in same st at base of ch", "at base of ch 3", "in the st at the base of the ch-3"])
def test_a_stitch_at_the_base_of_the_chain_is_one(place: str) -> None:
    worked = work_text(f"Ch 19.\nRow 1: Dc in 4th ch from hook and in each ch. (17)\nRow 2: Ch 3 (counts as dc), turn, 2 dc {place}, dc in each st. (19)\n")
    assert worked.problems == []


def test_moves_and_nouns_joined_by_a_sign() -> None:
    worked = work_text("""Ch 12.
Row 1: Sc in 2nd ch from hook and in each ch. (11)
Row 2: Ch 3 (counts as dc), turn, *ch 1, sk-next st, dc in next st; rep from * across. (6 dc)
Row 3: Ch 1, turn, sc in each st/ch-sp across. (11 sc)
""")
    assert worked.problems == []
    rounds = work_text("R1: 6 sc in magic ring, slst/ch 1 = 6\nR2: 6 inc, slst/ch 1 = 12\nR3: 12 sc, join/ch 1 = 12\n")
    assert rounds.problems == []
    assert _counts(rounds) == [6, 12, 12]


@pytest.mark.parametrize("how_long", ["until the strip fits around your wrist", "till it covers the book", "until it meets the other edge", "until the band is snug"])
def test_a_run_told_by_what_it_fits(how_long: str) -> None:
    worked = work_text(f"Ch 9.\nRow 1: Sc in 2nd ch from hook and in each ch. (8)\nRow 2: Ch 1, turn, sc in each st. (8)\nRows 3-12: Repeat Row 2 {how_long}.\n")
    assert worked.problems == []
    assert len(worked.fabric.rows) == 12


def test_other_chains_are_those_that_are_left() -> None:
    worked = work_text("Ch 12.\nRow 1: Sc in 2nd ch from hook and in other 10 ch. (11)\n")
    assert worked.problems == []
    assert _kinds(worked) == [{"sc": 11}]


def test_a_chain_that_counts_in_tall_rows_counts_nothing_in_lower_ones() -> None:
    worked = work_text("""Ch 20, join.
Rnd 1: Ch 1, sc in each ch, join. (20 sc)
Rnd 2: Ch 1 (counts as first hdc), skip first st, hdc in each st around, join. (20 hdc)
Rnd 3: Ch 1, sc in each hdc around, join.
""")
    assert worked.problems == []
    assert _kinds(worked)[2] == {"sc": 20}


def test_an_end_laid_on_another_and_held_is_no_row() -> None:
    worked = work_text(_TUBE + "Turn inside out, put the two open edges together, sl st in each st. Fasten off.\n")
    assert worked.problems == []
    assert len(worked.fabric.rows) == 2


def test_a_sentence_with_words_cut_off_behind_a_count_is_read() -> None:
    worked = work_text("Ch 8, join.\nRnd 1: 12 sc in ring, join. (12)\nWith B join yarn to any st. Make 3 dc in each stitch's post, the whole way round.\n")
    assert worked.fabric.rows[0].row.made == 12  # whatever is said of the rest, nothing stumbles


def test_a_group_in_the_same_space_is_in_a_space_and_not_in_a_stitch() -> None:
    worked = work_text("""Ch 4, join.
Rnd 1: Ch 3 (counts as dc), 2 dc in ring, (ch 2, 3 dc) 3 times, ch 2, join. (12 dc)
Rnd 2: With B, (ch 3, 2 dc, ch 2, 3 dc) in same sp, *ch 1, (3 dc, ch 2, 3 dc) in next sp; rep from * 2 more times, join.
""")
    assert worked.problems == []
    holds = {foot.hold for stitch in worked.fabric.rows[1].row.stitches for foot in stitch.feet if foot.back == 1}
    assert holds == {"space"}


def test_what_is_said_to_the_reader_between_stars_or_in_an_open_bracket() -> None:
    worked = work_text("""Ch 16.
* When you begin a row, remember that ch 1 is no stitch. *
Row 1: Sc in 2nd ch from hook and in each ch. (15) (you may change the colour at any time
Row 2: Ch 1, turn, sc in each st. (15)
* Note that the edges curl *
Row 3: Ch 1, turn, sc in next 8 sc, sc in next 7 sts. (15)
""")
    assert worked.problems == []
    assert _counts(worked) == [15, 15, 15]


def test_a_star_before_work_is_still_a_repeat_without_its_end() -> None:
    worked = work_text("Ch 16.\nRow 1: Sc in 2nd ch from hook and in each ch. (15)\nRow 2: Ch 1, turn, *sc in next st, dc in next st.\n")
    assert [problem.where for problem in worked.problems] == ["Row 2"]


def test_a_skip_and_its_number_joined_by_a_hyphen() -> None:
    worked = work_text("Ch 24.\nRow 1: Dc in 4th ch from hook and in each ch. (22)\nRow 2: Ch 1, turn, sc in first st, *ch 1, sk-1, sc in next st; rep from * to last st, sc in last st. (12 sc)\n")
    assert worked.problems == []


def test_one_misnamed_stitch_among_rightly_named_ones() -> None:
    worked = work_text("Ch 21.\nRow 1: Hdc in 2nd ch from hook and in each ch. (20 hdc)\nRow 2: Ch 1, turn, hdc in next 9 hdc, 3 hdc in next sc, hdc in next 10 sts. (22)\n")
    assert worked.problems == []
    assert any("was taken for hdc" in note.says for note in worked.notes)


def test_the_tip_of_a_cluster_is_its_top() -> None:
    worked = work_text("""Ch 6, join.
Rnd 1: Ch 1, 12 sc in ring, join. (12 sc)
Rnd 2: Ch 3, dc2tog in same st, *ch 4, skip 1 sc, dc3tog in next sc; rep from * around, ending with ch 4, sl st in tip of first cluster.
""")
    assert worked.problems == []
    assert worked.fabric.rows[1].row.joined


def test_a_set_up_row_in_three_words_is_a_row() -> None:
    worked = work_text("Ch 22.\nSet up row: Dc in 4th ch from hook, *skip 2 ch, 3 dc in next ch; rep from * to last 3 ch, skip 2 ch, dc in last ch.\nRow 1: Ch 3, turn, *3 dc in next gap between clusters; rep from * across, dc in top of tch.\n")
    assert worked.problems == []
    assert [row.label for row in worked.pattern.rows] == ["Set Up Row", "Row 1"]


def test_yarn_joined_anywhere_above_the_first_round_is_no_row() -> None:
    worked = work_text("Edging\nJoin yarn with a sc in any stitch.\nRnd 1: Sc in each st around, join.\n")
    assert [row.label for row in worked.pattern.rows] == ["Rnd 1"]


def test_so_many_along_the_row_ends_are_so_many_in_all() -> None:
    rows = "Ch 7.\nRow 1: Sc in 2nd ch from hook and in each ch. (6)\nRows 2-20: Ch 1, turn, sc in each st. (6)\nEdging\n"
    worked = work_text(rows + "Rnd 1: Ch 1, work 22 sc along the row ends, join. (22)\n")
    assert worked.problems == []
    assert worked.fabric.rows[-1].row.kinds() == {"sc": 22}
    wrong = work_text(rows + "Rnd 1: Ch 1, work 22 sc along the row ends, join. (24)\n")
    assert [problem.where for problem in wrong.problems] == ["Rnd 1"]


def test_the_opposite_side_of_so_many_chains() -> None:
    worked = work_text("Ch 15.\nRnd 1: 2 sc in 2nd ch from hook, sc in next 12 ch, 3 sc in last ch, rotate, sc in opposite side of next 12 ch, sc in same ch as first 2 sc, join. (30 sc)\n")
    assert worked.problems == []
    assert worked.fabric.rows[0].row.kinds() == {"sc": 30}


def test_counts_and_rows_told_by_a_bare_number() -> None:
    worked = work_text("ch 2\n1) 7 sc in second ch from hook 7\n2) 2 sc in ea 14\n3) (sc, 2 sc in next) 7 times 21\n4) sc in each 21\n5-7) repeat 4\n8) sc in each 21\n")
    assert worked.problems == []
    assert _counts(worked) == [7, 14, 21, 21, 21, 21, 21, 21]
    wrong = work_text("ch 2\n1) 7 sc in second ch from hook 7\n2) 2 sc in ea 15\n")
    assert [problem.where for problem in wrong.problems] == ["Rnd 2"]


def test_a_row_without_a_number_behind_a_comma() -> None:
    worked = work_text("Rnd 1: 6 sc in magic ring. (6)\nNext round, 2 sc in each st around. (12)\n")
    assert worked.problems == []
    assert _counts(worked) == [6, 12]


@pytest.mark.parametrize("chains", [31, 45, 59])
def test_no_shell_passes_over_half_a_repeat_without_a_word(chains: int) -> None:
    row = "Row 1: Dc in 4th ch from hook, *dc in next 5 ch, dc3tog over next 3 ch, dc in next 5 ch, 3 dc in next ch; rep from * across, ending with 2 dc in last ch.\n"
    right, wrong = (work_text(f"Ch {n}.\n{row}") for n in (chains + 1, chains))
    assert [problem.where for problem in wrong.problems] == ["Row 1"]
    assert right.problems == [], right.problems


def test_decreases_in_a_bracket_before_their_places() -> None:
    told = work_text("Ch 15.\nRow 1: Sc in 2nd ch from hook and in each ch. (14)\nRow 2: Ch 1, turn, sc in next 4 sts, (sc3tog) over next 3 sts, sc in next 7 sts. (12)\n")
    assert told.problems == []
    assert told.fabric.rows[1].row.kinds() == {"sc": 11, "sc3tog": 1}


def test_a_round_joined_in_its_first_stitch_does_not_count_its_chain() -> None:
    worked = work_text("Rnd 1: 9 dc in magic ring, join. (9)\nRnd 2: Ch 3, 2 dc in first st and in each st around, join with sl st in top of first dc.\n")
    assert _kinds(worked)[1] == {"dc": 18}
    chained = work_text("Rnd 1: 9 dc in magic ring, join. (9)\nRnd 2: Ch 3, 2 dc in first st and in each st around, join with sl st in top of ch-3.\n")
    assert _kinds(chained)[1] == {"dc": 19}


def test_no_chain_is_three_stitches() -> None:
    worked = work_text("""In the same space as the ch 3 do 2 dc, so you have (ch 3, dc, dc), that equals 3 dc.
Ch 6.
Row 1: 2 dc in 4th ch from hook, ch 1, skip 1 ch, 3 dc in last ch, turn.
""")
    assert _kinds(worked)[0]["dc"] == 6


def test_a_group_named_with_its_words_and_its_purpose_is_made_once() -> None:
    worked = work_text("""Ch 6.
Row 1: 2 dc in 4th ch from hook, ch 1, skip 1 ch, 3 dc in last ch, turn.
Row 2: Ch 3, 2 dc in first dc, ch 1, in center sp shell of (3 dc, ch 1, 3 dc) for center inc, ch 1, 3 dc in top of turning ch, turn.
""")
    assert worked.problems == []
    assert [kinds.get("dc") for kinds in _kinds(worked)] == [6, 12]


def test_the_end_of_a_row_told_to_the_reader_is_worked_or_told() -> None:
    rows = "Ch 20.\nRow 1: Sc in 2nd ch from hook and in each ch. (19)\nRow 2: Ch 1, turn, sc in next 18 sts. When you get to the end of the row, "
    assert work_text(rows + "work 3 sc in the last st. (21)\n").problems == []
    told = work_text(rows + "work a sc into the st that has the marker.\n")
    assert [problem.where for problem in told.problems] == ["Row 2"]


@pytest.mark.parametrize("place", ["each st remaining", "back thread of each st", "each sc space"])
def test_places_named_with_more_words(place: str) -> None:
    worked = work_text(f"Ch 20.\nRow 1: Sc in 2nd ch from hook and in each ch. (19)\nRow 2: Ch 1, turn, sc in {place}. (19)\n")
    assert worked.problems == []
