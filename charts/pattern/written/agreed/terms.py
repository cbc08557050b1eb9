"""US or UK, settled from the text and never demanded: what is said, what only one system has, what fits."""

from __future__ import annotations

import re

from ....made_late import dataclass
from ...when_used import when_used

_SAID = when_used(
    r"\bterms?\s*[:=(-]?\s*(?P<a>us\b|u\.s\.|uk\b|u\.k\.|american|british|usa|aus|australian|english)"
    r"|\b(?P<b>us|u\.s\.a?\.?|uk|u\.k\.|american|british|usa|australian|english|u\.s)[ /-]*(?:/\s*(?:australian|aus|american|canadian|us|canada)\s*)?(?:crochet |standard |stitch |pattern |english )*(?:terms?|terminology|abbreviations?|notation|stitch names|names|conventions?|(?:(?<=crochet )[a-z]+ )?pattern\b)"
    r"|\babbreviations?\s*[(:-]\s*(?P<c>us|uk|american|british|usa)\b"
    r"|\b(?:uses?|in|written in|using)\s+(?P<d>us|uk|american|british|u\.s\.|u\.k\.)\b(?:\s+(?:terms|terminology|english|crochet|standard))?"
    r"|\b(?:terms?|terminology|abbreviations?|stitch(?:es| names)|names)\b (?:here |used |below |given |throughout |in this pattern )*(?:are|is) (?:all )?(?:in |the )?(?P<h>us|uk|american|british|u\.s\.|u\.k\.)(?![a-z])"
    r"|\((?P<e>us|uk)\s+(?:terms|version)\)"
    r"|(?m:^[^\S\n]*[(\[*]*(?P<f>us|u\.s\.|uk|u\.k\.|american|british|australian)(?: (?:english|crochet|style|version))?[)\]*.:!]*[^\S\n]*$)"
)
_KEYED = when_used(
    r"\b(?P<word>dc|tr|htr|dtr|hdc|sc)\b\s*(?:[-=:–]|\bis\b)?\s*(?:\w+\s+){0,2}?(?P<meaning>single crochet|double crochet|half double|half treble|treble crochet|treble|triple)?[^.\n(]{0,20}\((?P<sys>us|uk)\b[^)]*(?P<other>single|double|treble|half|sc|dc|tr|htr|hdc)?"
)
_ONLY_US = when_used(
    r"single crochet|half double|\bsc\b|\bhdc\b|\bsc\d?tog|\b\d+ ?sc\b|\b\d+ ?hdc\b|\bfpdc\b|\bfphdc|\bhdc\d?tog|\b(?:fs|fh)c\b|\binvdec\b|\bsc\d"
)
_ONLY_UK = when_used(
    r"half treble|\bhtr\b|\b\d*htr\b|\byrh\b|\byoh\b|\bquadruple treble|\bttr\b|\bqtr\b|\bhtr\d?tog|\brtr[fb]\b"
)

#: The wrap of the yarn as UK pages name it: also said by those who write the stitches' US names.
_WRAPS = when_used(r"\by[ro]h\b")
#: "3 ch (counts as 1 dc)": as high as three chains is the dc of US terms.
_DC_OF_THREE = r"\b(?:ch\s?3|3\s?ch)\b[^.\n]{0,40}?(?:counts? as|=) (?:a |1 |1st |first |one )*\bdc\b"


#: What is said of a reader who is used to the other terms: "If you work in US terms, swap ...".
_IF_OTHER = when_used(
    r"\b(?:if (?:you|you're|you are|your)|used to|more at home|those|anyone|readers?|makers?|folks?|to (?:convert|translate|change|swap))\b[^.;!?\n]{0,40}$"
)


#: "sc [dc in British English]": the page's own name stands before the bracket, in the other terms.
_BESIDE = when_used(r"[a-z]\s*[(\[]\s*(?:or |called |a )*(?:sc|h?dc|d?tr|htr)s?\s*$")


#: "Itr": the letter that a scanned page has for a one.
_ONE_MISREAD = when_used(r"\b[il](?=(?:tr|dc|dtr|htr|ch)\b)")


#: "5 long into the loop", "1 double crochet, 4 long stitches, ...": the treble of old pages, as a stitch that is counted.
_LONG = when_used(r"(?<![\w.,-])\d{1,2} longs?(?: stitch(?:es)?| sts?)?(?=\s*[,;]| (?:in|into|over|on|under|through|and)\b)")
_SHORTER = when_used(r"\bdouble (?:crochet|stitch)|(?<![a-z])d\. ?c\b|\bdc\b|\bchain")


