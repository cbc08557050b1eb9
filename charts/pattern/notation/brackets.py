"""Brackets: whether one is a group, a count, what a chain counts as, or a remark; and lists without one, called a
pattern: "Repeat the pattern of sc in next st, 2 sc in next st around"."""

from __future__ import annotations

import re

from ..when_used import when_used
from .prose import PLACE, is_prose
from .stated import work_follows
from .words import Word, vocabulary

_PLACED = frozenset(
    ("in", "into", "around", "each", "rep", "repeat", "twice", "across", "x", "over", "next", "to", "between", "all",
     "times", "thrice", "until", "till", "on", "evenly", "through", "along", "for", "repeating", "rpt", "once", "about", "round", "at", "along", "within", "*")
)  # fmt: skip


_ROWS = frozenset(("row", "rows", "rnd", "rnds", "round", "rounds"))


def placed_after(words: list[Word], at: int) -> bool:
    """Whether what stands beside a bracket says how often or where its group is worked."""
    following = at + 1
    while following < len(words) and words[following].text in ("the",):
        following += 1
    if following < len(words):
        word = words[following]
        if word.text in _PLACED and word.inside is None and not (
            word.text in ("rep", "repeat")
            and following + 1 < len(words)
            and words[following + 1].text in ("from", "rows", "row", "rnd", "*", "rnds", "rounds", "round", "last")
        ):
            return True
        if (
            word.kinds.keys() & {"NUM"}
            and following + 1 < len(words)
            and words[following + 1].text in ("times", "time", "x", "more")
        ):
            return True
        behind = [w.text for w in words[following + 1 : following + 3]]
        if word.kinds.keys() & {"NUM", "ORD"} and behind[:1] and behind[0] in _ROWS and behind[1:] and behind[1] in ("below", "down", "beneath"):
            return True  # "(fpdc around next fpdc, sc in next sc) 2 rows below"
        if (
            word.text in (".", ",", ";")
            and following + 1 < len(words)
            and words[following + 1].text in ("rep", "repeat")
            and (
                following + 2 >= len(words)
                or words[following + 2].text
                in ("across", "around", "to", "until", "for", "the", "this", "these", "brackets", ".", "twice")
                or "NUM" in words[following + 2].kinds
            )
        ):
            return True
    before = words[at - 1].text if at else ""
    inside = words[at].inside
    if before == "x" and at > 1 and words[at - 2].text.isdigit() and inside is not None and all(w.text.isdigit() for w in inside.words):
        return False
    if before == "x" and at > 2 and words[at - 2].text.isdigit() and words[at - 3].inside is not None:
        return False
    if before in ("rep", "repeat") and _counts_what_comes_again(words, at):
        return False
    return before in ("rep", "repeat", "x", "of", "work", "make", "working")


def _counts_what_comes_again(words: list[Word], at: int) -> bool:
    """Whether a bracket behind "repeat" is the row's count: "[sc, inc] repeat [18]", "inc, sc, repeat (21)" at its end."""
    inside = words[at].inside
    told = next((w for w in reversed(words[: at - 1]) if w.text not in (",", ".", ";")), None)
    if inside is None or told is None or not all(w.text.isdigit() for w in inside.words):
        return False
    ends = len(inside.words) == 1 and all(w.is_sign and w.inside is None for w in words[at + 1 :])
    return told.inside is not None or (ends and not told.is_sign)


#: What a place begins with that stands as a clause of its own, and which words of it say which one is meant.
_IN = frozenset(("in", "into", "around", "over"))
_WHICH = frozenset(("next", "each", "same", "first", "last"))
#: Kinds of things that are worked into.
_NOUNS = frozenset(("SP", "LP", "CHSP", "CHREF", "CORNER", "ST", "STN", "HOLE", "GROUP"))
#: A place is told in no more words than this.
_LONGEST_PLACE = 7


def place_before(words: list[Word], at: int) -> bool:
    """Whether a clause of a place alone stands before a bracket: "..., in next sp (3 tr, 1 dc)", "..., in ch-2 corner sp
    (3 tr, 1 dc)" work it there."""
    start = at - 1 if at and words[at - 1].text == ":" else at
    end = start
    while start and words[start - 1].inside is None and words[start - 1].text[:1].isalnum():
        start -= 1
    if start and words[start - 1].inside is not None:
        return False  # "(dc, ch 1, dc) in next dc (called V-st)": that of the bracket before it
    place = [w for w in words[start:end] if w.text not in ("the", "then", "and", "work")]
    if not 1 < len(place) <= _LONGEST_PLACE or place[0].text not in _IN:
        return False
    return (place[1].text in _WHICH and 2 < len(place) < 6) or not _NOUNS.isdisjoint(place[-1].kinds)


