"""The row that does not add up, found in a worked pattern."""

from hookfold.charts import engrave
from hookfold.charts.layout.mistake_found import mistake_of
from hookfold.charts.model.work import work_text

HEAD = "Terms: US\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (10 sc)\n"


def test_what_is_left_over_is_the_end_of_the_row_below_in_the_order_of_work():
    mistake = mistake_of(work_text(HEAD + "Row 2: Ch 1, sc in next 7 sc, turn."))
    assert mistake.left == (3, 2, 1)
    assert not mistake.missing and "Row 2" in mistake.says


def test_what_is_missing_is_counted_from_the_words():
    mistake = mistake_of(work_text(HEAD + "Row 2: Ch 1, sc in next 8 sc, [2 sc in next sc, sc in next sc] 2 times."))
    assert mistake is not None and not mistake.left
    assert len(mistake.missing) >= 1


def test_a_pattern_that_adds_up_has_no_picture():
    assert mistake_of(work_text(HEAD + "Row 2: Ch 1, sc in each sc across.")) is None
    assert engrave.picture(HEAD, "fine.txt") is None


def test_the_picture_is_a_sheet():
    drawn = engrave.picture(HEAD + "Row 2: Ch 1, sc in next 7 sc, turn.", "short.txt")
    assert drawn is not None and b"3 left over" in drawn
