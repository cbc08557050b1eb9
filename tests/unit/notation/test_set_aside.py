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
@pytest.mark.parametrize("count", ["", " (19)", " (21)"])
def test_without_its_count_the_row_is_not_read(tail, count):
    report = engrave.check(f"{BEGUN}Row 2: Ch 1, turn, sc in each st {tail}.{count}\n", "a.txt").as_json()
    assert [problem["where"] for problem in report["problems"]] == ["Row 2"]


@pytest.mark.parametrize(
    "work",
    ["of the flurb loop", "in the third flurb", "for 3 flurbs", "under the flurb", "twisted", "through the flurb", "of flurb sts",
     "on the flurb of next sc", "with 2 flurbs", "in each flurb"],
)  # fmt: skip
def test_what_may_be_work_is_never_set_aside(work):
    report = engrave.check(f"{BEGUN}Row 2: Ch 1, turn, sc in next 10 sts {work}, sc in next 10 sts. (20)\n", "a.txt").as_json()
    assert [problem["where"] for problem in report["problems"]][:1] == ["Row 2"]
