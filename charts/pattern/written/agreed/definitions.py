"""What a pattern explains: stitches of its own, abbreviations, and what its notes say of every row.

An explanation is sorted into: a stitch the dictionary has (changes nothing), another name of one, a stitch told in
notation, a stitch told by the moves of the hook, a group, or words about no stitch at all.
"""

from __future__ import annotations

import re
from collections.abc import Mapping

from ....made_late import dataclass, replace
from ... import lexicon
from ...hook import read_legs
from ...notation.complaint import Source
from ...notation.plain import plain
from ...notation.row_reader import RowReader
from ...notation.words import Words, vocabulary
from ...spikes import read_spikes
from ...tree import FIRST_LEG, Act, Chain, Into, Make, Op, Skip, Special, Times, walk
from ...when_used import when_used
from .overlay import overlay_words
from .shapes import shape_told
from .told_words import called_by_last, closed_together, is_group, is_work, named, without_lead

#: "A space is ch 2, skip 2, dc in next st": a square of filet.
_SQUARE = when_used(r"(?:beg(?:inning)? )?(?:(?:open|solid|closed|filled) )?(?:sp(?:ace)?|bl(?:oc)?k?|mesh)")
#: What stands before "=" and is work is no name: "dc in next dc = first mesh".
_WORK_ITSELF = when_used(r"\b(?:in|into|across|around) (?:the )?(?:next|each|same|first|last|end)\b")
_LEAD = when_used(r"^\s*(?:special\s+st(?:itch)?(?:es)?\s*(?:explanations?|instructions?|used|definitions?)?|(?:pattern\s+)?stitch(?:es)?\s+(?:explanations?|instructions?|definitions?|used|guide))\s*(?::|(?<=[a-z])(?=\s[a-z-]+(?: [a-z-]+){0,2}(?: \([^()]*\))?:))\s*")
_NAMED = when_used(
    r"^\s*(?:notes?\s*:\s*(?=[\"']))?[\"']?(?:the\s+|an?\s+(?=[a-z][a-z -]{1,24}(?:\([a-z ]{1,6}\) )?(?:is|means|=)\s)|to (?:work|make|do)\s+(?:an?\s+|the\s+)?)?(?P<name>[a-z0-9*][a-z0-9'/&\- ]{0,60}?)[\"']?\s*(?:[(\[](?P<abbr>[a-z0-9][a-z0-9/\- ]{0,24})[)\]])?"
    r"\s*(?::|=|-{1,4}(?=[\s\[(a-z0-9])(?<![a-z0-9]-)|-(?=[\[(\s])|,(?=\s)|\.(?=\s)|\bis\b|\bmeans\b:?|(?<=[)\]])\s(?=(?:yo|yrh|yoh|yarn over|insert|wrap|draw)\b))\s*(?P<words>\S.*)$",
    re.DOTALL,
)
_BRACKETED = when_used(
    r"^\s*(?P<name>[a-z][a-z0-9'\- ]{1,40}?)\s*\((?P<words>work [^()]{4,200}|[^()]*\bin (?:one|same|next|each)[^()]*)\)\s*\.?\s*$"
)
_MOVES = when_used(
    r"\byo\b|\byrh\b|\byoh\b|insert(?:ing)?\s+(?:the\s+|your\s+)?hook|pull up|draw(?:ing)? (?:up|through)"
    r"|drop(?:ping)? (?:the )?l(?:oo)?p|remove (?:the |your )?hook"
    r"|(?:take|slip|slide|draw|pull) (?:(?:the |your )?hook (?:out|from)|out (?:the |your )?hook)|\bhook (?:goes )?in(?:to|side)?\s+(?:both|back|front|the|next|same|st|below|each)\b"
    r"|draw the (?:dropped )?l(?:oo)?p through|thread over|wool (?:over|round)|yarn (?:over|round)|last l(?:oo)?p of each|holding back|leaving (?:the )?last|wrap yarn"
)
_HELD_BACK = when_used(
    r"(?:hold(?:ing)? back|leav(?:e|ing)|keep(?:ing)?) (?:the |on hook (?:the )?)?last (?:lo+p|lp) of each\b[^.]*?"
    rf"\b(?P<stitch>{lexicon.ANY_PLAIN})\s+in(?:to)? (?:each of )?(?:the )?next (?P<n>\d|two|three|four|five|six)\b"
)
_SPOT = r"(?:ch-?\d{1,3}\s?)?(?:st(?:itch)?|sp(?:ace)?|ch[- ]sp(?:ace)?|ch|place|lp|loop|corner)"
_SPOTS = rf"{_SPOT}(?:\s+or\s+{_SPOT}){{0,3}}"
_WORKED = r"(?:(?:all|each|both)\s+)?(?:(?:are\s+|being\s+)?(?:worked|made|placed|put|crocheted|done)\s+)?(?:all\s+)?"
_INDICATED = when_used(
    rf"\s*\b{_WORKED}(?:in(?:to)?|around(?:\s+post\s+of)?)\s+(?:the\s+)?"
    rf"(?:(?:same|next|one|indicated|specified)\s+)?{_SPOTS}\s+(?:indicated|specified|stated|given|named|noted|designated|called for)"
)
_CORNER = when_used(r"\) in(?:to)? (?:the |each )?corner(?: (?:ch[- ]?\d )?(?:sp|space|lp|loop|st|stitch))?\s*\.?\s*$")
_SAID_OF_ONE = r"(?:(?:an?|any|the)\s+)?(?:indicated|specified|stated|given|named|noted|designated|required|said)"
_ONE_PLACE = when_used(
    rf"\s*\b{_WORKED}in(?:to|side)?\s+(?:the\s+)?(?:very\s+)?(?:(?:(?:same|one|a single|next|1|that|an?|each|any)|{_SAID_OF_ONE})\s+{_SPOTS}"
    r"|(?:ch[- ]?)?sp(?:ace)?s?)\s*\.?\s*$"
)
#: A picot's own end: it goes into the chain that the last one did, and says nothing of where all of it goes.
_PICOT_CLOSED = when_used(r"\b(?:sl ?st|ss|slip[ -]?st(?:itch)?) in(?:to)? (?:the )?same (?:ch|chain)\s*\.?\s*$")
_IN_BRACKET = when_used(r"[a-z\- ]+\((?P<words>(?:work )?(?:\d+|ch(?:ain)? ?-?\d+) ?[^()]*\b(?:in|into)\b[^()]*)\)(?:\W*$|\.\s)")
#: "MB = make bobble: 5 dc ...", "PS: puff stitch - yo, ...": the name in full before the words.
_FULL_FIRST = when_used(
    r"(?:(?:make|work|making) )?(?:(?:an?|one) )?(?P<full>(?:[a-z]+ )?(?:bobble|puff|popcorn|cluster|shell|fan|picot|star|berry|block|bean|scallop|flower|crown|cross|bead|noodle|knot|trinity)(?: st(?:itch)?)?)\s*(?::|=|\s-)\s+(?=\S)"
)
#: "(at the beg of a row the ch-3 is one of the three)": what a beginning chain is there, which the rows say themselves.
_STRIP = when_used(
    r"\s*\((?:us|uk)\b[^)]*\)|\s*\((?:counts?|made|optional)[^)]*\)"
    r"|(?<=[,;.] )(?:(?:and|then|now) )*(?:go|going|come|reach)(?: back)? (?:back )?(?:and|&|to) (?:then |now )?(?:put |work |make |do |place )?(?=(?:\d |one )?[a-z]{2,4} (?:in(?:to)?|on) (?:the )?(?:missed|skipped|unworked)\b)"
    r"|\s*\((?:(?:at|when|where|if|on)\b[^()]*\b(?:beg(?:inning|in|ins)?|start(?:s|ing)?|edge)\b[^()]*\b)?(?:the |a |your |its )*(?:(?:beg(?:inning)?|turning|starting) )?(?:ch(?:ain)?|t-?ch)[- ]?\d? (?:is|are|counts?|stands?|equals?|takes|makes|forms|will be|replaces)\b[^()]*\)"
)
#: "..., dc in skipped st = X made", "1 cross stitch made.": behind what is worked, that it is done.
_DONE = when_used(
    r"\s*[=.,;:(\u2013-]+\s*(?:an? |one |1 |first )?(?:[a-z][a-z-]* ){1,4}?(?:is |are |now )*(?:made|completed?|formed|done)\b\s*\.?(?P<close>\)?)\s*\.?\s*$"
)
_SYMBOLS = when_used(r"^[\s*()\[\]†+.]*\s*(?:=|-|:)")


