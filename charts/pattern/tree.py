"""The tree of a written pattern: what each row tells the hands to do, before anything is worked.

Every node is in US terms whatever the text's own; the writer puts them into either. `at` is where the words stand
(line, column, length); it does not take part in comparison, so that a tree read back equals the tree written.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import field
from typing import Literal

from ..made_late import dataclass

Span = tuple[int, int, int]
#: How a place is told; `Place` says what each means.
Which = Literal[
    "next", "first", "last", "each", "same", "edge", "evenly", "hook", "nth", "top", "beg", "any", "between", "before",
    "after", "skipped", "unworked", "opening", "ring", "made", "half", "ends", "marked", "row", "along post",
    "again",
]  # fmt: skip
#: What moves no stitch forward; `Act` says what each means.
ActName = Literal[
    "turn", "do not turn", "join", "do not join", "fasten off", "leave", "yarn", "loop", "along", "colour", "change",
    "stripes", "loops", "edge", "spread", "spread to", "row", "opposite", "behind", "front", "last", "opening",
    "facing", "magic ring", "goes into", "pattern", "in spaces", "from base", "crossing",
    "ends in", "begins in", "chains passed", "short",
    "other piece",
]  # fmt: skip
#: How a foot holds: what the hook goes into.
Hold = Literal[
    "top",          # under both loops of the stitch (or into a chain of the foundation)
    "front loop",
    "back loop",
    "space",        # round a chain: into the space or loop it makes
    "chain",        # into one chain of a run: `part` says which, from 0 in the order of work
    "front post",
    "back post",
    "between",      # between stitch `at` and the one before it
    "ring",
    "under",        # the other side of a foundation chain
    "picot",
    "edge",         # the end of a row, at the side of the piece
]  # fmt: skip
#: The same, as far as words say it; a third loop is drawn as a top.
Held = Hold | Literal["", "third loop"]
#: How work begins; `Start` says what each means.
How = Literal["chain", "ring", "magic ring", "over", "edge", "tube", "rest", "unsaid", "none"]
NOWHERE: Span = (0, 0, 0)


@dataclass(frozen=True, slots=True)
class Noun:
    """What is worked into: "st" any stitch, a US stitch name, "ch" one chain, "sp"/"lp" round a chain (`size` chains,
    0 any), "picot", "ring", "gap" (between stitches), "mesh", "block", or a group: "shell", "group", "corner", a
    special stitch's name, with `size` stitches of kind `of` where said."""

    name: str
    size: int = 0
    of: str = ""


@dataclass(frozen=True, slots=True)
class RowRef:
    """Another row than the one below: by its number, or `below` rows down."""

    number: int = 0
    below: int = 0


@dataclass(frozen=True, slots=True)
class Place:
    """Where the hook goes.

    `which`: next, first, last (with `count`), each (all that are left, `until` that many of a noun are left), same,
    edge (along the ends of rows; its noun "row" is every row, "side" as many as the edge takes), evenly (`count` spread
    over all that are left), hook (the `nth` chain from the hook, 0 the last), nth (the `nth` noun of `of`; 0 the
    middle one; all of them where `count` is 0), top (of `of`), beg (the row's beginning chain), any, between (the
    gap beside `of`), before, after, skipped (what this row skipped last, or the `nth` of it), unworked (the next
    `count` that were skipped in this row or an earlier one; 0 all at hand), opening (the chain skipped at the
    foundation's beginning), ring, made (the stitch just made), again (the last, worked already or not), half (the
    `nth` half of a noun). `also` are further nouns of "each", which ends before the next `upto` where that is said.
    `bare` is whether "next", or "1st" of an `nth`, is not said but meant."""

    which: Which
    noun: Noun = Noun("st")
    count: int = 1
    nth: int = 0
    of: Place | None = None
    row: RowRef | None = None
    hold: Held = ""
    until: tuple[int, Noun] | None = None
    also: tuple[Noun, ...] = ()
    upto: Noun | None = None
    step: int = 1
    after: int = 0
    bare: bool = field(default=False, compare=False)


@dataclass(frozen=True, slots=True)
class Make:
    """`count` of a stitch in each target of each place; without places, in the place of the group, or the next.
    `beside` is what goes into other places as they come ("sc in each sc and 2 sc in each ch-2 sp")."""

    stitch: str
    count: int = 1
    places: tuple[Place, ...] = ()
    beside: tuple[Make, ...] = ()
    at: Span = field(default=NOWHERE, compare=False)


