"""What is said of a row's end: the turning chain that it goes into, the last stitch of a repeat, the loop at the end.

Every function takes a row's text in lower case and gives it letter for letter as long as before.
"""

from __future__ import annotations

import re

from ...when_used import when_used

_STITCH = r"(?:sc|hdc|dc|htr|tr|dtr|st|stitch|d c|s c)"
_BEGUN = r"(?:turning[ -]ch(?:ain)?|t-?ch|beg(?:inning)?[ -]ch(?:ain)?(?:[ -]\d)?|ch-\d|starting ch(?:ain)?)(?: of (?:previous|prev|last) row)?"
#: "Skip 2 ch of turning chain, dc in next ch": the next is of the turning chain too.
_SKIPPED_OF = when_used(
    rf"(?P<skip>\b(?:skip|sk|miss) (?:the )?(?:next |first |1st )?(?:\d|one|two|three)(?: chs?| ch sts?| chains?| sts?)?)(?P<of> (?:of|on|in) (?:the )?{_BEGUN})"
    rf"(?P<then>,? (?:and )?(?:work )?(?:1 )?{_STITCH} in(?:to)? (?:the )?(?:next|3rd|4th|5th|2nd|third|fourth|second|top)(?: ch(?:ain)?\b(?! ?\d)| st(?:itch)?\b)?)(?! of\b)"
)
#: "(Dc in next dc, ch 2) 3 times, last dc in 3rd ch of turning ch": behind chains it is worked, as any other.
_LAST_WORKED = when_used(
    rf"(?P<before>(?:\bch ?\d{{1,2}}|\b\d{{1,2}} ?ch)(?:\s*[)\]]\s*(?:\d{{1,3}}|two|three|four|five|six|seven|eight) (?:more )?times|\s*[)\]]\s*twice)?\s*[,;]\s*(?:and )?(?:work )?)(?P<last>(?:the )?last )(?=(?:1 )?{_STITCH} (?:in|into|on|over)\b)"
)
#: "Having last dc over turning ch", "last dc being worked in top of ...".
_LAST_OVER = when_used(
    rf"(?P<lead>\b(?:having|working|making|with|the) (?:the )?(?:last|final) (?:1 )?{_STITCH} )(?P<over>over|on|(?:is |to be |being |to come |to go |to fall |comes? |coming |falls? |falling |goes |going )?(?:made |worked |placed )?(?:into|on|over|under)|(?:is |to be |being |to come |to go |to fall |comes? |coming |falls? |falling |goes |going )?(?:made |worked |placed )in|(?:comes? |to come |falls? |falling |coming |goes |going )in)(?= (?:the |top|turning|last|first|\d|t-?ch|beg|ch-|end))"
)
#: "..., only your last sc goes into the top of the turning ch": where the last of those goes.
_ONLY_LAST = when_used(
    rf"(?P<only>,? (?:(?:but|and|except|only|just|with) )*(?:that )?(?:your|the|its|this) )(?P<last>(?:last|final|very last) (?:1 )?{_STITCH}) (?P<goes>(?:goes|is worked|is made|will go|will be worked|should go|has to go|gets worked|gets made|belongs|lands|is going|is placed) (?:in(?:to)?|on|over))(?= (?:the |top|turning|last|first|\d|t-?ch|beg|ch-|end))"
)
#: "Dc in loop at end of row".
_AT_END = when_used(
    r"(?P<in>\b(?:in|into|over) )(?P<where>(?:the )?(?P<sized>ch-?\d |\d-?ch )?(?P<what>loop|lp|sp|space) (?:at|on) (?:the )?end(?: of (?:the )?(?:row|line))?)(?=\s*(?:[,.;)]|$|turn))"
)
#: "3rd ch of end sp": of the chain that the row below began with.
_OF_END = when_used(
    r"(?P<nth>\b(?:\d(?:st|nd|rd|th)|third|fourth|fifth|second) (?:ch(?:ain)?|st(?:itch)?) of )(?P<end>(?:the )?end (?:sp|space|loop|lp|ch(?:ain)?)\b)(?![- ]?\d)"
)
#: "Top of beg skipped chs".
_BEG_SKIPPED = when_used(r"(?P<of>\btop of (?:the )?)(?P<said>(?:beg(?:inning)?|first|foundation|\d)[ -](?:\d )?(?:skipped|sk|missed)[ -]ch(?:ain)?s?\b)")
#: "Rep from *, working 2 dc instead of 3 dc at end of last rep", "rep from *, having only 2 sc in last sc".
_FEWER_LAST = when_used(
    r"(?P<rep>\brep(?:eat)?\b[^.;()]{0,30}?[, ] ?(?:but )?)"
    rf"(?P<said>(?:working|making|having|work|make) (?P<only>only )?(?P<n>\d{{1,2}}) ?(?P<stitch>{_STITCH})s?(?P<only2> only)?"
    rf"(?P<less> (?:instead|in place) of (?:the )?\d{{1,2}}(?: {_STITCH})?)?"
    rf" (?P<where>(?:at (?:the )?end of|in|on) (?:the )?(?:last|final) (?:rep(?:eat)?|repetition)s?\b|at (?:the )?end(?: of (?:the )?row)?\b|in(?:to)? (?:the )?last {_STITCH}\b(?: of (?:the )?row)?))"
)
#: "Sc in 3 center dc of next fan".
_CENTRE = when_used(r"(?<=\bin )(?P<n>\d{1,2}) (?P<where>center|centre|middle|central)(?= (?:sc|hdc|dc|htr|tr|dtr|sts?|stitches) of (?:the )?(?:next|last|first|same) [a-z]+)")

