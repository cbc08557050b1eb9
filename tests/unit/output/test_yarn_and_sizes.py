"""Yarn and sizes in words."""

from pathlib import Path

import pytest
from hookfold.charts import engrave
from hookfold.charts.folding.folds import folding_of
from hookfold.charts.model.sizing.from_pattern import request_of, requests_of
from hookfold.charts.model.sizing.request import SectionText
from hookfold.charts.model.sizing.size import size
from hookfold.charts.model.sizing.worn import worn_plan
from hookfold.charts.model.sizing.yarn import yarn_report
from hookfold.charts.output.booklet.contents import _swatch_stitch
from hookfold.charts.output.checking.sizes_read import SizeUnknown
from hookfold.charts.output.said import yarn_of_piece
from hookfold.charts.output.size_words import SizedPlan, several, size_words
from hookfold.charts.output.start import Start, starter
from hookfold.charts.output.yarn_words import buying_cells, yarn_words
from hookfold.charts.pattern.file.read import read_pattern
from hookfold.charts.setting import Setting

SOUND = (Path(__file__).parents[2] / "invalid" / "sound.toml.txt").read_text("utf-8")
LOOSE = SOUND.replace('stretch = ["0 %", "6 %"]\n', "")
FLAP = SectionText(("hdc",), chain_plus=2)
TEXTS = (FLAP, SectionText(("hdc", "sc"), (False, True), ("RS", "WS"), 4, 3, 7, 2), FLAP)


def yarn_of(text):
    pattern = read_pattern(text)
    return yarn_words(pattern, yarn_report(size(request_of(pattern, TEXTS)), pattern))


def test_yarn_from_a_swatch_is_no_estimate():
    words = yarn_of(LOOSE)
    assert "| A (slate) |" in words and "about" not in words.split("- ")[0]
    assert "that weighs 9.6 g" in words and "15 %" in words


def test_yarn_without_a_swatch_says_about():
    words = yarn_of(LOOSE.replace('swatch_weight = "9.6 g", ', ""))
    assert "| A (slate) | about " in words and "- An estimate" in words


def test_yarn_of_a_pattern_without_colours():
    plain = LOOSE.split("[colours]")[0] + "[[section]]" + LOOSE.split("[[section]]", 1)[1]
    plain = plain.replace('colour = "A"\n', "").replace('stripes = ["A", "A", "B", "B"]\n', "")
    assert "| the yarn |" in yarn_of(plain)


def test_sizes_are_printed_smallest_first():
    text = LOOSE.replace("[sizes]\n", '[sizes]\nbig = { height = "297 mm", wrap = "440 mm" }\n')
    pattern = read_pattern(text)
    plans = [SizedPlan(s.name, size(s.request)) for s in requests_of(pattern, TEXTS)]
    words = size_words(pattern, plans)
    assert "Sizes: A6 (big)." in words
    chains = [p.plan.foundation for p in sorted(plans, key=lambda p: p.plan.foundation)]
    assert f"Ch {chains[0]} ({chains[1]});" in words
    assert words.count("\n| ") == 3
    assert "Front flap:" in words


def test_one_size_needs_no_brackets():
    pattern = read_pattern(LOOSE)
    words = size_words(pattern, [SizedPlan("A6", size(requests_of(pattern, TEXTS)[0].request))])
    assert "Sizes:" not in words and "(" not in words.split("- Ch ")[1].split(";")[0]


@pytest.mark.parametrize(("values", "words"), [((1,), "1"), ((1, 2, 3), "1 (2, 3)"), ((4, 4, 4), "4")])
def test_several(values, words):
    """S (M, L), smallest first: as Project Gutenberg 69979 prints "Ch 52 (56, 60)"."""
    assert several(values) == words


