"""The rows of a page: each row's words read, with its number, side, beginning and stated count."""

from __future__ import annotations

import itertools
import re
from collections.abc import Sequence

from ...errors import Note, Problem
from ...made_late import replace
from .. import lexicon
from ..notation.complaint import Complaint, Source
from ..notation.items import RowRead
from ..notation.meanings.apart import between_in
from ..notation.meanings.terse import joined_at_last
from ..notation.meanings.those import about_opening
from ..notation.plain import plain
from ..notation.row_reader import RowReader
from ..notation.stated import counts_each, stated_of
from ..notation.words import Words
from ..tree import Act, Again, Chain, Corner, Into, Make, Noun, Op, RowText, Skip, Star, Start, Stated, Times
from ..when_used import when_used
from ..writer import write_op
from . import telling
from .agreed.definitions import spellings
from .agreed.named_rows import NamedRows, names_of_piece, piece_again
from .agreed.own_stitches import first_in_row, named_in_passing
from .agreed.run_length import blocks_told, grown_to, growth_told, only_length, said_length, wrong_length
from .agreed.shapes import before_named, like_those_above, named_aside, taken_from_sized, unexplained, usual
from .beginnings import (
    begun_by,
    chains_moved,
    closed,
    counted_from_hook,
    first_in_ring,
    from_skipped,
    from_usual_chain,
    group_in_space,
    joined_row,
    last_chain,
    on_first_chain,
    past_turning,
    travel_moved,
    travelled,
    upon_turning_chain,
    yarn_moved,
)  # fmt: skip
from .drafts import Draft, beside_shaping, first_apart, joined_without_a_word, row_by_row, shaped_in_turn, unbroken
from .heads import Head
from .otherwise import (
    all_along,
    even_as_before,
    left_again,
    loops_alone,
    on_joined_row,
    over_plain_rows,
    points_as_stitches,
    rows_in_turn,
    shaped_as_before,
)
from .page import Page
from .row_ends import (
    RowEnd,
    flat_behind_rounds,
    joined_here,
    nth_of_run,
    on_by_turns,
    rounds_called_rows,
    row_end_of,
    said_of_every_end,
    turned_short,
    with_end,
)
from .starts import leaves_rest, left_for
from .telling import sentences, workish

MOST_ROW_CHARACTERS = 20_000
MOST_ROWS = 20_000

_AT_WILL = when_used(
    r"\s*(?:then |now )?(?:rep(?:eat)?|rpt)\s+(?:the\s+)?(?:(?:last|this|these|that|those|previous|above)\s+(?:\d\s+|two\s+|three\s+)?)?(?:(?:rows?|rnds?|rounds?)\b|\d+(?:st|nd|rd|th)\b)[^*.]{0,40}?\b(?:till|until)\b.{0,200}$"
)
_OPENERS = when_used(
    r"(?:^|(?<=[.!\])]))\s*(?:next|first|then|now|finally|lastly|okay|ok|this time|when you (?:get to|come to|reach|are at) the end(?: of (?:the|this) (?:row|rnd|round))?)\s*,(?=\s)"
)
#: "Ch 5, turn each row": a chain of two or more lifts the next row and may be one of its stitches.
_TURNING_CHAIN = when_used(rf"\b(?:ch(?:ain)? ?-?(?P<n>\d|{lexicon.NUMBER_WORDS})|(?P<m>\d) ?ch(?:ain)?s?)\b")
_LIFTS = 2
#: "Sc in next 5 ch. 30 sts in each row. Turn.": a count, said of this row and the others.
_COUNT_OF_ALL = when_used(
    r"(?<=[.!;] )\s*(?:(?:there (?:are|should be|will be)|you (?:should |will )?have|it makes|making|for)(?: a total of)? )?(?P<n>\d{1,4}) (?:sts?|stitches) (?:in|on|per|for) (?:each|every|all|the) rows?(?=\s*(?:[.,;]|$))"
)
#: "... in last ch - 9 (sc, 2 dc) pattern repeats.": how often the group came, said behind the row.
_GROUPS_SAID = when_used(
    r"(?:(?<=[-.:;=(] )|(?<=[-.:;=(])|(?<=have )|(?<=having )|(?<=makes ))(?P<n>\d{1,3}) ?(?P<group>\([a-z0-9 ,+-]{3,60}\)) ?(?P<word>(?:pattern |stitch )?(?:repeats?|reps?|repetitions?|groups?|sets?))(?=[\s.)]*$)"
)
#: "We will be starting with blue yarn, ch 30", "You will need to ch 30", "First ch 30": what leads up to a row's beginning.
_TOLD_BEGIN = when_used(
    r"(?:^|(?<=[.,!]\s))\s*(?:(?:now |so |here |okay |ok )?(?:we|i|you|let us|let's|lets)(?:'ll|'re|'m)?(?: (?:will|are|am|be|have|need|want|going|shall|can|now|first|always|just))*"
    r"(?:(?: to)? (?:start|begin|starting|beginning|started|began)(?: off| out| this(?: row| round| rnd)?| by)?| to(?= ch))|first(?= ch(?:ain)? ?\d))"
    r"(?: (?P<yarn>with)(?: my| your| our| the| a)?(?= (?!an? |ch)[a-z ]{1,20}(?:,| ch))| with(?= (?:an? )?ch))?(?=\s)"
)
#: "Hdc in first 0 sc", of a size that works none there.
_IN_NONE = when_used(
    r"\b(?:[a-z]+\s+(?:in|into|over)|sk|skip|miss)\s+(?:each\s+of\s+)?(?:the\s+)?(?:first|next|last)\s+0\s+(?:sts?|stitch(?:es)?|sc|hdc|htr|dc|tr|ch|chs|sps?)(?![a-z])"
)
#: "Beg at lower edge, ch 44, ...": where on the finished piece its foundation lies.
_BEGUN_AT = when_used(
    r"(?:^|(?<=[.,!]))\s*(?:beg|begin(?:ning)?|start(?:ing)?|work(?:ing)?)\s+(?:in|at|from|with)\s+(?:the\s+)?"
    r"(?:(?:lower|upper|bottom|top|back|front|neck|side|left|right|cent(?:er|re)|hem|cuff|crown|brim|toe|heel|tip|outer|outside|waist|shoulder|underarm|edge|ribbing|wrist|narrow|wide|long|short)"
    r"(?:\s+(?:of|at|the|back|front|neck|edge|end|side|hem|corner|edges|border|band|point|waist|seam)){0,4})\s*(?:[,.:;]|(?=\swith\b))\s*(?=(?:with\s+[a-z ]{1,20},?\s+)?(?:loosely\s+)?(?:ch|make|chain|\d+\s*ch)\b)"
)
#: "Rnd 12: Decrease row - *sc2tog, ...": what the row is called.
_CALLED = when_used(
    r"^\s*(?:decreas(?:e|ing)|increas(?:e|ing)|dec|inc|plain|set-?up|ribbing|eyelet|mesh|shell|picot|lace|border|edging) (?:row|rnd|round)s?\s*(?:-|:)\s*(?=[\w*(\[])"
)
#: "= 12, stuff the body": a count, and what is done behind it.
_COUNT_THEN = when_used(
    r"(?P<count>=\s*\d{1,4}(?: ?(?:sts?|stitches|sc|hdc|dc|htr|tr))?)\s*,(?=\s*(?:and |then |now )*(?:stuff|fill|fasten|change|switch|cut|leave|insert|attach|place|sew|put|add|finish|close|pull|mark|weave|tie)\b)"
)
#: "... Ch 1, turn. 37 sts Do not end off": a count, and a sentence behind it that no stop parts from it.
_COUNT_DO_NOT = when_used(r"(?<=[.)] )\d{1,4} ?(?:sts?|stitches|sc|hdc|dc|htr|tr) (?=(?:do not|don'?t) (?:end|fasten|finish|cut|break)\b)")
_SAME_AS = when_used(r"^(\s*)((?:is|are)\s+(?:worked\s+)?(?:the\s+)?)(?=same|as)")
#: "(chains do not count as stitches)": said of all of them, with no number.
_OF_ALL = when_used(
    r"(?:(?<=[(.;!])|^)\s*(?:note:? |the |all |all the )?(?:(?:beg(?:inning)?|starting|turning) )?(?:chs|chains)\b(?: at [a-z ]{3,40}?)? "
    r"(?:do(?: not|n't)|are(?: not|n't)|never|will not|won't) (?:ever )?(?:be )?(?:count(?:ed)?|considered|a st(?:itch)?|sts|stitches)\b"
)
_ROW_ALONE = when_used(r"\s*=?\s*(?P<row>(?:r|rows?|rnds?|rounds?|rds?)\s?#?(?P<n>\d{1,4}))[\s.]*")
#: "3-6. repeat 2": rows that are another one, told by its number alone.
_REPEAT_ALONE = when_used(r"\s*(?:rep(?:eat)?|rpt|same as|as|like)\s+(?P<row>\#?(?P<n>\d{1,3}))[\s.]*")
#: "Sc in ea 24": a count at a row's end that nothing parts from its words.
_COUNT_BARE = when_used(r"(?<=(?:hook|each|imes|ross|join|turn|ring|rcle))\s(?=\d{1,3}\s*$)|(?:(?<=around)|(?<=\bea))\s(?=\d{1,3}\s*$)")
_AT_END = when_used(r"\bat (?:the )?end of|\bat end\b|\bleft at\b|\bafter (?:the )?(?:last )?(?:row|rnd|round) ?\d*")