@dataclass(frozen=True, slots=True)
class Defined:
    """What an explanation gives: a stitch of the pattern's own, or nothing new (`known`)."""

    special: Special | None = None
    known: bool = False
    phrase: str = ""
    spelled: str = ""


def pairs(low: str) -> list[tuple[int, int]]:
    """Where the single explanations of a line stand: "sc = single crochet; ch = chain"."""
    parts: list[tuple[int, int]] = []
    start = 0
    depth = 0
    for at, sign in enumerate(low):
        if sign in "([":
            depth += 1
        elif sign in ")]":
            depth = max(depth - 1, 0)
        elif depth == 0 and (
            sign == ";"
            or (sign in ",/|" and _begins_pair(low[at + 1 :]) and _begins_pair(low[start:]))
            or (sign == "." and _begins_pair(low[at + 1 :]))
            or (low[at : at + 3] == "   " and _begins_pair(low[at + 1 :]) and _begins_pair(low[start:at]))
        ):
            parts.append((start, at))
            start = at + 1
    parts.append((start, len(low)))
    return [(a, b) for a, b in parts if low[a:b].strip()]


_PAIR = when_used(r"\s*[a-z0-9*()/\- ]{1,24}?(?:\([a-z0-9 /]{1,12}\))?\s*(?:=|:|\s-+\s)\s*\S")


def _begins_pair(low: str) -> bool:
    return bool(_PAIR.match(low))


def told_in_bracket(low: str) -> bool:
    """Whether a line is a name with its explanation in a bracket: "W-stitch (work 3 tr into one stitch)"."""
    return bool(_BRACKETED.match(low))


#: "V-increase", "VP-air loop": letters and what they stand for, joined by a dash.
_LETTER_DASH = when_used(r"^(\s*[A-Za-z]{1,3})-(?=(?:inc|dec|single|double|half|treb|air|chain|slip|turn|magic|column)[a-z ])", re.IGNORECASE)
#: So many letters of a list of abbreviations are what the list says, whatever they mean elsewhere.
_LETTERS = 2
_CALLED = frozenset(("STN", "INC", "DEC", "CH", "SLSTW"))


