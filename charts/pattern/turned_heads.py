"""Heads of rows that only their neighbours tell: the number before the word, a dash that is a mark, numbers run in."""

from __future__ import annotations

import itertools
import re

from . import lexicon
from .when_used import when_used

_ROW = r"(?:rows?|rnds?|rounds?|rds?)"
#: "3 row x, V, 5x", "4.-6. row: ...", "5 a row ...", "10º to 14º rnds- ...": the number first, as other tongues say it.
_TURNED = when_used(
    rf"^(?P<lead>\s*)(?P<n>\d{{1,3}})(?P<sign>\s?[º°ª.)]|\.?-?(?:st|nd|rd|th))?(?:(?P<dash>\s?[-\u2013]\s?|\s(?:to|thru|through|and|&)\s)(?P<m>\d{{1,3}})(?:\s?[º°ª.]|(?:st|nd|rd|th))?)?"
    rf"(?P<gap>(?:\s+an?)?\s*)(?<![\d])(?P<word>{_ROW})(?=\s*[-\u2013:=/(\[.]|\s+\S)(?!\s+(?:of|in|with|for|and|on|are|is|more|each|per|wide|high|long|from)\b)"
    r"(?!\s*#?\d{1,3}(?:\s?(?:[-\u2013]|to)\s?\d{1,3})?\s*[:.()])",  # "2. Row 1: ..." is numbered already
    re.IGNORECASE,
)
_SLASHED = when_used(rf"/(\s*\d{{1,3}}\s+{_ROW}\s*)/(?:\s*[-\u2013](?=\s))?", re.IGNORECASE)
#: Fewer heads than this, each a number higher than the one before or 1 again, are no way of numbering rows.
FEWEST_TURNED = 3


def turned(lines: list[str]) -> list[str]:
    """Heads with their number first put the usual way round, each line as long as before; only where a page numbers its
    rows so: three or more, each higher than the one before or the first of a piece.

    >>> turned(["1 row - 6 sc", "2 row - 12 sc", "3 to 5 rows / 3 rows / - 12 sc"])[2]
    'rows 3 to 5 ( 3 rows )   12 sc'
    """
    found = [(at, m) for at, line in enumerate(lines) if (m := _TURNED.match(line))]
    numbers = [int(m["n"]) for _, m in found]
    if len(found) < FEWEST_TURNED or any(a >= b > 1 for a, b in itertools.pairwise(numbers)):
        return lines
    out = list(lines)
    for at, m in found:
        run = f"{m['dash']}{m['m']}" if m["m"] else ""
        head = f"{m['lead']}{m['word']} {m['n']}{run}"
        if len(head) <= m.end():
            rest = _SLASHED.sub(lambda s: f"({s[1]})".ljust(len(s[0])), lines[at][m.end() :])
            out[at] = head.ljust(m.end()) + rest
    return out


_FOUNDED = when_used(rf"^(?P<lead>\W*)(?:the )?(?:foundation|base|starting)(?: (?:chain|ch|{_ROW}))?\s*(?:and|&|\+|/)\s*(?={_ROW} ?#?1\b(?!\d))", re.IGNORECASE)


def founded(line: str) -> str:
    """A line with the foundation named before the row worked with it, which is its head, blotted out.

    >>> founded("Foundation chain and Row 1: fsc 30")
    '                     Row 1: fsc 30'
    """
    return _FOUNDED.sub(lambda m: m["lead"].ljust(len(m[0])), line)


_DASHED = when_used(r"^(?P<head>\W*(?:(?:row|rnd|round|rd)\.?\s*|r\s?)(?P<a>\d{1,3})\s?)(?P<dash>[-\u2013\u2014])(?P<gap>\s?)(?P<b>\d{1,3})(?=\s*[a-z])", re.IGNORECASE)
#: "Row 3-5 - 12 sc": behind a run of rows the second dash is a mark.
_RUN_DASHED = when_used(rf"^(?P<head>\W*(?:{_ROW}\.?\s*|r\s?)\d{{1,3}}\s?(?:[-\u2013\u2014]|to|thru|through|and|&)\s?(?:r\s?)?\d{{1,3}}\s*)[-\u2013\u2014](?=\s?\d{{1,3}}\s*[a-z])", re.IGNORECASE)
_HEADED = when_used(rf"^\W*(?:{_ROW}\.?\s*|r\s?)(?P<a>\d{{1,3}})\b", re.IGNORECASE)


