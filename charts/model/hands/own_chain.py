"""Chains counted from the hook: of the foundation, or of a chain made in this row."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from ...pattern.tree import Place
from ..cloth.fabric import Foot
from ..cloth.faults import Stuck
from ..cloth.ground import Hit
from ..cloth.site import Target
from ..cloth.state import Grown
from ..cloth.wording import are, ordinal
from . import footing

if TYPE_CHECKING:
    from .player import Player


def hook(p: Player, place: Place) -> list[Target]:
    """The nth chain from the hook, or several from there on."""
    slot = place.nth - 1 if place.nth else len(p.ground.slots) - 1
    if not p.site.on_foundation:
        if p.out and p.out[-1].kind == "ch":
            return [own_hook(p, place)]
        raise Stuck("there is no foundation chain below to count from the hook", "name the stitch of the row below")
    if slot + place.count > len(p.ground.slots):
        raise Stuck(
            f"the foundation has {len(p.ground.slots)} ch; there is no {ordinal(place.nth)} ch from the hook",
            f"make at least {place.nth + place.count - 1} ch",
        )
    p.here = slot + place.count
    targets = [footing.target(p, 1, Hit(at, at + 1), place) for at in range(slot, p.here)]
    footing.remember(p, targets)
    return targets


def own_hook(p: Player, place: Place) -> Target:
    """ "in 4th ch from hook" of a chain made in this row: the row goes on along it, back towards its first chain."""
    at, chain = len(p.out) - 1, p.out[-1]
    if not place.nth:
        place = replace(place, nth=chain.chains)
    if place.nth > chain.chains:
        raise Stuck(
            f"the chain just made has {chain.chains} ch; there is no {ordinal(place.nth)} ch from the hook",
            f"make at least {place.nth} ch",
        )
    if chain.role == "start":
        p.out = Grown((*p.out[:at], replace(chain, role="chain")))
    part = chain.chains - place.nth
    p.own = (at, part, False)
    return Target(Foot(at, 0, "chain", part), 0, 0, 0)


def own_next(p: Player, place: Place) -> list[Target] | None:
    """The next chains of a chain made in this row that is being worked along; once they are called chains, "st" is a
    stitch of the row below."""
    if p.own is None or place.noun.name not in ("ch", "st") or place.which not in ("next", "each", "last", "rem"):
        return None
    at, part, by_chain = p.own
    if by_chain and place.noun.name == "st":
        return None
    count = part if place.which == "each" and place.count == 1 else place.count
    if count > part or not count:
        return None
    if place.which == "last" and count < part:
        raise which_last(p, place, part)
    p.own = (at, part - count, place.noun.name == "ch")
    return [Target(Foot(at, 0, "chain", part - 1 - i), 0, 0, 0) for i in range(count)]


def which_last(p: Player, place: Place, left: int) -> Stuck:
    """The last are named while more of the chain just made are left than these."""
    last = p.one(place.noun) if place.count == 1 else f"{place.count} {p.many(place.noun, place.count)}"
    return Stuck(
        f'"last {last}" may be of the chain just made, of which {left} ch {are(left)} left, or of {p.site.below}',
        f'write "in next {left} ch" to work along the chain to its end, or name the kind of the stitch below',
        kind="ambiguous",
    )
