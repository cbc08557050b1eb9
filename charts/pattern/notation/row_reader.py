"""Reading what a row tells the hands to do: the cheapest way to take every word of it as clauses of the grammar.

Every word is taken by a clause, is a soft word, belongs to a remark of the closed list (`remarks.txt`), stands in a
sentence that is no work, or is complained of. Nothing is left out without a word.
"""

from __future__ import annotations

import functools
import re
from collections.abc import Callable, Mapping, Sequence
from itertools import pairwise
from typing import Any

from ...made_late import replace
from ..lexicon import TURNING, height_of
from ..passed_over import texts_without
from ..told_moves import named_moves
from ..tree import Act, Chain, Into, Make, Noun, Op, Place, Skip, Span, Special, Star, Times, walk
from ..when_used import when_used
from .brackets import (
    heads_row,
    is_own_group,
    is_remark,
    names_what_was_made,
    noted_behind,
    place_before,
    placed_after,
    says_again,
    tells_left,
    tells_twice,
    tells_work,
)
from .chain_counts import (
    chain_before,
    counted_parts,
    counts_as,
    first_legs,
    in_that_corner,
    told_beside,
    with_chain,
    without_counting,
)
from .complaint import Complaint, Source
from .engine import Chart, Grammar, grammar
from .evened.asides import asides_evened, one_foundation, set_apart
from .evened.corners import corner_told, corner_worked, corners_again, corners_evened, marked_spaces, sides_evened
from .evened.ends import ends_evened
from .evened.hasty import hasty_evened
from .evened.hook_moves import moves_evened
from .evened.hyphens import hyphens_evened
from .evened.lace import lace_evened
from .evened.places import places_evened
from .evened.print_habits import print_habits_evened
from .evened.repeats import groups_told, repeats_evened
from .evened.runs import runs_evened
from .evened.shaping_told import shaping_told_evened
from .evened.sides import other_side_told, told_of_all
from .evened.totals import totals_evened
from .evened.turns import turns_evened
from .first_stitch import (
    begins_the_first,
    begins_with_first,
    begun_there,
    between_legs,
    counted_by_join,
    every_further,
    in_row_below,
    in_space_below,
    other_ways,
    past_its_own_chain,
    post_unsaid,
    posts_from_behind,
    replaced,
    ribs_as_seen,
    round_the_chain,
    taken_out,
    whole_sides,
)
from .items import CLAUSES, GAP, LOST, SIGNS, Item, Node, Ops, RowRead, coloured_first, copied, is_clause
from .leftovers import Leftovers, ends_with, names_work, remark
from .marks import MARKS, Inside, closed_alike, fold
from .meanings.apart import each_beside_each, held_in_each, in_such_gaps, or_between_groups
from .meanings.parts import MOST, CountsAs
from .meanings.repeating import Meanings
from .meanings.terse import (
    alone_all_along,
    as_petal,
    base_skipped,
    begun_further_on,
    chained_to_each,
    each_as_it_comes,
    each_in_turn,
    from_its_first,
    grouped_by_times,
    last_shaped,
    one_to_each,
    parted,
    past_its_base,
    shaped_along,
    side_first,
    skipped_chains,
    skipped_together,
    stitches_for_spaces,
    through_last_but_one,
    told_by_turns,
    told_once,
    told_round,
)
from .meanings.those import fastened_to_others, pointed_at, round_the_last
from .meanings.told_first import decreased, joined_late, on_that_row
from .meanings.told_off import filled_last, in_the_others, spaces_along, stepped, told_off, with_the_others
from .meanings.told_on import begun_as_repeated, chained_each, over_loops, told_on
from .plain import one_told
from .prose import is_prose
from .shaping import Shaping
from .spelling import Respelling
from .stated import COUNT_LIKE, MANY, CountReader, ends_whole, nothing_more, row_ends, stitch_first, work_follows
from .talk.clauses import is_noted, talk_apart
from .talk.named_work import named_work
from .talk.said_as_talk import hides_work
from .words import Word, Words, bare_numbers, vocabulary

