"""Work done by turns, told as such: "alternate between 1 sc and an increase", "alternating (1 dc, 2 dc)"; and other
slips of a writer's tongue: a row's name between its number and its work, "slip to join".

Every function takes a row's text in lower case and gives it letter for letter as long as before.
"""

from __future__ import annotations

import re

from ... import lexicon
from ...when_used import when_used

_STITCH = r"(?:sc|hdc|dc|htr|tr|dtr|(?:single|half double|double|treble) crochets?|stitch(?:es)?|sts?|inc(?:rease)?s?|dec(?:rease)?s?)"
_COUNT = rf"(?:\d{{1,3}}|{lexicon.NUMBER_WORDS})"
_ONE = rf"(?:\d{{1,2}} |an? |one |{lexicon.NUMBER_WORDS} )?(?:[a-z]+ )?{_STITCH}(?: (?:in|into) (?:the )?(?:next|one|1|following)(?: (?:st|stitch|sc|hdc|dc|one))?)?"
#: "Alternate between 1 sc and an increase", "alternately hdc into one stitch and then decrease".
_BY_TURNS = when_used(
    rf"\b(?P<lead>alternat(?:e|ing|ely)(?: between| with| from)?:? )(?!rows|rnds|rounds|colou?rs|yarns|the\b|fp|bp)(?P<one>{_ONE})(?P<and>,? (?:and then|and|then|with) )(?P<two>{_ONE})"
    r"(?P<end>\s*[.;,]| (?=(?:around|across|all|to|until|till)\b)|$)"
)
#: "alternating (1 dc, 2 dc)".
_IN_BRACKETS = when_used(r"\b(?P<lead>alternat(?:e|ing|ely)(?: between| with)?:?) (?=[(\[][^()\[\]]*(?:,| and )[^()\[\]]*[)\]])")
#: "Rnd 13 - Drawstring Round - ch 4": the row's name between its number and its work.
_NAMED_ROW = when_used(
    r"^\W*(?!(?:repeat|rep|work|as|same|next|last|this|each|every|all|first|like|follow)\b)(?:[a-z]{4,14} ){1,2}(?:round|rnd|row)\s*(?:[:.]|-(?= ))\s*(?=[*(\[]?\s?(?:with |join |work |turn|\d+ ?)?(?:ch|sc|hdc|dc|htr|tr|sl st|ss|sk|skip|miss|chain|make|work|in)\b)"
)
_KNOWN = when_used(r"\b(?:sc|hdc|dc|htr|tr|ch|chain|st|sts|loops?|stitch|stitches|crochet|double|single|half|even|odd)\b")
#: "Slip to join top of ch 3": a slip stitch.
_SLIPS = when_used(r"\bsl(?:ip)? to join(?P<to> (?:to |in |into |with )?(?:the )?(?=(?:top|first|1st|beg|\d)))?")
#: "1 increase stitch": the increase itself, and no stitch behind it.
_SHAPED = when_used(r"\b(?P<how>inc(?:rease)?s?|dec(?:rease)?s?) (?:st|stitch)(?=\W*(?:$|[,.;)*]|(?:and|then|around|across|to|all|rep|repeat)\b))")

