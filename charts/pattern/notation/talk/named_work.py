"""Sentences that were passed over: whether their words may be work after all, and how plainly.

A sentence that is passed over makes nothing. Where it names work ("skip 2 before the corner", "each petal gets two more
stitches", "without the last chain") a maker would have worked it, so it is said. What speaks of the piece, its count, its
tools, its photographs or of who makes it is left alone; these are known by how they are built.
"""

from __future__ import annotations

import functools
import re

from ...when_used import when_used
from .judge import tells_no_work, words_of
from .said_as_talk import hides_work

#: How a sentence says that it is only a remark.
_LED = when_used(r"^(?:(?:please )?(?:note|notes|tip|tips|hint|hints|n\.? ?b\.?|ps|reminder|remember|important|optional(?:ly)?)\b[:,!.\s-]*(?:that )?)+")
_NUM = r"(?:\d{1,4}|an?|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|sixteen|twenty)"
_STITCH = r"(?:sts?|stitch(?:es)?|sc|h?dc|h?tr|htr|dtr|chs?|chains?|sps?|spaces?|loops?|lps?|[a-z]+)"
#: What stands, told to be counted: "as you can see there are 20 stitches", "you should have three shells in every row".
_COUNTS = when_used(
    rf"(?:as you can see,? |you(?:'ll| will| can) (?:now )?see (?:that )?|now |by now |so |and |at this point |again )*"
    rf"(?:there(?: are|'s| is| should be| will be| must be)|(?:you|we)(?:'ve| have)?(?: (?:should|will|must|ought to|now|still|also|then|always|only)){{0,3}}(?: (?:have|see|get|end up with|be left with))?(?: got| made)?)"
    rf"(?: (?:now|still|again|always|exactly|about|only|all|a total of)){{0,2}} {_NUM}(?: [a-z-]+){{0,2}}? {_STITCH}\b(?! (?:left|unworked|to work|to go|for|less|fewer))"
    rf"(?: (?:now|in (?:all|total|the end|(?:each|every|this|the) (?:row|rnd|round|side|motif|section))|altogether|total|around|on (?:each|every|this|one) (?:side|edge|row)|across|so far|again|per (?:side|row|round)|between (?:the )?corners|and {_NUM} [a-z -]+))*"
)
#: What the piece has of parts that make no stitch: "the square now has four corners", "there are six petals in this flower".
_HAS = when_used(
    rf"(?:(?:the|your|this|each|every) (?!last|first|next|second)[a-z]+(?: (?:now|should|will|still|must|then)){{0,2}} (?:has|have|shows?)|there (?:are|is|should be))(?: now)? {_NUM} (?!more|fewer|less|extra)(?:[a-z]+ )?(?:corners?|petals?|sides?|points?|leaves|segments?|sections?|stripes?|rows?|rounds?|rnds?|ridges?|wedges?)"
    rf"(?: (?:now|in (?:all|total|this [a-z]+|the [a-z]+|your [a-z]+|each [a-z]+|every [a-z]+)|altogether|around|so far))*"
)
#: "18 sts and 20 rows make 10 cm"; what takes time; photographs and their captions.
_GAUGE = when_used(rf"\b{_NUM} [a-z]+(?: st| sts)? (?:and|x|by|=|to|per) (?:{_NUM} (?:rows?|rnds?|rounds?)|\d+ ?(?:cm|in|inch|mm))\b|\bgauge\b|\bmeasures?\b|\b(?:minutes?|hours?|evenings?|afternoons?)\b")
_PICTURED = when_used(r"^(?:in )?(?:the |my |this |these |our |see )*(?:photos?|pictures?|pics?|fig(?:ure)?s?|diagrams?|videos?|images?)\b")
#: Markers, needles and other tools; stuffing, sewing, ends of yarn.
_TOOLS = when_used(
    r"^(?:(?:now|then|also|please|and|you (?:can|may|will want to|should|might want to)|i|we|it helps to|(?:do not|don't) forget to|be sure to|make sure to|don't|do not|to) )*"
    r"(?:(?:place|put|move|keep|use|using|pin|attach|slip|hang|clip|insert|add|leave|remove|take out|mark|pm|pin) (?:[a-z-]+ ){0,4}?(?:marker|markers|pm|pins?|safety pin|scrap(?: of)? yarn|paper ?clip)\b"
    r"|mark (?:the |this |each |every |your |its |beginning|beg|first|last|where)|pm\b"
    r"|(?:use|using|try|take|grab|switch|change|go|choose|pick|get|need|prefer)\b(?: (?!hdc|sc|dc|tr)[a-z0-9.-]+){0,5} (?:needles?|hooks?|scissors|tools?|wool|tension|size|sizes|mm)\b(?! (?:in|into|through|under|around|behind) )"
    r"|(?:(?:begin|start|continue|keep(?: on)?|pause|stop|go on|finish) (?:to )?)?(?:stuff|sew|weav|wov|embroider|glu|block|steam|wash|iron|press|photograph|rest|unravel|frog|trim|knot|cut|break|drop|carry|tug|stroke)(?:e|es|ing|ed)?\b(?! (?:on\b|(?:the |all )?(?:last|first|next|every|each|final|two|three|one|\d)))(?!.*\b(?:work|crochet|ch|sc|hdc|dc|tr|skip) )"
    r"|leav(?:e|ing) (?:an?|the|some|enough) (?:[a-z0-9-]+ ){0,3}(?:tails?|ends?|yarn|length)\b|(?:do not |don't )?(?:fasten|finish|end|bind|tie|break) off\b[^,;]*$)"
)
#: What a row or its side is, and that it is done.
_IS_SIDE = when_used(r"^(?:this|that|it|these|the)(?: [a-z]+){0,3}? (?:is|are|'s|will be|should be|was|becomes?)(?: now| your| the| always| worked| made| done| facing| on| from| with)* (?:right|wrong|rs|ws|front|back|public|inside|outside)(?: side)?\b(?! (?:loops?|lps?|posts?))")
_IS_DONE = when_used(r"(?:that|this|here|these)(?: is|'s| are| was| were)(?: the| your| our| all)* (?:end of )?(?:the )?(?:first |last |second |third |[a-z]+ )?(?:rows?|rnds?|rounds?|sides?|corners?|petals?|parts?|halves|half|section|motif)(?: [a-z0-9]+)?(?: of .*)?(?: (?:finished|done|complete[d]?|made|over))?")
#: What changes nothing: to and fro, no join, what is not to be left out, another way, the yarn and the piece in the hand.
_CHANGES_NOTHING = when_used(
    r"^(?:(?:from (?:here|now)(?: on)?|you|we|now|but|and|then|continue|start|begin|go on|keep(?: on)?)[, ]+)*(?:to )?(?:work(?:ing)?|crochet(?:ing)?)? ?(?:flat|even|straight|(?:to and fro|back and forth)(?: in rows)?|in (?:rows|rounds|a spiral|continuous rounds|the round))\b"
    r"|^(?:but )?(?:do not|don't|never|without) (?:join|turn|cut|break|fasten|(?:mind|skip|miss|omit|forget|leave out|overlook) (?:any|a|the last|the first|your|the turning|the ch|it|them|the chain|this))(?:ing)?\b(?!.*\b(?:every|each|\d|two|three)\b)"
    r"|^(?:or|with (?:two|2|both|one|a single) strands?|the [0-9.]+ ?mm|turn (?:the |your )(?:work|piece|band|strip|motif|square|fabric|hat|bag)|leave it|to (?:form|make|complete|create|get|give) (?!\d|two|three))\b"
    r"|^(?:change|switch|swap) (?:to )?(?:the )?(?:colou?rs?|yarns?|[a-z]{1,2}|[a-z]+ (?:colou?r|yarn|wool))\b(?!.*\bfor (?:the )?(?:last|first|next|\d))"
    r"|^(?:put|place|attach|add|insert) (?:the |both |two |safety )*(?:eyes?|nose|arms?|legs?|ears?|beads?|buttons?|zip|wire)\b"
    r"|^(?:draw|pull|thread|run|pass|bring|lead)(?:ing)? (?:the |your )?(?:yarn|end|tail|thread|wool|ring|it)\b.{0,30}$|^(?:pull|draw)(?:ing)? (?:up )?(?:tight|tightly|snug|snugly|firm|firmly|closed?)\b|^align|^(?:keeping|holding) (?:the )?(?:[a-z]+ )(?:in front|forward|to the|behind|back|flat)\b[^0-9]*$"
)
#: "1 st increased", "3 sts now 5": what the work beside it has made.
_MADE_SO = when_used(rf"{_NUM} {_STITCH}(?: {_STITCH})?(?: now)? (?:(?:on|along|in|for|to|at) (?:each|every|all(?: four)?|both|either)|per|each|a) (?:sides?|edges?)\b.*|{_NUM} {_STITCH} (?:in )?between (?:the |each |all )?corners?\b.*|{_NUM} {_STITCH}(?: (?:is|are|were|have been))? (?:increased|decreased|added|dec|inc|made|now (?:\d+|[a-z]+)|in (?:all|total))(?: (?:at|on|in) .*)?")
#: How a stitch is made: "to make a bobble, work 5 dc in the same place".
_TOLD_HOW = when_used(r"to (?:make|work|form|do|create|begin|start|finish) (?:an?|the|your|each|this|every) .*")
#: "Cluster: 3 tr in same sc, ...": what a stitch is; and what is worked from an arrow of the chart.
_TOLD_OF = when_used(
    r"(?:[a-z0-9-]+ ){0,3}(?:[a-z]*cluster|cl|shell|picot|bobble|popcorn|pc|puff|v-?st|fan|star|inc|dec|increase|decrease|st|stitch|knot|loop)s? ?(?:\([^)]*\) ?)?[:=-] ?.*|.*\barrows?\b.*"
)
#: What happens to people, how easy it is, what one may do: "beginners often lose a stitch here", "it is easy to miss the last".
_PEOPLE = when_used(
    r"^(?:beginners|people|many|most|some|everyone|everybody|nobody|crocheters|(?:left|right)-handers|knitters|makers|testers|my|his|her|our|mistakes)\b(?! (?:of|st|sts|stitches|rows?|rounds?)\b).{0,60}"
    r"|^(?:it|this|here it|the last (?:st|stitch|one)|the (?:turning|first|last|beginning) (?:ch|chain|stitch|st))(?: is|'s| can be| may be) (?:\w+ )?(?:easy|easily|hard|tempting|common|normal|natural|usual|simple|tricky|fine|okay|ok|easier|harder|often|so) .*"
    r"|^(?:you|we) (?:can|may|could|might) (?:also )?(?:stop|rest|pause|leave it|end|relax|admire|see|try|choose|like|want|notice|find|feel|wish)\b(?!.*\b(?:short|before|early|instead)\b).*"
    r"|^(?:i|i'm|i've|i'd|my|me|happy|enjoy|don't pull|do not pull|don't worry|do not worry|congratulations|yay|phew|hooray)\b.*"
)
#: What the piece shows, looks like or does.
_SHOWS = when_used(
    r"^(?:you(?:'ll| will| can| may| should| might)? (?:now |also |soon )?(?:see|notice|find|feel|observe|recogni[sz]e) .*|(?:as|like) (?:you|we) (?:can )?see\b.*"
    r"|(?:the|your|this|that|its|each|all|these) (?!(?:last|first|next|final|outer|middle) (?:two|three|four|five|six|\d))(?:[a-z]+ ){1,3}?(?:of (?:the|your) [a-z]+ )?(?:shows?|looks?|curls?|sits?|lies?|lays?|seems?|appears?|feels?|resembles?|stays?|forms?|leans?|ruffles?|stands?|points?|overlaps?|grows?|happens?) (?!in(?:to)? (?:the )?(?:next|same|each|every)).*)"
)
#: A name of what was made, or of the row: "(shell made)", "(increase row)", "(2nd petal)".
_NAMED = when_used(rf"(?:(?:an?|the|this|first|last|next|another|{_NUM}|\d+(?:st|nd|rd|th)) ){{0,2}}(?:[a-z-]+ ){{0,2}}[a-z-]+ (?:made|formed|completed?|done|worked|finished|row|rnd|round)")
#: Conditions: what they lead to may be work.
_CONDITION = when_used(r"^(?:if|when|whenever|once|after|before|while|as|since|because|should|unless|although|though)\b[^,;:]*[,;:]\s*(?:then )?")
#: What no limit, number or stitch may follow: words that give work its place or its change.
_CHANGES = when_used(
    rf"\b(?:{_NUM} (?:more|fewer|less|extra|additional)|(?:extra|additional) (?:sts?|stitch(?:es)?|ch|chain|sc|dc|hdc|tr)|one (?:short|less|fewer|more)|instead|without|only|twice|thrice|early|backwards?|unworked|left (?:off|out|free|open)|both ends|each end|either (?:end|side)|alternate(?:ly)?|in pairs|together)\b"
)
#: What says plainly to do something so often, or at a place: "skip 2 before the corner", "3 in each corner".
_PLACE = r"(?:next|each|every|first|last|second|third|fourth|other|same|both|all|final|middle|centre|center|\d+(?:st|nd|rd|th))"
_TELLS = when_used(
    rf"^(?:(?:now|then|and|here|also|again|in this (?:row|rnd|round)|on the (?:last|first) repeat|you (?:must|need to|have to|should|will)(?: now| also)?|make sure (?:to|you)|be sure to|remember to|do not|don't),? )*"
    rf"(?:(?:work|make|crochet|skip|sk|miss(?: out)?|omit|leave(?: out)?|inc(?:rease)?|dec(?:rease)?|s?c|hdc|dc|tr|htr|sl st|ch(?:ain)?|put|go|cross|twist|replace|swap|stop|turn|give|decrease|slip|repeat|fill|pull up a loop|wrap|yarn over|hold back|add|begin|insert|close|enclose|catch|bridge|lose|widen|narrow|end|omit)\b"
    rf"(?! (?:the |a |an )?(?:(?:long|\d+) )*(?:tail|end|yarn)\b)(?=.*(?:\b{_PLACE} (?:[a-z0-9-]+ ){{0,2}}(?:{_STITCH}|two|three|four|\d+)\b|\b(?:\d{{1,3}}|two|three|four|five|six|twice|unworked|together)\b|\b(?:both|each|either) (?:ends?|sides?)\b|\bshort\b))"
    rf"|(?:\d{{1,3}}|two|three|four|five|six) (?:(?:more|sc|hdc|dc|htr|tr|chs?|chains?|sts?) ){{0,2}}(?:in|into|over|between) (?:the )?{_PLACE}\b"
    rf"|(?:\d{{1,3}}|two|three|four|five|six) more\b.*\bturn\b)"
)
#: Rows as one likes, sizes and pieces to come: said of the piece, and no work of the row.
_AT_WILL = when_used(
    r"\b(?:as (?:often|many|much|long)|desired|you (?:like|want|wish|need|please|prefer)|if|optional|until|for (?:a|an) [a-z]+|another|pieces?|eyes|tail|until it|cm|inch|inches|mm|\"|sew|rows?|rnds?|rounds?)\b"
)
#: Work over ends, and what rows grow by, which their counts tell.
_IN_DOUBT = when_used(r"^(?:work|crochet|go)(?:ing)? over (?:the |your |both |any )*(?:[a-z]+ )?(?:ends?|tails?|strands?|yarn)\b|\b(?:grows?|increases?|decreases?|shrinks?|gains?|loses?) by\b")
#: "5 dc in each dc-group": how many stand there.
_IN_EACH = when_used(rf"(?:skip|skipping|work|working|using|making|for) {_NUM} {_STITCH} (?:in )?(?:total|all|altogether)|{_NUM} {_STITCH} (?:in|on|per|to) (?:each|every|a) (?:[a-z]+[- ])?(?:group|cluster|shell|fan|petal|scallop|motif|side|corner|point|section|repeat)s?")
#: What is not to be done is at most in doubt.
_NOT_DONE = when_used(r"^(?:but |and |now )?(?:do not|don't|never|without|no)\b")
#: Two words that are work: "skip one", "repeat twice".
_SHORT = when_used(r"^(?:skip|sk|miss|work|make|omit|leave|drop|slip|add|repeat|inc|dec|increase|decrease) (?:one|two|three|four|five|six|it|them|both|none|last|first|corners?|once|twice)\b")
_VERBS = frozenset(
    ("go", "give", "take", "begin", "start", "swap", "replace", "widen", "narrow", "lose", "bridge", "attach", "twist", "catch", "enclose", "fill", "hold", "come", "treat", "alternate", "wrap",
     "push", "insert", "pull", "stop", "close", "do", "carry", "return", "draw", "keep", "change", "split", "double", "triple", "gather", "combine", "shape", "shift", "drop", "pick", "hook",
     "finish", "miss", "repeat", "pass", "yarn", "stitch", "widen", "shorten", "lengthen", "extend", "remove", "reverse", "substitute", "exchange", "continue", "work", "omit", "slip")
)  # fmt: skip


