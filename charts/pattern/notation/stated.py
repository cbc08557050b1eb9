"""Stated counts: "(25 sts)", "- 12 dc, 4 ch-2 sps", "You should have 20 sc."."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from itertools import pairwise
from typing import Any

from .. import lexicon
from ..lexicon import NUMBER_WORDS
from ..lexicon import number as lexicon_number
from ..tree import Noun, Stated
from ..when_used import when_used
from .complaint import Source
from .engine import Chart, Grammar
from .items import SIGNS, RowRead, copied
from .meanings.parts import Counted
from .words import Word, Words, vocabulary

#: A count among the clauses: its cost, where it ends, what it says.
Way = tuple[float, int, Any]


class CountReader:
    """Reads the counts of one row of words in lower case."""

    def __init__(self, rules: Grammar, page: Words, table: Mapping[str, Any], low: str) -> None:
        self.rules, self.page, self.table, self.low = rules, page, table, low

    def in_bracket(self, words: list[Word], word: Word) -> Counted | None:
        """A stated count in a bracket: "25 sts", "12 dc, 4 ch-2 sps", "24"."""
        if not words or (not any(w.text.isdigit() for w in words) and "NUM" not in words[0].kinds):
            return None
        beside = _chain_beside(words)
        if beside and not _chained_within(self.low[: word.start], words[beside + 1 :]):
            said = self._counts_by_part([copied(w) for w in words[:beside]])
            return Counted(tuple((n + 1, noun) for n, noun in said.parts)) if said and len(said.parts) == 1 else said
        skipped = _row_mentions(self.low, word.start, word.end)
        inner = [copied(w) for w in words if not any(a <= w.start < b for a, b in skipped)]
        tail = next((i for i, w in enumerate(inner) if i and w.text in _COUNTED_IN), len(inner))
        if any(w.text in ("ch", "chs", "chain", "chains", "tch") or "CHREF" in w.kinds for w in inner[tail:]):
            inner = inner[: tail - (inner[tail - 1].text in (",", "not", "and", "-"))]
        for w in inner:
            if w.text in SIGNS:
                w.kinds[SIGNS[w.text]] = [(1, w.text)]
        self.page.lattice(inner)
        low = self.low[word.start : word.end]
        if _PLACED_WORK.search(low):
            return None
        if re.search(
            r"\b(?:per|each|every|on) (?:\w+ )?(?:side|edge|corner|section|wedge|end|point|row|rnd|round)s?\b|fewer|more\b|between",
            low,
        ):
            return Counted(())
        return self._counts_by_part(inner) if inner else Counted(())

    def _counts_by_part(self, words: list[Word]) -> Counted | None:
        """The parts of a count that name what is known; the others say nothing. None where a part is no count."""
        parts: list[tuple[int, Noun]] = []
        start = 0
        for at in range(len(words) + 1):
            if at < len(words) and words[at].text not in (",", ";", "&", "+", "and", "/", "plus", "="):
                continue
            piece = words[start:at]
            start = at + 1
            if not piece:
                continue
            if any(w.text in ("ch", "chain") for w in piece) and not any(
                w.text in ("sp", "sps", "lps", "lp", "loops", "spaces") for w in piece
            ):
                if max((v for w in words for _, v in w.kinds.get("NUM", ())), default=0) < MANY:
                    return None
                chains = next((v for w in piece for _, v in w.kinds.get("NUM", ())), 0)
                parts += [(chains, Noun("ch"))] if chains else []
                continue
            if not any("NUM" in w.kinds for w in piece):
                continue
            said = self._stated_part(piece)
            if said is not None:
                parts.append(said)
        return Counted(tuple(parts))

    def _stated_part(self, words: list[Word]) -> tuple[int, Noun] | None:
        """ "24 dc", "24", "total of 24 sts": one number of one thing."""
        again = self.page.read(self.low[words[0].start : words[-1].end])
        for w in again:
            w.start += words[0].start
            w.end += words[0].start
        self.page.lattice(again)
        chart = Chart(self.rules, again, self.table)
        end = len(again)
        while end and again[end - 1].text in (".", "!"):
            end -= 1
        for at in range(min(6, end)):
            for found in sorted(chart.read("stated", at), key=lambda f: -f[0]):
                rest = [w.text for w in again[found[0] : end]]
                if (
                    len(found[2]) == 1
                    and all(r in _AFTER_COUNT for r in rest)
                    and (
                        at == 0
                        or all(w.text in _AFTER_COUNT or "SOFT" in w.kinds or "TOTAL" in w.kinds for w in again[:at])
                    )
                ):
                    number, noun = found[2][0]
                    return number, noun
        return None

    def clause(self, words: list[Word], at: int) -> Way | None:
        """A count at the row's end with no bracket: ": 20 sc.", "- 18 sts", "You should have 20 sc."."""
        kinds, before = words[at].kinds, words[at - 1].text if at else ""
        said_so = "YOUHAVE" in kinds or ("NUM" in kinds and self._concluded(words, at))
        if not at or not (said_so or "NUM" in kinds or "TOTAL" in kinds) or _colour_before(words, at):
            return None
        if words[at].text == "with" and any(end == at for w in words[:at] for kind in ("MAGIC", "RINGISH") for end, _ in w.kinds.get(kind, ())):
            return None  # "magic ring with 6 sc": that is the work
        if not said_so and _aside_in_work(words, at):
            return None
        if (said_so and _ends_in_work(words, at)) or not (said_so or _works_before(words[:at])):
            return None
        if words[at].text in _AIMS and _works_behind(words, at):
            return None
        total = (before in _ENDS and _total_at_end(words, at)) or _behind_turn(words, at)
        if not (
            said_so or total or before in _SIGNED or before in (".", ",", ";", "!", "(") or words[at - 1].inside is not None
        ):
            return None
        end, last = self._end(words, at)
        if (before == "," and _each_to_end(words, at - 1)) or _closed_behind(words, at, end):
            end = last = next((n for n in range(at, end) if words[n].text == ","), end)
        if end - at >= LONGEST_COUNT:
            return None
        rest = [w for w in words[end:] if w.text not in (".", ";", "!", ",")]
        ends_here = not rest or words[last if last < len(words) else -1].begins_line or _talk_ahead(rest)
        if before in (".", ";") and ends_here and _goes_to_end(words[:at]) and not said_so:
            said = self._said(words, at, end) or self._things(words, at, end)
            return (0.0, last, ("counted", said)) if said is not None else None
        if before == "." and rest and (plain_said := self._sentence_of_stitches(words, at, end)) is not None:
            return (0.0, last, ("counted", plain_said))
        whole = before == "," and words[at - 2].text in _WHOLE_ENDS and (not rest or _ends_row(rest))
        if (before == "," and rest and not whole) or (before == "." and rest and not _ends_row(rest) and not said_so):
            return None
        if before == "," and any(w.text in _SIGNED for w in words[at:end]):
            return None  # "3 sc, 2 dc, 3 sc - 8": the count is what stands behind the sign
        said = self._said(words, at, end) or (self._things(words, at, end) if before in (*_SIGNED, ".") else None)
        if said is None and (whole or before in (*_SIGNED, ".")):
            said = self._in_all(words, at, end)
        if said is None or not self._stands_alone(words, at, last, said, before if not said_so else ""):
            return None
        if before == ",":
            in_all = not rest and any("TOTAL" in w.kinds for w in words[at:end])
            stitches = not rest and end - at == 2 and [noun.name for _, noun in said.parts] == ["st"]  # "6 sc in ring, 6 sts"
            return (0.05 if whole or in_all else 0.6 if stitches else 1.2, last, ("counted", said))
        sure = before in _SIGNED or (before == "." and _turns_then(words, at, last)) or said_so or total or words[at - 1].inside is not None
        return (0.0 if sure else 0.45, last, ("counted", said))

    def _concluded(self, words: list[Word], at: int) -> bool:
        """ "2 dc in each st, so 14": a number behind "so" that ends the row says what comes of work that goes to the end."""
        if words[at - 1].text != "so" or not _goes_to_end(words[: at - 1]):
            return False
        rest = [w for w in words[at + 1 :] if w.text not in (*_TAIL, "st", "sts", "stitches", ".", "!")]
        return not rest or rest[0].begins_line or _ends_row(rest)

    def _sentence_of_stitches(self, words: list[Word], at: int, end: int) -> Counted | None:
        """ "21 stitches." as a sentence of its own, behind work: it says what the row makes."""
        if end >= len(words) or words[end].text not in (".", "!") or not any("NUM" in w.kinds for w in words[at : at + 1]):
            return None
        if not _goes_to_end(words[:at]):
            return None
        said = self._said(words, at, end)
        if said is None or len(said.parts) != 1:
            return None
        return said if said.parts[0][1].name == "st" or _only_yarn(words[end:]) else None

    def _end(self, words: list[Word], at: int) -> tuple[int, int]:
        """Where the words of a count end: without and with the row that it names behind it."""
        end = at
        while end < min(len(words), at + LONGEST_COUNT) and words[end].text not in (".", ";", "!", "turn") and words[end].inside is None:
            if end > at and words[end].begins_line and words[end - 1].text != ",":
                break
            end += 1
        last = end
        mentioned = _row_mentions(self.low, words[at].start, words[end - 1].end) if end > at else []
        while end > at + 1 and any(a <= words[end - 1].start < b for a, b in mentioned):
            end -= 1
        while end > at and words[end - 1].text == ",":
            end -= 1
        return end, max(last if last > end else end, end)

    def _things(self, words: list[Word], at: int, end: int) -> Counted | None:
        """A count of things that are no stitches says nothing of the row."""
        if end > at and _counts_things(self.low[words[at].start : words[end - 1].end]):
            return Counted(())
        return None

    def _in_all(self, words: list[Word], at: int, end: int) -> Counted | None:
        """ "7 dc bumps in all", "12 little bobbles altogether": as many things, called so by the writer alone, as a row holds."""
        if end - at > 1 and _THINGS_IN_ALL.fullmatch(" ".join(self.low[words[at].start : words[end - 1].end].split())):
            return Counted(())
        return None

    def _stands_alone(self, words: list[Word], at: int, end: int, said: Counted, before: str) -> bool:
        """Whether a number of stitches is a count and not something to make."""
        if any(noun.name == "ch" for _, noun in said.parts):  # "join - 21 sc and 21 ch." ends a row; "- 3 ch" may be work
            return before in _SIGNED and len(said.parts) > 1 and all(w.is_sign for w in words[end:])
        if before == "," and _each_to_end(words, at - 1):
            return True
        if before == "." and _turns_then(words, at, end):
            return True
        one = len(said.parts) == 1 and before in (",", ".", ";") and said.parts[0][1].name != "st"
        return not (one and words[at].text.isdigit() and end < len(words) and words[end].text != ".")

    def _said(self, words: list[Word], start: int, end: int) -> Counted | None:
        """The counts that a stretch of words states; None where it is anything else than counts."""
        chart = Chart(self.rules, words[:end] if end < len(words) else words, self.table)
        at = start
        parts: list[tuple[int, Noun]] = []
        while at < end:
            found = max((f for f in chart.read("stated", at) if f[0] <= end), default=None, key=lambda f: f[0])
            if found is not None:
                parts += found[2]
                at = found[0]
            elif parts and words[at].text in ("now", "altogether", ",", "and", ";", "&", "+", "/", "plus", "-", ":", "=", "."):
                at += 1
            elif parts and all(w.text in _TAIL for w in words[at:end]):
                break
            else:
                return None
        return Counted(tuple(parts)) if parts else None


