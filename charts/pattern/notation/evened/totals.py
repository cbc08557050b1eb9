"""What a row comes to, told behind its work: "until 12 sts remain", "you will have an 8-petal flower".

Every function takes a row's text in lower case and gives it letter for letter as long as before.
"""

from __future__ import annotations

import re

from ... import lexicon
from ...when_used import when_used

_NUMBER = rf"(?:\d{{1,3}}|{lexicon.NUMBER_WORDS})"
_HAVE = r"(?:(?:there|you|we)(?:'ve| are| is| have| will have| will be|'re)(?: now)?(?: got| made| left with| down to)? )"
#: "until there are only 8 sts left": behind work that changes how many there are, what the round comes to.
_UNTIL = when_used(
    rf"(?P<lead>,?\s\(?)(?:until|till|til|'til) {_HAVE}?(?:only |just )?(?:the last )?(?P<n>{_NUMBER})(?P<noun> (?:sts?|stitches))?"
    r"(?P<how> (?:are |is |have been |were )?(?:left|remain(?:s|ing)?|made|worked|in total|in all|total))?(?: (?:on|in|around|of) (?:the |your |this )?(?:round|rnd|row|circle|piece))?(?P<close>\)?)"
    r"(?=\s*(?:$|[.;!(\[]|, ?(?:fasten|finish|cut|join|leav|close|stuff|break|sew|tie)))"
)
_DECREASES = when_used(r"\b(?:inv(?:isible)? ?)?dec(?:'?d|s|r|rease[sd]?|reasing)?\b|\d ?tog\b|\b[a-z]+[2-9]tog\b")
_INCREASES = when_used(r"\binc(?:s|r|rease[sd]?|reasing)?\b|\b(?:[2-9]|two|three) ?(?:sts|sc|hdc|dc|htr|tr)s? (?:in|into) (?:the )?(?:next|each|every|same)\b")
_TO_THE_END = when_used(r"\b(?:around|across|round|(?:to|until) (?:the )?end)\W*$")
_TURNS = when_used(r"\bturn")
_LEFT = when_used(r"left|remain")
#: "an 8-petal flower", "a flower with 8 petals".
_FLOWER = when_used(
    rf"(?P<lead>\b(?:have|has|got|get|makes?|made|gives? you|creates?|forms?) )(?P<a>an? (?:[a-z]+ )?)(?P<n>{_NUMBER}) ?-?(?P<petals>petal(?:s|led|ed)?) (?:flower|rosette|daisy|blossom)"
    rf"|(?P<lead2>\b(?:have|has|got|get|makes?|made|gives? you) )(?P<b>an? (?:[a-z]+ )?(?:flower|rosette|daisy|blossom|circle|ring)(?: shape)? (?:with|of|that has) )(?={_NUMBER} (?:petals|loops|points|spaces|sps))"
)
#: "(having 8 groups with ch 1 between)", "(thus forming 9 loops)": a count in brackets.
_IN_BRACKETS = when_used(
    rf"(?<=\()(?P<lead>(?:thus |so |for )?(?:forming|making|having|giving|creating|to form|to make|to give|a total of|total of)(?: you)?(?: a total of)? )(?={_NUMBER} (?:\d-?ch |ch-?\d |ch |chain )?"
    r"(?:loops?|lps?|sps?|spaces?|petals?|groups?|shells?|clusters?|points?|arcs|arches|bars|spokes|scallops|picots|sts|stitches)(?: (?:with|in all|in total|altogether|around|on)\b[^()]*)?\))"
)
#: "Turn. 4 sts before center ch-3 sp.": how many stand there, as a sentence of its own.
_BESIDE = when_used(
    rf"(?<=[.;] ){_NUMBER} (?:sts?|stitches|sc|hdc|dc|htr|tr) (?:before|after|(?:on |at )?(?:each|either|both) sides? of|between) (?:the |each )?(?:cent(?:er|re)|marker|marked|corner|ch-?\d|points?)\b[^.;()]{{0,24}}(?=\s*[.;]|\s*$)"
)


#: "..., sc in next 3 sc for a total of 6 sc, join": the count, before what closes the round.
_TOTAL_OF = when_used(
    rf"(?<=[a-z0-9)])(?P<lead>,? (?:(?:so )?for|making|giving(?: you)?|to make|to give(?: you)?|which (?:makes|gives)(?: you)?) an? (?:grand )?total of )"
    rf"(?P<count>(?:\d{{1,3}}|{lexicon.NUMBER_WORDS}) ?(?:sts?|stitches|sc|h?dc|h?tr|dtr|(?:single|double|half double|treble) crochets?))(?=\s*(?:$|[.,;]))"
)


def totals_evened(low: str) -> str:
    """The text with what the row comes to told as a count behind a colon.

    >>> totals_evened("(sc2tog) around until 8 sts remain. fasten off").split()
    ['(sc2tog)', 'around', ':', '8', 'sts', '.', 'fasten', 'off']
    """
    low = _BESIDE.sub(lambda found: " " * len(found[0]), low)
    low = _TOTAL_OF.sub(lambda found: f" ({found['count']})".ljust(len(found[0])), low)
    low = _IN_BRACKETS.sub(lambda found: " " * len(found["lead"]), _FLOWER.sub(_petals, low))
    found = _UNTIL.search(low)
    if found is None or not _comes_to(low, found):
        return low
    along = "" if _TO_THE_END.search(low[: found.start()]) else " ar"
    told = f"{along} : {found['n']}{found['noun'] or ''}"
    return low[: found.start()] + told.ljust(len(found[0])) + low[found.end() :] if len(told) <= len(found[0]) else low


def _petals(found: re.Match[str]) -> str:
    if found["lead2"]:
        return found["lead2"] + " " * len(found["b"])
    return f"{found['lead']}{found['n']} petals".ljust(len(found[0]))


def _comes_to(low: str, found: re.Match[str]) -> bool:
    """Whether "until 8 sts" tells what a round comes to: what is worked so long decreases, or increases and nothing is said to be left."""
    again = _again_and_again(low[: found.start()])
    left = bool(_LEFT.search(found["how"] or ""))
    if found["noun"] is None and not left:
        return False
    if _TURNS.search(low):
        return False
    if _DECREASES.search(again):
        return True
    return not left and bool(_INCREASES.search(again))


def _again_and_again(before: str) -> str:
    """What comes again before such words: what a star or a bracket holds, else the last clause."""
    said = _TO_THE_END.sub("", before).rstrip(" ,;")
    if said.endswith((")", "]")) and (opened := max(said.rfind("("), said.rfind("["))) >= 0:
        return said[opened:]
    if "*" in said:
        return said[said.index("*") :]
    return re.split(r"[,.;:]", said)[-1]
