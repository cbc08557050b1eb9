"""Rows that are printed without a head: the first one, told with the foundation, and whole patterns that name none."""

from __future__ import annotations

import re

from ..lexicon import in_short, number
from ..notation.prose import is_prose
from ..when_used import when_used
from .heads import Head
from .starts import MAGIC, chain_in
from .telling import sentences, workish
from .unplaced import names_work

_STITCHES = when_used(
    r"(?:\b|(?<=\d))(?:sc|hdc|dc|htr|htc|tr|dtr|inc|dec|trc|s c|d c|s d c|h d c|tr c|single crochets?|double crochets?|half double crochets?|trebles?|half trebles?)\b"
)
#: "Magic ring with 6 sc", "6 sc in it": work into a ring that is told beside it.
_RINGED = (
    r"\b(?:ring|circle|loop|mr|mc)\s*(?:,|with|and|:|-|\(|=)\s*(?:work |make |of )?\d+ ?(?:x )?(?:sc|hdc|dc|htr|tr)\b"
    r"|\d+ ?(?:sc|hdc|dc|htr|tr) in(?:to)? it\b"
    r"|\d+ ?(?:sc|hdc|dc|htr|tr) in(?:to|side)? (?:(?:the|your|this) )?(?:(?:ch(?:ain)?|joined|starting|cent(?:er|re)|beginning) )?(?:ring|circle|loop|hole|opening|cent(?:er|re)|join)\b"
)
#: "..., sc, hdc, dc, hdc": one after the other.
_LISTED = r"(?:,\s*\d?\s?(?:sc|hdc|dc|htr|tr|sl st|ss)\b){3,}"
_ONE_BY_ONE = when_used(_LISTED)
_PLACED = when_used(
    r"\bfrom (?:the |your )?hook\b|\bin(?:to)? (?:the |your |a |that |this )?(?:next|each|every|all|any|other|others|remaining|rem|rest|both|last|first|second|third|\d+(?:st|nd|rd|th)|ring|same|circle|magic|mr|\d+ ?ch|base)\b"
    rf"|{_LISTED}"
    r"|\bacross\b|\baround\b|\bto (?:the )?end\b|\bx ?\d"
    rf"|{_RINGED}"
)
_NEW_ROW = when_used(
    r"\W*(?:(?:then|now|next|again|and)\W+)*(?:(?:ch(?:ain)?|make)\s?(?:\d|one|two|three|four)\b[^.]{0,24}?\bturn\b|\d ?ch\b[^.]{0,12}\bturn\b|turn\b(?! (?:the work |it )?(?:and|to) (?:now )?(?:work|crochet|go|continue)\b[^.]{0,24}\b(?:(?:back|down|up) (?:along|across|down|the)|(?:other|opposite) side|underside)\b))"
)
_TURNED = when_used(r"\bturn(?: (?:the |your )?work)?\W*$")
#: "Turn." as a sentence, and a count that stands behind it.
_TURN_ALONE = when_used(r"\W*turn(?: (?:the |your )?work)?\W*(?:[(\[]?\d{1,4}(?: ?(?:sts?|stitches|sc|hdc|dc|htr|tr))?[)\]]?)?\W*")
_COUNT_ALONE = when_used(r"\W*\d{1,4}(?: ?(?:sts?|stitches|sc|hdc|dc|htr|tr))?\W*")
_TELLS = when_used(
    r"^\W*(?:to (?:start|begin|end|finish|work) (?:a |the |each |every )?(?:rows?|rnds?|rounds?|sts?|stitch(?:es)?)\b|everywhere else\b)|"
    r"\b(?:gauge|tension|counts? as|does not count|abbreviat\w*|note|you can|if you|multiples?|swatch|fringe|tassel|sew)\b|\?"
)
#: "(the 2 chs count as one)" behind work is of its chain, and so is "ch 3 counts as first dc and then ..." behind a ring.
_CHAIN_TOLD = when_used(
    r"\((?:[^()]*\b(?:ch|chs|chain|chains)\b)?[^()]*\b(?:counts? as|does not count|do not count)\b[^()]*\)"
    r"|(?<=[a-z,.] )(?:make |work |with )?(?:\d ?ch|ch(?:ain)?s?[ -]?\d)\b,?(?: which| that| this)? (?:counts? as|does not count|do not count)\b[^,.;()]{1,30}?(?=(?:[,.;]| and| then) .*\bin(?:to|side)? (?:the |this |your )?(?:ring|circle|loop|cent)"
    r")"
)