def _turns_then(words: list[Word], at: int, end: int) -> bool:
    """ "... dc in last 8 ch. 64 dc, turn.": so many stitches as a sentence behind the row's end, before it is turned."""
    rest = [w for w in words[end:] if not w.is_sign]
    lifts = [w.text for w in rest if w.text not in ("turn", "work", "ch", "chain") and not w.text.isdigit()]
    many = (lexicon_number(words[at].text) or 0) >= MANY
    return bool(rest) and not lifts and any(w.text == "turn" for w in rest) and many and _goes_to_end(words[:at])


_STITCH_FIRST = when_used(r"(?P<stitch>[a-z]+(?:[ -][a-z]+){0,2}?) ?[:=-]? ?(?P<number>\d{1,4})(?: (?:in all|in total|total|altogether|made))?")


#: What ends a round behind the count of its stitches.
_CLOSES = frozenset(("join", "joining", "ss", "slst", "sl", "slip", "turn", "fasten", "do", "ch", "close"))


#: What also tells the aim of one clause: "2 dc in ring to create 3 dc. Ch 2, ...".
_AIMS = frozenset(("to", "creating", "forming", "producing", "which", "thus", "so", "until", "till"))


def _works_behind(words: list[Word], at: int) -> bool:
    """Whether anything but the row's end is told behind the sentence that a word begins."""
    end = next((n for n in range(at, len(words)) if words[n].text in (".", ";", "!") or words[n].inside is not None), len(words))
    rest = [w for w in words[end:] if not w.is_sign or w.inside is not None]
    return bool(rest) and not _ends_row(rest) and not _only_yarn(rest)


