"""Increases and decreases that say in a bracket how they are worked: "inc in next st (2 sc in same st)", "dec (sc2tog)".

Every function takes a row's text in lower case and gives it letter for letter as long as before.
"""

from __future__ import annotations

import re

from ... import lexicon
from ...when_used import when_used

_NUMBER = r"(?:[2-5]|two|three|four|five)"
_STITCH = rf"(?:{lexicon.ANY_PLAIN})s?"
_ST = rf"(?:sts?|stitch|sp|space|ch|chain|place|one|{_STITCH})"
#: What is worked into a place: "3 dc", "dc, ch 1, dc".
_WORK = rf"(?P<work>(?:{_NUMBER} ?{_STITCH}|{_STITCH}(?: ?(?:, ?|and |\+ ?)(?:{_STITCH}|ch[ -]?\d|\d ?ch)){{1,4}}))"
_INCREASE = when_used(
    r"(?<![a-z])(?P<inc>inc(?:r|rease)?(?: (?:1|one)(?: (?:st|stitch))?)?)"
    rf"(?P<place> (?:in|into|on) (?:the )?(?:next|same|first|last|each|every|following|foll|cent(?:er|re)|middle)\b(?: [a-z0-9-]+){{0,5}}?)?"
    rf"(?: ?[(\[] ?(?:=|that is,?|i\.?e\.?,?)? ?(?:by )?(?:work(?:ing)? |mak(?:e|ing) |do(?:ing)? )?{_WORK} (?:both )?(?:in|into) (?:the )?(?P<in>same|one|next|that|each)(?: {_ST})?(?: (?:as )?(?:1|an?) inc(?:rease)?)? ?[)\]]"
    rf"|,? by (?:working|making|doing|putting) {_WORK.replace('?P<work>', '?P<work2>')} (?:both )?(?:in|into) (?:the )?(?:same|one|next|that)(?: {_ST})?(?=[\s,;.)*]|$))"
    r"(?P<behind> (?:in|into|on) (?:the )?(?:next|first|last|each|every|following|foll|same)\b)?"
)
_TOG = rf"(?:(?:work(?:ing)? |mak(?:e|ing) )?(?:{_STITCH} ?(?:next )?[23] ?(?:sts? )?tog(?:ether)?|(?:fp|bp)?(?:{_STITCH})[23]tog))"
_DECREASE = when_used(
    r"(?<![a-z])(?P<dec>(?:inv )?dec(?:r|rease)?(?: (?:1|one)(?: (?:st|stitch))?)?)"
    r"(?P<place> (?:over|across|in|on|using|at) (?:the )?(?:next|first|last|following|foll|same|these|those)\b(?: [a-z0-9-]+){0,3}?)?"
    rf" ?[(\[] ?(?:=|that is,?|i\.?e\.?,?|by )? ?(?P<tog>{_TOG})(?P<over> (?:over|in|across) (?:the )?(?:next|first|last) (?:2|3|two|three) {_ST})? ?[)\]]"
)


#: "... turn. Cont on these 12 sts for first side.": what the row has left to go on with.
_ON_THESE = when_used(
    rf"(?:(?<=[.;,])|(?<=turn))(?P<said>\s*(?:now |then |and )?(?:cont(?:inue|inuing)?|proceed|work(?:ing)?|go(?:ing)? on)(?: working| to work)? (?:on|over|with|across|in patt(?:ern)? on) (?P<these>these|those)(?: (?:same|rem|remaining))? (?P<n>\d{{1,3}}) "
    rf"?(?:sts?|stitches|{lexicon.ANY_PLAIN})(?: only)?(?:,? (?:for|as|to) (?!(?:the next |another |a further )?\d)[^,.;()*]{{0,40}})?)(?=\s*(?:[.;:]|$))"
)


