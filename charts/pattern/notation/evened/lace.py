"""Lace of thread as it is printed: "shell of 2 dc, ch 2 and 2 dc", "over bar of dc just made", "tr next 3 sc together",
"wind thread around finger to form ring".

Every function takes a row's text in lower case and gives it letter for letter as long as before.
"""

from __future__ import annotations

import re

from ... import lexicon
from ...when_used import when_used

_NUMBER = rf"(?:\d{{1,3}}|{lexicon.NUMBER_WORDS})"
_PLAIN = r"(?:s ?c|h ?d ?c|h ?tr|d ?c|tr|d ?tr|tr ?tr)"
_PART = rf"(?:\d{{1,2}} ?{_PLAIN}|ch ?-?\d{{1,2}}|\d{{1,2}} ?ch|{_PLAIN})"
#: "Shell of 2 dc, ch 2 and 2 dc": what a group is made of, behind its name.
_MADE_OF = when_used(
    rf"\b(?P<name>shell|fan|group|scallop|petal|v-?st(?:itch)?|block)(?P<of> (?:(?:made|consisting|composed|made up) )?of:? )(?P<said>(?:\d{{1,2}} ?)?{_PLAIN}(?:(?:, ?| )(?:and )?{_PART})*?(?:, ?| )(?:and )?(?:ch ?-?\d{{1,2}}|\d{{1,2}} ?ch)(?:(?:, ?| )(?:and )?{_PART})*(?:, ?| )(?:and )?(?:\d{{1,2}} ?)?{_PLAIN})(?=\s*(?:[,;.*)]|in\b|into\b|over\b|all\b|$))"
)
#: "Over bar of dc just made", "under post of last hdc made": where a stitch closed the round below.
_BAR = when_used(
    rf"\b(?P<in>over|around|round|in|into|under) (?:the )?(?:bar|post|side|stem|length) (?:of|formed by) (?:the )?(?:last |joining )?(?P<st>{_PLAIN})(?P<made> just (?:made|worked|completed)| (?:at|made at) (?:the )?end of (?:the )?(?:last|previous|prev) (?:rnd|round|row))?(?=\s*(?:[,;.*)]|and\b|join|$))"
)
#: "Tr next 3 sc together", "dc next 2 dc tog": a stitch gathered over those.
_TOGETHER = when_used(rf"\b(?P<st>{_PLAIN}) (?P<next>(?:over )?(?:the )?next) (?P<n>[2-9]) (?P<noun>{_PLAIN}|sts?|stitches) (?P<tog>tog(?:ether)?)\b(?! as\b)")
#: "Make ring by wrapping thread around finger", "wind thread 10 times around finger".
_WOUND = when_used(
    rf"\b(?:(?:make|form|start|begin|starting|beginning|making) (?:with )?(?:an? |the )?(?:ring|loop|circle) (?:by |of thread by )?)?(?:wrap|wind|wrapping|winding|wound|wrapped) (?:the |your )?(?:thread|yarn|cotton|end|wool)(?: end)?(?: (?:once|twice|{_NUMBER} times))?"
    rf" (?:around|round|over|about) (?:the |your |left )*(?:tip of (?:the |your |left )*)?(?:index |fore|first |middle )?finger(?:s|tip)?(?: (?:once|twice|{_NUMBER} times))?(?: (?:to (?:make|form)|forming|making) (?:an? |the )?(?:ring|loop|circle))?(?:[,;] (?:and )?(?:slip|slide|remove|take) (?:it |ring |loop |the ring |the loop )?(?:off|from)(?: (?:the |your )?finger)?)?"
)
#: "Until there are 12 dtr in all, counting ch-5 of ch-8 as 1 dtr": the chain is counted in with what is made.
_COUNTED_IN = when_used(
    rf"(?P<until>\b(?:until|till|til)\b[^.;*()]{{4,60}}?)(?P<said>,? \(?(?:counting|including) (?:the |your )?(?:(?:first|beg(?:inning)?|starting|turning) )?(?:ch(?:ain)?s?[ -]?\d{{0,2}}|\d{{1,2}} ?ch(?:ain)?s?)(?: of (?:the )?(?:(?:first|beg(?:inning)?|starting) )?(?:ch(?:ain)?s?[ -]?\d{{0,2}}|\d{{1,2}} ?ch(?:ain)?s?))?(?: at (?:the )?(?:beg(?:inning)?|start))?(?: as (?:the )?(?:1|one|an?|first|1st|1st one) ?(?:{_PLAIN})?)?\)?)(?=\s*(?:[,;.*]|$|join|end))"
)
#: "Ch 3 for a dc": what a beginning chain stands for.
_STANDS_FOR = when_used(rf"^(?P<lead>\W*(?:sl st[^,;.]{{2,40}}[,;.] )?)(?P<ch>ch(?:ain)? ?\d|\d ?ch) for (?:an?|1|one|the) (?P<st>{_PLAIN})(?=\s*[,;.])")
#: "3 sc, p. (ch 4, sl st in sc just made)": the stop behind an abbreviation, before what it means.
_STOPPED = when_used(r"(?<=[ ,*(])(?P<p>p|pc|cl)\. (?=\((?:\d ?)?(?:ch|chain|[a-z]{1,3}\b)[^()]{6,})")