def _closed_behind(words: list[Word], at: int, end: int) -> bool:
    """ "... 8 times. 24 stitches, join.": a number of stitches that begins a sentence, before what ends the round."""
    if words[at - 1].text not in (".", "!", ";"):
        return False
    comma = next((n for n in range(at, end) if words[n].text == ","), end)
    return comma < end and words[comma - 1].text in ("st", "sts", "stitches") and words[comma + 1].text in _CLOSES


def stitch_first(low: str, terms: str) -> Counted | None:
    """A count that names its stitch before the number: "dc 12", "single crochet: 18"."""
    found = _STITCH_FIRST.fullmatch(" ".join(low.split()).strip(" ."))
    if found is None:
        return None
    stitch = lexicon.stitch_name(found["stitch"].replace(" ", ""), terms) or lexicon.long_names(terms).get(found["stitch"])
    return Counted(((int(found["number"]), Noun(stitch)),)) if stitch and stitch != "sl st" else None


#: "(180 dc, counting starting chain as 1 dc)": what is counted in says nothing more.
_COUNTED_IN = frozenset(("counting", "including", "incl", "inclusive", "considering"))
#: "2 dc in next st": what says where something is worked is no count.
_PLACED_WORK = when_used(
    r"\b(?:in|into|over|around)(?: the)? (?:next|same|(?:first|last|each|every)(?: of(?: the)? next)?(?= (?:\d+ )?(?:sts?|sc|h?dc|h?tr|dtr|ch|sps?|lps?|stitch(?:es)?)\b))\b"
)


