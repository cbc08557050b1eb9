"""The marks of layout on a page (bullets, bold, tables, check boxes) blotted out, so that places in the line stay."""

from __future__ import annotations

import re
from itertools import pairwise

from .. import lexicon
from ..head_forms import listed, one_form
from ..misread import put_right
from ..notation.plain import plain
from ..notation.words import vocabulary
from ..turned_heads import dashes_told, founded, run_in, told_in_prose, turned
from ..when_used import when_used
from .telling import workish

_BULLET = when_used(r"^\s*(?:>\s*)?(?:[-•▪◦●○☐☑☒✓✔✅·–—►▶➤→»]|\[[ x]?\])\s*(?=\S)(?!-)")


def bullet(line: str) -> str:
    """The mark that a line of a list begins with; "" where there is none.

    >>> bullet("- Join"), bullet("Join")
    ('-', '')
    """
    found = _BULLET.match(line)
    return found[0].strip() if found else ""


_STAR_BULLET = when_used(r"^\s*\*\s+(?=\S)")
#: "*Go on with Row 2 until ...": a star before a sentence.
_STAR_NOTE = when_used(r"^\s*\*(?=[A-Z])")
_HASHES = when_used(r"^\s*#{2,6}\s+")
#: Not "**2 dc in next st, rep from **", whose second mark sends back to the first.
_BOLD = when_used(r"(\*\*|__)(?=\S)([^*_]{1,80}?)(?<!from )(?<!from the )(\1)")
_TABLE = when_used(r"^\s*\|(.+)\|\s*$")
_RULE = when_used(r"^[\s|:=_~*+.#-]*$")
_HEAD = when_used(r"(?:rows?|rnds?|rounds?|rds?|r)\s*#?\d|^\d+(?:st|nd|rd|th)\s+(?:row|rnd|round)", re.IGNORECASE)
_LINK = when_used(r"\[([^\]]{1,80})\]\((https?:[^)]*)\)")
_ARROW = when_used("[\u2190-\u21ff\u279c-\u27be\u2b05-\u2b07\u27f5-\u27ff]\ufe0f?|[=-]+>(?=\\s*\\d)")
_RANGE_ARROW = when_used("(?<=\\d)(?:\u2192|\u27a1\ufe0f?|[=-]+>)(?=\\d)")
_ORNAMENT = when_used("[\u2600-\u2604\u2606-\u2612\u2614-\u27bf\u2b50-\u2b55\ufe00-\ufe0f\U0001f000-\U0001faff]")
_MEANT = frozenset("★☆✓✔✕✖✗✽✱✲❊")
_COUNTED = r"\d{1,4}\s?(?:sts?|stitches|sc|hdc|dc|htr|tr|total)?(?: total)?"
_ODD_COUNT = when_used(rf"(?<=[\s.,;)])(?P<open>[/<~|*\u00ab\u2039])\s*(?P<n>{_COUNTED})\s*(?P<close>[/>~|*\u00bb\u203a])(?=\W*$)", re.IGNORECASE)
#: "<18, 24>": the counts of a run's rows.
_LISTED = when_used(r"(?<=[\s.,;)])<(?P<n>\d{1,4}(?:, ?\d{1,4})+)>(?=\W*$)")
#: "{{16 dc}}", "((16 dc, 16 sps))": a count in doubled brackets.
_DOUBLED = when_used(r"(?<=[\s.,;)])(?P<open>\(\(|\[\[|\{\{|<<)(?P<n>\s?\d[^(){}\[\]<>*]{0,60})(?:\)\)|\]\]|\}\}|>>)(?=\W*$)")
_UNCLOSED = when_used(rf"(?<=[\s.,;])(?P<open>[(\[])(?P<n>{_COUNTED})(?P<end>\.?\s*)$", re.IGNORECASE)


#: "Rnd 1 \u2022 6 sc in ring": a dot behind a row's number.
_HEAD_DOT = when_used(r"^(?P<head>\W{0,3}(?:rnd|round|row|rd|r)\.? ?\d{1,3}(?: ?[-\u2013] ?\d{1,3})?) ?[\u2022\u00bb\u00b7\u25aa\u25ba\u25b8\u25cf](?= )", re.IGNORECASE)


