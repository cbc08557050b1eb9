"""Lines that plainly name work and stand in no row: they are said, for a row lost among the talk is the worst slip."""

from __future__ import annotations

import re
from collections.abc import Iterable

from ..notation.plain import plain
from ..when_used import when_used

_STITCH = r"(?:\d+ ?)?(?:sc|hdc|dc|htr|tr|dtr|(?:single|double|half double|treble) crochets?|trebles?)"
#: "2 dc into next st": a stitch and where it goes.
_PLACED = when_used(
    rf"\b{_STITCH}\b (?:sts? )?(?:in|into|around|through) (?:to )?(?:the )?"
    r"(?:same|each|every|next|first|last|back|front|\d|ring|center|centre|sp|ch)"
    rf"|\b(?:{_STITCH}|\d+ (?:sts|stitches))\b(?: \d+)? (?:evenly )?(?:down|along|up|across) (?:the |one |each |this |both |other |last )*(?:\w+ )?(?:sides?|edges?|ends?|foundation)\b"
)
#: What else a row says.
_ROWISH = when_used(
    r"\b(?:ch|chain) ?\d+\b|\b\d+ ?ch\b|\bturn\b|\bjoin\b|\b(?:rep(?:eat)?|rpt) from\b|\b(?:sk|skip|miss) (?:next|first|\d)"
)
#: An explanation: a name, and behind a mark what it means; a list of abbreviations; a remark.
_EXPLAINS = when_used(r"\W*[\w'&/ -]{1,40}(?:\([^)]{1,24}\)\s*)?(?:[:=]|-\s|--)|\W*(?:ch|st|sts|sc|dc|tr|hdc|sl st|ss|sp|rep|sk)\b\W*"
                       r"(?:chain|stitch|single|double|treble|half|slip|space|repeat|skip)\b")  # fmt: skip
#: "Chain 6, skip one, sc, hdc, dc": stitches told one by one on a chain.
_ONE_BY_ONE = when_used(r"^\W*(?:ch|chain) ?\w{1,6}\b[^:=]{0,40}(?:,\s*(?:sc|hdc|dc|htr|tr)\b){3,}")
#: "Sc in 2nd ch from hook": the first row of a piece.
_ON_A_CHAIN = when_used(rf"\b{_STITCH}\b (?:in|into) (?:the )?(?:2nd|second|3rd|third|4th|fourth|\dth) (?:ch|chain)\b[^.]{{0,12}}\bhook\b")
#: "2 sc, (2 hdc), 3 sc, (2 sc)", "*1 sc, inc* 10 times": stitches by their numbers, one after the other.
_LISTED = when_used(
    r"(?:[(\[*]*\d{1,2} ?(?:sc|hdc|dc|htr|tr)\b[)\]*]*,\s*){3}|\*[^*]*\b(?:\d{1,2} ?)?(?:sc|hdc|dc|htr|tr)\b[^*]*\*\s*(?:\d{1,2} ?(?:times|x)|x ?\d|twice|around|across)\b"
)
_MADE = when_used(r"\W*[\w'&/ -]{1,40}[(\[](?:make|work|x ?\d|\d ?x)\b")
#: "To start a row - ch 2, ...": what stands for a stitch there, and no row.
_AIMED = when_used(r"\W*(?:to (?:start|begin|end|finish) (?:a |each |every )(?:row|rnd|round)|everywhere else)\b")
_DASHED = when_used(r"\W*[\w'&/ -]{1,40}[\u2013\u2014]")
#: "* When working the first stitch ... *": a star before what is said to the reader.
_STARRED = when_used(r"\W*\*+\s*(?:note|remember|when|if|please|tip|hint|you|always|do not|don'?t)\b", re.IGNORECASE)
_ROW_NAME = when_used(r"\b(?:row|rnd|round|patt|pattern|edge|edging|border|trim)\b")
#: "* Ch 3, sl st in next 2 sc; repeat from * all around.": what a row repeats.
_FROM_STAR = when_used(r"\*[^*]*\b(?:ch|sl st|ss|sc|hdc|dc|htr|tr)\b[^*]*\b(?:rep(?:eat)?|rpt) from \*")

#: What no explanation of a stitch says: "join yarn in first sc", "fasten off".
_YARN_WORK = when_used(r"\b(?:re-?)?(?:join|attach) (?:the |a |new )?(?:yarn|thread|wool|[a-z]+ yarn|with)\b.*\b(?:fasten|finish|break|end) off\b|\bfacing\b.*\b(?:join|attach)", re.DOTALL)


#: "Each side now reads 2 tr, 2 dc, 1 hdc": what is there, told to be counted.
_CHECKS = when_used(
    r"\b(?:reads?|ha(?:s|ve)|shows?|counts?|consists? of|contains?|holds?|looks? like|there (?:are|is|should be|will be)|should be|made up of)\b(?: now)?:? *$"
)


def unplaced(prose: Iterable[tuple[int, str]]) -> list[tuple[int, str]]:
    """Of lines taken as talk (number, text) those that plainly name work, the first of each run of lines.

    >>> unplaced([(4, "Rib row: Ch 1, sc in next st, dc in each st to end, turn."), (9, "Soft and warm, in dc.")])
    [(4, 'Rib row: Ch 1, sc in next st, dc in each st to end, turn.')]
    """
    found: list[tuple[int, str]] = []
    last = -2
    for line, text in sorted(prose):
        if not text.endswith("(another size)") and not _STARRED.match(text) and names_work(text):
            if line > last + 1:
                found.append((line, text))
            last = line
    return found


#: "Work 33 sc along the edge, turn.": stitches by their number.
_NUMBERED = when_used(r"\b\d{1,3} ?(?:sc|hdc|dc|htr|tr|s c|d c)\b")


def lost_first(prose: Iterable[tuple[int, str]], first: int) -> list[tuple[int, str]]:
    """Of lines taken as talk those above line `first`, where a page's first row is called the second: what may have been the
    row before it, the last of them.

    >>> lost_first([(1, "Lace for a collar."), (2, "Along the edge work 33 sc, turn.")], 3)
    [(2, 'Along the edge work 33 sc, turn.')]
    """
    return [(line, text) for line, text in prose if line < first and _NUMBERED.search(low := plain(text)) and "=" not in low][-1:]


def names_work(text: str) -> bool:
    """Whether a line says to work stitches at places, and is no explanation of a word."""
    low = plain(text)
    explained = None if _MADE.match(low) else _EXPLAINS.match(low) or _DASHED.match(text)
    if "=" in low or _AIMED.match(low) or (explained and not _ROW_NAME.search(plain(explained[0])) and not _YARN_WORK.search(low)):
        return False
    listed = _LISTED.search(low)
    if _ONE_BY_ONE.search(low) or _ON_A_CHAIN.search(low) or (listed and not _CHECKS.search(low[: listed.start()])):
        return True
    if _FROM_STAR.search(low):
        return True
    placed, more = len(_PLACED.findall(low)), len(_ROWISH.findall(low))
    return placed > 1 or (placed == 1 and more > 1)