#: What a count says and a group of stitches does not.
_COUNTS = when_used(r"\bsts?\b|stitch|total|in all|altogether|made|count|=|\beach\b|side|now|have|\bper\b")


def is_own_group(low: str, around: list[Word], at: int) -> bool:
    """Whether a bracket of stitches is a clause of its own in the middle of a row's work, as in "sc, (2 hdc, ch 1), sc":
    a group, and no count of what stands before it."""
    if _COUNTS.search(low) or at + 1 >= len(around) or around[at + 1].text not in (",", ";"):
        return False
    if at and around[at - 1].text not in (",", ";"):
        return False
    others = [w for n, w in enumerate(around) if n != at and not {"STN", "OWN", "INC", "DEC"}.isdisjoint(w.kinds)]
    chains = any(w.text in ("ch", "chs", "chain") or "CHREF" in w.kinds for w in around[at + 1 :])
    return work_follows(around, at) or (not others and chains)


_REMARK = when_used(
    r"(?:an?|one|the|that's an?|this is an?|forms an?|makes an?) (?:\d{1,2}[- ])?(?:[a-z]+[- ]){0,2}(?:cluster|cl|shell|popcorn|pc|puff|bobble|picot|fan|v-st|petal|group)(?: st(?:itch)?)?|"
    r"(?:an? |the |this is (?:an? |the )?)?(?:inc(?:rease|reasing)?|dec(?:rease|reasing)?|plain|even|straight|shaping|set[- ]?up|eyelet|ridge|first|last|next)[- ](?:row|rnd|round)s?|"
    r"(?:rs|ws|right side|wrong side|rs facing|ws facing|optional|see .*|note.*|or .*|about .*|approx.*|if .*|make .*|i .*|you .*|for .*|"
    r"this .*|these .*|which .*|it .*|that .*|the .*|color [a-z]|colou?r .*|now .*|i\.?e\.? .*|e\.?g\.? .*|multiple of .*|here.*|last .*should.*|first .*should.*|"
    r"[a-z]* ?(?:made|completed|formed|complete|worked)|\d+(?:st|nd|rd|th)? (?:[a-z]+[- ]?){0,4}(?:made|formed|completed)|(?:hereafter |now |to be |from now on )?(?:called|named|known as) .*|as .*|like .*|with .*|from .*|to .*|start .*|at .*|when .*|work .* loosely|[a-z]+)"
)


_WORKED = when_used(
    r"\b(?:in|into|around|over) (?:the )?(?:next|each|same|first|last|ring|every|\d)|\d+ ?(?:sc|dc|hdc|tr|ch)\b|\b(?:sc|dc|hdc|tr|ch|inc|dec) ?\d|\b(?:skip|sk|miss)\b|,"
)


_LEFT = when_used(
    r"(?:the |last |remaining |other |leaving )*(?:\d+|one|two|three|four|five|six) (?:sts?|stitch(?:es)?|sc|hdc|dc|htr|tr|chs?)"
    r"(?: (?:will )?(?:remains?|stays?|are|is|left|be|being|that|which|remaining))* (?:un-?worked|not worked)"
)


def tells_left(low: str) -> bool:
    """Whether a bracket says how many stitches are left unworked.

    >>> tells_left("2 sts remain unworked"), tells_left("the last 3 sc are left unworked"), tells_left("9 sc")
    (True, True, False)
    """
    return bool(_LEFT.fullmatch(low))


_NAMES = when_used(
    r"(?:its|the|forms?|makes?|counts?|replaces?|is|are|was|were|should|will|shown|see|your|my|this|that|these|those|an?|"
    r"including|counting|not counting|ignoring|same|first|last)\b"
)


def tells_work(low: str) -> bool:
    """Whether a bracket that cannot be read says that something is done at a place: it is no explanation.

    >>> tells_work("flurb in next 3 sts"), tells_work("its last dc, before the ch-3"), tells_work("a small shell")
    (True, False, False)
    """
    return bool(PLACE.search(low)) and not _NAMES.match(low)


