"""Stitches told by one capital letter, as patterns for toys often write: "6V", "(X, A) x 6"."""

from __future__ import annotations

import functools
import re

from ... import lexicon
from ...file.colour_names import COLOUR_NAMES, known_colour
from ...notation.words import vocabulary
from ...when_used import when_used

#: What a letter may be said to stand for, and the word that says so.
_MEANS = (
    (r"inc(?:rease)?s?\b|(?:2|two) (?:sc|x|single crochets?) in (?:one|1|the same|same|each|a)\b", "inc"),
    (r"(?:invisible )?dec(?:rease)?s?\b|(?:2|two) (?:sc|x|single crochets?) (?:tog|together)\b|sc ?2 ?tog\b", "dec"),
    (r"(?:3|three) (?:sc|x|single crochets?) (?:tog|together)\b|sc ?3 ?tog\b", "sc3tog"),
    (r"(?:single crochet|sc)\b(?! in)", "sc"),
    (r"(?:half double crochet|hdc)\b(?! in)", "hdc"),
    (r"(?:double crochet|dc)\b(?! in)", "dc"),
)
_TOLD = when_used(r"(?<![A-Za-z0-9'’-])(?P<letter>[VAXTFWM])\s*(?:=|:|-|\u2013)\s*(?P<words>[A-Za-z0-9][A-Za-z0-9 ]{1,40})")
#: "6V", "12 X", "(X, V)".
_USED = {letter: when_used(rf"(?<![A-Za-z0-9])\d{{1,3}} ?{letter}(?![A-Za-z0-9'-])|(?<=[(\[,+] ){letter}(?=\s*[,+)\]])|(?<=[(\[,+]){letter}(?=\s*[,+)\]])") for letter in "VAX"}
#: What the letters stand for where no line says so, on a page whose rows are told by both of the first two.
_USUAL = {"X": "sc", "V": "inc", "A": "dec"}
FEWEST_USES = 2


def letters_told(text: str, terms: str) -> dict[str, str]:
    """The letters that stand for stitches in a text, each with the word it stands for.

    >>> letters_told("Rnd 2: 6V (12)\\nV: increase", "US")
    {'V': 'inc'}
    """
    if terms != "US":
        return {}
    out: dict[str, str] = {}
    for found in _TOLD.finditer(text):
        word = _word_for(found["words"])
        if word and (found["letter"] not in _USED or _USED[found["letter"]].search(text)):
            out[found["letter"]] = word
    if not out and all(len(_USED[letter].findall(text)) >= FEWEST_USES for letter in "XV"):
        out = dict(_USUAL)
    return out


def without_told(line: str, letters: dict[str, str]) -> str:
    """A line without a bracket that only says what letters stand for, as long as before."""
    return _BRACKET.sub(lambda m: " " * len(m[0]) if _all_told(m["inside"], letters) else m[0], line) if letters else line


_BRACKET = when_used(r"[(\[](?P<inside>[^()\[\]]*[=:][^()\[\]]*)[)\]]")


def _all_told(inside: str, letters: dict[str, str]) -> bool:
    parts = [_TOLD.match(part.strip()) for part in re.split(r"[,;]", inside)]
    return all(part is not None and letters.get(part["letter"]) == _word_for(part["words"]) for part in parts)


def _word_for(words: str) -> str:
    low = " ".join(words.lower().split())
    return next((word for means, word in _MEANS if re.match(means, low)), "")


@functools.cache
def _colour_words() -> tuple[str, ...]:
    """The names of colours in lower case, the longest first."""
    named = (said for said, kinds in vocabulary().items() if any(kind == "COLOURW" for kind, _ in kinds))
    return tuple(sorted(named, key=len, reverse=True))


@functools.cache
def _yarns() -> tuple[re.Pattern[str], re.Pattern[str]]:
    """How a text gives a colour a short name: "White (Wh)", and "Wh = white"."""
    colour = rf"(?i:{'|'.join(map(re.escape, _colour_words()))})"
    short = r"(?P<short>[A-Z][A-Za-z]{0,2}[0-9]?)"
    return (
        re.compile(rf"\b{colour}(?: (?i:yarn|colou?r|thread))?\s*\({short}\)"),
        re.compile(rf"(?<![A-Za-z]){short}\s*(?:=|:|-)\s*(?i:light |dark |pale |bright )?{colour}\b"),
    )


