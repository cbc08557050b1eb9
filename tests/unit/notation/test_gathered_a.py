"""Totals told behind the work, how often and from where a repeat goes, and runs told by numbers of stitches."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import work_text

RING = "US terms.\nRnd 1: 7 sc in magic ring.\n"
JOINED = "US terms.\nRnd 1: 9 sc in magic ring; join. (9 sc)\n"
WIDE = "US terms.\nRnd 1: 9 sc in magic ring.\nRnd 2: 2 sc in each sc around. (18 sc)\n"
FLAT = "US terms.\nCh 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20 sc)\n"


def counts(text: str) -> tuple[list[int], list[str]]:
    """The stitches of each row of the first piece, and what is complained of."""
    worked = work_text(text)
    return [row.row.made for row in worked.fabric.rows], [problem.says for problem in worked.problems]


TOTALS = ["forming {} sts", "making a round of {} sts", "to make {} stitches", "so that there are {} sts", "to get {} sts in all",
          "which results in {} sts", "creating {} sc", "until you have {} sts", "until there are {} sts", "thus making {} sts"]  # fmt: skip


@pytest.mark.parametrize("total", TOTALS)
def test_what_comes_of_a_round_is_a_count(total):
    row = f"{RING}Rnd 2: 2 sc in each sc around, {total}.\n"
    assert counts(row.format(14)) == ([7, 14], [])
    assert counts(row.format(15))[1]


@pytest.mark.parametrize("total", ["forming {} loops", "making {} loops in all", "to form {} loops", "(forming {} loops)", "for a total of {} arcs"])
def test_loops_told_behind_a_repeat_are_counted(total):
    row = f"{JOINED}Rnd 2: *Ch 6, sl st in next sc; rep from * around, {total}.\n"
    assert counts(row.format(9)) == ([9, 9], [])
    assert counts(row.format(10))[1]


@pytest.mark.parametrize("said", ["until 9 loops are made", "until there are 9 loops in all", "until 9 chain loops worked", "around, until all 9 loops are made"])
def test_loops_say_how_often_a_repeat_goes(said):
    row = f"{JOINED}Rnd 2: *Ch 6, sc in next sc; rep from * {said}, join.\n"
    assert counts(row) == ([9, 9], [])
    assert counts(row.replace("9 loops", "8 loops").replace("9 chain", "8 chain").replace("all 9", "all 8"))[1]


def test_a_loop_before_the_repeat_is_one_of_them():
    row = "Rnd 2: Ch 12, sl st in first sc (this makes one petal), *sl st in next sc, ch 12, sl st in same sc; rep from * until {} petal loops worked.\n"
    assert counts(JOINED + row.format(9))[1] == []
    assert counts(JOINED + row.format(8))[1]


@pytest.mark.parametrize("flower", ["you will have a 9 petal flower", "you now have a flower with 9 petals", "making a 9-petal flower"])
def test_a_flower_of_so_many_petals_is_no_work(flower):
    assert counts(f"{JOINED}Rnd 2: *Ch 6, sl st in next sc; rep from * around and join: {flower}.\n") == ([9, 9], [])


UNTIL = ["until {} sts remain", "until there are only {} sts left", "till {} sts are left", "until only {} remain", "until you have {} sts"]


@pytest.mark.parametrize("until", UNTIL)
@pytest.mark.parametrize("work", ["(Sc2tog) around", "*Sc2tog; rep from *", "Dec", "(Sc2tog)"])
def test_decreases_go_on_until_so_many_are_left_in_the_round(work, until):
    row = f"{WIDE}Rnd 3: {work} {until}. Fasten off.\n"
    assert counts(row.format(9)) == ([9, 18, 9], [])
    assert counts(row.format(6))[1]


def test_stitches_left_before_more_work_are_left_in_the_row():
    row = FLAT + "Row 2: Ch 1, turn, sc2tog, sc in each st until 2 sts remain, sc2tog. (18 sc)\n"
    assert counts(row) == ([20, 18], [])


OFTEN = ["*", "do it 6 more", "*", "do this 6 more times", "*", "repeat this step 6 more times", "*", "repeat 6", "*", "repeat 6 more",
         "*", "repeat from * 6 x's", "*", "rep from * six (6) times", "*", "rep from * 6", "*", "rep from * seven times in all",
         "@", "repeat from @ 6 times", "@", "rep from @ around", "#", "rep from # around", "*", "rep from \u201d around", "*", "rep from (*) around",
         "*", "rep from the sign around"]  # fmt: skip


@pytest.mark.parametrize(("mark", "said"), list(zip(OFTEN[::2], OFTEN[1::2], strict=True)))
def test_a_repeat_is_told_with_other_signs_and_words(mark, said):
    assert counts(f"{RING}Rnd 2: {mark}2 sc in next sc; {said}.\n") == ([7, 14], [])


@pytest.mark.parametrize("said", ["do it 5 more", "do it for 7 more", "repeat 5", "repeat this step 7 more times", "repeat from * 5 x's", "rep from * five (5) times",
                                  "rep from * six times in all", "rep from * 8", "rep from \u2020 around"])  # fmt: skip
def test_too_many_or_too_few_are_told(said):
    assert counts(f"{RING}Rnd 2: *2 sc in next sc; {said}.\n")[1]


def test_a_larger_number_behind_the_star_is_the_count():
    assert counts(f"{RING}Rnd 2: *2 sc in next sc; rep from * 14.\n") == ([7, 14], [])
    assert counts(f"{RING}Rnd 2: *2 sc in next sc; rep from * 13.\n")[1]


@pytest.mark.parametrize("said", ["*, repeat between *'s to last 2 sts", ", repeat * to across until last 2 sts", "*, rep *...* to last 2 sts"])
def test_stars_in_the_plural_go_as_far_as_they_say(said):
    row = f"{FLAT}Row 2: Ch 1, turn, *sc in next 2 sts, 2 sc in next st{said}, sc in last 2 sts.\n"
    assert counts(row) == ([20, 26], [])
    assert counts(row.replace("last 2", "last 3"))[1]


def test_a_sign_says_where_the_last_repetition_ends():
    row = FLAT + "Row 2: Ch 1, turn, *2 sc in next sc +, sc in next 2 sc; rep from * across, end rep at +, sc in last sc.\n"
    assert counts(row) == ([20, 27], [])
    assert counts(row.replace("in last sc", "in last 3 sc"))[1]


def test_a_stretch_between_stars_is_told_again_further_on():
    row = FLAT + "Row 2: Ch 1, turn, *sc in next 3 sc, 2 sc in next sc*, sc in next 5 sc, repeat * to * once, sc in last 7 sc.\n"
    assert counts(row) == ([20, 22], [])
    assert counts(row.replace("last 7", "last 8"))[1]


@pytest.mark.parametrize("said", ["(Same as Rnd 2)", "Blue yarn/repeat rnd 2", "Green/same as rnd 2", "Grey yarn - rep rnd 2"])
def test_a_row_as_another_in_brackets_or_behind_its_yarn(said):
    assert counts(f"{RING}Rnd 2: Sc in each sc around.\nRnd 3: {said}.\n") == ([7, 7, 7], [])


RUNS = ["sc in next 3 sts with increase on the {}", "1 sc in next 3 spaces with an increase (2 sc) on the {}", "sc in 3 sts, inc in the {}",
        "sc in next three sts and increase in every {} st", "sc 3, 2 sc in {}", "sc in next 3 sts, 2 sc in the {} st"]  # fmt: skip


@pytest.mark.parametrize("run", RUNS)
def test_a_number_that_goes_on_from_a_run_is_the_next_stitch(run):
    row = f"{FLAT}Row 2: Ch 1, turn, *{run}; rep from * across.\n"
    assert counts(row.format("fourth")) == ([20, 25], [])
    assert counts(row.format("4th")) == ([20, 25], [])
    assert counts(row.format("sixth"))[1]


@pytest.mark.parametrize("run", ["work 8 sc, then increase in 9th and 10th, then sc in next 10", "sc 8, increase in the 9th and 10th sts, sc in the rest"])
def test_two_numbers_go_on_from_a_run(run):
    row = f"{FLAT}Row 2: Ch 1, turn, {run}. (22 sc)\n"
    assert counts(row) == ([20, 22], [])
    assert counts(row.replace("9th and", "8th and"))[1]


def test_groups_told_behind_a_repeat_are_counted_with_the_first():
    row = "US terms.\nCh 5, join.\nRnd 1: Ch 3, dc in ring, ch 2, *2 dc in ring, ch 2; rep from * 4 times (having {} groups with ch 2 between each group of 2 dc), join.\n"
    assert counts(row.format(6)) == ([12], [])
    assert counts(row.format(8))[1]


@pytest.mark.parametrize("said", ["*2 sc in next sc*, repeat *_* around", "Continuing around, *2 sc in next sc; rep from * to end"])
def test_signs_and_talk_beside_a_repeat(said):
    assert counts(f"{RING}Rnd 2: {said}. (14)\n") == ([7, 14], [])
    assert counts(f"{RING}Rnd 2: {said}. (15)\n")[1]


@pytest.mark.parametrize(("nth", "made"), [("every third", 24), ("every 6th", 21)])
def test_stitches_all_along_that_increase_in_every_so_manieth(nth, made):
    row = f"{WIDE}Rnd 3: Sc, increasing in {nth} st. ({{}})\n"
    assert counts(row.format(made)) == ([9, 18, made], [])
    assert counts(row.format(made + 1))[1]


def test_what_one_clause_is_for_is_no_count_of_the_row():
    text = "US terms.\nMagic ring.\nRnd 1: Ch 3, 2 dc in ring to create 3 dc. Ch 2, 3 dc in ring, wiggle the corner ch 2. (6 dc)\n"
    assert counts(text)[1]
