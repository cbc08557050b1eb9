"""Several legs under one top: stitches worked together, clusters and bobbles, puffs, popcorns."""

from __future__ import annotations

from collections.abc import Sequence

from .ink import Mark, Point, SubPath
from .pen import Frame, curve, ellipse, frame, line, strokes
from .posts import BAR, FOOT_GAP, HEAD_GAP, PLAIN_FOOT, Foot, bar, slash, stem

#: Half the arms on a leg of crosses worked together, and how far up the leg they lie: low, where the legs stand apart.
LEG_ARM, ARM_UP = 0.16, 0.4
#: How far over where a leg begins above a loop's arc, and the highest that this lifts them as a share of the leg.
ARM_OVER, MOST_ARM_UP = 0.26, 0.66
#: The way between the legs of a gathered stitch at its widest, and how wide it may become.
LEG_STEP = {2: 0.34, 3: 0.29, 4: 0.23}
MANY_LEG_STEP = 0.2
#: How far a slash across all legs stands out beyond them.
OVERHANG = 0.09
#: How round a puff is against a bobble.
PUFF_BELLY = 1.2
#: The small oval on a popcorn.
CAP_ALONG, CAP_ACROSS = 0.33, 0.15


def worked_together(
    feet: Sequence[Point],
    head: Point,
    yarn_overs: int,
    foot: Foot = PLAIN_FOOT,
    *,
    behind: Sequence[Point] = (),
) -> Mark:
    """Posts from separate feet under one bar, each with its slashes midway, where the legs stand apart."""
    legs = leg_frames(feet, head)
    stems = [s for leg in legs for s in stem(leg, foot, leg.length, behind)]
    marks = [s for leg in legs for s in _leg_slashes(leg, yarn_overs)]
    return strokes(*stems, bar(axis(feet, head)), *marks)


def crosses_together(feet: Sequence[Point], head: Point, form: str, foot: Foot = PLAIN_FOOT) -> Mark:
    """Single crochets worked together: crossed legs meeting in a point; x: legs that cross below it."""
    legs = leg_frames(feet, head)
    if form == "x":
        return strokes(*_crossing_legs(feet, head, foot))
    arms = [line(leg.at(-LEG_ARM, up), leg.at(LEG_ARM, up)) for leg in legs for up in [_arm_up(leg, foot)]]
    return strokes(*(s for leg in legs for s in stem(leg, foot, leg.length)), *arms)


def _arm_up(leg: Frame, foot: Foot) -> float:
    """How far up a leg its arms lie: clear of the arc of a single loop that it stands over."""
    over = foot.up + ARM_OVER if foot.up > PLAIN_FOOT.up else 0.0
    return max(leg.length * ARM_UP, min(over, leg.length * MOST_ARM_UP))


def _crossing_legs(feet: Sequence[Point], head: Point, foot: Foot) -> list[SubPath]:
    """Legs that pass one another below the head and go on a little beyond."""
    way = axis(feet, head)
    meet = way.at(0.0, max(way.length - 0.4, way.length / 2.0))
    legs = [frame(f, meet) for f in feet]
    return [line(leg.at(foot.side, foot.up), leg.at(0.0, leg.length + 0.32)) for leg in legs]


def leg_frames(feet: Sequence[Point], head: Point) -> list[Frame]:
    """The frame of each leg, all meeting just under the head."""
    top = axis(feet, head)
    return [frame(f, top.at(0.0, top.length - HEAD_GAP)) for f in feet]


def axis(feet: Sequence[Point], head: Point) -> Frame:
    """The frame of the whole stitch: from the middle of its feet to its head."""
    n = len(feet)
    return frame((sum(f[0] for f in feet) / n, sum(f[1] for f in feet) / n), head)


def _leg_slashes(leg: Frame, count: int) -> list[SubPath]:
    """Slashes about the middle of a leg."""
    step = min(0.28, leg.length * 0.45 / max(count, 1))
    middle = leg.length * 0.5
    return [slash(leg.at(0.0, middle + (i - (count - 1) / 2.0) * step), leg, 0.15) for i in range(count)]


def gathered(at: Frame, legs: int, yarn_overs: int, foot: Foot = PLAIN_FOOT) -> Mark:
    """A cluster or bobble: legs from one foot to one top, bowed apart."""
    offsets = leg_offsets(legs)
    top = at.length - HEAD_GAP
    bowed = [_bowed_leg(at, side, foot, top) for side in offsets]
    marks = _belly_slashes(at, offsets, yarn_overs)
    return strokes(*bowed, bar(at, BAR if legs < 5 else BAR * 1.1), *marks)


def leg_offsets(legs: int) -> list[float]:
    """How far each leg bows to the side at its widest."""
    step = LEG_STEP.get(legs, MANY_LEG_STEP)
    return [(i - (legs - 1) / 2.0) * step for i in range(legs)]


def _bowed_leg(at: Frame, side: float, foot: Foot, top: float) -> SubPath:
    """A leg that is furthest out midway: a cubic with handles at 4/3 of the bow."""
    rise, out = (top - foot.up) * 0.22, side * 4.0 / 3.0
    return curve(at.at(foot.side, foot.up), (at.at(out, foot.up + rise), at.at(out, top - rise), at.at(0.0, top)))


def _belly_slashes(at: Frame, offsets: Sequence[float], count: int) -> list[SubPath]:
    """Two legs have a slash each; more have one slash across all of them for each yarn-over."""
    middle = (at.length + FOOT_GAP - HEAD_GAP) / 2.0
    step = min(0.3, at.length * 0.4 / max(count, 1))
    heights = [middle + (i - (count - 1) / 2.0) * step for i in range(count)]
    if len(offsets) == 2:
        return [slash(at.at(side * 0.97, up), at, 0.11) for up in heights for side in offsets]
    return [slash(at.at(0.0, up), at, offsets[-1] + OVERHANG) for up in heights]


def popcorn(at: Frame, legs: int, yarn_overs: int, foot: Foot = PLAIN_FOOT) -> Mark:
    """Legs that spread from one foot and are drawn together under a small oval."""
    cap_up = at.length - HEAD_GAP - CAP_ACROSS
    offsets = leg_offsets(legs)
    spread = [_drawn_in_leg(at, side, foot, cap_up - CAP_ACROSS) for side in offsets]
    cap = ellipse(at.at(0.0, cap_up), CAP_ALONG, CAP_ACROSS, at.angle_deg)
    return strokes(*spread, cap, *_belly_slashes(at, offsets, yarn_overs))


def puff(at: Frame, legs: int, foot: Foot = PLAIN_FOOT) -> Mark:
    """Loops drawn up from one foot and gathered in one: a lens of as many lines as loops, pointed below and above.

    It has neither a bar nor slashes: loops are no finished stitches, and must not be read as such.
    """
    top = at.length - HEAD_GAP
    return strokes(*(_bowed_leg(at, side * PUFF_BELLY, foot, top) for side in leg_offsets(legs)))


def _drawn_in_leg(at: Frame, side: float, foot: Foot, top: float) -> SubPath:
    """A leg that spreads low and comes in to the underside of the oval."""
    rise = top - foot.up
    low, high = at.at(side * 1.35, foot.up + rise * 0.2), at.at(side * 1.35, top - rise * 0.2)
    return curve(at.at(foot.side, foot.up), (low, high, at.at(side * 0.5, top)))
