"""A row's clauses put in order: endings to their repeats, what counts to its chain, counts aside."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from itertools import pairwise
from typing import Any

from ...made_late import replace
from ..closed_loops import closed_by
from ..lexicon import GATHERED, TURNING, height_of, together
from ..tree import (
    FIRST_LEG,
    NOWHERE,
    Act,
    Again,
    Chain,
    Corner,
    Into,
    Make,
    Noun,
    Op,
    Place,
    Skip,
    Span,
    Special,
    Star,
    Times,
)
from ..when_used import when_used
from .brackets import made_over_its_like, name_given, names_what_was_made
from .chain_counts import lifted, lying_first, part_of_gathered
from .complaint import Complaint, Source
from .items import GAP, LOST, Item, Ops, RowRead
from .meanings.parts import FEW, BareRepeat, CountsAs, Ending, Leave, MorePlaces, UntilGroups, on_just_made, own_chain
from .meanings.until_groups import until_groups
from .words import Word

#: What says that a group has been made: "1 shell made".
_MADE = frozenset(("made", "formed", "complete", "completed", "done"))


#: "Leaving last sc unworked": of the row below; without these words one of what the repeat makes is left out.
_UNWORKED = frozenset(("unworked", "unused", "free", "alone"))


class Shaping:
    """Puts a level's items into ops: endings to their repeats, what counts to its chain, counts aside."""

    def __init__(
        self, out: RowRead, source: Source, words: list[Word], inner_of: str, specials: Mapping[str, Special], *, defining: bool
    ) -> None:
        self.out, self.source, self.defining, self.specials = out, source, defining, specials
        self.words, self.inner_of = words, inner_of
        self.ops: list[Op] = []
        self.sentence_starts: list[int] = [0]
        self.ending: tuple[int, str] | None = None
        self.repeats: list[tuple[int, BareRepeat, Span]] = []
        self.prefixed: list[Op] = []
        self.named = 0
        self.unworked = False
        self.alike: int | None = None
        self.until: tuple[int, int, tuple[Ops, ...]] | None = None
        self.anded = -1

    def take(self, item: Item) -> None:
        value = item.value
        if value is LOST:
            return
        if value is GAP:
            self.anded = len(self.ops) if self.words[item.first].text in ("and", "&") else -1
            if self.words[item.first].text in (".", ";", "!"):
                self._close_ending()
                self.sentence_starts.append(len(self.ops))
            return
        name, what = value
        span = self._span(item)
        if name == "counted":
            self._close_ending()
            first, last = self.words[item.first], self.words[item.last - 1]
            follows = any({"STN", "STARNODE", "OWN"} & w.kinds.keys() for w in self.words[item.last :])
            if last.text in _MADE and follows and what.parts[0][0] == 1 and self.ops and isinstance(self.ops[-1], Into):
                self._named(" ".join(w.text for w in self.words[item.first : item.last]))
            else:
                self.out.counts.append((what.parts, first.start, last.end))
        elif name == "countsas":
            self._counts(what, span, item)
        elif name == "gathers":
            self._gather(what, span)
        elif name == "noted":
            self.out.prose.append(what)
            self._named(what)
        else:
            self.unworked = any(w.text in _UNWORKED for w in self.words[item.first : item.last])
            self._clause(name, what, span)
            self._labelled(self.words[item.first].start, self.words[item.last - 1].end)

    def _labelled(self, start: int, end: int) -> None:
        """ "5 dc (a shell) in next st": the name stands inside the words of what it names."""
        for said, at in self.out.labels:
            if start < at < end and self.ops and (called := name_given(said)):
                self.out.named.append((called, _with_lift(_shells(tuple(self.ops)))))

    def _named(self, said: str) -> None:
        """What was made last has a name: a group, or the way from the name before to here ("bl over sp")."""
        way = tuple(op for op in self.ops[self.named :] if not isinstance(op, Act))
        if self.ops and (grown := made_over_its_like(said)):
            self.out.named.append((grown, _with_lift(_shells(tuple(self.ops)))))
        elif names_what_was_made(said) and way:
            self.out.named.append((said, Times(way, 1)))
            self.named = len(self.ops)
        elif self.ops and (called := name_given(said)):
            made = _with_lift(_shells(tuple(self.ops)))
            bracketed = isinstance(made, Times) and made.times == 1 and not made.name
            self.out.named.append((called, Into(made.ops, (Place("next"),)) if bracketed and isinstance(made, Times) else made))

    def _span(self, item: Item) -> Span:
        last = item.last
        while last > item.first + 1 and self.words[last - 1].text in (",", "and"):
            last -= 1
        return self.source.span(self.words[item.first].start, self.words[last - 1].end)

    def _clause(self, name: str, what: tuple[Any, ...], span: Span) -> None:
        for part in what:
            if isinstance(part, Ending):
                self._close_ending()
                self._begin_ending(part, span)
            elif isinstance(part, BareRepeat):
                self.repeats.append((len(self.ops), part, span))
            elif isinstance(part, Leave):
                self._leave(part, span)
            elif isinstance(part, MorePlaces):
                self._more(part, span)
            elif isinstance(part, UntilGroups):
                self._until(part, span)
            else:
                op = _at(part, span)
                if name == "repeat" and isinstance(op, Star):
                    op = replace(op, at=span)
                shaped = isinstance(op, Corner) and isinstance(op.make, Make) and op.make.stitch in ("inc", "dec")
                if isinstance(op, Corner) and not shaped and not any(isinstance(o, Make | Into | Star | Times | Again) for o in self.ops):
                    op = _at(op.make, span)
                if self.ending is not None and _closes_row(op):
                    self._close_ending(joined=isinstance(op, Act) and op.name == "join")
                self._add(op)

    def _until(self, part: UntilGroups, span: Span) -> None:
        """A repeat until so many groups are made: as often as that takes."""
        made = until_groups(part.star, part.count, part.noun, tuple(self.ops), {**self.specials, **self.out.learned})
        if not made:
            self._complain(span, "the repeat does not make what it is worked for", "say how often it is worked")
        if len(made) > 1:
            self.until = (len(self.ops), len(made[0]), made[1:])
        for op in made[0] if made else (part.star,):
            self._add(replace(op, at=span) if isinstance(op, Star) else op)

    def _add(self, op: Op) -> None:
        last = self.ops[-1] if self.ops else None
        if isinstance(last, Act) and last.place and isinstance(op, Make | Into) and _is_told(last, op):
            self.ops.pop()
            op = replace(op, places=(last.place, *op.places[1:]))
            last = self.ops[-1] if self.ops else None
        if isinstance(last, Act) and last.name == "goes into" and last.place and last.place.which == "hook" and isinstance(op, Star | Times):
            self.ops[-1] = Skip((Place("next", Noun("ch"), count=last.place.nth - 1),), at=last.at)  # the repeat begins there
        slips = isinstance(op, Make) and op.stitch == "sl st" and bool(op.places)
        if isinstance(last, Act) and last.name == "loop":
            op = _loop_closed(op)
        if self.anded == len(self.ops) and _both_there(self.ops, op):
            assert isinstance(op, Make) and isinstance(last, Make)
            self.ops[-1] = Into((last, replace(op, places=())), op.places, at=op.at)
            return
        inside = len(self.ops) > 1 or bool(self.inner_of) or self.defining
        if inside and slips and isinstance(op, Make) and isinstance(last, Chain) and self._hangs(op, last):
            self.ops[-1] = _picot_of(last, op.places[0])
            return
        if (
            isinstance(op, Act)
            and op.name == "join"
            and isinstance(last, Chain)
            and op.place is not None
            and own_chain(op.place, last)
            and op.place.which not in ("same", "top")
            and len(self.ops) > 1
        ):
            self.ops[-1] = _picot_of(last, op.place)
            return
        if (
            isinstance(op, Act)
            and op.name == "join"
            and op.place is not None
            and not any(isinstance(o, Make | Into | Star | Times | Chain) for o in self.ops)
            and op.place.which not in ("top", "beg")
            and not self.inner_of
        ):
            op = Act("yarn", "yarn", op.place, at=op.at)
        if not self.ops and not self.inner_of and isinstance(op, Act) and op.name == "join":
            op = _along_chains(op)
        self.ops.append(op)

    def _hangs(self, op: Make, chain: Chain) -> bool:
        """Whether a slip stitch makes a picot of the chain before it."""
        return not self._petal_ends(op) and (own_chain(op.places[0], chain) or on_just_made(self.ops, op.places[0]))

    def _petal_ends(self, op: Make) -> bool:
        """ "Ch 2, 2 dc in same st, ch 2, sl st in same st": a petal that ends where it began, and no picot."""
        before = self.ops[-2] if len(self.ops) > 1 else None
        there = isinstance(before, Make | Into) and bool(before.places) and before.places[0].which == "same"
        return op.places[0].which == "same" and there

    def _gather(self, noun: str, span: Span) -> None:
        """ "(all in same corner)": the stitches before it without a place, and the chains between them."""
        at = len(self.ops)
        while at and isinstance(op := self.ops[at - 1], Make | Chain) and not getattr(op, "places", ()):
            at -= 1
        while at < len(self.ops) and isinstance(self.ops[at], Chain):
            at += 1
        kind = {"corner": "corner", "sp": "sp", "space": "sp", "lp": "lp", "loop": "lp"}.get(noun, "st")
        if at < len(self.ops):
            self.ops[at:] = [Into(tuple(self.ops[at:]), (Place("same", Noun(kind)),), at=span)]

    # -- counts as ------------------------------------------------------------------------------------------------

    def _counts(self, said: CountsAs, span: Span, item: Item) -> None:
        chain = self._first_leg(said)
        begun = next((n for n, op in enumerate(self.ops) if isinstance(op, Chain | Into)), 0)
        if chain is not None:
            self.ops[begun] = replace(chain, counts=(f"{FIRST_LEG} {said.parts[0]}",))
            return
        if self.ops and part_of_gathered(self.ops, begun, said.parts):
            self.ops[begun] = lifted(self.ops[begun])
            return
        hooked_first = any(p.which == "hook" for o in self.ops[:2] if isinstance(o, Make) for p in o.places)
        for at in range(len(self.ops) - 1, -1, -1):
            op = self.ops[at]
            if isinstance(op, Chain) and hooked_first and _far_too_low(op, said):
                continue  # "..., ch 1, turn. Turning chain counted as 1 dc": the chain that the first row began with
            if isinstance(op, Chain):
                self._compare(said, op.count, item)
                self.ops[at] = replace(op, counts=said.parts, throughout=said.throughout)
                return
            hooked = next((p.nth for p in op.places if p.which == "hook"), 0) if isinstance(op, Make) else 0
            if hooked:
                self._compare(said, hooked - 1, item)
                self._add_up(said, hooked - 1, item)
                said = replace(said, parts=lying_first(said.parts))
                break
            if isinstance(op, Skip) and at == 0:
                break
            if isinstance(op, Make | Times | Star | Into):
                inner = _last_chain(op)
                if inner:
                    self.ops[at] = inner(said)
                    return
                break
        if not hooked_first and (first := self._begun_with(said)) is not None:
            at, begun_with = first
            self.ops[at] = replace(begun_with, counts=said.parts, throughout=said.throughout)
            return
        self.ops.append(Act("opening", ", ".join(said.parts), at=span))

    def _begun_with(self, said: CountsAs) -> tuple[int, Chain] | None:
        """ "Ch 3, 8 dc in ring, join. (Ch 3 does not count.)": the chain that the row began with, said of behind all its
        work, and where it stands."""
        first = next((n for n, op in enumerate(self.ops) if not isinstance(op, Act)), 0)
        op = self.ops[first] if self.ops else None
        if not isinstance(op, Chain) or op.counts is not None:
            return None
        return (first, op) if said.said == op.count or not (said.said or said.parts) else None

    def _first_leg(self, said: CountsAs) -> Chain | None:
        """ "Ch 3, dc2tog in same sp (counts as dc3tog)": the chain that the row begins with is a leg of the whole."""
        work = [op for op in self.ops if not isinstance(op, Act) and getattr(op, "stitch", "") != "sl st"]
        if len(work) != 2 or len(said.parts) != 1:
            return None
        chain, made = work
        if not isinstance(chain, Chain) or not isinstance(made, Make):
            return None
        whole, legs = said.parts[0], max(together(made.stitch), made.count)
        one_more = together(whole) == legs + 1 and whole.startswith(re.sub(r"\d+tog$", "", made.stitch))
        return chain if one_more or whole.split()[-1] in GATHERED else None

    def _compare(self, said: CountsAs, chains: int, item: Item) -> None:
        """Complain where so many chains are said to count, but another number is made or skipped: fewer may be the
        height of a stitch, with chains besides."""
        if not said.said or not said.parts or said.said == chains or (said.first and said.said < chains):
            return
        if said.said < chains and _may_be_said(said.said, said.parts, chains):
            return
        first, last = self.words[item.first], self.words[item.last - 1]
        says = f"{said.said} ch are said to count, but there {'is' if chains == 1 else 'are'} {chains}"
        self.out.complaints.append(
            Complaint(first.start, last.end, says, f"write {chains}, or change the chains", "impossible")
        )

    def _add_up(self, said: CountsAs, chains: int, item: Item) -> None:
        """Complain where "dc and 2 sk ch" are another number of chains than are skipped."""
        if not any(part.startswith("sk ") for part in said.parts):
            return
        most = sum(int(p.split()[1]) if " " in p else TURNING.get(p, 1) for p in said.parts)
        if most != chains and all(p != "ch" for p in said.parts):
            first, last = self.words[item.first], self.words[item.last - 1]
            says = f"what the skipped chains are said to be takes {most} ch, but there are {chains}"
            self.out.complaints.append(
                Complaint(first.start, last.end, says, "skip as many chains as are told", "impossible")
            )

    # -- more places ----------------------------------------------------------------------------------------------

    def _more(self, more: MorePlaces, span: Span) -> None:
        at = len(self.ops) - 1
        while at >= 0 and isinstance(self.ops[at], Act) and self.ops[at].name == "opening":  # type: ignore[union-attr]
            at -= 1
        op = self.ops[at] if at >= 0 else None
        if isinstance(op, Make) and op.places:
            if more.count and more.count != op.count:
                self.ops.append(Make(op.stitch, more.count, more.places, at=span))
            else:
                self.ops[at] = replace(op, places=op.places + more.places)
        elif isinstance(op, Make):
            self.ops.append(Make(op.stitch, more.count or 1, more.places, at=span))
        elif isinstance(op, Into | Skip):
            self.ops[at] = replace(op, places=op.places + more.places)
        else:
            self._complain(span, "it is not said what is worked there", 'name the stitch, as "sc in next st"')

    def _complain(self, span: Span, says: str, remedy: str) -> None:
        """A complaint at the first of a clause's words."""
        line, column, _ = span
        word = next((w for w in self.words if self.source.span(w.start, w.end)[:2] == (line, column)), self.words[0])
        self.out.complaints.append(Complaint(word.start, word.end, says, remedy))

    # -- leaving --------------------------------------------------------------------------------------------------

    def _leave(self, leave: Leave, span: Span) -> None:
        last_op = self.ops[-1] if self.ops else None
        if (
            isinstance(last_op, Star)
            and last_op.more is None
            and last_op.until is None
            and not leave.first
            and leave.noun.name != "st"
            and not self.unworked
        ):
            inside = last_op.ops[-1] if last_op.ops else None
            if (
                isinstance(inside, Make)
                and inside.stitch == leave.noun.name
                and leave.count == 1
                and len(last_op.ops) > 1
            ):
                self.ops[-1] = replace(last_op, cut=len(last_op.ops) - 1)
                return
        for at in range(len(self.ops) - 1, -1, -1):
            op = self.ops[at]
            if isinstance(op, Make | Into) and op.places and op.places[-1].which == "each" and not op.places[-1].until:
                last = op.places[-1]
                noun = leave.noun if leave.noun.name != "st" else last.noun
                changed = replace(last, after=leave.count) if leave.first else replace(last, until=(leave.count, noun))
                self.ops[at] = replace(op, places=(*op.places[:-1], changed))
                return
            if isinstance(op, Star) and op.more is None and op.until is None and not leave.first:
                self.ops[at] = replace(op, until=(leave.count, leave.noun))
                self.ops.append(Act("leave", at=span))
                return
            if isinstance(op, Make | Into | Chain | Times | Star):
                break
        number = str(leave.count) if not leave.first and (leave.noun.name == "st" or height_of(leave.noun.name)) else ""
        self.ops.append(Act("leave", number, at=span))

    # -- endings --------------------------------------------------------------------------------------------------

    def _begin_ending(self, ending: Ending, span: Span) -> None:
        if ending.how == "closed":
            self.ending = (len(self.ops), ending.how)
            return
        again = self.ops[-1] if self.ops and ending.how in ("last", "omit", "with") else None
        counted = isinstance(again, Times) and again.times > 1 and ending.how != "with"
        if isinstance(again, Times) and (counted or not again.times) and not again.name:  # "(...) 6 times, ending last rep with ..."
            self.ops[-1] = Star(again.ops, again.times - 1 if again.times else None, at=again.at)
        star = self._last_star()
        if star is None:
            if ending.how == "with":
                self.ending = (len(self.ops), ending.how)
            elif ending.how == "omit":
                self._complain(span, "nothing comes again here of which this could be left out", "say what is worked instead")
            return
        if ending.how == "at":
            op = self.ops[star]
            assert isinstance(op, Star)
            self.ops[star] = replace(op, cut=op.cut if op.cut is not None else len(op.ops))
        elif ending.how == "omit" and ending.what is not None:
            op = self.ops[star]
            assert isinstance(op, Star)
            if (fewer := _with_fewer(op.ops[-1], ending.what)) is not None:
                self.ops[star] = replace(op, cut=len(op.ops) - 1, ending=(fewer,), replaces=True)
                return
            op = replace(op, ops=_last_apart(op.ops)) if op.cut is None else op
            cut = _omitted(op.ops, ending.what)
            if cut is None:
                self._complain(span, "the repeat does not end with what is left out", "say where the last repeat ends")
            self.ops[star] = replace(op, cut=cut, replaces=cut is not None)
        elif ending.how == "instead" and ending.what is not None:
            op, behind = self.ops[star], tuple(self.ops[star + 1 :])
            assert isinstance(op, Star)
            if behind and (cut := _omitted(op.ops, ending.what)) is not None:
                self.ops[star:] = [replace(op, cut=cut, replaces=True, ending=behind)]
        elif ending.how == "chain" and ending.what is not None:
            self._ends_with_chain(star, ending.what)
        elif ending.how == "alike":
            self.alike = star
        elif ending.how in ("with", "last"):
            self.ending = (len(self.ops), ending.how)

    def _ends_with_chain(self, star: int, chain: Op) -> None:
        """ "Join last ch-3" behind a repeat that does not end with one: its last repetition does."""
        op = self.ops[star]
        assert isinstance(op, Star)
        found = [n for n, part in enumerate(op.ops) if _ends_in(part) == chain]
        if star == len(self.ops) - 1 and op.more is None and op.cut is None and found and found[-1] < len(op.ops) - 1:
            self.ops[star] = replace(op, cut=found[-1] + 1, replaces=True)

    def _last_star(self) -> int | None:
        return next((i for i in range(len(self.ops) - 1, -1, -1) if isinstance(self.ops[i], Star)), None)

    def _close_ending(self, *, joined: bool = False) -> None:
        if self.ending is None:
            return
        first, how = self.ending
        self.ending = None
        said = tuple(self.ops[first:])
        star = self._last_star()
        before = self.ops[first - 1] if first else None
        flat = isinstance(before, Star) and bool(before.ops) and isinstance(before.ops[-1], Chain) and how != "closed"
        if before is not None and not flat and (joined or len(said) > 1):
            closed = closed_by(before, said)
            if closed is not None:
                self.ops[first - 1 :] = closed
                return
        if how == "closed":
            return
        if star is None or star != first - 1 or not said:
            return
        op = self.ops[star]
        assert isinstance(op, Star)
        self.ops[star:] = [replace(op, ending=said, replaces=how == "last")]

    # -- repeats with no mark -------------------------------------------------------------------------------------

    def _bare_row(self, ops: Ops) -> list[Ops]:
        """ "Rows 3-5: Sc, ch 1, turn": the other reading of a row that is one stitch without a number or a place."""
        made = [op for op in ops if isinstance(op, Make | Into | Star | Times | Skip)]
        only = made[0] if len(made) == 1 and not self.inner_of else None
        if not isinstance(only, Make) or only.count != 1 or only.places or height_of(only.stitch) != only.stitch:
            return []
        if any(w.text in ("1", "one") and "NUM" in w.kinds and after.kinds.get("STN") for w, after in pairwise(self.words)):
            return []
        return [tuple(replace(only, places=(Place("each"),)) if op is only else op for op in ops)]

    def _until_whole(self, ops: Ops) -> list[Ops]:
        """ "(shell, ch 1) until there are 5 shells": the other reading, in which the last repetition is whole."""
        if self.until is None:
            return []
        at, length, others = self.until
        return [(*ops[:at], *other, *ops[at + length :]) for other in others]

    def _closed_round(self) -> None:
        """ "Ch 3 (counts as dc), ..., ch 3, sl st in 3rd ch of ch-3" at a row's end: what begins with a chain of as many,
        also behind slip stitches, is joined to that, and no picot is made of the chain of its last loop."""
        work = [n for n, op in enumerate(self.ops) if not isinstance(op, Act)]
        begun = next((self.ops[n] for n in work if not _is_slip(self.ops[n])), None)
        if self.inner_of or self.defining or len(work) < 3 or not isinstance(begun, Chain):
            return
        last = self.ops[work[-1]]
        if isinstance(last, Star) and last.ending:
            self.ops[work[-1]] = replace(last, ending=(*last.ending[:-1], *_joined_to(begun, last.ending[-1])))
        else:
            self.ops[work[-1] : work[-1] + 1] = _joined_to(begun, last)

    def finished(self) -> tuple[Ops, tuple[Ops, ...]]:
        self._close_ending()
        self._closed_round()
        ops = tuple(self.ops)
        if any(isinstance(op, Act) and op.name == "goes into" for op in ops):
            first, last = self.words[0], self.words[-1]
            says = "it is said where the next stitch goes, but not what is worked there"
            self.out.complaints.append(Complaint(first.start, last.end, says, 'name the stitch, as "sc in next st"'))
        if not self.inner_of:
            ops = _corners_along(_slipped_into(_whole_row(_lift_apart(ops))))
        if self.until is not None and _closes_next(ops, *self.until[:2]):
            at, length, others = self.until
            whole = next((n for n, other in enumerate(others) if len(other) == 1), 0)
            self.until = (at, len(others[whole]), (*others[:whole], *others[whole + 1 :], ops[at : at + length]))
            ops = (*ops[:at], *others[whole], *ops[at + length :])
        if not self.repeats:
            others = (*self._until_whole(ops), *self._bare_row(ops), *_joined_places(ops), *_list_times(ops), *_one_in_each(ops, self.source.text.lower()), *_more_in_first(ops))
            shells = ops if self.inner_of else _shells(ops)
            alike = self._ended_alike(shells)
            if alike:
                return alike[0], (*alike[1:], shells, ops, *others)
            told = _told_by_number(shells)
            if told and not self.out.counts and not self.inner_of and _of_one_stitch(shells):
                return told[0], (shells, *others)
            others = (*others, *told)
            return (shells, (ops, *others)) if shells != ops else (ops, others)
        at, repeat, span = self.repeats[0]
        if repeat.patterned and repeat.limit[0] == "last" and all(isinstance(op, Act | Chain) for op in ops[:at]):
            to_last = Place("each", until=(repeat.limit[1], repeat.limit[2] or Noun("st")), bare=True)
            return (*ops[:at], Act("pattern", place=to_last, at=span), *ops[at:]), ()
        if at == 0:
            ops = (*ops, Act("pattern", at=span)) if not ops else (Act("pattern", at=span), *ops)
            return ops, ()
        if repeat.patterned and _only_first(ops[:at]):
            return (*ops[:at], Act("pattern", at=span), *ops[at:]), ()
        starts = self._starts(at, repeat)
        readings = []
        for start in starts:
            body = ops[start:at]
            if not body:
                continue
            star = Star(body, repeat.more, at=span, said_more=repeat.said_more)
            if repeat.limit[0] == "last":
                star = replace(star, until=(repeat.limit[1], repeat.limit[2] or Noun("st")))
            elif repeat.limit[0] == "upto":
                star = replace(star, upto=repeat.limit[1])
            elif repeat.limit[0] == "groups":
                until = until_groups(star, repeat.limit[1], repeat.limit[2], ops[:start], {**self.specials, **self.out.learned})
                readings += [(*ops[:start], *one, *ops[at:]) for one in until]
                continue
            readings.append((*ops[:start], star, *ops[at:]))
        if repeat.patterned and repeat.limit[0] in ("last", "end") and _ESTABLISHED.search(self.source.text.lower()) and _edge_shaped(ops[:at]):
            left = (repeat.limit[1], repeat.limit[2] or Noun("st")) if repeat.limit[0] == "last" else None
            return (*ops[:at], Act("pattern", place=Place("each", until=left, bare=True), at=span), *ops[at:]), tuple(readings[:5]) if self.out.counts else ()
        if not readings:
            return (*ops[:at], Act("pattern", at=span), *ops[at:]), ()
        if all(isinstance(op, Act | Chain) for op in ops[:at]):
            return (*ops[:at], Act("pattern", at=span), *ops[at:]), ()
        return readings[0], (*readings[1:6], *_told_by_number(readings[0]))

    def _ended_alike(self, ops: Ops) -> list[Ops]:
        """ "Ending to correspond": the readings in which the last repetition breaks off, the longest first."""
        stars = [i for i, op in enumerate(ops) if isinstance(op, Star)]
        if self.alike is None or not stars:
            return []
        at = stars[-1]
        star = ops[at]
        assert isinstance(star, Star)
        if star.cut is not None or star.ending:
            return []
        behind = ops[at + 1] if at + 1 < len(ops) else None  # "ending to correspond, ch 5, join": its last chain, said again
        said = [n - 1 if isinstance(behind, Chain) and star.ops[n - 1] == behind else n for n in range(len(star.ops) - 1, 0, -1)]
        cuts = [n for n in dict.fromkeys(said) if any(isinstance(o, Make | Into) for o in star.ops[:n])]
        return [(*ops[:at], replace(star, cut=n), *ops[at + 1 :]) for n in cuts]

    def _starts(self, at: int, repeat: BareRepeat) -> list[int]:
        """From where a repeat without a mark may begin, the usual first: the last star, the sentence, its later
        clauses."""
        lead = 0
        while lead < at and (isinstance(self.ops[lead], Act) or (isinstance(self.ops[lead], Chain) and lead <= 1)):
            lead += 1
        along = bool(lead) and lead < at and isinstance(self.ops[lead - 1], Chain) and _from_hook(self.ops[lead])
        if repeat.from_start:
            return [lead]
        if repeat.clauses:
            return [at - repeat.clauses] if at - repeat.clauses >= 0 else []
        sentence = max((s for s in self.sentence_starts if s < at), default=0)
        first = max(lead, sentence) + _led_in(self.ops[max(lead, sentence) : at])
        first = max(first, _behind_first_place(self.ops[:at]))
        rest = [i for i in range(lead, at) if i != first]
        usual = [first, *sorted(rest, key=lambda i: (abs(i - first), i))]
        if lead and lead < at and _is_loop(self.ops[lead - 1], self.ops[lead]):
            return [lead - 1, *usual]
        return [usual[0], lead - 1, *usual[1:]] if along else usual  # a chain that is worked along may come again


