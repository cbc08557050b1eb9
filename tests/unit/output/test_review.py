"""The review: each point fails or passes on a pattern made so that it must."""

import pytest
from hookfold.charts import engrave
from hookfold.charts.errors import PatternError
from hookfold.charts.output.review.point import review_lines
from hookfold.charts.setting import Setting

MAT = '''
title = "Window-seat runner"
author = "Perpetua Linde"
licence = "CC0"
terms = "US"
hook = "5 mm"
yarn = { category = 3, fibre = "wool", swatch_weight = "10 g", swatch_size = "12 cm x 12 cm", ball = "50 g / 125 m" }
[gauge]
stitches = 15
rows = 17
over = "10 cm"
[object]
kind = "panel"
width = "200 mm"
height = "400 mm"
[colours]
A = { name = "plum", hex = "#5a2d4d" }
B = { name = "chalk", hex = "#eeeae0" }
[stitches.tuft]
is = "dc3tog in one st"
abbreviation = "tuft"
[[section]]
name = "body"
length = "height"
stripes = ["A", "B"]
texture = "any"
work = """
Row 1: Ch 1, turn. Sc in each st across.
Row 2: Ch 1, turn. Sc in first st, *tuft in next st, sc in next st; rep from * across.
"""
[sizes]
short = { height = "300 mm", width = "200 mm" }
middle = { height = "400 mm", width = "200 mm" }
long = { height = "500 mm", width = "200 mm" }
'''


def points(text, name="runner.toml"):
    return {point.what: point for point in engrave.review(text, name, Setting())}


def test_a_sound_pattern_fails_in_nothing():
    found = points(MAT)
    assert [p for p in found.values() if p.found == "failed"] == []
    assert found["rows add up"].found == "passed"
    assert found["the words read back make the rows of the chart"].found == "passed"
    times, of, plus = 14, 2, 1
    assert f"{times * of + plus} = {times} x {of} + {plus}" in found["the foundation is a multiple of the repeat"].figure


@pytest.mark.parametrize(
    ("old", "new", "what", "found"),
    [
        ('over = "10 cm"', 'over = "5 cm"', "gauge from a swatch of 10 cm", "look"),
        ('over = "10 cm"', 'over = "10 cm"\nestimated = true', "gauge from a swatch", "failed"),
        ("category = 3", "category = 6", "gauge plausible for the yarn", "look"),
        ('hook = "5 mm"', 'hook = "9 mm"', "hook plausible for the yarn", "look"),
        ('swatch_weight = "10 g", swatch_size = "12 cm x 12 cm", ', "", "yarn amounts", "look"),
        ("#5a2d4d", "#e6e2d8", "colours told apart by most readers", "look"),
        ("#eeeae0", "#7a7a33", "colours told apart in grey", "look"),
        ('licence = "CC0"', "", "what a buyer asks for", "look"),
        ("*tuft in next", "*dc in next", "special stitches explained are used", "failed"),
        ('long = { height = "500 mm", width = "200 mm" }', 'long = { height = "800 mm", width = "200 mm" }', "sizes in order and evenly graded, height", "look"),
        ('terms = "US"\n', 'terms = "US"\nnotes = "a"\n', "one set of terms", "passed"),
    ],
)
def test_a_point_finds_what_it_is_for(old, new, what, found):
    assert old in MAT
    assert points(MAT.replace(old, new))[what].found == found


def test_sizes_that_shrink_in_one_direction_fail():
    text = MAT.replace('long = { height = "500 mm", width = "200 mm" }', 'long = { height = "900 mm", width = "120 mm" }')
    assert points(text)["sizes in order and evenly graded, width"].found == "failed"


def test_what_does_not_apply_is_said_so():
    text = MAT.split("[sizes]")[0].replace('["A", "B"]', '["A"]')
    found = points(text)
    assert found["sizes in order and evenly graded"].found == "does not apply"
    assert found["colours told apart"].found == "does not apply"


def test_a_pattern_that_cannot_be_worked_is_reported_as_ever():
    with pytest.raises(PatternError):
        points(MAT.replace("sc in next st; rep", "sc in nxet frob; rep"))


