"""Whether a clause tells no work, judged by how it is built.

A clause is talk where it says what is or will be, of the piece or of who works it ("it will look wavy", "you have a little
pocket now"), asks for what the hands do with the piece and not with the yarn ("push the petals forward"), gives a reason
or an aim, or only exclaims; and where nothing in it may be work: no stitch to make, no place that work goes to, no number
but of what stands already, no limit, no change of the row. What is in doubt is no talk.
"""

from __future__ import annotations

import functools
import re
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path

from ...when_used import when_used

#: So long may a clause of talk be, and so far from its beginning its verb.
_LONGEST, _VERB_WITHIN = 26, 10
#: Where a hook goes, also where it is only said what something is.
_THROUGH = frozenset(("into", "onto", "over", "through", "under"))
#: Ways of saying that are one thing for the judge.
_SAID_AS = (
    (r"[\u2018\u2019]", "'"), (r"\b(it|that|there|he|she|what|here|this)'s\b", r"\1 is"), (r"\b(you|we|they|these|those|i|it|that)'ll\b", r"\1 will"),
    (r"\b(you|we|they|these|those)'re\b", r"\1 are"), (r"\bi'm\b", "i am"), (r"\b(i|you|we|they)'ve\b", r"\1 have"), (r"\bcan(?:not|'t)\b", "can not"),
    (r"\bwon'?t\b", "will not"), (r"\b(is|are|was|were|does|did|should|would|could|might)n'?t\b", r"\1 not"), (r"\b(?:don't|dont)\b", "do not"),
    (r"\bdo not forget to\b", "remember to"), (r"\b(the|your|this|of|our|my|that) (?:work|crochet)\b", r"\1 piece"), (r"\bstitch markers?\b", "pins"),
    (r"\b(?:the |your |this )?(?:stitch count|st count|count of stitches|number of (?:stitches|sts)|tally)\b", "the tally"), (r"\b(?:the|your) (?:stitch )?count\b", "the tally"), (r"\bdouble[ -]check\b", "check"),
    (r"\b(the|your) join\b", r"\1 seam"), (r"\beasy to miss\b", "easy to overlook"), (r"\b(?:crochet) hook\b", "hook"), (r"\b(each|every|the|your|pattern) repeats?\b", r"\1 motif"),
    (r"\b(the|your) (?:turning|beginning|starting|first|foundation) (?:chain|ch)\b", r"\1 thing"), (r"\b(your|our) markers?\b", "the pin"),
    (r"^(?:and )?(?:now|here|next|then|finally)(?: (?:comes?|follows?)|,? (?:on )?to|,? for|,)? (?:the|our|your|an?) (?:[a-z]+ )?(brim|rim|edge|top|body|foot|leg|heel|toe|cuff|hand|crown|sides?|wall|handles?|strap|neck|head|bottom|base|fun|tricky|easy|best|boring|nice) ?(?:part|bit|section)?$", "this is the \\1 part"), (r"\bturns? up(?= and\b|$)", "curl"),
    (r"^(?:the|these|those) (?:[a-z]+ )?(?:holes|spaces|gaps|slits|openings|ends|tails) (?:is|are|will be) (?:meant |there |used |later )*(?:for|to) [a-z]+(?:ing)? (?:the |a |an )?[a-z]+(?: [a-z]+)?$", "they are fine"),
    (r"^(?:(?:there (?:is|are) |with )?no (?:ch|chains?)|without (?:any )?(?:ch|chains?)) (?:in )?between(?: (?:the |these )?(?:groups|clusters|shells|sets|them))?(?: (?:from now on|any more|in this (?:round|rnd|row)|here|now))?$", "they are fine"),
    (r"^(?:and |but |now )?we are back (?:in|through|to) (?:both|the usual|normal) loops$", "they are fine"),
    (r"\bmore or less\b", "roughly"), (r"\bcan (?:safely )?be ignored\b", "does not matter"), (r"\bcome in (?:handy|useful)\b", "be useful"),
    (r",? as you (?:go|work|crochet|proceed|go along|go on|get on)(?: along| on| round)?$", ""), (r"\bno one\b", "nobody"), (r"\b(?:feel free to|you can|you may|you could) use\b", "you can like"),
    (r"\b(?:most|many|some) (?:beginners|people|crocheters|makers|of us)\b", "everyone"), (r"\byou (?:use|choose|pick)$", "you like"),
    (r"\bthe tally (?:is|stays|remains|will be|should be) (?:still )?(?:the same|unchanged)\b(?: as .*| from now on| throughout)?$", "the tally is fine"), (r"\bgo (?:up|down) (?:a|one) hook size\b", "relax"), (r"\bonce (it|you|the)\b", r"when \1"),
)  # fmt: skip
_SAID_PATTERNS = tuple((when_used(pattern), said) for pattern, said in _SAID_AS)
_TOKEN = re.compile(r"ch-\d|[a-z]+(?:[-'][a-z]+)*|\d+(?:[./,]\d+)*|[^\s\w]")


