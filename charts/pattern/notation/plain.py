"""Text as it may enter, and in one kind of dash, quote and case, letter for letter as long as before."""

from __future__ import annotations

import re
import unicodedata

from ..when_used import when_used

_DASHES = dict.fromkeys(map(ord, "‐‑‒–—―−"), "-")
_QUOTES = {
    ord("’"): "'", ord("‘"): "'", ord("“"): '"', ord("”"): '"', ord("″"): '"', ord("′"): "'", ord("\u00a0"): " ",
    ord("\t"): " ", ord("×"): "x", ord("✕"): "x", ord("＊"): "*", ord("∗"): "*", ord("⁎"): "*", ord("✽"): "*",
    ord("★"): "*", ord("☆"): "*", ord("…"): "-", ord("→"): "-", ord("⇒"): "-", ord("½"): " ",
}  # fmt: skip
#: "Join with sl st in first sc\u201421 sc and 21 ch-1 sps": a long dash set against both, before a count that ends a row.
_DASHED_COUNT = when_used(
    r"(?<=[a-z.)])[\u2014\u2013](?= {0,14}\d{1,4}(?: ?\(\d[\d, ]*\))? {1,14}(?:sc|hdc|dc|tr|htr|dtr|sts?|stitches|ch-?\d? ?sps?|shells?|clusters?)\b[^.;*]{0,60}(?:[.;]|$))",
    re.IGNORECASE | re.MULTILINE,
)
_THESE_ROWS = r"(?:(?:the )?(?:last|these|those|previous|above)(?: (?:two|three|\d))? (?:rows|rnds|rounds)|(?:the )?(?:rows|rnds|rounds|rnd|row|round) ?\d{1,3} ?(?:and|&|-|to) ?\d{1,3}|(?:the )?\d{1,2}(?:st|nd|rd|th) (?:and|&|to) \d{1,2}(?:st|nd|rd|th) (?:rows|rnds|rounds|row|rnd|round))"
#: "Repeat 2nd and 3rd rows alternately until ...", "alternate rows 2 and 3 until ...": rows that come again are worked by turns.
_BY_TURNS = when_used(rf"(?P<rows>\b(?:rep(?:eat)?(?:ing)?|rpt|work) {_THESE_ROWS}) (?P<how>alternately|alternatingly|alternating)\b")
_ALTERNATED = when_used(rf"\balternat(?:e|ing)(?: between)?(?= {_THESE_ROWS})")
_BARRED = ("Cc", "Cf", "Cs", "Co", "Cn")


def plain(text: str) -> str:
    """The text with one kind of dash, quote and space, in lower case, letter for letter as long as before."""
    same = _DASHED_COUNT.sub("=", text).translate(_DASHES).translate(_QUOTES)
    low = same.lower()
    low = low if len(low) == len(same) else "".join(small if len(small := c.lower()) == 1 else c for c in same)
    return _row_turns(low) if "alternat" in low else low


def _row_turns(low: str) -> str:
    """Rows that come again by turns told as rows that come again.

    >>> _row_turns("repeat 2nd and 3rd rows alternately until 9 rows are done.").split()[5:7], _row_turns("alternate rows 2 and 3").split()
    (['until', '9'], ['repeat', 'rows', '2', 'and', '3'])
    """
    low = _BY_TURNS.sub(lambda found: found["rows"].ljust(len(found[0])), low)
    return _ALTERNATED.sub(lambda found: "repeat".ljust(len(found[0])), low)


def clean(text: str) -> str:
    """Text as it may enter: composed letters, line ends as newline, no control or direction characters."""
    text = unicodedata.normalize("NFC", text.replace("\r\n", "\n").replace("\r", "\n"))
    barred = {ord(c): None for c in set(text) if c not in "\n\t" and unicodedata.category(c) in _BARRED}
    return text.translate(barred)


