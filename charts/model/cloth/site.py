"""What the player of a row knows: where it is worked, how open words are read, where it may come back to."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import field

from ...made_late import dataclass
from ...pattern.tree import Held, Noun, Special
from .fabric import Foot
from .faults import Steps
from .ground import Ground

ANY_STITCH = Noun("st")
SPACES = ("sp", "lp", "gap", "corner sp")


@dataclass(frozen=True, slots=True)
class Target:
    """A place found: how a foot stands in it, the slots it covers, and on which row below (`back`) they are."""

    foot: Foot
    start: int
    end: int
    back: int = 1
    noun: Noun = ANY_STITCH


@dataclass(frozen=True, slots=True)
class Choice:
    """How to read what the words leave open: what a beginning chain counts as (None: as the words or the usual
    practice say), whether "st" includes chains, and whether a round ends on what its first slip stitches passed,
    whether "rep from * k times" means k in all instead of k more, whether a space named without "next" behind slip
    stitches into one is that one, whether stitches worked further down take the place of those above ("plain": not
    beside chains, "all"), whether the gaps "between 3-dc groups" are also those beside one, whether the last repetition
    of a round ends where the round does, whether slip stitches behind a beginning chain only move the hook, and whether
    "next 3 dc" are those that stand side by side where a chain lies between nearer ones (`runs`)."""

    chain: tuple[str, ...] | None = None
    loose: bool = False
    wrap: bool = False
    in_all: bool = False
    stay: bool = False
    over: str = ""
    wide_gaps: bool = False
    cut_short: bool = False
    moved_on: bool = False
    runs: bool = False


@dataclass(frozen=True, slots=True)
class Beside:
    """What stands beside the words being played: the slot that was skipped for a stitch worked further down in its
    stead (`over`), and whether chains are made before or after it."""

    over: int | None = None
    chain: bool = False


@dataclass(frozen=True, slots=True)
class Site:
    """All the player must know of where a row is worked: the ground of the row below and of earlier rows (by how
    many rows below), what below is called, the pattern's special stitches, and the row's own manner. `worked` remembers
    which items of a row below the rows since go into, from one row below to another. `two_sided`: on a foundation chain
    that is not closed to a ring, so that a round may go on along its other side. `counted`: the row states what it
    makes. `spiral`: it is worked about a ring and never turned, even if it is called a row."""

    ground: Callable[[int], Ground | None]
    below: str
    specials: dict[str, Special]
    is_round: bool = False
    opening: tuple[str, ...] | None = None
    loops: Held = ""
    throughout: dict[int, tuple[str, ...]] = field(default_factory=dict)
    number: int = 0
    on_foundation: bool = False
    two_sided: bool = False
    starts_at: int = 0
    rows_below: int = 0
    along: bool = False
    edged: bool = False
    at_will: bool = False
    counted: bool = False
    spiral: bool = False
    steps: Steps = field(default_factory=Steps)
    terms: str = "US"
    worked: dict[tuple[int, int], set[int]] = field(default_factory=dict, compare=False)
