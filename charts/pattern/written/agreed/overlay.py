"""What pages of overlay and mosaic rows explain: the stitch at both ends of every row, told in a sentence, and the one that
reaches into a loop of a row further down."""

from __future__ import annotations

import re

from ... import lexicon
from ...when_used import when_used

_ST = r"(?:sts?|stitch(?:es)?)"
_LOOPS = r"(?: (?:worked |made )?(?:in|into|through|under|thru) (?:both|back|front|all)(?: the)? (?:loops?|lps?)(?: only)?)?"
_WORK = rf"(?P<words>(?:an? |1 |one )?(?:{lexicon.ANY_PLAIN}){_LOOPS})"
#: What such a stitch is called.
_NAME = rf"[\"'\u201c]?(?P<name>[a-z]+(?:[ -]{_ST})?)[\"'\u201d]?"
_CALLED = rf"(?:,? ?\(?(?:(?:we(?:'ll| will)? |i |i'll )?(?:call(?:ed)?|named?|write|written|shown as|marked)(?: (?:it|this|them|as|the|an?))* |= ?|the |an? )?{_NAME}(?: below| here)?\)?)"
_OF_ROWS = r"(?: (?:of|in|on) (?:each|every|all|the|a)(?: of the)? (?:row|rnd|round)s?)"
#: "The first and last st of each row is a sc through both loops ("edge")", "..., called the border st, is a sc ...".
_FIRST_AND_LAST = when_used(
    rf"\W*(?:the )?(?:first and (?:the )?last|last and (?:the )?first) {_ST}{_OF_ROWS},?(?P<before> ?\(?(?:called|named|the|=)[^()]*?\)?,?)? (?:is|are)(?: always| each| worked as| made as)* {_WORK}(?P<behind>\W.*)?"
)
#: "Every row begins and ends with an edge st: sc in both loops", "... with a sc in both loops (edge st)".
_BEGINS_AND_ENDS = when_used(
    rf"\W*(?:each|every|all) (?:row|rnd|round)s? (?:always )?(?:begins?|starts?) and (?:ends?|finish(?:es)?) with (?:(?:an? |one |1 |the )?{_NAME}(?: ?[:=(,-]+ ?| which is | that is ){_WORK}|(?P<told>(?:an? |1 |one )?(?:{lexicon.ANY_PLAIN}){_LOOPS})(?P<behind>\W.*))\W*"
)
_BEHIND = when_used(rf"\W*?{_CALLED}\W*")
#: Names that are none: what such a sentence says else.
_NO_NAMES = frozenset(("only", "always", "throughout", "here", "loop", "loops", "below", "st", "stitch", "sts", "counted"))

#: "Mosaic double: dc in ...", "overlay dc, worked in ...": the full name before the words of a stitch.
_FULL_NAME = when_used(
    r"\s*(?P<how>(?:mosaic|overlay|drop(?:ped)?(?:[ -]down)?|spike|long|tall|inset|dip|deep) )(?P<st>(?:sc|hdc|dc|htr|tr|dtr|single|half double|double|treble|triple)(?: crochet)?|st(?:itch)?)(?P<mark> ?[:,\u2013-]+ ?| \()(?P<rest>(?:worked |made |work |an? |1 )*(?P<own>sc|hdc|dc|htr|tr|dtr)?.*)$",
    re.DOTALL | re.IGNORECASE,
)
_FULL_STITCH = {"single": "sc", "half double": "hdc", "double": "dc", "treble": "tr", "triple": "tr"}
#: "The free front loop": which of two it is, is said by "front".
_FREE = when_used(r"\b(?:free|unworked|unused|exposed|remaining|empty|open) (?=(?:front|back) (?:loop|lp)\b)", re.IGNORECASE)
#: "Dc flo 2 rows below": in that loop.
_LOOP_BELOW = when_used(r"\b(?P<st>sc|hdc|dc|htr|tr|dtr) (?P<loop>flo|blo) (?=(?:\d|two|three|of (?:the )?(?:st|stitch|sc|dc)\b).{0,30}\b(?:below|down)\b)", re.IGNORECASE)
#: "... Always skip the st behind it.": a sentence of its own for what the stitch hides.
_HIDDEN = when_used(
    rf"\s*[.;,(]\s*(?:(?:always|then|and|remember to|do|please|you|must|now) )*(?P<skip>skip|sk|miss|skipping|leave|ignore|missing) (?:the |1 |one |a )*(?:{_ST}|sc|hdc|dc)(?: (?:of|in|on) (?:the )?(?:current|working|previous|last|same) (?:row|rnd|round))?(?: (?:directly|right|just))? (?:behind|underneath|in back of)(?: (?:it|this|that|your|the|each|mosaic|overlay|new|long|tall|{_ST}|hdc|sc|dc|tr|mdc))*(?: (?:unworked|free|alone))?\W*$",
    re.IGNORECASE,
)


def edge_told(low: str) -> tuple[str, str] | None:
    """The name of the stitch that a sentence says begins and ends every row, and what it is.

    >>> edge_told('the first and last st of each row is a sc through both loops ("edge").')
    ('edge', 'sc through both loops')
    >>> edge_told("the first and last st of each row is a sc through both loops.")
    """
    found = _FIRST_AND_LAST.fullmatch(low) or _BEGINS_AND_ENDS.fullmatch(low)
    if found is None:
        return None
    groups = found.groupdict()
    name = groups.get("name")
    for said in (groups.get("before"), groups.get("behind")):
        called = _BEHIND.fullmatch(said.strip()) if said and not name else None
        name = called["name"] if called else name
    words = groups["words"] or groups.get("told") or ""
    return (name, re.sub(r"^(?:an?|1|one) ", "", words)) if name and name not in _NO_NAMES else None


def overlay_words(said: str) -> str:
    """What an overlay stitch is worked as, without its full name, and with what it hides as a clause.

    >>> overlay_words("mosaic double: dc in the free front loop 2 rows below. Always skip the st behind it.")
    'dc in the front loop 2 rows below; skip the st behind it'
    >>> overlay_words("dc in next st")
    'dc in next st'
    """
    named = _FULL_NAME.match(said)
    if named is not None:
        stitch = named["st"].lower().removesuffix(" crochet")
        own = "" if named["own"] or stitch.startswith("st") else f"{_FULL_STITCH.get(stitch, stitch)} "
        said = f"{own}{named['rest'].rstrip(')') if '(' in named['mark'] else named['rest']}" if own or named["own"] else said
    if not re.search(r"front|back|below|down", said, re.IGNORECASE):
        return said
    hidden = _HIDDEN.search(said)
    said = said[: hidden.start()] + "; skip the st behind it" if hidden else said
    said = _LOOP_BELOW.sub(lambda found: f"{found['st']} in {'front' if found['loop'].lower() == 'flo' else 'back'} loop ", said)
    return _FREE.sub("", said)
