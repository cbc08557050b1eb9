"""Runs of stitches told by their numbers: "sc in 3 sts with an increase on the fourth", "4 sc, then increase in 5th and 6th".

Every function takes a row's text in lower case and gives it letter for letter as long as before.
"""

from __future__ import annotations

import re

from ... import lexicon
from ...when_used import when_used

_NUMBER = rf"(?:\d{{1,3}}|{lexicon.NUMBER_WORDS})"
_NTH = r"(?:\d{1,3}(?:st|nd|rd|th)|(?:second|third|fourth|fifth|sixth|seventh|eighth|ninth|tenth|eleventh|twelfth))"
_STITCH = r"(?:sts?|stitch(?:es)?|sc|hdc|dc|htr|tr|spaces?|sps?)"
#: "with an increase (2 sc) on the third": one more clause of the run.
_WITH = when_used(r"(?P<with>,? with (?:an? )?)(?P<inc>inc(?:rease)?|dec(?:rease)?)(?P<told> ?\(\d? ?[a-z ]{2,16}\))? (?P<on>on|in|into|at) (?=the |every )?")
#: "In 5'th ch", "2'nd sc".
_NTH_PARTED = when_used(r"\b(?P<n>\d{1,2})['`] ?(?P<end>st|nd|rd|th)\b")
#: "Sc up next 5 sc", "sc down the next 5": along these.
_UP = when_used(r"\b(?P<stitch>(?:sc|hdc|dc|htr|tr|single crochet|double crochet|sl st|slip stitch)) (?P<way>(?:back )?(?:up|down))(?= (?:the |your )?(?:next|first|last|each|following) )")
#: "Sc, increasing in every 4th st": sc all along.
_GROWING = when_used(r"\b(?P<stitch>sc|hdc|dc|htr|tr)(?P<to>,? (?:increasing|decreasing)) (?=(?:in |on )?(?:every|each) (?:other|second|third|fourth|fifth|sixth|\d{1,2}(?:nd|rd|th)))")
#: "Skip 2 sts and sc in third st": the number counts those skipped.
_SKIPPED = when_used(
    rf"(?P<lead>\b(?:sk|skip|skipping|miss|missing) (?:the )?(?:next )?(?P<n>{_NUMBER})(?: (?:ch|chs|chains|{_STITCH}))?,? (?:and |then |and then )?(?:(?:work |make )?(?:\d{{1,2}} |an? |one )?"
    rf"(?:sc|hdc|dc|htr|tr|dtr|single crochet|double crochet|half double crochet|treble crochet|treble|shell|cluster|v-st)) (?:in|into|on) )(?P<nth>(?:the )?(?P<a>{_NTH}))(?P<tail>\b(?! (?:\w+ )?(?:from|of|row|rnd|round)\b))"
)
#: So many stitches, and behind them a number that is one more, or that and the one after it.
_RUN = when_used(
    rf"(?P<run>(?<![-\d])\b(?P<n>{_NUMBER}) (?:more )?(?:{_STITCH}|single crochets?|double crochets?)\b|\b(?:sc|hdc|dc|htr|tr) (?P<m>\d{{1,3}})\b(?! (?:in|into)\b))"
    rf"(?P<between>[^.;:()*\d]{{0,16}}?\b(?:[2-9] ?(?:sc|hdc|dc|htr|tr) |increas\w* +|inc +|dec +|decreas\w* +|[a-z0-9]+tog )(?:in|into|on|at) )(?P<nth>(?:the |every |each )?(?P<a>{_NTH})(?: (?:and|&) (?:the )?(?P<b>{_NTH}))?)(?P<noun> {_STITCH}\b)?(?=\s*(?:$|[.,;*)\]]|and\b|then\b|rep))"
)

#: What stitches are called where no chain stands between them.
_SPACES = when_used(r"\bspaces\b")
_OF_CHAINS = when_used(r"\bch(?:ain)?s?[ -]?\d* ?(?:sps?|spaces?|lps?|loops?)\b|[,*(] ?ch(?:ain)? ?\d+ ?[,;)](?! turn)")


