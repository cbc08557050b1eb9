"""What the README says is what happens."""

import re
from pathlib import Path

import pytest
from click.testing import CliRunner
from hookfold.charts import engrave
from hookfold.charts.output.checking.verdict import STATES
from hookfold.cli import main

ROOT = Path(__file__).parents[2]
README = (ROOT / "README.md").read_text("utf-8")


def block(kind: str, containing: str) -> str:
    return next(text for text in re.findall(rf"```{kind}\n(.*?)```", README, re.DOTALL) if containing in text)


def test_the_pattern_file_can_be_made():
    report = engrave.check(block("toml", "[gauge]"), "cover.toml")
    assert not report.problems
    assert report.facts["multiple"]["of"] == 4 and report.facts["multiple"]["plus"] == 3
    raised = [row for row in report.fabric.rows if "bobble" in row.row.kinds()]
    assert {row.side for row in raised} == {"WS"}


def test_the_written_pattern_adds_up_and_its_mistake_is_reported_as_printed():
    text = block("text", "Ch 26.")
    assert not engrave.check(text, "shells.txt").problems
    wrong = engrave.check(text.replace("(25 sts)", "(24 sts)"), "shells.txt").problems
    assert [p.report() for p in wrong] == [block("text", "shells.txt, line 3").rstrip()]


@pytest.fixture
def check_the_hat(tmp_path, monkeypatch):
    """What checking the printed pattern prints, with more options where they are given."""
    (tmp_path / "rainy-hat.txt").write_text(block("text", "A hat for a rainy day"), "utf-8")
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("COLUMNS", "102")
    return lambda *more: CliRunner().invoke(main, ["check", "rainy-hat.txt", *more], catch_exceptions=False).output


def test_the_printed_pattern_is_checked_as_shown(check_the_hat):
    assert check_the_hat() == block("text", "rainy-hat.txt: no problem")
    assert block("text", "Rnd 3 (RS), line 7: 33") in check_the_hat("--size", "2", "--explain")


def test_the_verdicts_are_those_that_are_given():
    told = re.findall(r"^\| \*(.*?)\* \|", README, re.MULTILINE)
    assert sorted(told) == sorted(several if several in told else one for one, several in STATES.values())


def test_every_command_is_listed():
    assert [name for name in main.commands if f"`hookfold {name}" not in README] == []


def test_every_link_leads_somewhere():
    for page in (ROOT / "README.md", ROOT / "DEVELOPERS.md", ROOT / "gallery" / "README.md"):
        for target in re.findall(r"\]\(([^)#]+)(?:#[^)]*)?\)", page.read_text("utf-8")):
            assert (page.parent / target).exists(), f"{page.name}: {target}"
