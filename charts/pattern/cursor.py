"""A cursor over the tokens of one row, and the complaint a reader raises when it cannot go on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from .lex import Token


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

    def whole(self, line: int) -> str:
        """The text of one line of it."""
        lines = self.text.split("\n")
        return lines[line - self.line] if 0 <= line - self.line < len(lines) else ""


END = Token("end", "", 0, 0)


class Unread(Exception):
    """Words that are not notation, at a token; `remedy` is one thing to try."""

    def __init__(self, token: Token, says: str, remedy: str, kind: str = "not notation") -> None:
        super().__init__(says)
        self.token, self.says, self.remedy, self.kind = token, says, remedy, kind


@dataclass(slots=True)
class Cursor:
    """Where the reader stands. `specials` are the canonical names of the pattern's own stitches; `groups` those of
    them that make several stitches in one place."""

    tokens: Sequence[Token]
    terms: str
    specials: frozenset[str] = frozenset()
    place: int = 0
    depth: int = 0

    def now(self, ahead: int = 0) -> Token:
        at = self.place + ahead
        return self.tokens[at] if at < len(self.tokens) else END

    def word(self, ahead: int = 0) -> str:
        """The reader's own word for the token ahead: its value, else its sign or kind."""
        token = self.now(ahead)
        return (
            token.value
            if token.kind == "word"
            else token.kind
            if token.kind in "()[]{},;.:*-&" or token.kind == "**"
            else ""
        )

    def step(self) -> Token:
        token = self.now()
        self.place += 1
        return token

    def take(self, *words: str) -> bool:
        """Step over the words if they stand here, all of them."""
        for ahead, word in enumerate(words):
            if self.word(ahead) != word:
                return False
        self.place += len(words)
        return True

    def take_any(self, *words: str) -> str:
        """Step over whichever of the words stands here; "" if none does."""
        here = self.word()
        if here and here in words:
            self.place += 1
            return here
        return ""

    def skip_any(self, *words: str) -> None:
        while self.take_any(*words):
            pass

    @property
    def done(self) -> bool:
        return self.place >= len(self.tokens)

    def until(self, *stops: str) -> list[Token]:
        """Step to the next of `stops` outside any bracket and return what was passed."""
        out, depth = [], 0
        while not self.done:
            word = self.word()
            if depth == 0 and word in stops:
                break
            depth += (word in ("(", "[")) - (word in (")", "]"))
            if depth < 0:
                break
            out.append(self.step())
        return out

    def words(self, tokens: Sequence[Token]) -> str:
        return " ".join(t.word for t in tokens)
