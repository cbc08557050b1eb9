"""What a line of a page is: work, a heading, a list of abbreviations, facts, a colour, a repeat."""

from __future__ import annotations

import re

from ...made_late import dataclass
from ..lexicon import in_short, number
from ..notation.plain import plain
from ..when_used import when_used

KEY_HEAD = when_used(
    r"^\W*(?:(?:standard |crochet |uk |us |special |pattern |stitch |stitches |the )*(?:abbreviations?|abbrev\.?|abbrevs?|legend|stitch key|key(?! ?(?:ring|chain|fob|holder|cover|case|tag|hanger|hook|cosy|cozy|charm)s?\b)|conventional signs|glossary|stitches used|special stitch(?:es)?|stitch guide|stitches(?: you will need)?|terms used|symbols|stitch abbreviations|terminology|pattern stitches|special abbreviations?|stitch glossary))(?:\s*(?:used|key|guide|list|\((?:us|uk|american|british)[^)]*\)|us|uk|in us terms|in uk terms))*\s*[:.-]?\s*(?P<rest>.*)$"
)
FACTS = when_used(
    r"^\W*(?:gauge|tension|hook|hooks|crochet hook|yarn|yarns|size|sizes|finished size|finished measurements|materials|supplies|notions|skill|skill level|level|measurements?|finished|needle|difficulty|you will need|what you need|what you'll need|tools|equipment|designer|design|designed by|by|source|title|author|copyright|time|dimensions|weight|colou?rs?|fits|to fit|eyes|fiber|stuffing|height|width|length|note on|approximate|estimated|wingspan|category|tags?|rating|print|pin|share)\b\s*[:=(-]"
)
HEAD_WORD = when_used(
    r"^\W*(?:note|notes|pattern notes?|tips?|pattern|instructions?|directions?|method|finishing|to finish|to make up|making up|assembly|materials|supplies|you will need|gauge|tension|(?:finished |approximate |final )?(?:size|measurements?|dimensions)|introduction|stitches|abbreviations|description|care|blocking|the pattern)\W*$"
)
REPEATED = when_used(
    r"(?:then |now |\W)*(?:(?:rep(?:eat|eating)?|rpt|work|(?:cont(?:inue|inuing)?|go(?:ing)? on|carry(?:ing)? on|keep(?:ing)?(?: on| going)?|proceed)(?: (?:to )?(?:rep(?:eat|eating)?|work(?:ing)?|doing|making|with|in|as))?|keep (?:on )?(?:repeating|working)|follow)\s+(?:the\s+)?(?:last\s+|these\s+|previous\s+|from\s+)?(?:\d+\s+|two\s+|three\s+|four\s+)?(?:patt(?:ern)?\.?\s+)?(?:rows?|rnds?|rounds?|\d+(?:st|nd|rd|th))\b"
    r"|(?:cont(?:inue)?|go on|carry on|keep on|keep going)\b.*\buntil\b|work(?:ing)? even\b|(?:the )?last (?:\d+ |two )?(?:rows?|rounds?|rnds?) forms?\b|(?:these|last) (?:\d+ )?(?:two |three |four )?rows (?:form|set|make)|rows? \d+(?: (?:and|to|-) (?:row )?\d+)? (?:form|set|make)|repeat (?:this|until|for|as)|rep (?:this|until))"
)
FASTEN = when_used(
    r"^\W*(?:fasten off|finish off|f/?o\b|break off|end off|bind off|cut (?:the )?yarn|cut (?:the )?thread|tie off|weave in)"
)
MAKE = when_used(
    r"\(?\s*(?:(?:make|work|crochet)\s+(?P<n>\d+|two|three|four|five|six|both|one)|(?P<n2>\d+)\s*(?:x|parts|pieces|pcs|times)|x\s*(?P<n3>\d+)|(?P<n4>two|three|four)\s+(?:pieces|parts|alike))"
)
COLOUR_LINE = when_used(
    r"^\W*(?:(?:now |then )?(?:change|switch|change back|return|go back)(?:ing)?(?: colou?rs?| yarn)?(?:\s+(?:back )?to)?|with|using|in|colou?r|start with|begin with|join|attach)\s+(?:the |a |your )?(?:colou?r |yarn )?(?P<name>[a-z]+(?: [a-z]+)?|[a-z])(?: (?:yarn|colou?r|thread))?\s*(?:\([^)]*\))?\s*[:.,]?\s*(?:and stay.*|for .*)?$"
)
COUNT_LINE = when_used(
    r"^\W*(?:total\s+)?(?:st(?:itch)?(?:es)?\s+count|sts?|stitches|count|total(?:\s+st(?:itche)?s)?)\s*[:=]\s*(?P<n>\d+)(?:\s*st(?:itche)?s)?\W*$"
)
#: "20 sc", "= 18 sts": a row's count on a line below it.
COUNT_ALONE = when_used(r"\W*(?P<n>\d{1,4})\s*(?:sts?|stitches|sc|hdc|dc|htr|tr)(?: (?:made|total|in total|in all|altogether))?\W*$")
#: How a row ends that is told to its end: along the row, into its last stitch, so many times, and what turns or joins it.
_TO_ITS_END = when_used(
    r"(?:\b(?:across|around|end|each (?:[a-z]+ ?){1,3}|last [a-z]+|\d+ times|twice|x ?\d+)|\)\s?x ?\d+)\W*(?:(?:ch \d\W+)?turn|(?:join|sl st|ss)\b[^.;]*)?\W*$"
)
#: "Gauge: Rounds 1-2 = 2 1/2 in", "Rnds 1 to 4 measure about 5 cm": a measure, and no head of a row.
GAUGE_ROWS = when_used(
    r"\W*r(?:ow|nd|ound)s?\b[\d\s,&.-]*(?:(?:to|through|and|thru) \d+ ?)?\s*(?:=|:|-|(?:should )?measures?\b|equals?\b|is\b|are\b)"
    r"\s*(?:approx(?:imately|\.)? |about )?[\d/. ]*\d ?(?:\"|inch|cm\b|mm\b|in\b\.?(?=\s*(?:$|[,;.()x]|across|square|wide|high|tall|in diameter)))|"
    r"\W*(?:gauge|tension)\b\W*(?:(?:first|the first|after|at end of) )?(?:\d+ )?(?:r(?:ow|nd|ound)s?)\b[\d\s,&.-]*(?:(?:to|through|and|thru) \d+ ?)?"
    r"(?:=|:|-|measures?\b|equals?\b|is\b|are\b|about\b)?\s*(?:approx(?:imately|\.)? |about )?[\d/. ]+(?:\"|'|in\b|inch|cm|mm|$|(?:finished|size|hook|yarn|materials)\b)"
)

