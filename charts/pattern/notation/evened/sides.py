"""The other side of a foundation chain, told by the turn of the hand alone: "3 sc in last ch; rotate; sc in next 4"."""

from __future__ import annotations

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
