"""Clauses that tell no work are set apart by how they are built; what may be work is told or read (common practice, no source)."""

from __future__ import annotations

import pytest
from hookfold.charts import engrave
from hookfold.charts.pattern.notation.talk.judge import tells_no_work
from hookfold.charts.pattern.notation.talk.said_as_talk import hides_work

FLAT = "Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20)\nRow 2: {}Ch 1, turn, sc in next 10 sts{}, 2 sc in next st, sc in next 9 sts{}. (21)\n"
TALK = (
    "you will have a little pocket now", "every side has two ch-1 spaces", "it will look wavy", "keep your tension loose here",
    "the beginning of the round creeps to the right", "this is where the strap goes", "don't panic", "pass the hook behind the petals",
    "so that the edge stays straight", "the stripe has 5 rows now", "it's easier than it sounds", "take your time with this one",
    "the edges may curl a little", "we are halfway there", "because the sides would otherwise slant", "push the petals to the front",
    "easy does it", "my sister never did it that way", "notice how the ridge leans", "be gentle with the yarn", "phew",
)  # fmt: skip
WORK = (
    "keep working dc in each st to the marker", "there will be 3 sts left", "leave the last 3 sts", "this time in the back loops",
    "it now gets a picot on every third st", "every corner gets an extra dc", "the next 4 are hdc", "a shell goes in every gap",
    "you should skip the first st", "so that 4 sts remain unworked", "which is passed over", "drop the loop and draw it through",
    "the last one goes in the ring", "squeeze 2 into one", "shift over one st with a sl st", "it takes 2 tr to fill the gap",
    "does not count as a st", "with a 8", "so 17", "no changes", "the sides are joined with a sl st", "flurb gently in the next dc",
)  # fmt: skip


@pytest.mark.parametrize("said", TALK)
def test_what_tells_no_work_is_known_by_its_build(said):
    assert tells_no_work(said)


@pytest.mark.parametrize("said", WORK)
def test_what_may_be_work_is_no_talk(said):
    assert not tells_no_work(said)


@pytest.mark.parametrize("said", TALK)
@pytest.mark.parametrize("at", [0, 1, 2])
def test_a_row_is_read_beside_talk_wherever_that_stands(said, at):
    begun = said[0].upper() + said[1:]
    put = [(f"{begun}. ", "", ""), ("", f" - {said} -", ""), ("", "", f" ({said})")][at]
    text = FLAT.format(*put).replace("- ,", "-")
    report = engrave.check(text, "a.txt").as_json()
    assert (report["problems"], [row["stitches"] for row in report["rows"]]) == ([], [20, 21])


def test_talk_that_names_a_number_is_noted_and_other_talk_is_not():
    report = engrave.check(FLAT.format("", ", the stripe has 5 rows now", ", it will look wavy"), "a.txt").as_json()
    assert report["problems"] == [] and [note["says"] for note in report["notes"]] == ['"the stripe has 5 rows now" was passed over']


def test_a_condition_keeps_the_work_that_it_leads_to_from_being_told_as_the_row():
    told = FLAT.format("", "", ". If your edge is loose, work sc2tog over the last 2 sts")
    assert engrave.check(told, "a.txt").as_json()["problems"] == []


@pytest.mark.parametrize("said", ["every corner gets an extra dc", "the next 4 are hdc", "note that the last dc is left out", "you should skip the first st"])
@pytest.mark.parametrize("put", [". {}", " ({})"])
def test_work_told_as_talk_is_complained_of(said, put):
    assert hides_work(said)
    report = engrave.check(FLAT.format("", "", put.format(said[0].upper() + said[1:])), "a.txt").as_json()
    assert "Row 2" in [problem["where"] for problem in report["problems"]]
