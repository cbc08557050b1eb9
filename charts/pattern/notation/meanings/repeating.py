"""Brackets, repeats, rows told by other rows, stated counts: all the functions of a row."""

from __future__ import annotations

from typing import Any

from ....made_late import dataclass, replace
from ...lexicon import height_of
from ...tree import Act, Again, Chain, Held, Into, Make, Noun, Op, Place, Skip, Star, Times, walk
from .apart import groups_apart
from .doing import Doing
from .parts import ANY, MOST, BareRepeat, Ending, Limit, MorePlaces, Ops, UntilGroups

#: A number of times that is told by the number alone is smaller than this (our own limit, no source).
MOST_SAID_BARE = 10


@dataclass(slots=True)
class Meanings(Doing):
    """Brackets, repeats, rows told by other rows, stated counts: all the functions of a row."""

    # -- brackets and repeats -------------------------------------------------------------------------------------

    def n_times(self, n: int) -> tuple[int, bool] | None:
        return (n, False) if 0 <= n <= MOST else None

    def n_times_word(self, n: str) -> tuple[int, bool]:
        return (int(n), False)

    def n_more_times(self, n: Any) -> tuple[int, bool] | None:
        return (int(n), True) if int(n) <= MOST else None

    def n_in_all(self, n: int) -> tuple[int, bool] | None:
        """ "a total of 6 times": the first time is one of them."""
        return (n - 1, True) if 0 < n <= MOST else None

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

    def starred(self, b: Any, t: Any = None) -> tuple[Any, ...] | None:
        star: Star = _within_group(_moving(b.star))
        if t is None:
            return (star,)
        kind = t[0]
        if kind == "times":
            return (replace(star, more=t[1] - (0 if t[2] or not b.paired else 1), said_more=t[2] or b.paired),)
        if kind == "limit":
            return (self._limited(star, t[1]),)
        if kind == "made" and height_of(t[2].name) is not None:
            return (UntilGroups(star, t[1], t[2]),)
        if kind == "made":
            each = sum(op.count for op in walk(star.ops) if isinstance(op, Make) and _called(op.stitch, t[2].name))
            if not each or t[1] % each:
                return None
            last = next(i for i, op in enumerate(star.ops) if isinstance(op, Make) and _called(op.stitch, t[2].name))
            times = t[1] // each
            if each > 1 or last == len(star.ops) - 1 or times < 2:
                return (replace(star, more=times - 1, said_more=True),)
            return (replace(star, more=times - 2, said_more=True), *star.ops[: last + 1])
        if kind == "groups":
            return (UntilGroups(star, t[1], t[2]),)
        return (star,)

    def starred_at(self, ps: tuple[Place, ...], b: Any, t: Any = None) -> Ops | None:
        """ "In ring work *3 dc, ch 2*, rep from * to * 4 times more": all of them there."""
        star = next(iter(self.starred(b, t) or ()), None)
        if not isinstance(star, Star) or star.more is None or star.cut is not None:
            return None
        return (Into((Times(star.ops, star.more + 1),), ps),)

    def single_apart(self, s: tuple[str, Held], ps: tuple[Place, ...], c: Ops, n: int = 1) -> Ops | None:
        """ "3 dc in each sp, ch 2 between groups"; of several clusters in each, those of one place are meant."""
        plain = height_of(s[0]) == s[0]
        made = self.make(s, (), n) if plain or n == 1 else None
        return groups_apart(made, ps, c) if made else None

    def run_apart(self, ms: Ops, p: Place, c: Ops) -> Ops | None:
        """ "2 dc, ch 1, 2 dc in each sp, ch 2 between groups"."""
        return groups_apart(ms, (p,), c) if self.group_in_each(ms, p) else None

    def bracket_apart(self, b: Any, ps: tuple[Place, ...], c: Ops) -> Ops | None:
        """ "(2 dc, ch 1, 2 dc) in each sp, ch 2 between groups"."""
        return groups_apart(b.ops, ps, c)

    def starred_into(self, b: Any, ps: tuple[Place, ...]) -> Ops | None:
        """ "*sl st, ch 2, 4 dc* in each ch-2 sp": marks that hold a group together as brackets do."""
        return (Into(b.ops, ps),) if b.ops and b.paired else None

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
        if l[0] == "before":
            return replace(star, until=(l[1], l[2]), upto=l[3])
        return replace(star, word="around") if l[-1] == "around" else star

    def tail_times(self, t: tuple[int, bool], l: Any = None) -> Any:  # noqa: E741
        return ("times", t[0], t[1])

    def tail_number(self, n: int, **_: Any) -> Any:
        """ "Rep from * 5": five times; a larger number that nothing is said of is the row's count."""
        return ("times", n, False) if 1 < n < MOST_SAID_BARE else None

    def tail_until_made(self, n: int, c: Noun) -> Any:
        """ "Until you have 11 clusters": as often as makes so many of what the repeat makes."""
        return ("made", n, c) if 0 < n <= MOST else None

    def tail_until_groups(self, n: int, c: Noun, **_: Any) -> Any:
        """ "Until there are 9 groups of 3 dc": as often as makes so many, those before the repeat counted in."""
        return ("groups", n, c) if 0 < n <= MOST else None

    def group_until(self, b: Any, n: int, c: Noun, **_: Any) -> tuple[Any, ...] | None:
        """ "(dc in ring, ch 2) to make 8 sps": a bracket as often as makes so many, those before it counted in."""
        return (UntilGroups(Star(b.ops), n, c),) if b.ops and 0 < n <= MOST else None

    def repeat_until_groups(self, n: int, c: Noun, **_: Any) -> tuple[Any, ...] | None:
        """ "Repeat until you have 6 shells", with no mark that says from where."""
        return (BareRepeat(None, ("groups", n, c)),) if 0 < n <= MOST else None

    def tail_limit(self, l: Limit = ("end",)) -> Any:  # noqa: E741
        return ("limit", l)

    def tail_limit2(self, l: Limit, l2: Limit) -> Any:  # noqa: E741
        return ("limit", l2 if l[0] == "end" else l)

    def tail_none(self) -> Any:
        return ("none",)

    def ending_at(self) -> tuple[Any, ...]:
        return (Ending("at"),)

    def ending_alike(self, **_: Any) -> tuple[Any, ...]:
        """ "Ending to correspond": the last repetition goes only as far as the row's beginning asks for."""
        return (Ending("alike"),)

    def ending_nothing(self, p: Place) -> tuple[Any, ...]:
        return (Ending("nothing"),)

    def ending_last(self) -> tuple[Any, ...]:
        return (Ending("last"),)

    def ending_with(self) -> tuple[Any, ...]:
        return (Ending("with"),)

    def ending_swap(self, m: Ops) -> tuple[Any, ...]:
        """ "omitting the shell at end of last rep and working 3 dc in last sc instead"."""
        return (Ending("last"), *m)

    def ending_omit(self, w: Op) -> tuple[Any, ...]:
        """ "omitting last ch 2 on last rep"."""
        return (Ending("omit", w),)

    def ending_instead(self, w: Op | None = None, s: tuple[str, int] = ("lp", 0)) -> tuple[Any, ...]:
        """ "(..., ch 3, tr in first sc) instead of last ch-7 loop": what stands before it, behind the repeat."""
        return (Ending("instead", w or Chain(s[1])),)

    def ending_joined(self, w: Op, j: Ops) -> tuple[Any, ...]:
        """ "On last repeat, sl st in first sc instead of last sc"."""
        return (Ending("omit", w), *j)

    def omitted_stitch(self, s: tuple[str, Held], n: int = 1) -> Op | None:
        return Make(s[0], n) if 0 < n <= MOST else None

    def omitted_chain(self, c: Ops) -> Op:
        return c[0]

    def omitted_group(self) -> Op:
        """ "Omitting last group", "omitting last corner": whatever several stitches there are."""
        return Into((), ())

    def bare_repeat(self, l: Limit = ("end",)) -> tuple[Any, ...]:  # noqa: E741
        return (BareRepeat(None, l),)

    def bare_times(self, t: tuple[int, bool]) -> tuple[Any, ...] | None:
        """ "1 sc, 1 inc x 6": so many times in all."""
        more = t[0] if t[1] else t[0] - 1
        return (BareRepeat(more, said_more=True),) if more > 0 else None

    def done_times(self, t: tuple[int, bool]) -> tuple[Any, ...] | None:
        """ "Do this 8 times": eight in all; "do it for 7 more": once, and so often again."""
        return self.bare_times(t)

    def bare_repeat_times(self, t: tuple[int, bool]) -> tuple[Any, ...]:
        return (BareRepeat(t[0], said_more=t[1]),)

    def repeat_from_start(self, l: Limit = ("end",), t: tuple[int, bool] | None = None) -> tuple[Any, ...]:  # noqa: E741
        return (BareRepeat(t[0] if t else None, l, True, bool(t and t[1])),)

    def repeat_steps(self, n: int, l: Limit = ("end",), t: tuple[int, bool] | None = None) -> tuple[Any, ...] | None:  # noqa: E741
        """ "Repeat the last 2 steps around": so many clauses before it."""
        if not 0 < n <= MOST:
            return None
        return (BareRepeat(t[0] if t else None, l, said_more=bool(t and t[1]), clauses=n),)

    def in_pattern(self, l: Limit = ("end",)) -> tuple[Any, ...]:  # noqa: E741
        return (BareRepeat(None, l, patterned=True),)

    def on_to_last(self, l: Limit) -> tuple[Any, ...] | None:  # noqa: E741
        """ "Work to last 4 sts": as the rows before, so far."""
        return self.in_pattern(l) if l[0] == "last" else None

    # -- rows as other rows ---------------------------------------------------------------------------------------

    def rep_rows(self, n: int, r: int | tuple[int, ...] = 0, t: tuple[int, bool] | str | None = None, o: str = "") -> Ops | None:
        """ "Rep Rows 2-4", "rep Rows 2 and 4", which leaves out what lies between."""
        if not 0 < n <= MOST:
            return None
        times = t[0] if isinstance(t, tuple) else 0
        rows = (n, *r) if isinstance(r, tuple) else (n, max(r, n))
        listed = rows if isinstance(r, tuple) and rows != tuple(range(n, n + len(rows))) else ()
        return (Again(min(rows), max(rows), times, part=o, listed=listed),) if min(rows) > 0 else None

    def rep_last(self, n: int = 1, t: Any = None) -> Ops:
        return (Again(-n, -1, t[0] if isinstance(t, tuple) else 0),)

    def rep_last2(self, n: int = 2, t: Any = None) -> Ops:
        return (Again(-n, -1, t[0] if isinstance(t, tuple) else 0),)

    def rows_end(self, n: int, **_: Any) -> Ops | None:
        """ "Rep Rows 2 and 3, ending with a Row 2": what the last of the rows is."""
        return (Again(0, 0, ends=n),) if 0 < n <= MOST else None

    def rows_end_side(self, **_: Any) -> Ops:
        return ()

    def range_to(self, n: int) -> int:
        return n

    def range_and(self, n: int) -> tuple[int, ...]:
        return (n,)

    def range_list(self, n: int, m: int | tuple[int, ...]) -> tuple[int, ...]:
        return (n, *m) if isinstance(m, tuple) else tuple(range(n, min(m, n + MOST) + 1))

    def swap_number(self, n: int, k: str, n2: int) -> Ops | None:
        """ "As Row 4, with 3 hdc instead of 4"."""
        return _other_run(k, n, n2) if 0 < n <= MOST and 0 < n2 <= MOST else None

    def other_run(self, n: int, k: str, c: Noun = ANY, **_: Any) -> Ops | None:
        """ "As Rnd 3, but with 3 sc before each inc": the run of plain stitches of another length."""
        return _other_run(k, n) if 0 < n <= MOST else None

    def other_run_again(self, n: int, k: str, **_: Any) -> Ops | None:
        """ "Inc in same manner, having 5 dc between the incs": as the row before, but for that run."""
        return (Again(-1, -1), *_other_run(k, n)) if 0 < n <= MOST else None

    def rep_rows_but(self, n: int, l: Limit, m: Ops) -> Ops | None:  # noqa: E741
        """ "Work as Row 2 to last st, 2 sc in last st"."""
        there = self.instead_there(m)
        last = bool(there) and l[0] == "last" and l[1] == 1 and m[0].places[0].which == "last"  # type: ignore[union-attr]
        return (Again(n, n), *there) if there and last and 0 < n <= MOST else None

    def skip_swap(self, s: Ops) -> Ops | None:
        """ "As Rnd 6, but skip 3 sc": that many passed over where the row passes some over."""
        only = s[0] if len(s) == 1 else None
        plain = isinstance(only, Skip) and len(only.places) == 1 and only.places[0].which == "next"
        return (Again(0, 0, swap=((Skip(()), only),)),) if plain and only is not None else None

    def loops_of(self, c: Ops, **_: Any) -> Ops | None:
        """ "Same as Row 4, but having 5 ch in each loop": the row's loops of so many chains."""
        only = c[0] if len(c) == 1 else None
        return (Again(0, 0, swap=((Chain(0), Chain(only.count)),)),) if isinstance(only, Chain) else None

    def loops_of_size(self, s: tuple[str, int], **_: Any) -> Ops:
        return (Again(0, 0, swap=((Chain(0), Chain(s[1])),)),)

    def until_length(self) -> str:
        return "-"

    def grow(self, n: int, k: str = "", **_: Any) -> Ops:
        return (Again(-1, -1, grow=n),)

    def shrink(self, n: int, k: str = "", **_: Any) -> Ops:
        """ "Continue, working 1 less sc between decreases"."""
        return (Again(-1, -1, grow=-n),)

    def grow_on(self, **_: Any) -> Ops:
        """ "Continue increasing in this way": each increase lies one stitch further from the next."""
        return (Again(-1, -1, grow=1),)

    def shrink_on(self, **_: Any) -> Ops:
        """ "Continue decreasing as established": each decrease lies one stitch nearer to the next."""
        return (Again(-1, -1, grow=-1),)

    def grow_by(self, n: int, c: Noun = ANY) -> Ops | None:
        """ "Continue increasing 6 sts each rnd": each increase lies one stitch further from the next."""
        return (Again(-1, -1, grow=1, by=n),) if 0 < n <= MOST else None

    def shrink_by(self, n: int, c: Noun = ANY) -> Ops | None:
        """ "Continue decreasing 6 sts each rnd": each decrease lies one stitch nearer to the next."""
        return (Again(-1, -1, grow=-1, by=n),) if 0 < n <= MOST else None

    def grow_blocks(self, n: int, k: str = "", **_: Any) -> Ops | None:
        return (Again(-1, -1, grow=n, of="block"),) if 0 < n <= MOST else None

    def sides_of(self, n: int, **_: Any) -> Ops | None:
        """ "As Rnd 3, having two 3-dc groups between corners": so many on each side in all."""
        return (Again(-1, -1, grow=n, of="side of"),) if 0 < n <= MOST else None

    def grow_sides(self, n: int = 1, **_: Any) -> Ops | None:
        """ "As Rnd 3, having 1 more group on each side": of what stands in the spaces between corners, more."""
        return (Again(-1, -1, grow=n, of="side"),) if 0 < n <= MOST else None

    def grow_side_runs(self, n: int = 1, k: str = "") -> Ops | None:
        """ "As Rnd 3, with 4 more dc on each side": the stitches between corners, longer by so many."""
        return (Again(-1, -1, grow=n, of="run"),) if 0 < n <= MOST else None

    def side_runs_of(self, n: int, k: str) -> Ops | None:
        """ "As Rnd 3, having 11 dc between corners": the stitches between corners, so many."""
        return (Again(-1, -1, grow=n, of="run of"),) if 0 < n <= MOST else None

    def fewer(self, n: int, c: Noun) -> Ops | None:
        """ "having 1 loop less in each row": of what the row says so many times, fewer."""
        return (Again(-1, -1, grow=-n, of="times"),) if 0 < n <= MOST and c.name != "ring" else None

    def fasten_off(self, **_: Any) -> Ops:
        return (Act("fasten off"),)

    def more_places_for(self, ps: tuple[Place, ...]) -> tuple[Any, ...]:
        return (MorePlaces(ps),)

    def left_ones_for(self, p: tuple[Place, ...]) -> tuple[Any, ...]:
        return (MorePlaces(p),)

    def n_more_places_for(self, n: int, ps: tuple[Place, ...]) -> tuple[Any, ...] | None:
        return (MorePlaces(ps, n),) if 0 < n <= MOST else None

    def more_along(self, l: Limit) -> tuple[Any, ...]:  # noqa: E741
        return (MorePlaces((self.reaching(Place("each"), l),)),)

    # -- counts ---------------------------------------------------------------------------------------------------

    def count_list(self, c: tuple[int, Noun], m: tuple[tuple[int, Noun], ...] = ()) -> tuple[tuple[int, Noun], ...]:
        return (c, *m)

    def count_of(self, n: int, c: Noun, **_: Any) -> tuple[int, Noun]:
        return (n, c)

    def count_of_own(self, n: int, c: Noun) -> tuple[int, Noun] | None:
        """ "3 groups of X st": so many of a stitch that is a group itself."""
        return (n, c) if height_of(c.name) is None and c.name not in ("st", "ch", "sp", "lp") else None

    def count_loops(self, n: int, m: int, l: str = "", **_: Any) -> tuple[int, Noun]:  # noqa: E741
        """ "8 3 ch loops": so many, each of so many chains."""
        return (n, Noun("lp", m))

    def count_spaces(self, n: int, m: int, l: str = "", **_: Any) -> tuple[int, Noun]:  # noqa: E741
        return (n, Noun("sp", m))

    def count_total(self, n: int, c: Noun = ANY) -> tuple[int, Noun]:
        return (n, c)

    def count_bare(self, n: int, **_: Any) -> tuple[int, Noun]:
        return (n, ANY)