def _counts_bracketed(line: str) -> str:
    """A count at a line's end between strokes or stars ("/24/", "<24>", "* 24 sts *"), in doubled brackets, or in a bracket
    that nothing closes, is one in brackets."""
    line = _LISTED.sub(lambda m: f"({m['n']})", line)
    line = _DOUBLED.sub(lambda m: f" ({m['n']}) ", line)
    odd = None if line.lstrip().startswith("|") else _ODD_COUNT.search(line)
    alone = odd and (odd["open"] != "*" or line.count("*") == 2)
    if odd and alone and (odd["open"], odd["close"]) in (("/", "/"), ("<", ">"), ("~", "~"), ("|", "|"), ("*", "*"), ("\u00ab", "\u00bb"), ("\u2039", "\u203a")):
        return line[: odd.start("open")] + "(" + line[odd.end("open") : odd.start("close")] + ")" + line[odd.end() :]
    return line


def _closed(line: str, following: str) -> str:
    """A count at a line's end whose bracket neither this line nor the next one closes, in brackets."""
    cut = _UNCLOSED.search(line)
    if cut and ")" not in following.split("(")[0] and "]" not in following.split("[")[0] and line.count(cut["open"]) == line.count(")" if cut["open"] == "(" else "]") + 1:
        return line[: cut.end("n")] + (")" if cut["open"] == "(" else "]") + line[cut.end("n") + 1 :]
    return line


#: "s.s.", "h.tr.", "d.tr".
_DOTTED_TOO = when_used(r"(?<![A-Za-z])(?P<a>[sS]|[hH]|[dD]|[tT][rR])\. ?(?P<b>(?<=[sS]\.)[sS]|(?<=[sS]\. )[sS]|(?<![sS]\.)(?<![sS]\. )[tT][rR])\b\.?")
#: "ch-one sp", "chain-three loop".
_WORDED_RUN = when_used(r"\b(?P<ch>ch(?:ain)?-)(?P<n>one|two|three|four|five|six|seven|eight|nine|ten)\b(?P<sp>[ -](?:sps?|spaces?|lps?|loops?|arch(?:es)?)\b)?", re.IGNORECASE)
#: "Top of t.ch.": the turning chain.
_DOTTED_TURN = when_used(r"(?<![A-Za-z.])[tT]\. ?[cC][hH]\b\.?(?=\W|$)")
_DOTTED = when_used(r"(?<![A-Za-z])([dDsStThH]|[Hh]\.? ?[dD]|[dD][bB][lL]|[sS]\.? ?[dD])\. ?([cC])\b\.?")
_STOPPED = when_used(
    r"\b(ch|chs|st|sts|sp|sps|tr|dc|sc|hdc|htr|dtr|sk|rep|rnd|rnds|lp|lps|beg|rem|inc|dec|foll|cont|patt|pat|tog|yo|sl|ss|lps|incl|approx|prev|alt|fr|frm|ea|nxt|bet|betw|sep|fol|opp|cor|bl|cl|pc|Ch|Sc|Dc|Hdc|Tr|Sk|St|Rep)\.(?=\s+(?:[a-z&*]|\d(?:st|nd|rd|th)\b)|\s*[,;:)])"
)

#: "Sk ch.2 sp", "(ch.1, sc)": a chain's number behind its stop; not "in last ch.2 dc in".
_STOPPED_RUN = when_used(r"(?<![A-Za-z])(?P<ch>[Cc][Hh])\.(?P<n>\d{1,2})(?![\d\w])(?! ?(?:sc|hdc|dc|htr|tr|dtr|sts?|stitch)\b)")


def _undotted(line: str) -> str:
    """ "1 d.c. in 2nd ch. from hook": abbreviations without their points, places kept."""
    line = _DOTTED_TURN.sub(lambda m: "tch".ljust(len(m[0])), line)
    line = _DOTTED.sub(lambda m: (re.sub(r"[. ]", "", m[1]) + m[2]).ljust(len(m[0])), line)
    line = _DOTTED_TOO.sub(lambda m: (m["a"] + m["b"]).ljust(len(m[0])), line)
    line = _STOPPED_RUN.sub(r"\g<ch> \g<n>", line)
    line = _WORDED_RUN.sub(lambda m: f"{m['ch']}{lexicon.number(m['n'].lower())}{m['sp'] or ''}".ljust(len(m[0])), line)
    return _STOPPED.sub(lambda m: m[1] + " ", line)


