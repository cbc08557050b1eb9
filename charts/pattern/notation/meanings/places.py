"""Places on the row below, each told by a noun, an order and a row."""

from __future__ import annotations

from typing import Any

from ....made_late import dataclass, replace
from ...lexicon import GATHERED, height_of
from ...tree import MIDDLE_OF, PETAL_ST, Held, Noun, Place, RowRef, Which
from .nouns import Nouns
from .parts import ANY, MOST, THOSE, Limit, loop_of


@dataclass(slots=True)
class Places(Nouns):
    """Places on the row below, each told by a noun, an order and a row."""

    # -- places ---------------------------------------------------------------------------------------------------

    def on_chain(self, p: Place) -> Place | None:
        """ "Each ch of the foundation chain"; a loop of it would be chains that the first row passed over, which are no
        space of the row below."""
        return None if p.noun.name in ("sp", "lp") else p

    def placed(self, p: Place, r: Any = None, l: Limit | None = None, h: Held = "") -> Place | None:  # noqa: E741
        if isinstance(r, RowRef):
            if p.which in ("hook", "ring"):
                return None
            p = replace(p, row=r)
        if h and h != "top":
            p = replace(p, hold=h)
        return self.reaching(p, l) if l else p

    def loop_anywhere(self, h: Held, r: Any = None) -> Place:
        """ "Any free front loop of Rnd 2": where a yarn is joined; which one is the worker's choice."""
        return Place("any", ANY, hold=loop_of(h), row=r if isinstance(r, RowRef) else None)

    def loop_below(self, h: Held, r: Any) -> Place | None:
        """ "Dc in front loop 2 rows down": of the stitch there."""
        deep = isinstance(r, RowRef) and r.below > 1
        return Place("next", ANY, hold=loop_of(h), row=r) if deep else None

    def those_left(self, n: int = 0, c: Noun = ANY) -> Place | None:
        """ "(... to last 2 sts,) sc in those": what the work before stops short of (`those.py` says which they are)."""
        return Place("next", Noun(THOSE, of=c.name), count=n) if n <= MOST else None

    def held_ones(self, n: int, h: Held, c: Noun) -> Place | None:
        """ "Each of 28 front loop sts"."""
        return Place("next", c, count=n, hold=loop_of(h)) if 0 < n <= MOST else None

    def placed_l(self, p: Place, l: Limit | None = None) -> Place:  # noqa: E741
        return self.reaching(p, l) if l else p

    def reaching(self, p: Place, l: Limit) -> Place:  # noqa: E741
        """A place with how far it goes."""
        bare = p.which == "next" and p.count == 1 and p.nth == 0
        if l[0] == "end" and p.which == "nth" and not p.count and p.of is not None:
            return replace(p, of=replace(p.of, which="each"))
        if l[0] == "end" and p.which == "between" and p.of is not None and p.of.which == "next" and _gathers(p.of.noun):
            return Place("each", Noun("gap", of=_told_as(p.of.noun)))  # "3 dc between clusters across"
        if l[0] == "end":
            to_end = p.which == "next" and not p.nth and (p.noun.name == "st" or bool(height_of(p.noun.name)))
            return replace(p, which="each" if bare else p.which, bare=to_end or p.bare)
        if p.which not in ("next", "each", "skipped", "unworked"):
            return p
        if l[0] == "before":
            return replace(p, which="each", until=(l[1], l[2]), upto=l[3])
        if l[0] == "last":
            return replace(p, which="each", until=(l[1], l[2] if len(l) > 2 and l[2] else p.noun))
        return replace(p, which="each", upto=l[1])

    def next_held(self, h: Held) -> Place:
        return Place("next", hold=loop_of(h))

    def all_held(self, h: Held, l: Limit) -> Place:  # noqa: E741
        return self.reaching(Place("each", hold=loop_of(h)), l)

    def each_held(self, h: Held, l: Limit = ("end",), **_: Any) -> Place:  # noqa: E741
        """ "In each front loop around"."""
        return self.all_held(h, l)

    def all_sts(self) -> Place:
        """ "Sc in the stitches of the last row": no number, and more than one."""
        return Place("each")

    def next_ones(self, c: Noun, n: int = 1) -> Place | None:
        return Place("next", c, count=n) if 0 < n <= MOST else None

    def run_of_chains(self, s: int) -> Place | None:
        """ "In each of the 7-ch sts": so many chains, one after the other."""
        return self.next_ones(Noun("ch"), s)

    def next_bare(self, n: int = 1) -> Place | None:
        return Place("next", count=n) if 0 < n <= MOST else None

    def next_alike(self, n: int = 1) -> Place | None:
        return Place("next", _ALIKE, count=n) if 0 < n <= MOST else None

    def nth_next(self, n: int, c: Noun) -> Place:
        return Place("next", c, nth=n)

    def first_ones(self, c: Noun, n: int = 1, o: Place | None = None) -> Place | None:
        if not 0 < n <= MOST:
            return None
        return Place("nth", c, n, 1, o) if o else Place("first", c, count=n)

    def first_bare(self, n: int = 1) -> Place | None:
        return Place("first", count=n) if 0 < n <= MOST else None

    def last_ones(self, c: Noun, n: int = 1, o: Place | None = None) -> Place | None:
        if not 0 < n <= MOST:
            return None
        return Place("nth", c, n, -1, o) if o else Place("last", c, count=n)

    def last_bare(self, n: int = 1) -> Place | None:
        return Place("last", count=n, bare=n == 1) if 0 < n <= MOST else None

    def second_last(self, c: Noun = ANY) -> Place:
        """ "In the next to last st"."""
        return Place("last", c, nth=2)

    def last_again(self, c: Noun) -> Place:
        """ "Another dc in last st": in the last one, worked already or not."""
        return Place("again", c)

    def last_bare_again(self) -> Place:
        return Place("again")

    def just_made(self, c: Noun = ANY) -> Place:
        return Place("made")

    def each_of(self, c: Noun, also: tuple[Noun, ...] = ()) -> Place:
        return Place("each", c, also=also)

    def each_bare(self) -> Place:
        return Place("each")

    def each_gap(self, c: Noun, pp: Any = None) -> Place | None:
        return Place("each", Noun("gap")) if c.name in ("sp", "st", "lp", "gap") else None

    def each_noun(self, g: Noun) -> Place:
        return Place("each", g)

    def all_of_each(self, c: Noun, p: Place) -> Place | None:
        """ "Each st of ch-4 lp", "each dc of next shell": all that it is made of."""
        if p.noun.name == "st":
            return None
        of = replace(p, noun=Noun("sp")) if p.noun == Noun("ch") else p
        return Place("nth", c, count=0, nth=1, of=of)

    def run_of(self, n: int) -> Place | None:
        """ "(Each of) the 4 ch", "next 4 ch": a run of so many."""
        return Place("next", Noun("sp", n)) if 0 < n <= MOST else None

    def from_hook_several(self, o: int, o2: int) -> Place | None:
        return Place("hook", Noun("ch"), nth=o, count=o2 - o + 1) if o2 > o > 0 else None

    def next_of(self, c: Noun, o: Place) -> Place:
        return Place("top", of=o) if o.which == "beg" else Place("nth", c, nth=1, of=o, bare=True)

    def unworked_in_row(self, c: Noun, r: Any = None, q: str = "", n: int = 0, l: Any = None) -> Place | None:  # noqa: E741
        """ "8 unworked sc of Row 3", "the 8 sc left unworked": places that rows since have left."""
        if r is not None and not isinstance(r, RowRef):
            return None
        if l is not None and l[0] != "end":
            return None
        return Place("unworked", c, n or (1 if q in ("next", "nxt", "following", "foll") else 0), row=r)

    def unworked_sts(self, r: Any) -> Place | None:
        return self.unworked_in_row(ANY, r)

    def remaining_in_row(self, c: Noun, r: Any, n: int = 0) -> Place | None:
        return self.unworked_in_row(c, r, n=n) if isinstance(r, RowRef) else None

    def numbers(self, n: int, n2: int = 0, m: tuple[int, ...] = ()) -> tuple[int, ...]:
        return (n, n2) if n2 else (n, *m)

    def left_ones(self, c: Noun = ANY, n: int = 0, r: Any = None, rs: tuple[int, ...] = ()) -> tuple[Place, ...] | None:
        """ "(including) the sts left unworked in Rows 3 and 1": all of them, or so many."""
        if r is not None and not isinstance(r, RowRef):
            return None
        if rs:
            return tuple(Place("unworked", c, 0, row=RowRef(number=one)) for one in rs)
        return (Place("unworked", c, n, row=r),)

    def every_other(self, c: Noun) -> Place:
        return Place("each", c, step=2)

    def every_nth(self, o: int, c: Noun = ANY) -> Place:
        return Place("each", c, step=max(o, 1))

    def every_nth_skipping(self, o: int, c: Noun, n: int, c2: Noun = ANY) -> Place | None:
        """ "Every third st, skipping two between": only where the two numbers agree."""
        return Place("each", c, step=o) if o == n + 1 else None

    def first_half(self, c: Noun) -> Place:
        return Place("half", c, nth=1)

    def last_half(self, c: Noun) -> Place:
        return Place("half", c, nth=2)

    def remaining(self, c: Noun, n: int = 0) -> Place | None:
        return Place("next", c, count=n) if n else Place("each", c)

    def remaining_of(self, c: Noun, g: Noun) -> Place | None:
        """ "The other dc of that shell": what is left of the group just worked into."""
        return Place("each", c, of=Place("same", g)) if c.name != g.name and g.name not in ("st", "ch") else None

    def same_place(self, c: Noun, **_: Any) -> Place:
        return Place("same", c)

    def same_of_either(self, c: Noun, c2: Noun) -> Place | None:
        """ "In same st or sp": whichever of the two it is."""
        return Place("same") if c != c2 else None

    def same_as_begun(self, c: Noun = ANY) -> Place:
        """ "Same sp as beg ch-3", "same ch as first 2 sc": where the row began, and not the place just used."""
        return Place("same", c, of=Place("beg"))

    def same_bare(self, **_: Any) -> Place:
        return Place("same")

    def same_join(self, **_: Any) -> Place:
        return Place("same")

    def base_of(self, p: Place) -> Place:
        return Place("same")

    def anywhere(self, c: Noun) -> Place:
        return Place("any", c)

    def anywhere_beside(self, c: Noun, w: str, c2: Noun) -> Place:
        """ "Any tr after a ch-3 sp": any that stands right beside one."""
        return Place("any", c, of=self.gap_beside(Place("any", c2), w))

    def into_ring(self) -> Place:
        return Place("ring", Noun("ring"))

    def from_hook(self, o: int = 1) -> Place | None:
        return Place("hook", Noun("ch"), nth=o) if o > 0 else None

    def last_from_hook(self) -> Place:
        return Place("hook", Noun("ch"), nth=0)

    def nth(self, o: int, c: Noun, of: Place | None = None, o2: int = 0) -> Place | None:
        if o2 and o2 <= o:
            return None
        count = o2 - o + 1 if o2 else 1
        if of is None:
            return Place("next", c, nth=o, count=count)
        return Place("top", of=Place("beg")) if of.which == "opening" else Place("nth", c, nth=o, of=of, count=count)

    def last_ord(self, o: int, m: int) -> int:
        return m

    def nth_chain(self, o: int, of: Place) -> Place:
        if of.which == "opening":
            return Place("top", of=Place("beg"))
        stretch = of.count > 1 and (of.noun.name == "st" or height_of(of.noun.name) is not None)
        return Place("nth", ANY if stretch else Noun("ch"), nth=o, of=of)

    def opening_chain(self) -> Place:
        return Place("opening")

    def middle_space(self, c: Noun) -> Noun:
        """ "To center ch-2 sp": the one in the middle of the row, where its groups tell which."""
        return replace(c, of=MIDDLE_OF) if not c.of else c

    def middle_of(self, c: Noun, of: Place | None = None, n: int = 1) -> Place:
        if c.name == "ring":
            return Place("ring", Noun("ring"))
        if c.name in ("sp", "lp") and of is None:
            return Place("next", self.middle_space(c))
        if of is not None and of.noun == Noun("ch") and of.which in ("next", "first", "last") and of.count == 1 and not of.nth:
            of = replace(of, noun=Noun("sp"))  # a run of chains, not one of them
        if of is None and n == 1 and (c.name == "st" or height_of(c.name)):
            return Place("next", Noun("middle st", of=c.name))
        return Place("nth", c, nth=0, of=of, count=n) if of else Place("next", c, nth=0)

    def between_petals(self, p: Place, g: str, h: Held = "") -> Place | None:
        """ "Next sc between petals", "back loop of sc between this and next petal": of the row whose loops the petals fill,
        or between them."""
        kind = p.noun.name == "st" or p.noun.name == "sl st" or height_of(p.noun.name) is not None
        plain = kind and p.which in ("next", "each", "first") and p.row is None and p.of is None and not p.until
        there = replace(p, noun=Noun(PETAL_ST, of=p.noun.name), hold=loop_of(h) if h else p.hold)
        return there if g == "petal" and plain else None

    def any_middle(self, c: Noun, of: Place | None = None) -> Place | None:
        """ "Any center dc", "center dc of any shell": in the middle of whichever group."""
        if c.name != "st" and height_of(c.name) is None:
            return None
        group = of.noun if of is not None else Noun("group", of=c.name if c.name != "st" else "")
        return Place("nth", c, nth=0, of=Place("any", group))

    def middle_any(self, of: Place) -> Place:
        return Place("nth", ANY, nth=0, of=of)

    def middle_bare(self) -> Place:
        """ "In center", with no noun: where the row below was increased, be it a stitch or a space."""
        return Place("next", Noun("corner"), bare=True)

    def tip_of(self, p: Place) -> Place | None:
        """ "Tip of next petal": the highest stitch of a group, or the picot on it; a stitch's tip is its top."""
        if p.noun.name in GATHERED or height_of(p.noun.name) is not None:
            return self.top_of(p)
        if p.noun.name in ("st", "ch", "sp", "lp") or p.which not in ("next", "first", "last", "each", "any", "same"):
            return None
        return Place("nth", Noun("tip"), nth=0, of=p)

    def top_of_beg(self, b: Place) -> Place:
        return Place("top", of=b)

    def top_of(self, p: Place) -> Place:
        return p if p.which in ("first", "next", "last", "each") else Place("top", of=p)

    def beg(self, b: Place) -> Place:
        return b

    def ch_run(self, n: int) -> Place:
        return Place("beg", Noun("ch", n))

    def gap_between(self, p: tuple[Noun, Noun]) -> Place:
        return Place("between", Noun("gap"), of=Place("next", p[0]))

    def gap_next(self, c: Noun, n: int = 2, also: Any = None) -> Place:
        return _next_gap(Place("next", c))

    def run_below(self, n: int) -> Place | None:
        """ "In the 5 ch of the previous row": the space that they make."""
        return Place("next", Noun("sp", n)) if 0 < n <= MOST else None

    def space_below(self) -> Place:
        """ "In ch of the previous row": the next space, whatever chains make it."""
        return Place("next", Noun("sp"))

    def gap_kind(self, pp: tuple[Any, ...], q: str = "") -> Place | None:
        if q in ("each", "every", "ea"):
            between = pp[0].noun if len(pp) == 1 and pp[0].which in ("next", "each") else ANY
            return Place("each", Noun("gap", of=_told_as(between) if _gathers(between) else ""))
        if q in ("same", "this"):
            return Place("same")
        if len(pp) == 2:
            if pp[0].which == "last" and pp[0].row is None and (pp[1].which, pp[1].nth) == ("last", 2):
                return Place("before", Noun("gap"), of=pp[0])  # "between last and next to last"
            if pp[0].which == "beg" and pp[1].which in ("next", "first") and pp[1].count == 1 and _gathers(pp[1].noun):
                return Place("before", Noun("gap"), of=pp[1])  # "between tch and first group": the chain just made
            if pp[0].which == "skipped" and (pp[1].which, pp[1].count, pp[1].nth) == ("next", 1, 0):
                return Place("before", Noun("gap"), of=pp[1])  # "between last dc skipped and next dc"
            if pp[0].which == "same" and pp[0].noun.name in _GROUP_NAMES and (pp[1].which, pp[1].count, pp[1].nth) == ("next", 1, 0):
                return Place("before", Noun("gap"), of=replace(pp[1], noun=pp[0].noun))  # "between this shell and next"
            first = replace(pp[0], noun=pp[1].noun) if pp[0].noun == Noun("st") and pp[0].which == "first" and pp[1].nth == 2 else pp[0]
            return Place("after", Noun("gap"), of=first)
        if q == "next" and pp[0].which == "next" and pp[0].count == 1 and pp[0].bare and height_of(pp[0].noun.name):
            return Place("next", Noun("gap"))  # "in next sp between dc"
        only = pp[0]
        if only.which == "each" and only.step == 1 and (only.noun.name == "st" or height_of(only.noun.name)) and not only.row:
            return Place("each", Noun("gap"), until=only.until, upto=only.upto)  # "between each st"
        if only.which == "each" and only.step == 1 and _gathers(only.noun) and not only.row:
            return Place("each", Noun("gap", of=_told_as(only.noun)), until=only.until, upto=only.upto)  # "between all groups"
        return _next_gap(only)

    def gap_beside(self, p: Place, w: str, q: str = "") -> Place:
        if w in ("after", "past") and p.which == "skipped" and not p.nth:
            return Place("before", Noun("gap"), of=Place("next"))
        return Place("after" if w in ("after", "past") else "before", Noun("gap"), of=p)

    def gap_past_skipped(self, c: Noun, c2: Noun) -> Place:
        """ "Between last dc skipped and next dc": right before the next."""
        return Place("before", Noun("gap"), of=Place("next", c2))

    def gaps_of_groups(self, q: str = "", n: int = 1, g: Noun | str = "") -> Place:
        """ "each sp between 3-dc groups": the gaps where no chain lies, else the spaces."""
        noun = Noun("gap", g.size, g.of) if isinstance(g, Noun) and g.name == "group" and g.of else Noun("gap", of="group")
        which: Which = (
            "each"
            if q in ("each", "every", "ea") and n == 1
            else "first"
            if q in ("first", "1st")
            else "last"
            if q == "last"
            else "next"
        )
        return Place(which, noun, count=n)

    def gap_of_any_groups(self, g: Noun | str = "") -> Place:
        """ "Between any two groups": the round begins there."""
        return replace(self.gaps_of_groups(g=g), which="any")

    def sized_between(self, s: tuple[str, int], q: str = "", n: int = 1) -> Place:
        """ "Next ch-2 sp between shells": a space of that size that lies in no group."""
        orders: dict[str, Which] = {"each": "each", "every": "each", "ea": "each", "first": "first", "1st": "first", "last": "last"}
        which: Which = "any" if q == "any" else orders.get(q, "next") if n == 1 else "next"
        return Place(which, Noun(s[0], s[1], "between"), count=n)

    def sized_at(self, s: tuple[str, int], k: str, q: str = "", n: int = 1) -> Place:
        """ "Ch-2 sp between dc", "between dc groups": a space of that size with such stitches on both sides."""
        return replace(self.sized_between(s, q, n), noun=Noun(s[0], s[1], f"between {k}"))

    def kind_of_group(self, g: tuple[int, str]) -> str | None:
        return g[1] if g[1] != "row" else None

    def two_places(self, p: Place, q: Place) -> tuple[Place, ...]:
        return (p, q)

    def two_alike(self, c: Noun, n: int = 2) -> tuple[Place, ...]:
        """ "Between 2 dc"; "between the 3 dc" of the row below: between groups of three."""
        return (Place("next", Noun("group", n, c.name) if 2 < n <= MOST and height_of(c.name) == c.name else c),)

    def beg_and(self, n: int, q: Place) -> tuple[Place, ...] | None:
        """ "Between ch 3 and next dc": the chain that the round below begins with."""
        ahead = q.which in ("next", "first") and q.count == 1 and height_of(q.noun.name) is not None
        return (Place("beg", ANY), q) if ahead and 1 < n <= MOST else None

    def gap_at_end(self, q: str, c: Noun, n: int = 2) -> Place | None:
        """ "In first sp between dc": of the gaps between single stitches."""
        plain = n in (1, 2) and (c.name == "st" or height_of(c.name) is not None)
        return Place("last" if q == "last" else "first", Noun("gap")) if plain else None

    def one_place(self, p: Place) -> tuple[Place, ...]:
        return (p,)

    def nouns_pair(self, c: Noun, c2: Noun, n: int = 1) -> tuple[Noun, Noun]:
        return (c, c2)

    def nouns(self, c: Noun, m: tuple[Noun, ...] = ()) -> tuple[Noun, ...]:
        return (c, *m)

    def skipped_ones(self, c: Noun, q: str = "", n: int = 0, o: Place | None = None) -> Place | None:
        if c.name in ("sp", "lp", "ch") and not q and not n and c.name != "ch":
            return None
        if q in ("each", "every", "ea"):
            return Place("unworked", c, n)
        if q in ("first", "1st") and not n:
            return Place("skipped", c, nth=1)
        if q or n:
            return Place("unworked", c, n or 1)
        return Place("skipped", c) if c.name == "st" else Place("unworked", c, 0)

    def skipped_n(self, n: int, c: Noun) -> Place:
        return Place("unworked", c, n)

    def nth_skipped(self, n: int, c: Noun) -> Place:
        return Place("skipped", c, nth=n)

    def last_skipped(self, c: Noun) -> Place:
        return Place("skipped", c)

    def skipped_bare(self) -> Place:
        return Place("skipped")

    def skipped_after(self, c: Noun) -> Place:
        return Place("skipped", c)

    def all_corresponding(self) -> Place:
        return Place("unworked", ANY, 0)

    def next_under(self, c: Noun, c2: Noun) -> Place:
        return Place("next", c2)

    def skipped_under(self, c: Noun, c2: Noun) -> Place:
        return Place("skipped", c2)

    def corresponding(self, c: Noun, n: int = 1) -> Place:
        return Place("next", c, count=n)

    def bare(self, c: Noun) -> Place | None:
        if c.name == "ring":
            return None
        return Place("next", c, bare=True)

    def counted_bare(self, n: int, c: Noun) -> Place | None:
        return Place("next", c, count=n) if 0 < n <= MOST and c.name != "ring" else None

    def counted_alone(self, n: int, c: Noun) -> Place | None:
        """ "In the 4 ch", neither "each" nor "next": four chains, or the loop that they make."""
        place = self.counted_bare(n, c)
        return replace(place, bare=True) if place is not None and c == Noun("ch") else place

    def each_run(self, n: int) -> Place | None:
        """ "In each 9 ch", not "each of 9 ch": each loop of so many, or that many chains."""
        return Place("each", Noun("ch"), count=n, bare=True) if 1 < n <= MOST else None

    def bare_of(self, c: Noun, of: Place) -> Place | None:
        if of.which == "opening":
            return Place("top", of=Place("beg"))
        return Place("nth", c, nth=0 if c.name == "st" else 1, of=of, bare=True)

    def both_ends(self) -> Place:
        return Place("ends")

    def row_ends(self, q: str = "", n: int = 0) -> Place:
        if n:
            return Place("edge", ANY, count=n)
        return Place("edge", Noun("row" if q in ("each", "every", "ea") else "st"))

    def each_row_end(self) -> Place:
        return Place("edge", Noun("row"))

    def marked(self, c: Noun | None = None) -> Place:
        return Place("marked")

    def counted_stitch(self, n: int, k: str) -> Place | None:
        """ "Skip next ch-2 sp, 1 dc and ...": a stitch listed among what is skipped."""
        return self.counted_bare(n, Noun(k))

    def over_chains(self, c: Noun, n: int = 1) -> Place | None:
        return Place("next", c, count=n) if c.name in ("sp", "lp") else None

    def row_whole(self, n: int, w: str = "") -> Place:
        return Place("row", row=RowRef(number=n))

    def beg_any(self) -> Place:
        return Place("beg")

    def beg_loop(self) -> Place:
        """ "turning ch loop": the space that the beginning chain leaves."""
        return Place("nth", Noun("sp"), nth=1, of=Place("beg"))

    def beg_sized(self, n: int = 0) -> Place:
        return Place("beg", Noun("ch", n)) if n else Place("beg")

    def beg_sized_s(self, s: int) -> Place:
        return Place("beg", Noun("ch", s))

    def beg_space(self, s: tuple[str, int]) -> Place:
        return Place("beg", Noun("ch", s[1]))

    def beg_stitch(self, k: str) -> Place | None:
        return Place("first", Noun(k))

    def beg_group(self, g: str) -> Place:
        return Place("beg", Noun(g))

    def beg_own(self, x: str) -> Place:
        return Place("beg", Noun(x))

    def place_list(self, p: Place, m: tuple[Place, ...] = ()) -> tuple[Place, ...] | None:
        """Places one after another; "into a ring, and into it" is no two of them. "In ch-2 sp and in next": the next one
        of the same."""
        if p.noun != _ALIKE:
            m = tuple(replace(q, noun=p.noun) if q.noun == _ALIKE else q for q in m)
        if m and p.which in ("next", "first") and not p.nth and m[0] == Place("next", m[0].noun, nth=p.count + 1):
            m = (replace(m[0], nth=0), *m[1:])  # "over 3 sts and into 4th st": counted on from the same
        return (p, *m) if p.which != "ring" or all(q.which != "ring" for q in m) else None

    def hook_in_all(self, p: Place, n: int) -> tuple[Place, ...] | None:
        """ "In 2nd ch from hook and in all 24": so many with the first of them."""
        return (p, Place("next", Noun("ch"), count=n - 1)) if 1 < n <= MOST else None

    def one_place_list(self, o: Place) -> tuple[Place, ...]:
        return (o,)