def works(low: str) -> bool:
    """Whether words in lower case work stitches into something."""
    low = in_short(low)
    rest = low.lstrip(" .;,")
    low = low if rest.startswith("\n") else rest  # what stands below a chain alone on its line is looked at by itself
    if not low:
        return False
    first = sentences_first(low)
    begins = starts_ring(first) or chain_in(first) is not None
    if is_prose(first) and not (begins and first != low.strip()):
        return False
    return bool(_STITCHES.search(low)) and bool(_PLACED.search(low)) and (workish(low) or bool(_ONE_BY_ONE.search(low))) and not _TELLS.search(_CHAIN_TOLD.sub("", low))


def starts_ring(low: str) -> bool:
    """Whether a sentence makes the ring that a round is worked in, and no stitch."""
    return bool(MAGIC.search(low)) and not _STITCHES.search(low)


def sentences_first(low: str) -> str:
    """The first sentence of a line."""
    start, end = sentences(low)[0]
    return low[start:end].strip()


_MANY_STITCHES = r"(?:\d{1,2}|four|five|six|seven|eight|nine|ten|twelve) ?(?:sc|hdc|dc|htr|tr|(?:single|double|half double|half treble|treble) crochets?|(?:half )?trebles?)(?: (?:sts|stitches))?"
_A_RING = r"(?:an? |the |your |one )?(?:(?:magic|adjustable|sliding|slip|starting|yarn) )?(?:ring|circle|loop|mr|mc)"
#: "Over the curtain ring", "round one half of ring": a ring of brass or bone that is covered.
_HARD_RING = r"(?:over|around|round|about) (?:(?:the|your|a|an|one|first|1st|half|of|edge|small|large) )*(?:(?:curtain|key|brass|bone|plastic|metal|wooden|wood|steel|wire) )?(?:ring|hoop)"
#: "What I did: 7 sc in a magic ring", "Magic ring. 7 sc.", "Chain 2 and work 6 sc into the second chain": what is said before the
#: first round, and that round, of which nothing stands in another place.
_FIRST_ROUND = when_used(
    r"\W*(?P<before>(?:(?!row|rnd|round|note|tip)[a-z][a-z' -]{1,40}(?::|\s-|(?<=[a-z]{3})[-\u2013\u2014]|\.(?=\s))\s*)?(?:(?:i|we|you|then|now|just|simply|first|(?:begin|began|beginning|start|started|starting)(?: (?:off )?with)?|by|made|make|making|work|working|worked|crochet|crocheted)(?:,)? (?=[^.;]*\d))*)"
    rf"(?P<work>(?:(?:with|using|in) [a-z0-9 ]{{1,36}}?,? )?(?:(?:with|make|work|crochet|put|making|working) )?(?:{_MANY_STITCHES} (?:in(?:to|side)? {_A_RING}|{_HARD_RING})"
    rf"|{_A_RING}\s*(?:[,.:;]|and|with)?\s*(?:(?:and|with|then) )?(?:(?:work|put|make|crochet|place) )?{_MANY_STITCHES}(?: in(?:to|side)? (?:it|{_A_RING}))?"
    rf"|(?:make )?ch(?:ain)? ?[23]\b\W*(?:(?:and|then) )*(?:(?:work|put|make|crochet) )?{_MANY_STITCHES} in(?:to)? (?:the |your )?(?:1st|2nd|3rd|first|second|third) (?:ch|chain)(?: from (?:the |your )?hook)?))"
    r"(?:\W*(?:do not|don'?t) join|\W*(?:and )?pull (?:it |the ring )?(?:tight|closed?)\w*|\W*(?:join|sl st|ss|turn)\b[^.;]{0,30}|\W*[(\[]?\d{1,3}(?: ?(?:sts?|stitches|sc|hdc|dc|htr|tr))?[)\]]?)*\W*"
)