#: What the heading of a border, or the name of its rows, holds.
BORDER = when_used(r"\b(?:borders?|edgings?|edge|trim|trimming)\b")
#: How a sentence of work begins that has no row's head.
BEGINS = when_used(
    r"[\s-]*(?:work|with (?:rs|ws|right|wrong|the|yarn|colou?r|main|contrast|[a-z]{1,2}\b)|join|rejoin|attach|crochet|make|start|begin"
    r"|\d*\s?(?:sc|hdc|dc|htr|tr|sl st|ss|ch|single|double|half|treble)\b|(?:rs|right side) facing|from\b|along\b|around\b)"
)
#: What tells that a row may go round or along the edge of a flat piece.
ALONG = when_used(
    r"\b(?:borders?|edgings?|trim|trimming|hem|hems|row ends?|corners?|evenly"
    r"|ends? of (?:the |each |every |all )?(?:next )?(?:\d+ )?(?:of )?(?:the )?rows?"
    r"|(?:side|top|bottom|lower|upper|long|short|left|right|outer|outside|raw|other) edges?"
    r"|(?:along|around|round|down|up|across|on) (?:the |each |every |all |both |other |next |first |second |third |last |remaining |rem |\d |long |short |left |right )*(?:sides?(?! facing)|edges?))\b"
)
STEP = when_used(r"^\s*(?:\d{1,2}[.)]|step \d+[.:)]?)\s+")
_TITLE = when_used(r"[A-Z][\w'’-]*(?:[ /&-]+[A-Za-z][\w'’]*){0,5}")
RINGS_ON = when_used(r"(?:unite|join|sl\.? +st|s +s|s +st|ss|slip|connect|close|form)\b")
#: A line that closes a chain to a ring: "Join with a slip stitch to form a circle".
CLOSES_RING = when_used(
    r"\W*(?:\d{1,2}[.)]\s*)?(?:and |then |now )*(?:unite|join|sl\.? +st|s +s|s +st|slst|ss|slip[ -]?st(?:itch)?|connect|close|form)\b"
    r"(?: (?:the |this |your )?(?:ch|chain|ends?|it|both ends|last ch(?:ain)?))?"
    r"(?: (?:with|using|by) (?:an? |the )?(?:sl +st|slst|ss|slip[ -]?st(?:itch)?))?"
    r"(?: ?(?:in|into|to|through|with|at)(?: the)? (?:first|1st|beginning|beg|other|last|opposite)(?: (?:ch|chain|st|stitch|end|one))?(?: (?:made|stitch))?)?"
    r"(?:,? ?(?:to (?:form|make|create|close)|in|into|forming|making|and (?:form|make))(?: (?:the|an?|your))?(?: (?:ring|circle|loop|round|it))?| together)?\W*"
)
#: Words that close a chain to a ring, and no picot.
FORMS_RING = when_used(r"\b(?:ring|circle)\b|\bjoin\b|\bunite\b")
_WORKISH = when_used(
    r"\b\d*\s?(?:(?:sc|hdc|dc|htr|htc|tr|trc|dtr)(?:\d{1,2}tog)?|sl st|ss|inc|dec|inv ?(?:inc|dec)|single crochet|double crochet|treble|half double|ch|chain)(?:\b|(?=(?:in)?(?:mr|mc)\b))"
)


