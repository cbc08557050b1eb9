"""Patterns of words that are compiled when they are first needed.

A short text asks some half of three hundred. What it never asks costs it nothing, and what it asks is compiled only
where the text holds letters that every match has (`letters_needed`): to look for those is much cheaper than to compile.
"""

from __future__ import annotations

import binascii
import functools
import json
import math
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any, cast

#: Of each way of asking, which of its arguments is the text that is asked, and what it gives where nothing matches.
_NO_MATCH: dict[str, tuple[int, Callable[[str], Any]]] = {
    "match": (0, lambda text: None), "fullmatch": (0, lambda text: None), "search": (0, lambda text: None),
    "finditer": (0, lambda text: iter(())), "findall": (0, lambda text: []), "split": (0, lambda text: [text]),
    "sub": (1, lambda text: text), "subn": (1, lambda text: (text, 0)),
}  # fmt: skip
#: A pattern that was asked so often where a match begins is compiled whatever the text: to look through so many texts
#: for its letters has taken as long as that. Where a match may stand anywhere, to look for letters stays the quicker.
OFTEN = 300


class _Late:
    """Stands for a compiled pattern until something is asked of it."""

    def __init__(self, pattern: str, flags: int = 0) -> None:
        self._told = (pattern, flags)

    def __getattr__(self, name: str) -> Any:
        if name.startswith("_"):
            raise AttributeError(name)
        found = getattr(re.compile(*self._told), name)
        setattr(self, name, found)
        return found


class _WhenUsed:
    """Stands for a compiled pattern. What is asked of it once is kept, so that it is asked as fast as that."""

    def __init__(self, pattern: str, flags: int) -> None:
        self.pattern = pattern
        self._flags = flags
        self._needed: list[Any] | None = None
        self._looked_through = False
        self._exact = _is_exact(pattern, flags)

    def __getattr__(self, name: str) -> Any:
        if name.startswith("_"):
            raise AttributeError(name)
        if name not in _NO_MATCH:
            return self._kept(name)
        at, nothing = _NO_MATCH[name]
        left = OFTEN if name in ("match", "fullmatch") else math.inf

        def asked(*given: Any, **named: Any) -> Any:
            nonlocal left
            left -= 1
            if left >= 0 and len(given) > at and self._cannot_match(given[at]):
                return nothing(given[at])
            return self._kept(name)(*given, **named)

        setattr(self, name, asked)
        return asked

    def _kept(self, name: str) -> Any:
        found = getattr(re.compile(self.pattern, self._flags), name)
        setattr(self, name, found)
        return found

    def _cannot_match(self, text: str) -> bool:
        """Whether a text lacks letters that every match has, or has them in another order."""
        low = flat(text, self._exact)
        if self._needed is None:
            self._needed = known_letters().get(key_of(self.pattern, self._flags))
            self._looked_through = self._needed is not None
        if self._needed is None:
            self._needed = letters_needed(self.pattern, self._flags, low)
        elif not self._looked_through and reached(self._needed, low) >= 0:
            self._needed, self._looked_through = letters_needed(self.pattern, self._flags), True
        return reached(self._needed, low) < 0


def key_of(pattern: str, flags: int = 0) -> str:
    """Under what a pattern's letters are kept: its flags, its length and its checksum."""
    return f"{int(flags):x} {len(pattern)} {binascii.crc32(pattern.encode('utf-8', 'surrogatepass')):x}"


@functools.cache
def known_letters() -> dict[str, list[Any]]:
    """`letters_needed` of patterns written down beforehand, as to reckon them takes a short check a sixth of its time.
    They are found by the pattern itself, so that one which has changed since is reckoned anew."""
    return cast("dict[str, list[Any]]", json.loads((Path(__file__).parent / "letters.json").read_bytes()))


def when_used(pattern: str, flags: int = 0) -> re.Pattern[str]:
    """A pattern like that of `re.compile`, compiled when it is first asked about a text that may hold a match.

    >>> words = when_used("[a-z]+")
    >>> words.pattern, words.match("sc, dc")[0], words.findall("sc, dc")
    ('[a-z]+', 'sc', ['sc', 'dc'])
    """
    return cast("re.Pattern[str]", _WhenUsed(pattern, flags))