_GLOSS = when_used(r"(?<![A-Za-z])(?P<long>[A-Za-z]+(?: [A-Za-z]+){0,2}) (?P<gloss>\((?P<short>[A-Za-z]{1,4}(?: st)?)\))(?!\s*(?:[:=\u2013-]|$))")


def _without_gloss(found: re.Match[str]) -> str:
    """ "Chain (ch) 4", "slip stitch (sl st)": a name with its abbreviation behind it is one word."""
    short, words = plain(found["short"]), plain(found["long"]).split()
    kinds = {kind for kind, _ in vocabulary().get(short, ())}
    for count in range(len(words), 0, -1):
        said = " ".join(words[-count:])
        alike = any(
            said in lexicon.long_names(terms) and lexicon.long_names(terms)[said] == lexicon.stitch_name(short, terms)
            for terms in ("US", "UK")
        )
        if alike or kinds & {kind for kind, _ in vocabulary().get(said, ())}:
            return found[0][: -len(found["gloss"])] + " " * len(found["gloss"])
    return found[0]


def _without_glosses(line: str) -> str:
    return _GLOSS_BEHIND.sub(_without_long_name, _GLOSS.sub(_without_gloss, line))


_GLOSS_BEHIND = when_used(r"(?<![A-Za-z])(?P<short>[A-Za-z]{2,6}) (?P<gloss>\((?P<long>[A-Za-z]+(?: [A-Za-z]+){1,4})\))(?=[ ,;.]*[A-Za-z0-9])")


def _without_long_name(found: re.Match[str]) -> str:
    """ "fsc (foundation single crochet) 20 sts": an abbreviation with its name in full behind it is one word."""
    short, said = plain(found["short"]), plain(found["long"])
    for terms in ("US", "UK"):
        name = lexicon.stitch_name(short, terms)
        if name is not None and name in lexicon.named_in_full(said, terms):
            return found["short"].ljust(len(found[0]))
    return found[0]


_SPLIT_HEAD = when_used(
    r"\s*(?:rows?|rnds?|rounds?)\s*\n\s*\d+(?:\s*(?:[-–—&]|to|and)\s*\d+)?\s*[:.)]|.*\b\d+(?:st|nd|rd|th),?\s*\n\s*(?:rows?|rnds?|rounds?)\b"
    r"|\s*\d+(?:st|nd|rd|th),?\s*\n\s*(?:(?:&|and)\s*)?\d+(?:st|nd|rd|th)\b[^.:]{0,30}\b(?:rows|rnds|rounds)\b",
    re.IGNORECASE,
)


#: "... join. (16) Rnd" / "3: Ch 1, ...": a head broken behind its word, at the end of another row's line.
_HEAD_BEGUN = when_used(r"(?P<before>.*[.!)\]])\s+(?P<word>rows?|rnds?|rounds?)\s*$", re.IGNORECASE)
_HEAD_GOES_ON = when_used(r"\s*\d{1,3}(?:\s*(?:-|\u2013|to|and)\s*\d{1,3})?\s*[:.]\s")


#: "Crossed hdc:" alone on a line, and the numbered steps below it by which the hook makes the stitch.
_STITCH_NAMED = when_used(r"\s*(?:[-*\u2022]\s*)?(?!(?:row|rnd|round|step|part|section)s?\b)(?P<name>[a-z][a-z0-9 /-]{1,40}?(?: ?\([a-z0-9 /-]{1,20}\))?)\s*[:\u2013-]\s*$", re.IGNORECASE)
_FIRST_STEP = when_used(r"\s*(?:step )?1[.):]\s*(?:yo\b|yarn over|wrap|insert|place hook|put hook|(?:with|holding)\b[^.]{0,30}\binsert)", re.IGNORECASE)
_A_STEP = when_used(r"\s*(?:step )?(?P<n>\d{1,2})[.):]\s*(?P<said>\S.*?)[\s.;,]*$", re.IGNORECASE)


def steps_joined(lines: list[str]) -> list[str]:
    """The lines with a stitch that numbered steps explain below its name told in that one line, theirs left empty.

    >>> steps_joined(["Xsc:", "1. Insert hook, pull up a loop.", "2. Yo, pull through both loops.", "Ch 9"])
    ['Xsc: insert hook, pull up a loop, yo, pull through both loops', '', '', 'Ch 9']
    """
    out = list(lines)
    for at in range(len(out) - 2):
        named = _STITCH_NAMED.match(out[at]) if _FIRST_STEP.match(out[at + 1]) else None
        told: list[str] = []
        while named and at + 1 + len(told) < len(out) and (step := _A_STEP.match(out[at + 1 + len(told)])):
            if int(step["n"]) != len(told) + 1:
                break
            told.append(step["said"][0].lower() + step["said"][1:])
        if named and len(told) > 1:
            out[at : at + 1 + len(told)] = [f"{named['name']}: {', '.join(told)}", *([""] * len(told))]
    return out


