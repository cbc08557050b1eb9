"""What pages written in haste say in words or signs of their own: places counted off one by one ("in first, in second, in
third"), chain spaces told with another sign ("chain,2 space"), a repeat "for the whole round".

Every function takes a row's text in lower case and gives it letter for letter as long as before.
"""

from __future__ import annotations

import re

from ... import lexicon
from ...when_used import when_used

_REP = r"\b(?:rep(?:eat(?:ing|s)?|s)?|rpt)\b"
_ST = r"(?:sts?|stitch(?:es)?|sc|hdc|dc|htr|tr)"
_ORD = r"(?:first|1st|second|2nd|third|3rd|fourth|4th|fifth|5th|sixth|6th|seventh|7th|eighth|8th|ninth|9th|tenth|10th)"
#: "Sc in first", "in the 2nd st", "skip third": one place by its number, which nothing more is said of.
_COUNTED_PLACE = when_used(
    rf"\b(?:in|into|over|across|sk|skip|miss)(?P<said> (?:the )?(?P<a>{_ORD})(?: (?:and|&) (?:the )?(?P<b>{_ORD}))?(?P<st> {_ST})?)(?P<room> ?[,;.)\]*] ?|$| (?=and |then |rep|around|\(|\[))"
)
#: What begins to count anew.
_PARTED = when_used(r"[()\[\]*]")
#: "Chain,2 space", "ch. 2 sp", "chain -2 space", "ch - 2 sp".
_CHAIN_SPACE = when_used(
    r"\b(?P<ch>ch|chain)(?P<sign>,(?=\d)|, ?(?<=(?:next|each|same|irst|last|very|this) ch, )|, ?(?<=(?:next|each|same|irst|last|very|this) chain, )|\. ?(?<=(?:next|each|same|irst|last|very|this) ch\.)|\. (?<=(?:next|each|same|irst|last|very|this) ch\. )|,? ?- ?)(?P<n>\d{1,2})(?P<gap>[ -]?)(?P<sp>sps?|spaces?)\b"
)
#: "(sc, chain,2, sc)": so many chains.
_CHAINS = when_used(r"\b(?P<ch>ch|chain),(?=\d{1,2} ?(?:[,;.)*]|$))")
#: "Repeat for the whole round", "keep repeating this all the way round", "do this the entire row".
_WHOLE = when_used(
    rf"\b(?P<said>(?:(?:keep|go on|continue) )?(?:{_REP}|do(?:ing)?(?= (?:this|that|it|so)\b))(?: (?:this|that|it|these|so|the same|this pattern|these steps))?(?: (?:for|over|through|throughout|along|in|on))?"
    r" (?:the |this )?(?:whole|entire|complete|full|rest of the) )(?P<row>rounds?|rnds?|circle|rows?|way (?:a?round|across))\b"
)
#: "Repeat all around from * to last 2 sc", "rep across from * to end".
_ALONG_FROM = when_used(
    rf"(?P<rep>{_REP})(?P<along> (?:(?:all )?(?:the way )?(?:a?round|across|along)|all))(?P<from> from (?P<star>\*+))(?= (?:to|until|till|up to|ending)\b)"
)
#: "2 sc in first sc, sc in next (21). Repeat around": the count stands before what is counted.
_COUNT_BEFORE = when_used(
    rf"(?P<count> ?[(\[] ?\d{{1,3}}(?: [a-z]+)? ?[)\]])(?P<stop> ?[.,;]? ?)(?P<rep>{_REP} (?:around|across|to (?:the )?end(?: of (?:the )?(?:round|rnd|row))?))(?=\s*(?:[.;,!]|$))"
)
#: "Sc by putting hook under back loop of next sc": where the hook goes in.
_HOOK_PUT = when_used(r"\bby (?:putting|inserting|placing|sticking|pushing) (?:the |your )?hook (?:under(?:neath)?|in(?:to)?|through|thru)(?= )")
#: "Join in of first sc", "in 4th st in of beg ch": two words for one place.
_TWO_WORDS = when_used(rf"(?P<before>\b(?:{_ORD}|{_ST}|ch(?:ain)?|top|loop|lp|sp|space) )?\b(?:in of|of in)\b(?= [a-z\d])")
#: "Do nott join": what is not done, misspelt.
_NOT = when_used(r"\bdo (?P<not>nott|noot|nto|noy|nor|ont|mot|nit|nt|no)(?= (?:join|turn|close|fasten|count|skip|sk|work|ch|chain|cut|break)\b)")
_SPACE = r"(?:(?:ch|chain)[- ]?\d? ?)?(?:sps?|spaces?|lps?|loops?|corners?|arche?s?)"
#: "2 tr in first sp, (3 tr, ch 1) in each other sp": in all but that one.
_EACH_OTHER = when_used(rf"(?P<lead>\bin(?:to)? (?:the )?(?:first|1st|same|next|this) {_SPACE}\b.*?\bin(?:to)? )(?P<each>(?:each|every) other)(?= {_SPACE}\b)")
#: "6 tr in ch sp and sl st in next dc, repeat in each ch sp": all of it.
_IN_EACH_SPACE = when_used(
    rf"(?P<lead>\bin(?:to)? (?:the )?(?:next |first |1st )?{_SPACE}\b[^.*()]*?\bin(?:to)? (?:the )?(?:next |first )?{_ST}\b[^.*(),;]{{0,20}}),? (?P<rep>{_REP} (?:(?:this|these|that) )?(?:in|for|into) (?:each|every|all) (?:the )?{_SPACE}(?: around)?)\b"
)
#: "2 sc in next st around, (1 x sc, 1 x 2 sc) around": said again.
_AMOUNT = r"\d ?x ?(?:\d ?)?(?:sc|hdc|dc|htr|tr|sts?|inc|dec)"
_SAID_AGAIN = when_used(rf"(?P<along>\b(?:around|across))(?P<again>,? ?[(\[]{_AMOUNT}(?: ?[,+&] ?{_AMOUNT}){{1,3}}[)\]] ?(?:around|across))\b")


