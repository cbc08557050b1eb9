"""Goes down a page and says of each line what it is: a row's head and what follows it, steps below a head, how a piece
begins, an explanation, what holds for all rows, a heading, a colour, or talk."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ...errors import Note, Problem
from ...made_late import replace
from .. import lexicon
from ..notation.plain import plain
from ..notation.prose import is_prose
from ..notation.words import vocabulary
from ..tree import Start
from ..when_used import when_used
from . import telling
from .again.told import FORMS, MAYBE_AGAIN, RowsAgain, SoFar, rows_again
from .agreed.conventions import Conventions
from .agreed.definitions import begins_gathered, define, pairs, read_definition, told_in_bracket
from .agreed.letters import yarn_names
from .agreed.meshes import squares_explained, squares_named, squares_of, usual_meshes, without_asides, without_explained
from .agreed.named_rows import names_of_piece, piece_again
from .agreed.overlay import edge_told
from .agreed.own_stitches import as_first, first_name, first_worked_as, space_named, words_of_first
from .agreed.run_length import grown_to
from .agreed.shapes import shape_told
from .agreed.sizes import only_for, said_only_for
from .agreed.told_words import columns_marked, is_told
from .drafts import Draft
from .heads import (
    Head,
    as_last,
    bare_head,
    called_head,
    counted_at_end,
    further_rows,
    inner_heads,
    last_again,
    line_head,
    named_alike,
    names_row,
    repeated_rows,
    repeated_twice,
    repeated_until,
    repeated_up_to,
    without_total,
    without_until,
)
from .layout import bullet, table_head
from .page import Page
from .starts import (
    chain_in,
    is_lift,
    lift,
    measured_in,
    multiple_in,
    rest_of,
    sample_in,
    says_left,
    second_side,
    start_of,
    work_beside,
)
from .unheaded import (
    begins_named,
    first_round,
    first_row,
    is_row,
    part_lead,
    part_row,
    rounds_of_piece,
    rows_in,
    titled_row,
    whole_piece,
    worked_by,
    works,
)
from .unplaced import names_work

MOST_FOUNDATION = 20_000

#: "Join yarn with a sc in any stitch." above Rnd 1: where that begins.
_JOINS_ANYWHERE = when_used(r"\W*(?:re-?)?(?:join|attach)\b[^.;*]*\b(?:any|anywhere)\b[^.;*]*\W*")
#: "* Remember that ch 1 never counts *": words to the reader between stars, of which none repeats anything.
_STARRED_NOTE = when_used(
    r"\*+\s*(?:note|remember|when|if|please|tip|hint|throughout|you|i|this|the (?:ch|chain|turning|first)|all|always|do not|don'?t)\b(?!.*\b(?:rep|repeat|rpt)\b)[^*]*\**"
)
#: Where a second explanation begins on a line: "... in indicated st. Fan: 4 dc in one sp."
_FURTHER = when_used(r"[.;)]\s+(?=[a-z][a-z-]*(?: [a-z-]+){0,2}(?: \([^)]*\))?:\s)(?!rows?\b|rnds?\b|rounds?\b|note)")
#: An abbreviation told in a line of its own in brackets: "(TSC = total stitch count)".
_ALL_BRACKETED = when_used(r"\s*[(\[]\s*(?P<told>[a-z][a-z -]{0,16}=[^()\[\]=]{2,60})[)\]]\W*")
#: "18", "18 (18)", "inc 6 (12)" behind a row's number.
_STITCHES_ALONE = when_used(r"\s*\d{1,4}(?: ?(?:sts?|stitches|sc))?(?: (?:around|each))?\s*(?:[(\[]\d{1,4}[^()]{0,12}[)\]])?[\s.;,]*")
#: What a note says of the sides of rows: "= RS", "are worked on the wrong side".
_SIDES = when_used(r"(?:= ?|are |is )?(?:worked )?(?:on )?(?:the )?(?:rs|ws|right sides?|wrong sides?)(?: rows?| rounds?| rnds?)?")
#: A stitch that may be worked.
_STITCH = when_used(r"\b(?:\d*(?:sc|hdc|dc|htr|tr|dtr|inc|dec|ch|sl st|ss)|crochets?|chains?|slip stitch(?:es)?|rep|repeat|skip|miss|turn|join)\b")
#: An explanation by the moves of the hook behind a row's count: "... (18) Hdc dec: yo, insert hook in next st, ...".
_TOLD_BEHIND = when_used(
    r"[.)\]!]\s+(?P<told>(?!note|tip|rows?|rnds?|rounds?)[a-z][a-z0-9-]*(?: [a-z0-9-]+){0,4}(?: \([^)]*\))?\s?[-:=]\s?"
    r"(?:yo|yrh|yarn over|insert)\b[^.]*?\bon hook\b\W*)$"
)

#: "[picot = ch 3, sl st in 3rd ch from hook]", "(for picot: ch 3, sl st in 3rd ch)": what a stitch of the same row is.
_TOLD_OF_ONE = when_used(
    r"(?P<open>[(\[])\s*(?:for (?:each |the |a )?|to make (?:each |the |a )?)?(?P<name>[a-z][a-z -]{1,18}?)\s?(?:=|:)\s?(?P<words>[a-z\d][^()\[\]=]{5,140})[)\]]"
)
#: "... Picot = ch 3, sl st in 3rd ch from hook.", at the end of a row.
_TOLD_AT_END = when_used(r"(?:(?<=[.!)\]])|\*)\s*(?P<told>(?P<name>[a-z][a-z -]{1,18}?)\s?=\s?(?P<words>[a-z\d][^()\[\]=*]{5,140}))$")

#: "... At end of 9th row, break off. Join yarn in ...": behind a run of rows, work of its own.
_BEHIND_THE_LAST = when_used(
    r"\b(?:at (?:the )?end of|after|on finishing|having finished) (?:the )?(?:last|final|(?P<a>\d{1,3})(?:st|nd|rd|th)?)? ?(?:rows?|rnds?|rounds?)(?: (?P<b>\d{1,3}))?,? ?"
    r"(?:break|fasten|cut|end|bind|finish)(?: off)?\b[^.;]{0,20}[.;]\s+(?P<more>(?:join|attach|rejoin|re-join|reattach)\b)"
)

#: "Continue to increase 6 sts each round until you have 36 sts."
_GROWS_ON = when_used(
    r"\W*(?:continue|cont|keep|carry on|go on)\b[^.;(]*?\b(?:inc|dec|increas\w+|decreas\w+)\b[^.;(]*?\b(?:each|every|per) (?:round|rnd|row),? "
    r"(?P<until>(?:until|till) (?:you have|there are|you reach|you have a total of) (?P<n>\d{1,4}) (?P<noun>sts|stitches|sc|hdc|dc|htr|tr)\b[^.;]{0,24})\W*$"
)
#: "Bobble = dc5tog in same st": below a row's words, an explanation.
_NAMED = when_used(r"\s*(?P<name>[a-z][a-z0-9 -]{1,24}?)\s?:\s?(?=[(\d*\[])")
#: The same of a name that may have a short form behind it: "Cl (cluster): ...".
_STITCH_NAMED = when_used(r"\W*(?P<name>[a-z0-9][a-z0-9 '/-]{0,30}?)\s*(?:[(\[](?P<abbr>[a-z0-9 -]{1,20})[)\]])?\s*(?::|=|\s-{1,2}\s)\s*(?=\S)")
_OF_STITCH = when_used(r"(?:st|sts|stitch|stitches|inc|dec|increase|decrease|[a-z]{1,4}-?st)")
_EQUALS = when_used(r"\s*[a-z][a-z -]{0,24}\s?=\s?(?:\d+ ?)?[a-z(*]")
#: "With red, join in any corner."
_JOINS_THERE = when_used(r"\W*(?:(?:and|then|now) )*(?:with [a-z ]{1,20},? )?(?:re-?)?(?:join|attach)\b[^.;*,:]*\b(?:in|to|into|with|at) [^.;*,:]*\bany\b[^.;*,:]*[.;]?\s*")
#: "Fasten off. Attach red in any corner space.": where the next round begins.
_JOINS_BEHIND = when_used(r"[.;,]\s*(?:(?:and|then|now) )*(?:with [a-z ]{1,20},? )?(?:re-?)?(?:join|attach)\b[^.;*]*\b(?:in|to|into|with|at) [^.;*]*\bany\b[^.;*]*")
#: "... to end. Fasten off. Turn."
_CUT_LAST = when_used(r"\b(?:fasten off|end off|break off|finish off|(?:cut|break) (?:the )?yarn)[\s.;,]*(?:turn(?: (?:the )?work)?)?[\s.;,]*$")
#: "Skip 10 sc, rejoin yarn to 11th sc with a sl st, ch 1, ...": work behind a cut yarn, where rows bear no numbers.
_REJOINS = when_used(
    r"\W*(?:(?:skip|sk|miss)(?: the)?(?: first| next)? \d{1,3} ?[a-z]+[,;.]? ?(?:and )?)?(?:with [^,;.]{2,30}?,? )?(?:re-?join|join|re-?attach|attach)\b[^;.,]*[,;.]\s*(?=(?:ch ?\d|\d* ?(?:sc|h?dc|h?tr)\b|work\b))"
)
#: "Work as Row 3 until you have 15 dc".
_UNTIL_COUNT = when_used(
    r"\W*(?:(?:then|now|next) )?(?:work|rep(?:eat)?|rpt|cont(?:inue)?(?: (?:to )?(?:work(?:ing)?|rep(?:eat(?:ing)?)?))?|keep (?:on )?(?:repeating|working)|carry on|go on)\b"
    r"(?: (?:as|in|like|with|the|same way|this|that|manner|way|for))*(?: (?:last|previous|same) (?:row|rnd|round)| (?:row|rnd|round)s? (?P<row>\d{1,3})| pattern| row| rnd| round)?,? "
    r"(?P<until>(?:until|till) (?:you have|there are|you reach|you have a total of|a total of)? ?(?:only |just )?(?P<n>\d{1,4}) (?P<noun>sts|stitches|sc|hdc|dc|htr|tr)\b(?: (?:remain|are left|left|in all|in total|altogether))?)\W*$"
)
#: "... turn. 7 dc", "(24)": a row's count behind its words.
_COUNT_BEHIND = when_used(r"(?:[(\[<{=:-]\s*|[.;,]\s*)(?:total (?:of )?)?(?P<n>\d{1,4}) ?(?:sts|stitches|sc|hdc|dc|htr|tr)?\s*[)\]>}]?\W*$")


def _count_at_end(low: str) -> int | None:
    found = _COUNT_BEHIND.search(low)
    return int(found["n"]) if found else None


#: The first row of a page without a head goes over so many lines at most.
_MOST_FIRST_LINES = 6
#: "(18) Work 2 rounds even": the count of the row before.
_COUNT_FIRST = when_used(r"\s*[(\[][^()\[\]]{1,24}[)\]]\s*(?=(?:then |now )?(?:work|rep|repeat|do|make)\b)")

#: "[inc] 6 times. 12", "inc x 6 = 12": the count that a row ends with.
_TOTAL_LAST = when_used(r"(?:[.;:=)\]*\u2013-]|\btimes|\baround)\s*\d{1,3}\W*$")
_TURNS = when_used(r"\bturn\b")
#: A row that begins with the chain of its own foundation.
_OWN_CHAIN = when_used(r"\W*(?:[a-z]+ ){0,4}?(?:ch(?:ain)?s? ?-?\d{2}|\d{2,3} ?ch)")
#: A count alone in its sentence.
_COUNT_ALL = when_used(r"\s*[(\[][^()\[\]]{1,24}[)\]]\W*")

#: "Turn." as a sentence.
_TURN_ALONE = when_used(r"\W*(?:(?:do not|don'?t) )?turn(?: (?:the |your )?work)?\W*")

#: "On Rounds 2-7: close each round with ...": what is said of several rows at once.
_OF_ROWS = when_used(r"\W*(?:on|in|for|at|throughout) (?:all |every |each |the |following |remaining |next |other )*(?:rows?|rnds?|rounds?)(?: ?\d{1,3}\s*(?:-|to|through|thru|and|&)\s*\d{1,3})?\s*[:,]\s*(?P<said>.+)$")
_CAPITALS = when_used(r"(?<=[.!?)\]])\s+(?!RS\b|WS\b|US\b|UK\b)(?P<name>[A-Z]{3,}(?:\s+[A-Z]{3,}){0,3})\s*:?\s*$")


#: "of beg 3ch. (40 sts)": no line of a piece's own begins so.
_MID_CLAUSE = when_used(r"\W*(?:of|in|into|from|to|top|next|each|beg|beginning|and|at)\b(?! (?:the )?(?:beginning|start|cent(?:er|re)))")
#: "Now work back and forth on 18 sts": how rows to come are worked.
_TO_AND_FRO = when_used(r"^\W*(?:now |then |next )?(?:begin |start )?(?:to )?(?:work(?:ing)?|crochet|continue|cont)\b[^.;*]{0,20}\b(?:back and forth|to and fro|in rows)\b")
#: "RS Round 3:": which side is worked, and no piece's name.
_SIDE_LEADS = when_used(r"\W*(?P<side>rs|ws|right side|wrong side)\W*")
#: A line that is cut before the row it speaks of.
_LEADS_TO_ROW = when_used(r"\b(?:of|in|into|from|on|onto|to|as|than|like|between|below|on|over|along|after|before|repeat|rep|rpt|and)(?: the)?\s*$")
_FIRST_ROW = when_used(r"\b(?:first|1st) (?P<word>row|rnd|round)\b", re.IGNORECASE)
_ENDS_COUNTED = when_used(r"[(\[]\s*\d{1,4}(?: ?[a-z]{1,8})?\s*[)\]]\W*$")
#: "4. Do round 3", "6. As row 2": what a number alone may have behind it besides stitches.
_SAYS_AGAIN = when_used(r"\s*(?:(?:rows?|rnds?|rounds?|r)\s?\d{1,3}(?:\s?(?:-|to|and|&)\s?\d{1,3})? (?:again|once more|over again)|rep|work even|(?:(?:do|work|follow|make|copy|same|like)\b(?: (?:the|as))*|as) (?:rows?|rnds?|rounds?|r)\s?\d)")
#: A round that raises itself, whatever was chained behind the ring.
_BEGINS_WITH_CHAIN = when_used(r"\W*(?:(?:join|with|work|then|make)\b[^.;]{0,24}?)?(?:ch(?:ain)? ?-?\d|\d ?ch\b)")
#: "Now work:" above further steps.
_VERB_ALONE = when_used(r"\W*(?:(?:then|now|next|and),? )?(?:work|do|make|crochet|continue|proceed)(?: (?:as follows|the following|this|like this))?\s*:\s*")
#: "All even rows:", "Every odd round -".
_EVERY_OTHER = when_used(r"\W*(?:all |every |each |the )*(?P<which>even|odd)(?:[ -]numbered)? (?:rows?|rnds?|rounds?)\s*(?:\([^)]*\)\s*)?[:.-]\s*")
#: What stands before a beginning and names no piece: "Foundation: ch 20".
_NO_PIECE = frozenset(
    ("foundation", "base", "start", "starting", "begin", "beginning", "to", "set", "setup", "set-up", "chain", "ring", "color", "colour", "step",
     "first", "next", "then", "size", "sizes", "pattern", "instructions", "directions", "method", "for", "large", "small", "medium", "round",
     "rounds", "rows", "working", "using", "in", "from", "at", "and", "now", "note", "us", "uk", "terms", "multiple", "loop", "cast", "fnd")
)  # fmt: skip


#: "Large star: Work same as small star to Round 2": the name of a piece before the words that say its rows.
_PIECE_NAMED = when_used(r"\s*(?P<name>(?:\d{1,2}(?:nd|rd|th) )?[a-z][a-z' -]{2,30}?)\s*(?::|\s-|\.)\s+(?=(?:then |now )?(?:work|make|crochet|do|repeat|rep|follow|same|as|like|rows?|rnds?|rounds?)\b)")
#: "Small", which may be a size, before a noun: the name of a piece.
_SIZE_WORDS = frozenset(("large", "small", "medium"))


#: "Through Rnd 2", "to the end of Rnd 2": with that one.
_WITH_IT = when_used(r"\b(?:through|thru|including|incl|end of)\b")


def _no_piece(lead: str) -> bool:
    """Whether what stands before a beginning names no piece: "Foundation", "Large"; "Large star" does."""
    first, *rest = lead.split()
    return first in _NO_PIECE and not (first in _SIZE_WORDS and rest and rest[0] not in _NO_PIECE and rest[0].isalpha())


def _is_stitch(name: str) -> bool:
    """Whether a name is a stitch's by its last word: "bead sc", "cluster", "lp st"; "corner" and "side" are none."""
    *before, last = name.split()
    kinds = {kind for kind, _ in vocabulary().get(last, ())}
    plainly = lexicon.stitch_name(last, "US") is not None or _OF_STITCH.fullmatch(last) is not None
    return bool(kinds & {"PICOT", "GATHERED"}) or (plainly and (bool(before) or lexicon.stitch_name(last, "US") is None))


