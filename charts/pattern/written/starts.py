"""How a piece begins, said in a sentence: its chain, its ring, the stitches it goes over."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ...made_late import replace
from .. import lexicon
from ..notation.plain import plain
from ..tree import Act, Chain, Make, Op, RowText, Skip, Start
from ..when_used import when_used

_N = rf"(?P<n>\d{{1,9}}|{lexicon.NUMBER_WORDS})"
_CHAIN = when_used(
    rf"(?:\b(?:(?:ch|chain|chained|chaining|cast on|chs)\b|ch(?=\d))[.:=]?\s*(?:loosely\s+|a\s+|up\s+|about\s+)?(?:of\s+)?{_N}\b"
    rf"|\b(?:make|work|crochet|form|with|begin with|start with|using|a|commence with)\s+(?:(?:a|the|of|in)\s+)?(?:(?:foundation|starting|base|loose|beginning|length)\s+)*(?:(?:ch|chain)s?\s+(?:of|with)\s+){_N.replace('?P<n>', '?P<n3>')}\b"
    rf"|(?P<n2>\d{{1,9}})(?:\s*(?:\+|plus)\s*(?P<plus2>\d{{1,2}}))?\s*-?(?:ch|chains?|chain stitches|chain sts|foundation chains?|chs)\b)"
)
_MULTIPLE = when_used(
    r"multiples? of (?P<of>\d{1,5}|two|three|four|five|six|eight|ten)(?:\s*(?:sts?|stitches|ch|chs|chains?))?"
    r"(?:\s*(?:[+,]|plus|and|then|,\s*plus|,\s*then)\s*(?:chain\s+|ch\s+|add(?:\s+an)?\s+(?:extra\s+)?|an?\s+(?:extra\s+)?)?(?P<plus>\d{1,5}|one|two|three|four|five|six)(?:\s*(?:extra|more))?)?"
    r"(?:\s*\(?\s*(?:(?:[+,]|plus|and|then|add)\s*)+\(?\s*(?:add\s+)?(?:ch\s+)?(?P<base>\d{1,5}|one|two|three|four)\s+(?:\w+\s+){0,2}?(?:for|as|to)\s+(?:the\s+)?(?:foundation|base|turning|starting|begin\w*|first|starting))?"
)
_PARITY = when_used(r"\b(?:an?|any)\s+(?P<kind>even|odd)\s+(?:number|amount|count)(?:\s+of)?")
_ANY = when_used(
    r"\b(?:ch|chain|make a chain|start with a chain|chain of)\b[^.]{0,30}\b(?:any (?:number|length|amount)|desired (?:length|number|width)|as (?:many|long)|the (?:length|width)|to (?:the )?(?:desired|length|width)|until)\b"
)
MAGIC = when_used(
    r"(?:magic|adjustable|sliding|slip)[ -]*(?:adjustable )?(?:ring|loop|circle)|\bmr\b|(?<!for )(?<!to )(?<!using )(?<!attach )(?<!yarn )(?<!of )(?<!join )\bmc\b(?=\s*(?:\.|$|,))|double (?:magic )?ring|yarn (?:around|round) (?:your )?finger"
)
#: "Make a magic ring / ch 4 method", "mr or ch 4": the ring is begun in one way or the other.
_EITHER = when_used(rf"(?:{MAGIC.pattern})\s*(?:\(?or|/)\s*(?:a )?(?:ch(?:ain)?s? ?\d|\d ?ch)")
#: "Flower: in a magic ring", with the rounds below it.
_IN_RING = when_used(rf"\s*[a-z][a-z -]{{1,30}}:\s*(?:work(?:ed)? |start(?:ed)? |begin )?(?:in|into|with|using|from) an? (?:{MAGIC.pattern})\W*$")
_RING = when_used(r"\b(?:unite|join|joining|sl st|ss|slip stitch|slip st|slst|connect|close|form|ring|circle|sl)\b")
_BARS = when_used(
    r"from hook|\bcounts?\b|\bcounting\b|\bsp\b|\bturning\b|\bin (?:the )?next\b|does not|do not count|beg(?:inning)? of|each (?:row|rnd|round)|\bbegins?\b.*\brow|ch-\d|\bat the (?:start|end|beginning)\b|\btop of\b|\balways\b|\bevery\b|\bthroughout\b|"
    r"\brep(?:eat)?\b|\brpt\b|\btimes\b|\bcontinue\b|\bbetween\b|button ?loop|\bfringe\b|\bcut\b|\bsew\b|\bif you\b|\badd\b.{0,20}\b(?:more|extra)\b|for (?:a )?(?:larger|bigger|wider|every|each)|\bto alter\b|\bwant\b|\?|\bchange\b.{0,10}\b(?:width|size)|= |gauge|tension|tie\b|\btassel"
)
_STITCHES = when_used(
    rf"\b\d*\s?(?:{lexicon.ANY_PLAIN}|single crochet|double crochet|treble|half double|sk|skip|miss|v-st|shell|inc|dec)\b"
)
_OVER = when_used(r"^(?:worked\s+)?over\s+(?P<n>\d{1,9})\s+(?P<kind>[a-z][a-z ]*?)\s*(?:\([^)]*\))?\s*\.?\s*$")
_FOUNDATION = when_used(
    r"\b(?:(?P<n>\d{1,9})\s+(?:(?:sts|stitches)\s+(?:of|in)\s+)?(?P<kind>(?:f(?:sc|hdc|dc|tr)|(?:foundation|fnd|base|foundationless|chainless(?: foundation)?)\s+(?:half |single |double )?(?:[a-z]+ ?){1,2}?(?:crochets?|sc|hdc|dc|tr)?))"
    r"|(?P<kind2>f(?:sc|hdc|dc|htr|tr))\s+(?P<n2>\d{1,9})|(?P<n3>\d{1,9})\s+(?P<kind3>s?c|h?dc|htr|tr)\s+foundation(?:less)?\s+(?:sts|stitches))\b"
)
_COLOUR = when_used(
    r"\b(?:with|using|in)\s+(?P<colour>(?:(?:colou?r|yarn|shade)\s+)?(?:[a-z]+(?:\s(?:colou?r|yarn))?|[a-z]))(?:\s+(?:and|yarn|thread)\b|\s*,|\s+ch|\s+make|\s*\(|\s*\.?\s*$)"
)


#: "Ch 30 plus 1 to turn", "chain 30, then one more for the turning chain": the chains that lift the first row.
_TO_TURN = when_used(
    r"(?:\s*(?:chs?|chains?|sts|stitches))?\s*(?:,\s*)?(?:\+|plus|and|then)\s*(?:then\s+|an?\s+)?(?:(?:ch|chain|add|make)\s+)?(\d|one|two|three|four)\s*"
    r"(?:(?:more|extra|additional|for|to|as|the|your|an?|ch|chs|chains?)\s+)*turn(?:ing)?\b"
)


#: "Ch 30, ch 1 more", "chain 30, then an extra ch": chains added to those of a foundation.
_MORE = when_used(r"(?:\s*(?:chs?|chains?|sts|stitches))?\s*,?\s*(?:(?:and|then|plus|work|make|add)\s+)*(?:chs?|chains?)?\s*(\d|one|two|three|four)\s+(?:more|extra|additional)(?:\s+(?:chs?|chains?))?\s*(?:\(|$|[.;,])")


#: "Ch 31 (30 + 1 to turn)", "ch 31 (includes 1 turning ch)", "ch 30, plus 1 turning ch".
_OF_WHICH_TURN = when_used(
    r"(?:\+|plus|and|includ(?:es|ing)|with)\s*(?:then |an? )?(?P<n>\d|one|two|three|four)\s*(?:(?:more|extra|additional|for|to|as|the|your|an?|ch|chs|chains?)\s+)*turn(?:ing)?\b"
)


def turning_in(low: str) -> int:
    """How many of the chains that a sentence in lower case begins with are told to be for turning.

    >>> turning_in("ch 30 plus 1 to turn."), turning_in("ch 31 (includes 1 turning ch)"), turning_in("ch 31.")
    (1, 1, 0)
    """
    found = _OF_WHICH_TURN.search(low)
    return lexicon.number(found["n"]) or 0 if found else 0


#: No more chains than this lift a row.
_LONGEST_TURN = 6


#: "Ch 41 or the length you want", "chain 30 (or as many as you like)": the number holds.
_OR_OTHERWISE = when_used(
    r"(?<=\d)(?: ?(?:chs?|chains?|sts|stitches))?,? or (?:to |for )?(?:the|any|as|however|your|until|enough)\b[^.;]{0,40}\b(?:want(?:ed)?|like|wish|desired?|need(?:ed)?|prefer\w*)\b[^.;]{0,20}"
)


#: "Ch 60, add multiples of 12 for a wider piece", "ch 60 - you can add in 12s", "add 12 for each further ripple": the number holds.
_ADDED = when_used(
    r"(?:[,;:(]|\s[-\u2013\u2014])?\s*(?:(?:and|or|to|you|can|may|then|just|simply|by|if|for|an?|it|make|the|piece|blanket|wider|larger|bigger|longer|more)\s*,?\s+)*"
    r"(?:add(?:ing)?|increas(?:e|ing)|decreas(?:e|ing)|subtract(?:ing)?|work(?:ing)?)\b(?:\s+(?:or|and|taking|away|on|in|by|to|any|extra|more|chains?|chs?|sts|stitches|adding|subtracting|decreas(?:e|ing)))*\s+"
    r"(?:multiples? of\s+\d+|\d+\s+(?:(?:more|extra|chs?|chains?|sts|stitches)\s+)*(?:for|per)\s+(?:each|every)|(?:sets|groups|lots)\s+of\s+\d+)\b[^.;)]*\)?"
)
#: "Chain 30- 34-", "chain 30 / 34": further numbers for who wants another width; the first one holds.
_OR_ANOTHER = when_used(r"^(?:\s?[-/\u2013]\s?\d{2,3}(?!\d)(?=\s*(?:[-/.;,\u2013]|$)))+[-/\u2013]?(?!\s?\d)")


#: "Ch-21.", "Foundation: ch-21 loosely", with a hyphen and nothing behind it: no space of so many.
_HYPHEN = when_used(r"^(?P<lead>\W*(?:[a-z]+(?: [a-z]+)?:\s*|(?:make|work|begin with|start with) )?ch(?:ain)?)-(?=\d{1,3}(?: ?(?:loosely|sts|stitches|chs|chains))?\W*$)")


def chain_in(low: str) -> tuple[int, re.Match[str]] | None:
    """The number of chains that a sentence in lower case makes to begin with; None where it does not."""
    bare = re.sub(r"\([^)]*\)", lambda m: " " * len(m[0]), low)
    bare = _HYPHEN.sub(r"\g<lead> ", bare)
    bare = _ADDED.sub(lambda m: " " * len(m[0]), bare)
    bare = re.sub(r"multiples? of \d+\s*(?:chains?|chs?|sts?|stitches)?", lambda m: " " * len(m[0]), bare)
    found = _CHAIN.search(bare)
    if not found:
        return None
    bare = _OR_OTHERWISE.sub(lambda m: " " * len(m[0]), bare)
    before, after = bare[: found.start()], bare[found.end() :]
    to_turn = _TO_TURN.match(after)
    if _BARS.search(bare[: found.end()] + after[to_turn.end() :] if to_turn else bare) or _STITCHES.search(bare):
        return None
    if re.match(rf"(?:[\d/.]|\s\d/\d)*\s?-?{_UNIT}", after):
        return None
    after = _OR_ANOTHER.sub(lambda m: " " * len(m[0]), after, count=1)
    if re.search(r"\b(?:in|into|of|next|each|around)\s*$", before) or re.match(
        r"\s*(?:sp|lp|loop|space|picot|[-/])", after
    ):
        return None
    number = lexicon.number(found["n"] or found["n3"] or found["n2"])
    if (number or 0) <= _LONGEST_TURN and re.match(r"\s*,\s*turn\W*$", after):
        return None
    more = re.match(r"\s*(?:\+|plus)\s*(\d{1,2})\b(?!\s*(?:=|for))", after) or to_turn or _MORE.match(after)
    if number is not None and found["plus2"]:
        number += int(found["plus2"])
    elif more and number is not None:
        number += lexicon.number(more[1]) or 0
    return (number, found) if number is not None else None


#: "Make a chain 5 inches long", "ch the desired length": a foundation whose chains are not counted.
_UNIT = r"(?:\"|\u201d|inch(?:es)?\b|ins?\b|cm\b|mm\b|yards?\b|yds?\b|feet\b|ft\b)"
_MEASURED = when_used(
    rf"\b(?:ch|chain)\b(?:\s+(?:of|a|an|the|to|about|approx(?:imately)?|for|measuring|measure|some|at least|length|desired))*\.?\s*(?:\d[\d/.]*(?:\s\d/\d)?\s?-?{_UNIT}"
    r"|(?:required|needed|desired|necessary|right|full|any|whatever|same) (?:length|size|width|measurement)|(?:length|width|size)\s+(?:desired|required|needed|(?:that )?you (?:want|need|like|wish))|(?:length|width)\b)"
)


def measured_in(low: str) -> tuple[int, int] | None:
    """The multiple of a foundation that is told by its length and not by its chains; None where it is not.

    >>> measured_in("make a chain 5 inches long.")
    (1, 0)
    >>> measured_in("ch 25 to measure 10 inches.")
    """
    return (1, 0) if _MEASURED.search(low) else None


def multiple_in(low: str) -> tuple[int, int] | None:
    """ "a multiple of 6 plus 2", "an even number": the multiple and what is added; of what may be added to a number, none."""
    low = _ADDED.sub(lambda m: " " * len(m[0]), low)
    found = _MULTIPLE.search(low)
    if found:
        plus = (lexicon.number(found["plus"]) or 0) if found["plus"] else 0
        base = (lexicon.number(found["base"]) or 0) if found["base"] else 0
        return (lexicon.number(found["of"]) or 1, plus + base)
    parity = _PARITY.search(low)
    if parity and re.search(r"ch|chain|st|number", low):
        return (2, 0 if parity["kind"] == "even" else 1)
    return None


_SAMPLE = when_used(
    r"\b(?:sample|model|swatch|example|e\.?g\.?|shown|pictured|illustrated|mine|i)\b[^.;()]{0,40}?\b(?:(?:ch|chain|chained|chain of|chs)\s+(?P<n>\d{1,5})|(?P<m>\d{1,5})\s*-?(?:chs?|chains?))\b"
)


#: A number of chains alone: "(I made 32)", "mine was 32", "32 for the one shown".
_SAMPLE_ALONE = when_used(
    r"\b(?:(?:the )?(?:sample|model|swatch|example|one)(?: (?:shown|pictured|here))?|mine|i(?:'ve)?|my (?!hook|gauge|tension)[a-z]+)\s+"
    r"(?:(?:is|was|has|had|have|uses|used|did|made|worked|started|began|cast|went|needed|took|chose|with|on|of)\s+){1,2}(?P<n>\d{1,5})\b"
    r"(?=\s*(?:[).,;:!]|$|here\b|for\b|to start\b))"
    r"|(?:^|[(;,:-])\s*(?P<m>\d{1,5})\s+(?:for|in|on)\s+(?:the |this |my )?(?:sample|model|swatch|example|one|piece)\b"
)


#: "Chain 14, or the width you want (any even number)".
_OR_ANY = when_used(r"^\W*(?:[a-z]+: )?(?:(?:ch|chain|make a (?:ch|chain) of) (?P<n>\d{1,5})|(?P<m>\d{1,5}) ?ch)\b\W*(?:or|any|for)\b")


def sample_in(low: str) -> int:
    """The chains that a foundation given as a multiple is said to have in the sample: "(for sample ch 62)"; else 0."""
    found = _SAMPLE.search(low) or _OR_ANY.search(low) or _SAMPLE_ALONE.search(low)
    return int(found["n"] or found["m"]) if found else 0


_JOINS = when_used(r"\b(?:re-?)?(?:join|attach)(?:ing)?\b")
_LEFT = when_used(r"\b(?:next|first) (?:(?:unworked|skipped|free|remaining|rem|unused) )(?:st|stitch|sc|dc|hdc|htr|tr)\b")
_SKIPPED = when_used(
    rf"\b(?:sk|skip|skipping|miss|missing|leave|leaving)\s+(?:the\s+)?(?:next\s+|cent(?:er|re)\s+|middle\s+)*{_N}"
    r"\s+(?:unworked\s+|unused\s+)?(?:sts?|stitches|sc|dc|hdc|htr|tr)\b"
)
_ON_ROW = when_used(r"\b(?:of|on|in|to)\s+(?:row|rnd|round)\s+(?P<row>\d{1,4})\b")
_AGAIN_ON = when_used(r"\b(?:return(?:ing)?|go(?:ing)? back)\s+to\b|\blast (?:complete|completed|full|long|whole) row\b")


def rest_of(low: str, line: int, text: str) -> Start | None:
    """The second side of a piece: "skip center 14 sts of Row 24, join yarn in next st"; row 0 where it names none."""
    if "*" in low:
        return None  # the repeat of a row
    skipped, on = _SKIPPED.search(low), _ON_ROW.search(low)
    if not _JOINS.search(low) or not (skipped or _LEFT.search(low)) or not (skipped or on or _AGAIN_ON.search(low)):
        return None
    count = lexicon.number(skipped["n"]) if skipped else 0
    return Start("rest", count or 0, "st", None, line, text, row=int(on["row"]) if on else 0)


#: "Sk 9 hdc for neck, join yarn in next hdc,": what a second side begins with inside its first row.
_SECOND_SIDE = when_used(
    rf"[\s:.-]*(?:(?:with )?(?:the )?(?:rs|ws|right side|wrong side)(?: (?:of (?:the )?work|facing(?: you)?))?,? )?(?:sk|skip|miss|leave)\s+(?:the\s+)?(?:next\s+|cent(?:er|re)\s+|middle\s+|first\s+)*{_N}"
    r"\s+(?:unworked\s+|unused\s+)?(?:sts?|stitches|sc|dc|hdc|htr|tr)\b(?: (?:for|at|of|in|on|to)\b[^,;.*]{0,40})?,? (?:and )?(?:re-?)?(?:join|attach)\b[^,;.*]{0,40}? (?:in|to|into|at) (?:the )?(?:next|following|foll) (?:st|stitch|sc|dc|hdc|htr|tr)\b"
    r"(?: (?:with|by) (?:an? )?(?:sl st|ss|slip st(?:itch)?))?,? ?(?:and )?"
)


def second_side(low: str) -> tuple[int, int] | None:
    """What the first row of a second side begins with: how many stitches are passed over, and where its work begins.

    >>> second_side("sk 9 hdc for neck, join yarn in next hdc, ch 2, hdc in same st"), second_side("sk 1 st, sc in next st")
    ((9, 42), None)
    """
    found = _SECOND_SIDE.match(low)
    return (lexicon.number(found["n"]) or 0, found.end()) if found and low[found.end() :].strip(" .,") else None


#: "The beginning ch 2 is never counted as a stitch": no foundation, but what a beginning chain is.
_SAYS_COUNTS = when_used(r"[^.;,()]{0,50}\b(?:is|are|do|does|will|should|never|always|not|don'?t|doesn'?t|isn't)\b[^.;,()]{0,20}\bcount(?:s|ed)?\b")


#: "Picot: ch 3, ss in base of stitch": how a stitch is made.
_TELLS_STITCH = when_used(
    r"\W*(?:[a-z\d-]+ ){0,2}(?:picots?|clusters?|cl|shells?|bobbles?|popcorns?|puffs?|v-?st(?:itch)?|fans?|x-?st(?:itch)?)(?: st(?:itch)?)?\s*(?:[(\[][^)\]]{1,12}[)\]])?\s*[:=]"
)


def start_of(sentence: str, low: str, line: int, terms: str, following: str = "") -> Start | None:
    """The start that a sentence says; `following` is the sentence behind it, which may join it to a ring."""
    if _TELLS_STITCH.match(low):
        return None
    over = _OVER.match(low.strip())
    if over:
        kind = over_kind(over["kind"], terms)
        return Start("over", int(over["n"]), kind, None, line, sentence) if kind else None
    made = _FOUNDATION.search(low)
    if made and not re.search(r"\brow|\brnd|ch \d|turn", low[: made.start()]):
        kind = over_kind(made["kind"] or made["kind2"] or f"foundation {made['kind3']}", terms)
        if kind:
            return Start("over", int(made["n"] or made["n2"] or made["n3"]), kind, None, line, sentence)
    chain = None if _EITHER.search(low) else chain_in(low)
    if chain is not None and not (chain[0] <= _LONGEST_TURN and _SAYS_COUNTS.match(low[chain[1].end() :])):
        count, found = chain
        rest = low[found.end() :] + " " + following
        ring = bool(_RING.search(rest)) and not re.search(r"do(?:n'?t| not) join|without joining", rest)
        return Start("ring" if ring else "chain", count, "ch", None, line, sentence, yarn_in(sentence, low))
    if _IN_RING.match(low):
        return Start("magic ring", line=line, text=sentence, colour=yarn_in(sentence, low))
    if (
        MAGIC.search(low)
        and not _STITCHES.search(low)
        and not re.search(r"\bpull\b|\btighten|\bclose\b|=|\buse\b.{0,40}\binstead|\binto\b|\bin (?:a |the )?m", low)
    ):
        return Start("magic ring", line=line, text=sentence, colour=yarn_in(sentence, low))
    return None


#: "..., work 5 more bobbles along the edge": work beside the chain that a sentence begins with, of a kind that nothing reads.
_WORK_BESIDE = when_used(
    r"(?:[,;]|\band\b|\bthen\b)\s*(?P<said>(?:(?:and|then|now) )*(?:[a-z]+ ){0,2}\d{1,3} (?!ch\b|chs\b|chains?\b|rows?\b|rnds?\b|rounds?\b|times\b|inch|cm\b|mm\b|yards?\b|loops? on)(?:more )?(?!(?:in|into|to|for|of|or|and|plus|at|on|from)\b)[a-z]+[^.;()]*?"
    r"\b(?:in|into|along|around|across|over)\b[^.;()]*)"
)


def work_beside(low: str) -> tuple[int, int] | None:
    """Where a sentence that begins the work with its chain says further work, which no row holds; None where it does not.

    >>> low = "ch 12, work 5 more bobbles along the edge."
    >>> low[slice(*work_beside(low))], work_beside("ch 12, sl st in first ch to form a ring.")
    ('work 5 more bobbles along the edge', None)
    """
    chain = chain_in(low)
    found = _WORK_BESIDE.search(low, chain[1].end()) if chain is not None else None
    return found.span("said") if found is not None and not _RING.search(found["said"]) else None


_NO_YARN = frozenset(
    ("a", "the", "your", "my", "hook", "yarn", "thread", "crochet", "larger", "smaller", "size", "double", "rows", "rounds",
     "each", "any", "both", "first", "next", "last", "same", "this", "that", "one", "beg", "beginning", "back", "front", "top",
     "sl", "slip", "ss", "sc", "dc", "hdc", "tr", "ch", "chain")
)  # fmt: skip


def yarn_in(sentence: str, low: str) -> str:
    """The yarn that a beginning is worked in: its letter in capitals, or its name.

    >>> yarn_in("With colour B, make a magic ring", "with colour b, make a magic ring")
    'B'
    """
    low = low if len(low) == len(sentence) else low.strip()
    for found in _COLOUR.finditer(low):
        said = sentence[found.start("colour") : found.end("colour")]
        name = re.sub(r"^(?:colou?r|yarn|shade)\s+|\s+(?:colou?r|yarn)$", "", said, flags=re.IGNORECASE)
        if name.lower() in _NO_YARN and name != "A":
            continue
        return name.upper() if len(name) <= 2 else name
    return ""


def over_kind(words: str, terms: str) -> str | None:
    """The US name of the stitches that a piece goes over."""
    word = plain(words).strip()
    if word in lexicon.STITCH_WORDS:
        return "st"
    if word in lexicon.CHAIN_WORDS:
        return "st"
    names = lexicon.long_names(terms)
    for form in (word, word.removesuffix("s")):
        if form in names:
            return names[form]
        if found := lexicon.stitch_name(form.replace(" ", ""), terms):
            return found
    bare = re.sub(r"^(?:chainless )?(?:foundation|fnd|base|chainless|foundationless) ", "", word)
    if bare != word:
        found = over_kind(bare, terms)
        return "f" + found if found else None
    return None


# -- pieces that go on from what is there, without a foundation of their own: an ear flap, a brim, a strap

#: More chains than this are a foundation of their own.
_LIFT = 4
_LIFTS = when_used(
    r"\W*(?:(?:then |and |now )?(?:turn(?: work)?|do not turn|ch(?:ain)? ?[1-4]|[1-4] ?ch|do not (?:cut|break|fasten off)(?: (?:the )?(?:yarn|thread|wool))?)[\s,.;]*)+"
)
_ON_CHAIN = when_used(
    r"from (?:the )?hook|\b(?:ring|circle|loop)\b|other side|\b(?:in|into|of|across|around|along|down)\b[^.;,*]{0,24}\b(?:chs?|chains?)\b(?! ?-?\d)|\b\d*(?:st|nd|rd|th) ch\b"
)
_HOW_MANY = when_used(
    rf"\b(?:(?:in|into) (?:the )?(?:next|first|each of(?: the)?(?: next)?) (?P<a>\d+)|(?:{lexicon.ANY_PLAIN}) (?:in )?(?P<b>\d+)|(?P<c>\d+) (?:{lexicon.ANY_PLAIN}))\b"
)
_OVER_ALL = when_used(rf"\b(?:each|every|across|around|all)\b|^\W*(?:{lexicon.ANY_PLAIN}) in next")


def is_lift(low: str) -> bool:
    """Whether a line does no more than lift the hook or turn: "Ch 1, turn.".

    >>> is_lift("ch 1, do not turn."), is_lift("ch 12")
    (True, False)
    """
    return bool(low.strip()) and bool(_LIFTS.fullmatch(low.strip()))


def lift(start: Start | None, low: str) -> str:
    """The chains at a piece's head that only lift its first row, as words of that row; "" where they are a foundation, as
    the row is worked into them."""
    if start is None or start.how != "chain" or start.count > _LIFT or _ON_CHAIN.search(low):
        return ""
    many = _HOW_MANY.search(low)
    number = int(many["a"] or many["b"] or many["c"]) if many else 0
    if start.count > 1 and number <= start.count and not _OVER_ALL.search(low):
        return ""
    said = " ".join(plain(start.text).split()).strip(" .,;")
    return f"{said}, " if is_lift(said) else f"ch {start.count}, "


#: "Leaving the last 12 sts unworked": said before a row.
_LEAVES = when_used(
    rf"\b(?:leave|leaving|with)\s+(?:the\s+)?(?:last|remaining|rem|final|other|rest|next)\b(?: of (?:the )?)?\s*(?:{_N})?\s*(?:sts?|stitches|sc|dc|hdc|htr|tr)?\s*(?:are\s+)?(?:unworked|free|open|unused|for the)\b"
    r"|\b(?:leave|leaving)\s+(?:the\s+)?\d{1,3}\s+(?:sts?|stitches|sc|dc|hdc|htr|tr)\s+(?:unworked|free|open|unused)\b"
)


def says_left(low: str) -> bool:
    """Whether talk before a row says that it leaves stitches.

    >>> says_left("now work back and forth, leaving the last 12 stitches unworked")
    True
    """
    return _LEAVES.search(low) is not None


def leaves_rest(row: RowText, before: Sequence[RowText], *, told: bool = False) -> RowText:
    """A row before which it is said that it leaves stitches (`told`), and the first row of a piece of its own name that goes on from the row above and is turned behind so many stitches: the
    others are left, as a flap is narrower than what it hangs on."""
    if told and before and row.begins is None and row.ops and not any(isinstance(op, Act) and op.name == "leave" for op in row.ops):
        return replace(row, ops=(*row.ops, Act("leave")))
    if not before or row.begins is not None or row.is_round or row.first != 1 or row.part == before[-1].part:
        return row
    work = [op for op in row.ops if isinstance(op, Make | Skip)]
    turned = any(isinstance(op, Act) and op.name == "turn" for op in row.ops[1:])
    if not work or not turned or any(not isinstance(op, Make | Skip | Chain | Act) for op in row.ops) or any(_to_end(op) for op in work):
        return row
    if any(isinstance(op, Act) and op.name in ("leave", "join") for op in row.ops):
        return row
    return replace(row, ops=(*row.ops, Act("leave")))


def left_for(rows: Sequence[RowText], second: RowText) -> list[RowText]:
    """The rows before the second side of a piece, with the first row of its first side marked as one that leaves the rest,
    where that works so many stitches and no more: it has the number of `second`."""
    out = list(rows)
    at = next((n for n in range(len(out) - 1, -1, -1) if out[n].first == second.first), -1)
    ops = out[at].ops if at > 0 else ()
    work = [op for op in ops if isinstance(op, Make | Skip)]
    counted = bool(work) and all(isinstance(op, Make | Skip | Chain | Act) for op in ops) and not any(map(_to_end, work))
    if counted and not any(isinstance(op, Act) and op.name in ("leave", "join", "short") for op in ops):
        out[at] = replace(out[at], ops=(*ops, Act("leave")))
    return out


def _to_end(op: Op) -> bool:
    return isinstance(op, Make | Skip) and any(p.which not in ("next", "first", "same", "nth") or p.bare for p in op.places)