_SIGNED = (":", "-", "=", "...", ">", "→")
#: What may stand behind a count and says nothing more: "you have 32 now", "there are 18 sts on the round now".
_TAIL = frozenset(("now", "here", "altogether", "total", "in", "on", "all", "the", "your", "this", "round", "rnd", "row", "hook", "so", "far", "again", "still"))
#: "7 dc bumps in all".
_THINGS_IN_ALL = when_used(
    rf"(?:\d+|{NUMBER_WORDS}) (?!(?:in|into|more|times?|rows?|rnds?|rounds?)\b)(?:[a-z][a-z-]*'?s? ){{1,4}}(?:in all|in total|total|altogether|all told)"
)
_AFTER_COUNT = frozenset(
    (
        "total",
        "in",
        "all",
        "made",
        "now",
        "around",
        "across",
        "each",
        "at",
        "end",
        "st",
        "sts",
        "stitches",
        "of",
        "the",
        "row",
        "rnd",
        "round",
        "-",
        ":",
        "count",
        "there",
        "are",
        "should",
        "be",
        "you",
        "have",
        "remain",
        "remaining",
        "left",
        "should",
        "will",
        "worked",
        "so",
        "far",
        "you'll",
        "with",
        "=",
        "total:",
        "a",
        "then",
        "approx",
    )
)

COUNT_LIKE = when_used(
    r"[^a-z]*(?:total|this|that|that's|which|so|we|still|again|got|leaves|brings|equivalent|equals?|to|makes?|making|giv(?:es|ing)|end|you|there|now|should|be|have|st|sts|stitch(?:es)?|count|made|made:|of|will|=|:|-|a|at|the|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|row|rnd|round|r?\d+|\s|,|[.\d()])*\s*(?:\d|one\b|(?:" + NUMBER_WORDS + r")\b)"
)

_MENTION = when_used(
    r"(?:(?:at|after|by|in|on|for)\s+)?(?:the\s+)?(?:(?:end|beginning)\s+of\s+)?(?:last\s+)?(?:the\s+)?\b(?:rows?|rnds?|rounds?|r)\s?\d+(?:\s?-\s?\d+)?|\b(?:at|by) (?:the )?(?:end|close)\b(?: of (?:last |the |this |that |each |every |your )?(?:row|rnd|round))?"
    r"|\b(?:in|on|for|after|around|at) (?:this|that) (?:row|rnd|round|point|stage)\b"
)


def _row_mentions(low: str, start: int, end: int) -> list[tuple[int, int]]:
    """Where a count names rows by their numbers: "at end of Row 12"."""
    return [(start + m.start(), start + m.end()) for m in _MENTION.finditer(low[start:end])]


def work_follows(words: list[Word], at: int) -> bool:
    """Whether stitches are worked behind a bracket in the same row: what it counts is not the row's."""
    joins = False
    for number, word in enumerate(words[at + 1 :]):
        if word.inside is not None:
            continue
        if word.text in (".", "!") or (word.begins_line and not number):
            return False
        joins = joins and word.text not in (",", ";", "-")
        if joins or word.text in ("join", "joining", "close", "sl", "slip", "ss", "slst", "sl-st"):
            joins = True  # "(24 dc), sl st in first dc": where the slip stitch goes is no more work
            continue
        if word.text in ("fasten", "finish", "note", "break", "cut", "!"):
            return False
        kinds = word.kinds
        slip = any(v == "sl st" for _, v in kinds.get("STN", ()))
        joins = slip
        if ("STN" in kinds and not slip) or word.text in (
            "sk",
            "skip",
            "miss",
            "shell",
            "inc",
            "dec",
            "v-st",
            "rep",
            "repeat",
            "cluster",
            "bobble",
        ):
            before = words[at + 1 : words.index(word)]
            return not any(w.text in ("row", "rnd", "rows", "you", "your", "i", "note", "should") for w in before)
    return False