def workish(low: str) -> bool:
    """Whether a line may be work at all."""
    low = in_short(low)
    return bool(_WORKISH.search(low)) and bool(
        re.search(r"\b(?:in|into|mr|x|around|across|each|next|turn|times|to end)\b|[\[(*]|\d", low)
    )


def is_comment(low: str) -> bool:
    return low.lstrip().startswith("#") and not re.match(r"\s*#\d", low)


#: "...same as round 7", "repeat rows 2-5": all that a row says.
SAYS_ROWS = when_used(
    r"\W*(?:(?:the |work |exactly |done |made )*same as|as|like|rep(?:eat)?) (?:for |in )?(?:the )?(?:rows?|rnds?|rounds?) \d{1,3}(?: ?(?:-|to|and|&) ?(?:rows? |rnds? |rounds? )?\d{1,3})?\W*"
)


def sentences(low: str) -> list[tuple[int, int]]:
    """The sentences of a line."""
    out, start = [], 0
    for found in re.finditer(r"[.!?;](?=\s+|$)(?<!\bapprox\.)(?<!\bst\.)(?<!\bno\.)(?<!\bch\.)(?<!\bsl\.)(?<!\bs\.)|\.(?=\s+[\x22\u201c][a-z])|(?<=[a-z)])\.(?=[A-Z(])|\.(?=\s+(?:then )?(?:rep|repeat|rpt)\s+(?:the )?(?:last|this|that|these|those|previous|rows?|rnds?|rounds?)\b)", low):
        out.append((start, found.end()))
        start = found.end()
    if low[start:].strip():
        out.append((start, len(low)))
    return out or [(0, len(low))]


#: How a sentence begins that says when, or with what care, its work is done (common practice, no source).
_CONDITION = when_used(
    r"\s*(?:then |now |and |but )?(?:if|when|whenever|once|as|unless|while|after|before|for (?:a|an) |be(?:ing)? careful|careful(?:ly)?|tak(?:e|ing) care|mak(?:e|ing) sure|be sure|remember(?:ing)?|note|tip|optional(?:ly)?|this time|here)\b"
)
#: A stitch named as something to work, as "ch 1", "sc in", "2 dc".
_WORK_BEGINS = when_used(
    r"(?<![a-z\d])(?:\d{1,3} ?)?(?:work |make )?(?:ch ?\d|(?:sl st|ss|sc|hdc|dc|htr|tr|dtr|fpdc|bpdc)(?: \d+)? (?:in|into|around|over|each|next|across|blo|flo)\b|\d+ (?:sc|hdc|dc|htr|tr)\b)"
)


#: What a condition may not hold, as it says what is worked, into what, or with which yarn.
_SAYS_WORK = when_used(
    r"\d|\b(?:loops?|lps?|blo|flo|posts?|fp|bp|below|ridge|bars?|ends?|sides?|skip\w*|sk|miss\w*|stitch(?:es)?|sts?|chs?|chains?|"
    r"spaces?|sps?|rings?|holes?|colou?rs?|yarns?|inc\w*|dec\w*|repeat\w*|rep|together|tog|double|twice|between|through|around|every|each)\b"
)