#: Ways of saying that are said otherwise first, in this order: each takes a row's text and gives it as long as before.
_EVENED: tuple[Callable[[str], str], ...] = (
    marked_spaces, print_habits_evened, places_evened, asides_evened, shaping_told_evened, lace_evened, hyphens_evened, repeats_evened,
    totals_evened, runs_evened, turns_evened, ends_evened,
)  # fmt: skip
#: What says that a row has as many stitches as the one below.
_NO_SHAPING = when_used(r"\beven|\bunchanged\b|\bwithout\b|\bno\b")
#: A clause that may begin at a word: what it costs, where it ends, what it is.
Way = tuple[float, int, Any]
#: "(or 12 dc in a magic ring)", "(dc = UK tr)": another way, another name; no work beside what stands before.
_OTHER_WAY = when_used(r"(?:or|that is|i\.e)\b|(?:[a-z0-9]+ ?){1,3}= ?(?:(?:us|uk|american|british) )?(?:[a-z0-9]+ ?){1,3}(?:(?:in )?(?:us|uk)(?: terms)?)?$")
#: "2 dc, ch 2, 2 dc (large shell) in next sp": what stands before is called so.
_LABEL = when_used(
    r"(?:= ?)?(?:(?:an?|one|1|the) )?(?:(?:large|small|big|little|corner|first|second|beginning|beg|starting|end|last|half|full|double|single|another|next) )?"
    r"(?:shell|fan|petal|v-?st(?:itch)?|cluster|group|corner|block)(?: (?:made|formed|done|completed?))?"
)
#: "... and draw through all loops (puff st)": the name of what was just made.
_NAMES_IT = when_used(
    r"(?:(?:an?|the|one|first|another|beg|beginning|starting|corner|=) )?(?:(?:first|beg|beginning|starting|corner|half|another) )?(?:puff|popcorn|pc|bobble|cluster|shell|picot|fan|petal|v)(?:[ -]?st(?:itch)?|[ -](?:loop|lp))?|dec(?:rease)?|inc(?:rease)?"
)
#: "(= 9 dc in each dc-group)", "(5 tr per block)": what every part of the row holds now.
_IN_EVERY_PART = when_used(
    r"(?P<said>=|makes|making|giving|that is|there (?:are|should be)|(?:so )?you (?:should |now |will )*have)? ?(?:now )?\d{1,3} [a-z]+ (?:in|per|on|for|to|within)(?: each| every)?"
    r" (?:(?:\d-)?[a-z]+[- ])?(?:group|block|set|section|petal|repeat|wedge|segment|panel)s?(?: now)?"
)
_REPEATED = when_used(r"\b(?:rep|repeat|rpt)\b|\btimes\b|\ba?round\b")
#: What a row ends with behind its work: how it is joined, and its count.
_ROUND_ENDS = when_used(r"[\s.,;]*(?:\b(?:join|ss|sl st|slip st|slip stitch)\b[^.;(*]*)?[\s.,;]*(?:[(\[] ?\d[^()\[\]]*[)\]])?[\s.]*$")
#: What words that explain a stitch name at least one of.
_MAY_EXPLAIN = when_used(
    r"\b(?:[sdh]{1,3}\.? ?c\w?|h?d?tr\w*|treb\w*|ch\w*|sts?|stit?ch\w*|sl\w*|ss|lps?|loops?|hook|yo|yarn|crochet\w*|picots?|p|popcorns?|pc|clusters?|cl|shells?|puffs?|bobbles?|inc\w*|dec\w*|\w*tog\w*|work|posts?|[fb]p\w*)\b"
)
_ONE_SHAPING = when_used(r"^(?:\d{1,2}|one|two) ?[a-z]+,? (?:and |then )?(?:inc|dec|increase|decrease|invdec)\W*$")
#: "(all in same corner)": what stands before goes there.
_ALL_IN = when_used(r"(?:all|both|worked|all worked) in(?:to)? (?:the )?(?:same|that|one) (?:ch-?\d* )?(?P<noun>corner|st|stitch|sp|space|loop|lp|ch|place)")
#: "(sk 5 sts in current row)" behind stitches worked further down: those that they take the place of.
_UNDER_DEEP = when_used(
    r"(?:sk|skip|skipping|miss|leave)(?:s|es)? (?:the )?(?:next )?(?:\d+ )?(?:sts?|stitch(?:es)?|sc|dc|hdc|htr|tr) "
    r"(?:in|of|on) (?:the )?(?:current|working|present) (?:row|rnd|round)"
)
#: "3rd chain (the top of the 3 chains)": which one of a chain that is.
_ITS_TOP = when_used(
    r"(?:(?:that|this|which) is |i\.?e\.?,? )?(?:the )?(?:very )?top(?: part| one| st(?:itch)?| ch(?:ain)?)?"
    r"(?: of (?:the |your |that |this )?(?:beg(?:inning)? |starting |first )?(?:\d )?(?:ch(?:ains?|s)?|tch)(?:[- ]?\d)?)?"
)
#: "(3 times over hook)", "(yo twice)": how often the yarn goes over for the stitch just named.
_WRAPS = when_used(
    r"(?:(?:yo|yarn|thread|wool|cotton|wrap yarn|yarn over|thread over|yrh|yoh) )?(?:(?:\d|two|three|four|five)(?: times| x)|twice) (?:over|round|around) (?:the )?(?:hook|needle)"
    r"|(?:yo|yarn over|thread over|wool over|yrh|yoh|wrap yarn|yarn round hook|yarn over hook|thread over hook|wool round hook)(?: needle)? (?:(?:\d|two|three|four|five)(?: times| x)?|twice)"
)
#: "(on circle)", "(along the base)": the part of the piece that stitches lie on.
_ON_PIECE = when_used(r"(?:on|of|along|around|from|onto) (?:the |your |this )?(?:[a-z]+ )?(?:circle|ring|base|body|head|disc|piece|motif|flower|cent(?:er|re)|coaster|round)")
#: "(see Stitch Guide)": it sends to another place of the page.
_SENDS = when_used(r"(?:see|refer|as shown|shown|cf)\b(?!.*\d)")
#: What a row begins with where it only lifts the work, and what that may be said to be.
_BEGUN = when_used(r"(?:(?:work|make|then|first) )?(?:ch(?:ain)? ?-?(?P<a>\d{1,2})|(?P<b>\d{1,2}) ?ch(?:ain)?s?)")
_PARTS = when_used(r"(?:(?:=|1|one|first|1st|a) ?)*[a-z]+(?: [a-z]+)? ?(?:(?:,|\+|and|&) ?(?:ch(?:ain)? ?-?\d+|\d+ ?ch)(?: sp)?)?")
#: "Ch 1 between them": the stitches of one place.
_AMONG = when_used(r"between (?:them|the (?:sts|stitches)|(?:the )?\d|stitches|sts)")
#: "Until the last but one stitch": with that one or without it.
_BUT_ONE = when_used(r"\b(?P<far>to|until|till) (?:the )?(?:last but one|second[ -]to[ -]last|next[ -]to[ -]last|penultimate)\b")
#: How far a repeat goes, which a star before it may have opened.
_TO_THE_END = when_used(r"\ba?round\b(?! (?:each|every|all|the|post)\b)|\b(?:across|end|along|until|to)\b")
_COUNTED_BRACKET = when_used(r"\d")
_HALF_SAID = when_used(r"rep(?:eat)?|rpt|from|[)\]}]")
_COUNTED_AT_END = when_used(r"[(\[=]\s*\d[^()\[\]]*[)\]]?\W*$")
#: What is worked into a place is no count.
_WORKED = when_used(
    r"(?:sc|hdc|dc|htr|tr|dtr|st|sts|chs?|chains?|crochets?|trebles?|shells?|clusters?|picots?) (?:in|into|around|over) (?:the )?"
    r"(?:next|same|first|ring|2nd|3rd)\b"
)
#: "(11 sc). Turn to the other side of the chain, ...": behind what the first side has.
_OTHER_SIDE_NEXT = when_used(r"[\s.,;]*(?:(?:now|then|next|and|turn|rotate|flip|work(?:ing)?|continu(?:e|ing)|go(?:ing)?|crochet(?:ing)?|the|your|piece|work|chain|ch|round|around|over|down|up|back|along|on|to|in|into|across)[ ,]+)*(?:other|opposite|second|bottom|under) ?(?:side|edge)\b")
#: "(16 dc in ring)" behind all else of a row: what it makes.
_IN_RING = when_used(r"\d+ [a-z]+(?: [a-z]+)? in (?:the )?(?:ring|circle|loop)(?: (?:in all|in total|altogether|made))?")
_INTO_RING = when_used(r"\d ?[a-z]+ in(?:to)? (?:the )?(?:ring|circle|loop)\b")
#: "Shell in next st (shell = 5 dc)": the bracket tells what it is made of.
_NAMED_GROUP = when_used(r"(?:(?:an?|the|each|1|one) )?(?:shell|fan|petal|v-?st(?:itch)?|v st(?:itch)?|scallop) ?(?:=|:|is|means|consists of|made of)(?: (?:work|made of|made with))? ?(?=\d|[a-z]+ )")
#: Kinds of brackets that stand for themselves.
_SETTLED = frozenset(("COUNTED", "COUNTSAS", "NOTED", "GATHERS"))
#: What says behind a bracket how often it is worked.
_OFTEN = frozenset(("x", "times", "time", "twice", "rep", "repeat", "*", "once"))
#: Kinds of things that are named in full and by an abbreviation.
_NAMED = frozenset(("CH", "CHV", "ST", "SP", "SLSTW", "SKIP", "REPEAT", "YO", "INC", "DEC", "ROW", "RND", "BL", "FL", "TL", "BEG"))
#: Clauses that begin a thing of their own and so may stand without a sign before them at a smaller cost.
_BOUNDARY = 0.9
_EASY = frozenset(("turn", "join", "chain", "repeat", "fasten", "ending", "goes_on", "facing"))
_UNKNOWN, _UNKNOWN_MORE = 9.0, 2.5
#: A row read for no more than this is read best with no word lost: far under what one costs.
_SURE = _UNKNOWN / 2
_SEPARATORS = {",": 0.0, ";": 0.0, ".": 0.0, ":": 0.05, "and": 0.15, "then": 0.0, "-": 0.3, "!": 0.0, "&": 0.15,
               "now": 0.05, "/": 0.6, "...": 0.1, "next": 1.5, "also": 0.1, "=": 0.5}  # fmt: skip