def _behind_first_place(ops: Sequence[Op]) -> int:
    """Where work goes on to the next place behind what is worked in the first one, "ch 3, (2 dc, ch 2, 3 dc) in same corner, ch
    1, (3 dc, ch 2, 3 dc) in next corner, ch 1": what comes again begins there; 0 where nothing is worked so."""
    groups = [n for n, op in enumerate(ops) if isinstance(op, Into) and [p.which for p in op.places] == ["same"]]
    if not groups:
        return _behind_first_stitch(ops)
    on = next((n for n in range(groups[0] + 1, len(ops)) if isinstance(op := ops[n], Into) and [p.which for p in op.places] == ["next"]), 0)
    return on - 1 if on and isinstance(ops[on - 1], Chain) and not isinstance(ops[-1], Chain) else on


def _behind_first_stitch(ops: Sequence[Op]) -> int:
    """Where the chain begins that comes again behind what is worked where slip stitches lead: "sl st to next sp, sc in same
    sp, ch 7, sc in next sp"; behind it where a chain ends what is told, "..., sc in next sp, ch 7"; 0 where it is no such round."""
    same = next((n for n, op in enumerate(ops) if isinstance(op, Make) and [p.which for p in op.places] == ["same"]), 0)
    on = next((n for n in range(same + 1, len(ops)) if isinstance(op := ops[n], Into | Make) and _goes_on(op)), 0)
    between = ops[same + 1 : on]
    if not on or not between or not isinstance(between[0], Chain) or not all(isinstance(op, Chain | Skip) for op in between):
        return 0
    if not any(_is_slip(op) for op in ops[:same]):
        return 0
    return same + 2 if isinstance(ops[-1], Chain) else same + 1


