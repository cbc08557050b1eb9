"""What a foot holds: one loop, a post, or the chain that an extended or a foundation stitch makes first.

Front and back are told apart by more than a mirror image, so that a chart mirrored in print cannot swap them: the
loop arcs open up or down, and the hook round a post lies over its stem or under it (`clasp.py`).
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from .clasp import BEND, clasp_below, hook
from .ink import Mark, SubPath
from .pen import Frame, curve, ellipse, strokes
from .posts import FOOT_GAP, PLAIN_FOOT, Foot

#: The small chain at the foot of an extended stitch, and the stem above it.
LINK_ALONG, LINK_ACROSS = 0.17, 0.1
LINK_TOP = FOOT_GAP + 2 * LINK_ALONG
#: The chain under a foundation stitch.
BASE_ALONG, BASE_ACROSS = 0.32, 0.13
BASE_TOP = FOOT_GAP + 2 * BASE_ACROSS


def foot_of(form: str, hold: str) -> Foot:
    """Where the stem of a stitch begins, given what its foot does."""
    if hold in ("front post", "back post"):
        return _STARTS[hold]
    return _STARTS.get(form, _STARTS.get(hold, PLAIN_FOOT))


def foot_mark(at: Frame, form: str, hold: str, along_deg: float | None = None) -> Mark:
    """The ink that says how a foot holds; nothing for a stitch under both loops.

    A loop's arc lies along the row (`along_deg` on the sheet) where that is given, so that the stitches of a fan
    share one arc.
    """
    if hold in _LOOPS:
        marks = [_LOOPS[hold](at if along_deg is None else _upright(at, along_deg))]
    else:
        holds = form if form in _HOOKS else hold
        marks = [_HOOKS[holds](at)] if holds in _HOOKS else []
    marks += [_FORMS[form](at)] if form in _FORMS else []
    return sum(marks, Mark())


def _upright(at: Frame, along_deg: float) -> Frame:
    """The same foot in a frame that stands square to the row."""
    turn = math.radians(along_deg)
    return Frame(at.foot, (math.sin(turn), -math.cos(turn)), at.length)


def feet_marks(frames: Sequence[Frame], form: str, hold: str, along_deg: float | None = None) -> Mark:
    """The foot ink of several legs."""
    return sum((foot_mark(f, form, hold, along_deg) for f in frames), Mark())


def _front_loop(at: Frame) -> Mark:
    """A cup: the front loop lies nearer, so the arc opens upward."""
    return strokes(_bow(at, 0.06, 0.18))


def _back_loop(at: Frame) -> Mark:
    """A cap: the arc opens downward."""
    return strokes(_bow(at, 0.24, -0.18))


def _bow(at: Frame, up: float, rise: float) -> SubPath:
    """An arc 0.68 wide whose middle is at `up` and whose ends are `rise` higher."""
    bend = (at.at(-0.17, up - rise / 3.0), at.at(0.17, up - rise / 3.0), at.at(0.34, up + rise))
    return curve(at.at(-0.34, up + rise), bend)


def _front_post(at: Frame) -> Mark:
    """The hook lies over the stem of the stitch below."""
    return _below(at, behind=False)


def _back_post(at: Frame) -> Mark:
    """The hook passes behind the stem of the stitch below, and is broken there."""
    return _below(at, behind=True)


def _below(at: Frame, *, behind: bool) -> Mark:
    return hook(at.at(0.0, BEND), (-at.up[0], -at.up[1]), clasp_below(at, behind=behind), behind=behind)


def _link(at: Frame) -> Mark:
    """An extended stitch closes one loop first: a small chain at the foot, along the post."""
    centre = at.at(0.0, FOOT_GAP + LINK_ALONG)
    return strokes(ellipse(centre, LINK_ACROSS, LINK_ALONG, at.angle_deg))


def _base_chain(at: Frame) -> Mark:
    """A foundation stitch makes its own chain: a chain across the foot."""
    return strokes(ellipse(at.at(0.0, FOOT_GAP + BASE_ACROSS), BASE_ALONG, BASE_ACROSS, at.angle_deg))


_LOOPS = {"front loop": _front_loop, "back loop": _back_loop}
_HOOKS = {"front post": _front_post, "back post": _back_post}
_FORMS = {"extended": _link, "foundation": _base_chain}
_STARTS = {
    "front post": Foot(BEND),
    "back post": Foot(BEND),
    "front loop": Foot(0.25),
    "back loop": Foot(0.4),
    "extended": Foot(LINK_TOP),
    "foundation": Foot(BASE_TOP),
}
