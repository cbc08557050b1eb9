"""The written pattern as a page."""

import itertools
import re
from dataclasses import replace
from pathlib import Path

import pytest
from hookfold.charts import engrave
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.output.words import cautions
from hookfold.charts.pattern.file.read import read_pattern
from hookfold.charts.setting import Setting

SCARF = """title = "Ferry scarf"
author = "Invented Maker"
terms = "US"
hook = "5 mm"
yarn = { fibre = "acrylic" }
[gauge]
stitches = 12
rows = 10
over = "10 cm"
[object]
kind = "panel"
width = "20 cm"
height = "60 cm"
[colours]
A = { name = "tide", hex = "#2f4f5f" }
B = { name = "sand", hex = "#e2d6b5" }
[[section]]
name = "scarf"
length = "height"
stripes = ["A", "A", "B", "B"]
work = \"\"\"
Row 1: Ch 1, turn. Sc in each st across.
Row 2: Ch 1, turn. Sc in first st, *puff in next st, sc in next st; rep from * across.
\"\"\"
[border]
stitch = "sc"
"""


@pytest.fixture(scope="module")
def page():
    return engrave.instructions(SCARF, "scarf.toml", Setting())


def test_rows_stand_in_order_and_every_one_is_named_once(page):
    named = []
    for first, last in re.findall(r"^Rows? (\d+)(?:–(\d+))?(?: \([RW]S\))?:", page, re.MULTILINE):
        named += range(int(first), int(last or first) + 1)
    assert named == list(range(1, len(named) + 1))
    assert len(named) == len(engrave.work_file(SCARF, "scarf.toml").fabric.rows)


def test_repeated_rows_are_gathered(page):
    assert re.search(r"^Rows \d+–\d+: Rep Rows \d+–\d+( twice| \d+ times)?\.(?: Cut \w after Row \d+\.)*$", page, re.MULTILINE)


def test_the_colour_changes_in_the_last_yarn_over_of_the_row_before(page):
    changing = [line for line in page.split("\n") if "changing to B in last yo" in line]
    assert changing and all(line.startswith("Row ") for line in changing)
    assert page.index("With A, ch") < page.index("changing to B")


def test_uk_words_hold_no_us_only_term():
    page = engrave.instructions(SCARF, "scarf.toml", Setting(terms="UK"))
    assert not re.search(r"\b(sc|hdc|sl st)\b", page)
    assert "double crochet" in page and "Tension" in page


def test_the_left_hand_is_told_what_is_different():
    page = engrave.instructions(SCARF, "scarf.toml", Setting(hand="left"))
    assert "right-side rows run from left to right" in page


def test_cautions_name_heat_for_acrylic(page):
    assert "melt" in page and "care label" in page


def test_a_written_pattern_is_tidied_with_its_counts():
    text = "ch 9.\nrow 1: sc in 2nd ch from hook & in each ch across.\nrow 2: ch 1, turn, *sc in next st, ch 1, skip next st; repeat from * across."
    tidy = engrave.instructions(text, "mesh.txt", Setting())
    assert "Row 1: Sc in 2nd ch from hook and in each ch across. (8 sts)" in tidy
    assert "(4 sc, 4 ch-1 sps)" in tidy
    back = work_text(tidy)
    assert not back.problems
    assert [r.row.kinds() for r in back.fabric.rows] == [{"sc": 8}, {"sc": 4}]


def test_cautions_apply_to_the_fibre_and_to_every_object():
    pattern = read_pattern((Path(__file__).parents[2] / "invalid" / "sound.toml.txt").read_text("utf-8"))
    for fibre, melts in (("cotton", False), ("wool", False), ("acrylic blend", True), ("nylon", True), ("", False)):
        said = " ".join(cautions(replace(pattern, yarn=replace(pattern.yarn, fibre=fibre))))
        assert ("melt" in said) is melts
        assert "care label" in said and "cotton or wool only" not in said, "only of what stands heat"
    assert "small parts" in " ".join(cautions(replace(pattern, notions="two buttons"))).lower()


def test_a_caution_for_babies_stands_only_where_a_size_is_a_baby_s():
    file = Path(__file__).parents[3] / "gallery" / "more" / "ferry-hat" / "pattern.toml"
    text = file.read_text("utf-8")
    for sizes, told in (("", False), ('baby = { size = "baby" }\n', True)):
        said = " ".join(cautions(read_pattern(text + sizes)))
        assert ("For a baby: sew on no ties" in said) is told


def test_rows_alike_are_gathered_inside_rows_that_come_again():
    plain = SCARF[: SCARF.index("stripes")] + 'stripes = ["A", "A", "A", "A", "B"]\nwork = "Row 1: Ch 1, turn. Sc in each st across."\n'
    rows = re.findall(r"^Rows? .*$", engrave.instructions(plain, "scarf.toml", Setting()), re.MULTILINE)
    alike = [one.partition(": ")[2] for one in rows]
    assert any("Rep Rows" in one for one in rows)
    assert not [a for a, b in itertools.pairwise(alike) if a == b and not a.startswith("Rep")]


def test_what_is_not_carried_is_cut_and_what_rests_is_not():
    page = engrave.instructions(SCARF, "scarf.toml", Setting())
    piece = engrave.work_file(SCARF, "scarf.toml")
    rows = piece.fabric.rows
    last = max(k for k, row in enumerate(rows) if row.colour == "B")
    cut = re.findall(r"Cut (\w)(?: after Row (\d+))?\.", page)
    assert ("Cut B" in page) is (last + 1 < len(rows))
    for letter, number in cut:
        assert not number or rows[int(number) - 1].colour == letter


def test_a_gathered_stitch_that_no_words_explain_is_told_by_its_moves():
    from hookfold.charts.output.words import assumed

    assert "[yo, insert hook in st, pull up a loop] 3 times in same st, yo, pull through all 7 loops" in assumed("puff", "US")
    assert "yrh" in assumed("puff", "UK") and "all 6 loops" in assumed("bobble", "US")


def test_the_multiple_is_told_apart_from_the_chains_for_turning():
    gallery = Path(__file__).parents[3] / "gallery"
    for name, says in (("spectacle-pouch", "Multiple of 2 + 1, plus 1 for turning."),
                       ("field-book-cover", "Multiple of 4 + 1, plus 2 for turning.")):  # fmt: skip
        page = engrave.instructions((gallery / name / "pattern.toml").read_text("utf-8"), f"{name}.toml", Setting())
        assert says in page
    assert "(skipped 2 ch do not count as a st)" in page
