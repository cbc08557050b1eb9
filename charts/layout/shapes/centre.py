"""What the first round goes into: a ring, a chain worked round, or stitches of a piece that is not given."""

from __future__ import annotations

import math

from ...model.cloth.fabric import Fabric, Stitch
from ..placing.laid import risen_of
from ..placing.placed import CHAIN_HALF, Laid, Spot, SpotRole
from ..placing.tracks import CircleWay

#: The radius of a magic ring, and the way one chain takes of a ring of chains.
MAGIC_RADIUS = 0.45


RING_PITCH = 0.9


#: The radius at which stitches go into a chain in the middle.
CHAIN_LEVEL = 0.3


#: From the middle of the chain at either end to where a fan about it turns.
CHAIN_END = 0.15


def lay_centre(fabric: Fabric, start: float) -> tuple[Laid, float]:
    """What the first round goes into, and its radius: a ring, or stitches of a piece that is not given."""
    items = fabric.foundation.stitches
    if items and items[0].role == "ring":
        chains = max(items[0].chains, fabric.chains if fabric.start == "ring" else 0)
        return _ring(chains, fabric.start == "magic ring" or not chains)
    if fabric.start == "chain":
        return _chain_centre(fabric)
    radius = max(len(items) / math.tau, 1.0)
    way = CircleWay(1.0, start)
    spots = tuple(_round_spot(i, made, (i + 0.5) * math.tau / len(items), radius, way) for i, made in enumerate(items))
    return Laid(spots, 0.0), radius


def _round_spot(item: int, made: Stitch, u: float, radius: float, way: CircleWay) -> Spot:
    """One stitch, or one chain, of what a round is worked on: a chain lies along the round, under what goes into it."""
    head = way.at(u, radius)
    if made.kind != "ch":
        return Spot(item, made.kind, made.role, head, (way.at(u, radius - 1.0),), legs=made.legs)
    (x, y), out = way.at(u, radius - CHAIN_HALF), way.out(u)
    angle = math.degrees(math.atan2(out[0], -out[1]))
    return Spot(item, "ch", "chain", head, chains=1, ovals=((x, y, angle),))


def is_one_chain(fabric: Fabric) -> bool:
    """Whether the first row goes into one single chain of its foundation."""
    return fabric.start == "chain" and len(_used(fabric)) == 1


def _used(fabric: Fabric) -> set[int]:
    """The chains of the foundation that the first row goes into."""
    return {f.at for s in fabric.rows[0].row.stitches for f in s.feet if f.back == 1}


def _chain_centre(fabric: Fabric) -> tuple[Laid, float]:
    """A chain worked round: lying level in the middle; a single chain of it when all goes into that one."""
    count = len(fabric.foundation.stitches) - risen_of(fabric)
    used = _used(fabric)
    if len(used) == 1:
        spots = [
            Spot(i, "ch", "chain" if i in used else "risen", (0.0, 0.0), chains=1, ovals=((0.0, 0.0, 0.0),))
            for i in range(len(fabric.foundation.stitches))
        ]
        return Laid(tuple(spots), 0.0), CHAIN_LEVEL
    half = (count - 1) / 2.0
    sign = 1.0 if fabric.rows[0].direction == "right-to-left" else -1.0
    return Laid(
        tuple(_chain_spot(i, count, half, sign) for i in range(len(fabric.foundation.stitches))), 0.0
    ), CHAIN_LEVEL


def _chain_spot(item: int, count: int, half: float, sign: float) -> Spot:
    """One chain of the middle: the outer ones are gone into at their outer end, so that a fan turns round
    it.
    """
    x = sign * (min(item, count - 1) - half)
    end = item in (0, count - 1)
    head = (x + math.copysign(CHAIN_END, x), 0.0) if end else (x, -CHAIN_LEVEL)
    role: SpotRole = "chain" if item < count else "risen"
    return Spot(item, "ch", role, head, chains=1, ovals=((x, 0.0, 0.0),))


def half_of(centre: Laid) -> float:
    """Half the length of a straight chain in the middle; 0 where the centre is a ring or a single chain."""
    chains = [s.ovals[0] for s in centre.spots if s.role == "chain" and s.ovals]
    if not chains or any(abs(y) > 1e-6 for _, y, _ in chains):
        return 0.0
    xs = [x for x, _, _ in chains]
    return (max(xs) - min(xs)) / 2.0


def _ring(chains: int, magic: bool) -> tuple[Laid, float]:
    if magic:
        return Laid((Spot(0, "magic ring", "ring", (0.0, 0.0), size=MAGIC_RADIUS),), 0.0), MAGIC_RADIUS
    radius = max(chains * RING_PITCH / math.tau, 0.45)
    ovals = []
    for k in range(chains):
        turn = math.tau * (k + 0.5) / chains
        ovals.append((radius * math.cos(turn), radius * math.sin(turn), math.degrees(turn) + 90.0))
    spot = Spot(0, "ring", "ring", (0.0, 0.0), chains=chains, ovals=tuple(ovals), size=0.9)
    return Laid((spot,), 0.0), radius + 0.2
