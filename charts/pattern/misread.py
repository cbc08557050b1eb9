"""Letters that were read wrong from a printed page, put right: each line stays as long."""

from __future__ import annotations

import re

from .when_used import when_used

_STITCH_SIGN = r"(?:sts?|sc|hdc|dc|htr|tr|dtr|trtr|ch|sl|ss|sp|sk)"
#: "l st", "Itr", "Row l", "ch l", "(l6": a one that was misread as a letter.
_ONE = when_used(
    rf"(?<![A-Za-z0-9'’-])(?:[lI](?=\s(?:{_STITCH_SIGN}|se|[sdh] c|tr c|[sh] ?d c)\b|\d)|I(?={_STITCH_SIGN}\b))|(?<=\b[Rr]ow )[lI]\b|(?<=\b[Rr]nd )[lI]\b|(?<=\b[Rr]ound )[lI]\b"
    rf"|(?<=\b[Cc]h )[lI](?=\s*[,;.):])"
)
#: "16 se", "se in 2nd ch", "each se": an sc whose last letter was misread.
_SC = when_used(r"(?<=\d )se\b|\bse(?= in(?:to)? )|(?<=\beach )se\b|(?<=\bnext )se\b|(?<=\blast )se\b|(?<=\bfirst )se\b|(?<=\b1st )se\b|(?<=\bbeg )se\b|(?<=\bsame )se\b|(?<=\bchs )se\b")
#: A page that says of itself what "se" is.
_SE_TOLD = when_used(r"^\W*[Ss][Ee]\s*[=:(\u2013-]")
#: "next Ip", "ch-5 1ps": a loop whose first letter was misread.
_LOOP = when_used(r"(?<![A-Za-z0-9-])[I1](?=ps?(?![A-Za-z0-9]))")
#: "ch-S lp", "ch-l sp": a chain's number that was misread.
_RUN = when_used(r"(?<=\b[Cc]h-)(?P<n>[SlIO])(?=[ -](?:lps?|sps?|loops?|spaces?|arch(?:es)?)\b)|(?<=\b[Cc]h )(?P<m>S)(?=,)")
_NUMBERS = {"S": "5", "l": "1", "I": "1", "O": "0"}
#: "5l st to join", "s1 st": a slip stitch.
_SLIP = when_used(r"(?<![A-Za-z0-9-])(?:[5S][lI](?= st\b)|[sS]i(?= sts?\b)|[sS]1(?= st\b)|51(?= st (?:to (?:join|close|top|first|1st|beg)|join)\b))")
#: "2 dc, ch4J": a closing bracket; "(3 sc} in", as another kind; "l ch 3, ... ] 6 times": an opening one.
_CLOSING = when_used(r"(?<=[a-z0-9)])[Jj](?=\s|[,.;:]|$)")
_OPENING = when_used(rf"(?:(?<=[,.;:] )|(?<=^))[lI|](?= ?(?:{_STITCH_SIGN}|\d)\b)")

