"""Words that no clause takes: talk is kept out of the way, what names work is complained of, the rest noted."""

from __future__ import annotations

import functools
import re
from collections.abc import Sequence
from itertools import pairwise
from pathlib import Path
from typing import Any

from ...made_late import replace
from .. import lexicon
from ..tree import Into, Make, Skip, Times, walk
from ..when_used import when_used
from .complaint import Complaint
from .first_stitch import just_below, lies_below_the_hook
from .items import GAP, LOST, Item, RowRead, is_clause
from .prose import is_prose, talks
from .talk.judge import words_of
from .talk.said_as_talk import hides_work
from .words import Word

#: Words that name work: none of them may be passed over inside a row.
_WORK_KINDS = frozenset(
    ("STN", "ST", "CH", "SP", "LP", "CHSP", "CHREF", "GRP", "ORD", "NUM", "NEXT", "EACH", "LAST", "FIRST", "GROUP",
     "GATHERED", "PICOT", "CORNER", "SKIP", "OWN", "TOGN", "INC", "DEC", "TCH", "SKIPPED", "MESH", "BL", "FL", "TL",
     "ROW", "RND", "POST", "RING", "TWICE", "HELD", "GAP", "HOLE", "BEGCH", "OTHER", "TIMES", "REPEAT", "ALLBUT",
     "ADDW")
)  # fmt: skip


@functools.cache
def _remarks() -> tuple[re.Pattern[str], ...]:
    page = Path(__file__).with_name("remarks.txt").read_text("utf-8")
    return tuple(when_used(line) for line in page.split("\n") if line.strip() and not line.startswith("#"))