@functools.cache
def words_of(kind: str) -> frozenset[str]:
    """The words of one kind of the page beside this module, each as it is said."""
    return _page().get(kind, frozenset())


@functools.cache
def _page() -> dict[str, frozenset[str]]:
    kinds: dict[str, set[str]] = {}
    for line in Path(__file__).with_name("words.txt").read_text("utf-8").split("\n"):
        name, sign, words = line.partition(":")
        if sign and not line.startswith("#"):
            kinds.setdefault(name, set()).update(word.strip() for word in words.split(","))
    return {name: frozenset(words) for name, words in kinds.items()}


def may_be_talk(first: str) -> bool:
    """Whether a clause that begins with a word may tell no work at all: asked of every clause of a row, before all else."""
    return first not in words_of("WORKFIRST")


#: Where a hook goes: "in next ch-3 between points"; and letters of an old abbreviation set apart, "s c", "d c".
_GOES_IN = when_used(r"\b(?:in|into|around|over) (?:the )?(?:next|each|every|same|following) (?!(?:rows?|rnds?|rounds?|time|step|photo|picture|few|section|part|day|size|repeat|motif)\b)")
#: "We put the hook under the back half and make 8 sc".
_MAKES = when_used(r"\b(?:and|then|we|you|to|,) (?:make|work|crochet|knit|do) (?:\d{1,3}|one|two|three|four|five|six|an?) (?:sc|hdc|dc|htr|tr|dtr|sl st|ss|(?:single|double|half double|treble) crochet)s?\b")
_SPACED = when_used(r"(?<![a-z])(?:[sd]|h d|half d|d t|t) [cr](?![a-z])")


@functools.lru_cache(maxsize=4096)
def tells_no_work(clause: str) -> bool:
    """Whether a clause, in lower case and without its signs, is talk.

    >>> tells_no_work("it will look wavy"), tells_no_work("it now gets a picot on every third st")
    (True, False)
    """
    said = " ".join(clause.split())
    if _GOES_IN.search(said) or _MAKES.search(said) or _SPACED.search(said):
        return False
    for pattern, instead in _SAID_PATTERNS:
        said = pattern.sub(instead, said)
    whole = _TOKEN.findall(said)
    without = _without_lead(whole)
    return any(_is_built_so(words) for words in ([without, whole] if without != whole else [whole]))


def _is_built_so(words: list[str]) -> bool:
    if not 1 <= len(words) <= _LONGEST or not words[0][0].isalpha() or words[0] in words_of("WORKFIRST"):
        return False
    if "same" in words[:2] or ("same" in words and words[words.index("same") + 1 : words.index("same") + 2] == ["as"]):  # "same idea": as before
        return False
    return any(form(words) for form in (_counts_what_is, _states, _points, _reasons, _exclaims))