#: "Sc next 2 sc tog", "work next 2 dc together": how older leaflets tell a decrease.
_NEXT_TOGETHER = when_used(
    rf"(?<![a-z])(?P<stitch>{lexicon.ANY_PLAIN}|work) (?:the |over )?next (?P<n>2|3|two|three) (?P<of>sts?|stitches|{lexicon.ANY_PLAIN})s? tog(?:ether)?(?![a-z])"
)
#: "Work across in dc": in dc across.
_ACROSS_IN = when_used(rf"(?<=\bwork )(?P<along>across|around|even|back) in (?P<stitch>{lexicon.ANY_PLAIN})s?(?= ?(?:[,.;]|$))")


#: "1 sc 1 inc x6": numbers part what no comma does.
_NO_COMMA = when_used(rf"(?<![a-z0-9])(?P<a>\d{{1,2}} ?(?:{lexicon.ANY_PLAIN}))(?P<gap> )(?=\d{{1,2}} ?(?:inc|dec)(?:rease)?s?\b)")
#: "1 sc then inc": two clauses, and no increase in sc.
_THEN = when_used(rf"(?P<a>(?<![a-z])(?:{lexicon.ANY_PLAIN}|sts?|stitch|stitches))(?P<then>,? (?:and )?then )(?=(?:an? |one |1 )?(?:inc|dec)(?:rease)?\b)")
#: "One plain sc, one increase", "1 normal, 1 inc": one stitch as usual.
_AS_USUAL = when_used(rf"(?<![a-z0-9])(?P<n>an?|one|\d{{1,2}}|{lexicon.NUMBER_WORDS}) (?P<how>plain|normal|regular|ordinary|usual|simple)(?: (?P<st>{lexicon.ANY_PLAIN}|sts|stitch(?:es)?|st|one|ones)\b)?(?=[^.;]*\b(?:inc|dec))")
#: "1 sc, 1 inc * 6 = 18": so many times, where no other star stands.
_STAR_TIMES = when_used(r"(?<=[a-z)]) (?P<star>\*) ?(?P<n>\d{1,2})(?=\s*(?:[=(.]|$))")
#: "Increasing in the first and last st": at each end.
_FIRST_AND_LAST = when_used(
    r"(?P<how>(?<![a-z])(?:inc|dec)(?:reas(?:e|ing))?)(?: (?:1|one|a)(?: (?:st|stitch|sc|hdc|dc|htr|tr))?)? (?:in|at|on) (?:the )?first (?:(?:st|stitch|sc|hdc|dc|htr|tr) )?and (?:in |at )?(?:the )?last(?: (?:sts?|stitch(?:es)?|sc|hdc|dc|htr|tr))?(?![a-z0-9])(?! \d)"
)
#: "..., turn and work on these sts only": the others are left.
_THESE_ONLY = when_used(r"(?P<and>,? ?(?:and |then )?)(?:work(?:ing)?|cont(?:inue)?(?: working)?) (?:(?:only )?on|over) (?:just )?these (?:sts|stitches),?(?: only)(?=\s*(?:[.,;]|$|for\b))")
#: "Decrease each end as in the last dec row": as before.
_AS_SHAPED = when_used(r"(?P<as>\b(?:as|like) )(?:(?:in|on) )?(?:the )?(?:last|previous) (?:inc|dec)(?:rease)? (?:row|rnd|round)(?=\s*(?:[.,;(]|$))")
#: "Bind off 4 sts": they are slipped over.
_BIND_OFF = when_used(r"(?<![a-z])(?:bind|cast) off (?:the )?(?:first |next )?(?P<n>\d{1,2}|[a-z]+) (?:sts|stitches)(?P<how> ?\([^()]*(?:sl ?st|slip)[^()]*\))?")
#: "Next 2 htr together as 1 dc", "by working two stitches together as one sc": the decrease that it is.
_TOGETHER_AS = when_used(
    r"(?P<work>(?:work(?:ing)?|crochet(?:ing)?|tak(?:e|ing)) )?(?P<next>(?:the )?(?:next )?)(?P<n>[2-5]|two|three|four|five) (?:sts?|stitches|sc|hdc|dc|htr|tr|dtr) tog(?:ether)? as (?:1|one|a|a single|if one) (?P<st>sc|hdc|dc|htr|tr|dtr)(?![a-z])"
)
#: "Work every 2 stitches together", "each pair of sts together": decreases all along.
_BY_PAIRS = when_used(
    r"(?<![a-z])dec(?:rease)? (?:over|across|in|on) (?:each|every) (?:2|two|pair of) (?:sts?|stitches|sc|hdc|dc|htr|tr)(?: (?:all )?(?:the way )?(?:a?round|across))?(?![a-z])|"
    r"(?<![a-z])(?:(?:work|crochet|take|join) )?(?:each|every|all) (?:2|two|pairs? of)(?: (?:sts?|stitch(?:es)?|sc|hdc|dc|htr|tr))? tog(?:ether)?(?P<along> (?:all )?(?:the way )?(?:a?round|across))?(?![a-z])"
)
_ORD = r"(?:\d{1,2}(?:st|nd|rd|th)|second|third|fourth|fifth|sixth|seventh|eighth)"
#: "Every 3rd and 4th stitch together": two plain, then a decrease.
_NTH_PAIR = when_used(
    rf"(?<![a-z])(?:(?:work|crochet|take|join) )?(?:each|every) (?P<a>{_ORD}) (?:and|&) (?P<b>{_ORD})(?: (?:sts?|stitch(?:es)?|sc|hdc|dc|htr|tr))? tog(?:ether)?(?P<along> (?:all )?(?:the way )?(?:a?round|across))?(?![a-z])"
)
#: "Six more stitches evenly spaced": increases.
_MORE_EVENLY = when_used(rf"^(?P<lead>\W*)(?:(?:work|make|add|get) )?(?P<n>\d{{1,2}}|{lexicon.NUMBER_WORDS}) (?:more|extra|additional) (?:sts|stitches|{lexicon.ANY_PLAIN}),? (?P<how>evenly)(?: spaced| spread| distributed)?")


