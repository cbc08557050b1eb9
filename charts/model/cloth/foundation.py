"""The first row worked into the foundation chain, and what the chain needs beyond its stitches."""

from __future__ import annotations

from ...made_late import dataclass, replace
from ...pattern.lexicon import TURNING, height_of, together
from ...pattern.tree import Act, Chain, Into, Make, Noun, Op, Place, RowText, Skip, Star, Times

#: What is not said of a foundation chain: there is nothing to turn, and no loops to choose from.
_NOT_ON_CHAIN = ("turn", "do not turn", "loops")


def _lead_chain(row: RowText) -> Chain | None:
    first = next((op for op in row.ops if not isinstance(op, Act)), None)
    return first if isinstance(first, Chain) else None


def _counted(row: RowText, height: str) -> bool:
    """Whether the row's turning chain counts as a stitch: as said; unsaid, for dc and taller (common practice)."""
    chain = _lead_chain(row)
    if chain is None:
        return False
    if chain.counts is not None:
        return bool(chain.counts)
    return height not in ("sc", "hdc") and chain.count >= TURNING.get(height, 1)


def _turning(row: RowText, height: str) -> int:
    chain = _lead_chain(row)
    return chain.count if chain else TURNING.get(height, 1)


@dataclass(frozen=True, slots=True)
class _Beginning:
    """How a row begins: its turning chain's chains, what they count as (() for nothing), the rest of the row."""

    turning: int
    counts: tuple[str, ...]
    rest: tuple[Op, ...]


def _beginning(row: RowText, kind: str) -> _Beginning:
    height = height_of(kind) or kind
    chain = _lead_chain(row)
    counts = () if not _counted(row, height) else (chain.counts or (height,)) if chain else (height,)
    rest = [op for op in row.ops if not (isinstance(op, Act) and op.name in _NOT_ON_CHAIN)]
    if rest and isinstance(rest[0], Chain):
        rest = rest[1:]
    return _Beginning(_turning(row, height), counts, tuple(rest))


def chain_plus(row: RowText, kind: str) -> int:
    """The foundation's chains beyond its stitches: the turning chain, less one where it counts as a stitch.

    Where it counts and the row's first stitch goes into the same place ("dc in first st"), both stand on a chain
    of their own and nothing is taken off.
    """
    begins = _beginning(row, kind)
    return begins.turning - (1 if begins.counts and not _shares(begins) else 0)


def _shares(begins: _Beginning) -> bool:
    """Whether a stitch goes into the place that the turning chain stands on."""
    first = begins.rest[0] if begins.rest else None
    return isinstance(first, Make | Into) and bool(first.places) and first.places[0].which == "first"


def into_foundation(row: RowText, kind: str, *, repeats: bool = True) -> RowText:
    """The first row worked into the chain.

    The turning chain is left out (it is part of the foundation), the first stitch goes into the chain after it.
    Where the row begins with a repeat, its first time is written out if the row `repeats` it.
    """
    begins = _beginning(row, kind)
    ops = tuple(_on_chain(op) for op in begins.rest)
    passed, ops = _skipped(ops, begins)
    more, ops = _skipped(_written_out(ops) if repeats else ops, begins)
    skipped = passed + more
    hooked = _hooked(ops, begins, skipped)
    if hooked is None:
        turning = Skip((Place("first", Noun("ch"), count=begins.turning + skipped),))
        return replace(row, ops=(turning, *ops))
    return replace(row, ops=hooked)


def on_ring(row: RowText) -> RowText:
    """The first round worked into the joined chain, a stitch to a chain."""
    return replace(row, ops=tuple(_on_chain(op) for op in row.ops))


def _written_out(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """A row that begins with a repeat, with the first time written out before it."""
    first = ops[0] if ops else None
    if isinstance(first, Star) and first.cut is None and not first.replaces:
        return (*_written_out(first.ops), *_once_less(first), *ops[1:])
    if isinstance(first, Times) and not first.name and first.times > 1:
        again = (replace(first, times=first.times - 1),) if first.times > 2 else first.ops
        return (*_written_out(first.ops), *again, *ops[1:])
    return ops


def _once_less(star: Star) -> tuple[Op, ...]:
    """A repeat whose first time is written out before it."""
    if star.more is None:
        return (star,)
    if star.more > 1:
        return (replace(star, more=star.more - 1),)
    return (*(star.ops * star.more), *star.ending)


def _skipped(ops: tuple[Op, ...], begins: _Beginning) -> tuple[int, tuple[Op, ...]]:
    """The chains that the row's beginning passes over after the turning chain, and the row without saying so."""
    first = ops[0] if ops else None
    if not isinstance(first, Skip) or len(first.places) != 1 or first.places[0].which not in ("first", "next"):
        return 0, ops
    place = first.places[0]
    if place.nth or place.noun.name != "ch" or place.row or place.of:
        return 0, ops
    stands = 1 if begins.counts and place.which == "first" else 0
    return place.count - stands, ops[1:]


def _hooked(ops: tuple[Op, ...], begins: _Beginning, skipped: int) -> tuple[Op, ...] | None:
    """The row with its first stitch in the nth chain from the hook; None where it begins with something else."""
    first = ops[0] if ops else None
    if isinstance(first, Make) and not first.places:
        first = replace(first, places=(Place("next", Noun("ch"), count=together(first.stitch)),))
    if not isinstance(first, Make | Into) or not first.places:
        return None
    place = first.places[0]
    if place.which not in ("each", "next", "first") or place.nth or place.row or (
        isinstance(first, Into) and (len(first.places) > 1 or place.count > 1 or place.which == "each")
    ):  # fmt: skip
        return None
    legs = min(together(first.stitch), place.count) if isinstance(first, Make) and place.which != "each" else 1
    hook = Place("hook", Noun("ch"), nth=begins.turning + skipped + 1, count=legs)
    whole = replace(first, places=(hook, *_rest_of(place, legs), *first.places[1:]))
    return (whole, *_opening(begins, skipped), *ops[1:])


def _opening(begins: _Beginning, skipped: int) -> tuple[Act, ...]:
    """What the chains before the first stitch count as, where that is not plain."""
    if begins.turning + skipped < 2:
        return ()
    passed = (f"sk {skipped}",) if begins.counts and skipped else ()
    return (Act("opening", ", ".join((*begins.counts, *passed))),)


def _rest_of(place: Place, legs: int) -> tuple[Place, ...]:
    """What is left of a place when its first `legs` stitches are worked into the chains from the hook."""
    if place.which == "each":
        return (place,)
    return (Place("next", place.noun, count=place.count - legs),) if place.count > legs else ()


def _on_chain(op: Op) -> Op:
    """The words of a row as they are said of a foundation chain: every stitch below is a chain."""
    if isinstance(op, Make | Into | Skip):
        op = replace(op, places=tuple(_chain_place(p) for p in op.places))
    if isinstance(op, Into | Times | Star):
        op = replace(op, ops=tuple(_on_chain(o) for o in op.ops))
    if isinstance(op, Star):
        until = (op.until[0], Noun("ch")) if op.until else None
        op = replace(op, until=until, ending=tuple(_on_chain(o) for o in op.ending))
    return op


def _chain_place(place: Place) -> Place:
    until = (place.until[0], Noun("ch")) if place.until else None
    noun = Noun("ch") if place.noun.name == "st" or height_of(place.noun.name) else place.noun
    return replace(place, noun=noun, until=until, hold="", also=())