def says_long(text: str) -> bool:
    """Whether a text in lower case says "long" for a treble, beside double crochet or chains.

    >>> says_long("* 5 long into the loop, 1 chain, repeat from *."), says_long("a chain 9 long")
    (True, False)
    """
    return bool(_LONG.search(text) and _SHORTER.search(text))


@dataclass(frozen=True, slots=True)
class Settled:
    """The terms, why, and where two things said contradict each other: (line, words)."""

    terms: str
    why: str
    said: bool = False
    conflict: str = ""


def settle(text: str) -> Settled:
    """The terms of a text in lower case.

    >>> settle("this pattern uses us terms. row 1: dc in each st").terms
    'US'
    """
    text = _ONE_MISREAD.sub("1", text)
    said = _declared(text)
    if len(said) == 1:
        terms = said.pop()
        return Settled(terms, f"the text says {terms} terms", True)
    if says_long(text):
        return Settled("UK", '"long" is said for treble')
    us, uk = _count(_ONLY_US, text), _count(_ONLY_UK, text)
    keyed = _by_key(text)
    if keyed:
        return Settled(keyed, f"its list of abbreviations is in {keyed} terms")
    if us and not uk:
        return Settled("US", f'"{_first(_ONLY_US, text)}" is a US name')
    if uk and not us and uk == _count(_WRAPS, text) and re.search(_DC_OF_THREE, text):
        return Settled("US", "three chains stand for a dc")
    if uk and not us:
        return Settled("UK", f'"{_first(_ONLY_UK, text)}" is a UK name')
    if us and uk:
        return Settled("US" if us >= uk else "UK", "most of its stitch names are")
    return _by_habit(text)


def _declared(text: str) -> set[str]:
    out = set()
    for found in _SAID.finditer(text):
        word = next(g for g in found.groups() if g)
        lead = text[max(0, found.start() - 14) : found.start()].rsplit("\n", 1)[-1]
        if re.search(r"\bhook\b|size", lead) and not found["a"]:
            continue
        if re.search(r"\b(?:convert|or|not|for)\s*$", lead) or _IF_OTHER.search(text[: found.start()]) or re.match(
            r"[^.\n,;]{0,20}\bin brackets", text[found.end() :]
        ):
            continue
        british = word.startswith(("uk", "u.k", "brit", "aus", "engl")) != bool(_BESIDE.search(lead))
        out.add("UK" if british else "US")
    if len(out) == 2:
        first = _SAID.search(text)
        line = re.search(r"^\s*terms?\s*:\s*(us|uk)\b", text, re.MULTILINE)
        if line:
            return {"UK" if line[1] == "uk" else "US"}
        assert first is not None
    return out


def _count(pattern: re.Pattern[str], text: str) -> int:
    return len(pattern.findall(text))


def _first(pattern: re.Pattern[str], text: str) -> str:
    found = pattern.search(text)
    return found[0].strip() if found else ""


_OR = r"s?\s*(?:[(\[/,=]|\bor\b|\balso\b)[\s(=]*(?:or |also |same as |called |known as |= ?|the )*"
#: "dc = double crochet (or single crochet)": the same stitch by both its names in one line of a list.
_BOTH_NAMES = (
    ("UK", when_used(rf"(?m:^[^\w\n]{{0,12}})(?:dc\s?[-=:\u2013]+\s?double crochet{_OR}single|(?<![a-z])tr\s?[-=:\u2013]+\s?(?:treble|triple)(?: crochet)?{_OR}double|htr\s?[-=:\u2013]+\s?half treble(?: crochet)?{_OR}half double)")),
    ("US", when_used(rf"(?m:^[^\w\n]{{0,12}})(?:sc\s?[-=:\u2013]+\s?single crochet{_OR}double|(?<![a-z])dc\s?[-=:\u2013]+\s?double crochet{_OR}(?:treble|triple)|hdc\s?[-=:\u2013]+\s?half double(?: crochet)?{_OR}half treble)")),
)  # fmt: skip