#: "(skip 8 st total)", "(3 sts skipped in all)": how many the work beside it skips.
_SKIPPED_IN_ALL = when_used(
    r"(?:so |a total of )?(?:(?:skip(?:s|ping|ped)?|sk|miss(?:es|ing|ed)?) \d{1,3} ?(?:sts?|stitch(?:es)?|sc|h?dc|h?tr|chs?)?,? (?:in )?(?:total|all|altogether)"
    r"|\d{1,3} ?(?:sts?|stitch(?:es)?|sc|h?dc|h?tr|chs?) (?:are |were |have been )?(?:skipped|missed)(?: (?:in )?(?:total|all|altogether))?)"
)


def is_remark(low: str) -> bool:
    """Whether a bracket with nothing beside it that says where or how often is a remark.

    >>> is_remark("skip 8 st total"), is_remark("skip 8 sts")
    (True, False)
    """
    if is_prose(low) or _SKIPPED_IN_ALL.fullmatch(low):
        return True
    return (
        bool(_REMARK.fullmatch(low))
        and not (_WORKED.search(low) and not is_prose(low))
        and low not in ("inc", "dec", "sc", "dc", "hdc", "tr", "turn")
    )


_MANNER = when_used(r"(?:inc(?:rease|reasing|s)?|dec(?:rease|reasing|s)?|plain|even)\.?")


def heads_row(low: str, around: list[Word], at: int) -> bool:
    """Whether a bracket before all of a row's work says what manner of row it is: "(inc) ch 2, 2 dc in each st"."""
    following = around[at + 1] if at == 0 and len(around) > 1 else None
    return following is not None and bool(_MANNER.fullmatch(low)) and (not following.is_sign or "STARNODE" in following.kinds)


_OVER = when_used(
    r"(?:(?:an?|the|one|first|last|next|\d+) )?(?P<made>[a-z-]+)(?: [a-z]+)? (?:made |worked )?over (?:(?:an?|the|next|last) )?(?P<below>[a-z-]+)(?: [a-z]+)?"
    r"(?: (?:made|completed)| (?:at|in) (?:the )?(?:beg(?:inning)?|start|end|middle) of (?:the )?(?:row|rnd|round))?"
)


def names_what_was_made(low: str) -> bool:
    """Whether a bracket behind work says what that work was: "(shell over shell)", "(space over block)".

    >>> names_what_was_made("bl over sp"), names_what_was_made("sc over sc, turn")
    (True, False)
    """
    return bool(_OVER.fullmatch(low))


def made_over_its_like(low: str) -> str:
    """The group that a bracket says was made over one of its name, "(shell made over shell)": the name is the new one's
    from there on; else "".

    >>> made_over_its_like("shell over shell"), made_over_its_like("bl over sp")
    ('shell', '')
    """
    found = _OVER.fullmatch(low)
    alike = found is not None and found["made"] == found["below"]
    group = alike and found is not None and any(kind == "GROUP" for kind, _ in vocabulary().get(found["made"], ()))
    return found["made"] if found is not None and group else ""


def tells_twice(words: list[Word]) -> bool:
    """Whether a list of stitches in a bracket comes to the same stitch a second time, behind another: what goes into one
    place, and no count, which says each stitch once."""
    named = [w.text for w in words if "STN" in w.kinds or "CHREF" in w.kinds or w.text in ("ch", "chain")]
    listed = [name for n, name in enumerate(named) if n == 0 or name != named[n - 1]]
    return len(set(listed)) < len(listed)


#: What a name of two words ends with: "tr shell".
_GROUPS = r"(?:shell|fan|scallop|v-st|group|cluster|petal|block|point|leaf|corner)"
_GIVEN = when_used(
    rf"(?:=|-|(?:(?:this (?:is|will be)|hereafter|from now on|to be|now) )?(?:called|named|known as)|makes|forms|for)? ?(?:(?:an?|the|one|1|first|1st|your first|another|second|2nd|next|last|third|single|beginning|beg|starting|this is (?:an?|the)|(?:counts|known) as (?:an?|the)?) )?(?:first )?(?P<name>(?:(?:[hdt]{{0,2}}(?:dc|tr)|sc|corner|edge|side|half|starting|cl|cluster)[ -](?={_GROUPS}\b))?[a-z]+(?:-[a-z]+)?(?: st(?:itch)?)?)(?: (?:is |now )?(?:made|completed|formed|complete|done|worked))?"
)


