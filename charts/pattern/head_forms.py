"""Odd forms of a row's head put into one that is told by its letters, each line as long as before."""

from __future__ import annotations

import re

from . import lexicon
from .when_used import when_used

_ROW = r"(?:rows?|rnds?|rounds?|rds?)"
#: "R.1:", "Rd.4", "ROW.2": a point behind the word.
_POINTED = when_used(
    rf"(?:^(?P<lead>\W*)|(?<=[.!)\]:;]\s)|(?<=[.!)\]])|(?<=\s))(?P<word>{_ROW}|(?<![A-Za-z])r)\.(?=\d)", re.IGNORECASE
)
_POINTED_APART = when_used(
    r"^(\W*(?:rnds?|rds?|rws?|r))\.(?=\s?\#?\s?\d{1,3}(?:\s?(?:[-\u2013&,+]|and|to)\s?\d{1,3})*\s?(?:\([^)]*\)\s?)?[:.)\u2013-])", re.IGNORECASE
)
#: "Row: 15-16: ...": a colon behind the word and another behind the number.
_COLON_TWICE = when_used(
    rf"^(?P<head>\W*{_ROW}):(?=\s?\d{{1,3}}(?:\s?(?:[-\u2013&,]|and|to)\s?\d{{1,3}})*\s?(?:\([^)]*\)\s?)?[:.)\u2013-]\s)", re.IGNORECASE
)
#: "Round 1 ::", "Row 2: :": two colons behind the number.
_COLONS = when_used(rf"^(?P<head>\W*{_ROW} ?#?\d{{1,3}}(?:\s?(?:[-\u2013&,]|and|to)\s?\d{{1,3}})*)\s?:\s?:(?=\s|$)", re.IGNORECASE)
#: "Rnd4~6:", "Rd 4+5": a run with another sign.
_RUN_STROKE = when_used(r"^(?P<head>\W*(?:rows|rnds|rounds|rds)\s?(?P<a>\d{1,3})\s?)/(?=\s?(?P<b>\d{1,3})\s?[:.)-])", re.IGNORECASE)
_RUN = when_used(rf"^(?P<head>\W*(?:{_ROW}|r)\s?\d{{1,3}}\s?)[~+](?=\s?(?:r|{_ROW}\s?)?\d{{1,3}}\b)", re.IGNORECASE)
#: "lst row", "1 st row", "2d Row".
#: "1st r. - ...", "R-1: ...".
_ORDINAL_R = when_used(r"(?P<lead>(?:^\W*|(?<=[.!)]\s))\d{1,3}(?:st|nd|rd|th) (?:[rR]|[rR][nN]?[dD]|[rR]ow))\.(?=\s?[-\u2013:]|\s+[A-Z\d(*])")
#: "R 1) ...", "R #2: ...", "R 3 - ...": the letter parted from its number.
_R_APART = when_used(
    r"^(?P<lead>\W*)(?P<r>[rR])(?P<gap>\s*\#\s*|\s+)(?P<n>\d{1,3}(?:\s?(?:[-\u2013&,+]|and|to)\s?\d{1,3})*)(?=\s?(?:\([^)]*\)\s?)?(?:[:.)]|[-\u2013]\s?\D))"
)
_R_DASHED = when_used(r"^(?P<lead>\W*[rR])[-\u2013](?=\d{1,3}\s*[:.)])")
_ELL = when_used(rf"\b[lI]st(?=\s+{_ROW}\b)", re.IGNORECASE)
_APART = when_used(rf"(?<![\d,.])(\d{{1,3}}) (st|nd|rd|th)(?=\s+{_ROW}\b)", re.IGNORECASE)
#: "Row IV:".
_ROMAN = when_used(rf"(?P<head>(?:^\W*|(?<=[.!)\]]\s)){_ROW}\.?\s+)(?P<n>[IVX]{{1,5}})(?=\s*(?:\([^)]*\)\s*)?[:.)-])", re.IGNORECASE)
#: "ROW TWO Chain 1", "ROWS TWO AND THREE Chain 1", with no mark behind.
_WORDED = when_used(
    rf"^(?P<head>\W*(?i:rows?|rnds?|rounds?)\s+)(?P<a>(?i:{lexicon.NUMBER_WORDS}|one))"
    rf"(?:(?P<dash>\s+(?i:to|thru|through|and|&)\s+)(?P<b>(?i:{lexicon.NUMBER_WORDS})))?(?=\s+[A-Z(*\[\d])"
)
#: "Rows Three, Four and Five:".
_WORDS_LISTED = when_used(
    rf"^(?P<head>\W*(?:rows|rnds|rounds)\s+)(?P<list>(?:{lexicon.NUMBER_WORDS})(?:\s*,\s*(?:and\s+)?(?:{lexicon.NUMBER_WORDS}))+(?:\s*(?:and|&)\s*(?:{lexicon.NUMBER_WORDS}))?)(?=\s*[:.)-])", re.IGNORECASE
)
#: "4-6 rows unchanged", "5 - 8 rows / 4 rows / - 24 sc": the word behind the numbers.
_BEHIND = when_used(
    rf"^(?P<lead>\W*)(?P<run>\d{{1,3}}\s?[-\u2013]\s?\d{{1,3}})\s(?P<word>{_ROW})"
    r"(?=\s*(?:/|-|\u2013)|\s+(?:unchanged|without|no\b|\(|\[|\d+\s?(?:sc|hdc|dc|tr)\b|(?:sc|hdc|dc|tr)\b))",
    re.IGNORECASE,
)
#: "5. row, the little holes: ch 4", "Row 5, the little holes: ch 4": its name behind a head.
_COMMA_NAMED = when_used(rf"^(?P<lead>\W*)(?:(?P<n>\d{{1,3}})\. (?P<word>{_ROW})|(?P<head>{_ROW} \d{{1,3}}))(?P<called>, (?:the |our |an? )?(?P<name>[a-z][a-z'-]*(?: [a-z][a-z'-]*){{0,2}})| \((?P<in>[^()]{{3,30}})\))?(?=:\s)", re.IGNORECASE)
_SLASHED = when_used(rf"/(\s*\d{{1,3}}\s+{_ROW}\s*)/(\s*[-\u2013]?)", re.IGNORECASE)
#: "Step 2 (Row 1): ..." and the steps beside it.
_STEP_ROW = when_used(rf"^(?P<step>\s*step\s+\d{{1,2}}\s*)\((?P<row>{_ROW}\s*\d{{1,3}})\)", re.IGNORECASE)
_STEP = when_used(r"^\s*step\s+\d{1,2}\s*[:.)-]", re.IGNORECASE)
#: "(2) Ch 1, ...", "(3)-(5) ...".
_BRACKETED = when_used(
    r"^(?P<lead>\s*)\((?P<a>\d{1,3})\)(?:(?P<dash>\s?-\s?)\((?P<b>\d{1,3})\))?(?=\s+[A-Za-z*(\[\d])"
)
#: "2nd: sc in ...".
_ORDERED = when_used(r"^(?P<lead>\s*)(?P<n>\d{1,3})(?:st|nd|rd|th)(?:(?P<dash>\s?[-\u2013]\s?|\s(?:to|and|&)\s)(?P<m>\d{1,3})(?:st|nd|rd|th))?(?=\s*:\s)", re.IGNORECASE)

