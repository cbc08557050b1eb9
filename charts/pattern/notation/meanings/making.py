"""Stitches made in places; increases and decreases."""

from __future__ import annotations

from typing import Any

from ....made_late import dataclass, replace
from ... import lexicon
from ...tree import Act, Chain, Either, Held, Into, Make, Noun, Op, Place, RowRef, Skip, Special, Star, Times, walk
from .apart import groups_apart
from .parts import ANY, FEW, HELD, MOST, Limit, Ops, loop_of
from .stitches import Stitches
from .told_first import over_all

#: Stitches that are drawn together at their top.
_GATHERED = ("cl", "cluster", "bobble", "puff", "popcorn")


def one_place(ops: Ops) -> tuple[Ops, tuple[Place, ...]] | None:
    """What a group is made of and the one place that it goes into, () where none is said; None where it goes into
    several, or makes but one stitch."""
    if len(ops) == 1 and isinstance(ops[0], Times) and ops[0].times == 1:
        return one_place(ops[0].ops)
    if len(ops) == 1 and isinstance(ops[0], Into):
        return (ops[0].ops, ops[0].places) if len(ops[0].places) == 1 else None
    if not all(isinstance(op, Make | Chain) for op in ops) or sum(op.count for op in ops if isinstance(op, Make)) < 2:
        return None
    said = {op.places for op in ops if isinstance(op, Make) and op.places and op.places[0].which != "same"}
    if len(said) > 1 or any(len(p) > 1 or p[0].count > 1 or p[0].which in ("each", "nth") for p in said):
        return None
    bare = tuple(replace(op, places=()) if isinstance(op, Make) else op for op in ops)
    return bare, next(iter(said), ())


def _under(row: Any) -> RowRef:
    """How deep a long stitch goes: as said, but under the row just worked at least."""
    return row if isinstance(row, RowRef) and row.below != 1 else RowRef(below=2)


