"""Chains, skips, turns, joins, yarn; manners that hold for a whole row."""

from __future__ import annotations

import re
from typing import Any

from ....made_late import dataclass, replace
from ... import lexicon
from ...tree import (
    FIRST_LEG,
    FROM_THERE,
    OTHER_SIDE,
    ROUND_THOSE,
    Act,
    Again,
    Chain,
    Corner,
    Either,
    Held,
    Into,
    Make,
    Noun,
    Op,
    Place,
    RowRef,
    Skip,
    Times,
    walk,
)  # fmt: skip
from .making import Making
from .parts import ANY, MOST, Ending, Leave, Limit, Ops, loop_of, own_chain, post_of


def _in_row(op: Op, row: RowRef) -> Op:
    """What is done with every place in another row, where none is said."""
    if isinstance(op, Times):
        return replace(op, ops=tuple(_in_row(part, row) for part in op.ops))
    if isinstance(op, Make | Into | Skip):
        return replace(op, places=tuple(p if p.row or p.which in ("same", "made") else replace(p, row=row) for p in op.places))
    return op


def _so_many(op: Op) -> Op:
    """ "(2 x hdc, ch 1) in next st": a number that says how often is, in a group for one place, how many."""
    if not isinstance(op, Make) or op.count != 1 or len(op.places) != 1 or not op.places[0].bare:
        return op
    said = op.places[0].count
    return replace(op, count=said, places=()) if op.places[0] == Place("next", count=said) else op


