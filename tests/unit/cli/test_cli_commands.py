"""The commands from outside: exit codes, outputs, help."""

import json
import tomllib
from pathlib import Path

import pytest
from click.testing import CliRunner
from hookfold.charts.errors import KINDS
from hookfold.charts.output.start import quoted
from hookfold.charts.pattern.file.kinds import OBJECT_KINDS
from hookfold.charts.pattern.file.read import read_pattern
from hookfold.cli import commands, main
from hookfold.cli.report import FINE, PROBLEMS, WRONG_USE
from hookfold.cli.start import title_of

ROOT = Path(__file__).parents[3]
COVER = str(ROOT / "gallery" / "field-book-cover" / "pattern.toml")
FAULTS = ROOT / "tests" / "invalid"
EVERY = {
    "--height": "20 cm", "--wrap": "30 cm", "--width": "20 cm", "--flap": "6 cm", "--overlap": "7 cm", "--strap": "7 cm",
    "--stitches": "16", "--rows": "12",
}  # fmt: skip


def run(*arguments, given=None):
    return CliRunner().invoke(main, [str(a) for a in arguments], input=given, catch_exceptions=False)


def every_option():
    return [part for pair in EVERY.items() for part in pair]


@pytest.mark.parametrize("name", sorted(main.commands))
def test_each_command_helps_with_an_example(name):
    found = run(name, "--help")
    assert found.exit_code == FINE
    assert f"hookfold {name}" in found.output and "Example:" in found.output


def test_the_table_of_commands():
    listed = run("--help").output
    assert all(name in listed for name in main.commands)
    assert set(main.commands) >= {
        "start", "check", "chart", "assembly", "template", "instructions", "share", "make", "symbols", "schema",
        "yarn", "sizes", "measure",
    }  # fmt: skip


@pytest.mark.parametrize("kind", sorted(OBJECT_KINDS))
@pytest.mark.parametrize("terms", ["US", "UK"])
def test_start_writes_a_pattern_that_holds(tmp_path, kind, terms):
    target = tmp_path / "my-piece.toml"
    offers = [part for m in OBJECT_KINDS[kind].measures if m.asked for part in (f"--{m.name}", m.offers)]
    made = run("start", target, "--kind", kind, "--terms", terms, *offers, "--stitches", "16", "--rows", "12")
    assert made.exit_code == FINE
    pattern = read_pattern(target.read_text("utf-8"))
    assert (pattern.title, pattern.object.kind, pattern.terms) == ("My piece", kind, terms)
    assert run("check", target).exit_code == FINE


def test_start_asks_for_what_is_not_given(tmp_path):
    target = tmp_path / "cover.toml"
    made = run("start", target, given="book\n9 7/8 in\nwide\n385 mm\n65 mm\n\n\n17\n14\n")
    assert made.exit_code == FINE
    assert '"wide" is not a length' in made.stderr
    assert read_pattern(target.read_text("utf-8")).object.mm("height") == pytest.approx(250.825)


def test_start_takes_what_makers_call_it_and_offers_inches_in_inches(tmp_path):
    target = tmp_path / "scarf.toml"
    made = run("start", target, given="Scarf\n7 in\n60 in\n\n\n15\n12\n")
    assert made.exit_code == FINE and "[59 in]" in made.stderr and "over 4 in of a swatch" in made.stderr
    pattern = read_pattern(target.read_text("utf-8"))
    assert (pattern.object.kind, pattern.object.unit, pattern.gauge.over.text) == ("panel", "in", "4 in")