#: What the posts named in "as Rnd 3, working around the sc of Rnd 3" take the place of: those that Rnd 3 goes round.
ROUND_THOSE = Make("posts", 0)
#: The noun of a stitch (`of` says which) that stands between petals.
PETAL_ST = "petal st"
#: What a space in the middle of the row is said to be `of`.
MIDDLE_OF = "middle"
#: What a beginning chain counts as that is the first leg of what is gathered; the name of the whole may follow.
FIRST_LEG = "leg"
#: What says of "edge" that it is called the other side.
OTHER_SIDE = "other side"
#: What says of "along" that work is said to begin there, with no slip stitches on the way.
FROM_THERE = "from"
#: What says that the other side of a foundation begins with the chain that the first side ended with.
WHOLE_SIDE = "whole"


@dataclass(frozen=True, slots=True)
class Chain:
    """`count` chains. `counts` says what a beginning chain counts as: kinds and ("ch", n) runs; () it does not;
    ("leg dc3tog",) it is the first leg of that."""

    count: int
    counts: tuple[str, ...] | None = None
    throughout: str = ""
    at: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Skip:
    """Places passed over."""

    places: tuple[Place, ...]
    at: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Into:
    """Several things worked into one place (in each target of it). `name` is the special stitch it came from."""

    ops: tuple[Op, ...]
    places: tuple[Place, ...]
    name: str = ""
    at: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Times:
    """A bracketed group done `times` times; 0 means around (as often as the row allows)."""

    ops: tuple[Op, ...]
    times: int
    name: str = ""
    at: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Star:
    """From * and again: `more` times (None: as the row allows), to the last `until`; `cut` is where ** stands
    (the last repetition ends there); `ending` comes after the last repetition, or is the end of it where it
    `replaces` (without one: the last repetition is sure to end at its cut). `said_more` is whether "more" stands in
    the words ("rep from * 3 more times"); without it some writers mean the number in all."""

    ops: tuple[Op, ...]
    more: int | None = None
    until: tuple[int, Noun] | None = None
    cut: int | None = None
    ending: tuple[Op, ...] = ()
    replaces: bool = False
    said_more: bool = True
    word: str = "across"
    upto: Noun | None = None
    at: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Either:
    """Whichever of these the place that comes next allows."""

    choices: tuple[Op, ...]
    at: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Act:
    """What moves no stitch forward: "turn", "do not turn", "join", "do not join", "fasten off", "leave" (the rest
    unworked), "yarn" (join yarn, `text` its colour), "loop" (the chain before is a button loop or a strap), "along"
    (slip stitches as far as `place`; `text` FROM_THERE: work begins there), "colour" (`text` from here on), "change"
    (`text` in the last yarn-over), "stripes" (`text` the colours of the rows in turn), "loops" (`text` front or back,
    for the row), "edge" (along the ends of rows; `text` OTHER_SIDE: of the foundation chain where the row is worked on
    one), "spread" (`text` increases, evenly spaced), "row" (work into row `place.row`),
    "opposite" (along the other side of the foundation; `text` WHOLE_SIDE: from the first side's last chain on),
    "behind" or "front" (of an earlier row), "crossing" (past stitches of this row:
    `text` "front" or "behind"), "last" (the row's last stitch goes into `place`, where `text`
    says so only in "even rows" or "odd rows"), "opening" (`text` what the foundation's skipped chains count as),
    "facing" (`text` the side), "ends in" and "begins in" (the row is said to end or begin with the stitch
    `text`), "other piece" (the chains just made are fastened to another piece with the stitch `text` in `place`),
    "chains passed" (chains are said to lie `text` the place just worked into), "short" (the rest of the row
    below may be left unworked, as the next row goes on from there; with `text` "on", this row goes on over what such
    rows have left)."""

    name: ActName
    text: str = ""
    place: Place | None = None
    at: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Corner:
    """ "working 3 sc in the middle sc of each 3-sc corner": what the row does instead at those places. The stitches
    "inc" and "dec" are as many more, or fewer, of what the row works there."""

    make: Make | Into
    at: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Again:
    """Rep Row(s) `first`-`last`, `times` times over where said; `swap` puts other ops in place of some; `grow` more
    stitches before each increase (a round that goes on as established), which makes `by` more of them in all where that
    is said; where `of` says so in each "block", or more "times" of what is worked so many times (fewer where it is
    negative). `ends` is the row that the last of them is said to be, `part` the piece whose rows they are, where one is
    named. `listed` are the rows one by one where they are no run, in the order said: "Rows 2 and 4", "Rows 3 and 2"."""

    first: int
    last: int
    times: int = 0
    swap: tuple[tuple[Op, Op], ...] = ()
    grow: int = 0
    by: int = 0
    of: str = ""
    ends: int = 0
    part: str = ""
    listed: tuple[int, ...] = ()
    at: Span = field(default=NOWHERE, compare=False)


