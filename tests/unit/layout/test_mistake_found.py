"""The row that does not add up, found in a worked pattern."""

from hookfold.charts import engrave
from hookfold.charts.layout.sheets.mistake_found import SHOWN_BEFORE, mistake_of
from hookfold.charts.model.rows.work import work_text

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


def test_of_words_that_cannot_be_read_there_is_no_picture():
    assert mistake_of(work_text(HEAD + "Row 2: Ch 1, sc in next 7 sc, xyz in next sc, turn.")) is None


def test_of_a_long_row_only_the_end_is_shown():
    long = "Terms: US\nCh 61.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (60 sc)\n"
    mistake = mistake_of(work_text(long + "Row 2: Ch 1, *2 sc in next sc, sc in next 6 sc; rep from * across, turn."))
    assert len(mistake.left) == 4
    assert len(mistake.shown) == len(mistake.left) + SHOWN_BEFORE + 1  # the turning chain of the base lies past its end
    worked_into = {f.at for s in mistake.made for f in s.feet}
    assert worked_into & set(mistake.shown) and not worked_into & set(mistake.left)


def test_a_round_is_laid_the_way_its_base_was_worked():
    rounds = (
        "Terms: US\nMake a magic ring.\nRnd 1: Ch 1, 8 sc in ring, join with sl st in first sc.\n"
        "Rnd 2: Ch 1, *2 sc in next sc, sc in next 2 sc; rep from * around, join with sl st in first sc.\n"
    )
    mistake = mistake_of(work_text(rounds))
    assert mistake is not None and not mistake.turned and len(mistake.left) == 2
    feet = [f.at for s in mistake.made if s.role == "stitch" for f in s.feet]
    assert feet == sorted(feet) and len(feet) == 8
