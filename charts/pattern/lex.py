"""Words of a pattern as tokens, each with its place in the line.

A token's `kind` is: "n" number, "ord" ordinal, "stitch" (`value` its US name), "sp" a chain space with its size,
"chref" a chain run already made ("ch-3"), "grp" a sized group ("9-sc": size and kind), "word", or the sign itself.
"""

from __future__ import annotations

import functools
import re
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass

from . import lexicon


@dataclass(frozen=True, slots=True)
class Token:
    kind: str
    word: str
    start: int
    end: int
    value: str = ""
    size: int = 0


_DASHES = dict.fromkeys(map(ord, "‐‑‒–—―−"), "-")
_QUOTES = {
    ord("’"): "'",
    ord("‘"): "'",
    ord("“"): '"',
    ord("”"): '"',
    ord("\u00a0"): " ",
    ord("\t"): " ",
    ord("×"): "x",
}


def plain(text: str) -> str:
    """The text with one kind of dash, quote and space, in lower case, letter for letter as long as before."""
    same = text.translate(_DASHES).translate(_QUOTES)
    low = same.lower()
    return low if len(low) == len(same) else "".join(small if len(small := c.lower()) == 1 else c for c in same)


_BARRED = ("Cc", "Cf", "Cs", "Co", "Cn")


def clean(text: str) -> str:
    """Text as it may enter: composed letters, line ends as newline, no control or direction characters."""
    text = unicodedata.normalize("NFC", text.replace("\r\n", "\n").replace("\r", "\n"))
    barred = {ord(c): None for c in set(text) if c not in "\n\t" and unicodedata.category(c) in _BARRED}
    return text.translate(barred)


_SPACE_WORD = r"(?:sps?|spaces?|lps?|loops?|arch(?:es)?)"
_SIZED_CHAIN = r"(?:ch(?:ain)?[- ]?(?P<s1>\d{1,4})|(?P<s2>\d{1,4})[- ]?ch(?:ain)?)"
_PATTERNS = (
    ("sp", rf"{_SIZED_CHAIN}[- ]?(?P<w1>{_SPACE_WORD})(?![a-z0-9])"),
    ("sp", rf"ch(?:ain)?[- ](?P<w2>{_SPACE_WORD})(?![a-z0-9])"),
    ("chref", r"ch-(?P<s3>\d{1,4})(?![a-z0-9])"),
    ("grp", r"(?P<s4>\d{1,4})-(?P<k4>[a-z]+(?: st)?)(?![a-z0-9-])"),
    ("ord", r"\d{1,4}(?:st|nd|rd|th)(?![a-z0-9])"),
    ("n", r"\d+"),
    ("**", r"\*\*"),
    ("*", r"\*"),
    ("word", r"[a-z][a-z']*(?:-[a-z]+)*(?:\d{1,2}(?:tog|cl))?(?![a-z])"),
    ("sign", r"[^\s]"),
)  # fmt: skip
_TOKEN = re.compile("|".join(f"(?P<t{i}>{pattern})" for i, (_, pattern) in enumerate(_PATTERNS)), re.ASCII)


@functools.lru_cache(maxsize=64)
def _phrases(terms: str, extra: tuple[tuple[str, str], ...]) -> tuple[re.Pattern[str], dict[str, str]]:
    table = {**lexicon.long_names(terms), **dict(extra)}
    longest = sorted(table, key=len, reverse=True)
    return re.compile(r"(?<![a-z0-9-])(?:" + "|".join(map(re.escape, longest)) + r")s?(?![a-z0-9])"), table


def tokens(text: str, terms: str, specials: Iterable[tuple[str, str]] = ()) -> list[Token]:
    """The tokens of `text` (already `plain`). `specials` are (spelling, canonical name) of the pattern's own
    stitches."""
    pattern, table = _phrases(terms, tuple(specials))
    out: list[Token] = []
    at = 0
    while at < len(text):
        if text[at].isspace():
            at += 1
            continue
        phrase = pattern.match(text, at)
        if phrase:
            name = table.get(phrase[0]) or table.get(phrase[0].removesuffix("s")) or phrase[0]
            out.append(Token("stitch", phrase[0], at, phrase.end(), name))
            at = phrase.end()
            continue
        found = _TOKEN.match(text, at)
        if found is None:  # pragma: no cover - the last pattern matches any character
            at += 1
            continue
        out.append(_token(found, terms))
        at = found.end()
    return out


def _token(found: re.Match[str], terms: str) -> Token:
    kind = _PATTERNS[
        int((found.lastgroup or "t0").removeprefix("t")) if (found.lastgroup or "").startswith("t") else _index(found)
    ][0]
    word, start, end = found[0], found.start(), found.end()
    if kind == "sp":
        space = (found["w1"] or found["w2"] or "sp").rstrip("s")
        name = "lp" if space.startswith(("lp", "loop")) else "sp"
        return Token("sp", word, start, end, name, int(found["s1"] or found["s2"] or 0))
    if kind == "chref":
        return Token("chref", word, start, end, "ch", int(found["s3"]))
    if kind == "grp":
        return _group_token(found, terms)
    if kind == "ord":
        return Token("ord", word, start, end, "", lexicon.ordinal(word) or 0)
    if kind == "n":
        return Token("n", word, start, end, "", lexicon.number(word) if lexicon.number(word) is not None else -1)  # type: ignore[arg-type]
    if kind == "word":
        return _word_token(word, start, end, terms)
    if word == "&":
        return Token("word", word, start, end, "and")
    return Token(kind if kind != "sign" else word, word, start, end)


def _index(found: re.Match[str]) -> int:
    return next(i for i in range(len(_PATTERNS)) if found[f"t{i}"] is not None)


def _group_token(found: re.Match[str], terms: str) -> Token:
    kind, size = found["k4"], int(found["s4"])
    word = lexicon.synonyms().get(kind, "")
    if word == "ch":
        return Token("chref", found[0], found.start(), found.end(), "ch", size)
    name = lexicon.stitch_name(kind, terms) or ("st" if word == "st" else "")
    return Token("grp", found[0], found.start(), found.end(), name, size)


def _word_token(word: str, start: int, end: int, terms: str) -> Token:
    stitch = lexicon.stitch_name(word, terms)
    if stitch:
        return Token("stitch", word, start, end, stitch)
    number = lexicon.number(word)
    if number is not None:
        return Token("n", word, start, end, "", number)
    place = lexicon.ordinal(word)
    if place is not None:
        return Token("ord", word, start, end, "", place)
    return Token("word", word, start, end, lexicon.synonyms().get(word, word))