#: "R = round" in a list of abbreviations: a head of that letter is a round's.
_LETTER_OF_ROUNDS = when_used(r"\W*r(?:\d|s)?\s*(?:=|:|\u2013|\u2014|-)\s*(?:rounds?|rnds?)\b")


#: "R1: Ch 2, 6 hdc in 2nd ch from hook (6)": all of a first row in one chain, which is a round.
_IN_ONE_CHAIN = when_used(
    r"\W*(?:(?:make |with [a-z]{1,12},? )?ch(?:ain)? ?-?[2-5]\b\W*(?:\(?counts? as [a-z0-9 ,-]+\)?\W*)?(?:and |then )?)?(?:work |make )?(?:[5-9]|1\d) ?[a-z]{2,3}(?: [a-z]{4,8})? in(?:to)? (?:the )?"
    r"(?:first|1st|2nd|second|3rd|third|4th|fourth|5th|fifth) (?:ch|chain)\b(?: from (?:the |your )?hook)?\W*(?:\([^()]*\)\W*(?=join|sl|ss))?(?:(?:join|sl st|ss|slst|slip st)\b[^.;()\[\]]*\W*)?(?:[(\[]?\d+[^\d,;]*)?$"
)
_WORD = re.compile(r"[A-Za-z]{3}")
_IN_PATTERN = when_used(r"\bin patt?\b|\bin pattern\b")
#: "(9 sc in each sc group on last rnd)": what the last of a run of rows has.
_AT_THE_LAST = when_used(
    r"[(\[](?P<said>(?:there (?:are|will be) |having )?\d{1,3} [a-z]+ (?:in|on) each [^()\[\]]{2,24} (?:on|in|at(?: the)? end of|after) (?:the )?"
    r"(?:last|final|\d{1,3}(?:st|nd|rd|th)) (?:of these )?(?:rows?|rnds?|rounds?))[)\]]"
)
_BRACKETED = when_used(r"\(([^()]*)\)")
#: What is no longer worked in rounds.
_TO_AND_FRO = when_used(r"\b(?:back and forth|to and fro|(?:work|working|worked|now) (?:flat|in rows)|in rows)\b")


#: "Ch 3, dc in 4th ch from hook": the chains of a turn, and the first one of a foundation below them.
_FIRST_BELOW = when_used(r"\W*(?:ch(?:ain)? ?-?(?P<n>[1-6])|(?P<m>[1-6]) ?ch)\b[^.*]{0,24}?\b(?:in|into)(?: the)? (?P<at>\w+) (?:ch|chain|st|stitch) from (?:the )?hook")


def _raised_on_chain(low: str) -> bool:
    """Whether a first row begins with the chains of a turn and works right behind them, so that they are no foundation."""
    found = _FIRST_BELOW.match(low)
    return found is not None and lexicon.ordinal(found["at"]) == int(found["n"] or found["m"]) + 1