#: "Single stitch", "double st", where a list says what a letter stands for.
_PLAINLY = when_used(r"^(single|half double|double|treble) (?:stitch(?:es)?|sts?)$")


_IN_ITS_BRACKET = when_used(r"\((?:[a-z=]+ ){0,4}(?P<name>(?:single|half double|double|treble|half treble|double treble) crochet|(?:half |double )?treble)\b[^()\d]{0,24}\)")


def plain_name(said: str, terms: str) -> str:
    """The full name of a plain stitch, of an increase or a decrease that an explanation consists of: "S: single crochet";
    else "".

    >>> plain_name("Single crochet", "US"), plain_name("increase (2 sc in next st)", "US"), plain_name("sc", "US")
    ('single crochet', 'increase', '')
    """
    low = re.split(r"[,;(/]| - ", " ".join(plain(said).split()))[0].strip(" .")
    if len(low) <= _LETTERS + 2:
        return ""
    low = _PLAINLY.sub(r"\1 crochet", low)
    if low == plain(said).strip(" .") and any(kind == "GATHERED" for kind, _ in vocabulary().get(low, ())):
        return low
    if low in lexicon.long_names(terms) or any(kind in _CALLED for kind, _ in vocabulary().get(low, ())):
        return low
    bracket = _IN_ITS_BRACKET.search(plain(said))  # "high point (that is the double crochet)"
    return bracket["name"] if bracket and bracket["name"] in lexicon.long_names(terms) else ""


def named_words(name: str, said: str) -> str | None:
    """A phrase of the page of words that an abbreviation stands for: "tl: third loop"."""
    low = " ".join(plain(said).split()).strip(" .")
    if plain(name) == "s" and low in ("stitch", "stitches"):
        return low
    head = re.split(r"[,;(]", low)[0].strip()
    for phrase in (low, head if not _MOVES.search(low) else low):
        if phrase in vocabulary() and plain(name) not in vocabulary() and not _begins_work(phrase):
            return phrase
    return None


def _begins_work(phrase: str) -> bool:
    """Whether a phrase only leads to the work that follows: "V: work (dc, ch 1, dc) in one st"."""
    return any(kind == "VERB" for kind, _ in vocabulary()[phrase])


def read_definition(
    text: str, line: int, words: Words, known: Mapping[str, Special], *, sure: bool = False
) -> Defined | None:
    """What a line explains; None if it explains nothing. `sure`: it stands in a list of abbreviations."""
    if sure:
        text = _LETTER_DASH.sub(r"\1 - ", text)
    text = _unwrapped(text)
    low = plain(text)
    if _SYMBOLS.match(low):
        return Defined(known=True)
    shape = shape_told(low)
    if shape is not None:
        (first, last), (start, end) = shape
        name = text[first:last].lower().removesuffix("s")
        shaped = define(name, _short(name), text[start:end].strip(), words, known, line)
        if shaped is not None:
            return Defined(shaped)
    lead = _LEAD.match(low)
    shift = lead.end() if lead else 0
    found = _NAMED.match(low[shift:]) or _BRACKETED.match(low[shift:])
    if not found or len(found["name"].split()) > 5 or _WORK_ITSELF.search(found["name"]):
        return None
    groups = found.groupdict()
    name = text[shift + found.start("name") : shift + found.end("name")].strip()
    abbreviation = text[shift + found.start("abbr") : shift + found.end("abbr")].strip() if groups.get("abbr") else ""
    said = text[shift + found.start("words") : shift + found.end("words")].strip()
    name, abbreviation = _initials_apart(name, abbreviation)
    name, abbreviation = named(name, abbreviation, text)
    if abbreviation and "/" in abbreviation:
        abbreviation = abbreviation.split("/")[0].strip()
    if " " not in name and name.isupper() and len(abbreviation) > len(name) and not _is_known(plain(abbreviation)):
        name, abbreviation = re.sub(r"^(?:make|work)\s+(?:an?\s+)?", "", abbreviation, flags=re.IGNORECASE), name
    low_name = plain(name)
    if not any(letter.isalpha() for letter in low_name):
        return None
    mark = low[shift + found.end("name") : shift + found.start("words")].strip()
    if mark in ("", "is", "means", ",") and not (sure or abbreviation or (mark == "is" and _SQUARE.fullmatch(low_name)) or _told_as_work(mark, plain(said)) or _MOVES.search(plain(said))):
        return None
    if mark in (",", ".") and not sure:
        return None
    if _names_nothing(low_name, abbreviation, said):
        return None
    name, abbreviation, said = _told_in_full(name, abbreviation, said)
    letters = plain(abbreviation or name)
    told_letters = sure or (len(letters) == 1 and (abbreviation or name).isupper())
    listed = plain_name(said, words.terms) if told_letters and len(letters) <= _LETTERS and letters.isalpha() else ""
    phrase = listed or named_words(abbreviation or name, said)
    if phrase is not None:
        return Defined(known=True, phrase=phrase, spelled=letters)
    special = define(name, abbreviation or _short(name), said, words, known, line)
    if special is None and abbreviation and not _is_known(plain(abbreviation)) and not _is_known(plain(name)):
        special = _by_its_stitch(name, abbreviation, said, words.terms, line)
    if special is not None:
        return Defined(special)
    return Defined(known=True) if sure or _is_known(low_name) or _is_known(plain(abbreviation)) else None