def _goes_on(op: Make | Into) -> bool:
    """Whether a clause goes into one place further on: the next, or a certain stitch of the next group."""
    place = op.places[0] if len(op.places) == 1 else None
    if place is None or place.row is not None or place.count != 1:
        return False
    return place.which == "next" or (place.of is not None and place.of.which == "next")


#: What says that a row goes on as those before it, and not that what it has told comes again.
_ESTABLISHED = when_used(r"\bpatt?(?:ern)?\b|\best(?:ablished)?\b|\bas set\b|\bwork(?:ing)? (?:across |even |on )?(?:to|until|till)\b")
#: So many stitches at a row's edge may stand beside the shaping there.
_BESIDE_SHAPING = 2


def _edge_shaped(ops: Ops) -> bool:
    """Whether a row has told no more than what shapes its edge: slip stitches with the chain behind them, a decrease, two in
    the first stitch, the first stitch skipped."""
    work = [op for op in ops if not isinstance(op, Act)]
    shaped = False
    for n, op in enumerate(work):
        before = work[n - 1] if n else None
        slipped = isinstance(before, Make) and before.stitch == "sl st"
        if isinstance(op, Chain):
            if before is not None and not slipped:
                return False
        elif isinstance(op, Skip):
            if shaped or not all(isinstance(o, Chain) for o in work[:n]):
                return False
            shaped = True
        elif isinstance(op, Make):
            more = op.count == 2 and not any(isinstance(o, Make) for o in work[:n])
            if op.stitch in ("sl st", "dec", "inc") or together(op.stitch) > 1 or more:
                shaped = True
            elif op.count > 1 or len(work) > _BESIDE_SHAPING + 1 or any(p.count > 1 for p in op.places):
                return False
        else:
            return False
    return shaped