def test_start_publishes_nothing_that_was_not_said(tmp_path):
    target = tmp_path / "scarf.toml"
    run("start", target, given="scarf\n18 cm\n150 cm\n\n\n15\n12\n")
    plain = read_pattern(target.read_text("utf-8"))
    assert (plain.hook, plain.yarn.fibre, plain.colours, plain.author, plain.licence) == ("", "", (), "", "")
    said = "scarf\n18 cm\n150 cm\nUK\ncrunch\n15\n12\n5 mm\n\nwool\n50 g / 120 m\nnavy, rust\n"
    run("start", target, "--force", given=said)
    told = read_pattern(target.read_text("utf-8"))
    assert (told.hook, told.terms, told.yarn.fibre, told.yarn.ball_m) == ("5 mm", "UK", "wool", 120)
    assert [c.name for c in told.colours] == ["navy", "rust"]
    assert "Dc in next st, tr in next st" in told.sections[0].work.text


def test_start_refuses_at_the_question_what_would_be_refused_later(tmp_path):
    target = tmp_path / "cover.toml"
    made = run("start", target, given="boek\nBook\n210 cm\n210 mm\n308 mm\n20 cm\n60 mm\n\n\n17\n14\nthick\n4 mm\n")
    assert made.exit_code == FINE
    assert '"boek" is not one of' in made.stderr and "perhaps book is meant" in made.stderr
    assert "it lies between 10 mm and 60 cm" in made.stderr and "it lies between 10 mm and 15.4 cm" in made.stderr
    assert made.stderr.count("Hook, as 4 mm") == 2
    assert read_pattern(target.read_text("utf-8")).hook == "4 mm"


def test_start_takes_metres_and_leaves_out_what_a_piece_does_without(tmp_path):
    runner, bag, pouch = (tmp_path / f"{name}.toml" for name in ("runner", "bag", "pouch"))
    assert run("start", runner, given="runner\n35 cm\n1.2 m\n\n\n17\n14\n").exit_code == FINE
    told = read_pattern(runner.read_text("utf-8")).object
    assert told.mm("height") == 1200 and told.shown("height") == "120 cm"
    assert run("start", bag, given="tote\n35 cm\n38 cm\nnone\n\n\n17\n14\n").exit_code == FINE
    assert "handle" not in read_pattern(bag.read_text("utf-8")).object.lengths
    made = run("start", pouch, given="glasses pouch\n140 mm\n55 mm\n38 mm\n50 mm\nnone\n\n\n22\n24\n")
    assert made.exit_code == FINE and "it lies between 5 mm and 36 mm" in made.stderr
    pattern = read_pattern(pouch.read_text("utf-8"))
    assert pattern.object.mm("thickness") == 38 and [s.name for s in pattern.sections] == ["front", "back"]
    assert run("start", runner, "--force", "--kind", "panel", "--width", "none").exit_code == WRONG_USE


def test_start_refuses_a_photograph_that_is_not_there(tmp_path):
    from PIL import Image

    target = tmp_path / "scarf.toml"
    asked = ["scarf", "18 cm", "150 cm", "", "", "15", "12", *[""] * 7, "y", "", "", "", "", "", "gone.jpg", "there.png", ""]
    Image.new("RGB", (40, 30), "#884422").save(tmp_path / "there.png")
    made = run("start", target, given="\n".join(asked) + "\n")
    assert made.exit_code == FINE, made.output
    assert "gone.jpg cannot be read" in made.stderr and "leave it out" in made.stderr
    assert read_pattern(target.read_text("utf-8")).photo == "there.png"
    assert run("start", target, "--force", "--photo", "gone.jpg", given="\n".join(asked[:7])).exit_code == WRONG_USE


def test_start_prints_commands_that_work(tmp_path):
    target = tmp_path / "cover.toml"
    made = run("start", target, "--kind", "book", *every_option())
    (check,) = [line.split("look with: ")[1] for line in made.stderr.splitlines() if "look with" in line]
    assert run(*check.split()[1:]).exit_code == FINE


def test_a_gauge_no_count_of_which_fits_leaves_the_range_to_the_maker(tmp_path):
    target = tmp_path / "cover.toml"
    small = ["--height", "30 mm", "--wrap", "62 mm", "--flap", "15 mm", "--stitches", 7, "--rows", 5]
    assert run("start", target, "--kind", "book", *small).exit_code in (FINE, PROBLEMS)
    if target.exists():
        assert run("check", target).exit_code == FINE