def _without_lead(words: list[str]) -> list[str]:
    """A clause without what only leads up to it: "and now", "at this point", "remember that"."""
    leads, at = words_of("LEAD"), 0
    while at < len(words):
        width = next((n for n in range(6, 0, -1) if at + n < len(words) and " ".join(words[at : at + n]) in leads), 0)
        if not width and words[at] != ",":
            break
        following = words[at + width] if at + width < len(words) else ""
        if words[at] in ("remember", "note", "notice", "here", "there") and width == 1 and following in ("to", "is", "are", "comes"):
            break
        at += max(width, 1)
    return words[at:]


# -- what may be work -------------------------------------------------------------------------------------------------


def _clean(words: list[str], *, lies: bool = False) -> bool:
    """Whether words hold nothing that may be work. `lies`: they say where something is, which is no place of work."""
    for at, word in enumerate(words):
        if (word in words_of("WORKS") or word[0].isdigit() or word in words_of("NUMBERS") or word.endswith("tog")) and not _measures(words, at):
            return False
        if word in words_of("WHICH") and _named_soon(words, at):
            return False
        if word in words_of("INTO") and (not lies or word in _THROUGH) and _named_soon(words, at):
            return False
        if word == "made" and words[at + 1 : at + 2] and words[at + 1] in ("by", "with", "of", "in", "into", "from"):
            return False
        if word in ("a", "an", "another", "one") and at + 1 < len(words) and words[at + 1] in words_of("PLACES") and not lies:
            return False
        if word in ("ones", "one") and not (at and words[at - 1] in ("this", "that", "no", "every", "any")):
            return False
        if word == "count" and (at or words[1:2] == ["as"]):
            return False
        if word == "all" and words[at + 1 : at + 3] == ["the", "way"]:
            return False
        if word in ("back", "front", "both", "free") and at + 1 < len(words) and words[at + 1] in ("loop", "loops", "lp", "lps"):
            return False
        if word in ("up", "as") and at + 1 < len(words) and words[at + 1] in ("to", "far", "before"):
            return False
    return not _left_over(words)


def _left_over(words: list[str]) -> bool:
    """Whether stitches are said to be left: "3 sts are left", "stay empty"."""
    said = " ".join(words)
    return _LEFT.search(said) is not None and _LEFT_HAND.search(said) is None


_LEFT = when_used(r"\b(?:left(?: over| out)?$|left (?:for|over|out|at|un)|empty|untouched|over_left)")
_LEFT_HAND = when_used(r"\b(?:to|on|from|the|your|further) (?:the |your )?left\b")


def _measures(words: list[str], at: int) -> bool:
    """Whether a number is that of a measure, or of a page."""
    behind = words[at + 1] if at + 1 < len(words) else ""
    return words[at][0].isdigit() and (behind in words_of("UNIT") or (at > 0 and words[at - 1] in ("photo", "picture", "figure", "fig", "step", "page", "chart")))


def _named_soon(words: list[str], at: int) -> bool:
    """Whether a place is named within three words."""
    return any(word in words_of("PLACES") for word in words[at + 1 : at + 4])


# -- how clauses are built ---------------------------------------------------------------------------------------------

#: "Every side has two ch-1 spaces", "there are 12 petals altogether", "you now have 20 stitches on this side": what stands there.
_NUMBER = r"(?:\d{1,3}|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve)"


@functools.cache
def _count_pattern() -> re.Pattern[str]:
    counted = "|".join(sorted(words_of("COUNTED")))
    behind = "|".join(sorted(words_of("NOWADAYS"), key=len, reverse=True))
    who = r"(?:(?P<part>(?:each|every|both|all) (?:[a-z]+ ){1,3}(?:of the [a-z]+ )?)|(?:the|your|this|that) (?:[a-z]+ ){1,3}(?:of the [a-z]+ )?|(?:you|we|there|they|it(?! is)) ?)"
    helps = r"(?:(?:will|should|ought to|must|now|then|still|always|also|already|would) ){0,3}"
    return re.compile(rf"{who}{helps}(?:has|have|is|are|be|had) (?:got )?(?:now |still |a total of |exactly |about |roughly |already )*{_NUMBER} (?:ch-\d (?=sp|lo|ar)|[a-z]+ )?(?P<what>{counted})(?P<where>(?: (?:{behind}))*)")