#: "and in next": whatever the place before names.
_ALIKE = Noun("")


#: What is one place and no group, by its noun.
#: Groups that stand beside each other.
_GROUP_NAMES = frozenset(("shell", "V-st", "group", "block"))
_SINGLE = frozenset(("st", "ch", "sp", "lp", "gap", "mesh", "picot", "ring", "corner", "cluster", "bobble", "popcorn", "puff", "hole", "marker", ""))


def _is_own_group(name: str) -> bool:
    """Whether a noun may be a group of the pattern's own, by its name: no stitch and no space."""
    return name not in _SINGLE and height_of(name) is None and name.isalpha() and name.islower()


def _gathers(noun: Noun) -> bool:
    """Whether a noun is one of many stitches."""
    return not noun.size and (noun.name in (*_GROUP_NAMES, "cluster") or _is_own_group(noun.name))


def _told_as(noun: Noun) -> str:
    """What a gap lies between: clusters may be stitches or a row's groups."""
    return "cluster" if noun.name == "cluster" else "group"


def _next_gap(beside: Place) -> Place:
    """The gap beside a stitch; "between groups" is the next one where groups meet, wherever the hook stands in its own."""
    name = beside.noun.name
    if beside.which == "next" and name == "corner" and not beside.noun.size:
        return Place("next", Noun("gap"))  # the first corner may be told stitch by stitch, and is no group then
    if beside.which == "next" and not beside.noun.size and (name in ("group", "shell", "block", "V-st") or _is_own_group(name)):
        return Place("next", Noun("gap", of="group"))
    if beside.which == "next" and name == "group" and beside.count in (0, 1, 2) and height_of(beside.noun.of):
        return Place("next", Noun("gap", beside.noun.size, beside.noun.of))
    if beside.which in ("next", "first") and beside.count in (1, 2) and beside.noun == Noun("cluster") and beside.nth < 2 and beside.row is None:
        return Place(beside.which, Noun("gap", of="cluster"))
    return Place("between", Noun("gap"), of=beside)