def test_start_never_writes_over_a_file(tmp_path):
    target = tmp_path / "cover.toml"
    target.write_text("mine")
    assert run("start", target, "--kind", "book", *every_option()).exit_code == WRONG_USE
    assert target.read_text() == "mine"
    assert run("start", target, "--kind", "book", *every_option(), "--force").exit_code == FINE
    assert target.read_text() != "mine"


def test_start_without_an_answer_is_wrong_use(tmp_path):
    found = run("start", tmp_path / "cover.toml", "--kind", "book", given="")
    assert found.exit_code == WRONG_USE and not (tmp_path / "cover.toml").exists()
    assert "give it as an option" in found.stderr


def test_start_with_silly_measures_says_so(tmp_path):
    silly = ["--height", "20 cm", "--wrap", "10 cm", "--flap", "9 cm", "--stitches", 16, "--rows", 12]
    found = run("start", tmp_path / "cover.toml", "--kind", "book", *silly)
    assert found.exit_code == PROBLEMS and "half the wrap" in found.stderr
    assert not (tmp_path / "cover.toml").exists()


def test_check_a_fine_pattern():
    found = run("check", COVER)
    assert found.exit_code == FINE and "stretches" in found.stdout


def test_check_prints_every_problem_and_how_many():
    found = run("check", FAULTS / "terms-unknown.toml")
    assert found.exit_code == PROBLEMS
    assert "terms-unknown.toml, line 3" in found.stdout and "Try:" in found.stdout and ": 1 problem\n" in found.stdout


@pytest.mark.parametrize("case", sorted(FAULTS.glob("*.toml")), ids=lambda p: p.stem)
def test_check_as_json(case):
    found = run("check", "--json", case)
    assert found.exit_code == PROBLEMS
    answer = json.loads(found.stdout)
    assert answer["file"] == str(case) and answer["ok"] is False
    assert all(p["kind"] in KINDS and p["says"] and p["try"] for p in answer["problems"])


def test_check_several_files_one_object_a_line():
    found = run("check", "--json", COVER, FAULTS / "terms-unknown.toml")
    first, second = map(json.loads, found.stdout.splitlines())
    assert (first["ok"], second["ok"], found.exit_code) == (True, False, PROBLEMS)
    assert first["size"]["stretch"] and first["fit"]["stitches"] and first["rows"]


def test_the_row_that_does_not_add_up_is_drawn(tmp_path):
    written = tmp_path / "short.txt"
    written.write_text("Terms: US\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sts)\n"
                       "Row 2: Ch 1, turn. Sc in first 12 sts.\n")  # fmt: skip
    found = run("check", written, "--picture", tmp_path / "m.svg")
    assert found.exit_code == PROBLEMS and b"<svg" in (tmp_path / "m.svg").read_bytes()[:300]


@pytest.mark.parametrize("kind", sorted(OBJECT_KINDS))
def test_how_to_measure_each_kind(tmp_path, kind):
    assert run("measure", "--kind", kind, "-o", tmp_path / "m.pdf").exit_code == FINE
    assert (tmp_path / "m.pdf").read_bytes().startswith(b"%PDF")


def test_what_is_not_there_is_wrong_use(tmp_path):
    found = run("check", tmp_path / "nothing.toml")
    assert found.exit_code == WRONG_USE and "cannot be read" in found.stderr


def test_a_row_can_be_lit_counts_left_out_and_the_cross_be_an_x(tmp_path):
    plain, lit = tmp_path / "c.svg", tmp_path / "l.svg"
    assert run("chart", COVER, "-o", plain).exit_code == FINE
    assert run("chart", COVER, "-o", lit, "--row", 2, "--no-counts", "--sc", "x").exit_code == FINE
    assert b"Row 2 is lit up" in lit.read_bytes() and b"A number in brackets" not in lit.read_bytes()
    assert b"A number in brackets" in plain.read_bytes()
    wrong = run("chart", COVER, "-o", tmp_path / "w.svg", "--row", 9999)
    assert wrong.exit_code == WRONG_USE and "row 9999 is not drawn" in wrong.stderr
    assert not (tmp_path / "w.svg").exists()