def shaping_told_evened(low: str) -> str:
    """The text with such shaping told by the stitches in its bracket alone.

    >>> shaping_told_evened("inc in next st (2 sc in same st), dec (sc2tog)").split()
    ['2', 'sc', 'in', 'next', 'st', ',', 'sc2tog']
    >>> shaping_told_evened("inc (2 sc in same st) in each st").split()
    ['2', 'sc', 'in', 'each', 'st']
    """
    low = _BIND_OFF.sub(_bound, low) if "ind off" in low or "ast off" in low else low
    if "inc" in low or "dec" in low:
        low = _AS_SHAPED.sub(lambda found: f"{found['as']}before".ljust(len(found[0])), low)
        low = _FIRST_AND_LAST.sub(lambda found: f"{found['how'][:3]} 1 st each end".ljust(len(found[0])), low)
        low = _THEN.sub(lambda found: f"{found['a']},".ljust(len(found[0])), low) if "alternat" not in low else low
        low = _AS_USUAL.sub(_usual, low)
        low = _NO_COMMA.sub(lambda found: f"{found['a']},", low)
        low = _STAR_TIMES.sub(lambda found: f" x{found['n']}".ljust(len(found[0])), low) if low.count("*") == 1 else low
    low = _MORE_EVENLY.sub(lambda found: f"{found['lead']}inc {lexicon.number(found['n'])} evenly".ljust(len(found[0])), low) if "evenly" in low else low
    low = _BY_PAIRS.sub(lambda found: "dec around".ljust(len(found[0])), low) if " tog" in low or "dec" in low else low
    if " tog" in low:
        low = _NTH_PAIR.sub(_pair, low)
        low = _NEXT_TOGETHER.sub(_together, low)
    if "work " in low:
        low = _ACROSS_IN.sub(lambda found: f"in {found['stitch']} {found['along']}".ljust(len(found[0])), low)
    if "these" in low or "those" in low:
        low = _THESE_ONLY.sub(lambda found: ", leave rem unworked".ljust(len(found[0])) if len(found[0]) >= len(", leave rem unworked") else found[0], low)
        low = _ON_THESE.sub(lambda found: f" ({found['n']} sts)".ljust(len(found["said"])), low)
    low = _TOGETHER_AS.sub(_as_one, low) if " as " in low else low
    low = _BY_DOING.sub(lambda m: m["dec"] + " " * len(m["by"]), low) if " by " in low else low
    low = _TIMES_EVENLY.sub(lambda m: f"{m['how'][:3]} {m['n']} evenly{m['along'] or ''}".ljust(len(m[0])), low) if " times" in low else low
    if "inc" in low:
        low = _INCREASE.sub(_increased, low)
    return _DECREASE.sub(_decreased, low) if "dec" in low else low