class Leftovers:
    """Goes through the items of a row and says what became of every word."""

    def __init__(self, out: RowRead, text: str, low: str, terms: str) -> None:
        self.out, self.text, self.low, self.terms = out, text, low, terms

    def without_prose(self, items: list[Item], words: list[Word]) -> list[Item]:
        """Sentences that hold words no clause takes, and are no work, are kept out of the way."""
        if not any(item.value is LOST for item in items):
            return items
        out: list[Item] = []
        counted = False
        for sentence in _sentences(items, words):
            lost = [i for i in sentence if i.value is LOST]
            if counted and lost and not self._is_aside(sentence, words):
                first, last = words[sentence[0].first], words[sentence[-1].last - 1]
                self.out.prose.append(self.text[first.start : last.end].strip())
                continue
            counted = counted or any(isinstance(i.value, tuple) and i.value[0] == "counted" for i in sentence)
            if lost:
                first, last = words[sentence[0].first], words[sentence[-1].last - 1]
                low = self.low[first.start : last.end].strip()
                if is_prose(low) and not _hides_work(low) and (talks(low) or not self._swallows(sentence, words, lost)):
                    self.out.prose.append(self.text[first.start : last.end].strip())
                    out += [i for i in sentence if isinstance(i.value, tuple) and i.value[0] == "counted"]
                    continue
            out += sentence
        return out

    def _is_aside(self, sentence: list[Item], words: list[Word]) -> bool:
        """Whether a sentence behind the row's count is work all the same: most of it is read."""
        taken = sum(i.last - i.first for i in sentence if is_clause(i.value))
        lost = sum(1 for i in sentence if i.value is LOST and words[i.first].text[:1].isalnum())
        first = words[sentence[0].first].text
        return taken > lost and first in (
            "ch",
            "turn",
            "join",
            "sl",
            "ss",
            "sc",
            "dc",
            "hdc",
            "tr",
            "sk",
            "skip",
            "miss",
            "with",
            "do",
            "rep",
            "repeat",
            "fasten",
            "work",
            "working",
            "then",
            "now",
            "next",
            "continue",
            "rotate",
            "*",
        )

    def _swallows(self, sentence: list[Item], words: list[Word], lost: list[Item]) -> bool:
        """Whether a sentence is mostly work that is taken, or begins by saying rows again: it is no prose, whatever its
        words."""
        if is_clause(sentence[0].value) and sentence[0].value[0] == "rows":
            return True
        taken = sum(
            i.last - i.first
            for i in sentence
            if is_clause(i.value) and i.value[0] in ("make", "chain", "skip", "repeat", "group", "into")
        )
        return taken > 2 * sum(1 for i in lost if words[i.first].text[:1].isalpha()) + 2

    def complain(self, items: list[Item], words: list[Word]) -> None:
        """A complaint for every stretch of words that no clause takes; a note where they name no work."""
        at = 0
        while at < len(items):
            if items[at].value is not LOST:
                at += 1
                continue
            end = at
            while end < len(items) and (
                items[end].value is LOST
                or (
                    items[end].value is GAP
                    and items[end].first < len(words)
                    and words[items[end].first].text not in (",", ".", ";")
                )
            ):
                end += 1
            lost = [i for i in items[at:end] if i.value is LOST]
            clause = self._clause_around(words, lost[0].first, lost[-1].first)
            while end < len(items) and items[end].first < clause[1]:
                if items[end].value is LOST:
                    lost.append(items[end])
                end += 1
            first, last = words[lost[0].first], words[lost[-1].first]
            said = self.text[first.start : last.end]
            if names_work(words[clause[0] : clause[1]]) or self._stands_for_work(words, lost):
                complaint = self._complaint(words, lost, said)
                idle = _retold(words, items, lost) or _tail_of_talk(words, items, lost)
                aside = idle or _named_aside(words, items, lost) or _lead_of_talk(words, items, lost)
                if len(lost) == 1 and ends_with(words, lost[0].first):
                    idle = aside = False
                self.out.complaints.append(replace(complaint, aside=aside, idle=idle))
            else:
                self.out.notes.append((said, first.start))
                self.out.passed.append((first.start, last.end))
            at = end

    def doubt(self, items: list[Item], words: list[Word]) -> None:
        """A complaint for a place that lies "1 row below" or only "below", and for work along a post."""
        begins = True
        for item in items:
            if not is_clause(item.value):
                continue
            work = tuple(o for o in item.value[1] if isinstance(o, Make | Into | Skip))
            first_work, begins = begins and bool(work), begins and not work
            for op in walk(work):
                for place in getattr(op, "places", ()):
                    if just_below(op, place) or (first_work and lies_below_the_hook(place)):
                        continue
                    first, last = words[item.first], words[item.last - 1]
                    if place.row is not None and place.row.below in _DOUBTS and item.value[0] != "into":
                        says, remedy = _DOUBTS[place.row.below]
                        self.out.complaints.append(
                            Complaint(
                                first.start,
                                last.end,
                                says,
                                remedy,
                                "not notation" if place.row.below == -2 else "ambiguous",
                            )
                        )
                    elif place.which == "along post":
                        said = self.text[first.start : last.end]
                        says = f'stitches worked down along a post ("{said}") have no place in the row'
                        remedy = "work this row from its words: this tool draws stitches round a post, not along one"
                        self.out.complaints.append(Complaint(first.start, last.end, says, remedy))

    def _stands_for_work(self, words: list[Word], lost: list[Item]) -> bool:
        """Whether an unknown word alone in its clause may be the name of a stitch: it is short, or stands where a
        stitch would."""
        first = lost[0].first
        following = words[lost[-1].first + 1].text if lost[-1].first + 1 < len(words) else ""
        before = words[first - 1].text if first else ""
        bare = len(lost) == 1 and before in ("", ",", ";", ".", ":") and following in ("", ",", ";", ".")
        ends = following in ("", ",", ";", ".") or words[lost[-1].first + 1].inside is not None
        if len(lost) == 1 and ends and ends_with(words, first):
            return True
        return (bare and words[first].text.isalpha() and _may_name_a_stitch(words[first].text)) or following in (
            "in",
            "into",
            "around",
            "over",
            "across",
        )

    def _clause_around(self, words: list[Word], first: int, last: int) -> tuple[int, int]:
        start = first
        while start and words[start - 1].text not in (",", ";", ".", ":", "!"):
            start -= 1
        end = last + 1
        while end < len(words) and words[end].text not in (",", ";", ".", ":", "!"):
            end += 1
        return start, end

    def _complaint(self, words: list[Word], lost: list[Item], said: str) -> Complaint:
        first, last = words[lost[0].first], words[lost[-1].first]
        foreign = next((w for i in lost if (w := words[i.first]) and lexicon.foreign(w.text, self.terms)), None)
        if foreign is not None:
            return _foreign(foreign, self.terms)
        following = words[lost[0].first + 1].text if lost[0].first + 1 < len(words) else ""
        if (
            first.text.isalpha()
            and not first.kinds.keys() - {"ANYWORD"}
            and (following in ("in", "into", "around", "over", "across") or self._stands_for_work(words, lost))
        ):
            word = self.text[first.start : first.end]
            says = f'"{word}" is neither a stitch this tool knows nor one the pattern explains'
            remedy = f'explain it above the rows ("{word.upper()}: ..."), or use a usual abbreviation'
            return Complaint(first.start, first.end, says, remedy, unknown=word, lost=True)
        if "REPEAT" in first.kinds and any(
            w.text in ("*", "**", "from") for w in words[lost[0].first : lost[0].first + 3]
        ):
            says = '"rep from *" but no * stands before it in this row'
            return Complaint(first.start, last.end, says, "put * where the repeat begins")
        says = f'"{" ".join(said.split())}" cannot be read as something to work'
        return Complaint(first.start, last.end, says, 'say what to work and where, as "sc in next st"', lost=True)


