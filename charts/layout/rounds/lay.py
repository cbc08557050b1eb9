"""Rounds laid about their centre, for either hand: planned, relaxed, drawn, and what is loose at their seams settled.

Counter-clockwise for right-handers (common practice).
"""

from __future__ import annotations

import cmath
import functools
import math
from collections.abc import Sequence

from ...errors import Unable
from ...made_late import replace
from ...model.cloth.fabric import Fabric, Foot
from ...setting import Hand
from ..placing.placed import Laid
from ..placing.tracks import CircleWay, OvalWay, PolygonWay, Way
from ..points.spurs import with_points, with_room
from ..shapes.centre import CHAIN_LEVEL, half_of, lay_centre
from ..shapes.chain_sizes import evened
from ..shapes.corners import corners_of
from ..shapes.ring import LaidRounds, Ring, bases_of, beneath, mirrored
from ..shapes.seam import settled
from .closing import closing_of, lay_closing
from .drawn import Drawing
from .form import Form
from .net import Net
from .plan import Middle, planned, sectors
from .relaxing import Places, placed, spiralled, upright


class WithoutStitch(Unable):
    """A round without a single stitch was to be laid; its words say which."""


@functools.lru_cache(maxsize=4)
def lay_rounds(fabric: Fabric, hand: Hand = "right") -> LaidRounds:
    """Lay all rounds together, then what is loose at their seams and what reaches past a round. The last few are kept:
    a chart is asked for on several papers, whole and in pages, and in a booklet."""
    return _settled(_figures(fabric), hand)


def lay_for_both_hands(fabric: Fabric) -> tuple[LaidRounds, LaidRounds]:
    """The rounds as `lay_rounds` lays them for the right hand and for the left, relaxed once."""
    figures = _figures(fabric)
    return _settled(figures, "right"), _settled(figures, "left")


@functools.lru_cache(maxsize=2)
def _figures(fabric: Fabric) -> tuple[LaidRounds, ...]:
    """All rounds as one figure, or as two where the work closes again; their points stand out."""
    roomy = with_room(fabric)
    found = _placed(roomy)
    return found if roomy is fabric else tuple(_pointed(part, fabric) for part in found)


def _pointed(part: LaidRounds, fabric: Fabric) -> LaidRounds:
    """Rounds that were laid with room for their points, with these drawn."""
    def drawn(ring: Ring) -> Ring:
        worked = fabric.rows[ring.index]
        spots = with_points(ring.laid.spots, worked.row, closed=True)
        return replace(ring, worked=worked, laid=replace(ring.laid, spots=spots))

    return replace(part, rings=tuple(map(drawn, part.rings)), again=drawn(part.again) if part.again else None)


def _placed(fabric: Fabric) -> tuple[LaidRounds, ...]:
    """The figures of a fabric whose stitches each stand in their round."""
    widest = closing_of(planned(fabric, _corners(fabric))) if fabric.start != "chain" else None
    if widest is None:
        return evened([_laid(fabric)])
    closing = lay_closing(fabric, widest)
    closed = LaidRounds(Laid((), 0.0), closing.rings, 0, closing.base)
    return evened([_laid(replace(fabric, rows=fabric.rows[: widest + 1])), closed])


def _settled(figures: Sequence[LaidRounds], hand: Hand) -> LaidRounds:
    each = [settled(mirrored(part) if hand == "left" else part) for part in figures]
    return each[0] if len(each) == 1 else beneath(each[0], each[1])


def _corners(fabric: Fabric) -> list[tuple[int, ...]] | None:
    return corners_of(fabric.rows, alone=fabric.start in ("ring", "magic ring"))


def _laid(fabric: Fabric) -> LaidRounds:
    rounds = planned(fabric, _corners(fabric))
    centre, level = lay_centre(fabric, math.pi / 2.0)
    if len(rounds) < len(fabric.rows):
        raise WithoutStitch(
            f"{fabric.rows[len(rounds)].label} is made of chains alone, so no place can be found for it on a chart"
            " in rounds; a round that has a stitch or a slip stitch in it can be drawn"
        )
    middle = _middle(centre, level)
    net = Net(rounds, sectors(rounds, middle), middle)
    form = Form(half_of(centre))
    places = upright(net, placed(net, form, level), free=not centre.spots or centre.spots[0].role == "ring")
    places = places if form.half else spiralled(net, places)
    rings: list[Ring] = []
    for k, round_ in enumerate(rounds):
        way = _way(net, places, k, form)
        rings.append(Drawing(net, places, k, bases_of(round_.row, rings, centre), way, level).ring())
        level = rings[-1].outer
    return LaidRounds(centre, tuple(rings), len(rounds[-1].corners))


def _middle(centre: Laid, level: float) -> Middle:
    """Where feet go into the centre: nowhere of its own where that is a ring or a single chain."""
    spots = centre.spots

    def at(foot: Foot) -> complex | None:
        spot = spots[foot.at] if 0 <= foot.at < len(spots) else None
        if spot is None or spot.role == "ring" or math.hypot(*spot.head) < CHAIN_LEVEL * 0.5:
            return None
        x, y = spot.head
        return complex(x, y if foot.hold == "under" and y else -y)

    return at


def _way(net: Net, places: Places, k: int, form: Form) -> Way:
    """The way along a round, for what is drawn about its stitches."""
    round_, heads = net.rounds[k], places.heads[k]
    if form.half:
        far = sum(math.hypot(max(abs(z.real) - form.half, 0.0), z.imag) for z in heads) / len(heads)
        return OvalWay(round_.sign, form.half, far)
    if not round_.corners:
        return CircleWay(round_.sign, math.pi / 2.0)
    t, run = round_.corners[0]
    corner = cmath.phase(places.arches[k][t] if run else heads[t])
    sides = len(round_.corners)
    return PolygonWay(round_.sign, corner + round_.sign * math.pi / sides, sides)