def first_round(low: str) -> int | None:
    """Where the first round begins in a sentence that puts so many stitches into a ring, or into one chain, and works nothing
    else, behind what is said before it; None for any other line.

    >>> low = "what i did: 7 sc in a magic ring."
    >>> low[first_round(low) :], first_round("sc in a ring, dc in next 2 sts")
    ('7 sc in a magic ring.', None)
    """
    found = _FIRST_ROUND.fullmatch(low)
    return found.start("work") if found else None


def first_row(line: str, low: str, following: Head | None, last: int, *, begun: bool = False) -> Head | None:
    """The head that a paragraph (`low`) without one stands for, where it works the row before `following`: the first
    one, on a chain or ring that it makes itself or that stands before it. `line` is its first line, `last` the number
    of the last row read, `begun` whether a chain or ring stands there and nothing is worked on it."""
    if following is not None and following.first in (1, 2) and not last and first_round(line) is not None:
        kind, told = "Rnd" if following.is_round else following.label.split()[0].rstrip("s"), following.first - 1
        label = f"{kind} {told}" if told else f"Foundation {kind}"
        return Head(label, told, told, following.is_round, "", 0, 0, marked=True, named=not told)
    if following is None or not works(low) or not (_CHAIN.search(line) or works(line)):
        return None
    if (following.first == 2 and last != 1) or (0 < last == following.first - 2 and not begun and names_work(line)):
        kind = following.label.split()[0].rstrip("s")
        number = following.first - 1
        return Head(f"{kind} {number}", number, number, following.is_round, "", 0, 0, marked=True)
    chained = _chain_end(low)
    onto = (begun or bool(MAGIC.search(low))) and bool(_ON_BEGINNING.search(low))
    if not onto and (chained is None or not works(_RING_CLOSED.sub("", low[chained:], count=1))):
        return None
    kind = "Rnd" if following.is_round else "Row"
    if following.named and not following.first and not last:
        return Head(f"{kind} 1", 1, 1, following.is_round, "", 0, 0, marked=True)
    if following.first == 1:
        return Head(f"Foundation {kind}", 0, 0, following.is_round, "", 0, 0, marked=True, named=True)
    return None


#: "(Ch 4). Join with ss to form a ring.": the chain is closed, and work begins behind it.
_RING_CLOSED = when_used(r"^\W*(?:and |then )?(?:join|sl st|ss|slip stitch|unite|close|connect|link)\b[^.;]{0,60}?\b(?:ring|circle|round|loop|first ch|1st ch)\b(?=\s*[.;])")


#: "Ch 12, sl st in 2nd ch from hook and in each ch": a cord.
_SLIPPED = when_used(r"\W*(?:turn\W+)?(?:sl st|ss|slip stitch)(?:es)? in(?:to)? (?:the )?(?:2nd|second) (?:ch|chain) from\b")


def whole_piece(low: str, text: str, others: list[str]) -> bool:
    """Whether a line, behind a piece's name where it bears one, begins the piece and works it: "Tentacle (make 8): ch 31, 2 sc
    in 2nd ch from hook, ...".
    `others` are the other lines of the page in lower case: a name that these work is a stitch.

    >>> strap = "strap: ch 60, sc in 2nd ch from hook and in each ch across."
    >>> whole_piece(strap, "", []), whole_piece("strap: ch 60.", "", []), whole_piece(strap, "", ["ch 1, strap in next sc"])
    (True, False, False)
    """
    lead = part_lead(low, text)
    chained = _chain_end(low[len(lead) :])
    if chained is None or not (works(said := low[len(lead) + chained :]) or _SLIPPED.match(said)):
        return False
    return not lead or not worked_by(lead.split("(")[0].strip(" -:."), others)


#: "Sc around for 3 more rounds": what a sentence says of further rounds.
_ROUNDS_MORE = when_used(r"\b(?:for |another )(?:the next )?(?P<n>\d{1,2}|two|three|four|five|six|seven|eight)(?: more| further)? (?:rnds|rounds)\b")
_ROUND_ON = when_used(r"\W*(?:then |work |now )*(?:\d+ ?)?(?:sc|hdc|dc|htr|tr|inc|dec|2 (?:sc|hdc|dc|htr|tr))\b[^.]*\b(?:around|each|all)\b")


