"""Letters that were read wrong from a printed page, put right before anything else is read: each line stays as long."""

from __future__ import annotations

import re

from ...when_used import when_used

_STITCH_SIGN = r"(?:sts?|sc|hdc|dc|htr|tr|dtr|trtr|ch|sl|ss|sp|sk)"
#: "l st", "Itr", "Row l", "ch l", "(l6": a one that was misread as a letter.
_ONE = when_used(
    rf"(?<![A-Za-z0-9'’-])(?:[lI](?=\s(?:{_STITCH_SIGN}|se)\b|\d)|I(?={_STITCH_SIGN}\b))|(?<=\b[Rr]ow )[lI]\b|(?<=\b[Rr]nd )[lI]\b|(?<=\b[Rr]ound )[lI]\b"
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
#: "f ptr", "b pdc": a raised stitch that was parted; "R ow 6": a head.
_POST = when_used(r"(?<![A-Za-z])(?P<side>[fFbB]) [pP](?P<stitch>hdc|dc|htr|tr|dtr|sc)(?![A-Za-z])")
_PARTED_HEAD = when_used(r"(?<![A-Za-z])(?:R ow|Ro w|R nd|Rn d|R ound|Ro und)(?= \d)")
#: "(h 3": a C.
_CH = when_used(r"\((?=h \d+ )")
_ROW_BEGINS = when_used(r"(?=\b(?:[Rr]ows?|R[Oo][Ww]|[Rr]nds?|RND|[Rr]ounds?) \d{1,3}\b)")
_WORD = when_used(r"[^\W\d_]+")
_LOOK_ALIKE = str.maketrans("\u0430\u0435\u043e\u0440\u0441\u0443\u0445\u043a\u0456\u0455\u0442\u0440\u0410\u0412\u0415\u041a\u041c\u041d\u041e\u0420\u0421\u0422\u0425\u0131", "aeopcyxkistpABEKMHOPCTXi")


def read_right(lines: list[str]) -> list[str]:
    """The lines with misread letters put right. "se" stays where the page says what it is.

    >>> read_right(["Rnd 2: Ch l, 3 se in next Ip, [ch-S lp, sc in next scJ rep around, 51 st to join."])
    ['Rnd 2: Ch 1, 3 sc in next lp, [ch-5 lp, sc in next sc] rep around, sl st to join.']
    """
    out = [_one_line(line) for line in lines]
    return out if any(_SE_TOLD.search(line) for line in lines) else [_SC.sub("sc", line) for line in out]


def _one_line(line: str) -> str:
    line = _latin(line)
    line = "".join(_brackets(part) for part in _ROW_BEGINS.split(line))
    line = _DC.sub("D", line)
    line = _CH.sub("C", line)
    line = _POST.sub(lambda m: (m["side"] + "p" + m["stitch"]).ljust(len(m[0])), line)
    line = _PARTED_HEAD.sub(lambda m: m[0].replace(" ", "", 1) + " ", line)
    line = _RUN.sub(lambda m: _NUMBERS[m["n"] or m["m"]], line)
    line = _LOOP.sub("l", line)
    line = _SLIP.sub("sl", line)
    return _ONE.sub("1", line)


def _latin(line: str) -> str:
    """Words with letters of other scripts that look like Latin ones, in Latin: "\u0441h 3", "\u0131nc"."""
    return line if line.isascii() else _WORD.sub(_in_latin, line)


def _in_latin(found: re.Match[str]) -> str:
    if found[0] == "\u0417":
        return "3"
    word = found[0].translate(_LOOK_ALIKE)
    return word if word.isascii() and not found[0].isascii() else found[0]


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