#: "Work 0 sc", "sc in next 0 sts": what this size leaves out.
_NONE = when_used(
    r"(?:(?<=[,;.:] )|(?<=[*(\[]))(?:(?:and|then) )?(?:(?:work|make|skip|sk|miss) )?(?:0 +(?:more )?(?:sc|hdc|dc|tr|htr|dtr|sts?|stitches|chs?)(?: in(?:to)? (?:the )?(?:next|each)[^,;.*)\]]{0,20})?|(?:sc|hdc|dc|tr|htr) in (?:each of )?(?:the )?next 0 +(?:sc|hdc|dc|tr|htr|sts?|stitches))[,;]?(?=\s)"
)
#: "Sc in each st across, including the chains": the chains are worked into as the stitches are.
_INCLUDING = when_used(
    r"(?:,? (?:across|around|to (?:the )?end|along))?,? (?:including|incl\.?) (?:in )?(?:each|all|every|any|the) (?:of the )?(?:(?P<sp>(?:ch(?:ain)?[- ]?\d? ?)(?:sps?|spaces?))|ch(?:ain)?s?(?: ?sts?| stitch(?:es)?)?)(?=\s*(?:[,.;:)*]|$|around|across|turn))"
)
_IN_EACH = when_used(r"\b(?:each|every) [a-z]+(?: [a-z]+)?$")
#: "Ending with sl st in base of first ch-4": where the round began.
_CLOSED_AT = when_used(
    r"(?P<lead>\bend(?:s|ing)? (?:with |in |by )(?:an? )?(?:sl st|ss|slst|slip st(?:itch)?) (?:in|into|to|at) (?:the )?)(?:base|bottom|foot|beginning|start) of (?:the )?(?:first|1st|beg(?:inning)?|starting) ch(?:ain)?(?:[- ]?\d)?(?: (?:loop|lp|sp|space))?(?=\s*(?:[,.;(]|$))"
)
#: "..., ending last rep with ch 2, dc in base of first ch-5", "ch 2, dc in joining st": the stitch that closes the last
#: loop of a round goes where the round began.
_LOOP_CLOSED = when_used(
    r"(?P<lead>\bch ?-?\d{1,2},? (?:and |then )?(?:1 |one |an? )?(?:hdc|dc|htr|tr|dtr) (?:in|into|at) )(?:the )?"
    r"(?:(?:base|bottom|foot) of (?:the )?(?:first|1st|beg(?:inning)?|starting) ch(?:ain)?(?:[- ]?\d)?(?: (?:loop|lp|sp|space))?"
    r"|(?:same (?:st|stitch|place|sc|dc) as )?(?:the )?(?:first ch[- ]?\d|join(?:ing)?(?: (?:sl ?-?st|slip st(?:itch)?|ss|st|stitch))?|sl ?-?st|slip st(?:itch)?))"
    r"(?=\s*(?:[.;(]|$))"
)
_WENT_ROUND = when_used(r"\brep(?:eat)?\b|\baround\b|\btimes\b")
#: "Sl st up 3 ch of first loop", "sl st along 3 chs of the loop": into each of them.
_UP_CHAINS = when_used(
    r"(?P<slip>\b(?:sl ?-?st|ss|slst|slip st(?:itch)?) )(?:up|along|over|up along)(?: (?:the )?first)? (?P<n>\d) (?:chs?|chains?)"
    r"(?: (?:of|in) (?:the )?(?:first|next|1st|same)? ?(?:ch-?\d+ )?(?:loop|lp|sp|space|arch))?(?=\s*(?:[,.;(]|and\b|$))"
)
#: "Dec at each end, sc in all other sts": as many as are left.
_ALL_OTHERS = when_used(
    r"\bin(?:to)? all (?:of )?(?:the )?others?(?: (?:sts?|stitches|sc|hdc|dc|htr|tr))?(?=\s*(?:[.,;(]|$|turn\b|join\b))"
)
#: "2 sc in first and last st, 1 sc in those between", "sc the rest": the same, behind a place that is told for itself.
_THOSE_BETWEEN = when_used(
    r"(?P<st>(?:\b(?:sc|hdc|dc|htr|tr)|single crochet|double crochet) )(?P<where>in(?:to)? (?:all |each |every )?(?:of )?(?:the |those |these )?(?:others? )?(?:ones? |sts? |stitch(?:es)? )?(?:in )?between"
    r"|(?:in )?(?:the )?(?:rest|others))(?=\s*(?:[.;(]|$|,? ?(?:turn|join)\b))"
)
_TOLD_APART = when_used(r"\bfirst\b|\blast\b|\bends?\b|\b(?:every|each) (?:\d{1,2}(?:nd|rd|th|st)|other|second|third|fourth|fifth|sixth|seventh|eighth|ninth|tenth)\b")
#: "Sc2tog at beginning and end", "2 sc at both ends", "in both the first and last st".
_AT_BOTH = when_used(r"\b(?:in|at) (?:the )?(?:beg(?:inning)?|start) and (?:at )?(?:the )?end\b(?! of (?:each|every|row|rnd|round))|\b(?P<in>in )both (?P<the>the )?(?=first and (?:the )?last\b)")
#: "2 sc in the st after", "sc in the one after": the next one.
_AFTER = when_used(r"(?<=\bin )(?:the )?(?:(?P<noun>st|stitch|sc|hdc|dc|tr|loop|space|sp)|one) (?:right )?after(?: that| this| it)?(?=\s*(?:[,.;:*)\]]|rep|$))")