def ends_whole(words: list[Word], at: int) -> bool:
    """Whether the clause before a sign goes to the row's end: "sc in each st around, ..."."""
    return at > 0 and words[at - 1].text in _WHOLE_ENDS


def row_ends(words: list[Word], at: int) -> bool:
    return all(w.is_sign or w.text in ("turn", "join") for w in words[at + 1 :])


#: What begins the closing of a round.
_JOINS = ("join", "joining", "close", "connect", "sl", "slip", "ss", "slst", "sl-st")


def nothing_more(words: list[Word], at: int) -> bool:
    """Whether nothing is worked behind a bracket but a join, and what is done with yarns: "(24 sts made), join. Fasten off."."""
    rest = words[at + 1 :]
    while rest and ((rest[0].is_sign and rest[0].inside is None) or rest[0].text in ("and", "then")):
        rest = rest[1:]
    if rest and rest[0].text in _JOINS:
        end = next((n for n, w in enumerate(rest) if w.text in (".", ";", ",")), len(rest))
        rest = rest[end:]
    return _only_yarn(rest)


_THINGS = when_used(
    r"(?:\d+|one|two|three|four|five|six|seven|eight) (?:[a-z-]+ ?){1,4}(?:(?:,| and) (?:a |\d+ )(?:[a-z-]+ ?){1,5})?"
)

_NO_THINGS = when_used(
    r"\b(?:in|into|next|each|times?|turn|around|across|more|sc|dc|hdc|tr|ch|sk|skip|miss|inc|dec|together|over|mm|cm|to|rep|repeat|x|row|rows|rnds?|rounds?)\b"
)


def _counts_things(low: str) -> bool:
    """Whether words count things that are no stitches: "10 arches", "5 points", "9 arches and a half"."""
    low = " ".join(low.split()).strip(" .")
    return bool(_THINGS.fullmatch(low)) and not _NO_THINGS.search(low.replace("half at each end", "half"))


def _only_yarn(words: Sequence[Word]) -> bool:
    """Whether nothing stands there but what is done with yarns, or lifts the work: "Join B. Break A. Turn.", "Ch 1, turn."."""
    pairs = ((n, {words[n].text, words[n + 1].text}) for n in range(len(words) - 1))
    lift = next((n for n, said in pairs if said & {"ch", "chain", "chs", "chains"} and said & set(_LIFTS)), None)
    if lift is not None and any(w.text in ("turn", "turning") for w in words):
        words = [*words[:lift], *words[lift + 2 :]]
    known = ("join", "break", "cut", "drop", "fasten", "off", "turn", "with", "new", "yarn", "color", "colour", "and", "to", "change", "in", "pick", "up")
    return all(w.is_sign or w.text in known or "LETTER" in w.kinds for w in words)


#: The chains that lift the work to the next row.
_LIFTS = ("1", "2", "3", "4", "5", "6", "7", "8", "one", "two", "three", "four", "five", "six", "seven", "eight")
#: No count of a row is told in so many words.
LONGEST_COUNT = 48
#: What stands before "round 2" where that is the round's name.
_NAMING, _TOLD_BY = frozenset(("for", "in", "of", "from", "on", "after", "to", "and", "through")), {"REPEAT", "SAMEAS", "AS"}
#: The last word of "in each st across", "to end", "around".
_ENDS = frozenset(("end", "across", "around", "round", "along", "join"))
_WHOLE_ENDS = _ENDS | {"row", "rnd"}


