"""A row that cannot be read, tried again with slips of the pen mended: "2 doc in next sc", "in top od tch".

Only a word that nothing knows is touched, and only where the row is read with fewer complaints for it and in one way;
what was taken for what is always said.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from .items import RowRead
from .spelling import slips
from .words import Words

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
        again = self.read({})
        if again.respelt and len(again.complaints) < len(read.complaints):
            read = again
        mended: dict[str, str] = {}
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
        return [w for w in self.words.strange(self.words.read(self.low)) if not self._is_name(w)]

    def _is_name(self, word: str) -> bool:
        at = self.low.find(word)
        return self.text[at : at + len(word)].isupper()

    def _mended(self, word: str, mended: Mapping[str, str], before: RowRead) -> tuple[RowRead, dict[str, str]] | None:
        """The row with a word taken for what it is a slip of: by the likeliest kind of slip that makes it legible, if that
        does so in one way."""
        for group in slips(word):
            ways: list[tuple[RowRead, dict[str, str]]] = []
            for meant in dict.fromkeys(group):
                if meant not in self.words.known or self.tries >= _TRIES:
                    continue
                self.tries += 1
                spelled = {**mended, word: meant}
                read = self.read(spelled)
                if self._better(read, before, word) and all(read.ops != way.ops for way, _ in ways):
                    ways.append((read, spelled))
            if ways:
                return ways[0] if len(ways) == 1 else None
        return None

    def _better(self, read: RowRead, before: RowRead, word: str) -> bool:
        """Whether a reading has fewer complaints, or as many and none of this word, which had one."""
        fewer = len(before.complaints) - len(read.complaints)
        return fewer > 0 or (fewer == 0 and self._complains_of(before, word) and not self._complains_of(read, word))

    def _complains_of(self, read: RowRead, word: str) -> bool:
        at = self.low.find(word)
        return any(c.start < at + len(word) and at < c.end for c in read.complaints)
