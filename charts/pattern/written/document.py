"""Reading a whole page: what its lines are, its pieces, rows, explanations and notes, every problem at once.

A line or sentence is one of: a row's head and what follows it, steps below a head, how a piece begins, an
explanation, what holds for all rows, a heading, a colour, or talk. Talk is never a fault; what names work and is not
understood is one, at its words.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace
from typing import Any

from ...errors import Note, Problem
from ..notation.plain import clean, plain
from ..notation.words import Words, vocabulary
from ..tree import Op, Special, Start, WrittenPattern
from .agreed.conventions import Conventions
from .agreed.definitions import spellings
from .agreed.sizes import listed_names, only_for, picked, size_count, size_names
from .agreed.terms import Settled, settle
from .drafts import Draft
from .heads import bare_head, line_head, names_row
from .layout import heads_joined, unmarked
from .lines import Lines
from .rows import Rows
from .telling import is_comment, workish
from .unplaced import unplaced

#: So many repeats are taken where a foundation is given as a multiple only (common practice, no source).
SAMPLE_REPEATS = 3
MOST_CHARACTERS = 2_000_000
MOST_SPECIALS = 200

_TERMS = re.compile(r"^\s*terms?\s*:?\s*(us|uk|american|british)\b[^a-z]*(?:terms)?\W*$")


@dataclass(slots=True)
class Reading:
    """What reading found: the tree as far as it could be read, the problems, the notes."""

    pattern: WrittenPattern
    problems: list[Problem] = field(default_factory=list)
    notes: list[Note] = field(default_factory=list)
    bad_rows: set[int] = field(default_factory=set)
    prose: list[tuple[int, str]] = field(default_factory=list)
    assumed: list[str] = field(default_factory=list)
    terms_why: str = ""
    sizes: int = 1
    size_names: tuple[str, ...] = ()
    others: dict[int, tuple[tuple[Op, ...], ...]] = field(default_factory=dict)


def read_written(
    text: str, terms: str | None = None, specials: tuple[Special, ...] = (), first_line: int = 1, size: int = 0
) -> Reading:
    """Read a written pattern. `terms` settles US or UK where the text does not say; `first_line` is the file line of
    the text's first line; `size` is which of several sizes is read (from 0)."""
    if len(text) > MOST_CHARACTERS:
        says = f"the text has {len(text):,} characters; this tool reads {MOST_CHARACTERS:,}"
        problem = Problem("limit", "Pattern", says, "split the pattern into parts", 1)
        return Reading(WrittenPattern(terms or "US", None, ()), [problem])
    return Page(clean(text), terms, specials, first_line, size).read()