def dashes_told(lines: list[str]) -> list[str]:
    """Lines with the dash behind a row's number as a colon, where the row below has the next number: what stands behind
    such a dash is no row's number but one of stitches.

    >>> dashes_told(["Row 2 - 6 increases", "Row 3 - 12 sc"])[0]
    'Row 2 : 6 increases'
    """
    heads = [(at, int(m["a"])) for at, line in enumerate(lines) if (m := _HEADED.match(line))]
    out = [_RUN_DASHED.sub(lambda m: m["head"] + ":", line) for line in lines]
    for (at, number), (_, following) in itertools.pairwise(heads):
        found = _DASHED.match(lines[at])
        if found and following == number + 1 <= int(found["b"]):
            out[at] = found["head"] + ":" + lines[at][found.end("dash") :]
    return out


#: "= 16 sc 2- Ch 3, ...", ". 2) Sc in each": a row's number in the middle of a paragraph, and what may stand before one.
_RUN_IN = when_used(r"(?<![^\s])(?P<n>\d{1,2})(?P<mark>\s?[-\u2013):.])(?:(?P<gap>\s+)(?=[A-Z\d(*\[])|(?=[A-Z(*\[]))", re.IGNORECASE)
_BEFORE = when_used(r"(?:^|[.)\]!;:]|=\s?\d+(?:\s?[a-z'\u2019]+){1,3}|\d ?[a-z'\u2019]{2,9})\s*$", re.IGNORECASE)
_WORKED = when_used(r"\b(?:sc|hdc|dc|htr|tr|ch|sl st|single crochet|double crochet|treble|chain)\b|\b(?:ch|sc|dc|tr)\d|\d(?:sc|hdc|dc|htr|tr|ch)\b", re.IGNORECASE)


def run_in(line: str) -> str:
    """A paragraph that numbers its rows in its midst, each number as a row's head; its words stay where they are.

    >>> run_in("Ch 6, join. 1- Ch 1, sc in ring. 2- Sc in each sc. 3- Sc in each sc.")
    'Ch 6, join. r1:Ch 1, sc in ring. r2:Sc in each sc. r3:Sc in each sc.'
    """
    found = list(_RUN_IN.finditer(line))
    kept: list[re.Match[str]] = []
    for m in found:
        if int(m["n"]) == len(kept) + 1 and _BEFORE.search(line[: m.start()]) and len(m["mark"] + (m["gap"] or "")) > 1:
            kept.append(m)
    ends = [*(m.start() for m in kept[1:]), len(line)]
    if len(kept) < FEWEST_TURNED or not all(_WORKED.search(line[m.end() : end]) for m, end in zip(kept, ends, strict=True)):
        return line
    for m in reversed(kept):
        line = line[: m.start()] + f"r{m['n']}:".ljust(len(m[0])) + line[m.end() :]
    return line


