"""The whole flow on one page: a pattern's text in, a report or sheets out."""

from __future__ import annotations

from dataclasses import dataclass

from .drawing import svg
from .errors import Note, PatternError, Problem
from .layout.sheet import Setting
from .layout.specimen import specimen
from .model.colours import colour_notes
from .pattern.file import read_pattern


@dataclass(frozen=True, slots=True)
class Report:
    """What checking a pattern found: its problems, and notes on what is not wrong."""

    file: str
    problems: tuple[Problem, ...] = ()
    notes: tuple[Note, ...] = ()

    def as_json(self) -> dict[str, object]:
        """The report as `check --json` prints it."""
        return {"file": self.file, "ok": not self.problems, "rows": [],
                "problems": [problem.as_json() for problem in self.problems]}  # fmt: skip

    def lines(self) -> tuple[str, ...]:
        """The report in words, without the problems."""
        said = f"{self.file}: {'no problem found' if not self.problems else 'not fine'}"
        return (said, *(f"Note: {note.where}: {note.says}" for note in self.notes))


def check(text: str, name: str) -> Report:
    """Read a pattern and say what is wrong with it."""
    try:
        pattern = read_pattern(text, name)
    except PatternError as found:
        return Report(name, found.problems)
    return Report(name, (), (*pattern.notes, *colour_notes(pattern.colours)))


def symbols(setting: Setting) -> bytes:
    """Every stitch symbol with its names, as SVG."""
    return svg.write(specimen(setting.terms, setting.paper))