def _behind_turn(words: Sequence[Word], at: int) -> bool:
    """ "...; turn 9 sc.", "... hdc in last 6 sc 57 hdc.": nothing but so many stitches behind a row's last turn, or behind
    its last place, where they are too many to be a clause of their own."""
    rest = [w for w in words[at:] if w.text not in (".", "!")]
    whole = len(rest) == 2 and "NUM" in rest[0].kinds and ("STN" in rest[1].kinds or "ST" in rest[1].kinds)
    if not whole or not at:
        return False
    if words[at - 1].text in ("turn", "unworked"):
        return True
    before: list[str] = []
    for word in reversed(words[max(at - 8, 0) : at]):
        if word.is_sign or word.inside is not None:
            break
        before.append(word.text)
    placed = bool({"in", "into", "to", "of", "with"} & set(before))
    counted = (lexicon_number(rest[0].text) or 0) >= MANY and "STN" in rest[1].kinds and words[at - 1].text in ("times", "twice")
    if counted or (rest[1].text in ("sts", "stitches") and (_times_before(words, at) or (placed and _PLACED & set(words[at - 1].kinds)))):
        return True
    many = (lexicon_number(rest[0].text) or 0) >= MANY
    if many and rest[1].text in ("sts", "stitches") and {"INC", "DEC"} & set(words[at - 1].kinds):
        return True
    again = bool(before) and before[-1] in ("rep", "repeat") and {"row", "rows", "rnd", "rnds", "rounds"} & set(before)
    return many and bool(again or ({"STN", "ST"} & set(words[at - 1].kinds) and {"in", "into"} & set(before)))


#: What ends a clause that says where it works.
_PLACED = frozenset(("RING", "STN", "ST", "CH", "SP", "LP", "CHREF", "CHSP", "HOOK", "BEGCH", "TCH"))


def _times_before(words: Sequence[Word], at: int) -> bool:
    """Whether how often something is worked, or the number of a row that is, stands right before: "... x 6 36 sts",
    "repeat rnd 2 36 sts"."""
    before = words[at - 1]
    if before.text in ("times", "time", "twice", "thrice"):
        return True
    return at > 1 and "NUM" in before.kinds and words[at - 2].text in ("x", "*", "row", "rnd", "round", "rd")


#: So many stitches are no clause of their own behind a place, without a sign before them; a bracket with so many of one
#: stitch is a count, also where it tells the chains: "(25 sc, 6 ch)" (our own limit, no source).
MANY = 10


def _goes_to_end(words: Sequence[Word]) -> bool:
    """Whether what stands before goes to the end of the row: a number behind it is its count."""
    return any(
        {"EACH", "ACROSS", "STARRED", "ALL", "SAMEAS", "REPEAT", "INC", "DEC"} & set(w.kinds)
        or any(v != "sl st" for _, v in w.kinds.get("STN", ()))
        or (w.inside is not None and "BRK" in w.kinds)
        for w in words
    )


_WORK = frozenset(("STN", "OWN", "HELD", "GROUP", "GATHERED", "PICOT", "INC", "DEC", "TOGN", "MESH"))
_TOLD = frozenset(("SAMEAS", "REPEAT", "CONTINUE", "EACH", "INPATTERN", "EVENW", "AGAINW", "ACROSS", "AROUND"))


def _colour_before(words: Sequence[Word], at: int) -> bool:
    """Whether a colour stands before a number, with its sign or in a bracket: "CC: 5 sc, MC: 5 sc", "(brown) 6 sc (cream) 6 sc"."""
    before = words[at - 1]
    if before.inside is not None:
        said = " ".join(w.text for w in before.inside.words)
        return any(kind == "COLOURW" for kind, _ in vocabulary().get(said, ())) or any("LETTER" in w.kinds for w in before.inside.words[:1])
    if before.text not in (":", "-"):
        return False
    starts = [n for n in range(max(at - 4, 0), at - 1) if not n or words[n - 1].is_sign or words[n - 1].inside is not None]
    return any(end == at - 1 for n in starts for kind in ("COLOURW", "LETTER") for end, _ in words[n].kinds.get(kind, ()))


def _aside_in_work(words: Sequence[Word], at: int) -> bool:
    """Whether a bracket of talk stands in the middle of what is worked into one place: "in ring work 2 dc, ch 1 (centre) 2 dc"."""
    before = words[at - 1]
    if before.inside is None or "NOTED" not in before.kinds or (_goes_to_end(words[: at - 1]) and _ended(words[: at - 1])):
        return False
    stop = next((n for n in range(at - 2, -1, -1) if words[n].text in (".", ";")), -1)
    chained = any(w.text in ("ch", "chs", "chain", "chains") or "CHREF" in w.kinds for w in words[max(at - 4, stop + 1) : at - 1])
    return chained and at + 1 < len(words) and "STN" in words[at + 1].kinds


def _ended(words: Sequence[Word]) -> bool:
    return bool(words) and words[-1].text in (*_WHOLE_ENDS, "turn", "join")


#: Chains that stand for a stitch are at least so many, and no more.
_LEAST_UPRIGHT, _MOST_UPRIGHT = 2, 6


