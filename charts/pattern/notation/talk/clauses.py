"""Where clauses of talk lie in a row's text, and the text without them, letter for letter as long."""

from __future__ import annotations

import re

from .judge import may_be_talk, tells_no_work

#: What parts clauses: signs, brackets, repeat marks, dashes.
_BORDER = re.compile(r"[,;:!?()\[\]{}*\u2013\u2014]|\.(?!\d)|(?<=\s)-+(?=\s)|\n")
#: Where talk may begin within a clause, behind its work: "sc in each st so that the edge stays straight".
_WITHIN = re.compile(r"\s(?=(?:so (?:that|the|it|you|your)|because|since (?:the|it|this|you|they)|otherwise|which (?:will|gives|makes|keeps|helps|stops)|(?:and|but) (?:do not|don't|be careful|remember|your|you|it|this is)) )")
_FIRST = re.compile(r"[a-z]+(?:['\u2019-][a-z]+)*")
#: How a stitch is told by the moves of the hook: beside these hook and yarn are no talk.
_MOVES = re.compile(r"\b(?:yo|yoh|yrh|yarn (?:over|round)|insert|pull up|draw up|draw through|pull through|loops? on)\b")
#: What a note names if talk holds it: a number, a stitch.
_NOTED = re.compile(r"\d|\b(?:one|two|three|four|five|six|seven|eight|nine|ten|twelve|st|sts|stitch(?:es)?|chains?|spaces?|sps?|loops?|shells?|rows?|rounds?|rnds?|corners?)\b")
_BY_HAND = re.compile(r"\b(?:hook|yarn|wool|thread|loops?)\b")


def talk_apart(low: str) -> tuple[str, list[tuple[int, int]]]:
    """The text (a row's, in lower case) without its clauses that tell no work, and where these stand. A row that is all
    talk is left as it is.

    >>> low, said = talk_apart("ch 1, sc in next 4 sts, it will look wavy, sc in last st.")
    >>> " ".join(low.split()), said
    ('ch 1, sc in next 4 sts, sc in last st.', [(24, 41)])
    """
    found = _settled(low, [found for found in _segments(low) if _is_talk(low, found[0], found[1])])
    if not found or not re.search(r"[a-z0-9]", _blanked(low, [(a, b) for a, b, _, _ in found])):
        return low, []
    out = low
    for start, end, before, after in found:
        out = _without(out, start, end, before, after)
    return out, [(start, end) for start, end, _, _ in found]


def is_noted(said: str) -> bool:
    """Whether talk names a number or a stitch, so that it is to be told that it was passed over."""
    return _NOTED.search(said) is not None


def _is_talk(low: str, start: int, end: int) -> bool:
    said = low[start:end]
    return tells_no_work(said) and not (_BY_HAND.search(said) and _MOVES.search(low))


#: What a clause begins with that tells when or where the next one holds.
_CONDITION = re.compile(r"(?:and |but |so |then |now )*(?:if|when|whenever|once|while|as|for|in case|where)\b")


def _settled(low: str, found: list[tuple[int, int, int, int]]) -> list[tuple[int, int, int, int]]:
    """Of clauses that may be talk those that are: a condition is where what it leads to is talk too, or nothing follows."""
    out: list[tuple[int, int, int, int]] = []
    for one in reversed(found):
        leads = _CONDITION.match(low, one[0], one[1]) and low[one[3] : one[3] + 1] in (",", ":", "-")
        follows = bool(out) and not low[one[3] + 1 : out[0][0]].strip(" -")
        if not leads or follows or not low[one[3] :].strip(" ,:-."):
            out.insert(0, one)
    return out


def _segments(low: str) -> list[tuple[int, int, int, int]]:
    """Each clause that may be talk: where its words begin and end, and where the borders before and behind it stand (-1, and
    the text's length, where there is none; the same place as the words where it begins within a clause)."""
    out: list[tuple[int, int, int, int]] = []
    before, at = -1, 0
    for border in [*(_BORDER.finditer(low)), None]:
        stop = border.start() if border else len(low)
        piece = low[at:stop]
        lead = len(piece) - len(piece.lstrip())
        start, end = at + lead, at + len(piece.rstrip(" \n-"))
        if end > start:
            first = _FIRST.match(low, start, end)
            if first and may_be_talk(first[0]) and tells_no_work(low[start:end]):
                out.append((start, end, before, stop))
            elif (within := _WITHIN.search(low, start, end)) is not None and within.start() > start:
                out.append((within.end(), end, within.end(), stop))
        if border is None:
            break
        before, at = border.start(), border.end()
    return out


def _blanked(low: str, spans: list[tuple[int, int]]) -> str:
    for start, end in spans:
        low = low[:start] + " " * (end - start) + low[end:]
    return low


def _without(low: str, start: int, end: int, before: int, after: int) -> str:
    """The text without one clause and without one of the signs that part it: no two signs are left beside each other."""
    opens = low[before] if 0 <= before < start else ""
    closes = low[after] if after < len(low) else ""
    spans = [(start, end)]
    if opens in "([{" and opens and closes in ")]}" and closes:
        return _blanked(low, [*spans, (before, before + 1), (after, after + 1)])
    if closes and closes in ",;:-\u2013\u2014":
        width = len(low[after:]) - len(low[after:].lstrip("-"))
        spans.append((after, after + max(width, 1)))
    elif (opens and opens in ",;:" and closes not in "*") or (opens and opens in "-\u2013\u2014"):
        spans.append((before, before + 1))
    low = _blanked(low, spans)
    if opens and opens in "-\u2013\u2014" and low[before] == opens:
        low = low[:before] + "," + low[before + 1 :]
    if closes and closes in "!?":
        low = low[:after] + "." + low[after + 1 :]
    return low