def _names_nothing(low_name: str, abbreviation: str, said: str) -> bool:
    """Whether a name is no stitch's: a word of the page, "row", "gauge", with no moves of the hook told behind it."""
    return (
        low_name.split()[0] in _NOT_NAMES
        and not _EDGE_STITCH.fullmatch(low_name)
        and not is_group(low_name)
        and not begins_gathered(low_name)
        and not (abbreviation and low_name.split()[0] == "make")
        and not _MOVES.search(plain(said))
    )


def _initials_apart(name: str, abbreviation: str) -> tuple[str, str]:
    """A name behind its initials, "MB make bobble: ...", and these as its abbreviation.

    >>> _initials_apart("MB make bobble", ""), _initials_apart("Corner shell", "")
    (('bobble', 'MB'), ('Corner shell', ''))
    """
    first, _, rest = name.partition(" ")
    words = rest.lower().replace("-", " ").split()
    letters = first.lower().rstrip("s")
    initials = "".join(word[0] for word in words)
    told = len(words) > 1 and letters == initials
    told = told or (len(words) == 1 and len(letters) > 1 and rest.lower().startswith(letters[0]) and first.isupper())
    if abbreviation or not told or not first.isalpha() or len(first) > 5 or _is_known(rest.lower() if len(words) > 1 else ""):
        return name, abbreviation
    return re.sub(r"^(?:make|work) (?:an? )?(?=[a-z])", "", rest, flags=re.IGNORECASE), first


def _unwrapped(text: str) -> str:
    """A text without the brackets that stand round all of it: "(Puff = (yo, ...) 3 times in same st.)".

    >>> _unwrapped("(Puff = (yo) 3 times.)"), _unwrapped("(dc) twice (made)")
    ('Puff = (yo) 3 times.', '(dc) twice (made)')
    """
    said = text.strip().rstrip(".")
    depth = 0
    for at, sign in enumerate(said):
        depth += (sign in "([") - (sign in ")]")
        if not depth:
            return said[1:-1] if at and at + 1 == len(said) else text
    return text


def begins_gathered(low: str) -> bool:
    """Whether a name is of what stands for the first of a gathered stitch: "beg cl", "start bobble"."""
    first, _, rest = low.replace(".", "").partition(" ")
    kinds = {kind for kind, _ in vocabulary().get(rest, ())}
    return first in ("beg", "begin", "start", "starting") and "GATHERED" in kinds


def _told_in_full(name: str, abbreviation: str, said: str) -> tuple[str, str, str]:
    """A name, its abbreviation and its words, where these stand in a bracket behind the name in full: "TP = triple picot
    (ch 3, ...)"."""
    named_so = _FULL_FIRST.match(plain(said)) if not abbreviation and len(name) <= _SHORT_NAME else None
    if named_so is not None:
        return named_so["full"], name, said[named_so.end() :].strip()
    told = _IN_BRACKET.match(plain(said))
    if told is None:
        return name, abbreviation, said
    full = plain(said)[: told.start("words") - 1].strip()
    if not abbreviation and len(full.split()) > 1 and not _is_known(full):
        name, abbreviation = full, name
    return name, abbreviation, said[told.start("words") : told.end("words")]


def _told_as_work(mark: str, said: str) -> bool:
    """Whether "X is ..." tells work that is done in one place."""
    return mark == "is" and is_work(said) and bool(_ONE_PLACE.search(said) or _INDICATED.search(said) or _CORNER.search(said))


def _by_its_stitch(name: str, abbreviation: str, said: str, terms: str, line: int) -> Special | None:
    """A stitch whose words cannot be read but name the plain stitch that it is: one of its own, on one foot."""
    low = plain(said)
    if len(abbreviation) > 10 or not re.search(r"\b(?:work|insert|in|into|around|over|below|behind|front)\b", low):
        return None
    for word in re.findall(r"[a-z]+", low):
        found = lexicon.stitch_name(word, terms)
        if found and lexicon.height_of(found) == found:
            return Special(name, abbreviation, said, (), abbreviation, found, 1, 0, "single", True, line)
    return None


_NOT_NAMES = frozenset(
    ("row", "rows", "rnd", "rnds", "round", "note", "notes", "tip", "gauge", "tension", "hook", "yarn", "materials", "size", "sizes", "finished",
     "with", "using", "skill", "level", "work", "repeat", "ch", "chain", "next", "multiple", "foundation", "border", "edging", "finishing",
     "for", "step", "side", "right", "wrong", "color", "colour", "colors", "colours", "terms", "abbreviations", "instructions", "pattern", "make", "body", "total", "eyes",
     "designed", "by", "source", "photo", "video", "measurements", "difficulty", "time", "supplies", "notions", "you", "i", "fits", "to", "sew",
     "assembly", "panel", "magic", "mr", "st", "sts", "sc", "hdc", "sl", "sk", "sp", "rep", "beg", "lp", "stitch", "stitches", "start", "begin", "from", "in", "on", "the", "hair", "legend", "both", "head", "arms", "legs")
)  # fmt: skip