def _works(ops: tuple[Op, ...]) -> bool:
    """Whether a row does more than turn, chain or end."""
    return any(not isinstance(op, Act | Chain) for op in ops)


def _fits_pattern(op: Op) -> bool:
    """Whether a clause beside "work in pattern" leaves open nothing of where the pattern goes on: a stitch within the row
    does."""
    return isinstance(op, Act | Chain | Again) or _beside_pattern(op)


def _raises(ops: tuple[Op, ...]) -> bool:
    """Whether a row begins with chains as high as a stitch: without a count, too, they are counted from the hook, where a
    single chain behind a foundation is often only said again."""
    return any(isinstance(op, Chain) and op.count > 1 for op in ops[:2])


def _beside_pattern(op: Op) -> bool:
    """Whether a clause beside "work in pattern" is said besides it: no chain that is there anyway."""
    if isinstance(op, Act):
        return op.name != "pattern"
    if isinstance(op, Corner) or (isinstance(op, Again) and (op.grow or op.swap)):
        return True
    ends = ("first", "last") if isinstance(op, Make) else ("first",)
    return isinstance(op, Make | Skip) and bool(op.places) and all(p.which in ends for p in op.places)


class Rows:
    """Reads what was gathered of each row, in order."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.reader = RowReader(self._words_with_pieces(), page.specials)
        self.out: list[RowText] = []
        self.later: dict[int, RowText] = {}
        self.whole = ""
        self.gap_others: tuple[tuple[Op, ...], ...] = ()
        self.end_said: tuple[RowEnd, Source] | None = None
        self.turned_with = ("", 0)
        self.unexplained: set[str] = set()
        self.over = 1
        self.by_turns = 0  # the first of a run that went on as the two rows above it by turns
        self.names = NamedRows()

    def _words_with_pieces(self) -> Words:
        """The page's words with the names of its pieces, by which rows of another piece are told."""
        own = {**spellings(self.page.specials, self.page.terms), **self.page.aliases}
        for name in {draft.part for draft in self.page.drafts if draft.part}:
            spelled = plain(name).removeprefix("the ").strip()
            own[spelled] = (*own.get(spelled, ()), ("PIECE", name))
        return self.page.knowing(own)

    def read(self) -> list[RowText]:
        """The rows, with what they begin; chains at a row's end stand with the row they begin."""
        turns = [(whole, shaped_in_turn(whole)) for whole in self.page.drafts]
        self.page.prose += [(whole.line, said) for whole, own in turns if len(own) > 1 for said in beside_shaping(whole)]
        parted = [one for _, own in turns for draft in own for one in row_by_row(draft)]
        drafts = [one for at, draft in enumerate(parted) for one in first_apart(draft, draft.start or (None if at else self.page.start))]
        if len(drafts) > MOST_ROWS:
            says = f"{len(drafts):,} rows; this tool works {MOST_ROWS:,}"
            self.page.problems.append(
                Problem("limit", "Pattern", says, "split the pattern into parts", drafts[MOST_ROWS].line)
            )
        joined_without_a_word(drafts, self.page.start)
        self._start_again(drafts)
        ringed = False
        lettered = False
        in_rounds = any(_LETTER_OF_ROUNDS.match(line) for line in self.page.low)
        for draft in drafts[:MOST_ROWS]:
            if draft.head.first == 1 or draft.start is not None or _TO_AND_FRO.search(draft.low):
                lettered = draft.head.first == 1 and "each" not in draft.low and "*" not in draft.low
                lettered = lettered and bool(_IN_ONE_CHAIN.fullmatch(draft.low.strip()))
            if draft.head.is_round is None and (in_rounds or lettered):
                draft.head = replace(draft.head, is_round=True, label=draft.head.label.replace("Row", "Rnd"))
            if draft.start is None:
                draft.start = self._round_tube(draft)
            if draft.start is not None:
                ringed = draft.start.how in ("ring", "magic ring")
            told = len(self.page.problems)
            row = self._row(draft, ringed)
            if draft.in_turn:
                row = nth_of_run(row, draft.nth)
                self._told_once(told)
                self.by_turns = draft.head.first - draft.nth if any(isinstance(op, Again) and op.first > 0 for op in row.ops) else 0
            elif self.by_turns and draft.start is None and _IN_PATTERN.search(draft.low):
                row = on_by_turns(row, self.by_turns)
            if row.begins is not None:
                ringed = row.begins.how in ("ring", "magic ring")
            if draft.head.is_round is None and ringed:
                row = replace(row, is_round=True, label=row.label.replace("Row", "Rnd"))
            row = leaves_rest(row, self.out, told=draft.leaves)
            if row.begins is not None and row.begins.how == "rest":
                self.out = left_for(self.out, row)
            at = len(self.out)
            self._listed_before(row)
            self._fill_gap(row)
            self._move_on(at)
            numbers = draft.head.numbers
            self.later |= {n: _numbered(row, n) for n in numbers[1:]}
            if self.end_said is not None and not numbers:
                self._take_end(row)
            else:
                self.out.append(_numbered(row, numbers[0]) if numbers else row)
                self._over_again()
            self._listed_next()
        self._listed_before(None)
        return rounds_called_rows(turned_short(flat_behind_rounds(chains_moved(yarn_moved(travel_moved(self.out), self.page.others)))))

    def _told_once(self, told: int) -> None:
        """Without the problems, of those behind `told`, that a row of the same run has told already."""
        known = {(p.kind, p.line, p.column, p.says) for p in self.page.problems[:told]}
        new = [p for p in self.page.problems[told:] if (p.kind, p.line, p.column, p.says) not in known]
        self.page.problems[told:] = new

    def _round_tube(self, draft: Draft) -> Start | None:
        """Where the first round behind rows begins that are said to be joined to a tube, and that says nothing of an edge."""
        if not self.out or self.out[-1].is_round or not draft.head.is_round or draft.head.first != 1 or telling.ALONG.search(draft.low):
            return None
        above = self.out[-1].line
        said = next((text for line, text in self.page.prose if above <= line <= draft.line and telling.makes_tube(plain(text))), None)
        return Start("tube", line=draft.line, text=said) if said else None

    def _over_again(self) -> None:
        """The last row as often as its one number says: "4. Sc around for 7 rounds"."""
        at, self.over, times = len(self.out) - 1, 1, self.over
        if self.out[at].chain_only:
            return
        for again in range(at + 1, at + times):
            self.out.append(replace(self.out[at], begins=None))
            self.page.others.update({again: self.page.others[at]} if at in self.page.others else {})
            self.page.guesses.update({again: self.page.guesses[at]} if at in self.page.guesses else {})
            if at in self.page.bad_rows:
                self.page.bad_rows.add(again)

    def _move_on(self, at: int) -> None:
        """Keep what was found out of the row being read at its place, where other rows have been put before it."""
        here = len(self.out)
        if here == at:
            return
        if at in self.page.bad_rows:
            self.page.bad_rows.discard(at)
            self.page.bad_rows.add(here)
        if at in self.page.asides:
            self.page.asides[here] = self.page.asides.pop(at)
        if at in self.page.guesses:
            self.page.guesses[here] = self.page.guesses.pop(at)
        gap = self.gap_others
        own = self.page.others.pop(at, ())
        self.gap_others = ()
        if gap:
            self.page.others[here - 1] = gap
        if own:
            self.page.others[here] = own

    def _listed_next(self) -> None:
        """ "Rows 2, 4 and 6": each is worked where its number comes."""
        while self.out[-1].last + 1 in self.later:
            self.out.append(self.later.pop(self.out[-1].last + 1))

    def _listed_before(self, row: RowText | None) -> None:
        """What was listed and its place is past: a new piece begins, or a number above it follows."""
        again = row is None or row.begins is not None or 0 < row.first <= self.out[-1].last if self.out else False
        for n in sorted(self.later):
            if again or (row is not None and 0 < n < row.first):
                self.out.append(self.later.pop(n))

    def _last_number(self, draft: Draft) -> int:
        """The number of the last row of a piece, with those behind it that have none."""
        own = list(itertools.takewhile(lambda row: row.begins is None, reversed(self.out)))
        own += self.out[len(self.out) - len(own) - 1 :][:1] if len(own) < len(self.out) else []
        unnumbered = list(itertools.takewhile(lambda row: not row.last, own))
        return (own[len(unnumbered)].last if len(unnumbered) < len(own) else 0) + len(unnumbered) if draft.start is None else 0

    def _row(self, draft: Draft, ringed: bool) -> RowText:
        head, text = draft.head, _untitled(draft)
        first, last = head.first, head.last
        if head.count:
            first = self._last_number(draft) + 1
            last = first + head.count - 1
        label = _label(draft, first, last)
        text, low = self._within_limit(text, label, draft)
        if head.until and not low.strip():
            return self._carried_to(draft, label)
        text, low = self._without_at_will(text, low, draft)
        text, low, until = self._without_length(text, low, label, (first, last), draft)
        if until > last:
            label, last = f"{label.split()[0]}s {first}-{until}", until
        text, low = self._without_end(text, low, head, (first, last), draft)
        low, blocks = blocks_told(low)
        self._said_of_all(low)
        low = self._without_every_end(text, _loops_told(low), draft)
        low = _bare_words(self._without_groups_at_end(low, label, draft), sized=self.page.sizes > 1)
        source = Source(text, draft.line, draft.column)
        low = named_aside(_SAME_AS.sub(lambda m: m[1] + " " * len(m[2]), low))
        read = _row_alone(low, source) or self._called_again(text, low, source, head)
        self.page.specials.update({k: v for k, v in read.learned.items() if k not in self.page.specials})
        self._complaints(read := self._explained(read, text, low, source, label), label, source)
        unread = any(not complaint.plain for complaint in read.complaints)
        without = self.reader.without(text, low, source, read) if unread or read.passed else []
        read.counts = read.counts or (next((one.counts for one in without), []) if unread else [])
        self.reader.usual = read.plain or self.reader.usual
        begins, ops, chain_only = self._in_order(read, draft, low, (first, last), ringed)
        self._no_work((Act("colour", draft.colour),) if draft.colour else read.ops, read, text, label, source)
        round_said = bool(head.is_round)
        if chain_only:
            return RowText(
                label, first, last, (), round_said, line=draft.line, text=text, begins=begins, part=draft.part,
                chain_only=True,
            )  # fmt: skip
        others = (*read.others, *on_joined_row(ops, first), *points_as_stitches(ops, low), *(all_along(ops) if read.counts else ()))
        self.page.others.update({len(self.out): others} if others else {})
        guesses = tuple(self._in_order(one, draft, low, (first, last), ringed)[1] for one in without)
        self.page.guesses.update({len(self.out): guesses} if guesses else {})
        is_round = round_said if head.is_round is not None else ringed and not self.out
        goes_round = head.is_round is None and ringed  # "R2" of a piece that began in a ring
        stated = stated_of(read, source, low)
        each = counts_each(stated, last - first + 1)
        at_end = not each and bool(_AT_END.search(" ".join(low[start:end] for _, start, end in read.counts)))
        return RowText(
            label, first, last, between_in(ops, is_round=is_round or goes_round), is_round, head.side, stated, at_end, draft.line,
            _shown(draft, text), begins, draft.part, draft.make, head.open_end,
            along=bool(telling.ALONG.search(f"{head.label} {head.lead} {draft.part}: {low}".lower())),
            at_will=draft.at_will, stated_each=each, until=head.until, grows=blocks or growth_told((*read.prose, *(said for said, _ in read.notes), *_BRACKETED.findall(low))),
        )  # fmt: skip

    def _carried_to(self, draft: Draft, label: str) -> RowText:
        """Rows whose words do not say how they are worked, but how many stitches there are then."""
        head = draft.head
        said = " ".join(self.page.lines[draft.line - self.page.first_line].split())
        stated = (Stated(head.until, Noun("st"), f"{head.until} sts"),)
        return RowText(label, 0, 0, (), bool(head.is_round), stated=stated, line=draft.line, text=said, part=draft.part, until=head.until)

    def _in_order(
        self, read: RowRead, draft: Draft, low: str, numbers: tuple[int, int], ringed: bool
    ) -> tuple[Start | None, tuple[Op, ...], bool]:
        """What a row begins, its ops with everything where it belongs, and whether it is nothing but a beginning."""
        head, (first, last) = draft.head, numbers
        told = rows_in_turn(read.ops)
        worked = first_in_row(told, self.page.firsts) if self.page.firsts else told
        worked = loops_alone(shaped_as_before(even_as_before(worked, low, self.out), low, self.out), self.out)
        worked = left_again(worked, low, self.out)
        worked = self._turned_with(worked, draft)
        ops = (Act("colour", draft.colour), *worked) if draft.colour else worked
        if self.out and draft.start is None:
            ops = travelled(ops if head.is_round or ringed else joined_at_last(ops), low)
        ops = _once_each(ops, last - first + 1) if last > first else ops
        if not self.out and draft.start is self.page.start is None and self.page.multiple and _raised_on_chain(low):
            draft.start = self.page.sample()
        ops = self._in_loops(draft, ops, low)
        if self.out and head.named and not head.first and _OWN_YARN.match(low) and ops and ops[-1] == Act("fasten off"):
            ops = (*ops[:-1], Act("leave", ""), ops[-1])  # what one yarn makes at one place leaves all else as it is
        if self.out and draft.start is None and draft.part != self.out[-1].part and first in (0, 1) and (about := about_opening(ops)) is not None:
            draft.start, ops = Start("over", about[0], line=draft.line), about[1]
        begins, ops, chain_only = begun_by(draft, _own_words_first(_loops_first(_sides_told(ops), low)), first, self.out, self.page.start)
        if chain_only:
            return begins, ops, True
        ops = over_plain_rows(ops, self.out)
        if any(isinstance(op, Act) and op.name == "pattern" and op.place is None for op in ops) and all(map(_fits_pattern, ops)):
            changed = any(isinstance(op, Again) and op.grow and op.first for op in ops)  # "as before, with 2 groups between"
            ops = (*(op for op in ops if _beside_pattern(op)), *(() if changed else (Again(-1, -1),)))
        on = begins or (None if self.out else self.page.start)
        ops = first_in_ring(ops, on.count) if on is not None and "ring" in on.how else ops
        if on is not None and on.how == "chain":
            begins, ops = on_first_chain(begins, on, ops, counted=bool(read.counts))
            ops = from_skipped(counted_from_hook(ops))
            upon = () if head.is_round else upon_turning_chain(ops)
            raised = past_turning(ops, on) if first == last and not head.is_round else ops
            if not head.is_round and read.counts:
                read.others = (*read.others, *from_usual_chain(ops), *((ops,) if upon else ()))
            ops = raised
            if upon and (read.counts or _raises(upon)):
                ops = upon
        if head.is_round or (head.is_round is None and (ringed or (begins and "ring" in begins.how))):
            ops = group_in_space(closed(ops))
        if head.is_round is False and (ringed or (begins and "ring" in begins.how)):
            ops = joined_row(ops)
        return begins, ops, False

    def _turned_with(self, ops: tuple[Op, ...], draft: Draft) -> tuple[Op, ...]:
        """A row behind "ch 5, turn each row" with that chain, where neither it nor the row before says one."""
        part, chains = self.turned_with
        if not self.out or draft.head.is_round or part != draft.part or chains < _LIFTS:
            return ops
        first: Op | None = next((op for op in ops if not isinstance(op, Act)), None)
        while isinstance(first, Times | Star | Into) and first.ops:
            first = first.ops[0]
        if first is None or isinstance(first, Chain | Again) or last_chain(self.out[-1].ops) is not None:
            return ops
        return (Chain(chains), *ops)

    def _in_loops(self, draft: Draft, ops: tuple[Op, ...], low: str) -> tuple[Op, ...]:
        """A row in the loops that a line before it names, where it names none itself."""
        if not draft.loops or re.search(r"\bloops?\b|\blps?\b|\b[bf]lo?\b", low) or not any(isinstance(op, Make | Star | Times | Into) for op in ops):
            return ops
        note = Note(draft.head.label, f"worked in {draft.loops}s only, as the line before it says", draft.line)
        self.page.notes += [note] if note not in self.page.notes else []
        return (Act("loops", draft.loops), *ops)

    def _said_of_all(self, low: str) -> None:
        """ "(chains do not count as stitches)" inside a row: that is said of every beginning chain."""
        for found in _OF_ALL.finditer(low):
            self.page.conventions.take(found[0], self.page.words)

    def _pieces(self) -> dict[str, str]:
        """The pieces of the page by what they are called."""
        return {name: d.part for d in reversed(self.page.drafts) if d.part for name in names_of_piece(plain(d.part))}

    def _start_again(self, drafts: Sequence[Draft]) -> None:
        """Begin a piece whose first row is told as that of another one as that one is begun."""
        pieces = self._pieces()
        for draft in drafts if len(set(pieces.values())) > 1 else ():
            alike = piece_again(draft.low, pieces) if draft.head.first == 1 and draft.start is None else None
            first = next((d for d in drafts if alike and d.part == pieces[alike.piece] != draft.part), None)
            if first is not None:
                draft.start = first.start or (self.page.start if first is drafts[0] else None)

    def _called_again(self, text: str, low: str, source: Source, head: Head) -> RowRead:
        """A row's words read; one that the page has named, where they say no more than its name."""
        pieces = self._pieces()
        alike = piece_again(low, pieces) if head.first == 1 and pieces else None
        if alike is not None and alike.last in (0, head.last, head.last + 1):  # "to Rnd 3", which is told anew
            rest = low[: alike.start] + " " * (alike.end - alike.start) + low[alike.end :]
            if (count := telling.COUNT_ALONE.match(rest)) is not None:
                rest = " " * (count.start("n") - 3) + f". ({rest[count.start('n') :].rstrip(' .')})"
            read = self.reader.read(text.ljust(len(rest)), rest, source)
            again = Again(head.first, head.last, part=pieces[alike.piece], at=source.span(alike.start, alike.end))
            read.ops = (again, *read.ops)
            return read
        named = self.names.again(low)
        if head.first and head.first == head.last:
            self.names.learn(head.first, head.after, plain(text))
        if named is None:
            read = self._named(self.reader.read(text, low, source), text, low, source)
            return read if _works(read.ops) else self._behind_condition(read, text, low, source)
        start, end, number = named
        rest = low[:start] + " " * (end - start) + low[end:]
        if not re.search(r"[(\[]", rest) and (count := telling.COUNT_ALONE.match(rest)) is not None:
            rest = " " * (count.start("n") - 3) + f". ({rest[count.start('n') :].rstrip(' .')})"
        read = self.reader.read(text.ljust(len(rest)), rest.ljust(len(text)), source)
        read.ops = (Again(number, number, at=source.span(start, end)), *read.ops)
        return read

    def _behind_condition(self, read: RowRead, text: str, low: str, source: Source) -> RowRead:
        """A row that has no work but what stands in a sentence of talk: that sentence read from its work on, where all of
        it is read then, and a note of what was passed over; else the row as it was."""
        for start, end in telling.conditions_before_work(low) if read.prose else ():
            again = self.reader.read(text, low[:start] + " " * (end - start) + low[end:], source)
            if _works(again.ops) and not again.complaints:
                again.prose.append(text[start:end].strip())
                return again
        return read

    def _named(self, read: RowRead, text: str, low: str, source: Source) -> RowRead:
        """Learn the groups that a row names in passing; a row that uses such a name itself is read again with it."""
        if not read.named:
            return read
        self.whole = self.whole or "\n".join(self.page.low)
        found = named_in_passing(read.named, self.page.specials, self.whole)
        for special in found:
            self.page.own(special)
        if not found:
            return read
        self.reader = self.reader.knowing(self.page.words, self.page.specials)
        again = any(len(re.findall(rf"\b{re.escape(s.name)}s?\b", low)) > 1 for s in found)
        return self.reader.read(text, low, source) if again else read

    def _explained(self, read: RowRead, text: str, low: str, source: Source, label: str) -> RowRead:
        """A row whose groups are all explained; a complaint where one is not: nobody knows what it makes."""
        sized = taken_from_sized(self.page.specials, read.ops)
        if sized is not None:
            self.page.own(sized)
            self.reader = self.reader.knowing(self.page.words, self.page.specials)
            return self.reader.read(text, low, source)
        unknown = unexplained(read.ops, low, self.page.specials) if not read.complaints else None
        if unknown is not None and unknown.unknown in self.unexplained:
            self.page.bad_rows.add(len(self.out))
        elif unknown is not None and (alike := like_those_above(unknown.unknown, [*(row.ops for row in reversed(self.out)), before_named(unknown.unknown, read.ops)])):
            says = f'"{alike.name}" is nowhere explained; it was taken for {write_op(Into(alike.ops, ()), self.page.terms).strip()}, the group of the rows above'
            self.page.notes.append(Note(label, says, source.line))
            self.page.own(alike)
            self.reader = self.reader.knowing(self.page.words, self.page.specials)
            return self.reader.read(text, low, source)
        elif unknown is not None:
            self.unexplained.add(unknown.unknown)
            if (taken := usual(unknown.unknown)) is not None:
                self.page.own(taken)
                self.reader = self.reader.knowing(self.page.words, self.page.specials)
                read = self.reader.read(text, low, source)
            read.complaints.append(unknown)
        return read

    def _no_work(self, ops: tuple[Op, ...], read: RowRead, text: str, label: str, source: Source) -> None:
        """A complaint for a row of words in which no work was read."""
        only_ends = bool(ops) and all(op == Act("fasten off") for op in ops) and bool(_WORD.search(text[: ops[0].at[0]]))
        only_lifts = bool(read.prose) and all(isinstance(op, Chain) or op == Act("turn") for op in ops)
        if (ops and not only_ends and not only_lifts) or not text.strip() or read.complaints or read.counts:
            return
        at = len(text) - len(text.lstrip())
        remedy = "say what is worked, or leave its number out"
        none = Complaint(at, len(text.rstrip()), "no work is read in this row", remedy)
        self._complaints(RowRead(complaints=[none]), label, source)

    def _without_at_will(self, text: str, low: str, draft: Draft) -> tuple[str, str]:
        """Without "Rep 2nd to 5th rows until ..." behind a row's own work: rows that go on at will."""
        out = list(text)
        for start, end in sentences(low)[1:]:
            if _AT_WILL.match(low, start, end):
                out[start:end] = [c if c == "\n" else " " for c in out[start:end]]
                said = " ".join(text[start:end].split())[:80]
                self.page.notes.append(Note("Pattern", f'goes on at will: "{said}"', draft.line))
        same = "".join(out)
        return (same, plain(same)) if same != text else (text, low)

    def _without_length(
        self, text: str, low: str, label: str, numbers: tuple[int, int], draft: Draft
    ) -> tuple[str, str, int]:
        """Without "for a total of 5 rounds", which says again how long a run is, or says it of a row with one number
        where the next one goes on behind so many; and the run's last number."""
        first, last = numbers
        text, low, grown = self._without_end_count(text, low, numbers, draft)
        said = said_length(low) if not grown else None
        if said is None or not first:
            return text, low, max(last, grown)
        start, end, rows = said
        behind = itertools.dropwhile(lambda d: d is not draft, self.page.drafts) if last == first else iter(())
        following = next((d.head.first for d in itertools.islice(behind, 1, 2)), 0)
        if last == first and rows > 1 and following in (0, 1, first + 1) and not draft.head.numbers:
            self.over = rows  # the number is that of a step: "4. Sc around for 7 rounds. 5. ..."
            says = f"its words say that it is worked {rows} times, though the next number is {first + 1}; it was worked {rows} times"
            self.page.notes.append(Note(label, says if following > 1 else f"it was worked {rows} times, as its words say", draft.line))
        elif last == first and (rows < 2 or following != first + rows):
            return text, low, last
        if last > first and rows not in (last - first + 1, last):
            wrong = wrong_length(start, end, rows, label, last - first + 1)
            self._complaints(RowRead(complaints=[wrong]), label, Source(text, draft.line, draft.column))
        gap = "work even " if only_length(low[:start] + low[end:]) else " " * (end - start)
        until = first + rows - 1 if last == first and self.over == 1 else 0
        return text[:start] + gap + text[end:], low[:start] + gap + low[end:], max(last, until)

    def _without_groups_at_end(self, low: str, label: str, draft: Draft) -> str:
        """Without "(9 sc in each sc group on last rnd)", which is what the last of a run of rows has, and no work."""
        found = _AT_THE_LAST.search(low)
        if found is None:
            return low
        self.page.notes.append(Note(label, f'"{found["said"]}" was passed over', draft.line))
        return low[: found.start()] + " " * len(found[0]) + low[found.end() :]

    def _without_end_count(self, text: str, low: str, numbers: tuple[int, int], draft: Draft) -> tuple[str, str, int]:
        """With "until 6 sts remain" behind what shrinks from row to row as the count at the end of a run; and the run's
        last number, 0 where nothing is said of it."""
        first, last = numbers
        counts = [sum(s.count for s in row.stated) for row in self.out[-2:] if row.stated]
        grown = grown_to(low, counts) if first else None
        if grown is None:
            return text, low, 0
        start, end, rows, count = grown
        said = f" ({count} at end)".ljust(end - start)
        if len(said) > end - start or (last > first and last - first + 1 != rows):
            return text, low, 0
        return text[:start] + said + text[end:], low[:start] + said + low[end:], first + rows - 1

    def _without_end(
        self, text: str, low: str, head: Head, numbers: tuple[int, int], draft: Draft
    ) -> tuple[str, str]:
        """Without what is said of the end of the row, or of one row of a run, which is kept for `_take_end`."""
        first, last = numbers
        said = row_end_of(low) if not head.numbers else None
        if said is not None and said.number and not (first <= said.number <= last or not first):
            said = None
        self.end_said = (said, Source(text, draft.line, draft.column)) if said is not None else None
        if said is None:
            return text, low
        gap = "".join(c if c == "\n" else " " for c in text[said.start : said.end])
        return text[: said.start] + gap + text[said.end :], low[: said.start] + gap + low[said.end :]

    def _without_every_end(self, text: str, low: str, draft: Draft) -> str:
        """Without what is said of the end of every row, which makes nothing: it is taken as a convention, and shown as talk."""
        for start, end in said_of_every_end(low):
            self.page.conventions.take(low[start:end], self.page.words)
            self.page.prose.append((draft.line, " ".join(text[start:end].split())))
            chain = _TURNING_CHAIN.search(low, start, end)
            self.turned_with = (draft.part, lexicon.number(chain["n"] or chain["m"]) or 0) if chain else self.turned_with
            low = low[:start] + " " * (end - start) + low[end:]
        return low

    def _take_end(self, row: RowText) -> None:
        """Take a row, or a run, whose end is spoken of by itself."""
        assert self.end_said is not None
        said, source = self.end_said
        self.end_said = None
        read = self.reader.read(source.text, said.low, source)
        ops = tuple(joined_here(op, said) for op in read.ops if not isinstance(op, Again))
        rows = with_end(row, said, ops)
        others = self.page.others.pop(len(self.out), ())
        for one in rows:
            if one.ops != row.ops or len(rows) == 1:
                self._complaints(read, one.label, source)
            if others and one.ops == row.ops:
                self.page.others[len(self.out)] = others
            self.out.append(one)

    def _within_limit(self, text: str, label: str, draft: Draft) -> tuple[str, str]:
        low = plain(text)
        if len(low) > MOST_ROW_CHARACTERS:
            says = f"the row has {len(low):,} characters; this tool reads {MOST_ROW_CHARACTERS:,}"
            self.page.problems.append(Problem("limit", label, says, "write it with repeats", draft.line))
            return text[:MOST_ROW_CHARACTERS], low[:MOST_ROW_CHARACTERS]
        return text, low

    def _fill_gap(self, row: RowText) -> None:
        """ "Row 4 and all even rows": the rows left out between odd ones are worked as it says."""
        if not self.out or not row.first or row.begins is not None:
            return
        last = self.out[-1].last
        if row.first != last + 2 or not last:
            return
        rule = next((r for r in reversed(self.out) if r.open_end and (r.first - last - 1) % 2 == 0), None)
        if rule is not None:
            label = f"{rule.label.split()[0].rstrip('s')} {last + 1}"
            self.gap_others = self.page.others.get(self.out.index(rule), ())
            self.out.append(replace(rule, label=label, first=last + 1, last=last + 1, open_end=False))

    def _complaints(self, read: RowRead, label: str, source: Source) -> None:
        problems = tuple(self._problem(complaint, label, source) for complaint in read.complaints)
        aside = all(complaint.aside for complaint in read.complaints)
        if problems and aside and (read.counts or all(complaint.idle for complaint in read.complaints)):
            self.page.asides[len(self.out)] = problems
        elif problems:
            self.page.problems += problems
            if all(complaint.plain for complaint in read.complaints):
                self.page.asides[len(self.out)] = ()
            else:
                self.page.bad_rows.add(len(self.out))
        for said, meant in read.respelt.items():
            self.page.notes.append(Note(label, f'"{said}" was read as "{meant}"', source.line))
        if read.other_way:
            says = f'"{read.other_way}" is another way to begin; it was not worked'
            self.page.notes.append(Note(label, says, source.line))
        for said, at in read.notes:
            if len(said) > 3:
                line, column, _ = source.span(at, at + len(said))
                self.page.notes.append(Note(label, f'"{" ".join(said.split())[:80]}" was passed over', line, column))
        self.page.prose += [(source.line, said) for said in read.prose]
        self.page.passed += [(source.line, said) for said in read.prose]

    def _problem(self, complaint: Complaint, label: str, source: Source) -> Problem:
        line, column, length = source.span(complaint.start, max(complaint.end, complaint.start + 1))
        index = line - self.page.first_line
        shown = self.page.raw[index] if 0 <= index < len(self.page.raw) else ""
        length = min(length, max(len(shown) - column + 1, 1))
        return Problem(complaint.kind, label, complaint.says, complaint.remedy, line, column, shown, length)