@functools.lru_cache(maxsize=4096)
def named_work(sentence: str) -> int:
    """How plainly a sentence in lower case names work: 0 not at all, 1 perhaps, 2 plainly.

    >>> named_work("skip 2 before the corner"), named_work("without the last chain"), named_work("it will look wavy")
    (2, 1, 0)
    >>> named_work("as you can see there are 20 stitches"), named_work("place a marker in the first stitch of every row")
    (0, 0)
    """
    said = _LED.sub("", " ".join(sentence.split()).strip(" .!?*()[]-:;,"))
    condition = _CONDITION.match(said)
    if condition and not _COUNTS.fullmatch(said) and not _SHOWS.match(said):
        said = said[condition.end() :]
    if not said or sentence.rstrip(" )].").endswith("?") or _is_talk(said, whole=True):
        return 0
    parts = [part for part in re.split(r"[,;:]\s|\s-+\s|\. ", said) if part.strip()]
    degree = max(_degree(part.strip()) for part in parts)
    return min(degree, 1) if condition or sentence.lstrip().startswith(("(", "[")) or _NOT_DONE.match(said) else degree


def _degree(said: str) -> int:
    words = re.findall(r"[a-z]+(?:[-'][a-z]+)*|\d+", said)
    if not words or _is_talk(said):
        return 0
    works = any(_is_work(words, at) for at in range(len(words)))
    if not works and not _CHANGES.search(said):
        return 0
    return 2 if (_TELLS.match(said) or hides_work(said)) and not (_AT_WILL.search(said) or _IN_DOUBT.search(said)) else 1