#: How often a part comes; one sign, escape or class; what opens a group; what a group without a group in it holds.
_OFTEN = r"(?:[*+?][?+]?|\{(?:\d+(?:,\d*)?|,\d*)\}[?+]?)"
_CLASS = r"\[\^?\]?(?:\\.|[^\]\\]++)*+\]"
_OPEN = r"\((?:\?(?:P<\w+>|:|<?[=!]|[a-zA-Z-]+:|P=|\(\w+\)|))?"
_PARTS = _Late(
    rf"[A-Za-z ]+(?!{_OFTEN})|{_OPEN}(?:[^()\[\]\\]++|\\.|{_CLASS})*+\){_OFTEN}?|{_OPEN}|\){_OFTEN}?|\||"
    rf"(?:\\u[0-9a-fA-F]{{4}}|\\.|{_CLASS}|.){_OFTEN}?",
    re.DOTALL,
)
_OPENED = _Late(_OPEN)
_HOW_OFTEN = _Late(rf"{_OFTEN}\Z")
#: What every match of a part holds: letters; one of some ways; a row of these, None where anything may stand between.
Needs = str | tuple[Any, ...] | list[Any] | None
_KNOWN: tuple[dict[str, Any], dict[str, Any]] = ({}, {})
_NEW, _GROUP, _END = object(), object(), object()
_TWICE = _Late(r"(0)0+|( ) +")
#: A figure or a space may be the last sign of one part and the first of the next, where several were made one.
_MADE_ONE = "0 "


class _Unknown(Exception):
    """A pattern with a part that is not followed here."""


class _Look:
    """What stands before a place or behind it, which a match does not take."""

    def __init__(self, ahead: bool, needs: list[Any]) -> None:
        self.ahead, self.needs = ahead, needs


def letters_needed(pattern: str, flags: int = 0, text: str | None = None) -> list[Any]:
    """What every match of a pattern holds, in this order: letters, or of a tuple one way at least, which is letters or
    again a list in order. Empty where nothing is known. Figures are "0" and white is a space, as `flat` writes a text;
    where such a text is given, each alternative is followed only as far as the text holds what it needs.

    >>> letters_needed(r"(?:then )?(?:chang(?:e|ing)|switch) to [a-z]+ (yarn|wool)s?")
    [([('change', 'changing')], 'switch'), ' to ', (' yarn', ' wool')]
    """
    if flags & re.VERBOSE:
        return []
    parts = _PARTS.findall(pattern)
    try:
        ways, at = _ways(parts, 0, _is_exact(pattern, flags), whole=True, begins=True, text=text)
    except _Unknown:
        return []
    return [needed for needed in _one_of(ways) if needed is not None] if at == len(parts) else []


def _is_exact(pattern: str, flags: int) -> bool:
    """Whether capitals are told from small letters all over a pattern."""
    return not flags & re.IGNORECASE and "(?i" not in pattern


@functools.lru_cache(maxsize=16)
def flat(text: str, exact: bool) -> str:
    """A text with each run of figures as "0" and each of white as a space; in small letters unless capitals count.

    >>> flat("Row 12:\\n2 Sc", True), flat("Row 12:\\n2 Sc", False)
    ('Row 0: 0 Sc', 'row 0: 0 sc')
    """
    if not exact:
        text = text.lower()
        if not text.isascii():  # two letters that a pattern finds for "s" and "i"
            text = text.replace("\u017f", "s").replace("\u0131", "i")
    return _WHITE.sub(" ", _FIGURES.sub("0", text))


_FIGURES, _WHITE = re.compile(r"\d+"), re.compile(r"\s+")


def reached(needs: list[Any], text: str, at: int = 0) -> int:
    """Where at the earliest a flat text from a place on has held what is needed, in its order; -1 where it does not."""
    find = text.find
    for needed in needs:
        if needed.__class__ is str:
            at = find(needed, at)
            if at < 0:
                return -1
            at += len(needed) - (needed[-1] in _MADE_ONE)
            continue
        first = -1
        for way in needed:
            if way.__class__ is str:
                end = find(way, at)
                end = end if end < 0 else end + len(way) - (way[-1] in _MADE_ONE)
            else:
                end = reached(way, text, at)
            if end >= 0 and (first < 0 or end < first):
                first = end
        if first < 0:
            return -1
        at = first
    return at