#: "In 3rd st. of ch. 5.": a stop behind an abbreviation, before its number.
_CHAIN_STOPPED = when_used(r"\b(?P<of>(?:of|to|into|in) (?:the )?(?:first |1st |beg(?:inning)? |starting )?ch)\.(?= ?\d{1,2}\b)")

#: "Popcorn of 5 dc", "cluster of 3 tr": a gathered stitch and its legs.
_LEGS_OF = when_used(rf"\b(?P<name>popcorn|pc st|cluster|puff st|puff|bobble)(?P<of> (?:(?:made|consisting) )?of:? )(?P<n>[2-9]) (?P<st>{_PLAIN})(?=\s*(?:[,;.*)]|in\b|into\b|over\b|$))")

#: "Ss to first of 5 ch": the first chain of that loop.
_FIRST_OF = when_used(r"(?P<to>\b(?:ss|sl st|slip st(?:itch)?|join(?:ed)?)(?: with (?:an? )?(?:ss|sl st))? (?:to|in|into) )(?:the )?(?:first|1st) of (?:the )?(?P<n>\d) ?ch\b")

#: "6 sc over one half of ring": into the ring.
_HALF_RING = when_used(rf"(?<=\d )(?P<st>{_PLAIN}) (?P<over>(?:over|around|round|about|in|into) (?:only )?(?:(?:one|a|the|first|1st) )?(?:half|side) of (?:the )?(?:(?:curtain|brass|bone|plastic|metal|wooden) )?ring)\b")

#: "Starting shell in same sp": the one that a round begins with, made of the same.
_STARTING = when_used(r"(?<![(\[])\bstarting(?= (?:shell|fan|v-?st(?:itch)?|scallop) *(?:[,;.]|(?:in|over)\b))")

#: "Catching the last 5 ch into the first sc": the round is closed there, where the last loop ends.
_LOOP = r"(?:the |your )?last (?:loop|lp|arch|chain|(?:loop|lp) of \d{1,2} ch|ch(?:ain)?[- ]?\d{1,2}|\d{1,2} ?ch(?:ains?)?)(?: (?:loop|lp))?"
_FIRST = rf"(?P<st>(?:the )?(?:first|1st) (?:{_PLAIN}|st(?:itch)?))\b"
_LAST_LOOP = when_used(
    rf"\b(?:catch|join|fasten|connect|attach|secur)(?:ing|e)? {_LOOP}(?: (?:with|by) (?:an? )?(?:sl ?st|ss|slip st(?:itch)?))? (?:in|into|to|onto|on|with) {_FIRST}"
)
_LOOP_ENDS = when_used(
    rf"\b(?P<and>and )?{_LOOP} (?:being |is |is to be |to be |should be |will be )?(?:joined|joins|joining|caught|fastened|fastens|ending|ends|connected|attached|closed|closes|sl stitched|slip stitched)(?: (?:with|by) (?:an? )?(?:sl ?st|ss|slip st(?:itch)?))? (?:in|into|to|onto|on|with) {_FIRST}"
)

