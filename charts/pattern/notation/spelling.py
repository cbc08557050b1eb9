"""Slips of the pen: a word that nothing knows, one letter away from one that the reader knows.

Only words of a row that cannot be read as it stands are looked at, and only where the row is read with fewer complaints
for it, short ones in one way; what was taken for what is always said.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping, Set
from itertools import pairwise
from types import MappingProxyType

from ...made_late import dataclass
from .. import lexicon
from .items import RowRead
from .words import Words, vocabulary

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
        single = _single(word)
        near |= {w for w in known if len(w) >= SHORTEST and w[0] == word[0] and _single(w) == single}
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
        for letter in _LETTERS:
            yield head + letter + tail
            if tail and len(word) >= SHORTEST_WRONG:
                yield head + letter + tail[1:]


def _neighbours(*rows: str) -> Mapping[str, str]:
    """For each letter those that `rows` put beside it: letters of one row that touch, and those above and below."""
    out: dict[str, str] = {}
    for row in rows:
        for a, b in pairwise(row):
            out[a], out[b] = out.get(a, "") + b, out.get(b, "") + a
    return MappingProxyType(out)


#: Keys that lie beside each other (of the usual Latin keyboard), rows first, then the slants.
_LETTERS = "abcdefghijklmnopqrstuvwxyz"
_KEYS = _neighbours("qwertyuiop", "asdfghjkl", "zxcvbnm", "qaz", "wsx", "edc", "rfv", "tgb", "yhn", "ujm", "ik", "ol")
#: Letters that look alike in worn or photographed print.
_PRINT = _neighbours("cec", "khk", "coc", "eoe", "aoa", "ilt", "lil", "hnh", "uvu", "hbh")


def slips(word: str) -> list[list[str]]:
    """What a short word may be a slip of, by the kind of slip, the likeliest first: two letters that changed places, one
    too many inside or behind, one that looks like the right one, a key beside the right one, one left out.

    >>> ["of" in group for group in slips("od")], ["dc" in group for group in slips("doc")]
    ([False, False, False, True, False], [False, True, False, False, False])
    """
    places = range(len(word))
    cut = [word[:at] + word[at + 1 :] for at in places[1:] if _too_many(word, at)]
    more = [word[:at] + letter + word[at:] for at in range(1, len(word) + 1) for letter in _LETTERS]
    return [list(_changed_places(word)), cut, _swapped_by(word, _PRINT), _swapped_by(word, _KEYS), more]


def _swapped_by(word: str, near: Mapping[str, str]) -> list[str]:
    """The word with each letter given way to one near it."""
    return [word[:at] + other + word[at + 1 :] for at, letter in enumerate(word) for other in dict.fromkeys(near.get(letter, ""))]


def _too_many(word: str, at: int) -> bool:
    """Whether a letter may have been struck beside another: it is a vowel, doubled, or lies beside one that stands there."""
    beside = word[at - 1] + word[at + 1 : at + 2]
    return word[at] in "aeiou" or word[at] in beside or any(word[at] in _KEYS.get(b, "") for b in beside)


#: Longer words are looked after by `respelt`.
_SHORT = 6
#: Kinds of slips (of `slips`) from this on are too loose to make a stitch of a word.
_LOOSE = 3
#: Readings tried for one row at most: a row of slips is no row.
_TRIES = 24


@dataclass(slots=True)
class Respelling:
    """The tries at one row. `read` reads it with words spelled as told."""

    words: Words
    text: str
    low: str
    read: Callable[[Mapping[str, str]], RowRead]
    tries: int = 0

    def best(self, read: RowRead) -> RowRead:
        """The row as it stands, or read with fewer complaints where words are taken for slips."""
        again = self.read(respelt(self.words.unknown(self.words.read(self.low)), self.words.known))
        if again.respelt and len(again.complaints) < len(read.complaints):
            read = again
        mended = {said: meant for said, meant in read.respelt.items() if said.isalpha()}
        best = read
        for word in self._strange():
            if not best.complaints:
                break
            found = self._mended(word, mended, best)
            if found is not None:
                best, mended = found
        return best if len(best.complaints) < len(read.complaints) else read

    def _strange(self) -> list[str]:
        """Words that may be slips: what stands in capitals is a name."""
        unknown = self.words.unknown(self.words.read(self.low))
        return [w for w in unknown if len(w) <= _SHORT and w.isalpha() and w.isascii() and not self._is_name(w)]

    def _is_name(self, word: str) -> bool:
        return any(self.text[at : at + len(word)].isupper() for at in self._places(word))

    def _mended(self, word: str, mended: Mapping[str, str], before: RowRead) -> tuple[RowRead, dict[str, str]] | None:
        """The row with a word taken for what it is a slip of: by the likeliest kind of slip that makes it legible, if that
        does so in one way."""
        for kind, group in enumerate(slips(word)):
            ways: list[tuple[RowRead, dict[str, str]]] = []
            known = [w for w in dict.fromkeys(group) if w in self.words.known and (kind < _LOOSE or not self._is_stitch(w))]
            self.tries += len(known)
            if self.tries > _TRIES:
                return None  # that there is but one way would not be known
            for meant in known:
                spelled = {**mended, word: meant}
                read = self.read(spelled)
                if self._better(read, before, word) and all(read.ops != way.ops for way, _ in ways):
                    ways.append((read, spelled))
            if ways:
                return ways[0] if len(ways) == 1 else None
        return None

    def _is_stitch(self, word: str) -> bool:
        return bool(lexicon.stitch_name(word, self.words.terms)) or any(kind == "SPIKEST" for kind, _ in vocabulary().get(word, ()))

    def _better(self, read: RowRead, before: RowRead, word: str) -> bool:
        """Whether a reading has fewer complaints, or as many and none of this word, which had one."""
        fewer = len(before.complaints) - len(read.complaints)
        return fewer > 0 or (fewer == 0 and self._complains_of(before, word) and not self._complains_of(read, word))

    def _complains_of(self, read: RowRead, word: str) -> bool:
        return any(c.start < at + len(word) and at < c.end for c in read.complaints for at in self._places(word))

    def _places(self, word: str) -> list[int]:
        """Where a word begins in the row."""
        return [found.start() for found in re.finditer(rf"(?<![a-z]){re.escape(word)}(?![a-z])", self.low)]
