"""Corners named for what is worked in them: "corner (2 dc, ch 2, 2 dc)", and "corner in next sp" behind "(3 dc, ch 2, 3 dc)
in next sp for corner"."""

from __future__ import annotations

from ...when_used import when_used

_GROUP = r"[(\[](?:\d ?|[a-z])[^()\[\]]*?[,;][^()\[\]]*[)\]]"
#: "corner (2 dc, ch 2, 2 dc)": the group in the corner.
_NAMED = when_used(rf"(?P<lead>(?:^|[*,;:.(\[>]|\band|\bthen) ?)(?:(?:work|make) )?(?:(?:a|the|next|first) )?corner ?(?:[:=] ?)?(?P<group>{_GROUP})(?!\s*(?:in|into|x|\d|times|twice|rep)\b)")
#: "(3 dc, ch 2, 3 dc) in next sp for corner", "... in each corner", "... in same sp (corner made)": what a corner is.
_TOLD = when_used(
    rf"(?P<group>{_GROUP})(?: in(?:to|side)? (?:the |each |every |same |next |this |that |first |corner )*(?:ch-?\d ?)?(?:corner\b|(?:sp|space|st|stitch|ch-\d)\b[, ]*\(?(?:for (?:the |a |each |first )?corner|(?:first |one )?corner (?:made|formed|done))))"
)
#: "corner in next sp", "work a corner": as the last one told.
_AGAIN = when_used(r"(?P<lead>(?:^|[*,;:.(\[]|\band|\bthen) ?)(?P<said>(?:(?:work|make) )?(?:(?:a|another|the) )?corner)(?P<there>(?= (?:in|into) )|(?=\s*(?:[,;.*)\]]|$)))")
#: What stands in such a group.
_CHAINED = when_used(r"\bch(?:ain)?s?\b|\d ?(?:sc|hdc|dc|htr|tr)\b.*\d ?(?:sc|hdc|dc|htr|tr)\b")


_SIDES = r"(?:along|on|across|down|of|in|to|up) (?:each|every|all|the|all of the|each of the|both)(?: of the)?(?: (?:4|four|3|three|6|six|8|eight|straight))* sides?(?: of (?:the |your )?(?:square|block|motif|hexagon|granny|triangle))?"
#: "dc in each dc along all four sides": all of a round whose corners are told.
_ALONG_SIDES = when_used(rf"(?P<each>\b(?:each|every)(?: of the)? (?:sts?|stitch|sc|hdc|dc|htr|tr|double crochet|single crochet)) {_SIDES}(?= ?(?:[,;.*)]|and\b|with\b|working\b|$))")
#: "dc along each side".
_STITCH_ALONG = when_used(rf"(?P<st>(?:^|[,;.:*(] ?|\bwork |\band )(?:1 |one )?(?:sc|hdc|dc|htr|tr)) {_SIDES}(?= ?(?:[,;.*)]|and\b|with\b|working\b|$))")


def sides_evened(low: str) -> str:
    """The text of a round whose corners are told, with its sides told as all their stitches, letter for letter as long.

    >>> sides_evened("dc in each dc along all four sides, (2 dc, ch 2, 2 dc) in each corner")
    'dc in each dc                    , (2 dc, ch 2, 2 dc) in each corner'
    """
    low = _ALONG_SIDES.sub(lambda found: found["each"].ljust(len(found[0])), low)
    return _STITCH_ALONG.sub(lambda found: f"{found['st']} in each st".ljust(len(found[0])), low)


def corner_told(low: str) -> str:
    """The group that a row tells for its corners last; "" where it tells none.

    >>> corner_told("ch 3, *(3 dc, ch 2, 3 dc) in next sp for corner, ch 1; rep from * around")
    '(3 dc, ch 2, 3 dc)'
    """
    told = [found["group"] for found in _TOLD.finditer(low) if _CHAINED.search(found["group"])]
    told += [found["group"] for found in _NAMED.finditer(low) if _CHAINED.search(found["group"])]
    return _bare(told[-1]) if told else ""


def _bare(group: str) -> str:
    """A group without the place that stands in it."""
    return f"({group[1:-1].split(' in ')[0].strip()})"


def corners_evened(low: str) -> str:
    """The text with "corner (2 dc, ch 2, 2 dc)" told as the group in the corner, letter for letter as long.

    >>> corners_evened("*corner (2 dc, ch 2, 2 dc), dc in next 3* around")
    '*(2 dc, ch 2, 2 dc) in cnr, dc in next 3* around'
    """
    return _NAMED.sub(lambda found: _placed(found["lead"], found["group"]).ljust(len(found[0])) if _CHAINED.search(found["group"]) else found[0], low)


def _placed(lead: str, group: str) -> str:
    return f"{lead}{group}" if " in " in group else f"{lead}{group} in cnr"


def corners_again(text: str, low: str, before: str) -> tuple[str, str]:
    """A row's words, as printed and in lower case, with the group in place of "corner" that goes by its name alone: one told
    in the row itself, or `before` it.

    >>> corners_again("Corner in next sp, ch 1", "corner in next sp, ch 1", "(2 dc, ch 2, 2 dc)")[1]
    '(2 dc, ch 2, 2 dc) in next sp, ch 1'
    """
    group = corner_told(low) or before
    while group and (found := _AGAIN.search(low)) is not None:
        told = group if low[found.end() :].startswith(" in") else f"{group} in next corner sp"
        start, end = found.span("said")
        text, low = text[:start] + told + text[end:], low[:start] + told + low[end:]
    return text, low
