"""Patterns of words that are compiled when they are first needed.

A short text asks some half of three hundred. What it never asks costs it nothing, and what it asks is compiled only
where the text holds letters that every match has (`letters_needed`): to look for those is much cheaper than to compile.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from typing import Any, cast

#: Of each way of asking, which of its arguments is the text that is asked, and what it gives where nothing matches.
_NO_MATCH: dict[str, tuple[int, Callable[[str], Any]]] = {
    "match": (0, lambda text: None), "fullmatch": (0, lambda text: None), "search": (0, lambda text: None),
    "finditer": (0, lambda text: iter(())), "findall": (0, lambda text: []), "split": (0, lambda text: [text]),
    "sub": (1, lambda text: text), "subn": (1, lambda text: (text, 0)),
}  # fmt: skip


class _WhenUsed:
    """Stands for a compiled pattern. What is asked of it once is kept, so that it is asked as fast as that."""

    def __init__(self, pattern: str, flags: int) -> None:
        self.pattern = pattern
        self._flags = flags
        self._needed: list[tuple[str, ...]] | None = None

    def __getattr__(self, name: str) -> Any:
        if name.startswith("_"):
            raise AttributeError(name)
        if name not in _NO_MATCH:
            return self._kept(name)
        at, nothing = _NO_MATCH[name]

        def asked(*given: Any, **named: Any) -> Any:
            if len(given) > at and self._cannot_match(given[at]):
                return nothing(given[at])
            return self._kept(name)(*given, **named)

        return asked

    def _kept(self, name: str) -> Any:
        found = getattr(re.compile(self.pattern, self._flags), name)
        setattr(self, name, found)
        return found

    def _cannot_match(self, text: str) -> bool:
        """Whether a text lacks letters that every match has. Of letters beyond ASCII, some are another's capital."""
        if not text.isascii():
            return False
        if self._needed is None:
            self._needed = letters_needed(self.pattern, self._flags)
        if not self._needed:
            return False
        low = text.lower()
        return any(not any(letters in low for letters in ways) for ways in self._needed)


def when_used(pattern: str, flags: int = 0) -> re.Pattern[str]:
    """A pattern like that of `re.compile`, compiled when it is first asked about a text that may hold a match.

    >>> words = when_used("[a-z]+")
    >>> words.pattern, words.match("sc, dc")[0], words.findall("sc, dc")
    ('[a-z]+', 'sc', ['sc', 'dc'])
    """
    return cast("re.Pattern[str]", _WhenUsed(pattern, flags))


#: The parts of a pattern: letters that come once, alternatives of letters alone, an escape, a class, what opens a
#: group, how often, any other sign.
_PARTS = re.compile(
    r"[a-z ]+(?![*+?{])|\((?:\?:)?[a-z ]+(?:\|[a-z ]+)*\)"
    r"|\\.|\[\^?\]?(?:\\.|[^\]\\])*\]|\((?:\?(?:P<\w+>|[a-zA-Z-]*:|<?[=!]|))?|[*+?]\??|\{\d*,?\d*\}\??|.",
    re.DOTALL,
)
_PLAIN_GROUP = re.compile(r"\((?:\?(?:P<\w+>|[aiLmsu-]*:))?\Z")
_LOOK = ("(?=", "(?!", "(?<=", "(?<!")
#: More ways than this are not looked for, and no more of what every match needs than so many.
_MOST_WAYS, _MOST_NEEDED = 40, 3


class _Unknown(Exception):
    """A pattern with a part that is not followed here."""


def letters_needed(pattern: str, flags: int = 0) -> list[tuple[str, ...]]:
    """What every match of a pattern holds, in lower case: of each tuple one at least. Empty where nothing is known.

    >>> letters_needed(r"(?:then )?(?:chang(?:e|ing)|switch) to [a-z]+ (yarn|wool)s?")
    [('chang', 'switch'), (' to ',), ('yarn', 'wool')]
    """
    if flags & re.VERBOSE:
        return []
    parts = iter(_PARTS.findall(pattern))
    try:
        found, ended = _alternatives(parts)
    except _Unknown:
        return []
    return sorted(found, key=_least, reverse=True)[:_MOST_NEEDED] if not ended else []


def _least(ways: tuple[str, ...]) -> int:
    return min(map(len, ways))


def _alternatives(parts: Iterator[str]) -> tuple[list[tuple[str, ...]], bool]:
    """What all alternatives up to the closing bracket need, and whether there was one."""
    every, ended = [], "|"
    while ended == "|":
        needed, ended = _sequence(parts)
        every.append(needed)
    if len(every) == 1:
        return every[0], ended == ")"
    if not all(every):
        return [], ended == ")"
    best = (needed[0] if len(needed) == 1 else max(needed, key=_least) for needed in every)
    ways = tuple(dict.fromkeys(letters for one in best for letters in one))
    return ([ways] if len(ways) <= _MOST_WAYS else []), ended == ")"


def _sequence(parts: Iterator[str]) -> tuple[list[tuple[str, ...]], str]:
    """What one sequence needs, and the sign that ended it."""
    needed: list[tuple[str, ...]] = []
    run = ""
    last: list[tuple[str, ...]] | None = None  # what the part before needs, until it is known how often it comes

    for part in parts:
        if part[0] in "*+?{" and (len(part) > 1 or part != "{"):
            if part[0] in "*?" or part.startswith(("{0", "{,")):
                run, last = run[:-1] if last is None else run, None
            needed, run, last = [*needed, *([(run,)] if run else []), *(last or [])], "", None
            continue
        if last is not None:
            needed, last = needed + last, None
        if letter := _letters(part):
            run += letter
            continue
        if run:
            needed, run = [*needed, (run,)], ""
        if part in (")", "|"):
            return needed, part
        last = _of_part(part, parts)
    if last is not None:
        needed = needed + last
    return [*needed, *([(run,)] if run else [])], ""


def _letters(part: str) -> str:
    """The letters that a part stands for, in lower case; "" where it stands for something else."""
    if len(part) == 1:
        return "" if part in ".^$()|" or not part.isascii() else part.lower()
    if part[0] == "\\":
        return part[1] if part[1].isascii() and not part[1].isalnum() else ""
    return "" if part[0] in "([" else part


def _of_part(part: str, parts: Iterator[str]) -> list[tuple[str, ...]]:
    """What a part that is no letter needs."""
    if part[0] == "[":
        return _signs(part[1:-1])
    if part[0] != "(":
        return []
    if part[-1] == ")":
        ways = tuple(part[1:-1].removeprefix("?:").split("|"))
        return [ways] if len(ways) <= _MOST_WAYS else []
    if part not in _LOOK and not _PLAIN_GROUP.match(part):
        raise _Unknown
    found, _ = _alternatives(parts)
    return [] if part in _LOOK else found


#: One sign of a class: by its number, behind a stroke, or as it stands.
_SIGN = re.compile(r"\\u([0-9a-fA-F]{4})|\\(.)|(.)", re.DOTALL)
_MOST_SIGNS = 8


def _signs(inside: str) -> list[tuple[str, ...]]:
    """The few signs of a class, of which a match holds one: "[~+]"; nothing of a larger one or of a range."""
    if inside[0] == "^" or "-" in inside[1:-1] or len(inside) > 6 * _MOST_SIGNS:
        return []
    found: list[str] = []
    for number, behind, sign in _SIGN.findall(inside):
        if behind.isalnum():
            return []
        found.append(chr(int(number, 16)) if number else (behind or sign).lower())
    return [tuple(found)] if len(found) <= _MOST_SIGNS else []