def _is_loop(chain: Op, following: Op) -> bool:
    """Whether a chain that a row begins with is too long to lift it and makes a loop: "ch 5, sc in next 2 sc, repeat around"."""
    low = isinstance(following, Make) and following.stitch in ("sc", "sl st") and [p.which for p in following.places] == ["next"]
    return low and isinstance(chain, Chain) and chain.count > TURNING["dc"]


def _from_hook(op: Op) -> bool:
    """Whether a clause goes into a chain from the hook."""
    return isinstance(op, Make | Into) and [p.which for p in op.places[:1]] == ["hook"]


def _only_first(ops: Ops) -> bool:
    """Whether a row so far is one stitch in its first place, or that place passed over, which cannot come again: "sc in
    first st, work in pattern across" goes on as the row below."""
    work = [op for op in ops if not isinstance(op, Act | Chain)]
    only = work[0] if len(work) == 1 else None
    if isinstance(only, Skip):
        return [p.which for p in only.places] == ["first"]
    return isinstance(only, Make) and only.count == 1 and [(p.which, p.count) for p in only.places] == [("first", 1)]


def _led_in(ops: Sequence[Op]) -> bool:
    """Whether a stitch in the place that the row begins at only leads in to what comes again: "sc in same st, ch 2, skip 2,
    sc in next st, repeat around"."""
    first = ops[0] if len(ops) > 1 and isinstance(ops[1], Chain) else None
    there = isinstance(first, Make) and first.count == 1 and [p.which for p in first.places] == ["same"]
    return (there and any(isinstance(op, Make | Into) for op in ops[2:])) or _made_again(ops)


