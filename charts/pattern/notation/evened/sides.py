"""The other side of a foundation chain, told by the turn of the hand alone: "3 sc in last ch; rotate; sc in next 4"."""

from __future__ import annotations

import re

from ...when_used import when_used

#: "Rotate" behind work into the last chain, with work behind it that does not say itself where it goes.
_ROTATED = when_used(
    r"\b(?:last|end) (?:ch|chain)\b[^.;]{0,30}?[.;,] (?P<said>(?:now |then )?(?:rotate|pivot|turn (?:the |your )?(?:work|piece) (?:upside down|around|to the other side))(?: (?:the |your )?(?:work|piece|chain))?(?: 180(?: ?degrees)?)?)"
    r"(?=[.;,:] ?(?![^.;]{0,60}(?:other|opposite|under) ?side)(?!(?:now |then |and |continue |next )*(?:work|working|crochet|along|on|in|up|down|going|continue)\b)[\d*(\[a-z])"
)
_ON_CHAIN = when_used(r"\bfrom (?:the |your )?hook\b|\b(?:2nd|3rd|second|third) ch(?:ain)?\b")
_OTHER_SIDE = "working along other side of ch"


def other_side_told(text: str, low: str) -> tuple[str, str]:
    """A row's words, as printed and in lower case, with a turn of the hand at the end of the chain told as the other side.

    >>> other_side_told("Sc in 2nd ch, 3 sc in last ch; rotate; sc in next 2", "sc in 2nd ch, 3 sc in last ch; rotate; sc in next 2")[1]
    'sc in 2nd ch, 3 sc in last ch; working along other side of ch; sc in next 2'
    """
    found = _ROTATED.search(low)
    if found is None or not _ON_CHAIN.search(low[: found.start("said")]):
        return text, low
    start, end = found.span("said")
    return text[:start] + _OTHER_SIDE + text[end:], low[:start] + _OTHER_SIDE + low[end:]


_PLAIN = r"(?:sc|hdc|dc|htr|tr|dtr)"
_SPACE = r"(?:sps?|spaces?|lps?|loops?)"
#: "Dc over dc and ch 3 over ch-3 sps", "dc in dc, 3 dc in each sp": told once of all that come.
_OVER_LIKE = when_used(
    rf"\b(?P<k>{_PLAIN}) (?:over|in|on) (?P=k)(?P<and>,? and |, ?)(?:work |make )?(?:(?P<chain>ch ?(?P<n>\d{{1,2}})) (?:over|in|on) (?:the )?ch-?(?P=n)(?: ?{_SPACE})?(?=\s*(?:[,;.]|$|across|around|to end))|(?P<more>\d{{1,2}} {_PLAIN} in each {_SPACE}\b))"
)


#: "Sc over sc and dc over dc across", "dc in sc and sc in dc": told once of all that come.
_BOTH_LIKE = when_used(
    rf"\b(?P<k>{_PLAIN}) (?:over|in|on) (?P<a>{_PLAIN})(?:,? and |, ?|,? & )(?P<l>{_PLAIN}) (?:over|in|on) (?P<b>{_PLAIN})(?=(?: all)?(?: (?:across|around|along|to (?:the )?end|throughout))|\s*(?:[.;(]|$))"
)
#: "Sc, dc across": two stitches told once, worked by turns.
_TWO_ACROSS = when_used(
    rf"^(?P<lead>\W*(?:ch ?\d(?:,? turn)?[,.;]? ?)?(?:turn[.,;]? ?)?)(?P<said>(?:1 )?{_PLAIN}(?: 1)?(?:, ?(?:1 )?{_PLAIN}(?: 1)?)+)"
    r" (?:repeat )?(?:across|around|to (?:the )?end(?: of (?:the )?(?:row|rnd|round))?|all the way (?:across|around))(?=\s*(?:[;.(]|,? ?(?:ch|turn)\b|$))"
)


def told_of_all(text: str, low: str) -> tuple[str, str]:
    """A row's words, as printed and in lower case, with a stitch over its like and chains over theirs told of each of them,
    where nothing is said to come again.

    >>> told_of_all("Dc over dc and ch 3 over ch-3 sps.", "dc over dc and ch 3 over ch-3 sps.")[1]
    'dc in each dc and ch 3 over each ch-3 sp.'
    """
    alone = "next" not in low and "each" not in low
    if alone and (found := _TWO_ACROSS.match(low)) is not None and len(set(re.findall(_PLAIN, found["said"]))) > 1:
        start, end = found.span("said")
        return f"{text[:start]}({text[start:end]}){text[end:]}", f"{low[:start]}({low[start:end]}){low[end:]}"
    if alone and "*" not in low and "rep" not in low and (found := _BOTH_LIKE.search(low)) is not None:
        told = f"{found['k']} in each {found['a']} and {found['l']} in each {found['b']}"
        return text[: found.start()] + told + text[found.end() :], low[: found.start()] + told + low[found.end() :]
    found = _OVER_LIKE.search(low) if "*" not in low and "rep" not in low and "(" not in low[:3] else None
    if found is None:
        return text, low
    rest = f"{found['chain']} over each ch-{found['n']} sp" if found["chain"] else found["more"]
    told = f"{found['k']} in each {found['k']}{' and ' if found['chain'] else found['and']}{rest}"
    return text[: found.start()] + told + text[found.end() :], low[: found.start()] + told + low[found.end() :]
