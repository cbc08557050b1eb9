"""The colours that a section's words name: taken by the rows, told where the file does not know them."""

import pytest
from hookfold.charts import engrave
from hookfold.charts.errors import PatternError
from hookfold.charts.model.sections.read import read_sections
from hookfold.charts.model.sections.whole import work_piece
from hookfold.charts.model.sizing.from_pattern import request_of
from hookfold.charts.model.sizing.size import size
from hookfold.charts.pattern.file.read import read_pattern
from hookfold.charts.setting import Setting
from section_patterns import HEAD

COLOURS = """[colours]
A = { name = "smoke", hex = "#37474f" }
B = { name = "birch", hex = "#d9d2c5" }
"""
SC = "ch 1, turn. Sc in each st across"


def mat(work, keys="", colours=COLOURS):
    return f"""{HEAD}{colours}[[section]]
name = "mat"
rows = 9
{keys}work = \"\"\"
{work}
\"\"\"
"""


def colours_of(text):
    pattern = read_pattern(text, "mat.toml")
    read = read_sections(pattern)
    plan = size(request_of(pattern, [s.text for s in read.sections]))
    _, fabric = work_piece(read, plan, pattern)
    return "".join(row.colour or "-" for row in fabric.rows), read, pattern


@pytest.mark.parametrize(
    ("work", "keys", "colours"),
    [
        (f"Row 1: With B, {SC}.\nRow 2: With A, {SC}.", "", "BABABABAB"),
        (f"Row 1: {SC}, changing to B in last yo.\nRow 2: {SC}, changing to A in last yo.", "", "ABABABABA"),
        (f"Row 1: {SC}, changing to birch in last st.\nRow 2: {SC}.\nRow 3: {SC}, change to smoke.", "", "ABBABBABB"),
        (f"Row 1: Join B, {SC}.\nRow 2: {SC}.\nRow 3: Join A, {SC}.", "", "BBABBABBA"),
        # What the section says is what the first row begins with; what a row leaves goes on where the rows repeat.
        (f"Row 1: {SC}.\nRow 2: With A, {SC}.", 'colour = "B"\n', "BAAAAAAAA"),
        (f"Row 1: With A, {SC}.\nRow 2: With B, {SC}.\nRow 3: With A, {SC}.\nRep Rows 2 and 3.", "", "ABABABABA"),
        (f"Row 1: {SC}.\nRow 2: With B, {SC}.\nRow 3: With A, rep Row 1.", "", "ABAABAABA"),
        (f"Row 1: {SC}.", 'stripes = ["A", "B", "B"]\n', "ABBABBABB"),
    ],
)
def test_the_words_colour_the_rows(work, keys, colours):
    assert colours_of(mat(work, keys))[0] == colours


def test_a_colour_named_in_the_words_is_in_the_key_and_said_once():
    text = mat(f"Row 1: {SC}, changing to birch in last yo.\nRow 2: {SC}, changing to A in last yo.", 'colour = "A"\n')
    assert [c.letter for c in read_pattern(text, "mat.toml").used_colours] == ["A", "B"]
    words = engrave.instructions(text, "mat.toml", Setting())
    assert "across, changing to B in last yo of last st. (20 sts)" in words
    assert "birch in last yo" not in words


@pytest.mark.parametrize(
    ("work", "keys", "kind", "says", "place"),
    [
        (f"Row 1: {SC}.\nRow 2: With C, {SC}.", "", "value", 'colour "C" is not in [colours], which has A, B', (19, 8)),
        (
            f"Row 1: With B, {SC}.\nRow 2: With A, {SC}.",
            'stripes = ["A", "B"]\n',
            "ambiguous",
            "stripes are given, and the words of the rows name colours, too",
            (19, 1),
        ),
    ],
)
def test_colours_that_cannot_be_are_told_at_their_place(work, keys, kind, says, place):
    with pytest.raises(PatternError) as found:
        read_sections(read_pattern(mat(work, keys), "mat.toml"))
    (problem,) = found.value.problems
    assert (problem.kind, problem.says, (problem.line, problem.column)) == (kind, says, place)


@pytest.mark.parametrize(
    ("work", "colours", "says"),
    [
        (f"Row 1: With B, {SC}.", "", "the words name colours, and the file has no [colours]; the rows are drawn without"),
        (
            "Row 1: Ch 1, turn. With A, sc in next 3 sts, with B, sc in each st across.",
            COLOURS,
            'the yarn of the row is reckoned in one colour; "B" is taken inside it',
        ),
        (
            "Row 1: Ch 1, turn. Sc in next 3 sts changing to B in last yo, sc in each st across.",
            COLOURS,
            'the yarn of the row is reckoned in one colour; "B" is taken inside it',
        ),
    ],
)
def test_what_is_not_drawn_of_the_colours_is_noted(work, colours, says):
    _, read, _ = colours_of(mat(work, "", colours))
    assert [note.says for note in read.notes] == [says]