#: "... to form a ring. Rnd 1:", whose words stand on the next line.
_HEAD_AT_END = when_used(r"(?P<before>.*[.;!)\]])\s+(?P<head>(?:Rnd|RND|Round|ROUND|Row|ROW|Rd)s?\.? ?#?\d{1,3}\s?[:\u2013-])\s*$")


def heads_joined(lines: list[str]) -> list[str]:
    """The lines with a head that was broken over two of them ("Round" / "2: ...", "6TH" / "ROW: ...") on the first, the
    second left empty."""
    out = list(lines)
    for at in range(len(out) - 1):
        broken = _HEAD_BEGUN.match(out[at]) if _HEAD_GOES_ON.match(out[at + 1]) else None
        last = _HEAD_AT_END.match(out[at]) if out[at + 1].strip() and not _HEAD.match(out[at + 1].lstrip("*_ ")) else None
        if last:
            out[at], out[at + 1] = last["before"], f"{last['head']} {out[at + 1].lstrip()}"
        elif broken:
            out[at], out[at + 1] = broken["before"], f"{broken['word']} {out[at + 1].lstrip()}"
        elif out[at + 1].strip() and len(out[at]) < LONGEST_BROKEN and _SPLIT_HEAD.match(f"{out[at]}\n{out[at + 1]}"):
            out[at], out[at + 1] = f"{out[at].rstrip()} {out[at + 1].lstrip()}", ""
    return out


#: A line that does not end its sentence, and one that goes on with it.
_UNENDED, _GOES_ON = when_used(r".*[\w,;*(\[-]\s*"), when_used(r"\s*(?!row|rnd|round)[a-z(\[\d]")
#: So many lines or more, and such a part of them goes on in mid-sentence, where a page has an empty line behind each.
_LEAST_SPACED, _PART_CUT = 8, 0.3


def line_spacing(lines: list[str]) -> frozenset[int]:
    """The empty lines of a page that has one behind each of its lines, sentences cut wherever a line was full: those part
    nothing. None where an empty line parts paragraphs.

    >>> sorted(line_spacing(["Sc in next", "", "st, then turn", "", "and go", "", "on.", ""] * 2))[:3]
    [1, 3, 5]
    """
    told = [at for at, line in enumerate(lines) if line.strip()]
    gaps = [(above, below) for above, below in pairwise(told)]
    single = [(above, below) for above, below in gaps if below - above == 2]
    cut = [1 for above, below in single if _UNENDED.fullmatch(lines[above]) and _GOES_ON.match(lines[below])]
    close = sum(below - above == 1 for above, below in gaps)
    if len(told) < _LEAST_SPACED or close > len(gaps) // 8 or len(cut) < _PART_CUT * len(gaps):
        return frozenset()
    return frozenset(above + 1 for above, _ in single)


#: "Puff stitch (ps):", "Hhdc:", alone on a line: a stitch that the lines below tell.
_NAME_ALONE = when_used(
    r"\W{0,3}(?!rows?\b|rnds?\b|rounds?\b|rds?\b|r\d|notes?\b|tips?\b|abbrev|special|pattern\b|materials?\b|steps?\b|instructions?\b)"
    r"(?P<name>[a-z][a-z'-]*(?: [a-z0-9'-]+){0,5}(?:\s*[(\[][a-z0-9 -]{1,12}[)\]])?)\s*[:=\u2013-]\s*",
    re.IGNORECASE,
)
#: A move of the hook that a line begins with, behind the number of a step.
_MOVE = when_used(
    r"\s*(?:(?:step )?\d{1,2}\s?[.):-]+\s*|[-\u2022]\s+)?(?P<move>\*?\s?(?:(?:then|next|again|now),? )?(?:yo\b|yrh\b|yoh\b|yarn (?:over|round|around)|wrap|insert|draw|pull|drop|remove)\b.*)",
    re.IGNORECASE,
)
_MOST_MOVES = 9