def _is_slip(op: Op) -> bool:
    return isinstance(op, Make) and op.stitch == "sl st"


def _joined_to(begun: Chain, last: Op) -> Ops:
    """A last clause, that seems a picot, of a round that begins with a chain of as many: a chain and the join."""
    picot = last.places[0] if isinstance(last, Make) and last.stitch == "picot" and len(last.places) == 1 else None
    if picot is None or not picot.bare or begun.count != picot.nth:
        return (last,)
    return Chain(picot.nth, at=last.at), Act("join", place=Place("top", of=Place("beg")), at=last.at)


def _made_again(ops: Sequence[Op]) -> bool:
    """Whether what stands in the first place of a row is made again in the next, behind chains or what is passed over: "3 dc
    in first ch, sk 3, 3 dc in next st, and repeat" repeats from "sk 3" on."""
    work = [at for at, op in enumerate(ops) if not isinstance(op, Chain)]
    first, last = (ops[work[0]], ops[work[-1]]) if len(work) > 1 and not work[0] else (None, None)
    if not isinstance(first, Make | Into) or not isinstance(last, Make | Into) or len(first.places) != 1 or len(last.places) != 1:
        return False
    between = ops[1 : work[-1]]
    skips = any(isinstance(op, Skip) for op in between)
    alike = first.places[0].count == last.places[0].count == 1 and (skips or work[-1] == len(ops) - 1)
    placed = first.places[0].which in ("first", "hook", "same") and last.places[0].which == "next" and alike
    passed = bool(between) and all(isinstance(op, Chain | Skip) for op in between)
    return passed and placed and replace(first, places=()) == replace(last, places=())


def _ends_in(op: Op) -> Op:
    """What a clause makes last: of a bracket so many times what stands last in it."""
    return _ends_in(op.ops[-1]) if isinstance(op, Times) and op.ops and not op.name else op


def _last_apart(ops: Ops) -> Ops:
    """Clauses of a repeat that ends with a bracket so many times, with its last time told by itself: "(ch 5, skip 3 sc, sc in
    next sc) 9 times, omitting last sc" ends with a sc."""
    last = ops[-1] if ops else None
    if not isinstance(last, Times) or last.times < 2 or last.name:
        return ops
    again = (replace(last, times=last.times - 1),) if last.times > 2 else last.ops
    return (*ops[:-1], *again, *_last_apart(last.ops))


def _with_fewer(last: Op, what: Op) -> Op | None:
    """The run of stitches that a repeat ends with, without so many of them: "dc in next 7 sc; rep from * across, omitting 3
    dc at end of last rep"; None where it ends with no longer run of such."""
    if not isinstance(last, Make) or not isinstance(what, Make) or last.stitch != what.stitch or last.count != 1:
        return None
    place = last.places[0] if len(last.places) == 1 else None
    if place is None or place.which != "next" or place.count <= what.count:
        return None
    return replace(last, places=(replace(place, count=place.count - what.count),))


def _less_than(last: Op | None, count: int) -> bool:
    """Whether a clause makes fewer stitches, side by side or in one place, than are said to be left out."""
    if not isinstance(last, Make) or any(place.which not in ("next", "same") for place in last.places):
        return False
    return last.count * (sum(place.count for place in last.places) or 1) < count


def _omitted(ops: Ops, what: Op) -> int | None:
    """Where the last repetition ends that is without the last of something; None where the repeat does not end so."""
    last = ops[-1] if ops else None
    if isinstance(what, Chain):
        same = isinstance(last, Chain) and last.count == what.count
        before = ops[-2] if len(ops) > 2 and isinstance(last, Skip) else None
        if isinstance(before, Chain) and before.count == what.count:
            return len(ops) - 2  # "*..., ch 1, sk 1; ... omitting ch 1": what lies under it, too
    elif isinstance(what, Make):
        made = last.stitch if isinstance(last, Make) else last.name if isinstance(last, Into | Times) else ""
        same = made == what.stitch and not _less_than(last, what.count)
    else:  # "the last group": what several stitches in one place make
        same = isinstance(what, Into) and (isinstance(last, Into) or (isinstance(last, Make) and last.count > 2))
    return len(ops) - 1 if same and len(ops) > 1 else None


def _may_be_said(number: int, parts: tuple[str, ...], chains: int) -> bool:
    """Whether "3 ch count as dc and 2 sk ch" may be said of more chains: the number is the height of the stitch, alone or
    with the chains that are named besides, or these make up the rest."""
    height = TURNING.get(parts[0], 0)
    besides = sum(int(p.split()[1]) for p in parts[1:] if " " in p)
    stitches = sum(TURNING.get(p, 0) for p in parts[1:])
    return number in (height, height + besides, height + stitches, chains - besides) or "ch" in parts[1:]