#: "Ladder Set-Up Row:", "Mesh base round -": what kind of a first row it is.
_KIND_OF_BASE = when_used(
    rf"^(?P<lead>\W*)(?P<kind>(?:(?!(?:repeat|rep|after|before|in|on|at|of|the|work|end|for|as|this|each|every|until|same|and|with|note|your|our|from|to|last|next|begin|now|then)\b)[A-Za-z'-]+ ){{1,2}})(?=(?:set[- ]?up|foundation|base) {_ROW}\s*[:\u2013-])",
    re.IGNORECASE,
)
#: "Rnd 4 \u2013 Drawstring Round \u2013 ch 4, ...", "Row 6: armhole row. Work ...": what a row is called, behind its number.
_CALLED = when_used(
    rf"^(?P<head>\W*(?:{_ROW}\.? ?#?\d{{1,3}}(?:\s?(?:[-\u2013]|to|and|&)\s?\d{{1,3}})?|r\d{{1,3}})\s*)(?P<mark>[:.\u2013\u2014-])(?P<gap>\s+)(?:the |an? )?(?P<name>[a-z][a-z'-]*(?: [a-z][a-z'-]*){{0,2}}) {_ROW}(?:\s*$|(?P<end>\s*[:.\u2013-])(?=\s+(?:[(*\[]|ch\b|chain\b|work\b|with\b|join\b|in\b|sk\b|skip\b|miss\b|turn\b|sl\b|ss\b|make\b|\d? ?(?:sc|h?dc|h?tr|inc|dec)\b|\d{{1,2}} [a-z])))",
    re.IGNORECASE,
)
#: "For round one, chain 4": what stands before a head.
_FOR_ROW = when_used(rf"^(?P<lead>\W*)for (?=(?:the )?{_ROW} (?:\d{{1,3}}|{lexicon.NUMBER_WORDS}|one)\s*[,:])", re.IGNORECASE)
#: "Rounds 5-8 - sc around (30) - repeat 4 rows": behind a run of rows how many they are.
_RUN_COUNTED = when_used(
    rf"^(?P<head>\W*(?:{_ROW}|r)\s?(?P<a>\d{{1,3}})\s?(?:[-\u2013]|to|through|thru)\s?(?P<b>\d{{1,3}})\b.*?)(?P<again>(?:[-\u2013,.;]|(?<=[)\]]))\s*\(?(?:repeat|rep|repeating|do|work)(?: this| these)?(?: for)? (?P<n>\d{{1,3}}) (?:rows|rnds|rounds|times)\)?)(?=\W*$)",
    re.IGNORECASE,
)
#: A piece's name in capitals, with nothing behind it or a dash set against its work: "CENTER With red, ch 2", "STEM-ch 20".
_NAME = r"(?!(?:RS|WS|US|UK|ROWS?|RNDS?|ROUNDS?|NOTES?|TIPS?|DO|NOT|DON'T|WITH|USING|THEN|NEXT|NOW|AND|TURN|JOIN|CHANGE|FASTEN|FINISH|CUT|REPEAT|WORK|MAKE|CHAIN|SKIP|SWITCH|START|BEGIN|STEP|TO|FOR|IN|AT|ON|OFF)\b)[A-Z]{3,}(?![A-Za-z'])"
_PIECE = rf"^(?P<lead>\W*)(?P<name>{_NAME}(?: {_NAME}){{0,3}})"
_UNMARKED = when_used(_PIECE + r" (?=(?:With|Using|Chain|Ch|Make an?|Magic [rc]|Begin|Start|Join|Attach)\b(?! [A-Z]{3}))")
_DASHED = when_used(_PIECE + r"\s?[-\u2013\u2014]\s?(?=(?:[Cc]h(?:ain)?s?|[Ww]ith|[Uu]sing|[Jj]oin|[Aa]ttach|[Mm]ake|[Bb]egin|[Ss]tart|[Ww]ork)\b(?! [A-Z]{3}))")