@dataclass(slots=True)
class Making(Stitches):
    """Stitches made in places; increases and decreases."""

    # -- making ---------------------------------------------------------------------------------------------------

    def slips_up(self, n: int) -> Ops | None:
        """ "3 sl st up the first loop", "up the 3 first of the chain": one in each of so many of its chains."""
        return (Make("sl st", 1, (Place("next", Noun("ch"), count=n),)),) if 0 < n <= MOST else None

    def over_its_like(self, s: tuple[str, Held], r: RowRef, n: int = 1, m: int = 1) -> Ops | None:
        """ "1 dc over the one in the 3rd round": over a stitch of its kind."""
        told = m == 1 and not s[1] and lexicon.height_of(s[0]) is not None
        return self.make(s, (Place("next", Noun(s[0]), row=r),), n) if told else None

    def make(self, s: tuple[str, Held], sp: tuple[Place, ...] = (), n: int = 1) -> Ops | None:
        if not 0 < n <= MOST:
            return None
        name, hold = s
        places = sp
        if sp and sp[0].noun is HELD:
            sp = places = (Place("next", count=n, hold=sp[0].hold),)
            n = 1
        if sp and sp[0].which == "evenly":
            sp = places = (Place("evenly", count=n) if n > 1 else replace(sp[0], which="each"),)
            n = 1
        if sp and sp[0].which == "edge" and sp[0].noun.name in ("side", "bridge") and n > 1:
            side = sp[0].noun.name == "side"
            sp = places = (Place("edge", ANY if side else sp[0].noun, count=n),)
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
        return (Make(name, 1 if _as_many(places, n) else n, places),)

    def make_from(self, a: str, s: tuple[str, Held], ps: tuple[Place, ...], n: int = 1) -> Ops | None:
        """ "1 tr round stem of next st from the back", "dc around the front post of next 2 sts": a raised stitch."""
        plain = lexicon.height_of(s[0]) == s[0] and s[0] != "sl st" and all(p.row is None for p in ps)
        return self.make((("FP" if a == "front post" else "BP") + s[0], s[1]), ps, n) if plain else self.make(s, self.round_post(a, ps), n)

    def make_again(self, s: tuple[str, Held], p: Place, n: int = 1) -> Ops | None:
        """ "Work another dc in last st"."""
        return self.make(s, (p,), n)

    def make_counted(self, g: tuple[int, str], sp: tuple[Place, ...] = ()) -> Ops | None:
        """ "3-dc in next sp"."""
        return self.make((g[1], ""), sp, g[0])

    def make_and_chain(self, s: tuple[str, Held], c: Ops, ps: tuple[Place, ...], n: int = 1) -> Ops | None:
        """ "1 dc, ch 2 in next sp": the stitch goes there, the chains follow it."""
        made = self.make(s, ps, n) if len(ps) == 1 and ps[0].which in ("next", "same") and ps[0].count == 1 else None
        return (*made, *c) if made else None

    def chain_after_each(self, s: tuple[str, Held], c: Ops, p: Place, n: int = 1) -> Ops | None:
        """ "1 dc, ch 1 in each st": the chains follow the stitch of every place."""
        made = self.make(s, (), n)
        return (Into((*made, *c), (p,)),) if made else None

    def make_so_often(self, s: tuple[str, Held], t: tuple[int, bool], ps: tuple[Place, ...]) -> Ops | None:
        """ "Hdc twice in each st"."""
        return self.make(s, ps, t[0]) if not t[1] else None

    def make_in_all(self, s: tuple[str, Held], n: int, l: Limit) -> Ops | None:  # noqa: E741
        """ "24 sc around": so many in all, one in each; "2 sc around" is two in each."""
        return self.make_bare(s, n) if n >= FEW and l[0] == "end" else None

    def make_so_many(self, s: tuple[str, Held], n: int) -> Ops | None:
        """ "7 sc to marker": so many in all."""
        return self.make_bare(s, n) if n > 1 else None

    def make_evenly(self, s: tuple[str, Held], n: int, l: Limit = ("end",), sp: tuple[Place, ...] = ()) -> Ops | None:  # noqa: E741
        """ "Evenly work 24 sc around", "along the row ends": so many in all, spread over what is there."""
        if sp and sp[0].which == "edge":
            sp = (Place("edge", Noun("side")),)
        return self.make(s, sp or self.each_evenly(l), n)

    def make_along_ends(self, s: tuple[str, Held], n: int) -> Ops | None:
        """ "30 sc along the row ends": so many in all; "2 sc in row ends" is two in each."""
        return self.make(s, (Place("edge", Noun("side")),), n) if FEW <= n <= MOST else None

    def make_crosses(self, n: int, sp: tuple[Place, ...]) -> Ops | None:
        """ "6x in ring", "2x in each st": the sign of a single crochet for its name."""
        return self.make(("sc", ""), sp, n) if sp and sp[0].which in ("ring", "each", "next") else None

    def make_over(self, s: tuple[str, Held], sp: tuple[Place, ...], n: int = 1, c: Noun = ANY) -> Ops | None:
        """ "sc2tog over next 3 sts, skipping the middle one"."""
        return self.make(s, sp, n) if lexicon.together(s[0]) > 1 else None

    def sides_and_corners(self, a: Ops, b: Ops) -> Ops:
        """ "20 sc along each side and 3 sc in each corner": of the four sides of a flat piece."""
        return self._four(a, b, corner_first=False)

    def corners_and_sides(self, a: Ops, b: Ops) -> Ops:
        return self._four(a, b, corner_first=True)

    def _four(self, a: Ops, b: Ops, *, corner_first: bool) -> Ops:
        side, corner = a[0], b[0]
        assert isinstance(side, Make) and isinstance(corner, Make)
        along: Op = Make(side.stitch, 1, (Place("edge", ANY, count=side.count),))
        turned: Op = replace(corner, places=(Place("next", Noun("corner")),))
        return (Star((turned, along) if corner_first else (along, turned), 3, word="sides"),)

    def make_bare(self, s: tuple[str, Held], n: int = 1) -> Ops | None:
        if 1 < n <= MOST and lexicon.together(s[0]) > 1 and not s[1]:
            return (Times((Make(s[0]),), n),)  # "8 sc2tog": one after the other
        return self.make(s, (), n)

    def make_until(self, s: tuple[str, Held], n: int, c: Noun, p: Place | None = None) -> Ops | None:
        """ "Sc in same st and continue until you have 18 sts": so many in all, the first where it is said."""
        if c.name not in ("st", s[0]) or (p is not None and p.count != 1) or not 1 < n <= MOST:
            return None
        behind = Place("next", ANY, count=n - 1 if p is not None else n)
        return self.make(s, (p, behind) if p is not None else (behind,))

    def made_in_colour(self, s: tuple[str, Held], y: str, n: int = 1) -> Ops | None:
        """ "6 sc white, 6 sc black": the colour told behind the stitches worked in it."""
        made = self.make_bare(s, n)
        return (Act("colour", y), *made) if made else None

    def number_in_colour(self, n: int, y: str) -> Ops | None:
        """ "6 A, 7 B", "A x 6, B x 7": so many plain stitches of a yarn, one in each."""
        made = self.plain_n(n)
        return (Act("colour", y), *made) if made else None

    def make_after(self, s: tuple[str, Held], n: int, sp: tuple[Place, ...] = ()) -> Ops | None:
        """ "sc 5", "sc 2 in next st": so many of the stitch."""
        if sp or s[0].startswith("picot") or _founds(s[0]):
            return self.make(s, sp, n)
        return self.make(s, (Place("next", count=n),), 1) if 0 < n <= MOST else None

    def found_after(self, s: tuple[str, Held], n: int) -> Ops | None:
        """ "fsc 20 sts": so many foundation stitches, which need none below."""
        return self.make_after(s, n) if _founds(s[0]) else None

    def found_until(self, s: tuple[str, Held], n: int, c: Noun = ANY) -> Ops | None:
        """ "Work fhdc until you have 30 sts": so many foundation stitches."""
        return self.found_after(s, n) if c.name in ("st", s[0]) else None

    def held_n_next(self, h: Held, s: tuple[str, Held], n: int) -> Ops | None:
        """ "In front loops only 18 sc": one in each of so many, by that loop."""
        return self.make(s, (Place("next", count=n, hold=loop_of(h)),), 1) if 0 < n <= MOST else None

    def make_next_m(self, s: tuple[str, Held], m: int, n: int = 1) -> Ops | None:
        """ "Sc in 4", "2 sc in 1": the stitches that they are worked into told by their number alone."""
        return self.make(s, (Place("next", count=m),), n) if 0 < m <= MOST else None

    def place_in(self, p: Place, s: tuple[str, Held]) -> Ops | None:
        """ "Work the first 10 sts in sc": a stitch in each of them."""
        return self.make(s, (p,), 1) if p.noun.name == "st" and p.which in ("first", "next", "last", "each") else None

    def rest_in(self, s: tuple[str, Held]) -> Ops | None:
        """ "Work the remaining in sc"."""
        return self.make(s, (Place("each"),), 1)

    def make_times_next(self, s: tuple[str, Held], n: int) -> Ops | None:
        return self.make(s, (Place("next", count=n),), 1) if 0 < n <= MOST else None

    def make_n_next(self, n: int, s: tuple[str, Held]) -> Ops | None:
        if 1 < n <= MOST and lexicon.together(s[0]) > 1 and not s[1]:
            return self.make_bare(s, n)  # "3 x sc2tog"
        return self.make(s, (Place("next", count=n, bare=True),), 1) if 0 < n <= MOST else None

    def n_in_place(self, n: int, ps: tuple[Place, ...]) -> Ops | None:
        """ "Into the last st work 3": of what the row is made of."""
        return (Make(self.base, n, ps),) if 0 < n <= MOST and all(p.which in ("next", "last", "first", "same") for p in ps) else None

    def n_in_each(self, ps: tuple[Place, ...], n: int = 1) -> Ops | None:
        """ "Two in each", "one in next, two in next": of what the row is made of."""
        told = all(p.which in ("next", "each", "first", "last") and p.noun.name in ("st", self.base) for p in ps)
        return (Make(self.base, n, ps),) if 0 < n <= MOST and told else None

    def plain_n(self, n: int) -> Ops | None:
        """ "3, inc, 5": so many plain stitches, one in each."""
        return self.make_n_next(n, (self.base, ""))

    def make_in_each(self, s: tuple[str, Held], p: Place, n: int = 1) -> Ops | None:
        """ "5 dc in next sp, repeat in each sp around": the same in all of them."""
        return self.make(s, (p,), n) if 0 < n <= MOST else None

    def make_in_ring(self, s: tuple[str, Held], n: int) -> Ops | None:
        """ "Magic ring with 6 sc": the ring, and what is worked into it."""
        made = self.make(s, (Place("ring", Noun("ring")),), n) if 0 < n <= MOST else None
        return (Act("magic ring"), *made) if made else None

    def plain_in_ring(self, n: int) -> Ops | None:
        """ "MR 6": so many plain stitches in it."""
        return self.make_in_ring((self.base, ""), n) if n >= FEW else None

    def cast_on(self, s: tuple[str, Held], n: int) -> Ops | None:
        """ "Cast on 4 sc": new stitches beyond the edge, as foundation stitches are."""
        name = self.base if s[0] == "st" else s[0]
        return (Make("f" + name, n),) if 0 < n <= MOST and name in lexicon.US_HEIGHTS and not s[1] else None

    def make_n_into_m(self, s: tuple[str, Held], n: int, m: int) -> Ops | None:
        """ "3 x 2 sc": two into each of three stitches."""
        return self.make(s, (Place("next", count=n),), m) if 0 < n <= MOST and 0 < m <= MOST else None

    def make_times(
        self, s: tuple[str, Held], times: tuple[int, bool], n: int = 1, sp: tuple[Place, ...] = ()
    ) -> Ops | None:
        made = self.make(s, sp, n)
        return (Times(made, times[0] + times[1]),) if made else None

    def stitch_of_group(self, s: tuple[str, Held], b: Any, sp: tuple[Place, ...] = ()) -> Ops | None:
        """ "shell of (3 dc, ch 1, 3 dc) in next st": the stitch explained where it stands."""
        if not b.ops or (s[0] in lexicon.US_HEIGHTS and not sp):
            return None
        if s[0] in lexicon.US_HEIGHTS:
            return None
        name = s[0]
        return (Into(b.ops, sp, name=name),) if sp else (Times(b.ops, 1, name=name),)

    def stitch_told(self, s: tuple[str, Held], b: Any) -> Ops | None:
        """ "Cl (dc3tog in next sp)", "shell (5 dc in next st)": a bracket behind a stitch that says how it is made and
        where; it is worked once."""
        if not b.ops or s[0] in lexicon.US_HEIGHTS:
            return None
        made = [op for op in walk(b.ops) if isinstance(op, Make | Into)]
        places = next((op.places for op in made if op.places), ())
        if not places:
            return None
        if s[0] in _GATHERED and all(isinstance(op, Make) for op in b.ops):
            return self.make(s, places)
        return (Times(b.ops, 1, name=s[0]),)

    def group_name(self, g: str) -> str:
        return g

    def told_group(self, s: str, b: Any, sp: tuple[Place, ...] = (), n: int = 1) -> Ops | None:
        """ "shell (5 dc in next ch)", "v-st in next sp (dc, ch 1, dc in same sp)": the group told where it stands."""
        told = one_place(b.ops)
        if told is None or n != 1:
            return None
        ops, places = told
        self._learn(Special(s, s, s, ops, in_place=True, form="group"))
        there = sp or (() if places and places[0].which == "same" else places) or (Place("next"),)
        return (Into(ops, there, name=s),)

    def group_of_one(self, s: str, m: int, k: tuple[str, Held], sp: tuple[Place, ...], n: int = 1) -> Ops | None:
        """ "Shell of 5 dc in next ch", "shell: 5 dc in next ch"."""
        if n != 1 or not 1 < m <= MOST or lexicon.height_of(k[0]) is None:
            return None
        ops = (Make(k[0], m),)
        self._learn(Special(s, s, s, ops, in_place=True, form="group"))
        return (Into(ops, sp, name=s),)

    def completed_group(self, c: Ops, s: tuple[str, Held], sp: tuple[Place, ...] = ()) -> Ops | None:
        """ "Ch 3 and complete shell in same sp": the chain stands for the first stitch of the group, which is worked from
        the second one on, where the hook stands unless a place is said."""
        made = self.make(s, sp or (Place("same", Noun("sp")),), 1)
        chain = c[0]
        if made is None or len(made) != 1 or not isinstance(chain, Chain) or not isinstance(group := made[0], Into):
            return None
        first = group.ops[0]
        if not isinstance(first, Make) or first.places or lexicon.height_of(first.stitch) != first.stitch:
            return None
        rest = (replace(first, count=first.count - 1), *group.ops[1:]) if first.count > 1 else group.ops[1:]
        return (replace(chain, counts=(first.stitch,)), replace(group, ops=rest, name=""))

    def start_from(self, p: Place, s: tuple[str, Held], sp: tuple[Place, ...], n: int = 1) -> Ops | None:
        """ "Starting in 2nd ch from hook, sc in each ch": the first place, then the others."""
        if p.which == "next" and p.noun.name == "ch" and p.nth > 1 and p.count == 1:
            p = Place("hook", Noun("ch"), nth=p.nth)  # "beginning with the second ch"
        if p.which != "hook":
            return None
        first = sp[0]
        if first.which == "next" and first.count > 1:
            first = replace(first, count=first.count - 1)
        elif first.which == "next" and first.count == 1 and len(sp) == 1:
            return self.make(s, (p,), n)
        return self.make(s, (p, first, *sp[1:]), n)

    def start_from_held(self, p: Place, h: Held, s: tuple[str, Held], sp: tuple[Place, ...]) -> Ops | None:
        """ "Starting in 2nd ch from hook and working in the back bumps, sc in each ch"."""
        return self.start_from(p, s, tuple(replace(q, hold=h) for q in sp))

    def start_from_n(self, p: Place, s: tuple[str, Held], n: int) -> Ops | None:
        return self.start_from(p, s, (Place("next", Noun("ch"), count=n),)) if 0 < n <= MOST else None

    def one_in_each(self, s: tuple[str, Held], n: int, c: Noun, p: Place | None = None, **_: Any) -> Ops | None:
        """ "18 sc along the row, one in each ch, starting in 2nd ch from hook": so many, each in a place of its own."""
        if not 0 < n <= MOST:
            return None
        each = (Place("next", c, count=n),)
        return self.make(s, each) if p is None else self.start_from(p, s, each)

    def make_opposite(self, s: tuple[str, Held], sp: tuple[Place, ...], n: int = 1) -> Ops | None:
        made = self.make(s, sp, n)
        return (Act("opposite"), *made) if made else None

    def make_opposite_n(self, s: tuple[str, Held], n: int = 0) -> Ops | None:
        """ "4 sc along the other side of the chain"; without a number all along it."""
        place = Place("next", count=n) if n else Place("each")
        made = self.make(s, (place,)) if n <= MOST else None
        return (Act("opposite"), *made) if made else None

    def make_on_chain(self, s: tuple[str, Held], n: int = 0) -> Ops | None:
        """ "13 sc across the foundation chain": its other side, where the first row is done."""
        made = self.make_opposite_n(s, n)
        return made and (Act("opposite", "chain"), *made[1:])

    def make_togn(self, t: tuple[int, str], sp: tuple[Place, ...] = ()) -> Ops:
        n, name = t
        return (Make(name, 1, sp),) if n == 1 else (Times((Make(name, 1, sp),), n),)

    def make_tog(self, k: str, sp: tuple[Place, ...]) -> Ops | None:
        """ "sc next 2 sts together": as many as there are places."""
        count = sum(p.count for p in sp if p.which in ("next", "last", "first"))
        if not 1 < count < 100 or lexicon.together(k) > 1:
            return None
        return (Make(f"{k}{count}tog", 1, sp),)

    def one_over(self, n: int, k: str, p: Place) -> Ops | None:
        """ "1 dc over next 2 sts": one stitch of two or three legs."""
        legs = p.count if n == 1 and p.noun.name != "ch" else 0
        return self.make_tog(k, (p,)) if legs in (2, 3) else None

    def make_tog_sc(self, sp: Place) -> Ops | None:
        return (Make(f"{self.base}{sp.count}tog", 1, (sp,)),) if 1 < sp.count < 100 else None

    def make_as_one(self, sp: Place, k: str = "") -> Ops | None:
        """ "Work off next 2 sc as 1 dc": as many legs as there are stitches below, of the stitch they are worked off as."""
        own = sp.noun.name if lexicon.height_of(sp.noun.name) else self.base
        return self.make_tog(k or own, (sp,))

    def make_n_as_one(self, n: int) -> Ops | None:
        return self.make_n_tog(n, self.base)

    def make_gathered(self, k: str) -> Ops | None:
        """ "Work next 2 dc together as one dc": said twice."""
        return (Make(k, 1),) if lexicon.together(k) > 1 else None

    def tog_first(self, n: int, c: Noun) -> Place:
        return Place("first", c, count=n)

    def tog_next(self, n: int, c: Noun) -> Place:
        return Place("next", c, count=n)

    def make_n_tog(self, n: int, k: str, sp: tuple[Place, ...] = ()) -> Ops | None:
        return (Make(f"{k}{n}tog", 1, sp),) if 1 < n < 100 and lexicon.together(k) == 1 else None

    def held_tog(self, k: str, sp: tuple[Place, ...], n: int = 1, left: int = 0) -> Ops | None:
        """ "Leaving last loop of each on hook, 3 dc in next st": drawn together; or one in each of several stitches. With
        `left` loops on the hook, which are one more."""
        legs = n if n > 1 else sum(p.count for p in sp if p.which in ("next", "last", "first"))
        if left not in (0, legs + 1):
            return None
        if n > 1 and len(sp) == 1 and sp[0].count == 1 and not sp[0].nth:
            cluster = self._legs(n, k, "cluster")
            return self.make((cluster[0], ""), sp) if cluster else None
        return self.make_n_tog(legs, k, sp)

    def made_apart(self, n: int, s: tuple[str, Held], c: Ops, sp: tuple[Place, ...] = ()) -> Ops | None:
        """ "2 dc with ch 1 between in next sp": the chains stand between the stitches."""
        if not 1 < n <= MOST:
            return None
        each = len(sp) == 1 and sp[0].which == "next" and sp[0].count == n
        places = (replace(sp[0], count=1),) if each else ()
        one = self.make(s, places)
        if one is None or (any(p.count > 1 for p in sp) and not each):
            return None
        ops = (*one, *((*c, *one) * (n - 1)))
        return (Into(ops, sp),) if sp and not each else ops

    def each_apart(self, s: tuple[str, Held], sp: tuple[Place, ...], c: Ops) -> Ops | None:
        """ "Sc in each sc of Rnd 1 with ch 4 between": one in each, and the chain behind it."""
        one = self.make(s, ()) if len(sp) == 1 and sp[0].which == "each" and sp[0].step == 1 else None
        held = sp[0].hold if sp else ""
        return groups_apart(one, (replace(sp[0], hold=held),), c) if one else None

    def chain_of(self, b: Any) -> Ops | None:
        """The chain that a bracket holds."""
        return b.ops if len(b.ops) == 1 and isinstance(b.ops[0], Chain) else None

    def inner_apart(self, n: int, s: tuple[str, Held], c: Ops) -> Ops | None:
        return self.made_apart(n, s, c)

    def spiked(self, k: str, sp: tuple[Place, ...], n: int = 1) -> Ops | None:
        """ "Long dc in next st 2 rows down": long because of where it goes, which must be said."""
        deep = tuple(replace(p, row=_under(p.row)) for p in sp)
        return self.make((k, ""), deep, n) if all(p.row is not None for p in sp) else None

    def spiked_below(self, k: str = "", r: Any = None, n: int = 1) -> Ops | None:
        """ "2 spikes", "spike st in row below": long stitches over the next ones; unsaid and in "the row below" under the row
        just worked, or they were not long (common practice, no source)."""
        place = Place("next", ANY, count=n, row=_under(r))
        return (Make(k or self.base, 1, (place,)),) if 0 < n <= MOST and (not k or lexicon.height_of(k) is not None) else None

    def spiked_at(self, sp: tuple[Place, ...], k: str = "", r: Any = None, n: int = 1) -> Ops | None:
        """ "Spike st in next st", "spike over next st inserting hook 2 rows below"."""
        deep = tuple(p if p.row is not None and p.row != RowRef(below=1) else replace(p, row=_under(r)) for p in sp)
        plain = all(p.which in ("next", "each", "last", "first") for p in sp)
        return self.make((k or self.base, ""), deep, n) if plain else None

    def gathered_over(
        self, g: str, n2: int, c: Noun, k: str = "", s: tuple[int, str] = (0, ""), m: int = 0, **_: Any
    ) -> Ops | None:
        """ "Cluster over next 4 dc": one, with a leg in each of them."""
        legs = m or s[0] or n2
        called = (g, "cl" if g == "cluster" else g, f"{g} st", f"{g} stitch", "cl st")
        own = next((self.specials[name] for name in called if name in self.specials), None)
        if g != "cluster" or not 1 < n2 < 100 or legs != n2 or (own is not None and not own.in_place):
            return None
        plain = lexicon.height_of(c.name) == c.name and c.name not in ("sc", "sl st")
        base = k or s[1] or (c.name if plain else "dc")
        name = f"{n2}-{base} cluster over {n2}"
        self._learn(Special(name, name, name, (), "cl", base, n2, 0, "gathered", False))
        return (Make(name, 1, (Place("next", c, count=n2),)),)

    def held_back(self, k: str, sp: tuple[Place, ...], n: int = 1, left: int = 0) -> Ops | None:
        """ "Holding back on hook the last loop of each tr make 3 tr in next loop, thread over and draw through all loops":
        a cluster, all in one place or a leg in each of several. With `left` loops on the hook, which are one more."""
        place = sp[0] if len(sp) == 1 and sp[0].which in ("next", "same", "first", "last", "ring", "any") else None
        legs = n if n > 1 else place.count if place is not None else 0
        if place is None or legs < 2 or left not in (0, legs + 1) or lexicon.together(k) != 1:
            return None
        if place.count == 1:
            cluster = self._legs(n, k, "cluster")
            return self.make((cluster[0], ""), sp) if cluster else None
        if place.count != legs:
            return None
        name = f"{legs}-{k} cluster over {legs}"
        self._learn(Special(name, name, name, (), "cl", k, legs, 0, "gathered", False))
        return (Make(name, 1, sp),)

    def held_in_each(self, n: int, k: str, m: int, c: Noun) -> Ops | None:
        """ "Keeping last loop of each on hook, 2 tr in each of next 2 loops, thread over and work off all loops": so many
        legs in each of them under one top."""
        legs = n * m
        if n < 2 or m < 2 or legs > 99 or lexicon.together(k) != 1:
            return None
        name = f"{legs}-{k} cluster over {m}"
        self._learn(Special(name, name, name, (), "cl", k, legs, 0, "gathered", False))
        each = (Place("next", c), *(Place("same", c),) * (n - 1))
        return (Make(name, 1, each * m),)

    def make_instead(
        self, s: tuple[str, Held], sp: tuple[Place, ...], s2: tuple[str, Held], n: int = 1, n2: int = 1
    ) -> Ops | None:
        return None

    def make_each(self, s: tuple[str, Held], sp: tuple[Place, ...], n: int = 1) -> Ops | None:
        made = self.make(s, sp, n)
        each = made and isinstance(made[0], Make | Into) and all(p.which == "each" and p.hold != "ring" for p in sp)
        return made if each else None

    def chain_over_each(self, n: int, p: Place) -> Ops | None:
        """ "... and ch 1 over each ch-1 sp": chains that pass over each of a stretch's spaces."""
        return (Make("ch", n, (p,)),) if 0 < n <= MOST and p.which == "each" else None

    def chain_over(self, n: int, p: Place) -> Ops | None:
        """ "Ch 2 over next ch-2 sp"."""
        return (Chain(n), Skip((replace(p, bare=False),))) if 0 < n <= MOST else None

    def group_each(self, b: Any, ps: tuple[Place, ...]) -> Ops | None:
        return (Into(b.ops, ps),) if b.ops and all(p.which == "each" for p in ps) else None

    def beside(self, a: Ops, b: Ops) -> Ops | None:
        """ "sc in each sc and 2 sc in each ch-2 sp": one stretch, each place with what goes into it."""
        first, other = a[0], b[0]
        if not isinstance(first, Make | Into) or not isinstance(other, Make | Into):
            return None
        lead, end = first.places[0], other.places[-1]
        if isinstance(first, Make) and first.stitch == "ch":
            return None
        if lead.until or lead.upto or {p.noun for p in first.places} & {p.noun for p in other.places}:
            return None
        if not isinstance(first, Make) or not isinstance(other, Make):
            return None
        lead = replace(lead, until=end.until, upto=end.upto)
        return (replace(first, places=(lead, *first.places[1:]), beside=(*first.beside, other, *other.beside)),)

    def beside_both(self, a: Ops, b: Ops, c: Ops) -> Ops | None:
        """ "sc in each dc, sc in each tr and 2 sc in each ch-2 sp"."""
        two = self.beside(a, b)
        return self.beside(two, c) if two else None

    def alternately(self, s: tuple[str, Held], s2: tuple[str, Held], sp: tuple[Place, ...] = ()) -> Ops | None:
        first, other = self.make(s, (Place("next"),)), self.make(s2, (Place("next"),))
        return (Star((*first, *other)),) if first and other else None

    def post_by_turns(self, k: str, **_: Any) -> Ops | None:
        """ "Alternate fp/bp dc": front and back post by turns."""
        return self.alternately(("FP" + k, ""), ("BP" + k, "")) if lexicon.height_of(k) == k else None

    def either_stitch(self, s: tuple[str, Held], s2: tuple[str, Held], sp: tuple[Place, ...]) -> Ops | None:
        return self.make(s, sp)

    def either_make(
        self,
        s: tuple[str, Held],
        sp: tuple[Place, ...],
        s2: tuple[str, Held],
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
            if count > 1 and _as_many(places, count):
                return body
            if count > 1 and places[0].which != "ring":
                return Into((Times((Times(special.ops, 1, name=special.abbreviation),), count),), places)
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
        return self._spaced(self.base, sp) or (Make(self.base, 2, sp or (Place("next"),)),)

    def _spaced(self, k: str, sp: tuple[Place, ...]) -> Ops | None:
        """ "Inc in every 4th st": three plain stitches, then two in one, and so on."""
        if len(sp) != 1 or sp[0].which != "each" or sp[0].step < 2 or sp[0].until or sp[0].upto:
            return None
        return self.increase_each(sp[0].step, sp[0].noun, (k, ""))

    def increase_each(self, o: int, c: Noun = ANY, s: tuple[str, Held] = ("", ""), **_: Any) -> Ops | None:
        """ "Sc around, with an inc in every 4th st"."""
        if not 1 < o <= MOST:
            return None
        k = s[0] or self.base
        return (Star((Make(k, 1, (Place("next", c, count=o - 1),)), Make(k, 2, (Place("next", c),)))),)

    def increase_every_other(self, c: Noun = ANY, s: tuple[str, Held] = ("", ""), **_: Any) -> Ops | None:
        return self.increase_each(2, c, s)

    def decrease_each(self, o: int, o2: int, c: Noun = ANY) -> Ops | None:
        """ "Decrease over every 3rd and 4th st": two plain stitches, then two together."""
        if not 1 < o <= MOST or o2 != o + 1:
            return None
        return (Star((Make(self.base, 1, (Place("next", c, count=o - 1),)), Make(f"{self.base}2tog"))),)

    def together_each(self, k: str, o: int, o2: int, c: Noun = ANY) -> Ops | None:
        """ "Sc2tog over every 6th and 7th st": plain stitches between the decreases."""
        plain = k.removesuffix("2tog")
        if lexicon.together(k) != 2 or plain == k or lexicon.height_of(plain) != plain or not 1 < o <= MOST or o2 != o + 1:
            return None
        return (Star((Make(plain, 1, (Place("next", c, count=o - 1),)), Make(k))),)

    def decrease_by_skipping(self, o: int, c: Noun = ANY, s: tuple[str, Held] = ("", ""), **_: Any) -> Ops | None:
        """ "Decrease every 6th st by skipping it": plain stitches between those passed over."""
        if not 1 < o <= MOST:
            return None
        plain = Make(s[0] or self.base, 1, (Place("next", c, count=o - 1),))
        return (Star((plain, Skip((Place("next", c),)))),)

    def run_and_increase(
        self, s: tuple[str, Held], p: Place, o: int, n: int = 1, b: Any = None, m: int = 2, s2: tuple[str, Held] | None = None
    ) -> Ops | None:
        """ "Sc in next 4 sts with an increase (2 sc) in the fifth": the stitch behind them, or the last one of them."""
        given = b is None or [(op.stitch, op.count) for op in b.ops if isinstance(op, Make)] == [(s[0], 2)]
        if n != 1 or not given or o not in (p.count, p.count + 1) or p.count < 2 or not 0 < m <= MOST:
            return None
        return (Make(s[0], 1, (replace(p, count=o - 1),)), Make((s2 or s)[0], m, (replace(p, count=1),)))

    def increase_n(self, n: int, sp: tuple[Place, ...] = ()) -> Ops | None:
        if not 0 < n <= MOST:
            return None
        return (Make(self.base, 2, sp or (Place("next", count=n),)),)

    def increase_by(self, n: int, sp: tuple[Place, ...]) -> Ops | None:
        """ "Increase 1 in next st": so many more than are there, or one in each of as many places."""
        if not 0 < n <= MOST:
            return None
        each = n > 1 and [p.count for p in sp] == [n]
        return (Make(self.base, 2 if each else n + 1, sp),)

    def increase_times(self, times: tuple[int, bool]) -> Ops:
        return (Make(self.base, 2, (Place("next", count=times[0] + times[1]),)),)

    def stitch_increase(self, k: str, sp: tuple[Place, ...] = (), n: int = 1) -> Ops | None:
        spaced = self._spaced(k, sp)
        return spaced or ((Make(k, 2, sp or (Place("next", count=n),)),) if 0 < n <= MOST else None)

    def increase_core(self, n: int, c: Noun, sp: tuple[Place, ...] = ()) -> Ops | None:
        if n > 10 or c.name not in (*lexicon.US_HEIGHTS, "st"):
            return None
        return (Make(self.base, n + 1, sp or (Place("next"),)),)

    def decrease(self, sp: tuple[Place, ...] = (), d: str = "") -> Ops | None:
        if any(p.step > 1 or p.which == "ends" for p in sp):
            return None  # "dec in every 5th st": how many lie between is not said; "dec at each end" is a row's shaping
        return (Make(f"{self.base}2tog", 1, over_all(sp, 2)),)

    def decrease_n(self, n: int, sp: tuple[Place, ...] = ()) -> Ops | None:
        if not 0 < n <= MOST:
            return None
        one = Make(f"{self.base}2tog", 1, sp)
        return (one,) if n == 1 else (Times((one,), n),)

    def decrease_by(self, n: int, sp: tuple[Place, ...]) -> Ops | None:
        """ "Dec 1 over next 2 sts", "dec 3 in next 6 sts": so many decreases over those stitches."""
        if n == 1:
            return self.decrease(sp)
        over = len(sp) == 1 and sp[0].which == "next" and sp[0].count == 2 * n
        return (Times((Make(f"{self.base}2tog"),), n),) if over and n <= MOST else None

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


def _as_many(places: tuple[Place, ...], count: int) -> bool:
    """ "30 dc in next 30 sts": one in each; "2 dc in next 2 sts" may be two in each."""
    return count >= FEW and len(places) == 1 and places[0].which == "next" and places[0].count == count


def _founds(name: str) -> bool:
    """Whether a stitch is made on no ground: "fsc 18" is eighteen of them."""
    return name.startswith("f") and lexicon.height_of(name) is not None
