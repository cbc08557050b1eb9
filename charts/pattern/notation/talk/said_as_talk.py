"""Clauses that tell work though they are said as talk is: what a place gets, what is left out, where the row goes on."""

from __future__ import annotations

import functools

from ...when_used import when_used

_MADE = r"(?:sc|hdc|dc|htr|tr|dtr|sl ?-?sts?|ss|(?:single|double|half double|half treble|treble)(?: crochets?)?|picots?|bobbles?|puffs?|popcorns?|clusters?|shells?|v-?sts?|crochets?)"
_MANY = r"(?:an? |the |another |one |all |both |each )?(?:extra |additional |more )?(?:\d{1,3} |two |three |four |five |six )?(?:more |extra )?"
_DOES = r"(?:work|make|crochet|inc(?:rease)?|dec(?:rease)?|skip|miss|sc|hdc|dc|htr|tr|sl st|ch(?:ain)?|put|place|leave(?: out)?|omit|join|fasten|repeat|add)"
#: Clauses that speak of the row and change it: what comes there, what is not worked, where it goes on.
_IS_WORK = (
    rf"\b(?:gets?|takes?|receives?|needs?|is followed by|then comes?|fills?) {_MANY}{_MADE}\b",
    rf"^(?:the )?(?:next|first|last|other|remaining|rest|third|second|every)\b[^,;]{{0,24}}\b(?:is|are) (?:now |all |both |an? |each )*{_MADE}$",
    rf"\b(?:you|we) (?:now |also |then )*(?:should|must|have to|need to|will(?: now)?|'ll|are going to|are to)(?: also| now)? {_DOES}(?:ing)?\b.{{0,50}}\b(?:first|last|next|each|every|\d+|two|three|corners?|posts?)\b",
    rf"\b(?:make sure|be sure|remember|don't forget|do not forget)(?: that you| to) {_DOES}\b.{{0,40}}\b(?:\d{{1,3}}|two|three|twice|{_MADE})\b",
    rf"\bdo(?:n't| not) forget (?:the |an? |your |\d )*{_MADE}\b",
    r"\b(?:is|are) (?:left out|skipped|missed(?: out)?|omitted|passed over|not worked|decreased|crossed)\b",
    r"^so (?:that )?(?:the )?(?:last )?(?:\d{1,3}|two|three|four|five) (?:sts?|stitch(?:es)?) (?:will )?(?:remain|stay|are left|is left|go) (?:unworked|unused|empty|free)\b",
    rf"^(?:an?|one|two|three|the last one|the first one|the next one) (?:{_MADE} )?(?:goes|go|comes?) (?:in|into|on|between|two rows|down)\b",
    r"^(?:we|you) crochet (?:two|2|three|3) together\b|\bdouble up in\b",
    r"^(?:now )?do the same (?:on|in|at|along|for) (?:the )?(?:other|next|second)\b|^(?:once|twice) more from the (?:start|beginning)$",
    r"\b(?:takes?|gets?) (?:\d{1,2}|two|three|four|five|six) in (?:every|each|one|the same|all)\b",
    rf"\b(?:one|two|three|\d{{1,2}}) (?:more|fewer|less) (?:{_MADE}|sts?|stitch(?:es)?) than\b",
    r"\b(?:you|we)(?:'re| are) going to (?:miss|skip|leave)\b.{0,20}\b(?:\d{1,2}|two|three|next|last|first)\b",
    r"^so (?:that )?(?:the )?last (?:\d{1,2}|two|three|four) (?:sts? |stitches )?(?:stay|remain|are left) (?:open|unworked|free|empty)\b",
    r"^(?:all but|without) the last(?: (?:repeat|one|two|three|\d{1,2}))?$|^like the (?:round|row|rnd) before,? but\b",
    rf"^(?:it helps|it's best|it is best) to {_DOES}\b.{{0,20}}\d",
)  # fmt: skip
_IS_WORK_PATTERNS = tuple(when_used(pattern) for pattern in _IS_WORK)


@functools.lru_cache(maxsize=4096)
def hides_work(clause: str) -> bool:
    """Whether a clause, in lower case, tells work though it is said as talk is: such a one is never passed over.

    >>> hides_work("every corner gets an extra dc"), hides_work("the corner gets a neat edge")
    (True, False)
    """
    said = " ".join(clause.split()).strip(" .!")
    return any(pattern.search(said) for pattern in _IS_WORK_PATTERNS)