#: "Oc into 4th ch": a D.
_DC = when_used(r"(?<![A-Za-z0-9])[O0](?=c (?:in|into|around|next|each|1st|first)\b)")
#: "f ptr", "b pdc": a raised stitch that was parted.
_POST = when_used(r"(?<![A-Za-z])(?P<side>[fFbB]) [pP](?P<stitch>hdc|dc|htr|tr|dtr|sc)(?![A-Za-z])")
#: "(h 3": a C.
_CH = when_used(r"\((?=h \d+ )")
_ROW_BEGINS = when_used(r"(?=\b(?:[Rr]ows?|R[Oo][Ww]|[Rr]nds?|RND|[Rr]ounds?) \d{1,3}\b)")
#: Letters of other alphabets that look like ours, on a page in ours: a reading machine's, or another keyboard's.
_ALIKE = str.maketrans(
    "\u0410\u0412\u0415\u041a\u041c\u041d\u041e\u0420\u0421\u0422\u0423\u0425\u0406\u0405\u0408"
    "\u0430\u0435\u043a\u043c\u043e\u0440\u0441\u0442\u0443\u0445\u0456\u0455\u0458"
    "\u0391\u0392\u0395\u0396\u0397\u0399\u039a\u039c\u039d\u039f\u03a1\u03a4\u03a5\u03a7\u03bf\u0131\u0130\uff1a",
    "ABEKMHOPCTYXISJ" "aekmopctyxisj" "ABEZHIKMNOPTYXoiI:",
)
_OTHERS = when_used("[\u0400-\u04ff\u0370-\u03ff\u0130\u0131\uff1a]")
#: "6 sc\u0432 magic ring": the word for "in" of another tongue, left behind a stitch.
_GLUED_IN = when_used(r"(?<=[A-Za-z\d ])\u0432(?= )")
#: "Heart \u00b1 ch 5", "Next row\u00b16 sc": a dash that was misread.
_DASH = when_used("(?<=[A-Za-z])(\\s?)\u00b1(?=\\s?(?:[A-Z*]|\\d{1,2} ?[a-z]|[a-z]{2}))")
#: "2'nd st", "repeat between *'s": a stroke that parts nothing.
_ORDERED = when_used(r"(?<![\d'])(?P<n>\d{1,2})['\u2019](?P<th>st|nd|rd|th)\b")
_STARS_OWN = when_used(r"(?P<star>(?<!\*)\*{1,2})['\u2019]s\b")
#: "magin ring", "majic circle".
_MAGIC = when_used(
    r"(?<![A-Za-z])(?P<m>[Mm])(?:[b-z]gic|a[a-fh-z]ic|ag[a-hj-z]c|agi[abd-z]|gaic|aigc|agci)(?=[ -](?:ring|circle|loop)s?\b)|(?<![A-Za-z])(?P<o>[Aa]mgic)(?=[ -](?:ring|circle|loop)s?\b)"
)
#: "de in next st", "each of 5 de": a dc whose last letter was misread, where the page has others; "Cn 3".
_DC_E = when_used(r"(?<=\d )de\b|\bde(?= in(?:to)? (?:the |each |next |same |last |first |top |\d))|(?<=\beach )de\b|(?<=\bnext )de\b|(?<=\blast )de\b|(?<=\bfirst )de\b|(?<=\b1st )de\b|(?<=\braised )de\b|(?<=\bbeg )de\b|(?<=\bsame )de\b")
_DC_TOLD = when_used(r"\bdc\b", re.IGNORECASE)
_DE_TOLD = when_used(r"^\W*[Dd][Ee]\s*[=:(\u2013-]")
_CN = when_used(r"(?<![A-Za-z])(?P<c>[Cc])n(?= \d{1,2}\b)")
_LETTERS_STOPPED = r"(?:[sdh]\.? ?(?:d\.? ?)?c|[dh]?\.? ?tr)\."
#: "1. s.c.", "4. d.c.": a stop behind a stitch's number.
_NUMBER_STOPPED = when_used(rf"(?<![\w.])(?P<n>\d{{1,2}})\.(?= ?{_LETTERS_STOPPED})", re.IGNORECASE)
_STOPPED_OFTEN = 2
_ORDER_STOPPED = when_used(r"(?P<n>\b\d{1,2}(?:st|nd|rd|th))\.(?= (?!row|rnd|round)[a-z])", re.IGNORECASE)
_CH_NUMBERED = when_used(r"(?P<ch>\bch)\. (?P<n>\d{1,2})\.(?= )", re.IGNORECASE)
_CH_STOPPED = when_used(r"(?P<ch>\bch)\.(?= (?:\d|from|sts?\b|of|in\b|to\b))", re.IGNORECASE)
#: "rep from \u201d around", "rep from ' to end": a star that was misread, where the line has one before it.
_STAR_BACK = when_used("(?P<rep>\\b(?:[Rr]ep(?:eat)?|[Rr]pt)\\.? from ?)[\"'\u2018\u2019\u201c\u201d\u00b0]{1,2}(?=\\s|[,.;]|$)")
#: "@2 dc in next st. Repeat from @ around": another sign in the place of a star.
_AT_BACK = when_used(r"\b(?:rep(?:eat)?|rpt)\.? (?:from|between) @|@ to @", re.IGNORECASE)
_THREE = when_used(r"(?<![\u0400-\u04ff])[\u0417\u0437](?![\u0400-\u04ff])")
#: "Repeat £rom *": the f that a reading machine took for another sign.
_FROM = when_used(r"(?P<rep>\b(?:[Rr]ep(?:eat)?|[Rr]pt)\.? )[\u00a3\u20ac$&|/]rom(?= )")
#: "Repeat from * when you reach the last dc": how far a repeat goes, said to the reader.
_REACHED = when_used(
    r"(?P<rep>\b(?:rep(?:eat)?|rpt)\.? (?:(?:from|between) )?\*{1,2}(?: to \*{1,2})?,? )(?P<until>(?:when|until|till|til|up to where) (?:you|we) (?:reach|get to|come to|arrive at|are at|have reached))(?= (?:the |your )?(?:very )?(?:last|end|next|corner|center|centre))",
    re.IGNORECASE,
)
#: "sc in sp,b ch 3": a speck that was read as a letter, set right behind a comma.
_SPECK = when_used(rf"(?<=[a-z0-9)],)[b-z](?= (?:{_STITCH_SIGN}|\d{{1,2}} ?{_STITCH_SIGN})\b)")
_LATIN = when_used(r"[A-Za-z]")
#: "1O sc", "(2O)", "Row l0", "Rnd S:" between figures: letters that were read for figures.
_NAUGHT = when_used(r"(?<=\d)[Oo](?=\d|\b)(?! ?['\u2019])")
_HEAD_FIGURES = when_used(r"^(?P<head>\W*(?:rows?|rnds?|rounds?)\s+)(?P<n>[\dlIOSB]{1,3})(?=\s*[:.)])", re.IGNORECASE)
_FIGURES = str.maketrans("lIiOoSsBb", "111005588")
#: "R ow 6:", "Rou nd 3.": a head that was set apart.
_SET_APART = when_used(r"(?:^(?P<lead>\W*)|(?<=[.!)\]]\s))(?P<word>R ?o ?w|R ?o ?u ?n ?d|R ?n ?d)(?P<s> ?s)?(?=\s?\d)", re.IGNORECASE)