def conditions_before_work(low: str) -> list[tuple[int, int]]:
    """Where the words stand that say when or with what care a sentence's work is done, each way they may end, shortest
    first: at a comma or a colon, or right before the first stitch.

    >>> [("if desired, ch 1, sc in each st"[a:b]) for a, b in conditions_before_work("if desired, ch 1, sc in each st")]
    ['if desired,', 'if desired, ']
    """
    out = []
    for start, end in sentences(low):
        found = _CONDITION.match(low, start, end)
        begins = _WORK_BEGINS.search(low, start, end)
        if found is None or begins is None:
            continue
        ends = [at + 1 for at in range(found.end(), begins.start()) if low[at] in ",:"]
        out += [(start, at) for at in (*ends, begins.start()) if not _SAYS_WORK.search(low, found.end(), at)]
    return out


def only_begun(so_far: str) -> bool:
    """Whether a row so far only turns or chains."""
    return bool(
        re.fullmatch(
            r"(?:\s*(?:(?:ch|chain)[ -]?\d|\d ?ch|turn|turn (?:the |your )?work|\([^)]*\)|plain part|ribbing|join(?: \w+)?|with [a-z]+)[\s.,;:]*)+",
            so_far,
        )
    )


def told_to_end(so_far: str) -> bool:
    """Whether a row's words go on to the end of the row below.

    >>> told_to_end("ch 1, turn"), told_to_end("sc in 2nd ch from hook and in each ch across")
    (False, True)
    """
    return not counted(so_far) and bool(_TO_ITS_END.search(so_far))


_CLOSED = when_used(r"[(\[]\s*\d{1,4}(?: ?[a-z]{1,8})?\s*[)\]]\W*$|\b(?:join(?:ed)?|turn|fasten|cut|close)\b[^.;]*[.;]?\s*$")


def is_whole(so_far: str) -> bool:
    """Whether a row's words go on to the end of the row below, state their count, or join or turn at last.

    >>> is_whole("4 dc in same loop."), is_whole("9 dc in ring. sl st to join.")
    (False, True)
    """
    return told_to_end(so_far) or bool(_CLOSED.search(so_far))


#: "Always ch 1 to start each row", "every row begins with ch 1, sc in the same st": what holds for the beginning of all rows.
_EVERY_BEGINNING = when_used(
    r"\W*(?:(?:please|note|remember|do|to|that|you|should|will|we)\W+)*(?:always\b(?=.*\b(?:start|begin)(?:ning)?\b.*\b(?:each|every|all)\b.*\b(?:rows?|rnds?|rounds?)\b)"
    r"|(?:begin|start) (?:each|every|all|all the) (?:rows?|rnds?|rounds?)\b|(?:each|every|all) (?:rows?|rnds?|rounds?) (?:begin|start)s?\b"
    r"|to (?:begin|start) (?:each|every|all) (?:rows?|rnds?|rounds?)\b|(?:at|for) the (?:start|beginning) of (?:each|every|all) (?:rows?|rnds?|rounds?)\b|(?:begin|start) (?:each|every) (?:row|rnd|round)\b)"
)


def says_beginnings(low: str) -> bool:
    """Whether a line says how all rows begin, and nothing besides.

    >>> says_beginnings("always ch 1 to start each row."), says_beginnings("start the next row with ch 1.")
    (True, False)
    """
    return bool(_EVERY_BEGINNING.match(low)) and len(sentences(low)) == 1


def begins_raised(so_far: str) -> bool:
    """Whether a row's words begin with its chain, so that nothing is lost with what is said of the beginnings of all."""
    return bool(re.match(r"\W*(?:turn\W+)?(?:ch(?:ain)? ?\d|\d ?ch)\b", so_far))


def counted(so_far: str) -> bool:
    return bool(re.search(r"[(\[{][^()\[\]{}]*\d[^()\[\]{}]*[)\]}]\W*$|\d+ (?:sts?|sc|dc|hdc|tr)\.?$", so_far))


def opens_behind(so_far: str, body: str) -> bool:
    """Whether a line below an empty one opens the repeat of the row above it, whose words go to no end and state no count.

    >>> opens_behind("ch 3, dc in same st", "*sk 5, 6 dc in next st* around"), opens_behind("sc in each st (20)", "*sk 5, dc*")
    (True, False)
    """
    return body.startswith("*") and workish(body) and "*" not in so_far and not told_to_end(so_far) and not counted(so_far)


