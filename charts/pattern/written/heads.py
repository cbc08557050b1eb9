"""How a row begins: its name, number, side, in every form in which it is printed."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

from ...made_late import dataclass, replace
from .. import lexicon
from ..notation.plain import plain
from ..when_used import when_used

_WORD = r"(?:rows?|rnds?|rounds?|rds?|rws?)"
_SMALL = r"(?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve)"
_NUM = rf"(?:\d{{1,6}}|{_SMALL})(?![\d.,]*\s?(?:mm|cm|inch|\"|%|yd|sts?\b))"
_ORD = rf"(?:\d{{1,3}}(?:st|nd|rd|th)|\d{{0,2}}[23]d|{lexicon.ORDER_WORDS})"
_RANGE = rf"(?:(?:\s*(?:-|to|thru|through|and|&|,|until|till?|t/m|a|up to)\s*(?:and\s+|&\s*)?(?:{_WORD}\s*|r)?|\s*\.\s*-\s*{_WORD}\.?\s*)#?\s*\d{{1,40}}(?!\s*(?:sts?|more|times|rows|rounds)\b))"
#: A further number of a run: one with a stitch behind it counts stitches.
_RANGE_ON = _RANGE[: -len(")")] + r"(?!\s*(?:sc|hdc|dc|htr|tr|inc|dec|ch|sl|ss)\b))"
_OPEN = r"(?:\s*(?:\+|and up\b|and on\b|onwards?\b|and beyond\b|until (?:desired|it|piece|the|work)[^:.]{0,40}))"
_LEAD = r"(?:(?P<lead>(?:(?:for|begin|work|then|in|on|next|the)\s+)?(?:[a-z][a-z'-]*\s+){0,2}?(?:[a-z][a-z'-]*)?\s*(?:-\s*)?)\s*)"
_SIDE = r"(?:right side|wrong side|rs|ws|right-side|wrong-side)"
_AFTER = rf"(?P<after>(?:\s*-?\s*(?:[(\[]\s*(?P<side>{_SIDE})\b[^)\]]{{0,40}}[)\]]|(?P<side2>{_SIDE})(?=\s*[:.,-]|\s+work|\s*$|\s+[a-z]))|\s*[(\[](?![^)\]]*\d+\s*(?:sts?|sc|dc|hdc)\b)[^()\[\]:]{{1,60}}[)\]](?!\s*(?:\d+\s*(?:x|times)|x\s*\d|\*|times|around\b|to end\b|across\b))|\s+step\s*\d+|\s+incl(?:usive)?\.?(?=\W|$)|\s+(?:and|&)\s+(?:all|every|each)\b[^:.;]{{0,40}}(?=[:.;])|\s*(?:and|&|\+|/|,)\s*(?:the |your )?(?:foundation|base|starting|beginning|set-?up)(?: (?:chain|ch|row|rnd|round|stitches|sts))?(?=\s*[:.-])|\s*,?\s*(?:size|color|colour)s?\s[^:.]{{1,20}}(?=:)|\s*[,-]\s*(?:the |an? |your |for (?:the )?)?(?:(?!turn|join|work|rep|skip|miss|make|sk|ch|sc|hdc|dc|tr|htr|inc|dec|sl|ss|in|as|with)[a-z-]+ ){{0,2}}(?:rows?|rnds?|rounds?|(?:button|thumb|arm|eye)-? ?(?:holes?|openings?)|openings?|shaping|brim|cuff|crown|heel|toe|ribbing|border|edging)(?=\s*:)|\s+(?:alternately|only)(?=:)|\s*-\s*(?:increase|decrease|inc|dec|set-?up|foundation|plain)\s*(?:row|rnd|round)?(?=\s*[:.-])|\s+with (?:color |colour )?[a-z]{{1,12}}(?=\s*:)|\s+in (?:color |colour )?[a-z]{{1,12}}(?=\s*:))*)"
_MARK = r"(?P<mark>\s*(?::-|[.:]\s?[,;]|\.\s?:|:|[.:]\)|\.{2,}|\.\s*-{1,3}(?!\d)|\.\s*-{1,3}(?=\d)|\.(?=\s|[a-z(*]|$)|~|\)|/(?=\s)|;|=|-{1,2}(?!\d)|\s-\s|,(?=\s)|>|(?=\s*$)|(?=\s+[a-z0-9(\[*])|(?=[(\[*])))"

#: A head that begins with the word of a row, and any other: most texts have only the first, and both are long.
_HEAD_BY_WORD = when_used(
    rf"(?P<label>(?P<word>{_WORD})\s*(?:(?:no|nr|num|number)\.?\s*)?\#?\s*(?P<first>{_NUM})(?P<range>(?:{_RANGE}{_RANGE_ON}*)?)(?P<open>{_OPEN})?)"
    rf"{_AFTER}{_MARK}\s*",
)
#: What most of them are, told without the rest: "Row 12: ", where nothing else can stand before the mark.
_PLAIN_HEAD = when_used(rf"(?P<label>(?P<word>{_WORD})\s*\#?\s*(?P<first>\d{{1,6}}))(?=:){_MARK}\s*")
_BEGINS = ("row", "rnd", "round", "rd", "rw")
_OTHER_HEAD = when_used(
    rf"(?P<label>(?P<rword>r)(?:\s(?=\d+\s*(?:-\s*r?\s?\d+\s*)?:)|\s?:\s?(?=\d+\s*(?:-(?:\s|r\s?:)|:\s)))?(?P<rfirst>\d{{1,3}})(?P<rrange>(?:\s*(?:-|to|thru|through|and|&|,|\+)\s*(?:r\s?(?::\s?)?\d{{1,3}}|\d{{1,3}}(?!\s*sts?\b)))*)(?![a-z0-9])"
    rf"|(?P<ord>{_ORD})(?P<orange>(?:\s*(?:-|to|and|&|,|thru|through)\s*(?:and\s+)?{_ORD})*)(?P<oalt>\s*(?:,|and|&)\s*(?:all |every )?(?:alternate|alt\.?|other|2nd|second|even|odd|following alternate|uneven))?\s+(?:(?:pattern|patt|pat|body|edging|border)\s+)?(?P<oword>{_WORD})\b(?P<orange2>(?:\s*(?:-|to|and|&|,)\s*(?:and\s+)?{_ORD}\s+{_WORD}\b)*)"
    rf"|(?P<next>next)\s+(?P<count>{_NUM})\s+(?P<nword>{_WORD})\b"
    rf"|(?P<nfirst>\d{{1,3}})(?P<nrange>(?:\s*(?:-|to|&|and)\s*\d{{1,3}})?)(?:\s+(?=[a-z]+\s*:)|[.)]\s*(?=[a-z]+\s*[:.)-]))(?P<revword>{_WORD})\b"
    rf"|(?P<fr>fr|f\.?r\.|fdn|fnd|found\.?)(?=\s*[-:])|(?P<named>(?:next|foll\.?|following|last|final|even|odd|foundation|fnd|base|start|starting|set[- ]?up|edging|edge|border|joining|increase|inc|decrease|dec|beginning|begin|first|ending|finishing|turning|closing|short|pattern|plain|rib|ribbing|heading|trim|picot|lace|bottom|top|brim|foundation chain)\s+(?P<dword>{_WORD}))\b)"
    rf"{_AFTER}{_MARK}\s*",
)
_BARE = when_used(
    r"(?P<label>(?:step\s*)?(?P<first>\d{1,3})\.?(?P<range>(?:\s*(?:--?|to|thru|through|,|&|and)\s*\d{1,3}(?!\d|\s*(?:sts?|sc|hdc|dc|tr|ch|inc|dec|x)\b))*))(?P<apart>\s\d{1,3}(?=[.)]\s))?\s*(?P<mark>[.):-])(?:(?!\d)|(?<=\.)(?=\d{1,3} ?(?:sc|hdc|dc|htr|tr|inc|dec|ch)\b))\s*"
)
_EDGING = when_used(
    rf"(?:(?:now|then|next),? )?(?:for (?:the|your|an?) )?(?P<label>(?:(?:top|bottom|upper|lower|outer|inner|side|neck|front|final) )?(?:edging|border|trim|edge(?=\s*:\s*(?:[*(\[]\s*)?(?:ch ?\d|\d ?ch|(?:re-?)?join|attach|work|with|(?:\d{{1,2}} )?(?:sc|hdc|dc|htr|tr|sl st|ss)\b))))(?:,? (?:do not|don'?t) turn)?\s*(?P<side>\((?:rs|ws)\))?"
    rf"(?:\s*:\s*(?=\S)(?!(?:{_ORD}\s+{_WORD}|{_WORD}\s*\#?\d))|\s+(?=(?:ch ?\d|\d ?ch|(?:re-?)?join|attach|sc|dc|hdc|sl st)\b))"
)
#: Numbers that stand further apart than this are no list.
MOST_LISTED = 500
_REFERS = when_used(
    r"(?:\brep|\brepeat|\brepeating|\bof|\bin|\bas|\bfor|\bfrom|\bsame|\blast|\bprevious|\bafter|\bbefore|\bbetween|\bto|\buntil|\bend|\bon|\bwork|\band|"
    r"\bthan|\blike|\bwith|\bper|\bevery|\beach|\bfollow|\bsee|\bthrough|\bwith|\bat|\bor|\bthe|\bby|\bover|\bcompleting|\bcomplete|\bthis|\bfinish|\brows?|\brnds?|\brounds?|&|\binto|\bthru|\bwith a|\balternat\w+"
    r"|\bsame (?:way|manner|fashion|thing|steps),|\b(?:like|as) (?:the|that|your) (?:[a-z]+ ){0,2}(?:first|one|other|leg|arm|ear|side|piece|half)s?,)\s*$"
)
_TALK = when_used(
    r"(?!(?:in|into|at|on)\s+(?:an?\s+|the\s+|your\s+|this\s+)?(?:ring|circle|loop|magic|same|next|each|every|first|last|center|centre|corner|ch|chain|sp|sps|space|\d+(?:st|nd|rd|th)|any)\b)"
    r"(?!(?:in|with)\s+(?:colou?r\s+)?[a-z]{1,12}\s*,\s*(?:as\b|rep|work|ch\b|same|\d|[shdt]{1,2}[cr]\b))"
    r"(?!(?:in|on)\s+(?:[a-z]{1,12}\s+){1,2}(?:yarn\s+)?(?:re-?join|join|attach|ch\b|\d+\s?(?:ch|sc|hdc|dc|tr|ss)\b|work|make))"
    r"(?:is|are|will|was|were|should|has|have|of|and|for|in|on|at|forms?|may|can|looks?|tall|high|again|only|counts?|(?:begins?|starts?|ends?)(?! (?:off )?(?:with|by|in|from|at)\b))\b"
)


@dataclass(frozen=True, slots=True)
class Head:
    """A row's head: its label as the reader names it, first and last number (0 none), whether it is a round, its side,
    how many rows it says without numbers ("Next 3 rows"), and where it and its mark end; `until` is the count of stitches
    at which rows end that come again until then (0 none)."""

    label: str
    first: int
    last: int
    is_round: bool | None
    side: str
    start: int
    end: int
    marked: bool
    named: bool = False
    count: int = 0
    open_end: bool = False
    after: str = ""
    lead: str = ""
    numbers: tuple[int, ...] = ()
    until: int = 0


def _number(word: str) -> int:
    return lexicon.number(word) or 0


def _numbers(text: str) -> list[int]:
    return [lexicon.ordinal(w) or 0 for w in re.findall(_ORD, text)]


_NEXT_NUMBER = when_used(rf"(?P<sep>.*?)(?P<n>{_ORD}|\d+)")
_LISTED = when_used(rf"\s*(?:,|&|,?\s*and\b)+\s*(?:and\b|&)?\s*(?:{_WORD}|r)?\s*\#?")


def _listed(first: int, rest: str) -> tuple[int, ...]:
    """The numbers of "Rows 2, 4 and 6" or "Rows 2-4 and 7": all of them where they do not follow each other."""
    out = [first]
    for found in _NEXT_NUMBER.finditer(rest):
        n = int(found["n"]) if found["n"].isdigit() else lexicon.ordinal(found["n"]) or 0
        if n <= out[-1] or n - out[-1] > MOST_LISTED:
            return ()
        out += [n] if _LISTED.fullmatch(found["sep"]) else range(out[-1] + 1, n + 1)
    return tuple(out) if out[-1] - out[0] + 1 != len(out) else ()


#: "Rnd 2- 6 sc in ring": the number behind the dash is of stitches, unless they are worked "in each" or to the end.
_DASHED_WORK = when_used(
    rf"(?:{_WORD}\s*\#?|r)(?P<first>\d{{1,3}})(?P<dash>\s*-\s*)(?P<n>\d{{1,3}})\s*"
    r"(?:sc|hdc|dc|htr|tr|dtr|ch|chs|st|sts|sl st|ss|inc|dec|x|(?:half )?(?:single|double|treble|triple) (?:crochets?|trebles?)|trebles?|chains?|stitch(?:es)?|increases?|decreases?)\b(?P<rest>.{0,24})"
)
#: "Row 9-12 - Rows 5-8 again": what stands behind the second dash is no end of a run.
_DASHED_ROWS = when_used(
    rf"{_WORD}\s*\#?(?P<a>\d{{1,3}})(?:\s*(?:-|to|and|&|thru|through)\s*(?P<b>\d{{1,3}}))?(?P<dash>\s*-\s*){_WORD}\s*\#?(?P<c>\d{{1,3}})\b"
)
#: "3rd row-1 sc in each sc": a number behind the dash of a row told by its order is never the end of a run.
_DASHED_NTH = when_used(rf"{_ORD}\s+{_WORD}(?:\s*(?:-|to|and|&)\s*{_ORD}\s+{_WORD})*\b(?P<dash>\s*\.?\s*-{{1,3}})\s*(?=\d{{1,3}}(?!\d|\s?(?:st|nd|rd|th)\s{_WORD}))")
_IN_ALL = when_used(r"\s*(?:in(?:to)? )?(?:each|every|all|across|around|to (?:the )?end)\b")


def _dash_is_mark(low: str, at: int) -> str:
    """The line with the dash behind a row's number made a colon, where the number behind it counts stitches or names
    rows that lie below."""
    again = _DASHED_ROWS.match(low, at)
    if again and int(again["c"]) <= int(again["b"] or again["a"]):
        return low[: again.start("dash")] + ":".ljust(again.end("dash") - again.start("dash")) + low[again.end("dash") :]
    nth = _DASHED_NTH.match(low, at)
    if nth:
        return low[: nth.start("dash")] + ":".ljust(nth.end("dash") - nth.start("dash")) + low[nth.end("dash") :]
    found = _DASHED_WORK.match(low, at)
    if not found:
        return low
    glued = found["dash"] == "-"
    ring = re.match(r"\s*(?:in|into)\b(?:[a-z ]*\b(?:ring|circle|loop|mr|mc)\b| (?:the )?(?:\d(?:st|nd|rd|th)|second|third|fourth|first) ch)", found["rest"])
    few = int(found["n"]) <= int(found["first"])
    if not ring and not few and (glued or _IN_ALL.match(found["rest"])):
        return low
    dash = low.index("-", found.start("dash"))
    return low[:dash] + ":" + low[dash + 1 :]


#: "5r. (sc, inc) x 6", "7r-9r: 18 sc": the letter behind the number.
_LETTER_BEHIND = when_used(r"(?P<a>\d{1,3})r(?:(?P<dash>\s?-\s?)(?P<b>\d{1,3})r)?(?=\s*[.:)]\s*[\d(\[a-z*])")


def _letter_first(low: str, at: int) -> str:
    """The line with the "r" of a row put before its number, where it stands behind."""
    found = _LETTER_BEHIND.match(low, at)
    if not found:
        return low
    said = f"r{found['a']}" + (f"{found['dash']}r{found['b']}" if found["b"] else "")
    return low[:at] + said + low[found.end() :]


def head_at(low: str, at: int) -> Head | None:
    """A head that stands at a place of a line in lower case."""
    low = _letter_first(_dash_is_mark(low, at), at)
    if low.startswith(_BEGINS, at):
        found = _PLAIN_HEAD.match(low, at) or _HEAD_BY_WORD.match(low, at)
    else:
        found = _OTHER_HEAD.match(low, at)
    if not found:
        return None
    said: Callable[[str], Any] = found.groupdict().get
    word = said("word") or said("oword") or said("nword") or said("revword") or said("dword") or ""
    is_round = word.startswith(("rnd", "round", "rd")) if word else None
    first = last = count = 0
    open_end = bool(said("open"))
    named = bool(said("named") or said("fr"))
    if said("word"):
        first = _number(said("first"))
        last = max([first, *map(int, re.findall(r"\d+", said("range") or ""))][-1], first)
        if (
            not said("range")
            and first
            and said("open") is None
            and re.match(r"\s*-\s*row", low[found.end("first") :])
        ):
            last = first
    elif said("rword"):
        first = int(said("rfirst"))
        last = max([first, *map(int, re.findall(r"\d+", said("rrange")))][-1], first)
    elif said("ord"):
        first = lexicon.ordinal(said("ord")) or (1 if said("ord") == "first" else 0)
        last = max([first, *_numbers(said("orange")), *_numbers(said("orange2"))][-1], first)
    elif said("next"):
        count = _number(said("count"))
    elif said("nfirst"):
        first = int(said("nfirst"))
        last = max([first, *map(int, re.findall(r"\d+", said("nrange")))][-1], first)
    side = said("side") or said("side2") or ""
    after = said("after") or ""
    if not side and re.search(r"\b(?:rs|right side)\b", after):
        side = "rs"
    elif not side and re.search(r"\b(?:ws|wrong side)\b", after):
        side = "ws"
    mark = said("mark").strip()
    if said("oalt") or re.search(r"and (?:all|every|each)", after):
        open_end = True
    numbers = _listed(first, said("range") or said("rrange") or said("orange") or said("nrange") or "") if last > first else ()
    name = _label(word or ("rnd" if is_round else "row"), first, last, said("named") or ("foundation row" if said("fr") else ""))
    end = _past_how_many(low, found.end(), last - first + 1) if last > first else found.end()
    return Head(
        name, first, last, is_round, "WS" if side.startswith("w") else "RS" if side else "", at, end,
        bool(mark) or not low[found.end() :].strip(), named, count, open_end, after, numbers=numbers,
    )  # fmt: skip


def _label(word: str, first: int, last: int, named: str) -> str:
    if named:
        return " ".join(w.capitalize() for w in named.split())
    kind = "Rnd" if word.startswith(("rnd", "rd")) else "Round" if word.startswith("round") else "Row"
    plural = "s" if last > first else ""
    return f"{kind}{plural} {first}-{last}" if last > first else f"{kind} {first}" if first else kind


def bare_head(low: str, at: int) -> Head | None:
    """ "1. Sc in ...", "2-4) ...", "Step 3: ...": a number alone, where a text numbers its rows so."""
    found = _BARE.match(low, at)
    if not found:
        return None
    first = int(found["first"])
    last = max([first, *map(int, re.findall(r"\d+", found["range"] or found["apart"] or ""))][-1], first)
    if found["apart"] and not first < last < first + MOST_LISTED:
        return None
    more = re.match(r"-\s*(\d{1,3})\.?\s*" if found["mark"] == "." else r"-\s*(\d{1,3})\)\s*", low[found.end() :])
    end = found.end()
    if more and found["mark"] in ".)" and not found["range"]:
        last, end = int(more[1]), found.end() + more.end()
    label = f"Rows {first}-{last}" if last > first else f"Row {first}"
    return Head(label, first, last, None, "", at, _past_how_many(low, end, last - first + 1), True)


#: "7. - 10. (4 rows) 42 sc": how many rows the numbers before it are.
_HOW_MANY = when_used(r"[(\[]\s*(?P<n>\d{1,3})\s*(?:rows?|rnds?|rounds?)\s*[)\]]\s*[:,-]?\s*(?=[^\s])")


def _past_how_many(low: str, at: int, rows: int) -> int:
    """Where the words of a run of rows begin, behind how many they are."""
    found = _HOW_MANY.match(low, at)
    return found.end() if found and int(found["n"]) == rows else at


def named_alike(head: Head, above: Head) -> Head:
    """A head that is a number alone, by the name that the row above it has."""
    label = _label(above.label.lower(), head.first, head.last, "")
    return replace(head, label=label, is_round=above.is_round)


#: What is worked along all edges of a piece.
_AROUND_PIECE = when_used(r"\bevenly (?:spaced )?(?:all )?a?round\b|\ba?round (?:the |your )?(?:entire |whole |outside |outer )*(?:piece|edges?|cloth|square|blanket|work)\b|\bcorners?\b")


def edging_head(low: str, at: int) -> Head | None:
    """ "Edging: ch 1, sc ..." with the work behind it."""
    found = _EDGING.match(low, at)
    if not found:
        return None
    around = True if _AROUND_PIECE.search(low, found.end()) else None
    return Head(found["label"].capitalize(), 0, 0, around, "", at, found.end(), True, True)


#: "Shape armholes: sl st to 4th dc, ch 3, ...", "Neck shaping: work across 8 sts, turn": the name of what a row is for.
_SHAPED_PART = r"(?:armholes?|shoulders?|neck(?:line)?|(?:back|front) neck|raglans?|(?:sleeve )?caps?|underarms?|waist(?:line)?|crotch|sides?|top|toe|heel|crown|sleeves?|(?:left|right) shoulder|darts?)"
_SHAPING = when_used(
    rf"\s*(?P<label>(?:to )?(?:shape|shaping)(?: for)? (?:the )?{_SHAPED_PART}(?: and {_SHAPED_PART})?(?: shaping)?|{_SHAPED_PART} shaping|(?:armholes?|shoulders?|neckline))\s*(?::|\.(?=\s)|\s-)\s*"
    r"(?=(?:sl st|ss\b|slip st|ch ?\d|\d ?ch\b|work (?!as|same|even|in pat|until)|dec\b|inc\b|\d+ ?(?:sc|h?dc|h?tr)\b|(?:sc|h?dc|h?tr)\b))"
)


def shaping_head(low: str, at: int) -> Head | None:
    """The head that what a row shapes is for it: "Shape armholes: sl st to 4th dc, ..."."""
    found = _SHAPING.match(low, at)
    return Head(found["label"].capitalize(), 0, 0, None, "", at, found.end(), True, True) if found else None


#: "Left wing: With right side facing, join yarn in first sc; ... Fasten off.": what one row on its own yarn makes.
_ON_ITS_OWN = when_used(
    r"\s*(?P<label>(?!(?:row|rnd|round|rows|rnds|rounds|note|notes|tip|hint|option|edging|border|trim|to|next|then|finishing|assembly)\b)[a-z][a-z'-]*(?: [a-z][a-z'-]*){0,2})(?: ?\([^()]{1,24}\))?\s*(?::|\s[-\u2013]\s)\s*"
    r"(?=(?:with (?:the )?(?:rs|ws|right side|wrong side)[^.,;]{0,24}[,;]? ?)?(?:re-?)?(?:join|attach)(?:ing)? [^\n]*\b(?:fasten|finish|break|end|cut|tie) ?(?:off|(?:the )?yarn)?\W*$)",
    re.MULTILINE,
)


def on_its_own(low: str, at: int) -> Head | None:
    """The head of a row that begins with its own yarn and ends it, under the name of what it makes."""
    found = _ON_ITS_OWN.match(low, at)
    return Head(found["label"].title(), 0, 0, None, "", at, found.end(), True, True) if found else None


#: "Handle round:", "Neck shaping row (RS) -": what a row makes, before the word for it.
_CALLED_ROW = when_used(
    rf"\s*(?P<label>(?!(?:rep|repeat|rpt|rows?|rnds?|rounds?|same|each|every|all|any|this|that|these|those|note|for|work|in|on|of|at|as|after|before|end|until|to|from|both|alternate|other|previous|next|number|total|per|measure)\b)"
    rf"[a-z][a-z'-]*(?: (?!and\b|of\b|per\b|each\b|every\b|this\b|that\b|in\b|on\b|to\b|as\b)[a-z][a-z'-]*){{0,2}} (?P<word>row|rnd|round))\s*(?:\((?P<side>{_SIDE})\)|\((?!\d)[^()]{{1,24}}\))?\s*(?::|\s-|\.(?=\s))\s*"
)


def called_head(low: str) -> Head | None:
    """The head of a row below others that bears the name of what it makes and no number.

    >>> head = called_head("handle round - ch 1, sc in next 8 sts, ch 20, sk next 8 sts")
    >>> head and head.label, called_head("repeat round - ch 1, sc in each st")
    ('Handle Round', None)
    """
    found = _CALLED_ROW.match(low)
    if found is None or not _WORKS.match(low, found.end()):
        return None
    side = "" if not found["side"] else "WS" if found["side"].startswith("w") else "RS"
    at = len(low) - len(low.lstrip())
    return Head(found["label"].title(), 0, 0, found["word"] != "row", side, at, found.end(), True, True)


_PART_LEAD = when_used(
    r"^(?P<lead>[a-z][a-z' /&-]{1,40}?)\s*(?:\((?:make|x|work)?\s*(?P<make>\d+|two|three|four)\s*(?:times)?\))?\s*(?:[-:,]\s*(?:make\s+(?P<make2>\d+|two|three|four))?\s*)?(?=(?:rows?|rnds?|rounds?|rds?|r)\s*#?\d)"
)


#: "3. Row 2: sc in ...": a list's number before the row's name.
_LIST_NUMBER = when_used(rf"\s*\d{{1,3}}(?:[.)]\s+(?={_WORD}\s*\#?\d)|\s+(?=(?:row|round|rnd)\s*\#?\d{{1,3}}\s*[:.)-]))")
_IN_BRACKETS = when_used(rf"\s*(?:\((?=[^()]*\))|\[(?=[^\[\]]*\]))(?P<head>{_WORD}\s*\#?\d{{1,3}}(?:\s*-\s*\d{{1,3}})?)[)\]](?=\s*[a-z\d(*\[:])")


#: "Make the second leg in the same way, rounds 1-4": no name, and the rows are those above.
_TOLD_ALIKE = when_used(r"\b(?:same (?:way|manner|fashion|thing|steps)|(?:just|exactly) (?:like|as)|likewise|identical(?:ly)?)\b")


def line_head(low: str) -> Head | None:
    """A head at the beginning of a line, with up to a few words of a part's name before it."""
    at = len(low) - len(low.lstrip())
    numbered = _LIST_NUMBER.match(low)
    if numbered:
        return line_head(" " * numbered.end() + low[numbered.end() :])
    bracketed = _IN_BRACKETS.match(low)
    if bracketed:
        return line_head(" " * bracketed.start("head") + bracketed["head"] + ":" + low[bracketed.end() :])
    found = head_at(low, at)
    if found and _is_head(low, found):
        return found
    if named := edging_head(low, at) or shaping_head(low, at) or on_its_own(low, at):
        return named
    lead = _PART_LEAD.match(low[at:])
    if (
        lead
        and (lead["lead"] == "for" or not _REFERS.search(lead["lead"] + " "))
        and not _TOLD_ALIKE.search(lead["lead"])
        and lead["lead"].split()[0]
        not in (
            "repeat",
            "rep",
            "rpt",
            "work",
            "end",
            "after",
            "before",
            "at",
            "in",
            "this",
            "note",
            "when",
            "if",
            "between",
            "fasten",
            "follow",
            "from",
            "as",
            "until",
            "continue",
        )
    ):
        further = head_at(low, at + lead.end())
        if further and further.marked and (_is_head(low, further)):
            name = lead["lead"].strip(" -")
            keep = "" if name in ("for", "begin", "then", "next", "now", "on", "in", "work", "the") else name
            return Head(
                further.label, further.first, further.last, further.is_round, further.side, at, further.end,
                further.marked, further.named, further.count, further.open_end, further.after, keep,
            )  # fmt: skip
    return None