def _at(part: Any, span: Span) -> Op:
    if getattr(part, "at", None) == NOWHERE:
        part = replace(part, at=span)
    if isinstance(part, Times | Into):
        return replace(part, ops=tuple(_at(o, span) for o in part.ops))
    return part  # type: ignore[no-any-return]


def _closes_next(ops: Ops, at: int, length: int) -> bool:
    """Whether a round is closed right behind a repeat that goes on until so many stitches are made and ends with chains:
    the last of them lie before the join."""
    star, behind = ops[at] if at < len(ops) else None, ops[at + length] if at + length < len(ops) else None
    slips = isinstance(behind, Make) and behind.stitch == "sl st"
    joins = isinstance(behind, Act) and behind.name == "join"
    return isinstance(star, Star) and isinstance(star.ops[-1], Chain) and (slips or joins)


def _closes_row(op: Op) -> bool:
    return isinstance(op, Act) and op.name in ("turn", "join", "fasten off", "do not turn", "do not join")


def _is_told(last: Act, op: Make | Into) -> bool:
    """Whether a sentence has told where the stitch after it goes."""
    into_it = not op.places or (op.places[0].which in ("same", "next") and op.places[0].count == 1)
    return last.name == "goes into" and into_it


def _last_chain(op: Op) -> Any:
    """Where a group ends with a chain: how to say of it what it counts as."""
    if isinstance(op, Times | Star | Into) and op.ops and isinstance(op.ops[0], Chain) and isinstance(op, Times):
        first = op.ops[0]
        return lambda said: replace(
            op, ops=(replace(first, counts=said.parts, throughout=said.throughout), *op.ops[1:])
        )
    return None


def _loop_closed(op: Op) -> Op:
    """ "8 ch for button loop, ss in last dc": back into the stitch before the chain."""
    place = op.place if isinstance(op, Act) and op.name == "join" else None
    if isinstance(op, Make) and op.stitch == "sl st" and op.places:
        place = op.places[0]
    back = place is not None and place.which in ("last", "same", "top", "made")
    return Make("sl st", 1, (Place("made"),), at=op.at) if back else op


def _whole_row(ops: Ops) -> Ops:
    """ "Dc in back loops only": a row of one stitch with nothing but its loop goes into every stitch."""
    made = [op for op in ops if isinstance(op, Make | Into | Star | Times | Skip)]
    only = made[0] if len(made) == 1 else None
    in_loops = any(isinstance(op, Act) and op.name == "loops" and op.text for op in ops)
    if isinstance(only, Make) and only.count == 1 and not only.places and in_loops and only.stitch != "sl st":
        return tuple(replace(only, places=(Place("each"),)) if op is only else op for op in ops)
    if isinstance(only, Make) and only.count == 1 and len(only.places) == 1 and only.stitch != "sl st":
        place = only.places[0]
        if place.which == "next" and place.count == 1 and place.hold and not place.nth and place.noun.name == "st":
            each = replace(only, places=(replace(place, which="each"),))
            return tuple(each if op is only else op for op in ops)
    return ops


def _lift_apart(ops: Ops) -> Ops:
    """ "..., ending with sc in last loop, ch 6, turn": the chain before the turn lifts the next row, and is no part of
    what the repeat ends with."""
    star = ops[-2] if len(ops) > 1 else None
    if not isinstance(star, Star) or not isinstance(ops[-1], Act) or ops[-1].name != "turn":
        return ops
    lift = star.ending[-1] if len(star.ending) > 1 else None
    if not isinstance(lift, Chain) or not isinstance(star.ending[-2], Make | Into):
        return ops
    return (*ops[:-2], replace(star, ending=star.ending[:-1]), lift, ops[-1])


def _far_too_low(chain: Chain, said: CountsAs) -> bool:
    """Whether a chain is no stitch of the kind it is said to be: two chains lower, or more."""
    return len(said.parts) == 1 and chain.count + 1 < TURNING.get(said.parts[0], 0)


def _along_chains(op: Act) -> Op:
    """ "Sl st in 3 ch" where a round begins, with nothing to join yet: along the next chains."""
    place = op.place
    chains = place.noun.size if place is not None and place.which == "beg" and place.noun.name == "ch" else 0
    return Make("sl st", 1, (Place("next", Noun("ch"), count=chains),), at=op.at) if chains else op


def _picot_of(chain: Chain, place: Place) -> Make:
    """A chain that a slip stitch goes back into; its place is bare where that may be the row's beginning chain."""
    of_beginning = place.which == "nth" and place.of is not None and place.of.which == "beg"
    return Make("picot", 1, (Place("made", nth=chain.count, bare=of_beginning),), at=chain.at)


def _corners_along(ops: Ops) -> Ops:
    """ "Sc in each st around, 3 sc in each corner": one stretch, with the corners as they come."""
    out = list(ops)
    for at, (op, other) in enumerate(pairwise(ops)):
        if isinstance(op, Make) and isinstance(other, Make | Into) and _all_along(op) and _at_each_corner(other):
            out[at + 1] = Corner(other, at=other.at)
    return tuple(out)


def _all_along(op: Make) -> bool:
    """Whether a stitch goes into each of the stitches to the row's end."""
    place = op.places[0] if len(op.places) == 1 else None
    if place is None or place.which != "each" or place.until or place.upto or place.after or place.step > 1 or place.of:
        return False
    return op.count == 1 and not op.beside and (place.noun.name == "st" or height_of(place.noun.name) is not None)


def _at_each_corner(op: Make | Into) -> bool:
    """Whether something goes into each corner or space, or into one stitch of each corner."""
    place = op.places[0] if len(op.places) == 1 else None
    if place is None or (isinstance(op, Make) and (op.beside or op.stitch == "sl st")):
        return False
    each = place.of if place.which in ("nth", "top") else place
    if each is None or each.which != "each" or each.until or each.upto:
        return False
    return each.noun.name in ("corner", "corner sp") or (each is place and each.noun.name in ("sp", "lp"))


def _slipped_into(ops: Ops) -> Ops:
    """ "Sl st to corner, ch 3, 2 dc in same sp", "..., ch 3, 2 dc, ch 2, 3 dc in same sp": the last of the slip stitches goes
    into that space."""
    for at, op in enumerate(ops):
        if not isinstance(op, Make) or op.stitch != "sl st" or not op.places or op.places[-1].upto is None:
            continue
        if op.places[-1].upto == Noun("picot"):
            return (*ops[:at], replace(op, places=(*op.places, Place("next", Noun("picot")))), *ops[at + 1 :])
        following = next((o for o in ops[at + 1 :] if not isinstance(o, Act | Chain) and not (isinstance(o, Make) and not o.places)), None)
        place = following.places[0] if isinstance(following, Make | Into) and following.places else None
        if place is not None and place.which == "same" and place.noun.name in ("sp", "lp", "corner", "corner sp"):
            into = Place("next", place.noun if place.noun.name != "corner" else Noun("corner sp"))
            return (*ops[:at], replace(op, places=(*op.places, into)), *ops[at + 1 :])
    return ops


def _joined_places(ops: Ops) -> list[Ops]:
    """ "ch 3, 2 dc, ch 2, 3 dc in same sp": the other readings, in which all of it goes into that place: the first time
    such words stand in a row, and every time."""
    first = next((joined for end in range(len(ops)) if (joined := _joined_at(ops, end))), None)
    every = _joined_everywhere(ops)
    return [*([first] if first else []), *([every] if every not in (ops, first) else [])]