def _ways(
    parts: list[str], at: int, exact: bool, whole: bool, begins: bool, text: str | None = None
) -> tuple[list[list[Any]], int]:
    """What each alternative up to the closing bracket needs, and the place behind that; `whole`: of the whole pattern,
    `begins`: nothing of the pattern stands before, `text`: what one lacks behind is not asked."""
    known = _KNOWN[exact]
    ways: list[list[Any]] = [[]]
    needs, run = ways[0], ""
    held = place = 0
    while at < len(parts):
        if text is not None and len(needs) > held:
            held, place = len(needs), reached([one for one in needs[held:] if one is not None], text, place)
            if place < 0:
                at, run, place = _way_behind(parts, at), "", 0
                continue
        part = parts[at]
        at += 1
        told = known.get(part, _NEW)
        if told is _NEW:
            told = known[part] = _needs(part, exact)
        if told is _GROUP:
            inner, at = _ways(parts, at, exact, whole=False, begins=begins and not needs and not run)
            told = _grouped(part, inner, parts[at - 1][1:])
        if told.__class__ is str:
            run += told
            continue
        if told.__class__ is _Look:
            at_end = whole and (at == len(parts) or parts[at] == "|")
            if not (at_end if told.ahead else begins and not needs and not run):
                continue
            told = told.needs
        if told.__class__ is list:
            for one in told:
                if one.__class__ is str:
                    run += one
                else:
                    run, rest = _set_before(run, one) if run and one is not None else (run, one)
                    run = _ended(run, needs)
                    needs.append(rest)
            continue
        run = _ended(run, needs)
        if told is not _END:
            needs.append(told)
        elif part != "|":
            break
        else:
            needs = []
            ways.append(needs)
            held = place = 0
    _ended(run, needs)
    return ways, at


def _way_behind(parts: list[str], at: int) -> int:
    """The place of the next sign for "or" outside all brackets, or the end."""
    if "|" not in parts:
        return len(parts)
    depth = 0
    while at < len(parts) and (depth or parts[at] != "|"):
        part = parts[at]
        if part[0] == "(" and (")" not in part or (part[:3] == "(?(" and part.count(")") == 1)):
            depth += 1
        elif part[0] == ")":
            depth -= 1
        at += 1
    return at


#: Before more ways than this the letters before them are looked for by themselves.
_MOST_WAYS = 12


def _set_before(run: str, ways: tuple[Any, ...]) -> tuple[str, tuple[Any, ...]]:
    """Letters put before each of the ways that follow at once, "ch 0" before "st" or "nd"; what is left of them."""
    last = run[-1] if run[-1] in _MADE_ONE else ""
    if len(ways) > _MOST_WAYS or any(way.__class__ is not str or way[0] == last for way in ways):
        return run, ways
    run = _TWICE.sub(r"\1\2", run)
    return "", tuple([run + way for way in ways])


def _ended(run: str, needs: list[Any]) -> str:
    """The letters of a run put with what is needed; the next run's letters, which are none."""
    if run:
        needs.append(_TWICE.sub(r"\1\2", run) if "00" in run or "  " in run else run)
    return ""


def _one_of(ways: list[list[Any]]) -> list[Any]:
    """What any of these alternatives needs. One that may begin with something else is a list, so that no letters are
    put right before it."""
    if len(ways) == 1:
        return ways[0]
    found: dict[object, Any] = {}
    for way in ways:
        needs = [one for one in way if one is not None]
        if not needs:
            return [None]
        if len(needs) == 1 and needs[0].__class__ is str and way[0] is not None:  # else something may stand before it
            found[needs[0]] = needs[0]
        else:
            found[id(way)] = needs
    return [tuple(found.values())]


def _needs(part: str, exact: bool) -> Any:
    """What a part needs."""
    if part == "|" or part[0] == ")":
        return _END
    if part[0] == "(":
        if part == "(" or part[-1] not in ")*+?}" or _OPENED.fullmatch(part):
            if part == "(?":
                raise _Unknown
            return _GROUP
        opening = _OPENED.match(part)[0]
        closed = part.rindex(")")
        if part[closed + 1 : closed + 2] in ("*", "?"):
            return [None]
        if opening in _NONE_BEHIND:
            return ""
        if words := _WORDS.fullmatch(part, len(opening), closed):
            return _of_words(words[0] if exact else words[0].lower(), opening, part[closed + 1 :])
        ways, _ = _ways(_PARTS.findall(part[len(opening) : closed]), 0, exact, whole=False, begins=False)
        return _grouped(opening, ways, part[closed + 1 :])
    size = 1
    if part[0] == "\\":
        size = 6 if part[1] == "u" and len(part) > 5 else 2
    elif part[0] == "[":
        size = part.rindex("]") + 1
    often = part[size:] if _HOW_OFTEN.fullmatch(part[size:]) else ""
    told = _of_sign(part[: len(part) - len(often)], exact)
    return _so_often([told] if told is None or told.__class__ is tuple else told, often)