def _counts_what_is(words: list[str]) -> bool:
    found = _count_pattern().fullmatch(" ".join(words).replace("ch - ", "ch-"))
    if found is None:
        return False
    # of the whole row they are its count, which must hold
    return found["part"] is not None or (found["where"] or "").strip().endswith("side") or found["what"].startswith(("row", "rnd", "round"))


def _states(words: list[str]) -> bool:
    """A statement: of whom or what, then a verb that is none of work, then nothing that may be work."""
    first = words[0]
    if first in _SEEMS:
        return _thing_states(["it"], words)
    if first in words_of("PERSON"):
        return _person_states(first, words[1:])
    if first in words_of("INDEFINITE") and (len(words) < 2 or words[1] in words_of("PLACES") or words[1] in words_of("WORKS")):
        return False
    if first not in words_of("THING") | words_of("DEFINITE") | words_of("INDEFINITE") and not _is_bare_noun(words):
        return False
    return any(_names_thing(words[:verb]) and _thing_states(words[:verb], words[verb:]) for verb in _verbs_at(words))


#: Verbs that tell of the piece though it is not named: "looks great already".
_SEEMS = frozenset(("looks", "feels", "seems", "sounds"))


def _is_bare_noun(words: list[str]) -> bool:
    """Whether a clause begins with what is spoken of without an article: "things are ...", "counting helps"."""
    first, second = words[0], words[1] if len(words) > 1 else ""
    if first in _imperatives() or first in _LEADING or first in words_of("HELP") | words_of("BE") | words_of("HAVE") or first in words_of("INTO") | words_of("WHICH"):
        return False
    if first.endswith("ing"):
        return second in words_of("STATE") or second in words_of("BE")
    return first not in ("to", "do", "without", "with", "for", "by", "from", "of", "at", "all")


@functools.cache
def _imperatives() -> frozenset[str]:
    """Verbs that tell what to do where they stand first."""
    return words_of("STATE") | words_of("HAND") | words_of("MINDS") | words_of("FEELS")


def _verbs_at(words: list[str]) -> Iterator[int]:
    """Where the finite verb of a statement may stand."""
    be, have, helps, states = words_of("BE"), words_of("HAVE"), words_of("HELP") - {"to", "all", "both", "each", "about"}, words_of("STATE")
    pronoun = words[0] in words_of("THING") and words[0] not in words_of("DEFINITE")
    for at in range(1, min(len(words), _VERB_WITHIN)):
        word, before = words[at], words[at - 1]
        if before in ("the", "a", "an", "your", "of", "in", "at", "each", "every", "to", "my", "our", "both") or word in ("in", "to"):
            continue
        if word in be or word in have or word in helps or word in states or (pronoun and at == 1 and _third(word)) or (_third(word) and at > 1 and before not in words_of("INTO") and (at + 1 == len(words) or words[at + 1] not in be | have | helps | states)):
            yield at


def _third(word: str) -> bool:
    return len(word) > 3 and word.endswith("s") and not word.endswith(("ss", "'s", "us")) and word not in words_of("COUNTED") and word not in words_of("PLACES")


def _names_thing(subject: list[str]) -> bool:
    """Whether the words before a verb name the piece, a part of it or what it is made of, and no stitch to be made."""
    if not subject or subject[-1] in ("one", "ones") or subject == ["no"] or (len(subject) == 1 and subject[0] in words_of("DEFINITE") - words_of("THING")):
        return False
    for at, word in enumerate(subject):
        if (word in words_of("WORKS") and (word != "chain" or subject[at - 1 : at] != ["the"])) or word[0].isdigit() or (word in words_of("NUMBERS") and (at + 1 == len(subject) or subject[-1] in words_of("PLACES") - {"petals", "corners", "shells"})):
            return False
    return subject[0] not in ("to", "in", "into", "at", "on", "for", "by", "from", "if", "when", "as")