def names_row(low: str) -> bool:
    """Whether a line has a row's head anywhere."""
    return bool(low.strip()) and (line_head(low) is not None or bool(inner_heads(low, -1, 0)))


def _is_head(low: str, head: Head) -> bool:
    """Whether what looks like a head is one: "Row 1 is the right side" and "Rows 3 and 4 form the pattern" are talk."""
    rest = low[head.end :].strip()
    mark = low[head.start : head.end].rstrip()[-1:]
    if mark in ":)=>/" or (head.marked and mark in ".-;" and not _TALK.match(rest)):
        return not (mark == "." and head.named and not rest)
    if not rest:
        return head.first > 0 or head.named or head.count > 0
    if re.match(
        r"(?:is|are)(?: worked)?(?: the)? same as|(?:is|are) worked as|as (?:row|rnd|\d)|same as|like (?:row|rnd)", rest
    ):
        return True
    if head.named:
        return mark == "," and bool(_WORKS.match(rest))
    return not _TALK.match(rest)


#: How a row's work begins behind a head that has no mark.
_WORKS = when_used(r"(?:\*|[(\[]?\d*\s?(?:ch\d*|ex[sdht]{1,2}[cr]|sc|hdc|dc|htr|tr|dtr|sk|skip|miss|sl st|ss|inc|dec|work|make|turn|join|rep|repeat|crochet|chain|single|double|half|treble|with|using|fp[sdht]|bp[sdht])\b)")


