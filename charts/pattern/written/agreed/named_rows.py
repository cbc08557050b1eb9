"""Rows that a pattern gives a name and calls again by it: "Row 2 (Dec Row): ...", "Row 6: Work dec row"."""

from __future__ import annotations

import re

from ...when_used import when_used

_WORD = r"(?:rows?|rnds?|rounds?)"
#: What a row is called behind its number: "(Increase Row)", "- Dec row".
_CALLED = when_used(rf"^\W*(?P<name>[a-z][a-z -]{{1,28}}?)\s+{_WORD}\b\W*$")
_CALLED_FIRST = when_used(rf"^\s*(?P<name>(?:[a-z-]+ ){{0,2}}[a-z-]+)\s+{_WORD}\s*(?:-|:)\s")
_AGAIN = when_used(
    r"^\W*(?:(?:then|now|next)\s+)?(?:(?:work|rep(?:eat)?|do|make|follow|(?:work |same )?as(?: for)?|like)\s+)?(?:(?:the|an?|another|one)\s+)?"
    rf"(?P<name>(?:[a-z-]+ ){{0,2}}[a-z-]+)\s+{_WORD}(?:\s+again)?(?=\W*$|\s*[.:]?\s*[(\[]\s*\d[^()\[\]]*[)\]]\W*$)"
)
_ALIKE = (
    (re.compile(r"\binc(?:r|rease|reasing)?s?\b"), "inc"),
    (re.compile(r"\bdec(?:r|rease|reasing)?s?\b"), "dec"),
    (re.compile(r"[\s-]+"), " "),
)
#: Words that tell a row by its place or side, and so are no name.
_NO_NAMES = frozenset(
    ("last", "previous", "prev", "next", "this", "that", "first", "same", "right side", "wrong side", "rs", "ws", "each", "every", "one", "more",
     "second", "third", "other", "alternate", "even", "odd", "whole", "entire", "current", "above", "below", "row", "following", "final")
)  # fmt: skip


class NamedRows:
    """The names that rows of a page have been given so far, and the number of each."""

    def __init__(self) -> None:
        self.numbers: dict[str, int] = {}

    def learn(self, number: int, after: str, low: str) -> None:
        """Take the name that a row is given: behind its number (`after`), or where its words begin."""
        found = _CALLED.match(after) or _CALLED_FIRST.match(low)
        name = _same(found["name"]) if found else ""
        if name and name not in _NO_NAMES:
            self.numbers[name] = number

    def again(self, low: str) -> tuple[int, int, int] | None:
        """Where a row's words call a named row again, and its number: (start, end, number)."""
        found = _AGAIN.match(low) if self.numbers else None
        number = self.numbers.get(_same(found["name"]), 0) if found else 0
        return (*found.span(), number) if found and number else None


def _same(name: str) -> str:
    for spelled, one in _ALIKE:
        name = spelled.sub(one, name)
    return name.strip()
