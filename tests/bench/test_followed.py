"""What is counted along a name that is followed through the code, on a project of a few lines."""

from __future__ import annotations

from pathlib import Path

from followed import figures

FLOW = """
from .model.work import worked, Kept

def chart(setting):
    return worked(setting.hand, setting)

def instructions(text):
    from .model import work
    return work.read(text)
"""
WORK = """
from ..pattern.words import read_words
from ..layout.sheet import drawn

class Kept:
    text: str
    def lines(self):
        return read_words(self.text)
    def other(self):
        return unused()

def worked(hand, wanted):
    return ended(drawn(1, wanted))

def ended(sheet):
    return sheet

def read(said):
    return Kept(said)

def finished(asked):
    return asked
"""
SHEET = """
from ..model.work import finished

def drawn(number, asked):
    return finished(asked)
"""


def project(folder: Path, words: str) -> Path:
    parts = {"engrave": FLOW, "model/work": WORK, "layout/sheet": SHEET, "pattern/words": words}
    for room in ("charts", "charts/model", "charts/layout", "charts/pattern", "symbols", "cli"):
        (folder / room).mkdir()
        (folder / room / "__init__.py").write_text("", "utf-8")
    for name, text in parts.items():
        (folder / "charts" / f"{name}.py").write_text(text, "utf-8")
    return folder


def test_a_name_is_followed_under_whatever_name_it_is_taken_and_returns_are_counted(tmp_path):
    found = figures(project(tmp_path, "def read_words(words):\n    return words\n"))
    # chart, worked, drawn, and back to the model's room for the end
    assert found["setting from chart: functions"] == 4 and found["setting from chart: rooms"] == 3
    assert found["setting from chart: returns to a room left before"] == 1
    # instructions, read, the one method of what keeps the text that uses it, and its words
    assert found["text from instructions: functions"] == 4
    assert found["text from instructions: returns to a room left before"] == 0


def test_files_that_import_each_other_are_named_with_what_lies_between(tmp_path):
    made = project(tmp_path, "def read_words(words):\n    return words\n")
    assert figures(made)["modules in circles"] == 2  # the work and the sheet
    for_types = "from typing import TYPE_CHECKING\nif TYPE_CHECKING:\n    from ..model.work import Kept\n"
    (made / "charts" / "pattern" / "words.py").write_text(for_types + "def read_words(words):\n    return words\n", "utf-8")
    assert figures(made)["modules in circles"] == 3
