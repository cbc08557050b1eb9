"""Habits of older and hurried print: loops told in a sentence, a mark left out of "rep from", what is left over told as
"work to end", chains skipped as "skip ch2".

Every function takes a row's text in lower case and gives it letter for letter as long as before.
"""

from __future__ import annotations

import re

from ... import lexicon
from ...when_used import when_used

_NUMBER = rf"(?:\d{{1,2}}|{lexicon.NUMBER_WORDS})"
_PLAIN = r"(?:s ?c|h ?d ?c|h ?tr|d ?c|d ?tr|tr|sts?|stitch(?:es)?|single crochets?|double crochets?|half doubles?|trebles?)"
_AT_ENDS = r"(?=\s*(?:[,;.):]|$))"
#: "Working only in the BACK loops (loops farthest from you) of the tops of the sc's", "picking up only the back loop of each
#: d c", "take up the front loops of the stitches throughout": the loop alone that all stitches go into.
_LOOPS_SAID = when_used(
    r"(?P<lead>\b(?:(?:always |now )?(?:work(?:ing|ed)?|crochet(?:ing|ed)?|go(?:ing)?|made|insert(?:ing)? (?:the |your )?hook) (?:all (?:sts |stitches )?|only |entirely )?(?:in(?:to)?|through|thru|under)"
    r"|(?:only )?with (?:everything|it all|all of (?:it|them)|all (?:your|the) (?:sts|stitches)) (?:in(?:to)?|through|thru|under)|(?:now |only )?(?:put(?:ting)?|mak(?:e|ing)|do(?:ing)?|work(?:ing)?|plac(?:e|ing)|stick(?:ing)?) (?:everything|it all|them all|all of (?:it|them)|all (?:your|the|these) (?:sts|stitches)|each st|every st(?:itch)?) (?:in(?:to)?|through|thru|under)|(?:always )?(?:pick|tak|catch)(?:e|ing)?(?: up)?) )(?:only )?(?:from |through )?(?:the )?(?P<side>back|front|rear|near|far) (?:loops?|lps?|threads?|strands?)(?: only)?"
    rf"(?: ?\((?:the )?(?:loops?|ones?|lps?|those)? ?(?:farthest|furthest|nearest|closest|away|at the back|at the front)[^()]{{0,20}}\))?(?: only)?(?: of(?: the tops? of)?(?: (?:the|each|every|all))*(?: (?:loops?|lps?|{_PLAIN})(?:'s)?)?(?: (?:of|in) (?:the )?(?:previous|last|prev) (?:row|rnd|round))?)?(?: throughout)?{_AT_ENDS}"
)
#: "Repeat from 6 times more": the mark that was left out, of a row that has one.
_NO_MARK = when_used(rf"\b(?P<rep>rep(?:eat)?) from(?= (?:{_NUMBER} (?:more )?times|{_NUMBER} more|once|twice|around|across|to (?:the )?end))")
#: "..., work to end - 63 dc": what is left over takes a stitch each.
_WORK_ON = when_used(r"(?<=[,;.)] )(?:(?:and|then) )?(?P<work>(?:work|crochet|continue) (?:to (?:the )?end|across|around)(?: of (?:the )?(?:row|rnd|round))?)(?=\s*(?:[,;.]|[-\u2013=(]\s*\d|$))")
_LAST_STITCH = when_used(r"\b\d{1,2} ?(?P<st>sc|hdc|dc|htr|tr|dtr)\b(?! ?\d? ?tog)")
#: "Skip ch2, 5 dc in next ch", "skip ch1": so many chains, where chains of the foundation are told.
_SKIP_CHAINS = when_used(r"\b(?P<skip>sk|skip|miss)(?P<room> )ch ?(?P<n>\d)(?! ?-?(?:sp|space|lp|loop))(?=\s*[,;.])")
_ON_CHAINS = when_used(r"\b\d(?:nd|rd|th) (?:ch(?:ain)? )?from (?:the )?(?:hook|needle)\b|\bin (?:the )?next ch\b")
#: "Working on opposite of ch": that side of it.
_OPPOSITE_OF = when_used(r"\b(?P<on>on |along |in |up |down )(?P<the>the )?opposite of (?P<ch>(?:the )?(?:foundation |starting |beg(?:inning)? )?ch(?:ain)?)\b")
#: "I did 10 hdc in the centre of the hole.": what the row is, told as what was done.
_WAS_DONE = when_used(rf"^(?P<lead>\W*)(?P<did>(?:i|we) (?:did|made|worked|crocheted|have|do|make|work) )(?=\d{{1,2}} ?{_PLAIN}\b)")
_CENTER_OF = when_used(r"\b(?P<into>in(?:to)? )(?:the )?(?:cent(?:er|re)|middle) (?:of )?(?:the |your )?(?P<hole>hole|ring|circle|loop)\b")
#: "2 hdc into each stitch, leaving you with 20 hdc": what the row has then, and nothing unworked.
_LEAVING = when_used(
    rf"(?P<work>\b(?:in(?:to)?|over) (?:each|every|all)\b(?![^.]*\b(?:last|until|till|except|remain)\b)[^.;]*?),? (?P<said>leaving (?:(?:you|us) )?(?:with )?(?:a total of )?)(?P<n>\d{{1,3}}) ?(?P<st>{_PLAIN})?(?=\W*$)"
)