@dataclass(slots=True)
class Doing(Making):
    """Chains, skips, turns, joins, yarn; manners that hold for a whole row."""

    # -- chains, skips --------------------------------------------------------------------------------------------

    def chain(self, n: int) -> Ops | None:
        return (Chain(n),) if 0 < n <= MOST else None

    def chain_and(self, n: int, m: int) -> Ops | None:
        """ "Ch 30 plus 1 to turn": all in one chain."""
        return self.chain(n + m) if 0 < m < n else None

    def chain_for(self, n: int) -> Ops | None:
        """ "Ch 8 for a button loop"."""
        return (Chain(n), Act("loop")) if 0 < n <= MOST else None

    def chain_as(self, n: int, k: str, m: int = 1) -> Ops | None:
        """ "3 ch as the first dc": the chain counts as that stitch."""
        return (Chain(n, (k,)),) if 0 < n <= MOST and m == 1 else None

    def chain_s(self, s: int) -> Ops | None:
        return (Chain(s),) if 0 < s <= MOST else None

    def chain_one(self) -> Ops:
        return (Chain(1),)

    def picot_of(self, n: int, p: Place) -> Ops | None:
        if not own_chain(p, Chain(n)) or p.which == "same":
            return None
        of_beginning = p.which == "nth" and p.of is not None and p.of.which == "beg"
        return (Make("picot", 1, (Place("made", nth=n, bare=of_beginning),)),)

    def picot_here(self, n: int) -> Ops:
        """ "Ch 3, sl st in sc for picot": the stitch it stands on, as it is called one."""
        return (Make("picot", 1, (Place("made", nth=n),)),)

    def picot_noted(self, n: int, t: str) -> Ops | None:
        """ "Ch 3, sl st in the sc (picot)"."""
        return self.picot_here(n) if re.fullmatch(r"(?:1 |one |an? )?(?:ch[- ]?\d )?(?:picot|p)(?: made| formed| completed?)?", t) else None

    def skip(self, ps: tuple[Place, ...]) -> Ops | None:
        return (Skip(ps),)

    def skip_n(self, n: int, c: Noun = ANY) -> Ops | None:
        bare = n == 1 and c.name in lexicon.US_HEIGHTS  # "sk 1 sc" may be two clauses: see terse.parted
        return (Skip((Place("next", c, count=n, bare=bare),)),) if 0 < n <= MOST and c.name != "ring" else None

    def skip_along(self, l: Limit, c: Noun = ANY, **_: Any) -> Ops | None:  # noqa: E741
        """ "Skip sleeve sts to next ch-1 sp": all as far as that place."""
        return (Skip((self.reaching(Place("each", c), l),)),) if l[0] != "end" else None

    def skip_listed(self, b: Any) -> Ops | None:
        """ "Skip (ch 3, sl st, ch 3)": what lies there, one thing after another, named as it was made."""
        places = tuple(_lying(op) for op in b.ops)
        return (Skip(tuple(place for place in places if place is not None)),) if places and all(places) else None

    def skip_one(self) -> Ops:
        return (Skip((Place("next"),)),)

    def skip_bare(self, c: Noun) -> Ops:
        return (Skip((Place("next", c),)),)

    def skip_first(self, n: int = 1, c: Noun = ANY) -> Ops:
        return (Skip((Place("first", c, count=n),)),)

    def skipping(self, c: Noun) -> Ops:
        """ "Skipping ch-1 sps": said of a whole stretch, which passes over them anyway."""
        return ()

    def row_ends_in(self, w: str, k: str) -> Ops:
        """ "Last st being a dc": what the row begins or ends with; it makes nothing."""
        return (Act("ends in" if w in ("last", "final") else "begins in", k),)

    def chains_passed(self, w: str) -> Ops:
        """ "Skipping the chains before it": what lies beside the stitch just worked into; it is passed over anyway."""
        return (Act("chains passed", {"past": "after"}.get(w, w if w in ("before", "after") else "between")),)

    def skip_or(self, ps: tuple[Place, ...], q: Place) -> Ops:
        one: Op = Either((Skip((ps[-1],)), Skip((q,))))
        return (Times((Skip(ps[:-1]), one), 1),) if ps[:-1] else (one,)

    def next_space(self, s: tuple[str, int]) -> Place:
        return Place("next", Noun(s[0], s[1]))

    def next_picot(self) -> Place:
        return Place("next", Noun("picot"))

    def magic_ring(self, **_: Any) -> Ops:
        return (Act("magic ring"),)

    def join_by_stitch(self, c: Ops, k: str, ps: tuple[Place, ...], n: int = 1) -> tuple[Any, ...] | None:
        """ "Join with ch 1 + dc in first sc": the stitch stands for the rest of the last loop's chain."""
        made = self.make((k, ""), ps) if k != "sl st" and len(ps) == 1 and n == 1 else None
        return (Ending("closed"), *c, *made) if made else None

    def ending_by_stitch(self, c: Ops, k: str, ps: tuple[Place, ...], n: int = 1) -> tuple[Any, ...] | None:
        """ "Ending with ch 2, dc in first sc": the last repetition ends so."""
        made = self.make((k, ""), ps, n) if k != "sl st" and len(ps) == 1 else None
        return (Ending("with"), *c, *made) if made else None

    def join_by_listed(self, b: Any) -> tuple[Any, ...] | None:
        """ "Join with (ch 2, dc in first sc)"."""
        return (Ending("closed"), *b.ops) if _closes(b.ops) and b.ops[1].places else None

    def closing_space(self, b: Any = None, k: str = "", **_: Any) -> Place | None:
        """ "(ch 1 + dc) space": the loop that the round before was closed with, which the hook stands over."""
        closed = k != "sl st" if b is None else _closes(b.ops)
        return Place("same", Noun("sp")) if closed else None

    def standing(self, k: str) -> str | None:
        """ "With a standing BPsc": the first stitch itself, made with the new yarn."""
        return k if k != "sl st" else None

    def same_b(self, b: Place) -> Place:
        return b

    def nth_of_begch(self, o: int, b: Place) -> Place:
        return Place("nth", Noun("ch"), nth=o, of=b)

    def nth_of_begn(self, o: int, n: int) -> Place | None:
        """ "3rd ch of 4": of the beginning chain of so many."""
        return Place("nth", Noun("ch"), nth=o, of=Place("beg", Noun("ch", n))) if o <= n <= MOST else None

    def nth_of_beg(self, o: int, of: Place | None = None) -> Place | None:
        """ "3rd ch of beg ch-3", "3rd chain" alone where a round is joined."""
        if of is None:
            return Place("nth", Noun("ch"), nth=o, of=Place("beg"))
        return Place("nth", Noun("ch"), nth=o, of=of) if of.which == "beg" else None

    # -- turning, joining, yarn -----------------------------------------------------------------------------------

    def turn(self) -> Ops:
        return (Act("turn"),)

    def turn_with(self, c: Ops) -> Ops:
        """ "Turn with 3 ch"."""
        return (Act("turn"), *c)

    def no_turn(self) -> Ops:
        return (Act("do not turn"),)

    def no_join(self, **_: Any) -> Ops:
        return (Act("do not join"),)

    def no_join_no_turn(self) -> Ops:
        return (Act("do not join"), Act("do not turn"))

    def join(self, w: str = "sl st", p: Place | None = None, i: str = "", e: str = "", t: str = "") -> Ops | None:
        stitch = t or w
        if p is not None and not i and p.which in ("next", "each"):
            return None
        if stitch == "sl st":
            return (Act("join", "", p),)
        return (Make(stitch, 1, (p,) if p else ()),)

    def join_last(self, s: tuple[int, str] | int, p: Place, w: str = "sl st") -> tuple[Any, ...]:
        """ "Join last ch-2 to top of beginning chain": the chain made last ends there."""
        return (Ending("chain", Chain(s if isinstance(s, int) else s[0])), Act("join", "", p))

    def join_plain(self) -> Ops:
        return (Act("join"),)

    def join_sl(self, p: Place | None = None) -> Ops:
        return (Act("join", "", p),)

    def join_stitch(self, k: str, p: Place | None = None) -> Ops:
        return (Act("join", "", p),) if k == "sl st" else (Make(k, 1, (p,) if p else ()),)

    def sl_st(self) -> str:
        return "sl st"

    def join_yarn(self, y: str = "yarn", w: str = "sl st", p: Place | None = None) -> Ops:
        there: Ops = (Act("row", p.hold, Place("next", row=p.row)),) if p and p.row and p.hold in ("front loop", "back loop") else ()
        if w == "sl st":
            return (Act("yarn", y, p), *there)
        return (Act("yarn", y, p), *there, Make(w, 1, (p,) if p else ()))

    def join_yarn_post(self, a: str, p: Place, y: str = "yarn", w: str = "sl st") -> Ops:
        """ "Join B round the post of any sc of Rnd 1"."""
        return self.join_yarn(y, w, replace(p, hold=post_of(a)))

    def join_limb(self, w: str = "sl st", **_: Any) -> Ops:
        """ "Join to first leg with a sc": a stitch there, which some writers count as one of those round it."""
        return (Make(w, 1, (Place("edge", Noun("limb")),)),) if w != "sl st" else ()

    def on_limb(self) -> Ops:
        return ()

    def join_anywhere(self, y: str = "yarn", w: str = "sl st") -> Ops:
        """Joined at an edge, wherever there."""
        return self.join_yarn(y, w)

    def travel_to(self, p: Place) -> Ops:
        """ "Sl st along to next corner": the round that follows begins there."""
        noun = Noun("corner st", of=p.noun.name) if p.of is not None and p.of.noun.name == "corner" else p.noun
        return (Act("along", "", Place("any", noun)),)

    def travel_over(self, p: Place, m: tuple[Place, ...]) -> Ops:
        """ "Sl st in next dc, ch-1 sp, and next dc": one in each."""
        return (Make("sl st", 1, (p, *m)),)

    def travel_inside(self, p: Place) -> Ops | None:
        """ "Sl st to center dc of next shell": along as far as that stitch, and into it."""
        of = p.of if p.which == "nth" else None
        inside = of is not None and of.which == "next" and of.noun.name != "corner"
        return (Make("sl st", 1, (p,)),) if inside else None

    def travel_middle(self, c: Noun, k: Noun | None = None, o: int = 0) -> Ops | None:
        """ "Sl st to center dc of petal", "to center of shell": into that of the group which the round begins in."""
        if c.name in ("st", "ch", "sp", "lp", "ring", "picot", "corner", "gap") or lexicon.height_of(c.name) is not None:
            return None
        of = Place("next", c, bare=True)
        middle = Place("nth", k, nth=o, of=of) if k is not None else self.middle_any(of)
        return (Make("sl st", 1, (middle,)),) if middle is not None else None

    def travel_bare_middle(self, k: Noun) -> Ops | None:
        """ "Sl st to center dc": the round that follows begins there."""
        plain = k.name == "st" or lexicon.height_of(k.name) is not None
        return (Act("along", "", Place("any", Noun("middle st", of=k.name))),) if plain else None

    def join_yarn_st(self, y: str, k: str, p: Place) -> Ops:
        return self.join_yarn(y, k, p)

    def yarn_name(self, y: str) -> str:
        return y

    def yarn_number(self, n: int) -> str:
        return str(n)

    def yarn_maybe(self, y: str = "yarn") -> str:
        return y

    def in_colour(self, y: str) -> Ops | None:
        return (Act("colour", y),) if y != "yarn" else ()

    def change_colour(self, y: str, **_: Any) -> Ops:
        return (Act("change", y),) if y != "yarn" else ()

    def change_any(self) -> Ops:
        return ()

    def cut_colour(self, y: str) -> Ops:
        return (Act("fasten off"),)

    def facing(self, s: str) -> Ops:
        return (Act("facing", "WS" if s.startswith(("ws", "wrong")) else "RS"),) if "together" not in s else ()

    def no_move(self, **_: Any) -> Ops:
        """What a clause is for: "to seam the cuff"."""
        return ()

    def to_other_piece(self, p: Place, k: str = "sl st", **_: Any) -> Ops | None:
        """ "Sl st in ch-5 loop of first motif": chains fastened to another piece."""
        return (Act("other piece", k, p),) if k in ("sl st", "sc") else None

    def closing_chain(self, n: int, **_: Any) -> Ops | None:
        """ "Ch 1 to fasten": the chain that closes a cluster is a part of it."""
        return () if n == 1 else None

    # -- manners --------------------------------------------------------------------------------------------------

    def in_loops(self, h: Held, **_: Any) -> Ops:
        return (Act("loops", h),)

    def in_loops_of(self, h: Held, **_: Any) -> Ops | None:
        return None

    def in_both(self, **_: Any) -> Ops:
        return (Act("loops", ""),)

    def opposite(self) -> Ops:
        return (Act("opposite"),)

    def work_along(self) -> Ops:
        """ "Work evenly along the other sides": the stitch of the row."""
        return (Make(self.base, 1, (Place("edge", Noun("side")),)),)

    def along_side(self) -> Ops:
        return (Act("edge"),)

    def other_side(self) -> Ops:
        """ "Working up the other side": of the foundation chain where the hook stands on it, else of the piece."""
        return (Act("edge", OTHER_SIDE),)

    def spread(self, n: int, **_: Any) -> Ops:
        return (Act("spread", str(n)),)

    def spread_to(self, n: int, **_: Any) -> Ops:
        return (Act("spread to", str(n)),)

    def spread_dec(self, n: int, **_: Any) -> Ops:
        return (Act("spread", str(-n)),)

    def goes_down(self, **_: Any) -> Ops:
        """ "Drop down 2 rows to unworked sts": work goes on over what short rows left."""
        return (Act("short", "on"),)

    def into_row(self, r: RowRef, h: Held = "") -> Ops:
        return (Act("row", loop_of(h), Place("next", row=r)),)

    def behind(self, b: str, r: RowRef | None = None, p: Place | None = None, v: str = "") -> Ops | None:
        """ "Working behind last rnd", "working in front of dc just made"; "sk 4 sc behind them" says nothing new."""
        if p is not None and p.noun.name == "petal" and p.of is None:
            return ()  # "behind petals of Rnd 2": the places say themselves where they lie
        if p is not None and (p.of is not None or p.row is not None):
            return None  # "in front of ch-1 in missed st": where the stitch itself goes
        if r is not None:
            return (Act("behind"),)
        crosses = v and (p is None or p.noun.name == "st" or lexicon.height_of(p.noun.name))
        return (Act("crossing", "front" if "front" in b else "behind"),) if crosses else ()

    def behind_core(self, c: Noun) -> Ops | None:
        return () if c.name in ("sp", "lp", "ch", "st", "corner sp") else None

    def in_spaces(self, s: tuple[str, int]) -> Ops:
        return (Act("in spaces", str(s[1])),)

    def in_spaces_n(self, s: int) -> Ops:
        return (Act("in spaces", str(s)),)

    def stripes(self, n: int, y: str, m: tuple[str, ...] = ()) -> Ops:
        return (Act("stripes", ",".join((*([y] * min(n, 100)), *m))),)

    def stripes_more(self, n: int, y: str, m: tuple[str, ...] = ()) -> tuple[str, ...]:
        return (*([y] * min(n, 100)), *m)

    def stripes_each(self, n: int, y: str, y2: str) -> Ops:
        return (Act("stripes", ",".join([y] * min(n, 100) + [y2] * min(n, 100))),)

    def goes_there(self, p: Place) -> Ops:
        """ "Your next stitch will be worked into the 3rd ch from the hook": the place of what follows."""
        return (Act("goes into", place=p),)

    def begin_there(self, p: Place, w: str = "", i: str = "") -> Ops | None:
        """ "Beginning with the st at the base of the ch": the chain stands for no stitch."""
        if " " not in w and not i and p.which in ("next", "first") and p.nth < 2:
            return None  # "begin next shell" makes one
        if p.which == "same":
            return (Act("from base"),)
        return self.travel_inside(p) or self.moved_to(p)  # "Beginning in middle dc of shell": the hook goes there first

    def moved_to(self, p: Place, **_: Any) -> Ops | None:
        """ "Starting in any corner space", "move to next ch-1 sp": what comes next is worked from there on."""
        if p.which == "next" and p.noun.name == "ch" and p.nth > 1 and p.count == 1:
            p = Place("hook", Noun("ch"), nth=p.nth)  # "beginning with the second ch"
        one = p.which in ("any", "hook", "next", "first", "nth", "marked") and p.count == 1 and not p.also
        return (Act("along", FROM_THERE, p),) if one else None

    def swap(self, a: Ops, b: Ops) -> Ops:
        return (Again(0, 0, swap=((b[0], a[0]),)),)

    def swap_two(self, a: str, a2: str, b: str, b2: str) -> Ops | None:
        """ "As Row 2, with sc and sc2tog in place of the dc and dc2tog": each for its own, none twice."""
        pairs = [(b, a), (b2, a2)]
        if a == b2 and a2 == b:
            return None  # one for the other
        if b2 == a:
            pairs.reverse()
        return (Again(0, 0, swap=tuple((Make(old), Make(new)) for old, new in pairs)),)

    def round_those(self, c: Noun, r: RowRef) -> Ops | None:
        """ "As Rnd 3, working around the sc of Rnd 3"."""
        return (Again(0, 0, swap=((ROUND_THOSE, Make("posts", 1, (Place("each", c, row=r, hold="front post"),))),)),) if lexicon.height_of(c.name) else None

    def swap_chain(self, c: Ops, n2: int) -> Ops:
        """ "Like the 3rd, but 6 chain instead of 4"."""
        return (Again(0, 0, swap=((Chain(n2), c[0]),)),)

    def same_m(self, m: Ops) -> Ops:
        return m

    def in_that_row(self, m: Ops, r: Any) -> Ops | None:
        """ "On 2nd row below, fpdc around next sc", "(fpdc around next 2 fpdc) 2 rows below": a row said of all the places."""
        if not isinstance(r, RowRef) or not any(isinstance(op, Make | Into) and op.places for op in walk(m)):
            return None if isinstance(r, RowRef) else m
        return tuple(_in_row(op, r) for op in m)

    def skip_in_that_row(self, s: Ops, m: Ops, r: Any) -> Ops | None:
        """ "On 2nd row below, sk next sc, fpdc around next sc"."""
        return self.in_that_row((*s, *m), r)

    def sent_between(self, m: Ops) -> Ops | None:
        """ "Working between the tr of Rnd 3, 2 dc in ch-2 sp of Rnd 2": how the hook gets there, where a place is said."""
        op = m[0] if len(m) == 1 else None
        return m if isinstance(op, Make | Into) and op.places else None

    def same_s(self, s: Ops) -> Ops:
        return s

    def behind_soft(self, p: Place) -> Ops | None:
        return () if p.noun.name in ("sp", "lp", "ch") else None

    def work_even(self, k: str = "", l: Limit = ("end",), n: int = 0) -> Ops:  # noqa: E741
        return (Make(k or self.base, 1, (self.reaching(Place("each", bare=True), l),)),)

    def work_even_on(self, k: str, n2: int, n: int = 0) -> Ops | None:
        """ "Work 5 more rows of dc on these 45 sts": so many there must be."""
        return (Make(k, 1, (Place("next", count=n2),)),) if 0 < n2 <= MOST else None

    def work_over(self, k: str, n2: int) -> Ops | None:
        """ "Work over 25 tr, turn": so many of the row below; the rest waits."""
        return (Make(k, 1, (Place("next", count=n2),)), Act("leave", "")) if 0 < n2 <= MOST else None

    def on_over(self, n2: int) -> Ops | None:
        """ "Work across 8 sts, turn": as the rows before, over so many of the row below; the rest waits."""
        return (Act("pattern", place=Place("next", count=n2)), Act("leave", "")) if 0 < n2 <= MOST else None

    def instead_there(self, m: Ops) -> Ops | None:
        """ "working 3 sc in each corner": what is done at those places instead."""
        if len(m) != 1 or not isinstance(m[0], Make | Into) or not m[0].places:
            return None
        return (Corner(m[0]),)

    def instead_and_last(self, m: Ops, p: Place, k: tuple[str, str]) -> Ops | None:
        """ "working 3 dc in center dc of each group and last dc in top of beg ch"."""
        there = self.instead_there(m)
        return (*there, *self.last_goes_into(p)) if there else None

    def group_there(self, g: Any, ps: tuple[Place, ...]) -> Ops | None:
        return (Corner(Into(g.ops, ps)),) if g.ops else None

    def inc_ends(self, n: int = 1, c: Noun = ANY, **_: Any) -> Ops:
        return (Corner(Make("inc", n + 1, (Place("first"), Place("last")))),)

    def dec_ends(self, n: int = 1, c: Noun = ANY, **_: Any) -> Ops:
        return (Corner(Make("dec", n + 1, (Place("first"), Place("last")))),)

    def inc_end(self, n: int = 1, c: Noun = ANY, **_: Any) -> Ops:
        return (Corner(Make("inc", n + 1, (Place("last"),))),)

    def dec_end(self, n: int = 1, c: Noun = ANY, **_: Any) -> Ops:
        return (Corner(Make("dec", n + 1, (Place("last"),))),)

    def inc_begin(self, n: int = 1, c: Noun = ANY, **_: Any) -> Ops:
        return (Corner(Make("inc", n + 1, (Place("first"),))),)

    def dec_begin(self, n: int = 1, c: Noun = ANY, **_: Any) -> Ops:
        return (Corner(Make("dec", n + 1, (Place("first"),))),)

    def last_goes_into(self, p: Place, t: str = "", **_: Any) -> Ops:
        return () if p == Place("last", p.noun) else (Act("last", t, p),)  # "the last being worked in last sc": says no more

    def even_rows(self) -> str:
        return "even rows"

    def odd_rows(self) -> str:
        return "odd rows"

    def included(self, p: Place) -> Ops | None:
        """ "Including the top of the beginning chain": one of those told, not one more."""
        return (Act("last", "", p),) if p.which in ("top", "beg", "first", "last") else None

    def leave_n(self, n: int = 1, c: Noun = ANY) -> tuple[Any, ...]:
        return (Leave(n, c),)

    def leave_first(self, n: int = 1, c: Noun = ANY) -> tuple[Any, ...]:
        return (Leave(n, c, True),)

    def leave(self, n: int = 0, c: Noun = ANY, **_: Any) -> Ops:
        plain = n and (c.name == "st" or lexicon.height_of(c.name))
        return (Act("leave", str(n) if plain else ""),)

    # -- a place first --------------------------------------------------------------------------------------------

    def group_into(
        self, b: Any, ps: tuple[Place, ...], times: tuple[int, bool] | None = None, h: Held = ""
    ) -> Ops | None:
        if not b.ops or b.parsed_as_note:
            return None
        only = b.ops[0] if len(b.ops) == 1 and times is None and not h else None
        if isinstance(only, Make) and not only.places and only.count == 1 and lexicon.together(only.stitch) == sum(p.count for p in ps) > 1:
            return (replace(only, places=ps),)  # "(dc3tog) over next 3 sts": the bracket only holds its name together
        ops = tuple(map(_so_many, b.ops)) if len(ps) == 1 else b.ops
        ops = ops if times is None else (Times(ops, times[0] + times[1]),)
        places = tuple(replace(p, hold=loop_of(h)) for p in ps) if h else ps
        return (Into(ops, places),)

    def bracket_as(self, b: Any, k: str) -> Ops | None:
        """ "(Ch 2, sk first st, dc in next st) as dc2tog": a beginning chain and a stitch that are one stitch together."""
        work = [op for op in b.ops if not (isinstance(op, Skip) and [p.which for p in op.places] == ["first"])]
        if b.parsed_as_note or len(work) != 2 or not isinstance(work[0], Chain) or not isinstance(work[1], Make):
            return None
        legs = lexicon.together(work[1].stitch) + 1
        if lexicon.together(k) != legs or not k.startswith(lexicon.height_of(work[1].stitch) or "-"):
            return None
        return (replace(work[0], counts=(f"{FIRST_LEG} {k}",)), work[1])

    def makes_into(self, ps: tuple[Place, ...], ms: Ops, t: tuple[int, bool] | None = None) -> Ops | None:
        if t is not None:
            if len(ms) < 2 or ps[0].which not in ("first", "ring", "same", "next"):
                return None
            return (Into((Times(ms, t[0] + t[1]),), ps),)
        if len(ms) == 1 and isinstance(ms[0], Make) and not ms[0].places:
            return (replace(ms[0], places=ps),)
        return (Into(ms, ps),)

    def bracket_behind(self, b: Any, ps: tuple[Place, ...], t: tuple[int, bool] | None = None) -> Ops | None:
        """ "(Sl st, ch 4) behind petals in next sc 2 rounds below"."""
        ops = self.group_into(b, ps)
        return (Times(ops, t[0] + t[1]),) if ops and t else ops

    def group_in_each(self, ms: Ops, p: Place) -> Ops | None:
        """ "1 tr, 1 ch, 1 tr in each ch-1 sp" with no bracket: what begins and ends alike with chains between is one
        group for each place, and so is a petal, which is the same backwards, for each space. Nothing goes chains
        alone into: "1 tr, 1 ch in each st" is both of them."""
        if len(ms) > 1 and isinstance(ms[0], Make) and isinstance(ms[-1], Chain):
            return (Into(ms, (p,)),)
        ends = [op.stitch for op in (ms[0], ms[-1]) if isinstance(op, Make)]
        if len(ms) < 3 or len(ends) < 2 or ends[0] != ends[1]:
            return None
        told = [(op.stitch, op.count) for op in ms if isinstance(op, Make)]
        petal = (p.noun.name in ("sp", "lp") or p.which != "each") and told == told[::-1] and len(set(told)) > 1
        if not petal and not any(isinstance(op, Chain) for op in ms):
            return None
        return (Into(ms, (p,)),)

    def group_in_one(self, ms: Ops, p: Place) -> Ops | None:
        """ "Sc, hdc, dc, hdc, sc, into next st": a comma before the place says that all of them go there."""
        return self.group_in_each(ms, p) if p.which in ("next", "same") and p.count == 1 and p.nth < 2 else None

    def chained_in_first(self, ms: Ops, p: Place) -> Ops | None:
        """ "2 tr, ch 1 in first ch sp": nothing goes a chain alone into."""
        both = len(ms) > 1 and isinstance(ms[0], Make) and isinstance(ms[-1], Chain)
        return (Into(ms, (p,)),) if both and p.which == "first" and p.count == 1 else None

    def one_and_post(self, m: Ops, r: Ops, ps: tuple[Place, ...]) -> Ops | None:
        """ "Dc in and fpdc around next st": the second goes round the stitch that the first goes into."""
        posts = [op for op in r if isinstance(op, Make) and op.stitch.lower().startswith(("fp", "bp"))]
        return (Into((*m, *r), ps),) if len(posts) == len(r) == 1 else None

    def group_come_again(self, ms: Ops, p: Place) -> Ops | None:
        """ "Sc, ch 1, sc, ch 1 in next st": what comes again and ends with chains goes there together."""
        half = len(ms) // 2
        again = half > 1 and ms[:half] == ms[half:] and isinstance(ms[-1], Chain) and p.count == 1
        return (Into(ms, (p,)),) if again else None

    def op_list(self, m: Ops, r: Ops = ()) -> Ops:
        return (*m, *r)

    def inner_make(self, s: tuple[str, Held], n: int = 1, **_: Any) -> Ops | None:
        return self.make(s, (), n)

    def inner_group(self, b: Any, t: tuple[int, bool] = (1, False)) -> Ops | None:
        """A bracket in a list that one place gets; None for one that goes on along the row."""
        along = any(isinstance(op, Skip) or (isinstance(op, Make | Into) and any(p.which == "next" and not p.bare for p in op.places)) for op in b.ops)
        return (Times(b.ops, t[0] + t[1]),) if b.ops and not along else None


def _lying(op: Op) -> Place | None:
    """Where what an op makes lies in the row below: its stitches, the space under its chains; None of all else."""
    if isinstance(op, Chain):
        return Place("next", Noun("sp", op.count))
    if isinstance(op, Make) and not op.places and not op.beside:
        return Place("next", Noun(op.stitch), count=op.count)
    return None


def _closes(ops: Ops) -> bool:
    """Whether a list of ops is a chain and the one stitch that closes a loop with it."""
    if len(ops) != 2 or not isinstance(ops[0], Chain):
        return False
    return isinstance(ops[1], Make) and ops[1].count == 1 and ops[1].stitch != "sl st"
