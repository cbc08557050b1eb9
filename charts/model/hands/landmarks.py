"""The beginning chain of a row below as a place: its top, one of its chains, its space."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ...pattern.tree import NOWHERE, Noun, Place
from ..cloth.fabric import Foot
from ..cloth.faults import Stuck, left_before
from ..cloth.ground import Hit
from ..cloth.site import Target
from ..cloth.wording import ordinal
from . import footing

if TYPE_CHECKING:
    from .player import Player


def beginning(p: Player, place: Place) -> Target:
    """The beginning chain of the row below: its top, or the stitch it counts as."""
    back = footing.back_of(p, place)
    chain = place.of if place.which == "top" and place.of is not None else place
    back = footing.back_of(p, chain) if chain.row else back
    if chain.which not in ("beg",):
        return p.targets(chain, NOWHERE)[-1]
    item = start_item(p, back)
    ground = p.ground_at(back)
    stitch = ground.row.stitches[item]
    wanted = chain.noun.size
    if wanted and stitch.chains and start_chains(p, back) != wanted and not p.site.on_foundation:
        raise Stuck(
            f"{p.site.below} begins with ch {start_chains(p, back)}, not ch {wanted}",
            f'write "beg ch-{start_chains(p, back)}"',
        )
    return start_target(p, back, item, place)


def start_target(p: Player, back: int, item: int, place: Place, part: int | None = None) -> Target:
    ground = p.ground_at(back)
    slot = ground.of_item(item, part)
    if slot is None:
        target = Target(Foot(item, back, "top"), len(ground.slots), len(ground.slots), back)
    else:
        first = item if ground.row.stitches[item].role != "chain" else None
        target = footing.target(
            p, back, Hit(slot, slot + 1), place if first is not None else Place("next", Noun("ch"), hold=place.hold)
        )
    return landmark(p, back, target)


def landmark(p: Player, back: int, target: Target) -> Target:
    spot = p.spot(back)
    if back == 1 and target.start < spot and not at_round_start(p, target):
        raise Stuck(
            f"the beginning chain of {p.site.below} has been worked into already", "work one stitch fewer before it"
        )
    if back == 1 and not p.site.is_round:
        over = p.ground.stitches_between(spot, target.start)
        if over and not (p.chained or p.wide):
            raise left_before(over, p.site.below, "its beginning chain")
    p.go(back, max(spot, target.end))
    p.landmark = True
    footing.remember(p, [target])
    return target


def at_round_start(p: Player, target: Target) -> bool:
    return p.site.is_round


def start_item(p: Player, back: int) -> int:
    row = p.ground_at(back).row
    for item, stitch in enumerate(row.stitches):
        if stitch.role == "travel":
            continue
        return item
    raise Stuck(f"{p.site.below} has no beginning chain", "name the stitch")


def start_chains(p: Player, back: int) -> int:
    """How many chains the row below began with."""
    row, item = p.ground_at(back).row, start_item(p, back)
    total = row.stitches[item].chains if row.stitches[item].role in ("turning", "start", "chain") else 0
    after = row.stitches[item + 1] if item + 1 < len(row.stitches) else None
    if row.stitches[item].role == "turning" and after is not None and after.role == "chain" and after.place == -1:
        total += after.chains
    return total


def nth_of_beginning(p: Player, place: Place, of: Place) -> Target:
    back = footing.back_of(p, of)
    item = start_item(p, back)
    row = p.ground_at(back).row
    stitch = row.stitches[item]
    total = start_chains(p, back)
    if of.noun.size and total and total != of.noun.size and not p.site.on_foundation:
        raise Stuck(f"{p.site.below} begins with ch {total}, not ch {of.noun.size}", f'write "beg ch-{total}"')
    if place.noun.name in ("sp", "lp"):
        run = next((i for i in range(item, min(item + 2, len(row.stitches))) if row.stitches[i].role == "chain"), None)
        if run is None and not place.noun.size and not of.noun.size:
            return start_target(p, back, item, place)
        if run is None:
            raise Stuck(f"the beginning chain of {p.site.below} leaves no space", "name the stitch")
        slot = p.ground_at(back).of_item(run)
        assert slot is not None
        start = p.ground_at(back).of_item(run, None) or 0
        return landmark(p, back, footing.target(p, back, Hit(start, start + row.stitches[run].chains), place))
    if place.nth > total and total:
        raise Stuck(
            f"the beginning chain of {p.site.below} has {total} ch; there is no {ordinal(place.nth)}",
            f"name one of its {total} ch",
        )
    if stitch.role == "turning" and place.nth > stitch.chains:
        return start_target(p, back, item + 1, place, place.nth - stitch.chains - 1)
    if stitch.role == "chain":
        return start_target(p, back, item, place, place.nth - 1)
    return start_target(p, back, item, place)