def _closed_at_first(found: re.Match[str]) -> str:
    if not _WENT_ROUND.search(found.string[: found.start()]):
        return found[0]
    return f"{found['lead']}first st".ljust(len(found[0]))


def runs_evened(low: str) -> str:
    """The text with a number that goes on from a run before it told as "next".

    >>> runs_evened("*sc in next 2 sts with an increase on the third; rep from * around").split()
    ['*sc', 'in', 'next', '2', 'sts,', 'increase', 'in', 'next', ';', 'rep', 'from', '*', 'around']
    """
    low = _NTH_PARTED.sub(lambda found: f"{found['n']}{found['end']} ", low)
    low = _NONE.sub(lambda found: " " * len(found[0]), low)
    low = _INCLUDING.sub(_chains_too, low)
    low = _CLOSED_AT.sub(lambda found: f"{found['lead']}first ch".ljust(len(found[0])), low)
    low = _UP_CHAINS.sub(lambda found: f"{found['slip']}in next {found['n']} ch".ljust(len(found[0])), low)
    low = _ALL_OTHERS.sub(lambda found: "in each st".ljust(len(found[0])), low)
    low = _THOSE_BETWEEN.sub(_all_between, low)
    low = _AT_BOTH.sub(lambda found: ("in " if found["in"] else "at each end").ljust(len(found[0])), low)
    low = _LOOP_CLOSED.sub(_closed_at_first, low)
    low = _AFTER.sub(lambda found: f"next {found['noun'] or 'st'}".ljust(len(found[0])), low)
    low = _UP.sub(lambda found: f"{found['stitch']} " + "in".ljust(len(found["way"])), low)
    low = _GROWING.sub(lambda found: f"{found['stitch']} ar, {found['to'].lstrip(' ,')[:3]}".ljust(len(found[0])), low)
    low = _SKIPPED.sub(_behind_those_skipped, low)
    chains = bool(_OF_CHAINS.search(low))
    apart = _WITH.sub(_as_clause, low) if "with" in low else low
    told = _RUN.sub(lambda found: _next(found, chains=chains), apart)
    return told if told != apart else low


def _all_between(found: re.Match[str]) -> str:
    if not _TOLD_APART.search(found.string, 0, found.start()):
        return found[0]
    told = "in each st" if len(found["where"]) >= len("in each st") else "to end"
    return found["st"] + told.ljust(len(found["where"])) if len(told) <= len(found["where"]) else found[0]


def _chains_too(found: re.Match[str]) -> str:
    """The chains as a further place of work that goes into each stitch; as they are said in a count, "(24 dc including
    the chains)"."""
    if not _IN_EACH.search(found.string, 0, found.start()):
        return found[0]
    return f" and in each {'sp' if found['sp'] else 'ch'}".ljust(len(found[0]))


def _as_clause(found: re.Match[str]) -> str:
    told = " " * len(found["told"] or "")
    return f"{','.ljust(len(found['with']))}{found['inc']}{told} in".ljust(len(found[0]))


def _behind_those_skipped(found: re.Match[str]) -> str:
    if lexicon.ordinal(found["a"]) != (lexicon.number(found["n"]) or 0) + 1:
        return found[0]
    return found["lead"] + ("next" if len(found["nth"]) > 3 else "nxt").ljust(len(found["nth"]))


def _next(found: re.Match[str], *, chains: bool) -> str:
    many = lexicon.number(found["n"] or found["m"]) or 0
    first, second = lexicon.ordinal(found["a"]), lexicon.ordinal(found["b"]) if found["b"] else 0
    if first != many + 1 or (second and second != first + 1):
        return found[0]
    nxt = "next 2" if second else "next" if len(found["nth"]) > 3 else "nxt"
    run = found["run"] if chains else _SPACES.sub(lambda said: "sts".ljust(len(said[0])), found["run"])
    kept = run + found["between"]
    return kept + nxt.ljust(len(found["nth"])) + (found["noun"] or "")