_NTH = r"(?:first|second|third|fourth|fifth|sixth|last|1st|2nd|3rd|4th|5th|6th)"
_PART = r"(?:petal|point|side|section|corner|leaf|ray|quarter|wedge|edge)"
#: "Petal 1. Ch 3, ...", "Second side: sc in ...": the name of a stretch of the row.
_LABEL = when_used(
    rf"(?:^\s*|(?<=[.;!)\n])\s+)(?:{_PART} (?:no\.? ?|#)?\d{{1,2}}|{_NTH} {_PART})\s*(?:[:.-]|\u2013)\s+(?=[*(\[]?\s?(?:work |make )?(?:\d+ ?)?(?:ch|sc|hdc|dc|htr|tr|sl st|ss|sk|skip|miss|chain)\b)"
)
#: "Foundation chain: ch 20. Sc in 2nd ch ...": the name of what a row's words begin with.
_CHAIN_NAMED = when_used(r"^\s*(?:foundation|starting|base|beginning)(?: (?:chain|ch|row))?\s*(?::|-)\s+(?=(?:make |work )?(?:a )?(?:ch(?:ain)?s? (?:of )?\d|\d+ ?ch))")
#: "Change to 4 mm hook work 1 dc in ...": another hook, and the work behind it.
_HOOK_CHANGED = when_used(r"(\b(?:chang|switch)\w*\b[^,;()]{0,24}\bhook) (?=(?:and |then )?(?:work|make) ?\d|\d+ ?(?:sc|hdc|dc|htr|tr)\b)")
#: "With 6.00 mm hook make 40 ch", "using #7 hook attach A to ...": the hook, and the work behind it with no sign between.
_HOOK_TOLD = when_used(
    r"(\b(?:with|using|use|take|taking|chang\w+ (?:back )?to|switch\w* (?:back )?to|go(?:ing)? (?:back |down |up )?to) (?:(?:an?|the|your|size|no\.?|number|us|uk|crochet|smaller|larger|bigger|small|large|same|steel|original|first|second|other) )*"
    r"(?:#? ?\d[\d./]*(?: ?mm)?(?: ?[(/]? ?[a-q][-/]?\d{0,2}\)?)?|[a-q](?:[-/] ?\d{1,2}(?:\.\d+)?)?)?(?: ?\(\d[\d.]* ?mm\))?(?: ?(?:size|steel|crochet|afghan|tunisian))* ?hook),? (?:(?:make|work), )?"
    r"(?=(?:and |then )?(?:make|work|attach|join|rejoin|ch|chain|begin|start|crochet|sl|slip|\d{1,3} ?(?:sc|hdc|dc|htr|tr|ch|chs|chain|chains)|sc|hdc|dc|htr|tr)\b)"
)
#: "(12, 1ch spaces)": a comma between how many and what.
_COMMA_IN_COUNT = when_used(r"(?:(?<=[(\[])|(?<=[(\[]\s)|(?<=groups, )|(?<=spaces, )|(?<=shells, )|(?<=loops, )|(?<=sps, )|(?<=lps, ))(\d{1,3}), (?=(?:\d ?-?ch|ch ?-?\d)[ -](?:sps?|spaces?|lps?|loops?|arch(?:es)?)\b|\d ?-?(?:[hs]?dc|sc|tr|htr) (?:groups?|shells?|clusters?|grps?)\b)")
#: "With 5.00 mm hook and main yarn make 48 ch": what it is worked with, and the work behind it.
_WORKED_WITH = when_used(r"^(\W*(?:with|using)\b[^,;()]{0,24}\b(?:hook|mm)\b[^,;()]{0,32}\b(?:yarn|hook|colou?r|thread|wool|cotton)) (?=(?:make |chain |ch ?)\d|\d+ ?ch\b)")
#: "BLO-Ch 3, ...", "Both lps - ch 3": the loops of a whole row, before a dash.
_LOOPS_FIRST = when_used(r"^(\W*(?:blo|flo|bl|fl|(?:in )?(?:both|back|front) (?:lps?|loops?)(?: only)?)) ?- ?(?=(?:ch|join|sc|hdc|dc|htr|tr|with)\b)")
#: "'hdc, ch 1' across": what comes again, between quotes.
_QUOTED = when_used(
    r"(?P<q>['\"])(?P<said>[^'\"()\[\]]{2,80}?)(?P=q)(?= ?(?:across|around|to (?:the )?(?:end|last)|all (?:across|around)|rep|until|\d{1,2} (?:more )?times|x ?\d|in (?:each|every|next|the)))"
)
_LETTERS = r"(?:s\.? ?c|h\.? ?d\.? ?c|d\.? ?c|tr|s\.? ?l|ch|sts?)"
#: "1. s.c. in next ch. 3. s.c. in next. ch.": a stop behind a number, or behind "next", that ends nothing.
_STOPPED = when_used(rf"(?<![\d.])(?P<n>\d{{1,2}})\.(?= ?{_LETTERS}\b)")
_NEXT_STOPPED = when_used(rf"\b(next|each|first|last|same)\.(?= {_LETTERS}\b)")
#: So often a number must have a stop behind it before stitches, to be printed so and be no number of a step.
_OFTEN = 3
#: "3 dc(s) in next st": one or several, which the number says.
_ONE_OR_MORE = when_used(r"(?<=[a-z])\((e?s)\)")
_RINGS = r"(?:(?:an? |the |your )?(?:magic (?:ring|circle|loop)|adjustable (?:ring|loop)|m\.?[rc]\.?))"
_CHAINED = r"(?:(?:make )?(?:ch(?:ain)?|make) ?2\b[^.;()]{0,40}?(?:2nd|second) (?:ch|chain)(?: from (?:the |your )?hook)?|2 ?ch\b[^.;()]{0,40}?(?:2nd|second) (?:ch|chain)(?: from (?:the |your )?hook)?)"
_WORK = r"[^.;()]{0,24}?"
_OR = r",?\s+or\s+"
#: "6 sc in magic ring OR ch 2, 6 sc in 2nd ch from hook": either is the same round.
_EITHER = when_used(rf"(?P<one>^\W*{_WORK}{_RINGS}){_OR}(?P<other>{_WORK}{_CHAINED})|(?P<chained>^\W*{_WORK}{_CHAINED}){_OR}(?P<ring>{_WORK}{_RINGS})")


