"""Slips of the pen: a word that nothing knows, one letter away from one that the reader knows.

Only words of a row that cannot be read as it stands are looked at, and what was taken for what is always said.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Set
from string import ascii_lowercase

#: Shorter words are too near to others; in words of the second length a wrong letter may stand for a right one, too.
SHORTEST, SHORTEST_WRONG = 5, 8


def respelt(words: Iterable[str], known: Set[str]) -> dict[str, str]:
    """For each word that is not known, the one known word a letter away: one left out, doubled, too many, or two that
    changed places; in long words one that is wrong. Nothing where there are several, or another first letter.

    >>> respelt(["fisrt", "stiches", "corner", "flurb"], {"first", "stitches", "corner"})
    {'fisrt': 'first', 'stiches': 'stitches'}
    """
    found = {}
    for word in words:
        if len(word) < SHORTEST - 1 or word in known or not word.isalpha() or not word.isascii():
            continue
        tried = set(_a_letter_away(word)) if len(word) >= SHORTEST else set(_changed_places(word))
        near = {w for w in tried if w in known and w[0] == word[0] and len(w) >= SHORTEST - 1}
        near |= {w for w in known if len(w) >= SHORTEST and _single(w) == _single(word)}
        near -= {w + "s" for w in near}
        if len(near) == 1:
            found[word] = near.pop()
    return found


def _single(word: str) -> str:
    """A word without what is doubled in it."""
    return re.sub(r"(.)\1+", r"\1", word)


def _changed_places(word: str) -> Iterable[str]:
    return (word[:at] + word[at + 1] + word[at] + word[at + 2 :] for at in range(len(word) - 1))


def _a_letter_away(word: str) -> Iterable[str]:
    yield from _changed_places(word)
    for at in range(len(word) + 1):
        head, tail = word[:at], word[at:]
        if tail:
            yield head + tail[1:]
        for letter in ascii_lowercase:
            yield head + letter + tail
            if tail and len(word) >= SHORTEST_WRONG:
                yield head + letter + tail[1:]
