"""Rounds, half motifs and mitres as cloth: each stitch where it lies about the centre, the seam closed."""

from __future__ import annotations

import functools
import math
from collections.abc import Sequence

from ..layout.placing.placed import Laid, Spot
from ..layout.rounds.lay import lay_rounds
from ..layout.shapes.edged import without_edging
from ..layout.shapes.found import Shape, fabric_shape
from ..layout.shapes.ring import LaidRounds, mirrored
from ..layout.sheets.chart_setting import all_drawable_or_raise
from ..made_late import replace
from ..model.cloth.fabric import Fabric, Stitch
from ..setting import Hand
from .cloth import Cloth, Made, Place, box_of, crossed, in_order, moved, unit, with_held, yarn_of
from .flat_cloth import flat_cloth, left_at, round_post
from .yarn import LOOPS

#: How much is seen of the height of rounds that fall away from a crown.
FALLS = 0.4
#: A layer of a flower lies so high above the next one, and the next one is drawn in so far under it.
LAYER_HIGH, LAYER_IN = 1.5, 1.0
#: A close look at rounds is at so much of the way from the middle to the edge.
ROUND_REPEAT = 0.6
#: The slip stitch that joins a round lies so deep in the first stitch.
JOIN_DEEP = 0.2
#: What goes into a ring stands so far from its middle at least.
RING_NEAR = 0.42


def cloth_of(fabric: Fabric, hand: Hand = "right", heights: Sequence[float] | None = None) -> Cloth:
    """A worked fabric as cloth, in the shape it is worked in, a flat one without rounds about its edge; `heights` as in
    `flat_cloth`. TooMuchToDraw where it has more stitches than can be drawn."""
    all_drawable_or_raise(fabric)
    shape = fabric_shape(fabric)
    if fabric.rows[0].is_round or (shape and shape.nested):
        return _round_cloth(fabric, _laid(fabric, shape, hand), shape)
    flat = without_edging(fabric)
    return flat_cloth(flat, hand, heights[: len(flat.rows)] if heights else None)


def _laid(fabric: Fabric, shape: Shape | None, hand: Hand) -> LaidRounds:
    if shape is None:
        return lay_rounds(fabric, hand)
    laid = shape.lay(fabric)
    return mirrored(laid) if hand == "left" else laid


def _round_cloth(fabric: Fabric, laid: LaidRounds, shape: Shape | None) -> Cloth:
    closed = shape is None
    first = fabric.rows[0]
    centre = [_made(-1, s, m, 1.0, first.colour) for s, m in _pairs(laid.centre, fabric.foundation.stitches)
              if s.role != "risen"]
    every = in_order(centre)
    below: dict[int, dict[int, Made]] = {-1: {s.spot.item: s for s in every}}
    for ring in laid.rings:
        face = 1.0 if ring.worked.side != "WS" else -1.0
        found = [_made(ring.index, s, m, face, ring.worked.colour)
                 for s, m in _pairs(ring.laid, ring.worked.row.stitches)]
        found = [round_post(s, below) for s in found]
        begin = _joined_at(every) if closed else left_at(every, found)
        here = crossed(in_order(found, closed=closed and ring.worked.is_round, begin=begin if ring.index else None))
        here = _seam_closed(here) if closed else here
        below[ring.index] = {s.spot.item: s for s in here}
        every += here
    every = _layered(every)
    near = laid.radius * ROUND_REPEAT
    return Cloth(tuple(with_held(every)), box_of(every), _middle(every, laid), (near, near), yarn=yarn_of(every))


def seen_from_above(cloth: Cloth, crown: int) -> Cloth:
    """A hat's cloth as it looks from above: what comes after its crown's rounds falls away and shows foreshortened."""
    far = max((math.hypot(*s.head) for s in cloth.stitches if s.row < crown), default=0.0)

    def fallen(point: Place) -> Place:
        here = math.hypot(*point)
        share = (far + (here - far) * FALLS) / here if here > far else 1.0
        return (point[0] * share, point[1] * share)

    every = tuple(moved(s, fallen) for s in cloth.stitches)
    return replace(cloth, stitches=every, box=box_of(every))


def crown_and_sides(cloth: Cloth, crown: int, around: float) -> tuple[Cloth, Cloth]:
    """A hat's cloth in two: the rounds of its crown as they lie about the middle, and those that come after it laid
    open, x along the way round (`around` stitch widths in all) and y down from the crown's middle. Each has all
    stitches, those of the other unseen."""
    turns = around / math.tau

    def opened(s: Made) -> Made:
        angle = math.atan2(s.head[1], s.head[0])

        def to(point: Place) -> Place:
            off = math.remainder(math.atan2(point[1], point[0]) - angle, math.tau)
            return ((angle + off) * turns, -math.hypot(*point))

        cos, sin = math.cos(-angle - math.pi / 2), math.sin(-angle - math.pi / 2)
        along, up = ((x * cos - y * sin, x * sin + y * cos) for x, y in (s.along, s.up))
        return replace(moved(s, to), along=along, up=up)

    sides = [opened(s) if s.row >= crown else replace(s, spot=replace(s.spot, role="unseen")) for s in cloth.stitches]
    above = [s if s.row < crown else replace(s, spot=replace(s.spot, role="unseen")) for s in cloth.stitches]
    yarn = yarn_of(s for s in sides if s.row >= crown)
    return replace(cloth, stitches=tuple(above), ended=False), replace(cloth, stitches=tuple(sides), yarn=yarn)


