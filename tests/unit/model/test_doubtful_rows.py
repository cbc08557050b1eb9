"""A row that goes on from rows one of which cannot be read is not blamed for their number."""

from hookfold.charts.model.rows.work import work_text

SHORT = """Terms: US
Ch 17.
Row 1: Hdc in 2nd ch from hook and in each ch across. (16 hdc)
Row 2: Ch 1, turn, hdc in first 12 hdc, leave last 4 unworked. (12 hdc)
Row 3: Ch 1, {odd}turn, hdc in each hdc. (12 hdc)
Row 4: Ch 1, turn, hdc in each of next 8 hdc, leave 4 unworked. (8 hdc)
Row 5: Ch 1, turn, hdc in each hdc. (8 hdc)
Row 6: Ch 1, turn, hdc in each hdc across, hdc in each unworked hdc to end. ({last} hdc)
"""


def where(odd, last):
    return [p.where for p in work_text(SHORT.format(odd=odd, last=last)).problems]


def test_all_that_is_left_of_a_row_that_cannot_be_read_is_not_counted():
    assert where("", 16) == []
    assert where("plonk 1 sc against each of next 2 sts, ", 16) == ["Row 3"]


def test_a_wrong_number_is_still_found_where_all_can_be_read():
    assert where("", 17) == ["Row 6"]