#: 'Start with a "magic ring"': words in quotes are those words.
_QUOTED = when_used(r"(?<![\w.])(?P<a>[\"\u201c\u201d'\u2018\u2019`])(?P<said>[a-z][a-z -]{1,24}[a-z])(?P<b>[\"\u201c\u201d'\u2019`])(?!\w)")
#: "Continue to Round 3", "move on to R4": behind a row's work, that the next row comes next.
_GOES_ON = when_used(
    r"(?P<lead>[.;,)!\]]\s*)(?P<said>(?:now |then |and |but )*(?:continu(?:e|ing)|cont|go|move|proceed|carry|pass|straight)\.?(?: (?:on|straight|directly|right|ahead|along|over|immediately))* (?:to|with|into|onto)"
    r" (?:the )?(?:next (?:row|rnd|round)|(?:rows?|rnds?|rounds?|rds?|r) ?#?\d{1,3}(?: ?[-\u2013] ?\d{1,3})?))(?=[\s.!]*(?:[(\[]\d[^()\[\]]*[)\]][\s.]*)?$)"
)
#: "Rep Rnds 3 and 4, with last rnd being Rnd 4": ending with that one.
_LAST_BEING = when_used(
    r"(?P<lead>[,;(]?\s*)(?P<said>(?:with )?(?:the |your )?(?:last|final) (?:one|row|rnd|round|repeat)?(?: worked| made)? ?(?:being|is|will be|should be|was|to be))(?= (?:an? )?(?:row|rnd|round|r)\b ?\d)"
)
#: "Ss in the 2nd ch of the beginning of this row", "in 3rd ch (of 4) of the start": of the chain that it began with.
_OF_START = when_used(
    r"(?P<ch>\b\d(?:st|nd|rd|th) ch(?:ain)?)(?P<of>(?: ?\(of \d ?(?:ch)?\))? (?:of|from|at) (?:the )?(?:beginning|start)\b(?: of (?:the |this )?(?:row|rnd|round))?)(?! ?(?:ch|chain|\d))"
)
#: "1 tr in the closing ss of the previous row": where the round below was joined.
_IN_JOIN = when_used(r"\bin(?:to)? (?:the )?(?:closing|joining) (?:ss|sl st|slip st(?:itch)?)(?: of (?:the )?(?:previous|prev|last) (?:row|rnd|round))?")
#: "... 8 sc and 7 sps if chaining 34, 9 sc": the count of a foundation that is not worked.
_IF_CHAINED = when_used(r"(?<=[a-z\d)])[;,]? ?(?P<said>(?:(?:or )?(?:\d+ (?:sc|hdc|dc|htr|tr|sts|ch-?\d? ?sps?)(?: and |, )?)+ )?if (?:you(?:'re| are|'ve| have)? )?chain(?:ing|ed)? \d+\b(?:(?!\b(?:in|into|next|each|rep|repeat|turn|join)\b)[^().])*)(?=\)|\.|$)")
#: "Fpdc around previous rnds fpdc", "around last row's fpdc": of the row below, as all that stands there.
_ITS_OWN = when_used(r"\b(?:the )?(?:previous|prev|last|preceding|prior) (?:row|rnd|round)s(?= (?:(?:fp|bp|rf|rb)[ -]?)(?:sc|hdc|dc|htr|tr)\b)")

#: "Each of the 6 cable sts", "first true dc": what such stitches are like, which needs no saying.
_LIKE = when_used(r"(?P<lead>\b(?:\d{1,2}|first|1st|next|last|each|all|the) )(?P<how>(?:cabled?|plain|actual|true|real|proper) )(?=(?:sts?|stitch(?:es)?|sc|hdc|dc|htr|tr)\b)")
#: "Move on to the next corner: 3 dc, ch 2, 3 dc": what goes in there.
_MOVES_ON = when_used(
    r"\b(?:move|go|jump|head|hop|moving|going)(?: on| over| along| across)? to (?:the |your )?(?P<which>next|other|following|last) (?P<noun>corner(?: sp(?:ace)?)?|(?:ch-?\d )?(?:sp|space|loop|lp))(?P<sign>:| and (?:work|make|do)(?= )|, (?:work|make)(?= ))"
)
#: "Start w/ 6 sc in magic ring".
_STARTS_WITH = when_used(r"^\W*(?:start|begin)(?:ing)? w/ ?(?=\d)")
#: "Invisible join to first dc", "needle join": a join.
_SEEN_JOIN = when_used(r"(?<!with )(?<!with an )(?<!with a )(?<!do an )(?<!do a )\b(?:invisible|needle|seamless|clean)(?:ly)?[ -](?:join|finish)(?= (?:to|in|into|over|with|on|at) )")
#: "Join to first dc, not the ch": where a round is not joined.
_NOT_THERE = when_used(r"(?P<lead>\b(?:join|sl st|ss|slip st(?:itch)?)\b[^,;.()]{2,40}?),? ?\(?not (?:to |in |into )?(?:the )?(?:beg(?:inning)? |turning |starting |top of )*(?:the )?(?:ch(?:ain)?)(?:[- ]?\d)?\)?(?=\W*$|[.;,])")
#: "Sl st to next dc and ch-1 sp": in both.
_SLIPS_IN_BOTH = when_used(r"\b(?P<slip>sl st|ss|slip st|slip stitch) (?:to|in) (?P<where>(?:the )?(?:next|first) (?:\d )?(?:sts?|stitch|sc|hdc|dc|htr|tr)) and (?=(?:next )?(?:ch-?\d|\d-?ch|sp\b|corner))")