Op = Make | Chain | Skip | Into | Times | Star | Either | Act | Corner | Again


@dataclass(frozen=True, slots=True)
class Stated:
    """One part of a stated count: "12 dc", "4 ch-2 sps", as printed."""

    count: int
    noun: Noun
    words: str = ""
    at: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class RowText:
    """One row, or a run of rows, as written. `first` and `last` are its numbers (0 for an unnumbered one).

    `begins` is how a piece begins with it, where one does; `part` the piece's name, made `make` times; `open_end` a
    row that others of the same kind follow ("Row 2 and all even rows", "Row 3 and up"); `chain_only` a row that is
    nothing but the foundation; `along` a row that may go round or along an edge; `at_will` one that is repeated as
    often as the worker likes; `stated_each` a run with one count for each of its rows ("Rows 2-4: ... (18) (16) (14)");
    `grows` is 1 where its words say that each row has more than the one before, -1 where fewer; `until` is the count of
    stitches until which it comes again (0 none); one without ops is only said to come to it.
    """

    label: str
    first: int
    last: int
    ops: tuple[Op, ...]
    is_round: bool = False
    side: str = ""
    stated: tuple[Stated, ...] = ()
    stated_at_end: bool = False
    line: int = field(default=0, compare=False)
    text: str = field(default="", compare=False)
    begins: Start | None = None
    part: str = ""
    make: int = 1
    open_end: bool = False
    chain_only: bool = False
    along: bool = False
    at_will: bool = False
    stated_each: bool = False
    grows: int = 0
    until: int = 0


@dataclass(frozen=True, slots=True)
class Special:
    """A special stitch: its name and abbreviation, and either `ops` it stands for, or a stitch of its own (`kind`) of
    `legs` posts of stitch `base`, whose feet go in as `spikes` say (places aside, rows below; none: all in its
    place)."""

    name: str
    abbreviation: str
    words: str
    ops: tuple[Op, ...] = ()
    kind: str = ""
    base: str = "dc"
    legs: int = 1
    chains: int = 0
    form: str = "gathered"
    in_place: bool = False
    line: int = field(default=0, compare=False)
    spikes: tuple[tuple[int, int], ...] = ()


@dataclass(frozen=True, slots=True)
class Start:
    """How the work begins: "chain" of `count`, "ring" of `count` chains, "magic ring", "over" `count` of `kind`, "edge"
    along something that is not given, round the open edge of a "tube" of rows that stand before it, or over the "rest"
    of row `row`: what the rows worked on it before have left, but for `count` stitches skipped."""

    how: How
    count: int = 0
    kind: str = "st"
    multiple: tuple[int, int] | None = None
    line: int = field(default=0, compare=False)
    text: str = field(default="", compare=False)
    colour: str = ""
    row: int = 0


@dataclass(frozen=True, slots=True)
class WrittenPattern:
    """A whole written pattern: terms, start, specials by abbreviation, rows, and what the notes say of all rows:
    `beginnings` is what beginning chains of so many chains count as. `sides` is how many sides or points the page's
    name for the shape gives it, 0 where it gives none. `yarns` are the short names it gives yarns, each
    with what it calls that yarn."""

    terms: str
    start: Start | None
    rows: tuple[RowText, ...]
    specials: tuple[Special, ...] = ()
    turn_rounds: bool = False
    spiral: bool = False
    loops: Held = ""
    title: str = ""
    beginnings: tuple[tuple[int, tuple[str, ...]], ...] = ()
    sides: int = 0
    yarns: tuple[tuple[str, str], ...] = ()


#: The fields in which an op holds further ops.
_HELD: dict[type, tuple[str, ...]] = {Into: ("ops",), Times: ("ops",), Star: ("ops", "ending"), Either: ("choices",)}


def walk(ops: tuple[Op, ...]) -> Iterator[Op]:
    """Every op of a tree, outermost first."""
    for op in ops:
        yield op
        for name in _HELD.get(op.__class__, ()):
            yield from walk(getattr(op, name))
