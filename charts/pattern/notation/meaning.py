"""What the productions of the grammar mean: each a small function from the parts kept to a part of the tree.

A function that returns None refuses the reading. Places, nouns and limits are parts; a clause is a tuple of ops.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from .. import lexicon
from ..tree import (
    Act,
    Again,
    Chain,
    Corner,
    Either,
    Into,
    Make,
    Noun,
    Op,
    Place,
    RowRef,
    Skip,
    Special,
    Star,
    Times,
)

ANY = Noun("st")
#: What stands for no place at all behind a loop: "12 sc in back loops only".
_HELD = Noun("held")
Ops = tuple[Op, ...]
#: ("end",), ("last", count, noun), ("upto", noun)
Limit = tuple[Any, ...]
MOST = 100_000


@dataclass(frozen=True, slots=True)
class Counted:
    """A stated count among the clauses: (number, noun) pairs."""

    parts: tuple[tuple[int, Noun], ...]


@dataclass(frozen=True, slots=True)
class Ending:
    """Where an ending begins: "with" what follows ends the row, "last" what follows ends the last repetition, "at" the
    last repetition ends at its mark, "nothing" it says only where the row ends."""

    how: str


@dataclass(frozen=True, slots=True)
class BareRepeat:
    """ "Repeat to end" with no mark that says from where."""

    more: int | None = None
    limit: Limit = ("end",)
    from_start: bool = False
    said_more: bool = False


@dataclass(frozen=True, slots=True)
class Leave:
    """So many of a noun are not worked: at the end, or at the beginning of what was said before."""

    count: int
    noun: Noun
    first: bool = False


@dataclass(frozen=True, slots=True)
class MorePlaces:
    """Further places for the stitch just told, `count` in each where that is said."""

    places: tuple[Place, ...]
    count: int = 0


@dataclass(frozen=True, slots=True)
class CountsAs:
    """What a chain is said to count as: None nothing."""

    parts: tuple[str, ...]
    throughout: str = ""


@dataclass(slots=True)
class Meanings:
    """The functions, for one row: the terms, the pattern's own stitches, and what increases are made of."""

    terms: str
    specials: Mapping[str, Special]
    base: str = "sc"
    learned: dict[str, Special] = field(default_factory=dict)

    def table(self, names: set[str]) -> dict[str, Any]:
        """The functions by name."""
        return {name: getattr(self, name) for name in names}

    # -- parts handed on ------------------------------------------------------------------------------------------

    def same_n(self, n: int) -> int | None:
        return n if 0 <= n <= 10**9 else None

    def two(self) -> int:
        return 2

    def one(self) -> int:
        return 1

    def same_c(self, c: Any) -> Any:
        return c

    def same_p(self, p: Any) -> Any:
        return p

    def same_l(self, l: Any) -> Any:  # noqa: E741
        return l

    def same_t(self, t: Any) -> Any:
        return t

    def same_o(self, o: int) -> int:
        return o

    def same_k(self, k: str) -> str:
        return k

    def same_h(self, h: str) -> str:
        return h

    def nothing(self, **_: Any) -> str:
        return "-"

    # -- loops, rows ----------------------------------------------------------------------------------------------

    def both_loops(self) -> str:
        return "top"

    def back_loop(self) -> str:
        return "back loop"

    def front_loop(self) -> str:
        return "front loop"

    def third_loop(self) -> str:
        return "third loop"

    def front_post(self) -> str:
        return "front post"

    def back_post(self) -> str:
        return "back post"

    def front_post_or_own(self) -> str:
        return "own post"

    def same_row(self, r: Any = "below") -> Any:
        return r

    def row_below(self) -> str:
        return "below"

    def row_number(self, n: int, w: str = "") -> RowRef:
        return RowRef(number=n)

    def rows_below(self, n: int) -> RowRef | None:
        return RowRef(below=n) if n >= 1 else None

    def somewhere_below(self) -> RowRef:
        """ "Below" alone: it does not say how far; the row reader says so."""
        return RowRef(below=-1)

    def number_behind(self, n: int, m: int) -> RowRef:
        """ "2 rows below next 3 sts": the number belongs before the row; the row reader says so."""
        return RowRef(below=-2)

    def skipped_where(self, c: Noun, q: str = "", n: int = 1) -> Place:
        """ "2 sc skipped in Row 2": in which row they lie is not said; the row reader says so."""
        return Place("next", c, count=n, row=RowRef(below=-3))

    def two_below(self) -> RowRef:
        return RowRef(below=2)

    # -- nouns ----------------------------------------------------------------------------------------------------

    def of_stitch(self, k: str) -> Noun:
        return Noun(k)

    def any_stitch(self) -> Noun:
        return ANY

    def one_chain(self) -> Noun:
        return Noun("ch")

    def space(self) -> Noun:
        return Noun("sp")

    def loop(self) -> Noun:
        return Noun("lp")

    def hole(self) -> Noun:
        return Noun("hole")

    def sized_space(self, s: tuple[str, int]) -> Noun:
        return Noun(s[0], s[1])

    def sized_run(self, s: int) -> Noun:
        return Noun("sp", s)

    def sized_run_n(self, n: int) -> Noun:
        return Noun("sp", n)

    def picot(self, s: int = 0) -> Noun:
        return Noun("picot")

    def group(self, g: str) -> Noun:
        return Noun(g)

    def sized_group(self, g: tuple[int, str], k: str) -> Noun | None:
        return Noun(k if k in ("shell", "V-st", "block", "cluster") else "group", g[0], g[1])

    def sized_group_bare(self, g: tuple[int, str]) -> Noun | None:
        return Noun("group", g[0], g[1]) if g[1] != "row" else None

    def sized_corner(self, g: tuple[int, str]) -> Noun:
        return Noun("corner", g[0], g[1])

    def counted_group(self, n: int, k: str) -> Noun:
        return Noun("group", n, k)

    def mesh(self) -> Noun:
        return Noun("mesh")

    def own_noun(self, x: str) -> Noun | None:
        special = self.specials.get(x)
        return Noun(special.abbreviation if special else x)

    def ring_noun(self) -> Noun:
        return Noun("ring")

    def corner(self) -> Noun:
        return Noun("corner")

    def corner_space(self, s: tuple[str, int]) -> Noun:
        return Noun("corner sp", s[1])

    def corner_run(self, s: int) -> Noun:
        return Noun("corner sp", s)

    def corner_any_space(self) -> Noun:
        return Noun("corner sp")

    def corner_stitch(self, k: str) -> Noun:
        return Noun("corner st", 0, k)

    def corner_any_stitch(self) -> Noun:
        return Noun("corner st", 0, "st")

    def gap(self) -> Noun:
        return Noun("gap")

    # -- places ---------------------------------------------------------------------------------------------------

    def placed(self, p: Place, r: Any = None, l: Limit | None = None, h: str = "") -> Place | None:  # noqa: E741
        if isinstance(r, RowRef):
            if p.which in ("hook", "beg", "ring"):
                return None
            p = replace(p, row=r)
        if h and h != "top":
            p = replace(p, hold=h)
        return self.reaching(p, l) if l else p

    def placed_l(self, p: Place, l: Limit | None = None) -> Place:  # noqa: E741
        return self.reaching(p, l) if l else p

    def reaching(self, p: Place, l: Limit) -> Place:  # noqa: E741
        """A place with how far it goes."""
        bare = p.which == "next" and p.count == 1 and p.nth == 0
        if l[0] == "end":
            return replace(p, which="each") if bare else p
        if p.which not in ("next", "each", "skipped", "unworked"):
            return p
        if l[0] == "last":
            return replace(p, which="each", until=(l[1], l[2] if len(l) > 2 and l[2] else p.noun))
        return replace(p, which="each", upto=l[1])

    def next_held(self, h: str) -> Place:
        return Place("next", hold=_loop(h))

    def all_held(self, h: str, l: Limit) -> Place:  # noqa: E741
        return self.reaching(Place("each", hold=_loop(h)), l)

    def next_ones(self, c: Noun, n: int = 1) -> Place | None:
        return Place("next", c, count=n) if 0 < n <= MOST else None

    def next_bare(self, n: int = 1) -> Place | None:
        return Place("next", count=n) if 0 < n <= MOST else None

    def nth_next(self, n: int, c: Noun) -> Place:
        return Place("next", c, nth=n)

    def first_ones(self, c: Noun, n: int = 1, o: Place | None = None) -> Place | None:
        if not 0 < n <= MOST:
            return None
        return Place("nth", c, n, 1, o) if o else Place("first", c, count=n)

    def first_bare(self, n: int = 1) -> Place:
        return Place("first", count=n)

    def last_ones(self, c: Noun, n: int = 1, o: Place | None = None) -> Place | None:
        if not 0 < n <= MOST:
            return None
        return Place("nth", c, n, -1, o) if o else Place("last", c, count=n)

    def last_bare(self, n: int = 1) -> Place:
        return Place("last", count=n)

    def just_made(self, c: Noun) -> Place:
        return Place("made")

    def each_of(self, c: Noun, also: tuple[Noun, ...] = ()) -> Place:
        return Place("each", c, also=also)

    def each_bare(self) -> Place:
        return Place("each")

    def each_gap(self, c: Noun, pp: Any = None) -> Place | None:
        return Place("each", Noun("gap")) if c.name in ("sp", "st", "lp", "gap") else None

    def each_noun(self, g: Noun) -> Place:
        return Place("each", g)

    def nth_of_each(self, c: Noun, p: Place) -> Place:
        return Place("nth", c, nth=0 if c.name == "st" else 1, of=p)

    def from_hook_several(self, o: int, o2: int) -> Place | None:
        return Place("hook", Noun("ch"), nth=o, count=o2 - o + 1) if o2 > o > 0 else None

    def next_of(self, c: Noun, o: Place) -> Place:
        return Place("top", of=o) if o.which == "beg" else Place("nth", c, nth=1, of=o)

    def unworked_in_row(self, c: Noun, r: Any, q: str = "", n: int = 0) -> Place | None:
        """ "8 unworked sc of Row 3": places that rows since have left."""
        if not isinstance(r, RowRef):
            return None
        return Place("unworked", c, n or (0 if q in ("each", "every", "ea") or not q else 1), row=r)

    def every_other(self, c: Noun) -> Place:
        return Place("each", c, step=2)

    def every_nth(self, o: int, c: Noun) -> Place:
        return Place("each", c, step=max(o, 1))

    def remaining(self, c: Noun, n: int = 0) -> Place | None:
        return Place("next", c, count=n) if n else Place("each", c)

    def same_place(self, c: Noun, **_: Any) -> Place:
        return Place("same", c)

    def same_bare(self, **_: Any) -> Place:
        return Place("same")

    def same_join(self, **_: Any) -> Place:
        return Place("same")

    def base_of(self, p: Place) -> Place:
        return Place("same")

    def anywhere(self, c: Noun) -> Place:
        return Place("any", c)

    def into_ring(self) -> Place:
        return Place("ring", Noun("ring"))

    def from_hook(self, o: int = 1) -> Place | None:
        return Place("hook", Noun("ch"), nth=o) if o > 0 else None

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
        return Place("nth", Noun("ch"), nth=o, of=of)

    def opening_chain(self) -> Place:
        return Place("opening")

    def middle_of(self, c: Noun, of: Place | None = None, n: int = 1) -> Place:
        if c.name == "ring":
            return Place("ring", Noun("ring"))
        if c.name in ("sp", "lp") and of is None:
            return Place("next", c)
        return Place("nth", c, nth=0, of=of, count=n) if of else Place("next", c, nth=0)

    def middle_any(self, of: Place) -> Place:
        return Place("nth", ANY, nth=0, of=of)

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
        return Place("between", Noun("gap"), of=Place("next", c))

    def gap_kind(self, pp: tuple[Any, ...], q: str = "") -> Place | None:
        if q in ("each", "every", "ea"):
            return Place("each", Noun("gap"))
        if q in ("same", "this"):
            return Place("same")
        if len(pp) == 2:
            return Place("after", Noun("gap"), of=pp[0])
        return Place("between", Noun("gap"), of=pp[0])

    def gap_beside(self, p: Place, w: str, q: str = "") -> Place:
        return Place("after" if w in ("after", "past") else "before", Noun("gap"), of=p)

    def gaps_of_groups(self, q: str = "", n: int = 1) -> Place:
        """ "each sp between 3-dc groups": the gaps where no chain lies, else the spaces."""
        which = (
            "each"
            if q in ("each", "every", "ea") and n == 1
            else "first"
            if q in ("first", "1st")
            else "last"
            if q == "last"
            else "next"
        )
        return Place(which, Noun("gap"), count=n)

    def two_places(self, p: Place, q: Place) -> tuple[Place, ...]:
        return (p, q)

    def two_alike(self, c: Noun, n: int = 2) -> tuple[Place, ...]:
        return (Place("next", c),)

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
        return Place("next", c)

    def counted_bare(self, n: int, c: Noun) -> Place | None:
        return Place("next", c, count=n) if 0 < n <= MOST and c.name != "ring" else None

    def bare_of(self, c: Noun, of: Place) -> Place | None:
        if of.which == "opening":
            return Place("top", of=Place("beg"))
        return Place("nth", c, nth=0 if c.name == "st" else 1, of=of)

    def both_ends(self) -> Place:
        return Place("ends")

    def row_ends(self, q: str = "", n: int = 0) -> Place:
        if n:
            return Place("edge", ANY, count=n)
        return Place("edge", Noun("row" if q in ("each", "every", "ea") else "st"))

    def marked(self, c: Noun | None = None) -> Place:
        return Place("marked")

    def over_chains(self, c: Noun, n: int = 1) -> Place | None:
        return Place("next", c, count=n) if c.name in ("sp", "lp") else None

    def row_whole(self, n: int, w: str = "") -> Place:
        return Place("row", row=RowRef(number=n))

    def beg_any(self) -> Place:
        return Place("beg")

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

    def place_list(self, p: Place, m: tuple[Place, ...] = ()) -> tuple[Place, ...]:
        return (p, *m)

    def one_place_list(self, o: Place) -> tuple[Place, ...]:
        return (o,)

    # -- limits ---------------------------------------------------------------------------------------------------

    def to_end(self) -> Limit:
        return ("end",)

    def around_end(self) -> Limit:
        return ("end", "around")

    def to_last(self, n: int = 1, c: Noun | None = None) -> Limit | None:
        return ("last", n, c) if n > 0 else None

    def all_but(self, n: int = 1, c: Noun | None = None) -> Limit | None:
        return ("last", n, c, "but") if n > 0 else None

    def up_to(self, c: Noun) -> Limit:
        return ("upto", c)

    def corner_stop(self) -> Noun:
        return Noun("corner")

    def to_marker(self) -> Limit:
        return ("upto", Noun("marker"))

    def to_beg(self, b: Place) -> Limit:
        return ("last", 1, ANY)

    # -- spots ----------------------------------------------------------------------------------------------------

    def into(self, ps: tuple[Place, ...], w: str = "", h: str = "") -> tuple[Place, ...]:
        return tuple(replace(p, hold=_loop(h)) for p in ps) if h else ps

    def held_into(self, h: str, ps: tuple[Place, ...], w: str = "") -> tuple[Place, ...]:
        return tuple(replace(p, hold=_loop(h)) for p in ps)

    def into_bare(self, ps: tuple[Place, ...]) -> tuple[Place, ...]:
        return ps

    def into_all(self, ps: tuple[Place, ...]) -> tuple[Place, ...]:
        return tuple(replace(p, which="each") if p.which == "next" and p.count == 1 else p for p in ps)

    def all_along(self, l: Limit, h: str = "") -> tuple[Place, ...]:  # noqa: E741
        return (self.reaching(Place("each", hold=_loop(h)), l),)

    def next_held_list(self, h: str) -> tuple[Place, ...]:
        return (Place("next", _HELD, hold=_loop(h)),)

    def round_post(self, a: str, ps: tuple[Place, ...]) -> tuple[Place, ...]:
        return tuple(replace(p, hold="front post" if a == "own post" else a) for p in ps)

    def all_but_last(self, n: int = 1, c: Noun | None = None) -> tuple[Place, ...]:
        return (Place("each", c or ANY, until=(n, c or ANY)),)

    def all_but_first(self, n: int = 1, c: Noun | None = None) -> tuple[Place, ...]:
        return (Place("each", c or ANY, after=n),)

    def over_into(self, c: Noun, ps: tuple[Place, ...]) -> tuple[Place, ...] | None:
        return ps if c.name in ("sp", "lp", "ch") else None

    def each_evenly(self, l: Limit = ("end",)) -> tuple[Place, ...]:  # noqa: E741
        return (self.reaching(Place("each"), l),)

    def along_edge(self, e: str, n: int = 0) -> tuple[Place, ...]:
        return (Place("edge", ANY, count=n or 1),) if n else (Place("edge", ANY),)

    def along_each_edge(self, e: str) -> tuple[Place, ...]:
        return (Place("edge", Noun("row")),)

    def into_evenly(self, ps: tuple[Place, ...]) -> tuple[Place, ...]:
        return ps

    def into_tog(self, ps: tuple[Place, ...]) -> tuple[Place, ...]:
        return ps

    def down_a_post(self, p: Place) -> tuple[Place, ...]:
        return (Place("along post", of=p),)

    def stretch(self, p: Place, q: Place) -> tuple[Place, ...] | None:
        return None

    def counted_list(self, n: int, c: Noun) -> tuple[Place, ...] | None:
        return (Place("next", c, count=n),) if 0 < n <= MOST and c.name != "ring" else None

    # -- stitches -------------------------------------------------------------------------------------------------

    def plain_stitch(self, k: str, k2: str = "") -> tuple[str, str]:
        return (k, "")

    def held_stitch(self, h: tuple[str, str]) -> tuple[str, str]:
        return h

    def own_stitch(self, x: str) -> tuple[str, str]:
        return (x, "")

    def loop_stitch(self, h: str, k: str) -> tuple[str, str]:
        return (k, h)

    def fp_stitch(self, k: str) -> tuple[str, str] | None:
        return ("FP" + k, "") if lexicon.height_of(k) == k.removesuffix("2tog") or lexicon.height_of(k) else None

    def bp_stitch(self, k: str) -> tuple[str, str] | None:
        return ("BP" + k, "") if lexicon.height_of(k) else None

    def fnd_stitch(self, k: str) -> tuple[str, str] | None:
        return ("f" + k, "") if k in lexicon.US_HEIGHTS else None

    def tog_stitch(self, k: str, n: int) -> tuple[str, str] | None:
        return (f"{k}{n}tog", "") if 1 < n < 100 and lexicon.together(k) == 1 else None

    def spike_stitch(self, k: str) -> tuple[str, str] | None:
        return None

    def gathered(self, g: str) -> tuple[str, str]:
        return ("cl" if g == "cluster" else g, "")

    def group_stitch(self, g: str) -> tuple[str, str] | None:
        return (g, "") if g in ("shell", "V-st") else None

    def sized_shell(self, g: tuple[int, str], k: str) -> tuple[str, str] | None:
        if k not in ("shell", "block", "V-st", "group") or g[1] in ("row", "st"):
            return None
        name = f"{g[0]}-{g[1]} {k}"
        self._learn(Special(name, name, name, (Make(g[1], g[0]),), in_place=True, form="group"))
        return (name, "")

    def sized_gathered(self, g: tuple[int, str], k: str) -> tuple[str, str]:
        return self._legs(g[0], g[1], k)

    def counted_gathered(self, n: int, k: str, g: str) -> tuple[str, str]:
        return self._legs(n, k, g)

    def _legs(self, count: int, base: str, kind: str) -> tuple[str, str]:
        made = "cl" if kind == "cluster" else kind
        name = f"{count}-{base} {kind}"
        self._learn(
            Special(name, name, name, (), made, base if base != "st" else "dc", max(count, 1), 0, "gathered", True)
        )
        return (name, "")

    def _learn(self, special: Special) -> None:
        self.learned.setdefault(special.abbreviation, special)

    def picot_stitch(self) -> tuple[str, str]:
        return ("picot", "")

    def sized_picot(self, s: int) -> tuple[str, str]:
        return (f"picot {s}", "")

    def counted_picot(self, n: int) -> tuple[str, str]:
        return (f"picot {n}", "")

    def some_stitch(self) -> tuple[str, str]:
        return (self.base, "")

    # -- making ---------------------------------------------------------------------------------------------------

    def make(self, s: tuple[str, str], sp: tuple[Place, ...] = (), n: int = 1) -> Ops | None:
        if not 0 < n <= MOST:
            return None
        name, hold = s
        places = sp
        if sp and sp[0].noun is _HELD:
            sp = places = (Place("next", count=n, hold=sp[0].hold),)
            n = 1
        if hold:
            places = tuple(replace(p, hold=hold) for p in sp) or (Place("next", count=n, hold=hold),)
            n = n if sp else 1
        if name.startswith("picot "):
            return (Make("picot", n, (Place("made", nth=int(name[6:])),)),)
        if name[:2] in ("FP", "BP"):
            places = tuple(replace(p, hold="") if p.hold.endswith("post") else p for p in places)
        special = self.specials.get(name) or self.learned.get(name)
        if special and special.ops:
            return (self._special(special, n, places),)
        return (Make(name, n, places),)

    def make_over(self, s: tuple[str, str], sp: tuple[Place, ...], n: int = 1, c: Noun = ANY) -> Ops | None:
        """ "sc2tog over next 3 sts, skipping the middle one"."""
        return self.make(s, sp, n) if lexicon.together(s[0]) > 1 else None

    def make_bare(self, s: tuple[str, str], n: int = 1) -> Ops | None:
        return self.make(s, (), n)

    def make_after(self, s: tuple[str, str], n: int, sp: tuple[Place, ...] = ()) -> Ops | None:
        """ "sc 5", "sc 2 in next st": so many of the stitch."""
        if sp or s[0].startswith("picot"):
            return self.make(s, sp, n)
        return self.make(s, (Place("next", count=n),), 1) if 0 < n <= MOST else None

    def make_times_next(self, s: tuple[str, str], n: int) -> Ops | None:
        return self.make(s, (Place("next", count=n),), 1) if 0 < n <= MOST else None

    def make_n_next(self, n: int, s: tuple[str, str]) -> Ops | None:
        return self.make(s, (Place("next", count=n),), 1) if 0 < n <= MOST else None

    def make_in_ring(self, s: tuple[str, str], n: int) -> Ops | None:
        """ "Magic ring with 6 sc": the ring, and what is worked into it."""
        made = self.make(s, (Place("ring", Noun("ring")),), n) if 0 < n <= MOST else None
        return (Act("magic ring"), *made) if made else None

    def make_n_into_m(self, s: tuple[str, str], n: int, m: int) -> Ops | None:
        """ "3 x 2 sc": two into each of three stitches."""
        return self.make(s, (Place("next", count=n),), m) if 0 < n <= MOST and 0 < m <= MOST else None

    def make_times(
        self, s: tuple[str, str], times: tuple[int, bool], n: int = 1, sp: tuple[Place, ...] = ()
    ) -> Ops | None:
        made = self.make(s, sp, n)
        return (Times(made, times[0] + times[1]),) if made else None

    def stitch_of_group(self, s: tuple[str, str], b: Any, sp: tuple[Place, ...] = ()) -> Ops | None:
        """ "shell of (3 dc, ch 1, 3 dc) in next st": the stitch explained where it stands."""
        if not b.ops or (s[0] in lexicon.US_HEIGHTS and not sp):
            return None
        if s[0] in lexicon.US_HEIGHTS:
            return None
        name = s[0]
        return (Into(b.ops, sp, name=name),) if sp else (Times(b.ops, 1, name=name),)

    def start_from(self, p: Place, s: tuple[str, str], sp: tuple[Place, ...]) -> Ops | None:
        """ "Starting in 2nd ch from hook, sc in each ch": the first place, then the others."""
        if p.which != "hook":
            return None
        first = sp[0]
        if first.which == "next" and first.count > 1:
            first = replace(first, count=first.count - 1)
        elif first.which == "next" and first.count == 1 and len(sp) == 1:
            return self.make(s, (p,))
        return self.make(s, (p, first, *sp[1:]))

    def start_from_n(self, p: Place, s: tuple[str, str], n: int) -> Ops | None:
        return self.start_from(p, s, (Place("next", Noun("ch"), count=n),)) if 0 < n <= MOST else None

    def make_opposite(self, s: tuple[str, str], sp: tuple[Place, ...], n: int = 1) -> Ops | None:
        made = self.make(s, sp, n)
        return (Act("opposite"), *made) if made else None

    def make_togn(self, t: tuple[int, str], sp: tuple[Place, ...] = ()) -> Ops:
        n, name = t
        return (Make(name, 1, sp),) if n == 1 else (Times((Make(name, 1, sp),), n),)

    def make_tog(self, k: str, sp: tuple[Place, ...]) -> Ops | None:
        """ "sc next 2 sts together": as many as there are places."""
        count = sum(p.count for p in sp if p.which in ("next", "last", "first"))
        if not 1 < count < 100 or lexicon.together(k) > 1:
            return None
        return (Make(f"{k}{count}tog", 1, sp),)

    def make_tog_sc(self, sp: Place) -> Ops | None:
        return (Make(f"{self.base}{sp.count}tog", 1, (sp,)),) if 1 < sp.count < 100 else None

    def tog_next(self, n: int, c: Noun) -> Place:
        return Place("next", c, count=n)

    def make_n_tog(self, n: int, k: str, sp: tuple[Place, ...] = ()) -> Ops | None:
        return (Make(f"{k}{n}tog", 1, sp),) if 1 < n < 100 and lexicon.together(k) == 1 else None

    def make_instead(
        self, s: tuple[str, str], sp: tuple[Place, ...], s2: tuple[str, str], n: int = 1, n2: int = 1
    ) -> Ops | None:
        return None

    def make_each(self, s: tuple[str, str], sp: tuple[Place, ...], n: int = 1) -> Ops | None:
        made = self.make(s, sp, n)
        each = made and isinstance(made[0], Make | Into) and all(p.which == "each" and p.hold != "ring" for p in sp)
        return made if each else None

    def group_each(self, b: Any, ps: tuple[Place, ...]) -> Ops | None:
        return (Into(b.ops, ps),) if b.ops and all(p.which == "each" for p in ps) else None

    def beside(self, a: Ops, b: Ops) -> Ops | None:
        """ "sc in each sc and 2 sc in each ch-2 sp": one stretch, each place with what goes into it."""
        first, other = a[0], b[0]
        if not isinstance(first, Make | Into) or not isinstance(other, Make | Into):
            return None
        lead, end = first.places[0], other.places[-1]
        if lead.until or lead.upto or {p.noun for p in first.places} & {p.noun for p in other.places}:
            return None
        if not isinstance(first, Make) or not isinstance(other, Make):
            return None
        lead = replace(lead, until=end.until, upto=end.upto)
        return (replace(first, places=(lead, *first.places[1:]), beside=(*first.beside, other, *other.beside)),)

    def alternately(self, s: tuple[str, str], s2: tuple[str, str], sp: tuple[Place, ...] = ()) -> Ops | None:
        first, other = self.make(s, (Place("next"),)), self.make(s2, (Place("next"),))
        return (Star((*first, *other)),) if first and other else None

    def either_stitch(self, s: tuple[str, str], s2: tuple[str, str], sp: tuple[Place, ...]) -> Ops | None:
        return self.make(s, sp)

    def either_make(
        self,
        s: tuple[str, str],
        sp: tuple[Place, ...],
        s2: tuple[str, str],
        sp2: tuple[Place, ...],
        n: int = 1,
        n2: int = 1,
    ) -> Ops | None:
        first, other = self.make(s, sp, n), self.make(s2, sp2, n2)
        return (Either((*first, *other)),) if first and other else None

    def _special(self, special: Special, count: int, places: tuple[Place, ...]) -> Op:
        """A special stitch told in notation, at its places."""
        deep = _further_down(special)
        if deep and places:
            return replace(deep, count=count, places=tuple(_placed_down(deep.places[0], p) for p in places))
        if special.in_place:
            if count > 1 and not places:
                return Into(special.ops, (Place("next", count=count),), name=special.abbreviation)
            body: Op = Into(special.ops, places, name=special.abbreviation)
            if not places:
                body = Times(special.ops, 1, name=special.abbreviation)
        else:
            body = Times(special.ops, 1, name=special.abbreviation)
            if len(places) == 1 and places[0].which == "each" and not places[0].until:
                return Times((body,), 0)
            if (
                len(places) == 1
                and places[0].which == "next"
                and places[0].count > 1
                and places[0].noun.name == special.abbreviation
            ):
                return Times((body,), places[0].count)
        return body if count == 1 else Times((body,), count)

    # -- increases and decreases ----------------------------------------------------------------------------------

    def increase(self, sp: tuple[Place, ...] = (), i: str = "") -> Ops:
        return (Make(self.base, 2, sp or (Place("next"),)),)

    def increase_n(self, n: int, sp: tuple[Place, ...] = ()) -> Ops | None:
        if not 0 < n <= MOST:
            return None
        return (Make(self.base, 2, sp or (Place("next", count=n),)),)

    def increase_times(self, times: tuple[int, bool]) -> Ops:
        return (Make(self.base, 2, (Place("next", count=times[0] + times[1]),)),)

    def stitch_increase(self, k: str, sp: tuple[Place, ...] = (), n: int = 1) -> Ops | None:
        return (Make(k, 2, sp or (Place("next", count=n),)),) if 0 < n <= MOST else None

    def increase_core(self, n: int, c: Noun, sp: tuple[Place, ...] = ()) -> Ops | None:
        if n > 10 or c.name not in (*lexicon.US_HEIGHTS, "st"):
            return None
        return (Make(self.base, n + 1, sp or (Place("next"),)),)

    def decrease(self, sp: tuple[Place, ...] = (), d: str = "") -> Ops:
        return (Make(f"{self.base}2tog", 1, sp),)

    def decrease_n(self, n: int, sp: tuple[Place, ...] = ()) -> Ops | None:
        if not 0 < n <= MOST:
            return None
        one = Make(f"{self.base}2tog", 1, sp)
        return (one,) if n == 1 else (Times((one,), n),)

    def decrease_times(self, times: tuple[int, bool]) -> Ops | None:
        return self.decrease_n(times[0] + times[1])

    def stitch_decrease(self, k: str, sp: tuple[Place, ...] = ()) -> Ops | None:
        return (Make(f"{k}2tog", 1, sp),) if k in lexicon.US_HEIGHTS else None

    def stitch_decrease_n(self, n: int, k: str, sp: tuple[Place, ...] = ()) -> Ops | None:
        if k not in lexicon.US_HEIGHTS or not 0 < n <= MOST:
            return None
        one = Make(f"{k}2tog", 1, sp)
        return (one,) if n == 1 else (Times((one,), n),)

    def decrease_core(self, n: int, c: Noun, sp: tuple[Place, ...] = ()) -> Ops | None:
        if n > 10 or c.name not in (*lexicon.US_HEIGHTS, "st"):
            return None
        return (Make(f"{self.base}{n + 1}tog", 1, sp),)

    # -- chains, skips --------------------------------------------------------------------------------------------

    def chain(self, n: int) -> Ops | None:
        return (Chain(n),) if 0 < n <= MOST else None

    def chain_as(self, n: int, k: str, m: int = 1) -> Ops | None:
        """ "3 ch as the first dc": the chain counts as that stitch."""
        return (Chain(n, (k,)),) if 0 < n <= MOST and m == 1 else None

    def chain_s(self, s: int) -> Ops | None:
        return (Chain(s),) if 0 < s <= MOST else None

    def chain_one(self) -> Ops:
        return (Chain(1),)

    def picot_of(self, n: int, p: Place) -> Ops | None:
        chain = Chain(n)
        return (Make("picot", 1, (Place("made", nth=n),)),) if own_chain(p, chain) else None

    def skip(self, ps: tuple[Place, ...]) -> Ops | None:
        return (Skip(ps),)

    def skip_n(self, n: int, c: Noun = ANY) -> Ops | None:
        return (Skip((Place("next", c, count=n),)),) if 0 < n <= MOST and c.name != "ring" else None

    def skip_one(self) -> Ops:
        return (Skip((Place("next"),)),)

    def skip_bare(self, c: Noun) -> Ops:
        return (Skip((Place("next", c),)),)

    def skip_first(self, n: int = 1, c: Noun = ANY) -> Ops:
        return (Skip((Place("first", c, count=n),)),)

    def skipping(self, c: Noun) -> Ops:
        """ "Skipping ch-1 sps": said of a whole stretch, which passes over them anyway."""
        return ()

    def skip_or(self, ps: tuple[Place, ...], q: Place) -> Ops:
        one: Op = Either((Skip((ps[-1],)), Skip((q,))))
        return (Times((Skip(ps[:-1]), one), 1),) if ps[:-1] else (one,)

    def next_space(self, s: tuple[str, int]) -> Place:
        return Place("next", Noun(s[0], s[1]))

    def next_picot(self) -> Place:
        return Place("next", Noun("picot"))

    def magic_ring(self, **_: Any) -> Ops:
        return (Act("magic ring"),)

    def same_b(self, b: Place) -> Place:
        return b

    def nth_of_begch(self, o: int, b: Place) -> Place:
        return Place("nth", Noun("ch"), nth=o, of=b)

    def nth_of_beg(self, o: int, of: Place | None = None) -> Place | None:
        """ "3rd ch of beg ch-3", "3rd chain" alone where a round is joined."""
        if of is None:
            return Place("nth", Noun("ch"), nth=o, of=Place("beg"))
        return Place("nth", Noun("ch"), nth=o, of=of) if of.which == "beg" else None

    # -- turning, joining, yarn -----------------------------------------------------------------------------------

    def turn(self) -> Ops:
        return (Act("turn"),)

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

    def join_plain(self) -> Ops:
        return (Act("join"),)

    def join_sl(self, p: Place | None = None) -> Ops:
        return (Act("join", "", p),)

    def join_stitch(self, k: str, p: Place | None = None) -> Ops:
        return (Act("join", "", p),) if k == "sl st" else (Make(k, 1, (p,) if p else ()),)

    def sl_st(self) -> str:
        return "sl st"

    def join_yarn(self, y: str = "yarn", w: str = "sl st", p: Place | None = None) -> Ops:
        if w == "sl st":
            return (Act("yarn", y, p),)
        return (Act("yarn", y, p), Make(w, 1, (p,) if p else ()))

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
        return ()

    def facing(self, s: str) -> Ops:
        return (Act("facing", "WS" if s.startswith(("ws", "wrong")) else "RS"),) if "together" not in s else ()

    # -- manners --------------------------------------------------------------------------------------------------

    def in_loops(self, h: str, **_: Any) -> Ops:
        return (Act("loops", h),)

    def in_loops_of(self, h: str, **_: Any) -> Ops | None:
        return None

    def in_both(self, **_: Any) -> Ops:
        return (Act("loops", ""),)

    def opposite(self) -> Ops:
        return (Act("opposite"),)

    def along_side(self, e: str) -> Ops | None:
        return (Act("edge"),)

    def spread(self, n: int, **_: Any) -> Ops:
        return (Act("spread", str(n)),)

    def spread_to(self, n: int, **_: Any) -> Ops:
        return (Act("spread to", str(n)),)

    def spread_dec(self, n: int, **_: Any) -> Ops:
        return (Act("spread", str(-n)),)

    def into_row(self, r: RowRef, h: str = "") -> Ops:
        return (Act("row", _loop(h), Place("next", row=r)),)

    def behind(self, b: str, r: RowRef | None = None, p: Place | None = None) -> Ops:
        return (Act("behind"),) if r is not None else ()

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

    def begin_there(self, p: Place) -> Ops | None:
        """ "Beginning with the st at the base of the ch": the chain stands for no stitch."""
        return (Act("from base"),) if p.which == "same" else None

    def swap(self, a: Ops, b: Ops) -> Ops:
        return (Again(0, 0, swap=((b[0], a[0]),)),)

    def same_m(self, m: Ops) -> Ops:
        return m

    def same_s(self, s: Ops) -> Ops:
        return s

    def behind_soft(self, p: Place) -> Ops | None:
        return () if p.noun.name in ("sp", "lp", "ch") else None

    def work_even(self, k: str = "", l: Limit = ("end",), n: int = 0) -> Ops:  # noqa: E741
        return (Make(k or self.base, 1, (self.reaching(Place("each"), l),)),)

    def instead_there(self, m: Ops) -> Ops | None:
        """ "working 3 sc in each corner": what is done at those places instead."""
        if len(m) != 1 or not isinstance(m[0], Make) or not m[0].places:
            return None
        return (Corner(m[0]),)

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

    def last_goes_into(self, p: Place, **_: Any) -> Ops:
        return (Act("last", "", p),)

    def leave_n(self, n: int = 1, c: Noun = ANY) -> tuple[Any, ...]:
        return (Leave(n, c),)

    def leave_first(self, n: int = 1, c: Noun = ANY) -> tuple[Any, ...]:
        return (Leave(n, c, True),)

    def leave(self, **_: Any) -> Ops:
        return (Act("leave"),)

    # -- a place first --------------------------------------------------------------------------------------------

    def group_into(
        self, b: Any, ps: tuple[Place, ...], times: tuple[int, bool] | None = None, h: str = ""
    ) -> Ops | None:
        if not b.ops or b.parsed_as_note:
            return None
        ops = b.ops if times is None else (Times(b.ops, times[0] + times[1]),)
        places = tuple(replace(p, hold=_loop(h)) for p in ps) if h else ps
        return (Into(ops, places),)

    def makes_into(self, ps: tuple[Place, ...], ms: Ops) -> Ops | None:
        if len(ms) == 1 and isinstance(ms[0], Make) and not ms[0].places:
            return (replace(ms[0], places=ps),)
        return (Into(ms, ps),)

    def op_list(self, m: Ops, r: Ops = ()) -> Ops:
        return (*m, *r)

    def inner_make(self, s: tuple[str, str], n: int = 1, **_: Any) -> Ops | None:
        return self.make(s, (), n)

    def inner_group(self, b: Any, t: tuple[int, bool] = (1, False)) -> Ops | None:
        return (Times(b.ops, t[0] + t[1]),) if b.ops else None

    # -- brackets and repeats -------------------------------------------------------------------------------------

    def n_times(self, n: int) -> tuple[int, bool] | None:
        return (n, False) if 0 <= n <= MOST else None

    def n_times_word(self, n: str) -> tuple[int, bool]:
        return (int(n), False)

    def n_more_times(self, n: Any) -> tuple[int, bool] | None:
        return (int(n), True) if int(n) <= MOST else None

    def group_times(self, b: Any, t: tuple[int, bool]) -> Ops | None:
        """ "[...] 3 times" is 3 in all; "[...] 3 times more" is one more."""
        return (Times(b.ops, t[0] + t[1]),) if b.ops and t[0] else None

    def group_repeated(self, b: Any, t: tuple[int, bool]) -> tuple[Any, ...] | None:
        """ "(...). Repeat 3 more times": once, and again."""
        return (Star(b.ops, t[0], said_more=t[1]),) if b.ops and t[0] else None

    def group_n(self, n: int, b: Any) -> Ops | None:
        return (Times(b.ops, n),) if b.ops and 0 < n <= MOST else None

    def group_n_into(self, n: int, b: Any, ps: tuple[Place, ...]) -> Ops | None:
        return (Into((Times(b.ops, n),), ps),) if b.ops else None

    def group_times_into(self, b: Any, t: tuple[int, bool], ps: tuple[Place, ...]) -> Ops | None:
        if not b.ops or not t[0]:
            return None
        return (Into((Times(b.ops, t[0] + t[1]),), ps),)

    def group_all(self, b: Any, l: Limit = ("end",)) -> Ops | None:  # noqa: E741
        if not b.ops:
            return None
        if l[0] == "end":
            return (Times(b.ops, 0),)
        return (self._limited(Star(b.ops), l),)

    def group_once(self, b: Any) -> Ops | None:
        if not b.ops:
            return None
        return (Times(b.ops, 1),) if len(b.ops) > 1 else b.ops

    def starred(self, b: Any, t: Any = None) -> Ops | None:
        star: Star = b.star
        if t is None:
            return (star,)
        kind = t[0]
        if kind == "times":
            return (replace(star, more=t[1] - (0 if t[2] or not b.paired else 1), said_more=t[2] or b.paired),)
        if kind == "limit":
            return (self._limited(star, t[1]),)
        return (star,)

    def _limited(self, star: Star, l: Limit) -> Star:  # noqa: E741
        if l[0] == "last":
            end = star.ops[-1] if star.ops else None
            if (
                len(l) > 3
                and l[1] == 1
                and l[2]
                and isinstance(end, Make)
                and end.stitch == l[2].name
                and len(star.ops) > 1
            ):
                return replace(star, cut=len(star.ops) - 1)
            return replace(star, until=(l[1], l[2] or ANY))
        if l[0] == "upto":
            return replace(star, upto=l[1])
        return replace(star, word="around") if l[-1] == "around" else star

    def tail_times(self, t: tuple[int, bool], l: Any = None) -> Any:  # noqa: E741
        return ("times", t[0], t[1])

    def tail_limit(self, l: Limit = ("end",)) -> Any:  # noqa: E741
        return ("limit", l)

    def tail_limit2(self, l: Limit, l2: Limit) -> Any:  # noqa: E741
        return ("limit", l2 if l[0] == "end" else l)

    def tail_none(self) -> Any:
        return ("none",)

    def ending_at(self) -> tuple[Any, ...]:
        return (Ending("at"),)

    def ending_nothing(self, p: Place) -> tuple[Any, ...]:
        return (Ending("nothing"),)

    def ending_last(self) -> tuple[Any, ...]:
        return (Ending("last"),)

    def ending_with(self) -> tuple[Any, ...]:
        return (Ending("with"),)

    def bare_repeat(self, l: Limit = ("end",)) -> tuple[Any, ...]:  # noqa: E741
        return (BareRepeat(None, l),)

    def bare_times(self, t: tuple[int, bool]) -> tuple[Any, ...] | None:
        """ "1 sc, 1 inc x 6": so many times in all."""
        return (BareRepeat(t[0] - 1, said_more=True),) if t[0] > 1 else None

    def bare_repeat_times(self, t: tuple[int, bool]) -> tuple[Any, ...]:
        return (BareRepeat(t[0], said_more=t[1]),)

    def repeat_from_start(self, l: Limit = ("end",), t: tuple[int, bool] | None = None) -> tuple[Any, ...]:  # noqa: E741
        return (BareRepeat(t[0] if t else None, l, True, bool(t and t[1])),)

    def in_pattern(self, l: Limit = ("end",)) -> tuple[Any, ...]:  # noqa: E741
        return (BareRepeat(None, l),)

    # -- rows as other rows ---------------------------------------------------------------------------------------

    def rep_rows(self, n: int, r: int = 0, t: tuple[int, bool] | str | None = None) -> Ops | None:
        if not 0 < n <= MOST:
            return None
        times = t[0] if isinstance(t, tuple) else 0
        return (Again(n, max(r, n), times),)

    def rep_two(self, n: int, n2: int) -> Ops:
        return (Again(n, n2, swap=()),) if n < n2 else (Again(n, n2),)

    def rep_last(self, n: int = 1, t: Any = None) -> Ops:
        return (Again(-n, -1, t[0] if isinstance(t, tuple) else 0),)

    def rep_last2(self, n: int = 2, t: Any = None) -> Ops:
        return (Again(-n, -1, t[0] if isinstance(t, tuple) else 0),)

    def range_to(self, n: int) -> int:
        return n

    def range_list(self, n: int, m: int) -> int:
        return m

    def until_length(self) -> str:
        return "-"

    def grow(self, n: int, k: str = "", **_: Any) -> Ops:
        return (Again(-1, -1, grow=n),)

    def fasten_off(self, **_: Any) -> Ops:
        return (Act("fasten off"),)

    def more_places_for(self, ps: tuple[Place, ...]) -> tuple[Any, ...]:
        return (MorePlaces(ps),)

    def n_more_places_for(self, n: int, ps: tuple[Place, ...]) -> tuple[Any, ...] | None:
        return (MorePlaces(ps, n),) if 0 < n <= MOST else None

    def more_along(self, l: Limit) -> tuple[Any, ...]:  # noqa: E741
        return (MorePlaces((self.reaching(Place("each"), l),)),)

    # -- counts ---------------------------------------------------------------------------------------------------

    def count_list(self, c: tuple[int, Noun], m: tuple[tuple[int, Noun], ...] = ()) -> tuple[tuple[int, Noun], ...]:
        return (c, *m)

    def count_of(self, n: int, c: Noun, **_: Any) -> tuple[int, Noun]:
        return (n, c)

    def count_total(self, n: int, c: Noun = ANY) -> tuple[int, Noun]:
        return (n, c)

    def count_bare(self, n: int, **_: Any) -> tuple[int, Noun]:
        return (n, ANY)


