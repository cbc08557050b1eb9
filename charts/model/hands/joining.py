"""Closing a round: by a slip stitch, or by chains and a stitch."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ...pattern.tree import Make, Place, Span
from ..cloth.fabric import Foot, Stitch, counts
from ..cloth.faults import Stuck
from ..cloth.wording import ordinal

if TYPE_CHECKING:
    from .player import Player


def closes(p: Player, op: Make) -> bool:
    """A slip stitch back into the row's own beginning closes a round; one that a repeat goes on with does not."""
    if not p.site.is_round or p.travelling() or not op.places:
        return False
    place = op.places[0]
    if place.which in ("first", "top", "beg") or (
        place.which == "nth" and place.of is not None and place.of.which == "beg"
    ):
        return True
    return place.which == "next" and place.row is None and not p.looping and p.here >= len(p.ground.slots)


def closes_with_stitch(p: Player, op: Make) -> bool:
    """ "ch 2, dc in first sc to join": chains and a stitch into the round's own first stitch end the round."""
    if not (p.site.is_round and p.chained and op.places and op.count == 1) or not p.here:
        return False
    place = op.places[0]
    return place.which in ("first", "top", "beg") and p.used_ground and counted_in(p)


def counted_in(p: Player) -> bool:
    """Whether stitches have been made in this round that a join could go into."""
    return sum(map(counts, p.out)) > 1


def join(p: Player, place: Place | None, at: Span, kind: str = "sl st") -> None:
    """Close the round."""
    check_join(p, place, at)
    first = next((i for i, s in enumerate(p.out) if s.role != "travel" and s.role != "start"), 0)
    p.out.append(Stitch(kind, (Foot(first, 0),), "join"))
    p.joined = True


def check_join(p: Player, place: Place | None, at: Span) -> None:
    """The place joined to must be there: "3rd ch of beg ch-6" needs a beginning chain of 6 with a third chain."""
    of = place.of if place is not None and place.which in ("nth", "top") else place
    if place is None or of is None or of.which != "beg" or of.noun.name not in ("st", "ch"):
        return
    total = own_start(p)
    if not total:
        return
    if of.noun.size and of.noun.size != total:
        raise Stuck(f"this round begins with ch {total}, not ch {of.noun.size}", f'write "beg ch-{total}"', at)
    if place.which == "nth" and place.nth > total:
        raise Stuck(
            f"the beginning chain has {total} ch; there is no {ordinal(place.nth)}", f"name one of its {total} ch", at
        )


    lifts = next((s.chains for s in p.out if s.role != "travel"), 0)
    if place.which == "nth" and p.told and p.counted_start and lifts < total and place.nth > lifts:
        raise Stuck(
            f"the beginning chain counts as a stitch of {lifts} ch and a space; its {ordinal(place.nth)} is no top",
            f'write "{ordinal(lifts)} ch of beg ch-{total}"',
            at,
        )


def own_start(p: Player) -> int:
    """How many chains this row's own beginning chain has; 0 if it has none."""
    at = next((i for i, s in enumerate(p.out) if s.role != "travel"), None)
    if at is None or p.out[at].role not in ("turning", "start", "chain"):
        return 0
    total = p.out[at].chains
    if p.out[at].role == "turning" and at + 1 < len(p.out) and p.out[at + 1].role == "chain" and p.begun_with > total:
        total += p.out[at + 1].chains
    return p.begun_with or total