_NUMBERED = when_used(r"^\s*\d{1,3}[.)]\s")


def one_form(line: str) -> str:
    """A line with its row's head in a usual form."""
    line = _POINTED.sub(lambda m: f"{m['lead'] or ''}{m['word']} ", line)
    line = _COLONS.sub(lambda m: f"{m['head']}:".ljust(len(m[0])), line)
    line = _COLON_TWICE.sub(r"\g<head> ", line)
    line = _POINTED_APART.sub(r"\1 ", line)
    line = _RUN.sub(lambda m: m["head"] + "-", line)
    line = _RUN_STROKE.sub(lambda m: m["head"] + "-" if int(m["b"]) == int(m["a"]) + 1 else m[0], line)
    line = _R_DASHED.sub(r"\g<lead> ", _ORDINAL_R.sub(lambda m: m["lead"] + ("w" if m["lead"][-2:].lower() == " r" else " "), line))
    line = _R_APART.sub(lambda m: f"{m['lead']}{m['r']}{m['n']}{' ' * len(m['gap'])}", line)
    line = _ELL.sub("1st", line)
    line = _APART.sub(r" \1\2", line)
    line = _ROMAN.sub(_from_roman, line)
    line = _WORDED.sub(_in_figures, line)
    line = _WORDS_LISTED.sub(_list_in_figures, line)
    line = _RUN_COUNTED.sub(_run_counted, line)
    line = _FOR_ROW.sub(lambda m: " " * len(m[0]), line)
    line = _KIND_OF_BASE.sub(lambda m: " " * len(m[0]), line)
    line = _COMMA_NAMED.sub(_without_comma_name, line)
    line = _CALLED.sub(_without_name, line)
    line = _UNMARKED.sub(r"\g<lead>\g<name>:", line)
    return _DASHED.sub(lambda m: f"{m['lead']}{m['name']}:".ljust(len(m[0])), line)


def _run_counted(found: re.Match[str]) -> str:
    """A run of rows without the words behind it that only say how many they are."""
    same = int(found["b"]) - int(found["a"]) + 1 == int(found["n"])
    return found["head"] + " " * len(found["again"]) if same else found[0]


def _without_name(found: re.Match[str]) -> str:
    """A row's head without what the row is called, unless that may be its work: "Row 3: dc row", "Rnd 5: increase round"."""
    words = found["name"].lower().split()
    work = any(word in _TELLS_WORK or lexicon.stitch_name(word, terms) for word in words for terms in ("US", "UK"))
    return found[0] if work else (found["head"] + ":").ljust(len(found[0]))


