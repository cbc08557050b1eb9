"""The first row worked into the foundation chain, and what the chain needs beyond its stitches."""

from __future__ import annotations

from dataclasses import replace

from ..pattern.lexicon import height_of
from ..pattern.tree import Act, Chain, Into, Make, Noun, Op, Place, RowText, Skip, Star, Times

#: Chains a row's height asks for when it says no turning chain (PG 26113, 1918, for sc to dtr).
_TURNING = {"sc": 1, "hdc": 2, "dc": 3, "tr": 4, "dtr": 5, "trtr": 6}


def _lead_chain(row: RowText) -> Chain | None:
    first = next((op for op in row.ops if not isinstance(op, Act)), None)
    return first if isinstance(first, Chain) else None


def _counted(row: RowText, kind: str) -> bool:
    """Whether the row's turning chain counts as a stitch: as said; unsaid, for dc and taller (common practice)."""
    chain = _lead_chain(row)
    if chain is None:
        return False
    if chain.counts is not None:
        return bool(chain.counts)
    return kind not in ("sc", "hdc") and chain.count >= _TURNING.get(kind, 1)


def _turning(row: RowText, kind: str) -> int:
    chain = _lead_chain(row)
    return chain.count if chain else _TURNING.get(kind, 1)


def chain_plus(row: RowText, kind: str) -> int:
    """The foundation's chains beyond its stitches: the turning chain, less one where it counts as a stitch."""
    return _turning(row, kind) - (1 if _counted(row, kind) else 0)


def into_foundation(row: RowText, kind: str) -> RowText:
    """The first row worked into the chain.

    The turning chain is left out (it is part of the foundation), the first stitch goes into the chain after it.
    """
    turning, counted = _turning(row, kind), _counted(row, kind)
    rest = [op for op in row.ops if not (isinstance(op, Act) and op.name in ("turn", "do not turn"))]
    if rest and isinstance(rest[0], Chain):
        rest = rest[1:]
    hook = Place("hook", Noun("ch"), nth=turning + 1)
    ops = [_on_chain(op) for op in rest]
    first = ops[0] if ops else None
    opening = Act("opening", kind if counted else "")
    notes = [opening] if turning > 1 else []
    if (isinstance(first, Make) and len(first.places) == 1 and first.places[0].which in ("each", "next", "first")) or (
        isinstance(first, Into) and len(first.places) == 1 and first.places[0].which in ("next", "first")
    ):
        ops[0:1] = [replace(first, places=(hook, *_rest_of(first.places[0]))), *notes]
    else:
        ops = [Skip((Place("first", Noun("ch"), count=turning),)), *ops]
    return replace(row, ops=tuple(ops))


def _rest_of(place: Place) -> tuple[Place, ...]:
    """What is left of a place when its first stitch is worked into the chain from the hook."""
    if place.which == "each":
        return (place,)
    return (Place("next", place.noun, count=place.count - 1),) if place.count > 1 else ()


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