#: "In loop where the 2 sl sts were made": as "where sl st made".
_WHERE_SLIPPED = when_used(r"\b(?P<where>where )(?:the |your )?(?:(?:first|last) )?(?:\d |two |three )?(?:sl sts?|slip sts?|slip stitch(?:es)?)(?: (?:was|were|are|is|have been))? (?:made|worked|done)\b")
#: "Repeat to the end of the last sc": to that one.
_END_OF_LAST = when_used(r"\b(?P<to>to|until|till) (?:the )?end of (?=(?:the )?last (?:sc|hdc|dc|htr|tr|st|stitch|shell|sp|ch)\b)")
#: "* 2 sc in next st, 1 sc in next st, repeat from *, * 1 sc in next st, ...": once more, where another repeat follows.
_REP_THEN_STAR = when_used(r"\b(?P<rep>rep(?:eat)?) from \*(?=[,;] ?\*)")
_REP_THEN_WORK = when_used(rf"\b(?P<rep>rep(?:eat)?) from \*(?=[,;] ?(?:\d{{1,2}} )?{_PLAIN} in (?:each of )?(?:the )?next)")
#: "... to last st. At this point make an hdc in first sc": where the row stands.
_AT_THIS = when_used(r"(?:(?<=[.,;] )|(?<=\band ))(?:now )?at (?:this|that) (?:point|stage|place)(?: (?:of|in) the (?:row|rnd|round))?,? (?=[a-z0-9])")
#: "2 dc in 2ch space, ch 2, 2 dc in 2ch space still": the same one.
_STILL = when_used(r"\b(?P<in>in(?:to)? )(?P<place>(?:the )?(?:(?:ch[- ]?)?\d(?:[- ]?ch)? ?)?(?:sp|space|loop|lp|st|stitch|corner) still)\b")
#: "With red, work. 48 sc over the ring": a stop that parts nothing.
_WORK_STOP = when_used(r"\b(?P<work>work|make)\. (?=\d{1,3} ?[sdht])")
#: "(3 dc, ch 1, 3 dc) directly on top of the next puff": into it.
_ON_TOP_OF = when_used(r"\b(?:directly |right )?(?P<on>on top of) (?=(?:the )?(?:next|each|same|last)\b)")
#: "On the last pull-through of row 5": where yarn is changed; of several rows, in the one that is named.
_PULL_THROUGH = when_used(
    r"\b(?P<in>on|in|at|with|during) (?P<last>(?:the |your )?(?:(?:very )?last|final) (?:pull|draw|yarn)[- ]?(?:through|thru|over)s?)(?P<of> of (?:the )?(?:(?:this|last|each) )?(?:row|rnd|round|st|stitch|sc|dc|hdc|tr)(?: \d{1,3})?)?(?=\s*(?:[.,;)]|$))"
)
#: "Close 2 sc together", "close together 3 dc": gathered, word for word from other languages.
_CLOSE_TOGETHER = when_used(rf"\b(?:close|shut|finish|end) (?:(?P<n>\d) ?(?P<st>{_PLAIN}) (?:together|tog)|(?:together|tog) (?P<m>\d) ?(?P<st2>{_PLAIN}))(?![a-z])")
#: "2nd ch counting from the hook", "2nd ch (counted from the hook)".
_COUNTING = when_used(r"(?P<open>,? ?\(| |, )(?:counting|counted|counts|reckoned|reckoning) from (?:the |your )?(?P<hook>hook|needle)(?P<close>\)?)")
#: "... but go behind the first 3 tr this time": as it is usually said of crossed stitches.
_GO_BEHIND = when_used(
    r"(?P<but>,? ?(?:but|and|only) )(?:this time )?(?:go(?:ing)?|work(?:ing)?|cross(?:ing)?|pass(?:ing)?) (?:in )?(?P<side>behind|back|front)(?: of)?(?: (?:the|those|them|sts?|stitches|first|other|last|just made|\d|fptr|fpdc|d?tr|dc|sts))*(?: (?:this time|instead))?(?: of (?:in )?(?:front|back|behind))?(?=\s*(?:[.,;]|$))"
)
#: "Going in front of those just made FPtr around the skipped sts": two clauses.
_JUST_MADE = when_used(r"(?<=\bmade) (?=(?:\d )?(?:fp|bp)?(?:dc|d?tr|hdc|sc)\b)")
#: "Working in front of these FPtr around each of the skipped sts": what is worked past is not named, the stitch is worked.
_PAST_THESE = when_used(
    r"(?P<past>\b(?:in front of|in back of|behind) (?:these|those|them|this|it))(?P<gap> )(?=(?:\d )?(?:fp ?|bp ?)?(?:dc|htr|d?tr|hdc|sc) (?:(?:in|around|round|over|into) (?:the |each |both |next |first |last )|each |(?:in|around|round|over|into) \d))"
)
#: "The 2 sts skipped": the skipped ones.
_SKIPPED_BEHIND = when_used(r"\b(?P<the>(?:the|those|these) (?:\d )?)(?P<st>sts?|stitch(?:es)?|dc|sc|hdc|tr) (?P<skipped>skipped|missed)(?=\s*(?:[.,;)*\]]|$|then\b|and\b))")
#: "4 ch in the air": chains, word for word from other languages.
_IN_THE_AIR = when_used(r"(?P<ch>\b(?:ch ?\d{1,2}|\d{1,2} ?ch(?:s|ains?)?(?: sts?)?))(?P<air> (?:in|on) (?:the )?air)\b")


