"""A folder of patterns on one page: what is found, what is shown of it, what leads where."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from click.testing import CliRunner
from hookfold.charts.output.pages.thumbnail import turned
from hookfold.cli import main

GALLERY = Path(__file__).parents[3] / "gallery"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Three patterns, one of them wrong, and files that are none."""
    (tmp_path / "pouch").mkdir()
    for name in ("pattern.toml", "picture.png", "chart.svg", "instructions.md"):
        (tmp_path / "pouch" / name).write_bytes((GALLERY / "spectacle-pouch" / name).read_bytes())
    (tmp_path / "a & <b>.txt").write_text((GALLERY / "fabrics" / "shells.txt").read_text("utf-8"), "utf-8")
    (tmp_path / "wrong.txt").write_text("Ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (12 sc)\n", "utf-8")
    (tmp_path / "notes.txt").write_text("Buy buttons.\n", "utf-8")
    (tmp_path / "pyproject.toml").write_text("[tool]\n", "utf-8")
    return tmp_path


def test_patterns_stand_there_with_picture_chart_sizes_and_sheets(folder):
    done = CliRunner().invoke(main, ["gallery", str(folder)])
    assert done.exit_code == 0, done.output
    page = (folder / "index.html").read_text("utf-8")
    cards = re.findall(r"<article>.*?</article>", page, re.DOTALL)
    assert [re.search("<h2>(.*?)</h2>", card)[1] for card in cards] == ["Lantern pouch for spectacles", "A &amp; &lt;b&gt;", "Wrong"]
    assert 'src="pouch/picture.png"' in cards[0] and "<svg" in cards[0] and "Finished size" in cards[0]
    assert set(re.findall('href="(.*?)"', cards[0])) == {"pouch/instructions.md", "pouch/chart.svg", "pouch/pattern.toml"}
    assert 'href="a%20%26%20%3Cb%3E.txt"' in cards[1] and cards[1].count("<path") >= 4
    assert "the count says 12" in cards[2] and "<svg" not in cards[2]
    assert "<script" not in page and "http" not in page.replace("http-equiv", "").replace("http://www.w3.org/2000/svg", "")


def test_a_page_that_was_changed_by_hand_is_kept(folder):
    CliRunner().invoke(main, ["gallery", str(folder)])
    (folder / "index.html").write_text("mine", "utf-8")
    assert CliRunner().invoke(main, ["gallery", str(folder)]).exit_code == 0
    assert (folder / "index.html").read_text("utf-8") == "mine" and (folder / "index.new.html").exists()


def test_a_folder_without_patterns_is_wrong_use(tmp_path):
    assert CliRunner().invoke(main, ["gallery", str(tmp_path)]).exit_code == 2
    assert not (tmp_path / "index.html").exists()


def test_path_data_is_turned_as_it_is_drawn():
    assert turned("m10 0l0-20c1 2 3 4 5 6z", 0) == "m10 0l0-20c1 2 3 4 5 6z"
    assert turned("m10 0l0-20c1 2 3 4 5 6z", 900) == "m0 10l20 0c-2 1 -4 3 -6 5z"


def test_a_pattern_that_cannot_be_drawn_keeps_no_other_from_the_page(tmp_path):
    (tmp_path / "strip.txt").write_text("Ch 5.\nRow 1: Sc in 2nd ch from hook and in each ch across.\n", "utf-8")
    (tmp_path / "ring.txt").write_text("Ch 6, join with sl st to form a ring.\nRnd 1: Ch 9, ch 5, join.\n", "utf-8")
    done = CliRunner().invoke(main, ["gallery", str(tmp_path)])
    assert done.exit_code == 0, done.output
    page = (tmp_path / "index.html").read_text("utf-8")
    assert page.count("<article>") == 2 and "Rnd 1 is made of chains alone" in page