def _names_a_colour(text: str) -> bool:
    """Whether a colour can be named in a text: looked for first, as the patterns are dear to compile."""
    low = text.lower()
    return not text.isascii() or any(word in low for word in _colour_words())


#: What tells that MC is the main colour, and what that it is a magic circle.
_CONTRAST = when_used(r"\bCC\d?\b|\b(?i:colou?r) [A-D]\b|\b(?i:main colou?r)\b")
_MAGIC_CIRCLE = when_used(r"\b(?i:in(?:to)?|make|into an?|in an?|in the|start an?|magic circle) \(?MC\b(?!\s*[:,])|\bMC[ ,(]{1,3}\d+ ?(?:sc|hdc|dc)\b|\bMC\s*=\s*(?i:magic)")


#: How a page calls a yarn that it gives a short name: "A (navy)", "Colour A: navy", "Main colour (MC) = navy", "navy (A)".
_SHORT = r"(?P<short>[A-Z]|[MC]C\d?|[A-Z][A-Za-z]\d?)"
_CALLED = r"(?P<name>[A-Za-z][A-Za-z'’ -]{2,30}?)"
_NAMINGS = (
    when_used(rf"(?<![A-Za-z]){_SHORT} ?\({_CALLED}\)"),
    when_used(rf"(?<![A-Za-z]){_SHORT}\)?\s*(?:=|:|-|\u2013)\s*{_CALLED}\s*(?=[,;.(/\n]|$)"),
    when_used(rf"(?<![A-Za-z]){_CALLED} ?\({_SHORT}\)"),
)
_OF_YARNS = when_used(r"\s*(?:\W+\s*)?(?i:the )?(?i:yarns?|colou?rs?|shades?|materials?|main colou?r|contrast(?:ing)? colou?r)\b")


def yarn_names(text: str) -> tuple[tuple[str, str], ...]:
    """The short names that a text gives yarns, each with what it calls that yarn: a known colour, or any name in a line
    that begins with what it is about.

    >>> yarn_names("Colours: A (navy), B (Old Fern)\\nRow 1: With A, sc 3.")
    (('A', 'navy'), ('B', 'Old Fern'))
    """
    found: dict[str, str] = {}
    for line in text.split("\n"):
        named = bool(_OF_YARNS.match(line))
        for naming in _NAMINGS:
            for one in naming.finditer(line):
                name = " ".join(one["name"].split())
                name = name if naming is not _NAMINGS[2] else _known_end(name)
                if name and (known_colour(name) or (named and not _MATERIAL.search(name))):
                    found.setdefault(one["short"], name)
    return tuple(found.items())


#: Words of what yarn is and of what is worked: no name of a colour.
_MATERIAL = when_used(r"\b(?i:yarns?|cotton|wool|acrylic|weight|worsted|colou?rs?|sides?|hooks?|skeins?|balls?|needles?|ch|chain|sc|dc|hdc|tr|sts?|rows?|rounds?|sl|join)\b")


def _known_end(words: str) -> str:
    """The longest end of words that is a known colour: of "and dark green" the last two."""
    each = words.split()
    return next((" ".join(each[at:]) for at in range(max(len(each) - 3, 0), len(each)) if " ".join(each[at:]).lower() in COLOUR_NAMES), "")


def yarns_told(text: str) -> frozenset[str]:
    """The short names that a text gives its colours, as they are printed.

    >>> sorted(yarns_told("You need Dark Pink (DP) and White (Wh)."))
    ['DP', 'Wh']
    """
    patterns = _yarns() if _names_a_colour(text) else ()
    found = {one["short"] for pattern in patterns for one in pattern.finditer(text)}
    if "MC" in text and _CONTRAST.search(text) and ("in CC" in text or not _MAGIC_CIRCLE.search(text)):
        found.add("MC")
    return frozenset(short for short in found if len(short) > 1 and lexicon.stitch_name(short.lower(), "US") is None and short.lower() != "ch")
