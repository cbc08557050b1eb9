"""Two names of one thing beside each other: "in the circle/ring", "2 (sc) single crochet", "1 dc/sc in each st". One of them
stays, the other is blotted out, places kept."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ... import lexicon
from ...notation.plain import plain
from ...notation.words import vocabulary
from ...when_used import when_used

_WORD = r"[A-Za-z]+(?:-(?:sps?|spaces?|lps?|loops?))?"
_BESIDE = when_used(rf"(?<![A-Za-z0-9/-])(?P<a>(?:magic |adjustable )?{_WORD})(?P<b> ?/ ?{_WORD})(?![A-Za-z/])")
#: Kinds of words of which two beside each other mean the same thing.
_KINDS = frozenset(("MAGIC", "RING", "ST", "CH", "SP", "LP", "ROW", "RND", "INC", "DEC", "CORNER", "PICOT", "MARKER", "SKIP", "TURN", "REPEAT", "TOG"))
#: Names that are parted elsewhere and mean one thing beside each other.
_ALIKE = (frozenset(("SP", "LP")), frozenset(("ROW", "RND")), frozenset(("SP", "HOLE")))
#: "(sc) single crochet", "(ch) chain".
_SHORT_FIRST = when_used(r"(?P<gloss>\((?P<short>[A-Za-z]{1,5}(?: st)?)\)\s)(?P<long>[A-Za-z]+(?: [A-Za-z]+){0,3})")
#: "Nine (9) times", "two (2) dc".
_NUMBER_TWICE = when_used(rf"(?<![A-Za-z0-9])(?P<word>{lexicon.NUMBER_WORDS}|one)(?P<gloss>\s?\((?P<n>\d{{1,3}})\))(?=\s+[a-z])", re.IGNORECASE)
#: "work (1) shell in next sp", "at (1) time": a number that stands in a bracket for nothing's sake.
_NUMBER_HELD = when_used(r"(?P<lead>\b(?:work|make|form|at|in|with|next|last) )\((?P<n>\d{1,2})\)(?= [a-z])", re.IGNORECASE)
_STITCH = r"(?:sc|h?dc|h?tr|dtr)"
_PAIR = when_used(rf"(?<![A-Za-z/])(?P<a>{_STITCH})(?P<b>/{_STITCH})(?![A-Za-z/])", re.IGNORECASE)
_ALONE = when_used(rf"(?<![A-Za-z/]){_STITCH}(?![A-Za-z/])", re.IGNORECASE)
_NUMBERED = when_used(rf"\d ?{_STITCH}/{_STITCH}\b", re.IGNORECASE)
_SKIPS = when_used(r"\b(?:sk|skip|miss)\b", re.IGNORECASE)
#: Fewer pairs than this may be two stitches in one place.
FEWEST_PAIRS = 3


def _kinds(said: str) -> set[str]:
    return {kind for kind, _ in vocabulary().get(plain(said).strip(), ())}


def _mean_the_same(first: str, second: str) -> bool:
    a, b = _kinds(first), _kinds(second)
    return bool(a & b & _KINDS) or any(one & a and one & b for one in _ALIKE) or _full_name(second) == _stitch(first) != "" or _full_name(first) == _stitch(second) != ""


def _stitch(said: str) -> str:
    return next((name for terms in ("US", "UK") if (name := lexicon.stitch_name(plain(said).strip(), terms))), "")


def _full_name(said: str) -> str:
    return lexicon.long_names("US").get(plain(said).strip(), "")


def one_name(line: str) -> str:
    """A line with each thing that is named twice named once.

    >>> one_name("Rnd 1: 7 sc in the circle/ring, 1 (sc) single crochet in the next stitch/st.")
    'Rnd 1: 7 sc in the circle     , 1      single crochet in the next stitch   .'
    >>> one_name("sc/dc in next st/ch-2 sp")
    'sc/dc in next st/ch-2 sp'
    """
    if ")" in line:
        line = _NUMBER_HELD.sub(lambda m: f"{m['lead']} {m['n']} ", line)
        line = _NUMBER_TWICE.sub(_word_only, _SHORT_FIRST.sub(_long_only, line))
    return _BESIDE.sub(_first_only, line) if "/" in line else line


def _first_only(found: re.Match[str]) -> str:
    second = found["b"].replace("/", "").strip()
    same = _mean_the_same(found["a"], second) and not (_stitch(found["a"]) and _stitch(second))
    return found["a"] + " " * len(found["b"]) if same else found[0]


def _word_only(found: re.Match[str]) -> str:
    same = lexicon.number(found["word"].lower()) == int(found["n"])
    return found["word"] + " " * len(found["gloss"]) if same else found[0]


def _long_only(found: re.Match[str]) -> str:
    short, words = plain(found["short"]), plain(found["long"]).split()
    for count in range(len(words), 0, -1):
        said = " ".join(words[:count])
        for form in (said, said.removesuffix("s")):
            named = any(lexicon.long_names(t).get(form) == lexicon.stitch_name(short, t) is not None for t in ("US", "UK"))
            if named or _kinds(form) & _kinds(short) & _KINDS:
                return " " * len(found["gloss"]) + found["long"]
    return found[0]


def in_one_system(lines: Sequence[str], terms: str) -> list[str] | None:
    """The lines of a page that tells every stitch by its names in both systems ("2 dc/sc in next st"), in one; None for any
    other page, so where two stitches may go into one place.

    >>> in_one_system(["1 dc/sc in each ch.", "1 dc/sc, 2 dc/sc in next st."], "US")
    ['1 sc    in each ch.', '1 sc   , 2 sc    in next st.']
    >>> in_one_system(["*Sc/dc in next st, sk 1 st*", "1 sc/dc, 1 sc/dc."], "US") is None
    True
    """
    whole = "\n".join(lines)
    pairs = list(_PAIR.finditer(whole))
    if len(pairs) < FEWEST_PAIRS or not _NUMBERED.search(whole) or _SKIPS.search(whole) or _ALONE.search(whole):
        return None
    told = {pair[0].lower(): _in_terms(pair["a"].lower(), pair["b"][1:].lower(), terms) for pair in pairs}
    if not all(told.values()):
        return None
    return [_PAIR.sub(lambda m: told[m[0].lower()].ljust(len(m[0])), line) for line in lines]


def _in_terms(a: str, b: str, terms: str) -> str:
    """The one of two names that a stitch has in these terms; "" where they are not names of one stitch."""
    for us, uk in ((a, b), (b, a)):
        if lexicon.US_TO_UK.get(us) == uk:
            return us if terms == "US" else uk
    return ""


_LONG = when_used(r"(?<![\w.,-])(?P<n>\d{1,2}|[Oo]ne|[Aa]|[Aa]nother) longs?(?: stitch(?:es)?| sts?)?(?![\w-]| (?:tr|treble|dc|double|single|sc|chain|ch|loop))")
_SINGLE = when_used(r"\b[Ss]ingle crochets?\b|(?<![\w.])[Ss]\. ?c\.?(?![\w.])")


def in_old_names(lines: Sequence[str]) -> list[str]:
    """The lines of an old page, in which a treble is a "long" and a slip stitch is a single crochet, in names of today.

    >>> in_old_names(["3 single crochet, 5 long into the loop."])
    ['3 sl st         , 5 tr   into the loop.']
    """
    out = [_LONG.sub(lambda m: f"{m['n']} tr".ljust(len(m[0])), line) for line in lines]
    return [_SINGLE.sub(lambda m: "sl st".ljust(len(m[0])) if len(m[0]) >= len("sl st") else "ss".ljust(len(m[0])), line) for line in out]


#: "Chain point", "low point", "points employed": a page from a language that has one word for point and stitch.
_CALLS_POINTS = when_used(r"\b(?:chain|low|high|half|half high|slip|slipped|middle|full|air|tight|firm|closed|raised) points?\b|\bpoints? (?:employed|used|worked)\b", re.IGNORECASE)
_POINTS = when_used(r"\bpoint(?P<s>s?)\b(?! of (?:the )?(?:shawl|petal|star|leaf|shell))", re.IGNORECASE)
#: "The 4 points of the star", "each point of the shawl": what a piece has.
_REAL_POINTS = when_used(r"\bpoints? of (?:the )?(?:shawl|petal|star|leaf|shell)|\b\d ?-?pointed\b", re.IGNORECASE)


def points_as_stitches(lines: Sequence[str]) -> list[str]:
    """The lines of a page that calls stitches points, in the word of the trade; those of any other as they are.

    >>> points_as_stitches(["Points used: chain point (ch).", "Row 2: 1 sc over each point. 30 points"])
    ['Sts    used: chain st    (ch).', 'Row 2: 1 sc over each st   . 30 sts   ']
    >>> points_as_stitches(["Rnd 4: sc in each point of the star."])
    ['Rnd 4: sc in each point of the star.']
    """
    whole = "\n".join(lines)
    if not _CALLS_POINTS.search(whole) or _REAL_POINTS.search(whole):
        return list(lines)
    return [_POINTS.sub(lambda m: ("St" if m[0][0] == "P" else "st") + (m["s"] or "") + " " * 3, line) for line in lines]