def _row_follows_row(low: str, at: int, head: Head | None, last: int) -> bool:
    """Whether a row's name stands right behind the word "row" that ends what was said before: "... each row Row 9 - ch 2"."""
    if head is None or not head.marked or head.first != last + 1 or not _WORKS.match(low[head.end :]):
        return False
    return bool(re.search(r"\b(?:rows?|rnds?|rounds?)\s*$", low[:at]))


_CLOSED = when_used(r"(?:\bend|\bacross|\baround|\bturn|\bjoin|\bst|\bsts|\bstitch|\bch|\bchain|\b(?:in|of) (?:[sdht]{1,3}[cr])|[)\]])\s*$")


def _runs_on(low: str, at: int, head: Head, last: int) -> bool:
    """Whether the next row's head stands behind work that ends with no stop: "... sc in each st to end Row 3. Ch 1"."""
    mark = low[head.start : head.end].rstrip()[-1:]
    ahead = low[head.end :].lstrip()
    works = _WORKS.match(ahead) or re.match(r"(?:all in|work|as|repeat|rep)\b", ahead)
    numbered = head.marked and mark in ".:" and 0 < head.first == last + 1
    return numbered and bool(works) and bool(_CLOSED.search(low[:at]))


#: The word of a row, which every head in the middle of a line holds.
_ROW_WORD = when_used(r"(?<![a-z0-9])r(?:ow|nd|ound|d|w|\d)")


