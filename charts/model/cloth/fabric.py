"""The worked fabric: stitches, rows and what each stitch goes into.

A stitch names its feet relative to its own row (`back` rows below, item `at` of that row in the order in which
that row was worked), so that two rows worked alike are one shared object wherever they lie in the fabric.
"""

from __future__ import annotations

from collections import Counter
from functools import cached_property
from typing import Literal

from ...made_late import dataclass
from ...pattern.tree import Hold, How

#: What a stitch is to the count. "stitch" counts; "turning" is a beginning chain that counts as its kind;
#: "start" a beginning chain that does not count; "chain" a run of chains lying in the row; "picot" hangs on
#: the row; "join" and "travel" are slip stitches that only move the hook; "foundation" a chain of the foundation;
#: "edge" what is not given.
Role = Literal["stitch", "turning", "start", "chain", "picot", "join", "travel", "foundation", "ring", "edge"]
#: How a row runs on the chart, seen from the right side; "" while its side is not settled.
Direction = Literal["right-to-left", "left-to-right", ""]


@dataclass(frozen=True, slots=True)
class Foot:
    """What one foot of a stitch goes into: item `at` of the row `back` rows below (0: its own row)."""

    at: int
    back: int = 1
    hold: Hold = "top"
    part: int = 0


@dataclass(frozen=True, slots=True)
class Stitch:
    """One thing made, in the order of work.

    `kind` is its US abbreviation ("sc", "dc2tog", "ch", "picot", "sl st", or a special stitch's own).
    `chains` is the number of chains it is made of (a run "ch 5" is one item with 5; a beginning chain that counts
    as dc has kind "dc", role "turning", chains 3). `place` is shared by the stitches of one row that were worked
    into one place by one instruction (a shell), else -1. `legs` is how many posts a cluster has and `base` the plain
    stitch they are, where the kind is a special stitch's own. `passes` is where it was worked past stitches of its own
    row that it crosses, as the worker sees it: "front", "behind", or "" where the words do not say.
    `colour` is the key of its own colour where that changes within the row, else "": that of the row.
    """

    kind: str
    feet: tuple[Foot, ...] = ()
    role: Role = "stitch"
    chains: int = 0
    place: int = -1
    legs: int = 0
    base: str = ""
    passes: str = ""
    colour: str = ""


@dataclass(frozen=True, eq=False)
class Row:
    """One worked row or round; `stitches` in the order of work. Shared by all rows that are worked alike, and so is
    what is found out of its stitches.

    `takes` is how many stitches and chains of the row below are accounted for. `repeat` is the row's main repeat as
    (first item, items a repetition, repetitions), where every repetition made the same number of items. `groups` are
    the items worked into one place, or as one named stitch, as (first item, items, name or "").
    """

    stitches: tuple[Stitch, ...]
    takes: int = 0
    joined: bool = False
    repeat: tuple[int, int, int] | None = None
    groups: tuple[tuple[int, int, str], ...] = ()

    @cached_property
    def made(self) -> int:
        """What the row makes for the next row to work into, counted as the pattern counts."""
        return sum(1 for s in self.stitches if counts(s))

    @cached_property
    def kinds_made(self) -> frozenset[str]:
        """The kinds of what it makes."""
        return frozenset(s.kind for s in self.stitches if counts(s))

    @property
    def closing(self) -> str:
        """The stitch into the round's own beginning that closes it in place of its last chains ("ch 2, dc in first
        sc"), by its kind; "" where none does. The next row does not count it; some writers do."""
        return next((s.kind for s in reversed(self.stitches) if s.role == "join" and s.kind != "sl st"), "")

    @cached_property
    def turns_in_stitch(self) -> bool:
        """Whether it begins with a chain that counts as a stitch."""
        return any(s.role == "turning" for s in self.stitches)

    @property
    def chains(self) -> int:
        """Chain stitches lying in the row (turning chains that count as a stitch, and picots, are not)."""
        return sum(s.chains for s in self.stitches if s.role == "chain")

    def kinds(self) -> dict[str, int]:
        """How many of each kind the row holds: what counts, and picots."""
        return dict(Counter(s.kind for s in self.stitches if counts(s) or s.role == "picot"))


def counts(stitch: Stitch) -> bool:
    """Whether a stitch is one the next row counts (common practice, no source)."""
    return stitch.role in ("stitch", "turning")


@dataclass(frozen=True, slots=True, eq=False)
class WorkedRow:
    """A row where it lies in the fabric.

    `number` is 1-based as printed (0: an unnumbered row such as an edging); `side` is "RS" or "WS";
    `direction` is "right-to-left" or "left-to-right" as a right-hander works it seen from the right side;
    `turned` says whether the work was turned before it. `colour` is the key of the pattern's colour table. `joins` says
    that a yarn is joined where it begins, `cut` that the yarn is cut where it ends.
    """

    label: str
    number: int
    row: Row
    side: str = "RS"
    direction: Direction = "right-to-left"
    turned: bool = True
    is_round: bool = False
    section: str = ""
    colour: str = ""
    line: int = 0
    words: str = ""
    joins: bool = False
    cut: bool = False

    @property
    def called(self) -> str:
        """What it is called: "round", laid open as rows too, or "row"."""
        return "round" if self.is_round or self.label.startswith("Rnd") else "row"


@dataclass(frozen=True, slots=True, eq=False)
class Fabric:
    """What the hands make: the start and the rows on it, from the bottom up (or from the centre out).

    `start` is "chain", "ring" (a chain joined), "magic ring" or "over" (stitches of a piece not given).
    `foundation` is that start as a row: `chains` foundation stitches, or one "ring". `risen` is how many of the
    foundation's last chains stand up as the first row's beginning chain (they are drawn in that row).
    `yarns` are the short names of yarns that the page tells, each with what it calls that yarn.
    Row i+1's feet with back=1 go into row i; the first row's into `foundation`.
    """

    start: How
    foundation: Row
    rows: tuple[WorkedRow, ...]
    chains: int = 0
    risen: int = 0
    yarns: tuple[tuple[str, str], ...] = ()

    def base_of(self, index: int, back: int = 1) -> Row | None:
        """The row `back` below row `index` (0-based): another row, the foundation, or None below that."""
        below = index - back
        return self.rows[below].row if below >= 0 else self.foundation if below == -1 else None
