"""Rounds that close a ball or a crown: a second figure, worked from the outside in towards a centre of its own.

A piece that narrows again does not lie flat: drawn outward, its last rounds would be torn. From the widest round on
they are laid inward, the way the piece looks from its closing end. Seen so, a round that goes counter-clockwise from
the beginning goes clockwise.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from hookfold.symbols import Point

from ...made_late import dataclass, replace
from ...model.cloth.fabric import Fabric, Foot
from ..placing.placed import Laid, Spot
from ..placing.tops import own_rise
from ..placing.tracks import InwardWay
from ..shapes.ring import Ring, bases_of
from .drawn import Drawing
from .form import Form
from .net import Net
from .plan import Planned, planned, sectors
from .pulls import need_of
from .relaxing import Places, placed, upright

#: From this way between neighbours on, in stitch widths, an outward round would be torn; a closing part has so many
#: rounds at least, and its last needs no more than this share of the room of the widest.
TORN, LEAST_ROUNDS, NARROW = 1.6, 2, 0.7


def closing_of(rounds: Sequence[Planned]) -> int | None:
    """The round (from 0) that what follows closes the work from; None where it lies flat.

    That is the last of the widest rounds, or the next one of stitches alone: on arches nothing can be hung inward.
    """
    needs = [need_of(r) for r in rounds]
    if not needs:
        return None
    widest = max(k for k, need in enumerate(needs) if need >= 0.98 * max(needs))
    widest = next((k for k in range(widest, len(rounds)) if not any(top.bridge for top in rounds[k].tops)), widest)
    after = rounds[widest + 1 :]
    if len(after) < LEAST_ROUNDS or needs[-1] > NARROW * max(needs) or not _plain(rounds[widest:]):
        return None
    far, torn = needs[widest] / math.tau, False
    for round_, need in zip(after, needs[widest + 1 :], strict=True):
        far += sum(own_rise(top.made) for top in round_.tops) / len(round_.tops)
        torn = torn or math.tau * far / need > TORN
    return widest if torn else None


def _plain(rounds: Sequence[Planned]) -> bool:
    """Whether rounds have no corners, go into the one before, and begin with one of stitches alone."""
    feet = [f for r in rounds[1:] for top in r.tops for f in top.made.feet]
    bare = not any(top.bridge for top in rounds[0].tops)
    return bare and not any(r.corners for r in rounds) and all(f.back <= 1 for f in feet)


@dataclass(frozen=True, slots=True, eq=False)
class Closing:
    """The second figure about (0, 0): the widest round once more, and the rounds inside it."""

    base: Ring
    rings: tuple[Ring, ...]


def lay_closing(fabric: Fabric, widest: int) -> Closing:
    """The rounds after the widest one, laid inward from it."""
    rows = replace(fabric, rows=fabric.rows[widest:])
    rounds = [replace(r, sign=-r.sign) for r in planned(rows, None)]
    net = Net(rounds, sectors(rounds, _nowhere), _nowhere)
    form = Form(inward=True)
    places = upright(net, placed(net, form, 0.0), free=True)
    far = max(abs(z) for z in places.heads[0])
    rings = [_base(rounds[0], places, far)]
    for k, round_ in enumerate(rounds[1:], start=1):
        way = InwardWay(round_.sign, math.pi / 2.0, far)
        empty = Laid((), 0.0)
        rings.append(Drawing(net, places, k, bases_of(round_.row, rings, empty), way, rings[-1].outer).ring())
    own = [replace(ring, index=widest + k) for k, ring in enumerate(rings)]
    return Closing(own[0], tuple(own[1:]))


def _nowhere(foot: Foot) -> complex | None:
    return None


def _base(round_: Planned, places: Places, far: float) -> Ring:
    """The widest round as it stands round the closing ones."""
    way = InwardWay(round_.sign, math.pi / 2.0, far)
    spots = {top.item: _standing(round_, t, places.heads[0][t], way) for t, top in enumerate(round_.tops)}
    first = (places.heads[0][0].real, -places.heads[0][0].imag)
    for item, made in enumerate(round_.row.stitches):
        spots.setdefault(item, Spot(item, made.kind, "risen", first, (first,)))
    laid = Laid(tuple(spots[i].rounded() for i in range(len(round_.row.stitches))), 0.0)
    return Ring(0, round_.worked, laid, -1.0, 0.0)


def _standing(round_: Planned, t: int, head: complex, way: InwardWay) -> Spot:
    """One stitch of it, straight outside its head, as if on one foot."""
    top = round_.tops[t]
    at: Point = (head.real, -head.imag)
    u, v = way.u(at), way.v(at)
    out = way.out(u)
    angle = math.degrees(math.atan2(out[0], -out[1]))
    foot = way.at(u, v - own_rise(top.made))
    kind = top.made.kind if len(top.made.feet) < 2 else "sc"
    return Spot(top.item, kind, "stitch", at, (foot,), angle_deg=angle)