def moves_joined(lines: list[str]) -> list[str]:
    """The lines with a stitch that is told move by move below its name on the name's line, those left empty.

    >>> moves_joined(["Puff:", "1. Yo, insert hook in st", "2. Pull up a loop.", "Ch 9."])
    ['Puff: Yo, insert hook in st. Pull up a loop.', '', '', 'Ch 9.']
    """
    out = list(lines)
    for at, line in enumerate(lines):
        name = _NAME_ALONE.fullmatch(line)
        moves: list[str] = []
        for below in lines[at + 1 : at + 1 + _MOST_MOVES] if name else ():
            found = _MOVE.fullmatch(below)
            if found is None:
                break
            moves.append(found["move"].strip())
        if name and len(moves) > 1 and any("insert" in move.lower() for move in moves):
            said = [move if move[-1] in ".,;" else f"{move}." for move in moves]
            out[at : at + 1 + len(moves)] = [f"{name['name']}: {' '.join(said)}", *("" for _ in moves)]
    return out


#: "R 2.", "Rnd. 2 :", "R #2:": heads with a space, a stop or a sign before their number.
_ODD_HEAD = when_used(r"(?<![\w.])(?P<word>r|rnd|rd|row|round)(?P<gap>\.? ?#|\. |(?<=r) )(?P<n>\d{1,3})(?P<mark>\s?(?:[:.)]|-(?=\s)))(?=[\s*])", re.IGNORECASE)


def heads_evened(lines: list[str]) -> list[str]:
    """The lines with heads that are spelled with a space, a stop or a sign before their numbers as others are, no letter
    shifted; only in the middle of lines, and there those before a stop only where they count on.

    >>> heads_evened(["R #1: 6 sc in ring. R #2: 2 sc in each."])
    ['R1  : 6 sc in ring. R2  : 2 sc in each.']
    """
    found = [(m, line) for line in lines for m in _ODD_HEAD.finditer(line)]
    numbers = [int(m["n"]) for m, _ in found]
    inside = any(line[: m.start()].strip(" *_") for m, line in found)
    counts_on = len(numbers) > 1 and all(0 < after - before < 3 for before, after in pairwise(numbers))
    if not inside or not (counts_on or all(m["mark"][-1] == ":" for m, _ in found)):
        return lines
    return [_ODD_HEAD.sub(lambda m: f"{m['word']}{'' if len(m['word']) == 1 else ' '}{m['n']}".ljust(len(m[0]) - 1) + m["mark"][-1], line) for line in lines]


def _star_comes_again(lines: list[str]) -> bool:
    """Whether lines below one that begins with a star say "rep from *" before an empty line, a head or another star."""
    for line in lines[:MOST_CARRIED_LINES]:
        if not line.strip() or _HEAD.match(line.lstrip("*_ ")) or _STAR_BULLET.match(line):
            return False
        if _FROM_STAR.search(line):
            return True
    return False


#: "rep from *", "repeat between *".
_FROM_STAR = when_used(r"\b(?:rep(?:eat)?(?:ing|s)?|rpt)\b\.?\s*(?:\d+ (?:more )?times )?(?:from|between|bet\.?)?\s*\*", re.IGNORECASE)
MOST_CARRIED_LINES, LONGEST_BROKEN = 12, 60
#: "Row Thirteen:", "Rounds Three thru Eight.": numbers in words in a row's head.
_WORDED_HEAD = when_used(
    rf"(?P<head>(?:^|(?<=[.!)\]]\s)|(?<=[.!)\]]\s\s))\s*(?:rows?|rnds?|rounds?)\s+)(?P<a>{lexicon.NUMBER_WORDS}|one)"
    rf"(?:(?P<dash>\s*(?:-|\u2013|to|thru|through|and|&)\s*)(?P<b>{lexicon.NUMBER_WORDS}))?(?=\s*(?:\([^)]*\)\s*)?[:.,\u2013-])",
    re.IGNORECASE,
)


#: "Fi rst", "stuffi ng": letters that were set as one and parted where the page was read.
_PARTED = when_used(r"\b(?P<a>[A-Za-z]{0,5}(?:ffi|ffl|fi|fl|ff)) (?P<b>[a-z]{1,7})\b")
_PARTED_WORDS = frozenset(
    ("first", "finish", "finished", "finishing", "fifth", "fifteen", "fifty", "five", "fill", "filled",
     "filling", "firm", "firmly", "finger", "fingering", "final", "finally", "figure", "flat", "flatten",
     "flap", "flower", "flowers", "flip", "float", "floss", "fluff", "stuff", "stuffed", "stuffing", "off",
     "offset", "different", "fits", "fit", "field", "filet")
)  # fmt: skip