_ORDERS = {"initial": 1, "very first": 1, "next": 0, "following": 0, "last": 0, "final": 0}
#: "The second row is (3 dc, ch 1) in each sp", "For the third round, ch 1": a row told in prose, and what may stand before its work.
_IN_PROSE = when_used(
    rf"(?P<lead>^\W*|(?<=[.!)\]])\s+)(?P<said>(?:(?:and|then|so|now|finally),? )?(?:(?P<to>for|on|in)(?: the| your)?|the|your) "
    rf"(?P<order>{lexicon.ORDER_WORDS}|\d{{1,2}}(?:st|nd|rd|th)|initial|very first|next|following|last|final)(?: (?:crochet(?:ed)?|actual))? (?P<word>row|rnd|round)"
    r"(?P<is>,? (?:you(?:'ll| will)?|we(?:'ll| will)?|i)(?= (?:ch|chain|work|sc|dc|hdc|tr|skip|sk|make|crochet|single|double|half|treble|repeat|do)\b)"
    r"|(?: (?:is|goes|will be|reads|should be)(?: [a-z]+){1,3}:)"
    r"|(?: (?:is|goes|looks like|looks|reads|will be|should be|consists of|starts with|begins with|is made of|is worked as|is done as)(?: also| simply| just| simple| easy| then| now| worked| made| as follows| like this)*)\s?[:,]?|,|:)(?: an?(?= [(\[]))?)\s",
    re.IGNORECASE,
)
_NUMBERED_ROW = when_used(rf"(?<![A-Za-z]){_ROW}\.? ?#?(?P<a>\d{{1,3}})(?:\s?(?:[-\u2013]|to)\s?(?P<b>\d{{1,3}}))?|(?P<c>\d{{1,3}})(?:st|nd|rd|th) {_ROW}\b(?=\s*[:.\u2013-])", re.IGNORECASE)
#: What is said of a row that is no work of it: its side, what it measures, what it is like.
_NO_WORK = when_used(r"\s*(?:an?|the|your|now|always|worked|done|made|on|in|not|where|why|when|how|what|complete\w*|finished|\d+ (?:sts|stitches|inch\w*|cm)|(?:rs|ws|right|wrong)\b)", re.IGNORECASE)
_THE_SAME = when_used(r"\s*(?:exactly |worked |done )*(?:the )?same(?: (?:again|as (?:the )?(?:last|first|second|third|previous|row|rnd|round)\b.*))?\s*$", re.IGNORECASE)
_LONGEST_TOLD = 240


def told_in_prose(lines: list[str]) -> list[str]:
    """Lines with rows that are told in prose under usual heads, each line as long as before; only where no row has a head
    with that number, and the rows so told come in order.

    >>> told_in_prose(["The first row is (2 dc, ch 1) in each sp. The second row is sc in each st."])
    ['Row 1:           (2 dc, ch 1) in each sp. Row 2:            sc in each st.']
    """
    numbered = {int(n) for line in lines for m in _NUMBERED_ROW.finditer(line) for n in (m["a"] or m["c"], m["b"]) if n}
    places = [(at, m) for at, line in enumerate(lines) for m in _IN_PROSE.finditer(line) if _works_behind(line, m)]
    if not any(_order(m["order"]) for _, m in places):
        return lines
    out, last = list(lines), 0
    for at, m in places:
        number = _order(m["order"]) or last + 1
        if number in numbered:
            continue
        if not (number == last + 1 or (not last and number - 1 in numbered)):
            return lines
        head = f"{m['lead']}{m['word'].capitalize()} {number}:"
        if len(head) > m.end() - m.start() - 1:
            return lines
        last = number
        out[at] = out[at][: m.start()] + head.ljust(m.end() - m.start()) + out[at][m.end() :]
    return out


def _order(said: str) -> int:
    return _ORDERS[said.lower()] if said.lower() in _ORDERS else lexicon.ordinal(said.lower()) or {"first": 1}.get(said.lower(), 0)


def _works_behind(line: str, found: re.Match[str]) -> bool:
    """Whether what stands behind such words is a row's work."""
    rest = line[found.end() : found.end() + _LONGEST_TOLD]
    end = re.search(r"[.!?](?:\s|$)", rest)
    said = rest[: end.start()] if end else rest
    if not said.strip():
        return found["is"].strip().endswith(":") or "simple" in found["is"]
    if re.fullmatch(r"\s*\([^()]*\)\s*", said):
        return False  # where that goes is not said
    if _THE_SAME.match(said):
        return True
    return bool(_WORKED.search(said)) and not (_NO_WORK.match(said) and not re.match(r"\s*\d+ ?(?:sc|h?dc|h?tr|ch)\b", said, re.IGNORECASE))