def unfinished(so_far: str, body: str) -> bool:
    """Whether a row stops inside a bracket, before the "times" of one, or before the "from" of its repeat, so that it goes on below an empty
    line with `body`."""
    bare = re.sub(r"\d\)", "", so_far)
    if any(so_far.count(a) > so_far.count(b) for a, b in ("()", "[]")) and bool(re.search(r"[)\]]", body)):
        return True
    if so_far.endswith((")", "]")) and re.match(r"(?:\d+|two|three|four|five|six|seven|eight|ten|twelve) (?:more )?times\b", body):
        return True
    if only_begun(body) and "turn" in body:
        return True
    return "*" in bare and bool(re.search(r"\b(?:rep(?:eat)?|rpt|from)$", so_far)) and bool(re.match(r"(?:from )?(?:the )?\*", body))


_STAR_AGAIN = when_used(r"\b(?:rep(?:eat)?(?:ed|ing|s)?|rpt)\b")
_REPEATS_STAR = when_used(r"\W*(?:(?:now|then|and)\W+)?(?:rep(?:eat)?|rpt) (?:from )?(?:the )?\*")


def star_open(so_far: str) -> bool:
    """Whether a row's words so far open a repeat and do not say that it comes again.

    >>> star_open("* ch 7, sl st in next dc."), star_open("*dc in next st; rep from * around.")
    (True, False)
    """
    _, star, behind = so_far.rpartition("*")
    return bool(star) and not _STAR_AGAIN.search(so_far.partition("*")[2]) and bool(behind.strip())


def sent_back(so_far: str, body: str) -> bool:
    """Whether a line tells that the repeat which a row's words so far have opened comes again."""
    return bool(_REPEATS_STAR.match(body)) and star_open(so_far)


_HANGS = when_used(
    r"\b(?:until|till|to|the|in|into|of|from|with|and|next|each|every|for|at|rep|repeat|first|same|then|or|between|over|around|sk|skip|miss|as|until you|work)$"
)


def hangs(so_far: str) -> bool:
    """Whether a row's words stop behind a word that cannot be the last: the line below goes on with them."""
    return bool(_HANGS.search(so_far)) and len(so_far.split()) > 2


_HANGS_OVER = when_used(r"\b(?:in|into|of|from|next|each|every|the|first|same|then|sk|skip|miss|and|or)$")


def hangs_over(so_far: str, text: str) -> bool:
    """Whether a row's words go on below an empty line: they stop behind a word that cannot be the last, or before "from
    hook", and the line begins with no capital.

    >>> hangs_over("ch 25, sc in", "2nd ch from hook"), hangs_over("ch 25, sc in", "Attach yarn")
    (True, False)
    """
    if not text[:1].isdigit() and not text[:1].islower():
        return False
    return (hangs(so_far) and bool(_HANGS_OVER.search(so_far))) or (so_far.endswith(" ch") and text.startswith("from hook"))


def broken_inside(low: str) -> bool:
    """Whether a line stops inside a bracket, or behind "next 3" and the like, so that the next one goes on with it.

    >>> broken_inside("sc in next 3"), broken_inside("sc in next 3 sts")
    (True, False)
    """
    return any(low.count(a) > low.count(b) for a, b in ("()", "[]")) or bool(_OPEN_NUMBER.search(low))


def breaks_off(low: str) -> bool:
    """Whether a row's words stop where more must come: behind a comma, inside a bracket or a repeat, behind "and"."""
    return low.rstrip().endswith((",", ";")) or hangs(low.strip()) or broken_inside(low) or star_open(low)


_OPEN_NUMBER = when_used(r"\b(?:next|last|first|each of|remaining|rem) \d{1,3}\s*$")


def goes_on(body: str) -> bool:
    return (
        bool(
            re.match(
                r"(?:turn|join|sk\b|skip|miss|rep|repeat|sl st|ss|fasten|across|around|to end|in |into |and |then |each|next|last|st\b|sts\b|ch\b|sp\b|of |from )",
                body,
            )
        )
        or body[:1] in "*([,;"
    )