def _is_known(low: str) -> bool:
    if low in vocabulary() or lexicon.stitch_name(low, "US") or lexicon.stitch_name(low, "UK"):
        return True
    return (
        low in lexicon.long_names("US")
        or low in lexicon.long_names("UK")
        or low
        in (
            "st(s)",
            "rnd",
            "rnd(s)",
            "tog",
            "ws",
            "rs",
            "yo",
            "yoh",
            "yrh",
            "cont",
            "alt",
            "approx",
            "mc",
            "cc",
            "patt",
            "dec",
            "inc",
        )
    )


def _short(name: str) -> str:
    """A name used as its own abbreviation: in lower case unless it is written with capitals inside."""
    return name.lower() if name[1:] == name[1:].lower() else name


#: The ways to write the one group that the trade calls by a letter.
_V_STITCH = re.compile(r"v[ -]?st(?:itch)?", re.I)


def define(
    name: str, abbreviation: str, said: str, words: Words, known: Mapping[str, Special], line: int = 0
) -> Special | None:
    """A special stitch from its name and its words; None if the words say nothing new that can be worked."""
    terms = words.terms
    said = closed_together(overlay_words(_plain_edge(said)))
    low = _DONE.sub(_undone, _STRIP.sub(lambda m: " " * len(m[0]), plain(said)))
    canonical = lexicon.stitch_name(abbreviation.replace(" ", ""), terms)
    if canonical == "sl st" and not re.search(r"\bsl(?:ip)?\b|\bss\b|\bjoin", plain(name)):
        canonical = None
    if canonical:
        abbreviation = canonical
    if _V_STITCH.fullmatch(abbreviation):
        abbreviation = "V-st"
    if _BLOCK_NAMED.fullmatch(plain(abbreviation)) and _BLOCK_MADE.fullmatch(low):
        abbreviation = "block"
    if _MOVES.search(low) and not _SAME_BUT.match(low):
        return _moved(name, abbreviation, said, low, line, canonical, terms)
    if canonical:
        return None
    if plain(abbreviation) in ("inc", "increase") and re.search(r"\bch\b|\d\s*ch\b", low) and "ch" in low:
        return _noted(name, abbreviation, said, low, words, known, line)
    if plain(abbreviation) in (
        "inc",
        "dec",
        "increase",
        "decrease",
        "invdec",
        "inv dec",
        "invisible decrease",
        "st",
        "ch",
        "sl st",
        "mr",
        "sk",
        "rep",
        "magic ring",
    ):
        return None
    deeper = _spike(name, abbreviation, said, low, known, line, terms)
    if deeper is not None:
        return deeper
    meaning = _alias(low, terms)
    if meaning is not None:
        if not _told_otherwise(plain(abbreviation), meaning, terms) and (_is_known(plain(abbreviation)) or plain(abbreviation) == meaning.lower()):
            return None
        if _is_colour(low):
            return None
        raised = _RAISED.search(low)
        post = meaning if meaning.startswith(("FP", "BP")) else f"{raised['side'][0].upper()}P{meaning}" if raised else ""
        kind = post or abbreviation
        return Special(
            name, abbreviation, said, (), kind, lexicon.height_of(meaning) or "sc", 1, 0, "single", True, line
        )
    return _noted(name, abbreviation, said, low, words, known, line)


#: What pages call a block worked from corner to corner, and what they say it is made of.
_BLOCK_NAMED = when_used(r"(?:1 |one )?(?:tiles?|squares?|pixels?|box|blocks?)")
_BLOCK_MADE = when_used(
    rf"\W*(?:ch(?:ain)?[ -]?[2-4]|[2-4] ?ch(?:ains?)?)(?: ?[+&,]| and| plus| then)* ?[2-6] ?(?:{lexicon.ANY_PLAIN})(?: (?:all )?(?:worked )?(?:in|into) (?:the )?(?:same|next|one|a) (?:ch-?\d? ?)?(?:sp|space|lp|loop|place))?\s*(?:[.;].*)?"
)
#: So many letters at most are a short name, and no name in full.
_SHORT_NAME = 4


def _told_otherwise(letters: str, meaning: str, terms: str) -> bool:
    """Whether a page gives letters that some write for one plain stitch to another: "SDc - standing double crochet"."""
    usual = lexicon.long_names(terms).get(letters)
    return letters.isalpha() and len(letters) <= _SHORT_NAME and usual is not None and usual != meaning


#: "Border stitch", "edge st": the stitch at both ends of a row.
_EDGE_STITCH = when_used(r"(?:an? )?(?:border|edge|edging|side|selvedge|selvage)[ -]?(?:stitch|st)")
_EDGE_TOLD = when_used(rf"\s*{_EDGE_STITCH.pattern}(?:[\s,:(=-]+(?P<words>[^\s,:(=-].*?)\)?)?\W*")


#: "... of the first and last stitch": where such a stitch stands, which it need not say.
_AT_ENDS = when_used(r"(?i) (?:of|in|into|at) (?:the )?first and (?:the )?last (?:st(?:itch)?(?:es)?)(?: of (?:each|every|the|a|all) (?:rows?|rnds?|rounds?))?(?=\W*$)")


def _plain_edge(said: str) -> str:
    """The words of "border stitch, sc through both loops" without its name; an edge stitch of which no more is told is a sc
    (common practice, no source)."""
    said = _AT_ENDS.sub("", said)
    found = _EDGE_TOLD.fullmatch(plain(said))
    if found is None:
        return said
    words = found["words"]
    return "sc in both loops" if words is None else said[found.start("words") : found.end("words")]


