"""One phrase that nobody can read is told at its row alone; what the row makes all the same is handed on (common practice, no source)."""

from __future__ import annotations

import pytest
from hookfold.charts import engrave


def behind(text: str, broken: str) -> list[int]:
    """What the rows behind the broken one make; only the broken row is complained of."""
    report = engrave.check(text, "a.txt").as_json()
    assert {problem["where"] for problem in report["problems"]} == {broken}
    labels = [row["label"] for row in report["rows"]]
    return [row["stitches"] for row in report["rows"][labels.index(broken) + 1 :]]


BALL = "Rnd 1: 6 sc in magic ring.\nRnd 2: 2 sc in each st around.\n"
FLAT = "Ch 17.\nRow 1: Hdc in 2nd ch from hook and in each ch across.\n"
LACE = "Ch 5, join with sl st.\nRnd 1: Ch 1, 12 sc in ring, join.\n"


@pytest.mark.parametrize(
    ("text", "broken", "made"),
    [
        (f"{BALL}Rnd 3: *2 sc in next st, zindle; rep from * around.\nRnd 4: Sc in each st around.\n", "Rnd 3", [18]),
        (f"{BALL}Rnd 3: Sc in next 5 sts, snorkel in next st, sc in next 6 sts.\nRnd 4: Sc in each st around. (13)\n", "Rnd 3", [13]),
        (f"{BALL}Rnd 3: (Sc 4, blorf) x 2.\nRnd 4: Sc in each st around. (10)\nRnd 5: Sc in each st around.\n", "Rnd 3", [10, 10]),
        (f"{BALL}Rnd 3: Sc in next 11 sts, snorkel in next st.\nRnd 4: (Sc 6, inc) x 2.\n", "Rnd 3", [16]),
        (f"{FLAT}Row 2: Ch 1, turn, 2 hdc in first st, hdc in each st to last st, jurb in last st.\nRow 3: Ch 1, turn, hdc in each st across.\n", "Row 2", [18]),
        (f"{LACE}Rnd 2: Ch 4, *dc in next sc, frizz 1; rep from * around, join in 3rd ch of ch-4.\nRnd 3: Ch 1, 2 sc in each ch-1 sp around, join.\n", "Rnd 2", [24]),
        (f"{LACE}Rnd 2: Ch 1, sc in same st, *ch 3, grub 2 sc, sc in next sc; rep from * around, ch 3, sl st in first sc.\n"
         "Rnd 3: Sl st in first sp, ch 1, (sc, 3 dc, sc) in each sp around, sl st in first sc.\n", "Rnd 2", [20]),
        (f"{LACE}Rnd 2: Ch 3, dc in same st, 2 dc in each sc around, twirk in top of ch 3.\nRnd 3: Ch 1, sc in each dc around, join.\n", "Rnd 2", [24]),
    ],
)  # fmt: skip
def test_a_row_with_one_unread_phrase_hands_on_what_it_makes(text, broken, made):
    assert behind(text, broken) == made


def test_the_next_row_chooses_among_what_the_phrase_may_stand_for():
    broken = f"{BALL}Rnd 3: Sc in next 11 sts, snorkel in next st.\n"
    for count in (12, 13, 14):
        assert behind(f"{broken}Rnd 4: Sc in each st around. ({count})\n", "Rnd 3") == [count]


def test_a_row_that_no_reading_of_the_phrase_carries_is_not_called_right():
    text = f"{BALL}Rnd 3: Sc in next 11 sts, snorkel in next st.\nRnd 4: Sc in each st around. (31)\n"
    report = engrave.check(text, "a.txt").as_json()
    assert report["problems"] and report["rows"][3]["proved"] != "yes"