def _chain_beside(words: Sequence[Word]) -> int:
    """Where "16 dc + ch-3", "16 dc and turning ch" goes on to the beginning chain, counted beside the stitches; else 0."""
    at = next((n for n, w in enumerate(words) if n and (w.text in ("+", "plus", "and", "&") or (w.text == "," and words[n + 1 :] and words[n + 1].text in ("1", "one")))), 0)
    tail = words[at + 1 :] if at else []
    called = any(w.text in ("beg", "beginning", "turning", "starting") for w in tail[:-1])
    while tail and tail[0].text in ("the", "1", "one", "beg", "beginning", "turning", "starting"):
        tail = tail[1:]
    sized = len(tail) == 1 and any(v >= _LEAST_UPRIGHT for _, v in tail[0].kinds.get("CHREF", ()))
    plain = bool(tail) and tail[0].text in ("ch", "chain")
    sized = sized or (plain and len(tail) == 2 and tail[1].text.isdigit() and int(tail[1].text) >= _LEAST_UPRIGHT)
    numbered = len(tail) == 2 and tail[0].text.isdigit() and tail[1].text in ("ch", "chs", "chain", "chains")
    sized = sized or (numbered and _LEAST_UPRIGHT <= int(tail[0].text) <= _MOST_UPRIGHT)
    named = len(tail) == 1 and (tail[0].text in ("tch", "t-ch") or (plain and called))
    return at if sized or named else 0


#: What a row has worked before chains that stand within it.
_WORKED_BEFORE = when_used(rf"(?:\b|(?<=\d))(?:{lexicon.ANY_PLAIN}|sk|skip|miss|crochets?)\b")


def _chained_within(low: str, told: Sequence[Word]) -> bool:
    """Whether chains counted beside stitches, "24 hdc + 6 ch", stand within the row over a thumb or a buttonhole, and are
    not what it begins with. `low` are the row's words before them."""
    number = next((w.text for w in told if w.text.isdigit()), "")
    made = re.finditer(rf"(?<!of )(?<!the )(?<!to )(?<!beg )(?<!in )(?<!into )(?<!first )(?:\bch(?:ain)?s? ?{number}\b|\b{number} ?ch(?:ain)?s?\b)", low)
    return bool(number) and any(_WORKED_BEFORE.search(low[: found.start()]) for found in made)


def _each_to_end(words: Sequence[Word], at: int) -> bool:
    """Whether the clause before a sign goes into each one to the end of the row: nothing is left for "..., 16 sc, turn" to work."""
    start = next((n + 1 for n in range(at - 1, -1, -1) if words[n].text in (",", ";", ".", ":") or words[n].inside is not None), 0)
    return words[at - 1].text in _WHOLE_ENDS and any("EACH" in w.kinds for w in words[start:at])


def _works_before(words: Sequence[Word]) -> bool:
    """Whether anything is worked before: what stands first in a row, as "turn, 3 sc, 2 dc, 3 sc", is no count."""
    return any(w.inside is not None or not (_WORK | _TOLD).isdisjoint(w.kinds) for w in words)


#: More than this is no end of a row, but all of it (common practice, no source).
MOST_AT_END = 12
_LINKS = ("with", "the", "in", "by", "this")
_WHOLE_ROW = ("EACH", "ALL", "ACROSS", "AROUND", "EVENLY")


def _ends_in_work(words: Sequence[Word], at: int) -> bool:
    """Whether "ending with 5 sc" tells what is worked last, and no count: behind a repeat or so many stitches, or with
    the row named. Behind a full stop, or work that goes to the end by itself, it counts."""
    while at and "ENDING" not in words[at].kinds and (words[at].text in _LINKS or {"ROW", "RND"} & set(words[at].kinds)):
        at -= 1
    if not at or "ENDING" not in words[at].kinds:
        return False
    behind = at + 1
    while behind < len(words) and (words[behind].text in _LINKS or {"ROW", "RND"} & set(words[behind].kinds)):
        behind += 1
    row_named = any({"ROW", "RND"} & set(w.kinds) for w in words[at + 1 : behind])
    number = next((v for _, v in words[behind].kinds.get("NUM", ())), 0) if behind < len(words) else 0
    if words[at - 1].text not in (",", ";", "and") or not 0 < number <= MOST_AT_END:
        return False
    thing = words[behind + 1].kinds if behind + 1 < len(words) else {}
    if "STN" not in thing and not row_named:
        return False
    start = next((i + 1 for i in range(at - 2, -1, -1) if words[i].text in (",", ";", ".")), 0)
    before = words[start : at - 1]
    starred = any("STARRED" in w.kinds or "BRK" in w.kinds or "REPEAT" in w.kinds for w in before)
    to_last = any("LAST" in w.kinds for w in before)
    whole = any(not set(_WHOLE_ROW).isdisjoint(w.kinds) or w.text == "end" for w in before)
    return row_named or starred or to_last or not whole