#: "With blue start at the center of the sole with a chain of 16 stitches": a row that is the foundation chain alone.
_CHAIN_TOLD = when_used(
    r"^(?P<yarn>\W*(?:(?:with|using|in) (?:[a-z]+ ){0,2}[a-z]+(?=[, ]))?)(?P<lead>,?\s?(?:first |now |next )?(?:start|begin|commence|make|work|crochet|form|create)(?:ing)?\b[^.;:*()\d]{0,60}?\b)"
    rf"(?P<told>(?:chain|ch)(?: that is| which is)?(?: of| with)? (?P<n>{_COUNT})(?: (?:stitches|sts|chains|chs|ch))?(?: long)?|(?P<m>{_COUNT}) (?:chain stitches|chain sts|chains?|chs?))(?P<end>(?: loosely)?\W*(?:turn)?\W*)$"
)
#: "4 dc in same sp. Drop loop from hook, ...": moves that gather what stands right before them, in a sentence of their own.
_MOVES_APART = when_used(r"(?<=[a-z0-9)])\.(?= ?(?:drop|remove|take|slip|withdraw) (?:(?:the|your|last|working) )*(?:loop|lp|hook)\b)")
#: "Ch 4 to act as first (dc, ch 1)".
_AS_BOTH = when_used(
    r"(?P<lead>\b(?:act|count|serve|stand|use|acts|counts|serves|stands|used|acting|counting|counted|serving) (?:as|for) (?:the |a )?(?:first |1st )?)\((?P<both>(?:sc|h?dc|h?tr|dtr),? ?(?:\+|and|plus)? ?(?:ch ?-?\d|\d ?ch))\)"
)
#: "... draw loop through-pc st made-dc in next dc": the name of what was made, between dashes.
_MADE_ASIDE = when_used(
    r"(?<=[a-z)]) ?[-\u2013\u2014]{1,2} ?(?:(?:an?|one|1|first|another|starting|beg) )?(?:[a-z]+[ -]){0,2}(?:st|cluster|cl|popcorn|pc|puff|bobble|shell|picot|group|fan|petal) (?:made|completed|formed) ?[-\u2013\u2014]{1,2} ?(?=[a-z\d(*])"
)
#: "SCx6", "incx8": so many of them.
_SO_MANY = when_used(r"\b(?P<st>sc|hdc|dc|htr|tr|inc|dec)x(?P<n>\d{1,2})\b")
#: "*2 sc dec* 8 times": the stitches, and a decrease behind them (common practice, no source).
_THEN_SHAPED = when_used(r"(?<![\w-])(?P<n>[2-9]|1\d) (?P<st>sc|hdc|dc|htr|tr) (?=(?:inv(?:isible)? ?)?(?:dec|inc)(?:\s*[*)\].,;]|\s+(?:around|x ?\d|to end|\d+ times)|\s*$))")
#: "In spaces between hdc": in each of them.
_IN_GAPS = when_used(r"\bin(?:to)?(?: the| all| all the)? (?:spaces|sps|gaps) between(?= (?:the |each )?(?:sts|stitches|sc|hdc|dc|htr|tr)\b)")
_WORKED = when_used(r"\b(?:sc|hdc|dc|htr|tr|single|double|half|treble|sk|skip|miss|join|sl|ss|each|every|last|same|rep|repeat)\b")
#: So few chains lift a row.
_LIFTS = 4


#: "Turn. Sl st in ch-2 sp just made, ...": the last of the round below, which is the next one on the way back.
_SPACE_BEHIND = when_used(
    r"(?P<lead>^\W*(?:ch ?1,? )?turn(?: work)?\W+(?:ch ?1,? )?(?:sl ?-?st|ss|slip st(?:itch)?) (?:in(?:to)? ))(?:the )?(?:last )?(?P<sp>(?:corner )?(?:ch-?\d* ?)?(?:sp|space|loop|lp)) (?:just|you) (?:made|formed|completed|worked)\b"
)