#: How longer words end that say when or how something is done, or are of many things, as a piece's name is, and name no stitch.
_SAYS_WHEN = when_used(r"(?:ly|ing|ed|wise|wards?|ever|while|after|out|fore|ment|tion|ness|ity|ies|ious|ful|able|ible|less|ings|self|selves|where|ways?|(?<!s)s)$")
_TALKED = ("LEAD", "PERSON", "THING", "STATE", "FEELS", "HAND", "HELD", "MINDS", "ASKS", "HOW", "UNIT", "COUNTED", "NOWADAYS", "AIMS", "HELP")


def _may_name_a_stitch(word: str) -> bool:
    """Whether an unknown word alone between two signs may be a stitch: any short one, and a longer one that is built as no
    word of talk is."""
    if len(word) <= 6:
        return True
    return not _SAYS_WHEN.search(word) and not any(word in words_of(kind) for kind in _TALKED)


def ends_with(words: Sequence[Word], at: int) -> bool:
    """Whether a word is what a row is said to end with: "ending with a flurb", which is a stitch and no yarn."""
    before = [w.text for w in words[max(at - 3, 0) : at]]
    if before and before[-1] in ("a", "an", "one", "1"):
        before = before[:-1]
    return len(before) > 1 and before[-1] in ("with", "in", "on") and before[-2] in ("ending", "end", "ends", "finishing", "finish")


_DOUBTS: dict[int, tuple[str, str]] = {
    -2: ("the number of stitches stands behind the row", 'put the number first, as "next 2 sts 3 rows below"'),
    -3: (
        '"skipped" behind the stitches does not say in which row they lie',
        'write "in next 2 skipped sts 3 rows below"',
    ),
    1: (
        '"1 row below" may be the row just worked, or the one under it',
        'leave it out for the row just worked, or write "2 rows below" for the one under it',
    ),
    -1: ('"below" does not say how many rows further down', 'write "2 rows below", or name the row, as "of Row 1"'),
}


def _sentences(items: list[Item], words: list[Word]) -> list[list[Item]]:
    """Items by sentence: up to a full stop or an exclamation, or a stated count."""
    out: list[list[Item]] = [[]]
    for item in items:
        counted = isinstance(item.value, tuple) and item.value[0] == "counted"
        if counted and out[-1]:
            out.append([item])
            out.append([])
            continue
        out[-1].append(item)
        if (item.value is GAP and words[item.first].text in (".", "!", "?")) or (
            item.value is LOST and words[item.first].text in ("!", "?")
        ):
            out.append([])
    return [s for s in out if s]


def _hides_work(low: str) -> bool:
    """Whether a sentence, or a clause of it, tells work though it is said as talk is."""
    return any(hides_work(clause) for clause in (low, *re.split(r"[,;:]|\s-+\s", low)))


