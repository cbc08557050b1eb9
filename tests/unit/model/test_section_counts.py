"""Counts stated in a section's rows: right over the piece's width, of another width, or of none."""

import pytest
from hookfold.charts.errors import PatternError
from hookfold.charts.model.sections.read import read_sections
from hookfold.charts.pattern.file.read import read_pattern
from section_patterns import HEAD

SC = "Ch 1, turn. Sc in each st across."
TWO = "Ch 1, turn. *Sc in next st, dc in next st; rep from * across."
FIVE = "Ch 1, turn. Sc in first st, *puff in next st, sc in next 5 sts; rep from * across."
MESH = "Ch 4 (counts as dc, ch 1), turn. Sk next st, dc in next st, *ch 1, sk next st, dc in next st; rep from * across."


def read(work):
    """A mat of 20 cm at 10 stitches to 10 cm: 20 stitches, or as near as its rows allow."""
    text = f"""{HEAD}[[section]]
name = "mat"
length = "height"
texture = "any"
work = \"\"\"
{work}
\"\"\"
"""
    return read_sections(read_pattern(text, "mat.toml"))


@pytest.mark.parametrize(
    "work",
    [
        f"Row 1: {SC} (20 sc)",
        f"Row 1: {TWO} (10 sc, 10 dc)",
        f"Row 1: {FIVE} (16 sc, 3 puffs)",
        f"Row 1: {MESH} (10 dc, 9 ch-1 sps)",
        f"Row 1: {SC} (20 sc)\nRows 2-3: {TWO} (20 sts)",
    ],
)
def test_a_count_that_is_right_over_the_width_is_not_spoken_of(work):
    assert read(work).notes == ()


@pytest.mark.parametrize(
    ("work", "says", "line", "column"),
    [
        (f"Row 1: {SC} (24 sc)", 'the count "24 sc" belongs to 24 stitches; over the 20 of this piece it is 20', 16, 43),
        (
            f"Row 1: {SC}\nRow 2: {TWO} (12 sc, 12 dc)",
            'the count "12 sc" belongs to 24 stitches; over the 20 of this piece it is 10',
            17,
            71,
        ),
        # One sc and five a repeat: 21 of them over 4 repeats, which are 25 stitches; 19 stitches have 3 repeats.
        (
            f"Row 1: {FIVE} (21 sc, 4 puffs)",
            'the count "21 sc" belongs to 25 stitches; over the 19 of this piece it is 16',
            16,
            92,
        ),
        (f"Row 1: {MESH} (8 dc, 7 ch-1 sps)", 'the count "8 dc" belongs to 15 stitches; over the 19 of this piece it is 10', 16, 122),
    ],
)  # fmt: skip
def test_a_count_of_another_width_is_noted_with_that_width(work, says, line, column):
    (note,) = read(work).notes
    assert (note.says, note.line, note.column) == (says, line, column)


@pytest.mark.parametrize(
    ("work", "says", "line"),
    [
        (f"Row 1: {SC} (24 sc)\nRow 2: {SC} (25 sc)", 'the count "25 sc" belongs to 25 stitches, and "24 sc" of Row 1 to 24', 17),
        (f"Row 1: {TWO} (12 sc, 13 dc)", 'the count "13 dc" belongs to 26 stitches, and "12 sc" of Row 1 to 24', 16),
        (f"Row 1: {TWO} (23 sts)",
         'the count "23 sts" belongs to no number of stitches that these rows go over; the row makes 22 or 24', 16),
        (f"Row 1: {FIVE} (20 sts)",
         'the count "20 sts" belongs to no number of stitches that these rows go over; the row makes 19 or 25', 16),
    ],
)  # fmt: skip
def test_counts_that_no_width_gives_are_a_mistake(work, says, line):
    with pytest.raises(PatternError) as found:
        read(work)
    (problem,) = found.value.problems
    assert (problem.kind, problem.says, problem.line) == ("impossible", says, line)
    assert problem.text[problem.column - 1 :].startswith(says.split('"')[1])
