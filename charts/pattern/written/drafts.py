"""A row as it is gathered from the page, before its words are read."""

from __future__ import annotations

from dataclasses import dataclass

from ..notation.plain import plain
from ..tree import Start
from .heads import Head


@dataclass(slots=True)
class Draft:
    """A row as it is gathered from the page."""

    head: Head
    line: int
    column: int
    lines: list[str]
    part: str = ""
    make: int = 1
    start: Start | None = None
    colour: str = ""
    done: bool = False

    def go_on(self, number: int, text: str) -> None:
        """Take a further line, keeping lines between as empty ones so that places stay right."""
        self.lines += [""] * (number - self.line - len(self.lines)) + [text]

    @property
    def low(self) -> str:
        return plain("\n".join(self.lines))