#: "Rep from *, but in the last sc work only 3 dc": the work before its place.
_PLACE_FIRST = when_used(
    rf"(?P<but>\b(?:but|except|only) )(?P<where>in(?:to)? (?:the |your )?(?:very )?last (?:{_STITCH}|st|sp|space|loop))(?P<gap>,? (?:you )?)(?P<work>(?:work|make|do|put) (?:only |just )?\d{{1,2}} ?{_STITCH})(?P<only>(?: only)?)(?= ?(?:[,.;*(]|$|turn))"
)

_COUNT = r"(?P<n>\d{1,2}|one|two|three|four|five|six)"
#: "Til theres 1 st left, sc in that one".
_STILL_LEFT = when_used(r"\b(?:until|till|til|'til) (?:there ?s|there's|there is|there are|it is|you have|you've got|u have|we have)(?: only| just)? (?P<n>(?:\d{1,2}|one|two|three|four|five|six)) (?P<stitch>sts?|stitch(?:es)?|sc|hdc|dc|htr|tr)(?: (?:is|are))? left(?: over)?(?=\s*[,;]\s*(?:and |then )?(?:\d+ |work |make |a )?(?:[a-z]*\s+)?[a-z0-9]+ (?:\d+ )?(?:in|into)\b)")
#: "Sc in next 14, stop there. The other 14 just wait.".
_STOP_THERE = when_used(r"(?P<stop>[,;.] ?(?:and |then )?stop (?:there|here|now|at this point))(?P<rest>[.,;] ?(?:the )?(?:other|remaining|rest|last)\b[^.;(]{0,24}?\b(?:waits?|rests?|stays?|are left|is left|remain)\b[^.;(*]{0,24})?(?=\s*(?:[.;,(]|$))")
#: "Letting a ch 3 stand in for the first dc": it is one of those told.
_STANDS_IN = when_used(r"(?P<said>,? ?(?:but |and )?(?:letting|with|using|let) (?:a |the )?(?:ch-? ?\d|\d ch|chain \d) (?:to )?(?:stand(?:ing)? in|stand(?:ing)?|count(?:ing)?|serv(?:e|ing)|act(?:ing)?|replac(?:e|ing)|tak(?:e|ing) the place)(?: (?:for|as|of))? (?:the |your |a |each )?(?:very )?first (?:dc|tr|hdc|sc|htr|st|stitch)(?: of (?:the |each )?(?:rnd|round|row|first [a-z]+))?)(?=\s*(?:[;,.(]|$))")
#: "1 ch for lifting".
_LIFTING = when_used(r"(?P<ch>\b(?:ch ?\d|\d ?ch(?:ains?)?)(?: sts?)?)(?P<for> (?:for|of|to) (?:the )?(?:lifting|lift|rise|rising|height|raise|raising|climbing|go up)(?: (?:up|loop))?)(?=\s*(?:[,.;(]|$))")
#: "Rep from * across, last one being a dc in top of tch".
_LAST_BEING = when_used(rf"(?P<rep>\brep(?:eat)?\b[^.;]{{0,24}}?)(?P<said>,? (?:the |your )?last (?:one|st|stitch|post st|{_STITCH}) (?:being|is|to be|will be|should be) (?:worked as )?(?:an? |one |1 )?(?:plain )?)(?={_STITCH} (?:in|into|on)\b)")
#: "Leave off the last sc and join to the first one instead", "the last time you don't need the sc, just sl st to first sc".
_LEAVE_OFF = when_used(rf"\b(?:leave|leaving) (?:off|out) (?:the )?(?:very )?last (?P<st>{_STITCH})(?P<and>,? and)?(?= (?:join|sl st|ss)\b)|\b(?:but )?(?:on |at )?(?:the )?(?:very )?last (?:time|one|repeat|rep|round)(?: around)?,? (?:you )?(?:don't|do not) (?:need|work|make|do) the (?:last )?(?P<st2>{_STITCH}),? (?:just |simply |instead )*(?=sl st|join|ss)")
_INSTEAD = when_used(r"(?P<join>\b(?:join|sl st|ss) (?:in|to|into) (?:the )?first(?: one| sc| st| dc)?)(?P<said> instead)\b(?! of)")
#: "* until the last loop has its dc, then 2 ch and 1 tr in last dc".
_HAS_ITS = when_used(rf"(?P<rep>\*,? )(?P<said>until (?:the )?last (?:loop|lp|sp|space|one|arch) has (?:its|a|an|one|1) (?:{_STITCH}|d\.c\.|s\.c\.|tr\.)\s*,?\s*(?:then|and) )")
#: "*...* Keep doing that".
_KEEP_DOING = when_used(r"(?<=\*)(?P<gap>[.,;]? )(?:keep (?:on )?(?:doing|repeating) (?:that|this)|keep going like (?:that|this)|carry on like (?:that|this)|continue (?:like|in) this(?: way)?|do this all around|go on like that)(?=\s*[,.;])")
#: "Sc across, stopping one stitch short of the end", "stop 2 sts before the end", "finish one st early".
_SHORT_OF = when_used(
    rf"(?P<said>(?:but |and |then )*(?:stop(?:ping)?|finish(?:ing)?|end(?:ing)?|turn(?:ing)?) (?:when )?{_COUNT} (?P<stitch>{_STITCH}|stitch(?:es)?)s? (?:(?:short|early|before|from)(?: (?:of )?(?:the )?(?:end|edge)(?: of (?:the )?(?:row|last row|row below))?)?))(?=\s*(?:[.,;(]|$|and\b|turn|then))"
)
#: "Miss out the last stitch again", "skip the last st once more": left, not skipped on the way to something.
_LEFT_AGAIN = when_used(
    rf"(?P<said>(?:again,? |also )?(?:skip|miss out|miss|omit|leave out) )(?P<last>(?:the )?last (?:{_COUNT} )?(?:{_STITCH}|stitch)(?:e?s)?)(?P<again> (?:again|once more|as before|too|as well))?(?=\s*(?:[.,;(]|$|turn))"
)


