"""Corners named for what is worked in them: "corner (2 dc, ch 2, 2 dc)", and "corner in next sp" behind "(3 dc, ch 2, 3 dc)
in next sp for corner"."""

from __future__ import annotations

import re

from ...when_used import when_used

_GROUP = r"[(\[](?:\d ?|[a-z])[^()\[\]]*?[,;][^()\[\]]*[)\]]"
#: "corner (2 dc, ch 2, 2 dc)": the group in the corner.
_NAMED = when_used(rf"(?P<lead>(?:^|[*,;:.(\[>]|\band|\bthen) ?)(?:(?:work|make) )?(?:(?:a|the|next|first) )?corner ?(?:[:=] ?)?(?P<group>{_GROUP})(?!\s*(?:in|into|x|\d|times|twice|rep)\b)")
#: "(3 dc, ch 2, 3 dc) in next sp for corner", "... in each corner", "... in same sp (corner made)": what a corner is.
_TOLD = when_used(
    rf"(?P<group>{_GROUP})(?: in(?:to|side)? (?:the |each |every |of |all |three |four |five |six |eight |[3-8] |same |next |this |that |first |corner )*(?:ch-?\d ?)?(?:corners?\b|(?:sp|space|st|stitch|ch-\d)\b[, ]*\(?(?:for (?:the |a |each |first )?corner|(?:first |one )?corner (?:made|formed|done))))"
)
#: "in next sp work 3 dc, ch 2, 3 dc for corner": the same without brackets.
_TOLD_BARE = when_used(
    r"(?P<group>(?P<n>\d{1,2}) ?(?P<st>[sdht]{0,2}c|[dh]?tr),? (?:and )?(?:ch(?:ain)?[- ]?\d|\d ?ch),? (?:and )?(?P=n) ?(?P=st))(?:,? (?:all )?in(?:to)? (?:the )?(?:same |next |this |that |first |corner )*(?:ch-?\d ?)?(?:sp|space|st|place|lp|loop))?,? (?:for (?:the |a |each |first )*corner|\((?:a |first |one )?corner(?: made| formed)?\))"
)
#: "..., 3 dc (first corner)": that the group before is a corner.
_SAID_OF_IT = when_used(r"(?:\d ?(?:[sdht]{0,2}c|[dh]?tr)|[)\]])(?P<said> ?\((?:an? |the |first |one |second |next |last )?corner(?: made| formed| done)?\))")
#: "corner in next sp", "work a corner": as the last one told.
_AGAIN = when_used(r"(?P<lead>(?:^|[*,;:.(\[]|\band|\bthen) ?)(?P<said>(?:(?:work|make) )?(?:(?:a|another|the) )?(?P<beg>(?:beg|beginning|starting|first) )?corner(?: as (?:before|usual|in (?:the )?(?:last|previous) (?:rnd|round)))?)(?P<there>(?= (?:in|into) )|(?=\s*(?:[,;.*)\]]|$)))")
#: What stands in such a group.
_CHAINED = when_used(r"\bch(?:ain)?s?\b|\d ?(?:sc|hdc|dc|htr|tr)\b.*\d ?(?:sc|hdc|dc|htr|tr)\b")


#: "(3 dc, ch 2, 3 dc)": the same stitch on both sides of chains.
_TWO_SIDED = when_used(
    r"\((?:(?P<n>\d{1,2}) )?(?P<st>[a-z]{2,3}|(?:half |double |treble )*crochets?), ?(?:ch[- ]?\d|\d ?ch|chain \d), ?(?:(?P<m>\d{1,2}) )?(?P=st)\)"
)
#: "..., ch 3, ": the chain that a row begins with.
_LED = when_used(r"^(?:[^*(\[]*[,;.:] ?)?(?:(?:work|make) )?(?:ch(?:ain)?[- ]?\d|\d ?ch)(?: \([^()]*\))?[,;.]? ?(?:and |then )?(?:work )?$")