def _by_key(text: str) -> str:
    """What a list of abbreviations tells: "tr = treble crochet (US double crochet)", "dc (us sc)"."""
    for terms, both in _BOTH_NAMES:
        if both.search(text):
            return terms
    if re.search(r"(?<![a-z])(?:sc\b[^\n]{0,40}\bus\s+single|dc\b[^\n]{0,40}\bus\s+double) crochet\b", text):
        return "US"
    if re.search(
        r"\bdc\b[^\n]{0,40}\(\s*us\s*:?=?\s*(?:sc|single)|\btr\b[^\n]{0,40}\(\s*us\s*:?=?\s*(?:dc|double)|\(\s*us\s+(?:single|double)\s+crochet\s*\)",
        text,
    ):
        return "UK"
    if re.search(
        r"\bsc\b[^\n]{0,40}\(\s*uk\s*:?=?\s*(?:dc|double)|\bdc\b[^\n]{0,40}\(\s*uk\s*:?=?\s*(?:tr|treble)|\(\s*uk\s+(?:double crochet|treble)",
        text,
    ):
        return "US"
    return ""


#: "d c", "s. s.": letters of an old abbreviation set apart.
_SPACED = when_used(r"\b([dst])(?:\. ?| )([crs])\b\.?")


#: "... counts as 1 tr, ch 1": a stitch and chains behind it.
_SPACE = r"(?:\s*(?:,|\+|&|and|plus|,\s*and)\s*(?:a\s+)?(?:ch[ -]?)?(?=\d))"
#: "Ch 4 (counts as 1 tr, ch 1)", "5ch (counts as 1tr, 2ch)": three chains for the tr.
_WITH_CHAINS = rf"\b(?:(?:ch ?4|4 ?ch)\b[^.\n]{{0,24}}counts? as (?:a |1 |first )*1?tr\b{_SPACE}1|(?:ch ?5|5 ?ch)\b[^.\n]{{0,24}}counts? as (?:a |1 |first )*1?tr\b{_SPACE}2|(?:ch ?6|6 ?ch)\b[^.\n]{{0,24}}counts? as (?:a |1 |first )*1?tr\b{_SPACE}3)"


#: The 2nd of the chains a row began with is no 2nd chain from the hook.
_NOT_TURNING = r"(?! (?:of|in) (?:the |its )?(?:turning|t-?ch|beg|first|last|starting|ch|chain|previous))"


#: "2nd row: 3 ch, 1 tr in next tr": a row that three chains lift, and is of tr.
_LIFTED_BY_THREE = (
    r"\b(?:rows?|rnds?|rounds?)\b[^.:\n]{0,14}[.:\u2013-]+\s*(?:3 ?ch(?:ain)?s?|ch(?:ain)? ?3)\b(?:(?!(?<![a-z])(?:dc|dtr|double)\b)[^.;\n]){0,60}?(?<![a-z])\d? ?(?:tr\b|trebles?\b)"
)


#: "Magic ring, work 6 dc into ring", "dc 5 in magic ring": the six stitches a disc of the lowest stitch begins with (common
#: practice, no source); a US one of dc has ten or twelve, on two or three chains.
_RING_OF_FEW = (
    r"(?m:^(?:(?!\b(?:ch(?:ain)? ?[2-6]|[2-6] ?ch|ch(?:ain)? (?:two|three))\b)[^\n])*?\b(?:[4-6] ?dc|dc [4-6])\b(?: sts?| stitches)? in(?:to|side)? (?:an? |the |your )?(?:magic |adjustable |sliding )?(?:ring|circle|loop|mr|mc)\b)"
)


#: "3 ch, 2 tr in ring, ..., ss to top of 3 ch", "5 ch, (1 tr, 2 ch) 7 times, ss to 3rd of 5 ch": three chains are as high as
#: the tr beside them.
_CLOSED_AT_THREE = (
    r"\b3 ?ch\b(?:(?!(?<![a-z])(?:dc|dtr)\b|\d(?:st|nd|rd|th) (?:rnd|round|row))[^\n]){0,160}?(?<![a-z])\d? ?tr\b(?:(?!(?<![a-z])dc\b|\d(?:st|nd|rd|th) (?:rnd|round|row))[^\n]){0,160}?\b(?:top|3rd|third) (?:ch )?of (?:the )?(?:first |1st )?3 ?ch\b"
    r"|\b[4-9] ?ch\b(?:(?!(?<![a-z])(?:dc|dtr)\b)[^\n]){0,120}?(?<![a-z])\d? ?tr\b(?:(?!(?<![a-z])dc\b)[^\n]){0,120}?\b3rd (?:ch )?of (?:the )?(?:first |1st )?[4-9] ?ch\b"
)