#: "... 7 sc. Sides Rnd 1:": the name of a further part before its first row in the middle of a line.
_PART_INSIDE = when_used(
    r"[.!)\]]\s+(?P<name>(?!(?:work|rep|repeat|rpt|begin|start|now|then|next|on|in|for|with|using|turn|join|ch|chain|sc|h?dc|h?tr|ss|sl|sk|skip|miss|make|end|last|this|that|do|not|note|rs|ws|right side|wrong side)\b)"
    r"[a-z][a-z'-]*(?: (?!row|rnd|round)[a-z][a-z'-]*){0,2})\s*[-:]?\s*$"
)


def inner_heads(low: str, start: int, last: int) -> list[Head]:
    """Heads in the middle of a line: after a full stop, or with a colon where the number goes on from `last`."""
    out: list[Head] = []
    if not _ROW_WORD.search(low, start + 1):
        return out
    for found in re.finditer(
        rf"(?<![a-z0-9]){_WORD}\s*\#?\s*\d|(?<![a-z0-9])r\d|(?<![a-z0-9]){_ORD}(?:\s*(?:-|to|,|and|&|thru|through)\s*(?:and\s+)?{_ORD})*(?:\s*(?:,|and|&)\s*(?:all |every )?[a-z]+)?\s+{_WORD}\b|(?<![a-z])(?:next|last|final)\s+(?:row|rnd|round)\s*(?:\([^()]{{1,30}}\)\s*)?:|(?<![a-z])next\s+{_NUM}\s+{_WORD}\s*(?:\([^()]{{1,30}}\)\s*)?:|(?<![a-z])(?:foundation|set[- ]?up|base|edging|border|increase|decrease)\s+(?:row|rnd|round)\s*(?:\([^()]{{1,30}}\)\s*)?:",
        low,
    ):
        at = found.start()
        if at <= start or (out and at < out[-1].end):
            continue
        head = head_at(low, at)
        if head is not None and _runs_on(low, at, head, last):
            out.append(head)
            last = head.last
            continue
        if _REFERS.search(low[:at]) and not _row_follows_row(low, at, head, last):
            continue
        if out and head is not None and head.marked and head.first == 1 and (named := _PART_INSIDE.search(low, out[-1].end, at)):
            out.append(replace(head, start=named.start("name"), lead=named["name"]))
            last = head.last
            continue
        before = low[:at].rstrip()[-1:]
        if head is not None and not head.marked and before in ".!)]" and 0 < head.first == last + 1:
            if _WORKS.match(low[head.end :]):
                out.append(head)
                last = head.last
            continue
        if head is None or not head.marked:
            continue
        mark = low[head.start : head.end].rstrip()[-1:]
        others_told = any(h.open_end for h in out)  # "Rnd 6 and each even rnd": the next is Rnd 7
        follows = 0 < head.first - last <= 1 + others_told or (not head.first and (head.named or head.count > 0))
        if (
            (before in ".)];:!-]}" and mark in ":-.);" and (follows or mark == ":"))
            or (mark == ":" and follows)
            or (mark == "," and follows and head.first and before in ".)]" and _WORKS.match(low[head.end :]))
            or (mark in "-)" and follows and before in ".)];,!")
            or (mark == "-" and follows and re.match(r"\s*(?:ch|turn|\d|[a-z0-9]*[sd]c\b)", low[head.end :]))
        ):
            rest = low[head.end :].strip()
            if rest and (not _TALK.match(rest) or (mark in ":-" and follows and re.match(r"(?:in|on|for|at)\b", rest))):
                out.append(head)
                last = head.last or last + 1
    return out