def test_a_chart_to_a_file_and_to_standard_output(tmp_path):
    assert run("chart", COVER, "-o", tmp_path / "c.svg").exit_code == FINE
    piped = run("chart", COVER, "-o", "-")
    assert piped.stdout_bytes == (tmp_path / "c.svg").read_bytes()
    assert piped.stdout_bytes.lstrip().startswith(b"<?xml") or b"<svg" in piped.stdout_bytes[:200]


@pytest.mark.parametrize("command", ["chart", "assembly", "template"])
def test_an_ending_that_is_no_format_is_wrong_use(tmp_path, command):
    found = run(command, COVER, "-o", tmp_path / "x.docx")
    assert found.exit_code == WRONG_USE and ".pdf" in found.stderr
    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize("command", ["chart", "assembly", "template"])
def test_a_faulty_pattern_leaves_what_was_there(tmp_path, command):
    old = tmp_path / "old.pdf"
    old.write_bytes(b"old")
    found = run(command, FAULTS / "flap-too-long.toml", "-o", old)
    assert found.exit_code == PROBLEMS and "Try:" in found.stderr and old.read_bytes() == b"old"


def test_a_folder_that_is_a_file_is_wrong_use(tmp_path):
    (tmp_path / "out").write_text("")
    assert run("share", COVER, "-o", tmp_path / "out").exit_code == WRONG_USE


def test_instructions_in_both_terms(tmp_path):
    assert "hdc" in run("instructions", COVER).stdout.lower()
    assert run("instructions", COVER, "--terms", "UK", "-o", tmp_path / "w.md").exit_code == FINE
    assert "htr" in (tmp_path / "w.md").read_text("utf-8").lower()


def test_the_schema_is_json():
    answer = json.loads(run("schema").stdout)
    assert answer["properties"]["title"] and answer["additionalProperties"] is False


def test_no_progress_where_there_is_no_terminal(tmp_path):
    assert run("symbols", "-o", tmp_path / "s.svg").stderr == ""


@pytest.mark.parametrize("text", ['a "b"', "back\\slash", "tab\there", "ünïcode ½", ""])
def test_quoted_reads_back(text):
    assert tomllib.loads(f"a = {quoted(text)}")["a"] == "".join(c for c in text if c.isprintable())


@pytest.mark.parametrize(("name", "title"), [("a/my-bag.toml", "My bag"), ("-", "Untitled"), ("x_y.toml", "X y")])
def test_title_from_the_name(name, title):
    assert title_of(name) == title


def test_a_file_that_cannot_be_read_does_not_keep_the_others(tmp_path):
    good = tmp_path / "good.txt"
    good.write_text("Ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\n")
    done = CliRunner().invoke(main, ["check", str(tmp_path / "none.txt"), str(good)])
    assert done.exit_code == 2 and "good.txt: no problem found" in done.output and "none.txt cannot be read" in done.output


UNEVEN = """
title = "Uneven mat"
terms = "US"
hook = "4 mm"
gauge = { stitches = 17, rows = 14, over = "10 cm" }
object = { kind = "panel", height = "200 mm", width = "150 mm" }
colours = { A = { name = "moss", hex = "#55713f" } }

[[section]]
name = "body"
length = "height"
work = '''
Row 1 (RS): Ch 1, turn. Sc in each st across.
Row 2 (WS): Ch 1, turn. Sc in first 3 sts, *2 sc in next st, sc in next 3 sts; rep from * across.
Row 3: Ch 1, turn. Sc in first 3 sts, *sc2tog over next 2 sts, sc in next 4 sts; rep from * across, sc in last 2 sts.
'''
"""