class RowReader:
    """Reads rows in given terms with a pattern's own stitches."""

    def __init__(self, words: Words, specials: Mapping[str, Special]) -> None:
        self.words, self.specials = words, specials
        #: What increases, and stitches without a name, are made of where the row names none: what the rows above name.
        self.usual = "sc"
        #: What the rows above work in a corner that they call so, and what they work that may be one.
        self.corner = self.turned = ""
        self.rules: Grammar = grammar()
        self.first = {name: self.rules.first[name] for name in (*CLAUSES, "stated", "countlist")}

    def read(self, text: str, low: str, source: Source, *, defining: bool = False) -> RowRead:
        """A row from its words in lower case (`low`, letter for letter as `text`)."""
        if not low.strip():
            return RowRead()
        if "corner" in low and not defining:
            return self._read_corners(text, groups_told(low), source)
        self.turned = corner_worked(low) or self.turned
        return self._read(text, low, source, defining=defining)

    def _read(self, text: str, low: str, source: Source, *, defining: bool) -> RowRead:
        if not defining:
            text, low = told_of_all(*other_side_told(text, low))
            low = groups_told(low)
            rest, talk = talk_apart(low)
            if talk:
                return self._besides(text, talk, self._read(text, rest, source, defining=False))
            apart, beside = set_apart(low)
            begun, foundation = one_foundation(hasty_evened(apart))
            one, other = one_told(functools.reduce(lambda said, evened: evened(said), _EVENED, begun))
            plainer = moves_evened(named_moves(in_that_corner(without_counting(one)), self.words.terms), self.words.terms)
            if plainer != low:
                read = self.read(text, plainer, source)
                read.other_way = foundation or other or read.other_way
                read.prose = [*(text[start:end].strip(" ,;") for start, end in beside), *read.prose]
                read.ops = with_chain(read.ops, low, self.words)
                return read
            plainer, chain = taken_out(low, self.words.terms)
            if chain is not None:
                read = self.read(text, plainer, source)
                ops = replaced(read.ops, *chain)
                if ops is not None:
                    read.ops, read.others = ops, ()
                    return read
        read = _Reading(self, text, low, source, defining=defining).whole()
        read.ops = posts_from_behind(read.ops, low)
        if (said := post_unsaid(read.ops, low)) is not None:
            says, remedy = "it is not said which stitch's post is meant", 'write "around post of next dc"'
            read.complaints.append(Complaint(*said, says, remedy, "ambiguous"))
            return read
        if not read.complaints:
            return read
        if defining and _MAY_EXPLAIN.search(low) is None:
            return read  # slips of the pen are looked for where a stitch may be explained
        alone = None if defining else self._without_mark(text, low, source, read)
        if alone is not None:
            return alone
        return Respelling(self.words, text, low, lambda tried: self._tried(text, low, source, tried, defining=defining)).best(read)

    @staticmethod
    def _besides(text: str, talk: Sequence[tuple[int, int]], read: RowRead) -> RowRead:
        """A row that was read without the clauses that tell no work, with what they say; those that name a number or a stitch
        are noted."""
        said = [(" ".join(text[start:end].split()), start) for start, end in talk]
        read.prose = [*(words for words, _ in said), *read.prose]
        read.notes = [*((words, start) for words, start in said if is_noted(words.lower())), *read.notes]
        return read

    def knowing(self, words: Words, specials: Mapping[str, Special]) -> RowReader:
        """A reader with other words and stitches of the pattern's own, which goes on behind the rows this one has read."""
        new = RowReader(words, specials)
        new.usual, new.corner, new.turned = self.usual, self.corner, self.turned
        return new

    def _read_corners(self, text: str, low: str, source: Source) -> RowRead:
        """A row whose corners that go by their name are told by what is worked in them: as the text says, or else as the
        rows above worked what may be one, which is said."""
        before = low
        text, low = corners_again(text, low, self.corner or self.turned)
        taken = self.turned if low != before and not self.corner and not corner_told(before) else ""
        self.corner = corner_told(low) or corner_told(before) or self.corner
        self.turned = corner_worked(low) or self.turned
        read = self._read(text, sides_evened(corners_evened(low)) if self.corner else low, source, defining=False)
        if taken:
            read.respelt = {**read.respelt, "corner": taken}
        return read

    def without(self, text: str, low: str, source: Source, read: RowRead) -> list[RowRead]:
        """A row that cannot be read as it stands, read as a reader of print would try it: without the words that nothing
        reads, with the mark that is missing. Only readings in which no word is left over."""
        counted = bool(read.counts) or _COUNTED_AT_END.search(low) is not None
        lost = [(c.start, c.end) for c in read.complaints if c.lost] or read.passed
        marks = [(c.start, c.end) for c in read.complaints if not c.lost and (c.lone_mark or _HALF_SAID.match(low, c.start))]
        tried = [
            self.alone(text if len(plainer) == len(low) else plainer, plainer, source)
            for plainer in texts_without(low, _phrases(low, lost), marks, counted=counted, stitch=read.plain or self.usual)
        ]
        return [one for one in tried if one.ops and not one.complaints]

    def alone(self, text: str, low: str, source: Source) -> RowRead:
        """A row read as it stands, with no slip of the pen mended."""
        return _Reading(self, text, low, source, defining=False).whole()

    def _without_mark(self, text: str, low: str, source: Source, read: RowRead) -> RowRead | None:
        """A row whose one star opens a repeat that is never told, read without it: that is set aside if the row comes out."""
        found = read.complaints[0]
        lone = len(read.complaints) == 1 and found.lone_mark and low.count(low[found.start : found.end]) == 1
        if not lone:
            return None
        again = self.read(text, low[: found.start] + " " * (found.end - found.start) + low[found.end :], source)
        if again.complaints or (_TO_THE_END.search(low[found.end :]) and not _all_along(again.ops)):
            return None
        if (tail := _ROUND_ENDS.search(low, found.end)) is not None:
            at, mark = tail.start(), low[found.start : found.end]
            closed = self.alone(f"{text[:at]}; rep from {mark} around{text[at:]}", f"{low[:at]}; rep from {mark} around{low[at:]}", source)
            if not closed.complaints:  # a star is put where something comes again
                again.ops, again.others = closed.ops, (*closed.others, again.ops, *again.others)
        again.complaints.append(replace(found, aside=True, idle=True))
        return again

    def _tried(self, text: str, low: str, source: Source, tried: Mapping[str, str], *, defining: bool) -> RowRead:
        """A row read with slips of the pen mended, those of `tried` as it says."""
        return _Reading(self, text, low, source, defining=defining).whole(respelt=tried)


