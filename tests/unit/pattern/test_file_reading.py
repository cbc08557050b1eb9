"""What a pattern file becomes: records, units, named sizes, defaults, places."""

from pathlib import Path

import pytest
from hookfold.charts.errors import PatternError
from hookfold.charts.pattern.file.read import read_pattern

SOUND = (Path(__file__).parents[2] / "invalid" / "sound.toml.txt").read_text("utf-8")


def changed(old, new):
    assert old in SOUND
    return SOUND.replace(old, new, 1)


def said(text):
    with pytest.raises(PatternError) as caught:
        read_pattern(text, "sample.toml")
    return caught.value.problems


def test_ease_is_stretch_told_from_the_object():
    """A piece with 1 to 6 % of ease is so much longer than what goes in: by hand, 100 of the object in 101 to 106."""
    head = 'title = "Slate sleeve"\n[gauge]\nstitches = 18\nrows = 20\nover = "10 cm"\n[object]\nkind = "sleeve"\nwidth = "180 mm"\n'
    rest = 'height = "245 mm"\nthickness = "9 mm"\nease = ["1 %", "6 %"]\n[[section]]\nname = "front"\nlength = "height"\n'
    pattern = read_pattern(head + rest + 'work = "Row 1: Ch 1, turn. Sc in each st across."\n', "sleeve.toml")
    assert pattern.object.stretch == pytest.approx((100 / 106 - 1, 100 / 101 - 1))


def test_the_records():
    pattern = read_pattern(SOUND, "sample.toml")
    assert (pattern.title, pattern.terms, pattern.hook, pattern.hook_mm) == (
        "Sample cover",
        "US",
        "4 mm",
        4.0,
    )
    assert pattern.gauge.stitch_mm == pytest.approx(100 / 17.5)
    assert pattern.object.mm("wrap") == 308
    assert pattern.object.stretch == (0.0, 0.06)
    assert [c.letter for c in pattern.colours] == ["A", "B"]
    assert [s.name for s in pattern.sections] == ["front flap", "body", "back flap"]
    assert pattern.specials[0].abbreviation == "bo"
    assert (pattern.border.stitch, pattern.border.joins, pattern.border.corner) == ("sc", True, 3)
    assert (pattern.yarn.swatch_weight_g, pattern.yarn.ball_g, pattern.yarn.ball_m) == (9.6, 50, 115)


def test_a_section_without_a_colour_takes_the_first():
    assert read_pattern(SOUND).sections[2].stripes == ("A",)
    assert read_pattern(SOUND).sections[1].colour(6) == "B"


def test_a_row_of_the_work_knows_its_place_in_the_file():
    pattern = read_pattern(SOUND)
    line, column = pattern.sections[1].work.at(2, 5)
    assert pattern.line(line)[column - 1 :].startswith("2 (WS)")
    line, column = pattern.sections[0].work.at(1, 1)
    assert pattern.line(line)[column - 1 :].startswith("Row 1")
    assert pattern.sections[0].work.at(9) == (0, 0)


def test_a_named_size_gives_the_measurements_and_says_so():
    text = changed('height = "210 mm"\nwrap   = "308 mm"', 'size = "a5"\nspine = "12 mm"')
    thing = read_pattern(text).object
    assert (thing.mm("height"), thing.mm("wrap"), thing.size) == (210, 308, "A5")
    assert thing.computed[-1] == "wrap = 2 x 148 + 12 = 308 mm"


def test_a_size_known_in_inches_is_said_in_inches():
    text = changed('height = "210 mm"\nwrap   = "308 mm"', 'size = "Composition"\nspine = "1/2 in"')
    thing = read_pattern(text).object
    assert thing.computed[-1] == "wrap = 2 x 7.5 + 0.5 = 15.5 in"
    assert thing.shown("height") == "9 3/4 in"


def test_sizes_take_from_the_object_what_they_do_not_say():
    size = read_pattern(SOUND).sizes["A6"]
    assert (size.mm("height"), size.mm("wrap"), size.mm("flap")) == (148, 218, 50)
    assert size.stretch == (0.0, 0.06)