def _bare_words(low: str, *, sized: bool) -> str:
    """A row's words without those that lead up to them, and its count parted from what is done behind it."""
    low = _COUNT_OF_ALL.sub(lambda m: f"({m['n']} sts)".ljust(len(m[0])), low)
    low = _GROUPS_SAID.sub(lambda m: f"{m['n']} pattern repeats".ljust(len(m[0])), low)
    low = _TOLD_BEGIN.sub(lambda m: (m["yarn"] or "").rjust(len(m[0])), low, count=1)
    for no_work in (_OPENERS, _CALLED, _BEGUN_AT, *((_IN_NONE,) if sized else ())):
        low = no_work.sub(lambda m: " " * len(m[0]), low)
    low = _COUNT_BARE.sub("=", low)
    for count in (_COUNT_THEN, _COUNT_DO_NOT):
        low = count.sub(lambda m: m[0][:-1] + ".", low)
    return low


#: "This rnd is worked in BLO only", "(for this round only work in the back loops)".
_LOOPS_TOLD = when_used(
    r"(?P<open>\(\s*)?\b(?:(?:for|in|on|during) )?(?:this|the) (?:whole |entire )?(?:rnd|round|row)(?: only)?,?\s*(?:(?:is|should|will|must|you(?:'ll)?|are|be|to)\s+)*"
    r"(?:work(?:ed|ing)?|crochet(?:ed|ing)?|done|made)\s+(?:(?:entirely|only|all) )*(?:in|into|through|thru) (?:the )?"
    r"(?:(?P<side>back|front) (?:loops?|lps?)|(?P<short>[bf])lo?)(?: only)?(?:\s*\(?\b[bf]lo\b\)?)?(?(open)\s*\))(?=\s*[.,;:)]|(?(open)|$))"
)


