"""What meanings are made of beside the nodes of the tree: limits, endings, left-over stitches, what a chain counts as."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from ....made_late import dataclass
from ...tree import Chain, Held, Into, Make, Noun, Op, Place, Star

ANY = Noun("st")
#: What stands for no place at all behind a loop: "12 sc in back loops only".
HELD = Noun("held")
#: What stands for the stitches that the work before stops short of: "sc in those".
THOSE = "those"
Ops = tuple[Op, ...]
#: ("end",), ("last", count, noun), ("upto", noun)
Limit = tuple[Any, ...]
MOST = 100_000
#: From so many on, "n sc in next n sts" gives each one, and "n sc around" counts them all.
FEW = 4


@dataclass(frozen=True, slots=True)
class Counted:
    """A stated count among the clauses: (number, noun) pairs."""

    parts: tuple[tuple[int, Noun], ...]


@dataclass(frozen=True, slots=True)
class Ending:
    """Where an ending begins: "with" what follows ends the row, "last" what follows ends the last repetition, "at" the
    last repetition ends at its mark, "nothing" it says only where the row ends, "omit" the last repetition is without
    its last `what`, "chain" the last repetition ends with the chain `what`."""

    how: str
    what: Op | None = None


@dataclass(frozen=True, slots=True)
class BareRepeat:
    """ "Repeat to end" with no mark that says from where; `patterned`: told as "work in pattern"."""

    more: int | None = None
    limit: Limit = ("end",)
    from_start: bool = False
    said_more: bool = False
    clauses: int = 0
    patterned: bool = False


@dataclass(frozen=True, slots=True)
class UntilGroups:
    """A repeat worked until the row has so many groups of a kind, those before it counted in."""

    star: Star
    count: int
    noun: Noun


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
    """What a chain is said to count as: () nothing. `said` is of how many chains it is said, 0 where that is not told;
    `first` of the first of them only."""

    parts: tuple[str, ...]
    throughout: str = ""
    said: int = 0
    first: bool = False


def own_chain(place: Place, chain: Chain) -> bool:
    """Whether a slip stitch goes back into the chain just made, or the stitch before it: a picot."""
    if place.which == "hook" and place.nth in (chain.count, chain.count - 1) and chain.count <= 12:
        return True
    if place.which == "nth" and place.of is not None and place.of.which == "beg" and place.of.noun.size == chain.count:
        return True
    if place.which == "same" and place.noun.name in ("sp", "lp"):
        return False
    if place.which == "first" and place.noun.name == "ch" and place.count == 1 and chain.count <= 12:
        return True
    return place.which in ("last", "top", "same", "made") and place.row is None and not (place.which == "same" and place.of) and chain.count <= 12


#: So many chains at most hang from a stitch as a picot (common practice, no source).
_MOST_OF_PICOT = 6


def on_just_made(ops: Sequence[Op], place: Place) -> bool:
    """Whether a slip stitch behind a few chains goes into what was made right before them, called by its name alone:
    "cluster in next sp, ch 3, sl st in tip of cluster"; said of a row below it would be "in next cluster"."""
    before, chain = ops[-2:] if len(ops) > 1 else (None, None)
    if not isinstance(before, Make | Into) or not isinstance(chain, Chain) or chain.count > _MOST_OF_PICOT:
        return False
    made = before.name if isinstance(before, Into) else before.stitch
    kinds = {made, *({"cl": "cluster", "pc": "popcorn"}.get(word, word) for word in made.split())}  # "3-dc cluster"
    named = place.which == "next" and place.bare and place.count == 1 and place.row is None and not place.nth
    return named and place.noun.name in kinds and not place.noun.size


def loop_of(hold: Held) -> Held:
    """How a place is held that words tell: a top is what is meant where nothing is said."""
    return "" if hold == "top" else hold


def post_of(said: str) -> Held:
    """The post of a stitch that words tell; "own" where they say only that it is one."""
    return "back post" if said == "back post" else "front post"