_SIDES = r"(?:along|on|across|down|of|in|to|up) (?:each|every|all|the|all of the|each of the|both)(?: of the)?(?: (?:4|four|3|three|6|six|8|eight|straight))* sides?(?: of (?:the |your )?(?:square|block|motif|hexagon|granny|triangle))?"
#: "dc in each dc along all four sides": all of a round whose corners are told.
_ALONG_SIDES = when_used(rf"(?P<each>\b(?:each|every)(?: of the)? (?:sts?|stitch|sc|hdc|dc|htr|tr|double crochet|single crochet)) {_SIDES}(?= ?(?:[,;.*)]|and\b|with\b|working\b|$))")
#: "dc along each side".
_STITCH_ALONG = when_used(rf"(?P<st>(?:^|[,;.:*(] ?|\bwork |\band )(?:1 |one )?(?:sc|hdc|dc|htr|tr)) {_SIDES}(?= ?(?:[,;.*)]|and\b|with\b|working\b|$))")


#: "sc in each dc and ch-1 sp along last side": to the end of the round.
_LAST_SIDE = when_used(r"(?<=[a-z])(?P<said> (?:along|across|down|of) (?:the )?(?:last|remaining|rem|final|4th|fourth|6th|sixth) side)(?=\s*(?:[,;.]|and join|$))")


#: "2 dc in the gap between the groups on each side", "2 dc in each side gap": in each of these gaps.
_SIDE_GAP = when_used(
    rf"(?P<in>\bin(?:to)? )(?:the |each |every )?(?P<gap>(?:gap|sp|space)s?(?: between (?:the |each )?(?:\d-?[a-z]{{2,3}} )?(?:groups|clusters|sets|shells|clumps|bunches|pairs))?) {_SIDES.replace('(?:each|', '(?:each|every|')}(?= ?(?:[,;.*)]|and\b|$))"
)
_BETWEEN_ON_SIDES = when_used(rf"(?P<between>\bbetween (?:the |each )?(?:\d-?[a-z]{{2,3}} )?(?:groups|clusters|sets|shells|clumps|bunches|pairs)) {_SIDES}(?= ?(?:[,;.*)]|and\b|$))")
_EACH_SIDE_GAP = when_used(r"(?P<in>\bin(?:to)? )(?:each|every) side (?P<gap>gap|sp|space)(?![a-z])")
#: "To front corner", "center sc of back corner": a corner, told by where it will lie; of two there is none between.
_NAMED_CORNER = when_used(r"(?<=[a-z]) (?P<where>(?:cent(?:er|re|ral) )?(?:front|back)) (?=corners?\b)")
#: "sc in each dc to front, 3 sc in corner": up to the corner there.
_TO_WHERE = when_used(r"(?P<to>\b(?:to|until) )(?:the )?(?P<where>(?:cent(?:er|re) )?(?:front|back))(?=\s*[,;]\s*(?:work )?(?:\d |\()[^,;]{0,30}(?:\bcorner|cent(?:er|re)))")


#: "(3 dc, ch 2, 3 dc) corner in next sp": what such a group is.
_IS_CORNER = when_used(r"(?<=[)\]]) ?(?:for |as )?(?:an? |the )?corner (?=in(?:to|side)? (?:the |each |every )?(?:next|same|first|last|following|center|centre|middle|this|ch|sp|1st|corner)\b)")

_ANY_STITCH = r"(?:sc|h?dc|h?tr|dtr|st(?:itch)?)"
#: "Start in centre sc of a corner", "join in the middle sc of any corner": a corner's stitch, wherever the round begins.
_BEGIN_IN = r"(?P<lead>(?:^|[.,;:] )\W*(?:with [a-z ]{1,24}, )?)(?:join(?:ing)?|start(?:ing)?|begin(?:ning)?|attach|fasten on)(?P<yarn> (?:(?:the |new |next )?(?:yarn|colou?r|shade|[a-f]))?)"
_BEGIN_AT_CORNER = when_used(rf"{_BEGIN_IN}(?P<how> ?with (?:an? )?(?:sl ?st|ss|slip stitch))? ?(?:in|to|at|into) (?:the )?(?:middle|cent(?:er|re)) (?P<st>{_ANY_STITCH}) (?:of|in|at) (?:a|any|one|the first|1st|each)(?: 3-?{_ANY_STITCH})? corner\b")
#: "Start with a standing tr in the centre dc of a corner. *(1 tr, 2 ch, 1 tr) in corner dc ...": the group's first, where the page says so.
_STANDING_AT_CORNER = when_used(
    rf"{_BEGIN_IN} ?with (?:an? )?standing (?P<k>{_ANY_STITCH}) (?:in|into) (?:the )?(?:middle|cent(?:er|re)) (?P<st>{_ANY_STITCH}) (?:of|in|at) (?:a|any|one|the first|1st) corner\b"
)
_IS_ITS_FIRST = when_used(rf"[.,;]? ?\(?(?:your |the )?standing {_ANY_STITCH} (?:is|counts as|stands for|makes|will be) (?:the )?(?:first|1st) (?:{_ANY_STITCH} )?of (?:the |your )?(?:first|1st) (?:corner|group)\b\.?\)?")

