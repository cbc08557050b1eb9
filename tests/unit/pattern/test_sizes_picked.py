"""One size's numbers out of a text for several; the others are blotted out where they stand."""

import pytest
from hookfold.charts.pattern.written.agreed.sizes import picked, size_count, size_names


@pytest.mark.parametrize(
    ("line", "each"),
    [
        ("Rows 13-52 (13-60, 15-74): Rep Rows 9-12 (9-12, 11-14) 10 (12, 15) times.",
         ["Rows 13-52: Rep Rows 9-12 10 times.", "Rows 13-60: Rep Rows 9-12 12 times.", "Rows 15-74: Rep Rows 11-14 15 times."]),
        ("Row 9 (9, 11): 37 (45, 53) sts.", ["Row 9: 37 sts.", "Row 9: 45 sts.", "Row 11: 53 sts."]),
        ("Row 2 (2-3, 2-5): Turn.", ["Row 2: Turn.", "Row 2-3: Turn.", "Row 2-5: Turn."]),
        ("Rows 2-9 (2-11): Turn.", ["Rows 2-9: Turn.", "Rows 2-11: Turn."]),
        ("Ch 21 (25-29).", ["Ch 21.", "Ch 25.", "Ch 29."]),
    ],
)  # fmt: skip
def test_the_numbers_and_the_rows_of_a_size(line, each):
    for size, wanted in enumerate(each):
        found = picked(line, line.lower(), size, len(each))
        assert len(found) == len(line)
        assert " ".join(found.split()).replace(" :", ":").replace(" .", ".") == wanted


def test_rows_of_several_sizes_are_counted_as_one_number_each():
    assert size_count("rep rows 9-12 (9-12, 11-14) 10 (12, 15) times. ") == 3


def test_a_row_after_the_word_size_is_no_name_of_a_size():
    assert size_names("for size short only:\nrow 1 (rs): sc across.") == ()