#: What a tail that is no work begins with: what the row is for, which stitches they are, what comes of it.
_LEADS = frozenset(("for", "of", "in", "on", "along", "as", "which", "that", "so", "considered", "considering", "like", "because", "since"))
#: Of these, what tells a place, and so must stand behind one.
_TELLS_PLACE = frozenset(("of", "in", "on", "along"))
#: Words that say where or how something is worked, further along, or otherwise than plainly.
_SAYS_HOW = frozenset(
    ("BELOW", "BEFORE", "AFTER", "BETWEEN", "BEHIND", "INFRONT", "UNDERW", "FRONTW", "BACKW", "POSTW", "TOP", "BASE", "MIDDLE", "TIP",
     "MARKER", "TOG", "LEFTUN", "MISSEDW", "REM", "HALF", "TURN", "JOIN", "NOTURN", "NOJOIN", "FASTEN", "CHANGE", "SKIPPING", "WITHOUTW",
     "EXCEPT", "LEAVE", "INCLUDING", "UNTILHAVE", "TO", "WITHIN", "MEASURE", "REPLACING", "INPLACE", "ENDING", "EVENLY", "ALTERNATELY",
     "PREV", "WITH", "NOT", "MORE", "FEWER", "ONLY")
)  # fmt: skip
_HOW = when_used(
    r"\b(?:back|revers|twist|cross|sideway|diagon|horizont|vertic|upside|inside|outside|under|over|beneath|behind|front|through(?!out)|doubl|tripl|"
    r"twice|extra|longer|shorter|opposite|hook|strand|bar|bump|ridge|leg|rib|elongat|extend|spike|hold(?!er))"
)
_MOST_ASIDE = 8


def _named_aside(words: Sequence[Word], items: Sequence[Item], lost: Sequence[Item]) -> bool:
    """Whether words that no clause takes are a tail that names no work: "for the scallop", "of foundation", "in all rounds",
    behind a clause that says where it goes, or a clause of their own. They hold no number, no stitch and no place but
    the row itself, and say nothing of how it is worked."""
    first, last = lost[0].first, lost[-1].first
    said = words[first : last + 1]
    ends = _ends_clause(words, last)
    lead = "so" if first and words[first - 1].text == "so" else said[0].text
    if not ends or len(said) > _MOST_ASIDE or lead not in _LEADS or any(w.inside is not None for w in said):
        return False
    aim = lead in ("for", "as", "like")
    allowed = {"ROW", "RND", "EACH"} | ({"GROUP", "CORNER", "RING"} if aim else set())
    names = any(not (_WORK_KINDS | _SAYS_HOW).isdisjoint(_own_kinds(w) - allowed) or _HOW.search(w.text) for w in said[lead == said[0].text :])
    if len(said) < 2 or names or any(ch.isdigit() for w in said for ch in w.text):
        return False
    before = next((item for item in reversed(items) if item.last <= first and item.value is not GAP), None)
    alone = first == 0 or words[first - 1].text in (",", ";", ".", ":")
    if alone or lead not in _TELLS_PLACE:
        return alone or (before is not None and is_clause(before.value))
    return before is not None and is_clause(before.value) and _says_where(before.value[1])


#: What words that tell a place again begin with.
_RETELLS = frozenset(("of", "from", "on", "made", "worked", "that", "which", "you", "formed", "left", "in"))
#: Of what they may speak: the row below, and what was worked there.
_RETOLD = frozenset(
    ("ROW", "RND", "PREV", "FIRST", "LAST", "BEG", "BEGCH", "STN", "ST", "CH", "CHREF", "CHV", "GROUP", "GATHERED", "GRP", "CHSP", "SP",
     "SLSTW", "SL_ST", "MADEW", "SOFT", "ANYWORD", "OWN", "OTHER", "TCH", "CORNER", "RING")
)  # fmt: skip
#: Which of a row's places are single ones, which more words about them do not make fewer.
_SINGLE = frozenset(("same", "first", "last", "next", "top", "middle", "nth"))


def _retold(words: Sequence[Word], items: Sequence[Item], lost: Sequence[Item]) -> bool:
    """Whether words that no clause takes only tell a place again, right behind a clause that tells it: "sl st in same loop
    as before *worked at the beginning*", "2 dc in same sp *of first 2 dc*", "in each st *of row below*". A place of many
    may be told by its row only, as "of the group" would make it fewer."""
    first, last = lost[0].first, lost[-1].first
    said = words[first : last + 1]
    before = _placed_before(items, first)
    if before is None or not _ends_clause(words, last) or len(said) > _MOST_ASIDE or said[0].text not in _RETELLS:
        return False
    kinds = [_own_kinds(w) for w in said]
    others = (_WORK_KINDS | _SAYS_HOW) - _RETOLD
    if any(w.inside is not None or _HOW.search(w.text) for w in said) or any(not others.isdisjoint(k) for k in kinds):
        return False
    single = _goes_to_one(before.value[1])
    rows_only = any(not {"ROW", "RND"}.isdisjoint(k) for k in kinds) and not any(_NUMBERED.intersection(k) for k in kinds)
    return rows_only or (single and len(said) > 1)