def ends_evened(low: str) -> str:
    """The text with what it says of a row's end in the usual words.

    >>> ends_evened("skip 2 ch of turning chain, dc in next ch."), ends_evened("ch 2, last tr in 3rd of 5 ch")
    ('skip 2 ch, dc in next ch of turning chain.', 'ch 2,      tr in 3rd of 5 ch')
    >>> ends_evened("sc in 3 center dc of next fan"), ends_evened("dc in loop at end of row.").split()
    ('sc in center 3 dc of next fan', ['dc', 'in', 'last', 'loop', '.'])
    """
    if any(word in low for word in ("turning", "tch", "t-ch", "beg", "ch-", "starting")):
        low = _SKIPPED_OF.sub(lambda found: found["skip"] + found["then"] + found["of"], low)
    low = _LAST_WORKED.sub(lambda found: found["before"] + " " * len(found["last"]), low)
    low = _ONLY_LAST.sub(lambda found: f", working {found['last']} in".ljust(len(found[0])) if len(found["only"] + found["goes"]) >= len(", working  in") - 1 else found[0], low)
    low = _LAST_OVER.sub(lambda found: found["lead"] + "in".ljust(len(found["over"])), low)
    low = _AT_END.sub(lambda found: found["in"] + f"last {found['sized'] or ''}{found['what']}".ljust(len(found["where"])), low)
    low = _OF_END.sub(lambda found: found["nth"] + "tch".ljust(len(found["end"])), low)
    low = _BEG_SKIPPED.sub(lambda found: found["of"] + "beg ch".ljust(len(found["said"])), low)
    if "last" in low and "rep" in low:
        low = _PLACE_FIRST.sub(lambda m: f"{m['but']}{m['work']} {m['where']}".ljust(len(m[0])), low)
    low = _FEWER_LAST.sub(_ending, low)
    low = _STILL_LEFT.sub(lambda m: f"to last {m['n']} {m['stitch']}".ljust(len(m[0])), low) if " left" in low else low
    low = _STOP_THERE.sub(lambda m: ", leave rem".ljust(len(m[0])), low) if "stop " in low else low
    low = _STANDS_IN.sub(lambda m: " " * len(m[0]), low) if "first" in low else low
    low = _LIFTING.sub(lambda m: m["ch"] + " " * len(m["for"]), low) if "ch" in low else low
    low = _LAST_BEING.sub(lambda m: m["rep"] + ", ending with ".ljust(len(m["said"])) if len(m["said"]) >= len(", ending with ") else m[0], low) if "last " in low else low
    low = _LEAVE_OFF.sub(lambda m: f"omitting last {m['st'] or m['st2']},".ljust(len(m[0])), low) if "last" in low else low
    low = _INSTEAD.sub(lambda m: m["join"] + " " * len(m["said"]), low) if "instead" in low else low
    low = _HAS_ITS.sub(lambda m: m["rep"] + "across, ending with ".ljust(len(m["said"])) if len(m["said"]) >= len("across, ending with ") else m[0], low) if "until" in low else low
    low = _KEEP_DOING.sub(lambda m: m["gap"] + "rep * around".ljust(len(m[0]) - len(m["gap"])) if len(m[0]) - len(m["gap"]) >= len("rep * around") else m[0], low) if "*" in low else low
    low = _SHORT_OF.sub(lambda m: f"leave last {m['n']} {m['stitch']}".ljust(len(m[0])) if len(m[0]) >= len(f"leave last {m['n']} {m['stitch']}") else m[0], low)
    low = _LEFT_AGAIN.sub(lambda m: f"{'again' if 'again' in m[0] else '     '} leave {m['last']}".ljust(len(m[0])) if m["again"] or m["said"].startswith("again") else m[0], low)
    return _CENTRE.sub(r"\g<where> \g<n>", low)


def _ending(found: re.Match[str]) -> str:
    """How the last repetition ends, where fewer stitches stand at the row's end."""
    if not (found["only"] or found["only2"] or found["less"]):
        return found[0]
    told = f"ending with {found['n']} {found['stitch']} in last st"
    return found["rep"] + told.ljust(len(found["said"])) if len(told) <= len(found["said"]) else found[0]
