"""A round's beginning chain that is the first leg of a gathered stitch: "ch 3, dc2tog, *ch 2, dc3tog"."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from ...pattern.lexicon import TURNING, height_of, together
from ...pattern.tree import Act, Chain, Make, Op, Special, walk


def is_leg(ops: tuple[Op, ...], work: Sequence[Op], specials: Mapping[str, Special]) -> bool:
    """Whether a row begins with a chain and a gathered stitch as high, and gathers one stitch more later on, or is
    joined to its first such stitch. `work` is what the row makes, in its order."""
    first = work[1] if len(work) > 1 else None
    chain = work[0] if work else None
    if not isinstance(chain, Chain) or not isinstance(first, Make) or first.count != 1:
        return False
    kind, legs = _gathered(first, specials)
    if legs < 2 or TURNING.get(kind, 100) > chain.count:
        return False
    later = [_gathered(op, specials) for op in walk(ops) if isinstance(op, Make) and op is not first]
    named = first.stitch in specials and any(
        isinstance(op, Act) and op.name == "join" and op.place is not None and _of_cluster(op) for op in ops
    )
    return (kind, legs + 1) in later or named


def all_gathered(ops: tuple[Op, ...]) -> bool:
    """Whether a round makes nothing but stitches gathered in one place each: its chain only lifts the work."""
    made = [op for op in walk(ops) if isinstance(op, Make) and op.stitch != "sl st"]
    one = [op for op in made if together(op.stitch) > 1 and op.places and all(p.count == 1 for p in op.places)]
    return len(made) > 0 and one == made


def _of_cluster(op: Act) -> bool:
    place = op.place
    while place is not None:
        if place.noun.name in ("cluster", "cl"):
            return True
        place = place.of
    return False


def goes_on(work: Sequence[Op]) -> bool:
    """Whether its legs stand in stitches side by side, so that the chain stands over one of its own."""
    first = work[1]
    return isinstance(first, Make) and any(p.which == "next" and p.count > 1 for p in first.places)


def _gathered(op: Make, specials: Mapping[str, Special]) -> tuple[str, int]:
    """Of which stitch and how many a stitch is gathered."""
    special = specials.get(op.stitch)
    if special is not None:
        return (special.base, special.legs) if special.kind == "cl" else ("", 1)
    return height_of(op.stitch) or "", together(op.stitch)
