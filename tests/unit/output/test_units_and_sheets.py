"""Whose units are printed, what is said once, and of what there is no sheet."""

import re

import pytest
from hookfold.charts import engrave
from hookfold.charts.output.piece import hook_words
from hookfold.charts.output.start import Start, starter
from hookfold.charts.output.whole_set import PARTS
from hookfold.charts.pattern.file.read import read_pattern
from hookfold.charts.setting import Setting


def scarf(**more):
    given = {"ball": "3.5 oz / 210 yd", "over": "4 in", "hook": "5.5 mm (I-9)", "colours": ("rust",)} | more
    return starter(Start("panel", "Scarf", {"width": "8 in", "height": "60 in"}, 14, 10, **given))


def metric(**more):
    given = {"ball": "100 g / 192 m", "colours": ("rust", "olive")} | more
    return starter(Start("panel", "Scarf", {"width": "20 cm", "height": "150 cm"}, 14, 10, **given))


def test_inches_go_with_yards_and_ounces():
    """210 yd and 3.5 oz as they were typed; 1 yd = 0.9144 m and 1 oz = 28.35 g exactly enough (1959)."""
    said = engrave.yarn(scarf(), "scarf.toml")
    assert "Balls of 3.5 oz / 210 yd." in said and "6 in for each end" in said
    assert not re.search(r"\d (?:g|m|cm|mm|cm²)\b", said)
    piece = engrave.work_file(scarf(), "scarf.toml")
    in_metric = scarf(over="101.6 mm", ball="100 g / 192 m").replace("8 in", "203.2 mm").replace("60 in", "1524 mm")
    yards = float(re.search(r"about (\d+) yd \(", said)[1])
    metres = float(re.search(r"about (\d+) m \(", engrave.yarn(in_metric, "scarf.toml"))[1])
    assert metres == pytest.approx(yards * 0.9144, abs=1)
    assert " mm" not in " ".join(piece.plan.estimates)
    assert "Balls of 100 g / 192 m." in engrave.yarn(metric(), "scarf.toml")


def test_there_is_one_number_of_balls_to_buy():
    (row,) = [line for line in engrave.yarn(scarf(), "scarf.toml").splitlines() if line.startswith("| A")]
    cell = row.split("|")[4].strip()
    assert re.fullmatch(r"\d+(?: \(\d+ may do\))?", cell)
    length = re.search(r"\(\d+ to (\d+) yd\)", row)[1]
    assert int(cell.split()[0]) == -(-int(length) // 210)


def test_a_hook_is_named_once():
    named, bare = (engrave.work_file(scarf(hook=hook), "scarf.toml") for hook in ("5.5 mm (I-9)", "5.5 mm"))
    assert hook_words(named, Setting(terms="US")) == "5.5 mm (I-9)"
    assert hook_words(bare, Setting(terms="US")) == "5.5 mm (US I-9)"


def test_a_change_of_colour_is_told_where_there_are_two():
    assert "Change colour" not in engrave.instructions(scarf(), "scarf.toml", Setting())
    assert "Change colour" in engrave.instructions(metric(), "scarf.toml", Setting())


def test_a_flat_piece_that_fits_nothing_has_no_paper_and_one_sheet():
    setting = Setting()
    flat = engrave.work_file(scarf(stitch="crunch"), "scarf.toml")
    assert PARTS["drawing the paper mock-up"](flat, setting) == {}
    from hookfold.charts.output.drawn import piece_assembly

    assert len(piece_assembly(flat, setting).sheets) == 1
    cushion = starter(Start("cushion", "Cushion", {"width": "30 cm", "height": "30 cm", "overlap": "6 cm"}, 16, 12))
    folded = engrave.work_file(cushion, "cushion.toml")
    assert set(PARTS["drawing the paper mock-up"](folded, setting)) == {"template.pdf"}


def test_no_count_of_a_started_cover_is_scolded():
    """A cover is a little smaller than what it holds, so none of its own choosing has room to spare (common practice)."""
    for kind, measures in (("cushion", {"width": "45 cm", "height": "45 cm", "overlap": "10 cm"}),
                           ("pouch", {"width": "6 1/2 in", "height": "3 in", "flap": "2 1/4 in"})):  # fmt: skip
        for gauge in ((16, 11), (20, 24), (17, 13)):
            text = starter(Start(kind, "Cover", measures, *gauge))
            found = engrave.check(text, "cover.toml")
            assert read_pattern(text).object.stretch == (0.0, 0.06)
            assert found.problems or not [n for n in found.notes if "room to spare never does" in n.says]
