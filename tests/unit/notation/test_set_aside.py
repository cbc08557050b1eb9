"""Words that name no work are set aside where the row proves itself without them, and that is said."""

from __future__ import annotations

import pytest
from hookfold.charts import engrave

BEGUN = "Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20)\n"
TAILS = ("for the ruffle", "of the pouch's flap", "as it should", "on working rows")


@pytest.mark.parametrize("tail", TAILS)
def test_what_is_set_aside_is_said_at_its_row(tail):
    report = engrave.check(f"{BEGUN}Row 2: Ch 1, turn, sc in each st {tail}. (20)\n", "a.txt").as_json()
    assert report["problems"] == []
    said = [note for note in report["notes"] if "set aside" in note["says"]]
    assert [note["where"] for note in said] == ["Row 2"] and tail in said[0]["says"]


@pytest.mark.parametrize("tail", TAILS)
@pytest.mark.parametrize("count", [" (19)", " (21)"])
def test_with_another_count_the_row_is_not_read(tail, count):
    report = engrave.check(f"{BEGUN}Row 2: Ch 1, turn, sc in each st {tail}.{count}\n", "a.txt").as_json()
    assert [problem["where"] for problem in report["problems"]] == ["Row 2"]


@pytest.mark.parametrize("tail", TAILS)
def test_a_row_that_comes_out_even_needs_no_count_for_a_tail(tail):
    report = engrave.check(f"{BEGUN}Row 2: Ch 1, turn, sc in each st {tail}.\n", "a.txt").as_json()
    assert report["problems"] == []
    assert [n["where"] for n in report["notes"] if tail in n["says"] and "comes out even" in n["says"]] == ["Row 2"]


@pytest.mark.parametrize("tail", TAILS)
def test_a_row_that_does_not_come_out_even_is_not_read_with_a_tail(tail):
    report = engrave.check(f"{BEGUN}Row 2: Ch 1, turn, sc in next 12 sts {tail}.\n", "a.txt").as_json()
    assert [problem["where"] for problem in report["problems"]] == ["Row 2"]


@pytest.mark.parametrize(
    "work",
    ["of the flurb loop", "in the third flurb", "for 3 flurbs", "under the flurb", "twisted", "through the flurb", "of flurb sts",
     "on the flurb of next sc", "with 2 flurbs", "in each flurb"],
)  # fmt: skip
def test_what_may_be_work_is_never_set_aside(work):
    report = engrave.check(f"{BEGUN}Row 2: Ch 1, turn, sc in next 10 sts {work}, sc in next 10 sts. (20)\n", "a.txt").as_json()
    assert [problem["where"] for problem in report["problems"]][:1] == ["Row 2"]


@pytest.mark.parametrize("lead", ["dial", "kindly", "briskly trot"])
def test_a_lead_that_names_no_work_is_set_aside_where_the_count_proves_the_row(lead):
    told = f"{BEGUN}Row 2: Ch 1, turn, sc in next 12 sts, {lead} 2 sc in next st, sc in next 7 sts."
    counted = engrave.check(f"{told} (21)\n", "a.txt").as_json()
    assert counted["problems"] == [] and any(lead in note["says"] for note in counted["notes"])
    for count in ("", " (20)"):
        report = engrave.check(f"{told}{count}\n", "a.txt").as_json()
        assert [problem["where"] for problem in report["problems"]][:1] == ["Row 2"]


@pytest.mark.parametrize("name", ["zig", "zdc", "htr", "frobble"])
def test_what_may_be_a_stitch_is_no_lead(name):
    report = engrave.check(f"Terms: US\n{BEGUN}Row 2: Ch 1, turn, {name} in next st, sc in each st across. (20)\n", "a.txt").as_json()
    assert [problem["where"] for problem in report["problems"]][:1] == ["Row 2"]


@pytest.mark.parametrize("tail", ["from 3 flurbs", "of next flurb", "in 2 flurbs left", "made behind the flurb"])
def test_words_behind_a_single_place_that_may_be_work_are_no_second_telling_of_it(tail):
    report = engrave.check(f"{BEGUN}Row 2: Ch 1, turn, sc in first st {tail}, sc in next 19 sts.\n", "a.txt").as_json()
    assert [problem["where"] for problem in report["problems"]][:1] == ["Row 2"]