def name_given(low: str) -> str:
    """The name that a remark behind work gives to what was made: "(shell)", "first fan made", "= V-st"; else "".

    >>> name_given("first shell made"), name_given("tr fan made"), name_given("2 petals in all")
    ('shell', 'tr fan', '')
    >>> name_given("called a v-st"), name_given("hereafter called shell")
    ('v-st', 'shell')
    """
    found = _GIVEN.fullmatch(low.strip(" .\"'"))
    return found["name"] if found else ""


#: What leads to a list called a pattern, what may stand between, what it is called, and what opens it.
_AGAIN = frozenset(("repeat", "rep", "repeating", "work", "working", "follow", "following", "continue", "continuing", "cont", "keep", "using", "in"))
_BETWEEN = frozenset(("the", "this", "a", "same", "with", "following", "on", "in", "stitch", "st", "simple", "basic", "to", "work", "working", "repeat", "repeating", "of"))
_LIST_NAMES = frozenset(("pattern", "patt", "sequence", "order", "rhythm", "series"))
_OPENS = frozenset(("of", ":", "-"))


def told_pattern(words: list[Word]) -> None:
    """Give "repeat the pattern of" the form of "repeat:", where work follows it."""
    for at, word in enumerate(words):
        if word.text not in _AGAIN or word.inside is not None:
            continue
        end = at + 1
        while end < len(words) and words[end].text in _BETWEEN:
            end += 1
        if end + 1 >= len(words) or words[end].text not in _LIST_NAMES or words[end + 1].text not in _OPENS:
            continue
        if not any("STN" in w.kinds or "CHREF" in w.kinds or w.text in ("ch", "inc", "dec") for w in words[end + 2 : end + 6]):
            continue
        word.text, words[end + 1].text = "repeat", ":"
        del words[at + 1 : end + 1]
        return


#: What leads to the place where a clause begins.
_LEADS_IN = frozenset(("starting", "beginning", "start", "begin", "beg", "commencing", "from"))


def noted_behind(words: list[Word]) -> list[Word]:
    """The words with a settled bracket between the place that a clause begins in and its work put behind that work:
    "starting in 3rd ch from hook (skipped chs count as a st), hdc in each ch"."""
    for at in range(1, len(words) - 1):
        if not {"NOTED", "COUNTSAS"} & words[at].kinds.keys() or words[at + 1].text != ",":
            continue
        start = next((n + 1 for n in range(at - 1, -1, -1) if words[n].is_sign), 0)
        if words[start].text not in _LEADS_IN:
            continue
        end = next((n for n in range(at + 2, len(words)) if words[n].is_sign), len(words))
        return [*words[:at], *words[at + 1 : end], words[at], *words[end:]]
    return words


#: "2 sc", "2 sc each": what a bracket may say again.
_SAID_AGAIN = when_used(r"(?P<n>\d) ?x? ?(?P<k>s ?c|h ?d ?c|d ?c|h ?tr|tr|sts?)(?: each)?")
#: "1xsc, 1x2sc", "2 sc, 1 inc": what comes again, each with how often.
_AMOUNT = r"\d ?x? ?(?:\d ?)?(?:sc|hdc|dc|htr|tr|sts?|inc|dec)"
_WHAT_REPEATS = when_used(rf"{_AMOUNT}(?: ?[,+&] ?{_AMOUNT}){{1,3}}")
_GOES_ALONG = when_used(r"\b(?:around|across|round|repeat|rep|to (?:the )?end)\W*$")


def says_again(low: str, before: str) -> bool:
    """Whether a bracket says once more how many stitches the clause right before it makes in one place, or of what that
    consists which is told to the row's end.

    >>> says_again("2sc", "ch 1, 2 sc in each st "), says_again("18 sc", "ch 1, 2 sc in each st ")
    (True, False)
    """
    low = low.strip(" .")
    if _WHAT_REPEATS.fullmatch(low) is not None and _GOES_ALONG.search(before):
        return True
    said = _SAID_AGAIN.fullmatch(low)
    if said is None:
        return False
    same = rf"\b{said['n']} ?(?:{said['k']}|sts?)\b (?:in|into) (?:the )?(?:each|every|all|next|same|first|last)\b[^,;.*()\[\]]{{0,24}}$"
    return re.search(same, before.rstrip()) is not None