def _without_comma_name(found: re.Match[str]) -> str:
    """The same of a name behind a comma."""
    head = found["head"] or f" {found['word']} {found['n']}"
    if found["name"] is None:
        return f"{found['lead']}{head}{found['called'] or ''}"
    words = found["name"].lower().split()
    work = any(word in _TELLS_WORK or lexicon.stitch_name(word, terms) for word in words for terms in ("US", "UK"))
    return f"{found['lead']}{' ' * (len(found['called']) if not work else 0)}{head}{found['called'] if work else ''}"


#: Words that tell what a row works, or which row is meant.
_TELLS_WORK = frozenset(
    ("repeat", "rep", "repeating", "rpt", "same", "as", "like", "next", "last", "final", "first", "second", "third", "previous", "prev", "each",
     "every", "all", "any", "other", "another", "alternate", "work", "working", "make", "do", "follow", "skip", "sk", "miss", "turn", "join",
     "increase", "increasing", "inc", "decrease", "decreasing", "dec", "shell", "shells", "cluster", "clusters", "bobble", "bobbles", "popcorn",
     "popcorns", "puff", "puffs", "picot", "picots", "fan", "fans", "v-stitch", "v-st", "chain", "ch", "single", "double", "half", "treble", "triple",
     "crochet", "stitch", "st", "sts", "even", "plain", "one", "two", "three", "four", "of", "in", "to", "for", "with", "on", "at", "from", "and",
     "the", "this", "that", "continue", "change", "fasten", "front", "back", "post", "loop", "loops", "more", "further", "end", "beg")
)  # fmt: skip


def _word_behind(line: str, *, bare: bool) -> str:
    """ "4-6 rows unchanged" with the word before the numbers, or without it where the page numbers its rows so."""
    behind = _BEHIND.match(line)
    if not behind:
        return line
    head = f"{behind['lead']}{behind['run']}." if bare else f"{behind['lead']}{behind['word']} {behind['run']}"
    return head.ljust(behind.end()) + _SLASHED.sub(_as_length, line[behind.end() :])


def _as_length(found: re.Match[str]) -> str:
    return f"({found[1]})" + " " * len(found[2])


def _from_roman(found: re.Match[str]) -> str:
    number = _roman(found["n"].upper())
    return (found["head"].replace(".", " ") + str(number)).ljust(len(found[0])) if number else found[0]


def _roman(letters: str) -> int:
    """The value of a number in Roman letters; 0 where they are none.

    >>> _roman("XIV"), _roman("IIX")
    (14, 0)
    """
    found = re.fullmatch(r"(?P<tens>X{0,3})(?P<ones>IX|IV|V?I{0,3})", letters)
    tens, ones = (found["tens"], found["ones"]) if found else ("", "")
    small = {"IX": 9, "IV": 4}.get(ones, 5 * ones.count("V") + ones.count("I"))
    return 10 * len(tens) + small


def _in_figures(found: re.Match[str]) -> str:
    first = str(lexicon.number(found["a"].lower()))
    last = f"{found['dash']}{lexicon.number(found['b'].lower())}" if found["b"] else ""
    return (found["head"] + first + last).ljust(len(found[0]))


def _list_in_figures(found: re.Match[str]) -> str:
    said = re.sub(lexicon.NUMBER_WORDS, lambda m: str(lexicon.number(m[0].lower())), found["list"], flags=re.IGNORECASE)
    return (found["head"] + said).ljust(len(found[0]))


def listed(lines: list[str]) -> list[str]:
    """The lines of a page that numbers its rows in one odd way throughout, its numbers in a usual form."""
    bare = sum(bool(_NUMBERED.match(line)) for line in lines) > 1
    out = [_word_behind(line, bare=bare) for line in lines]
    for pattern, put in ((_BRACKETED, _bare), (_ORDERED, _bare)):
        numbers = [int(m["n"] if "n" in m.groupdict() else m["a"]) for line in out if (m := pattern.match(line))]
        if numbers[:2] in ([1, 2], [2, 3]):
            out = [pattern.sub(put, line) for line in out]
    if any(_STEP_ROW.match(line) for line in out):
        rows = (_STEP_ROW.sub(lambda m: " " * len(m["step"]) + " " + m["row"] + " ", line) for line in out)
        out = [_STEP.sub(lambda m: " " * len(m[0]), line) for line in rows]
    return out


def _bare(found: re.Match[str]) -> str:
    said = found.groupdict()
    if "n" in said:
        more = f"{said['dash']}{said['m']}" if said["m"] else ""
        return f"{said['lead']}{said['n']}{more}".ljust(len(found[0]))
    last = f"{said['dash']}{said['b']}" if said["b"] else ""
    return f"{said['lead']} {said['a']}{last})".rjust(len(found[0]))