_LEADS = r"\W*(?:(?:then|now|next|and) )*(?:(?:chang(?:e|ing)|switch(?:ing)?|swap)(?: back)?(?: colou?rs?| yarns?)?(?: to (?:the )?[a-z]+(?: [a-z]+)?)?,? (?:and|then|and then) (?:then )?)?"
_ALIKE = r"(?:(?:in )?(?:the same|this|that|same)(?: way| manner| pattern)?|like (?:this|that|the last|last one)|likewise|even(?:ly)?|straight|without (?:shaping|increasing|increases?)|in pattern|as (?:set|established|before))"
_FURTHER = when_used(
    rf"{_LEADS}(?:work|make|crochet|do)\s+(?P<n>{_NUM})\s+(?:more|further|extra)\s+(?P<word>{_WORD})\s+(?:of|in)\s+(?!pat|the\b|this|same)"
    rf"|{_LEADS}(?:work|crochet|continue|cont|go on)\s+(?:straight|even|evenly|without shaping)\s+(?:in (?:[a-z]+ ){{1,2}})?(?:for|on)\s+(?P<n2>{_NUM})\s+(?:(?:more|further)\s+)?(?P<word2>{_WORD})\b(?!\s+(?:below|down))"
    rf"|{_LEADS}(?:work|make|crochet|do)\s+(?P<n3>{_NUM})\s+(?:(?:more|further|extra)\s+)?(?P<word3>{_WORD})\s+{_ALIKE}\W*$"
    rf"|{_LEADS}(?:work|make|crochet|do)\s+(?:another\s+)?(?P<n4>{_NUM})\s+(?:(?:more|further|extra)\s+)?(?P<word4>{_WORD})\s+(?:(?:of|in)\s+)?(?:{lexicon.ANY_PLAIN})(?:\s+(?:all\s+)?(?:around|round|across))?\W*(?:[(\[][^()\[\]]*[)\]]\W*)?$"
    rf"|{_LEADS}(?:(?:work|make|crochet|do)\s+)?(?P<n6>{_NUM})\s+(?:(?:more|further|extra)\s+)?(?P<word6>{_WORD})\s+(?:(?:more|further|straight|even|evenly)\s+)?(?:on|over|across)\s+(?:these|those|the|each|all|same|remaining|rem|last|\s)*(?:\d{{1,3}}\s+)?(?:{lexicon.ANY_PLAIN}|sts|stitches|st)\W*$"
    rf"|{_LEADS}(?:continue|cont|carry on|go on|keep (?:on|going)|proceed)(?: (?:on|working|crocheting))? (?:in|with) (?:{lexicon.ANY_PLAIN})(?: only| sts)?,? for (?P<n7>{_NUM})\s+(?:(?:more|further|extra)\s+)?(?P<word7>{_WORD})\W*(?:[(\[][^()\[\]]*[)\]]\W*)?$"
    rf"|\W*(?:then|now|followed by|and then|after that)\s+(?P<n5>{_NUM})\s+(?:(?:more|further|extra)\s+)?(?P<word5>{_WORD})\s+(?:of|in)\s+(?:{lexicon.ANY_PLAIN})\W*(?:[(\[][^()\[\]]*[)\]]\W*)?$"
)
#: How often rows come again: "for the next 4 rows", "6 times", "a further 21 times", "5 additional times", "x 5".
_N_TIMES = rf"\d{{1,3}}|{lexicon.NUMBER_WORDS}"
_MANY = (
    rf"(?:(?:for|over) (?:the next |another |a further |an additional )?(?P<n4>{_N_TIMES}) (?:more |further |additional )?(?:rows?|rnds?|rounds?)"
    rf"|(?:again )?(?:an? (?:further|additional|extra|other) )?(?P<n>{_N_TIMES})(?: (?:more|further|additional|extra))? times(?: (?:more|again))?"
    rf"|(?:again )?(?P<w>once|twice|thrice)(?: (?:more|again))?|(?P<n2>{_N_TIMES}) more(?: times)?|another (?P<n3>{_N_TIMES}) times|x ?(?P<n5>\d{{1,3}})|(?P<n6>\d{{1,3}}) ?x)"
)
#: "3 more rows like this", "Then 4 further rows the same".
_MORE_ALIKE = when_used(rf"{_LEADS}(?P<n>{_NUM})\s+(?:more|further|extra)\s+(?P<word>{_WORD})\s+(?:exactly |just )?{_ALIKE}\W*$")
#: "until there are 9 rows in all", "for a total of 9 rows", "through Row 9": how many rows there are then.
_IN_ALL_ROWS = r"(?: (?:in )?(?:total|all|altogether))"
_UNTIL_ROWS = (
    r"(?P<until>(?:\s*,?\s*\(?(?:"
    rf"(?:until|till|'til|til) (?:you have|there are|there's|you've|you|(?:the |your )?[a-z]+ has)(?: (?:made|worked|completed|crocheted|done|finished|got))?(?: a total of| in all| altogether)? (?P<total>\d{{1,3}}) (?:full |complete |finished )?{_WORD}(?: (?:done|made|worked|completed|finished))?{_IN_ALL_ROWS}?"
    rf"|(?:until|till|'til|til) (?:a total of )?(?P<total2>\d{{1,3}}) {_WORD}(?:{_IN_ALL_ROWS})?(?: (?:are|have been|were|is|has been))? (?:done|worked|made|completed?|finished|reached|crocheted){_IN_ALL_ROWS}?"
    rf"|(?:for|to make|to give|making|giving|having) (?:a total of|in all|altogether) (?P<total3>\d{{1,3}}) {_WORD}"
    rf"|(?:to make|to give|making|giving) (?P<total4>\d{{1,3}}) {_WORD}{_IN_ALL_ROWS}?"
    rf"|(?:up )?(?:through|thru|to|until|till)(?: and including)? {_WORD} (?P<total5>\d{{1,3}})(?: (?:is|has been) (?:done|worked|completed?))?"
    rf"|(?:for|on|in|over) (?:the )?{_WORD} \d{{1,3}} ?(?:-|to|through|thru|and) ?(?P<total6>\d{{1,3}})"
    r")\)?))"
)
#: How it begins, asked first, as the whole is dear to compile; "rep from * across" begins otherwise.
_REPEATS = when_used(rf"{_LEADS}(?:rep(?:eat)?|rpt|work)\s+(?:the\s+)?(?:last|previous|this|that|these|those|above|{_WORD}|{_ORD})")
_REPEATED = when_used(
    rf"{_LEADS}(?:rep(?:eat)?|rpt|work)\s+(?:the\s+)?(?:(?:last|previous|this|that|these|those|above)\s+(?:(?P<back>two|three|four|\d)\s+)?(?P<word>{_WORD})|(?P<word2>{_WORD})\s*(?P<open>\()?\#?(?P<a>\d{{1,4}})(?:\s*(?:-|to|and|&)\s*(?P<b>\d{{1,4}}))?(?(open)\))|(?P<o>{_ORD})(?:\s*(?:-|to|and|&)\s*(?P<p>{_ORD}))?\s+(?P<word3>{_WORD}))\s*,?\s+"
    rf"(?=\S)(?:{_MANY})?(?:{_UNTIL_ROWS})?(?:\s*[-,;(.]\s*\(?(?P<sum>\d{{1,3}}) {_WORD} (?:in )?(?:total|all|altogether))?(?P<made>\s*[-:=(,;\u2013]+\s*\d{{1,4}} ?(?:sts?|stitches|lps?|loops?|sps?|spaces?|{lexicon.ANY_PLAIN})(?: (?:at|on|remain|rem|left|now|in all|total|made)\b[^.;]{{0,20}})?\s*\)?)?\W*$"
)


