"""Loops, rows and nouns: what a place is told by."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from typing import Any

from ....made_late import dataclass
from ...tree import Held, Noun, Place, RowRef, Special
from .parts import ANY


class _Functions(dict[str, Any]):
    """What an object has under each name that was asked for."""

    def __init__(self, owner: object) -> None:
        super().__init__()
        self._owner = owner

    def __missing__(self, name: str) -> Any:
        found = self[name] = getattr(self._owner, name)
        return found


@dataclass(slots=True)
class Nouns:
    """The functions, for one row: the terms, the pattern's own stitches, and what increases are made of."""

    terms: str
    specials: Mapping[str, Special]
    base: str = "sc"
    learned: dict[str, Special] = field(default_factory=dict)

    def table(self) -> dict[str, Any]:
        """The functions by name, each when a row first asks for it: a row comes by a few of some hundred."""
        return _Functions(self)

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

    def same_q(self, p: Any, q: Any) -> Any:
        """The second of two that tell the same: "in the last st, which is the top of the ch-3"."""
        return q

    def same_l(self, l: Any) -> Any:  # noqa: E741
        return l

    def same_t(self, t: Any) -> Any:
        return t

    def same_o(self, o: int) -> int:
        return o

    def same_k(self, k: str) -> str:
        return k

    def same_h(self, h: Held) -> Held:
        return h

    def same_a(self, a: str) -> str:
        return a

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

    def row_one(self) -> RowRef:
        return RowRef(number=1)

    def both_rows(self, n: int, n2: int, w: str = "") -> RowRef | None:
        """ "Around the chains of Rows 3 and 4": what goes round both goes round the lower one."""
        return RowRef(number=min(n, n2)) if abs(n - n2) == 1 else None

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

    def space_in_group(self, g: str) -> Noun:
        """ "Each V-st sp", "next shell sp": the space in such a group, where groups have one."""
        return Noun("sp", of=f"in {g}") if g in ("shell", "V-st") else Noun("sp")

    def space_in_own(self, x: str) -> Noun | None:
        """ "Each fan sp" of a group that the pattern explains."""
        own = self.own_noun(x)
        return Noun("sp", of=f"in {own.name}") if own is not None else None

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

    def sized_group_bare(self, g: tuple[int, str], **_: Any) -> Noun | None:
        return Noun("group", g[0], g[1]) if g[1] != "row" else None

    def sized_corner(self, g: tuple[int, str]) -> Noun:
        return Noun("corner", g[0], g[1])

    def counted_group(self, n: int, k: str) -> Noun:
        return Noun("group", n, k)

    def gathered_of(self, n: int, k: str, g: str) -> Noun:
        """ "2dc cluster", told with its legs."""
        return Noun("cluster" if g == "cluster" else "group", n, k)

    def stitch_group(self, k: str) -> Noun:
        """ "dc-group": of whatever number."""
        return Noun("group")

    def mesh(self) -> Noun:
        return Noun("mesh")

    def own_noun(self, x: str) -> Noun | None:
        special = self.specials.get(x)
        return Noun(special.abbreviation if special else x)

    def ring_noun(self) -> Noun:
        return Noun("ring")

    def corner(self) -> Noun:
        return Noun("corner")

    def any_group(self) -> Noun:
        return Noun("group")

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