class _Reading:
    """One row as it is read: what is known of it so far."""

    def __init__(self, reader: RowReader, text: str, low: str, source: Source, *, defining: bool) -> None:
        self.reader, self.text, self.low, self.source, self.defining = reader, text, low, source, defining
        self.out = RowRead()

    def whole(self, *, respelt: Mapping[str, str] | None = None) -> RowRead:
        """The row's ops, counts, complaints and notes. `respelt`: slips of the pen are mended before, these as it says."""
        words = self.reader.words.read(self.low)
        if respelt is not None:
            self.out.respelt = self.reader.words.respell(words, respelt)
            if not self.out.respelt:
                return self.out
            for word in words:
                if len(word.text) == word.end - word.start:
                    self.low = self.low[: word.start] + word.text + self.low[word.end :]
        self._letters(words)
        self.reader.words.lettered(words, self.text)
        self._short_in(words)
        self.out.respelt.update(closed_alike(words))
        folded = fold(words)
        self.out.respelt.update(folded.respelt)
        self.out.notes += folded.set_aside
        for level in (folded.words, *(w.inside.words for w in folded.words if w.inside is not None)):
            for word in bare_numbers(level):
                word.kinds["PLAINN"] = list(word.kinds.get("NUM", ()))  # digits of other scripts are no number
            for before, word in pairwise((None, *level)):
                if "NUM" in word.kinds and (before is None or before.text not in ("ch", "chs", "chain")):
                    word.kinds["FREEN"] = list(word.kinds["NUM"])  # no chain's number
        self.out.complaints += folded.complaints + folded.plain
        if folded.complaints:
            return self.out
        self._too_large(words)
        self.out.plain = one_plain(words)
        base = self.out.plain or self.reader.usual
        meanings = Meanings(self.reader.words.terms, self.reader.specials, base, self.out.learned)
        self.table = meanings.table()
        self.counts = CountReader(self.reader.rules, self.reader.words, self.table, self.low)
        self.leftovers = Leftovers(self.out, self.text, self.low, self.reader.words.terms)
        items, all_words = self._level(folded.words, top=True)
        self.out.ops, self.out.others = self._shaped(items, all_words)
        self.out.ops, self.out.others = over_loops(self.out.ops), tuple(over_loops(ops) for ops in self.out.others)
        self.out.ops, self.out.others = filled_last(stepped(side_first(parted(self.out.ops)))), tuple(parted(ops) for ops in self.out.others)
        self.out.ops, self.out.others = pointed_at(begun_there(self.out.ops)), tuple(pointed_at(begun_there(ops)) for ops in self.out.others)
        self.out.ops, self.out.others = round_the_last(self.out.ops), tuple(round_the_last(ops) for ops in self.out.others)
        self.out.ops, self.out.others = fastened_to_others(self.out.ops), tuple(fastened_to_others(ops) for ops in self.out.others)
        if _NO_SHAPING.search(self.low):
            self.out.ops = told_once(self.out.ops)
        if not self.out.counts and not self.defining and (counted := counted_at_last(self.out.ops)) is not None:
            self._count_told(*counted)
        if not self.defining:
            self.out.ops = last_shaped(shaped_along(self.out.ops, base))
            self._as_usual(folded.plain)
        if self.defining and len(self.out.ops) == 1:
            self.out.ops = _bare(self.out.ops)
        return self.out

    def _count_told(self, ops: Ops, told: tuple[Make | Chain, ...]) -> None:
        """Take stitches and chains behind a row's end for what it makes."""
        line, column, length = told[0].at
        begins = [0, *(n + 1 for n, sign in enumerate(self.text) if sign == "\n")][line - self.source.line]
        start = begins + column - (self.source.column if line == self.source.line else 1)
        self.out.ops, self.out.others = ops, ()
        parts = tuple((one.count, Noun(one.stitch if isinstance(one, Make) else "ch")) for one in told)
        self.out.counts.append((parts, start, start + length))

    def _as_usual(self, unopened: Sequence[Complaint]) -> None:
        """What the words leave to custom, and the further readings they allow; `unopened`: of repeats that nothing opened."""
        self.out.ops = first_legs(self.out.ops)
        self.out.ops = on_that_row(self.out.ops, self.low)
        self.out.ops = in_such_gaps(in_row_below(in_space_below(held_in_each(between_legs(self.out.ops)))))
        self._past_its_base()
        self._round_the_chain()
        further = every_further(self.out.ops)
        self.out.others += (further,) if further != self.out.ops and self.out.counts else ()
        self._between()
        self._told_round()
        self._in_the_others()
        own = {**self.reader.specials, **self.out.learned}
        self.out.ops = in_their_places(self.out.ops, own)
        self.out.others = tuple(in_their_places(ops, own) for ops in self.out.others)
        self._further_ways(made_up=bool(unopened))
        self._tell_off()
        self.out.ops = counted_by_join(self.out.ops)
        self.out.others = tuple(counted_by_join(ops) for ops in self.out.others)

    def _past_its_base(self) -> None:
        """ "Sk 1 st" behind a chain that counts, where nothing but stitches to the end follows; or as it stands."""
        again = past_its_base(self.out.ops)
        if again != self.out.ops:
            self.out.others += (self.out.ops,)
            self.out.ops = again
        elif _ONE_SKIPPED.search(self.low) and (based := base_skipped(self.out.ops)) != self.out.ops:
            self.out.others += (based,)

    def _round_the_chain(self) -> None:
        """Work into where a round along a chain began, behind the way back: the way back ends before it; or as it stands."""
        again = round_the_chain(self.out.ops)
        if again != self.out.ops:
            self.out.others += (self.out.ops,)
            self.out.ops = again
        whole = whole_sides(self.out.ops)
        if whole == self.out.ops:
            return
        if begins_with_first(whole):
            self.out.ops, whole = whole, self.out.ops
        self.out.others += (whole,) if self.out.counts else ()

    def _between(self) -> None:
        """ "3 dc in each sp, ch 1 between each": chains between the groups, or between the stitches of each, as the count says."""
        groups = or_between_groups(self.out.ops)
        if groups == self.out.ops:
            return
        self.out.others = (groups, *self.out.others)
        at = self.low.find("between")
        if not self.out.counts and at >= 0 and not _AMONG.search(self.low, at):
            says = "the chains may stand between the groups or between the stitches of each"
            self.out.complaints.append(
                Complaint(at, at + len("between"), says, 'write "ch 1 between groups", or the stitches of one space in brackets', "ambiguous")
            )

    def _in_the_others(self) -> None:
        """ "2 sc in every third st": one in each of the others, where that is all a round tells; or as it stands."""
        self.out.ops = with_the_others(self.out.ops)
        again, sure = in_the_others(self.out.ops)
        if again == self.out.ops:
            return
        if sure:
            self.out.ops, again = again, self.out.ops
        self.out.others += (again,) if self.out.counts else ()

    def _further_ways(self, *, made_up: bool) -> None:
        """Other ways to read the row, in the order of usual practice. `made_up`: a mark of its repeat was put where none stood."""
        self.out.others += other_ways(self.out.ops) + grouped_by_times(self.out.ops, self.low)
        together = in_one_place(self.out.ops)
        if together != self.out.ops:
            self.out.ops, self.out.others = together, (self.out.ops, *self.out.others)
        self._skipped_chains()
        but_one = _BUT_ONE.search(self.low)
        through = through_last_but_one(self.out.ops, until=but_one["far"] != "to") if but_one else self.out.ops
        if through != self.out.ops:
            self.out.others, self.out.ops = (*self.out.others, self.out.ops), through
        filled = stitches_for_spaces(self.out.ops) if self.out.counts else self.out.ops
        self.out.others += (filled,) if filled != self.out.ops else ()
        looped = chained_to_each(self.out.ops) if self.out.counts else self.out.ops
        self.out.others += (looped,) if looped != self.out.ops else ()
        self.out.ops = each_beside_each(each_as_it_comes(self.out.ops))
        apart = (each_in_turn(self.out.ops), one_to_each(self.out.ops))
        self.out.others += tuple(ops for ops in apart if ops != self.out.ops)
        self.out.ops = begun_as_repeated(self.out.ops)
        chained = chained_each(self.out.ops) if made_up or not any(mark in self.low for mark in MARKS) else self.out.ops
        if chained != self.out.ops:
            self.out.ops, self.out.others = chained, (self.out.ops, *self.out.others)
        self.out.others += begun_further_on(self.out.ops) if made_up else ()
        longer = past_its_own_chain(self.out.ops)
        self.out.others += (longer,) if longer != self.out.ops else ()
        seen = ribs_as_seen(self.out.ops)
        self.out.others += (seen,) if seen != self.out.ops else ()
        alone = alone_all_along(self.out.ops) if self.out.counts else self.out.ops
        self.out.others += (alone,) if alone != self.out.ops else ()
        begun = begins_the_first(self.out.ops) if self.out.counts else self.out.ops
        self.out.others += (begun,) if begun != self.out.ops else ()

    def _skipped_chains(self) -> None:
        """Chains that are named where something is skipped lie in the row below; or as it stands."""
        passed = skipped_chains(self.out.ops, self.low)
        if passed == self.out.ops:
            return
        if skipped_together(self.low):
            self.out.ops, passed = passed, self.out.ops
        self.out.others += (passed,)

    def _told_round(self) -> None:
        """What is told once and meant to the end; as it stands where a count is stated that only this gives."""
        begun = from_its_first(self.out.ops) if self.out.counts else None
        again = told_round(told_by_turns(self.out.ops))
        if again == self.out.ops:
            again = told_on(self.out.ops, self.low)
        if again != self.out.ops:
            self.out.others += (self.out.ops,) if self.out.counts else ()
            self.out.ops = again
        self.out.others += (begun,) if begun is not None else ()

    def _short_in(self, words: list[Word]) -> None:
        """ "2 dc n next dc": "in" without its first letter; "2 dc in next it": both are said."""
        for before, word, behind in zip(words, words[1:], words[2:], strict=False):
            if word.text == "n" and behind.text in ("next", "each", "same", "first", "last") and before.text[:1].isalnum():
                word.text = "in"
                self.out.respelt["n"] = "in"
        for before, word in pairwise(words):
            if word.text == "it" and before.text in ("next", "each", "every", "first", "last"):  # a worn or misread "st"
                word.text = "st"
                self.out.respelt["it"] = "st"

    def _tell_off(self) -> None:
        """Stitches told off by their numbers: where the first is called so, and, as another way, behind "next"."""
        self.out.ops = decreased(told_off(self.out.ops))
        self.out.others = tuple(decreased(told_off(ops)) for ops in self.out.others)
        loosely = told_off(self.out.ops, first=False)
        if loosely != self.out.ops:
            self.out.others += (loosely,)
        if (along := spaces_along(self.out.ops)) is not None:
            self.out.others += (along,)
        late = joined_late(self.out.ops)
        if late is not None:
            self.out.others += (late,)

    def _too_large(self, words: list[Word]) -> None:
        """A complaint for a number of more than this tool works."""
        for word in words:
            number = next((v for _, v in word.kinds.get("NUM", ())), 0)
            if number > MOST:
                says = f"that is more than this tool works ({MOST:,})"
                self.out.complaints.append(Complaint(word.start, word.end, says, "use a smaller number", "limit"))

    def _letters(self, words: list[Word]) -> None:
        """Letters of yarns: capitals that stand alone; and words that nothing else knows."""
        mixed = any(c.islower() for c in self.text) or not any(w.text.isalpha() and len(w.text) > 1 for w in words)
        letters = {self.text[w.start : w.end] for w in words} & set("BCDE") if mixed else set()
        for at, word in enumerate(words):
            said = self.text[word.start : word.end]
            numbered = bool(_THEN_NUMBER.match(self.low, word.end))
            if said == "A" and letters and ((at and words[at - 1].text not in (".", "!", ":")) or numbered):
                word.kinds, word.text = {"LETTER": [(1, said)]}, "a_yarn"
                continue
            if said.isupper() and said != "I" and not self.reader.words.is_own_stitch(word.text) and (len(said) == 1 or said in ("MC", "CC", "CA", "CB", "YB")):
                begins = at == 0 or words[at - 1].text in (".", "!", ":")
                if not (said == "A" and begins) and said not in ("K", "P"):
                    word.kinds["LETTER"] = [(1, said)]
            if said in self.reader.words.yarns:
                word.kinds = {"LETTER": [(1, said)]}
                word.text = f"{word.text}_yarn"  # "MC" is then no magic circle, "LP" no loop

    # -- one level of brackets ------------------------------------------------------------------------------------

    def _level(self, words: list[Word], *, top: bool = False) -> tuple[list[Item], list[Word]]:
        for at, word in enumerate(words):
            if word.inside is not None:
                self._node(word, words, at)
        words = noted_behind([w for at, w in enumerate(words) if not self._in_the_way(words, at)])
        for word in words:
            if word.text in SIGNS:
                word.kinds[SIGNS[word.text]] = [(1, word.text)]
        self.reader.words.lattice(words)
        for at, word in enumerate(words):
            kinds = word.kinds
            slips = [(end, v) for end, v in kinds.get("STN", ()) if v == "sl st"]
            if slips:
                kinds["SLSTW"] = kinds["SL_ST"] = slips
                if at and words[at - 1].text in ("1", "one"):
                    words[at - 1].kinds["SLSTW"] = slips
            if not kinds and word.text[:1].isalpha() and not ends_with(words, at):
                kinds["ANYWORD"] = [(at + 1, word.text)]
        return self._cover(words, top=top), words

    def _in_the_way(self, words: list[Word], at: int) -> bool:
        """Whether a bracket of talk stands between a stitch and its place: "shell (see above) in next sp"."""
        if "NOTED" not in words[at].kinds or not 0 < at < len(words) - ("ALIAS" not in words[at].kinds) or not (words[at - 1].text[:1].isalnum() or words[at - 1].inside is not None):
            return False
        if "ALIAS" in words[at].kinds:
            return True
        if _SENDS.match(words[at].kinds["NOTED"][0][1]):
            self.out.prose.append(words[at].kinds["NOTED"][0][1])
            return True
        if words[at].kinds["NOTED"][0][1].startswith(("that is", "i.e")):
            self.out.prose.append(words[at].kinds["NOTED"][0][1])
            return True
        said = words[at].kinds["NOTED"][0][1]
        counted = _COUNTED_BRACKET.search(said) and not _WRAPS.fullmatch(said)
        if words[at + 1].text not in ("in", "into", "around", "of") or counted:
            return False
        self.out.labels.append((said, words[at].start))
        self.out.prose.append(words[at].kinds["NOTED"][0][1])
        return True

    def _node(self, word: Word, around: list[Word], at: int) -> None:
        inside: Inside = word.inside
        if "STARNODE" in word.kinds:
            items, inner = self._level(inside.words)
            ops, _ = self._shaped(items, inner, inner_of="star")
            cut = None
            if inside.cut is not None:
                stands = {id(w) for w in inner}
                at_cut = sum(id(w) in stands for w in inside.words[: inside.cut])
                before = [i for i in items if i.first < at_cut]
                cut = len(self._shaped(before, inner, inner_of="star")[0])
            if cut is None and not _TO_THE_END.search(self.low[word.start : word.end]):
                ops = _each_in_turn(ops)
            star = Star(ops, None, None, cut, at=self._span(word.start, word.end))
            word.kinds = {"STARRED": [(1, Node(ops, star, inside.paired and not inside.said_rep))]}
            said = self.low[word.start : word.end].strip("*+ ")
            if not ops and not inside.said_rep and is_prose(said) and not names_work(inner):
                word.kinds = {"NOTED": [(1, said)]}  # an aside between stars
            elif not ops:
                self.out.complaints.append(
                    Complaint(word.start, word.end, "nothing is said between the repeat marks", "say what is repeated")
                )
            return
        self._bracket(word, around, at)

    def _bracket(self, word: Word, around: list[Word], at: int) -> None:
        inside: Inside = word.inside
        if self.low[word.start].isalpha():  # words that send back to work of a bracket: nothing is said in one here
            items, inner = self._level(inside.words)
            word.kinds = {"BRK": [(1, Node(self._shaped(items, inner, inner_of="bracket")[0]))]}
            return
        low = self.low[word.start + 1 : word.end - 1].strip()
        if self._short_for(inside.words, around, at):
            word.kinds = {"NOTED": [(1, low)], "ALIAS": [(1, low)]}
            return
        if self._of_yarn(word, around, at):
            return
        named, low = self._without_name(inside, low, word.start + 1) if at else (False, low)
        placed = placed_after(around, at) and not self._new_sentence(around, at)
        placed = placed or self._goes_there(inside, low, around, at)
        if not placed and heads_row(low, around, at):
            word.kinds = {"NOTED": [(1, low)]}
            return
        counts = counts_as(low, self.reader.words) or (None if placed or self.defining else self._spelled_out(low, around, at))
        if counts is None and not placed and (chains := chain_before(around, at)):
            counts = told_beside(chains, low, self.reader.words)
        if counts is not None:
            word.kinds = {"COUNTSAS": [(1, counts)]}
            return
        if not placed and not named and not tells_left(low) and self._counted(word, low, around, at):
            return
        if all_in := _ALL_IN.fullmatch(low):
            word.kinds = {"GATHERS": [(1, all_in["noun"])]}
            return
        if self._only_tells(word, low, around, at, placed=placed):
            self._noted(word, low)
            return
        keep = len(self.out.complaints), len(self.out.notes), len(self.out.prose), len(self.out.counts)
        items, inner = self._level(inside.words)
        ops, _ = self._shaped(items, inner, inner_of="bracket")
        if (
            len(self.out.complaints) > keep[0]
            and not placed
            and (is_prose(low) or len(low.split()) <= 1 or not names_work(inner) or self._explains(around, at, low))
        ):
            del self.out.complaints[keep[0] :]
            ops = ()
        if not ops or (not placed and not _makes(ops)):
            works = any(_made_words(inner)) or tells_work(low)
            if len(self.out.complaints) > keep[0] and not placed and not works:
                del self.out.complaints[keep[0] :]
            if len(self.out.notes) > keep[1] and not placed:
                ops = ()  # words that are not all known say nothing of what is done: "(going around the handle)"
            del self.out.counts[keep[3] :]
            acts = tuple(op for op in ops if isinstance(op, Act))
            self._noted(word, low)
            word.kinds = word.kinds if not acts else {"BRK": [(1, Node(acts))]}
            return
        if not placed and len(ops) == 1 and _only_stitches(ops) and is_own_group(low, around, at):
            ops = (Into(ops, (Place("next"),), at=self._span(word.start, word.end)),)
        word.kinds = {"BRK": [(1, Node(ops))]}

    def _noted(self, word: Word, low: str) -> None:
        """Take a bracket for something said beside the work; complain of one that tells work all the same."""
        word.kinds = {"NOTED": [(1, low)]}
        if hides_work(low) and not self.defining:
            says = f'"{low}" cannot be read as something to work'
            self.out.complaints.append(Complaint(word.start, word.end, says, "say it in the row where it is worked", lost=True))

    def _only_tells(self, word: Word, low: str, around: list[Word], at: int, *, placed: bool) -> bool:
        """Whether a bracket says something of the work beside it, and is none itself."""
        if self._labels(low, around, at, placed=placed) or _WRAPS.fullmatch(low):
            return True
        if placed:
            return False
        made = names_what_was_made(low) and self._explains(around, at, "")
        if _UNDER_DEEP.fullmatch(low) or not low or is_remark(low) or made or _OTHER_WAY.match(low):
            return True
        return (not self.defining and self._tells_a_place(word.inside.words)) or bool(_ON_PIECE.fullmatch(low)) or self._tells_how(word, low)

    def _of_yarn(self, word: Word, around: list[Word], at: int) -> bool:
        """Whether a bracket names nothing but a yarn: that of what follows, "(A) 4 sc, (B) 2 sc", or, where that ends
        with it, of what stands before, "4 sc (A), 2 sc (B)"."""
        own = word.inside.words
        said = self.text[own[0].start : own[-1].end] if own else ""
        words = " ".join(w.text for w in own)
        named = next((value for kind, value in vocabulary().get(words, ()) if kind == "COLOURW"), "")
        letter = said if len(own) == 1 and "LETTER" in own[0].kinds and (said in "ABCDEF" or len(said) > 1) else ""
        if not (named or letter):
            return False
        before, behind = around[at - 1] if at else None, around[at + 1] if at + 1 < len(around) else None
        if behind is not None and not behind.is_sign and (behind.text.isdigit() or behind.kinds):
            word.kinds = {"BRK": [(1, Node((Act("colour", letter or named, at=self._span(word.start, word.end)),)))]}
            return True
        if before is None or before.is_sign or before.inside is not None:
            return False
        word.inside, word.text = None, "in_yarn"
        word.kinds = {"LETTER": [(1, letter or named)]}
        return True

    def _goes_there(self, inside: Inside, low: str, around: list[Word], at: int) -> bool:
        """Whether a bracket goes into the place before it, or lists what no count would."""
        follows = work_follows(around, at)
        alone = ("," in low or (follows and not tells_left(low))) and place_before(around, at)
        return alone or (follows and tells_twice(inside.words))

    def _spelled_out(self, low: str, around: list[Word], at: int) -> CountsAs | None:
        """ "Ch 4 (dc, ch 1), ...": right behind a row's first chain, what it stands for, which adds up to its chains."""
        said = " ".join(w.text for w in around[:at] if w.text not in ("turn", ",", "."))
        found = _BEGUN.fullmatch(said)
        parts = _PARTS.fullmatch(low)
        if not found or not parts or around[at - 1].is_sign:
            return None
        told = counted_parts(low, self.reader.words) or ()
        most = sum(int(part.split()[1]) if " " in part else TURNING.get(part, 100) for part in told)
        chains = int(found["a"] or found["b"])
        return CountsAs(told) if most == chains else None

    def _counted(self, word: Word, low: str, around: list[Word], at: int) -> bool:
        """Whether a bracket with no place counts what was made, which is said of it."""
        turned = stitch_first(low, self.reader.words.terms) if at and not self.defining and row_ends(around, at) else None
        if turned is not None and (around[at - 1].text not in (",", ";", "*", "and", "then") or ends_whole(around, at - 1)):
            word.kinds = {"COUNTED": [(1, turned)]}
            return True
        worked = _INTO_RING.search(self.low[: word.start]) if _IN_RING.fullmatch(low) else None
        in_ring = worked is not None and (row_ends(around, at) or not self.low[worked.end() : word.start].strip())
        if self.defining or not COUNT_LIKE.match(low) or (_WORKED.search(low) and not in_ring) or is_own_group(low, around, at):
            return False
        if _ONE_SHAPING.search(low):
            return False  # "(1 sc, inc)": where shaping is counted it is said how often
        if _is_whole_row(around, at):
            return False
        part = _IN_EVERY_PART.fullmatch(low.strip(" .=") if "=" not in low else low.strip(" ."))
        if part is not None and (part["said"] or (row_ends(around, at) and _REPEATED.search(self.low[: word.start]))):
            return self._counted_aside(word, low)
        if _COUNTED_AT_END.search(self.low, word.end) is not None and says_again(low, self.low[: word.start]):
            return self._counted_aside(word, low)
        in_passing = (work_follows(around, at) and not self._new_sentence(around, at)) or _OTHER_SIDE_NEXT.match(self.low, word.end)
        if in_passing or (re.search(r"\b(?:made|completed|formed)\b", low) and not nothing_more(around, at)):
            return self._counted_aside(word, low)
        said = self.counts.in_bracket(word.inside.words, word)
        if said is not None:
            word.kinds = {"COUNTED": [(1, said)]}
            if not said.parts and named_work(low):
                self.out.prose.append(low)
        return said is not None

    def _counted_aside(self, word: Word, low: str) -> bool:
        """Take a bracket for a count of a part, which counts nothing of the row; one that names work is kept among the talk."""
        word.kinds = {"NOTED": [(1, low)]}
        if named_work(low):
            self.out.prose.append(low)
        return True

    def _without_name(self, inside: Inside, low: str, start: int) -> tuple[bool, str]:
        """Whether a bracket begins with the name of the group that it tells, and its words without that."""
        named = None if self.defining else _NAMED_GROUP.match(low)
        if named is None:
            return False, low
        inside.words = [w for w in inside.words if w.start >= start + named.end()]
        return True, low[named.end() :]

    def _labels(self, low: str, around: list[Word], at: int, *, placed: bool) -> bool:
        """Whether a bracket only names what stands before it: "(shell)" before its place, "(puff st)" behind its moves,
        "(the top of the 3 chains)" behind a chain."""
        if at and _ITS_TOP.fullmatch(low) and around[at - 1].text in ("ch", "chain", "chs", "chains", "lp", "loop"):
            return True
        if placed:
            return bool(_LABEL.fullmatch(low) and at and (around[at - 1].text[:1].isalnum() or around[at - 1].inside is not None))
        return bool(_NAMES_IT.fullmatch(low)) and self._explains(around, at, "")

    def _short_for(self, words: list[Word], around: list[Word], at: int) -> bool:
        """ "Single crochet (sc) in next st", "four (4) sc": a bracket that says again, shorter, what stands before it."""
        following = around[at + 1].text if at + 1 < len(around) else ""
        if not words or len(words) > 3 or following in _OFTEN or following.isdigit():
            return False
        before = [copied(w) for w in around[max(at - 3, 0) : at]]
        own = [copied(w) for w in words]
        if not before or any(w.inside is not None for w in (*own, before[-1])) or before[-1].text.isdigit():
            return False
        for level in (before, own):
            self.reader.words.lattice(level)
        said = {(kind, str(v)) for kind, arcs in own[0].kinds.items() for end, v in arcs if end == len(own)}
        last = len(before)
        meant = {(k, str(v)) for w in before for k, arcs in w.kinds.items() for end, v in arcs if end == last}
        whole = [w.text for w in own] != [w.text for w in before[-len(own) :]]
        named = {(k, v) for k, v in said & meant if k in ("STN", "NUM")} or {k for k, _ in said} & {k for k, _ in meant} & _NAMED
        return whole and bool(named)

    def _tells_how(self, word: Word, low: str) -> bool:
        """ "Cluster in next sc (cluster: 3 dc in same st, ...)", "picot (ch 3, sl st in sc)": how what was just named is made."""
        if _PICOT_TOLD.fullmatch(low) and re.search(r"\bpicot\s*$", self.low[: word.start]):
            return True
        told = _TO_MAKE.match(low) or _TOLD.match(low)
        if told is None or told["name"] not in self.low[max(word.start - LONGEST_BEFORE, 0) : word.start]:
            return False
        return any(kind == "GATHERED" for kind, _ in vocabulary().get(told["name"], ()))

    def _explains(self, around: list[Word], at: int, low: str) -> bool:
        """Whether a bracket stands right behind a clause, with no sign between, and tells no work of its own: it explains
        what was said."""
        if tells_work(low):
            return False
        before = around[at - 1] if at else None
        return (
            before is not None
            and before.text not in (",", ";", ".", ":", "*")
            and before.inside is None
            and before.text not in ("and", "then", "work", "make")
        )

    def _tells_a_place(self, words: list[Word]) -> bool:
        """ "(same ch as first sc)", "(center sc of next group)": a place and nothing else."""
        if not words or any(w.inside is not None for w in words):
            return False
        inner = [copied(w) for w in words]
        for w in inner:
            if w.text in SIGNS:
                w.kinds[SIGNS[w.text]] = [(1, w.text)]
        self.reader.words.lattice(inner)
        if not {"SAME", "MIDDLE", "FIRST", "LAST", "NEXT", "EACH", "ORD", "TOP"} & set(inner[0].kinds):
            return False
        return any(end == len(inner) for end, _, _ in Chart(self.reader.rules, inner, self.table).read("places", 0))

    def _new_sentence(self, around: list[Word], at: int) -> bool:
        """Whether the word behind a bracket begins a sentence of its own: "(24 dc) Each side now ..."."""
        following = around[at + 1] if at + 1 < len(around) else None
        if following is None or not following.text[:1].isalpha():
            return False
        if following.text in ("rep", "repeat", "rpt"):
            further = around[at + 2].text if at + 2 < len(around) else ""
            return further in ("row", "rows", "rnd", "rnds", "round", "rounds", "last") and (
                self.text[: around[at].start].rstrip()[-1:] == "."
            )
        said = self.text[following.start : following.end]
        return (said[:1].isupper() and not said.isupper() and self.text[: following.start].rstrip()[-1:] in ")]}") or (
            following.begins_line and said[:1].isupper()
        )

    # -- covering -------------------------------------------------------------------------------------------------

    def _cover(self, words: list[Word], *, top: bool) -> list[Item]:
        """The cheapest chain of clauses over all words."""
        chart = Chart(self.reader.rules, words, self.table)
        size = len(words)
        ways = functools.cache(lambda at: self._ways(words, at, chart, top=top))
        best = self._cheapest(words, _met_from(0, size, ways), ways)
        if best[0] is None or best[0][0] > _SURE:
            best = self._cheapest(words, range(size), ways)
        items: list[Item] = []
        at = 0
        while at < size:
            entry = best[at]
            assert entry is not None
            _, end, value = entry
            items.append(Item(value, at, end))
            at = end
        self.out.cost += best[0][0] if best[0] else 0.0
        return items

    def _cheapest(
        self, words: list[Word], places: Sequence[int], ways: Callable[[int], list[Way]]
    ) -> list[tuple[float, int, Any] | None]:
        """For each place where a clause may begin the cheapest way on to the end: its cost, where its first clause ends
        and what that is. None of a place from which there is none."""
        best: list[tuple[float, int, Any] | None] = [None] * len(words)
        best.append((0.0, len(words), None))
        for at in reversed(places):
            found = None
            for cost, end, value in ways(at):
                rest = best[end]
                if rest is None:
                    continue
                total = cost + rest[0] + self._join_cost(words, at, end, value, rest)
                if found is None or total < found[0] - 1e-9:
                    found = (total, end, value)
            best[at] = found
        return best

    def _join_cost(self, words: list[Word], at: int, end: int, value: Any, rest: tuple[float, int, Any]) -> float:
        """What it costs that a clause ends here and another begins with no sign between."""
        if end >= len(words) or not is_clause(value):
            return _UNKNOWN_MORE - _UNKNOWN if value is LOST and rest[2] is LOST else 0.0
        if is_clause(rest[2]):
            name = rest[2][0]
            if words[end - 1].inside is not None or words[end].inside is not None:
                return 0.3
            return 0.3 if name in _EASY or value[0] in _EASY else _BOUNDARY
        return 0.0

    def _ways(self, words: list[Word], at: int, chart: Chart, *, top: bool) -> list[Way]:
        word = words[at]
        kinds = word.kinds
        out: list[Way] = []
        if not _SETTLED.isdisjoint(kinds):
            kind = next(k for k in kinds if k in _SETTLED)
            return [(0.0, at + 1, (kind.lower(), kinds[kind][0][1]))]
        separator = _SEPARATORS.get(word.text)
        if separator is not None:
            out.append((separator, at + 1, GAP))
        for name in CLAUSES:
            if not self.reader.first[name].isdisjoint(kinds):
                for end, cost, value in chart.read(name, at):
                    if name != "colour" or not (_is_place(words, at, end) or self._no_yarn(words, at, end)):
                        out.append((cost + 0.1, end, (name, value)))
        counted = self._counts_clause(words, at)
        if counted is not None:
            out.append(counted)
        stated = self.counts.clause(words, at) if top and not self.defining else None
        if stated is not None:
            out.append(stated)
        harmless = remark(words, at, self.low)
        if harmless is not None:
            out.append(harmless)
        if "SOFT" in kinds:
            out.append((0.02, max(end for end, _ in kinds["SOFT"]), GAP))
        if word.is_sign and word.inside is None and separator is None:
            out.append((0.4, at + 1, GAP))
        lost = _UNKNOWN if "BRK" not in kinds and "STARRED" not in kinds else _UNKNOWN * 2
        out.append((lost, at + 1, LOST))
        return out

    def _no_yarn(self, words: list[Word], at: int, end: int) -> bool:
        """ "2 dc in blorp": an unknown word behind "in" is a yarn only where it is written as a name or called one."""
        unknown = [w for w in words[at + 1 : end] if "ANYWORD" in w.kinds]
        if words[at].text not in ("in", "into") or not unknown:
            return False
        named = re.compile(rf"\b(?:with|to|join|using) (?:the )?{re.escape(unknown[0].text)}\b").search(self.low)
        return not named and not any(self.text[w.start].isupper() for w in unknown)

    def _counts_clause(self, words: list[Word], at: int) -> tuple[float, int, Any] | None:
        """ "counts as dc" as a clause of its own."""
        if words[at].text not in _COUNT_LEADS or (words[at].text == "=" and not _chain_before(words, at)):
            return None
        end = at
        while end < len(words) and words[end].text not in (",", ";", ".") and words[end].inside is None:
            if end > at and _goes_on_then(words, end):
                break
            end += 1
        if any(words[k].text == "=" and _many_behind(words, k) for k in range(at, end)):
            return None
        low = self.low[words[at].start : words[end - 1].end] if end > at else ""
        if _CHAINED_TO.match(low) or self._chains_there(words, at, end):
            return None
        said = counts_as(low, self.reader.words)
        return (0.1, end, ("countsas", said)) if said is not None else None

    def _chains_there(self, words: list[Word], at: int, end: int) -> bool:
        """Whether a row makes the chain that it says counts, "Rnd 2: ch 3 counts as first dc, dc in same st": it has not
        been made before, nor is it made behind that, nor passed over from the hook."""
        lead = _SIZED_CHAIN.match(self.low, words[at].start)
        if lead is None:
            return False
        number = lead["n"] or lead["m"]
        made = _SIZED_CHAIN.finditer(self.low[: words[at].start])
        behind = self.low[words[end - 1].end :]
        again = _SIZED_CHAIN.match(behind.lstrip(" ,;.:"))
        before = any((a["n"] or a["m"]) == number for a in made)
        return not before and not (again and (again["n"] or again["m"]) == number) and " hook" not in behind

    # -- shaping --------------------------------------------------------------------------------------------------

    def _span(self, start: int, end: int) -> Span:
        return self.source.span(start, end)

    def _shaped(self, items: list[Item], words: list[Word], inner_of: str = "") -> tuple[Ops, tuple[Ops, ...]]:
        """The ops of a level, with what was said between them put where it belongs."""
        items = coloured_first(self.leftovers.without_prose(items, words), words)
        self.leftovers.complain(items, words)
        self.leftovers.doubt(items, words)
        out = Shaping(self.out, self.source, words, inner_of, self.reader.specials, defining=self.defining)
        for item in items:
            out.take(item)
        return out.finished()