def test_a_written_pattern_with_a_wrong_count_fails():
    text = "Terms: US\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (11 sc)\nRow 2: Ch 1, turn. Sc in each st across.\n"
    found = points(text, "mat.txt")
    assert found["rows add up"].found == "failed" and "Row 1" in found["rows add up"].figure
    assert found["every row states its count"].found == "look"


def test_the_lines_end_with_how_many_came_out_how():
    every = engrave.review(MAT, "runner.toml", Setting())
    *_, last = review_lines(every)
    assert last.startswith(f"{sum(p.found == 'passed' for p in every)} passed")


def test_the_sheet_for_testers_has_what_the_pattern_says_in_every_size():
    sheet = engrave.tester(MAT, "runner.toml", Setting())
    head, *rows = [[cell.strip() for cell in line.strip("|").split("|")] for line in sheet.splitlines() if line.startswith("|")]
    assert head == ["what", "size short", "size middle", "size long", "yours"]
    said = {cells[0]: cells[1:-1] for cells in rows}
    assert said["chains"] == ["30"] * 3 and said["stitches in row 1"] == ["29"] * 3
    lengths = next(cells for what, cells in said.items() if what.startswith("length of body, after row"))
    grams = [int(cell.split()[0]) for cell in said["yarn used, A (weigh before and after)"]]
    assert [float(cell.split()[0]) for cell in lengths] == sorted(float(cell.split()[0]) for cell in lengths)
    assert len(set(lengths)) == 3 and grams == sorted(set(grams))


def test_the_sheet_of_one_size_says_what_the_pattern_says():
    sheet = engrave.tester(MAT.split("[sizes]")[0], "runner.toml", Setting())
    for said in ("| what | the pattern says | yours |", "| chains | 30 | __________ |", "yarn used, A"):
        assert said in sheet, said


WRITTEN = """Terms: US
Abbreviations: ch chain, sc single crochet, st stitch, dc double crochet, tog together
Special stitch: Tuft: dc3tog in one st.
Ch 12.
Row 1: Sc in 2nd ch from hook and in each ch across. (11 sc)
Row 2: Ch 1, turn. Sc in first st, *tuft in next st, sc in next st; rep from * across. (6 sc, 5 tuft)
Row 3: Ch 1, turn. Sc in each st across. (11 sc)
"""


def test_a_sound_written_pattern_fails_in_nothing():
    assert [p for p in points(WRITTEN, "mat.txt").values() if p.found == "failed"] == []


@pytest.mark.parametrize(
    ("old", "new", "what", "found", "named"),
    [
        ("Row 3: Ch 1, turn. Sc", "Row 4: Ch 1, turn. Sc", "rows are numbered in order", "look", "Row 4 comes after Row 2"),
        ("Row 3: Ch 1, turn. Sc", "Row 2: Ch 1, turn. Sc", "rows are numbered in order", "look", "Row 2"),
        ("Sc in each st across. (11 sc)", "Htr in each st across. (11 htr)", "one set of terms", "failed", "htr"),
        ("Sc in each st across. (11 sc)", "Hdc in each st across. (11 hdc)", "abbreviations used are explained", "failed", "hdc"),
        ("Abbreviations: ch chain, sc single crochet, st stitch, dc double crochet, tog together\n", "",
         "abbreviations used are explained", "look", "no list"),
        ("*tuft in next st, sc in next st", "*dc in next st, sc in next st", "special stitches explained are used", "failed", "Tuft"),
        ("Special stitch: Tuft: dc3tog in one st.\n", "", "special stitches explained are used", "does not apply", "none"),
    ],
)  # fmt: skip
def test_a_point_of_a_written_pattern_finds_what_it_is_for(old, new, what, found, named):
    assert old in WRITTEN
    text = WRITTEN.replace(old, new).replace("5 tuft", "5 dc" if "*dc in" in new else "5 tuft")
    if not new:
        text = text.replace("tuft in", "dc in").replace("5 tuft", "5 dc") if "Tuft" in old else text
    point = points(text, "mat.txt")[what]
    assert point.found == found and named.lower() in point.figure.lower()
