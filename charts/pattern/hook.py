"""The moves of the hook: how many legs a stitch has and how tall they are, from words like "yo, insert hook in st".

A leg begins where the hook goes in; what the yarn is drawn through afterwards only ends it. So "[yo and draw through
2 loops] twice" is the end of one leg, and "[yo, insert hook, ...] twice" is two legs.
"""

from __future__ import annotations

import itertools
import re
from collections.abc import Sequence
from dataclasses import field

from ..made_late import dataclass
from . import lexicon
from .when_used import when_used

_YO = r"\b(?:yo|yrh|yoh|yarn\s+over(?:\s+hook)?|yarn\s+round\s+hook)\b"
_NUMBER = r"\d{1,2}|two|three|four|five|six|seven|eight|nine|ten"
#: A stitch named after one of these is a place, not something that is made.
_PLACED = ("next", "last", "first", "these", "same", "each", "the", "in", "into", "skip", "miss", "sk", "over", "of")
_AFTER = "".join(rf"(?<!\b{word} )" for word in _PLACED)
_MOVE = when_used(
    r"(?P<open>[\[(])|(?P<close>[\])])|(?P<star>\*)|(?P<again>\brep(?:eat|eating)?\b)"
    rf"|(?P<times>\b(?:(?P<n>{_NUMBER})\s+(?:more\s+)?times?|twice|once)\b)"
    rf"|(?P<yo>{_YO})|(?P<into>\binsert(?:ing)?\b)|(?P<up>\b(?:pull|draw)(?:ing)?\s+up\b)"
    r"|(?P<through>\b(?:pull|draw)(?:ing)?\s+(?:(?:a\s+|the\s+)?(?:lo+p|lp|yarn)\s+)?through\b)"
    rf"|(?P<made>{_AFTER}\b(?:(?P<count>\d{{1,2}})\s+)?(?P<stitch>{lexicon.ANY_PLAIN})\b)"
)
#: From here on the hook only closes what is made: the end of a popcorn.
_LET_GO = when_used(r"\b(?:drop|remov|withdraw|tak(?:e|ing)\s+(?:the\s+)?hook)")
_PAIR = when_used(r"through\s+(?:the\s+)?(?:first\s+|next\s+)?(?:2|two)\b")
#: The plain stitch begun with so many yarn-overs; one is a double, or a half double that is drawn through at once.
_BY_YARN_OVERS = tuple(name for name in lexicon.US_HEIGHTS if name != "hdc")
MOST_LEGS = 99
#: More moves than any stitch has are not gone through.
MOST_MOVES = 400


@dataclass(frozen=True, slots=True)
class Legs:
    """What a stitch told by its moves is made of: so many legs of a plain stitch (its US name)."""

    count: int
    base: str


@dataclass(slots=True, eq=False)
class _Move:
    """One move, how often it is done, and how many yarn-overs were made before it."""

    what: str
    done: int
    stitch: str = ""
    lead: int = 0


def read_legs(low: str, terms: str) -> Legs:
    """The legs of a stitch from its words in lower case.

    >>> read_legs("yo, insert hook in st, yo and pull up a loop, [yo and draw through 2 loops] twice", "US")
    Legs(count=1, base='dc')
    """
    let_go = _LET_GO.search(low)
    moves = _Hand().work(low[: let_go.start()] if let_go else low)
    entries = _before_the_last_through([m for m in moves if m.what == "into"] or _ups(moves), moves)
    made = next((m for m in moves if m.what == "made" and m.done > 1), None)
    if made and not (entries and moves.index(entries[0]) < moves.index(made)):
        return Legs(min(made.done, MOST_LEGS), lexicon.stitch_name(made.stitch, terms) or made.stitch)
    legs = min(max(sum(m.done for m in entries), 1), MOST_LEGS)
    return Legs(legs, _base(entries[0].lead if entries else _yarn_overs(moves), low))


def _ups(moves: Sequence[_Move]) -> list[_Move]:
    return [m for m in moves if m.what == "up"]


def _before_the_last_through(entries: list[_Move], moves: Sequence[_Move]) -> list[_Move]:
    """The entries whose legs are closed by the last time the yarn is drawn through; all, where none is after one."""
    last = max((i for i, m in enumerate(moves) if m.what == "through"), default=-1)
    closed = [m for m in entries if moves.index(m) < last]
    return closed or entries


def _yarn_overs(moves: Sequence[_Move]) -> int:
    return sum(m.done for m in moves if m.what == "yo")


def _base(lead: int, low: str) -> str:
    if lead == 1 and not _PAIR.search(low):
        return "hdc"
    return _BY_YARN_OVERS[min(lead, len(_BY_YARN_OVERS) - 1)]


@dataclass(slots=True)
class _Hand:
    """Goes through the words move by move, and multiplies those that are said to be done again."""

    moves: list[_Move] = field(default_factory=list)
    opened: list[int] = field(default_factory=list)
    closed: int | None = None
    star: int = 0
    again: bool = False

    def work(self, low: str) -> list[_Move]:
        for found in itertools.islice(_MOVE.finditer(low), MOST_MOVES):
            self._step(found, found["open"] or found["close"] or found["star"] or "")
        return self.moves

    def _step(self, found: re.Match[str], mark: str) -> None:
        if mark:
            self._mark(mark)
        elif found["again"]:
            self.again = True
        elif found["times"]:
            self._times((lexicon.number(found["n"]) or 1) if found["n"] else 2 if found["times"] == "twice" else 1)
        else:
            self._move(found)

    def _mark(self, mark: str) -> None:
        if mark in "[(":
            self.opened.append(len(self.moves))
        elif mark == "*":
            self.star = self.star if self.again else len(self.moves)
        elif self.opened:
            first = self.opened.pop()
            self.closed = first if len(self.moves) > first else self.closed

    def _move(self, found: re.Match[str]) -> None:
        what = next(name for name in ("yo", "into", "up", "through", "made") if found[name])
        done = int(found["count"] or 1)
        self.moves.append(_Move(what, done, found["stitch"] or "", _yarn_overs(self.moves)))
        self.closed, self.again = None, False

    def _times(self, times: int) -> None:
        """Do again what the number is said of: from the star, the bracket before it, or the last move alone.

        "Pull up a loop 3 times" is said of everything up to there: each loop needs the hook to go in.
        """
        first = self.closed if self.closed is not None else self._said_of()
        if self.again:
            first, times = self.closed if self.closed is not None else self.star, times + 1
        for move in self.moves[first:]:
            move.done = min(move.done * max(times, 1), MOST_LEGS)
        self.closed, self.again = None, False

    def _said_of(self) -> int:
        alone = bool(self.moves) and self.moves[-1].what in ("yo", "through")
        return len(self.moves) - 1 if alone else self.opened[-1] if self.opened else 0