#: "Rep Rows 6 + 7", "rows 6/7", "from R: 3 & 4": rows told by their numbers with another sign between or before them.
_ROWS_PLUS = when_used(r"(?P<row>\b(?:rows|rnds|rounds|rds|r)\.?:? ?)(?P<a>\d{1,3}) ?[+/](?= ?(?:r|row |rnd )?(?P<b>\d{1,3})\b)")
_ROWS_COLON = when_used(r"(?<=[a-z] )(?P<r>r)(?P<gap> ?: ?)(?=\d{1,3}(?:\W|$))")


#: "In center ch- 1 sp", "next ch - 3 lp": a space's chains parted from their number.
_CH_APART = when_used(r"\bch(?: - ?| ?- )(?P<n>\d{1,2})(?= ?(?:sp|lp|space|loop|arch|arche)s?\b)")


def one_told(low: str) -> tuple[str, str]:
    """A row's words with the names of its stretches blotted out, and the second of two ways to begin where both make as
    many; what was left out of them so, or "".

    >>> low, other = one_told("6 sc in magic ring or ch 2, 6 sc in 2nd ch from hook (6)")
    >>> low.split(), other
    (['6', 'sc', 'in', 'magic', 'ring', '(6)'], 'or ch 2, 6 sc in 2nd ch from hook')
    """
    low = _CH_APART.sub(lambda found: f"ch-{found['n']}".ljust(len(found[0])), low)
    low = _ROWS_COLON.sub(lambda found: f"{found['r']} ".ljust(len(found[0])), _ROWS_PLUS.sub(_and_rows, low))
    low = _QUOTED.sub(lambda found: f"({found['said']})", _without_stops(low))
    low = _ONE_OR_MORE.sub(r"\1  ", low) if "s)" in low else low
    low = _WORKED_WITH.sub(r"\1,", _LOOPS_FIRST.sub(lambda found: f"{found[1]},".ljust(len(found[0])), low))
    low = _HOOK_TOLD.sub(lambda found: f"{found[1]},".ljust(len(found[0])), low) if "hook" in low else low
    low = _COMMA_IN_COUNT.sub(r"\1  ", low)
    low = _HOOK_CHANGED.sub(r"\1,", _LABEL.sub(lambda found: " " * len(found[0]), _CHAIN_NAMED.sub(lambda found: " " * len(found[0]), low)))
    found = _EITHER.match(low) if " or " in low else None
    if found is None:
        return low, ""
    kept = found.end("one") if found["one"] else found.end("chained")
    told, other = low[found.start() : kept], low[kept : found.end()]
    if _made(told) != _made(other):
        return low, ""
    return low[:kept] + " " * len(other) + low[found.end() :], other.strip(" ,")


def _and_rows(found: re.Match[str]) -> str:
    return f"{found['row']}{found['a']}".ljust(len(found[0]) - 1) + "&" if int(found["a"]) != int(found["b"]) else found[0]


def _without_stops(low: str) -> str:
    """A row's words without the stops that are printed behind each number.

    >>> _without_stops("1. s.c. in next ch. 3. s.c. in next. ch. 1. s.c. in next ch.")
    '1  s.c. in next ch. 3  s.c. in next  ch. 1  s.c. in next ch.'
    """
    numbers = [int(found["n"]) for found in _STOPPED.finditer(low)]
    if len(numbers) < _OFTEN or numbers == list(range(numbers[0], numbers[0] + len(numbers))):
        return low
    return _NEXT_STOPPED.sub(r"\1 ", _STOPPED.sub(r"\g<n> ", low))


def _made(words: str) -> list[str]:
    """How many of which stitch a way to begin makes."""
    return [f"{found['n'] or found['m']} {found['k'] or found['l']}" for found in _MANY_OF.finditer(words)]


_MANY_OF = when_used(r"\b(?:(?P<n>\d+) ?(?P<k>sc|hdc|dc|htr|tr)|(?P<l>sc|hdc|dc|htr|tr) (?P<m>\d+))\b")
