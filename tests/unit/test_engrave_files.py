"""What a file is taken for, and where problems of folding are told."""

import pytest
from hookfold.charts import engrave
from hookfold.charts.errors import PatternError
from hookfold.charts.setting import Setting

WALLET = """title = "Ticket wallet"
terms = "US"
[gauge]
stitches = 20
rows = 20
over = "10 cm"
[object]
kind = "panel"
width = "100 mm"
height = "150 mm"
[[section]]
name = "bottom"
length = "50 mm"
work = "Row 1: Ch 1, turn. Sc in each st across."
[[section]]
name = "middle"
length = "50 mm"
work = "Row 1: Ch 1, turn. Sc in each st across."
[[section]]
name = "top"
length = "50 mm"
work = "Row 1: Ch 1, turn. Sc in each st across."
[[fold]]
at = ["bottom", "middle"]
moves = "bottom"
direction = "over"
"""
JOIN = '[[join]]\nfirst = "{}"\nsecond = "{}"\nby = "sewn"\n'


@pytest.mark.parametrize("edges", [("bottom left", "middle left"), ("left of bottom", "left of middle"), ("bottom start", "middle end")])
def test_own_folds_and_joins_lie_between_the_sections(edges):
    piece = engrave.work_file(WALLET + JOIN.format(*edges), "wallet.toml")
    assert [p.name for p in piece.folding.piece.parts] == ["bottom", "middle", "top"]
    assert [stage.spec.moves for stage in piece.folding.stages] == ["bottom"]
    assert engrave.assembly(WALLET + JOIN.format(*edges), "wallet.toml", Setting())["svg"]
    assert engrave.template(WALLET + JOIN.format(*edges), "wallet.toml", Setting(hand="left")).startswith(b"%PDF")


def test_edges_that_do_not_meet_are_told_at_the_join():
    text = WALLET + JOIN.format("bottom left", "top left")
    with pytest.raises(PatternError) as found:
        engrave.work_file(text, "wallet.toml")
    (problem,) = found.value.problems
    assert "apart when folded" in problem.says and text.split("\n")[problem.line - 1] == "[[join]]"


def test_a_fold_through_two_points():
    text = WALLET.replace('at = ["bottom", "middle"]', 'at = ["0 mm, 75 mm", "100 mm, 75 mm"]').replace(
        'moves = "bottom"', 'moves = "top"'
    )
    assert len(engrave.work_file(text, "wallet.toml").folding.stages) == 1


def test_what_cannot_be_folded_is_told_at_its_section():
    pouch = WALLET.split("[[section]]")[0].replace('"panel"', '"pouch"').replace("150", "60") + "".join(
        f'[[section]]\nname = "{name}"\nrows = {rows}\nwork = "Row 1: Ch 1, turn. Sc in each st across."\n'
        for name, rows in (("front", 20), ("back", 12), ("flap", 6))
    )
    report = engrave.check(pouch, "pouch.toml")
    (problem,) = report.problems
    assert problem.kind == "fold" and problem.says.startswith("the front is 100 mm")
    assert pouch.split("\n")[problem.line - 1] == "[[section]]" and pouch.split("\n")[problem.line] == 'name = "front"'


def test_a_pattern_file_named_as_a_written_pattern():
    (problem,) = engrave.check(WALLET, "notes/wallet.txt").problems
    assert (problem.kind, problem.line, problem.remedy) == ("file", 3, "name it wallet.toml.")
    for command in (engrave.yarn, engrave.sizes):
        with pytest.raises(PatternError) as found:
            command(WALLET, "wallet.txt")
        assert found.value.problems[0].kind == "file"


def test_a_written_pattern_named_as_a_pattern_file():
    (problem,) = engrave.check("Terms: US\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch across.\n", "rows.toml").problems
    assert problem.line == 1 and ".txt" in problem.remedy


@pytest.mark.parametrize(("text", "says"), [("", "empty"), ("\n \n", "empty"), ("corner = " + "9" * 5000, "5,000 digits")])
def test_what_is_no_pattern_file(text, says):
    (problem,) = engrave.check(text, "x.toml").problems
    assert says in problem.says and problem.remedy


def test_only_colours_in_use_are_compared():
    colours = '[colours]\nA = { name = "ink", hex = "#223344" }\nB = { name = "tar", hex = "#223345" }\n[[section]]'
    notes = [n.says for n in engrave.check(WALLET.replace("[[section]]", colours, 1), "wallet.toml").notes]
    assert "B (tar) is used in no section and no border." in notes and not any("alike" in n for n in notes)


def test_a_panel_far_from_what_was_asked_for_is_a_problem():
    (problem,) = engrave.check(WALLET.replace('"150 mm"', '"450 mm"'), "wallet.toml").problems
    assert problem.kind == "fit" and problem.says == "the nearest count makes it 66.7 % smaller than asked for."


def test_a_piece_of_own_folds_says_its_size_folded():
    words = engrave.instructions(WALLET, "wallet.toml", Setting())
    assert "100 mm x 100 mm folded; 100 mm x 150 mm flat" in words


def test_two_in_each_of_several_are_written_so():
    text = WALLET.replace("Sc in each st across.", "2 sc in each of first 2 sts, sc in each st to last 4 sts, [sc2tog] twice.")
    assert "2 sc in each of next 2" in engrave.instructions(text, "wallet.toml", Setting()).replace("first", "next")


def test_check_tells_every_size_that_does_not_fit():
    ranged = WALLET.replace('height = "150 mm"', 'height = "150 mm"\nstretch = ["-3 %", "3 %"]').replace('name = "top"\nlength = "50 mm"', 'name = "top"\nlength = "rest"')
    sized = ranged + '[sizes]\nsmall = { width = "90 mm", height = "150 mm" }\nodd = { width = "13 mm", height = "150 mm" }\n'
    assert not engrave.check(ranged, "wallet.toml").problems
    (problem,) = engrave.check(sized, "wallet.toml").problems
    assert problem.where == 'size "odd": Fit along the width' and problem.line == len(sized.split("\n")) - 1
    with pytest.raises(PatternError) as found:
        engrave.sizes(sized, "wallet.toml")
    assert found.value.problems[0].where == problem.where
