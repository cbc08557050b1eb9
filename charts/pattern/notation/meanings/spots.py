"""Limits along a row, and lists of places that work goes into."""

from __future__ import annotations

from ....made_late import dataclass, replace
from ...tree import Held, Make, Noun, Place, RowRef
from .parts import ANY, HELD, MOST, Limit, Ops, loop_of, post_of
from .places import Places


@dataclass(slots=True)
class Spots(Places):
    """Limits along a row, and lists of places that work goes into."""

    # -- limits ---------------------------------------------------------------------------------------------------

    def to_end(self) -> Limit:
        return ("end",)

    def along_part(self, l: Limit = ("end",)) -> Limit:  # noqa: E741
        """ "Across back to next ch-1 sp": the part's name says nothing more."""
        return l

    def around_end(self) -> Limit:
        return ("end", "around")

    def to_last(self, n: int = 1, c: Noun | None = None) -> Limit | None:
        return ("last", n, c) if n > 0 else None

    def to_last_and_beg(self, b: Place, n: int = 1, c: Noun | None = None) -> Limit | None:
        return ("last", n + 1, ANY)

    def all_but(self, n: int = 1, c: Noun | None = None) -> Limit | None:
        return ("last", n, c, "but") if n > 0 else None

    def to_second_last(self, c: Noun | None = None) -> Limit:
        return ("last", 2, c)

    def up_to(self, c: Noun) -> Limit:
        return ("upto", c)

    def corner_stop(self) -> Noun:
        return Noun("corner")

    def to_marker(self, **_: object) -> Limit:
        return ("upto", Noun("marker"))

    def marker_stop(self, **_: object) -> Noun:
        return Noun("marker")

    def middle_stop(self) -> Noun:
        return Noun("middle")

    def to_middle(self) -> Limit:
        return ("upto", Noun("middle"))

    def to_middle_bare(self) -> Limit:
        """ "To centre": to where the row below was increased, be it a stitch or a space."""
        return ("upto", self.corner_stop())

    def to_before(self, stop: Noun, n: int = 1, c: Noun = ANY) -> Limit | None:
        """ "To 2 sts before the marker": so many before the place."""
        return ("before", n, c, stop) if n > 0 and stop.name != "st" else None

    def to_beg(self, b: Place) -> Limit:
        return ("last", 1, ANY)

    # -- spots ----------------------------------------------------------------------------------------------------

    def into(self, ps: tuple[Place, ...], w: str = "", h: Held = "") -> tuple[Place, ...]:
        return tuple(replace(p, hold=loop_of(h)) for p in ps) if h else ps

    def held_into(self, h: Held, ps: tuple[Place, ...], w: str = "") -> tuple[Place, ...]:
        return tuple(replace(p, hold=loop_of(h)) for p in ps)

    def unworked_in_rows(self, c: Noun, rs: tuple[int, ...], q: str = "", n: int = 0) -> tuple[Place, ...]:
        """ "in each unworked st of Rows 5 and 3": those of the one row, then those of the other."""
        return tuple(Place("unworked", c, n, row=RowRef(number=one)) for one in rs)

    def into_bare(self, ps: tuple[Place, ...]) -> tuple[Place, ...]:
        return ps

    def round_chains(self, n: int, r: RowRef | None = None) -> tuple[Place, ...] | None:
        """ "Round the 3 ch": into the space that so many chains make."""
        return (Place("next", Noun("sp", n), row=r if isinstance(r, RowRef) else None),) if 0 < n <= MOST else None

    def into_all(self, ps: tuple[Place, ...]) -> tuple[Place, ...]:
        return tuple(replace(p, which="each") if p.which == "next" and p.count == 1 else p for p in ps)

    def all_along(self, l: Limit, h: Held = "") -> tuple[Place, ...]:  # noqa: E741
        return (replace(self.reaching(Place("each", hold=loop_of(h)), l), bare=l[0] == "end"),)

    def all_of_row(self, k: str, r: RowRef | str) -> tuple[Place, ...]:
        """ "Hdc across the dc of the previous row": one in each of them."""
        return (Place("each", self.of_stitch(k), row=r if isinstance(r, RowRef) else None),)

    def in_number(self, n: int) -> tuple[Place, ...] | None:
        """ "Sc in 3": the stitches that come next."""
        return (Place("next", count=n),) if 0 < n <= MOST else None

    def next_held_list(self, h: Held) -> tuple[Place, ...]:
        return (Place("next", HELD, hold=loop_of(h)),)

    def round_post(self, a: str, ps: tuple[Place, ...]) -> tuple[Place, ...]:
        return tuple(replace(p, hold=post_of(a)) for p in ps)

    def next_post(self) -> tuple[Place, ...]:
        """ "Around the post": of the stitch that comes next."""
        return self.round_post("own post", (Place("next", bare=True),))

    def round_one_post(self, p: Place, a: str = "own post") -> tuple[Place, ...]:
        """ "Around next tr from the back", "around next dc post": that post, from the side that is said."""
        return self.round_post(a, (p,))

    def round_posts(self, ps: tuple[Place, ...]) -> tuple[Place, ...]:
        """ "Around each of the next 3 posts": those of the stitches there."""
        return self.round_post("own post", ps)

    def all_but_last(self, n: int = 1, c: Noun | None = None) -> tuple[Place, ...]:
        return (Place("each", c or ANY, until=(n, c or ANY)),)

    def all_but_first(self, n: int = 1, c: Noun | None = None) -> tuple[Place, ...]:
        return (Place("each", c or ANY, after=n),)

    def over_each_run(self, n: int) -> tuple[Place, ...] | None:
        """ "12 dc over each 10 ch": round the chains of each such loop."""
        return (Place("each", Noun("sp", n)),) if 1 < n <= MOST else None

    def over_into(self, c: Noun, ps: tuple[Place, ...]) -> tuple[Place, ...] | None:
        """ "Over next ch-5 sp into the center st below": what lies under a loop is two rows down."""
        under = tuple(replace(p, row=RowRef(below=2)) if p.row == RowRef(below=-1) else p for p in ps)
        return under if c.name in ("sp", "lp", "ch", "petal") else None

    def slip_back_post(self, ps: tuple[Place, ...]) -> Ops:
        return (Make("sl st", 1, tuple(replace(p, hold="back post") for p in ps)),)

    def slip_front_post(self, ps: tuple[Place, ...]) -> Ops:
        return (Make("sl st", 1, tuple(replace(p, hold="front post") for p in ps)),)

    def round_post_between(self, p: Place, g: str) -> tuple[Place, ...] | None:
        """ "Around next post between petals"."""
        between = self.between_petals(p, g)
        return self.round_post("own post", (between,)) if between is not None else None

    def each_evenly(self, l: Limit = ("end",)) -> tuple[Place, ...]:  # noqa: E741
        return (replace(self.reaching(Place("each"), l), which="evenly"),)

    def along_whole(self) -> tuple[Place, ...]:
        """ "Evenly along the side": how many go there is for the stitch to say."""
        return (Place("edge", Noun("side")),)

    def in_loop(self) -> tuple[Place, ...]:
        """ "Over the handle chain": round the chains that were made for it."""
        return (Place("next", Noun("sp")),)

    def around_limb(self, n: int = 0) -> tuple[Place, ...]:
        """ "Around the first leg": stitches of a piece worked before."""
        return (Place("edge", ANY, count=n) if n else Place("edge", Noun("side")),)

    def into_limb(self) -> tuple[Place, ...]:
        return (Place("edge", Noun("limb")),)

    def along_bridge(self) -> tuple[Place, ...]:
        """ "Along the chain" between two pieces that are joined."""
        return (Place("edge", Noun("bridge")),)

    def along_rows(self) -> tuple[Place, ...]:
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
