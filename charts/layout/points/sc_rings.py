"""Rings of chains that a single crochet closes: "ch 3, sc in 3rd ch from hook", a picot with a cross at its foot.

Where rows are laid such a ring takes the room of a picot; what stands there is drawn when the row lies. That it is
drawn as the chains in a ring over the cross is common practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from hookfold.symbols import Point

from ...made_late import dataclass, replace
from ...model.cloth.fabric import Row, Stitch
from ..placing.chain_room import picot_tall
from ..placing.placed import Spot

#: A ring has so many chains at least and at most; longer loops are spaces of their own.
LEAST, MOST = 3, 6
#: How far over what it stands on the cross begins, and how tall it is; the white over it.
FOOT, TALL, OVER = 0.06, 0.74, 0.02
#: How far it is round a ring for each chain and for the cross, and how large its chains are.
STEP, SIZE = 0.56, 0.7
#: How wide the arms of the cross are, as a share of a cross that stands in a row.
ARMS = 0.8


@dataclass(frozen=True, slots=True)
class ScRing:
    """The item of a run of chains, that of the stitch that closes the last of them to a ring, how many chains lead up
    to the ring and how many it has."""

    chain: int
    item: int
    lead: int
    chains: int

    @property
    def place(self) -> int:
        """The item that stands for the ring where a row is laid: that of the run where no chains lead up to it."""
        return self.item if self.lead else self.chain


def sc_rings_of(row: Row) -> tuple[ScRing, ...]:
    """The rings of a row that single crochets close, in the order of work."""
    found = []
    first = next((k for k, s in enumerate(row.stitches) if s.role in ("stitch", "turning")), 0)
    for item, made in enumerate(row.stitches):  # one that a row begins with makes it wider
        if made.kind != "sc" or len(made.feet) != 1 or made.role != "stitch" or item <= first:
            continue
        foot, run = made.feet[0], row.stitches[item - 1]
        if run.role != "chain" or foot.back or foot.at != item - 1 or foot.hold != "chain":
            continue
        ring = ScRing(item - 1, item, foot.part, run.chains - foot.part)
        if LEAST <= ring.chains <= MOST and not _goes_on(row, ring):
            found.append(ring)
    return tuple(found)


def _goes_on(row: Row, ring: ScRing) -> bool:
    """Whether more is worked back along the chains: a point."""
    after = row.stitches[ring.item + 1 : ring.item + 2]
    return any(foot.back == 0 and foot.at == ring.chain for made in after for foot in made.feet)


def with_ring_room(row: Row, rings: Sequence[ScRing], *, under: bool) -> Row:
    """A row to be laid: each ring is a picot, after the chains that lead up to it; as tall as the ring where it stands
    `under` another row that is worked into it."""
    stitches = list(row.stitches)
    for ring in rings:
        chains, closing = stitches[ring.chain], stitches[ring.item]
        picot = replace(closing, kind="picot", role="picot", chains=_as_tall(ring) if under else ring.chains)
        none = Stitch("edge", (), "edge", 0)
        stitches[ring.chain] = replace(chains, chains=ring.lead) if ring.lead else picot
        stitches[ring.item] = picot if ring.lead else none
    return replace(row, stitches=tuple(stitches))


def _as_tall(ring: ScRing) -> int:
    """The chains of a picot that is as tall as a ring with its cross."""
    tall = FOOT + TALL + OVER + 2.0 * _radius(ring)
    return next(n for n in range(ring.chains, 60) if picot_tall(n) >= tall)


def _radius(ring: ScRing) -> float:
    return STEP * (ring.chains + 1) / math.tau


def with_sc_ring(spots: Sequence[Spot], row: Row, ring: ScRing) -> list[Spot]:
    """The spots of a row that was laid `with_ring_room`, one ring drawn where its picot stands."""
    out, picot = list(spots), spots[ring.place]
    (x, y), (a, b) = picot.feet[0], picot.head
    tall = math.dist((x, y), (a, b)) or 1.0
    up = ((a - x) / tall, (b - y) / tall)

    def at(far: float) -> Point:
        return (x + up[0] * far, y + up[1] * far)

    turn = math.degrees(math.atan2(up[0], -up[1]))
    made = row.stitches[ring.item]
    out[ring.item] = Spot(
        ring.item, made.kind, "stitch", at(FOOT + TALL), (at(FOOT),), made.feet[0].hold, size=ARMS, angle_deg=turn
    )
    radius = _radius(ring)
    middle = at(FOOT + TALL + OVER + radius)
    ovals = tuple(_on_ring(middle, up, radius, (k + 1) / (ring.chains + 1)) for k in range(ring.chains))
    run = row.stitches[ring.chain]
    led = out[ring.chain] if ring.lead else None
    out[ring.chain] = Spot(
        ring.chain, run.kind, "chain", led.head if led else at(FOOT + TALL + OVER + 2.0 * radius), chains=run.chains,
        ovals=((*led.ovals, *ovals) if led else ovals), size=min(led.size, SIZE) if led else SIZE,
        curve=led.curve if led else tuple((p, q) for p, q, _ in ovals),
    )  # fmt: skip
    return out


def _on_ring(middle: Point, up: Point, radius: float, share: float) -> tuple[float, float, float]:
    """A chain at a share of the way round a ring, from its foot on: its place and direction."""
    turn = share * math.tau
    x = -up[0] * math.cos(turn) - up[1] * math.sin(turn)
    y = -up[1] * math.cos(turn) + up[0] * math.sin(turn)
    return (middle[0] + x * radius, middle[1] + y * radius, math.degrees(math.atan2(x, -y)))