def _mended(found: re.Match[str]) -> str:
    """A word whose parted letters are joined, as long as before."""
    whole = found["a"] + found["b"]
    return whole.ljust(len(found[0])) if whole.lower() in _PARTED_WORDS else found[0]


def _figured(found: re.Match[str]) -> str:
    """A row's head with its numbers in figures, as long as before."""
    first = str(lexicon.number(plain(found["a"])))
    last = found["dash"] + str(lexicon.number(plain(found["b"]))) if found["b"] else ""
    return (found["head"] + first + last).ljust(len(found[0]))


#: "2sc ss in each stitch": that many in the same stitch, in each; "ss" is no slip stitch on such a page.
_IN_SAME = r"\b2 ?(?P<st>sc|hdc|dc|htr|tr) (?:in )?(?:ss|s/s|same st(?:itch)?)\b"
_SAME_IN_EACH = when_used(rf"{_IN_SAME} in(?:to)? (?:each|every)\b", re.IGNORECASE)
_TWO_IN_SAME = when_used(_IN_SAME, re.IGNORECASE)


def increases_told(lines: list[str]) -> list[str]:
    """The lines with "2sc ss" as "sc inc", no letter shifted, where the page works it in each stitch.

    >>> increases_told(["2sc ss in each st.", "2sc ss, sc 3x"])
    ['sc inc in each st.', 'sc inc, sc 3x']
    """
    if not any(_SAME_IN_EACH.search(line) for line in lines):
        return lines
    return [_TWO_IN_SAME.sub(lambda m: f"{m['st']} inc".ljust(len(m[0])), line) for line in lines]


def unmarked(lines: list[str]) -> list[str]:
    """The lines with their marks of layout blotted out, each as long as before. A rule line becomes blank."""
    lines = increases_told(lines)
    lines = [run_in(founded(line)) for line in dashes_told(turned(told_in_prose(put_right(lines))))]
    lines = listed(lines)
    following, before = [*lines[1:], ""], ["", *lines[:-1]]
    carried = [
        bool(_CARRIED.search(above)) or (bool(_STAR_BULLET.match(line)) and _star_comes_again(lines[at + 1 : at + 1 + MOST_CARRIED_LINES]))
        for at, (above, line) in enumerate(zip(before, lines, strict=True))
    ]
    return [
        _closed(_without_glosses(_undotted(_line(line, carried=goes_on))), after)
        for line, after, goes_on in zip(lines, following, carried, strict=True)
    ]


#: A line that ends so goes on in the next: a star there is a repeat's.
_CARRIED = when_used(r"\b(?:from|rep|repeat|between|to|and|the)\s*$", re.IGNORECASE)
_QUOTED_STAR = when_used("['\"\u2018\u2019\u201c\u201d](\\*+)['\"\u2018\u2019\u201c\u201d]")
#: Work in the "hump".
_QUOTED_WORD = when_used("(?<![\\w\"])[\"\u201c\u2018]([A-Za-z]{3,12})[\"\u201d\u2019](?!\\w)")
#: "Next "V" st": the letter is part of the name.
_QUOTED_V = when_used("[\"\u201c\u2018]([Vv])[\"\u201d\u2019](?:[ -]?)(?=st)", re.IGNORECASE)
#: "Sl st in next ch 1 skip space": the space over a stitch passed over.
_OVER_SKIPPED = when_used(
    r"(?P<before>\b(?:next|each|first|last|same|into|in|any|every|of) (?:ch(?:ain)?[- ]?\d{1,2}|\d{1,2}[- ]?ch(?:ain)?) )(?P<over>sk|skip|skipped|missed)(?=[ -](?:sps?|spaces?|lps?|loops?)\b)",
    re.IGNORECASE,
)
#: "2 sc [dc] in next st": a stitch by its names in both systems.
_TWICE_NAMED = when_used(r"\b(?P<a>sc|hdc|htr|dc|tr|dtr)(?P<b>\s?[\[(](?P<other>sc|hdc|htr|dc|tr|dtr|trtr)[\])])", re.IGNORECASE)