def test_every_sheet_comes_in_one_of_the_sizes():
    sizes = [name.strip() for name in read_pattern(LOOSE).sizes]
    assert sizes
    small = Setting(size=sizes[0].lower())
    own, of_size = (engrave.work_file(LOOSE, "a.toml", size=size) for size in ("", small.size))
    assert of_size.plan.object_mm != own.plan.object_mm
    assert of_size.plan.foundation == engrave.work_file(LOOSE, "a.toml", size="1").plan.foundation != own.plan.foundation
    words = engrave.instructions(LOOSE, "a.toml", small)
    assert f"size {sizes[0]}" in words and f"ch {of_size.plan.foundation}" in words.lower()
    assert engrave.yarn(LOOSE, "a.toml", sizes[0]) != engrave.yarn(LOOSE, "a.toml")
    with pytest.raises(SizeUnknown, match="none of them"):
        engrave.assembly(LOOSE, "a.toml", Setting(size="enormous"))
    with pytest.raises(SizeUnknown):
        engrave.chart("Ch 5.\nRow 1: Sc in 2nd ch from hook and in each ch across.", "a.txt", Setting(size="2"))


def test_the_paper_of_a_size_is_as_large_as_its_object():
    sizes = read_pattern(LOOSE).sizes
    for name, measured in sizes.items():
        piece = engrave.work_file(LOOSE, "a.toml", size=name)
        worn = folding_of(worn_plan(piece.plan)).piece
        # As worn the paper is as high as the board and as long as the wrap and both flaps.
        assert worn.width_mm == pytest.approx(measured.mm("height"))
        wrap_mm = sum(part.length_mm for part in worn.parts if part.role == "body")
        assert wrap_mm == pytest.approx(measured.mm("wrap"))


@pytest.mark.parametrize(("label", "wide"), [("3.5 oz / 280 yd", 12), ("100 g / 300 m", 13), ("50 g / 90 m", 14), ("50 g / 181 m", 16)])
def test_what_is_bought_is_never_more_than_the_balls_that_are_bought(label, wide):
    """A figure rounded up past whole balls contradicts their number."""
    made = Start("panel", "Mat", {"width": f"{wide} in", "height": "22 in"}, 20, 22, over="4 in", stitch="close", ball=label)
    piece = engrave.work_file(starter(made), "mat.toml")
    yarn = piece.pattern.yarn
    for need in yarn_of_piece(piece).needs:
        _, weight, metres, yards, balls, _ = buying_cells(need, piece.pattern)
        held_m = int(balls) * yarn.ball_m
        assert need.metres_range[1] <= held_m and float(metres.split()[0]) <= held_m + 0.5
        assert int(yards.split()[0]) * 0.9144 <= held_m + 0.95 and float(weight.split()[0]) <= int(balls) * yarn.ball_g + 0.5
        assert ("oz" in weight) == ("yd" in label)


@pytest.mark.parametrize(("stitch", "says"), [("ridges", "in sc in the back loop only"), ("close", "in sc"), ("crunch", "in the pattern of")])
def test_the_swatch_is_worked_as_the_piece_is(stitch, says):
    """Rows worked into one loop alone are of another height."""
    made = Start("cushion", "Pad", {"width": "30 cm", "height": "32 cm", "overlap": "7 cm"}, 16, 15, stitch=stitch)
    assert _swatch_stitch(engrave.work_file(starter(made), "pad.toml"), Setting()).startswith(says)


def test_what_comes_out_otherwise_than_asked_is_told():
    """32 cm and 7 cm of overlap make halves of 19.5 cm: 29.25 rows of 6.67 mm, so 29 or 30 rows, not 7 cm to the mm."""
    made = Start("cushion", "Pad", {"width": "30 cm", "height": "32 cm", "overlap": "7 cm"}, 16, 15, stitch="close")
    plan = engrave.work_file(starter(made), "pad.toml").plan
    lap_cm = sum(plan.sections[k].rows for k in (0, 2)) / 1.5 - plan.sections[1].rows / 1.5
    (said,) = [note.says for note in engrave.check(starter(made), "pad.toml").notes if note.where == "Overlap"]
    assert f"overlap by {round(lap_cm, 1):g} cm, for 7 cm asked for" in said
    strap = Start("book with strap", "Log", {"height": "20 cm", "wrap": "30 cm", "flap": "6 cm", "strap": "13 cm"}, 20, 22)
    assert any("sts wide" in note.says and "for 30 mm" in note.says.replace("3 cm", "30 mm") for note in engrave.check(starter(strap), "log.toml").notes)