_SEWS = when_used(
    r"\W*(?:(?:now|then|next|and) )*(?:sl st|slip stitch|ss|sc|dc|sew|whip ?stitch|join|seam|stitch|crochet|graft|mattress stitch)\b[^.;]{0,60}?"
    r"(?:\b(?:rows?|rnds?) \#?\d+[^.;]{0,40}?\b(?:together|to (?:row|the))\b|\b(?:ends?|edges?|sides?|seams?|halves|first|last|foundation)\b[^.;]{0,40}?\b(?:together|(?:through|thru) (?:both|all) (?:layers|thicknesses))\b"
    r"|\b(?:through|thru) both (?:ends|edges|sides|pieces|halves)\b"
    r"|\b(?:last|final) row[^.;]{0,24}?\bto (?:the )?(?:foundation|first row|row 1|starting))[^.;]{0,80}"
)
_BRINGS = when_used(r"\W*(?:(?:now|then|next|and) )*(?:bring|fold|line up|lining up|match|matching|place|hold|lay|flip|turn)\b[^.;]*|\W*\(?\d+ (?:ridges|ribs)(?: made)?\W*|\W*(?:fasten off|do not (?:fasten off|break|cut)|leave|weave)\b[^.;]*")
#: "Put the 2 open sides together, sl st in each st": ends laid together, and what holds them.
_LAID_TOGETHER = when_used(
    r"\W*(?:(?:now|then|next|and) )*(?:put|place|lay|hold|bring|pin|with)\b[^.;]*?\b(?:ends?|edges?|sides?|halves|tops?|layers|pieces|seams?)\b[^.;,]{0,30}\btogether\b[^.;,]*"
)
_HOLDS = when_used(
    r"\W*(?:(?:now|then|next|and) )*(?:sl st|slip stitch|ss|sc|dc|sew|whip ?stitch)\b(?: (?:in|into|through|across|along|evenly|both|all|the|each|every|layers|thicknesses|loops|sts?|stitch(?:es)?|seam|edge|sides?|to|close|end|closed|top|bottom|opening))*\W*"
)
#: A stitch worked somewhere.
_WORKS_SOMEWHERE = when_used(r"\b(?:\d+ (?:sc|hdc|dc|tr)\b|(?:sc|hdc|dc|tr|ch|st) in(?:to)? (?:each|next|the|every|\d)|ch \d)")


def sews(low: str) -> bool:
    """Whether a row's words only put ends of the piece together and work no row: "Bring row 1 to row 22, sl st the two
    ends together".

    >>> sews("fold in half. sl st row 1 and row 40 together."), sews("sc in each st across, sl st to row 1.")
    (True, False)
    """
    said = [low[start:end].strip(" .;") for start, end in sentences(low)]
    pieces = [piece for one in said for piece in re.split(r"\.\s+(?=(?:fasten|finish|weave|leave)\b)|,\s+(?=(?:and |then )?(?:sl st|ss|sc|dc|ch|sew|whip|join|slip|seam|put|place|lay|hold|bring|pin)\b)", one)]
    laid = next((at for at, piece in enumerate(pieces) if _LAID_TOGETHER.fullmatch(piece)), None)
    if laid is not None:
        return all(_BRINGS.fullmatch(p) or _LAID_TOGETHER.fullmatch(p) or (at > laid and _HOLDS.fullmatch(p)) for at, p in enumerate(pieces) if p)
    sewn = any(_SEWS.fullmatch(piece) for piece in pieces)
    return sewn and not _WORKS_SOMEWHERE.search(low) and all(_SEWS.fullmatch(p) or _BRINGS.fullmatch(p) for p in pieces if p)


_END = r"(?:(?:the |your )*(?:first|last|final|beginning|starting|foundation|foundation chain|starting chain|beginning chain|short(?:er)? (?:ends?|sides?|edges?)|rows? ?\d+|ends?|row|ch|chain)(?: (?:row|edge|end|ch|chain))?)"
#: "Join Row 24 to Row 1", "sew the short ends together": a strip whose last row meets its first.
_TUBE = when_used(
    rf"\b(?:join(?:ing)?|connect(?:ing)?|sew(?:ing)?|seam(?:ing)?|sl(?:ip)? ?st(?:itch)?(?:ing)?|ss|whip ?stitch(?:ing)?|stitch(?:ing)?|attach(?:ing)?|crochet)\b(?: (?:the|up|in|through))*"
    rf" (?:{_END} (?:to|and|with|&|onto) {_END}|(?:short(?:er)? |two |both |the |your )*ends together)\b"
    r"|\b(?:to (?:form|make|create)|forming|making|into) (?:a|one|the) (?:tube|ring|loop|band|cylinder|circle|cuff)\b"
)
_PUTS_TOGETHER = when_used(r"\b(?:join|connect|sew|seam|sl(?:ip)? ?st|ss|whip ?stitch|stitch|attach|crochet|fold)")


def makes_tube(low: str) -> bool:
    """Whether talk behind rows says that the last of them is joined to the first, so that a tube stands.

    >>> makes_tube("sew the short ends together."), makes_tube("sew the side seams.")
    (True, False)
    """
    return bool(_TUBE.search(low)) and bool(_PUTS_TOGETHER.search(low))