def print_habits_evened(low: str) -> str:
    """The text with all that told in the usual words.

    >>> print_habits_evened("working only in the back loops of the tops of the sc's, dc in next 9 sts").split(",")[0].split()
    ['working', 'in', 'back', 'loops', 'only']
    >>> print_habits_evened("*ch 3, sc in next ch, repeat from 6 times more").split(", ")[-1]
    'repeat *    6 times more'
    """
    low = _LOOPS_SAID.sub(_loops, low) if "loop" in low or "lp" in low or "thread" in low or "strand" in low else low
    low = _NO_MARK.sub(lambda m: f"{m['rep']} *   ", low) if low.count("*") == 1 else low
    low = _WORK_ON.sub(_each_to_end, low)
    if _ON_CHAINS.search(low):
        low = _SKIP_CHAINS.sub(lambda m: f"{m['skip']} {m['n']} ch".ljust(len(m[0])) if len(m[0]) >= len(m["skip"]) + len(" 2 ch") else f"{m['skip']} {m['n']} ", low)
    low = _WHERE_SLIPPED.sub(lambda m: f"{m['where']}sl st made".ljust(len(m[0])), low) if "where" in low else low
    low = _END_OF_LAST.sub(lambda m: f"{m['to']} ".ljust(len(m[0])), low) if "end of" in low else low
    if _REP_THEN_STAR.search(low):
        low = _REP_THEN_WORK.sub(_once_more, _REP_THEN_STAR.sub(_once_more, low))
    low = _AT_THIS.sub(lambda m: " " * len(m[0]), low) if "at th" in low else low
    low = _STILL.sub(lambda m: f"{m['in']}same {m['place'].split()[-2]}".ljust(len(m[0])) if len(m["place"]) > len("same space") - 2 else m[0], low) if "still" in low else low
    low = _PULL_THROUGH.sub(lambda m: "in last yo".ljust(len(m[0])), low) if "last" in low or "final" in low else low
    low = _CLOSE_TOGETHER.sub(lambda m: f"{m['n'] or m['m']} {m['st'] or m['st2']} tog".ljust(len(m[0])), low) if " tog" in low else low
    low = _COUNTING.sub(lambda m: f" from {m['hook']}".ljust(len(m[0])), low) if "hook" in low or "needle" in low else low
    low = _IN_THE_AIR.sub(lambda m: m["ch"].ljust(len(m[0])), low) if " air" in low else low
    low = _GO_BEHIND.sub(_passing, low) if "behind" in low or "in back" in low or "in front" in low else low
    low = _JUST_MADE.sub(",", low) if "just made" in low else low
    low = _PAST_THESE.sub(r"\g<past>,", low)
    low = _SKIPPED_BEHIND.sub(r"\g<the>\g<skipped> \g<st>", low)
    low = _WORK_STOP.sub(r"\g<work>  ", low)
    low = _ON_TOP_OF.sub(lambda m: "in ".ljust(len(m[0])), low) if "on top" in low else low
    low = _WAS_DONE.sub(lambda m: m["lead"] + " " * len(m["did"]), low)
    low = _CENTER_OF.sub(lambda m: f"{m['into']}ring".ljust(len(m[0])), low) if "cent" in low or "middle" in low else low
    low = _LEAVING.sub(lambda m: f"{m['work']} = {m['n']} {m['st'] or 'sts'}".ljust(len(m[0])), low) if "leaving" in low else low
    return _OPPOSITE_OF.sub(lambda m: f"{m['on']}other side {m['ch']}".ljust(len(m[0])) if len(m["on"] + "other side " + m["ch"]) <= len(m[0]) else m[0], low) if "opposite" in low else low


def _passing(found: re.Match[str]) -> str:
    told = f", but working {'in front' if found['side'] == 'front' else 'behind'}"
    return told.ljust(len(found[0])) if len(told) <= len(found[0]) else found[0]


def _once_more(found: re.Match[str]) -> str:
    return "rep * once".ljust(len(found[0]))


def _loops(found: re.Match[str]) -> str:
    side = {"rear": "back", "far": "back", "near": "front"}.get(found["side"], found["side"])
    told = f"working in {side} loops only"
    return told.ljust(len(found[0])) if len(told) <= len(found[0]) else found[0]


def _each_to_end(found: re.Match[str]) -> str:
    """In each stitch to the end the one that the row was last told to be of, where it is one and fits."""
    said = [m["st"] for m in _LAST_STITCH.finditer(found.string, 0, found.start())]
    told = f"{said[-1]} to end" if said and len(set(said)) == 1 else ""
    return told.ljust(len(found[0])) if told and len(told) <= len(found[0]) else found[0]