#: "3rd ch (of 5 chains)".
_CHAIN_IN_BRACKETS = when_used(r"(?<=\bch )\(of (?:the )?(?:beg |beginning )?(?P<n>\d)[ -]?ch(?:ain)?s?\)")


def _loops_told(low: str) -> str:
    """A row's words in lower case with what is said of its loops in a sentence or a bracket, and of the chain that a
    place is in, told as words of work."""
    low = _CHAIN_IN_BRACKETS.sub(lambda m: f"of ch-{m['n']}".ljust(len(m[0])), low)
    return _LOOPS_TOLD.sub(lambda m: f"in {m['side'] or ('back' if m['short'] == 'b' else 'front')} loops only{',' if m['open'] else ''}".ljust(len(m[0])), low)


#: "With right side facing, join yarn in first sc; ...".
_OWN_YARN = when_used(r"\W*(?:with (?:the )?(?:rs|ws|right side|wrong side)[^.,;]{0,24}[,;]? ?)?(?:re-?)?(?:join|attach)(?:ing)?\b")


def _row_alone(low: str, source: Source) -> RowRead | None:
    """ "R8 = R7", "R4: R3": a row that is another one."""
    found = _ROW_ALONE.fullmatch(low) or _REPEAT_ALONE.fullmatch(low)
    n = int(found["n"]) if found else 0
    return RowRead(ops=(Again(n, n, at=source.span(*found.span("row"))),)) if found and n else None