#: "... Do not turn. Fasten off." behind what comes again.
_CLOSES = when_used(r"(?<=[.;,]) *(?:and )?(?:(?:do not|don'?t) turn|turn|fasten off|end off|break off|finish off|(?:break|cut) (?:the )?yarn)\W*$")


#: "... (40 sts) (the increases fall on odd rounds)": what is said beside rows that come again, and counts nothing.
_SAID_BESIDE = when_used(r"(?<=[a-z)\].]) *\((?!\s*\d|[^()]*\b\d+ ?(?:sts?|stitches|sc|h?dc|h?tr|ch|chains?|sps?|loops?|in all|total)\b)[^()]*\b[a-z]+ [a-z]+\b[^()]*\)\W*$")
#: "Rep Rows 2 and 3 six more times, then rep Row 2 once more": what comes again after that.
_THEN_AGAIN = when_used(
    rf"(?P<first>[^.;]*?)(?P<gap>\s*[,.;]?\s*(?:(?:and then|then|and|followed by|finish(?:ing)? with|before)\s+)?)(?P<more>(?:rep(?:eat)?(?:ing)?\s+|rpt\s+|work(?:ing)?\s+)?(?:the\s+)?(?P<rows>{_WORD}\s*\d{{1,4}}(?:\s*(?:-|to|and|&)\s*\d{{1,4}})?)"
    rf"(?:\s+(?P<w>once)(?: more| again)?|\s+(?P<again>again|one more time|one last time)|(?P<n>\s+(?:twice|\d{{1,3}} more times|\d{{1,3}} times)))?)\W*$"
)