def _named_once(found: re.Match[str]) -> str:
    a, other = found["a"].lower(), found["other"].lower()
    same = other in (lexicon.US_TO_UK.get(a), lexicon.UK_TO_US.get(a))
    return found["a"] + " " * len(found["b"]) if same else found[0]


_HYPHENED = when_used(r"\b(corner|shell|fan)-(sps?|spaces?|sts?|stitch(?:es)?)\b|\b(single|half|double|treble|triple|trip)-(double|treble|trebles|triple|crochets?|tr)\b", re.IGNORECASE)
#: "... = 12 sc Note: mark the first one": a sentence of its own with no stop before it.
_NOTED = when_used(r"(?<=[A-Za-z0-9]) (?=(?:Note|NOTE|Tip|TIP|Hint|HINT|NB|N\.B\.)\s?:)")
#: "With any Color\u2014Ch 5, join": a dash behind the yarn.
_YARN_DASH = when_used(
    r"(?P<yarn>^\s*(?:with|using) (?:[A-Za-z]+ ){0,2}[A-Za-z]+)\s?[\u2013\u2014-]+\s?(?=(?:ch(?:ain)?s?|make|join|work|begin|start)\b)", re.IGNORECASE
)
#: "... under the handle :)", where no bracket was opened.
_SMILE = when_used(r"(?<![\w)])[:;]['-]?\)+(?!\w)")
#: "... in each sc.....17 sc", "... in each sc .. .. 17": dots that lead to a count.
_MANY_DOTS = when_used(r"(?:\.{4,}|\.{2,}(?: \.{2,})+)(?=\s?\d)")
#: "Join 6 chains to a ring", "make a circle of 8 ch": a ring by the chains it is made of.
_RING_OF = when_used(
    r"\b(?:(?:join|close|connect) (?P<n>\d{1,2}) ?(?:ch|chs|chains?|chain st(?:itche)?s) (?:to|into|in) (?:an? |the )?(?:ringt?|circle|loop)"
    r"|(?:(?:form|make|crochet|work) )?(?:an? |the )?(?:ring|circle) (?:of|with|from|out of) (?P<m>\d{1,2}) ?(?:ch|chs|chains?|chain st(?:itche)?s))\b(?=\s*(?:[,.;]|and\b|then\b|$))",
    re.IGNORECASE,
)


def _ring_begun(found: re.Match[str]) -> str:
    """A ring by its chains as "ch 6, join in ring", as long as before; as it is where there is no room."""
    said = f"ch {found['n'] or found['m']}, join in ring"
    return said.ljust(len(found[0])) if len(said) <= len(found[0]) else found[0]


#: "Repeat row (2)", "as rounds (3) and (4)": the numbers of rows in brackets.
_ROWS_BRACKETED = when_used(
    r"\b(?:rep(?:eat)?|rpt|as|like|as in|same as|work|from)\.? (?:the )?(?:rows?|rnds?|rounds?) ?\(\d{1,3}\)(?: ?(?:-|to|and|&|,) ?\(\d{1,3}\))?", re.IGNORECASE
)
#: "Rows 3 ? 7": a dash that was lost on the way.
_LOST_DASH = when_used(r"(?<=\d)(\s?)\?(?=\s?(?:rows?|rnds?|rounds?)?\s?\d)", re.IGNORECASE)


