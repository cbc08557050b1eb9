"""What is wrong with a pattern, said so that its writer can mend it.

A `Problem` stands at a place in the file; a `PatternError` carries every problem found, never only the first.
"""

from __future__ import annotations

import re

from .made_late import dataclass, replace

#: What is not parted from the number after it at the end of a line.
_NUMBERED = re.compile(r"\b(Rows?|Rnds?|Rounds?|line|part|size|Ch|ch) (?=\d)")

#: The kinds of problem, each with what it means. A test walks this table.
KINDS: dict[str, str] = {
    "not notation": "the words are not crochet notation this tool can read",
    "impossible": "the words can be read, but the work before them does not allow it",
    "ambiguous": "the words can be read in two ways",
    "file": "the file cannot be read as a pattern file at all",
    "key": "a key that the pattern file does not know",
    "missing": "a key that the pattern file needs is not there",
    "value": "a value of the wrong kind or out of range",
    "fit": "the piece cannot fit the object as measured",
    "fold": "a fold or a join that cannot be made",
    "limit": "the pattern is larger than this tool works",
}



class Unable(Exception):
    """What was asked for cannot be given, through no fault of the pattern; its words say what can."""


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing wrong: kind (of `KINDS`), where (in the user's terms), the place in the file, and a remedy.

    `line` and `column` count from 1 (0: no place); `text` is the line as written; `length` is how many
    characters the marker covers.
    """

    kind: str
    where: str
    says: str
    remedy: str
    line: int = 0
    column: int = 0
    text: str = ""
    length: int = 1
    file: str = ""

    def report(self, width: int = 0) -> str:
        """The problem as printed: place, the line with a marker under it, what is wrong, one thing to try; wrapped to
        `width` where one is given."""
        place = f"{self.file or 'pattern'}, line {self.line}" if self.line else (self.file or "pattern")
        lines = [place]
        if self.text:
            shown, column = _window(printable(self.text), self.column, min(96, width - 6) if width else 96)
            marker = "^" + "~" * _marker(self.length, shown, column)
            lines += ["    " + shown, "    " + " " * max(column - 1, 0) + marker]
        lines += wrapped(f"{self.where}: {self.says}" if self.where else self.says, width)
        return "\n".join([*lines, *wrapped(f"Try: {self.remedy}", width)] if self.remedy else lines)

    def as_json(self) -> dict[str, object]:
        """The problem as `check --json` prints it."""
        return {
            "kind": self.kind, "where": self.where, "line": self.line, "column": self.column,
            "text": self.text, "says": self.says, "try": self.remedy,
        }  # fmt: skip

    def in_file(self, file: str) -> Problem:
        """The same problem, naming its file."""
        return replace(self, file=file)


def printable(text: str) -> str:
    """A text as long as before, a space for each character that a terminal would obey and not show."""
    return "".join(c if c.isprintable() else " " for c in text)


def wrapped(text: str, width: int, indent: str = "") -> list[str]:
    """A text in lines of at most `width` characters (0: one line), those after the first set in by two more; "Row 12"
    and its like stay together."""
    shown = indent + printable(text)
    if not width or len(shown) <= width:
        return [shown]
    further = " " * (len(shown) - len(shown.lstrip()) + 2)
    kept = _NUMBERED.sub("\\1\N{NO-BREAK SPACE}", shown)
    import textwrap

    lines = textwrap.wrap(kept, width, subsequent_indent=further, break_on_hyphens=False)
    return [line.replace("\N{NO-BREAK SPACE}", " ") for line in lines]


def _window(text: str, column: int, width: int = 96) -> tuple[str, int]:
    """At most `width` characters of a long line around `column`, and the column inside them."""
    if len(text) <= width:
        return text, column
    start = max(0, min(column - 1 - width // 3, len(text) - width))
    head = "…" if start else ""
    tail = "…" if start + width < len(text) else ""
    return head + text[start : start + width] + tail, column - start + len(head)


def _marker(length: int, shown: str, column: int) -> int:
    return max(0, min(length - 1, len(shown) - column))


@dataclass(frozen=True, slots=True)
class Note:
    """Something worth saying that is not wrong: passed-over prose, an estimate, a gauge outside the usual range."""

    where: str
    says: str
    line: int = 0
    column: int = 0


class PatternError(Exception):
    """A pattern that cannot be worked as written; `problems` holds all that was found."""

    def __init__(self, problems: list[Problem] | tuple[Problem, ...]) -> None:
        self.problems = tuple(problems)
        super().__init__("\n\n".join(p.report() for p in self.problems))