def _by_habit(text: str) -> Settled:
    """Turning chains against stitches, "miss" and "tension", word order; else US, as most patterns are."""
    text = _SPACED.sub(r"\1\2", text)
    uk = us = 0
    why = ""
    pairs = (
        (
            r"\b(?:3\s?ch|ch\s?3)\b[^.\n]{0,40}?(?:counts? as|=) (?:a |1 |1st |first |one )*(?<![a-z])tr\b",
            3,
            '3 chains count as "tr"',
        ),
        (_CLOSED_AT_THREE, 3, "three chains stand for a tr"),
        (_RING_OF_FEW, 2, "so few dc lie flat in a ring only where they are as low as UK ones"),
        (r"\bmiss(?:ing|ed)?\b", 2, '"miss" is said for skip'),
        (r"\btension\b", 2, '"tension" is said for gauge'),
        (r"\b1\s?ch\b[^.\n]{0,40}\b(?:counts? as )?\d*\s?dc\b", 1, "rows of dc begin with 1 chain"),
        (r"\b\d+(?:ch|dc|tr|dtr)\b", 1, "numbers stand before the stitches"),
        (r"\bss\b|\bs s\b", 1, '"ss" is said for slip stitch'),
        (r"\bdtr\b", 0, ""),
        (r"\bwork straight\b|\bfasten off\b.*\bdarn\b|\bcolour\b", 1, '"colour"'),
        (r"\b[48] ply\b|\bdouble knitting\b", 1, ""),
        (_WITH_CHAINS, 4, "the chain that stands for a stitch and a space is a UK one"),
        (_LIFTED_BY_THREE, 3, "rows of tr begin with 3 chains"),
        (r"(?<![a-z])dc2tog\b[^\w\n]{1,4}(?:work )?insert", 3, "dc2tog is told without a wrap of the yarn"),
        (r"(?:\btr\b|\b\d+tr\b)[^.\n]{0,30}(?:4th|fourth) ch", 3, "tr in the 4th chain"),
        (r"miss 3 ?ch\b[^.\n]{0,30}(?<![a-z])tr\b", 3, "tr over 3 missed chains"),
        (r"first (?:tr\b[^.\n]{0,20} with (?:3 ?ch|ch ?3)|dtr\b[^.\n]{0,20} with (?:4 ?ch|ch ?4))\b", 3, "the chain that stands for a stitch is a UK one"),
        (rf"(?<![a-z])dc\b[^.\n]{{0,20}}2nd ch\b{_NOT_TURNING}|2nd ch\b{_NOT_TURNING}[^.\n]{{0,20}}(?<![a-z])dc\b", 2, "dc in the 2nd chain"),
    )
    for pattern, weight, reason in pairs:
        found = len(re.findall(pattern, text))
        if found > (pattern == _LIFTED_BY_THREE) and weight:
            uk += weight
            why = why or reason
    for pattern, weight in (
        (_DC_OF_THREE, 4),
        (r"\bsk(?:ip)?\b", 2), (r"\bgauge\b", 1), (r"\bdc\b[^.\n]{0,20}\b(?:3rd|4th) ch|(?:3rd|4th) ch[^.\n]{0,20}\bdc\b", 3),
        (r"\bcolor\b", 1), (r"\bskip 3 ch[^.\n]{0,30}\bdc\b|\bmiss 3 ch[^.\n]{0,30}\bdc\b", 3),
        (r"\btr\b[^.\n]{0,20}5th ch", 3), (r"\bdc\b[^.\n]{0,20}5th ch[^.\n]{0,48}\bdc\b[^.\n]{1,9}ch[ -]?1\b", 3), (rf"\bch\s?4\b[^.\n]{{0,40}}counts? as (?:a |1 |first )*\btr\b(?!{_SPACE})", 3),
        (rf"\bch\s?5\b[^.\n]{{0,24}}counts? as (?:a |1 |first )*\btr\b{_SPACE}1", 3),
    ):  # fmt: skip
        if re.search(pattern, text):
            us += weight
    if uk > us and uk >= 2:
        return Settled("UK", why or "its habits of writing are British")
    return Settled("US", "nothing in it is UK")