def _phrases(low: str, lost: list[tuple[int, int]]) -> list[tuple[int, int]]:
    """Stretches of words that cannot be read, those with nothing but spaces between as one."""
    out: list[tuple[int, int]] = []
    for start, end in lost:
        if out and not low[out[-1][1] : start].strip():
            out[-1] = (out[-1][0], end)
        else:
            out.append((start, end))
    return out


#: "Skip 1 sc", which does not say that it is the next.
_ONE_SKIPPED = when_used(r"\b(?:sk|skip|skipping|miss|missing) (?:1|one|a) ")
#: What may stand behind the count of a row.
_AFTER_COUNT = frozenset(("turn", "do not turn", "change", "colour", "fasten off", "yarn", "join"))


def counted_at_last(ops: Ops) -> tuple[Ops, tuple[Make | Chain, ...]] | None:
    """ "Dc in each dc and in top of end ch, 36 dc, turn": the row without the stitches told behind its end by their number
    alone, which are what it makes, and these; also behind the join that closes it, "join. 16 dc, 1 ch"; None where it
    tells none."""
    end = len(ops)
    while end and isinstance(op := ops[end - 1], Act) and op.name in _AFTER_COUNT:
        end -= 1
    joined = next((n for n in range(end) if isinstance(op := ops[n], Act) and op.name == "join" and n), end)
    behind_it = ops[joined + 1 : end]
    told = tuple(op for op in behind_it if isinstance(op, Chain) or (isinstance(op, Make) and not op.places and not op.beside))
    whole = bool(told) and len(told) == len(behind_it) and isinstance(told[0], Make) and told[0].count >= MANY
    if whole and any(isinstance(op, Make | Into | Star) for op in ops[:joined]):
        return (*ops[: joined + 1], *ops[end:]), told
    last, along = (ops[end - 1], ops[end - 2]) if end > 1 else (None, None)
    if not isinstance(last, Make) or last.places or last.beside or last.count < MANY or not isinstance(along, Make):
        return None
    each = [n for n, place in enumerate(along.places) if place.which == "each" and not place.until and not place.upto]
    behind = along.places[each[0] + 1 :] if len(each) == 1 else along.places
    ends = (place.which in ("top", "beg", "last") or (place.which == "nth" and place.of is not None and place.of.which == "beg") for place in behind)
    if not each or along.stitch != last.stitch or not all(ends):
        return None
    return (*ops[: end - 1], *ops[end:]), (last,)