def rounds_of_piece(low: str, text: str, others: list[str]) -> list[tuple[int, int, int]]:
    """The rounds of a piece in a magic ring that is told in the sentences of one line, behind its name: where the words of
    each begin and end, and how many rounds they say; empty where the line is no such piece.

    >>> low = "stem: 5 sc in magic ring. sc around for 3 rounds."
    >>> [(low[a:b].strip(), n) for a, b, n in rounds_of_piece(low, low, [])]
    [('5 sc in magic ring.', 1), ('sc around for 3 rounds.', 3)]
    """
    lead = part_lead(low, text)
    told = [(a, b) for a, b in sentences(low) if b > len(lead)]
    if len(told) > 1 and _CHAIN_ALONE.fullmatch(low[max(told[0][0], len(lead)) : told[0][1]]):
        told[:2] = [(told[0][0], told[1][1])]
    if not lead or not told or not _PUT_IN_RING.search(low[len(lead) : told[0][1]]) or worked_by(lead.split("(")[0].strip(" -:."), others):
        return []
    out: list[tuple[int, int, int]] = []
    for start, end in told:
        said = low[start:end]
        many = _ROUNDS_MORE.search(said)
        if not out or (not _CLOSES.match(said) and (works(said) or _ROUND_ON.match(said))):
            out.append((max(start, len(lead)), end, (number(many["n"]) or 1) if many else 1))
        else:
            out[-1] = (out[-1][0], end, out[-1][2])
    return out


_CLOSES = when_used(r"\W*(?:(?:and|then) )?(?:sl st|ss|slip(?: st(?:itch)?)?|join|close|pull)\b")
#: "With blue, ch 2." before the first round, as a sentence.
_CHAIN_ALONE = when_used(r"\W*(?:(?:with|using) [a-z ]{1,20}?,? )?(?:make )?(?:ch(?:ain)? ?\d|\d ?ch(?:ains?)?)\W*")


#: "5 sc in magic ring", "magic ring with 6 sc": the first round of a piece.
_PUT_IN_RING = when_used(r"\b\d+ ?(?:sc|hdc|dc|htr|tr)\b(?: sts?)? in(?:to|side)? (?:an? |the )?(?:magic|adjustable|mr\b|mc\b)|\b(?:magic (?:ring|circle|loop)|mr|mc)\b[ ,:-]*(?:with |and |of )?\d+ ?(?:sc|hdc|dc|htr|tr)\b"
                          r"|\bch(?:ain)? ?[23]\b\W+(?:(?:and|then|work|make) )*\d+ ?(?:sc|hdc|dc|htr|tr)\b(?: sts?)? in(?:to)? (?:the |your )?(?:1st|2nd|first|second) (?:ch|chain|st|loop)\b")


#: "Leaving a long tail": an end of yarn.
_LEAVES = when_used(r"\bleav(?:e|ing)\b[^.;,]*")


#: The parts that a garment is sewn from.
_OF_GARMENT = when_used(r"(?i)(?:(?:left|right|first|second|upper|lower|main|half of) )?(?:backs?|fronts?|sleeves?|yoke|body|bodice|skirt|collar|cuffs?|hood|pockets?|neckband|button ?band|waistband|half|side|panel)")


def worked_by(name: str, others: list[str]) -> bool:
    """Whether lines of work use a name, so that it is a stitch's; a garment's parts are none."""
    if _OF_GARMENT.fullmatch(name.strip()):
        return False
    used = when_used(rf"\b{re.escape(name.removesuffix('s'))}s?\b")
    return any(used.search(_LEAVES.sub("", other)) for other in others if workish(other))


#: Work into a ring or a chain that was just made.
_ON_BEGINNING = when_used(
    r"\bin(?:to|side)? (?:the |this |your |an? )?(?:cent(?:er|re) of (?:the )?)?(?:magic |chain |ch )?(?:ring|circle|loop|mr|mc)\b|\bfrom (?:the |your )?hook\b|\bin(?:to)? (?:the |your )?(?:1st|2nd|3rd|first|second|third) ch(?:ain)?\b"
    r"|\b(?:each|every) (?:of the )?(?:ch|chain)s?\b"
    rf"|{_RINGED}"
)
_CHAIN = when_used(r"\b(?:ch(?:ain)?s?\s?(?:\d{2,}|[2-9]|two|three|four|five|six)|(?:\d{2,}|[2-9])\s?(?:ch|chains?))\b")