def _pairs(laid: Laid, stitches: Sequence[Stitch]) -> list[tuple[Spot, Stitch]]:
    return list(zip(laid.spots, stitches, strict=True))


def _made(row: int, spot: Spot, made: Stitch, face: float, colour: str) -> Made:
    """A spot about the centre, as a stitch of the cloth."""
    head = _up(spot.head)
    feet = tuple(_up(p) for p in spot.feet)
    line = tuple(_up(p) for p in (spot.curve or [(x, y) for x, y, _ in spot.ovals]))
    if spot.role == "ring" and line:
        line = (*line, line[0])
    out = unit(head[0] - feet[0][0], head[1] - feet[0][1]) if feet and math.dist(head, feet[0]) > 0.05 else unit(*head)
    if spot.hold == "ring":
        feet = tuple(_to_ring(p) for p in feet)
    deep = any(foot.back > 1 for foot in made.feet)
    return Made(row, spot, made, head, feet, head, (-out[1], out[0]), out, face, made.colour or colour, line, deep=deep)


def _to_ring(foot: Place) -> Place:
    """A foot in the ring, drawn in to where the ring closes."""
    far = math.hypot(*foot)
    share = max(RING_NEAR, 0.62 * far) / far if far > 1e-6 else 1.0
    return (foot[0] * share, foot[1] * share)


def _up(point: Place) -> Place:
    return (point[0], -point[1])


def _seam_closed(row: Sequence[Made]) -> list[Made]:
    """The join of a round brought to where its first stitch is: cloth has no room for a number there."""
    tops = [s for s in row if s.is_topped]
    if not tops:
        return list(row)
    first = tops[0]
    found = []
    for s in row:
        if s.spot.role == "join":
            low = (first.head[0] - first.up[0] * JOIN_DEEP, first.head[1] - first.up[1] * JOIN_DEEP)
            s = replace(s, head=first.head, feet=(low,), along=first.along, up=first.up, over=-0.2 * first.face)
        elif s.spot.role == "start" and not s.is_topped and s.spot.kind == "ch":
            foot = ((first.feet[0] if first.feet else first.head)[0], (first.feet[0] if first.feet else first.head)[1])
            s = replace(s, over=-0.3, feet=(foot,), head=first.head, line=(foot, first.head))
        found.append(s)
    return found


def _layered(every: Sequence[Made]) -> list[Made]:
    """Rounds that are worked behind the one before into what is further down, with all that follows them, as a layer
    under those before: drawn in, so that these lie over it."""
    behind = [row for row in sorted({s.row for s in every}) if _is_behind([s for s in every if s.row == row])]
    from_ = {row: min(math.hypot(*f) for s in every if s.row == row for f in s.feet) for row in behind}
    found = []
    for s in every:
        under = [row for row in behind if row <= s.row]
        level = LAYER_HIGH * (len(behind) - len(under))
        by, low = LAYER_IN * len(under), from_[under[-1]] if under else 0.0
        found.append(replace(moved(s, functools.partial(_drawn_in, by, low)), level=level))
    return found


def _is_behind(row: Sequence[Made]) -> bool:
    """Whether all that a round makes goes past the round before, none of it in front or into one strand alone."""
    tops = [s for s in row if s.is_topped and s.row > 0 and s.made.feet]
    return bool(tops) and all(
        f.back > 1 and f.hold not in LOOPS and s.lift * s.face <= 0 for s in tops for f in s.made.feet
    )


def _drawn_in(by: float, low: float, point: Place) -> Place:
    """A place so much nearer to the centre, less so where it is close to where the layer begins."""
    here = math.hypot(*point)
    if here <= low or not by:
        return point
    share = (here - min(by, (here - low) / 2.0)) / here
    return (point[0] * share, point[1] * share)


def _joined_at(before: Sequence[Made]) -> Place | None:
    """Where the yarn was left after a round: at the join."""
    last = before[-1]
    return last.head if last.spot.role == "join" else None


def _middle(every: Sequence[Made], laid: LaidRounds) -> Place:
    """A typical place: halfway out on the right below the middle, where several rounds are seen."""
    left, bottom, right, top = box_of(every)
    return ((left + right) / 2.0, (bottom + top) / 2.0) if not laid.rings else (laid.radius * 0.4, laid.radius * 0.35)
