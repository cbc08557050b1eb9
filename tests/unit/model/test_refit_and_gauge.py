"""A piece on the hook that comes out otherwise, and the swatch: the counts by hand."""

import pytest
from click.testing import CliRunner
from hookfold.charts.errors import PatternError
from hookfold.charts.measure import parse_length
from hookfold.charts.model.sections.gauging import gauge_words
from hookfold.charts.model.sections.refit import refit
from hookfold.cli import main

BOOK = """title = "Tide table cover"
terms = "US"
hook = "4 mm"
[gauge]
stitches = 20
rows = 20
over = "10 cm"
[object]
kind = "book"
height = "200 mm"
wrap = "300 mm"
flap = "50 mm"
stretch = ["0 %", "5 %"]
"""
ROW = 'work = "Row 1: Ch 1, turn. Sc in each st across."\n'
PARTS = (("front flap", "flap"), ("body", "wrap"), ("back flap", "flap"))
BOOK += "".join(f'[[section]]\nname = "{name}"\nlength = "{length}"\n{ROW}' for name, length in PARTS)


def said(rows, measured, text=BOOK):
    return "\n".join(refit(text, "cover.toml", rows, parse_length(measured)).lines)


def test_looser_work_needs_fewer_rows_and_a_smaller_hook():
    # 20 rows of 5 mm are 100 mm; they measure 110 mm: 5.5 mm a row, 18.2 rows to 10 cm.
    told = said(20, "110 mm")
    assert "18.2 rows to 10 cm where the pattern has 20" in told and "smaller hook" in told
    # The flap of 10 rows is done. 300 mm at 5.5 mm are 54.5 rows: 54 stretch 1 %; 10 of them are worked. 50 mm: 9 rows.
    assert "body: 44 more (to row 64), 6 fewer than written" in told
    assert "back flap: 9 more (to row 73), 1 fewer than written" in told
    assert "Still to work: 53 rows, 73 in all." in told
    assert "wrap: from fold to fold 297 mm" in told
    assert "Left as written (80 rows): wrap 330 mm, where 300 mm are planned" in told


def test_tighter_work_needs_more_rows_and_a_larger_hook():
    told = said(20, "90 mm")
    assert "larger hook" in told and "more than written" in told


def test_the_right_gauge_keeps_the_hook_and_the_rows():
    told = said(20, "10 cm")
    assert "Keep the hook" in told and "Still to work: 60 rows, 80 in all." in told and "than written" not in told


def test_what_no_count_fits_is_a_problem_with_the_hook_to_take():
    narrow = BOOK.replace('["0 %", "5 %"]', '["0 %", "0.3 %"]')
    found = refit(narrow, "cover.toml", 20, parse_length("114 mm"))
    assert [p.kind for p in found.problems] == ["fit"]
    assert "smaller hook" in found.lines[-1]


@pytest.mark.parametrize(("rows", "measured"), [(81, "40 cm"), (20, "10 mm"), (20, "100 cm")])
def test_what_cannot_be_is_refused(rows, measured):
    with pytest.raises(PatternError) as found:
        said(rows, measured)
    assert found.value.problems[0].remedy


def test_the_swatch_of_the_pattern_and_what_a_wrong_one_does():
    told = gauge_words(BOOK, "cover.toml")
    # 15 cm at 20 to 10 cm are 30 stitches and 30 rows, and one chain to turn.
    assert "Chain 31 with the 4 mm hook and work 30 rows" in told and "20 stitches and 20 rows" in told
    # 40 stitches at 18 to 10 cm are 222 mm, a tenth larger than 200 mm; at 22 they are 182 mm.
    assert "| 18 | 222 mm | is 10 % too large | smaller |" in told and "| 22 | 182 mm | stretches 10 % | larger |" in told
    # 40 stitches fit from 200 mm down to 200 / 1.05 = 190.5 mm: 20 to 21 to 10 cm.
    assert "The height still fits at 20.0 to 21.0 stitches to 10 cm" in told


def test_the_commands(tmp_path):
    (tmp_path / "cover.toml").write_text(BOOK, "utf-8")
    file = str(tmp_path / "cover.toml")
    ran = CliRunner().invoke(main, ["refit", file, "--rows", "20", "--measures", "110 mm"], catch_exceptions=False)
    assert ran.exit_code == 0 and "Still to work" in ran.output
    assert CliRunner().invoke(main, ["gauge", file], catch_exceptions=False).exit_code == 0
    assert CliRunner().invoke(main, ["refit", file, "--rows", "900", "--measures", "1 ell"]).exit_code == 2
