"""Letters that were read wrong from a printed page, put right: each line stays as long."""

from __future__ import annotations

import re

from .when_used import when_used

_STITCH_SIGN = r"(?:sts?|sc|hdc|dc|htr|tr|dtr|trtr|ch|sl|ss|sp|sk)"
#: "l st", "Itr", "Row l", "ch l", "(l6": a one that was misread as a letter.
_MISREAD_ONE = when_used(
    rf"(?<![A-Za-z0-9'’-])(?:[lI](?=\s(?:{_STITCH_SIGN}|se)\b|\d)|I(?={_STITCH_SIGN}\b))|(?<=\b[Rr]ow )[lI]\b|(?<=\b[Rr]nd )[lI]\b|(?<=\b[Rr]ound )[lI]\b"
    rf"|(?<=\b[Cc]h )[lI](?=\s*[,;.):])"
)
#: "16 se", "se in 2nd ch", "each se": an sc whose last letter was misread.
_MISREAD_SC = when_used(r"(?<=\d )se\b|\bse(?= in (?:the |each |next |\d))|(?<=\beach )se\b|(?<=\bnext )se\b|(?<=\blast )se\b|(?<=\bfirst )se\b")


#: A page whose "se" are as many as this was misread so throughout.
_OFTEN = 2
#: Letters of other alphabets that look like ours, on a page in ours: a reading machine's, or another keyboard's.
_ALIKE = str.maketrans(
    "\u0410\u0412\u0415\u041a\u041c\u041d\u041e\u0420\u0421\u0422\u0423\u0425\u0406\u0405\u0408"
    "\u0430\u0435\u043a\u043c\u043e\u0440\u0441\u0442\u0443\u0445\u0456\u0455\u0458"
    "\u0391\u0392\u0395\u0396\u0397\u0399\u039a\u039c\u039d\u039f\u03a1\u03a4\u03a5\u03a7\u03bf\u0131\u0130\uff1a",
    "ABEKMHOPCTYXISJ" "aekmopctyxisj" "ABEZHIKMNOPTYXoiI:",
)
_OTHERS = when_used("[\u0400-\u04ff\u0370-\u03ff\u0130\u0131\uff1a]")
#: "6 sc\u0432 magic ring": the word for "in" of another tongue, left behind a stitch.
_GLUED_IN = when_used(r"(?<=[a-z\d ])\u0432(?= )")
_THREE = when_used(r"(?<![\u0400-\u04ff])[\u0417\u0437](?![\u0400-\u04ff])")
_LATIN = when_used(r"[A-Za-z]")
#: "1O sc", "(2O)", "Row l0", "Rnd S:" between figures: letters that were read for figures.
_NAUGHT = when_used(r"(?<=\d)[Oo](?=\d|\b)(?! ?['\u2019])")
_HEAD_FIGURES = when_used(r"^(?P<head>\W*(?:rows?|rnds?|rounds?)\s+)(?P<n>[\dlIOSB]{1,3})(?=\s*[:.)])", re.IGNORECASE)
_FIGURES = str.maketrans("lIiOoSsBb", "111005588")
#: "ch-S lp", "ch S,": a five read as a letter.
_FIVE = when_used(r"(?<=\bch[- ])S(?=[ ,;.]*(?:lps?|sps?|loops?|spaces?|turn)\b)")
#: "R ow 6:", "Rou nd 3.": a head that was set apart.
_SET_APART = when_used(r"(?:^(?P<lead>\W*)|(?<=[.!)\]]\s))(?P<word>R ?o ?w|R ?o ?u ?n ?d|R ?n ?d)(?P<s> ?s)?(?=\s?\d)", re.IGNORECASE)


def put_right(lines: list[str]) -> list[str]:
    """Letters that were read wrong from a printed page, put right: each line stays as long. "se" only on a page that
    names no sc, or has it more than once.

    >>> put_right(["R ow 6: Sc in next 1O sc.", "Row \u0417: 3 s\u0441 in ring."])
    [' Row 6: Sc in next 10 sc.', 'Row 3: 3 sc in ring.']
    """
    lines = _in_our_letters(lines)
    lines = [_MISREAD_ONE.sub("1", line) for line in lines]
    lines = [_FIVE.sub("5", _NAUGHT.sub("0", line)) for line in lines]
    lines = [_SET_APART.sub(_set_together, _HEAD_FIGURES.sub(_in_figures, line)) for line in lines]
    named = any(re.search(r"\bsc\b", line, re.IGNORECASE) for line in lines)
    if named and sum(len(_MISREAD_SC.findall(line)) for line in lines) < _OFTEN:
        return lines
    return [_MISREAD_SC.sub("sc", line) for line in lines]


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