def _is_talk(said: str, *, whole: bool = False) -> bool:
    """Whether words are talk by their build; of a `whole` sentence with several parts only what holds for all of it."""
    if tells_no_work(said) and not _CHANGES.search(said):
        return True
    all_of_it = (_COUNTS, _HAS, _IS_DONE, _IN_EACH, _NAMED, _MADE_SO, _TOLD_HOW, _TOLD_OF)
    begins = () if whole and re.search(r"[,;]", said) else (_PICTURED, _TOOLS, _IS_SIDE, _PEOPLE, _SHOWS, _CHANGES_NOTHING)
    short = len(said.split()) < 3 and not any(ch.isdigit() for ch in said) and not _CHANGES.search(said) and not _SHORT.match(said)
    return short or any(form.fullmatch(said) for form in all_of_it) or any(form.match(said) for form in begins) or _GAUGE.search(said) is not None


def _is_work(words: list[str], at: int) -> bool:
    """Whether a word may tell work: a stitch, a verb of work, a number or a place of many."""
    word = words[at]
    if word in words_of("WORKS") or word[0].isdigit() or word in words_of("NUMBERS") or word.endswith("tog"):
        return True
    if at == 0 and word in _VERBS:
        return any(w in words_of("PLACES") or w in words_of("NUMBERS") or w in words_of("WHICH") or w in ("times", "row", "rows", "hook", "loops", "yarn", "ends", "end", "backwards") for w in words[1:])
    if word in ("next", "each", "every") and words[at + 1 : at + 2] in (["one"], ["two"]):
        return True
    return word in words_of("WHICH") and any(w in words_of("PLACES") for w in words[at + 1 : at + 4])