#: "Decreasing 4 times evenly, by working 2 sts together": how it is done is known.
_BY_DOING = when_used(r"(?P<dec>\bdec(?:reas(?:e|ing))?\b[^.;()]{0,60}?)(?P<by>,? by (?:(?:working|making|using) )?(?:an? )?(?:sc|hdc|dc|htr|tr)2tog *)(?=\s*(?:[.,;(]|$))")


#: "Decreasing 4 times, evenly spaced": so many stitches, evenly.
_TIMES_EVENLY = when_used(rf"(?P<how>\b(?:dec|inc)(?:reas(?:e|ing))?) (?P<n>\d{{1,2}}|{lexicon.NUMBER_WORDS}) times,? (?:(?:spaced |spread )?evenly(?: spaced| spread| placed| apart)?|at even intervals|equally spaced)(?P<along> (?:across|around|along)(?: the (?:row|rnd|round))?)?(?=\s*(?:[.,;(]|$))")


def _as_one(found: re.Match[str]) -> str:
    number = lexicon.number(found["n"])
    forms = (f"{found['st']}{number}tog over next {number} sts", f"{found['st']}{number}tog over {number} sts", f"{found['st']}{number}tog")
    told = forms[2] if found["work"] and not found["next"] else next((form for form in forms if len(form) <= len(found[0])), found[0])
    return told.ljust(len(found[0]))


def _bound(found: re.Match[str]) -> str:
    number = lexicon.number(found["n"])
    return f"sl st in {number} sts".ljust(len(found[0])) if number else found[0]


def _usual(found: re.Match[str]) -> str:
    number = 1 if found["n"] in ("a", "an", "one") else lexicon.number(found["n"]) or 1
    stitch = found["st"] if found["st"] and not found["st"].startswith(("st", "one")) else "sts" if number > 1 else "st"
    return f"{number} {stitch}".ljust(len(found[0]))


def _pair(found: re.Match[str]) -> str:
    first, second = (lexicon.ordinal(found[name]) or 0 for name in ("a", "b"))
    told = f"({first - 1} sts, dec) around" if second == first + 1 and first > 1 else ""
    return told.ljust(len(found[0])) if told and len(told) <= len(found[0]) else found[0]


def _together(found: re.Match[str]) -> str:
    stitch = found["of"] if found["stitch"] == "work" else found["stitch"]
    number = lexicon.number(found["n"])
    return f"{stitch}{number}tog".ljust(len(found[0])) if stitch not in ("st", "sts", "stitches") else found[0]


def _increased(found: re.Match[str]) -> str:
    work = found["work"] or found["work2"]
    several = not work[0].isdigit() and not re.match(_NUMBER, work)
    work = f"({work})" if several else work
    place = found["place"] or ("" if found["behind"] else " in next st")
    behind = found["behind"] or ""
    if found["place"] and found["behind"]:
        return found[0]
    told = f"{work}{place}"
    room = len(found[0]) - len(behind)
    return told.ljust(room) + behind if len(told) <= room else found[0]


def _decreased(found: re.Match[str]) -> str:
    told = found["tog"] + (found["over"] or found["place"] or "")
    return told.ljust(len(found[0])) if len(told) <= len(found[0]) else found[0]