def _loop(hold: str) -> str:
    return "" if hold == "top" else hold


def own_chain(place: Place, chain: Chain) -> bool:
    """Whether a slip stitch goes back into the chain just made, or the stitch before it: a picot."""
    if place.which == "hook" and place.nth in (chain.count, chain.count - 1) and chain.count <= 12:
        return True
    if place.which == "nth" and place.of is not None and place.of.which == "beg" and place.of.noun.size == chain.count:
        return True
    if place.which == "first" and place.noun.name == "ch" and place.count == 1 and chain.count <= 12:
        return True
    return place.which in ("last", "top", "same", "made") and place.row is None and chain.count <= 12


def _further_down(special: Special) -> Make | None:
    """The one stitch of a special stitch that says itself in which row further down it is worked."""
    only = special.ops[0] if len(special.ops) == 1 else None
    if special.in_place or not isinstance(only, Make) or len(only.places) != 1:
        return None
    return only if only.places[0].row or only.places[0].which in ("skipped", "unworked") else None


def _placed_down(own: Place, said: Place) -> Place:
    """The place a special stitch names for itself, as often as the row says."""
    noun = own.noun if said.noun.name in ("sp", "lp", "ch") else said.noun
    which = "unworked" if own.which in ("skipped", "unworked") else own.which
    return replace(own, which=which, noun=noun, count=max(said.count, 1), nth=0, row=said.row or own.row)