def _tail_of_talk(words: Sequence[Word], items: Sequence[Item], lost: Sequence[Item]) -> bool:
    """Whether words that no clause takes stand between a clause that says where its work goes and the next sign, and are
    none of work's: "sc in each st *throughout*", "18 sc around *on the leg*"."""
    first, last = lost[0].first, lost[-1].first
    noun_missing = not _TELLS_WHICH.isdisjoint(words[first - 1].kinds) if first else True
    return not noun_missing and _ends_clause(words, last) and _placed_before(items, first) is not None and _is_talk(words[first : last + 1])


#: Behind these words stands what is worked into: an unknown word there is a place, and no talk.
_TELLS_WHICH = frozenset(("NEXT", "EACH", "FIRST", "LAST", "ORD", "NUM", "SAME", "OTHER", "ANY", "BOTH", "OF"))


def _ends_clause(words: Sequence[Word], last: int) -> bool:
    """Whether a word is the last before a sign, a bracket or the row's end."""
    return last + 1 >= len(words) or words[last + 1].text in (",", ";", ".", ":", "!") or words[last + 1].inside is not None


def _placed_before(items: Sequence[Item], first: int) -> Item | None:
    """The clause that ends right before a word, if it says where its work goes."""
    before = next((item for item in reversed(items) if item.last <= first), None)
    placed = before is not None and before.last == first and is_clause(before.value) and _says_where(before.value[1])
    return before if placed else None


def _lead_of_talk(words: Sequence[Word], items: Sequence[Item], lost: Sequence[Item]) -> bool:
    """Whether words that no clause takes lead up to a clause of work, and are none of work's: "*keep going* 2 dc in next st".
    Not to chains, which a row's count does not tell."""
    first, last = lost[0].first, lost[-1].first
    begins = first == 0 or words[first - 1].text in (",", ";", ".", ":", "!") or words[first - 1].inside is not None
    behind = next((item for item in items if item.first > last), None)
    if not begins or behind is None or behind.first != last + 1 or not is_clause(behind.value):
        return False
    names = not {"NUM", "STN", "OWN", "SLSTW"}.isdisjoint(_own_kinds(words[behind.first]))
    chains = any(not {"CH", "CHREF"}.isdisjoint(_own_kinds(w)) for w in words[behind.first : behind.first + 2])
    return names and not chains and _is_talk(words[first : last + 1])


def _is_talk(said: Sequence[Word]) -> bool:
    """Whether words name no stitch, place or number and say nothing of how it is worked."""
    if len(said) > _MOST_ASIDE or any(w.inside is not None or not w.text[:1].isalpha() for w in said):
        return False
    kinds = _WORK_KINDS | _SAYS_HOW | {"LETTER"}
    if any(lexicon.stitch_name(w.text, terms) for w in said for terms in ("US", "UK")):
        return False
    return not any(not kinds.isdisjoint(_own_kinds(w)) or _HOW.search(w.text) or any(c.isdigit() for c in w.text) for w in said)


#: What would make a place of many fewer.
_NUMBERED = frozenset(("NUM", "STN", "ST", "CH", "CHREF", "CHSP", "SP", "GROUP", "GATHERED", "GRP", "CORNER", "FIRST", "LAST", "BEG"))


def _goes_to_one(ops: Any) -> bool:
    """Whether the last work of a clause goes into one single place."""
    last = ops[-1] if ops else None
    if not isinstance(last, Make | Into | Skip):
        return True
    places = last.places if isinstance(last, Make | Into) else ()
    return bool(places) and places[-1].which in _SINGLE and places[-1].count == 1


def _says_where(ops: Any) -> bool:
    """Whether a clause says itself where its work goes."""
    last = ops[-1] if ops else None
    if isinstance(last, Times) and last.times == 1:
        return _says_where(last.ops)  # "(2 dc, ch 1, 2 dc) in ...": where is still to come
    return bool(getattr(last, "places", ())) if isinstance(last, Make | Into | Skip) else last is not None