#: "In each st around starting in the same place, and (...) in each corner sp": all of them, from the first on.
_FROM_SAME = when_used(
    rf"(?P<each>\bin (?:each|every|all) (?:remaining |rem )?(?:{_ANY_STITCH}s?|stitches)(?: (?:around|round))?),? (?:starting|beginning|and start(?:ing)?) (?:in|at|with|from) (?:the )?(?:very )?(?:same|first) (?:place|{_ANY_STITCH}|one)(?: as (?:the )?(?:join(?:ing)?|sl st|ss))?"
)
_FIRST_AND_EACH = when_used(rf"(?P<in>\bin )(?:the )?(?:first|same) {_ANY_STITCH}(?: as (?:the )?(?:join(?:ing)?|sl st|ss))?,? and (?:in )?(?:the )?(?P<each>(?:each|every) {_ANY_STITCH}(?: (?:around|round))?)(?=[,;. ])")
_IN_EACH_CORNER = when_used(r"\bin(?:to)? (?:each|every|all|the 4|the four|each of the) [^,;.()]{0,16}corner")

_OPENING = r"(?:ch(?:ain)?[- ]?\d{1,2}[- ]?|\d{1,2}[- ]?ch[- ]?)?(?:sps?|spaces?|lps?|loops?|corners?|openings?|gaps?)\b"
#: "In each marked ch-1 sp", "to next raglan sp", "in the increase space": the spaces that the increases of a yoke stand about.
_INCREASED_AT = when_used(rf"\b(?P<what>(?:marked|raglan)(?: increases?| inc| corner)?|increase|increasing)(?P<gap>[ -])(?P<ch>{_OPENING})")
#: "To first marker" in a row that works into marked spaces.
_TO_MARKER = when_used(r"(?P<to>\b(?:to|until|before|from)(?: (?:the|first|1st|next|2nd|second|3rd|third|4th|fourth|last|each))* )(?P<what>markers?|raglans?)\b")


def marked_spaces(low: str) -> str:
    """The text with the spaces of a yoke that are marked, or called by their line, told as corners.

    >>> marked_spaces("hdc to first marker, (hdc, ch 1, hdc) in marked ch-1 sp")
    'hdc to first corner, (hdc, ch 1, hdc) in corner ch-1 sp'
    """
    if "corner" in low:
        low = _IS_CORNER.sub(lambda found: " " * len(found[0]), low)
        first = _IS_ITS_FIRST.search(low)
        if first is not None and _STANDING_AT_CORNER.search(low):
            low = low[: first.start()] + " " * len(first[0]) + low[first.end() :]
            low = _STANDING_AT_CORNER.sub(_joined_there, low)
        low = _BEGIN_AT_CORNER.sub(_joined_there, low)
        if _IN_EACH_CORNER.search(low):
            low = _FROM_SAME.sub(lambda found: found["each"].ljust(len(found[0])), low)
            low = _FIRST_AND_EACH.sub(lambda found: f"{found['in']}{found['each']}".ljust(len(found[0])), low)
    if not _INCREASED_AT.search(low):
        return low
    low = _INCREASED_AT.sub(_as_corner, low)
    return _TO_MARKER.sub(lambda found: f"{found['to']}corner".ljust(len(found[0])), low)


def _joined_there(found: re.Match[str]) -> str:
    how = found.groupdict().get("how") or ""
    told = f"{found['lead']}join{found['yarn'].rstrip()}{how} in any corner {found['st']}"
    return told.ljust(len(found[0])) if len(told) <= len(found[0]) else found[0]


def _as_corner(found: re.Match[str]) -> str:
    said = f"corner {found['ch']}" if not found["ch"].startswith("corner") else found["ch"]
    return said.rjust(len(found[0])) if len(said) <= len(found[0]) else found[0]


