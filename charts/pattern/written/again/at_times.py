"""Shaping that a run of rows is worked with at times: "Rows 3-10: Work in sc, inc 1 st at each end of every other row"."""

from __future__ import annotations

import re

from ....made_late import dataclass
from ... import lexicon
from ...when_used import when_used

_ROW = r"(?:rows?|rnds?|rounds?)"
_N = rf"(?:\d{{1,2}}|{lexicon.NUMBER_WORDS})"
_LEAD = r"(?:[,;.] ?)?(?:and |while |but |then )*(?:at (?:the )?same time,? )?(?:also |and )*"
_WHERE = (
    r"(?:(?:at|on|in) )?(?:each end|both ends|each side|both sides|either end|either side|each edge|both edges|(?:the )?(?:beg(?:inning)?|start|end)(?= (?:of|every|each|on)\b)|(?:the )?(?:neck|armhole|side|front|center|centre|shaped|outer|inner) edge)"
)
_SHAPE = (
    r"(?P<shape>(?:(?:work|make) )?(?:inc|dec|increase|decrease|increasing|decreasing)(?: (?:1|one|2|two|a))?(?: ?(?:st|sts|stitch|stitches|sc|hdc|dc|tr))?(?: ?\([^()]*\))? "
    rf"{_WHERE})(?P<how> ?\([^()]*\))?"
)
_EVERY = r"(?P<every>other|alternate|alt|second|third|fourth|fifth|sixth|eighth|tenth|\d{1,2}(?:nd|rd|th)|rs|ws|right[- ]side|wrong[- ]side|even(?:[- ]numbered)?|odd(?:[- ]numbered)?)"
_WHEN = (
    rf"(?:(?: of| on| in| at|,|:)* (?:the )?(?:(?:{_ROW} (?P<row>\d{{1,3}})|(?P<next>(?:next|first|this|following)(?: {_ROW})?)),? (?:and|then|and then) (?:on |in |of |at )?)?"
    rf"(?:the )?(?:every|each|following) (?:foll(?:owing)? )?{_EVERY}(?: (?:foll(?:owing)?|other))?(?: {_ROW})?(?: (?:after|thereafter|following|from there|after that|from here|from then on|afterwards))*)"
)
_TIMES = rf"(?:,? ?(?:for )?(?:a total of )?(?P<times>{_N}|once|twice) ?(?:more )?(?:times?)?(?P<all> (?:in all|altogether|in total|total))?(?=\s*(?:[.,;(\[]|$)))?"
_SAID = when_used(rf"(?P<lead>{_LEAD}){_SHAPE}{_WHEN}{_TIMES}")
#: "..., that is sc on RS rows and dc on WS rows,": what a pattern is, said again.
_THAT_IS = when_used(r",? (?:that is|i\.? ?e\.?|ie|meaning),? [^,;.]{4,60} on (?:the )?(?:rs|ws|right|wrong)\b[^,;.]{0,10}rows?(?=\s*[,;.])")
_SIDES = {"rs": 1, "right": 1, "odd": 1, "ws": 0, "wrong": 0, "even": 0}


@dataclass(frozen=True, slots=True)
class AtTimes:
    """Shaping in some rows of a run: the rows' numbers, and what does not belong to the words of a row that has it, and of
    one that has not: from where to where; `aside` is what is taken for neither."""

    rows: tuple[int, ...]
    beside: tuple[tuple[int, int], ...]
    without: tuple[tuple[int, int], ...]
    aside: tuple[tuple[int, int], ...] = ()


def shaped_at_times(low: str, first: int, last: int) -> AtTimes | None:
    """The shaping that words in lower case, of the rows from `first` to `last`, tell of some of them; None where they tell none.

    >>> low = "sc in each st, inc 1 st at each end of every other row. (42)"
    >>> found = shaped_at_times(low, 3, 10)
    >>> found.rows, [low[a:b] for a, b in found.beside], [low[a:b] for a, b in found.without]
    ((3, 5, 7, 9), [' of every other row'], [', inc 1 st at each end of every other row'])
    """
    found = _SAID.search(low) if last > first > 0 else None
    if found is None:
        return None
    begins, step = _steps(found, first)
    rows = tuple(range(begins, last + 1, step))
    times = {"once": 1, "twice": 2}.get(found["times"] or "", 0) or (lexicon.number(found["times"]) or 0 if found["times"] else 0)
    if times and not found["all"] and (found["row"] or found["next"]) and times + 1 == len(rows):
        times += 1  # "Row 3 and every 4th row after, 3 times": three more
    rows = rows[:times] if times else rows
    if not rows or rows[0] < first:
        return None
    again = _THAT_IS.search(low)
    said = (again.span(),) if again else ()
    return AtTimes(rows, ((found.end("shape"), found.end()), *said), (found.span(), *said), (*((found.span("how"),) if found["how"] else ()), *said))


def _steps(found: re.Match[str], first: int) -> tuple[int, int]:
    """The first of the rows, and from how many to how many they come."""
    every = found["every"]
    side = next((odd for word, odd in _SIDES.items() if every.startswith(word)), None)
    step = 2 if side is not None or every in ("other", "alternate", "alt") else lexicon.ordinal(every) or 2
    if found["row"]:
        return int(found["row"]), step
    if side is not None:
        return first + (first % 2 != side), 2
    return (first if found["next"] or step == 2 else first + step - 1), step 
