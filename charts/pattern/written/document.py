"""Reading a whole page: what its lines are, its pieces, rows, explanations and notes, every problem at once.

A line or sentence is one of: a row's head and what follows it, steps below a head, how a piece begins, an
explanation, what holds for all rows, a heading, a colour, or talk. Talk is never a fault; what names work and is not
understood is one, at its words.
"""

from __future__ import annotations

import re
from dataclasses import field

from ...errors import Note, Problem
from ...made_late import dataclass, replace
from ..notation.plain import clean, plain
from ..notation.prose import talks
from ..tree import Op, Special, WrittenPattern
from .agreed.letters import yarn_names
from .agreed.sides import sides_told
from .lines import Lines
from .page import Page
from .rows import Rows
from .telling import workish
from .unplaced import lost_first, unplaced

MOST_CHARACTERS = 2_000_000



@dataclass(slots=True)
class Reading:
    """What reading found: the tree as far as it could be read, the problems, the notes. `asides` are the problems of rows,
    by their place, that hold only where the row does not prove itself; `passed` is the talk that nothing was done with; `guesses` are ways to work rows that cannot be read,
    without the words that are complained of."""

    pattern: WrittenPattern
    problems: list[Problem] = field(default_factory=list)
    notes: list[Note] = field(default_factory=list)
    bad_rows: set[int] = field(default_factory=set)
    prose: list[tuple[int, str]] = field(default_factory=list)
    passed: tuple[tuple[int, str], ...] = ()
    assumed: list[str] = field(default_factory=list)
    terms_why: str = ""
    sizes: int = 1
    size_names: tuple[str, ...] = ()
    others: dict[int, tuple[tuple[Op, ...], ...]] = field(default_factory=dict)
    asides: dict[int, tuple[Problem, ...]] = field(default_factory=dict)
    guesses: dict[int, tuple[tuple[Op, ...], ...]] = field(default_factory=dict)


def read_written(
    text: str, terms: str | None = None, specials: tuple[Special, ...] = (), first_line: int = 1, size: int = 0
) -> Reading:
    """Read a written pattern. `terms` settles US or UK where the text does not say; `first_line` is the file line of
    the text's first line; `size` is which of several sizes is read (from 0)."""
    if len(text) > MOST_CHARACTERS:
        says = f"the text has {len(text):,} characters; this tool reads {MOST_CHARACTERS:,}"
        problem = Problem("limit", "Pattern", says, "split the pattern into parts", 1)
        return Reading(WrittenPattern(terms or "US", None, ()), [problem])
    return Document(clean(text), terms, specials, first_line, size).read()


class Document(Page):
    """A page read to its end: every line told apart, then every row."""

    def read(self) -> Reading:
        Lines(self).gather()
        self._say_unplaced(self.prose)
        told = len(self.prose)
        rows = Rows(self).read()
        self._say_unplaced([(line, text) for line, text in self.prose[told:] if not talks(plain(text))])
        start = rows[0].begins if rows and rows[0].begins else self.start
        if start is None and self.multiple and rows and not rows[0].along:
            start = self.sample()
        if start is not None and self.multiple and start.multiple is None:
            start = replace(start, multiple=self.multiple)
        pattern = WrittenPattern(
            self.terms, start, tuple(rows), tuple(self.specials.values()), self.conventions.turn_rounds,
            self.conventions.spiral, self.conventions.loops,
            beginnings=tuple(sorted(self.conventions.beginnings.items())), sides=sides_told(self.low),
            yarns=yarn_names("\n".join(self.raw)),
        )  # fmt: skip
        self._nothing_found(pattern)
        return Reading(
            pattern, self.problems, self.notes, self.bad_rows, self.prose, tuple(self.passed), self.assumed, self.settled.why, self.sizes,
            self.names, self.others, self.asides, self.guesses,
        )  # fmt: skip

    def _say_unplaced(self, prose: list[tuple[int, str]]) -> None:
        """A problem for lines that plainly name work and stand in no row."""
        begun = self.drafts[0] if self.drafts else None
        lost = lost_first(prose, begun.line) if begun is not None and begun.head.first == 2 and not begun.head.named else []
        for first, text in [*unplaced(prose), *lost] if self.drafts else ():
            line = self._line_of(first, text)
            index = line - self.first_line
            shown = self.raw[index] if 0 <= index < len(self.raw) else text
            says = f"line {line} names work but stands in no row, so it was not worked"
            remedy = 'begin it with a name, as "Row 5:" or "Edging:", or take it out'
            self.problems.append(Problem("not notation", "Pattern", says, remedy, line, 1, shown, len(shown)))

    def _line_of(self, first: int, text: str) -> int:
        """The line that words stand in which begin there or below: those of a row bear the line of its head."""
        at = first - self.first_line
        words = text.split("\n")[0].strip()[:30]
        return next((n for n, raw in enumerate(self.raw[at:], first) if words and words in raw), first)

    def _nothing_found(self, pattern: WrittenPattern) -> None:
        if self.problems or any(row.ops or row.stated or row.chain_only for row in pattern.rows):
            return
        like = [
            (n, line.strip())
            for n, line in enumerate(self.raw, self.first_line)
            if workish(plain(line)) or re.match(r"\W*(?:r(?:ow|nd|ound)?\W*)?\d+\b", plain(line))
        ][:4]
        says = "no row was found"
        if like:
            says += "; lines that look like rows: " + "; ".join(f'line {n} "{text[:50]}"' for n, text in like)
        self.problems.append(
            Problem("not notation", "Pattern", says, 'begin each row with its name, as "Row 1: ..."', self.first_line)
        )