#: More chains than this are a foundation, and no lift of a row.
_LONGEST_LIFT = 6
#: What a first row says that is worked on a chain.
_FROM_HOOK = when_used(r"\b(?:ch|chain|st|stitch)s?\s+from\s+(?:the\s+|your\s+)?hook\b")


#: "16 sts and 18 rows make 10 cm", on a line of its own among rows: a gauge, and no count of the row above.
_SWATCH = when_used(r"\W*\d{1,3} ?(?:sts?|stitch(?:es)?|sc|h?dc|h?tr|shells?|repeats?) ?(?:and|x|by|&|,|\+) ?\d{1,3} ?(?:rows?|rnds?|rounds?)\b.*\d ?(?:cm|in|inch(?:es)?|mm|\")")


class Lines:
    """Goes down the page and says of each line what it is."""

    def __init__(self, page: Page) -> None:
        self.p = page
        self.part, self.make = "", 1
        self.pending: Start | None = None
        self.rest: Start | None = None
        self.colour = ""
        self.section = ""
        self.blank = False
        self.for_sizes: tuple[int, ...] | None = None
        self.numbered = False
        self.fresh_part = False
        self.key_name = ""
        self.behind: Head | None = None
        self.bare_part = False
        self.raised = ""
        self.loops, self.loops_on = "", ""
        self.leaves = False
        self.told_later: list[Start] = []
        #: The lines that say which rows form the pattern, with these rows, and what the page calls its yarns; looked for once.
        self.formed: list[tuple[int, int, int]] | None = None
        self.yarns: frozenset[str] = frozenset()

    @property
    def open(self) -> Draft | None:
        return self.p.drafts[-1] if self.p.drafts and not self.p.drafts[-1].done else None

    def gather(self) -> None:
        squares = squares_of("\n".join(self.p.low))
        if squares is not None:
            self._without_squares_explained()
        self._learn_edges()
        for index, low in enumerate(self.p.low):
            if not low.strip():
                self.blank = self.blank or index not in self.p.taken
                if self.section == "key" and not self.key_name and self._key_ends(index):
                    self.section = ""
                continue
            if telling.is_comment(self.p.raw[index]) and not re.match(r"\s*#{2,}", self.p.raw[index]):
                self.blank = True
                if self.open and self.open.low.strip():
                    self.open.done = True
                continue
            if table_head(self.p.raw[index]):
                continue
            self._line(index, low)
            self.blank = False
        self._learn_meshes()
        self._learn_spaces()
        if squares is not None:
            self._learn_squares(*squares)
        self._begun_later()

    def _begun_later(self) -> None:
        """A stitch pattern told before the piece that is worked in it begins with that piece's chain: its rows stand on the
        first foundation below them on which no rows of its own stand."""
        first = self.p.drafts[0] if self.p.drafts else None
        if first is None or first.start or self.p.start or self.p.multiple or not _FROM_HOOK.search(first.low) or _OWN_CHAIN.match(first.low):
            return
        own = [draft.start for draft in self.p.drafts if draft.start is not None and _FROM_HOOK.search(draft.low)]
        start = next((start for start in self.told_later if start not in own), None)
        if start is None:
            return
        for draft in self.p.drafts:
            draft.start = None if draft.start == start else draft.start
        first.start = self.p.start = start
        said = " ".join(start.text.split()).strip(" .")
        self.p.assumed.append(f'{first.head.label} stands on the foundation that is told behind it: "{said}"')

    def _learn_edges(self) -> None:
        """What a sentence calls the stitch that begins and ends every row: 'the first and last st of each row is a sc ("edge")'."""
        for index, raw in enumerate(self.p.raw):
            low = " ".join(raw.lower().split()) if "first" in raw or "egins" in raw or "tarts" in raw else ""
            for start, end in telling.sentences(low):
                if (edge := edge_told(low[start:end].strip())) is not None:
                    self._defined(self.p.first_line + index, f"{edge[0]} = {edge[1]}")

    def _learn_spaces(self) -> None:
        """Words in quotes that stand for one space: '"point" means the ch-2 sp in the middle'."""
        for raw in self.p.raw:
            low = raw.lower().replace("\u201c", '"').replace("\u201d", '"') if '"' in raw or "\u201c" in raw else ""
            for start, end in telling.sentences(low):
                if '"' in low[start:end] and (space := space_named(low[start:end])) is not None:
                    self.p.call_space(*space)

    def _learn_meshes(self) -> None:
        """Meshes that rows name and nothing explains are the usual ones, which is said."""
        known = {plain(form) for s in self.p.specials.values() for form in (s.name, s.abbreviation)}
        for said, begun in usual_meshes("\n".join(self.p.low), known):
            if self._defined(self.p.first_line, said):
                self._first_as(self.p.first_line, begun, plain(begun))
                for draft in self.p.drafts:
                    draft.lines = [without_asides(line) for line in draft.lines]
                self.p.assumed.append(f"nothing explains it, so it was taken so: {said}")

    def _without_squares_explained(self) -> None:
        """Sentences that explain the squares of filet say what is known, and are no work."""
        for index, low in enumerate(self.p.low):
            for start, end in without_explained(low):
                gap = " " * (end - start)
                self.p.lines[index] = self.p.lines[index][:start] + gap + self.p.lines[index][end:]
                self.p.low[index] = self.p.low[index][:start] + gap + self.p.low[index][end:]

    def _learn_squares(self, stitch: str, wide: int, high: int) -> None:
        """Squares that rows count off, "3 sps, 1 bl, 2 sps", by names that say what they are; what they are is said."""
        if {"OM", "SM", "OB", "SB"} & set(self.p.specials):
            return
        told = squares_explained(stitch, wide, high)
        named: list[str] = []
        for at, draft in enumerate(self.p.drafts):
            base = _FROM_HOOK.search(draft.low) is not None or (not at and draft.start is not None)
            before = "\n".join(draft.lines)
            after = squares_named(before, plain(before), base)
            draft.lines = after.split("\n")
            named.append(after if after != before else "")
        for said, begun in told:
            name = said.partition("(")[2][:2]
            if any(name in after for after in named) and self._defined(self.p.first_line, said):
                self._first_as(self.p.first_line, begun, plain(begun))
                self.p.assumed.append(f"squares were taken so: {said}")

    def _key_ends(self, index: int) -> bool:
        following = next((x for x in self.p.low[index + 1 :] if x.strip()), "")
        return not re.match(r"\s*\S{1,24}(?:\s\S{1,12}){0,3}\s*(?:(?:=|:|-)\s|(?<=\.)\s+[a-z]|(?<=\.)$)", following)

    # -- one line -------------------------------------------------------------------------------------------------

    def _line(self, index: int, low: str) -> None:
        text = self.p.lines[index]
        at = 0
        head = self._every_other(index, low) or self._head(low)
        if head is not None and self._referred_to(index, head):
            head = None
        if head is None and self.p.bare and self._numbered_talk(index, text, low):
            return
        if head is None:
            inner = self._inner(low, 0)
            if inner and inner[0].start > 0:
                self.behind = inner[0]
                end, name = self._part_before(text[: inner[0].start], inner[0])
                self._text(index, text[:end], low[:end], 0)
                if name:
                    self._name_part(name, "")
                self.behind = None
                self._heads(index, text, low, inner)
                return
            self._text(index, text, low, at)
            return
        heads = [head, *self._inner(low, head.end, head.last)]
        self._heads(index, text, low, heads)

    def _referred_to(self, index: int, head: Head) -> bool:
        """Whether a head at a line's beginning is the row that the cut line above speaks of: "... in each sp of" / "last
        round, ch 3"."""
        above = index - 1
        while above in self.p.taken:
            above -= 1
        last = self.p.drafts[-1].head.last if self.p.drafts else 0
        known = head.named or 0 < head.first <= last
        return known and above >= 0 and _LEADS_TO_ROW.search(self.p.low[above]) is not None

    def _numbered_talk(self, index: int, text: str, low: str) -> bool:
        """Whether a step that is numbered as the rows are is no row: "12. Start stuffing the ball"."""
        found = bare_head(low, len(low) - len(low.lstrip()))
        if found is None or not self.p.drafts or not 0 < found.first - self.p.drafts[-1].head.last <= 2:
            return False
        rest = low[found.end :].strip()
        if telling.workish(rest) or not (is_prose(rest) or telling.FASTEN.match(rest)):
            return False
        self.p.drafts[-1].done = True
        self.p.prose.append((self.p.first_line + index, text.strip()))
        return True

    def _part_before(self, text: str, head: Head) -> tuple[int, str]:
        """Where the words before a first row inside a line end, and the piece named there in capitals: "... BACK Row 1:"."""
        found = _CAPITALS.search(text) if 0 < head.first <= 1 else None
        return (found.start(), found["name"].title()) if found else (len(text), "")

    def _head(self, low: str) -> Head | None:
        if self.p.bare:
            at = len(low) - len(low.lstrip())
            found = bare_head(low, at)
            return found if found and self._bare_works(found, low[found.end :]) else None
        if low in self.p.torn:
            return self.p.torn[low]
        found = None if telling.GAUGE_ROWS.match(low) else line_head(low)
        if found is None and self.p.drafts and self.section == "pattern":
            found = called_head(low)
        if found is None:
            return self._numbered_part(low)
        self.bare_part = False
        if self.section == "key" and not found.first and not found.count and not (found.named and works(low[found.end :])):
            return None
        if not found.first and not found.count and not found.named:
            return None
        if re.match(r"\W*(?:rnd|row|round|rounds|rows|rnds)s?\s*(?:-|=|:)\s*(?:row|round|rnd)", low):
            return None
        return None if self._noted(low, found) else found

    def _noted(self, low: str, head: Head) -> bool:
        """Whether a line among the notes speaks of rows and works none: "Odd rows = RS", "Rows 1-8, the left side is
        longer"."""
        rest = low[head.end :].strip(" .,:;-")
        return self.section == "notes" and bool(_SIDES.fullmatch(rest) or (rest and is_prose(rest) and not telling.workish(rest)))

    def _every_other(self, index: int, low: str) -> Head | None:
        """ "All even rows: ..." behind an odd row: the next row and those that have no words of their own."""
        found = _EVERY_OTHER.match(low)
        last = self.p.drafts[-1].head if self.p.drafts else None
        if found is None or last is None or not last.last or (last.last % 2 == 0) == (found["which"] == "even"):
            return None
        following = self._next_head(index)
        if following is None or following.first != last.last + 2:
            return None
        kind, number = last.label.split()[0].rstrip("s"), last.last + 1
        return Head(f"{kind} {number}", number, number, last.is_round, "", 0, found.end(), True, open_end=True)

    def _bare_works(self, head: Head, low: str) -> bool:
        """Whether work stands behind a number that is a row's head alone; a plain number of stitches behind the next one."""
        if telling.workish(low) or _SAYS_AGAIN.match(low):
            return True
        follows = bool(self.p.drafts) and self.p.drafts[-1].head.last + 1 == head.first
        return follows and (_STITCHES_ALONE.fullmatch(low) is not None or (bool(_ENDS_COUNTED.search(low)) and not is_prose(low)))

    def _numbered_part(self, low: str) -> Head | None:
        """The head of a row that is a number alone, in a part that numbers its rows so where other parts do not."""
        found = bare_head(low, len(low) - len(low.lstrip()))
        if found is None or not telling.workish(low[found.end :]) or self.section in ("key", "finishing", "facts"):
            return None
        behind_first = bool(self.p.drafts) and self.p.drafts[-1].head.named and not self.p.drafts[-1].head.last
        begins = (self.fresh_part or behind_first) and found.first == 1 and is_row(low[found.end :])
        follows = bool(self.p.drafts) and 1 < found.first == self.p.drafts[-1].head.last + 1
        goes_on = self.bare_part and follows
        if follows and not self.bare_part and self._bare_after(low, found):
            self.bare_part = goes_on = True
        between = follows and not self.bare_part and self._bare_between(low, found)
        if between or (goes_on and self.p.drafts[-1].head.is_round):
            return named_alike(found, self.p.drafts[-1].head)
        if not begins and not goes_on:
            return None
        self.bare_part = True
        return found

    def _bare_after(self, low: str, found: Head) -> bool:
        """Whether the numbers after the first row stand alone from here on: "1st round: ...", "2: ...", "3: ...". Steps
        below a row are numbered too, but begin with 1."""
        if self.p.drafts[-1].head.first != 1 or low.lstrip()[len(str(found.first)) :][:1] != ":":
            return False
        at = next((n for n, line in enumerate(self.p.low) if line is low), len(self.p.low))
        rest = (line for line in self.p.low[at + 1 :] if line.strip())
        nexts = (h for line in rest if (h := line_head(line) or bare_head(line, len(line) - len(line.lstrip()))))
        after = next(nexts, None)
        return after is not None and after.first == found.last + 1

    def _bare_between(self, low: str, found: Head) -> bool:
        """Whether a number alone, or a run of two, is the next row's in a text whose other rows have heads: "5-7. 24 sc" behind
        Rnd 4, "8. 24 sc" before Rnd 9. Steps below a row are numbered too, but no row follows theirs."""
        if found.last > found.first:
            return True
        at = next((n for n, line in enumerate(self.p.low) if line is low), len(self.p.low))
        inside = inner_heads(low, found.end, found.last)
        after = inside[0] if inside else next((h for line in self.p.low[at + 1 :] if (h := line_head(line))), None)
        return after is not None and after.first == found.last + 1

    def _inner(self, low: str, start: int, last: int | None = None) -> list[Head]:
        if self.p.bare or (self.section == "finishing" and telling.STEP.match(low)):
            return []
        if last is None:
            last = self.p.drafts[-1].head.last if self.p.drafts else 0
            if re.search(r"\brow|\brnd|\bround|\brd\b|\br\d", low[start:]) is None:
                return []
            begin = start - 1 if start == 0 else start
            found = inner_heads(low, begin, last) or inner_heads(low, begin, 0)
            if not found and last != 1 and (second := inner_heads(low, begin, 1)) and works(low[: second[0].start]):
                return second
            noted = self.section == "notes" and bool(found) and not telling.workish(low[found[0].end :])
            return [] if noted else found
        return inner_heads(low, start, last)

    def _heads(self, index: int, text: str, low: str, heads: list[Head]) -> None:
        ends = [*(h.start for h in heads[1:]), len(low)]
        following = [*heads[1:], self._next_head(index)]
        for head, end, after in zip(heads, ends, following, strict=True):
            further = self._split_off(low[head.end : end], head, after, index)
            stop = head.end + further[0][0] if further else end
            self._begin_row(index, head, text[head.end : stop].rstrip(), head.end + 1)
            self._begin_further(index, text[:end], further, head.end)

    def _split_off(self, low: str, head: Head, after: Head | None, index: int) -> list[tuple[int, Head]]:
        """Where a row's words end before sentences that say further rows ("... (18) Work 2 rounds even."), and the head
        of each of these, where the next row goes on behind so many."""
        out: list[tuple[int, Head]] = []
        stop = len(low)
        for start, end in reversed(telling.sentences(low)):
            count = next(iter([*_COUNT_FIRST.finditer(low, start, end)][-1:]), None)
            at = count.end() if count else start
            if at == 0 or not (head.last or head.named or head.count):
                break
            more = further_rows(low[at:stop].strip()) or repeated_rows(low[at:stop].strip(), head.last)
            more = more or further_rows(low[at:end]) or repeated_rows(low[at:end], head.last) or repeated_until(low[at:end], head)
            if more is None and (told := self._again_told(low[at:stop].strip(), head, index)):
                more = Head("Rnd" if head.is_round else "Row", 0, 0, head.is_round, "", 0, 0, True, count=sum(again.count for again in told))
            if more is not None:
                out.insert(0, (at, more))
            elif out or not (_COUNT_ALL.fullmatch(low, start, end) or telling.FASTEN.match(low[start:end]) or _TURN_ALONE.fullmatch(low, start, end)):
                break
            stop = at if more is not None else stop
        rows = sum(more.count for _, more in out)
        if any(more.until for _, more in out):
            return out
        restarts = after is not None and after.first == 1 and (head.named or head.first > 0)
        return [] if after is not None and after.first and not restarts and after.first != head.last + rows + 1 else out

    def _begin_row(self, index: int, head: Head, text: str, column: int) -> None:
        if self.for_sizes and self.p.size not in self.for_sizes:
            self.p.prose.append((self.p.first_line + index, f"{head.label} (another size)"))
            self._skip_row()
            return
        if (side := _SIDE_LEADS.fullmatch(head.lead)) is not None:
            head = replace(head, side=head.side or ("WS" if side["side"].startswith("w") else "RS"), lead="")
        if head.lead:
            self._lead(head.lead, index)
        text = self._without_told(text, self.p.first_line + index)
        if head.last > head.first and self.p.drafts and self._in_yarns(head, text, index, column):
            return
        text = self._without_next(head, text, index) if head.last > head.first else text
        if telling.sews(plain(text)):
            self._skip_row()
            self.p.prose.append((self.p.first_line + index, self.p.lines[index].strip()))
            return
        text, titled = self._without_titled(text)
        if self._is_caption(head, text):
            self.p.prose.append((self.p.first_line + index, self.p.lines[index].strip()))
            return
        above = self.p.drafts[-1] if self.p.drafts else None
        if above is not None and head.first and (above.head.first, above.head.last) == (head.first, head.last) and not above.low.strip() and not self.fresh_part:
            self.p.drafts.pop()  # the row's name stood above it, alone
        lead = lift(self.pending, plain(text)) if self.p.drafts else ""
        lead = lead or (self.raised if self.pending and not _BEGINS_WITH_CHAIN.match(plain(text)) else "")
        draft = Draft(head, self.p.first_line + index, column - len(lead), [lead + text], self.part, self.make)
        draft.start, self.pending = None if lead and not self.raised else self.pending, None
        self.raised = ""
        draft.leaves, self.leaves = self.leaves and head.last == head.first, False
        if self.rest is None and draft.start is None and not lead:
            self._second_side(draft, text)
        if self.rest is not None and draft.start is None and self.p.drafts and head.first > 0:
            row = self.rest.row or head.first - 1
            again = any(d.head.first == head.first or d.head.first <= row < d.head.last for d in self.p.drafts)
            draft.start = replace(self.rest, row=row) if again and row == head.first - 1 else None
        self.rest = None
        draft.colour, self.colour = self.colour, ""
        draft.loops, self.loops = self.loops or self.loops_on, ""
        self.p.drafts.append(draft)
        self.section = "pattern"
        self.fresh_part = False
        self.numbered = False
        if titled is not None:
            name, at, behind = titled
            more = Head(f"{name} {'rnd' if head.is_round else 'row'}".title(), 0, 0, head.is_round, "", 0, 0, True, named=True)
            self._begin_row(index, more, behind, column + at)

    def _in_yarns(self, head: Head, text: str, index: int, column: int) -> bool:
        """Whether a run of rows is told by the yarns they are worked in alone ("Rows 3-8: 2 rows B, 4 rows C"); if so each
        yarn's rows are begun."""
        told = self._again_told(plain(text), self.p.drafts[-1].head, index)
        if not any(again.yarn for again in told) or sum(again.count for again in told) != head.last - head.first + 1:
            return False
        kind, first = head.label.split()[0].rstrip("s"), head.first
        for again in told:
            last = first + again.count - 1
            label = f"{kind}s {first}-{last}" if last > first else f"{kind} {first}"
            self.colour = telling.yarn_name(text, plain(text), again.yarn) if again.yarn else self.colour
            self._begin_row(index, replace(head, label=label, first=first, last=last), again.said, column)
            first = last + 1
        return True

    def _second_side(self, draft: Draft, text: str) -> None:
        """Take from a row whose number comes again what the second side of a piece begins with: "Sk 9 hdc for neck, join
        yarn in next hdc"."""
        number, last = draft.head.first, self.p.drafts[-1].head.last if self.p.drafts else 0
        found = second_side(plain(text)) if 0 < number <= last else None
        if found is None:
            return
        said = text[: found[1]]
        self.rest = Start("rest", found[0], "st", None, draft.line, said.strip(" .,;"))
        draft.lines[0] = "".join(c if c == "\n" else " " for c in said) + text[found[1] :]

    def _without_titled(self, text: str) -> tuple[str, tuple[str, int, str] | None]:
        """A row's words without a row with a name of its own that stands behind them in the same paragraph: "... sc in
        each sc. Handle: Sl st in next 6 sc, ch 18, ..."; and that row's name, where its work begins, and its words."""
        low = plain(text)
        for start, end in telling.sentences(low):
            said = len(low[:start]) + len(low[start:end]) - len(low[start:end].lstrip())
            found = part_row(low[said:]) if start and text[said : said + 1].isupper() else None
            if found is not None and telling.workish(low[:said]):
                name, at = found
                return text[:said].rstrip(), (name, said + at, text[said + at :])
        return text, None

    def _without_told(self, text: str, line: int) -> str:
        """A row's words without the explanation of a stitch that stands behind them in the same paragraph."""
        text = self._without_told_of_one(text, line)
        found = _TOLD_BEHIND.search(plain(text))
        if found is None or not self._defined(line, text[found.start("told") :].strip()):
            return text
        self.p.prose.append((line, text[found.start("told") :].strip()))
        return text[: found.start("told")].rstrip()

    def _without_told_of_one(self, text: str, line: int) -> str:
        """A row's words without what they say a stitch of theirs is, in a bracket or at their end, which is learnt."""
        low = plain(text)
        for pattern in (_TOLD_OF_ONE, _TOLD_AT_END):
            for found in pattern.finditer(low):
                name, (start, end) = found["name"].strip(), found.span()
                if low[end:].strip(" .*!)\n") and not low[:start].rstrip().endswith((".", ";", "!")):
                    continue  # right behind the stitch, within the row: the row's own words
                used = re.search(rf"(?<![a-z-]){re.escape(name)}s?(?![a-z-])", low[:start] + low[end:])
                if not used or lexicon.height_of(name) is not None or not self._defined(line, f"{name}: {text[found.start('words') : found.end('words')]}"):
                    continue
                self.p.prose.append((line, text[start:end].strip()))
                text = text[:start] + " " * (end - start) + text[end:]
                low = low[:start] + " " * (end - start) + low[end:]
        return text

    def _without_next(self, head: Head, text: str, index: int) -> str:
        """The words of a run of rows without what is worked behind the last of them, once the yarn is cut; that is no
        part of any row, and a problem says so."""
        found = _BEHIND_THE_LAST.search(plain(text))
        number = next((n for n in (found["a"], found["b"]) if n), "") if found else ""
        if found is None or (number and int(number) != head.last):
            return text
        at = found.start("more")
        shown, line = self.p.raw[index], self.p.first_line + index
        says = f"{text[at:].strip()[:60]!r} names work but stands in no row, so it was not worked"
        remedy = 'begin it with a name of its own, as "Armhole:" or "Row 5:"'
        column = shown.find(text[at:].strip()[:20]) + 1
        self.p.problems.append(Problem("not notation", "Pattern", says, remedy, line, max(column, 1), shown, 20))
        return text[:at].rstrip()

    def _is_caption(self, head: Head, text: str) -> bool:
        """Whether a row's name stands alone below that row's own words: under a photograph of it."""
        last = self.p.drafts[-1] if self.p.drafts else None
        return (
            last is not None
            and not text.strip()
            and not self.fresh_part
            and head.first > 0
            and head.first == head.last == last.head.last
            and bool(last.low.strip())
        )

    def _skip_row(self) -> None:
        if self.p.drafts:
            self.p.drafts[-1].done = True

    def _lead(self, lead: str, index: int) -> None:
        name = lead.strip(" -:,")
        if name and name not in ("step", "part", "body") and not re.match(r"(?:next|the|for|with|ch|sc|dc)\b", name):
            self._name_part(name.title(), "")
        elif name == "body":
            self._name_part("Body", "")

    def _name_part(self, name: str, low: str) -> None:
        made = telling.MAKE.search(low)
        count = next((g for g in made.groups() if g), None) if made else None
        number = {"both": 2}.get(count or "", 0) or (
            int(count)
            if count and count.isdigit()
            else {"two": 2, "three": 3, "four": 4, "five": 5, "six": 6}.get(count or "", 1)
        )
        self.part, self.make = name, number
        self.fresh_part = True
        if self.p.drafts:
            self.p.drafts[-1].done = True

    # -- text -----------------------------------------------------------------------------------------------------

    def _text(self, index: int, text: str, low: str, at: int) -> None:
        line = self.p.first_line + index
        body = low.strip()
        if not body.strip(" .,;:*-"):
            return
        self.leaves = self.leaves or (says_left(low) and (is_prose(low) or _TO_AND_FRO.search(low) is not None))
        part = said_only_for(low, self.p.names)
        if part is not None:
            if self.p.size not in part[0]:
                self.p.prose.append((line, f"{text.strip()} (another size)"))
                return
            self._text(index, " " * part[1] + text[part[1] :], " " * part[1] + low[part[1] :], at)
            return
        if self._loops_ahead(index, text, low) or self._starred(line, text, low) or self._grows_on(index, text, low) or self._as_piece(index, text, low) or self._goes_on_alike(index, text, low) or self._rejoined(index, text, low) or self._joined_apart(index, text, low):
            return
        sized = only_for(low, self.p.names) if self.p.names else None
        if sized is not None:
            self.for_sizes = sized or None
            self._close()
            return
        second = rest_of(low, line, text.strip()) if self.p.drafts else None
        if second is not None and (not self.open or self.open.low.strip()):
            self._close()
            self.rest = second
            self.p.prose.append((line, text.strip()))
            return
        key = telling.KEY_HEAD.match(body)
        if key and (not self.open or self.blank or body.endswith(":") or not key["rest"]):
            self.section = "key"
            self._close()
            rest = key["rest"]
            if rest:
                self._key_line(line, text[low.rfind(rest) :], rest)
            return
        if self._titled(index, text, low) or self._piece_in_a_line(index, text, low) or self._told_apart(line, text, low) or self._continues(index, text, low) or self._unheaded(index, text, low):
            return
        if self.section == "key" and self._begins_behind_key(line, text, low):
            self.section = "pattern"
        if self.section == "key" and self._key_line(line, text, low):
            return
        if telling.FACTS.match(body) and chain_in(low) is None:
            self._close()
            self.section = "facts"
            self._remark(line, text, low)
            return
        if telling.HEAD_WORD.match(body):
            self._close()
            self.section = (
                "finishing"
                if re.search(r"finish|assembl|making up|make up|blocking|care", body)
                else "notes"
                if "note" in body
                else "pattern"
                if "pattern" in body or "instr" in body
                else "facts"
            )
            return
        self._sentences(line, text, low)

    def _rejoined(self, index: int, text: str, low: str) -> bool:
        """ "Skip 10 sc, rejoin yarn to 11th sc, ch 1, ..." behind a cut yarn: a row of its own, where rows bear no numbers."""
        above = self.open
        if above is None or above.head.last or not _CUT_LAST.search(above.low.strip()) or not _REJOINS.match(low):
            return False
        self._begin_row(index, Head("Next Row", 0, 0, above.head.is_round, "", 0, 0, True, named=True), text, 1)
        return True

    def _joined_apart(self, index: int, text: str, low: str) -> bool:
        """ "Join B in any corner." on a line of its own below a round: where the next one begins."""
        above = self.p.drafts[-1] if self.p.drafts else None
        if above is None or self.fresh_part or self.pending is not None or not above.head.last:
            return False
        following = self._next_head(index)
        if following is None or following.first != above.head.last + 1 or not _JOINS_THERE.fullmatch(low):
            return False
        above.go_on(self.p.first_line + index, text)
        return True

    def _loops_ahead(self, index: int, text: str, low: str) -> bool:
        """Whether a line before a row's head says nothing but which loops it is worked in; if so that is kept for it."""
        below = next((n for n in range(index + 1, len(self.p.low)) if self.p.low[n].strip()), 0)
        told = telling.loops_ahead(low) if below and names_row(self.p.low[below]) else None
        if told is None:
            return False
        self.loops, self.loops_on = told[0], told[0] if told[1] else ""
        self._close()
        self.p.prose.append((self.p.first_line + index, text.strip()))
        return True

    def _starred(self, line: int, text: str, low: str) -> bool:
        """Whether a line is said to the reader between stars; if so it is kept."""
        if _STARRED_NOTE.fullmatch(low.strip()) is None:
            return False
        self._remark(line, text, low)
        return True

    def _begins_behind_key(self, line: int, text: str, low: str) -> bool:
        """Whether a line behind a list of abbreviations is the beginning of a piece and no explanation: its ring, with the
        first row to come."""
        lead = part_lead(low, text).strip(" -:.")
        start = start_of(text.strip(), low, line, self.p.terms) if lead and not _no_piece(lead) else None
        return start is not None and start.how == "ring" and telling.FORMS_RING.search(low) is not None and self._row_one_follows(line)

    def _told_apart(self, line: int, text: str, low: str) -> bool:
        """Whether a line is an abbreviation explained in brackets; if so it is learnt."""
        told = _ALL_BRACKETED.fullmatch(low)
        return told is not None and self._key_line(line, text[slice(*told.span("told"))], told["told"])

    def _titled(self, index: int, text: str, low: str) -> bool:
        """Whether a line behind a whole row is one that bears a name and no number; if so it is begun."""
        last = self.p.drafts[-1] if self.p.drafts and self.section == "pattern" else None
        if last is None or self.fresh_part or self.p.bare or not (last.head.count or telling.told_to_end(so_far := last.low.strip()) or telling.counted(so_far) or _TOTAL_LAST.search(so_far)):
            return False
        lead = len(low) - len(low.lstrip())
        found = titled_row(low, self._others(low))
        if found is None and (part := part_row(low.lstrip())) is not None and text.lstrip()[:1].isupper():
            found = part[0], lead + part[1]
        if found is None:
            return False
        name, at = found
        rows = rows_in(low[at:])
        following = self._next_head(index)
        is_round = last.head.is_round if len(rows) == 1 and not _TURNS.search(low[at:]) else False
        apart = last.head.is_round and _TURNS.search(low[at:])
        if not is_round and (apart or (following is not None and following.first == 1 + len(rows))):
            self._name_part(name.title(), "")
            heads = [Head(f"Row {n}", n, n, False, "", 0, 0, True) for n in range(1, len(rows) + 1)]
        else:
            label = name if name.split()[-1] in ("row", "rnd", "round") else f"{name} {'rnd' if is_round else 'row'}"
            heads = [Head(label.title(), 0, 0, is_round, "", 0, at, True, named=True)]
            heads += [Head("Row", 0, 0, False, "", 0, 0, True, count=1) for _ in rows[1:]]
        for head, (start, end) in zip(heads, rows, strict=True):
            self._begin_row(index, head, text[at + start : at + end], at + start + 1)
        return True

    def _more_rows(self, low: str) -> Head | None:
        """The head of rows that a line says further, without numbers."""
        last = self.p.drafts[-1].head if self.p.drafts else None
        return (further_rows(low) or repeated_rows(low, last.last) or repeated_until(low, last)) if last is not None else None

    def _goes_on_alike(self, index: int, text: str, low: str) -> bool:
        """Whether a line says further rows without numbers; if so they are begun."""
        if self._comes_again_twice(index, text, low):
            return True
        more, end = self._more_rows(low), len(low)
        if more is None and self._said_again(index, text, low):
            return True
        if more is None and (end := self._first_sentence(low)):
            more = self._more_rows(low[:end])
        if more is None:
            more, end = self._again_up_to(index, low), len(low)
        if more is None and self._this_again(index, low):
            return True
        if more is None:
            return False
        if end < len(low):
            self._pass(self.p.first_line + index, text[end:])
        if more.until:
            self._begin_row(index, more, without_until(low[:end], text[:end]), 1)
            return True
        said = _FIRST_ROW.sub(lambda m: f"{m['word']} 1".ljust(len(m[0])), " " * more.start + text[more.start : end])
        self._begin_row(index, more, as_last(low[:end], without_total(low[:end], counted_at_end(low[:end], said, more.count))), 1)
        return True

    def _so_far(self, head: Head, index: int, *, alone: bool) -> SoFar:
        """What stands above a line, behind a row of this head: rows without a number count on from the last that has one."""
        last = 0
        for draft in self.p.drafts:
            own = draft.head
            last = own.last or (last and last + max(own.count, 1))
        if not self.p.drafts or self.p.drafts[-1].head is not head:
            last = head.last or (last and last + 1)
        if self.formed is None:
            told = [(at, found) for at, low in enumerate(self.p.low) for found in FORMS.finditer(low)]
            self.formed = [(at, int(found["a"]), int(found["b"] or found["a"])) for at, found in told]
            named = yarn_names("\n".join(self.p.raw))
            self.yarns = frozenset(name.lower() for short, long in named for name in (short, long))
        pattern = next(((a, b) for at, a, b in reversed(self.formed) if at <= index), (0, 0))
        pattern = pattern if 0 < pattern[0] <= pattern[1] <= last else (0, 0)
        return SoFar(last, pattern, self.yarns, "rnd" if head.is_round else "row", alone=alone)

    def _again_told(self, low: str, head: Head, index: int, *, alone: bool = False) -> tuple[RowsAgain, ...]:
        """The rows that a sentence behind a row of this head says again in words of its own; `alone` on a line of its own
        behind a whole row, where "rep 3 times" is said of that row."""
        return rows_again(low, self._so_far(head, index, alone=alone)) if MAYBE_AGAIN.search(low) else ()

    def _said_again(self, index: int, text: str, low: str) -> bool:
        """Whether a line says further rows by rows, in words of its own; if so they are begun."""
        last = self.p.drafts[-1].head if self.p.drafts else None
        if last is None or self.fresh_part or not self.p.drafts[-1].low.strip() or not MAYBE_AGAIN.search(low):
            return False
        above = self.p.drafts[-1].low.strip(" .")
        alone = "*" not in above and telling.is_whole(above)
        told: list[RowsAgain] = list(self._again_told(low, last, index, alone=alone))
        beside: list[str] = []
        for start, end in telling.sentences(low) if not told else ():
            if further := self._again_told(low[start:end], last, index, alone=alone):
                told += further
            elif FORMS.search(low[start:end]) or telling.FASTEN.match(low[start:end].strip()) or is_prose(low[start:end]):
                beside.append(text[start:end].strip())
            else:
                return False
        following = self._next_head(index)
        room = following.first - last.last - 1 if following is not None and following.first > 1 and last.last else 0
        if not told or (room and room != sum(again.count for again in told)):
            return False
        self._begin_again(index, text, told, 1)
        for said in beside:
            self._pass(self.p.first_line + index, said)
        return True

    def _begin_again(self, index: int, text: str, told: Sequence[RowsAgain], column: int) -> None:
        """Begin the rows that a line says again, each run of them with its yarn."""
        is_round = self.p.drafts[-1].head.is_round
        for again in told:
            self.colour = telling.yarn_name(text, plain(text), again.yarn) if again.yarn else self.colour
            head = Head("Rnd" if is_round else "Row", 0, 0, is_round, "", 0, 0, True, count=again.count)
            self._begin_row(index, head, again.said, column)

    def _again_up_to(self, index: int, low: str) -> Head | None:
        """The head of rows that come again without a number of times, where the next row's number says how many."""
        last = self.p.drafts[-1].head.last if self.p.drafts else 0
        following = self._next_head(index) if last and telling.REPEATED.match(low.strip()) else None
        return repeated_up_to(low, last, following.first) if following is not None else None

    def _this_again(self, index: int, low: str) -> bool:
        """Whether a line says the last row again ("Do this 5 more times") before the row whose number that leaves room
        for; if so those rows are begun."""
        last = self.p.drafts[-1].head if self.p.drafts and (not self.open or self.open.low.strip()) else None
        following = self._next_head(index) if last is not None and last.last else None
        more = last_again(low, last.last, following.first) if last is not None and following is not None else None
        if more is None or last is None:
            return False
        self._begin_row(index, replace(more, is_round=last.is_round, label=last.label.split()[0].rstrip("s")), "Repeat last row", 1)
        return True

    def _comes_again_twice(self, index: int, text: str, low: str) -> bool:
        """Whether a line says rows that come again and then others that do; if so both are begun."""
        last = self.p.drafts[-1].head if self.p.drafts else None
        twice = repeated_twice(low, last.last) if last is not None else None
        if twice is None:
            return False
        end, first, second, said = twice
        self._begin_row(index, first, text[:end], 1)
        self._begin_row(index, second, said, end + 1)
        return True

    def _first_sentence(self, low: str) -> int:
        """Where the first sentence of a line ends behind which nothing is worked: "Rep row 2 until there are 40 rows. Sew
        the ends together."; 0 where there is none."""
        pieces = telling.sentences(low)
        talk = len(pieces) > 1 and all(is_prose(low[a:b]) or telling.sews(low[a:b]) for a, b in pieces[1:])
        return pieces[0][1] if talk and self._more_rows(low[: pieces[0][1]]) is not None else 0

    def _close(self) -> None:
        if self.open and self.open.low.strip():
            self.open.done = True

    def _key_line(self, line: int, text: str, low: str) -> bool:
        """A line of a list of abbreviations."""
        found = False
        if (marked := columns_marked(text)) != text:
            text, low = marked, plain(marked)
        if (self._row_one_follows(line) or self._row_below(line)) and start_of(text.strip(), low, line, self.p.terms, "") is not None:
            self.section = "pattern"  # "Star: ch 6; join to form a ring." right below the list begins the work
            return False
        if re.fullmatch(r"\s*[a-z0-9]{1,8}\.\s*", low):
            self.key_name = text.strip(" .")
            return True
        if self.key_name:
            text, self.key_name = f"{self.key_name}: {text.strip()}", ""
            low = plain(text)
        for start, end in pairs(low):
            part = text[start:end].strip()
            if (space := space_named(low[start:end])) is not None:
                self.p.call_space(*space)
                found = True
                continue
            defined = read_definition(part, line, self.p.words, self.p.specials, sure=True)
            if defined is None:
                continue
            found = True
            if defined.special is not None:
                self.p.own(defined.special)
            elif defined.phrase:
                self.p.call(defined.spelled, defined.phrase)
        self._first_as(line, text, low)
        self.p.conventions.take(low, self.p.words)
        if found or not (chain_in(low) or telling.is_heading(text, low)):
            self.p.prose.append((line, text.strip()))
            return True
        return False

    def _first_as(self, line: int, text: str, low: str) -> bool:
        """ "The first OM of a row is worked as ch 5, ...": what stands for a stitch where it begins a row."""
        known = {form: s for s in self.p.specials.values() for form in (plain(s.name), plain(s.abbreviation))}
        taken = False
        for found in first_worked_as(low):
            special = known.get(found["name"])
            if special is None:
                continue
            name = first_name(special.abbreviation)
            said = words_of_first(text[found.start("words") : found.end("words")])
            begun = define(name, name, said, self.p.words, self.p.specials, line)
            if begun is not None:
                begun = as_first(begun, self.p.words)
                self.p.own(begun)
                self.p.firsts[name] = begun
                taken = True
        return taken

    # -- rows without a head ---------------------------------------------------------------------------------------

    def _unheaded(self, index: int, text: str, low: str) -> bool:
        """Whether a line works a row that has no head; if so it is begun."""
        if self.p.unheaded:
            if self.section == "key" or not is_row(low) or self._explains(index, text):
                return False
            above = self.p.drafts[-1] if self.p.drafts and not self.pending else None
            if above is not None and low.lstrip().startswith("*") and not telling.is_whole(above.low.strip()):
                above.go_on(self.p.first_line + index, text)  # the repeat of a row whose first stitches stand above it
                above.done = not telling.breaks_off(above.low)
                return True
            for start, end in rows_in(low):
                number = self.p.drafts[-1].head.last + 1 if self.p.drafts and not self.pending else 1
                head = Head(f"Row {number}", number, number, None, "", start, start, marked=True)
                self._begin_row(index, head, text[start:end].rstrip(), start + 1)
            self.p.drafts[-1].done = not telling.breaks_off(low)
            return True
        if (self.p.bare and self.p.drafts) or self.section == "key":
            return False
        last = 0 if self.fresh_part or self.pending or not self.p.drafts else self.p.drafts[-1].head.last
        below, second = self._before_second(index)
        below = low if self.behind else below or self._paragraph(index)
        begun = self.pending is not None
        told = first_row(low, below, self.behind or second or self._wrapped_head(index) or self._next_head(index), last, begun=begun)
        lead = part_lead(low, text)
        piece = bool(lead) and not begins_gathered(lead.strip(" -:.")) and whole_piece(low, text, self._others(low))
        said = max(len(lead), first_round(low) or 0)
        alone = first_round(low) is not None and not worked_by(low[:said].strip(" -:."), self._others(low))
        if told is None or (last and told.named) or (self._explains(index, text) and not (piece or alone)):
            return False
        if lead:
            self._name_part(lead.strip(" -:.").title(), "")
        self._begin_row(index, told, " " * said + text[said:], 1)
        return True

    def _piece_in_a_line(self, index: int, text: str, low: str) -> bool:
        """Whether a line is a whole piece of one row, named before it or above it; if so it is begun."""
        lead = part_lead(low, text)
        if self.section in ("key", "finishing", "facts") or not (lead or self.fresh_part) or not (self.p.drafts or (lead and self.p.unheaded)):
            return False
        rounds = rounds_of_piece(low, text, self._others(low))
        if not (rounds or whole_piece(low, text, self._others(low))) or self._head_below(index):
            return False
        if lead:
            self._name_part(lead.split("(")[0].strip(" -:.").title(), lead)
        if not rounds:
            self._begin_row(index, Head("Row 1", 1, 1, None, "", 0, 0, marked=True), " " * len(lead) + text[len(lead) :], 1)
        number = 0
        for start, end, many in rounds:
            first, number = number + 1, number + many
            label = f"Rnds {first}-{number}" if many > 1 else f"Rnd {first}"
            self._begin_row(index, Head(label, first, number, True, "", start, start, marked=True), text[start:end].rstrip(), start + 1)
        self.p.drafts[-1].done = low.rstrip().endswith((".", ")", "!"))
        return True

    def _others(self, low: str) -> list[str]:
        return [other for other in self.p.low if other is not low]

    def _head_below(self, index: int) -> bool:
        """Whether the next line that says anything is a row's head."""
        below = next((low for low in self.p.low[index + 1 :] if low.strip()), "")
        return bool(below) and self._head(below) is not None

    def _explains(self, index: int, text: str) -> bool:
        """Whether a line explains a stitch, without learning it."""
        line = self.p.first_line + index
        marked = re.match(r"\s*[^:=]{1,60}[:=]|\s*an? [^:=.,]{1,40} is ", text, re.IGNORECASE) is not None
        dashed = not marked and re.match(r"\s*[^:=]{1,60}\s-", text) is not None and self._names_its_stitch(plain(text))
        return (marked or dashed) and (
            read_definition(text.strip(), line, self.p.words, self.p.specials) is not None
        )

    def _names_its_stitch(self, low: str) -> bool:
        """Whether a line begins with the name of a stitch that lines of work use, and a mark: "Picot: ch 3, ...", "Cl
        (cluster) = ...", "Bead sc: slide ..." below a row is no more work of that row."""
        found = _STITCH_NAMED.match(low)
        names = [name.strip() for name in (found["name"], found["abbr"] or "") if name.strip()] if found else []
        return any(_is_stitch(name) for name in names) and any(worked_by(name, self._others(low)) for name in names)

    def _paragraph(self, index: int) -> str:
        """A line and those below it, down to an empty one or a row's head."""
        out = [self.p.low[index]]
        for low in self.p.low[index + 1 :]:
            if not low.strip() or self._head(low):
                break
            out.append(low)
        return "\n".join(out)

    def _before_second(self, index: int) -> tuple[str, Head | None]:
        """A first line of work and those right below it, up to the second row's head inside one of them, and that head:
        "... turn. 2nd Row. Ch 3"; nothing where there is none."""
        if self.p.drafts or self.behind:
            return "", None
        out = [self.p.low[index]]
        for low in self.p.low[index + 1 : index + 1 + _MOST_FIRST_LINES]:
            if not low.strip() or self._head(low):
                break
            inner = inner_heads(low, -1, 1)
            if inner and inner[0].first == 2:
                return "\n".join((*out, low[: inner[0].start])), inner[0]
            out.append(low)
        return "", None

    # -- rows that go on ------------------------------------------------------------------------------------------

    def _continues(self, index: int, text: str, low: str) -> bool:
        """Whether a line goes on with the row above it; if so it is taken."""
        draft = self.open
        if draft is None:
            return False
        body = low.strip()
        if self._wrapped_aside(index, low):
            self._pass(self.p.first_line + index, text)
            return True
        so_far = draft.low.strip()
        empty = not so_far
        bare = empty or telling.only_begun(so_far)
        ended = so_far.endswith((".", ")", "]", "}", "!")) or bool(
            re.search(r"(?:\b(?:turn|join|across|around|sts?|end|times|h?dc|h?tr|sc|dtr|inc|dec)|\d)$", so_far)
        )
        if not empty and (self._sent_back(index, text, draft) or self._closes(index, text, low, draft)):
            return True
        if empty and self._names_yarn(text, low, draft):
            return True
        if empty and re.fullmatch(r"[a-z][a-z -]{1,30}", body) and not telling.workish(body):
            return True
        if self.p.unheaded and telling.counted(so_far) and telling.workish(low) and works(so_far) and not low.lstrip().startswith(("(", "[", "*")):
            draft.done = True  # rows without heads: a counted one is whole
            return False
        step = telling.STEP.match(low)
        if (bare or self.numbered) and step and telling.workish(low[step.end() :]):
            self.numbered = True
            draft.go_on(self.p.first_line + index, " " * step.end() + text[step.end() :])
            return True
        goes_on = so_far.endswith((",", ";", "-")) or telling.unfinished(so_far, body) or telling.opens_behind(so_far, body)
        if self.blank and not bare and not goes_on:
            draft.done = not telling.workish(body)
            return False
        if not bare and self._heads_part(index, text, low, draft, ended=ended):
            return False
        named = _NAMED.match(low) if not bare else None
        told = named is not None and worked_by(named["name"].strip(), self._others(low))
        named_so = not bare and self._names_its_stitch(low)
        if not bare and (told or _EQUALS.match(low) or named_so) and self._explains(index, text):
            return False
        if named_so and telling.is_whole(so_far.rstrip(" .")):
            self.p.prose.append((self.p.first_line + index, text.strip()))
            draft.done = True
            return True
        if not bare and (self._begins_piece(index, low, so_far) or begins_named(text)):
            return False
        rows_only = not empty and telling.SAYS_ROWS.fullmatch(so_far) is not None
        whole = not empty and (telling.counted(so_far) or rows_only)
        if whole and (is_prose(low) or (rows_only and not telling.workish(body) and not telling.goes_on(body) and not re.search(r"\d", body))):
            self._pass(self.p.first_line + index, text)
            return True
        if self._is_beside(text, low, ended=ended):
            return self._beside(index, text, low, draft, bare=bare)
        if telling.HEAD_WORD.match(body) or telling.FACTS.match(body):
            return False
        if self.section == "key":
            return False
        self._go_on(index, text, low, draft, alone=empty)
        return True

    @staticmethod
    def _names_yarn(text: str, low: str, draft: Draft) -> bool:
        """Whether a line below a head says nothing but the yarn of its row; if so the row has it."""
        body = low.strip()
        found = telling.COLOUR_LINE.match(body)
        if found is None and not re.match(r"^(?:colou?r|yarn) [a-z0-9]+:?$", body):
            return False
        if found and found["name"] not in ("each", "the"):
            draft.colour = telling.yarn_name(text, low, found["name"])
        return True

    def _go_on(self, index: int, text: str, low: str, draft: Draft, *, alone: bool) -> None:
        """Take a line to the row above it; below a head that stands `alone`, further rows said in it begin there."""
        further = self._split_off(low, draft.head, self._next_head(index), index) if alone else []
        draft.go_on(self.p.first_line + index, text[: further[0][0]].rstrip() if further else text)
        self._begin_further(index, text, further)

    def _begin_further(self, index: int, text: str, further: list[tuple[int, Head]], base: int = 0) -> None:
        """Rows that sentences of a line say without a number, each from where it begins behind `base` to the next."""
        cuts = [base + at for at, _ in further]
        for (_, more), at, stop in zip(further, cuts, [*cuts, len(text)][1:], strict=True):
            if more.until:
                self._begin_row(index, more, without_until(plain(text[at:stop]), text[at:stop].rstrip()), at + 1)
                continue
            last = self.p.drafts[-1].head
            known = further_rows(plain(text[at:stop]).strip()) or repeated_rows(plain(text[at:stop]).strip(), last.last)
            if known is None and (told := self._again_told(plain(text[at:stop]), last, index)):
                self._begin_again(index, text[at:stop], told, at + 1)
                continue
            said = without_total(plain(text[at:stop]), text[at:stop].rstrip())
            said = counted_at_end(plain(said), said.rstrip(), more.count)
            self._begin_row(index, more, as_last(plain(said), said), at + 1)

    def _is_step(self, index: int, draft: Draft) -> bool:
        """Whether a line is one of the steps of a row, each with the bullet of the one right below the row's head, which has
        none: "Work:" among them is no heading."""
        marks = [bullet(self.p.raw[n]) for n in range(draft.line - self.p.first_line, index + 1)]
        return len(marks) > 1 and not marks[0] and bool(marks[1]) and marks[-1] == marks[1]

    def _heads_part(self, index: int, text: str, low: str, draft: Draft, *, ended: bool) -> bool:
        """Whether a line below a row's words is the heading of another part."""
        if not telling.is_heading(text, low) or telling.workish(low.strip()) or self._is_step(index, draft):
            return False
        return ended or text.strip().isupper() or self._rows_restart(index, draft.low.strip())

    def _beside(self, index: int, text: str, low: str, draft: Draft, *, bare: bool) -> bool:
        """A line below a row that names no work; False where it is the heading of a part. A step that might be one
        elsewhere is talk, or a part of its row ("Work:", "Corners:")."""
        heading = telling.is_heading(text, low)
        if not heading or telling.COLOUR_LINE.match(low.strip()) or not self._is_step(index, draft):
            if heading and not bare:
                return False
            self._aside(index, text, low)
        elif is_prose(low) or _VERB_ALONE.fullmatch(low):
            self._pass(self.p.first_line + index, text)
        else:
            draft.go_on(self.p.first_line + index, text)
        return True

    def _wrapped_aside(self, index: int, low: str) -> bool:
        """Whether a line goes on with the sentence of talk that the line above it broke off."""
        above = self.p.low[index - 1].strip() if index else ""
        told = self.p.prose[-1] if self.p.prose else (0, "")
        if not above or told[0] != self.p.first_line + index - 1 or plain(told[1]) != above:
            return False
        broken = not above.endswith((".", "!", "?", ":", ")", "]")) and self.p.lines[index].strip()[:1].islower()
        return broken and not _STITCH.search(low)

    def _sent_back(self, index: int, text: str, draft: Draft) -> bool:
        """Whether a line tells that the repeat which the row above it has opened comes again; if so it is taken."""
        if not telling.sent_back(draft.low.strip(), self.p.low[index].strip()):
            return False
        draft.go_on(self.p.first_line + index, text)
        draft.done = self.p.unheaded and not telling.breaks_off(draft.low)
        return True

    def _closes(self, index: int, text: str, low: str, draft: Draft) -> bool:
        """Whether a line below a row's words goes on behind a word that cannot be the last, or is its count, what comes
        again, or the end of the yarn."""
        hangs = telling.hangs_over(draft.low.strip(), text.strip()) if self.blank else telling.hangs(draft.low.strip())
        if hangs and low.strip()[:1].isalnum():
            draft.go_on(self.p.first_line + index, text)
            return True
        if self._count_line(index, low, draft):
            return True
        whole = telling.told_to_end(so_far := draft.low.strip()) or telling.counted(so_far) or so_far.endswith(".")
        if (whole or _SAYS_AGAIN.match(so_far)) and telling.sews(low):
            self.p.prose.append((self.p.first_line + index, text.strip()))
            draft.done = True
            return True
        if whole and self._said_of_rows(low):
            self.p.prose.append((self.p.first_line + index, text.strip()))
            return True
        if (whole or telling.is_whole(so_far)) and telling.says_beginnings(low) and telling.begins_raised(so_far):
            self.p.prose.append((self.p.first_line + index, text.strip()))
            self.p.conventions.take(low, self.p.words)
            return True
        if telling.REPEATED.match(low.strip()):
            self._repeat_line(index, text, low)
            return True
        if telling.FASTEN.match(low.strip()):
            self._fasten(index, text, low)
            return True
        return False

    def _said_of_rows(self, low: str) -> bool:
        """Whether a line says of several rows nothing but what holds for them; if so it is taken."""
        found = _OF_ROWS.match(low)
        clauses = [part for part in re.split(r"[.;]", found["said"]) if part.strip()] if found else []
        tried = Conventions()
        if not clauses or not all(tried.take(part, self.p.words) for part in clauses):
            return False
        return self.p.conventions.take(low[found.start("said") :], self.p.words) if found else False

    def _count_line(self, index: int, low: str, draft: Draft) -> bool:
        """ "Stitch count: 24" below a row: the row's count."""
        alone = telling.COUNT_ALONE.match(low) if telling.told_to_end(draft.low.strip()) else None
        count = telling.COUNT_LINE.match(low) or alone
        if not count:
            return False
        draft.go_on(self.p.first_line + index, (" " * (count.start("n") - 1) if count.start("n") else "") + f"({count['n']})")
        return True

    def _is_beside(self, text: str, low: str, *, ended: bool) -> bool:
        """Whether a line below a row is no part of it: it names no work and is talk, or begins anew."""
        body = low.strip()
        if _SWATCH.match(body):
            return True
        if telling.workish(body) or telling.goes_on(body) or not (ended or is_prose(low)):
            return False
        if re.match(r"^[([{]?\s*\d+\s*(?:sts?|sc|dc|hdc|stitches)?\b", body):
            return False
        return is_prose(low) or not re.match(r"[a-z(\[*,]", text.strip()[:1]) or bool(telling.FASTEN.match(body))

    def _fasten(self, index: int, text: str, low: str) -> None:
        """ "Fasten off, leaving a long tail": the end of the row, and what is done with the yarn."""
        draft = self.open
        assert draft is not None
        line = self.p.first_line + index
        found = re.match(r"\s*(?:fasten off|finish off|f/?o\b|break off|end off|bind off|tie off)", low)
        joined = _JOINS_BEHIND.match(low, found.end()) if found else None
        if found:
            draft.go_on(line, text[: joined.end() if joined else found.end()])
        self.p.prose.append((line, text.strip()))
        draft.done = True

    def _aside(self, index: int, text: str, low: str) -> None:
        """A line between rows that is no part of one: talk, a colour, a convention."""
        line = self.p.first_line + index
        self._sentences(line, text, low)

    def _begins_piece(self, index: int, low: str, so_far: str) -> bool:
        """Whether a line behind a whole row begins another piece: a chain or ring, with row 1 to come."""
        start = start_of(low, low, 0, self.p.terms)
        if start is None or _MID_CLAUSE.match(low):
            return False
        following = self._next_head(index)
        if start.how == "chain" and start.count <= 6 and not re.search(r"ring|join", low):
            return following is not None and following.first == 1
        return following is None or following.first <= 1 or following.named

    def _rows_restart(self, index: int, so_far: str) -> bool:
        """Whether rows are numbered anew below a line, as those of another piece are."""
        following = self._next_head(index)
        restarts = following is not None and following.first == 1 and self.p.drafts[-1].head.last >= 1
        return restarts and not telling.hangs(so_far)

    def _grows_on(self, index: int, text: str, low: str) -> bool:
        """ "Continue in this way, increasing 6 sts each round until you have 36 sts" before Round 7, behind Round 4: the
        rounds between; the number is that of the last."""
        if (named := telling.grows_by_number(low)) is not None and self.p.drafts and self.p.drafts[-1].head.last == named.first - 1:
            is_round = self.p.drafts[-1].head.is_round
            label = f"{self.p.drafts[-1].head.label.split()[0].rstrip('s')}s {named.first}-{named.last}"
            self._begin_row(index, Head(label, named.first, named.last, is_round, "", 0, 0, True), named.words(text), 1)
            return True
        if self._until_counted(index, text, low) or self._grown_to_row(index, low):
            return True
        found = _GROWS_ON.match(low)
        last = self.p.drafts[-1].head if self.p.drafts else None
        following = self._next_head(index) if found and last is not None and last.last else None
        if found is None or last is None or following is None or following.first - last.last < 2:
            return False
        said = f"({found['n']} {found['noun']} at end)".ljust(found.end() - found.start("until"))
        if len(said) > found.end() - found.start("until"):
            return False
        kind = last.label.split()[0].rstrip("s")
        head = Head(kind, 0, 0, last.is_round, "", 0, 0, True, count=following.first - last.last - 1)
        self._begin_row(index, head, text[: found.start("until")] + said + text[found.end() :], 1)
        return True

    def _grown_to_row(self, index: int, low: str) -> bool:
        """ "Work in this way with one more htr in each row until row 14": the last row again, where it grew by as many."""
        told = telling.grows_to_row(low)
        last = self.p.drafts[-1].head if told is not None and self.p.drafts else None
        counts = [n for draft in self.p.drafts[-2:] if (n := _count_at_end(draft.low)) is not None]
        if told is None or last is None or not 0 < last.last < told[1] or len(counts) != 2 or counts[1] - counts[0] != told[0]:
            return False
        rows = told[1] - last.last
        head = Head(last.label.split()[0].rstrip("s"), 0, 0, last.is_round, "", 0, 0, True, count=rows)
        self._begin_row(index, head, f"Repeat last row ({counts[1] + rows * told[0]} at end)", 1)
        return True

    def _until_counted(self, index: int, text: str, low: str) -> bool:
        """ "Work as Row 3 until you have 15 dc": as many rows as it takes at what the last row grew or shrank by."""
        found = _UNTIL_COUNT.match(low)
        counts = [n for draft in self.p.drafts[-2:] if (n := _count_at_end(draft.low)) is not None]
        last = self.p.drafts[-1].head if self.p.drafts else None
        if last is not None and (grown := grown_to(low, counts)) is not None and not low[grown[1] :].strip(" ."):
            start, end, rows, count = grown
            following = self._next_head(index)
            if following is not None and following.first and following.first != last.last + rows + 1 and last.last:
                return False
            head = Head(last.label.split()[0].rstrip("s") if last.last else "Row", 0, 0, last.is_round, "", 0, 0, True, count=rows)
            self._begin_row(index, head, text[:start] + f" ({count} at end)".ljust(end - start) + text[end:], 1)
            return True
        if found is None or last is None or (found["row"] and int(found["row"]) != last.last):
            return False
        following = self._next_head(index)
        if len(counts) != 2 or counts[0] == counts[1]:
            rows, over = (following.first - last.last - 1 if following is not None and last.last else 0), 0
        else:
            rows, over = divmod(int(found["n"]) - counts[1], counts[1] - counts[0])
        if over or rows < 1 or (following is not None and following.first and following.first != last.last + rows + 1 and last.last):
            return False
        said = f"({found['n']} {found['noun']} at end)".ljust(found.end() - found.start("until"))
        kind = last.label.split()[0].rstrip("s")
        head = Head(kind if last.last else "Row", 0, 0, last.is_round, "", 0, 0, True, count=rows)
        self._begin_row(index, head, "Repeat last row " + said, 1)
        return True

    def _as_piece(self, index: int, text: str, low: str) -> bool:
        """ "Work as for the front to the end of Row 4": the first rows of a piece, which are another's."""
        named = _PIECE_NAMED.match(low) if self.p.drafts else None
        known = {
            name: draft.part for draft in self.p.drafts if draft.part and (named or draft.part != self.part) for name in names_of_piece(plain(draft.part))
        }
        alike = piece_again(low[named.end() :] if named else low, known) if named or self.fresh_part else None
        if alike is None or (named and plain(named["name"]) in known):
            return False
        others = [draft for draft in self.p.drafts if draft.part == known[alike.piece]]
        following = self._next_head(index)
        last = alike.last or (following.first - 1 if following and following.first > 1 else max(d.head.last for d in others))
        if following is not None and following.first == last > 1 and not _WITH_IT.search(low, alike.start, alike.end):
            last -= 1  # "work as first motif to Rnd 2", which is told anew
        if last < 1 or (following is not None and following.first > 1 and following.first != last + 1):
            return False
        if named:
            self._name_part(named["name"].title(), "")
            text = " " * named.end() + text[named.end() :]
        kind, is_round = others[0].head.label.split()[0].rstrip("s"), others[0].head.is_round
        label = f"{kind}s 1-{last}" if last > 1 else f"{kind} 1"
        self.pending = self.pending or others[0].start
        self._begin_row(index, Head(label, 1, last, is_round, "", 0, 0, True), text, 1)
        self.p.drafts[-1].done = True
        return True

    def _next_head(self, index: int) -> Head | None:
        bare = self.bare_part
        found = next((found for low in self.p.low[index + 1 :] if low.strip() and (found := self._head(low))), None)
        self.bare_part = bare
        return found

    def _wrapped_head(self, index: int) -> Head | None:
        """The head that stands inside the next line, behind the end of what this line broke off."""
        below = self.p.low[index + 1] if index + 1 < len(self.p.low) else ""
        if not below.strip() or self._head(below) or self.p.low[index].rstrip().endswith((".", ")", ":")):
            return None
        inner = self._inner(below, 0)
        return inner[0] if inner and inner[0].start > 0 and works(below[: inner[0].start]) else None

    def _repeat_line(self, index: int, text: str, low: str) -> None:
        """ "Repeat Row 2 until ...": rows that go on at will."""
        line = self.p.first_line + index
        if self.p.drafts:
            self.p.drafts[-1].done = self.p.drafts[-1].at_will = True
        self.p.notes.append(Note("Pattern", f'goes on at will: "{text.strip()[:80]}"', line))

    # -- sentences ------------------------------------------------------------------------------------------------

    def _sentences(self, line: int, text: str, low: str) -> None:
        if re.match(r"\s*[^:=]{1,60}[:=]", low) or shape_told(low):
            if self._several_defined(line, text, low):
                return
            further = [m.end() for m in _FURTHER.finditer(low)]
            told = [self._defined(line, text[a:b]) for a, b in zip([0, *further], [*further, len(text)], strict=True)]
            if told[0]:
                return
        pieces = telling.sentences(low)
        left: list[tuple[int, int]] = []
        for number, (start, end) in enumerate(pieces):
            sentence, said = text[start:end], low[start:end]
            last = number + 1 == len(pieces)
            following = self._ring_closed(line) if last else low[pieces[number + 1][0] : pieces[number + 1][1]]
            if not self._sentence(line, sentence, said, following, whole=len(pieces) == 1):
                left.append((start, end))
        if len(left) == len(pieces) and not self._headless(line, text, low):
            self._remark(line, text, low)
        elif len(left) < len(pieces):
            for a, b in left:
                if works(low[a:b]) and not telling.CLOSES_RING.fullmatch(low[a:b]):
                    self._pass(line, text[a:b])

    def _ring_closed(self, line: int) -> str:
        """The next line, where it does nothing but close the chain above it to a ring."""
        below = next((low for low in self.p.low[line - self.p.first_line + 1 :] if low.strip()), "")
        return below if telling.CLOSES_RING.fullmatch(below) else ""

    def _headless(self, line: int, text: str, low: str) -> bool:
        """Work under the heading of a border, with no row's head before it: the heading is its name."""
        border = self.fresh_part and telling.BORDER.search(self.part.lower()) and telling.BEGINS.match(low)
        if not border and not self._stands_alone(line, low):
            return False
        if not telling.workish(low) or (_JOINS_ANYWHERE.fullmatch(low) and self._row_one_follows(line)):
            return False
        index = line - self.p.first_line
        column = self.p.lines[index].find(text) + 1
        around = re.search(r"a?round\b|corner", low) is not None
        head = Head("Rnd" if around else "Row", 0, 0, around, "", 0, 0, True, named=True)
        self._begin_row(index, head, text, max(column, 1))
        return True

    def _stands_alone(self, line: int, low: str) -> bool:
        """Whether a line behind the last row of a piece, with an empty one between, is a row that bears no name."""
        if not self.blank or self.section != "pattern" or not self.p.drafts or not names_work(low) or not works(low):
            return False
        following = self._next_head(line - self.p.first_line)
        return following is None or (following.first == 1 and self.p.drafts[-1].head.last > 1)

    def _sentence(self, line: int, text: str, low: str, following: str, *, whole: bool) -> bool:
        body = low.strip()
        multiple = multiple_in(body) or (None if self.p.drafts else measured_in(body))
        if self._starts(line, text, low, following):
            return True
        if self.fresh_part and self.p.drafts and is_lift(low) and self._row_one_follows(line):
            self.pending = Start("chain", 1, "ch", None, line, text.strip())
            return True
        if multiple and not (self.p.drafts and self.p.multiple):
            self.p.multiple = multiple
            self._sample(line, text, sample_in(body))
            return True
        if self.p.multiple and (sample := sample_in(body)) and self._sample(line, text, sample):
            return True
        capitals = not whole and telling.in_capitals(text) and self._row_one_follows(line)
        titled = telling.is_heading(text.rstrip(" .") if capitals else text, low) and not told_in_bracket(low)
        if (whole or capitals) and titled and not telling.COLOUR_LINE.match(body):
            self._name_part(telling.title_of(text), low)
            return True
        colour = telling.COLOUR_LINE.match(body)
        if (
            colour
            and len(body.split()) <= 8
            and not re.match(r"(?:right|wrong|rs|ws|a|the|each|this|your|rows?|rounds?)\b", colour["name"])
        ):
            self.colour = telling.yarn_name(text, low, colour["name"])
            return True
        if telling.REPEATED.match(body) and self.p.drafts:
            self.p.drafts[-1].at_will = True
            self.p.notes.append(Note("Pattern", f'goes on at will: "{text.strip()[:80]}"', line))
            return True
        if (space := space_named(low)) is not None:
            self.p.call_space(*space)
            return True
        if self.section != "facts" or ":" in body or "=" in body:
            defined = read_definition(text.strip(), line, self.p.words, self.p.specials)
            if defined is not None:
                if defined.special is not None:
                    self.p.own(defined.special)
                elif defined.phrase:
                    self.p.call(defined.spelled, defined.phrase)
                elif len(pairs(low)) > 1:
                    self._key_line(line, text, low)
                return True
            if len(pairs(low)) > 1 and self._key_line(line, text, low):
                return True
        if self._first_as(line, text, low):
            return True
        return self.p.conventions.take(low, self.p.words)

    def _defined(self, line: int, text: str) -> bool:
        """Whether a line explains a stitch of the pattern's own; if so it is learnt."""
        defined = read_definition(text.strip(), line, self.p.words, self.p.specials)
        if defined is None or defined.special is None:
            return False
        self.p.own(defined.special)
        return True

    def _several_defined(self, line: int, text: str, low: str) -> bool:
        """Whether every sentence of a line explains a stitch of the pattern's own; if so all are learnt."""
        told = [text[start:end].strip() for start, end in pairs(low)]
        if len(told) < 2 or not all(is_told(plain(part)) for part in told):
            return False
        return all(self._defined(line, part) for part in told)

    def _starts(self, line: int, text: str, low: str, following: str) -> bool:
        start = start_of(
            text.strip(), low, line, self.p.terms, following if telling.RINGS_ON.match(following.strip()) else ""
        )
        if start is None:
            return False
        if self.p.drafts and start.how == "chain" and _LONGEST_LIFT < start.count <= MOST_FOUNDATION:
            self.told_later.append(start)
        multiple = multiple_in(low)
        if multiple and start.how == "chain" and start.count < multiple[0]:
            self.p.multiple = multiple
            self._sample(line, text, sample_in(low))
            return True
        if self.p.drafts and not self.fresh_part and not self._row_one_follows(line):
            return False
        if start.how != "magic ring" and not 0 < start.count <= MOST_FOUNDATION:
            self._too_many(start, text, line)
            return True
        if self.pending is not None and start.how == "chain" and self.pending.how in ("ring", "magic ring"):
            self.raised = f"ch {start.count}, " if is_lift(low) else ""
            return True
        self.pending = start
        self._tell_beside(line, text, low)
        lead = part_lead(low, text).strip(" -:.")
        if lead and not _no_piece(lead) and self._row_one_follows(line):
            self._name_part(lead.title(), low)
        if (not self.p.drafts and self.p.start is None) or not self.p.drafts:
            self.p.start = start
        self._close()
        return True

    def _tell_beside(self, line: int, text: str, low: str) -> None:
        """A problem for work that stands in the sentence of the foundation chain and that nothing reads."""
        there = work_beside(low) if len(low) == len(text) else None
        if there is None:
            return
        said = text[there[0] : there[1]].strip()
        shown = self.p.raw[line - self.p.first_line]
        says, remedy = f'"{said}" cannot be read as something to work', "tell it in a row of its own, or leave it out"
        self.p.problems.append(Problem("not notation", "Foundation", says, remedy, line, max(shown.find(said), 0) + 1, shown, len(said)))

    def _sample(self, line: int, text: str, count: int) -> bool:
        """Whether the text gives the foundation of its sample beside the multiple; if so it is taken."""
        of, plus = self.p.multiple or (0, 0)
        if self.pending is None and not self.p.drafts and 0 < count <= MOST_FOUNDATION and of and (count - plus) % of == 0:
            self.pending = self.p.start = Start("chain", count, "ch", self.p.multiple, line, text)
            return True
        return False

    def _row_one_follows(self, line: int) -> bool:
        following = self.behind or self._next_head(line - self.p.first_line)
        return following is not None and (following.first <= 1 or following.named)

    def _row_below(self, line: int) -> bool:
        """Whether the next line works a row, on a page whose rows have no heads."""
        below = next((low for low in self.p.low[line - self.p.first_line + 1 :] if low.strip()), "")
        return self.p.unheaded and is_row(below)

    def _too_many(self, start: Start, text: str, line: int) -> None:
        number = re.search(r"\d+", self.p.raw[line - self.p.first_line])
        column = number.start() + 1 if number else 1
        says = f"{start.count:,} stitches; this tool works from 1 to {MOST_FOUNDATION:,}"
        remedy = "use a smaller foundation" if start.count else "say how many chains"
        length = len(number[0]) if number else 1
        shown = self.p.raw[line - self.p.first_line]
        self.p.problems.append(Problem("limit", "Foundation", says, remedy, line, column, shown, length))

    def _remark(self, line: int, text: str, low: str) -> None:
        taken = self.p.conventions.take(low, self.p.words)
        multiple = multiple_in(low)
        if multiple and self.p.multiple is None:
            self.p.multiple = multiple
        if taken or (self.leaves and _TO_AND_FRO.search(low)):
            self.p.prose.append((line, text.strip()))
        else:
            self._pass(line, text)

    def _pass(self, line: int, text: str) -> None:
        """Pass over words that nothing is done with: talk, which is looked at once more where it stands among rows."""
        self.p.prose.append((line, text.strip()))
        if self.p.drafts and not self.fresh_part and self.section in ("", "pattern"):
            self.p.passed.append((line, text.strip()))
