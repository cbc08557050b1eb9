"""Where work goes, told behind the chains that follow it: "(2 dc, ch 2, 2 dc) ch 1, in the next corner space".

Every function takes a row's text in lower case and gives it letter for letter as long as before.
"""

from __future__ import annotations

import re

from ...when_used import when_used

_PLAIN = r"(?:sc|hdc|dc|htr|tr|dtr)"
_HERE = r"(?:(?:corner|side|edge|middle|center|centre|ch-?\d|ch|chain)[ -]?)*(?:sps?|spaces?|loops?|lps?|corners?|sts?|stitch|sides?)"
#: A group or stitches, the chains behind it, and where the group goes.
_GROUP_FIRST = when_used(
    rf"(?P<work>\([^()*]{{4,40}}\)|(?P<bare>\b[2-9] ?{_PLAIN}))(?P<gap>,? ?)(?P<ch>\b(?:ch ?\d|\d ?ch)),? (?P<in>in(?:to)?) (?P<where>(?:the )?(?:next|same|following|last|first) {_HERE})(?=\s*(?P<end>[,;.*)]|$|rep))"
)
_REPEATS = when_used(r"\W*(?:$|(?:rep|repeat|rpt|join|around|\*))")


def places_evened(low: str) -> str:
    """The text with a group's place before the chains that follow the group.

    >>> places_evened("*(2 dc, ch 2, 2 dc) ch 1, in the next corner space. rep from * around")
    '*(2 dc, ch 2, 2 dc) in the next corner space, ch 1. rep from * around'
    """
    found = list(_GROUP_FIRST.finditer(low)) if "ch" in low else []
    told_so = {m.start() for m in found if m["bare"] is None and _REPEATS.match(low, m.end())}
    if not told_so:
        return low
    return _GROUP_FIRST.sub(_place_first, low)


def _place_first(found: re.Match[str]) -> str:
    told = f"{found['work']} {found['in']} {found['where']}, {found['ch']}"
    if len(told) > len(found[0]):  # no sign stood there
        told = f"{found['work']} {found['in']} {found['where']} {found['ch']}"
    return told.ljust(len(found[0])) if len(told) <= len(found[0]) else found[0]