def _is_whole_row(around: list[Word], at: int) -> bool:
    """Whether a bracket holds all of a row but its count: "[1 sc, 1 inc, (2 sc, 1 inc) x5, 1 sc] (24)"."""
    behind = [w for w in around[at + 1 :] if w.text not in (".", ",", ";", ":")]
    only = not behind or (len(behind) == 1 and behind[0].inside is not None)
    return only and all(w.text in (":", "-") for w in around[:at])


def _chain_before(words: list[Word], at: int) -> bool:
    """Whether a chain was just named: "ch 3 = 1 dc"."""
    near = range(max(at - 2, 0), at)
    return any((words[n].text in ("ch", "chs", "chain", "chains") and not _told_as_place(words, n)) or "CHREF" in words[n].kinds for n in near)


def _goes_on_then(words: list[Word], at: int) -> bool:
    """Whether work goes on at a word behind what a chain counts as: "counts as first dc *and then do* 11 more dc in ring"."""
    following = [w.text for w in words[at + 1 : at + 2]]
    return words[at].text == "then" or (words[at].text == "and" and bool({"then", "do", "work", "make"}.intersection(following)))


def _told_as_place(words: list[Word], at: int) -> bool:
    """ "Dc in next ch = 32 dc": that chain is worked into."""
    before = words[at - 1] if at else None
    return before is not None and not {"NEXT", "LAST", "EACH", "SAME", "FIRST"}.isdisjoint(before.kinds)