#: "A picot (ch 4, sl st in first ch)", "picot of 4 ch": a picot and its chains, told where it stands.
_PICOT_TOLD = when_used(
    r"\b(?:(?:an?|one|1) )?(?:picot|p)\.? ?\((?:=|of|is|made of|:)? ?(?:ch(?:ain)?[- ]?(?P<n>\d)|(?P<m>\d) ?ch(?:ains?)?)(?:,| and| then)* ?(?:then )?(?:1 )?(?:sl ?st|ss|slip st(?:itch)?|s ?c|d ?c|join(?:ed)?|close)\b[^()]{0,45}\)"
)
_PICOT_OF = when_used(r"\b(?:(?:an?|one|1) )?picot of (?:ch(?:ain)?[- ]?(?P<n>\d)|(?P<m>\d) ?ch(?:ains?)?)\b")
_PICOT_WORKED = when_used(
    r"\bch(?:ain)?[- ]?(?P<n>\d),? (?:and )?(?:sl ?st|ss|slip st(?:itch)?) (?:in|into|to) (?:the )?(?:(?P=n)(?:th|rd|nd) (?:ch|st|chain) from (?:the )?hook|(?:first|1st) (?:ch|st) of (?:these )?(?P=n) ?ch|(?:first|1st) ch(?:ain)?)(?: ?\((?:for )?(?:an? |1 |one )?picot(?: made| formed)?\))?(?=\s*[,;)]| and\b)"
)
#: "Over each loop of 7 ch work 4 sc, ...", "in each loop: 4 sc, ...": what goes into one place is a list.
_LISTED = when_used(r"(?:^|[.;:*,(] ?)(?:in|into|over|around) (?:each|every|all|next)\b[^,.;:*()]{2,32}?(?: work | make |: ?|, ?)(?=\d|\w)")
#: "Each loop gets 4 sc": is worked into.
_GETS = when_used(r"(?P<before>^|[.;:*] ?)(?P<each>each|every) (?P<noun>[^,.;:()*]{2,25}?) (?:now )?(?:gets|receives|takes|will get|is given|is filled with|is to have)(?= \(?\d)")

#: "Ch 2 after each puff", "after every 4 dc ch 1": chains between what the spaces hold.
_BEHIND_EACH = when_used(
    rf"\b(?P<ch>ch(?:ain)?[- ]?\d|\d ?ch) after (?:each|every) (?:one\b|(?:\d{{1,2}}[- ]?{_PLAIN}[- ])?(?P<k>puff|group|grp|shell|cluster|cl|popcorn|bobble|v-st|fan)(?: st)?\b|\d{{1,2}}[- ]?{_PLAIN}\b)"
)
_BEHIND_EACH_FIRST = when_used(
    rf"\bafter (?:each|every) (?:one\b|(?P<k>puff|group|grp|shell|cluster|cl|popcorn|bobble|v-st|fan)(?: st)?\b|\d{{1,2}}[- ]?{_PLAIN}\b),? (?:work |make |always )?(?P<ch>ch(?:ain)?[- ]?\d|\d ?ch)\b"
)
#: "5 sc over the chain, one in each ch": said of the same.
_ONE_IN_EACH_CHAIN = when_used(
    rf"(?P<over>\b\d{{1,2}} ?{_PLAIN} (?:over|across|along|in|into|on) (?:the )?(?:ch(?:ain)?(?:[- ]\d{{1,2}})?|\d{{1,2}} ?ch)(?: sp| space| loop)?)(?P<said>,? \(?(?:1|one|working one|that is one)(?: {_PLAIN})? (?:in|into) each (?:of the )?ch(?:ain)?\b\)?)"
)
#: "The first dc of the round is a ch 3", "... you replace by ch 3": how a round begins.
_FIRST_BY_CHAIN = when_used(
    rf"(?P<lead>[,;.]? ?[-(]? ?)\b(?:the |your |only )?(?:first|1st) (?:{_PLAIN}|st(?:itch)?) (?:of|in) (?:the |this |each |every )?(?:round|rnd|row) (?:(?:you|we|is|being|to|be|are|always|will) )*(?:(?:replaced?|substituted?|made|worked|formed)(?: with| by| as)? )?(?:the |an? )?(?:ch(?:ain)?[- ]?\d|\d ?ch)\b\)?"
)
#: "Let 1 sc out": left out.
_LET_OUT = when_used(rf"\blet (?P<n>\d|one|two) (?P<st>{_PLAIN}|ch|sts?|stitch(?:es)?|loops?) (?:out|free|alone|go)\b")
#: "Centre dc of the 3 at each corner": of each corner.
_CORNER_CENTER = when_used(rf"(?P<c>\b(?:cent(?:er|re)|middle) (?:{_PLAIN}|st(?:itch)?)) of (?:the |each |every )?(?:3|three|5|five)(?: (?:{_PLAIN}|sts?|stitches))?(?P<at>,? (?:at|in) (?:each|every|the) corners?)")