def yarn_name(text: str, low: str, name: str) -> str:
    at = low.rfind(name)
    said = text[at : at + len(name)] if at >= 0 else name
    return said.upper() if len(said) <= 2 else said


_NO_NAMES = frozenset(("us", "uk", "usa", "british", "american", "for", "with", "and", "the", "of", "row", "round", "rnd", "to", "or", "ch", "turn", "join", "then"))


_TERMS = when_used(r"\W*(?:in |written in )?(?:us|uk|u\.s\.|u\.k\.|american|british|australian) (?:crochet |english )?(?:terms|terminology|english|version)\W*")


#: "Slst- slip stich": a line of a list of abbreviations, whatever it says.
_KEYED = when_used(r"\W*(?:chs?|sc|h?dc|htr|d?tr|sl ?sts?|ss|sk|sps?|sts?|rep|inc|dec|yo|yoh|yrh|rnds?|beg|tog|blo|flo|mr|mc|fo|rs|ws|lps?|cl|pc|sh|bl|fl|approx|cont|rem|alt|foll|patt?)\s?[-:=]+\s*[a-z]")


def is_heading(text: str, low: str) -> bool:
    """Whether a line is the heading of a part: a few words in capitals or beginning with one, naming no work."""
    bare = text.strip().strip("*#_~=-—–•:. ")
    words = bare.split()
    if len(words) == 1 and plain(words[0]) in _NO_NAMES:
        return False
    stopped = text.strip().endswith((",", ";")) or (text.strip().endswith(".") and not (MAKE.search(low) and text.strip().endswith(").")))
    if not words or len(words) > 8 or len(bare) > 60 or stopped:
        return False
    if _KEYED.match(low) or re.match(r"(?:skip|sk|miss|in|into|around|onto|at)\b", low.strip()) or _TERMS.fullmatch(low.strip()):
        return False
    no_bracket = re.sub(r"\([^)]*\)|,\s*(?:make|work) \w+.*|-\s*(?:make|work) \w+.*", "", bare).strip(" -:,")
    if not no_bracket or not re.match(r"[A-Z\d]", no_bracket):
        return False
    if _WORKISH.search(plain(no_bracket)) and not text.strip().isupper() and not MAKE.search(low):
        return False
    if re.search(
        r"\b(?:gauge|tension|hook|yarn|materials|note|copyright|by|page|http|www|row|rnd|round|reply|says|print|pin|ch|chain)\b|\d+\s?(?:mm|cm|g)\b",
        low,
    ) and not MAKE.search(low):
        return False
    named = len(no_bracket.split()) <= 4
    return named and (
        no_bracket.isupper()
        or text.strip().endswith(":")
        or no_bracket.istitle()
        or bool(MAKE.search(low))
        or bool(re.match(r"(?:First|Second|Third|Left|Right|Front|Back|Top|Bottom|Side|Upper|Lower)\b", no_bracket))
        or (bool(_TITLE.fullmatch(no_bracket)) and len(no_bracket.split()) <= 3)
    )


def in_capitals(text: str) -> bool:
    """Whether a sentence is a name in capitals: "EAR FLAP."."""
    bare = text.strip().strip("*#_:. ")
    return bare.isupper() and len(bare) > 3 and len(bare.split()) <= 4 and not re.search(r"\d", bare)


def title_of(text: str) -> str:
    bare = re.sub(r"\([^)]*\)", "", text).strip().strip("*#_~=-—–•:. ")
    bare = re.sub(r"\s*(?:\bx\s?\d+|\b\d+\s?x)$", "", bare, flags=re.IGNORECASE)
    bare = re.sub(r"\s*[,-]\s*(?:make|work)\s+\w+.*$", "", bare, flags=re.IGNORECASE)
    return bare.title() if bare.isupper() else bare


_GROWS_BY_NUMBER = when_used(
    r"\W*(?:continue|cont|keep|carry on|go on)\b[^.;(]*?\b(?:inc|dec|increas\w+|decreas\w+)\b[^.;(]*?\b(?:each|every|per) (?:round|rnd|row)\b[^.;(]*?"
    r"(?P<rows>,?\s*\b(?:for|on|in|from) (?:rounds|rnds|rows|round|rnd|row) (?P<a>\d{1,3})\s*(?:to|-|through|thru|and|until)\s*(?:round |rnd |row )?(?P<b>\d{1,3})\b)"
    r"(?P<rest>[,;. ]*(?:[(\[]|(?:until|till) (?:you have|there are|you reach)(?: a total of)?)?\s*(?:(?P<n>\d{1,4}) ?(?P<noun>sts|stitches|sc|hdc|dc|htr|tr)?\b)?[^.;]{0,12}[)\].]*)\s*$"
)


