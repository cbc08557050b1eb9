"""Rows with words that nothing can read, without them: texts that a reader of print would try.

She passes over what she does not understand and sees whether the row comes out: over the words alone, over the clause
they stand in, or taking them for "to the end" where a repeat says how far it goes. A repeat mark that stands alone gets
its other end where it could be. Each text is as long as the row or longer; letters before the first change stay in
their places. Whether one is right is for the play to say; the words stay complained of.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence

from .when_used import when_used

#: Where words begin and end in a row's text.
Stretch = tuple[int, int]

#: So many texts are tried for one row, and so many places for a mark that is missing.
MOST_TEXTS, MOST_PLACES = 14, 9

#: What says how far a repeat goes stands behind these.
_REPEATS = when_used(r"(?:\brep(?:eat(?:ing)?)?\b|\brpt\b|\*|\bcont(?:inue)?\b)[^.;()\[\]]*$")
#: What a row begins with before a repeat may.
_LIFTS = when_used(
    r"\W*(?:(?:turn|join\b[^.,;]*|with [a-z ]{1,20}|(?:ch|chain) ?-?\d+(?: \([^)]*\))?|\d+ ?ch|sl st [^.,;]*"
    r"|sk(?:ip)? [^.,;]*|miss [^.,;]*)[\s.,;]+)*"
)
_REPEAT = when_used(r"rep|rpt|from")
#: A clause with one word before how far it goes.
_GOES_ALL_ALONG = when_used(r"[,;.] (?:and |then )?[a-z]+ (?:across|around|round|along|to (?:the )?end)\s*$")
#: What opens a bracket, by what closes it.
_OPENING = {")": "(", "]": "[", "}": "{"}
_BOUNDARY = when_used(r"[,;:.]\s+(?=[a-z0-9(\[])")
#: Where a row's work ends: before its join, its turn, its count.
_ENDS = when_used(
    r"[.,;]?\s*(?:(?:join|sl st (?:in|to)\b|slip st(?:itch)? (?:in|to)\b|ss (?:in|to)\b"
    r"|turn|fasten off|ending?|end with)\b"
    r"|[(\[=]\s*\d+[^()\[\]]*[)\]]?\W*$|$)"
)


def texts_without(
    low: str, lost: Sequence[Stretch], marks: Sequence[Stretch], *, counted: bool, stitch: str = ""
) -> Iterator[str]:
    """The texts to try for a row (`low`, in lower case) with words that cannot be read (`lost`), or with repeat marks
    that stand alone and repeats that no mark stands before (`marks`), the likeliest first. Only in a row whose count is
    stated (`counted`) are whole clauses left out, and marks put where they may not belong. `stitch` is what the row is
    made of: it may be what one phrase that cannot be read stands for."""
    tried = {low}
    meant = _stood_for(low, *lost[0], stitch) if len(lost) == 1 and not marks and stitch else ()
    for text in itertools.chain(meant, _texts(low, lost, marks, counted=counted)):
        if text not in tried:
            tried.add(text)
            yield text
        if len(tried) > MOST_TEXTS:
            return


def _texts(low: str, lost: Sequence[Stretch], marks: Sequence[Stretch], *, counted: bool) -> Iterator[str]:
    if lost and not marks:
        yield _blanked(low, lost)
        yield _to_the_end(low, lost)
        if counted:
            yield _blanked(low, [_clause(low, *span) for span in lost])
        if counted and len(lost) > 1:
            yield from (_blanked(low, [_clause(low, *s) if s == one else s for s in lost]) for one in lost)
    for start, end in marks:
        bare = _blanked(low, lost)
        if low[start] in _OPENING:
            yield from itertools.islice(_begun(bare, start, _OPENING[low[start]]), MOST_PLACES if counted else 1)
        elif _REPEAT.match(low, start) is None:
            yield from _repeated(bare, start, end)
        elif "*" not in low[:start]:
            yield from itertools.islice(_begun(bare, start), MOST_PLACES if counted else 1)


#: Where words that cannot be read go, where they make up a clause, and a number in them.
_GOES_INTO = when_used(r"\s*(?:in|into|around|over|on)\b")
_JOINS_TOP = when_used(r"\s*(?:in|into|to|with|at)\s+(?:the )?(?:top|first|1st|\d(?:st|nd|rd|th) ch|beg)\b[^,;]*$")
_CLAUSE_ENDS = when_used(r"\s*(?:[,;.)\]]|$)")
_CLAUSE_BEGINS = when_used(r"(?:^|[,;.:([*\]]|\band|\bthen)\s*$")
_TELLS_AGAIN = when_used(r"\b(?:rep(?:eat(?:ing)?)?|rpt)\b[^.,;()\[\]]*$")
_NUMBERED = when_used(r"\b(\d{1,2})\b")
_BEHIND_NUMBER = when_used(r"\s*(\d{1,2}) (?:sts?|stitch(?:es)?|sc|hdc|dc|tr|chs?|sps?|loops?)\b(?! in\b)")


#: Both ends of a row are shaped alike: "2 sc in first st, ..., ? in last st".
_AT_OTHER_END = when_used(r"\b([23]) ?[a-z]+ in (?:the )?(?:first|1st) [a-z]+\b")
_LAST = when_used(r"\s*(?:in|into) (?:the )?last\b")
#: The chains that the spaces which a row works into are of: it makes such again.
_IN_SPACES = when_used(r"\b(?:in|into) (?:the )?(?:next |each |every |same )?ch-?(\d) ?-?(?:sp|space|loop|lp)")


def _stood_for(low: str, start: int, end: int, stitch: str) -> Iterator[str]:
    """The text with one phrase that cannot be read taken for what it may stand for where it is: the row's stitch before
    a place, that stitch worked into the next one where it is a clause of its own, a join before the top of a chain."""
    said, behind = low[start:end], low[end:]

    def put(words: str) -> str:
        return f"{low[:start]}{words.ljust(end - start)}{behind}"

    if _CLAUSE_BEGINS.search(low[:start]) is None or _TELLS_AGAIN.search(low[:start]) is not None:
        return  # how far a repeat goes
    if _JOINS_TOP.match(behind):
        yield put("join with sl st")
    if _GOES_INTO.match(behind):
        ends = _AT_OTHER_END.search(low[:start]) if _LAST.match(behind) else None
        yield from (put(f"{many}{stitch}") for many in ((f"{ends[1]} ",) if ends else ("", "2 ", "3 ")))
    elif _BEHIND_NUMBER.match(behind):
        yield from (put("sk"), put(stitch))
    elif _CLAUSE_ENDS.match(behind) and (number := _NUMBERED.search(said)) is not None:
        yield from (put(f"{stitch} in next {number[1]} sts"), put(f"ch {number[1]}"), put(f"sk next {number[1]} sts"))
    elif _CLAUSE_ENDS.match(behind):
        spaces = _IN_SPACES.findall(low)
        first = (f"ch {spaces[-1]}",) if spaces and f"ch {spaces[-1]}," not in low else ()
        shaped = (f"{stitch}2tog over next 2 sts", f"2 {stitch} in next st")
        yield from (put(words) for words in (*first, f"{stitch} in next st", *shaped, "sk next st", "ch 1"))


def _blanked(low: str, spans: Sequence[Stretch]) -> str:
    for start, end in spans:
        low = low[:start] + " " * (end - start) + low[end:]
    return low


def _to_the_end(low: str, spans: Sequence[Stretch]) -> str:
    """Words behind a repeat taken for how far it goes."""
    for start, end in reversed(spans):
        far = "around" if _REPEATS.search(low[:start]) else ""
        low = low[:start] + far.ljust(end - start) + low[end:]
    return low


def _clause(low: str, start: int, end: int) -> Stretch:
    """The clause that words stand in, from sign to sign."""
    before = max((low.rfind(sign, 0, start) for sign in ",;.*()[]"), default=-1) + 1
    after = min((at for sign in ",;.*()[]" if (at := low.find(sign, end)) >= 0), default=len(low))
    return before, after


def _repeated(low: str, start: int, end: int) -> Iterator[str]:
    """A mark that opens a repeat which is never told: repeated to the end of the work, or no mark at all."""
    sign = low[start:end].strip()
    stop = _ENDS.search(low, end)
    last = _GOES_ALL_ALONG.search(low, end, stop.start()) if stop is not None and sign else None
    if stop is not None and last is not None:  # its last clause, whatever it says, tells that it goes on to the end
        yield f"{low[: last.start()]}; rep from {sign} around{low[stop.start() :]}"
    if stop is not None and sign:
        yield f"{low[: stop.start()]}; rep from {sign} around{low[stop.start() :]}"
    yield _blanked(low, [(start, end)])


def _begun(low: str, repeat: int, mark: str = "*") -> Iterator[str]:
    """ "Rep from *" or "] 6 times" with no `mark` before it: the mark at each place where a clause begins."""
    lifted = _LIFTS.match(low)
    first = lifted.end() if lifted else 0
    places = [first, *(m.end() for m in _BOUNDARY.finditer(low, first, repeat))]
    yield from (f"{low[:at]}{mark}{low[at:]}" for at in places if at < repeat)