def _chain_end(low: str) -> int | None:
    """Where the chain or ring that a paragraph begins with ends; None where it makes none first."""
    made = _CHAIN.search(low)
    return made.end() if made and not _STITCHES.search(low[: made.start()]) else None


_LEAD = when_used(
    r"\s*(?!with\b|ch\b|row\b|note|(?:[fb]p)?[hd]{0,2}(?:sc|dc|tr)\b|inc\b|dec\b|join\b|turn\b|skip\b|miss\b)[a-z]+(?: [a-z]+){0,2}\s*(?:[(\[](?:(?:make|work|crochet) \w+|x ?\d|\d ?x)[)\]]\s*)?(?:-\s|:|(?<=[a-z]{3})[-\u2013\u2014])\s*"
    r"(?=(?:with|using|in|into|ch|chain|make|starting|beginning|start|magic|m\.?r|m\.?c|\d+ ?ch|\d+ ?(?:sc|hdc|dc|htr|tr) in)\b|ch\d)"
)


#: "FRONT. With Green, ch 16, ...": a name in capitals, with a stop behind it.
_LEAD_IN_CAPITALS = when_used(
    r"\s*(?!RS\b|WS\b|ROWS?\b|RNDS?\b|ROUNDS?\b|NOTE|TIP)[A-Z]{3,}(?:[ -][A-Z]{2,}|(?: No\.?)? \d){0,3}\s*(?:\((?i:make|work)? ?\w+\)\s*)?(?:[.:-]+\s+|:)"
    r"(?=(?i:with|using|in|into|ch|chain|make|starting|beginning|begin|start|work|magic|join|from|\d+ ?ch)\b|(?i:ch)\d)"
)


def begins_named(text: str) -> bool:
    """Whether a line as printed begins with a piece's name in capitals and how the piece begins."""
    return _LEAD_IN_CAPITALS.match(text) is not None


def part_lead(low: str, text: str = "") -> str:
    """The name of a part at the beginning of a line: "Cuff - With the larger hook, ch 20, ..."; `text` is the line as
    printed, where it is known: a name in capitals may end in a stop.

    >>> part_lead("front. with green, ch 16.", "FRONT. With green, ch 16.")
    'front. '
    """
    found = _LEAD.match(low) or _LEAD_IN_CAPITALS.match(text)
    return low[: found.end()] if found else ""


#: "Handles: Sc 8, ch 20, ...", "Buttonhole row - Hdc in next 4 sts, ...": a name with the work behind it.
_TITLED = when_used(
    r"\s*(?P<name>(?!note|tip|gauge|tension|size|yarn|hook|finish|edging|border|trim|pattern|special|optional|key|color|colour)[a-z][a-z'-]+(?: [a-z'-]+){0,2})\s*(?::|\s[-\u2013])\s*"
    r"(?=(?:ch(?:ain)? ?[1-4]\b,?[^,.;]{0,30}[,;.] ?)?(?:\(|\*|\[)?\s?(?:work )?(?:\d{1,3} ?)?(?:sc|hdc|dc|htr|tr|single|half|double|treble)\b)"
)
#: Moves of a row, and not of one stitch only.
_MOVES = when_used(r"[,;]\s*(?:then |and )?(?:\*|\(|\[)?\s?(?:\d{1,3} ?)?(?:ch|chain|sk|skip|miss|sc|hdc|dc|htr|tr|sl st|ss|rep|repeat)\b")


def titled_row(low: str, others: list[str]) -> tuple[str, int] | None:
    """The name of a row that goes by what it makes and not by a number, and where its work begins in the line; None where
    the line is no such row. `others` are the other lines of the page in lower case: a name that these work is a stitch.

    >>> titled_row("handles: sc 8, ch 20, skip 8 sts, sc 8.", [])
    ('handles', 9)
    """
    found = _TITLED.match(low)
    if found is None or len(_MOVES.findall(low, found.end())) < 2 or is_prose(low[found.end() :]):
        return None
    if worked_by(found["name"], others):
        return None
    return found["name"], found.end()