def _undone(found: re.Match[str]) -> str:
    """Blanks for that it is done; the end of the bracket that all of it stands in is kept."""
    own = "(" in found[0]
    return (" " * (len(found[0]) - 1) + ")") if found["close"] and not own else " " * len(found[0])


_RAISED = when_used(r"\b(?:around|round)\s+(?:the\s+)?(?:post\s+(?:at|on)\s+the\s+)?(?P<side>front|back)\b")


_SAME_BUT = when_used(r"\s*(?:work (?:it |this )?|made |done )?(?:the |in the )?same\b")


def _spike(
    name: str, abbreviation: str, said: str, low: str, known: Mapping[str, Special], line: int, terms: str
) -> Special | None:
    """ "SP-2: spike stitch 2 rows below", "SP-3: the same, 3 rows down": a stitch told by how deep it goes in."""
    before = list(known.values())[-1] if known else None
    alike = before if before is not None and before.spikes and _SAME_BUT.match(low) else None
    if alike is None and not re.search(r"\bspikes?\b", low):
        return None
    spikes = read_spikes(low, 1)
    if not spikes:
        return None
    base = next((h for w in re.findall(r"[a-z]+", low) if (h := lexicon.height_of(lexicon.stitch_name(w, terms) or ""))), "sc")
    return Special(
        name, abbreviation, said, (), abbreviation, alike.base if alike else base, 1, 0, "single", True, line, spikes
    )


def _is_colour(low: str) -> bool:
    return bool(re.search(r"colou?r|yarn", low))


def _alias(low: str, terms: str) -> str | None:
    """The one plain stitch that words name and nothing else: "standing double crochet"."""
    bare = re.sub(r"^(?:an?|the|one|1)\s+|\s*\.$|\bst(?:itch)?\b", "", " ".join(low.split())).strip(" .")
    bare = re.sub(
        r"^(?:standing|modified|mosaic|waistcoat|knit|linked|elongated|dropped|drop|special|beginning|beg|first|long|shallow|center|centre|split)\s+",
        "",
        bare,
    )
    bare = re.sub(r"\s*\b(?:worked|made|but)\b.*$", "", bare)
    names = lexicon.long_names(terms)
    if bare in names and names[bare] != "sl st":
        return names[bare]
    found = lexicon.stitch_name(bare.replace(" ", ""), terms)
    return found if found != "sl st" else None


def _moved(
    name: str, abbreviation: str, said: str, low: str, line: int, canonical: str | None, terms: str
) -> Special | None:
    """A stitch told by its moves: legs from the times the hook goes in, height from the yarn-overs before it does."""
    if canonical and (lexicon.height_of(canonical) == canonical or canonical == "sl st" or canonical == "hdc"):
        return None
    if plain(abbreviation) in (
        "ch",
        "sl st",
        "yo",
        "sk",
        "st",
        "inc",
        "dec",
        "mr",
        "magic ring",
        "ss",
        "chain",
        "slip stitch",
        "invdec",
        "inv dec",
        "invisible decrease",
        "fasten off",
    ):
        return None
    counts_as = re.search(r"counts? as (?:a |an |one |the |first )*([a-z][a-z0-9\-]*)", low)
    kind = canonical or abbreviation
    if re.match(r"beg", abbreviation, re.IGNORECASE) and len(abbreviation) > 4:
        kind = re.sub(r"^beg(?:inning)?[\s.-]*", "", abbreviation, flags=re.IGNORECASE) or abbreviation
    if counts_as and (abbreviation.lower().startswith("beg") or name.lower().startswith("beg")):
        kind = _as_written(counts_as[1], said)
    chains = re.match(r"\s*ch\s*(\d{1,2})", low)
    over = _HELD_BACK.search(low)
    stitch = lexicon.stitch_name(over["stitch"], terms) if over else None
    if over and stitch and (feet := lexicon.number(over["n"]) or 0) > 1:
        return Special(name, abbreviation, said, (), kind, stitch, feet, 0, "gathered", False, line)
    made = read_legs(_in_letters(low), terms)
    spikes = read_spikes(low, made.count)
    if spikes is None:
        return None
    legs = max(made.count, len(spikes))
    if legs < 2 and not chains and (fewer := _decrease(name, abbreviation, said, low, made.base, line, terms)) is not None:
        return fewer
    form = "single" if legs == 1 else "gathered"
    apart = legs > 1 and not chains and not spikes and _each_in_its_own(low, name, legs)
    return Special(
        name, abbreviation, said, (), kind, made.base, legs + (1 if chains and legs > 1 else 0),
        int(chains[1]) if chains else 0, form, not apart, line, spikes,
    )  # fmt: skip


def _decrease(
    name: str, abbreviation: str, said: str, low: str, base: str, line: int, terms: str
) -> Special | None:
    """A decrease whose moves do not say over how many stitches: "pull up a loop in each stitch indicated, yarn over,
    draw through all": over two, or as many as are named."""
    called = f"{plain(name)} {plain(abbreviation)}"
    if not re.search(r"\bdec(?:rease|r|s)?\b", called):
        return None
    stitch = next((h for w in re.findall(r"[a-z]+", called) if (h := lexicon.height_of(lexicon.stitch_name(w, terms) or ""))), base)
    said_legs = re.match(r"(\d)", called) or re.search(r"\b(?:in|over) (?:each of )?(?:the )?(?:next )?(\d|two|three|four)\b", low)
    legs = (lexicon.number(said_legs[1]) or 2) if said_legs else 2
    return Special(name, abbreviation, said, (), f"{stitch}{legs}tog", stitch, legs, 0, "gathered", False, line)