_NONE_BEHIND = ("(?!", "(?<!")
#: Alternatives of letters, of which the last may be missing.
_WORDS = _Late(r"[A-Za-z ]+\??(?:\|[A-Za-z ]+\??)+")


def _of_words(words: str, opening: str, often: str) -> Any:
    """What alternatives of letters need."""
    ways = dict.fromkeys([word[:-2] if word[-1] == "?" else word for word in words.split("|")])
    return _grouped(opening, [[None]] if "" in ways else [[tuple(ways)]], often)


def _grouped(opening: str, ways: list[list[Any]], often: str) -> Any:
    """What a group needs."""
    if opening in _NONE_BEHIND:
        return ""
    if opening == "(?P=" or opening[:3] == "(?(":
        return [None]
    if opening == "(?" or (opening[-1] == ":" and "x" in opening):
        raise _Unknown
    needs = _one_of(ways)
    if opening in ("(?=", "(?<="):
        return _Look(opening == "(?=", needs)
    return _so_often(needs, often)


def _so_often(needs: Any, often: str) -> Any:
    """What a part needs that comes so often."""
    if not often or needs == "" or (needs.__class__ is str and needs in _MADE_ONE and not _may_be_missing(often)):
        return needs
    if _may_be_missing(often):
        return [None]
    return [*needs, None] if needs.__class__ is list else [needs, None]


def _may_be_missing(often: str) -> bool:
    return often[0] in "*?" or often.startswith(("{0", "{,"))


_ZERO_WIDE = ("\\b", "\\B", "\\A", "\\Z", "^", "$")
_WHITE_SIGNS = ("\\s", "\\n", "\\t", "\\r", "\\f", "\\v")


def _of_sign(part: str, exact: bool) -> Any:
    """What a sign, an escape, a class or some letters need."""
    if part in _ZERO_WIDE:
        return ""
    if part == "\\d":
        return "0"
    if part in _WHITE_SIGNS:
        return " "
    if part[0] == "[" and len(part) > 1:
        return _signs(part[1:-1], exact)
    if part == ".":
        return None
    if part[0] == "\\":
        if len(part) > 2:
            return _letter(chr(int(part[2:], 16)), exact)
        return None if part[1].isalnum() else _letter(part[1], exact)
    return _letter(part, exact) if len(part) == 1 else part if exact else part.lower()


def _letter(sign: str, exact: bool) -> str | None:
    """A sign as a flat text has it; None of a letter beyond ASCII, which some other may be the capital of."""
    if sign.isdecimal():
        return "0"
    if sign.isspace():
        return " "
    if not sign.isascii() and (sign.isalpha() or sign.lower() != sign or sign.upper() != sign):
        return None
    return sign if exact else sign.lower()


#: One sign of a class: by its number, behind a stroke, or as it stands.
_SIGN = _Late(r"\\u([0-9a-fA-F]{4})|\\(.)|(.)", re.DOTALL)
_MOST_SIGNS = 8


def _signs(inside: str, exact: bool) -> Any:
    """The few signs of a class, of which a match holds one: "[~+]"; nothing of a larger one or of a range."""
    if inside in ("0-9", "1-9", "2-9"):
        return "0"
    if inside[0] == "^" or "-" in inside[1:-1] or len(inside) > 6 * _MOST_SIGNS:
        return None
    found: dict[str | None, None] = {}
    for number, behind, sign in _SIGN.findall(inside):
        if behind in ("d", "s"):
            found["0" if behind == "d" else " "] = None
        elif behind.isalnum():
            return None
        else:
            found[_letter(chr(int(number, 16)) if number else behind or sign, exact)] = None
    if None in found or len(found) > _MOST_SIGNS:
        return None
    return tuple(found) if len(found) > 1 else next(iter(found))