def names_work(words: Sequence[Word]) -> bool:
    return any(not _WORK_KINDS.isdisjoint(_own_kinds(w)) or (w.inside is not None and "BRK" in w.kinds) for w in words)


def _own_kinds(word: Word) -> set[str]:
    return set() if "SOFT" in word.kinds else set(word.kinds)


def _foreign(word: Word, terms: str) -> Complaint:
    other = lexicon.foreign(word.text, terms) or ("US" if terms == "UK" else "UK")
    us = lexicon.stitch_name(word.text, other) or word.text
    shown = lexicon.show_stitch(us, terms)
    return Complaint(
        word.start, word.end, f'"{word.text}" is a {other} term in a pattern in {terms} terms',
        f'write "{shown}" if that is the stitch meant, or put the whole pattern in {other} terms',
    )  # fmt: skip


_TOUCHES = when_used(
    r"\b(?:next|each|every|first|same|into?|\d+|two|three) (?:\d+ )?(?:sts?|sc|hdc|dc|tr|ch|chs|sps?|loops?|stitch(?:es)?|chains?)\b"
)
#: "You should be back at the 3 ch you began with": where the hook is by now.
_ARRIVES = when_used(r"^(?:you|we|this|that|it|when|once|as soon as)\b.*\b(?:back|end up|arrive) (?:again )?(?:at|to|where|by)\b")
#: What each row has more or fewer than the one before: "adding two stitches each row".
_GROWTH = when_used(r"^(?:(?:you )?add(?:ing)? |.*\b(?:more|less|fewer|extra)\b).*\b(?:each|every|per) (?:rows?|rnds?|rounds?|time)$")
_MARKED = when_used(r"stuff.{0,60}\b(?:left|to go|remain)|mark|pm\b|pin\b|made|complet|formed|skipped|missed|count|eyes?\b|tail|between|apart|placing m\b|^(?:to|thus|so|so as to) (?:mak|form|creat|giv|hav|get)")


_THING = r"(?:\d+|one|two|three|four|five|six|seven|eight|nine|ten|twelve) (?:[a-z]+(?:-[a-z0-9]+)*)(?: (?:sts?|sps?|lps?|stitch(?:es)?|spaces?|loops?|groups?))?|ch[- ]?\d+(?: sps?)?"
#: "Each side now reads 2 tr, 3 dc, 2 tr": what a part of the round holds. It is a check, and makes nothing.
_READS = when_used(
    r"(?:(?:each|every|one|the|all|any|your) )?(?:of the )?(?:\w+ )?(?:sides?|edges?|corners?|points?|petals?|sections?|wedges?|repeats?) "
    r"(?:(?:now|then|should|will|must|ought to) ){0,2}(?:reads?|ha(?:s|ve)|shows?|counts?|consists? of|contains?|holds?|looks? like)(?: now)?:? "
    rf"(?:{_THING})(?:(?:, and | and |, |, then | then | - )(?:{_THING}))*"
)


def _reading(words: list[Word], at: int, low: str) -> tuple[float, int, Any] | None:
    """A sentence that says what a part of the round holds."""
    if at and words[at - 1].text not in (".", ";", "!", ":") and words[at - 1].inside is None:
        return None
    end = at
    while end < len(words) and words[end].text not in (".", ";", "!") and words[end].inside is None:
        end += 1
    said = re.sub(r"\s+", " ", low[words[at].start : words[end - 1].end] if end > at else "")
    return (0.3, end, ("noted", said)) if _READS.fullmatch(said) else None


#: "Pull loop through" behind "insert hook in next st".
_LOOP_UP = when_used(r"(?:pull|draw)(?:ing)? (?:(?:up|through|an?|the|your) )*(?:loop|lp|yarn|thread|wool)(?: (?:up|through|back through))?")
_HOOK_IN = when_used(r"\b(?:insert(?:ing)?|put(?:ting)?) (?:(?:the|your) )?hook\b[^.;*]*$")


