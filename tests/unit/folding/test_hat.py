"""Hats: a crown that grows from its middle to the whole way round the head, straight sides, paper as worn."""

import math
import re

import pytest
from click.testing import CliRunner
from hookfold.charts import engrave
from hookfold.charts.folding.folds import folding_of
from hookfold.charts.layout.assembly.template import full_size
from hookfold.charts.model.sizing.shape import crown_counts, row_counts
from hookfold.charts.model.sizing.worn import worn_plan
from hookfold.charts.output.drawn import piece_chart
from hookfold.charts.output.start import Start, starter
from hookfold.charts.pattern.file.book_sizes import head_sizes
from hookfold.charts.setting import Setting
from hookfold.cli.commands import main

HAT = """title = "Ferry hat"
terms = "US"
yarn = { fibre = "wool" }
[gauge]
stitches = 15
rows = 12
over = "10 cm"
[object]
kind = "hat"
around = "54 cm"
height = "21 cm"
stretch = ["5 %", "9 %"]
[[section]]
name = "crown"
length = "crown"
work = "Rnd 1: Ch 2, hdc in each st around, join with sl st."
[[section]]
name = "sides"
length = "rest"
work = "Rnd 1: Ch 2, hdc in each st around, join with sl st."
"""
SINGLE = HAT.replace("Ch 2, hdc", "Ch 1, sc").replace("rows = 12", "rows = 17")


def test_the_crown_grows_evenly_to_the_stitches_that_go_round_the_head():
    piece = engrave.work_file(HAT, "hat.toml")
    made = [row.row.made for row in piece.fabric.rows]
    assert tuple(made) == row_counts(piece.plan)
    crown = piece.plan.sections[0].rows
    # A flat circle grows by 2 x pi x the row's height: 2 x 3.1416 x 8.33 / 6.67 = 7.9 stitches, so by 8 a round.
    assert made[: crown - 1] == [8 * n for n in range(1, crown)]
    assert set(made[crown:]) == {made[crown - 1]} == {piece.plan.stitches}
    # By hand: 54 cm stretched by 5 to 9 % are 49.5 to 51.4 cm of cloth, at 15 to 10 cm 75 to 77 stitches. A hat is made
    # about an inch smaller than the head, as in calicojoy.com, "Size chart": 19 to 20 in of head, 18 to 19 in of hat.
    assert 75 <= piece.plan.stitches <= 77


def test_a_hat_is_rather_a_round_too_long_than_too_short():
    for high in ("201 mm", "214 mm", "228 mm"):
        plan = engrave.work_file(HAT.replace("21 cm", high), "hat.toml").plan
        wanted = float(high.split()[0])
        assert wanted - 1.001 <= plan.between_mm["height"] < wanted + plan.sections[1].row_heights_mm[0]


def test_the_crown_is_as_wide_as_the_circle_that_goes_round_the_head():
    for text in (HAT, SINGLE):
        plan = engrave.work_file(text, "hat.toml").plan
        across_mm, row_mm = plan.stitches * plan.stitch_mm / math.pi, plan.sections[0].row_heights_mm[0]
        assert abs(2 * plan.sections[0].length_mm - across_mm) <= 1.01 * row_mm
        assert abs(plan.between_mm["height"] - 210) <= row_mm


def test_rounds_grow_by_what_keeps_a_circle_flat():
    # Common practice, no source: 6 of sc, 8 of hdc, 12 of dc; heights 0.9, 1.3 and 2.0 of a stitch's width.
    assert [crown_counts(96, 1.0, high)[0] for high in (0.9, 1.3, 2.0)] == [6, 8, 12]
    assert crown_counts(80, 1.0, 1.3)[-1] == 80


def test_the_words_begin_with_a_ring_and_read_back_alike():
    said = engrave.instructions(HAT, "hat.toml", Setting())
    assert "Make a magic ring." in said and "8 hdc in ring" in said and "2 hdc in each st around" in said
    part = said.split("## Foundation")[1].split("After Rnd")[0]
    again = engrave.check("Terms: US\n" + re.sub(r"## \w+", "", part), "back.txt")
    assert not again.problems
    assert [r.row.made for r in again.fabric.rows] == list(row_counts(engrave.work_file(HAT, "hat.toml").plan))
    uk = engrave.instructions(HAT, "hat.toml", Setting(terms="UK"))
    assert "8 htr in ring" in uk and "hdc" not in uk