def _thing_states(subject: list[str], predicate: list[str]) -> bool:
    helps = words_of("HELP")
    at = 0
    while at < len(predicate) - 1 and predicate[at] in helps and (predicate[at] not in words_of("STATE") or predicate[at + 1] == "to"):
        at += 1
    rest = predicate[at:]
    verb = rest[0]
    lies = verb in words_of("LIES") or (subject[0] in ("there",) and verb in words_of("BE"))
    if verb in words_of("BE") | words_of("HAVE"):
        if any(w in ("a", "an") and w2 in words_of("PLACES") - _SEEN for w, w2 in pairwise(rest)) or rest[1:2] == ["count"]:
            return False
        if verb in words_of("HAVE") and any(w in words_of("PLACES") for w in rest):
            return False
        if subject[0] in ("there",) and any(w in words_of("PLACES") - {"hole", "holes", "gap", "gaps", "bump", "bumps", "ridge"} for w in rest):
            return False
        return len(rest) > 1 and _clean(rest[1:], lies=lies)
    if verb not in words_of("STATE") and not _third(verb) and not (at and predicate[at - 1] in words_of("MODAL")):
        return False
    if verb in words_of("WORKS") or (verb in words_of("GIVES") and any(word in words_of("PLACES") or word in ("it", "in", "into") for word in rest[1:])):
        return False
    return _clean(rest[1:], lies=lies or verb not in words_of("GIVES"))


#: Of the places those that are also what is seen: "outlined by a ridge".
_SEEN = frozenset(("ridge", "bump", "bumps", "gap", "gaps", "hole", "holes", "tip"))


#: What the writer tells of her own piece with words that else are work.
_OF_MINE = frozenset(("used", "use", "using", "color", "colour", "added", "placed", "worked", "count"))


def _person_states(first: str, words: list[str]) -> bool:
    """What the one who works sees, feels, has; of the writer anything that is no work."""
    helps, at = words_of("HELP"), 0
    while at < len(words) - 1 and words[at] in helps - {"do", "need", "want"} and words[at] not in words_of("BE"):
        at += 1
    rest = words[at:]
    if first == "i":
        rest = [word for word in rest if word not in _OF_MINE]
    if not rest or not _clean(rest, lies=rest[0] in words_of("BE")):
        return False
    if first == "i":
        return True
    if rest[0] in ("need", "want", "have", "like", "prefer", "try", "expect") and rest[1:2] == ["to"]:
        return rest[2:3] != [] and (rest[2] in words_of("FEELS") or (rest[2] in words_of("HAND") and bool(words_of("HELD") & set(rest))))
    if rest[0] in words_of("BE"):
        going = rest[1:2] and rest[1].endswith("ing") and rest[1] in ("going", "making", "starting", "beginning")
        return not going
    if rest[0] in words_of("HAVE"):
        return not any(word in words_of("PLACES") for word in rest)
    return rest[0] in words_of("FEELS")


_SURE = when_used(r"(?:be sure|make sure|make certain|be careful|take care|remember|try|do not forget|feel free|you can|you may|you might|you may need|you might want|you will want|you will need|it helps|being careful|taking care)(?P<not> not)? to (?P<not2>not )?(?:not )?")
_NEVER = when_used(r"(?:do not|never|no need to|try not to)(?: ever| ever)? ")