def put_right(lines: list[str]) -> list[str]:
    """Letters that were read wrong from a printed page, put right: each line stays as long. "se" stays where the page
    says what it is.

    >>> put_right(["R ow 6: Sc in next 1O sc.", "Row \u0417: 3 s\u0441 in ring."])
    [' Row 6: Sc in next 10 sc.', 'Row 3: 3 sc in ring.']
    >>> put_right(["Rnd 2: Ch l, 3 se in next Ip, [ch-S lp, se in next seJ rep around, 51 st to join."])
    ['Rnd 2: Ch 1, 3 sc in next lp, [ch-5 lp, sc in next sc] rep around, sl st to join.']
    """
    lines = [_in_row(line) for line in _in_our_letters(lines)]
    lines = _without_stops(_with_dc(lines))
    if any(_AT_BACK.search(line) for line in lines) and not any("*" in line for line in lines):
        lines = [line.replace("@", "*") for line in lines]
    lines = [_STAR_BACK.sub(lambda m: f"{m['rep']}*".ljust(len(m[0])) if "*" in m.string[: m.start()] else m[0], line) for line in lines]
    lines = [_SET_APART.sub(_set_together, _HEAD_FIGURES.sub(_in_figures, line)) for line in lines]
    if any(_SE_TOLD.search(line) for line in lines):
        return lines
    return [_SC.sub("sc", line) for line in lines]