def repeated_twice(low: str, last: int) -> tuple[int, Head, Head, str] | None:
    """Where a line stops saying how often rows come again and goes on with further rows that do, the heads of both, and the
    words of the second; None for any other line."""
    found = _THEN_AGAIN.match(low)
    if found is None or not found["gap"].strip():
        return None
    said = f"rep {found['rows']}{found['n'] or ' once'}"
    first, second = repeated_rows(found["first"], last), repeated_rows(said, last)
    return (found.end("first"), first, second, said) if first is not None and second is not None else None


#: The parts of _UNTIL_ROWS that tell the number.
_TOTALS = ("total", "total2", "total3", "total4", "total5", "total6")


def without_total(low: str, text: str) -> str:
    """The words of rows that come again without how many rows there are then, which their number says.

    >>> without_total("rep row 2 until there are 9 rows in all.", "Rep Row 2 until there are 9 rows in all.").rstrip()
    'Rep Row 2'
    """
    low = " ".join(low.split())
    found = _REPEATED.match(_CLOSES.sub("", low)) if _REPEATS.match(low) else None
    as_printed = low == " ".join(text.lower().split())
    if not found or not found["until"] or not (as_printed or low == " ".join(plain(text).split())):
        return text
    said = " ".join(text.split()) if as_printed else low
    return (said[: found.start("until")] + said[found.end("until") :].rstrip(" .,")).ljust(len(text))


#: "[Rep Rows 2 and 3] twice".
_BRACKETED_ROWS = when_used(r"^\W*[\[(]((?:rep(?:eat)?|rpt) [^\[\]()]*?)[\])]")


def repeated_rows(low: str, last: int) -> Head | None:
    """A line that says how often rows come again behind row `last`: "Repeat the last row twice more", "Rep Rows 2-3 until
    you have 9 rows"."""
    said = _BRACKETED_ROWS.sub(r"\1", " ".join(low.split()))
    found = _REPEATED.match(_SAID_BESIDE.sub("", _CLOSES.sub("", said))) if _REPEATS.match(said) else None
    total = next((_number(found[k]) for k in _TOTALS if found[k]), 0) if found else 0
    times_said = found and (found["w"] or any(found[k] for k in ("n", "n2", "n3", "n4", "n5", "n6")))
    if not found or not (total or times_said) or (not last and total and not times_said):
        return None
    total = total if last else 0
    back = lexicon.number(found["back"] or "1") or 1
    span = int(found["b"] or found["a"]) - int(found["a"]) + 1 if found["a"] else back
    if found["p"]:
        span = (lexicon.ordinal(found["p"]) or 0) - (lexicon.ordinal(found["o"]) or 0) + 1
    often = {"once": 1, "twice": 2, "thrice": 3}.get(found["w"] or "", 0)
    often = often or _number(next((found[k] for k in ("n", "n2", "n3", "n4", "n5", "n6") if found[k]), ""))
    times = often if found["n4"] else span * often
    if total and times not in (0, total - last):
        return None
    count = total - last if total else times
    if span < 1 or count < 1 or (found["sum"] and last and int(found["sum"]) not in (last + count, span + count)):
        return None
    is_round = (found["word"] or found["word2"] or found["word3"]).startswith(("rn", "rou", "rd"))
    return Head("Rnd" if is_round else "Row", 0, 0, is_round, "", 0, 0, True, count=count)


#: "until 8 sc rem", "till you have 40 sts", "down to 12 sts": at which count rows end that come again.
_UNTIL_STITCHES = (
    r"[,;]?\s+(?:(?:until|till|'til|til)(?: (?:only|just|there are|there is|you have|you've|you reach|you are left with|you're left with|left with|we have|a total of|the|these|remaining))*|down to|up to)"
    rf" (?P<n>\d{{1,4}}) ?(?:sts|stitches|{lexicon.ANY_PLAIN})\b(?: only)?"
    r"(?: (?:rem|remain|remaining|are left|left|(?:are )?on (?:the |each )?(?:row|rnd|round|side)|in all|in total|total|altogether|have been (?:reached|made|worked)|is reached|are reached|across|around|in (?:the )?(?:row|rnd|round)))?\.?"
)
#: "Repeat Row 2", "Work last 2 rows", "Rep dec row": the words of such rows.
_ROWS_UNTIL = when_used(
    rf"{_LEADS}(?:(?:cont(?:inue)?|keep(?: on)?|go on|carry on)\s+(?:to\s+)?)?(?:rep(?:eat(?:ing)?|ping)?|rpt|work(?:ing)?)\s+(?:the\s+)?"
    rf"(?:(?:last|previous|this|that|these|those|above)\s+(?:(?:two|three|four|\d)\s+)?{_WORD}|(?P<word>{_WORD})\s*\#?\d{{1,4}}(?:\s*(?:-|to|and|&)\s*\d{{1,4}})?|{_ORD}(?:\s*(?:-|to|and|&)\s*{_ORD})?\s+{_WORD}|(?!(?:every|each|alternate|other) )(?:[a-z]+ ){{1,2}}{_WORD})"
    rf"(?P<until>{_UNTIL_STITCHES})\W*(?:[(\[-]\s*(?P=n)[^()\[\]]*[)\]]?)?\W*$"
)
#: "Continue to dec 6 sts every other rnd until 24 sts rem": how these rows are worked the words alone do not say.
_SHAPED_UNTIL = when_used(
    rf"{_LEADS}(?:(?:cont(?:inue|inuing)?|keep(?: on)?|go on|carry on|proceed|rep(?:eat)?|work)\b)[^.;:*]*?\b(?:inc|dec|increas\w+|decreas\w+|shap\w+|this (?:way|manner)|same (?:way|manner)|as (?:established|set|before)|patt(?:ern)?)\b[^.;:*]*?"
    rf"(?P<until>{_UNTIL_STITCHES})\W*(?:[(\[-]\s*(?P=n)[^()\[\]]*[)\]]?)?\W*$"
)


def repeated_until(low: str, above: Head) -> Head | None:
    """The head of rows behind `above` that are worked until so many stitches are there.

    >>> head = repeated_until("repeat row 2 until 8 sc rem.", Head("Row 2", 2, 2, False, "", 0, 0, True))
    >>> head.label, head.until
    ('Next Row', 8)
    """
    said = _CLOSES.sub("", " ".join(low.split()))
    if "til" not in said and " to " not in said:
        return None
    found = _ROWS_UNTIL.match(said) or _SHAPED_UNTIL.match(said)
    if found is None:
        return None
    is_round = above.is_round
    return Head("Next Rnd" if is_round else "Next Row", 0, 0, is_round, "", 0, 0, True, named=True, until=int(found["n"]))


_VERB_OF_ROWS = when_used(r"(?i)\b(?:work(?:ing)?|repeating|repping)\b")


def without_until(low: str, text: str) -> str:
    """The words of rows that come again until so many stitches are there without that number, which their head has; none
    are left of words that do not say how they are worked.

    >>> without_until("rep row 2 until 8 sc rem.", "Rep Row 2 until 8 sc rem.").rstrip()
    'Rep Row 2'
    >>> without_until("cont to dec until 8 sc rem.", "Cont to dec until 8 sc rem.").strip()
    ''
    """
    said = " ".join(text.split())
    found = _ROWS_UNTIL.match(_CLOSES.sub("", " ".join(low.split())))
    return (_VERB_OF_ROWS.sub("rep", said[: found.start("until")]) if found else "").ljust(len(text))