def test_the_row_of_a_pattern_file_that_does_not_add_up_is_drawn(tmp_path):
    bad = tmp_path / "bad.toml"
    bad.write_text(UNEVEN, "utf-8")
    found = run("check", bad, "--picture", tmp_path / "m.svg")
    assert found.exit_code == PROBLEMS
    drawn = (tmp_path / "m.svg").read_text("utf-8")
    assert "left over" in drawn and "no number of stitches makes these rows come out even" in drawn


SIZED = """Sizes: Small (Medium, Large)
You need one ball of yarn.
Rnd 1: Make a magic ring, ch 2, 10 (11, 12) dc in ring, join. 10 (11, 12) dc
Rnd 2: Ch 2, 2 dc in each st around, join. 20 (22, 24) dc
"""


@pytest.fixture
def hat(tmp_path):
    written = tmp_path / "hat.txt"
    written.write_text(SIZED, "utf-8")
    return written


def test_check_a_written_pattern_row_by_row_in_the_size_asked_for(hat):
    found = run("check", hat, "--size", "L", "--explain", "--prose")
    assert found.exit_code == FINE
    assert "2 rounds: all agree with the counts stated" in found.stdout and "for large" in found.stdout
    assert "Rnd 2 (RS), line 4: 24 sts, as stated\n    Ch 2, 2 dc in each st" in found.stdout
    assert "  line 2: You need one ball of yarn." in found.stdout


@pytest.mark.parametrize("form", [[], ["--json"]])
def test_a_size_that_is_not_there_is_wrong_use(hat, form):
    found = run("check", hat, "--size", "tiny", *form)
    assert found.exit_code == WRONG_USE and found.stdout == ""
    assert "Error: " in found.stderr and "small, medium, large" in found.stderr and "try --size small" in found.stderr


def test_a_pattern_file_points_to_its_rows_in_words():
    found = run("check", COVER, "--explain", "--prose")
    assert found.exit_code == FINE and "hookfold instructions" in found.stdout and "talk" not in found.stdout


def test_lines_are_no_longer_than_the_terminal(hat, monkeypatch):
    monkeypatch.setenv("COLUMNS", "60")
    hat.write_text(SIZED.replace("20 (22", "21 (22"), "utf-8")
    found = run("check", hat, "--explain", "--prose")
    assert found.exit_code == PROBLEMS
    assert max(len(line) for line in found.stdout.splitlines() if str(hat) not in line) <= 60


@pytest.mark.parametrize(
    "text",
    ["", "\n\n", "Dear Anna,\nthe hat is lovely.", "\x00\x01\x02 \x7f\x1b[31mRow 1: sc", "Row 1:", "(((((",
     "Ch 9999999999.", "Ch 26.\nRow 1: " + "sc in next ch, " * 4000, "Row 1: " + "x" * 30000, "Row 999999999: sc.\n",
     "Rows 1-99999999: sc."],
    ids=["empty", "blank", "letter", "control", "bare", "brackets", "chain", "long row", "long word", "far", "many"],
)  # fmt: skip
def test_whatever_the_text_is_it_is_answered_in_plain_words(tmp_path, text):
    written = tmp_path / "odd.txt"
    written.write_text(text, "utf-8")
    found = run("check", written, "--explain", "--prose")
    assert found.exit_code == PROBLEMS and "Try: " in found.stdout and not found.stderr
    assert all(c.isprintable() for c in found.stdout.replace("\n", ""))


def test_a_fault_of_the_tool_is_called_one_and_does_not_keep_the_other_files(hat, monkeypatch):
    other = hat.with_name("other.txt")
    other.write_text(SIZED, "utf-8")
    whole = commands.engrave.check
    monkeypatch.setattr(
        commands.engrave, "check", lambda text, name, size: 1 // 0 if name == str(hat) else whole(text, name, size)
    )
    found = run("check", hat, other)
    assert found.exit_code == PROBLEMS and "other.txt: no problem found" in found.stdout
    assert "The fault is hookfold's" in found.stderr and "ZeroDivisionError in test_cli_commands.py" in found.stderr