_GOES_IN = when_used(
    r"insert(?:ing)?\s+(?:the\s+|your\s+)?hook\s+(?:\w+\s+){0,3}?(?:in(?:to)?|through|under)\s+(?:the\s+)?"
    r"(?:(?:front|back)\s+(?:loop|lp)s?\s+(?:only\s+)?of\s+)?(?:the\s+)?(?P<which>[a-z0-9]+)"
)
_ON_ONE = ("next", "following", "second", "2nd", "third", "3rd", "adjacent", "nxt", "foll")


def _each_in_its_own(low: str, name: str, legs: int) -> bool:
    """Whether each leg of a stitch goes into a stitch of its own: "insert hook in next st, ..., insert hook in next st"."""
    places = [found["which"] for found in _GOES_IN.finditer(low)]
    if len(places) == 1:
        return places[0] == "next" and bool(re.search(r"dec|tog", plain(name)))
    return len(places) == legs and all(which in _ON_ONE for which in places[1:])


def _as_written(word: str, words: str) -> str:
    found = re.search(re.escape(word), words, re.IGNORECASE)
    return found[0].rstrip(".") if found else word


def _from_hook(op: Op) -> bool:
    return isinstance(op, Make | Into) and any(p.which == "hook" for p in op.places)


def _on_its_chain(ops: tuple[Op, ...]) -> bool:
    """Whether a group has stitches of its own on both sides of a chain that it works back along: "(2 dc, ch 5, sc in 2nd
    ch from hook, sc in next 3 ch, 2 dc) in one st"."""
    plain = [at for at, op in enumerate(ops) if isinstance(op, Make) and not op.places]
    back = [at for at, op in enumerate(ops) if _from_hook(op)]
    return len(back) == 1 and isinstance(ops[back[0] - 1], Chain) and bool(plain) and plain[0] < back[0] - 1 and back[0] < plain[-1]


def _in_one(op: Op) -> Op:
    """A clause of a stitch's own words: "in front loop of the stitch 2 rows down" is one stitch, not all of them."""
    if not isinstance(op, Make) or not any(p.which == "each" for p in op.places):
        return op
    return replace(op, places=tuple(replace(p, which="next", bare=False) if p.which == "each" and not p.until else p for p in op.places))


_EACH_SAID = when_used(r"\b(?:each|every|all)\b")


def _noted(
    name: str, abbreviation: str, said: str, low: str, words: Words, known: Mapping[str, Special], line: int
) -> Special | None:
    """A stitch told in notation."""
    low = without_lead(low)
    one_place = None if _PICOT_CLOSED.search(low) else _ONE_PLACE.search(low)
    in_place = bool(_INDICATED.search(low)) or one_place is not None
    low = _INDICATED.sub(lambda m: " " * len(m[0]), low)
    low = _ONE_PLACE.sub(lambda m: " " * len(m[0]), low) if one_place is not None else low
    low = re.sub(r"^\s*(?:work|make)\s+", lambda m: " " * len(m[0]), low)
    text = said[: len(low)] if len(said) >= len(low) else said.ljust(len(low))
    read = RowReader(words, known).read(text, low, Source(said, line), defining=True)
    ops = read.ops
    stands_for = next((op.text for op in ops if isinstance(op, Act) and op.name == "opening" and op.text), "")
    ops = tuple(op for op in ops if not isinstance(op, Act))
    if len(ops) == 1 and isinstance(ops[0], Times) and ops[0].times == 1:
        ops = ops[0].ops
    ops = ops if _EACH_SAID.search(low) else tuple(_in_one(op) for op in ops)
    if ops and isinstance(ops[0], Chain) and ops[0].counts and ops[0].counts[0].startswith(FIRST_LEG):
        stands_for = ops[0].counts[0].removeprefix(FIRST_LEG).strip()
        ops = (replace(ops[0], counts=None), *ops[1:])
    stands_for = stands_for.split(",")[0].strip()  # told of the chain and of the whole: "(cl) ... counts as a cl"
    gathered = _beginning(name, abbreviation, ops, stands_for, said, line, known)
    if gathered is not None and not read.complaints:
        return gathered
    if not ops or read.complaints or not any(isinstance(op, Make | Chain) for op in walk(ops)):
        return None
    if not any(isinstance(op, Make) for op in walk(ops)):
        return None
    if any(map(_from_hook, walk(ops))) and not (in_place and _on_its_chain(ops)):
        return None
    first = ops[0]
    if len(ops) == 1 and isinstance(first, Make) and first.stitch == "picot" and first.places:
        return Special(name, abbreviation, said, (), abbreviation, "ch", 1, first.places[0].nth, "picot", True, line)
    several = sum(len(op.places) for op in walk(ops) if isinstance(op, Make | Skip))
    only = ops[0] if len(ops) == 1 else None
    if isinstance(only, Into) and all(
        p.which in ("same", "next") and p.count == 1 and p.noun.name in ("st", "ch") for p in only.places
    ):
        ops, in_place = only.ops, True
    elif (
        not in_place
        and several
        and all(p.which == "same" for op in walk(ops) if isinstance(op, Make) for p in op.places)
    ):
        ops, in_place = tuple(_placeless(op) for op in ops), True
    if in_place and len(ops) == 1 and isinstance(first := ops[0], Make) and (legs := lexicon.together(first.stitch)) > 1:
        return Special(
            name, abbreviation, said, (), abbreviation, lexicon.height_of(first.stitch) or "dc", legs, 0, "gathered",
            True, line,
        )  # fmt: skip
    if not in_place and several == 0 and any(isinstance(op, Make) for op in walk(ops)):
        in_place = True
    return Special(name, abbreviation, said, ops, "", "dc", 1, 0, "group", in_place, line)


