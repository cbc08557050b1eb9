"""What a reader says of words that it cannot take, and where a row's words lie in the file."""

from __future__ import annotations

from ...made_late import dataclass


@dataclass(frozen=True, slots=True)
class Source:
    """The text of one row as it lies in the file: `line` and `column` (both from 1) are where it begins."""

    text: str
    line: int
    column: int = 1

    def span(self, start: int, end: int) -> tuple[int, int, int]:
        """Line, column and length of a stretch of the text, which may run over line ends."""
        before = self.text.rfind("\n", 0, start)
        line = self.line + self.text.count("\n", 0, start)
        column = start - before if before >= 0 else start + self.column
        return (line, column, max(1, end - start))


@dataclass(frozen=True, slots=True)
class Complaint:
    """Words that are not notation, from `start` to `end` of a row's text; `remedy` is one thing to try. `aside`: they name
    no work, and may be set aside where the row proves itself without them: by its count, or, where they change nothing
    of what is said before them (`idle`), by coming out even.
    `lone_mark`: a repeat mark that stands for nothing. `lost`: words that no clause takes. `plain`: a sign is missing or
    too many, but what is meant is plain; that is told, and the row is worked so."""

    start: int
    end: int
    says: str
    remedy: str
    kind: str = "not notation"
    unknown: str = ""
    aside: bool = False
    idle: bool = False
    lone_mark: bool = False
    lost: bool = False
    plain: bool = False
