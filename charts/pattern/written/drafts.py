"""A row as it is gathered from the page, before its words are read."""

from __future__ import annotations

import functools
import re
from dataclasses import dataclass

from .. import lexicon
from ..notation.plain import plain
from ..notation.words import vocabulary
from ..tree import Start
from ..when_used import when_used
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
    at_will: bool = False

    def go_on(self, number: int, text: str) -> None:
        """Take a further line, keeping lines between as empty ones so that places stay right."""
        self.lines += [""] * (number - self.line - len(self.lines)) + [text]

    @property
    def low(self) -> str:
        return plain("\n".join(self.lines))


_BROKEN = when_used(r"(?P<a>[A-Za-z0-9]+(?:-\d+)?)-\n(?P<gap>\s*)(?P<b>[A-Za-z]+|\d+(?![A-Za-z]))")


@functools.cache
def _known_words() -> frozenset[str]:
    spelled = [*vocabulary(), *lexicon.long_names("US"), *lexicon.long_names("UK")]
    return frozenset(word for phrase in spelled for word in phrase.split())


def unbroken(text: str) -> str:
    """A row's lines with the words that a line's end cut in two put together, letter for letter as long as before.

    >>> unbroken("3 sc in next ch-\\nsp"), unbroken("dou-\\nble crochet")
    ('3 sc in next ch-sp\\n', 'double\\n  crochet')
    >>> unbroken("sc in each ch a-\\ncross")
    'sc in each ch across\\n '
    """
    return _BROKEN.sub(_put_together, text) if "-\n" in text else text


def _put_together(found: re.Match[str]) -> str:
    a, b, gap = found["a"], found["b"], found["gap"]
    apart = len(a) > 1 and plain(a) in _known_words() and plain(b) in _known_words()
    if plain(a + b) in _known_words() and not apart:
        return f"{a}{b}\n {gap}"
    whole = re.fullmatch(r"\d*ch(?:ain)?(?:-\d+)?|\d+", plain(a))
    return f"{a}-{b}\n{gap}" if whole else found[0]