def _other_run(k: str, n: int, was: int = 0) -> Ops:
    """So many of a stitch, one in each, in place of what the row repeated has of it; 0 where that is not said."""
    return (Again(0, 0, swap=((Make(k, 0, (Place("next", count=was),)), Make(k, 1, (Place("next", count=n),))),)),)


def _moving(star: Star) -> Star:
    """ "Sl st in lp, *(sc, 3 dc, sc) in same lp; rep from * in each lp": what is worked in the same place again and again
    goes into the next one each time; the first of them into that which the round has come to."""
    placed = [op for op in star.ops if isinstance(op, Make | Into) and op.places]
    only = placed[0] if len(placed) == 1 and star.more is None and star.until is None else None
    if only is None or [(p.which, p.count, p.nth, p.of) for p in only.places] != [("same", 1, 0, None)] or not isinstance(star.ops[0], Make | Into):
        return star
    there = replace(only.places[0], which="next", bare=True)
    return replace(star, ops=tuple(replace(op, places=(there,)) if op is only and isinstance(op, Make | Into) else op for op in star.ops))


def _within_group(star: Star) -> Star:
    """ "*2 dc in first dc of next group, dc in next dc, 2 dc in last dc, ch 3": the last of the group that work has gone
    into, and not of the row."""
    out: list[Op] = []
    group: Noun | None = None
    for op in star.ops:
        place = op.places[0] if isinstance(op, Make | Into) and len(op.places) == 1 else None
        if isinstance(op, Make) and group is not None and place == Place("last", Noun(op.stitch)):
            op = replace(op, places=(Place("nth", place.noun, nth=-1, of=Place("next", group, bare=True)),))
        elif place is not None and place.of is not None and place.which == "nth" and place.of.noun.name not in ("st", "sp", "lp", "ch"):
            group = place.of.noun
        out.append(op)
    return replace(star, ops=tuple(out)) if tuple(out) != star.ops else star


def _called(stitch: str, noun: str) -> bool:
    """Whether a stitch made is what a noun counts."""
    return noun != "st" and stitch in (noun, {"cluster": "cl"}.get(noun, noun))