@pytest.mark.parametrize(
    ("written", "mm", "unit"),
    [("21 cm", 210, "cm"), ("8 1/4 in", 209.55, "in"), ("8¼ in", 209.55, "in"), ("8.25 in", 209.55, "in"),
     ("210,5 mm", 210.5, "mm"), ('8 1/4"', 209.55, "in"), ("1/2 in", 12.7, "in")],
)  # fmt: skip
def test_lengths(written, mm, unit):
    quoted = written.replace('"', '\\"')
    height = read_pattern(changed('height = "210 mm"', f'height = "{quoted}"')).object.lengths["height"]
    assert (height.mm, height.unit) == (pytest.approx(mm), unit)


def test_uk_terms_name_the_border_in_us():
    text = changed('terms  = "US"', 'terms = "UK"').replace('stitch = "sc"', 'stitch = "dc"')
    assert read_pattern(text).border.stitch == "sc"


def test_percentages_may_be_negative():
    assert read_pattern(changed('["0 %", "6 %"]', '["-2 %", "+4,5 %"]')).object.stretch == (-0.02, 0.045)


def test_yards_and_ounces():
    yarn = read_pattern(changed('"50 g / 115 m"', '"1.75 oz / 126 yd"')).yarn
    assert yarn.ball_g == pytest.approx(49.6, abs=0.02)
    assert yarn.ball_m == pytest.approx(115.2, abs=0.02)


def test_every_problem_at_once_in_the_order_of_the_file():
    text = SOUND.replace("rows = 15", 'rows = "15"').replace('flap   = "60 mm"', 'flap   = "160 mm"')
    text = text.replace("#eceff1", "chalk").replace('length  = "wrap"', 'lenght  = "wrap"')
    problems = said(text)
    assert [p.line for p in problems] == sorted(p.line for p in problems)
    assert [p.kind for p in problems] == ["value", "fold", "value", "key"]
    assert all(p.file == "sample.toml" and p.remedy for p in problems)


def test_own_folds_and_joins_are_read():
    own = """
[[fold]]
at = ["front flap", "body"]
moves = "front flap"
direction = "under"

[[join]]
first = "front flap left"
second = "body left"
by = "sl st"
"""
    pattern = read_pattern(SOUND + own)
    assert (pattern.folds[0].at, pattern.folds[0].direction) == (("front flap", "body"), "under")
    assert (pattern.joins[0].second, pattern.joins[0].by) == ("left of body", "sl st")


def test_windows_line_ends_and_places():
    pattern = read_pattern(SOUND.replace("\n", "\r\n"))
    line, column = pattern.sections[1].work.at(2, 5)
    assert pattern.line(line)[column - 1 :].startswith("2 (WS)")
    problem = said(SOUND.replace("\n", "\r\n").replace("rows = 15", "rows = -15"))[0]
    assert (problem.line, problem.text, problem.column) == (9, "rows = -15", 8)


@pytest.mark.parametrize(
    "text", ["", "=", "[", '"""', "a = [[[", "\x00", "[section]\n", "section = 3", "[[object]]", "gauge = 5"]
)
def test_rubbish_gives_problems(text):
    assert all(p.remedy for p in said(text))


def test_too_deep_and_too_large():
    assert said("a = " + "[" * 20_000)[0].kind == "file"
    assert said("#" * 300_000)[0].kind == "limit"


@pytest.mark.parametrize(
    ("written", "stitch"),
    [("crab stitch", "rsc"), ("reverse sc", "rsc"), ("Single crochet", "sc"), ("slip stitch", "sl st"), ("hdc", "hdc")],
)
def test_a_border_stitch_by_the_name_a_maker_types(written, stitch):
    found = read_pattern(changed('stitch = "sc"', f'stitch = "{written}"'))
    assert found.border.stitch == stitch
    edged = read_pattern(changed('stitch = "sc"', 'stitch = "sc"\nedging = "crab stitch"'))
    assert edged.border.edging == "reverse sc"


def test_uk_names_of_border_stitches():
    text = SOUND.replace('terms  = "US"', 'terms  = "UK"').replace('stitch = "sc"', 'stitch = "double crochet"')
    assert read_pattern(text).border.stitch == "sc"