def _without_stops(lines: list[str]) -> list[str]:
    """A page that sets a stop behind its numbers and its "Ch.", without these: "*Ch. 2. 1. s.c. in 1st. loop" is
    "*Ch 2, 1 s.c. in 1st loop"."""
    if sum(len(_NUMBER_STOPPED.findall(line)) for line in lines) < _STOPPED_OFTEN:
        return lines
    for stopped, said in ((_NUMBER_STOPPED, r"\g<n> "), (_ORDER_STOPPED, r"\g<n> "), (_CH_NUMBERED, r"\g<ch>  \g<n>,"), (_CH_STOPPED, r"\g<ch> ")):
        lines = [stopped.sub(said, line) for line in lines]
    return lines


def _with_dc(lines: list[str]) -> list[str]:
    """A page that works dc with "de" as dc and "cn 3" as ch 3, where neither is explained."""
    if not any(_DC_TOLD.search(line) for line in lines) or any(_DE_TOLD.search(line) for line in lines):
        return lines
    return [_CN.sub(r"\g<c>h", _DC_E.sub("dc", line)) for line in lines]


def _in_row(line: str) -> str:
    line = "".join(_brackets(part) for part in _ROW_BEGINS.split(line))
    line = _DC.sub("D", line)
    line = _DASH.sub(lambda m: m[1] + "\u2013", line)
    line = _ORDERED.sub(r"\g<n>\g<th> ", line)
    line = _STARS_OWN.sub(r"\g<star>s ", line)
    line = _MAGIC.sub(lambda m: (m["m"] or "m") + "agic", line)
    line = _CH.sub("C", line)
    line = _SPECK.sub(" ", line)
    line = _FROM.sub(r"\g<rep>from", line)
    line = _REACHED.sub(lambda m: f"{m['rep']}to".ljust(len(m[0])), line)
    line = _POST.sub(lambda m: (m["side"] + "p" + m["stitch"]).ljust(len(m[0])), line)
    line = _RUN.sub(lambda m: _NUMBERS[m["n"] or m["m"]], line)
    line = _LOOP.sub("l", line)
    line = _SLIP.sub("sl", line)
    return _NAUGHT.sub("0", _ONE.sub("1", line))


def _in_our_letters(lines: list[str]) -> list[str]:
    """Letters that look like ours as ours, on a page that is written in ours."""
    whole = "\n".join(lines)
    others = len(_OTHERS.findall(whole))
    if not others or others * 4 > len(_LATIN.findall(whole)):
        return lines
    return [_THREE.sub("3", _GLUED_IN.sub(" ", line)).translate(_ALIKE) if _OTHERS.search(line) else line for line in lines]


def _in_figures(found: re.Match[str]) -> str:
    """A head with letters among the figures of its number as figures; a letter alone may be a row's name."""
    said = found["n"]
    few = any(c.isdigit() for c in said) or said in ("l", "I", "ll", "II")
    return found["head"] + said.translate(_FIGURES) if few and said != "II" else found[0]


def _set_together(found: re.Match[str]) -> str:
    word = (found["word"] + (found["s"] or "")).replace(" ", "")
    spare = len(found[0]) - len(found["lead"] or "") - len(word)
    return (found["lead"] or "") + " " * spare + word


def _brackets(line: str) -> str:
    """Letters that stand for the one bracket that a line lacks."""
    short = line.count("[") - line.count("]")
    if short == 1 and len(found := list(_CLOSING.finditer(line))) == 1 and line.find("[") < found[0].start():
        return line[: found[0].start()] + "]" + line[found[0].end() :]
    if short == -1:
        at = _lonely_close(line)
        found = [m for m in _OPENING.finditer(line, 0, at) if m.start() > line.rfind("]", 0, at)]
        if len(found) == 1:
            return line[: found[0].start()] + "[" + line[found[0].end() :]
    return line


def _lonely_close(line: str) -> int:
    """Where the square bracket stands that nothing opened."""
    open_ = 0
    for at, c in enumerate(line):
        open_ += (c == "[") - (c == "]")
        if open_ < 0:
            return at
    return len(line)