def turns_evened(low: str) -> str:
    """The text with work by turns told as a repeat, and without what only names the row.

    >>> turns_evened("alternate between 1 sc and 1 inc.").split()
    ['repeat', '(', '1', 'sc', 'and', '1', 'inc)']
    """
    low = _CHAIN_TOLD.sub(_chain_alone, low)
    low = _SPACE_BEHIND.sub(lambda found: f"{found['lead']}next {found['sp']}".ljust(len(found[0])), low) if "turn" in low else low
    low = _MOVES_ON.sub(lambda found: f"in {found['which']} {found['noun']}:".ljust(len(found[0])), low) if " to " in low else low
    low = _STARTS_WITH.sub(lambda found: " " * len(found[0]), low)
    low = _LIKE.sub(lambda found: found["lead"] + " " * len(found["how"]), low)
    low = _SEEN_JOIN.sub(lambda found: "join".ljust(len(found[0])), low)
    low = _NOT_THERE.sub(lambda found: found["lead"].ljust(len(found[0])), low) if "not" in low else low
    low = _SLIPS_IN_BOTH.sub(lambda found: f"{found['slip']} in {found['where']} &in ", low)
    low = _QUOTED.sub(lambda found: f" {found['said']} ", low)
    low = _MOVES_APART.sub(",", low) if "hook" in low or "loop" in low else low
    low = _MADE_ASIDE.sub(lambda found: ",".ljust(len(found[0])), low)
    low = _SO_MANY.sub(lambda found: f"{found['n']} {found['st']}", low)
    if "dec" in low or "inc" in low:
        low = _THEN_SHAPED.sub(lambda found: f"{found['n']} {found['st']},", low)
    low = _IN_GAPS.sub(_in_each_gap, low)
    low = _AS_BOTH.sub(lambda found: f"{found['lead']} {found['both'].replace(',', '+')} ", low)
    low = _GOES_ON.sub(lambda found: found["lead"] + " " * len(found["said"]), low)
    low = _LAST_BEING.sub(lambda found: found["lead"] + "ending with".ljust(len(found["said"])), low)
    low = _OF_START.sub(_of_beginning, low)
    low = _IN_JOIN.sub(lambda found: "in same st".ljust(len(found[0])), low)
    low = _IF_CHAINED.sub(lambda found: " " * len(found[0]), low)
    low = _ITS_OWN.sub(lambda found: " " * len(found[0]), low)
    low = _SLIPS.sub(lambda found: ("sl st in " if found["to"] else "join").ljust(len(found[0])), low)
    low = _NAMED_ROW.sub(lambda found: found[0] if _KNOWN.search(found[0]) else " " * len(found[0]), low)
    low = _SHAPED.sub(lambda found: found["how"].ljust(len(found[0])), low)
    if "alternat" not in low:
        return low
    low = _IN_BRACKETS.sub(lambda found: "repeat".ljust(len(found[0])), low)
    return _BY_TURNS.sub(_repeated, low)


def _in_each_gap(found: re.Match[str]) -> str:
    told = "in ea sp between"
    return told.ljust(len(found[0])) if len(told) <= len(found[0]) else found[0]


def _of_beginning(found: re.Match[str]) -> str:
    told = found["ch"] + " of beg ch"
    return told.ljust(len(found[0])) if len(told) <= len(found[0]) else found[0]


def _chain_alone(found: re.Match[str]) -> str:
    number = lexicon.number(found["n"] or found["m"]) or 0
    if number <= _LIFTS or _WORKED.search(found["lead"]):
        return found[0]
    comma = "," if found["yarn"].strip() else ""
    return found["yarn"].rstrip(" ,") + f"{comma} ch {number}".ljust(len(found["lead"] + found["told"]) + len(found["yarn"]) - len(found["yarn"].rstrip(" ,"))) + found["end"]


def _repeated(found: re.Match[str]) -> str:
    one, two = found["one"], found["two"]
    link = found["and"] if "with" not in found["and"] else ", ".ljust(len(found["and"]))
    end = found["end"]
    if end:
        return ("repeat (".ljust(len(found["lead"])) + one + link + two + ")").ljust(len(found[0]))
    closed = re.sub(r" stitch(es)?$", " st", two)
    if len(closed) == len(two):
        return found[0]
    return "repeat (".ljust(len(found["lead"])) + one + link + (closed + ")").ljust(len(two))