def _total_at_end(words: Sequence[Word], at: int) -> bool:
    """ "Sc around 24", "sc across 24 sts total": a number that ends the row behind its end, with no sign between, is
    a count where it is of nothing or called a total. "Rep round 2" and "as for round 2" name a round."""
    if words[at - 1].text == "round" and (at < 2 or words[at - 2].text in _NAMING or _TOLD_BY & words[at - 2].kinds.keys()):
        return False
    rest = [w.text for w in words[at + 1 :] if w.text not in (".", "!")]
    if len(rest) == 1 and "STN" in words[at + 1].kinds and words[at - 1].text != "join":
        return (lexicon_number(words[at].text) or 0) >= MANY  # "rep from * around 40 sc"
    return not rest or "total" in rest or rest in (["sts"], ["stitches"])


def _talk_ahead(rest: Sequence[Word]) -> bool:
    return rest[0].text in (
        "you",
        "i",
        "your",
        "this",
        "note",
        "it",
        "we",
        "now",
        "weave",
        "sew",
        "measure",
        "rep",
        "repeat",
        "fasten",
        "finish",
    )


def _ends_row(rest: Sequence[Word]) -> bool:
    return rest[0].text in (
        "turn",
        "join",
        "fasten",
        "do",
        "sl",
        "rep",
        "repeat",
        "ch",
        "finish",
        "change",
        "cut",
        "don't",
        "break",
    )


def stated_of(read: RowRead, source: Source, low: str) -> tuple[Stated, ...]:
    """A row's stated counts as parts of the tree."""
    out: list[Stated] = []
    for at, (parts, start, end) in enumerate(read.counts):
        for number, noun in _in_order(parts):
            if any(_told_further_on(noun, number, other, low[end : other[1]]) for other in read.counts[at + 1 :]):
                continue
            place = _place_of(low, next(n for n, other in parts if other == noun), start, end)
            stop = _part_end(low, place, end) if place >= 0 else end
            words = low[place:stop] if place >= 0 else f"{number}"
            span = source.span(place, stop) if place >= 0 else source.span(start, end)
            out.append(Stated(number, noun, words, at=span))
    return tuple(out)


def _in_order(parts: tuple[tuple[int, Noun], ...]) -> list[tuple[int, Noun]]:
    """A count told from one end of the row to the other, "4 hdc, 3 crossed dc, 4 hdc", with what comes again added up."""
    nouns = list(dict.fromkeys(noun for _, noun in parts))
    beside = any(one == other for (_, one), (_, other) in pairwise(parts))  # "16 sts, 17 sts, 8 sps": one or the other
    if len(parts) < 3 or not 1 < len(nouns) < len(parts) or beside:
        return list(parts)
    return [(sum(n for n, other in parts if other == noun), noun) for noun in nouns]


#: Work between two counts of a row.
_WORK_BETWEEN = when_used(rf"\b(?:{lexicon.ANY_PLAIN})\b[^.;]{{0,30}}\b(?:in|into|around|across|along)\b|\b(?:in|into|around|across|along)\b[^.;]{{0,30}}\b(?:{lexicon.ANY_PLAIN})\b")


def _told_further_on(noun: Noun, number: int, other: tuple[tuple[tuple[int, Noun], ...], int, int], between: str) -> bool:
    """Whether a count is one on the way, behind which the row goes on to another count of the same: "sc in each ch (4 sc),
    working on the other side of ch, sc in each ch (8 sc)"."""
    more = any(noun == again and number < count for count, again in other[0])
    return more and _WORK_BETWEEN.search(between) is not None


def counts_each(stated: tuple[Stated, ...], rows: int) -> bool:
    """Whether counts are those of a run's rows one by one: as many as there are rows, all of the same thing."""
    return len(stated) == rows > 1 and len({part.noun for part in stated}) == 1


def _place_of(low: str, number: int, start: int, end: int) -> int:
    """Where a number of a stated count stands in the row's text; -1 where it is written in words."""
    found = re.search(rf"(?<!\d){number}(?!\d)", low[start:end])
    return start + found.start() if found else -1


def _part_end(low: str, place: int, end: int) -> int:
    """Where the part of a count ends that begins at `place`: before a sign or a closing bracket."""
    found = re.search(r"[,;)\]}&+]|\sand\s|\.\s*$|\.\s", low[place:end])
    stop = place + found.start() if found else end
    return place + len(low[place:stop].rstrip(" .!"))
