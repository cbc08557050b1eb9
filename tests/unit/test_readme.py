"""What the README says is what happens."""

import re
from pathlib import Path

from hookfold.charts import engrave
from hookfold.cli import main

ROOT = Path(__file__).parents[2]
README = (ROOT / "README.md").read_text("utf-8")


def block(kind: str, containing: str) -> str:
    return next(text for text in re.findall(rf"```{kind}\n(.*?)```", README, re.DOTALL) if containing in text)


def test_the_pattern_file_can_be_made():
    report = engrave.check(block("toml", "[gauge]"), "cover.toml")
    assert not report.problems
    assert report.facts["multiple"]["of"] == 4 and report.facts["multiple"]["plus"] == 3
    raised = [row for row in report.fabric.rows if "puff" in row.row.kinds()]
    assert {row.side for row in raised} == {"WS"}


def test_the_written_pattern_adds_up_and_its_mistake_is_reported_as_printed():
    text = block("text", "Ch 26.")
    assert not engrave.check(text, "shells.txt").problems
    wrong = engrave.check(text.replace("(25 sts)", "(24 sts)"), "shells.txt").problems
    assert [p.report() for p in wrong] == [block("text", "shells.txt, line 3").rstrip()]


def test_every_command_is_listed():
    assert [name for name in main.commands if f"`hookfold {name}" not in README] == []


def test_every_link_leads_somewhere():
    for page in (ROOT / "README.md", ROOT / "DEVELOPERS.md", ROOT / "gallery" / "README.md"):
        for target in re.findall(r"\]\(([^)#]+)(?:#[^)]*)?\)", page.read_text("utf-8")):
            assert (page.parent / target).exists(), f"{page.name}: {target}"