def remark(words: list[Word], at: int, low: str) -> tuple[float, int, Any] | None:
    """A clause of the closed list of remarks that begins at a word."""
    if not words[at].text[:1].isalpha() or (at and words[at].text != "but" and not (_begins(words, at) or words[at].begins_line) and not _tells_aim(words, at) and not _behind_the_end(words, at) and not _in_colours(words, at)):
        return None
    reads = _reading(words, at, low)
    if reads is not None:
        return reads
    end = at
    while end < len(words) and words[end].text not in (",", ";", ".", ":", "!") and words[end].inside is None:
        if end > at and (_chains(words, end) or _goes_on_to_work(words, end)):
            break
        end += 1
    while end > at + 1 and words[end - 1].text in ("then", "and"):
        end -= 1
    said = re.sub(r"\s+", " ", low[words[at].start : words[end - 1].end] if end > at else "")
    if _TOUCHES.search(said) and not any(told.search(said) for told in (_MARKED, _GROWTH, _ARRIVES)):
        return None
    if _LOOP_UP.fullmatch(said) and _HOOK_IN.search(low, 0, words[at].start):
        return None  # a move of a stitch that is told by its moves
    return (1.2, end, ("noted", said)) if _is_remark(said) and not hides_work(said) else None


@functools.lru_cache(maxsize=4096)
def _is_remark(said: str) -> bool:
    """Whether a clause is one of the closed list of remarks; rows of a page say the same clauses again and again."""
    return any(pattern.fullmatch(said) for pattern in _remarks())


def _behind_the_end(words: list[Word], at: int) -> bool:
    """Whether a word goes on from "fasten off": "finish off with a long tail for sewing"."""
    return at > 1 and words[at].text == "with" and words[at - 1].text == "off" and words[at - 2].text in ("fasten", "finish", "cut", "tie")


def _chains(words: list[Word], at: int) -> bool:
    """Whether chains are made at a word: "with the larger hook ch 23", and not "back to the 3 chains"."""
    following = words[at + 1].text if at + 1 < len(words) else ""
    if at and words[at - 1].text in ("of", "the", "first"):
        return False
    return "CHREF" in words[at].kinds or (words[at].text in ("ch", "chain") and following.isdigit()) or (
        words[at].text.isdigit() and following in ("ch", "chs", "chains")
    )


def _goes_on_to_work(words: list[Word], at: int) -> bool:
    """Whether "and" joins work to what stands before: "pull the ring tight and sl st in ...", or another yarn, "drop A and
    pick up B"."""
    following = words[at + 1].kinds if at + 1 < len(words) else {}
    yarn = not _TAKES_YARN.isdisjoint(following) and any({"LETTER", "COLOURW"} & w.kinds.keys() for w in words[at + 2 : at + 4])
    return words[at].text in ("and", "then") and (yarn or not {"STN", "SLSTW", "TURN", "CHREF"}.isdisjoint(following))


_TAKES_YARN = frozenset(("FETCH", "CHANGE", "JOININGW", "JOIN"))


def _tells_aim(words: list[Word], at: int) -> bool:
    """Whether a clause is told the aim of: "ch 1 to make a knot", "sl st in first st to form the last ch-4 sp"."""
    following = words[at + 1].text if at + 1 < len(words) else ""
    return words[at].text == "to" and following in ("make", "form", "create", "complete")


#: How a row is said to keep to an order of colours, and what that is called.
_KEEPS_TO = frozenset(("following", "keeping", "maintaining", "continuing", "alternating", "according", "in", "as", "using", "with"))
_COLOURED = frozenset(("stripe", "stripes", "striping", "color", "colors", "colour", "colours", "yarn"))
_ORDER = frozenset(("sequence", "pattern", "order", "scheme", "arrangement", "repeat", "layout", "plan"))


def _in_colours(words: list[Word], at: int) -> bool:
    """Whether a clause goes on by saying in what order its colours come: "rep Row 3 following the stripe sequence"."""
    said = [w.text for w in words[at + 1 : at + 7]]
    return words[at].text in _KEEPS_TO and any(a in _COLOURED and b in _ORDER for a, b in pairwise(said))


def _begins(words: list[Word], at: int) -> bool:
    """Whether a clause may begin here: after a sign, a bracket, "and"."""
    before = words[at - 1]
    return before.text in (",", ";", ".", ":", "-", "and", "then", "!") or before.inside is not None