#: "Repeat until you have worked into the last st": to the end.
_WORKED_LAST = when_used(
    rf"(?P<til>\b(?:until|till|til) )(?:(?:you|we)(?: have|'ve)? |(?:the |your )?(?=last))(?:(?:work|worked|reach|reached|crocheted|stitched|fill|filled|got|get|have)(?: all)? )?(?:in(?:to)? |to |through )?(?:the |your )?(?:very )?last {_ST}(?: (?:has been|is|was) (?:worked|reached|filled))?(?= ?(?:[,.;)*(]|$))"
)


def hasty_evened(low: str) -> str:
    """The text in the words that others use.

    >>> hasty_evened("[sc in first, sc in second, 2 sc in third] around")
    '[sc in first, sc in next,   2 sc in next]  around'
    >>> hasty_evened("2 dc in next chain,2 space"), hasty_evened("repeat for the whole round.")
    ('2 dc in next chain-2 space', 'repeat around             .')
    """
    low = _counted_off(low) if "second" in low or "2nd" in low else low
    low = _CHAIN_SPACE.sub(_chain_space, low)
    low = _CHAINS.sub(r"\g<ch> ", low) if "," in low else low
    low = _WHOLE.sub(_whole, low) if "round" in low or "row" in low or "rnd" in low else low
    low = _COUNT_BEFORE.sub(_counted_behind, low) if "*" not in low else low
    low = _ALONG_FROM.sub(lambda m: m["rep"] + m["from"] + " " * len(m["along"]), low) if "from *" in low else low
    low = _HOOK_PUT.sub(lambda m: "in".ljust(len(m[0])), low) if "hook" in low else low
    low = _TWO_WORDS.sub(lambda m: (m["before"] or "") + ("of   " if m["before"] else "in   "), low) if "of" in low else low
    low = _WORKED_LAST.sub(_to_end, low) if "last" in low and "til" in low else low
    low = _NOT.sub(lambda m: "do not".ljust(len(m[0])) if len(m["not"]) > 2 else "don't", low) if "do " in low else low
    low = _EACH_OTHER.sub(lambda m: m["lead"] + "each rem".ljust(len(m["each"])), low) if " other " in low else low
    low = _IN_EACH_SPACE.sub(lambda m: f"{m['lead']}, repeat around".ljust(len(m[0])) if len(m[0]) > len(m["lead"]) + 15 else m[0], low) if " in e" in low and "rep" in low else low
    return _SAID_AGAIN.sub(lambda m: m["along"] + " " * len(m["again"]), low)


def _counted_off(low: str) -> str:
    """Places that are counted off one by one as the next ones."""
    out: list[str] = []
    last = end = done = 0
    for found in _COUNTED_PLACE.finditer(low):
        number = 1 if found["a"] == "first" else lexicon.ordinal(found["a"]) or 0
        further = lexicon.ordinal(found["b"]) if found["b"] else None
        last = 0 if _PARTED.search(low, end, found.start()) else last
        start = found.start("said")
        if number > 1 and number == last + 1 and further in (None, number + 1):
            told = (" next 2 sts" if further else " next") + (found["st"] or "") * (not further)
            whole = (told + found["room"]).rstrip(" ") + " "
            space = found.end() - start
            if len(whole.rstrip()) <= space:
                out += [low[done:start], whole.ljust(space)[:space]]
                done = found.end()
        last, end = (further or number) if number in (1, last + 1) else 0, found.end("said")
    return "".join(out) + low[done:]


def _chain_space(found: re.Match[str]) -> str:
    told = f"{found['ch']}-{found['n']} {found['sp']}"
    return told.ljust(len(found[0])) if len(told) <= len(found[0]) else found[0]


def _whole(found: re.Match[str]) -> str:
    along = "across" if found["row"].startswith("row") or found["row"].endswith("across") else "around"
    return f"repeat {along}".ljust(len(found[0]))


def _counted_behind(found: re.Match[str]) -> str:
    sign = found["stop"] if found["stop"].strip() else ", "
    told = f"{sign.strip()} {found['rep']} {found['count'].strip()}"
    return told.ljust(len(found[0])) if len(told) <= len(found[0]) else found[0]


def _to_end(found: re.Match[str]) -> str:
    """To the end, where the last stitch is said to be worked or reached into; "until last st" stops before it."""
    worked = re.search(r"\b(?:work|reach|crochet|stitch|fill)", found[0])
    return "to end".ljust(len(found[0])) if worked and re.search(r"\b(?:in(?:to)?|worked|filled|crocheted|stitched)\b", found[0]) else found[0]