def sides_evened(low: str) -> str:
    """The text of a round whose corners are told, with its sides told as all their stitches, letter for letter as long.

    >>> sides_evened("dc in each dc along all four sides, (2 dc, ch 2, 2 dc) in each corner")
    'dc in each dc                    , (2 dc, ch 2, 2 dc) in each corner'
    """
    low = _LAST_SIDE.sub(lambda found: " " * len(found[0]), low) if " each " in low else low
    if "corner" in low:
        low = _SIDE_GAP.sub(lambda found: f"{found['in']}each {found['gap']}".ljust(len(found[0])), low)
        low = _BETWEEN_ON_SIDES.sub(lambda found: f"in each sp {found['between'].replace('the ', '').replace('each ', '')}".ljust(len(found[0])), low)
        low = _EACH_SIDE_GAP.sub(lambda found: f"{found['in']}each {found['gap']}".ljust(len(found[0])), low)
        low = _NAMED_CORNER.sub(lambda found: " " * len(found[0]), low)
        low = _TO_WHERE.sub(lambda found: f"{found['to']}corner".ljust(len(found[0])), low)
    low = _ALONG_SIDES.sub(lambda found: found["each"].ljust(len(found[0])), low)
    return _STITCH_ALONG.sub(lambda found: f"{found['st']} in each st".ljust(len(found[0])), low)


def corner_told(low: str) -> str:
    """The group that a row tells for its corners last; "" where it tells none. One that the row begins with is told with
    the stitch that its beginning chain stands for.

    >>> corner_told("ch 3, *(3 dc, ch 2, 3 dc) in next sp for corner, ch 1; rep from * around")
    '(3 dc, ch 2, 3 dc)'
    >>> corner_told("sl st to sp, ch 3, (2 dc, ch 2, 3 dc) in same sp (corner made), ch 1")
    '(3 dc, ch 2, 3 dc)'
    """
    told = [_whole(low, found.start("group"), _bare(found["group"])) for found in _TOLD.finditer(low) if _CHAINED.search(found["group"])]
    told += [f"({found['group']})" for found in _TOLD_BARE.finditer(low)] if not told and "corner" in low else []
    told += [_bare(found["group"]) for found in _NAMED.finditer(low) if _CHAINED.search(found["group"])]
    return told[-1] if told else ""


def corner_worked(low: str) -> str:
    """The last group of a row that may be a corner's, alike on both sides of its chains; "" where there is none.

    >>> corner_worked("ch 3, 2 dc in same sp, *(3 dc, ch 2, 3 dc) in next sp, 3 dc in next sp; rep from * around")
    '(3 dc, ch 2, 3 dc)'
    """
    groups = [_whole(low, found.start(), found[0]) for found in _TWO_SIDED.finditer(low)]
    alike = [group for group in groups if (found := _TWO_SIDED.fullmatch(group)) and (found["n"] or "1") == (found["m"] or "1")]
    return alike[-1] if alike else ""


def _whole(low: str, at: int, group: str) -> str:
    """A group with the stitch that a beginning chain before it stands for, where it is alike on both sides then."""
    found = _TWO_SIDED.fullmatch(group)
    if found is None or not _LED.search(low[:at]) or int(found["n"] or 1) + 1 != int(found["m"] or 1):
        return group
    return f"({found['m']} {found['st']}{group[found.end('st'):]}"


def _begun_by_chain(before: str, behind: str, group: str) -> str:
    """ "Ch 3, corner in same sp": the group without the stitch that the chain stands for."""
    found = _TWO_SIDED.fullmatch(group)
    if found is None or not _LED.search(before) or not re.match(r" (?:in|into) (?:the )?(?:same|that)\b", behind):
        return group
    fewer = int(found["n"] or 1) - 1
    return f"({fewer} {group[found.start('st'):]}" if fewer else group


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
    for aside in _SAID_OF_IT.finditer(low) if group else ():
        start, end = aside.span("said")
        text, low = text[:start] + " " * (end - start) + text[end:], low[:start] + " " * (end - start) + low[end:]
    while group and (found := _AGAIN.search(low)) is not None:
        where = "" if low[found.end() :].startswith((" in ", " into ")) else " in same sp" if found["beg"] else " in next corner sp"
        start, end = found.span("said")
        told = _begun_by_chain(low[:start], low[end:], group) + where
        text, low = text[:start] + told + text[end:], low[:start] + told + low[end:]
    return text, low