def _line(line: str, *, carried: bool = False) -> str:
    if not line.strip():
        return line
    line = one_form(line)
    line = _YARN_DASH.sub(lambda m: m["yarn"] + ",".ljust(len(m[0]) - len(m["yarn"])), line)
    if line.count(")") > line.count("("):
        line = _SMILE.sub(lambda m: " " * len(m[0]), line)
    line = _MANY_DOTS.sub(lambda m: "...".ljust(len(m[0])), line)
    line = _NOTED.sub(".", line)
    line = _QUOTED_WORD.sub(r" \1 ", line)
    line = _QUOTED_V.sub(lambda m: f"{m[1]}-".rjust(len(m[0])), line)
    line = _OVER_SKIPPED.sub(lambda m: m["before"] + " " * len(m["over"]), line)
    line = _TWICE_NAMED.sub(_named_once, line)
    line = _QUOTED_STAR.sub(lambda m: f" {m[1]} ", line)
    line = _HYPHENED.sub(lambda m: m[0].replace("-", " "), line)
    line = _PARTED.sub(_mended, line)
    line = _WORDED_HEAD.sub(_figured, line)
    line = _RING_OF.sub(_ring_begun, line)
    line = _ROWS_BRACKETED.sub(lambda m: m[0].replace("(", " ").replace(")", " "), line)
    line = _LOST_DASH.sub(r"\1-", line)
    if _RULE.match(line):
        return " " * len(line)
    line = _RANGE_ARROW.sub(lambda m: "-".ljust(len(m[0])), line)
    line = _HEAD_DOT.sub(lambda m: f"{m['head']}:".ljust(len(m[0])), line)
    line = _ARROW.sub(lambda m: "=".ljust(len(m[0])), line)
    line = _ORNAMENT.sub(lambda m: m[0] if m[0] in _MEANT else " ", line)
    line = _counts_bracketed(line)
    if _TABLE.match(line):
        line = _row_of_table(line)
    elif _OPEN_TABLE.match(line):
        line = _row_of_open_table(line)
    bulleted = False
    for pattern in (_HASHES, _BULLET):
        found = pattern.match(line)
        bulleted = found is not None and pattern is _BULLET
        if found:
            line = " " * found.end() + line[found.end() :]
    note = None if carried else _STAR_NOTE.match(line)
    if note and "*" not in line[note.end() :] and not workish(plain(line[note.end() :])):
        line = " " * note.end() + line[note.end() :]
    star = None if carried else _STAR_BULLET.match(line)
    if star and (_HEAD.match(line[star.end() :].lstrip("*_ ")) or (not bulleted and "rep" not in line.lower() and line.count("*") == 1)):
        line = " " * star.end() + line[star.end() :]
    line = _LINK.sub(lambda m: " " + m[1] + " " * (len(m[0]) - len(m[1]) - 1), line)
    return _BOLD.sub(_bold, line)


def _bold(found: re.Match[str]) -> str:
    """Bold words: heads, labels, and anything that is no repeat."""
    words = found[2]
    if "," in words and not _HEAD.match(words.strip()) and not words.strip().endswith(":"):
        return found[0]
    return "  " + words + "  "


#: "4", "6-9": the first cell of a row of a table.
_NUMBERED_CELL = when_used(r"\s*#?\d{1,3}(?:\s*(?:-|\u2013|to)\s*\d{1,3})?[.)]?\s*")


def _row_of_table(line: str) -> str:
    """ "| Row 1 | Sc ... | 20 |": the head with a colon, the last cell as a count where it is one."""
    cells = line.strip().strip("|").split("|")
    out = list(line)
    bars = [i for i, c in enumerate(line) if c == "|"]
    for at in bars:
        out[at] = " "
    if len(cells) >= 2 and len(bars) >= 2 and (_HEAD.match(cells[0].strip()) or _NUMBERED_CELL.fullmatch(cells[0])):
        out[bars[1]] = ":"
    last = cells[-1].strip()
    if (
        len(cells) >= 3
        and re.fullmatch(r"\(?\d+(?:\s*[a-z]+)?\)?", last.lower())
        and len(bars) >= 3
        and not last.startswith("(")
    ):
        out[bars[-2]], out[bars[-1]] = "(", ")"
    return "".join(out)


#: "4-6 | sc around | 18": a row of a table without its outer strokes.
_OPEN_TABLE = when_used(r"\s*(?:(?:rows?|rnds?|rounds?|rds?|r)\s*)?#?\d{1,3}(?:\s?[-\u2013]\s?\d{1,3})?\s*\|[^|]{6,}(?:\|[^|]*)*$", re.IGNORECASE)
_LAST_CELL = when_used(r"\|(?P<gap>\s*)(?P<n>\d{1,4})\s*(?:sts?|sc)?\s*$", re.IGNORECASE)


def _row_of_open_table(line: str) -> str:
    last = _LAST_CELL.search(line)
    if last and line.count("|") > 1 and last["gap"]:
        line = line[: last.start()] + (" " * (len(last["gap"]) - 1) + f"({last['n']})").ljust(len(last[0]))[: len(last[0])] + line[last.end() :]
    return line.replace("|", ":", 1).replace("|", " ")


def table_head(line: str) -> bool:
    """Whether a line is the head of a table: "| Row | Instruction | Count |"."""
    cells = [c.strip().lower() for c in line.strip().strip("|").split("|")]
    return "|" in line and cells[0] in ("row", "rnd", "round", "#", "rows", "rounds", "no", "no.")