def _points(words: list[str]) -> bool:
    """What the hands or the mind do, which makes no stitch: "hold the petals forward", "mind the gap", "take your time"."""
    said = " ".join(words)
    sure = _SURE.match(said)
    negated = bool(sure and (sure["not"] or sure["not2"]))
    if sure:
        said = said[sure.end() :]
    never = _NEVER.match(said)
    if never:
        negated, said = True, said[never.end() :]
    words = said.split()
    while words and words[0] in ("always", "simply", "just", "keep", "gently", "carefully", "slowly") and (words[0] != "keep" or words[1:2] == ["on"]):
        words = words[1:]
    if not words or words[0] in words_of("WORKFIRST") or any(w in ("loop", "loops", "lp", "lps") for w in words):
        return False
    first, rest = words[0], words[1:]
    held = words_of("HELD")
    if first in ("be", "being") and rest:
        return _clean(rest, lies=True)
    if first in ("take", "have", "give", "go", "do", "get", "let", "make") and set(rest[:6]) & words_of("ASKS"):
        return _clean(rest)
    if first in words_of("HAND"):
        holds = bool(set(rest) & held) and not (first == "keep" and any(w.endswith("ing") for w in rest[:2]))
        return holds and _clean(_without_held(rest))
    if first == "count" and rest[:1] in (["as"], []) and negated:
        return False
    if first in words_of("MINDS"):
        return (bool(rest) or first not in words_of("LEAD") | {"see", "check", "count", "look", "compare"}) and _clean(rest, lies=True)
    return negated and _clean(words) and not any(word in words_of("PLACES") for word in words) and (first.isalpha() and first not in words_of("GIVES"))


def _without_held(words: list[str]) -> list[str]:
    """What is done with the thing that the hands hold, without its name: "behind the petals" is where it lies."""
    return [word for word in words if word not in words_of("HELD")]


_LEADING = frozenset(("so", "because", "since", "as", "otherwise", "if", "in", "or", "when", "while", "where", "which", "although", "though", "whichever"))


def _reasons(words: list[str]) -> bool:
    """Why something is done, or for what: "so that the edge stays straight", "because the sides would slant"."""
    if words[:2] in (["in", "order"], ["so", "as"]):
        words = words[2:]
    first = words[0] if words else ""
    if first == "to" and len(words) > 2 and words[1] in words_of("AIMS"):
        return _clean(words[2:], lies=True) and not any(w in words_of("PLACES") - {"gap", "gaps", "hole", "holes"} or w in ("round", "circle", "square_up") for w in words)
    if first not in _LEADING:
        return False
    rest = words[1:]
    for lead in (["that"], ["else"], ["case"], ["order", "to"]):
        if rest[: len(lead)] == lead and len(rest) > len(lead):
            rest = rest[len(lead) :]
    if first in ("in", "or") and rest == words[1:]:
        return False
    if not rest:
        return False
    if first == "which":
        return _states(["it", *rest])
    if first in ("if", "when", "while", "where", "whichever", "though", "although"):
        return first != "where" and _clean(rest) and not any(word in words_of("PLACES") or word in words_of("WORKFIRST") - {"a", "n", "x", "with"} for word in rest)
    return _states(rest)


def _exclaims(words: list[str]) -> bool:
    """A few words of praise, comfort or manner with no verb of work: "phew", "easy does it", "not too tight"."""
    known = words_of("HOW")
    if all(word in known or not word[0].isalnum() for word in words):
        return bool(set(words) - {"a", "an", "the", "this", "that", "it", "all", "way", "at", "to", "here", "there", "now", "again", "first", "same", "as", "by", "not", "no",
                                  "and", "or", "than", "off", "on", "with", "your", "done", "plain", "even", "so", "evenly", "loosely", "tightly", "shell", "star", "cup", "pulling", "shape"}) and len(words) < 12
    if words[0] in ("like", "sorry", "thanks") or words[:2] in (["much", "like"], ["just", "like"]):
        return _clean(words[1:], lies=True) and not any(word in words_of("PLACES") for word in words)
    if words[0] == "as" and len(words) > 2 and words[1] in ("seen", "shown", "mentioned", "explained", "pictured", "described"):
        return _clean(words[2:], lies=True) and not any(word in words_of("PLACES") for word in words)
    if words[0] == "without" and len(words) > 1 and words[1].endswith("ing"):
        return _clean(words[1:]) and not any(word in words_of("PLACES") for word in words)
    mine = {"my", "me", "mine", "myself"} & set(words)
    return bool(mine) and words[0] not in _imperatives() and _clean(words) and not any(word in words_of("PLACES") for word in words)