def _placeless(op: Op) -> Op:
    return replace(op, places=()) if isinstance(op, Make) else op


def _beginning(
    name: str, abbreviation: str, ops: tuple[Op, ...], stands_for: str, words: str, line: int,
    known: Mapping[str, Special],
) -> Special | None:  # fmt: skip
    """ "Beginning cluster: ch 2, dc2tog in same sp": chains and a gathering that together are one stitch, the
    chains its first leg. It is the stitch it is said to count as, else the one it is named after; where that is
    gathered of as many legs, or is explained nowhere above, "ch 2, dc in same st" says the same."""
    if len(ops) != 2 or not isinstance(ops[0], Chain) or ops[0].counts is not None or not isinstance(ops[1], Make):
        return None
    if not plain(name).startswith(("beg", "start", "first")):
        return None
    kind = stands_for or re.sub(r"^beg(?:inning)?[\s.-]*", "", abbreviation, flags=re.IGNORECASE) or abbreviation
    legs = lexicon.together(ops[1].stitch)
    height = lexicon.height_of(ops[1].stitch) or "dc"
    whole = next((s for s in known.values() if plain(kind) in (plain(s.abbreviation), plain(s.name))), None)
    if legs < 2 and whole is not None and whole.form == "gathered":
        alike = ops[1].stitch == whole.base and ops[1].count == whole.legs - 1
        kind, legs = whole.abbreviation, ops[1].count if alike else 0
    elif legs < 2 and whole is None and ops[0].count > 1 and ops[1].stitch == height and any(k == "GATHERED" for k, _ in vocabulary().get(plain(kind), ())):
        legs = ops[1].count
    elif legs < 2:
        return None
    if not legs:
        return None
    return Special(name, abbreviation, words, (), kind, height, legs + 1, ops[0].count, "gathered", True, line)


#: Stitches told in full within a name, longest first: "herringbone half double crochet" is "herringbone hdc" too.
_IN_FULL = (
    ("half double crochet", "hdc"), ("half treble crochet", "htr"), ("double treble crochet", "dtr"), ("single crochet", "sc"),
    ("double crochet", "dc"), ("treble crochet", "tr"), ("half treble", "htr"), ("treble", "tr"),
)  # fmt: skip


def _in_letters(low: str) -> str:
    """Words with each stitch told in full by its letters."""
    for full, letters in _IN_FULL:
        low = re.sub(rf"\b{full}s?\b", letters, low)
    return low


def _shortened(name: str) -> set[str]:
    """A name with the stitch in it by its letters, where more stands in it than the stitch, and its plural."""
    full, letters = next(((full, letters) for full, letters in _IN_FULL if full in name), ("", ""))
    short = name.replace(full, letters) if full and name != full and len(name.split()) > len(full.split()) else ""
    return {short, f"{short}s"} if short else set()


#: "Loop stitch", which is "lp st" too.
_LOOP_WORDS = {"loop": "lp", "lp": "loop"}
_LOOP_WORD = re.compile(r"\b(?:loop|lp)\b")


def spellings(specials: Mapping[str, Special], terms: str = "US") -> dict[str, list[tuple[str, str]]]:
    """How each of a pattern's own stitches is spelled, for the page of words: abbreviation, name, their plurals. The name
    of the trade that stands for one within the tool is left out where these `terms` say another stitch by it: a tr3tog
    explained in UK terms is no UK dc3tog."""
    out: dict[str, list[tuple[str, str]]] = {}
    for special in specials.values():
        meant = lexicon.stitch_name(special.abbreviation, terms) if terms == "UK" else None
        elsewhere = meant not in (None, special.abbreviation) and plain(special.name) != plain(special.abbreviation)
        for spelled in (special.name, *(() if elsewhere else (special.abbreviation,))):
            low = plain(spelled).strip()
            forms = {low, low + ("es" if low.endswith(("sh", "ch")) else "s"), low + "s", *_shortened(low)}
            for tail in (" stitch", " st"):
                if low.endswith(tail):
                    forms |= {low.removesuffix(tail), low + "s" if tail == " st" else low + "es"}
            if low.endswith(("-st", "-stitch")):
                forms |= {low.replace("-st", " st"), low + "es"}
            forms |= {_LOOP_WORD.sub(lambda m: _LOOP_WORDS[m[0]], form) for form in forms}
            first = low.split()[0]
            if low == f"{first} stitch":
                forms |= {f"{first} {base}" for base in ("sc", "hdc", "dc")}
            for form in forms:
                if form and ("OWN", special.abbreviation) not in out.setdefault(form, []):
                    out[form].append(("OWN", special.abbreviation))
    for last, special in called_by_last(specials).items():
        for form in (last, f"{last}s"):
            out.setdefault(form, [("OWN", special.abbreviation)])
    return out