def lace_evened(low: str) -> str:
    """The text with groups in brackets, and with the usual words for where a round begins.

    >>> lace_evened("shell of 2 dc, ch 2 and 2 dc in next tr")
    'shell (2 dc, ch 2 and 2 dc)  in next tr'
    >>> lace_evened("ch 3, 2 dc over bar of hdc just made").split()
    ['ch', '3,', '2', 'dc', 'over', 'hdc', 'just', 'made']
    """
    low = _MADE_OF.sub(_bracketed, low)
    low = _LEGS_OF.sub(lambda m: f"{m['n']}-{m['st'].replace(' ', '')} {m['name']}".ljust(len(m[0])), low)
    low = _FIRST_OF.sub(lambda m: _padded(m, f"{m['to']}1st ch of ch{m['n']}"), low)
    if "last" in low:
        low = _LAST_LOOP.sub(lambda m: _padded(m, f"join to {m['st']}"), low)
        low = _LOOP_ENDS.sub(lambda m: _padded(m, f"join to {m['st']}"), low)
    low = _GETS.sub(lambda m: _padded(m, f"{m['before']}in {m['each']} {m['noun']} "), low)
    low = _picots_evened(low)
    if "after" in low:
        low = _BEHIND_EACH_FIRST.sub(_between, _BEHIND_EACH.sub(_between, low))
    low = _ONE_IN_EACH_CHAIN.sub(lambda m: m["over"] + " " * len(m["said"]), low)
    low = _FIRST_BY_CHAIN.sub(lambda m: m["lead"][:1] + " " * (len(m[0]) - len(m["lead"][:1])) if "(" not in m["lead"] else " " * len(m[0]), low)
    low = _LET_OUT.sub(lambda m: _padded(m, f"sk {m['n']} {m['st']}"), low)
    low = _CORNER_CENTER.sub(lambda m: _padded(m, f"{m['c']} of each corner"), low) if "corner" in low else low
    low = _HALF_RING.sub(lambda m: _padded(m, f"{m['st']} in ring"), low) if "ring" in low else low
    low = _STARTING.sub(lambda m: " " * len(m[0]), low)
    low = _BAR.sub(lambda m: f"{m['in']} {m['st']} just made".ljust(len(m[0])) if len(m[0]) >= len(f"{m['in']} {m['st']} just made") else m[0], low)
    low = _COUNTED_IN.sub(lambda m: m["until"] + " " * len(m["said"]), low)
    low = _STANDS_FOR.sub(lambda m: _padded(m, f"{m['lead']}{m['ch']} = {m['st']}"), low)
    low = _CHAIN_STOPPED.sub(r"\g<of> ", low)
    low = _STOPPED.sub(lambda m: f"{m['p']}  ", low)
    if "tog" in low:
        low = _TOGETHER.sub(lambda m: _padded(m, f"{m['st'].replace(' ', '')}{m['n']}tog next {m['n']} {m['noun']}"), low)
    return _WOUND.sub(lambda m: _padded(m, "magic ring"), low) if "finger" in low else low


def _between(found: re.Match[str]) -> str:
    noun = f"{found['k']}s" if found["k"] else "groups"
    return _padded(found, f"{found['ch']} between {noun}")


def _picots_evened(low: str) -> str:
    """Picots told by their chains, as "ch-4 picot": in brackets, or where a list of what goes into one place would end."""
    if "picot" in low or "p" in low:
        low = _PICOT_OF.sub(_picot, _PICOT_TOLD.sub(_picot, low))
    return _PICOT_WORKED.sub(_picot, low) if _LISTED.search(low) else low


def _picot(found: re.Match[str]) -> str:
    chains = found["n"] or found.groupdict().get("m")
    return _padded(found, f"ch-{chains} picot")


def _bracketed(found: re.Match[str]) -> str:
    """A group's name and what it is made of in brackets, before the place it goes into; behind it where that stands before."""
    there = re.match(r"\s*(?:all )?(?:in|into|over)\b", found.string[found.end() :])
    said = f"{found['name']} ({found['said']})" if there else f"({found['said']})({found['name']})"
    return said.ljust(len(found[0])) if len(said) <= len(found[0]) else found[0]


def _padded(found: re.Match[str], said: str) -> str:
    return said.ljust(len(found[0])) if len(said) <= len(found[0]) else found[0]