@dataclass(frozen=True, slots=True)
class Grown:
    """Rounds that are told together, by what each grows: "continue increasing 6 sts each round for Rounds 4 to 6"."""

    first: int
    last: int
    count: str
    start: int
    end: int

    def words(self, text: str) -> str:
        """The line without the rows' numbers, with the count that the last of them makes."""
        return text[: self.start].rstrip(" ,;.") + (f" ({self.count} at end)" if self.count else "")


def grows_by_number(low: str) -> Grown | None:
    """What a line says of rounds that grow alike, by their numbers; None for any other line.

    >>> grows_by_number("continue increasing 6 sc each round for rounds 4 to 6, until you have 36 sc.").count
    '36 sc'
    """
    found = _GROWS_BY_NUMBER.match(low)
    if found is None or int(found["b"]) <= int(found["a"]):
        return None
    count = f"{found['n']} {found['noun'] or 'sts'}" if found["n"] else ""
    return Grown(int(found["a"]), int(found["b"]), count, found.start("rows"), found.end())


#: "Work in this way with one more htr in each row until row 14", "continue thus, 2 sts more every row, up to row 9".
_GROWS_TO_ROW = when_used(
    r"\W*(?:continue|cont|keep|carry on|go on|work|proceed)\b[^.;(\d]*?(?:(?:with|by|having|making|working|increasing|adding|inc) )?\b(?P<n>\d{1,2}|one|two|three|four|five|six|a|an) (?:(?P<more>more|extra|additional) )?"
    r"(?:sts?|stitch(?:es)?|sc|hdc|dc|htr|tr)(?P<more2> more| extra)?,? (?:(?:in|on|at the end of) )?(?:each|every|per) (?P<row>row|rnd|round)(?: (?:always )?(?:than|in) [a-z ]{3,24})?,?"
    r" (?:until|till|to|up to|through)(?: and including)? (?:the )?(?:(?:row|rnd|round) (?P<last>\d{1,3})|(?P<nth>\d{1,3})(?:st|nd|rd|th) (?:row|rnd|round))"
    r"(?: (?:is|has been) (?:done|worked|reached|complete|completed))?(?P<rest>\W*(?:[(\[]\s*\d{1,4}[^()\[\]]*[)\]])?\W*)$"
)


def grows_to_row(low: str) -> tuple[int, int] | None:
    """By how many stitches each further row of a line is longer, and which is the last of them; None for any other line.

    >>> grows_to_row("work in this way with one more htr in each row until row 14."), grows_to_row("work 1 htr in each row")
    ((1, 14), None)
    """
    found = _GROWS_TO_ROW.match(low)
    if found is None or not (found["more"] or found["more2"] or "inc" in low):
        return None
    many = 1 if found["n"] in ("a", "an") else number(found["n"]) or 0
    return (many, int(found["last"] or found["nth"])) if many else None


#: "Working in back loops only:", "From now on work into the front loops": a line of its own before rows.
_LOOPS_AHEAD = when_used(
    r"\W*(?:(?P<on>(?:from (?:now|here|this point) on|for (?:the )?(?:rest|remainder)\b[^,:;.]{0,30}|until told otherwise),? )|(?:now|next|then)[, ]+)?(?:you(?:'ll| will)? )?"
    r"(?:working|work|crochet|crocheting|continue|worked)\s+(?:only )?(?:in|into|through|thru) (?:the )?(?:(?P<side>back|front) (?:loops?|lps?)|(?P<short>[bf])lo?)(?: only)?"
    r"(?P<behind> from (?:now|here) on)?\W*"
)


def loops_ahead(low: str) -> tuple[str, bool] | None:
    """The loops that a line alone says the next row is worked in, and whether all later rows are; None for any other line.

    >>> loops_ahead("working in back loops only:"), loops_ahead("from now on work in the front loops.")
    (('back loop', False), ('front loop', True))
    """
    found = _LOOPS_AHEAD.fullmatch(low)
    if found is None:
        return None
    side = found["side"] or ("back" if found["short"] == "b" else "front")
    return f"{side} loop", bool(found["on"] or found["behind"])