def _joined_everywhere(ops: Ops) -> Ops:
    ops = tuple(_inside(o, _joined_everywhere) for o in ops)
    end = 0
    while end < len(ops):
        joined = _joined_at(ops, end)
        end = end + 1 - (len(ops) - len(joined) if joined else 0)
        ops = joined or ops
    return ops


def _joined_at(ops: Ops, end: int) -> Ops | None:
    """The ops with all bare work before the clause at `end` put into its place; None where there is none."""
    op = ops[end]
    if not isinstance(op, Make) or len(op.places) != 1 or op.places[0].count != 1:
        return None
    place = op.places[0]
    if place.which not in ("same", "next", "first", "last", "any") or (
        place.which == "next" and place.noun.name == "st"
    ):
        return None
    start = end
    while start and _bare_work(ops[start - 1]):
        start -= 1
    if isinstance(ops[start], Chain) and all(isinstance(o, Act) for o in ops[:start]):
        start += 1
    if start >= end or not any(isinstance(o, Make) for o in ops[start:end]):
        return None
    return (*ops[:start], Into((*ops[start:end], replace(op, places=())), op.places, at=op.at), *ops[end + 1 :])


def _shells(ops: Ops) -> Ops:
    """ "2 dc, ch 2, 2 dc in next sp": stitches with chains between them and one space behind them all go into it."""
    ops = tuple(_inside(o, _shells) for o in ops)
    end = 0
    while end < len(ops):
        op = ops[end]
        place = op.places[0] if isinstance(op, Make) and len(op.places) == 1 and (op.stitch != "sl st" or _same_space(op)) else None
        start = end
        while start and _bare_work(ops[start - 1]):
            start -= 1
        while start < end and isinstance(ops[start], Chain):
            start += 1
        chained = any(isinstance(o, Chain) or (isinstance(o, Make) and o.stitch == "picot") for o in ops[start:end])
        which = ("same", "next", "last") if place is not None and place.noun.name in _SPACES else ("same", "next")
        one = place is not None and place.which in which and place.count == 1 and not place.nth
        alike = place is not None and place.noun.name != "st" and _alike_on_both_sides(ops, start, end)
        of = place.of if place is not None and place.which == "nth" and place.count == 1 else None
        inside = of is not None and of.noun.name in _SPACES and _alike_on_both_sides(ops, start, end)
        chained = chained or (start < end and isinstance(op, Make) and _same_space(op) and _begins(ops, start))
        inside = inside or _lifted_there(ops, start, place)
        if not chained:  # no shell whatever else it is, and a fan is looked for among all ops
            end += 1
            continue
        one = inside or _fan(ops, start, end) or (one and place is not None and (place.noun.name in _SPACES or alike))
        if one and place is not None and isinstance(op, Make):
            ops = (*ops[:start], Into((*ops[start:end], replace(op, places=())), op.places, at=op.at), *ops[end + 1 :])
            end = start
        end += 1
    return ops


def _with_lift(ops: Ops) -> Op:
    """The last op; a group behind the chain that a row begins with, in the same place, with the stitch that the chain
    stands for: "ch 3, (dc, ch 2, 2 dc) in same sp (shell)" names (2 dc, ch 2, 2 dc)."""
    if (parted := _over_two(ops)) is not None:
        return parted
    ops = _gathered_there(ops)
    group = ops[-1]
    before = [op for op in ops[:-1] if not isinstance(op, Act)]
    chain = before[-1] if before else None
    first = group.ops[0] if isinstance(group, Into) and group.ops else group
    if not isinstance(chain, Chain) or chain.counts == () or not isinstance(first, Make) or not _in_same(group):
        return group
    if any(not _is_slip(op) for op in before[:-1]) or TURNING.get(first.stitch) != chain.count:
        return group
    more = replace(first, count=first.count + 1)
    return replace(group, ops=(more, *group.ops[1:])) if isinstance(group, Into) else more


def _gathered_there(ops: Ops) -> Ops:
    """ "Ch 3, dc in same st, ch 2, 2 dc in same st": a row's beginning with what goes where its chain stands as one group."""
    end = len(ops)
    start = end
    while start and (isinstance(ops[start - 1], Chain) or (isinstance(ops[start - 1], Make) and _in_same(ops[start - 1]))):
        start -= 1
    made = ops[start + 1 :]
    begun = len(made) >= _HALVES and isinstance(ops[start], Chain) and isinstance(made[0], Make) and isinstance(made[-1], Make)
    if not begun or not any(isinstance(op, Chain) for op in made) or not _begins(ops, start):
        return ops
    inner = tuple(replace(op, places=()) if isinstance(op, Make) else op for op in made)
    places = made[0].places if isinstance(made[0], Make) else ()
    return (*ops[: start + 1], Into(inner, places, at=made[0].at))


def _over_two(ops: Ops) -> Into | None:
    """ "3 dc in next ch, ch 2, 3 dc in next ch (shell)": a group of which each half has its own stitch to stand on, as it
    is worked in one place further on."""
    if len(ops) < _HALVES or not isinstance(ops[-2], Chain):
        return None
    first, last = ops[-3], ops[-1]
    if not isinstance(first, Make) or not isinstance(last, Make) or (first.stitch, first.count) != (last.stitch, last.count):
        return None
    alike = all([(p.which, p.count, p.nth) for p in op.places] == [("next", 1, 0)] for op in (first, last))
    halves = (replace(first, places=()), ops[-2], replace(last, places=()))
    return Into(halves, last.places, at=last.at) if alike and last.count > 1 else None


#: Two halves and the chain between them.
_HALVES = 3


def _in_same(op: Op) -> bool:
    places = op.places if isinstance(op, Make | Into) else ()
    return len(places) == 1 and places[0].which == "same"


def _both_there(ops: Sequence[Op], op: Op) -> bool:
    """Whether two stitches that "and" joins go into one place: "1 sc and 1 dc in next st"; not the last two of a list."""
    first = ops[-1] if ops else None
    if not isinstance(first, Make) or not isinstance(op, Make) or first.places or (len(ops) > 1 and _bare_work(ops[-2])):
        return False
    if "sl st" in (first.stitch, op.stitch) or first.stitch == op.stitch or not height_of(first.stitch) or not height_of(op.stitch):
        return False
    return [p.count for p in op.places] == [1] and op.places[0].which in ("next", "same", "first", "last", "hook")


def _same_space(op: Make) -> bool:
    """Whether a stitch goes into "the same space": what stands before it without a place goes there too."""
    return [p.which for p in op.places] == ["same"] and op.places[0].noun.name in _SPACES


def _lifted_there(ops: Ops, start: int, place: Place | None) -> bool:
    """ "Ch 3, dc, ch 2, 2 dc in same st" at a row's beginning: all of it goes where the chain stands."""
    there = place is not None and (place.which, place.count, place.nth) == ("same", 1, 0)
    return there and start > 0 and isinstance(ops[start - 1], Chain) and _begins(ops, start)


def _begins(ops: Ops, start: int) -> bool:
    """Whether nothing is worked before but a chain and what leads to where it stands."""
    return all(isinstance(op, Act | Chain) or (isinstance(op, Make) and op.stitch == "sl st") for op in ops[:start])


def _inside(op: Op, changed: Callable[[Ops], Ops]) -> Op:
    """A repeat or bracket with what stands in it changed; any other op as it is."""
    if isinstance(op, Star):
        return replace(op, ops=changed(op.ops), ending=changed(op.ending))
    return replace(op, ops=changed(op.ops)) if isinstance(op, Times) else op