def _many_behind(words: list[Word], at: int) -> bool:
    """Whether more stitches stand behind a sign than a chain can be: "dc in last ch = 14 dc" is the row's count."""
    return at + 1 < len(words) and words[at + 1].text.isdigit() and int(words[at + 1].text) > MOST_PARTS


def _all_along(ops: tuple[Op, ...]) -> bool:
    """Whether a row is one thing in each place, so that a star before it repeats nothing that does not come again anyway."""
    work = [op for op in ops if not isinstance(op, Act | Chain)]
    only = work[0] if len(work) == 1 else None
    return isinstance(only, Make | Into) and len(only.places) == 1 and only.places[0].which == "each"


def _met_from(start: int, size: int, ways: Callable[[int], list[Way]]) -> list[int]:
    """The places that clauses lead to from a start with no word lost on the way, in their order."""
    met = {start}
    for at in range(start, size):
        if at in met:
            met.update(end for _, end, value in ways(at) if value is not LOST)
    return sorted(met - {size})


def _is_place(words: list[Word], at: int, end: int) -> bool:
    """ "Sc in adjoining st": an unknown word between "in" and what is worked into is a place, and no colour."""
    if words[at].text not in ("in", "into") or "ANYWORD" not in words[end - 1].kinds or end >= len(words):
        return False
    nouns = {"ST", "SP", "LP", "CHSP", "CHREF", "CORNER"} | ({"STN", "CH"} if at and not words[at - 1].is_sign else set())
    return not nouns.isdisjoint(words[end].kinds)