#: "Brim: 2 sc in each sc": a row behind others in their paragraph that bears the name of a part of the piece.
_PART_ROW = when_used(
    r"(?P<name>(?:the )?(?:[a-z]{3,8} ){0,2}(?:handles?|straps?|brim|cuffs?|ear ?flaps?|ties?|thumb|flap|heel|toe|peak|bill|visor|neck(?:band|line)?|waistband|button ?band|tab|collar|hood|ribbing|band|hem|hanger|hanging loop|button ?loop|loop|edging|border|trim|skirt|dress|tutu|frill|ruffle|ruff|shirt|sweater|cape|scarf|lid|rim|base|sides|mane|crest|shell edge))\s*:\s*"
    r"(?=(?:(?:re-?)?(?:join|attach)(?:ing)?\b[^.;:]{3,80}?[,;.] ?|pull up (?:an? )?(?:loop|lp)\b[^.;:]{3,60}?[,;.] ?|working (?:in|into)\b[^.;:]{3,60}?[,;.] ?)?(?:now |then |do not turn[,.] )?(?:with (?:the )?(?:rs|ws|right side|wrong side)[^,.;*]{0,24}, )?(?:(?:re-?)?(?:join|attach)(?:ing)? [^,.;*]{1,50}[,;] ?)?(?:ch(?:ain)? ?\d+[,;.] ?(?:turn[,;.] ?)?)?(?:\(|\*|\[)?\s?(?:work )?(?:\d{1,3} ?)?(?:sl st|ss|slip|sk|skip|miss|sc|hdc|dc|htr|tr|single|half|double|treble)\b)"
)


def part_row(low: str) -> tuple[str, int] | None:
    """The name of a part that a sentence of work begins with, and where its work begins in it; None for any other.

    >>> part_row("brim: 2 sc in each sc."), part_row("shell: 5 dc in one st.")
    (('brim', 6), None)
    """
    found = _PART_ROW.match(low)
    return (found["name"], found.end()) if found else None


def rows_in(low: str) -> list[tuple[int, int]]:
    """The rows that a line of work without heads tells: one, or more where it turns between its sentences."""
    out: list[tuple[int, int]] = []
    start = 0
    worked = turned = ringed = False
    for begin, end in sentences(low):
        said = low[begin:end]
        if worked and not turned and _TURN_ALONE.fullmatch(said):
            turned = True
            continue
        if worked and turned and _COUNT_ALONE.fullmatch(said):
            continue
        ringed = ringed or (not worked and bool(_PUT_IN_RING.search(low[:end])))
        in_rounds = ringed and bool(_ROUND_ON.match(said))
        if worked and (in_rounds or ((turned or _NEW_ROW.match(said)) and (works(said) or _NEW_ROW.match(said)))):
            out.append((start, begin))
            start, worked = begin, False
        worked = worked or works(said)
        turned = worked and bool(_TURNED.search(said))
    out.append((start, len(low)))
    return out


#: "Turn, miss 1 ch, 21 sc (21 sts)": stitches by their number alone, with the row's count behind them.
_COUNTED_RUN = when_used(
    r"\W*(?:(?:turn|(?:sk|skip|miss) (?:\d|one|two|first) ?(?:ch|chs|sts?|stitch(?:es)?)?|ch(?:ain)? ?[1-4]|[1-4] ?ch)\b[\s.,;]*)+(?:\d{1,3} ?(?:sc|hdc|dc|htr|tr)\b[^.;:()\[\]]*)[,.; ]*[(\[]\d{1,3}(?: ?(?:sts?|stitches|sc|hdc|dc|htr|tr))?[)\]]\W*"
)


def is_row(low: str) -> bool:
    """Whether a line of a pattern that names no rows works one."""
    told = works(low) or bool(_COUNTED_RUN.fullmatch(low))
    if not told or (is_prose(low) and not _CHAIN.search(low)):
        return False
    return chain_in(low) is None or bool(_COUNTED_RUN.fullmatch(low))