def _alike_on_both_sides(ops: Ops, start: int, end: int) -> bool:
    """Whether work is the same before and after its chains, behind a chain or a skip: "ch 4, sc, ch 3, sc in next dc"."""
    first, last = ops[start], ops[end]
    behind = start > 0 and isinstance(ops[start - 1], Chain | Skip)
    both = isinstance(first, Make) and isinstance(last, Make) and (first.stitch, first.count) == (last.stitch, last.count)
    return behind and both and end - start == 2


def _fan(ops: Ops, start: int, end: int) -> bool:
    """Whether several of one stitch stand on both sides of chains before one place: "2 dc, ch 2, 2 dc in next st"."""
    first, last = ops[start], ops[end]
    if not (isinstance(first, Make) and isinstance(last, Make) and first.count == last.count and first.stitch == last.stitch):
        return False
    if first.count == 1 and not _others_placed(ops, start, end):
        return False
    if end - start != 2 or len(last.places) != 1:
        return False
    place = last.places[0]
    among = place.of is not None and place.which in ("nth", "top") and place.of.which in ("next", "same") and place.of.count == 1
    single = place.which in ("next", "same") and not place.nth
    return place.count == 1 and (single or among)


def _others_placed(ops: Ops, start: int, end: int) -> bool:
    """Whether all else that is worked beside says its place, and something does: a stitch without one goes with the next."""
    rest = [op for op in (*ops[:start], *ops[end + 1 :]) if isinstance(op, Make | Into | Skip) and getattr(op, "stitch", "") != "picot"]
    return bool(rest) and all(op.places for op in rest)


_SPACES = ("sp", "lp", "corner", "corner sp")


def _list_times(ops: Ops) -> list[Ops]:
    """ "1 sc, 1 inc x 6": the other reading, in which the number is said of the whole list."""
    lead = 0
    while lead < len(ops) and isinstance(ops[lead], Act | Chain):
        lead += 1
    end = len(ops)
    while end > lead and isinstance(ops[end - 1], Act):
        end -= 1
    if end - lead < 2:
        return []
    last = ops[end - 1]
    if (
        isinstance(last, Make)
        and last.count == 2
        and len(last.places) == 1
        and last.places[0].which == "next"
        and last.places[0].count > 1
    ):
        one: Op = replace(last, places=(replace(last.places[0], count=1),))
        times = last.places[0].count
    elif isinstance(last, Times) and len(last.ops) == 1 and last.times > 1 and not last.name:
        one, times = last.ops[0], last.times
    else:
        return []
    if not all(isinstance(op, Make) for op in ops[lead : end - 1]):
        return []
    return [(*ops[:lead], Times((*ops[lead : end - 1], one), times, at=last.at), *ops[end:])]


def _told_by_number(ops: Ops) -> list[Ops]:
    """ "(1 sc, 2 sc) x 6", "2 dc, 1 dc all the way round": the other reading, in which the two go into one stitch."""
    read = tuple(replace(op, ops=_two_in_one(op.ops)) if isinstance(op, Star | Times) else op for op in ops)
    worked = [n for n, op in enumerate(ops) if not isinstance(op, Act | Chain)]
    if read == ops and len(worked) == 2 and worked[1] == worked[0] + 1:
        two, one = ops[worked[0]], ops[worked[1]]
        if not isinstance(two, Make) or not isinstance(one, Make) or two.stitch != one.stitch:
            return []
        if (two.count, two.places, one.count, one.places) == (2, (), 1, (Place("each"),)):
            both = (replace(two, places=(Place("next"),)), replace(one, places=(Place("next"),)))
            return [(*ops[: worked[0]], Star(both, at=one.at), *ops[worked[1] + 1 :])]
    return [read] if read != ops else []


def _of_one_stitch(ops: Ops) -> bool:
    """Whether what is repeated is one stitch throughout, in no place that is told: worked one in each, "(2 sc, sc) around"
    would say no more than "sc around"."""
    groups = [tuple(_by_number_alone(one) for one in op.ops) for op in ops if isinstance(op, Star | Times)]
    return bool(groups) and all(
        len(group) > 1 and len({op.stitch for op in group if isinstance(op, Make) and not op.places}) == 1
        and all(isinstance(op, Make) and not op.places for op in group)
        for group in groups
    )  # fmt: skip


def _by_number_alone(op: Op) -> Op:
    """ "Sc 2", without a word of where, as "2 sc": so many of them, wherever they go."""
    place = op.places[0] if isinstance(op, Make) and op.count == 1 and len(op.places) == 1 else None
    if not isinstance(op, Make) or place is None or replace(place, count=1) != Place("next") or not 0 < op.at[2] <= len(op.stitch) + _NUMBER_BESIDE:
        return op
    return replace(op, count=place.count, places=())


#: A space and the digits of a number beside a stitch.
_NUMBER_BESIDE = 3


def _two_in_one(ops: Ops) -> Ops:
    bare = tuple(_by_number_alone(op) for op in ops)
    if bare != ops and all(isinstance(op, Make) and not op.places for op in bare):
        read = _two_in_one(bare)
        return ops if read == bare else read
    plain = all(isinstance(op, Make) and height_of(op.stitch) == op.stitch for op in ops)
    twos = [n for n, op in enumerate(ops) if isinstance(op, Make) and op.count == 2 and not op.places]
    alike = len({op.stitch for op in ops if isinstance(op, Make)}) == 1 and not any(isinstance(op, Make) and op.places for op in ops)
    singles = [op for n, op in enumerate(ops) if isinstance(op, Make) and n not in twos]
    several = alike and len(twos) == 1 and all(op.count == 1 for op in singles)
    if not plain or not twos or (len(ops) != 2 and not several):
        return ops
    at = twos[-1]
    two = ops[at]
    assert isinstance(two, Make)
    return (*ops[:at], replace(two, places=(Place("next"),)), *ops[at + 1 :])


def _one_in_each(ops: Ops, said: str) -> list[Ops]:
    """ "2 dc in next 2 sts": the other reading, in which each gets one; not where it is said of each of them."""
    each = frozenset(int(found[1]) for found in _EACH_OF.finditer(said))
    read = tuple(_single(op, each) for op in ops)
    return [read] if read != ops else []


def _more_in_first(ops: Ops) -> list[Ops]:
    """ "2 sc in first st and in each st across": the other reading, in which the number is said of the first alone."""
    out: list[Op] = []
    for op in ops:
        which = [p.which for p in op.places] if isinstance(op, Make) else []
        if isinstance(op, Make) and 1 < op.count < FEW and len(which) > 1 and which[0] in ("first", "same") and which[1:] == ["each"]:
            out += [replace(op, places=op.places[:1]), replace(op, count=1, places=op.places[1:])]
        else:
            out.append(op)
    return [tuple(out)] if len(out) > len(ops) else []


#: "In each of next 2 sts": each gets as many as are said.
_EACH_OF = when_used(r"\b(?:each|ea|every|both)(?: one)? of (?:the |these )?(?:next |nxt |first |following )?(\d+)\b")


def _single(op: Op, each: frozenset[int]) -> Op:
    if isinstance(op, Star | Times):
        return replace(op, ops=tuple(_single(o, each) for o in op.ops))
    if isinstance(op, Make) and op.count in each:
        return op
    place = op.places[0] if isinstance(op, Make) and len(op.places) == 1 else None
    if isinstance(op, Make) and place and 1 < op.count < FEW and place.which == "next" and place.count == op.count:
        return replace(op, count=1)
    return op


def _bare_work(op: Op) -> bool:
    return (isinstance(op, Make) and not op.places) or isinstance(op, Chain)