class Page:
    def __init__(self, text: str, terms: str | None, specials: tuple[Special, ...], first_line: int, size: int) -> None:
        self.raw = heads_joined(text.split("\n"))
        self.first_line = first_line
        self.lines = unmarked(self.raw)
        low = [plain(line) for line in self.lines]
        whole = "\n".join(low)
        self.sizes = size_count(whole)
        self.names = size_names(whole) or listed_names(whole, self.sizes)
        if self.sizes == 1 and self.names and any(only_for(line, self.names) for line in low):
            self.sizes = len(self.names)
        self.size = min(size, self.sizes - 1)
        self.lines = [picked(a, b, self.size, self.sizes) for a, b in zip(self.lines, low, strict=True)]
        self.low = [plain(line) for line in self.lines]
        self.problems: list[Problem] = []
        self.notes: list[Note] = []
        self.prose: list[tuple[int, str]] = []
        self.assumed: list[str] = []
        self.specials: dict[str, Special] = {s.abbreviation: s for s in specials}
        self.firsts: dict[str, Special] = {}
        self.settled = self._terms(terms)
        self.terms = self.settled.terms
        self.aliases: dict[str, tuple[tuple[str, Any], ...]] = {}
        self.words = Words(self.terms, spellings(self.specials))
        self.conventions = Conventions()
        self.drafts: list[Draft] = []
        self.start: Start | None = None
        self.multiple: tuple[int, int] | None = None
        self.bad_rows: set[int] = set()
        self.others: dict[int, tuple[tuple[Op, ...], ...]] = {}
        self.bare = self._numbers_alone()
        self.unheaded = not self.bare and not any(names_row(low) for low in self.low)

    # -- terms ----------------------------------------------------------------------------------------------------

    def _terms(self, given: str | None) -> Settled:
        for number, low in enumerate(self.low):
            found = _TERMS.match(low)
            if found:
                self.low[number] = ""
                self.lines[number] = ""
                return Settled("UK" if found[1] in ("uk", "british") else "US", "the text says so", True)
        if given:
            return Settled(given, "the file says so", True)
        return settle("\n".join(x for x in self.low if not is_comment(x)))

    def _numbers_alone(self) -> bool:
        """Whether the text numbers its rows by bare numbers: no other heads, and work behind the numbers."""
        if any(line_head(low) for low in self.low if low.strip()):
            return False
        found = [
            low for low in self.low if (h := bare_head(low, len(low) - len(low.lstrip()))) and workish(low[h.end :])
        ]
        return len(found) > 0

    # -- the whole ------------------------------------------------------------------------------------------------

    def read(self) -> Reading:
        Lines(self).gather()
        self._say_unplaced()
        rows = Rows(self).read()
        start = rows[0].begins if rows and rows[0].begins else self.start
        if start is None and self.multiple and rows and not rows[0].along:
            start = self._sample()
        if start is not None and self.multiple and start.multiple is None:
            start = replace(start, multiple=self.multiple)
        pattern = WrittenPattern(
            self.terms, start, tuple(rows), tuple(self.specials.values()), self.conventions.turn_rounds,
            self.conventions.spiral, self.conventions.loops,
            beginnings=tuple(sorted(self.conventions.beginnings.items())),
        )  # fmt: skip
        self._nothing_found(pattern)
        return Reading(
            pattern, self.problems, self.notes, self.bad_rows, self.prose, self.assumed, self.settled.why, self.sizes,
            self.names, self.others,
        )  # fmt: skip

    def _sample(self) -> Start:
        """A foundation given as a multiple only: three times it, which is said."""
        assert self.multiple is not None
        of, plus = self.multiple
        count = of * max(SAMPLE_REPEATS, -(-8 // max(of, 1))) + plus
        self.assumed.append(f"the foundation is a multiple of {of} plus {plus}; {count} chains were taken")
        return Start("chain", count, "ch", self.multiple, self.first_line, "")

    def _say_unplaced(self) -> None:
        """A problem for lines that plainly name work and stand in no row."""
        for line, text in unplaced(self.prose) if self.drafts else ():
            index = line - self.first_line
            shown = self.raw[index] if 0 <= index < len(self.raw) else text
            says = f"line {line} names work but stands in no row, so it was not worked"
            remedy = 'begin it with a name, as "Row 5:" or "Edging:", or take it out'
            self.problems.append(Problem("not notation", "Pattern", says, remedy, line, 1, shown, len(shown)))

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

    def call(self, spelled: str, phrase: str) -> None:
        """Learn another spelling of a phrase."""
        self.aliases[spelled] = vocabulary()[phrase]
        self.words = Words(self.terms, {**spellings(self.specials), **self.aliases})

    def call_space(self, spelled: str, size: int) -> None:
        """Learn a word for a space of so many chains."""
        kind = "lp" if spelled.startswith("l") else "sp"
        for form in (spelled, f"{spelled}es" if spelled.endswith("ch") else f"{spelled}s"):
            self.aliases[form] = (("CHSP", (kind, size)),)
        self.words = Words(self.terms, {**spellings(self.specials), **self.aliases})

    def own(self, special: Special) -> None:
        """Learn a stitch of the pattern's own."""
        if len(self.specials) < MOST_SPECIALS:
            self.specials[special.abbreviation] = special
            self.aliases.pop(plain(special.abbreviation), None)
            self.words = Words(self.terms, {**spellings(self.specials), **self.aliases})