#: A beginning chain stands for no more stitches than this.
MOST_PARTS = 2
#: A bracket that tells a stitch stands no further behind its name.
LONGEST_BEFORE = 140
#: "Cluster st: 3 tr in ..." in a bracket.
_TOLD = when_used(r"(?:an? |the |each |to make )?(?P<name>[a-z][a-z -]{1,20}?)\s?(?::|=)\s*(?=\S)")
#: "Ch 3, sl st in the sc" in a bracket behind "picot".
_PICOT_TOLD = when_used(r"(?:make )?(?:ch(?:ain)? ?\d|\d ?ch)(?:,| and|, and)? ?(?:sl st|slst|ss|slip st(?:itch)?)\b[^,;]*")
#: "To make a popcorn, 5 dc in ..., drop loop ..." in a bracket.
_TO_MAKE = when_used(
    r"(?:to|for) (?:make|work|form|do)?\s?(?:an? |the |each )?(?P<name>[a-z][a-z-]{1,14}(?: [a-z]{2,8})?)\s?[,:;]?\s(?=.{0,160}\b(?:insert|\d-\w+ (?:popcorn|puff|cluster)|[a-z]+2tog|draw|pull|drop|thread over|yo|yarn over|hold|leav|keep))"
)
#: "Ch 3 to count as first dc": the chain is made there.
_CHAINED_TO = when_used(r"(?:ch(?:ain)?s?(?:[ -]?\d+)?|\d+ ?ch(?:ain)?s?) (?:to|will) (?:count|stand|act|serve|represent|replace|equal)\b|^(?:ch(?:ain)?s?[ -]?\d+|\d+ ?ch(?:ain)?s?) (?:=|equals?|cts?|in place|taking|standing|for|represent\w*)(?![a-z])")
#: "A x 7", "A: 8", "A-6": a yarn's letter before so many stitches.
_THEN_NUMBER = when_used(r" ?(?:x|:|-)? ?\d")
#: A chain of a number, and no space of one.
_SIZED_CHAIN = when_used(r"\b(?:ch(?:ain)?s?[ -]?(?P<n>\d+)|(?P<m>\d+) ?ch(?:ain)?s?)\b(?![ -]?(?:sp|lp|loop|space|arch))")
_COUNT_LEADS = (
    "considered",
    "to",
    "will",
    "counts",
    "count",
    "counting",
    "counted",
    "does",
    "doesn't",
    "this",
    "ch",
    "not",
    "which",
    "the",
    "first",
    "chain",
    "is",
    "here",
    "it",
    "do",
    "never",
    "tch",
    "turning",
    "beg",
    "beginning",
    "always",
    "these",
    "standing",
    "stands",
    "acting",
    "acts",
    "serving",
    "serves",
    "representing",
    "represents",
    "replacing",
    "replaces",
    "taking",
    "takes",
    "equal",
    "equals",
    "cts",
    "in",
    "for",
    "=",
)


_TO_THE_END = when_used(r"\ba?round\b(?! (?:each|every|all|the|post)\b)|\b(?:across|end|along|until|to)\b")


def _each_in_turn(ops: Ops) -> Ops:
    """ "*Sc in each sc, ch 3; rep from * around": what a repeat does in each, with chains behind it and nothing else, it does
    in the next one each time."""
    if len(ops) != 2 or not isinstance(ops[0], Make | Into) or not isinstance(ops[1], Chain) or len(ops[0].places) != 1:
        return ops
    place = ops[0].places[0]
    plain = place.noun.name == "st" or height_of(place.noun.name) is not None
    return (replace(ops[0], places=(replace(place, which="next"),)), ops[1]) if plain and place == Place("each", place.noun, hold=place.hold) else ops


def _made_words(words: Sequence[Word]) -> list[bool]:
    return [bool({"STN", "CHREF", "SKIP", "OWN", "GATHERED", "CHV", "INC", "DEC"} & set(w.kinds)) for w in words]


def _makes(ops: Ops) -> bool:
    return any(isinstance(op, Make | Chain | Skip) for op in walk(ops))


def _one_make(ops: Ops) -> bool:
    """Whether a group is so many of one stitch: what has chains or several stitches is known by its shape."""
    return len(ops) == 1 and isinstance(ops[0], Make) and ops[0].count > 1


def in_their_places(ops: Ops, own: Mapping[str, Special]) -> Ops:
    """Groups that go into one place and are named without one, in the next stitch: "v-st, sk 2 sts"."""
    out: list[Any] = []
    for op in ops:
        special = own.get(op.name) if isinstance(op, Times) and op.name else None
        if special is not None and special.in_place and isinstance(op, Times) and op.times == 1 and _one_make(op.ops):
            out.append(Into(op.ops, (Place("next"),), name=op.name, at=op.at))
        elif special is not None and special.in_place and isinstance(op, Times) and op.times == 1 and _slipped_there(out):
            out.append(Into(op.ops, (Place("same"),), name=op.name, at=op.at))
        elif isinstance(op, Star | Times) and special is None:
            out.append(replace(op, ops=in_their_places(op.ops, own)))
        else:
            out.append(op)
    return tuple(out)


def _slipped_there(before: Sequence[Any]) -> bool:
    """Whether slip stitches alone stand before, and the chain that a row begins with: "sl st to sp, shell" is worked there."""
    work = [op for op in before if not isinstance(op, Act | Chain)]
    return bool(work) and all(isinstance(op, Make) and op.stitch == "sl st" and bool(op.places) for op in work)


def in_one_place(ops: Ops) -> Ops:
    """Brackets of several stitches that say neither where they go nor how often, each worked into the next stitch."""
    out: list[Any] = []
    for op in ops:
        if isinstance(op, Times) and _begun_in_brackets(op, out):
            out += [op.ops[0], Into(op.ops[1:], (Place("same"),), at=op.at)]
        elif isinstance(op, Times) and op.times == 1 and not op.name and _only_stitches(op.ops):
            out.append(Into(op.ops, (Place("next"),), at=op.at))
        elif isinstance(op, Star):
            out.append(replace(op, ops=as_petal(in_one_place(op.ops)), ending=in_one_place(op.ending)))
        elif isinstance(op, Times):
            out.append(replace(op, ops=as_petal(in_one_place(op.ops))))
        else:
            out.append(op)
    return tuple(out)


def _begun_in_brackets(op: Any, before: Sequence[Any]) -> bool:
    """Whether a row begins with a chain and stitches in one bracket, which all go where the chain stands: "(ch 3, dc), ch 1"."""
    if any(not isinstance(o, Act) for o in before) or not isinstance(op, Times) or op.times != 1 or op.name or len(op.ops) < 2:
        return False
    rest = op.ops[1:]
    return isinstance(op.ops[0], Chain) and isinstance(rest[0], Make) and all(
        isinstance(o, Chain) or (isinstance(o, Make) and not o.places) for o in rest
    )


def _only_stitches(ops: Ops) -> bool:
    """Whether these are stitches and chains with no place said, more than one, a stitch first."""
    stitches = [op for op in ops if isinstance(op, Make) and not op.places]
    plain = all(isinstance(op, Chain) or op in stitches for op in ops)
    return plain and sum(op.count for op in stitches) > 1 and isinstance(ops[0], Make)


#: Words that lead to a place within a clause.
_TO_PLACE = frozenset(("in", "into", "over", "next", "each", "every", "first", "last", "same", "following", "across", "around", "between"))


def one_plain(words: Sequence[Word]) -> str:
    """The one plain stitch that words name, or the one that they make where several are places: "sc in 4 dc, dec over next
    2 dc"; "" where they name none or make several."""
    flat = _flat(words)
    named = [(at, value) for at, w in enumerate(flat) for _, value in w.kinds.get("STN", ()) if value in ("sc", "hdc", "dc", "tr")]
    plain = {value for _, value in named}
    if len(plain) > 1:
        plain = {value for at, value in named if not _leads_to_place(flat, at)}
    return plain.pop() if len(plain) == 1 else ""


def _leads_to_place(words: Sequence[Word], at: int) -> bool:
    """Whether a stitch is what others go into: "in next 2 dc", "in 4 dc"."""
    for before in reversed(words[max(at - 4, 0) : at]):
        if before.text in _TO_PLACE:
            return True
        if not (before.text.isdigit() or before.text in ("of", "the", "two", "three", "four", "five", "six")):
            return False
    return False


def _flat(words: Sequence[Word]) -> list[Word]:
    out: list[Word] = []
    for word in words:
        out.append(word)
        if word.inside is not None:
            out += _flat(word.inside.words)
    return out


def _bare(ops: Ops) -> Ops:
    """The ops inside one bracket round them all."""
    only = ops[0]
    if isinstance(only, Times) and only.times == 1:
        return only.ops
    if isinstance(only, Into) and not only.name and all(p.which == "same" for p in only.places):
        return only.ops
    return ops