def test_the_chart_is_in_rounds_from_the_middle():
    piece = engrave.work_file(HAT, "hat.toml")
    sheet = piece_chart(piece, Setting()).whole or piece_chart(piece, Setting()).sheets[0]
    assert "begin in the centre" in sheet.desc or "ound" in sheet.desc
    assert piece.fabric.start == "magic ring"


def test_the_paper_goes_round_the_head_to_the_millimetre():
    piece = engrave.work_file(HAT, "hat.toml")
    band, crown = full_size(folding_of(worn_plan(piece.plan))).outline
    wide, high = (max(p[k] for p in band) - min(p[k] for p in band) for k in (0, 1))
    across = max(x for x, _ in crown) - min(x for x, _ in crown)
    assert wide == pytest.approx(540, abs=0.5) and across * math.pi == pytest.approx(540, abs=1)
    assert high + across / 2 == pytest.approx(210, abs=0.5)
    assert engrave.template(HAT, "hat.toml", Setting()).startswith(b"%PDF")
    assert b"16" in engrave.assembly(HAT, "hat.toml", Setting())["svg"]


def test_a_crown_is_one_round_of_one_stitch():
    for odd in ("*sc in next st, hdc in next st; rep from * around", "hdc in each of next 4 sts"):
        text = HAT.replace("Ch 2, hdc in each st around", f"Ch 2, {odd}", 1)
        found = engrave.check(text, "hat.toml").problems
        assert found and all(p.remedy for p in found)


def test_heads_by_name_are_sized_and_sourced():
    text = HAT.replace('around = "54 cm"\nheight = "21 cm"', 'size = "woman"')
    report = engrave.check(text, "hat.toml")
    assert not report.problems
    assert report.facts["fit"]["object_mm"]["around"] == pytest.approx(550.0)
    heads = sorted(head_sizes().values(), key=lambda head: head.around_mm)
    assert all(head.source for head in heads)
    # Median heads, as published: WHO Child Growth Standards, head circumference for age (2007), boys and girls, in cm
    # (the standard's own table, github.com/WorldHealthOrganization/anthro, hcanthro.txt: days 0, 365, 1826); grown heads
    # of 18 by KiGGS, Robert Koch-Institut (Schienkiewitz et al., medizinische genetik 27 (2015), 341-344).
    for name, (boys, girls) in {"newborn": (34.46, 33.88), "1 year": (46.06, 44.89), "child": (50.74, 49.92)}.items():
        assert head_sizes()[name].around_mm == pytest.approx(5 * (boys + girls), abs=1.0)
    assert head_sizes()["woman"].around_mm == pytest.approx(550) and head_sizes()["man"].around_mm == pytest.approx(570)
    # Both published rules: a hat is four tenths of the way round high, and heights grow with heads.
    assert all(0.36 < head.height_mm / head.around_mm < 0.42 for head in heads)
    book = engrave.check(HAT.replace("hat", "book"), "hat.toml")
    assert book.problems


def test_a_babys_hat_carries_its_caution():
    said = engrave.instructions(HAT.replace('"54 cm"', '"42 cm"'), "hat.toml", Setting())
    assert "take the hat off for sleep" in said and "no ties" in said
    assert "sleep" not in engrave.instructions(HAT, "hat.toml", Setting()), "a grown head is no baby's"


def test_start_asks_whose_head_it_is(tmp_path):
    file = tmp_path / "hat.toml"
    typed = "beanie\nchild\n\n\nclose\n16\n13\n\n\n\n\n\n\n\nn\n"
    ran = CliRunner().invoke(main, ["start", str(file)], input=typed)
    assert ran.exit_code == 0, ran.output
    text = file.read_text("utf-8")
    assert "# author" in text and "# notions" in text
    assert 'kind = "hat"' in text and 'around = "50.3 cm"' in text and 'height = "20.1 cm"' in text
    assert not engrave.check(text, "hat.toml").problems


@pytest.mark.parametrize("stitch", ["close", "medium", "tall", "crunch", "ridges"])
def test_started_hats_can_be_made(stitch):
    text = starter(Start("hat", "Hat", {"around": "54 cm", "height": "21 cm"}, 16, 12, stitch=stitch))
    assert not engrave.check(text, "hat.toml").problems, text