#: "Rpt Rows 2 and 3." between Row 5 and Row 8: no number of times is said.
_AGAIN_ONCE = when_used(
    rf"{_LEADS}(?:rep(?:eat)?|rpt|work)\s+(?:the\s+)?(?P<word>{_WORD})\s*(?P<a>\d{{1,4}})(?:\s*(?:-|to|and|&)\s*(?:{_WORD}\s*)?(?P<b>\d{{1,4}}))?\W*$"
)


#: "Do this 5 more times.", "5 more rows like Row 2.": the last row, where the next row's number fits.
_THIS_AGAIN = when_used(
    rf"{_LEADS}(?:(?:rep(?:eat)?|rpt|do|work)\s+(?:this|that|it|the same)\s+{_MANY}|(?P<more>{_N_TIMES})\s+(?:more|further|additional)\s+{_WORD}\s+(?:like|as|same as|the same as)\s+(?P<word>{_WORD})\s*(?P<a>\d{{1,4}}))\W*$"
)


def last_again(low: str, last: int, following: int) -> Head | None:
    """A line that says "this" or further rows like row `last` again, as often as the number of the row that follows leaves
    room for.

    >>> head = last_again("do this 3 more times.", 2, 6)
    >>> head and head.count, last_again("do this 3 more times.", 2, 7)
    (3, None)
    """
    found = _THIS_AGAIN.match(" ".join(low.split()))
    if found is None or not last or (found["a"] and int(found["a"]) != last):
        return None
    said = next((found[k] for k in ("n", "n2", "n3", "n4", "n5", "n6", "more") if found[k]), "")
    count = {"once": 1, "twice": 2, "thrice": 3}.get(found["w"] or "", 0) or _number(said)
    return _rows_told(found["word"] or "row", str(count)) if count and count == following - last - 1 else None


def repeated_up_to(low: str, last: int, following: int) -> Head | None:
    """A line that says rows again between row `last` and a row numbered `following`: they come once, or as often as the
    numbers leave room for.

    >>> head = repeated_up_to("rpt rows 2 and 3. fasten off.", 5, 8)
    >>> head and head.count, repeated_up_to("rpt rows 2 and 3.", 5, 9)
    (2, None)
    """
    found = _AGAIN_ONCE.match(_CLOSES.sub("", " ".join(low.split())))
    span = int(found["b"] or found["a"]) - int(found["a"]) + 1 if found else 0
    count = following - last - 1
    if found is None or not last or span < 1 or count < span or count % span:
        return None
    return _rows_told(found["word"], str(count))


#: "Now stop increasing and continue with 1 hdc in each st for 6 rounds (30)".
_STRAIGHT_ON = when_used(
    rf"\b(?:continue|cont|carry on|keep on|keep|go on|work|proceed)(?: (?:on|with|working|in|to|crocheting|work|making))*,? (?:(?:1|one|an?) )?(?:{lexicon.ANY_PLAIN}) (?:in|into) (?:each|every)\b[^.;()]{{0,24}}? (?:for|over) (?:the next )?(?P<n>{_NUM})(?: more| further)? (?P<word>{_WORD})\b(?=\W*(?:[(\[-][^()\[\]]*[)\]]?)?\W*$)"
)


#: "Ch 1, sc in each st for the next 9 rounds.", on a line of its own.
_EACH_FOR = when_used(
    rf"{_LEADS}(?:ch(?:ain)? ?1,? (?:(?:and )?turn,? )?)?(?:(?:work|make|with) )?(?:1 )?(?:{lexicon.ANY_PLAIN}) (?:in|into) (?:each|every|all) (?:{lexicon.ANY_PLAIN}|sts?|stitch(?:es)?)(?: (?:around|across|round))?,? "
    rf"(?:for|over) (?:the next |another )?(?P<n>{_NUM})(?: more| further)? (?P<word>{_WORD})\W*(?:[(\[][^()\[\]]*[)\]]\W*)?$"
)


def further_rows(low: str) -> Head | None:
    """A line that says further rows without numbers: "Work 2 more rows of dc". Its words are all the row's."""
    straight = _STRAIGHT_ON.search(low)
    if straight and not re.search(r"\d|\b(?:sc|hdc|dc|htr|tr)\b", low[: straight.start()]):
        return replace(_rows_told(straight["word"], straight["n"]), start=straight.start())
    each = _EACH_FOR.match(low)
    if each:
        return _rows_told(each["word"], each["n"])
    found = _FURTHER.match(low)
    alike = None if found else _MORE_ALIKE.match(low)
    if not found:
        return _rows_told(alike["word"], alike["n"]) if alike else None
    word, n = next((found[f"word{k}"], found[f"n{k}"]) for k in ("", "2", "3", "4", "5", "6", "7") if found[f"n{k}"])
    return _rows_told(word, n)


#: "Work 4 rows more on these 20 sts": as the row before, on so many.
_ON_STITCHES = when_used(
    rf"{_LEADS}(?:(?:work|make|crochet|do)\s+)?{_NUM}\s+(?:(?:more|further|extra)\s+)?{_WORD}\s+(?:(?:more|further|straight|even|evenly)\s+)?(?:on|over|across)\s+"
    r"(?:these|those|the|each|all|same|remaining|rem|last|\s)*(?:(?P<n>\d{1,3})\s+)?(?:sts|stitches|st)\W*$"
)


def counted_at_end(low: str, text: str, rows: int) -> str:
    """Words that say how often rows come again, with the count behind them told of the last row.

    >>> counted_at_end("rep rows 3 and 4 twice - 12 sts.", "Rep Rows 3 and 4 twice - 12 sts.", 4)
    'Rep Rows 3 and 4 twice (12 sts at end)'
    """
    low, said_all = " ".join(low.split()), " ".join(text.split())
    found = _REPEATED.match(low) if rows > 1 else None
    if not found or not found["made"]:
        return text
    said = re.search(r"\d+ ?[a-z]+", found["made"])
    return f"{said_all[: found.start('made')].rstrip()} ({said[0]} at end)" if said else text


#: "Rep this row 3 times", "repeat these 2 rows once" behind the rows meant.
_THIS_ROW = when_used(rf"(?i)^(\s*(?:then |now )?(?:rep(?:eat)?|rpt)\s+)(?:this|that|these|those|the above|above)(?=\s+(?:(?:two|three|four|\d)\s+)?{_WORD}\b)")


def as_last(low: str, text: str) -> str:
    """The words of such further rows as ones that the reader of rows knows, as long as before.

    >>> as_last("work 4 rows more on these 20 sts.", "Work 4 rows more on these 20 sts.").strip()
    'as last row (20 sts)'
    """
    text = _THIS_ROW.sub(lambda m: f"{m[1]}last".ljust(len(m[0])), text)
    found = _ON_STITCHES.match(low)
    said = f"as last row ({found['n']} sts)" if found and found["n"] else "as last row"
    return said.ljust(len(text)) if found and len(said) <= len(text) else text


def _rows_told(word: str, n: str) -> Head:
    is_round = word.startswith(("rn", "rou", "rd"))
    return Head("Rnd" if is_round else "Row", 0, 0, is_round, "", 0, 0, True, count=_number(n))