def _label(draft: Draft, first: int, last: int) -> str:
    if not draft.head.count:
        return draft.head.label
    kind = draft.head.label.rstrip("s")
    return f"{kind}s {first}-{last}" if last > first else f"{kind} {first}"


def _numbered(row: RowText, n: int) -> RowText:
    return replace(row, label=f"{row.label.split()[0].rstrip('s')} {n}", first=n, last=n)


def _once_each(ops: tuple[Op, ...], rows: int) -> tuple[Op, ...]:
    """ "Rows 3-9: Repeat Row 2 seven times": once in each of the seven rows."""
    out: list[Op] = []
    for op in ops:
        inside = op.ops if isinstance(op, Star | Times) else ()
        said = op.times if isinstance(op, Again | Times) else (op.more or 0) + 1 if isinstance(op, Star) else 0
        if said == rows and isinstance(op, Again):
            out.append(replace(op, times=1))
        elif said == rows and len(inside) == 1 and isinstance(inside[0], Again):
            out.append(inside[0])
        else:
            out.append(op)
    return tuple(out)


def _own_words_first(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """Without "rep Row 2" behind a row's own work: that says what comes after it, not what it is."""
    worked = any(isinstance(op, Make | Into | Star) for op in ops)
    again = any(isinstance(op, Again) and op.first for op in ops)
    swapped = any(isinstance(op, Again) and op.swap for op in ops)
    if worked and again and not swapped and isinstance(ops[-1], Again | Act) and not isinstance(ops[0], Again):
        return tuple(op for op in ops if not (isinstance(op, Again) and op.first > 0))
    return ops


def _loops_first(ops: tuple[Op, ...], low: str) -> tuple[Op, ...]:
    """ "Sc in each st around. Work this round in back loops only": said behind the work, of all of it; not where a colon
    behind it leads on to the next row."""
    if low.rstrip().endswith(":"):
        return ops
    last = next((at for at in range(len(ops) - 1, -1, -1) if not isinstance(ops[at], Act | Chain)), -1)
    told = [op for op in ops if isinstance(op, Act) and op.name == "loops"]
    if len(told) != 1 or not told[0].text or told[0] in ops[: last + 1]:
        return ops
    return (told[0], *(op for op in ops if op is not told[0]))


def _sides_told(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """ "Sc evenly around, placing 20 sc along each side and 3 sc in each corner": the second says how many the first are."""
    at = next((n for n, op in enumerate(ops) if isinstance(op, Star) and op.word == "sides"), 0)
    before = ops[at - 1] if at else None
    around = isinstance(before, Make) and any(p.which == "each" or p.noun.name == "side" for p in before.places)
    return (*ops[: at - 1], *ops[at:]) if around else ops


def _untitled(draft: Draft) -> str:
    """A row's words without a title that stands alone behind its head: "Row 2: Ribbing", then the steps."""
    whole = unbroken("\n".join(draft.lines))
    low = re.sub(r"\s*\([a-z]+(?: [a-z]+)?\)", "", plain(draft.lines[0])).strip().rstrip(".:")
    if len(draft.lines) < 2 or not low or len(low.split()) > 5 or workish(low):
        return whole
    if re.search(r"\d|turn|join|[,(*]|^(?:sk|skip|miss|rep|in|with|work|ch|as|same|like|ditto|again|follow|copy|do|even|straight)\b", low):
        return whole
    return "\n".join(["", *draft.lines[1:]]) if any(line.strip() for line in draft.lines[1:]) else whole


def _shown(draft: Draft, text: str) -> str:
    return f"{draft.head.label}: {' '.join(text.split())}" if text.strip() else draft.head.label
