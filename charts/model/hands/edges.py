"""Along the edge of a flat piece, or of a cloth, ring or handle that is not given: as many stitches go there as the
words say. Where they say no number, nothing can be counted: such a row is not checked, and hands on its stated count.
"""

from __future__ import annotations

from ...made_late import replace
from ...pattern.tree import NOWHERE, Act, Into, Make, Noun, Op, Place, Span, Star, Times
from ..cloth.fabric import Foot
from ..cloth.faults import Stuck
from ..cloth.site import Target
from . import remaining
from .hand import Hand

#: The kind of a stop that is no fault: how many stitches go there is not said.
UNSAID = "unsaid"
#: How a piece begins that is worked over what is not given.
NOT_GIVEN = ("edge", "unsaid")


def unsaid(at: Span = NOWHERE) -> Stuck:
    """How many stitches go along an edge is not said."""
    return Stuck("how many stitches go along the edge is not said", "say how many, or state the count", at, UNSAID)


def told(ops: tuple[Op, ...]) -> None:
    """Raise Stuck where a row goes along an edge and never says what it works there."""
    at = next((n for n, op in enumerate(ops) if isinstance(op, Act) and op.name == "edge"), None)
    if at is not None and not any(isinstance(op, Make | Into | Star | Times) for op in ops[at + 1 :]):
        raise unsaid(ops[at].at)


def bare_edge(p: Hand) -> bool:
    """Whether there is nothing below but an edge."""
    return bool(p.ground.slots) and p.ground.slots[0].stitch.role == "edge"


def along(p: Hand, place: Place, at: Span) -> list[Target]:
    """Places along the ends of the rows, or an edge: as many as are said, or one for every row."""
    if place.noun.name == "side" and p.site.is_round and not (p.site.along or bare_edge(p)):
        return remaining.each(p, Place("each"))
    if place.noun.name == "side" or (place.which == "each" and place.noun.name != "row"):
        raise unsaid(at)
    if place.noun.name == "bridge" and p.site.on_foundation:
        return p.targets(Place("next" if place.count > 1 else "each", Noun("ch"), place.count), at)
    count = place.count
    if place.noun.name == "bridge" and count == 1:
        count = next((s.chains for s in p.out if s.chains and not s.feet), 1)
    if place.noun.name == "row" and count == 1:
        count = p.site.rows_below
        if not count or p.site.at_will:
            raise unsaid(at)
    return stood(p, count)


def evenly(p: Hand, place: Place, at: Span) -> list[Target]:
    """So many stitches spread over all that are left, as evenly as whole stitches allow."""
    if p.site.along or p.on_edge or bare_edge(p):
        return stood(p, place.count)
    left = remaining.each(p, replace(place, which="each", count=1))
    return [left[at * len(left) // place.count] for at in range(place.count)]


def stood(p: Hand, count: int) -> list[Target]:
    """So many places of an edge, one after another."""
    p.landmark = p.used_ground = True
    p.last = Target(Foot(0, 1, "edge"), 0, 0, 0)
    return [p.last] * count


def corner(p: Hand, place: Place) -> list[Target] | None:
    """A corner of a flat piece, which is no stitch below; the edge goes on behind it. None where it is none."""
    if place.noun.name not in ("corner", "corner st") or place.row is not None or place.of is not None:
        return None
    if not p.site.along or place.which not in ("next", "any", "each", "first", "last"):
        return None
    if p.site.edged and p.ground.has_corners(place.noun):
        return None
    if place.which == "each":
        raise unsaid()
    p.on_edge = True
    return stood(p, place.count)


def goes_on(p: Hand, place: Place, left: int) -> list[Target] | None:
    """The stitches below are used up, and the row goes on along the edge. None where it does not."""
    plain = place.which == "next" and place.row is None and not place.nth and place.noun.name in ("st", "sc", "ch")
    if not (plain and p.site.along and p.site.is_round) or left:
        return None
    p.on_edge = True
    return stood(p, place.count)
